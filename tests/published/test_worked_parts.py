"""Printed examples on counting, averages and like parts, restated with parts that have values of their own.

What followed in law is not checked and not repeated. Where the numbers are our own the docstring says so.
"""

from __future__ import annotations

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.formula import Read
from scopecheck.core.reference import default_values, stated_values
from scopecheck.solving.evaluate import meets
from tests.published.worked import met, pinned, sheet, worked


def of_each_reading(text: str) -> dict[str, bool]:
    """For each reading of the one phrase for parts whether the one case, which states all, meets it."""
    made = sheet(text)
    (limitation,) = made.claims[0].limitations
    assert isinstance(limitation.formula, Read)
    group = made.groups[limitation.formula.group]
    thing = {**default_values(made, ()), **stated_values(made, made.cases[0])}
    base = base_construction(made)
    return {
        r.label: meets(limitation.formula, thing, base.with_reading(group.index, index))
        for index, r in enumerate(group.readings)
    }


CHAINS = """
chain   part, 1 to 6
  mass  molar mass in kg/mol

1. A polymer whose chains have a molecular weight of 5 to 9 kg/mol.
   | mass of the chains : a molecular weight of 5 to 9 kg/mol

must stay out   mass of chains in kg/mol
  mixture       4; 4; 4; 12; 12; 12
"""


@worked(
    "W74",
    "own numbers; on two of the three averages in Teva v. Sandoz, without the peak",
    "common practice",
)
def test_equal_numbers_of_light_and_heavy_chains() -> None:
    """By number (3 * 4 + 3 * 12) / 6 = 8, by weight (3 * 16 + 3 * 144) / 48 = 10."""
    assert of_each_reading(CHAINS) == {"number average": True, "weight average": False}


GRAINS = """
grain   part, 1 to 10
  size  length in mm

1. A powder whose grains have an average particle size of at most 5 mm.
   | size of the grains : an average particle size of at most 5 mm

must stay out   size of grains in mm
  powder        2; 2; 2; 2; 2; 2; 2; 2; 2; 10
"""


def test_nine_fine_grains_and_a_coarse_one() -> None:
    """E2, own numbers; on the averages: Osram v. ITC, read (secondary).

    The mean by number is 2.8; by volume it is (9 * 16 + 10000) / (9 * 8 + 1000) = 9.46; the median is 2.
    """
    assert of_each_reading(GRAINS) == {
        "mean by number": True, "median by number": True, "mean by volume": False,
    }  # fmt: skip


SIZES = """
grain   part, 1 to 3
  size  length in um

1. A powder, the grains having a size of 1 to 12 um.
   | size of the grains : a size of 1 to 12 um

must stay out   size of grains in um
  coarse        2; 3; 30
"""


@pytest.mark.parametrize(
    ("reading", "answer"),
    [
        ("every one of them", "none"),
        ("their mean", "every"),
        ("most of them", "every"),
        ("at least one of them", "every"),
    ],
)
def test_sizes_of_which_one_is_outside(reading: str, answer: str) -> None:
    """E3, own numbers, common practice: of 2, 3 and 30 the mean is 11.7."""
    text = SIZES.replace("a size of 1 to 12 um\n\n", "1 to 12 um\n\n")
    assert met(f'{text}\nread "..." as "{reading}"\n', "coarse") == answer


@worked("W48", "Takeda v. Zydus", "read (secondary)")
def test_an_average_just_above_its_limit_is_outside_it() -> None:
    """412.28 um against 400 um or less, no 'about': the grains are our own, their mean is that number."""
    text = """
grain   part, 1 to 4
  size  length in um

1. Grains with a mean of 400 um or less.
   | size of the grains : mean of 400 um or less

must stay out   size of grains in um
  product       400; 410; 415; 424.12
"""
    assert met(pinned(text, "mean of", "arithmetic mean"), "product") == "none"


