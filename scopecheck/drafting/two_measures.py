"""Where a claim sets one measure beside another: 'less than the width of the slot', 'half the length'.

Each is found with what both of its sides measure, and of what. Where the words do not tell both, or go on
with more than a clause's end, nothing is found: the words are left to marks.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.drafting.beside import hyphen, name_of, noun_from, nounish, owner_before, uncounted, width_of
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import ORDINALS, Called, called
from scopecheck.drafting.numbers_of import ratio_of
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import word_lists, words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.vocabulary.parts import plural_of

MOST_OF_NOUN = 5
"""How many words 'first outer glass pane thickness' may have."""
MOST_BEFORE = 14
"""How many words of a limit may stand before 'times', 'half' or 'less than'."""
MOST_TO_VERB = 12
"""How many words behind an 'and' a verb is looked for that makes a clause of what follows."""

_DETERMINERS = ("the", "said", "a", "an", "its")
_LINKS = frozenset("is are being be of which that has having have".split())
_HAVING_IT = ("of", "in", "at", "within")
"""Between a measure and what has it."""
_COMPARATIVES = frozenset(
    "less more greater larger smaller higher lower longer shorter thicker thinner wider narrower deeper"
    " taller shallower bigger".split()
)
_OF_ADJECTIVES = {
    "thicker": "thickness",
    "thinner": "thickness",
    "wider": "width",
    "narrower": "width",
    "deeper": "depth",
    "shallower": "depth",
    "taller": "height",
}
_EQUALLING = (["equal", "to"], ["identical", "to"], ["different", "from"], ["the", "same", "as"])
_BEFORE = frozenset(
    "at least most not no less more than greater larger smaller equal to or about approximately substantially"
    " exceed exceeding does do from between and up only exactly essentially slightly nearly % percent".split()
)
_UNMEASURED = frozenset(
    "bore gauge aperture view number ratio amount proportion share fraction percentage quantity overlap"
    " offset inset drop noise difference stroke".split()
)
"""Nouns of measures that are as often a thing, or that say how much there is of one."""
_ONLY_WITH_MORE = frozenset("content concentration level size flow rate index value".split())
"""Nouns of measures that tell which only with another word before them."""
_TURNING = frozenset(
    "when if unless until till once while whenever whether where response event case determining determines"
    " determine determined detecting detects detect detected comparing compares compare checking monitoring"
    " after before upon during difference sum total combined optionally may can could should might neither"
    " indicating indicates indicate indicative identifying judging judges judge judged confirming confirms"
    " verifying verifies verify checks nor without except preferably".split()
)
"""Words of a clause's beginning by which what it says does not hold by itself, or not of one thing."""
_GOING_ON = frozenset(
    "is are being has have having with at less greater more no not of wherein whereby from between in larger"
    " smaller higher lower below above exceeds equal preferably comprises comprising further".split()
)
_SAYS = frozenset(
    "is are being has have having comprises comprising with lies includes including exceeds extends".split()
)
_CONDITIONS = frozenset("when if unless while during under or except in at as measured where but by".split())
"""Behind a comma these go on with what the comparison is under, or with another one."""


@record
class Comparison:
    """The tokens of a comparison, what its two sides are, and where the nouns of these end."""

    start: int
    end: int
    one: Called
    two: Called
    places: tuple[int, int]
    unit: Unit | None = None
    """That of the amount by which they differ, if one is told."""


def comparisons(text: ClaimText, stated: Sequence[Stretch]) -> list[Comparison]:
    """The comparisons of two measures in a claim's text, in order, none over another."""
    found: list[Comparison] = []
    for at in range(len(text.texts)):
        if at in text.referring or (found and at < found[-1].end):
            continue
        made = _at(text, at, stated, found)
        if made is None or (found and made.start < found[-1].end) or _turned(text.texts, made):
            continue
        if text.referring.isdisjoint(range(made.start, made.end)):
            found.append(made)
    return found


def goes_on(text: ClaimText, found: Sequence[Comparison], at: int) -> Called | None:
    """What a limit that begins here is of where it only goes on with 'and is' behind a comparison."""
    texts = text.texts
    begin = at - (texts[at - 1 : at] in (["is"], ["are"], ["being"]))
    begin -= texts[begin - 1 : begin] in (["which"], ["that"])
    if texts[begin - 1 : begin] not in (["and"], ["but"]):
        return None
    end = begin - 1 - (texts[begin - 2] == ",")
    return next((replace(c.one, fresh=False) for c in found if c.end == end), None)


