"""The worked sheets: each reads without a mistake and shows its defects; the mended one shows none."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scopecheck.answers.about import EndNotReached
from scopecheck.answers.findings import Answers, Finding, because, lines_of
from scopecheck.answers.questions import ask_all
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Source
from scopecheck.report.page import exit_status
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import read_path

SHEETS = Path(__file__).parent.parent / "specs" / "sheets"
DEFECTIVE = ("strainer", "mortar", "proofing", "balm", "bending")
ALL = (*DEFECTIVE, "mended")

EVERY, SOME = ("every",), ("some", "base")
EITHER = (*EVERY, *SOME)

PLANTED = (
    # sheet, question, label, case, quantifier
    ("bending", "outside met", "claim 1", "steamed first", SOME),
    ("bending", "outside met", "claim 1", "dunked once", SOME),
    ("bending", "outside met", "claim 9", "small shop", SOME),
    ("bending", "inside lost", "claim 6", "weekend tree", SOME),
    ("bending", "inside lost", "claim 8", "slow coats", SOME),
    ("bending", "inside lost", "claim 1", "ash batch", SOME),
    ("bending", "inside lost", "claim 1", "oak batch", SOME),
    ("bending", "meant lost", "2a", "", SOME),
    ("bending", "adds nothing", "claim 7", "", EVERY),
    ("bending", "adds nothing", "claim 3", "", SOME),
    ("bending", "dependent cannot be met", "claim 5", "", SOME),
    ("bending", "undefined", "2a", "", EITHER),
    ("strainer", "outside met", "claim 1", "sink strainer", EVERY),
    ("strainer", "outside met", "claim 1", "garden sieve", SOME),
    ("strainer", "outside met", "claim 7", "flat cup", SOME),
    ("strainer", "document met", "claim 1", "D1", SOME),
    ("strainer", "inside lost", "claim 1", "bench sample", SOME),
    ("strainer", "inside lost", "claim 1", "drilled sample", SOME),
    ("strainer", "meant lost", "2a", "", SOME),
    ("strainer", "meant lost", "1b", "", SOME),
    ("strainer", "unmeant met", "1b", "", SOME),
    ("strainer", "adds nothing", "claim 4", "", EVERY),
    ("strainer", "end not reached", "5a", "", EVERY),
    ("strainer", "dependent cannot be met", "claim 6", "", EVERY),
    ("mortar", "outside met", "claim 1", "gauged mortar", EVERY),
    ("mortar", "outside met", "claim 1", "workshop mix", SOME),
    ("mortar", "document met", "claim 1", "D1", EVERY),
    ("mortar", "inside lost", "claim 1", "batch for damp", SOME),
    ("mortar", "inside lost", "7a", "strong binder", SOME),
    ("mortar", "meant lost", "7a", "", SOME),
    ("mortar", "unmeant met", "7a", "", SOME),
    ("mortar", "adds nothing", "claim 4", "", EVERY),
    ("mortar", "end not reached", "6a", "", EVERY),
    ("mortar", "dependent cannot be met", "claim 5", "", EVERY),
    ("mortar", "undefined", "3b", "", EITHER),
    ("proofing", "outside met", "claim 1", "room thermostat", EVERY),
    ("proofing", "outside met", "claim 1", "warming drawer", SOME),
    ("proofing", "outside met", "claim 1", "fast switcher", SOME),
    ("proofing", "outside met", "claim 6", "loud fan", SOME),
    ("proofing", "inside lost", "claim 1", "sourdough", SOME),
    ("proofing", "inside lost", "claim 1", "loud kitchen", SOME),
    ("proofing", "inside lost", "claim 9", "gentle rise", SOME),
    ("proofing", "meant lost", "4a", "", EVERY),
    ("proofing", "adds nothing", "claim 2", "", EVERY),
    ("proofing", "adds nothing", "claim 5", "", SOME),
    ("proofing", "end not reached", "5a", "", EVERY),
    ("proofing", "dependent cannot be met", "claim 3", "", SOME),
    ("balm", "outside met", "claim 1", "udder salve", EITHER),
    ("balm", "document met", "claim 4", "D1, recipe 3", EITHER),
    ("balm", "dependent cannot be met", "claim 5", "", EVERY),
    ("balm", "inside lost", "claim 7", "travel tin", SOME),
    ("balm", "inside lost", "claim 4", "everyday batch", SOME),
    ("balm", "meant lost", "7a", "", SOME),
    ("balm", "unmeant met", "2a", "", EVERY),
    ("balm", "member freed", "2a", "", SOME),
    ("balm", "end not reached", "6a", "", EVERY),
    ("balm", "moves with something else", "8a", "", EVERY),
)

PAIRS = (
    # a case let in by two re-readings, and the two pins either of which keeps it out
    (
        "strainer",
        "garden sieve",
        'read "divisible by" as "leaves an integer quotient"',
        'read "about" as "exactly"',
    ),
    (
        "mortar",
        "workshop mix",
        'read "... and ... together at least ..." as "in total"',
        'read "at most" as "includes none, end in"',
    ),
    (
        "proofing",
        "fast switcher",
        'read "between ... and ..." as "both ends in"',
        'read "at least" as "no top, end in"',
    ),
)


NO_VALUE = (("bending", "2a", 4), ("mortar", "3b", 4), ("strainer", "7b", 6), ("proofing", "8b", 6))
"""Lines without a value for some thing: an item (4), or a note (6) where there is only none of a divisor."""


@pytest.mark.parametrize(("name", "label", "stakes"), NO_VALUE)
def test_a_line_without_a_value_is_told_as_grave_as_it_is(name: str, label: str, stakes: int) -> None:
    found = [f for f in answers_of(name).findings if f.question == "undefined"]
    assert [(f.label, f.stakes) for f in found] == [(label, stakes)]


def text_of(name: str) -> str:
    return (SHEETS / f"{name}.sheet").read_text(encoding="utf-8")


@cache
def sheet_of(name: str) -> Sheet:
    sheet, diagnostics = read_path(SHEETS / f"{name}.sheet")
    assert not diagnostics, [f"{d.severity} line {d.span.start}: {d.message}" for d in diagnostics]
    assert sheet is not None
    return sheet


@cache
def answers_of(name: str) -> Answers:
    return ask_all(sheet_of(name))


def with_line(name: str, line: str) -> Answers:
    """The answers of a sheet with one more line at its end."""
    sheet, diagnostics = read_sheet(Source(f"{name}.sheet", f"{text_of(name)}\n{line}\n"))
    assert sheet is not None, [d.message for d in diagnostics]
    return ask_all(sheet)


def found(answers: Answers, question: str, label: str, case: str = "") -> list[Finding]:
    return [f for f in answers.findings if (f.question, f.label, f.case) == (question, label, case)]


def steps(name: str, finding: Finding) -> set[tuple[str, str]]:
    """The words re-read for a finding, each with the reading taken."""
    groups = sheet_of(name).groups
    return {
        (groups[r.group].wording, groups[r.group].readings[r.reading].label)
        for r in (*finding.rereads, *finding.read_as)
    }


@pytest.mark.parametrize("name", ALL)
def test_each_sheet_reads_without_a_diagnostic_and_restates_all_of_its_text(name: str) -> None:
    sheet = sheet_of(name)
    assert len(sheet.claims) >= 6
    assert [(u.claim, u.words, u.context) for u in sheet.unrestated] == []
    assert any(len(c.parents) > 1 for c in sheet.claims), "a multiple dependent claim"
    assert len({c.category for c in sheet.claims}) > 1, "a method or a system beside the thing"
    assert {c.role for c in sheet.cases} >= {"inside", "outside", "document"}
    assert any(c.silent for c in sheet.cases if c.role == "document")
    assert any(c.form == "range" for c in sheet.cases)
    assert sum(x.meant is not None for c in sheet.claims for x in c.limitations) >= 3


def test_the_largest_sheet_is_large_enough_to_measure() -> None:
    sheet = sheet_of("proofing")
    assert len(sheet.claims) >= 9
    assert sum(len(c.limitations) for c in sheet.claims) >= 25
    assert len(sheet.cases) >= 8


@pytest.mark.parametrize(("name", "question", "label", "case", "quantifiers"), PLANTED)
def test_each_planted_defect_is_found(
    name: str, question: str, label: str, case: str, quantifiers: tuple[str, ...]
) -> None:
    matching = found(answers_of(name), question, label, case)
    assert matching, f"{question} at {label} {case}"
    assert {f.quantifier for f in matching} <= set(quantifiers)
    assert all(1 <= f.stakes <= 4 for f in matching)


@pytest.mark.parametrize(
    ("name", "claim", "conflict"),
    [
        ("strainer", 6, "1c 3b 6a"),
        ("mortar", 5, "1c 5a 5b"),
        ("proofing", 3, "1b 3a 3b"),
        ("balm", 5, "4a 5a"),
    ],
)
def test_a_claim_that_cannot_be_met_names_the_lines_that_conflict(
    name: str, claim: int, conflict: str
) -> None:
    (finding,) = found(answers_of(name), "dependent cannot be met", f"claim {claim}")
    assert sorted(lines_of(finding)) == conflict.split()
    assert because(finding).sets == ((("1c", "5a", "5b"), ("1d", "5a", "5b")) if name == "mortar" else ())


@pytest.mark.parametrize(
    ("name", "label", "written", "reached"),
    [
        ("strainer", "5a", "12 mm", "11 mm"),
        ("mortar", "6a", "6 wt%", "11/2 wt%"),
        ("proofing", "5a", "12 min", "10 min"),
        ("balm", "6a", "40 wt%", "38 wt%"),
    ],
)
def test_a_stated_end_beyond_reach_names_how_far_the_claim_goes(
    name: str, label: str, written: str, reached: str
) -> None:
    (finding,) = found(answers_of(name), "end not reached", label)
    end = finding.about
    assert isinstance(end, EndNotReached)
    assert (end.stated, end.upper, f"{end.far.value} {end.unit}") == (written, True, reached)


@pytest.mark.parametrize(("name", "case", "first", "second"), PAIRS)
def test_two_phrases_harmless_alone_let_a_case_in_only_together(
    name: str, case: str, first: str, second: str
) -> None:
    (finding,) = found(answers_of(name), "outside met", "claim 1", case)
    assert len(steps(name, finding)) == 2
    for pin in (first, second):
        assert not found(with_line(name, pin), "outside met", "claim 1", case), pin


def test_the_pair_of_the_mortar_is_the_rounding_of_both_limits() -> None:
    (finding,) = found(answers_of("mortar"), "outside met", "claim 1", "workshop mix")
    assert {reading for _, reading in steps("mortar", finding)} == {
        "in total, rounded",
        "rounds to the limit",
    }


def test_one_hole_gets_in_by_two_re_readings_of_claim_1_of_the_strainer() -> None:
    pairs = [steps("strainer", f) for f in found(answers_of("strainer"), "pair", "1a")]
    assert {("a number of ...", "one or more"), ("divisible by ...", "can be divided")} in pairs


def test_a_case_taken_out_takes_its_findings_with_it_and_no_others() -> None:
    text = text_of("strainer")
    line = next(x for x in text.splitlines() if x.strip().startswith("sink strainer"))
    sheet, _ = read_sheet(Source("strainer.sheet", text.replace(line + "\n", "")))
    assert sheet is not None
    left = [(f.question, f.label, f.case) for f in ask_all(sheet).findings]
    before = [(f.question, f.label, f.case) for f in answers_of("strainer").findings]
    gone = [key for key in before if key[2] == "sink strainer"]
    assert gone == [("outside met", "claim 1", "sink strainer"), ("kept out", "claim 2", "sink strainer")]
    assert sorted(key for key in left if key[0] != "one reading fits all cases") == sorted(
        key for key in before if key not in gone
    )


def test_the_mended_sheet_shows_nothing_found() -> None:
    answers = answers_of("mended")
    assert [(f.question, f.label, f.case) for f in answers.findings if f.stakes <= 4] == []
    assert [f for f in answers.findings if f.outcome == "undecided"] == []
    assert exit_status(answers) == 0
    assert any(f.question == "one reading fits all cases" for f in answers.findings)


@pytest.mark.parametrize("name", DEFECTIVE)
def test_the_sheets_before_repair_are_told_apart_by_the_exit_status(name: str) -> None:
    assert exit_status(answers_of(name)) == 1


def test_each_policy_of_the_mended_sheet_is_needed() -> None:
    text = text_of("mended")
    for policy in ("policy  rounding is none", "policy  ends are included"):
        line = next(x for x in text.splitlines() if x.startswith(policy))
        sheet, diagnostics = read_sheet(Source("mended.sheet", text.replace(line, "")))
        assert sheet is not None, diagnostics
        stakes = [f.stakes for f in ask_all(sheet).findings]
        assert any(s <= 5 for s in stakes), policy
