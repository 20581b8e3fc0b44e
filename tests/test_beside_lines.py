"""What stands right beside the words of a line, and in no line, is told where it may change their limit."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import sheet

HEAD = "gap, rim  length in mm\n"


def told(said: str, lifted: str, head: str = HEAD, name: str = "gap", more: str = "") -> list[str]:
    """What is told of one line of a claim that says the words, with causes."""
    text = f"{head}1. A device having a {name} {said}, the device being red.\n   | {name} : {lifted}\n{more}"
    read, found = read_sheet(Source("t.sheet", text))
    assert read is not None, found
    return [f"{d.message} {d.cause}" for d in found]


@pytest.mark.parametrize(
    ("said", "lifted", "words"),
    [
        ("g that in no event exceeds 4 mm", "exceeds 4 mm", "in no event"),
        ("g that at no time exceeds 4 mm", "exceeds 4 mm", "at no time"),
        ("which under no circumstances is greater than 4 mm", "greater than 4 mm",
         "under no circumstances is"),
        ("which never, in any case, exceeds 4 mm", "exceeds 4 mm", "never, in any case,"),
        ("that is rarely above 4 mm", "above 4 mm", "rarely"),
        ("that fails to exceed 4 mm", "exceed 4 mm", "fails to"),
        ("that is prevented from exceeding 4 mm", "exceeding 4 mm", "prevented from"),
        ("which does not normally exceed 4 mm", "exceed 4 mm", "not normally"),
        ("that is anything but 4 mm", "4 mm", "anything but"),
        ("of 2 mm instead of above 4 mm", "above 4 mm", "instead of"),
    ],
)  # fmt: skip
def test_what_denies_a_limit_may_say_the_opposite(said: str, lifted: str, words: str) -> None:
    (message,) = told(said, lifted)
    assert message.startswith(f"'{words}' stands right before these words in the claim, and in no line")
    assert "the opposite" in message


@pytest.mark.parametrize(
    ("said", "lifted", "words"),
    [
        ("of typically 4 mm", "4 mm", "typically"),
        ("that is nominally 4 mm", "4 mm", "nominally"),
        ("in the neighborhood of 4 mm", "4 mm", "in the neighborhood of"),
        ("that is short of 4 mm", "4 mm", "short of"),
        ("that is down to 4 mm", "4 mm", "down to"),
        ("that swings between 2 and 4 mm", "between 2 and 4 mm", "swings"),
        ("less the 4 mm", "4 mm", "less the"),
        ("that may be above 4 mm", "above 4 mm", "may be"),
        ("capable of being above 4 mm", "above 4 mm", "capable of being"),
        # no list has these: between 'is' and a limit stands nothing that is not of a name
        ("that is south west of 4 mm", "4 mm", "south west of"),
        ("that is allegedly 4 mm", "4 mm", "allegedly"),
    ],
)
def test_what_loosens_or_moves_a_limit_is_told(said: str, lifted: str, words: str) -> None:
    (message,) = told(said, lifted)
    assert message.startswith(f"'{words}' stands right before these words in the claim, and in no line")
    assert "With it" in message


@pytest.mark.parametrize(
    ("said", "lifted", "words"),
    [
        ("a gap difference of at most 1 mm", "at most 1 mm", "difference of"),
        ("a nominal gap of 4 mm", "4 mm", "nominal gap of"),
        ("a gap increased by 4 mm", "4 mm", "increased by"),
        ("a final gap is at most 4 mm", "gap is at most 4 mm", "final"),
    ],
)
def test_words_that_make_another_value_of_a_name_are_told(said: str, lifted: str, words: str) -> None:
    text = f"{HEAD}1. A device in which {said}.\n   | gap : {lifted}\n"
    (found,) = read_sheet(Source("t.sheet", text))[1]
    assert found.message.startswith(f"'{words}' stands right before these words in the claim")


@pytest.mark.parametrize(
    ("claim", "lifted", "other"),
    [
        ("A food product having a gap of 4 mm", "a gap of 4 mm", False),
        ("A food product which has a gap of 4 mm", "a gap of 4 mm", False),
        ("A gap product having 4 mm", "4 mm", True),
        ("A product of a gap of 4 mm", "a gap of 4 mm", True),
        ("A gap ripple having 4 mm", "4 mm", True),
    ],
)
def test_a_product_that_has_something_is_a_thing(claim: str, lifted: str, other: bool) -> None:
    found = read_sheet(Source("t.sheet", f"{HEAD}1. {claim}.\n   | gap : {lifted}\n"))[1]
    assert ["right before" in d.message for d in found] == [True] * other


@pytest.mark.parametrize("words", ["tops", "max", "at the most", "upward", "from the rim", "nowhere"])
def test_so_is_what_stands_right_behind(words: str) -> None:
    (message,) = told(f"of 4 mm {words}", "4 mm")
    assert message.startswith(f"'{words}' stands right behind these words in the claim, and in no line")


@pytest.mark.parametrize(
    ("said", "lifted", "words"),
    [
        ("and means increasing the width by at least 4 mm", "at least 4 mm", "increasing the width by"),
        ("which is enlarged in width by at least 4 mm", "at least 4 mm", "width by"),
        ("which differs from 20 mm by not more than 4 mm", "not more than 4 mm", "differs from 20 mm by"),
        ("which drops within a cycle by at least 4 mm", "at least 4 mm", "drops within a cycle by"),
        ("offset from a set gap by at least 4 mm", "at least 4 mm", "offset from a set gap by"),
        ("adjustable in steps of at least 4 mm", "at least 4 mm", "steps of"),
        ("with a hysteresis of 4 mm", "4 mm", "hysteresis of"),
        ("and a second gap of at least 4 mm", "at least 4 mm", "second gap of"),
        ("and a cumulative gap of at least 4 mm", "at least 4 mm", "cumulative gap of"),
        ("the double of which is 4 mm", "4 mm", "double of which is"),
        ("and the sum of gap and play being below 4 mm", "below 4 mm", "sum of gap and play being"),
        ("the gap per stage being at least 4 mm", "at least 4 mm", "per stage being"),
        ("the gap of all but one of the stages being 4 mm", "4 mm", "all but one of the stages being"),
        ("and an inner gap minus an outer gap of at least 4 mm", "at least 4 mm", "minus an outer gap of"),
        ("which at its start is 4 mm", "4 mm", "which at its start is"),
        ("which momentarily is above 4 mm", "above 4 mm", "which momentarily is"),
        ("that is designed to be 4 mm", "4 mm", "designed to be"),
        ("being not necessarily less than 4 mm", "less than 4 mm", "not necessarily"),
    ],
)
def test_what_makes_it_a_limit_of_something_else_is_told(said: str, lifted: str, words: str) -> None:
    (message,) = told(said, lifted)
    assert message.startswith(f"'{words}' stands right before these words in the claim, and in no line")
    assert "With it" in message


@pytest.mark.parametrize(
    ("said", "lifted"),
    [
        ("that is 4 mm", "4 mm"),
        ("the leaves being spaced apart by at least 4 mm", "at least 4 mm"),
        ("into which a tongue extends in the main direction by 4 mm", "4 mm"),
        ("that is shut by two clips", "two clips"),
        ("and a food product having a gap of 4 mm", "a gap of 4 mm"),
        ("which lies in the range of 2 to 4 mm", "2 to 4 mm"),
        ("that is kept at 4 mm", "4 mm"),
        ("that is generally 4 mm", "4 mm"),  # the account has it
        ("of nominally 4 mm", "nominally 4 mm"),
        ("in the device of 4 mm", "4 mm"),
        ("and two feet of 4 mm, possibly round", "4 mm"),
    ],
)
def test_what_says_nothing_of_a_limit_is_not_told(said: str, lifted: str) -> None:
    read, found = read_sheet(
        Source(
            "t.sheet", f"{HEAD}1. A device having a gap {said}, the device being red.\n   | gap : {lifted}\n"
        )
    )
    assert not [d for d in found if "stands right" in d.message], (read, found)


def test_a_mark_takes_it() -> None:
    assert not told("of typically 4 mm", "4 mm", more="   | not restated : typically\n")


def test_a_word_of_a_name_is_no_other() -> None:
    head = 'fit  length in mm  "nominally, of the wall"\n'
    assert not told("that is nominally 4 mm", "4 mm", head, "fit")


@pytest.mark.parametrize(("said", "words"), [(", max", "max"), (" (nominal)", "nominal")])
def test_so_is_what_stands_behind_and_apart(said: str, words: str) -> None:
    (message,) = told(f"of 4 mm{said}", "4 mm")
    assert message.startswith(f"'{words}' stands right behind these words")


@pytest.mark.parametrize("words", ["until", "upon", "while", "once", "for as long as"])
def test_a_condition_right_behind_a_line_is_told_by_the_account(words: str) -> None:
    made = sheet(f"{HEAD}1. A device having a gap above 4 mm {words} heated.\n   | gap : above 4 mm\n")
    assert [(u.sort, u.words) for u in made.unrestated] == [("condition word", words)]


COUNTED = (
    "gap  length in mm\nholes  count\nclay  share in %\n"
    'rise  temperature in K  "increase of the temperature"\n'
)


def _beside_one(claim: str, line: str, head: str = COUNTED) -> list[str]:
    text = f"{head}1. A device having {claim}, the device being red.\n   | {line}\n"
    read, found = read_sheet(Source("t.sheet", text))
    assert read is not None, found
    return [d.message.split("'")[1] for d in found if "stands right" in d.message]


@pytest.mark.parametrize(
    ("claim", "line", "words"),
    [
        ("a gap of 3 mm per hole", "gap : 3 mm", "per hole"),
        ("a gap of 3 mm. per hole", "gap : 3 mm", "per hole"),
        ("a gap of 3 mm every minute", "gap : 3 mm", "every minute"),
        ("a gap of 3 mm in one hour", "gap : 3 mm", "in one hour"),
        # Parts of a limit.
        ("a gap of from 2 mm to 3 mm", "gap : 3 mm", "from 2 mm to"),
        ("a gap between 2 and 3 mm", "gap : 3 mm", "between 2 and"),
        ("a lid, each of the slots having a gap of 3 mm", "gap : 3 mm", "each of the slots having a gap of"),
        ("a lid that opens if the gap is more than 3 mm", "gap : more than 3 mm", "if the gap is"),
        ("a slot more than 10 % above a gap of 3 mm", "gap : 3 mm", "more than 10 % above a gap of"),
        ("a gap varying by at least 3 mm", "gap : at least 3 mm", "varying by"),
        ("a decrease of the gap of at least 3 mm", "gap : at least 3 mm", "decrease of the gap of"),
        ("a lid lacking two holes", "holes : two holes", "lacking"),
        ("a pair of at least two holes", "holes : at least two holes", "pair of"),
        ("two rows of five holes", "holes : five holes", "rows of"),
        ("a lid, each row of five holes being red", "holes : five holes", "each row of"),
        ("at least two holes being optional", "holes : at least two holes", "being optional"),
        ("at most 2 % clay by number", "clay : at most 2 %", "clay by number"),
    ],
)
def test_what_makes_another_limit_of_lifted_words_is_told(claim: str, line: str, words: str) -> None:
    assert _beside_one(claim, line) == [words]


@pytest.mark.parametrize(
    ("claim", "line"),
    [
        ("a row of at least five holes", "holes : at least five holes"),
        ("an increase of the temperature of at least 5 K", "rise : at least 5 K"),
        ("at most 2 % of clay", "clay : at most 2 %"),
        ("a height above the lid, and a gap of 3 mm", "gap : 3 mm"),
        ("at least two holes and a gap of 3 mm", "gap : a gap of 3 mm"),
        ("a gap of at least 3 mm by which it is hung", "gap : at least 3 mm"),
    ],
)
def test_what_leaves_a_limit_as_it_is_is_not_told(claim: str, line: str) -> None:
    assert _beside_one(claim, line) == []
