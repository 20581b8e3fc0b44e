"""Limits that lie beyond what a quantity is taken to be, by its kind: a length of -0.2 mm, 120 wt%."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.core.construction import nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Compare, Const, Formula, Magnitude, Measured, Negate, Term
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import number_text
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.statements_declare import MOST_PARTS
from scopecheck.vocabulary.names import Names

_BY_KIND = "By its kind, and by no bound of the sheet: the limit decides nothing there."
_BY_SHEET = "By the sheet, and by no bound of the claims: the limit decides nothing there."
_Told = tuple[str, str, str, str]
"""The quantity, what is told of its limit, why, and how else to declare it."""


def beyond_bounds(names: Names, formula: Formula, span: Span) -> Iterator[Diagnostic]:
    """A warning for each written limit beyond its quantity, where the sheet states no bound of it."""
    told: set[tuple[str, str]] = set()
    for node in nodes(formula):
        if not isinstance(node, Compare):
            continue
        for measured, limit in _sides(node, _TOLERANCE.search(span.text) is not None):
            found = _beyond(names, measured, limit)
            if found is not None and found[:2] not in told:
                told.add(found[:2])
                yield Diagnostic("warning", span, *found[1:])


_TOLERANCE = regex(r"±|\+ ?/ ?[-−]|\+[-−]|plus(?: or |/)minus")


def _sides(node: Compare, tolerance: bool) -> Iterator[tuple[Term, Term]]:
    """What is compared, each with its limit; of a tolerance also its low end, as worked out.

    `Within 5 mm of the edge` goes to no end below zero but on a reading of its own.
    """
    yield node.left, node.right
    yield node.right, node.left
    match node:
        case Compare("<" | "<=", Magnitude(Measured() as measured), Const(far, written)) if tolerance:
            about = Fraction(0)
        case Compare(
            "<" | "<=",
            Magnitude(Add((Measured() as measured, Negate(Const(about))))),
            Const(far, written),
        ):
            pass
        case _:
            return
    if written is not None and far >= 0:
        low = about - far
        yield measured, Const(low, replace(written, text=number_text(written.unit.from_base(low))))


def _beyond(names: Names, measured: Term, limit: Term) -> _Told | None:
    declared = names.declarations.get(measured.name) if isinstance(measured, Measured) else None
    if not isinstance(declared, NumberDecl) or not isinstance(limit, Const) or limit.written is None:
        return None
    if declared.whole:
        return _more_parts(names, declared, limit)
    if declared.stated_bounds:
        return None
    name, unit = declared.name, declared.unit.symbol
    written = f"{limit.written.text} {limit.written.unit.symbol}".strip()
    low, high = declared.lower, declared.upper
    if low is not None and limit.value < low.value:
        if declared.kind.point:
            return None
        least = number_text(declared.unit.from_base(low.value))
        in_composition = any(name in made.members for made in names.compositions.values())
        help = "" if in_composition else f"if it may lie lower, declare it as: {name}  in {unit}"
        return (
            name,
            f"{written} lies below {least} {unit}, the least that {name} is taken to be",
            _BY_KIND,
            help,
        )
    if high is not None and limit.value > high.value:
        most = number_text(declared.unit.from_base(high.value))
        help = f"if it may be more, declare it as: {name}  ratio in {unit}" if unit == "%" else ""
        return (
            name,
            f"{written} lies above {most} {unit}, the most that {name} is taken to be",
            _BY_KIND,
            help,
        )
    return None


def _more_parts(names: Names, declared: NumberDecl, limit: Const) -> _Told | None:
    """The same for more like parts than the sheet lets be: no thing is kept from having them."""
    part = next((p for parts in names.kinds.values() for p in parts if p.count == declared.name), None)
    if part is None or limit.value <= part.most:
        return None
    help = f"for as many, declare it as: {part.name}  part, up to {limit.value}"
    if limit.value > MOST_PARTS:
        help = f"for as many, declare it as: {declared.name}  count, and what each has as a quantity"
    return (
        declared.name,
        f"{limit.value} lies above {part.most}, the most {declared.name} there may be",
        _BY_SHEET,
        help,
    )
