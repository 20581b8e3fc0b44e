"""What is told of other readings must hold of them: where a claim is met, narrows, or keeps something out."""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.core.grounds import Bounds, SharesOfWhole
from scopecheck.foundations.spans import Source
from scopecheck.report import margins
from scopecheck.report.amendment import amendment_report
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.render import render
from scopecheck.resolve.sheet import read_sheet
from tests.amended_sheets import amended
from tests.reported import one_line
from tests.sheets import sheet
from tests.test_told_rightly import page

NODE = """\
profile  US
active  current in mA
sleep  current in uA
1. A node having an active current of at least 1000 times the sleep current.
   | active, sleep : at least 1000 times the sleep current
2. The node of claim 1, wherein the active current is at most 4 mA and the sleep current
   is at least {least} µA.
   | active : at most 4 mA
   | sleep : at least {least} µA
"""


def test_readings_that_are_needed_together_are_not_told_each_as_enough() -> None:
    """4.45 mA rounds to 4 mA and 4.45 µA to 4.5 µA, and 1000 times 4.45 µA is 4.45 mA.

    With 4 mA as written 1000 times 4.45 µA is too much, with 4.5 µA as written 4.5 mA, which rounds to 5 mA.
    """
    text = page(NODE.format(least="4.5"))
    last = text.partition("Met ")[2].partition("Words")[0]
    rounded = 'is read as "rounds to the limit" (arguable)'
    assert f'if "at most 4 mA" {rounded} and if "at least 4.5 µA" {rounded}' in last
    assert "only when both are read so; neither alone does it" in last


def test_a_reading_that_is_enough_alone_is_told_by_itself() -> None:
    """4.4 µA takes 4.4 mA, which rounds to 4 mA."""
    text = page(NODE.format(least="4.4"))
    last = text.partition("Met ")[2].partition("Words")[0]
    assert last.startswith('if "at most 4 mA" is read as "rounds to the limit" (arguable)')
    assert "and if" not in last


LENS = """\
profile  US
f1  number
f2  number
1. A lens wherein 0.5 < f1/f2 < 0.9 is satisfied.
   | f1, f2 : 0.5 < f1/f2 < 0.9
2. The lens of claim 1, wherein f1/f2 is less than 1.
   | f1, f2 : f1/f2 is less than 1
"""


def test_a_reading_on_which_nothing_meets_a_claim_is_none_on_which_it_narrows() -> None:
    """Below 1 when rounded to whole numbers is below 0.5: nothing of 0.5 to 0.9 is left."""
    made = sheet(LENS)
    found = ask_all(made, details=True).findings
    (idle,) = (f for f in found if f.question == "adds nothing")
    assert not idle.otherwise.rereads
    assert not [f for f in found if f.question == "narrows"]
    text = page(LENS, everything=True)
    assert "Narrows" not in text
    assert "On other readings it narrows, and then nothing meets it." in text


def test_a_claim_that_narrows_only_where_nothing_meets_it_is_one_item() -> None:
    text = page(LENS)
    assert text.count("adds nothing to what it depends on") == 1
    assert 'Follows With "f1/f2 is less than 1" as "first over second, rounded"' in text
    assert "On the reading below, nothing meets" not in text
    assert "No single choice of readings" not in text


def test_a_claim_that_nothing_meets_as_presumed_is_not_told_to_narrow_so() -> None:
    """As presumed nothing has 4 mA and 4.5 µA: that it leaves out 5 mA says nothing."""
    found = ask_all(sheet(NODE.format(least="4.5")), details=True).findings
    for f in found:
        if f.question == "narrows":
            assert f.rereads


EITHER = """\
profile  EPO
doses  count
left  count  "doses left in the strip"
share  share in wt%
1. An inhaler having at least 30 doses.
   | doses : at least 30
2. The inhaler of claim 1, wherein at most 9 are left.
   | left : at most 9
3. The inhaler of claim 1 or 2, wherein the share is more than 40 wt%.
   | share : more than 40 wt%
inside for 3
  light : doses = 30, share = {share}
"""


@pytest.mark.parametrize("share", ["39.6 wt%", "41 wt%"])
def test_a_line_that_another_parent_does_not_have_loses_no_case_of_the_claim(share: str) -> None:
    """By way of claim 1 nothing is asked of what is left."""
    text = EITHER.format(share=share)
    lost = [f for f in ask_all(sheet(text)).findings if f.question == "inside lost"]
    assert {label for f in lost for label in f.failing} == {"3a"}


