"""Why a line with a condition is met: because the condition does not come about."""

from __future__ import annotations

import pytest

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import prepare
from scopecheck.answers.questions.outside import outside_met
from scopecheck.report.margins import margin
from scopecheck.report.wording import GLUE
from tests.sheets import sheet

BENCH = """
salt      concentration in g/L
rinsing   step in min, may be left out
pot       part, 0 to 2
  width   length in mm

1. A method of watering, comprising rinsing if the salt is more than 3 g/L, wherein the pots are
   at most 90 mm wide.
   | rinsing, salt : if the salt is more than 3 g/L
   | EVERY pot (width <= 90 mm)

must stay out
  row : {row}
"""


def notes(row: str) -> list[str]:
    made = sheet(BENCH.format(row=row))
    found = [f for f in outside_met(prepare(made), made.cases[0]) if isinstance(f, Finding)]
    assert found
    told = [text.replace(GLUE, " ") for f in found for _, texts in margin(made, f) for text in texts]
    return [text for text in told if "condition does not" in text]


def test_a_step_is_not_asked_for_where_its_condition_does_not_come_about() -> None:
    """A method need not perform a step whose condition precedent is not met: MPEP 2111.04 II."""
    told = '1a "if the salt is more than 3 g/L" asks for nothing here: its condition does not come about'
    assert notes("salt = 2 g/L, NOT DONE(rinsing), pots = 0") == [f"{told} (salt 2 g/L)."]


def test_a_step_that_is_done_or_asked_for_needs_no_such_reason() -> None:
    assert notes("salt = 4 g/L, DONE(rinsing), pots = 0") == []
    assert notes("salt = 2 g/L, DONE(rinsing), pots = 0") == []


VALVE = "valve  one of open, closed\npressure  pressure in bar\nspeed  number"


@pytest.mark.parametrize(
    ("names", "said", "so_alone"),
    [
        ("valve, pressure", "the valve is open if the pressure is at least 5 bar", ["then and only then"]),
        ("valve, pressure", "upon the pressure exceeding 5 bar, the valve is closed", ["then and only then"]),
        (
            "valve, pressure",
            "the valve is open, provided that the pressure is at least 5 bar",
            ["nowhere else", "then and only then"],
        ),
        ("speed, valve", "the speed is at least 5 if the valve is open", []),
        ("pressure, valve", "the pressure is at least 5 bar, provided that the valve is open", []),
    ],
)
def test_a_state_under_a_condition_may_be_so_there_alone(names: str, said: str, so_alone: list[str]) -> None:
    """A limit may well hold elsewhere too: common practice, no source."""
    read = sheet(f"{VALVE}\n1. A plant, wherein {said}.\n   | {names} : {said}")
    labels = [r.label for g in read.groups for r in g.readings]
    assert [x for x in labels if x in ("nowhere else", "then and only then")] == so_alone
