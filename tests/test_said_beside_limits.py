"""What stands beside a limit: when it holds, what else there is, of which it is, and what is left out.

Each wording with a thing that it takes in as presumed, and one that it does not. By hand; common practice in
the wording of claims, no source, but for `group consisting of` beside an amount: MPEP 2111.03 II [R-01.2024],
citing Multilayer Stretch Cling Film Holdings v. Berry Plastics, 831 F.3d 1350 (Fed. Cir. 2016).
"""

from __future__ import annotations

import pytest

from tests.sheets import errors, on_the_wrong_side, presumed_in_symbols, sheet

DISSOLVED = "dissolved  share in wt%\nmoment  time in min"
YIELD = "yield  share in %\nheat  temperature in degC\npressure  pressure in bar"
PLATES = "plates  count\nthickness  length in mm"
GROOVES = "grooved  any of bottom, top, side"
RIBS = "ribs  count\nheight  length in mm"
OIL = "oil  share in wt%"
GLAZE = "oil, gum, resin  mass in g"
LAYERS = "layers  count"
GLUE = "glue  any of resin, rubber, starch"
FOIL = "foil  part, 1 to 3\n  thickness  length in mm"
LENSES = "f1, f2  length in mm, >= -9 mm, <= 9 mm"
GAPS = "gap, rim  length in mm"
FOILS = "foil  part, 0 to 3\n  thickness  length in mm"
STEPS = (
    "moulding  step in h\nadding fibres  step in h\ncovering  step in h, may be left out\n"
    "heat  temperature in degC"
)
TABLET = "tablet  composition in wt%\n  drug\n  binder : povidone, cellulose, starch"

