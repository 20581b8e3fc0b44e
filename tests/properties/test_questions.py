"""Each question against the walk over all things and constructions: same answer, reach, construction."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from fractions import Fraction
from itertools import combinations, groupby, pairwise
from math import ceil, floor, gcd
from typing import Any as Whatever

from hypothesis import assume, event, given, settings
from hypothesis import strategies as st
from hypothesis.errors import UnsatisfiedAssumption

from scopecheck.answers.about import AddsNothing, Empty, OneReading
from scopecheck.answers.findings import (
    Finding,
    Looked,
    also_claims_of,
    also_open_of,
    cases_of,
    lines_of,
    partly_of,
    step_of,
    twin_of,
)
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.cases import class_status, reading_for_all
from scopecheck.answers.questions.claims import (
    adds_nothing,
    ends_not_reached,
    last_multiples,
    last_whole_before,
    nothing_meets,
)
from scopecheck.answers.questions.inside import inside_lost
from scopecheck.answers.questions.instances import Instance, widest
from scopecheck.answers.questions.outside import outside_met
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.questions.readings import contested, pairs, parts_meant
from scopecheck.answers.questions.undefined import undefined
from scopecheck.answers.witness import verify
from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    departs,
    groups_in,
    names_in,
    nodes,
)
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import All, Any, Const, Formula, Ranked, Term
from scopecheck.core.linear import linear_form
from scopecheck.core.model import Case, Limitation, Role, Sheet
from scopecheck.core.ranges import read_at
from scopecheck.core.reference import stated_values
from scopecheck.core.written_ends import written_ends
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import evaluate, evaluate_term
from tests import build, oracle, strategies
from tests.oracle import Walk
from tests.solved_walk import SolvedWalk
from tests.undecided import tally

Readings = tuple[int, Sequence[int]]
"""A group and some of its readings."""
EXAMPLES = 60
ORDER = ("none", "some", "every")


class Asked:
    """A sheet with the walk that knows its answers."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        if all(d.whole for d in sheet.declarations if isinstance(d, NumberDecl)):
            formulas = [f for c in sheet.claims for x in c.limitations for f in (x.formula, x.meant) if f]
            articles = Walk(sheet).articles
            self.walk = Walk(sheet, stretches=oracle.critical_stretches(sheet, articles, formulas))
        else:
            self.walk = SolvedWalk(sheet)
        self.prepared: Prepared = prepare(sheet, details=True)

    def targets(self, case: Case) -> list[int | str]:
        """What the case speaks of: as it says, else the independent claims that recite what it states."""
        if case.targets:
            return [int(t) if t.isdigit() else t for t in case.targets]
        independent = [c.number for c in self.sheet.claims if not c.parents]
        return [n for n in independent if names_in(oracle.scope(self.sheet, n)) & set(case.stated)]

    def reach(self, ks: Sequence[Construction], holds: Sequence[bool]) -> str:
        """On every construction, on the base one, on some."""
        assert any(holds)
        at_base = holds[list(ks).index(self.walk.base)]
        return "every" if all(holds) else "base" if at_base else "some"


def lowest(statuses: Sequence[str]) -> str:
    return min(statuses, key=ORDER.index)


def highest(statuses: Sequence[str]) -> str:
    return max(statuses, key=ORDER.index)


def same_reading(found: Finding, expected: Construction | None) -> None:
    """Is it the best construction? Of parameters, which move: how far is shown by the break-points."""
    assert (found.construction is None) == (expected is None)
    if found.construction is not None and expected is not None:
        assert found.construction.readings == expected.readings


# ---- cases


@settings(max_examples=EXAMPLES * 2)
@given(strategies.sheets("outside"))
def test_what_must_stay_out(sheet: Sheet) -> None:
    asked = Asked(sheet)
    for case in sheet.cases:
        if case.role != "outside":
            continue
        answers = by_place(outside_met(asked.prepared, case))
        assert len(answers) == len(asked.targets(case))
        for place, told in zip(asked.targets(case), answers, strict=True):
            answer = told[0]
            scope = oracle.scope(sheet, place)
            ks = asked.walk.constructions(groups_in(case.facts, scope))
            statuses = [asked.walk.status(case.facts, scope, k) for k in ks]
            event(f"outside {highest(statuses)}")
            if highest(statuses) == "none":
                assert isinstance(answer, Looked)
                continue
            assert isinstance(answer, Finding)
            holds = [s != "none" for s in statuses]
            assert answer.quantifier == asked.reach(ks, holds)
            assert answer.stakes == (1 if all(holds) else 2)
            assert (answer.status.lowest, answer.status.highest) == (lowest(statuses), highest(statuses))
            assert answer.status.at_base == asked.walk.status(case.facts, scope, asked.walk.base)
            assert answer.witness is not None
            assert answer.construction is not None
            for formula in (case.facts, scope):
                assert evaluate(formula, answer.witness.article, answer.construction) is True
            if isinstance(place, int):
                same_reading(answer, ks[holds.index(True)])
            every_way(asked, told, [k for k, h in zip(ks, holds, strict=True) if h])
            ways = {n: left_by_way(asked, n, answer, case, scope) for n in below(sheet, place)}
            met = {n: [left for left, meets in each if meets] for n, each in ways.items()}
            met = {n: left for n, left in met.items() if left}
            assert list(also_claims_of(answer)) == [n for n, left in met.items() if not all(left)]
            told_open = dict(also_open_of(answer))
            assert {n for n, left in met.items() if all(left)} <= set(told_open)
            for n in set(met) & set(told_open):
                assert frozenset(told_open[n]) in [left for left, _ in ways[n]]
                assert len(told_open[n]) <= min(map(len, met[n]))


