"""Words about a composition that say how much of some ingredients it has: 'contains 3 to 5 wt% of water'."""

from __future__ import annotations

from scopecheck.core.declared import Composition
from scopecheck.foundations.record import replace
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


def named_in(made: Composition, tokens: tuple[Token, ...]) -> list[str]:
    """The ingredients that the words name, in their order; none where one is named twice, or a class is."""
    words = [word_of(t) for t in tokens]
    classes = {above.lower() for above, _ in made.classes}
    names = sorted((*made.members, *classes), key=len, reverse=True)
    found, at = list[str](), 0
    while at < len(words):
        name = next((n for n in names if words[at : at + len(n.split())] == n.lower().split()), "")
        if name in classes or name in found:
            return []
        found += [name] if name else []
        at += len(name.split()) if name else 1
    return found


def closing(made: Composition, tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], tuple[Token, ...]]:
    """`consisting of 30 to 60 wt% of silica and 5 to 8 wt% of soda`: of what, and how much of each.

    All of the words as the latter where they do not close the composition with an amount of each.
    """
    head = 2 if [word_of(t) for t in tokens[:2]] in (["consisting", "of"], ["consists", "of"]) else 0
    pieces = by_ingredient(made, tokens[head:]) if head else []
    if len(pieces) < 2 or not all(any(t.number for t in said) for _, said in pieces):
        return (), tokens
    listed_ = list(tokens[:head])
    for at, (name, said) in enumerate(pieces):
        joiner = "and" if at == len(pieces) - 1 else ","
        if at:
            joined = replace(
                said[-1], sort="mark" if joiner == "," else "word", text=joiner, end=said[-1].start
            )
            listed_.append(joined)
        listed_ += said[len(said) - len(name.split()) :]
    return tuple(listed_), tokens[head:]


def parted_at_balance(tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], tuple[Token, ...]]:
    """`at least 50 wt% of wax, the remainder being oil`: what stands before the balance, and the balance.

    Nothing as the latter where there is no balance, or nothing before it.
    """
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in ("balance", "remainder", "rest")), 0)
    while at and words[at - 1] in ("the", "a", "with", "and"):
        at -= 1
    before = at - (at > 0 and words[at - 1] == ",")
    return (tokens[:before], tokens[at:]) if before > 1 else (tokens, ())


def without_verb(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """The words without 'comprises', 'having' or the like before them."""
    verbs = listed("asides", "holding") | listed("ingredients", "verbs")
    start = next((i for i, t in enumerate(tokens) if word_of(t) not in verbs), 0)
    return tokens[start:]
