"""Limits that a line joins by 'or', of which nothing in the claim meets one."""

from __future__ import annotations

from itertools import product

import pytest

from scopecheck.answers.about import NotThere
from scopecheck.answers.findings import Finding, lines_of
from scopecheck.answers.questions import ask_all
from scopecheck.report.items import statement
from scopecheck.report.wording import GLUE
from tests.sheets import sheet

DECLARED = "film, core  length in mm\nteeth  count\n"


def found(text: str) -> list[Finding]:
    return [f for f in ask_all(sheet(text)).findings if f.question == "alternative not met"]


def shown(finding: Finding) -> tuple[str, ...]:
    assert isinstance(finding.about, NotThere)
    return finding.about.names


def claims(parent: str, left: str, dependent: str) -> str:
    return (
        f"{DECLARED}\n1. A thing, wherein {parent}.\n   | film : {parent}\n\n"
        f"2. The thing of claim 1, wherein {dependent}.\n   | {left} : {dependent}\n"
    )


def test_a_limit_that_the_claim_above_rules_out_is_named_as_written() -> None:
    text = claims("5.0 to 30 mm", "film", "less than 10 mm or more than 40.0 mm")
    (finding,) = found(text)
    assert (finding.label, shown(finding), lines_of(finding)) == ("2a", ("film > 40.0 mm",), ("1a",))
    assert finding.quantifier == "every"
    told = statement(sheet(text), finding).replace(GLUE, " ")
    assert told.startswith("Offers an alternative, film > 40.0 mm, that nothing in claim 2 meets: 1a")


def test_a_range_of_one_thing_beside_a_limit_of_another() -> None:
    (finding,) = found(
        claims("5 to 30 mm", "film, core", "the film is 50 to 60 mm or the core is at least 3 mm")
    )
    assert shown(finding) == ("50 mm <= film <= 60 mm",)


def test_one_that_only_a_wider_reading_meets() -> None:
    (finding,) = found(claims("5 to 30 mm", "film", "less than 10 mm or more than 30 mm"))
    assert (shown(finding), finding.quantifier) == (("film > 30 mm",), "base")


def test_where_none_is_met_the_claim_is_told_as_empty_and_not_this() -> None:
    text = claims("5 to 30 mm", "film", "less than 4 mm or more than 40 mm")
    assert not found(text)
    assert any(f.question == "dependent cannot be met" for f in ask_all(sheet(text)).findings)


def test_none_is_told_that_no_words_write() -> None:
    """A hidden alternative, such as that there is none of it, is nobody's."""
    assert not found("oil  share in wt%\n1. A mix, wherein the oil, if any, is at most 3 wt%.\n"
                     "   | oil : the oil, if any, is at most 3 wt%\n")  # fmt: skip


@pytest.mark.parametrize(("low", "high"), list(product(range(4), range(3, 7))))
def test_against_every_count(low: int, high: int) -> None:
    """Counts from 2 to 4 above, and fewer than `low` or more than `high` of them: by trying each count."""
    words = f"fewer than {low} or more than {high}"
    text = (
        "teeth  count\n\n1. A thing with 2 to 4 teeth.\n   | teeth : 2 to 4\n\n"
        f"2. The thing of claim 1, with {words} teeth.\n   | teeth : {words}\n"
    )
    above = range(2, 5)
    few, many = any(n < low for n in above), any(n > high for n in above)
    expected = []
    if few or many:  # else nothing meets the claim, and that is told
        expected += [] if few or not low else [f"teeth < {low}"]
        expected += [] if many else [f"teeth > {high}"]
    assert [name for f in found(text) for name in shown(f)] == expected
