"""Questions about several claims at once, against the walk over all things and constructions."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from random import Random

from scopecheck.answers.about import Alike
from scopecheck.answers.findings import Finding, also_claims_of
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.claims import adds_nothing, nothing_meets
from scopecheck.answers.questions.same_scope import same_scope
from scopecheck.core.construction import groups_in
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.formula import Compare, Const, Formula, Measured, Op, Read
from scopecheck.core.model import Claim, Sheet
from tests.build import claim, count, group, limitation, sheet
from tests.oracle import Walk, scope

SHEETS = 200
NAMES = ("width", "depth")
OPS: tuple[Op, ...] = ("<=", ">=", "<", ">")
PARENTS = ((), (), (1,), (1,), (2,), (1, 2), (3,))


def small_set(seed: int) -> Sheet:
    """Five claims over two small numbers, most of them depending on others, with two phrases."""
    chance = Random(seed)
    groups = [group(i, "so", "or so?") for i in range(2)]

    def compare() -> Formula:
        return Compare(
            chance.choice(OPS), Measured(chance.choice(NAMES)), Const(Fraction(chance.randint(0, 3)))
        )

    def formula() -> Formula:
        read = chance.choice(groups)
        sort = chance.random()
        if sort < 0.5:
            return Read(read.index, (compare(), compare()))
        return AnyOf((compare(), compare())) if sort < 0.6 else compare()

    made: list[Claim] = []
    for number in range(1, 6):
        parents = chance.choice([p for p in PARENTS if all(n < number for n in p)])
        own = [limitation(f"{number}{'ab'[i]}", formula()) for i in range(chance.randint(1, 2))]
        made.append(claim(number, *own, parents=parents))
    return sheet([count(name, "0", "3") for name in NAMES], made, groups)


def above(made: Sheet, number: int) -> set[int]:
    parents = set(made.claim(number).parents)
    return parents.union(*(above(made, p) for p in parents))


def test_claims_that_take_in_the_same_things() -> None:
    counts = dict.fromkeys(("every", "base", "parted"), 0)
    for seed in range(SHEETS):
        made = small_set(seed)
        walk, prepared = Walk(made), prepare(made, details=True)
        found = list(same_scope(prepared))
        told = {f.claim: f for f in found if f.question == "same scope"}
        columns = {c.number: walk.met(scope(made, c.number), walk.base) for c in made.claims}
        alike = [
            (a, b)
            for a, b in combinations(columns, 2)
            if any(columns[a]) and columns[a] == columns[b] and not {a, b} & (above(made, a) | above(made, b))
        ]
        for f in told.values():
            assert isinstance(f.about, Alike)
            other = f.about.other
            assert (other, f.claim) in alike
            ks = walk.constructions(groups_in(scope(made, other), scope(made, f.claim)))
            same = all(walk.met(scope(made, other), k) == walk.met(scope(made, f.claim), k) for k in ks)
            assert f.quantifier == ("every" if same else "base")
            counts[f.quantifier] += 1
        for a, b in alike:
            assert b in told or follows(made, columns, a, b)
        for f in found:
            if f.question == "parted on a reading":
                assert f.witness is not None
                counts["parted"] += 1
    assert all(n > 3 for n in counts.values()), counts


def follows(made: Sheet, columns: dict[int, tuple[bool, ...]], a: int, b: int) -> bool:
    """Is one of the two like a claim it depends on, or do both depend on claims that are alike?"""
    idle = any(columns[n] == columns[x] for x in (a, b) for n in above(made, x))
    alike = any(columns[x] == columns[y] for x in above(made, a) for y in above(made, b) if x != y)
    return idle or alike


def test_no_reading_for_all_claims() -> None:
    told = 0
    for seed in range(SHEETS // 2):
        made = small_set(1000 + seed)
        walk = Walk(made)
        prepared = prepare(made)
        findings = ask_all(made).findings
        found = [f for f in findings if f.question == "no reading suits all claims"]
        ks = walk.constructions([g.index for g in made.groups])
        # What is told may leave out what another finding tells; what was found is asked for again.
        ways = prepared.all_instances()
        asked = (a for i in ways for ask in (nothing_meets, adds_nothing) for a in ask(prepared, i))
        hopeless = {a.claim for a in asked if isinstance(a, Finding) and is_hopeless(a)}
        hopeless |= {i.claim.number for i in ways if not any(walk.some(k, i.scope) for k in ks)}
        below = {c.number for c in made.claims if above(made, c.number) & hopeless}
        instances = [i for i in ways if i.claim.number not in hopeless | below]

        def works(k, numbers, instances=instances, walk=walk) -> bool:  # type: ignore[no-untyped-def]
            own = [i for i in instances if i.claim.number in numbers]
            narrows = all(
                walk.some(k, i.parent_scope, without=i.own_scope) for i in own if i.claim.parents and i.own
            )
            return narrows and all(walk.some(k, i.scope) for i in own)

        every = {i.claim.number for i in instances}
        assert bool(found) == (not any(works(k, every) for k in ks))
        for f in found:
            numbers = {*also_claims_of(f), f.claim}
            assert not any(works(k, numbers) for k in ks)
            assert all(any(works(k, numbers - {n}) for k in ks) for n in numbers)
            told += 1
    assert told > 3


def is_hopeless(f: Finding) -> bool:
    return (
        f.question in ("nothing meets", "dependent cannot be met", "adds nothing") and f.quantifier == "every"
    )
