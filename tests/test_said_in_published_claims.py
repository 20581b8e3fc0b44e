"""Ways of limiting that published claims have: of places, lists, ratios, fractions, moments and margins."""

from __future__ import annotations

import pytest

from scopecheck.answers.questions import ask_all
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import all_readings, on_the_wrong_side, presumed_in_symbols, presumed_labels, sheet

LABEL = "labelled  any of lid, base, wall"
JAR = f"{LABEL}\n\n1. A jar labelled {{0}}.\n   | labelled : {{0}}\n"
OFF = ("not on the lid or the base but on the wall", "on the wall, not on the lid or the base")


@pytest.mark.parametrize(
    "words",
    [
        *OFF,
        "not at the lid or the base but at the wall",
        "on the wall rather than on the lid or the base",
        "on the wall instead of the lid or the base",
        "not on the lid or the base, but rather on the wall",
    ],
)
def test_what_is_denied_is_out_as_presumed(words: str) -> None:
    wrong = on_the_wrong_side(LABEL, "labelled", words, "labelled = {wall}", "labelled = {wall, lid, base}")
    assert wrong == []
    assert on_the_wrong_side(LABEL, "labelled", words, "labelled = {wall}", "labelled = {base}") == []


@pytest.mark.parametrize("words", OFF)
def test_what_is_denied_may_be_there_besides(words: str) -> None:
    """On one reading the words tell where it has to be, and no more."""
    made = sheet(JAR.format(words) + "\nmust stay out\n  both : labelled = {wall, lid}\n")
    (found,) = (f for f in ask_all(made).findings if f.question == "outside met")
    assert found.quantifier == "some"
    read = [made.groups[g].readings[r].label for g, r in enumerate(found.construction.readings)]
    assert "those denied are not enough" in read


def test_one_place_denied() -> None:
    assert presumed_in_symbols(LABEL, "labelled", "not on the lid") == "not (lid IN labelled)"
    _, (readings,) = all_readings(LABEL, "labelled", "not at the lid")
    assert "these and nothing else" not in [label for label, _ in readings]
    alone = on_the_wrong_side(
        LABEL, "labelled", "not on the lid but on the wall", "labelled = {wall}", "labelled = {wall, lid}"
    )
    assert alone == []


def test_places_of_a_set_as_its_members() -> None:
    of = (
        ("only on the wall", "only the wall"),
        ("on both the lid and the base", "the lid and the base"),
        ("on neither the lid nor the base", "neither the lid nor the base"),
        ("not only on the lid but also on the base", "the lid and the base"),
        ("not just the lid but the base", "the lid and the base"),
    )
    for words, plain in of:
        told = presumed_in_symbols(LABEL, "labelled", words)
        assert told, words
        assert told == presumed_in_symbols(LABEL, "labelled", plain), words
    assert presumed_in_symbols(LABEL, "labelled", "not only the lid or the base but the wall") == ""
    assert presumed_in_symbols(LABEL, "labelled", "printed on the wall of a box") == ""


def test_of_one_place_only_what_is_said() -> None:
    declared = "label  one of lid, base, wall"
    assert presumed_in_symbols(declared, "label", "not on the lid but on the wall") == (
        "(not (label = lid) and (label = wall))"
    )


PARTS = "springs, levers, wheels, clamps, hooks  count"
FIVE = "springs, levers, wheels, clamps, hooks"


def test_a_plurality_of_five() -> None:
    words = "a plurality of springs, levers, wheels, clamps, and hooks"
    assert presumed_labels(PARTS, FIVE, words) == [["two or more of each", "two or more in all"]]
    row = ", ".join(f"{name} = 2" for name in FIVE.split(", "))
    made = sheet(
        f"{PARTS}\n\n1. A lock with {words}.\n   | {FIVE} : {words}\n\n"
        f"inside\n  two : {row}\n  one hook : {row.replace('hooks = 2', 'hooks = 1')}\n"
    )
    lost = {f.subject if hasattr(f, "subject") else f.quantifier for f in ask_all(made).findings
            if f.question == "inside lost"}  # fmt: skip
    assert len(lost) == 1


def test_a_plurality_of_more_than_can_be_read_is_refused() -> None:
    more = FIVE + ", pins, bolts"
    words = "a plurality of springs, levers, wheels, clamps, hooks, pins, and bolts"
    assert presumed_in_symbols(f"{more}  count", more, words) == ""


SALTS = "salt, sugar  share in wt%"


@pytest.mark.parametrize(
    ("words", "plain"),
    [
        ("at most 2 and at least 1.3", "at least 1.3 and at most 2"),
        ("less than or equal to 2 and greater than or equal to 1.3", "at least 1.3 and at most 2"),
        ("less than 2 and greater than 1.3", "greater than 1.3 but less than 2"),
        ("less than 3:1 and at least 2:1", "at least 2:1 and less than 3:1"),
    ],
)
def test_the_upper_limit_of_a_ratio_first(words: str, plain: str) -> None:
    lead = "the weight ratio of salt to sugar is"
    told = all_readings(SALTS, "salt, sugar", f"{lead} {words}")[1]
    assert told == all_readings(SALTS, "salt, sugar", f"{lead} {plain}")[1]
    within, outside = "salt = 32 wt%, sugar = 20 wt%", "salt = 20 wt%, sugar = 20 wt%"
    if "3:1" in words:
        within = "salt = 50 wt%, sugar = 20 wt%"
    assert on_the_wrong_side(SALTS, "salt, sugar", f"{lead} {words}", within, outside) == []


