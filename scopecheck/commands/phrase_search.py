"""Which phrases are asked for: by words, by id, or with letters in place of what a phrase takes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from scopecheck.commands.phrase_patterns import spelled_with_letters
from scopecheck.foundations.diagnostics import nearest
from scopecheck.resolve.catalogue import entries
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.patterns import Literals, Pattern

_JOINERS = frozenset(("a", "an", "the", "and", "or", "of", "to", "is", "are"))


def entries_for(words: Sequence[str]) -> tuple[Entry, ...]:
    """The entries one of whose wordings has all the words; numbers and anything with a digit are passed over.

    An entry's id finds it too, and so does a wording with letters in place of what it takes. Empty if none
    has them all.
    """
    if spelled := spelled_with_letters(in_order(), " ".join(words)):
        return spelled
    asked = [word for text in words for word in re.findall(r"[^\s,;:]+", text.lower())]
    by_id = tuple(e for e in in_order() if e.id.lower() in asked)
    if by_id:
        return by_id
    kept = [word for word in asked if not any(c.isdigit() for c in word)]
    wanted = [word for word in kept if word in known_words() and word not in _JOINERS]
    # Units and nouns of a claim stand in no wording; a lone unknown word is no question about a phrase.
    if not wanted:
        return ()
    found = tuple(e for e in in_order() if any(words_of.issuperset(wanted) for words_of in _wordings(e)))
    exact = tuple(e for e in found if any(_is_covered(p, wanted) for p in e.patterns))
    return exact or found


def in_order() -> tuple[Entry, ...]:
    """The catalogue by id: A1, A2, ... K3, and as written within an id."""

    def place(entry: Entry) -> tuple[str, int]:
        return entry.id[:1], int("0" + "".join(c for c in entry.id if c.isdigit()))

    return tuple(sorted(entries(), key=place))


def nearest_words(words: Iterable[str]) -> tuple[str, ...]:
    """Words of the catalogue most like those asked for."""
    asked = [word for text in words for word in text.lower().split()]
    return tuple(dict.fromkeys(near for word in asked for near in nearest(word, known_words())))[:4]


def known_words() -> frozenset[str]:
    """Every word of every wording, in lower case."""
    return frozenset(word for e in entries() for words in _wordings(e) for word in words)


def _wordings(entry: Entry) -> Iterator[frozenset[str]]:
    for pattern in entry.patterns:
        yield frozenset(
            word.lower()
            for element in pattern.elements
            if isinstance(element, Literals)
            for option in element.options
            for word in option
        )


def _is_covered(pattern: Pattern, wanted: Sequence[str]) -> bool:
    """Do the words asked for spell everything that the wording requires, words that join apart?"""
    return all(
        any({word.lower() for word in option} <= {*wanted, *_JOINERS} for option in element.options)
        for element in pattern.elements
        if isinstance(element, Literals) and not element.optional
    )
