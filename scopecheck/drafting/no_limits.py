"""Numbers that limit nothing by themselves: names, ends of formulas, numbers of what happens or follows.

A line that restated one of them would say something else than the claim; all of them are marked.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import (
    noun_from,
    noun_start,
    nounish,
    per_width,
    process_before,
    whole_start,
    width_of,
)
from scopecheck.drafting.limits import Stretch, by_parts
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.foundations.word_lists import run_at, words
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.resolve.claim_text import ClaimText, pieces_of
from scopecheck.resolve.cut_short import once_it_changes
from scopecheck.text.stream import stem

MOST_BACK = 17
"""How many words before a limit the word is looked for that makes its clause an event."""
MOST_ON = 8
"""Of how many words before a number a 'measured at' is looked for, at least."""
_PARTING = frozenset((",", ";", ":", "."))
_CLAUSES = frozenset("is are has have lies exceeds".split())
"""With one of these, words behind 'or' are a clause of their own."""
_WORKED_OUT = frozenset("/+*×·")
_OFTEN = frozenset(("once", "twice", "thrice"))
_DETERMINERS = frozenset(("a", "an", "the", "said", "one", "any", "each"))


def limits_nothing(text: ClaimText, stretch: Stretch, what: Called) -> tuple[int, int]:
    """The tokens to be kept whole of a number that limits nothing that can be named; (0, 0) for a limit."""
    return (
        _filled_up(text, stretch)
        or _one_of_two(text.texts, stretch)
        or _when_it_changes(text, stretch)
        or _as_high_as(text, stretch)
        or _of_two(text.texts, stretch)
        or _no_limit(text, stretch, what)
    )


def _one_of_two(texts: list[str], stretch: Stretch) -> tuple[int, int] | None:
    """The tokens of '4 to 8 mm or the gap is closed', of 'or the gap is at least 2 mm': either is enough."""
    start, end = stretch.starts[0], stretch.end
    at = end + (texts[end : end + 1] == [","])
    if texts[at : at + 1] == ["or"]:
        over = next((i for i in range(at, len(texts)) if texts[i] in _PARTING), len(texts))
        if not _CLAUSES.isdisjoint(texts[at + 2 : over]):
            return start, over
    for i in range(start - 1, max(0, start - MOST_BACK), -1):
        if texts[i] in _PARTING:
            return None
        if texts[i] == "or" and not _CLAUSES.isdisjoint(texts[i + 2 : start]):
            return i, end
    return None


def _when_it_changes(text: ClaimText, stretch: Stretch) -> tuple[int, int] | None:
    """The tokens of 'before the pressure falls below 3 bar', of no condition that a line is made of, and of
    'by which the heat exceeds 40 °C'."""
    for i in range(stretch.starts[0] - 1, max(1, stretch.starts[0] - MOST_BACK), -1):
        if text.texts[i] in _PARTING:
            break
        if text.texts[i - 1 : i + 1] == ["by", "which"]:
            return i - 1, stretch.end
    found = None if stretch.condition else once_it_changes(text, stretch.starts[0], frozenset())
    return (found[0], stretch.end) if found else None


def _of_two(texts: list[str], stretch: Stretch) -> tuple[int, int] | None:
    """The tokens of steps by which something changes, of a proportion, of a share of what is measured so."""
    start, end = stretch.starts[0], stretch.end
    if at := _by_steps(texts, start) or _proportion_to(texts, start):
        return at, end
    far = _of_one_measured_so(texts, stretch)
    return (start, far) if far else None


def _filled_up(text: ClaimText, stretch: Stretch) -> tuple[int, int] | None:
    """The tokens of 'the balance to 100 % lactose', if these are the words around a number."""
    texts, end = text.texts, stretch.end
    if (at := _rest_to(texts, stretch)) is None:
        return None
    behind = end + 2 * (texts[end : end + 1] == ["by"])
    behind += texts[behind : behind + 1] in (["being"], ["of"], ["is"], ["with"])
    behind += texts[behind : behind + 1] in (["a"], ["an"], ["the"])
    return at, behind + width_of(noun_from(text, behind))


def _as_high_as(text: ClaimText, stretch: Stretch) -> tuple[int, int] | None:
    """The tokens of 'twice as high as the body', which is no number of times."""
    texts, end = text.texts, stretch.end
    if texts[end - 1] not in _OFTEN or texts[end : end + 1] != ["as"] or texts[end + 2 : end + 3] != ["as"]:
        return None
    noun = end + 3 + (texts[end + 3 : end + 4] != [] and texts[end + 3] in _DETERMINERS)
    return stretch.starts[0], noun + width_of(noun_from(text, noun))


def _no_limit(text: ClaimText, stretch: Stretch, what: Called) -> tuple[int, int]:
    texts = text.texts
    start, end = stretch.starts[0], stretch.end
    if (at := _event(texts, stretch)) and not stretch.condition:
        return at, end
    if texts[end : end + 2] == ["or", "so"]:
        return stretch.start, end + 2
    if (far := _turned_over(texts, start)) is not None:
        return far, end
    if start > 2 and texts[start - 1] in ("latest", "earliest") and texts[start - 2] == "the":
        return start - 3, end
    if not stretch.condition and (at := _of_some(texts, start)):
        return at, end + (len(pieces_of(what.noun)) if what.counted else 0)
    asides = (_measuring(texts, stretch), _half_of(texts, start), _base_of_parts(texts, stretch))
    if at := next(filter(None, asides), 0):
        return at, end
    if stretch.unit is not None and not stretch.under[1] and _limit_behind(texts, end):
        return start, end
    if what.counted and texts[start - 1 : start] and texts[start - 1] in words("limits", "events"):
        return start - 1, end
    if _diluted(texts, start, end) or texts[end : end + 2] in (["divided", "by"], ["multiplied", "by"]):
        return start, end + 1
    if of := _without_unit(texts, stretch, what) or _placed(texts, stretch):
        return of, end
    if what.counted and (what.noun in _UNNAMED or stem(what.noun.split()[-1]) in _SIZES):
        return start, end + len(pieces_of(what.noun))  # 'at least four pipe diameters'
    if (
        texts[end : end + 1] == ["or"]
        and texts[end + 1 : end + 2]
        and texts[end + 1] in words("limits", "better")
    ):
        return start, end + 2
    if kind_of(stretch.unit) == "time" and texts[start - 1] == "after":
        return start - 1, end
    if texts[start - 2 : start] in (["for", "every"], ["for", "each"], ["per", "every"]):
        return start - 2, end
    if _named_so(texts, stretch) or texts[end : end + 1] == ["thereof"]:
        return max(0, start - 1), end
    if at := _surpassing(texts, stretch):
        return at, end
    if per := _per(texts, end, what.counted) or (_for_each(texts, end) if what.counted else 0):
        behind = next((i + 1 for i in range(end, per) if texts[i] == "per"), per)
        return start, max(per, behind + width_of(noun_from(text, behind)))
    if at := _so_many_per(texts, start) or _worked_out(text, stretch):
        return at, end
    if often := _how_often(texts, end):
        return stretch.start, often
    return 0, 0


def _rest_to(texts: list[str], stretch: Stretch) -> int | None:
    """Where 'the balance to 100 %', 'q.s. to 100 %' begins, of what fills something up; or None."""
    start = stretch.figures[0].start
    if texts[stretch.figures[0].digits] != "100" or texts[start - 1 : start] not in (["to"], ["ad"]):
        return None
    begin = start - 1 - (texts[start - 2] in ("up", "it"))
    left = words("asides", "what_is_left") | {"rest", "s", "made", "make", "making"}
    if texts[begin - 1] == ".":
        begin -= 1
    if texts[begin] != "ad" and texts[begin - 1] not in left:
        return None
    begin -= texts[begin - 1] in left
    begin -= 2 * (texts[begin - 2 : begin] == ["q", "."])
    begin -= texts[begin - 1] == "to"
    if texts[begin - 1] == "the" or texts[begin] in words("mention", "remainders"):
        return begin - (texts[begin - 1] in ("the", "a"))
    return noun_start(texts, begin)


def _turned_over(texts: list[str], start: int) -> int | None:
    """Where words begin that make another limit of one: 'outside the range of', 'not fall short of'.

    So do 'as low as', an absolute value, a ratio with a stroke, and what stands between two signs.
    """
    if texts[max(0, start - 4) : start - 3] and texts[start - 1] in _SIGNS and texts[start - 3] in _SIGNS:
        return start - 4
    if texts[max(0, start - 3) : start - 2] == ["as"] and texts[start - 1] == "as":
        return start - 3
    for at in range(start - 1, max(-1, start - MOST_BACK), -1):
        if texts[at] in _PARTING or texts[at] in ("wherein", "whereby"):
            return None
        stroke = texts[at] == "ratio" and not {"/", ":"}.isdisjoint(texts[at + 1 : start])
        if texts[at] == "outside" or texts[at : at + 2] == ["absolute", "value"] or stroke:
            return at
        if texts[at : at + 2] in (["fall", "short"], ["falls", "short"], ["falling", "short"]):
            return at - (texts[at - 1] == "not")
    return None


_SIGNS = frozenset(("<", ">", "<=", ">=", "≤", "≥", "="))


def _by_steps(texts: list[str], start: int) -> int:
    """Where 'in steps of' begins before a number: by how much something changes at a time; else 0."""
    steps = ("steps", "increments", "decrements", "stages", "intervals", "instalments")
    said = (
        texts[start - 1 : start] == ["of"] and texts[start - 2] in steps and texts[start - 3] in ("in", "by")
    )
    return start - 3 if start > 2 and said else 0


def _proportion_to(texts: list[str], start: int) -> int:
    """Where 'the proportion of A and B to C is' begins, which is limited as a ratio of the two; else 0."""
    to = 0
    for at in range(start - 1, max(0, start - 3 * MOST_BACK), -1):
        if texts[at] in _PARTING or texts[at] == "wherein" or texts[at][0].isdecimal():
            return 0
        if texts[at] == "to" and at < start - 1 and texts[at + 1] not in _AMOUNTS_SAID:
            to = at
        if texts[at] in _PROPORTIONS and texts[at + 1] == "of" and to > at + 2:
            return at
    return 0


_PROPORTIONS = ("proportion", "relation", "quotient", "relationship")
_AMOUNTS_SAID = ("at", "a", "an", "be", "more", "less", "not", "no", "from", "between")


def _of_one_measured_so(texts: list[str], stretch: Stretch) -> int:
    """Where 'at 20 degC' ends behind a share of what is measured so: 'at least 40 % of the coercivity at'."""
    share = stretch.unit is not None and not stretch.unit.kind.dimension
    if not share or texts[stretch.end : stretch.end + 1] != ["of"]:
        return 0
    far = next((i for i in range(stretch.end, len(texts)) if texts[i] in _PARTING), len(texts))
    for at in range(stretch.end + 2, min(far - 1, stretch.end + MOST_BACK)):
        if texts[at] in ("at", "under") and texts[at + 1][0].isdecimal():
            behind = (i for i in range(at + 2, far) if texts[i] in ("and", "or", "when", "if", "wherein"))
            return next(behind, far)
    return 0


def _diluted(texts: list[str], start: int, end: int) -> bool:
    """`a 10 wt% dispersion in water has a pH`: in which strength something is measured."""
    made = words("limits", "diluted")
    return texts[max(0, start - 1) : start] in (["a"], ["an"]) and not made.isdisjoint(texts[end : end + 2])


def _half_of(texts: list[str], start: int) -> int:
    """Where 'half of a field of view is' begins before a limit: half of it is limited, which has no name."""
    for at in range(start - 1, max(0, start - MOST_BACK), -1):
        if texts[at] in _PARTING or texts[at][0].isdecimal():
            return 0
        if texts[at : at + 2] == ["half", "of"]:
            return at
    return 0


_UNNAMED = ("unit", "units")
"""So many are one thing here, another there."""
_SIZES = frozenset("length width height diameter thickness radius depth".split())


def _placed(texts: list[str], stretch: Stretch) -> int:
    """Where ', at the rims of 4 mm' begins, or 'at a speed of 8 m/s' behind a unit not known; else 0."""
    for at in range(stretch.starts[0] - 1, max(1, stretch.starts[0] - 6), -1):
        if texts[at] in _PARTING:
            return 0
        if texts[at] not in ("at", "along", "near", "over"):
            continue
        strange = texts[at - 1] in words("limits", "unknown_units")
        strange = strange or (texts[at] == "over" and texts[at - 1] in ("%", "percent"))
        behind = strange or (texts[at - 1] == "," and stretch.after >= at - 2)
        return at if behind and texts[stretch.starts[0] - 1] == "of" else 0
    return 0


def _without_unit(texts: list[str], stretch: Stretch, what: Called) -> int:
    """Where a number of what is measured in some unit begins that has none: 'a power of two'; else 0."""
    at, end = stretch.starts[0], stretch.end
    if stretch.unit is not None or what.counted or what.unnamed or not what.noun:
        return 0
    beside = run_at(texts, end, "limits", "relations") or "twice" in texts[at:end]
    ratio = "ratio" in texts[max(0, at - 2 * MOST_BACK) : at]
    if beside or ratio or what.noun.split()[-1] not in words("measures", "with_units"):
        return 0
    return at - 2 * (texts[at - 2 : at] == ["power", "of"])


def _how_often(texts: list[str], end: int) -> int:
    """Where words end that say how often something is done, as in 'rolled at least twice'; else 0."""
    often = end if texts[end - 1 : end] and texts[end - 1] in _OFTEN else 0
    often = end + 1 if texts[end : end + 1] == ["times"] else often
    after = texts[often : often + 1]
    return often if often and (not after or after[0] in _PARTING or after[0] in ("and", "or", "in")) else 0


def _event(texts: list[str], stretch: Stretch) -> int:
    """Where 'after' stands before what happens: 'after the temperature has fallen below 70 degC'; else 0."""
    happening = words("limits", "happening")
    met = False
    for i in range(stretch.start - 1, max(-1, stretch.start - MOST_BACK), -1):
        if texts[i] in _PARTING:
            return 0
        parted = texts[i] in _DETERMINERS and texts[i - 1] not in words("limits", "events")
        if met and parted and texts[i - 1] not in ("of", "in", "on", "by"):
            return 0  # 'after the drying the textile has'
        met = met or texts[i] in happening
        if texts[i] in words("limits", "events"):
            met = met or texts[stretch.starts[0]] in happening
            return i if met and texts[i + 1] in _DETERMINERS | {"two", "three", "four", "five"} else 0
    return 0


def _measuring(texts: list[str], stretch: Stretch) -> int:
    """Where 'measured at' begins before the number of a condition; else 0."""
    for i in range(stretch.starts[0] - 1, max(0, stretch.starts[0] - MOST_ON - 4), -1):
        if texts[i] in _PARTING:
            return 0
        how_well = texts[i + 1 : i + 2] == ["with"] and texts[i + 3 : i + 4] in _HOW_WELL
        if texts[i] in _MEASURED and texts[i + 1] in _MEASURED_SO and not how_well:
            by = texts[i + 1] != "by" or texts[stretch.starts[0] - 1] in ("at", "for")
            return i if by or texts[stretch.starts[0]] == "for" else 0
    return 0


def _limit_behind(texts: list[str], end: int) -> bool:
    """Whether the limit proper follows with an 'of': 'an expansion between 20 and 300 degC of 8 to 9'."""
    if texts[end + 1 : end + 4] in ONE_OR_MORE and texts[end + 4 : end + 5] not in (["of"], ["selected"]):
        return False  # '2 wt% of at least one wax'
    after = texts[end + 1 : end + 2]
    opening = after and (after[0][0].isdecimal() or run_at(texts, end + 1, "limits", "openings"))
    return texts[end : end + 1] == ["of"] and bool(opening)


_HOW_WELL = (["error"], ["accuracy"], ["resolution"], ["precision"], ["uncertainty"], ["deviation"])
_MEASURED = frozenset(("measured", "determined", "tested"))
_MEASURED_SO = frozenset(
    "at under with in according by using within over during for after every across".split()
)


def surroundings(text: ClaimText, stretch: Stretch, what: Called, steps: Sequence[tuple[int, int]]) -> bool:
    """Whether a temperature or a voltage is only where something else holds: 'at 20 degC', of no step."""
    texts, at = text.texts, stretch.starts[0]
    if not at or texts[at - 1] != "at" or stretch.unit is None or stretch.under[1]:
        return False
    if any(start < at < end for start, end in steps):
        return False
    if not what.noun or what.unnamed:
        return not process_before(["for", *texts[: at - 1]], at)
    noun = what.noun.removesuffix(f" {kind_of(stretch.unit)}")
    before = at - 1 - len(pieces_of(noun))
    if noun == what.noun and _an_object(texts, before, at - 1):
        return True
    there = noun != what.noun and [t.text for t in pieces_of(noun)] == texts[before : at - 1]
    return there and texts[before - (texts[before - 1] in _DETERMINERS) - 1] == "of"


def _an_object(texts: list[str], start: int, end: int) -> bool:
    """Whether a noun is what something is done to: 'samples an altitude at 50 Hz'."""
    stops, measures = words("nouns", "stops"), words("measures", "nouns")
    told = start > 1 and texts[start - 1] in _DETERMINERS and measures.isdisjoint(texts[start:end])
    return told and nounish(texts[start - 2], stops) and texts[start - 2] not in measures


def _named_so(texts: list[str], stretch: Stretch) -> bool:
    """Whether the number is part of a name: 'polysorbate 20, polysorbate 80'."""
    start, end = stretch.starts[0], stretch.end
    bare = stretch.unit is None and end - start == 1 and len(stretch.figures) == 1 and not stretch.sign
    if not bare or start == 0 or texts[end : end + 1] not in ([","], [";"], ["."], ["and"], ["or"], [":"]):
        return False
    before = texts[start - 1]
    measure = words("measures", "nouns") | words("limits", "properties")
    return nounish(before, words("nouns", "stops")) and before not in measure and len(before) > 2


def _base_of_parts(texts: list[str], stretch: Stretch) -> int:
    """Where 'with respect to 100 parts by weight' begins: of how much the others are parts; else 0."""
    first = stretch.starts[0]
    if stretch.unit is not None or not by_parts(texts, stretch.figures[-1].end):
        return 0
    for at in range(first - 1, max(0, first - 4), -1):
        width = run_at(texts, at, "limits", "relations")
        if width == first - at > 1 or texts[at:first] in (
            ["per"],
            ["for"],
            ["for", "every"],
            ["to", "every"],
        ):
            return at
    return 0


def _surpassing(texts: list[str], stretch: Stretch) -> int:
    """Where 'exceeding the diameter by' begins before a difference; else 0."""
    at = stretch.starts[0]
    if at < 2 or texts[at - 1] != "by":
        return 0
    for i in range(at - 2, max(-1, at - MOST_BACK), -1):
        if texts[i] in _PARTING:
            return 0
        if texts[i] in words("limits", "surpassing"):
            return i
    return 0


_THOSE = ("the", "said", "these", "those", "them", "which", "a", "an")
_HOW_MANY = ("at", "least", "most", "exactly", "only", "more", "than")
_AT_EACH = ("for", "on", "in", "at", "to", "of", "from", "per")


def _per(texts: list[str], end: int, counted: bool) -> int:
    """Where 'warp yarns per cm', 'of salt per kg' ends behind a number; 0 where no 'per' follows the noun."""
    end += 0 if counted else 2 * (texts[end : end + 1] == ["of"])
    end -= not counted and texts[end - 1 : end] not in (["the"], ["a"], ["an"], ["said"])
    if not counted and texts[end - 1 : end] != ["of"] and texts[end - 2 : end - 1] != ["of"]:
        return 0
    for at in range(end + 1, min(len(texts) - 1, end + (4 if counted else 14))):
        if width := per_width(texts, at):
            return at + width
        passed = texts[at - 1] not in (*_PARTING, "and", "or") or texts[at - 2] == "claims"
        if not (nounish(texts[at - 1], words("nouns", "stops")) if counted else passed):
            return 0
    return 0


def _of_some(texts: list[str], start: int) -> int:
    """Where 'at least two of the blades have' begins before a limit: it is one of so many of them; else 0."""
    for i in range(start - 1, max(0, start - MOST_BACK), -1):
        if texts[i] in _PARTING or texts[i] in ("wherein", "whereby"):
            return 0
        share = texts[i - 1] in _PER_CENT and {"and", "or", "which"}.isdisjoint(texts[i + 1 : start])
        if texts[i] != "of" or texts[i + 1] not in _THOSE or not (share or _so_many(texts[i - 1])):
            continue
        if texts[i + 1] in ("which", "them") or not words("parts", "having").isdisjoint(texts[i + 2 : start]):
            begin = i - 1 - (texts[i - 1] in _PER_CENT)
            while begin > 1 and texts[begin - 1] in _HOW_MANY:
                begin -= 1
            return begin
    return 0


_PER_CENT = ("%", "percent")


def _so_many(word: str) -> bool:
    return word in NUMBER_WORDS or word.isdecimal() or word in ("some", "most", "half", "majority", "several")


def _for_each(texts: list[str], end: int) -> int:
    """Where 'pins (8) for each blade' ends behind a number of pins; 0 where they are not told so."""
    at = end
    while at < min(len(texts) - 2, end + 8):
        if texts[at] == "(":
            at = next((i for i in range(at, len(texts)) if texts[i] == ")"), len(texts)) + 1
        elif texts[at] in _AT_EACH and texts[at + 1] in ("each", "every"):
            far = at + 2
            while texts[far : far + 1] and texts[far] in ("of", "the", "said"):
                far += 1
            return min(far + 1, len(texts))
        elif not nounish(texts[at], words("nouns", "stops")):
            return 0
        else:
            at += 1
    return 0


def _taken_off(text: ClaimText, at: int) -> bool:
    """Whether 'n1 - n2' is one less than the other here, or 'A:B' one to the other: no hyphen, no list."""
    before, sign, after = text.tokens[at - 1], text.tokens[at], text.tokens[at + 1]
    spaced = before.end < sign.start and sign.end < after.start
    glued = before.end == sign.start and sign.end == after.start
    return before.text[0].isalpha() and ((sign.text == "-" and spaced) or (sign.text == ":" and glued))


def _so_many_per(texts: list[str], start: int) -> int:
    """Where 'the number of perforations per cm2 being' begins before a limit; else 0."""
    at = start
    while at > 1 and texts[at - 1] in ("is", "being", "of", "are"):
        at -= 1
    noun = noun_start(texts, at)
    if noun == at or texts[noun - 1] != "per":
        return 0
    near = range(noun - 2, max(0, noun - 8), -1)
    return next((i for i in near if texts[i : i + 2] == ["number", "of"]), 0)


def _with_brackets(texts: list[str], at: int) -> int:
    """Where 'a span (D90 - D10)/D50' begins, from the bracket that closes here, or the letter."""
    if texts[at] != ")" or "(" not in texts[:at]:
        return max(1, at)
    begin = max(i for i in range(at) if texts[i] == "(")
    return noun_start(texts, begin)


def _worked_out(text: ClaimText, stretch: Stretch) -> int:
    """Where a term begins that is worked out of several quantities: 'Mn/C is 10 or more'; else 0."""
    texts, at = text.texts, stretch.starts[0]
    while at > 0 and (texts[at - 1] in words("measures", "between") or texts[at - 1] == ":"):
        at -= 1
    start = whole_start(text, at - 1, at)
    if start > 1 and texts[start - 1] in _WORKED_OUT and start - 1 not in text.inside:
        return _with_brackets(texts, start - 2)
    return start - 2 if start > 2 and _taken_off(text, start - 1) else 0
