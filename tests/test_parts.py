"""Like parts in a sheet: what is read, what is told of mistakes, and how a thing with parts is shown."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.formula import Article
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from tests.sheets import sheet
from tests.test_pages import page

TRAY = """
hole        part, 1 to 4
  diameter  length in mm
  edge      one of only sharp, round
{declared}

1. A tray with at least two holes, the holes having a diameter of between 2 and 4 mm.
   | {line}

{cases}
"""


def tray(line: str = "holes : at least two holes", cases: str = "", declared: str = "") -> str:
    return TRAY.format(line=line, cases=cases, declared=declared)


@pytest.mark.parametrize(
    ("text", "message", "help"),
    [
        (
            tray("diameter >= 2 mm"),
            "'diameter': of which hole?",
            "write EVERY hole (diameter ...), SOME hole (...), SUM or MEAN hole (diameter), or ",
        ),
        (tray("hole diameter >= 2 mm"), "'hole diameter': of which hole?", "of hole 1 for the first"),
        (tray("EVERY hold (diameter >= 2 mm)"), "no part is declared as 'hold'", "did you mean 'hole'?"),
        (tray("MEAN hole (diameter) = 3 mm, holes"), "'holes' alone is not a condition", ""),
        (tray("EVERY hole (diameter) >= 2 mm"), "EVERY", ""),
        (tray(declared="slot  part"), "a part without how many there may be", "write part, 1 to 12"),
        (tray(declared="slot  part, 2"), "exactly 2 parts, or up to 2?", "write part, exactly 2, or part,"),
        (tray("hole >= 2"), "'hole' is a part; alone it has no value", "how many there are: holes; what one"),
        (tray(declared="slot  4 parts"), "exactly 4 parts, or up to 4?", "part, exactly 4"),
        (tray(declared="slot parts 3\n  width  length in mm"), "exactly 3 parts, or up to 3?", ""),
        (tray(declared="slot part 1 to 3"), "a part without a comma behind the word", "write part, 1 to 3"),
        (tray(declared="slot  part, 5 to 2"), "from 5 to 2 parts", ""),
        (tray(declared="slot  part, up to 900"), "from 0 to 900 parts", ""),
        (tray(declared="hole  part, up to 3"), "'hole' is declared twice", ""),
        (
            tray(declared="slot  part, up to 3\n  width  length in mm\n  width  length in mm"),
            "'width' is declared twice",
            "",
        ),
        (tray("diameter of hole 9 >= 2 mm"), "hole 9 of up to 4", "write hole  part, up to 9"),
    ],
)
def test_mistakes_are_told(text: str, message: str, help: str) -> None:
    made, found = read_sheet(Source("test", text))
    assert made is None
    assert any(message in d.message and help in d.help for d in found), [(d.message, d.help) for d in found]


def test_a_limit_in_words_may_be_on_each_on_the_mean_on_most_or_on_some() -> None:
    """5 mm is too wide for one hole; the mean of 3, 3 and 5 mm is not, and two of three are within."""
    coarse = "must stay out\n  coarse : holes = 3, " + ", ".join(
        f"diameter of hole {i} = {d} mm" for i, d in ((1, 3), (2, 3), (3, 5))
    )
    asked = ask_all(sheet(tray("diameter of the holes : between 2 and 4 mm", coarse)))
    (found,) = [f for f in asked.findings if f.question == "outside met"]
    group = next(g for g in asked.groups if "every one of them" in {r.label for r in g.readings})
    (taken,) = {r.reading for r in (*found.rereads, *found.read_as) if r.group == group.index}
    same = {r for g, r in found.others if g == group.index} | {taken}
    assert {group.readings[r].label for r in same} == {"their mean", "most of them", "at least one of them"}


def test_parts_that_are_not_there_are_not_shown() -> None:
    case = "inside\n  sample : holes = 2, diameter of hole 1 = 2 mm, diameter of hole 2 = 5 mm"
    asked = ask_all(sheet(tray("EVERY hole (diameter <= 4 mm)", case)))
    (found,) = [f for f in asked.findings if f.question == "inside lost"]
    assert found.quantifier == "every"
    assert found.thing.grade == "listed"
    assert not [n for n in found.thing.names if n.endswith(("hole 3", "hole 4"))]
    assert found.witness is not None
    assert found.witness.article["diameter of hole 2"] == Fraction(5, 1000)


@pytest.mark.parametrize("word", ["MEAN", "MEDIAN", "LEAST"])
def test_the_mean_and_the_median_of_no_parts_have_no_value(word: str) -> None:
    text = tray(f"{word} peg (height) <= 4 mm", declared="peg  part, up to 2\n  height  length in mm")
    (found,) = [f for f in ask_all(sheet(text)).findings if f.question == "undefined"]
    assert found.witness is not None
    assert found.witness.article["pegs"] == 0


@pytest.mark.parametrize(("mean", "possible"), [(3, True), (2, False)])
def test_a_median_of_forty_that_lies_above_their_mean(mean: int, possible: bool) -> None:
    """Of 2k + 1 values from 1 mm on whose median is m, k + 1 are m or more: their mean is over (m + 1) / 2.

    Of an even number the two middle ones come to 2m together, and those above are no less than the upper
    one, so the mean is over it too. With a median of 4 mm a mean of 3 mm can be; with 5 mm none of 2 mm.
    """
    line = f"MEDIAN hole (diameter) >= {4 if possible else 5} mm AND MEAN hole (diameter) <= {mean} mm"
    made = sheet(
        "hole  part, 20 to 40\n  diameter  length in mm\n\n"
        f"1. A tray.\n   | EVERY hole (1 mm <= diameter <= 9 mm)\n   | {line}\n"
    )
    session = Session(made)
    limits = (session.met(x.formula) for x in made.claims[0].limitations)
    assert session.search(()).holds(*limits) is possible


def test_a_reading_on_all_together_does_not_repeat_the_noun() -> None:
    text = "cavity  part, 1 to 4\n  depth  length in mm\n\n1. Each cavity having a depth of 3 to 5 mm."
    made = sheet(text + "\n   | depth of the cavities : each cavity having a depth of 3 to 5 mm\n")
    told = {r.label: r.plain for group in made.groups for r in group.readings}
    assert told["together"] == "total depth of the cavities 3 to 5 mm"


@pytest.mark.parametrize(
    ("quantity", "limit", "adds_up"),
    [
        ("force in N", "40 N", True),
        ("mass in g", "5 g", True),
        ("power in W", "5 W", True),
        ("in L/min", "5 L/min", True),
        ("length in mm", "5 mm", False),
        ("angle in deg", "5 deg", False),
        ("pressure in bar", "5 bar", False),
        ("temperature in degC", "5 degC", False),
        ("in mg/L", "5 mg/L", False),
        ("share in wt%", "5 wt%", False),
        ("time in s", "5 s", False),
    ],
)
def test_a_limit_on_what_adds_up_may_be_on_their_total(quantity: str, limit: str, adds_up: bool) -> None:
    """Mass, volume, amount and energy are extensive (IUPAC Green Book, section 1.4, from memory); that
    forces, powers, currents and flows side by side add up: common practice, no source."""
    text = f"spring  part, up to 3\n  load  {quantity}\n\n1. Springs exerting at least {limit}."
    made = sheet(text + f"\n   | load of the springs : at least {limit}\n")
    readings = {r.label: r for g in made.groups for r in g.readings}
    assert "every one of them" in readings
    assert ("together" in readings) is adds_up
    if adds_up:
        assert readings["together"].standing == "arguable"
        assert readings["together"].plain == f"total load of the springs at least {limit}"
        assert readings["every one of them"].standing == "presumed"


def test_a_policy_may_take_them_together() -> None:
    text = "spring  part, up to 2\n  load  force in N\n\n1. Springs exerting at least 40 N.\n"
    text += "   | load of the springs : at least 40 N\n\npolicy  plural limits is together\n"
    made = sheet(text)
    assert "together" in {r.label for g in made.groups for r in g.readings}
    assert "every one of them" not in {r.label for g in made.groups for r in g.readings}


@pytest.mark.parametrize(
    ("words", "presumed"),
    [
        ("two", {"at least that many"}),
        ("the number of the springs is two", {"exactly that many"}),
        ("number of springs being two", {"exactly that many"}),
        ("the number of the springs equals two", {"exact"}),
        ("the number of the springs is equal to two", {"exact"}),
    ],
)
def test_a_number_said_of_the_number_itself_is_that_number(words: str, presumed: set[str]) -> None:
    """Common practice, no source; 'equals' is read so by its own phrase."""
    text = f"spring  part, up to 6\n\n1. A latch, wherein {words}.\n   | springs : {words}\n"
    readings = [r for g in sheet(text).groups for r in g.readings]
    assert {r.label for r in readings if r.standing == "presumed"} == presumed


@pytest.mark.parametrize(
    ("words", "so_many"),
    [
        ("at least one of the holes having a diameter of at least 2 mm", {1, 2, 3}),
        ("at least one hole has a diameter of at least 2 mm", {1, 2, 3}),
        ("one or more holes having a diameter of at least 2 mm", {1, 2, 3}),
        ("at least two holes having a diameter of at least 2 mm", {2, 3}),
        ("two of the holes have a diameter of at least 2 mm", {2, 3}),
        ("at least half of the holes have a diameter of at least 2 mm", {2, 3}),
        ("at least 60 % of the holes have a diameter of at least 2 mm", {2, 3}),
        ("not less than 67 % by number of the holes have a diameter of at least 2 mm", {3}),
        ("more than 30 % of the holes having a diameter of at least 2 mm", {1, 2, 3}),
        ("at most 34 % of the holes have a diameter of at least 2 mm", {0, 1}),
        ("less than 67 % by number of the holes have a diameter of at least 2 mm", {0, 1, 2}),
        ("none of the holes has a diameter of at least 2 mm", {0}),
        ("no hole having a diameter of at least 2 mm", {0}),
        ("each of the holes has a diameter of at least 2 mm", {3}),
        ("each hole defining a diameter of at least 2 mm", {3}),
        ("the holes each have a diameter of at least 2 mm", {3}),
    ],
)
def test_words_may_say_how_many_of_the_parts_are_so(words: str, so_many: set[int]) -> None:
    made = sheet(
        f"hole  part, 1 to 3\n  diameter  length in mm\n\n1. A tray, {words}.\n   | hole diameter : {words}\n"
    )
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for wide in range(4):
        sizes = {f"diameter of hole {i}": Fraction(3 if i <= wide else 1, 1000) for i in (1, 2, 3)}
        thing: Article = {made.parts[0].count: Fraction(3), **sizes}
        assert evaluate(formula, thing, k) is (wide in so_many), wide


def test_said_part_behind_a_number_is_not_so_many_of_them() -> None:
    words = "at least 1 for the feed, said processor further having at least 1"
    said = sheet(f"""processor  part, 1 to 4
  feeds   number
  drains  number

