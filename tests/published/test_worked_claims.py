"""Printed examples of claims beside each other and beside an earlier text, as small sheets of our own.

What is checked is the relation, or that something is met or not met, under the reading the source used; where
the answer turns on a reading, that the tool tries the other one too. What followed in law is not checked and
not repeated. Tags: `read` the text itself was seen; `read (secondary)` seen as quoted or reproduced
elsewhere; `memory` not seen; `common practice` no source.
"""

from __future__ import annotations

from fractions import Fraction as F

from scopecheck.answers.findings import lines_of
from scopecheck.answers.questions import prepare
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Measured
from scopecheck.core.model import Group
from scopecheck.solving.ends import infimum, supremum
from scopecheck.solving.solver import Session
from tests.published.worked import found, met, pinned, relation, sheet, worked

# ---- claims among themselves


RESISTOR = """
resistance  resistance in ohm

1. A circuit, the resistance being 70 to 150 ohm.
   | resistance : 70 to 150 ohm

2. The circuit of claim 1, wherein the resistance is 70 to 100 ohm.
   | resistance : 70 to 100 ohm
"""


@worked("W26", "MPEP 2173.05(c) I", "read")
def test_a_range_inside_its_parents_range_narrows() -> None:
    assert not found(RESISTOR, "adds nothing")
    assert not found(RESISTOR, "dependent cannot be met")
    assert not found(RESISTOR, "end not reached")
    (narrows,) = found(RESISTOR, "narrows", 2)
    assert narrows.outcome == "shown"
    assert narrows.witness is not None


PREFERRED = """
profile  {}
heat  temperature in degC

1. A mould held at 45 to 78 degC, preferably 50 to 60 degC.
   | heat : 45 to 78 degC, preferably 50 to 60 degC

must stay out
  cool mould : heat = 48 degC
"""


def preference(text: str) -> Group:
    """The one phrase of a sheet that is a preference."""
    (found,) = (g for g in sheet(text).groups if g.entry == "(limit c), preferably (limit d)")
    return found


@worked("W27", "MPEP 2173.05(c) I; EPO Guidelines 2018 F-IV 4.9", "read")
def test_a_preferred_range_limits_or_does_not() -> None:
    for profile in ("US", "EPO"):
        text = PREFERRED.format(profile)
        assert met(text, "cool mould") == "base"
        name = "(limit c), preferably (limit d)"
        assert met(pinned(text, name, "outer limit"), "cool mould") == "every"
        assert met(pinned(text, name, "inner limit"), "cool mould") == "none"
    us, epo = (preference(PREFERRED.format(profile)) for profile in ("US", "EPO"))
    assert {r.standing for r in us.readings} == {"presumed"}  # no presumption known
    assert [r.label for r in epo.readings if r.standing == "presumed"] == ["outer limit"]


@worked("W28", "examination of November 1999, morning, item 41", "read (secondary)")
def test_a_preferred_range_between_ends() -> None:
    bath = """
acidity  number   "pH"

1. A bath, the pH being between 7 and 12, preferably between 9 and 10.
   | acidity : between 7 and 12, preferably between 9 and 10

must stay out
  weak bath : acidity = 8
  fair bath : acidity = 9.5
"""
    assert met(bath, "weak bath") == "base"
    assert met(bath, "fair bath") == "every"


SODIUM = """
sodium    share in wt%
chlorine  share in wt%
bromine   share in wt%

given  sodium + chlorine + bromine = 100 wt%   "nothing else is in it"

1. A salt having at least 20 wt% of sodium.
   | sodium : at least 20 wt%

2. The salt of claim 1, having 60 wt% of chlorine and 40 wt% of bromine.
   | chlorine : 60 wt%
   |   reading "of the whole salt" : x = 60 wt%
   |   reading "of what is not sodium" : x = 60 % * (100 wt% - sodium)
   | bromine : 40 wt%
   |   reading "of the whole salt" : x = 40 wt%
   |   reading "of what is not sodium" : x = 40 % * (100 wt% - sodium)
"""


@worked("W30", "MPEP 2173.05(c) II", "read")
def test_other_parts_that_already_add_up_to_the_whole() -> None:
    whole = pinned(pinned(SODIUM, "60 wt%", "of the whole salt"), "40 wt%", "of the whole salt")
    (finding,) = found(whole, "dependent cannot be met", 2)
    assert finding.quantifier == "every"
    assert set(lines_of(finding)) == {"1a", "2a", "2b"}
    rest = pinned(pinned(SODIUM, "60 wt%", "of what is not sodium"), "40 wt%", "of what is not sodium")
    assert not found(rest, "dependent cannot be met", 2)
    (open_,) = found(SODIUM, "dependent cannot be met", 2)
    assert open_.quantifier == "base"


PARTS = """
first   share in wt%
second  share in wt%
third   share in wt%
{}
1. A blend of 20 to 80 wt% of a first, 20 to 80 wt% of a second and 1 to 25 wt% of a third part.
   | first  : 20 to 80 wt%
   | second : 20 to 80 wt%
   | third  : 1 to 25 wt%

read "from (L) to (U)" as "both ends in"
"""


@worked("W31", "Kroekel, as reported in MPEP 2173.05(c) II", "read")
def test_ranges_whose_ends_add_up_to_more_than_the_whole() -> None:
    loose = sheet(PARTS.format(""))
    session = Session(loose)
    search = session.search(())
    search.require(*(session.met(x.formula, session.base) for x in loose.claim(1).limitations))
    total = Add(tuple(Measured(d.name) for d in loose.declarations if isinstance(d, NumberDecl)))
    least, greatest = infimum(search, total), supremum(search, total)
    assert least is not None
    assert greatest is not None
    assert least.value == F(41, 100)
    assert greatest.value == F(185, 100)
    tied = PARTS.format('\ngiven  first + second + third = 100 wt%   "nothing else is in it"\n')
    assert not found(tied, "nothing meets")
    assert prepare(sheet(tied)).session.search(()).holds()