def left_by_way(
    asked: Asked, number: int, answer: Finding, case: Case, scope: Formula
) -> list[tuple[frozenset[str], bool]]:
    """By way of each chain of parents: what the thing shown leaves open of the claim, and does it meet it?

    Of what the case does not state a thing is told by what the claim above asks, read as shown.
    """
    assert answer.witness is not None
    assert answer.construction is not None
    article, k = answer.witness.article, answer.construction
    chains = oracle.chains(asked.sheet, asked.sheet.claim(number))
    ways = [All(tuple(x.formula for x in chain)) for chain in chains]
    told = {*case.stated, *names_in(read_at(scope, k)).intersection(answer.thing.names)}
    return [(names_in(read_at(way, k)) - told, evaluate(way, article, k) is True) for way in ways]


def by_place(answers: Iterable[Finding | Looked]) -> list[list[Finding | Looked]]:
    """The answers, those about one place together; of drawn sheets hardly any may be left undecided."""
    found: list[list[Finding | Looked]] | None = None
    with tally.may_be_undecided():
        found = [list(told) for _, told in groupby(answers, key=lambda a: (a.claim, a.label))]
    assume(found is not None)
    assert found is not None
    return found


def every_way(asked: Asked, told: Sequence[Finding | Looked], effective: Sequence[Construction]) -> None:
    """Is each way told: every single re-reading, and of sets of phrases no lesser one left out?"""
    findings = [f for f in told if isinstance(f, Finding)]
    assert len(findings) == len(told)
    if findings[0].quantifier != "some":
        # Where the first fault is there as presumed, others of the same case are on re-reading only; but
        # beside lines that fail on every reading stand those that fail as presumed.
        first = findings[0]
        for f in findings[1:]:
            assert f.question == "inside lost"
            apart = first.quantifier == "every" and set(first.failing).isdisjoint(f.failing)
            assert f.quantifier == "some" or apart
        return
    ways = [(f, changed(asked, f.construction)) for f in findings if f.construction is not None]
    assert len(ways) == len(findings)
    assert len({frozenset(w.items()) for _, w in ways}) == len(ways)
    event(f"{min(len(ways), 4)} ways")
    alone = {step for f, w in ways if len(w) == 1 for step in [*w.items(), *f.others]}
    for k in effective:
        moved = changed(asked, k)
        if len(moved) == 1:
            assert set(moved.items()) <= alone
        elif not any(f.more for f in findings):
            assert any(set(w) <= set(moved) for _, w in ways)
    for f, w in ways:
        for g, r in f.others:
            assert any(changed(asked, k) == {**w, g: r} for k in effective)


def changed(asked: Asked, k: Construction | None) -> dict[int, int]:
    """The groups read, or stretched, otherwise than in the base, with their readings."""
    assert k is not None
    base = asked.walk.base
    stretched = {
        p.group
        for p in asked.sheet.parameters
        if k.readings[p.group] == p.reading and k.parameter(p.key) != p.presumed
    }
    return {g: r for g, r in enumerate(k.readings) if r != base.readings[g] or g in stretched}


def below(sheet: Sheet, place: int | str) -> list[int]:
    found = [place]
    for claim in sheet.claims:
        if set(claim.parents) & set(found):
            found.append(claim.number)
    return [n for n in found[1:] if isinstance(n, int)]


@settings(max_examples=EXAMPLES * 2)
@given(strategies.sheets("inside"))
def test_what_must_be_covered(sheet: Sheet) -> None:
    asked = Asked(sheet)
    for case in sheet.cases:
        if case.role != "inside":
            continue
        answers = iter(by_place(inside_lost(asked.prepared, case)))
        for target in asked.targets(case):
            for place in [target] if isinstance(target, str) else line_of(sheet, target):
                inside_answer(asked, case, place, next(answers))
        assert next(answers, None) is None


def line_of(sheet: Sheet, number: int) -> list[int]:
    parents = sheet.claim(number).parents
    return [*line_of(sheet, parents[0]), number] if len(parents) == 1 else [number]


