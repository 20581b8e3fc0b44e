"""For each phrase a thing that one of its readings takes in and another leaves out, with numbers of our own.

The numbers are those of the sources that the phrase names, or our own. `+` before a label: the thing
meets that reading; `-`: it does not.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

import pytest

from scopecheck.core.construction import Construction
from scopecheck.core.declared import ChoiceDecl, NumberDecl
from scopecheck.core.formula import Article, Read
from scopecheck.core.model import Sheet
from scopecheck.foundations.quantity import find_unit
from scopecheck.report.occasions import read
from scopecheck.solving.evaluate import evaluate
from scopecheck.vocabulary.catalogue import entries

MM, SHARE, COUNT = "x  length in mm", "x  share in %", "x  count"
METALS = "x  any of copper, zinc, tin, steel"


@dataclass(frozen=True)
class Case:
    id: str
    declared: str
    words: str
    thing: str
    expected: str
    subjects: str = "x"
    open: dict[str, str] = field(default_factory=dict)


CASES = [
    Case("A1", MM, "between 10 and 15 mm", "x=10 mm", "+both ends in, -both ends out"),
    Case("A1", MM, "between 10 and 15 mm", "x=15 mm", "+both ends in, -both ends out, -top end out"),
    Case("A2", "x  temperature in degC", "from 20 to 60 degC", "x=40 degC", "+both ends in"),
    Case("A3", SHARE, "up to 2.5 %", "x=0 %", "+zero allowed, end in; -some must be present"),
    Case("A3", SHARE, "up to 2.5 %", "x=2.5 %", "+zero allowed, end in; -end out"),
    Case("A4", SHARE, "at least 35 %", "x=80 %", "+no top, end in"),
    Case("A5", SHARE, "at most 70 %", "x=0 %", "+includes none, end in; -must be present"),
    Case("A6", SHARE, "more than 5 %", "x=5.3 %", "+strict, exact; -strict after rounding"),
    Case(
        "A7",
        "x  temperature in degC",
        "within 2 degC of 37 degC",
        "x=39 degC",
        "+ends in; -ends out; +above only; -below only",
    ),
    Case(
        "A8",
        "x  temperature in degC",
        "45 to 78 degC, preferably 50 to 60 degC",
        "x=47 degC",
        "+outer limit; -inner limit",
    ),
    Case("A9", SHARE, "40 % ± 5 %", "x=36 %", "+absolute; -relative"),
    Case("B1", "x  temperature in degC", "about 200 degC", "x=200.7 degC", "-rounding only; -exactly"),
    Case("B1", MM, "about 200 mm", "x=205 mm", "+fixed share; -rounding only"),
    Case("B2", SHARE, "about 1 to 5 %", "x=5.05 %", "+covers both ends; -lower end only", open={"e": "1 %"}),
    Case(
        "B3",
        "x  number",
        "substantially 1.00",
        "x=1.02",
        "+near enough for the purpose; -within making tolerance; -exactly",
        open={"e": "3 %", "t": "0.01"},
    ),
    Case(
        "B4",
        SHARE,
        "substantially free of x",
        "x=0.5 %",
        "-unavoidable impurity only; +no effect; +below a number",
        open={"i": "0.1 %", "h": "0.6 %", "z": "1 %"},
    ),
    Case("B5", MM, "of the order of 5 mm", "x=9 mm", "+same power of ten; +within half a decade"),
    Case("B5", MM, "of the order of 5 mm", "x=12 mm", "-same power of ten; +within half a decade"),
    Case("B6", MM, "thin", "x=30 mm", "+no limit at all; -standard of the field", open={"c": "6 mm"}),
    Case(
        "B6",
        f"{MM}\ny  length in mm",
        "thin",
        "x=30 mm, y=40 mm",
        "+no limit at all; -standard of the field; +beside the other part",
        "x, y",
        {"c": "6 mm"},
    ),
    Case(
        "B7",
        "x  mass in g",
        "effective amount",
        "x=2 g",
        "+any amount; -enough for the stated effect; +enough for another disclosed effect",
        open={"f": "8 g", "g": "2 g"},
    ),
    Case(
        "B8",
        "x  length in m\ns  length in m\nt  length in m",
        "58 to 75 % of the height of the rider",
        "x=1.0 m, s=1.4 m, t=1.9 m",
        "+some of them; -every one of them",
        "x, s, t",
    ),
    Case(
        "C1",
        "x  number",
        "pH of 13 or higher",
        "x=12.6",
        "+rounds to the limit; -exact; -field rule for logarithms",
    ),
    Case("C2", SHARE, "0.001 %", "x=0.0007 %", "+rounds to it; -one digit finer"),
    Case(
        "C3",
        SHARE,
        "not more than 0.2 %",
        "x=0.25 %",
        "+rounds to the limit, half to even; -rounds to the limit",
    ),
    Case("C3", SHARE, "not less than 98.0 %", "x=97.96 %", "+rounds to the limit; -no top, as observed"),
    Case(
        "C3",
        SHARE,
        "not less than 100.0 %",
        "x=99.96 %",
        "+rounds to the limit; -as many figures as the limit",
    ),
    Case(
        "C4",
        "x  length in m",
        "at most 36 ft (11.0 m)",
        "x=10.98 m",
        "-first value governs; +value in brackets governs; +either will do",
    ),
    Case(
        "D1",
        "x  share in wt%\ny  share in vol%\nz  share in mol%",
        "a share of at most 15 %",
        "x=18.2 wt%, y=10 vol%, z=4 mol%",
        "-by mass; +by volume; +by mole",
        "x, y, z",
    ),
    Case(
        "D2",
        "x  share in wt%\ny  share in wt%",
        "a weight share of at least 40 wt%",
        "x=30 wt%, y=60 wt%",
        "-of the total as used; +of the dry mass",
        "x, y",
    ),
    Case(
        "D3",
        "x  share in ppb(m)\ny  share in ppb(mol)",
        "at most 2 parts per billion",
        "x=4.7 ppb(m), y=1 ppb(mol)",
        "-by mass; +by mole or volume",
        "x, y",
    ),
    Case("D4", "x  pressure in bar(a)", "pressure of at least 1.5 bar", "x=2.0 bar(a)", "+absolute; -gauge"),
    Case(
        "D5",
        "x  temperature in degC\ny  temperature in degC",
        "at least 2 times y",
        "x=40 degC, y=20 degC",
        "-ratio of absolute temperatures; +ratio of degrees Celsius",
    ),
    Case(
        "D6",
        "x  temperature in degC\ny  temperature in degC",
        "at least 30 degF higher than y",
        "x=16.7 degC, y=0 degC",
        "+by that span",
    ),
    Case(
        "D6",
        "x  share in %\ny  share in %",
        "at least 5 % higher than y",
        "x=43 %, y=40 %",
        "-by that span; +by that share",
    ),
    Case(
        "D7",
        "x  length in mm\ny  length in mm",
        "at least three times higher than y",
        "x=35 mm, y=10 mm",
        "+as much; -more by",
    ),
    Case(
        "D8",
        "x  share in %\ny  share in %\nz  share in %",
        "20 to 80 % of x, 20 to 80 % of y and 1 to 25 % of z",
        "x=30 %, y=30 %, z=20 %",
        "+open whole; -closed whole; +each on its own base",
        "x, y, z",
    ),
    Case(
        "D9", "x  data in byte", "at least 10 megabytes", "x=10000000 byte", "+powers of ten; -powers of two"
    ),
    Case(
        "E1",
        "x  molar mass in kDa\ny  molar mass in kDa",
        "molecular weight of 5 to 9 kDa",
        "x=8 kDa, y=10 kDa",
        "+number average; -weight average",
        "x, y",
    ),
    Case(
        "E2",
        "x  length in um\ny  length in um",
        "average particle size of at most 5 um",
        "x=2.8 um, y=9.5 um",
        "+mean by number; -mean by volume",
        "x, y",
    ),
    Case("F1", COUNT, "an x", "x=2", "+one or more; -exactly one"),
    Case("F3", COUNT, "a plurality", "x=2", "+two or more; -three or more"),
    Case("F3", COUNT, "a plurality", "x=1", "-two or more; +one or more"),
    Case(
        "F4",
        METALS,
        "at least one of copper and zinc",
        "x={copper}",
        "-one of each; +either will do; +exactly one kind",
    ),
    Case(
        "F5",
        METALS,
        "at least one of copper, zinc or tin",
        "x={copper,zinc}",
        "+any one suffices; -exactly one",
    ),
    Case("F6", COUNT, "a pair", "x=4", "-exactly two; +two or more"),
    Case(
        "F7",
        "x  length in mm\ny  length in mm",
        "different",
        "x=5 mm, y=5 mm",
        "+two things, whatever their values; -two values",
        "x, y",
    ),
    Case("F8", COUNT, "first, second and third", "x=4", "+so many at least; -exactly that many"),
    Case("F10", METALS, "any of copper and zinc", "x={copper}", "+at least one; -every one"),
    Case("F12", SHARE, "a majority", "x=47.8 %", "-more than half; +the largest share", open={"s": "30 %"}),
    Case("F13", COUNT, "three", "x=4", "+at least that many; -exactly that many"),
    Case("G1", METALS, "either copper or zinc", "x={copper,zinc}", "+inclusive; -exclusive"),
    Case(
        "G2",
        METALS,
        "selected from the group consisting of copper, zinc and tin",
        "x={copper,zinc}",
        "-exactly one member; +one or more members; -all members",
    ),
    Case(
        "G2",
        METALS,
        "selected from the group comprising copper and zinc",
        "x={steel}",
        "+open list; -one or more of those named",
    ),
    Case("G3", METALS, "such as copper or zinc", "x={tin}", "+not limiting; -limiting"),
    Case("G4", METALS, "comprising copper and zinc", "x={copper,zinc,tin}", "+open; -closed"),
    Case(
        "G6",
        METALS,
        "consisting essentially of copper and zinc",
        "x={copper,zinc,tin}",
        "+as comprising; -as consisting of",
    ),
    Case("G7", METALS, "composed of copper and zinc", "x={copper,zinc,tin}", "+open; -closed"),
    Case(
        "G8",
        "x  share in mg/kg",
        "free of x",
        "x=12 mg/kg",
        "-zero; +below a threshold",
        open={"t": "20 mg/kg"},
    ),
    Case(
        "G8",
        "x  share in mg/kg",
        "free of x",
        "x=20 mg/kg",
        "-zero; -below a threshold",
        open={"t": "20 mg/kg"},
    ),
    Case(
        "G9",
        METALS,
        "except copper and zinc",
        "x={copper}",
        "-none of them; +not all of them together; -not exactly one of them",
    ),
    Case(
        "G10",
        "x  share in %\ny  share in %",
        "x being y in an amount of 1 to 10 %",
        "x=30 %, y=10 %",
        "+this member only; -total of the class kept",
        "x, y",
    ),
    Case("H1", "x  number", "divisible by 5", "x=7.5", "-leaves an integer quotient; +can be divided"),
    Case(
        "H1",
        "x  number",
        "divisible by 5",
        "x=0",
        "+leaves an integer quotient; -integer quotient of two or more",
    ),
    Case("H2", "x  number", "a multiple of 4", "x=4", "+positive whole multiple; -more than once"),
    Case("H2", "x  number", "a multiple of 4", "x=6", "-positive whole multiple; +any multiple"),
    Case(
        "H3",
        "x  mass in g\ny  mass in g",
        "a ratio of x to y of 1:5 to 1:2",
        "x=1 g, y=3 g",
        "+first over second; -second over first",
        "x, y",
    ),
    Case(
        "H4",
        "a  number\nb  number\nc  number\nd  number\ne  number\nf  number",
        "proportional",
        "a=5, b=1, c=7, d=2, e=9, f=3",
        "-through the origin; +straight line; +rises with",
        "a, b, c, d, e, f",
    ),
    Case(
        "H5",
        "a  number\nb  number\nc  number\nd  number\ne  number\nf  number",
        "inversely proportional",
        "a=9, b=1, c=5, d=5, e=1, f=9",
        "-reciprocal; +falls as the other rises; +falling straight line",
        "a, b, c, d, e, f",
    ),
    Case(
        "H6",
        "a  number\nb  number\nc  number\nd  number",
        "decreasing",
        "a=5, b=4, c=4, d=3",
        "-strictly at each step; +never the other way; +from first to last",
        "a, b, c, d",
    ),
    Case(
        "H6",
        "a  number\nb  number\nc  number",
        "decreasing",
        "a=5, b=6, c=3",
        "-strictly at each step; -never the other way; +from first to last",
        "a, b, c",
    ),
    Case(
        "H7",
        "x  length in mm\ny  length in mm",
        "equal",
        "x=10.00 mm, y=10.02 mm",
        "-exact; +as made",
        "x, y",
        {"t": "0.05 mm"},
    ),
    Case(
        "H8",
        "x  mass in g\ny  mass in g",
        "x and y of at least 10 g",
        "x=6 g, y=6 g",
        "-each; +together",
        "x, y",
    ),
    Case("H9", "x  length in mm", "differs from 5 mm by at least 3 mm", "x=2 mm", "+either way; -above only"),
    Case(
        "I1",
        "x  angle in deg",
        "parallel",
        "x=1 deg",
        "-exact; +within making tolerance",
        open={"e": "2 deg"},
    ),
    Case(
        "I2",
        "x  length in mm\ny  length in mm",
        "a rectangle",
        "x=10 mm, y=10 mm",
        "+special shape included; -special shape excluded",
        "x, y",
    ),
    Case(
        "I3",
        "x  length in mm\ny  length in mm",
        "a diameter of at most 5 mm",
        "x=8 mm, y=2 mm",
        "-largest extent; +smallest extent",
        "x, y",
    ),
    Case(
        "I4",
        "x  angle in deg\ny  length in mm\nz  length in mm",
        "a third of a circle",
        "x=120 deg, y=9 mm, z=10 mm",
        "+around; -across",
        "x, y, z",
    ),
    Case(
        "J1",
        "x  time in day",
        "every 3 days",
        "x=2 day",
        "+at least that often; -no more often; +counting the first day too; -fixed spacing",
    ),
    Case("J2", "x  count", "biweekly", "x=1", "+once in two weeks; -four in two weeks"),
    Case(
        "J3",
        "x  time in h\ny  time in h",
        "within 2 days of the event",
        "x=9 h, y=56 h",
        "+days, the first left out, the last in; -hours",
        "x, y",
    ),
    Case(
        "J10",
        COUNT,
        "every 10 ft for 100 ft",
        "x=11",
        "-one end counted; +both ends counted; -only those between",
    ),
    Case(
        "J10",
        COUNT,
        "every 10 ft for 100 ft",
        "x=9",
        "-one end counted; -both ends counted; +only those between",
    ),
    Case("J11", COUNT, "repeated up to 3 times", "x=4", "-that many in all; +once, and then that many more"),
    Case(
        "J12",
        "a  mass in g\nb  mass in g\nc  mass in g",
        "reduced by 10 % every 2 h",
        "a=100 g, b=90 g, c=81 g",
        "+of what is left; -of the first value",
        "a, b, c",
    ),
    Case(
        "K1",
        "x  temperature in degC\ny  temperature in degC\nz  temperature in degC",
        "heated to at least 200 degC",
        "x=180 degC, y=230 degC, z=240 degC",
        "-the thing named; +its surroundings; +the control setting",
        "x, y, z",
    ),
    Case(
        "K2",
        "x  number\ny  number",
        "a slope of at least 1.3",
        "x=1.25, y=1.35",
        "+any known method; -every known method; -the first, the description's own",
        "x, y",
    ),
    Case(
        "K3",
        "a  share in %\nb  share in %\nc  share in %\nd  share in %",
        "an amount of less than 7 %",
        "a=9 %, b=4 %, c=9 %, d=4 %",
        "-as charged; -at all times; +in the product; -at its peak",
        "a, b, c, d",
    ),
    Case("B1", SHARE, "up to about 10 %", "x=0 %", "+context tolerance; -must be present"),
    Case("B1", SHARE, "less than about 5 %", "x=0 %", "+context tolerance; -must be present"),
    Case(
        "B3",
        SHARE,
        "nearly 5 %",
        "x=5.1 %",
        "+near enough for the purpose; -short of it, and not by much",
        open={"e": "10 %"},
    ),
    Case("B1", SHARE, "exceeding about 5 %", "x=4.6 %", "-rounding only; +down to all that rounds to it"),
    Case(
        "A6",
        "x  density in g/cm3",
        "below 0.91 g/cm3",
        "x=0.912 g/cm3",
        "-strict, exact; -strict after rounding; -end in; +up to all that rounds to it",
    ),
    Case("A6", MM, "more than 5 mm", "x=4.6 mm", "-strict, exact; +down to all that rounds to it"),
    Case(
        "A5",
        "x  length in um",
        "400 um or less",
        "x=404 um",
        "-includes none, end in; -rounds to the limit; +zeros at the end not counted",
    ),
    Case("A5", "x  length in um", "410 um or less", "x=416 um", "-zeros at the end not counted"),
    Case(
        "A4",
        "x  length in um",
        "at least 400 um",
        "x=396 um",
        "-no top, end in; +zeros at the end not counted",
    ),
    Case(
        "F8",
        COUNT,
        "a first x and a second x",
        "x=1",
        "-so many at least; -exactly that many; +roles that one may have together",
    ),
    Case("A2", COUNT, "one to three", "x=4", "-both ends in; +at least the lower number"),
    Case(
        "A2",
        SHARE,
        "2 to 4 %, excluding 3 %",
        "x=3.2 %",
        "+that value left out; -what rounds to it left out; +what is near it left out",
        open={"t": "0.1 %"},
    ),
    Case(
        "A2",
        SHARE,
        "2 to 4 %, with the exception of 3 %",
        "x=3.2 %",
        "+that value left out; -what rounds to it left out; -what is near it left out",
        open={"t": "0.3 %"},
    ),
    Case("A7", MM, "within 5 mm", "x=5.4 mm", "-either side, end in; +rounds to the limit"),
    Case(
        "G8",
        "x  share in mg/kg",
        "no added x",
        "x=12 mg/kg",
        "+only what comes with the rest; -zero",
        open={"i": "20 mg/kg"},
    ),
    Case(
        "H3",
        "x  mass in g\ny  mass in g",
        "a weight ratio of x to y of about 1:5",
        "x=1 g, y=4 g",
        "-context tolerance; +first over the total",
        "x, y",
    ),
    Case(
        "H3",
        "x  mass in g\ny  mass in g",
        "a weight ratio of x to y of 2 to 1",
        "x=2 g, y=1 g",
        "+the one number to the other; +a range of the quotient, ends written downward",
        "x, y",
    ),
    Case(
        "H3",
        "x  mass in g\ny  mass in g",
        "a weight ratio of x to y of 1 to 5",
        "x=1 g, y=5 g",
        "+the one number to the other; -a range of the quotient",
        "x, y",
    ),
    Case(
        "H3",
        "x  mass in g\ny  mass in g",
        "a weight ratio of x to y of about 1 to 5",
        "x=3 g, y=1 g",
        "-the one number to the other; +a range of the quotient",
        "x, y",
    ),
    Case("H3", "x  ratio", "an aspect ratio of 2 to 1", "x=2", "+the one number to the other"),
    Case("H3", "x  ratio", "a ratio of 1 to 5", "x=0.2", "+the one number to the other; -a range"),
]


TWO_STEPS = "a  step in min\nb  step in min\n"
"""Times of authorities' examples: one from 0 to 10, the other from 5 to 15."""
FIVE_LATER = "start of a=0 min, duration of a=10 min, start of b=5 min, duration of b=10 min"
CASES += [
    Case("J4", TWO_STEPS, "before b", FIVE_LATER, "-over before it begins; +begun before it begins", "a"),
    Case("J4", TWO_STEPS, "after a", FIVE_LATER, "-begun when it is over; +begun after it has begun", "b"),
    Case(
        "J4",
        f"{TWO_STEPS}c  step in min",
        "immediately after a",
        "start of a=0 min, duration of a=10 min, start of b=10 min, duration of b=1 min, start of c=11 min, "
        "duration of c=1 min",
        "-nothing between; -without a pause; +within a short time",
        "c",
        {"d": "2 min"},
    ),
    Case(
        "J5",
        f"{TWO_STEPS}c  step in min",
        "comprising the steps of",
        "start of a=5 min, duration of a=5 min, start of b=0 min, duration of b=5 min, start of c=10 min, "
        "duration of c=5 min",
        "+in any order; -in the order listed",
        "a, b, c",
    ),
    Case(
        "J6",
        TWO_STEPS,
        "simultaneously with b",
        FIVE_LATER,
        "-begun at the same instant; +overlapping at some moment; -over the same span",
        "a",
    ),
    Case(
        "J6",
        TWO_STEPS,
        "during b",
        FIVE_LATER,
        "-wholly within it; +at some moment of it; -for as long as it goes on",
        "a",
    ),
    Case(
        "J7",
        "a  step in h\nb  event in h",
        "until b",
        "start of a=0 h, duration of a=12 h, time of b=10 h",
        "-up to its beginning, then stopped; +at least up to its beginning",
        "a",
    ),
    Case(
        "J7",
        "a  step in min",
        "for 30 minutes",
        "start of a=0 min, duration of a=40 min",
        "-exactly so long; +so long or longer",
        "a",
    ),
    Case(
        "J8",
        "a  step in min, may be left out\nw  share in %",
        "when w exceeds 12 %",
        "a=not done, start of a=0 min, duration of a=1 min, w=10 %",
        "+only the steps that must happen; -the condition comes about, and the step; +then and only then",
        "a, w",
    ),
    Case(
        "J8",
        "a  step in min, may be left out\nw  share in %\nheaters  count",
        "when w exceeds 12 %",
        "a=not done, start of a=0 min, duration of a=1 min, w=10 %, heaters=0",
        "-what does the step is there in any case; +only where the condition comes about",
        "a, w, heaters",
    ),
    Case(
        "J9",
        "a  step in min\np  time in s",
        "continuously",
        "start of a=0 min, duration of a=10 min, p=1 s",
        "-without a break; +no long pauses",
        "a, p",
        {"g": "2 s"},
    ),
    Case(
        "J9",
        TWO_STEPS,
        "continuously",
        FIVE_LATER,
        "+not in batches: at the same time; -one after the other, without a break",
        "a, b",
    ),
    Case(
        "J3",
        "e  event in h\na  step in h",
        "within 2 days of e",
        "time of e=9 h, start of a=65 h, duration of a=1 h",
        "+days, the first left out, the last in; -by the clock, from its end; -days, the first counted",
        "a",
    ),
    Case(
        "J1",
        "dose  part, exactly 3\n  moment  time in day",
        "every 3 days",
        "doses=3, moment of dose 1=0 day, moment of dose 2=2 day, moment of dose 3=5 day",
        "+at least that often; -no more often; -fixed spacing",
        "moment of the doses",
    ),
    Case(
        "J2",
        "dose  part, exactly 2\n  moment  time in day",
        "biweekly",
        "doses=2, moment of dose 1=0 day, moment of dose 2=14 day",
        "+every two weeks; -twice a week",
        "moment of the doses",
    ),
    Case(
        "K1",
        "a  step in min\n  heat  temperature in degC",
        "heated to at least 200 degC",
        "start of a=0 min, duration of a=1 min, heat at the start of a=20 degC, "
        "heat at the end of a=180 degC, "
        "lowest heat of a=20 degC, highest heat of a=210 degC, average heat of a=150 degC",
        "-by its end; +at its peak; -at all times",
        "heat of a",
    ),
    Case(
        "K3",
        "a  step in min\n  level  share in %",
        "less than 7 %",
        "start of a=0 min, duration of a=1 min, level at the start of a=9 %, level at the end of a=4 %, "
        "lowest level of a=4 %, highest level of a=9 %, average level of a=6 %",
        "-at all times; -at its beginning; +at its end; -at its peak",
        "level of a",
    ),
]


