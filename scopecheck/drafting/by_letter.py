"""Letters of items by which a claim's words call what is limited there: `(a) 25 to 45 wt% of a cement`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from scopecheck.drafting.naming import Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.regex import regex

_LETTER = regex(r"\(\s*([A-Za-z]\d?|[ivx]{2,4})\s*\)")
_CALLED = frozenset("of to than from between by per component components / is are".split())
"""What stands before a letter that calls something, and not before that of an item."""


def find_letters(works: Sequence[Work]) -> None:
    """Sets in each claim what is limited first behind each letter, in it or in those that it takes over."""
    own: dict[int, dict[str, Called]] = {}
    for work in works:
        known: dict[str, Called] = {}
        for number in work.above:
            known |= own[number]
        own[work.claim.number] = known | _letters(work)
        work.letters = own[work.claim.number]


def _letters(work: Work) -> dict[str, Called]:
    texts = work.text.texts
    marks = [
        at
        for at in range(len(texts) - 2)
        if letter_at(texts, at) and not _CALLED.issuperset(texts[max(0, at - 1) : at] or ("",))
    ]
    found: dict[str, Called] = {}
    for at, end in pairwise([*marks, len(texts)]):
        behind = [(s, what) for s, what in work.limits if at < s.starts[0] < end and not what.unnamed]
        if behind and letter_at(texts, at) not in found:
            found[letter_at(texts, at)] = behind[0][1]
    return found


def letter_at(texts: Sequence[str], at: int) -> str:
    """The letter in brackets that stands here, or ''."""
    said = _LETTER.fullmatch(" ".join(texts[at : at + 3]))
    return said[1] if said else ""


def spelled_out(words: str, letters: Mapping[str, str]) -> str:
    """The words with names instead of the letters that have one."""
    return _LETTER.sub(lambda m: letters.get(m[1].lower(), m[0]), words)
