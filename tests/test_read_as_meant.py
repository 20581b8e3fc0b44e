"""Words that a quick reading turns round, each with a thing that they take in and one that they do not.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from tests.sheets import errors, on_the_wrong_side, sheet

COUNTS = "bore, pin  count"
THREE = "bore, pin, slot  count"
METALS = "metal  any of zinc, tin, copper, steel"
STEPS = "soaking, drying  step in min"
GAP = "gap  length in mm"
LAMP = "lit  one of only yes, no\ngear  count"
LIFT = "load  mass in kg\nspeed  speed in m/s"
ALARM = f"alarm  one of only on, off\n{LIFT}"
LENGTHS = "strip length, flap length  length in mm"
RIM = "gap, rim  length in mm"
SILENT, LOUD = "load = 400 kg, speed = 1 m/s, alarm = off", "load = 600 kg, speed = 1 m/s, alarm = off"
FAST = "load = 400 kg, speed = 3 m/s, alarm = off"
WITHIN, BEYOND = "load = 400 kg, speed = 1 m/s", "load = 400 kg, speed = 3 m/s"


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
        (METALS, "metal", "free of zinc and of tin", "metal = copper", "metal = tin"),
        (METALS, "metal", "free from zinc, from tin and from copper", "metal = steel", "metal = tin"),
        (ALARM, "alarm, load, speed", "the alarm is on if a load of 500 kg or a speed of 2 m/s is exceeded",
         SILENT, LOUD),
        (ALARM, "alarm, load, speed", "the alarm is on if either 500 kg or 2 m/s is reached", SILENT, LOUD),
        (ALARM, "alarm, load, speed", "the alarm is on if the load exceeds 500 kg or the speed 2 m/s",
         SILENT, FAST),
        (ALARM, "alarm, load, speed", "the alarm is on upon exceeding a load of 500 kg or a speed of 2 m/s",
         SILENT, FAST),
        (LIFT, "load, speed", "a load of 500 kg and a speed of 2 m/s are not exceeded", WITHIN, BEYOND),
        (LIFT, "load, speed", "the load does not exceed 500 kg and the speed 2 m/s", WITHIN, BEYOND),
        (LIFT, "load, speed", "the load being limited to 500 kg and the speed to 2 m/s", WITHIN, BEYOND),
        (f"{LIFT}\nheight  length in m", "load, speed, height",
         "a load of 500 kg, a speed of 2 m/s and a height of 5 m are not exceeded",
         f"{WITHIN}, height = 4 m", f"{WITHIN}, height = 6 m"),
        (LENGTHS, "strip length, flap length", "extending along the majority of the length of the flap",
         "strip length = 51 mm, flap length = 100 mm", "strip length = 50 mm, flap length = 100 mm"),
        (LENGTHS, "strip length, flap length", "extends over the full length of the flap",
         "strip length = 100 mm, flap length = 100 mm", "strip length = 90 mm, flap length = 100 mm"),
        (RIM, "gap, rim", "a gap short of the rim", "gap = 2 mm, rim = 3 mm", "gap = 3 mm, rim = 3 mm"),
        (GAP, "gap", "from 2 to 9 mm, preferably 3 to 5 mm", "gap = 4 mm", "gap = 10 mm"),
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
        (LIFT, "load, speed", "500 kg and 2 m/s or less"),
        (LIFT, "load, speed", "a load of 500 kg or a speed of 2 m/s is not exceeded"),
        (RIM, "gap, rim", "a gap instead of the rim"),
        (RIM, "gap, rim", "a gap in terms of the rim"),
        (RIM, "gap, rim", "in a range of the rim"),
        (LENGTHS, "strip length, flap length", "independent of the flap length"),
        (GAP, "gap", "a precision of 5 mm"),
        (GAP, "gap", "a spread of 5 mm"),
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
