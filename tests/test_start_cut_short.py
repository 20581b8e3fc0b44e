"""`start` takes a limit with all words that go on with it, or marks them with it.

The claims are our own; the lines and marks beside each are all that it may get, told by hand.
"""

from __future__ import annotations

import pytest

from scopecheck.drafting.anew import proposed_anew
from scopecheck.drafting.asked import questions
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.start import drafted
from scopecheck.foundations.spans import Source
from tests.test_start import lines, read


def _beside(text: str) -> set[str]:
    """The lines and marks beside the claims of a draft, which `check` reads without a mistake."""
    read(text)
    return {line.removeprefix("| ") for line in lines(text) if line.startswith("|")}


def _marks(*words: str) -> set[str]:
    return {f"not restated : {one}" for one in words}


@pytest.mark.parametrize(
    ("claim", "kept"),
    [
        (
            "A flap which opens when the pressure in the can is at least 10 mbar below the outer pressure and"
            " is closed otherwise.",
            (
                "opens when the pressure in the can is at least 10 mbar below the outer pressure",
                "and is closed otherwise",
            ),
        ),
        (
            "A cooler, wherein a fan is on when the temperature is more than 5 °C higher than the set"
            " temperature.",
            ("is on when the temperature is more than 5 °C higher than the set temperature",),
        ),
        (
            "A flap which opens when the pressure exceeds 80 % of the nominal pressure.",
            ("opens when the pressure exceeds 80 % of the nominal pressure",),
        ),
        (
            "A flap which opens when the pressure exceeds 1.2 times the nominal pressure.",
            ("opens when the pressure exceeds 1.2 times the nominal pressure",),
        ),
        (
            "A hatch which is locked when the cart is more than 10 mm away from a platform.",
            ("is locked when the cart is more than 10 mm away from a platform",),
        ),
        (
            "A hatch, wherein the hatch is kept closed unless the cart is within ±10 mm of a platform and its"
            " speed is below 0.1 m/s.",
            ("is kept closed unless the cart is within ±10 mm of a platform and its speed is below 0.1 m/s",),
        ),
        (
            "A lock, wherein the lid is locked while the speed is above 10 rpm for at least 3 seconds.",
            ("is locked while the speed is above 10 rpm for at least 3 seconds",),
        ),
        (
            "A fan which starts when the temperature exceeds 60 °C or a humidity exceeds 80 %.",
            ("starts when the temperature exceeds 60 °C or a humidity exceeds 80 %",),
        ),
        (
            "A fan which starts when the temperature exceeds 60 °C and the lid is closed.",
            ("starts when the temperature exceeds 60 °C and the lid is closed",),
        ),
    ],
)
def test_a_condition_whose_words_go_on_behind_its_limit_is_marked_whole(
    claim: str, kept: tuple[str, ...]
) -> None:
    assert _beside(f"1. {claim}\n") == _marks(*kept)


def test_what_is_done_else_is_no_part_of_a_condition() -> None:
    found = _beside(
        "1. A fan which starts when the temperature exceeds 60 °C and stops when the temperature falls"
        " below 50 °C.\n2. The fan of claim 1, wherein the fan stops only if the speed is below 3 rpm.\n"
    )
    assert "fan on, temperature : starts when the temperature exceeds 60 °C" in found
    assert "fan on, temperature : stops when the temperature falls below 50 °C" in found
    assert "fan on, speed : stops only if the speed is below 3 rpm" in found


