"""Free numbers with a unit, the best stretch where several readings are open, and what a stretch keeps in."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers import refine
from scopecheck.answers.about import KeptOut
from scopecheck.answers.findings import Finding, also_claims_of
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.cases import reading_for_all
from scopecheck.answers.questions.inside import inside_lost
from scopecheck.answers.questions.outside import outside_met
from scopecheck.core.construction import base_construction
from scopecheck.core.formula import All
from scopecheck.report.frame import basis_lines
from scopecheck.report.grouping import section
from scopecheck.report.kept_out import kept_text
from scopecheck.report.wording import GLUE
from scopecheck.solving.constraints import Budget
from scopecheck.solving.ends import Extremum, greatest_stretch
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Search
from tests.reported import one_line, text_of
from tests.sheets import errors, sheet

BAR = """title  Bar
body  length in mm

phrase "close to (L)"
  reading "with room" presumed : x <= L + m
    free m : 0 mm <= m <= 1 mm, presumed 0 mm
  reading "with a fixed room" arguable : x <= L + 0.65 mm

term "width"
  reading "itself" presumed : body
  reading "with its coat" : body + 1 mm
  reading "halved" : body / 2

1. A bar having a width of close to 10 mm.
   | width : close to 10 mm

inside
  sample : 10.6 mm <= body <= 10.62 mm
must stay out
  rival : 10.7 mm <= body <= 10.71 mm
"""


def test_a_stretch_between_the_values_of_other_readings_is_found() -> None:
    """While `width` is free the stretch turns things at 0 and 1 mm only; here 0.62 mm to 0.7 mm will do."""
    made = sheet(BAR)
    (found,) = reading_for_all(prepare(made, details=True))
    assert isinstance(found, Finding)
    assert found.question == "one reading fits all cases"
    assert found.construction is not None
    assert [made.groups[g].readings[r].label for g, r in enumerate(found.construction.readings)] == [
        "itself",
        "with room",
    ]
    (parameter,) = made.parameters
    assert Fraction(62, 100_000) <= found.construction.parameter(parameter.key) < Fraction(70, 100_000)
    assert found.best


def test_a_case_is_kept_in_by_the_stretch_that_takes_in_all_of_it() -> None:
    made = sheet(BAR)
    (case,) = (c for c in made.cases if c.name == "sample")
    lost = next(f for f in inside_lost(prepare(made), case) if isinstance(f, Finding))
    (kept,) = lost.otherwise.least
    assert [point.end.value for point in kept.breaks] == [Fraction(62, 100_000)]


def test_a_reading_of_ones_own_is_not_left_out_in_silence() -> None:
    (told,) = errors(BAR.replace("0 mm <= m <= 1 mm, presumed 0 mm", "0 <= m <= 1, presumed 0"))
    assert "'with room'" in told.message
    assert "length and plain number" in told.cause
    assert "free m : 0 mm" in told.help


def left_open(words: str, more: str = "", strained: bool = False) -> str:
    """What is told of stretches that are fixed nowhere; '' if nothing is."""
    made = sheet(f"width  length in mm\n\n1. A bar of {words}.\n   | width : {words}\n\n{more}\n")
    told = (text.replace(GLUE, " ") for text in basis_lines(made, strained))
    return next((text for text in told if text.startswith("Words whose stretch")), "")


def test_only_stretches_that_are_tried_and_left_open_are_told() -> None:
    assert left_open("about 60 mm") == 'Words whose stretch is fixed nowhere: "about 60 mm".'
    assert left_open("about 60 mm", 'read "about" as "context tolerance" with e = 2 %') == ""
    assert left_open("about 60 mm", 'read "about" as "rounding only"') == ""
    # of a reading that is strained and not tried nothing is told
    assert left_open("less than 60 mm") == ""


def test_a_stretch_of_a_strained_reading_is_told_where_these_are_tried() -> None:
    own = 'phrase "close to (L)"\n  reading "at" presumed : x <= L\n  reading "near" strained : x <= L + m\n'
    own += "    free m : 0 mm <= m <= 1 mm, presumed 0 mm"
    assert left_open("close to 10 mm", own) == ""
    assert '"close to 10 mm"' in left_open("close to 10 mm", own, strained=True)


SEAL = """
gap  length in mm

