"""Words about a composition that say how much of some ingredients it has: 'contains 3 to 5 wt% of water'."""

from __future__ import annotations

from scopecheck.core.declared import Composition
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of

Piece = tuple[str, tuple[Token, ...]]
"""An ingredient or a class of them, and the words that say how much of it there is."""


def by_ingredient(made: Composition, tokens: tuple[Token, ...]) -> list[Piece]:
    """The words parted after each ingredient they name; none where they close the list or leave a choice."""
    words = [word_of(t) for t in tokens]
    if not listed("ingredients", "never").isdisjoint(words):
        return []
    names = sorted((*made.members, *(above for above, _ in made.classes)), key=len, reverse=True)
    at, start, pieces, named = 0, 0, [], ""
    while at < len(words):
        found = next((n for n in names if words[at : at + len(n.split())] == n.lower().split()), "")
        if found and named:
            return []
        named = named or found
        at += len(found.split()) if found else 1
        ends = at == len(words) or words[at] in (",", "and")
        if named and ends:
            pieces.append((named, tokens[start:at]))
            while at < len(words) and words[at] in (",", "and"):
                at += 1
            start, named = at, ""
    return pieces if start == len(words) else []


def without_verb(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """The words without 'comprises', 'having' or the like before them."""
    verbs = listed("asides", "holding") | listed("ingredients", "verbs")
    start = next((i for i, t in enumerate(tokens) if word_of(t) not in verbs), 0)
    return tokens[start:]
