"""Where a text states limits: a number, or several that belong together, with the words around them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.quantity import Unit, find_unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import run_at, word_lists, words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Own
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.resolve.account import digits_width, reference_sign, sign_width, unit_width
from scopecheck.resolve.claim_text import ClaimText, Piece

MOST_BEFORE = 9


@record
class Figure:
    """One number of the text: its tokens with those of its sign and its unit, and the unit."""

    start: int
    end: int
    unit: Unit | None
    spelled: bool
    digits: int
    """Its first token behind the sign."""


@record
class Stretch:
    """Tokens that may state one limit: all its words, from `start` to `end`, and its figures.

    `starts` are where the limit may begin, the longest first; the last is its first figure.
    """

    start: int
    end: int
    figures: tuple[Figure, ...]
    starts: tuple[int, ...]
    farther: int = 0
    """Where the words end with what is preferred, or with the same in another unit; 0 if neither follows."""
    sign: str = ""
    """A sign of comparison before the only number, instead of words."""
    after: int = 0
    """Where the limit before it ends: what names this one stands later."""
    beside: Unit | None = None
    """The unit of the quantity of which this is a share: '80 % of the first pressure' limits a pressure."""
    other: tuple[int, int] = (0, 0)
    """The tokens that name the quantity beside which this one is set, and of a ratio the second."""
    second: tuple[int, int] = (0, 0)
    fresh: bool = False
    """Whether the other quantity has no limit of its own: it is declared under its words here."""
    condition: int = 0
    """Where the 'if' stands of the condition that it is; 0 for what always holds."""
    begins: int = 0
    """Where 'ratio of' begins, before a ratio of two quantities."""

    under: tuple[int, int] = (0, 0)
    """The tokens of the condition under which it is measured; it begins with them, or they follow."""
    side: int = 0
    """Which side of which comparison it stands for; 0 for a limit. See `both_sides`."""
    whole: bool = False
    """Whether its words go on behind its figures with what makes another limit of it: all or none is read."""

    @property
    def ahead(self) -> bool:
        """Whether the condition stands before the limit's own words."""
        return 0 < self.under[1] < self.end

    @property
    def unit(self) -> Unit | None:
        return self.beside or next((f.unit for f in reversed(self.figures) if f.unit), None)


_FILLERS = frozenset(("in", "the", "a", "an", "of", "range"))


def uncut(texts: Sequence[str], stretch: Stretch) -> list[int]:
    """Where a line on a limit may begin: only fillers may be left out before it."""
    first = stretch.starts[int(stretch.ahead)]
    said = texts[first : stretch.starts[-1] + 1]
    fillers = next((i for i, word in enumerate(said) if word not in _FILLERS), len(said))
    return [s for s in stretch.starts if s <= first + fillers]


def figures(text: ClaimText, own: Own) -> list[Figure]:
    """The numbers of a claim's text in order; no numbers of claims, no signs of the drawings."""
    found: list[Figure] = []
    tokens, over = text.tokens, 0
    said = (places for word, places in text.where.items() if _begins(word))
    places = [at for places in said for at in places]
    places += [at for at in text.where.get("one", ()) if _more_than_one_but(text.texts, at)]
    for at in sorted(places):
        if at in text.referring or at < over:
            continue
        if not tokens[at].text[0].isdecimal():
            if not _counts_nothing(tokens, at):
                found.append(_spelled(text, at, own))
                over = found[-1].end
        elif not reference_sign(tokens, at):
            figure = _figure(text, at, own, sign_width(tokens, at, over))
            if _readable(tokens, at, figure.start):
                found.append(figure)
            over = figure.end
    return found


def _begins(word: str) -> bool:
    """Whether a number begins with a word of a text."""
    return word[0].isdecimal() or NUMBER_WORDS.get(word, 0) > 1


def _more_than_one_but(texts: list[str], at: int) -> bool:
    """`more than one but fewer than four`: a lower limit, where the words go on with an upper one."""
    behind = texts[at + 1 : at + 3]
    return (
        texts[max(0, at - 2) : at] == ["more", "than"]
        and behind[:1] in (["but"], ["and"])
        and behind[1:] != []
        and behind[1] in ("fewer", "less", "not", "no", "at", "up")
    )


