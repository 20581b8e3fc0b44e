"""`start` never cuts a limit short: a line says what its claim says, or the whole is a mark with a question.

The claims are our own; what each line has to say is what the words say, told by hand.
"""

from __future__ import annotations

from scopecheck.drafting.anew import proposed_anew
from scopecheck.drafting.asked import questions
from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.start import drafted
from scopecheck.foundations.spans import Source
from tests.test_start import lines, read, started

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
7. The rack of claim 1, having a gap of 3 mm if the shelf is wet.
"""


def test_what_holds_on_a_condition_or_beside_another_is_marked_whole() -> None:
    found = lines(SHELVES)
    for line in (
        "| not restated : of which at least 15 cm is covered",
        "| load, spacing : when the load is above 20 kg, the spacing is at most 30 cm",
        "| spacing, load : the spacing is at most 40 cm if the load is below 5 kg",
        "| not restated : a gap of 3 mm if the shelf is wet",
        "| not restated : a width of 3 m or a length of 5 m",
        "| not restated : optionally having a door with a thickness of 4 mm",
        "| strip : 5 mm",
        "| height : 12 cm",
    ):
        assert line in found, (line, found)
    asked = questions(drafted("claims", pasted(SHELVES)))
    assert any(q.startswith("What holds on a condition") and "if the shelf is wet" in q for q in asked)
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


JAR = """\
1. A jar comprising a lid with a rim, wherein no rib of the lid has a height of more than 3 mm, at least
90 % of the beads in the jar have a diameter of 2 to 4 mm, and a difference between the bore and the
height is at most 9 mm, per bead, at least two notches.
2. The jar of claim 1, having 6, 8 or 12 grooves, one row having twice as many grooves as the other row.
3. The jar of claim 1, wherein the lid is a disc of cork or rubber having a mass per unit area of 40 to
50 g/m2.
4. The jar of claim 1, wherein the closing force is at most 9 N after 50 openings, and after storing for
10 days, a leak rate of at most 2 mL/min.
5. The jar of claim 1, with a depth of one third of the height of the jar, and 2 to 3 g of salt per kg
of water.
6. The jar of claim 1, having a current draw of at most 2 A in operation and of at most 0.1 A in a
standby mode.
7. A method comprising stirring salt into the brine in an amount of 2 to 3 g/L, wherein an oil to water
ratio is from 0.1 to 0.2.
"""


def test_no_limit_is_of_what_its_words_do_not_say() -> None:
    found = lines(JAR)
    for line in (
        "| not restated : no rib of the lid has a height of more than 3 mm",
        "| not restated : at least 90 % of the beads in the jar have a diameter of 2 to 4 mm",
        "| not restated : difference between the bore and the height is at most 9 mm",
        "| grooves : 6, 8 or 12",
        "| not restated : twice as many grooves",
        "| mass per unit area : 40 to 50 g/m2",
        "| not restated : after storing for 10 days, a leak rate of at most 2 mL/min",
        "| not restated : of one third of the height of the jar",
        "| not restated : 2 to 3 g of salt per kg",
        "| current draw : at most 2 A",
        "| salt : 2 to 3 g/L",
        "| oil water ratio : from 0.1 to 0.2",
    ):
        assert line in found, (line, found)
    assert 'closing force force in N "after 50 openings"' in found
    assert 'current draw current in A "in operation"' in found
    read(JAR)


KNEADER = """\
1. A kneader comprising a bowl with 30 to 50 wt% of one or more pastes selected from putty and lime, the
number of blades being a power of two, configured to emit light pulses between 20 Hz and 60 Hz, wherein
a delay between a first signal and a second signal is less than 9 ms.
2. The kneader of claim 1, releasing at most 10 % of the dye within 2 hours and at least 60 % of the dye
within 9 days, having a running time of at least 20 hours at a duty share of not more than 25 % and no
lamps.
3. The kneader of claim 1, with a first rib at least three times as thick as the second rib.
"""


def test_what_nothing_can_meet_together_is_of_two_things() -> None:
    found = lines(KNEADER)
    for line in (
        "| pastes : 30 to 50 wt%",
        "| not restated : power of two",
        "| light pulses : between 20 Hz and 60 Hz",
        "| delay : less than 9 ms",
        "| not restated : at most 10 % of the dye within 2 hours",
        "| not restated : at least 60 % of the dye within 9 days",
        "| not restated : no lamps",
        "| first rib thickness, second rib thickness : at least three times as thick as the second rib",
    ):
        assert line in found, (line, found)
    assert 'running time time in h "at a duty share of not more than 25 %"' in found
    read(KNEADER)
    apart = lines(
        "1. A mill with a belt, wherein the speed is at most 2 m/s and the speed is at least 9 m/s.\n"
    )
    assert not [line for line in apart if line.startswith("| speed")]


KILN = """\
1. A kiln having a front roll and a rear roll, wherein the front roll and the rear roll each have a
width of 9 to 12 cm, the fading after five firings at 90 °C does not exceed 4 %, and a nozzle spaced by
at least three pipe diameters.
2. The kiln of claim 1, wherein a bed is kept above 60 °C for at least 3 hours or above 80 °C for at
least 1 hour.
3. The kiln of claim 1, wherein the sand contains at most 2 % of grit larger than 4 mm, and the height
of the kiln is equal to the width of the kiln.
4. The kiln of claim 1, having a seam with a width of 3 to 5 mm, at the bends of at least 4 mm, and one
to three flues, and a hum of less than 70 dB at a draught speed of 8 m/s.
5. The kiln of claim 1, having a wide tine of 40 to 60 mm, a short tine being 30 to 45 % of the wide
tine.
6. A method comprising weaving a web, waxing the web, and heat-setting the web at a temperature of 150
to 160 °C for 20 to 45 seconds after the waxing.
"""


def test_limits_of_both_of_some_and_then() -> None:
    found = lines(KILN)
    for line in (
        "| not restated : the front roll and the rear roll each have a width of 9 to 12 cm",
        "| not restated : fading after five firings at 90 °C does not exceed 4 %",
        "| not restated : at least three pipe diameters",
        "| not restated : above 60 °C for at least 3 hours or above 80 °C for at least 1 hour",
        "| not restated : at most 2 % of grit larger than 4 mm",
        "| not restated : equal to the width of the kiln",
        "| not restated : at the bends of at least 4 mm",
        "| flues : one to three",
        "| hum : less than 70 dB at a draught speed of 8 m/s",
        "| short tine : 30 to 45 % of the wide tine",
        "| heat-setting temperature : 150 to 160 °C",
    ):
        assert line in found, (line, found)
    read(KILN)


SPOOL = """\
1. A spool with beads of which at least 80 % have a bore below 3 mm, having a reading of 0.1 N or
better, four ports, an inlet port of which has a diameter of 4 to 6 mm, and a difference in tilt between
the rims does not exceed 2 degrees.
2. The spool of claim 1, wherein at least 70 % of the dye is fixed, without forming lumps larger than 3
mm.
3. The spool of claim 1, wherein the ratio of the charge of the cell to the area of the lid is from 8 to
15 W/m2.
4. The spool of claim 1, losing 40 % over a filtered volume of 150 litres, replaced after at most 30
days.
5. The spool of claim 1, with 15 to 25 g of the wax of any one of claims 1 to 4 per lid.
"""


def test_of_which_and_what_is_better() -> None:
    found = lines(SPOOL)
    for line in (
        "| not restated : of which at least 80 % have a bore below 3 mm",
        "| not restated : 0.1 N or better",
        "| diameter : 4 to 6 mm",
        "| not restated : difference in tilt between the rims does not exceed 2 degrees",
        "| not restated : at least 70 % of the dye is fixed",
        "| not restated : without forming lumps larger than 3 mm",
        "| not restated : ratio of the charge of the cell to the area of the lid is from 8 to 15 W/m2",
        "| not restated : 40 % over a filtered volume of 150 litres",
        "| not restated : after at most 30 days",
        "| not restated : 15 to 25 g of the wax of any one of claims 1 to 4 per lid",
    ):
        assert line in found, (line, found)
    read(SPOOL)


def test_an_edited_sheet_gets_no_limit_without_its_condition() -> None:
    sheet = started("1. A spool with a gap of 2 to 3 mm.\n").replace(
        "2 to 3 mm.",
        "2 to 3 mm, wherein a tilt is at most 4 degrees if the spool is wet, and no rib has a width of 7 mm.",
    )
    told = proposed_anew(Source("spool.sheet", sheet))
    assert "| not restated : a tilt is at most 4 degrees if the spool is wet" in told
    assert "| not restated : no rib has a width of 7 mm" in told
    assert "| tilt" not in told


def test_a_limit_that_may_be_broken_for_a_while_is_marked_whole() -> None:
    found = lines("1. A pan, wherein its temperature does not exceed 38 °C for more than 10 minutes.\n")
    assert "| not restated : not exceed 38 °C for more than 10 minutes" in found
    assert not any(line.endswith((": not exceed 38 °C", ": more than 10 minutes")) for line in found)


def test_free_of_what_a_claim_limits_is_a_line() -> None:
    found = lines(
        "1. A varnish comprising at most 2 wt% of a solvent and free of lead.\n"
        "2. The varnish of claim 1, wherein the varnish is substantially free of solvent.\n"
    )
    assert "| solvent : substantially free of solvent" in found
    assert "| lead : free of lead" in found
