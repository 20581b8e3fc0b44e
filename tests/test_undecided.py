"""A step that gets no answer is asked once more by itself; only then is it said to be undecided.

All that a run asks ends with its wall limit, and steps have shares of it; what is cut short is told.
"""

from __future__ import annotations

from contextlib import nullcontext
from fractions import Fraction
from pathlib import Path

import pytest
import z3
from typer.testing import CliRunner

from scopecheck.answers import order
from scopecheck.answers.findings import QUESTIONS
from scopecheck.answers.order import scope_map
from scopecheck.answers.questions import _with_time_left, ask_all, prepare
from scopecheck.cli import app
from scopecheck.commands import amend
from scopecheck.commands.claim_map import map_status
from scopecheck.foundations.spans import Source
from scopecheck.report.alike import readings_alike
from scopecheck.report.page import build_report
from scopecheck.report.render import render
from scopecheck.report.wording import sentence
from scopecheck.solving import clock, engine, solver
from scopecheck.solving.clock import SECOND, Clock
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.engine import Found
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Search, Session
from tests import sheets
from tests.undecided import Tally

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
    monkeypatch.setattr(solver, "afresh", lambda *_: Found(z3.unknown))
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


# ---- the wall limit: one end for all

SEVERAL = """\
profile EPO

width, gap   length in mm, >= 1 mm, <= 50 mm
user height  length in mm, >= 1400 mm, <= 2000 mm, varies with the user

1. A clip with a gap of about 3 mm.
   | gap : about 3 mm

2. The clip of claim 1, wherein the gap is between 2 and 4 mm.
   | gap : between 2 and 4 mm

3. A clip with a gap of about 3 mm and a width of no more than a hundredth of the user's height.
   | gap : about 3 mm
   | 100 * width <= user height

inside
  own  : gap = 3 mm, width = 15 mm
must stay out
  wide : gap = 9 mm

define "about (N)" : 0.9 * N <= x <= 1.1 * N  "paragraph 12"
"""
PRODUCTS = (
    "width, gap  length in mm\n\n1. A clip of some area.\n   | width * gap * gap <= 9 mm * 1 mm * 1 mm\n"
)
ONE = "gap  length in mm\n\n1. A clip with a gap of at least 3 mm.\n   | gap : at least 3 mm\n"
PHRASES = """\
phrase "well clear of (L)"
  reading "by a margin" : x >= 1.1 * L
    taken by "the practice"
  reading "not touching it" : x > L
    taken by "a challenger"
  presumed US : "by a margin"
  presumed EPO : none
  exact wording "greater than {L} by at least 10 %"
  source "house glossary" : own practice
"""


class Time:
    """A clock that stands still unless it is put forward."""

    def __init__(self) -> None:
        self.now = 0

    def pass_by(self, milliseconds: int) -> None:
        self.now += milliseconds


@pytest.fixture
def time(monkeypatch: pytest.MonkeyPatch) -> Time:
    made = Time()
    monkeypatch.setattr(clock, "_now", lambda: made.now)
    return made


@pytest.fixture
def sessions(monkeypatch: pytest.MonkeyPatch) -> list[Session]:
    """The sessions made from now on."""
    made: list[Session] = []
    begin = Session.__init__

    def begun(self: Session, *args: object, **kwargs: object) -> None:
        begin(self, *args, **kwargs)  # type: ignore[arg-type]
        made.append(self)

    monkeypatch.setattr(Session, "__init__", begun)
    return made


