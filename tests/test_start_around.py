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
        ("a gap is greater than 1 mm yet below 5 mm", "gap : greater than 1 mm yet below 5 mm"),
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


STEEL = "1. A steel sheet containing, in mass%, C: 0.1% or less, Mn: 0.5 to 3.0%, {}."


@pytest.mark.parametrize(
    "said",
    [
        "one or two or more selected from the group consisting of Cr: 0.05 to 0.50%, Ni: 0.05 to 0.50%"
        " and Cu: 0.05 to 0.30%",
        "one or both of Cr: 0.05 to 0.50% and Ni: 0.05 to 0.50%",
        "at least one of Nb: 0.01 to 0.10% and V: 0.01 to 0.10%",
        "Ni + Cu: 0.5% or less",
    ],
)
def test_elements_of_which_one_is_enough_or_that_are_summed_are_limited_together(said: str) -> None:
    found = beside(STEEL.format(said) + "\n")
    assert f"not restated : {said}" in found
    assert {"C : 0.1% or less", "Mn : 0.5 to 3.0%"} <= found
    assert not [line for line in found if line.startswith(("Cr", "Ni", "Cu", "Nb", "V", "share", "group"))]


def test_a_total_of_elements_on_the_basis_said_once_is_one_of_both() -> None:
    found = beside(STEEL.format("total of Ni and Cu: 0.5% or less") + "\n")
    assert "Ni + Cu : total of Ni and Cu: 0.5% or less" in found


def test_an_element_before_a_colon_is_the_one_of_the_claim_above() -> None:
    found = beside(
        STEEL.format("N: 0.006% or less") + "\n2. The steel sheet of claim 1, wherein Mn: 1.2 to 2.5%.\n"
    )
    assert "Mn : 1.2 to 2.5%" in found


@pytest.mark.parametrize(
    ("claim", "found"),
    [
        (
            "A drink containing a salt in an amount of from 200 IU to 400 IU per serving of 100 mL,"
            " provided that the amount of the salt is not 400 IU.",
            {
                "not restated : from 200 IU to 400 IU per serving of 100 mL",
                "not restated : provided that the amount of the salt is not 400 IU",
            },
        ),
        (
            "A powder, wherein a span, defined as (D90 − D10)/D50, of the grains is less than 1.2.",
            {"not restated : span, defined as (D90 − D10)/D50, of the grains is less than 1.2"},
        ),
        (
            "A powder, wherein a span is less than 1.2, the span being defined as (D90 − D10)/D50.",
            {"span : less than 1.2", "not restated : defined as (D90 − D10)/D50"},
        ),
        (
            "A lamp, wherein a duty cycle is at most 1% in a rest mode and at most 10% otherwise.",
            {"not restated : a duty cycle is at most 1% in a rest mode and at most 10% otherwise"},
        ),
        (
            "A paste comprising a salt selected from halite and sylvite in an amount of 2 to 6 wt%.",
            {"salt : 2 to 6 wt%", "salt material : selected from halite and sylvite"},
        ),
        ("A lamp, wherein a duty cycle is neither less than 1% nor more than 5%.",
         {"duty cycle : neither less than 1% nor more than 5%"}),
        ("A handle having a grip diameter falling in the range between 28 mm and 36 mm, inclusive.",
         {"grip diameter : between 28 mm and 36 mm, inclusive"}),
    ],
)  # fmt: skip
def test_what_holds_only_with_what_stands_around_it_is_kept_with_it(claim: str, found: set[str]) -> None:
    assert beside(f"1. {claim}\n") == found


def test_what_would_be_refused_when_the_sheet_is_read_is_a_mark() -> None:
    found = beside("1. A bed having a length of 10 cm or more but not 13 cm.\n")
    assert found == {"not restated : 10 cm or more but not 13 cm"}


def test_a_formula_of_what_is_declared_under_its_letters_is_a_line() -> None:
    found = beside(
        "1. A cell, wherein a thickness T1 of a layer and a thickness T2 of a layer satisfy 0.2 < T2/T1 ≤"
        " 0.8, and a total of T1 and T2 is 40 µm or more.\n"
        "2. The cell of claim 1, wherein the ratio T2/T1 is 0.5 or more.\n"
    )
    assert "T2, T1 : 0.2 < T2/T1 ≤ 0.8" in found
    assert "T2, T1 : ratio T2/T1 is 0.5 or more" in found


@pytest.mark.parametrize(
    ("first", "then", "line"),
    [
        (
            "A node, wherein a loss ratio, being a number of lost frames divided by a number of frames,"
            " is less than 5%.",
            "The node of claim 1, wherein the loss ratio is less than 2%.",
            "loss ratio : less than 2%",
        ),
        (
            "A node having an expiry time of 5 to 20 seconds.",
            "The node of claim 1, wherein the expiry time is strictly greater than 4 seconds.",
            "expiry time : strictly greater than 4 seconds",
        ),
        (
            "A drink comprising, by weight of the drink: from about 4% to about 9% of a protein; and 2 to 5"
            " wt% of a lipid.",
            "The drink of claim 1, wherein the protein makes up approximately 6 wt% of the drink.",
            "protein : approximately 6 wt%",
        ),
    ],
)
def test_the_same_thing_in_a_dependent_claim_is_the_one_above(first: str, then: str, line: str) -> None:
    found = beside(f"1. {first}\n2. {then}\n")
    assert line in found
    assert len([one for one in found if one.startswith(line.split(" :")[0] + " :")]) == 2


