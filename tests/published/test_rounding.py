"""Rounding: our three rules against Python's decimal module, and against printed tables and examples.

Tags: `read` the text itself was seen; `read (secondary)` seen as reproduced elsewhere; `memory` not seen;
`common practice` no source. What a passed or failed limit meant in law or trade is not checked.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_HALF_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction as F
from typing import get_args

import pytest

from scopecheck.core.construction import Construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Compare, Const, Measured, Op, Rounded, Rule
from scopecheck.foundations.quantity import PLAIN
from scopecheck.report.boundary import region, stretches
from scopecheck.solving.ends import infimum
from scopecheck.solving.evaluate import evaluate, evaluate_term, rounded_to_whole
from scopecheck.solving.solver import Session
from tests import build
from tests.published.worked import Tag, sheet

K0 = Construction(())
RULES: tuple[Rule, ...] = get_args(Rule)
WORDS: dict[Rule, str] = {"away": "HALF AWAY", "up": "HALF UP", "even": "HALF EVEN"}


def by_decimal(value: Decimal, step: Decimal, rule: Rule) -> Decimal:
    """The reference: decimal's own quantize. Toward plus infinity a half goes up, below zero down in size."""
    up = ROUND_HALF_UP if value >= 0 else ROUND_HALF_DOWN
    mode = {"away": ROUND_HALF_UP, "up": up, "even": ROUND_HALF_EVEN}[rule]
    return (value / step).quantize(Decimal(1), rounding=mode) * step


def dense(low: int, high: int, places: int) -> Iterator[Decimal]:
    """Every decimal of so many places from `low` to `high` units of the last place."""
    return (Decimal(n).scaleb(-places) for n in range(low, high + 1))


# ---- the rules by themselves


@pytest.mark.parametrize("rule", RULES)
def test_whole_numbers_by_every_rule(rule: Rule) -> None:
    for value in dense(-4000, 4000, 3):
        assert rounded_to_whole(F(value), rule) == by_decimal(value, Decimal(1), rule)


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("step", ["1", "0.1", "0.01", "10", "100", "0.5", "0.25"])
def test_grids_by_every_rule(rule: Rule, step: str) -> None:
    unit = Decimal(step)
    for halves in range(-41, 42):
        for beside in (Decimal(0), unit / 1000, -unit / 1000):
            value = halves * unit / 2 + beside
            term = Rounded(Const(F(value)), F(unit), rule)
            assert evaluate_term(term, {}, K0) == F(by_decimal(value, unit, rule)), (value, rule)


@pytest.mark.parametrize("rule", RULES)
def test_grids_that_do_not_pass_through_zero(rule: Rule) -> None:
    """Degrees Celsius on the absolute scale: signs and halves are those of the degrees as written."""
    origin = Decimal("273.15")
    for degrees in dense(-60, 60, 1):
        term = Rounded(Const(F(degrees + origin)), F(1), rule, F(origin))
        assert evaluate_term(term, {}, K0) == F(by_decimal(degrees, Decimal(1), rule) + origin)


@pytest.mark.parametrize("rule", RULES)
def test_the_written_rule_means_the_rule(rule: Rule) -> None:
    """ROUND(... TO ..., HALF ...) as a sheet writes it, in millimetres, evaluated thing by thing."""
    made = sheet(f"""
gap  number
rounded  number

1. A gauge with a gap and a rounded gap.
   | rounded = ROUND(gap TO 0.1, {WORDS[rule]})
""")
    formula = made.claim(1).limitations[0].formula
    for value in dense(-130, 130, 2):
        right = by_decimal(value, Decimal("0.1"), rule)
        for told in (right, right + Decimal("0.1"), right - Decimal("0.1")):
            article = {"gap": F(value), "rounded": F(told)}
            assert evaluate(formula, article, K0) is (told == right), (value, told)


# ---- the same rules as a search and as a picture see them

LIMITS = ("-1.5", "-1", "-0.5", "0", "0.5", "1", "1.5", "2")
SIGNS: tuple[Op, ...] = (">=", ">", "<=", "<", "=", "!=")


