"""Ranges with open and closed ends, and how one lies against another, against an interval library.

The library is `portion` (from the package registry), which knows nothing of this project.
"""

from __future__ import annotations

from fractions import Fraction as F
from itertools import product
from random import Random

import portion
import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.formula import All, Bound, Compare, Const, Measured, Negate, Not, Op, Rounded, Rule
from scopecheck.core.ranges import Lie, Range, distance, lies, limits_of, lying, shared
from scopecheck.core.rounded_ranges import rounded_ends
from scopecheck.solving.evaluate import evaluate
from tests.build import claim, count, number, sheet

PAIRS = 1000


def ours(low: tuple[F, bool] | None, high: tuple[F, bool] | None) -> Range:
    return Range(Bound(*low) if low else None, Bound(*high) if high else None)


def theirs(own: Range) -> portion.Interval:
    low = own.low.value if own.low else -portion.inf
    high = own.high.value if own.high else portion.inf
    left = portion.CLOSED if own.low and own.low.closed else portion.OPEN
    right = portion.CLOSED if own.high and own.high.closed else portion.OPEN
    return portion.Interval.from_atomic(left, low, high, right)


def expected(one: portion.Interval, other: portion.Interval) -> Lie:
    """The relation by set operations of the library alone."""
    both = one & other
    if one.empty or other.empty:
        return "empty"
    if both.empty:
        return "apart"
    if one == other:
        return "the same"
    if one in other:
        return "point inside" if one.lower == one.upper else "within"
    if other in one:
        return "contains"
    return "touches" if both.lower == both.upper else "overlaps"


def generated(seed: int) -> tuple[Range, Range]:
    """A pair of ranges over few values, so that ends often meet; every combination of ends in turn."""
    chance = Random(seed)
    flags = list(product((True, False), repeat=4))[seed % 16]
    drawn = []
    for closed in (flags[:2], flags[2:]):
        low, high = sorted(F(chance.randint(-6, 6), chance.choice((1, 1, 2, 3))) for _ in range(2))
        ends = [(low, closed[0]), (high, closed[1])]
        drawn.append(ours(*(None if chance.random() < 0.15 else end for end in ends)))
    return drawn[0], drawn[1]


def test_how_ranges_lie_agrees_with_the_library() -> None:
    seen: set[tuple[Lie, bool, bool, bool, bool]] = set()
    for seed in range(PAIRS):
        one, other = generated(seed)
        left, right = theirs(one), theirs(other)
        relation = lies(one, other)
        assert relation == expected(left, right), (one, other)
        both = shared(one, other)
        assert both.empty == (left & right).empty
        if not both.empty:
            assert theirs(both) == left & right
        if relation == "apart":
            enclosed = [g for g in ~(left | right) if g.lower != -portion.inf and g.upper != portion.inf]
            assert distance(one, other) == (enclosed[0].upper - enclosed[0].lower if enclosed else 0)
        seen.add((relation, *(bool(e and e.closed) for r in (one, other) for e in (r.low, r.high))))
    assert {s[0] for s in seen} == {
        "point inside", "the same", "within", "contains", "overlaps", "touches", "apart", "empty",
    }  # fmt: skip
    for relation in ("overlaps", "apart", "within"):
        assert len({s for s in seen if s[0] == relation}) == 16


def test_ranges_that_share_something_have_no_distance() -> None:
    with pytest.raises(ValueError, match="share"):
        distance(ours((F(1), True), (F(3), True)), ours((F(2), True), (F(4), True)))


# ---- from formulas

LENGTH, HOLES = number("gap", "mm", "0"), count("holes")
MADE = sheet([LENGTH, HOLES], [claim(1)])


def compare(name: str, op: Op, value: F) -> Compare:
    return Compare(op, Measured(name), Const(value))


@pytest.mark.parametrize(
    ("facts", "wanted"),
    [
        ([("holes", ">", F(2)), ("holes", "<", F(5))], ours((F(3), True), (F(4), True))),
        ([("holes", ">=", F(5, 2))], ours((F(3), True), None)),
        ([("gap", "<", F(3))], ours((F(0), True), (F(3), False))),
        ([("gap", ">=", F(-1))], ours((F(0), True), None)),
        ([("gap", "=", F(2))], ours((F(2), True), (F(2), True))),
    ],
)
def test_a_formula_sets_a_range_within_what_can_be(facts: list[tuple[str, Op, F]], wanted: Range) -> None:
    formula = All(tuple(compare(*fact) for fact in facts))
    assert limits_of(MADE, formula, base_construction(MADE)).of(facts[0][0]) == wanted


def test_what_is_said_otherwise_of_a_number_is_no_range() -> None:
    """A ratio, a denial or an exception may leave holes in what the ends alone would allow."""
    loose = (
        Compare("<=", Measured("gap"), Measured("holes")),
        Not(compare("gap", ">", F(3))),
        compare("gap", "!=", F(3)),
    )
    for other in loose:
        formula = All((compare("gap", ">=", F(1)), other))
        assert limits_of(MADE, formula, base_construction(MADE)).of("gap") is None
        assert lying(MADE, compare("gap", "<=", F(5)), formula, base_construction(MADE)) == ()


def test_a_factor_below_zero_turns_the_end() -> None:
    formula = Compare("<=", Negate(Measured("gap")), Const(F(-2)))
    assert limits_of(MADE, formula, base_construction(MADE)).of("gap") == ours((F(2), True), None)


RULES: tuple[Rule, ...] = ("up", "away", "even")
SIGNS: tuple[Op, ...] = ("<", "<=", ">=", ">", "=")


@pytest.mark.parametrize(("rule", "op"), list(product(RULES, SIGNS)))
def test_the_ends_of_what_rounds_to_a_limit_are_those_of_the_exact_evaluator(rule: Rule, op: Op) -> None:
    """Value by value, in eighths of a step, on both sides of the origin and for limits beside the grid."""
    k = base_construction(sheet([number("x")], ()))
    for origin, limit in product((F(0), F(1, 3)), (F(n, 2) for n in range(-5, 6))):
        rounded = Compare(op, Rounded(Measured("x"), F(1), rule, origin), Const(limit + origin))
        mirrored = Compare(
            {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "="}[op], rounded.right, rounded.left
        )
        found = rounded_ends(rounded)
        assert rounded_ends(mirrored) == found
        values = [origin + F(n, 8) for n in range(-40, 41)]
        met = [x for x in values if evaluate(rounded, {"x": x}, k) is True]
        if found is None:
            assert op == "="
            assert not met
            continue
        name, ends, written = found
        assert name == "x"
        assert [x for x in values if Range(*ends).holds(x)] == met
        exact = Compare(op, Measured("x"), Const(limit + origin))
        assert all(Range(*written).holds(x) is evaluate(exact, {"x": x}, k) for x in values)
