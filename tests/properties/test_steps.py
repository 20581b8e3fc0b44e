"""Formulas over steps against the same said of plain intervals, and searches over them; small whole times."""

from __future__ import annotations

import operator
from collections.abc import Callable
from fractions import Fraction
from itertools import product
from typing import TypeAlias

from hypothesis import given, settings
from hypothesis import strategies as st

from scopecheck.core.construction import Construction
from scopecheck.core.declared import DONE, NOT_DONE
from scopecheck.core.formula import All, Any, Article, Compare, Const, Formula, Not, Op, Term
from scopecheck.foundations.quantity import find_unit
from scopecheck.language.syntax import StepKind
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from scopecheck.vocabulary import steps
from scopecheck.vocabulary.steps import declared_for, step_named
from tests import build

MINUTE = find_unit("min")
assert MINUTE
FIRST = step_named("first", StepKind(MINUTE, False, False, False, build.SPAN), (), build.SPAN)
SECOND = step_named("second", StepKind(MINUTE, False, True, False, build.SPAN), (), build.SPAN)
EVENT = step_named("event", StepKind(MINUTE, True, True, False, build.SPAN), (), build.SPAN)
STEPS = (FIRST, SECOND, EVENT)
DECLARED = [d for step in STEPS for d in declared_for(step, MINUTE, [], "")]
BASE = Construction(())
SIGNS: dict[Op, Callable[[int, int], bool]] = {
    "<": operator.lt, "<=": operator.le, "=": operator.eq, "!=": operator.ne, ">=": operator.ge,
    ">": operator.gt,
}  # fmt: skip

Run: TypeAlias = tuple[tuple[int, int] | None, ...]
"""For each step when it starts and when it is over, in minutes, or None where it was not done."""
Truth: TypeAlias = bool | None
Asked: TypeAlias = tuple[Formula, Callable[[Run], Truth]]
"""A formula, and what it says of a run."""

TIMES = [(a, a + d) for a in range(4) for d in (1, 2)]
RUNS = list(product(TIMES, (*TIMES, None), (*((t, t) for t in range(5)), None)))


def article(run: Run) -> Article:
    made: dict[str, Fraction | str] = {}
    for step, times in zip(STEPS, run, strict=True):
        start, end = times or (0, 1)
        made[step.start] = Fraction(60 * start)
        if step.duration:
            made[step.duration] = Fraction(60 * (end - start))
        if step.done:
            made[step.done] = DONE if times else NOT_DONE
    return made  # type: ignore[return-value]


# ---- the same said of plain intervals

WHEN: dict[str, tuple[Callable[..., Term], Callable[[tuple[int, int]], int]]] = {
    "start": (steps.start, lambda t: t[0]),
    "end": (steps.end, lambda t: t[1]),
    "duration": (steps.duration, lambda t: t[1] - t[0]),
}
places = st.integers(0, len(STEPS) - 1)
values = st.tuples(st.sampled_from(sorted(WHEN)), places)


@st.composite
def compared(draw: st.DrawFn) -> Asked:
    (one, i), (other, j), op = draw(values), draw(values), draw(st.sampled_from(sorted(SIGNS)))
    (make, of), (make_other, of_other) = WHEN[one], WHEN[other]

    def said(run: Run) -> Truth:
        a, b = run[i], run[j]
        return None if a is None or b is None else SIGNS[op](of(a), of_other(b))

    return Compare(op, make(STEPS[i]), make_other(STEPS[j])), said


@st.composite
def limited(draw: st.DrawFn) -> Asked:
    (one, i), op, limit = draw(values), draw(st.sampled_from(sorted(SIGNS))), draw(st.integers(0, 5))
    make, of = WHEN[one]

    def said(run: Run) -> Truth:
        times = run[i]
        return None if times is None else SIGNS[op](of(times), limit)

    return Compare(op, make(STEPS[i]), Const(Fraction(60 * limit))), said


def done(i: int) -> Asked:
    return steps.done(STEPS[i]), lambda run: run[i] is not None


def in_order(order: list[int]) -> Asked:
    def said(run: Run) -> Truth:
        there = [times for i in order if (times := run[i]) is not None]
        return all(a[1] <= b[0] for n, a in enumerate(there) for b in there[n + 1 :])

    return steps.in_order(tuple(STEPS[i] for i in order)), said


def next_after(order: list[int]) -> Asked:
    i, j = order[:2]

    def said(run: Run) -> Truth:
        a, b = run[i], run[j]
        others = [times for n, times in enumerate(run) if n not in (i, j) and times is not None]
        if a is None or b is None:
            return None
        return a[1] <= b[0] and not any(a[1] <= t[0] < b[0] for t in others)

    return steps.next_after(STEPS[i], STEPS[j], STEPS), said


def together(order: list[int]) -> Asked:
    """Some time, or with an event a moment, at which the first two of them go on."""
    chosen = order[:2]

    def said(run: Run) -> Truth:
        there = [times for i in chosen if (times := run[i]) is not None]
        if len(there) < len(chosen):
            return None
        last, first = max(a for a, _ in there), min(b for _, b in there)
        return last <= first if any(STEPS[i] is EVENT for i in chosen) else last < first

    return steps.together(tuple(STEPS[i] for i in chosen)), said


def same_span(order: list[int]) -> Asked:
    i, j = order[:2]
    return steps.same_span(
        (STEPS[i], STEPS[j])
    ), lambda run: None if run[i] is None or run[j] is None else run[i] == run[j]


def in_chain(order: list[int]) -> Asked:
    i, j = order[:2]

    def said(run: Run) -> Truth:
        a, b = run[i], run[j]
        return None if a is None or b is None else a[1] == b[0]

    return steps.in_chain((STEPS[i], STEPS[j])), said


def negated(asked: Asked) -> Asked:
    formula, said = asked

    def turned(run: Run) -> Truth:
        answer = said(run)
        return None if answer is None else not answer

    return Not(formula), turned


def joined(items: list[Asked], every: bool) -> Asked:
    def said(run: Run) -> Truth:
        answers = [of(run) for _, of in items]
        if (not every) in answers:
            return not every
        return None if None in answers else every

    formulas = tuple(formula for formula, _ in items)
    return (All if every else Any)(formulas), said


orders = st.permutations(range(len(STEPS)))
sequences = (in_order, next_after, together, same_span, in_chain)
atoms = st.one_of(compared(), limited(), places.map(done), *(orders.map(make) for make in sequences))
asked = st.recursive(
    atoms,
    lambda inner: st.one_of(
        inner.map(negated),
        st.builds(joined, st.lists(inner, min_size=2, max_size=3), st.booleans()),
    ),
    max_leaves=5,
)


@given(asked, st.lists(st.sampled_from(RUNS), min_size=20, max_size=20))
@settings(max_examples=300, deadline=None)
def test_what_is_said_of_steps_is_what_is_said_of_intervals(wish: Asked, runs: list[Run]) -> None:
    formula, said = wish
    for run in runs:
        expected = said(run)
        known = evaluate(formula, article(run), BASE)
        assert known is expected, (run, expected, known)


@given(asked)
@settings(max_examples=80, deadline=None)
def test_what_a_search_finds_agrees_with_going_through_all(wish: Asked) -> None:
    formula, said = wish
    session = Session(build.sheet(DECLARED, ()))
    search = session.search(())
    search.require(session.met(formula))
    found = search.find()
    if any(said(run) is True for run in RUNS):
        assert found is True
    if found:
        assert evaluate(formula, search.article(), BASE) is True
