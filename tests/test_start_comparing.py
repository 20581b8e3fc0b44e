"""`start` on claims that set one measure beside another: each line names both, and no number is cut off.

The claim sets are our own. What each may get was listed before the rules were written; names were settled
after. A line that begins with `?` is one that is still missing.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.start import drafted
from tests.test_start import read

SETS = Path(__file__).with_name("comparing")


def lines(text: str) -> set[str]:
    """The lines beside claims, each behind the number of its claim, without marks."""
    draft = drafted("claims", pasted(text))
    return {f"{claim.number} {line.line}" for claim in draft.claims for line in claim.lines if line.name}


@pytest.mark.parametrize("name", sorted(path.stem for path in SETS.glob("*.txt")))
def test_the_lines_of_a_set_are_those_that_were_listed(name: str) -> None:
    text = (SETS / f"{name}.txt").read_text()
    listed = (SETS / f"{name}.expected").read_text().splitlines()
    wanted = {line for line in listed if not line.startswith("?") and " not restated : " not in line}
    assert lines(text) == wanted
    read(text)


COMPARED = [
    (
        "the lid is narrower than the frame",
        "lid width, frame width : narrower than the frame",
    ),
    (
        "the lid has a thickness equal to or less than half the thickness of the frame",
        "lid thickness, frame thickness : equal to or less than half the thickness of the frame",
    ),
    (
        "the width of the rim is not less than the width of the lid",
        "rim width, lid width : not less than the width of the lid",
    ),
    (
        "the width of the rim is substantially equal to the width of the lid",
        "rim width, lid width : substantially equal to the width of the lid",
    ),
    (
        "the rim has a hardness lower than that of the lid",
        "rim hardness, lid hardness : lower than that of the lid",
    ),
    (
        "the rim is thicker than the lid by at least 2 mm",
        "rim thickness, lid thickness : thicker than the lid by at least 2 mm",
    ),
    (
        "the first pressure is at least 2 bar higher than the second pressure",
        "first pressure, second pressure : at least 2 bar higher than the second pressure",
    ),
    (
        "each rib has a width smaller than the width of the slot",
        "rib width, slot width : smaller than the width of the slot",
    ),
    (
        "a ratio of a height of the rib to a height of the wall is from 0.2 to 0.5",
        "rib height, wall height : ratio of a height of the rib to a height of the wall is from 0.2 to 0.5",
    ),
    (
        "the slot has a ratio of length to width of 2 to 4",
        "length, width : ratio of length to width of 2 to 4",
    ),
    ("the slot has an aspect ratio (length/width) of 3", "length, width : aspect ratio (length/width) of 3"),
    (
        "the pressure in the first chamber is greater than the pressure in the second chamber",
        "first chamber pressure, second chamber pressure : greater than the pressure in the second chamber",
    ),
    (
        "the outer diameter of the inner tube is smaller than the inner diameter of the outer tube",
        "inner tube outer diameter, outer tube inner diameter : smaller than the inner diameter of the outer"
        " tube",
    ),
    (
        "an area of the first lid is 1.5 times or more an area of the second lid",
        "first lid area, second lid area : 1.5 times or more an area of the second lid",
    ),
    (
        "a width of the rim is not less than 20 % and not more than 50 % of a width of the lid",
        "rim width, lid width : not less than 20 % and not more than 50 % of a width of the lid",
    ),
    ("the slot has a length-to-width ratio of 3", "length, width : length-to-width ratio of 3"),
]


@pytest.mark.parametrize(("said", "line"), COMPARED)
def test_a_comparison_is_a_line_with_both_names(said: str, line: str) -> None:
    text = f"1. A tray, wherein {said}.\n"
    assert lines(text) == {f"1 {line}"}
    read(text)


def test_what_goes_on_behind_a_comparison_is_of_the_same() -> None:
    text = "1. A tray, wherein the width of the rim is {}, and the lid has a depth of 2 mm.\n"
    below = "less than the width of the lid"
    for said in (f"{below} and is at least 5 mm", f"at least 5 mm and {below}"):
        found = lines(text.format(said))
        assert found == {"1 rim width : at least 5 mm", f"1 rim width, lid width : {below}", "1 depth : 2 mm"}


def test_the_step_in_which_a_side_is_brought_in_names_it() -> None:
    text = (
        "1. A method, comprising heating the mixture to a temperature above the glass transition temperature"
        " of the resin; and cooling the mixture to a temperature of 20 to 30 °C.\n"
    )
    heating = "mixture heating temperature, resin glass transition temperature"
    assert f"1 {heating} : above the glass transition temperature of the resin" in lines(text)


NONE = [
    "the first and second ribs have a width greater than the width of the slot",
    "the frame with the lid has a width greater than the width of the base",
    "the frame and the lid each have a width greater than the width of the base",
    "the ratio of the width to the length is greater than the depth of the slot",
    "a comparator outputs a signal indicating that the first voltage is greater than the second voltage",
    "the lid has a state in which the first pressure is greater than the second pressure",
    "the width of the rim and the width of the lid are greater than the width of the base",
    "when the lid is shut, the first width is greater than the second width",
    "the width of the rim is greater than the width of the lid and the width of the base",
    "the width of the rim is greater than the width of the lid or the base",
    "the width of the rim is preferably greater than the width of the lid",
    "the sum of the first width and the second width is less than the width of the frame",
    "the valve opens when the first temperature exceeds the second temperature",
    "it is determined whether the first temperature is higher than the second temperature",
    "the rim is longer than the lid",
    "the rim is wider than any of the lids",
    "the width of the rim may be greater than the width of the lid",
    "the width of the rim is greater than the width of the lid under load",
    "the length to width ratio of the slot is at least 3",
    "the rim is adapted to keep a gap exceeding the width of the lid",
    "the width of the rim is greater than the depth of the lid times 2",
    "the pressure is greater than the width of the lid",
]


@pytest.mark.parametrize("said", NONE)
def test_what_is_more_than_a_comparison_of_two_is_no_line(said: str) -> None:
    assert not [line for line in lines(f"1. A tray, wherein {said}.\n") if "valve" not in line]


@pytest.mark.parametrize(
    ("said", "line"),
    [
        (
            "the oil is selected from diethyl di-(2-hexyl) ester, nylon 12, and mixtures thereof",
            "oil : selected from diethyl di-(2-hexyl) ester, nylon 12, and mixtures thereof",
        ),
        (
            "at least one of the first pane and the second pane is thermally hardened",
            "thermally hardened : at least one of the first pane and the second pane",
        ),
    ],
)
def test_lists_of_long_names_and_of_what_is_done(said: str, line: str) -> None:
    text = f"1. A tray, wherein {said}.\n"
    assert lines(text) == {f"1 {line}"}
    read(text)


def test_a_class_of_ingredients_has_members_with_long_names() -> None:
    text = (
        "1. A film, comprising at least 60 % by weight of a wax and from 15 to 35 % by weight of an oil.\n\n"
        "2. The film of claim 1, wherein the oil is selected from the group consisting of diethyl"
        " di-(2-hexyl) ester, dibutyl sebacate, and mixtures thereof.\n"
    )
    members = "diethyl di-(2-hexyl) ester, dibutyl sebacate"
    said = f"selected from the group consisting of {members}, and mixtures thereof"
    assert f"2 oil : {said}" in lines(text)
    read(text)


@pytest.mark.parametrize(
    "said",
    [
        "the metal is selected from steel (annealed), copper and zinc",
        "at least one of the lid and the rim is coupled to the frame",
        "when the lid is open, at least one of the lid and the rim is coated",
    ],
)
def test_lists_that_no_line_has(said: str) -> None:
    assert not lines(f"1. A tray, wherein {said}.\n")