@pytest.mark.parametrize(
    ("claim", "kept"),
    [
        (
            "A gate, wherein the return begins within 200 ms of the closing force exceeding 150 N.",
            "within 200 ms of the closing force exceeding 150 N",
        ),
        (
            "A brake, wherein the brake is applied within 50 ms of the speed dropping below 3 m/s.",
            "within 50 ms of the speed dropping below 3 m/s",
        ),
        (
            "A brake, wherein a shoe is released after the torque exceeding 40 Nm.",
            "after the torque exceeding 40 Nm",
        ),
        (
            "A brake configured to apply a force of 40 N as a result of the speed reaching 3 m/s.",
            "force of 40 N as a result of the speed reaching 3 m/s",
        ),
        (
            "A flap, wherein the slot is closed by the time the pressure difference has fallen below 4 mbar.",
            "is closed by the time the pressure difference has fallen below 4 mbar",
        ),
        (
            "A mill, wherein the speed is raised to a value of 900 to 1200 rpm as soon as the temperature of"
            " the oil is above 50 °C.",
            "a value of 900 to 1200 rpm as soon as the temperature of the oil is above 50 °C",
        ),
        (
            "A brake configured to apply a force of 40 N the moment the speed reaches 3 m/s.",
            "a force of 40 N the moment the speed reaches 3 m/s",
        ),
        (
            "A gate, wherein the rest time is 2 to 5 seconds in a quiet mode and 4 to 10 seconds in a rush"
            " mode.",
            "rest time is 2 to 5 seconds in a quiet mode and 4 to 10 seconds in a rush mode",
        ),
        (
            "A heater, wherein the power is 20 to 50 W by day and 5 to 10 W by night.",
            "power is 20 to 50 W by day and 5 to 10 W by night",
        ),
        (
            "A heater having a voltage of 5 V for a first lamp and 9 V for a second lamp.",
            "voltage of 5 V for a first lamp and 9 V for a second lamp",
        ),
        (
            "A method of switching a receiver when a level of the signal falls below a threshold of -95 dBm.",
            "when a level of the signal falls below a threshold of -95 dBm",
        ),
        (
            "A detector which triggers an alarm when a signal exceeds a limit value of 3 V.",
            "when a signal exceeds a limit value of 3 V",
        ),
        (
            "A seal, wherein the gap is 3 to 5 mm when the seal is dry and 4 to 6 mm when the seal is wet.",
            "gap is 3 to 5 mm when the seal is dry and 4 to 6 mm when the seal is wet",
        ),
        (
            "A spring, wherein the wire is 20 cm long in a slack state and 30 cm long in a taut state.",
            "wire is 20 cm long in a slack state and 30 cm long in a taut state",
        ),
        (
            "A method wherein a bath is stirred at 20 rpm before a dye is added and at 60 rpm after that.",
            "stirred at 20 rpm before a dye is added and at 60 rpm after",
        ),
        (
            "A door, wherein, a force of 150 N being exceeded, a motor reverses within 50 ms.",
            "force of 150 N being exceeded, a motor reverses within 50 ms",
        ),
        (
            "A method wherein a flask is shaken so as to be, within 10 ms, opened.",
            "within 10 ms",
        ),
        (
            "A detector, wherein an alarm sounds for 10 s or until a button is pressed.",
            "for 10 s or until a button is pressed",
        ),
    ],
)
def test_what_happens_and_what_holds_in_one_case_only_is_no_limit(claim: str, kept: str) -> None:
    assert _beside(f"1. {claim}\n") == _marks(kept)


def test_a_step_done_only_when_something_holds_keeps_its_only() -> None:
    found = _beside(
        "1. A method of drying, comprising heating the wool to 60 °C; venting the drum only when the wool has"
        " cooled to below 30 °C; and folding the wool within 5 minutes of the venting.\n"
    )
    assert "venting, cooling temperature : only when the wool has cooled to below 30 °C" in found
    assert "heating temperature : 60 °C" in found
    assert not [line for line in found if " : when " in line]


@pytest.mark.parametrize(
    ("claim", "found"),
    [
        ("A gear having 20 teeth or more.", "teeth : 20 teeth or more"),
        ("A pipe having 3 layers or fewer.", "layers : 3 layers or fewer"),
        ("A window having 3 panes of glass or fewer.", "not restated : 3 panes of glass or fewer"),
        (
            "A paste comprising a chalk, wherein the content of the chalk is 88 parts by weight or less.",
            "chalk : 88 parts by weight or less",
        ),
        (
            "A paste comprising a chalk, wherein the content of the chalk is 88 parts by weight or more.",
            "chalk : 88 parts by weight or more",
        ),
        (
            "A paste comprising a chalk, wherein the content of the chalk is at most 88 parts by weight.",
            "chalk : at most 88 parts by weight",
        ),
        (
            "A paste, wherein the chalk is present in an amount of 90 to 97 parts by mass.",
            "chalk : 90 to 97 parts by mass",
        ),
    ],
)
def test_what_closes_a_limit_behind_its_noun_belongs_to_it(claim: str, found: str) -> None:
    assert _beside(f"1. {claim}\n") == {found}


