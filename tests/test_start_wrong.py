"""`start` gives a limit to what it is of: sums, conditions of measuring, times from something on, steps.

The claims are our own; what each limit is of is what the words say, told by hand.
"""

from __future__ import annotations

import pytest

from tests.test_start import lines, read, started

COATING = """\
1. A coating comprising 20 to 45 % by weight of a binder, 5 to 15 % by weight of chalk and water, wherein the
combined amount of the binder and the chalk is at most 55 % by weight.
2. The coating of claim 1, wherein the coating has a viscosity at 25 °C of at most 500 mPa·s, a density at 20
°C of 1.1 to 1.3 g/cm3, and a conductivity of 2 to 4 mS/cm at 25 °C.
3. The coating of claim 1, further comprising a first soap and a second soap, wherein the first soap and the
second soap together make up from 0.5 to 2 % by weight.
4. The coating of claim 1, further comprising a wax, a dye and a salt in a total amount of less than 3 % by
weight, wherein the wax has a melting point above 60 °C.
"""


def test_limits_of_several_together_are_lines_on_the_sum() -> None:
    found = lines(COATING)
    assert "| binder + chalk : combined amount of the binder and the chalk is at most 55 % by weight" in found
    assert (
        "| first soap + second soap : the first soap and the second soap together make up from 0.5 to 2 %"
        " by weight" in found
    )
    whole = "a wax, a dye and a salt in a total amount of less than 3 % by weight"
    assert f"| wax + dye + salt : {whole}" in found
    read(COATING)


def test_a_condition_of_measuring_is_no_limit() -> None:
    found = lines(COATING)
    assert "| viscosity : at 25 °C of at most 500 mPa·s" in found
    assert "| density : at 20 °C of 1.1 to 1.3 g/cm3" in found
    assert "| conductivity : 2 to 4 mS/cm at 25 °C" in found
    assert "| melting point : above 60 °C" in found
    assert not [line for line in found if line.endswith((": 25 °C", ": 20 °C", ": at 25 °C"))]
    assert 'viscosity viscosity in mPa.s "at 25 °C"' in found


TEMPERING = """\
1. A method of tempering fat, comprising: heating the fat to a temperature of 45 to 50 °C; cooling the fat to
27 °C at a pressure of 2 bar; and pressing the fat at a pressure of 4 bar for 20 minutes.
2. The method of claim 1, wherein the cooling begins no sooner than 2 minutes after the heating ends.
3. The method of claim 1, wherein the pressing is performed within 30 minutes of the cooling.
4. The method of claim 1, further comprising pouring the fat into forms and cooling the forms to 8 °C.
"""


def test_limits_of_two_steps_are_of_two_quantities() -> None:
    found = lines(TEMPERING)
    assert "| heating temperature : 45 to 50 °C" in found
    assert "| cooling temperature : 27 °C" in found
    assert "| cooling pressure : 2 bar" in found
    assert "| pressing pressure : 4 bar" in found
    assert "| forms cooling temperature : 8 °C" in found
    read(TEMPERING)


def test_a_time_from_a_step_on_is_a_line_of_the_step_that_it_speaks_of() -> None:
    found = lines(TEMPERING)
    assert "| cooling : no sooner than 2 minutes after the heating ends" in found
    assert "| pressing : within 30 minutes of the cooling" in found


@pytest.mark.parametrize(
    ("words", "kept"),
    [
        (
            "to start a pump no earlier than 100 ms after the valve opens",
            "no earlier than 100 ms after the valve",
        ),
        ("to stop a pump within 40 ms of a trigger signal", "within 40 ms of a trigger signal"),
        (
            "to stop a pump within 200 ms when a pressure exceeds 2 bar",
            "a pump within 200 ms when a pressure exceeds 2 bar",
        ),
        (
            "to open a valve after the pressure has fallen below 3 bar",
            "after the pressure has fallen below 3 bar",
        ),
        (
            "to keep a gap exceeding the width of the valve by 2 to 4 mm",
            "exceeding the width of the valve by 2",
        ),
        ("to print 20 to 30 dots per cm", "20 to 30 dots per cm"),
        ("to fill it to between one third and two thirds", "between one third and two"),
        ("to use the larger of the two pumps", "two"),
        ("to wait for no, one or two alarms", "motor and to wait for no, one or two"),
        ("to skip no more than one out of every ten frames", "motor and to skip no more than one out"),
        ("to have fewer than twice as many pumps as valves", "fewer than twice as many pumps as valves"),
        ("to keep Mn/C at 10 or more", "Mn/C at 10"),
    ],
)
def test_a_number_that_limits_nothing_by_itself_is_marked(words: str, kept: str) -> None:
    text = f"1. A controller configured to run a motor and {words}.\n"
    assert [line for line in lines(text) if line.startswith(f"| not restated : {kept}")], lines(text)
    read(text)


