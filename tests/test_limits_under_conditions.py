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
from tests.sheets import all_readings, errors, on_the_wrong_side, presumed_in_symbols, presumed_labels

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
        ("bake, oven", "at most 9 minutes when the oven drop is above 100 degC", "is another quantity"),
        ("bake, tile, pitch", "at most 9 minutes when below 3 mm and above 1 mm and below 9 mm", ""),
        ("pitch, tile", "2 mm for every 10 mm of the tile", "no phrase reads"),
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


OPEN = "valve open  one of only yes, no\npressure  pressure in bar"
VALVES = "valve  one of open, closed\npressure  pressure in bar"
PUMP = "pump on  one of only yes, no\npressure  pressure in bar"
PUMPS = "pump  one of on, off\npressure  pressure in bar"
FAN = "fan on  one of only yes, no\nheat  temperature in degC"
HEATER = "heater  one of on, off\nheat  temperature in degC"
SLEEP = "sleep mode  one of only yes, no\nsupply  voltage in V"
MODES = "mode  one of sleep, active, idle\nsupply  voltage in V"
ALARM = "alarm  one of only yes, no\npressure  pressure in bar\nlevel  length in cm"
HELD_SO = "alarm  one of only yes, no\npressure  pressure in bar\nhold  duration in s"
SPEED = "speed  speed in m/s\nload  mass in kg"
TILT = f"{SPEED}\ntilt  angle in deg"
PRESSED = "pressure  pressure in bar\nvalve  one of open, closed"
BETWEEN = "valve open  one of only yes, no\npressure, lower threshold, upper threshold  pressure in bar"
BOTH_SIDES = "valve open  one of only yes, no\ninlet pressure, outlet pressure  pressure in bar"
DOOR = "fan on, door open  one of only yes, no\nheat  temperature in degC"
DELAY = "fan on  one of only yes, no\ndelay  duration in s"
SET_AT = "valve open  one of only yes, no\npressure, threshold  pressure in bar"
CHARGING = "charging  one of only yes, no\nheat  temperature in degC"
SPREAD = (
    "charging  one of only yes, no\nhold  duration in s\nspread  temperature difference in K"
    '  "between the hottest and the coldest cell"'
)
BALANCING = "balancing  one of only yes, no\nimbalance  voltage in mV"
WINDOWS = (
    'discarded  one of only yes, no  "whether the window is discarded"\n'
    'clipped  share in %  "of the samples of a window"\nsamples  count  "in one window"\n'
    "rate  frequency in kHz"
)
SAID_OF_STATES = [
    # opposite states, without their noun, denied, in other words
    (VALVES, "valve, pressure", "closes as soon as the pressure falls below 5 bar",
     "valve = closed, pressure = 4 bar", "valve = open, pressure = 4 bar"),
    (VALVES, "valve, pressure", "does not open unless the pressure exceeds 5 bar",
     "valve = closed, pressure = 4 bar", "valve = open, pressure = 4 bar"),
    (VALVES, "valve, pressure", "is closed below 5 bar and open above 5 bar",
     "valve = closed, pressure = 4 bar", "valve = closed, pressure = 6 bar"),
    (VALVES, "valve, pressure", "never opens below 5 bar", "valve = closed, pressure = 4 bar",
     "valve = open, pressure = 4 bar"),
    (VALVES, "valve, pressure", "opens in response to a pressure of more than 5 bar",
     "valve = closed, pressure = 5 bar", "valve = closed, pressure = 6 bar"),
    (VALVES, "valve, pressure", "opens when the pressure exceeds 5 bar and closes when it falls below 4 bar",
     "valve = open, pressure = 4.5 bar", "valve = open, pressure = 3 bar"),
    (PUMPS, "pump, pressure", "is activated upon the pressure falling below 5 bar",
     "pump = on, pressure = 4 bar", "pump = off, pressure = 4 bar"),
    (PUMPS, "pump, pressure", "is deactivated if the pressure exceeds 5 bar",
     "pump = off, pressure = 6 bar", "pump = on, pressure = 6 bar"),
    (HEATER, "heater, heat", "switches on below 18 °C and off above 22 °C",
     "heater = off, heat = 20 degC", "heater = off, heat = 17 degC"),
    # values that are come to
    (OPEN, "valve open, pressure", "opens at 5 bar and closes at 4 bar",
     "valve open = yes, pressure = 4.5 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "opens at a pressure of 5 bar and closes at a pressure of 4 bar",
     "valve open = no, pressure = 4 bar", "valve open = yes, pressure = 4 bar"),
    (FAN, "fan on, heat", "turns off when the heat drops to 30 °C", "fan on = no, heat = 29 degC",
     "fan on = yes, heat = 29 degC"),
    (FAN, "fan on, heat", "is started when the heat rises to 40 °C", "fan on = no, heat = 39 degC",
     "fan on = no, heat = 41 degC"),
    (FAN, "fan on, heat", "turns off when the heat drops to 30 °C or less", "fan on = no, heat = 30 degC",
     "fan on = yes, heat = 30 degC"),
    (FAN, "fan on, heat", "turns off again when the heat returns to below 30 °C",
     "fan on = yes, heat = 30 degC", "fan on = yes, heat = 29 degC"),
    (OPEN, "valve open, pressure", "opens when a pressure of 5 bar is exceeded",
     "valve open = no, pressure = 5 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "opens once a pressure of 5 bar has been reached",
     "valve open = no, pressure = 4 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "opens on reaching a pressure of 5 bar",
     "valve open = no, pressure = 4 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "opens when the pressure no longer exceeds 5 bar",
     "valve open = no, pressure = 6 bar", "valve open = no, pressure = 5 bar"),
    # what is done or not: inhibited, suspended, resumed, its verb
    (CHARGING, "charging, heat",
     "charging being inhibited whenever the heat lies outside a window of 0 °C to 45 °C",
     "charging = yes, heat = 45 degC", "charging = yes, heat = 46 degC"),
    (CHARGING, "charging, heat", "the controller inhibits charging when the heat is above 45 °C",
     "charging = no, heat = 46 degC", "charging = yes, heat = 46 degC"),
    (CHARGING, "charging, heat", "stops charging the battery if the heat exceeds 45 °C",
     "charging = no, heat = 46 degC", "charging = yes, heat = 46 degC"),
    (CHARGING, "charging, heat", "charging of the cells is interrupted if the heat exceeds 45 °C",
     "charging = no, heat = 46 degC", "charging = yes, heat = 46 degC"),
    (CHARGING, "charging, heat", "begins to charge the cells once the heat is below 40 °C",
     "charging = yes, heat = 39 degC", "charging = no, heat = 39 degC"),
    (CHARGING, "charging, heat", "charging is prevented unless the heat exceeds 5 °C",
     "charging = no, heat = 5 degC", "charging = yes, heat = 5 degC"),
    (CHARGING, "charging, heat", "charging does not take place when the heat is above 45 °C",
     "charging = no, heat = 46 degC", "charging = yes, heat = 46 degC"),
    (CHARGING, "charging, heat", "charging is no longer performed when the heat is above 45 °C",
     "charging = no, heat = 46 degC", "charging = yes, heat = 46 degC"),
    (CHARGING, "charging, heat", "charging is permitted only if the heat is below 45 °C",
     "charging = no, heat = 40 degC", "charging = yes, heat = 45 degC"),
    (SPREAD, "charging, spread, hold",
     "charging is suspended if a difference in temperature between the hottest"
     " and the coldest of the cells exceeds 8 K for longer than 30 seconds",
     "charging = yes, spread = 9 K, hold = 30 s", "charging = yes, spread = 9 K, hold = 31 s"),
    (SPREAD, "charging, spread", "is resumed once said difference has come down to 5 K or less",
     "charging = no, spread = 6 K, hold = 0 s", "charging = no, spread = 5 K, hold = 0 s"),
    ("brake  one of only yes, no\nload  mass in kg\nspeed  speed in m/s", "brake, load, speed",
     "the brake is applied as soon as either a load of 500 kg or a speed of 2 m/s is reached",
     "brake = no, load = 499 kg, speed = 1 m/s", "brake = no, load = 0 kg, speed = 2 m/s"),
    (BALANCING, "balancing, imbalance",
     "begins to balance the cells as soon as an imbalance of more than 10 mV is"
     " detected and ceases to do so when the imbalance is less than 5 mV",
     "balancing = no, imbalance = 7 mV", "balancing = yes, imbalance = 4 mV"),
    (BALANCING, "balancing, imbalance",
     "as soon as an imbalance of between 10 and 20 mV is detected and ceases"
     " to do so when the imbalance is less than 10 mV",
     "balancing = yes, imbalance = 12 mV", "balancing = no, imbalance = 12 mV"),
    (OPEN, "valve open, pressure", "opening of the valve is inhibited when the pressure is below 2 bar",
     "valve open = no, pressure = 1 bar", "valve open = yes, pressure = 1 bar"),
    (OPEN, "valve open, pressure", "inhibits closing of the valve when the pressure exceeds 5 bar",
     "valve open = yes, pressure = 6 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "the controller keeps the valve open when the pressure is below 2 bar",
     "valve open = yes, pressure = 1 bar", "valve open = no, pressure = 1 bar"),
    (WINDOWS, "discarded, clipped", "discards any window in which more than 5 % of the samples are clipped",
     "discarded = no, clipped = 5 %, samples = 9, rate = 9 kHz",
     "discarded = no, clipped = 6 %, samples = 9, rate = 9 kHz"),
    (WINDOWS, "discarded, clipped", "discards no window in which less than 5 % of the samples are clipped",
     "discarded = no, clipped = 4 %, samples = 9, rate = 9 kHz",
     "discarded = yes, clipped = 4 %, samples = 9, rate = 9 kHz"),
    (WINDOWS, "rate, samples", "the rate is 12 to 16 kHz for windows of no more than 4096 samples",
     "discarded = no, clipped = 5 %, samples = 4096, rate = 12 kHz",
     "discarded = no, clipped = 5 %, samples = 4096, rate = 11 kHz"),
    # what a controller does
    (OPEN, "valve open, pressure", "the controller opens the valve when the pressure exceeds 5 bar",
     "valve open = yes, pressure = 6 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure",
     "the controller is configured to open the valve when the pressure exceeds 5 bar",
     "valve open = yes, pressure = 6 bar", "valve open = no, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "causes the valve to close if the pressure exceeds 5 bar",
     "valve open = no, pressure = 6 bar", "valve open = yes, pressure = 6 bar"),
    (OPEN, "valve open, pressure", "prevents the valve from opening when the pressure is below 5 bar",
     "valve open = no, pressure = 4 bar", "valve open = yes, pressure = 4 bar"),
    (PUMP, "pump on, pressure", "configured to, in response to the pressure exceeding 5 bar, stop the pump",
     "pump on = no, pressure = 6 bar", "pump on = yes, pressure = 6 bar"),
    (PUMP, "pump on, pressure", "the pump is shut off when the pressure exceeds 5 bar",
     "pump on = no, pressure = 6 bar", "pump on = yes, pressure = 6 bar"),
    (PUMP, "pump on, pressure", "determines whether the pressure exceeds 5 bar and, if so, stops the pump",
     "pump on = no, pressure = 6 bar", "pump on = yes, pressure = 6 bar"),
    # modes
    (SLEEP, "sleep mode, supply", "enters the sleep mode when the supply falls below 3 V",
     "sleep mode = yes, supply = 2 V", "sleep mode = no, supply = 2 V"),
    (SLEEP, "sleep mode, supply", "the node leaves the sleep mode when the supply exceeds 3 V",
     "sleep mode = no, supply = 4 V", "sleep mode = yes, supply = 4 V"),
    (MODES, "mode, supply", "leaves the idle mode when the supply falls below 3 V",
     "mode = sleep, supply = 2 V", "mode = idle, supply = 2 V"),
    # elsewhere
    (FAN, "fan on, heat", "when the heat is above 40 °C, the fan is on; otherwise, the fan is off",
     "fan on = no, heat = 40 degC", "fan on = yes, heat = 40 degC"),
    (FAN, "fan on, heat", "the fan is on if, and only if, the heat is above 40 °C",
     "fan on = no, heat = 40 degC", "fan on = yes, heat = 40 degC"),
    (SPEED, "speed, load",
     "2 m/s or less in the event that the load is more than 50 kg, and otherwise 4 m/s or less",
     "speed = 3 m/s, load = 50 kg", "speed = 5 m/s, load = 50 kg"),
    (SPEED, "speed, load", "at most 2 m/s even when the load exceeds 50 kg",
     "speed = 2 m/s, load = 60 kg", "speed = 3 m/s, load = 40 kg"),
    (SPEED, "speed, load", "at most 2 m/s at least when the load exceeds 50 kg",
     "speed = 3 m/s, load = 40 kg", "speed = 3 m/s, load = 60 kg"),
    (SPEED, "speed, load", "at most 2 m/s except at loads below 50 kg",
     "speed = 3 m/s, load = 40 kg", "speed = 3 m/s, load = 60 kg"),
    (OPEN, "valve open, pressure",
     "opens when the pressure exceeds 5 bar and remains open until the pressure falls below 3 bar",
     "valve open = no, pressure = 4 bar", "valve open = yes, pressure = 2 bar"),
    # several conditions
    (ALARM, "alarm, pressure, level",
     "is issued when the pressure exceeds 5 bar or the level falls below 10 cm, whichever occurs first",
     "alarm = yes, pressure = 6 bar, level = 12 cm", "alarm = no, pressure = 6 bar, level = 12 cm"),
    (ALARM, "alarm, pressure, level",
     "is issued when at least one of: the pressure exceeds 5 bar; and the level falls below 10 cm",
     "alarm = no, pressure = 5 bar, level = 12 cm", "alarm = no, pressure = 6 bar, level = 12 cm"),
    (ALARM, "alarm, pressure, level",
     "is issued if neither the pressure exceeds 5 bar nor the level exceeds 10 cm",
     "alarm = no, pressure = 6 bar, level = 9 cm", "alarm = no, pressure = 4 bar, level = 9 cm"),
    (ALARM, "alarm, pressure", "no alarm is issued when the pressure is below 5 bar",
     "alarm = no, pressure = 4 bar, level = 9 cm", "alarm = yes, pressure = 4 bar, level = 9 cm"),
    (HELD_SO, "alarm, pressure, hold", "is issued if the pressure exceeds 5 bar for at least 5 s",
     "alarm = no, pressure = 6 bar, hold = 4 s", "alarm = no, pressure = 6 bar, hold = 5 s"),
    (HELD_SO, "alarm, pressure, hold", "is issued when the pressure has been above 5 bar for 5 s",
     "alarm = no, pressure = 6 bar, hold = 4 s", "alarm = no, pressure = 6 bar, hold = 7 s"),
    (TILT, "speed, load, tilt", "at most 2 m/s when neither the load exceeds 50 kg nor the tilt exceeds 3°",
     "speed = 3 m/s, load = 60 kg, tilt = 2 deg", "speed = 3 m/s, load = 40 kg, tilt = 2 deg"),
    # two conditions, each of what it names
    (BETWEEN, "valve open, pressure, lower threshold, upper threshold",
     "is opened if the pressure exceeds the upper threshold and is closed if the pressure falls below the"
     " lower threshold",
     "valve open = yes, pressure = 4 bar, lower threshold = 3 bar, upper threshold = 5 bar",
     "valve open = yes, pressure = 2 bar, lower threshold = 3 bar, upper threshold = 5 bar"),
    (DOOR, "fan on, heat, door open", "the fan runs when the heat is above 40 °C, unless the door is open",
     "fan on = no, door open = yes, heat = 41 degC", "fan on = no, door open = no, heat = 41 degC"),
    (DOOR, "fan on, heat, door open",
     "the fan runs if the heat is above 40 °C but only when the door is closed",
     "fan on = no, door open = yes, heat = 41 degC", "fan on = yes, door open = yes, heat = 41 degC"),
    (TILT, "speed, load, tilt", "at most 2 m/s when the load exceeds 50 kg, unless the tilt is below 3°",
     "speed = 3 m/s, load = 60 kg, tilt = 2 deg", "speed = 3 m/s, load = 60 kg, tilt = 4 deg"),
    (TILT, "speed, load, tilt",
     "at most 2 m/s when the load exceeds 50 kg and at most 1 m/s when the tilt exceeds 3°",
     "speed = 2 m/s, load = 60 kg, tilt = 2 deg", "speed = 2 m/s, load = 60 kg, tilt = 4 deg"),
    (DOOR, "fan on, door open", "the fan is switched off upon opening of the door",
     "fan on = no, door open = yes, heat = 41 degC", "fan on = yes, door open = yes, heat = 41 degC"),
    (DELAY, "fan on, delay", "is switched off once a delay of 5 s has elapsed", "fan on = yes, delay = 4 s",
     "fan on = yes, delay = 6 s"),
    (DELAY, "fan on, delay", "is switched off when more than 5 s have elapsed", "fan on = yes, delay = 5 s",
     "fan on = yes, delay = 6 s"),
    (SET_AT, "valve open, pressure, threshold",
     "is opened if the pressure exceeds a predetermined pressure threshold",
     "valve open = no, pressure = 5 bar, threshold = 5 bar",
     "valve open = no, pressure = 6 bar, threshold = 5 bar"),
    (SET_AT, "valve open, pressure, threshold",
     "opens when the pressure reaches a predefined threshold value",
     "valve open = no, pressure = 4 bar, threshold = 5 bar",
     "valve open = no, pressure = 5 bar, threshold = 5 bar"),
    (BOTH_SIDES, "valve open, inlet pressure, outlet pressure",
     "opens when the pressure difference between the inlet pressure and the outlet pressure exceeds 2 bar",
     "valve open = no, inlet pressure = 5 bar, outlet pressure = 3 bar",
     "valve open = no, inlet pressure = 6 bar, outlet pressure = 3 bar"),
    (BOTH_SIDES, "valve open, inlet pressure, outlet pressure",
     "opens when either of the inlet pressure and the outlet pressure exceeds 5 bar",
     "valve open = no, inlet pressure = 5 bar, outlet pressure = 3 bar",
     "valve open = no, inlet pressure = 6 bar, outlet pressure = 3 bar"),
    (HEATER, "heater, heat", "switches on at 18 °C and off at 22 °C", "heater = off, heat = 20 degC",
     "heater = off, heat = 17 degC"),
    (MODES, "mode, supply", "is in the sleep mode or the idle mode when the supply falls below 3 V",
     "mode = idle, supply = 2 V", "mode = active, supply = 2 V"),
    # limits of a controller
    (SPEED, "speed, load", "the controller limits the speed to 2 m/s when the load exceeds 50 kg",
     "speed = 1 m/s, load = 60 kg", "speed = 3 m/s, load = 60 kg"),
    (SPEED, "speed, load", "prevents the speed from exceeding 2 m/s when the load exceeds 50 kg",
     "speed = 1 m/s, load = 60 kg", "speed = 3 m/s, load = 60 kg"),
    (SPEED, "speed, load", "the controller prohibits a speed above 2 m/s when the load is above 50 kg",
     "speed = 2 m/s, load = 60 kg", "speed = 3 m/s, load = 60 kg"),
    (SPEED, "speed, load", "a speed above 2 m/s is prohibited when the load is above 50 kg",
     "speed = 2 m/s, load = 60 kg", "speed = 3 m/s, load = 60 kg"),
    (SPEED, "speed, load", "the speed may exceed 2 m/s only when the load is below 50 kg",
     "speed = 2 m/s, load = 40 kg", "speed = 3 m/s, load = 60 kg"),
    (SPEED, "speed, load", "a speed above 2 m/s is only permitted if the load is below 50 kg",
     "speed = 2 m/s, load = 40 kg", "speed = 3 m/s, load = 60 kg"),
    (PRESSED, "pressure, valve", "at most 5 bar when the valve is closed",
     "pressure = 6 bar, valve = open", "pressure = 6 bar, valve = closed"),
]  # fmt: skip


