"""What a term is over declared names: its linear form, and whether it is always a whole number."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from fractions import Fraction
from typing import TypeAlias, assert_never

from scopecheck.core.construction import names_in, nodes, parameters_in
from scopecheck.core.formula import (
    Add,
    Branch,
    Compare,
    Const,
    CountOf,
    Divide,
    Formula,
    Greatest,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Parameter,
    Ranked,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
)

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
        case Magnitude(item):
            return _of_constants((item,), lambda values: abs(values[0]))
        case Least(items):
            return _of_constants(items, min)
        case Greatest(items):
            return _of_constants(items, max)
        case _:
            return None


def _of_constants(items: Iterable[Term], made: Callable[[list[Fraction]], Fraction]) -> Linear | None:
    """What is made of constants; None of anything else."""
    forms = [linear_form(item) for item in items]
    values = [form.get(None, Fraction(0)) for form in forms if form is not None and set(form) <= {None}]
    return {None: made(values)} if values and len(values) == len(forms) else None


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


def always_whole(term: Term, wholes: Collection[str]) -> bool:
    """Is every value the term can have a whole number, `wholes` being the names of whole numbers?"""

    def all_whole(items: Iterable[Term]) -> bool:
        return all(always_whole(item, wholes) for item in items)

    match term:
        case Const(value):
            return value.denominator == 1
        case Measured(name):
            return name in wholes
        case CountOf():
            return True
        case Add(items) | Least(items) | Greatest(items) | ReadTerm(_, items):
            return all_whole(items)
        case Negate(item) | Magnitude(item):
            return always_whole(item, wholes)
        case Multiply(left, right) | Branch(_, left, right):
            return all_whole((left, right))
        case Rounded(_, step, _, origin):
            return step.denominator == 1 and origin.denominator == 1
        case Remainder(item, divisor):
            return always_whole(item, wholes) and divisor.denominator == 1
        case Divide() | Parameter() | Ranked():
            return False
        case _:
            assert_never(term)


def multiplies_unknowns(formula: Formula) -> bool:
    """Is anything unknown multiplied by anything unknown, once divisors are multiplied out?

    A ratio of unknowns, rounded or not, beside a number is not: it becomes a multiple of its divisor.
    """

    def unknown(term: Term) -> bool:
        return bool(names_in(term) or parameters_in(term))

    def ratio(term: Term) -> bool:
        whole = term.item if isinstance(term, Rounded) else term
        return isinstance(whole, Divide) and unknown(whole.right)

    ratios = beside_number = 0
    for n in nodes(formula):
        match n:
            case Multiply(left, right) if unknown(left) and unknown(right):
                return True
            case Divide(_, right) if unknown(right):
                ratios += 1
            case Compare(_, left, right):
                plain = (ratio(left) and not unknown(right)) or (ratio(right) and not unknown(left))
                beside_number += plain
    return ratios > beside_number
