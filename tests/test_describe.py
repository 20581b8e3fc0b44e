"""Values, things, readings and findings in words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from scopecheck.answers.about import (
    Because,
    Cases,
    Empty,
    EndNotReached,
    Idle,
    Lost,
    Met,
    NoValue,
    OneReading,
    Otherwise,
    Reread,
    WayOut,
)
from scopecheck.answers.findings import Shown, Statuses
from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.questions import ask_all
from scopecheck.core.formula import Add, Bound, Compare, Const, Measured, Parameter, Read, Truth
from scopecheck.core.grounds import Bounds
from scopecheck.core.model import Reading
from scopecheck.foundations.record import replace
from scopecheck.report.amounts import approximate, plain_number, quantity_text
from scopecheck.report.describe import value_text
from scopecheck.report.margins import readings_told
from scopecheck.report.rereadings import break_text
from scopecheck.report.wording import GLUE
from scopecheck.solving.ends import Extremum
from tests.build import unit
from tests.reported import (
    STRAINER,
    answers_of,
    found,
    items_of,
    one_line,
    stretch,
    text_of,
    with_witness,
)
from tests.sheets import sheet as text_sheet


def test_a_stated_end_tells_what_is_reached() -> None:
    end = found(
        "end not reached", 4, "2a", "between 20 and 60 mm", quantifier="base",
        about=EndNotReached(Because(), "60 mm", "mm", True, Extremum(Fraction(175, 3), False)),
    )  # fmt: skip
    statement = one_line(items_of(answers_of(end))[0].statement)
    assert statement.endswith("reaches: it is 60 mm, and the value stays below about 58.3 mm.")
    least = EndNotReached(Because(), "20 mm", "mm", False, Extremum(Fraction(37, 2), True))
    reached = replace(end, about=least)
    assert "it is 20 mm, and the value is at least 18.5 mm." in one_line(
        items_of(answers_of(reached))[0].statement
    )


@pytest.mark.parametrize(
    ("question", "more", "text"),
    [
        (
            "adds nothing",
            {},
            "Claim 2 adds nothing to what it depends on: whatever meets the parent meets it too",
        ),
        ("undefined", {"about": NoValue("a / b")}, "Has no value for a thing: a / b is 0 there."),
        ("case empty on a reading", {"case": "D1"}, "Nothing at all fits document D1"),
        (
            "no reading fits all cases",
            {},
            "No choice of readings puts every listed case on its own side at the same time while words"
            " alike are read alike.",
        ),
        (
            "no reading fits all cases",
            {"about": Cases(("bench sample",))},
            'No choice of readings puts "bench sample" wholly inside while words alike are read alike.',
        ),
        (
            "pair",
            {"bearer": "challenger"},
            "Only when both are re-read, a thing is met; neither alone does it.",
        ),
        (
            "contested",
            {"about": OneReading((0, 1), "with others")},
            "changes only once another phrase is re-read as well.",
        ),
        (
            "contested",
            {"about": OneReading((0, 1), "both")},
            "On this reading some things are met that were not",
        ),
        (
            "dependent cannot be met",
            {"about": Empty(Because(("2a",)))},
            'conflict: 2a "between 20 and 60 mm".',
        ),
    ],
)
def test_statements(question: str, more: dict[str, Any], text: str) -> None:
    finding = found(question, 4, "claim 2", "2. The", **more)
    assert text in one_line(items_of(answers_of(finding))[0].statement)


def test_of_many_limitations_the_first_are_told() -> None:
    labels = ("1a", "1b", "2a", "3a", "4a")
    finding = found("inside lost", 3, "claim 4", "4. The", failing=labels)
    (item,) = items_of(answers_of(finding))
    assert [label for label, _ in item.heads] == ["1a", "1b", "2a", "3a", "1 more like it"]


def test_what_keeps_a_thing_out_is_told_beyond_the_reading_told_already() -> None:
    ways = (WayOut("1a", "divisible by 6", ((0, 1),)), WayOut("1b", "between 2 and 4 mm", ()))
    met = found("outside met", 2, "claim 1", "1. A leaf", about=Met(ways_out=ways))
    finding = with_witness(met, (0, 1), holes=Fraction(25))
    text = one_line(text_of(answers_of(finding)))
    assert 'Kept out by 1a "divisible by 6", unless it is read as "can be divided" 1b "between' in text
    assert '1b "between 2 and 4 mm", and no single re-reading lets it by' in text
    alone = one_line(text_of(answers_of(replace(finding, about=Met(ways_out=ways[:1])))))
    assert "Kept out" not in alone


def test_what_another_parent_asks_keeps_nothing_out() -> None:
    claims = (*STRAINER.claims[:3], replace(STRAINER.claims[3], parents=(1, 2)))
    ways = (WayOut("1b", "between 2 and 4 mm", ((1, 1),)), WayOut("2a", "between 20 and 60 mm", ()))
    met = found("outside met", 2, "claim 4", "4. The", about=Met(ways_out=ways))
    met = with_witness(met, metal=frozenset({"steel"}))
    sheet = replace(STRAINER, claims=claims)
    text = one_line(text_of(answers_of(met, sheet=sheet), sheet=sheet))
    assert "Kept out by 1b" in text
    assert '2a "between 20 and 60 mm"' not in text


def test_what_keeps_a_thing_out_may_stretch_far_enough() -> None:
    usual = Compare("<=", Measured("diameter"), Add((Const(Fraction(2, 1000)), Parameter("e"))))
    line = replace(STRAINER.claims[0].limitations[1], formula=Read(1, (usual, Truth(False))))
    claim = replace(STRAINER.claims[0], limitations=(STRAINER.claims[0].limitations[0], line))
    sheet = replace(STRAINER, claims=(claim, *STRAINER.claims[1:]), parameters=(stretch(1),))
    ways = (WayOut("1b", "between 2 and 4 mm", ((1, 1),)),)
    met = with_witness(found("outside met", 2, "claim 1", "1. A leaf", about=Met(ways_out=ways)))
    told = one_line(text_of(answers_of(met, sheet=sheet), sheet=sheet))
    by = 'Kept out by 1b "between 2 and 4 mm", unless it is read as "both ends out" or stretches by '
    assert f"{by}0.2 % or more" in told
    narrow = replace(stretch(1), upper=Bound(Fraction(1, 1000), True))
    sheet = replace(sheet, parameters=(narrow,))
    assert "stretches far enough" not in one_line(text_of(answers_of(met, sheet=sheet), sheet=sheet))


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(305, 100000), "3.05 mm"),
        (Fraction(34, 11000), "about 3.09 mm"),
        (Fraction(0), "0 mm"),
        (Fraction(-1, 3000), "about -0.333 mm"),
        (Fraction(123456789, 7000), "about 17636684 mm"),
        (Fraction(199999, 300000000), "about 0.667 mm"),
    ],
)  # fmt: skip
def test_numbers_are_exact_or_marked(value: Fraction, text: str) -> None:
    assert quantity_text(value, unit("mm")).replace(GLUE, " ") == text


def test_approximations_are_rounded_half_away_from_zero() -> None:
    assert approximate(Fraction(1, 3)) == "0.333"
    assert approximate(Fraction(2, 3)) == "0.667"
    assert approximate(Fraction(-2, 3)) == "-0.667"
    assert approximate(Fraction(999999, 7), 3) == "142857"
    assert approximate(Fraction(1, 7 * 10**6), 3) == "0.000000143"
    assert plain_number(Fraction(5, 2)) == "2.5"


def test_sets_are_told_in_declared_order() -> None:
    assert value_text(STRAINER, "metal", frozenset({"zinc", "copper"})) == "copper and zinc"
    assert value_text(STRAINER, "metal", frozenset()) == "none"


@pytest.mark.parametrize(
    ("upward", "closed", "text"),
    [
        (True, False, 'once "about" stretches by more than 2.5 %'),
        (True, True, 'once "about" stretches by 2.5 % or more'),
        (False, False, 'as long as "about" stretches by less than 2.5 %'),
        (False, True, 'as long as "about" stretches by 2.5 % at most'),
    ],
)
def test_break_points_are_open_or_closed(upward: bool, closed: bool, text: str) -> None:
    parameter = stretch(0)
    sheet = replace(STRAINER, parameters=(parameter,))
    point = BreakPoint("e", Extremum(Fraction(1, 40), closed), upward)
    assert break_text(sheet, point, '"about"').replace(GLUE, " ") == text


def test_a_break_point_in_a_unit_of_its_own() -> None:
    parameter = replace(stretch(0), unit=unit("mm"), shared=False)
    sheet = replace(STRAINER, parameters=(parameter,))
    text = break_text(sheet, BreakPoint("e", Extremum(Fraction(1, 2000), False), True), '"about"')
    assert text.replace(GLUE, " ") == 'once "about" stretches by more than 0.5 mm'


def test_the_usual_reading_of_a_line_that_fails_is_named_with_its_stretch() -> None:
    parameter = stretch(1)
    sheet = replace(STRAINER, parameters=(parameter,))
    finding = found("inside lost", 3, "claim 1", "1. A leaf", quantifier="base", failing=("1b",))
    text = one_line(text_of(answers_of(finding, sheet=sheet), sheet=sheet))
    assert (
        'Read with "between 2 and 4 mm" in its usual reading, "both ends in" (presumed): the ends are in; '
        "not stretched at all Raised by"
        in text
        or "Not so on every reading listed." in text
    )


def test_a_lost_case_tells_on_which_reading_it_is_kept() -> None:
    parameter = stretch(1)
    sheet = replace(STRAINER, parameters=(parameter,))
    point = BreakPoint("e", Extremum(Fraction(1, 35), True), True)
    finding = found("inside lost", 3, "claim 1", "1. A leaf", quantifier="base", failing=("1b",),
                    otherwise=Otherwise((Reread(1, 0, (point,)),)))  # fmt: skip
    text = one_line(text_of(answers_of(finding, sheet=sheet), sheet=sheet))
    assert 'Kept in once "between 2 and 4 mm" stretches by about 2.86 % or more' in text


def test_several_presumed_readings_mean_that_no_presumption_is_known() -> None:
    finding = replace(found("inside lost", 3, "3a", "at least one of"), read_as=(Reread(2, 1),))
    assert '"one of each" (no presumption known): copper and zinc' in one_line(text_of(answers_of(finding)))


def test_a_reading_that_asks_nothing_says_so() -> None:
    reading = Reading("anything", "arguable", "TRUE")
    group = replace(STRAINER.groups[0], readings=(STRAINER.groups[0].readings[0], reading))
    sheet = replace(STRAINER, groups=(group, *STRAINER.groups[1:]))
    finding = replace(found("outside met", 2, "1a", "divisible by 6"), rereads=(Reread(0, 1),))
    text = one_line(text_of(answers_of(finding, sheet=sheet), sheet=sheet))
    assert '"anything" (arguable): anything meets it' in text


@pytest.mark.parametrize(
    ("change", "text"),
    [
        ({}, "Raised by the examiner or a challenger"),
        ({"purpose": "court"}, "Raised by a challenger"),
        ({"profile": "EPO"}, "Raised by the examining division or an opponent"),
    ],
)
def test_who_would_bring_it(change: dict[str, Any], text: str) -> None:
    """Who leans on the usual readings reads no more widely than others."""
    sheet = replace(STRAINER, **change)
    finding = found("outside met", 2, "claim 1", "1. A leaf", bearer="challenger", case="garden sieve")
    wider = replace(finding, rereads=(Reread(0, 1),))
    usual, reread = (one_line(text_of(answers_of(f, sheet=sheet), sheet=sheet)) for f in (finding, wider))
    assert text in usual
    assert "who reads more widely" not in usual
    assert f"{text}, who reads more widely" in reread


def test_notes_tell_how_sure_and_how_far() -> None:
    finding = with_witness(
        found(
            "inside lost",
            3,
            "claim 1",
            "1. A leaf",
            case="bench sample",
            thing=Shown(grade="near", simplest=False),
            best=False,
            about=Lost(("finish",)),
            status=Statuses("some", "some", "every"),
            rests_on=(Bounds("height"),),
        )
    )
    text = one_line(text_of(answers_of(finding)))
    for part in (
        "Only part of bench sample is concerned: it says nothing of finish.",
        "There may be a simpler such thing.",
        "A smaller change of reading may do as well.",
        "How much is met: some of it as presumed and on the narrowest reading, all of it on the widest"
        " reading",
        "Rests on height above 0 mm",
    ):
        assert part in text


def test_what_is_idle_names_the_readings_of_the_lines_that_it_rests_on() -> None:
    made = text_sheet(
        "gap  length in mm\n1. A sieve with a gap of at least 3 mm, the gap being 3 mm or more.\n"
        "   | gap : at least 3 mm\n   | gap : 3 mm or more\n"
    )
    (finding,) = [f for f in ask_all(made).findings if f.question == "idle"]
    assert (finding.label, finding.about) == ("1b", Idle(Because(("1a",)), ("1a",)))
    told = " ".join(readings_told(made, finding))
    # Whatever "3 mm or more" is read as, it asks for nothing more then.
    assert '"3 mm or more" in its usual reading' not in told
    assert '"at least 3 mm" in its usual reading' in told
