"""Against a fair walk over all constructions: the same findings, and how much sooner.

The walk uses one solver, encodes every limitation once, takes each construction by assumptions, goes through
them in the order of rank, and stops at the first hit wherever one is enough.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from itertools import product
from math import inf

from scopecheck.answers.findings import Finding, Status
from scopecheck.answers.questions import prepare
from scopecheck.answers.questions.cases import reading_for_all
from scopecheck.answers.questions.claims import adds_nothing, nothing_meets
from scopecheck.answers.questions.inside import inside_lost
from scopecheck.answers.questions.outside import outside_met
from scopecheck.answers.questions.ways import MOST_TOGETHER
from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    base_construction,
    groups_in,
    names_in,
)
from scopecheck.core.formula import All, Formula
from scopecheck.core.model import Sheet
from scopecheck.solving.constraints import Constraint
from scopecheck.solving.solver import Search, Session
from tests import oracle
from tests.benchmarks.figures import Figure
from tests.benchmarks.problems import of_phrases, with_dependent

ROUNDS = 3
"""Of the walk and of the questions, taking turns; the least of each counts."""
Told = tuple[object, ...]
"""A finding in short: question, label, case, reach, readings of the best construction, statuses."""


class Walk:
    """All constructions, one by one, in one solver."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.session = Session(sheet)
        self.base = base_construction(sheet)
        self.search: Search = self.session.search(range(len(sheet.groups)))

    def constructions(self, *formulas: Formula) -> list[Construction]:
        groups = groups_in(*formulas)
        readings = [admissible_readings(g) if g.index in groups else (g.base,) for g in self.sheet.groups]
        found = [Construction(taken) for taken in product(*readings)]
        return sorted(found, key=lambda k: oracle.rank(self.sheet, k, groups))  # type: ignore[arg-type, return-value]

    def holds(self, k: Construction, *constraints: Constraint) -> bool:
        return self.search.holds(*self.session.taken(k, range(len(self.sheet.groups))), *constraints)

    def told(self) -> Iterator[Told]:
        independent = [c.number for c in self.sheet.claims if not c.parents]
        for case in self.sheet.cases:
            for number in (
                n for n in independent if names_in(oracle.scope(self.sheet, n)) & set(case.stated)
            ):
                scope = oracle.scope(self.sheet, number)
                met, facts = self.session.met(scope), self.session.met(case.facts)
                where = (f"claim {number}", case.name)
                match case.role:
                    case "outside":
                        yield from self.reach("outside met", where, (case.facts, scope), facts, met)
                    case "inside":
                        yield from self.reach("inside lost", where, (case.facts, scope), facts, ~met)
                    case _:
                        pass
        yield self.fitting()
        for claim in self.sheet.claims:
            yield from self.of_claim(claim.number)

    def reach(
        self,
        question: str,
        where: tuple[str, str],
        formulas: tuple[Formula, ...],
        facts: Constraint,
        wanted: Constraint,
    ) -> Iterator[Told]:
        """Best construction on which all wanted hold at once; whether also in the base, and on every one.

        Where only on some, the best construction of each way of re-reading.
        """
        ks = self.constructions(*formulas)
        best = next((k for k in ks if self.holds(k, facts, wanted)), None)
        if best is None:
            return
        every = all(self.holds(k, facts, wanted) for k in ks)
        reach = "every" if every else "base" if self.holds(self.base, facts, wanted) else "some"
        ways = [best]
        if reach == "some":
            ways = self.ways([k for k in ks if self.holds(k, facts, wanted)])
        statuses = self.statuses(ks, facts, ~wanted if question == "inside lost" else wanted)
        if question == "inside lost" and set(statuses) == {"some"}:
            yield "inside left open", *where, "base", None, None, None, None
            return
        yield from ((question, *where, reach, k.readings, *statuses) for k in ways)

    def ways(self, effective: list[Construction]) -> list[Construction]:
        """The best of each way: each phrase alone, then the first few sets of phrases."""
        moved = [{g: r for g, r in enumerate(k.readings) if r != self.base.readings[g]} for k in effective]
        alone = {step for steps in moved if len(steps) == 1 for step in steps.items()}
        told: list[Construction] = []
        steps_told: set[tuple[int, int]] = set()
        together: list[set[int]] = []
        for k, steps in zip(effective, moved, strict=True):
            if steps_told & steps.items() or any(groups <= steps.keys() for groups in together):
                continue
            if len(steps) == 1:
                (g,) = steps
                steps_told |= {step for step in alone if step[0] == g}
            elif len(together) == MOST_TOGETHER:
                continue
            else:
                together.append(set(steps))
            told.append(k)
        return told

    def statuses(self, ks: list[Construction], facts: Constraint, met: Constraint) -> tuple[Status, ...]:
        """The least of the case that is met on a construction, what is met in the base, and the most."""
        seen = {self.status(self.base, facts, met)}
        for k in ks:
            if {"none", "every"} <= seen:
                break
            seen.add(self.status(k, facts, met))
        order: tuple[Status, ...] = ("none", "some", "every")
        present = [s for s in order if s in seen]
        return present[0], self.status(self.base, facts, met), present[-1]

    def status(self, k: Construction, facts: Constraint, met: Constraint) -> Status:
        if not self.holds(k, facts, met):
            return "none"
        return "some" if self.holds(k, facts, ~met) else "every"

    def fitting(self) -> Told:
        demands = []
        for case in self.sheet.cases:
            scope = oracle.scope(self.sheet, 1)
            facts, met = self.session.met(case.facts), self.session.met(scope)
            if case.role in ("inside", "outside"):
                demands.append((case.facts, scope, facts & (~met if case.role == "inside" else met)))
        ks = self.constructions(*(f for r, s, _ in demands for f in (r, s)))
        best = next((k for k in ks if not any(self.holds(k, broken) for _, _, broken in demands)), None)
        question = "no reading fits all cases" if best is None else "one reading fits all cases"
        return question, "claim 1", "", best and best.readings

    def of_claim(self, number: int) -> Iterator[Told]:
        (chain,) = oracle.chains(self.sheet, self.sheet.claim(number))
        own = self.sheet.claim(number).limitations
        parent = All(tuple(x.formula for x in chain[: -len(own)]))
        told = All(tuple(x.formula for x in own))
        met, above, within = (self.session.met(f) for f in (All((parent, told)), parent, told))
        ks = self.constructions(parent, told)
        empty = next((k for k in ks if not self.holds(k, met) and self.holds(k, above)), None)
        if empty is not None:
            yield "nothing meets", f"claim {number}", "", empty.readings
        if number > 1:
            useless = next((k for k in ks if not self.holds(k, above, ~within)), None)
            if useless is not None:
                yield "adds nothing", f"claim {number}", "", useless.readings