1. A system comprising a processor with {words}.
   | feeds of the processors, drains of the processors : at least 1 ... said processor further
   |   having at least 1
""")
    assert {r.label for g in said.groups for r in g.readings} >= {"one and the same"}


def test_the_number_of_the_parts_is_no_number_to_compare_it_with() -> None:
    words = "holes each having a diameter of at least 2 mm"
    made = sheet(
        f"hole  part, 1 to 3\n  diameter  length in mm\n\n1. A tray, {words}.\n   | hole diameter : {words}\n"
    )
    assert not any("holes >= holes" in r.plain for g in made.groups for r in g.readings)


SCREENS = """screen  part, up to 5
  aperture  length in mm

1. A machine comprising {0}, each screen having an aperture of 4 to 12 mm.
   | screens : {0}
   | aperture of the screens : each screen having an aperture of 4 to 12 mm

2. The machine of claim 1, comprising {1}.
   | screens : {1}

must stay out for 1
  coarse : screens = 3, aperture of screen 1 = 15 mm, aperture of screen 2 = 9 mm, aperture of screen 3 = 6 mm
"""
OTHERS_MAY_DIFFER = "every recited one; others may differ"


def _read_so(made: Sheet) -> list[Construction]:
    base = base_construction(made)
    return [
        base.with_reading(g.index, i)
        for g in made.groups
        for i, r in enumerate(g.readings)
        if r.label == OTHERS_MAY_DIFFER
    ]


@pytest.mark.parametrize(
    ("said", "fits"),
    [
        ("a plurality of screens", True),
        ("at least two screens", True),
        ("no fewer than two screens", True),
        ("more than two screens", False),
    ],
)
def test_of_so_many_recited_parts_others_may_differ(said: str, fits: bool) -> None:
    """By analogy: extra elements in an open claim, MPEP 2111.03 I."""
    made = sheet(SCREENS.format(said, "at most four screens"))
    (so_read,) = _read_so(made)
    formula = made.claims[0].limitations[1].formula
    case = {
        f"aperture of screen {i}": Fraction(mm, 1000) for i, mm in ((1, 15), (2, 10), (3, 6), (4, 1), (5, 1))
    }
    thing: Article = {made.parts[0].count: Fraction(3), **case}
    assert evaluate(formula, thing, so_read) is fits


@pytest.mark.parametrize(
    "said", ["three or fewer screens", "divisible by 3", "not more than three", "fewer than 3"]
)
def test_what_is_no_least_number_of_parts_recites_none(said: str) -> None:
    assert not _read_so(sheet(SCREENS.format(said, "at most four screens")))


def test_how_many_are_recited_is_not_guessed() -> None:
    assert not _read_so(sheet(SCREENS.format("at most four screens", "at most three screens")))
    assert not _read_so(sheet(SCREENS.format("a plurality of screens", "at least three screens")))
    told = page(SCREENS.format("a plurality of screens", "at least three screens"))
    assert f'(not tried for 1b: "{OTHERS_MAY_DIFFER}"' in told
    assert "Met by coarse as listed" in page(SCREENS.format("a plurality of screens", "at most four screens"))


def test_how_many_are_recited_holds_on_each_way_that_a_claim_may_depend() -> None:
    text = """vane  part, up to 8
  thickness  length in mm

