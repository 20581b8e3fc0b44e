"""An amount of one thing beside what is said of another, and how far a 'not' before two limits reaches.

Each wording with a thing that it takes in as presumed, and one that it does not. By hand; common practice in
the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors, on_the_wrong_side, presumed_in_symbols, sheet
from tests.test_probe import run

SHARES = "salt, sugar, water  share in wt%"
BARE = "salt, sugar  share in %"
VOLUMES = "salt, sugar  share in vol%"
MASSES = "salt, sugar  mass in g"
GLAZE = "glaze  composition in wt%\n  salt, sugar, water"
LENGTHS = "gap, rim  length in mm"
TEMPERATURES = "inner temp, outer temp  temperature in degC"
COUNTS = "legs, arms  count"
METALS = "metal  any of copper, zinc, tin, lead"
STEPS = "soaking, rinsing, drying  step in min"
BEFORE = "start of soaking = 30 min, duration of soaking = 5 min, start of rinsing = 90 min"
BEFORE += ", duration of rinsing = 5 min, duration of drying = 5 min, start of drying = "
TWO_STEPS = "soaking  step in min\nrinsing  step in min, may be left out"
SOAKED = "rinsing = done, start of soaking = 0 min, duration of soaking = 5 min, duration of rinsing = 1 min"
SOAKED += ", start of rinsing = "
EITHER = ("salt = 1 wt%, sugar = 1 wt%", "salt = 1 wt%, sugar = 3 wt%")
SHUT = ("salt = 0 wt%, sugar = 1 wt%", "salt = 0 wt%, sugar = 3 wt%")
MORE = ("salt = 3 wt%, sugar = 1 wt%, water = {} wt%", "salt = 1 wt%, sugar = 1 wt%, water = {} wt%")

AMOUNTS = [
    *(
        (SHARES, "salt, sugar", words, *EITHER)
        for words in (
            "contains salt but not more than 2 wt% of sugar",
            "contains salt and at most 2 wt% of sugar",
            "contains salt and 1 to 2 wt% of sugar",
            "contains salt but less than 2 wt% of sugar",
            "contains salt and not more than 2 wt% of sugar",
            "comprises salt but at most 2 wt% of sugar",
            "includes salt and at most 2 wt% of sugar",
            "salt is present and at most 2 wt% of sugar",
            "contains salt but at most 2 wt% sugar",
            "contains salt and at most 2 wt% of the sugar",
            "contains salt and between 1 and 2 wt% of sugar",
            "contains salt and at most 2 % by weight of sugar",
            "salt together with at most 2 wt% of sugar",
            "salt combined with at most 2 wt% of sugar",
            "a salt in combination with at most 2 wt% of sugar",
            "contains salt, together with at most 2 wt% sugar",
            "at least as much salt as sugar and at most 2 wt% of sugar",
        )
    ),
    (SHARES, "sugar, salt", "contains sugar but not more than 2 wt% of salt", EITHER[0],
     "salt = 3 wt%, sugar = 1 wt%"),
    (SHARES, "salt, sugar", "is free of salt but has at most 2 wt% of sugar", *SHUT),
    (SHARES, "salt, sugar", "is free of salt but has at most 2 wt% of sugar", SHUT[0], EITHER[0]),
    (SHARES, "salt, sugar", "free of salt and with at most 2 wt% of sugar", *SHUT),
    (SHARES, "salt, sugar", "does not contain salt but at most 2 wt% of sugar", *SHUT),
    (SHARES, "salt, sugar", "contains no salt but at most 2 wt% of sugar", *SHUT),
    (BARE, "salt, sugar", "contains salt and at most 2 % of sugar", "salt = 1 %, sugar = 1 %",
     "salt = 1 %, sugar = 3 %"),
    (VOLUMES, "salt, sugar", "contains salt and at most 2 vol% of sugar", "salt = 1 vol%, sugar = 1 vol%",
     "salt = 1 vol%, sugar = 3 vol%"),
    (SHARES, "salt, sugar", "comprises salt and at least 2 wt% of sugar", EITHER[1], EITHER[0]),
    (SHARES, "salt, sugar", "contains salt and about 2 wt% of sugar", "salt = 9 wt%, sugar = 2 wt%",
     "salt = 1 wt%, sugar = 40 wt%"),
    (SHARES, "salt, sugar", "salt in combination with 1 to 5 wt% of sugar", EITHER[1], SHUT[1]),
    (SHARES, "salt, sugar", "more salt than sugar but at most 3 wt% of sugar", "salt = 4 wt%, sugar = 3 wt%",
     "salt = 3 wt%, sugar = 3 wt%"),
    (MASSES, "salt, sugar", "salt together with at most 5 g of sugar", "salt = 3 g, sugar = 3 g",
     "salt = 3 g, sugar = 6 g"),
    (MASSES, "salt, sugar", "contains salt but less than 2 g of sugar", "salt = 3 g, sugar = 1 g",
     "salt = 3 g, sugar = 3 g"),
    (GLAZE, "salt, sugar", "contains salt and at most 2 wt% of sugar", *EITHER),
    (GLAZE, "glaze", "contains salt together with at most 2 wt% of sugar", *EITHER),
    (GLAZE, "glaze", "contains salt but less than 2 wt% of sugar", *EITHER),
    (GLAZE, "glaze", "contains more salt than sugar and less than 50 wt% of water", MORE[0].format(9),
     MORE[0].format(75)),
    (GLAZE, "glaze", "contains more salt than sugar and at least 50 wt% of water", MORE[0].format(75),
     MORE[0].format(9)),
    (GLAZE, "glaze", "contains less salt than sugar but more than 50 wt% of water",
     "salt = 1 wt%, sugar = 3 wt%, water = 60 wt%", MORE[0].format(60)),
    (GLAZE, "glaze", "twice as much salt as sugar and at least 50 wt% of water",
     "salt = 2 wt%, sugar = 1 wt%, water = 60 wt%", MORE[1].format(60)),
    (GLAZE, "glaze", "contains salt, sugar and less than 50 wt% of water", MORE[0].format(9),
     MORE[0].format(75)),
    (GLAZE, "glaze",
     "contains salt and sugar in a total amount of at most 5 wt% and less than 50 wt% of water",
     MORE[0].format(40), MORE[0].format(75)),
    (SHARES, "salt, sugar, water", "more salt than sugar and at least 50 wt% of water", MORE[0].format(60),
     MORE[1].format(60)),
    (SHARES, "salt, sugar, water", "contains salt, water and at most 2 wt% of sugar", MORE[0].format(60),
     MORE[0].format(0)),
    # Shares of what is named last.
    (SHARES, "salt", "at most 20 wt% of the sugar", "salt = 1 wt%, sugar = 9 wt%", EITHER[0]),
    (SHARES, "salt", "at most 20 % of the sugar", "salt = 1 wt%, sugar = 9 wt%", EITHER[0]),
    (SHARES, "salt", "at most 20 wt%, based on sugar", "salt = 1 wt%, sugar = 9 wt%", EITHER[0]),
    (SHARES, "salt", "at most half of sugar", "salt = 1 wt%, sugar = 9 wt%", EITHER[0]),
    (SHARES, "salt, sugar", "the salt is at most 20 wt% of the sugar", "salt = 1 wt%, sugar = 9 wt%",
     EITHER[0]),
    (SHARES, "salt, sugar", "the salt is at least 5 wt% and at most 20 wt% of the sugar",
     "salt = 1 wt%, sugar = 9 wt%", EITHER[0]),
    ("efficiency, rated efficiency  share in %", "efficiency", "at least 80 % of rated efficiency",
     "efficiency = 45 %, rated efficiency = 50 %", "efficiency = 35 %, rated efficiency = 50 %"),
    ("humidity, ambient humidity  share in %", "humidity", "at most 80 % of ambient humidity",
     "humidity = 35 %, ambient humidity = 50 %", "humidity = 45 %, ambient humidity = 50 %"),
]  # fmt: skip

IN = "gap = {} mm, rim = {} mm"
DENIED = [
    *(
        (LENGTHS, "gap, rim", words, IN.format(3, 4), out)
        for words in (
            "the gap is not larger than the rim but larger than 2 mm",
            "the gap is not greater than the rim and greater than 2 mm",
            "the gap does not exceed the rim but exceeds 2 mm",
            "the gap is not more than the rim and more than 2 mm",
            "a gap not larger than the rim and larger than 2 mm",
            "the gap is not smaller than 2 mm but smaller than the rim",
        )
        for out in (IN.format(1, 4), IN.format(5, 4), IN.format(1, 0.5))
    ),
    (LENGTHS, "gap, rim", "the gap does not exceed 2 mm and exceeds the rim", IN.format(1, 0.5),
     IN.format(1, 4)),
    (LENGTHS, "gap, rim", "the gap is not less than 2 mm and larger than the rim", IN.format(3, 1),
     IN.format(3, 4)),
    (LENGTHS, "gap, rim", "the gap is not greater than the rim and less than 2 mm", IN.format(1, 4),
     IN.format(3, 4)),
    (LENGTHS, "gap, rim", "the gap is not within 1 mm of the rim but larger than the rim", IN.format(6, 4),
     IN.format(2, 4)),
    (LENGTHS, "gap, rim", "the gap is not longer than the rim and shorter than 2 mm", IN.format(1, 4),
     IN.format(3, 4)),
    (LENGTHS, "gap, rim", "the gap is not equal to the rim and less than 2 mm", IN.format(1, 4),
     IN.format(3, 4)),
    (LENGTHS, "gap, rim", "the gap is not larger than 2 mm but larger than the rim", IN.format(1, 0.5),
     IN.format(1, 4)),
    (LENGTHS, "rim, gap", "the rim is not less than 1 mm and less than the gap", IN.format(4, 3),
     IN.format(1, 3)),
    (LENGTHS, "gap, rim", "the gap is not larger than the rim but larger than 2 mm and smaller than 9 mm",
     IN.format(3, 40), IN.format(12, 40)),
    (TEMPERATURES, "inner temp, outer temp",
     "the inner temp is not lower than the outer temp and lower than 60 °C",
     "inner temp = 40 degC, outer temp = 30 degC", "inner temp = 70 degC, outer temp = 80 degC"),
    (TEMPERATURES, "inner temp, outer temp",
     "the inner temp is not higher than the outer temp but higher than 20 °C",
     "inner temp = 40 degC, outer temp = 50 degC", "inner temp = 10 degC, outer temp = 50 degC"),
    (COUNTS, "legs, arms", "the number of legs is not less than the number of arms and less than six",
     "legs = 4, arms = 2", "legs = 8, arms = 9"),
    (SHARES, "salt, sugar", "the salt is not less than 2 wt% and less than the sugar", EITHER[1].replace(
        "salt = 1", "salt = 2"), EITHER[1]),
    (SHARES, "salt, sugar", "the salt is not less than 2 wt% but less than twice the sugar",
     "salt = 2 wt%, sugar = 3 wt%", EITHER[1]),
    (SHARES, "salt, sugar", "the salt is not less than half the sugar but less than twice the sugar",
     EITHER[0], EITHER[1]),
    (SHARES, "salt, sugar", "salt is not equal to the sugar but less than 5 wt%", EITHER[1],
     "salt = 6 wt%, sugar = 1 wt%"),
    *(
        (METALS, "metal", words, "metal = {zinc}", out)
        for words in (
            "not free of zinc but free of copper",
            "not free of zinc and free of copper",
            "not free of zinc, but free of copper and tin",
            "not devoid of zinc but devoid of copper",
            "not without zinc but without copper",
        )
        for out in ("metal = {copper, zinc}", "metal = {tin}")
    ),
    (METALS, "metal", "not at least one of copper and zinc but at least one of tin and lead", "metal = {tin}",
     "metal = {copper, zinc}"),
    (METALS, "metal", "not all of copper, zinc and tin but at least copper", "metal = {copper}",
     "metal = {zinc}"),
    (METALS, "metal", "not exactly one of copper and zinc but tin", "metal = {tin}", "metal = {copper}"),
    (METALS, "metal", "not one or more of copper and zinc but tin", "metal = {tin}", "metal = {zinc, tin}"),
    (METALS, "metal", "not each of copper, zinc and tin but each of copper and zinc",
     "metal = {copper, zinc}", "metal = {copper}"),
    (METALS, "metal", "not free of zinc but containing copper", "metal = {copper, zinc}", "metal = {tin}"),
    (METALS, "metal", "not free of zinc but not free of copper", "metal = {copper, zinc}", "metal = {zinc}"),
    (STEPS, "drying", "not after rinsing but after soaking", f"{BEFORE}60 min", f"{BEFORE}0 min"),
    (STEPS, "drying", "not within 10 min after soaking but within 60 min after soaking", f"{BEFORE}50 min",
     f"{BEFORE}130 min"),
    (TWO_STEPS, "rinsing", "not within 10 min after soaking but within 60 min of the end of soaking",
     f"{SOAKED}30 min", f"{SOAKED}100 min"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), [*AMOUNTS, *DENIED])
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (SHARES, "salt, sugar", "contains salt or at most 2 wt% of sugar"),
        (SHARES, "salt, sugar", "at least 1 wt% but not more than 5 wt% of sugar"),
        (SHARES, "salt, sugar", "at most 2 wt% of sugar"),
        (SHARES, "salt", "at most 2 wt% of sugar"),
        (SHARES, "salt", "2 to 5 wt% of sugar"),
        (SHARES, "salt", "at most 2 % of sugar"),
        (SHARES, "salt", "at most 2 wt% of the weight of sugar"),
        ("oil, wax  share in wt%", "oil, wax", "an oil with 1 to 2 wt% of a wax"),
        (SHARES, "salt, sugar", "salt with 1 to 5 wt% of sugar"),
        (SHARES, "salt, sugar", "a salt having at most 5 wt% of sugar"),
        (SHARES, "salt, sugar", "does not contain salt and at most 2 wt% of sugar"),
        (SHARES, "salt, sugar", "not salt together with at most 2 wt% of sugar"),
        (SHARES, "salt, sugar", "free of salt together with at most 2 wt% of sugar"),
        (SHARES, "salt, sugar", "at most 2 wt% of sugar and contains salt"),
        (SHARES, "salt, sugar", "at most 5 wt% of salt together with sugar"),
        (GLAZE, "glaze", "contains more salt than sugar or less than 50 wt% of water"),
        (LENGTHS, "gap, rim", "the gap is not larger than the rim and the collar"),
        (METALS, "metal", "not free of zinc or free of copper"),
        (METALS, "metal", "not free of both zinc and copper"),
    ],
)
def test_what_may_say_something_else_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


def test_what_may_be_left_out_is_no_share() -> None:
    words = "comprising salt and optionally up to 2 wt% of sugar"
    made = sheet(f"{SHARES}\n\n1. A mix, {words}.\n   | salt, sugar : {words}\n")
    assert not [g for g in made.groups for r in g.readings if "/" in r.plain]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("the gap is not larger than the rim but larger than 2 mm", False),
        ("the gap is not larger than the rim and larger than 2 mm", False),
        ("the gap is not greater than the rim and less than 2 mm", True),
        ("the gap is not less than 2 mm and larger than the rim", True),
    ],
)
def test_a_not_before_two_limits_of_one_side_is_told(words: str, told: bool) -> None:
    text = f"{LENGTHS}\n\n1. A thing, {words}.\n   | gap, rim : {words}\n"
    _, found = read_sheet(Source("test", text))
    assert any("'not' is read of" in d.message for d in found) == told


def test_each_limit_is_told_as_denied_or_not() -> None:
    found = run("metal : not free of zinc but free of copper", "--declare", "metal any of copper, zinc, tin")
    assert '"free of zinc": not so that' in found.output
    assert '"free of copper": not copper in' in found.output


def test_a_sum_is_still_one() -> None:
    words = "at most 5 wt% of salt and sugar together"
    assert presumed_in_symbols(SHARES, "salt, sugar", words) == "salt + sugar <= 5 wt%"
