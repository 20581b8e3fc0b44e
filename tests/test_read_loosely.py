"""Words that call one of two things by a description, and other words read more loosely, each against plain
arithmetic as presumed; what is taken for what is told by a warning, and what may say more is refused.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.core.formula import Value
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

DECLARED = """rim         length in mm, >= 0  "width of the outer rim"
gap         length in mm, >= 0
bore        length in mm, >= 0  "diameter of the bore of the hub"
holes, bits, left holes, right holes count
current, rated current  current in A, >= 0
temp        temperature in degC
shift       length in mm, >= -20 mm
error       temperature difference in K
memory      data in kB
grain       length in um  "median grain size (D50) of the sand"
sends       count
stress      in MPa
loss        share in %
shrinkage   share in %
gauged      gauge pressure in bar(g)  "gauge pressure at the inlet"
filler      number
filler kind any of chalk, talc
water       share in wt%
"""
IN_BASE = {
    **dict.fromkeys(("rim", "gap", "bore", "shift"), Fraction(1, 1000)),
    "grain": Fraction(1, 10**6),
    "memory": Fraction(8000),
    "stress": Fraction(10**6),
    **dict.fromkeys(("loss", "shrinkage", "water"), Fraction(1, 100)),
    "gauged": Fraction(10**5),
}
USUAL = (0, Fraction(1, 2), 1, 2, 3, 4, 5, 8, 20)
Met = Callable[..., bool | None]

WORDS: list[tuple[str, str, tuple[str, ...], Met]] = [
    # what is said for the second of two things, and what is read past
    (
        "rim, gap",
        "smaller than the width of the slot",
        ("'the width of the slot' is read as gap",),
        lambda x, y: x < y,
    ),
    ("rim, gap", "larger than the other", ("'the other' is read as gap",), lambda x, y: x > y),
    (
        "gap, rim",
        "at most twice the width of the outer rim",
        (),
        lambda x, y: x <= 2 * y,
    ),
    (
        "gap, bore",
        "a slot width that is at least 2 mm less than the diameter of the bore",
        ("'a slot width' is read past",),
        lambda x, y: y - x >= 2,
    ),
    (
        "rim, gap",
        "one quarter to one half of the opening of the frame",
        ("'the opening of the frame' is read as gap",),
        lambda x, y: None if not y else y <= 4 * x and 2 * x <= y,
    ),
    (
        "rim, gap",
        "greater than the opening, but by no more than 2 mm",
        ("'the opening' is read as gap",),
        lambda x, y: 0 < x - y <= 2,
    ),
    ("rim, gap", "between the opening and 8 mm", ("'the opening' is read as gap",), lambda x, y: y <= x <= 8),
    (
        "rim, gap",
        "a difference between the rim and the opening of at most 2 mm",
        ("'the opening' is read as gap",),
        lambda x, y: abs(x - y) <= 2,
    ),
    (
        "holes, bits",
        "twice the number of bars",
        ("'bars' is read as bits",),
        lambda x, y: x == 2 * y,
    ),
    # both alike
    ("left holes, right holes", "the same number of holes", (), lambda x, y: x == y),
    ("rim, gap", "have the same length", (), lambda x, y: x == y),
    ("rim, gap", "their widths differ by less than 2 mm", (), lambda x, y: abs(x - y) < 2),
    ("rim, gap", "the same or larger", (), lambda x, y: x >= y),
    ("rim, gap", "the same or smaller", (), lambda x, y: x <= y),
    # exceeding
    ("rim, gap", "exceeds the gap by at most 2 mm", (), lambda x, y: 0 < x - y <= 2),
    ("rim, gap", "greater than the gap but not by more than 2 mm", (), lambda x, y: 0 < x - y <= 2),
    ("holes, bits", "at least two holes for every three bits", (), lambda x, y: 3 * x >= 2 * y),
    ("holes, bits", "at least one hole for every other bit", (), lambda x, y: 2 * x >= y),
    # under a condition
    (
        "current, rated current, temp",
        "reduce the charging current to one half or less of a base current if the"
        " cell temperature rises above 3 °C",
        ("'charging' is read past", "'a base current' is read as rated current", "'cell' is read as temp"),
        lambda x, y, t: True if t <= 3 else None if not y else 2 * x <= y,
    ),
    (
        "water, filler kind",
        "at most 2 % by weight of water if the filler comprises chalk",
        (),
        lambda x, k: "chalk" not in k or x <= 2,
    ),
    (
        "current, rated current, temp",
        "at most half of the rated current and at most 3 A if the temp is above 3 °C",
        (),
        lambda x, y, t: True if t <= 3 else None if not y else 2 * x <= y and x <= 3,
    ),
    # what deviates
    ("shift", "no more than ±3 mm", (), lambda x: abs(x) <= 3),
    ("error", "an error of less than ±3 K", (), lambda x: abs(x) < 3),
    ("error", "within ± 3 K", (), lambda x: abs(x) <= 3),
    # what no phrase has, before a limit
    ("gap", "machined to at least 2 mm", ("'machined to' is read past",), lambda x: x >= 2),
    (
        "gap",
        "exhibits a throat width of 2 to 5 mm",
        ("'exhibits a throat width of' is read past",),
        lambda x: 2 <= x <= 5,
    ),
    (
        "gap",
        "a gap width not lying between 2 and 5 mm",
        ("'a gap width' is read past",),
        lambda x: not 2 <= x <= 5,
    ),
    ("holes", "stamped with not more than 3 holes", ("'stamped with' is read past",), lambda x: x <= 3),
    (
        "gap",
        "retains a gap of 3 mm or less during stamping",
        ("'retains' is read past", "'during stamping' is read past"),
        lambda x: x <= 3,
    ),
    # measures, notes and how it is measured
    (
        "memory",
        "a capacity of at least 2 kB and at most 5 kB",
        ("'a capacity of' is read past",),
        lambda x: 2 <= x <= 5,
    ),
    ("grain", "a median grain size (D50) of 2 to 5 µm", (), lambda x: 2 <= x <= 5),
    ("sends", "no more than three at a time", ("'at a time' is read past",), lambda x: x <= 3),
    (
        "stress",
        "a strength after 28 days of 3 MPa or more",
        ("'after 28 days' is read past",),
        lambda x: x >= 3,
    ),
    (
        "loss",
        "a loss, after 70 hours at 15 bar, of no more than 5 %",
        ("'after 70 hours at 15 bar' is read past",),
        lambda x: x <= 5,
    ),
    ("shrinkage", "shrinks by less than 3 %", (), lambda x: x < 3),
    ("gauged", "the gauge pressure at the inlet exceeds 3 bar", (), lambda x: x > 3),
    ("loss", "better than 3 %", (), lambda x: x < 3),
    ("holes", "five holes are carried out", (), lambda x: x >= 5),
]


def values(name: str, declared: object) -> list[tuple[object, Value]]:
    """What is tried for a name: as the arithmetic has it, and as an article has it."""
    if isinstance(declared, SetDecl | ChoiceDecl):
        sets = (frozenset(s) for s in ((), ("chalk",), ("talc",), ("chalk", "talc")))
        return [(s, s) for s in sets]
    below = (-20, -5, -3, -1) if name in ("shift", "error") else ()
    whole = name in ("holes", "bits", "sends", "left holes", "right holes")
    offset = Fraction(27315, 100) if name == "temp" else Fraction(0)
    numbers = [Fraction(x) for x in (*below, *USUAL) if not whole or x == int(x)]
    return [(x, x * IN_BASE.get(name, Fraction(1)) + offset) for x in numbers]


@pytest.mark.parametrize(("left", "words", "told", "met"), WORDS)
def test_read_loosely(left: str, words: str, told: tuple[str, ...], met: Met) -> None:
    text = f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None, [d.message for d in found]
    messages = [d.message for d in found if "read" in d.message]
    assert all(any(m == wanted for m in messages) for wanted in told), messages
    assert len(messages) == len(told), messages
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    names, by_name = left.split(", "), {d.name: d for d in made.declarations}
    seen = set()
    for each in product(*(values(name, by_name[name]) for name in names)):
        wanted = met(*(plain for plain, _ in each))
        article = {name: value for name, (_, value) in zip(names, each, strict=True)}
        if wanted is not None:
            assert evaluate(formula, article, k) is wanted, [str(plain) for plain, _ in each]
            seen.add(wanted)
    assert seen == {True, False}


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("rim, gap", "at most twice the mean width of the slot"),
        ("rim, gap", "at least 2 mm greater than the larger of the two widths"),
        ("rim, gap", "greater than each of the widths of the slots"),
        ("rim, gap", "exceeds the sum of the widths"),
        ("rim, gap", "is less than that"),
        ("rim, gap", "at most twice the diameter of the bore"),  # a third quantity, by its note
        ("rim, bore", "at most twice the radius of the bore"),  # declared by its diameter
        ("gap", "±3 mm"),  # of what does not deviate
        ("gap", "no more than ±3 mm"),
        ("gap", "a difference of at least 3 mm"),
        ("gap", "a change after 3 h of at least 3 mm"),
        ("rim, gap", "the same number"),
        ("rim, gap", "the same tolerance"),
        ("rim, bore", "of the same height"),
        ("holes, bits", "the same number of openings"),
        ("left holes, right holes", "the same number of holes less one"),
        ("rim, bore", "at most twice the circumference of the bore"),
        ("holes", "at least three per minute"),
        ("loss", "a reduction of at least 3 %"),
        ("loss", "3 % of the volume or more"),  # not of 'the volume or more'
        ("loss", "at least 3 % of the volume on average"),
        ("rim, bore", "the hub is wider than the shaft"),  # said of the second thing
        ("rim, gap", "less than its own length"),
        ("rim, gap", "at most the permissible width of the slot"),
        ("rim, gap", "greater than the widths of the slots"),
        ("rim, gap", "exceeds the gap by at most 15 % of the rim"),
    ],
)
def test_what_may_be_something_else_is_refused(left: str, words: str) -> None:
    assert errors(f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    "words",
    [
        "machined close to 3 mm",
        "machined short of 3 mm",
        "widened by 3 mm",
        "forbidding at least 3 mm",
        "a deficit of at least 3 mm",
        "loses not more than 3 mm",
        "formerly not more than 3 mm",
        "machined to the rim or 3 mm",
        "exhibiting a mean of 2 to 5 mm",
        "machined to 3 % of the depth",
        "exceding 3 mm",
        "machined snugly 3 mm",
    ],
)
def test_a_word_that_may_tell_how_a_limit_is_meant_is_not_read_past(words: str) -> None:
    assert errors(f"gap, rim  length in mm\n\n1. A thing, {words}.\n   | gap : {words}\n")


def test_a_number_in_each_time_is_no_number_of_all_times() -> None:
    text = "\n\n1. A logger that sends at least twice per day.\n   | sends : at least twice per day\n"
    made, found = read_sheet(Source("t", f'sends  count  "messages per day"{text}'))
    assert made is not None
    assert not found
    made, found = read_sheet(Source("t", f'sends  count  "messages"{text}'))
    assert made is None
    assert [d.message for d in found] == ["it is so many in each time, and 'sends' is a number of no time"]


DIFFER = """hole  part, up to 3
  bore  length in mm

