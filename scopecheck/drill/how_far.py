"""A kind: how far may a quantity go before the claim no longer lets the thing in? An estimate."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Measured
from scopecheck.core.model import Limitation
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.exercise import Aim, Problem, Verdict
from scopecheck.drill.replies import amount, is_none
from scopecheck.drill.sayings import read_said, size_said, told, value_said, words_of
from scopecheck.report.wording import flat, sentence
from scopecheck.solving.ends import infimum, supremum

CLOSE, ROUGH = Fraction(1, 20), Fraction(1, 4)
"""Shares of the way to the border by which an estimate may be off, to be right and to be right but rough."""
ASKED = {
    (False, True): "every_up",
    (False, False): "every_down",
    (True, True): "some_up",
    (True, False): "some_down",
}


def set_how_far(bench: Bench, aim: Aim) -> Problem | None:
    """A quantity of a thing that the whole claim lets in, and the border it meets going one way."""
    limitations = bench.limitations(aim.claim)
    name = aim.name or first_number(bench, bench.limitation(aim.label))
    sample = bench.sample(limitations)
    if sample is None or not name or not all(bench.met_always(x, sample) for x in limitations):
        return None
    border = _border(bench, aim, limitations, name, sample)
    value = sample[name]
    assert isinstance(value, Fraction)
    if border == value:
        return None
    names = bench.names(*(x.formula for x in limitations))
    example = value_said(bench, name, value)
    return Problem(
        aim,
        (sentence("drill", "told", "let_in", facts=told(facts_text(bench.sheet, sample, names))),),
        sentence(
            "drill", "how_far", ASKED[bool(aim.other), aim.upward],
            name=flat(name), claim=aim.claim, value=example,
        ),
        sentence("drill", "how", "amount", example=example),
        "none" if border is None else told(facts_text(bench.sheet, {name: border}, (name,))),
        border is None,
        tuple(sample.items()),
        () if border is None else tuple({**sample, name: border}.items()),
        (aim.label,),
    )  # fmt: skip


def first_number(bench: Bench, limitation: Limitation) -> str:
    """The first number that the limitation speaks of; '' if none."""
    names = bench.session.names_in(limitation.formula)
    found = (d.name for d in bench.sheet.declarations if d.name in names and isinstance(d, NumberDecl))
    return next(found, "")


def _border(
    bench: Bench, aim: Aim, limitations: tuple[Limitation, ...], name: str, sample: Article
) -> Fraction | None:
    """Where the claim, going one way from the sample, ceases to let it in; None if it never does.

    On every reading, unless the aim says "some". Of a whole number the last one that is let in.
    """
    session, value = bench.session, sample[name]
    assert isinstance(value, Fraction)
    met = bench.surely(limitations, True)
    if aim.other:
        met = ~session.surely(bench.whole(limitations), False)
    search = session.search(())
    search.require(bench.same_but(sample, (name,)), ~met)
    search.require(session.at_least(name, value) if aim.upward else session.at_most(name, value))
    if not search.holds():
        return None
    end = infimum(search, Measured(name)) if aim.upward else supremum(search, Measured(name))
    assert end is not None
    d = bench.sheet.declaration(name)
    if not (isinstance(d, NumberDecl) and d.whole):
        return end.value
    return Fraction(ceil(end.value) - 1 if aim.upward else floor(end.value) + 1)


def grade(bench: Bench, problem: Problem, text: str) -> Verdict:
    """Right within a twentieth of the way to the border, rough within a quarter."""
    aim = problem.aim
    limitations = bench.limitations(aim.claim)
    name = aim.name or first_number(bench, bench.limitation(aim.label))
    if is_none(text):
        if problem.nothing:
            return Verdict("right", (sentence("drill", "grade", "no_border"),))
        said = sentence("drill", "grade", "border", border=problem.solution)
        return Verdict("wrong", (said, *_stops(bench, problem, limitations, name)))
    given = amount(bench, text, name, problem.start)
    if problem.nothing:
        return Verdict("wrong", (sentence("drill", "grade", "no_border"),))
    border, start = problem.thing[name], problem.start[name]
    assert isinstance(border, Fraction)
    assert isinstance(start, Fraction)
    off, way = abs(given - border), abs(border - start)
    if off <= way * CLOSE:
        return Verdict("right", (sentence("drill", "grade", "border", border=problem.solution),))
    size = size_said(bench, name, off)
    lines = (
        sentence("drill", "grade", "off", border=problem.solution, size=size),
        *_stops(bench, problem, limitations, name),
    )
    return Verdict("not plain" if off <= way * ROUGH else "wrong", lines)


def stopped(bench: Bench, problem: Problem, limitations: tuple[Limitation, ...], name: str) -> Article:
    """The thing where it stops being let in: on the border if the border is out, else a little beyond."""
    border, start = problem.thing[name], problem.start[name]
    assert isinstance(border, Fraction)
    assert isinstance(start, Fraction)
    met = bench.met_somehow if problem.aim.other else bench.met_always
    if not all(met(x, problem.thing) for x in limitations):
        return problem.thing
    d = bench.sheet.declaration(name)
    step = Fraction(1) if isinstance(d, NumberDecl) and d.whole else abs(border - start) / 10**6
    return {**problem.start, name: border + step if border > start else border - step}


def _stops(bench: Bench, problem: Problem, limitations: tuple[Limitation, ...], name: str) -> list[str]:
    """Which lines stop it where it stops, and on which reading."""
    if problem.nothing:
        return []
    article = stopped(bench, problem, limitations, name)
    lines: list[str] = []
    for x in limitations:
        k = bench.best_reading((x,), article, False)
        if k is None:
            continue
        if bench.met_somehow(x, article):
            lines.append(sentence("drill", "why", "stops", limitation=words_of(x)))
            lines += read_said(bench, x, k)
        else:
            lines.append(sentence("drill", "why", "beyond", limitation=words_of(x)))
    return lines
