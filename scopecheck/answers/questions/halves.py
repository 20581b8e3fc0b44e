"""The questions dealt out in two halves, which two processes ask: by what is asked alone, never by the clock.

Answers to hard questions can depend on what the solver was asked before. Each half therefore has a session of
its own, begun with nothing but the sheet, and which question is in which half is told by an estimate of what
questions take. Where there is one process only, it asks one half after the other, in two sessions as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.cases import Answer
from scopecheck.core.model import Sheet
from scopecheck.foundations.meanwhile import Meanwhile
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Span
from scopecheck.solving.clock import Clock
from scopecheck.solving.constraints import Undecided

MOST_ALONE = 300
"""Questions that weigh no more are asked in one: a second process would take longer than it saves."""
SHARE = Fraction(1, 6)
"""One question may take so much of all the time there is before all others were asked."""
BESIDES = 90
"""What the first process does besides: it looks whether the sheet contradicts itself, and loads reports."""
WEIGHTS: Mapping[str, int] = {
    "document met": 37,
    "inside lost": 23,
    "same scope": 20,
    "class": 17,
    "end not reached": 15,
    "idle": 13,
    "outside met": 13,
    "kept out": 11,
    "nothing meets": 10,
    "no reading fits all cases": 8,
    "unmeant met": 8,
    "contested": 7,
    "adds nothing": 6,
    "undefined": 3,
    "moves with something else": 2,
    "pair": 2,
}
"""What a question takes, in thousandths of a check, on average of the worked sheets; others take nothing."""
LAST_ASKED = (
    "undefined",
    "without measure",
    "beside the description",
    "choices left",
    "no case inside",
    "contested",
    "pair",
)
"""What is asked when all else was: the first page has no items of these, and what it has items of is to be
decided on a machine with little time too. In every format alike."""
CLAIM, LINES, CASE = range(3)
"""What a question is asked of: a claim by way of one parent, the lines of a claim, or a case."""


@record
class Task:
    """One question of one place of the sheet. Questions of one `part` have much in common."""

    doing: str
    question: str
    claim: int
    label: str
    span: Span
    part: tuple[int, str]
    ask: Callable[[], Iterable[Answer]]


def second_half(tasks: Sequence[Task]) -> tuple[int, ...]:
    """The places of the tasks that the second process has, ascending; none where there is little to ask.

    The first has the first parts, claims before lines and these before cases, as far as half of the weight.
    """
    weights: dict[tuple[int, str], int] = {}
    seen = set()
    for task in tasks:
        # By way of a further parent most is answered by what is known: half the weight.
        asked = (task.question, task.part)
        times = 1 if asked in seen and task.part[0] == CLAIM else 2
        weights[task.part] = weights.get(task.part, 0) + times * WEIGHTS.get(task.question, 0)
        seen.add(asked)
    whole = sum(weights.values()) + 2 * BESIDES
    if whole <= 2 * MOST_ALONE:
        return ()
    first, taken = set(), 2 * BESIDES
    for part in sorted(weights, key=lambda p: p[0]):
        if 2 * taken + weights[part] > whole:
            break
        first.add(part)
        taken += weights[part]
    return tuple(i for i, task in enumerate(tasks) if task.part not in first)


Answered = dict[int, tuple[Answer, ...]]
"""Answers by the places of their tasks."""


@record
class SecondHalf:
    """The places of the second half of the tasks, and the work of asking them."""

    places: tuple[int, ...]
    asked: Meanwhile[Answered]


def in_turn(tasks: Sequence[Task], places: Iterable[int]) -> list[int]:
    """The places in the order in which they are asked: what the first page is made of before the rest."""
    return sorted(places, key=lambda place: (tasks[place].question in LAST_ASKED, place))


def answered(
    tasks: Sequence[Task], places: Iterable[int], begin: Callable[[Task], None], clock: Clock
) -> Answered:
    """The answers to the tasks at these places; `begin` is told each task when it begins.

    None takes more than its share of the time until all had theirs; those that it was too short for are asked
    once more, with what is left dealt out among them.
    """
    found, late = {}, []
    for place in in_turn(tasks, places):
        begin(tasks[place])
        with clock.no_longer_than(clock.share(SHARE)):
            found[place] = tuple(_answers(tasks[place]))
            if not clock.left:
                late.append(place)
    for waiting, place in zip(range(len(late), 0, -1), late, strict=True):
        with clock.no_longer_than(clock.left // waiting):
            found[place] = tuple(_answers(tasks[place]))
    return found


def _answers(task: Task) -> Iterator[Answer]:
    try:
        yield from task.ask()
    except Undecided as reason:
        yield undecided(task.question, task.claim, task.label, task.span, reason)


def undecided(question: str, claim: int, label: str, span: Span, reason: Undecided) -> Finding:
    """The finding that a question was left without an answer."""
    return Finding(question, 6, claim, label, "", span, "undecided", "none", reason=str(reason))


def known(sheet: Sheet) -> tuple[object, ...]:
    """What both processes have of the sheet and answers often speak of."""
    lines = [x for claim in sheet.claims for x in claim.limitations]
    facts = [case.facts for case in (*sheet.cases, *sheet.described)]
    sources = {id(claim.span.source): claim.span.source for claim in sheet.claims}
    meant = [x.meant for x in lines if x.meant is not None]
    return (*sources.values(), *(x.formula for x in lines), *meant, *facts)