def _counts_nothing(tokens: list[Piece], at: int) -> bool:
    """Is it part of other words: `three quarters`, `the larger of the two`, `one of every ten`, `no, one or`?

    Such a number is left to a mark.
    """
    said = [t.text.lower() for t in tokens[max(0, at - 4) : at + 2]]
    here = min(at, 4)
    before, after = said[:here], said[here + 1 :]
    fraction = after[:1] != [] and after[0].endswith("s") and after[0] in word_lists()["fractions"]
    which = before[-2:] == ["of", "the"] and bool(before[-3:-2]) and _picks(before[-3])
    rate = before[-1:] == ["every"] and "of" in before
    open_below = before[-4:-1] in (["zero", ",", "one"], ["no", ",", "one"], ["none", ",", "one"])
    return fraction or which or rate or open_below


def _picks(word: str) -> bool:
    return word.endswith("er") or word in ("combination", "mixture", "either", "one", "each", "both", "sum")


def _readable(tokens: list[Piece], at: int, start: int) -> bool:
    """Whether a number has one meaning: no part of '1 200', no '50/60' that may be two."""
    parts = [t.text for t in tokens[at : at + 3]]
    before = tokens[at - 1].text if at else ""
    if start == at and before in ("minus", "plus"):
        return False
    if len(parts) > 1 and parts[0].isdecimal() and parts[1].isdecimal() and len(parts[1]) == 3:
        return False
    if before.isdecimal() and len(parts[0]) == 3:
        return False
    if digits_width(tokens, at) == 3 and parts[1] == "/":
        above, below = (int(p) if p.isdecimal() else 0 for p in (parts[0], parts[2]))
        return 0 < above < below and below in _PARTS
    return True


_PARTS = frozenset((2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 32, 64, 100))
"""What a fraction is commonly of."""


def _figure(text: ClaimText, at: int, own: Own, sign: int) -> Figure:
    width = digits_width(text.tokens, at)
    more = unit_width(text, at + width - 1, own)
    after = [t.text for t in text.tokens[at + width : at + width + 2]]
    if not more and after[:1] in (["degree"], ["degrees"]) and after[1:] not in (["celsius"], ["c"], ["f"]):
        return Figure(at - sign, at + width + 1, find_unit("deg"), False, at)
    return Figure(at - sign, at + width + more, _unit(text, at + width, more, own), False, at)


def _spelled(text: ClaimText, at: int, own: Own) -> Figure:
    more = unit_width(text, at, own)
    unit = _unit(text, at + 1, more, own)
    if unit is not None and len(unit.symbol) == 1 and text.tokens[at + 1].text == unit.symbol.lower():
        return Figure(at, at + 1, None, True, at)
    return Figure(at, at + 1 + more, unit, True, at)


def _unit(text: ClaimText, at: int, width: int, own: Own) -> Unit | None:
    if not width:
        return None
    first, last = text.tokens[at], text.tokens[at + width - 1]
    return find_unit(" ".join(text.source.text[first.start : last.end].split()), own)