def has_it_too(text: ClaimText, found: Sequence[Comparison], at: int, what: Called) -> Called:
    """A limit's noun with what has it, where 'and having a' goes on behind a comparison of the same thing."""
    texts, begin = text.texts, at
    while begin > 0 and at - begin < MOST_OF_NOUN and texts[begin - 1] not in ("and", "but"):
        begin -= 1
    having = texts[begin : begin + 2] in (["having", "a"], ["has", "a"], ["having", "an"], ["has", "an"])
    if what.owner or not (begin and having):
        return what
    end = begin - 1 - (texts[begin - 2] == ",")
    owner = next((c.one.owner for c in found if c.end == end), "")
    return replace(what, owner=owner) if owner else what


def _at(
    text: ClaimText, at: int, stated: Sequence[Stretch], found: Sequence[Comparison]
) -> Comparison | None:
    """The comparison whose core stands here, or None."""
    word = text.texts[at]
    if word == "ratio":
        return _ratio(text, at, stated)
    if word == "difference":
        return _difference(text, at, stated)
    for core, behind, measure in _cores(text, at):
        begin = _begin(text.texts, core, stated)
        if (made := _beside(text, begin, behind, measure, stated, found)) is not None:
            return made
    return None


def _cores(text: ClaimText, at: int) -> Iterator[tuple[int, int, str]]:
    """Where the words begin that compare, where what they compare with begins, and a measure they tell."""
    texts, word = text.texts, text.texts[at]
    if word in _COMPARATIVES and texts[at + 1 : at + 2] == ["than"]:
        behind = at + 2
        behind += 3 * (texts[behind : behind + 3] == ["or", "equal", "to"])
        yield at, behind, _OF_ADJECTIVES.get(word, "")
    elif word in ("exceeds", "exceed", "exceeding", "equals", "above", "below"):
        yield at, at + 1, ""
    elif width := next((len(w) for w in _EQUALLING if texts[at : at + len(w)] == w), 0):
        yield at, at + width, ""
    elif behind := _factor(texts, at):
        as_, adjective = texts[behind : behind + 1], texts[behind + 1 : behind + 2]
        told = word_lists()["adjectives"].get(adjective[0], "") if adjective else ""
        told = told if told in _OF_ADJECTIVES.values() else ""
        if as_ == ["as"] and told and texts[behind + 2 : behind + 3] == ["as"]:
            yield at, behind + 3, told
        else:
            yield at, behind, ""


def _factor(texts: list[str], at: int) -> int:
    """Where what is multiplied begins behind 'times', 'twice', 'half of', 'one third of', '50 % of'; or 0."""
    word, of = texts[at], texts[at + 1 : at + 2] == ["of"]
    if word == "times" and at and (texts[at - 1][0].isdecimal() or texts[at - 1] in NUMBER_WORDS):
        return at + 1 + 2 * (texts[at + 1 : at + 3] in _CLOSING)
    if word in ("twice", "thrice"):
        return at + 1
    if word == "half":
        return at + 1 + of
    if word in ("%", "percent"):
        closed = 2 * (texts[at + 1 : at + 3] in _CLOSING)
        return at + 2 + closed if texts[at + 1 + closed : at + 2 + closed] == ["of"] else 0
    counted = at > 0 and (texts[at - 1] in ("a", "one") or texts[at - 1] in NUMBER_WORDS)
    return at + 2 if of and counted and word in word_lists()["fractions"] else 0


_CLOSING = (["or", "more"], ["or", "less"], ["or", "greater"], ["or", "higher"])


def _begin(texts: list[str], core: int, stated: Sequence[Stretch]) -> int:
    """Where the words begin that belong to a core: 'equal to or' of 'equal to or less than'."""
    if texts[core] in ("above", "below") or texts[core + 1 : core + 2] == ["than"]:
        amount = next((s for s in stated if s.end == core and s.unit is not None), None)
        if amount is not None:
            return amount.starts[0]
    at = core
    while at > 0 and core - at < MOST_BEFORE and _before(texts, at - 1):
        several = "between" in texts[max(0, at - 6) : at - 1] or (texts[core] == "%" == texts[at - 2])
        if texts[at - 1] == "and" and not several:
            break
        at -= 1
    while at < core and texts[at] in ("to", "and", "or", "than"):
        at += 1
    return at


