"""The two meanings of the core agree: `evaluate` and `encode` say the same, true, false or undefined."""

from __future__ import annotations

from fractions import Fraction

import z3
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from scopecheck.core.construction import Construction
from scopecheck.core.formula import Add, Article, Compare, Const, Formula, Measured, Rounded
from scopecheck.core.model import Sheet
from scopecheck.core.rewrite import read_as
from scopecheck.solving.encode import Encoder, Pair, rounds_to_above, rounds_to_at_least
from scopecheck.solving.evaluate import compare, evaluate, rounded_to_whole
from scopecheck.solving.solver import Session
from scopecheck.solving.symbols import Condition, Vocabulary, as_bool, numeral
from tests import build, strategies
from tests.undecided import tally


@st.composite
def situations(draw: st.DrawFn, depth: int = 3) -> tuple[Sheet, Formula, Article, Construction]:
    world = draw(strategies.worlds())
    formula = draw(strategies.formulas(world, depth))
    article = draw(strategies.articles(world, formula))
    return world.sheet(), formula, article, draw(strategies.constructions(world))


def as_value(pair: Pair, settled: list[tuple[z3.ExprRef, z3.ExprRef]], words: Vocabulary) -> bool | None:
    true, false = (is_settled(part, settled, words) for part in pair)
    assert not (true and false)
    return True if true else False if false else None


def is_settled(part: Condition, settled: list[tuple[z3.ExprRef, z3.ExprRef]], words: Vocabulary) -> bool:
    """The one value that the condition can have, what is defined beside it being as it must be."""
    condition = z3.simplify(z3.substitute(as_bool(part), *settled))
    if not words.definitions:
        assert z3.is_true(condition) or z3.is_false(condition), f"not settled: {condition}"
        return z3.is_true(condition)
    solver = z3.Solver()
    solver.add(*(z3.substitute(d, *settled) for d in words.definitions))
    values = [v for v, c in ((True, condition), (False, z3.Not(condition))) if solver.check(c) == z3.sat]
    assert len(values) == 1, f"not settled: {condition}"
    return values[0]


def settled_readings(words: Vocabulary, k: Construction) -> list[tuple[z3.ExprRef, z3.ExprRef]]:
    readings = [
        (selector, z3.BoolVal(r == k.readings[g]))
        for g, selectors in enumerate(words.selectors)
        for r, selector in enumerate(selectors)
    ]
    return readings + [(words.parameters[key], numeral(value)) for key, value in k.parameters]


def settled_things(words: Vocabulary, article: Article) -> list[tuple[z3.ExprRef, z3.ExprRef]]:
    settled: list[tuple[z3.ExprRef, z3.ExprRef]] = []
    for name, value in article.items():
        if isinstance(value, Fraction) and name in words.wholes:
            settled.append((words.wholes[name], z3.IntVal(value.numerator)))
        elif isinstance(value, Fraction):
            settled.append((words.numbers[name], numeral(value)))
        elif isinstance(value, str):
            index = words.declarations[name].members.index(value)  # type: ignore[union-attr]
            settled.append((words.choices[name], z3.IntVal(index)))
        else:
            members = words.declarations[name].members  # type: ignore[union-attr]
            settled += [(words.members[name, m], z3.BoolVal(m in value)) for m in members]
    return settled


@settings(max_examples=600)
@given(situations())
def test_meanings_agree_on_a_given_thing(situation: tuple[Sheet, Formula, Article, Construction]) -> None:
    sheet, formula, article, k = situation
    words = Vocabulary(sheet)
    expected = evaluate(formula, article, k)
    pinned = words.at_article(article)
    readings, things = settled_readings(words, k), settled_things(words, article)
    assert as_value(Encoder(pinned).encode(formula), readings, words) == expected
    assert as_value(Encoder(pinned, k).encode(formula), [], words) == expected
    assert as_value(Encoder(words).encode(formula), readings + things, words) == expected
    assert as_value(Encoder(words, k).encode(formula), things, words) == expected


@settings(max_examples=150)
@given(situations(depth=2))
def test_meanings_agree_in_a_search(situation: tuple[Sheet, Formula, Article, Construction]) -> None:
    sheet, formula, article, k = situation
    expected = evaluate(formula, article, k)
    session = Session(sheet, strained=True)
    search = session.search(range(len(sheet.groups)))
    search.require(*(session.equals(name, value) for name, value in article.items()))
    search.require(*session.taken(k, range(len(sheet.groups))))
    found = {
        True: search.holds(session.met(formula)),
        False: search.holds(session.denied(formula)),
        None: search.holds(session.undefined(formula)),
    }
    assert found == {value: value is expected for value in (True, False, None)}
    assert search.holds(~session.met(formula, k)) == (expected is not True)


