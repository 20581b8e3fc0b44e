"""Things and readings in words: what is told of them, and what is not."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from scopecheck.answers.about import Lost, Reread, Unmeant
from scopecheck.answers.findings import Shown
from scopecheck.answers.questions import ask_all
from scopecheck.core.formula import All, Compare, Const, Measured, Rounded
from scopecheck.core.grounds import SettledWords
from scopecheck.core.model import Given, Reading, Sheet
from scopecheck.foundations.record import replace
from scopecheck.report.amounts import plain_degrees, quantity_text
from scopecheck.report.items import statement
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.rereadings import meaning_text
from scopecheck.report.things import thing_text, twin_text
from scopecheck.report.wording import GLUE
from tests.build import compare, unit
from tests.reported import (
    OUT,
    STRAINER,
    answers_of,
    found,
    items_of,
    lost,
    one_line,
    span,
    stretch,
    text_of,
    with_witness,
)
from tests.sheets import sheet


def test_a_thing_departs_from_a_reference() -> None:
    thing = Shown(departs=("holes", "metal"), reference="bench sample")
    finding = found("outside met", 2, "claim 1", "1. A leaf", case="garden sieve", thing=thing)
    shown = with_witness(finding, holes=Fraction(25), metal=frozenset({"zinc", "copper"}))
    assert one_line(thing_text(STRAINER, shown)) == (
        "garden sieve with holes 25 instead of 24 and metal copper and zinc instead of copper "
        "(otherwise as bench sample)"
    )


@pytest.mark.parametrize(
    ("more", "text"),
    [
        (
            {"case": "garden sieve", "thing": Shown(names=("holes",), reference="garden sieve")},
            "garden sieve as listed (holes 24)",
        ),
        (
            {"case": "garden sieve", "thing": Shown(names=("holes", "finish"), reference="garden sieve")},
            "garden sieve as listed (holes 24)",
        ),
        (
            {"case": "garden sieve", "thing": Shown(departs=("diameter",), reference="garden sieve")},
            "garden sieve with diameter 4 mm instead of 3 mm (otherwise as listed)",
        ),
        (
            {"thing": Shown(departs=("finish",), reference="bench sample")},
            "a thing exactly as bench sample (holes 24, diameter 4 mm)",
        ),
        ({"thing": Shown(names=("height", "holes"))}, "a thing with holes 24"),
        ({"failing": ("2a",), "thing": Shown(names=("height", "holes"))}, "a thing with height 60 mm"),
        (
            {
                "case": "garden sieve",
                "failing": ("1b",),
                "thing": Shown(names=("holes",), reference="garden sieve"),
            },
            "garden sieve as listed (diameter 4 mm)",
        ),
        (
            {"case": "D1", "thing": Shown(names=("holes",), reference="D1")},
            'document D1 at "page 4, example 2" as listed (holes 24)',
        ),
    ],
)
def test_things(more: dict[str, Any], text: str) -> None:
    finding = with_witness(found("outside met", 2, "claim 1", "1. A leaf", **more))
    assert one_line(thing_text(STRAINER, finding)) == text


def test_of_many_values_those_in_question_come_first(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("scopecheck.report.things.MOST_VALUES", 2)
    shown = ("holes", "diameter", "height", "metal")
    thing = Shown(names=shown, reference="bench sample")
    finding = found("inside lost", 3, "claim 3", "3. The", case="bench sample", thing=thing)
    finding = with_witness(finding, OUT)
    assert one_line(thing_text(STRAINER, finding)) == (
        "bench sample as listed (diameter 4 mm, holes 24; 2 more not shown)"
    )


def test_a_twin_is_told_by_what_differs() -> None:
    finding = with_witness(found("unmeant met", 2, "1a", "divisible by 6"), holes=Fraction(25))
    twin = with_witness(finding).witness
    told = twin_text(STRAINER, replace(finding, about=Unmeant(twin)))
    assert one_line(told) == "a thing that was meant, with holes 24 instead of 25, alike in all else"


# ---- what is told of a thing, and what is not


def given_sheet() -> Sheet:
    """The strainer, with a given fact that ties the height to the diameter."""
    tied = compare("height", "=", "60", "mm")
    formula = All((tied, compare("diameter", ">", "0", "mm")))
    given = Given("height = 15 * diameter", formula, "", span("title"))
    return replace(STRAINER, givens=(given,))


def test_a_quantity_that_a_given_fact_alone_brings_in_is_told_only_where_it_departs() -> None:
    sheet = given_sheet()
    thing = Shown(names=("diameter", "height"), departs=("diameter", "height"), reference="bench sample")
    finding = with_witness(found("unmeant met", 2, "1b", "between 2 and 4 mm", thing=thing))
    assert one_line(thing_text(sheet, finding)) == (
        "a thing with diameter 4 mm instead of 3 mm and height 60 mm instead of 40 mm (otherwise as bench "
        'sample; height by the given fact "height = 15 * diameter")'
    )
    same = with_witness(
        replace(finding, thing=replace(thing, departs=("diameter",))), height=Fraction(40, 1000)
    )
    assert one_line(thing_text(sheet, same)) == (
        "a thing with diameter 4 mm instead of 3 mm (otherwise as bench sample)"
    )


def test_a_reference_that_shares_nothing_with_the_thing_is_left_out() -> None:
    bench = replace(STRAINER.cases[0], facts=compare("holes", "=", "24"), stated=("holes",))
    sheet = replace(STRAINER, cases=(bench, *STRAINER.cases[1:]))
    thing = Shown(names=("height",), reference="bench sample")
    finding = with_witness(found("meant lost", 3, "2a", "between 20 and 60 mm", thing=thing))
    assert one_line(thing_text(sheet, finding)) == "a thing with height 60 mm"
    departing = replace(finding, thing=replace(finding.thing, departs=("height",)))
    assert one_line(thing_text(sheet, departing)) == "a thing with height 60 mm"


def test_what_a_document_leaves_unsaid_is_not_told_as_stated() -> None:
    document = replace(STRAINER.cases[3], facts=compare("diameter", "=", "3", "mm"), stated=("diameter",))
    sheet = replace(STRAINER, cases=(*STRAINER.cases[:3], document))
    thing = Shown(names=("holes", "diameter"), departs=("holes",), reference="D1")
    finding = with_witness(found("document met", 2, "claim 1", "1. A leaf", case="D1", thing=thing))
    assert one_line(thing_text(sheet, finding)) == (
        'document D1 at "page 4, example 2" as listed (diameter 4 mm), whatever it leaves unsaid'
    )


def test_part_of_a_case_is_told_by_what_leaves_room() -> None:
    rounded = Rounded(Measured("diameter"), Fraction(1, 1000), "away")
    measured = Compare("=", rounded, Const(Fraction(4, 1000)))
    facts = All((compare("holes", "=", "24"), measured))
    tall = replace(STRAINER.cases[1], facts=facts, stated=("diameter", "holes"))
    sheet = replace(STRAINER, cases=(STRAINER.cases[0], tall, *STRAINER.cases[2:]))
    finding = with_witness(
        found("inside lost", 3, "claim 1", "1. A leaf", case="tall sample", about=Lost(("holes", "diameter")))
    )
    text = one_line(text_of(answers_of(finding, sheet=sheet), sheet=sheet))
    room = "what it states of diameter ("
    assert f"Only part of tall sample is concerned: {room}" in text


def test_a_reading_is_told_by_its_meaning_at_the_place_in_question() -> None:
    group = STRAINER.groups[1]
    here, there = group.places
    places = (replace(here, meanings=("A", "B", "C")), replace(there, meanings=("D", "E", "F")))
    sheet = replace(STRAINER, groups=(STRAINER.groups[0], replace(group, places=places), STRAINER.groups[2]))
    assert meaning_text(sheet, Reread(1, 1), ("2a",)) == "E"
    assert meaning_text(sheet, Reread(1, 1), ("1b",)) == "B"
    assert meaning_text(sheet, Reread(1, 1), ("1b", "2a")) == "1b: B; 2a: E"
    assert meaning_text(sheet, Reread(1, 1)) == "B"


def test_a_number_that_a_reading_leaves_open_is_called_the_stretch() -> None:
    reading = Reading("about", "presumed", "ABS(holes - 24) <= e * ABS(24)")
    group = replace(STRAINER.groups[0], readings=(reading, STRAINER.groups[0].readings[1]))
    sheet = replace(STRAINER, groups=(group, *STRAINER.groups[1:]), parameters=(stretch(0),))
    assert meaning_text(sheet, Reread(0, 0)) == "|holes - 24| <= stretch × 24"


def test_two_phrases_that_matter_only_together_are_told_as_a_pair() -> None:
    finding = replace(lost("claim 1", "1. A leaf", "tall sample"), rereads=(Reread(1, 1), Reread(0, 1)))
    (item,) = items_of(answers_of(finding))
    assert item.title == 'Claim 1, two phrases together: "divisible by 6" and "between 2 and 4 mm"'
    assert ("Together", ("only when both are read so; neither alone does it",)) in item.margin
    unsure = replace(finding, best=False)
    assert all(word != "Together" for word, _ in items_of(answers_of(unsure))[0].margin)


def test_a_policy_that_leaves_no_better_reading_is_named_as_the_reason() -> None:
    finding = found(
        "meant lost",
        1,
        "1a",
        "divisible by 6",
        quantifier="every",
        rests_on=(SettledWords("ends out", "page 3"),),
    )
    text = one_line(text_of(answers_of(finding)))
    assert 'Read with every reading left by what the sheet settles: "ends out" (page 3)' in text
    assert "Rests on" not in text


# ---- formulas in plain maths


@pytest.mark.parametrize(
    ("formula", "plain"),
    [
        ("ROUND(d TO 1 mm, HALF AWAY) <= 4 mm", "d, rounded to whole mm, <= 4 mm"),
        ("2 mm <= ROUND(d TO 1 mm, HALF EVEN)", "2 mm <= d, rounded to whole mm, halves to even"),
        (
            "2 mm <= d, ROUND(d TO 1 mm, HALF UP) <= 4 mm",
            "2 mm <= d and d, rounded to whole mm, halves up, <= 4 mm",
        ),
        (
            "ROUND(d TO 1 mm, HALF UP) >= 2 mm, ROUND(d TO 1 mm, HALF UP) < 4 mm",
            "2 mm <= d, rounded to whole mm, halves up, < 4 mm",
        ),
        (
            "ROUND(d TO 1 mm, HALF UP) >= 2 mm, ROUND(e TO 1 mm, HALF UP) < 4 mm",
            "d, rounded to whole mm, halves up, >= 2 mm and e, rounded to whole mm, halves up, < 4 mm",
        ),
        ("1 + ROUND(a / b TO 1, HALF AWAY) = 4", "1 + [a / b, rounded to a whole number] = 4"),
        ("ROUND(d TO 0.1 mm, HALF AWAY) > 2 mm", "d, rounded to 0.1 mm, > 2 mm"),
        ("ABS(x - 10% by weight) <= e * ABS(10% by weight)", "|x - 10% by weight| <= e × 10% by weight"),
        ("layers >= five, x = one of two", "layers >= 5 and x = one of two"),
        ("different", "no two of them alike"),
        (
            "ONE({citrus and mint}), scent IN {citrus and mint}",
            "ONE({citrus and mint}) and scent in {citrus and mint}",
        ),
        (
            "exactly one of {citrus and mint}, scent IN {citrus and mint}",
            "exactly one of citrus and mint, and nothing else",
        ),
        (
            "exactly one of {citrus and mint}, scent IN {citrus and lemon}",
            "exactly one of {citrus and mint} and scent in {citrus and lemon}",
        ),
        (
            "SOME(bore of the nozzles at least 2 mm, reach of the nozzles at most 30 mm)",
            "at least one of the nozzles with bore at least 2 mm and reach at most 30 mm",
        ),
        (
            "every one of {(resin of the layers among (a, b))} OR"
            " COUNT((resin of the layers among (a, b))) >= 5",
            "every one of (resin of the layers among (a, b)) or resin of the layers among (a, b)"
            " at 5 or more of them",
        ),
        ("ABS(x - 5 mm) <= e * ABS(5 mm)", "|x - 5 mm| <= e × 5 mm"),
        ("ABS(x) > l", "|x| > l"),
        ("x IN {a, b}, NOT x = none", "x in {a, b} and not x = none"),
        ("x = 1 OR x = 2, y = 3", "(x = 1 or x = 2) and y = 3"),
        ("LEAST(r, s) <= x", "the least of r and s <= x"),
        ("holes / 6 IS WHOLE", "holes / 6 is a whole number"),
        ("26 degC <= x, x - 0 degC < 4 degC(diff)", "26 °C <= x and x - 0 °C < 4 K"),
        ("IF a = 1 THEN b = 2, c", "(if a = 1 then b = 2) and c"),
    ],
)
def test_formulas_in_plain_maths(formula: str, plain: str) -> None:
    assert plain_formula(formula) == plain


def test_degrees_are_written_as_people_write_them() -> None:
    assert plain_degrees("degC(diff)") == "K"
    assert plain_degrees("degF(diff)/min") == "°F/min"
    assert plain_degrees("deg") == "deg"
    assert quantity_text(Fraction(4), unit("degC(diff)")).replace(GLUE, " ") == "4 K"


def test_a_document_that_leaves_something_unsaid_is_not_said_to_have_every_value() -> None:
    text = """
holes  count
width  length in mm

1. A plate with {words}.
   | {line}

document D
  example : holes = 4    "page 1"
"""
    said = []
    for words, line in (
        ("at least 3 holes", "holes : at least 3 holes"),
        ("at least 3 holes or a width of 5 mm", "holes >= 3 OR width = 5 mm"),
    ):
        made = sheet(text.format(words=words, line=line))
        (met,) = [f for f in ask_all(made).findings if f.question == "document met"]
        said.append(statement(made, met).replace(GLUE, " "))
    assert said[0].endswith("as listed (holes 4). The document has every value restated for claim 1.")
    assert said[1].endswith(
        "as listed (holes 4), whatever it leaves unsaid: what it states is enough for claim 1 as restated."
    )
