"""Sets of ten claims by readers of the language reference, who listed six defects by weight before any run.

At the first runs the three worst stood among the first four items, and one defect of a set was no item.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.quality.pages import DEAD, report_of, told_by

Told = tuple[str, str, str]
"""Question, place, case."""
SETS: dict[str, tuple[list[Told], tuple[int, ...]]] = {
    "mousse": (
        [
            ("document met", "claim 8", "D2, example"),  # no order of the steps
            ("inside lost", "claim 1", "E2"),  # one of two, or both
            ("outside met", "claim 8", "warm filling"),  # two numbers that are not the same
            ("dependent cannot be met", "claim 5", ""),
            ("adds nothing", "claim 6", ""),
            ("end not reached", "9a", ""),
        ],
        (2, 4, 7),
    ),
    "vest": (
        [
            ("document met", "claim 1", "D1, example"),  # at an end
            ("inside lost", "claim 8", "alpine vest"),  # per cent of what
            ("dependent cannot be met", "claim 4", ""),
            ("adds nothing", "claim 5", ""),
            ("number not described", "9a", ""),  # seconds for minutes
            ("same scope", "claim 7", ""),
        ],
        (2, 3, 10),
    ),
    "latch": (
        [
            ("document met", "claim 8", "D2, example"),  # no order of the steps
            ("outside met", "claim 1", "rigid toggle"),  # up to four, and none
            ("inside lost", "claim 6", "commuter latch"),  # each, or together
            ("dependent cannot be met", "claim 5", ""),
            ("adds nothing", "claim 3", ""),
            ("number not described", "9a", ""),
        ],
        (2, 7, 10),
    ),
}
"""The defects, the worst three first, and claims that only look defective."""


def told(name: str) -> list[Told]:
    return told_by(report_of((Path(__file__).parent / f"{name}.sheet").read_text("utf-8"), False))


@pytest.mark.parametrize("name", SETS)
def test_the_three_worst_are_the_first_three_items(name: str) -> None:
    """Of what is listed: dependents that are dead on every reading stand above, wherever they were put."""
    wanted = [t for t in SETS[name][0][:3] if t[0] not in DEAD]
    first = [t for t in told(name) if t[0] not in DEAD]
    assert set(first[: len(wanted)]) == set(wanted)


@pytest.mark.parametrize("name", SETS)
def test_every_defect_is_on_the_first_page(name: str) -> None:
    assert set(SETS[name][0]) <= set(told(name))


@pytest.mark.parametrize("name", SETS)
def test_what_only_looks_like_a_defect_is_no_item(name: str) -> None:
    labels = {f"claim {n}" for n in SETS[name][1]} | {f"{n}a" for n in SETS[name][1]}
    assert not labels & {label for _, label, _ in told(name)}