def stretches(text: ClaimText, own: Own) -> list[Stretch]:
    """The limits of a claim's text in order, each with the figures that belong to it."""
    texts = text.texts
    found: list[Stretch] = []
    figures_ = figures(text, own)
    at = 0
    while at < len(figures_):
        floor = found[-1].end if found else 0
        starts = _starts(texts, figures_[at].start, floor)
        used = 1
        while at + used < len(figures_) and _joined(
            texts, figures_[at + used - 1], _in_its_unit(texts, figures_[at + used : at + used + 2])
        ):
            used += 1
        used = _listed(texts, figures_[at:]) or used
        group = tuple(figures_[at : at + used])
        if (
            starts[0] > floor
            and texts[starts[0] - 1] == "neither"
            and "nor" in texts[starts[0] : group[-1].start]
        ):
            starts = (starts[0] - 1, *starts)
        end = group[-1].end
        end += by_parts(texts, end) if group[-1].unit is None else 0
        end += _closing(texts, end)
        if end < len(texts) and texts[end] == ",":
            end += (1 + closing) if (closing := _closing(texts, end + 1)) else 0
        again = _converted(texts, end, figures_[at + used :], group[-1].unit)
        sign = _sign(texts, group)
        capped = (_capped(texts, starts) if used == 1 else 0) or _denied(texts, starts)
        starts = (starts[0] - capped, *starts) if capped else starts
        after = run_at(texts, end, "clauses", "preferred")
        if _preferred(texts, starts[0]) or after:
            same = found and _of_the_same(texts, found[-1].end, end)
            if same and found[-1].unit == group[-1].unit and not found[-1].farther:
                found[-1] = replace(found[-1], farther=end + after)
        elif not (_broken(text, group[-1]) or _unlimited(texts, group, starts[0])):
            floor = figures_[at - 1].end if at else 0
            when = _condition(texts, starts[0])
            made = Stretch(starts[0], end, group, starts, again, sign, floor, condition=when)
            if_any = "if" in texts[group[-1].end : end]
            found.append(
                replace(made, whole=capped > 0 or if_any or any(_of_value(*two) for two in pairwise(group)))
            )
        at += used
        while at < len(figures_) and figures_[at].start < again:
            at += 1
    return found


def with_qualifiers(text: ClaimText, found: Sequence[Stretch]) -> list[Stretch]:
    """`between 2 N and 5 N, excluding the end values`, `0.8 N/mm, within 10 %`: each as one limit, whole."""
    texts, kept, over = text.texts, list[Stretch](), 0
    for stretch in found:
        if stretch.starts[0] < over:
            continue
        end = stretch.farther or stretch.end
        at = end + (texts[end : end + 1] == [","])
        width = run_at(texts, at, "limits", "qualifying")
        number = at + width < len(texts) and texts[at + width][0].isdecimal()
        if not width or (texts[at] == "within" and (len(stretch.figures) > 1 or not number)):
            kept.append(stretch)
            continue
        over = next((i for i in range(at + width, len(texts)) if _parts(texts, i)), len(texts))
        kept.append(replace(stretch, end=over, farther=0, whole=True))
    return kept


def with_closing(text: ClaimText, stretch: Stretch) -> Stretch:
    """`20 teeth or more`, `3 panes of glass or fewer`: with what closes it behind its noun, all or none."""
    texts, at = text.texts, stretch.end
    if at != stretch.figures[-1].end or stretch.sign or stretch.under[1]:
        return stretch
    while at < min(len(texts), stretch.end + MOST_OF_NOUN) and _of_noun(texts[at]):
        at += 1
    width = _closing(texts, at) if at > stretch.end and texts[at : at + 1] == ["or"] else 0
    return replace(stretch, end=at + width, farther=0, whole=True) if width else stretch


def with_basis(text: ClaimText, stretch: Stretch) -> Stretch:
    """`12 % moisture by weight`, `by volume at most 2 %`: with the words for its basis, all or none."""
    texts, last, first = text.texts, stretch.figures[-1], stretch.starts[0]
    plain = last.unit is not None and last.unit.symbol == "%"
    if not plain or stretch.end != last.end or stretch.under[1] or stretch.farther:
        return stretch
    at, far = stretch.end, min(len(texts), stretch.end + MOST_OF_NOUN)
    over = ("by", "each", "all")  # 'each by weight of the composition': of several of them
    while at < far and texts[at] not in over and (_of_noun(texts[at]) or texts[at] in ("a", "an")):
        at += 1
    # what goes on with 'of the composition' makes one of them (`composed`)
    if at > stretch.end and texts[at + 2 : at + 3] != ["of"] and (said := _basis(texts, at)):
        stretch = replace(stretch, end=at + 2, whole=True)
    elif said := _basis(texts, first - 2) if first > 1 else "":
        stretch = replace(stretch, start=first - 2, starts=(first - 2,), whole=True)
    unit = find_unit(PERCENT.get(BY_WHAT.get(said, ""), ""))
    figures = tuple(replace(f, unit=unit if f.unit and unit else f.unit) for f in stretch.figures)
    return replace(stretch, figures=figures)


