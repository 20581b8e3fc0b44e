"""What need not be told: words that only call a thing what the claim calls it, and what is read after all."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

HEAD = "gap, rim  length in mm\nT1, T2  length in mm\ndoses per day, doses  count\n"


def told(left: str, words: str, head: str = HEAD) -> list[str]:
    read, found = read_sheet(
        Source("t.sheet", f"{head}1. A device, wherein {words}.\n   | {left} : {words}\n")
    )
    assert read is not None, found
    return [d.message for d in found]


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("gap", "differing from the rim by no more than 1 mm"),
        ("T1, T2", "the thickness T1 is at least twice and at most four times the thickness T2"),
        ("T1", "the thickness T1 is at least 3 mm"),
        ("doses per day", "once or twice daily"),
        ("doses per day", "3 times daily"),
    ],
)
def test_what_is_meant_is_not_told(left: str, words: str) -> None:
    assert not told(left, words)


def test_of_what_is_read_in_part_only_the_rest_is_told() -> None:
    assert told("doses", "three doses after a week") == ["'after a week' is read past"]


def test_another_measure_beside_a_sign_is_told_still() -> None:
    head = 'T1  length in mm  "thickness of the rim"\n'
    assert told("T1", "the height T1 is at least 3 mm", head)


def test_what_is_called_a_is_not_meant_by_an_article() -> None:
    head = f"A  share in wt%\n{HEAD}"
    assert not told("doses per day", "once or twice daily", head)
    assert not told("A", "A is at most 3 wt%", head)
