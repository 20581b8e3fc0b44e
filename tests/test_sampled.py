"""Small sheets of varied shapes, what is told of them held against the evaluator alone."""

from __future__ import annotations

import pytest

from scopecheck.answers.about import Reread
from scopecheck.answers.findings import unmet_by
from scopecheck.answers.questions import ask_all, prepare
from scopecheck.answers.questions.charted import charted
from scopecheck.foundations.record import replace
from tests.sampled import things, wrong_of_all, wrong_of_kept_out, wrong_of_things
from tests.sheets import sheet

VALVE = """\
profile  US
bore  length in mm
stroke  length in mm
seats  count
spring  force in N
given  stroke < bore  "drawing"
1. A valve having a bore of from 8 to 12 mm and a stroke of at least 2 mm.
   | bore : from 8 to 12 mm
   | stroke : at least 2 mm
2. The valve of claim 1, wherein the stroke is at most 12 mm and there are one or two seats.
   | stroke : at most 12 mm
   | seats : one or two seats
3. The valve of claim 1 or 2, wherein the spring force is about 40 N.
   | spring : about 40 N
4. The valve of any one of claims 1 to 3, wherein the stroke is less than 20 mm.
   | stroke : less than 20 mm
5. The valve of claim 2, wherein there are three seats.
   | seats : three seats
6. The valve of claim 3, wherein the bore is at most 9 mm and the stroke is at least 9 mm.
   | bore : at most 9 mm
   | stroke : at least 9 mm
7. The valve of claim 3, wherein the spring force is more than 38 N.
   | spring : more than 38 N
inside for 3   bore   stroke   seats   spring
  small   8 mm   2 mm   1   41 N
  big   12 mm   11.9 mm   2   40.3 N
must stay out for 3
  weak   10 mm   5 mm   1   36 N
  wide   12.4 mm   5 mm   1   40 N
document D1   12.3 mm   3 mm   silent   40 N   "page 1"
"""
MIX = """\
profile  EPO
mix  composition in wt%
  cement, sand, lime, water
1. A mix consisting of 20 to 30 wt% of cement, 50 to 60 wt% of sand, 5 to 10 wt% of lime and 10
   to 15 wt% of water.
   | mix : consisting of
   | cement : 20 to 30 wt%
   | sand : 50 to 60 wt%
   | lime : 5 to 10 wt%
   | water : 10 to 15 wt%
   | not restated : and
2. The mix of claim 1, having at least 28 wt% of cement and at least 58 wt% of sand.
   | cement : at least 28 wt%
   | sand : at least 58 wt%
3. The mix of claim 1, having at most 22 wt% of cement, at most 52 wt% of sand and at most 8 wt%
   of lime.
   | cement : at most 22 wt%
   | sand : at most 52 wt%
   | lime : at most 8 wt%
4. The mix of claim 1, having at most 35 wt% of cement and at most 20 wt% of lime and water
   together.
   | cement : at most 35 wt%
   | lime + water : at most 20 wt%
5. The mix of claim 1, having less than 8 wt% of lime.
   | lime : less than 8 wt%
inside for 1   cement   sand   lime   water
  a   25 wt%   55 wt%   8 wt%   12 wt%
  b   30 wt%   50 wt%   7.6 wt%   12.4 wt%
must stay out for 1
  c   30.4 wt%   50 wt%   7 wt%   12.6 wt%
document D1   19.5 wt%   60 wt%   9 wt%   11.5 wt%   "ex. 1"
"""
DRYER = """\
profile  US court
temp  temperature in degC
fan  one of only on, off
speed  rotational speed in rpm
door  one of only open, closed
lamp  one of only red, green
1. A dryer wherein, if the temperature is above 60 °C, the fan is on, and the speed is at least
   900 rpm when the fan is on, and the lamp is red unless the door is closed.
   | temp, fan : if the temperature is above 60 °C, the fan is on
   | speed, fan : the speed is at least 900 rpm when the fan is on
   | lamp, door : the lamp is red unless the door is closed
2. The dryer of claim 1, wherein the temperature is at most 50 °C.
   | temp : at most 50 °C
3. The dryer of claim 1, wherein the fan is on and the speed is less than 1000 rpm.
   | fan : the fan is on
   | speed : less than 1000 rpm
4. The dryer of claim 3, wherein the speed is more than 1200 rpm or the temperature is at least
   20 °C.
   | speed > 1200 rpm OR temp >= 20 degC
inside for 1   temp   fan   speed   door   lamp
  warm   60.4 degC   off   0 rpm   closed   green
  hot   70 degC   on   900 rpm   open   red
must stay out for 1
  cool   30 degC   on   800 rpm   open   red
  idle   30 degC   on   900 rpm   closed   red
document D1   65 degC   on   899.6 rpm   closed   silent   "fig. 2"
"""
CONTACT = """\
profile  US
metal  any of copper, zinc, tin, lead
coat  one of nickel, chrome, gold
1. A contact comprising a metal selected from the group consisting of copper, zinc and tin.
   | metal : selected from the group consisting of copper, zinc and tin
2. The contact of claim 1, wherein the metal is at least one of copper and lead.
   | metal : at least one of copper and lead
3. The contact of claim 1, which is free of zinc and has a coat of nickel or gold.
   | metal : free of zinc
   | coat : nickel or gold
4. The contact of claim 3, wherein the coat is neither nickel nor gold.
   | coat : neither nickel nor gold
5. The contact of claim 3, wherein the coat is not chrome.
   | coat : not chrome
inside for 1
  alloy : metal = {copper, zinc}
  pure : metal = {tin}
must stay out for 1
  dirty : metal = {copper, lead}
  none : metal = {}
document D1
  brass : metal = {copper, zinc}, coat = chrome "p. 3"
"""
STACK = """\
profile  EPO
plate  part, up to 3
  gap  length in mm
  area  area in cm2
ratio  number, >= 0
1. A stack having at least two plates, each having a gap of between 1 and 2 mm and an area of
   more than 10 cm2.
   | plates : at least two plates
   | gap of the plates : each having a gap of between 1 and 2 mm
   | area of the plates : more than 10 cm2
2. The stack of claim 1, wherein the ratio is 0.5 to 0.8.
   | ratio : 0.5 to 0.8
inside for 1
  even : plates = 2, EVERY plates (gap = 1.5 mm AND area = 12 cm2)
  range : plates = 3, EVERY plates (gap >= 1 mm AND gap <= 2 mm AND area >= 11 cm2)
must stay out for 1
  gappy : plates = 3, SOME plates (gap > 2.2 mm)
  small : plates = 2, EVERY plates (area <= 10 cm2), EVERY plates (gap = 1.5 mm)
"""
BATH = """\
profile  US
pH  number, >= 0, <= 14
salt  concentration in g/L
heat  temperature in degC
flow  in L/min
1. A bath having a pH of 5 to 7, a salt content of at most 20 g/L and a temperature of about 40 °C.
   | pH : 5 to 7
   | salt : at most 20 g/L
   | heat : about 40 °C
2. The bath of claim 1, wherein the pH is 5.5 to 6.5 and the salt content is from 5 to 20 g/L.
   | pH : 5.5 to 6.5
   | salt : from 5 to 20 g/L
3. The bath of claim 2, wherein the flow is at least 3 L/min and the salt content is more than
   20 g/L.
   | flow : at least 3 L/min
   | salt : more than 20 g/L
inside for 1
  usual : pH = 6, salt = 10 g/L, heat = 40.2 degC
must stay out for 1
  sour : pH = 4.6, salt = 10 g/L, heat = 40 degC
document D1
  broad : 4 <= pH <= 8, salt <= 30 g/L, heat = 40 degC  "claim 1"
  part : 5.2 <= pH <= 5.8, salt = 20.4 g/L  "claim 2"
  inner : 5.6 <= pH <= 6.4, 6 g/L <= salt <= 9 g/L, heat = 40 degC "claim 3"
  silentone : heat = 41 degC  "claim 4"
"""
BAR = """\
profile  US
w  length in mm
h  length in mm
n  count  "notches"
given  h <= 2 * w  "standard"
1. A bar having a width of between 5 and 10 mm, a height which is at least twice the width, and
   three or more notches.
   | w : between 5 and 10 mm
   | h, w : at least twice the width
   | n : three or more notches
2. The bar of claim 1, wherein the height is at most 15 mm.
   | h : at most 15 mm
3. The bar of claim 1, wherein the height is not less than 12 mm, and the number of notches is
   divisible by 4.
   | h : not less than 12 mm
   | n : divisible by 4
4. The bar of claim 3, wherein there are at least 4 notches.
   | n : at least 4 notches
inside for 1   w   h   n
  p   5 mm   10 mm   3
  q   10 mm   20 mm   4
must stay out for 1
  r   10.4 mm   20.8 mm   3
  t   5 mm   9.9 mm   3
policy ends are included "par. 3"
policy rounding is none "par. 4"
"""
METHOD = """\
profile  EPO
soaking  step in h
  bath  temperature in degC
drying  step in h, may be left out
rinsing  step in h
power  power in W
1. A method comprising soaking for 2 to 4 hours at a temperature of at least 30 °C, and rinsing
   after the soaking.
   | soaking : for 2 to 4 hours
   | bath of soaking : at a temperature of at least 30 °C
   | rinsing : after the soaking
2. The method of claim 1, wherein drying takes at most 1 hour and the power is less than 500 W.
   | drying : at most 1 hour
   | power : less than 500 W
3. The method of claim 2, wherein the soaking takes at least 4.5 hours.
   | soaking : at least 4.5 hours
4. The method of claim 1, wherein the soaking takes at least 1 hour.
   | soaking : at least 1 hour
inside for 1  soaking   rinsing  bath throughout soaking
  a   0 to 3 h   4 to 5 h   32 degC
must stay out for 1
  b   0 to 3 h   2 to 5 h   32 degC
  c   0 to 4.4 h   5 to 6 h   32 degC
"""


