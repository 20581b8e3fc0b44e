"""A set of ten claims as a drafter would bring it: six defects, and four things that only look like defects.

The sheet was written, with its defects, before the program was run on it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers.about import EndNotReached
from scopecheck.answers.findings import also_claims_of, also_open_of, lines_of, silent_lines
from scopecheck.answers.questions import ask_all
from scopecheck.report.blocks import Report
from scopecheck.report.render import render
from tests.quality.pages import DEAD, report_of, told_by
from tests.sheets import sheet

PRESS = """\
title    Screw press for small cheeses
profile  US
filed    no

plate      length in mm     "diameter of the pressing plate"
holes      count            "in the plate"
bore       length in mm     "of a hole"
force      force in N
wood       any of beech, maple, oak
pressing   time in min
salt       share in wt%     "of the brine"
turns      count            "how often the cheese is turned"

1. A press for cheese, comprising a plate with a diameter of at least 80 mm, the plate having
   at least 12 holes, and a screw for a force of from 200 to 900 N.
   | plate  : at least 80 mm
   | holes  : at least 12 holes
   | force  : from 200 to 900 N

2. The press of claim 1, wherein the plate has a diameter of at most 120 mm.
   | plate  : at most 120 mm

3. The press of claim 1, wherein the plate has at least 10 holes.
   | holes  : at least 10 holes

4. The press of claim 2, wherein the plate has a diameter of at least 140 mm.
   | plate  : at least 140 mm

5. The press of claim 1, wherein the holes have a bore of at most 3 mm, the bore being less than
   3.5 mm.
   | bore   : at most 3 mm
   | bore   : less than 3.5 mm

6. The press of claim 1, wherein the force is from 300 to 600 N.
   | force  : from 300 to 600 N

7. The press of claim 1, wherein the force is at least 300 N and at most 600 N.
   | force  : at least 300 N and at most 600 N

8. The press of claim 1 or 2, wherein the plate is made of at least one of beech and maple.
   | wood   : at least one of beech and maple

9. A method of making cheese, comprising pressing for at least 60 minutes, turning at least
   twice, and laying into a brine with from 15 to 22 wt% of salt.
   | pressing : at least 60 minutes
   | turns    : at least twice      exactly  turns >= 2
   | salt     : from 15 to 22 wt%

10. The method of claim 9, wherein the brine has at most 20 wt% of salt.
   | salt   : at most 20 wt%

inside for 1      plate    holes   force    wood
  kitchen press   80 mm    12      200 N    beech
  dairy press     110 mm   30      800 N    oak
must stay out for 1
  flower press    200 mm   12      250 N    beech
  garlic press    30 mm    40      300 N    none
inside for 9      pressing   salt      turns
  soft cheese     60 min     15 wt%    2
document D1
  example         : pressing = 90 min, salt = 18 wt%                "page 3"
document D2
  example         : pressing = 20 min, salt = 25 wt%, turns = 4     "page 8"