READ = [
    (DISSOLVED, "dissolved, moment", "less than 70 wt% at 45 minutes",
     "dissolved = 90 wt%, moment = 90 min", "dissolved = 90 wt%, moment = 45 min"),
    (DISSOLVED, "dissolved, moment", "20 to 70 wt% at an age of 45 minutes",
     "dissolved = 90 wt%, moment = 90 min", "dissolved = 90 wt%, moment = 45 min"),
    (YIELD, "yield, heat", "at least 90 % over 40 °C",
     "yield = 20 %, heat = 40 degC", "yield = 20 %, heat = 60 degC"),
    (YIELD, "yield, pressure", "at least 90 % under 5 bar",
     "yield = 20 %, pressure = 5 bar", "yield = 20 %, pressure = 4 bar"),
    (YIELD, "yield, pressure", "at least 90 % under a pressure of 5 bar",
     "yield = 20 %, pressure = 4 bar", "yield = 20 %, pressure = 5 bar"),
    (PLATES, "plates, thickness", "three plates with a thickness of 2 to 3 mm",
     "plates = 3, thickness = 2 mm", "plates = 0, thickness = 10 mm"),
    (PLATES, "plates, thickness", "no more than three plates with a thickness of more than 3 mm",
     "plates = 9, thickness = 2 mm", "plates = 9, thickness = 4 mm"),
    (PLATES, "plates, thickness", "no plates with a thickness of more than 3 mm",
     "plates = 9, thickness = 2 mm", "plates = 1, thickness = 4 mm"),
    (YIELD, "yield, heat", "at least 90 % at over 40 °C",
     "yield = 20 %, heat = 40 degC", "yield = 20 %, heat = 60 degC"),
    ("height, rim  length in mm", "height, rim", "a height over 80 mm with a rim under 4 mm",
     "height = 81 mm, rim = 3 mm", "height = 1 mm, rim = 9 mm"),
    ("open  one of only yes, no\nheat  temperature in degC", "open, heat",
     "opens when the heat has fallen below 40 °C", "open = no, heat = 50 degC", "open = no, heat = 30 degC"),
    (GROOVES, "grooved", "on each of the bottom and the top", "grooved = {bottom, top}", "grooved = {top}"),
    (GROOVES, "grooved", "on at least one of the bottom and the top", "grooved = {bottom, top}",
     "grooved = {side}"),
    (GROOVES, "grooved", "not at the bottom or the top but at the side",
     "grooved = {side}", "grooved = {bottom, top, side}"),
    (GROOVES, "grooved", "is not present in the bottom or in the top",
     "grooved = {side}", "grooved = {bottom, top}"),
    (GROOVES, "grooved", "not on the bottom and the top", "grooved = {side}", "grooved = {bottom}"),
    (LAYERS, "layers", "two to four layers of ink", "layers = 4", "layers = 1"),
    (LAYERS, "layers", "at least two layers of cured ink", "layers = 2", "layers = 1"),
    (FOIL, "thickness of the foils", "a foil with a thickness of 2 to 3 mm",
     "foils = 2, thickness of foil 1 = 2 mm, thickness of foil 2 = 9 mm",
     "foils = 2, thickness of foil 1 = 1 mm, thickness of foil 2 = 9 mm"),
    (TABLET, "binder", "1 to 5 wt% of a binder selected from povidone and cellulose",
     "drug = 97 wt%, povidone = 3 wt%, cellulose = 0 wt%, starch = 0 wt%",
     "drug = 92 wt%, povidone = 0 wt%, cellulose = 0 wt%, starch = 8 wt%"),
    ("fibre length  length in mm\nfibre diameter  length in um", "fibre length, fibre diameter",
     "the fibres have a length of 3 mm to 12 mm and a diameter of less than 15 µm",
     "fibre length = 5 mm, fibre diameter = 9 um", "fibre length = 5 mm, fibre diameter = 20 um"),
    ("rod length  length in mm\nrod mass  mass in g", "rod length, rod mass",
     "the rods have a length of 3 mm to 12 mm and a mass of 2 to 3 g",
     "rod length = 5 mm, rod mass = 3 g", "rod length = 5 mm, rod mass = 5 g"),
    ("length, width  length in mm", "length, width",
     "the rod has a length of 3 mm to 12 mm and a width of less than 2 mm",
     "length = 5 mm, width = 1 mm", "length = 1 mm, width = 1 mm"),
    (RIBS, "ribs, height", "four to eight ribs each having a height of 2 to 4 mm",
     "ribs = 5, height = 3 mm", "ribs = 2, height = 9 mm"),
    (RIBS, "ribs, height", "a plurality of ribs, each of which has a height of 2 to 4 mm",
     "ribs = 5, height = 3 mm", "ribs = 5, height = 9 mm"),
    ("dose  mass in mg\ninterval  time in h", "dose, interval", "a dose of 5 mg every 12 hours",
     "dose = 5 mg, interval = 12 h", "dose = 2 mg, interval = 4 h"),
    ("dose  mass in mg\ninterval  time in h", "dose, interval",
     "a dose of 5 mg at intervals of at least 12 hours",
     "dose = 5 mg, interval = 12 h", "dose = 5 mg, interval = 4 h"),
    ("overlap, width  length in mm", "overlap, width", "overlapping by at least one third of the width",
     "overlap = 5 mm, width = 10 mm", "overlap = 3 mm, width = 10 mm"),
    ("gap  length in mm", "gap", "up to 5 mm, preferably at least 2 mm but not more than 4 mm",
     "gap = 5 mm", "gap = 6 mm"),
    (OIL, "oil", "up to 5 wt%, more preferably 2 to 3 wt% but never less than 1 wt%",
     "oil = 4 wt%", "oil = 0.5 wt%"),
    ("water  share in ppm by mass", "water", "at least 150 parts per million by weight",
     "water = 150 ppm(m)", "water = 140 ppm(m)"),
    ("m, n  count", "m, n", "m is an integer of 1 or more and n is an integer of 2 or more",
     "m = 1, n = 2", "m = 2, n = 1"),
    ("m, n  count", "m, n", "m and n each independently represent an integer of 1 to 3",
     "m = 3, n = 3", "m = 1, n = 4"),
    ("strength  pressure in MPa\nelongation  share in %", "strength, elongation",
     "a tensile strength of at least 350 MPa and an elongation at break of at least 20 %",
     "strength = 350 MPa, elongation = 20 %", "strength = 350 MPa, elongation = 10 %"),
    ("identity  share in %", "identity", "at least 95 % sequence identity to SEQ ID NO: 1",
     "identity = 95 %", "identity = 94 %"),
    ("capacity  share in %\ncycles  count", "capacity, cycles", "at least 80 % after 500 cycles",
     "capacity = 80 %, cycles = 500", "capacity = 70 %, cycles = 500"),
    ("index  number", "index", "a refractive index of 1.50 to 1.60 at a wavelength of 587.6 nm",
     "index = 1.55", "index = 1.65"),
    ("tooth  part, up to 3\n  height  length in mm", "height of the teeth",
     "each tooth has a height of 2 to 3 mm",
     "teeth = 1, height of tooth 1 = 2 mm", "teeth = 1, height of tooth 1 = 1 mm"),
    ("tin, lead  share in wt%", "tin, lead", "not more than 5 wt% of either tin or lead",
     "tin = 5 wt%, lead = 5 wt%", "tin = 6 wt%, lead = 0 wt%"),
    ("height, width  length in mm", "height, width",
     "the height is equal to the width within a tolerance of 0.1 mm",
     "height = 5.1 mm, width = 5 mm", "height = 5.2 mm, width = 5 mm"),
    ('oil  share in wt%  "left-handed form"', "oil", "less than 0.25 wt% of its left-handed form",
     "oil = 0.2 wt%", "oil = 0.25 wt%"),
    (GROOVES, "grooved", "selected from top or side or both", "grooved = {top, side}", "grooved = {bottom}"),
    ("streams  count", "streams", "into a stream", "streams = 1", "streams = 0"),
    ("fibre length  length in mm\ndiameter  length in um", "fibre length, diameter",
     "fibres having a length of 3 mm to 12 mm and a diameter of less than 15 µm",
     "fibre length = 5 mm, diameter = 9 um", "fibre length = 5 mm, diameter = 20 um"),
    ("wavelength  length in nm", "wavelength", "light with a wavelength of 440 nm to 460 nm",
     "wavelength = 440 nm", "wavelength = 400 nm"),
    ("wavelength  length in nm", "wavelength", "light having a wavelength in the range of 440 nm to 460 nm",
     "wavelength = 440 nm", "wavelength = 400 nm"),
    ("identity  share in %", "identity", "at least 90 %, 95 % or 99 % identical to SEQ ID NO: 1",
     "identity = 91 %", "identity = 89 %"),
    ("heat  temperature in degC\ntime  time in min", "heat, time",
     "is baked at 200 to 220 °C for 20 to 30 minutes",
     "heat = 200 degC, time = 20 min", "heat = 200 degC, time = 10 min"),
    ("heat  temperature in degC\ntime  time in min", "heat, time",
     "baked at 200 to 220 °C for 20 to 30 minutes",
     "heat = 200 degC, time = 20 min", "heat = 190 degC, time = 20 min"),
    ("tin, lead  share in wt%", "tin, lead",
     "at least one softener selected from tin and lead in an amount of 2 to 10 wt%",
     "tin = 5 wt%, lead = 5 wt%", "tin = 8 wt%, lead = 8 wt%"),
    ("tin, lead  share in wt%", "tin, lead",
     "tin or lead, or a combination thereof, in an amount of 2 to 10 wt%",
     "tin = 5 wt%, lead = 5 wt%", "tin = 1 wt%, lead = 0 wt%"),
    ("rib  part, up to 3\n  height  length in mm", "height of the ribs",
     "the height of adjacent ribs differs by at most 0.5 mm",
     "ribs = 2, height of rib 1 = 2 mm, height of rib 2 = 2.5 mm",
     "ribs = 2, height of rib 1 = 2 mm, height of rib 2 = 3 mm"),
    ("index  part, up to 3\n  height  length in mm", "height of the indexes", "each at least 2 mm",
     "indexes = 1, height of index 1 = 2 mm", "indexes = 1, height of index 1 = 1 mm"),
    ("dose  mass in mg\ninterval  time in h", "dose, interval",
     "a dose of 5 mg at an interval of 12 hours",
     "dose = 5 mg, interval = 12 h", "dose = 2 mg, interval = 4 h"),
    (OIL, "oil", "over 0.05 to 0.10 wt%", "oil = 0.06 wt%", "oil = 0.05 wt%"),
    (OIL, "oil", "an oil content of over 2 wt% to 5 wt%", "oil = 3 wt%", "oil = 2 wt%"),
    (OIL, "oil", "contains over 2 to 5 wt% of oil", "oil = 5 wt%", "oil = 2 wt%"),
    ("heat  temperature in degC", "heat", "10 to 20 °C below 135 °C", "heat = 115 degC", "heat = 126 degC"),
    ("heat, melting point  temperature in degC", "heat, melting point",
     "10 to 20 K higher than the melting point",
     "heat = 145 degC, melting point = 135 degC", "heat = 125 degC, melting point = 135 degC"),
    ("width, base  length in mm", "width, base", "between 5 and 10 % wider than the base",
     "width = 110 mm, base = 100 mm", "width = 104 mm, base = 100 mm"),
    ("slope  ratio in mm/m", "slope", "by at most 4 mm per metre", "slope = 4 mm/m", "slope = 5 mm/m"),
    (GLAZE, "oil, gum, resin", "oil and gum in a total amount of 1 to 5 parts per 100 parts of resin",
     "oil = 2 g, gum = 2 g, resin = 100 g", "oil = 4 g, gum = 4 g, resin = 100 g"),
    (GLAZE, "oil, gum, resin",
     "at most 5 parts by weight in total of oil and gum per 100 parts by weight of the resin",
     "oil = 2 g, gum = 2 g, resin = 100 g", "oil = 4 g, gum = 4 g, resin = 100 g"),
    (GROOVES, "grooved", "comprises each of top and side", "grooved = {top, side}", "grooved = {top}"),
    (GROOVES, "grooved", "contains all of top and side", "grooved = {top, side}", "grooved = {top}"),
    ("stretch ratio  number", "stretch ratio", "by a factor of 4 to 8", "stretch ratio = 4",
     "stretch ratio = 9"),
    (TABLET, "binder",
     "1 to 5 % by weight of at least one binder selected from the group consisting of povidone, cellulose"
     " and mixtures thereof",
     "drug = 97 wt%, povidone = 2 wt%, cellulose = 1 wt%, starch = 0 wt%",
     "drug = 95 wt%, povidone = 2 wt%, cellulose = 0 wt%, starch = 3 wt%"),
    (TABLET, "binder",
     "1 to 5 wt% of at least one binder selected from the group consisting of povidone and cellulose",
     "drug = 97 wt%, povidone = 2 wt%, cellulose = 1 wt%, starch = 0 wt%",
     "drug = 95 wt%, povidone = 2 wt%, cellulose = 0 wt%, starch = 3 wt%"),
    (LENSES, "f1, f2", "0.5 < |f1/f2| < 1.2", "f1 = -1 mm, f2 = 1 mm", "f1 = 2 mm, f2 = 1 mm"),
    (LENSES, "f1, f2", "the conditional expression 0.5 ≤ |f1|/f2 ≤ 1.2 is satisfied",
     "f1 = -1 mm, f2 = 1 mm", "f1 = -1 mm, f2 = -1 mm"),
    (LENSES, "f1, f2", "satisfies the following condition: |f1 - |f2|| < 3 mm",
     "f1 = 1 mm, f2 = -2 mm", "f1 = -1 mm, f2 = 2 mm"),
    (LENSES, "f1, f2", "|f1/f2| is between 1.0 and 3.0", "f1 = -2 mm, f2 = 1 mm", "f1 = 4 mm, f2 = 1 mm"),
    (LENSES, "f1", "|f1| is at most 3 mm", "f1 = -3 mm", "f1 = -4 mm"),
    (LENSES, "f1, f2", "the absolute value of f1/f2 is between 0.5 and 1.2",
     "f1 = -1 mm, f2 = 1 mm", "f1 = -2 mm, f2 = 1 mm"),
    (LENSES, "f1, f2", "the magnitude of the ratio f1/f2 is more than 0.5",
     "f1 = -1 mm, f2 = 1 mm", "f1 = 1 mm, f2 = 4 mm"),
    (GAPS, "gap, rim", "the gap and the rim amount to at most 30 mm in total",
     "gap = 10 mm, rim = 20 mm", "gap = 20 mm, rim = 20 mm"),
    (GAPS, "gap, rim", "dimensions of at most 10 mm x 5 mm", "gap = 10 mm, rim = 5 mm",
     "gap = 5 mm, rim = 10 mm"),
    (GAPS, "gap, rim", "a size of 10 × 5 mm or less", "gap = 9 mm, rim = 4 mm", "gap = 9 mm, rim = 6 mm"),
    (GAPS, "gap, rim", "measuring 10 mm by 5 mm", "gap = 10 mm, rim = 5 mm", "gap = 9 mm, rim = 4 mm"),
    (GAPS, "gap, rim", "a thickness ratio of at least 2", "gap = 4 mm, rim = 2 mm", "gap = 2 mm, rim = 2 mm"),
    (GAPS, "gap, rim", "a thickness ratio gap/rim of at least 2", "gap = 4 mm, rim = 2 mm",
     "gap = 2 mm, rim = 2 mm"),
    (GAPS, "gap, rim", "the ratio of the gap to the rim is from 2 to 9, in particular 3 to 4",
     "gap = 9 mm, rim = 1 mm", "gap = 1 mm, rim = 1 mm"),
    (GAPS, "gap, rim", "gap or rim, or both, is at least 5 mm", "gap = 5 mm, rim = 1 mm",
     "gap = 1 mm, rim = 1 mm"),
    ("radius  length in mm", "radius", "a radius of curvature of 5 mm to 8 mm", "radius = 5 mm",
     "radius = 9 mm"),
    ("zoom ratio  number", "zoom ratio", "a zoom ratio of 3x to 5x", "zoom ratio = 4", "zoom ratio = 0.6"),
    (GAPS, "gap, rim", "at most 3x the rim", "gap = 3 mm, rim = 1 mm", "gap = 4 mm, rim = 1 mm"),
    ("gap  length in mm", "gap", "from 1 inch (25.4 mm) to 2 inches (51 mm)", "gap = 30 mm", "gap = 52 mm"),
    ("delay  time in s", "delay", "after a delay of at least 5 but not more than 10 s", "delay = 7 s",
     "delay = 11 s"),
    ("agent  share in wt% of glue", "agent", "0.1 to 5 wt%, based on 100 wt% of the glue", "agent = 4 wt%",
     "agent = 6 wt%"),
    ("tank  volume in L", "tank", "a tank holding up to 3 L", "tank = 3 L", "tank = 4 L"),
    ("width  length in mm", "width", "a width across the flats of 10 mm to 12 mm", "width = 10 mm",
     "width = 9 mm"),
    ("width  length in mm", "width", "the width in the axial direction is at least 3 mm", "width = 3 mm",
     "width = 2 mm"),
    (FOILS, "thickness of the foils", "each of the foils, if any, has a thickness of at most 3 mm",
     "foils = 0", "foils = 1, thickness of foil 1 = 4 mm"),
    (FOILS, "thickness of the foils", "the foils, if present, have a thickness of at most 3 mm",
     "foils = 1, thickness of foil 1 = 3 mm", "foils = 1, thickness of foil 1 = 4 mm"),
    (FOILS, "thickness of the foils", "each of said foils being thicker than the preceding one",
     "foils = 2, thickness of foil 1 = 3 mm, thickness of foil 2 = 4 mm",
     "foils = 2, thickness of foil 1 = 4 mm, thickness of foil 2 = 3 mm"),
    (FOILS, "thickness of the foils", "each of the foils independently has a thickness of 2 to 3 mm",
     "foils = 1, thickness of foil 1 = 3 mm", "foils = 1, thickness of foil 1 = 4 mm"),
    (STEPS, "moulding, adding fibres", "moulded at the earliest 24 hours after the adding of the fibres",
     "adding fibres from 0 h to 1 h, moulding from 30 h to 31 h",
     "adding fibres from 0 h to 1 h, moulding from 2 h to 90 h"),
    (STEPS, "moulding, adding fibres", "moulded no sooner than 24 hours after the fibres have been added",
     "adding fibres from 0 h to 1 h, moulding from 30 h to 31 h",
     "adding fibres from 0 h to 1 h, moulding from 2 h to 90 h"),
    (STEPS, "moulding, adding fibres", "subsequently adding the fibres",
     "moulding from 0 h to 1 h, adding fibres from 2 h to 3 h",
     "adding fibres from 0 h to 1 h, moulding from 2 h to 3 h"),
    (STEPS, "moulding, covering", "the plate is moulded after the covering",
     "covering from 0 h to 1 h, moulding from 2 h to 3 h",
     "moulding from 0 h to 1 h, covering from 2 h to 3 h"),
    (STEPS, "adding fibres", "the fibres are added over at least 2 hours",
     "adding fibres from 0 h to 2 h", "adding fibres from 0 h to 1 h"),
    (STEPS, "heat, covering", "if the heat is below 5 °C, the plate is covered for at least 3 hours",
     "heat = 4 degC, covering from 0 h to 3 h", "heat = 4 degC, covering from 0 h to 2 h"),
    (STEPS, "heat, covering", "the plate is covered if the heat is below 5 °C",
     "heat = 6 degC, covering not done", "heat = 4 degC, covering not done"),
    (STEPS, "covering, moulding", "the covering is finished within 2 hours of the moulding",
     "moulding from 0 h to 1 h, covering from 1 h to 2 h",
     "moulding from 0 h to 1 h, covering from 100 h to 101 h"),
]  # fmt: skip

