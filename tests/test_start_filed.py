"""`start` on claims in the style in which they are filed: no number is lost in a note, no limit is another's.

The claims are our own. What each may get was told by hand.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scopecheck.drafting.asked import questions
from scopecheck.drafting.draft import Draft
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.start import drafted
from tests.test_start import read
from tests.words import SAME_HAND, SECOND_READER, SETS, names


def draft_of(text: str) -> Draft:
    """The draft of a text, which `check` reads without a mistake."""
    read(text)
    return drafted("claims", pasted(text))


def beside(text: str) -> set[str]:
    return {line.line for claim in draft_of(text).claims for line in claim.lines}


def lines(said: str) -> set[str]:
    """The lines beside one claim, without its marks."""
    return {line for line in beside(f"1. {said}.\n") if not line.startswith("not restated")}


def lost(draft: Draft) -> list[str]:
    """Numbers in notes of which no question speaks: with the note left out, no line has them."""
    asked = " ".join(questions(draft))
    notes = (q.note for q in draft.quantities if q.note and not q.kind.startswith("step in"))
    return [note for note in notes if re.search(r"\d", note) and note not in asked]


SURROUNDINGS = [
    (
        "A device, wherein the fan consumes less than 1.1 kW at the air velocity of 5 m/s",
        {"fan : less than 1.1 kW at the air velocity of 5 m/s"},
    ),
    (
        "A method, comprising compacting a powder in an aligning field of at least 1.5 T under a pressure of"
        " 20 MPa to 60 MPa",
        {"aligning field : at least 1.5 T", "compacting pressure : 20 MPa to 60 MPa"},
    ),
    (
        "A method, wherein a powder is compacted in a field of at least 1.5 T under a pressure of 20"
        " MPa to 60 MPa",
        {"field : at least 1.5 T", "pressure : 20 MPa to 60 MPa"},
    ),
    (
        "A method, comprising pressing the mat with a force of 5 kN to 9 kN at a temperature of 120 °C"
        " to 140 °C",
        {"force : 5 kN to 9 kN", "temperature : 120 °C to 140 °C"},
    ),
    (
        "A method, comprising irradiating the film with a power density of 5 W/cm2 to 10 W/cm2 at a"
        " distance of"
        " 10 mm to 15 mm",
        {"power density : 5 W/cm2 to 10 W/cm2", "distance : 10 mm to 15 mm"},
    ),
    (
        "A method, comprising drying the film in an atmosphere of less than 5 vol% oxygen at a temperature of"
        " 80 °C to 95 °C",
        {"oxygen : less than 5 vol%", "temperature : 80 °C to 95 °C"},
    ),
    (
        "A device, wherein the coil is driven with a current of 2 A to 3 A at a voltage of 5 V to 6 V",
        {"current : 2 A to 3 A", "voltage : 5 V to 6 V"},
    ),
    (
        "A device, wherein the coil is driven by a current of at most 5 A at a frequency of 50 Hz or more",
        {"current : at most 5 A", "frequency : 50 Hz or more"},
    ),
    (
        "A method, wherein the melt is cast at a flow rate of 5 L/min to 8 L/min under a vacuum of 10"
        " Pa or less",
        {"flow rate : 5 L/min to 8 L/min", "vacuum : 10 Pa or less"},
    ),
    # what a thing has is measured under a condition, whatever is done with the thing
    (
        "A method, comprising operating a pump with a flow rate of at least 5 L/min at a pressure of 3 bar",
        {"flow rate : at least 5 L/min at a pressure of 3 bar"},
    ),
    (
        "A method, comprising mixing a resin with a viscosity of at most 500 mPa·s at a temperature of 25 °C",
        {"viscosity : at most 500 mPa·s at a temperature of 25 °C"},
    ),
    (
        "A method, comprising applying the paste with a pressure of 2 bar, as measured at a temperature"
        " of 20 °C",
        {"pressure : 2 bar, as measured at a temperature of 20 °C"},
    ),
    (
        "A filter having a pressure drop of at most 120 Pa at an air flow rate of 3 m3/min or more",
        {"pressure drop : at most 120 Pa at an air flow rate of 3 m3/min or more"},
    ),
    (
        "A steel having a yield strength of at least 500 MPa after annealing at a temperature of 600 °C"
        " for 2 h to 4 h",
        {"yield strength : at least 500 MPa after annealing at a temperature of 600 °C for 2 h to 4 h"},
    ),
    (
        "An adhesive having a strength of 1 MPa or more after no more than 6 hours",
        {"strength : 1 MPa or more"},
    ),
    (
        "A lining having a reluctivity at 20 °C of no less than 3 kA/m and a flux density of 1.25 T or"
        " higher",
        {"reluctivity : at 20 °C of no less than 3 kA/m", "flux density : 1.25 T or higher"},
    ),
]


@pytest.mark.parametrize(("said", "found"), SURROUNDINGS)
def test_what_stands_behind_a_limit_is_a_limit_or_a_condition_that_is_asked_about(
    said: str, found: set[str]
) -> None:
    assert lines(said) == found
    assert lost(draft_of(f"1. {said}.\n")) == []


@pytest.mark.parametrize(
    "path",
    [p / f"{n}.txt" for p in (SETS, SAME_HAND, SECOND_READER) for n in names(p)],
    ids=lambda p: f"{p.parent.name} {p.stem}",
)
def test_no_number_of_any_set_is_kept_in_a_note_without_a_question(path: Path) -> None:
    assert lost(drafted("claims", pasted(path.read_text()))) == []


ALLOY = """\
1. A sintered body comprising, in percent by mass: 28.5 to 32.0% of R, R being at least one of Nd and Pr; not
less than 0.85% of boron; and 0.12% or less of carbon.
2. The body of claim 1, wherein the boron content is from 0.75 to 0.84% by mass, and a porosity is 3% or less.
3. The body of claim 1, wherein the proportion of neodymium and praseodymium taken together to R does not
exceed 0.05.
4. The body of claim 1, wherein the carbon content is 0.1% or less.
"""


def test_per_cent_of_a_list_are_on_the_basis_that_is_said_once() -> None:
    draft = draft_of(ALLOY)
    kinds = {q.name: q.kind for q in draft.quantities}
    assert (kinds["R"], kinds["boron"], kinds["carbon"]) == ("share in wt%",) * 3
    assert kinds["porosity"] == "share in %"
    assert "boron content" not in kinds
    found = {line.line for claim in draft.claims for line in claim.lines}
    assert {"boron : from 0.75 to 0.84% by mass", "carbon : 0.1% or less", "R : 28.5 to 32.0%"} <= found
    assert not any("0.05" in line and not line.startswith("not restated") for line in found)


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("a bar limits a force in the webbing to between 2 and 6 kN", "force : between 2 and 6 kN"),
        ("the force in the webbing is limited to 6.5 kN to 7 kN", "force : 6.5 kN to 7 kN"),
        ("a noise level during retraction is 45 dBA or below", "noise level : 45 dBA or below"),
        ("a voltage across the winding is 5 V to 9 V", "voltage : 5 V to 9 V"),
        ("a delay from the microphones to the receiver is less than 8 ms", "delay : less than 8 ms"),
        ("the temperature difference across the width does not exceed 8 K", "temperature difference :"
         " not exceed 8 K"),
        (
            "a powder has a median particle size (D50), as measured by light, of 3 to 6 μm",
            "median particle size : 3 to 6 μm",
        ),
        ("the curing step is carried out at about 105 °C", "curing temperature : about 105 °C"),
        ("the sintering is performed at a temperature of 90 °C to 95 °C", "sintering temperature : 90"
         " °C to 95 °C"),
        ("the belt has an elongation of from 6% up to, but not including, 12%", "elongation : from 6%"
         " up to, but not including, 12%"),
        ("the bars number from 24 to 60", "bars : from 24 to 60"),
        ("the resin part (A) has a hardness of at least 60 MPa", "hardness : at least 60 MPa"),
    ],
)  # fmt: skip
def test_a_limit_is_called_by_what_is_measured(said: str, found: str) -> None:
    assert lines(f"A device, wherein {said}") == {found}


@pytest.mark.parametrize(
    ("said", "mark"),
    [
        ("the force is raised in steps of 0.5 kN", "in steps of 0.5 kN"),
        (
            "the rolling pressure is increased in increments of 1 kPa every 5 minutes",
            "in increments of 1 kPa every 5 minutes",
        ),
        ("wax is added in an amount of 0.05 to 0.3 parts by mass per 100 parts by mass of the powder",
         "0.05 to 0.3 parts by mass per 100 parts by mass of the powder"),
        ("the bar is neither shorter than 60 mm nor longer than twice the diameter",
         "neither shorter than 60 mm nor longer than twice the diameter"),
        ("the permittivity at 150 °C is at least 40 percent of the permittivity at 20 °C",
         "at 150 °C is at least 40 percent of the permittivity at 20 °C"),
        ("the channels cover a range from 100 Hz to 10 kHz", "cover a range from 100 Hz to 10 kHz"),
        ("the body is a titanium alloy or a polyamide having a hardness of 70 MPa",
         "a titanium alloy or a polyamide having a hardness of 70 MPa"),
        ("tiles are cooled from 1100 °C to 600 °C within 4 minutes", "cooled from 1100 °C to 600 °C"),
        ("an absorption, as determined by boiling for 2 hours, is told", "determined by boiling for 2 hours"),
        ("an amine is selected from the group consisting of gelatin, casein and agar in a total amount"
         " of at least 60 wt%",
         "in a total amount of at least 60 wt%"),
    ],
)  # fmt: skip
def test_what_limits_something_else_is_a_mark(said: str, mark: str) -> None:
    found = beside(f"1. A device, wherein {said}.\n")
    assert f"not restated : {mark}" in found
    assert not any(re.search(r"\d", line) for line in found if not line.startswith("not restated")), found


def test_an_ingredient_that_may_be_there_is_no_preference_of_the_one_before() -> None:
    found = beside(
        "1. A tile comprising 20 to 30 wt% of clay, at most 25 wt% of quartz and optionally up to 3 wt%"
        " of talc.\n"
    )
    assert "quartz : at most 25 wt%" in found
    assert not any(
        "quartz" in line and "3 wt%" in line and not line.startswith("not restated") for line in found
    )
    again = beside("1. A tile comprising 20 to 30 wt% of clay, preferably 22 to 25 wt% of clay.\n")
    assert any(line.startswith("clay : 20 to 30 wt%") for line in again)


def test_what_may_be_more_than_the_whole_is_no_share() -> None:
    draft = draft_of(
        "1. A film having an elongation of at least 150%, a haze of at most 4% and a growth of 5%.\n"
    )
    assert {q.name: q.kind for q in draft.quantities} == {
        "elongation": "ratio in %", "haze": "share in %", "growth": "ratio in %",
    }  # fmt: skip


def test_what_is_done_by_its_own_name_and_a_cooling_that_is_no_step() -> None:
    found = beside(
        "1. A method comprising: sintering the body for 2 to 8 hours; subjecting the body to a first"
        " heat treatment at"
        " 800 °C or above; and subjecting the body to a second heat treatment at 500 °C.\n"
        "2. The method of claim 1, wherein the second heat treatment is carried out at 510 °C or less.\n"
    )
    assert {
        "sintering, first heat treatment, second heat treatment : comprising",
        "sintering : for 2 to 8 hours",
        "first heat treatment temperature : 800 °C or above",
        "second heat treatment temperature : 500 °C",
        "second heat treatment temperature : 510 °C or less",
    } <= found


def test_two_of_a_kind_under_two_conditions_get_letters_and_no_word_of_their_kind() -> None:
    draft = draft_of(
        "1. A joint having a strength of at least 25 MPa at 23 °C, at least 18 MPa at 80 °C and at"
        " least 9 MPa at 99 °C.\n"
    )
    named = [(q.name, q.note) for q in draft.quantities]
    assert named == [("strength", "at 23 °C"), ("joint strength", "at 80 °C"), ("strength b", "at 99 °C")]
