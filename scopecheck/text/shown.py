"""All that the words of a set of claims show by themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.antecedents import antecedents
from scopecheck.text.claim_set import Known, Set
from scopecheck.text.clauses import drawings, examples, groupings, transitions
from scopecheck.text.degree import acts, degrees, fitted
from scopecheck.text.dependents import categories, forms
from scopecheck.text.flags import Flag
from scopecheck.text.mentions import mentions
from scopecheck.text.shares import shares
from scopecheck.text.stream import stream


def flags(
    texts: Mapping[int, ClaimText], profile: str = "US", known: Known | None = None
) -> tuple[Flag, ...]:
    """Every fact about the words of the claims, in the order of the text."""
    numbers = tuple(texts)
    streams = {number: stream(number, text, numbers) for number, text in texts.items()}
    all_ = Set(streams, {n: mentions(s) for n, s in streams.items()}, known or Known())
    found = [flag for number in numbers for flag in _of_claim(all_, number, profile)]
    order = {number: i for i, number in enumerate(numbers)}
    return tuple(sorted(found, key=lambda f: (order[f.claim], f.span.start)))


def _of_claim(all_: Set, number: int, profile: str) -> Iterator[Flag]:
    one = all_.streams[number]
    if not one.words:
        return
    yield from antecedents(all_, number)
    yield from categories(all_, number)
    yield from forms(all_, number, profile)
    yield from degrees(one)
    yield from fitted(one)
    yield from acts(all_, number)
    yield from transitions(all_, number)
    yield from examples(one)
    yield from groupings(one)
    yield from drawings(one)
    yield from shares(all_, number)