def _basis(texts: list[str], at: int) -> str:
    """The basis that 'by weight', 'by number' says here, which may be one that no unit has; or ''."""
    said = texts[at + 1 : at + 2] if texts[at : at + 1] == ["by"] else []
    return said[0] if said and (said[0] in BY_WHAT or said[0] in _NO_UNIT) else ""


_NO_UNIT = frozenset("number count area length atoms".split())


MOST_OF_NOUN = 6
"""How many words a noun may have, with what it is of, behind which a limit is closed."""


def _of_noun(word: str) -> bool:
    stops = words("nouns", "stops") - {"of", "by", "per", "the", "said"}
    return (word[0].isalpha() or word == "-") and word not in stops


def _parts(texts: list[str], at: int) -> bool:
    """Whether a clause ends here: not at an 'and' between two values."""
    joined = texts[at] == "and" and texts[at + 1 : at + 2] and texts[at + 1] in ("a", "an", "the", "wherein")
    return texts[at] in (",", ";", ".", "wherein", "while", "when", "if") or bool(joined)


def _capped(texts: list[str], starts: Sequence[int]) -> int:
    """How many words 'limited to' has before a number with no word of a limit: without them it is another."""
    at = starts[0]
    return 2 if len(starts) == 1 and at > 1 and run_at(texts, at - 2, "limits", "capping") == 2 else 0


def _denied(texts: list[str], starts: Sequence[int]) -> int:
    """How many words 'not fall' has before a limit: without them it says the opposite."""
    at = starts[0]
    moves = at > 1 and texts[at - 1] in words("limits", "falling")
    width = 3 if texts[at - 3 : at - 1] == ["not", "to"] else 2
    if not moves or texts[at - width] != "not":
        return 0
    return width + (texts[at - width - 1] in ("does", "do"))


def by_parts(texts: list[str], at: int) -> int:
    """How many words 'parts by weight' has here."""
    return 3 * (run_at(texts, at, "limits", "parts_by") > 0)


def _closing(texts: list[str], at: int) -> int:
    """How many words end a limit here, such as 'and up'; none where these begin the next: 'at least 5'."""
    if (
        texts[at : at + 1] == ["("]
        and texts[at + 1 : at + 2]
        and texts[at + 1] in _ENDS
        and texts[at + 2] == ")"
    ):
        return 3
    width = run_at(texts, at, "limits", "closings")
    after = texts[at + width] if at + width < len(texts) else ""
    up_to = texts[at + width - 1 : at + width + 1] == ["up", "to"]
    more = (
        width > 0 and after == "of" and texts[at + width - 1].endswith("clusive")
    )  # 'exclusive of 45 degrees'
    begins = after[:1].isdigit() or after in NUMBER_WORDS or after == "than"  # another limit
    return 0 if up_to or more or begins else width


def _converted(texts: list[str], at: int, later: list[Figure], unit: Unit | None) -> int:
    """Where '(0.1 inch)' ends behind an amount: the same in another unit, in brackets; else 0."""
    if unit is None or texts[at : at + 1] != ["("] or ")" not in texts[at : at + 12]:
        return 0
    close = texts.index(")", at)
    inside = [f for f in later if at < f.start < close]
    same = inside and all(f.unit is None or f.unit.kind == unit.kind for f in inside) and inside[-1].unit
    only = inside and _all_inside([t for t in texts[at + 1 : close] if not t[0].isdecimal()][:2])
    return close + 1 if same and (only or inside[0].start == at + 1) else 0


def _preferred(texts: list[str], at: int) -> bool:
    """Whether an example or a preference begins just before a limit: it is no limit of its own."""
    while at and texts[at - 1] in (",", "."):  # 'e.g., 20 to 30 mm'
        at -= 1
    before = texts[at - 1] if at else ""
    at -= before in ("with", "of", "from", "to", "at", "in", "by")
    return any(run_at(texts, i, "clauses", "examples") >= at - i for i in range(max(0, at - 3), at))


