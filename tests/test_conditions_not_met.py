"""Limits on a condition that nothing in their claim fulfils."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from scopecheck.answers.about import NotThere
from scopecheck.answers.findings import Finding, lines_of
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.conditions import conditions_not_met
from scopecheck.core.construction import base_construction
from scopecheck.core.formula import Chosen, Compare, Const, Formula, Measured
from scopecheck.core.model import Sheet
from scopecheck.report.items import statement
from scopecheck.report.wording import GLUE
from scopecheck.solving.clock import SECOND
from scopecheck.solving.constraints import Budget
from scopecheck.solving.evaluate import meets
from tests.sheets import sheet

DECLARED = """
thick   length in mm, > 0
load    force in N
heat    temperature in °C
sort    one of only soft, hard
cells   count
pot     part, 0 to 3
  edge  one of sharp, round
"""
QUESTION = "condition not met"


def made(*claims: tuple[str, tuple[str, ...]], after: str = "") -> Sheet:
    """Claims by how they begin, with their lines; the words of each are the claim's own."""
    told = ""
    for number, (opening, lines) in enumerate(claims, 1):
        words = "; ".join(line.split(" : ")[-1] for line in lines)
        told += f"{number}. {opening}, wherein {words}.\n" + "".join(f"   | {line}\n" for line in lines)
    return sheet(f"{DECLARED}\n{told}{after}")


def found(about: Sheet) -> list[Finding]:
    return [f for f in ask_all(about).findings if f.question == QUESTION]


def names_of(finding: Finding) -> tuple[str, ...]:
    assert isinstance(finding.about, NotThere)
    return finding.about.names


def brief(about: Sheet) -> list[tuple[str, str, tuple[str, ...], str]]:
    return [(f.label, "|".join(names_of(f)), lines_of(f), f.quantifier) for f in found(about)]


PAD = ("A pad", ("thick : at most 1.2 mm", "heat : below 40 °C"))
DEPENDENT = "The pad of claim 1"


def test_a_limit_that_keeps_out_all_that_fulfils_its_condition() -> None:
    about = made(PAD, (DEPENDENT, ("thick, sort : 2 to 4 mm if the pad is soft",)))
    (finding,) = found(about)
    assert (finding.label, names_of(finding), lines_of(finding)) == ("2a", ("sort",), ("1a", "2a"))
    told = statement(about, finding).replace(GLUE, " ")
    assert told.startswith("Sets a limit on a condition (on sort) that nothing in claim 2 fulfils: 1a")
    assert told.endswith("rule it out.")


@pytest.mark.parametrize("pad", ["at most 5 mm", "at most 5.1 mm"])
def test_a_condition_that_only_a_wider_reading_fulfils(pad: str) -> None:
    """What fulfils it on a stretch of its words clears it; it was looked for again and again before."""
    lines = (f"thick : {pad}", "sort, thick : the pad is soft when the thickness is about 5.4 mm")
    about = made(("A pad", lines))
    prepared = prepare(about, Budget(wall=20))
    ((instance,),) = prepared.instances.values()
    assert [f.quantifier for f in conditions_not_met(prepared, instance)] == ["base"]
    assert prepared.session.clock.left > 10 * SECOND


def test_one_of_two_conditions_of_a_line() -> None:
    words = "at least 5 if the thickness is above 2 mm, and otherwise at least 4"
    assert brief(made(PAD, (DEPENDENT, (f"cells, thick : {words}",)))) == [("2a", "thick", ("1a",), "every")]


def test_what_another_finding_tells_is_not_told_again() -> None:
    alone = made(PAD, (DEPENDENT, ("load, heat : at least 3 N when the temperature is above 60 °C",)))
    assert [f.claim for f in ask_all(alone).findings if f.question == "adds nothing"] == [2]
    assert brief(alone) == []
    idle = made(
        ("A pad", ("heat : below 40 °C", "load, heat : at least 3 N if the temperature is above 60 °C"))
    )
    assert "idle" in {f.question for f in ask_all(idle).findings}
    assert brief(idle) == []


