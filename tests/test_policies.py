"""Policies over the whole catalogue: each leaves what sets its axis so or says nothing of it, and no more."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import permutations
from pathlib import Path

import pytest

from scopecheck.core.model import Group, Reading
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import number_text
from scopecheck.foundations.spans import Source
from scopecheck.report.occasions import occasions
from scopecheck.report.rereadings import common_words, group_words
from scopecheck.report.wording import GLUE, flat, quoted
from scopecheck.resolve.sheet import read_sheet
from scopecheck.vocabulary.catalogue import entries
from tests.sheets import errors

AXES = sorted({axis for e in entries() for r in e.readings for axis, _ in r.axes})
NAMED = {
    f"{e.group} {number} {e.title}": e
    for number, e in enumerate(entries())
    if any(r.axes for r in e.readings)
}
VARIANTS: dict[str, Callable[[str], str]] = {
    "as it stands": lambda text: text,
    "of degrees": lambda text: text.replace("length in mm", "temperature in degC").replace(" mm", " degC"),
    "by a share": lambda text: text.replace("10 mm", "10 %").replace(" 2 mm", " 2 %"),
    "of a thing by a share": lambda text: text.replace(" 2 mm", " 2 %").replace("± 10 mm", "± 10 %"),
    "in tenths": lambda text: text.replace("10 mm", "10.0 mm").replace("10 %", "10.0 %"),
    "at zero": lambda text: text.replace("10 mm", "0 mm"),
    "below zero": lambda text: text.replace("length in mm", "temperature in degC").replace(
        "20 mm", "-20 degC"
    ),
    "downward": lambda text: text.replace("1:2", "1:9"),
    "of a measured number": lambda text: text.replace("count", "number"),
}
"""What the numbers of a phrase's first wording may be, so that every reading has its turn."""


def told(text: str, title: str) -> tuple[Group | None, list[str]]:
    """The group of the phrase in a sheet, None where the sheet is wrong, and the warnings."""
    sheet, found = read_sheet(Source("test", text))
    groups = [g for g in sheet.groups if g.entry == title] if sheet else []
    return (groups[0] if groups else None), [d.message for d in found]


@cache
def sheets(name: str) -> dict[str, Group]:
    """Sheets with the phrase, each with its group."""
    entry = NAMED[name]
    texts = dict.fromkeys(change(o.text) for o in occasions(entry) for change in VARIANTS.values())
    return {text: group for text in texts if (group := told(text, entry.title)[0]) is not None}


def left(readings: tuple[Reading, ...], axis: str, value: str) -> tuple[str, ...]:
    """What a policy must leave, in the words of the rule."""
    return tuple(r.label for r in readings if (axis, value) in r.axes or axis not in dict(r.axes))


@pytest.mark.parametrize("name", NAMED)
def test_each_policy_leaves_what_sets_it_so_or_says_nothing_of_it(name: str) -> None:
    for text, before in sheets(name).items():
        for axis, value in sorted({pair for r in before.readings for pair in r.axes}):
            after, warnings = told(f'{text}\npolicy {axis} are {value}  "paragraph 3"\n', NAMED[name].title)
            assert after is not None
            kept = tuple(r.label for r in after.readings)
            assert kept == left(before.readings, axis, value), (axis, value)
            removed = tuple(r.label for r in before.readings if r.label not in kept)
            assert [(s.removed, s.reason) for s in after.settled] == [(removed, "paragraph 3")]
            assert not any("settles nothing" in w for w in warnings)


@pytest.mark.parametrize("name", NAMED)
def test_a_policy_of_another_question_leaves_all(name: str) -> None:
    text, before = next(iter(sheets(name).items()))
    sheet, _ = read_sheet(Source("test", text))
    assert sheet is not None
    for axis in set(AXES) - {a for g in sheet.groups for r in g.readings for a, _ in r.axes}:
        value = next(v for e in entries() for r in e.readings for a, v in r.axes if a == axis)
        after, warnings = told(f"{text}\npolicy {axis} are {value}\n", NAMED[name].title)
        assert after is not None
        assert after.readings == before.readings
        assert any("settles nothing" in w for w in warnings)