@pytest.mark.parametrize(("declared", "left", "words", "within", "outside"), SAID_OF_STATES)
def test_states_and_values_under_conditions(
    declared: str, left: str, words: str, within: str, outside: str
) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


def meanings(declared: str, left: str, words: str, **thing: Fraction | str) -> list[bool | None]:
    """Whether a thing meets the words, by reading of them as a whole that is computed."""
    made, told = read_sheet(Source("test", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert made is not None, [d.message for d in told]
    formula = made.claims[0].limitations[0].formula
    assert isinstance(formula, Read)
    k = Construction(tuple(g.base for g in made.groups), ())
    named = {name.replace("_", " "): value for name, value in thing.items()}
    found = [evaluate(option, named, k) for option in formula.options]
    return [f for f in found if f is not None]


BAR = 100000


@pytest.mark.parametrize(
    ("declared", "left", "words", "thing", "met"),
    [
        # 'only' before the verb: nowhere else, or there and only there
        (OPEN, "valve open, pressure", "only opens if the pressure exceeds 5 bar",
         {"valve_open": "yes", "pressure": Fraction(4 * BAR)}, [False, False]),
        (OPEN, "valve open, pressure", "is only open when the pressure exceeds 5 bar",
         {"valve_open": "no", "pressure": Fraction(6 * BAR)}, [True, False]),
        (OPEN, "valve open, pressure", "opens only above 5 bar",
         {"valve_open": "no", "pressure": Fraction(6 * BAR)}, [True, False]),
        (VALVES, "valve, pressure", "is only open when the pressure exceeds 5 bar",
         {"valve": "closed", "pressure": Fraction(6 * BAR)}, [True, False, False]),
        (OPEN, "valve open, pressure", "remains closed until the pressure reaches 5 bar",
         {"valve_open": "no", "pressure": Fraction(6 * BAR)}, [True, False]),
        (OPEN, "valve open, pressure", "does not open until the pressure exceeds 5 bar",
         {"valve_open": "yes", "pressure": Fraction(4 * BAR)}, [False, False]),
        (SPEED, "speed, load", "only if the load is at least 50 kg does the speed exceed 2 m/s",
         {"speed": Fraction(3), "load": Fraction(40)}, [False, False, False]),
        (SPEED, "speed, load", "with a load of more than 50 kg, the speed is at most 2 m/s",
         {"speed": Fraction(3), "load": Fraction(40)}, [True, False]),
        (SPEED, "speed, load", "at most 2 m/s with the load exceeding 50 kg",
         {"speed": Fraction(3), "load": Fraction(40)}, [True, False]),
        (SPEED, "speed, load", "at most 2 m/s above a load of 50 kg",
         {"speed": Fraction(3), "load": Fraction(50)}, [True, False]),
        (SPEED, "speed, load", "at most 2 m/s from a load of 50 kg upwards",
         {"speed": Fraction(3), "load": Fraction(50)}, [False, False]),
        (PRESSED, "pressure, valve", "at most 5 bar with the valve closed",
         {"pressure": Fraction(6 * BAR), "valve": "open"}, [True, False]),
        (PRESSED, "pressure, valve", "at most 5 bar in the closed position of the valve",
         {"pressure": Fraction(6 * BAR), "valve": "closed"}, [False, False]),
    ],
)  # fmt: skip
def test_what_the_readings_of_a_condition_let_in(
    declared: str, left: str, words: str, thing: dict[str, Fraction | str], met: list[bool]
) -> None:
    assert meanings(declared, left, words, **thing) == met


def test_one_value_of_change_may_be_come_to_from_either_side() -> None:
    """Which way it comes to 5 bar, the words do not say: three readings of the value, none presumed."""
    words = "opens at a pressure of 5 bar"
    made, _ = read_sheet(
        Source("test", f"{OPEN}\n\n1. A thing, {words}.\n   | valve open, pressure : {words}\n")
    )
    assert made is not None
    labels = {r.label for g in made.groups for r in g.readings}
    assert labels >= {"just there", "there or above", "there or below"}


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        (SPEED, "speed, load", "the controller allows the speed to exceed 2 m/s when the load is below 50 kg",
         "'allows'"),
        (SPEED, "speed, load", "a speed above 2 m/s is permitted when the load is below 50 kg",
         "'permitted'"),
        (SPEED, "speed, load", "the controller blocks speeds above 2 m/s when the load is above 50 kg", ""),
        (SPEED, "speed, load", "at most 2 m/s regardless of the load", "not restated"),
        (SPEED, "speed, load", "at most 2 m/s when the load exceeds 50 kg for 10 s",
         "speed, load, holding time :"),
        (PUMP, "pump on, pressure", "only the pump runs if the pressure exceeds 5 bar", ""),
        (OPEN, "valve open, pressure", "the door is configured to open when the pressure exceeds 5 bar", ""),
        (MODES, "mode, supply", "leaves the eco mode when the supply falls below 3 V", "'leaves'"),
        (OPEN, "valve open, pressure", "until the pressure reaches 5 bar", "'until'"),
        # what is not prevented need not be so, and what is done to it by another verb is not known
        (CHARGING, "charging, heat", "charging is not inhibited when the heat is below 45 °C", ""),
        (CHARGING, "charging, heat", "charging is permitted when the heat is below 45 °C", "'permitted'"),
        (CHARGING, "charging, heat", "the controller curbs charging when the heat is above 45 °C", ""),
        (CHARGING, "charging, heat", "when the heat is above 45 °C, the controller forbids charging", ""),
        # what is not prevented, prohibited or caused is left open
        (OPEN, "valve open, pressure", "does not prevent the valve from opening below 5 bar", ""),
        (OPEN, "valve open, pressure", "does not cause the valve to open below 5 bar", ""),
        (SPEED, "speed, load", "does not prohibit a speed above 2 m/s when the load is below 50 kg", ""),
        (SPEED, "speed, load",
         "the controller does not limit the speed to 2 m/s when the load is below 50 kg", ""),
        (PUMPS, "pump, pressure", "the pump is not inhibited when the pressure is below 5 bar", ""),
        # no condition at all
        (FAN, "fan on, heat", "the fan is on although the heat exceeds 40 °C", ""),
        (FAN, "fan on, heat", "the fan is on because the heat exceeds 40 °C", ""),
        (FAN, "fan on, heat", "the fan is on since the heat exceeds 40 °C", "'since'"),
        (FAN, "fan on, heat", "the fan is on keeping the heat below 40 °C", ""),
        (FAN, "fan on, heat", "the fan is on such that the heat is below 40 °C", ""),
        (FAN, "fan on, heat", "the fan is on, whereas the heat is below 40 °C", ""),
        (CHARGING, "charging, heat", "charging is reduced when the heat is above 45 °C", ""),
        (CHARGING, "charging, heat", "stops charging the second battery when the heat is above 45 °C", ""),
        (CHARGING, "charging, heat", "the battery is charged when the heat is below 45 °C", ""),
        (OPEN, "valve open, pressure", "opening of the valve is not prevented above 5 bar", ""),
        (OPEN, "valve open, pressure", "opening of the lid is prevented if the pressure exceeds 5 bar", ""),
        (OPEN, "valve open, pressure", "the controller dislikes the valve open above 5 bar", ""),
        ("lamp dimmed  one of only yes, no\nheat  temperature in degC", "lamp dimmed, heat",
         "the lamp is off when the heat is above 45 °C", ""),
        ("lamp flashing  one of only yes, no\nheat  temperature in degC", "lamp flashing, heat",
         "the lamp is on when the heat is above 45 °C", ""),
        (SPREAD, "charging, spread",
         "charging is suspended if the difference between the hottest and the mean cell exceeds 8 K", ""),
        (WINDOWS, "discarded, clipped", "discards a window if more than 5 % of the channels are clipped", ""),
        (WINDOWS, "rate, samples", "the rate is 12 to 16 kHz for two windows of at most 4096 samples", ""),
    ],
)  # fmt: skip
def test_what_a_controller_claim_may_not_say_is_refused(
    declared: str, left: str, words: str, told: str
) -> None:
    _, found = read_sheet(Source("test", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    errors = [f"{d.message} {d.cause} {d.help}" for d in found if d.severity == "error"]
    assert errors
    assert told in errors[0]


@pytest.mark.parametrize(
    ("declared", "left", "words", "told"),
    [
        ("speed  speed in m/s\nwidth  length in mm", "speed, width",
         "at most 2 m/s when the height exceeds 50 mm", "'height' is read as width"),
        (OPEN, "valve open, pressure", "is configured to open when the pressure exceeds 5 bar",
         "'configured to'"),
        (VALVES, "valve, pressure", "is closed below 5 bar and open above 5 bar", ""),
        (OPEN, "valve open, pressure", "opens at 5 bar", ""),
        (MODES, "mode, supply", "is kept in the idle mode when the supply is below 3 V", ""),
    ],
)  # fmt: skip
def test_what_is_taken_for_what_a_condition_is_about_is_told(
    declared: str, left: str, words: str, told: str
) -> None:
    _, found = read_sheet(Source("test", f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"))
    warnings = [d.message for d in found]
    assert (told in warnings[0]) if told else not warnings


SWITCHES = (
    "bypass, bleed valve, steam, emergency stop, gelled, liner, lid  one of yes, no\n"
    "tensioner  one of yes, no\np  pressure in bar\nd  acceleration in m/s2\n"
    "cap  one of aluminium, polypropylene"
)


def in_symbols(left: str, words: str) -> str:
    """The line as presumed, in symbols; '' where it is refused."""
    return presumed_in_symbols(SWITCHES, left, words)


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("bypass, p", "said bypass being open whenever p exceeds 12 bar, and closed otherwise",
         "(if p > 12 bar then bypass = yes and if not p > 12 bar then bypass = no)"),
        ("bypass, p", "the bypass is closed when p exceeds 12 bar", "if p > 12 bar then bypass = no"),
        ("bleed valve, p", "the bleed valve remains open as long as p is below 6 bar",
         "if p < 6 bar then bleed valve = yes"),
        ("steam, p", "steam is injected when p is below 4 bar", "if p < 4 bar then steam = yes"),
        ("steam, p", "injecting steam if p is below 4 bar", "if p < 4 bar then steam = yes"),
        ("steam, p", "stopping steam if p is below 4 bar", "if p < 4 bar then steam = no"),
        ("steam, p", "steam is not injected when p is above 4 bar", "if p > 4 bar then steam = no"),
        ("emergency stop, p", "an emergency stop is made where p is above 3 bar",
         "if p > 3 bar then emergency stop = yes"),
        ("emergency stop, p", "the emergency stop is cancelled where p is above 3 bar",
         "if p > 3 bar then emergency stop = no"),
        ("gelled, p", "does not gel provided that p stays under 6 bar", "if p < 6 bar then gelled = no"),
        ("liner, cap", "the cap has a liner unless it is of polypropylene",
         "((cap = polypropylene) or liner = yes)"),
        ("liner, p", "the cap does not have a liner if p is below 5 bar", "if p < 5 bar then liner = no"),
        ("tensioner, d, p", "the tensioner is triggered when d exceeds 20 m/s2 while p is at least 25 bar",
         "if (d > 20 m/s2 and p >= 25 bar) then tensioner = yes"),
    ],
)  # fmt: skip
def test_what_is_yes_or_no_is_so_with_any_verb_of_doing(left: str, words: str, said: str) -> None:
    """Whether or not its declaration leaves something else open."""
    assert in_symbols(left, words) == said


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("bypass, p", "said bypass being red whenever p exceeds 12 bar"),
        ("bleed valve, p", "the outlet valve remains open as long as p is below 6 bar"),
        ("lid, p", "the lid is open as long as p is below 6 bar"),
        ("steam, p", "steam is condensed when p is above 4 bar"),
        ("steam, p", "curtailing steam if p is above 4 bar"),
        ("steam, p", "oil is injected when p is above 4 bar"),
        ("emergency stop, p", "the car is stopped when p is above 3 bar"),
        ("emergency stop, p", "is stopped when p is above 3 bar"),
        ("gelled, p", "the gel is soft when p is above 6 bar"),
        ("liner, p", "the cap has a second liner if p is below 5 bar"),
        ("liner, p", "the cap lacks a liner if p is below 5 bar"),
        (
            "tensioner, d, p",
            "tensioner is triggered when d exceeds 20 m/s2 or while p is at least 25 bar",
        ),
    ],
)
def test_what_another_does_or_what_else_is_done_says_neither(left: str, words: str) -> None:
    assert in_symbols(left, words) == ""


