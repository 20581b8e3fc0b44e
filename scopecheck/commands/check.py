"""The command `check`: sheets from files to reports."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable

from scopecheck.answers.consistency import contradictions
from scopecheck.answers.definitions import weighed
from scopecheck.answers.questions import ask_prepared, prepare, second_asked
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.commands.output import BAD_INPUT, UNDECIDED, Progress, already_there, complain, put, worst
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.spans import Source
from scopecheck.language.statements import read_file
from scopecheck.report.blocks import Block, Heading, Paragraph, Report
from scopecheck.report.page import build_report, exit_status
from scopecheck.report.render import Format, render, wants_colour
from scopecheck.report.wording import counted, sentence
from scopecheck.resolve.practice import FILE
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.text.of_sheet import shown_of_sheet

WIDTH = 90
"""Columns of a text that does not go to a terminal."""


@record
class Options:
    """How to check and how to show it. `output` is '' for the standard output."""

    format: Format = "text"
    everything: bool = False
    contested: bool = False
    strained: bool = False
    budget: Budget = Budget()
    output: str = ""
    chart: bool = False


def check_sheets(paths: Iterable[str], options: Options) -> int:
    """Checks each sheet in turn and shows the reports; returns the exit status."""
    if options.output and os.path.lexists(options.output):
        complain(already_there(options.output))
        return BAD_INPUT
    statuses: list[int] = []
    drawn: list[str] = []
    names = list(paths)
    for path in names:
        source, diagnostics = read_file(path)
        draw_all(diagnostics)
        sheet, warnings = read_or_complain(source) if source is not None else (None, ())
        if sheet is None or source is None:
            statuses.append(BAD_INPUT)
            continue
        report, status = checked(sheet, options, warnings)
        statuses.append(status)
        if report is not None:
            report = with_words(report, source)
            drawn.append(shown(report, options.format, to_file=bool(options.output)))
    if drawn:
        put(_together(drawn, options.format, len(names)), options.output)
    return worst(statuses)


def read_or_complain(
    source: Source, phrases: tuple[Source, ...] = ()
) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    """The resolved sheet with its warnings; None once its errors, and the warnings among them, were drawn.

    `phrases` are phrase files beside the one that the sheet names.
    """
    sheet, diagnostics = read_sheet(source, phrases)
    if sheet is not None and sheet.phrase_files:
        from scopecheck.report.alike import readings_alike  # few sheets have phrases of their own

        diagnostics += tuple(readings_alike(sheet.phrase_files))
    if sheet is None or any(d.severity == "error" for d in diagnostics):
        draw_all(diagnostics)
        return None, ()
    return sheet, tuple(diagnostics)


def phrase_file(path: str) -> tuple[tuple[Source, ...], tuple[Diagnostic, ...]]:
    """The phrase file named on the command line, if one is, or what is wrong with the file itself."""
    source, wrong = read_file(path, FILE) if path else (None, ())
    return ((source,) if source else ()), wrong


def draw_all(diagnostics: Iterable[Diagnostic]) -> None:
    """Draws diagnostics on the error stream, a blank line after each."""
    for diagnostic in diagnostics:
        complain(draw(diagnostic) + "\n")
        complain("")


def checked(sheet: Sheet, options: Options, warnings: tuple[Diagnostic, ...]) -> tuple[Report | None, int]:
    """The report on one sheet and its exit status; no report where the sheet contradicts itself."""
    progress = Progress(sheet.source_name)
    details = options.everything or options.contested or options.format == "json"
    sheet = weighed(sheet, options.budget)
    chart = options.chart or options.everything or options.format == "json"
    prepared = prepare(sheet, options.budget, options.strained, details, chart)
    with second_asked(prepared) as second:
        doubts, sound = looked_over(prepared)
        if any(d.severity == "error" for d in doubts):
            draw_all((*warnings, *doubts))
            return None, BAD_INPUT
        answers = ask_prepared(prepared, progress.tell, second)
    progress.clear()
    said = (*warnings, *doubts)

    def built(everything: bool) -> Report:
        return build_report(
            sheet, answers, everything, diagnostics=said, strained=options.strained, chart=options.chart
        )

    report = built(options.everything)
    if options.contested and not options.everything:
        report = _with_contested(report, built(True))
    status = exit_status(answers)
    return report, status if sound else status or UNDECIDED


def looked_over(prepared: Prepared) -> tuple[tuple[Diagnostic, ...], bool]:
    """Where the sheet contradicts itself, or could; and whether that could be decided at all."""
    try:
        return contradictions(prepared), True
    except Undecided as reason:
        message = "not decided whether the sheet contradicts itself"
        spans = [claim.span for claim in prepared.sheet.claims[:1]]
        return tuple(Diagnostic("warning", span, message, f"{reason}.") for span in spans), False


def with_words(report: Report, source: Source) -> Report:
    """The report with a line on what the words alone show, where no answer settles it."""
    shown, _, _ = shown_of_sheet(source)
    if not shown.open:
        return report
    told = sentence("words", "in_check", facts=counted(len(shown.open), "fact"), source=source.name)
    first = next((i for i, b in enumerate(report.blocks) if isinstance(b, Heading) and b.level == 2), 0)
    return replace(report, blocks=(*report.blocks[:first], Paragraph(told), *report.blocks[first:]))


def _with_contested(report: Report, full: Report) -> Report:
    """The first page with its line on contested wording written out as in the full report."""
    first, last = _contested(report.blocks)
    from_full, to_full = _contested(full.blocks)
    written_out = full.blocks[from_full:to_full]
    return replace(report, blocks=(*report.blocks[:first], *written_out, *report.blocks[last:]))


def _contested(blocks: tuple[Block, ...]) -> tuple[int, int]:
    """Where the section on contested wording begins and ends; the same place twice without one."""
    starts = [i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.level == 2]
    own = [i for i in starts if blocks[i] == Heading(sentence("section", "5"))]
    if not own:
        return len(blocks), len(blocks)
    return own[0], next((i for i in starts if i > own[0]), len(blocks))


def shown(report: Report, format: Format, to_file: bool = False) -> str:
    """The report as text, as wide as the terminal if it goes to one."""
    terminal = sys.stdout.isatty() and not to_file
    width = shutil.get_terminal_size().columns if terminal else WIDTH
    return render(report, format, width, wants_colour(terminal, os.environ))


def _together(drawn: list[str], format: Format, asked: int) -> str:
    """Several reports as one text; as JSON one list, or the object itself where one sheet was asked for."""
    if format == "json" and asked > 1:
        return "[\n" + ",\n".join(text.rstrip("\n") for text in drawn) + "\n]\n"
    return "\n\n".join(drawn)
