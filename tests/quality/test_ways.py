"""Every way in which a listed case is lost or let in, on sheets small enough to count them by hand."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_all
from scopecheck.core.formula import Add, Any, Compare, Const, Formula, Magnitude, Measured, Parameter, Read
from scopecheck.core.model import Sheet
from tests import sheets
from tests.build import case, claim, compare, count, group, limitation, parameter, point, sheet

COUNTED = [count(name, "0", "9") for name in ("width", "depth", "length")]


def either(index: int, name: str, base: str, other: str) -> Read:
    """A phrase that asks for at least the one number as presumed, and for the other where it is re-read."""
    return Read(index, (compare(name, ">=", base), compare(name, ">=", other)))


def told(asked: Sheet, question: str) -> list[tuple[set[int], set[tuple[int, int]], bool]]:
    """Of each finding the groups it re-reads, the further readings that do the same, and if more is left."""
    return [
        ({r.group for r in f.rereads}, set(f.others), f.more)
        for f in ask_all(asked).findings
        if f.question == question
    ]


def outside(*formulas: Formula) -> Sheet:
    """One claim of these limitations, and a thing that must stay out: all its numbers are 4."""
    made = claim(1, *(limitation(f"1{'abcd'[i]}", f) for i, f in enumerate(formulas)))
    groups = [group(i, "so", "or so?") for i in range(3)]
    bar = case("bar", "outside", point(COUNTED, width=4, depth=4, length=4))
    return sheet(COUNTED, [made], groups, [bar])


def test_sets_that_share_a_phrase_are_each_told() -> None:
    """The width must be re-read, and with it the depth or the length."""
    wide = either(0, "width", "5", "4")
    deep_or_long = Any((either(1, "depth", "5", "4"), either(2, "length", "5", "4")))
    found = told(outside(wide, deep_or_long), "outside met")
    assert found == [({0, 2}, set(), False), ({0, 1}, set(), False)]


def test_each_phrase_alone_is_told_once() -> None:
    """Any of the three lets the bar in by itself, so no set of them is told."""
    one_of = Any(tuple(either(i, n, "5", "4") for i, n in enumerate(("width", "depth", "length"))))
    assert told(outside(one_of), "outside met") == [({g}, set(), False) for g in (2, 1, 0)]


def test_readings_of_one_phrase_that_do_the_same_are_told_together() -> None:
    thrice = Read(0, (compare("width", ">=", "5"), compare("width", ">=", "4"), compare("width", ">=", "3")))
    made = claim(1, limitation("1a", thrice))
    bar = case("bar", "outside", point(COUNTED, width=4, depth=4, length=4))
    asked = sheet(COUNTED, [made], [group(0, "so", "or so?", "or even so?")], [bar])
    assert told(asked, "outside met") == [({0}, {(0, 2)}, False)]


def lost(asked: Sheet) -> list[tuple[int, str]]:
    found: list[Finding] = [f for f in ask_all(asked).findings if f.question == "inside lost"]
    return [(f.claim, f.quantifier) for f in found]


def test_what_a_parent_keeps_out_is_not_counted_at_its_dependent() -> None:
    """Of bars up to 9 wide the parent keeps those up to 5, and these the dependent too, unless re-read."""
    parent = claim(1, limitation("1a", compare("width", "<=", "5")))
    narrow = Read(0, (compare("width", "<=", "7"), compare("width", "<=", "4")))
    dependent = claim(2, limitation("2a", narrow), parents=(1,))
    bars = case("bars", "inside", compare("width", "<=", "9"), targets=("2",))
    asked = sheet(COUNTED, [parent, dependent], [group(0, "so", "or so?")], [bars])
    assert lost(asked) == [(1, "every"), (2, "some")]


def test_a_thing_that_is_lost_already_is_told_what_else_would_lose_it() -> None:
    """A bar of width 4 is too narrow as presumed; its depth of 4 is lost where the depth is re-read."""
    narrow = limitation("1a", compare("width", ">=", "5"))
    deep = limitation("1b", either(0, "depth", "4", "5"))
    bar = case("bar", "inside", point(COUNTED, width=4, depth=4, length=4))
    asked = sheet(COUNTED, [claim(1, narrow, deep)], [group(0, "so", "or so?")], [bar])
    found = [f for f in ask_all(asked).findings if f.question == "inside lost"]
    assert [(f.quantifier, f.failing) for f in found] == [("every", ("1a",)), ("some", ("1b",))]


def test_a_stretch_that_fits_all_cases_is_told_between_its_ends() -> None:
    """About 5: a bar 6 wide must be met and one 7 wide must not, so from 1 up to, but not with, 2."""
    about = Compare("<=", Magnitude(Add((Measured("width"), Const(Fraction(-5))))), Parameter("p"))
    bars = [
        case("near", "inside", point(COUNTED, width=6, depth=0, length=0)),
        case("far", "outside", point(COUNTED, width=7, depth=0, length=0)),
    ]
    made = claim(1, limitation("1a", Read(0, (about,))))
    asked = sheet(COUNTED, [made], [group(0, "so")], bars, parameters=[parameter("p", 0, 0)])
    (found,) = [f for f in ask_all(asked).findings if f.question == "one reading fits all cases"]
    ends = [(b.end.value, b.end.closed, b.upward) for r in found.rereads for b in r.breaks]
    assert ends == [(1, True, True), (2, False, False)]


def test_the_stretch_told_is_that_of_the_thing_shown() -> None:
    """About 5: 6 is met once it stretches by 1, whatever may be met before."""
    about = Compare("<=", Magnitude(Add((Measured("width"), Const(Fraction(-5))))), Parameter("p"))
    made = claim(1, limitation("1a", Read(0, (about,))))
    asked = sheet(COUNTED, [made], [group(0, "so")], parameters=[parameter("p", 0, 0)])
    (found,) = [f for f in ask_all(asked, details=True).findings if f.question == "contested"]
    assert found.witness is not None
    (point_told,) = [b for r in found.rereads for b in r.breaks]
    assert point_told.end.value == abs(found.witness.article["width"] - 5)


BEAM = """width  length in mm

phrase "near (L)"
  reading "to the number" presumed : x <= L
  reading "well beyond it" : x <= 1.5 * L

term "span"
  reading "all of it" presumed : width
  reading "half of it" : width / 2
  reading "a third of it" : width / 3

1. A beam with a span of near 10 mm.
   | span : near 10 mm

must stay out   width
  long beam     30 mm
"""


def test_what_a_reading_does_alone_is_not_told_of_two_together() -> None:
    """A third of 30 mm is near 10 mm as presumed; half of it is only where both are re-read."""
    made = sheets.sheet(BEAM)
    labels = [[r.label for r in g.readings] for g in made.groups]
    third = {(g, names.index("a third of it")) for g, names in enumerate(labels) if "a third of it" in names}
    ways = told(made, "outside met")
    assert sorted(len(groups) for groups, _, _ in ways) == [1, 2]
    assert all(third.isdisjoint(others) for groups, others, _ in ways if len(groups) == 2)