def _before(texts: list[str], at: int) -> bool:
    word = texts[at]
    if word == "a":
        return texts[at + 1] in word_lists()["fractions"]
    known = word in _BEFORE or word in NUMBER_WORDS or word in word_lists()["fractions"] or word == "half"
    return known or word[0].isdecimal() or (word == "of" and texts[at - 1] in word_lists()["fractions"])


def _beside(
    text: ClaimText,
    begin: int,
    behind: int,
    measure: str,
    stated: Sequence[Stretch],
    found: Sequence[Comparison],
) -> Comparison | None:
    """A comparison of what stands before its words with what stands behind them."""
    if (one := _subject(text, begin, measure, stated, found)) is None:
        return None
    other = operand(text, behind, one[0], measure)
    if other is None or not _alike(one[0], other[0]):
        return None
    two, end, place = other
    amount = next((s for s in stated if s.starts[0] == begin and _measured(s)), None)
    if text.texts[end : end + 1] == ["by"]:
        by = next((s for s in stated if s.starts[0] == end + 1), None)
        if by is None or amount is not None:
            return None
        amount, end = by, by.end
    if not _over(text.texts, end):
        return None
    unit = amount.unit if amount is not None and _measured(amount) else None
    return Comparison(begin, end, one[0], two, (one[1], place), unit)


def _measured(stretch: Stretch) -> bool:
    return stretch.unit is not None and bool(stretch.unit.kind.dimension)


def _alike(one: Called, two: Called) -> bool:
    """Whether two sides can be told apart, and are measures of one sort."""
    if (one.noun, one.owner, one.ordinal) == (two.noun, two.owner, two.ordinal):
        return False
    lengths = words("measures", "lengths")
    a, b = one.noun.split()[-1], two.noun.split()[-1]
    return a == b or {a, b} <= lengths


def _subject(
    text: ClaimText, begin: int, measure: str, stated: Sequence[Stretch], found: Sequence[Comparison]
) -> tuple[Called, int] | None:
    """What is compared, from the words before a comparison, and where its noun ends."""
    texts, at = text.texts, begin
    if beside := goes_on(text, found, begin):
        return beside, begin
    if limit := _limit_before(texts, begin, stated):
        what = called(text, limit)
        return (replace(what, fresh=False), limit.end) if what.noun and is_measure(what.noun) else None
    while at > 0 and texts[at - 1] in _LINKS:
        at -= 1
    at -= texts[at - 1 : at] == ["each"]
    at -= texts[at - 1 : at] == [","]
    start = _noun_start(text, at)
    if start == at or start == 0 or texts[start - 1] not in (*_DETERMINERS, "each", "between"):
        return None
    what = _called(text, start, at)
    noun = what.noun
    if is_measure(noun):
        owner = owner_before(text, start)
        if owner and not _has_it_alone(texts, owner, start):
            return None
        return (replace(what, owner=owner), at) if _alone(texts, start) else None
    thing = f"{what.ordinal} {noun}".strip()
    if texts[start - 1] == "between":
        thing, start = "", start + 1  # 'a distance between two adjacent pixels': of no pixel
    each = texts[start - 3 : start - 1] == ["each", "of"]
    if (texts[start - 2] in _HAVING_IT and not each) or not thing:
        end = start - 2
        first = _noun_start(text, end)
        of = _called(text, first, end) if first < end else None
        if of is not None and thing and not is_measure(of.noun) and texts[first - 2 : first - 1] == ["of"]:
            thing, end = f"{of.ordinal} {of.noun}".strip(), first - 2  # 'the width of the tip of the arm'
            first = _noun_start(text, end)
            of = _called(text, first, end) if first < end else None
        if of is not None and is_measure(of.noun) and _alone(texts, first):
            return replace(of, owner=thing), end
        return None
    if measure and _alone(texts, start):
        return Called(measure, _singular(thing) if each else thing, False), at
    return None


