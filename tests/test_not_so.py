"""Words that are refused of what stands left of the colon, since they say another thing of it; and others
like them that are read.
"""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

REFUSED = [
    # by how much something changes
    ("p  pressure in bar", "p", "the pressure drops at least 4 bar", "how much something changes"),
    ("T  temperature in degC", "T", "falls more than 4 °C", "how much something changes"),
    ("level  length in mm", "level", "the level has risen 4 to 5 mm", "how much something changes"),
    *(("p  pressure in bar", "p", f"a p {said} by 4 bar", "how much something changes")
      for said in ("raised", "lowered", "down", "up", "boosted", "offset", "exceeded")),
    ("p  pressure in bar", "p", "raised by at least 4 bar", "how much something changes"),
    ("gap  length in mm", "gap", "a gap widened by 4 mm", "how much something changes"),
    ("gap  length in mm", "gap", "a gap shifted by 4 mm", "how much something changes"),
    ("oil  share in wt%", "oil", "an oil lowered by 4 wt%", "how much something changes"),
    # in decibels a gain and a loss are values; a change goes the way of its verb, and is not changed itself
    *(("gain  in dB", "gain", f"{said} by at least 6 dB", "how much something changes")
      for said in ("reduced", "the gain is reduced", "lowered", "drops", "raised", "increased")),
    ("insertion loss  in dB", "insertion loss", "decreased by not more than 3 dB", "how much something"),
    ("heat loss  share in %", "heat loss", "the heat loss is reduced by at least 20 %", "how much something"),
    ("growth  share in %", "growth", "growth is reduced by 20 to 30 %", "how much something changes"),
    ("fall  in K", "fall", "rises by at least 5 K", "how much something changes"),
    ("heat loss  share in %", "heat loss", "increased by at most 5 %", "how much something changes"),
    ("p drop  pressure in bar", "p drop", "the p drop falls by at least 2 bar", "how much something changes"),
    ("p drop  pressure in bar", "p drop", "the p is raised by at least 2 bar", "how much something changes"),
    ("p  pressure in bar", "p", "spaced by 4 bar", "how far values lie apart"),
    ("p  pressure in bar", "p", "a p plus 4 bar", "makes another value of it"),
    ("p  pressure in bar", "p", "a p minus 4 bar", "makes another value of it"),
    ("p  pressure in bar", "p", "with a tolerance of 4 bar", "no phrase reads"),
    ("p  pressure in bar", "p", "with a tolerance of at most 4 bar", "no phrase reads"),
    ("p  pressure in bar", "p", "at the edge of the range of 4 to 8 bar", "tells where in a range"),
    ("p  pressure in bar", "p", "at the lower end of a range of 4 to 8 bar", "tells where in a range"),
    *(("p  pressure in bar", "p", f"{said} the range of 4 to 8 bar", "all of a range is gone over")
      for said in ("covering", "spans", "sweeping", "encompassing", "covers the whole of")),
    # ratios
    ("a, b, c  share in wt%", "a, b, c", "in a ratio of at least 3:5:2", "a limit of a ratio of several"),
    ("sand, lime  share in wt%", "sand, lime", "each in a ratio of 1:1", "a ratio of one thing"),
    ("sand, lime  share in wt%", "sand", "in a ratio of 1:3", "a ratio of one thing"),
    ("a, b  mass in g", "a, b", "a molar ratio of 2:1", "'molar ratio' of what is declared as a mass"),
    # points of nothing
    ("oil  share in wt%", "oil", "at most 3 percentage points", "percentage points of nothing"),
    ("holes  count", "holes", "at least 3 percentage points", "percentage points of nothing"),
    # parts of a step, sets of parts, one value of like parts
    ("heating  step in min", "heating", "the last 20 minutes", "a part of a step"),
    ("bar  part, 1 to 3;  load  force in N", "load of the bars", "each set of the bars carrying 15 N",
     "several of the load of the bars together"),
    ("bar  part, 1 to 3;  holes  count;pins  count", "holes of the bars, pins", "more holes than pins",
     "takes one value of each thing"),
    ("bar  part, 1 to 3;  load  force in N", "load of the bars", "each of the bars together having 15 N",
     "several of the load of the bars together"),
    # levels, spreads
    ("noise, hum  in dB", "noise, hum", "together at most 60 dB", "levels in decibels"),
    ("noise, hum  in dB", "noise, hum", "less than twice the hum", "levels in decibels"),
    ("T  temperature in degC", "T", "a temperature spread of at least 4 °C", "how far values lie apart"),
    ("D90  length in um", "D90", "a mean size of at least 40 µm", "a mean is no D90"),
    # letters
    ('d  length in mm "depth";bore  length in mm "D"', "d", "D ≥ 3 mm", "D is a letter for another thing"),
    ('width  length in mm "W";thickness  length in mm "T"', "width", "T ≤ 2 mm", "for what T stand"),
]  # fmt: skip
HARDLY = [
    ("rim, gap  length in mm", "rim, gap", "heavier than the gap", "'heavier' is said of what weighs"),
    ("rim, gap  mass in g", "rim, gap", "wider than the gap", "'wider' is said of a length"),
    ("rim, gap  length in mm", "rim, gap", "warmer than the gap", "'warmer' is said of a temperature"),
    ("a, b  length in mm", "a, b", "a weight ratio of 2:1", "'weight ratio' of what is declared as a length"),
]
READ = [
    ("pressure rise  pressure in bar", "pressure rise", "raised by 4 bar"),
    ('lift  length in mm "by which the lid is raised"', "lift", "raised by 4 mm"),
    ("p  pressure in bar", "p", "a pressure raised to 4 bar"),
    ("p  pressure in bar", "p", "8 bar with a tolerance of 4 bar"),
    ("p  pressure in bar", "p", "in the range of 4 to 8 bar"),
    ("hop distance  frequency in kHz", "hop distance", "spaced by 4 kHz"),
    ("phase  angle in deg", "phase", "a phase shifted by 90°"),
    ("p, base  pressure in bar", "p, base", "the p is the base plus 4 bar"),
    ("pressure  pressure in bar", "pressure", "the pressure drops below 4 bar"),
    ("pressure drop  pressure in bar", "pressure drop", "the pressure drops at least 4 bar"),
    ('fall  temperature difference in K "of the temperature"', "fall", "falls at least 4 K"),
    ("rim, gap  length in mm", "rim, gap", "wider than the gap"),
    ("rim, gap  mass in g", "rim, gap", "heavier than the gap"),
    ("hold, soak  time in s", "hold, soak", "longer than the soak"),
    ("a, b, c  share in wt%", "a, b, c", "in a ratio of about 3:5:2"),
    ("sand, lime  share in wt%", "sand, lime", "in a ratio of 1:3"),
    ("mixing ratio  number", "mixing ratio", "in a ratio of 1:3"),
    ("oil, gum  share in wt%", "oil", "at most 3 percentage points more than the gum"),
    ("heating  step in min", "heating", "lasting 20 minutes"),
    ("bar  part, 1 to 3;  load  force in N", "load of the bars", "each of the bars carrying at least 15 N"),
    ("noise, hum  in dB", "noise, hum", "at least 3 dB less than the hum"),
    ("T  temperature in degC", "T", "a temperature range of 20 to 40 °C"),
    ('d  length in mm "depth D"', "d", "D ≥ 3 mm"),
    ('width  length in mm "W";thickness  length in mm "T"', "width", "W ≤ 2 mm"),
]


def _sheet(declared: str, left: str, words: str) -> Source:
    head = "\n".join(declared.split(";"))
    return Source("t", f"{head}\n\n1. A method, wherein {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(("declared", "left", "words", "told"), REFUSED)
def test_what_is_said_of_something_else_is_refused(declared: str, left: str, words: str, told: str) -> None:
    made, found = read_sheet(_sheet(declared, left, words))
    assert made is None
    assert told in found[0].message
    assert found[0].help


@pytest.mark.parametrize(("declared", "left", "words"), READ)
def test_what_is_said_of_the_thing_is_read(declared: str, left: str, words: str) -> None:
    made, found = read_sheet(_sheet(declared, left, words))
    assert made is not None, [d.message for d in found]
    assert not [d for d in found if "is said of" in d.message]


@pytest.mark.parametrize(("declared", "left", "words", "told"), HARDLY)
def test_what_is_hardly_said_of_the_thing_is_told(declared: str, left: str, words: str, told: str) -> None:
    made, found = read_sheet(_sheet(declared, left, words))
    assert made is not None
    assert [d.message for d in found] == [told]