@pytest.mark.parametrize("text", [VALVE, MIX, DRYER, CONTACT, STACK, BATH, BAR, METHOD])
def test_what_is_told_of_small_sheets_holds(text: str) -> None:
    made = sheet(text)
    answers = ask_all(made, details=True)
    some = things(made, 200)
    assert some
    assert not list(wrong_of_things(made, answers))
    assert not list(wrong_of_all(made, answers, some))
    assert not list(wrong_of_kept_out(made, answers))


def test_a_reading_told_wrongly_is_seen() -> None:
    """Each way out of the dryer's first item, told with the other's reading, keeps nothing out."""
    made = sheet(DRYER)
    answers = ask_all(made, details=True)
    told = [f for f in answers.findings if unmet_by(f)]
    wrong = [
        replace(f, otherwise=replace(f.otherwise, rereads=tuple(Reread(r.group, 0) for r in unmet_by(f))))
        for f in told
    ]
    assert told
    assert list(wrong_of_things(made, replace(answers, findings=tuple(wrong))))


CONDITION = """\
profile  EPO
flow  in L/min
time  time in s  "for which the lever is locked"
1. A box wherein, if the flow is below 30 L/min, the lever is locked for at least 8 seconds.
   | flow, time : if the flow is below 30 L/min, the lever is locked for at least 8 seconds
document D1
  plain : time = 4 s  "page 3"
"""


def test_a_stretch_that_works_one_way_on_one_reading_only_is_followed_to_its_end() -> None:
    """Of 4 s and any flow some is met (from 30 L/min on) and some is not, however far "below" stretches."""
    (cell,) = charted(prepare(sheet(CONDITION), chart=True))
    assert (cell.verdict, cell.reason) == ("depends", "")
