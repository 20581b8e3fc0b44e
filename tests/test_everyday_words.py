"""Words as people use them: read as what they say, or refused; each beside the line in symbols that it is."""

from __future__ import annotations

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.formula import Formula
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.solver import Session
from tests.sheets import errors, sheet

DECLARED = """oven    temperature in degC
height  length in mm, >= 0 mm
depth   length in mm, >= 0 mm
share   share in %
mass    mass in kg
reduction  share in %
time    time in min
pressure  in bar, > 0 bar
below   pressure in bar(g)
pause   time in min
count   count
rim     length in mm "diameter of the optic zone"
metal   any of copper, zinc, tin, lead
alloys  any of brass, bronze, German silver
"""


def made(words: str, exactly: str) -> Sheet:
    said = words.partition(" : ")[2]
    return sheet(f"{DECLARED}\n1. A thing {said}.\n   | {words}\n   | {exactly}\n")


def alike(made: Sheet) -> bool:
    """Do both lines, read as is usual, ask for the same?"""
    first, second = (x.formula for x in made.claims[0].limitations)
    base = base_construction(made)
    session = Session(made)

    def within(one: Formula, other: Formula) -> bool:
        search = session.search(())
        search.require(session.met(one, base))
        return not search.holds(~session.met(other, base))

    return within(first, second) and within(second, first)


@pytest.mark.parametrize(
    ("words", "exactly"),
    [
        ("oven : does not rise above 50 degC", "oven <= 50 degC"),
        ("oven : never falls below 50 degC", "oven >= 50 degC"),
        ("oven : prevented from exceeding 50 degC", "oven <= 50 degC"),
        ("oven : remains below 50 degC at all times", "oven < 50 degC"),
        ("oven : heated to at least 50 degC", "oven >= 50 degC"),
        ("oven : no more than 2 K above or below 50 degC", "48 degC <= oven <= 52 degC"),
        ("oven : 50 degC, plus or minus 2 K", "48 degC <= oven <= 52 degC"),
        ("oven : 50 degC +- 2 K", "48 degC <= oven <= 52 degC"),
        ("oven : not rising above 50 degC", "oven <= 50 degC"),
        ("height, depth : 0.2 D to 0.5 D", "0.2 * depth <= height <= 0.5 * depth"),
        (
            "height, depth : 0.2 times the depth to 0.5 times the depth",
            "0.2 * depth <= height <= 0.5 * depth",
        ),
        ("height, depth : between half and twice the depth", "0.5 * depth <= height <= 2 * depth"),
        ("height, depth : an aspect ratio H/D of at least 2", "height / depth >= 2"),
        ("height, depth : an aspect ratio of 2 to 5", "2 <= height / depth <= 5"),
        ("height, depth : a height-to-depth ratio of 2 or more", "height / depth >= 2"),
        ("height, depth : the ratio between the height and the depth is at most 3", "height / depth <= 3"),
        ("height, depth : smaller than the depth by a factor of at least 2", "2 * height <= depth"),
        ("height, depth : at least a factor of 2 larger than the depth", "height >= 2 * depth"),
        ("height, depth : differs from the depth by 2 to 4 mm", "2 mm <= ABS(height - depth) <= 4 mm"),
        ("height, depth : the same to within 1 mm", "ABS(height - depth) <= 1 mm"),
        ("height, depth : the height plus the depth does not exceed 20 mm", "height + depth <= 20 mm"),
        ("height, depth : twice as much height as depth", "height = 2 * depth"),
        ("share : at least half", "share >= 50 %"),
        ("share : at least one quarter", "share >= 25 %"),
        ("reduction : reduced by at least half", "reduction >= 50 %"),
        ("reduction : by 30 to 50 %", "30 % <= reduction <= 50 %"),
        ("time : at most 1 h 30 min", "time <= 90 min"),
        (
            "metal : one or more of copper and zinc, and tin",
            "(copper IN metal OR zinc IN metal) AND tin IN metal",
        ),
        ("metal : copper and either zinc or tin", "copper IN metal AND (zinc IN metal OR tin IN metal)"),
        ("metal : copper together with zinc", "{copper, zinc} IN metal"),
        ("metal : copper as well as zinc", "{copper, zinc} IN metal"),
        ("metal : copper without zinc", "copper IN metal AND NOT zinc IN metal"),
        (
            "metal : exactly two of copper, zinc and tin",
            "NOT {copper, zinc, tin} IN metal AND"
            " ({copper, zinc} IN metal OR {copper, tin} IN metal OR {zinc, tin} IN metal)",
        ),
        ("height, depth : ratio of the depth to the height is at most 0.9", "depth / height <= 0.9"),
        ("height, depth : twice as much depth as height", "depth = 2 * height"),
        ("height, depth : ratio of height to depth of at most about 40:1", "height / depth <= 40"),
        ("height, depth : ratio of height to depth of at least about 5", "height / depth >= 5"),
        ("height, depth : ratio of height to depth of about 40:1 or less", "height / depth <= 40"),
        ("height, depth : in a ratio of about 4:1 to about 1:1", "1 <= height / depth <= 4"),
        ("count : four, six or eight", "count = 4 OR count = 6 OR count = 8"),
        ("count : where count is an integer from 3 to 8", "3 <= count <= 8"),
        ("count : an even number of counts, not fewer than four", "count / 2 IS WHOLE AND count >= 4"),
        ("time : within 2 to 5 min", "2 min <= time <= 5 min"),
        ("time : at the latest after 5 min", "time <= 5 min"),
        ("below : -0.4 to -0.8 bar relative to ambient", "-0.8 bar(g) <= below <= -0.4 bar(g)"),
        (
            "pause, time : no less than 2 min and not longer than one half of the time",
            "pause >= 2 min AND pause <= time / 2",
        ),
        ("height : from 5 to about 6 mm", "5 mm <= height <= 6 mm"),
        ("height : not less than 5 nor more than 6 mm", "5 mm <= height <= 6 mm"),
        ("height : neither less than 5 mm nor greater than 6 mm", "5 mm <= height <= 6 mm"),
        ("height : between 5 mm (inclusive) and 6 mm (exclusive)", "5 mm <= height < 6 mm"),
        ("height : from 5 mm (exclusive) to 6 mm (inclusive)", "5 mm < height <= 6 mm"),
        (
            "height, depth : a height difference of at most 2 mm between the height and the depth",
            "ABS(height - depth) <= 2 mm",
        ),
        (
            "height, depth : difference between height and depth of at least 2 mm",
            "ABS(height - depth) >= 2 mm",
        ),
        ("count : at most a dozen", "count <= 12"),
        ("count : not more than four in number", "count <= 4"),
        ("rim : diameter of the optic zone is between 7 and 8 mm", "7 mm <= rim <= 8 mm"),
        ("rim : the rim of the optic zone of at least 7 mm", "rim >= 7 mm"),
        ("oven : has fallen below 50 degC", "oven < 50 degC"),
        ("height : ranging between 5 mm and 6 mm inclusive", "5 mm <= height <= 6 mm"),
        ("alloys : bronzes", "bronze IN alloys"),
        ("metal : copper alone or in combination with zinc", "copper IN metal AND metal IN {copper, zinc}"),
        ("metal : copper, zinc or both", "copper IN metal OR zinc IN metal"),
        ("metal : copper but not zinc", "copper IN metal AND NOT zinc IN metal"),
        ("metal : neither copper nor zinc", "NOT copper IN metal AND NOT zinc IN metal"),
    ],
)
def test_what_words_say(words: str, exactly: str) -> None:
    assert alike(made(words, exactly))


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("oven : the oven drop is above 5 K", "is another quantity"),
        ("pressure : a drop of more than 5 bar", "no phrase reads"),
        ("height : by at least 3 mm", "no phrase reads"),
        ("metal : copper and zinc or tin", "no phrase reads"),
        ("height, depth : 0.2 X to 0.5 X", "no phrase reads"),
        ("height, depth : ratio of the foo to the bar of 2:1", "no phrase reads"),
        ("height, depth : ratio of the square of the height to the depth of 2:1", "no phrase reads"),
        ("height, depth : ratio of height to depth of substantially 2:1", "no phrase reads"),
        ("height, depth : ratio of height to depth of preferably 2:1", "no phrase reads"),
        ("share : substantially free of mass", "'mass' stands behind 'no'"),
    ],
)
def test_words_that_say_something_else_are_refused(words: str, told: str) -> None:
    said = words.partition(" : ")[2]
    found = errors(f"{DECLARED}\n1. A thing {said}.\n   | {words}\n")
    assert any(told in d.message for d in found)