def asked(sheet: Sheet) -> Iterator[Told]:
    """The same questions, asked as they are in use."""
    prepared = prepare(sheet)
    for case in sheet.cases:
        if case.role == "outside":
            yield from map(in_short, outside_met(prepared, case))
        if case.role == "inside":
            yield from map(in_short, inside_lost(prepared, case))
    yield from ((*in_short(f)[:3], in_short(f)[4]) for f in reading_for_all(prepared))
    for instance in prepared.all_instances():
        for f in (*nothing_meets(prepared, instance), *adds_nothing(prepared, instance)):
            if isinstance(f, Finding) and f.question != "narrows":
                yield f.question, f.label, f.case, f.construction and f.construction.readings


def in_short(f: object) -> Told:
    if not isinstance(f, Finding):
        return ()
    readings = f.construction and f.construction.readings
    own = f.status
    return f.question, f.label, f.case, f.quantifier, readings, own.lowest, own.at_base, own.highest


def measure_walk() -> Iterator[Figure]:
    sheet = with_dependent(of_phrases(8, claims=1))
    answers: list[list[Told]] = [[], []]
    least = [inf, inf]
    for _ in range(ROUNDS):
        for i, told in enumerate((Walk(sheet).told, lambda: (x for x in asked(sheet) if x))):
            started = time.perf_counter()
            answers[i] = sorted(told(), key=repr)
            least[i] = min(least[i], time.perf_counter() - started)
    (walked, found), (walk, tool) = answers, least
    same = len(set(walked) ^ set(found))
    yield Figure("findings that differ from a walk over 6561 constructions", same, len(walked), "", 0)
    yield Figure("the walk, against the questions as asked", 1000 * walk, 1000 * tool, "ms", 50, least=True)