PUMPS_ON = (
    'pump on  one of only yes, no  "pump runs"\nvalve open  one of only yes, no\n'
    "flow  number\nlevel, width  length in mm"
)


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("pump on, flow", "the pump may run only if the flow is below 2", "if pump on = yes then flow < 2"),
        ("pump on, flow", "the pump is allowed to run only if the flow is below 2",
         "if pump on = yes then flow < 2"),
        ("pump on, flow", "the pump can only run when the flow is below 2", "if pump on = yes then flow < 2"),
        ("valve open, level", "the valve may be closed only if the level exceeds 300 mm",
         "if valve open = no then level > 300 mm"),
        ("pump on, flow", "the pump always runs when the flow is below 2", "if flow < 2 then pump on = yes"),
        ("pump on, flow", "the pump runs always when the flow is below 2", "if flow < 2 then pump on = yes"),
    ],
)  # fmt: skip
def test_what_may_be_so_need_not_be(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(PUMPS_ON, left, words) == said
    assert all(len(of) == 1 for of in presumed_labels(PUMPS_ON, left, words))


def test_what_is_so_only_there_may_have_to_be() -> None:
    of = presumed_labels(PUMPS_ON, "pump on, flow", "the pump runs only if the flow is below 2")
    assert ["not elsewhere", "then and only then"] in of


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("pump on, flow", "the pump may run if the flow is below 2"),
        ("pump on, flow", "the pump runs in dependence on whether the flow is below 1"),
        ("pump on, flow", "the pump runs depending on whether the flow is below 1"),
        ("pump on, flow", "the pump does not always run when the flow is below 2"),
        ("valve open, level", "the valve need only be open if the level exceeds 300 mm"),
        ("valve open, level", "the valve only needs to be open if the level exceeds 300 mm"),
        ("valve open, level", "the valve needs to be open only if the level exceeds 300 mm"),
        ("valve open, level", "the valve has to be open only if the level exceeds 300 mm"),
        ("pump on, flow", "the pump runs together with a flow below 2"),
        ("valve open, level, width", "opens when the level exceeds the width by 2 mm"),
    ],
)
def test_what_tells_no_way_round_is_refused(left: str, words: str) -> None:
    assert presumed_in_symbols(PUMPS_ON, left, words) == ""


