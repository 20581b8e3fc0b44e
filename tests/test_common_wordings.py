"""Wordings that claims often have, each with a thing they, as presumed, take in and one that they do not.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.core.construction import nodes
from scopecheck.core.formula import Read
from scopecheck.drill.symbols import written
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import all_readings, errors, on_the_wrong_side, presumed_in_symbols, sheet

COATING = "coating  composition in wt%\n  tin, copper, zinc"
ACID = "acid form  any of acid, salt, ester"
SOLIDS = "solids  share in wt%"
GRANULES = "granule  part, up to 2\n  size  length in um"
GRAINS = "granule  part, up to 2\n  length  length in mm\n  width  length in mm"
HOLES = "hole  part, up to 2\n  diameter  length in mm\ncup diameter  length in mm"
LAMPS = "lamp  part, up to 2\n  latitude  angle in deg"
REQUESTS = "request  part, up to 2\n  zones  count"
RESTING = 'resting  step in min\n  rest temperature  temperature in degC  "of the dough"'
RESTED = "start of resting = 0 min, duration of resting = 10 min"
PAUSING = "resting  step in min, may pause"
BAKING = "baking  step in min\n  baking temperature  temperature in degC"
KNEADING = "resting, kneading  step in min"
STRIP = "strip length, flap length  length in mm"
DENSITIES = 'stored density  density in g/cm3  "after 2 hours"\ninitial density  density in g/cm3'
LIQUOR = "copper salt, wetting agent  share in wt%"
SOCK = "foot length, leg length  length in mm"
SHARES = "acid, base  share in wt%"
BOX = "box height, box length  length in mm"
RAKE = "tine  part, up to 2\n  length  length in mm\nbar length  length in mm"
GEARS = 'sun teeth, ring teeth  count\nplanets  count  "planet gears"'
FIBRES = "fibre  any of cotton, linen, viscose"


def _rested(lowest: int, highest: int) -> str:
    at = {"at the start of": lowest, "at the end of": lowest, "average": lowest}
    told = [f"rest temperature {k} resting = {v} degC" for k, v in at.items() if k != "average"]
    told += [
        f"lowest rest temperature of resting = {lowest} degC",
        f"highest rest temperature of resting = {highest} degC",
        f"average rest temperature of resting = {lowest} degC",
    ]
    return ", ".join((RESTED, *told))


VALVES = "leakage  in mL/min\ninlet pressure  pressure in bar"
HOPS = "hop distance  frequency in kHz"
WAVES = "spacing, wavelength  length in mm"
CURRENTS = "sleep current, wake current  current in uA"
LEAKING = "leakage = 20 mL/min, inlet pressure = 210 bar"
AUC = "AUC fed, AUC fasted  in ng.h/mL"
SLOTS = 'candidates  count  "monitored in one slot"'
NODES = "memories, processors, tables  count"
AGENT = "agent  any of soot, carbon tubes, chalk"
D50 = 'D50, D90  length in um  "by volume"'
PLATES = "gap  length in mm"
MEASURED_BETWEEN = [
    (PLATES, "gap", "a gap of 1 mm to 2 mm between adjacent plates", "gap = 2 mm", "gap = 3 mm"),
    (
        PLATES,
        "gap",
        "the gap between the first plate and the rail does not exceed 2 mm",
        "gap = 2 mm",
        "gap = 3 mm",
    ),
    (
        "distance  length in km",
        "distance",
        "a distance of 1 km or more from the mast",
        "distance = 1 km",
        "distance = 0.5 km",
    ),
    (
        "delay  time in ms",
        "delay",
        "a delay of at least 5 ms between the pulses",
        "delay = 5 ms",
        "delay = 4 ms",
    ),
    (
        "height  length in mm",
        "height",
        "a height of at least 5 mm above the floor",
        "height = 5 mm",
        "height = 4 mm",
    ),
    (
        AUC,
        "AUC fed, AUC fasted",
        "the AUC in the fed state is within 80 to 125 % of the AUC in the fasted state",
        "AUC fed = 90 ng.h/mL, AUC fasted = 100 ng.h/mL",
        "AUC fed = 100 ng.h/mL, AUC fasted = 70 ng.h/mL",
    ),
    (
        AUC,
        "AUC fed, AUC fasted",
        "the AUC in the fasted state is at least twice that in the fed state",
        "AUC fasted = 90 ng.h/mL, AUC fed = 40 ng.h/mL",
        "AUC fasted = 40 ng.h/mL, AUC fed = 90 ng.h/mL",
    ),
    (
        AUC,
        "AUC fed",
        "the AUC in the fed state is at least 80 ng.h/mL",
        "AUC fed = 80 ng.h/mL",
        "AUC fed = 70 ng.h/mL",
    ),
    (SLOTS, "candidates", "not more than 44 candidates per slot", "candidates = 44", "candidates = 45"),
    (
        SLOTS,
        "candidates",
        "the number of candidates per slot does not exceed 44",
        "candidates = 44",
        "candidates = 45",
    ),
    ('doses  count  "tablets per day"', "doses", "more than one tablet per day", "doses = 2", "doses = 1"),
    (
        NODES,
        "memories, processors, tables",
        "a plurality of memories, processors and call tables",
        "memories = 2, processors = 2, tables = 2",
        "memories = 2, processors = 1, tables = 2",
    ),
    (
        NODES,
        "memories, processors",
        "a plurality of memories and a processor",
        "memories = 2, processors = 1",
        "memories = 1, processors = 1",
    ),
    (f"{NODES}\nlead  number", "memories", "a plurality of the lead stores", "memories = 2", "memories = 1"),
    (
        "tooth count  count",
        "tooth count",
        "the number of teeth is 12 to 18",
        "tooth count = 12",
        "tooth count = 11",
    ),
    (D50, "D50", "the median diameter is 5 to 40 μm", "D50 = 5 um", "D50 = 4 um"),
    (
        "release  share in %",
        "release",
        "no more than 25 % within one hour",
        "release = 25 %",
        "release = 26 %",
    ),
    (AGENT, "agent", "carbon tubes are contained", "agent = {carbon tubes}", "agent = {chalk}"),
    (AGENT, "agent", "neither soot nor chalk is present", "agent = {carbon tubes}", "agent = {chalk}"),
    (
        f"tubes  share in wt%\n{AGENT}",
        "agent, tubes",
        "when carbon tubes are contained, the content of the carbon tubes is at most 1 % by mass",
        "agent = {carbon tubes}, tubes = 1 wt%",
        "agent = {carbon tubes}, tubes = 2 wt%",
    ),
]
REACHES = "spacing, reach A, reach B  length in mm"
READ = [
    *((REACHES, left, words, "spacing = 6 mm, reach A = 4 mm, reach B = 8 mm",
       "spacing = 13 mm, reach A = 4 mm, reach B = 8 mm")
      for left in ("spacing, reach A, reach B", "reach A, reach B, spacing")
      for words in ("the spacing is less than the sum of the reaches",
                    "the spacing is at most the mean of the reach A and the reach B",
                    "the spacing is at most 1.2 times the greater of their reaches")),
    ("bore, rim, gap  length in mm", "bore, rim, gap", "the gap less than the sum of the bore and the rim",
     "bore = 3 mm, rim = 4 mm, gap = 6 mm", "bore = 3 mm, rim = 4 mm, gap = 7 mm"),
    (REACHES, "spacing, reach A, reach B", "the spacing is less than both reaches",
     "spacing = 3 mm, reach A = 4 mm, reach B = 8 mm", "spacing = 6 mm, reach A = 4 mm, reach B = 8 mm"),
    (REACHES, "reach A, reach B, spacing",
     "the mean of the reach A and the reach B is greater than the spacing",
     "spacing = 5 mm, reach A = 4 mm, reach B = 8 mm", "spacing = 6 mm, reach A = 4 mm, reach B = 8 mm"),
    *MEASURED_BETWEEN,
    *((VALVES, "leakage, inlet pressure", words, "leakage = 10 mL/min, inlet pressure = 210 bar", LEAKING)
      for words in (
        "the leakage at an inlet pressure of 210 bar is below 15 mL/min",
        "the leakage, at an inlet pressure of 210 bar, is below 15 mL/min",
        "the leakage of each spool valve at an inlet pressure of 210 bar is below 15 mL/min",
        "having a leakage at an inlet pressure of 210 bar of below 15 mL/min",
        "the leakage at an inlet pressure of 210 bar does not exceed 15 mL/min",
        "the leakage at an inlet pressure above 200 bar is below 15 mL/min",
        "the leakage at 210 bar is below 15 mL/min",
        "the leakage, when the inlet pressure is at least 200 bar, is below 15 mL/min",
      )),
    (VALVES, "leakage, inlet pressure", "the leakage at an inlet pressure of 210 bar is not below 15 mL/min",
     LEAKING, "leakage = 10 mL/min, inlet pressure = 210 bar"),
    (VALVES, "inlet pressure, leakage", "the leakage at an inlet pressure of 210 bar is below 15 mL/min",
     "leakage = 20 mL/min, inlet pressure = 100 bar", LEAKING),
    (HOPS, "hop distance", "spaced apart by no less than 200 kHz", "hop distance = 200 kHz",
     "hop distance = 190 kHz"),
    (HOPS, "hop distance", "at least 200 kHz apart", "hop distance = 200 kHz", "hop distance = 190 kHz"),
    (WAVES, "spacing, wavelength", "elements spaced apart by between 0.45 and 0.55 of the wavelength",
     "spacing = 5 mm, wavelength = 10 mm", "spacing = 6 mm, wavelength = 10 mm"),
    (WAVES, "spacing, wavelength", "spaced apart by at least half the wavelength",
     "spacing = 5 mm, wavelength = 10 mm", "spacing = 4 mm, wavelength = 10 mm"),
    (WAVES, "spacing, wavelength", "spaced apart by more than the wavelength",
     "spacing = 11 mm, wavelength = 10 mm", "spacing = 9 mm, wavelength = 10 mm"),
    (CURRENTS, "sleep current, wake current", "less than one thousandth of this current",
     "sleep current = 1 uA, wake current = 2000 uA", "sleep current = 3 uA, wake current = 2000 uA"),
    ("slump  length in mm", "slump", "must attain 550 mm but must not go beyond 700 mm", "slump = 600 mm",
     "slump = 710 mm"),
    ("slump  length in mm", "slump", "must go beyond 700 mm", "slump = 710 mm", "slump = 690 mm"),
    ("purity  share in %", "purity", "at least 99.5% pure", "purity = 99.6 %", "purity = 99 %"),
    ("angle  angle in deg", "angle", "an acute angle of no more than 45°", "angle = 40 deg",
     "angle = 50 deg"),
    ("angle  angle in deg", "angle", "an acute angle of at least 45°", "angle = 50 deg", "angle = 95 deg"),
    ("angle  angle in deg", "angle", "an obtuse angle of at least 120°", "angle = 130 deg",
     "angle = 185 deg"),
    ("start  time in min", "start", "within the first 10 minutes", "start = 5 min", "start = 15 min"),
    ("retries  count", "retries", "retried no more than twice", "retries = 2", "retries = 3"),
    ("retries  count", "retries", "is retried at most 3 times", "retries = 3", "retries = 4"),
    (COATING, "coating", "consisting of tin and up to 5 wt% copper", "tin = 100 wt%",
     "tin = 90 wt%, copper = 5 wt%, zinc = 5 wt%"),
    (COATING, "coating", "consisting of tin and 1 to 5 wt% of copper", "tin = 97 wt%, copper = 3 wt%",
     "tin = 100 wt%"),
    (COATING, "coating", "consisting of tin, less than 2 wt% copper, and 0 to 3 wt% zinc", "tin = 100 wt%",
     "tin = 97 wt%, copper = 3 wt%"),
    (COATING, "coating", "consisting of 4 to 5 wt% copper, the balance being tin",
     "tin = 95 wt%, copper = 5 wt%", "tin = 90 wt%, copper = 5 wt%, zinc = 5 wt%"),
    (COATING, "coating", "consisting of up to 5 wt% copper, balance tin", "tin = 100 wt%",
     "tin = 94 wt%, copper = 6 wt%"),
    (COATING, "coating",
     "consisting of tin, copper in an amount of 1 to 5 wt% and zinc in an amount of 2 wt%",
     "tin = 95 wt%, copper = 3 wt%, zinc = 2 wt%", "tin = 97 wt%, copper = 3 wt%"),
    ("angle  angle in deg", "angle", "at approximately a right angle", "angle = 90 deg", "angle = 80 deg"),
    (SOLIDS, "solids", "20 to 60 wt%, excluding 36 and 50 wt%", "solids = 40 wt%", "solids = 50 wt%"),
    (SOLIDS, "solids", "20 to 60 wt%, with the exception of 36 wt%", "solids = 50 wt%", "solids = 36 wt%"),
    (SOLIDS, "solids", "excluding a solids content of 36 % and 50 % by weight", "solids = 40 wt%",
     "solids = 36 wt%"),
    (SOLIDS, "solids", "neither 36 wt% nor 50 wt%", "solids = 40 wt%", "solids = 50 wt%"),
    (SOLIDS, "solids", "does not contain 36 wt% of solids", "solids = 40 wt%", "solids = 36 wt%"),
    (SOLIDS, "solids", "does not have a solids content of 36 wt%", "solids = 40 wt%", "solids = 36 wt%"),
    (SOLIDS, "solids", "does not contain 36 wt% or more of solids", "solids = 30 wt%", "solids = 40 wt%"),
    ("temp  temperature in degC", "temp", "excluding temperatures between 30 and 40 °C", "temp = 20 degC",
     "temp = 35 degC"),
    ("temp  temperature in degC", "temp", "between a temperature of 30 °C and a temperature of 45 °C",
     "temp = 40 degC", "temp = 50 degC"),
    ("temp  temperature in degC", "temp", "not exceeding 30 °C at any time", "temp = 20 degC",
     "temp = 31 degC"),
    ("temp  temperature in degC", "temp", "around room temperature", "temp = 22 degC", "temp = 40 degC"),
    (ACID, "acid form", "an acid or a salt thereof", "acid form = {salt}", "acid form = {ester}"),
    (ACID, "acid form", "an acid, or a salt or ester thereof", "acid form = {ester}", "acid form = {}"),
    (ACID, "acid form", "acid, salts thereof or esters thereof", "acid form = {ester}", "acid form = {}"),
    ('content  in mg/g', "content", "from 2 to 5 mg of the nutrient per gram of tablet", "content = 3 mg/g",
     "content = 6 mg/g"),
    ("dose  in mg/(kg.d)", "dose", "at a dose of 0.5 to 2 mg of nutrient per kg of soil per day",
     "dose = 1 mg/(kg.d)", "dose = 3 mg/(kg.d)"),
    ("dose  in mg/(kg.d)", "dose", "0.5 to 2 mg/kg body weight daily", "dose = 1 mg/(kg.d)",
     "dose = 3 mg/(kg.d)"),
    ("rate  in g/(m2.h)", "rate", "2 to 4 g per square metre and hour", "rate = 3 g/(m2.h)",
     "rate = 5 g/(m2.h)"),
    ("flow  in l/min", "flow", "at least 5 litres of water per minute", "flow = 5 l/min", "flow = 4 l/min"),
    ("maximum speed  speed in m/s", "maximum speed", "a peak speed of at least 3 m/s",
     "maximum speed = 3 m/s", "maximum speed = 2 m/s"),
    ("minimum gap  length in mm", "minimum gap", "the smallest gap is at least 3 mm", "minimum gap = 3 mm",
     "minimum gap = 2 mm"),
    (GRANULES, "size of the granules", "50 % of the granules have a size below 500 um",
     "granules = 2, size of granule 1 = 400 um, size of granule 2 = 600 um",
     "granules = 2, size of granule 1 = 600 um, size of granule 2 = 600 um"),
    (GRANULES, "size of the granules", "40 to 60 % of the granules have a size below 500 um",
     "granules = 2, size of granule 1 = 400 um, size of granule 2 = 600 um",
     "granules = 2, size of granule 1 = 400 um, size of granule 2 = 400 um"),
    (GRANULES, "size of the granules", "50 % or more of the granules have a size below 500 um",
     "granules = 2, size of granule 1 = 400 um, size of granule 2 = 600 um",
     "granules = 2, size of granule 1 = 600 um, size of granule 2 = 600 um"),
    (GRANULES, "size of the granules", "substantially all of the granules are smaller than 500 um",
     "granules = 2, size of granule 1 = 400 um, size of granule 2 = 400 um",
     "granules = 2, size of granule 1 = 400 um, size of granule 2 = 600 um"),
    (GRAINS, "length of the granules, width of the granules",
     "the ratio of the length to the width of each granule being less than 1.2",
     "granules = 1, length of granule 1 = 1.1 mm, width of granule 1 = 1 mm",
     "granules = 1, length of granule 1 = 1.3 mm, width of granule 1 = 1 mm"),
    (GRAINS, "length of the granules, width of the granules",
     "each granule has a length that is greater than its width",
     "granules = 1, length of granule 1 = 2 mm, width of granule 1 = 1 mm",
     "granules = 1, length of granule 1 = 1 mm, width of granule 1 = 2 mm"),
    (GRAINS, "length of the granules, width of the granules",
     "the width of each granule is less than its length",
     "granules = 1, length of granule 1 = 2 mm, width of granule 1 = 1 mm",
     "granules = 1, length of granule 1 = 1 mm, width of granule 1 = 2 mm"),
    (HOLES, "diameter of the holes, cup diameter",
     "the diameter of the holes is 10 to 20 % smaller than the cup diameter",
     "holes = 1, diameter of hole 1 = 85 mm, cup diameter = 100 mm",
     "holes = 1, diameter of hole 1 = 95 mm, cup diameter = 100 mm"),
    (HOLES, "diameter of the holes, cup diameter",
     "the diameter of each hole exceeds the cup diameter by 2 to 3 mm",
     "holes = 2, diameter of hole 1 = 12 mm, diameter of hole 2 = 13 mm, cup diameter = 10 mm",
     "holes = 2, diameter of hole 1 = 12 mm, diameter of hole 2 = 8 mm, cup diameter = 10 mm"),
    (LAMPS, "latitude of the lamps", "only within a zone extending between latitudes 30° and 45°",
     "lamps = 2, latitude of lamp 1 = 35 deg, latitude of lamp 2 = 40 deg",
     "lamps = 2, latitude of lamp 1 = 35 deg, latitude of lamp 2 = 50 deg"),
    (REQUESTS, "zones of the requests", "each request of a user corresponds to two or more zones",
     "requests = 1, zones of request 1 = 2", "requests = 1, zones of request 1 = 1"),
    ("open valves  count", "open valves",
     "at least two of the valves are open at the same time, and not more than four", "open valves = 4",
     "open valves = 5"),
    ("open valves  count", "open valves", "two to four of the valves are open simultaneously",
     "open valves = 2", "open valves = 1"),
    (RESTING, "rest temperature of resting",
     "the temperature of the dough not exceeding 30 °C during resting", _rested(20, 30), _rested(20, 31)),
    (RESTING, "rest temperature of resting", "at no time exceeding 30 °C", _rested(20, 30), _rested(20, 31)),
    (KNEADING, "kneading", "after the resting has been completed",
     f"{RESTED}, start of kneading = 10 min, duration of kneading = 5 min",
     f"{RESTED}, start of kneading = 5 min, duration of kneading = 5 min"),
    (KNEADING, "kneading", "while the dough is resting",
     f"{RESTED}, start of kneading = 5 min, duration of kneading = 5 min",
     f"{RESTED}, start of kneading = 10 min, duration of kneading = 5 min"),
    ("resting  step in min", "resting", "without interruption for at least 8 minutes", RESTED,
     "start of resting = 0 min, duration of resting = 5 min"),
    (PAUSING, "resting", "for at least 8 consecutive minutes",
     f"{RESTED}, longest pause of resting = 0 min, total pause of resting = 0 min",
     f"{RESTED}, longest pause of resting = 2 min, total pause of resting = 2 min"),
    (STRIP, "strip length, flap length", "along a substantial part of the length of the flap",
     "strip length = 60 mm, flap length = 100 mm", "strip length = 40 mm, flap length = 100 mm"),
    (STRIP, "strip length, flap length", "along substantially the entire length of the flap",
     "strip length = 100 mm, flap length = 100 mm", "strip length = 60 mm, flap length = 100 mm"),
    (DENSITIES, "stored density, initial density",
     "the density after 2 hours is at least 80 % of the initial density",
     "stored density = 0.9 g/cm3, initial density = 1 g/cm3",
     "stored density = 0.7 g/cm3, initial density = 1 g/cm3"),
    (LIQUOR, "copper salt, wetting agent",
     "the copper salt and the wetting agent together make up no more than 30 % of the liquor",
     "copper salt = 10 wt%, wetting agent = 20 wt%", "copper salt = 20 wt%, wetting agent = 20 wt%"),
    ("sugar  share in wt%", "sugar", "at least 5 wt% of sugar when applied to the dough", "sugar = 5 wt%",
     "sugar = 4 wt%"),
    ("caffeine  share in wt% of solids", "caffeine",
     "the caffeine content does not exceed 0.1 % of the dry solids", "caffeine = 0.1 wt%",
     "caffeine = 0.2 wt%"),
    ("filler  share in wt%", "filler", "at least one filler in an amount of 5 to 10 wt%", "filler = 5 wt%",
     "filler = 4 wt%"),
    ("filler  share in wt%", "filler", "one or more fillers in a total amount of 5 to 10 wt%",
     "filler = 10 wt%", "filler = 11 wt%"),
    (SOCK, "foot length, leg length", "shorter than the leg length by at least a third",
     "foot length = 200 mm, leg length = 300 mm", "foot length = 201 mm, leg length = 300 mm"),
    (SOCK, "foot length, leg length", "shorter than the leg portion by at least a third",
     "foot length = 200 mm, leg length = 300 mm", "foot length = 201 mm, leg length = 300 mm"),
    (SOCK, "foot length", "more than a third longer than the leg length",
     "foot length = 401 mm, leg length = 300 mm", "foot length = 400 mm, leg length = 300 mm"),
    (SOCK, "foot length, leg length", "smaller than the leg length by a quarter to a half",
     "foot length = 225 mm, leg length = 300 mm", "foot length = 226 mm, leg length = 300 mm"),
    (SOCK, "foot length, leg length", "exceeds half the length of the leg portion by not more than 20 mm",
     "foot length = 170 mm, leg length = 300 mm", "foot length = 150 mm, leg length = 300 mm"),
    (SOCK, "foot length, leg length", "is 5 to 20 mm longer than half the leg length",
     "foot length = 155 mm, leg length = 300 mm", "foot length = 154.4 mm, leg length = 300 mm"),
    (SHARES, "acid", "exceeds that of the base by no more than half", "acid = 30 wt%, base = 20 wt%",
     "acid = 31 wt%, base = 20 wt%"),
    (SHARES, "acid, base", "is less than the base by at least a quarter", "acid = 15 wt%, base = 20 wt%",
     "acid = 16 wt%, base = 20 wt%"),
    (BOX, "box height, box length", "no more than one quarter as high as it is long",
     "box height = 50 mm, box length = 200 mm", "box height = 51 mm, box length = 200 mm"),
    (BOX, "box height, box length", "no more than half as high as it is long",
     "box height = 100 mm, box length = 200 mm", "box height = 101 mm, box length = 200 mm"),
    (BOX, "box height, box length", "no more than 25 % as high as it is long",
     "box height = 50 mm, box length = 200 mm", "box height = 52 mm, box length = 200 mm"),
    (BOX, "box height, box length", "at least one and one half times the box length",
     "box height = 300 mm, box length = 200 mm", "box height = 299 mm, box length = 200 mm"),
    ("wales, courses  in 1/cm", "wales, courses", "lies within 10 % of the number of courses per centimetre",
     "wales = 22 1/cm, courses = 20 1/cm", "wales = 23 1/cm, courses = 20 1/cm"),
    (RAKE, "bar length, length of the tines", "at least twice as long as the longest tine",
     "bar length = 200 mm, tines = 2, length of tine 1 = 100 mm, length of tine 2 = 90 mm",
     "bar length = 190 mm, tines = 2, length of tine 1 = 100 mm, length of tine 2 = 90 mm"),
    (RAKE, "bar length, length of the tines", "longer than the shortest tine",
     "bar length = 95 mm, tines = 2, length of tine 1 = 100 mm, length of tine 2 = 90 mm",
     "bar length = 90 mm, tines = 2, length of tine 1 = 100 mm, length of tine 2 = 90 mm"),
    (RAKE, "length of the tines", "differs from tine to tine by less than 10%",
     "bar length = 0 mm, tines = 2, length of tine 1 = 108 mm, length of tine 2 = 100 mm",
     "bar length = 0 mm, tines = 2, length of tine 1 = 110 mm, length of tine 2 = 100 mm"),
    (GEARS, "sun teeth, ring teeth, planets",
     "the sum of the numbers of teeth of the sun gear and of the ring gear is an integer multiple of the"
     " number of the planets", "sun teeth = 20, ring teeth = 40, planets = 3",
     "sun teeth = 20, ring teeth = 41, planets = 3"),
    ("glucose, sugars  share in wt%", "glucose, sugars", "less than a tenth of which is glucose",
     "glucose = 1 wt%, sugars = 20 wt%", "glucose = 2 wt%, sugars = 20 wt%"),
    ("glucose, sugars  share in wt%", "glucose, sugars", "of which at most 10 % is glucose",
     "glucose = 2 wt%, sugars = 20 wt%", "glucose = 3 wt%, sugars = 20 wt%"),
    ("first drying, second drying  step in min", "second drying, first drying",
     "takes half as long as the first drying",
     "first drying from 0 to 30 min, second drying from 40 to 55 min",
     "first drying from 0 to 30 min, second drying from 40 to 70 min"),
    ("pulses, pauses  time in ms", "pauses, pulses", "separated by pauses at least as long as the pulses",
     "pauses = 5 ms, pulses = 5 ms", "pauses = 4 ms, pulses = 5 ms"),
    (FIBRES, "fibre", "made of cotton, linen or a blend of both", "fibre = {cotton, linen}",
     "fibre = {cotton, viscose}"),
    (FIBRES, "fibre", "selected from cotton and/or linen", "fibre = {linen}", "fibre = {linen, viscose}"),
    (FIBRES, "fibre", "the linen is omitted", "fibre = {cotton}", "fibre = {cotton, linen}"),
    (FIBRES, "fibre", "the linen and the cotton are absent", "fibre = {viscose}", "fibre = {linen, viscose}"),
    (COATING, "coating", "consisting of, in weight percent", "tin = 0 wt%, copper = 0 wt%, zinc = 0 wt%",
     "tin = 100 wt%"),
    (SHARES, "acid, base", "as much acid as base by weight", "acid = 20 wt%, base = 20 wt%",
     "acid = 21 wt%, base = 20 wt%"),
    (SHARES, "acid, base", "at least as much acid as base by weight", "acid = 20 wt%, base = 20 wt%",
     "acid = 19 wt%, base = 20 wt%"),
]  # fmt: skip


CELL = 'cell voltage  voltage in V  "highest of any cell"'
CELLS = "cell  part, up to 2\n  voltage  voltage in V\n  height  length in mm"
BOLTS = "bolts  count"
GAP = "gap  length in mm"
TANK = 'tank  share in vol%  "how full it is"'
LOSS = 'activity loss  share in %  "per cycle"'
SHELF = "shelf life  time in day"
FREEZER = "storage  temperature in degC"
ACCURACY = "accuracy  length in mm"
PASTE = 'viscosity  viscosity in Pa.s  "at room temperature"'
OAT = 'base parts  number  "parts by weight of the oat flour"\noil parts  number'
ROUND_ONE_LIMIT = [
    (
        CELL,
        "cell voltage",
        "no cell has a voltage above 4.15 V",
        "cell voltage = 4.15 V",
        "cell voltage = 4.2 V",
    ),
    (CELL, "cell voltage", "none of which exceeds 4.2 V", "cell voltage = 4.2 V", "cell voltage = 4.3 V"),
    (
        CELLS,
        "voltage of the cells",
        "no cell has a voltage above 4.15 V",
        "cells = 2, voltage of cell 1 = 4.1 V, voltage of cell 2 = 4.15 V",
        "cells = 2, voltage of cell 1 = 4.1 V, voltage of cell 2 = 4.2 V",
    ),
    (
        CELLS,
        "voltage of the cells",
        "none of which exceeds 4.15 V",
        "cells = 2, voltage of cell 1 = 4.1 V, voltage of cell 2 = 4.15 V",
        "cells = 2, voltage of cell 1 = 4.1 V, voltage of cell 2 = 4.2 V",
    ),
    (
        CELLS,
        "height of the cells",
        "at least some of which are bigger than 3 mm",
        "cells = 2, height of cell 1 = 4 mm, height of cell 2 = 5 mm",
        "cells = 2, height of cell 1 = 3 mm, height of cell 2 = 2 mm",
    ),
    (
        CELLS,
        "height of the cells",
        "all cells are of equal height",
        "cells = 2, height of cell 1 = 3 mm, height of cell 2 = 3 mm",
        "cells = 2, height of cell 1 = 3 mm, height of cell 2 = 2 mm",
    ),
    (
        CELLS,
        "height of the cells",
        "not one of which is smaller than 3 mm",
        "cells = 2, height of cell 1 = 3 mm, height of cell 2 = 4 mm",
        "cells = 2, height of cell 1 = 3 mm, height of cell 2 = 2 mm",
    ),
    ("charged  share in %", "charged", "to between 80 and 90 %", "charged = 85 %", "charged = 95 %"),
    ("charged  share in %", "charged", "to no more than 80 %", "charged = 80 %", "charged = 81 %"),
    (GAP, "gap", "in no case to less than 15 µm", "gap = 15 um", "gap = 14 um"),
    (GAP, "gap", "under no circumstances more than 15 µm", "gap = 15 um", "gap = 16 um"),
    (GAP, "gap", "bigger than 3 mm", "gap = 4 mm", "gap = 3 mm"),
    (BOLTS, "bolts", "number at least eight", "bolts = 8", "bolts = 7"),
    (BOLTS, "bolts", "do not number more than eight", "bolts = 8", "bolts = 9"),
    (BOLTS, "bolts", "an even number of bolts, but by no fewer than four", "bolts = 4", "bolts = 2"),
    (BOLTS, "bolts", "a multiple of three, but no more than 12", "bolts = 12", "bolts = 15"),
    (
        'samples  count  "in one window"',
        "samples",
        "windows of 2048 to 8192 samples each",
        "samples = 4096",
        "samples = 1024",
    ),
    ("sensors  count", "sensors", "two or more temperature sensors", "sensors = 2", "sensors = 1"),
    (SHELF, "shelf life", "at least 9 and up to 18 months", "shelf life = 400 d", "shelf life = 200 d"),
    (SHELF, "shelf life", "at least one and at most two years", "shelf life = 400 d", "shelf life = 200 d"),
    (
        "glucan  concentration in g/ml",
        "glucan",
        "0.4 g or more per 100 ml",
        "glucan = 0.004 g/ml",
        "glucan = 0.003 g/ml",
    ),
    ("sugar  concentration in g/l", "sugar", "5 g or less per litre", "sugar = 5 g/l", "sugar = 6 g/l"),
    (
        "time  time in min",
        "time",
        "in the course of no more than 30 minutes",
        "time = 30 min",
        "time = 31 min",
    ),
    (
        KNEADING,
        "resting",
        "in the course of no more than 30 minutes",
        "duration of resting = 30 min",
        "duration of resting = 31 min",
    ),
    (
        'metal  share in wt%  "ruthenium, of the catalyst"\ndrying  step in min\n  heat  temperature in degC',
        "metal",
        "0.5 to 5 wt% of ruthenium",
        "metal = 5 wt%",
        "metal = 6 wt%",
    ),
    (
        LOSS,
        "activity loss",
        "losing no more than 5% of its activity each time",
        "activity loss = 5 %",
        "activity loss = 6 %",
    ),
    (
        LOSS,
        "activity loss",
        "less than 15 % of the activity is lost",
        "activity loss = 14 %",
        "activity loss = 15 %",
    ),
    (
        LOSS,
        "activity loss",
        "never loses more than 5% of its activity",
        "activity loss = 5 %",
        "activity loss = 6 %",
    ),
    (TANK, "tank", "two thirds full or more", "tank = 67 vol%", "tank = 66 vol%"),
    (GAP, "gap", "in no event longer than 30 mm", "gap = 30 mm", "gap = 31 mm"),
    (GAP, "gap", "at least 5 mm in any event", "gap = 5 mm", "gap = 4 mm"),
    (BOLTS, "bolts", "number 10 to 20", "bolts = 20", "bolts = 21"),
    (SOLIDS, "solids", "entirely devoid of solids", "solids = 0 wt%", "solids = 1 wt%"),
    (SOLIDS, "solids", "does not amount to over 5 wt%", "solids = 5 wt%", "solids = 6 wt%"),
    ('thick  length in mm  "thickness"', "thick", "4 mm thick or thicker", "thick = 4 mm", "thick = 3 mm"),
    ('w  length in mm  "width"', "w", "4 mm wide or narrower", "w = 4 mm", "w = 5 mm"),
    (FREEZER, "storage", "at -18 °C or colder", "storage = -18 degC", "storage = -17 degC"),
    (FREEZER, "storage", "5 °C or cooler, but above 0 °C", "storage = 5 degC", "storage = 0 degC"),
    (FREEZER, "storage", "at or warmer than -18 °C", "storage = -18 degC", "storage = -19 degC"),
    (TANK, "tank", "never less than a quarter full", "tank = 25 vol%", "tank = 24 vol%"),
    (TANK, "tank", "at most 80 % full", "tank = 80 vol%", "tank = 81 vol%"),
    (
        "mass  molar mass in g/mol",
        "mass",
        "in the range of 30 000 to 45 000 g/mol",
        "mass = 30000 g/mol",
        "mass = 3000 g/mol",
    ),
    ("mass  molar mass in g/mol", "mass", "10 000 to 12 500 g/mol", "mass = 12500 g/mol", "mass = 500 g/mol"),
    ("bolts  count", "bolts", "at least 1 000 000 bolts", "bolts = 1000000", "bolts = 1000"),
    ("acid  in mg KOH/g", "acid", "at most 20 mg KOH/g", "acid = 20 mg KOH/g", "acid = 21 mg KOH/g"),
    ("lime  in dH", "lime", "less than 8 °dH", "lime = 7 dH", "lime = 8 dH"),
    (
        PASTE,
        "viscosity",
        "a viscosity at room temperature not exceeding 20 Pa·s",
        "viscosity = 20 Pa.s",
        "viscosity = 21 Pa.s",
    ),
    (ACCURACY, "accuracy", "±0.1 mm or better", "accuracy = 0.1 mm", "accuracy = 0.2 mm"),
    (
        OAT,
        "base parts, oil parts",
        "from 70 up to 85 parts by weight of an oat flour for every 10 parts by weight of an oil powder",
        "base parts = 80, oil parts = 10",
        "base parts = 80, oil parts = 100",
    ),
    (
        "additive, resin  share in wt%",
        "additive, resin",
        "0.1 to 0.3 parts by weight per part by weight of the resin",
        "additive = 2 wt%, resin = 10 wt%",
        "additive = 5 wt%, resin = 10 wt%",
    ),
]


HERBS = "leaves  mass in g\nwater  volume in mL"
TANK = "tank volume  volume in gal\ncontact area  area in ft2"
INJECTIONS = "injection  part, 1 to 4\n  moment  time in h"
RATIO_WITH_A_UNIT = [
    *(
        (HERBS, left, words, "leaves = 10 g, water = 100 mL", "leaves = 40 g, water = 100 mL")
        for left in ("leaves, water", "water, leaves")
        for words in (
            "a ratio of the leaves to the water of 0.05 to 0.2 g/mL",
            "a ratio of the leaves to the water of from 0.05 to 0.2 g/mL",
            "a ratio of the leaves to the water of between 0.05 and 0.2 g/mL",
            "a ratio of the leaves to the water of at least 0.05 and at most 0.2 g/mL",
            "a ratio of the leaves to the water of more than 0.05 and less than 0.2 g/mL",
            "a ratio of the leaves to the water of 0.2 to 0.05 g/mL",
            "a leaves to water ratio of 0.05 to 0.2 g/mL",
        )
    ),
    ("lift  length in mm", "lift", "positive and not greater than 0.2 mm", "lift = 0.1 mm", "lift = 0 mm"),
    ('doses  count  "per week"', "doses", "at most three times a week", "doses = 3", "doses = 4"),
    (
        TANK,
        "tank volume, contact area",
        "the ratio of the tank volume to the contact area is about 0.12 to 0.5 gallons per square foot",
        "tank volume = 2400 gal, contact area = 10000 ft2",
        "tank volume = 12000 gal, contact area = 10000 ft2",
    ),
    ("load  in g/mL", "load", "a ratio of 0.12 to 0.5 g/mL", "load = 0.3 g/mL", "load = 4.2 g/mL"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("declared", "left", "words", "within", "outside"), [*READ, *ROUND_ONE_LIMIT, *RATIO_WITH_A_UNIT]
)
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        # 5 wt% of copper, or of copper and tin together?
        (COATING, "coating", "consisting of up to 5 wt% copper and tin"),
        (COATING, "coating", "consisting of, by volume"),
        # A third of what: of the leg, of the foot itself, of a millimetre, of another length?
        (SOCK, "foot length, leg length", "exceeds the leg length by at least a third of its length"),
        (SOCK, "foot length, leg length", "longer than the leg length by half again"),
        (VALVES, "leakage", "the leakage at an inlet pressure of 210 bar is below 15 mL/min"),
        *(
            (VALVES, left, f"at a pressure of 210 bar, {said} or the leakage is below 5 mL/min")
            for left in ("leakage, inlet pressure", "inlet pressure, leakage")
            for said in ("the leakage is 15 mL/min", "the leakage is above 15 mL/min")
        ),
        ('leakage  in mL/min  "at 100 bar"', "leakage", "the leakage at a pressure of 210 bar is 15 mL/min"),
        *(
            ("leakage  in mL/min", "leakage", words)
            for words in (
                "not each spool valve has a leakage below 15 mL/min",
                "each spool valve does not have a leakage below 15 mL/min",
                "each pair of spool valves has a leakage below 15 mL/min",
                "each third spool valve has a leakage below 15 mL/min",
                "each spool valve but one has a leakage below 15 mL/min",
                "the sum of the leakage of each spool valve is below 15 mL/min",
            )
        ),
        ('leakage  in mL/min  "in total"', "leakage", "each spool valve has a leakage below 15 mL/min"),
        (HOPS, "hop distance", "not spaced apart by less than 200 kHz"),
        (HOPS, "hop distance", "spaced apart from the rim by 200 kHz"),
        ("frequency  frequency in kHz", "frequency", "spaced apart by 200 kHz"),
        ("width, wavelength  length in mm", "width, wavelength", "spaced apart by half the wavelength"),
        (f"{CURRENTS}\npeak current  current in uA", "sleep current, wake current", "half of this current"),
        (CURRENTS, "sleep current, wake current", "more than this voltage"),
        ("angle  angle in deg", "angle", "no acute angle of 45°"),
        ("slump  length in mm", "slump", "must not attain 550 mm"),
        ("voltage  voltage in V", "voltage", "a voltage of ±12 V"),
        ("start  time in min", "start", "within the last 10 minutes"),
        ("start  time in min", "start", "not within the first 10 minutes"),
        ("mixing time  time in min", "mixing time", "within the first 10 minutes"),
        ("retries  count", "retries", "not retried more than twice"),
        ("latency  time in ms", "latency", "the latency is not on average less than 5 ms"),
        (SOCK, "foot length, leg length", "longer than the leg length by one and a half"),
        (SOCK, "foot length, leg length", "shorter than a portion of the leg"),
        (SHARES, "acid, base", "within a tenth of the base"),
        (BOX, "box height, box length", "a quarter as high as it is wide"),
        ("hot, cold  temperature in degC", "hot, cold", "exceeds half the cold by 5 to 10 K"),
        (RAKE, "length of the tines, bar length", "at least half wider than the bar length"),
        (RAKE, "bar length, length of the tines", "at least twice as long as the widest tine"),
        (RAKE, "bar length, length of the tines", "at least twice as long as the second longest tine"),
        (RAKE, "length of the tines", "differs from tine to tine by at least 2 mm"),
        (
            GEARS,
            "sun teeth, ring teeth",
            "the sum of the numbers of teeth of the sun gear and the planet gear is divisible by three",
        ),
        (
            "glucose, sugars, lactose  share in wt%",
            "glucose, sugars",
            "less than a tenth of which is lactose",
        ),
        (FIBRES, "fibre", "made of cotton, linen, viscose or a blend of both"),
        (FIBRES, "fibre", "not selected from cotton and/or linen"),
        (FIBRES, "fibre", "the linen or the cotton is omitted"),
        (FIBRES, "fibre", "the linen is not omitted"),
        (SHARES, "acid, base", "as much acid as base by volume"),
        (SHARES, "acid, base", "not as much acid as base by weight"),
        ("phosphite  share in wt%", "phosphite", "30 % or more of the total phosphite"),
        ("phosphite  share in wt%", "phosphite", "at least 30 % of the total amount of phosphite"),
        (GRANULES, "size of the granules", "90 % by weight of the granules have a size below 500 um"),
        ("peak power, maximum power  power in W", "maximum power", "a peak power of 5 W"),
        ("dose  in mg/kg", "dose", "2 mg of nutrient per kg of soil per day"),
        (BAKING, "baking temperature of baking", "the peak temperature does not exceed 260 °C"),
        ('low cell  voltage in V  "lowest of any cell"', "low cell", "no cell is above 4 V"),
        ('load  force in N  "mean of the beams"', "load", "no beam has a load above 10 N"),
        (GAP, "gap", "no blade has a gap above 40 mm or below 20 mm"),
        (GAP, "gap", "no blade has a gap of 40 mm"),
        (GAP, "gap", "none of which exceeds 40 mm when hot"),
        (CELLS, "height of the cells", "only some of which are bigger than 3 mm"),
        (CELLS, "height of the cells", "some cells are of substantially equal height"),
        (CELLS, "height of the cells", "the cells are not of substantially equal height"),
        # The end of 'from 20 to 80 %'?
        ("charged  share in %", "charged", "to 80 %"),
        ("rise  temperature difference in K", "rise", "to at least 5 K"),
        (GAP, "gap", "in no case 5 mm"),
        ('weight loss  share in %  "of the mass"', "weight loss", "at most 2 % of the mass is retained"),
        ('weight loss  share in %  "of the mass"', "weight loss", "retains at least 98 % of its mass"),
        ('retention  share in %  "of the mass"', "retention", "losing less than 2 % of its mass"),
        (CELLS, "height of the cells", "not only one of which exceeds 3 mm"),
        (BOLTS, "bolts", "a prime number of bolts"),
        (BOLTS, "bolts", "two boxes of 10 bolts each"),
        (SHELF, "shelf life", "at least 9 or up to 18 months"),
        (SHELF, "shelf life", "at least 9 and preferably 18 months"),
        ("glucan  concentration in g/ml", "glucan", "0.4 g or more per portion"),
        ("mass  mass in g", "mass", "losing no more than 5% of its mass"),
        (SOLIDS, "solids", "almost entirely free of solids"),
        (SOLIDS, "solids", "does not amount to 5 wt%"),
        ('thick  length in mm  "thickness"', "thick", "4 mm wide or wider"),
        (FREEZER, "storage", "5 °C or cooler than the air"),
        ("speed  speed in m/s", "speed", "5 m/s or colder"),
        ('free  share in %  "free volume"', "free", "at least half full"),
        (TANK, "tank", "half empty"),
        (GAP, "gap", "2 500 mm"),
        (GAP, "gap", "at most 5 mm as measured at three points"),
        ("use  time in h", "use", "up to 8 hours per patient"),
        (GAP, "gap", "±0.1 mm or better"),
        (GAP, "gap", "a gap from 2 mm to the maximum"),
        (GAP, "gap", "a gap of 2 mm between the plates and at least twice the thickness"),
        (GAP, "gap", "a gap of 2 mm between the plates when closed"),
        (GAP, "gap", "a gap of 2 mm between all adjacent plates"),
        (GAP, "gap", "the gap between the plates differs by at most 2 mm"),
        ("width  length in mm", "width", "a width of at most 3 mm from the rim"),
        ("gap, rail  length in mm", "gap", "a gap of 2 mm between the rail and the plate"),
        ("delay  time in ms\nheating  step in min", "delay", "a delay of 5 ms from the heating"),
        ("hole diameter  length in mm", "hole diameter", "a distance of 3 to 5 mm between the holes"),
        (AUC, "AUC fed", "the AUC in the fasted state is at least 80 ng.h/mL"),
        (AUC, "AUC fed, AUC fasted", "at least twice the AUC in the fed state"),
        (AUC, "AUC fed, AUC fasted", "the AUC not in the fed state is at most that in the fasted state"),
        (SLOTS, "candidates", "at least four candidates per two slots"),
        (SLOTS, "candidates", "at least four candidates per carrier"),
        (SLOTS, "candidates", "an average of four candidates per slot"),
        ("candidates  count", "candidates", "not more than 44 candidates per slot"),
        (NODES, "memories, processors", "a plurality of memories and the processor"),
        (NODES, "memories, processors, tables", "a plurality of memories, processors or tables"),
        ("cells, batteries  count", "cells", "a plurality of the secondary batteries"),
        (D50, "D90", "the median diameter is 5 to 40 μm"),
        (D50, "D50", "the median radius is 5 to 40 μm"),
        (D50, "D50", "the mean diameter is 5 to 40 μm"),
        ("release  share in %", "release", "at least 80 % not within 30 min"),
        ("errors  count", "errors", "at most 3 errors within 30 s"),
        (AGENT, "agent", "carbon tubes are contained in the layer"),
        (
            f"tubes, black  share in wt%\n{AGENT}",
            "agent, tubes",
            "when soot is contained, the content of the black is at most 1 wt%",
        ),
        (
            "inlet pressure  pressure in bar",
            "inlet pressure",
            "the pressure drop at the inlet is at least 5 bar",
        ),
        # how much less of it there is, and not how much
        ("loss  share in %", "loss", "reduces the loss by at least 10 %"),
        ("loss  share in %", "loss", "reducing the overall loss by at least 10 %"),
        ("loss  share in %", "loss", "reduces the loss by 10 to 20 %"),
        ("loss  share in %", "loss", "reduces the loss at least 10 %"),
        ("loss  share in %", "loss", "cutting the loss by 10 %"),
        ("loss  share in %", "loss", "increases the loss by at most 10 %"),
        ("loss  share in %", "loss", "the loss is not reduced by more than 10 %"),
        ("loss  share in %", "loss", "the loss is not lowered by 10 % or more"),
        ("voltage drop  voltage in V", "voltage drop", "reduces the voltage drop by at least 2 V"),
        ("drop  pressure in bar", "drop", "the pressure drops to at least 2 bar"),
        ("power  power in W", "power", "power savings of at least 30 W"),
        # what such a value is, and not that it is so
        ("power  power in W", "power", "a power of more than 30 W being impossible"),
        ("power  power in W", "power", "a power of more than 30 W is inadmissible"),
        ("power  power in W", "power", "a power above 30 W is a failure"),
        ("power  power in W", "power", "a power above 30 W is acceptable"),
        ("power  power in W", "power", "protected against a power of more than 30 W"),
        ("power  power in W", "power", "incapable of exceeding 30 W"),
        ("power  power in W", "power", "a power capable of exceeding 30 W"),
        ("gap  length in mm", "gap", "2 mm to infinity"),
        # only the ratio turned round would have this unit, or none
        (
            TANK,
            "contact area, tank volume",
            "the ratio of the contact area to the tank volume is 0.12 to 0.5 gal/ft2",
        ),
        (HERBS, "leaves, water", "a ratio of the leaves to the water of 0.05 to 0.2"),
        (HERBS, "leaves, water", "a ratio of the leaves to the water of 0.05 to 0.2 mL/g"),
        ("rib, land  length in mm", "rib, land", "a ratio of the rib to the land of 2 to 5 mm"),
        *(
            ("doses  count", "doses", words)
            for words in (
                "three times a week",
                "one to three times a week",
                "at least two doses a week",
                "twice daily",
                "three doses an hour",
                "three doses per week",
                "three doses each week",
                "at most 3 a day",
            )
        ),
        ("lift  length in mm", "lift", "a positive lift of not greater than 0.2 mm"),
        ("lift  length in mm", "lift", "the positive lift is at most 0.2 mm"),
        # of when each of several is, no limit of each
        *(
            (INJECTIONS, "moment of the injections", words)
            for words in (
                "over a period of 2 to 4 days",
                "within 2 to 3 days",
                "within 48 hours or 60 hours",
                "two to four injections in seven days",
            )
        ),
        ("salt, sugar  share in wt%", "salt, sugar", "salt is not more than 5 wt% or less than the sugar"),
    ],
)
def test_what_may_say_something_else_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        ("content  in mg/g", "content", "2 to 5 mg of salt per gram of tablet", ["of salt' and 'of tablet"]),
        ('content  in mg/g  "per gram of tablet"', "content", "2 to 5 mg per gram of tablet", []),
        ("dose  in mg/kg", "dose", "2 to 5 mg of nutrient per kg of body weight", ["of nutrient"]),
        (LIQUOR, "copper salt", "the copper salt is at most 30 wt% of the liquor", ["of the liquor"]),
        ("leakage  in mL/min", "leakage", "the leakage of each valve is at most 5 mL/min", ["each valve"]),
        ('leakage  in mL/min  "of each valve"', "leakage", "each valve has a leakage of 5 mL/min", []),
        (
            "leakage  in mL/min",
            "leakage",
            "the leakage at an inlet pressure of 210 bar is below 15 mL/min",
            ["at an inlet pressure of 210 bar"],
        ),
        ("rib width  length in mm", "rib width", "each of the ribs is 3 mm wide", ["each of the ribs"]),
        (
            "notch angle  angle in deg",
            "notch angle",
            "each of the notches having an opening angle which lies in a range from 60° to 90°",
            ["each of the notches"],
        ),
        (
            "notch  part, up to 4\n  angle  angle in deg",
            "angle of the notches",
            "each of the notches having an opening angle of 60° to 90°",
            ["an opening"],
        ),
        ("width  length in mm", "width", "a nominal outer width of about 16 mm", ["nominal outer"]),
        ("rim width  length in mm", "rim width", "a nominal width of at most 16 mm", ["nominal"]),
        ("grammage  in g/m2", "grammage", "a basis weight of at least 180 g/m2", ["a basis weight of"]),
        (HOPS, "hop distance", "channels spaced apart by at least 200 kHz", ["channels"]),
        (REQUESTS, "zones of the requests", "each request of a user has two zones", ["of a user"]),
        (CELL, "cell voltage", "none of which exceeds 4.2 V", []),
        ("blade  length in mm", "blade", "none of which exceeds 40 mm", ["none of which"]),
        ('samples  count  "in one window"', "samples", "windows of 2048 to 8192 samples each", []),
        ("pills  count", "pills", "packs of 10 pills each", ["packs"]),
        ("sensors  count", "sensors", "two or more temperature sensors", ["temperature"]),
        (
            'offset  length in mm  "distance from the middle"',
            "offset",
            "not further than 20 mm from it",
            ["from it"],
        ),
        ("use  time in h", "use", "up to 8 hours per day", ["per day"]),
        ('use  time in h  "per day"', "use", "up to 8 hours per day", []),
        (GAP, "gap", "at most 5 mm, as measured with a dial gauge", ["as measured with a dial gauge"]),
        (
            "paste  viscosity in Pa.s",
            "paste",
            "a viscosity at room temperature not exceeding 20 Pa·s",
            ["at room temperature"],
        ),
        (
            "weight loss  share in %",
            "weight loss",
            "losing no more than 5 % of its colour",
            ["of its colour"],
        ),
        (
            'weight loss  share in %  "of the mass"',
            "weight loss",
            "at most 2 % of the mass is lost per year",
            ["per year"],
        ),
        (
            GAP,
            "gap",
            "a lid gap, measured at the rim, of < 2 mm",
            ["lid", "measured at the rim"],
        ),
        (
            "strength  stress in MPa",
            "strength",
            "develops a compressive strength, at 28 days, of at least 50 MPa",
            ["develops a compressive", "at 28 days"],
        ),
        ("bottles  count", "bottles", "a crate for at least 12 bottles", ["a crate for"]),
        (
            "purge  in L/min",
            "purge",
            "purging with nitrogen at 2 L/min or faster",
            ["purging with nitrogen at"],
        ),
        ("fat  share in wt%", "fat", "2 to 5 wt%, calculated as fat", []),
        (
            "sodium  share in wt%",
            "sodium",
            "2 to 5 wt%, calculated as sodium chloride",
            ["calculated as sodium chloride"],
        ),
        (
            "carbon atoms  count",
            "carbon atoms",
            "a linear or branched alkyl group having 6 carbon atoms",
            ["a linear or branched alkyl group having"],
        ),
        ("carbon atoms  count", "carbon atoms", "a C1-C6 alkyl group", ["alkyl group"]),
        ("retries  count", "retries", "resending the packet up to three times", ["resending the packet"]),
        ("duty  share in %", "duty", "a duty cycle above 45 %", ["cycle"]),
        ("version  count", "version", "a version number larger than 7", []),
        ('struts  count  "of each ring"', "struts", "each ring has at least eight struts", []),
        (TANK, "tank", "at most 80 % full", []),
        ("tank  share in %", "tank", "at most 80 % full", ["full"]),
        (GAP, "gap", "a gap of 2 mm to 3 mm between the plates", ["between the plates"]),
        ('gap  length in mm  "between the plates"', "gap", "a gap of 2 mm between the plates", []),
        ('gap  length in mm  "between the rails"', "gap", "2 mm between the plates", ["between the plates"]),
        (SLOTS, "candidates", "not more than 44 candidates per slot", []),
        ("release  share in %", "release", "no more than 25 % within one hour", ["within one hour"]),
    ],
)
def test_what_is_read_past_is_told(declared: str, left: str, words: str, told: list[str]) -> None:
    text = f"profile  US court\n{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"
    _, found = read_sheet(Source("t.sheet", text))
    told_of = [f"'{t}' {'are' if ' and ' in t else 'is'} read past" for t in told]
    assert [d.message for d in found if "read past" in d.message] == told_of


@pytest.mark.parametrize(
    ("words", "in_all", "presumed"),
    [
        ("does not vary by more than 3 K", "<= 3 K", "so much in all"),
        ("does not vary by more than ±3 K", "<= 3 K", "so much to either side"),
        ("varies by less than 3 K", "< 3 K", "so much in all"),
        ("is held constant to within ±3 K", "<= 3 K", "so much to either side"),
    ],
)
def test_a_variation_in_time_lies_between_the_highest_and_the_lowest(
    words: str, in_all: str, presumed: str
) -> None:
    declared = "baking  step in h\n  heat  temperature in degC"
    text = f"{declared}\n\n1. A way, {words}.\n   | heat of baking : {words}\n"
    made = sheet(text)
    (group,) = made.groups
    assert group.readings[group.base].label == presumed
    read = next(n for n in nodes(made.claims[0].limitations[0].formula) if isinstance(n, Read))
    assert written(made, read.options[0]) == f"highest heat of baking - lowest heat of baking {in_all}"
    refused = ("varies by more than 3 K", "does not vary by less than 3 K", "varies by at least 3 K")
    assert all(errors(text.replace(words, other)) for other in refused)


def test_substantially_equal_parts_may_differ_and_equal_ones_not() -> None:
    words = "all cells are of substantially equal height"
    made = sheet(f"{CELLS}\n\n1. A thing, {words}.\n   | height of the cells : {words}\n")
    (group,) = made.groups
    assert [(r.label, r.standing) for r in group.readings] == [
        ("near enough for the purpose", "presumed"), ("as made", "arguable"), ("exact", "strained")
    ]  # fmt: skip


def test_some_at_least_may_be_all() -> None:
    words = "at least some of the cells are higher than 3 mm"
    made = sheet(f"{CELLS}\n\n1. A thing, {words}.\n   | height of the cells : {words}\n")
    labels = {tuple(r.label for r in g.readings) for g in made.groups}
    assert ("one or more", "two or more") in labels


def test_prime_numbers_are_written_out_up_to_the_greatest() -> None:
    (wrong,) = errors(
        "teeth  count, <= 12\n\n1. A gear of a prime number of teeth.\n   | teeth : a prime number\n"
    )
    assert wrong.help.endswith("exactly teeth = 2 OR teeth = 3 OR teeth = 5 OR teeth = 7 OR teeth = 11")


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        (SHARES, "acid, base", "twice as much acid as base by weight", False),
        (SHARES, "acid, base", "twice as much acid as base by volume", True),
        ('fill  share in vol%  "of the mill"', "fill", "60 to 80% of the volume of the mill", False),
        ('fill  share in vol%  "of the mill"', "fill", "60 to 80% of the mill", True),
    ],
)
def test_a_basis_that_is_said_is_told_of_only_where_it_is_another(
    declared: str, left: str, words: str, told: bool
) -> None:
    text = f"profile  US court\n{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"
    made, found = read_sheet(Source("t.sheet", text))
    assert made is not None
    assert any(" read as " in d.message for d in found) is told


@pytest.mark.parametrize(
    ("declared", "left", "words", "labels"),
    [
        (SHARES, "acid", "exceeds the base by at least a third", ["by that share"]),
        ("gain, loss  share in %", "loss", "exceeds the gain by at least half", ["by that share"]),
        (RAKE, "length of the tines", "differs from tine to tine by less than 10%",
         ["any two of them, by a share of the lesser", "any two of them, by a share of the greater"]),
        ("tine  part, up to 2\n  purity  share in wt%", "purity of the tines",
         "differs from tine to tine by less than 10%",
         ["any two of them", "any two of them, by a share of the lesser",
          "any two of them, by a share of the greater"]),
    ],
)  # fmt: skip
def test_a_fraction_is_one_of_the_other(declared: str, left: str, words: str, labels: list[str]) -> None:
    made, _ = read_sheet(Source("t.sheet", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert made is not None
    assert [r.label for r in made.groups[0].readings] == labels


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("a pressure of at least 40 bar absolute", "at least 40 bar absolute"),
        ("a pressure of between 40 and 80 bar absolute", "between 40 and 80 bar absolute"),
        ("the pressure of more than 40 bar absolute", "more than 40 bar absolute"),
    ],
)
def test_a_pressure_whose_unit_tells_its_zero_has_no_reading_on_another(words: str, plain: str) -> None:
    text = (
        "profile  US court\npressure  absolute pressure in bar(a)\n\n1. A thing, {0}.\n   | pressure : {0}\n"
    )
    first, second = (sheet(text.format(w)).groups[0] for w in (words, plain))
    assert [(r.label, r.standing) for r in first.readings] == [(r.label, r.standing) for r in second.readings]


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        (CURRENTS, "sleep current, wake current", "less than half of this current",
         ["'this current' is read as wake current"]),
        ("latency  time in ms", "latency", "on average less than 5 ms",
         ["'on average' is taken as said of latency as it is declared"]),
        ("latency  time in ms", "latency", "a latency of less than 5 ms on average",
         ["'on average' is taken as said of latency as it is declared"]),
        ('latency  time in ms  "average"', "latency", "on average less than 5 ms", []),
        ("moisture  share in wt%", "moisture", "the powder is dried to a residual moisture of 5 wt%",
         ["'powder' and 'residual' are read past"]),
        ("Mw  in g/mol", "Mw", "a number average molecular weight of at least 5000 g/mol",
         ["the words say 'number', and Mw is noted \"Mw\"",
          "'a number average molecular weight of' is read past"]),
    ],
)  # fmt: skip
def test_what_the_words_are_taken_for_is_told(declared: str, left: str, words: str, told: list[str]) -> None:
    text = f"profile  US court\n{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"
    made, found = read_sheet(Source("t.sheet", text))
    assert made is not None
    assert [d.message for d in found] == told


@pytest.mark.parametrize("left", ["leakage, inlet pressure", "inlet pressure, leakage"])
@pytest.mark.parametrize(
    "words",
    [
        "at an inlet pressure of 210 bar, the leakage is below 15 mL/min",
        "the leakage at an inlet pressure of 210 bar is below 15 mL/min",
    ],
)
def test_a_condition_stays_one_in_either_order(left: str, words: str) -> None:
    made = sheet(f"profile  US court\n{VALVES}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    labels = [(r.label, r.standing) for r in made.groups[-1].readings]
    assert labels == [("wherever it is so", "presumed"), ("it is so, and the limit", "presumed")]


def test_what_the_words_name_besides_is_to_be_written_left_of_the_colon() -> None:
    words = "the leakage at an inlet pressure of 210 bar is below 15 mL/min"
    _, found = read_sheet(Source("t.sheet", f"{VALVES}\n\n1. A thing, {words}.\n   | leakage : {words}\n"))
    assert found[0].help == f"write: inlet pressure, leakage : {words}"


def test_the_symbols_told_limit_from_the_side_of_the_words() -> None:
    text = "gap  length in mm\n\n1. A thing, {0}.\n   | gap : {0}\n"
    for words, sign in (("frobbed by no less than 5 mm", ">="), ("frobbed by no more than 5 mm", "<=")):
        _, found = read_sheet(Source("t.sheet", text.format(words)))
        assert f"gap {sign} ... mm" in found[0].help


SALT = "salt  share in wt%"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("is present in an amount of at most 2 wt%", "(salt > 0 and salt <= 2 wt%)"),
        ("contains salt in an amount of at most 2 wt%", "(salt > 0 and salt <= 2 wt%)"),
        ("contains salt, in an amount of not more than 2 wt%", "(salt > 0 and salt <= 2 wt%)"),
        ("comprises salt of less than 2 wt%", "(salt > 0 and salt < 2 wt%)"),
        ("containing salt at a level of up to 2 wt%", "(salt > 0 and salt <= 2 wt%)"),
        ("salt is present in an amount of 2 wt% or less", "(salt > 0 and salt <= 2 wt%)"),
        ("is present in an amount other than 2 wt%", "(salt > 0 and salt != 2 wt%)"),
        # none of these says that it is there
        ("contains at most 2 wt% of salt", "salt <= 2 wt%"),
        ("salt in an amount of at most 2 wt%", "salt <= 2 wt%"),
        ("optionally present in an amount of at most 2 wt%", "(salt = 0 or (salt <= 2 wt%))"),
        ("salt, if present, in an amount of at most 2 wt%", "(salt = 0 or (salt <= 2 wt%))"),
        # a least amount says so by itself
        ("contains salt in an amount of 1 to 2 wt%", "(1 wt% <= salt and salt <= 2 wt%)"),
        ("is present in an amount of at least 2 wt%", "salt >= 2 wt%"),
    ],
)
def test_what_is_said_to_be_present_is_there(words: str, said: str) -> None:
    assert presumed_in_symbols(SALT, "salt", words) == said


TWO = "salt, sugar  share in wt%"
MIX = "mix  composition in wt%\n  salt, sugar, water"


@pytest.mark.parametrize(
    ("declared", "left", "words", "said"),
    [
        (MIX, "mix", "contains salt and sugar in a total amount of at most 2 wt%",
         "(salt > 0 and sugar > 0 and salt + sugar <= 2 wt%)"),
        (TWO, "salt, sugar", "contains salt and sugar in a total amount of not more than 2 wt%",
         "(salt > 0 and sugar > 0 and salt + sugar <= 2 wt%)"),
        (MIX, "mix", "contains salt in an amount of at most 2 wt%", "(salt > 0 and salt <= 2 wt%)"),
        (MIX, "mix", "contains salt and sugar in amounts of at most 2 wt% and at most 5 wt%, respectively",
         "(salt > 0 and sugar > 0 and (salt <= 2 wt% and sugar <= 5 wt%))"),
        (TWO, "salt, sugar", "are each present in an amount of at most 2 wt%",
         "(salt > 0 and sugar > 0 and (salt <= 2 wt% and sugar <= 2 wt%))"),
        (TWO, "salt, sugar", "both present in an amount of at most 2 wt%",
         "(salt > 0 and sugar > 0 and (salt <= 2 wt% and sugar <= 2 wt%))"),
        (TWO, "salt, sugar",
         "salt is present in an amount of at most 2 wt% and sugar in an amount of at most 5 wt%",
         "(salt > 0 and sugar > 0 and (salt <= 2 wt% and sugar <= 5 wt%))"),
        (TWO, "salt, sugar",
         "salt and sugar are present in amounts of at most 2 wt% and 5 wt%, respectively",
         "(salt > 0 and sugar > 0 and (salt <= 2 wt% and sugar <= 5 wt%))"),
        (TWO, "salt, sugar", "are present in a total amount of at most 2 wt%",
         "(salt > 0 and sugar > 0 and salt + sugar <= 2 wt%)"),
        (TWO, "salt, sugar", "salt is present in an amount of at most 2 wt% when sugar is present",
         "if sugar > 0 then (salt > 0 and salt <= 2 wt%)"),
        ("ribs  count", "ribs", "are present in a number of at most 4", "(ribs > 0 and ribs <= 4)"),
        # a least amount says so by itself
        (TWO, "salt, sugar",
         "salt is present in an amount of at most 2 wt% and sugar in an amount of at least 5 wt%",
         "(salt > 0 and (salt <= 2 wt% and sugar >= 5 wt%))"),
        (MIX, "mix", "contains salt and sugar in a total amount of at least 2 wt%", "salt + sugar >= 2 wt%"),
        # none of these says that each is there
        (MIX, "mix", "contains salt and/or sugar in a total amount of at most 5 wt%",
         "salt + sugar <= 5 wt%"),
        (MIX, "mix", "contains no salt and sugar in an amount of at most 5 wt%",
         "(salt = 0 and sugar <= 5 wt%)"),
        (TWO, "salt, sugar", "are not each present in an amount of at most 2 wt%",
         "not (salt <= 2 wt% and sugar <= 2 wt%)"),
        ("ribs  count", "ribs", "are not present in a number of more than 4", "not ribs > 4"),
    ],
)  # fmt: skip
def test_what_is_said_to_be_present_of_several_is_there(
    declared: str, left: str, words: str, said: str
) -> None:
    assert presumed_in_symbols(declared, left, words) == said


def test_what_is_said_to_be_present_may_be_none() -> None:
    _, readings = all_readings(SALT, "salt", "is present in an amount of at most 2 wt%")
    assert [
        ("some must be present", "presumed"),
        ("as much as the limit allows, or none", "arguable"),
    ] in readings
    content = presumed_in_symbols(
        "salt content  share in wt%", "salt content", "has a salt content of at most 2 wt%"
    )
    assert content == "salt content <= 2 wt%"


def test_a_tolerance_may_be_the_whole_width() -> None:
    _, (readings,) = all_readings("gap  length in mm", "gap", "3 mm with a tolerance of 0.1 mm")
    assert ("that wide in all", "arguable") in readings
    _, (readings,) = all_readings("gap  length in mm", "gap", "3 mm with a tolerance of ± 0.1 mm")
    assert "that wide in all" not in [label for label, _ in readings]


METAL = "metal  any of copper, zinc, tin, lead"


@pytest.mark.parametrize(
    ("words", "within", "outside"),
    [
        ("copper alone or together with zinc", "metal = {copper, zinc}", "metal = {copper, lead}"),
        ("copper alone or in combination with zinc or tin", "metal = {copper}", "metal = {copper, lead}"),
    ],
)
def test_alone_or_together_lets_in_nothing_else(words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(METAL, "metal", words, within, outside)


@pytest.mark.parametrize("words", ["no more than one of zinc and tin", "not more than one of zinc and tin"])
def test_what_a_line_lets_in_is_not_shut_out_by_nothing_else(words: str) -> None:
    made = sheet(f"{METAL}\n\n1. A thing, wherein copper and {words}.\n   | metal : copper and {words}\n")
    (first, _) = made.claims[0].limitations[0].groups
    read = next(n for n in nodes(made.claims[0].limitations[0].formula) if isinstance(n, Read))
    labels = [r.label for r in made.groups[first].readings]
    closed = read.options[labels.index("these and nothing else")]
    assert "zinc" not in repr(closed)
    assert "lead" in repr(closed)


SHOTS = "shot  part, 1 to 7\n  moment  time in h"
LOADS = "cone  part, 1 to 4\n  load  share in %"


@pytest.mark.parametrize(
    ("declared", "left", "words", "plain"),
    [
        ("heat  temperature in degC", "heat", "at or about 20 °C", "about 20 °C"),
        ("heat  temperature in degC", "heat", "not at or about 20 °C", "not about 20 °C"),
        ("force  number", "force", "of or about 1500 up to about 2000", "about 1500 up to about 2000"),
        (LOADS, "load of the cones", "on each cone is substantially equal", "substantially equal"),
        (SHOTS, "moment of the shots", "at least one day between every shot", "at least one day apart"),
        (SHOTS, "moment of the shots", "at least one day between two shots", "at least one day apart"),
        (SHOTS, "moment of the shots", "at most one day between two shots", "at most one day apart"),
    ],
)
def test_a_wording_is_read_as_the_plain_one(declared: str, left: str, words: str, plain: str) -> None:
    both = [
        read_sheet(Source("t", f"{declared}\n\n1. A thing, wherein {w}.\n   | {left} : {w}\n"))[0]
        for w in (words, plain)
    ]
    first, second = (None if s is None else repr(s.claims[0].limitations[0].formula) for s in both)
    assert first is not None
    assert first.replace(words, plain) == second


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (LOADS, "load of the cones", "on each cone is not substantially equal"),
        (LOADS, "load of the cones", "on each cone is substantially unequal"),
        (SHOTS, "moment of the shots", "at least one day between the first two shots"),
        ("rib  part, 1 to 7\n  height  length in mm", "height of the ribs", "at least 5 mm between two ribs"),
    ],
)
def test_a_neighbour_of_it_is_refused(declared: str, left: str, words: str) -> None:
    assert (
        read_sheet(Source("t", f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n"))[0]
        is None
    )
