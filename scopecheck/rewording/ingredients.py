"""Words about a composition that say how much of some ingredients it has: 'contains 3 to 5 wt% of water'."""

from __future__ import annotations

from scopecheck.core.declared import Composition
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of

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
    """`consisting of tin, 2 wt% of zinc and up to 5 wt% of copper`: of what, and how much of what.

    What an upper limit lets be absent may be there or not. All of the words as the latter where they do not
    close the composition with an amount, or where an amount stands before what may share it.
    """
    words = [word_of(t) for t in tokens]
    leads = (["which"], ["that"], made.name.lower().split(), ["the", *made.name.lower().split()])
    tokens = tokens[next((len(lead) for lead in leads if words[: len(lead)] == lead), 0) :]
    head = opening(tokens)
    pieces = by_ingredient(made, tokens[head:]) if head else []
    with_amounts = [any(t.number for t in said) for _, said in pieces]
    if len(pieces) < 2 or not any(with_amounts) or with_amounts != sorted(with_amounts):
        return (), tokens
    return closed_list(tokens, pieces), tokens[head:]


def opening(tokens: tuple[Token, ...]) -> int:
    """How many words close the list that follows: 'consisting essentially of'; 0 for others."""
    words = [word_of(t) for t in tokens[:3]]
    return next((len(run) for run in _CLOSING if words[: len(run)] == run), 0)


_CLOSING = [
    run
    for verb in ("consisting", "consists", "consist")
    for run in (
        [verb, "of"], [verb, "essentially", "of"], ["essentially", verb, "of"],
        *([verb, adverb, "of"] for adverb in ("only", "solely", "exclusively")),
    )
]  # fmt: skip


def closes(tokens: tuple[Token, ...]) -> bool:
    """Do words that close a composition stand anywhere in these?"""
    return any(opening(tokens[at:]) for at in range(len(tokens)))


def closed_list(tokens: tuple[Token, ...], pieces: list[Piece]) -> tuple[Token, ...]:
    """The words that close a composition, with the names alone of its ingredients."""
    optional = [name for name, said in pieces if _may_be_absent(said)]
    always = [name for name, _ in pieces if name not in optional]
    impure = "impurities" in always
    if not always or (impure and optional):
        optional, always = [], [*always, *optional]
    always = [name for name in always if name != "impurities"]
    listed_ = [t for t in tokens[: opening(tokens)] if word_of(t) not in ("only", "solely", "exclusively")]
    before_last = ", and unavoidable impurities" if impure else ", and , optionally ," if optional else ""
    for at, name in enumerate(always):
        joiner = "and" if at == len(always) - 1 and not before_last else ","
        listed_ += (*_joined(joiner if at else "", tokens[0]), *_called(name, tokens))
    listed_ += _joined(before_last, tokens[0])
    for at, name in enumerate(optional):
        listed_ += (*_joined("and" if at else "", tokens[0]), *_called(name, tokens))
    return tuple(listed_)


def _joined(text: str, beside: Token) -> tuple[Token, ...]:
    """Words of a list that stand at no place of their own."""
    return tuple(
        replace(beside, sort="mark" if word == "," else "word", text=word, number=None, end=beside.start)
        for word in text.replace(",", " , ").split()
    )


def _called(name: str, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Where an ingredient is first named."""
    words, own = [word_of(t) for t in tokens], name.lower().split()
    at = next((i for i in range(len(words)) if words[i : i + len(own)] == own), 0)
    return tokens[at : at + len(own)]


def _may_be_absent(said: tuple[Token, ...]) -> bool:
    """`up to 5 wt% of copper`, `0 to 5 wt% of copper`, which none of it may meet."""
    numbers = [t.number for t in said if t.number]
    text = f" {' '.join(map(word_of, said))} "
    upper = len(numbers) == 1 and any(f" {run} " in text for run in _UPPER)
    return bool(numbers) and (upper or numbers[0].value == 0)


_UPPER = ("up to", "at most", "less than", "no more than", "not more than", "below", "under", "optionally")


def parted_at_balance(tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], tuple[Token, ...]]:
    """`at least 50 wt% of wax, the remainder being oil`: what stands before the balance, and the balance.

    Nothing as the latter where there is no balance, or nothing before it.
    """
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in listed("mention", "remainders")), 0)
    while at and words[at - 1] in ("the", "a", "with", "and"):
        at -= 1
    before = at - (at > 0 and words[at - 1] == ",")
    return (tokens[:before], tokens[at:]) if before > 1 else (tokens, ())


def without_verb(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """The words without 'comprises', 'having' or the like before them."""
    verbs = listed("asides", "holding") | listed("ingredients", "verbs")
    start = next((i for i, t in enumerate(tokens) if word_of(t) not in verbs), 0)
    return tokens[start:]
