"""An x or × in words: between extents, `at most 10 mm x 5 mm x 2 mm`, or behind a number, `3x`."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.kinds import LENGTH
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]

_TIMES = frozenset(("x", "*", "by"))
_OF_A_SIZE = frozenset(
    "dimensions dimension size measures measuring measure cross-section format footprint has having".split()
)
_BEHIND = {
    "": "",
    "or less": "at most",
    "or smaller": "at most",
    "or more": "at least",
    "or larger": "at least",
}
"""What may stand behind a size, and what says the same before it."""


def with_sizes_apart(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at most 10 x 5 x 2 mm`, of a length, a width and a height, as a limit of each, in their order.

    The words as they are where they say more than one such size, or not as many extents.
    """
    places = [i for i, t in enumerate(tokens) if t.number]
    if len(subjects) < 2 or len(places) != len(subjects) or not all(map(_is_extent, subjects)):
        return tokens
    first, end = places[0], places[-1] + 1
    said = [word_of(t) for t in tokens]
    joined = [w for i, w in enumerate(said[first:end], first) if i not in places]
    before = next((i for i in range(first) if said[i] in _LIMITS or said[i] not in _LEAD), first)
    behind = _BEHIND.get(" ".join(said[end:]))
    if len(joined) != len(places) - 1 or not _TIMES.issuperset(joined) or behind is None:
        return tokens
    if not _LIMITS.issuperset(said[before:first]) or (behind and before < first):
        return tokens
    limit = (*tokens[before:first], *_words_at(tokens[first], behind))
    return (*limit, *_in_a_row([tokens[i] for i in places]))


def with_times_told(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`a zoom ratio of 3x` as 3, `at most 3x the rim` as 3 times the rim: an x right behind a number."""
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed)]
    ratio = len(subjects) == len(bounds) == 1 and bounds[0].kind == PLAIN_KIND
    words = [word_of(t) for t in tokens]
    signs = {i for i in range(1, len(tokens)) if words[i] == "x" and _glued(tokens, i)}
    found = list[Token]()
    for at, token in enumerate(tokens):
        ranged = words[at + 2 : at + 3] == ["to"] and {at + 1, at + 4} <= signs
        if ratio and ranged and words[at - 1 : at] not in (["from"], ["between"]):
            found += _words_at(token, "from")  # of 3x to 5x: no ratio of 3 to 5
        if at not in signs:
            found.append(token)
        elif not ratio:
            found.append(replace(token, text="times"))
    return tuple(found)


def _glued(tokens: Tokens, at: int) -> bool:
    return tokens[at - 1].number is not None and tokens[at - 1].end == tokens[at].start


_LIMITS = listed("limits", "inside") - FILLERS | {"at"}
_LEAD = FILLERS | _OF_A_SIZE


def _is_extent(subject: Subject) -> bool:
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    return kind is not None and kind.dimension == LENGTH


def _in_a_row(numbers: list[Token]) -> Iterator[Token]:
    """`10 mm, 5 mm and 2 mm, respectively`: each number with its own unit, or with that of the last."""
    last = numbers[-1]
    assert last.number
    for token in numbers:
        assert token.number
        if token is not numbers[0]:
            yield from _words_at(token, "and") if token is last else (_comma(token),)
        yield replace(token, number=replace(token.number, unit=token.number.unit or last.number.unit))
    yield _comma(last)
    yield from _words_at(last, "respectively")


def _comma(at: Token) -> Token:
    return replace(at, sort="mark", text=",", number=None, end=at.start)


def _words_at(at: Token, said: str) -> Iterator[Token]:
    return (replace(at, sort="word", text=word, number=None, end=at.start) for word in said.split())
