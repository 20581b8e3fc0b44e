"""Printed pairs of a claimed and a known range: what they share, where they touch, how far they are apart.

The numbers and the relation are the source's; what followed in law is not checked and not repeated. All are
known as the manual or the case law book reports them (read).
"""

from __future__ import annotations

import pytest

from scopecheck.answers.findings import ChartCell
from scopecheck.answers.questions import ask_prepared, prepare
from scopecheck.core.model import Sheet
from scopecheck.report.chart import verdict_text
from scopecheck.report.wording import GLUE
from scopecheck.solving.constraints import Budget
from tests.published.worked import sheet, worked

HEAD = """
heat     temperature in degC
angle    angle in deg
layer    length in nm
density  density in kg/m3
nickel   share in wt%
acid     share in wt%
grips    count
policy ends are included       "paragraph 1"
policy rounding is none        "paragraph 2"
policy strict words are strict "paragraph 3"
policy zero is included        "paragraph 4"
policy counts are exact        "paragraph 5"
"""


def cells(claimed: dict[str, str], *stated: str) -> tuple[Sheet, list[ChartCell]]:
    """The chart of a claim with these words, by quantity, and the entries of a document."""
    words = ", and ".join(claimed.values())
    lines = "".join(f"   | {name} : {text}\n" for name, text in claimed.items())
    rows = "".join(f'  entry {i} : {text}  "page {i}"\n' for i, text in enumerate(stated, 1))
    made = sheet(f"{HEAD}1. A thing, wherein {words}.\n{lines}document D1\n{rows}")
    return made, list(ask_prepared(prepare(made, chart=True)).chart)


@pytest.mark.parametrize(
    ("name", "claimed", "stated", "told"),
    [
        # Titanium Metals, MPEP 2131.03 I: nickel 0.6 to 0.9, known 0.75.
        ("nickel", "from 0.6 to 0.9 wt%", "nickel = 0.75 wt%", "met"),
        # Atofina, MPEP 2131.03 II: 330 to 450 claimed; 100 to 500 and 150 to 350 known.
        ("heat", "from 330 to 450 degC", "100 degC <= heat <= 500 degC", "met in part; around all of it"),
        ("heat", "from 330 to 450 degC", "150 degC <= heat <= 350 degC", "overlaps it at 330 °C to 350 °C"),
        # Geisler, MPEP 2144.05 I: 50 to 100 angstrom claimed, 100 to 600 known.
        ("layer", "from 5 to 10 nm", "10 nm <= layer <= 60 nm", "touches it at 10 nm"),
        # In re Brandt, MPEP 2144.05 I: less than 6 lb/ft3 claimed, 6 to 25 known; 1 lb/ft3 taken as 16 kg/m3.
        ("density", "less than 96 kg/m3", "96 kg/m3 <= density <= 400 kg/m3", "directly beside it"),
        # In re Scherl, MPEP 2144.05 I: no less than 120 degrees claimed, up to 90 known.
        ("angle", "not less than 120 deg", "angle <= 90 deg", "not met; apart by 30 deg, 25 % of the end"),
        # In re Aller, MPEP 2144.05: 40 to 80 degC claimed, 100 known; 25 to 70 % acid claimed, 10 known.
        ("heat", "from 40 to 80 degC", "heat = 100 degC", "not met; apart by 20 K"),
        ("acid", "from 25 to 70 wt%", "acid = 10 wt%",
         "not met; apart by 15 percentage points, 60 % of the end"),
        # Iron Grip, MPEP 2144.05 I: three grips claimed; two and four known.
        ("grips", "three", "grips = 2", "not met; apart by 1"),
        ("grips", "three", "grips = 4", "not met; apart by 1"),
        # T 666/89, EPO Case Law 2022 I.C.6.3.2: 8 to 25 % claimed, 5 to 25 % known.
        ("acid", "from 8 to 25 wt%", "5 wt% <= acid <= 25 wt%", "around all of it"),
    ],
)  # fmt: skip
def test_one_quantity(name: str, claimed: str, stated: str, told: str) -> None:
    made, (cell,) = cells({name: claimed}, stated)
    assert told in verdict_text(made, cell).replace(GLUE, " ")


