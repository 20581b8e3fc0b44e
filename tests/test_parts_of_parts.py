"""Parts of parts, one level down: declared, counted, spoken of, in cases; several kinds in one sheet."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from statistics import mean, median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scopecheck.answers.questions import ask_all
from scopecheck.core.construction import Construction
from scopecheck.core.formula import Article, Formula, Value
from scopecheck.core.model import Sheet
from scopecheck.report.frame import basis_lines
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from tests.sheets import errors, sheet

RACK = """
tray           part, 0 to 2
  rim          length in mm, <= 9 mm
  slot         part, 0 to 2
    depth      length in mm, <= 9 mm
lid            part, up to 2
  rim          length in mm

1. A rack with trays.
{lines}
{more}
"""


def rack(*lines: str, more: str = "") -> str:
    return RACK.format(lines="\n".join(f"   | {line}" for line in lines), more=more)


def formula(line: str) -> Formula:
    return sheet(rack(line)).claims[0].limitations[0].formula


def article(depths: list[list[int]]) -> Article:
    """A rack of trays, each with slots of these depths; what is not there is 7 mm."""
    values: dict[str, Value] = {"trays": Fraction(len(depths)), "lids": Fraction(0)}
    for i in (1, 2):
        of_tray = depths[i - 1] if i <= len(depths) else [7]
        values |= {f"rim of tray {i}": Fraction(7, 1000), f"rim of lid {i}": Fraction(7, 1000)}
        values[f"slots of tray {i}"] = Fraction(len(of_tray))
        for j in (1, 2):
            depth = of_tray[j - 1] if j <= len(of_tray) else 7
            values[f"depth of slot {j} of tray {i}"] = Fraction(depth, 1000)
    return values


racks = st.lists(st.lists(st.integers(0, 4), max_size=2), max_size=2)


def rising(values: list[int]) -> bool:
    return all(a < b for a, b in pairwise(values))


@given(racks)
@settings(max_examples=200)
def test_formulas_over_slots_of_trays_say_what_they_say_of_lists_of_lists(depths: list[list[int]]) -> None:
    every = [d for tray in depths for d in tray]
    thing = article(depths)
    expected = {
        "EVERY tray (EVERY slot (depth <= 2 mm))": all(d <= 2 for d in every),
        "SOME tray (EVERY slot (depth <= 2 mm))": any(all(d <= 2 for d in tray) for tray in depths),
        "EVERY tray (SOME slot (depth <= 2 mm))": all(any(d <= 2 for d in tray) for tray in depths),
        "COUNT tray (slots = 2) = 1": sum(len(tray) == 2 for tray in depths) == 1,
        "COUNT slot (depth > 1 mm) >= 2": sum(d > 1 for d in every) >= 2,
        "SUM slot (depth) <= 5 mm": sum(every) <= 5,
        "SUM tray (SUM slot (depth)) <= 5 mm": sum(every) <= 5,
        "SUM tray (slots) = 3": len(every) == 3,
        "EVERY tray (RISING slot (depth))": all(rising(tray) for tray in depths),
        "DIFFERENT slot (depth)": len(set(every)) == len(every),
        "MEDIAN slot (depth) = 2 mm": median(every) == 2 if every else None,
        "MEAN slot (depth) >= 2 mm": mean(map(Fraction, every)) >= 2 if every else None,
        "GREATEST slot (depth) = 3 mm": max(every) == 3 if every else None,
        "depth of slot 2 of tray 1 >= 2 mm": depths[0][1] >= 2 if depths and len(depths[0]) == 2 else None,
        "slots of tray 2 >= 1": len(depths[1]) >= 1 if len(depths) == 2 else None,
    }
    for line, answer in expected.items():
        assert evaluate(FORMULAS[line], thing, Construction(())) is answer, line


LINES = (
    "EVERY tray (EVERY slot (depth <= 2 mm))", "SOME tray (EVERY slot (depth <= 2 mm))",
    "EVERY tray (SOME slot (depth <= 2 mm))", "COUNT tray (slots = 2) = 1", "COUNT slot (depth > 1 mm) >= 2",
    "SUM slot (depth) <= 5 mm", "SUM tray (SUM slot (depth)) <= 5 mm", "SUM tray (slots) = 3",
    "EVERY tray (RISING slot (depth))", "DIFFERENT slot (depth)", "MEDIAN slot (depth) = 2 mm",
    "MEAN slot (depth) >= 2 mm", "GREATEST slot (depth) = 3 mm", "depth of slot 2 of tray 1 >= 2 mm",
    "slots of tray 2 >= 1",
)  # fmt: skip
FORMULAS = {line: formula(line) for line in LINES}


@pytest.mark.parametrize(
    ("lines", "holds"),
    [
        (("trays = 2", "EVERY tray (slots = 2)", "SUM slot (depth) = 9 mm", "DIFFERENT slot (depth)"), True),
        (("trays = 1", "COUNT slot (depth >= 0 mm) = 3"), False),
        (("MEDIAN slot (depth) > 2 mm", "EVERY tray (EVERY slot (depth <= 2 mm))"), False),
        (("depth of slot 1 of tray 2 = 1 mm", "trays <= 1"), False),
        (("EVERY tray (slots >= 1)", "trays >= 1", "MEAN slot (depth) < LEAST slot (depth)"), False),
    ],
)
def test_searches_over_parts_of_parts(lines: tuple[str, ...], holds: bool) -> None:
    made = sheet(rack(*lines))
    session = Session(made)
    search = session.search(())
    search.require(*(session.met(x.formula) for x in made.claims[0].limitations))
    assert search.holds() is holds


def two_trays() -> Sheet:
    more = """
