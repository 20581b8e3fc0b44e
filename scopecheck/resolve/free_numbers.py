"""The free numbers of a reading: their kinds, their ends and what is presumed of them."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.formula import Bound as End
from scopecheck.core.formula import Parameter
from scopecheck.core.model import FreeParameter
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, Kind, KindError, Unit, as_difference, find_unit
from scopecheck.language.syntax import (
    ChainNode,
    Free,
    NameNode,
    Raw,
)
from scopecheck.resolve.constants import constant
from scopecheck.resolve.entry import EntryReading
from scopecheck.resolve.exact_formulas import context
from scopecheck.resolve.exact_terms import term
from scopecheck.resolve.names import Names, Typed
from scopecheck.resolve.occurrence import Occurrence, parsed


def kind_of_free(free: Free, at: Occurrence, names: Names) -> tuple[Kind, Unit]:
    """The kind of a free number and the unit people read it in."""
    if free.like is None:
        return _kind_written(free, at, names) or (PLAIN_KIND, find_unit("%") or PLAIN)
    model = term(context(names, "reading", at.slots), parsed(free.like, names.own))
    kind = model.kind or PLAIN_KIND
    unit = model.unit
    # A sum, a difference of things has no unit of its own: that of the numbers beside it tells.
    units = (s.unit for s in (at.slots.get("x"), *at.slots.values()) if isinstance(s, Typed) and s.unit)
    beside = next(units, None) if unit is None else None
    if beside is not None:
        try:
            unit = as_difference(beside)
        except KindError:
            unit = beside
    if unit is None or unit.kind.dimension != kind.dimension:
        unit = Unit("", kind, Fraction(1))
    return kind, unit


def _kind_written(free: Free, at: Occurrence, names: Names) -> tuple[Kind, Unit] | None:
    """The kind of the numbers in which a free number is bounded, where they have a unit."""
    for raw in (free.presumed, *free.bounds) if free.presumed else free.bounds:
        node = parsed(raw, names.own)
        for operand in node.operands if isinstance(node, ChainNode) else (node,):
            if not (isinstance(operand, NameNode) and operand.name == free.name):
                written = term(context(names, "reading", at.slots), operand)
                if written.kind and written.unit and written.kind != PLAIN_KIND:
                    return written.kind, written.unit
    return None


def open_numbers(
    reading: EntryReading, at: Occurrence, names: Names, group: int, index: int
) -> list[FreeParameter]:
    """The free numbers of a reading: shared ones by the kind measured, own ones by the numbers written."""
    found = []
    for free in reading.written.free:
        kind, unit = kind_of_free(free, at, names)
        shared = free.like is None and kind == PLAIN_KIND
        subject = next((s for s in at.slots.values() if isinstance(s, Typed)), None)
        measured = subject.kind.name if subject and subject.kind else "plain number"
        numbers = ", ".join(text for name, text in at.shown.items() if name in _number_slots(at))
        scope = measured if shared else numbers or at.words
        lower, upper = _ends(free, kind, at, names)
        presumed = lower.value
        if free.presumed:
            presumed = _number(free.presumed, at, names)
        key = f"{free.name} of group {group}, reading {index}, {scope}"
        unknown = not (shared or free.presumed or upper or _number_slots(at))
        found.append(
            FreeParameter(key, free.name, group, index, lower, upper, presumed, unit, shared, unknown)
        )
    return found


def _number_slots(at: Occurrence) -> set[str]:
    return {name for name, slot in at.slots.items() if isinstance(slot, Typed) and slot.number is not None}


def _number(raw: Raw, at: Occurrence, names: Names) -> Fraction:
    value = constant(term(context(names, "reading", at.slots), parsed(raw, names.own)).term)
    if value is None:
        raise trouble(raw.span, "a written number was expected here")
    return value


def _ends(free: Free, kind: Kind, at: Occurrence, names: Names) -> tuple[End, End | None]:
    lower, upper = End(Fraction(0), True), None
    slots = {**at.slots, free.name: Typed(Parameter(free.name), kind)}
    for raw in free.bounds:
        node = parsed(raw, names.own)
        if not isinstance(node, ChainNode):
            raise trouble(raw.span, "a bound was expected here", "", f"write {free.name} >= 0")
        for left, sign, right in zip(node.operands, node.signs, node.operands[1:], strict=False):
            named_left = isinstance(left, NameNode) and left.name == free.name
            other = term(context(names, "reading", slots), right if named_left else left)
            value = constant(other.term)
            if value is None or sign not in ("<", "<=", ">", ">="):
                raise trouble(raw.span, "a bound with a written number was expected here")
            end = End(value, "=" in sign)
            if (sign in (">", ">=")) == named_left:
                lower = end
            else:
                upper = end
    if upper is not None and upper.value < lower.value:
        raise trouble(free.span, f"the lower end of {free.name} is above its upper end")
    return lower, upper
