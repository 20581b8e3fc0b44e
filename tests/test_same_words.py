"""Wordings that claims have for what a phrase says in other words: both are read alike."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

DECLARED = """
delay, hold   time in s
rim, bore     length in mm
cycles        count
oil           share in wt%
start, finish time in s
crown, brim, band  length in mm
purge         in L/min
chute         share in %  "gradient"
level         number
quiet, loud   number
drops         count
left flange, right flange  length in mm
first leaf, second leaf  length in mm
oil content, gum content, wax content  share in wt%
axle, hub width  length in mm
pins, holes   count
warm          temperature in degC
hot           temperature in degC
acid, base    share in wt%
feed          ratio in %
"""


def text(subjects: str, words: str) -> str:
    return f"{DECLARED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"


def read(subjects: str, words: str) -> tuple[str, list[tuple[str, str]]]:
    """The formula, without the words by which its parameters are known, and the readings."""
    made = sheet(text(subjects, words))
    readings = [(r.label, r.standing) for g in made.groups for r in g.readings]
    return re.sub("key='[^']*'", "", repr(made.claims[0].limitations[0].formula)), readings


@pytest.mark.parametrize(
    ("subjects", "words", "same"),
    [
        ("delay", "at most 1 second", "at most 1 s"),
        ("rim", "between 2-4 mm", "between 2 and 4 mm"),
        ("rim", "anywhere between 2 mm - 4 mm", "between 2 and 4 mm"),
        ("rim", "between 2 to 4 mm", "between 2 and 4 mm"),
        ("rim", "in the range between 2-4 mm", "in the range between 2 and 4 mm"),
        ("rim", "strictly between 2-4 mm", "strictly between 2 and 4 mm"),
        ("rim", "between about 2-4 mm", "between about 2 and 4 mm"),
        (
            "rim, bore",
            "a ratio of rim to bore of between 1:1 - 3:1",
            "a ratio of rim to bore of between 1:1 and 3:1",
        ),
        (
            "left flange, right flange",
            "either flange is 3 mm",
            "either of the flanges is 3 mm",
        ),
        (
            "left flange, right flange",
            "neither of the flanges exceeds 5 mm",
            "neither the left flange nor the right flange exceeds 5 mm",
        ),
        (
            "left flange, right flange",
            "the two flanges are at least 3 mm",
            "the left flange and the right flange are at least 3 mm",
        ),
        (
            "left flange, right flange",
            "the flanges differ by no more than 1 mm",
            "the left flange and the right flange differ by no more than 1 mm",
        ),
        (
            "left flange, right flange",
            "the flanges are equally thick",
            "the left flange and the right flange are equal",
        ),
        (
            "first leaf, second leaf",
            "the smaller of the two leaves is at least 30 mm",
            "the smaller of the first leaf and the second leaf is at least 30 mm",
        ),
        (
            "oil content, gum content, wax content",
            "each content is at most 5 wt%",
            "each of the oil content, the gum content and the wax content is at most 5 wt%",
        ),
        ("axle, hub width", "8% to 10% of said width", "8% to 10% of the hub width"),
        ("cycles", "an even integer of 2 to 8", "an even number from 2 to 8"),
        ("cycles", "32 cycles at most", "at most 32 cycles"),
        ("cycles", "between 2 and 8, both numbers included", "between 2 and 8 inclusive"),
        ("holes", "a plurality of pairs of holes", "at least four holes"),
        ("holes", "at least one pair of holes", "at least two holes"),
        ("delay", "every hour", "every 1 h"),
        ("delay", "at least once an hour", "at least once every 1 h"),
        (
            "rim, bore",
            "deviates by no more than 2 mm from the bore",
            "deviates from the bore by no more than 2 mm",
        ),
        ("rim", "from 2 up to about 6 mm", "from 2 to about 6 mm"),
        ("pins, holes", "one pin for two holes", "one pin for every two holes"),
        ("crown", "a crown (CH) of at least 3 mm", "a crown of at least 3 mm"),
        ("crown", "a crown ch < 3 mm", "a crown < 3 mm"),
        ("rim", "limited to between 2 and 6 mm", "between 2 and 6 mm"),
        ("delay", "at least one second", "at least 1 s"),
        ("delay", "1 second or less", "1 s or less"),
        ("hold", "for a period of time ranging from about 10 seconds to 60 seconds", "about 10 to 60 s"),
        ("hold", "for a time ranging from 5 to 6 minutes", "from 5 to 6 min"),
        ("oil", "ranging from about 5 to 10 wt%", "about 5 to 10 wt%"),
        ("cycles", "repeating steps (c) and (d) at least twice", "repeated at least twice"),
        ("cycles", "repeating at least three times", "repeated at least three times"),
        (
            "rim, bore",
            "ratio of rim to bore is no greater than 0.5",
            "ratio of rim to bore is no more than 0.5",
        ),
        ("rim, bore", "ratio of rim to bore does not exceed 0.5", "ratio of rim to bore not exceeding 0.5"),
        ("rim, bore", "ratio of rim to bore is at least 1 and at most 5", "ratio of rim to bore from 1 to 5"),
        ("rim", "a rim of ≥ 2 mm and ≤ 5 mm", "at least 2 mm and at most 5 mm"),
        ("rim", "> 2 mm", "more than 2 mm"),
        (
            "rim",
            "not thinner than 2 mm nor thicker than 5 mm",
            "not thinner than 2 mm and not thicker than 5 mm",
        ),
        ("rim", "3 mm (preferably 2 to 5 mm)", "3 mm, preferably 2 to 5 mm"),
        ("cycles", "first, second, and third cycles", "first, second and third"),
        ("cycles", "a first cycle and a second cycle", "first and second"),
        ("cycles", "only a single cycle", "exactly one cycle"),
        ("cycles", "a multiplicity of cycles", "a plurality of cycles"),
        ("cycles", "between 6 and 96 cycles inclusive", "between 6 and 96, inclusive"),
        ("feed", "in a molar ratio of 0.1 to 5 %", "0.1 to 5 %"),
        ("oil", "not more than 5 wt%, based on the total weight of the paste", "not more than 5 wt%"),
        ("delay", "3 s or faster", "3 s or less"),
        ("delay", "3 s or slower", "3 s or more"),
        ("delay", "faster than 3 s", "shorter than 3 s"),
        ("delay", "not slower than 3 s", "not longer than 3 s"),
        ("start, finish", "the start is faster than the finish", "the start is shorter than the finish"),
        (
            "start, finish",
            "the start is slower than the finish by at least 3 s",
            "the start is longer than the finish by at least 3 s",
        ),
        ("purge", "2 L/min or faster", "2 L/min or more"),
        ("purge", "2 L/min or slower", "2 L/min or less"),
        ("chute", "a gradient of 1.5 % or steeper", "a gradient of 1.5 % or higher"),
        ("chute", "a gradient of 1.5 % or shallower", "a gradient of 1.5 % or lower"),
        ("rim", "as low as 3 mm or even lower", "3 mm or lower"),
        ("rim", "as high as 3 mm or higher", "3 mm or higher"),
        ("cycles", "the cycles number anywhere from seven to eleven", "from seven to eleven"),
        ("rim", "anywhere between 2 and 5 mm", "between 2 and 5 mm"),
        ("rim, bore", "rim and bore are within 3 mm of each other", "rim and bore differ by at most 3 mm"),
        (
            "crown, brim, band",
            "the brim is thicker than each of the crown and the band",
            "the brim is greater than the crown and the brim is greater than the band",
        ),
        (
            "crown, brim, band",
            "the brim is thinner than each of the crown and the band",
            "the brim is less than the crown and the brim is less than the band",
        ),
        (
            "acid, base",
            "acid and base, taken together, make up 3 to 5 wt%",
            "acid and base together make up 3 to 5 wt%",
        ),
        ("acid, base", "the acid is present in excess of the base", "the acid exceeds the base"),
        ("pins, holes", "as many pins as there are holes, or more", "at least as many pins as holes"),
        (
            "level, loud",
            "the level is at least two units below the loud",
            "the level is at least two below the loud",
        ),
        (
            "warm, hot",
            "a temperature which lies 5 to 15 K below the hot",
            "a temperature 5 to 15 K below the hot",
        ),
        (
            "quiet, loud",
            "quiet being at most 3 whilst loud is at least 90",
            "quiet is at most 3 while loud is at least 90",
        ),
        ("rim", "a rim whose thickness is at least 2 mm", "a rim having a thickness of at least 2 mm"),
        ("rim", "a rim whose thickness is not 2 mm", "a rim having a thickness of not 2 mm"),
        ("purge", "a valve whose purge is under 60 but over 30 L/min", "under 60 but over 30 L/min"),
        ("drops", "a tray for either 12 or 24 drops", "either 12 or 24 drops"),
    ],
)
def test_both_wordings_are_read_alike(subjects: str, words: str, same: str) -> None:
    assert read(subjects, words) == read(subjects, same)


@pytest.mark.parametrize(
    ("subjects", "words"),
    [
        ("rim", "at least 1 second"),  # of a length the word counts places
        ("left flange, right flange", "a flange thickness of at least 3 mm"),
        ("pins, holes", "one pin for up to eight holes"),
        ("crown", "a crown (minimum) of 3 mm"),
        ("rim", "within a range of 3 mm"),  # a range has two ends
        ("oil", "in the range of 2 wt%"),
        ("holes", "a plurality of rows of holes"),  # how many in each?
        ("holes", "an even number of pairs of holes"),
        ("holes", "not only one hole"),
        ("rim", "an adjustable rim of 3 mm"),  # one value in it, or all of them?
        ("rim", "adjustable from 3 to 10 mm"),
        ("oil, acid", "the oil is 5 to 10 % lower than the acid"),  # points, or a share of the other
        ("delay", "every second"),  # each, or every other one
        ("oil", "in a molar ratio of 0.1 to 5 %"),  # declared by weight
        ("rim", "3 mm or faster"),
        ("level", "1.5 or steeper"),  # of what slope is it one?
        ("rim", "as low as 3 mm or higher"),
        ("rim, bore", "rim and bore are not within 3 mm of each other"),
        ("rim, bore", "rim and bore are within 3 mm of the edge"),
        ("crown, brim, band", "the brim is not thicker than each of the crown and the band"),
        ("crown, brim, band", "the brim is thicker than each of the crown and the band by 3 mm"),
        ("acid, base", "the acid is not in excess of the base by 3 wt%"),
        ("pins, holes", "twice as many pins as there are holes, or more"),
        ("rim", "a rim whose thickness less its height is at least 2 mm"),
        ("rim", "a rim whose thickness is at least 2 mm and whose height is at least 7 mm"),
    ],
)
def test_what_the_declaration_does_not_bear_out_is_refused(subjects: str, words: str) -> None:
    assert errors(text(subjects, words))


@pytest.mark.parametrize(
    ("subjects", "words", "labels"),
    [
        ("holes", "not one hole", {"none": "presumed", "any number but one": "arguable"}),
        (
            "rim, bore",
            "the rim exceeds the bore by less than 2 mm",
            {"higher, by that span at most": "presumed", "by that span at most": "arguable"},
        ),
        (
            "rim, bore",
            "the rim is shorter than the bore by at most 2 mm",
            {"lower, by that span at most": "presumed", "by that span at most": "arguable"},
        ),
        (
            "rim, bore",
            "the rim does not exceed the bore by more than 2 mm",
            {"by that span at most": "presumed"},
        ),
        (
            "rim",
            "in steps of 2 mm",
            {"counted from zero": "presumed", "counted from zero, once at least": "presumed"},
        ),
        (
            "acid, base",
            "the acid exceeds the base by at least 10 %",
            {
                "by that span": "presumed",
                "by that span, rounded": "arguable",
                "by that share": "presumed",
                "by that share, rounded": "arguable",
            },
        ),
    ],
)
def test_the_readings_have_these_standings(subjects: str, words: str, labels: dict[str, str]) -> None:
    assert dict(read(subjects, words)[1]) == labels


@pytest.mark.parametrize("words", ["a positive integer less than 5", "a positive integer of up to 4"])
def test_a_positive_integer_is_no_zero(words: str) -> None:
    made = sheet(text("cycles", words))
    formula, base = made.claims[0].limitations[0].formula, base_construction(made)
    met = [n for n in range(7) if evaluate(formula, {"cycles": Fraction(n)}, base)]
    assert met == [1, 2, 3, 4]


PRESSED = (
    "press  pressure in bar(g)\nhold   pressure in bar(a)\n\n1. A thing, {words}.\n   | {name} : {words}\n"
)


@pytest.mark.parametrize(
    ("name", "words", "same"),
    [
        ("press", "a gauge pressure of at least 30 psi", "at least 30 psi(g)"),
        ("press", "at least 2 bar above atmospheric pressure", "at least 2 bar(g)"),
    ],
)
def test_a_pressure_told_to_be_gauge_or_absolute_is_read_as_that(name: str, words: str, same: str) -> None:
    one, other = (sheet(PRESSED.format(name=name, words=w)) for w in (words, same))
    assert one.claims[0].limitations[0].formula == other.claims[0].limitations[0].formula


def test_a_gauge_pressure_is_not_cut_down_to_a_pressure() -> None:
    (wrong,) = errors(PRESSED.format(name="hold", words="a gauge pressure of at least 2 bar"))
    assert "lift only" not in wrong.help


BEADS = """
bead  part, 1 to 3
  length length in mm

1. A cord, {words}.
   | length of the beads : {words}
"""


@pytest.mark.parametrize(
    "words",
    [
        "a combined length of at most 20 mm", "a total length of at most 20 mm",
        "together a length of at most 20 mm", "a sum of the lengths of at most 20 mm",
        "a length of at most 20 mm in total",
    ],
)  # fmt: skip
def test_a_total_of_like_parts_is_no_limit_on_each(words: str) -> None:
    made = sheet(BEADS.format(words=words))
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    for lengths in ((20,), (10, 10), (15, 15), (5, 5, 5), (7, 7, 7)):
        thing = {"beads": Fraction(len(lengths))}
        thing |= {f"length of bead {i}": Fraction(n, 1000) for i, n in enumerate(lengths, 1)}
        assert evaluate(formula, thing, k) is (sum(lengths) <= 20), lengths
