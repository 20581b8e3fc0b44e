"""A kind: reword a limitation so that, on every reading of the new words, both cases fall right."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Limitation
from scopecheck.drill import unmeant
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exact import Wrong, differing, proposal, wrong_at
from scopecheck.drill.exercise import Aim, Problem, Verdict
from scopecheck.drill.sayings import told, words_of
from scopecheck.foundations.record import replace
from scopecheck.report.wording import quoted, sentence


def set_reword(bench: Bench, aim: Aim) -> Problem | None:
    """Something meant and something not meant, of which the words as they stand get one wrong at least."""
    said = unmeant.meaning(bench, aim)
    limitation = bench.limitation(aim.label)
    if said is None or bench.group(limitation) is None:
        return None
    meant, meant_said = said
    kept_out = unmeant.set_kept_out(bench, replace(aim, kind="kept out"))
    let_in = unmeant.set_let_in(bench, replace(aim, kind="let in"))
    if kept_out is None or let_in is None or (kept_out.nothing and let_in.nothing):
        return None
    inside = _found(kept_out) or kept_out.start
    outside = _found(let_in) or _plainly_out(bench, aim, meant, kept_out.start)
    if not outside:
        return None
    words = proposal(bench, limitation, aim.reading, meant)
    if not words or wrong_at(bench, limitation, words, [inside], [outside]):
        return None
    names = bench.names(meant, limitation.formula)
    at = words_of(limitation)
    return Problem(
        aim,
        (
            sentence("drill", "told", "meant", limitation=at, meant=meant_said),
            sentence("drill", "told", "inside", facts=told(facts_text(bench.sheet, inside, names))),
            sentence("drill", "told", "outside", facts=told(facts_text(bench.sheet, outside, names))),
        ),
        sentence("drill", "reword", "asked", limitation=at),
        sentence("drill", "how", "words", words=quoted(limitation.words)),
        words,
        sample=tuple(inside.items()),
        case=tuple(outside.items()),
        standing=max(kept_out.standing, let_in.standing),
    )


def _found(problem: Problem) -> Article | None:
    return problem.finding.witness.article if problem.finding and problem.finding.witness else None


def _plainly_out(bench: Bench, aim: Aim, meant: Formula, sample: Article) -> Article | None:
    """Something not meant, far from the border if that can be."""
    search = bench.session.search(())
    search.require(bench.session.denied(meant))
    grades = bench.prepared.grades_for(meant, wanted=False)
    found = bench.found(aim.claim, search, (meant,), ((meant, "false"),), sample, grades)
    return found.witness.article if found and found.witness else None


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Right where no reading of the words gets a case wrong, whatever they stretch to.

    Words that part the two cases and let in or lose something else are right but not plain.
    """
    limitation = bench.limitation(problem.aim.label)
    inside, outside = problem.start, problem.thing
    wrong = wrong_at(bench, limitation, text, [inside], [outside])
    if wrong:
        return Verdict("wrong", tuple(_said(bench, limitation, x) for x in wrong))
    said = unmeant.meaning(bench, problem.aim)
    assert said is not None
    apart = differing(bench, limitation, text, said[0])
    parted = sentence("drill", "grade", "parted")
    if not apart:
        return Verdict("right", (parted, sentence("drill", "grade", "just_meant")))
    lines = [_said(bench, limitation, x, BEYOND) for x in apart]
    better = sentence("drill", "grade", "better_words", words=problem.solution)
    return Verdict("not plain", (parted, *lines, better))


CASE = {True: "case_in", False: "case_out"}
BEYOND = {True: "beyond_in", False: "beyond_out"}


def _said(
    bench: Bench, limitation: Limitation, wrong: Wrong, keys: Mapping[bool, str] = MappingProxyType(CASE)
) -> str:
    """What the words do to a thing, on which of their readings."""
    names = bench.session.names_in(limitation.formula)
    facts = told(facts_text(bench.sheet, wrong.article, names))
    readings = wrong.reading or sentence("drill", "grade", "as_written")
    return sentence("drill", "grade", keys[wrong.let_in], facts=facts, reading=readings)
