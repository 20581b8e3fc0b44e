"""What a limit is of: the quantity and the thing that has it, from the words beside its number."""

from __future__ import annotations

from scopecheck.drafting.limits import Stretch
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import record
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.declared import NEVER_IN_NAMES
from scopecheck.text.lists import word_lists, words

MOST_WORDS = 3
_OF_WHAT = ((("mass", 1),), (("length", 3),), (("amount", 1),))
"""What `2 g of grease` measures: mass, volume, amount of substance."""


@record
class Called:
    """The noun for what is limited, and the noun of what has it; '' where the words do not tell."""

    noun: str
    owner: str
    counted: bool
    unnamed: bool = False
    """The words give no noun, and the noun is only that of the kind: no two limits share it."""


def called(text: ClaimText, stretch: Stretch) -> Called:
    """The nouns for a limit, from the words after it where these tell, else from those before it."""
    return _after(text, stretch) or _before(text, stretch)


# ---- the words after a limit


def _after(text: ClaimText, stretch: Stretch) -> Called | None:
    texts = _texts(text)
    at, unit = stretch.end, stretch.unit
    word = texts[at] if at < len(texts) else ""
    if unit is not None and word in (table := word_lists()["adjectives"]):
        return Called(table[word], _owner_before(text, stretch.start), False)
    if word == "in" and at + 1 < len(texts) and texts[at + 1] in words("measures", "nouns"):
        return Called(texts[at + 1], _owner_before(text, stretch.start), False)
    if unit is None:
        return _parts_by(text, at) or _counted(text, stretch)
    if unit.kind.dimension in _OF_WHAT and word != "of":
        return None
    if unit.kind.dimension in _OF_WHAT or (
        not unit.kind.dimension and not _amount_before(texts, stretch.start)
    ):
        start = at + 1 if word == "of" else at
        while start < len(texts) and texts[start] in ("a", "an", "the", "said"):
            start += 1
        noun = noun_from(text, start)
        if noun and noun.split()[-1] not in words("measures", "nouns") and noun.split()[0] not in ("total",):
            return Called(noun, "", False)
    return None


def _amount_before(texts: list[str], at: int) -> bool:
    """`wax in an amount of 5 %`, `a content of 5 %`: what is meant stands before the number."""
    before = texts[max(0, at - 4) : at]
    said = words("measures", "nouns") | {"is", "are", "present", "amounts"}
    return not said.isdisjoint(before)


def _parts_by(text: ClaimText, at: int) -> Called | None:
    """`60 parts by weight of a wax`: a plain number of the wax."""
    texts = _texts(text)
    if texts[at : at + 2] not in (["parts", "by"], ["part", "by"]) or texts[at + 3 : at + 4] != ["of"]:
        return None
    start = at + 4
    while start < len(texts) and texts[start] in words("nouns", "determiners"):
        start += 1
    noun = noun_from(text, start)
    return Called(f"{noun} parts", "", False) if noun else None


def _counted(text: ClaimText, stretch: Stretch) -> Called | None:
    """`at least six holes`: so many of what stands next."""
    if len(stretch.figures) > 2 or any("." in text.tokens[f.start].text for f in stretch.figures):
        return None
    last = stretch.figures[-1]
    noun = noun_from(text, max(stretch.end, last.end))
    one = noun.split()[-1:] if noun else []
    if not one or not one[0].endswith(("s", "eeth", "eet", "en", "ices")) or one[0] in ("degrees", "times"):
        return None
    return Called(noun, "", True)


def noun_from(text: ClaimText, at: int) -> str:
    """The words of a noun that begins here: up to three, before a word that is no part of one; '' if none."""
    texts, stops = _texts(text), words("nouns", "stops")
    end = at
    while end < len(texts) and end - at < MOST_WORDS + 1 and _nounish(texts[end], stops):
        end += 1
    while end - at > 1 and texts[end - 1].endswith(("ed", "ing", "ly")):
        end -= 1
    return _spelled(text, at, end) if 0 < end - at <= MOST_WORDS else ""


def _nounish(word: str, stops: frozenset[str]) -> bool:
    return word[0].isalpha() and word not in stops and word not in NEVER_IN_NAMES


# ---- the words before a limit


def _before(text: ClaimText, stretch: Stretch) -> Called:
    texts, stops = _texts(text), words("nouns", "stops")
    between, at = words("measures", "between"), stretch.start
    verb = ""
    while at > 0 and at > stretch.start - 12:
        word = texts[at - 1]
        if word == ")" and "(" in texts[max(0, at - 6) : at - 1]:
            at = max(i for i in range(max(0, at - 6), at - 1) if texts[i] == "(")
        elif word in between or word in ("for", "from", "and", "or"):
            verb = verb or _process(texts, at - 1)
            if word in ("for", "and", "or") and not verb:
                break
            at -= 1
        else:
            break
    quantity = _quantity(stretch.unit)
    if quantity and (verb or (at > 0 and (verb := _process(texts, at)))):
        return Called(f"{verb} {quantity}", "", False)
    if quantity == "time" and not _measured(texts, at):
        verb = _verb_of_clause(texts, stretch.start)
        if verb == "interval":
            return Called(verb, "", False)
        return Called(f"{verb} {quantity}" if verb else "", "", False)
    if at == 0 or not _nounish(texts[at - 1], stops):
        return Called("", "", False)
    if texts[at - 1] in listed_verbs() and at > 1 and _nounish(texts[at - 2], stops):
        at -= 1
    start = at
    while start > 0 and at - start < MOST_WORDS and _nounish(texts[start - 1], stops):
        start -= 1
    if ratio := _ratio(text, start, at):
        return Called(ratio, "", False)
    while at - start > 1 and (texts[start].endswith("ly") or texts[start] in ("first", "second", "total")):
        start += 1
    if start and texts[start - 1][0].isdigit():
        return Called("", "", False)
    noun = _spelled(text, start, at)
    if quantity and noun.endswith("ing") and noun not in words("mention", "ing_nouns"):
        return Called(f"{noun} {quantity}", "", False)
    measure = _measure_of(text, start)
    if measure == "number":
        return Called(noun, "", True)
    if measure and noun.split()[-1] not in words("measures", "nouns"):
        return Called(measure, noun, False)
    return Called(noun, _owner_before(text, start), False)