def _limit_before(texts: list[str], at: int, stated: Sequence[Stretch]) -> Stretch | None:
    """The limit behind which 'and is' goes on with what stands here."""
    while texts[at - 1 : at] in (["is"], ["are"], ["being"], ["which"], ["that"]):
        at -= 1
    if texts[at - 1 : at] not in (["and"], ["but"]):
        return None
    at -= 1 + (texts[at - 2] == ",")
    return next((s for s in stated if s.end == at), None)


def _singular(noun: str) -> str:
    """'Outer sublayer' of 'each of the outer sublayers'."""
    return noun[:-1] if noun.endswith("s") and plural_of(noun[:-1]) == noun else noun


def _of_noun(text: ClaimText, at: int) -> bool:
    stops = words("nouns", "stops")
    joined = text.texts[at] == "-" and hyphen(text, at)
    joined = joined or _a_relative(text.texts, at)
    return joined or (nounish(text.texts[at], stops) and text.texts[at] not in words("mention", "verbs"))


def _a_relative(texts: list[str], at: int) -> bool:
    """Whether the 'relative' of 'relative humidity' stands here."""
    behind = texts[at + 1 : at + 2]
    return texts[at] == "relative" and bool(behind) and behind[0] in words("measures", "nouns")


def _noun(text: ClaimText, at: int) -> str:
    """The words of a noun that begins here; '' if none does."""
    noun = noun_from(text, at, MOST_OF_NOUN)
    end = at + width_of(noun)
    if end < len(text.texts) and _a_relative(text.texts, end):
        return name_of(text, at, end + 2)
    return noun


def _called(text: ClaimText, start: int, end: int) -> Called:
    """A noun with its ordinal and its article."""
    texts = text.texts
    fresh = texts[start - 1] in ("a", "an")
    start = uncounted(texts, start, end)
    ordinal = texts[start] if texts[start] in ORDINALS and end - start > 1 else ""
    return Called(name_of(text, start + bool(ordinal), end), "", False, False, fresh, ordinal)


def _alone(texts: list[str], start: int) -> bool:
    """Whether a noun that begins here is no last one of several: 'the width of the rim and the lid is'."""
    at = start - (texts[start - 1] in (*_DETERMINERS, "each"))
    if at < 1 or texts[at - 1] not in ("and", "or", "to"):
        return True
    if texts[at - 1] == "to":  # 'the ratio of the width to the length', not 'heated to a temperature'
        return {"ratio", "relation", "proportion"}.isdisjoint(texts[max(0, at - MOST_BEFORE) : at])
    far = at - 2 - (texts[at - 2] == ",")
    clause = next((i for i in range(far, -1, -1) if texts[i] in (",", ";", ":", ".", "wherein")), -1)
    return texts[at - 1] == "and" and not _SAYS.isdisjoint(texts[clause + 1 : at - 1])


def _has_it_alone(texts: list[str], owner: str, start: int) -> bool:
    """Whether the noun before 'has a' has it alone: no 'first and second ribs', no 'to keep a gap'."""
    first, width = owner.split()[0].partition("-")[0].lower(), width_of(owner)
    far = range(start - width, max(0, start - width - MOST_BEFORE), -1)
    begin = next((i for i in far if texts[i] == first), 0)
    if begin > 1 and texts[begin - 1] in ("the", "said") and texts[begin - 2] in _PLACING:
        return False  # 'the frame with the lid has a width'
    begin -= begin > 0 and texts[begin - 1] in (*_DETERMINERS, "each")
    return begin < 1 or (texts[begin - 1] != "to" and _alone(texts, begin))


_PLACING = frozenset("with without of in on at by from through under over beside between".split())


def is_measure(noun: str) -> bool:
    """Whether a noun is that of a measure, which its words alone tell."""
    *more, last = noun.split() or [""]
    return last in words("measures", "nouns") - _UNMEASURED and (bool(more) or last not in _ONLY_WITH_MORE)