DRIVEN = "current  current in A\nwarmth  temperature in degC"


@pytest.mark.parametrize(
    ("left", "words", "said"),
    [
        ("current, warmth", "a current of at most 3 A combined with a warmth of at most 40 °C",
         "(current <= 3 A and warmth <= 40 degC)"),
        ("warmth, current", "a current of at most 3 A together with a warmth of at most 40 °C",
         "(warmth <= 40 degC and current <= 3 A)"),
        ("current, warmth", "a current of at most 3 A in combination with a warmth of at most 40 °C",
         "(current <= 3 A and warmth <= 40 degC)"),
        ("current, warmth", "at most 3 A when combined with a warmth above 40 °C",
         "if warmth > 40 degC then current <= 3 A"),
        ("current, warmth", "at most 3 A when the warmth rises above 20 °C",
         "if warmth > 20 degC then current <= 3 A"),
        ("current, warmth", "at most 3 A upon a warmth above 20 °C",
         "if warmth > 20 degC then current <= 3 A"),
        # a limit combined with another is no condition, a denied one neither, and a rise is no value
        ("current, warmth", "a current of at most 3 A not combined with a warmth of at most 40 °C", ""),
        ("current, warmth", "no current above 3 A together with a warmth above 40 °C", ""),
        ("current, warmth", "at most 3 A upon a warmth rise above 20 °C", ""),
        ("current, warmth", "at most 3 A upon a warmth drop below 20 °C", ""),
        ("current, warmth", "at most 3 A in case of a warmth rise above 20 °C", ""),
        ("current, warmth", "at most 3 A if a warmth rise above 20 °C is detected", ""),
    ],
)  # fmt: skip
def test_two_limits_and_a_rise(left: str, words: str, said: str) -> None:
    assert presumed_in_symbols(DRIVEN, left, words) == said


