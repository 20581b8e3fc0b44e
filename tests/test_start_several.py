"""What a started sheet makes of limits that stand in lists, beside each other, and with numbers in full."""

from __future__ import annotations

import pytest

from scopecheck.drafting.draft import Draft
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.remarks import assumed
from scopecheck.drafting.start import drafted
from tests.test_start import read

GLASS = """\
1. A glass comprising, in mole percent on an oxide basis: 60-72 SiO2; 8-14 Al2O3; and 0-1 SnO2,
   wherein the sum of SiO2 and Al2O3 is at least 72.
2. The glass of claim 1, substantially free of As2O3 and Sb2O3.
3. The glass of claim 1, free of bubbles.
"""


def _draft(text: str) -> Draft:
    read(text)
    return drafted("claims", pasted(text))


def _lines(text: str) -> set[str]:
    return {line.line for claim in _draft(text).claims for line in claim.lines}


def test_a_list_in_percent_said_once_is_read_before_its_nouns_and_as_a_sum() -> None:
    assert _lines(GLASS) >= {
        "SiO2 : 60-72", "Al2O3 : 8-14", "SnO2 : 0-1", "SiO2 + Al2O3 : sum of SiO2 and Al2O3 is at least 72",
    }  # fmt: skip


def test_what_a_composition_is_free_of_is_a_share_and_a_flaw_is_none() -> None:
    draft = _draft(GLASS)
    assert "As2O3, Sb2O3 : substantially free of As2O3 and Sb2O3" in _lines(GLASS)
    kinds = {q.name: q.kind for q in draft.quantities}
    assert kinds["As2O3"] == kinds["SiO2"] == "share in mol%"
    assert not any("bubbles" in name for name in kinds)


@pytest.mark.parametrize(
    ("said", "found"),
    [
        (
            "a gap of at least 3 mm, but less than 6 mm, and a rim of 3 mm or less, or more than 10 mm",
            {"gap : at least 3 mm, but less than 6 mm", "rim : 3 mm or less, or more than 10 mm"},
        ),
        (
            "a gap of between 80 and 90 mm, inclusive, or more than 95 mm",
            {"gap : between 80 and 90 mm, inclusive, or more than 95 mm"},
        ),
        (
            "lactose in an amount of 60 to 95 wt%, and at most 2 wt% of stearate",
            {"lactose : 60 to 95 wt%", "stearate : at most 2 wt%", "not restated : and"},
        ),
        (
            "a wall, the thickness of which varies by no more than 20 µm over any length of 100 mm",
            {"not restated : varies by no more than 20 µm over any length of 100 mm"},
        ),
        (
            "a sleep mode entered without a change of the cell voltages of more than 1 mV",
            {"not restated : without a change of the cell voltages of more than 1 mV"},
        ),
        ("a lamp consuming less than 5 W", {"power : less than 5 W"}),
        ("a fat with an acid value of not more than 5 mg KOH/g", {"acid : not more than 5 mg KOH/g"}),
        ("a state of charge of at least 80 %", {"state of charge : at least 80 %"}),
        ("a mass of 1,200 kg or more", {"mass : 1200 kg or more"}),
    ],
)
def test_a_limit_is_taken_with_what_belongs_to_it(said: str, found: set[str]) -> None:
    assert _lines(f"1. A device comprising {said}.\n") == found


def test_commas_in_numbers_are_told_as_assumed() -> None:
    text = "1. A device having a mass of 1,200 kg or more.\n"
    told = assumed(_draft(text), pasted(text))
    assert 'a comma in a number parts thousands: "1,200" as 1200' in told
    plain = "1. A device having a mass of 1200 kg or more.\n"
    assert not any("comma" in line for line in assumed(_draft(plain), pasted(plain)))


def test_the_title_ends_before_what_the_thing_is_configured_to_do() -> None:
    assert _draft("1. A battery controller configured to draw at most 3 A.\n").title == "battery controller"