@pytest.mark.parametrize(
    ("declared", "words", "shown"),
    [
        ('cell  voltage in V  "terminal voltage of the cell"', "the voltage of the cell falls below 2 V",
         "cell falls below 2 V"),
        ('R  pressure in kPa  "pressure drop over the mouthpiece"',
         "a pressure drop over the mouthpiece exceeds 2 kPa", "R exceeds 2 kPa"),
        ("frequency  frequency in MHz", "the frequency is in the range of from 8 MHz to 9 MHz",
         "frequency is in the range of from 8 MHz to 9 MHz"),
        ('T  temperature in K  "of oil"', "the temperature of oil exceeds 333 K", "T exceeds 333 K"),
        ('I  current in A  "drawn by the motor"', "the current drawn by the motor is at most 5 A",
         "I is at most 5 A"),
        ('gap  length in mm  "of the jaws, not more than the slot"', "the gap is not more than 5 mm",
         "gap is not more than 5 mm"),
    ],
)  # fmt: skip
def test_a_condition_is_shown_with_the_name_and_what_is_said_of_it(
    declared: str, words: str, shown: str
) -> None:
    text = f"{declared}\nfan  one of on, off\n\n1. A box, wherein the fan is on when {words}.\n"
    made = sheet(f"{text}   | fan, {declared.split()[0]} : the fan is on when {words}\n")
    plain = [r.plain for g in made.groups for r in g.readings]
    assert f"IF {shown} THEN fan is on" in plain


def test_a_limit_that_names_what_it_is_of_is_shown_without_its_name_before_it() -> None:
    words = "no more than three retries except when the moisture is below 8 % by volume"
    text = f"retries  count\nmoisture  share in vol%\n1. A node that makes {words}.\n"
    made = sheet(f"{text}   | retries, moisture : {words}\n")
    plain = [r.plain for g in made.groups for r in g.readings]
    assert "NOT (moisture is below 8 % by volume), no more than three retries" in plain


def test_a_lever_locked_for_a_time_is_shown_as_that_time() -> None:
    text = 'flow  in L/min\nlock time  time in s  "time for which the lever is locked after a dose"\n'
    words = "if the flow is below 30 L/min, the lever is locked for at least 8 seconds"
    made = sheet(f"{text}1. A box, wherein, {words}.\n   | flow, lock time : {words}\n")
    assert "IF flow is below 30 L/min THEN lock time at least 8 seconds" in [
        r.plain for g in made.groups for r in g.readings
    ]


def test_a_list_of_one_is_shown_by_its_name() -> None:
    text = "metal  any of copper, zinc\n"
    text += "1. A pin of which the metal is copper.\n   | metal : the metal is copper\n"
    plain = [r.plain for g in sheet(text).groups for r in g.readings]
    assert "copper in metal" in plain
    assert not [p for p in plain if "is in it" in p]


@pytest.mark.parametrize(
    ("declared", "words", "told", "help"),
    [
        ("share in %", "within ±2 %", "-2 % lies below 0 %", "declare it as: x  in %"),
        ("share in %", "between -2 % and 2 %", "-2 % lies below 0 %", "declare it as: x  in %"),
        ("share in wt%", "3 ± 4 wt%", "-1 wt% lies below 0 wt%", "declare it as: x  in wt%"),
        ("length in mm", "0.2 mm ± 0.5 mm", "-0.3 mm lies below 0 mm", "declare it as: x  in mm"),
        ("share in %", "5 ± 2 %", "", ""),
        ("in %", "within ±2 %", "", ""),
        ("share in %, >= 0 %", "within ±2 %", "", ""),
    ],
)
def test_an_end_below_all_that_a_share_can_be_is_told(
    declared: str, words: str, told: str, help: str
) -> None:
    text = f"x  {declared}\n1. A lens with an x of {words}.\n   | x : {words}\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None
    warned = [d for d in found if "the least that x is taken to be" in d.message]
    assert [told in d.message and help in d.help for d in warned] == ([True] if told else [])


SHARES = """\
profile  EPO
mix  composition in wt%
  a, b, c, d, e, f
1. A mix containing 50 to 60 wt% of a, 30 to 40 wt% of b and at most 20 wt% of c.
   | a : 50 to 60 wt%
   | b : 30 to 40 wt%
   | c : at most 20 wt%
   | not restated : and
"""


def test_that_no_share_is_below_nothing_is_told_once_of_a_whole() -> None:
    """50 and 30 leave 20: c is at most 20 as none of the others is below 0."""
    found = [f for f in ask_all(sheet(SHARES)).findings if f.question in ("idle", "idle end")]
    (idle,) = (f for f in found if f.label == "1c")
    assert SharesOfWhole("mix", "wt%") in idle.rests_on
    assert not [x for x in idle.rests_on if isinstance(x, Bounds)]


def test_a_step_left_open_is_told_once() -> None:
    text = "soaking  step in h\nstirring  step in h, may be left out\nspeed  rotational speed in rpm\n"
    made = sheet(
        f"{text}1. A method comprising soaking for at most 4 hours.\n   | soaking : for at most 4 hours\n"
    )
    stirring = made.steps[1]
    told = margins._left_open(made, ("speed", stirring.done, *stirring.numbers))
    assert told == "speed and the times and values of stirring"