def listed_verbs() -> frozenset[str]:
    """Verbs that may stand between a noun and its limit."""
    return words("mention", "verbs")


def _ratio(text: ClaimText, start: int, end: int) -> str:
    """`ratio of water to cement` before a limit, as `water cement ratio`."""
    texts = _texts(text)
    before = texts[max(0, start - 8) : start]
    if (
        "ratio" not in before
        or texts[end - 1] == "ratio"
        or (texts[start - 1] != "to" and "to" not in before[-2:])
    ):
        return ""
    at = start - len(before) + len(before) - 1 - before[::-1].index("ratio")
    between = [w for w in texts[at + 1 : end] if w not in words("nouns", "stops") and w[0].isalpha()]
    return " ".join([*between[:4], "ratio"]) if 2 <= len(between) <= 4 else ""


def noun_before(text: ClaimText, at: int) -> str:
    """The noun of which something is said from here on: 'basket' of 'the basket is made of'; or ''."""
    texts, stops = _texts(text), words("nouns", "stops")
    passed = words("measures", "between") | {"made", "formed", "from", "is", "are", "comprises", "contains"}
    while at > 0 and texts[at - 1] in passed:
        at -= 1
    start = at
    while start > 0 and at - start < MOST_WORDS and _nounish(texts[start - 1], stops):
        start -= 1
    noun = _spelled(text, start, at)
    return "" if noun.endswith(("ed", "ing")) else noun


def _process(texts: list[str], at: int) -> str:
    """The process whose time or heat is limited: 'stirring' of 'stirred for'; '' if none is there."""
    word = texts[at - 1] if at else ""
    if texts[at : at + 1] and texts[at] not in ("for", "at", "to", "from"):
        return ""
    if word in words("nouns", "stops"):
        return ""
    if word.endswith("ing") and len(word) > 5:
        return word
    if word.endswith("ied"):
        return word[:-3] + "ying"
    return word[:-2] + "ing" if word.endswith("ed") and len(word) > 4 else ""


def _measured(texts: list[str], at: int) -> bool:
    """Whether a noun of what is measured stands just before: 'a retention period of'."""
    return at > 0 and texts[at - 1] in words("measures", "nouns")


def _verb_of_clause(texts: list[str], at: int) -> str:
    """The process that a time is of: 'resting' of 'resting the dough for'; '' where none is told."""
    if at and texts[at - 1] == "every":
        return "interval"
    for i in range(at, max(0, at - 12), -1):
        if texts[i - 1] in (",", ";", ":", "."):
            return ""
        if texts[i - 1] not in words("mention", "ing_nouns") and (
            verb := _process(["for", *texts[:i]], i + 1)
        ):
            return verb
    return ""


def _quantity(unit: Unit | None) -> str:
    dimension = dict(unit.kind.dimension) if unit else {}
    known = {"time": "time", "temperature": "temperature", "length": "distance"}
    return known.get(next(iter(dimension), ""), "") if len(dimension) == 1 else ""


def _measure_of(text: ClaimText, at: int) -> str:
    """`the width of the` before the noun that begins at `at`: the measure; else ''."""
    texts = _texts(text)
    before = texts[max(0, at - 7) : at]
    if "between" in before and not {",", ";", ":"}.intersection(before):
        at = at - before[::-1].index("between")
    while at > 1 and texts[at - 1] in _ON_THE_WAY and texts[at - 2] not in words("measures", "nouns"):
        at -= 1
    if at < 2 or texts[at - 1] not in _JOINTS or texts[at - 2] not in words("measures", "nouns"):
        return ""
    start = at - 2
    while start > 0 and at - 2 - start < 2 and _nounish(texts[start - 1], words("nouns", "stops")):
        start -= 1
    return _spelled(text, start, at - 1)


_ON_THE_WAY = ("the", "said", "each", "a", "an", "one", "of", "any", "all", "its")
_JOINTS = ("of", "between", "across", "for", "in")


def _owner_before(text: ClaimText, at: int) -> str:
    """The noun that has what stands here: `the rim` of `the rim having a`, `a rim with a`, `the rim is`."""
    texts, stops = _texts(text), words("nouns", "stops")
    while at > 0 and texts[at - 1] in words("measures", "between") | {"with", "and"}:
        at -= 1
        if texts[at] in ("with", "having", "has", "have", "is", "are", "being"):
            break
    start = at
    while start > 0 and at - start < MOST_WORDS and _nounish(texts[start - 1], stops):
        start -= 1
    noun = _spelled(text, start, at)
    return "" if noun.endswith(("ing", "ed")) else noun


def _texts(text: ClaimText) -> list[str]:
    return [t.text for t in text.tokens]


def _spelled(text: ClaimText, start: int, end: int) -> str:
    """Tokens as a name: small letters, but `pH` and `D50` as they stand."""
    found = []
    for token in text.tokens[start:end]:
        written = text.source.text[token.start : token.end]
        found.append(written if any(c.isupper() for c in written[1:]) else token.text)
    return " ".join(found)