@settings(max_examples=150)
@given(situations(depth=2))
def test_what_a_search_finds_evaluates_as_required(
    situation: tuple[Sheet, Formula, Article, Construction],
) -> None:
    sheet, formula, _, _ = situation
    session = Session(sheet, strained=True)
    for wanted, constraint in (
        (True, session.met(formula)),
        (False, session.denied(formula)),
        (None, session.undefined(formula)),
    ):
        search = session.search(range(len(sheet.groups)))
        with tally.may_be_undecided():
            if search.find(constraint):
                assert evaluate(formula, search.article(), search.construction()) is wanted


@settings(max_examples=150)
@given(situations())
def test_a_group_read_one_way_is_the_formula_rewritten(
    situation: tuple[Sheet, Formula, Article, Construction],
) -> None:
    sheet, formula, article, k = situation
    for g in range(len(sheet.groups)):
        rewritten = read_as(formula, g, k.readings[g])
        for r in range(len(sheet.groups[g].readings)):
            assert evaluate(rewritten, article, k.with_reading(g, r)) == evaluate(formula, article, k)


@settings(max_examples=400)
@given(
    value=strategies.small_numbers,
    index=st.integers(-3, 4),
    beside=st.sampled_from(
        [Fraction(0), Fraction(1, 2), Fraction(-1, 2), Fraction(1, 7), Fraction(-1, 1000)]
    ),
    step=st.sampled_from(strategies.STEPS),
    origin=st.sampled_from(strategies.ORIGINS),
    rule=st.sampled_from(strategies.RULES),
    op=st.sampled_from(strategies.OPS),
)
def test_half_lines_are_rounding(value, index, beside, step, origin, rule, op) -> None:  # type: ignore[no-untyped-def]
    limit = origin + step * (index if beside != Fraction(1, 7) else index + Fraction(1, 3))
    grid = Rounded(Measured("y"), step, rule, origin)
    for measured in (limit + step * beside, value, limit + step * beside * 2):
        rounded = origin + step * rounded_to_whole((measured - origin) / step, rule)
        assert abs(rounded - measured) <= step / 2
        at_least, above = rounds_to_at_least(grid, limit), rounds_to_above(grid, limit)
        assert (rounded >= limit) == compare(">=" if at_least.closed else ">", measured, at_least.value)
        assert (rounded > limit) == compare(">=" if above.closed else ">", measured, above.value)
        article, k = {"y": measured}, Construction(())
        direct = evaluate(Compare(op, grid, Const(limit)), article, k)
        assume(direct is not None)
        assert direct == compare(op, rounded, limit)


@settings(max_examples=300)
@given(rule=st.sampled_from(strategies.RULES), value=st.fractions(-5, 5, max_denominator=4))
def test_rounding_goes_to_the_nearest_and_halves_as_named(rule, value) -> None:  # type: ignore[no-untyped-def]
    rounded = rounded_to_whole(value, rule)
    distance = abs(value - rounded)
    assert distance <= Fraction(1, 2)
    if distance == Fraction(1, 2):
        expected = {"away": abs(rounded) > abs(value), "up": rounded > value, "even": rounded % 2 == 0}
        assert expected[rule]


@settings(max_examples=300)
@given(
    index=st.integers(-4, 4),
    beside=st.sampled_from([Fraction(0), Fraction(1, 2), Fraction(1, 2), Fraction(1, 7), Fraction(-2, 5)]),
    step=st.sampled_from(strategies.STEPS),
    origin=st.sampled_from(strategies.ORIGINS),
    rule=st.sampled_from(strategies.RULES),
)
def test_a_rounded_value_is_encoded_as_it_is_rounded(index, beside, step, origin, rule) -> None:  # type: ignore[no-untyped-def]
    measured = origin + step * (index + beside)
    rounded = origin + step * rounded_to_whole((measured - origin) / step, rule)
    words = Vocabulary(build.sheet((build.number("y"),), ()))
    # Beside the value itself: what is rounded alone is compared by the ends of what rounds so.
    total = Add((Rounded(Measured("y"), step, rule, origin), Measured("y")))
    for value, expected in ((rounded, True), (rounded + step, False), (rounded - step, False)):
        formula = Compare("=", total, Const(value + measured))
        pair = Encoder(words).encode(formula)
        assert as_value(pair, settled_things(words, {"y": measured}), words) is expected
