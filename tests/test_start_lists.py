"""`start` on lists: items with letters, what a thing is made of, shares said once to be in per cent.

The claims are our own; what each line has to say is what the words say, told by hand.
"""

from __future__ import annotations

import pytest

from tests.test_start import lines, read

MORTAR = """\
1. A mortar for repairs, comprising, based on the total weight of the dry composition:
(a) 25 to 45 wt.% of Portland cement,
(b) 3 to 12 wt.% of a calcium aluminate cement having an alumina content of at least 38 wt.%,
(c) 40 to 65 wt.% of a quartz sand with a particle size of 0.2 mm to 0.8 mm,
(d) 0.1 to 2 wt.% of at least one superplasticizer selected from the group consisting of polycarboxylate
ethers, melamine sulfonates and lignosulfonates, and
(e) less than 0.5 wt.% of chlorides, wherein the weight ratio of (a) to (b) is from 3:1 to 10:1.
2. The mortar of claim 1, wherein the composition is free of lignosulfonates.
3. The mortar of claim 1, wherein the weight ratio of (c) to (a) is at most 2.
"""


def test_items_with_letters_make_a_composition() -> None:
    found = [" ".join(line.split()) for line in lines(MORTAR)]
    made = found.index("mortar composition in wt%")
    assert found[made + 1 : made + 6] == [
        "portland cement",
        "calcium aluminate cement",
        "quartz sand",
        "superplasticizer : polycarboxylate ethers, melamine sulfonates, lignosulfonates",
        "chlorides",
    ]
    for line in (
        "| superplasticizer : 0.1 to 2 wt.%",
        "| quartz sand : 40 to 65 wt.%",
        "| portland cement, calcium aluminate cement : weight ratio of (a) to (b) is from 3:1 to 10:1",
        "| quartz sand, portland cement : weight ratio of (c) to (a) is at most 2",
        "| lignosulfonates : free of lignosulfonates",
    ):
        assert line in found, (line, found)
    read(MORTAR)


ROD = """\
1. A wire rod consisting of, in % by mass: C: 0.60 to 0.75, Si: 0.1 to 0.3, P: at most 0.02, S: 0.015 or
less, the balance being iron and unavoidable impurities.
2. The wire rod of claim 1, wherein C is 0.65 to 0.70, having a diameter of 5 to 9 mm.
"""


def test_numbers_said_once_to_be_in_per_cent() -> None:
    found = lines(ROD)
    for line in (
        "wire rod composition in wt%",
        "C",
        "Si",
        "iron",
        "| wire rod : consisting of",
        "| C : 0.60 to 0.75",
        "| P : at most 0.02",
        "| S : 0.015 or less",
        "| wire rod : the balance being iron and unavoidable impurities",
        "| C : 0.65 to 0.70",
    ):
        assert line in found, (line, found)
    read(ROD)


BOX = """\
1. A box comprising a chamber being made of stainless steel or a coated glass, and a window formed of
polycarbonate, wherein the liner is felt, cork or rubber.
2. The box of claim 1, wherein the chamber is made of coated glass.
3. The box of claim 1, wherein the window is formed from polycarbonate or acrylic glass.
4. The box of claim 3, wherein the window is free of acrylic glass.
5. The box of claim 1, wherein the liner is cork.
"""


def test_what_a_thing_is_made_of() -> None:
    found = lines(BOX)
    for line in (
        "chamber material any of stainless steel, coated glass",
        "window material any of polycarbonate, acrylic glass",
        "liner any of felt, cork, rubber",
        "| chamber material : made of stainless steel or a coated glass",
        "| chamber material : made of coated glass",
        "| window material : formed from polycarbonate or acrylic glass",
        "| window material : free of acrylic glass",
        "| liner : is felt, cork or rubber",
        "| liner : is cork",
    ):
        assert line in found, (line, found)
    read(BOX)


NO_LIST = pytest.mark.parametrize(
    "words",
    [
        "the valve is opened or closed",
        "the surface is smooth and the lid is hinged or sliding",
        "the lid is transparent or removable",
        "a rim is tin or zinc",
        "the frame is formed of a first bar and a second bar",
        "at least one of the lid and the rim is made of tin or zinc",
        "the lid and the rim are made of tin or zinc",
        "the lid or the rim is tin or zinc",
    ],
)


def test_of_what_a_list_is_said_behind_another_sentence() -> None:
    text = "1. A box, wherein the lid is 3 mm thick and the rim is made of tin or zinc.\n"
    assert "| rim material : made of tin or zinc" in lines(text)


@NO_LIST
def test_what_is_no_list_of_things(words: str) -> None:
    assert not [line for line in lines(f"1. A box, wherein {words}.\n") if "any of" in line]


