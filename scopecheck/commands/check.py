"""The command `check`: sheets from files to reports."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from functools import cache, partial

from scopecheck.answers.consistency import contradictions
from scopecheck.answers.definitions import weighed
from scopecheck.answers.questions import ask_prepared, prepare, second_asked
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.commands.options import Options
from scopecheck.commands.output import BAD_INPUT, UNDECIDED, Progress, already_there, complain, put, worst
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic, may_have_an_edit
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.language.statements import read_file
from scopecheck.matching.practice import FILE
from scopecheck.report.blocks import Report
from scopecheck.report.render import Format
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.constraints import Budget, Undecided


def check_sheets(paths: Iterable[str], options: Options) -> int:
    """Checks each sheet in turn and shows the reports; returns the exit status."""
    if options.output and os.path.lexists(options.output):
        complain(already_there(options.output))
        return BAD_INPUT
    statuses: list[int] = []
    drawn: list[str] = []
    names = list(paths)
    try:
        for path in names:
            status, report = _checked_file(path, options)
            statuses.append(status)
            drawn += report
    finally:
        # What is found in one sheet is not lost by what happens to the next.
        if drawn:
            put(_together(drawn, options.format, len(names)), options.output)
    return worst(statuses)


def _checked_file(path: str, options: Options) -> tuple[int, list[str]]:
    """The exit status for one file, and its report as text, if there is one."""
    source, diagnostics = read_file(path)
    draw_all(diagnostics)
    own = replace(options, budget=options.budget.begun())
    sheet, warnings = read_or_complain(source, budget=own.budget) if source is not None else (None, ())
    if sheet is None or source is None:
        return BAD_INPUT, []
    words = cache(partial(_open_words, source))
    report, status = checked(sheet, own, warnings, words)
    return status, [_shown(report, source, words(), options)] if report is not None else []


def read_or_complain(
    source: Source, phrases: tuple[Source, ...] = (), budget: Budget | None = None
) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    """The resolved sheet with its warnings; None once its errors, and the warnings among them, were drawn.

    `phrases` are phrase files beside the one that the sheet names; looking them over takes time of `budget`.
    """
    sheet, diagnostics = read_sheet(source, phrases)
    if sheet is not None and sheet.phrase_files:
        from scopecheck.report.alike import readings_alike  # few sheets have phrases of their own

        diagnostics += tuple(readings_alike(sheet.phrase_files, budget))
    if any(may_have_an_edit(d) for d in diagnostics):
        from scopecheck.resolve.edits import with_edits_tried  # few sheets have lines to edit

        diagnostics = with_edits_tried(source, diagnostics, phrases)
    if sheet is None or any(d.severity == "error" for d in diagnostics):
        draw_all(diagnostics)
        return None, ()
    return sheet, diagnostics


def phrase_file(path: str) -> tuple[tuple[Source, ...], tuple[Diagnostic, ...]]:
    """The phrase file named on the command line, if one is, or what is wrong with the file itself."""
    source, wrong = read_file(path, FILE) if path else (None, ())
    return ((source,) if source else ()), wrong


def draw_all(diagnostics: Iterable[Diagnostic]) -> None:
    """Draws diagnostics on the error stream, a blank line after each."""
    for diagnostic in diagnostics:
        complain(draw(diagnostic) + "\n")
        complain("")


def checked(
    sheet: Sheet,
    options: Options,
    warnings: tuple[Diagnostic, ...],
    besides: Callable[[], object] = lambda: None,
) -> tuple[Report | None, int]:
    """The report on one sheet and its exit status; no report where the sheet contradicts itself.

    What there is to do `besides` is done while half of the questions are asked elsewhere.
    """
    progress = Progress(sheet.source_name)
    details = options.everything or options.contested or options.format == "json"
    budget = options.budget.begun()
    sheet = weighed(sheet, budget)
    chart = options.chart or options.everything or options.format == "json"
    prepared = prepare(sheet, budget, options.strained, details, chart)
    with second_asked(prepared) as second:
        doubts, sound = looked_over(prepared)
        if any(d.severity == "error" for d in doubts):
            draw_all((*warnings, *doubts))
            return None, BAD_INPUT
        # So are a report's modules loaded, which takes a while.
        from scopecheck.commands.showing import exit_status, reported

        besides()
        answers = ask_prepared(prepared, progress.tell, second)
    progress.clear()
    status = exit_status(answers)
    report = reported(sheet, answers, (*warnings, *doubts), options)
    return report, status if sound else status or UNDECIDED


def _open_words(source: Source) -> int:
    from scopecheck.commands.showing import open_words

    return open_words(source)


def _shown(report: Report, source: Source, facts: int, options: Options) -> str:
    from scopecheck.commands.showing import shown, with_words

    return shown(with_words(report, source, facts), options.format, to_file=bool(options.output))


def _together(drawn: list[str], format: Format, asked: int) -> str:
    """Several reports as one text; as JSON one list, or the object itself where one sheet was asked for."""
    if format == "json" and asked > 1:
        return "[\n" + ",\n".join(text.rstrip("\n") for text in drawn) + "\n]\n"
    return "\n\n".join(drawn)


def looked_over(prepared: Prepared) -> tuple[tuple[Diagnostic, ...], bool]:
    """Where the sheet contradicts itself, or could; and whether that could be decided at all."""
    try:
        return contradictions(prepared), True
    except Undecided as reason:
        message = "not decided whether the sheet contradicts itself"
        spans = [claim.span for claim in prepared.sheet.claims[:1]]
        return tuple(Diagnostic("warning", span, message, f"{reason}.") for span in spans), False
