"""`start` never cuts a limit short: a line says what its claim says, or the whole is a mark with a question.

The claims are our own; what each line has to say is what the words say, told by hand.
"""

from __future__ import annotations

from scopecheck.drafting.asked import questions
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.start import drafted
from tests.test_start import lines, read

SHELVES = """\
1. A rack with shelves, each having a depth of 20 to 30 cm, of which at least 15 cm is covered, and with
a strip along the edge of 5 mm.
2. The rack of claim 1, wherein, when the load is above 20 kg, the spacing is at most 30 cm.
3. The rack of claim 1, wherein the spacing is at most 40 cm if the load is below 5 kg.
4. The rack of claim 1, wherein the rack has a width of 3 m or a length of 5 m.
5. The rack of claim 1, optionally having a door with a thickness of 4 mm, and a foot having a height of
12 cm.
6. The rack of claim 1, wherein the shelves may be tilted by 5 to 10 degrees, and a current density is 2
A/m2.
"""


def test_what_holds_on_a_condition_or_beside_another_is_marked_whole() -> None:
    found = lines(SHELVES)
    for line in (
        "| not restated : of which at least 15 cm is covered",
        "| not restated : when the load is above 20 kg, the spacing is at most 30 cm",
        "| not restated : the spacing is at most 40 cm if the load is below 5 kg",
        "| not restated : a width of 3 m or a length of 5 m",
        "| not restated : optionally having a door with a thickness of 4 mm",
        "| strip : 5 mm",
        "| height : 12 cm",
    ):
        assert line in found, (line, found)
    asked = questions(drafted("claims", pasted(SHELVES)))
    assert any(q.startswith("What holds on a condition") and "if the load is below" in q for q in asked)
    assert any(q.startswith("One of several") and "or a length" in q for q in asked)
    assert not any("bulk" in q for q in asked)
    read(SHELVES)


REEL = """\
1. A reel stand comprising at least two pairs of guide wheels and a bank of magnets having as many north
magnets as south magnets, wherein the number of north magnets is at least 4.
2. The stand of claim 1, wherein the number of pairs of guide wheels is three to six.
3. The stand of claim 1, wherein a total number of magnets of the bank is divisible by three.
4. The stand of claim 1, having an equal number of ribs and slots.
"""


def test_what_a_number_counts() -> None:
    found = lines(REEL)
    for line in (
        "| pairs : at least two",
        "| pairs : three to six",
        "| magnets : divisible by three",
        "| north magnets, south magnets : as many north magnets as south magnets",
        "| ribs, slots : an equal number of ribs and slots",
    ):
        assert line in found, (line, found)
    read(REEL)


SOLDER = """\
1. A fitting made of a solder consisting of tin, bismuth and silver, wherein the solder contains from 40
to 60 % by weight of tin and from 35 to 55 % by weight of bismuth.
2. The fitting of claim 1, wherein the solder contains at least 50 % by weight of tin and from 2 to 3 %
by weight of silver.
3. The fitting of claim 1, wherein the ratio by weight of tin to bismuth is at least 1:1.
"""


def test_a_closed_list_without_amounts_closes_the_composition() -> None:
    found = lines(SOLDER)
    for line in (
        "| solder : consisting of tin, bismuth and silver",
        "| bismuth : from 35 to 55 % by weight",
        "| silver : from 2 to 3 % by weight",
        "| tin, bismuth : ratio by weight of tin to bismuth is at least 1:1",
    ):
        assert line in found, (line, found)
    assert not any(line.endswith(": contains") for line in found)
    assert [c.name for c in read(SOLDER).compositions] == ["solder"]


GLUING = """\
1. A method of gluing, comprising the steps of: (a) warming a board at a temperature of 40 to 60 °C for
2 to 4 minutes; and thereafter (b) pressing the board at a temperature of 90 to 120 °C for at least 30
seconds, wherein, if the pressing temperature is below 100 °C, the pressing time is at least 2 minutes.
"""


def test_two_steps_have_two_temperatures() -> None:
    found = lines(GLUING)
    for line in (
        "| warming temperature : 40 to 60 °C",
        "| pressing temperature : 90 to 120 °C",
        "| pressing : for at least 30 seconds",
        "| not restated : if the pressing temperature is below 100 °C, the pressing time is at least 2"
        " minutes",
    ):
        assert line in found, (line, found)
    read(GLUING)