1. A duct comprising at least two vanes.
   | vanes : at least two vanes
2. The duct of claim 1, comprising at least six vanes.
   | vanes : at least six vanes
3. The duct of claim {0}, each vane having a thickness of at most 2 mm.
   | thickness of the vanes : each vane having a thickness of at most 2 mm
"""
    for way, asked in (("2", 6), ("1", 0), ("1 or 2", 0)):
        made = sheet(text.format(way))
        formula = made.claims[2].limitations[0].formula
        assert len(_read_so(made)) == (1 if asked else 0)
        for k in _read_so(made):
            for fit, there, met in ((6, 7, True), (5, 7, False), (4, 4, True), (3, 4, False)):
                sizes = {f"thickness of vane {i}": Fraction(1 if i <= fit else 3, 1000) for i in range(1, 9)}
                thing: Article = {made.parts[0].count: Fraction(there), **sizes}
                assert evaluate(formula, thing, k) is met


OWN_OF_PARTS = """phrase "well spread over (difference D)"
  only for parts
{asked}  reading "so long from the first to the last" : parts >= 2, spread >= D
dose  part, up to 4
  {name}  {kind}

1. A course of doses well spread over {number}.
   | {name} of the doses : well spread over {number}
"""


@pytest.mark.parametrize(
    ("asked", "read"),
    [
        ("", {"moment", "duration", "height", "position"}),
        ("  each has a moment\n", {"moment"}),
        ("  each has a place or moment\n", {"moment", "duration", "position"}),
    ],
)
def test_a_phrase_on_parts_may_ask_for_their_moments_or_places(asked: str, read: set[str]) -> None:
    found = {
        "moment": "time in h",
        "duration": "time in h",
        "height": "length in m",
        "position": "length in m",
    }
    for name, kind in found.items():
        text = OWN_OF_PARTS.format(asked=asked, name=name, kind=kind, number=f"8 {kind.split()[-1]}")
        made, told = read_sheet(Source("doses", text))
        assert (made is not None and not told) is (name in read), (name, told)