def _of_the_same(texts: list[str], end: int, far: int) -> bool:
    """Whether a preference is one of the limit before: no '5 % of wax and optionally up to 3 % of talc'."""
    if texts[far : far + 1] != ["of"]:
        return True
    before = texts[end + 1 : end + 2] if texts[end : end + 1] == ["of"] else []
    return before == texts[far + 1 : far + 2] or not before


def _broken(text: ClaimText, last: Figure) -> bool:
    """Whether more of a unit follows than is known: `1 W/(m·K)` must not be read as watts."""
    tokens = text.tokens
    if last.end >= len(tokens):
        return False
    after, glued = tokens[last.end].text, tokens[last.end].start == tokens[last.end - 1].end
    if after == "per" or (after == "parts" and "per" in [t.text for t in tokens[last.end : last.end + 4]]):
        return True  # 'g per tablet': the amount is of something, and without it another quantity
    slashed = [t.text for t in tokens[last.end + 1 : last.end + 2]] == ["/"]
    if (
        last.unit is not None
        and after.isalpha()
        and slashed
        and tokens[last.end].end == tokens[last.end + 1].start
    ):
        return True  # 'mg KOH/g'
    if after == "times" and {t.text for t in tokens[last.end + 1 :][:1]} & {
        "the",
        "said",
        "that",
        "its",
        "their",
    }:
        return False  # a multiple of something, no number of times
    if after == "times" and (sign := [t.text for t in tokens[last.end + 1 :][:1]]) and _a_sign(*sign):
        return False  # '1.05 to 1.2 times D1'
    if last.unit is None and after in (*words("limits", "unknown_units"), "degree", "degrees"):
        return after not in ("degree", "degrees") or "celsius" in [t.text for t in tokens[last.end :][:2]]
    return (glued and after not in ",;:.)-]") or (glued and after == ":" and _digit(tokens, last.end + 1))


def _a_sign(word: str) -> bool:
    """Whether a word is the sign of a quantity: a letter, with its number."""
    return word[0].isalpha() and (len(word) == 1 or (len(word) < 4 and word[1:].isdecimal())) and word != "a"


def _digit(tokens: list[Piece], at: int) -> bool:
    return at < len(tokens) and tokens[at].text[0].isdecimal()


def _unlimited(texts: list[str], group: tuple[Figure, ...], start: int) -> bool:
    """Whether a number, read by itself, is no limit of what is named beside it."""
    by = {"x", "×"}.intersection((*texts[group[-1].end : group[-1].end + 1], texts[start - 1]))
    return bool(by) or _numbered(texts, group[0].start) or _turned(texts, start) or _of_formula(texts, group)


_JOINING = frozenset("/*×·+^")


def _of_formula(texts: list[str], group: tuple[Figure, ...]) -> bool:
    """Whether the number is an end of what is worked out of several quantities: 'f1/f < 1.2'."""
    first, end = group[0].start, group[-1].end
    if texts[first - 1 : first] in (["/"], ["per"]) or (end < len(texts) and texts[end] in _SIGNS):
        return True  # 'g/10 min', 'mL per 100 L', '0.6 < f1/f'
    at = first - 1 if _sign(texts, group) else 0
    back = 4 if at and texts[at - 1] == ")" else 2
    return not _JOINING.isdisjoint(texts[max(0, at - back) : at])


def _turned(texts: list[str], at: int) -> bool:
    """Whether words before it turn a limit round: 'never more than', 'free of any boiler of more than'."""
    if not words("limits", "turning").isdisjoint(texts[max(0, at - 2) : at]):
        return True
    for i in range(at - 1, max(0, at - 10), -1):
        if texts[i] in (",", ";", ":", ".", "and"):
            return False
        if texts[i] == "devoid" or texts[i - 1 : i + 1] in (["free", "of"], ["free", "from"]):
            return True
    return False


