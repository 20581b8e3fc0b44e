"""The region of one quantity, held against answers known by hand, the evaluator, and an interval library."""

from __future__ import annotations

from fractions import Fraction as F

import portion
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopecheck.core.construction import Construction
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Bound,
    Branch,
    Chosen,
    Compare,
    Const,
    Divide,
    ExactlyOne,
    Formula,
    Greatest,
    Implies,
    IsWhole,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Not,
    Op,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
    Truth,
)
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, Unit, find_unit
from scopecheck.foundations.spans import Source, Span
from scopecheck.report.boundary import (
    Piece,
    few_values,
    number_line,
    region,
    region_text,
    stretches,
    value_table,
)
from scopecheck.report.lines import Stretch
from scopecheck.report.roots import before
from scopecheck.report.turning import NotShown
from scopecheck.solving.evaluate import meets

PLACE = Span(Source("test", ""), 0, 0)
K0 = Construction(())
X = Measured("x")


def quantity(
    low: Bound | None = None, high: Bound | None = None, whole: bool = False, unit: Unit = PLAIN
) -> NumberDecl:
    return NumberDecl("x", PLAIN_KIND, unit, whole, low, high, False, "", PLACE)


def closed(value: int | F) -> Bound:
    return Bound(F(value), True)


def opened(value: int | F) -> Bound:
    return Bound(F(value), False)


def c(value: int | str | F) -> Const:
    return Const(F(value))


def at_least(value: int | str, term: Term = X) -> Formula:
    return Compare(">=", term, c(value))


def less(value: int | str, term: Term = X) -> Formula:
    return Compare("<", term, c(value))


SQUARE = Multiply(X, X)
TENTH = F(1, 10)

KNOWN: list[tuple[str, Formula, NumberDecl, str]] = [
    ("half-open", All((at_least(2), less(4))), quantity(), "2 <= x < 4"),
    ("nothing", All((at_least(4), less(2))), quantity(), "no value"),
    ("everything", Truth(True), quantity(), "every value"),
    ("the domain", Truth(True), quantity(opened(0), closed(5)), "0 < x <= 5"),
    ("one value", Compare("=", X, c(3)), quantity(), "x = 3"),
    ("a hole", Compare("!=", X, c(3)), quantity(closed(0)), "0 <= x < 3 or x > 3"),
    ("a hole filled", Any((less(3), at_least(3))), quantity(), "every value"),
    ("touching", Any((less(3), Compare("=", X, c(3)))), quantity(), "x <= 3"),
    ("negated", Not(All((at_least(2), less(4)))), quantity(), "x < 2 or x >= 4"),
    ("if", Implies(at_least(3), at_least(5)), quantity(), "x < 3 or x >= 5"),
    ("exactly one", ExactlyOne((at_least(3), at_least(5))), quantity(), "3 <= x < 5"),
    ("distance", Compare("<=", Magnitude(Add((X, Negate(c(20))))), c(1)), quantity(), "19 <= x <= 21"),
    ("rounds up to", at_least(3, Rounded(X, F(1), "away")), quantity(), "x >= 2.5"),
    ("rounds down to", Compare("<=", Rounded(X, F(1), "away"), c(3)), quantity(), "x < 3.5"),
    ("half even", Compare("=", Rounded(X, F(1), "even"), c(2)), quantity(), "1.5 <= x <= 2.5"),
    ("half up below 0", Compare("=", Rounded(X, F(1), "up"), c(-2)), quantity(), "-2.5 <= x < -1.5"),
    ("half away below 0", Compare("=", Rounded(X, F(1), "away"), c(-2)), quantity(), "-2.5 < x <= -1.5"),
    ("rounds off the grid", Compare("=", Rounded(X, F(1), "away"), c("2.5")), quantity(), "no value"),
    ("rounded tenths", at_least("98.0", Rounded(X, TENTH, "away")), quantity(), "x >= 97.95"),
    (
        "rounding beside itself",
        Compare("=", Rounded(X, F(1), "away"), X),
        quantity(closed(0), closed(2)),
        "x = 0 or x = 1 or x = 2",
    ),
    ("whole", IsWhole(Divide(X, c(6))), quantity(closed(0), opened(18)), "x = 0 or x = 6 or x = 12"),
    ("remainder", less(1, Remainder(X, F(5))), quantity(closed(0), closed(7)), "0 <= x < 1 or 5 <= x < 6"),
    ("least", at_least(2, Least((X, c(3)))), quantity(), "x >= 2"),
    ("greatest", less(4, Greatest((X, Negate(X)))), quantity(), "-4 < x < 4"),
    ("divisor 0", less(2, Divide(c(1), X)), quantity(), "x < 0 or x > 0.5"),
    ("divisor 0 denied", Not(less(2, Divide(c(1), X))), quantity(), "0 < x <= 0.5"),
    (
        "undefined or true",
        Any((less(2, Divide(c(1), X)), Compare("=", X, c(0)))),
        quantity(),
        "x <= 0 or x > 0.5",
    ),
    ("over itself", Compare("=", Divide(X, X), c(1)), quantity(closed(0)), "x > 0"),
    ("square of a fraction", Compare("<=", SQUARE, c("9/4")), quantity(), "-1.5 <= x <= 1.5"),
    ("irrational ends", Compare("<=", SQUARE, c(2)), quantity(closed(0)), "0 <= x < 1.414213..."),
    ("irrational hole", Compare("!=", SQUARE, c(2)), quantity(closed(0)), "x >= 0"),
    ("irrational value", Compare("=", SQUARE, c(2)), quantity(closed(0)), "no value"),
    (
        "branch",
        at_least(5, Branch(at_least(3), Multiply(X, c(2)), Add((X, c(4))))),
        quantity(),
        "x >= 1",
    ),
    ("whole numbers", Compare("<", Multiply(c(2), X), c(7)), quantity(closed(0), whole=True), "0 <= x <= 3"),
    (
        "whole numbers apart",
        Compare("!=", X, c(2)),
        quantity(closed(0), closed(4), whole=True),
        "0 <= x <= 1 or 3 <= x <= 4",
    ),
    ("whole and irrational", Compare(">", SQUARE, c(7)), quantity(closed(0), whole=True), "x >= 3"),
    ("whole below irrational", Compare("<", SQUARE, c(7)), quantity(closed(-9), whole=True), "-2 <= x <= 2"),
    ("whole numbers joined", Any((Compare("=", X, c(2)), at_least(3))), quantity(whole=True), "x >= 2"),
]