inside   trays   depth of slots of tray 1   depth of slots of tray 2 in mm
  one    2       2 mm; 3 mm                 4
must stay out
  deep   2       5 mm; 5 mm                 4; 4
"""
    text = rack("depth of the slots : at most 4 mm", more=more)
    return sheet(text.replace("A rack with trays.", "A rack with trays with slots of at most 4 mm."))


def test_a_column_lists_the_slots_of_one_tray_and_words_are_read_of_all() -> None:
    made = two_trays()
    assert {"trays", "slots of tray 1", "slots of tray 2"} <= set(made.cases[0].stated)
    (group,) = [g for g in made.groups if any(r.label == "every one of them" for r in g.readings)]
    assert {"their mean", "at least one of them"} <= {r.label for r in group.readings}
    asked = ask_all(made)
    (found,) = [f for f in asked.findings if f.question == "outside met"]
    taken = {r.reading for r in (*found.rereads, *found.read_as) if r.group == group.index}
    same = {r for g, r in found.others if g == group.index} | taken
    assert "at least one of them" in {group.readings[r].label for r in same}


def test_the_bound_on_the_parts_is_part_of_every_answer() -> None:
    made = two_trays()
    told = " ".join(basis_lines(made, strained=False))
    assert "up to 2 trays" in told
    assert "up to 2 slots in each tray" in told


@pytest.mark.parametrize(
    ("line", "message", "help"),
    [
        ("depth >= 2 mm", "'depth': of which slot?", "depth of slot 1 of tray 1 for the first"),
        ("EVERY tray (depth >= 2 mm)", "'depth': of which slot?", "EVERY slot (depth ...)"),
        ("depth of slot 3 of tray 1 >= 2 mm", "slot 3 of up to 2", "part, up to 3"),
        ("depth of slot 1 of tray 3 >= 2 mm", "tray 3 of up to 2", "part, up to 3"),
        ("EVERY slit (depth >= 2 mm)", "no part is declared as 'slit'", "did you mean 'slot'?"),
    ],
)
def test_mistakes_are_told(line: str, message: str, help: str) -> None:
    found = errors(rack(line))
    assert any(message in d.message and help in d.help for d in found), [(d.message, d.help) for d in found]


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "  slot         part, 0 to 2",
            "  slot         part, 0 to 40",
            "up to 40 slots in each of up to 2 trays",
        ),
        ("    depth      length in mm, <= 9 mm", "    pin  part, up to 3", "parts of parts of parts"),
        ("  rim          length in mm, <= 9 mm", "  slots  length in mm", "'slots' is declared twice"),
        ("lid            part", "slot           part", "'slot' is declared twice"),
    ],
)
def test_wrong_declarations_are_told(old: str, new: str, message: str) -> None:
    found = errors(rack("trays >= 1").replace(old, new, 1))
    assert any(message in d.message for d in found), [d.message for d in found]


def test_a_column_of_all_slots_asks_of_which_tray() -> None:
    found = errors(rack("trays >= 1", more="inside   depth of slots in mm\n  one    2; 3\n"))
    assert any("of which tray?" in d.message and "depth of slots of tray 1" in d.help for d in found)
