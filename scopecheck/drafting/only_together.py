"""Limits that hold only with what stands around them: of a list of which one is enough, per so much.

'One or two or more of Cr: 0.1 to 0.5 % and Ni: 0.1 to 0.5 %' asks neither of the two by itself, '200 IU per
serving of 100 mL' no serving, and 'a span defined as (D90 - D10)/D50' is none of the particles named last.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.drafting.beside import noun_before, noun_from, noun_start, whole_start, width_of
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.lists_of import listed_from
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.drafting.turned import CLAUSES, ENDS, part_end
from scopecheck.foundations.word_lists import run_at, runs, words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText, pieces_of

MOST_BACK = 24
"""How many words before a limit the words are looked for by which what it is of is defined."""
MOST_OF_PER = 6
"""How many words may stand between a 'per' and its number."""
_QUANTIFYING = frozenset(
    "one two three any or more both either all least at of the following kind kinds type types species"
    " elements element components component members member selected chosen from among group consisting"
    " a an single".split()
)
_FROM = frozenset(("of", "from", "among"))
_OPERATORS = frozenset(
    (
        "+",
        "-",
        "/",
        "*",
        "×",
        "x",
        "·",
        "divided",
        "multiplied",
        "minus",
        "times",
        "dividing",
        "multiplying",
        "subtracting",
        "adding",
    )
)


def only_together(text: ClaimText, found: Sequence[tuple[Stretch, Called]]) -> list[tuple[int, int]]:
    """The tokens of a claim that are kept together for what stands around their limits."""
    stretches = [s for s, _ in found]
    spans = _of_a_choice(text, stretches)
    spans += [span for s in stretches if (span := _per_so_much(text, s))[1]]
    spans += [(at, s.end) for s in stretches if (at := _defined(text, s))]
    spans += [span for a, b in pairwise(found) if (span := _run_on(text, a, b))[1]]
    spans += [span for a, b in pairwise(stretches) if (span := _otherwise(text, a, b))[1]]
    spans += [span for a, b in pairwise(stretches) if (span := _or_else(text, a, b))[1]]
    spans += [(a.starts[0], b.end) for a, b in pairwise(stretches) if _over(text, a, b)]
    spans += [(at, s.end) for s in stretches if (at := _without(text, s))]
    spans += [span for s in stretches if (span := _neither(text, s))[1]]
    spans += [(at, s.end) for s in stretches if (at := _parted(text, s))]
    spans += [span for s in stretches if (span := _chosen_of(text, s))[1]]
    spans += [(at, s.end) for s in stretches if (at := _from_a_value(text, s))]
    spans += [(at, s.end) for s, c in found if (at := _beside_another(text, s, c))]
    spans += [(a.starts[0], b.end) for (a, _), (b, c) in pairwise(found) if _only_there(text, a, b, c)]
    spans += [span for a, b in pairwise(stretches) if (span := _but(text, a, b))[1]]
    spans += [(s.starts[0], end) for s in stretches if (end := _or_a_number(text, s))]
    spans += [span for s in stretches if (span := _of_a_kind(text, s))[1]]
    spans += [span for s in stretches if (span := _term(text, s))[1]]
    spans += [(at, s.end) for s in stretches if (at := _changing(text, s))]
    spans += [(at, b.end) for a, b in pairwise(stretches) if (at := _changed_in_time(text, a, b))]
    spans += [(at, s.end) for s, c in found if (at := _said_of_itself(text, s, c))]
    spans += [span for s in stretches if (span := _of_a_list(text, s))[1]]
    spans += [(at, s.end) for s in stretches if (at := _of_one_done(text, s) or _none_there(text, s))]
    joined = [at for s in stretches for at in range(s.start, s.end)]
    spans += [(at, b.end) for a, b in pairwise(stretches) if (at := _step_by_step(text, a, b))]
    spans += [(at, s.end) for s in stretches if (at := _covered(text, s) or _of_one_of_two(text, s))]
    spans += [_both_ends(text, at) for at in text.where.get("neither", ()) if at not in joined]
    spans += [_parts_per_parts(text, at) for at in text.where.get("per", ())]
    return sorted(dict.fromkeys(span for span in spans if span[1]))


def _step_by_step(text: ClaimText, one: Stretch, two: Stretch) -> int:
    """Where 'in increments of 1 kPa every 5 minutes' begins: how fast something changes; else 0."""
    texts, at = text.texts, one.starts[0]
    every = texts[one.end : two.starts[0]] in (["every"], ["each"], ["per"], ["after", "every"])
    steps = texts[at - 1 : at] == ["of"] and texts[at - 2].endswith("s") and texts[at - 3] in ("in", "by")
    return at - 3 if every and steps else 0


def _covered(text: ClaimText, stretch: Stretch) -> int:
    """Where 'cover a range from 100 Hz to 10 kHz' begins: all of it, and no value that lies there; else 0."""
    texts, at = text.texts, stretch.starts[0]
    at -= texts[at - 1 : at] in (["of"], ["from"])
    begin = noun_start(texts, at) if texts[at - 1] not in _COVERING else at
    begin -= texts[begin - 1 : begin] in (["a"], ["the"])
    ranged = len(stretch.figures) > 1 and begin > 0 and texts[begin - 1] in _COVERING
    share = stretch.unit is None or not stretch.unit.kind.dimension
    return begin - 1 if ranged and not share else 0


_COVERING = frozenset("cover covers covering span spans spanning".split())


def _of_one_of_two(text: ClaimText, stretch: Stretch) -> int:
    """Where 'an alloy or a polyamide having a hardness of' begins, whose limit is one of the last; else 0."""
    texts, first = text.texts, stretch.starts[0]
    at = next((i for i in range(first - 1, max(0, first - MOST_OF_ITS), -1) if texts[i] in _HAVING_IT), 0)
    last = noun_start(texts, at) if at else 0
    if not last or last == at or texts[last - 1] not in ("a", "an") or texts[last - 2 : last - 1] != ["or"]:
        return 0
    before = last - 2 - (texts[last - 3] == ",")
    begin = whole_start(text, noun_start(texts, before), before)
    return begin - 1 if begin < before and texts[begin - 1] in ("a", "an") else 0


_HAVING_IT = ("having", "with", "whose", "has")
MOST_OF_ITS = 7
"""How many words 'having a mean outer diameter of' may have."""


def _both_ends(text: ClaimText, at: int) -> tuple[int, int]:
    """'Neither shorter than 60 mm nor longer than twice the diameter': both ends, or none."""
    texts = text.texts
    end = part_end(texts, at)
    said = texts[at:end]
    two = "nor" in said and said.count("than") > 1
    return (at, end) if two else (0, 0)


def _parts_per_parts(text: ClaimText, per: int) -> tuple[int, int]:
    """'0.05 to 0.3 parts by mass per 100 parts by mass of the powder': one amount, and no number of parts."""
    texts = text.texts
    end = per + 2
    if texts[end : end + 1] != ["parts"] or {"part", "parts"}.isdisjoint(texts[max(0, per - 3) : per]):
        return 0, 0
    end += 1 + 2 * (texts[end + 1 : end + 2] == ["by"])
    end = end + 1 + (texts[end + 1 : end + 2] == ["the"]) if texts[end : end + 1] == ["of"] else end
    end += width_of(noun_from(text, end)) if texts[end - 1] in ("of", "the") else 0
    begin = per - 1
    while begin > 0 and (_of_amount(texts, begin - 1) or texts[begin - 1] in ("parts", "part", "by", "mass")):
        begin -= 1
    while texts[begin] in ("of", "in", "a", "an", "the"):
        begin += 1
    return begin, end


def _of_a_choice(text: ClaimText, found: Sequence[Stretch]) -> list[tuple[int, int]]:
    """'One or two or more selected from the group consisting of Cr: 0.05 to 0.50 % and Ni: ...'."""
    texts, spans = text.texts, list[tuple[int, int]]()
    for first in found:
        at = first.starts[0]
        at -= 2 * (texts[at - 1 : at] == [":"])
        end = at - (texts[at - 1 : at] == [":"])
        if not at or texts[end - 1] not in _FROM or any(a <= at < b for a, b in spans):
            continue
        begin = end
        while begin > 0 and texts[begin - 1] in _QUANTIFYING:
            begin -= 1
        said = texts[begin:end]
        begin += next((i for i, word in enumerate(said) if word in _COUNTS), 0)
        if _COUNTS.isdisjoint(said) or not (
            "or" in said or "least" in said or "more" in said or "selected" in said
        ):
            continue
        far = next(
            (i for i in range(end, len(texts)) if texts[i] in (";", ".") or texts[i] in CLAUSES), len(texts)
        )
        inside = [s for s in found if first.starts[0] <= s.starts[0] < far and _of_item(texts, s)]
        if inside[-1:] != [first] or at < first.starts[0]:
            end = max(s.end for s in [first, *inside])
            end += 1 + width_of(noun_from(text, end + 1)) if texts[end : end + 1] == ["of"] else 0
            spans.append((begin, end))
    return spans


def _of_a_list(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """'At least one of A and B in an amount of 5 %', '5 % of at least one of A and B': of none by itself.

    Where the amount stands behind the list, the list is no part of it: it may have a line of its own.
    """
    texts, first = text.texts, stretch.starts[0]
    if texts[stretch.end : stretch.end + 1] == ["of"]:
        width = run_at(texts, stretch.end + 1, "choices", "openings")
        members, end = listed_from(text, stretch.end + 1 + width) if width else ((), 0)
        noun = noun_from(text, stretch.end + 1)
        end = max(end, _or_of_another(text, stretch.end + 1 + width_of(noun)) if noun else 0)
        return (first, end) if len(members) > 1 or end else (0, 0)
    begin = first
    while begin > 0 and texts[begin - 1] in _IN_AN_AMOUNT:
        begin -= 1
    said = texts[begin:first]
    if _AMOUNTS.isdisjoint(said) or texts[begin] == "of":
        return 0, 0
    begin -= texts[begin - 1] == ","
    for at in range(begin - 1, max(0, begin - MOST_OF_LIST), -1):
        if texts[at] in ENDS | CLAUSES:
            break
        width = run_at(texts, at, "choices", "openings")
        members, end = listed_from(text, at + width) if width else ((), 0)
        if len(members) > 1 and begin <= end <= begin + 1 and not noun_of_list(text, at):
            whole = at - 2 * (texts[at - 2 : at] == ["at", "least"])
            own = noun_before(text, whole)  # 'the paste comprises at least one of'
            return (begin + (texts[begin] == ",") if own else whole), stretch.end
    return 0, 0


def _of_one_done(text: ClaimText, stretch: Stretch) -> int:
    """Where 'at least one vane inclined by more than 50 degrees' begins: one of them is so; else 0."""
    texts, first = text.texts, stretch.starts[0]
    end = first - (texts[first - 1] in ("by", "at", "to", "with"))
    if end < 5 or not texts[end - 1].endswith("ed") or stretch.unit is None:
        return 0
    start = noun_start(texts, end - 1)
    return start - 3 if start < end - 1 and texts[start - 3 : start] == ["at", "least", "one"] else 0


def _none_there(text: ClaimText, stretch: Stretch) -> int:
    """Where 'zero at a head of 8 m' begins: none of what stands before, at so much of another; else 0."""
    texts, first = text.texts, stretch.starts[0]
    near = range(first - 1, max(0, first - MOST_OF_PER), -1)
    return next((i for i in near if texts[i] in ("zero", "nil", "none") and texts[i + 1] == "at"), 0)


def noun_of_list(text: ClaimText, at: int) -> str:
    """The salt of 'a salt selected from', whose amount it is; '' for 'comprising at least one of'."""
    start = noun_start(text.texts, at)
    return noun_from(text, start) if start < at and text.texts[at] not in ("at", "one", "any") else ""


def _or_of_another(text: ClaimText, at: int) -> int:
    """Where 'or of a leaven' ends behind 'of yeast'; 0 if no such words stand here."""
    if text.texts[at : at + 2] not in (["or", "of"], ["and", "of"]):
        return 0
    start = at + 2 + (text.texts[at + 2 : at + 3] in (["a"], ["an"], ["the"], ["said"]))
    width = width_of(noun_from(text, start))
    return start + width if width else 0


_AMOUNTS = frozenset("amount amounts content contents proportion quantity concentration total sum".split())
_IN_AN_AMOUNT = _AMOUNTS | frozenset(
    "in at with by of a an the total combined each being present is are which that having".split()
)
MOST_OF_LIST = 60
"""How many words before an amount the list is looked for that it is of."""
_COUNTS = frozenset(("one", "two", "three", "any", "at", "either", "both", "selected", "chosen"))


def _of_item(texts: list[str], stretch: Stretch) -> bool:
    """Whether a limit is of an item of a list: behind a colon, a comma, an 'and', or the list's opening."""
    return texts[stretch.starts[0] - 1] in (":", ",", "and", "or", *_FROM)


