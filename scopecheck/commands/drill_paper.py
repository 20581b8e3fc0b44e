"""The command `drill` for a class: a paper with its key, and answers graded from a file."""

from __future__ import annotations

import os
from collections.abc import Sequence
from itertools import islice

from scopecheck.commands.drill import Wanted, course, read_own, show_progress, tell
from scopecheck.commands.output import BAD_INPUT, already_there, complain, put
from scopecheck.drill.course import room_for
from scopecheck.drill.exercise import Kind, Unreadable, Verdict
from scopecheck.drill.kinds import graded
from scopecheck.drill.making import Made
from scopecheck.drill.paper import Sort, answers_in, as_html, as_markdown, key, paper
from scopecheck.drill.record import append, begin, read_record, result
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.record import replace
from scopecheck.language.statements import read_file
from scopecheck.report.wording import listed, sentence


def write_paper(wanted: Wanted, count: int, output: str) -> int:
    """Writes NAME.md, NAME.html, NAME-key.md and NAME-key.html, of which none may exist; the exit status."""
    if not output:
        complain(sentence("drill", "paper", "no_output"))
        return BAD_INPUT
    stem = output.removesuffix(".md").removesuffix(".html")
    if not os.path.basename(stem) or os.path.isdir(output):
        complain(sentence("drill", "paper", "folder", path=output))
        return BAD_INPUT
    paths = [f"{stem}{part}" for part in (".md", ".html", "-key.md", "-key.html")]
    for path in paths:
        if os.path.lexists(path):
            complain(already_there(path))
            return BAD_INPUT
    try:
        sort = Sort(wanted.seed, count, wanted.level, wanted.kinds[0] if wanted.kind else "")
        exercises = _exercises(wanted, count)
    except Unreadable as error:
        complain(str(error))
        return BAD_INPUT
    if exercises is None:
        return BAD_INPUT
    made = [paper(sort, exercises), key(sort, exercises)]
    texts = [draw(parts) for parts in made for draw in (as_markdown, as_html)]
    for path, text in zip(paths, texts, strict=True):
        put(text, path)
    tell([sentence("drill", "paper", "wrote", paths=listed(paths))])
    return 0


def _exercises(wanted: Wanted, count: int) -> list[Made] | None:
    """The exercises of a paper; None once the mistakes of the sheet were drawn. Raises Unreadable."""
    kinds = wanted.kinds
    sheet, text = read_own(wanted.sheet) if wanted.sheet else (None, "")
    if wanted.sheet and sheet is None:
        return None
    if sheet is None:
        _has_room(wanted, kinds, count)
    found = list(islice(course(wanted, kinds, count, sheet, text), count))
    if len(found) < count:
        raise Unreadable(sentence("drill", "paper", "few", count=len(found)))
    return found


def _has_room(wanted: Wanted, kinds: Sequence[Kind], count: int) -> None:
    most = room_for(kinds, wanted.levels)
    if count > most:
        raise Unreadable(sentence("drill", "paper", "too_many", most=most))


def grade_file(wanted: Wanted, path: str) -> int:
    """Grades a file of answers and keeps the results, if a record is named; returns the exit status."""
    source, diagnostics = read_file(path, "file of answers")
    for diagnostic in diagnostics:
        complain(draw(diagnostic))
    if source is None:
        return BAD_INPUT
    try:
        sort, answers = answers_in(source.text)
        wanted = replace(wanted, seed=sort.seed, level=sort.level, kind=sort.kind)
        if wanted.record:
            read_record(wanted.record)
        exercises = _exercises(wanted, sort.count)
    except Unreadable as error:
        complain(str(error))
        return BAD_INPUT
    if exercises is None:
        return BAD_INPUT
    if wanted.record:
        begin(wanted.record)
    right = 0
    for number, made in enumerate(exercises, 1):
        verdict = _graded(made, number, answers.get(number, ""))
        if verdict is None:
            continue
        right += verdict.mark in ("right", "not plain")
        if wanted.record:
            answer = answers[number]
            found = result(made, answer, verdict, wanted.learner, sort.seed, number)
            append(wanted.record, found)
    tell(["", sentence("drill", "paper", "total", right=right, count=sort.count)])
    if wanted.record:
        show_progress(wanted.record)
    return 0


def _graded(made: Made, number: int, answer: str) -> Verdict | None:
    """The verdict, told; None where nothing was answered."""
    if not answer:
        tell([sentence("drill", "paper", "missing", number=number)])
        return None
    try:
        verdict = graded(made.bench, made.exercise.problem, answer)
    except Unreadable as error:
        tell([sentence("drill", "paper", "unread", number=number), *str(error).split("\n")[:1]])
        return Verdict("wrong", ())
    mark = sentence("drill", "mark", verdict.mark)
    tell([sentence("drill", "paper", "graded", number=number, mark=mark, why=" ".join(verdict.lines))])
    return verdict
