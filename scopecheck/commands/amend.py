"""The command `amend`: two sheets of one claim set, before and after an amendment."""

from __future__ import annotations

import os

from scopecheck.answers.amended import Amended, ask_amendment
from scopecheck.answers.definitions import weighed
from scopecheck.answers.questions import prepare
from scopecheck.commands.check import draw_all, looked_over, read_or_complain
from scopecheck.commands.options import Options
from scopecheck.commands.output import BAD_INPUT, FOUND, UNDECIDED, Progress, already_there, complain, put
from scopecheck.commands.showing import shown
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.language.statements import read_file
from scopecheck.report.amendment import amendment_report
from scopecheck.report.render.amendment_json import draw_amendment
from scopecheck.report.wording import sentence
from scopecheck.resolve.joined import joined


def show_amendment(before: str, after: str, options: Options) -> int:
    """Shows what the amendment changes; the exit status."""
    if options.output and os.path.lexists(options.output):
        complain(already_there(options.output))
        return BAD_INPUT
    options = replace(options, budget=options.budget.begun())
    (old, of_old, old_sound), (new, of_new, new_sound) = (sheet_to_ask(p, options) for p in (before, after))
    said = [*of_old, *of_new]
    if old is None or new is None:
        return BAD_INPUT
    if os.path.samefile(before, after):
        source = new.claims[0].span.source
        place = Span(source, 0, max(1, len(source.line(1).rstrip())))
        told = sentence("amend", "same_file"), sentence("amend", "same_file_help")
        draw_all([Diagnostic("error", place, told[0], help=told[1])])
        return BAD_INPUT
    both, found = joined(old, new)
    said += found
    if both is None:
        draw_all(said)
        return BAD_INPUT
    progress = Progress(new.source_name)
    amended = ask_amendment(both, options.budget, options.strained, progress.tell)
    progress.clear()
    status = exit_status(amended) or (0 if old_sound and new_sound else UNDECIDED)
    if options.format == "json":
        put(draw_amendment(amended, said, status), options.output)
    else:
        report = amendment_report(amended, said, options.strained, options.everything)
        put(shown(report, options.format, to_file=bool(options.output)), options.output)
    return status


def sheet_to_ask(path: str, options: Options) -> tuple[Sheet | None, tuple[Diagnostic, ...], bool]:
    """A sheet that may be compared, with its warnings; None once what is wrong with it was drawn.

    Last, whether it was decided that the sheet does not contradict itself.
    """
    source, diagnostics = read_file(path)
    draw_all(diagnostics)
    sheet, warnings = read_or_complain(source, budget=options.budget) if source is not None else (None, ())
    if sheet is None:
        return None, (), True
    sheet = weighed(sheet, options.budget)
    doubts, sound = looked_over(prepare(sheet, options.budget, options.strained))
    if any(d.severity == "error" for d in doubts):
        draw_all((*warnings, *doubts))
        return None, (), True
    return sheet, (*warnings, *doubts), sound


def exit_status(amended: Amended) -> int:
    """1 if a claim changes what it reaches, comes or goes; else 3 if anything is undecided, else 0."""
    if amended.found:
        return FOUND
    return UNDECIDED if amended.undecided else 0