def _condition(texts: list[str], at: int) -> int:
    """Where the word stands by which the clause of a limit only says when something holds; else 0."""
    for i in range(at - 1, max(-1, at - 17), -1):
        if texts[i] in (",", ";", ":", "."):
            return 0
        during = texts[i] == "while" and texts[i + 1] in ("the", "a", "an", "said")
        said = during or (texts[i] in words("limits", "conditions") and not so_often(texts, i))
        if said or run_at(texts, i, "limits", "provisos"):
            return i
    return 0


def so_often(texts: list[str], at: int) -> bool:
    """Whether 'once' says how often: 'once daily', 'once or twice', and not when."""
    once = texts[at] == "once"
    return once and texts[at + 1 : at + 2] not in [[w] for w in words("limits", "once_before")]


def _numbered(texts: list[str], at: int) -> bool:
    """Whether the number is a name: Figure 2, step 3, type 4, or the item of a list."""
    before = texts[at - 1] if at else ""
    before = texts[at - 2] if before == "." and at > 1 else before
    return before in words("limits", "numbered")


_SIGNS = {"<", ">", "<=", ">=", "="}


def _sign(texts: list[str], group: tuple[Figure, ...]) -> str:
    before = texts[group[0].start - 1] if group[0].start else ""
    return before if before in _SIGNS and len(group) == 1 else ""


def _starts(texts: list[str], at: int, floor: int) -> tuple[int, ...]:
    """Where a limit with this number may begin: at a run of opening words, or at the number itself."""
    first = at = _from_one(texts, at, floor)
    while first > max(floor, at - MOST_BEFORE) and _inside(texts, first - 1):
        first -= 1
    if first and texts[first - 1].startswith("consist"):  # 'consisting essentially of' is no limit's own
        first = next((i for i in range(first, at) if texts[i] not in _OF_CONSISTING), at)
    return (*(i for i in range(first, at) if run_at(texts, i, "limits", "openings") or _than(texts, i)), at)


def _inside(texts: list[str], at: int) -> bool:
    return texts[at] in words("limits", "inside") or _than(texts, at)


def _than(texts: list[str], at: int) -> bool:
    """Whether a limit begins with a comparative here: 'hotter than', 'not warmer than'."""
    return texts[at + 1 : at + 2] == ["than"] and texts[at] in words("account", "comparatives")


_OF_CONSISTING = frozenset(("essentially", "substantially", "of", "to", "only"))


def _from_one(texts: list[str], at: int, floor: int) -> int:
    """Where a number begins with the 'one' before it: 'one to three', 'one or two'."""
    one = at - 2 >= floor and texts[at - 2 : at] in (["one", "to"], ["one", "or"])
    if one:
        return at - 2
    begin = at
    while begin > max(floor, at - MOST_BEFORE) and texts[begin - 1] in _AT_LEAST_ONE_BUT:
        begin -= 1
    least = texts[begin - 3 : begin] == ["at", "least", "one"] and texts[begin : begin + 1] in (
        ["but"],
        ["and"],
    )
    return begin - 1 if least and begin - 3 >= floor else at


_AT_LEAST_ONE_BUT = frozenset("but and not no more than at most fewer less up to preferably".split())


def _joined(texts: list[str], a: Figure, b: Figure) -> bool:
    """Whether two numbers belong to one limit: only words of limits, with a join, stand between them."""
    between = _without_exclusion(texts[_alternative(texts, a, b) : b.start])
    if a.unit is None and b.unit is not None and texts[a.start - 1 : a.start] == ["ph"]:
        return False  # 'at pH 6.8 and 37 °C'
    if between[:1] == ["("] and between[1:2] and between[1] in _ENDS and between[2:3] == [")"]:
        between = between[3:]
    if not between or len(between) > 6:
        return False
    if between == ["by"] and a.unit is not None and a.unit == b.unit:
        return True  # '40 mm by 20 mm'
    if between == ["of"] and _of_value(a, b):
        return True  # 'within 75 % to 125 % of 200 µg'
    around = between in (["around"], ["about"]) and texts[a.start] == "±"
    if around or between == ["±"] or (between == ["of"] and texts[a.start - 1 : a.start] == ["within"]):
        return True
    if between[:1] in (["-"], ["±"], ["to"], ["through"]) and _all_inside(between[1:]):
        return _alike(a, b)
    if not _HOLDING.isdisjoint(between):
        return False  # 'a pH of 5 to 6 and containing less than 1 %': two limits
    if between[0] in ("and", "or", "but", "nor") or (between[:1] == ["+"] and "-" in between):
        return _alike(a, b) and _all_inside(between[1:])
    return between[:2] == ["up", "to"] and _alike(a, b) and _all_inside(between[2:])


