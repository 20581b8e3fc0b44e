"""Values that words work out of several quantities, held against plain arithmetic on a grid of things."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

DECLARED = """
rim, bore, gap   length in mm, >= 0
heat             temperature in degC
water, salt      share in wt%
panes            count
"""
LENGTHS = [Fraction(n, 2) for n in (1, 2, 4, 5, 8, 12, 13)]


def text(subjects: str, words: str) -> str:
    return f"{DECLARED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"


def agrees(subjects: str, words: str, asked: Callable[[Fraction, Fraction, Fraction], bool]) -> None:
    """The words are met as presumed by the same things as the arithmetic, some of the things and not all."""
    made = sheet(text(subjects, words))
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    seen = set()
    for rim, bore, gap in product(LENGTHS, repeat=3):
        thing = {"rim": rim / 1000, "bore": bore / 1000, "gap": gap / 1000}
        expected = asked(rim, bore, gap)
        assert evaluate(formula, thing, k) is expected, (words, rim, bore, gap)
        seen.add(expected)
    assert seen == {True, False}, words


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        ("at least the greater of 2 mm and 50 % of the bore", lambda r, b, g: r >= max(2, b / 2)),
        ("at most the smallest of 5 mm, the bore and the gap", lambda r, b, g: r <= min(5, b, g)),
        ("not exceeding one half of the smaller of the bore and the gap", lambda r, b, g: r <= min(b, g) / 2),
        ("less than the bore minus 2 mm", lambda r, b, g: r < b - 2),
        ("at most half the bore plus 2 mm", lambda r, b, g: r <= b / 2 + 2),
        ("at most twice the bore plus 1 mm", lambda r, b, g: r <= 2 * b + 1),
        ("at most twice the bore plus the gap", lambda r, b, g: r <= 2 * b + g),
        ("at most twice the sum of the bore and the gap", lambda r, b, g: r <= 2 * (b + g)),
        ("at most 50 % of the bore plus 2 mm", lambda r, b, g: r <= b / 2 + 2),
        ("at least half of the difference between the bore and the gap", lambda r, b, g: r >= abs(b - g) / 2),
        ("at most the mean of the bore and the gap", lambda r, b, g: r <= (b + g) / 2),
        ("at most the bore minus the gap minus 1 mm", lambda r, b, g: r <= b - g - 1),
        ("greater than the bore and smaller than the gap", lambda r, b, g: b < r < g),
    ],
)
def test_a_value_worked_out_stands_where_a_number_may(
    words: str, asked: Callable[[Fraction, Fraction, Fraction], bool]
) -> None:
    agrees("rim", words, asked)


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        ("the sum of the rim and the gap is less than the bore", lambda r, b, g: r + g < b),
        ("the rim plus the gap is less than the bore", lambda r, b, g: r + g < b),
        ("the rim minus the gap is at least half the bore", lambda r, b, g: r - g >= b / 2),
        ("the smallest of the rim, the bore and the gap is at least 2 mm", lambda r, b, g: min(r, b, g) >= 2),
        ("the average of the rim, the bore and the gap is less than 3 mm", lambda r, b, g: r + b + g < 9),
        ("the difference between the rim and the gap is less than the bore", lambda r, b, g: abs(r - g) < b),
        ("the larger of the rim and the gap exceeds the bore", lambda r, b, g: max(r, g) > b),
        ("the bore divided by the sum of the rim and the gap is at most 1", lambda r, b, g: b / (r + g) <= 1),
    ],
)
def test_a_value_worked_out_stands_before_its_limit(
    words: str, asked: Callable[[Fraction, Fraction, Fraction], bool]
) -> None:
    agrees("rim, bore, gap", words, asked)


@pytest.mark.parametrize(
    ("subjects", "words", "asked"),
    [
        ("rim, bore", "the product of the rim and the bore is at least 4 mm2", lambda r, b, g: r * b >= 4),
        ("rim * bore", "the product of the rim and the bore is at least 4 mm2", lambda r, b, g: r * b >= 4),
        ("rim", "the square of the rim exceeds 4 mm2", lambda r, b, g: r * r > 4),
        (
            "rim, bore",
            "a quotient of the rim and the bore of at most 0.5",
            lambda r, b, g: r / b <= Fraction(1, 2),
        ),
        ("rim, bore", "the rim/bore ratio is at most 0.5", lambda r, b, g: r / b <= Fraction(1, 2)),
        ("rim, bore", "the rim amounts to at least 50 % of the bore", lambda r, b, g: 2 * r >= b),
        ("rim, bore", "the rim exceeds the bore by 1 to 2 mm", lambda r, b, g: 1 <= r - b <= 2),
        ("rim, bore", "the rim is 20 to 50 % smaller than the bore", lambda r, b, g: b / 2 <= r <= b * 4 / 5),
    ],
)
def test_values_of_other_kinds_than_their_parts(
    subjects: str, words: str, asked: Callable[[Fraction, Fraction, Fraction], bool]
) -> None:
    agrees(subjects, words, asked)


@pytest.mark.parametrize(
    ("subjects", "words"),
    [
        ("rim, bore, gap", "at most 20 % of the bore plus the gap"),  # of the bore, or of both
        ("rim, heat", "at most the smaller of the rim and the heat"),
        ("rim, bore, gap", "the product of the rim and the bore is at least 4 mm2"),  # the gap is not named
        ("rim, bore", "at most twice the sum of the bore and the hub"),
    ],
)
def test_what_is_not_told_from_the_words_is_refused(subjects: str, words: str) -> None:
    assert errors(text(subjects, words))


@pytest.mark.parametrize(
    ("subjects", "words", "name", "inside", "outside"),
    [
        ("panes", "at least one hundred panes", "panes", [100, 150], [99, 1]),
        ("panes", "at least two hundred and fifty panes", "panes", [250], [249, 200]),
        ("panes", "between a hundred and two hundred panes", "panes", [100, 200], [99, 201]),
        ("panes", "at most one thousand two hundred panes", "panes", [1200], [1201]),
        ("rim", "at least one hundred and fifty mm", "rim", [Fraction(15, 100)], [Fraction(149, 1000)]),
    ],
)
def test_numbers_in_words_from_a_hundred_on(
    subjects: str, words: str, name: str, inside: list[Fraction], outside: list[Fraction]
) -> None:
    made = sheet(text(subjects, words))
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    assert all(evaluate(formula, {name: Fraction(value)}, k) is True for value in inside)
    assert all(evaluate(formula, {name: Fraction(value)}, k) is False for value in outside)


@pytest.mark.parametrize(
    "words",
    [
        "180 °C (+5/-2 °C)", "180 °C +5/−2 °C", "180 °C plus 5 °C minus 2 °C", "180 °C (+5 °C, -2 °C)",
        "180 °C (-2/+5 °C)", "a heat of 180 °C, plus 5 °C, minus 2 °C",
    ],
)  # fmt: skip
def test_unequal_deviations_on_either_side(words: str) -> None:
    """Upper and lower deviations are added to the nominal size (ISO 286-1, from memory)."""
    made = sheet(text("heat", words))
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    celsius = {
        at: evaluate(formula, {"heat": Fraction(at) + Fraction("273.15")}, k) for at in range(175, 190)
    }
    assert [at for at, met in celsius.items() if met] == list(range(178, 186))


def test_times_more_of_one_than_of_the_other_is_read_both_ways() -> None:
    """'Times more' is used for 'times as much' and for that much in addition (dictionaries of usage)."""
    made = sheet(text("water, salt", "at least three times more water than salt"))
    (group,) = made.groups
    assert {r.plain for r in group.readings} == {"water >= 3 * salt", "water >= (3 + 1) * salt"}