def _per_so_much(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """'From 200 IU to 400 IU per serving of 100 mL': the amount with what it is told by."""
    texts, first = text.texts, stretch.starts[0]
    near = range(first - 1, max(0, first - MOST_OF_PER), -1)
    at = next((i for i in near if texts[i] == "per" or not (texts[i][0].isalpha())), 0)
    if (
        not at
        or texts[at : at + 2] == ["per", "unit"]
        or texts[at] != "per"
        or noun_start(texts, first - (texts[first - 1] == "of")) != at + 1
    ):
        return 0, 0
    begin = at
    while begin > 0 and (_of_amount(texts, begin - 1)):
        begin -= 1
    while texts[begin] in ("of", "in", "a", "an", "the"):
        begin += 1
    return begin, stretch.end


def _of_amount(texts: list[str], at: int) -> bool:
    """Whether a token is a number, its unit, or a word of its limit."""
    number = texts[at][0].isdecimal() or NUMBER_WORDS.get(texts[at], 0) > 0
    unit = at > 0 and texts[at - 1][0].isdecimal()
    return number or unit or texts[at] in words("limits", "inside")


def _defined(text: ClaimText, stretch: Stretch) -> int:
    """Where 'a span, defined as (D90 - D10)/D50, of the particles is less than 1.2' begins; else 0."""
    texts, first = text.texts, stretch.starts[0]
    for at in range(first - 1, max(1, first - MOST_BACK), -1):
        if texts[at] in ENDS | CLAUSES:
            return 0
        width = run_at(texts, at, "limits", "defining")
        if width and not _OPERATORS.isdisjoint(texts[at:first]):
            end = at
            while end > 1 and (texts[end - 1] == "," or texts[end - 1] in ("is", "being", "which", "that")):
                end -= 1
            start = whole_start(text, noun_start(texts, end), end)
            return start if start < end else at
    return 0


def definitions(text: ClaimText) -> list[tuple[int, int]]:
    """The tokens of 'being defined as (D90 - D10)/D50', 'being a number of losses divided by a number of'."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in sorted(at for word in runs("limits", "defining") for at in text.where.get(word, ())):
        width = run_at(texts, at, "limits", "defining")
        end = part_end(texts, at)
        if width and not _OPERATORS.isdisjoint(texts[at + width : end]) and at not in text.taken:
            found.append((at, end))
    for at in sorted(at for word in ("divided", "multiplied") for at in text.where.get(word, ())):
        begin = next(
            (i for i in range(at, max(0, at - MOST_BACK), -1) if texts[i] in ENDS | CLAUSES | {","}), 0
        )
        measured = not (words("measures", "nouns") | {"number"}).isdisjoint(texts[begin:at])
        if texts[at + 1 : at + 2] == ["by"] and measured and at not in text.taken:
            found.append((begin + 1, part_end(texts, at)))
    return found


def _run_on(text: ClaimText, one: tuple[Stretch, Called], two: tuple[Stretch, Called]) -> tuple[int, int]:
    """'Greater than 0.1 % yet below 0.5 %': what would name the second limit is no noun of its own."""
    (a, _), (b, named) = one, two
    said = [piece.text for piece in pieces_of(named.noun)]
    alike = a.unit is not None and b.unit is not None and a.unit.kind == b.unit.kind
    if alike and said and text.texts[a.end : a.end + len(said)] == said and a.end + len(said) == b.starts[0]:
        return a.starts[0], b.end
    return 0, 0


def _over(text: ClaimText, one: Stretch, two: Stretch) -> bool:
    """Whether '20 um over any length of 100 mm', '600 MPa over a depth of 40 um' goes together."""
    begin = one.end - (text.texts[one.end - 1] in _ALONG)
    between = text.texts[begin : two.starts[0]]
    near = 3 < len(between) <= MOST_OF_PER and between[-1] == "of"
    return near and between[0] in _ALONG and between[1] in _DETERMINERS


_ALONG = ("over", "across", "along")


_DETERMINERS = frozenset(("a", "an", "any", "each", "every", "the", "said"))


MOST_WITHOUT = 12
"""How many words before a limit a 'without' is looked for."""


def _without(text: ClaimText, stretch: Stretch) -> int:
    """Where 'without a change of the voltages of more than 1 mV' begins: what is not there is so; else 0."""
    texts, first = text.texts, stretch.starts[0]
    for at in range(first - 1, max(0, first - MOST_WITHOUT), -1):
        if texts[at] in ENDS | CLAUSES | {","} or texts[at][0].isdecimal():
            return 0
        if texts[at] == "without" and texts[at + 1] in ("a", "an", "any"):
            return at
    return 0


def _or_else(text: ClaimText, one: Stretch, two: Stretch) -> tuple[int, int]:
    """'At 60 degC, or alternatively at 80 degC': one of the two is enough."""
    texts, end = text.texts, max(one.end, one.farther)
    end += texts[end : end + 1] == [","]
    other = texts[end : end + 1] == ["or"] and texts[end + 1 : end + 2] and texts[end + 1] in _ELSE
    return (one.starts[0], two.end) if other and 0 < two.starts[0] - end < 5 else (0, 0)


def _or_a_number(text: ClaimText, stretch: Stretch) -> int:
    """Where '4 mm, or 5 mm if heated' ends: the first holds in the other case only; else 0."""
    texts, end = text.texts, max(stretch.end, stretch.farther)
    end += texts[end : end + 1] == [","]
    number = texts[end : end + 1] == ["or"] and texts[end + 1 : end + 2] and texts[end + 1][0].isdecimal()
    return part_end(texts, end + 1) if number else 0


_ELSE = frozenset(("alternatively", "else", "otherwise", "at", "of", "by", "with", "for", "in", "even"))


def _neither(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """'Neither the power nor the current exceeds 40 W': of both, and the other way round."""
    texts, first = text.texts, stretch.starts[0]
    for at in range(first - 1, max(0, first - MOST_BACK), -1):
        if texts[at] in ENDS | CLAUSES or texts[at][0].isdecimal():
            return 0, 0
        if texts[at] == "neither" and "nor" in texts[at:first]:
            return at, stretch.end
    return 0, 0


def _chosen_of(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """'The largest of which makes up 1 wt%', 'max(5 s, 2 RTT)': of which of them it is open."""
    texts, first = text.texts, stretch.starts[0]
    if texts[first - 1] == "(" and texts[first - 2] in ("max", "min"):
        close = next((i + 1 for i in range(stretch.end, len(texts)) if texts[i] == ")"), stretch.end)
        return first - 2, close
    for at in range(first - 1, max(1, first - MOST_OF_CHANGE), -1):
        if texts[at] in ENDS | CLAUSES | {","} or texts[at][0].isdecimal():
            return 0, 0
        most = texts[at - 1].endswith("est") and len(texts[at - 1]) > 5 and texts[at - 2] in ("the", "a")
        if texts[at] == "of" and most and texts[at + 1] in ("which", "them", "these", "those", "the"):
            return at - 2, stretch.end
    return 0, 0


def _parted(text: ClaimText, stretch: Stretch) -> int:
    """Where 'no more than, and preferably less than, 4 mm' begins: the number has both before it; else 0."""
    texts, at = text.texts, stretch.starts[0]
    inside = words("limits", "inside")
    if texts[at - 1] != "," or texts[at - 2] not in inside - {"or", "and", "but"}:
        return 0
    at -= 1
    while at > 1 and (
        texts[at - 1] in inside or texts[at - 1] in (",", "and", "or", "preferably", "more", "most")
    ):
        at -= 1
    return at


def _from_a_value(text: ClaimText, stretch: Stretch) -> int:
    """Where 'deviates from 4 mm by no more than 5 %' begins: so far from the other; else 0."""
    texts, first = text.texts, stretch.starts[0]
    if texts[first - 1] != "by":
        return 0
    for at in range(first - 2, max(0, first - MOST_OF_CHANGE), -1):
        if texts[at] in ENDS | CLAUSES | {","}:
            return 0
        if texts[at] in words("limits", "differing"):
            return at
    return 0


def _beside_another(text: ClaimText, stretch: Stretch, what: Called) -> int:
    """Where 'a stroke relative to a body is', 'without a leak at' begins: the last named is not limited."""
    texts, first = text.texts, stretch.starts[0]
    said = [piece.text for piece in pieces_of(what.noun)]
    for end in range(first, max(0, first - 4), -1):
        at = end - len(said)
        if what.counted or not said or at < 2 or texts[at:end] != said:
            continue
        at -= texts[at - 1] in ("a", "an", "the", "said", "any")
        if said[-1] in ("sieve", "mesh", "screen") and end < first and texts[end] == "of":
            return at
        if texts[at - 1] == "without" or texts[at - 2 : at] in (
            ["free", "of"],
            ["free", "from"],
            ["devoid", "of"],
        ):
            return at - 1 - (texts[at - 1] != "without")
        way = texts[at - 1] == "to" and "from" in texts[max(0, at - MOST_OF_CHANGE) : at]
        if way or (texts[at - 1] in ("to", "with", "from") and texts[at - 2] in words("limits", "beside")):
            begin = (
                i + 1 for i in range(at - 1, 0, -1) if texts[i] in ENDS | CLAUSES | {",", "and", "having"}
            )
            return next(begin, 0)
    return 0


def _only_there(text: ClaimText, one: Stretch, two: Stretch, what: Called) -> bool:
    """Whether a limit says where another holds: 'at least 2 L/min above 5 bar'."""
    beside = two.starts[0] == one.end and text.texts[one.end] in ("above", "below", "over", "under", "beyond")
    kinds = (
        one.unit is not None and two.unit is not None and one.unit.kind.dimension != two.unit.kind.dimension
    )
    return beside and kinds and (what.unnamed or not what.noun) and kind_of(two.unit) != "time"


def _but(text: ClaimText, one: Stretch, two: Stretch) -> tuple[int, int]:
    """'40 W, but 60 W in a boost mode', 'exceeds 40 W for no longer than 2 seconds': neither holds always."""
    texts, end = text.texts, max(one.end, one.farther)
    between = texts[end : two.starts[0]]
    alike = one.unit is not None and two.unit is not None and one.unit.kind == two.unit.kind
    shares = one.unit is not None and not one.unit.kind.dimension
    of_its_own = shares and between == [",", "and"] and texts[two.end : two.end + 1] == ["of"]
    joined = between in (["but"], [",", "but"], [",", "and"]) and texts[two.end : two.end + 1] != [","]
    if alike and joined and not of_its_own:
        return one.starts[0], part_end(texts, two.end)
    within = (
        (ENDS | words("limits", "conditions")).isdisjoint(between)
        and "," not in between
        and len(between) < MOST_OF_CHANGE
    )
    share = one.unit is not None and not one.unit.kind.dimension and between[:1] == ["of"]
    if share and within and texts[two.starts[0]] in ("exceeds", "exceed", "exceeding"):
        return one.starts[0], two.end
    passes = not words("limits", "passing").isdisjoint(texts[one.starts[0] : one.starts[-1]])
    at_most = not {"no", "not", "most", "less", "up"}.isdisjoint(texts[two.starts[0] : two.starts[-1]])
    so_long = between == ["for"] and kind_of(two.unit) == "time" and at_most and not one.condition
    return (one.starts[0], two.end) if passes and so_long else (0, 0)


def _of_a_kind(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """'The number of grains having a diameter of 5 um or more is 10': of how many grains it is told."""
    texts, first = text.texts, stretch.starts[0]
    if texts[stretch.end : stretch.end + 1] not in (["is"], ["are"], ["being"], ["per"], ["among"], ["in"]):
        return 0, 0
    has = next((i for i in range(first - 1, max(0, first - 6), -1) if texts[i] in _HAVING), 0)
    for at in range(has - 1, max(0, has - MOST_OF_CHANGE), -1):
        if texts[at] in ENDS | CLAUSES | {","} or texts[at][0].isdecimal():
            return 0, 0
        if texts[at] == "of" and texts[at - 1] in words("limits", "telling_of_many"):
            return at - 1, part_end(texts, stretch.end)
    return 0, 0


_HAVING = frozenset(("having", "with", "of", "whose", "which", "that", "larger", "smaller"))


def _term(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """'The sum of 2 L and a volume of a tank', 'the square of a radius is': no thing of that name."""
    texts, first = text.texts, stretch.starts[0]
    if texts[first - 1] == "of" and texts[first - 2] in words("limits", "terms"):
        return first - 2, part_end(texts, stretch.end)
    for at in range(first - 1, max(0, first - MOST_OF_CHANGE), -1):
        if texts[at] in ENDS | CLAUSES | {","} or texts[at][0].isdecimal():
            return 0, 0
        if texts[at] in words("limits", "terms") - words("limits", "summed") and texts[at + 1] in (
            "of",
            "root",
        ):
            return at, stretch.end
    return 0, 0


def _changed_in_time(text: ClaimText, one: Stretch, two: Stretch) -> int:
    """Where 'cooled from 1100 to 600 degC within 4 minutes' begins: a change with how long it lasts, or 0."""
    begin = _changing(text, one)
    done = begin and not text.texts[begin].endswith("ing")
    return begin if done and two.starts[0] - one.end < 2 and kind_of(two.unit) == "time" else 0


def _changing(text: ClaimText, stretch: Stretch) -> int:
    """Where 'heated from 20 to 80 degC', 'rises from 2 to 3 bar' begins: a change from one to the other."""
    texts, first = text.texts, stretch.starts[0]
    begins = next((i for i in (first, first - 1) if i > 0 and texts[i] == "from"), 0)
    if (
        not begins
        or len(stretch.figures) < 2
        or "to" not in texts[stretch.figures[0].end : stretch.figures[1].start]
    ):
        return 0
    for at in range(begins - 1, max(0, begins - MOST_OF_CHANGE), -1):
        if texts[at] in ENDS | CLAUSES | {",", "to", "at", "with", "by"} or texts[at][0].isdecimal():
            return 0
        if texts[at] in words("limits", "changing"):
            return at
    return 0


def _said_of_itself(text: ClaimText, stretch: Stretch, what: Called) -> int:
    """Where 'as close as possible to 40 mm' begins behind an 'is': what names the limit is a part of it."""
    texts = text.texts
    said = [piece.text for piece in pieces_of(what.noun)]
    for end in range(stretch.starts[0], stretch.starts[0] - 4, -1):
        at = end - len(said)
        if what.unnamed or not said or at < 2 or texts[at:end] != said:
            continue
        back = at
        while back > at - MOST_OF_CHANGE and (
            texts[back - 1] in _ON_THE_WAY or texts[back - 1].endswith("ly")
        ):
            back -= 1
        known = words("measures", "nouns") | words("limits", "properties") if back < at else frozenset()
        own = said[-1] in known or said[-1] in ("integer", "number", "value", "level")
        return back if texts[back - 1] in _IS and not own else 0
    return 0


_ON_THE_WAY = frozenset("as so very too in at near close on by to of the not just".split())


_IS = frozenset(("is", "are", "being", "be", "was", "were", "lies", "lie", "remains", "stays"))
MOST_OF_CHANGE = 8
"""How many words before 'from' a verb of change is looked for."""


def _otherwise(text: ClaimText, one: Stretch, two: Stretch) -> tuple[int, int]:
    """'At most 1 % in the low-power mode and at most 10 % otherwise': neither holds always."""
    texts, end = text.texts, two.end
    between = texts[one.end : two.starts[0]]
    other = texts[end : end + 1] in (["otherwise"], ["else"], ["elsewhere"])
    if not other or not ENDS.isdisjoint(between) or len(between) > MOST_BACK:
        return 0, 0
    begin = next((i + 1 for i in range(one.starts[0] - 1, 0, -1) if texts[i] in ENDS | CLAUSES | {","}), 0)
    return begin, end + 1
