"""A kind: which lines of the claim keep this thing out, whatever reading is taken?"""

from __future__ import annotations

from scopecheck.core.formula import Article
from scopecheck.core.model import Limitation
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exercise import Aim, Problem, Verdict
from scopecheck.drill.replies import is_none, picks
from scopecheck.drill.sayings import read_said, told, why_missed, words_of
from scopecheck.report.wording import listed, sentence
from scopecheck.solving.constraints import Constraint


def set_keeps_out(bench: Bench, aim: Aim) -> Problem | None:
    """A thing that lies to each line as wanted: "out" on every reading, "in" on every one, or "open".

    Where the aim names a case of the sheet, it is that one.
    """
    limitations = bench.limitations(aim.claim)
    formulas = [x.formula for x in limitations]
    sample = bench.sample(limitations)
    if sample is None:
        return None
    article = _listed(bench, aim) if aim.name else _lying(bench, aim, limitations, sample)
    if article is None:
        return None
    out = tuple(x.label for x in limitations if not bench.met_somehow(x, article))
    facts = told(facts_text(bench.sheet, article, bench.names(*formulas)))
    return Problem(
        aim,
        (sentence("drill", "told", "document", facts=facts),),
        sentence("drill", "keeps_out", "asked", claim=aim.claim),
        sentence("drill", "how", "labels"),
        ", ".join(out) or "none",
        not out,
        tuple(sample.items()),
        tuple(article.items()),
        tuple(x.label for x in limitations),
    )


def _listed(bench: Bench, aim: Aim) -> Article | None:
    """The one thing that a case comes to for the claim, if it is one."""
    case = next(c for c in bench.sheet.cases if c.name == aim.name)
    return bench.prepared.point(case, bench.prepared.scope(aim.claim))


def _lying(bench: Bench, aim: Aim, limitations: tuple[Limitation, ...], sample: Article) -> Article | None:
    if len(aim.wanted) != len(limitations):
        return None
    search = bench.session.search(())
    search.require(*(_lies(bench, x, how) for x, how in zip(limitations, aim.wanted, strict=True)))
    found = bench.found(aim.claim, search, [x.formula for x in limitations], (), sample)
    return found.witness.article if found and found.witness else None


def _lies(bench: Bench, limitation: Limitation, how: str) -> Constraint:
    met = bench.session.surely(limitation.formula, True)
    missed = bench.session.surely(limitation.formula, False)
    return missed if how == "out" else met if how == "in" else ~met & ~missed


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Right where exactly the lines are named that keep the thing out on every reading."""
    limitations = bench.limitations(problem.aim.claim)
    labels = tuple(x.label for x in limitations)
    given = () if is_none(text) else picks(text, labels)
    article = problem.thing
    right = tuple(x.label for x in limitations if not bench.met_somehow(x, article))
    if given == right:
        key = "labels_right" if right else "labels_none"
        return Verdict("right", (sentence("drill", "grade", key, labels=listed(right)),))
    lines: list[str] = []
    for x in limitations:
        if x.label in given and x.label not in right:
            lines += _lets_in(bench, problem, x)
        if x.label in right and x.label not in given:
            lines += why_missed(bench, x, article)
    return Verdict("wrong", tuple(lines))


def _lets_in(bench: Bench, problem: Problem, limitation: Limitation) -> list[str]:
    """On which reading a line lets the thing in after all."""
    at = words_of(limitation)
    if bench.met_always(limitation, problem.thing):
        return [sentence("drill", "why", "always_met", limitation=at)]
    k = bench.best_reading((limitation,), problem.thing, True)
    assert k is not None
    return [sentence("drill", "why", "lets_in", limitation=at), *read_said(bench, limitation, k)]
