"""`80 % of the width` is read of the quotient, and a basis at the end holds for each number before it."""

from __future__ import annotations

import pytest

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


def test_a_share_of_another_kind_of_quantity_is_none() -> None:
    text = f"{HEAD} at 80 % of the water.\n   | height : at most 80 % of the water\n"
    assert errors(text.replace("at 80", "at most 80"))


def test_a_basis_holds_for_each_share_before_it() -> None:
    words = "at least 18 % and at most 40 % by weight"
    assert plain("lime", words) == {"18 % <= lime <= 40 % by weight"}
