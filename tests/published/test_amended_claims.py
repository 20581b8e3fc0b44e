"""Printed examples of claims changed in prosecution, as small sheets of our own: the relation, not the law.

Each check names its source and how it is known: `read` the text was seen, `read (secondary)` a summary of it.
Some numbers are taken one step on, which is said.
"""

from __future__ import annotations

from fractions import Fraction as F

from scopecheck.answers.findings import Finding
from tests.amended_sheets import amended, change

SOLIDS = """
solids  share in %

1. A concentrate with a solids content of {0}.
   | solids : {0}

description
  first example   : solids = 36 %  "example 1"
  second example  : solids = 50 %  "example 2"
"""
RANGE, OPEN, INNER = "25 to 60 %", "at least 35 %", "between 35 and 60 %"


def value(finding: Finding | None, name: str) -> F:
    """The value of a quantity in the thing that a side is shown by, in percent or the unit of the base."""
    assert finding is not None
    assert finding.witness is not None
    found = finding.witness.article[name]
    assert isinstance(found, F)
    return found


# In re Wertheim, 541 F.2d 257 (CCPA 1976), as told in MPEP 2163.05 III [R-01.2024] (read): a text with 25 to
# 60 % and the examples 36 % and 50 %; "at least 35 %" reached what the text did not have, "between 35 and
# 60 %" did not. Here the text's range is the claim before.


def test_an_end_left_open_reaches_beyond_the_range_before() -> None:
    found = change(SOLIDS.format(RANGE), SOLIDS.format(OPEN))
    assert found.relation == "both"
    assert found.everywhere
    assert value(found.gained, "solids") > F(60, 100)
    assert F(25, 100) <= value(found.given_up, "solids") < F(35, 100)


def test_a_range_inside_the_range_before_only_narrows() -> None:
    found = change(SOLIDS.format(RANGE), SOLIDS.format(INNER))
    assert found.relation == "narrowed"
    assert found.given_up is not None
    assert found.given_up.quantifier == "every"
    assert F(25, 100) <= value(found.given_up, "solids") < F(35, 100)


def test_the_end_that_the_text_before_does_not_state_is_named() -> None:
    told = amended(SOLIDS.format(RANGE), SOLIDS.format(INNER)).uncarried
    assert [u.words for u in told if u.sort == "number"] == ["35 %"]
    told = amended(SOLIDS.format(RANGE), SOLIDS.format("between 36 and 60 %")).uncarried
    assert not [u for u in told if u.sort == "number"]


# EPO Case Law 2019 II.E.1.5.1 (read; T 2/81, T 1170/02): a general range with a preferred one; an end of the
# preferred one may be joined with a general end, two lower ends that leave out the preferred range are
# another matter. The numbers are ours. What is told is the relation and the values.


def test_ends_of_a_preferred_range_before_are_carried_and_others_are_not() -> None:
    before = (
        SOLIDS.format(RANGE)
        + """
description
  preferred range  : 30 % <= solids <= 40 %  "paragraph 5"
"""
    )
    joined = amended(before, SOLIDS.format("40 to 60 %"))
    assert joined.changes[0].relation == "narrowed"
    assert not [u for u in joined.uncarried if u.sort == "number"]
    apart = amended(before, SOLIDS.format("32 to 60 %"))
    assert apart.changes[0].relation == "narrowed"
    assert [u.words for u in apart.uncarried if u.sort == "number"] == ["32 %"]


# MPEP 2173.05(c) I (read): a circuit of 70 to 150 ohm, and one of 70 to 100 ohm, the narrower one.

RESISTOR = """
resistance  resistance in ohm

1. A circuit, the resistance being {0}.
   | resistance : {0}
"""


def test_what_the_narrower_of_two_ranges_gives_up() -> None:
    found = change(RESISTOR.format("70 to 150 ohm"), RESISTOR.format("70 to 100 ohm"))
    assert found.relation == "narrowed"
    assert F(100) < value(found.given_up, "resistance") <= F(150)
    back = change(RESISTOR.format("70 to 100 ohm"), RESISTOR.format("70 to 150 ohm"))
    assert back.relation == "widened"


# An EPO board on Art. 123(3), as summarised in the literature (read (secondary), number not shown): in an
# open composition a class capped at an amount is limited to one member; the other members are then free.

CAPPED = """
oil     share in wt%
wax     share in wt%

1. A polish comprising {}.
   | {}
   | not restated : at most 10 wt%
"""


def test_a_capped_class_limited_to_one_member_lets_in_more_of_the_others() -> None:
    before = CAPPED.format("oil and wax together at most 10 wt%", "oil + wax <= 10 wt%")
    after = CAPPED.format("oil at most 10 wt%", "oil <= 10 wt%")
    found = change(before, after)
    assert found.relation == "widened"
    assert found.everywhere
    assert value(found.gained, "oil") <= F(10, 100)
    assert value(found.gained, "oil") + value(found.gained, "wax") > F(10, 100)