def test_a_unit_that_does_not_tell_what_it_measures_gives_no_kind() -> None:
    made = lines(
        "1. A drink having an energy density of 0.8 to 1.2 kcal/mL, a heat of 5 kJ and a rate of 10 1/s.\n"
    )
    assert {"energy density in kcal/mL", "heat energy in kJ", "rate in 1/s"} <= set(made)


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("a width averages 4 m", {"not restated : averages 4 m"}),
        ("a width is as close as possible to 40 mm", {"not restated : as close as possible to 40 mm"}),
        (
            "a width is not significantly greater than 40 mm",
            {"width : not significantly greater than 40 mm"},
        ),
        (
            "a width is 40 mm to 60 mm, the value of 50 mm being excluded",
            {"not restated : 40 mm to 60 mm, the value of 50 mm being excluded"},
        ),
        ("a width is either 40 mm or 50 mm", {"width : either 40 mm or 50 mm"}),
        (
            "a width is from 40 mm (exclusive) to 60 mm (inclusive)",
            {"width : from 40 mm (exclusive) to 60 mm (inclusive)"},
        ),
        (
            "a volume is the sum of 2 L and a volume of a tank",
            {"not restated : the sum of 2 L", "not restated : and a volume of a tank"},
        ),
        (
            "the square of the radius is at least 4 cm2",
            {"not restated : square of the radius is at least 4 cm2"},
        ),
        (
            "a gel is heated from 20 °C to 80 °C",
            {"not restated : heated from 20 °C to 80 °C"},
        ),
        ("a pressure rises from 2 bar to 3 bar", {"not restated : rises from 2 bar to 3 bar"}),
        ("a pump runs for the first 10 minutes", {"not restated : for the first 10 minutes"}),
        ("a width is 4 m at its widest point", {"width : 4 m", "not restated : at its widest point"}),
    ],
)
def test_what_a_limit_says_by_a_verb_a_term_or_a_place_is_told(said: str, found: set[str]) -> None:
    assert beside(f"1. A device, wherein {said}.\n") == found


def test_a_second_thing_done_has_a_time_of_its_own_and_no_time_is_cut_out_of_its_words() -> None:
    found = beside(
        "1. A method comprising heating a gel to 80 °C and then held for 10 minutes; feeding a gas for"
        " the first 10 minutes; and rinsing the gel.\n"
    )
    assert "not restated : for the first 10 minutes" in found
    assert "duration of feeding : 10 minutes" not in found


@pytest.mark.parametrize(
    ("said", "found"),
    [
        (
            "neither the power nor the current exceeds 40 W",
            {"not restated : neither the power nor the current exceeds 40 W"},
        ),
        (
            "a power exceeds 40 W for no longer than 2 seconds",
            {"not restated : exceeds 40 W for no longer than 2 seconds"},
        ),
        (
            "a power is 40 W, but 60 W in a boost mode",
            {"not restated : 40 W, but 60 W in a boost mode"},
        ),
        (
            "few of the diodes have a power above 1 W",
            {"not restated : few of the diodes have a power above 1 W"},
        ),
        (
            "a flicker is below 5% even at 10% brightness",
            {"not restated : below 5% even at 10% brightness"},
        ),
        ("a seat withstands 120 kg", {"not restated : withstands 120 kg"}),
        ("a length is 40 mm, as is the width", {"length : 40 mm", "not restated : as is the width"}),
        ("an inner diameter is 2 to 4 mm smaller", {"not restated : 2 to 4 mm smaller"}),
        ("a width is 80 mm, measured at the lip", {"width : 80 mm", "not restated : measured at the lip"}),
        ("n1 - n2 is 0.05 or more", {"not restated : n1 - n2 is 0.05 or more"}),
        ("A:B is 1:2 to 1:4", {"not restated : A:B is 1:2 to 1:4"}),
        (
            "the drying is done at 60 °C, or alternatively at 80 °C",
            {"not restated : 60 °C, or alternatively at 80 °C"},
        ),
    ],
)  # fmt: skip
def test_two_cases_two_things_and_what_is_turned_round_are_no_limit_of_one(
    said: str, found: set[str]
) -> None:
    assert beside(f"1. A device, wherein {said}.\n") == found


def test_how_many_of_a_size_there_are_limits_no_size() -> None:
    found = beside(
        "1. A sheet, wherein the number of grains having a diameter of 5 µm or more is 10 or less.\n"
    )
    assert not [line for line in found if not line.startswith("not restated")]
    found = beside("1. A sheet having a structure containing 60% or more in total of ferrite and bainite.\n")
    assert found == {"not restated : 60% or more in total of ferrite and bainite"}
    found = beside("1. A plate having dimensions of 40 mm by 20 mm by 10 mm.\n")
    assert found == {"not restated : 40 mm by 20 mm by 10 mm"}