def test_two_quantities_are_held_each_by_itself() -> None:
    """T 666/89: the second ranges, 0.001 to 0.1 and 0.1 to 5.0, touch at 0.1."""
    claimed = {"acid": "from 8 to 25 wt%", "nickel": "from 0.001 to 0.1 wt%"}
    made, found = cells(claimed, "5 wt% <= acid <= 25 wt%, 0.1 wt% <= nickel <= 5 wt%")
    texts = [verdict_text(made, cell).replace(GLUE, " ") for cell in found]
    assert [t.split("; ")[1] for t in texts] == ["around all of it", "touches it at 0.1 wt%"]


@pytest.mark.parametrize(
    ("name", "claimed", "stated", "told"),
    [
        # W52, T 666/89, EPO Case Law 2022 I.C.6.3.2 (read): 8 to 25, 0.001 to 0.1; known 5 to 25, 0.1 to 5.
        ("acid", "from 8 to 25 wt%", ["5 wt% <= acid <= 25 wt%"],
         "claimed range as written 17 percentage points wide, range stated 20 percentage points wide,"
         " ratio 0.85; nearest end stated 25 wt%, in it"),
        ("nickel", "from 0.001 to 0.1 wt%", ["0.1 wt% <= nickel <= 5 wt%"],
         "ratio about 0.02; nearest end stated 0.1 wt%, in it"),
        # W53, T 1688/20, as summarised (read (secondary)): 56 to 59 claimed, 50 to 60 known.
        ("angle", "from 56 to 59 deg", ["50 deg <= angle <= 60 deg"],
         "range stated 10 deg wide, ratio 0.3; nearest end stated 60 deg, 1 deg from it"),
        # W4, Atofina, MPEP 2131.03 II (read): 330 to 450 claimed; 100 to 500, preferred 150 to 350, known.
        ("heat", "from 330 to 450 degC", ["100 degC <= heat <= 500 degC", "150 degC <= heat <= 350 degC"],
         "range stated 400 K wide, ratio 0.3; nearest end stated 350 °C (D1, entry 2"
         ' at "page 2"), in it'),
        # W10, In re Scherl, MPEP 2144.05 I (read): no less than 120 claimed, up to 90 known.
        ("angle", "not less than 120 deg", ["angle <= 90 deg"],
         "no ratio of widths, as the claimed range and the range stated have an open side; nearest end stated"
         " 90 deg, 30 deg from it"),
        # Our numbers. (In Woodruff "about 1 to 5" was known, which was held to overlap: see W5.)
        ("acid", "more than 5 wt%", ["1 wt% <= acid <= 5 wt%"],
         "the claimed range has an open side; nearest end stated 5 wt%, at its end, which it leaves out"),
        # In re Wertheim, MPEP 2163.05 III (read): 25 to 60, 36 and 50 told; our numbers beside.
        ("acid", "from 38 to 45 wt%", ["25 wt% <= acid <= 60 wt%", "acid = 36 wt%", "acid = 50 wt%"],
         "ratio 0.2; nearest end stated 25 wt%, 13 percentage points from it; nearest example 36 wt% (D1,"
         ' entry 2 at "page 2"), 2 percentage points from it'),
        # Whole numbers are counted: 2 to 4 grips beside 1 to 6 (our numbers).
        ("grips", "from 2 to 4", ["1 <= grips <= 6"], "of 3 values, range stated of 6 values, ratio 0.5"),
    ],
)  # fmt: skip
@worked("W52", "T 666/89, EPO Case Law 2022 I.C.6.3.2", "read")
@worked("W53", "T 1688/20", "read (secondary)")
def test_width_and_distance(name: str, claimed: str, stated: list[str], told: str) -> None:
    """What is looked at of a part of a known range: how narrow, and how far from examples and ends.

    T 198/84, T 279/89 and T 261/15, as epi Information 4/2019 reports them (read (secondary)).
    """
    made, (cell, *_) = cells({name: claimed}, *stated)
    assert told in verdict_text(made, cell).replace(GLUE, " ")


def test_what_a_document_does_not_state_is_silent() -> None:
    made, (cell,) = cells({"heat": "from 40 to 80 degC"}, "acid = 10 wt%")
    assert verdict_text(made, cell) == "silent"


def test_a_cell_that_was_cut_short_says_by_what() -> None:
    made, _ = cells({"heat": "from 40 to 80 degC"}, "60 degC <= heat <= 90 degC")
    (cell,) = ask_prepared(prepare(made, Budget(wall=0), chart=True)).chart
    assert verdict_text(made, cell).startswith("not decided: the wall limit ran out")
