"""What is told of refused words can be pasted: the edit was tried in the claim before it is shown."""

from __future__ import annotations

import pytest

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.edits import with_edits_tried
from scopecheck.resolve.sheet import read_sheet

BAKING = "baking  step in min\n  moisture  share in %"
HOLES = 'hole  part, 1 to 6\n  diameter  length in mm\ncup  length in mm  "diameter of the suction cup"'
GRANULES = "granule  part, 1 to 6\n  diameter  length in mm\naverage diameter  length in mm"


def sheet(declared: str, words: str, line: str) -> str:
    return f"{declared}\n\n1. A thing, wherein {words}.\n   | {line}\n"


def told(declared: str, left: str, words: str) -> tuple[Diagnostic, ...]:
    source = Source("t", sheet(declared, words, f"{left} : {words}"))
    return with_edits_tried(source, read_sheet(source)[1])


@pytest.mark.parametrize(
    ("declared", "left", "words", "help"),
    [
        (BAKING, "baking", "until its moisture is less than 4 %", "write: baking, moisture of baking :"),
        (HOLES, "diameter of the holes, cup", "the diameters of the holes tend towards that of the cup",
         "EVERY hole (... mm <= diameter <= ... mm, ... mm <= cup <= ... mm)"),
        ("acid form  any of acid, salt", "acid form", "an acid in the guise of a salt", "acid IN acid form"),
        ("acid  mass in mg", "acid", "70 mg of the acid or an equivalent amount of a salt",
         "... mg <= acid <= ... mg"),
        ("lift  length in mm", "lift", "a drop of 5 mm", "... mm <= lift <= ... mm"),
        ("wax  share in wt%", "wax", "disclaiming 6 wt%", "... wt% <= wax <= ... wt%"),
        ("rinsing  step in min, may be left out", "rinsing", "without rinsing", "exactly  NOT DONE(rinsing)"),
        ("heating, drying  step in min", "heating, drying", "heating begins immediately after drying or so",
         "ORDER(heating, drying)"),
        ("screws  count", "screws", "two rows of screws", "... <= screws <= ..."),
    ],
)  # fmt: skip
def test_refused_words_get_a_line_to_paste(declared: str, left: str, words: str, help: str) -> None:
    (wrong,) = (d for d in told(declared, left, words) if d.severity == "error")
    assert help in wrong.help
    assert "lift only" not in wrong.help
    pasted = wrong.help.rpartition("write: " if "write: " in wrong.help else "in this line: ")[2]
    made, _ = read_sheet(Source("t", sheet(declared, words, pasted)))
    assert made is not None


@pytest.mark.parametrize(
    ("words", "form"),
    [
        ("at least 70 mg", "acid >= ... mg"),
        ("more than 70 mg", "acid > ... mg"),
        ("not exceeding 70 mg", "acid <= ... mg"),
        ("less than 70 mg", "acid < ... mg"),
        ("at least 20 mg and at most 70 mg", "... mg <= acid <= ... mg"),
    ],
)
def test_the_form_that_is_shown_has_the_side_of_the_words(words: str, form: str) -> None:
    said = f"{words} of the acid or an equivalent amount of a salt"
    (wrong,) = (d for d in told("acid  mass in mg", "acid", said) if d.severity == "error")
    assert f"such as {form}," in wrong.help


def test_a_line_to_be_written_counts_as_not_restated() -> None:
    made, found = read_sheet(
        Source("t", sheet("wax  share in wt%", "a trace", "wax : a trace  exactly  ..."))
    )
    assert made is not None
    assert not made.claims[0].limitations
    assert ["still to be written" in d.message for d in found] == [True]


def test_what_does_not_read_is_not_advised_in_a_warning() -> None:
    words = "the average diameter of the granules is 0.4 mm or less"
    (warning,) = told(GRANULES, "average diameter", words)
    assert warning.severity == "warning"
    assert "granules : " not in warning.help


def test_near_phrases_share_the_words_that_tell() -> None:
    (wrong,) = told("acid  share in wt%", "acid", "does not quite contain 6 wt%")
    assert "nearest" not in wrong.help
    (wrong,) = told("wax  share in wt%", "wax", "at most a trace")
    assert "nearest: 'at most traces of ...'" in wrong.help


def test_a_noun_is_not_blamed() -> None:
    (wrong,) = told("heat  temperature in degC", "heat", "the heat of the dough never ever is 30 °C")
    assert "dough" not in wrong.cause


def test_peak_is_the_highest() -> None:
    left, words = "highest heat of baking", "the peak heat does not exceed 260 °C"
    assert not told("baking  step in min\n  heat  temperature in degC", left, words)


def test_an_ordinary_distance_is_not_said_to_lie_below_zero() -> None:
    assert not told("edge distance  length in mm", "edge distance", "within 5 mm of the edge")


@pytest.mark.parametrize("words", ["0.1 % of the solids", "1 to 3 parts of wax per 100 parts of the solids"])
def test_a_share_of_something_is_not_said_to_be_of_nothing(words: str) -> None:
    (warning,) = told('wax  share in wt%  "of the solids"', "wax", words)
    assert "by mass, by volume or by mole" in warning.message
    assert "percent of what" not in warning.message


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("lift  length in mm", "lift", "a fall of 5 mm"),
        ("acid  mass in mg", "acid", "without 70 mg of the acid"),
        ("acid  mass in mg", "acid", "70 mg of the acid or its salt"),
        ("acid  mass in mg", "acid", "70 mg unless heated"),
        ("acid  mass in mg", "acid", "lacking 70 mg of the acid"),
        ("acid  mass in mg", "acid", "excepting 70 mg"),
        ("gap  length in mm", "gap", "a decrease of 5 mm"),
        ("gap  length in mm", "gap", "a loss of 5 mm"),
    ],
)
def test_nothing_that_turns_a_limit_round_is_left_out(declared: str, left: str, words: str) -> None:
    assert all("lift only" not in d.help for d in told(declared, left, words))
