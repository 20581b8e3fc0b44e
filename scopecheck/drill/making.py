"""From a seed to an exercise: the plan at a position, nouns and numbers drawn, solved before it is set."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from string import ascii_lowercase

from scopecheck.core.declared import NumberDecl
from scopecheck.drill.bench import Bench
from scopecheck.drill.compose import Composed, compose
from scopecheck.drill.draws import Draws
from scopecheck.drill.exercise import Exercise, Kind
from scopecheck.drill.kinds import set_problem
from scopecheck.drill.plans import Plan, cell, known
from scopecheck.drill.trades import Form, forms, trades
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

MOST_TRIES = 6
"""Numbers and nouns that are tried for one plan before the next one is taken."""
FURTHER = 7919
"""Positions to go on where a plan came to nothing: far from those that the same seed uses."""


@record
class Made:
    """An exercise and what it is graded on; exercises of one `shape` differ in numbers and nouns only."""

    exercise: Exercise
    bench: Bench
    shape: tuple[str, ...] = ()


def make(kind: Kind, level: int, seed: int, position: int) -> Made:
    """The exercise of a kind and level at a position of its pool, with the seed's nouns and numbers."""
    pool = cell(kind, level)
    while True:
        plan = pool.at(position)
        for attempt in range(MOST_TRIES):
            made = _made(plan, Draws(seed, kind, level, position, attempt), f"{kind}, {level}, {position}")
            if made is not None:
                return replace(made, shape=plan.shape)
        position += FURTHER


def _made(plan: Plan, draws: Draws, name: str) -> Made | None:
    trade = draws.among(trades())
    plan = _in_drawn_order(plan, draws)
    claims = [[forms()[n] for n in claim] for claim in plan.claims]
    composed = compose(trade, claims, plan.tied, draws, plan.aim.other == "like numbers")
    bench = bench_of(composed.text)
    if bench is None:
        return None
    _make_known(bench, composed, claims)
    problem = set_problem(bench, plan.aim)
    if problem is None:
        return None
    return Made(Exercise(name, plan.level, composed.text, trade.name, _said(composed), problem), bench)


def _in_drawn_order(plan: Plan, draws: Draws) -> Plan:
    """The plan with the lines of claim 1 in another order; claim 2 speaks of the first, which stays."""
    first = plan.claims[0]
    fixed = 1 if plan.claims[1:] else 0
    order = [*range(fixed), *draws.mixed(range(fixed, len(first)))]
    moved = {f"1{ascii_lowercase[old]}": f"1{ascii_lowercase[at]}" for at, old in enumerate(order)}
    a = plan.aim
    aim = replace(
        a,
        label=moved.get(a.label, a.label),
        labels=tuple(sorted(moved[x] for x in a.labels)),
        wanted=tuple(a.wanted[old] for old in order) if a.wanted else (),
    )
    claims = (tuple(first[old] for old in order), *plan.claims[1:])
    return replace(plan, claims=claims, aim=aim)


def _make_known(bench: Bench, composed: Composed, claims: Sequence[Sequence[Form]]) -> None:
    """Tells the bench which values are plausible and which more exact wording is known to be one."""
    for name, value in composed.usual:
        d = bench.sheet.declaration(name)
        if isinstance(d, NumberDecl) and isinstance(value, Fraction):
            bench.usual[name] = d.unit.to_base(value)
        else:
            bench.usual[name] = value
    for claim, made in zip(bench.sheet.claims, claims, strict=True):
        for limitation, form in zip(claim.limitations, made, strict=True):
            for reading, number in known(form).get("exact", {}).items():
                bench.exact[limitation.label, reading] = number


def bench_of(text: str) -> Bench | None:
    """The sheet of a text, ready; None where it cannot be read."""
    sheet, diagnostics = read_sheet(Source("the exercise", text))
    if sheet is None or any(d.severity == "error" for d in diagnostics):
        return None
    return Bench(sheet, text)


def _said(composed: Composed) -> tuple[str, ...]:
    return tuple(composed.claim(n) for n in range(1, len(composed.claims) + 1))
