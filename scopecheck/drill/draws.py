"""Numbers drawn from a seed: the same everywhere, on every version of the language."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")
_MASK = 2**64 - 1


class Draws:
    """A stream of drawn numbers (splitmix64: Steele, Lea and Flood, 2014; constants from memory)."""

    def __init__(self, *seeds: int | str) -> None:
        self._state = 0x9E3779B97F4A7C15
        for seed in seeds:
            for byte in str(seed).encode("utf-8") + b"\0":
                self._state = (self._state * 0x100000001B3 ^ byte) & _MASK

    def _next(self) -> int:
        self._state = (self._state + 0x9E3779B97F4A7C15) & _MASK
        z = self._state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & _MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & _MASK
        return z ^ (z >> 31)

    def below(self, count: int) -> int:
        """A whole number from 0 up to, not including, `count`."""
        return self._next() % count

    def among(self, items: Sequence[T]) -> T:
        return items[self.below(len(items))]

    def mixed(self, items: Sequence[T]) -> list[T]:
        """All the items in a drawn order."""
        left = list(items)
        return [left.pop(self.below(len(left))) for _ in items]
