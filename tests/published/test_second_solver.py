"""The solver's verdicts against those of a second solver library, which has a translation of its own.

Over a generated family of formulas and over the limitations, claims and cases of the example sheets: is there
a thing, and a construction, on which it is true; false; undefined? A verdict that the second library does not
reach within its budget is left out; the counts below say how many have to be reached.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise, product
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from scopecheck.answers.questions import prepare
from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Branch,
    Compare,
    Const,
    Divide,
    ExactlyOne,
    Formula,
    Implies,
    IsWhole,
    Least,
    Measured,
    Multiply,
    Not,
    Remainder,
)
from scopecheck.core.model import Sheet
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.solver import Session
from tests import build, strategies
from tests.published.second_solver import Asked, SecondSolver, Verdict
from tests.published.worked import sheet

UNHURRIED = Budget(wall=3_600)
"""What stays undecided is told by the work, however slow the machine."""
ASKED: tuple[Asked, ...] = ("true", "false", "undefined")
SHEETS = sorted((Path(__file__).parents[2] / "specs" / "sheets").glob("*.sheet"))
LEFT_OPEN = {"sower"}
"""Sheets with parts of parts and means, where the second solver leaves half of the questions open."""
COUNTED: Counter[str] = Counter()
GENERATED = settings(
    max_examples=150,
    derandomize=True,
    database=None,
    deadline=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
)


def ours(session: Session, *asked: tuple[Formula, Asked], at: Construction | None = None) -> Verdict:
    """The program's verdict: on some admissible construction, or on this one."""
    tell = {"true": session.met, "false": session.denied, "undefined": session.undefined}
    search = session.search(session.groups_in(*(f for f, _ in asked)) if at is None else ())
    search.require(*(tell[value](formula, at) for formula, value in asked))
    try:
        return "sat" if search.holds() else "unsat"
    except Undecided:
        return "unknown"


def held_together(
    family: str,
    session: Session,
    second: SecondSolver,
    *asked: tuple[Formula, Asked],
    at: Construction | None = None,
) -> None:
    """Holds the two verdicts against each other and counts what was compared."""
    theirs = second.verdict(*asked, at=at)
    if theirs == "unknown":
        COUNTED[f"{family}: left out"] += 1
        return
    said = ours(session, *asked, at=at)
    assert said in (theirs, "unknown"), (asked, said, theirs)
    COUNTED[f"{family}: {said}"] += 1


def compared(family: str) -> tuple[int, int, int]:
    """How many verdicts of a family were sat and unsat on both sides, and how many were not reached."""
    left = COUNTED[f"{family}: left out"] + COUNTED[f"{family}: unknown"]
    return COUNTED[f"{family}: sat"], COUNTED[f"{family}: unsat"], left


# ---- generated formulas


@st.composite
def situations(draw: st.DrawFn) -> tuple[Sheet, Formula, Formula, Construction]:
    world = draw(strategies.worlds())
    first = draw(strategies.formulas(world, 2, linear=True))
    second = draw(strategies.formulas(world, 2, linear=True))
    return world.sheet(), first, second, draw(strategies.constructions(world))


@GENERATED
@given(situations())
def _ask_generated(situation: tuple[Sheet, Formula, Formula, Construction]) -> None:
    made, first, other, k = situation
    session, second = Session(made, UNHURRIED), SecondSolver(made, work=20_000)
    for value in ASKED:
        held_together("generated", session, second, (first, value))
        held_together("generated", session, second, (first, value), (other, "true"))
    held_together("generated, one construction", session, second, (first, "true"), (other, "false"), at=k)


def test_generated_formulas() -> None:
    _ask_generated()
    sat, unsat, left = compared("generated")
    assert sat >= 200
    assert unsat >= 100
    assert left <= (sat + unsat) // 10
    sat, unsat, left = compared("generated, one construction")
    assert sat >= 20
    assert unsat >= 20


@st.composite
def quotients(draw: st.DrawFn) -> tuple[Sheet, Formula, Construction]:
    """Formulas with divisors that are unknown and may be zero."""
    world = draw(strategies.finite_worlds())
    return world.sheet(), draw(strategies.formulas(world, 2)), draw(strategies.constructions(world))


@settings(GENERATED, max_examples=80)
@given(quotients())
def _ask_quotients(situation: tuple[Sheet, Formula, Construction]) -> None:
    made, formula, k = situation
    session, second = Session(made, UNHURRIED), SecondSolver(made)
    for value in ASKED:
        held_together("quotients", session, second, (formula, value))
        held_together("quotients", session, second, (formula, value), at=k)


