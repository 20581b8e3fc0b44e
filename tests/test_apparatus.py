"""The worked sheet of an apparatus with several kinds of parts shows what numbers alone could not show."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scopecheck.answers.findings import Answers
from scopecheck.answers.questions import ask_all
from scopecheck.core.model import Sheet
from scopecheck.solving.constraints import Budget
from tests.sheets import read_path

SOWER = Path(__file__).parent.parent / "specs" / "sheets" / "sower.sheet"


@cache
def sower() -> tuple[Sheet, Answers]:
    made, diagnostics = read_path(SOWER)
    assert made is not None, diagnostics
    # The wall limit is no part of what is asked here: a busy machine must not make an answer undecided.
    return made, ask_all(made, Budget(wall=1200))


def test_all_of_its_text_is_restated_and_it_has_parts_of_parts() -> None:
    made, _ = sower()
    assert len(made.claims) >= 6
    assert [(u.claim, u.words) for u in made.unrestated] == []
    assert len({part.name for part in made.parts if part.within is None}) >= 3
    assert any(part.within for part in made.parts)


@pytest.mark.parametrize(
    ("question", "label", "case"),
    [
        ("outside met", "claim 1", "dibber"),  # one nozzle too wide, most of them within
        ("outside met", "claim 1", "comb"),  # three brushes where "a pair" is two
        ("document met", "claim 1", "D1"),
        ("inside lost", "claim 1", "two-row head"),  # two brushes that do not match
        ("inside lost", "claim 1", "wide head"),
        ("inside lost", "claim 4", "long and short"),  # one nozzle is wide, another one short
        ("inside lost", "claim 5", "stepped head"),  # not all the same, yet not every two different
        ("adds nothing", "claim 2", ""),
        ("no reading fits all cases", "claim 1", ""),
    ],
)
def test_a_planted_defect_is_shown(question: str, label: str, case: str) -> None:
    _, answers = sower()
    found = [f for f in answers.findings if (f.question, f.label, f.case) == (question, label, case)]
    assert found
    assert all(f.outcome != "undecided" for f in found)
