"""A figure: two things measured in one run, one after the other, and how they compare."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import inf


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
        """Infinite beside nothing, and 1 where there is nothing on either side."""
        if not self.beside:
            return inf if self.value else 1
        return self.value / self.beside

    @property
    def reached(self) -> bool:
        return self.ratio >= self.aim if self.least else self.ratio <= self.aim


def machine() -> str:
    """How many cores there are and how busy they have been: other work makes ratios uncertain."""
    load = f"{os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "not known"
    return f"{os.cpu_count()} cores; load over the last minute: {load}"


Measure = Callable[[], Iterable[Figure]]


def table(figures: Iterable[Figure]) -> str:
    """The figures as lines of a Markdown table, below a line on the machine that they were measured on."""
    lines = [
        machine(),
        "",
        "| figure | measured | held against | ratio | aim | reached |",
        "|---|---|---|---|---|---|",
    ]
    for f in figures:
        aim = f"{'at least' if f.least else 'at most'} {f.aim:g}"
        cells = (f.name, f"{f.value:.3g} {f.unit}", f"{f.beside:.3g} {f.unit}", f"{f.ratio:.2f}", aim)
        lines.append(f"| {' | '.join(cells)} | {'yes' if f.reached else 'NO'} |")
    return "\n".join(lines)