@pytest.mark.parametrize(
    ("claim", "found"),
    [
        (
            "A glass comprising at least one of MgO, CaO, SrO and BaO in an amount of 1 to 5 mol %.",
            {"not restated : at least one of MgO, CaO, SrO and BaO in an amount of 1 to 5 mol %"},
        ),
        (
            "A glass comprising 1 to 5 mol % of at least one of MgO and CaO.",
            {"not restated : 1 to 5 mol % of at least one of MgO and CaO"},
        ),
        (
            "A paste comprising a salt in an amount of 2 wt%, wherein the paste comprises at least one"
            " of a dye"
            " and a wax, each in an amount of at most 0.5 wt%.",
            {
                "salt : 2 wt%",
                "paste : at least one of a dye and a wax",
                "not restated : each in an amount of at most 0.5 wt%",
            },
        ),
        (
            "A glass comprising up to 2 mol % of TiO2 and/or SnO2 in total.",
            {"TiO2, SnO2 : up to 2 mol % of TiO2 and/or SnO2 in total"},
        ),
        (
            "A powder comprising 2 to 5 wt% of a salt, 3 wt% of a wax, and the balance to 100% lactose.",
            {
                "powder : comprising",
                "salt : 2 to 5 wt%",
                "wax : 3 wt%",
                "not restated : the balance to 100% lactose",
            },
        ),
        (
            "A powder comprising 2 to 5 wt% of a salt, 3 wt% of a wax, and water making up the balance.",
            {
                "powder : comprising",
                "salt : 2 to 5 wt%",
                "wax : 3 wt%",
                "not restated : water making up the balance",
            },
        ),
        (
            "An inhaler, wherein the dose is within 75% to 125% of 200 µg.",
            {"dose : within 75% to 125% of 200 µg"},
        ),
        (
            "A dough laminated with fat, made by laminating a dough with a roll-in fat in an amount of"
            " 20 to 35 wt%.",
            {"roll-in fat : 20 to 35 wt%"},
        ),
        (
            "A dough, wherein a specific volume of the baked product is 5 mL/g or greater, preferably 6"
            " mL/g or"
            " greater, if the dough is baked at 170 to 190 °C for 18 to 25 minutes.",
            {
                "not restated : a specific volume of the baked product is 5 mL/g or greater, preferably"
                " 6 mL/g or"
                " greater, if the dough is baked at 170 to 190 °C for 18 to 25 minutes"
            },
        ),
        (
            "A valve comprising a vent which opens if the supply pressure rises above 380 bar and"
            " remains closed"
            " otherwise.",
            {
                "vent open, pressure : opens if the supply pressure rises above 380 bar and remains closed"
                " otherwise"
            },
        ),
        (
            "An inhaler comprising a plurality of chambers, preferably 7 to 60 chambers, each of the chambers"
            " having a volume of 15 to 40 mm3 and containing no more than 25 mg of a powder.",
            {
                "volume of the chambers : each of the chambers having a volume of 15 to 40 mm3",
                "powder of the chambers : each ... no more than 25 mg",
                "chambers : a plurality",
                "not restated : preferably 7 to 60 chambers",
                "not restated : and",
            },
        ),
        (
            "A valve having ports spaced from the seat by different distances of at least 2 mm.",
            {
                "distances : at least 2 mm",
                "not restated : ports spaced from the seat by different distances",
            },
        ),
        (
            "An inhaler having at least three vanes, wherein all of the vanes have the same height.",
            {"vanes : at least three", "not restated : all of the vanes have the same height"},
        ),
        (
            "An inhaler having exactly four air inlets and one piercing blade per two air inlets.",
            {
                "air inlets : exactly four",
                "piercing blades, air inlets : one piercing blade per two air inlets",
            },
        ),
        (
            "A comb having at least 18 teeth, and a pair of dampers per tooth.",
            {"teeth : at least 18", "not restated : a pair of dampers per tooth"},
        ),
        (
            "A lamp having 12 diodes, each diode having a width of 3 mm, wherein the mean width of the"
            " diodes is"
            " at most 4 mm.",
            {
                "diodes : 12",
                "width of the diodes : each diode having a width of 3 mm",
                "width of the diodes : mean width of the diodes is at most 4 mm",
            },
        ),
        (
            "A paste, at least 90 % of the filler particles having a diameter of not more than 25 µm.",
            {
                "not restated : at least 90 % of the filler particles having a diameter of not more than"
                " 25 µm",
            },
        ),
        (
            "A glass consisting of 60 wt% of silica, wherein Fe2O3 is present in an amount of less than"
            " 0.02 wt%,"
            " if at all, and MgO, if present, in an amount of at most 1 wt%.",
            {
                "silica : 60 wt%",
                "Fe2O3 : less than 0.02 wt%, if at all",
                "MgO : if present, in an amount of at most 1 wt%",
                "not restated : and MgO",
                "not restated : consisting of",
            },
        ),
        (
            "A valve comprising at least one compression spring having a preload of at least 40 N.",
            {"preload : at least 40 N", "not restated : at least one compression spring"},
        ),
        (
            "A device, wherein a valve opens within 25 ms, and in any case in less than 40 ms, after the"
            " pressure"
            " has exceeded 5 bar.",
            {
                "not restated : within 25 ms, and in any case in less than 40 ms, after the pressure has"
                " exceeded"
                " 5 bar"
            },
        ),
        (
            "A dough comprising 3 to 6 parts by weight of yeast and 1.5 to 2 parts by weight of salt,"
            " wherein the"
            " weight ratio of yeast to salt is in the range of 2:1 to 3:1.",
            {
                "yeast : 3 to 6 parts by weight",
                "salt : 1.5 to 2 parts by weight",
                "yeast, salt : weight ratio of yeast to salt is in the range of 2:1 to 3:1",
            },
        ),
        (
            "A controller having a charging current of at most 5 A, wherein the balancing current is 50"
            " to 200 mA,"
            " the balancing current being at most one tenth of the charging current.",
            {
                "charging current : at most 5 A",
                "balancing current : 50 to 200 mA",
                "balancing current, charging current : at most one tenth of the charging current",
            },
        ),
        (
            "A controller measuring a cell voltage with an error of no more than ±5 mV.",
            {"error : no more than ±5 mV"},
        ),
        (
            "A pack, wherein the cells are selected from the group consisting of lithium iron phosphate"
            " cells,"
            " lithium nickel manganese cobalt oxide cells, and lithium titanate cells.",
            {
                "cells : selected from the group consisting of lithium iron phosphate cells, lithium nickel"
                " manganese cobalt oxide cells, and lithium titanate cells"
            },
        ),
        (
            "A valve having a bore with a diameter D1 of 5 mm and a sleeve with a diameter D2, wherein"
            " D2 is 1.05"
            " to 1.2 times D1.",
            {"D1 : 5 mm", "D2 : 1.05 to 1.2 times D1"},
        ),
        (
            "A valve, wherein the sleeve length is 2.5 to 4 times the bore diameter, and the ratio of"
            " the wall"
            " thickness of the sleeve to the bore diameter is from 1:8 to 1:5.",
            {
                "sleeve length : 2.5 to 4 times the bore diameter",
                "wall thickness, bore diameter : ratio of the wall thickness of the sleeve"
                " to the"
                " bore diameter is from 1:8 to 1:5",
            },
        ),
        (
            "A powder having a D90 of no more than 10 µm, and a span (D90 - D10)/D50 of less than 2.",
            {"D90 : no more than 10 µm", "not restated : span (D90 - D10)/D50 of less than 2"},
        ),
        (
            "A glass comprising 50 wt% of SiO2 and 9 wt% of Al2O3, wherein 65 wt% ≤ SiO2 + Al2O3 ≤ 82 wt%.",
            {
                "glass : comprising",
                "SiO2 : 50 wt%",
                "Al2O3 : 9 wt%",
                "SiO2, Al2O3 : 65 wt% ≤ SiO2 + Al2O3 ≤ 82 wt%",
            },
        ),
        (
            "A cleaner having a pressure drop across a filter during operation of at most 2 kPa.",
            {"pressure drop : at most 2 kPa", "not restated : during operation of"},
        ),
        (
            "A door having a pair of panes, the gaps between the panes being at least 8 mm wide.",
            {"width : at least 8 mm", "panes : a pair", "not restated : between the panes"},
        ),
        ("A lamp emitting at least 500 lm.", {"luminous flux : at least 500 lm"}),
        (
            "A drone having a flight time of at least 30 minutes at an ambient temperature of 20 °C.",
            {"flight time : at least 30 minutes at an ambient temperature of 20 °C"},
        ),
        (
            "A film, the number of perforations per cm2 being 4 to 12.",
            {"not restated : number of perforations per cm2 being 4 to 12"},
        ),
        (
            "A pouch containing one dressing or a pair of dressings.",
            {"not restated : one dressing or a pair of dressings"},
        ),
        (
            "A film having a total thickness of the film, the total thickness being from 12 to 50 µm.",
            {"total thickness : from 12 to 50 µm"},
        ),
        (
            "A pump, wherein the flow rate is at least 10 L/min at a head of 3 m and zero at a head of 8 m.",
            {
                "flow rate : at least 10 L/min at a head of 3 m",
                "not restated : zero at a head of 8 m",
                "not restated : and",
            },
        ),
        (
            "A pump having at least one but not more than three outlets.",
            {"outlets : at least one but not more than three"},
        ),
        (
            "A cement comprising 10 to 40 parts by weight of slag or fly ash.",
            {"not restated : 10 to 40 parts by weight of slag or fly ash"},
        ),
        (
            "A battery charged by charging the battery to 95 % or more, wherein the battery makes up 40 % of"
            " a mass.",
            {"charging level : 95 % or more", "battery : 40 %"},
        ),
    ],
)
def test_a_limit_is_restated_whole_or_marked(claim: str, found: set[str]) -> None:
    assert _lines(f"1. {claim}\n") == found


