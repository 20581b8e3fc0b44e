"""The fair walk of the benchmarks and the questions as asked: the same findings, on small sheets."""

from __future__ import annotations

import pytest

from tests.benchmarks.problems import of_phrases, with_dependent
from tests.benchmarks.walk import Walk, asked


@pytest.mark.parametrize("phrases", [2, 3])
def test_the_walk_finds_what_the_questions_find(phrases: int) -> None:
    """Of 9 and of 27 constructions: the same questions, cases, readings of the best one and statuses."""
    sheet = with_dependent(of_phrases(phrases, claims=1))
    walked = set(Walk(sheet).told())
    assert walked == {told for told in asked(sheet) if told}
    assert any(told[0] == "outside met" for told in walked)
