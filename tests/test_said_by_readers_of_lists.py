"""Compositions and ratios as readers of the reference wrote them, and what the tool made of them at first."""

from __future__ import annotations

from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import sheet

PAINT = """
paint  composition in wt%
  binder, water
  filler : talc, mica

1. A paint comprising 25 to 45 wt% of a binder and {words}.
   | binder : 25 to 45 wt%
   | {left} : {words}

inside  binder   water    talc    mica
  {row}
"""


def lost(left: str, words: str, row: str) -> set[str]:
    """How the inside case is lost: on every reading, as presumed, or on some."""
    made = sheet(PAINT.format(left=left, words=words, row=row))
    return {f.quantifier for f in ask_all(made).findings if f.question == "inside lost"}


CLEAR = "clear  40 wt%  60 wt%  0 wt%  0 wt%"
FULL = "full   40 wt%  45 wt%  15 wt%  0 wt%"
AMOUNT = "no more than 20 wt% of one or more fillers selected from the group consisting of talc and mica"


def test_of_what_is_not_there_nothing_is_selected() -> None:
    """An amount with no lower end takes in none at all, if so read; nothing is then selected."""
    assert lost("filler", AMOUNT, CLEAR) == {"some"}
    assert lost("filler", AMOUNT, FULL) == set()
    assert lost("filler", "2 to 20 wt% of a filler selected from talc and mica", CLEAR) == {"every"}
    assert "every" not in lost("filler", "2 to 20 wt% of a filler selected from talc and mica", FULL)


def test_a_composition_of_which_ingredients_are_named() -> None:
    assert lost("paint", "essentially free of talc and mica", FULL) == {"base"}
    assert lost("paint", "essentially free of talc and mica", CLEAR) == set()
    assert lost("paint", "one or both of talc and mica are present", CLEAR) == {"every"}
    assert "every" not in lost("paint", "one or both of talc and mica are present", FULL)


def test_an_ingredient_of_the_text_that_no_line_names() -> None:
    text = (
        "solvent  composition in vol%, only\n  EC, EMC, DMC, FEC\n\n"
        "1. A solvent consisting of EC, EMC and DMC, with 20 to 35 vol% of EC.\n"
        "   | solvent : consisting of\n   | EC : 20 to 35 vol%\n   | EMC IN solvent\n"
    )
    made, told = read_sheet(Source("test", text))
    assert made is not None
    assert [d.message for d in told] == ["DMC stands in the claim and in no line, and is shut out here"]
    _, told = read_sheet(Source("test", text + "   | DMC IN solvent\n"))
    assert told == ()


def test_a_ratio_of_three_is_no_share_of_two() -> None:
    """By hand: 60 : 20 : 15 is 12 : 4 : 3; of 3 : 4 : 3 the first is 3 of 10 parts of the whole."""
    made = sheet(
        "EC, EMC, DMC  share in vol%\n\n1. A solvent with EC, EMC and DMC in a volume ratio of 3:4:3.\n"
        "   | EC, EMC, DMC : in a volume ratio of 3:4:3\n\nmust stay out\n"
        "  odd : EC = 60 vol%, EMC = 20 vol%, DMC = 15 vol%\n"
    )
    assert [f for f in ask_all(made).findings if f.question == "outside met"] == []
    shown = {meaning for g in made.groups for place in g.places for meaning in place.meanings}
    assert {"EC / EMC = 3:4", "EMC / DMC = 4:3"} <= shown
    assert not any("+" in meaning for meaning in shown)
