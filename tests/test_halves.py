"""Two processes that share the questions of a sheet: the answers of one, whatever becomes of the second."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import z3

from scopecheck.answers import questions
from scopecheck.answers.findings import Finding, Looked
from scopecheck.answers.questions import halves, prepare
from scopecheck.answers.questions.cases import Answer
from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.core.model import Sheet
from scopecheck.foundations import meanwhile as second
from scopecheck.foundations.meanwhile import meanwhile
from scopecheck.foundations.spans import Source, Span
from scopecheck.report.render import render
from scopecheck.solving import clock
from scopecheck.solving.constraints import Budget, Undecided
from tests import sheets

MENDED = (Path(__file__).parent.parent / "specs" / "sheets" / "mended.sheet").read_text("utf-8")
FRAME = """gap  length in mm
rim  length in mm

1. A frame with a gap of between 2 and 4 mm.
   | gap : between 2 and 4 mm

2. The frame of claim 1, wherein the gap is about 3 mm and the rim at least 5 mm.
   | gap : about 3 mm
   | rim : at least 5 mm

inside         gap     rim
  sample       3 mm    6 mm

must stay out  gap     rim
  wide         4.2 mm  6 mm
"""
HERE = os.getpid()
FORKS = second.FORKS
needs_two = pytest.mark.skipif(not FORKS, reason="no second process can be had here")


def nobody(_: int) -> None:
    """Waits in silence."""


# ---- the questions


def drawn(made: Sheet, options: Options) -> tuple[str, int]:
    report, status = checked(made, options, ())
    assert report is not None
    return render(report, options.format, 90, False), status


@pytest.mark.parametrize(
    ("text", "options", "status"),
    [
        (FRAME, Options(format="json"), 1),
        (FRAME, Options(budget=Budget(wall=0)), 3),
        (MENDED, Options(), 0),
    ],
)
def test_two_processes_say_what_one_says(
    text: str, options: Options, status: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(halves, "MOST_ALONE", 0)
    made = sheets.sheet(text)
    in_two = drawn(made, options)
    assert in_two[1] == status
    monkeypatch.setattr(second, "FORKS", False)
    assert drawn(made, options) == in_two
    monkeypatch.setattr(questions, "second_half", lambda tasks: ())
    assert drawn(made, options) == in_two


def test_each_part_is_in_one_half_and_few_questions_are_asked_in_one() -> None:
    tasks = list(questions._tasks(prepare(sheets.sheet(MENDED))))
    apart = halves.second_half(tasks)
    parts = [{t.part for i, t in enumerate(tasks) if (i in apart) == half} for half in (True, False)]
    assert all(parts)
    assert not parts[0] & parts[1]
    assert halves.second_half(tasks[:4]) == ()


def test_one_question_does_not_take_the_time_of_all_others(monkeypatch: pytest.MonkeyPatch) -> None:
    """What its share of the time was too short for is asked once more, when all others had theirs."""
    now = [0]
    monkeypatch.setattr(clock, "_now", lambda: now[0])
    limit = clock.Clock(60 * clock.SECOND)
    asked: list[tuple[str, int]] = []

    def taking(label: str, needed: int) -> halves.Task:
        def ask() -> Iterator[Answer]:
            asked.append((label, limit.left))
            now[0] += min(needed, limit.left)
            if not limit.left:
                raise Undecided("late")
            yield Looked("contested", 1, label)

        span = Span(Source("x", "y"), 0, 1)
        return halves.Task(label, "contested", 1, label, span, (halves.CLAIM, label), ask)

    tasks = [taking("long", 15_000), taking("endless", 90_000), taking("short", 1_000)]
    found = halves.answered(tasks, range(3), lambda _: None, limit)
    assert asked == [
        ("long", 10_000),
        ("endless", 10_000),
        ("short", 10_000),
        ("long", 19_500),
        ("endless", 24_000),
    ]
    assert [type(answer) for place in sorted(found) for answer in found[place]] == [Looked, Finding, Looked]
    assert limit.left == 0
    assert limit.is_over


def test_what_took_all_of_its_part_is_told_from_what_took_all_time(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [0]
    monkeypatch.setattr(clock, "_now", lambda: now[0])
    session = prepare(sheets.sheet(FRAME), Budget(wall=60)).session
    with session.clock.no_longer_than(10_000):
        now[0] = 10_000
        with pytest.raises(Undecided, match="the question took all of its part of the wall limit"):
            session.go_on()
    session.go_on()
    now[0] = 60_000
    with pytest.raises(Undecided, match="the wall limit ran out"):
        session.go_on()


# ---- the second process


def answer_of(work: Callable[[Callable[[], None]], object], known: tuple[object, ...] = ()) -> object:
    with meanwhile(work, known) as begun:
        return begun.answer(nobody)


@needs_two
def test_the_work_is_done_in_another_process_and_records_come_back(capfd: pytest.CaptureFixture[str]) -> None:
    case = sheets.sheet(MENDED).cases[0]

    def work(_: object) -> object:
        os.write(1, b"not heard")
        return os.getpid(), case, (case.facts, case.facts)

    process, copy, facts = answer_of(work, (case.facts,))
    assert process != HERE
    assert copy == case
    assert copy is not case
    assert facts[0] is facts[1] is copy.facts is case.facts
    assert capfd.readouterr() == ("", "")


@needs_two
@pytest.mark.parametrize("end", [lambda: os.kill(os.getpid(), signal.SIGKILL), lambda: os._exit(0), exit])
def test_what_a_lost_process_had_to_do_is_done_here(end: Callable[[], None]) -> None:
    def work(step: Callable[[], None]) -> int:
        step()
        if os.getpid() != HERE:
            end()
        return os.getpid()

    assert answer_of(work) == HERE


def test_a_fault_is_raised_here() -> None:
    def work(step: Callable[[], None]) -> object:
        raise ValueError(f"in {os.getpid()}")

    with pytest.raises(ValueError, match=f"in {HERE}"):
        answer_of(work)


@needs_two
def test_steps_are_told_while_the_answer_is_waited_for() -> None:
    told: list[int] = []

    def work(step: Callable[[], None]) -> object:
        for _ in range(5):
            step()
        return "x" * 200_000

    with meanwhile(work) as begun:
        assert begun.answer(told.append) == "x" * 200_000
    assert told == sorted(told)
    assert told[-1] == 5


@needs_two
def test_an_interrupt_leaves_no_process() -> None:
    def work(step: Callable[[], None]) -> object:
        while True:
            step()

    process = 0

    def interrupted() -> None:
        nonlocal process
        with meanwhile(work) as begun:
            process = begun._process
            os.kill(process, signal.SIGINT)  # the terminal interrupts both
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    with pytest.raises(ChildProcessError):
        os.waitpid(process, 0)


@needs_two
def test_nothing_is_left_where_no_process_can_be_had(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> int:
        raise BlockingIOError

    monkeypatch.setattr(os, "fork", refuse)
    assert answer_of(lambda _: os.getpid()) == HERE


@needs_two
def test_the_clock_of_the_solver_works_before_and_after() -> None:
    """The library keeps threads for its clock; a copy of the process must neither miss nor wait for one."""

    def timed() -> tuple[str, str]:
        x, y = z3.Ints("x y")
        solver = z3.Solver()
        solver.set("timeout", 20)
        solver.add(x > 1, y > 1, x * y == (2**61 - 1) * (2**31 - 1) * 3 + 2, x < y)
        hard = str(solver.check())
        easy = z3.Solver()
        easy.set("timeout", 1000)
        easy.add(x > 1)
        return hard, str(easy.check())

    before = timed()
    assert before[1] == "sat"
    with meanwhile(lambda _: (os.getpid(), timed()[1])) as begun:
        assert timed()[1] == "sat"
        process, found = begun.answer(nobody)
    assert (process == HERE, found) == (False, "sat")
