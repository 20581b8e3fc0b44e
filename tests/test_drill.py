"""Exercises: what is set is solved, answers are graded by the exact meaning, the same seed gives the same."""

from __future__ import annotations

import pytest

from scopecheck.drill.course import slots
from scopecheck.drill.exercise import LEVELS, Kind
from scopecheck.drill.kinds import MANNERS, graded
from scopecheck.drill.making import make
from scopecheck.drill.setting import lines_of

EVERY = [(kind, level) for kind in MANNERS for level in LEVELS]


@pytest.mark.parametrize(("kind", "level"), EVERY)
def test_the_answer_of_an_exercise_is_right(kind: Kind, level: int) -> None:
    for position in (0, 1):
        made = make(kind, level, 5, position)
        verdict = graded(made.bench, made.exercise.problem, made.exercise.problem.solution)
        assert verdict.mark == "right", (made.exercise.text, made.exercise.problem.solution, verdict)


def test_the_same_seed_gives_the_same_exercise() -> None:
    for slot in slots(tuple(MANNERS), (1,), 9, 4):
        one, other = (make(slot.kind, slot.level, 9, slot.position) for _ in range(2))
        assert one.exercise == other.exercise
        assert lines_of(one.exercise, one.bench.sheet) == lines_of(other.exercise, other.bench.sheet)
