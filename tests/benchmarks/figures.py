"""A figure: two things measured in one run, one after the other, and how they compare."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """What is measured and what it is held against, in one unit; `aim` is the greatest ratio wanted.

    With `least` the aim is the least ratio wanted.
    """

    name: str
    value: float
    beside: float
    unit: str
    aim: float
    least: bool = False

    @property
    def ratio(self) -> float:
        return self.value / self.beside

    @property
    def reached(self) -> bool:
        return self.ratio >= self.aim if self.least else self.ratio <= self.aim


Measure = Callable[[], Iterable[Figure]]


def table(figures: Iterable[Figure]) -> str:
    """The figures as lines of a Markdown table."""
    lines = ["| figure | measured | held against | ratio | aim | reached |", "|---|---|---|---|---|---|"]
    for f in figures:
        aim = f"{'at least' if f.least else 'at most'} {f.aim:g}"
        cells = (f.name, f"{f.value:.3g} {f.unit}", f"{f.beside:.3g} {f.unit}", f"{f.ratio:.2f}", aim)
        lines.append(f"| {' | '.join(cells)} | {'yes' if f.reached else 'NO'} |")
    return "\n".join(lines)
