"""Cells of cases that say of nothing, or that nothing is said. By hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.solving.evaluate import meets
from tests.sheets import errors, sheet

HEAD = "width  length in mm\noil  share in wt%\nribs  count\ncoated  one of only yes, no\n\n"
HEAD += "1. A lid, oil at most 5 wt%.\n   | oil : at most 5 wt%\n"


@pytest.mark.parametrize("said", ["not stated", "not disclosed", "unspecified", "silent"])
def test_a_document_in_which_nothing_is_stated_is_silent(said: str) -> None:
    made = sheet(f"{HEAD}document D1  oil  width  coated\n  row  {said}  {said}  {said}\n")
    (row,) = made.cases
    assert {"oil", "width", "coated"} <= set(row.silent)


@pytest.mark.parametrize(("name", "said"), [("oil", "none"), ("oil", "absent"), ("ribs", "zero")])
def test_none_of_a_share_or_a_number_of_things_is_zero(name: str, said: str) -> None:
    made = sheet(f"{HEAD}inside  {name}\n  row  {said}\n")
    (row,) = made.cases
    base = base_construction(made)
    assert meets(row.facts, {"oil": Fraction(0), "ribs": Fraction(0)}, base)
    assert not meets(row.facts, {"oil": Fraction(1), "ribs": Fraction(1)}, base)


@pytest.mark.parametrize(
    ("name", "said", "help"),
    [
        ("width", "none", "write 0 mm if that is meant, any, unknown, or the value"),
        ("coated", "not stated", "write any, unknown, or the value"),
        ("oil", "not stated", "write any, unknown, or the value"),
    ],
)
def test_what_may_mean_two_things_is_no_value(name: str, said: str, help: str) -> None:
    (error,) = errors(f"{HEAD}inside  {name}\n  row  {said}\n")
    assert (error.message, error.help) == (f"'{said}' is no value", help)


@pytest.mark.parametrize("said", ["1.0e-4", "1.0E-04", "0.00010", "10^-4", "1 × 10^-4", "1/10000"])
def test_a_number_with_an_exponent_is_exact(said: str) -> None:
    text = "dose  in mol/mm3\n\n1. A can, a dose of at most 1 mol/mm3.\n   | dose : at most 1 mol/mm3\n"
    made = sheet(f"{text}inside  dose\n  row  {said} mol/mm3\n")
    (row,) = made.cases
    assert len(made.groups) == 1
    assert meets(row.facts, {"dose": Fraction(100000)}, base_construction(made))
    assert not meets(row.facts, {"dose": Fraction(104000)}, base_construction(made))


def test_a_range_of_numbers_with_exponents_is_a_range() -> None:
    text = "dose  number\n\n1. A can, a dose of at most 1.\n   | dose : at most 1\n"
    made = sheet(f"{text}inside  dose\n  row  1e-3 to 2e-3\n")
    assert meets(made.cases[0].facts, {"dose": Fraction(3, 2000)}, base_construction(made))
