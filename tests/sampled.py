"""What findings say, held against the exact evaluator alone: on listed things, and on many made by chance.

Nothing here asks the solver. A listed thing is judged with each re-reading taken alone and all together; what
is said of all things is tried on things made of the numbers in the sheet, and of those beside them.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import combinations

from scopecheck.answers.about import KeptOut, Lost, Reread
from scopecheck.answers.findings import EMPTY_CLAIM, Answers, Finding, because, lines_of
from scopecheck.core.construction import Construction, admissible_readings, base_construction, names_in, nodes
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import All, Article, Chosen, Compare, Const, Formula, Measured, Value
from scopecheck.core.model import Claim, Limitation, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import evaluate
from tests.oracle import chains, scope

SIDED = ("outside met", "document met", "inside lost")


def read_so(sheet: Sheet, rereads: Iterable[Reread], k: Construction | None = None) -> Construction:
    """The base, or `k`, with these re-readings, stretched to their break-points, just beyond open ones."""
    k = k or base_construction(sheet)
    for r in rereads:
        k = k.with_reading(r.group, r.reading)
        values = dict(k.parameters)
        for b in r.breaks:
            little = Fraction(0) if b.end.closed else Fraction(1, 10**12) * (1 if b.upward else -1)
            values[b.parameter] = b.end.value + little
        k = replace(k, parameters=tuple(values.items()))
    return k


def wrong_of_things(sheet: Sheet, answers: Answers) -> Iterator[str]:
    """What is told of a listed thing and does not hold of it."""
    base = base_construction(sheet)
    for f in answers.findings:
        if f.question not in SIDED or f.witness is None or f.outcome != "shown" or f.case == "":
            continue
        of_case = next(c for c in sheet.cases if c.name == f.case)
        if f.thing.grade != "listed" or of_case.groups:
            continue
        article = f.witness.article
        label = int(f.label.split()[1]) if f.label.startswith("claim ") else f.label
        asked: Formula = scope(sheet, label)
        if not names_in(asked) <= stated_values(sheet, of_case, exact=True).keys():
            continue  # told of more than one thing
        if f.failing and (_of_a_line_alone(f) or f.quantifier == "some"):
            asked = All(tuple(scope(sheet, x) for x in f.failing))

        def met(k: Construction, asked: Formula = asked, article: Article = article) -> bool:
            return evaluate(asked, article, k) is True

        lost = f.question == "inside lost"
        moved = (*f.rereads, *f.read_as)
        yield from _together(
            sheet,
            f,
            moved,
            lambda k, lost=lost, met=met: met(k) is not lost,
            f"{f.question} {f.case} read so",
        )
        yield from _wrong_otherwise(sheet, f, met)
        for label_ in f.failing:
            k = f.construction or base
            if lost and evaluate(scope(sheet, label_), article, k) is True:
                yield f"{f.case}: {label_} does not fail"
        if f.quantifier == "base" and met(base) is lost:
            yield f"{f.question} {f.case}: not so as presumed"


def _of_a_line_alone(f: Finding) -> bool:
    return isinstance(f.about, Lost) and f.about.line_alone


def _wrong_otherwise(sheet: Sheet, f: Finding, met: Callable[[Construction], bool]) -> Iterator[str]:
    """The re-readings on which what is lost is said to be kept, or what is met to be kept out, and is not."""
    undone, least = f.otherwise.rereads, f.otherwise.least
    if f.question != "inside lost":
        if f.otherwise.together:
            yield from _together(sheet, f, undone, lambda k: not met(k), f"{f.case} unmet together")
            return
        for r in undone:
            if met(read_so(sheet, [r])):
                yield f"{f.question} {f.case}: unmet by {r}"
        return
    yield from _together(sheet, f, least, met, f"{f.question} {f.case} kept by") if least else ()
    for r in undone[len(least) :]:
        if not met(read_so(sheet, [r])) and not own_stretch(sheet, r):
            yield f"{f.question} {f.case}: kept too by {r}"


def own_stretch(sheet: Sheet, r: Reread) -> bool:
    return any((p.group, p.reading) == (r.group, r.reading) for p in sheet.parameters)


def _together(
    sheet: Sheet, f: Finding, rereads: tuple[Reread, ...], holds: Callable[[Construction], bool], what: str
) -> Iterator[str]:
    if not holds(read_so(sheet, rereads)):
        yield f"{what} {f.label}: does not hold with {rereads}"
    for n in range(1, len(rereads)):
        for some in combinations(rereads, n):
            if holds(read_so(sheet, some)):
                yield f"{what} {f.label}: holds with {some} alone"


# ---- all things


def things(sheet: Sheet, many: int, seed: int = 1) -> list[Article]:
    """Things that obey the given facts, of the numbers in the sheet and those half a step beside them."""
    chance = random.Random(seed)
    formulas = [x.formula for c in sheet.claims for x in c.limitations] + [c.facts for c in sheet.cases]
    values = {d.name: _values(sheet, d, formulas) for d in sheet.declarations}
    k = base_construction(sheet)
    found: list[Article] = []
    starts = [a for c in sheet.cases for a in [_as_stated(c.facts)]]
    for _ in range(many * 40):
        article = {name: chance.choice(v) for name, v in values.items()}
        if starts and chance.random() < 0.7:
            near = chance.choice(starts)
            kept = {n: v for n, v in near.items() if n in article and chance.random() < 0.8}
            article |= kept
        if all(evaluate(g.formula, article, k) is True for g in sheet.givens):
            found.append(article)
        if len(found) == many:
            break
    return found


def _as_stated(facts: Formula) -> dict[str, Value]:
    found: dict[str, Value] = {}
    for node in nodes(facts):
        match node:
            case Compare("=", Measured(name), Const(value)):
                found[name] = value
            case Chosen(name, member):
                found[name] = member
    return found


def _values(sheet: Sheet, d: object, formulas: list[Formula]) -> list[Value]:
    if isinstance(d, ChoiceDecl):
        return list(d.members)
    if isinstance(d, SetDecl):
        one = [frozenset([m]) for m in d.members]
        return [frozenset(), *one, *(a | b for a, b in combinations(one, 2)), frozenset(d.members)]
    assert isinstance(d, NumberDecl)
    found: set[Fraction] = {Fraction(0), d.unit.factor, 100 * d.unit.factor}
    for f in formulas:
        for n in nodes(f):
            if isinstance(n, Const) and n.written:
                step = n.written.step
                found |= {n.value + s * step / m for s in (-1, 0, 1) for m in (1, 2, 4)}
                found |= {n.value * m for m in (2, 3)} | {n.value / 2}
    if d.whole:
        found = {Fraction(v) for v in range(13)} | {Fraction(int(v)) for v in found}
    low, high = d.lower, d.upper
    kept = [v for v in sorted(found) if low is None or v > low.value or (low.closed and v == low.value)]
    return [v for v in kept if high is None or v < high.value or (high.closed and v == high.value)]


def ways(sheet: Sheet, f: Finding, claim: Claim) -> list[tuple[Limitation, ...]]:
    """The lines of each chain of parents by way of which the finding holds, with the claim's own."""
    if not f.ways:
        return chains(sheet, claim)
    return [(*(x for n in w for x in sheet.claim(n).limitations), *claim.limitations) for w in f.ways]


