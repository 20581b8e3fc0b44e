"""What is right in an exercise, by the exact meaning alone: every way to read is gone through one by one.

No solver is asked. Candidates are answers that a learner may well give, right ones and wrong ones among them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations, product

from scopecheck.answers.witness import WitnessError, verify
from scopecheck.core.construction import Construction, admissible_readings, nodes
from scopecheck.core.declared import NumberDecl, SetDecl
from scopecheck.core.formula import Article, Compare, Const
from scopecheck.core.model import Limitation, Sheet
from scopecheck.drill import how_far, unmeant
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.drill.draws import Draws
from scopecheck.drill.exact import wordings
from scopecheck.drill.exercise import Problem
from scopecheck.drill.making import Made
from scopecheck.drill.sayings import lettered
from scopecheck.solving.evaluate import evaluate, meets

MOST = 8
"""Candidates of one exercise."""


def constructions(bench: Bench, limitations: Sequence[Limitation]) -> Iterator[Construction]:
    """Every way to read the limitations, stretches fixed."""
    groups = sorted({g for x in limitations for g in x.groups})
    for way in product(*(admissible_readings(bench.sheet.groups[g]) for g in groups)):
        k = bench.base
        for g, r in zip(groups, way, strict=True):
            k = k.with_reading(g, r)
        yield k


def somehow(bench: Bench, limitations: Sequence[Limitation], article: Article, met: bool) -> bool:
    """On one way to read, are all of them met (or not all, unless `met`)?"""
    ways = constructions(bench, limitations)
    return any(all(meets(x.formula, article, k) for x in limitations) == met for k in ways)


def exists(sheet: Sheet, article: Article) -> bool:
    try:
        verify(sheet, article, ())
    except WitnessError:
        return False
    return True


# ---- things


def right_thing(bench: Bench, problem: Problem, article: Article) -> bool:
    """Is the thing an answer to what is asked?"""
    aim = problem.aim
    if not exists(bench.sheet, article):
        return False
    if aim.kind == "narrows":
        instance = bench.prepared.instances[aim.claim][0]
        both = (*instance.inherited, *instance.own)
        return any(
            all(meets(x.formula, article, k) for x in instance.inherited)
            and not all(meets(x.formula, article, k) for x in instance.own)
            for k in constructions(bench, both)
        )
    said = unmeant.meaning(bench, aim)
    assert said is not None
    meant = evaluate(said[0], article, bench.base)
    if aim.kind == "let in":
        return meant is False and somehow(bench, bench.limitations(aim.claim), article, True)
    return meant is True and somehow(bench, (bench.limitation(aim.label),), article, False)


def things(bench: Bench, problem: Problem, draws: Draws) -> Iterator[Article]:
    """Things at and about the written numbers, and every set of few members, one name departing."""
    aim = problem.aim
    asked = bench.limitations(aim.claim)
    names = bench.session.names_in(*(x.formula for x in asked))
    found: list[Article] = [problem.start]
    for d in bench.sheet.declarations:
        if d.name not in names:
            continue
        if isinstance(d, NumberDecl):
            found += [{**problem.start, d.name: v} for v in _values(bench, d, asked)]
        elif isinstance(d, SetDecl):
            sizes = (s for n in range(len(d.members)) for s in combinations(d.members, n))
            found += [{**problem.start, d.name: frozenset(s)} for s in sizes]
    yield from draws.mixed([a for a in found if exists(bench.sheet, a)])[:MOST]


def _values(bench: Bench, d: NumberDecl, asked: Sequence[Limitation]) -> list[Fraction]:
    written = {
        (n.value, n.written.step)
        for x in asked
        for atom in nodes(x.formula)
        if isinstance(atom, Compare)
        for n in nodes(atom)
        if isinstance(n, Const) and n.written and n.written.unit.kind == d.unit.kind
    }
    if d.whole:
        return [Fraction(n) for n in range(16)]
    steps = (Fraction(0), Fraction(1, 2), Fraction(1), Fraction(-1, 2), Fraction(-1), Fraction(10))
    return [value + step * n for value, step in sorted(written) for n in steps]


# ---- candidates: an answer as typed, and whether it is right (None: it depends, and is not judged here)


def candidates(made: Made, seed: int) -> list[tuple[str, bool | None]]:
    """Answers as typed, each with what it is by the exact meaning."""
    bench, problem = made.bench, made.exercise.problem
    draws = Draws("candidates", seed, made.exercise.name)
    match problem.aim.kind:
        case "let in" | "kept out" | "narrows":
            return list(_thing_answers(bench, problem, draws))
        case "falls out":
            return list(_letter_answers(bench, problem))
        case "keeps out":
            return list(_label_answers(bench, problem))
        case "two phrases":
            return list(_pair_answers(bench, problem))
        case "how far":
            return list(_amount_answers(bench, problem))
        case "reword":
            return list(_word_answers(bench, problem))


def _thing_answers(bench: Bench, problem: Problem, draws: Draws) -> Iterator[tuple[str, bool | None]]:
    some = False
    for article in things(bench, problem, draws):
        names = [n for n in article if article[n] != problem.start[n]] or list(article)
        right = right_thing(bench, problem, article)
        some = some or right
        yield facts_text(bench.sheet, article, names), right
    assert not (some and problem.nothing), "none was said, and there is one"
    yield "none", problem.nothing


def _letter_answers(bench: Bench, problem: Problem) -> Iterator[tuple[str, bool | None]]:
    limitation = bench.limitation(problem.aim.label)
    group = bench.group(limitation)
    assert group is not None
    letters = lettered(bench, limitation)
    out = {
        x
        for x, r in letters
        if not meets(limitation.formula, problem.thing, bench.base.with_reading(group, r))
    }
    every = [x for x, _ in letters]
    tried = [set(s) for n in range(len(every) + 1) for s in combinations(every, n)]
    for given in tried[:MOST] + tried[-2:] + [out]:
        yield ", ".join(sorted(given)) or "none", given == out


def _label_answers(bench: Bench, problem: Problem) -> Iterator[tuple[str, bool | None]]:
    limitations = bench.limitations(problem.aim.claim)
    out = {x.label for x in limitations if not somehow(bench, (x,), problem.thing, True)}
    labels = [x.label for x in limitations]
    for n in range(len(labels) + 1):
        for given in combinations(labels, n):
            yield ", ".join(given) or "none", set(given) == out


def _pair_answers(bench: Bench, problem: Problem) -> Iterator[tuple[str, bool | None]]:
    limitations = bench.limitations(problem.aim.claim)
    assert not _flips(bench, limitations, problem.thing, ())
    assert not any(_flips(bench, limitations, problem.thing, (x.label,)) for x in limitations)
    for pair in combinations([x.label for x in limitations], 2):
        yield ", ".join(pair), _flips(bench, limitations, problem.thing, pair)


def _flips(bench: Bench, limitations: Sequence[Limitation], article: Article, labels: Sequence[str]) -> bool:
    """Is the thing let in on some reading of these lines, all others as usually read?"""
    free = {g for x in limitations if x.label in labels for g in x.groups}
    for k in constructions(bench, limitations):
        if all(
            k.readings[g] == bench.base.readings[g] for x in limitations for g in x.groups if g not in free
        ) and all(meets(x.formula, article, k) for x in limitations):
            return True
    return False


def _amount_answers(bench: Bench, problem: Problem) -> Iterator[tuple[str, bool | None]]:
    aim = problem.aim
    name = how_far.first_number(bench, bench.limitation(aim.label))
    d = bench.sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    start = problem.start[name]
    assert isinstance(start, Fraction)

    def let_in(value: Fraction) -> bool:
        limitations, article = bench.limitations(aim.claim), {**problem.start, name: value}
        if not exists(bench.sheet, article):
            return True
        return (
            somehow(bench, limitations, article, True)
            if aim.other
            else not somehow(bench, limitations, article, False)
        )

    yield "none", problem.nothing
    if problem.nothing:
        beyond = (start * n if aim.upward else start / n for n in (2, 10, 1000))
        assert all(let_in(Fraction(int(v)) if d.whole else v) for v in beyond)
        yield facts_text(bench.sheet, {name: start + d.unit.factor}, (name,)), False
        return
    border = problem.thing[name]
    assert isinstance(border, Fraction)
    way = border - start
    steps = int(abs(way)) if d.whole else 12
    assert all(let_in(start + way * n / steps) for n in range(steps))
    beyond = _beyond(bench, problem)[name]
    assert isinstance(beyond, Fraction)
    assert not let_in(beyond), (bench.text, problem, border)
    for share in (Fraction(1), Fraction(13, 10), Fraction(1, 2), Fraction(0), Fraction(21, 10)):
        value = start + way * share
        if (d.whole and value.denominator != 1) or not exists(bench.sheet, {**problem.start, name: value}):
            continue
        yield facts_text(bench.sheet, {name: value}, (name,)), abs(share - 1) <= how_far.ROUGH


def _word_answers(bench: Bench, problem: Problem) -> Iterator[tuple[str, bool | None]]:
    limitation = bench.limitation(problem.aim.label)
    yield limitation.words, False
    group = bench.group(limitation)
    assert group is not None
    for r in bench.readings(group):
        label = bench.sheet.groups[group].readings[r].label
        meant = bench.taken(limitation, r)
        fits = (
            evaluate(meant, problem.start, bench.base) is True
            and evaluate(meant, problem.thing, bench.base) is not True
        )
        known = bench.exact.get((limitation.label, label), -1)
        words = [w for n, w in enumerate(wordings(bench, limitation, label)) if n == known]
        yield from ((w, fits) for w in words)


def _beyond(bench: Bench, problem: Problem) -> Article:
    """The thing on the border, if the border is out, else with its quantity a little beyond."""
    limitations = bench.limitations(problem.aim.claim)
    at = problem.thing
    out = (
        not somehow(bench, limitations, at, True)
        if problem.aim.other
        else somehow(bench, limitations, at, False)
    )
    if out:
        return at
    name = how_far.first_number(bench, bench.limitation(problem.aim.label))
    border, start = at[name], problem.start[name]
    d = bench.sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    assert isinstance(border, Fraction)
    assert isinstance(start, Fraction)
    nudge = Fraction(1 if border > start else -1) if d.whole else (border - start) / 10**7
    return {**problem.start, name: border + nudge}


# ---- reasons


_ON_NONE = re.compile(r"^(\d+[a-z]+) .* lets it in on no reading\.$")
_BEYOND = re.compile(r"^Where it stops, (\d+[a-z]+) .* lets it in on no reading\.$")
_ON_EVERY = re.compile(r"^(\d+[a-z]+) .* lets it in on every reading\.$")
_LETTER = re.compile(r"^([A-Z]): read as .* (is met|falls out)\.$")


def untrue(made: Made, article: Article | None, lines: Sequence[str]) -> list[str]:
    """Of the reasons given for a wrong answer those that the exact meaning does not bear out."""
    bench, problem = made.bench, made.exercise.problem
    at = article if article is not None else problem.thing
    found = []
    for line in (x.replace("\u00a0", " ") for x in lines):
        if match := _ON_NONE.match(line):
            held = not somehow(bench, (bench.limitation(match[1]),), at, True)
        elif match := _ON_EVERY.match(line):
            held = not somehow(bench, (bench.limitation(match[1]),), at, False)
        elif match := _BEYOND.match(line):
            held = not somehow(bench, (bench.limitation(match[1]),), _beyond(bench, problem), True)
        elif match := _LETTER.match(line):
            limitation = bench.limitation(problem.aim.label)
            group = bench.group(limitation)
            assert group is not None
            k = bench.base.with_reading(group, dict(lettered(bench, limitation))[match[1]])
            held = meets(limitation.formula, at, k) == (match[2] == "is met")
        else:
            continue
        if not held:
            found.append(line)
    return found
