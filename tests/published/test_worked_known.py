"""Printed examples of claims against known points, ranges, counts and lists, as small sheets of our own.

What is checked is the relation, or that something is met or not met, under the reading the source used; where
the answer turns on a reading, that the tool tries the other one too. What followed in law is not checked and
not repeated. Tags: `read` the text itself was seen; `read (secondary)` seen as quoted or reproduced
elsewhere; `memory` not seen; `common practice` no source.
"""

from __future__ import annotations

from fractions import Fraction as F
from itertools import product

from scopecheck.answers.about import RangeLies
from tests.published.worked import found, met, pinned, relation, worked

# ---- known points and known ranges (alloys, temperatures, layers)


@worked("W1", "Titanium Metals, as reported in MPEP 2131.03 I", "read")
def test_a_known_point_inside_both_ranges() -> None:
    alloy = """
nickel      share in wt%
molybdenum  share in wt%

1. A titanium alloy having 0.6 to 0.9 wt% of nickel and 0.2 to 0.4 wt% of molybdenum.
   | nickel     : 0.6 to 0.9 wt%
   | molybdenum : 0.2 to 0.4 wt%

document D1
  plotted point : nickel = 0.75 wt%, molybdenum = 0.25 wt%
"""
    assert met(alloy, "D1, plotted point") == "every"


TITANIUM = """
nickel      share in wt%
molybdenum  share in wt%
iron        share in wt%

1. A titanium alloy with 0.8 wt% of nickel, 0.3 wt% of molybdenum and up to 0.1 wt% of iron.
   | nickel     : 0.8 wt%
   | molybdenum : 0.3 wt%
   | iron       : up to 0.1 wt%

document D1
  first point  : nickel = 0.75 wt%, molybdenum = 0.25 wt%, iron = 0 wt%
  second point : nickel = 0.94 wt%, molybdenum = 0.31 wt%, iron = 0 wt%
"""


@worked("W2", "Titanium Metals, as reported in MPEP 2131.03 III and 2144.05 I", "read")
def test_known_points_beside_single_values() -> None:
    exact = pinned(TITANIUM, "(N)", "exactly")
    assert met(exact, "D1, first point") == "none"
    assert met(exact, "D1, second point") == "none"


def test_known_point_that_rounds_to_single_values() -> None:
    """W2 turns on a reading: both values of the first point round, halves away, to the claim's digits."""
    assert met(TITANIUM, "D1, first point") == "base"
    assert met(TITANIUM, "D1, second point") == "none"
    assert met(pinned(TITANIUM, "(N)", "rounds to it, half to even"), "D1, first point") == "none"


@worked("W3", "ClearValue, as reported in MPEP 2131.03 II", "read")
def test_a_known_range_contains_the_claimed_one() -> None:
    water = """
alkalinity  share in ppm by mass

1. A process in which the raw water has an alkalinity of at most 50 ppm by mass.
   | alkalinity : at most 50 ppm by mass

document D1
  stated range : alkalinity <= 150 ppm by mass
"""
    assert relation(water, "D1, stated range") == "contains"


@worked("W4", "Atofina, as reported in MPEP 2131.03 II", "read")
def test_a_wide_range_contains_and_a_preferred_one_overlaps() -> None:
    synthesis = """
heat  temperature in degC

1. A synthesis carried out at a temperature of 330 to 450 degC.
   | heat : 330 to 450 degC

document D1
  general   : 100 degC <= heat <= 500 degC
  preferred : 150 degC <= heat <= 350 degC
"""
    assert relation(synthesis, "D1, general") == "contains"
    assert relation(synthesis, "D1, preferred") == "overlaps"


REFRIGERANT = """
additive  share in wt%

1. A mixture with more than 5 wt% of an additive.
   | additive : more than 5 wt%

{role}
  known : additive {words}
"""


@worked("W5", "In re Woodruff, as reported in MPEP 2144.05 I", "read")
def test_more_than_five_against_about_one_to_five() -> None:
    exact = REFRIGERANT.format(role="must stay out", words=">= 1 wt%, additive <= 5 wt%")
    assert met(pinned(exact, "more than (L)", "strict, exact"), "known") == "none"
    loose = REFRIGERANT.format(role="must stay out", words="about 1 to 5 wt%")
    assert met(loose, "known") == "some"
    finding, *_ = found(loose, "outside met")
    (stretch,) = [b for r in finding.rereads for b in r.breaks]
    # Of the mixture that is shown; that some mixture is met as soon as the word stretches is told below.
    assert finding.witness is not None
    shown = finding.witness.article["additive"]
    assert isinstance(shown, F)
    assert (stretch.end.value, stretch.end.closed) == (shown / F(5, 100) - 1, True)
    assert relation(REFRIGERANT.format(role="document D1", words="about 1 to 5 wt%"), "D1, known") == "apart"


def test_more_than_five_and_a_documents_about_range_on_another_reading() -> None:
    """W5 as a document: apart as the words are presumed, overlapping as soon as "about" stretches."""
    text = REFRIGERANT.format(role="document D1", words="about 1 to 5 wt%")
    told = sorted(found(text, "document range"), key=lambda f: f.quantifier)
    lies = [(f.about, f.quantifier) for f in told]
    assert lies == [(RangeLies("apart"), "base"), (RangeLies("overlaps"), "some")]
    (stretch,) = [b for r in told[1].rereads for b in r.breaks]
    assert (stretch.end.value, stretch.end.closed) == (F(0), False)


LAYER = """
layer  length in angstrom

1. A protective layer, being 50 to 100 angstrom thick.
   | layer : 50 to 100 angstrom

{role}
  thick film : layer >= 100 angstrom
"""