LOCK = """\
1. A lock comprising a bolt having a mass of at most 90 g, a motor with a resistance of 2 to 3 ohm
at 20 °C and of at most 4 ohm at 80 °C, and two plates each having three to five pins, wherein a
combined mass of the bolt and the motor is less than 0.4 kg and a distance between the bolt and the
motor is 2 to 4 mm.
2. The lock of claim 1, wherein the bolt and the motor together weigh at least 200 g.
3. The lock of claim 1, having a first cell of 10 to 20 g and a tray of 30 mm x 40 mm, wherein the
lock is held at 45 °C for 10 minutes and at 27 °C for 5 minutes, and a sleeve of polymer 66.
"""


def test_like_limits_of_several_things_stay_apart() -> None:
    found = lines(LOCK)
    assert "| mass + motor mass : less than 0.4 kg" in found
    assert "| mass + motor mass : at least 200 g" in found
    assert "| distance : 2 to 4 mm" in found
    assert "| plates pins : three to five" in found
    of = {line.split(" : ")[0] for line in found if line.endswith((": for 10 minutes", ": 10 minutes"))}
    assert of.isdisjoint(line.split(" : ")[0] for line in found if line.endswith(": 5 minutes"))
    assert not [line for line in found if line.endswith((": 66", ": 30 mm", ": 40 mm"))]
    read(LOCK)


def test_the_claim_that_is_named_ends_before_a_temperature() -> None:
    text = (
        "1. An ink comprising water.\n2. A method comprising heating the ink of claim 1 to 35 °C for 2 h.\n"
    )
    assert "| heating temperature : 35 °C" in lines(text)
    assert read(text).claims[1].parents == (1,)


def test_a_limit_of_what_is_excluded_is_marked() -> None:
    claim = (
        "1. A machine with a tank of at least 1 l, the machine being free of any boiler of more than 0.5 l.\n"
    )
    drafted = [line for line in lines(claim) if line.startswith("|")]
    assert "| tank : at least 1 l" in drafted
    assert {line.partition(" : ")[0] for line in drafted if "0.5 l" in line} == {"| not restated"}


COUNTED_OF = """\
1. A gear set comprising a small wheel having at most eleven teeth and a large wheel having at least forty
teeth.
2. A lens system, wherein half of a maximum field of view of the lens system is greater than 35 degrees.
3. A lens system, wherein the refractive index of the second lens element is 1.64 or higher.
4. A controller configured to limit a rate of change of the motor speed to 10 rpm/s or less.
5. A heat pump having a coefficient of performance of at least 3.5 at an outdoor temperature of 7 °C and a
flow temperature of 35 °C.
6. A polymer which is a copolymer of at least 30 wt% butyl acrylate and up to 5 wt% of an acid monomer.
7. A film comprising a polyamide selected from PA6, PA66 and PA6/66.
"""


def test_a_limit_is_of_what_the_words_say_and_not_of_what_stands_beside_it() -> None:
    found = lines(COUNTED_OF)
    assert "| small wheel teeth : at most eleven" in found
    assert "| large wheel teeth : at least forty" in found
    half = "half of a maximum field of view of the lens system is greater than 35 degrees"
    assert f"| not restated : {half}" in found
    assert "| refractive index : 1.64 or higher" in found
    assert "| motor speed change rate : 10 rpm/s or less" in found
    (line,) = (line for line in found if line.startswith("| coefficient of performance :"))
    assert line.startswith("| coefficient of performance : at least 3.5 at an outdoor temperature of 7 °C")
    assert not [line for line in found if ": 35 °C" in line and "not restated" not in line]
    assert "| butyl acrylate : at least 30 wt%" in found
    chosen = [line for line in found if line.startswith("|") and "selected from" in line]
    assert chosen == ["| not restated : selected from PA6, PA66 and PA6/66"]
    read(COUNTED_OF)


