"""The map of a claim set as JSON: classes, steps, claims apart, each with the things that show it."""

from __future__ import annotations

import json
from collections.abc import Sequence

from scopecheck.answers.order import ScopeMap
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.report.describe import settings_text
from scopecheck.report.render.values_json import SCHEMA_VERSION, article_data, diagnostic_data
from scopecheck.report.wording import GLUE, about_lines


def draw_map(sheet: Sheet, found: ScopeMap, diagnostics: Sequence[Diagnostic], status: int) -> str:
    """The map as one JSON object, keys in a fixed order. Steps name a class by its first claim."""
    data = {
        "schema_version": SCHEMA_VERSION,
        "title": sheet.title,
        "confidential": sheet.confidential,
        "source": sheet.source_name,
        "profile": sheet.profile,
        "purpose": sheet.purpose,
        "exit_status": status,
        "construction": "as presumed",
        "classes": [
            {"first": e.claims[0], "claims": list(e.claims), "on_every_construction": e.every}
            for e in found.equals
        ],
        "steps": [
            {
                "narrower": s.narrower,
                "wider": s.wider,
                "by_dependence": s.own,
                "on_every_construction": s.every,
                "meets_only_the_wider": article_data(sheet, s.article),
                "departs_in": list(s.departs),
                "written": settings_text(sheet, s.article, s.departs),
            }
            for s in found.steps
        ],
        "apart": [
            {
                "claims": [a.first, a.second],
                "meets_only_the_first": article_data(sheet, a.only_first),
                "meets_only_the_second": article_data(sheet, a.only_second),
            }
            for a in found.apart
        ],
        "nothing_restated": [c.number for c in sheet.claims if not c.limitations],
        "claims_for": [{"claim": n, "thing": sort} for n, sort in found.sorts],
        "nothing_meets": list(found.empty),
        "met_only_beyond_an_unstated_threshold": list(found.on_threshold),
        "undecided": [{"claims": sorted({a, b}), "reason": reason} for a, b, reason in found.doubts],
        "diagnostics": [diagnostic_data(d) for d in diagnostics],
        "about": list(about_lines()),
    }
    return json.dumps(data, indent=2, ensure_ascii=False).replace(GLUE, " ") + "\n"
