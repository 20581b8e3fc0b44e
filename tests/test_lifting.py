"""What is advised of words that no phrase reads whole: no word that changes what is limited is dropped."""

from __future__ import annotations

import pytest

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

HEAD = (
    "voltage   voltage in V\npressure  pressure in bar\ngap       length in mm\nwort  number\n"
    "dose  mass in mg\nweight  mass in kg\ntimer  time in s\ncounter  count\nC, Mn  share in wt%\n"
    "FT, CT  temperature in degC\ntop, rim  length in nm\nholes  count\nsoaking  step in min\n"
    "  bath  temperature in degC\n"
)


def wrong(left: str, words: str) -> Diagnostic:
    source = Source("t.sheet", f"{HEAD}1. A device in which {words}.\n   | {left} : {words}\n")
    found = [d for d in read_sheet(source)[1] if d.severity == "error"]
    assert len(found) == 1, found
    return found[0]


@pytest.mark.parametrize(
    ("left", "words", "lost"),
    [
        ("voltage", "voltage ripple is at most 1 V", "ripple"),
        ("pressure", "alternates between 2 and 5 bar", "alternates"),
        ("pressure", "swings between 2 and 5 bar", "swings"),
        ("gap", "adjustable from 2 to 5 mm", "adjustable"),
        ("bath of soaking", "above 60 °C at the start of the soaking", "start"),
    ],
)
def test_no_word_that_changes_what_is_limited_is_dropped(left: str, words: str, lost: str) -> None:
    told = wrong(left, words)
    assert f"'{lost}'" in told.cause
    assert "lift" not in told.help
    assert "a name of its own" in told.help
    assert "symbols" in told.help


def test_a_word_for_the_most_part_is_marked_or_kept() -> None:
    told = wrong("gap", "of typically 4 mm")
    assert "lift: 4 mm, and mark the rest: not restated : typically" in told.help
    assert told.help.startswith("write the meaning in symbols")


@pytest.mark.parametrize(
    ("left", "words", "help"),
    [
        (
            "gap",
            "a lid snugly 3 mm",
            "if 'lid snugly' does not change what is limited, lift only: 3 mm; else",
        ),
        ("gap", "of 3 ≤ gap < 5 mm", "a formula is lifted without the words around it: 3 ≤ gap < 5 mm"),
        ("wort", "drops below 12 °Bx", "write in the head: unit Bx, and declare: wort  in Bx; then"),
        ("timer", "the timer runs for 5 s or longer", "lift only: 5 s or longer"),
        ("C, Mn", "no more than one of C and Mn exceeds 10 wt%", "write the meaning in symbols"),
        ("FT, CT", "350 ≤ FT - CT ≤ 500", "write the formula with its units behind them"),
    ],
)
def test_what_is_advised(left: str, words: str, help: str) -> None:
    assert help in wrong(left, words).help


def test_another_measure_is_not_marked_away() -> None:
    told = wrong("gap", "a gap of 3 mm in radius")
    assert "'in radius'" in told.cause
    assert "lift" not in told.help


def test_a_layer_is_no_slip_for_later() -> None:
    told = wrong("top, rim", "50 times or more the thickness of the low-refractive-index layer")
    assert "later" not in told.help


def test_wordings_that_reports_propose_are_no_nearest_ones() -> None:
    told = wrong("holes", "the condition is holding and the step carried out")
    assert "carried out" not in told.help


def test_what_is_declared_is_not_looked_for_in_notes() -> None:
    source = Source(
        "t.sheet",
        'drying  step in min\ninterruptions  count  "of the drying"\n1. A process, wherein '
        "the interruptions together making up no more than a tenth of the duration of the drying.\n"
        "   | drying : the interruptions together making up no more than a tenth of the duration of the"
        " drying\n",
    )
    (told,) = (d for d in read_sheet(source)[1] if d.severity == "error")
    assert "write both left" not in told.help


@pytest.mark.parametrize(
    ("left", "words", "help"),
    [
        ("gap", "2 mm in at least 90 % of the samples", "share so : at least 90 %"),
        ("top, rim, gap", "top, rim and gap in a ratio of 1:1:1 to 2:1:1", "1 <= top / rim <= 2, rim"),
        ("gap", "at least 2 mm and no more than twice that", "facts such as gap <= ... mm"),
        ("gap", "a hair's breadth", "facts such as gap <= ... mm"),
        ("holes", "4n + 2, where n is an integer of at least 1", "(x - 2) / 4 IS WHOLE"),
        ("top, rim", "top/rim = 0.5 to 0.8", "0.5 <= top/rim <= 0.8"),
    ],
)  # fmt: skip
def test_an_exact_form_is_offered(left: str, words: str, help: str) -> None:
    told = wrong(left, words)
    assert help in told.help
    assert "lift only" not in told.help


def test_what_is_advised_of_another_basis_is_read() -> None:
    words = "at most 5 % by weight of C, based on the weight of the Mn"
    lifted = "at most 5 % by weight ... of the Mn"
    source = Source("t.sheet", f"{HEAD}1. A steel with {words}.\n   | C : {lifted}\n")
    assert not [d for d in read_sheet(source)[1] if d.severity == "error"]


@pytest.mark.parametrize("words", ["at most traces", "at least 2 mm and no more than twice that"])
def test_what_is_lifted_never_ends_in_the_air(words: str) -> None:
    assert "lift" not in wrong("C" if "traces" in words else "gap", words).help


@pytest.mark.parametrize(
    ("left", "words"),
    [("C", "anhydrous"), ("gap", "a sprinkle"), ("FT", "a brisk boil")],
)
def test_what_shares_no_word_is_not_near(left: str, words: str) -> None:
    assert "nearest" not in wrong(left, words).help


@pytest.mark.parametrize("comma", ["", ","])
def test_exactly_may_have_a_comma_as_advised(comma: str) -> None:
    line = f"   | gap : a hair's breadth  exactly{comma} gap <= 0.1 mm\n"
    source = Source("t.sheet", f"{HEAD}1. A device with a hair's breadth.\n{line}")
    assert not [d for d in read_sheet(source)[1] if d.severity == "error"]


def test_a_step_that_is_left_out_is_advised_in_symbols() -> None:
    head = "rinsing  step in min, may be left out\n"
    source = Source("t.sheet", f"{head}1. A method without rinsing.\n   | rinsing : without rinsing\n")
    told = [d.help for d in read_sheet(source)[1] if d.severity == "error"]
    assert all("exactly NOT DONE(rinsing)" in help for help in told)


def test_a_range_behind_a_sign_is_advised_with_two_signs() -> None:
    source = Source("t.sheet", f"{HEAD}1. A device.\n   | top/rim = 0.5 to 0.8\n")
    (told,) = (d for d in read_sheet(source)[1] if d.severity == "error")
    assert told.help == "write 0.5 <= top/rim <= 0.8"
