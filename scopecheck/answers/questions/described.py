"""Each range that a limitation claims, held against what the sheet's own description states."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.findings import Finding, Looked
from scopecheck.answers.held import EndHeld, Held
from scopecheck.answers.questions.prepared import Instance, Prepared, at_limitation
from scopecheck.core.model import Bound, Case, Limitation, NumberDecl
from scopecheck.core.ranges import Range, lies, limits_of
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

    @property
    def preferred(self) -> bool:
        return PREFERRED in self.case.name.lower()


def beside_description(prepared: Prepared, instance: Instance) -> Iterator[Finding | Looked]:
    """How each range and end of the claim's own lies against the statements of the description, as presumed.

    Only ends that the claim states are looked at, not those beyond which nothing can be; and only numbers
    that a limitation limits by itself.
    """
    if not prepared.sheet.described:
        return
    for limitation in instance.own:
        asked = limits_of(prepared.sheet, limitation.formula, prepared.session.base)
        for name, claimed in asked.ranges:
            if asked.of(name) is not None and not claimed.empty:
                yield _held(prepared, limitation, name, claimed)


def _held(prepared: Prepared, limitation: Limitation, name: str, claimed: Range) -> Finding:
    sheet, base = prepared.sheet, prepared.session.base
    d = sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    found = [
        Stated(case, own)
        for case in sheet.described
        if (own := limits_of(sheet, case.facts, base).of(name)) is not None
    ]
    ranges = [s for s in found if s.range.single is None]
    points = [s for s in found if s.range.single is not None]
    preferred = [s for s in ranges if s.preferred]
    ends = {side: _end(claimed, side) for side in SIDES if _end(claimed, side) != _bound(d, side)}
    held = Held(
        name,
        claimed,
        as_such=_names(s for s in found if s.range == claimed),
        ends=tuple(_end_held(side, end, ranges, points) for side, end in ends.items() if end is not None),
        open_sides=tuple(side for side in SIDES if side not in ends and _always_ended(d, ranges, side)),
        within=_names(s for s in ranges if lies(claimed, s.range) in (*WHOLLY, "point inside")),
        takes_in=_names(s for s in preferred if lies(s.range, claimed) in WHOLLY),
        cuts=_names(s for s in preferred if lies(s.range, claimed) not in WHOLLY),
        spoken=bool(found),
    )
    finding = at_limitation("beside the description", 6, limitation)
    return replace(finding, quantifier="base", detail=name, held=held)


def _end(own: Range, side: Side) -> Bound | None:
    return own.low if side == "low" else own.high


def _bound(d: NumberDecl, side: Side) -> Bound | None:
    return d.lower if side == "low" else d.upper


def _always_ended(d: NumberDecl, ranges: Sequence[Stated], side: Side) -> bool:
    """Does every range that the description states have an end on this side?"""
    return bool(ranges) and all(_end(s.range, side) != _bound(d, side) for s in ranges)


def _end_held(side: Side, end: Bound, ranges: Sequence[Stated], points: Sequence[Stated]) -> EndHeld:
    """Where the number of the end stands in the description: as this end, as the other end, as an example."""
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
