"""A document's stated range beside a claim: which ground is named, and what is left out."""

from __future__ import annotations

import pytest

from scopecheck.answers.about import KeptOut
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.outside import outside_met
from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.report.items import statement
from scopecheck.report.render import render
from scopecheck.report.wording import GLUE
from tests.reported import one_line
from tests.sheets import sheet

BOWL = """
inner    length in mm
blades   count
stirrer  length in mm
speed    rotational speed in rpm

1. A bowl having an inner diameter of 80 to 160 mm, a number of blades, a stirrer of 0.5 to 0.7
   times the inner.
   | inner   : 80 to 160 mm
   | blades  : a number of blades
   | stirrer : 0.5 to 0.7 times the inner
   |   exactly  0.5 * inner <= stirrer <= 0.7 * inner

2. A method of using a bowl, with a speed of at least 200 rpm and more than 30 mm of stirrer.
   | speed   : at least 200 rpm
   | stirrer : more than 30 mm
   | not restated : and

document D
  row : {row}    "page 1"
"""


def told(row: str, claim: int = 1) -> list[str]:
    made = sheet(BOWL.format(row=row).replace("document D", f"document D for {claim}"))
    (case,) = made.cases
    found = [f for f in outside_met(prepare(made), case) if isinstance(f, Finding)]
    return [statement(made, f).replace(GLUE, " ") for f in found]


def test_the_ground_that_stands_on_every_reading_comes_first() -> None:
    """80 to 160 and 250 to 400 lie 90 apart, 56.25 % of 160, however else the diameter is tied."""
    assert told("250 mm <= inner <= 400 mm, blades = 1") == [
        'document D, row at "page 1", on every reading listed: lies apart from'
        " claim 1 (inner apart by 90 mm,"
        " about 56 % of the end; as presumed also blades apart by 1, 50 % of the end, counted as presumed)."
    ]


def test_grounds_that_fall_on_another_reading_are_not_called_firm() -> None:
    first, other = told("100 mm <= inner <= 120 mm, blades = 1")
    usual = "on the usual reading of every phrase"
    assert first.endswith(f"{usual}: lies apart from claim 1 (blades apart by 1, 50 % of the end).")
    assert "read otherwise: " in other


@pytest.mark.parametrize(
    ("row", "relation"),
    [
        # within what the claim limits; the claim says nothing of the diameter
        (
            "250 rpm <= speed <= 300 rpm, 10 mm <= inner <= 20 mm",
            "lies within claim 2 in all that both limit",
        ),
        ("100 rpm <= speed <= 300 rpm", "overlaps claim 2"),
        # in the one within, in the other not
        ("250 rpm <= speed <= 300 rpm, 20 mm <= stirrer <= 40 mm", "overlaps claim 2"),
    ],
)
def test_what_lies_within_each_limit_shared_is_told_so(row: str, relation: str) -> None:
    assert f", on the usual reading of every phrase: {relation} (shared: speed " in told(row, 2)[0]


def test_nothing_is_said_of_a_claim_that_limits_nothing_of_the_row() -> None:
    assert told("10 mm <= inner <= 20 mm", 2) == []


WEB = """
weight     mass per area in g/m2
thickness  length in um
fibres     any of cotton, nylon

1. A web of fibres of nylon, having a weight of 80 to 220 g/m2 and a thickness of at most 50 um.
   | fibres    : nylon
   | weight    : 80 to 220 g/m2
   | thickness : at most 50 um

document D
  row : {row}    "page 1"
"""


def web(row: str) -> list[Finding]:
    (case,) = (made := sheet(WEB.format(row=row))).cases
    return [f for f in outside_met(prepare(made), case) if isinstance(f, Finding)]


def test_a_stated_range_that_lies_within_a_claim_meets_it() -> None:
    """As usually read: where "nylon" is nylon alone, a document that names nylon leaves it open."""
    row = "100 g/m2 <= weight <= 120 g/m2, 10 um <= thickness <= 30 um, nylon IN fibres"
    met = [f for f in web(row) if f.question == "document met"]
    assert [(f.stakes, f.quantifier) for f in met] == [(2, "base")]
    said = statement(sheet(WEB.format(row=row)), met[0]).replace(GLUE, " ")
    assert said.startswith("Met by whatever lies within document D, row")


@pytest.mark.parametrize(
    "row",
    [
        "100 g/m2 <= weight <= 120 g/m2, nylon IN fibres",
        "60 g/m2 <= weight <= 300 g/m2, thickness = 30 um, nylon IN fibres",
        "100 g/m2 <= weight < 300 g/m2, thickness = 60 um, nylon IN fibres",
        "100 g/m2 <= weight <= 120 g/m2, thickness = 30 um, cotton IN fibres",
    ],
)
def test_a_stated_range_that_leaves_something_open_or_reaches_beyond_does_not(row: str) -> None:
    assert not [f for f in web(row) if f.question == "document met"]


