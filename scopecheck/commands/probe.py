"""The command `probe`: one limitation, made into a sheet in memory, read in every way."""

from __future__ import annotations

from scopecheck.answers.questions import ask_prepared, prepare
from scopecheck.commands.check import draw_all, looked_over, phrase_file, read_or_complain
from scopecheck.commands.options import Options
from scopecheck.commands.output import BAD_INPUT, UNDECIDED, Progress, complain, put
from scopecheck.commands.showing import shown
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.record import replace
from scopecheck.report.page import exit_status
from scopecheck.report.probe import probe
from scopecheck.report.probe_report import probe_report
from scopecheck.report.probe_sheet import Wish, sheet_source


def probe_limitation(wish: Wish, options: Options) -> int:
    """Shows where the readings part and, with cases or a meaning given, what is found; the exit status."""
    try:
        source = sheet_source(wish)
    except Trouble as error:
        draw_all([error.diagnostic])
        return BAD_INPUT
    phrases, wrong = phrase_file(wish.phrases)
    draw_all(wrong)
    budget = options.budget.begun()
    sheet, warnings = read_or_complain(source, phrases, budget) if not wrong else (None, ())
    if sheet is None:
        return BAD_INPUT
    if wish.show and wish.show not in {d.name for d in sheet.declarations}:
        declared = ", ".join(d.name for d in sheet.declarations)
        complain(f"error: '{wish.show}' is not declared, so it cannot be shown\n  help: declared: {declared}")
        return BAD_INPUT
    details = options.everything or options.format == "json"
    prepared = prepare(sheet, budget, options.strained, details)
    doubts, sound = looked_over(prepared)
    contradicts = any(d.severity == "error" for d in doubts)
    if contradicts or options.format != "json":  # JSON has them itself
        draw_all((*warnings, *doubts))
    if contradicts:
        return BAD_INPUT
    progress = Progress("probe")
    progress.tell("reading by reading")
    looked = probe(sheet, wish.show, options.strained, budget)
    asked = bool(sheet.cases) or any(x.meant is not None for c in sheet.claims for x in c.limitations)
    answers = ask_prepared(prepared, progress.tell) if asked else None
    progress.clear()
    report = probe_report(looked, answers, options.everything, options.strained)
    put(shown(replace(report, diagnostics=(*warnings, *doubts)), options.format))
    if answers is not None:
        status = exit_status(answers)
    else:
        open_parts = any(p.reason for p in looked.partings) or any(f.reason for f in looked.unmeasured)
        status = UNDECIDED if open_parts else 0
    return status if sound else status or UNDECIDED