def _without_exclusion(between: list[str]) -> list[str]:
    """'Up to' of 'up to, but not including,' between two numbers, and of 'up to (and including)'."""
    to = between.index("to") + 1 if "to" in between else len(between)
    said = [word for word in between[to:] if word not in (",", "(", ")")]
    return between[:to] if said in _EXCLUSIONS else between


_EXCLUSIONS = [
    [*words, word]
    for words, word in (
        (("but", "not"), "including"),
        (("but",), "excluding"),
        (("not",), "including"),
        (("and",), "including"),
        (("but",), "including"),
        ((), "excluding"),
        ((), "including"),
    )
]


def _in_its_unit(texts: list[str], figures: Sequence[Figure]) -> Figure:
    """The first of two numbers, with the unit behind the second where they are a range: '2 to 5 ohm'."""
    first, second = figures[0], figures[-1]
    ranged = first.unit is None and texts[first.end : second.start] in (["to"], ["-"])
    return replace(first, unit=second.unit) if ranged else first


def _of_value(a: Figure, b: Figure) -> bool:
    """Whether a share stands before a value that it may be of: no '5 % by weight' of something."""
    plain = a.unit is not None and a.unit.symbol == "%"
    return plain and b.unit is not None and bool(b.unit.kind.dimension)


_HOLDING = frozenset(("containing", "comprising", "including", "having"))


def _alternative(texts: list[str], a: Figure, b: Figure) -> int:
    """Where `or more than 10 mm` begins behind `3 mm or less,`, and `but less than` behind `3 mm,`.

    Where the words of the first limit end, unless the second is of what follows it.
    """
    at = a.end + _closing(texts, a.end)
    if texts[at : at + 1] == [","]:
        at += 1 + _closing(texts, at + 1)
        at += at > a.end + 1 and texts[at : at + 1] == [","]
    joined = at > a.end and texts[at : at + 1] in (["or"], ["but"], ["and"])
    after = texts[b.end] if b.end < len(texts) else "."
    alone = after in (",", ";", ".", "or", "and", "wherein") or _closing(texts, b.end) > 0
    return at if joined and alone and at < b.start else a.end


_ENDS = frozenset(("inclusive", "exclusive", "included", "excluded"))


def _listed(texts: list[str], later: list[Figure]) -> int:
    """How many numbers stand in a list of which one is meant: three of '24, 28 or 32 spokes'; else 0."""
    for i, (a, b) in enumerate(pairwise(later)):
        between = texts[a.end : b.start]
        if not _alike(a, b) or between not in ([","], ["or"], ["and"], [",", "or"], [",", "and"]):
            return 0
        if between != [","]:
            return i + 2 if i else 0
    return 0


def _all_inside(texts: list[str]) -> bool:
    return all(_inside(texts, i) or t in ("/", "-") for i, t in enumerate(texts))


def _alike(a: Figure, b: Figure) -> bool:
    """Two numbers of one kind, as far as their units tell."""
    if a.unit is None or b.unit is None:
        return b.unit is not None or a.unit is None or not b.spelled
    based = b.unit.kind.basis and not a.unit.kind.basis and a.unit.symbol == b.unit.symbol.partition("(")[0]
    alike = a.unit.kind == b.unit.kind or bool(based)  # '8 bar to 10 bar gauge'
    return alike or not (a.unit.kind.dimension or b.unit.kind.dimension)
