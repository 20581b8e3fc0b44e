"""Words that a quick reading turns round, each with a thing that they take in and one that they do not.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.edits import with_edits_tried
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import (
    all_readings,
    errors,
    on_the_wrong_side,
    presumed_in_symbols,
    presumed_labels,
    sheet,
)

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
THREE_LENGTHS = "gap, rim, lip  length in mm"
PER_LENGTH = "wales, courses  in 1/cm"
PLAIN = "shown, meant  number"
SHARES = "shown, meant  share in %"
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
        (GAP, "gap", "no more than 4 mm or less than 2 mm", "gap = 3 mm", "gap = 5 mm"),
        (GAP, "gap", "never less than 2 mm or more than 4 mm", "gap = 3 mm", "gap = 1 mm"),
        (GAP, "gap", "not longer than 4 mm or shorter than 2 mm", "gap = 3 mm", "gap = 1 mm"),
        (GAP, "gap", "not longer than 4 mm or shorter than 2 mm", "gap = 3 mm", "gap = 5 mm"),
        (RIM, "gap, rim", "a ratio of the gap to the rim of 2 to 5 %", "gap = 3 mm, rim = 100 mm",
         "gap = 20 mm, rim = 100 mm"),
        (RIM, "gap, rim", "gap/rim is between 10 and 50 percent", "gap = 20 mm, rim = 100 mm",
         "gap = 60 mm, rim = 100 mm"),
        (RIM, "gap, rim", "the gap is within 80 % to 125 % of the rim", "gap = 100 mm, rim = 80 mm",
         "gap = 101 mm, rim = 80 mm"),
        (RIM, "gap, rim", "the gap is within 80 to 125 % of the rim", "gap = 64 mm, rim = 80 mm",
         "gap = 60 mm, rim = 80 mm"),
        (RIM, "gap, rim", "the gap is not within 80 % to 125 % of the rim", "gap = 101 mm, rim = 80 mm",
         "gap = 99 mm, rim = 80 mm"),
        ("N, M  number", "N, M", "M ≤ N ≤ 2M", "N = 5, M = 3", "N = 7, M = 3"),
        ("N, M  length in mm", "N, M", "M < N < 2M", "N = 5 mm, M = 3 mm", "N = 6 mm, M = 3 mm"),
        ("x, g  number", "x, g", "x ≥ 0.5g", "x = 2, g = 4", "x = 1.9, g = 4"),
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
        (COUNTS, "bore, pin", "within 10 % of the number of pins", "bore = 19, pin = 20",
         "bore = 1, pin = 20"),
        (COUNTS, "bore, pin", "the number of bores is within 10 % of the number of pins",
         "bore = 22, pin = 20", "bore = 23, pin = 20"),
        (COUNTS, "bore, pin", "at most 10 % of the number of pins", "bore = 1, pin = 20",
         "bore = 19, pin = 20"),
        (PER_LENGTH, "wales, courses", "within 10 % of the number of courses",
         "wales = 19 1/cm, courses = 20 1/cm", "wales = 1 1/cm, courses = 20 1/cm"),
        (PER_LENGTH, "wales, courses",
         "the number of wales per centimetre lies within 10 % of the number of courses per centimetre",
         "wales = 19 1/cm, courses = 20 1/cm", "wales = 1 1/cm, courses = 20 1/cm"),
        (PLAIN, "shown, meant", "within 5 % of the meant", "shown = 102, meant = 100",
         "shown = 0.56, meant = 0.52"),
        (PLAIN, "shown, meant", "differs from the meant by no more than 5 %", "shown = 102, meant = 100",
         "shown = 0.52, meant = 0.48"),
        (PLAIN, "shown, meant", "exceeds the meant by at least 5 %", "shown = 0.42, meant = 0.4",
         "shown = 100.1, meant = 100"),
        (PLAIN, "shown, meant", "at most 5 % above the meant", "shown = 104, meant = 100",
         "shown = 0.54, meant = 0.5"),
        (PLAIN, "shown, meant", "5 % to 8 % higher than the meant", "shown = 106, meant = 100",
         "shown = 0.56, meant = 0.5"),
        ("shown  number", "shown", "7 ± 5 %", "shown = 7.3", "shown = 0.07"),
        ("shown  number", "shown", "within 5 % of 7", "shown = 7.3", "shown = 7.4"),
        (METALS, "metal", "either or both of zinc and tin", "metal = tin", "metal = copper"),
        (METALS, "metal", "a metal other than copper", "metal = zinc", "metal = {}"),
        (METALS, "metal", "a metal which is not copper", "metal = zinc", "metal = {}"),
        (METALS, "metal", "with the proviso that the metal is not copper", "metal = zinc", "metal = {}"),
        ("wax  share in wt%", "wax", "optionally up to 2 wt% of a wax", "wax = 0 wt%", "wax = 3 wt%"),
        (GAP, "gap", "a gap out of the range of 4 to 8 mm", "gap = 9 mm", "gap = 5 mm"),
        (GAP, "gap", "the gap is out of the range from 4 to 8 mm", "gap = 3 mm", "gap = 5 mm"),
        (GAP, "gap", "the gap is not out of a range of 4 to 8 mm", "gap = 5 mm", "gap = 9 mm"),
        (RIM, "gap, rim", "a difference between the gap and the rim out of the range of 4 to 8 mm",
         "gap = 9 mm, rim = 8 mm", "gap = 9 mm, rim = 3 mm"),
        (RIM, "gap, rim", "the ratio of the gap to the rim is in the range of from 2:1 to 4:1",
         "gap = 9 mm, rim = 3 mm", "gap = 9 mm, rim = 2 mm"),
        (RIM, "gap, rim", "the gap lies at least 2 mm but at most 5 mm below the rim",
         "gap = 1 mm, rim = 4 mm", "gap = 9 mm, rim = 10 mm"),
        (RIM, "gap, rim", "the gap is at least 2 mm and at most 5 mm above the rim",
         "gap = 4 mm, rim = 1 mm", "gap = 4 mm, rim = 3 mm"),
        (STEPS, "soaking, drying",
         "the drying lasts at least 5 but at most 10 minutes longer than the soaking",
         "duration of soaking = 20 min, duration of drying = 26 min",
         "duration of soaking = 100 min, duration of drying = 6 min"),
        ("bores, pins  count", "bores, pins", "two or more bores and one pin", "bores = 3, pins = 1",
         "bores = 1, pins = 1"),
        ("bore  count", "bore", "a multiple of 3 other than 6", "bore = 9", "bore = 6"),
        ("left, right  length in mm", "left, right",
         "a left width of 2 to 3 mm and a right width of 5 to 6 mm",
         "left = 2 mm, right = 5 mm", "left = 5 mm, right = 5 mm"),
    ],
)  # fmt: skip
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("wax  share in wt%", "wax", "at most a trace"),
        ("bores, pins  count", "bores, pins", "at least two bores or a pin"),
        (LIFT, "load, speed", "500 kg and 2 m/s or less"),
        (LIFT, "load, speed", "a load of 500 kg or a speed of 2 m/s is not exceeded"),
        (RIM, "gap, rim", "a gap instead of the rim"),
        (RIM, "gap, rim", "the ratio of the gap to the rim is outside the range of from 2:1 to 4:1"),
        (RIM, "gap, rim", "the ratio of the gap to the rim lies beyond 4:1"),
        (RIM, "gap, rim", "a ratio of the gap to the rim short of 4:1"),
        (RIM, "gap, rim", "the ratio of the gap to the rim falls short of 4:1"),
        (GAP, "gap", "a gap out of 4 to 8 mm"),
        (RIM, "gap, rim", "the gap is at least 1 mm larger than the rim, but at most 3 mm"),
        (RIM, "gap, rim", "the gap is at most 3 mm larger than the rim, but at least 1 mm"),
        (RIM, "gap, rim", "the gap is less than the rim by at least 10 mm but not less than 5 mm"),
        (RIM, "gap, rim", "at least 5 mm, but at most 2 mm less than the rim"),
        (RIM, "gap, rim", "at least 2 mm more than the rim but less than 8 mm"),
        (RIM, "gap, rim", "the gap exceeds the rim by at most 10 mm and not more than 50 mm"),
        (COUNTS, "bore, pin", "two bores, or one bore and one pin"),
        (COUNTS, "bore, pin", "a bore and a pin or two pins"),
        (COUNTS, "bore, pin", "at least two bores, or at least one bore and at least one pin"),
        (
            COUNTS,
            "bore, pin",
            "the number of bores is an integer multiple of the number of pins, other than one",
        ),
        (COUNTS, "bore, pin", "one to three times the number of pins, but not twice"),
        (THREE_LENGTHS, "gap, rim, lip", "the gap exceeds 2 mm if the rim is at least 3 mm and at most 5 mm"),
        (RIM, "gap, rim", "a gap in terms of the rim"),
        (RIM, "gap, rim", "in a range of the rim"),
        (LENGTHS, "strip length, flap length", "independent of the flap length"),
        (GAP, "gap", "a precision of 5 mm"),
        (GAP, "gap", "a spread of 5 mm"),
        (SHARES, "shown, meant", "5 % to 8 % higher than the meant"),
        (PER_LENGTH, "wales, courses", "within 10 % of the number of courses per metre"),
        (RIM, "gap, rim", "the gap is within 5 % to 10 % of the rim"),
        (RIM, "gap, rim", "the gap is within 110 % to 125 % of the rim"),
        (RIM, "gap, rim", "the gap is within 80 mm to 125 % of the rim"),
        ("N, M  in mol/L", "N, M", "M ≤ N ≤ 2M"),
        ("N, x  length in mm", "N, x", "N ≤ 2g"),
        (RIM, "gap, rim", "the gap is at most 5 mm, including the rim"),
        (RIM, "gap, rim", "the gap is at least 5 mm, excluding the rim"),
        (RIM, "gap, rim", "the gap is 2 to 5 mm, not including the rim"),
        (RIM, "gap, rim", "the gap, not counting the rim, is at most 5 mm"),
        (RIM, "gap, rim", "the gap is at least 5 mm except for the rim"),
        (SHARES, "shown, meant", "at most 5 wt%, with the exception of the meant"),
        (SHARES, "shown, meant", "at least 5 wt% of shown but not meant"),
        (SHARES, "shown, meant", "at least 5 wt% of shown, of which meant makes up no more than a half"),
        (SHARES, "shown, meant", "at least 5 wt% of shown, of which meant makes up no more than 20 %"),
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


HEATED = "heating  step in min\n  temperature  temperature in degC\n  pressure  pressure in bar"
VALVE = "valve  one of open, closed\npressure  pressure in bar"


@pytest.mark.parametrize(
    ("declared", "left", "words", "labels"),
    [
        *(
            ("injection  part, 1 to 4\n  moment  time in h", "moment of the injections", words,
             ["from the first to the last", "each by then, from the start on"])
            for words in ("within seven days", "in seven days", "within a period of seven days",
                          "all within 48 hours", "over at most seven days",
                          "over a period of less than 48 hours")
        ),
        *(
            ("injection  part, 1 to 4\n  moment  time in h", "moment of the injections", words,
             ["from the first to the last", "so long from the first to the last",
              "each by then, from the start on"])
            for words in ("over a period of seven days", "for seven days", "over seven days")
        ),
        ("rib  part, 1 to 4\n  firing time  time in h", "firing time of the ribs", "over seven days",
         ["strict, exact", "strict after rounding", "beyond tolerance", "end in",
          "down to all that rounds to it"]),
        ("rib  part, 1 to 4\n  height  length in mm", "height of the ribs", "within 5 mm",
         ["either side, end in", "either side, end out", "one side only", "the other side only",
          "rounds to the limit"]),
        ("injection  part, 1 to 4\n  moment  time in h", "moment of the injections", "each within 48 hours",
         ["either side, end in", "either side, end out", "one side only", "the other side only",
          "rounds to the limit"]),
        ("gap, rim  length in mm", "gap, rim", "between about 5 mm and the rim",
         ["lower end only", "ends out", "exactly"]),
        ("gap, rim  length in mm", "gap, rim", "from about 5 mm to the rim", ["lower end only", "exactly"]),
        ("gap  length in mm", "gap", "between about 5 mm and 9 mm",
         ["covers both ends", "lower end only", "lower end only, the upper rounds", "rounding only",
          "fixed share", "ends out", "exactly"]),
        (METALS, "metal", "either or both of zinc and tin", ["one or both", "one or both and no other"]),
        (METALS, "metal", "either of zinc and tin", ["one or both", "one or both and no other"]),
        (METALS, "metal", "at least one of zinc and tin",
         ["either will do", "one of each", "exactly one kind"]),
        ("metal  one of zinc, tin, iron", "metal", "either or both of zinc and tin", ["one or both"]),
        (METALS, "metal", "a metal other than tin",
         ["another, and none of them", "something that is not listed"]),
        (METALS, "metal", "a metal other than tin and zinc",
         ["another, and none of them", "something that is not listed",
          "another, and not all of them together"]),
        (METALS, "metal", "the metal is not tin",
         ["another, and none of them", "none of them", "something that is not listed"]),
        (METALS, "metal", "except tin", ["none of them", "something that is not listed"]),
        (SHARES, "shown, meant", "within 5 % of the meant",
         ["ends in", "ends out", "relative", "relative, ends out", "above only", "below only",
          "rounds to the limit"]),
        (PLAIN, "shown, meant", "within 5 % of the meant", ["relative", "relative, ends out"]),
        (PLAIN, "shown, meant", "within 5 of the meant",
         ["ends in", "ends out", "above only", "below only", "rounds to the limit"]),
        ("wax  share in wt%", "wax", "optionally 1 to 2 wt% of a wax",
         ["none of it, or within the limit", "not limiting"]),
        (VALVE, "valve, pressure", "the valve does not open unless the pressure exceeds 5 bar",
         ["wherever it does not hold", "there, and only there"]),
        (VALVE, "valve, pressure", "the valve is closed except when the pressure exceeds 5 bar",
         ["wherever it does not hold", "it does not hold, and the limit"]),
        ("ratio  number \"signal-to-noise ratio\"", "ratio", "better than 60", ["more than that"]),
        ("ratio  number", "ratio", "better than 60", ["more than that", "less than that"]),
        ("loss  number \"loss of efficiency\"", "loss", "60 or better", ["at most that", "at least that"]),
        ("resolution  in bit", "resolution", "12 bit or better", ["at most that", "at least that"]),
        # what is after something is not before it
        (STEPS, "drying", "started no more than 1 minute after the soaking",
         ["by the clock, from its end", "by the clock, from its beginning"]),
        (STEPS, "drying", "started within 1 minute of the soaking",
         ["by the clock, from its end", "by the clock, from its beginning", "before or after"]),
        (STEPS, "soaking, drying", "comprising the successive steps of",
         ["each over before the next begins", "those that are done", "each begun before the next begins"]),
        (STEPS, "duration of drying", "held for 12 to 15 minutes", ["both ends in", "rounds to the ends"]),
    ],
)  # fmt: skip
def test_the_readings_are_these(declared: str, left: str, words: str, labels: list[str]) -> None:
    made = sheet(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert labels in [[r.label for r in g.readings] for g in made.groups]


@pytest.mark.parametrize(("profile", "standing"), [("US examination", "strained"), ("US court", "arguable")])
def test_that_one_is_only_one_may_be_argued_in_court(profile: str, standing: str) -> None:
    (made,) = sheet(f"profile {profile}\n\ncups  count\n\n1. A thing, a cup.\n   | cups : a cup\n").groups
    assert [(r.label, r.standing) for r in made.readings][1:] == [("exactly one", standing)]


@pytest.mark.parametrize(
    ("declared", "left", "words", "there"),
    [
        (GAP, "gap", "not above 80 mm", True),
        (GAP, "gap", "not further than 80 mm", False),
        (f"{VALVE}\n{GAP}", "valve, gap", "the valve is open if the gap is not above 80 mm", False),
        (
            f"{VALVE}\n{GAP}",
            "gap, pressure",
            "the gap is not above 80 mm if the pressure exceeds 5 bar",
            True,
        ),
        ("power  in dBm", "power", "up to 14 dBm", False),
        ("sound  in dBA", "sound", "not exceeding 40 dBA", False),
    ],
)
def test_where_some_of_it_may_have_to_be_there(declared: str, left: str, words: str, there: bool) -> None:
    made = sheet(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert there is ("must be present" in [r.label for g in made.groups for r in g.readings])


@pytest.mark.parametrize(
    ("words", "presumed"),
    [
        ("to below 60 °C", ["by its end"]),
        ("heated to 60 °C", ["by its end", "at its peak"]),
        ("cooled to 60 °C", ["by its end", "at its lowest"]),
    ],
)
def test_what_is_brought_to_a_value_has_it_in_the_end(words: str, presumed: list[str]) -> None:
    left = "temperature of heating"
    made = sheet(f"{HEATED}\n\n1. A method, {words}.\n   | {left} : {words}\n")
    moments = next(g for g in made.groups if "by its end" in [r.label for r in g.readings])
    assert [r.label for r in moments.readings if r.standing == "presumed"] == presumed


def test_two_values_of_a_step_may_be_meant_at_each_moment() -> None:
    words = "is at least 60 °C whenever the pressure is at most 5 bar"
    left = "temperature of heating, pressure of heating"
    made = sheet(f"{HEATED}\n\n1. A method, which {words}.\n   | {left} : {words}\n")
    assert "at each moment by itself" in made.groups[-1].not_computed
    words = "the gap is at least 2 mm whenever the rim is at most 5 mm"
    made = sheet(f"{RIM}\n\n1. A thing, wherein {words}.\n   | gap, rim : {words}\n")
    assert not [g for g in made.groups if "at each moment by itself" in g.not_computed]


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        ("air  share in vol%", "air", "less than 10% of air by volume", False),
        ("air  share in vol%", "air", "less than 10% of air", True),
        ('metal  share in wt% "ruthenium"\nheating  step in h', "metal", "0.5 to 5% of ruthenium", True),
    ],
)
def test_a_basis_that_the_words_have_is_no_open_one(declared: str, left: str, words: str, told: bool) -> None:
    text = f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"
    made, diagnostics = read_sheet(Source("test", text))
    assert made is not None
    assert told is any("percent of what" in d.message for d in diagnostics)


WARM_SOAKING = "soaking  step in min\n  warmth  temperature in degC"
RIBS = "rib  part, 1 to 2\n  height  length in mm"
NOT_ALL_HIGHER = "not (if ribs >= 1 then height of rib 1 > 3 mm and if ribs >= 2 then height of rib 2 > 3 mm)"


@pytest.mark.parametrize(
    ("declared", "left", "words", "said"),
    [
        (WARM_SOAKING, "warmth of soaking", "not always above 40 °C",
         "not (lowest warmth of soaking > 40 degC and highest warmth of soaking > 40 degC)"),
        (WARM_SOAKING, "warmth of soaking", "the warmth is not at all times below 40 °C",
         "not (lowest warmth of soaking < 40 degC and highest warmth of soaking < 40 degC)"),
        (WARM_SOAKING, "warmth of soaking", "does not always exceed 40 °C",
         "not (lowest warmth of soaking > 40 degC and highest warmth of soaking > 40 degC)"),
        (WARM_SOAKING, "warmth of soaking", "is not always at least 40 °C",
         "not (lowest warmth of soaking >= 40 degC and highest warmth of soaking >= 40 degC)"),
        # what is always not so, or at no time, is never so
        (WARM_SOAKING, "warmth of soaking", "always not above 40 °C",
         "(lowest warmth of soaking <= 40 degC and highest warmth of soaking <= 40 degC)"),
        (WARM_SOAKING, "warmth of soaking", "not above 40 °C at any time",
         "(lowest warmth of soaking <= 40 degC and highest warmth of soaking <= 40 degC)"),
        (WARM_SOAKING, "warmth of soaking", "does not exceed 40 °C at all times",
         "(lowest warmth of soaking <= 40 degC and highest warmth of soaking <= 40 degC)"),
        (RIBS, "height of rib", "not always higher than 3 mm", NOT_ALL_HIGHER),
        (RIBS, "height of rib", "the height is not always higher than 3 mm", NOT_ALL_HIGHER),
    ],
)  # fmt: skip
def test_what_is_not_always_so_may_be_so_at_times(declared: str, left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(declared, left, words) == said
    labels = {label for of in presumed_labels(declared, left, words) for label in of}
    assert labels.isdisjoint(("at least one of them", "their mean", "at its peak", "on average"))


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (GAP, "gap", "not always above 40 mm"),
        (GAP, "gap", "not at all times at least 40 mm"),
        (GAP, "gap", "never always above 40 mm"),
        (GAP, "gap", "is not always between 20 and 40 mm"),
        (GAP, "gap", "above 40 mm, but not always"),
        (WARM_SOAKING, "warmth of soaking", "never always above 40 °C"),
        (WARM_SOAKING, "warmth of soaking", "not everywhere above 40 °C"),
        (WARM_SOAKING, "warmth of soaking", "above 40 °C but not at all times"),
        (WARM_SOAKING, "warmth of soaking", "not always above 40 °C and below 60 °C"),
        (WARM_SOAKING, "warmth of soaking", "not always above 40 °C or below 20 °C"),
        (WARM_SOAKING, "warmth of soaking", "not always above 40 °C but at most 60 °C"),
        (f"{WARM_SOAKING}\n{GAP}", "warmth of soaking, gap",
         "when the gap exceeds 3 mm, the warmth is not always above 40 °C"),
    ],
)  # fmt: skip
def test_what_is_not_always_so_of_what_has_no_times_is_refused(declared: str, left: str, words: str) -> None:
    assert presumed_in_symbols(declared, left, words) == ""


@pytest.mark.parametrize(
    ("declared", "left", "words", "within", "outside"),
    [
        (
            "received power  in dBm\nretries  count",
            "received power, retries",
            "if the received power falls below -110 dBm, retransmitting the data packet up to three times",
            "received power = -120 dBm, retries = 3",
            "received power = -120 dBm, retries = 4",
        ),
        (
            "received power  in dBm\nretries  count",
            "retries, received power",
            "resending the packet no more than twice if the received power falls below -110 dBm",
            "received power = -120 dBm, retries = 2",
            "received power = -120 dBm, retries = 3",
        ),
        (
            "retries  count",
            "retries",
            "the packet is resent three times at most",
            "retries = 3",
            "retries = 4",
        ),
        (
            "retries  count",
            "retries",
            "resending the packet between two and four times",
            "retries = 4",
            "retries = 5",
        ),
        (
            "retries  count",
            "retries",
            "after three unsuccessful retries at the latest",
            "retries = 3",
            "retries = 4",
        ),
        ("retries  count", "retries", "after three retries at the earliest", "retries = 3", "retries = 2"),
        (
            'sleeping  one of only yes, no  "the node is in the sleep mode"\ncharge  share in %',
            "sleeping, charge",
            "is in the sleep mode unless the charge is above 20 %",
            "charge = 20 %, sleeping = yes",
            "charge = 20 %, sleeping = no",
        ),
        (
            'sleeping  one of only yes, no  "the node is in the sleep mode"\ncharge  share in %',
            "sleeping",
            "is not in the sleep mode",
            "sleeping = no",
            "sleeping = yes",
        ),
        (
            "carbons  count",
            "carbons",
            "an alkyl group having 1 to 6 carbon atoms",
            "carbons = 6",
            "carbons = 7",
        ),
        (
            "carbon atoms  count",
            "carbon atoms",
            "a linear or branched alkyl group having at least 6 carbon atoms",
            "carbon atoms = 6",
            "carbon atoms = 5",
        ),
        (
            "carbon atoms  count",
            "carbon atoms",
            "a C1-C6 alkyl group",
            "carbon atoms = 1",
            "carbon atoms = 7",
        ),
        ("carbon atoms  count", "carbon atoms", "C1 to C6 alkyl", "carbon atoms = 6", "carbon atoms = 0"),
        (
            "oil  any of olive oil, rape oil, corn oil",
            "oil",
            "olive oil, alone or in combination with rape oil",
            "oil = olive oil",
            "oil = rape oil",
        ),
        (
            "oil  any of olive oil, rape oil, corn oil",
            "oil",
            "olive oil or corn oil, either alone or together with rape oil",
            "oil = corn oil",
            "oil = rape oil",
        ),
        (
            "switch  one of open, closed\nvoltage  voltage in V",
            "switch, voltage",
            "closed for voltages of 210 V to 250 V and open otherwise",
            "switch = closed, voltage = 250 V",
            "switch = closed, voltage = 251 V",
        ),
        (
            "switch  one of open, closed\nvoltage  voltage in V",
            "switch, voltage",
            "closed at voltages below 210 V, otherwise open",
            "switch = open, voltage = 210 V",
            "switch = open, voltage = 209 V",
        ),
        ("duty  share in %", "duty", "a duty cycle between 45 % and 55 %", "duty = 45 %", "duty = 56 %"),
        ("version  count", "version", "a version number larger than 7", "version = 8", "version = 7"),
        ("depth  count", "depth", "a recursion depth of at most twelve levels", "depth = 12", "depth = 13"),
        (
            "nitrogen, phosphorus, potassium  share in wt%",
            "nitrogen, phosphorus, potassium",
            "at least two out of nitrogen, phosphorus and potassium are each contained at 4 wt% or above",
            "nitrogen = 4 wt%, phosphorus = 5 wt%, potassium = 1 wt%",
            "nitrogen = 4 wt%, phosphorus = 3 wt%, potassium = 3 wt%",
        ),
        (
            "layers  count",
            "layers",
            "an even number of conductive layers, that number being six or more",
            "layers = 6",
            "layers = 4",
        ),
        (
            "rebar, cover  length in mm",
            "rebar, cover",
            "a cover of at least the greater of 25 mm and 1.5 times the rebar diameter",
            "rebar = 20 mm, cover = 30 mm",
            "rebar = 20 mm, cover = 29 mm",
        ),
        (
            "row, plant  length in cm",
            "row, plant",
            "the row spacing is not less than the larger of 12 cm and three times the plant spacing",
            "row = 15 cm, plant = 5 cm",
            "row = 14 cm, plant = 5 cm",
        ),
        (
            "spraying, harvest  event in day",
            "spraying, harvest",
            "the spraying precedes the harvest by 21 days or more",
            "spraying at 0 day, harvest at 21 day",
            "spraying at 0 day, harvest at 20 day",
        ),
        (
            "spraying, harvest  event in day",
            "spraying, harvest",
            "the harvest follows the spraying by at least 21 days",
            "spraying at 0 day, harvest at 21 day",
            "spraying at 0 day, harvest at 20 day",
        ),
        (
            "amine, epoxide  amount in mol",
            "amine, epoxide",
            "a ratio of amine to epoxide of 0.95 to 1.05 : 1",
            "amine = 0.95 mol, epoxide = 1 mol",
            "amine = 0.94 mol, epoxide = 1 mol",
        ),
        (
            "amine, epoxide  amount in mol",
            "amine, epoxide",
            "a ratio of epoxide to amine of 1:1-2",
            "amine = 2 mol, epoxide = 1 mol",
            "amine = 1 mol, epoxide = 2 mol",
        ),
        (
            "Mw, Mn  molar mass in g/mol",
            "Mw, Mn",
            "a polydispersity Mw/Mn of from 1.05 up to less than 1.6",
            "Mw = 1.5 g/mol, Mn = 1 g/mol",
            "Mw = 1.6 g/mol, Mn = 1 g/mol",
        ),
        (
            "resin, filler  mass in g",
            "resin, filler",
            "30 to 45 parts by mass of the filler relative to 100 parts by mass of the resin",
            "resin = 100 g, filler = 45 g",
            "resin = 100 g, filler = 46 g",
        ),
        (
            "f1, f2  length in mm",
            "f1, f2",
            "the following conditional expression is satisfied: 0.7 < f1/f2 < 1.3",
            "f1 = 6 mm, f2 = 5 mm",
            "f1 = 6.5 mm, f2 = 5 mm",
        ),
        (
            "hardness  number",
            "hardness",
            "a hardness that is nowhere lower than 60 and nowhere higher than 75",
            "hardness = 75",
            "hardness = 76",
        ),
        ("key  data in bit", "key", "a key length of at least 128 bits", "key = 128 bit", "key = 64 bit"),
        ("struts  count", "struts", "each ring consists of eight struts", "struts = 8", "struts = 9"),
        (
            "alarm  one of only yes, no\ndrift  length in mm",
            "alarm, drift",
            "an alarm is output in a case where the drift is equal to or larger than 4 mm",
            "alarm = yes, drift = 4 mm",
            "alarm = no, drift = 4 mm",
        ),
        (
            "alarm  one of only yes, no\ndrift  length in mm",
            "alarm, drift",
            "the alarm is on except in the case where the drift is larger than 4 mm",
            "alarm = no, drift = 5 mm",
            "alarm = no, drift = 4 mm",
        ),
        ("gap  length in mm", "gap", "a gap selected from among 5 and 10 mm", "gap = 5 mm", "gap = 7 mm"),
        (
            "D10, D50, D90  length in um",
            "D10, D50, D90",
            "a span, defined as (D90 - D10)/D50, of 1.8 or below",
            "D10 = 1 um, D50 = 5 um, D90 = 10 um",
            "D10 = 1 um, D50 = 5 um, D90 = 10.5 um",
        ),
        (
            "D10, D50, D90  length in um",
            "D10, D50, D90",
            "a particle size span of (D90 - D10)/D50 of 1.8 or below",
            "D10 = 1 um, D50 = 5 um, D90 = 10 um",
            "D10 = 1 um, D50 = 5 um, D90 = 10.5 um",
        ),
    ],
)
def test_what_a_practitioner_lifts_is_read(
    declared: str, left: str, words: str, within: str, outside: str
) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (
            "received power, noise  in dBm\nretries  count",
            "received power, noise, retries",
            "the received power is at least twice the noise if the retries exceed 3",
        ),
        ("retries  count", "retries", "not resending the packet more than three times"),
        ("retries  count", "retries", "without resending the packet more than three times"),
        ("retries  count", "retries", "increasing the power up to three times"),
        ("retries  count", "retries", "resending the packet to two nodes up to three times"),
        ("retries  count", "retries", "not after three retries at the latest"),
        ("retries  count", "retries", "after at least three retries at the latest"),
        (
            'sleeping  one of only yes, no  "the node is in the sleep mode"\ncharge  share in %',
            "sleeping, charge",
            "is in the wake mode unless the charge is above 20 %",
        ),
        ("carbon atoms  count", "carbon atoms", "a group of alkyls having at least 6 carbon atoms"),
        ("carbon atoms  count", "carbon atoms", "an alkyl group not having 1 to 6 carbon atoms"),
        (
            "carbon atoms  count",
            "carbon atoms",
            "an alkyl group having 1 to 6 carbon atoms and a hydroxyl group",
        ),
        ("carbon atoms  count", "carbon atoms", "C1-C6 alkyl or C2-C6 alkenyl"),
        ("carbon atoms  count", "carbon atoms", "no C1-C6 alkyl"),
        ("carbon atoms  count", "carbon atoms", "the carbon atoms C1 to C6"),
        ("bolts  count", "bolts", "C1-C6 alkyl"),
        (
            "oil  any of olive oil, rape oil, corn oil",
            "oil",
            "not olive oil, alone or in combination with rape oil",
        ),
        ("oil  any of olive oil, rape oil, corn oil", "oil", "not olive oil with or without rape oil"),
        (
            "oil  any of olive oil, rape oil, corn oil",
            "oil",
            "free of olive oil, alone or in combination with rape oil",
        ),
        (
            "switch  one of open, closed\nhold  duration in s",
            "switch, hold",
            "closed for at least 5 s and open otherwise",
        ),
        ("oil  share in wt%", "oil", "an oil phase between 5 wt% and 7 wt%"),
        ("oil  volume in mL", "oil", "an oil phase between 5 mL and 7 mL"),
        ("rim  length in mm", "rim", "a rim flange thicker than 3 mm"),
        (
            "nitrogen, phosphorus, potassium  share in wt%",
            "nitrogen, phosphorus, potassium",
            "none of nitrogen, phosphorus and potassium are each contained at 4 wt% or above",
        ),
        (
            "nitrogen, phosphorus, potassium  share in wt%",
            "nitrogen, phosphorus, potassium",
            "at least two of nitrogen, phosphorus and potassium are together contained at 4 wt% or above",
        ),
        ("layers  count", "layers", "an even number of layers, half that number being six or more"),
        ("layers  count", "layers", "an even number of layers, that number not being six"),
        ("row, plant  length in cm", "row, plant", "the row spacing exceeds the plant depth"),
        ("row, plant  length in cm", "row, plant", "the row spacing exceeds the plant"),
        (
            "row, plant  length in cm\nrow spacing  length in cm",
            "row, plant",
            "the row spacing exceeds the plant spacing",
        ),
        ("rebar, cover  length in mm", "rebar, cover", "the cover overlaps the rebar by at least 5 mm"),
        (
            "spraying, harvest  event in day",
            "spraying, harvest",
            "the spraying precedes the harvest by less than 21 days",
        ),
        (
            "spraying, harvest  event in day",
            "spraying, harvest",
            "the spraying does not precede the harvest by 21 days or more",
        ),
        ("amine, epoxide  amount in mol", "amine, epoxide", "a ratio of amine to epoxide of 1-2:1-3"),
        ("amine, epoxide  amount in mol", "amine, epoxide", "a ratio of amine to epoxide of 1-2:3"),
        (
            "f1, f2  length in mm",
            "f1, f2",
            "the following conditional expression is not satisfied: 0.7 < f1/f2 < 1.3",
        ),
        ("struts  count", "struts", "not each ring has eight struts"),
        ("struts  count", "struts", "each pair of rings has eight struts"),
        ("total struts  count", "total struts", "each ring has eight struts"),
        ("key size  data in bit", "key size", "a key length of at least 128 bits"),
        (
            "D10, D50, D90  length in um",
            "D10, D50, D90",
            "a span, not defined as (D90 - D10)/D50, of 1.8 or below",
        ),
        (
            "D10, D50, D90  length in um",
            "D10, D50, D90",
            "a span, defined as (D90 - D10)/D50 squared, of 1.8 or below",
        ),
    ],
)
def test_what_is_close_to_it_and_says_something_else_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    ("declared", "left", "words", "written"),
    [
        ("dose  mass in mg\narea  area in cm2", "dose, area",
         "between 1 and 20 mg of the active ingredient per cm2 of film", "dose per area  in mg/cm2"),
        ("dose  mass in mg\narea  area in cm2", "dose, area", "between 1 and 20 mg per cm2 of film",
         "dose per area  in mg/cm2"),
        ("dose  mass in mg", "dose", "2 to 5 mg of the extract per gram of tablet", "dose per gram  in mg/g"),
    ],
)  # fmt: skip
def test_so_much_per_something_is_told_to_be_one_quantity(
    declared: str, left: str, words: str, written: str
) -> None:
    source = Source("t.sheet", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    made, found = read_sheet(source)
    assert made is None
    assert any(f"{written}; and write: " in d.help for d in with_edits_tried(source, found))


def test_steps_in_an_order_may_be_begun_in_it_and_overlap() -> None:
    words = "carried out in the order given"
    text = f"{STEPS}\n\n1. A method, {words}.\n   | soaking, drying : {words}\n"
    read, _ = read_sheet(Source("t", text))
    assert read is not None
    (group,) = read.groups
    told = {r.label: r.standing for r in group.readings}
    assert told["each over before the next begins"] == "presumed"
    assert told["each begun before the next begins"] == "arguable"


@pytest.mark.parametrize(
    ("facts", "met"),
    [
        ("soaking from 0 to 30 min, drying from 10 to 60 min", True),
        ("soaking from 0 to 30 min, drying from 30 to 60 min", True),
        ("soaking from 10 to 30 min, drying from 10 to 60 min", False),
        ("soaking from 20 to 30 min, drying from 0 to 10 min", False),
    ],
)
def test_begun_in_an_order_is_no_more_than_that(facts: str, met: bool) -> None:
    words = "each begun before the next one listed begins, over or not, and all carried out"
    for line in (words, f"{words[:10]}  exactly  BEGUN(soaking, drying)"):
        text = f"{STEPS}\n\n1. A method, {words}.\n   | soaking, drying : {line}\n"
        cases = f"\ninside\n  one : {facts}\n"
        found = {f.question for f in ask_all(sheet(text + cases)).findings}
        assert ("inside lost" in found) is not met


SWITCHED = "valve open  one of only yes, no\npressure  pressure in bar"
FIRST_OR = ["the second only there", "either, and only there", "the condition holds, and either"]
THREE_METALS = "zinc, tin and copper"
BATH = "wax, oil, gum  share in wt%"
FOUR_STEPS = "milling, drying, pressing, coating  step in min"
POWER = "power  power in W"
IN_A_ROW = "milling from 0 to 5 min, drying from 5 to 9 min, pressing from 9 to 12 min"
NOT_IN_A_ROW = "drying from 0 to 5 min, milling from 5 to 9 min, pressing from 9 to 12 min"


@pytest.mark.parametrize(
    ("declared", "left", "words", "within", "outside"),
    [
        # the condition is one of the second limit, where the first one may hold
        (RIM, "gap, rim", "at most 2 mm or at most 4 mm if the rim exceeds 5 mm",
         "gap = 3 mm, rim = 6 mm", "gap = 10 mm, rim = 3 mm"),
        (RIM, "gap, rim", "2 to 3 mm or 4 to 5 mm at a rim of at least 5 mm",
         "gap = 4 mm, rim = 6 mm", "gap = 4 mm, rim = 3 mm"),
        (RIM, "gap, rim", "at most 2 mm or at most 4 mm unless the rim exceeds 5 mm",
         "gap = 3 mm, rim = 3 mm", "gap = 3 mm, rim = 6 mm"),
        (RIM, "gap, rim", "at most 2 mm or at most 4 mm only if the rim exceeds 5 mm",
         "gap = 1 mm, rim = 3 mm", "gap = 3 mm, rim = 3 mm"),
        (RIM, "gap, rim", "2 to 4 mm or 4 to 6 mm provided that the rim exceeds 5 mm",
         "gap = 3 mm, rim = 1 mm", "gap = 5 mm, rim = 1 mm"),
        # but not of a number that belongs to one limit with the first
        ("holes  count\nrim  length in mm", "holes, rim", "two or three holes if the rim exceeds 5 mm",
         "holes = 0, rim = 3 mm", "holes = 1, rim = 6 mm"),
        (f"{METALS}\nrim  length in mm", "metal, rim", "at least one of zinc or tin if the rim exceeds 5 mm",
         "metal = {steel}, rim = 3 mm", "metal = {steel}, rim = 6 mm"),
        # a limit behind the condition is one of the gap where it says nothing more of the rim
        (RIM, "gap, rim", "at most 4 mm if the rim is at least 5 mm, but at least 2 mm",
         "gap = 6 mm, rim = 3 mm", "gap = 1 mm, rim = 6 mm"),
        (RIM, "gap, rim", "at most 4 mm if the rim is at least 5 mm, but not less than 2 mm",
         "gap = 3 mm, rim = 6 mm", "gap = 1 mm, rim = 3 mm"),
        (RIM, "gap, rim", "at most 4 mm unless the rim is at least 5 mm, but at least 2 mm",
         "gap = 6 mm, rim = 6 mm", "gap = 1 mm, rim = 6 mm"),
        (RIM, "gap, rim", "at most 4 mm only if the rim is at least 5 mm, but at least 2 mm",
         "gap = 6 mm, rim = 3 mm", "gap = 1 mm, rim = 6 mm"),
        (RIM, "gap, rim", "the gap is at most 4 mm if the rim is at most 5 mm, but the gap is at least 2 mm",
         "gap = 3 mm, rim = 3 mm", "gap = 1 mm, rim = 6 mm"),
        ("gap  length in mm\nheat  temperature in degC", "gap, heat",
         "at most 4 mm at a heat of at least 50 °C, but at least 2 mm",
         "gap = 5 mm, heat = 20 degC", "gap = 1 mm, heat = 20 degC"),
        # and of the rim where it ends what stands before it
        (RIM, "gap, rim", "at most 4 mm if the rim is at least 5 mm, but at most 8 mm",
         "gap = 9 mm, rim = 9 mm", "gap = 9 mm, rim = 6 mm"),
        (RIM, "gap, rim", "at most 4 mm if the rim is between 5 mm and 8 mm",
         "gap = 9 mm, rim = 9 mm", "gap = 9 mm, rim = 6 mm"),
        # what a valve does up to a second value
        (SWITCHED, "valve open, pressure", "the valve opens above 5 bar but not above 8 bar",
         "valve open = yes, pressure = 6 bar", "valve open = yes, pressure = 9 bar"),
        (SWITCHED, "valve open, pressure", "the valve is closed below 5 bar but not below 2 bar",
         "valve open = yes, pressure = 1 bar", "valve open = no, pressure = 1 bar"),
        (SWITCHED, "valve open, pressure", "the valve opens above 5 bar and does not open above 8 bar",
         "valve open = no, pressure = 9 bar", "valve open = yes, pressure = 9 bar"),
        (SWITCHED, "valve open, pressure", "the valve opens above 5 bar and closes above 8 bar",
         "valve open = yes, pressure = 7 bar", "valve open = yes, pressure = 9 bar"),
        (SWITCHED, "valve open, pressure",
         "the valve opens when the pressure is above 5 bar but not when it is above 8 bar",
         "valve open = no, pressure = 9 bar", "valve open = yes, pressure = 9 bar"),
        (SWITCHED, "valve open, pressure", "the valve opens at more than 5 bar but not more than 8 bar",
         "valve open = yes, pressure = 9 bar", "valve open = yes, pressure = 5 bar"),
        (SWITCHED, "valve open, pressure", "the valve opens at 5 to 8 bar",
         "valve open = yes, pressure = 9 bar", "valve open = no, pressure = 9 bar"),
        # both numbers are of one list
        (METALS, "metal", f"at least one but not all of {THREE_METALS}",
         "metal = {tin, steel}", "metal = {steel}"),
        (METALS, "metal", f"one or more, but not all of {THREE_METALS}",
         "metal = {tin}", "metal = {zinc, tin, copper}"),
        (METALS, "metal", f"at least one but no more than two of {THREE_METALS}",
         "metal = {tin, zinc}", "metal = {steel}"),
        (METALS, "metal", f"at least one and at most two, of {THREE_METALS}",
         "metal = {tin, steel}", "metal = {zinc, tin, copper}"),
        (METALS, "metal", "at least one but not more than one of zinc and tin",
         "metal = {tin}", "metal = {zinc, tin}"),
        (METALS, "metal", f"at least one, preferably at least two of {THREE_METALS}",
         "metal = {tin}", "metal = {steel}"),
        (METALS, "metal", f"at least two and preferably all of {THREE_METALS}",
         "metal = {tin, zinc}", "metal = {tin, steel}"),
        (METALS, "metal", f"one or more but no more than two selected from {THREE_METALS}",
         "metal = {tin}", "metal = {tin, steel}"),
        (METALS, "metal", "at least two but not zinc", "metal = {tin, steel}", "metal = {zinc, tin}"),
        # such a word puts one step behind the others
        (FOUR_STEPS, "milling, drying, pressing, coating", "thereafter",
         f"{NOT_IN_A_ROW}, coating from 12 to 13 min", f"{IN_A_ROW}, coating from 1 to 2 min"),
        (FOUR_STEPS, "milling, drying, pressing, coating", "in this order",
         f"{IN_A_ROW}, coating from 12 to 13 min", f"{NOT_IN_A_ROW}, coating from 12 to 13 min"),
    ],
)  # fmt: skip
def test_how_far_a_condition_a_number_and_a_word_of_order_reach(
    declared: str, left: str, words: str, within: str, outside: str
) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words", "labels"),
    [
        (RIM, "gap, rim", "at most 2 mm or at most 4 mm if the rim exceeds 5 mm", FIRST_OR),
        (RIM, "gap, rim", "the gap is twice the rim or at least 3 mm if the rim is below 5 mm", FIRST_OR),
        (RIM, "gap, rim", "at most 2 mm and at least 1 mm if the rim exceeds 5 mm",
         ["both only there", "the first in any case", "the condition holds, and both"]),
        (RIM, "gap, rim", "at most 4 mm if the rim is at least 5 mm, but at least 2 mm",
         ["the first in any case", "both only there"]),
        (RIM, "gap, rim", "2 or 3 mm if the rim exceeds 5 mm",
         ["wherever it holds", "the condition holds, and the limit"]),
        (SWITCHED, "valve open, pressure", "the valve opens above 5 bar but not above 8 bar",
         ["there, and not where the second holds", "there, and nowhere else",
          "there, whatever it is elsewhere"]),
        (METALS, "metal", "any one or more of zinc and tin",
         ["any one suffices", "one of each", "exactly one kind"]),
        (METALS, "metal", "either zinc or tin",
         ["inclusive", "exclusive", "inclusive, and nothing else", "exclusive, and nothing else"]),
        ("metal  one of zinc, tin, iron", "metal", "either zinc or tin", ["inclusive"]),
        (METALS, "metal", "is not either zinc or tin",
         ["none of them", "not all of them together", "not exactly one of them",
          "something that is not listed"]),
        (BATH, "wax, oil, gum", "at least two of wax, oil and gum each in an amount of at least 2 wt%",
         ["so many there, each that is there so", "so many so, the others free"]),
        (BATH, "wax, oil, gum", "at least one of wax, oil and gum, each in an amount of at least 2 wt%",
         ["each that is there", "one so, the others free"]),
        (BATH, "wax, oil", "at least one of wax and oil, each in an amount of at least 2 wt%",
         ["each that is there", "one so, the other free"]),
        (FOUR_STEPS, "milling, drying, pressing, coating", "and then",
         ["the last one behind all others", "each over before the next begins"]),
    ],
)  # fmt: skip
def test_the_readings_of_what_may_reach_further_are_these(
    declared: str, left: str, words: str, labels: list[str]
) -> None:
    made = sheet(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert labels in [[r.label for r in g.readings] for g in made.groups]


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (RIM, "gap, rim", "at most 4 mm if the rim is at most 5 mm, but at least 2 mm"),
        (RIM, "gap, rim", "at most 4 mm if the rim is at least 5 mm, but not 3 mm"),
        (METALS, "metal", f"at least two but at most one of {THREE_METALS}"),
        (METALS, "metal", "zinc-free copper"),
        (METALS, "metal", "nickel-free copper or zinc"),
        (METALS, "metal", "pure copper"),
        (METALS, "metal", "binary copper and zinc"),
        (METALS, "metal", "zinc-coated copper"),
        (POWER, "power", "a power reserve of at least 20 W"),
        (POWER, "power", "the power fluctuates by at least 20 W"),
        (POWER, "power", "a power of initially at least 20 W"),
        ("pressure  pressure in bar", "pressure", "a differential pressure of at least 5 bar"),
        ("delay  time in ms", "delay", "a 99th percentile delay of less than 20 ms"),
        (FOUR_STEPS, "coating", "thereafter"),
    ],
)
def test_what_may_reach_further_or_says_more_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


def test_a_step_after_others_is_told_to_name_them() -> None:
    (told,) = errors(f"{FOUR_STEPS}\n\n1. A method, thereafter coating.\n   | coating : thereafter\n")
    assert told.help == (
        "write: pressing, coating : thereafter; or of all others, write: coating : after milling, drying and"
        " pressing"
    )


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        (
            "delay  time in ms",
            "delay",
            "an average delay of less than 20 ms",
            "'average' is taken as said of",
        ),
        ("delay  time in ms", "delay", "a mean delay of less than 20 ms", "'mean' is taken as said of"),
        ('delay  time in ms  "average"', "delay", "a mean delay of less than 20 ms", ""),
        (POWER, "power", "a cumulative power of at least 20 W", "'cumulative' is taken as said of"),
        (POWER, "power", "a total power of at least 20 W", "'total' is taken as said of"),
        (POWER, "power", "a power of at least 20 W in total", "'in total' is taken as said of"),
        ('power  power in W  "in total"', "power", "at least 20 W in total", ""),
        ('power  power in W  "of all lamps in total"', "power", "a total power of at least 20 W", ""),
        ("wax  share in wt%", "wax", "a total wax content of at least 2 wt%", ""),
        (f"{GAP}\n{METALS}", "gap, metal", "at least 2 mm if the metal is free of copper", ""),
    ],
)
def test_an_average_or_a_sum_that_nothing_declares_is_told(
    declared: str, left: str, words: str, told: str
) -> None:
    text = f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"
    made, diagnostics = read_sheet(Source("test", text))
    assert made is not None
    messages = [d.message for d in diagnostics if " is taken as " in d.message or " is read as " in d.message]
    assert [m.startswith(told) for m in messages] == ([True] if told else [])


TAP = "valve open  one of only yes, no\npressure  pressure in bar"
OF_TAP = "valve open, pressure"
OIL = "oil  share in wt%"
HOLES = "holes  count"
PRESSED = "pressure  pressure in bar\ntemperature  temperature in degC"
OF_METAL = "gap  length in mm\nmetal  one of copper, zinc, tin"
RINSED = "rinsing  step in min"


@pytest.mark.parametrize(
    ("declared", "left", "words", "said"),
    [
        (GAP, "gap", "preferably 3 to 5 mm but at most 8 mm", "(TRUE and gap <= 8 mm)"),
        (GAP, "gap", "preferably 3 to 5 mm, but not less than 2 mm", "(TRUE and gap >= 2 mm)"),
        (GAP, "gap", "preferably 3 to 5 mm and at most 8 mm", "(TRUE and gap <= 8 mm)"),
        (GAP, "gap", "preferably 3 mm, but at least 2 mm and at most 8 mm",
         "(TRUE and (gap >= 2 mm and gap <= 8 mm))"),
        (HOLES, "holes", "preferably an even number of holes, but at least three",
         "(TRUE and holes >= three)"),
        (OIL, "oil", "preferably free of oil but at most 5 wt% of oil", "(TRUE and oil <= 5 wt%)"),
        (RIM, "gap, rim", "preferably at most 2 mm, but less than the rim", "(TRUE and gap < rim)"),
        (RIM, "gap, rim", "each of the gap and the rim is preferably 3 mm but at most 8 mm",
         "((TRUE and gap <= 8 mm) and (TRUE and rim <= 8 mm))"),
        (RIM, "gap, rim", "at least 2 mm if the rim is preferably below 5 mm but at most 8 mm",
         "if (TRUE and rim <= 8 mm) then gap >= 2 mm"),
        (GAP, "gap", "preferably at least 3 mm and at most 5 mm", "TRUE"),
        (GAP, "gap", "at most 8 mm, preferably 3 to 5 mm but at least 2 mm", "(gap <= 8 mm and gap >= 2 mm)"),
        (GAP, "gap", "2 to 8 mm, preferably 3 to 6 mm, more preferably 4 to 5 mm but not more than 7 mm",
         "((2 mm <= gap and gap <= 8 mm) and gap <= 7 mm)"),
        (HOLES, "holes", "at least two, preferably four but not more than six holes",
         "(holes >= two and holes <= six)"),
        (GAP, "gap", "at most 8 mm, preferably at most 5 mm, or at least 12 mm",
         "(gap <= 8 mm or gap >= 12 mm)"),
        (GAP, "gap", "2 to 4 mm, preferably 3 mm, or 6 to 8 mm",
         "((2 mm <= gap and gap <= 4 mm) or (6 mm <= gap and gap <= 8 mm))"),
        (GAP, "gap", "2 to 4 mm, preferably 3 mm, or 6 to 8 mm, preferably 7 mm",
         "((2 mm <= gap and gap <= 4 mm) or (6 mm <= gap and gap <= 8 mm))"),
        (GAP, "gap", "2 to 8 mm, or more preferably 3 to 5 mm",
         "(2 mm <= gap and gap <= 8 mm)"),
        (RINSED, "rinsing", "for 5 minutes, preferably 10 minutes, or at least 20 minutes",
         "(TRUE and (ROUND(duration of rinsing TO 1 min, HALF AWAY) = 5 min or duration of rinsing >= 20 "
         "min))"),
        (GAP, "gap", "preferably 3 mm or 5 mm", "TRUE"),
        (GAP, "gap", "between 2 and 4 mm or 6 and 8 mm",
         "((2 mm <= gap and gap <= 4 mm) or (6 mm <= gap and gap <= 8 mm))"),
        (GAP, "gap", "between 2 and 4 mm and 6 and 8 mm",
         "((2 mm <= gap and gap <= 4 mm) or (6 mm <= gap and gap <= 8 mm))"),
        (GAP, "gap", "between 2 and 4 mm, 6 and 8 mm or 10 and 12 mm",
         "((2 mm <= gap and gap <= 4 mm) or (6 mm <= gap and gap <= 8 mm) or (10 mm <= gap and gap <= 12 "
         "mm))"),
        (GAP, "gap", "between 2 and 4 mm, preferably 3 and 3.5 mm", "(2 mm <= gap and gap <= 4 mm)"),
        (GAP, "gap", "not between 2 and 4 mm or 6 and 8 mm",
         "not ((2 mm <= gap and gap <= 4 mm) or (6 mm <= gap and gap <= 8 mm))"),
        (GAP, "gap", "between 2 and 4 mm or 6 mm",
         "((2 mm <= gap and gap <= 4 mm) or ROUND(gap TO 1 mm, HALF AWAY) = 6 mm)"),
        (HOLES, "holes", "between two and four holes or seven and nine holes",
         "((two <= holes and holes <= four) or (seven <= holes and holes <= nine))"),
        (RINSED, "rinsing", "for between 2 and 4 minutes or 1 and 2 hours",
         "(TRUE and ((2 min <= duration of rinsing and duration of rinsing <= 4 min) or (1 h <= duration "
         "of rinsing and duration of rinsing <= 2 h)))"),
        (RIM, "gap, rim", "the gap is between 20 and 30 % or 40 and 50 % of the rim",
         "((20 % <= gap / rim and gap / rim <= 30 %) or (40 % <= gap / rim and gap / rim <= 50 %))"),
        (RIM, "gap, rim", "the gap and the rim are between 2 and 4 mm and 6 and 8 mm, respectively",
         "((2 mm <= gap and gap <= 4 mm) and (6 mm <= rim and rim <= 8 mm))"),
        (RIM, "gap, rim", "at least 2 mm if the rim is between 1 and 2 mm or 5 and 6 mm",
         "if ((1 mm <= rim and rim <= 2 mm) or (5 mm <= rim and rim <= 6 mm)) then gap >= 2 mm"),
        (TAP, OF_TAP, "the valve is open between 2 and 3 bar and 5 and 6 bar",
         "if ((2 bar <= pressure and pressure <= 3 bar) or (5 bar <= pressure and pressure <= 6 bar)) "
         "then valve open = yes"),
        (TAP, OF_TAP, "the valve opens neither below 2 bar nor above 5 bar",
         "if (pressure < 2 bar or pressure > 5 bar) then valve open = no"),
        (TAP, OF_TAP, "the valve is closed at neither 2 bar nor 5 bar",
         "if (ROUND(pressure TO 1 bar, HALF AWAY) = 2 bar or ROUND(pressure TO 1 bar, HALF AWAY) = 5 "
         "bar) then valve open = yes"),
        (TAP, OF_TAP, "the valve opens at neither less than 2 bar nor more than 5 bar",
         "if (pressure < 2 bar or pressure > 5 bar) then valve open = no"),
        (TAP, OF_TAP,
         "the valve opens if the pressure is neither below 2 bar nor above 5 bar",
         "if (pressure >= 2 bar and pressure <= 5 bar) then valve open = yes"),
        (TAP, OF_TAP, "the valve opens only at neither less than 2 bar nor more than 5 bar",
         "if valve open = yes then (pressure >= 2 bar and pressure <= 5 bar)"),
        (TAP, OF_TAP,
         "the valve opens at a pressure of neither less than 2 bar nor more than 5 bar",
         "(if pressure >= 5 bar then valve open = yes and if pressure < 2 bar then not valve open = yes)"),
        (TAP, OF_TAP, "the valve is open below 2 bar and above 5 bar",
         "if (pressure < 2 bar or pressure > 5 bar) then valve open = yes"),
        (TAP, OF_TAP, "the valve is open below 2 bar, from 3 to 4 bar and above 5 bar",
         "if (pressure < 2 bar or (3 bar <= pressure and pressure <= 4 bar) or pressure > 5 bar) then "
         "valve open = yes"),
        (TAP, OF_TAP, "the valve is open below 2 bar and above 500 kPa",
         "if (pressure < 2 bar or pressure > 500 kPa) then valve open = yes"),
        (TAP, OF_TAP, "the valve opens only below two bar and above five bar",
         "if valve open = yes then (pressure < 2 bar or pressure > 5 bar)"),
        (TAP, OF_TAP, "the valve is open unless below 2 bar and above 5 bar",
         "((pressure < 2 bar or pressure > 5 bar) or valve open = yes)"),
        (TAP, OF_TAP, "the valve is open above 2 bar and below 5 bar",
         "if (pressure > 2 bar and pressure < 5 bar) then valve open = yes"),
        (TAP, OF_TAP, "the valve is open below 2 bar and closed above 5 bar",
         "(if pressure < 2 bar then valve open = yes and if pressure > 5 bar then valve open = no)"),
        (TAP, OF_TAP, "not open below 2 bar and not open above 5 bar",
         "(if pressure < 2 bar then valve open = no and if pressure > 5 bar then valve open = no)"),
        (RIM, "gap, rim", "at least 2 mm unless the rim is below 2 mm and above 5 mm",
         "((rim < 2 mm or rim > 5 mm) or gap >= 2 mm)"),
        (RIM, "gap, rim", "at least 2 mm if the rim is below 2 mm and at least 5 mm otherwise",
         "(if rim < 2 mm then gap >= 2 mm and if not rim < 2 mm then gap >= 5 mm)"),
        (RIM, "gap, rim", "at most 2 mm at a rim of 3 mm and at least 5 mm at a rim of 8 mm",
         "(if ROUND(rim TO 1 mm, HALF AWAY) = 3 mm then gap <= 2 mm and if ROUND(rim TO 1 mm, HALF AWAY) "
         "= 8 mm then gap >= 5 mm)"),
        (RIM, "gap, rim", "below 2 mm and above 5 mm if the rim is 3 mm",
         "if ROUND(rim TO 1 mm, HALF AWAY) = 3 mm then (gap < 2 mm and gap > 5 mm)"),
        (GAP, "gap", "below 2 mm and above 5 mm", "(gap < 2 mm and gap > 5 mm)"),
        (PRESSED, "pressure, temperature", "at least 2 bar at temperatures below 20 °C and above 40 °C",
         "if (temperature < 20 degC or temperature > 40 degC) then pressure >= 2 bar"),
        (PRESSED, "pressure, temperature", "at least 2 bar at temperatures above 20 °C and below 40 °C",
         "if (temperature > 20 degC and temperature < 40 degC) then pressure >= 2 bar"),
        (OF_METAL, "gap, metal", "at least 2 mm for both copper and zinc",
         "if (metal = copper or metal = zinc) then gap >= 2 mm"),
        (OF_METAL, "gap, metal", "at least 2 mm unless copper, zinc and tin",
         "((metal = copper or metal = zinc or metal = tin) or gap >= 2 mm)"),
        (OF_METAL, "gap, metal", "at least 2 mm for copper and at least 3 mm for zinc",
         "(if (metal = copper) then gap >= 2 mm and if (metal = zinc) then gap >= 3 mm)"),
        (OF_METAL, "gap, metal", "at least 2 mm for metals other than copper and zinc",
         "if not (metal = copper or metal = zinc) then gap >= 2 mm"),
        (GAP, "gap", "in the open interval from 2 to 4 mm", "(2 mm < gap and gap < 4 mm)"),
        (GAP, "gap", "in a left-open interval of 2 to 4 mm", "(2 mm < gap and gap <= 4 mm)"),
        (GAP, "gap", "in the closed interval from 2 to 4 mm", "(2 mm <= gap and gap <= 4 mm)"),
        (GAP, "gap", "not in the open interval from 2 to 4 mm", "not (2 mm < gap and gap < 4 mm)"),
        (RIM, "gap, rim", "at least 2 mm if the rim is in the right-open range of 2 to 4 mm",
         "if (2 mm <= rim and rim < 4 mm) then gap >= 2 mm"),
        (METALS, "metal", "not one of zinc and tin", "not (zinc IN metal or tin IN metal)"),
        (METALS, "metal", "not any one of zinc, tin and copper",
         "not (zinc IN metal or tin IN metal or copper IN metal)"),
        (METALS, "metal", "not exactly one of zinc and tin", "not (zinc IN metal xor tin IN metal)"),
    ],
)  # fmt: skip
def test_preferences_ranges_and_places_are_read_as_meant(
    declared: str, left: str, words: str, said: str
) -> None:
    assert presumed_in_symbols(declared, left, words) == said


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (GAP, "gap", "in the half-open interval from 2 to 4 mm"),
        (GAP, "gap", "no longer than 4 mm or shorter than 2 mm"),
        (GAP, "gap", "between 2 and 4 mm, 6 and 8 mm"),
        (GAP, "gap", "between 2 and 4 mm but not 3 and 3.5 mm"),
        (TAP, OF_TAP, "the valve opens not below 2 bar and not above 5 bar"),
        (TAP, OF_TAP, "the valve neither opens below 2 bar nor closes above 5 bar"),
        (PRESSED, "pressure, temperature", "at least 2 bar at neither 20 °C nor 40 °C"),
        (OF_METAL, "gap, metal", "at least 2 mm for neither copper nor zinc"),
    ],
)
def test_what_may_be_denied_in_two_ways_is_refused(declared: str, left: str, words: str) -> None:
    assert not presumed_in_symbols(declared, left, words)


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("preferably at least 3 mm but at most 5 mm", ["last limit alone", "both limits", "no limit"]),
        ("preferably 3 to 5 mm but not 4 mm", ["last limit alone", "both limits", "no limit"]),
        ("preferably 3 to 5 mm but at most 8 mm", ["no limit", "a limit"]),
        ("at most 8 mm, preferably at most 5 mm, but more than 1 mm", ["outer limit", "inner limit"]),
        ("at least 2 mm, preferably at least 3 mm, but not more than 8 mm", ["outer limit", "inner limit"]),
        ("2 to 4 mm or 3 to 8 mm, preferably 3.5 mm", ["outer limit", "inner limit"]),
    ],
)  # fmt: skip
def test_what_a_preference_goes_for(words: str, labels: list[str]) -> None:
    assert labels in presumed_labels(GAP, "gap", words)


PRESS = "press  pressure in bar"
BORED = "holes  count"
SHARED = "gas  share in vol%"
KILN = "kiln  temperature in degC"
TWO_STEPS = (
    "annealing  step in h\n  level  temperature in degC\ntempering  step in h\n  warmth  temperature in degC"
)
OF_BOTH = "warmth of tempering, level of annealing"
BELOW = (
    "(highest warmth of tempering < lowest level of annealing"
    " and lowest warmth of tempering < highest level of annealing)"
)
FAR_BELOW = (
    "(lowest level of annealing - highest warmth of tempering >= 50 K"
    " and highest level of annealing - lowest warmth of tempering >= 50 K)"
)
LOCKED = 'tilt  angle in deg\nlocked  one of only yes, no  "the spool is locked"'


@pytest.mark.parametrize(
    ("declared", "left", "words", "said"),
    [
        (PRESS, "press", "from 2 bar to not more than 5 bar", "(press >= 2 bar and press <= 5 bar)"),
        (PRESS, "press", "from 2 to at most 5 bar", "(press >= 2 bar and press <= 5 bar)"),
        (PRESS, "press", "from 2 bar up to no higher than 5 bar", "(press >= 2 bar and press <= 5 bar)"),
        (PRESS, "press", "greater than 2 bar to less than 5 bar", "(press > 2 bar and press < 5 bar)"),
        (PRESS, "press", "raised up to at most 5 bar", "press <= 5 bar"),
        (PRESS, "press", "down to no more than 5 bar", "press <= 5 bar"),
        (BORED, "holes", "limited to no more than 4 holes", "holes <= 4"),
        (BORED, "holes", "reduced to no fewer than 4 holes", "holes >= 4"),
        (KILN, "kiln", "750° to 1050° C", "(750 degC <= kiln and kiln <= 1050 degC)"),
        (TWO_STEPS, OF_BOTH, "lower than that of the annealing", BELOW),
        (TWO_STEPS, OF_BOTH, "is lower than during the annealing step", BELOW),
        (TWO_STEPS, OF_BOTH, "at a temperature lower than the temperature of the annealing", BELOW),
        (TWO_STEPS, OF_BOTH, "the temperature in the tempering is lower than that in the annealing", BELOW),
        (TWO_STEPS, OF_BOTH, "at least 50 K lower than in the annealing", FAR_BELOW),
        (TWO_STEPS, OF_BOTH, "not lower than in the annealing", BELOW.replace("<", ">=")),
        (TWO_STEPS, "duration of annealing", "for not less than one hour", "duration of annealing >= 1 h"),
        ("force  force in N", "force", "2 N or more, and in any event less than 7 N",
         "(force >= 2 N and force < 7 N)"),
        ("lime, clay  share in wt%", "lime, clay",
         "lime and clay are contained in a total amount of less than 1.5% by mass",
         "(lime > 0 and clay > 0 and lime + clay < 1.5 wt%)"),
        ("lime, clay, sand  share in wt%", "lime, clay, sand",
         "the proportion of lime and clay taken together to sand does not exceed 0.05",
         "(lime + clay) / sand <= 0.05"),
        ('gas  temperature in degC\nwanted  temperature in degC  "the predetermined temperature"',
         "gas, wanted", "a temperature within 2 °C of the predetermined temperature",
         "ABS(gas - wanted) <= 2 degC(diff)"),
        ('grains  length in um  "diameter of the grains"', "grains", "diameters not exceeding 10 microns",
         "grains <= 10 um"),
        ("surface  in m2/g", "surface", "a specific surface area of from 30.1 to 40.1 m2/g",
         "(30.1 m2/g <= surface and surface <= 40.1 m2/g)"),
        ('surface  in m2/g  "after calcination at 900 degC for 5 hours"', "surface",
         "not smaller than 30 m2/g when subjected to calcination at 900 °C for 5 hours",
         "surface >= 30 m2/g"),
        ("coat, grain  length in um", "coat, grain", "no more than 1/200 of the grain",
         "coat / grain <= 1/200"),
        ("torque  in N.m", "torque", "at least 3 N-m", "torque >= 3 N.m"),
        ("torque  in N.m", "torque", "between 3 and 5 N m", "(3 N.m <= torque and torque <= 5 N.m)"),
        ("dose  in ng.h/mL", "dose", "at least 3500 ng*hr/mL", "dose >= 3500 ng.h/mL"),
        ("humidity  share in %", "humidity", "a relative humidity of 40 to 60%",
         "(40 % <= humidity and humidity <= 60 %)"),
        ('hot  in A/m  "at 150 degC"\ncold  in A/m  "at 20 degC"', "hot, cold",
         "at least 40 percent of the cold at 20 °C", "hot / cold >= 40 %"),
    ],
)  # fmt: skip
def test_ends_steps_and_units_are_read_as_meant(declared: str, left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(declared, left, words) == said


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (PRESS, "press", "not from more than 2 bar to about 5 bar"),
        (PRESS, "press", "outside the range of more than 2 bar to about 5 bar"),
        (PRESS, "press", "more than 5 bar to about 2 bar"),
        (PRESS, "press", "less than 2 bar to about 5 bar"),
        (PRESS, "press", "raised from more than 2 bar to about 5 bar"),
        (PRESS, "press", "vented not to more than 2 bar"),
        (BORED, "holes", "not limited to no more than 4 holes"),
        (KILN, "kiln", "at least 750°"),
        ("force  force in N", "force", "at least 3 N m"),
        ("force  force in N", "force", "2 N or more, and in any event not 5 N"),
        ("coat  length in um", "coat", "no more than 1/200 um"),
        ('grains  length in um  "diameter of the grains"', "grains", "a radius not exceeding 10 microns"),
        ('ratio  number  "Mw/Mn"\nMw  number', "ratio", "a Mw value of 2 to 3"),
        (TWO_STEPS, OF_BOTH, "differ by at least 50 K"),
        (TWO_STEPS, OF_BOTH, "are the same"),
        (TWO_STEPS, OF_BOTH, "lower than at the end of the annealing"),
        (TWO_STEPS, OF_BOTH, "lower than in the annealing or the quenching"),
        (TWO_STEPS, OF_BOTH, "is lower than before the annealing"),
    ],
)
def test_ends_steps_and_units_that_say_something_else_are_refused(
    declared: str, left: str, words: str
) -> None:
    assert not presumed_in_symbols(declared, left, words)


@pytest.mark.parametrize(
    ("declared", "left", "words", "past", "met", "unmet"),
    [
        (PRESS, "press", "vented to not more than 2 bar", "vented to", "press = 1 bar", "press = 3 bar"),
        (PRESS, "press", "bled down to not more than 2 bar", "bled", "press = 1 bar", "press = 3 bar"),
        (PRESS, "press", "sintered up to no higher than 2 bar", "sintered", "press = 1 bar", "press = 3 bar"),
        (BORED, "holes", "drilled to no more than 4 holes", "drilled to", "holes = 3", "holes = 5"),
        (BORED, "holes", "trimmed down to not less than 4 holes", "trimmed", "holes = 5", "holes = 3"),
        (BORED, "holes", "two or more selected holes", "selected", "holes = 2", "holes = 1"),
        ("density  density in g/cm3", "density",
         "as determined by the float method, is at least 7.45 g/cm3, preferably at least 7.55 g/cm3",
         "as determined by the float method", "density = 7.5 g/cm3", "density = 7.4 g/cm3"),
    ],
)  # fmt: skip
def test_the_words_of_a_limit_stay_with_it(
    declared: str, left: str, words: str, past: str, met: str, unmet: str
) -> None:
    text = f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n"
    _, found = read_sheet(Source("test", text))
    assert [d.message for d in found if "read past" in d.message] == [f"'{past}' is read past"]
    assert not on_the_wrong_side(declared, left, words, met, unmet)


@pytest.mark.parametrize(
    ("declared", "left", "words", "readings"),
    [
        (LOCKED, "locked, tilt", "is locked at the latest when the tilt reaches 27°",
         ["whenever it holds", "able to do so"]),
        (LOCKED, "locked, tilt", "is locked no later than when the tilt reaches 27°",
         ["whenever it holds", "able to do so"]),
        (LOCKED, "locked, tilt", "is locked when the tilt reaches 27°",
         ["whenever it holds", "then and only then", "it holds, and so it is", "able to do so"]),
        ("teeth  count", "teeth", "20, 24 or 28 teeth, preferably 24", ["exactly that many"]),
        ("teeth  count", "teeth", "18 to 30 teeth, preferably 24", ["exactly that many"]),
        ("teeth  count", "teeth", "at least 20 teeth, preferably 24 teeth",
         ["at least that many", "exactly that many"]),
    ],
)  # fmt: skip
def test_at_the_latest_and_a_preferred_number_have_these_readings(
    declared: str, left: str, words: str, readings: list[str]
) -> None:
    made = sheet(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")
    found = [[r.label for r in g.readings] for g in made.groups]
    assert readings in found or [r for r in readings if r != "able to do so"] in found
    assert ("at least that many" in readings) == (["at least that many", "exactly that many"] in found)


@pytest.mark.parametrize(("profile", "rounds"), [("EPO", True), ("US", False)])
def test_the_plain_end_of_a_half_hedged_range_rounds_where_that_is_presumed(
    profile: str, rounds: bool
) -> None:
    made = sheet(
        f"profile {profile}\nfiled no\n\ngap  length in mm\n\n1. A thing, wherein 2.5 to about 5 mm.\n"
        "   | gap : 2.5 to about 5 mm\n"
    )
    (group,) = made.groups
    presumed = [r.label for r in group.readings if r.standing == "presumed"]
    assert (presumed == ["rounding only"]) == rounds
    assert "upper end only, the lower rounds" in [r.label for r in group.readings]


def test_what_is_compared_at_all_times_is_told() -> None:
    words = "lower than that of the annealing"
    text = f"{TWO_STEPS}\n\n1. A thing, wherein {words}.\n   | {OF_BOTH} : {words}\n"
    _, found = read_sheet(Source("test", text))
    assert [d.message for d in found] == ["read of the whole of both: the words name no moments"]


def test_a_row_of_words_may_be_shorter_than_what_is_looked_for() -> None:
    for left, words in (
        ("valve, press", "on average"),
        (OF_BOTH, "annealing"),
        (OF_BOTH, "the annealing step"),
    ):
        declared = f"{TWO_STEPS}\n{PRESS}\nvalve  one of only open, closed"
        assert errors(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize("verb", ["raised", "lowered"])
def test_what_goes_up_in_steps_is_no_multiple(verb: str) -> None:
    said = f"1. A thing, wherein the force is {verb} in steps of 0.5 kN."
    _, found = read_sheet(Source("t", f"force  force in kN\n\n{said}\n   | force : in steps of 0.5 kN\n"))
    assert any(f"'{verb}' stands right before these words" in d.message for d in found)


@pytest.mark.parametrize(
    ("declared", "left", "words", "said"),
    [
        ("holes, ribs  count", "holes, ribs", "at least two, at most half of the ribs",
         "(holes >= two and holes / ribs <= 1/2)"),
        ("holes, ribs  count", "holes, ribs", "more than two, less than half of the ribs",
         "(holes > two and holes / ribs < 1/2)"),
        ("holes, ribs  count", "holes, ribs", "at least two, at most 300 % of the ribs",
         "(holes >= two and holes / ribs <= 300 %)"),
        ("holes, ribs  count", "holes, ribs", "at least one, not more than 50 % of the number of the ribs",
         "(holes >= one and holes / ribs <= 50 %)"),
        ("holes, ribs  count", "holes, ribs", "at least a quarter, at most half of the ribs",
         "(holes / ribs >= 1/4 and holes / ribs <= 1/2)"),
        ("holes, ribs  count", "holes, ribs", "between 0 and half of the ribs",
         "(0 <= holes / ribs and holes / ribs <= 1/2)"),
        ("holes, ribs  count", "holes, ribs", "at least two holes, at most half of the ribs", ""),
        ("holes, ribs  count", "holes, ribs", "two to four holes, half of the ribs", ""),
        ("holes, ribs  count", "holes, ribs", "at least two holes and 50 % of the ribs", ""),
        (RIM, "gap, rim", "at least 2 mm, at most half of the rim", "(gap >= 2 mm and gap / rim <= 1/2)"),
        (RIM, "gap, rim", "at least 2, at most half of the rim", ""),
        ("gap, rim  number", "gap, rim", "the gap is at least 2, at most half of the rim",
         "(gap >= 2 and gap / rim <= 1/2)"),
        ("oil, gum  share in wt%", "oil, gum", "the oil is at least 2 wt%, at most half of the gum",
         "(oil >= 2 wt% and oil / gum <= 1/2)"),
        ("oil, gum  share in wt%", "oil, gum", "the oil is at least 2 wt% and at most 50 % of the gum",
         "(oil >= 2 wt% and oil / gum <= 50 %)"),
        ("oil, gum  share in wt%", "oil, gum", "at least 2 wt% and at most 10 wt% of the gum",
         "(oil / gum >= 2 % and oil / gum <= 10 %)"),
    ],
)  # fmt: skip
def test_a_number_beside_a_share_of_another_thing_is_no_share_of_it(
    declared: str, left: str, words: str, said: str
) -> None:
    assert presumed_in_symbols(declared, left, words) == said


SOME = "ribs  count\nperforated ribs  count"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("ribs, at most half of them perforated ribs", "perforated ribs / ribs <= 1/2"),
        ("ribs, not more than one half of them perforated", "perforated ribs / ribs <= 1/2"),
        ("the ribs, at least half of which are perforated", "perforated ribs / ribs >= 1/2"),
        ("more than half of them being perforated ribs", "perforated ribs / ribs > 1/2"),
        ("at most one third of the ribs are perforated", "perforated ribs / ribs <= 1/3"),
        ("ribs, at least half of them not perforated", ""),
        ("ribs, at least two of them perforated", ""),
        ("ribs, none of them perforated", ""),
        ("ribs, at most half of them having perforated ribs", ""),
        ("at least 4 ribs, at most half of them perforated", ""),
    ],
)
def test_so_many_of_them_are_of_those_before(words: str, said: str) -> None:
    assert presumed_in_symbols(SOME, "ribs, perforated ribs", words) == said
    assert presumed_in_symbols(SOME, "perforated ribs, ribs", words) == said


LOBES = "flutes, lobes  count"


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("flutes, lobes", "exceeds the number of the lobes by at least one but not more than two",
         "(flutes - lobes >= one and flutes - lobes <= two)"),
        ("lobes, flutes", "the number of flutes exceeds the number of lobes by at least one and at most two",
         "(flutes - lobes >= one and flutes - lobes <= two)"),
        ("flutes, lobes", "exceeds the number of lobes by one or two",
         "(flutes - lobes = one or flutes - lobes = two)"),
        ("lobes, flutes", "one or two more flutes than lobes",
         "(flutes - lobes = one or flutes - lobes = two)"),
        ("flutes, lobes", "one to two fewer lobes than flutes",
         "(one <= flutes - lobes and flutes - lobes <= two)"),
        ("flutes, lobes", "more than one but less than four more flutes than lobes",
         "(flutes - lobes > one and flutes - lobes < four)"),
        ("lobes, flutes", "exceeds the number of flutes by at least one", "lobes - flutes >= one"),
        ("lobes, flutes", "exceeds the number of lobes by one or two", ""),
        ("flutes, lobes", "does not exceed the number of lobes by one or two", ""),
        ("flutes, lobes", "exceeds twice the number of lobes by one or two", ""),
        ("flutes, lobes", "one or two more flutes than twice the lobes", ""),
    ],
)  # fmt: skip
def test_by_how_many_one_number_exceeds_another(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(LOBES, left, words) == said


@pytest.mark.parametrize(
    "words",
    ["the number of holes per module is twice the number of modules",
     "the number of holes for each module is at least the number of modules",
     "the number of holes per module exceeds the number of modules"],
)  # fmt: skip
def test_a_number_for_each_one_is_not_the_number_of_all(words: str) -> None:
    assert presumed_in_symbols("holes, modules  count", "holes, modules", words) == ""


GREASE = """grease  composition in wt%
  base oil : mineral oil, white oil, ester
  lubricant : graphite, talc, mica"""


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("lubricant", "at least one lubricant selected from graphite and talc",
         "(graphite > 0 wt% or talc > 0 wt%)"),
        ("lubricant", "one or more lubricants chosen from graphite and talc",
         "(graphite > 0 wt% or talc > 0 wt%)"),
        ("lubricant", "at most 5 % by weight of one or more lubricants selected from graphite and talc",
         "graphite + talc <= 5 wt%"),
        ("base oil", "comprising one or more of the mineral oil, the white oil and the ester",
         "(mineral oil > 0 wt% or white oil > 0 wt% or ester > 0 wt%)"),
        ("lubricant", "at least one lubricant not selected from graphite and talc", ""),
        ("lubricant", "no lubricant selected from graphite and talc", ""),
        ("lubricant", "at most 5 % by weight of graphite", ""),
    ],
)  # fmt: skip
def test_which_of_a_class_is_selected(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(GREASE, left, words) == said


@pytest.mark.parametrize("verb", ["comprises", "comprising", "containing"])
def test_at_least_two_of_a_list_are_comprised(verb: str) -> None:
    words = "at least two of the mineral oil, the white oil and the ester"
    _, plain = all_readings(GREASE, "base oil", words)
    for left in ("base oil", "grease"):
        assert all_readings(GREASE, left, f"{verb} {words}")[1] == plain


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("at least 30 % where the speed factor is less than 100 000",
         "if speed factor < 100000 then fill >= 30 vol%"),
        ("if the speed factor is above 50, at most 30 %", "if speed factor > 50 then fill <= 30 vol%"),
        ("at least 30 % where the speed factor is less than 80 %", ""),
        ("30 % and 50 %, respectively", ""),
        ("at least 30 % of the speed factor", ""),
    ],
)  # fmt: skip
def test_a_bare_per_cent_under_a_condition_is_on_the_declared_basis(words: str, said: str) -> None:
    declared = "fill  share in vol%\nspeed factor  number"
    assert presumed_in_symbols(declared, "fill, speed factor", words) == said
    if said:
        text = f"{declared}\n\n1. A thing, {words}.\n   | fill, speed factor : {words}\n"
        _, told = read_sheet(Source("t", text))
        assert any("do not say percent of what" in d.message for d in told)


@pytest.mark.parametrize(
    ("words", "read"),
    [
        ("the largest of the orifice diameters being at most 2.0 mm", True),
        ("the greatest orifice diameter is at most 2.0 mm", True),
        ("the largest orifice diameter not being at most 2.0 mm", False),
        ("the second largest of the orifice diameters being at most 2.0 mm", False),
        ("the largest orifice being at most 2.0 mm", False),
        ("the largest nozzle has an orifice diameter of at most 2.0 mm", False),
    ],
)
def test_the_largest_of_what_is_measured(words: str, read: bool) -> None:
    declared = "nozzle  part, 1 to 8\n  orifice diameter  length in mm"
    text = f"{declared}\n\n1. A thing, {words}.\n   | orifice diameter of the nozzles : {words}\n"
    assert (read_sheet(Source("t", text))[0] is not None) is read
    if read:
        *_, last = all_readings(declared, "orifice diameter of the nozzles", words)[1]
        assert [label for label, _ in last] == ["the greatest value"]


DRYING = """drying  step in min
  drying temperature  temperature in degC
