"""Exact numbers as text for people: the shortest decimal, else a fraction with a decimal near it."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.quantity import Unit, decimal_text
from scopecheck.wording import GLUE

FIGURES = 5
"""Significant figures of an approximate decimal."""


def approximate(value: Fraction, figures: int = FIGURES) -> str:
    """A decimal near the value, to so many significant figures, rounded half away from zero."""
    if value == 0:
        return "0"
    size, places = abs(value), 0
    while size * 10**places >= 10**figures and places > 0:
        places -= 1
    while size * 10**places < 10 ** (figures - 1):
        places += 1
    scaled = size * 10**places
    nearest = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    text = decimal_text(Fraction(nearest, 10**places), most=places)
    return ("-" if value < 0 else "") + (text or "0")


def plain_number(value: Fraction) -> str:
    """The exact decimal; where there is none, the fraction and a decimal near it: `34/11 (≈ 3.0909)`."""
    return decimal_text(value) or f"{value.numerator}/{value.denominator} (≈ {approximate(value)})"


def in_unit(value: Fraction, unit: Unit) -> str:
    """A number of this unit with its symbol; a fraction has its approximate decimal after the symbol."""
    text, _, rest = plain_number(value).partition(" ")
    return GLUE.join(part for part in (text, unit.symbol, rest.replace(" ", GLUE)) if part)


def quantity_text(value: Fraction, unit: Unit) -> str:
    """A value in base units, written in the unit: `3.05 mm`, `34/11 mm (≈ 3.0909)`."""
    return in_unit(unit.from_base(value), unit)
