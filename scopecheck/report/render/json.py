"""A report as JSON: every finding, whatever stands on the first page, with exact numbers.

Numbers are objects: `exact` is `p/q` in the unit named beside it, `written` the text of the report. Keys do
not change their meaning within one `schema_version`; further keys may come.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction
from typing import Any, assert_never

from scopecheck.answers.findings import (
    AddsNothing,
    Alike,
    Amended,
    ByLines,
    Cases,
    ChartCell,
    Choices,
    CloseBy,
    Empty,
    EndNotReached,
    Fall,
    Finding,
    ForAllClaims,
    Freed,
    Idle,
    IdleEnd,
    KeptOut,
    LeftOpen,
    Looked,
    Lost,
    Met,
    Moves,
    Narrows,
    Needed,
    NotThere,
    NoValue,
    OneReading,
    OneValue,
    Plain,
    RangeLies,
    Reread,
    Unmeant,
    Unmeasured,
    WayOut,
    also_claims_of,
    also_open_of,
    because,
    cases_of,
    in_part_of,
    lines_of,
    partly_of,
    sets_of,
    silent_lines,
    twin_of,
    unmet_by,
    ways_out_of,
)
from scopecheck.answers.held import Combined, Held
from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.witness import Witness
from scopecheck.core.construction import Construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Article, ExactlyOne, Formula, Implies, Not, Read, Value
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.grounds import ground_text
from scopecheck.core.model import Case, Definition, OwnPhrase, Settled, Sheet
from scopecheck.core.nearness import Nearness, nearness
from scopecheck.core.ranges import Lying, Range
from scopecheck.core.ties import TiedLying
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.report.amounts import quantity_text
from scopecheck.report.blocks import Item, Picture, Report
from scopecheck.report.chart import stated_text, verdict_text
from scopecheck.report.conditions import conditions_not_met
from scopecheck.report.describe import case_named, concerned, value_text
from scopecheck.report.items import statement
from scopecheck.report.lines import NumberLine, Stretch, ValueTable
from scopecheck.report.looked import wholly_looked
from scopecheck.report.margins import readings_told
from scopecheck.report.page import exit_status
from scopecheck.report.rereadings import bearer_text, break_text, group_words, standing_text
from scopecheck.report.ties import tie_text
from scopecheck.report.ways_out import keeping_points, stretched_by
from scopecheck.report.wording import GLUE, about_lines

SCHEMA_VERSION = 1
Data = dict[str, Any]


def draw_json(report: Report) -> str:
    """The report as one JSON object, keys in a fixed order."""
    return json.dumps(_report(report), indent=2, ensure_ascii=False).replace(GLUE, " ") + "\n"


def _report(report: Report) -> Data:
    sheet, answers = report.sheet, report.answers
    index = {id(finding): i for i, finding in enumerate(report.order)}
    return {
        "schema_version": SCHEMA_VERSION,
        "title": sheet.title,
        "confidential": sheet.confidential,
        "source": sheet.source_name,
        "profile": sheet.profile,
        "purpose": sheet.purpose,
        "filed": sheet.filed,
        "looked_at": {
            "claims": [claim.number for claim in sheet.claims],
            "limitations": [item.label for claim in sheet.claims for item in claim.limitations],
            "cases": [
                {"name": c.name, "role": c.role, "form": c.form, "place": c.place} for c in sheet.cases
            ],
        },
        "description": [
            {"name": c.name, "form": c.form, "place": c.place, "states": list(c.stated)}
            for c in sheet.described
        ],
        "exit_status": exit_status(answers),
        "findings": [
            _finding(sheet, finding, i in report.held_back) for i, finding in enumerate(report.order)
        ],
        "items": [_item(item, index) for item in report.items],
        "looked_for_and_not_found": [_looked(entry) for entry in wholly_looked(sheet, answers)],
        "phrases": [_group(sheet, i) for i in range(len(sheet.groups))],
        "givens": [{"text": g.text, "note": g.note, **place_data(g.span)} for g in sheet.givens],
        "bounds": [_bounds(d) for d in sheet.declarations if isinstance(d, NumberDecl)],
        "settled": [_settled(s) for s in answers.silenced],
        "not_restated": [
            {
                "claim": u.claim,
                "sort": u.sort,
                "words": u.words,
                "context": u.context,
                **place_data(u.span),
                "beside_line": u.beside.line if u.beside else None,
            }
            for u in sheet.unrestated
        ],
        "chart": [_cell(sheet, cell) for cell in answers.chart],
        "pictures": [picture_data(b.data) for b in report.blocks if isinstance(b, Picture)],
        "diagnostics": [diagnostic_data(d) for d in report.diagnostics],
        "about": list(about_lines()),
    }


# ---- numbers and places


def exact(value: Fraction) -> str:
    """`p/q`, with the divisor even where it is 1."""
    return f"{value.numerator}/{value.denominator}"


def _number(value: Fraction, unit: Unit) -> Data:
    return {
        "exact": exact(unit.from_base(value)),
        "unit": unit.symbol,
        "written": quantity_text(value, unit),
    }


def _value(sheet: Sheet, name: str, value: Value) -> Data:
    if isinstance(value, Fraction):
        d = sheet.declaration(name)
        assert isinstance(d, NumberDecl)
        return {"name": name, **_number(value, d.unit)}
    if isinstance(value, str):
        return {"name": name, "member": value, "written": value}
    return {"name": name, "members": sorted(value), "written": value_text(sheet, name, value)}


def place_data(span: Span) -> Data:
    """Line and column, both from 1."""
    return {"line": span.line, "column": span.column}


def article_data(sheet: Sheet, article: Article) -> list[Data]:
    """Every value of a thing, in the order of the sheet."""
    return [_value(sheet, d.name, article[d.name]) for d in sheet.declarations]


def witness_data(sheet: Sheet, witness: Witness | None) -> list[Data] | None:
    """Every value of a thing, in the order of the sheet; None without one."""
    return None if witness is None else [_value(sheet, name, value) for name, value in witness.values]


# ---- findings


def _keeping(sheet: Sheet, f: Finding, reread: Reread) -> Data:
    return reread_data(sheet, replace(reread, breaks=keeping_points(sheet, f, reread)))


def _finding(sheet: Sheet, f: Finding, held_back: bool) -> Data:
    return {
        **_said(sheet, f, held_back),
        **_read(sheet, f),
        **_thing(sheet, f),
        **_how_far(sheet, f),
        **_otherwise(sheet, f),
        **_by_lines(sheet, f),
        **_wherever(sheet, f),
        **_particulars(sheet, f),
    }


def _said(sheet: Sheet, f: Finding, held_back: bool) -> Data:
    """What was asked of which place, and what is told of it."""
    decided = f.outcome != "undecided"
    return {
        "question": f.question,
        "stakes": f.stakes,
        "held_back": held_back,
        "place": {**place_data(f.span), "words": f.words, "label": f.label, "claim": f.claim},
        "limitations": [{"label": x.label, "words": x.words or x.text} for x in concerned(sheet, f)],
        "outcome": f.outcome,
        "reason": f.reason,
        "quantifier": f.quantifier,
        "statement": statement(sheet, f) if decided else "",
        "readings": list(readings_told(sheet, f)) if decided else [],
        "bearer": f.bearer,
        "raised_by": bearer_text(sheet, f),
        "case": f.case,
        "cases": list(cases_of(f)),
    }


def _read(sheet: Sheet, f: Finding) -> Data:
    return {
        "construction": construction_data(sheet, f.construction),
        "rereads": [reread_data(sheet, r) for r in f.rereads],
        "read_as": [reread_data(sheet, r) for r in f.read_as],
    }


def _thing(sheet: Sheet, f: Finding) -> Data:
    """The thing shown, and those told beside it."""
    thing, about = f.thing, f.about
    return {
        "article": witness_data(sheet, f.witness),
        "article_on_every_construction": thing.on_each if f.quantifier == "every" and f.witness else None,
        "twin": witness_data(sheet, twin_of(f)),
        "twin_name": "meant" if isinstance(about, Unmeant) and about.meant else "",
        "against": witness_data(sheet, about.against if isinstance(about, AddsNothing) else None),
        "shown": list(about.names if isinstance(about, Choices) else thing.names),
        "departures": list(thing.departs),
        "reference": thing.reference,
        "grade": thing.grade if f.witness else None,
        "simplest": thing.simplest,
    }


def _how_far(sheet: Sheet, f: Finding) -> Data:
    """On how small a departure from the base, of how much of a case, and at which lines."""
    status = f.status
    return {
        "least_rereading": f.best,
        "status": {"lowest": status.lowest, "as_presumed": status.at_base, "highest": status.highest},
        "break_points": [_break(sheet, b) for r in f.rereads for b in r.breaks],
        "failing": list(f.failing),
        "condition_not_met": [x.label for x, _ in conditions_not_met(sheet, f)],
    }


def _otherwise(sheet: Sheet, f: Finding) -> Data:
    """What lets a thing by that is kept out, and the re-readings on which it is not so."""
    unmet, in_part = unmet_by(f), in_part_of(f)
    least = () if isinstance(f.about, Met) else f.otherwise.least
    further = () if isinstance(f.about, Met) else f.otherwise.rereads[len(least) :]
    return {
        "kept_out_by": [_kept_out_by(sheet, f, w) for w in ways_out_of(f)],
        "kept_by": [reread_data(sheet, r) for r in least],
        "kept_too": [reread_data(sheet, r) for r in further],
        "kept_out_if": [_keeping(sheet, f, r) for r in unmet if r not in in_part],
        "kept_out_if_together": f.otherwise.together and len(unmet) > 1,
        "in_part_if": [_keeping(sheet, f, r) for r in in_part],
    }


def _by_lines(sheet: Sheet, f: Finding) -> Data:
    """The limitations that bring it about."""
    kept = f.about if isinstance(f.about, KeptOut) else None
    return {
        "conflict": list(lines_of(f)),
        "minimal_sets": [list(one) for one in sets_of(f)],
        "minimal_sets_complete": kept.every_set if kept else because(f).every,
        "on_other_readings": [_fall(sheet, one) for one in (kept.falls if kept else ())],
        "on_other_readings_only": [_way_out(sheet, w) for w in (kept.besides if kept else ())],
        "silent": list(silent_lines(f)),
        "twins": list(f.about.twins if isinstance(f.about, Idle) else ()),
    }


def _wherever(sheet: Sheet, f: Finding) -> Data:
    """By way of which parents, on which further readings, of which further claims and how much of a case."""
    others = (f.about.step,) if isinstance(f.about, OneReading) else f.others
    return {
        "by_way_of": [list(chain) for chain in f.ways],
        "other_readings": [_taken(sheet, g, r) for g, r in others],
        "further_together": f.more,
        "also_claims": list(also_claims_of(f)),
        "also_on_some": list(f.about.also_on_some if isinstance(f.about, Met) else ()),
        "also_as_far_as_stated": [{"claim": n, "left_open": list(names)} for n, names in also_open_of(f)],
        "partly": list(partly_of(f)),
    }


def _particulars(sheet: Sheet, f: Finding) -> Data:
    """What only some questions tell, and what the answer leans on."""
    about = f.about
    farthest = about.farthest if isinstance(about, EndNotReached) else ()
    return {
        "detail": _detail(f),
        "apart_on_every_reading": list(about.firm) if isinstance(about, RangeLies) else [],
        "goes_farthest_with": [reread_data(sheet, r) for r in farthest],
        "rests_on": [ground_text(x) for x in f.rests_on],
        "beside_description": _held(sheet, about if isinstance(about, Held) else None),
        "together_beside_description": _combined(about if isinstance(about, Combined) else None),
    }


def _detail(f: Finding) -> str:
    """A code of what a question found beside all that has a key of its own; '' for most."""
    if isinstance(f.about, ByLines):
        return _detail_of_lines(f.about)
    match f.about:
        case RangeLies(relation):
            return relation
        case Alike(other):
            return f"claim {other}"
        case OneReading(_, change):
            return change if change != "nothing" else ""
        case NoValue(expression):
            return expression
        case Unmeasured(_, no_end):
            return no_end
        case Choices(met, every):
            return f"{met}|{every}"
        case Moves(of):
            return of
        case CloseBy(how):
            return how
        case Held(name):
            return name
        case Combined():
            return "together"
        case KeptOut(at_end=at_end) | Met(at_end):
            return "stated end" if at_end else ""
        case Lost():
            return "line alone" if f.about.line_alone else ""
        case Narrows(one_value):
            return "one value" if one_value else ""
        case Amended(relation):
            return relation
        case Plain() | ForAllClaims() | Cases() | LeftOpen() | Unmeant():
            return ""
        case _:
            assert_never(f.about)


def _detail_of_lines(about: ByLines) -> str:
    match about:
        case Empty(_, names) | NotThere(_, names):
            return "|".join(names)
        case AddsNothing(never_both=never_both):
            return "never both" if never_both else ""
        case IdleEnd(_, side, written):
            return f"{side}|{written}"
        case EndNotReached():
            return _end(about)
        case Needed(_, member):
            return member
        case Idle() | OneValue() | Freed():
            return ""
        case _:
            assert_never(about)


def _end(end: EndNotReached) -> str:
    """`20 min|no more than|25/2 min|out`, and where it is another as presumed `|12 min|in`."""
    goes = [end.far, *([end.usual] if end.usual else [])]
    far = (f"{own.value} {end.unit}".rstrip() + ("|in" if own.closed else "|out") for own in goes)
    return "|".join([end.stated, "no more than" if end.upper else "no less than", *far])


def _fall(sheet: Sheet, fall: Fall) -> Data:
    """What becomes of a set on other readings: each phrase by itself, or else the least of them together."""
    return {
        "set": list(fall.labels),
        "holds_on_every_reading": fall.always if fall.decided else None,
        "falls_alone": [reread_data(sheet, r) for r in fall.single],
        "falls_together": [reread_data(sheet, r) for r in fall.together],
    }


def _taken(sheet: Sheet, group: int, reading: int) -> Data:
    g = sheet.groups[group]
    return {
        "group": group,
        "words": g.wording,
        "reading": g.readings[reading].label,
        "standing": g.readings[reading].standing,
        "standing_text": standing_text(g, reading),
        "meaning": g.readings[reading].plain,
    }


def construction_data(sheet: Sheet, k: Construction | None) -> Data | None:
    """The readings and stretches of a construction; None without one."""
    if k is None:
        return None
    units = {p.key: p for p in sheet.parameters}
    return {
        "groups": [_taken(sheet, g, r) for g, r in enumerate(k.readings)],
        "parameters": [
            {"parameter": key, "group": units[key].group, **_number(value, units[key].unit)}
            for key, value in k.parameters
        ],
    }


def reread_data(sheet: Sheet, reread: Reread) -> Data:
    """A reading taken otherwise, with its places and break-points."""
    breaks = [_break(sheet, point) for point in reread.breaks]
    taken = _taken(sheet, reread.group, reread.reading)
    return {**taken, "places": _places(sheet, reread.group), "break_points": breaks}


def _places(sheet: Sheet, group: int) -> list[Data]:
    return [
        {
            "where": p.where,
            "words": p.words,
            **place_data(p.span),
            "meanings": list(p.meanings),
            "denied": p.where in sheet.by_label and _denied(sheet.by_label[p.where].formula, group),
        }
        for p in sheet.groups[group].places
    ]


def _denied(formula: Formula, group: int) -> bool:
    """Does the line deny what the phrase means, as "not 3 mm or 5 mm" does, wherever it stands in it?"""
    sides = set(_sides(formula, group, False))
    return sides == {True}


def _sides(formula: Formula, group: int, denied: bool) -> Iterator[bool]:
    match formula:
        case Not(item):
            yield from _sides(item, group, not denied)
        case Implies(left, right):
            yield from _sides(left, group, not denied)
            yield from _sides(right, group, denied)
        case All(items) | AnyOf(items) | ExactlyOne(items):
            for item in items:
                yield from _sides(item, group, denied)
        case Read(own, options):
            if own == group:
                yield denied
            for option in options:
                yield from _sides(option, group, denied)
        case _:
            pass


def _break(sheet: Sheet, point: BreakPoint) -> Data:
    parameter = next(p for p in sheet.parameters if p.key == point.parameter)
    words = group_words(sheet.groups[parameter.group])
    return {
        "parameter": point.parameter,
        "group": parameter.group,
        "direction": "at least" if point.upward else "at most",
        "closed": point.end.closed,
        **_number(point.end.value, parameter.unit),
        "text": break_text(sheet, point, words),
    }


def _kept_out_by(sheet: Sheet, finding: Finding, way: WayOut) -> Data:
    """With the stretches that let the thing shown by, where it is known from which value on."""
    points = [point for _, point in stretched_by(sheet, finding, way) if point is not None]
    return {**_way_out(sheet, way), "unless_stretched": [_break(sheet, point) for point in points]}


def _way_out(sheet: Sheet, way: WayOut) -> Data:
    return {
        "label": way.label,
        "words": way.words,
        "unless_read": [_taken(sheet, g, r) for g, r in way.readings],
    }


def _item(item: Item, index: dict[int, int]) -> Data:
    return {
        "number": item.number,
        "decision": item.decision,
        "findings": [index[id(f)] for f in item.findings],
        "consequences": [index[id(f)] for f in item.consequences],
        "follows": list(item.follows),
        "picture": None if item.picture is None else picture_data(item.picture),
    }


# ---- the rest


def _looked(entry: Looked) -> Data:
    return {"question": entry.question, "claim": entry.claim, "label": entry.label, "case": entry.case}


def _group(sheet: Sheet, index: int) -> Data:
    g = sheet.groups[index]
    return {
        "group": index,
        "document": g.document,
        "words": g.wording,
        "entry": g.entry,
        "base": g.base,
        "readings": [
            {"reading": r.label, "standing": r.standing, "meaning": r.plain, "axes": dict(r.axes)}
            for r in g.readings
        ],
        "places": _places(sheet, index),
        "settled": [_settled(s) for s in g.settled],
        "definition": _definition(g.definition),
        "own_phrase": _own_phrase(g.own),
        "not_computed": list(g.not_computed),
        "not_tried": [{"reading": label, "why": why} for label, why in g.not_tried],
    }


def _own_phrase(own: OwnPhrase | None) -> Data | None:
    if own is None:
        return None
    return {"title": own.title, "file": own.file, "line": own.line, "instead_of": own.instead_of}


def _definition(definition: Definition | None) -> Data | None:
    if definition is None:
        return None
    return {
        "text": definition.text,
        "place": definition.place,
        "reading": definition.reading,
        "breadth": dict(definition.breadth),
        **place_data(definition.span),
    }


def _held(sheet: Sheet, held: Held | None) -> Data | None:
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
                **_number(e.end.value, d.unit),
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


def _combined(own: Combined | None) -> Data | None:
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


def _cell(sheet: Sheet, cell: ChartCell) -> Data:
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
            else {"case": near.case, **_number(near.value, d.unit), "distance": exact(near.distance / factor)}
            for key, near in nearest
        },
    }


def _range(own: Range, unit: Unit) -> Data:
    return {
        key: None if end is None else {**_number(end.value, unit), "closed": end.closed}
        for key, end in (("low", own.low), ("high", own.high))
    }


def _settled(settled: Settled) -> Data:
    return {
        "text": settled.text,
        "reason": settled.reason,
        "removed": list(settled.removed),
        **place_data(settled.span),
    }


def _bounds(d: NumberDecl) -> Data:
    ends = (("lower", d.lower), ("upper", d.upper))
    told = {
        key: None if bound is None else {**_number(bound.value, d.unit), "closed": bound.closed}
        for key, bound in ends
    }
    return {"name": d.name, "stated": d.stated_bounds, "whole": d.whole, **told}


def diagnostic_data(d: Diagnostic) -> Data:
    """A message about a sheet, with its place."""
    place = place_data(d.span)
    return {"severity": d.severity, **place, "message": d.message, "cause": d.cause, "help": d.help}


def picture_data(picture: NumberLine | ValueTable) -> Data:
    """A picture of one quantity."""
    if isinstance(picture, NumberLine):
        return {
            "sort": "number line",
            "name": picture.name,
            "unit": picture.unit,
            "whole": picture.whole,
            "rows": [
                {"reading": label, "met": [_stretch(s) for s in ranges]} for label, ranges in picture.rows
            ],
            "marks": [{"name": name, "exact": exact(value)} for name, value in picture.marks],
            "stretched": [{"reading": label, "drawn": how} for label, how in picture.stretched],
            "rest": list(picture.rest),
        }
    return {
        "sort": "values",
        "name": picture.name,
        "unit": picture.unit,
        "values": [exact(v) if isinstance(v, Fraction) else v for v in picture.values],
        "rows": [{"reading": label, "met": list(row)} for label, row in picture.rows],
    }


def _stretch(s: Stretch) -> Data:
    return {
        "low": None if s.low is None else exact(s.low),
        "low_closed": s.low_closed,
        "high": None if s.high is None else exact(s.high),
        "high_closed": s.high_closed,
    }
