"""Rewriting formulas: a group settled by a reading, a quantity in another's place, groups renumbered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType
from typing import Any as AnyNode
from typing import TypeAlias, assert_never

from scopecheck.core.construction import Construction, Node, children
from scopecheck.core.formula import (
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
    Multiply,
    Negate,
    Not,
    Parameter,
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
    Truth,
    Written,
)

ChangeTerm: TypeAlias = Callable[[Term], Term | None]
ChangeFormula: TypeAlias = Callable[[Formula], Formula | None]


def read_as(
    formula: Formula, group: int, reading: int, presumed: Mapping[str, Fraction] = MappingProxyType({})
) -> Formula:
    """The formula with every occurrence of the group replaced by that one reading's meaning.

    Parameters named in `presumed` are replaced by their values.
    """
    return _read(formula, {group: reading}, presumed)


def read_at(formula: Formula, k: Construction) -> Formula:
    """The formula with every group and parameter replaced by what it is under a construction."""
    return _read(formula, dict(enumerate(k.readings)), dict(k.parameters))


def _read(formula: Formula, readings: Mapping[int, int], values: Mapping[str, Fraction]) -> Formula:
    """The formula with these groups and parameters settled, in one pass.

    Parts in which none of them occurs stay the same objects, so that what is known of them stays known.
    """

    def term(t: Term) -> Term | None:
        match t:
            case Parameter(key) if key in values:
                return Const(values[key])
            case ReadTerm(group, options) if group in readings:
                return rewritten_term(options[readings[group]], term, whole)
            case _:
                return None

    known: dict[int, bool] = {}

    def is_open(node: Node) -> bool:
        """Does one of them occur in it? Nodes are looked at once: they live as long as the formula."""
        key = id(node)
        if key not in known:
            match node:
                case Read(group) | ReadTerm(group) if group in readings:
                    here = True
                case Parameter(name):
                    here = name in values
                case _:
                    here = any(map(is_open, children(node)))
            known[key] = here
        return known[key]

    def whole(f: Formula) -> Formula | None:
        if isinstance(f, Read) and f.group in readings:
            return rewritten(f.options[readings[f.group]], term, whole)
        return None if is_open(f) else f

    return rewritten(formula, term, whole)


def with_values_of(formula: Formula, instead: Mapping[str, Term]) -> Formula:
    """The formula with other terms in the place of the values of some declared numbers."""

    def term(t: Term) -> Term | None:
        return instead.get(t.name) if isinstance(t, Measured) else None

    return rewritten(formula, term, lambda _: None)


def rewritten_term(t: Term, change: ChangeTerm, change_formula: ChangeFormula) -> Term:
    """The term with each part replaced by what `change` gives for it, or rewritten where it gives None."""

    def term(inner: Term) -> Term:
        return rewritten_term(inner, change, change_formula)

    changed = change(t)
    if changed is not None:
        return changed
    match t:
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
        case Ranked(rank, items, there):
            kept = tuple(rewritten(f, change, change_formula) for f in there)
            return Ranked(rank, tuple(map(term, items)), kept)
        case Branch(condition, then, otherwise):
            return Branch(rewritten(condition, change, change_formula), term(then), term(otherwise))
        case ReadTerm(g, options):
            return ReadTerm(g, tuple(map(term, options)))
        case _:
            assert_never(t)


def rewritten(f: Formula, change_term: ChangeTerm, change: ChangeFormula) -> Formula:
    """The formula with each part replaced by what `change` gives for it, or rewritten where it gives None."""

    def term(t: Term) -> Term:
        return rewritten_term(t, change_term, change)

    def whole(inner: Formula) -> Formula:
        return rewritten(inner, change_term, change)

    changed = change(f)
    if changed is not None:
        return changed
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
            return Read(g, tuple(map(whole, options)))
        case _:
            assert_never(f)


def regrouped(
    formula: Formula, groups: Mapping[int, tuple[int, tuple[int, ...]]], keys: Mapping[str, str]
) -> Formula:
    """The formula for other group numbers: each group's new number with the readings that it keeps, in order.

    A reading kept twice is the same object twice. Parameters get the keys that `keys` gives them. Readings
    that are not kept take their meanings with them.
    """
    again: Formula = _regrouped(formula, groups, keys)
    return again


def _regrouped(
    item: AnyNode, groups: Mapping[int, tuple[int, tuple[int, ...]]], keys: Mapping[str, str]
) -> AnyNode:
    match item:
        case Read(group, options) | ReadTerm(group, options):
            number, kept = groups[group]
            again = {r: _regrouped(options[r], groups, keys) for r in dict.fromkeys(kept)}
            return type(item)(number, tuple(again[r] for r in kept))
        case Parameter(key):
            return Parameter(keys[key])
        case tuple():
            return tuple(_regrouped(part, groups, keys) for part in item)
        case _ if hasattr(item, "__match_args__") and not isinstance(item, Written):
            parts = [_regrouped(getattr(item, name), groups, keys) for name in item.__match_args__]
            return type(item)(*parts)
        case _:
            return item