def holds(op: Op, left: Decimal, right: Decimal) -> bool:
    return {
        ">=": left >= right,
        ">": left > right,
        "<=": left <= right,
        "<": left < right,
        "=": left == right,
        "!=": left != right,
    }[op]


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("op", SIGNS)
def test_a_search_agrees_at_and_beside_every_half(rule: Rule, op: Op) -> None:
    """On a grid of halves the limit itself is on or off the grid; both are asked at and beside each half."""
    session = Session(build.sheet((build.number("x"),), ()))
    for limit in LIMITS:
        formula = Compare(op, Rounded(Measured("x"), F(1), rule), Const(F(limit)))
        met, denied = session.met(formula), session.denied(formula)
        search = session.search(())
        for value in dense(-12, 12, 0):
            for beside in ("0", "0.001", "-0.001"):
                x = value / 4 + Decimal(beside)
                expected = holds(op, by_decimal(x, Decimal(1), rule), Decimal(limit))
                here = session.equals("x", F(x))
                assert search.holds(met, here) is expected, (x, limit)
                assert search.holds(denied, here) is not expected, (x, limit)


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("origin", ["0", "273.15"])
def test_a_search_agrees_where_a_rounded_value_is_held_against_another_quantity(
    rule: Rule, origin: str
) -> None:
    """Then there is no written limit to reckon from, and the search has to round by itself."""
    session = Session(build.sheet((build.number("x"), build.number("y")), ()))
    formula = Compare("=", Rounded(Measured("x"), F(1, 2), rule, F(origin)), Measured("y"))
    met, denied = session.met(formula), session.denied(formula)
    search = session.search(())
    for quarters in range(-13, 14):
        value = Decimal(quarters) / 4
        right = by_decimal(value, Decimal("0.5"), rule)
        here = session.equals("x", F(value) + F(origin))
        for told in (right, right + Decimal("0.5"), right - Decimal("0.5")):
            there = session.equals("y", F(told) + F(origin))
            assert search.holds(met, here, there) is (told == right), (value, told)
            assert search.holds(denied, here, there) is (told != right), (value, told)


@pytest.mark.parametrize("rule", RULES)
def test_the_ends_of_what_rounds_to_a_limit(rule: Rule) -> None:
    """What rounds to a value reaches half a step to both sides; the rule says which ends are in."""
    declared = build.number("x")
    assert isinstance(declared, NumberDecl)
    for text in ("-2.0", "-0.3", "-0.2", "0.0", "0.1", "0.2", "3.5", "98.0"):
        value, half = Decimal(text), Decimal("0.05")
        formula = Compare("=", Rounded(Measured("x"), F(1, 10), rule), Const(F(text)))
        (found,) = stretches(region(formula, declared, K0), PLAIN)
        assert (found.low, found.high) == (F(value - half), F(value + half))
        assert found.low_closed is (by_decimal(value - half, Decimal("0.1"), rule) == value)
        assert found.high_closed is (by_decimal(value + half, Decimal("0.1"), rule) == value)


@pytest.mark.parametrize("rule", RULES)
def test_the_least_that_rounds_up_to_a_limit(rule: Rule) -> None:
    session = Session(build.sheet((build.number("x"),), ()))
    for text in ("-1.5", "-0.1", "0.0", "0.1", "97.9", "98.0"):
        formula = Compare(">=", Rounded(Measured("x"), F(1, 10), rule), Const(F(text)))
        search = session.search(())
        search.require(session.met(formula))
        end = infimum(search, Measured("x"))
        assert end is not None
        least = Decimal(text) - Decimal("0.05")
        assert end.value == F(least)
        assert end.closed is (by_decimal(least, Decimal("0.1"), rule) >= Decimal(text))


# ---- printed tables and examples


@dataclass(frozen=True)
class Printed:
    """A value, the place it is rounded to, the rule, and what is printed as the result."""

    number: str
    value: str
    step: str
    rule: Rule
    result: str
    source: str
    tag: Tag


USP = "USP General Notices, rounding table as reproduced in a procedures book"
BOOK = "a national data book (rounding of type 1)"
E29 = "ASTM E29, table of examples of the rounding method"
ISO = "ISO 80000-1:2009, annex B"
SP811 = "NIST SP 811 (2008) B.7.2"

