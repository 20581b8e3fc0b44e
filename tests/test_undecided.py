"""A step that gets no answer is asked once more by itself; only then is it said to be undecided."""

from __future__ import annotations

import pytest
import z3

from scopecheck.solving import engine, solver
from scopecheck.solving.clock import SECOND, Clock
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from tests import sheets

SHEET = """length  length in mm

1. A rod having a length of at least 3 mm.
   | length : a length of at least 3 mm
"""


def session(wall: int = 60) -> Session:
    return Session(sheets.sheet(SHEET), Budget(wall=wall))


def unanswered(*_: object) -> z3.CheckSatResult:
    return z3.unknown


def test_a_step_without_an_answer_is_asked_afresh(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engine, "checked", unanswered)
    asked = session()
    formula = asked.sheet.claims[0].limitations[0].formula
    met = asked.met(formula)
    search = asked.search(asked.groups_in(formula))
    for wanted in (met, ~met):
        assert search.find(wanted)
        assert evaluate(formula, search.article(), search.construction()) is (wanted is met)
    assert not search.holds(met, ~met)


def test_what_is_not_answered_afresh_either_is_undecided(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engine, "checked", unanswered)
    monkeypatch.setattr(solver, "afresh", lambda *_: engine.Found(z3.unknown))
    asked = session()
    with pytest.raises(Undecided, match="work budget"):
        asked.search(()).holds()


def test_the_time_for_a_sheet_ends_between_steps() -> None:
    asked = session(wall=0)
    with pytest.raises(Undecided, match="wall limit"):
        asked.search(()).holds()


def test_a_step_first_gets_little_work_and_then_all_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    limits: list[object] = []
    answers = iter((z3.unknown, z3.sat))
    monkeypatch.setattr(engine, "checked", lambda *_: next(answers))
    asked = engine.Engine([z3.BoolVal(True)], 10 * engine.LITTLE_WORK, Clock(60 * SECOND), timed=False)
    monkeypatch.setattr(asked, "_limit", limits.append)
    assert asked.check([]) == z3.sat
    assert limits == [0, engine.LITTLE_WORK]


def test_what_was_answered_or_found_before_is_not_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = session()
    formula = asked.sheet.claims[0].limitations[0].formula
    met, groups = asked.met(formula), asked.groups_in(formula)
    found = asked.search(groups)
    assert found.find(met)
    assert not found.holds(met, ~met)

    def refuse(*_: object) -> z3.CheckSatResult:
        raise AssertionError("the solver was asked")

    monkeypatch.setattr(engine, "checked", refuse)
    again = asked.search(groups)
    assert again.find(met)
    assert evaluate(formula, again.article(), again.construction()) is True
    assert not again.holds(~met, met)
    # Of a thing that was found more can be asked than was asked when it was found.
    assert again.holds(met, asked.equals("length", again.article()["length"]))
    with pytest.raises(AssertionError, match="was asked"):
        again.holds(~met)