1. A thing, {0}.
   | bore of the holes : {0}
"""


@pytest.mark.parametrize(
    ("words", "met"),
    [
        ("differ from each other by less than 2 mm", lambda spread: spread < 2),
        ("do not differ by more than 2 mm", lambda spread: spread <= 2),
        ("varying by at most 2 mm", lambda spread: spread <= 2),
    ],
)
def test_how_far_like_parts_differ(words: str, met: Callable[[Fraction], bool]) -> None:
    made = sheet(DIFFER.format(words))
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for count, bores in product(range(4), product((1, 2, 3, 5), repeat=3)):
        there = bores[:count]
        article = {f"bore of hole {i}": Fraction(b, 1000) for i, b in enumerate(bores, 1)}
        spread = Fraction(max(there) - min(there)) if there else Fraction(0)
        wanted = count < 2 or met(spread)
        assert evaluate(formula, article | {"holes": Fraction(count)}, k) is wanted, (count, bores)


def test_a_condition_of_measuring_may_be_about_what_is_declared() -> None:
    line = "1. A thing of at most 3 MPa at 20 °C.\n   | stress : at most 3 MPa at 20 °C\n"
    assert errors(f"{DECLARED}\n{line}")  # a temperature is declared
    made, found = read_sheet(Source("t", f"stress  in MPa\n\n{line}"))
    assert made is not None
    assert [d.message for d in found] == ["'at 20 °C' is read past"]
    noted, found = read_sheet(Source("t", f'stress  in MPa  "at 20 °C"\n\n{line}'))
    assert noted is not None
    assert not found


def test_a_list_may_be_named_by_the_class_of_ingredients() -> None:
    head = "cream  composition in wt%\n  pigment : white, red\n  water, oil\n\n"
    words = "one or more pigments selected from white, red and mixtures thereof"
    made = sheet(f"{head}1. A cream having {words}.\n   | pigment : {words}\n")
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for white, red in product((0, 1), (0, 1)):
        article = {
            "white": Fraction(white, 100),
            "red": Fraction(red, 100),
            "water": Fraction(0),
            "oil": Fraction(0),
        }
        assert evaluate(formula, article, k) is bool(white or red)


def test_a_basis_may_be_said_once_of_the_whole() -> None:
    head = "cream  composition in wt%\n  wax, oil\n\n"
    text = "1. A cream comprising, by weight of the total cream: 2 to 5 % of wax.\n   | wax : 2 to 5 %\n"
    made = sheet(head + text)
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    found = [x for x in range(9) if evaluate(formula, {"wax": Fraction(x, 100), "oil": Fraction(0)}, k)]
    assert found == [2, 3, 4, 5]


OF_PARTS_AND_STEPS = """blade  part, 2 to 6
  width  length in mm  "of the tip"