@pytest.mark.parametrize(("most", "empty"), [("6 mm", True), ("4 mm", False)])
def test_an_amendment_after_which_nothing_meets_a_claim_is_not_told_as_narrowing_alone(
    most: str, empty: bool
) -> None:
    before = "w  length in mm\n1. A slat with a width of at most 5 mm.\n   | w : at most 5 mm\n"
    after = before.replace("mm.\n", f"mm and at least {most}.\n").replace("mm\n   |", "mm\n   |")
    after += f"   | w : at least {most}\n"
    text = one_line(render(amendment_report(amended(before, after)), "text"))
    assert "Claim 1: only narrowed" in text
    assert ("only narrowed, on every reading listed: nothing meets it after the amendment" in text) is empty


LID = "gap  length in mm\nlid  one of open, shut"
DRYING = "drying  step in min\n  air  temperature in degC"


@pytest.mark.parametrize(
    ("declared", "left", "words", "shown"),
    [
        # the words go on from the name, or name what they limit
        (LID, "gap, lid", "the gap is at least 3 mm if the lid is open",
         "IF lid is open THEN gap is at least 3 mm"),
        (LID, "gap, lid", "a clearance of at least 3 mm if the lid is open",
         "IF lid is open THEN gap of at least 3 mm"),
        # they do not
        ("retries  count\nmode  one of busy, failed", "mode, retries",
         "if the mode is failed, repeating the step up to three times",
         "IF mode is failed THEN 1 <= retries <= three"),
        (DRYING, "air of drying", "air of 60 to 80 °C", "60 degC <= air at the start of drying <= 80 °C"),
        (DRYING, "air of drying", "air of 60 to 80 °C", "60 degC <= highest air of drying <= 80 °C"),
        (DRYING, "air of drying", "at least 60 °C", "air at the end of drying at least 60 °C"),
        # a comma of theirs would part two facts
        (LID, "gap, lid", "if the lid is open, the gap is 3, 4 or 5 mm",
         "IF lid is open THEN (gap is 3, 4 or 5 mm)"),
        (LID, "gap, lid",
         "the gap is at least 3 mm, but not more than 5 mm, if the lid is open",
         "IF lid is open THEN (gap is at least 3 mm, but not more than 5 mm)"),
        ("gap  length in mm\nlid  one of open, ajar, shut", "gap, lid",
         "the gap is at least 3 mm if the lid is open, ajar or shut",
         "IF (lid is open, ajar or shut) THEN gap is at least 3 mm"),
        # their unit stands elsewhere
        ("gap  length in mm", "gap", "a gap of at least 2, preferably at least 3, mm",
         "gap >= 2 mm, gap >= 3 mm"),
    ],
)  # fmt: skip
def test_a_limit_within_other_words_is_shown_as_one_whole(
    declared: str, left: str, words: str, shown: str
) -> None:
    made = sheet(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")
    assert shown in [r.plain for g in made.groups for r in g.readings]


def test_what_is_in_brackets_is_put_in_no_second_ones() -> None:
    assert plain_formula("lid is open, (gap is 3, 4 or 5 mm)") == "lid is open and (gap is 3, 4 or 5 mm)"
    assert plain_formula("a >= 1 mm OR b, c") == "(a >= 1 mm or b) and c"


HALVES = """\
profile  US
pressure  pressure in bar
relief open  one of only yes, no

1. A valve which opens when the pressure exceeds 250 bar and
   is closed as long as the pressure is below 230 bar.
   | relief open, pressure : opens when the pressure exceeds 250 bar
   | relief open, pressure : is closed as long as the pressure is below 230 bar
"""


def test_both_halves_of_a_hysteresis_are_one_question() -> None:
    text = page(HALVES)
    assert text.count("On the reading below") == 1
    assert text.count("asks for nothing that the rest of claim 1 does not ask already") == 2
    assert "Is it so where the condition does not hold?" in text


def test_what_only_a_condition_allows_is_another_question() -> None:
    text = page(HALVES.replace("opens when", "opens only when"))
    assert "Is it so where the condition does not hold?" not in text.partition("is closed as long as")[0]


FILL = """\
title    Fill
profile  EPO
material   composition in wt%, only
  filler : barium glass, silica, quartz
  rest

1. A material comprising a filler selected from the group consisting of barium glass and silica.
   | filler : selected from the group consisting of barium glass and silica

inside   barium glass  silica{quartz}
  batch  70 wt%        8 wt%{none}
"""


def test_a_presumed_reading_that_keeps_some_of_a_lost_case_is_told_beside_what_keeps_all() -> None:
    """With the quartz left open, and so possibly none, one or more members keeps a part."""
    text = one_line(page(FILL.format(quartz="", none="")))
    assert '(arguable) In part if "selected from the group' in text
    assert 'is read as "one or more members" (one of two presumed)' in text
    stated = one_line(page(FILL.format(quartz="  quartz  other filler", none="  0 wt%  0 wt%")))
    assert "In part" not in stated
