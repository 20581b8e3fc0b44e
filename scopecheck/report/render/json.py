"""A report as JSON: every finding, whatever stands on the first page, with exact numbers.

Numbers are objects: `exact` is `p/q` in the unit named beside it, `written` the text of the report. Keys do
not change their meaning within one `schema_version`; further keys may come.
"""

from __future__ import annotations

import json

from scopecheck.answers.findings import (
    Looked,
)
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Definition, OwnPhrase, Settled, Sheet
from scopecheck.report.blocks import Item, Picture, Report
from scopecheck.report.looked import wholly_looked
from scopecheck.report.page import exit_status
from scopecheck.report.render.finding_json import finding_data
from scopecheck.report.render.lying_json import cell_data
from scopecheck.report.render.values_json import (
    SCHEMA_VERSION,
    Data,
    diagnostic_data,
    number_data,
    picture_data,
    place_data,
    places_data,
)
from scopecheck.report.wording import GLUE, about_lines


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
            finding_data(sheet, finding, i in report.held_back) for i, finding in enumerate(report.order)
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
        "chart": [cell_data(sheet, cell) for cell in answers.chart],
        "pictures": [picture_data(b.data) for b in report.blocks if isinstance(b, Picture)],
        "diagnostics": [diagnostic_data(d) for d in report.diagnostics],
        "about": list(about_lines()),
    }


# ---- numbers and places


# ---- findings


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
        "places": places_data(sheet, index),
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
        key: None if bound is None else {**number_data(bound.value, d.unit), "closed": bound.closed}
        for key, bound in ends
    }
    return {"name": d.name, "stated": d.stated_bounds, "whole": d.whole, **told}
