"""A phrase asked for with letters in place of what it takes: `A or B`, `between L and U`, `about N`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from scopecheck.foundations.regex import regex
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.patterns import Element, Literals, Slot

_LETTER = regex(r"\(?([A-Z]|x)\)?[.,;]?")
_TOKEN = regex(r"[^\s,;]+|,")


def spelled_with_letters(entries: Iterable[Entry], text: str) -> tuple[Entry, ...]:
    """The entries of which one wording is the text, single capital letters standing for what it takes.

    Empty where no letter stands in the text, or no wording is like it.
    """
    asked = _TOKEN.findall(text)
    letters = [_LETTER.fullmatch(word) is not None for word in asked]
    if not any(letters):
        return ()
    plain = ["(" if letter else word.lower() for word, letter in zip(asked, letters, strict=True)]
    for words in (plain, plain[1:] if plain[0] == "(" else []):
        # A letter before the words is the thing they are said of, as in `x divisible by N`.
        found = tuple(e for e in entries if words and any(_spells(p.elements, words) for p in e.patterns))
        if found:
            return found
    return ()


def _spells(elements: Sequence[Element], words: Sequence[str]) -> bool:
    """Do the words, `(` for an operand, spell the elements of a wording from the first to the last?"""
    if not elements:
        return not words
    first, rest = elements[0], elements[1:]
    return any(_spells(rest, words[width:]) for width in _widths(first, words))


def _widths(element: Element, words: Sequence[str]) -> list[int]:
    """How many of the first words may stand for the element."""
    if isinstance(element, Literals):
        spelled = [tuple(word.lower() for word in option) for option in element.options]
        found = [len(option) for option in spelled if tuple(words[: len(option)]) == option]
        return [*found, 0] if element.optional else found
    if element.kind != "list":
        return [1] if words[:1] == ["("] else []
    return _list_widths(element, words)


def _list_widths(element: Slot, words: Sequence[str]) -> list[int]:
    """`A or B`, `A, B or C`, `A, B, or C` for a list with this joiner."""
    joined = re.fullmatch(r"\((?: , \()*(?: ,)? (and/or|and|or|nor) \(.*", " ".join(words))
    if joined is None or element.joiner not in ("", joined[1]):
        return []
    return [list(words).index(joined[1]) + 2]