@pytest.mark.parametrize("stopped", ["is interrupted", "is suspended", "is prevented"])
def test_what_is_not_done_on_a_condition_is_not_drafted_as_done_on_it(stopped: str) -> None:
    text = SPRAYING.format(stopped=stopped)
    found = lines(text)
    assert not [line for line in found if line.startswith("| spraying, wind speed :")]
    marked = [line for line in found if line.startswith("| not restated :")]
    assert [line for line in marked if line.endswith("when the wind speed exceeds 5 m/s")]
    read(text)


SPRAYING = """\
1. A method of treating a field, comprising applying not more than 200 l/ha of a liquid at a working speed of
6 to 12 km/h, wherein at least 90 % of the droplets are larger than 100 µm and spraying {stopped} when the
wind speed exceeds 5 m/s.
"""


def test_a_step_omitted_on_a_condition_is_a_line_with_the_word() -> None:
    found = lines(SPRAYING.format(stopped="is omitted"))
    assert "| spraying, wind speed : omitted when the wind speed exceeds 5 m/s" in found
    found = lines(SPRAYING.format(stopped="is not carried out"))
    assert "| spraying, wind speed : not carried out when the wind speed exceeds 5 m/s" in found
    found = lines(SPRAYING.format(stopped="is carried out"))
    assert "| spraying, wind speed : when the wind speed exceeds 5 m/s" in found


HELD = """\
1. A method of treating beans, comprising heating the beans to 80 to 90 °C for 10 to 20 minutes, and, if the
moisture content exceeds 14 wt%, drying the beans for at least 30 minutes.
2. A method of operating a cutter, comprising feeding herbs at 2 to 4 kg/min, cutting the herbs, and reversing
the drive for 1 to 2 seconds when the motor current exceeds 1.5 A.
3. A method of making bread, comprising mixing a dough for 5 to 10 min, resting the dough for at least 20 min,
and kneading the dough for 3 min and then for 2 min if the dough temperature is below 20 °C.
"""


def test_how_long_a_step_takes_that_is_done_on_a_condition_is_said_with_it() -> None:
    found = lines(HELD)
    both = "if the moisture content exceeds 14 wt% ... for at least 30 minutes"
    assert f"| drying, moisture content : {both}" in found
    assert "| reversing, motor current : for 1 to 2 seconds when the motor current exceeds 1.5 A" in found
    alone = ("| drying :", "| reversing :", "| kneading :", "| heating, moisture content :")
    assert not [line for line in found if line.startswith(alone)]
    read(HELD)


OF_SOME = """\
1. A sprayer comprising at least three nozzles, each nozzle having a spray angle of 30 to 90°, and two pins
(8) for each nozzle.
2. The sprayer of claim 1, wherein at least two of the nozzles have a spray angle between 60° and 90°.
3. The sprayer of claim 1, comprising a first layer and a second layer, one of which has a thickness of 2 to 3
mm.
"""


def test_a_limit_of_some_of_the_things_is_no_limit_of_each_and_so_many_for_each_no_number_of_all() -> None:
    found = lines(OF_SOME)
    assert "| spray angle of the nozzles : each nozzle having a spray angle of 30 to 90°" in found
    some = "at least two of the nozzles have a spray angle between 60° and 90°"
    assert f"| spray angle of the nozzles : {some}" in found
    assert "| not restated : one of which has a thickness of 2 to 3 mm" in found
    assert not [line for line in found if line.startswith(("| pins :", "| thickness", "| nozzle spray"))]
    read(OF_SOME)


FRIT = """\
1. A frit consisting of 45 to 55 % by weight of silica, 10 to 15 % by weight of alumina, {0}.
"""


def test_a_composition_is_not_closed_without_one_of_its_ingredients() -> None:
    whole = FRIT.format("and 30 to 45 % by weight of lime")
    assert "| frit : consisting of" in lines(whole)
    some = "20 to 30 % by weight of at least one of boric oxide and zinc oxide"
    short = FRIT.format(f"{some}, and 5 % by weight of lime")
    assert "| frit : consisting of" not in lines(short)
    assert [line for line in lines(short) if line.startswith("| not restated : consisting of")]
    read(short)