def test_so_many_like_parts_are_guessed_as_the_claims_speak_of() -> None:
    text = (
        "1. A carrier with a plurality of chambers, preferably 7 to 60, each of the chambers having a width"
        " of 2 mm.\n"
    )
    assert not any(q.kind == "part, 1 to 60" for q in _draft(text).quantities)
    text = text.replace("7 to 60,", "7 to 60 chambers,")
    assert [q.kind for q in _draft(text).quantities if q.kind.startswith("part")] == ["part, 1 to 60"]


def test_what_has_a_limit_is_none_that_something_is_done_to() -> None:
    for said in (
        "the disc lifts off the seat at a pressure of 6 bar",
        "a charger discharges the cell having the highest cell voltage at a pressure of 6 bar",
    ):
        (found,) = _draft(f"1. A device wherein {said}.\n").quantities
        assert (found.name, found.owner) == ("pressure", "")


LAMINATING = """\
1. A process comprising:
   (i) mixing, per 100 parts by weight of flour, 45 to 55 parts by weight of water for 4 to 8 minutes;
   (ii) resting the dough for at least 15 minutes; and
   (iii) freezing the dough within 30 minutes of the end of the resting,
   wherein steps (i) to (iii) are carried out in this order.
2. The process of claim 1, wherein the dough has a thickness of 2 to 4 mm before step (ii), and step (iii) is
   carried out within 5 minutes after step (ii).
"""


