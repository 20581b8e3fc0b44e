"""The free numbers of a reading: their kinds, their ends and what is presumed of them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.core.formula import Bound as End
from scopecheck.core.formula import lies_within
from scopecheck.core.model import FreeParameter
from scopecheck.core.regroup import key_of
from scopecheck.exact.fitting import Context, bare_number
from scopecheck.exact.formulas import context
from scopecheck.exact.terms import term
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.kinds import LEVEL, TEMPERATURE
from scopecheck.foundations.quantity import (
    PLAIN,
    PLAIN_KIND,
    Kind,
    KindError,
    Unit,
    as_difference,
    as_level,
    comparable,
    find_unit,
)
from scopecheck.foundations.record import record
from scopecheck.language.syntax import (
    ChainNode,
    Free,
    NameNode,
    Node,
    Raw,
)
from scopecheck.occurrences.occurrence import Occurrence, parsed
from scopecheck.vocabulary.constants import constant
from scopecheck.vocabulary.entry import EntryReading
from scopecheck.vocabulary.names import Names, Typed


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
        lower, upper, presumed = _interval(free, unit, at, names)
        key = key_of(free.name, group, index, scope)
        unknown = not (shared or free.presumed or upper or _number_slots(at))
        found.append(
            FreeParameter(key, free.name, group, index, lower, upper, presumed, unit, shared, unknown)
        )
    return found


def _number_slots(at: Occurrence) -> set[str]:
    return {name for name, slot in at.slots.items() if isinstance(slot, Typed) and slot.number is not None}


def taken_as(unit: Unit, own: Unit) -> Unit:
    """The unit of a number for what is measured in another: of a difference degrees are a difference.

    A bare per cent goes with every share. Raises KindError where the kinds differ.
    """
    if unit.kind == PLAIN_KIND and not own.kind.dimension:
        return unit
    if own.kind == Kind(TEMPERATURE) and unit.kind.basis == LEVEL:
        return as_difference(unit)
    if own.kind.basis == LEVEL and unit.symbol == "K":
        return as_level(unit)
    comparable(unit.kind, own.kind)
    return unit


@record
class _Side:
    """A number in the field of a free number, where it stands; `sign` as from the free number to it."""

    sign: str
    node: Node
    number: Typed


_TURNED = {"<": ">", "<=": ">=", ">": "<", ">=": "<="}


def _interval(free: Free, own: Unit, at: Occurrence, names: Names) -> tuple[End, End | None, Fraction]:
    """The ends of a free number and what is presumed of it. Raises Trouble where they are wrong."""
    slots = context(names, "reading", at.slots)
    sides = [side for raw in free.bounds for side in _sides(free, raw, slots, names)]
    presumed = None
    if free.presumed:
        node = parsed(free.presumed, names.own)
        presumed = _Side("", node, term(slots, node))
    numbers = [*sides, presumed] if presumed else sides
    bare = own.kind == PLAIN_KIND and all(n.number.bare or n.number.kind is None for n in numbers)
    lower, upper = End(Fraction(0), True), None
    for side in sides:
        end = End(_value(free, side, own, bare), "=" in side.sign)
        if side.sign in (">", ">="):
            lower = end
        else:
            upper = end
    value = _value(free, presumed, own, bare) if presumed else None
    _check_ends(free, lower, upper, value)
    return lower, upper, lower.value if value is None else value


def _sides(free: Free, raw: Raw, slots: Context, names: Names) -> Iterator[_Side]:
    node = parsed(raw, names.own)
    if not isinstance(node, ChainNode):
        raise trouble(raw.span, "a bound was expected here", "", f"write {free.name} >= 0")
    for left, sign, right in zip(node.operands, node.signs, node.operands[1:], strict=False):
        named = [isinstance(side, NameNode) and side.name == free.name for side in (left, right)]
        if sign not in _TURNED or named[0] == named[1]:
            raise trouble(raw.span, "a bound with a written number was expected here")
        other = right if named[0] else left
        yield _Side(sign if named[0] else _TURNED[sign], other, term(slots, other))


def _value(free: Free, side: _Side, own: Unit, bare: bool) -> Fraction:
    """A number in base units. Raises Trouble at it where its unit does not fit; a bare 0 always does."""
    number, span = side.number, side.node.span
    value = constant(number.term)
    if value is None:
        raise trouble(span, "a written number was expected here")
    if number.kind is None or (bare and number.bare):
        return value
    if number.bare and number.number:
        raise bare_number(span, number.number, own)
    try:
        if number.number and number.unit:
            return taken_as(number.unit, own).to_base(number.number.value)
        comparable(number.kind, own.kind)
    except KindError as error:
        help = f"write it in {own.symbol}" if own.symbol else ""
        raise trouble(span, f"{span.text} is no value for '{free.name}'", error.sentence, help) from None
    return value


def _check_ends(free: Free, lower: End, upper: End | None, presumed: Fraction | None) -> None:
    """Raises Trouble at the field where nothing lies between the ends, or what is presumed does not.

    An open end at 0 needs nothing presumed: what lies as little above it as may be is looked for.
    """
    name, wide = free.name, "write <= or >= where an end belongs to it"
    if upper is not None and upper.value < lower.value:
        raise trouble(free.span, f"the lower end of {name} is above its upper end")
    if upper is not None and upper.value == lower.value and not (lower.closed and upper.closed):
        raise trouble(free.span, f"no value lies within the bounds of {name}", "", wide)
    if free.presumed and presumed is not None and not lies_within(presumed, lower, upper):
        raise trouble(
            free.span, f"{free.presumed.text} is presumed of {name}, and does not lie within its bounds",
            "What is presumed is one of the values that it may have.", "presume a value within the bounds",
        )  # fmt: skip
    if presumed is None and lower.value and not lower.closed:
        raise trouble(
            free.span, f"nothing is presumed of {name}, and its lower end does not belong to it",
            "Without a presumed value the lower end is taken.",
            f"write behind the bounds, for example: presumed ..., or >= where the end belongs to {name}",
        )  # fmt: skip
