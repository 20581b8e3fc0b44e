"""Like parts in cases: lists of values in one cell, what they say of how many there are, and the mistakes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.reference import stated_values
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from tests.sheets import errors, sheet

RACK = """
hole        part, 1 to 4
  diameter  length in mm
  edge      one of only sharp, round
peg         part, up to 2
  height    length in mm

1. A rack with at least two holes, the holes having a diameter of between 2 and 4 mm.
   | holes : at least two holes

{cases}
"""
MM = Fraction(1, 1000)


def rack(columns: str, cells: str, heading: str = "inside") -> str:
    return RACK.format(cases=f"{heading}  {columns}\n  one   {cells}\n")


def fact(text: str) -> str:
    return RACK.format(cases=f"inside\n  one : {text}\n")


def test_a_list_of_values_is_one_of_each_and_says_how_many_there_are() -> None:
    made = sheet(rack("diameter of holes in mm   edge of holes", "2; 3.5; 3   sharp; any; round"))
    (case,) = made.cases
    assert stated_values(made, case) == {
        "holes": 3,
        "diameter of hole 1": 2 * MM,
        "diameter of hole 2": Fraction(35, 10) * MM,
        "diameter of hole 3": 3 * MM,
        "edge of hole 1": "sharp",
        "edge of hole 3": "round",
    }


@pytest.mark.parametrize("cells", ["each 3 mm   2", "3 mm; 3 mm   2"])
def test_each_of_a_known_number_is_a_list(cells: str) -> None:
    made = sheet(rack("diameter of holes   holes", cells))
    assert stated_values(made, made.cases[0]) == {
        "holes": 2, "diameter of hole 1": 3 * MM, "diameter of hole 2": 3 * MM,
    }  # fmt: skip


def test_a_document_may_be_silent_on_one_of_them() -> None:
    made = sheet(rack("diameter of holes", "any") + "document D1  2 mm; silent; about 3 mm\n")
    (_, case) = made.cases
    assert {"diameter of hole 1", "diameter of hole 3", "holes"} <= set(case.stated)
    assert {"diameter of hole 2", "edge of hole 1"} <= set(case.silent)


@pytest.mark.parametrize(
    "text", ["diameter of hole 2 = 3 mm", "diameter of hole 2 > 3 mm", "edge of hole 2 = round"]
)
def test_what_is_said_of_one_says_that_it_is_there(text: str) -> None:
    made = sheet(fact(text))
    session = Session(made)
    search = session.search(())
    search.require(session.met(made.cases[0].facts))
    assert search.holds(session.equals("holes", Fraction(2)))
    assert not search.holds(session.equals("holes", Fraction(1)))


def test_a_claim_on_one_of_them_is_not_met_without_it_nor_is_its_denial() -> None:
    one = {"holes": Fraction(1), "pegs": Fraction(0)}
    values = {f"diameter of hole {i}": 3 * MM for i in range(1, 5)}
    for line in ("diameter of hole 2 >= 3 mm", "NOT diameter of hole 2 >= 3 mm", "edge of hole 2 = round"):
        made = sheet(RACK.format(cases="").replace("holes : at least two holes", line))
        formula = made.claims[0].limitations[0].formula
        article = one | values | {f"edge of hole {i}": "round" for i in range(1, 5)}
        assert evaluate(formula, article, Construction(())) is None, line
        assert evaluate(formula, article | {"holes": Fraction(2)}, Construction(())) is not None


def test_words_on_one_of_them_are_told_where_it_is_not_there() -> None:
    line = "diameter of hole 2 : at least 3 mm"
    text = RACK.format(cases="").replace("holes : at least two holes", line)
    asked = ask_all(sheet(text.replace("between 2 and 4 mm", "at least 3 mm")))
    (found,) = [f for f in asked.findings if f.question == "undefined"]
    assert found.witness is not None
    assert found.witness.article["holes"] == 1


@pytest.mark.parametrize(
    ("columns", "cells", "message", "help", "at"),
    [
        (
            "diameter of holes   holes",
            "2 mm; 3 mm   3",
            "2 values for 3 holes",
            "any for one left",
            "2 mm; 3 mm",
        ),
        ("diameter of holes   edge of holes", "2 mm; 3 mm   round", "2 values for 1 holes", "", "2 mm; 3 mm"),
        (
            "diameter of holes",
            "1 mm; 2 mm; 3 mm; 4 mm; 5 mm",
            "5 values for up to 4 holes",
            "write hole  part, up to 5",
            "5 mm",
        ),
        ("diameter of holes", "2 mm;; 3 mm", "a value is missing beside a semicolon", "any", "2 mm;; 3 mm"),
        ("diameter of holes", "none", "0 is outside the domain of holes", "", "none"),
        ("diameter of holes", "2 mm; 3 cm3", "length and volume cannot be compared", "", "3 cm3"),
        (
            "width of holes",
            "2 mm",
            "no hole has a 'width'",
            "write one of these: diameter, edge",
            "width of holes",
        ),
        (
            "diametre of holes",
            "2 mm",
            "no hole has a 'diametre'",
            "did you mean 'diameter'?",
            "diametre of holes",
        ),
        ("diameter of hole 6", "2 mm", "hole 6 of up to 4", "part, up to 6", "diameter of hole 6"),
        ("diameter of hole 2   holes", "2 mm   1", "hole 2 where holes is 1", "write holes = 2", "2 mm"),
        ("diameter", "2 mm", "'diameter': of which hole?", "diameter of hole 1 for the first", "diameter"),
    ],
)
def test_mistakes_in_columns_are_told_at_their_place(
    columns: str, cells: str, message: str, help: str, at: str
) -> None:
    found = errors(rack(columns, cells))
    assert any(message in d.message and help in d.help and at == d.span.text for d in found), [
        (d.message, d.help, d.span.text) for d in found
    ]


@pytest.mark.parametrize(
    ("text", "message", "help"),
    [
        ("holes = 1, diameter of hole 2 = 3 mm", "hole 2 where holes is 1", "write holes = 2"),
        ("pegs = 0, MEDIAN peg (height) = 3 mm", "the median of no pegs", "how many pegs"),
        ("pegs = 0, MEAN peg (height) = 3 mm", "the mean of no pegs", "how many pegs"),
        ("EVERY hold (diameter = 3 mm)", "no part is declared as 'hold'", "did you mean 'hole'?"),
        ("diameter of hole 9 = 3 mm", "hole 9 of up to 4", "part, up to 9"),
    ],
)
def test_mistakes_in_facts_are_told(text: str, message: str, help: str) -> None:
    found = errors(fact(text))
    assert any(message in d.message and help in d.help for d in found), [(d.message, d.help) for d in found]


def test_words_in_facts_are_read_of_the_parts() -> None:
    made = sheet(fact("holes = 2, diameter of the holes about 3 mm"))
    assert {"holes", "diameter of hole 1", "diameter of hole 2"} <= set(made.cases[0].stated)
    assert made.cases[0].groups


def test_a_document_may_have_a_column_of_parts_of_its_own() -> None:
    made = sheet(
        "width  length in mm\nhole  part, 0 to 4\n  diameter  length in mm\n\n"
        "1. A feeder.\n   | width <= 30 mm\n\n"
        "inside     width\n  a        20 mm\n"
        'document D1    width in mm    diameter of holes in mm\n  example 1    20    3; 3   "page 3"\n'
    )
    (shown,) = (c for c in made.cases if c.role == "document")
    assert stated_values(made, shown)["holes"] == 2


def test_one_field_of_parts_limits_another_of_each_part() -> None:
    """`At least twice its diameter`: of every part that is there, whatever its number."""
    made = sheet(
        "pipe  part, 1 to 3\n  bore    length in mm\n  length  length in mm\n\n"
        "1. A pole with pipes of a length of at least twice its bore.\n"
        "   | length of the pipes, bore of the pipes : of a length of at least twice its bore\n"
    )
    (limitation,) = made.claims[0].limitations
    base = base_construction(made)

    def met(*parts: tuple[int, int]) -> bool | None:
        values = {"pipes": Fraction(len(parts))}
        for i, (bore, length) in enumerate((*parts, *((9, 1),) * 3)[:3], start=1):
            values |= {f"bore of pipe {i}": Fraction(bore), f"length of pipe {i}": Fraction(length)}
        return evaluate(limitation.formula, values, base)

    assert met((2, 4)) is met((2, 4), (3, 7)) is met((1, 2), (2, 4), (3, 6)) is True
    assert met((2, 3)) is met((2, 4), (3, 5)) is met((1, 2), (2, 4), (3, 5)) is False
