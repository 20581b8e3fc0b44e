"""Two kinds: bring something the words let in that was not meant; something meant that they keep out."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.answers.findings import Finding
from scopecheck.answers.witness import Expected
from scopecheck.core.construction import weakest_standing
from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Limitation
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exercise import Aim, Problem, Verdict
from scopecheck.drill.replies import is_none, thing
from scopecheck.drill.sayings import read_said, reading_said, thing_said, told, why_missed, words_of
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.wording import flat, sentence
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Search


def set_let_in(bench: Bench, aim: Aim) -> Problem | None:
    """Something the whole claim lets in on some reading and that was not meant by one limitation."""
    return _set(bench, aim, bench.limitations(aim.claim), "let_in")


def set_kept_out(bench: Bench, aim: Aim) -> Problem | None:
    """Something meant by a limitation that its words keep out on some reading."""
    return _set(bench, aim, (bench.limitation(aim.label),), "kept_out")


def _set(bench: Bench, aim: Aim, limitations: tuple[Limitation, ...], key: str) -> Problem | None:
    limitation = bench.limitation(aim.label)
    said = meaning(bench, aim)
    if said is None:
        return None
    meant, meant_said = said
    sample = bench.sample(bench.limitations(aim.claim), meant)
    if sample is None:
        return None
    found = _solve(bench, aim, limitations, meant, sample)
    names = [d.name for d in bench.sheet.declarations if d.name in bench.session.names_in(
        meant, *(x.formula for x in bench.limitations(aim.claim)))]  # fmt: skip
    at = words_of(limitation)
    told_lines = (
        sentence("drill", "told", "meant", limitation=at, meant=meant_said),
        sentence("drill", "told", "sample", facts=told(facts_text(bench.sheet, sample, names))),
    )
    solution = thing_said(bench, found.witness.article, sample) if found and found.witness else "none"
    k = found.construction if found else None
    return Problem(
        aim, told_lines,
        sentence("drill", key, "asked", limitation=at, claim=aim.claim),
        sentence("drill", "how", "thing", example=told(facts_text(bench.sheet, sample, names[:2]))),
        solution, found is None, tuple(sample.items()),
        standing=weakest_standing(bench.sheet, k, limitation.groups) if k else 0,
        finding=found,
    )  # fmt: skip


def meaning(bench: Bench, aim: Aim) -> tuple[Formula, str] | None:
    """What was meant by the limitation, and in words: one of its readings, or what its sheet says."""
    limitation = bench.limitation(aim.label)
    if not aim.reading:
        return (limitation.meant, plain_formula(flat(limitation.meant_text))) if limitation.meant else None
    reading = bench.labelled(limitation, aim.reading)
    if reading is None:
        return None
    return bench.taken(limitation, reading), reading_said(bench, limitation, reading)


def _search(bench: Bench, aim: Aim, limitations: Sequence[Limitation], meant: Formula) -> Search:
    """For things that the exercise asks for."""
    session = bench.session
    search = session.search(session.groups_in(*(x.formula for x in limitations)))
    met = [session.met(x.formula) for x in limitations]
    if aim.kind == "let in":
        search.require(*met, session.denied(meant))
    else:
        search.require(~met[0], session.met(meant))
    return search


def _solve(
    bench: Bench, aim: Aim, limitations: Sequence[Limitation], meant: Formula, sample: Article
) -> Finding | None:
    let_in = aim.kind == "let in"
    expected: list[tuple[Formula, Expected]] = [(meant, "false" if let_in else "met")]
    expected += [(x.formula, "met" if let_in else "not met") for x in limitations]
    formulas = [meant, *(x.formula for x in limitations)]
    grades = bench.prepared.grades_for(meant, wanted=not let_in)
    search = _search(bench, aim, limitations, meant)
    return bench.found(aim.claim, search, formulas, expected, sample, grades)


def asked_of(bench: Bench, aim: Aim) -> tuple[Limitation, ...]:
    """The limitations that decide: all of the claim, or the one that loses what was meant."""
    return bench.limitations(aim.claim) if aim.kind == "let in" else (bench.limitation(aim.label),)


# ---- grading


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Raises Unreadable, and Undecided where the answer cannot be judged."""
    aim = problem.aim
    limitations = asked_of(bench, aim)
    said = meaning(bench, aim)
    assert said is not None
    meant, meant_said = said
    let_in = aim.kind == "let in"
    if is_none(text):
        if problem.nothing:
            return Verdict("right", (sentence("drill", "grade", "none_right"),))
        return Verdict("wrong", (sentence("drill", "grade", "none_wrong", solution=problem.solution),))
    article = thing(bench, text, problem.start)
    if why := bench.impossible(article):
        return Verdict("wrong", (sentence("drill", "grade", "impossible", why=why),))
    value = evaluate(meant, article, bench.base)
    if value is not (not let_in):
        key = "was_meant" if let_in else "not_meant"
        return Verdict("wrong", (sentence("drill", "grade", key, meant=meant_said),))
    k = bench.best_reading(limitations, article, let_in)
    if k is None:
        return Verdict("wrong", tuple(_why_not(bench, limitations, article, let_in)))
    lines = read_said(bench, bench.limitation(aim.label), k)
    if bench.is_plain(meant, article, not let_in) or not _has_plain(problem):
        return Verdict("right", tuple(lines))
    better = sentence("drill", "grade", "better", solution=problem.solution)
    return Verdict("not plain", (*lines, sentence("drill", "grade", "edge"), better))


def _why_not(bench: Bench, limitations: Sequence[Limitation], article: Article, let_in: bool) -> list[str]:
    if not let_in:
        return [sentence("drill", "why", "always_met", limitation=words_of(limitations[0]))]
    failing = [x for x in limitations if not bench.met_somehow(x, article)]
    if not failing:
        return [sentence("drill", "why", "not_together")]
    return [line for x in failing for line in why_missed(bench, x, article)]


def _has_plain(problem: Problem) -> bool:
    """Is there a thing far from the border of what was meant?"""
    return problem.finding is not None and problem.finding.thing.grade == "plain"
