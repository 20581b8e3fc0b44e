"""Limits of some things: 'at least one thread has a pitch of 1 mm', 'the pitch of one of them is'.

A line on the pitch alone would ask it of every thread: words are lifted from 'at least one' on, or marked.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_from, noun_start, width_of
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import Called
from scopecheck.drafting.turned import CLAUSES, ENDS, part_end
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText

MOST_ASIDE = 10
"""How many words between two commas may stand behind the things, before what they have."""
_OPENING = ENDS | CLAUSES | frozenset((",", "and", "that", "which", "where", "but"))
_SOME = frozenset(
    (
        "some",
        "most",
        "half",
        "majority",
        "minority",
        "none",
        "several",
        "no",
        "another",
        "part",
        "few",
        "many",
        "certain",
    )
)
_THE = frozenset(("the", "said", "these", "those"))
_FINITE = frozenset(("has", "have", "is", "are", "exhibits", "exhibit", "shows", "show", "lies", "lie"))


@record
class Some:
    """Where the words begin and end that say of how many things something holds, and the noun of these."""

    begin: int
    end: int
    noun: str
    ahead: bool
    """Whether what is measured stands before them: 'the pitch of at least one thread'."""


def some_of(text: ClaimText) -> list[Some]:
    """The places of a claim where something holds of so many of several things."""
    texts, found = text.texts, list[Some]()
    for at in range(1, len(texts) - 3):
        if at in text.referring or (found and at < found[-1].end):
            continue
        measured = texts[at - 1] == "of" and texts[at - 2] in _measures()
        if not (measured or texts[at - 1] in _OPENING):
            continue
        noun_at, core = _quantified(texts, at)
        noun = noun_from(text, noun_at) if noun_at else ""
        if not noun:
            continue
        noun, end = _without_verb(noun, noun_at)
        verb = _verb(texts, end)
        participle = texts[end : end + 1] == ["having"] and texts[noun_at - 1] in _THE
        if not (verb or participle) or (measured and texts[verb] not in ("is", "are")):
            continue
        begin = at
        if measured:
            begin = noun_start(texts, at - 1)
            begin -= texts[begin - 1] in ("the", "a", "an")
        elif core in ("majority", "minority", "part") and texts[at - 1] == "the":
            begin = at - 1
        found.append(Some(begin, end, noun, measured))
    return found


def _measures() -> frozenset[str]:
    return words("measures", "nouns") | words("limits", "properties")


def _without_verb(noun: str, at: int) -> tuple[str, int]:
    """The noun up to its verb, which may look like a part of it."""
    said = noun.split()
    while len(said) > 1 and said[-1] in _FINITE:
        said.pop()
    noun = " ".join(said)
    return noun, at + width_of(noun)


def _verb(texts: list[str], at: int) -> int:
    """Where 'has' stands behind the things, at once or behind words between two commas; 0 if nowhere.

    Signs of the drawings in brackets are passed by.
    """
    if texts[at : at + 1] == ["("] and ")" in texts[at : at + MOST_ASIDE]:
        at = texts.index(")", at) + 1
    if texts[at : at + 1] and texts[at] in _FINITE:
        return at
    if texts[at : at + 1] == [","]:
        close = next((i for i in range(at + 1, min(at + MOST_ASIDE, len(texts))) if texts[i] == ","), 0)
        if close and texts[close + 1 : close + 2] and texts[close + 1] in _FINITE:
            return close + 1
    return 0


def _quantified(texts: list[str], at: int) -> tuple[int, str]:
    """Where the noun begins behind 'at least two of the', and the word for how many; (0, '') if none."""
    first = at + (texts[at] in ("the", "a") and texts[at + 1] in _SOME)
    first += texts[first] == "not" and texts[first + 1] in ("all", "every")
    i = first
    while i < first + 4 and i < len(texts) - 1 and texts[i] in words("limits", "counting"):
        i += 1
    core = texts[i]
    many = core in NUMBER_WORDS or core.isdecimal() or core in _SOME
    many = many or (i > at and core in ("all", "every"))
    if not many or i + 2 >= len(texts):
        return 0, ""
    if texts[i + 1] == "of":
        the = next((j for j in (i + 2, i + 3) if texts[j : j + 1] and texts[j] in _THE), 0)
        return (the + 1, core) if the else (0, "")
    return (0, "") if core in ("none", "majority", "minority", "part", "half") else (i + 1, core)


def of_some(
    text: ClaimText, some: Sequence[Some], limits: Sequence[tuple[Stretch, Called]]
) -> tuple[list[tuple[Stretch, Called]], dict[int, int], list[tuple[int, int]]]:
    """The limits, those of so many things as theirs; where the words of these begin; what is marked whole."""
    kept, begins, whole = list(limits), dict[int, int](), list[tuple[int, int]]()
    for one in some:
        end = part_end(text.texts, one.end + (text.texts[one.end : one.end + 1] == [","]))
        end = max(end, _aside_end(text.texts, one.end))
        inside = [(s, c) for s, c in kept if one.begin <= s.starts[0] < end]
        behind = [(s, c) for s, c in inside if s.starts[0] >= one.end]
        kept = [limit for limit in kept if limit not in inside]
        if not behind:
            kept += inside
            continue
        if len(behind) > 1 or behind[0][1].counted or not _noun(text, one, behind[0][1]):
            whole.append((one.begin, max(s.end for s, _ in behind)))
            continue
        stretch, what = behind[0]
        noun = _noun(text, one, what)
        kept.append((stretch, replace(what, noun=noun, owner=one.noun, unnamed=False, apart="", fresh=False)))
        begins[stretch.start] = one.begin
    return sorted(kept, key=lambda limit: limit[0].starts[0]), begins, whole


def _noun(text: ClaimText, one: Some, what: Called) -> str:
    """What is measured: before the things, or as the limit is called."""
    if not one.ahead:
        return "" if what.unnamed else what.noun
    of = next(i for i in range(one.begin, one.end) if text.texts[i] == "of")
    return " ".join(text.texts[one.begin + (text.texts[one.begin] in ("the", "a", "an")) : of])


def _aside_end(texts: list[str], at: int) -> int:
    verb = _verb(texts, at)
    return part_end(texts, verb) if verb else 0
