"""A range or a limit within a sum is taken whole, and no thing is limited by what is worked out of it.

Each wording with a thing that it takes in as presumed, and one that it does not. By hand; common practice in
the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors, on_the_wrong_side

LENGTHS = "gap, rim, lip  length in mm"
LEVELS = "water, air  temperature in degC"
COUNTS = "holes, ribs, slots  count"
SHARES = "oil, gum  share in wt%"
METALS = "metal  any of copper, zinc, steel, tin"
STEPS = "soaking  step in min"
RIBS = "rib  part, 1 to 6\n  height  length in mm\n  colour  one of red, blue, grey"
PERIOD = "dwell  time in min"

READ = [
    (LENGTHS, "gap, rim", "the gap is the rim plus 1 to 2 mm", "gap = 4.5 mm, rim = 3 mm",
     "gap = 2 mm, rim = 1.5 mm"),
    (LENGTHS, "gap, rim", "the gap is the rim plus 1 mm to plus 2 mm", "gap = 4 mm, rim = 3 mm",
     "gap = 5.1 mm, rim = 3 mm"),
    (LENGTHS, "gap, rim", "the gap is the rim minus 1 to 2 mm", "gap = 4 mm, rim = 5 mm",
     "gap = 4.5 mm, rim = 5 mm"),
    (LENGTHS, "gap, rim", "the gap is the rim plus from 1 to 2 mm", "gap = 4 mm, rim = 3 mm",
     "gap = 2 mm, rim = 1.5 mm"),
    (LENGTHS, "gap, rim", "the gap is from the rim minus 1 mm to the rim plus 2 mm",
     "gap = 2 mm, rim = 3 mm", "gap = 5.1 mm, rim = 3 mm"),
    (LENGTHS, "gap, rim", "the gap is more than 1 mm but not more than 2 mm plus the rim",
     "gap = 5 mm, rim = 3 mm", "gap = 50 mm, rim = 3 mm"),
    (LEVELS, "water, air", "the water is more than 20 °C but not above the air plus 5 K",
     "water = 30 °C, air = 25 °C", "water = 31 °C, air = 25 °C"),
    (SHARES, "oil, gum", "the oil is the gum plus 2 to 5 wt%", "oil = 9 wt%, gum = 4 wt%",
     "oil = 5 wt%, gum = 4 wt%"),
    (COUNTS, "holes, ribs", "the number of holes is between the number of ribs and twice the number of ribs",
     "holes = 6, ribs = 3", "holes = 7, ribs = 3"),
    (LENGTHS, "gap, rim, lip", "the gap is 10 to 20 % of the sum of the rim and the lip",
     "gap = 1 mm, rim = 4 mm, lip = 4 mm", "gap = 2 mm, rim = 4 mm, lip = 4 mm"),
    (PERIOD, "dwell", "above 20 min and not in excess of 65 min", "dwell = 65 min", "dwell = 20 min"),
    (PERIOD, "dwell", "not less than 20 min nor in excess of 65 min", "dwell = 20 min", "dwell = 66 min"),
    (PERIOD, "dwell", "over 20 to 40 minutes", "dwell = 20 min", "dwell = 41 min"),
    (LENGTHS, "gap, rim", "extending over 20 to 70 % of the rim", "gap = 2 mm, rim = 10 mm",
     "gap = 8 mm, rim = 10 mm"),
]  # fmt: skip

REFUSED = [
    (LENGTHS, "gap, rim", "the gap is the rim minus 1 mm to plus 2 mm"),
    (LENGTHS, "gap, rim", "the gap equals the rim minus 1 mm to plus 2 mm"),
    (LENGTHS, "gap, rim", "the gap is the rim plus 1 mm or minus 2 mm"),
    (LENGTHS, "gap, rim", "the gap is the rim plus 1 mm or 2 mm"),
    (LENGTHS, "gap, rim", "the gap is 1 to 2 mm plus the rim"),
    (LENGTHS, "gap, rim", "the gap is between 1 and 2 mm plus the rim"),
    (LENGTHS, "gap, rim", "the gap is the sum of the rim and 1 to 2 mm"),
    (LENGTHS, "gap, rim", "the gap is the sum of the rim and at least 1 mm"),
    (LENGTHS, "gap, rim", "the gap is the sum of at least 1 mm and the rim"),
    (LENGTHS, "gap, rim", "the gap is the difference between the rim and 1 to 2 mm"),
    (LENGTHS, "gap, rim", "the gap is within 10 % of the rim plus 1 mm"),
    (LENGTHS, "gap, rim, lip", "the gap is within 10 % of the sum of the rim and the lip"),
    (COUNTS, "holes, ribs, slots",
     "the number of holes is at least the number of ribs and at most three times the number of slots"),
    (METALS, "metal", "comprises copper, but zinc only in combination with tin"),
    (METALS, "metal", "zinc only together with tin"),
    (METALS, "metal", "is free of copper and of zinc together with tin"),
    (METALS, "metal", "does not contain copper in combination with zinc"),
    (COUNTS, "holes", "no more than four of the holes"),
    (COUNTS, "holes", "not fewer than two of the holes"),
    (RIBS, "colour of the ribs", "the ribs are red and blue"),
    (RIBS, "colour of the ribs", "at least two ribs are red and blue"),
    (RIBS, "height of the ribs", "ribs 2 mm and 3 mm high"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), READ)
def test_a_range_within_a_sum_is_taken_whole(
    declared: str, left: str, words: str, within: str, outside: str
) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(("declared", "left", "words"), REFUSED)
def test_what_does_not_tell_its_ends_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    "words", ["the ribs are red or blue", "each rib is red", "at least two ribs are red"]
)
def test_one_of_both_is_read_of_each(words: str) -> None:
    assert not errors(f"{RIBS}\n\n1. A thing, wherein {words}.\n   | colour of the ribs : {words}\n")


def test_a_step_lasts_so_long_and_not_longer_than_the_first_number() -> None:
    lasts = "start of soaking = 0 min, duration of soaking = {} min"
    words = "is carried out over 20 to 40 minutes"
    assert not on_the_wrong_side(STEPS, "soaking", words, lasts.format(20), lasts.format(41))


@pytest.mark.parametrize(
    ("text", "words", "told"),
    [
        ("a gap extending from the rim over 5 mm", "over 5 mm", True),
        ("a gap that is stirred over 5 mm", "over 5 mm", True),
        ("a gap extending from the rim and being over 5 mm", "over 5 mm", False),
        ("a gap of over 5 mm", "over 5 mm", False),
        ("a gap extending over at least 5 mm", "at least 5 mm", False),
    ],
)
def test_over_behind_what_goes_on_is_told(text: str, words: str, told: bool) -> None:
    claim = f"1. A thing with {text}.\n   | gap : {words}\n"
    _, diagnostics = read_sheet(Source("test", f"{LENGTHS}\n\n{claim}"))
    assert any("stands right before" in d.message for d in diagnostics) == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("the gap is at least 5 mm, or the rim is at least 3 mm", True),
        ("the gap is at least 5 mm or the rim is at least 3 mm", True),
        ("the gap is at least 5 mm, and the rim is at least 3 mm", False),
        ("the gap is at least 5 mm; or the like, and the rim is at least 3 mm", False),
    ],
)
def test_an_or_between_two_lines_is_told(text: str, told: bool) -> None:
    claim = f"1. A thing, wherein {text}.\n   | gap : at least 5 mm\n   | rim : at least 3 mm\n"
    made, diagnostics = read_sheet(Source("test", f"{LENGTHS}\n\n{claim}"))
    assert made is not None
    assert any(d.message.startswith("'or' stands between") for d in diagnostics) == told