def test_every_reading_that_sets_something_had_its_turn() -> None:
    had = {(NAMED[n].title, r.label) for n in NAMED for group in sheets(n).values() for r in group.readings}
    computed = [(e, r) for e in entries() for r in e.readings if r.formula is not None and r.axes]
    missed = [(e.title, r.label) for e, r in computed if (e.title, r.label) not in had]
    assert missed == []
    every = {pair for e in entries() for r in e.readings for pair in r.axes}
    # A policy for a value that only readings without a formula set would settle nothing.
    assert every == {pair for _, r in computed for pair in r.axes}


def test_each_axis_takes_something_away_somewhere() -> None:
    groups = [group for n in NAMED for group in sheets(n).values()]
    for axis in AXES:
        values = [{v for r in group.readings for a, v in r.axes if a == axis} for group in groups]
        assert any(len(v) > 1 for v in values), axis


def test_no_reading_sets_an_axis_twice() -> None:
    for entry in entries():
        for reading in entry.readings:
            axes = [axis for axis, _ in reading.axes]
            assert len(axes) == len(set(axes)), (entry.title, reading.label)


def test_policies_one_after_the_other() -> None:
    (name,) = (n for n in NAMED if NAMED[n].title == "between (L) and (U)")
    text = next(iter(sheets(name)))
    both, _ = told(f"{text}\npolicy ends are included\npolicy rounding is none\n", NAMED[name].title)
    assert both is not None
    assert [r.label for r in both.readings] == ["both ends in"]


def test_a_pin_may_have_the_words_of_a_place_and_is_then_for_these_words_only() -> None:
    claim = (
        "1. A thing of 3 mm to 5 mm and 7 mm to 9 mm.\n   | gap : 3 mm to 5 mm\n   | not restated : and\n"
        "   | gap : 7 mm to 9 mm\n"
    )
    text = f'gap  length in mm\nread "3 mm to 5 mm" as "both ends in"\n\n{claim}'
    made, found = read_sheet(Source("test", text))
    assert made is not None
    assert not found
    left = {p.where: [r.label for r in g.readings] for g in made.groups for p in g.places}
    assert left["1a"] == ["both ends in"]
    assert len(left["1b"]) > 1
    again, found = read_sheet(Source("test", text.replace('"3 mm to 5 mm" as', '"to" in 1a as')))
    assert again is not None
    assert not found


def test_a_pin_with_the_words_of_a_place_and_a_reading_of_none_is_told_their_readings() -> None:
    claim = "1. A thing of 3 mm to 5 mm.\n   | gap : 3 mm to 5 mm\n"
    text = f'gap  length in mm\nread "3 mm to 5 mm" as "both ends inn"\n\n{claim}'
    made, (wrong,) = read_sheet(Source("test", text))
    assert made is None
    assert wrong.message == "'3 mm to 5 mm' has no reading 'both ends inn'"
    assert wrong.help.startswith("its readings here: 'both ends in', ")


SHEETS = sorted((Path(__file__).parent.parent / "specs" / "sheets").glob("*.sheet"))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_what_a_report_prints_of_a_reading_can_be_pasted_as_a_pin(path: Path) -> None:
    """The words of every phrase, as its report prints them for each place and for all of them together."""
    text = path.read_text("utf-8")
    made, _ = read_sheet(Source(path.name, text))
    assert made is not None
    wanted, pinned = {}, {}
    for g in (g for g in made.groups if g.document == "claims" and len(g.readings) > 1):
        label, common = g.readings[-1].label, flat(common_words(g))
        if pinned.setdefault(common, g.index) != g.index:
            continue  # what two phrases have in common is pinned for one of them
        for words in {common, *(flat(group_words(g, [p.where])) for p in g.places)}:
            wanted[f"read {words} as {quoted(label)}".replace(GLUE, " ")] = g.places[0], label
    again, found = read_sheet(Source(path.name, "\n".join([text, *wanted, ""])))
    assert again is not None, [d.message for d in found]
    left = {(p.where, p.words, *(r.label for r in g.readings)) for g in again.groups for p in g.places}
    assert wanted
    assert {(p.where, p.words, label) for p, label in wanted.values()} <= left


def test_two_policies_that_cannot_both_hold_are_an_error() -> None:
    text = (
        "gap  length in mm\n\n1. A gap of between 3 and 4 mm.\n   | gap : between 3 and 4 mm\n\n"
        'policy  ends are included  "a"\npolicy  ends are {0}  "b"\n'
    )
    (wrong,) = errors(text.format("excluded"))
    assert "another policy says that ends are taken as 'included'" in wrong.message
    assert wrong.span.line == 7
    assert not errors(text.format("included"))