BOILER = """\
1. A boiler comprising a relief valve which opens when the pressure exceeds 3.5 bar and closes again when
the pressure falls below 2.8 bar, and a burner which is switched off if the water temperature rises above
95 °C.
2. The boiler of claim 1, wherein the relief valve closes when the pressure is below 2.6 bar.
3. The boiler of claim 1, further comprising a pump configured to start when the water temperature is
above 60 °C and to stop when the water temperature is below 50 °C.
4. The boiler of claim 1, wherein the water temperature is below 80 °C when the flow is above 2 L/min.
"""


def test_what_is_switched_on_a_condition() -> None:
    found = lines(BOILER)
    for line in (
        "relief valve open one of only yes, no",
        "burner on one of only yes, no",
        "pump on one of only yes, no",
        "| relief valve open, pressure : opens when the pressure exceeds 3.5 bar",
        "| relief valve open, pressure : closes again when the pressure falls below 2.8 bar",
        "| burner on, water temperature : is switched off if the water temperature rises above 95 °C",
        "| relief valve open, pressure : closes when the pressure is below 2.6 bar",
        "| pump on, water temperature : start when the water temperature is above 60 °C",
        "| pump on, water temperature : stop when the water temperature is below 50 °C",
        "| water temperature, flow : the water temperature is below 80 °C when the flow is above 2 L/min",
    ):
        assert line in found, (line, found)
    assert len([line for line in found if line.endswith("one of only yes, no")]) == 3
    read(BOILER)


TABLET = """\
1. A tablet comprising:
a) from 5 mg to 20 mg of an active compound;
b) from 40% to 70% by weight of a diluent selected from the group consisting of lactose, cellulose and
mannitol; and
c) from 2% to 6% by weight of a disintegrant.
2. The tablet of claim 1, wherein the disintegrant is croscarmellose sodium or crospovidone.
3. The tablet of claim 1, further comprising a film coating in an amount of 2 to 5% by weight based on the
weight of the uncoated tablet.
4. A method of treating a subject, comprising administering the tablet of claim 1 once or twice daily for
at least 14 days.
"""


def test_a_list_whose_first_item_is_no_share() -> None:
    found = lines(TABLET)
    made = found.index("tablet composition in wt%")
    assert found[made + 1 : made + 4] == [
        "diluent : lactose, cellulose, mannitol",
        "disintegrant : croscarmellose sodium, crospovidone",
        "",
    ]
    assert "| active compound : from 5 mg to 20 mg" in found
    assert "| disintegrant : is croscarmellose sodium or crospovidone" in found
    assert "| not restated : 2 to 5% by weight based on the weight of the uncoated tablet" in found
    assert not any(": once" in line and "not restated" not in line for line in found)
    read(TABLET)


@pytest.mark.parametrize(
    ("words", "line"),
    [
        ("n is an integer from 1 to 5", "| n : from 1 to 5"),
        ("N being an integer of at least 2", "| N : at least 2"),
        ("k is an integer greater than 3", "| k : greater than 3"),
    ],
)
def test_an_integer_by_its_letter(words: str, line: str) -> None:
    found = lines(f"1. A chain of links, wherein {words}.\n")
    assert line in found, found
    assert f"{line[2]} count" in found


@pytest.mark.parametrize(
    ("name", "noun", "words"),
    [
        ("force", "a force of ", "between 2 N and 5 N, excluding the end values"),
        ("width", "a width of ", "20 mm to 30 mm, end points excluded"),
        ("length", "a length of ", "10 mm, give or take 1 mm"),
        ("not restated", "a volume of ", "300 L or more, with a tolerance of 5 %"),
        ("not restated", "a power of ", "800 W, reduced by 20 % to 40 %"),
        ("not restated", "a depth of ", "5 mm, or slightly more"),
        ("not restated", "one hole ", "for every 50 mm"),
    ],
)
def test_a_limit_with_more_behind_it_is_restated_whole_or_marked(name: str, noun: str, words: str) -> None:
    made = lines(f"1. A pouch having {noun}{words}.\n")
    assert [m for m in made if m.startswith("| ")][:1] == [f"| {name} : {words}"], made


@pytest.mark.parametrize(
    "text",
    [
        "1. A lance with a wall of 0.8 mm and in an",
        "1. A device having a return loss of at least 10 dB over",
        "1. A device having a return loss of at least 10 dB under",
        "1. A device which opens when",
        "1. A device made of",
        "1. A device, wherein the lid is",
        "1. A paint comprising (a",
        "1. A paint comprising, in % by mass: C:",
    ],
)
def test_a_text_that_breaks_off(text: str) -> None:
    assert "title" in " ".join(lines(text))
