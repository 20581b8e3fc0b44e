"""Of two amounts the greater or the lesser: 'at least 5 mm or 20 % of the rim, whichever is greater'."""

from __future__ import annotations

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import runs_in_order, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of

_IS = ("is", "being", "be", "proves", "turns", "out")
_BESIDE = ("of", "the", "two", "them", "both")
_INSTEAD = {"less": "lesser", "more": "greater", "bigger": "greater"}
_BEFORE = frozenset("least most than exceeding exceeds exceed within to is of being by".split())
"""Behind such words of a limit the first of the two amounts begins."""


def with_the_greater(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`5 mm or 20 % of the rim, whichever is greater` as the greater of 5 mm and 20 % of the rim."""
    words = [word_of(t) for t in tokens]
    at = words.index("whichever") if "whichever" in words else 0
    closed = words.index(",", at) if at and "," in words[at:] else len(words)
    said = [w for w in words[at + 1 : closed] if w not in (*_IS, *_BESIDE)] if at else []
    compared = _INSTEAD.get(said[0], said[0]) if len(said) == 1 else ""
    if compared not in listed("asides", "least") | listed("asides", "greatest"):
        return tokens
    end = at - (words[at - 1] == ",")
    either = [i for i in range(1, end) if words[i] in ("or", "and")]
    if len(either) != 1:
        return tokens
    middle = either[0]
    start = 0 if closed < len(words) else _start(tokens[:middle])
    if start == middle or _shares_the_multiple(tokens[start:middle], tokens[middle + 1 : end]):
        return tokens
    first, last = tokens[start], tokens[middle]
    before = tuple(
        replace(first, sort="word", text=w, number=None, end=first.start) for w in ("the", compared, "of")
    )
    joined = replace(last, text="and")
    second = _without_limit_again(tokens[:start], tokens[middle + 1 : end])
    both = (*before, *_trimmed(tokens[start:middle]), joined, *second)
    return (*tokens[:start], *both, *tokens[closed + 1 :])


def _without_limit_again(limit: tuple[Token, ...], second: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at least half as wide as the rim`, behind 'at least', as half the rim."""
    words, before = [word_of(t) for t in second], [word_of(t) for t in limit]
    again = next((r for r in _LIMITS if words[: len(r)] == r and before[-len(r) :] == r), [])
    second, words = second[len(again) :], words[len(again) :]
    so = words[:1] and words[0] in _SAYS_HOW_MUCH and words[1:2] == ["as"] and words[3:4] == ["as"]
    return (second[0], *second[4:]) if so and words[2] in _WIDE else second


_LIMITS = runs_in_order("limits", "said_again")
_WIDE = listed("measures", "how_large")


def of_a_range(tokens: tuple[Token, ...]) -> bool:
    """`2 to 5 mm or half the rim, whichever is greater`: which end of the range is to be the greater?"""
    words = [word_of(t) for t in tokens]
    at = words.index("whichever") if "whichever" in words else 0
    told = listed("asides", "least") | listed("asides", "greatest") | _INSTEAD.keys()
    if told.isdisjoint(words[at + 1 :]) or not at:
        return False
    middle = next((i for i in range(at) if words[i] == "or"), at)
    return any(
        side[i].number and side[i + 2].number and word_of(side[i + 1]) in ("to", "and", "-", "–")
        for side in (tokens[:middle], tokens[middle:at])
        for i in range(len(side) - 2)
    )


def with_the_first(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`opens when A or B, whichever occurs first` as when A or B; `at most 60 h or at most 100 km, whichever
    comes first` as both: what comes first ends it. Other words as they are.
    """
    words = [word_of(t) for t in tokens]
    at = words.index("whichever") if "whichever" in words else 0
    either = [i for i in range(at) if words[i] == "or"]
    if not at or words[at + 1 :] not in _FIRST or len(either) != 1:
        return tokens
    rest = tokens[: at - (words[at - 1] == ",")]
    if not listed("limits", "governing").isdisjoint(words[: either[0]]):
        return rest
    sides = (words[: either[0]], words[either[0] + 1 : at])
    if not all(any(f" {run} " in f" {' '.join(side)} " for run in _AT_MOST) for side in sides):
        return tokens
    return tuple(replace(t, text="and") if i == either[0] else t for i, t in enumerate(rest))


_FIRST = [
    [*verb.split(), which]
    for verb in ("occurs", "happens", "comes", "is", "is reached", "is the")
    for which in ("first", "earlier", "sooner")
]
_AT_MOST = ("at most", "no more than", "not more than", "no later than", "not later than", "no longer than")


def _shares_the_multiple(first: tuple[Token, ...], second: tuple[Token, ...]) -> bool:
    """`50 % of the bore or the collar`: may the share, or the multiple, be one of either?"""
    alone = not any(t.number for t in second) and _MULTIPLES.isdisjoint(map(word_of, second))
    return alone and not _MULTIPLES.isdisjoint(map(word_of, first))


_MULTIPLES = frozenset(("of", "times", "twice", "half", "double", "triple", *word_lists()["fractions"]))


_SAYS_HOW_MUCH = frozenset((*NUMBER_WORDS, "twice", "half", "double", "triple", *word_lists()["fractions"]))


def _start(tokens: tuple[Token, ...]) -> int:
    """Where the first of the two amounts begins: behind the words of its limit, before its number."""
    spans = [i for i, t in enumerate(tokens) if t.text == "±"]
    if spans:
        return spans[-1] + 1
    first = next(
        (i for i, t in enumerate(tokens) if t.number or word_of(t) in _SAYS_HOW_MUCH), len(tokens) - 1
    )
    return next((i + 1 for i in range(first, -1, -1) if word_of(tokens[i]) in _BEFORE), 0)


def _trimmed(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    return tokens[:-1] if tokens and tokens[-1].text == "," else tokens
