"""Words that make another quantity of a name, that tell a total, or which of several: heard, told or refused.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors, presumed_in_symbols, sheet

SIZES = "gap, rim  length in mm"
SHARES = "oil, gum, dye  share in wt%"
PASTE = "paste  composition in wt%\n  wax, oil, water"
OF_ALL = "oil, gum, dye"
COUNT = "slots  count"
TABS = "tab  part, 1 to 3\n  height  length in mm"


def _text(declared: str, left: str, words: str) -> str:
    return f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n"


@pytest.mark.parametrize(
    ("declared", "left", "words", "message"),
    [
        # a total that no reading adds up
        (SHARES, OF_ALL, "one or more of oil, gum and dye are at most 3 wt% in total", "tells a sum"),
        (SHARES, OF_ALL, "none of oil, gum and dye exceeds 3 wt% in total", "tells a sum"),
        (SHARES, OF_ALL, "each of oil, gum and dye is at most 3 wt% in total", "tells a sum"),
        (SHARES, OF_ALL, "at least two of oil, gum and dye are at most 3 wt% in total", "tells a sum"),
        (SHARES, OF_ALL, "oil, and gum and dye together, each at most 1 wt%", "tells a sum"),
        (SIZES, "gap, rim", "both the gap and the rim are at most 3 mm in total", "tells a sum"),
        (SIZES, "gap, rim", "are each at most 3 mm combined", "tells a sum"),
        (SIZES, "gap, rim", "neither the gap nor the rim is less than 3 mm in total", "tells a sum"),
        (SIZES, "gap, rim", "the gap is at most 3 mm and the rim at most 2 mm, in total", "tells a sum"),
        (SIZES, "gap, rim", "the gap is at least twice the rim in total", "tells a sum"),
        # what is worked out of a quantity
        (SIZES, "gap, rim", "a ratio of gap difference to rim of at most 0.1", "another quantity than gap"),
        ("width, rim  length in mm", "width, rim",
         "a ratio of the spacing of the width to the rim of at most 1", "another quantity than width"),
        ("width, rim  length in mm", "width, rim", "the width clearance is at least twice the rim",
         "another quantity than width"),
        ("bore  length in mm", "bore", "a bore tolerance of at least 3 mm", "another quantity than bore"),
        ("bore  length in mm", "bore", "a shrinkage of the bore of at most 3 mm", "another quantity"),
        ("bore  length in mm", "bore", "a sum of bores of at least 3 mm", "another quantity than bore"),
        ("bore, width  length in mm", "bore, width", "the bore is twice the diameter of the width",
         "another quantity than width"),
        # which of several
        (SIZES, "gap, rim", "the gap is at least twice the other rim", "one of several"),
        (SIZES, "gap, rim", "the remaining gap is greater than the rim", "one of several"),
        (COUNT, "slots", "each of the rows has six slots", "one row at a time"),
        (COUNT, "slots", "no side has more than three slots", "one side at a time"),
        (COUNT, "slots", "every flange has six slots", "one flange at a time"),
        # steps on a scale, what is so as a rule, and what is meant loosely
        ("tone  frequency in Hz", "tone", "an octave above 440 Hz", "no phrase reads"),
        ("tone  frequency in Hz", "tone", "a decade above 10 Hz", "no phrase reads"),
        (SIZES, "gap", "normally at most 8 mm", "no phrase reads"),
        (SIZES, "gap", "north of 5 mm", "'north of'"),
        (PASTE, "wax", "20 to 60 wt% calculated on a dry basis", "counts a part of paste"),
    ],
)  # fmt: skip
def test_what_no_reading_hears_is_refused(declared: str, left: str, words: str, message: str) -> None:
    (error, *_) = errors(_text(declared, left, words))
    assert message in error.message


@pytest.mark.parametrize(
    ("declared", "left", "words", "so"),
    [
        (SIZES, "gap, rim", "the gap and the rim are together at most 40 mm", "gap + rim <= 40 mm"),
        (SIZES, "gap, rim", "a gap of at least 4 mm together with a rim of at most 2 mm",
         "(gap >= 4 mm and rim <= 2 mm)"),
        (SIZES, "gap, rim", "the gap difference", ""),
        ("heat rate  in K/min", "heat rate", "a heat rate of at most 5 K/min", "heat rate <= 5 K/min"),
        ('spread  length in mm  "bore tolerance"', "spread", "a spread of at most 5 mm", "spread <= 5 mm"),
        (f'{COUNT}  "of each wheel"', "slots", "each wheel has six slots", "slots >= six"),
        (PASTE, "wax", "at most 60 wt%", "wax <= 60 wt%"),
        ("gap, gap tolerance  length in mm", "gap, gap tolerance",
         "the gap is greater than the gap tolerance", "gap > gap tolerance"),
        ("rim, other rim  length in mm", "rim, other rim", "the rim is greater than the other rim",
         "rim > other rim"),
    ],
)  # fmt: skip
def test_their_neighbours_are_read(declared: str, left: str, words: str, so: str) -> None:
    assert presumed_in_symbols(declared, left, words) == so


def test_a_mean_of_one_of_two_is_told() -> None:
    _, told = read_sheet(
        Source("t", _text(SIZES, "gap, rim", "the mean gap exceeds the rim by at least 3 mm"))
    )
    assert [d.message for d in told] == ["'mean' is taken as said of gap as it is declared"]
    noted = _text('gap  length in mm  "mean"\nrim  length in mm', "gap, rim", "the mean gap is twice the rim")
    _, told = read_sheet(Source("t", noted))
    assert not told


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("several of the tabs have a height of at least 3 mm", "two recited ones or more; others may differ"),
        (
            "a plurality of the tabs have a height of at least 3 mm",
            "two recited ones or more; others may differ",
        ),
        ("a plurality of tabs have a height of at least 3 mm", "every one of two or more"),
        ("a tab with a height of 2 to 3 mm", "at least one of them"),
        ("a tab has a height of at least 3 mm", "at least one of them"),
        ("the tabs have a maximum height of 8 mm", "every one"),
    ],
)
def test_of_which_of_the_parts_it_is_first_read(words: str, first: str) -> None:
    made = sheet(_text(TABS, "height of the tabs", words))
    assert first in {g.readings[g.base].label for g in made.groups}
    assert "their mean" not in {r.label for g in made.groups for r in g.readings}


METALS = "metal  any of copper, tin"


@pytest.mark.parametrize(
    ("declared", "left", "words", "label", "there"),
    [
        (SIZES, "gap, rim", "within 2 mm of each other", "first minus second", False),
        (SIZES, "gap, rim", "differ from one another by at most 2 mm", "first minus second", False),
        (SIZES, "gap, rim", "the gap and the rim differ by at most 2 mm", "first minus second", True),
        ("grade  one of soft, hard, firm", "grade", "not soft or hard", "not all of them together", False),
        (METALS, "metal", "not copper or tin", "not all of them together", True),
        (METALS, "metal", "copper is present", "these and nothing else", False),
        (METALS, "metal", "copper", "these and nothing else", True),
        ("wax  share in wt%", "wax", "no detectable wax", "below detection", True),
        ("wax  share in wt%", "wax", "no detectable wax", "below a threshold", False),
    ],
)  # fmt: skip
def test_readings_that_the_words_rule_out_are_not_listed(
    declared: str, left: str, words: str, label: str, there: bool
) -> None:
    made, told = read_sheet(Source("t", _text(declared, left, words)))
    assert made is not None
    assert not told
    assert (label in {r.label for g in made.groups for r in g.readings}) is there


def test_at_least_one_of_them_and_combinations_leaves_room_for_others() -> None:
    words = "at least one of copper, tin, and combinations thereof"
    (group,) = sheet(_text(f"{METALS}, zinc", "metal", words)).groups
    assert group.readings[group.base].label == "one or more, others beside them"


@pytest.mark.parametrize(
    ("side", "said"), [("below", "less than 5 mm"), ("above", "more than 5 mm"), ("up to", "at most 5 mm")]
)
def test_a_condition_is_shown_with_the_side_it_is_on(side: str, said: str) -> None:
    made = sheet(_text(SIZES, "gap, rim", f"at least 2 mm {side} a rim of 5 mm"))
    (group,) = [g for g in made.groups if "it is so, and the limit" in {r.label for r in g.readings}]
    assert all(f"rim of {said}" in r.plain for r in group.readings)