@pytest.mark.parametrize(("formula", "d", "expected"), [r[1:] for r in KNOWN], ids=[r[0] for r in KNOWN])
def test_known_region(formula: Formula, d: NumberDecl, expected: str) -> None:
    # An irrational end is neither in nor out; the text shows it as open.
    assert region_text(region(formula, d, K0), d) == expected


def test_ends_are_given_in_the_sheets_unit() -> None:
    mm = find_unit("mm")
    assert mm is not None
    d = NumberDecl("x", mm.kind, mm, False, None, None, False, "", PLACE)
    assert stretches(region(Compare(">", X, c("3/1000")), d, K0), mm) == (Stretch(F(3), False, None, False),)


def test_the_reading_taken_decides() -> None:
    formula = Read(0, (at_least(3), Compare(">", X, c(3))))
    d = quantity()
    assert region_text(region(formula, d, Construction((0,))), d) == "x >= 3"
    assert region_text(region(formula, d, Construction((1,))), d) == "x > 3"
    noun = at_least(3, ReadTerm(0, (X, Multiply(X, c(2)))))
    assert region_text(region(noun, d, Construction((1,))), d) == "x >= 1.5"


def test_other_quantities_are_fixed() -> None:
    formula = Compare("<=", X, Measured("y"))
    assert region_text(region(formula, quantity(), K0, {"y": F(7)}), quantity()) == "x <= 7"


def test_endlessly_many_places_are_refused_and_a_window_helps() -> None:
    formula = IsWhole(Divide(X, c(6)))
    with pytest.raises(NotShown, match="endlessly"):
        region(formula, quantity(closed(0)), K0)
    assert region_text(region(formula, quantity(closed(0)), K0, window=(F(1), F(13))), quantity()) == (
        "x = 6 or x = 12"
    )


def test_an_irrational_end_is_not_drawn() -> None:
    with pytest.raises(NotShown, match="not a fraction"):
        number_line(Compare("<=", SQUARE, c(2)), quantity(), [("only", K0)])


def test_few_values() -> None:
    assert few_values(quantity(closed(1), opened(4), whole=True)) == (1, 2, 3)
    assert few_values(quantity(closed(1), closed(40), whole=True)) == tuple(range(1, 41))
    assert few_values(quantity(closed(1), closed(41), whole=True)) is None
    assert few_values(quantity(closed(1), closed(4))) is None
    assert few_values(quantity(closed(1), whole=True)) is None
    assert few_values(ChoiceDecl("grade", ("soft", "hard"), "", PLACE)) == ("soft", "hard")
    assert few_values(SetDecl("metal", ("tin", "zinc"), "", PLACE)) == (
        frozenset(),
        frozenset({"tin"}),
        frozenset({"zinc"}),
        frozenset({"tin", "zinc"}),
    )
    assert few_values(SetDecl("metal", ("a", "b", "c", "d", "e", "f"), "", PLACE)) is None


def test_value_table() -> None:
    formula = Read(0, (IsWhole(Divide(X, c(3))), Truth(True), less(2, Divide(c(1), Add((X, c(-1)))))))
    rows = [(label, Construction((i,))) for i, label in enumerate(("whole", "any", "ratio"))]
    table = value_table(formula, quantity(closed(1), closed(4), whole=True), rows)
    assert table.values == (1, 2, 3, 4)
    assert table.rows == (
        ("whole", (False, False, True, False)),
        ("any", (True, True, True, True)),
        ("ratio", (None, True, True, True)),
    )
    grade = ChoiceDecl("grade", ("soft", "hard"), "", PLACE)
    shown = value_table(Chosen("grade", "hard"), grade, [("only", K0)])
    assert (shown.values, shown.rows) == (("soft", "hard"), (("only", (False, True)),))


