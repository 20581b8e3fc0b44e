"""The kinds of exercise: for each how it is set, how an answer is graded."""

from __future__ import annotations

from collections.abc import Callable

from scopecheck.drill import falls_out, how_far, keeps_out, narrows, reword, two_phrases, unmeant
from scopecheck.drill.bench import Bench
from scopecheck.drill.exercise import Aim, Kind, Problem, Verdict
from scopecheck.drill.replies import one_line
from scopecheck.foundations.record import record
from scopecheck.report.wording import sentence
from scopecheck.solving.constraints import Undecided

Set = Callable[[Bench, Aim], Problem | None]
Grade = Callable[[Bench, Problem, str], Verdict]


@record
class Manner:
    """`set` solves a problem before it is asked (None: nothing to be asked); `grade` judges an answer."""

    set: Set
    grade: Grade


MANNERS: dict[Kind, Manner] = {
    "let in": Manner(unmeant.set_let_in, unmeant.grade),
    "kept out": Manner(unmeant.set_kept_out, unmeant.grade),
    "falls out": Manner(falls_out.set_falls_out, falls_out.grade),
    "narrows": Manner(narrows.set_narrows, narrows.grade),
    "keeps out": Manner(keeps_out.set_keeps_out, keeps_out.grade),
    "reword": Manner(reword.set_reword, reword.grade),
    "two phrases": Manner(two_phrases.set_two_phrases, two_phrases.grade),
    "how far": Manner(how_far.set_how_far, how_far.grade),
}


def set_problem(bench: Bench, aim: Aim) -> Problem | None:
    """The problem, solved; None where it has no solution or none that could be decided."""
    try:
        return MANNERS[aim.kind].set(bench, aim)
    except Undecided:
        return None


def graded(bench: Bench, problem: Problem, text: str) -> Verdict:
    """What is said of an answer. Raises Unreadable where it cannot be read."""
    line = one_line(text)
    try:
        return MANNERS[problem.aim.kind].grade(bench, problem, line)
    except Undecided as why:
        return Verdict("undecided", (sentence("drill", "grade", "undecided", why=why),))