def test_a_rise_that_is_declared_is_one() -> None:
    declared, words = "current  current in A\nwarmth rise  in K", "at most 3 A upon a warmth rise above 20 K"
    said = presumed_in_symbols(declared, "current, warmth rise", words)
    assert said == "if warmth rise > 20 K then current <= 3 A"


@pytest.mark.parametrize(
    ("words", "open_"),
    [
        ("opens at a pressure of less than 5 bar", True),
        ("opens at a pressure of between 4 and 5 bar", True),
        ("opens at a pressure of at most 5 bar", True),
        ("closes at 4 to 5 bar", True),
        ("opens at any pressure below 5 bar", False),
        ("is open at a pressure of less than 5 bar", False),
        ("opens when the pressure is less than 5 bar", False),
        ("opens at a pressure of 5 bar", False),
    ],
)
def test_a_range_in_which_it_changes_may_hold_one_set_point(words: str, open_: bool) -> None:
    made, _ = read_sheet(
        Source("test", f"{OPEN}\n\n1. A thing, {words}.\n   | valve open, pressure : {words}\n")
    )
    assert made is not None
    from_there = "so from one of these values upwards"
    assert open_ is any(from_there in (r.label for r in g.readings) for g in made.groups)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("opens at 4 to 6 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure < 4 bar then not valve open = yes)"),
        ("opens between 4 and 6 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure < 4 bar then not valve open = yes)"),
        ("opens at 5 bar ± 1 bar",
         "(if pressure >= 5 bar + 1 bar then valve open = yes "
         "and if pressure < 5 bar - 1 bar then not valve open = yes)"),
        ("opens at at most 5 bar", "if pressure >= 5 bar then valve open = yes"),
        ("opens at less than 5 bar", "if pressure >= 5 bar then valve open = yes"),
        ("opens at a maximum of 5 bar", "if pressure >= 5 bar then valve open = yes"),
        ("opens at not less than 5 bar", "if pressure < 5 bar then not valve open = yes"),
        ("opens at at most 6 bar and not below 4 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure < 4 bar then not valve open = yes)"),
        ("closes at 2 to 3 bar",
         "(if pressure >= 3 bar then valve open = no and if pressure < 2 bar then not valve open = no)"),
        ("has an opening pressure of 4 to 5 bar",
         "(if pressure >= 5 bar then valve open = yes and if pressure < 4 bar then not valve open = yes)"),
        ("opens only at 4 to 6 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure < 4 bar then not valve open = yes)"),
        ("opens at above 4 bar and not more than 6 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure <= 4 bar then not valve open = yes)"),
        ("opens below 6 bar and above 4 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure <= 4 bar then not valve open = yes)"),
        # of two ranges the one is risen to, the other dropped to
        ("opens at 4 to 6 bar and closes at 2 to 3 bar",
         "(if pressure >= 6 bar then valve open = yes and if pressure <= 2 bar then valve open = no)"),
        ("closes at between 2 and 3 bar and opens at 5 bar",
         "(if pressure <= 2 bar then valve open = no and if pressure >= 5 bar then valve open = yes)"),
        # a state, or each value that is beyond one, is no point of change
        ("is open at 4 to 6 bar", "if (4 bar <= pressure and pressure <= 6 bar) then valve open = yes"),
        ("does not open at 4 to 6 bar", "if (4 bar <= pressure and pressure <= 6 bar) then valve open = no"),
        ("opens at above 5 bar", "if pressure > 5 bar then valve open = yes"),
        ("opens at more than 5 bar", "if pressure > 5 bar then valve open = yes"),
        ("opens at any pressure of 4 to 6 bar",
         "if (4 bar <= pressure and pressure <= 6 bar) then valve open = yes"),
        ("opens only at 5 bar or more", "if valve open = yes then pressure >= 5 bar"),
        ("opens at the latest at 5 bar", "if pressure >= 5 bar then valve open = yes"),
    ],
)  # fmt: skip
def test_a_state_that_changes_in_a_range_is_so_beyond_it_and_not_before_it(words: str, said: str) -> None:
    assert presumed_in_symbols(OPEN, "valve open, pressure", words) == said


