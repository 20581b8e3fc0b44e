"""The report of a sheet of ten claims, and what its items tell."""

from __future__ import annotations

from functools import cache

from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.report.blocks import Report
from tests.sheets import sheet


@cache
def report_of(text: str, everything: bool) -> Report:
    made, _ = checked(sheet(text), Options(everything=everything), ())
    assert made is not None
    return made


DEAD = ("dependent cannot be met", "adds nothing")
"""What is told of dependent claims that do nothing: on every reading above all that takes one."""


def told_by(report: Report) -> list[tuple[str, str, str]]:
    """Of every finding in an item its question, its place and its case."""
    return [(f.question, f.label, f.case) for item in report.items for f in item.findings]