@pytest.mark.parametrize(
    ("words", "help"),
    [
        ("mass : not exceeding 1.2 kg when empty", "not restated : when empty"),
        ("time : less than 10 min in water at 40 °C", "lift only: less than 10 min; and mark the rest"),
        ("share : 10 % or more of an acid", "lift only: 10 % or more"),
        ("metal : copper and zinc or tin", "reading"),
        ("share : 20 to 30 % of at least one of copper and zinc", "or write the meaning in symbols"),
    ],
)
def test_what_is_advised(words: str, help: str) -> None:
    said = words.partition(" : ")[2]
    (found,) = errors(f"{DECLARED}\n1. A thing {said}.\n   | {words}\n")
    assert help in found.help


HEDGED = (
    "about 57 to about 66 %,at most about 5 %,at least approximately 5 %,less than about 5 %,well below 5 %"
)


@pytest.mark.parametrize("words", HEDGED.split(","))
def test_a_bare_per_cent_beside_a_share_on_a_basis_is_told_with_a_hedge_too(words: str) -> None:
    text = f"silica share in wt%\n\n1. A glass with {words} silica.\n   | silica : {words} silica\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None
    assert any("percent of what: read as wt%" in d.message for d in found)


def test_a_value_of_each_like_part_is_no_one_value() -> None:
    text = (
        "nozzle  part, 2 to 6\n  spacing  length in cm\nrise  length in cm\n\n"
        "1. A boom, {0}.\n   | rise : {0}\n"
    )
    (found,) = errors(text.format("between 0.5 and 1 times the spacing of the nozzles"))
    assert "a value of its own for each nozzle" in found.cause
    assert found.help.endswith("EVERY nozzle (rise >= spacing)")
    line = "   | rise : at least one\n   |   exactly  EVERY nozzle (rise >= spacing)\n"
    sheet(text.format("at least one").replace("   | rise : at least one\n", line))
