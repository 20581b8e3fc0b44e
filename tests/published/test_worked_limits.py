"""Printed examples of limits as laboratories and labels read them, as small sheets of our own.

What is checked is the relation, or that something is met or not met, under the reading the source used; where
the answer turns on a reading, that the tool tries the other one too. What followed in law is not checked and
not repeated. Tags: `read` the text itself was seen; `read (secondary)` seen as quoted or reproduced
elsewhere; `memory` not seen; `common practice` no source.
"""

from __future__ import annotations

from tests.published.worked import met, pinned, worked

ASSAY = """
assay  share in %

1. A tablet with an assay of not less than 98.0 %.
   | assay : not less than 98.0 %

must stay out   assay
  a             97.96 %
  b             97.92 %
  c             97.95 %
"""


@worked("W59", "USP General Notices, rounding table as reproduced in a procedures book", "read (secondary)")
def test_results_rounded_to_a_lower_limit() -> None:
    rounding = pinned(ASSAY, "not less than (L)", "rounds to the limit")
    assert [met(rounding, c) for c in "abc"] == ["every", "none", "every"]
    assert [met(ASSAY, c) for c in "abc"] == ["some", "none", "some"]  # as observed, none is at the limit


IMPURITY = """
impurity  share in %

1. A tablet with an impurity of not more than 0.02 %.
   | impurity : not more than 0.02 %

must stay out   impurity
  a             0.025 %
  b             0.015 %
  c             0.027 %
"""


@worked("W61", "USP General Notices, rounding table as reproduced in a procedures book", "read (secondary)")
def test_results_rounded_to_an_upper_limit() -> None:
    rounding = pinned(IMPURITY, "not more than (U)", "rounds to the limit")
    assert [met(rounding, c) for c in "abc"] == ["none", "every", "none"]
    even = pinned(IMPURITY, "not more than (U)", "rounds to the limit, half to even")
    assert [met(even, c) for c in "abc"] == ["every", "every", "none"]


@worked("W69", "SP 811 B.8 factors as reproduced", "read (secondary)")
def test_a_difference_and_a_level_in_degrees_fahrenheit() -> None:
    oven = """
heat  temperature in degC
rise  temperature difference in K

1. An oven held at not less than 50 degF, the rise being not less than 18 degF.
   | heat : not less than 50 degF
   | rise : not less than 18 degF

must stay out for {}
  at the limit : heat = 10 degC, rise = 10 K
  just under   : heat = 9 degC, rise = 9 K
"""
    for target, name in (("1a", "heat"), ("1b", "rise")):
        text = pinned(oven.format(target), "not less than (L)", "no top, as observed")
        assert met(text, "at the limit") == "every", name
        assert met(text, "just under") == "none", name


@worked("W70", "21 CFR 101.91(a)(3)", "read")
def test_gluten_below_the_label_threshold() -> None:
    bread = """
gluten  share in mg/kg

1. A bread having less than 20 mg/kg of gluten.
   | gluten : less than 20 mg/kg

must stay out   gluten
  a             12 mg/kg
  b             19.9 mg/kg
  c             20 mg/kg
"""
    strict = pinned(bread, "less than (U)", "strict, exact")
    assert [met(strict, c) for c in "abc"] == ["every", "every", "none"]
    assert met(bread, "c") == "none"  # "end in" is strained


@worked(
    "W74",
    "own numbers; on two of the three averages in Teva v. Sandoz, without the peak",
    "common practice",
)
def test_two_averages_of_one_mixture() -> None:
    polymer = """
light  count    "chains of 4 kDa"
heavy  count    "chains of 12 kDa"

term "average"
  reading "by number" : (4 * light + 12 * heavy) / (light + heavy)
  reading "by weight" : (16 * light + 144 * heavy) / (4 * light + 12 * heavy)

1. A polymer, the average being 5 to 9 kDa.
   | average : 5 to 9

read "from (L) to (U)" as "both ends in"

must stay out
  mixture : light = 50, heavy = 50
"""
    assert met(polymer, "mixture") == "base"
    assert met(pinned(polymer, "average", "by number"), "mixture") == "every"
    assert met(pinned(polymer, "average", "by weight"), "mixture") == "none"


FILM = """
profile US court
density  density in g/cm3

1. A film of a copolymer having a density below about 0.91 g/cm3.
   | density : a density below about 0.91 g/cm3

must stay out   density
  first         0.912 g/cm3
  second        0.914 g/cm3
  third         0.915 g/cm3
  fourth        0.9 g/cm3
"""


@worked("own", "Viskase v. American Nat'l Can, 947 F. Supp. 1200 (N.D. Ill. 1996), 0.905 to 0.914", "read")
def test_below_about_a_number_reaches_all_that_rounds_to_it() -> None:
    """How the Federal Circuit saw it (261 F.3d 1316, from memory: 0.910) is the reading without the word."""
    names = ("first", "second", "third", "fourth")
    wide = pinned(FILM, "less than about (N)", "up to all that rounds to it")
    assert [met(wide, c) for c in names] == ["every", "every", "none", "every"]
    assert [met(FILM, c) for c in names] == ["some", "some", "some", "every"]


AGENT = """
agent  share in %

1. A process with an agent in a concentration of between 1 % and 25 %.
   | agent : between 1 % and 25 %

must stay out   agent
  a             0.77 %
  b             0.5 %
  c             25.4 %
  d             0.49 %
  e             25.5 %
"""


@worked(
    "W75",
    "Smith & Nephew v ConvaTec [2015] EWCA Civ 607, as reported in law firms' notes",
    "read (secondary)",
)
def test_both_ends_of_a_range_round_to_the_written_digits() -> None:
    """What was contended for: exact values; whole numbers, from 0.5 % to less than 25.5 %."""
    rounding = pinned(AGENT, "between (L) and (U)", "rounds to the ends")
    assert [met(rounding, c) for c in "abcde"] == ["every", "every", "every", "none", "none"]
    exact = pinned(AGENT, "between (L) and (U)", "both ends in")
    assert [met(exact, c) for c in "abcde"] == ["none"] * 5
    assert [met(AGENT, c) for c in "abcde"] == ["some", "some", "some", "none", "none"]
