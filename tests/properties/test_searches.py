"""Searches against the walk over everything: best construction, simplest thing, one for all things."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from scopecheck.answers.minimise import pick_article, settle_construction
from scopecheck.answers.refine import Demand, find_construction
from scopecheck.answers.witness import Obligation, WitnessError, verify
from scopecheck.core.construction import groups_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Article,
    Chosen,
    Compare,
    Const,
    Formula,
    Includes,
    IsWhole,
    Measured,
    Multiply,
    Not,
    Parameter,
    Read,
    Truth,
)
from scopecheck.core.model import Sheet
from scopecheck.core.plain import scales, tightened
from scopecheck.core.reference import Reference
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from tests import build, oracle, strategies
from tests.undecided import tally

TENTH = Fraction(1, 10)


@st.composite
def finite(draw: st.DrawFn, strained: bool = False) -> tuple[strategies.World, Formula]:
    world = draw(strategies.finite_worlds(strained=strained))
    return world, draw(strategies.formulas(world, 3, linear=True))


# ---- the three values


@settings(max_examples=60)
@given(finite())
def test_met_denied_and_undefined_part_everything(drawn: tuple[strategies.World, Formula]) -> None:
    world, formula = drawn
    session = Session(world.sheet())
    met, denied, undefined = (f(formula) for f in (session.met, session.denied, session.undefined))
    search = session.search(range(len(world.groups)))
    assert not search.holds(met, denied)
    assert not search.holds(~met, ~denied, ~undefined)
    walk = oracle.Walk(world.sheet())
    values = {v for k in walk.constructions(range(len(world.groups))) for v in walk.truths(formula, k)}
    assert {True: search.holds(met), False: search.holds(denied), None: search.holds(undefined)} == {
        v: v in values for v in (True, False, None)
    }


# ---- constructions


@settings(max_examples=60)
@given(finite(strained=True), st.booleans())
def test_the_construction_settled_is_of_least_rank(
    drawn: tuple[strategies.World, Formula], strained: bool
) -> None:
    world, formula = drawn
    sheet = world.sheet()
    groups = groups_in(formula)
    walk = oracle.Walk(sheet, strained)
    session = Session(sheet, strained=strained)
    for wanted in (True, False):
        expected = walk.best(groups, lambda k, w=wanted: w in walk.met(formula, k))
        search = session.search(groups)
        search.require(session.met(formula) if wanted else ~session.met(formula))
        assert search.find() == (expected is not None)
        if expected is not None:
            settled = settle_construction(session, search, groups)
            assert (settled.construction, settled.best, settled.breaks) == (expected, True, ())


@st.composite
def demanding(draw: st.DrawFn) -> tuple[Sheet, tuple[Demand, ...]]:
    world = draw(strategies.finite_worlds())
    demands = tuple(
        Demand(
            draw(strategies.facts(world, words=True)),
            draw(strategies.phrases(world)),
            draw(st.sampled_from(["every", "none"])),
        )
        for _ in range(draw(st.integers(1, 3)))
    )
    return world.sheet(), demands


def fulfils(walk: oracle.Walk, demands: tuple[Demand, ...], k) -> bool:  # type: ignore[no-untyped-def]
    return all(
        (evaluate(d.formula, a, k) is True) == (d.wanted == "every")
        for d in demands
        for a in walk.articles
        if evaluate(d.region, a, k) is True
    )


@settings(max_examples=80)
@given(demanding())
def test_the_construction_found_for_all_things_is_the_best(drawn: tuple[Sheet, tuple[Demand, ...]]) -> None:
    sheet, demands = drawn
    walk = oracle.Walk(sheet)
    groups = groups_in(*(f for d in demands for f in (d.region, d.formula)))
    expected = walk.best(groups, lambda k: fulfils(walk, demands, k))
    event("none" if expected is None else "base" if expected == walk.base else "re-read")
    assert find_construction(Session(sheet), demands).construction == expected


# ---- free parameters


@st.composite
def stretched(draw: st.DrawFn) -> tuple[Sheet, tuple[Demand, ...]]:
    """Demands on phrases with a free parameter: `n op limit + c * p`, the same one in several phrases."""
    groups = draw(strategies.groups(most=2, readings=2, strained=False))
    parameters = draw(strategies.parameters(groups, least=1))
    world = strategies.World((build.count("n", "0", "3"), build.count("m", "-1", "1")), groups, parameters)

    def phrase() -> Formula:
        g = draw(st.sampled_from(groups))
        options: list[Formula] = []
        for r in range(len(g.readings)):
            keys = [p.key for p in parameters if (p.group, p.reading) == (g.index, r)]
            parts = []
            for _ in range(draw(st.integers(1, 2))):
                limit = Const(Fraction(draw(st.integers(-4, 8)), 2))
                name, op = draw(st.sampled_from(["n", "m"])), draw(st.sampled_from(["<", "<=", ">=", ">"]))
                stretch = Const(
                    draw(st.sampled_from([Fraction(1), Fraction(-1), Fraction(2), Fraction(-1, 2)]))
                )
                key = draw(st.sampled_from([None, *keys])) if keys else None
                right = limit if key is None else Add((limit, Multiply(stretch, Parameter(key))))
                parts.append(Compare(op, Measured(name), right))
            options.append(All(tuple(parts)))
        return Read(g.index, tuple(options))

    demands = []
    for _ in range(draw(st.integers(1, 2))):
        formula = All(tuple(phrase() for _ in range(draw(st.integers(1, 2)))))
        demands.append(
            Demand(draw(strategies.facts(world)), formula, draw(st.sampled_from(["every", "none"])))
        )
    return world.sheet(), tuple(demands)


def walk_of(sheet: Sheet, formulas: list[Formula]) -> oracle.Walk:
    articles = oracle.Walk(sheet).articles
    return oracle.Walk(sheet, stretches=oracle.critical_stretches(sheet, articles, formulas))


@settings(max_examples=80)
@given(stretched())
def test_parameters_take_part_in_the_construction_found_for_all_things(
    drawn: tuple[Sheet, tuple[Demand, ...]],
) -> None:
    sheet, demands = drawn
    formulas = [f for d in demands for f in (d.region, d.formula)]
    walk = walk_of(sheet, formulas)
    expected = walk.best(groups_in(*formulas), lambda k: fulfils(walk, demands, k))
    event("none" if expected is None else "base" if expected == walk.base else "re-read")
    with tally.may_be_undecided():
        found = find_construction(Session(sheet), demands).construction
        assert (found is None) == (expected is None)
        if found is not None and expected is not None:
            assert fulfils(walk, demands, found)
            groups = groups_in(*formulas)
            assert oracle.rank(sheet, found, groups)[:3] == oracle.rank(sheet, expected, groups)[:3]


@settings(max_examples=80)
@given(stretched())
def test_a_break_point_is_where_the_outcome_turns(drawn: tuple[Sheet, tuple[Demand, ...]]) -> None:
    sheet, demands = drawn
    region, formula = demands[0].region, demands[0].formula
    if len(demands) > 1:
        formula = All((formula, demands[1].formula))
    groups = groups_in(region, formula)
    walk = walk_of(sheet, [formula])
    expected = walk.best(groups, lambda k: walk.some(k, region, formula))
    session = Session(sheet)
    search = session.search(groups)
    search.require(session.met(region), session.met(formula))
    assert search.find() == (expected is not None)
    if expected is None:
        return
    settled = settle_construction(session, search, groups)
    event(f"{len(settled.breaks)} break-points")
    k = settled.construction
    assert walk.some(k, region, formula)
    assert settled.best
    assert oracle.rank(sheet, k, groups)[:3] == oracle.rank(sheet, expected, groups)[:3]
    values, presumed = dict(k.parameters), {p.key: p.presumed for p in sheet.parameters}
    assert {b.parameter for b in settled.breaks} == {key for key in values if values[key] != presumed[key]}
    if len(settled.breaks) == 1:
        (point,) = settled.breaks

        def holds_at(value: Fraction) -> bool:
            moved = tuple((key, value if key == point.parameter else v) for key, v in k.parameters)
            moved_k = type(k)(k.readings, moved)
            return walk.some(moved_k, region, formula)

        end, home = point.end.value, presumed[point.parameter]
        assert holds_at(end) == point.end.closed
        assert not holds_at((end + home) / 2)
        assert (values[point.parameter] == end) == point.end.closed
        assert point.upward == (values[point.parameter] > home)


# ---- things


@st.composite
def departures(draw: st.DrawFn, articles: list[Article]) -> Formula:
    """One of several ways in which some quantities have to move from or to certain values."""
    ways = []
    for _ in range(draw(st.integers(1, 3))):
        values = draw(st.sampled_from(articles))
        names = draw(st.lists(st.sampled_from(sorted(values)), unique=True, min_size=1, max_size=3))
        facts = []
        for name in names:
            value = values[name]
            if isinstance(value, Fraction):
                op = draw(st.sampled_from(["!=", "!=", ">", "="]))
                facts.append(Compare(op, Measured(name), Const(value)))
            elif isinstance(value, str):
                facts.append(Not(Chosen(name, value)))
            else:
                facts.append(Includes(name, "zinc") if value else Includes(name, "tin"))
        ways.append(All(tuple(facts)))
    return Any(tuple(ways))


@st.composite
def pickings(draw: st.DrawFn) -> tuple[oracle.Walk, Formula, list[Reference], list[str]]:
    """A wish over a vocabulary small enough to walk, with a number in tenths, and one or two references."""
    declared = (
        build.count("n", "0", "3"),
        build.number("y", "", "-0.5", "1.2"),
        draw(st.sampled_from([build.count("m", "-1", "1"), build.choice("c", "red", "blue")])),
        build.set_of("s", "tin", "zinc", only=True),
    )
    on_grid = build.given(IsWhole(Multiply(Const(Fraction(10)), Measured("y"))))
    plain = strategies.World(declared, (build.group(0, "only"),), ())
    walk = oracle.Walk(build.sheet(declared, (), plain.groups, givens=(on_grid,)), grids={"y": TENTH})
    formula = Not(draw(strategies.formulas(plain, 2, linear=True)))
    if draw(st.booleans()):
        formula = draw(departures(walk.articles))
    known = [
        Reference(f"case {i}", draw(st.sampled_from(walk.articles))) for i in range(draw(st.integers(1, 2)))
    ]
    names = [d.name for d in declared if draw(st.integers(0, 4))]
    return walk, formula, known, names


@settings(max_examples=60)
@given(pickings(), st.randoms(use_true_random=False))
def test_the_thing_picked_is_the_simplest_whatever_was_asked_before(drawn, random) -> None:  # type: ignore[no-untyped-def]
    walk, formula, known, names = drawn
    k = walk.base
    candidates = [a for a in walk.articles if evaluate(formula, a, k) is True]
    assume(candidates)
    expected = oracle.simplest(walk, candidates, names, known)
    for history in range(3):
        session = Session(walk.sheet)
        wishes = [session.met(formula, k), *(session.at_least(n, Fraction(-9)) for n in ("n", "y"))]
        random.shuffle(wishes)
        search = session.search(())
        for wish in wishes:
            search.require(wish)
            for _ in range(history):
                search.find(session.equals("n", Fraction(random.randint(0, 3))))
                search.find(session.at_least("y", Fraction(random.randint(-5, 12), 10)))
        assert search.find()
        picked = pick_article(session, search, names, known)
        assert picked.simplest
        assert (dict(picked.article), picked.reference) == (dict(expected[0]), expected[1])
        verify(walk.sheet, picked.article, (Obligation(formula, "met", k),))


# ---- plainness


@st.composite
def wide(draw: st.DrawFn) -> tuple[Sheet, Formula, Article, dict[str, int]]:
    world = draw(strategies.worlds())
    formula = draw(strategies.formulas(world, 2, linear=True))
    signs = {name: draw(st.sampled_from([-1, 0, 1])) for name in world.numbers}
    return world.sheet(), formula, draw(strategies.articles(world, formula)), signs


@settings(max_examples=200)
@given(wide(), st.booleans(), st.sampled_from([Fraction(1, 10), Fraction(1), Fraction(3)]), st.data())
def test_what_is_plain_has_its_surroundings_with_it(drawn, wanted, size, data) -> None:  # type: ignore[no-untyped-def]
    sheet, formula, article, signs = drawn
    numbers = [d for d in sheet.declarations if isinstance(d, NumberDecl)]
    scale = {d.name: Fraction(0) if d.whole else size for d in numbers}
    k = data.draw(
        strategies.constructions(strategies.World(sheet.declarations, sheet.groups, sheet.parameters))
    )
    plain = tightened(formula, scale, wanted)
    if evaluate(plain, article, k) is True:
        for share in (Fraction(0), Fraction(1, 2), Fraction(1)):
            corner = dict(article)
            for name, sign in signs.items():
                value = article[name]
                assert isinstance(value, Fraction)
                corner[name] = value + sign * share * scale[name]
            assert evaluate(formula, corner, k) is wanted


@settings(max_examples=60)
@given(wide())
def test_a_plain_thing_is_near_and_a_near_thing_is_in(
    drawn: tuple[Sheet, Formula, Article, dict[str, int]],
) -> None:
    sheet, formula, _, _ = drawn
    session = Session(sheet)
    search = session.search(range(len(sheet.groups)))
    plain = session.met(tightened(formula, scales(sheet, formula)))
    near = session.met(tightened(formula, scales(sheet, formula, near=True)))
    for narrower in (near, plain):
        with tally.may_be_undecided():
            assert not search.holds(narrower, ~session.met(formula))


# ---- what judges


@settings(max_examples=100)
@given(st.data())
def test_only_what_holds_becomes_a_witness(data) -> None:  # type: ignore[no-untyped-def]
    world = data.draw(strategies.worlds())
    formula = data.draw(strategies.formulas(world, 2))
    article = data.draw(strategies.articles(world, formula))
    k = data.draw(strategies.constructions(world))
    value = evaluate(formula, article, k)
    right = {
        "met": value is True,
        "not met": value is not True,
        "false": value is False,
        "undefined": value is None,
    }
    for expected, holds in right.items():
        obligations = (Obligation(formula, expected, k),)
        if holds:
            assert verify(world.sheet(), article, obligations).article == article
        else:
            with pytest.raises(WitnessError):
                verify(world.sheet(), article, obligations)
    beyond = {**article, "n": Fraction(1, 2)}
    barred = build.sheet(world.declarations, (), world.groups, givens=(build.given(Truth(False)),))
    for sheet, thing in ((world.sheet(), beyond), (barred, article)):
        with pytest.raises(WitnessError):
            verify(sheet, thing, ())
