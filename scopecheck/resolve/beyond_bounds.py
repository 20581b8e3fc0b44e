"""Limits that lie beyond what a quantity is taken to be, by its kind: a length of -0.2 mm, 120 wt%."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.construction import nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Compare, Const, Formula, Measured, Term
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import number_text
from scopecheck.foundations.spans import Span
from scopecheck.resolve.names import Names


def beyond_bounds(names: Names, formula: Formula, span: Span) -> Iterator[Diagnostic]:
    """A warning for each written limit beyond its quantity, where the sheet states no bound of it."""
    told: set[tuple[str, str]] = set()
    for node in nodes(formula):
        if not isinstance(node, Compare):
            continue
        for measured, limit in ((node.left, node.right), (node.right, node.left)):
            found = _beyond(names, measured, limit)
            if found is not None and found[:2] not in told:
                told.add(found[:2])
                name, written, end, help = found
                message = f"{written} lies {end} {name} is taken to be"
                cause = "By its kind, and by no bound of the sheet: the limit decides nothing there."
                yield Diagnostic("warning", span, message, cause, help)


def _beyond(names: Names, measured: Term, limit: Term) -> tuple[str, str, str, str] | None:
    """The quantity, the limit as written, the side on which it lies, and how else to declare the quantity."""
    declared = names.declarations.get(measured.name) if isinstance(measured, Measured) else None
    if not isinstance(declared, NumberDecl) or declared.stated_bounds or declared.whole:
        return None
    if not isinstance(limit, Const) or limit.written is None:
        return None
    written = f"{limit.written.text} {limit.written.unit.symbol}".strip()
    low, high = declared.lower, declared.upper
    if low is not None and limit.value < low.value:
        if not declared.kind.dimension or declared.kind.point:
            return None
        least = number_text(declared.unit.from_base(low.value))
        help = f"if it may lie lower, declare it as: {declared.name}  in {declared.unit.symbol}"
        return declared.name, written, f"below {least} {declared.unit.symbol}, the least that", help
    if high is not None and limit.value > high.value:
        most = number_text(declared.unit.from_base(high.value))
        ratio = f"if it may be more, declare it as: {declared.name}  ratio in {declared.unit.symbol}"
        help = ratio if declared.unit.symbol == "%" else ""
        return declared.name, written, f"above {most} {declared.unit.symbol}, the most that", help
    return None
