"""What terms and formulas are made of, and where unknown things are multiplied by unknown things."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

import pytest

from scopecheck.core.construction import _INNER, children, nodes
from scopecheck.core.formula import Add, Compare, Const, Divide, Formula, Measured, Multiply, Rounded, Term
from scopecheck.core.linear import multiplies_unknowns

X, Y, TWO = Measured("x"), Measured("y"), Const(Fraction(2))


def test_every_kind_of_term_and_formula_has_its_parts() -> None:
    assert set(_INNER) == {*get_args(Term), *get_args(Formula)}
    ratio = Divide(X, Y)
    formula = Compare("<=", ratio, TWO)
    assert children(formula) == (ratio, TWO)
    assert list(nodes(formula)) == [formula, ratio, X, Y, TWO]


@pytest.mark.parametrize(
    ("formula", "products"),
    [
        (Compare("<=", Add((X, Multiply(TWO, Y))), TWO), False),
        (Compare("<=", Divide(X, Y), TWO), False),
        (Compare("<=", TWO, Rounded(Divide(X, Y), Fraction(1), "away")), False),
        (Compare("<=", Divide(X, Y), X), True),
        (Compare("<=", Divide(X, Divide(X, Y)), TWO), True),
        (Compare("<=", Add((Divide(X, Y), X)), TWO), True),
        (Compare("<=", Multiply(X, Y), TWO), True),
    ],
)
def test_a_ratio_beside_a_number_multiplies_nothing_unknown(formula: Formula, products: bool) -> None:
    assert multiplies_unknowns(formula) is products
