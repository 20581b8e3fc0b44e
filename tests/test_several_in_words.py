"""Words about several things, each with a thing that they, as presumed, take in and one that they do not.

By hand; common practice in the wording of claims, no source.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import errors, on_the_wrong_side, presumed_in_symbols, sheet

COUNTS = "blades, vanes  count"
NOTED = 'n  count  "blades"\nm  count  "vanes"'
SIDES = "width, depth  length in mm"
SHARES = "oil, wax  share in wt%"
QUEUE = 'load  share in %  "processor load"\nqueue  count'
THREE = "gap, rim, cap  length in mm"
METALS = "metal  any of copper, zinc, steel, tin"
STEPS = "heating, cooling, mixing  step in min"
FIRST = "start of heating = 0 min, duration of heating = 10 min"
FIRST += ", start of mixing = 10 min, duration of mixing = 1 min"
THEN = f"{FIRST}, start of cooling = 20 min, duration of cooling = 5 min"
AT_ONCE = f"{FIRST}, start of cooling = 5 min, duration of cooling = 5 min"
RIBS = "rib  part, up to 3\n  height  length in mm"
LOW = "ribs = 3, height of rib 1 = 1 mm, height of rib 2 = 2 mm, height of rib 3 = 3 mm"
HIGH = "ribs = 3, height of rib 1 = 9 mm, height of rib 2 = 9 mm, height of rib 3 = 9 mm"
APART = "ribs = 3, height of rib 1 = 1 mm, height of rib 2 = 5 mm, height of rib 3 = 9 mm"
LONGER = f"{FIRST}, start of cooling = 21 min, duration of cooling = 6 min"
WARMING = "heating  step in min\n  temperature  temperature in degC"
WARMED = (
    "start of heating = 0 min, duration of heating = 10 min, temperature at the start of heating = 20 degC"
)
WARMED += ", lowest temperature of heating = 20 degC, highest temperature of heating = 80 degC"
WARMED += ", average temperature of heating = 50 degC"
DOSES = "dose  part, up to 3\n  moment  time in h"
DAILY = 'dose  mass in mg\ndoses  count  "per day"'
SPREAD = "doses = 3, moment of dose 1 = 0 h, moment of dose 2 = 8 h, moment of dose 3 = 16 h"
CLOSE = "doses = 3, moment of dose 1 = 0 h, moment of dose 2 = 5 h, moment of dose 3 = 10 h"
VALVE = "valve  one of only open, closed\npressure  pressure in bar"
MODULI = "stiffness, modulus  modulus in MPa"
ALLOYS = "material  any of zinc, brass, zinc alloy, steel"
BALANCING = "balancing  one of only yes, no\ndifference  voltage in mV"
CYCLES = "cycles  count\nhardness  number"
TWO_STEPS = "heating, mixing  step in min"
MIXED = "start of heating = 20 min, duration of heating = 10 min"
MIXED += ", duration of mixing = 2 min, start of mixing = "
WARM = "product temperature, inlet temperature  temperature in degC"
FAN = "fan  one of only on, off\nheat  temperature in degC"
FILLED = "paint  composition in wt%\n  wax\n  filler : clay, chalk"
READ = [
    (NOTED, "n, m", "the total number of blades and vanes is at most 12", "n = 6, m = 6", "n = 7, m = 6"),
    (NOTED, "n, m", "at most 12 blades and vanes in total", "n = 6, m = 6", "n = 7, m = 6"),
    (NOTED, "n, m", "the blades outnumber the vanes", "n = 7, m = 6", "n = 6, m = 6"),
    (COUNTS, "blades, vanes", "the blades outnumber the vanes by two", "blades = 8, vanes = 6",
     "blades = 9, vanes = 6"),
    (COUNTS, "blades, vanes", "blades and vanes totalling at most 12", "blades = 6, vanes = 6",
     "blades = 7, vanes = 6"),
    (SIDES, "width, depth", "width and depth totalling at most 12 mm", "width = 6 mm, depth = 6 mm",
     "width = 7 mm, depth = 6 mm"),
    (COUNTS, "blades, vanes", "the number of blades differs from that of the vanes",
     "blades = 7, vanes = 6", "blades = 6, vanes = 6"),
    (COUNTS, "blades, vanes", "the numbers of blades and vanes differ", "blades = 5, vanes = 6",
     "blades = 6, vanes = 6"),
    (COUNTS, "blades, vanes", "a different number of blades than vanes", "blades = 5, vanes = 6",
     "blades = 6, vanes = 6"),
    (COUNTS, "blades, vanes", "a blade for each vane", "blades = 6, vanes = 6", "blades = 5, vanes = 6"),
    (COUNTS, "vanes, blades", "a vane for every two blades", "blades = 6, vanes = 3",
     "blades = 6, vanes = 2"),
    (COUNTS, "blades, vanes", "two blades for every three vanes", "blades = 4, vanes = 6",
     "blades = 5, vanes = 6"),
    (COUNTS, "blades, vanes", "at least four blades, at least two vanes, or both", "blades = 1, vanes = 2",
     "blades = 3, vanes = 1"),
    ("blades  count", "blades", "at least two pairs of blades", "blades = 4", "blades = 3"),
    ("blades  count", "blades", "four pairs of blades", "blades = 8", "blades = 7"),
    ("blades  count", "blades", "the number of blades is not divisible by 3", "blades = 4", "blades = 6"),
    ("blades  count", "blades", "the number of blades is not a multiple of 3", "blades = 4", "blades = 6"),
    ("blades  count", "blades", "a plurality of at least three blades", "blades = 3", "blades = 2"),
    ("blades  count", "blades", "fewer than, or equal to, eight blades", "blades = 8", "blades = 9"),
    ("width  length in mm", "width", "less than, or equal to, 8 mm", "width = 8 mm", "width = 9 mm"),
    ("width  length in mm", "width", "equal to, or greater than, 8 mm", "width = 8 mm", "width = 7 mm"),
    (WARM, "product temperature, inlet temperature", "no less than 10 °C above the inlet temperature",
     "product temperature = 30 degC, inlet temperature = 20 degC",
     "product temperature = 29 degC, inlet temperature = 20 degC"),
    (WARM, "product temperature, inlet temperature", "not more than 10 °C above the inlet temperature",
     "product temperature = 30 degC, inlet temperature = 20 degC",
     "product temperature = 31 degC, inlet temperature = 20 degC"),
    (SIDES, "width, depth", "the difference between the width and the depth is at most 10 % of the width",
     "width = 10 mm, depth = 9 mm", "width = 9 mm, depth = 10 mm"),
    (SIDES, "width, depth", "the difference between the depth and the width is at most 10 % of the depth",
     "width = 9 mm, depth = 10 mm", "width = 10 mm, depth = 9 mm"),
    (SIDES, "width, depth", "the width and the depth differ by at most 10 % of the width",
     "width = 10 mm, depth = 9 mm", "width = 9 mm, depth = 10 mm"),
    (SIDES, "width, depth", "the width differs from the depth by at least 10 % of the width",
     "width = 9 mm, depth = 10 mm", "width = 100 mm, depth = 91 mm"),
    (SIDES, "width, depth", "width and depth are within 1 mm of each other", "width = 9 mm, depth = 10 mm",
     "width = 12 mm, depth = 10 mm"),
    (SIDES, "width, depth", "the width and the depth are equal to within 1 mm", "width = 9 mm, depth = 10 mm",
     "width = 12 mm, depth = 10 mm"),
    (SIDES, "width", "at most one tenth of the depth or 0.5 mm, whichever is greater",
     "width = 0.5 mm, depth = 1 mm", "width = 0.6 mm, depth = 5 mm"),
    (SIDES, "width", "at most half the depth or 5 mm, whichever is smaller", "width = 3 mm, depth = 6 mm",
     "width = 5 mm, depth = 8 mm"),
    (SIDES, "width, depth", "the width or the depth, whichever is greater, is at least 5 mm",
     "width = 5 mm, depth = 1 mm", "width = 4 mm, depth = 4 mm"),
    ("load  share in %", "load", "neither above 80 % nor below 20 %", "load = 80 %", "load = 81 %"),
    ("load  share in %", "load", "not above 80 % nor below 20 %", "load = 20 %", "load = 19 %"),
    ("load  share in %", "load", "neither exceeds 80 % nor falls below 20 %", "load = 20 %", "load = 19 %"),
    ("miss  number", "miss", "a miss of at most one in a thousand", "miss = 0.001", "miss = 0.002"),
    ("miss  number", "miss", "below 1 in 1000000", "miss = 0", "miss = 0.5"),
    ("duty  share in %", "duty", "at least one out of every ten", "duty = 10 %", "duty = 9 %"),
    ('snr  in dB  "signal-to-noise ratio"', "snr", "a signal-to-noise ratio of at least 12 dB", "snr = 12 dB",
     "snr = 11 dB"),
    ("queue  count", "queue", "the queue holds more than 50 entries", "queue = 51", "queue = 50"),
    (QUEUE, "load, queue", "the load exceeds 80 % or the queue holds more than 50", "load = 1 %, queue = 51",
     "load = 80 %, queue = 50"),
    ('c  number  "confidence"', "c", "a confidence exceeding 0.95", "c = 0.96", "c = 0.95"),
    ('d  length in mm  "inner diameter"', "d", "an inner diameter d satisfying 5 mm ≤ d ≤ 8 mm", "d = 8 mm",
     "d = 9 mm"),
    ("period  time in s", "period", "not more often than once every 10 seconds", "period = 10 s",
     "period = 9 s"),
    (SHARES, "oil, wax", "oil and/or wax in a total amount of at least 2 wt%", "oil = 1 wt%, wax = 1 wt%",
     "oil = 1 wt%, wax = 0 wt%"),
    (SHARES, "oil, wax", "at least one of oil and wax in a total amount of 2 to 5 wt%",
     "oil = 1 wt%, wax = 1 wt%", "oil = 4 wt%, wax = 4 wt%"),
    (SHARES, "oil, wax", "the oil accounts for at least 60 wt% of the total of oil and wax",
     "oil = 3 wt%, wax = 2 wt%", "oil = 50 wt%, wax = 50 wt%"),
    (SHARES, "oil, wax", "if oil is present, at most 2 wt% of wax", "oil = 1 wt%, wax = 2 wt%",
     "oil = 90 wt%, wax = 3 wt%"),
    (SHARES, "wax, oil", "at most 2 wt% of wax if the oil content exceeds 5 wt%", "oil = 5 wt%, wax = 3 wt%",
     "oil = 90 wt%, wax = 3 wt%"),
    (SHARES, "wax", "at most half the oil content", "oil = 4 wt%, wax = 2 wt%", "oil = 4 wt%, wax = 3 wt%"),
    (SHARES, "wax", "at most the oil content", "oil = 4 wt%, wax = 4 wt%", "oil = 4 wt%, wax = 5 wt%"),
    (METALS, "metal", "copper, zinc, or a combination of copper and zinc", "metal = {copper, zinc}",
     "metal = {tin}"),
    (METALS, "metal", "a mixture of at least two of copper, zinc and tin", "metal = {copper, tin}",
     "metal = {copper}"),
    (METALS, "metal", "copper and/or zinc, with the exception of steel", "metal = {copper}",
     "metal = {copper, steel}"),
    (METALS, "metal", "copper or, alternatively, zinc", "metal = {zinc}", "metal = {tin}"),
    (METALS, "metal", "consists exclusively of copper", "metal = {copper}", "metal = {copper, tin}"),
    (METALS, "metal", "copper and, if desired, zinc", "metal = {copper}", "metal = {zinc}"),
    (METALS, "metal", "zinc if copper is present", "metal = {tin}", "metal = {copper}"),
    (METALS, "metal", "if copper is present, zinc is also present", "metal = {copper, zinc}",
     "metal = {copper}"),
    (METALS, "metal", "at most one of copper, zinc and tin, and steel", "metal = {copper, steel}",
     "metal = {copper}"),
    (STEPS, "heating, cooling", "heating before cooling", THEN, AT_ONCE),
    (STEPS, "heating, cooling", "cooling after heating", THEN, AT_ONCE),
    (STEPS, "cooling, heating", "cooling follows the heating", THEN, AT_ONCE),
    (STEPS, "heating, cooling", "heating takes place prior to the cooling step", THEN, AT_ONCE),
    (STEPS, "mixing, heating, cooling", "mixing between heating and cooling", THEN, AT_ONCE),
    (STEPS, "heating, mixing, cooling", "first heating, then mixing, and finally cooling", THEN, AT_ONCE),
    (STEPS, "heating, mixing, cooling", "heating, mixing and cooling in this order", THEN, AT_ONCE),
    (STEPS, "cooling, heating", "cooling begins at least 5 minutes after the heating ends", THEN, AT_ONCE),
    (SIDES, "width, depth", "the width is at least 1 mm and at most 5 mm, and the depth is at most 3 mm",
     "width = 2 mm, depth = 3 mm", "width = 6 mm, depth = 2 mm"),
    (SIDES, "width, depth",
     "a width of not less than 1 mm and not more than 5 mm, and a depth of not more than 3 mm",
     "width = 5 mm, depth = 3 mm", "width = 6 mm, depth = 2 mm"),
    (SIDES, "width, depth", "the width is more than 1 mm but less than 5 mm and the depth is at most 3 mm",
     "width = 4 mm, depth = 3 mm", "width = 5 mm, depth = 2 mm"),
    (SIDES, "width, depth",
     "the width is at most 5 mm, preferably at most 4 mm, and the depth is at most 3 mm",
     "width = 5 mm, depth = 3 mm", "width = 5 mm, depth = 30 mm"),
    (SHARES, "oil, wax", "oil is at least 2 wt% and at most 3 times wax", "oil = 3 wt%, wax = 1 wt%",
     "oil = 1 wt%, wax = 1 wt%"),
    (SIDES, "width, depth", "the width is an odd multiple of a quarter of the depth",
     "width = 3 mm, depth = 4 mm", "width = 2 mm, depth = 4 mm"),
    (SIDES, "width, depth", "an even multiple of the depth", "width = 8 mm, depth = 4 mm",
     "width = 4 mm, depth = 4 mm"),
    ("bolts  count", "bolts", "three or a multiple thereof", "bolts = 6", "bolts = 2"),
    (SIDES, "width, depth", "the width is shorter than the depth by not more than 2 mm",
     "width = 8 mm, depth = 10 mm", "width = 7 mm, depth = 10 mm"),
    (SIDES, "width, depth", "the width deviates from the depth by 10 % at most",
     "width = 9 mm, depth = 10 mm", "width = 8 mm, depth = 10 mm"),
    (SIDES, "width, depth", "3 and 5 mm, respectively", "width = 3 mm, depth = 5 mm",
     "width = 5 mm, depth = 3 mm"),
    ("width  length in mm", "width", "3 mm (excluded) to 5 mm (included)", "width = 5 mm", "width = 3 mm"),
    ("width  length in mm", "width", "3 mm inclusive to 5 mm exclusive", "width = 3 mm", "width = 5 mm"),
    ("width  length in mm", "width", "greater than 3 mm yet below 5 mm", "width = 4 mm", "width = 5 mm"),
    ("width  length in mm", "width", "in no event exceeds 3 mm", "width = 3 mm", "width = 4 mm"),
    ("width  length in mm", "width", "never reaches 3 mm", "width = 2 mm", "width = 3 mm"),
    ("width  length in mm", "width", "equal to or in excess of 3 mm", "width = 3 mm", "width = 2 mm"),
    ("width  length in mm", "width", "falling in the range between 3 mm and 5 mm, inclusive", "width = 5 mm",
     "width = 6 mm"),
    (SIDES, "width", "less than double that of the depth", "width = 3 mm, depth = 2 mm",
     "width = 4 mm, depth = 2 mm"),
    ("blades  count", "blades", "a multiple of 3 or 4", "blades = 8", "blades = 7"),
    ("wait  time in h", "wait", "not less than 8 hours apart", "wait = 8 h", "wait = 7 h"),
    ("dose  mass in mg\nweight  mass in kg", "dose, weight", "0.5 to 4 mg per kg of body weight",
     "dose = 40 mg, weight = 10 kg", "dose = 41 mg, weight = 10 kg"),
    ("dose  mass in mg\nbody weight  mass in kg", "dose, body weight", "from 1 to 3 mg/kg body weight",
     "dose = 30 mg, body weight = 10 kg", "dose = 31 mg, body weight = 10 kg"),
    (RIBS, "height of the ribs", "no more than two of the ribs have a height of more than 5 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "more than one of the ribs has a height of more than 5 mm", HIGH, LOW),
    (RIBS, "height of the ribs", "not every rib has a height of more than 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "the ribs do not have a height of more than 5 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "each rib is higher than the preceding rib", LOW, HIGH),
    (RIBS, "height of the ribs", "the mean height of the ribs is 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "the maximum height of the ribs is 3 mm", LOW, HIGH),
    (SHARES, "oil, wax", "oil and/or wax in an amount of 2 to 5 wt%", "oil = 1 wt%, wax = 1 wt%",
     "oil = 4 wt%, wax = 4 wt%"),
    (SHARES, "oil, wax", "oil, wax or a mixture thereof in an amount of 2 to 5 wt%",
     "oil = 1 wt%, wax = 1 wt%", "oil = 4 wt%, wax = 4 wt%"),
    (SHARES, "wax, oil", "20 parts by mass of wax with respect to 100 parts by mass of oil",
     "oil = 10 wt%, wax = 2 wt%", "oil = 10 wt%, wax = 3 wt%"),
    (SHARES, "oil, wax", "20 to 30 parts by weight of wax per 100 parts by weight of oil",
     "oil = 10 wt%, wax = 2 wt%", "oil = 2 wt%, wax = 10 wt%"),
    (SHARES, "wax",
     "20 parts by mass or more and 30 parts by mass or less with respect to 100 parts by mass of the oil",
     "oil = 10 wt%, wax = 3 wt%", "oil = 10 wt%, wax = 4 wt%"),
    (SHARES, "oil", "5 parts by weight of oil per 100 parts by weight of the composition", "oil = 5 wt%",
     "oil = 6 wt%"),
    (SHARES, "oil, wax", "5 to 10 wt% oil; and 1 to 2 wt% wax", "oil = 5 wt%, wax = 1 wt%",
     "oil = 5 wt%, wax = 3 wt%"),
    ('gap, rim  length in mm  "mean over the length"', "gap, rim",
     "the mean length of the gap and the rim is at least 60 mm", "gap = 50 mm, rim = 80 mm",
     "gap = 40 mm, rim = 40 mm"),
    ("oil, gum  mass in g", "oil, gum", "the combined masses of the oil and the gum are at least 60 g",
     "oil = 40 g, gum = 40 g", "oil = 20 g, gum = 20 g"),
    (SIDES, "width, depth", "a width of at least 2 mm or 4 % of the depth, whichever is greater",
     "width = 4 mm, depth = 100 mm", "width = 0 mm, depth = 100 mm"),
    ("wax, oil, gum  share in wt%", "wax, oil, gum",
     "less than one tenth of the combined amount of the oil and the gum",
     "wax = 1 wt%, oil = 10 wt%, gum = 10 wt%", "wax = 2 wt%, oil = 10 wt%, gum = 10 wt%"),
    (QUEUE, "load, queue", "either the load exceeds 80 % or the queue is more than 50, but not both",
     "load = 81 %, queue = 1", "load = 81 %, queue = 51"),
    ("mode  one of sleep, active\nv  voltage in V", "mode, v",
     "enter a sleep mode if the voltage drops below 3 V",
     "mode = active, v = 3 V", "mode = active, v = 2 V"),
    (STEPS, "duration of cooling",
     "at least 2 min or half the duration of the heating, whichever is longer", THEN,
     f"{FIRST}, start of cooling = 20 min, duration of cooling = 4 min"),
    (STEPS, "duration of heating, duration of cooling",
     "the heating and the cooling together last at most 15 min", THEN,
     f"{FIRST}, start of cooling = 20 min, duration of cooling = 6 min"),
    (STEPS, "heating, cooling", "after heating, cooling for 5 to 10 minutes", THEN, AT_ONCE),
    *((STEPS, left, words, THEN, AT_ONCE)
      for left in ("heating, cooling", "cooling, heating")
      for words in (
          "after the heating, cooling", "following the heating, the cooling is carried out",
          "subsequent to the heating, cooling", "after the heating the cooling takes place",
          "after the heating, the cooling begins", "after completion of the heating, cooling",
          "after the heating is over, cooling", "at least 10 min after the heating, cooling",
          "within 12 min after the heating, then cooling", "before the cooling, heating",
          "prior to the cooling, the heating is performed", "after heating for 10 min, cooling",
          "after heating for 10 min, cooling for 5 min",
      )),
    ("filtering, rinsing  step in min", "filtering", "for a filtration period of 8 to 15 minutes",
     "start of filtering = 0 min, duration of filtering = 9 min",
     "start of filtering = 0 min, duration of filtering = 7 min"),
    *(("filtering, rinsing  step in min", left, words,
       "start of filtering = 0 min, duration of filtering = 8 min, start of rinsing = 8 min,"
       " duration of rinsing = 1 min",
       "start of filtering = 0 min, duration of filtering = 9 min, start of rinsing = 9 min,"
       " duration of rinsing = 9 min")
      for left, words in (
          ("filtering", "the filtration period is 8 minutes or less"),
          ("filtering", "a filtration time of less than 8.5 minutes"),
          ("filtering, rinsing", "a ratio of the filtration period to the rinse period being at least 8:1"),
          ("rinsing, filtering", "the ratio of the filtration period to the rinse period is at least 8:1"),
          ("rinsing, filtering", "no longer than 20 % of the filtration period"),
          ("rinsing, filtering", "takes no longer than 20 % of the filtration period"),
          ("rinsing, filtering", "the filtration period is longer than the rinse period"),
      )),
    ('holes  count "outlets of the aerator"', "holes", "a number of outlets which is a multiple of 4",
     "holes = 8", "holes = 6"),
    ('holes  count "outlets of the aerator"', "holes", "the number of outlets is at least 4",
     "holes = 4", "holes = 3"),
    (STEPS, "heating, cooling", "during the heating, cooling",
     AT_ONCE.replace("duration of cooling = 5", "duration of cooling = 2"), THEN),
    (STEPS, "heating, cooling, mixing", "after the heating, mixing and cooling", THEN, AT_ONCE),
    (STEPS, "heating, cooling, mixing", "after the heating, mixing and then cooling", THEN, AT_ONCE),
    (STEPS, "heating, cooling", "heating for 10 minutes and then cooling for 5 minutes", THEN, AT_ONCE),
    (STEPS, "heating, cooling", "heating for 10 min, followed by cooling for 5 min", THEN, AT_ONCE),
    (STEPS, "heating, mixing, cooling", "heating for 10 min, mixing for 1 min and then cooling for 5 min",
     THEN, AT_ONCE),
    (STEPS, "heating, cooling", "the heating lasts at least twice as long as the cooling", THEN, LONGER),
    (STEPS, "heating, mixing", "the mixing takes less time than the heating", THEN,
     f"{THEN}, duration of mixing = 11 min".replace("duration of mixing = 1 min, ", "")),
    (STEPS, "heating, cooling", "heating and cooling together take no more than 15 minutes", THEN, LONGER),
    (STEPS, "heating, cooling", "a total time of heating and cooling of 12 to 15 min", THEN, LONGER),
    (STEPS, "heating, cooling", "heating and cooling are carried out simultaneously", AT_ONCE, THEN),
    (STEPS, "heating, cooling", "the cooling at least partly overlaps the heating", AT_ONCE, THEN),
    (STEPS, "heating, cooling", "the heating and the cooling do not overlap", THEN, AT_ONCE),
    (STEPS, "heating, cooling", "cooling only after heating", THEN, AT_ONCE),
    (STEPS, "heating, cooling", "cooling is preceded by heating", THEN, AT_ONCE),
    (STEPS, "cooling", "starts before the heating ends", AT_ONCE, THEN),
    (STEPS, "cooling", "is completed within 25 min of the start of the heating", THEN, LONGER),
    (STEPS, "heating, mixing, cooling", "the cooling is carried out last", THEN, AT_ONCE),
    (STEPS, "heating, mixing, cooling", "heating and mixing are carried out before the cooling", THEN,
     AT_ONCE),
    (STEPS, "heating", "at least 10 min before the cooling", THEN, AT_ONCE),
    (STEPS, "cooling", "more than 10 min after the heating", LONGER, THEN),
    (STEPS, "cooling", "10 min after the end of the heating", THEN, AT_ONCE),
    (STEPS, "cooling", "during the heating and/or the mixing", AT_ONCE, THEN),
    (STEPS, "cooling", "after both the heating and the mixing", THEN, AT_ONCE),
    (STEPS, "cooling", "simultaneously with or after the heating", THEN,
     f"{FIRST}, start of cooling = 0 min, duration of cooling = 5 min".replace(
         "start of heating = 0 min", "start of heating = 6 min").replace(
         "start of mixing = 10 min", "start of mixing = 16 min")),
    (STEPS, "heating, cooling", "a pause of 5 to 10 min between the heating and the cooling", THEN, LONGER),
    (STEPS, "heating", "a heating time of 10 to 20 min", THEN,
     THEN.replace("duration of heating = 10 min", "duration of heating = 9 min")),
    (WARMING, "temperature of heating, heating", "heated from 20 °C to 80 °C over 10 min",
     f"{WARMED}, temperature at the end of heating = 80 degC",
     f"{WARMED}, temperature at the end of heating = 70 degC"),
    (WARMING, "temperature of heating, heating", "at a temperature of 20 to 80 °C for 5 to 10 min",
     f"{WARMED}, temperature at the end of heating = 80 degC",
     f"{WARMED}, temperature at the end of heating = 80 degC".replace("g = 10 min", "g = 11 min")),
    (DOSES, "moment of the doses", "at intervals of at least 8 hours", SPREAD, CLOSE),
    (DOSES, "moment of the doses", "every 6 to 8 hours", SPREAD, CLOSE),
    (DOSES, "moment of the doses", "each dose is given at least 8 hours after the previous dose", SPREAD,
     CLOSE),
    (DAILY, "dose, doses", "administered at 5 mg twice daily", "dose = 5 mg, doses = 2",
     "dose = 5 mg, doses = 1"),
    (DAILY, "dose, doses", "three times a day at a dose of 5 mg", "dose = 5 mg, doses = 3",
     "dose = 6 mg, doses = 3"),
    ("cycles  count", "cycles", "the steps are repeated 3 to 5 times", "cycles = 4", "cycles = 7"),
    (RIBS, "height of the ribs", "all but one of the ribs have a height of at least 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "no two ribs have the same height", LOW, HIGH),
    (RIBS, "height of the ribs", "all ribs have the same height", HIGH, LOW),
    (RIBS, "height of the ribs", "one rib is higher than the others", LOW, HIGH),
    (RIBS, "height of the ribs", "adjacent ribs differ in height by at most 1 mm", LOW, APART),
    (RIBS, "height of the ribs", "the difference between the tallest and the lowest rib is at most 1 mm",
     HIGH, LOW),
    (RIBS, "height of the ribs", "each rib is at least 1 mm higher than the preceding rib", LOW, HIGH),
    (RIBS, "height of the ribs", "one or two of the ribs have a height of at most 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "most ribs have a height of at most 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "any one of the ribs has a height of at least 9 mm", HIGH, LOW),
    (RIBS, "height of the ribs", "at least half the ribs have a height of at most 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "the median height of the ribs is 2 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "the height of the tallest rib is at most 4 mm", LOW, HIGH),
    (RIBS, "height of the ribs", "the height of the ribs increases from rib to rib", LOW, HIGH),
    (RIBS, "height of the ribs", "the or each rib has a height of at least 9 mm", HIGH, LOW),
    (SHARES, "oil, wax", "the weight of the oil is 20 to 30 % of the combined weight of oil and wax",
     "oil = 3 wt%, wax = 7 wt%", "oil = 20 wt%, wax = 5 wt%"),
    (SHARES, "oil, wax", "the oil makes up at most 50 % of the total weight of oil and wax",
     "oil = 30 wt%, wax = 60 wt%", "oil = 3 wt%, wax = 2 wt%"),
    (SHARES, "oil, wax", "the proportion of oil in the mixture of oil and wax is at least 60 %",
     "oil = 6 wt%, wax = 4 wt%", "oil = 30 wt%, wax = 60 wt%"),
    (SHARES, "oil, wax", "20 to 30 wt% of oil, based on the combined amount of oil and wax",
     "oil = 3 wt%, wax = 7 wt%", "oil = 25 wt%, wax = 25 wt%"),
    (SHARES, "oil, wax", "20 to 30 parts by weight of oil per 100 parts of oil and wax taken together",
     "oil = 3 wt%, wax = 7 wt%", "oil = 25 wt%, wax = 25 wt%"),
    (SHARES, "oil, wax", "the weight ratio of oil to the sum of oil and wax is from 0.2 to 0.3",
     "oil = 3 wt%, wax = 7 wt%", "oil = 25 wt%, wax = 25 wt%"),
    (SHARES, "oil", "20 to 30 wt% based on the combined weight of oil and wax",
     "oil = 3 wt%, wax = 7 wt%", "oil = 25 wt%, wax = 25 wt%"),
    (SHARES, "oil, wax", "the mixture of oil and wax contains 20 to 30 wt% of oil",
     "oil = 3 wt%, wax = 7 wt%", "oil = 25 wt%, wax = 25 wt%"),
    (SHARES, "oil, wax", "oil and wax, the oil accounting for at least 60 % of the total of both",
     "oil = 6 wt%, wax = 4 wt%", "oil = 30 wt%, wax = 60 wt%"),
    (SHARES, "oil, wax", "the oil is at least 20 wt% and the total of oil and wax is at most 60 wt%",
     "oil = 30 wt%, wax = 30 wt%", "oil = 30 wt%, wax = 40 wt%"),
    (SHARES, "oil, wax",
     "when the total of oil and wax is 100 parts by mass, the oil is 20 to 30 parts by mass",
     "oil = 3 wt%, wax = 7 wt%", "oil = 25 wt%, wax = 25 wt%"),
    (SHARES, "oil, wax", "at least 20 wt% of a mixture of oil and wax", "oil = 10 wt%, wax = 10 wt%",
     "oil = 10 wt%, wax = 9 wt%"),
    (f"{SHARES}\ngum  share in wt%", "oil, wax, gum",
     "the oil is 20 to 30 % of the combined weight of the wax and the gum",
     "oil = 5 wt%, wax = 10 wt%, gum = 10 wt%", "oil = 10 wt%, wax = 10 wt%, gum = 5 wt%"),
    (f"{SHARES}\ngum  share in wt%", "oil, wax, gum",
     "oil and wax make up at least 80 % of the total of oil, wax and gum",
     "oil = 4 wt%, wax = 4 wt%, gum = 2 wt%", "oil = 40 wt%, wax = 30 wt%, gum = 30 wt%"),
    (f"{SHARES}\ngum  share in wt%", "gum, oil, wax",
     "at most 10 wt% based on the combined amount of the oil and the wax",
     "gum = 1 wt%, oil = 5 wt%, wax = 5 wt%", "gum = 2 wt%, oil = 5 wt%, wax = 5 wt%"),
    ("oil, wax  mass in g", "oil, wax", "the oil makes up at most 50 % of the total mass of oil and wax",
     "oil = 3 g, wax = 3 g", "oil = 3 g, wax = 2 g"),
    (COUNTS, "blades, vanes", "the blades make up at most half of the total number of blades and vanes",
     "blades = 3, vanes = 3", "blades = 4, vanes = 3"),
    (SHARES, "oil, wax", "the composition comprises at least 5 wt% of oil and at most 3 wt% of wax",
     "oil = 5 wt%, wax = 3 wt%", "oil = 5 wt%, wax = 4 wt%"),
    (SHARES, "oil", "0 % to 5 % by weight, based on the total weight of the composition, of oil",
     "oil = 5 wt%", "oil = 6 wt%"),
    (SHARES, "oil", "containing oil in a proportion by weight of 1 to 5 %", "oil = 5 wt%", "oil = 6 wt%"),
    (SHARES, "oil, wax", "1 part by weight of oil and 2 to 4 parts by weight of wax",
     "oil = 2 wt%, wax = 8 wt%", "oil = 2 wt%, wax = 9 wt%"),
    (SHARES, "oil, wax", "10 to 50 wt% of wax based on the weight of the oil", "oil = 10 wt%, wax = 5 wt%",
     "oil = 10 wt%, wax = 6 wt%"),
    (SHARES, "oil, wax", "the oil content is 5 to 10 wt% higher than the wax content",
     "oil = 15 wt%, wax = 5 wt%", "oil = 16 wt%, wax = 5 wt%"),
    (SHARES, "oil, wax", "the oil and the wax are present in equal amounts by weight",
     "oil = 5 wt%, wax = 5 wt%", "oil = 5 wt%, wax = 6 wt%"),
    (SHARES, "oil, wax", "5 to 10 wt% and 1 to 2 wt% of oil and wax, respectively",
     "oil = 10 wt%, wax = 2 wt%", "oil = 10 wt%, wax = 3 wt%"),
    (SHARES, "oil, wax", "oil: 5 to 10 wt%, wax: 1 to 2 wt%", "oil = 10 wt%, wax = 2 wt%",
     "oil = 10 wt%, wax = 3 wt%"),
    ("pH  number", "pH", "a pH value lying in the range of 5.5 to 7.0, more preferably 6.0 to 6.5", "pH = 7",
     "pH = 7.5"),
    ("angle, tilt  angle in deg", "angle, tilt", "the angle and the tilt add up to 90°",
     "angle = 60 deg, tilt = 30 deg", "angle = 60 deg, tilt = 20 deg"),
    ("angle, tilt  angle in deg", "angle, tilt", "the angle and the tilt do not add up to more than 90°",
     "angle = 60 deg, tilt = 30 deg", "angle = 60 deg, tilt = 40 deg"),
    (SIDES, "width, depth", "a width and a depth, each of which is less than 5 mm",
     "width = 4 mm, depth = 4 mm", "width = 4 mm, depth = 5 mm"),
    (SIDES, "width, depth", "a width and a depth, neither of which exceeds 5 mm",
     "width = 5 mm, depth = 5 mm", "width = 4 mm, depth = 6 mm"),
    (SIDES, "width, depth", "a width and a depth, at least one of which is less than 5 mm",
     "width = 4 mm, depth = 9 mm", "width = 5 mm, depth = 5 mm"),
    (SIDES, "width, depth", "a width and a depth, the larger of which is at most 5 mm",
     "width = 5 mm, depth = 4 mm", "width = 4 mm, depth = 6 mm"),
    (SIDES, "width, depth", "a width and a depth whose ratio is at least 2", "width = 4 mm, depth = 2 mm",
     "width = 2 mm, depth = 4 mm"),
    (SIDES, "width, depth", "width and depth of less than 5 mm each", "width = 4 mm, depth = 4 mm",
     "width = 4 mm, depth = 5 mm"),
    (SIDES, "width, depth", "one of the width and the depth is at least twice the other",
     "width = 2 mm, depth = 4 mm", "width = 3 mm, depth = 4 mm"),
    (SIDES, "width, depth", "a width and a depth of 5 mm", "width = 5 mm, depth = 5 mm",
     "width = 5 mm, depth = 6 mm"),
    (THREE, "gap, rim, cap", "gap, rim and cap are in a ratio of 1:2:3",
     "gap = 1 mm, rim = 2 mm, cap = 3 mm", "gap = 3 mm, rim = 2 mm, cap = 1 mm"),
    (THREE, "gap, rim, cap", "any two of the gap, the rim and the cap differ by at least 2 mm",
     "gap = 1 mm, rim = 3 mm, cap = 5 mm", "gap = 1 mm, rim = 3 mm, cap = 4 mm"),
    (THREE, "gap, rim, cap", "gap, rim and cap increase in the order mentioned",
     "gap = 1 mm, rim = 2 mm, cap = 3 mm", "gap = 1 mm, rim = 3 mm, cap = 2 mm"),
    (THREE, "gap, rim, cap", "increase in the order cap, rim, gap", "gap = 3 mm, rim = 2 mm, cap = 1 mm",
     "gap = 1 mm, rim = 2 mm, cap = 3 mm"),
    (THREE, "gap, rim, cap", "gap, rim and cap are equal to one another within 5 %",
     "gap = 100 mm, rim = 101 mm, cap = 102 mm", "gap = 100 mm, rim = 104 mm, cap = 108 mm"),
    (THREE, "gap, rim, cap", "the gap is smaller than the rim, which in turn is smaller than the cap",
     "gap = 1 mm, rim = 2 mm, cap = 3 mm", "gap = 1 mm, rim = 3 mm, cap = 2 mm"),
    (THREE, "gap, rim, cap", "the median of the gap, the rim and the cap is at least 2 mm",
     "gap = 1 mm, rim = 3 mm, cap = 2 mm", "gap = 1 mm, rim = 9 mm, cap = 1 mm"),
    (THREE, "gap, rim, cap", "all three are at least 2 mm", "gap = 2 mm, rim = 2 mm, cap = 2 mm",
     "gap = 2 mm, rim = 1 mm, cap = 2 mm"),
    (THREE, "gap, rim, cap", "at least two of the gap, the rim and the cap are each at least 2 mm",
     "gap = 2 mm, rim = 2 mm, cap = 1 mm", "gap = 2 mm, rim = 1 mm, cap = 1 mm"),
    (THREE, "gap, rim, cap", "the gap is smaller than at least one of the rim and the cap",
     "gap = 2 mm, rim = 3 mm, cap = 1 mm", "gap = 3 mm, rim = 3 mm, cap = 1 mm"),
    (THREE, "gap, rim, cap", "the largest of the gap, the rim and the cap is at most twice the smallest",
     "gap = 1 mm, rim = 2 mm, cap = 1 mm", "gap = 1 mm, rim = 3 mm, cap = 1 mm"),
    (THREE, "gap, rim, cap",
     "the difference between the largest and the smallest of the gap, the rim and the cap is at most 2 mm",
     "gap = 1 mm, rim = 2 mm, cap = 3 mm", "gap = 1 mm, rim = 2 mm, cap = 4 mm"),
    (COUNTS, "vanes, blades", "fewer than half as many vanes as blades", "vanes = 2, blades = 6",
     "vanes = 3, blades = 6"),
    (COUNTS, "vanes, blades", "one fewer vane than blades", "vanes = 5, blades = 6", "vanes = 4, blades = 6"),
    (COUNTS, "vanes, blades", "the number of vanes divides the number of blades", "vanes = 3, blades = 6",
     "vanes = 4, blades = 6"),
    (COUNTS, "vanes, blades", "the number of vanes is equal to the number of blades plus one",
     "vanes = 7, blades = 6", "vanes = 6, blades = 6"),
    (COUNTS, "vanes, blades", "for each blade there are two vanes", "vanes = 12, blades = 6",
     "vanes = 6, blades = 12"),
    (COUNTS, "blades, vanes", "at least as many vanes as there are blades", "vanes = 7, blades = 6",
     "vanes = 5, blades = 6"),
    (WARM, "product temperature, inlet temperature", "not lower than the inlet temperature minus 10 °C",
     "product temperature = 10 degC, inlet temperature = 20 degC",
     "product temperature = 9 degC, inlet temperature = 20 degC"),
    (WARM, "product temperature, inlet temperature", "below the inlet temperature by no more than 10 °C",
     "product temperature = 10 degC, inlet temperature = 20 degC",
     "product temperature = 9 degC, inlet temperature = 20 degC"),
    (WARM, "product temperature, inlet temperature", "between the inlet temperature and 10 °C above it",
     "product temperature = 25 degC, inlet temperature = 20 degC",
     "product temperature = 31 degC, inlet temperature = 20 degC"),
    (WARM, "product temperature, inlet temperature", "from 10 °C below to 10 °C above the inlet temperature",
     "product temperature = 10 degC, inlet temperature = 20 degC",
     "product temperature = 31 degC, inlet temperature = 20 degC"),
    (WARM, "product temperature, inlet temperature", "the inlet temperature ± 10 °C",
     "product temperature = 10 degC, inlet temperature = 20 degC",
     "product temperature = 31 degC, inlet temperature = 20 degC"),
    (SIDES, "width, depth", "reduced by at least 20 % compared to the depth", "width = 8 mm, depth = 10 mm",
     "width = 9 mm, depth = 10 mm"),
    (SIDES, "width, depth", "increased by a factor of at least 1.5 compared with the depth",
     "width = 15 mm, depth = 10 mm", "width = 14 mm, depth = 10 mm"),
    (SIDES, "width, depth", "at least one order of magnitude larger than the depth",
     "width = 10 mm, depth = 1 mm", "width = 9 mm, depth = 1 mm"),
    (SIDES, "width, depth", "exceeds the depth at least 10-fold", "width = 10 mm, depth = 1 mm",
     "width = 9 mm, depth = 1 mm"),
    (SIDES, "width, depth", "2- to 5-fold the depth", "width = 5 mm, depth = 1 mm",
     "width = 6 mm, depth = 1 mm"),
    (SIDES, "width, depth", "smaller than the depth by a factor of two", "width = 2 mm, depth = 4 mm",
     "width = 4 mm, depth = 2 mm"),
    (SIDES, "width, depth", "within a factor of two of the depth", "width = 2 mm, depth = 4 mm",
     "width = 1 mm, depth = 4 mm"),
    (SIDES, "width, depth", "the width and the depth differ by a factor of at least two",
     "width = 2 mm, depth = 4 mm", "width = 3 mm, depth = 4 mm"),
    (SIDES, "width, depth", "the width is not less than one third and not more than one half of the depth",
     "width = 2 mm, depth = 6 mm", "width = 4 mm, depth = 6 mm"),
    (SIDES, "width, depth", "when the depth is taken as 100 %, the width is 80 % or less",
     "width = 8 mm, depth = 10 mm", "width = 9 mm, depth = 10 mm"),
    (SIDES, "width, depth", "a width of at least 5 mm, the depth being at most half the width",
     "width = 6 mm, depth = 3 mm", "width = 6 mm, depth = 4 mm"),
    (COUNTS, "blades, vanes", "at least one of a blade and a vane", "blades = 1, vanes = 0",
     "blades = 0, vanes = 0"),
    (COUNTS, "blades, vanes", "having one or more of a vane and a blade", "blades = 1, vanes = 0",
     "blades = 0, vanes = 0"),
    (COUNTS, "blades, vanes", "one or both of a blade and a vane", "blades = 0, vanes = 2",
     "blades = 0, vanes = 0"),
    (COUNTS, "blades, vanes", "two or more of a blade and a vane", "blades = 1, vanes = 1",
     "blades = 1, vanes = 0"),
    (COUNTS, "blades, vanes", "only one of a blade and a vane", "blades = 2, vanes = 0",
     "blades = 1, vanes = 1"),
    ("blades, vanes, pins  count", "blades, vanes, pins", "at least two of a blade, a vane and a pin",
     "blades = 1, vanes = 0, pins = 3", "blades = 4, vanes = 0, pins = 0"),
    ("first rib width, second rib width  length in mm", "first rib width, second rib width",
     "the first and second rib widths are 1 to 2 mm and 2.5 to 3 mm, respectively",
     "first rib width = 1 mm, second rib width = 3 mm", "first rib width = 3 mm, second rib width = 1 mm"),
    ("rib width, rib depth  length in mm", "rib width, rib depth",
     "a rib width and depth of respectively 1 to 2 mm and 2.5 to 3 mm",
     "rib width = 1 mm, rib depth = 3 mm", "rib width = 3 mm, rib depth = 1 mm"),
    (f"{METALS}\n{SIDES}", "metal, width",
     "provided that, when the metal is steel, the width is at least 0.8 mm",
     "metal = {zinc}, width = 0 mm", "metal = {steel}, width = 0 mm"),
    (SIDES, "width", "with the proviso that the width is at least 0.8 mm", "width = 1 mm", "width = 0 mm"),
    (SHARES, "wax", "traces of at most 0.01 wt%", "wax = 0.01 wt%", "wax = 1 wt%"),
    (COUNTS, "blades", "divisible by 4 without remainder", "blades = 8", "blades = 6"),
    ("weight, cap weight  mass in g", "cap weight, weight", "the cap weight is at most 10 % of the weight",
     "weight = 40 g, cap weight = 4 g", "weight = 40 g, cap weight = 8 g"),
    ("paste  composition in wt%\n  wax\n  salt : soda, potash", "salt",
     "a salt selected from soda and potash in an amount of 1 to 3 wt%",
     "soda = 2 wt%, wax = 98 wt%", "soda = 40 wt%, wax = 60 wt%"),
    (f"{RIBS}\nwidth  length in mm", "height of the ribs, width",
     "the combined height of the ribs is no more than 50 % of the width", f"{LOW}, width = 12 mm",
     f"{LOW}, width = 11 mm"),
    (f"{RIBS}\nwidth  length in mm", "height of the ribs, width",
     "the total height of the ribs is at most 50 % of the width", f"{LOW}, width = 12 mm",
     f"{LOW}, width = 11 mm"),
    ("peel  in N/mm", "peel", "8 N/15 mm to 25 N/15 mm", "peel = 1 N/mm", "peel = 8 N/mm"),
    ("peel  in N/mm", "peel", "at least 10 N per 25 mm", "peel = 0.4 N/mm", "peel = 0.3 N/mm"),
    ("loss  in g/m2/day", "loss", "less than 5 g/m2/24 h", "loss = 4 g/m2/day", "loss = 5 g/m2/day"),
    ("loss  in g/m2/day", "loss", "less than 5 g/(m2·24 h)", "loss = 4 g/m2/day", "loss = 5 g/m2/day"),
    ("current  in 1/h", "current", "not more than 0.5 C", "current = 0.5 1/h", "current = 0.6 1/h"),
    ("current  in 1/h", "current", "from 1C to 2C", "current = 1 1/h", "current = 3 1/h"),
    ("heat  temperature in degC", "heat", "at most 40C", "heat = 40 degC", "heat = 41 degC"),
    ("turn  in deg/s", "turn", "less than 2 degrees per second", "turn = 1 deg/s", "turn = 2 deg/s"),
    (f"{FAN}", "fan, heat", "is on whenever the heat is 35 °C or higher, and off otherwise",
     "fan = on, heat = 35 degC", "fan = on, heat = 34 degC"),
    (f"{FAN}", "fan, heat", "the fan is on whenever the heat is at least 35 °C and is otherwise off",
     "fan = off, heat = 34 degC", "fan = off, heat = 35 degC"),
    (f"{FAN}", "fan, heat", "stopping the fan operation when the heat has fallen to 5 °C or less",
     "fan = on, heat = 6 degC", "fan = on, heat = 5 degC"),
    (f"{FAN}", "fan, heat", "switching the fan off when the heat has fallen to below 5 °C",
     "fan = on, heat = 5 degC", "fan = on, heat = 4 degC"),
    (f"{FAN}\nwidth  length in mm", "heat, width", "when the width is at least 5 mm, reduces a heat to 30 °C",
     "heat = 30 degC, width = 5 mm", "heat = 50 degC, width = 5 mm"),
    (SIDES, "width, depth", "less than 10 % of a depth of 50 mm", "width = 4 mm, depth = 50 mm",
     "width = 4 mm, depth = 60 mm"),
    ('stroke  length in mm\nbore  length in mm  "d, of the piston"', "stroke, bore", "less than 1.5d",
     "stroke = 14 mm, bore = 10 mm", "stroke = 15 mm, bore = 10 mm"),
    ('stroke  length in mm\nbore  length in mm  "D"', "stroke, bore", "from 1.5D to 2D",
     "stroke = 15 mm, bore = 10 mm", "stroke = 21 mm, bore = 10 mm"),
    ("stroke, h  length in mm", "stroke, h", "the stroke is at least 2 h", "stroke = 20 mm, h = 10 mm",
     "stroke = 19 mm, h = 10 mm"),
    ("hold  time in day\nd  length in mm", "hold", "at most 2 d", "hold = 2 day, d = 1 mm",
     "hold = 3 day, d = 9 mm"),
    ("heat  temperature in degC", "heat", "cooling it to below 40 °C", "heat = 39 degC", "heat = 40 degC"),
    ("heat  temperature in degC", "heat", "cooling the melt to 30 °C or below", "heat = 30 degC",
     "heat = 31 degC"),
    (STEPS, "heating, cooling, mixing",
     "comprising heating the glass for 9 to 12 min, cooling it, and mixing it", THEN,
     THEN.replace("duration of heating = 10", "duration of heating = 8")),
    (METALS, "metal", "consists of a metal selected from the group consisting of copper, zinc and tin, or a"
     " mixture of two or more thereof", "metal = {copper, zinc}", "metal = {copper, steel}"),
    (METALS, "metal", "selected from copper and zinc, or any mixture thereof", "metal = {copper, zinc}",
     "metal = {tin}"),
    ("acid  any of acrylic, maleic, copolymers", "acid",
     "selected from acrylic, maleic and copolymers thereof", "acid = {copolymers}", "acid = {}"),
    (FILLED, "filler", "is clay, chalk or both", "wax = 90 wt%, clay = 10 wt%, chalk = 0 wt%",
     "wax = 100 wt%, clay = 0 wt%, chalk = 0 wt%"),
    (FILLED, "filler", "does not comprise both clay and chalk",
     "wax = 90 wt%, clay = 10 wt%, chalk = 0 wt%", "wax = 90 wt%, clay = 5 wt%, chalk = 5 wt%"),
    (FILLED, "filler", "comprises both clay and chalk", "wax = 90 wt%, clay = 5 wt%, chalk = 5 wt%",
     "wax = 90 wt%, clay = 10 wt%, chalk = 0 wt%"),
    (FILLED, "filler", "comprises clay or chalk, but not both",
     "wax = 90 wt%, clay = 10 wt%, chalk = 0 wt%", "wax = 90 wt%, clay = 5 wt%, chalk = 5 wt%"),
    (SHARES, "oil, wax", "comprising more oil than wax", "oil = 6 wt%, wax = 5 wt%",
     "oil = 5 wt%, wax = 5 wt%"),
    ("oil, wax  mass in g", "oil", "comprising 10 to 20 % of oil, based on the wax", "oil = 1 g, wax = 10 g",
     "oil = 3 g, wax = 10 g"),
    (COUNTS, "blades, vanes", "comprising at least two blades and at least four vanes",
     "blades = 2, vanes = 4", "blades = 2, vanes = 3"),
    (f"{RIBS}\nalarm  one of only yes, no", "alarm, height of the ribs",
     "the alarm is given if any of the ribs has a height of more than 8 mm", f"{LOW}, alarm = no",
     f"{APART}, alarm = no"),
    (f"{RIBS}\nalarm  one of only yes, no", "alarm, height of the ribs",
     "the alarm is given if the height of any rib exceeds 8 mm", f"{LOW}, alarm = no",
     f"{APART}, alarm = no"),
    (SHARES, "oil, wax", "at most 50 ppm of oil and at most 20 ppm of wax",
     "oil = 50 ppm(m), wax = 20 ppm(m)", "oil = 20 ppm(m), wax = 50 ppm(m)"),
    ("volt, low  voltage in V\nfan  one of only on, off", "fan, volt, low",
     "stopping the fan when the difference has fallen to 5 V or less", "fan = on, volt = 9 V, low = 3 V",
     "fan = on, volt = 9 V, low = 4 V"),
    ("turn  speed in m/s\nload  mass in kg", "turn, load",
     "the controller does not reduce the turn to less than 2 m/s when the load exceeds 5 kg",
     "turn = 2 m/s, load = 6 kg", "turn = 1 m/s, load = 6 kg"),
    ("hold  time in h\nway  length in km", "hold, way",
     "the hold is at most 60 h or the way is at most 100 km, whichever comes first",
     "hold = 60 h, way = 100 km", "hold = 60 h, way = 101 km"),
    (f"{SIDES}\nlid  one of only open, closed", "lid, width, depth",
     "the lid is opened when the width exceeds 5 mm or the depth exceeds 8 mm, whichever occurs first",
     "lid = open, width = 1 mm, depth = 9 mm", "lid = closed, width = 1 mm, depth = 9 mm"),
    (VALVE, "valve, pressure", "the valve opens at the latest at a pressure of 5 bar",
     "valve = open, pressure = 4 bar", "valve = closed, pressure = 6 bar"),
    (VALVE, "valve, pressure", "is closed at 5 bar at the latest",
     "valve = closed, pressure = 4 bar", "valve = open, pressure = 6 bar"),
    (VALVE, "valve, pressure", "the valve opens no later than when the pressure exceeds 5 bar",
     "valve = open, pressure = 4 bar", "valve = closed, pressure = 6 bar"),
    (VALVE, "valve, pressure", "the valve opens at the earliest at a pressure of 5 bar",
     "valve = closed, pressure = 6 bar", "valve = open, pressure = 4 bar"),
    (VALVE, "valve, pressure", "the valve opens once it reaches a pressure of 5 bar",
     "valve = closed, pressure = 4 bar", "valve = closed, pressure = 6 bar"),
    (VALVE, "valve, pressure", "the valve opens when a pressure of 5 bar is achieved",
     "valve = closed, pressure = 4 bar", "valve = closed, pressure = 6 bar"),
    (VALVE, "valve, pressure", "the valve opens when a pressure of 5 bar is undershot",
     "valve = closed, pressure = 6 bar", "valve = closed, pressure = 4 bar"),
    (VALVE, "valve, pressure", "the valve opens when the boiler exceeds a pressure of 5 bar",
     "valve = closed, pressure = 4 bar", "valve = closed, pressure = 6 bar"),
    (VALVE, "pressure", "the boiler reaches a pressure of 5 bar", "pressure = 6 bar", "pressure = 4 bar"),
    (VALVE, "valve, pressure", "the valve is open or the pressure is at most 5 bar",
     "valve = open, pressure = 6 bar", "valve = closed, pressure = 6 bar"),
    (VALVE, "pressure, valve", "the pressure is at most 5 bar or the valve is open",
     "valve = open, pressure = 6 bar", "valve = closed, pressure = 6 bar"),
    (METALS, "metal", "comprising a metal other than copper", "metal = {copper, zinc}", "metal = {copper}"),
    (METALS, "metal", "with the exception of copper and zinc", "metal = {tin}", "metal = {copper}"),
    (METALS, "metal", "not made of copper nor of zinc", "metal = {tin}", "metal = {zinc}"),
    (METALS, "metal", "contains no copper nor zinc", "metal = {tin}", "metal = {zinc}"),
    (METALS, "metal", "entirely of zinc", "metal = {zinc}", "metal = {zinc, tin}"),
    (METALS, "metal", "made exclusively of zinc", "metal = {zinc}", "metal = {zinc, tin}"),
    (METALS, "metal", "comprising copper instead of zinc", "metal = {copper}", "metal = {copper, zinc}"),
    (ALLOYS, "material", "made of brass, zinc and alloys thereof",
     "material = {zinc alloy}", "material = {steel}"),
    (ALLOYS, "material",
     "made from a material selected from brass, zinc and alloys thereof, but not from steel",
     "material = {zinc alloy}", "material = {steel}"),
    (BALANCING, "balancing, difference", "the balancing is performed when the difference exceeds 20 mV",
     "balancing = yes, difference = 30 mV", "balancing = no, difference = 30 mV"),
    (BALANCING, "balancing, difference", "balancing is carried out if the difference exceeds 20 mV",
     "balancing = yes, difference = 30 mV", "balancing = no, difference = 30 mV"),
    (SIDES, "width, depth", "a width and a depth each of 3 to 5 mm",
     "width = 4 mm, depth = 5 mm", "width = 4 mm, depth = 6 mm"),
    (THREE, "gap, rim, cap", "a gap, a rim and a cap, each of less than 5 mm",
     "gap = 4 mm, rim = 4 mm, cap = 4 mm", "gap = 4 mm, rim = 4 mm, cap = 6 mm"),
    ("first width, second width  length in mm", "first width, second width",
     "respective widths of at least 3 mm and at least 5 mm",
     "first width = 3 mm, second width = 5 mm", "first width = 5 mm, second width = 3 mm"),
    ("arm, rail  length in mm", "rail, arm",
     "the rail is at most 340 mm when the arm is at least 300 mm long",
     "rail = 350 mm, arm = 200 mm", "rail = 350 mm, arm = 300 mm"),
    ("gap variation  length in mm", "gap variation", "is kept constant to within 0.005 mm",
     "gap variation = 0.004 mm", "gap variation = 0.02 mm"),
    (CYCLES, "cycles", "after at least 200 but fewer than 400 brewing cycles",
     "cycles = 200", "cycles = 400"),
    (CYCLES, "cycles, hardness",
     "after 250 cycles if the hardness is above 14 and after 390 cycles otherwise",
     "cycles = 390, hardness = 10", "cycles = 250, hardness = 10"),
    ("power  power in W", "power", "a power rating of not less than 1200 W",
     "power = 1200 W", "power = 900 W"),
    (TWO_STEPS, "heating, mixing", "heating and a subsequent mixing step",
     f"{MIXED}30 min", f"{MIXED}10 min"),
    (TWO_STEPS, "heating, mixing", "a heating phase followed by a mixing phase", f"{MIXED}30 min",
     f"{MIXED}10 min"),
    (TWO_STEPS, "mixing, heating", "the mixing is not carried out before the heating",
     f"{MIXED}30 min", f"{MIXED}10 min"),
    (TWO_STEPS, "mixing, heating", "the mixing is not begun until the heating has ended",
     f"{MIXED}30 min", f"{MIXED}25 min"),
    (TWO_STEPS, "mixing, heating", "no mixing takes place during the heating",
     f"{MIXED}30 min", f"{MIXED}25 min"),
    (TWO_STEPS, "mixing, heating", "no mixing is carried out after the heating",
     f"{MIXED}25 min", f"{MIXED}30 min"),
    (VALVE, "valve, pressure", "the valve only opens once a pressure of 5 bar has been exceeded",
     "valve = closed, pressure = 6 bar", "valve = open, pressure = 4 bar"),
    ("lowering  temperature difference in K\npH  number", "lowering, pH",
     "the temperature is lowered by 3 to 5 °C once the pH has fallen to below 3.0",
     "lowering = 1 K, pH = 4", "lowering = 1 K, pH = 2.5"),
    ("metal  any of steel, brass, tin bronze, other bronze", "metal",
     "made of steel, brass and/or a bronze other than tin bronze",
     "metal = {other bronze}", "metal = {tin bronze}"),
    (DOSES, "moment of the doses", "no two doses being given within 6 hours of each other", SPREAD, CLOSE),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), READ)
def test_it_is_read(declared: str, left: str, words: str, within: str, outside: str) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (f"{SIDES}\ngap  length in mm", "gap", "at most half the width or the depth, whichever is smaller"),
        (COUNTS, "blades, vanes", "each blade has two vanes"),
        (SHARES, "oil, wax", "at least 60 wt% of the oil and wax is oil"),
        (METALS, "metal", "copper, zinc and the like"),
        ("oil, gum  mass in g", "oil, gum", "the overall mass of the oil and the gum is at least 60 g"),
        (
            "gap, rim  length in mm",
            "gap, rim",
            "the greatest length of the gap and the rim is at least 60 mm",
        ),
        ("duty  share in %", "duty", "a duty of 40:60"),
        (SHARES, "oil, wax", "5 to 10 wt% of oil and the remainder wax"),
        (SHARES, "oil, wax", "the oil is 20 to 30 % of the combined volume of oil and wax"),
        (SHARES, "oil, wax", "at least 5 wt% of oil in a total of oil and wax of at most 30 wt%"),
        (SHARES, "oil, wax", "1 part by volume of oil and 2 to 4 parts by volume of wax"),
        (SHARES, "oil, wax", "the oil phase comprises 5 to 10 wt% of oil and 1 to 3 wt% of wax"),
        (THREE, "gap, rim, cap", "rim, gap and cap are in a ratio of 1:2:3"),
        (THREE, "gap, rim, cap", "the gap is not smaller than the rim, which is smaller than the cap"),
        (SIDES, "width, depth", "an order of magnitude greater than the depth"),
        (COUNTS, "blades, vanes", "the number of blades and the number of vanes have no common divisor"),
        (SHARES, "wax", "20 parts by volume per 100 parts by volume of the oil"),
        (
            SIDES,
            "width, depth",
            "the width is 5 mm or more and the depth is 5 mm or less, or the width is 9 mm",
        ),
        (
            SIDES,
            "width, depth",
            "the width is at least 9 mm, or the width is 5 mm and the depth is at most 5 mm",
        ),
        ("load  share in %", "load", "not more than 20 percentage points"),
        ("heat  temperature in degC", "heat", "rises from 20 °C to 60 °C"),
        ("width  length in mm", "width", "tapers from 5 mm to 3 mm"),
        (STEPS, "heating, mixing, cooling", "first heating, then cooling, and finally mixing"),
        (STEPS, "heating, mixing, cooling", "heating before cooling"),
        ('n  count  "pairs of blades"', "n", "four pairs of vanes"),
        (STEPS, "cooling", "not before or during the heating"),
        *(
            (STEPS, "heating, cooling", words)
            for words in (
                "after the heating and cooling",
                "before the heating and the cooling",
                "after the heating, optionally cooling",
                "after the heating, no cooling",
                "after heating for 10 min",
                "cooling after heating for 10 min",
                "heating or cooling",
            )
        ),
        (STEPS, "cooling", "after heating for 10 min, cooling"),
        (STEPS, "cooling", "for a mixing period of 5 min"),
        (STEPS, "cooling, heating", "no longer than 5 min after the heating period"),
        ('holes  count "outlets of the aerator"', "holes", "the number of outlets of the tank is at least 4"),
        ('holes  count "outlets of the aerator"', "holes", "the number of blocked outlets is at least 4"),
        (STEPS, "mixing", "after the heating, cooling"),
        (STEPS, "heating, cooling, mixing", "immediately after the heating, mixing and cooling"),
        (STEPS, "heating, cooling", "heating and cooling are carried out substantially simultaneously"),
        (RIBS, "height of the ribs", "the first rib has a height of at least 2 mm"),
        (RIBS, "height of the ribs", "every second rib has a height of at least 2 mm"),
        (RIBS, "height of the ribs", "subsequent ribs have a height of at least 2 mm"),
        (RIBS, "height of the ribs", "the ribs are at least 8 mm apart"),
        (DOSES, "moment of the doses", "more than 8 hours apart"),
        (DAILY, "dose, doses", "a daily dose of 5 mg to 10 mg, given in two equal portions"),
        (
            "rib  part, up to 3\n  kind  one of flat, round",
            "kind of the ribs",
            "the ribs are alternately flat",
        ),
        ("gap  length in mm", "gap", "constant to within 0.005 mm"),
        ("valve, door  one of only open, closed", "valve, door", "the valve is open or the door is closed"),
        (METALS, "metal", "the solder is made of zinc"),
        (METALS, "metal", "comprising copper and a metal other than copper"),
        (WARMING, "temperature of heating", "is constantly raised to 80 °C"),
        (SIDES, "width, depth", "the depth and width are 1 mm and 2 mm, correspondingly to the second"),
        ("width  length in mm", "width", "at most 5 mm (10 %)"),
        ("width  length in mm", "width", "5 mm/6 mm"),
        ("heat  temperature in degC", "heat", "heating only part of the melt to at least 80 °C"),
        ("heat  temperature in degC", "heat", "until the heat reaches 80 °C"),
        (METALS, "metal", "selected from copper, zinc and salts thereof"),
        (STEPS, "heating, cooling", "heating and cooling for 20 min"),
        (STEPS, "heating, cooling", "comprising heating for 10 min and optionally cooling"),
        (
            f"{STEPS}\ncurrent  current in A",
            "heating, current",
            "for 60 min or until the current is below 1 A, whichever occurs first",
        ),
        (
            "first rib width, second rib width  length in mm",
            "first rib width, second rib width",
            "the second and first rib widths are 1 to 2 mm and 2.5 to 3 mm, respectively",
        ),
    ],
)
def test_what_may_say_something_else_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    "words", ["one or both of copper and zinc", "comprising one or both of copper and zinc"]
)
def test_one_or_both_is_never_one_of_each(words: str) -> None:
    text = f"profile  US court\n{METALS}\n\n1. A thing, {words}.\n   | metal : {words}\n"
    findings = ask_all(sheet(f"{text}inside\n  one : metal = {{zinc}}\n")).findings
    assert not [f for f in findings if f.question == "inside lost"]


@pytest.mark.parametrize("words", ["a metal, e.g. copper", "a metal, in particular copper or zinc"])
def test_an_example_of_a_class_limits_on_a_reading_alone(words: str) -> None:
    """EPO Guidelines 2018 F-IV 4.9 (optional), MPEP 2173.05(d) (unclear): read; by hand."""
    text = f"profile  EPO\n{METALS}\n\n1. A thing, {words}.\n   | metal : {words}\n"
    text += "inside\n  one : metal = {tin}\n"
    assert [f.quantifier for f in ask_all(sheet(text)).findings if f.question == "inside lost"] == ["some"]


@pytest.mark.parametrize(
    "words", ["larger than the depth", "three times larger than the depth", "at least the depth minus 2 mm"]
)
def test_a_value_beside_it_is_not_told_as_another_word_for_it(words: str) -> None:
    text = f"{SIDES}\n\n1. A groove, the width being {words}.\n   | width : {words}\n"
    made, found = read_sheet(Source("t.sheet", text))
    assert made is not None
    assert not found


def test_a_difference_in_per_cent_may_be_one_of_either() -> None:
    words = "the width and the depth differ by at most 10 %"
    made = sheet(f"{SIDES}\n\n1. A groove, {words}.\n   | width, depth : {words}\n")
    assert [r.label for g in made.groups for r in g.readings] == ["relative", "relative to the first"]
    text = f"{SIDES}\n\n1. A groove, {words}.\n   | width, depth : {words}\n"
    text += "must stay out\n  wide : width = 10 mm, depth = 9 mm\n"
    found = [f for f in ask_all(sheet(text)).findings if f.question == "outside met"]
    assert [f.quantifier for f in found] == ["some"]


def test_a_share_by_which_one_differs_from_another_may_be_one_of_either() -> None:
    words = "the stiffness differs from the modulus by not more than 20 %"
    made = sheet(f"{MODULI}\n\n1. A film, {words}.\n   | stiffness, modulus : {words}\n")
    assert [r.label for g in made.groups for r in g.readings] == ["relative", "relative to the first"]
    words = "differs from 50 MPa by not more than 20 %"
    made = sheet(f"{MODULI}\n\n1. A film, which {words}.\n   | modulus : {words}\n")
    assert [r.label for g in made.groups for r in g.readings] == ["relative"]


@pytest.mark.parametrize("words", ["made of a metal other than copper", "other than copper"])
def test_what_is_other_may_have_what_is_excluded_beside_it(words: str) -> None:
    text = f"{METALS}\n\n1. A thing, {words}.\n   | metal : {words}\n"
    findings = ask_all(sheet(f"{text}inside\n  both : metal = {{copper, zinc}}\n")).findings
    assert [f.quantifier for f in findings if f.question == "inside lost"] == ["base"]


def test_what_opens_only_at_a_value_may_be_open_beyond_it() -> None:
    words = "the valve opens only at a pressure of 5 bar"
    text = f"{VALVE}\n\n1. A thing, wherein {words}.\n   | valve, pressure : {words}\n"
    findings = ask_all(sheet(f"{text}inside\n  high : valve = open, pressure = 6 bar\n")).findings
    assert [f.quantifier for f in findings if f.question == "inside lost"] == ["base"]


@pytest.mark.parametrize(
    "words",
    [
        "never exceeds 80 °C",
        "at no time exceeds 80 °C",
        "is always at most 80 °C",
        "is at all times at most 80 °C",
    ],
)
def test_what_is_never_exceeded_is_not_exceeded_at_any_moment(words: str) -> None:
    text = (
        f"{WARMING}\n\n1. A method, wherein the temperature {words}.\n   | temperature of heating : {words}\n"
    )
    made = sheet(text)
    assert "throughout" in {r.label for g in made.groups for r in g.readings}
    assert "on average" not in {r.label for g in made.groups for r in g.readings}


def test_what_rises_and_never_exceeds_is_not_so_throughout() -> None:
    words = "rises to 80 °C and never exceeds 90 °C"
    made = sheet(f"{WARMING}\n\n1. A method, wherein it {words}.\n   | temperature of heating : {words}\n")
    assert "throughout" not in {r.label for g in made.groups for r in g.readings}


@pytest.mark.parametrize("words", ["no blades", "free of blades", "without blades"])
def test_no_parts_are_none_at_all(words: str) -> None:
    made = sheet(f"{COUNTS}\n\n1. A thing, {words}.\n   | blades : {words}\n")
    assert [r.label for g in made.groups for r in g.readings] == ["zero"]


@pytest.mark.parametrize("words", ["copper besides and zinc", "copper beside zinc"])
def test_words_that_name_no_member_are_not_offered_as_one(words: str) -> None:
    (wrong,) = errors(f"{METALS}\n\n1. A thing, {words}.\n   | metal : {words}\n")
    assert "add it to the list" not in (wrong.help or "")


@pytest.mark.parametrize(
    "words", ["not comprising copper and zinc", "not having copper and zinc", "comprises no copper and zinc"]
)
def test_a_denied_pair_is_none_of_both_or_not_both(words: str) -> None:
    text = f"{METALS}\n\n1. A thing, {words}.\n   | metal : {words}\n"
    findings = ask_all(sheet(f"{text}must stay out\n  one : metal = {{zinc}}\n")).findings
    assert [f.quantifier for f in findings if f.question == "outside met"] == ["some"]


@pytest.mark.parametrize(
    ("words", "met"),
    [("no later than 5 min after the heating", True), ("within 5 min of the heating", False)],
)
def test_no_later_than_may_be_a_deadline_only(words: str, met: bool) -> None:
    text = f"{STEPS}\n\n1. A method, cooling {words}.\n   | cooling : {words}\n"
    early = "start of heating = 60 min, duration of heating = 1 min, start of cooling = 0 min"
    findings = ask_all(sheet(f"{text}inside\n  early : {early}, duration of cooling = 1 min\n")).findings
    (lost,) = [f for f in findings if f.question == "inside lost"]
    assert (lost.quantifier != "every") is met


@pytest.mark.parametrize(
    ("note", "words", "told"),
    [
        ("number mean, by counting", "a D50 of less than 5 um", True),
        ("number mean, by counting", "a mean size by volume of less than 5 um", True),
        ("number mean, by counting", "a mean size of less than 5 um", False),
        ("D50", "a mean size of less than 5 um", True),
        ("volume mean", "a mean size by volume of less than 5 um", False),
    ],
)
def test_another_average_than_is_noted_is_told(note: str, words: str, told: bool) -> None:
    text = f'size  length in um  "{note}"\n\n1. A powder, {words}.\n   | size : {words}\n'
    _, found = read_sheet(Source("t.sheet", text))
    assert any(d.message.startswith("the words say ") for d in found) is told


def test_what_both_have_is_no_limit_of_their_sum() -> None:
    words = "both the shaft and the flight have a length of at least 180 mm"
    text = f"shaft length, flight length  length in mm\n\n1. A drill, {words}.\n"
    text += f"   | shaft length, flight length : {words}\nmust stay out  shaft length  flight length\n"
    findings = ask_all(sheet(f"{text}  short  100 mm  100 mm\n")).findings
    assert not [f for f in findings if f.question == "outside met"]


def test_the_total_of_a_class_and_an_ingredient_is_no_limit_of_each() -> None:
    declared = 'tablet  composition in wt%  "total weight of the tablet"\n  acid : citric, malic\n'
    assert not on_the_wrong_side(
        f"{declared}  bicarb, binder",
        "acid, bicarb",
        "the total amount of the acid and the bicarb is at least 55 wt%",
        "citric = 40 wt%, malic = 10 wt%, bicarb = 40 wt%, binder = 10 wt%",
        "citric = 20 wt%, malic = 10 wt%, bicarb = 20 wt%, binder = 50 wt%",
    )


def test_percentage_points_beside_shares_are_no_share() -> None:
    words = "exceeds the wax by not more than 25 percentage points"
    made = sheet(f"{SHARES}\n\n1. A balm, the oil {words}.\n   | oil, wax : {words}\n")
    labels = {r.label for g in made.groups for r in g.readings}
    assert labels == {"higher, by that span at most", "by that span at most"}


def read_of(declared: str, left: str, words: str) -> list[list[str]]:
    made = sheet(f"{declared}\n\n1. A method, wherein {words}.\n   | {left} : {words}\n")
    return [[r.label for r in g.readings] for g in made.groups]


@pytest.mark.parametrize(
    "words",
    [
        "in any order",
        "heating and cooling, not necessarily in that order",
        "comprising, in any order, heating and cooling",
        "comprising the steps of heating and cooling in any order",
        "steps (a) and (b) are carried out in either order",
    ],
)
def test_in_any_order_asks_for_no_order_on_any_reading(words: str) -> None:
    lettered = 'heating  step in min  "step a)"\ncooling  step in min  "step b)"'
    assert read_of(lettered, "heating, cooling", words) == [["in any order, or together"]]


def test_the_at_least_one_may_be_every_one_of_them() -> None:
    words = "the at least one rib has a height of at least 2 mm"
    assert any("every one, and there are that many" in g for g in read_of(RIBS, "height of the ribs", words))


def test_overnight_is_so_many_hours_or_over_a_midnight() -> None:
    assert read_of(STEPS, "heating", "is carried out overnight") == [
        ["from one day to the next", "so many hours or more"]
    ]


def test_intervals_are_a_limit_of_each_where_each_part_has_one() -> None:
    declared = "dose  part, up to 3\n  interval  duration in h"
    read = read_of(declared, "interval of the doses", "at intervals of at least 8 hours")
    assert any("every one of them" in g for g in read)


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("the temperature being kept below 30 degC", ["at all times", "on average"]),
        ("held at a temperature of 30 to 40 degC", ["at all times", "on average"]),
        ("while keeping the temperature at 30 to 40 degC", ["at all times", "on average"]),
        ("a maximum temperature of 60 degC", ["at all times", "at its peak"]),
        ("a minimum temperature of 60 degC", ["at all times"]),
        ("never exceeding 60 degC", ["throughout"]),
        ("cooling to a temperature of below 30 degC", ["by its end", "at its lowest", "at all times"]),
        ("heated to at least 60 degC", ["by its end", "at its peak", "at all times"]),
        ("to below 30 degC", ["by its end", "at its peak", "at its lowest", "at all times"]),
        ("the temperature is increased to at least 60 degC", ["by its end", "at its peak", "at all times"]),
        ("the temperature rises to 60 degC", ["by its end", "at its peak", "at all times"]),
        ("the temperature rises above 60 degC", ["by its end", "at its peak", "at all times"]),
        ("the temperature is reduced to below 30 degC", ["by its end", "at its lowest", "at all times"]),
        ("the temperature falls below 30 degC", ["by its end", "at its lowest", "at all times"]),
        ("the temperature is brought to 60 degC",
         ["by its end", "at its peak", "at its lowest", "at all times"]),
        ("the temperature reaches 60 degC", ["at the highest"]),
        ("the temperature never falls below 30 degC", ["throughout"]),
        ("the temperature does not fall below 30 degC", ["throughout"]),
        ("the temperature does not rise above 60 degC", ["throughout"]),
        ("the temperature remains below 30 degC", ["throughout"]),
        ("the temperature stays between 30 and 40 degC", ["throughout"]),
        ("the temperature remains below 30 degC on average",
         ["over its whole time", "of its two ends", "at all times"]),
        ("the temperature falls below 30 degC at the end", ["at the end"]),
    ],
)  # fmt: skip
def test_at_which_moments_of_a_step_a_limit_may_be_meant(words: str, labels: list[str]) -> None:
    assert labels in read_of(WARMING, "temperature of heating", words)


def test_a_hedged_limit_has_what_the_plain_one_has_and_its_wordings_are_alike() -> None:
    declared, left = "gap  length in mm", "gap"
    for plain, hedged in (
        (["not above", "no more than"], "at most"),
        (["not below", "no less than"], "at least"),
        (["shorter than", "below"], "less than"),
        (["in excess of", "longer than"], "more than"),
    ):
        for words in plain:
            read = read_of(declared, left, f"{words} about 5 mm")
            assert read == read_of(declared, left, f"{hedged} about 5 mm")


@pytest.mark.parametrize(
    "words",
    [
        "excluding 36 wt%",
        "except for 36 wt%",
        "save for 36 wt%",
        "with the exception of 36 wt%",
        "but not 36 wt%",
    ],
)
def test_a_value_left_out_may_be_what_rounds_to_it(words: str) -> None:
    read = read_of("solids  share in wt%", "solids", f"20 to 40 wt%, {words}")
    assert len(read[-1]) == 3


@pytest.mark.parametrize(
    ("declared", "words", "passed"),
    [
        ("flow  in g/min", "0.5 to 8 g/10 min, measured at 190 °C under a load of 2.16 kg", "measured at"),
        ("flow  in g/min", "a flow (190 °C, 2.16 kg) of 0.5 to 8 g/10 min", "(190 °C"),
        ("flow  in g/min", "a flow, measured at 190 °C and 2.16 kg, of 0.5 to 8 g/10 min", "measured at"),
        ("flow  in Pa.s", "at most 5 Pa.s at 25 °C and at a shear rate of 100 1/s", "at 25 °C"),
        ("flow  length in mm", "at most 5 mm (under a load of 5 N)", "(under a load"),
        ("flow  temperature in degC", "heating the glass powder to at least 80 °C", "the glass powder"),
        ("flow  share in wt%", "not more than 0.02 wt%, expressed as Fe2O3", "expressed as Fe2O3"),
        ("flow  share in wt%", "a flow, expressed as iron oxide, of at most 2 wt%", "expressed as iron"),
    ],
)
def test_what_is_read_past_is_told(declared: str, words: str, passed: str) -> None:
    made, found = read_sheet(Source("test", f"{declared}\n\n1. A thing, {words}.\n   | flow : {words}\n"))
    assert made is not None
    assert [d.message.startswith(f"'{passed}") for d in found] == [True]


@pytest.mark.parametrize(
    "words",
    ["at most 2 mm, expressed as half the rim", "at most 2 mm, expressed as a radius",
     "at most 2 mm, not expressed as rims",
     "at most 2 mm expressed as rims or at most 3 mm expressed as caps"],
)  # fmt: skip
def test_another_value_that_it_is_expressed_as_is_never_read_past(words: str) -> None:
    assert errors(f"gap, rim  length in mm\n\n1. A thing, {words}.\n   | gap : {words}\n")


def test_a_condition_of_measuring_that_the_note_has_is_not_told() -> None:
    words = "0.5 to 8 g/10 min, measured at 190 °C under a load of 2.16 kg"
    declared = 'flow  in g/min  "measured at 190 °C under a load of 2.16 kg"'
    made, found = read_sheet(Source("test", f"{declared}\n\n1. A thing, {words}.\n   | flow : {words}\n"))
    assert made is not None
    assert not found


def test_words_that_end_in_not_are_no_state() -> None:
    words = "the lid is open if the width exceeds 3 mm and closed if not"
    declared = "lid  one of only open, closed\nwidth  length in mm"
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | lid, width : {words}\n")


GEARS = "planet gears, spoke holes  count"


@pytest.mark.parametrize(
    ("words", "plainly"),
    [
        ("one planet gear for each group of eight spoke holes",
         "one planet gear for every eight spoke holes"),
        ("one planet gear for each row of 8 spoke holes", "one planet gear for every 8 spoke holes"),
        ("at least one planet gear for every group of eight spoke holes",
         "at least one planet gear for every eight spoke holes"),
        ("two planet gears per set of eight spoke holes", "two planet gears per eight spoke holes"),
    ],
)  # fmt: skip
def test_one_for_each_group_of_eight_is_one_for_every_eight(words: str, plainly: str) -> None:
    text = "{0}\n\n1. A hub, {1}.\n   | planet gears, spoke holes : {1}\n"
    first, second = (sheet(text.format(GEARS, w)) for w in (words, plainly))
    assert [r.label for r in first.groups[0].readings] == [r.label for r in second.groups[0].readings]
    assert first.claims[0].limitations[0].formula == second.claims[0].limitations[0].formula


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (GEARS, "planet gears, spoke holes", "one planet gear for each group of at least eight spoke holes"),
        (GEARS, "planet gears, spoke holes", "one planet gear for each group of eight or nine spoke holes"),
        (GEARS, "planet gears, spoke holes", "one planet gear for a group of eight spoke holes"),
        (GEARS, "planet gears, spoke holes", "one planet gear for each group of spoke holes"),
        (GEARS, "planet gears, spoke holes", "one planet gear for each of eight spoke holes"),
        (GEARS, "planet gears, spoke holes", "for each group of eight spoke holes one planet gear"),
        ("gears, rows  count", "gears, rows", "one gear for each row of eight holes"),
    ],
)
def test_groups_of_which_the_number_is_not_said(declared: str, left: str, words: str) -> None:
    assert presumed_in_symbols(declared, left, words) == ""


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("the slot exceeds the rim by 2 mm", "ROUND(slot - rim TO 1 mm, HALF AWAY) = 2 mm"),
        ("the rim exceeds the slot by 2 mm", "ROUND(rim - slot TO 1 mm, HALF AWAY) = 2 mm"),
        ("exceeds the slot by 2 mm", "ROUND(rim - slot TO 1 mm, HALF AWAY) = 2 mm"),
        ("the slot exceeds the rim by at least 2 mm", "slot - rim >= 2 mm"),
        ("the slot exceeds the rim by 2 mm or more", "slot - rim >= 2 mm"),
        ("the slot never exceeds the rim by 2 mm", ""),
        ("the slot does not exceed the rim by 2 mm", ""),
        ("above which the slot exceeds the rim by 2 mm", ""),
        ("the slot exceeds twice the rim by 2 mm", ""),
        ("exceeds by 2 mm", ""),
    ],
)
def test_by_how_much_one_exceeds_the_other(words: str, said: str) -> None:
    assert presumed_in_symbols("rim, slot  length in mm", "rim, slot", words) == said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("a maximum number of holes of six", "holes <= six"),
        ("a minimum number of holes of six", "holes >= six"),
        ("not a maximum number of holes of six", ""),
        ("a maximum number of holes of at least six", ""),
        ("a maximum number of holes of six or seven", ""),
        ("a maximum number of holes of six per plate", ""),
    ],
)
def test_a_greatest_number_behind_what_is_counted(words: str, said: str) -> None:
    assert presumed_in_symbols("holes  count", "holes", words) == said
