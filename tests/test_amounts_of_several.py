"""Amounts of several shares, of what is optional, of all or none of a composition, and on which basis.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import on_the_wrong_side, sheet

TWO = "wax, oil  share in wt%"
THREE = "wax, oil, gum  share in wt%"
PASTE = "paste  composition in wt%\n  wax, oil, water"
LISTED = "filler  any of chalk, talc, mica"
BOTH_IN_TOTAL = ("wax = 0.6 wt%, oil = 0.6 wt%", "wax = 3 wt%, oil = 60 wt%")
LITTLE = ("wax = 0.2 wt%, oil = 0 wt%", "wax = 0 wt%, oil = 40 wt%")
NONE_OF_IT = ("wax = 0.2 wt%, oil = 0 wt%", "wax = 0 wt%, oil = 0 wt%")
THREE_IN_TOTAL = ("wax = 3 wt%, oil = 3 wt%, gum = 0 wt%", "wax = 9 wt%, oil = 9 wt%, gum = 0 wt%")
TWO_OF_THREE = ("wax = 3 wt%, oil = 3 wt%, gum = 0 wt%", "wax = 6 wt%, oil = 0 wt%, gum = 0 wt%")
EACH_OF_THEM = ("wax = 3 wt%, oil = 3 wt%, gum = 0 wt%", "wax = 3 wt%, oil = 3 wt%, gum = 60 wt%")
IN_TOTAL = [
    (TWO, "wax, oil", "at least one of wax and oil in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "at least one of wax or oil in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "one or more of wax and oil at a content of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "comprising at least one of wax and oil in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "at least one selected from wax and oil in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "at least one of wax and oil makes up 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "at least one of wax and oil ... 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "wax or oil in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "wax or oil or both in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "wax, oil or a mixture thereof in an amount of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "1 to 5 wt% of at least one of wax and oil", *BOTH_IN_TOTAL),
    (TWO, "wax, oil", "at least 1 wt% of one or more of wax and oil", BOTH_IN_TOTAL[0], LITTLE[0]),
    (TWO, "wax, oil", "less than 0.5 wt% of at least one of wax and oil", *LITTLE),
    (TWO, "wax, oil", "at least one of wax and oil in an amount of at most 0.5 wt%", *LITTLE),
    (TWO, "wax, oil", "at least one of wax and oil in an amount of at most 0.5 wt%", *NONE_OF_IT),
    (TWO, "wax, oil", "at least one of a wax and an oil, each in an amount of at most 0.5 wt%", *LITTLE),
    (TWO, "wax, oil", "at least one of a wax and an oil, each in an amount of at most 0.5 wt%", *NONE_OF_IT),
    (TWO, "wax, oil", "at least one of a wax and an oil ... at most 0.5 wt%", *LITTLE),
    (TWO, "wax, oil", "at least one of wax and oil in an amount of at most 0.5 wt% each", *LITTLE),
    (TWO, "wax, oil", "at least one of wax and oil in a total amount of at most 0.5 wt%", *NONE_OF_IT),
    (TWO, "wax, oil", "only one of wax and oil in an amount of 1 to 5 wt%", "wax = 3 wt%, oil = 0 wt%",
     "wax = 3 wt%, oil = 60 wt%"),
    (TWO, "wax, oil", "wax and oil, each in an amount of at most 5 wt%", "wax = 3 wt%, oil = 5 wt%",
     "wax = 3 wt%, oil = 6 wt%"),
    (TWO, "wax, oil", "wax and optionally oil in a total amount of 1 to 5 wt%", "wax = 2 wt%, oil = 0 wt%",
     "wax = 0 wt%, oil = 2 wt%"),
    (TWO, "wax, oil", "wax and oil in a weight ratio of 2:1 or more", "wax = 5 wt%, oil = 2 wt%",
     "wax = 3 wt%, oil = 2 wt%"),
    (THREE, "wax, oil, gum", "two or more of wax, oil and gum in a total of 5 to 10 wt%", *THREE_IN_TOTAL),
    (THREE, "wax, oil, gum", "at least two of wax, oil and gum in a combined amount of 5 to 10 wt%",
     *TWO_OF_THREE),
    (THREE, "wax, oil, gum", "a total of 5 to 10 wt% of two or more of wax, oil and gum", *TWO_OF_THREE),
    (THREE, "wax, oil, gum", "at least two of wax, oil and gum, the sum of which is 5 to 10 wt%",
     *THREE_IN_TOTAL),
    (THREE, "wax, oil, gum", "at least two of wax, oil and gum in an amount of 5 to 10 wt%", *THREE_IN_TOTAL),
    (THREE, "wax, oil, gum", "at least two of wax, oil and gum, each in an amount of 2 to 4 wt%",
     *EACH_OF_THEM),
    (THREE, "wax, oil, gum", "exactly two of wax, oil and gum in a total amount of 5 to 10 wt%",
     *THREE_IN_TOTAL),
    (THREE, "wax, oil, gum", "at least one of wax, oil and gum in an amount of 5 to 10 wt%", *THREE_IN_TOTAL),
    (THREE, "wax, oil, gum", "5 to 10 wt% of one or more of wax, oil, and gum", *THREE_IN_TOTAL),
    (THREE, "wax, oil, gum", "no more than 5 wt% of any of wax, oil and gum", *EACH_OF_THEM),
    (THREE, "wax, oil, gum", "wax, oil and gum, each in an amount of at most 5 wt%", *EACH_OF_THEM),
    ("wax  share in wt%", "wax", "less than 0.1 wt% or none", "wax = 0 wt%", "wax = 1 wt%"),
    ("wax  share in wt%", "wax", "at most 5 wt%, and preferably none", "wax = 0 wt%", "wax = 6 wt%"),
    (PASTE, "paste", "contains at least one of wax and oil in a total amount of at most 5 wt%",
     "wax = 3 wt%, oil = 2 wt%", "wax = 4 wt%, oil = 4 wt%"),
    (PASTE, "paste", "comprises one or both of wax and oil in a combined amount of 1 to 5 wt%",
     "wax = 0.6 wt%, oil = 0.6 wt%", "wax = 3 wt%, oil = 60 wt%"),
    (PASTE, "paste", "contains at least two of wax, oil and water in a total amount of at most 10 wt%",
     "wax = 3 wt%, oil = 3 wt%, water = 0 wt%", "wax = 9 wt%, oil = 9 wt%, water = 0 wt%"),
    (TWO, "wax, oil", "at least one of wax and oil in a sum of 1 to 5 wt%", *BOTH_IN_TOTAL),
    (PASTE, "paste", "comprises wax in a total amount of 1 to 5 wt% and oil in a total amount of 1 to 5 wt%",
     "wax = 4 wt%, oil = 4 wt%", "wax = 4 wt%, oil = 6 wt%"),
    (PASTE, "paste", "comprising wax as the sole ingredient", "wax = 100 wt%", "wax = 1 wt%, oil = 99 wt%"),
    (PASTE, "paste", "comprising only wax and oil", "wax = 1 wt%, oil = 99 wt%",
     "wax = 1 wt%, water = 99 wt%"),
    (PASTE, "paste", "containing wax as the main component", "wax = 60 wt%, oil = 40 wt%",
     "wax = 1 wt%, oil = 99 wt%"),
    (PASTE, "paste", "consisting mainly of wax", "wax = 60 wt%, oil = 40 wt%", "wax = 1 wt%, oil = 99 wt%"),
    (PASTE, "paste", "consisting of wax, oil and optionally water", "wax = 60 wt%, oil = 40 wt%",
     "wax = 60 wt%, water = 40 wt%"),
    (PASTE, "paste", "comprising wax, oil and optionally water", "wax = 60 wt%, oil = 40 wt%",
     "wax = 60 wt%, water = 40 wt%"),
    (PASTE, "paste", "comprising at least 50 wt% of wax, the remainder being oil and water",
     "wax = 60 wt%, oil = 30 wt%, water = 10 wt%", "wax = 40 wt%, oil = 30 wt%, water = 30 wt%"),
    (PASTE, "paste", "comprising at least 50 wt% of wax, the balance being water",
     "wax = 60 wt%, water = 40 wt%", "wax = 60 wt%, oil = 30 wt%, water = 10 wt%"),
    (LISTED, "filler", "does not contain more than two of chalk, talc and mica", "filler = {chalk, talc}",
     "filler = {chalk, talc, mica}"),
    (LISTED, "filler", "does not contain one or more of chalk and mica", "filler = {talc}",
     "filler = {chalk, mica}"),
    (LISTED, "filler", "not containing any of chalk and mica", "filler = {talc}", "filler = {chalk}"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), IN_TOTAL)
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    "words",
    [
        "comprising wax as the only filler",
        "comprising wax in a small amount",
        "comprising wax in excess",
        "comprising wax as a minor component",
    ],
)
def test_how_much_there_is_of_it_is_never_passed_over(words: str) -> None:
    made, _ = read_sheet(Source("t.sheet", f"{PASTE}\n\n1. A paste {words}.\n   | paste : {words}\n"))
    assert made is None


@pytest.mark.parametrize(
    ("basis", "told"),
    [
        ("based on the weight of the filler", "filler"),
        ("with respect to the binder", "binder"),
        ("calculated on the dry weight", "dry"),
        ("relative to the solids", "solids"),
        ("based on the total weight of the composition", ""),
        ("based on the weight of the paste", ""),
        ("based on the total weight", ""),
    ],
)
def test_a_basis_that_no_declaration_names_is_told(basis: str, told: str) -> None:
    words = f"5 to 10 wt% of wax, {basis}"
    text = f"wax  share in wt%\n\n1. A paste comprising {words}.\n   | wax : {words}\n"
    made, found = read_sheet(Source("t.sheet", text))
    assert made is not None
    named = f"the words count on '{told}', and wax is declared as a share of no named whole"
    assert [d.message for d in found] == ([named] if told else [])


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("paste", "wax and oil account for at least 60 wt%"),
        ("wax, oil", "wax and oil make up at least 60 wt%"),
        ("wax, oil", "wax and oil constitute at least 60 wt% of the paste"),
        ("paste", "at least 60 wt% of the paste consists of wax and oil"),
    ],
)
def test_what_makes_up_a_part_of_the_whole_is_first_a_total(left: str, words: str) -> None:
    made = sheet(f"{PASTE}\n\n1. A paste, wherein {words}.\n   | {left} : {words}\n")
    (group,) = [g for g in made.groups if "together" in {r.label for r in g.readings}]
    assert group.readings[group.base].label == "together"
    assert "each" in {r.label for r in group.readings if r.standing == "presumed"}


ROD = """
rod  composition in wt%
  copper, tin, lead

1. A rod consisting of 5 to 7 wt% of tin, the balance being copper and unavoidable impurities.
   | rod : consisting of
   | tin : 5 to 7 wt%
   | rod : the balance being copper and unavoidable impurities

2. The rod of claim 1, which is substantially free of lead.
   | lead : substantially free of lead

inside for 1
  a trace of lead : tin = 6 wt%, lead = 0.02 wt%, copper = 93.98 wt%
"""


def test_a_declared_substance_that_no_line_names_may_be_an_impurity() -> None:
    answers = ask_all(sheet(ROD))
    on_every_reading = [f for f in answers.findings if f.quantifier == "every"]
    assert not [f for f in on_every_reading if f.question in ("inside lost", "idle claim", "adds nothing")]


def test_a_balance_states_no_measure_like_a_word_of_degree() -> None:
    assert not [f for f in ask_all(sheet(ROD)).findings if f.question == "without measure"]