def _base(text: str) -> Fraction:
    number, _, unit = text.partition(" ")
    found = find_unit(unit) if unit else None
    assert found or not unit, unit
    return found.to_base(Fraction(number)) if found else Fraction(number)


def _article(sheet: Sheet, thing: str) -> Article:
    made: Article = {}
    for part in thing.split(", "):
        name, _, value = part.partition("=")
        listed = value.startswith("{")
        if isinstance(sheet.declaration(name), ChoiceDecl):
            made[name] = value
            continue
        made[name] = frozenset(value.strip("{}").split(",")) if listed else _base(value)
    assert made.keys() == {d.name for d in sheet.declarations}
    assert all(isinstance(made[d.name], Fraction) == isinstance(d, NumberDecl) for d in sheet.declarations)
    return made


def _expected(text: str) -> dict[str, bool]:
    """Labels with their signs; a label may hold a comma, so parts are split before a sign only."""
    parts = text.replace(", +", "; +").replace(", -", "; -").split("; ")
    return {part[1:]: part[0] == "+" for part in parts}


@pytest.mark.parametrize("case", [pytest.param(c, id=f"{c.id} {c.words} {c.thing}"[:70]) for c in CASES])
def test_a_thing_that_separates_readings(case: Case) -> None:
    sheet = read(f"{case.declared}\n\n1. A thing, {case.words}.\n   | {case.subjects} : {case.words}\n")
    assert sheet is not None
    formula = sheet.claims[0].limitations[0].formula
    assert isinstance(formula, Read)
    group = sheet.groups[formula.group]
    assert group.entry in {e.title for e in entries() if e.id == case.id}
    values = tuple(
        (p.key, _base(case.open[p.name]) if p.name in case.open else p.presumed) for p in sheet.parameters
    )
    k = Construction(tuple(g.base for g in sheet.groups), values)
    options = {r.label: option for r, option in zip(group.readings, formula.options, strict=True)}
    article = _article(sheet, case.thing)
    expected = _expected(case.expected)
    assert {label: evaluate(options[label], article, k) for label in expected} == expected
