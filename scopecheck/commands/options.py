"""What a command that asks and shows is told to do."""

from __future__ import annotations

from scopecheck.foundations.record import record
from scopecheck.report.render import Format
from scopecheck.solving.constraints import Budget


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
