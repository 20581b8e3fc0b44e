"""The command `drill`: exercises one at a time in a terminal, and what a learner's record says."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from textwrap import wrap

from scopecheck.commands.check import draw_all, read_or_complain
from scopecheck.commands.output import BAD_INPUT, INTERRUPTED, complain, put
from scopecheck.commands.phrase_cards import GROUPS
from scopecheck.core.model import Sheet
from scopecheck.drill.course import slots
from scopecheck.drill.exercise import KINDS, LEVELS, Kind, Unreadable, Verdict
from scopecheck.drill.explain import explained
from scopecheck.drill.from_sheet import made_from
from scopecheck.drill.kinds import graded
from scopecheck.drill.making import Made, make
from scopecheck.drill.record import Progress, append, begin, progress, read_record, result, weakest
from scopecheck.drill.setting import lines_of
from scopecheck.foundations.diagnostics import did_you_mean
from scopecheck.foundations.record import record
from scopecheck.language.statements import read_file
from scopecheck.report.wording import counted, flat, listed, sentence

WIDTH = 90
MOST = 500
"""Exercises of one session."""
QUIT = ("quit", "exit", "q")


@record
class Wanted:
    """What exercises are wanted: '' and 0 for every kind and level, '' for no sheet, record or learner."""

    seed: int
    level: int = 0
    kind: str = ""
    sheet: str = ""
    record: str = ""
    learner: str = ""

    @property
    def levels(self) -> tuple[int, ...]:
        return (self.level,) if self.level else LEVELS

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """The kinds of this name, all for ''. Raises Unreadable with a message for a name that is none."""
        if not self.kind:
            return KINDS
        name = " ".join(self.kind.lower().replace("-", " ").replace("_", " ").split())
        found = tuple(k for k in KINDS if k == name)
        if not found:
            help = did_you_mean(name, KINDS) or sentence(
                "drill", "reply", "choose", known=listed(KINDS, "or")
            )
            raise Unreadable(sentence("drill", "reply", "no_kind", kind=self.kind, help=help))
        return found


def drill(wanted: Wanted) -> int:
    """Sets exercises until the learner ends it; returns the exit status.

    A result is on the disk before anything else is said, so that none is lost however the session ends.
    """
    try:
        kinds = wanted.kinds
        if wanted.record:
            read_record(wanted.record)
    except Unreadable as error:
        complain(str(error))
        return BAD_INPUT
    sheet, text = read_own(wanted.sheet) if wanted.sheet else (None, "")
    if wanted.sheet and sheet is None:
        return BAD_INPUT
    if wanted.record:
        begin(wanted.record)
    told = _Told()
    if sheet is not None and sheet.confidential:
        tell([flat(sheet.confidential)])
    try:
        for number, made in enumerate(course(wanted, kinds, MOST, sheet, text), 1):
            show(made, number, wanted.seed)
            if not _answered(made, number, wanted, told):
                break
        else:
            put("\n" + sentence("drill", "paper", "exhausted") + "\n")
    except KeyboardInterrupt:
        told.status = INTERRUPTED
    answers = counted(told.answered, "answer")
    tell(["", sentence("drill", "page", "ended", answered=answers, right=told.right)])
    if wanted.record:
        show_progress(wanted.record)
    return told.status


class _Told:
    """What a session came to."""

    def __init__(self) -> None:
        self.answered = self.right = self.status = 0


def read_own(path: str) -> tuple[Sheet | None, str]:
    """The sheet of a file and its text; None once its mistakes were drawn."""
    source, diagnostics = read_file(path)
    draw_all(diagnostics)
    if source is None:
        return None, ""
    sheet, _ = read_or_complain(source)
    return sheet, source.text


def course(
    wanted: Wanted, kinds: Sequence[Kind], count: int, sheet: Sheet | None, text: str
) -> Iterator[Made]:
    """The exercises of a seed, from a sheet if there is one."""
    if sheet is not None:
        yield from made_from(sheet, text, kinds, wanted.levels, wanted.seed)
        return
    for slot in slots(kinds, wanted.levels, wanted.seed, count):
        yield make(slot.kind, slot.level, wanted.seed, slot.position)


def show(made: Made, number: int, seed: int) -> None:
    """Sets the exercise."""
    e = made.exercise
    head = sentence(
        "drill", "page", "head",
        number=number, kind=sentence("drill", "kind", e.kind), level=e.level, seed=seed,
    )  # fmt: skip
    lines = ["", head, "-" * len(head)]
    for line in (*lines_of(e, made.bench), sentence("drill", "page", "again")):
        lines += wrapped(line)
    put("\n".join(lines) + "\n")


def _answered(made: Made, number: int, wanted: Wanted, told: _Told) -> bool:
    """Asks until an answer can be graded or the exercise is passed over; False where the learner ends."""
    problem = made.exercise.problem
    while True:
        if not put("\n" + sentence("drill", "page", "ask")):
            return False
        line = sys.stdin.readline()
        word = line.strip().lower()
        if not line or word in QUIT:
            put("" if line else "\n")
            return False
        if word == "?":
            tell([problem.how])
            continue
        if word == "skip":
            tell([sentence("drill", "page", "skipped"), *explained(made.bench, problem)])
            return True
        try:
            verdict = graded(made.bench, problem, line)
        except Unreadable as error:
            complain(str(error))
            continue
        _keep(made, number, wanted, line, verdict, told)
        tell([sentence("drill", "mark", verdict.mark), *verdict.lines, ""])
        tell(explained(made.bench, problem))
        return True


def _keep(made: Made, number: int, wanted: Wanted, line: str, verdict: Verdict, told: _Told) -> None:
    if wanted.record:
        found = result(made, line, verdict, wanted.learner, wanted.seed, number)
        append(wanted.record, found)
    told.answered += verdict.mark != "undecided"
    told.right += verdict.mark in ("right", "not plain")


def show_progress(path: str) -> None:
    """Progress by group of phrases and by kind, and what to practise next."""
    results = read_record(path)
    groups, kinds = progress(results, "groups"), progress(results, "kind")
    lines = [sentence("drill", "record", "heading"), *map(_progress_line, groups)] if groups else []
    lines += [sentence("drill", "record", "by_kind"), *map(_progress_line, kinds)] if kinds else []
    group, kind = weakest(groups), weakest(kinds)
    if group and kind:
        names = {"group": _group(group.name), "kind": kind.name}
        lines.append(sentence("drill", "record", "next", **names))
    elif kind:
        lines.append(sentence("drill", "record", "next_group", group=kind.name))
    if lines:
        tell(["", *lines])


def _progress_line(p: Progress) -> str:
    return sentence("drill", "record", "line", name=_group(p.name), answered=p.answered, right=p.right)


def _group(name: str) -> str:
    return f"{name}, {GROUPS[name]}" if name in GROUPS else name


def tell(lines: Sequence[str]) -> None:
    """Lines as wide as a page."""
    put("\n".join(x for line in lines for x in wrapped(line)) + "\n")


def wrapped(line: str) -> list[str]:
    indent = line[: len(line) - len(line.lstrip())]
    text = line.strip().replace("\u00a0", " ")
    return wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent + "   ") or [""]