@pytest.mark.parametrize(
    ("row", "end"),
    [
        ("100 g/m2 <= weight <= 300 g/m2, thickness = 30 um, nylon IN fibres", "weight 100 g/m2"),
        ("220 g/m2 <= weight <= 300 g/m2, thickness = 30 um, nylon IN fibres", "weight 220 g/m2"),
        (
            "60 g/m2 <= weight <= 200 g/m2, 40 um <= thickness <= 60 um, nylon IN fibres",
            "weight 200 g/m2, thickness 40 um",
        ),
    ],
)
def test_an_end_that_a_document_states_within_a_claim_meets_it(row: str, end: str) -> None:
    """A stated range states its end values: T 240/95, in Case Law 2025 I.C.4.9 (read)."""
    (met,) = (f for f in web(row) if f.question == "document met")
    said = statement(sheet(WEB.format(row=row)), met).replace(GLUE, " ")
    assert said.startswith(f'Met at an end that document D, row at "page 1" states ({end})')


def test_an_end_that_a_document_leaves_out_meets_nothing() -> None:
    row = "220 g/m2 < weight <= 300 g/m2, thickness = 30 um, nylon IN fibres"
    assert not [f for f in web(row) if f.question == "document met"]
    row = "60 g/m2 <= weight < 220 g/m2, thickness = 30 um, nylon IN fibres"
    assert not [f for f in web(row) if f.question == "document met"]


def test_a_row_that_names_a_member_and_single_values_is_an_example() -> None:
    (made,) = sheet(WEB.format(row="weight = 100 g/m2, thickness = 30 um, nylon IN fibres")).cases
    assert made.form == "example"
    assert [f.question for f in web("weight = 100 g/m2, thickness = 30 um, nylon IN fibres")] == [
        "document met"
    ]


CAP = """
{profile}
cap          composition in wt%
  resin
  amide      : stearamide, behenamide
wall  length in mm

1. A cap comprising at least 90 % by weight of a resin and 0.05 to 0.5 % by weight of an amide.
   | resin : at least 90 % by weight
   | amide : 0.05 to 0.5 % by weight

2. A cap having a wall of at least 0.03 mm and less than 0.1 mm.
   | wall : at least 0.03 mm and less than 0.1 mm

document D
  row   : {row}    "page 1"
  other : ROUND(wall TO 0.1 mm, HALF AWAY) = 0.1 mm    "page 2"
"""


@pytest.mark.parametrize(
    ("row", "relation"),
    [
        ("0.1 wt% <= stearamide <= 5 wt%, resin >= 95 wt%", "overlaps"),
        ("0.1 wt% <= amide <= 0.4 wt%, resin >= 95 wt%", "lies within"),
    ],
)
def test_a_member_beside_a_limit_on_its_class_is_not_within_it(row: str, relation: str) -> None:
    made = sheet(CAP.format(row=row, profile="profile US"))
    said = [
        statement(made, f)
        for f in outside_met(prepare(made), made.cases[0])
        if isinstance(f, Finding) and f.question == "document range" and f.quantifier == "base"
    ]
    assert f"{relation} claim 1" in said[0].replace(GLUE, " ")


def test_widths_and_ends_are_those_written_not_where_rounding_begins() -> None:
    made = sheet(CAP.format(row="0.05 mm <= wall <= 1 mm", profile="profile EPO"))
    report, _ = checked(made, Options(), ())
    assert report is not None
    told = one_line(render(report, "text"))
    assert "claimed range as written 0.07 mm wide, range stated 0.95 mm wide, ratio about 0.074" in told
    assert "nearest end stated 0.05 mm, in it; nearest example 0.1 mm" in told


MEDIUM = """
profile EPO
first, second  length in um, > 0 um

1. A medium having a first layer of 0.05 to 0.2 um, wherein the ratio of the first layer to the second layer
   is from 0.05 to 0.5.
   | first : 0.05 to 0.2 um
   | first, second : ratio of the first layer to the second layer is from 0.05 to 0.5

document D
  row : {row}    "page 1"
"""


@pytest.mark.parametrize(
    ("row", "end"),
    [
        ("0.1 um <= first <= 3 um, second = 1 um", "first 0.1 um"),
        ("0.1 um <= first <= 3 um, 0.2 um <= second <= 0.4 um", "first 0.1 um, second 0.2 um"),
        ("0.1 um <= first <= 3 um, 0.1 um <= second <= 3 um", None),
        ("0.3 um <= first <= 3 um, second = 1 um", None),
    ],
)
def test_a_stated_end_counts_where_a_line_ties_two_numbers(row: str, end: str | None) -> None:
    """By arithmetic: 0.1/1 and 0.1/0.2 lie in 0.05 to 0.5; 0.1/0.1 and 0.1/3 do not, and 0.3 is above 0.2."""
    made = sheet(MEDIUM.format(row=row))
    told = [f for f in outside_met(prepare(made), made.cases[0]) if isinstance(f, Finding)]
    said = [statement(made, f).replace(GLUE, " ") for f in told if f.question == "document met"]
    assert len(said) == (end is not None)
    assert not said or f"states ({end})" in said[0]


