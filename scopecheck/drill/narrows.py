"""A kind: does this dependent claim narrow what it depends on? Show it, or say that it does not."""

from __future__ import annotations

from scopecheck.answers.minimise import Grade
from scopecheck.answers.witness import Expected
from scopecheck.core.formula import All, Article, Formula
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exercise import Aim, Problem, Verdict
from scopecheck.drill.replies import is_none, thing
from scopecheck.drill.sayings import read_said, thing_said, told, why_missed, words_of
from scopecheck.report.wording import sentence
from scopecheck.solving.constraints import Constraint


def set_narrows(bench: Bench, aim: Aim) -> Problem | None:
    """A dependent claim that something can meet; the answer is a thing it gives up, or none."""
    instance = bench.prepared.instances[aim.claim][0]
    if not bench.prepared.can_be_met(instance.scope):
        return None
    sample = bench.sample(instance.inherited)
    if sample is None:
        return None
    parent, own = instance.parent_scope, instance.own_scope
    search = bench.session.search(bench.session.groups_in(parent, own))
    search.require(bench.session.met(parent), ~bench.session.met(own))
    plain: list[tuple[Grade, Constraint | None]] = [
        ("plain", bench.session.met(bench.plainly(usual(bench, aim), wanted=False))),
        ("edge", None),
    ]
    expected: tuple[tuple[Formula, Expected], ...] = ((parent, "met"), (own, "not met"))
    found = bench.found(aim.claim, search, (parent, own), expected, sample, plain)
    names = bench.names(parent, own)
    solution = thing_said(bench, found.witness.article, sample, names) if found and found.witness else "no"
    return Problem(
        aim,
        (sentence("drill", "told", "sample", facts=told(facts_text(bench.sheet, sample, names))),),
        sentence("drill", "narrows", "asked", claim=aim.claim, parent=instance.claim.parents[0]),
        sentence("drill", "how", "yes", example=told(facts_text(bench.sheet, sample, names[:2]))),
        solution if found is None else f"yes, {solution}",
        found is None,
        tuple(sample.items()),
        labels=tuple(x.label for x in (*instance.inherited[:1], *instance.own)),
        finding=found,
    )


def usual(bench: Bench, aim: Aim) -> Formula:
    """What the dependent claim says for itself, read as usual."""
    own = bench.prepared.instances[aim.claim][0].own
    groups = [bench.group(x) for x in own]
    return All(
        tuple(
            x.formula if g is None else bench.taken(x, bench.base.readings[g])
            for x, g in zip(own, groups, strict=True)
        )
    )


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Right is a thing that on one way to read the parent lets in and the claim does not; or a true no."""
    aim = problem.aim
    instance = bench.prepared.instances[aim.claim][0]
    if is_none(text):
        if problem.nothing:
            return Verdict("right", (sentence("drill", "grade", "no_right", claim=aim.claim),))
        said = sentence("drill", "grade", "no_wrong", claim=aim.claim, solution=problem.solution)
        return Verdict("wrong", (said,))
    first, _, rest = text.partition(" ")
    if first.rstrip(",:;").lower() == "yes":
        text = rest
    article = thing(bench, text, problem.start)
    if why := bench.impossible(article):
        return Verdict("wrong", (sentence("drill", "grade", "impossible", why=why),))
    k = bench.between(instance.inherited, instance.own, article)
    if k is None:
        return Verdict("wrong", tuple(_why_not(bench, aim, article)))
    lines = [line for x in (*instance.inherited, *instance.own) for line in read_said(bench, x, k)]
    formula = usual(bench, aim)
    grade_found = problem.finding.thing.grade if problem.finding else "edge"
    if grade_found == "plain" and not bench.is_plain(formula, article, wanted=False):
        better = sentence("drill", "grade", "better", solution=problem.solution)
        return Verdict("not plain", (*lines, sentence("drill", "grade", "edge_narrows"), better))
    return Verdict("right", tuple(lines))


def _why_not(bench: Bench, aim: Aim, article: Article) -> list[str]:
    instance = bench.prepared.instances[aim.claim][0]
    failing = [x for x in instance.inherited if not bench.met_somehow(x, article)]
    if failing:
        return [line for x in failing for line in why_missed(bench, x, article)]
    if all(bench.met_always(x, article) for x in instance.own):
        return [sentence("drill", "why", "always_met", limitation=words_of(x)) for x in instance.own]
    return [sentence("drill", "why", "together_met", claim=aim.claim)]
