"""Minimal sets and idle limitations against trying every subset, on generated sheets small enough for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import combinations
from random import Random

import pytest

from scopecheck.answers.about import Empty, Idle, KeptOut
from scopecheck.answers.findings import Finding, because, lines_of
from scopecheck.answers.minimal import minimal_sets
from scopecheck.answers.questions import prepare
from scopecheck.answers.questions.claims import nothing_meets
from scopecheck.answers.questions.idle import idle
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.kept_out import kept_out
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, groups_in
from scopecheck.core.formula import All, Any, Compare, Const, Formula, Measured, Op, Read
from scopecheck.core.model import Case, Limitation, Sheet
from scopecheck.foundations.record import replace
from tests.build import case, claim, count, group, limitation, point, sheet
from tests.oracle import Walk

SHEETS = 300
NAMES = ("width", "depth", "rows")
OPS: tuple[Op, ...] = ("<", "<=", ">=", ">", "=", "!=")


def small_sheet(seed: int, tight: bool = True) -> Sheet:
    """A claim and a dependent one over three numbers up to 4; `tight` ones often leave nothing."""
    chance = Random(seed)
    groups = [group(i, *("so", "or so?", "or so")[: chance.randint(1, 3)]) for i in range(3)]

    def compare() -> Formula:
        name = Measured(chance.choice(NAMES))
        if chance.random() < 0.25:
            return Compare(chance.choice(OPS[:4]), name, Measured(chance.choice(NAMES)))
        return Compare(chance.choice(OPS if tight else OPS[:4]), name, Const(Fraction(chance.randint(0, 4))))

    def formula() -> Formula:
        if chance.random() < 0.6:
            read = chance.choice(groups)
            options = tuple(_part(chance, compare) for _ in read.readings)
            return Read(read.index, options)
        return _part(chance, compare)

    def limitations(number: int, count: int) -> list[Limitation]:
        return [limitation(f"{number}{'abcdef'[i]}", formula()) for i in range(count)]

    first = claim(1, *limitations(1, chance.randint(2, 5)))
    second = claim(2, *limitations(2, chance.randint(1, 3)), parents=(1,))
    return sheet([count(name, "0", "4") for name in NAMES], [first, second], groups)


def _part(chance: Random, compare: Callable[[], Formula]) -> Formula:
    sort = chance.random()
    if sort < 0.2:
        return All((compare(), compare()))
    return Any((compare(), compare())) if sort < 0.35 else compare()


def least_sets(labels: Sequence[str], clash: Callable[[Iterable[str]], bool]) -> set[tuple[str, ...]]:
    """Every minimal set that clashes, by trying all of them."""
    found: list[tuple[str, ...]] = []
    for size in range(1, len(labels) + 1):
        for some in combinations(labels, size):
            if not any(set(s) <= set(some) for s in found) and clash(some):
                found.append(some)
    return set(found)


def twins_of(finding: Finding) -> tuple[str, ...]:
    assert isinstance(finding.about, Idle)
    return finding.about.twins


def every_set(finding: Finding) -> set[tuple[str, ...]]:
    assert isinstance(finding.about, Empty)
    assert finding.about.by.every
    if finding.about.further:  # fewer lines conflict as presumed than on every reading
        assert not finding.about.by.sets
        return {tuple(sorted((*lines_of(finding), *finding.about.further)))}
    return set(finding.about.by.sets or (lines_of(finding),))


def test_lines_that_conflict() -> None:
    several = 0
    for seed in range(SHEETS):
        made = small_sheet(seed)
        walk, prepared = Walk(made), prepare(made)
        for instance in prepared.all_instances():
            formulas = {x.label: x.formula for x in instance.limitations}
            for finding in nothing_meets(prepared, instance):
                if not isinstance(finding, Finding):
                    continue
                ks = [finding.construction] if finding.construction else _all_of(walk, instance)
                assert every_set(finding) == conflicts_by_walk(walk, ks, formulas)
                several += bool(because(finding).sets)
    assert several > SHEETS / 10


def conflicts_by_walk(
    walk: Walk, ks: Sequence[Construction], formulas: Mapping[str, Formula], *fixed: Formula
) -> set[tuple[str, ...]]:
    """The minimal sets of formulas that nothing meets, together with the fixed ones, under any of these."""

    def clash(some: Iterable[str]) -> bool:
        parts = [formulas[label] for label in some]
        return not any(walk.some(k, All(()), *fixed, *parts) for k in ks)

    return least_sets(tuple(formulas), clash)


def _all_of(walk: Walk, instance: Instance) -> list[Construction]:
    return walk.constructions(groups_in(*(x.formula for x in instance.limitations)))


def test_idle_limitations() -> None:
    counts = dict.fromkeys(("every", "base", "some", "twins"), 0)
    for seed in range(SHEETS):
        made = small_sheet(seed, tight=False)
        walk, prepared = Walk(made), prepare(made)
        for instance in prepared.all_instances():
            found = [f for f in idle(prepared, instance) if isinstance(f, Finding)]
            told = {f.label: f for f in found if f.question == "idle"}
            expected = idle_by_walk(walk, instance)
            for quantifier in ("every", "base", "some"):
                own = [f for f in told.values() if f.quantifier == quantifier]
                labels = {label for f in own for label in (f.label, *twins_of(f))}
                assert labels == {label for label, q in expected.items() if q == quantifier}
                counts[quantifier] += len(own)
                if quantifier != "some":
                    ks = _all_of(walk, instance) if quantifier == "every" else [walk.base]
                    as_many_as_can_go(walk, instance, own, ks)
                counts["twins"] += sum(bool(twins_of(f)) for f in own)
            for f in told.values():
                beside_which(walk, prepared, instance, f)
    assert all(n > 5 for n in counts.values()), counts


def idle_by_walk(walk: Walk, instance: Instance) -> dict[str, str]:
    """Of each limitation that is idle: on every construction, on the base one, or on some."""
    ks = _all_of(walk, instance)
    if not any(walk.some(k, instance.scope) for k in ks):
        return {}
    expected = {}
    for x in instance.own if not instance.claim.parents or len(instance.own) > 1 else ():
        rest = [y.formula for y in instance.limitations if y is not x]
        misses = [walk.some(k, All(()), *rest, without=x.formula) for k in ks]
        within = [not m and walk.some(k, All(()), *rest) for m, k in zip(misses, ks, strict=True)]
        if not any(misses):
            expected[x.label] = "every"
        elif within[ks.index(walk.base)]:
            expected[x.label] = "base"
        elif any(within):
            expected[x.label] = "some"
    return expected


def as_many_as_can_go(
    walk: Walk, instance: Instance, own: Sequence[Finding], ks: Sequence[Construction]
) -> None:
    """Are those told idle together, and is none of their twins idle beside what is left?"""
    gone = {f.label for f in own}

    def can_go(labels: set[str]) -> bool:
        rest = [x.formula for x in instance.limitations if x.label not in labels]
        lost = [x.formula for x in instance.limitations if x.label in labels]
        return not any(walk.some(k, All(()), *rest, without=All(tuple(lost))) for k in ks)

    assert not gone or can_go(gone)
    assert not any(can_go({*gone, twin}) for f in own for twin in twins_of(f))


def beside_which(walk: Walk, prepared: Prepared, instance: Instance, finding: Finding) -> None:
    """Does what is named make it idle?"""
    k = finding.construction
    named = [x.formula for x in instance.limitations if x.label in lines_of(finding)]
    ks = [k] if k is not None else _all_of(walk, instance)
    own = next(x.formula for x in instance.limitations if x.label == finding.label)
    assert not any(walk.some(c, All(()), *named, without=own) for c in ks)


# ---- what keeps a case out


def listed_cases(seed: int) -> list[Case]:
    """A thing, a thing that leaves something open, and a document that says nothing of something."""
    chance = Random(seed)
    declared = [count(name, "0", "4") for name in NAMES]
    values = {name: chance.randint(0, 4) for name in NAMES}
    some = dict(list(values.items())[: chance.randint(1, 2)])
    return [
        case("whole", "outside", point(declared, **values), ("1",)),
        case("open", "outside", point(declared, **some), ("1",)),
        case("D1", "document", point(declared, **some), ("1",)),
    ]


def test_what_keeps_a_case_out() -> None:
    sorts = ("alone", "several", "together", "silent", "below", "always", "single", "only together")
    sorts += ("besides",)
    counts = dict.fromkeys(sorts, 0)
    for seed in range(SHEETS):
        made = small_sheet(seed, tight=False)
        made = replace(of_two_phrases(made, seed) if seed % 3 == 0 else made, cases=tuple(listed_cases(seed)))
        walk, prepared = Walk(made), prepare(made, details=True)
        for listed in made.cases:
            told = {f.claim: f for f in kept_out(prepared, listed)}
            for instance in prepared.all_instances():
                expected = kept_out_by_walk(walk, listed, instance)
                found = told.get(instance.claim.number)
                assert (found is None) == (expected is None)
                if found is not None:
                    kept = found.about
                    assert isinstance(kept, KeptOut)
                    assert (set(kept.sets), set(kept.silent)) == expected
                    assert kept.every_set
                    hangs_on_one(walk, listed, instance, kept)
                    falls_as_by_walk(walk, listed, kept, {x.label: x.formula for x in instance.limitations})
                    besides_as_by_walk(walk, listed, instance, kept)
                    counts["besides"] += len(kept.besides)
                    counts["always"] += sum(f.always for f in kept.falls)
                    counts["single"] += sum(bool(f.single) for f in kept.falls)
                    counts["only together"] += sum(bool(f.together) for f in kept.falls)
                    counts["alone"] += bool(kept.line)
                    counts["several"] += len(kept.sets) > 1
                    counts["together"] += any(len(s) > 1 for s in kept.sets)
                    counts["silent"] += found.question == "silence alone keeps out"
                    counts["below"] += found.claim == 2
    assert all(n > 5 for n in counts.values()), counts


def of_two_phrases(made: Sheet, seed: int) -> Sheet:
    """The sheet with two phrases in the first limitation of its first claim, both of which have to be met."""
    chance = Random(seed)

    def phrase(group: int) -> Read:
        name, usual = Measured(chance.choice(NAMES)), made.groups[group].base
        count = len(made.groups[group].readings)
        limits = [Const(Fraction(chance.randint(0, 1) if r == usual else 3)) for r in range(count)]
        return Read(group, tuple(Compare("<=", name, limit) for limit in limits))

    first, *others = made.claims
    line, *rest = first.limitations
    both = limitation(line.label, All((phrase(0), phrase(1))))
    return replace(made, claims=(claim(1, both, *rest), *others))


def falls_as_by_walk(walk: Walk, listed: Case, kept: KeptOut, formulas: Mapping[str, Formula]) -> None:
    """On which readings does something of the case meet each set, whichever way the rest is read?"""
    assert tuple(f.labels for f in kept.falls) == kept.sets
    for fall in kept.falls:
        asked = [formulas[label] for label in fall.labels]
        let_by = [k for k in walk.constructions(groups_in(*asked)) if walk.some(k, listed.facts, *asked)]
        assert fall.decided
        assert fall.always == (not let_by)
        moved = [{(g, r) for g, r in enumerate(k.readings) if r != walk.base.readings[g]} for k in let_by]
        single = {(r.group, r.reading) for r in fall.single}
        assert single == {step for m in moved if len(m) == 1 for step in m}
        if fall.together:
            assert {(r.group, r.reading) for r in fall.together} in moved
            assert len(fall.together) == min(map(len, moved))


def besides_as_by_walk(walk: Walk, listed: Case, instance: Instance, kept: KeptOut) -> None:
    """Which limitations of no set keep the case out on one re-reading?"""
    inside = {label for one in kept.sets for label in one}
    expected = {
        (x.label, g, r)
        for x in instance.limitations
        for g in groups_in(x.formula)
        for r in range(len(walk.sheet.groups[g].readings))
        if x.label not in inside and r != walk.base.readings[g]
        if not walk.some(walk.base.with_reading(g, r), listed.facts, x.formula)
    }
    assert {(w.label, g, r) for w in kept.besides for g, r in w.readings} == expected


Kept = tuple[set[tuple[str, ...]], set[str]]


def kept_out_by_walk(walk: Walk, listed: Case, instance: Instance) -> Kept | None:
    """The minimal sets that exclude the case and what a document leaves open; None where nothing is told."""
    k, facts, scope = walk.base, listed.facts, instance.scope
    if not any(walk.some(c, scope) for c in _all_of(walk, instance)):
        return None
    if not stays_in(walk, listed, instance.parent_scope) or stays_in(walk, listed, scope):
        return None
    formulas = {x.label: x.formula for x in instance.limitations}
    against = set() if walk.some(k, facts, scope) else conflicts_by_walk(walk, [k], formulas, facts)
    if listed.role != "document":
        return against, set()
    lines = {label for label, f in formulas.items() if walk.some(k, facts, without=f)}
    return against, lines - {label for s in against for label in s}


def stays_in(walk: Walk, listed: Case, scope: All) -> bool:
    """Is the case met as presumed: something of a thing, all that a document leaves possible?"""
    if listed.role == "document":
        return not walk.some(walk.base, listed.facts, without=scope)
    return walk.some(walk.base, listed.facts, scope)


def hangs_on_one(walk: Walk, listed: Case, instance: Instance, kept: KeptOut) -> None:
    """Would the case be met without the one limitation, and without no other one?"""

    def met_without(label: str) -> bool:
        return stays_in(walk, listed, All(tuple(x.formula for x in instance.limitations if x.label != label)))

    enough = [x.label for x in instance.limitations if met_without(x.label)]
    assert kept.line == (enough[0] if len(enough) == 1 else "")


# ---- the enumeration by itself


@pytest.mark.parametrize("seed", range(SHEETS))
def test_sets_that_are_known_are_found(seed: int) -> None:
    """Families of sets of which none holds another, some of them with many sets in common."""
    chance = Random(seed)
    labels = "abcdefg"[: chance.randint(1, 7)]
    drawn = [frozenset(chance.sample(labels, chance.randint(1, min(3, len(labels))))) for _ in range(6)]
    family = {s for s in drawn if not any(other < s for other in drawn)}

    def clash(some: Sequence[str]) -> tuple[str, ...] | None:
        inside = [s for s in family if s <= set(some)]
        return tuple(sorted(chance.choice(inside))) if inside else None

    found = minimal_sets(labels, clash)
    assert found.every
    assert {frozenset(s) for s in found.sets} == family
    sizes = [(len(s), s) for s in found.sets]
    assert sizes == sorted(sizes)


def test_a_count_of_sets_that_was_cut_says_so() -> None:
    def pairs(some: Sequence[str]) -> tuple[str, ...] | None:
        return tuple(some[:2]) if len(some) > 1 else None

    cut = minimal_sets("abcdefgh", pairs, 5)
    assert len(cut.sets) == 5
    assert not cut.every
    assert len(minimal_sets("abcd", pairs).sets) == 6
    assert minimal_sets("abcd", lambda some: None).sets == ()