setting  step in h
  shell  temperature in °C  "shell temperature of the eggs"
  humidity  share in %  "relative humidity in the cabinet"
"""


def _formula(left: str, words: str) -> str:
    made = sheet(f"{OF_PARTS_AND_STEPS}\n1. A thing, {words}.\n   | {left} : {words}\n")
    return re.sub("key='[^']*'", "", repr(made.claims[0].limitations[0].formula))


@pytest.mark.parametrize(
    ("left", "words", "same", "told"),
    [
        (
            "width of the blades",
            "each blade is ground to 3 mm or less",
            "each blade is 3 mm or less",
            "ground to",
        ),
        (
            "width of the blades",
            "two blades are ground to 3 mm or less",
            "two blades are 3 mm or less",
            "ground to",
        ),
        (
            "width of the blades",
            "most of the blades are ground to 3 mm or less",
            "most of the blades are 3 mm or less",
            "ground to",
        ),
        (
            "width of the blades",
            "no blade is ground to less than 3 mm",
            "no blade is less than 3 mm",
            "ground to",
        ),
        (
            "width of the blades",
            "each of which tapers to at least 3 mm",
            "each of which is at least 3 mm",
            "tapers to",
        ),
        ("width of the blades", "the tip of each blade is 3 mm or less", "each blade is 3 mm or less", ""),
        ("shell of setting", "the eggs are tempered to 40 °C", "to 40 °C", "the eggs are tempered"),
        (
            "shell of setting",
            "the eggs are stirred to 40 °C at the end",
            "40 °C at the end",
            "the eggs are stirred to",
        ),
        ("shell of setting", "a shell temperature is kept at 40 °C", "kept at 40 °C", ""),
        ("humidity of setting", "a relative humidity of 50 to 55 %", "50 to 55 %", ""),
        ("humidity of setting", "a relative humidity of 50 to 55 % is maintained", "kept at 50 to 55 %", ""),
    ],
)
def test_what_is_done_before_a_limit_of_parts_or_of_a_step_is_told(
    left: str, words: str, same: str, told: str
) -> None:
    assert _formula(left, words) == _formula(left, same)
    _, found = read_sheet(Source("x", f"{OF_PARTS_AND_STEPS}\n1. A thing, {words}.\n   | {left} : {words}\n"))
    past = [d.message for d in found if "read past" in d.message]
    assert past == ([f"'{told}' is read past"] if told else [])


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("width of the blades", "each blade is spaced from the next by 3 mm or less"),
        ("width of the blades", "each blade is shortened by 3 mm or less"),
        ("width of the blades", "each blade is offset by 3 mm"),
        ("width of the blades", "the blades are spaced to 3 mm"),
        ("width of the blades", "each blade is coated with 3 mm"),
        ("width of the blades", "each blade being hardened to a depth of 3 mm"),
        ("width of the blades", "each blade is at least 2 mm on average"),
        ("width of the blades", "each blade loses at most 3 mm"),
        ("width of the blades", "the blades together span at most 30 mm"),
        ("width of the blades", "the outermost blade is ground to 3 mm or less"),
        ("shell of setting", "the eggs are not tempered to 40 °C"),
        ("shell of setting", "the yolk temperature is 40 °C"),
        ("shell of setting", "the eggs are cooled by at least 5 °C"),
        ("shell of setting", "the eggs are cooled for 5 h"),
    ],
)
def test_what_may_limit_something_else_of_parts_or_of_a_step_is_refused(left: str, words: str) -> None:
    assert errors(f"{OF_PARTS_AND_STEPS}\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    ("words", "same", "told"),
    [
        ("the rim is machined 2 to 3 mm larger than the gap", "2 to 3 mm larger than the gap", "machined"),
        ("the rim is machined to at least twice the gap", "at least twice the gap", "machined to"),
        ("the rim is not machined larger than the gap", "not larger than the gap", "machined"),
    ],
)
def test_a_verb_before_a_limit_of_two_things_is_told(words: str, same: str, told: str) -> None:
    def formula(said: str) -> str:
        made = sheet(f"{DECLARED}\n1. A thing, {said}.\n   | rim, gap : {said}\n")
        return re.sub("key='[^']*'", "", repr(made.claims[0].limitations[0].formula))

    assert formula(words) == formula(same)
    _, found = read_sheet(Source("x", f"{DECLARED}\n1. A thing, {words}.\n   | rim, gap : {words}\n"))
    assert [d.message for d in found if "read past" in d.message] == [f"'{told}' is read past"]


@pytest.mark.parametrize(
    "words",
    [
        "the gap is machined larger than the rim",
        "the rim is delayed to at least twice the gap",
        "the rim is widened by at least 2 mm over the gap",
        "the rim is compared to at least twice the gap",
    ],
)
def test_a_verb_that_may_say_more_of_two_things_is_not_read_past(words: str) -> None:
    assert errors(f"{DECLARED}\n1. A thing, {words}.\n   | rim, gap : {words}\n")