def wholly_out(asked: Asked, case: Case, scope: Formula, statuses: dict[Construction, str]) -> bool:
    """Is none of the case met on some construction, with no stretch that bears on what it leaves open?

    Where it leaves something open, on one on which something meets the scope.
    """
    sheet, whole = asked.sheet, names_in(scope) <= set(case.stated)
    if "none" not in statuses.values():
        return False
    if highest(list(statuses.values())) == "none":
        return True
    usual = {p.key: p.presumed for p in sheet.parameters}
    kept_out = [k for k, s in statuses.items() if s == "none" and dict(k.parameters).items() <= usual.items()]
    return any(whole or asked.walk.some(k, scope) for k in kept_out)


def inside_answer(asked: Asked, case: Case, place: int | str, told: list[Finding | Looked]) -> None:
    sheet, walk, answer = asked.sheet, asked.walk, told[0]
    scope, above = oracle.scope(sheet, place), All(())
    if isinstance(place, int):
        chains = oracle.chains(sheet, sheet.claim(place))
        if len(chains) == 1:
            own = sheet.claim(place).limitations
            above = All(tuple(x.formula for x in chains[0][: -len(own)]))
            if above.items and walk.status(case.facts, above, walk.base) == "none":
                # Lost above as presumed, and told there: of this claim its own lines are asked.
                scope, above = All(tuple(x.formula for x in own)), All(())
    ks = walk.constructions(groups_in(case.facts, scope))
    lost = [walk.some(k, case.facts, above, without=scope) for k in ks]
    statuses = [walk.status(case.facts, scope, k) for k in ks]
    event(f"inside {lowest(statuses)} to {highest(statuses)}")
    if not any(lost):
        assert isinstance(answer, Looked)
        return
    assert isinstance(answer, Finding)
    single = wanted_of(sheet, case) == "some" and asked.prepared.point(case, scope) is None
    single = single and not names_in(scope) <= set(case.stated)
    if single and not wholly_out(asked, case, scope, dict(zip(ks, statuses, strict=True))):
        assert (answer.question, answer.stakes) == ("inside left open", 6)
        assert partly_of(answer)
        assert set(case.stated).isdisjoint(partly_of(answer))
        lost_as_stated(asked, case, place, above, told[1:])
        return
    same_reading(answer, ks[lost.index(True)])
    every_way(asked, told, [k for k, is_lost in zip(ks, lost, strict=True) if is_lost])
    never = highest(statuses) == "none"
    assert answer.quantifier == ("every" if never else asked.reach(ks, lost))
    assert answer.stakes == (1 if never else 3)
    assert (answer.status.lowest, answer.status.highest) == (lowest(statuses), highest(statuses))
    assert answer.status.at_base == walk.status(case.facts, scope, walk.base)
    assert answer.witness is not None
    article, k = answer.witness.article, answer.construction
    assert k is not None
    assert evaluate(All((case.facts, above)), article, k) is True
    assert evaluate(scope, article, k) is not True
    assert answer.failing or len(sheet.claims) > 1
    if answer.quantifier != "some" and asked.prepared.point(case, scope) is None:
        lost_as_stated(asked, case, place, above, told[1:])


def lost_as_stated(
    asked: Asked, case: Case, place: int | str, above: Formula, told: Sequence[Finding | Looked]
) -> None:
    """Beside what is lost or left open already: is each other loss told, by lines on what is stated alone?

    Lines that are met by all that is stated as presumed, and lose some of it on another reading.
    """
    sheet, walk = asked.sheet, asked.walk
    if isinstance(place, str):
        lines = [x for c in sheet.claims for x in c.limitations if x.label == place]
    elif len(oracle.chains(sheet, sheet.claim(place))) == 1:
        lines = list(sheet.claim(place).limitations)
    else:
        return
    lines = [x for x in lines if names_in(x.formula) and names_in(x.formula) <= set(case.stated)]
    lines = [x for x in lines if walk.status(case.facts, x.formula, walk.base) == "every"]
    own = All(tuple(x.formula for x in lines))
    ks = walk.constructions(groups_in(All((case.facts, above, own))))
    effective = [k for k in ks if walk.some(k, case.facts, above, without=own)]
    event(f"beside {bool(effective)}")
    findings = [f for f in told if isinstance(f, Finding)]
    ways = [changed(asked, f.construction) for f in findings]
    alone = {s for f, w in zip(findings, ways, strict=True) if len(w) == 1 for s in [*w.items(), *f.others]}
    for k in effective:
        moved = changed(asked, k)
        if len(moved) == 1:
            assert set(moved.items()) <= alone
    for f in findings:
        assert f.witness is not None
        assert f.construction is not None
        assert evaluate(own, f.witness.article, f.construction) is not True