def operand(
    text: ClaimText, at: int, like: Called | None, measure: str = "", bare: bool = False
) -> tuple[Called, int, int] | None:
    """The measure that begins here, where its words end and where its own noun does; None if none is told.

    `like`: what 'that of the lid' and 'its width' are as; `measure`: what 'thicker than the lid' tells.
    """
    texts = text.texts
    if texts[at : at + 2] == ["that", "of"] and like is not None:
        start = at + 2 + (texts[at + 2 : at + 3] != [] and texts[at + 2] in _DETERMINERS)
        owner = _noun(text, start)
        end = start + width_of(owner)
        return (replace(like, owner=owner, fresh=False, ordinal=""), end, end) if owner else None
    said = texts[at : at + 1] != [] and texts[at] in _DETERMINERS
    if not (said or bare):
        return None
    start = at + said
    noun = _noun(text, start)
    end = start + width_of(noun)
    if not noun:
        return None
    what = replace(_called(text, start, end), fresh=said and texts[at] in ("a", "an"))
    if not is_measure(what.noun):
        what = Called(measure, f"{what.ordinal} {what.noun}".strip(), False)
        return (what, _with_of(text, end), end) if measure else None
    if texts[at] == "its":
        return (replace(what, owner=like.owner), end, end) if like is not None and like.owner else None
    place = end
    determined = texts[end + 1 : end + 2] != [] and texts[end + 1] in (*_DETERMINERS, "each")
    if texts[end : end + 1] == ["of"] or (determined and texts[end] in _HAVING_IT):
        start = end + 1 + determined
        owner = _noun(text, start)
        if not owner:
            return None
        what, end = replace(what, owner=owner, fresh=False), start + width_of(owner)
    return what, _with_of(text, end), place


def _with_of(text: ClaimText, end: int) -> int:
    """With 'of the window' behind 'the first pane'."""
    texts = text.texts
    while texts[end : end + 1] == ["of"] and texts[end + 1 : end + 2] in (["the"], ["said"], ["each"]):
        width = width_of(_noun(text, end + 2))
        if not width:
            break
        end += 2 + width
    return end


def _over(texts: list[str], end: int) -> bool:
    """Whether a comparison is over here: at the end of its clause, or before an 'and' with more to say."""
    word = texts[end] if end < len(texts) else "."
    after = texts[end + 1 : end + 2]
    if word == ",":
        if after[:1] in (["and"], ["but"]):
            return _says_more(texts, end + 2)
        return not after or after[0] not in _CONDITIONS
    if word in ("and", "but"):
        return _says_more(texts, end + 1)
    return word in (".", ";", "wherein")


def _says_more(texts: list[str], at: int) -> bool:
    """Whether what follows an 'and' is no second thing that is compared with."""
    if texts[at : at + 1] and texts[at] in _GOING_ON:
        return True
    for word in texts[at : at + MOST_TO_VERB]:
        if word in (",", ";", ".", "and", "or"):
            return False
        if word in _SAYS:
            return True
    return False


def _turned(texts: list[str], made: Comparison) -> bool:
    """Whether the clause of a comparison says when something is done, or what need not be."""
    begin = min(made.start, made.places[0])
    clause = next((i for i in range(begin - 1, -1, -1) if texts[i] in (";", ":", ".", "wherein")), -1)
    said = texts[clause + 1 : made.start]
    near = max((i for i, word in enumerate(said) if word == ","), default=-1)
    within = any(said[i + 1 : i + 3] in (["in", "which"], ["during", "which"]) for i in _times(said))
    return within or not _TURNING.isdisjoint(said) or "or" in said[near + 1 :]


def _times(said: Sequence[str]) -> list[int]:
    """Where words stand of what may only be so at times: 'a state in which the first width is greater'."""
    return [i for i, word in enumerate(said) if word in _STATES]


_STATES = frozenset("state period mode position phase case situation condition time region portion".split())


# ---- ratios and differences


def _stated_behind(text: ClaimText, end: int, stated: Sequence[Stretch]) -> Stretch | None:
    """The limit that is said of what ends here: 'is no greater than 0.7'."""
    texts = text.texts
    at = end + (texts[end : end + 1] == [","])
    while texts[at : at + 1] and texts[at] in ("is", "of", "being", "are", "which", "that", "lies"):
        at += 1
    return next((s for s in stated if s.starts[0] == at or (at in s.starts and at > end)), None)


