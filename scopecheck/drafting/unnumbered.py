"""What a claim asks without a number: 'fewer pulses than the other frame', 'by one segment', 'is olive oil'.

No line is proposed for it, and nothing else would tell that it is there: each is a mark.
"""

from __future__ import annotations

from scopecheck.drafting.beside import hyphen, noun_from, noun_start, nounish, per_width, width_of
from scopecheck.foundations.word_lists import words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText

MOST_BACK = 9
"""How many words before 'by one' the verb of a change is looked for."""
_MORE = frozenset("more fewer less greater larger smaller higher lower".split())
_NO_OTHER = frozenset(("other", "rather", "than"))
_ARTICLES = frozenset(("the", "said", "a", "an", "its", "each", "any", "that", "those"))
_OVER = frozenset((".", ",", ";", "and"))


def said_without_numbers(text: ClaimText) -> list[tuple[int, int]]:
    """The tokens of comparisons, changes by one and single members that no line takes up."""
    return [
        *_compared(text),
        *_by_one(text),
        *_members(text),
        *_alike(text),
        *_neither(text),
        *_or_several(text),
    ]


def _or_several(text: ClaimText) -> list[tuple[int, int]]:
    """'Exactly one dressing or a pair of dressings': neither by itself."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in text.where.get("or", ()):
        if (
            texts[at + 1 : at + 4] not in (["a", "pair", "of"], ["a", "plurality", "of"])
            or at + 1 in text.taken
        ):
            continue
        begin = at
        while begin > max(0, at - MOST_OF_ALIKE) and _before_alike(text, begin - 1):
            begin -= 1
            if texts[begin] in ("one", "a", "an", "exactly", "single"):
                break
        begin -= texts[begin - 1] == "exactly"
        found.append((begin, at + 4 + width_of(noun_from(text, at + 4))))
    return found


def _neither(text: ClaimText) -> list[tuple[int, int]]:
    """'Contains neither lead nor chromium'."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in text.where.get("neither", ()):
        nor = next((i for i in range(at, min(at + MOST_BACK, len(texts))) if texts[i] == "nor"), 0)
        start = nor + 1 + (texts[nor + 1 : nor + 2] in (["a"], ["an"], ["the"]))
        if nor and at not in text.taken and (noun := noun_from(text, start)):
            found.append((at, start + width_of(noun)))
    return found


def _alike(text: ClaimText) -> list[tuple[int, int]]:
    """'All of the vanes have the same height', 'spaced from the seat by different distances'."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in sorted(at for word in words("limits", "alike") for at in text.where.get(word, ())):
        end = at + 1 + width_of(noun_from(text, at + 1))
        behind = texts[end : end + 1]
        apart = texts[at + 1 : at + 2] in (["as"], ["to"], ["from"], ["than"], ["time"])
        if (
            at < 2
            or at in text.taken
            or at in text.referring
            or apart
            or behind in (["as"], ["to"], ["from"])
        ):
            continue
        begin = at
        while begin > max(0, at - MOST_OF_ALIKE) and _before_alike(text, begin - 1):
            begin -= 1
        while begin < at and texts[begin] in ("and", "which", "that", "have", "has", "is", "are", "of"):
            begin += 1
        over = next((i for i in range(at + 1, end) if i in text.taken), end)
        found.append((begin, max(over, at + 1)))
    return found


def _before_alike(text: ClaimText, at: int) -> bool:
    """Whether a word before 'the same height' tells of what it is."""
    word = text.texts[at]
    return at not in text.taken | text.referring and word[0].isalpha() and word not in _CLAUSES


_CLAUSES = frozenset("wherein whereby comprising comprises having with while when if times at".split())
MOST_OF_ALIKE = 8
"""How many words before 'the same height' may tell of what it is."""


def _compared(text: ClaimText) -> list[tuple[int, int]]:
    """'Has fewer pulses than the other frame', 'is thinner than any of the ribs'."""
    texts, stops, found = text.texts, words("nouns", "stops"), list[tuple[int, int]]()
    for at in text.where.get("than", ()):
        behind = texts[at + 1] if at + 1 < len(texts) else "."
        number = not behind[0].isalpha() or NUMBER_WORDS.get(behind, 0) > 0
        if at < 2 or at in text.taken or at in text.referring or number or texts[at - 1] in _NO_OTHER:
            continue
        start = at - 1
        while at - start < 4 and texts[start] not in _MORE and nounish(texts[start], stops):
            start -= 1
        start = start if texts[start] in _MORE else at - 1
        if texts[start] not in _MORE and not texts[start].endswith("er"):
            continue
        found.append((start, _with_nouns(text, at + 1)))
    return found


def _with_nouns(text: ClaimText, at: int) -> int:
    """Where the nouns end that begin here, with what they are of."""
    texts, end = text.texts, at
    while at < len(texts):
        while at < len(texts) and texts[at] in _ARTICLES | {"of", "in"}:
            at += 1
        width = width_of(noun_from(text, at)) if at < len(texts) else 0
        if not width:
            while at < len(texts) and (nounish(texts[at], words("nouns", "stops")) or hyphen(text, at)):
                end = at = at + 1
            break
        end = at = at + width
        if texts[at : at + 1] != ["of"]:
            break
    return max(end, min(at, len(texts)))


def _by_one(text: ClaimText) -> list[tuple[int, int]]:
    """'Increased by one segment per round trip'."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in text.where.get("one", ()):
        noun = noun_from(text, at + 1) if at > 1 and texts[at - 1] == "by" else ""
        if not noun or at in text.taken:
            continue
        near = range(at - 2, max(-1, at - MOST_BACK), -1)
        verb = next((i for i in near if texts[i] in words("limits", "changes")), 0)
        if not verb:
            continue
        end = at + 1 + width_of(noun)
        if per_width(texts, end):
            end += 1 + max(1, width_of(noun_from(text, end + 1)))
        found.append((verb, end))
    return found


def _members(text: ClaimText) -> list[tuple[int, int]]:
    """'The oil is olive oil': the one thing that it may be."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in sorted((*text.where.get("is", ()), *text.where.get("are", ()))):
        if at in text.taken or at < 2:
            continue
        begin = noun_start(texts, at)
        start = at + 1 + (texts[at + 1 : at + 2] in (["a"], ["an"]))
        member = noun_from(text, start)
        end = start + width_of(member)
        over = end >= len(texts) or texts[end] in _OVER or texts[end : end + 3] == ["in", "an", "amount"]
        said = begin < at and texts[begin - 1] in ("the", "said", "each", "which", "that")
        if member and over and said and (start > at + 1 or _a_thing(member)):
            found.append((begin - (texts[begin - 1] in ("the", "said", "each")), end))
    return found


def _a_thing(member: str) -> bool:
    """Whether words look like the name of something, and not like how it is or what is done to it."""
    said = member.split()
    how = said[-1].endswith(("ed", "ing", "ly", "able", "ible", "ous", "ent", "ant", "ular", "ical", "ive"))
    return len(said) > 1 and not (how or said[0].endswith("ly"))