REFUSED = [
    ("height, rim  length in mm", "height", "at least 80 mm, the rim excluded", "how height is measured"),
    ("height, rim  length in mm", "height, rim", "at least 80 mm, rim excluded", "how height is measured"),
    ("resin  any of epoxy, vinyl", "resin", "a vinyl other than epoxy", "what stands before it"),
    (TABLET, "binder, starch", "1 to 5 wt% of a binder selected from povidone and starch", "no limit of it"),
    (TABLET, "povidone, starch", "1 to 5 wt% of a binder selected from povidone and starch", "or several"),
    ("height, width  length in mm", "height, width", "a total height and a width of at most 300 mm", "alone"),
    (
        "height, width  length in mm",
        "height, width",
        "the overall height and the width are at most 9 mm",
        "alone",
    ),
    (
        "height, rim  length in mm",
        "height, rim",
        "the height and the rim are at most 5 mm and at least 8 mm, respectively, on average",
        "each thing alone",
    ),
    (
        "fibre length  length in mm\ndiameter  length in um",
        "fibre length, diameter",
        "the fibres have a length of 3 mm to 12 mm, a width of 2 mm and a diameter of less than 15 µm",
        "no phrase reads",
    ),
    (OIL, "oil", "1 to 5 wt%, preferably 2 to 3 wt% but not 4 wt%", "may be said of what is preferred"),
    (
        OIL,
        "oil",
        "up to 5 wt%, preferably up to 3 wt% but at least 1 wt%",
        "may be said of what is preferred",
    ),
    (OIL, "oil", "0.01 to 5 parts by weight of oil", "beside parts of something else"),
    (
        "oil, gum  share in wt%",
        "oil, gum",
        "5 to 10 parts by weight of oil and 20 to 30 parts by weight of gum",
        "beside parts of something else",
    ),
    (OIL, "oil", "contains under 2 wt% to 5 wt% of oil", "a condition stands in the words"),
    ("stretch  number", "stretch", "by a factor of 4 to 8", "no phrase reads"),
    ("holes  count", "holes", "at least two rows of holes", "no phrase reads"),
    (LENSES, "f1, f2", "the reciprocal of f1/f2 is more than 0.5", "no phrase reads"),
    (LENSES, "f1, f2", "f1/f2 is more than 0.5 and |f2| is at most 3 mm", "bars around a value in words"),
    (LENSES, "f1, f2", "|f1 - f2 < 3 mm", "'|' is never closed"),
    (GAPS, "gap", "at least 5 mm, 3 mm or 1 mm", "no phrase reads"),
    (GAPS, "gap", "1 to 2 inches (25.4 to 60 mm)", "no phrase reads"),
    (GAPS, "gap", "a gap before the reduction of at most 3 mm", "no phrase reads"),
    (GAPS, "gap, rim", "both the gap and the rim are at most 3 mm in total", "tells a sum"),
    (GAPS, "gap, rim", "the gap and the rim are at most 30 % of the total", "no phrase reads"),
    (STEPS, "covering, moulding", "covering for 2 to 3 hours of the moulding", "no phrase reads"),
    (
        STEPS,
        "covering, heat",
        "when the heat falls below 5 °C for at least 10 minutes",
        "the condition may last so long, or the step",
    ),
]


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), READ)
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(("declared", "left", "words", "message"), REFUSED)
def test_it_is_refused(declared: str, left: str, words: str, message: str) -> None:
    found = errors(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")
    assert any(message in f"{d.message} {d.cause}" for d in found), [d.message for d in found]


def test_ends_left_out_are_no_things_left_out() -> None:
    said = presumed_in_symbols("height  length in mm", "height", "between 80 mm and 90 mm, the ends excluded")
    assert said == "(80 mm < height and height < 90 mm)"


def test_over_before_a_range_may_be_more_than_its_low_end() -> None:
    made = sheet("rim  length in mm\n\n1. A thing, over 1 to 2 mm of rim.\n   | rim : over 1 to 2 mm\n")
    (group,) = made.groups
    presumed = [r.label for r in group.readings if r.standing == "presumed"]
    assert presumed == ["across the range, both ends in", "more than the low end"]


def test_a_group_that_is_open_may_be_closed_to_others() -> None:
    words = "selected from the group comprising resin, rubber and mixtures thereof"
    made = sheet(f"{GLUE}\n\n1. A thing with a glue {words}.\n   | glue : {words}\n")
    (group,) = made.groups
    assert [(r.label, r.standing) for r in group.readings] == [
        ("open list", "presumed"),
        ("one or more of those named", "presumed"),
        ("one or more and no other", "arguable"),
    ]


def test_so_much_per_something_is_declared_in_that_unit() -> None:
    words = "at most 300 s per 100 ml"
    (wrong,) = errors(f"flow  in s\n\n1. A film with a flow of {words}.\n   | flow : {words}\n")
    assert "declare it in the unit of the words: flow  in s/100 ml" in wrong.help
