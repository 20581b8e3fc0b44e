"""Printed examples of products against claims, open, closed and half-open, as small sheets of our own.

What is checked is the relation, or that something is met or not met, under the reading the source used; where
the answer turns on a reading, that the tool tries the other one too. What followed in law is not checked and
not repeated. Tags: `read` the text itself was seen; `read (secondary)` seen as quoted or reproduced
elsewhere; `memory` not seen; `common practice` no source.
"""

from __future__ import annotations

from fractions import Fraction as F

from scopecheck.answers.findings import Statuses
from tests.published.worked import found, labels, met, pinned, relation, sheet, worked

# ---- products against claims


FABRIC = """
cellulose  share in wt%
nylon      share in wt%
fibre      share in wt%
cotton     share in wt%
others     share in wt%     "of anything the claim does not name"
water      share in wt%

1. A fabric consisting of 60 to 80 wt% of cellulose, 16 to 18 wt% of nylon, up to 0.5 wt% of fibre and
   at least 6 wt% of cotton, and holding not more than 45 wt% of water.
   | others    : consisting of  exactly  others = 0 wt%
   | cellulose : 60 to 80 wt%
   | nylon     : 16 to 18 wt%
   | fibre     : up to 0.5 wt%
   | cotton    : at least 6 wt%
   | water     : not more than 45 wt%

must stay out  cellulose  nylon    fibre    cotton   others   water
  dry          76 wt%     16 wt%   0 wt%    8 wt%    0 wt%    0 wt%
  thin         78 wt%     17 wt%   0.2 wt%  4.8 wt%  0 wt%    30 wt%
  fibrous      61 wt%     18 wt%   0.6 wt%  20.4 wt%  0 wt%   45 wt%
  silky        69 wt%     16 wt%   0.4 wt%  7 wt%    7.6 wt%  45 wt%
"""


@worked("W21", "examination of November 1999, morning, item 36", "read (secondary)")
def test_none_of_an_ingredient_meets_a_ceiling() -> None:
    zero = pinned(FABRIC, "up to (U)", "zero allowed, end in")
    none = pinned(zero, "not more than (U)", "includes none, as observed")
    assert met(none, "dry") == "every"
    assert met(FABRIC, "dry") == "base"  # "some must be present" is tried too
    assert "some must be present" in labels(FABRIC, "up to")
    assert "must be present" in labels(FABRIC, "not more than")


@worked("W22", "examination of November 1999, morning, item 36", "read (secondary)")
def test_each_product_fails_one_limit() -> None:
    assert met(FABRIC, "thin") == "none"  # cotton 4.8 under 6, also when rounded
    assert met(FABRIC, "silky") == "none"  # silk is not listed
    assert met(FABRIC, "fibrous") == "none"  # fibre 0.6 over 0.5


@worked("W23", "examination of April 1999, afternoon, item 37", "read (secondary)")
def test_a_coating_that_meets_the_claim_and_not_its_dependent() -> None:
    pan = """
coating  length in mm

1. A pan, the coating being 0.05 to 1 mm thick.
   | coating : 0.05 to 1 mm

2. The pan of claim 1, wherein the coating is 0.3 mm thick.
   | coating : 0.3 mm

document D1 for {}
  known pan : coating = 0.5 mm
"""
    assert met(pan.format(1), "D1, known pan") == "every"
    assert met(pan.format(2), "D1, known pan") == "none"


@worked("W24", "examination of April 1999, afternoon, item 37", "read (secondary)")
def test_five_parts_for_each_part_against_at_most_a_fifth() -> None:
    paste = """
flour  number   "parts of flour for each part of salt"

1. A paste with at most 0.2 parts of flour per part of salt.
   | flour : at most 0.2

must stay out
  known paste : flour = 5
"""
    assert met(paste, "known paste") == "none"
    ratio = """
flour  mass in g
salt   mass in g

1. A paste in which the ratio of flour to salt is at most 0.2.
   | flour, salt : ratio of flour to salt is at most 0.2

must stay out
  known paste : flour = 5 g, salt = 1 g
"""
    # Named as a ratio, the first is divided by the second; a reader who reverses them strains the words.
    name = "ratio of (noun a) to (noun b) of at most (ratio r)"
    assert met(ratio, "known paste") == "none"
    assert met(pinned(ratio, name, "first over second"), "known paste") == "none"
    assert met(pinned(ratio, name, "second over first"), "known paste") == "every"


