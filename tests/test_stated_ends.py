"""Ends that a dependent claim states and nothing in it reaches: of like parts, of steps, of quotients."""

from __future__ import annotations

import pytest

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import sheet as read

PARTS = """hole        part, 1 to 4
  diameter  length in mm

1. A tray with holes having a diameter of 2 to 4 mm.
   | diameter of the holes : a diameter of 2 to 4 mm

2. The tray of claim 1, wherein the holes have a diameter of 3 to {0} mm.
   | diameter of the holes : a diameter of 3 to {0} mm
"""
STEP = """charging   step in min, may be left out
  current  in A, >= 0 A

1. A method comprising charging a battery with a charging current of 0.5 A to 1 A.
   | current of charging : a charging current of 0.5 A to 1 A

2. The method of claim 1, wherein the charging current is 0.8 A to {0} A.
   | current of charging : 0.8 A to {0} A
"""
RATIO = """a, b length in mm

1. A rod, wherein the ratio of a to b is 1 to 3.
   | a, b : ratio of a to b is 1 to 3

2. The rod of claim 1, wherein the ratio of a to b is 2 to {0}.
   | a, b : ratio of a to b is 2 to {0}
"""
TIMES = """a, b length in mm

1. A rod, wherein a is 1 to 3 times b.
   | a, b : a is 1 to 3 times b

2. The rod of claim 1, wherein a is 2 to {0} times b.
   | a, b : a is 2 to {0} times b
"""


ROUNDED = """profile EPO
a length in mm

1. A rod, wherein a is at most 30 mm.
   | a : at most 30 mm

2. The rod of claim 1, wherein a is at least 20 mm and at most {0} mm.
   | a : at least 20 mm and at most {0} mm
"""


def unreached(text: str) -> list[Finding]:
    return [f for f in ask_all(read(text)).findings if f.question == "end not reached"]


@pytest.mark.parametrize(
    ("sheet", "there", "beyond", "far"),
    [
        (PARTS, "4", "5", "no more than|4 mm|in"),
        (STEP, "1", "1.2", "no more than|1 A|in"),
        (RATIO, "3", "4", "no more than|7/2|out|3|in"),
        (TIMES, "3", "4", "no more than|7/2|out|3|in"),
        (ROUNDED, "30", "40", "no more than|61/2 mm|out"),
    ],
)
def test_an_end_is_told_where_nothing_reaches_it(sheet: str, there: str, beyond: str, far: str) -> None:
    assert not unreached(sheet.format(there))
    (found,) = unreached(sheet.format(beyond))
    assert found.label == "2a"
    assert found.detail.partition("|")[2] == far
    assert found.quantifier == ("base" if sheet in (PARTS, STEP) else "every")


def test_an_end_of_one_reading_only_is_no_end_on_every_reading() -> None:
    """On the other reading the words limit another quantity, which goes as far as they say."""
    text = """first share in %
whole share in %

1. A tablet comprising 5 to 15 % of bleach in the first layer.
   | first : 5 to 15 %

2. The tablet of claim 1, comprising 15 to 20 % of bleach.
   | first : 15 to 20 %
   |   reading "of the first layer" : 15 % <= first <= 20 %
   |   reading "of the tablet" : 15 % <= whole <= 20 %
"""
    (found,) = unreached(text)
    assert found.quantifier == "base"
    (found,) = unreached(text.replace("whole <= 20", "first + whole <= 20"))
    assert found.quantifier == "base"
    (found,) = unreached(text.replace("15 % <= whole <= 20 %", "15 % < first < 20 %"))
    assert found.quantifier == "every"


def test_an_end_that_a_stretch_comes_near_to_is_not_out_of_reach_on_every_reading() -> None:
    """Where the hedge above stretches far enough, 'more than 300 mm' is what keeps the value there."""
    (found,) = unreached(
        "d length in mm\nangle in deg\n\n1. A disc of approximately 350 mm to 450 mm.\n"
        "   | d : approximately 350 mm to 450 mm\n\n"
        "2. The disc of claim 1 at 7 degrees and of more than 300 mm.\n"
        "   | angle : 7 degrees\n   | not restated : and\n   | d : more than 300 mm\n"
    )
    assert (found.quantifier, found.detail) == ("base", "300 mm|no less than|350 mm|in")


@pytest.mark.parametrize(("most", "told"), [(60, 0), (12, 1)])
def test_more_parts_than_the_sheet_lets_be_are_no_end_out_of_reach(most: int, told: int) -> None:
    text = (
        f"blade part, 0 to {most}\n  disc length in mm\n\n1. A drill with a plurality of blades.\n"
        "   | blades : a plurality\n\n"
        "2. The drill of claim 1 with at least 2 and not more than 24 blades.\n"
        "   | blades : at least 2 and not more than 24 blades\n"
    )
    assert not unreached(text)
    _, wrong = read_sheet(Source("test", text))
    warned = [d for d in wrong if d.message == f"24 lies above {most}, the most blades there may be"]
    assert len(warned) == told
