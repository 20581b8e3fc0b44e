"""How time grows with the number of phrases: by their number, not by the product of their readings."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.cases import reading_for_all
from scopecheck.answers.questions.claims import adds_nothing, nothing_meets
from scopecheck.answers.questions.inside import inside_lost
from scopecheck.answers.questions.outside import outside_met
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.questions.readings import contested
from scopecheck.answers.questions.undefined import undefined
from scopecheck.core.model import Sheet
from tests.benchmarks.figures import Figure
from tests.benchmarks.problems import of_phrases, realistic

ROUNDS = 5
QUESTIONS: dict[str, Callable[[Prepared], object]] = {
    "outside met": lambda p: [list(outside_met(p, c)) for c in p.sheet.cases if c.role == "outside"],
    "inside lost": lambda p: [list(inside_lost(p, c)) for c in p.sheet.cases if c.role == "inside"],
    "one reading for all": lambda p: list(reading_for_all(p)),
    "nothing meets": lambda p: [list(nothing_meets(p, i)) for i in p.all_instances()],
    "adds nothing": lambda p: [list(adds_nothing(p, i)) for i in p.all_instances()],
    "undefined": lambda p: [list(undefined(p, i)) for i in p.all_instances()],
    "contested": lambda p: [list(contested(p, i)) for i in p.all_instances()],
}


def seconds(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The least of some runs."""
    taken = []
    for _ in range(rounds):
        started = time.perf_counter()
        work()
        taken.append(time.perf_counter() - started)
    return min(taken)


def asked(sheet: Sheet, question: str) -> float:
    """Seconds for one question, the sheet being prepared anew each time."""
    return seconds(lambda: QUESTIONS[question](prepare(sheet)))


def measure_growth() -> Iterator[Figure]:
    few, many = of_phrases(10), of_phrases(40)
    for question in QUESTIONS:
        took = (1000 * asked(many, question), 1000 * asked(few, question))
        yield Figure(f"'{question}', 40 phrases against 10", *took, "ms", 6)
    took = tuple(1000 * seconds(lambda s=sheet: ask_all(s)) for sheet in (many, few))
    yield Figure("a whole check, 40 phrases against 10", took[0], took[1], "ms", 20)
    answers = ask_all(of_phrases(100))
    undecided = sum(f.outcome == "undecided" for f in answers.findings)
    yield Figure(
        "100 phrases in one sheet: undecided answers, of all", undecided, len(answers.findings), "", 0
    )
    whole = 1000 * seconds(lambda: ask_all(realistic()))
    yield Figure("6 claims, 20 limitations, 8 cases, against 150 ms", whole, 150, "ms", 1)