@pytest.mark.parametrize(
    "words", ["opens at 4 to 6 bar or at 8 to 9 bar", "opens above 6 bar and below 4 bar"]
)
def test_nothing_changes_somewhere_in_two_ranges(words: str) -> None:
    text = f"{OPEN}\n\n1. A thing, {words}.\n   | valve open, pressure : {words}\n"
    assert "nothing tells from which value on it is so" in errors(text)[0].message


def test_what_changes_only_in_a_range_is_not_so_before_it() -> None:
    words = "opens only at 4 to 6 bar"
    made, _ = read_sheet(
        Source("test", f"{OPEN}\n\n1. A thing, {words}.\n   | valve open, pressure : {words}\n")
    )
    assert made is not None
    standings = {r.label: r.standing for g in made.groups for r in g.readings}
    assert standings["so from one of these values upwards"] == "presumed"
    assert standings["so from one of these values downwards"] == "arguable"
    assert standings["then and only then"] == "presumed"
    assert "at each such value" not in standings


@pytest.mark.parametrize(
    ("thing", "met"),
    [
        ({"valve": "open", "pressure": Fraction(7 * BAR)}, [True, False, True, False]),
        ({"valve": "closed", "pressure": Fraction(7 * BAR)}, [False, True, True, True]),
        ({"valve": "closed", "pressure": Fraction(3 * BAR)}, [True, False, True, True]),
        ({"valve": "closed", "pressure": Fraction(5 * BAR)}, [True, True, False, False]),
    ],
)
def test_a_choice_that_changes_in_a_range(thing: dict[str, Fraction | str], met: list[bool]) -> None:
    """From there upwards, from there downwards, at each such value, then and only then."""
    assert meanings(PRESSED, "valve, pressure", "the valve opens at 4 to 6 bar", **thing) == met