soaping  step in min
  reaction temperature  temperature in degC
  bath temperature  temperature in degC"""
DRY, REACTION = "drying temperature of drying", "reaction temperature of soaping"


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        (f"{DRY}, {REACTION}", "at least 50 K higher than the reaction temperature",
         f"highest {DRY} - lowest {REACTION} >= 50 K and lowest {DRY} - highest {REACTION} >= 50 K"),
        (f"{REACTION}, {DRY}", "the drying temperature is higher than the reaction temperature",
         f"highest {DRY} > lowest {REACTION} and lowest {DRY} > highest {REACTION}"),
        (f"{DRY}, {REACTION}", "not higher than the reaction temperature",
         f"highest {DRY} <= lowest {REACTION} and lowest {DRY} <= highest {REACTION}"),
        # of one step they are compared at each moment, and not over the whole
        (f"{REACTION}, bath temperature of soaping", "higher than the bath temperature", ""),
        (f"{DRY}, {REACTION}", "at least 50 K higher than the average reaction temperature", ""),
        (f"{DRY}, {REACTION}", "higher than the reaction temperature or the bath temperature", ""),
        (f"{DRY}, {REACTION}", "higher than half the reaction temperature", ""),
    ],
)  # fmt: skip
def test_a_quantity_of_another_step_by_its_name_alone(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(DRYING, left, words) == (f"({said})" if said else "")


@pytest.mark.parametrize(
    "note", ["median particle size", "median particle size (D50)", "median particle size, D50"]
)
def test_what_a_note_says_before_a_sign_calls_the_thing(note: str) -> None:
    declared = f'gap  length in um\nparticle size  length in um  "{note}"'
    noted, called = (
        all_readings(declared, "gap, particle size", f"at least five times the {size}")
        for size in ("median particle size", "particle size")
    )
    assert noted == called


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("at least 2 mm or at least half the rim, whichever is greater",
         "at least 2 mm or half the rim, whichever is greater"),
        ("at least 2 mm or at least half as wide as the rim, whichever is greater",
         "at least 2 mm or half the rim, whichever is greater"),
        ("at least 2 mm or at most half the rim, whichever is greater", ""),
        ("2 to 5 mm or at least half the rim, whichever is greater", ""),
        ("between 2 and 5 mm or half the rim, whichever is smaller", ""),
    ],
)  # fmt: skip
def test_a_limit_said_again_before_whichever(words: str, said: str) -> None:
    text = f"{RIM}\n\n1. A thing, {{0}}.\n   | gap, rim : {{0}}\n"
    made, _ = read_sheet(Source("t", text.format(words)))
    plain, _ = read_sheet(Source("t", text.format(said))) if said else (None, ())
    assert (made is None) is (plain is None)
    if made is not None and plain is not None:
        assert made.claims[0].limitations[0].formula == plain.claims[0].limitations[0].formula


def labels(declared: str, left: str, words: str) -> dict[str, str]:
    """The readings of the last phrase of a line, with their standings."""
    return dict(all_readings(declared, left, words)[1][-1])


@pytest.mark.parametrize(
    ("words", "more"),
    [
        ("at least 1:10", "more"), ("1:10 or higher", "more"), ("more than 1:10", "more"),
        ("not exceeding 1:20", "fewer"), ("less than 1:3", "fewer"), ("at most about 1:20", "fewer"),
        ("at least 3:1", ""), ("at least 0.1", ""), ("1:10", ""), ("at least 1:1", ""),
        ("1:10 to 1:20", ""),
    ],
)  # fmt: skip
def test_a_limit_at_a_ratio_below_one_may_go_the_other_way(words: str, more: str) -> None:
    found = labels("a, b  mass in g", "a, b", f"a ratio of a to b of {words}")
    turned = {label: standing for label, standing in found.items() if "parts of the second" in label}
    assert turned == ({f"so many parts of the second, or {more}": "arguable"} if more else {})


@pytest.mark.parametrize(
    ("words", "also"),
    [
        ("200 % larger than the rim", True), ("at least 200 % larger than the rim", True),
        ("more than 150 % greater than the rim", True), ("100 % larger than the rim", False),
        ("20 % larger than the rim", False), ("exceeds the rim by more than 150 %", False),
        ("larger than the rim by 200 %", False), ("2 mm larger than the rim", False),
    ],
)  # fmt: skip
def test_so_many_per_cent_larger_may_be_as_many_per_cent(words: str, also: bool) -> None:
    found = labels(RIM, "gap, rim", words)
    assert [s for label, s in found.items() if label.startswith("as much")] == ["arguable"] * also


@pytest.mark.parametrize(
    ("words", "also"),
    [
        ("between 10^-6 and 10^-4", True), ("from 10⁻⁶ to 10⁻⁴", True), ("at least 10^3", True),
        ("at most 10^-4", True), ("not more than 10^-4", True), ("between 10^-6 and 2 x 10^-4", False),
        ("between 1 x 10^-6 and 1 x 10^-4", False), ("at least 0.001", False), ("at least 10", False),
    ],
)  # fmt: skip
def test_an_end_that_is_a_bare_power_of_ten_may_be_an_order_of_magnitude(words: str, also: bool) -> None:
    found = labels("level  number", "level", words)
    assert found.get("orders of magnitude") == ("arguable" if also else None)


@pytest.mark.parametrize(
    ("words", "relative"),
    [
        ("5 wt% ± 1 wt%", False), ("5 ± 1 wt%", False), ("5 % by weight ± 1 % by weight", False),
        ("5 wt% ± 1 %", True), ("5 % ± 1 %", True),
    ],
)  # fmt: skip
def test_a_deviation_in_the_unit_of_the_value_is_no_share_of_it(words: str, relative: bool) -> None:
    found = labels("oil  share in wt%", "oil", words)
    assert found.get("relative") == ("presumed" if relative else None)


@pytest.mark.parametrize(
    ("declared", "left", "words", "exclusive"),
    [
        (GAP, "gap", "approximately 5 mm or less than 8 mm", False),
        (GAP, "gap", "less than 3 mm or more than 9 mm", False),
        (GAP, "gap", "either less than 3 mm or more than 9 mm", False),
        (RIM, "gap, rim", "the gap is at least 5 mm or the rim is at least 3 mm", True),
        (METALS, "metal", "zinc or tin", True),
    ],
)
def test_an_or_of_limits_of_one_quantity_shuts_out_nothing(
    declared: str, left: str, words: str, exclusive: bool
) -> None:
    assert ("exclusive" in labels(declared, left, words)) == exclusive


def standings(profile: str, declared: str, left: str, words: str) -> dict[str, str]:
    """The readings of the last phrase of a line before an office or a court, those without a formula too."""
    made = sheet(
        f"profile {profile}\nfiled no\n\n{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n"
    )
    return {r.label: r.standing for r in made.groups[-1].readings} | dict(made.groups[-1].untried)


def test_a_value_that_is_substantially_so_rounds_before_the_epo() -> None:
    found = standings("EPO", "oil  share in wt%", "oil", "substantially 40 wt%")
    assert [label for label, standing in found.items() if standing == "presumed"] == ["rounding only"]
    assert found["within making tolerance"] == "arguable"


@pytest.mark.parametrize(
    ("profile", "presumed"),
    [("US", "as comprising"), ("US court", "no material effect"), ("EPO", "no material effect")],
)
def test_what_is_partly_open_is_presumed_as_each_profile_has_it(profile: str, presumed: str) -> None:
    found = standings(profile, "mix  composition in wt%\n  oil, gum", "mix", "consisting essentially of")
    assert [label for label, standing in found.items() if standing == "presumed"] == [presumed]


def test_nothing_left_out_is_no_value_that_rounds_to_nothing() -> None:
    words = "0.03 wt% or less (excluding 0 wt%)"
    assert "what rounds to it left out" not in labels("oil  share in wt%", "oil", words)
    assert "what rounds to it left out" in labels(
        "oil  share in wt%", "oil", "at most 5 wt%, excluding 3 wt%"
    )
