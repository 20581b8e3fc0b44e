"""Reports: what stands where, what is told together, and what is held back."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

import pytest

from scopecheck.answers.about import Because, Empty, OneReading, RangeLies, Reread
from scopecheck.answers.findings import Finding, Looked, Statuses
from scopecheck.answers.questions import ask_all
from scopecheck.foundations.record import replace
from scopecheck.report.grouping import axes, departures, order_key
from scopecheck.report.page import MOST_ITEMS, build_report, exit_status
from scopecheck.report.plan import plan
from scopecheck.report.render import Format, render
from scopecheck.report.rereadings import standing_text
from scopecheck.report.wording import GLUE
from tests.forbidden_words import forbidden_in
from tests.reported import (
    STRAINER,
    TEXT,
    answered,
    answers_of,
    contested,
    found,
    items_of,
    lost,
    many,
    one_line,
    span,
    text_of,
)
from tests.sheets import sheet as text_sheet

EVERY = "Wrong on every reading listed"

# ---- a whole sheet


def test_an_item_tells_words_thing_reading_bearer_in_this_order() -> None:
    text = one_line(text_of(answered()))
    parts = [
        '1b "between 2 and 4 mm"',
        "Not met by tall sample as listed (diameter 4 mm). It is listed among what must be inside.",
        'Read with "between 2 and 4 mm" as "both ends out" (arguable): the ends are out',
        "Raised by a competitor, who reads more narrowly",
    ]
    places = [text.index(part, text.index("Lost in part or on some reading")) for part in parts]
    assert places == sorted(places)


def test_the_head_tells_what_was_looked_at() -> None:
    text = text_of(answered())
    assert text.startswith("Confidential: prepared for counsel\n\nLeaf strainer for a rain-water pipe\n")
    assert "Read under US practice as in examination" in text
    assert "Looked at: 4 claims with 5 limitations; 2 cases inside, 1 case that must stay out and" in text


def test_the_foot_tells_what_it_all_rests_on() -> None:
    text = one_line(text_of(answered()))
    for part in (
        "Claim 1: bench sample being lost; lines that conflict; something meant that 1a keeps out.",
        "Claims 2 and 3: lines that conflict.",
        "every combination of the 6 readings listed for 3 phrases, leaving out those listed as strained",
        "Natural bounds: holes 0 or more; diameter and height above 0 mm.",
        'Given facts: "height > 0 mm" ("a basket").',
        'Settled by the sheet: "decimals are exact" ("paragraph 14").',
        "Text that no line restates - Claim 1, line 3: number",
    ):
        assert part in text
    assert text.count("registered practitioner") == 1


@pytest.mark.parametrize("format", get_args(Format))
@pytest.mark.parametrize("everything", [False, True])
def test_no_output_says_what_only_a_practitioner_may_say(format: Format, everything: bool) -> None:
    drawn = render(build_report(STRAINER, answered(), everything), format, 90)
    sheet_texts = [TEXT, *(given.text for given in STRAINER.givens), STRAINER.confidential, STRAINER.title]
    assert forbidden_in(drawn, sheet_texts) == []
    assert GLUE not in drawn


@pytest.mark.parametrize("details", [False, True])
@pytest.mark.parametrize("format", get_args(Format))
def test_the_same_sheet_gives_the_same_bytes(format: Format, details: bool) -> None:
    asked = (ask_all(STRAINER, details=details) for _ in range(2))
    first, second = (render(build_report(STRAINER, answers, True), format) for answers in asked)
    assert first == second


def test_a_reading_that_lets_in_something_listed_is_not_told_twice_for_what_was_meant() -> None:
    sieve = next(item for item in items_of(answered()) if "garden sieve" in item.statement)
    assert [f.question for f in sieve.findings] == ["outside met"]
    assert [f.question for f in sieve.consequences] == ["unmeant met", "idle"]
    told = one_line(sieve.follows[0])
    assert told.startswith("The same reading of 1a lets in what was not meant: garden sieve itself, beside")
    assert "holes 24 instead of 25, alike in all else" in told


def test_every_finding_is_told_or_counted_as_held_back() -> None:
    report = build_report(STRAINER, answered(), True)
    assert not report.held_back
    short = build_report(STRAINER, answered(), False)
    assert {short.order[i].question for i in short.held_back} <= {"contested"}


# ---- order, decisions, the first page


def test_findings_of_one_decision_are_one_item() -> None:
    first = lost("claim 1", "1. A leaf", "tall sample")
    second = lost("claim 2", "2. The", "bench sample", diameter=Fraction(3, 1000))
    (item,) = items_of(answers_of(second, first))
    told = (
        "Are the ends included? The claims leave this open at 2 places; at each it changes whether"
        " some thing, listed or not, is met."
    )
    assert one_line(item.decision) == told
    assert item.heads == (("1b", '"between 2 and 4 mm"'),)
    assert [one_line(line) for line in item.also] == [
        '2a "between 20 and 60 mm": not met by bench sample as listed (height 60 mm, holes 24, '
        'diameter 3 mm, metal copper); "both ends out" (arguable)'
    ]


def test_a_decision_comes_up_where_the_words_re_read_stand_and_not_at_the_line_that_is_idle() -> None:
    """The words of group 0 stand in 1a alone, those of group 1 in 1b and 2a; 2a is no part of claim 3."""
    idle = found("idle", 4, "3a", "at least one of")
    once, ends = replace(idle, rereads=(Reread(0, 1),)), replace(idle, rereads=(Reread(1, 1),))
    (item,) = plan(STRAINER, (once,)).items
    assert (item.places, item.matters) == (1, 1)
    (item,) = plan(STRAINER, (ends,)).items
    assert (item.places, item.matters) == (2, 1)


def test_findings_of_different_questions_stay_apart() -> None:
    first = lost("claim 1", "1. A leaf", "tall sample")
    other = replace(first, question="outside met", stakes=2, case="garden sieve")
    assert [item.statement.split()[0] for item in items_of(answers_of(first, other))] == ["Met", "Not"]


def test_order_is_stakes_then_own_claims_then_standing_then_distance_then_position() -> None:
    nothing = found("nothing meets", 1, "claim 3", "3. The", quantifier="every")
    unpresumed = replace(found("inside lost", 3, "claim 2", "2. The"), read_as=(Reread(2, 1),))
    one = replace(found("inside lost", 3, "claim 1", "1. A leaf"), rereads=(Reread(0, 1),))
    two = replace(found("inside lost", 3, "claim 1", "1. A leaf"), rereads=(Reread(0, 1), Reread(1, 1)))
    late = replace(one, span=span("4. The"))
    wanted = [nothing, one, late, two, unpresumed]
    for start in range(len(wanted)):
        mixed = wanted[start:] + wanted[:start]
        assert sorted(mixed, key=lambda f: order_key(STRAINER, f)) == wanted


def test_the_first_page_holds_ten_items_and_says_how_many_were_held_back() -> None:
    answers = answers_of(*many(13))
    assert len(items_of(answers)) == MOST_ITEMS == 10
    text = one_line(text_of(answers))
    assert "3 more items are held back, because this page holds 10 at most" in text
    assert f"3 under '{EVERY}' (claim 2). Run with --all to see everything." in text
    report = build_report(STRAINER, answers, False)
    assert len(report.held_back) == 3
    everything = build_report(STRAINER, answers, True)
    assert len(everything.items) == 13
    assert not everything.held_back
    assert "held back" not in render(everything, "text")


def test_a_claim_that_nothing_meets_as_presumed_is_never_held_back() -> None:
    empty = replace(
        found("dependent cannot be met", 4, "claim 2", "2. The", quantifier="base"), outcome="vacuous"
    )
    answers = answers_of(*many(13), empty)
    assert "Nothing meets claim 2" in one_line(text_of(answers))
    assert len(items_of(answers)) == MOST_ITEMS


def test_one_item_held_back_is_told_in_the_singular() -> None:
    assert "1 more item is held back" in one_line(text_of(answers_of(*many(11))))


def test_contested_wording_is_one_quiet_line_with_its_count() -> None:
    answers = answers_of(contested("1b", "between 2 and 4 mm"), contested("3a", "at least one of", (2, 1)))
    text = one_line(text_of(answers))
    assert not items_of(answers)
    assert "3 places where the words can be read more than one way" in text
    assert "Is one of them enough? (1); Are the ends included? (2). Run with --all for the list." in text
    listed = one_line(text_of(answers, everything=True))
    assert '2 1b "between 2 and 4 mm" Less is met on this reading.' in listed
    told = (
        "The claims leave this open at 2 places; at 1 of them it changes whether some thing, listed or not,"
        " is met."
    )
    assert f"Decision Are the ends included? {told}" in listed
    assert exit_status(answers) == 0


def test_contested_wording_is_not_counted_where_a_graver_item_turns_on_it() -> None:
    answers = answers_of(lost("claim 1", "1. A leaf", "tall sample"), contested("1b", "between 2 and 4 mm"))
    assert "Contested" not in text_of(answers)


def test_a_policy_that_pins_the_only_other_reading_leaves_no_decision() -> None:
    group = replace(STRAINER.groups[1], readings=STRAINER.groups[1].readings[:1])
    sheet = replace(STRAINER, groups=(STRAINER.groups[0], group, STRAINER.groups[2]))
    assert "2 phrases with 4 readings" in text_of(answers_of(sheet=sheet), sheet=sheet)


def test_readings_on_different_axes_are_different_decisions() -> None:
    assert axes(STRAINER, Reread(1, 1)) == ("ends",)
    assert axes(STRAINER, Reread(1, 2)) == ("rounding",)
    assert axes(STRAINER, Reread(0, 1)) == ("other 0",)
    assert axes(STRAINER, Reread(0, 0)) == ("stretch",)


def test_strained_readings_stand_in_a_section_of_their_own() -> None:
    answers = answers_of(lost("claim 1", "1. A leaf", "tall sample", (1, 2)), *many(1))
    text = text_of(answers)
    usual = text.index(EVERY)
    assert usual < text.index("On strained readings, as asked for")
    assert "Lost in part or on some reading" not in text


# ---- root causes

CLASH = Empty(Because(("1a", "1b")))


def test_dependents_of_a_claim_that_nothing_meets_are_told_under_it() -> None:
    root = found("nothing meets", 1, "claim 1", "1. A leaf", quantifier="every", about=CLASH)
    loss = found("inside lost", 1, "claim 1", "1. A leaf", quantifier="every", case="bench sample")
    (item,) = items_of(answers_of(loss, root))
    assert item.findings == (root,)
    assert item.consequences == (loss,)
    assert item.follows == (
        "Claims 2 to 4 cannot be met either.",
        "bench sample, listed as inside, is not met by claim 1.",
    )
    assert '1a "divisible by 6" and 1b "between 2 and 4 mm"' in one_line(item.statement)
    assert "Nothing found" not in text_of(answers_of(loss, root))


def test_a_claim_that_nothing_meets_on_some_reading_only_is_no_root_cause() -> None:
    root = found("nothing meets", 4, "claim 1", "1. A leaf", about=CLASH)
    loss = found("inside lost", 1, "claim 1", "1. A leaf", quantifier="every", case="bench sample")
    assert len(items_of(answers_of(loss, root))) == 2


# ---- undecided, statements, nothing found


def test_undecided_is_told_apart_with_its_reason_and_gives_three() -> None:
    open_one = replace(
        found("adds nothing", 6, "claim 2", "2. The"), outcome="undecided", reason="the budget"
    )
    answers = answers_of(open_one)
    text = one_line(text_of(answers))
    assert "Not decided" in text
    assert (
        "claim 2: not decided whether there is a dependent claim that adds nothing to its parent (the" in text
    )
    assert "Claims 1, 3 and 4: nothing found among what was looked for." in text
    assert "laim 2: nothing found" not in text
    assert exit_status(answers) == 3


def test_undecided_about_a_case_leaves_no_independent_claim_without_findings() -> None:
    open_one = Finding("outside met", 6, 0, "garden sieve", "", span("must stay"), "undecided", "none")
    text = one_line(text_of(answers_of(open_one)))
    assert "garden sieve: not decided whether there is" in text
    assert "Claim 1: nothing found" not in text


def test_what_was_not_found_at_a_claim_does_not_hide_what_was_not_decided() -> None:
    open_one = replace(
        found("adds nothing", 6, "claim 2", "2. The"), outcome="undecided", reason="the budget"
    )
    looked = (
        Looked("dependent cannot be met", 2, "claim 2"),
        Looked("adds nothing", 2, "claim 2"),
        Looked("dependent cannot be met", 3, "claim 3"),
    )
    text = one_line(text_of(answers_of(open_one, looked=looked)))
    mark = "(not all that was asked of it was decided: see 'Not decided')"
    assert f"Claim 2: lines that conflict {mark}." in text
    assert "Claim 3: nothing found among what was looked for (lines that conflict)." in text
    assert "whether it adds nothing" not in text


def test_undecided_about_a_case_of_one_claim_concerns_that_claim() -> None:
    cases = tuple(replace(c, targets=("2a",)) if c.name == "garden sieve" else c for c in STRAINER.cases)
    open_one = Finding("outside met", 6, 0, "garden sieve", "", span("must stay"), "undecided", "none")
    text = one_line(text_of(answers_of(open_one), sheet=replace(STRAINER, cases=cases)))
    assert "Claims 1, 3 and 4: nothing found" in text


def test_exit_status() -> None:
    quiet, open_one = contested("1b", "between"), replace(many(1)[0], outcome="undecided", stakes=2)
    assert exit_status(answers_of()) == 0
    assert exit_status(answers_of(quiet, found("narrows", 6, "claim 2", "2. The"))) == 0
    assert exit_status(answers_of(quiet, open_one)) == 3
    assert exit_status(answers_of(open_one, *many(1))) == 1


def test_statements_are_drawn_together_on_the_first_page() -> None:
    narrows = [found("narrows", 6, f"claim {n}", f"{n}. The") for n in (2, 3)]
    harmless = found("harmless", 6, "1a", "divisible by 6", about=OneReading((0, 1), "nothing"))
    text = one_line(text_of(answers_of(*narrows, harmless)))
    assert "Shown to narrow what they depend on: claims 2 and 3." in text
    assert "Counted here only: 1 reading that would change nothing." in text


def test_relations_of_ranges_and_classes_are_facts() -> None:
    range_ = found(
        "document range", 6, "claim 1", "1. A leaf", case="D1", about=RangeLies("overlaps"), quantifier="base"
    )
    kind = found(
        "class", 6, "claim 1", "1. A leaf", case="garden sieve", status=Statuses("none", "none", "some")
    )
    other = replace(range_, claim=2, label="claim 2", about=RangeLies("apart"))
    unpresumed = replace(range_, claim=3, label="claim 3")
    text = one_line(text_of(answers_of(range_, kind, other, unpresumed)))
    place = 'Document D1 at "page 4, example 2"'
    usual = "on the usual reading of every phrase"
    assert f"{place}, {usual}: overlaps claim 1; lies apart from claim 2; overlaps claim 3." in text
    assert (
        "How much of garden sieve meets claim 1: none of it as presumed and on the narrowest reading," in text
    )


def test_the_plan_puts_every_finding_in_one_place() -> None:
    planned = plan(STRAINER, answered().findings)
    told = [f for c in (*planned.items, *planned.strained) for f in (*c.findings, *c.absorbed)]
    quiet = [f for c in planned.quiet for f in c.findings]
    everything = [*told, *quiet, *planned.statements, *planned.undecided]
    assert len({id(f) for f in everything}) == len(everything)
    left = [f for f in planned.order if not any(f is g for g in everything)]
    moved = {(d.group, d.reading) for f in told for d in departures(f)}
    assert all({(d.group, d.reading) for d in departures(f)} <= moved for f in left)


def _open_words(meaning: str, coat: str) -> str:
    text = f"""title  Rod
