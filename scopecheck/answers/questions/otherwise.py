"""Of what is so as presumed and not on every reading: the readings of one phrase on which it is not so."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress

from scopecheck.answers.about import Otherwise
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.cases import one_reread
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction
from scopecheck.core.formula import Formula
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided

MOST = 24
"""So many readings are tried, each with a few questions to the solver."""


def with_not_so(
    prepared: Prepared,
    finding: Finding,
    formulas: tuple[Formula, ...],
    breaks: Callable[[Construction], bool],
) -> Finding:
    """The finding with each reading of one phrase of the formulas on which, all else as usual, it breaks."""
    if finding.quantifier != "base":
        return finding
    tried = list(one_reread(prepared, prepared.session.groups_in(*formulas), *formulas))
    found = []
    with suppress(Undecided):  # what it is not so on is told where it is known for all
        found = [r for r, k in tried if breaks(k)] if len(tried) <= MOST else []
    return replace(finding, otherwise=Otherwise(tuple(found)))