@pytest.mark.parametrize(
    ("words", "mark"),
    [
        ("the valve is shut if the lamp is lit", "if the lamp is lit"),
        ("the track is shorter than the search", "shorter than the search"),
        ("the track is half as long as the search", "half as long as the search"),
        ("the track has fewer pulses than the search", "fewer pulses than the search"),
        ("the mode is selected from slow, fast", "selected from slow, fast"),
        ("the slit is below the ambient pressure", "below the ambient pressure"),
    ],
)
def test_what_limits_without_a_number_is_marked_with_what_it_speaks_of(words: str, mark: str) -> None:
    assert f"| not restated : {mark}" in lines(f"1. A radar, wherein {words}.\n")


@pytest.mark.parametrize(
    ("said", "there", "never"),
    [
        (
            "injecting a liquid, subjecting the cell to a first charging at a rate of 2 A, aging the cell"
            " at a temperature of 40 to 60 °C for 12 to 72 hours, and degassing the cell within 2 hours of"
            " the end of the aging",
            {
                "| injecting, charging, aging, degassing : comprising", "| charging rate : 2 A",
                "| aging temperature : 40 to 60 °C", "| aging : for 12 to 72 hours",
                "| degassing : within 2 hours of the end of the aging",
            },
            "subjecting",
        ),
        (
            "mixing a powder, vacuum drying the powder for 2 hours, and pressing the powder after the mixing",
            {"| mixing, vacuum drying, pressing : comprising", "| vacuum drying : for 2 hours"},
            "| mixing : for",
        ),
        (
            "heating a dough, allowing the dough to rest for 2 hours, and baking the dough after the heating",
            {"| heating, baking : comprising", "| rest time : 2 hours", "| baking : after the heating"},
            "| heating : for",
        ),
        (
            "mixing a powder for 5 minutes, storage of it for 2 hours, and pressing it after the mixing",
            {"| mixing : for 5 minutes", "| storage time : 2 hours", "| pressing : after the mixing"},
            "| mixing : for 2 hours",
        ),
        (
            "stretching a film for 1 minute and a heat treatment of the film for 3 hours, and winding the"
            " film after the stretching",
            {"| stretching : for 1 minute", "| treatment time : 3 hours", "| winding : after the stretching"},
            "| stretching : for 3",
        ),
        (
            "heating a spring, a string and a ring for 5 minutes, using a coil, and pouring oil after the"
            " heating",
            {"| heating, pouring : comprising", "| heating : for 5 minutes", "| pouring : after the heating"},
            "string",
        ),
        (
            "heating the oil, the wax and the resin for 10 minutes, and tying the bag within 3 minutes of the"
            " heating",
            {"| heating, tying : comprising", "| heating : for 10 minutes"},
            "not restated",
        ),
    ],
)  # fmt: skip
def test_how_long_something_takes_is_of_the_act_that_says_so(said: str, there: set[str], never: str) -> None:
    claims = f"1. A method comprising {said}.\n"
    found = lines(claims)
    assert there <= set(found), there - set(found)
    assert not any(never in line for line in found if line.startswith("|"))
    read(claims)


@pytest.mark.parametrize(
    ("said", "there"),
    [
        (
            "the tablet releases between 40% and 70% of the drug after 4 hours, and not less than 80% of the"
            " drug after 12 hours",
            {
                "| not restated : between 40% and 70% of the drug after 4 hours",
                "| not restated : not less than 80% of the drug after 12 hours",
            },
        ),
        (
            "the tablet releases at least 30% of the drug at pH 1.2 and at least 50% of the drug at pH 6.8",
            {
                "| not restated : at least 30% of the drug at pH 1.2",
                "| not restated : at least 50% of the drug at pH 6.8",
            },
        ),
        (
            "the gel has a viscosity of 10 to 20 Pa·s at 20 °C and 2 to 5 Pa·s at 40 °C",
            {"| viscosity : 10 to 20 Pa·s at 20 °C", "| gel viscosity : 2 to 5 Pa·s at 40 °C"},
        ),
        ("the cell has a capacity of 2 Ah and a capacity of 500 mAh", {"| not restated : 2 Ah"}),
        ("the rim has a height of above 3 m and below 900 cm", {"| height : above 3 m and below 900 cm"}),
        (
            "a search spans at least two symbols of a slot of 14 symbols",
            {"| symbols : at least two", "| slot symbols : 14"},
        ),
        (
            "the pack has a blister of 7 tablets and a sachet of 3 tablets",
            {"| blister tablets : 7", "| sachet tablets : 3"},
        ),
        ("the frame has at least two of ten slots", {"| not restated : at least two of"}),
        ("the box has a row of 5 pins and a total of 12 eggs", {"| pins : 5", "| eggs : 12"}),
        (
            "when tested in a bath at 50 rpm in 900 mL of a buffer at pH 6.8 and 37 °C, the tablet has a"
            " mass of 3 g",
            {
                "| not restated : when tested in a bath at 50 rpm in 900 mL of a buffer at pH 6.8 and 37 °C",
                "| mass : 3 g",
            },
        ),
        (
            "the tape has a peel force of at least 5 N, when measured at 23 °C and a speed of 300 mm/min,"
            " and a width of 5 mm",
            {
                "| peel force : at least 5 N, when measured at 23 °C and a speed of 300 mm/min",
                "| width : 5 mm",
            },
        ),
    ],
)  # fmt: skip
def test_what_holds_in_two_states_or_of_two_holders_is_not_one_quantity(said: str, there: set[str]) -> None:
    claims = f"1. A thing, wherein {said}.\n"
    found = lines(claims)
    assert there <= set(found), (there - set(found), found)
    read(claims)


