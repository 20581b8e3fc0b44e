"""Formulas that a claim writes in signs, lifted right of a colon: with declared names as they stand, and with
the claim's own letters as the things that its text or a note says they stand for.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.formula import Value
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

NUMBERS = [Fraction(n) for n in (1, 2, 3, 4, 6)]


def test_declared_names_are_read_as_in_symbols() -> None:
    made = sheet("V1, V2  number\n\n1. A lens, wherein 1 < V1 - V2 < 4.\n   | V1, V2 : 1 < V1 - V2 < 4\n")
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for a, b in product(NUMBERS, NUMBERS):
        assert evaluate(formula, {"V1": a, "V2": b}, k) is (1 < a - b < 4)


def test_brackets_and_quotients() -> None:
    words = "-3 < (R1 + R2)/(R1 - R2) < -0.8"
    made = sheet(f"R1, R2  length in mm\n\n1. A lens, wherein {words}.\n   | R1, R2 : {words}\n")
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for a, b in product(NUMBERS, NUMBERS):
        value = Fraction(a + b, a - b) if a != b else None
        wanted = value is not None and -3 < value < Fraction(-4, 5)
        assert (evaluate(formula, {"R1": a / 1000, "R2": b / 1000}, k) is True) is wanted


LETTERS = 'replicas  count  "{0}"\nconfirmations  count  "{1}"\n\n'
TEXT = "1. A store with N replicas of which W are confirmed, wherein N/2 < W ≤ N.\n"
LINE = "   | confirmations, replicas : N/2 < W ≤ N\n"


def test_letters_are_what_the_notes_say() -> None:
    made, found = read_sheet(Source("t", LETTERS.format("N", "W") + TEXT + LINE))
    assert made is not None
    assert [d.message for d in found] == ["'N/2 < W ≤ N' is read with N as replicas, W as confirmations"]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for n, w in product(NUMBERS, NUMBERS):
        article: dict[str, Value] = {"replicas": n, "confirmations": w}
        assert evaluate(formula, article, k) is (n / 2 < w <= n)


HAVING = "A gear with a bolt circle having a diameter Db and a ring of outer diameter Dr"
CLAIM = f"1. {HAVING}, wherein 2 ≤ Dr/Db ≤ 4.\n"


@pytest.mark.parametrize("left", ["bolt circle, ring diameter", "ring diameter, bolt circle"])
def test_letters_are_what_the_text_says_whatever_stands_first(left: str) -> None:
    text = f"bolt circle, ring diameter  length in mm\n\n{CLAIM}   | {left} : 2 ≤ Dr/Db ≤ 4\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None
    assert found[0].message == "'2 ≤ Dr/Db ≤ 4' is read with Db as bolt circle, Dr as ring diameter"
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for circle, ring in product(NUMBERS, NUMBERS):
        article: dict[str, Value] = {"bolt circle": circle / 1000, "ring diameter": ring / 1000}
        assert evaluate(formula, article, k) is (2 <= ring / circle <= 4)


def test_letters_may_be_said_in_a_claim_above() -> None:
    above = f"1. {HAVING}.\n\n"
    below = (
        "2. The gear of claim 1, wherein 2 ≤ Dr/Db ≤ 4.\n   | bolt circle, ring diameter : 2 ≤ Dr/Db ≤ 4\n"
    )
    _, found = read_sheet(Source("t", f"bolt circle, ring diameter  length in mm\n\n{above}{below}"))
    assert found[-1].message == "'2 ≤ Dr/Db ≤ 4' is read with Db as bolt circle, Dr as ring diameter"


def test_a_letter_for_a_field_of_like_parts_is_said_of_each() -> None:
    text = """rib        part, 1 to 3
  thickness  length in mm  "thickness T"
width      length in mm  "W"

1. A disc having ribs of a thickness T and channels of a width W, wherein 1 ≤ W/T ≤ 2.
   | width, thickness of the ribs : 1 ≤ W/T ≤ 2
