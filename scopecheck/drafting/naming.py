"""What a limit is of: the quantity and the thing that has it, from the words beside its number."""

from __future__ import annotations

from scopecheck.drafting.limits import Stretch
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import record
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.declared import NEVER_IN_NAMES
from scopecheck.text.lists import word_lists, words

MOST_WORDS = 3


@record
class Called:
    """The noun for what is limited, and the noun of what has it; '' where the words do not tell."""

    noun: str
    owner: str
    counted: bool


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
        return _counted(text, stretch)
    if not unit.kind.dimension and not _amount_before(texts, stretch.start):
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
    return bool(before) and (before[-1] in ("is", "are") or not words("measures", "nouns").isdisjoint(before))


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
    if quantity == "time":
        return Called(quantity, "", False)
    if at == 0 or not _nounish(texts[at - 1], stops):
        return Called("", "", False)
    start = at
    while start > 0 and at - start < MOST_WORDS and _nounish(texts[start - 1], stops):
        start -= 1
    while at - start > 1 and (texts[start].endswith("ly") or texts[start] in ("first", "second", "total")):
        start += 1
    noun = _spelled(text, start, at)
    measure = _measure_of(text, start)
    if measure == "number":
        return Called(noun, "", True)
    if measure and noun.split()[-1] not in words("measures", "nouns"):
        return Called(measure, noun, False)
    return Called(noun, _owner_before(text, start), False)


def _process(texts: list[str], at: int) -> str:
    """The process whose time or heat is limited: 'stirring' of 'stirred for'; '' if none is there."""
    word = texts[at - 1] if at else ""
    if texts[at : at + 1] and texts[at] not in ("for", "at", "to", "from"):
        return ""
    if word.endswith("ing") and len(word) > 5:
        return word
    if word.endswith("ied"):
        return word[:-3] + "ying"
    return word[:-2] + "ing" if word.endswith("ed") and len(word) > 4 else ""


def _quantity(unit: Unit | None) -> str:
    dimension = dict(unit.kind.dimension) if unit else {}
    known = {"time": "time", "temperature": "temperature", "length": "distance"}
    return known.get(next(iter(dimension), ""), "") if len(dimension) == 1 else ""


def _measure_of(text: ClaimText, at: int) -> str:
    """`the width of the` before the noun that begins at `at`: the measure; else ''."""
    texts = _texts(text)
    if at and texts[at - 1] in ("the", "said", "each", "a", "an"):
        at -= 1
    if at < 2 or texts[at - 1] != "of" or texts[at - 2] not in words("measures", "nouns"):
        return ""
    start = at - 2
    while start > 0 and at - 2 - start < 2 and _nounish(texts[start - 1], words("nouns", "stops")):
        start -= 1
    return _spelled(text, start, at - 1)


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