@pytest.mark.parametrize(
    ("said", "there"),
    [
        ("14 tablets, with directions to take one tablet per day", {"| not restated : one tablet per day"}),
        (
            "14 tablets, and a label which instructs a user to heat the tablet to 40 °C for 5 minutes",
            {"| tablets : 14", "| not restated : instructs a user to heat the tablet to 40 °C for 5 minutes"},
        ),
        ("a counter having one pulse per second", {"| not restated : one pulse per second"}),
        ("a processor and a memory with instructions to cool the oil to 8 °C", {"| oil temperature : 8 °C"}),
        ("at least 6 eggs, one egg per cup, and four cups", {"| eggs, cups : one egg per cup"}),
    ],
)  # fmt: skip
def test_so_many_in_a_time_and_what_someone_is_told_to_do_are_marked(said: str, there: set[str]) -> None:
    claims = f"1. A kit comprising {said}.\n"
    found = lines(claims)
    assert there <= set(found), (there - set(found), found)
    read(claims)


@pytest.mark.parametrize(
    ("first", "second", "there"),
    [
        (
            "having a volume-based median particle diameter (D50) of 8 µm or more",
            "wherein the powder has a D50 of more than 10 µm",
            "| volume-based median particle diameter : more than 10 µm",
        ),
        (
            "having a D50 (median particle diameter) of 8 µm or more",
            "having a median particle diameter of more than 10 µm",
            "| D50 : more than 10 µm",
        ),
        (
            "having a glass transition temperature (Tg) of at least 80 °C",
            "wherein Tg is at most 90 °C",
            "| glass transition temperature : at most 90 °C",
        ),
        (
            "comprising polyethylene glycol (PEG) in an amount of 5 to 10 wt%",
            "comprising 6 to 7 wt% of PEG",
            "| polyethylene glycol : 6 to 7 wt%",
        ),
        (
            "and a pump, wherein the speed (n) of the pump is at least 50 rpm",
            "wherein n is 60 rpm",
            "| speed : 60 rpm",
        ),
        ("having a length (L) of 5 mm", "wherein L is 2 N", "| L : 2 N"),
        (
            "comprising first grains having a diameter (D50) of 8 µm or more",
            "further comprising second grains having a D50 of 3 µm",
            "| D50 : 3 µm",
        ),
        ("comprising (a) a rim, (b) 2 to 3 wt% of a salt", "wherein b is 2 wt%", "| b : 2 wt%"),
        ("of an oxide, wherein 0.30 ≤ x < 0.60", "wherein x is 0.60 to 0.80", "| x : 0.60 to 0.80"),
        ("of an oxide, wherein 0.30 ≤ x < 0.60", "wherein x is 0.40 to 0.50", "| x : 0.30 ≤ x < 0.60"),
        ("of an oxide, wherein 0.30 ≤ 2x² < 0.60", "wherein x is 0.4", "| not restated : 0.30 ≤ 2x² < 0.60"),
    ],
)  # fmt: skip
def test_a_short_name_in_brackets_and_the_letter_of_a_formula_are_that_quantity(
    first: str, second: str, there: str
) -> None:
    claims = f"1. A powder {first}.\n2. The powder of claim 1, {second}.\n"
    found = lines(claims)
    assert there in found, found
    read(claims)