phrase "clear of (L)"
  reading "strict" presumed : x < L
  reading "beyond tolerance" arguable : x < L - m
    free m : 0 mm <= m, presumed 0 mm

1. A seal with a gap clear of 10 mm.
   | gap : clear of 10 mm

must stay out
  old : gap = {gap} mm
"""


def test_what_only_a_wide_stretch_keeps_out_is_wrong_on_every_reading() -> None:
    """Kept out from 10 mm - gap on: 9 mm is most of the number written, 0.5 mm is a tolerance."""
    for gap, heading in (("1", "1"), ("9.5", "usual")):
        made = sheet(SEAL.format(gap=gap))
        (found,) = (f for f in outside_met(prepare(made), made.cases[0]) if isinstance(f, Finding))
        assert (found.quantifier, section(made, found)) == ("base", heading)


LAMP = """
beam, reach  length in mm

1. A lamp with a beam of between 10 and 20 mm.
   | beam : between 10 and 20 mm    exactly  10 mm < beam < 20 mm

2. The lamp of claim 1, wherein the reach does not exceed 5 mm.
   | reach : does not exceed 5 mm

3. The lamp of claim 1, wherein the beam is from 20.3 to 30 mm.
   | beam : from 20.3 to 30 mm

4. The lamp of claim 2, wherein the reach is at least 5.4 mm.
   | reach : at least 5.4 mm

inside for 1, 2
  wide : beam = 25 mm, reach = 0 mm
"""


def test_a_case_lost_above_is_lost_below_by_its_own_lines_alone() -> None:
    made = sheet(LAMP)
    lost = [f for f in inside_lost(prepare(made), made.cases[0]) if isinstance(f, Finding)]
    assert {(f.claim, f.failing, also_claims_of(f)) for f in lost} == {(1, ("1a",), (2,)), (2, ("2a",), ())}
    below = [r for f in lost if f.claim == 2 for r in f.rereads]
    assert {made.groups[r.group].places[0].where for r in below} == {"2a"}


def test_a_claim_that_nothing_meets_as_presumed_says_on_which_reading_something_does() -> None:
    """5.4 mm rounds to 5 mm, so that one reading of claim 2 leaves claim 4 something."""
    made = sheet(LAMP)
    (found,) = (f for f in ask_all(made).findings if f.label == "claim 4" and f.otherwise.rereads)
    (reread,) = found.otherwise.least
    k = base_construction(made).with_reading(reread.group, reread.reading)
    thing = {"beam": Fraction(15, 1000), "reach": Fraction(54, 10000)}
    lines = [x.formula for n in (1, 2, 4) for x in made.claim(n).limitations]
    assert all(evaluate(line, thing, k) for line in lines)
    assert not all(evaluate(line, thing, base_construction(made)) for line in lines)


ROD = """title  Rod
profile EPO
body  length in mm

phrase "close to (L)"
  reading "exactly" presumed : x = L
  reading "rounded" arguable : L - 0.5 mm <= x AND x < L + 0.5 mm
  reading "wide" arguable : L - 1 mm <= x AND x <= L + 1 mm
  reading "with room" arguable : L - m < x AND x < L + m
    free m : 0 mm < m <= 1 mm, presumed 0.1 mm

1. A rod having a width of close to 10 mm.
   | body : close to 10 mm

2. A rod having a width of about 10 mm.
   | body : about 10 mm

3. The rod of claim 2 of less than 9 mm.
   | body : less than 9 mm   exactly  body < 9 mm

must stay out for 1
  rival : body = 10.4 mm
must stay out for 2
  other : body = 9.5 mm
