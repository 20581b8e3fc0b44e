"""Each range that a limitation claims, held against what the sheet's own description states."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.findings import Finding, Looked
from scopecheck.answers.held import EndHeld, Held
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, at_limitation
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Bound
from scopecheck.core.model import Case, Limitation
from scopecheck.core.ranges import Range, lies, limits_of, shared
from scopecheck.core.stated import SIDES, Side
from scopecheck.foundations.record import record, replace

WHOLLY = ("within", "the same")
PREFERRED = "prefer"
"""What the name of a statement holds that states a preferred range."""


@record
class Stated:
    """What one statement of the description says of one number."""

    case: Case
    range: Range
    alone: bool = True
    """Whether the statement says nothing else of the number; an end or a single value stands there anyway."""

    @property
    def preferred(self) -> bool:
        return PREFERRED in self.case.name.lower()


def beside_description(prepared: Prepared, instance: Instance) -> Iterator[Finding | Looked]:
    """How each range and end of the claim's own lies against the statements of the description, as presumed.

    Only ends that the claim states are looked at, not those beyond which nothing can be; and only numbers
    that a limitation limits by itself. Together with the other limitations of the same number it is the range
    of the number in the claim, and what lies around it or in it is looked for of that range.
    """
    if not prepared.sheet.described:
        return
    for limitation in instance.own:
        asked = limits_of(prepared.sheet, limitation.formula, prepared.session.base)
        for name, claimed in asked.written:
            if asked.of(name) is not None and not claimed.empty:
                yield _held(prepared, instance, limitation, name, claimed)


def numbers_not_described(prepared: Prepared, instance: Instance) -> Iterator[Finding | Looked]:
    """Does the claim state an end for a number that the description speaks of, and nowhere with that end?"""
    for found in beside_description(prepared, instance):
        if isinstance(found, Finding) and isinstance(found.about, Held) and found.about.nowhere:
            yield replace(found, question="number not described", stakes=4, quantifier="every")


def _held(
    prepared: Prepared, instance: Instance, limitation: Limitation, name: str, claimed: Range
) -> Finding:
    d = prepared.sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    stated = _stated(prepared, name)
    found = [s for s in stated if s.alone]
    as_such = _names(s for s in stated if s.range == claimed and (s.alone or claimed.single is not None))
    joint, beside = (claimed, ()) if as_such else _joint(prepared, instance, limitation, name, claimed)
    ranges = [s for s in found if s.range.single is None]
    preferred = [s for s in ranges if s.preferred]
    held = Held(
        name,
        claimed,
        as_such=as_such or _names(s for s in found if s.range == joint),
        ends=tuple(_end_held(side, end, stated) for side, end in _ends(d, claimed).items()),
        open_sides=tuple(s for s in SIDES if s not in _ends(d, joint) and _always_ended(d, ranges, s)),
        within=_names(s for s in ranges if lies(joint, s.range) in (*WHOLLY, "point inside")),
        takes_in=_names(s for s in preferred if lies(s.range, joint) in WHOLLY),
        cuts=_names(s for s in preferred if lies(s.range, joint) not in WHOLLY),
        spoken=bool(stated),
        joint=joint,
        beside=beside,
    )
    finding = at_limitation("beside the description", 6, limitation)
    return replace(finding, quantifier="base", about=held)


def _stated(prepared: Prepared, name: str) -> list[Stated]:
    """What each statement of the description says of the number by itself."""
    sheet, found = prepared.sheet, []
    for case in sheet.described:
        limits = limits_of(sheet, case.facts, prepared.session.base)
        if (own := dict(limits.written).get(name)) is not None:
            found.append(Stated(case, own, name not in limits.loose))
    return found


def _joint(
    prepared: Prepared, instance: Instance, limitation: Limitation, name: str, claimed: Range
) -> tuple[Range, tuple[str, ...]]:
    """The range of the number by all that limits it by itself in the claim, and what else narrows it.

    The claimed range alone where nothing else narrows it, or nothing would be left.
    """
    sheet, base, joint = prepared.sheet, prepared.session.base, claimed
    narrowing: list[str] = []
    for other in instance.limitations:
        limits = limits_of(sheet, other.formula, base)
        if other is limitation or (own := limits.written_of(name)) is None:
            continue
        if (both := shared(joint, own)) != joint:
            narrowing.append(other.label)
            joint = both
    return (claimed, ()) if joint.empty else (joint, tuple(narrowing))


def _ends(d: NumberDecl, own: Range) -> dict[Side, Bound]:
    """The ends of a range, without those beyond which nothing can be."""
    ends = ((side, _end(own, side)) for side in SIDES)
    return {side: end for side, end in ends if end is not None and end != _bound(d, side)}


def _end(own: Range, side: Side) -> Bound | None:
    return own.low if side == "low" else own.high


def _bound(d: NumberDecl, side: Side) -> Bound | None:
    return d.lower if side == "low" else d.upper


def _always_ended(d: NumberDecl, ranges: Sequence[Stated], side: Side) -> bool:
    """Does every range that the description states have an end on this side?"""
    return bool(ranges) and all(_end(s.range, side) != _bound(d, side) for s in ranges)


def _end_held(side: Side, end: Bound, stated: Sequence[Stated]) -> EndHeld:
    """Where the number of the end stands in the description: as this end, as the other end, as one value."""
    ranges = [s for s in stated if s.range.single is None]
    points = [s for s in stated if s.range.single is not None]
    other: Side = "high" if side == "low" else "low"
    same = [s for s in ranges if (own := _end(s.range, side)) is not None and own.value == end.value]
    across = [s for s in ranges if (own := _end(s.range, other)) is not None and own.value == end.value]
    return EndHeld(
        side,
        end,
        stated=_names(s for s in same if not s.preferred),
        preferred=_names(s for s in same if s.preferred),
        other_end=_names(across),
        examples=_names(s for s in points if s.range.single == end.value),
        crossed=_names(s for s in same if _end(s.range, side) != end),
    )


def _names(statements: Iterator[Stated] | Sequence[Stated]) -> tuple[str, ...]:
    return tuple(s.case.name for s in statements)
