"""Worked examples on closed and open compositions, bases and variable limits, as sheets declare these.

Each check names in its docstring the number in our list of worked examples or phrases, the source, and how it
is known. Numbers and answers are those of the source, the things around them are our own.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.about import Moves
from scopecheck.answers.findings import lines_of
from tests.published.worked import found, met, pinned, sheet

FABRIC = """
profile   {profile}
fabric    composition in wt%
  cellulose, nylon, fibre, cotton
water     share in %      "of the fabric it is held in"

1. A fabric consisting of 60 to 80 wt% cellulose, 16 to 18 wt% nylon, up to 0.5 wt% fibre and
   at least 6 wt% cotton, the fabric holding not more than 45 % of water.
   | fabric    : consisting of
   | cellulose : 60 to 80 wt%
   | nylon     : 16 to 18 wt%
   | fibre     : up to 0.5 wt%
   | cotton    : at least 6 wt%
   | water     : not more than 45 % of water

policy  zero is included         "the way the source reads it"

must stay out
  dry      : cellulose = 76 wt%, nylon = 16 wt%, fibre = 0 wt%, cotton = 8 wt%, water = 0 %
  thin     : cellulose = 78 wt%, nylon = 17 wt%, fibre = 0.2 wt%, cotton = 4.8 wt%, water = 30 %
  fibrous  : cellulose = 61 wt%, nylon = 18 wt%, fibre = 0.6 wt%, cotton = 20.4 wt%, water = 45 %
  silky    : cellulose = 69 wt%, nylon = 16 wt%, fibre = 0.4 wt%, cotton = 7 wt%, others in fabric = 7.6 wt%
"""
PROFILES = ("US", "US court", "EPO")


@pytest.mark.parametrize("profile", PROFILES)
def test_a_closed_fabric(profile: str) -> None:
    """W21 and W22: examination of November 1999, morning, item 36; read (secondary).

    None of the fibre and no water are allowed for, the shares come to 100; too little cotton, too much fibre
    and a silk that is not listed are not.
    """
    text = FABRIC.format(profile=profile)
    assert met(text, "dry") in ("every", "base")
    assert {case: met(text, case) for case in ("thin", "fibrous", "silky")} == dict.fromkeys(
        ("thin", "fibrous", "silky"), "none"
    )


ALLOY = """
alloy   composition in %
  tin, zinc, copper, aluminium

1. An alloy consisting of 2 to 10 % of tin, 0.1 to 0.9 % of zinc, and copper.
   | alloy  : consisting of
   | tin    : 2 to 10 %
   | zinc   : 0.1 to 0.9 %
   | copper > 0 %

2. The alloy of claim 1, further comprising 2 to 10 % of aluminium.
   | aluminium : 2 to 10 %
"""


def test_a_dependent_claim_adds_to_a_closed_alloy() -> None:
    """W34: examination of November 1999, morning, item 40, with MPEP 2111.03 II; read (secondary)."""
    (finding,) = found(ALLOY, "dependent cannot be met")
    assert (finding.quantifier, lines_of(finding)) == ("every", ("1a", "2a"))
    assert not found(ALLOY.replace("consisting of", "comprising"), "dependent cannot be met", 1)
    # A lay reader closes "comprising" too: a strained reading, which takes no part unless asked for.
    assert not found(ALLOY.replace("consisting of", "comprising"), "dependent cannot be met")


MELT = """
melt   composition in %
  nickel, chromium, iron, cobalt
  third : only copper, silver, tin

1. A melt comprising nickel, chromium, iron and at least one of copper, silver or tin.
   | melt  : comprising
   | nickel > 0 %, chromium > 0 %, iron > 0 %
   | not restated : and
   | third : at least one of copper, silver or tin

must stay out
  known melt : nickel = 20 %, silver = 10 %, chromium = 20 %, iron = 20 %, copper = 10 %, cobalt = 20 %
