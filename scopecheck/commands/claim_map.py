"""The command `map`: the order of the claims of one sheet."""

from __future__ import annotations

import os

from scopecheck.answers.order import ScopeMap, scope_map
from scopecheck.answers.questions import prepare
from scopecheck.commands.amend import sheet_to_ask
from scopecheck.commands.options import Options
from scopecheck.commands.output import BAD_INPUT, FOUND, UNDECIDED, already_there, complain, put
from scopecheck.commands.showing import shown
from scopecheck.foundations.record import replace
from scopecheck.report.render.map_json import draw_map
from scopecheck.report.scope_map import map_report


def show_map(path: str, options: Options) -> int:
    """Shows which claim lies within which; the exit status."""
    if options.output and os.path.lexists(options.output):
        complain(already_there(options.output))
        return BAD_INPUT
    options = replace(options, budget=options.budget.begun())
    sheet, said, sound = sheet_to_ask(path, options)
    if sheet is None:
        return BAD_INPUT
    found = scope_map(prepare(sheet, options.budget))
    status = map_status(found) or (0 if sound else UNDECIDED)
    if options.format == "json":
        put(draw_map(sheet, found, said, status), options.output)
    else:
        report = map_report(sheet, found, said, options.everything)
        put(shown(report, options.format, to_file=bool(options.output)), options.output)
    return status


def map_status(found: ScopeMap) -> int:
    """1 if two claims are of one scope or nothing meets some claim; else 3 if undecided, else 0."""
    doubted = {a for a, b, _ in found.doubts if a == b}
    if set(found.empty) - doubted or any(len(e.claims) > 1 for e in found.equals):
        return FOUND
    return UNDECIDED if found.doubts else 0