def wrong_of_all(sheet: Sheet, answers: Answers, some: list[Article]) -> Iterator[str]:
    """What is told of all things and does not hold of one of these."""
    base = base_construction(sheet)
    every = _constructions(sheet)
    for f in answers.findings:
        if f.outcome == "undecided" or f.claim == 0:
            continue
        claim = sheet.claim(f.claim)
        ks = every if f.quantifier == "every" else [f.construction or base]
        for lines in ways(sheet, f, claim):
            if f.wherever_met:
                continue
            for a in some:
                for k in ks:
                    truths = {x.label: evaluate(x.formula, a, k) is True for x in lines}
                    if f.question in EMPTY_CLAIM and all(truths.values()):
                        yield f"{f.question} {f.label}: met by {a} on {k.readings}"
                    own = {x.label for x in claim.limitations}
                    above = all(v for label, v in truths.items() if label not in own)
                    mine = all(truths[label] for label in own)
                    if f.question == "adds nothing" and above and not mine:
                        yield f"adds nothing {f.label}: {a} on {k.readings}"
                    if f.question == "idle" and f.label in truths and not truths[f.label]:
                        if all(v for label, v in truths.items() if label != f.label):
                            yield f"idle {f.label}: {a} on {k.readings}"
                        if lines_of(f) and all(truths.get(x, True) for x in lines_of(f)):
                            yield f"idle {f.label} by {lines_of(f)}: {a} on {k.readings}"
        if f.question in EMPTY_CLAIM and f.quantifier == "base":
            for one in because(f).sets or ((lines_of(f),) if lines_of(f) else ()):
                for a in some:
                    if all(evaluate(scope(sheet, x), a, base) is True for x in one):
                        yield f"conflict {one} of {f.label}: {a}"


def _constructions(sheet: Sheet, most: int = 24) -> list[Construction]:
    """The base, each single re-reading, and some by chance; stretches as presumed."""
    base = base_construction(sheet)
    admitted = {g.index: admissible_readings(g) for g in sheet.groups}
    found = [base]
    found += [base.with_reading(g, r) for g, rs in admitted.items() for r in rs if r != base.readings[g]]
    chance = random.Random(2)
    for _ in range(most):
        readings = tuple(chance.choice(admitted[g.index]) for g in sheet.groups)
        found.append(Construction(readings, base.parameters))
    return found


def wrong_of_kept_out(sheet: Sheet, answers: Answers) -> Iterator[str]:
    """What is told of lines that keep out a case which states all that they speak of, and does not hold."""
    base, every = base_construction(sheet), _constructions(sheet)
    for f in answers.findings:
        of_case = next((c for c in sheet.cases if c.name == f.case), None)
        kept = f.about
        if f.question != "kept out" or of_case is None or of_case.groups:
            continue
        stated = stated_values(sheet, of_case, exact=True)
        assert isinstance(kept, KeptOut)
        for fall in kept.falls:
            asked = All(tuple(scope(sheet, x) for x in fall.labels))
            if not names_in(asked) <= stated.keys():
                continue
            if evaluate(asked, stated, base) is True:
                yield f"{f.case}: {fall.labels} does not keep it out"
            if fall.always and any(evaluate(asked, stated, k) is True for k in every):
                yield f"{f.case}: {fall.labels} does not keep it out on every reading"
            for r in fall.single:
                if evaluate(asked, stated, read_so(sheet, [r])) is not True:
                    yield f"{f.case}: {fall.labels} keeps it out with {r}"
            if fall.together and evaluate(asked, stated, read_so(sheet, fall.together)) is not True:
                yield f"{f.case}: {fall.labels} keeps it out with all of {fall.together}"
        for way in kept.besides:
            asked = All((scope(sheet, way.label),))
            if names_in(asked) <= stated.keys():
                for g, r in way.readings:
                    if evaluate(asked, stated, base.with_reading(g, r)) is True:
                        yield f"{f.case}: {way.label} does not keep it out with {g}, {r}"