CEILING = """
moisture  share in wt%

1. A powder with not more than 70 wt% of moisture.
   | moisture : not more than 70 wt%

must stay out
  dry powder : moisture = 0 wt%
"""


@worked("W32", "Ex parte Khusid, as reported in MPEP 2173.05(c) II", "read")
def test_a_ceiling_is_met_by_dry_material() -> None:
    assert met(pinned(CEILING, "not more than (U)", "includes none, as observed"), "dry powder") == "every"
    assert met(CEILING, "dry powder") == "base"
    assert met(pinned(CEILING, "not more than (U)", "must be present"), "dry powder") == "none"


@worked("W33", "In re Kirsch, as reported in MPEP 2173.05(c) II", "read")
def test_less_than_without_a_least() -> None:
    monomer = """
monomer  share in mol%

1. A polymer having less than 7 mol% of a monomer.
   | monomer : less than 7 mol%

must stay out
  without      : monomer = 0 mol%
  at the limit : monomer = 7 mol%
"""
    assert met(pinned(monomer, "less than (U)", "strict, exact"), "without") == "every"
    assert met(pinned(monomer, "less than (U)", "strict, exact"), "at the limit") == "none"


@worked("W34", "examination of November 1999, morning, item 40", "read (secondary)")
def test_a_dependent_that_adds_a_metal_to_a_closed_list() -> None:
    bronze = """
metals  any of copper, tin, zinc, aluminium
tin share        share in wt%
zinc share       share in wt%
aluminium share  share in wt%

given  IF aluminium share > 0 wt% THEN aluminium IN metals   "it is in it then"

1. An alloy consisting of copper, tin and zinc, the tin share being 2 to 10 wt% and the zinc share
   0.1 to 0.9 wt%.
   | metals     : consisting of copper, tin and zinc
   | tin share  : 2 to 10 wt%
   | zinc share : 0.1 to 0.9 wt%

2. The alloy of claim 1, wherein the aluminium share is 2 to 10 wt%.
   | aluminium share : 2 to 10 wt%
"""
    (finding,) = found(bronze, "dependent cannot be met", 2)
    assert finding.quantifier == "every"
    assert set(lines_of(finding)) == {"1a", "2a"}


WERTHEIM = """
solids  share in wt%

1. An extract having {} solids.
   | solids : {}

document D1
  disclosed range : 25 wt% <= solids <= 60 wt%
  first example   : solids = 36 wt%
  second example  : solids = 50 wt%
"""


@worked("W36", "In re Wertheim, as reported in MPEP 2163.05 III", "read")
def test_a_new_range_inside_the_disclosed_one_or_beyond_it() -> None:
    open_top = WERTHEIM.format("at least 35 wt%", "at least 35 wt%")
    both_ends = WERTHEIM.format("between 35 and 60 wt%", "between 35 and 60 wt%")
    assert relation(open_top, "D1, disclosed range") == "overlaps"  # the claim goes beyond what was disclosed
    assert relation(both_ends, "D1, disclosed range") == "contains"
    for text in (open_top, both_ends):
        assert [met(text, f"D1, {n} example") for n in ("first", "second")] == ["every", "every"]


@worked("W39", "MPEP 608.01(n) III", "read")
def test_a_dependent_that_puts_one_thing_in_anothers_place() -> None:
    kit = """
pieces  any of axle, bolt, cap, disc, eyelet

1. A kit comprising an axle, bolt, cap and disc.
   | pieces : axle, bolt, cap and disc

2. The kit of claim 1, wherein the disc is replaced by an eyelet.
   | pieces : the disc is replaced by an eyelet  exactly  eyelet IN pieces, NOT disc IN pieces
"""
    (finding,) = found(kit, "dependent cannot be met", 2)
    assert finding.quantifier == "every"
    assert set(lines_of(finding)) == {"1a", "2a"}


# ---- earlier applications


@worked("W56", "T 201/99, EPO Case Law 2019 II.D.3.1.7", "read")
def test_an_earlier_about_range_and_a_longer_claimed_one() -> None:
    mixing = """
profile  EPO
duration  time in min

1. A process with a residence time of 1 to 10 min.
   | duration : 1 to 10 min

document earlier
  range         : duration about 1 to 6 min
  examples      : duration about 3 min
  claimed end   : duration = 10 min
class
  past the range : 6.5 min < duration <= 10 min
"""
    assert relation(mixing, "earlier, range") == "overlaps"  # the claim goes beyond it at the top
    assert relation(mixing, "earlier, examples") == "within"
    assert met(mixing, "earlier, claimed end") == "every"
    (beyond,) = found(mixing, "class")
    assert (beyond.status.lowest, beyond.status.at_base) == ("every", "every")


@worked("W57", "T 250/02, EPO Case Law 2019 II.D.3.1.7", "read")
def test_an_earlier_range_and_a_claim_without_a_top() -> None:
    resin = """
profile  EPO
resin  share in wt%

1. A lacquer with at least 55 wt%, preferably at least 70 wt% of a resin.
   | resin : at least 55 wt%, preferably at least 70 wt%

document earlier
  range : 55 wt% <= resin <= 65 wt%
"""
    name = "(limit c), preferably (limit d)"
    assert relation(pinned(resin, name, "outer limit"), "earlier, range") == "within"
    assert relation(pinned(resin, name, "inner limit"), "earlier, range") == "apart"
