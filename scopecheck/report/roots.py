"""Polynomials with rational coefficients, and exact real numbers: fractions, and roots that are none."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor
from typing import TypeAlias

from scopecheck.foundations.record import holder

Polynomial: TypeAlias = tuple[Fraction, ...]
"""Coefficients, the constant first, the last not 0; () is 0."""


def trimmed(coefficients: Sequence[Fraction]) -> Polynomial:
    """The coefficients without zeros at the end."""
    end = len(coefficients)
    while end and coefficients[end - 1] == 0:
        end -= 1
    return tuple(coefficients[:end])


def plus(a: Polynomial, b: Polynomial, factor: Fraction = Fraction(1)) -> Polynomial:
    """`a + factor * b`."""
    size = max(len(a), len(b))
    padded_a, padded_b = (p + (Fraction(0),) * (size - len(p)) for p in (a, b))
    return trimmed([x + factor * y for x, y in zip(padded_a, padded_b, strict=True)])


def times(a: Polynomial, b: Polynomial) -> Polynomial:
    result = [Fraction(0)] * max(len(a) + len(b) - 1, 0)
    for i, x in enumerate(a):
        for j, y in enumerate(b):
            result[i + j] += x * y
    return trimmed(result)


def value_at(p: Polynomial, x: Fraction) -> Fraction:
    total = Fraction(0)
    for coefficient in reversed(p):
        total = total * x + coefficient
    return total


def enclosure(p: Polynomial, low: Fraction, high: Fraction) -> tuple[Fraction, Fraction]:
    """Two numbers with all values of p on [low, high] between them; exact for a straight line."""
    least = greatest = Fraction(0)
    for coefficient in reversed(p):
        corners = [end * x for end in (least, greatest) for x in (low, high)]
        least, greatest = min(corners) + coefficient, max(corners) + coefficient
    return least, greatest


@holder
class Root:
    """The one root between `low` and `high` of a polynomial that has no rational root.

    Two different `Root` objects of one computation are different numbers; `narrow` halves the interval.
    """

    polynomial: Polynomial
    low: Fraction
    high: Fraction

    def narrow(self) -> None:
        middle = (self.low + self.high) / 2
        if (value_at(self.polynomial, self.low) > 0) == (value_at(self.polynomial, middle) > 0):
            self.low = middle
        else:
            self.high = middle

    def exceeds(self, number: Fraction) -> bool:
        while self.low < number < self.high:
            self.narrow()
        return self.low >= number


End: TypeAlias = Fraction | Root


def before(a: End, b: End) -> bool:
    """Is a less than b? Exact for roots too."""
    if a is b:
        return False
    if isinstance(a, Fraction):
        return a < b if isinstance(b, Fraction) else b.exceeds(a)
    if isinstance(b, Fraction):
        return not a.exceeds(b)
    while a.low < b.high and b.low < a.high:
        a.narrow()
        b.narrow()
    return a.high <= b.low


def in_order(a: End, b: End) -> int:
    """Below 0, 0 or above 0, as a sorting key by comparison wants it."""
    return -1 if before(a, b) else int(before(b, a))


def between(low: End | None, high: End | None) -> Fraction:
    """A rational number strictly between two ends, None being infinite."""
    if low is None and high is None:
        return Fraction(0)
    if low is None:
        assert high is not None
        return Fraction(floor(high if isinstance(high, Fraction) else high.low) - 1)
    if high is None:
        return Fraction(ceil(low if isinstance(low, Fraction) else low.high) + 1)
    inner_low = low if isinstance(low, Fraction) else low.high
    inner_high = high if isinstance(high, Fraction) else high.low
    while inner_low >= inner_high and not (isinstance(low, Fraction) and isinstance(high, Fraction)):
        for end in (low, high):
            if isinstance(end, Root):
                end.narrow()
        inner_low = low if isinstance(low, Fraction) else low.high
        inner_high = high if isinstance(high, Fraction) else high.low
    return (inner_low + inner_high) / 2
