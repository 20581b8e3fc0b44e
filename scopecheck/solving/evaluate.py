"""The exact meaning: does this article meet it, under this construction?

Rationals only; no solver is known here. Terms have a value or None; formulas are True, False or None
(undefined) by strong three-valued logic. Met means True; anything else is not met, under negation too. The
cases stand in the same order as in `encode.py`, which gives the same language its symbolic meaning.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from math import floor
from operator import eq, ge, gt, le, lt, ne
from typing import assert_never

from scopecheck.core.construction import Construction
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Article,
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
    Op,
    Parameter,
    Rank,
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Rule,
    Term,
    Truth,
)


def evaluate_term(term: Term, article: Article, k: Construction) -> Fraction | None:
    """The term's value for this article, in base units; None where it has none."""
    match term:
        case Const(value):
            return value
        case Measured(name):
            value_of = article[name]
            assert isinstance(value_of, Fraction)
            return value_of
        case Parameter(key):
            return k.parameter(key)
        case Add(items):
            values = _values(items, article, k)
            return None if values is None else sum(values, Fraction(0))
        case Negate(item):
            value_in = evaluate_term(item, article, k)
            return None if value_in is None else -value_in
        case Multiply(left, right):
            values = _values((left, right), article, k)
            return None if values is None else values[0] * values[1]
        case Divide(left, right):
            values = _values((left, right), article, k)
            return None if values is None or values[1] == 0 else values[0] / values[1]
        case Remainder(item, divisor):
            value_in = evaluate_term(item, article, k)
            return None if value_in is None else value_in - divisor * floor(value_in / divisor)
        case Magnitude(item):
            value_in = evaluate_term(item, article, k)
            return None if value_in is None else abs(value_in)
        case Least(items):
            values = _values(items, article, k)
            return min(values) if values else None
        case Greatest(items):
            values = _values(items, article, k)
            return max(values) if values else None
        case Rounded(item, step, rule, origin):
            value_in = evaluate_term(item, article, k)
            if value_in is None:
                return None
            return origin + step * rounded_to_whole((value_in - origin) / step, rule)
        case CountOf(name):
            members = article[name]
            assert isinstance(members, frozenset)
            return Fraction(len(members))
        case Ranked(rank, items, there):
            present = [evaluate(condition, article, k) for condition in there]
            kept = tuple(item for item, is_there in zip(items, present, strict=True) if is_there)
            values = None if None in present else _values(kept, article, k)
            return _at_rank(rank, sorted(values)) if values else None
        case Branch(condition, then, otherwise):
            holds = evaluate(condition, article, k)
            if holds is None:
                return None
            return evaluate_term(then if holds else otherwise, article, k)
        case ReadTerm(group, options):
            return evaluate_term(options[k.readings[group]], article, k)
        case _:
            assert_never(term)


def _at_rank(rank: Rank, ordered: list[Fraction]) -> Fraction:
    if rank != "middle":
        return ordered[0] if rank == "least" else ordered[-1]
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def evaluate(formula: Formula, article: Article, k: Construction) -> bool | None:
    """Is the formula true of this article? None: undefined."""
    match formula:
        case Truth(value):
            return value
        case Compare(op, left, right):
            one, other = evaluate_term(left, article, k), evaluate_term(right, article, k)
            return None if one is None or other is None else compare(op, one, other)
        case IsWhole(item):
            value_in = evaluate_term(item, article, k)
            return None if value_in is None else value_in.denominator == 1
        case Chosen(name, member):
            return article[name] == member
        case Includes(name, member):
            members = article[name]
            assert isinstance(members, frozenset)
            return member in members
        case Not(item):
            return negation(evaluate(item, article, k))
        case All(items):
            return conjunction(evaluate(item, article, k) for item in items)
        case Any(items):
            return disjunction(evaluate(item, article, k) for item in items)
        case Implies(left, right):
            return disjunction((negation(evaluate(left, article, k)), evaluate(right, article, k)))
        case ExactlyOne(items):
            return _exactly_one([evaluate(item, article, k) for item in items])
        case Read(group, options):
            return evaluate(options[k.readings[group]], article, k)
        case _:
            assert_never(formula)


def meets(formula: Formula, article: Article, k: Construction) -> bool:
    """Is the formula met, that is, true and not merely undefined?"""
    return evaluate(formula, article, k) is True


_COMPARED: Mapping[Op, Callable[[int, int], bool]] = {"<": lt, "<=": le, "=": eq, "!=": ne, ">=": ge, ">": gt}


def compare(op: Op, left: Fraction, right: Fraction) -> bool:
    # Crosswise, as fractions compare, without their looking for other kinds of numbers first.
    (a, b), (c, d) = left.as_integer_ratio(), right.as_integer_ratio()
    return _COMPARED[op](a * d, c * b)


def rounded_to_whole(value: Fraction, rule: Rule) -> int:
    """The whole number that a value rounds to; halves go as the rule says."""
    above, below = value.as_integer_ratio()
    match rule:
        case "away":
            size = (2 * abs(above) + below) // (2 * below)
            return size if above >= 0 else -size
        case "up":
            return (2 * above + below) // (2 * below)
        case "even":
            whole, rest = divmod(above, below)
            if 2 * rest == below:
                return whole + whole % 2
            return whole if 2 * rest < below else whole + 1
        case _:
            assert_never(rule)


def negation(value: bool | None) -> bool | None:
    return None if value is None else not value


def conjunction(values: Iterable[bool | None]) -> bool | None:
    """False if some value is false, else undefined if some is, else true."""
    seen = list(values)
    if False in seen:
        return False
    return None if None in seen else True


def disjunction(values: Iterable[bool | None]) -> bool | None:
    """True if some value is true, else undefined if some is, else false."""
    seen = list(values)
    if True in seen:
        return True
    return None if None in seen else False


def _exactly_one(values: list[bool | None]) -> bool | None:
    # The disjunction of "this one and no other", read by the three-valued rules.
    return disjunction(
        conjunction(value if i == j else negation(value) for j, value in enumerate(values))
        for i in range(len(values))
    )


def _values(items: tuple[Term, ...], article: Article, k: Construction) -> list[Fraction] | None:
    values = []
    for item in items:
        value = evaluate_term(item, article, k)
        if value is None:
            return None
        values.append(value)
    return values