ALLOY = """
metals  any of nickel, chromium, iron, copper, silver, tin, cobalt

1. An alloy comprising nickel, chromium and iron, and at least one of copper, silver {} tin.
   | metals : comprising nickel, chromium and iron
   | metals : at least one of copper, silver {} tin

must stay out    metals
  known alloy    {{nickel, silver, chromium, iron, copper, cobalt}}
"""


@worked("W25", "examination of April 1999, afternoon, item 37", "read (secondary)")
def test_an_open_claim_with_two_listed_members_and_one_more() -> None:
    both, either = ALLOY.format("and", "and"), ALLOY.format("or", "or")
    wide = pinned(both, "at least one of (list M and)", "either will do")
    assert met(pinned(wide, "comprising (list M and)", "open"), "known alloy") == "every"
    assert met(both, "known alloy") == "base"  # no presumption known in examination
    court = f"profile  US court\n{both}"
    assert met(court, "known alloy") == "some"  # presumed in court: one of each; tin is missing
    assert met(pinned(both, "at least one of (list M and)", "one of each"), "known alloy") == "none"
    assert met(either, "known alloy") == "every"  # "at least one" is not read as exactly one


# ---- open, closed and half-open


RAZOR = """
blades  count

1. A razor comprising a first, a second and a third blade.
   | blades : a first, a second and a third

must stay out
  four blades : blades = 4
  two blades  : blades = 2
"""


@worked("W40", "Gillette, as reported in MPEP 2111.03 I", "read")
def test_three_numbered_blades_and_a_fourth() -> None:
    assert met(RAZOR, "four blades") == "every"
    assert met(RAZOR, "two blades") == "some"  # where one may have two of the roles, and as presumed not
    made = sheet(RAZOR)
    (group,) = made.groups
    assert [r.label for r in group.readings if r.standing == "strained"] == ["exactly that many"]


@worked("W41", "In re Robertson, as reported in MPEP 2114 III", "read")
def test_two_elements_are_not_three() -> None:
    fastening = """
elements  count

1. A garment having three fastening elements.
   | elements : three

document D1
  known garment : elements = 2
"""
    assert met(fastening, "D1, known garment") == "none"


KIT = """
items  any of polymer, salt, buffer

1. A kit consisting of a polymer, salt and buffer.
   | items : consisting of a polymer, salt and buffer

must stay out      items
  with a spatula   {polymer, salt, buffer, others}
  bare kit         {polymer, salt, buffer}
"""


KIT_OF_PARTS = """
polymers, salts, buffers  count
items   assembly of polymers, salts, buffers

1. A kit consisting of a polymer, salt and buffer.
   | items : consisting of a polymer, salt and buffer

must stay out
  with a spatula : polymers = 1, salts = 1, buffers = 1, others in items = 0, unrelated things in items = 1
"""


@worked("W43", "Norian, as reported in MPEP 2111.03 II", "read")
def test_a_closed_kit_and_a_spatula() -> None:
    assert met(KIT, "bare kit") == "every"
    related = pinned(KIT, "consisting of (list M and)", "closed for related things only")
    assert met(related, "with a spatula") == "every"
    assert met(KIT, "with a spatula") == "some"
    assert met(pinned(KIT, "consisting of (list M and)", "closed"), "with a spatula") == "none"
    phrase = "assembly consisting of (list M and)"
    assert met(KIT_OF_PARTS, "with a spatula") == "some"
    assert met(pinned(KIT_OF_PARTS, phrase, "closed for related things only"), "with a spatula") != "none"
    assert met(pinned(KIT_OF_PARTS, phrase, "closed"), "with a spatula") == "none"


COATING = """
silicon  share in wt%

1. A strip with a coating consisting essentially of aluminium.
   | silicon : consisting essentially of aluminium
   |   reading "up to the number of the description" : x <= 0.5 wt%
   |   reading "anything may be added" : x >= 0 wt%

must stay out
  known coating : 8.0 wt% <= silicon <= 8.5 wt%
"""