"""


def test_an_open_melt_with_two_members_and_one_more_ingredient() -> None:
    """W25: examination of April 1999, afternoon, item 37; read (secondary). The shares are our own."""
    assert met(MELT, "known melt") in ("base", "every")
    assert met(pinned(MELT, "comprising", "closed"), "known melt") == "none"  # cobalt is more


COATING = """
coating   composition in wt%
  aluminium, silicon

1. A strip with a coating consisting essentially of aluminium.
   | coating : consisting essentially of aluminium

must stay out
  known coating : 8.0 wt% <= silicon <= 8.5 wt%, others in coating = 0 wt%, impurities in coating = 0 wt%
"""


def test_a_number_of_the_description_closes_a_coating() -> None:
    """W44: AK Steel v. Sollac, as reported in MPEP 2111.03 III; read."""
    pin = 'read "consisting essentially of" as "others up to a number of the description" with c = 0.5 wt%'
    assert met(f'{COATING}\n{pin}  "the description"\n', "known coating") == "none"
    assert met(pinned(COATING, "consisting essentially of", "as comprising"), "known coating") == "every"


PAIR = """
profile  {}
mix      composition in wt%
  first, second

1. A mix consisting of first and second.
   | mix : consisting of first and second

inside
  traces : first = 60 wt%, second = 39.9 wt%, impurities in mix = 0.1 wt%
"""


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize(("ordinary", "quantifiers"), [("0.1", set()), ("0.05", {"every"})])
def test_a_tenth_of_a_per_cent_of_impurities(profile: str, ordinary: str, quantifiers: set[str]) -> None:
    """G5: MPEP 2111.03 II (impurities ordinarily associated with the materials are excepted), which gives no
    amount; EPO Guidelines 2018 F-IV 4.21 (percentages reach 100); read. Numbers: ours.

    In where so much is ordinary; out at the European Patent Office, whose presumption leaves none aside.
    """
    words, label = "consisting of", "closed, ordinary impurities apart"
    pin = f'read "{words} ..." as "{label}" with i = {ordinary} wt%  "the description"\n'
    assert {f.quantifier for f in found(f"{PAIR.format(profile)}\n{pin}", "inside lost")} == quantifiers
    (untold, *_) = found(PAIR.format(profile), "inside lost")
    assert untold.quantifier == "base"
    presumed = {"EPO": "closed, the shares reach 100"}.get(profile, label)
    group = sheet(PAIR.format(profile)).groups[0]
    assert group.readings[group.base].label == presumed


THREE = """
batch   composition in %
  a part, b part, c part

1. A batch {} 20 to 80 % of a part, 20 to 80 % of b part and 1 to 25 % of c part.
   | batch  : {}
   | a part : 20 to 80 %
   | b part : 20 to 80 %
   | not restated : and
   | c part : 1 to 25 %

must stay out
  short  : a part = 30 %, b part = 30 %, c part = 20 %, others in batch = 20 %
  full   : a part = 40 %, b part = 40 %, c part = 20 %
"""


def test_ranges_whose_sums_run_from_41_to_185() -> None:
    """W31 and D8: Kroekel, as reported in MPEP 2173.05(c) II, and T 759/91 in EPO Guidelines 2018; read."""
    for transition in ("comprising", "consisting of"):
        text = THREE.format(transition, transition)
        assert not found(text, "nothing meets")
        assert met(text, "full") in ("every", "base")
    assert met(THREE.format("consisting of", "consisting of"), "short") == "none"
    assert met(THREE.format("comprising", "comprising"), "short") == "every"


SALT = """
salt      composition in wt%
  sodium, chloride, bromide
  no sodium : all but sodium

1. A salt having at least 20 wt% of sodium.
   | sodium : at least 20 wt%

2. The salt of claim 1, with 60 wt% of chloride and 40 wt% of bromide{words}.
   | chloride{of} : 60 wt%
   | not restated : and
   | bromide{of}  : 40 wt%
