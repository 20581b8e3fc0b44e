"""Of a practice's own phrases: readings that nothing tells apart. The solver looks on small sheets."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import combinations
from typing import Literal, TypeAlias

from scopecheck.core.formula import Formula
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.matching.practice import loaded
from scopecheck.report.occasions import occasions, phrase_in, read
from scopecheck.report.wording import sentence
from scopecheck.solving.clock import Clock
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from scopecheck.vocabulary.entry import Entry

BUDGET = Budget(work=500_000, wall=120)
"""What files get that are looked over by themselves; of a run, this work and the run's own time."""
SHARE, SHARE_OF_TWO = Fraction(1, 2), Fraction(1, 6)
"""All files take no more of the time than this share, each two readings no more than that."""
Answer: TypeAlias = Literal["part", "alike"] | Undecided
Pair: TypeAlias = tuple[str, str]
Severity: TypeAlias = Literal["error", "warning"]


def readings_alike(files: Iterable[Source], budget: Budget | None = None) -> Iterator[Diagnostic]:
    """An error for each two readings of a phrase of these files that nothing tells apart.

    A warning where that could not be decided, and for readings that fit none of the things tried. With a
    `budget`, its time is taken.
    """
    run = (budget or BUDGET).begun().clock
    assert run is not None
    clock, of_two = run.part(run.share(SHARE)), run.share(SHARE_OF_TWO)
    for source in files:
        for entry in loaded(source).entries:
            yield from _of(entry, clock, of_two)


def _of(entry: Entry, clock: Clock, of_two: int) -> Iterator[Diagnostic]:
    found, tried = _compared(entry, clock, of_two)
    by_label = {r.label: r.written.span for r in entry.readings}
    for (one, other), answer in found.items():
        if answer != "part":
            sure = answer == "alike"
            severity: Severity = "error" if sure else "warning"
            key = "alike" if sure else "undecided"
            message = sentence("own", key, one=one, other=other)
            why = "" if sure else f"{answer}."
            yield Diagnostic(severity, by_label[other], message, why, sentence("own", f"{key}_help"))
    for reading in entry.readings:
        if reading.formula is not None and reading.label not in tried:
            message = sentence("own", "untried", one=reading.label)
            yield Diagnostic("warning", by_label[reading.label], message, "", sentence("own", "untried_help"))


def _compared(entry: Entry, clock: Clock, of_two: int) -> tuple[dict[Pair, Answer], frozenset[str]]:
    """What was found of each two readings that stand on one sheet, and the readings that stand on any.

    The clock is that of all, `of_two` what two readings may take of it.
    """
    found: dict[Pair, Answer] = {}
    tried: set[str] = set()
    wanted = sum(r.formula is not None for r in entry.readings)
    for occasion in occasions(entry):
        sheet = read(occasion.text, entry)
        at = phrase_in(sheet, entry) if sheet else None
        if sheet is None or at is None:
            continue
        told = [(r.label, option) for r, option in zip(at[0].readings, at[1], strict=True)]
        tried |= {label for label, _ in told}
        for (one, a), (other, b) in combinations(told, 2):
            if found.get((one, other)) != "part":
                found[one, other] = _answer(sheet, a, b, replace(BUDGET, clock=clock.part(of_two)))
        if len(tried) == wanted and all(answer == "part" for answer in found.values()):
            break
    return found, frozenset(tried)


def _answer(sheet: Sheet, one: Formula, other: Formula, budget: Budget) -> Answer:
    """Does some thing meet one and not the other, on some values of what the readings leave open?"""
    session = Session(sheet, budget)
    try:
        for met, missed in ((one, other), (other, one)):
            search = session.search(range(len(sheet.groups)))
            if search.find(session.met(met), ~session.met(missed)):
                article, k = search.article(), search.construction()
                assert evaluate(met, article, k) is True
                assert evaluate(missed, article, k) is not True
                return "part"
    except Undecided as reason:
        return reason
    return "alike"
