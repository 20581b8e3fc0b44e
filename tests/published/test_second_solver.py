"""The solver's verdicts against those of a second solver library, which has a translation of its own.

Over a generated family of formulas and over the limitations, claims and cases of the example sheets: is there a
thing, and a construction, on which it is true; false; undefined? A verdict that the second library does not
reach in its time is left out; the counts below say how many have to be reached.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from scopecheck.construction import Construction, base_construction
from scopecheck.core import All, Formula, Sheet
from scopecheck.questions import prepare
from scopecheck.solver import Session, Undecided
from tests import strategies
from tests.published.second_solver import Asked, SecondSolver, Verdict
from tests.published.worked import sheet

pytest.importorskip("cvc5")

ASKED: tuple[Asked, ...] = ("true", "false", "undefined")
SHEETS = sorted((Path(__file__).parents[2] / "specs" / "sheets").glob("*.sheet"))
OURS: Counter[str] = Counter()
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


def compare(
    family: str,
    session: Session,
    second: SecondSolver,
    *asked: tuple[Formula, Asked],
    at: Construction | None = None,
) -> None:
    """Holds the two verdicts against each other and counts what was compared."""
    theirs = second.verdict(*asked, at=at)
    if theirs == "unknown":
        OURS[f"{family}: left out"] += 1
        return
    said = ours(session, *asked, at=at)
    assert said in (theirs, "unknown"), (asked, said, theirs)
    OURS[f"{family}: {said}"] += 1


def compared(family: str) -> tuple[int, int, int]:
    """How many verdicts of a family were sat and unsat on both sides, and how many were not reached."""
    left = OURS[f"{family}: left out"] + OURS[f"{family}: unknown"]
    return OURS[f"{family}: sat"], OURS[f"{family}: unsat"], left


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
    session, second = Session(made), SecondSolver(made)
    for value in ASKED:
        compare("generated", session, second, (first, value))
        compare("generated", session, second, (first, value), (other, "true"))
    compare("generated, one construction", session, second, (first, "true"), (other, "false"), at=k)


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
    session, second = Session(made), SecondSolver(made, milliseconds=300)
    for value in ASKED:
        compare("quotients", session, second, (formula, value))
        compare("quotients", session, second, (formula, value), at=k)


def test_divisors_that_may_be_zero() -> None:
    _ask_quotients()
    sat, unsat, _ = compared("quotients")
    assert sat >= 100
    assert unsat >= 100


# ---- the example sheets


@pytest.mark.parametrize("path", SHEETS, ids=lambda p: p.stem)
def test_example_sheets(path: Path) -> None:
    made = sheet(path.read_text(encoding="utf-8"))
    prepared, second = prepare(made), SecondSolver(made)
    session, base = prepared.session, base_construction(made)
    family = path.stem
    for claim in made.claims:
        for limitation in claim.limitations:
            for value in ASKED:
                compare(family, session, second, (limitation.formula, value))
                compare(family, session, second, (limitation.formula, value), at=base)
        for before, after in pairwise(claim.limitations):
            compare(family, session, second, (before.formula, "true"), (after.formula, "false"))
    for instance in prepared.all_instances():
        for value in ASKED:
            compare(family, session, second, (instance.scope, value))
        if instance.inherited:
            compare(family, session, second, (instance.parent_scope, "true"), (instance.own_scope, "false"))
    for case in made.cases:
        for number in prepared.independent():
            scope = prepared.scope(number)
            for value in ("true", "false"):
                compare(family, session, second, (case.facts, "true"), (scope, value))
    sat, unsat, left = compared(family)
    assert sat >= 10
    assert unsat >= 10
    assert left <= (sat + unsat) // 10


def test_there_are_example_sheets() -> None:
    assert SHEETS


def test_undefined_is_neither_true_nor_false_for_both() -> None:
    """The one point where total functions could leak in: a divisor that is zero."""
    made = sheet("\na  number\nb  number\n\n1. A thing.\n   | a / b > 2\n   | NOT a / b > 2\n   | b = 0\n")
    session, second = Session(made), SecondSolver(made)
    above, not_above, zero = (x.formula for x in made.claim(1).limitations)
    for formula in (above, not_above):
        for value, expected in (("true", "unsat"), ("false", "unsat"), ("undefined", "sat")):
            assert second.verdict((zero, "true"), (formula, value)) == expected
            assert ours(session, (zero, "true"), (formula, value)) == expected
    assert ours(session, (All((above, not_above)), "true")) == "unsat"
    assert second.verdict((All((above, not_above)), "true")) == "unsat"
