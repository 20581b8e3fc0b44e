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
        ("a fat with an acid value of not more than 5 mg KOH/g", {"not restated : not more than 5 mg"}),
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
