"""The ends that a limitation writes down: of a quantity, of each of like parts, of a step, of a quotient."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.construction import nodes
from scopecheck.core.formula import (
    All,
    Branch,
    Compare,
    Const,
    Divide,
    Formula,
    Greatest,
    Implies,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Op,
    Read,
    Rounded,
    Term,
)
from scopecheck.core.linear import linear_form
from scopecheck.core.stated import MIRRORED
from scopecheck.foundations.record import record


@record
class WrittenEnd:
    """An end of a term, where what is `given` is so: that a part of many is there, that a step is done."""

    op: Op
    term: Term
    limit: Const
    given: Formula

    @property
    def upper(self) -> bool:
        return self.op in ("<", "<=")


def written_ends(formula: Formula, readings: tuple[int, ...]) -> Iterator[WrittenEnd]:
    """The ends that everything that meets the formula, as read, meets; each comparison with a number.

    "At most 3 times the width" is an end of a quotient. What rounds to a limit has the limit as its end. That
    something is there at all, or is not, is no end that anyone wrote.
    """
    stack: list[tuple[Formula, Formula]] = [(formula, All(()))]
    while stack:
        formula, given = stack.pop(0)
        match formula:
            case All(items):
                stack = [*((item, given) for item in items), *stack]
            case Read(group, options):
                stack.insert(0, (options[readings[group]], given))
            case Implies(left, right) if not any(isinstance(n, Const) and n.written for n in nodes(left)):
                stack.insert(0, (right, All((given, left))))
            case Compare(op, left, right):
                yield from _end(op, left, _folded(right), given)
                yield from _end(MIRRORED[op], right, _folded(left), given)
            case _:
                pass


def _folded(term: Term) -> Term:
    """The lesser or the greater of two written numbers as the one that it is."""
    if not isinstance(term, Least | Greatest):
        return term
    numbers = [item for item in term.items if isinstance(item, Const)]
    if len(numbers) < len(term.items):
        return term
    pick = min if isinstance(term, Least) else max
    return pick(numbers, key=lambda n: n.value)


def _end(op: Op, term: Term, limit: Term, given: Formula) -> Iterator[WrittenEnd]:
    times = limit.left if isinstance(limit, Multiply) else None
    if isinstance(limit, Multiply) and isinstance(times, Const) and isinstance(limit.right, Measured):
        if not times.written:
            return
        term, limit = Divide(term, limit.right, limit.right.name), limit.left
    if op in ("=", "!=") or not isinstance(limit, Const) or not (limit.written or limit.value):
        return
    if isinstance(term, Rounded) and op in ("<=", ">="):
        term = term.item
    if isinstance(term, Branch) and _has_no_value(term.otherwise):
        given, term = All((given, term.condition)), term.then
    whole = term.item if isinstance(term, Magnitude) else term
    parts = (whole.left, whole.right) if isinstance(whole, Divide) else (whole,)
    if all(_is_linear(part) for part in parts):
        yield WrittenEnd(op, term, limit, given)


def _has_no_value(term: Term) -> bool:
    return isinstance(term, Divide) and isinstance(term.right, Const) and term.right.value == 0


def _is_linear(term: Term) -> bool:
    form = linear_form(term)
    return form is not None and bool(set(form) - {None})
