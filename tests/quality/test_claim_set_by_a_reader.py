"""A set of ten claims by a reader who knew the language reference only, who listed its defects before a run.

At the first run the second worst stood fifth, and one thing that only looks like a defect was on the page.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from scopecheck.report.blocks import Report
from tests.quality.pages import DEAD, report_of, told_by

TEXT = (Path(__file__).parent / "stocking.sheet").read_text("utf-8")
DEFECTS = {
    "a claim that nothing meets": ("dependent cannot be met", "claim 3", ""),
    "an inside example lost at an end": ("inside lost", "claim 1", "example 2"),
    "a document met at an end": ("document met", "claim 1", "D1"),
    "a document kept out by its silence alone": ("silence alone keeps out", "claim 1", "D2"),
    "a claim that adds nothing": ("adds nothing", "claim 4", ""),
    "an end that nothing reaches": ("end not reached", "10b", ""),
}
TEMPTING = {"an upper limit below a lower one": "2", "a shared end": "5", "a count above several": "9"}


def report(everything: bool) -> Report:
    return report_of(TEXT, everything)


def told(everything: bool) -> list[tuple[str, str, str]]:
    return told_by(report(everything))


def test_the_three_worst_are_named_first() -> None:
    """Of what is listed: dependents that are dead on every reading stand above, wherever they were put."""
    wanted = [t for t in list(DEFECTS.values())[:3] if t[0] not in DEAD]
    first = [t for t in told(False) if t[0] not in DEAD]
    assert set(first[: len(wanted)]) == set(wanted)


@pytest.mark.parametrize("defect", DEFECTS)
def test_every_defect_is_on_the_first_page(defect: str) -> None:
    assert DEFECTS[defect] in told(False)


@pytest.mark.parametrize("tempting", TEMPTING)
def test_what_only_looks_like_a_defect_is_no_item(tempting: str) -> None:
    number = TEMPTING[tempting]
    assert not {label for _, label, _ in told(False)} & {f"claim {number}", f"{number}a"}


def test_an_example_outside_a_dependent_claim_only_is_not_lost() -> None:
    assert not [f for f in report(False).order if f.question == "inside lost" and f.claim == 7]
