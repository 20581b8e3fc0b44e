"""How wide a claimed range is beside a stated one, and what the document states nearest to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal, TypeAlias

from scopecheck.core.construction import base_construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Case, Sheet
from scopecheck.core.ranges import Lying, Range, limits_of
from scopecheck.foundations.record import record

OpenSide: TypeAlias = Literal["asked", "stated", "both"]


@record
class Nearest:
    """A value that an entry of the document states, and how far from the claimed range it is.

    The distance is 0 of a value in the range, and of an end that the range leaves out, which is not `inside`.
    """

    value: Fraction
    case: str
    distance: Fraction
    inside: bool


@record
class Nearness:
    """The claimed range of one number, as written, beside what a document states of the same, in base units.

    `widths` are those of the claimed and of the stated range, None where one has an open side or is a single
    value; of a whole number how many values there are. `open_side` is what has an open side. `end` is the
    nearest end of the document's ranges, `example` the nearest single value that it states.
    """

    widths: tuple[Fraction, Fraction] | None
    open_side: OpenSide | None
    end: Nearest | None
    example: Nearest | None

    @property
    def ratio(self) -> Fraction | None:
        """The width of the claimed range in widths of the stated one."""
        return self.widths[0] / self.widths[1] if self.widths else None


def nearness(sheet: Sheet, case: Case, own: Lying) -> Nearness | None:
    """The widths and the nearest values; None unless the case is a document's range and not the same one."""
    if case.role != "document" or own.said[1].single is not None or own.relation in ("empty", "the same"):
        return None
    entries = [c for c in sheet.cases if c.role == "document" and c.document == case.document]
    said = [(c.name, r) for c in entries if (r := _said(sheet, c, own.name)) is not None]
    ends = [(name, v) for name, r in said if r.single is None for v in _ends(r)]
    points = [(name, r.single) for name, r in said if r.single is not None]
    d = sheet.declaration(own.name)
    assert isinstance(d, NumberDecl)
    single = own.said[0].single is not None
    return Nearness(
        None if single else _widths(*own.said, d.whole),
        None if single else _open(*own.said),
        _nearest(own.said[0], ends),
        _nearest(own.said[0], points),
    )


def _said(sheet: Sheet, case: Case, name: str) -> Range | None:
    """What an entry states of the number by itself, with the ends that are written."""
    limits = limits_of(sheet, case.facts, base_construction(sheet))
    return dict(limits.said)[name] if limits.of(name) is not None else None


def _ends(own: Range) -> Iterator[Fraction]:
    yield from (e.value for e in (own.low, own.high) if e is not None)


def _widths(asked: Range, stated: Range, whole: bool) -> tuple[Fraction, Fraction] | None:
    if _open(asked, stated):
        return None
    first, second = (_width(r) + whole for r in (asked, stated))
    return first, second


def _width(own: Range) -> Fraction:
    assert own.low is not None
    assert own.high is not None
    return own.high.value - own.low.value


def _open(asked: Range, stated: Range) -> OpenSide | None:
    """Which of the two lacks a written end."""
    no_asked, no_stated = (r.low is None or r.high is None for r in (asked, stated))
    if no_asked and no_stated:
        return "both"
    return "asked" if no_asked else "stated" if no_stated else None


def _nearest(asked: Range, stated: Sequence[tuple[str, Fraction]]) -> Nearest | None:
    """The nearest of these values; of several as near, the first that is stated."""
    found = [Nearest(value, name, _beyond(asked, value), asked.holds(value)) for name, value in stated]
    return min(found, key=lambda n: n.distance, default=None)


def _beyond(asked: Range, value: Fraction) -> Fraction:
    """How far a value is from the nearest end of a range; 0 between its ends and at them."""
    below = asked.low.value - value if asked.low is not None else Fraction(0)
    above = value - asked.high.value if asked.high is not None else Fraction(0)
    return max(below, above, Fraction(0))