@pytest.mark.parametrize(
    "words",
    [
        "opens at about 6 bar and closes at about 2 bar",
        "opens at 4 to 6 bar and closes at 5 to 7 bar",
        "opens at 4 to 6 bar or more",
    ],
)
def test_a_change_of_which_nothing_tells_where_it_begins(words: str) -> None:
    made, found = read_sheet(
        Source("test", f"{OPEN}\n\n1. A thing, {words}.\n   | valve open, pressure : {words}\n")
    )
    assert made is None
    assert any(d.severity == "error" for d in found)


CURRENT = "current  current in A\ntemperature  temperature in degC"
HOT = "temperature exceeds 40 °C"


@pytest.mark.parametrize(
    ("words", "cold", "hot"),
    [
        (f"at most 3 A, but at most 2 A if the {HOT}", "0123", "012"),
        (f"at most 3 A and at most 2 A if the {HOT}", "0123", "012"),
        (f"at most 3 A but less than 2 A if the {HOT}", "0123", "01"),
        (f"at most 3 A, but if the {HOT}, at most 2 A", "0123", "012"),
        (f"at most 3 A but never more than 2 A when the {HOT}", "0123", "012"),
        (f"at most 3 A, but at most 2 A unless the {HOT}", "012", "0123"),
        (f"between 1 and 3 A, but below 2 A if the {HOT}", "123", "1"),
        (f"between 1 and 3 A if the {HOT}", "012345", "123"),
        (f"at least 1 A but not more than 2 A when the {HOT}", "12345", "12"),
        (f"at least 1 A, but not more than 2 A when the {HOT}", "12345", "12"),
        (f"at least 1 A and not more than 2 A when the {HOT}", "012345", "12"),
        (f"when the {HOT}, at least 1 A but not more than 2 A", "012345", "12"),
        (f"1 to 2 A and 4 to 5 A if the {HOT}", "012345", "1245"),
        # What lets in more stands in the place of the first limit.
        (f"at most 3 A, but at most 5 A if the {HOT}", "0123", "012345"),
        (f"at most 3 A, but more than 4 A if the {HOT}", "0123", "5"),
        (f"3 A, but 2 A if the {HOT}", "3", "2"),
    ],
)
def test_a_condition_behind_the_second_limit_takes_no_limit_before_it_along(
    words: str, cold: str, hot: str
) -> None:
    made, told = read_sheet(
        Source("test", f"{CURRENT}\n\n1. A thing, {words}.\n   | current, temperature : {words}\n")
    )
    assert made is not None, [d.message for d in told]
    formula, k = made.claims[0].limitations[0].formula, base_construction(made)
    for degrees, currents in ((20, cold), (60, hot)):
        kelvin = degrees + Fraction(27315, 100)
        met = (evaluate(formula, {"current": Fraction(n), "temperature": kelvin}, k) for n in range(6))
        assert "".join(str(n) for n, is_met in enumerate(met) if is_met) == currents, degrees


@pytest.mark.parametrize("second", ["not more than 2 A", "at least 2 A"])
def test_the_condition_may_be_of_both_limits_that_but_joins(second: str) -> None:
    words = f"at least 1 A but {second} when the {HOT}"
    made, _ = read_sheet(
        Source("test", f"{CURRENT}\n\n1. A thing, {words}.\n   | current, temperature : {words}\n")
    )
    assert made is not None
    group = next(g for g in made.groups if "both only there" in [r.label for r in g.readings])
    assert [r.label for r in group.readings if r.standing == "presumed"] == ["the first in any case"]


def test_a_state_behind_but_stands_in_the_place_of_the_first() -> None:
    words = "open, but closed if the pressure exceeds 5 bar"
    valve = "valve  one of open, closed\npressure  pressure in bar"
    cases = [("valve = closed, pressure = 6 bar", "valve = open, pressure = 6 bar"),
             ("valve = open, pressure = 4 bar", "valve = closed, pressure = 4 bar")]  # fmt: skip
    for within, outside in cases:
        assert not on_the_wrong_side(valve, "valve, pressure", words, within, outside)


def test_a_limit_that_lets_in_more_unless_something_is_so_is_refused() -> None:
    words = f"at most 3 A, but at most 5 A unless the {HOT}"
    made, told = read_sheet(
        Source("test", f"{CURRENT}\n\n1. A thing, {words}.\n   | current, temperature : {words}\n")
    )
    assert made is None
    assert any("lets in what the first one does not" in d.message for d in told)


THREE = "gap, rim, lip  length in mm"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("and in all other cases the lip is at least 4 mm", "(gap > 2 mm or lip >= 4 mm)"),
        ("and in the opposite case the lip is at least 4 mm", "(gap > 2 mm or lip >= 4 mm)"),
        (", otherwise the lip is less than 4 mm", "(gap > 2 mm or lip < 4 mm)"),
        (", and otherwise the lip is at least 4 mm", "(gap > 2 mm or lip >= 4 mm)"),
        (", or else the lip is at least 4 mm", "(gap > 2 mm or lip >= 4 mm)"),
        ("and in any case the lip is at least 4 mm", "lip >= 4 mm"),
    ],
)
def test_what_is_so_of_a_third_thing_elsewhere_is_not_so_under_the_condition(words: str, said: str) -> None:
    for first in (
        "when the gap exceeds 2 mm, the rim is at least 3 mm",
        "the rim is at least 3 mm if the gap exceeds 2 mm",
    ):
        found = presumed_in_symbols(THREE, "gap, rim, lip", f"{first} {words}".replace(" ,", ","))
        assert found == f"(if gap > 2 mm then rim >= 3 mm and {said})"


@pytest.mark.parametrize(
    "words",
    [
        "when the gap exceeds 2 mm, the rim is at least 3 mm and, conversely, the lip is at least 3 mm",
        "the rim is at least 3 mm unless the gap exceeds 2 mm, otherwise the lip is at least 1 mm",
        "when the gap exceeds 2 mm, the rim, and otherwise the lip, is at least 3 mm",
        "when the gap exceeds 2 mm, the rim is at least 3 mm and the lip is at least 1 mm otherwise",
        "when the gap exceeds 2 mm and the rim is at least 3 mm, otherwise the lip is at least 3 mm",
    ],
)
def test_what_does_not_tell_which_is_so_elsewhere_is_refused(words: str) -> None:
    assert not presumed_in_symbols(THREE, "gap, rim, lip", words)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("the gap exceeds 2 mm and the rim is at least 3 mm if the lip is at least 4 mm", True),
        ("the gap exceeds 2 mm and the rim is at least 3 mm, if the lip is at least 4 mm", False),
        ("if the lip is at least 4 mm, the gap exceeds 2 mm and the rim is at least 3 mm", False),
    ],
)
def test_a_condition_behind_two_limits_may_be_of_the_last_alone(words: str, told: bool) -> None:
    text = f"{THREE}\n\n1. A thing, wherein {words}.\n   | gap, rim, lip : {words}\n"
    made, diagnostics = read_sheet(Source("test", text))
    assert made is not None
    assert any("under the condition, too" in d.message for d in diagnostics) == told


