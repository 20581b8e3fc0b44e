"""A kind: which two phrases must both be read otherwise before the claim lets this thing in?"""

from __future__ import annotations

from itertools import combinations

from scopecheck.core.formula import Article
from scopecheck.core.model import Limitation
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exercise import Aim, Problem, Unreadable, Verdict
from scopecheck.drill.replies import picks
from scopecheck.drill.sayings import reading_said, told, why_missed, words_of
from scopecheck.report.wording import sentence


def set_two_phrases(bench: Bench, aim: Aim) -> Problem | None:
    """A thing that two lines keep out as usually read, each of which lets it in on another reading."""
    limitations = bench.limitations(aim.claim)
    groups = [bench.group(x) for x in limitations]
    if None in groups or len(set(groups)) != len(groups):
        return None
    sample = bench.sample(limitations)
    article = _kept_out_twice(bench, aim, limitations, sample) if sample is not None else None
    if sample is None or article is None or flipping(bench, limitations, article) != [aim.labels]:
        return None
    facts = told(facts_text(bench.sheet, article, bench.names(*(x.formula for x in limitations))))
    return Problem(
        aim,
        tuple(
            sentence("drill", "told", "usual", limitation=words_of(x), reading=_usual(bench, x))
            for x in limitations
        ),
        sentence("drill", "two_phrases", "asked", claim=aim.claim, facts=facts),
        sentence("drill", "how", "two"),
        ", ".join(aim.labels),
        sample=tuple(sample.items()),
        case=tuple(article.items()),
        labels=aim.labels,
    )


def _kept_out_twice(
    bench: Bench, aim: Aim, limitations: tuple[Limitation, ...], sample: Article
) -> Article | None:
    session = bench.session
    search = session.search(())
    for x in limitations:
        met = session.met(x.formula, bench.base)
        search.require(~met if x.label in aim.labels else met)
        if x.label in aim.labels:
            search.require(bench.on_one_of(bench.every_taken(x)))
    for x in limitations:
        # A line that could be lost as well makes the choice harder; where none can be, it is done without.
        lost = ~session.surely(x.formula, True)
        if x.label not in aim.labels and search.holds(lost):
            search.require(lost)
    found = bench.found(aim.claim, search, [x.formula for x in limitations], (), sample)
    return found.witness.article if found and found.witness else None


def _usual(bench: Bench, limitation: Limitation) -> str:
    group = bench.group(limitation)
    assert group is not None
    return reading_said(bench, limitation, bench.base.readings[group])


def flipping(bench: Bench, limitations: tuple[Limitation, ...], article: Article) -> list[tuple[str, ...]]:
    """The least sets of one or two lines that, read otherwise, let the thing in, all others as usual."""
    failing = {x.label for x in limitations if not _met_usually(bench, x, article)}
    able = {x.label for x in limitations if bench.met_somehow(x, article)}
    sets: list[tuple[str, ...]] = [(x.label,) for x in limitations]
    sets += list(combinations((x.label for x in limitations), 2))
    found: list[tuple[str, ...]] = []
    for labels in sets:
        lets_in = failing <= set(labels) and failing <= able
        if lets_in and not any(set(less) < set(labels) for less in found):
            found.append(labels)
    return found


def _met_usually(bench: Bench, limitation: Limitation, article: Article) -> bool:
    group = bench.group(limitation)
    assert group is not None
    return bench.base.readings[group] in bench.on_readings(limitation, article)


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Right where both phrases are named and no other. Raises Unreadable unless two are named."""
    limitations = bench.limitations(problem.aim.claim)
    given = picks(text, tuple(x.label for x in limitations))
    if len(given) != 2:
        raise Unreadable(sentence("drill", "reply", "two"))
    article = problem.thing
    if given == problem.labels:
        return Verdict("right", (sentence("drill", "grade", "two_right", first=given[0], second=given[1]),))
    lines: list[str] = []
    for x in limitations:
        usual = _met_usually(bench, x, article)
        if x.label in given and usual:
            lines.append(sentence("drill", "grade", "usual_met", limitation=words_of(x)))
        if x.label not in given and not usual:
            lines.append(sentence("drill", "grade", "usual_missed", limitation=words_of(x)))
            if not bench.met_somehow(x, article):
                lines += why_missed(bench, x, article)
    return Verdict("wrong", tuple(lines))