TABLE = [
    Printed("W58", "10.9728", "0.1", "away", "11.0", SP811, "read"),
    Printed("W59", "97.96", "0.1", "away", "98.0", USP, "read (secondary)"),
    Printed("W59", "97.92", "0.1", "away", "97.9", USP, "read (secondary)"),
    Printed("W59", "97.95", "0.1", "away", "98.0", USP, "read (secondary)"),
    Printed("W61", "0.025", "0.01", "away", "0.03", USP, "read (secondary)"),
    Printed("W61", "0.015", "0.01", "away", "0.02", USP, "read (secondary)"),
    Printed("W61", "0.027", "0.01", "away", "0.03", USP, "read (secondary)"),
    Printed(
        "W63", "101.45", "0.1", "even", "101.4", "own arithmetic on a row of the USP table", "common practice"
    ),
    Printed(
        "W63", "101.45", "0.1", "up", "101.5", "own arithmetic on a row of the USP table", "common practice"
    ),
    Printed("W65", "123.454", "0.01", "up", "123.45", BOOK, "read (secondary)"),
    Printed("W65", "123.455", "0.01", "up", "123.46", BOOK, "read (secondary)"),
    Printed("W67", "35940", "100", "even", "35900", E29, "memory"),
    Printed("W67", "35950", "100", "even", "36000", E29, "memory"),
    Printed("W67", "35960", "100", "even", "36000", E29, "memory"),
    Printed("W67", "56.4", "1", "even", "56", E29, "memory"),
    Printed("W67", "56.5", "1", "even", "56", E29, "memory"),
    Printed("W67", "56.6", "1", "even", "57", E29, "memory"),
    Printed("W67", "0.54", "0.1", "even", "0.5", E29, "memory"),
    Printed("W67", "0.55", "0.1", "even", "0.6", E29, "memory"),
    Printed("W67", "0.56", "0.1", "even", "0.6", E29, "memory"),
    Printed("W68", "12.223", "0.1", "even", "12.2", ISO, "memory"),
    Printed("W68", "12.25", "0.1", "even", "12.2", ISO, "memory"),
    Printed("W68", "12.35", "0.1", "even", "12.4", ISO, "memory"),
    Printed("W68", "12.25", "0.1", "away", "12.3", ISO, "memory"),
    Printed("W68", "12.35", "0.1", "away", "12.4", ISO, "memory"),
    Printed("W68", "12.251", "0.1", "even", "12.3", ISO, "memory"),
]


@pytest.mark.parametrize("row", TABLE, ids=lambda r: f"{r.number} {r.value} {r.rule}")
def test_printed_results(row: Printed) -> None:
    term = Rounded(Const(F(row.value)), F(row.step), row.rule)
    assert evaluate_term(term, {}, K0) == F(row.result)
    assert by_decimal(Decimal(row.value), Decimal(row.step), row.rule) == Decimal(row.result)


LIMIT_TABLE = [
    ("yield", "ROUND(x TO 100, HALF EVEN) >= 36000", ("35940", "35950", "35960"), (False, True, True)),
    ("nickel", "ROUND(x TO 1, HALF EVEN) >= 57", ("56.4", "56.5", "56.6"), (False, False, True)),
    ("bicarbonate", "ROUND(x TO 0.1, HALF EVEN) <= 0.5", ("0.54", "0.55", "0.56"), (True, False, False)),
]


@pytest.mark.parametrize(("name", "line", "values", "passed"), LIMIT_TABLE, ids=lambda v: str(v))
def test_printed_limits_with_halves_to_even(
    name: str, line: str, values: tuple[str, ...], passed: tuple[bool, ...]
) -> None:
    """W67: ASTM E29, table of examples of the rounding method (memory): three values for each limit."""
    made = sheet(f'\nx  number  "{name}"\n\n1. A product within its limit.\n   | {line}\n')
    formula = made.claim(1).limitations[0].formula
    assert tuple(evaluate(formula, {"x": F(v)}, K0) for v in values) == passed


def test_a_converted_length_rounded_to_match() -> None:
    """W58: NIST SP 811 (2008) B.7.2 (read): 36 ft is 10.9728 m, stated as 11.0 m and not as 11 m."""
    made = sheet("""
span  length in ft

1. A bridge with a span.
   | span = 10.9728 m
   | ROUND(span TO 0.1 m, HALF AWAY) = 11.0 m
   | ROUND(span TO 1 m, HALF AWAY) = 11 m
""")
    span = made.declaration("span")
    assert isinstance(span, NumberDecl)
    article = {"span": span.unit.to_base(F(36))}
    assert [evaluate(x.formula, article, K0) for x in made.claim(1).limitations] == [True, True, True]
    # The greatest relative errors of rounding, in per cent: 36 to two figures, 11.0 to three, 11 to two.
    errors = [F("0.5") / 36, F("0.05") / 11, F("0.5") / 11]
    printed = [F("1.4"), F("0.45"), F("4.5")]
    assert [abs(100 * e - p) < F(1, 20) for e, p in zip(errors, printed, strict=True)] == [True] * 3