profile EPO
body, coat  length in mm

phrase "close to (L)"
  reading "exactly" presumed : x = L
  reading "more" arguable : x > L

phrase "nearly (L)"
  reading "below" presumed : x < L
  reading "otherwise" presumed : {meaning}

1. A rod close to 10 mm and nearly 5 mm.
   | body : close to 10 mm
   | not restated : and
   | coat : nearly 5 mm

must stay out
  rival : body = 10 mm, coat = {coat}
"""
    return one_line(text_of(ask_all(text_sheet(text)), sheet=text_sheet(text)))


def test_the_phrases_that_decide_are_told_with_their_usual_readings() -> None:
    """A coat of 1 mm is below 5 mm and 6 mm; above 5 mm it is not. A body of 10 mm is no more than 10."""
    both, one = _open_words("x > L", "1 mm"), _open_words("x < L + 1 mm", "1 mm")
    usual = '"close to 10 mm" in its usual reading, "exactly" (presumed): body = 10 mm'
    first = '"nearly 5 mm" in the first reading listed, "below" (no presumption known): coat < 5 mm'
    assert f"Read with {usual} {first} Kept out" in both
    assert f"Read with {usual} Kept out" in one


def test_of_two_readings_presumed_both_are_called_so() -> None:
    """An end as written and what rounds to it: the catalogue's entry for EPO practice has both."""
    text = "profile {}\nset  time in min\n\n1. A thing, at least 60 min.\n   | set : at least 60 min\n"
    text += "\nmust stay out\n  near : set = 59.6 min\n"
    told = {}
    for profile in ("EPO", "US"):
        made = text_sheet(text.format(profile))
        (group,) = made.groups
        rounding = next(i for i, r in enumerate(group.readings) if r.label == "rounds to the limit")
        told[profile] = standing_text(group, rounding)
    assert told == {"EPO": "one of two presumed", "US": "arguable"}
