"""The time of a run: one end for all of its sessions, in whole milliseconds."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from fractions import Fraction

SECOND = 1000
LONGEST = 3600 * SECOND
"""The library takes no time that is much longer."""


class Clock:
    """So much time from now on. Processes of one machine share it."""

    def __init__(self, milliseconds: int) -> None:
        self.whole = milliseconds
        self._end = self._last = _now() + milliseconds

    @property
    def left(self) -> int:
        """What is left; 0 once the time is over."""
        return max(self._end - _now(), 0)

    @property
    def is_over(self) -> bool:
        """Is the whole time over, and not only the part of it that something has?"""
        return _now() >= self._last

    def part(self, milliseconds: int) -> Clock:
        """So much time from now on, but no longer than this lasts."""
        return Clock(min(milliseconds, self.left, LONGEST))

    def share(self, of: Fraction) -> int:
        """The share of the whole time."""
        return int(self.whole * of)

    @contextmanager
    def no_longer_than(self, milliseconds: int) -> Iterator[None]:
        """What is done inside has so much of the time that is left, for all that look at this clock."""
        end = self._end
        self._end = min(end, _now() + milliseconds)
        try:
            yield
        finally:
            self._end = end


def _now() -> int:
    return time.monotonic_ns() // 1_000_000