@pytest.mark.parametrize(
    ("said", "there"),
    [
        ("the rate is 0.05 C to 0.2 C", "| not restated : 0.05 C to 0.2 C"),
        (
            "the mix contains one or more salts selected from 1,3-sultone and lime",
            "| not restated : one or more salts selected from 1,3-sultone and lime",
        ),
        (
            "the receiver leaves a sleep state when no signal is received before a timer of 40 ms expires",
            "| not restated : sleep state when no signal is received before a timer of 40 ms expires",
        ),
        ("Tmax is from 4 to 8 hours", "| Tmax : from 4 to 8 hours"),
        ("the oil is hot from 4 to 8 hours", "| time : from 4 to 8 hours"),
        (
            "the gum has a viscosity of 4 mPa·s as a 2% w/v aqueous solution at 20 °C",
            "| not restated : as a 2% w/v aqueous solution at 20 °C",
        ),
        (
            "the unit has at least two fans and a controller configured to stop when a voltage reaches 4 V",
            "| fans : at least two",
        ),
        (
            "the unit has at least two fans and a lamp when a voltage reaches 4 V",
            "| not restated : at least two fans and a lamp when a voltage reaches 4 V",
        ),
        (
            "a salt, a wax and a dye are present in a total amount of up to 5 wt%",
            "total amount of up to 5 wt%",
        ),
    ],
)
def test_marks_and_names_are_not_torn(said: str, there: str) -> None:
    claims = f"1. A thing, wherein {said}.\n"
    found = lines(claims)
    assert there in found or any(line.endswith(there) and "|" in line for line in found), found
    read(claims)


def test_a_line_of_a_claim_is_broken_where_the_next_can_begin() -> None:
    for words in range(1, 20):
        said = " ".join(["wide"] * words)
        claims = (
            f"1. A coating comprising a {said} polymer and a plasticizer in a weight ratio of plasticizer"
            " to film polymer of 1:10 to 3:10, wherein the coating has a hardness of 80 to 140 N.\n"
        )
        text = [line for line in started(claims).splitlines() if not line.lstrip().startswith(("#", "|"))]
        assert max(map(len, text)) <= 102
        read(claims)


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("A method comprising joining the web before its moisture content falls below 10 %.",
         "before its moisture content falls below 10 %"),
        ("A lens, wherein the gap is from 4 to 8 mm or the thickness of the rim is at least 2 mm.",
         "from 4 to 8 mm or the thickness of the rim is at least 2 mm"),
        ("A pump, wherein the dose is between 2 and 4 mL or the reservoir is empty.",
         "between 2 and 4 mL or the reservoir is empty"),
        ("A pump comprising a reservoir holding up to 300 units of dye.", "up to 300 units"),
        ("A method comprising slowing a drive by 10% for every 5 °C by which the temperature exceeds 40 °C.",
         "by which the temperature exceeds 40 °C"),
        ("A paint comprising grains, at least 90% of the grains being smaller than 25 µm.",
         "of the grains being smaller than 25 µm"),
    ],
)  # fmt: skip
def test_a_limit_that_holds_in_part_or_at_some_time_only_is_no_line(text: str, kept: str) -> None:
    found = lines(f"1. {text}\n")
    assert f"| not restated : {kept}" in found, found
    restated = [line for line in found if line.startswith("|") and not line.startswith("| not restated")]
    ends = ("below 10 %", "4 to 8 mm", "at least 2 mm", "2 and 4 mL", "300", "40 °C", "25 µm")
    assert not [line for line in restated if line.endswith(ends)], restated


def test_what_a_limit_goes_on_with_is_lifted_with_it() -> None:
    otherwise = "no more than 2 N/m, and otherwise of no more than 3 N/m"
    text = f"1. A tube, wherein, if the tube length exceeds 20 mm, the tube has a stiffness of {otherwise}.\n"
    assert [line for line in lines(text) if line.endswith(otherwise)]
    late = "over a period of between 2 and 4 minutes after the weighing"
    found = lines(f"1. A method comprising weighing a powder, dosing it {late}.\n")
    assert f"| dosing : {late}" in found
