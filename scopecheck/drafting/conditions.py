"""Conditions of measuring: 'a viscosity at 25 degC of at most 500 mPa.s', 'a resistance of 3 ohm at 20 degC'.

They limit nothing: the declaration of what is measured keeps them as its note, and its line copies them.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import gerund, label_end, noun_from, noun_start, nounish, width_of
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.marks import words_at
from scopecheck.drafting.naming import Called, kind_of
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText, pieces_of

MOST_BETWEEN = 7
"""How many words may stand between 'at' and the number of a condition: 'at a pressure difference of'."""
_SAID = frozenset(("measured", "determined", "tested", "taken", "when", "as"))
_JOINTS = frozenset(("of", "is", "are", "being", "has", "to", "in", ","))
_ON_THE_WAY = frozenset(("a", "an", "the", "of"))


def before_limits(text: ClaimText, found: Sequence[Stretch]) -> list[Stretch]:
    """Takes a condition between a noun and its limit into the limit: 'a density at 20 degC of at least'."""
    made: list[Stretch] = []
    for stretch in found:
        condition = made[-1] if made else None
        if condition is not None and (at := _said_between(text, condition, stretch)):
            made[-1] = replace(stretch, start=at, after=condition.after)
            continue
        at = _between(text, condition, stretch) if condition is not None else 0
        if condition is None or not at:
            made.append(stretch)
            continue
        made[-1] = replace(
            stretch,
            start=at,
            starts=(at, *stretch.starts),
            after=condition.after,
            condition=condition.condition,
            under=(at, condition.end),
        )
    return made


def _said_between(text: ClaimText, condition: Stretch, stretch: Stretch) -> int:
    """Where ', determined by light at 20 degC,' begins before a limit, with its condition; or 0."""
    texts, end = text.texts, stretch.starts[0]
    while end > 0 and texts[end - 1] in ("of", "is", "are", "being"):
        end -= 1
    if not condition.end <= end - 1 or texts[end - 1] != "," or not _of_other_kinds(condition, stretch):
        return 0
    begin = next((i for i in range(condition.starts[0], max(0, end - 16), -1) if texts[i] == ","), 0)
    return begin if begin and texts[begin + 1] in _SAID and "," not in texts[condition.end : end - 1] else 0


def _between(text: ClaimText, condition: Stretch, stretch: Stretch) -> int:
    """Where the 'at' of a condition stands between what is measured and its limit; 0 if it is none."""
    texts = text.texts
    at = _at_before(texts, condition.starts[0])
    apart = texts[condition.end : stretch.starts[0]]
    stops = words("nouns", "stops")
    joined = len(apart) <= 4 and all(word in _JOINTS or nounish(word, stops) for word in apart)
    noun = next((i for i in range(at - 1, max(-1, at - 3), -1) if texts[i] not in _SAID), 0)
    if not at or not joined or not _a_property(texts[noun]) or not _of_other_kinds(condition, stretch):
        return 0
    return at if not apart or any(word in ("of", "is", "are", "being") for word in apart) else 0


def behind_limits(text: ClaimText, found: Sequence[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """Takes conditions behind the limit of a property into it; the property keeps the words of its own."""
    made: list[tuple[Stretch, Called]] = []
    for stretch, what in found:
        if made and not what.noun and _goes_on(text, made[-1][0], stretch):
            what = made[-1][1]
        if made and (begin := _behind(text, *made[-1], stretch)):
            before = made[-1][0]
            far = stretch.end + (0 if stretch.unit else width_of(noun_from(text, stretch.end)))
            under = (before.under[0] or begin, far) if not before.ahead else before.under
            made[-1] = (replace(before, under=under), made[-1][1])
            continue
        made.append((stretch, what))
    return [(s, replace(c, under=_noted(text, s, c) or c.under)) for s, c in made]


def _goes_on(text: ClaimText, before: Stretch, stretch: Stretch) -> bool:
    """Whether a limit is of what is limited before, under another condition: 'and 3 ohm at -10 degC'."""
    end = (before.under if before.under[1] > before.end else _moment(text, before))[1]
    between = text.texts[end : stretch.starts[0]]
    alike = before.unit == stretch.unit and text.texts[stretch.end : stretch.end + 1]
    joined = 0 < len(between) <= 3 and {"and", "but", ",", "of", "to", "at"}.issuperset(between)
    return bool(end and alike and joined and alike[0] in ("at", "before", "after", "during", "in", "on"))


def _noted(text: ClaimText, stretch: Stretch, what: Called) -> str:
    """The words that a quantity keeps as its note: its condition, or the moment behind its limit."""
    under = stretch.under if stretch.under[1] else _moment(text, stretch)
    return words_at(text, *under) if under[1] and what.noun and not what.unnamed else ""


def _moment(text: ClaimText, stretch: Stretch) -> tuple[int, int]:
    """Where 'before the drying' stands behind a limit: its quantity is not that 'after the drying'."""
    texts, at = text.texts, stretch.end
    word = texts[at] if at < len(texts) else ""
    placed = word in ("in", "at", "on", "along")
    if kind_of(stretch.unit) == "time" or stretch.condition or not (placed or word in _MOMENTS):
        return 0, 0
    said = noun_from(text, noun := _noun_behind(texts, at))
    end = noun + width_of(said)
    if not said or (placed and said.split()[-1] not in words("limits", "states_of")):
        return 0, 0
    if texts[end : end + 1] == ["of"]:
        end = (of := _noun_behind(texts, end)) + width_of(noun_from(text, of))
    end = label_end(texts, at + 1) or end
    ends = end >= len(texts) or texts[end] in (",", ";", ".", "and")
    return (at, end) if ends else (0, 0)


_MOMENTS = ("before", "after", "during")


def _noun_behind(texts: list[str], at: int) -> int:
    """Where a noun begins behind a word and its article."""
    return at + 1 + (texts[at + 1 : at + 2] in (["the"], ["said"], ["a"], ["an"]))


def _behind(text: ClaimText, stretch: Stretch, what: Called, condition: Stretch) -> int:
    """Where a condition begins behind a limit, or behind a condition there; 0 if the next number is none."""
    texts = text.texts
    at = first = max(stretch.end, stretch.farther, 0 if stretch.ahead else stretch.under[1])
    at += texts[at : at + 1] == [","]
    said = at
    while said < len(texts) and texts[said] in _SAID:
        said += 1
    told = said > at or first == stretch.under[1]
    said_by = texts[said : said + 1]
    between = texts[said + 1 : condition.starts[0]]
    named = between[:1] in (["a"], ["an"]) and "of" in between and condition.unit is not None
    ranged = said_by in (["in"], ["over"]) and "range" in between
    by_words = said_by in (["at"], ["after"]) or ranged or (said_by == ["under"] and named)
    by_words = by_words or (told and said_by == ["for"] and texts[stretch.under[0]] in _MOMENTS)
    if not by_words and not (told and said_by in (["under"], ["and"])):
        return 0
    if texts[first] == "," and (not told or said_by == ["and"]):
        return 0  # 'when measured at 20 °C, and a width of 5 mm': another limit
    # 'at 7 degC outdoors and a flow temperature of 35 degC': a value, no limit, beside the condition before.
    figure = condition.figures[0]
    value = (condition.start, condition.end) == (figure.start, figure.end)
    also = value and first == stretch.under[1] and between[:1] in (["a"], ["an"]) and "of" in between
    if texts[said] == "and" and between[:1] not in ([], ["at"], ["under"]) and not also:
        return 0
    near = condition.starts[0] > said and len(between) <= MOST_BETWEEN
    stops = words("nouns", "stops")
    if not near or not all(w in _ON_THE_WAY or w == "at" or nounish(w, stops) for w in between):
        return 0
    if said_by == ["after"] and condition.starts[0] < figure.start:
        return 0  # 'after no more than 6 hours': so soon, and no moment of measuring
    definite = value and said_by == ["at"] and between[:1] == ["the"] and "of" in between
    so_often = said_by == ["after"] and condition.unit is None and not condition.sign
    if not (named or so_often or _of_other_kinds(condition, stretch)) or not (
        told
        or definite  # 'consumes 2 kW at the air velocity of 5 m/s'
        or not _AROUND.isdisjoint(between)
        or (so_often and _a_property(what.noun.split()[-1] if what.noun else ""))
        or _is_property(text, stretch, what, condition)
    ):
        return 0
    return at


_AROUND = frozenset(("ambient", "room", "surrounding", "outdoor", "outside"))
_OF_LENGTHS = ("temperature", "pressure", "force")
"""Under what a length or an angle is measured; others tell of what is done with it."""


def _means(condition: Stretch) -> str:
    return kind_text(Called("", "", False), condition.unit).partition(" in ")[0]


def _is_property(text: ClaimText, stretch: Stretch, what: Called, condition: Stretch) -> bool:
    """Whether what is limited is measured of something, not set: not 'at a rate of 5 L/min at 20 degC'."""
    last = what.noun.split()[-1] if what.noun else ""
    named = condition.unit is not None and not condition.unit.kind.dimension
    brought_in = what.fresh and text.texts[stretch.starts[0] - 1] == "of"  # 'having a luminance of'
    lasting = brought_in and last in ("time", "life", "duration") and named
    if what.unnamed or what.counted or (kind_of(stretch.unit) == "time" and not lasting):
        return False
    if not (brought_in or _a_property(last)):
        return False
    if kind_of(stretch.unit) == "temperature" and last in words("measures", "nouns"):
        return False
    if kind_of(stretch.unit) in ("distance", "angle") and _means(condition) not in _OF_LENGTHS:
        return False
    first = max(stretch.after, stretch.starts[0] - len(pieces_of(what.noun)) - 4)
    if {"at", "under"}.intersection(text.texts[first : stretch.starts[0]]):
        return False
    return not _set_by_an_act(text, stretch, what)


def _set_by_an_act(text: ClaimText, stretch: Stretch, what: Called) -> bool:
    """Whether something is done with what is limited: 'pressing it with a force of', 'applying a load of'.

    What it is done at is a limit of its own then, and no condition of measuring. Not so of what a thing has,
    'a pump with a flow rate of', 'having a'.
    """
    texts, noun = text.texts, [piece.text for piece in pieces_of(what.noun)]
    if not noun or noun[-1] not in words("limits", "set_by_acts") | {"density"}:
        return False
    if noun[-1] == "density" and not words("limits", "set_by_acts").intersection(noun[:-1]):
        return False
    at = next((i for i in range(stretch.starts[0] - 1, stretch.after, -1) if texts[i] == noun[0]), 0)
    far = max(stretch.after, at - MOST_OF_ACT)
    while at > far and (
        nounish(texts[at - 1], words("nouns", "stops")) or texts[at - 1] in ("a", "an", "the")
    ):
        at -= 1
        if texts[at] in ("a", "an", "the"):
            break
    before = texts[at - 1] if at else ""
    if _an_act(texts, at - 1):
        return True
    if before == "with" and (begin := noun_start(texts, at - 1)) and texts[begin - 1] in ("a", "an"):
        return False
    if before not in ("in", "with", "by", "using", "through", "to", "via"):
        return False
    begin = next((i for i in range(at - 2, far, -1) if texts[i] in (",", ";", ":", ".", "wherein")), far)
    return any(_an_act(texts, i) for i in range(begin, at - 1))


def _an_act(texts: list[str], at: int) -> bool:
    """Whether a word says what is done: 'pressing', 'is pressed', and not what a thing has."""
    if at < 0 or texts[at] in words("limits", "having"):
        return False
    irregular = (
        words("mention", "after") | words("mention", "states") | {"fed", "held", "kept", "sent", "cast"}
    )
    done = texts[at].endswith("ed") or texts[at] in irregular
    return gerund(texts[at]) or (done and at > 0 and texts[at - 1] in ("is", "are", "being"))


MOST_OF_ACT = 14
"""How many words before a limit are looked at for what is done."""


def _a_property(word: str) -> bool:
    said = word.lower()
    return said in words("measures", "nouns") | words("limits", "properties") or _is_abstract(said)


def _is_abstract(word: str) -> bool:
    """Whether a noun is what things have, by its end: 'coercivity', 'reactance'; no 'cavity', 'entrance'."""
    return len(word) > 7 and word.endswith(_OF_PROPERTIES) and word not in words("limits", "no_properties")


_OF_PROPERTIES = ("ivity", "ility", "osity", "inity", "tance", "dance", "cence", "ness")


def _at_before(texts: list[str], start: int) -> int:
    """Where the 'at' stands before a number, with nothing but a noun between; 0 if none does."""
    stops = words("nouns", "stops")
    for at in range(start - 1, max(0, start - 1 - MOST_BETWEEN), -1):
        if texts[at] == "at" or (texts[at] == "under" and texts[at + 1] in ("a", "an")):
            return at
        if texts[at] not in _ON_THE_WAY and not nounish(texts[at], stops):
            return 0
    return 0


def _of_other_kinds(condition: Stretch, stretch: Stretch) -> bool:
    """Whether a condition can be one of a limit: it has a unit, of another kind."""
    if condition.unit is None or condition.sign or condition.under[1]:
        return False
    return stretch.unit is None or condition.unit.kind.dimension != stretch.unit.kind.dimension
