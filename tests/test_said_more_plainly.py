"""Words that are read only once they are said more plainly, each against plain arithmetic, as presumed.

What is read past is told by a warning; what may say more than a description is refused.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

DECLARED = """gap, rim, height   length in mm, >= 0
oil, gum   share in wt%
holes, bits   count
bath   temperature in degC
tilt, swing   angle in deg
stress   in MPa
D50   length in um
metal   any of copper, zinc, steel
"""
SCALES = {
    **dict.fromkeys(("gap", "rim", "height"), (Fraction(1, 1000), Fraction(0))),
    **dict.fromkeys(("oil", "gum"), (Fraction(1, 100), Fraction(0))),
    **dict.fromkeys(("holes", "bits", "tilt", "swing"), (Fraction(1), Fraction(0))),
    "bath": (Fraction(1), Fraction(27315, 100)),
    "stress": (Fraction(10**6), Fraction(0)),
    "D50": (Fraction(1, 10**6), Fraction(0)),
}
USUAL = (0, Fraction(1, 4), Fraction(1, 2), 1, 2, 3, 4, 5, 6, 8, 10)
Met = Callable[..., bool | None]

WORDS: list[tuple[str, str, Met]] = [
    # two things stand left, one of them is what the words compare with
    ("gap, rim", "the gap exceeds the rim", lambda x, y: x > y),
    ("rim, gap", "the gap exceeds the rim", lambda y, x: x > y),
    ("rim, gap", "the gap amounts to at least half the rim", lambda y, x: None if not y else 2 * x >= y),
    ("rim, gap", "the gap is smaller than the rim by at least 1 mm", lambda y, x: x <= y - 1),
    ("rim, gap", "the gap is less than or equal to half the rim", lambda y, x: None if not y else 2 * x <= y),
    # letters of the claim
    ("gap", "a gap g, where 1 mm ≤ g ≤ 4 mm", lambda x: 1 <= x <= 4),
    ("gap", "a gap g satisfying 1 < g < 4 mm", lambda x: 1 < x < 4),
    ("rim, gap", "the gap G and the rim R satisfy G/R ≥ 2", lambda y, x: None if not y else x >= 2 * y),
    ("gap, rim", "a gap G and a rim R, wherein G > R", lambda x, y: x > y),
    ("holes", "a number n of holes, n being an integer from 3 to 5", lambda x: x in (3, 4, 5)),
    ("holes", "wherein n is an integer greater than 2", lambda x: x > 2),
    # the same in other words
    ("gap", "in a range of 2 to 5 mm both inclusive", lambda x: 2 <= x <= 5),
    ("gap", "is set so as to be at least 2 mm", lambda x: x >= 2),
    ("gap", "is such that it is at least 2 mm", lambda x: x >= 2),
    ("gap", "2 mm or even less", lambda x: x <= 2),
    ("gap", "at the very least 2 mm", lambda x: x >= 2),
    ("gap", "2 mm at the very most", lambda x: x <= 2),
    ("gap", "maximally 2 mm", lambda x: x <= 2),
    ("gap", "beneath 2 mm", lambda x: x < 2),
    ("gap", "at or beneath 2 mm", lambda x: x <= 2),
    ("gap", "greater than 1 mm yet smaller than 4 mm", lambda x: 1 < x < 4),
    ("gap", "1 mm or more, but not so large as 4 mm", lambda x: 1 <= x < 4),
    ("gap", "does not surpass 2 mm", lambda x: x <= 2),
    ("gap", "of from 1 mm up to less than 4 mm", lambda x: 1 <= x < 4),
    ("gap", "2 mm upwards", lambda x: x >= 2),
    ("gap", "of 2 mm, at most", lambda x: x <= 2),
    ("gap", "2 mm, or more, of gap", lambda x: x >= 2),
    ("gap", "amounts, at most, to 2 mm", lambda x: x <= 2),
    ("gap", "less than or at most equal to 2 mm", lambda x: x <= 2),
    ("gap", "of some 2 mm", lambda x: True if x == 2 else False if x > 4 else None),
    ("gap", "within 4 mm, typically within 2 mm", lambda x: x <= 4),
    ("holes", "none or one hole", lambda x: x <= 1),
    ("holes", "a number of holes equal to an integer multiple of 4", lambda x: x in (4, 8)),
    ("oil, gum", "contains neither oil nor gum", lambda x, y: x == y == 0),
    ("gap", "a gap of 2 to 4 mm is maintained", lambda x: 2 <= x <= 4),
    ("oil", "where used, at most 4 wt%", lambda x: x <= 4),
    ("oil", "in an amount such that it occupies 2 to 4 wt%", lambda x: 2 <= x <= 4),
    # ends
    ("gap", "in a range of greater than 1 mm to less than 4 mm", lambda x: 1 < x < 4),
    ("gap", "from more than 1 mm to less than 4 mm", lambda x: 1 < x < 4),
    ("gap", "not closer than 2 mm", lambda x: x >= 2),
    ("gap", "closer than 2 mm", lambda x: x < 2),
    ("gap", "one-half millimetre or more", lambda x: 2 * x >= 1),
    ("gap", "at least a half millimetre", lambda x: 2 * x >= 1),
    ("gap, rim", "at most three-quarters of the rim", lambda x, y: None if not y else 4 * x <= 3 * y),
    ("gap", "a nominal gap of 4 mm ± 25 %", lambda x: 3 <= x <= 5),
    ("gap", "4 mm within ± 1 mm", lambda x: 3 <= x <= 5),
    ("gap", "4 mm within a tolerance of 25 %", lambda x: 3 <= x <= 5),
    ("gap", "at least 2 mm, for example 4 mm", lambda x: x >= 2),
    ("stress", "an absolute value of at most 3 MPa", lambda x: abs(x) <= 3),
    ("stress", "a stress having an absolute value of at most 3 MPa", lambda x: abs(x) <= 3),
    # numbers of things
    ("holes", "in a number of between four and six", lambda x: 4 <= x <= 6),
    ("holes", "from four to six holes, inclusive", lambda x: 4 <= x <= 6),
    ("holes", "holes numbering between four and six", lambda x: 4 <= x <= 6),
    ("holes", "comprises no more than four holes", lambda x: x <= 4),
    ("holes", "one or both holes", lambda x: x in (1, 2)),
    ("bits", "represented by 4 or 6 bits", lambda x: x in (4, 6)),
    # shares
    ("oil", "from 2 percent to 4 percent, by weight, of oil", lambda x: 2 <= x <= 4),
    ("oil", "oil makes up less than 4 wt% of the mixture", lambda x: x < 4),
    ("oil", "oil-free", lambda x: x == 0),
    ("oil", "2 to 4 wt% of at least one oil", lambda x: 2 <= x <= 4),
    ("oil, gum", "the oil content is at most half the gum content", lambda x, y: 2 * x <= y if y else None),
    ("oil", "oil is present", lambda x: x > 0),
    ("oil, gum", "contains oil or gum", lambda x, y: x > 0 or y > 0),
    ("oil, gum", "contains oil and gum", lambda x, y: x > 0 and y > 0),
    ("oil, gum", "oil and/or gum", lambda x, y: x > 0 or y > 0),
    ("oil, gum", "oil, gum, or both", lambda x, y: x > 0 or y > 0),
    ("oil, gum", "neither oil nor gum", lambda x, y: x == 0 and y == 0),
    ("oil", "the oil content, if any, is less than 4 % by weight", lambda x: x < 4),
    # conditions
    ("bath", "heated to above 4 °C", lambda x: x > 4),
    ("bath", "cooled to a temperature of at most 4 °C", lambda x: x <= 4),
    ("bath", "not allowed to exceed 4 °C", lambda x: x <= 4),
]  # fmt: skip


def held(left: str, words: str, met: Met) -> None:
    made = sheet(f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n")
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    names = left.split(", ")
    values = [[v for v in USUAL if n not in ("holes", "bits") or Fraction(v).denominator == 1] for n in names]
    for given in product(*values):
        wanted = met(*given)
        if wanted is None:
            continue
        article = {n: Fraction(v) * SCALES[n][0] + SCALES[n][1] for n, v in zip(names, given, strict=True)}
        assert bool(evaluate(formula, article, k)) is wanted, (left, words, given)


@pytest.mark.parametrize(("left", "words", "met"), WORDS)
def test_said_more_plainly(left: str, words: str, met: Met) -> None:
    held(left, words, met)


PAST: list[tuple[str, str, str, Met]] = [
    ("gap", "a gap of at most 4 mm, as measured according to ISO 4287", "as measured", lambda x: x <= 4),
    ("gap", "a gap, as measured at the edge, of at most 4 mm", "as measured", lambda x: x <= 4),
    ("gap", "at most 4 mm in the closed state", "in the closed state", lambda x: x <= 4),
    ("gap", "at most 4 mm along its entire length", "along its entire length", lambda x: x <= 4),
    ("gap", "a gap of at most 4 mm before firing", "before firing", lambda x: x <= 4),
    ("tilt", "inclined at 2° to 4° relative to the axis", "relative to the axis", lambda x: 2 <= x <= 4),
    ("tilt", "at least 4 degrees with respect to the axis of the tube", "with respect", lambda x: x >= 4),
    ("D50", "a median particle size (D50) of 2 to 4 um", "median particle size", lambda x: 2 <= x <= 4),
    ("holes", "a gear having at least 4 holes", "a gear having", lambda x: x >= 4),
]


@pytest.mark.parametrize(("left", "words", "past", "met"), PAST)
def test_what_is_read_past_is_told(left: str, words: str, past: str, met: Met) -> None:
    held(left, words, met)
    _, told = read_sheet(Source("s", f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert any("read past" in d.message and past in d.message for d in told if d.severity == "warning")


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("gap", "at most 4 mm at the rim"),  # another quantity
        ("gap", "at most 4 mm in the mean"),
        ("gap", "at most 4 mm on each side"),
        ("gap", "at most 4 mm in width"),
        ("gap", "at most 4 mm until the glue is dry"),
        ("gap", "a reduction of at least 4 mm"),
        ("gap", "a tenfold gap of at least 4 mm"),
        ("gap", "a doubled gap of at least 4 mm"),
        ("gap", "a stop preventing the gap from being more than 4 mm"),
        ("holes", "a lid lacking at least 4 holes"),
        ("holes", "at least 4 holes in every lid"),
        ("bath", "a swing of at least 4 °C"),
        ("bath", "heated by at least 4 °C"),
        ("gap", "prevents a spread of at least 4 mm"),
        ("gap", "one of two gaps of at least 4 mm"),
        ("tilt", "at least 4 degrees with respect to the swing"),
        ("bath", "at least 4 °C in the first zone and 6 °C in the second zone"),
        ("D50", "a maximum particle size D50 of 4 um"),
        ("gap", "at most 4 furlongs"),
        ("rim, gap", "at most 4 mm of the gap"),
        ("holes", "frobnicated 4"),
        ("gap", "snugly 4 mm"),
        ("oil, gum", "oil and gum"),
    ],
)
def test_what_may_say_more_is_refused(left: str, words: str) -> None:
    assert errors(f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n")


def test_numbers_of_a_claim_that_says_once_what_they_are_in() -> None:
    text = "in percent by weight, oil: 2 to 4; gum: 1 or less"
    made = sheet(f"{DECLARED}\n1. A thing, {text}.\n   | oil : 2 to 4\n   | gum : 1 or less\n")
    k = base_construction(made)
    oil, gum = (x.formula for x in made.claims[0].limitations)
    assert [x for x in range(6) if evaluate(oil, {"oil": Fraction(x, 100)}, k)] == [2, 3, 4]
    assert [x for x in range(6) if evaluate(gum, {"gum": Fraction(x, 100)}, k)] == [0, 1]
    ratio = f"{text}, the ratio oil/gum being at least 2"
    assert not errors(
        f"{DECLARED}\n1. A thing, {ratio}.\n   | oil, gum : the ratio oil/gum being at least 2\n"
    )


def test_numbers_of_a_claim_that_does_not_say_so() -> None:
    (error,) = errors(f"{DECLARED}\n1. A thing with oil: 2 to 4.\n   | oil : 2 to 4\n")
    assert "has no unit" in error.message


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("rim : the gap is at least 5 mm", True),
        ("gap : the gap is at least 5 mm", False),
        ("rim : at least the gap", False),
        ("rim : at least 5 mm", False),
        ("bath : the gap is at least 5 °C", False),  # of another kind: what is measured at the gap
    ],
)
def test_words_that_name_another_quantity_are_told(line: str, told: bool) -> None:
    words = line.partition(" : ")[2]
    _, found = read_sheet(Source("s", f"{DECLARED}\n1. A thing, {words}.\n   | {line}\n"))
    assert any("these words name 'gap'" in d.message for d in found) is told


@pytest.mark.parametrize("digit", ["²", "①", "³"])
def test_a_digit_that_begins_no_number_is_a_mistake_of_the_sheet(digit: str) -> None:
    for line in (f"gap >= {digit} mm", f"gap : at least {digit} mm"):
        assert errors(f"{DECLARED}\n1. A thing of at least {digit} mm.\n   | {line}\n")


@pytest.mark.parametrize("digit", ["²", "①", "³"])
def test_a_digit_that_begins_no_number_counts_no_part(digit: str) -> None:
    bores = "hole  part, up to 4\n  bore  length in mm\n\n1. A plate with holes of a bore of 3 mm.\n"
    (wrong,) = errors(f"{bores}   | bore of hole {digit} >= 3 mm\n")
    assert wrong.span.line == 5


def test_a_number_declared_plain_is_told_the_unit_of_its_words() -> None:
    (wrong,) = errors("h  number\n\n1. A pin of 58 HRC minimum.\n   | h : 58 HRC minimum\n")
    assert wrong.help == "declare it in the unit of the words: h  in HRC"
    assert not errors("h  in HRC\n\n1. A pin of 58 HRC minimum.\n   | h : 58 HRC minimum\n")


def test_an_unknown_unit_can_be_one_of_the_trade() -> None:
    (wrong,) = errors("h  in frob\n\n1. A pin of 58 frob.\n   | h : 58 frob\n")
    assert "write in the head: unit frob" in wrong.help


def test_a_known_unit_needs_no_declaration() -> None:
    made, (wrong,) = read_sheet(Source("t", "unit HRC\nh  in HRC\n\n1. A pin of 58 HRC.\n   | h : 58 HRC\n"))
    assert made is not None
    assert wrong.message == "'HRC' is a unit already"
    assert wrong.help == "take the line out: the unit can be used as it is"


def test_a_ratio_may_be_one_of_masses() -> None:
    made = sheet("r  ratio in g/g\n\n1. A mix with 2 to 3 g/g.\n   | r : 2 to 3 g/g\n")
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    assert [x for x in range(6) if evaluate(formula, {"r": Fraction(x)}, k)] == [2, 3]


LIDS = """wall height   length in mm
lid           length in mm  "{0} of the lid"
rear abbe     number
front lens    count
{1}
1. A thing, {2}.
   | {3} : {2}
"""


@pytest.mark.parametrize(
    ("note", "more", "meant"),
    [("height", "", "lid"), ("thickness", "lid height  length in mm\n", "lid height")],
)
def test_that_of_a_thing_is_the_same_measure_of_it(note: str, more: str, meant: str) -> None:
    made = sheet(LIDS.format(note, more, "less than that of the lid", "wall height"))
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    article = {"wall height": Fraction(5), "lid": Fraction(1), "lid height": Fraction(1)} | {
        meant: Fraction(9)
    }
    assert evaluate(formula, article, k) is True
    assert evaluate(formula, article | {meant: Fraction(4)}, k) is False


@pytest.mark.parametrize(
    ("words", "left"),
    [
        ("less than that of the lid", "wall height"),  # of which the thickness alone is declared
        ("greater than that of the front lens", "rear abbe"),  # a number of things
    ],
)
def test_that_of_a_thing_is_no_other_measure_of_it(words: str, left: str) -> None:
    assert errors(LIDS.format("thickness", "", words, left))
