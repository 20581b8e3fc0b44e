"""Bounds, presumed values and pinned values are of the kind of what they bound, and lie where they may."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.quantity import find_unit
from tests.sheets import errors, sheet

DECLARED = "x  {}\n\n1. A rod with an x.\n   | not restated : with\n"


def declared(kind: str) -> str:
    return DECLARED.format(kind)


@pytest.mark.parametrize(
    ("kind", "bound", "first", "second"),
    [
        ("share in wt%", "<= 5 vol%", "Share by volume", "share by mass"),
        ("share in %", "<= 5 wt%", "Share by mass", "plain number"),
        ("number", "<= 5 wt%", "Share by mass", "plain number"),
        ("pressure in bar(g)", "<= 5 bar(a)", "Absolute pressure", "gauge pressure"),
        ("pressure in bar(g)", "<= 5 bar", "Pressure", "gauge pressure"),
        ("pressure in bar", "<= 5 bar(a)", "Absolute pressure", "pressure"),
        ("temperature difference in K", "<= 5 degC", "Temperature level", "temperature difference"),
        ("temperature in degC", "<= 10 degF(diff)", "Temperature difference", "temperature level"),
        ("length in mm", "<= 5 s", "Time", "length"),
    ],
)
def test_a_bound_of_another_kind_is_refused(kind: str, bound: str, first: str, second: str) -> None:
    """It names both kinds, at the bound."""
    (error,) = errors(declared(f"{kind}, {bound}"))
    assert error.message.startswith("a bound in ")
    assert error.cause.startswith(f"{first} and {second} cannot be compared: ")
    assert error.span.text == bound.removeprefix("<= ")
    assert error.help.startswith("write ")


@pytest.mark.parametrize(
    ("kind", "bound", "upper"),
    [
        ("share in wt%", "5", "5 wt%"),
        ("share in wt%", "5 %", "5 wt%"),
        ("share in wt%", "50 mg/g", "5 wt%"),
        ("share in wt% of wax", "5 wt%", "5 wt%"),
        ("share in %", "5 %", "5 %"),
        ("number", "5 %", "5 %"),
        ("pressure in bar(g)", "500 kPa(g)", "5 bar(g)"),
        ("temperature in degC", "300 K", "300 K"),
        ("temperature in degC", "20", "20 degC"),
        ("temperature in K", "20 degC", "20 degC"),
        ("temperature difference in K", "9 degF(diff)", "5 K"),
    ],
)
def test_a_bound_of_the_same_kind_is_taken(kind: str, bound: str, upper: str) -> None:
    (made,) = sheet(declared(f"{kind}, <= {bound}")).declarations
    value, _, symbol = upper.partition(" ")
    unit = find_unit(symbol)
    assert unit
    assert isinstance(made, NumberDecl)
    assert made.upper
    assert made.upper.value == unit.to_base(Fraction(value))


# ---- free numbers of readings

ADDED = """x  length in mm

phrase "clear of (L)"
  reading "by some" presumed : x >= m + L
    free m : {}
  reading "at all" arguable : x > L

1. A rod with an x clear of 10 mm.
   | x : clear of 10 mm
"""
RELATIVE = ADDED.replace("m + L", "(1 + m) * L")


@pytest.mark.parametrize(
    ("text", "field", "number", "message"),
    [
        (ADDED, "0 mm <= m <= 2 mm, presumed 1", "1", "1 stands beside a quantity in mm and has no unit"),
        (ADDED, "like x, 0 <= m <= 2 mm, presumed 1", "1", "1 stands beside a quantity in mm"),
        (ADDED, "0 mm <= m <= 2, presumed 1 mm", "2", "2 stands beside a quantity in mm"),
        (ADDED, "m >= -5, presumed 5 mm", "-5", "-5 stands beside a quantity in mm"),
        (ADDED, "0 mm <= m <= 2 s, presumed 1 mm", "2 s", "2 s is no value for 'm'"),
        (RELATIVE, "5 % <= m <= 15 %, presumed 10", "10", "10 stands beside a quantity in %"),
        (RELATIVE, "m >= 1, presumed 200 %", "1", "1 stands beside a quantity in %"),
    ],
)
def test_numbers_of_a_free_number_are_of_its_kind(text: str, field: str, number: str, message: str) -> None:
    (error,) = errors(text.format(field))
    assert error.message.startswith(message)
    assert error.span.text == number


@pytest.mark.parametrize(
    ("text", "field", "message"),
    [
        (RELATIVE, "5 % <= m <= 15 %, presumed 50 %", "50 % is presumed of m, and does not lie within"),
        (ADDED, "m >= 0 mm, presumed -5 mm", "-5 mm is presumed of m, and does not lie within"),
        (RELATIVE, "5 % < m, presumed 5 %", "5 % is presumed of m, and does not lie within"),
        (RELATIVE, "5 % < m", "nothing is presumed of m, and its lower end does not belong to it"),
        (RELATIVE, "5 % < m < 5 %, presumed 5 %", "no value lies within the bounds of m"),
        (RELATIVE, "6 % <= m <= 5 %, presumed 5 %", "the lower end of m is above its upper end"),
    ],
)
def test_what_is_presumed_of_a_free_number_lies_within_its_bounds(
    text: str, field: str, message: str
) -> None:
    (error,) = errors(text.format(field))
    assert error.message.startswith(message)
    assert error.span.text == f"m : {field}"


@pytest.mark.parametrize(
    ("text", "field", "presumed"),
    [
        (ADDED, "0 mm <= m <= 2 mm, presumed 1 mm", "1/1000"),
        (ADDED, "like x, m >= 0, presumed 0", "0"),
        (ADDED, "like x, m > 0", "0"),
        (ADDED, "m > 1 mm, presumed 2 mm", "1/500"),
        (ADDED, "5 mm <= m <= 5 mm", "1/200"),
        (RELATIVE, "0 <= m <= 15 %, presumed 10 %", "1/10"),
        (RELATIVE, "1 <= m <= 3, presumed 2", "2"),
    ],
)
def test_what_goes_with_a_free_number_is_taken(text: str, field: str, presumed: str) -> None:
    """A bare 0 goes with every kind, bare numbers with one another; above an open 0 nothing is presumed."""
    (parameter,) = sheet(text.format(field)).parameters
    assert parameter.presumed == Fraction(presumed)


@pytest.mark.parametrize(
    ("text", "field", "value", "cause"),
    [
        (RELATIVE, "5 % <= m <= 15 %, presumed 10 %", "50 %", "within 5 % <= m <= 15 % only"),
        (RELATIVE, "m >= 0, presumed 0", "-5 %", "within m >= 0 only"),
        (ADDED, "0 mm < m <= 2 mm, presumed 1 mm", "0 mm", "within 0 mm < m <= 2 mm only"),
        (RELATIVE, "m >= 0, presumed 0", "5 wt%", "Share by mass and plain number cannot be compared"),
        (ADDED, "0 mm <= m <= 2 mm, presumed 1 mm", "1 s", "Time and length cannot be compared"),
    ],
)
def test_a_pin_gives_a_value_that_the_reading_lets_by(text: str, field: str, value: str, cause: str) -> None:
    pin = f'\nread "clear of" as "by some" with m = {value}\n'
    (error,) = errors(text.format(field) + pin)
    assert error.message == f"{value} is no value for 'm'"
    assert cause in error.cause
    assert error.span.text == value
