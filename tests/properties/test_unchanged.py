"""What must not change an answer, and what may change it one way only."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from scopecheck.answers.about import Idle
from scopecheck.answers.findings import Answers, Finding, step_of
from scopecheck.answers.questions import ask_all
from scopecheck.core.construction import names_in, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Compare, Const, Formula, Measured, Read
from scopecheck.core.model import Role, Sheet
from scopecheck.foundations.record import replace
from scopecheck.solving.solver import Session
from tests import build, rewritten, strategies
from tests.undecided import tally

EXAMPLES = 25
HARM = ("outside met", "document met", "inside lost", "unmeant met", "meant lost")
ROLES: tuple[Role, ...] = ("outside", "inside", "document")


def answered(sheet: Sheet, strained: bool = False) -> Answers:
    found = ask_all(sheet, strained=strained)
    undecided = any(f.outcome == "undecided" for f in found.findings)
    tally.count(undecided)
    assume(not undecided)
    return found


def verdict(f: Finding) -> tuple[object, ...]:
    """What a finding says, without the thing that shows it."""
    readings = f.construction and f.construction.readings
    status = f.status
    return (
        f.question,
        f.claim,
        f.label,
        f.case,
        f.outcome,
        f.quantifier,
        f.stakes,
        readings,
        status,
        f.others,
        step_of(f),
    )


def verdicts(answers: Answers) -> set[tuple[object, ...]]:
    return {verdict(f) for f in answers.findings}


def harms(answers: Answers) -> set[tuple[str, str, str]]:
    return {(f.question, f.label, f.case) for f in answers.findings if f.question in HARM}


@st.composite
def measured(draw: st.DrawFn) -> Sheet:
    """A sheet in which one of the counts is a length instead."""
    sheet = draw(strategies.sheets(*ROLES, meant=True))
    declarations = (
        *sheet.declarations[:1],
        build.number("m", "mm", "-1000", "1000"),
        *sheet.declarations[2:],
    )
    return replace(sheet, declarations=declarations)


@settings(max_examples=EXAMPLES)
@given(measured())
def test_units_change_no_verdict(sheet: Sheet) -> None:
    told = rewritten.in_unit(sheet, "m", build.unit("cm"))
    assert verdicts(answered(told)) == verdicts(answered(sheet))


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(*ROLES, meant=True))
def test_names_change_nothing(sheet: Sheet) -> None:
    names = {d.name: f"the {d.name} of it" for d in sheet.declarations}
    before, after = answered(sheet), answered(rewritten.renamed(sheet, names))
    assert [verdict(f) for f in after.findings] == [verdict(f) for f in before.findings]
    for f, told in zip(before.findings, after.findings, strict=True):
        assert told.thing.departs == tuple(names[n] for n in f.thing.departs)
        if f.witness is not None and f.thing.simplest:
            assert told.witness is not None
            assert told.witness.values == tuple((names[n], v) for n, v in f.witness.values)


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(*ROLES, meant=True))
def test_the_order_of_limitations_changes_no_verdict_and_no_thing(sheet: Sheet) -> None:
    # A phrase is told at the first limitation it stands in, and so may move to another.
    moving = ("contested", "harmless", "pair")

    def idle(f: Finding) -> bool:
        return f.question == "idle"

    def told(answers: Answers) -> set[tuple[object, ...]]:
        shown = {
            (*verdict(f), f.thing.departs, f.witness and f.witness.values)
            for f in answers.findings
            if f.thing.simplest and f.question not in moving and not idle(f)
        }
        shown |= {(f.question, f.claim, step_of(f)) for f in answers.findings if f.question in moving}
        # Of twins, each idle beside the other, the first is told.
        alike = ((f, f.about.twins) for f in answers.findings if isinstance(f.about, Idle))
        twins = ((f.claim, frozenset((f.label, *own)), f.quantifier) for f, own in alike)
        return shown | {("idle", *twin) for twin in twins}

    assert told(answered(rewritten.reordered(sheet))) == told(answered(sheet))


def harms_where_met(sheet: Sheet, answers: Answers) -> set[tuple[str, str, str]]:
    """As `harms`, but for what is lost of claims that nothing meets on any reading, and of those below.

    Once a reading lets something in, a case that leaves something open may be no more than that.
    """
    empty = ("nothing meets", "dependent cannot be met")
    never = {f.claim for f in answers.findings if f.question in empty and f.quantifier == "every"}
    lost = {
        (f.question, f.label, f.case)
        for f in answers.findings
        if f.question == "inside lost" and never & {f.claim, *above(sheet, f.claim)}
    }
    return harms(answers) - lost


@st.composite
def with_more(draw: st.DrawFn) -> tuple[Sheet, int, Formula]:
    """A sheet and one reading more for one of its groups, which speaks of nothing new."""
    sheet = draw(strategies.sheets(*ROLES, meant=True))
    found = [n for c in sheet.claims for x in c.limitations for n in nodes(x.formula) if isinstance(n, Read)]
    group = draw(st.sampled_from(sorted({n.group for n in found})))
    numbers = {d.name for d in sheet.declarations if isinstance(d, NumberDecl)}
    common = sorted(numbers.intersection(*(names_in(n) for n in found if n.group == group)))
    assume(common)
    limit = Const(Fraction(draw(st.integers(-1, 3))))
    name, op = draw(st.sampled_from(common)), draw(st.sampled_from(strategies.OPS))
    return sheet, group, Compare(op, Measured(name), limit)


@settings(max_examples=EXAMPLES)
@given(with_more())
def test_a_further_reading_takes_no_harm_away(drawn: tuple[Sheet, int, Formula]) -> None:
    sheet, group, further = drawn
    assume(sheet.groups[group].base == 0 or sheet.groups[group].readings[0].standing != "strained")
    more = rewritten.with_reading(sheet, group, "arguable", further)
    assert harms_where_met(sheet, answered(sheet)) <= harms(answered(more))


def above(sheet: Sheet, number: int) -> set[int]:
    """The claims that a claim depends on, directly or not."""
    parents = set(sheet.claim(number).parents)
    return parents.union(*(above(sheet, n) for n in parents))


def concerns(sheet: Sheet, number: int, group: int) -> bool:
    """Does a line of the claim, or of one that it depends on, have the group?"""
    return any(group in x.groups for n in (number, *above(sheet, number)) for x in sheet.claim(n).limitations)


@settings(max_examples=EXAMPLES)
@given(with_more())
def test_strained_readings_change_nothing_unless_asked_for(drawn: tuple[Sheet, int, Formula]) -> None:
    sheet, group, further = drawn
    more = rewritten.with_reading(sheet, group, "strained", further)
    before = answered(sheet)
    assert [verdict(f) for f in answered(more).findings] == [verdict(f) for f in before.findings]
    wider = answered(more, strained=True)
    assert harms_where_met(sheet, before) <= harms(wider)
    certain = {verdict(f)[:4] for f in wider.findings if f.question in HARM and f.quantifier == "every"}
    # Part of a case that says too little is lost on every reading, which is told once all of it is on some.
    told = {verdict(f)[:4] for f in before.findings if f.quantifier == "every"}
    told |= {("inside lost", *verdict(f)[1:4]) for f in before.findings if f.question == "inside left open"}
    # So is a case told at the claim above, where that loses it on every reading as well.
    lost = {
        (f.claim, f.case) for f in before.findings if (f.question, f.quantifier) == ("inside lost", "every")
    }
    above_too = {v for v in certain if any((n, v[3]) in lost for n in above(sheet, v[1]))}
    told |= {v for v in above_too if v[0] == "inside lost"}
    # How many readings part from what is meant by a line is counted of the line alone, but it is told only of
    # what the other lines let in on some reading.
    apart = {v for v in certain if v[0] in ("meant lost", "unmeant met")}
    told |= {v for v in apart if concerns(sheet, v[1], group)}
    assert certain <= told


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(*ROLES, meant=True))
def test_a_limitation_less_shrinks_no_scope(sheet: Sheet) -> None:
    first = sheet.claims[0]
    assume(len(first.limitations) > 1)
    label = first.limitations[-1].label
    assume(all(label not in case.targets for case in sheet.cases))
    less = rewritten.without_limitation(sheet, label)
    before, after = answered(sheet), answered(less)
    wide = [f for f in before.findings if f.question in ("outside met", "document met")]
    spoken = {case.name for case in sheet.cases if case.targets}
    assert {(f.label, f.case) for f in wide if f.case in spoken} <= {
        (f.label, f.case) for f in after.findings if f.question in ("outside met", "document met")
    }
    lost = {(f.case, f.label) for f in after.findings if f.question == "inside lost" and f.case in spoken}
    assert {x for x in lost if x[1] == "claim 1"} <= {
        (f.case, f.label) for f in before.findings if f.question == "inside lost"
    }
    empty = {f.label for f in after.findings if f.question in ("nothing meets", "dependent cannot be met")}
    assert "claim 1" not in empty or "claim 1" in {
        f.label for f in before.findings if f.question == "nothing meets"
    }
    session = Session(sheet)
    search = session.search(range(len(sheet.groups)))
    whole = [session.met(x.formula) for x in first.limitations]
    assert not search.holds(*whole, ~session.met(first.limitations[0].formula))


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(*ROLES, meant=True))
def test_a_case_less_takes_its_findings_and_nothing_else(sheet: Sheet) -> None:
    together = ("no reading fits all cases", "one reading fits all cases", "no case inside")
    before = [f for f in answered(sheet).findings if f.question not in together]
    for case in sheet.cases:
        after = answered(rewritten.without_case(sheet, case.name)).findings
        assert [verdict(f) for f in after if f.question not in together] == [
            verdict(f) for f in before if f.case != case.name
        ]


@settings(max_examples=EXAMPLES)
@given(strategies.sheets(*ROLES, meant=True))
def test_the_same_sheet_gives_the_same_answers(sheet: Sheet) -> None:
    first, second = ask_all(sheet), ask_all(sheet)
    assert first.looked == second.looked
    for one, other in zip(first.findings, second.findings, strict=True):
        assert verdict(one) == verdict(other)
        # A thing that is not the simplest is any of many, and may depend on what the process asked before.
        assert not one.thing.simplest or one == other