@pytest.mark.parametrize(("command", "least"), [("check", 2), ("amend", 5), ("map", 3), ("probe", 3)])
def test_all_sessions_of_a_run_have_one_end(
    command: str, least: int, sessions: list[Session], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[Budget] = []
    begin = Budget.begun

    def seen(self: Budget) -> Budget:
        begun.append(begin(self))
        return begun[-1]

    monkeypatch.setattr(Budget, "begun", seen)
    old, new = tmp_path / "old.sheet", tmp_path / "new.sheet"
    old.write_text(SEVERAL, "utf-8")
    new.write_text(SEVERAL.replace("between 2 and 4", "between 2 and 3"), "utf-8")
    files = {"check": [old], "amend": [old, new], "map": [old]}.get(command, [])
    words = ["gap: about 3 mm", "--declare", "gap length in mm, > 0 mm", "--outside", "gap = 9 mm"]
    asked = [command, *(map(str, files) if files else words), "--wall", "600"]
    assert CliRunner().invoke(app, asked).exit_code in (0, 1)
    assert len(sessions) >= least
    assert len({id(session.clock) for session in sessions}) == 1
    assert len({id(budget.clock) for budget in begun}) == 1


def test_each_of_several_sheets_has_a_limit_of_its_own(sessions: list[Session], tmp_path: Path) -> None:
    paths = [tmp_path / f"{name}.sheet" for name in ("one", "other")]
    for path in paths:
        path.write_text(ONE, "utf-8")
    CliRunner().invoke(app, ["check", *map(str, paths)])
    assert len({id(session.clock) for session in sessions}) == 2


def test_what_is_asked_anew_ends_with_the_rest(time: Time) -> None:
    prepared = prepare(sheets.sheet(ONE), Budget(wall=60))
    time.pass_by(59 * SECOND)
    assert prepared.anew().session.clock.left == SECOND
    time.pass_by(2 * SECOND)
    assert prepared.anew().session.clock.left == 0


def test_a_chart_has_a_quarter_of_the_limit_at_least(time: Time) -> None:
    prepared = prepare(sheets.sheet(ONE), Budget(wall=60), chart=True)
    time.pass_by(40 * SECOND)
    assert _with_time_left(prepared) is prepared
    time.pass_by(19 * SECOND)
    assert _with_time_left(prepared).session.clock.left == 15 * SECOND


def test_phrases_of_ones_own_take_a_share_of_the_run(time: Time, sessions: list[Session]) -> None:
    budget = Budget(wall=60).begun()
    source = Source("house.phrases", PHRASES)
    assert not list(readings_alike((source,), budget))
    assert {session.clock.left for session in sessions} == {10 * SECOND}
    time.pass_by(55 * SECOND)
    assert not list(readings_alike((source,), budget))
    assert sessions[-1].clock.left == 5 * SECOND
    time.pass_by(5 * SECOND)
    (told,) = readings_alike((source,), budget)
    assert (told.severity, told.cause) == ("warning", "the wall limit ran out.")


# ---- shares for steps


@pytest.mark.parametrize(("text", "passed", "left"), [(ONE, 0, 30), (ONE, 50, 5), (PRODUCTS, 0, 10)])
def test_a_step_afresh_has_a_share_and_no_more_than_half_of_what_is_left(
    text: str, passed: int, left: int, time: Time, monkeypatch: pytest.MonkeyPatch
) -> None:
    given: list[int] = []

    def recorded(_: object, __: int, own: Clock, *___: object) -> Found:
        given.append(own.left)
        return Found(z3.unknown)

    monkeypatch.setattr(engine, "checked", unanswered)
    monkeypatch.setattr(solver, "afresh", recorded)
    asked = Session(sheets.sheet(text), Budget(wall=60))
    time.pass_by(passed * SECOND)
    with pytest.raises(Undecided, match="work budget"):
        asked.search(()).holds()
    assert given == [left * SECOND]


def test_another_attempt_has_what_is_left_of_the_step(time: Time, monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[int] = []

    def slow(_: object, __: int, own: Clock, *___: object, **____: object) -> Found:
        given.append(own.left)
        time.pass_by(17 * SECOND)
        return Found(z3.unknown, late=own.left == 0)

    monkeypatch.setattr(engine, "_afresh", slow)
    assert engine.afresh([], engine.LITTLE_WORK, Clock(20 * SECOND)).late
    assert given == [int(20 * SECOND * engine.FIRST_SHARE), 3 * SECOND]


def test_a_step_that_took_its_share_says_so(time: Time, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engine, "checked", unanswered)
    monkeypatch.setattr(solver, "afresh", lambda *_: Found(z3.unknown, late=True))
    asked = Session(sheets.sheet(ONE), Budget(wall=60))
    with pytest.raises(Undecided, match="its part of the wall limit"):
        asked.search(()).holds()

    def to_the_end(*_: object) -> Found:
        time.pass_by(60 * SECOND)
        return Found(z3.unknown, late=True)

    monkeypatch.setattr(solver, "afresh", to_the_end)
    with pytest.raises(Undecided, match="the wall limit ran out"):
        asked.search(()).find()


@pytest.mark.parametrize(
    ("wall", "passed", "products", "limit"),
    [(60, 0, False, 10), (600, 0, False, 10), (60, 0, True, 2), (6, 0, False, 1), (60, 59, False, 1)],
)
def test_a_step_takes_no_longer_than_its_share_or_what_is_left(
    wall: int, passed: int, products: bool, limit: int, time: Time, monkeypatch: pytest.MonkeyPatch
) -> None:
    limits: list[object] = []
    asked = engine.Engine([z3.BoolVal(True)], 1000, Clock(wall * SECOND), products)

    class Kept:
        def set(self, *_: object, **given: object) -> None:
            limits.append(given["timeout"])

    monkeypatch.setattr(engine, "checked", unanswered)
    monkeypatch.setattr(asked, "_solver", Kept())
    asked._limit(0)
    time.pass_by(passed * SECOND)
    asked.check([])
    assert limits[-1] == limit * SECOND


def test_a_share_is_exact() -> None:
    assert Clock(10).share(Fraction(1, 6)) == 1
    assert Clock(60 * SECOND).part(10**12).left <= 60 * SECOND


# ---- nothing undecided becomes an answer


CLAIMS = """\
gap  length in mm

1. A clip with a gap of at least 3 mm.
   | gap : at least 3 mm

2. The clip of claim 1, wherein the gap is at most 9 mm.
   | gap : at most 9 mm

3. A clip with a gap of at least 4 mm and at most 8 mm.
   | 4 mm <= gap <= 8 mm
"""


def test_what_lies_under_an_undecided_claim_is_not_said_to_be_met_by_nothing() -> None:
    text = CLAIMS.replace("gap : at least 3 mm", "width = 3 * gap + 1.37 mm, 7 * gap = 2 * rim")
    text = text.replace("gap  length", "gap, width, rim  length")
    found = scope_map(prepare(sheets.sheet(text), Budget(wall=0)))
    reasons = {a: reason for a, b, reason in found.doubts if a == b}
    assert found.empty == (1, 2)
    assert "(the wall limit ran out)" in reasons[1]
    assert "(nor was it of claim 1)" in reasons[2]
    assert map_status(found) == 3


def test_a_step_of_the_map_that_may_not_hold_on_every_reading_is_undecided(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def none(self: object, *_: object) -> bool:
        raise Undecided("of the test")

    real = order._Order._everywhere

    def cut(self: order._Order, narrower: int, wider: int) -> bool | None:
        with monkeypatch.context() as patched:
            patched.setattr(Search, "holds", none)
            return real(self, narrower, wider)

    monkeypatch.setattr(order._Order, "_everywhere", cut)
    found = scope_map(prepare(sheets.sheet(CLAIMS)))
    assert [(a, b) for a, b, _ in found.doubts] == [(3, 2)]
    assert all("of the test" in reason for _, _, reason in found.doubts)
    assert map_status(found) == 3


@pytest.mark.parametrize("command", ["map", "amend"])
def test_a_contradiction_left_undecided_is_no_pass(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    paths = [tmp_path / f"{name}.sheet" for name in ("old", "new")]
    for path in paths:
        path.write_text(ONE, "utf-8")
    asked = [command, *map(str, paths[: 1 if command == "map" else 2])]
    assert CliRunner().invoke(app, asked).exit_code == 0
    monkeypatch.setattr(amend, "looked_over", lambda *_: ((), False))
    assert CliRunner().invoke(app, asked).exit_code == 3


def test_once_the_limit_is_over_every_question_for_the_solver_names_it() -> None:
    answers = ask_all(sheets.sheet(CLAIMS), Budget(wall=0))
    told = [f for f in answers.findings if f.outcome == "undecided"]
    assert told
    assert {f.reason for f in told} == {"the wall limit ran out"}


NO_FRACTION = """
x  length in mm

1. A thing.
   | x^2 = 2 mm2

2. The thing of claim 1.
   | x > 1 mm
"""


def test_what_adds_nothing_to_a_claim_that_perhaps_nothing_meets_is_told_beside_that() -> None:
    made = sheets.sheet(NO_FRACTION)
    text = " ".join(render(build_report(made, ask_all(made), False), "text").split())
    assert "Claim 2 adds nothing to what it depends on" in text
    told = "If nothing does, it is for that alone that nothing is added by claim 2."
    assert text.split("Not decided", 1)[1].count(told) == 1


@pytest.mark.parametrize("question", QUESTIONS)
def test_what_is_left_undecided_is_told_in_a_sentence(question: str) -> None:
    """Behind 'not decided whether there is' stands one of something, and behind 'not decided' how or what."""
    assert sentence("question", question, "looked").split()[0] in ("a", "an", "how", "what")


# ---- what the tests themselves may leave undecided


@pytest.mark.parametrize(
    ("undecided", "asked", "held"), [(2, 2, True), (3, 3, False), (10, 100, True), (11, 100, False)]
)
def test_property_tests_fail_where_more_than_a_small_share_is_undecided(
    undecided: int, asked: int, held: bool
) -> None:
    tally = Tally()
    for i in range(asked):
        with tally.may_be_undecided():
            if i < undecided:
                raise Undecided("of the test")
    with nullcontext() if held else pytest.raises(AssertionError, match=f"{undecided} of {asked} undecided"):
        tally.hold()


def test_only_what_is_undecided_is_passed_over() -> None:
    with pytest.raises(AssertionError), Tally().may_be_undecided():
        raise AssertionError