RAZOR = """
blade    part, 1 to 6
  angle  angle in deg

1. A razor comprising a first, a second and a third blade.
   | blades : a first, a second and a third

must stay out   angle of blades in deg
  product  20; 21; 22; 23
"""


@worked("W40", "Gillette, as reported in MPEP 2111.03 I", "read")
def test_four_blades_meet_first_second_and_third() -> None:
    assert met(pinned(RAZOR, "first, second and third", "so many at least"), "product") == "every"
    assert met(pinned(RAZOR, "first, second and third", "exactly that many"), "product") == "none"


@worked("W41", "In re Robertson, as reported in MPEP 2114 III", "read")
def test_two_fasteners_are_not_three() -> None:
    text = """
fastener  part, 1 to 6
  width   length in mm

1. A closure comprising three fasteners.
   | fasteners : three fasteners

document D1
  earlier : fasteners = 2, width of fastener 1 = 5 mm, width of fastener 2 = 5 mm
"""
    assert met(text, "D1, earlier") == "none"


@worked("W12", "Iron Grip, as reported in MPEP 2144.05 I", "read")
def test_three_grips_lie_between_two_and_four() -> None:
    text = """
grip     part, 0 to 4
  reach  length in mm

1. A weight plate with three grips.
   | grips : three grips

must stay out   grips
  one           1
  two           2
  four          4
"""
    for reading, of_four in (("exactly that many", "none"), ("at least that many", "every")):
        settled = f'{text}\nread "..." as "{reading}"\n'
        assert [met(settled, case) for case in ("one", "two", "four")] == ["none", "none", of_four]


CONTROLLERS = """
processor   part, 1 to 4
  feeds     number
  drains    number

1. A system comprising a processor with at least 1 for the feed, said processor further having
   at least 1 for the drain.
   | feeds of the processors, drains of the processors : at least 1 ... said processor further
   |   having at least 1
   | not restated : for the feed ... for the drain

must stay out     feeds of processors   drains of processors
  shared          1; 0                  0; 1
  single          1; 0                  1; 0
"""


def test_said_thing_does_both_or_the_work_is_shared() -> None:
    """F2, Salazar v. AT&T and In re Varma as reported in MPEP 2111.01 I [R-01.2024], read; own numbers."""
    for reading, shared in (("one and the same", False), ("spread over several", True)):
        text = f'{CONTROLLERS}\nread "... said ... having ..." as "{reading}"\n'
        # "At least 1" has readings of its own, so the thing is met on some of them only.
        assert (met(text, "shared") != "none") is shared
        assert met(text, "single") != "none"


def test_a_majority_is_more_than_half() -> None:
    """F12, Moore v. Standard Register, read (secondary): 47.8 per cent was too little; 11 of 23 is 47.8."""
    text = """
edge      part, 1 to 23
  glued   length in mm

1. A form, the glue covering a majority of them of at least 5 mm.
   | glued of the edges : a majority of them ... at least 5 mm
   | not restated : of

must stay out   glued of edges in mm
  form          {}
"""
    for glued, answer in ((11, "none"), (12, "every")):
        cells = "; ".join(["6"] * glued + ["1"] * (23 - glued))
        settled = f'{text.format(cells)}\nread "a majority of them ..." as "more than half"\n'
        assert met(settled, "form") == answer


def test_ribs_each_of_one_width_and_a_wider_one_beside_them() -> None:
    """F9, own numbers, common practice: ribs of 5, 5 and 9 mm, 'a plurality of ribs, each 5 mm'."""
    text = """
rib      part, 1 to 4
  width  length in mm

1. A panel with a plurality of ribs each having a width of 5 mm.
   | width of the ribs : a plurality ... each having a ... 5 mm
   |   meant  COUNT rib (width = 5 mm) >= 2
   | not restated : of ribs

must stay out   width of ribs in mm
  panel         5; 5; 9
"""
    assert met(text, "panel") == "some"