MIX = """
title Mix
lime, sand, ash, water  mass in g

1. A mix with a ratio of the lime and the sand to the ash of 2 to 4 and at most 9 g of water.
   | lime, sand, ash : ratio of the lime and the sand to the ash of 2 to 4
   |   exactly  2 <= (lime + sand) / ash <= 4
   | not restated : and
   | water : at most 9 g of water   exactly  water <= 9 g

document D
  row : {row}    "page 1"
"""


@pytest.mark.parametrize(
    ("row", "relation"),
    [
        ("3 <= (lime + sand) / ash <= 5", "overlaps claim 1 (shared: (lime + sand) / ash 3 to 4)"),
        ("0.2 <= ash / (sand + lime) <= 0.25", "touches claim 1 at one shared end"),
        (
            "6 <= (sand + lime) / ash < 7",
            "lies apart from claim 1 ((lime + sand) / ash apart by 2, 50 % of the end, counted as presumed)",
        ),
        ("3 <= (lime + sand) / ash <= 4, sand >= 1 g", "lies within claim 1 in all that both limit"),
        ("3 <= (lime + 2 * sand) / ash <= 4", "overlaps claim 1."),
    ],
)
def test_a_stated_range_of_a_ratio_of_sums_is_compared(row: str, relation: str) -> None:
    """By hand: [2, 4] beside [3, 5], 1 / [0.2, 0.25] = [4, 5], [6, 7) and [3, 4]; then of another sum."""
    made = sheet(MIX.format(row=row))
    prepared = prepare(made)
    found = [f for f in outside_met(prepared, made.cases[0]) if isinstance(f, Finding)]
    told = [statement(made, f).replace(GLUE, " ") for f in found if f.question == "document range"]
    assert any(relation in text for text in told), told


def test_an_end_that_a_document_states_of_a_ratio_of_sums_meets_it() -> None:
    """A stated range states its end values: T 240/95, in Case Law 2025 I.C.4.9 (read)."""
    made = sheet(MIX.format(row="3 <= (lime + sand) / ash <= 5, water = 2 g"))
    found = [f for f in outside_met(prepare(made), made.cases[0]) if isinstance(f, Finding)]
    (met,) = (f for f in found if f.question == "document met")
    told = statement(made, met).replace(GLUE, " ")
    assert 'an end that document D, row at "page 1" states ((lime + sand) / ash 3)' in told


def test_a_range_of_a_difference_of_temperatures_is_told_as_a_difference() -> None:
    made = sheet("""
title  Oven
top, bottom  temperature in degC

1. An oven, the top being 5 to 15 K hotter than the bottom.
   | top, bottom : 5 to 15 K hotter than the bottom   exactly  5 K <= top - bottom <= 15 K

document D
  row : 10 K <= top - bottom <= 20 K    "page 1"
document E
  row : 18 K <= top - bottom <= 20 K    "page 1"
document F
  row : 6 K <= top - bottom <= 9 K, top >= 100 degC    "page 1"
""")
    prepared = prepare(made)
    found = [f for case in made.cases for f in outside_met(prepared, case) if isinstance(f, Finding)]
    told = [statement(made, f).replace(GLUE, " ") for f in found if f.question == "document range"]
    assert any("(shared: top - bottom 10 K to 15 K)" in text for text in told), told
    assert any("apart by 3 K, 20 % of the end" in text for text in told), told
    assert any("document F" in text and "lies within claim 1" in text for text in told), told


@pytest.mark.parametrize(
    ("stated", "told"),
    [
        ("from 150 °C to 350 °C   from 0.001 to 0.01", True),
        ("from 340 °C to 350 °C   from 0.001 to 0.01", False),
        ("from 100 °C to 500 °C   from 0.001 to 0.01", None),
        ("from 150 °C to 350 °C   from 0.1 to 0.2", None),
    ],
)
def test_a_range_that_silence_alone_keeps_out_where_it_states_an_end(stated: str, told: bool | None) -> None:
    """As of an example: a stated end is named as an example is (T 26/85, as reported in authorities)."""
    text = f"""profile EPO
heat  temperature in degC
stay  time in s
part  number

1. A process at 330 to 450 °C, for 0.1 to 60 s, with a part of 0.001 to 0.05.
   | heat : 330 to 450 °C
   | stay : 0.1 to 60 s
   | part : 0.001 to 0.05

document D1    heat   part
  broad        {stated}     "page 2"
"""
    found = [f for f in ask_all(sheet(text)).findings if f.question == "silence alone keeps out"]
    kept = [f.about for f in found if isinstance(f.about, KeptOut)]
    assert len(kept) == len(found)
    assert [own.at_end for own in kept] == ([] if told is None else [told])
    assert all(own.line == "1b" for own in kept)
