"""`80 % of the width` is read of the quotient, and a basis at the end holds for each number before it."""

from __future__ import annotations

import pytest

from scopecheck.core.construction import names_in
from tests.sheets import errors, sheet

HEAD = "width  length in mm\nheight  length in mm\nwater  temperature in degC\nlime  share in wt%\n\n1. A box"


def plain(line: str, words: str) -> set[str]:
    made = sheet(f"{HEAD} of {words}.\n   | {line} : {words}\n")
    return {r.plain for group in made.groups for r in group.readings}


@pytest.mark.parametrize(
    ("words", "reading"),
    [
        ("not more than 80 % of the width", "height / width <= 80 %"),
        ("between 50 and 60 percent of the width", "50 % <= height / width <= 60 percent"),
        ("at least 50 % of the width and is at most 9 mm", "height / width >= 50 %"),
    ],
)
def test_a_share_of_another_quantity_is_read_of_the_quotient(words: str, reading: str) -> None:
    assert reading in plain("height", words)


IN, OUT = "0.5 * width <= height <= 0.7 * width", "0.5 * width < height < 0.7 * width"


@pytest.mark.parametrize(
    ("words", "presumed", "left_out"),
    [
        ("0.5 to 0.7 times the width", {IN}, {OUT}),
        ("from 0.5 to 0.7 times as high as the width", {IN}, {OUT}),
        ("between 0.5 and 0.7 times the width", {IN, OUT}, set()),
        ("at least 0.5 and at most 0.7 times the width", {IN}, {OUT}),
        ("more than 0.5 and less than 0.7 times the width", {OUT}, {IN}),
    ],
)
def test_a_range_of_multiples_is_read_as_a_range(words: str, presumed: set[str], left_out: set[str]) -> None:
    made = sheet(f"{HEAD} of {words}.\n   | height : {words}\n")
    (group,) = made.groups
    assert {r.plain for r in group.readings if r.standing == "presumed"} == presumed
    assert not left_out & {r.plain for r in group.readings}


def test_a_share_of_another_kind_of_quantity_is_none() -> None:
    text = f"{HEAD} at 80 % of the water.\n   | height : at most 80 % of the water\n"
    assert errors(text.replace("at 80", "at most 80"))


def test_a_basis_holds_for_each_share_before_it() -> None:
    words = "at least 18 % and at most 40 % by weight"
    assert {"lime >= 18 %", "lime <= 40 % by weight"} <= plain("lime", words)


def test_a_share_is_not_set_beside_the_number_of_things_it_is_a_share_of() -> None:
    words = "at most 5% of the total number of bars"
    made = sheet(f"bent  share in %\nbars  count\n\n1. A rack with {words} bent.\n   | bent : {words}\n")
    assert names_in(made.claims[0].limitations[0].formula) == {"bent"}


FILM = "film  composition in wt%\n  polymer : pullulan, starch\n  softener : glycerol, sorbitol\n  water\n"
RATIO = "the weight ratio of the polymer to the softener is from 4:1 to 8:1"


@pytest.mark.parametrize(
    ("left", "words", "reading"),
    [
        ("polymer, softener", f"{RATIO}, preferably from 5:1 to 6:1", "5:1 <= polymer / softener <= 6:1"),
        ("polymer, softener", f"{RATIO}, more preferably 5:1 to 6:1", "4:1 <= polymer / softener <= 8:1"),
        ("softener, polymer", f"{RATIO}, preferably at least 5:1", "polymer / softener >= 5:1"),
        ("polymer, water", "a ratio of the polymer to the water of at least 4:1, preferably at least 5:1",
         "polymer / water >= 5:1"),
        ("softener, polymer", "10 to 20 parts by weight of softener, based on 100 parts by weight of polymer",
         "10 % <= softener / polymer <= 20 %"),
        ("glycerol, polymer", "10 to 20 parts by weight of glycerol, based on 100 parts by weight of polymer",
         "10 % <= glycerol / polymer <= 20 %"),
        ("water, glycerol", "less than 10 parts by weight of water, based on 100 parts by weight of glycerol",
         "water / glycerol < 10 %"),
        ("water, glycerol", "10 to 20 parts by weight of glycerol, based on 100 parts by weight of water",
         "10 % <= glycerol / water <= 20 %"),
    ],
)  # fmt: skip
def test_a_class_of_a_composition_stands_beside_another_as_one_value(
    left: str, words: str, reading: str
) -> None:
    made = sheet(f"{FILM}\n1. A film, wherein {words}.\n   | {left} : {words}\n")
    assert reading in {r.plain for group in made.groups for r in group.readings}


@pytest.mark.parametrize(
    "words",
    [
        "10 to 20 parts by volume of glycerol, based on 100 parts by volume of water",
        "10 to 20 parts by weight of glycerol, not based on 100 parts by weight of water",
    ],
)
def test_parts_of_another_basis_or_whole_are_refused(words: str) -> None:
    assert errors(f"{FILM}\n1. A film, wherein {words}.\n   | glycerol, water : {words}\n")
