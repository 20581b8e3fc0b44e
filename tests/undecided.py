"""How much of what a test asks may stay undecided: a small share, beyond which the test fails."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction

from hypothesis import currently_in_test_context, event

from scopecheck.solving.constraints import Undecided

SHARE = Fraction(1, 10)
FEW = 2
"""So many may be undecided however little was asked."""


class Tally:
    """What was asked, and what of it stayed undecided."""

    def __init__(self) -> None:
        self.asked = self.undecided = 0

    @property
    def most(self) -> int:
        """As many as may be undecided."""
        return max(FEW, int(self.asked * SHARE))

    def count(self, undecided: bool) -> None:
        """One thing more that was asked."""
        self.asked += 1
        self.undecided += undecided
        if undecided and currently_in_test_context():
            event("undecided")

    @contextmanager
    def may_be_undecided(self) -> Iterator[None]:
        """What is done inside ends where it is undecided, and is counted; nothing else is passed over."""
        try:
            yield
        except Undecided:
            self.count(True)
        else:
            self.count(False)

    def hold(self) -> None:
        """Fails where too much was left undecided."""
        assert self.undecided <= self.most, f"{self.undecided} of {self.asked} undecided"


tally = Tally()
"""Of the test that runs."""
