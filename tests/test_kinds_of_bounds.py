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