@worked("W44", "AK Steel v. Sollac, as reported in MPEP 2111.03 III", "read")
def test_consisting_essentially_of_with_a_number_in_the_description() -> None:
    words = "consisting essentially of aluminium"
    assert met(pinned(COATING, words, "up to the number of the description"), "known coating") == "none"
    assert met(pinned(COATING, words, "anything may be added"), "known coating") == "every"
    assert met(COATING, "known coating") == "some"


@worked("W45", "Ex parte Brummer, as reported in MPEP 2173.05(b) II", "read")
def test_a_size_tied_to_a_person_who_is_not_named() -> None:
    cycle = """
rider      length in cm, >= 140 cm, <= 210 cm   "height of the person"
wheelbase  length in cm

1. A cycle whose wheelbase is 58 to 75 % of the height of the rider.
   | wheelbase / rider : 58 to 75 %

must stay out
  one cycle   : wheelbase = 100 cm
  tall person : wheelbase = 100 cm, rider = 200 cm
  short person : wheelbase = 100 cm, rider = 150 cm
"""
    (finding,) = [f for f in found(cycle, "outside met") if f.case == "one cycle"]
    assert finding.status == Statuses("some", "some", "some")
    assert met(cycle, "short person") == "every"
    assert met(cycle, "tall person") == "none"


POWDER = """
size  length in micrometre

1. A powder, the particles having a size of {}400 micrometres{}.
   | size : {}400 micrometres{}

must stay out
  known powder : size = 412.28 micrometre
"""


@worked("W48", "Takeda v. Zydus", "read (secondary)")
def test_no_margin_without_a_word_for_it() -> None:
    assert met(POWDER.format("", " or less", "", " or less"), "known powder") == "none"
    loose = POWDER.format("at most about ", "", "at most about ", "")
    assert met(loose, "known powder") == "some"
    (finding,) = found(loose, "outside met")
    (stretch,) = [b for r in finding.rereads for b in r.breaks]
    assert stretch.end is not None
    assert (stretch.end.value, stretch.end.closed) == (F("412.28") / 400 - 1, True)


BORE = """
profile  EPO
bore  length in cm

1. A valve, the bore being 3.5 cm.
   | bore : 3.5 cm

must stay out   bore
  low end       3.45 cm
  high end      3.54 cm
  below         3.44 cm
  above         3.55 cm
"""


@worked("W51", "EPO Guidelines G-VI 8.1 (2015), 7.1 (2024)", "read")
def test_a_value_with_two_digits_stands_for_what_rounds_to_it() -> None:
    cases = ("low end", "high end", "below", "above")
    rounding = pinned(BORE, "(N)", "rounds to it")
    assert [met(rounding, c) for c in cases] == ["every", "every", "none", "none"]
    assert [met(BORE, c) for c in cases] == ["base", "base", "none", "none"]
    assert [met(pinned(BORE, "(N)", "exactly"), c) for c in cases] == ["none"] * 4


SHAMPOO = """
surfactant  share in wt%
polymer     share in wt%

1. A shampoo comprising 8 to 25 wt% of a surfactant and 0.001 to 0.1 wt% of a polymer.
   | surfactant : 8 to 25 wt%
   | polymer    : 0.001 to 0.1 wt%

{}
  known shampoo : 5 wt% <= surfactant <= 25 wt%, 0.1 wt% <= polymer <= 5.0 wt%
"""


@worked("W52", "T 666/89, EPO Case Law 2022 I.C.6.3.2", "read")
def test_one_pair_of_ranges_overlaps_and_the_other_touches() -> None:
    assert relation(SHAMPOO.format("document D1"), "D1, known shampoo") == "touches"
    thing = pinned(SHAMPOO.format("must stay out"), "from (L) to (U)", "both ends in")
    (finding,) = found(thing, "outside met")
    assert finding.quantifier == "every"
    assert finding.status.highest == "some"
    assert finding.witness is not None
    assert finding.witness.article["polymer"] == F(1, 1000)


@worked("W53", "T 1688/20", "read (secondary)")
def test_a_narrower_angle_inside_a_wider_one() -> None:
    blade = """
profile  EPO
angle  angle in deg

1. A blade ground at an angle of 56 to 59 deg.
   | angle : 56 to 59 deg

document D1
  known : 50 deg <= angle <= 60 deg
"""
    assert relation(blade, "D1, known") == "contains"
