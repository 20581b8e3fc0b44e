"""The plan of a report: every finding of a sheet in exactly one place."""

from __future__ import annotations

from collections.abc import Iterable

from scopecheck.answers.findings import Finding
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import record
from scopecheck.report.consequences import traced, with_consequences
from scopecheck.report.grouping import (
    STRAINED,
    Cluster,
    clusters,
    departures,
    is_open,
    order_key,
    standing_rank,
)
from scopecheck.report.mattering import with_places


@record
class Plan:
    """All findings, each in one place: items by stakes, strained ones, quiet ones, statements, open ones."""

    items: tuple[Cluster, ...]
    strained: tuple[Cluster, ...]
    quiet: tuple[Cluster, ...]
    statements: tuple[Finding, ...]
    undecided: tuple[Finding, ...]
    order: tuple[Finding, ...]


def plan(sheet: Sheet, findings: Iterable[Finding], everything: bool = False) -> Plan:
    """The findings, drawn together.

    A contested reading is told where a graver finding turns on it, and again by itself only if `everything`
    is asked for.
    """
    order = tuple(sorted(findings, key=lambda f: order_key(sheet, f)))
    decided = [f for f in order if not is_open(f)]
    usual = [f for f in decided if standing_rank(sheet, f) < STRAINED]
    graver = [f for f in usual if f.stakes <= 4]
    trace = traced(sheet, graver)
    told = set() if everything else {step for f in graver for step in _readings(f) | set(f.others)}
    pairs = [] if everything else [_readings(f) for f in graver]
    quiet = [
        f
        for f in usual
        if f.stakes == 5 and (_readings(f) not in pairs if f.question == "pair" else not _readings(f) <= told)
    ]
    strained = [f for f in decided if standing_rank(sheet, f) == STRAINED and f.stakes <= 5]
    counted = [f for f in usual if f.stakes <= 5]
    items = with_places(sheet, clusters(sheet, trace.roots), counted)
    return Plan(
        tuple(with_consequences(sheet, cluster, trace) for cluster in items),
        clusters(sheet, strained),
        with_places(sheet, clusters(sheet, quiet), counted),
        tuple(f for f in decided if f.stakes == 6),
        tuple(f for f in order if is_open(f)),
        order,
    )


def _readings(finding: Finding) -> set[tuple[int, int]]:
    return {(d.group, d.reading) for d in departures(finding)}
