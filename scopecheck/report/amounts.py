"""Exact numbers as text for people: the shortest decimal, else a decimal near it, said to be near.

The exact value stands in the JSON of a report beside what is written.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from scopecheck.core.ranges import Range
from scopecheck.foundations.quantity import Unit, decimal_text
from scopecheck.foundations.regex import regex
from scopecheck.report.wording import GLUE, listed, sentence

FIGURES = 3
"""Significant figures of an approximate decimal."""
ABOUT = "about"
_DEGREES = regex(r"\bdeg([CFR])\b(\(diff\))?")


def plain_degrees(text: str) -> str:
    """The sheet's spelling of degrees as people write them: `degC` as `°C`, a difference of such as `K`."""
    if "deg" not in text:
        return text
    return _DEGREES.sub(lambda m: "K" if m[2] and m[1] == "C" else f"°{m[1]}", text)


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
    """The exact decimal; where there is none, one near it: `about 3.09`."""
    return with_symbol(value, "")


def in_unit(value: Fraction, unit: Unit) -> str:
    """A number of this unit with its symbol."""
    return with_symbol(value, unit.symbol)


def quantity_text(value: Fraction, unit: Unit) -> str:
    """A value in base units, written in the unit: `3.05 mm`, `about 3.09 mm`."""
    return in_unit(unit.from_base(value), unit)


def with_symbol(value: Fraction, symbol: str) -> str:
    """A number and a symbol: `3.05 mm`, `about 3.09 mm`; a symbol of '' is left out."""
    parts = (decimal_text(value) or f"{ABOUT}{GLUE}{approximate(value)}", plain_degrees(symbol))
    return GLUE.join(part for part in parts if part)


def exactly(value: Fraction, symbol: str) -> str:
    """The same with the fraction behind a decimal near it: `about 3.09 mm (exactly 34/11)`.

    Per cent stands behind the fraction too, which could be taken for the share itself.
    """
    near = with_symbol(value, symbol)
    if decimal_text(value):
        return near
    of_hundred = f"{GLUE}%" if symbol == "%" else ""
    return f"{near}{GLUE}(exactly{GLUE}{value.numerator}/{value.denominator}{of_hundred})"


def difference_text(value: Fraction, unit: Unit) -> str:
    """A difference in base units, in this unit: of temperatures in degrees apart, of shares in points."""
    if unit.symbol.endswith("%"):
        points = value / unit.factor
        return with_symbol(points, sentence("points", "one" if points == 1 else "many"))
    symbol = f"{unit.symbol}(diff)" if unit.kind.basis == "level" else unit.symbol
    return with_symbol(value / unit.factor, symbol)


def percentage(share: Fraction) -> str:
    """A bare share as a percentage."""
    return with_symbol(share * 100, "%")


def about_text(percent: Fraction) -> str:
    """A percentage to two figures, marked where it is not exact."""
    text = f"{approximate(percent, 2)}{GLUE}%"
    return text if Fraction(approximate(percent, 2)) == percent else f"{ABOUT}{GLUE}{text}"


def ends_text(own: Range, write: Callable[[Fraction], str]) -> str:
    """`2 mm to 4 mm`, `above 5 %`, `any value`; one value as itself."""
    if own.single is not None:
        return write(own.single)
    low, high = own.low, own.high
    if low is not None and high is not None and low.closed and high.closed:
        return sentence("range", "both", low=write(low.value), high=write(high.value))
    parts = []
    if low is not None:
        parts.append(sentence("range", "only_low" if low.closed else "above", low=write(low.value)))
    if high is not None:
        parts.append(sentence("range", "only_high" if high.closed else "below", high=write(high.value)))
    return listed(parts) or sentence("range", "any")
