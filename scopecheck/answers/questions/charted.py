"""The chart: each limitation against what each document, and each thing that must stay out, states."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.findings import ChartCell, Status, Verdict
from scopecheck.answers.questions.cases import status_at
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.refine import Demand, Wanted, some_construction
from scopecheck.core.formula import All, Article, Formula
from scopecheck.core.model import Case, Limitation
from scopecheck.core.ranges import lying
from scopecheck.core.ties import lying_ties
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.evaluate import meets

MOST_ROUNDS = 40
"""A cell is one of many, and most are known after three."""
CHARTED = ("document", "outside")
"""The roles of the cases in a chart, in the order of its columns."""


def charted(prepared: Prepared) -> Iterator[ChartCell]:
    """Every limitation against every case, limitation by limitation, documents first."""
    cases = [c for role in CHARTED for c in prepared.sheet.cases if c.role == role]
    for claim in prepared.sheet.claims:
        for limitation in claim.limitations:
            for case in cases:
                yield _cell(prepared, case, limitation)


def _cell(prepared: Prepared, case: Case, limitation: Limitation) -> ChartCell:
    names = prepared.session.names_in(limitation.formula)
    stated = tuple(n for n in case.stated if n in names and n not in case.in_full)
    against = lying(prepared.sheet, case.facts, limitation.formula, prepared.session.base)
    tied = lying_ties(case.facts, limitation.formula, prepared.session.base)
    cell = ChartCell(limitation.label, case.name, stated, "undecided", lying=against, tied=tied)
    try:
        article = prepared.point(case, All((limitation.formula,)))
        if article is not None:
            return _of_point(prepared, cell, limitation.formula, article)
        return _of_region(prepared, cell, case, limitation.formula)
    except Undecided as reason:
        return replace(cell, reason=str(reason))


def _of_point(prepared: Prepared, cell: ChartCell, formula: Formula, article: Article) -> ChartCell:
    session = prepared.session
    readings = session.search(session.groups_in(formula), things=False)
    met = session.met_by(formula, article)
    base: Status = "every" if meets(formula, article, session.base) else "none"
    ever, always = readings.holds(met), not readings.holds(~met)
    verdict: Verdict = "met" if always else "depends" if ever else "not met"
    return replace(cell, verdict=verdict, at_base=base)


def _of_region(prepared: Prepared, cell: ChartCell, case: Case, formula: Formula) -> ChartCell:
    session = prepared.session
    search = session.search(session.groups_in(case.facts, formula))
    search.require(session.met(case.facts))
    can_meet, can_miss = search.holds(session.met(formula)), search.holds(~session.met(formula))
    if not can_meet and not can_miss:
        return replace(cell, verdict="empty")
    base = status_at(prepared, case.facts, formula, session.base)
    verdict: Verdict = "met" if not can_miss else "not met"
    if can_meet and can_miss:
        verdict = "in part"
        if base == "some" and not cell.names:
            verdict = "silent"
        elif base != "some" or _varies(prepared, case, formula):
            verdict = "depends"
    return replace(cell, verdict=verdict, at_base=base)


def _varies(prepared: Prepared, case: Case, formula: Formula) -> bool:
    """Is all of what the case states met on some construction, or none of it?"""
    stated = Demand(All(()), case.facts, "some")
    wanted: tuple[Wanted, ...] = ("every", "none")
    demands = ([Demand(case.facts, formula, w), stated] for w in wanted)
    return any(some_construction(prepared.session, asked, MOST_ROUNDS) for asked in demands)
