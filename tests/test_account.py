"""The text against the sheet: what no line restates is listed, and nothing else."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import HEAD, STRAINER, claim, sheet
from tests.slips import SHEET, SLIPS, Slip


def listed(words: str, *lines: str) -> list[tuple[str, str]]:
    return [(u.sort, u.words) for u in claim(words, *lines).unrestated]


def test_all_restated() -> None:
    assert sheet(STRAINER).unrestated == ()


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (
            "between 2 and 4 mm",
            [("end word", "between"), ("number", "2"), ("connective", "and"), ("number", "4 mm")],
        ),
        ("up to 5 % of wax", [("end word", "up to"), ("number", "5 %")]),
        ("copper or zinc", [("connective", "or")]),
        ("not more than 3 mm", [("connective", "not"), ("end word", "more than"), ("number", "3 mm")]),
        ("substantially free of oil", [("hedge", "substantially"), ("end word", "free of")]),
        ("no copper", [("connective", "no")]),
        ("never at least 3 mm", [("connective", "never"), ("end word", "at least"), ("number", "3 mm")]),
        ("other than copper", [("end word", "other than")]),
        ("about 20 °C", [("hedge", "about"), ("number", "20 °C")]),
        ("three ribs", [("number", "three")]),
        ("a rib above the rim", []),
        ("the D50 of the H2O", []),
        ("4mm wide", [("number", "4mm")]),
        ("a rib above 3 mm", [("end word", "above"), ("number", "3 mm")]),
    ],
)
def test_nothing_restated(words: str, expected: list[tuple[str, str]]) -> None:
    assert listed(words) == expected


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("a rim shorter than the lid", [("end word", "shorter than")]),
        ("fewer ribs than the lid", [("end word", "fewer ribs than")]),
        ("a more even rim than the lid", [("end word", "more even rim than")]),
        ("welded rather than glued", [("connective", "rather than")]),
        ("a rim closer to the lid than the foot", [("end word", "closer to the lid than")]),
        ("with a greater diameter than the lid", [("end word", "greater diameter than")]),
        ("blunter than the lid", [("end word", "blunter than")]),
        ("at least one half full", [("end word", "at least"), ("number", "one half")]),
        ("half as long as the lid", [("number", "half")]),
        ("at least half of the lid", [("end word", "at least"), ("number", "half")]),
        ("half of its volume", [("number", "half")]),
        ("one third of its volume", [("number", "one third")]),
        ("two-thirds full", [("number", "two-thirds")]),
        ("three quarters full", [("number", "three quarters")]),
        ("a third of the holes", [("number", "third")]),
        ("shut if the lamp is lit", [("condition word", "if")]),
        ("lit when wet and shut otherwise", [
            ("condition word", "when"), ("connective", "and"), ("condition word", "otherwise")]),
        ("shut unless it is wet", [("connective", "unless")]),
        ("shut as soon as it is wet", [("condition word", "as soon as")]),
        ("shut once the bath is full", [("condition word", "once")]),
        ("shut, provided that it is wet", [("condition word", "provided that")]),
        ("a mode selected from slow, fast", [("limiting word", "selected from")]),
        ("a mode chosen from among the modes", [("limiting word", "chosen from among")]),
        ("shut below the ambient pressure", [("end word", "below")]),
        ("shut above a set temperature", [("end word", "above")]),
        ("shut below its boiling point", [("end word", "below")]),
        ("one quarter turn", [("number", "one quarter")]),
        ("an even finer rim than the lid", [("end word", "finer rim than")]),
        ("shut over the threshold", [("end word", "over")]),
    ],
)  # fmt: skip
def test_words_that_limit_without_a_number(words: str, expected: list[tuple[str, str]]) -> None:
    assert listed(words) == expected


@pytest.mark.parametrize(
    "words",
    [
        "a rib below the temperature sensor",
        "a lid over the length of the pipe",
        "a rib above the half of a mould",
        "a rib below the torque wrench",
        "one third sensor",
        "one half shell",
        "the upper half of a shell",
        "a rim, the lower half of which is red",
        "the halves of a shell",
        "a half-moon rib",
        "a third lens",
        "the first third lens",
        "a rib coloured, if desired, red",
        "a medium whose words, when executed by a machine, shut it",
        "impurities, if any",
        "a rib shut once a day",
        "a rib provided with a lid",
        "a rim as red as the lid",
        "a chosen rim",
        "a rim in case",
    ],
)
def test_words_that_only_look_like_limits(words: str) -> None:
    assert listed(words) == []


def test_what_leads_to_a_list_that_a_line_has_is_said_by_it() -> None:
    text = "mode  one of only slow, fast, off\n\n1. A mixer, its mode being {} slow or fast.\n"
    text += "   | mode : slow or fast\n"
    assert sheet(text.format("selected from")).unrestated == ()
    group = sheet(text.format("selected from the group consisting of")).unrestated
    assert [u.words for u in group] == ["consisting of"]
    (left,) = sheet(text.format("selected from two speeds, in turn")).unrestated[:1]
    assert left.words == "selected from"


def test_a_condition_that_a_line_leaves_out_is_told_and_a_mark_takes_it() -> None:
    shut = "shut when the diameter is at most 3 mm"
    assert listed(shut, "diameter : at most 3 mm") == [("condition word", "when")]
    assert listed(shut, "diameter : at most 3 mm", "not restated : shut when") == []


def test_lifted_words_are_taken() -> None:
    assert listed("between 2 and 4 mm", "diameter : between 2 and 4 mm") == []
    assert listed("open about 35 % and at least 3 holes", "open : about 35 %") == [
        ("connective", "and"),
        ("end word", "at least"),
        ("number", "3"),
    ]


def test_unit_left_out_of_the_lifted_words() -> None:
    lines = ("diameter : at least 3", '  reading "only" : x >= 3 mm')
    assert listed("at least 3 mm", *lines) == [("unit", "mm")]


def test_numbers_of_lines_in_symbols_count() -> None:
    assert listed("of 2 to 4 mm", "2 mm <= diameter <= 4 mm") == [("end word", "to")]


def test_mark_takes_words() -> None:
    assert listed("about 35 % open", "not restated : about 35 %") == []


def test_two_uses_of_the_same_words_take_one_each() -> None:
    both = "at least 3 mm deep and at least 3 mm wide"
    once = listed(both, "diameter : at least 3 mm")
    assert once == [("connective", "and"), ("end word", "at least"), ("number", "3 mm")]
    assert listed(both, "diameter : at least 3 mm", "2 * diameter : at least 3 mm") == []


@pytest.mark.parametrize(
    "text",
    [
        "A strainer comprising a basket; and a rim.",
        "A strainer comprising a basket, and wherein the rim is round.",
        "A strainer, wherein the basket is round, and the rim is flat.",
        "A strainer, wherein the basket is round and the rims abut each other.",
        "A strainer, wherein the basket is round and has a rim.",
        "A strainer (10) with a basket (12) on a rim (14a).",
    ],
)
def test_joints_and_reference_signs_do_not_count(text: str) -> None:
    assert sheet(f"1. {text}\n").unrestated == ()


def test_claim_references_do_not_count() -> None:
    made = sheet(
        "1. A sieve.\n2. The sieve of claim 1.\n"
        "3. The sieve according to any one of claims 1 and 2, with 3 ribs.\n"
    )
    assert [(u.claim, u.words) for u in made.unrestated] == [(3, "3")]


def test_context_and_place() -> None:
    (item,) = sheet(f"{HEAD}1. A strainer with a rim of steel, and with about four good legs.\n").unrestated[
        :1
    ]
    assert item.words == item.span.text == "and"
    assert item.context == "rim of steel, and with about four good"


@pytest.mark.parametrize(
    "words",
    [
        "comprising a rain-water pipe and a leaf strainer",
        "comprising a basket with a rim, and a lid",
        "having a basket made of steel, and a rim",
        "comprising lime, sand, and water",
        "comprising lime, sand and water",
        "comprising 20 to 30 wt% of a lime and up to 5 wt% of a sand",
        "comprising heating the air, leaving it, and repeating both",
        "comprising a catch having a depth of 3 to 12 mm, and up to four springs acting on it",
        "comprising a lid and at least two steel pins",
        "comprising a lid, a rim and 3 to 5 bolts",
        "comprising a lid and exactly one pin",
        "comprising the steps of heating the air, leaving it, and repeating both",
        "comprising a band with a width from a first to a second line and a rim",
    ],
)
def test_and_between_elements_does_not_count(words: str) -> None:
    found = sheet(f"1. A thing {words}, the thing being round.\n").unrestated
    assert "connective" not in [u.sort for u in found]


@pytest.mark.parametrize(
    "words",
    [
        "comprising a basket made of copper and zinc",
        "comprising a mixture of a wax and an oil",
        "comprising at least one of a wax and an oil",
        "comprising ribs of 2, 3, and 4",
        "comprising at least 3 holes and at most 5 holes",
        "comprising at least 3 and at most 5 holes",
        "comprising 2 and 3 holes",
        "comprising a lid of at least 3 mm and 4 times the rim",
        "comprising a rim made of at least two of copper and one of tin",
        "comprising a rim, wherein the distance between the lid and the rim is small",
        "comprising a rim, wherein the rim is in contact with the lid and the base",
        "comprising a rim, wherein the rim is smooth and bright",
    ],
)
def test_and_that_joins_what_limits_counts(words: str) -> None:
    found = sheet(f"1. A thing {words}.\n").unrestated
    assert ("connective", "and") in [(u.sort, u.words) for u in found]


def test_to_counts_after_a_number_only() -> None:
    assert listed("connected to 2 ribs") == [("number", "2")]
    assert ("end word", "to") in listed("2 mm to 4 mm")


def test_fraction_is_one_number() -> None:
    assert listed("a 1/4 inch hole") == [("number", "1/4 inch")]
    assert listed("a 1/4 inch hole", "diameter = 1/4 inch") == []


def test_numbers_of_claims_are_not_taken_by_lines() -> None:
    text = "a  count\n\n1. A x.\n2. A y of claim 1.\n3. The y of claim 1 or 2, with 2 ribs.\n   | a : 2\n"
    assert sheet(text).unrestated == ()


# ---- slips


def told_at(text: str) -> list[str]:
    """The words at which something is told, in the text and in the lines, by the account or as a mistake."""
    made, diagnostics = read_sheet(Source("filter.sheet", text))
    places = [d.span.text for d in diagnostics] + [span.text for d in diagnostics for span, _ in d.also]
    return places + ([u.span.text for u in made.unrestated] if made else [])


def test_the_sheet_without_a_slip_is_even() -> None:
    assert told_at(SHEET) == []


def test_there_are_sixty_slips() -> None:
    assert len(SLIPS) >= 60
    assert all(SHEET.count(slip.old) == 1 for slip in SLIPS), [
        s.old for s in SLIPS if SHEET.count(s.old) != 1
    ]


@pytest.mark.parametrize("slip", SLIPS, ids=lambda s: s.now)
def test_each_slip_is_told_at_its_words(slip: Slip) -> None:
    places = [" ".join(place.split()) for place in told_at(SHEET.replace(slip.old, slip.now))]
    for words in filter(None, (slip.in_text, slip.in_line)):
        assert any(words in place for place in places), (words, places)


def test_a_negative_number_in_symbols_accounts_for_the_one_of_the_text() -> None:
    assert listed("the heat is at least minus 5 °C", "heat >= -5 degC") == [("end word", "at least")]


def test_a_sign_in_words_before_a_limit_is_asked_for() -> None:
    told = listed("a negative diameter not less than 2 mm", "diameter : not less than 2 mm")
    assert told == [("sign", "negative")]
    assert listed("a positive plate, with a diameter of 2 mm", "diameter : 2 mm") == []


def test_digits_of_a_declared_name_are_no_number() -> None:
    text = "PEG-400  share in wt%\n\n1. A paste with PEG-400, in an amount of 3 wt%.\n   | PEG-400 : 3 wt%\n"
    assert sheet(text).unrestated == ()


@pytest.mark.parametrize(
    ("word", "sort"), [("ratio", "limiting word"), ("mean", "limiting word"), ("about", "hedge")]
)
def test_words_are_called_what_they_are(word: str, sort: str) -> None:
    assert (sort, word) in listed(f"a {word} of the holes")
