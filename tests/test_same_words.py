"""Wordings that claims have for what a phrase says in other words: both are read alike."""

from __future__ import annotations

import pytest

from scopecheck.core.formula import Formula
from tests.sheets import errors, sheet

DECLARED = """
delay, hold   time in s
rim, bore     length in mm
cycles        count
oil           share in wt%
feed          ratio in %
"""


def text(subjects: str, words: str) -> str:
    return f"{DECLARED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"


def read(subjects: str, words: str) -> tuple[Formula, list[tuple[str, str]]]:
    made = sheet(text(subjects, words))
    readings = [(r.label, r.standing) for g in made.groups for r in g.readings]
    return made.claims[0].limitations[0].formula, readings


@pytest.mark.parametrize(
    ("subjects", "words", "same"),
    [
        ("delay", "at most 1 second", "at most 1 s"),
        ("delay", "at least one second", "at least 1 s"),
        ("delay", "1 second or less", "1 s or less"),
        ("hold", "for a period of time ranging from about 10 seconds to 60 seconds", "about 10 to 60 s"),
        ("hold", "for a time ranging from 5 to 6 minutes", "from 5 to 6 min"),
        ("oil", "ranging from about 5 to 10 wt%", "about 5 to 10 wt%"),
        ("cycles", "repeating steps (c) and (d) at least twice", "repeated at least twice"),
        ("cycles", "repeating at least three times", "repeated at least three times"),
        (
            "rim, bore",
            "ratio of rim to bore is no greater than 0.5",
            "ratio of rim to bore is no more than 0.5",
        ),
        ("rim, bore", "ratio of rim to bore does not exceed 0.5", "ratio of rim to bore not exceeding 0.5"),
        ("rim, bore", "ratio of rim to bore is at least 1 and at most 5", "ratio of rim to bore from 1 to 5"),
        ("feed", "in a molar ratio of 0.1 to 5 %", "0.1 to 5 %"),
        ("oil", "not more than 5 wt%, based on the total weight of the paste", "not more than 5 wt%"),
    ],
)
def test_both_wordings_are_read_alike(subjects: str, words: str, same: str) -> None:
    assert read(subjects, words) == read(subjects, same)


@pytest.mark.parametrize(
    ("subjects", "words"),
    [
        ("rim", "at least 1 second"),  # of a length the word counts places
        ("oil", "in a molar ratio of 0.1 to 5 %"),  # declared by weight
    ],
)
def test_what_the_declaration_does_not_bear_out_is_refused(subjects: str, words: str) -> None:
    assert errors(text(subjects, words))