"""


def test_how_far_a_reading_must_stretch_is_told_of_the_thing_with_its_end() -> None:
    """By hand: |10.4 - 10| = 0.4 < m from m above 0.4 mm on; |9.5 - 10| = 0.5 is 5 % of 10."""
    told = one_line(text_of(ask_all(sheet(ROD)), sheet=sheet(ROD)))
    assert 'as "wide" (arguable) or "with room" (arguable), once it stretches by more than 0.4 mm' in told
    kept = [f for f in ask_all(sheet(ROD), details=True).findings if f.question == "kept out"]
    said = [kept_text(sheet(ROD), f).replace(GLUE, " ") for f in kept]
    assert any('read as "with room" (arguable), stretches by more than 0.4 mm' in text for text in said), said
    assert 'is read as "context tolerance" (arguable), as long as it stretches by less than 5 %' in told
    every = ask_all(sheet(ROD), details=True).findings
    besides = [f for f in every if isinstance(f.about, KeptOut) and f.about.besides]
    (third,) = (kept_text(sheet(ROD), f).replace(GLUE, " ") for f in besides)
    assert third.startswith("Only 3a ")
    assert 'as long as "about 10 mm", read as "context tolerance" (arguable), stretches by less' in third


FAN = """title  Fan
speed  length in mm

phrase "below about (L)"
  reading "with room" presumed : x < L - m
    free m : 0 mm <= m, presumed 0 mm

1. A fan having a speed of below about 40 mm.
   | speed : below about 40 mm

class
  slow : 10 mm <= speed <= 50 mm
"""


def test_that_a_far_stretch_keeps_all_out_is_seen_without_looking_for_values(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    made = sheet(FAN)
    prepared, (slow,) = prepare(made), made.cases
    monkeypatch.setattr(refine, "stretch_values", lambda *_: pytest.fail("values were looked for"))
    demand = refine.Demand(slow.facts, prepared.scope(1), "none")
    assert refine.some_construction(prepared.session, [demand])


def test_what_one_claims_stretches_leave_empty_is_looked_for_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Else each claim has the optimiser look for the same end, and the time runs out on a large sheet."""
    own = "{n}. The fan of claim 1, with a speed of less than {end} mm.\n   | speed : less than {end} mm\n"
    more = "\n".join(own.format(n=n, end=40 + n) for n in range(2, 9))
    made = sheet(FAN.replace("\nclass", f"\n{more}\nclass"))
    prepared, (slow,) = prepare(made, Budget(work=400_000)), made.cases
    looked: list[str] = []

    def counted(search: Search, key: str, work: int | None = None) -> Extremum | None:
        looked.append(key)
        return greatest_stretch(search, key, work)

    monkeypatch.setattr(refine, "greatest_stretch", counted)
    demands = [refine.Demand(slow.facts, prepared.scope(1), "none")]
    demands += [refine.Demand(All(()), prepared.scope(n), "some") for n in range(1, 9)]
    assert refine.some_construction(prepared.session, demands)
    assert len(looked) <= 3


def test_a_line_that_a_hedge_makes_idle_is_told_with_how_the_hedge_is_taken() -> None:
    """Nothing fixes how far a hedge stretches: whatever it implies, it implies as presumed."""
    text = (
        "water  share in wt%\n\n1. A mix substantially free of water, with below 5 wt% of water.\n"
        "   | water : substantially free of water\n   | water : below 5 wt%\n"
    )
    told = one_line(text_of(ask_all(sheet(text)), sheet=sheet(text)))
    assert "Asks for nothing that the rest of claim 1 does not ask already" in told
    assert 'Here "substantially free of water" is taken as not stretched' in told
    pinned = text + '\nread "substantially free of" as "unavoidable impurity only" with i = 1 wt%  "page 3"\n'
    told = one_line(text_of(ask_all(sheet(pinned)), sheet=sheet(pinned)))
    assert "Asks for nothing" in told
    assert "is taken as not stretched" not in told