def test_divisors_that_may_be_zero() -> None:
    _ask_quotients()
    sat, unsat, _ = compared("quotients")
    assert sat >= 100
    assert unsat >= 100


# ---- corners: remainders of counts, and branches of which one side has no value


def corners() -> list[Formula]:
    """Small formulas over the counts n and m and the number y, at the places where a translation slips."""
    n, m, y = Measured("n"), Measured("m"), Measured("y")
    fractions = (Fraction(1), Fraction(1, 2), Fraction(-2, 3))
    divisors = (Fraction(3), Fraction(3, 2), Fraction(1, 2))
    found: list[Formula] = []
    for factor, divisor in product(fractions, divisors):
        scaled = Add((Multiply(Const(factor), n), Const(Fraction(1, 2))))
        for item in (Multiply(Const(factor), n), scaled, Add((scaled, y))):
            found.append(Compare("=", Remainder(item, divisor), Multiply(Const(Fraction(1, 2)), m)))
            found.append(IsWhole(Divide(item, Const(divisor))))
    quotient, above = Divide(y, m), Compare(">", n, Const(Fraction(0)))
    for then, otherwise in ((quotient, n), (n, quotient), (quotient, quotient)):
        branch = Branch(above, then, otherwise)
        found.append(Compare("=", branch, n))
        found.append(Compare(">", Add((branch, y)), n))
        found.append(Any((Compare("<", branch, n), Compare("=", y, n))))
        found.append(Compare("<=", Least((branch, y)), n))
    unknown = Compare("=", quotient, y)
    found.append(Compare("=", Branch(unknown, n, y), n))
    found.append(ExactlyOne((unknown, above, Not(unknown))))
    found.append(Implies(unknown, above))
    return found


def test_corners() -> None:
    made = build.sheet((build.count("n", None), build.count("m", None), build.number("y")), ())
    session, second = Session(made, UNHURRIED), SecondSolver(made)
    for formula in corners():
        for n, m, y in ((-3, 0, 0), (-1, 2, 1), (0, 0, 1), (1, 1, -1), (2, -1, 0), (4, 1, 1), (5, 0, 5)):
            here = build.point(made.declarations, n=n, m=m, y=y)
            for value in ASKED:
                held_together("corners", session, second, (here, "true"), (formula, value))
    sat, unsat, left = compared("corners")
    assert sat >= 400
    assert unsat >= 800
    assert left <= (sat + unsat) // 10


# ---- the example sheets


@pytest.mark.parametrize("path", [p for p in SHEETS if p.stem not in LEFT_OPEN], ids=lambda p: p.stem)
def test_example_sheets(path: Path) -> None:
    made = sheet(path.read_text(encoding="utf-8"))
    prepared, second = prepare(made, UNHURRIED), SecondSolver(made)
    session, base = prepared.session, base_construction(made)
    family = path.stem
    for claim in made.claims:
        for limitation in claim.limitations:
            for value in ASKED:
                held_together(family, session, second, (limitation.formula, value))
                held_together(family, session, second, (limitation.formula, value), at=base)
        for before, after in pairwise(claim.limitations):
            held_together(family, session, second, (before.formula, "true"), (after.formula, "false"))
    for instance in prepared.all_instances():
        for value in ASKED:
            held_together(family, session, second, (instance.scope, value))
        if instance.inherited:
            held_together(
                family, session, second, (instance.parent_scope, "true"), (instance.own_scope, "false")
            )
    for case in made.cases:
        for number in prepared.independent():
            scope = prepared.scope(number)
            for value in ("true", "false"):
                held_together(family, session, second, (case.facts, "true"), (scope, value))
    sat, unsat, left = compared(family)
    assert sat >= 1
    assert unsat >= 1
    assert left <= (sat + unsat) // 10


def test_there_are_example_sheets() -> None:
    assert SHEETS


def test_undefined_is_neither_true_nor_false_for_both() -> None:
    """The one point where total functions could leak in: a divisor that is zero."""
    made = sheet("\na  number\nb  number\n\n1. A thing.\n   | a / b > 2\n   | NOT a / b > 2\n   | b = 0\n")
    session, second = Session(made, UNHURRIED), SecondSolver(made)
    above, not_above, zero = (x.formula for x in made.claim(1).limitations)
    for formula in (above, not_above):
        for value in ASKED:
            expected = "sat" if value == "undefined" else "unsat"
            assert second.verdict((zero, "true"), (formula, value)) == expected
            assert ours(session, (zero, "true"), (formula, value)) == expected
    assert ours(session, (All((above, not_above)), "true")) == "unsat"
    assert second.verdict((All((above, not_above)), "true")) == "unsat"