policy  ends are included             "paragraph 5"
policy  rounding is none              "paragraph 6"
policy  strict words are strict       "paragraph 7"
policy  zero is included              "paragraph 8"
policy  alternatives are inclusive    "paragraph 9"
"""

DEFECTS = {
    "what must stay out is met": ("outside met", "claim 1", "flower press"),
    "a claim that nothing meets": ("dependent cannot be met", "claim 4", ""),
    "a document kept out by its silence alone": ("silence alone keeps out", "claim 9", "D1, example"),
    "a claim that adds nothing": ("adds nothing", "claim 3", ""),
    "an idle limitation": ("idle", "5b", ""),
    "two claims alike": ("same scope", "claim 7", ""),
}
TEMPTING = {
    "an end on the other side than the parent's": "claim 2",
    "a narrower range in a dependent claim": "claim 6",
    "two parents in the alternative": "claim 8",
    "a high end inside the parent's range": "claim 10",
}


def report(everything: bool) -> Report:
    return report_of(PRESS, everything)


def told(everything: bool) -> list[tuple[str, str, str]]:
    return told_by(report(everything))


def test_the_three_worst_are_named_first() -> None:
    """Of what is listed: dependents that are dead on every reading stand above, wherever they were put."""
    wanted = [t for t in list(DEFECTS.values())[:3] if t[0] not in DEAD]
    first = [t for t in told(False) if t[0] not in DEAD]
    assert set(first[: len(wanted)]) == set(wanted)


@pytest.mark.parametrize("defect", DEFECTS)
def test_every_defect_is_in_the_report(defect: str) -> None:
    assert DEFECTS[defect] in told(True)
    assert DEFECTS[defect] in told(False)


@pytest.mark.parametrize("tempting", TEMPTING)
def test_what_only_looks_like_a_defect_is_no_item(tempting: str) -> None:
    number = TEMPTING[tempting].removeprefix("claim ")
    labels = {TEMPTING[tempting], f"{number}a"}
    assert not {label for _, label, _ in told(False)} & labels


def test_nothing_else_is_told_on_the_first_page() -> None:
    assert sorted(told(False)) == sorted(DEFECTS.values())
    page = " ".join(render(report(False), "text").split())
    assert "held back" not in page
    assert "Claims 2, 6 and 10: nothing found among what was looked for" in page


def test_what_follows_from_a_defect_is_said_under_it() -> None:
    """Of a press of which no bore is said claim 5 is not said to be met, only as far as the case goes."""
    (met,) = [f for item in report(False).items for f in item.findings if f.question == "outside met"]
    assert met.quantifier == "every"
    assert set(also_claims_of(met)) == {3, 8}
    assert [number for number, _ in also_open_of(met)] == [5]
    (silent,) = [f for f in report(False).order if f.question == "silence alone keeps out"]
    assert silent_lines(silent) == ("9b",)


def test_a_narrower_range_that_keeps_one_end_of_its_parent_is_a_note() -> None:
    made = sheet(
        "length  length in mm\n\n"
        "1. A rod having a length of from 18 to 24 mm.\n   | length : from 18 to 24 mm\n\n"
        "2. The rod of claim 1, having a length of from 22 to 24 mm.\n   | length : from 22 to 24 mm\n"
    )
    told = {f.question: f for f in ask_all(made).findings if f.claim == 2}
    assert "idle end" not in told
    assert told["end repeated"].stakes == 6
    assert lines_of(told["end repeated"]) == ("1a",)


def test_a_case_that_leaves_a_given_value_open_parts_no_claims() -> None:
    """Of 48 % pores 52 % are solid, though the case does not say so: it cannot part what is one scope."""
    made = sheet(
        "pores  share in %\nsolid  share in %\ngiven  pores + solid = 100 %\n\n"
        "1. A gasket having 35 to 55 % pores.\n   | pores : 35 to 55 %\n\n"
        "2. The gasket of claim 1, the pores being at most 45 %.\n   | pores : at most 45 %\n\n"
        "3. The gasket of claim 1, the solid being at least 55 %.\n   | solid : at least 55 %\n\n"
        "inside   pores\n  two    48 %\n"
    )
    assert "same scope" in {f.question for f in ask_all(made).findings if f.claim == 3}


def test_how_far_a_claim_goes_is_told_for_every_reading_where_its_end_is_never_reached() -> None:
    made = sheet(
        "glass  share in wt%\nbasalt  share in wt%\ngiven  glass + basalt <= 100 wt%\n\n"
        "1. A gasket having at least 45 wt% basalt.\n   | basalt : at least 45 wt%\n\n"
        "2. The gasket of claim 1, having 20 to 80 wt% glass.\n   | glass : 20 to 80 wt%\n"
    )
    (end,) = [f for f in ask_all(made).findings if f.question == "end not reached"]
    assert end.quantifier == "every"
    assert isinstance(end.about, EndNotReached)
    assert (end.about.stated, end.about.upper, end.about.far.value) == ("80 wt%", True, Fraction(111, 2))