MATCHED = [
    # words, the unit of the second value in the first's, and what the first value is stated as
    ("36 ft (10.97 m)", "m", "11.0"),  # printed in SP 811, B.7.2
    ("36.0 ft (10.97 m)", "m", "10.97"),
    ("5 inch (12 cm)", "cm", "13"),
    ("5.0 inch (12 cm)", "cm", "12.7"),
    ("20 mm (0.8 inch)", "inch", "0.79"),
]
FEET, INCH = Decimal("0.3048"), Decimal("0.0254")
METRES = {"m": Decimal(1), "ft": FEET, "inch": INCH, "cm": Decimal("0.01"), "mm": Decimal("0.001")}


@pytest.mark.parametrize(("words", "unit", "stated"), MATCHED)
def test_the_reading_that_rounds_a_converted_value_to_match(words: str, unit: str, stated: str) -> None:
    """The rule of NIST SP 811 (2008) B.7.2 (read): no greater relative error of rounding than before."""
    first, first_unit = words.split()[:2]
    value = Decimal(first) * METRES[first_unit] / METRES[unit]
    error = Decimal(1).scaleb(Decimal(first).as_tuple().exponent) / Decimal(first)  # type: ignore[arg-type]
    places = max(p for p in range(-4, 4) if Decimal(10) ** p / value <= error)
    assert value.quantize(Decimal(10) ** places) == Decimal(stated)
    made = sheet(f"\nx  length in {unit}\n\n1. A bar of at most {words}.\n   | x : at most {words}\n")
    labels = [r.label for r in made.groups[0].readings]
    k = Construction((labels.index("first value, its figures kept"),), ())
    formula = made.claim(1).limitations[0].formula
    end, beyond = F(stated), F(stated) + F(1, 10**6)
    factor = F(METRES[unit])
    assert [evaluate(formula, {"x": x * factor}, k) for x in (end, beyond)] == [True, False]


def test_a_value_is_rounded_once_and_not_twice() -> None:
    """W68: ISO 80000-1:2009, annex B (memory): 12.251 to a tenth is 12.3; by way of 12.25 it were 12.2."""
    once = Rounded(Const(F("12.251")), F(1, 10), "even")
    twice = Rounded(Rounded(Const(F("12.251")), F(1, 100), "even"), F(1, 10), "even")
    assert evaluate_term(once, {}, K0) == F("12.3")
    assert evaluate_term(twice, {}, K0) == F("12.2")


CATALOGUE = [
    ("rounds to the limit", "away"),
    ("rounds to the limit, half to even", "even"),
]


@pytest.mark.parametrize(("label", "rule"), CATALOGUE)
@pytest.mark.parametrize(
    ("words", "op"), [("not less than {} mm", ">="), ("not more than {} mm", "<=")], ids=("lower", "upper")
)
@pytest.mark.parametrize("limit", ["98.0", "0.02", "3", "0.50"])
def test_catalogue_readings_round_to_the_written_digits(
    label: str, rule: Rule, words: str, op: Op, limit: str
) -> None:
    wording = words.format(limit)
    made = sheet(f"\nx  length in mm\n\n1. A plate with an x of {wording}.\n   | x : {wording}\n")
    (group,) = made.groups
    k = Construction((next(i for i, r in enumerate(group.readings) if r.label == label),), ())
    formula = made.claim(1).limitations[0].formula
    step = Decimal(1).scaleb(Decimal(limit).as_tuple().exponent)  # type: ignore[arg-type]
    for n in range(-9, 10):
        value = Decimal(limit) + n * step / 4
        expected = holds(op, by_decimal(value, step, rule), Decimal(limit))
        parameters = tuple((p.key, p.presumed) for p in made.parameters)
        article = {"x": F(value) / 1000}
        assert evaluate(formula, article, Construction(k.readings, parameters)) is expected, value
