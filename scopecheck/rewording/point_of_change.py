"""A state that changes somewhere in a range: what is then so beyond it, and what is not so before it.

Of `opens at 4 to 6 bar` the point of change lies in the range. Risen to, it is open from 6 bar on and not
below 4 bar, and either between them; fallen to, open up to 4 bar and not above 6 bar.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, TypeAlias

from scopecheck.core.construction import Node, nodes
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Compare,
    Const,
    Divide,
    Formula,
    Implies,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Not,
    Op,
    Read,
    Rounded,
    Term,
    Truth,
    all_of,
    any_of,
)

Way: TypeAlias = Literal["past", "short"]
"""Beyond all of the values but the last, or before all of them."""

_TURNED: dict[Op, Op] = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "="}
_DENIED: dict[Op, Op] = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
_NOTHING = Truth(False)


class NoRange(Exception):
    """The condition is no range of values of that thing."""


def changed_from(condition: Formula, of: str, done: Formula, rising: bool) -> Formula:
    """What is so if, as `of` rises or falls, `done` begins at some value that meets the condition.

    Raises NoRange where the values that meet it have a gap, or are not told of `of` alone.
    """
    past, short = (_side(condition, of, way, rising) for way in ("past", "short"))
    told = [Implies(past, done)] if past != _NOTHING else []
    told += [Implies(short, Not(done))] if short != _NOTHING else []
    if not told:
        raise NoRange
    return all_of(told)


def _side(condition: Formula, of: str, way: Way, rising: bool) -> Formula:
    match condition:
        case Truth(True):
            return _NOTHING
        case Read(group, options):
            sides = tuple(_side(option, of, way, rising) for option in options)
            return _NOTHING if all(s == _NOTHING for s in sides) else Read(group, sides)
        case All(items):
            return _any(tuple(_side(item, of, way, rising) for item in items))
        case Not(Any(items)):
            return _any(tuple(_side(Not(item), of, way, rising) for item in items))
        case Not(Compare(op, left, right)) if op in _DENIED:
            return _side(Compare(_DENIED[op], left, right), of, way, rising)
        case Compare(op, left, right):
            limits = [limit for limit in _limits(op, left, right, of) if limit is not None]
            return _any(tuple(_beyond(limit, of, way, rising) for limit in limits))
        case _:
            raise NoRange


def _any(sides: Sequence[Formula]) -> Formula:
    said = tuple(s for s in sides if s != _NOTHING)
    return any_of(said) if said else _NOTHING


def _limits(op: Op, left: Term, right: Term, of: str) -> tuple[Compare, ...]:
    """The limits that a comparison sets, each with one end: of a size, and of one value, both."""
    if op == "!=":
        raise NoRange
    if op == "=":
        return (*_limits(">=", left, right, of), *_limits("<=", left, right, of))
    if not _holds(left, of):
        left, right, op = right, left, _TURNED[op]
    size = _size(left)
    if size is None:
        return (Compare(op, left, right),)
    if op not in ("<", "<="):
        raise NoRange  # beyond a deviation: on either side
    match size, left:
        case Add((Measured(name), Negate(middle))), Magnitude() if name == of:
            upper, lower = Add((middle, right)), Add((middle, Negate(right)))
            return (Compare(op, Measured(name), upper), Compare(_TURNED[op], Measured(name), lower))
        case _:
            return (
                Compare(op, _without_size(left, size), right),
                Compare(op, _without_size(left, Negate(size)), right),
            )


def _size(term: Term) -> Term | None:
    """What stands between the bars of a size, or of a rounded one."""
    match term:
        case Magnitude(item):
            return item
        case Rounded(item=Magnitude(item)):
            return item
        case _:
            return None


def _without_size(term: Term, instead: Term) -> Term:
    return Rounded(instead, term.step, term.rule, term.origin) if isinstance(term, Rounded) else instead


def _beyond(limit: Compare, of: str, way: Way, rising: bool) -> Formula:
    """Where the limit, as one of those on a point of change, leaves no such point beyond, or none before.

    A rounded value keeps its step: up to 6.5 the next one rounds to 6 as well.
    """
    slope = _slope(limit.left, of) - _slope(limit.right, of)
    if slope not in (1, -1):
        raise NoRange
    upper = (limit.op in ("<", "<=")) == (slope == 1)
    if upper == (rising == (way == "short")):
        return _NOTHING
    denied = _DENIED[limit.op]
    rounded = any(isinstance(n, Rounded) for n in nodes(limit))
    if way == "past" and not rounded:
        denied = ">=" if denied in (">", ">=") else "<="
    return Compare(denied, limit.left, limit.right)


def _slope(term: Term, of: str) -> int:
    """Which way the term goes as `of` rises: 1, -1, or 0 where that is not in it."""
    if not _holds(term, of):
        return 0
    match term:
        case Measured():
            return 1
        case Negate(item):
            return -_slope(item, of)
        case Rounded(item=item):
            return _slope(item, of)
        case Add(items) if sum(_holds(item, of) for item in items) == 1:
            return sum(_slope(item, of) for item in items)
        case Multiply(Const(value), item) | Multiply(item, Const(value)) | Divide(item, Const(value)) if (
            value
        ):
            return _slope(item, of) * (1 if value > 0 else -1)
        case _:
            raise NoRange


def _holds(node: Node, of: str) -> bool:
    return any(isinstance(n, Measured) and n.name == of for n in nodes(node))