@settings(max_examples=EXAMPLES)
@given(strategies.sheets("document"))
def test_what_documents_show(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    for case in sheet.cases:
        if case.role != "document":
            continue
        answers = by_place(outside_met(asked.prepared, case))
        for place, told in zip(asked.targets(case), answers, strict=True):
            answer = told[0]
            scope = oracle.scope(sheet, place)
            ks = walk.constructions(groups_in(case.facts, scope))
            if not any(walk.some(k, case.facts) for k in ks):
                assert isinstance(answer, Finding)
                assert answer.outcome == "vacuous"
                continue
            shown = [walk.status(case.facts, scope, k) == "every" for k in ks]
            event(f"document {any(shown)}")
            if not any(shown):
                assert isinstance(answer, Looked)
                continue
            assert isinstance(answer, Finding)
            same_reading(answer, ks[shown.index(True)])
            escapes = [walk.some(k, case.facts, without=scope) for k in ks]
            expected = "base" if any(escapes) else "every"
            assert answer.quantifier == (expected if shown[ks.index(walk.base)] else "some")


@settings(max_examples=EXAMPLES)
@given(strategies.sheets("class"))
def test_how_classes_lie(sheet: Sheet) -> None:
    asked = Asked(sheet)
    for case in sheet.cases:
        if case.role != "class":
            continue
        answers = list(class_status(asked.prepared, case))
        for place, answer in zip(asked.targets(case), answers, strict=True):
            assert isinstance(answer, Finding)
            scope = oracle.scope(sheet, place)
            ks = asked.walk.constructions(groups_in(case.facts, scope))
            statuses = [asked.walk.status(case.facts, scope, k) for k in ks]
            assert (answer.status.lowest, answer.status.highest) == (lowest(statuses), highest(statuses))
            assert answer.status.at_base == asked.walk.status(case.facts, scope, asked.walk.base)


def wanted_of(sheet: Sheet, case: Case) -> str:
    """Of an inside case that states single values, or leaves one only, some completion is enough."""
    if case.role != "inside":
        return "none"
    if set(case.stated) <= stated_values(sheet, case, exact=True).keys():
        return "some"
    if case.groups:
        return "every"
    if not all(d.whole for d in sheet.declarations if isinstance(d, NumberDecl)):
        return "some" if _one_value_each(sheet, case) else "every"
    walk = Walk(sheet)
    left = [a for a in walk.articles if evaluate(case.facts, a, walk.base) is True]
    alike = len({tuple(a[name] for name in case.stated) for a in left}) == 1
    return "some" if alike else "every"


def _one_value_each(sheet: Sheet, case: Case) -> bool:
    """Of facts that each speak of one number or choice: do they, with its bounds, leave one value of each?

    Tried are the numbers of the facts, the bounds, whole numbers, and one value in each gap between these.
    """
    facts = case.facts.items if isinstance(case.facts, All) else (case.facts,)
    base = Walk(sheet).base
    for name in case.stated:
        d = sheet.declaration(name)
        own = [f for f in facts if name in names_in(f)]
        if isinstance(d, SetDecl) or any(len(names_in(f)) > 1 for f in own):
            return False
        if isinstance(d, ChoiceDecl):
            if sum(all(evaluate(f, {name: x}, base) is True for f in own) for x in d.members) != 1:
                return False
            continue
        numbers = {n.value for f in own for n in nodes(f) if isinstance(n, Const)}
        low = d.lower.value if d.lower else min(numbers, default=Fraction(0)) - 2
        high = d.upper.value if d.upper else max(numbers, default=Fraction(0)) + 2
        numbers = {n for n in numbers if low <= n <= high}
        points = sorted({low, high, *numbers, *(Fraction(n) for n in range(ceil(low), floor(high) + 1))})
        left_out = {b.value for b in (d.lower, d.upper) if b is not None and not b.closed}
        gaps = set() if d.whole else {(a + b) / 2 for a, b in pairwise(points)}
        tried = {*points, *gaps} - left_out
        found = [v for v in tried if all(evaluate(f, {name: v}, base) is True for f in own)]
        if len(found) != 1 or found[0] in gaps:  # what holds in a gap holds of many values there
            return False
    return True


@settings(max_examples=EXAMPLES)
@given(strategies.sheets("inside", "outside"))
def test_one_reading_for_all_cases(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    wanted = [
        (case.facts, oracle.scope(sheet, place), wanted_of(sheet, case), case.name)
        for case in sheet.cases
        if case.role in ("inside", "outside")
        for place in asked.targets(case)
    ]
    answers = list(reading_for_all(asked.prepared))
    if not {"inside", "outside"} <= {case.role for case in sheet.cases}:
        assert answers == []
        return
    ks = walk.constructions(groups_in(*(f for r, s, *_ in wanted for f in (r, s))))

    def fits(k: Construction, names: Sequence[str] | None = None) -> bool:
        return all(
            not walk.some(k, region, without=scope)
            if want == "every"
            else walk.some(k, region, scope) == (want == "some")
            for region, scope, want, name in wanted
            if names is None or name in names
        )

    best = next((k for k in ks if fits(k)), None)
    event("none fits" if best is None else "the base fits" if best == walk.base else "another fits")
    (answer,) = answers
    assert answer.question == ("no reading fits all cases" if best is None else "one reading fits all cases")
    same_reading(answer, best)
    if best is None:
        assert not any(fits(k, cases_of(answer)) for k in ks)
        for left_out in cases_of(answer) if len(cases_of(answer)) > 1 else ():
            rest = [name for name in cases_of(answer) if name != left_out]
            assert any(fits(k, rest) for k in ks)
    else:
        base = walk.base
        some = [x for x in wanted if x[2] == "some" and walk.some(base, x[0], x[1])]
        left_open = {name for region, scope, _, name in some if walk.some(base, region, without=scope)}
        assert set(cases_of(answer)) == left_open


# ---- claims


@settings(max_examples=EXAMPLES * 2)
@given(strategies.sheets())
def test_claims_that_nothing_meets(sheet: Sheet) -> None:
    asked = Asked(sheet)
    for instance in asked.prepared.all_instances():
        answers = list(nothing_meets(asked.prepared, instance))
        ks = asked.walk.constructions(groups_in(instance.scope))
        can = [asked.walk.some(k, instance.scope) for k in ks]
        above = [asked.walk.some(k, instance.parent_scope) for k in ks]
        emptied = [not c and a for c, a in zip(can, above, strict=True)]
        event(f"emptied {any(emptied)}, met {any(can)}")
        if not any(emptied):
            assert all(isinstance(a, Looked) for a in answers)
            continue
        (answer,) = answers
        assert isinstance(answer, Finding)
        assert answer.stakes == (4 if any(can) else 1)
        if any(can):
            same_reading(answer, ks[emptied.index(True)])
            assert answer.quantifier == asked.reach(ks, emptied)
        else:
            assert answer.quantifier == "every"
        minimal_conflict(asked, instance, answer, ks)


def minimal_conflict(asked: Asked, instance: Instance, answer: Finding, ks: list[Construction]) -> None:
    under = ks if answer.construction is None else [answer.construction]
    assert isinstance(answer.about, Empty)
    beside = answer.about.further
    if beside:
        as_presumed = [x.formula for x in instance.limitations if x.label in lines_of(answer)]
        assert not asked.walk.some(asked.walk.base, *as_presumed)
    parts = [x.formula for x in instance.limitations if x.label in (*lines_of(answer), *beside)]
    assert parts
    assert not any(asked.walk.some(k, *parts) for k in under)
    for left_out in parts:
        rest = [p for p in parts if p is not left_out]
        assert any(asked.walk.some(k, All(()), *rest) for k in under)


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(least=2))
def test_dependent_claims_that_add_nothing(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    for instance in asked.prepared.all_instances():
        if not instance.claim.parents:
            continue
        parent, own = instance.parent_scope, instance.own_scope
        answers = {a.question: a for a in adds_nothing(asked.prepared, instance)}
        ks = walk.constructions(groups_in(parent, own))
        if not any(walk.some(k, parent) for k in ks) or not any(walk.some(k, instance.scope) for k in ks):
            assert answers == {}
            continue
        # A stretch far enough could make any claim add nothing: only stretches as presumed are asked.
        within = [
            k.parameters == walk.base.parameters
            and walk.some(k, parent)
            and not walk.some(k, parent, without=own)
            for k in ks
        ]
        narrows = [walk.some(k, parent, without=own) for k in ks]
        and_met = [so and walk.some(k, instance.scope) for k, so in zip(ks, narrows, strict=True)]
        event(f"within {any(within)}, narrows {any(narrows)}, and is met {any(and_met)}")
        assert ("adds nothing" in answers) == (any(within) or not any(narrows))
        assert ("narrows" in answers) == any(and_met)
        if "adds nothing" in answers:
            found = answers["adds nothing"]
            assert isinstance(found, Finding)
            assert found.quantifier == ("every" if not any(narrows) else asked.reach(ks, within))
            if any(narrows):
                same_reading(found, ks[within.index(True)])
            read = [found.construction] if found.construction is not None else ks
            lines = [x.formula for x in instance.inherited if x.label in lines_of(found)]
            assert not any(walk.some(k, *lines, without=own) for k in read)
            if found.quantifier == "base":
                assert isinstance(found.about, AddsNothing)
                assert found.about.never_both == (not any(and_met))
                assert bool(found.otherwise.rereads) == any(and_met)
        if any(and_met):
            found = answers["narrows"]
            assert isinstance(found, Finding)
            same_reading(found, ks[and_met.index(True)])


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(least=2))
def test_stated_ends(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    for instance in asked.prepared.all_instances():
        found = [a.label for a in ends_not_reached(asked.prepared, instance)]
        expected: list[str] = []
        things = [a for a in walk.articles if evaluate(instance.scope, a, walk.base) is True]
        for limitation in instance.own if things and instance.claim.parents else ():
            dead: dict[tuple[bool, Fraction], bool] = {}  # an end that several terms share is one end
            for end in written_ends(limitation.formula, walk.base.readings):
                there = [a for a in things if evaluate(end.given, a, walk.base) is True]
                tried = [evaluate_term(end.term, a, walk.base) for a in there]
                values = [v for v in tried if v is not None]
                farthest = last_left_in(end.op, end.term, end.limit.value)
                written = (end.upper, end.limit.value)
                if values:
                    extreme = max(values) if end.upper else min(values)
                    reached = extreme >= farthest if end.upper else extreme <= farthest
                    whole = last_whole_before(end, limitation.formula, walk.base)
                    others = last_multiples(instance.limitations, end, walk.base)
                    reached = reached or (end.op in ("<", ">") and extreme in {whole, *others})
                    dead[written] = dead.get(written, True) and not reached
            expected += [limitation.label for left in dead.values() if left]
        event(f"{len(expected)} ends")
        assert found == expected


def last_left_in(op: str, term: Term, limit: Fraction) -> Fraction:
    """How far an end by itself lets a term go: of a sum of counts the last value that is left in."""
    form = linear_form(term)
    if form is None or not set(form) - {None} or any(c.denominator != 1 for n, c in form.items() if n):
        return limit
    step, least = gcd(*(int(c) for n, c in form.items() if n)), form.get(None, Fraction(0))
    inward = -1 if op in ("<", "<=") else 1
    value = least + step * ((limit - least) // step + (inward > 0))
    if (value - inward * step) == limit and "=" in op:
        return limit
    return value + inward * step if value == limit and "=" not in op else value


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(linear=False))
def test_expressions_without_value(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    for instance in asked.prepared.all_instances():
        found = {a.label: a for a in undefined(asked.prepared, instance)}
        if instance not in widest(asked.prepared.instances[instance.claim.number]):
            assert not found  # what is so by way of a narrower one is so by way of a wider one
            continue
        for limitation in instance.own:
            others = [x.formula for x in instance.limitations if x is not limitation]
            ks = walk.constructions(groups_in(limitation.formula, *others))
            holds = [undefined_under(walk, limitation.formula, others, k) for k in ks]
            answer = found.get(limitation.label)
            event(f"undefined {any(holds)}")
            if any(holds):
                assert isinstance(answer, Finding)
                same_reading(answer, ks[holds.index(True)])
                assert answer.quantifier == asked.reach(ks, holds)
            else:
                assert not isinstance(answer, Finding)


def undefined_under(walk: Walk, formula: Formula, others: list[Formula], k: Construction) -> bool:
    columns = [walk.truths(f, k) for f in others]
    return any(
        value is None and not any(column[i] is False for column in columns)
        for i, value in enumerate(walk.truths(formula, k))
    )


# ---- readings


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(meant=True))
def test_what_was_meant(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    for limitation in (x for c in sheet.claims for x in c.limitations):
        assert limitation.meant is not None
        meant = walk.truths(limitation.meant, walk.base)
        ks = walk.constructions(groups_in(limitation.formula))
        wrong = {
            "unmeant met": [
                [m is False and got for m, got in zip(meant, walk.met(limitation.formula, k), strict=True)]
                for k in ks
            ],
            "meant lost": [
                [m is True and not got for m, got in zip(meant, walk.met(limitation.formula, k), strict=True)]
                for k in ks
            ],
        }
        for answer in parts_meant(asked.prepared, limitation):
            found = wrong.pop(answer.question)
            holds = [any(things) for things in found]
            assert isinstance(answer, Finding) == kept_by_the_rest(asked, limitation, meant, answer.question)
            if isinstance(answer, Finding):
                beside = met_beside(asked, limitation, ks, found)
                same_reading(answer, ks[beside.index(True)])
                assert answer.quantifier == asked.reach(ks, holds if all(holds) else beside)
                assert (answer.stakes == 1) == all(holds)
        assert wrong == {}


def kept_by_the_rest(
    asked: Asked, limitation: Limitation, meant: Sequence[bool | None], question: str
) -> bool:
    """Is something wrong on a construction on which the other lines of the claim let it in?"""
    walk, claim = asked.walk, asked.sheet.claim(limitation.claim)
    rest: list[Formula] = [x.formula for x in claim.limitations if x is not limitation]
    above = [All(tuple(x.formula for x in i.inherited)) for i in asked.prepared.instances[claim.number]]
    rest += [Any(tuple(above))] if All(()) not in above else []
    for k in walk.constructions(groups_in(All((limitation.formula, *rest)))):
        got, let_in = walk.met(limitation.formula, k), [walk.met(f, k) for f in rest]
        for at, m in enumerate(meant):
            out = (m is False and got[at]) if question == "unmeant met" else (m is True and not got[at])
            if out and all(line[at] for line in let_in):
                return True
    return False


def met_beside(
    asked: Asked, limitation: Limitation, ks: Sequence[Construction], wrong: Sequence[Sequence[bool]]
) -> list[bool]:
    """On which constructions it is so of a thing that the rest lets in as presumed; if on none, of any."""
    walk, own = asked.walk, set(groups_in(limitation.formula))
    rest = [x.formula for x in asked.prepared.limitations(limitation.claim) if x.label != limitation.label]
    beside = []
    for k, things in zip(ks, wrong, strict=True):
        lines = [walk.met(f, k if set(groups_in(f)) <= own else walk.base) for f in rest]
        beside.append(any(out and all(line[at] for line in lines) for at, out in enumerate(things)))
    return beside if any(beside) else [any(things) for things in wrong]


@settings(max_examples=EXAMPLES)
@given(strategies.sheets())
def test_contested_phrases(sheet: Sheet) -> None:
    asked = Asked(sheet)
    walk = asked.walk
    base = walk.base
    for instance in asked.prepared.all_instances():
        scope = instance.scope
        answers = iter(list(contested(asked.prepared, instance)))
        if not any(walk.some(k, scope) for k in walk.constructions(groups_in(scope))):
            assert list(answers) == []
            continue
        seen: set[int] = set()
        before = walk.met(scope, base)
        for g in (g for x in instance.own for g in groups_in(x.formula)):
            if g in seen:
                continue
            seen.add(g)
            for r in admissible_readings(sheet.groups[g]):
                if r == base.readings[g]:
                    continue
                after = walk.met(scope, base.with_reading(g, r))
                alike = [x.formula for x in instance.own if g in groups_in(x.formula)]
                if changes := [c for x in alike if (c := changed_by(walk, x, (before, after), base, (g, r)))]:
                    told = [next(answers) for _ in changes]
                    abouts = [a.about for a in told if isinstance(a, Finding)]
                    assert [a.change for a in abouts if isinstance(a, OneReading)] == changes
                    assert {a.step for a in abouts if isinstance(a, OneReading)} == {(g, r)}
                    assert {a.question for a in told} == {"contested"}
                    continue
                answer = next(answers)
                assert isinstance(answer, Finding)
                wider = any(a and not b for a, b in zip(after, before, strict=True))
                narrower = any(b and not a for a, b in zip(after, before, strict=True))
                if wider or narrower:
                    change = "both" if wider and narrower else "wider" if wider else "narrower"
                    assert (answer.question, answer.about) == ("contested", OneReading((g, r), change))
                    continue
                ks = [k for k in walk.constructions(groups_in(scope)) if k.readings[g] == r]
                matters = any(
                    walk.met(scope, k) != walk.met(scope, k.with_reading(g, base.readings[g])) for k in ks
                )
                event(f"matters with others: {matters}")
                assert answer.question == ("contested" if matters else "harmless")
                singles = [base.with_reading(h, q) for h in groups_in(scope) for q in readings_of(sheet, h)]
                opened = not any(before) and any(walk.some(k, scope) for k in singles)
                others = [h for h in groups_in(scope) if h != g]
                for h in others if matters and not opened else []:
                    if is_pair(asked, scope, (g, [r]), (h, admissible_readings(sheet.groups[h]))):
                        found = next(answers)
                        assert isinstance(found, Finding)
                        assert found.question == "pair"
                        assert {x.group for x in (*found.rereads, *found.read_as)} == {g, h}
        assert next(answers, None) is None


def readings_of(sheet: Sheet, group: int) -> tuple[int, ...]:
    return tuple(admissible_readings(sheet.groups[group]))


def changed_by(
    walk: Walk, line: Formula, met: tuple[list[bool], list[bool]], base: Construction, step: tuple[int, int]
) -> str:
    """What a reading changes by one line: where the claim changes, and the line keeps out what is out."""
    own, read = walk.met(line, base), walk.met(line, base.with_reading(*step))
    moved = list(zip(*met, own, read, strict=True))
    wider = any(after and not before and not was for before, after, was, _ in moved)
    narrower = any(before and not after and not now for before, after, _, now in moved)
    return "both" if wider and narrower else "wider" if wider else "narrower" if narrower else ""


@settings(max_examples=10)
@given(strategies.sheets(least=3))
def test_contested_phrases_stated_only(sheet: Sheet) -> None:
    """Without things only the lines that can bear on a phrase are looked at: the same phrases are told."""
    told: list[set[tuple[object, ...]]] = []
    for details in (False, True):
        prepared, found = prepare(sheet, details=details), []
        for instance in prepared.all_instances():
            list(nothing_meets(prepared, instance))
            found += [f for f in contested(prepared, instance) if isinstance(f, Finding)]
        told.append({(f.question, f.claim, step_of(f)) for f in found if f.question != "pair"})
    assert told[0] == told[1]


@settings(max_examples=EXAMPLES)
@given(strategies.sheets())
def test_phrases_that_change_something_only_together(sheet: Sheet) -> None:
    asked = Asked(sheet)
    for limitation in (x for c in sheet.claims for x in c.limitations):
        found = list(pairs(asked.prepared, limitation))
        departing = {g.index: [r for r in admissible_readings(g) if departs(g, r)] for g in sheet.groups}
        expected = sum(
            is_pair(asked, limitation.formula, (g, departing[g]), (h, departing[h]))
            for g, h in combinations(groups_in(limitation.formula), 2)
        )
        event(f"{expected} pairs")
        assert len(found) == expected


def is_pair(asked: Asked, formula: Formula, one: Readings, other: Readings) -> bool:
    """Is there a thing that no reading of either group alone moves, and some two of these together do?"""
    walk, groups, base = asked.walk, asked.sheet.groups, asked.walk.base
    alone = [base.with_reading(g, r) for g, _ in (one, other) for r in admissible_readings(groups[g])]
    both = [base.with_reading(one[0], r).with_reading(other[0], q) for r in one[1] for q in other[1]]
    before = walk.met(formula, base)
    unmoved = [all(walk.met(formula, k)[i] == value for k in alone) for i, value in enumerate(before)]
    return any(
        still and walk.met(formula, k)[i] != before[i] for i, still in enumerate(unmoved) for k in both
    )


# ---- witnesses


@settings(max_examples=EXAMPLES // 2)
@given(strategies.sheets("outside", "inside", "document", meant=True), st.booleans())
def test_things_are_checked_under_the_construction_that_is_told(sheet: Sheet, details: bool) -> None:
    base = Walk(sheet).base
    for finding in ask_all(sheet, details=details).findings:
        for witness in (finding.witness, twin_of(finding)):
            if witness is None:
                continue
            under = {o.construction for o in witness.obligations}
            assert finding.construction in under
            assert under <= {finding.construction, base}
            assert verify(sheet, witness.article, witness.obligations) == witness


# ---- measured quantities


@st.composite
def measured(draw: st.DrawFn, *roles: Role) -> Sheet:
    """A sheet with lengths in place of the counts, and other ends."""
    sheet = draw(strategies.sheets(*roles))
    lower, upper = draw(st.sampled_from([("0", "3000"), ("(0", None), (None, "(2500")]))
    # A median may be of as many things as a count says; a length is no count.
    formulas = [x.formula for c in sheet.claims for x in c.limitations] + [c.facts for c in sheet.cases]
    assume(not any(isinstance(node, Ranked) for f in formulas for node in nodes(f)))
    lengths = (build.number("n", "mm", lower, upper), build.number("m", "mm", "-1000", "1000"))
    return replace(sheet, declarations=(*lengths, *sheet.declarations[2:]))


def each_decided(sheet: Sheet, *tests: Whatever) -> None:
    """Each of the tests on the sheet, whatever is left undecided in another (of products, now and then)."""
    for test in tests:
        with tally.may_be_undecided(), suppress(UnsatisfiedAssumption):
            test.hypothesis.inner_test(sheet)


@settings(max_examples=EXAMPLES)
@given(measured("outside", "inside", "document"))
def test_cases_of_measured_things(sheet: Sheet) -> None:
    each_decided(
        sheet,
        test_what_must_stay_out,
        test_what_must_be_covered,
        test_what_documents_show,
        test_one_reading_for_all_cases,
    )


@settings(max_examples=EXAMPLES)
@given(measured())
def test_claims_of_measured_things(sheet: Sheet) -> None:
    each_decided(sheet, test_claims_that_nothing_meets, test_dependent_claims_that_add_nothing)


# ---- free parameters


@settings(max_examples=EXAMPLES * 2)
@given(strategies.sheets("outside", "inside", stretched=True))
def test_cases_beside_free_parameters(sheet: Sheet) -> None:
    each_decided(sheet, test_what_must_stay_out, test_what_must_be_covered)


@settings(max_examples=EXAMPLES)
@given(strategies.sheets("outside", "inside", stretched=True))
def test_one_reading_beside_free_parameters(sheet: Sheet) -> None:
    each_decided(sheet, test_one_reading_for_all_cases)


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(least=2, meant=True, stretched=True))
def test_claims_beside_free_parameters(sheet: Sheet) -> None:
    each_decided(sheet, test_dependent_claims_that_add_nothing, test_what_was_meant, test_stated_ends)
