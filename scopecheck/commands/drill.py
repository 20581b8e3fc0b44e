"""The command `drill`: exercises one at a time, in a terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from textwrap import wrap

from scopecheck.commands.output import BAD_INPUT, INTERRUPTED, complain, put
from scopecheck.drill.course import slots
from scopecheck.drill.exercise import KINDS, LEVELS, Kind, Unreadable
from scopecheck.drill.explain import explained
from scopecheck.drill.kinds import MANNERS, graded
from scopecheck.drill.making import Made, make
from scopecheck.drill.setting import lines_of
from scopecheck.foundations.diagnostics import did_you_mean
from scopecheck.foundations.record import record
from scopecheck.report.wording import counted, listed, sentence

WIDTH = 90
MOST = 500
"""Exercises of one session."""


@record
class Wanted:
    """What exercises are wanted: '' and 0 for every kind and level."""

    seed: int
    level: int = 0
    kind: str = ""


def kinds_wanted(kind: str) -> tuple[Kind, ...]:
    """The kinds of this name, all for ''. Raises Unreadable with a message for a name that is none."""
    known = [k for k in KINDS if k in MANNERS]
    if not kind:
        return tuple(known)
    name = " ".join(kind.lower().replace("-", " ").split())
    found = tuple(k for k in known if k == name)
    if not found:
        help = did_you_mean(name, known) or sentence("drill", "reply", "choose", known=listed(known, "or"))
        raise Unreadable(sentence("drill", "reply", "no_kind", kind=kind, help=help))
    return found


def drill(wanted: Wanted) -> int:
    """Sets exercises until the learner ends it; returns the exit status."""
    try:
        kinds = kinds_wanted(wanted.kind)
    except Unreadable as error:
        complain(str(error))
        return BAD_INPUT
    levels = (wanted.level,) if wanted.level else LEVELS
    answered = right = 0
    status = 0
    try:
        for number, made in enumerate(_course(kinds, levels, wanted.seed), 1):
            show(made, number, wanted.seed)
            mark = answer(made)
            if mark is None:
                break
            answered += mark not in ("skipped", "undecided")
            right += mark in ("right", "not plain")
    except KeyboardInterrupt:
        status = INTERRUPTED
    put("\n" + sentence("drill", "page", "ended", answered=counted(answered, "answer"), right=right) + "\n")
    return status


def _course(kinds: Sequence[Kind], levels: Sequence[int], seed: int) -> Iterator[Made]:
    for slot in slots(kinds, levels, seed, MOST):
        yield make(slot.kind, slot.level, seed, slot.position)


def show(made: Made, number: int, seed: int) -> None:
    """Sets the exercise."""
    e = made.exercise
    head = sentence(
        "drill", "page", "head",
        number=number, kind=sentence("drill", "kind", e.kind), level=e.level, seed=seed,
    )  # fmt: skip
    lines = ["", head, "-" * len(head)]
    for line in (*lines_of(e, made.bench.sheet), sentence("drill", "page", "again")):
        lines += _wrapped(line)
    put("\n".join(lines) + "\n")


def answer(made: Made) -> str | None:
    """Asks until an answer can be graded: its mark, "skipped", or None where the learner ends."""
    while True:
        put("\n" + sentence("drill", "page", "ask"))
        line = sys.stdin.readline()
        if not line:
            put("\n")
            return None
        word = line.strip().lower()
        if word in ("quit", "exit", "q"):
            return None
        if word == "?":
            _tell([made.exercise.problem.how])
            continue
        if word == "skip":
            _tell([sentence("drill", "page", "skipped"), *explained(made.bench, made.exercise.problem)])
            return "skipped"
        try:
            verdict = graded(made.bench, made.exercise.problem, line)
        except Unreadable as error:
            complain(str(error))
            continue
        _tell([sentence("drill", "mark", verdict.mark), *verdict.lines, ""])
        _tell(explained(made.bench, made.exercise.problem))
        return verdict.mark


def _tell(lines: Sequence[str]) -> None:
    put("\n".join(x for line in lines for x in _wrapped(line)) + "\n")


def _wrapped(line: str) -> list[str]:
    indent = line[: len(line) - len(line.lstrip())]
    text = line.strip().replace("\u00a0", " ")
    return wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent + "   ") or [""]