THREADS = """\
1. A screw having a plurality of threads, wherein each thread has a pitch of at most 2 mm.
2. The screw of claim 1, wherein at least one thread has a pitch of 1 mm or less.
3. The screw of claim 1, wherein exactly two threads have a pitch of 1 mm or less.
4. The screw of claim 1, wherein the majority of the threads have a pitch of 1 mm or less.
5. The screw of claim 1, wherein the pitch of one of the threads is 1 mm or less.
6. The screw of claim 1, wherein some of the threads have a pitch of 1 mm or less.
7. The screw of claim 1, wherein at least one of the threads, being the outer one, has a pitch of 1 mm.
8. The screw of claim 1, wherein at least two ribs have a width of 1 mm and a height of 2 mm.
9. The screw of claim 1, wherein at least one rib has a length of 1 mm.
"""


def test_a_limit_of_some_of_several_things_is_none_of_all() -> None:
    of = "pitch of the threads"
    assert _beside(THREADS) == {
        f"{of} : each thread has a pitch of at most 2 mm",
        "threads : a plurality",
        f"{of} : at least one thread has a pitch of 1 mm or less",
        f"{of} : exactly two threads have a pitch of 1 mm or less",
        f"{of} : the majority of the threads have a pitch of 1 mm or less",
        f"{of} : the pitch of one of the threads is 1 mm or less",
        f"{of} : some of the threads have a pitch of 1 mm or less",
        *_marks(
            "at least one of the threads, being the outer one, has a pitch of 1 mm",
            "at least two ribs have a width of 1 mm and a height of 2 mm",
            "at least one rib has a length of 1 mm",
        ),
    }


