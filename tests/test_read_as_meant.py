"""Words that a quick reading turns round, each with a thing that they take in and one that they do not.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from tests.sheets import errors, on_the_wrong_side, sheet

COUNTS = "bore, pin  count"
THREE = "bore, pin, slot  count"
METALS = "metal  any of zinc, tin, copper"
STEPS = "soaking, drying  step in min"
GAP = "gap  length in mm"
LAMP = "lit  one of only yes, no\ngear  count"


@pytest.mark.parametrize(
    ("declared", "left", "words", "within", "outside"),
    [
        (COUNTS, "bore, pin", "at least one of a bore and a pin", "bore = 1, pin = 0", "bore = 0, pin = 0"),
        (COUNTS, "bore, pin", "one or more of a bore and a pin", "bore = 0, pin = 1", "bore = 0, pin = 0"),
        (COUNTS, "bore, pin", "two or more of a bore and a pin", "bore = 1, pin = 1", "bore = 1, pin = 0"),
        (COUNTS, "bore, pin", "a bore and/or a pin", "bore = 1, pin = 1", "bore = 0, pin = 0"),
        (THREE, "bore, pin, slot", "at least one of a bore, a pin and a slot",
         "bore = 0, pin = 1, slot = 0", "bore = 0, pin = 0, slot = 0"),
        ("bores, pins  count", "bores, pins", "at least two bores and a pin", "bores = 2, pins = 1",
         "bores = 3, pins = 0"),
        ("pins  count", "pins", "0 pins", "pins = 0", "pins = 1"),
        ("pins  count", "pins", "a total of four pins", "pins = 4", "pins = 5"),
        ("pins  count", "pins", "not a multiple of 4", "pins = 6", "pins = 4"),
        (LAMP, "lit, gear", "is lit if the gear is 2", "lit = no, gear = 3", "lit = no, gear = 2"),
        (LAMP, "lit, gear", "is lit when the gear is zero", "lit = no, gear = 3", "lit = no, gear = 0"),
        (METALS, "metal", "not made of zinc or tin", "metal = copper", "metal = zinc"),
        (METALS, "metal", "not composed of zinc and tin", "metal = copper", "metal = zinc"),
        (METALS, "metal", "not containing one or more of zinc and tin", "metal = copper", "metal = zinc"),
        (STEPS, "drying, soaking", "within 1 hour after soaking",
         "soaking from 0 to 30 min, drying from 40 to 60 min",
         "soaking from 100 to 130 min, drying from 60 to 90 min"),
        (STEPS, "drying, soaking", "not before the soaking is completed",
         "soaking from 0 to 30 min, drying from 30 to 60 min",
         "soaking from 0 to 30 min, drying from 10 to 60 min"),
        (GAP, "gap", "3 mm or less, or more than 10 mm", "gap = 11 mm", "gap = 10 mm"),
        (GAP, "gap", "between 80 and 90 mm, inclusive, or more than 95 mm", "gap = 90 mm", "gap = 92 mm"),
        ("yield strength  pressure in MPa", "yield strength", "a yield strength (Rp0.2) of at least 240 MPa",
         "yield strength = 240 MPa", "yield strength = 230 MPa"),
    ],
)  # fmt: skip
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (
            "left, right  length in mm",
            "left, right",
            "a left width of 2 to 3 mm and a right width of 5 to 6 mm",
        ),
        ("wax  share in wt%", "wax", "at most a trace"),
        ("bores, pins  count", "bores, pins", "at least two bores or a pin"),
    ],
)
def test_what_nothing_tells_apart_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


THROUGHOUT = """\
soaking  step in min
  temperature  temperature in degC

1. A method, soaking at a temperature of at least 60 °C throughout.
   | temperature of soaking : at a temperature of at least 60 °C throughout
must stay out
  cold : temperature at the start of soaking = 60 degC, lowest temperature of soaking = 20 degC
"""


def test_throughout_is_no_moment() -> None:

    assert not [f for f in ask_all(sheet(THROUGHOUT)).findings if f.question == "outside met"]