@worked("W6", "In re Geisler, 116 F.3d 1465 (Fed. Cir. 1997), as reported in MPEP 2144.05 I", "read")
def test_two_ranges_share_one_end() -> None:
    assert met(LAYER.format(role="must stay out"), "thick film") == "every"
    (finding,) = found(LAYER.format(role="must stay out"), "outside met")
    assert finding.witness is not None
    assert finding.witness.article == {"layer": F(1, 10**8)}
    assert relation(LAYER.format(role="document D1"), "D1, thick film") == "touches"


def test_ranges_that_share_one_end_are_said_to_touch() -> None:
    assert relation(LAYER.format(role="document D1"), "D1, thick film") == "touches"


BOARD = """
density  density in lb/ft3

1. A board, the density being less than 6 lb/ft3.
   | density : less than 6 lb/ft3

{role}
  known board : 6 lb/ft3 <= density <= 25 lb/ft3
"""


@worked("W8", "In re Brandt, 886 F.3d 1171 (Fed. Cir. 2018), as reported in MPEP 2144.05 I", "read")
def test_ranges_apart_by_an_open_end_only() -> None:
    assert relation(BOARD.format(role="document D1"), "D1, known board") == "apart"
    thing = BOARD.format(role="must stay out")
    assert met(pinned(thing, "less than (U)", "strict, exact"), "known board") == "none"
    assert met(thing, "known board") == "none"  # that "less than" takes its end in is strained
    assert met(pinned(thing, "less than (U)", "end in"), "known board") == "every"


@worked("W9", "In re Aller, 220 F.2d 454 (CCPA 1955), as reported in MPEP 2144.05", "read")
def test_a_known_example_apart_in_both_quantities() -> None:
    process = """
heat  temperature in degC
acid  share in wt%

1. A process run at 40 to 80 degC with an acid of 25 to 70 wt%.
   | heat : 40 to 80 degC
   | acid : 25 to 70 wt%

document D1{}
  example : heat = 100 degC, acid = 10 wt%
"""
    for target in ("", " for 1a", " for 1b"):
        assert met(process.format(target), "D1, example") == "none"


@worked("W10", "In re Scherl, 156 F.2d 72 (CCPA 1946), as reported in MPEP 2144.05 I", "read")
def test_ranges_apart_by_a_gap() -> None:
    funnel = """
angle  angle in deg

1. A funnel, the angle of which is not less than 120 deg.
   | angle : not less than 120 deg

document D1
  known : angle <= 90 deg
"""
    assert relation(funnel, "D1, known") == "apart"


# ---- counts and choices


GRIPS = """
grips  count

1. A plate having three grips.
   | grips : three

document D1
  one  : grips = 1
  two  : grips = 2
  four : grips = 4
"""


@worked("W12", "Iron Grip, as reported in MPEP 2144.05 I", "read")
def test_three_lies_between_known_counts() -> None:
    exact = pinned(GRIPS, "(N)", "exactly that many")
    assert [met(exact, f"D1, {n}") for n in ("one", "two", "four")] == ["none"] * 3
    # A bare number in an open claim may also be met by more: then the plate with four grips meets it.
    assert [met(GRIPS, f"D1, {n}") for n in ("one", "two", "four")] == ["none", "none", "base"]


@worked("W13", "Brown v. 3M, as reported in MPEP 2131", "read")
def test_one_listed_kind_is_enough() -> None:
    dates = """
dates  any of two-digit, three-digit, four-digit

1. A system for at least one of two-digit, three-digit, or four-digit dates.
   | dates : at least one of two-digit, three-digit, or four-digit

document D1
  known : dates = {two-digit}
"""
    assert met(dates, "D1, known") == "every"


@worked("W14", "Kennametal, as reported in MPEP 2131.02 III", "read")
def test_every_pair_of_two_short_lists() -> None:
    """Five binders and three coatings make fifteen pairs; one of them is the claimed one."""
    binders, coatings = ("cobalt", "iron", "nickel", "tungsten", "ruthenium"), ("first", "second", "third")
    rows = "".join(f"  {b} {c} : binder = {b}, coating = {c}\n" for b, c in product(binders, coatings))
    tool = f"""
binder   one of only {", ".join(binders)}
coating  one of only {", ".join(coatings)}

1. A tool having a ruthenium binder and the second coating.
   | binder = ruthenium
   | coating = second

document D1
{rows}"""
    status = [met(tool, f"D1, {b} {c}") for b, c in product(binders, coatings)]
    assert len(status) == 15
    assert sorted(status) == ["every"] + ["none"] * 14


@worked("W15", "In re Petering, as reported in MPEP 2131.02 III", "read")
def test_one_member_of_a_formula_of_twenty() -> None:
    compounds = ", ".join(f"c{i}" for i in range(1, 21))
    compound = f"""
compound  one of {compounds}

1. A compound, being c7.
   | compound = c7

document D1
  preferred formula : compound IN {{{compounds}}}
"""
    assert relation(compound, "D1, preferred formula") == "contains"


@worked("W16", "Upsher-Smith, as reported in MPEP 2131.05", "read")
def test_an_optional_ingredient_and_a_claim_that_excludes_it() -> None:
    tablet = """
vitamins  any of folate, cobalamin, antioxidant

1. A tablet free of antioxidant.
   | vitamins : free of antioxidant

document D1
  left out : vitamins = {folate, cobalamin}
  put in   : vitamins = {folate, cobalamin, antioxidant}
"""
    assert met(tablet, "D1, left out") == "every"
    assert met(tablet, "D1, put in") == "none"
