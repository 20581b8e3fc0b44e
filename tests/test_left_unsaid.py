"""Words that a reading would leave unheard. Common practice, no source."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors

TWO = "inner diameter, outer diameter  length in mm"
ROWS = "holes, rows  count"


@pytest.mark.parametrize(
    ("declared", "left", "words", "message"),
    [
        ("voltage  voltage in V", "voltage", "no drop in voltage", "stands behind 'no'"),
        ("gap  length in mm", "gap", "without closing the gap", "stands behind 'no'"),
        ("resin A, resin B  share in wt%", "resin A", "free of resin B", "stands behind 'no'"),
        ("frequency  frequency in Hz", "frequency", "50/60 Hz", "may be two values"),
        (ROWS, "holes", "a plurality of holes in each row", "said of each of several"),
        ("rod, gap  length in mm", "rod", "at least 50 mm, excluding the gap", "how rod is measured"),
        ("grade  one of low, medium, high", "grade", "at least medium", "asks for an order"),
        ("oil, wax  share in wt%", "oil", "comprises 5 to 10 wt% of wax", "how much wax there is"),
        (TWO, "inner diameter, outer diameter", "an outer diameter of at most 30 mm",
         "limit outer diameter alone"),
        ("coil current, load current  current in A", "coil current", "a load current below 5 A",
         "limit load current"),
        ("gap, rim  length in mm", "gap, rim", "not different", "how far they may differ"),
        ("inlet  pressure in bar(g)", "inlet", "a vacuum of at least 0.2 bar(g)", "turns the limit round"),
        ("ribs  count", "ribs", "a plurality of ribs of equal height", "says something of each of them"),
        ("layers  count", "layers", "one and a half dozen layers", "is read as no number"),
        ("holes  count", "holes", "at least half of the holes", "the share is one of holes itself"),
        ("glaze  composition in wt%\n  zircon, tin, water\n  opacifier : zircon, tin", "opacifier",
         "at least half zircon", "may be half of what there is"),
        ("resin  share in wt%", "resin", "5 wt% and up to 10 wt%", "a value and a limit"),
        ("resin, hardener  share in wt%", "resin, hardener",
         "the hardener makes up at most 10 wt% of the resin and the hardener", "of both together"),
        ("coated  one of only yes, no", "coated", "is to be coated", "does not say that it is so"),
        ("tip radius, ball diameter  length in mm", "tip radius, ball diameter",
         "less than that of the ball", "is the radius of it"),
        ("bore diameter, rod diameter  length in mm", "bore diameter, rod diameter",
         "ratio of the bore depth to the rod diameter of at least 2", "no phrase reads"),
        ("rib  part, 0 to 5\n  height  length in mm", "height of the ribs", "most 8 mm", "no phrase reads"),
        ("gap  length in mm", "gap", "can be 5 to 8 mm", "'can be' lifts"),
    ],
)  # fmt: skip
def test_what_no_reading_would_hear_is_refused(declared: str, left: str, words: str, message: str) -> None:
    (error, *_) = errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert message in error.message


@pytest.mark.parametrize(
    ("declared", "left", "words", "message"),
    [
        ("oil  share in wt%", "oil", "free of mineral oil", "'mineral' is read past"),
        ("rear wheels, front wheels  count", "rear wheels", "a single front wheel",
         "'front wheels' stands in the words and takes no part"),
        ("film thickness  length in mm", "film thickness", "the length of the film is at most 5 mm",
         "'length' is read as film thickness"),
    ],
)  # fmt: skip
def test_what_is_read_of_something_else_is_told(declared: str, left: str, words: str, message: str) -> None:
    _, told = read_sheet(Source("t.sheet", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert any(message in d.message for d in told if d.severity == "warning"), told


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("oil  share in wt%", "oil", "free of any oil"),
        ("ribs  count", "ribs", "no ribs"),
        ("inch  length in mm", "inch", "at least 3/4 mm"),
        ("weight  mass in kg\nlactose  share in wt%", "lactose", "at least 60 % by weight"),
        ("starts  frequency in 1/h\nlevel  length in mm", "level", "at least 3 mm at the start"),
    ],
)
def test_what_says_no_more_is_read_without_a_word(declared: str, left: str, words: str) -> None:
    made, told = read_sheet(Source("t.sheet", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert made is not None
    assert not [d for d in told if "takes no part" in d.message or "stands behind" in d.message]
