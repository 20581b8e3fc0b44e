"""From a seed to an exercise: the plan at a position, nouns and numbers drawn, solved before it is set."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.model import NumberDecl
from scopecheck.drill.bench import Bench
from scopecheck.drill.compose import Composed, compose
from scopecheck.drill.draws import Draws
from scopecheck.drill.exercise import Exercise, Kind
from scopecheck.drill.kinds import set_problem
from scopecheck.drill.plans import Plan, cell
from scopecheck.drill.trades import forms, trades
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

MOST_TRIES = 6
"""Numbers and nouns that are tried for one plan before the next one is taken."""
FURTHER = 7919
"""Positions to go on where a plan came to nothing: far from those that the same seed uses."""


@record
class Made:
    """An exercise and what it is graded on."""

    exercise: Exercise
    bench: Bench


def make(kind: Kind, level: int, seed: int, position: int) -> Made:
    """The exercise of a kind and level at a position of its pool, with the seed's nouns and numbers."""
    pool = cell(kind, level)
    while True:
        plan = pool.at(position)
        for attempt in range(MOST_TRIES):
            made = _made(plan, Draws(seed, kind, level, position, attempt), f"{kind}, {level}, {position}")
            if made is not None:
                return made
        position += FURTHER


def _made(plan: Plan, draws: Draws, name: str) -> Made | None:
    trade = draws.among(trades())
    claims = [[forms()[n] for n in claim] for claim in plan.claims]
    composed = compose(trade, claims, plan.tied, draws)
    bench = bench_of(composed.text)
    if bench is None:
        return None
    for name_of, value in composed.usual:
        d = bench.sheet.declaration(name_of)
        in_base = (
            d.unit.to_base(value) if isinstance(d, NumberDecl) and isinstance(value, Fraction) else value
        )
        bench.usual[name_of] = in_base
    problem = set_problem(bench, plan.aim)
    if problem is None:
        return None
    phrases = tuple(g.entry for g in bench.sheet.groups)
    exercise = Exercise(
        name, plan.level, composed.text, trade.name, _claims(composed), problem, plan.shape, phrases
    )
    return Made(exercise, bench)


def bench_of(text: str) -> Bench | None:
    """The sheet of a text, ready; None where it cannot be read."""
    sheet, diagnostics = read_sheet(Source("the exercise", text))
    if sheet is None or any(d.severity == "error" for d in diagnostics):
        return None
    return Bench(sheet, text)


def _claims(composed: Composed) -> tuple[str, ...]:
    return tuple(composed.claim(n) for n in range(1, len(composed.claims) + 1))
