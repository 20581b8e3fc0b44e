"""Limits that hang on a condition: what is read of which thing, what readings let in, what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.formula import Read
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate

DECLARED = """
bake, rest    time in min
oven          temperature in degC
oven door     temperature in degC
tile, pitch   length in mm
metal         one of copper, zinc
"""


def line(subjects: str, words: str) -> tuple[Sheet | None, list[str]]:
    text = f"{DECLARED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"
    made, told = read_sheet(Source("test", text))
    return made, [f"{d.message} {d.cause} {d.help}" for d in told if d.severity == "error"]


def met(subjects: str, words: str, **values: int) -> dict[str, bool | None]:
    """By reading of the words as a whole, whether a thing meets them, their parts read as presumed."""
    made, told = line(subjects, words)
    assert made is not None, told
    formula = made.claims[0].limitations[0].formula
    assert isinstance(formula, Read)
    thing: dict[str, Fraction | str] = {d.name: Fraction(0) for d in made.declarations} | {"metal": "zinc"}
    for name, value in values.items():
        unit = {"bake": Fraction(60), "oven": Fraction(1)}.get(name, Fraction(1, 1000))
        thing[name] = value * unit + (Fraction(27315, 100) if name == "oven" else 0)
    k = Construction(tuple(g.base for g in made.groups), tuple((p.key, p.presumed) for p in made.parameters))
    labels = [r.label for r in made.groups[formula.group].readings]
    return {label: evaluate(option, thing, k) for label, option in zip(labels, formula.options, strict=True)}


HELD, BOTH = "wherever it holds", "the condition holds, and the limit"


@pytest.mark.parametrize(
    ("bake", "oven", "held", "both"),
    [(30, 120, True, True), (50, 120, False, False), (50, 90, True, False), (30, 90, True, False)],
)
def test_what_a_limit_under_a_condition_lets_in(bake: int, oven: int, held: bool, both: bool) -> None:
    """A conditional is false only where its condition is true and what follows is not (textbooks)."""
    words = "20 to 40 minutes when the oven is above 100 degC"
    assert met("bake, oven", words, bake=bake, oven=oven) == {HELD: held, BOTH: both}


def test_otherwise_has_a_limit_of_its_own() -> None:
    words = "at least 20 minutes if the oven is above 100 degC and at most 5 minutes otherwise"
    assert met("bake, oven", words, bake=30, oven=120) == {"each in its own case": True}
    assert met("bake, oven", words, bake=30, oven=90) == {"each in its own case": False}
    assert met("bake, oven", words, bake=4, oven=90) == {"each in its own case": True}


@pytest.mark.parametrize(
    "subjects", ["tile, pitch", "pitch, tile"], ids=["in the order of the words", "names tell"]
)
def test_the_words_tell_which_is_limited(subjects: str) -> None:
    words = "if the tile is thicker than 2 mm, the pitch is at most 5 mm"
    assert met(subjects, words, tile=3, pitch=6) == {HELD: False, BOTH: False}
    assert met(subjects, words, tile=1, pitch=6) == {HELD: True, BOTH: False}


def test_a_condition_on_several_things() -> None:
    words = "at most 9 minutes when the tile is below 3 mm or the pitch is below 4 mm"
    assert met("bake, tile, pitch", words, bake=10, tile=9, pitch=9)[HELD] is True
    assert met("bake, tile, pitch", words, bake=10, tile=9, pitch=3)[HELD] is False


@pytest.mark.parametrize(
    ("subjects", "words", "told"),
    [
        ("bake", "at most 9 minutes when the oven is above 100 degC", "write: bake, oven : at most 9"),
        ("bake, oven", "at most 9 minutes when the oven door is above 100 degC", "write oven door left of"),
        ("pitch, tile", "if more than 2 mm, at most 5 mm", "nothing tells whether tile or pitch"),
        ("bake, oven", "at most 9 minutes when the oven drop is above 100 degC", "no phrase reads"),
        ("bake, tile, pitch", "at most 9 minutes when below 3 mm and above 1 mm and below 9 mm", ""),
        ("pitch, tile", "2 mm for every 10 mm of the tile", "no phrase reads"),
        ("bake, oven", "at most 9 minutes even when the oven is above 100 degC", "no phrase reads"),
    ],
)
def test_what_the_words_do_not_tell_is_refused(subjects: str, words: str, told: str) -> None:
    made, wrong = line(subjects, words)
    assert made is None
    assert told in wrong[0]


VALVE = """
valve open    one of only yes, no
pressure      pressure in bar
flow          in L/min
"""
SWITCHED = [
    # words, then whether a valve so held at 3, 5 and 7 bar meets them when open, and when shut
    ("opens above 6 bar and closes below 4 bar", "nyy", "yyn"),
    ("when the pressure exceeds 6 bar and closes otherwise", "nny", "yyn"),
    ("the valve is not open when the pressure exceeds 6 bar", "yyn", "yyy"),
    ("unless the pressure exceeds 6 bar", "yyy", "nny"),
]


@pytest.mark.parametrize(("words", "when_open", "when_shut"), SWITCHED)
def test_what_a_switch_does_in_words(words: str, when_open: str, when_shut: str) -> None:
    """Between two thresholds either state is met: of one state of a thing no more can be said."""
    text = f"{VALVE}\n1. A valve, which {words}.\n   | valve open, pressure : {words}\n"
    made, told = read_sheet(Source("test", text))
    assert made is not None, told
    k = Construction(tuple(g.base for g in made.groups), tuple((p.key, p.presumed) for p in made.parameters))
    for state, wanted in (("yes", when_open), ("no", when_shut)):
        for bar, met_then in zip((3, 5, 7), wanted, strict=True):
            thing = {"valve open": state, "pressure": Fraction(bar * 100000), "flow": Fraction(0)}
            found = evaluate(made.claims[0].limitations[0].formula, thing, k)
            assert found is (met_then == "y"), (state, bar)


@pytest.mark.parametrize(
    ("subjects", "words", "told"),
    [
        ("valve open, pressure", "until the pressure reaches 3 bar", "'until' tells of a course in time"),
        ("valve open", "opens when the pressure exceeds 3 bar", "write: valve open, pressure : opens when"),
        ("valve open, pressure", "half open when the pressure exceeds 3 bar", "'half' says how far"),
        ("valve open, pressure", "opens the drain when the pressure exceeds 3 bar", "no phrase reads"),
        ("valve open, pressure", "when the flow exceeds 3 L/min", "write flow left of the colon"),
        ("valve open, pressure", "when the pressure exceeds 3 bar and the flow is below 2 L/min", "flow too"),
    ],
)
def test_what_is_told_of_a_switch_that_is_not_read(subjects: str, words: str, told: str) -> None:
    text = f"{VALVE}\n1. A valve, which {words}.\n   | {subjects} : {words}\n"
    made, wrong = read_sheet(Source("test", text))
    assert made is None
    assert told in f"{wrong[0].message} {wrong[0].help}"


def as_presumed(subjects: str, words: str, **values: Fraction) -> bool | None:
    made, told = line(subjects, words)
    assert made is not None, told
    thing: dict[str, Fraction | str] = {d.name: Fraction(0) for d in made.declarations} | {"metal": "zinc"}
    return evaluate(made.claims[0].limitations[0].formula, thing | values, base_construction(made))


@pytest.mark.parametrize(
    ("tile", "pitch", "is_met"), [(4, 9, True), (4, 11, False), (5, 11, True), (2, 9, False), (2, 11, False)]
)
def test_a_limit_before_one_under_a_condition_holds_in_any_case(tile: int, pitch: int, is_met: bool) -> None:
    words = "at least 3 mm, and at least 5 mm if the pitch exceeds 10 mm"
    values = {"tile": Fraction(tile, 1000), "pitch": Fraction(pitch, 1000)}
    assert as_presumed("tile, pitch", words, **values) is is_met


@pytest.mark.parametrize("words", ["for 20 to 40 min at 100 to 120 °C", "100 to 120 °C for 20 to 40 min"])
def test_how_long_something_is_held_at_a_temperature_is_two_limits(words: str) -> None:
    heat = Fraction(27315, 100)
    for minutes, degrees, is_met in ((30, 110, True), (30, 90, False), (50, 110, False), (50, 90, False)):
        values = {"bake": Fraction(60 * minutes), "oven": heat + degrees}
        assert as_presumed("bake, oven", words, **values) is is_met


def test_what_is_not_to_last_is_no_limit_on_how_long() -> None:
    made, _ = line("oven, bake", "does not exceed 38 °C for more than 10 minutes")
    assert made is None


@pytest.mark.parametrize(
    ("subjects", "words", "holds", "does_not"),
    [
        ("bake, metal", "at most 5 minutes if it is made of zinc", {"bake": 4}, {}),
        ("bake, tile", "at most 5 minutes if it is thicker than 9 mm", {"tile": 9}, {"tile": 10}),
        ("bake, tile", "at most 5 minutes when it exceeds 9 mm", {"tile": 9}, {"tile": 10}),
    ],
)
def test_it_is_what_stands_left_of_the_colon(
    subjects: str, words: str, holds: dict[str, int], does_not: dict[str, int]
) -> None:
    assert met(subjects, words, **{"bake": 6, **holds})[HELD] is True
    assert met(subjects, words, **{"bake": 6, **does_not})[HELD] is False


NOTED = """
cut            one of only yes, no  "the output is disconnected"
poppet lifted  one of only yes, no  "the poppet lifts from the seat"
raised         one of only yes, no  "the down force is raised"
door           one of only yes, no  "the door is open"
fan on         one of only yes, no
speed          number
"""


@pytest.mark.parametrize(
    ("subjects", "words", "holds", "does_not"),
    [
        ("cut, speed", "is disconnected if the speed is above 5", {"cut": "yes"}, {"cut": "no"}),
        ("cut, speed", "is not disconnected if the speed is above 5", {"cut": "no"}, {"cut": "yes"}),
        ("poppet lifted, speed", "lifts from the seat as soon as the speed is above 5",
         {"poppet lifted": "yes"}, {"poppet lifted": "no"}),
        ("raised, speed", "raises the down force whenever the speed exceeds 5",
         {"raised": "yes"}, {"raised": "no"}),
        ("fan on, speed, door", "is switched off if the speed is above 9 or the door is open",
         {"door": "no", "fan on": "yes"}, {"door": "yes", "fan on": "yes"}),
    ],
)  # fmt: skip
def test_a_switch_by_its_note(
    subjects: str, words: str, holds: dict[str, str], does_not: dict[str, str]
) -> None:
    text = f"{NOTED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"
    made, told = read_sheet(Source("test", text))
    assert made is not None, [d.message for d in told]
    usual = {d.name: "no" for d in made.declarations} | {"speed": Fraction(7)}
    k = Construction(tuple(g.base for g in made.groups), ())
    formula = made.claims[0].limitations[0].formula
    assert evaluate(formula, usual | holds, k) is True
    assert evaluate(formula, usual | does_not, k) is False


@pytest.mark.parametrize(
    "words", ["the seat is open if the speed is above 5", "lifts the lid if the speed is above 5"]
)
def test_what_a_note_does_not_say_is_no_state(words: str) -> None:
    _, told = read_sheet(
        Source("test", f"{NOTED}\n1. A thing, {words}.\n   | poppet lifted, speed : {words}\n")
    )
    assert any(d.severity == "error" for d in told)