"""


def test_what_adds_to_100_beside_sodium_needs_a_base_without_it() -> None:
    """W30: MPEP 2173.05(c) II; read. The parts are our own."""
    (finding,) = found(SALT.format(of="", words=""), "dependent cannot be met")
    assert finding.quantifier == "every"
    assert set(lines_of(finding)) == {"1a", "2a", "2b"}
    without = SALT.format(of=" of no sodium", words=" of what is no sodium")
    assert not found(without, "dependent cannot be met")


CLAY = """
clay   composition in wt%
  ochre, water
  dry  : all but water

1. A clay having at least 40 wt% of ochre.
   | {} : at least 40 wt%

must stay out
  wet clay : ochre = 30 wt%, water = 50 wt%
"""


def test_thirty_grams_in_a_hundred_wet_are_sixty_per_cent_dry() -> None:
    """D2: the two bases of our list of phrases; common practice."""
    assert met(CLAY.format("ochre"), "wet clay") == "none"
    assert met(CLAY.format("ochre of dry"), "wet clay") == "every"


CLASS = """
profile  EPO
mix      composition in wt%
  base
  filler : only first, second, third

1. A mix comprising a filler in an amount of 1 to 10 wt%.
   | mix    : comprising
   | filler : 1 to 10 wt%

2. The mix of claim 1, the filler being first.
   | filler : being first

must stay out for 1
  all three : first = 10 wt%, second = 10 wt%, third = 10 wt%, base = 70 wt%
"""


def test_a_capped_class_narrowed_to_a_member() -> None:
    """G10: a board of the EPO, number not shown in the source (R45, S48); read (secondary)."""
    assert met(CLASS, "all three") == "some"  # where one member of the class is enough, or each is asked
    assert met(f'{CLASS}\npolicy  plural amounts are together  "the board"\n', "all three") == "none"
    (finding,) = found(CLASS, "member freed")
    assert finding.witness is not None
    article = finding.witness.article
    others = (article["second"], article["third"])
    assert any(others)
    assert lines_of(finding) == ("1b",)


CYCLE = """
rider      length in cm, >= 140 cm, <= 210 cm, varies with the rider
wheelbase  length in cm

1. A cycle whose wheelbase is 58 to 75 % of the height of the rider.
   | wheelbase, rider : 58 to 75 % of the height of the rider

inside
  built : wheelbase = 100 cm, rider = 150 cm
"""


def test_one_wheelbase_and_two_riders() -> None:
    """W45 and B8: Ex parte Brummer, as reported in MPEP 2173.05(b) II; read. The riders are our own."""
    (finding,) = found(CYCLE, "moves with something else")
    assert finding.witness is not None
    assert isinstance(finding.about, Moves)
    one, other = dict(finding.witness.article), dict(finding.about.other.article)
    riders = one.pop("rider"), other.pop("rider")
    assert one == other
    assert riders[0] != riders[1]


CEMENT = """
solution    composition in wt%
  water
  sodium phosphate : monosodium phosphate, disodium phosphate, trisodium phosphate

1. A kit with a solution consisting of water and a sodium phosphate.
   | solution  : consisting of water and a sodium phosphate

must stay out   water     monosodium phosphate   disodium phosphate
  one           99 wt%    1 wt%                  0 wt%
  two           98.5 wt%  0.5 wt%                1 wt%
"""


def test_a_phosphate_in_a_closed_claim_may_be_one_only() -> None:
    """W76: Norian v. Stryker, 432 F.3d 1356 (Fed. Cir. 2005), as reported (read, secondary).

    What was contended for: any sodium phosphates; a single one.
    """
    single = pinned(CEMENT, "composition consisting of (list M and)", "closed, one only of each kind")
    assert [met(single, c) for c in ("one", "two")] == ["every", "none"]
    assert [met(CEMENT, c) for c in ("one", "two")] == [
        "every",
        "base",
    ]  # met as presumed, not on each reading