def test_steps_are_declared_by_their_letters_and_in_their_order() -> None:
    draft = _draft(LAMINATING)
    notes = {q.name: q.note for q in draft.quantities}
    assert notes["mixing"] == "step (i)"
    assert notes["freezing"] == "step (iii)"
    assert notes["thickness"] == "before step (ii)"
    assert _lines(LAMINATING) >= {
        "mixing, resting, freezing : in this order", "mixing : for 4 to 8 minutes",
        "freezing : within 30 minutes of the end of the resting",
        "freezing : within 5 minutes after step (ii)", "not restated : before step (ii)",
    }  # fmt: skip


def test_a_step_that_is_done_twice_is_two_steps_where_claims_speak_of_their_letters() -> None:
    text = (
        "1. A method comprising: (a) charging a pack at a voltage of 4 V; (b) charging at a voltage of 5"
        " V for 20"
        " minutes; and (c) resting the pack for 10 minutes, wherein step (c) is done after step (b).\n"
    )
    lines = _lines(text)
    assert "second charging : for 20 minutes" in lines
    assert "resting : for 10 minutes" in lines


def test_one_of_a_list_is_what_a_claim_says_it_is() -> None:
    text = (
        "1. A face carrying a coating, the coating being selected from the group consisting of chromium"
        " nitride"
        " and carbon.\n2. The face of claim 1, wherein the coating is nickel.\n"
    )
    assert "coating : is nickel" in _lines(text)
    assert "coating : is flat" not in _lines(text.replace("nickel", "flat"))


def test_one_oxide_is_no_other_thing_where_its_class_stands_before_it() -> None:
    text = (
        "1. A plate having a hydroxyl content of 18 mol%.\n"
        "2. The plate of claim 1, comprising, in percent by weight: 10 to 18% Na2O, 0 to 3% K2O, and"
        " 5 to 12% CaO.\n"
        "3. The plate of claim 2, wherein the alkali oxides Na2O and K2O are present in a total amount of at"
        " least 22% by weight, and the plate is free of MgO.\n"
    )
    assert "Na2O + K2O : at least 22% by weight" in _lines(text)
    kinds = {q.name: q.kind for q in _draft(text).quantities}
    assert kinds["MgO"] == kinds["Na2O"] == "share in wt%"
    assert not any("oxides" in name for name in kinds)


def test_more_than_one_but_fewer_than_four_is_one_limit() -> None:
    text = "1. A plant comprising more than one but fewer than four filter modules, and more than one pump.\n"
    assert "filter modules : more than one but fewer than four" in _lines(text)
    assert not any(line.startswith("pump") for line in _lines(text))


def test_a_condition_behind_what_is_done_is_of_the_step_and_not_of_a_limit_within_it() -> None:
    text = (
        "1. A method comprising: (a) filtering a water at a pressure of not more than 40 kPa; and (b)"
        " cleaning a fibre with a solution having a content of chlorine of 200 to 1000 mg/L if the pressure"
        " exceeds 35 kPa.\n"
    )
    found = _lines(text)
    assert not any(line.startswith("content") for line in found)
    assert "not restated : a content of chlorine of 200 to 1000 mg/L" in found