"""
    made, _ = read_sheet(Source("t", text))
    assert made is not None
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for count, thick, width in product((1, 2, 3), product(NUMBERS[:3], repeat=3), NUMBERS[:4]):
        article: dict[str, Value] = {f"thickness of rib {i}": t / 1000 for i, t in enumerate(thick, 1)}
        article |= {"ribs": Fraction(count), "width": width / 1000}
        assert evaluate(formula, article, k) is all(1 <= width / t <= 2 for t in thick[:count])


@pytest.mark.parametrize(
    "text",
    [
        # nothing says what the letters are
        "height, rim  length in mm\n\n1. A thing, wherein P/Q > 2.\n   | height, rim : P/Q > 2\n",
        # both may be either
        "left gap, right gap  length in mm\n\n1. A thing with gaps g and h, wherein 1 < g/h < 2.\n"
        "   | left gap, right gap : 1 < g/h < 2\n",
        # more letters than things
        'height  length in mm  "H"\n\n1. A thing of height H, wherein H/R > 2.\n   | height : H/R > 2\n',
    ],
)
def test_letters_of_which_nothing_is_said_are_refused(text: str) -> None:
    assert errors(text)


@pytest.mark.parametrize(
    "left", ["width, thickness", "thickness, width", "rib thickness, channel width", "W, T", "T, W"]
)
def test_a_quotient_has_the_same_readings_whatever_its_sides_are_called(left: str) -> None:
    """3 to 4 is 0.75, which rounds to 0.8; a claim's letters are its own words as much as a declared name."""
    words = "0.8 ≤ W/T ≤ 1.3"
    text = f"{left}  length in mm\n1. A disc having ribs of a thickness T and channels of a width W, "
    text += f"wherein {words}.\n"
    made, _ = read_sheet(Source("t", f"{text}   | {left} : {words}\n"))
    assert made is not None
    (group,) = made.groups
    tried = [r.label for r in group.readings if r.standing != "strained"]
    assert tried == ["first over second", "first over second, rounded"]
    formula, base = made.claims[0].limitations[0].formula, base_construction(made)
    wide = next(name for name in left.split(", ") if name[0] in "Wwc")
    for w, t in product(NUMBERS, NUMBERS):
        article = {wide: w, next(n for n in left.split(", ") if n != wide): t}
        assert (evaluate(formula, article, base) is True) is (Fraction(4, 5) <= w / t <= Fraction(13, 10))
        assert (evaluate(formula, article, base.with_reading(0, 1)) is True) is (
            Fraction(3, 4) <= w / t < Fraction(27, 20)
        )


SHARES = "C, Mn  share in wt%\n"
IN_MASS = "1. A sheet containing, in mass%, C: 0.30 or more, and satisfying"


def test_a_formula_of_shares_has_the_per_cent_that_the_claim_says_once() -> None:
    words = "0.30 ≤ C + Mn/6 ≤ 0.45"
    made = sheet(f"{SHARES}{IN_MASS} {words}.\n   | C : 0.30 or more\n   | C, Mn : {words}\n")
    assert not made.unrestated
    formula, k = made.claims[0].limitations[1].formula, base_construction(made)
    for a, b in product((Fraction(n, 100) for n in (0, 15, 30, 45)), (Fraction(n) for n in (0, 1, 2))):
        met = Fraction(30, 100) <= a + b / 6 <= Fraction(45, 100)
        assert evaluate(formula, {"C": a / 100, "Mn": b / 100}, k) is met


def test_a_ratio_of_shares_has_no_per_cent() -> None:
    made = sheet(f"{SHARES}{IN_MASS} 2 ≤ C/Mn ≤ 4.\n   | C : 0.30 or more\n   | C, Mn : 2 ≤ C/Mn ≤ 4\n")
    formula, k = made.claims[0].limitations[1].formula, base_construction(made)
    assert evaluate(formula, {"C": Fraction(3, 100), "Mn": Fraction(1, 100)}, k) is True
