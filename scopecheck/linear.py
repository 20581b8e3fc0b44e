"""Linear forms of terms over declared names: coefficients, without knowing how they will be used."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TypeAlias

from scopecheck.core import Add, Const, Divide, Measured, Multiply, Negate, Term

Linear: TypeAlias = Mapping[str | None, Fraction]
"""Coefficients by declared name; the key None is the constant."""


def linear_form(term: Term) -> Linear | None:
    """The term as a sum of coefficients times names and a constant; None where it is not one."""
    match term:
        case Const(value):
            return {None: value}
        case Measured(name):
            return {name: Fraction(1)}
        case Add(items):
            return _total([linear_form(item) for item in items])
        case Negate(item):
            return _scaled(linear_form(item), Fraction(-1))
        case Multiply(left, right):
            a, b = linear_form(left), linear_form(right)
            for factor, other in ((a, b), (b, a)):
                if factor is not None and set(factor) <= {None}:
                    return _scaled(other, factor.get(None, Fraction(0)))
            return None
        case Divide(left, right):
            divisor = linear_form(right)
            if divisor is None or not set(divisor) <= {None} or divisor.get(None, Fraction(0)) == 0:
                return None
            return _scaled(linear_form(left), 1 / divisor[None])
        case _:
            return None


def difference(left: Linear, right: Linear) -> Linear:
    """`left - right`, without names whose coefficient is 0."""
    total = _total([left, _scaled(right, Fraction(-1))])
    assert total is not None
    return {name: c for name, c in total.items() if c != 0 or name is None}


def _total(parts: list[Linear | None]) -> Linear | None:
    total: dict[str | None, Fraction] = {}
    for part in parts:
        if part is None:
            return None
        for name, c in part.items():
            total[name] = total.get(name, Fraction(0)) + c
    return total


def _scaled(form: Linear | None, factor: Fraction) -> Linear | None:
    return None if form is None else {name: factor * c for name, c in form.items()}