def test_limits_of_a_ratio_that_leave_nothing_are_refused() -> None:
    words = "the ratio of salt to sugar is at most 1 and at least 1.3"
    assert presumed_in_symbols(SALTS, "salt, sugar", words) == ""
    assert presumed_in_symbols("ratio  number", "ratio", "ratio 13 dB") == ""


def test_a_ratio_before_the_european_office_is_rounded_as_shares_are() -> None:
    text = (
        f"profile  EPO\n{SALTS}\n\n1. A brine with a weight ratio of salt to sugar of at most 2.\n"
        "   | salt, sugar : a weight ratio of salt to sugar of at most 2\n"
    )
    made, told = read_sheet(Source("test", text))
    assert made is not None, told
    assert [r.label for r in made.groups[0].readings if r.standing == "presumed"] == [
        "first over second", "first over second, rounded",
    ]  # fmt: skip


SLOT = "slot, rib  length in mm"


def test_a_whole_number_and_a_fraction_in_one_sign() -> None:
    for words in ("at least 2½ times the rib", "at least two and half times the rib"):
        assert on_the_wrong_side(SLOT, "slot, rib", words, "slot = 25 mm, rib = 10 mm",
                                 "slot = 24.9 mm, rib = 10 mm") == []  # fmt: skip
    assert presumed_in_symbols(SLOT, "slot", "at least 2½ mm") == "slot >= 5/2 mm"
    assert presumed_in_symbols(SLOT, "slot, rib", "between two and half times the rib") == ""


def test_how_far_below_is_never_read_past() -> None:
    for margin in ("well", "clearly", "much", "slightly"):
        than = "less than" if margin == "much" else "below"
        made, told = read_sheet(
            Source("test", f"{SLOT}\n\n1. A sole with a width {margin} {than} the rib.\n"
                           f"   | slot, rib : a width {margin} {than} the rib\n")
        )  # fmt: skip
        assert made is None
        assert not any("read past" in d.message for d in told)
    assert all_readings(SLOT, "slot, rib", "well below the rib")[1]


COOKED = "core  temperature in degC\nmoment  time in min"


def test_a_moment_told_before_its_limit() -> None:
    behind = presumed_in_symbols(COOKED, "core, moment", "at least 40 degC at 10 minutes")
    assert behind == "if ROUND(moment TO 1 min, HALF AWAY) = 10 min then core >= 40 degC"
    for words in ("at 10 minutes, at least 40 degC", "at 10 minutes, a temperature of at least 40 degC"):
        assert presumed_in_symbols(COOKED, "core, moment", words) == behind
    two = "at 10 minutes, at least 40 degC, and at 20 minutes, at least 50 degC"
    assert presumed_in_symbols(COOKED, "core, moment", two) == ""


@pytest.mark.parametrize("when", ["by about 90 minutes", "within 15 minutes", "in 60 minutes"])
def test_up_to_a_moment_is_refused_with_what_helps(when: str) -> None:
    words = f"at least 40 degC {when}"
    made, told = read_sheet(
        Source("test", f"{COOKED}\n\n1. A roast at {words}.\n   | core, moment : {words}\n")
    )
    assert made is None
    (error,) = (d for d in told if d.severity == "error")
    assert f"'{when.split()[0]}' tells of a course in time" in error.message
    assert f'"{when}"' in error.help


FIRED = "hardness  number\nfiring  temperature in degC\nhold  time in h"


@pytest.mark.parametrize(
    ("when", "told"),
    [
        ("when dried at 900 degC", ["'dried' is read as firing"]),
        ("when subjected to sintering at 900 degC", ["'when subjected to sintering' is read past"]),
    ],
)
def test_what_is_done_is_told_once(when: str, told: list[str]) -> None:
    words = f"at least 30 {when} for 5 hours"
    made, found = read_sheet(
        Source("test", f"{FIRED}\n\n1. A grit, {words}.\n   | hardness, firing, hold : {words}\n")
    )
    assert made is not None
    assert [d.message for d in found] == told


@pytest.mark.parametrize("run", ["extending", "extending over", "extending for", "runs along"])
def test_the_majority_of_a_length(run: str) -> None:
    words = f"{run} the majority of the length of the rib"
    assert presumed_in_symbols(SLOT, "slot, rib", words) == "slot > rib / 2"


def test_of_a_refused_line_nothing_is_told_as_read_past() -> None:
    words = "a good deal of the length of the marginal rib"
    made, told = read_sheet(Source("test", f"{SLOT}\n\n1. A sole, {words}.\n   | slot, rib : {words}\n"))
    assert made is None
    assert [d.severity for d in told] == ["error"]
