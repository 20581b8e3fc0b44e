"""`start` keeps what stands right around a limit with it, or marks both: hedges, terms, exclusions, formulas.

The claims are our own; the lines and marks beside each are all that it may get, told by hand.
"""

from __future__ import annotations

import pytest

from tests.test_start import lines, read


def beside(text: str) -> set[str]:
    """The lines and marks beside the claims of a draft, which `check` reads without a mistake."""
    read(text)
    return {line.removeprefix("| ") for line in lines(text) if line.startswith("|")}


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("a gap is typically 4 mm", "not restated : typically 4 mm"),
        ("a gap is 4 mm max", "gap : 4 mm max"),
        ("a gap is 4 mm at the most", "gap : 4 mm at the most"),
        ("a gap is 4 mm tops", "not restated : 4 mm tops"),
        ("a gap is strictly greater than 4 mm", "gap : strictly greater than 4 mm"),
        ("a gap is in the neighborhood of 4 mm", "gap : in the neighborhood of 4 mm"),
        ("a gap is short of 4 mm", "gap : short of 4 mm"),
        ("a gap is anything but 4 mm", "not restated : anything but 4 mm"),
        ("a gap rarely exceeds 4 mm", "not restated : rarely exceeds 4 mm"),
        ("a gap need not exceed 4 mm", "not restated : need not exceed 4 mm"),
        ("a gap cannot exceed 4 mm", "gap : cannot exceed 4 mm"),
        ("a gap must not exceed 4 mm", "gap : must not exceed 4 mm"),
        ("a gap must exceed 4 mm", "not restated : must exceed 4 mm"),
        ("a gap equals 4 mm minus the rim", "not restated : 4 mm minus the rim"),
        ("a gap is less than 4 mm plus the rim", "not restated : less than 4 mm plus the rim"),
        ("a gap is less than 4 mm - the rim", "not restated : less than 4 mm - the rim"),
        ("a gap is greater than 1 mm yet below 5 mm", "not restated : greater than 1 mm yet below 5 mm"),
        ("a gap is 3 to 5 mm, except 4 mm", "gap : 3 to 5 mm, except 4 mm"),
        ("a gap is from 3 mm to 5 mm, exclusive of 4 mm", "gap : from 3 mm to 5 mm, exclusive of 4 mm"),
        ("a content of ash is 5% or less (including 0%)", "ash : 5% or less (including 0%)"),
    ],
)
def test_words_right_around_a_limit_are_never_left_off_it(said: str, found: str) -> None:
    assert beside(f"1. A device, wherein {said}.\n") == {found}


@pytest.mark.parametrize(
    ("said", "found"),
    [
        (
            "temperatures FT and CT satisfy 350 ≤ FT - CT ≤ 500",
            {"not restated : 350 ≤ FT - CT ≤ 500", "not restated : temperatures FT and CT satisfy"},
        ),
        ("a + 2b ≤ 40 mm, a being a width", {"not restated : a + 2b ≤ 40 mm"}),
        ("a layer satisfies 5 mm ≤ d ≤ 20 mm", {"not restated : 5 mm ≤ d ≤ 20 mm"}),
        ("(R1+R2)/(R1-R2) > 3", {"not restated : (R1+R2)/(R1-R2) > 3"}),
        ("|R1 - R2| < 3 mm", {"not restated : |R1 - R2| < 3 mm"}),
        ("L > 2W, W being a width", {"not restated : L > 2W"}),
        ("a thickness T ≤ 40 mm", {"thickness T : ≤ 40 mm exactly thickness T <= 40 mm"}),
    ],
)
def test_a_formula_is_one_mark_and_no_limit_of_its_last_term(said: str, found: set[str]) -> None:
    assert beside(f"1. A device, wherein {said}.\n") == found


def test_a_number_added_to_a_letter_is_no_number_of_things() -> None:
    found = beside("1. A server to accept requests from at most N + 2 clients.\n")
    assert not [line for line in found if line.startswith("clients")]
    assert any("N +" in line for line in found)


def test_signs_keep_their_case_and_call_what_they_stand_behind() -> None:
    found = beside(
        "1. A layer having a thickness T1 of 3 mm, a particle size D90 of 5 µm or under.\n"
        "2. The layer of claim 1, wherein T1 is 2 mm or less, and D90 is 3 µm or over.\n"
    )
    assert found == {
        "thickness T1 : 3 mm",
        "particle size D90 : 5 µm or under",
        "thickness T1 : 2 mm or less",
        "particle size D90 : 3 µm or over",
        "not restated : and D90",
    }


def test_a_unit_that_does_not_tell_what_it_measures_gives_no_kind() -> None:
    made = lines(
        "1. A drink having an energy density of 0.8 to 1.2 kcal/mL, a heat of 5 kJ and a rate of 10 1/s.\n"
    )
    assert {"energy density in kcal/mL", "heat energy in kJ", "rate in 1/s"} <= set(made)