def test_a_condition_that_something_fulfils() -> None:
    about = made(PAD, (DEPENDENT, ("thick, sort : at least 1 mm if the pad is soft",)))
    assert brief(about) == []
    listed = made(
        PAD,
        (DEPENDENT, ("load, sort : at least 3 N if it is soft",)),
        after="\ninside\n  first : thick = 1 mm, heat = 20 °C, sort = soft, load = 4 N\n",
    )
    assert brief(listed) == []


def test_that_a_part_is_there_is_no_condition() -> None:
    about = made(("A pad", ("pots = 0", "EVERY pot (edge = sharp)")))
    prepared = prepare(about)
    assert [f for i in prepared.all_instances() for f in conditions_not_met(prepared, i)] == []


def test_by_way_of_one_parent_and_on_the_presumed_reading_only() -> None:
    about = made(
        PAD,
        ("A pad", ("thick : at least 0.5 mm",)),
        ("The pad of claim 1 or 2", ("thick, sort : 2 to 4 mm if the pad is soft",)),
    )
    (finding,) = found(about)
    assert (finding.ways, lines_of(finding)) == (((1,),), ("1a", "3a"))
    assert "where it depends on claim 1" in statement(about, finding).replace(GLUE, " ")
    rounded = made(PAD, (DEPENDENT, ("thick, sort : more than 1.2 mm if the pad is soft",)))
    (finding,) = found(rounded)
    assert finding.quantifier == "base"


def test_against_every_thing() -> None:
    """Of each condition, whether something fulfils it, by a grid that has every number of the lines in it."""
    lines = (
        ("load, sort : at least 3 N if it is hard", Chosen("sort", "hard")),
        ("thick, sort : 2 to 4 mm if it is soft", Chosen("sort", "soft")),
        ("load, thick : at least 3 N if the thickness is above 1 mm", _above("thick", Fraction(1, 1000))),
        ("thick, load : at least 2 mm if the load is above 5 N", _above("load", Fraction(5))),
    )
    about = made(PAD, (DEPENDENT, tuple(line for line, _ in lines)))
    base = base_construction(about)
    thicknesses = [Fraction(n, 10_000) for n in range(5, 50)]
    grid = product(thicknesses, map(Fraction, range(8)), ("soft", "hard"))
    things = [{"thick": t, "load": w, "sort": s, "heat": Fraction(293)} for t, w, s in grid]
    scope = [x.formula for claim in about.claims for x in claim.limitations]
    within = [thing for thing in things if all(meets(f, thing, base) for f in scope)]
    assert within
    expected = [
        f"2{letter}"
        for letter, (_, condition) in zip("abcd", lines, strict=True)
        if not any(meets(condition, thing, base) for thing in within)
    ]
    assert expected == ["2b", "2d"]
    assert [f.label for f in found(about)] == expected


def _above(name: str, value: Fraction) -> Formula:
    return Compare(">", Measured(name), Const(value))


def test_of_a_claim_that_nothing_meets_no_end_is_told_to_ask_for_nothing() -> None:
    about = made(
        ("A pad", ("thick : 1 mm to 2 mm",)),
        (DEPENDENT, ("thick : greater than 2 mm and up to 3 mm",)),
    )
    told = [(f.question, f.quantifier) for f in ask_all(about).findings if f.claim == 2 and f.stakes == 4]
    assert told == [("dependent cannot be met", "base")]
    reached = made(
        ("A pad", ("thick : 1 mm to 2 mm",)),
        (DEPENDENT, ("thick : at least 1.5 mm and up to 3 mm",)),
    )
    ends = [f.question for f in ask_all(reached).findings if f.claim == 2 and f.stakes == 4]
    assert ends == ["end not reached"]
