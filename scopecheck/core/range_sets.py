"""Several ranges of one quantity: all that a formula of it alone lets be, as `x < 2 OR x > 13` does."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from scopecheck.core.formula import All, Any, Bound, Compare, Formula, Implies, Not, Truth
from scopecheck.core.ranges import Range, one_number, shared

Pieces = tuple[Range, ...]
"""Ranges of which no two share anything."""
_ALL: Pieces = (Range(),)


def pieces_of(formula: Formula) -> Pieces | None:
    """The ranges that a formula of one quantity, read, leaves to it; None where it is no set of such."""
    match formula:
        case Truth(value):
            return _ALL if value else ()
        case Not(item):
            return None if (own := pieces_of(item)) is None else _without(own)
        case All(items) | Any(items):
            each = [pieces_of(item) for item in items]
            known = [own for own in each if own is not None]
            if len(known) < len(each):
                return None
            if isinstance(formula, All):
                return reduce(both, known, _ALL)
            return _without(reduce(both, map(_without, known), _ALL))
        case Implies(condition, then):
            return pieces_of(Any((Not(condition), then)))
        case Compare(op, left, right) if op == "!=":
            return pieces_of(Not(Compare("=", left, right)))
        case Compare():
            limited = one_number(formula)
            return None if limited is None else (limited[1],)
        case _:
            return None


def both(one: Sequence[Range], other: Sequence[Range]) -> Pieces:
    """What lies in a range of each."""
    return tuple(s for a in one for b in other if not (s := shared(a, b)).empty)


def _without(own: Pieces) -> Pieces:
    """All that lies in none of the ranges."""
    rest = _ALL
    for piece in own:
        below = Range(None, _turned(piece.low)) if piece.low else None
        above = Range(_turned(piece.high), None) if piece.high else None
        rest = both(rest, [part for part in (below, above) if part is not None])
    return rest


def _turned(end: Bound) -> Bound:
    return Bound(end.value, not end.closed)