def _ratio(text: ClaimText, at: int, stated: Sequence[Stretch]) -> Comparison | None:
    """'Ratio of the length of the bush to its width is 8 to 20', 'a ratio (length/width) of'."""
    texts = text.texts
    sides = _of_and_to(text, at, "to") or _in_brackets(text, at) or _before_ratio(text, at)
    if sides is None:
        return None
    one, two, end = sides
    begin = one[1] - width_of(one[0].noun) if one[1] < at else at - (texts[at - 1] == "aspect")
    stretch = _stated_behind(text, end, stated)
    if stretch is None or (stretch.unit is not None and stretch.unit.symbol not in ("", "%")):
        return None
    if not _alike(one[0], two[0]) or not _over(texts, stretch.end):
        return None
    return Comparison(begin, stretch.end, one[0], two[0], (one[1], two[1]))


_Side = tuple[Called, int]


def _of_and_to(text: ClaimText, at: int, joint: str) -> tuple[_Side, _Side, int] | None:
    """The two sides of 'ratio of A to B', 'difference between A and B', and where they end."""
    begin = ratio_of(text.texts, at) if joint == "to" else at + 2
    if not begin:
        return None
    joints = (joint, "and") if text.texts[begin - 1] == "between" else (joint,)
    one = operand(text, begin, None, bare=True)
    if one is None or text.texts[one[1]] not in joints:
        return None
    two = operand(text, one[1] + 1, one[0], bare=True)
    if two is None:
        return None
    first = replace(one[0], owner=one[0].owner or two[0].owner)
    return (first, one[2]), (two[0], two[2]), two[1]


def _in_brackets(text: ClaimText, at: int) -> tuple[_Side, _Side, int] | None:
    """The two sides of 'ratio (length/width)', of what has the ratio."""
    texts = text.texts
    if texts[at + 1 : at + 2] != ["("]:
        return None
    start = at + 2 + (texts[at + 2] in _DETERMINERS)
    a = _noun(text, start)
    slash = start + width_of(a)
    if not a or texts[slash : slash + 1] not in (["/"], [":"], ["to"]):
        return None
    b = _noun(text, slash + 1)
    end = slash + 1 + width_of(b)
    if not (b and is_measure(a) and is_measure(b) and texts[end : end + 1] == [")"]):
        return None
    owner = owner_before(text, at - (texts[at - 1] == "aspect"))
    return (Called(a, owner, False), slash), (Called(b, owner, False), end), end + 1


def _before_ratio(text: ClaimText, at: int) -> tuple[_Side, _Side, int] | None:
    """The two sides of 'length-to-width ratio of the slot', 'a length to width ratio'; not of each one."""
    texts = text.texts
    second = _noun_start(text, at)
    second += texts[second] == "-"
    joint = second - (texts[second - 1] == "-") - 1
    end = joint - (texts[joint - 1] == "-")
    first = _noun_start(text, end)
    if texts[joint] != "to" or not (first < end and second < at) or texts[first - 1] not in _DETERMINERS:
        return None
    a, b = name_of(text, first, end), name_of(text, second, at)
    clause = next((i for i in range(first - 1, -1, -1) if texts[i] in (",", ";", ":", ".", "wherein")), -1)
    if not (is_measure(a) and is_measure(b)) or "each" in texts[clause:first]:
        return None
    owner, behind = owner_before(text, first), at + 1
    if texts[behind : behind + 2] in (["of", "the"], ["of", "said"]):
        owner = _noun(text, behind + 2)
        behind += 2 + width_of(owner)
    return (Called(a, owner, False), end), (Called(b, owner, False), at), behind


def _noun_start(text: ClaimText, end: int) -> int:
    start = end
    while start > 0 and end - start < MOST_OF_NOUN and _of_noun(text, start - 1):
        start -= 1
    return start


def _difference(text: ClaimText, at: int, stated: Sequence[Stretch]) -> Comparison | None:
    """'A difference between the index of the core and the index of the shell is 0.1 or more'."""
    if text.texts[at + 1 : at + 2] != ["between"]:
        return None
    sides = _of_and_to(text, at, "and")
    stretch = _stated_behind(text, sides[2], stated) if sides else None
    if sides is None or stretch is None or not _over(text.texts, stretch.end):
        return None
    one, two, _ = sides
    if not _alike(one[0], two[0]):
        return None
    return Comparison(at, stretch.end, one[0], two[0], (one[1], two[1]))
