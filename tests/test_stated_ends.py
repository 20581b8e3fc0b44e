"""Ends that a dependent claim states and nothing in it reaches: of like parts, of steps, of quotients."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers.about import Because, EndNotReached, IdleEnd
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.report.stated_ends import end_text
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.ends import Extremum
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
        (PARTS, "4", "5", ("mm", Extremum(Fraction(4), True), None)),
        (STEP, "1", "1.2", ("A", Extremum(Fraction(1), True), None)),
        (RATIO, "3", "4", ("", Extremum(Fraction(7, 2), False), Extremum(Fraction(3), True))),
        (TIMES, "3", "4", ("", Extremum(Fraction(7, 2), False), Extremum(Fraction(3), True))),
        (ROUNDED, "30", "40", ("mm", Extremum(Fraction(61, 2), False), Extremum(Fraction(30), True))),
    ],
)
def test_an_end_is_told_where_nothing_reaches_it(
    sheet: str, there: str, beyond: str, far: tuple[str, Extremum, Extremum | None]
) -> None:
    assert not unreached(sheet.format(there))
    (found,) = unreached(sheet.format(beyond))
    assert found.label == "2a"
    end = found.about
    assert isinstance(end, EndNotReached)
    assert (end.upper, (end.unit, end.far, end.usual)) == (True, far)
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
        "2. The disc of claim 1 at 7 degrees, of more than 300 mm and less than 420 mm.\n"
        "   | angle : 7 degrees\n   | d : more than 300 mm and less than 420 mm\n"
    )
    far = Extremum(Fraction(350), True)
    assert (found.quantifier, found.about) == (
        "base",
        EndNotReached(Because(("1a",)), "300 mm", "mm", False, far),
    )


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


CONDITIONAL = """\
gap   length in mm
lid   one of only flat, domed

1. A box, wherein the gap is at most 2 mm when the lid is flat.
   | gap, lid : at most 2 mm when the lid is flat

2. The box of claim 1, wherein the gap is at most 5 mm if the lid is flat and at least 8 mm otherwise.
   | gap, lid : at most 5 mm if the lid is flat and at least 8 mm otherwise
"""


def test_an_end_on_a_condition_is_told_with_it() -> None:
    """With the lid domed a gap of 9 mm meets claim 2, so the value is not at most 2 mm in all of it."""
    (found,) = unreached(CONDITIONAL)
    told = end_text(read(CONDITIONAL), found)
    assert "where the condition of the line holds the value" in told
    plain = PARTS.format("5")
    (found,) = unreached(plain)
    assert "condition" not in end_text(read(plain), found)


@pytest.mark.parametrize(
    "words",
    [
        "at least 8 mm and at most 16 mm",
        "8 mm or more and 16 mm or less",
        "not less than 8 mm and not more than 16 mm",
        "greater than 8 mm and up to 16 mm",
        "between 8 mm and 16 mm",
    ],
)
def test_an_idle_end_is_found_however_the_range_is_worded(words: str) -> None:
    lines = f"   | a : {words}\n   | a : more than 9 mm\n"
    text = f"a  length in mm\n\n1. A thing, {words} and more than 9 mm.\n{lines}"
    answers = ask_all(read(text))
    (end,) = (f.about for f in answers.findings if f.question == "idle end")
    assert end == IdleEnd(Because(("1b",)), "low", "8 mm")
    assert not [one for one in answers.looked if one.question == "idle"]


def test_ends_that_were_not_asked_are_not_told_as_looked_for() -> None:
    text = "a  length in mm\n\n1. A thing, {0} and more than 9 mm.\n   | a : {0}\n   | a : more than 9 mm\n"
    several = ask_all(read(text.format("8 mm to 16 mm or more than 20 mm")))
    assert not [one for one in several.looked if one.question == "idle"]
    single = ask_all(read(text.format("at most 16 mm")))
    assert [one for one in single.looked if one.question == "idle"]


def test_words_with_readings_of_the_drafters_own_are_asked_too() -> None:
    """As presumed the second line lets in whatever the composition can be; the drafter is told."""
    text = (
        "ply  composition in wt%, only\n  mech, chem, broke\n\n"
        "1. A ply of at least 40 wt% of mech, the remainder being chem and/or broke.\n"
        "   | mech : at least 40 wt% of mech\n   | ply : the remainder being chem and/or broke\n"
        '   |   reading "nothing else" presumed : ply IN {mech, chem, broke}\n'
        '   |   reading "either or both" : chem IN ply OR broke IN ply\n'
    )
    answers = ask_all(read(text))
    assert [f.label for f in answers.findings if f.question == "idle"] == ["1b"]