# ---- against the interval library, formula by formula


def _atom(op: Op, value: F) -> portion.Interval:
    everything = portion.open(-portion.inf, portion.inf)
    match op:
        case "<":
            return portion.open(-portion.inf, value)
        case "<=":
            return portion.openclosed(-portion.inf, value)
        case "=":
            return portion.singleton(value)
        case "!=":
            return everything - portion.singleton(value)
        case ">=":
            return portion.closedopen(value, portion.inf)
        case ">":
            return portion.open(value, portion.inf)


def as_interval(formula: Formula) -> portion.Interval:
    """The set a formula over x alone stands for, by the library's own union, intersection and complement."""
    everything = portion.open(-portion.inf, portion.inf)
    match formula:
        case Compare(op, Measured(), Const(value)):
            return _atom(op, value)
        case Not(item):
            return ~as_interval(item) & everything
        case All(items):
            result = everything
            for item in items:
                result &= as_interval(item)
            return result
        case Any(items):
            result = portion.empty()
            for item in items:
                result |= as_interval(item)
            return result
        case _:
            raise AssertionError(formula)


def as_stretches(interval: portion.Interval) -> tuple[Stretch, ...]:
    return tuple(
        Stretch(
            None if part.lower == -portion.inf else part.lower,
            part.left is portion.CLOSED,
            None if part.upper == portion.inf else part.upper,
            part.right is portion.CLOSED,
        )
        for part in interval
        if not part.empty
    )


VALUES = st.fractions(min_value=-4, max_value=4, max_denominator=4)
ATOMS = st.builds(
    lambda op, value: Compare(op, X, Const(value)), st.sampled_from(["<", "<=", "=", "!=", ">=", ">"]), VALUES
)
FORMULAS = st.recursive(
    ATOMS,
    lambda inner: st.one_of(
        st.builds(Not, inner),
        st.builds(All, st.lists(inner, max_size=3).map(tuple)),
        st.builds(Any, st.lists(inner, max_size=3).map(tuple)),
    ),
    max_leaves=8,
)


@given(FORMULAS)
def test_region_equals_the_interval_library(formula: Formula) -> None:
    found = stretches(region(formula, quantity(), K0), PLAIN)
    assert found == as_stretches(as_interval(formula))


@given(FORMULAS, VALUES, VALUES, st.booleans(), st.booleans())
def test_region_within_a_domain(formula: Formula, a: F, b: F, first: bool, second: bool) -> None:
    d = quantity(Bound(min(a, b), first), Bound(max(a, b), second))
    domain = portion.Interval.from_atomic(portion.Bound(first), min(a, b), max(a, b), portion.Bound(second))
    assert stretches(region(formula, d, K0), PLAIN) == as_stretches(as_interval(formula) & domain)


# ---- against the evaluator, for terms of every sort


TERMS = st.recursive(
    st.one_of(st.just(X), VALUES.map(Const)),
    lambda inner: st.one_of(
        st.builds(lambda a, b: Add((a, b)), inner, inner),
        st.builds(Negate, inner),
        st.builds(Multiply, inner, inner),
        st.builds(Divide, inner, inner),
        st.builds(Magnitude, inner),
        st.builds(lambda a, b: Least((a, b)), inner, inner),
        st.builds(lambda a, b: Greatest((a, b)), inner, inner),
        st.builds(Remainder, inner, st.sampled_from([F(1, 2), F(1), F(3)])),
        st.builds(
            Rounded,
            inner,
            st.sampled_from([F(1, 2), F(1)]),
            st.sampled_from(["away", "up", "even"]),
            st.sampled_from([F(0), F(1, 3)]),
        ),
        st.builds(lambda a, b: Branch(Compare("<", a, b), a, b), inner, inner),
    ),
    max_leaves=5,
)
CURVES = st.one_of(
    st.builds(Compare, st.sampled_from(["<", "<=", "=", ">="]), TERMS, TERMS),
    st.builds(IsWhole, TERMS),
)


@given(CURVES, st.lists(st.fractions(min_value=-3, max_value=3, max_denominator=12), max_size=30))
def test_region_says_what_the_evaluator_says(formula: Formula, samples: list[F]) -> None:
    d = quantity(closed(-3), closed(3))
    try:
        pieces = region(formula, d, K0)
    except NotShown:
        return
    ends = [end for p in pieces for end in (p.low, p.high) if isinstance(end, F)]
    near = [end + shift for end in ends for shift in (F(-1, 1000), F(0), F(1, 1000))]
    for x in [*samples, *(x for x in near if -3 <= x <= 3)]:
        assert any(_holds(piece, x) for piece in pieces) == meets(formula, {"x": x}, K0), x


def _holds(piece: Piece, x: F) -> bool:
    low = piece.low is None or before(piece.low, x) or (piece.low_closed and piece.low == x)
    return low and (piece.high is None or before(x, piece.high) or (piece.high_closed and piece.high == x))
