"""The order of the claims' scopes against the walk over all things of a small sheet."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, event, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from scopecheck.answers.order import ScopeMap, scope_map
from scopecheck.answers.questions import prepare
from scopecheck.core.construction import groups_in
from scopecheck.core.formula import Compare, Const, Formula, Measured, Op, Read
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import evaluate
from tests import build, oracle, strategies
from tests.oracle import Walk


@st.composite
def limits(draw: DrawFn, world: strategies.World) -> Formula:
    """An end of a count, in or out and one off by the readings of a phrase."""
    g = draw(st.sampled_from(world.groups))
    name, limit = draw(st.sampled_from(["n", "n", "m"])), draw(st.integers(0, 2))
    ops: tuple[Op, ...] = draw(st.sampled_from([(">=", ">"), ("<=", "<"), ("<=", "<=")]))
    near = [limit + draw(st.sampled_from([0, 0, 0, 1])) for _ in g.readings]
    options = [Compare(draw(st.sampled_from(ops)), Measured(name), Const(Fraction(v))) for v in near]
    return Read(g.index, tuple(options))


@st.composite
def claim_sets(draw: DrawFn) -> Sheet:
    """Up to seven claims with parents before them, one in four with two; some say what others say."""
    world = draw(strategies.finite_worlds(2))
    said = [draw(limits(world)) for _ in range(3)] + [draw(strategies.phrases(world, linear=True))]
    claims = []
    for number in range(1, draw(st.integers(2, 7)) + 1):
        taken = draw(st.lists(st.sampled_from(said), min_size=0 if number > 1 else 1, max_size=2))
        made = [build.limitation(f"{number}{'ab'[i]}", formula) for i, formula in enumerate(taken)]
        earlier = list(range(1, number))
        most = min(len(earlier), draw(st.sampled_from([0, 0, 1, 1, 2])))
        parents = tuple(sorted(draw(st.permutations(earlier))[:most]))
        other = bool(parents) and draw(st.integers(0, 5)) == 0
        category = "method" if other else "thing"
        claims.append(
            replace(build.claim(number, *made, parents=parents), other_category=other, category=category)
        )
    return build.sheet(world.declarations, claims, world.groups)


def above(found: ScopeMap) -> dict[int, set[int]]:
    """For each claim the claims that the map puts it within, those of its own scope included."""
    wider: dict[int, set[int]] = {e.claims[0]: set() for e in found.equals}
    for step in found.steps:
        wider[step.narrower].add(step.wider)

    def upward(n: int) -> set[int]:
        return {n}.union(*(upward(m) for m in wider[n]))

    members = {e.claims[0]: set(e.claims) for e in found.equals}
    return {
        n: set().union(*(members[m] for m in upward(e.claims[0]))) for e in found.equals for n in e.claims
    }


@settings(max_examples=200)
@given(claim_sets())
def test_the_map_is_the_order_of_the_scopes(sheet: Sheet) -> None:
    found = scope_map(prepare(sheet))
    assume(not found.doubts)
    walk = Walk(sheet)
    scopes = {c.number: oracle.scope(sheet, c.number) for c in sheet.claims}
    met = {n: walk.met(f, walk.base) for n, f in scopes.items()}
    sorts = dict(found.sorts)
    assert set(found.empty) == {n for n, m in met.items() if not any(m)}
    real = {n: m for n, m in met.items() if any(m)}
    event(f"{len(found.steps)} steps")

    def inside(a: int, b: int) -> bool:
        return sorts[a] == sorts[b] and all(y or not x for x, y in zip(real[a], real[b], strict=True))

    expected = {a: {b for b in real if inside(a, b)} for a in real}
    assert above(found) == expected
    for equal in found.equals:
        event(f"{len(equal.claims)} of one scope")
        assert {n for n in real if inside(equal.claims[0], n) and inside(n, equal.claims[0])} == set(
            equal.claims
        )
        assert equal.every == all(holds_everywhere(walk, scopes, equal.claims[0], n) for n in equal.claims)


def holds_everywhere(walk: Walk, scopes: dict[int, oracle.Formula], a: int, b: int) -> bool:
    """Are the two of one scope on every construction?"""
    ks = walk.constructions(groups_in(scopes[a], scopes[b]))
    return all(walk.met(scopes[a], k) == walk.met(scopes[b], k) for k in ks)


@settings(max_examples=200)
@given(claim_sets())
def test_every_step_is_needed_and_shown(sheet: Sheet) -> None:
    found = scope_map(prepare(sheet))
    walk = Walk(sheet)
    scopes = {c.number: oracle.scope(sheet, c.number) for c in sheet.claims}

    def meets(n: int, article: oracle.Article) -> bool:
        return evaluate(scopes[n], article, walk.base) is True

    wider = {(s.narrower, s.wider) for s in found.steps}
    for step in found.steps:
        assert meets(step.wider, step.article)
        assert not meets(step.narrower, step.article)
        assert not any((step.narrower, n) in wider and (n, step.wider) in wider for n in scopes)
        ks = walk.constructions(groups_in(scopes[step.narrower], scopes[step.wider]))
        everywhere = not any(walk.some(k, scopes[step.narrower], without=scopes[step.wider]) for k in ks)
        assert step.every == everywhere
    for apart in found.apart:
        event("apart")
        assert meets(apart.first, apart.only_first)
        assert not meets(apart.second, apart.only_first)
        assert meets(apart.second, apart.only_second)
        assert not meets(apart.first, apart.only_second)
