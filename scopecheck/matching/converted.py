"""Amounts that a claim says again in another unit, in brackets: `1 to 2 inches (25.4 to 50.8 mm)`."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.foundations.diagnostics import Diagnostic, read_past_warning
from scopecheck.foundations.quantity import Unit
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.names_and_notes import Tokens
from scopecheck.matching.phrase_finding import Job
from scopecheck.vocabulary.names import Typed

_JOINING = frozenset("to - – and about approximately through from between".split())


def without_converted(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, ...]]:
    """The words without the brackets that say their amounts again, and each bracket.

    Each number in one is that before it, to the last of its own digits that is no zero.
    """
    kind = job.first.kind if len(job.subjects) == 1 and isinstance(job.first, Typed) else None
    if kind is None or not kind.dimension or job.sort not in ("", "parts"):
        return
    kept, passed, at = list[Token](), list[Tokens](), 0
    while at < len(tokens):
        end = next((i for i in range(at, len(tokens)) if word_of(tokens[i]) == ")"), 0)
        if word_of(tokens[at]) == "(" and end and _says_again(kept, tokens[at + 1 : end], kind.dimension):
            passed.append(tokens[at : end + 1])
            at = end + 1
        else:
            kept.append(tokens[at])
            at += 1
    if passed:
        yield tuple(kept), *passed


def _says_again(before: list[Token], inside: Tokens, dimension: object) -> bool:
    again = [t.number for t in inside if t.number]
    said = [t.number for t in before if t.number][-len(again) :]
    if not again or len(said) != len(again):
        return False
    units = [next((n.unit for n in reversed(numbers) if n.unit), None) for numbers in (said, again)]
    own, other = units
    if own is None or other is None or own == other:
        return False
    if {own.kind.dimension, other.kind.dimension} != {dimension}:
        return False
    joined = all(t.number or word_of(t) in _JOINING for t in inside)
    return joined and all(_agree(a, b, own, other) for a, b in zip(said, again, strict=True))


def _agree(one: Number, again: Number, own: Unit, other: Unit) -> bool:
    half = Fraction(10**again.zeros, 2 * 10**again.decimals)
    converted = (again.unit or other).from_base((one.unit or own).to_base(one.value))
    return abs(converted - again.value) <= half


def told_again(job: Job, bracket: Tokens) -> Diagnostic:
    """That a bracket was read past, which may be other than what it says again by what it is rounded."""
    return read_past_warning(
        job.span(bracket), (job.text(bracket),),
        "It says the amounts again in another unit, to its own digits.",
        "if the ends are those in the brackets, write these behind two blanks: exactly, facts",
    )  # fmt: skip
