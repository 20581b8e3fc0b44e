"""The value of terms and formulas that hold written numbers only; None where anything else takes part."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Compare,
    Const,
    Divide,
    Formula,
    Greatest,
    IsWhole,
    Least,
    Magnitude,
    Multiply,
    Negate,
    Not,
    Op,
    Remainder,
    Term,
    Truth,
)


def constant(term: Term) -> Fraction | None:
    """The number that a term of written numbers stands for; None for others and for a division by 0."""
    match term:
        case Const(value=value):
            return value
        case Negate(item=item):
            inner = constant(item)
            return None if inner is None else -inner
        case Magnitude(item=item):
            inner = constant(item)
            return None if inner is None else abs(inner)
        case Add(items=items) | Least(items=items) | Greatest(items=items):
            values = [v for v in map(constant, items) if v is not None]
            if len(values) < len(items) or not values:
                return None
            if isinstance(term, Add):
                return sum(values, Fraction(0))
            return min(values) if isinstance(term, Least) else max(values)
        case Multiply(left=left, right=right) | Divide(left=left, right=right):
            a, b = constant(left), constant(right)
            if a is None or b is None:
                return None
            if isinstance(term, Multiply):
                return a * b
            return a / b if b else None
        case Remainder(item=item, divisor=divisor):
            inner = constant(item)
            return None if inner is None else inner - divisor * (inner // divisor)
        case _:
            return None


def holds(op: Op, a: Fraction, b: Fraction) -> bool:
    """Whether two numbers stand in a relation."""
    return {"<": a < b, "<=": a <= b, "=": a == b, "!=": a != b, ">=": a >= b, ">": a > b}[op]


def truth(formula: Formula) -> bool | None:
    """Whether a formula of written numbers is true; None where anything else takes part."""
    match formula:
        case Truth(value=value):
            return value
        case Compare(op=op, left=left, right=right):
            a, b = constant(left), constant(right)
            return None if a is None or b is None else holds(op, a, b)
        case IsWhole(item=item):
            inner = constant(item)
            return None if inner is None else inner.denominator == 1
        case Not(item=part):
            inside = truth(part)
            return None if inside is None else not inside
        case All(items=items) | Any(items=items):
            values = [truth(item) for item in items]
            deciding = isinstance(formula, Any)
            if deciding in values:
                return deciding
            return None if None in values else not deciding
        case _:
            return None