DOZE = 'dozing  one of only yes, no  "the beacon is in the doze state"\nsignal  in dBm'
STIRS = 'stirring so  one of only yes, no  "the paddle stirs at a constant rate"\ntorque  torque in N.m'
HEATS = 'heating  one of only yes, no  "the mantle is heating the oil"\nheat  temperature in degC'
DRUM = "drum running  one of only yes, no\nturns  count"
WARNING = "warning lamp  one of only on, off\nheat, ambient temperature  temperature in degC"
FLAP = "flap  one of only open, closed\npressure  pressure in bar\nheat  temperature in degC"


@pytest.mark.parametrize(
    ("declared", "left", "words", "plainly"),
    [
        # a state is entered and left, also by what its note calls it
        (DOZE, "dozing, signal", "leaves the doze state when the signal exceeds -95 dBm",
         "the beacon is not in the doze state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "is switched out of the doze state when the signal exceeds -95 dBm",
         "the beacon is not in the doze state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "returns to the doze state when the signal is below -95 dBm",
         "the beacon is in the doze state when the signal is below -95 dBm"),
        (DOZE.partition('  "')[0] + "\nsignal  in dBm", "dozing, signal",
         "the beacon enters the doze state when the signal is below -95 dBm",
         "dozing when the signal is below -95 dBm"),
        # what is noted to be done is taken up and given up
        (STIRS, "stirring so, torque", "switch to stirring at a constant rate when the torque exceeds 2 N.m",
         "the paddle stirs at a constant rate when the torque exceeds 2 N.m"),
        (STIRS, "stirring so, torque",
         "the paddle changes over to stirring at a constant rate only if the torque exceeds 2 N.m",
         "the paddle stirs at a constant rate only if the torque exceeds 2 N.m"),
        (STIRS, "stirring so, torque", "stop stirring at a constant rate when the torque exceeds 2 N.m",
         "the paddle does not stir at a constant rate when the torque exceeds 2 N.m"),
        (HEATS, "heating, heat", "the mantle stops heating the oil when the heat exceeds 60 degC",
         "the mantle is not heating the oil when the heat exceeds 60 degC"),
        ("heating  one of only yes, no\nheat  temperature in degC", "heating, heat",
         "changes over to heating when the heat is below 40 degC",
         "switches to heating when the heat is below 40 degC"),
        (STIRS.replace("stirring so", "constant rate"), "constant rate, torque",
         "enters a constant rate mode when the torque exceeds 2 N.m",
         "the paddle stirs at a constant rate when the torque exceeds 2 N.m"),
        # at rest, lit up
        (DRUM, "drum running, turns", "keep the drum at rest unless the turns are at least 2",
         "keep the drum stopped unless the turns are at least 2"),
        (DRUM, "drum running, turns", "the drum is not at rest if the turns are at least 2",
         "the drum is not stopped if the turns are at least 2"),
        (WARNING, "warning lamp, heat, ambient temperature",
         "a warning lamp lights up as soon as the heat is more than 20 K above ambient",
         "a warning lamp lights as soon as the heat is more than 20 K above ambient"),
        # for as long as; outside a range that is left
        (FLAP, "flap, pressure", "keeps the flap open for as long as the pressure is below 2 bar",
         "keeps the flap open as long as the pressure is below 2 bar"),
        (FLAP, "flap, heat", "is closed when the heat leaves the range of 20 to 30 degC",
         "is closed when the heat is outside the range of 20 to 30 degC"),
        (FLAP, "flap, heat", "is open as long as the heat does not leave the range of 20 to 30 degC",
         "is open as long as the heat is always within the range of 20 to 30 degC"),
        (FLAP, "heat", "never leaves the range of 20 to 30 degC",
         "is always within the range of 20 to 30 degC"),
        (FLAP, "flap, pressure, heat",
         "open if the pressure is above 2 bar or the heat exceeds 50 degC, or both",
         "open if the pressure is above 2 bar or the heat exceeds 50 degC"),
    ],
)  # fmt: skip
def test_said_otherwise_it_has_the_same_readings(declared: str, left: str, words: str, plainly: str) -> None:
    assert all_readings(declared, left, words) == all_readings(declared, left, plainly)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("is open if the pressure is above 2 bar or the heat exceeds 50 degC, but not both",
         "if (pressure > 2 bar xor heat > 50 degC) then (flap = open)"),
        ("if either the pressure is above 2 bar or the heat exceeds 50 degC, but not both, the flap is open",
         "if (pressure > 2 bar xor heat > 50 degC) then (flap = open)"),
        ("is open unless the pressure is above 2 bar or the heat exceeds 50 degC, but not both of them",
         "((pressure > 2 bar xor heat > 50 degC) or (flap = open))"),
        ("is open if the pressure is above 2 bar and the heat exceeds 50 degC, but not both", ""),
        ("is open if the pressure is above 2 bar or the heat exceeds 50 degC, but not always both", ""),
    ],
)  # fmt: skip
def test_of_two_conditions_only_one_may_be_so(words: str, said: str) -> None:
    assert presumed_in_symbols(FLAP, "flap, pressure, heat", words) == said


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (DOZE, "dozing, signal", "leaves the deep doze state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "leaves the idle state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "hardly leaves the doze state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "does not leave the doze state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "the relay exits the doze state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal",
         "switches from the doze state to the idle state when the signal exceeds -95 dBm"),
        (DOZE, "dozing, signal", "leaves the doze state when the signal exceeds -95 dBm for at least 5 ms"),
        (STIRS, "stirring so, torque", "switch to stirring at a rate when the torque exceeds 2 N.m"),
        (STIRS, "stirring so, torque", "stirring at a rate when the torque exceeds 2 N.m"),
        (STIRS, "stirring so, torque",
         "switch from stirring at a constant rate when the torque exceeds 2 N.m"),
        (STIRS, "stirring so, torque",
         "the paddle does not stop stirring at a constant rate when the torque exceeds 2 N.m"),
        (HEATS, "heating, heat", "the pump starts heating the oil when the heat is below 40 degC"),
        (STIRS.replace("stirring so", "constant rate"), "constant rate, torque",
         "enters a rate mode when the torque exceeds 2 N.m"),
        (DRUM, "drum running, turns", "the rest of the drum is running if the turns are at least 2"),
        (DRUM, "drum running, turns", "keep the fan at rest unless the turns are at least 2"),
        (OPEN, "valve open, pressure", "the valve is at rest when the pressure is above 2 bar"),
        (FLAP, "heat", "rarely leaves the range of 20 to 30 degC"),
        (FLAP, "heat", "leaves the range of 20 to 30 degC"),
        (FLAP, "heat", "never leaves the range of 20 to 30 degC by more than 2 K"),
        (FLAP, "heat", "does not leave a range of 5 degC"),
    ],
)  # fmt: skip
def test_what_says_more_or_less_than_the_state_is_refused(declared: str, left: str, words: str) -> None:
    assert presumed_in_symbols(declared, left, words) == ""
