"""Is there, for each limit that a line sets in the alternative, something in the claim that meets it?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.members import Named, not_there
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, conjuncts_at
from scopecheck.core.formula import Any, Compare, Const, Formula, Measured, Term

QUESTION = "alternative not met"


def alternatives_not_met(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """Does a claim join limits by 'or' of which nothing in its scope meets one, in the base or on any?

    `less than 10 or more than 40` below a claim from 5 to 30. Looked at are limits of numbers as written, of
    which the line has several; what no thing meets by itself is told of the line, and not here.
    """
    base = prepared.session.base
    named = [
        (x, Named((shown,), limit))
        for x in instance.own
        for limits in _alternatives(x.formula, base)
        for limit in limits
        if (shown := _as_written(limit, base)) and _meetable(prepared, limit, base)
    ]
    yield from not_there(prepared, instance, QUESTION, named)


def _alternatives(formula: Formula, base: Construction) -> Iterator[tuple[Formula, ...]]:
    for item in conjuncts_at(formula, base):
        if isinstance(item, Any) and sum(bool(_as_written(i, base)) for i in item.items) > 1:
            yield item.items


def _meetable(prepared: Prepared, limit: Formula, base: Construction) -> bool:
    """Does something meet it that the sheet lets there be, whatever the claim asks?"""
    return prepared.session.search(()).holds(prepared.session.met(limit, base))


def _as_written(limit: Formula, base: Construction) -> str:
    """`gap > 40 mm`, `4 mm <= gap <= 8 mm`; '' for what is no limit of measured values by written numbers."""
    items = list(conjuncts_at(limit, base))
    pairs = [(_side(i.left), i.op, _side(i.right)) for i in items if isinstance(i, Compare) and i.op != "!="]
    if len(pairs) < len(items) or not all(left and right for left, _, right in pairs):
        return ""
    if not all(isinstance(n, Compare) and _is_number(n.left) != _is_number(n.right) for n in items):
        return ""
    shown = " and ".join(f"{left} {op} {right}" for left, op, right in pairs)
    for (_, _, name), (again, _, _) in pairwise(pairs):
        shown = shown.replace(f" {name} and {again} ", f" {name} ") if name == again else shown
    return shown


def _is_number(side: Term) -> bool:
    return isinstance(side, Const)


def _side(side: Term) -> str:
    if isinstance(side, Const) and side.written:
        return f"{side.written.text} {side.written.unit.symbol}".rstrip()
    return side.name if isinstance(side, Measured) else ""
