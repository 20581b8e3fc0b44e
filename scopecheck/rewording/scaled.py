"""`half of the height`, `four times the gap` as one thing, beside which another one is held."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.formula import Const, Multiply
from scopecheck.foundations.record import replace
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
_ARTICLES = ("the", "a", "an", "said")


def with_scaled(tokens: Tokens, subjects: tuple[Subject, ...]) -> tuple[Tokens, tuple[Subject, ...]]:
    """The words with each multiple or fraction of what stands left, but for the first, as one word; and both.

    The same tokens where there is none: the factor is the number as it is written.
    """
    said, things = with_fractions(tokens), list(subjects)
    for which, subject in enumerate(subjects[1:], start=1):
        bound, own = subject.bound, subject.text.lower().split()
        if not isinstance(bound, Typed) or subject.parts is not None or subject.mixture is not None:
            continue
        if bound.kind is None or bound.kind.basis == "level":
            continue
        words = [word_of(t) for t in said]
        for end in range(len(own) + 1, len(words) + 1):
            first = end - len(own)
            behind = first - (words[first - 1] in _ARTICLES)
            factor = _factor(said[:behind]) if words[first:end] == own else None
            if factor is not None:
                value, start = factor
                text = " ".join(t.text for t in said[start:end])
                things[which] = Subject(
                    Typed(Multiply(Const(value), bound.term), bound.kind, unit=bound.unit), text, subject.span
                )
                one = replace(said[start], sort="word", text=text.lower(), number=None, end=said[end - 1].end)
                said = (*said[:start], one, *said[end:])
                break
    changed = any(a is not b for a, b in zip(things, subjects, strict=True))
    return (said, tuple(things)) if changed else (tokens, subjects)


def _factor(before: Tokens) -> tuple[Fraction, int] | None:
    """The factor that ends these words, `twice`, `3 times`, `1/2 of`, and where it begins."""
    words = [word_of(t) for t in before]
    if words[-1:] == ["twice"]:
        return Fraction(2), len(words) - 1
    if len(words) < 2 or words[-1] not in ("times", "of"):
        return None
    number = before[-2].number
    if number is not None and number.unit is None and ("/" in number.text) >= (words[-1] == "of"):
        return number.value, len(words) - 2
    named = NUMBER_WORDS.get(words[-2]) if words[-1] == "times" else None
    return (Fraction(named), len(words) - 2) if named else None
