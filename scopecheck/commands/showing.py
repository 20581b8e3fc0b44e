"""What a command shows of a report: the page, the words of the claims beside it, the text in a format.

Loaded when a report is made, which takes a while: `check` does it while its questions are asked elsewhere.
"""

from __future__ import annotations

import os
import shutil
import sys

from scopecheck.answers.findings import Answers
from scopecheck.commands.options import Options
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.report.blocks import Block, Heading, Paragraph, Report
from scopecheck.report.page import build_report, exit_status
from scopecheck.report.render import Format, render, wants_colour
from scopecheck.report.wording import counted, sentence
from scopecheck.text.of_sheet import shown_of_sheet

WIDTH = 90
"""Columns of a text that does not go to a terminal."""


def reported(sheet: Sheet, answers: Answers, said: tuple[Diagnostic, ...], options: Options) -> Report:
    """The report on a sheet, `said` what was warned of; with `contested` contested wording in full."""

    def built(everything: bool) -> Report:
        strained, chart = options.strained, options.chart
        return build_report(sheet, answers, everything, diagnostics=said, strained=strained, chart=chart)

    report = built(options.everything)
    if options.contested and not options.everything:
        report = _with_contested(report, built(True))
    return report


def open_words(source: Source) -> int:
    """How many facts the words of the claims alone show that no answer settles."""
    shown, _, _ = shown_of_sheet(source)
    return len(shown.open)


def with_words(report: Report, source: Source, facts: int) -> Report:
    """The report with a line on so many facts that the words alone show."""
    if not facts:
        return report
    told = sentence("words", "in_check", facts=counted(facts, "fact"), source=source.name)
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


__all__ = ["exit_status", "open_words", "reported", "shown", "with_words"]