@pytest.mark.parametrize(
    ("claim", "found"),
    [
        ("A gate, wherein the closing force is limited to 120 N.", "closing force : limited to 120 N"),
        ("A gate, wherein a torque is capped at 40 Nm.", "torque : capped at 40 Nm"),
        ("A gate, wherein a torque is limited to at most 40 Nm.", "torque : at most 40 Nm"),
        (
            "A drive configured to limit a speed of the cart to 3 m/s.",
            "not restated : limit a speed of the cart to 3 m/s",
        ),
        ("A film with a thickness within 5 % of 95 nm.", "thickness : within 5 % of 95 nm"),
        ("A rod having a length within 2 mm of 40 cm.", "length : within 2 mm of 40 cm"),
        (
            "A rod having a mass within 2 % of the mass of the tube.",
            "not restated : within 2 % of the mass of the tube",
        ),
        (
            "A chalk, wherein at least 90 % by number of the grains of the chalk are smaller than 32 µm.",
            "not restated : at least 90 % by number of the grains of the chalk are smaller than 32 µm",
        ),
        (
            "A powder in which 95 % by weight of the grains have a diameter of less than 2 mm.",
            "not restated : 95 % by weight of the grains have a diameter of less than 2 mm",
        ),
        (
            "A chalk having a residue on a 45 µm sieve of less than 8 %.",
            "not restated : residue on a 45 µm sieve of less than 8 %",
        ),
        ("A dust passing through a 2 mm mesh.", "not restated : through a 2 mm mesh"),
        (
            "A flour containing at most 0.05 % by weight of any single impurity.",
            "not restated : at most 0.05 % by weight of any single impurity",
        ),
        (
            "A hose, wherein the pressure is kept within 0.2 bar of a set value of 3 bar.",
            "not restated : within 0.2 bar of a set value of 3 bar",
        ),
        (
            "A fleece, wherein the wool has a weight of 3 kg or more per batch.",
            "not restated : 3 kg or more per batch",
        ),
        (
            "A clock having rates which differ by at least 3 %.",
            "not restated : differ by at least 3 %",
        ),
        (
            "A glue, wherein a strength does not fall below 4 MPa until the temperature exceeds 80 °C.",
            "not restated : does not fall below 4 MPa until the temperature exceeds 80 °C",
        ),
        (
            "A bath, wherein a temperature is not to go below 40 °C.",
            "not restated : not to go below 40 °C",
        ),
        (
            "A bath, wherein a pressure is not increased beyond 3 bar.",
            "not restated : not increased beyond 3 bar",
        ),
        (
            "A machine, wherein a filter retains at least 95 % by weight of all grains larger than 0.5 mm.",
            "not restated : at least 95 % by weight of all grains larger than 0.5 mm",
        ),
        (
            "A glue, wherein the hardener is selected from amines, acids, and any mixture of two or more of"
            " these.",
            "hardener : selected from amines, acids, and any mixture of two or more of these",
        ),
        (
            "A machine, wherein a pump runs at 2000 rpm for 5 minutes or more and at 3000 rpm for 2 minutes.",
            "not restated : pump runs at 2000 rpm for 5 minutes or more and at 3000 rpm for 2 minutes",
        ),
        (
            "A flour containing at most 2 mg/kg of each metal.",
            "not restated : at most 2 mg/kg of each metal",
        ),
        (
            "A coated corn comprising a corn and a coating, wherein the coating makes up 5 to 25 wt% of the"
            " coated corn.",
            "coating : 5 to 25 wt%",
        ),
        (
            "A method comprising spraying a binder onto corn at a gauge pressure of 1.5 to 3 bar.",
            "spraying pressure : a gauge pressure of 1.5 to 3 bar",
        ),
        (
            "A method comprising filling a flask at an absolute pressure of less than 50 mbar.",
            "filling pressure : an absolute pressure of less than 50 mbar",
        ),
        (
            "A glue, wherein the resin is selected from the group consisting of starch, casein and"
            " combinations of two or more thereof.",
            "resin : selected from the group consisting of starch, casein and combinations of two or more"
            " thereof",
        ),
        (
            "A glue, wherein the resin is at least one selected from the group consisting of starch, casein,"
            " and a mixture thereof.",
            "resin : at least one selected from the group consisting of starch, casein,"
            " and a mixture thereof",
        ),
        (
            "A glue, wherein the resin is starch, casein, or a blend of any of these.",
            "not restated : is starch, casein, or a blend of any of these",
        ),
    ],
)
def test_a_limit_is_of_what_its_words_say(claim: str, found: str) -> None:
    assert _beside(f"1. {claim}\n") == {found}


def test_a_limit_behind_not_keeps_it_and_a_limit_is_no_condition_of_another() -> None:
    found = _beside(
        "1. A glue having a viscosity of 3 Pa·s or less at 25 °C and a pot life of 2 h or more, wherein a"
        " strength does not fall below 4 MPa.\n"
    )
    assert "viscosity : 3 Pa·s or less at 25 °C" in found
    assert "pot life : 2 h or more" in found
    assert not [line for line in found if line.endswith(" : below 4 MPa")]


def test_a_mixture_of_members_is_no_member_and_a_gauge_pressure_is_declared_as_one() -> None:
    glue = lines("1. A glue, wherein the resin is selected from starch, gum and any combination thereof.\n")
    assert "resin any of starch, gum" in glue
    assert "pressure pressure in bar(g)" in lines("1. A flask held at a gauge pressure of 3 bar.\n")


def test_what_is_measured_within_a_time_gives_a_step_no_duration() -> None:
    found = _beside(
        "1. A method comprising: sending pulses; measuring a rate over an interval of 100 ms to 500 ms.\n"
        "2. The method of claim 1, wherein a base time is the least of the times measured within the last 10"
        " seconds.\n"
    )
    assert "not restated : measured within the last 10 seconds" in found
    assert not [line for line in found if "10 seconds" in line and not line.startswith("not restated")]


