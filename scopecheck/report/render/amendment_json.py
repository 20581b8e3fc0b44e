"""An amendment as JSON: every claim, every thing that shows a change, with exact numbers."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from scopecheck.answers.amended import Amended
from scopecheck.answers.amended_cases import CaseChange, Standing
from scopecheck.answers.amendment import Change
from scopecheck.answers.findings import (
    Finding,
    relation_of,
)
from scopecheck.core.grounds import ground_text
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.report.amended_ranges import ranges_of
from scopecheck.report.amended_things import together
from scopecheck.report.margins import readings_told
from scopecheck.report.render.values_json import (
    SCHEMA_VERSION,
    construction_data,
    diagnostic_data,
    exact,
    picture_data,
    place_data,
    reread_data,
    witness_data,
)
from scopecheck.report.things import thing_text
from scopecheck.report.wording import GLUE, about_lines

Data = dict[str, Any]


def draw_amendment(amended: Amended, diagnostics: Sequence[Diagnostic], status: int) -> str:
    """The amendment as one JSON object, keys in a fixed order."""
    before, after = amended.joined.before, amended.joined.after
    data = {
        "schema_version": SCHEMA_VERSION,
        "title": after.title,
        "confidential": after.confidential,
        "before": before.source_name,
        "after": after.source_name,
        "profile": after.profile,
        "purpose": after.purpose,
        "exit_status": status,
        "claims": [_change(amended, c) for c in amended.changes],
        "idle_after": [{"claim": f.claim, "quantifier": f.quantifier} for f in amended.idle],
        "cases": [_case(amended, c) for c in amended.cases],
        "not_in_the_sheet_before": [
            {"claim": u.claim, "sort": u.sort, "words": u.words} for u in amended.uncarried
        ],
        "undecided": list(amended.doubts),
        "diagnostics": [diagnostic_data(d) for d in diagnostics],
        "about": list(about_lines()),
    }
    return json.dumps(data, indent=2, ensure_ascii=False).replace(GLUE, " ") + "\n"


def _change(amended: Amended, change: Change) -> Data:
    before, after = amended.joined.before, amended.joined.after
    ranges = ranges_of(amended, change)
    return {
        "before": None if change.before is None else _claim(change.before.number, before),
        "after": None if change.after is None else _claim(change.after.number, after),
        "relation": change.relation,
        "on_every_construction": change.relation is not None and change.everywhere,
        "same_limitations": change.same,
        "only_by_what_it_takes_over": change.taken_over,
        "nothing_meets_it_after": change.emptied,
        "given_up": _side(change.given_up, together(before, after)),
        "gained": _side(change.gained, together(after, before)),
        "otherwise": [
            {
                "relation": relation_of(f),
                "readings": list(readings_told(after, f)),
                "construction": construction_data(after, f.construction),
            }
            for f in change.otherwise
        ],
        "stretched": [
            {
                "parameter": s.parameter,
                "stages": [
                    {"from": exact(x.start.value), "closed": x.start.closed, "relation": x.relation}
                    for x in s.stages
                ],
            }
            for s in change.stretched
        ],
        "with_no_end_rounding": None if change.alike is None else change.alike.relation,
        "moved": [{"label": m.label, "before": m.before, "claim_before": m.claim} for m in change.moved],
        "values": list(ranges.lines),
        "pictures": [picture_data(p) for p in ranges.pictures],
        "undecided": [f.reason for f in change.undecided],
    }


def _claim(number: int, sheet: Sheet) -> Data:
    return {"claim": number, **place_data(sheet.claim(number).span)}


def _side(finding: Finding | None, sheet: Sheet) -> Data | None:
    if finding is None:
        return None
    return {
        "outcome": finding.outcome,
        "quantifier": finding.quantifier,
        "as_presumed": finding.status.at_base == "some",
        "thing": thing_text(sheet, finding) if finding.witness else "",
        "article": witness_data(sheet, finding.witness),
        "departures": list(finding.thing.departs),
        "reference": finding.thing.reference,
        "failing": list(finding.failing),
        "construction": construction_data(sheet, finding.construction),
        "rereads": [reread_data(sheet, r) for r in finding.rereads],
        "rests_on": [ground_text(x) for x in finding.rests_on],
        "reason": finding.reason,
    }


def _case(amended: Amended, change: CaseChange) -> Data:
    return {
        "case": change.case.name,
        "role": change.case.role,
        "changed": change.changed,
        "before": _standing(change.before, amended.joined.before),
        "after": _standing(change.after, amended.joined.after),
    }


def _standing(standing: Standing, sheet: Sheet) -> Data:
    finding = standing.finding
    return {
        "claim": standing.claim,
        "quantifier": standing.how,
        "relation": standing.relation,
        "readings": [] if finding is None else list(readings_told(sheet, finding)),
        "reason": standing.reason,
    }