# ---- several pins of the same words

PINNED = """open  share in %
wax   share in %

1. A rod with an open area of about 35 %, and a wax of about 20 %.
   | open : about 35 %
   | wax  : about 20 %

"""
WIDE = 'read "about" as "context tolerance" with e = 5 %'
OTHERWISE = 'read "about" as "rounding only"'
IN_CLAIM = 'read "about" in 1 as "context tolerance" with e = 3 %'
IN_LINE = 'read "about" in 1a as "context tolerance" with e = 1 %'
OF_WORDS = 'read "about 35 %" as "context tolerance" with e = 2 %'


def pinned(*pins: str) -> tuple[dict[str, tuple[list[str], list[str]]], list[Diagnostic]]:
    """For each line which pins are cited and at which value its number is; and what is told of the pins."""
    made, told = read_sheet(Source("pins", PINNED + "".join(f"{pin}\n" for pin in pins)))
    found = {}
    for group in made.groups if made else ():
        values = [number_text(p.presumed * 100) for p in made.parameters if p.group == group.index]
        found |= {place.where: ([s.text for s in group.settled], values) for place in group.places}
    return found, list(told)


@pytest.mark.parametrize(
    ("pins", "in_1a", "in_1b"),
    [
        ((WIDE, IN_LINE), (IN_LINE, "1"), (WIDE, "5")),
        ((WIDE, IN_CLAIM, IN_LINE), (IN_LINE, "1"), (IN_CLAIM, "3")),
        ((IN_CLAIM, OF_WORDS), (IN_CLAIM, "3"), (IN_CLAIM, "3")),
        ((WIDE, OF_WORDS), (OF_WORDS, "2"), (WIDE, "5")),
        ((OTHERWISE, IN_LINE), (IN_LINE, "1"), (OTHERWISE, "")),
    ],
)
def test_of_pins_the_one_for_less_holds_in_any_order(
    pins: tuple[str, ...], in_1a: tuple[str, str], in_1b: tuple[str, str]
) -> None:
    """By itself, and it alone is cited."""
    for order in permutations(pins):
        found, told = pinned(*order)
        assert found == {
            where: ([pin], [value] if value else []) for where, (pin, value) in (("1a", in_1a), ("1b", in_1b))
        }
        assert all(d.severity == "warning" and "settles nothing" in d.message for d in told)


@pytest.mark.parametrize(
    ("first", "second", "message"),
    [
        (WIDE, WIDE.replace("5", "6"), "another pin gives 'e' in 1a the value 5 %"),
        (WIDE, OTHERWISE, "another pin reads 'about' in 1a as 'context tolerance'"),
        (OTHERWISE, WIDE, "another pin reads 'about' in 1a as 'rounding only'"),
        (IN_LINE, IN_LINE.replace("1a", "1a, 1b").replace("1 %", "2 %"), "another pin gives 'e' in 1a"),
    ],
)
def test_pins_for_as_much_that_do_not_agree_are_a_mistake(first: str, second: str, message: str) -> None:
    (error,) = errors(f"{PINNED}{first}\n{second}\n")
    assert error.message.startswith(message)
    assert error.cause == "It stands in line 8; the two cannot both hold."
    assert error.span.line == 9


@pytest.mark.parametrize("pin", [WIDE, OTHERWISE, IN_CLAIM, IN_LINE])
def test_a_pin_that_stands_twice_is_told_and_counts_once(pin: str) -> None:
    once, _ = pinned(pin)
    twice, told = pinned(pin, pin)
    assert twice == once
    assert [(d.severity, d.message) for d in told] == [("warning", "this pin stands in line 8 already")]


def test_pins_that_give_a_number_and_its_reading_go_together() -> None:
    found, told = pinned('read "about" as "context tolerance"', WIDE)
    assert not told
    assert [values for _, values in found.values()] == [["5"], ["5"]]


def test_a_pin_gives_no_number_to_the_reading_of_another() -> None:
    """Of the reading that holds in 1a the other pin's number is not taken."""
    found, told = pinned(WIDE, 'read "about" in 1a as "context tolerance"')
    assert not told
    assert (found["1a"][1], found["1b"][1]) == (["0"], ["5"])
    message = "the reading 'context tolerance' leaves no number 'q' open"
    assert message in [d.message for d in pinned(WIDE.replace("e =", "q ="), IN_CLAIM)[1]]
