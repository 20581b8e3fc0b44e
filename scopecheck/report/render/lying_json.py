"""How ranges lie to each other, a chart's cells and things claimed together, as JSON."""

from __future__ import annotations

from scopecheck.answers.findings import (
    ChartCell,
)
from scopecheck.answers.held import Combined, Held
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Case, Sheet
from scopecheck.core.nearness import Nearness, nearness
from scopecheck.core.ranges import Lying, Range
from scopecheck.core.ties import TiedLying
from scopecheck.foundations.quantity import Unit
from scopecheck.report.chart import stated_text, verdict_text
from scopecheck.report.describe import case_named
from scopecheck.report.render.values_json import Data, exact, number_data
from scopecheck.report.ties import tie_text


def held_data(sheet: Sheet, held: Held | None) -> Data | None:
    """How a range of a claim lies to those of the description; None where no such thing was asked."""
    if held is None:
        return None
    d = sheet.declaration(held.name)
    assert isinstance(d, NumberDecl)
    return {
        "name": held.name,
        "claimed": _range(held.claimed, d.unit),
        "stated_as_such": list(held.as_such),
        "ends": [
            {
                "side": e.side,
                **number_data(e.end.value, d.unit),
                "closed": e.end.closed,
                "stated": list(e.stated),
                "preferred": list(e.preferred),
                "other_end": list(e.other_end),
                "examples": list(e.examples),
                "included_otherwise": list(e.crossed),
            }
            for e in held.ends
        ],
        "open_sides": list(held.open_sides),
        "within": list(held.within),
        "takes_in": list(held.takes_in),
        "cuts": list(held.cuts),
        "spoken": held.spoken,
        "with_other_lines": list(held.beside),
        "range_with_them": _range(held.joint, d.unit),
    }


def combined_data(own: Combined | None) -> Data | None:
    """How several things that a claim ties together lie to a case; None where nothing is tied."""
    if own is None:
        return None
    return {
        "lines": list(own.labels),
        "statements": [
            {
                "statement": s.statement,
                "lines": list(s.labels),
                "relation": s.relation,
                "limits_further": list(s.further),
            }
            for s in own.statements
        ],
        "stated_as_such": list(own.as_such),
        "ranges": [
            {
                "of": tie_text(p.tie),
                "stated_as_such": list(p.as_such),
                "low_end_stated_in": None if p.low is None else list(p.low),
                "high_end_stated_in": None if p.high is None else list(p.high),
            }
            for p in own.pieces
        ],
        "ranges_are_all": own.whole,
        "examples_inside": list(own.examples),
    }


def cell_data(sheet: Sheet, cell: ChartCell) -> Data:
    """One cell of the chart: a limitation against a case."""
    case = case_named(sheet, cell.case)
    return {
        "label": cell.label,
        "case": cell.case,
        "place": case.place if case else "",
        "states": list(cell.names),
        "stated": stated_text(sheet, cell),
        "verdict": cell.verdict,
        "reason": cell.reason,
        "as_presumed": cell.at_base,
        "ranges": [_lying(sheet, case, own) for own in cell.lying],
        "ranges_of_several": [_tied(own) for own in cell.tied],
        "text": verdict_text(sheet, cell),
    }


def _lying(sheet: Sheet, case: Case | None, own: Lying) -> Data:
    d = sheet.declaration(own.name)
    assert isinstance(d, NumberDecl)
    return {
        "name": own.name,
        "relation": own.relation,
        "stated": _range(own.stated, d.unit),
        "asked": _range(own.asked, d.unit),
        "shared": None if own.shared is None else _range(own.shared, d.unit),
        "distance": None if own.distance is None else exact(own.distance / d.unit.factor),
        "nearness": _nearness(nearness(sheet, case, own) if case else None, d),
    }


def _tied(own: TiedLying) -> Data:
    """Of a ratio or a sum, in base units."""

    def ends(of: Range | None) -> Data | None:
        sides = () if of is None else (("low", of.low), ("high", of.high))
        told = {key: None if e is None else {"value": exact(e.value), "closed": e.closed} for key, e in sides}
        return told or None

    return {
        "of": tie_text(own.tie),
        "relation": own.relation,
        "stated": ends(own.stated),
        "asked": ends(own.asked),
        "shared": ends(own.shared),
        "distance": None if own.distance is None else exact(own.distance),
    }


def _nearness(found: Nearness | None, d: NumberDecl) -> Data | None:
    """Widths of the range asked and the one stated, the nearest end and example, in the unit."""
    if found is None:
        return None
    factor = 1 if d.whole else d.unit.factor
    nearest = (("nearest_end", found.end), ("nearest_example", found.example))
    return {
        "widths": None if found.widths is None else [exact(w / factor) for w in found.widths],
        "ratio": None if found.ratio is None else exact(found.ratio),
        "open_side": found.open_side,
        **{
            key: None
            if near is None
            else {
                "case": near.case,
                **number_data(near.value, d.unit),
                "distance": exact(near.distance / factor),
            }
            for key, near in nearest
        },
    }


def _range(own: Range, unit: Unit) -> Data:
    return {
        key: None if end is None else {**number_data(end.value, unit), "closed": end.closed}
        for key, end in (("low", own.low), ("high", own.high))
    }