def test_signs_behind_a_colon_limit_what_stands_before_it() -> None:
    found = beside("1. A steel comprising C: 0.10% to 0.20%, S: ≤ 0.010%, P: < 0.020%.\n")
    assert "S : ≤ 0.010% exactly S <= 0.010 %" in found
    assert "P : < 0.020% exactly P < 0.020 %" in found


@pytest.mark.parametrize(
    ("said", "found"),
    [
        (
            "a stroke is no more than, and preferably less than, 4 mm",
            {"not restated : no more than, and preferably less than, 4 mm"},
        ),
        ("a stroke, in the open state, is 4 mm", {"stroke : 4 mm", "not restated : in the open state"}),
        (
            "a stroke of a piston relative to a body is 4 mm",
            {"not restated : a stroke of a piston relative to a body is 4 mm"},
        ),
        ("a stroke is 4 mm, i.e. 0.4 cm", {"stroke : 4 mm", "not restated : i.e. 0.4 cm"}),
        (
            "a stroke deviates from 4 mm by no more than 5%",
            {"not restated : deviates from 4 mm by no more than 5%"},
        ),
        ("a stroke is not limited to less than 4 mm", {"not restated : not limited to less than 4 mm"}),
        ("a stroke is kept from falling below 4 mm", {"not restated : from falling below 4 mm"}),
        ("a stroke hardly ever falls below 4 mm", {"not restated : hardly ever falls below 4 mm"}),
        ("a stroke is allowed to exceed 4 mm", {"not restated : allowed to exceed 4 mm"}),
        ("a stroke tends to 4 mm", {"not restated : tends to 4 mm"}),
        ("a flow is at least 2 L/min above 5 bar", {"not restated : at least 2 L/min above 5 bar"}),
        ("it works without a leak at 4 bar", {"not restated : without a leak at 4 bar"}),
    ],
)
def test_what_a_limit_is_only_beside_or_kept_from_is_marked_with_it(said: str, found: set[str]) -> None:
    assert beside(f"1. A device, wherein {said}.\n") == found


@pytest.mark.parametrize(
    ("claim", "found"),
    [
        (
            "A cup, wherein a distance from the rim to the base is 9 cm.",
            "not restated : a distance from the rim to the base is 9 cm",
        ),
        ("A cup consisting of at least 90 % paper.", "paper : at least 90 %"),
        (
            "A cup comprising dyes, the largest of which makes up 1 wt%.",
            "not restated : the largest of which makes up 1 wt%",
        ),
        (
            "A node, wherein a delay is the smaller of 5 seconds and a round trip time.",
            "not restated : smaller of 5 seconds and a round trip time",
        ),
        ("A node, wherein a delay is max(5 s, 2·RTT).", "not restated : max(5 s, 2·RTT)"),
        ("A node, wherein one in ten packets is dropped.", "not restated : one in ten"),
        (
            "A cup, wherein a tea cools by no more than 10 °C in the hand.",
            "not restated : cools by no more than 10 °C",
        ),
    ],
)
def test_one_of_several_and_a_way_from_one_to_another_are_no_limit_of_the_last(
    claim: str, found: str
) -> None:
    assert found in beside(f"1. {claim}\n")
    assert not [line for line in beside(f"1. {claim}\n") if not line.startswith("not rest") and line != found]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("a time is 5 to 20 seconds, both inclusive", {"time : 5 to 20 seconds, both inclusive"}),
        ("a gap is 4 mm, or 5 mm if heated", {"not restated : 4 mm, or 5 mm if heated"}),
        (
            "a pressure alternates between 2 and 5 bar",
            {"not restated : alternates between 2 and 5 bar"},
        ),
        ("a motor runs at 3000 rpm in a first mode", {"motor : 3000 rpm", "not restated : in a first mode"}),
    ],
)
def test_ends_in_or_out_and_what_holds_in_one_mode_are_told(said: str, found: set[str]) -> None:
    assert beside(f"1. A device, wherein {said}.\n") == found


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("a rate is at least 5 kg/h but for a start", {"not restated : at least 5 kg/h but for a start"}),
        ("a rate is 5 kg/h (based on dry weight)", {"rate : 5 kg/h", "not restated : (based on dry weight)"}),
        (
            "not more than 5% of the grain exceeds 1 mm",
            {"not restated : not more than 5% of the grain exceeds 1 mm"},
        ),
        ("a grain passes a sieve of 1 mm", {"not restated : a sieve of 1 mm"}),
        ("a power is 5 kW while idling", {"power : 5 kW", "not restated : while idling"}),
        ("a flour has D50 = 50 ± 5 µm", {"D50 : 50 ± 5 µm"}),
    ],
)
def test_what_is_left_out_in_brackets_or_while_something_is_done_is_told(said: str, found: set[str]) -> None:
    assert beside(f"1. A mill, wherein {said}.\n") == found