def test_what_is_done_to_one_thing_is_no_limit_of_another_with_the_same_last_word() -> None:
    found = lines(
        "1. A gearbox having a sun gear and planet gears, the planet gears each having a relief of 20 to 60"
        " µm, the number of the planet gears being at least three.\n"
        "2. A method of running in the gearbox of claim 1, comprising rotating the sun gear at a speed of no"
        " more than 600 rpm for at least 2 hours, and draining the oil.\n"
    )
    assert "| rotating speed : no more than 600 rpm" in found
    found = lines(
        "1. A gearbox having a sun gear and at least three planet gears, the planet gears each having a"
        " relief of 20 to 60 µm.\n2. A method of running in the gearbox of claim 1, comprising rotating"
        " the sun gear at no more than 600 rpm for 2 hours, and heating the sun gear to 60 °C.\n"
    )
    assert "| rotating rotational speed : no more than 600 rpm" in found
    assert "| heating temperature : 60 °C" in found


@pytest.mark.parametrize(
    ("claim", "kept"),
    [
        (
            "A radar, wherein the track frame has fewer pulses than the search frame.",
            "fewer pulses than the search frame",
        ),
        ("A rack, wherein the upper shelf is finer than the lower shelf.", "finer than the lower shelf"),
        (
            "A rack having a greater width than any of the shelves of the rack.",
            "greater width than any of the shelves of the rack",
        ),
        (
            "A sender configured to increase a window by one segment per round trip.",
            "increase a window by one segment per round trip",
        ),
        ("A counter, wherein a count is lowered by one step.", "lowered by one step"),
        (
            "A method wherein the drum is loaded to between one third and two thirds of its volume.",
            "between one third and two thirds of its volume",
        ),
        ("A method wherein the drum is filled to two thirds.", "two thirds"),
        ("A soap comprising an oil, wherein the oil is olive oil.", "the oil is olive oil"),
        ("A valve, wherein the closing body is a ball.", "the closing body is a ball"),
    ],
)
def test_what_has_no_number_is_marked(claim: str, kept: str) -> None:
    assert _beside(f"1. {claim}\n") == _marks(kept)


def test_when_a_step_is_done_only_under_a_condition_is_no_order_of_the_steps() -> None:
    found = _beside(
        "1. A method comprising cleaning the plate; coating the plate to a thickness of 1 to 2 mm; and baking"
        " the plate for 3 minutes.\n"
        "2. The method of claim 1, wherein, if a thickness exceeds 3 nm, the plate is re-cleaned prior to the"
        " baking.\n"
        "3. The method of claim 1, wherein the plate is cleaned again before the baking if the plate is"
        " wet.\n"
        "4. The method of claim 1, wherein the plate is re-cleaned before the baking.\n"
    )
    assert "not restated : if a thickness exceeds 3 nm, the plate is re-cleaned prior to the baking" in found
    assert "not restated : the plate is cleaned again before the baking if the plate is wet" in found
    assert not [line for line in found if line.startswith("cleaning :")]


def test_two_ends_of_one_ratio_are_no_two_limits_of_which_one_is_enough() -> None:
    of = "a ratio of a negative capacity to a positive capacity (N/P ratio) is more than 1.0 and 1.2 or less"
    asked = questions(drafted("claims", pasted(f"1. A cell, wherein {of}.\n")))
    assert not [question for question in asked if question.startswith("One of several")]
    assert [question for question in asked if question.startswith("A ratio of which two")]
    either = "1. A rod having a speed of 3 m/s or a force of 3 N or less.\n"
    asked = questions(drafted("claims", pasted(either)))
    assert [question for question in asked if question.startswith("One of several")]


