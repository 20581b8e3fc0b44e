"""Rewriting formulas: one group settled by one of its readings, or all groups given other numbers."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any as AnyNode
from typing import assert_never

from scopecheck.core.construction import groups_in
from scopecheck.core.model import (
    Add,
    All,
    Any,
    Branch,
    Chosen,
    Compare,
    Const,
    CountOf,
    Divide,
    ExactlyOne,
    Formula,
    Greatest,
    Implies,
    Includes,
    IsWhole,
    Least,
    Magnitude,
    Measured,
    Median,
    Multiply,
    Negate,
    Not,
    Parameter,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
    Truth,
    Written,
)


def read_as(  # noqa: C901 - one case for each kind of node
    formula: Formula, group: int, reading: int, presumed: Mapping[str, Fraction] = MappingProxyType({})
) -> Formula:
    """The formula with every occurrence of the group replaced by that one reading's meaning.

    Parameters named in `presumed` are replaced by their values.
    """

    def term(t: Term) -> Term:
        match t:
            case Parameter(key) if key in presumed:
                return Const(presumed[key])
            case Const() | Measured() | Parameter() | CountOf():
                return t
            case Add(items):
                return Add(tuple(map(term, items)))
            case Least(items):
                return Least(tuple(map(term, items)))
            case Greatest(items):
                return Greatest(tuple(map(term, items)))
            case Negate(item):
                return Negate(term(item))
            case Magnitude(item):
                return Magnitude(term(item))
            case Rounded(item, step, rule, origin):
                return Rounded(term(item), step, rule, origin)
            case Remainder(item, divisor):
                return Remainder(term(item), divisor)
            case Multiply(left, right):
                return Multiply(term(left), term(right))
            case Divide(left, right, text):
                return Divide(term(left), term(right), text)
            case Median(items, count):
                return Median(tuple(map(term, items)), term(count))
            case Branch(condition, then, otherwise):
                return Branch(whole(condition), term(then), term(otherwise))
            case ReadTerm(g, options):
                return term(options[reading]) if g == group else ReadTerm(g, tuple(map(term, options)))
            case _:
                assert_never(t)

    def whole(f: Formula) -> Formula:
        if group not in groups_in(f):
            return f  # the same object, so that what is known of it stays known
        match f:
            case Truth() | Chosen() | Includes():
                return f
            case Compare(op, left, right):
                return Compare(op, term(left), term(right))
            case IsWhole(item):
                return IsWhole(term(item))
            case Not(inner):
                return Not(whole(inner))
            case All(items):
                return All(tuple(map(whole, items)))
            case Any(items):
                return Any(tuple(map(whole, items)))
            case ExactlyOne(items):
                return ExactlyOne(tuple(map(whole, items)))
            case Implies(left, right):
                return Implies(whole(left), whole(right))
            case Read(g, options):
                return whole(options[reading]) if g == group else Read(g, tuple(map(whole, options)))
            case _:
                assert_never(f)

    return whole(formula)


def regrouped(
    formula: Formula, groups: Mapping[int, tuple[int, tuple[int, ...]]], keys: Mapping[str, str]
) -> Formula:
    """The formula for other group numbers: each group's new number with the readings that it keeps, in order.

    Parameters get the keys that `keys` gives them. Readings that are not kept take their meanings with them.
    """
    again: Formula = _regrouped(formula, groups, keys)
    return again


def _regrouped(
    item: AnyNode, groups: Mapping[int, tuple[int, tuple[int, ...]]], keys: Mapping[str, str]
) -> AnyNode:
    match item:
        case Read(group, options) | ReadTerm(group, options):
            number, kept = groups[group]
            return type(item)(number, tuple(_regrouped(options[r], groups, keys) for r in kept))
        case Parameter(key):
            return Parameter(keys[key])
        case tuple():
            return tuple(_regrouped(part, groups, keys) for part in item)
        case _ if hasattr(item, "__match_args__") and not isinstance(item, Written):
            parts = [_regrouped(getattr(item, name), groups, keys) for name in item.__match_args__]
            return type(item)(*parts)
        case _:
            return item