HALF_DONE = """\
title    Door
profile  US

1. A door, wherein a gap is 3 to 5 mm when the door is shut and 4 to 6 cm when the door is open.

2. The door of claim 1, wherein the return begins within 200 ms of the force exceeding 150 N.

3. The door of claim 1, wherein at least one latch has a length of 3 mm.

4. The door of claim 1, having 20 slats or more and a gauge pressure of 3 bar.
"""


def test_what_is_proposed_for_a_sheet_is_not_cut_short_either() -> None:
    found = [line.strip() for line in proposed_anew(Source("door", HALF_DONE)).splitlines()]
    for line in (
        "| not restated : a gap is 3 to 5 mm when the door is shut and 4 to 6 cm when the door is open",
        "| not restated : within 200 ms of the force exceeding 150 N",
        "| not restated : at least one latch has a length of 3 mm",
        "| slats : 20 slats or more",
        "| pressure : a gauge pressure of 3 bar",
        "pressure  pressure in bar(g)",
    ):
        assert line in found, (line, found)


@pytest.mark.parametrize(
    ("claim", "kept"),
    [
        ("A kiln, wherein the flue is hotter than 90 °C.", "flue temperature : hotter than 90 °C"),
        ("A kiln, wherein the sill is colder than 10 °C.", "sill temperature : colder than 10 °C"),
        ("A kiln, wherein the sill is not colder than 10 °C.", "sill temperature : not colder than 10 °C"),
        (
            "A kiln, wherein the vault is warmer than 37 °C but not warmer than 42 °C.",
            "vault temperature : warmer than 37 °C but not warmer than 42 °C",
        ),
        (
            "A kiln, wherein the lid is heavier than 2 kg and lighter than 5 kg.",
            "lid : heavier than 2 kg and lighter than 5 kg",
        ),
        (
            "A kiln, wherein the lid is lighter than 3 kg or heavier than 7 kg.",
            "lid : lighter than 3 kg or heavier than 7 kg",
        ),
        ("A kiln, wherein the lid is no heavier than 2 kg.", "lid : no heavier than 2 kg"),
        ("A kiln, wherein the belt runs slower than 3 m/s.", "belt : slower than 3 m/s"),
        ("A kiln, wherein the groove is shallower than 5 mm.", "groove : shallower than 5 mm"),
        ("A kiln, wherein the post is taller than 2 m.", "post : taller than 2 m"),
        # what no phrase reads is marked whole, and never its number alone
        ("A kiln, wherein the pad is harder than 40 N.", "not restated : harder than 40 N"),
        (
            "1. A kiln, the stack being twice as high as the body.",
            "stack height, body height : twice as high as the body",
        ),
        (
            "A kiln, wherein at least 80 % of the ribs have different heights.",
            "not restated : at least 80 % of the ribs have different heights",
        ),
        (
            "A kiln, wherein the coal contains no more than 12 % moisture by weight.",
            "moisture : no more than 12 % moisture by weight",
        ),
        (
            "A kiln, wherein the coal contains 3 to 8 % of a tar by volume.",
            "tar : 3 to 8 % of a tar by volume",
        ),
        ("A kiln, wherein the gas contains by volume at most 2 % oxygen.", "oxygen : by volume at most 2 %"),
        (
            "A kiln, wherein the sand contains at most 2 % clay by number.",
            "not restated : at most 2 % clay by number",
        ),
        ("A kiln, wherein adjacent ribs are spaced by 2 to 3 mm.", "spacing : 2 to 3 mm"),
        (
            "A kiln, wherein the lamps are spaced apart by at least 30 mm.",
            "spacing : at least 30 mm",
        ),
        (
            "1. A kiln, the water level being kept at not less than 120 mm.",
            "water level : not less than 120 mm",
        ),
    ],
)
def test_a_comparative_or_a_basis_beside_a_limit_stays_with_it(claim: str, kept: str) -> None:
    assert {" ".join(line.split()) for line in _beside(claim)} == {kept}


def test_a_share_said_by_weight_is_declared_by_weight() -> None:
    made = lines("A kiln, wherein the coal contains no more than 12 % moisture by weight.")
    assert "moisture share in wt%" in [" ".join(line.split()) for line in made]
