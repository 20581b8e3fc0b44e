"""Like parts: means, medians and differences of many, against a linear problem of the same size.

The linear problem has as many lengths, each with the same two ends, and a limit on their sum in place of what
is asked of the parts; claims, cases and questions are the same.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.questions import ask_all
from scopecheck.core.model import Sheet
from tests.benchmarks.figures import Figure
from tests.benchmarks.growth import seconds
from tests.generated_parts import SHARE, problems, undecided_of
from tests.sheets import sheet

ASKED = {
    "a mean": (40, "MEAN hole (diameter) <= 4 mm"),
    "a median": (40, "MEDIAN hole (diameter) <= 4 mm"),
    "a mean and a median": (40, "MEDIAN hole (diameter) >= 3 mm AND MEAN hole (diameter) <= 3 mm"),
    "a median above a mean": (40, "MEDIAN hole (diameter) >= 4 mm AND MEAN hole (diameter) <= 3 mm"),
    "a median above a mean that nothing has": (
        40,
        "MEDIAN hole (diameter) >= 5 mm AND MEAN hole (diameter) <= 2 mm",
    ),
    "pairwise difference": (12, "DIFFERENT hole (diameter)"),
}


def of_parts(count: int, line: str) -> Sheet:
    """Two claims on so many holes: the ends of each, and what the line asks."""
    return sheet(
        f"hole        part, {count // 2} to {count}\n  diameter  length in mm\n\n"
        "1. A tray.\n   | EVERY hole (1 mm <= diameter <= 9 mm)\n\n"
        f"2. The tray of claim 1.\n   | {line}\n\n"
        f"inside            holes   diameter of holes\n  sample          {count}      each 3 mm\n"
        f"must stay out\n  coarse          {count}      each 9.5 mm\n"
        f"class\n  any of them   : holes = {count}, diameter of hole 1 = 2 mm\n"
    )


def linear(count: int) -> Sheet:
    """The same of lengths that are all there."""
    names = [f"gap x{mark}" for mark in map(_marked, range(count))]
    total = " + ".join(names)

    def each(value: str) -> str:
        return ", ".join(f"{name} = {value}" for name in names)

    return sheet(
        f"{', '.join(names)}  length in mm\n\n1. A tray.\n   | "
        + ", ".join(f"1 mm <= {name} <= 9 mm" for name in names)
        + f"\n\n2. The tray of claim 1.\n   | {total} <= {4 * count} mm\n\n"
        f"inside\n  sample : {each('3 mm')}\nmust stay out\n  coarse : {each('9.5 mm')}\n"
        f"class\n  any of them : {names[0]} = 2 mm\n"
    )


def _marked(index: int) -> str:
    return chr(ord("a") + index // 26) + chr(ord("a") + index % 26)


def measure_parts() -> Iterator[Figure]:
    for name, (count, line) in ASKED.items():
        parts, plain = of_parts(count, line), linear(count)
        took = tuple(1000 * seconds(lambda s=s: ask_all(s), 3) for s in (parts, plain))
        yield Figure(f"a check with {name} of up to {count} parts, against a linear one", *took, "ms", 10)
    made = problems()
    yield Figure("problems with parts: undecided, of all", undecided_of(made), len(made), "", SHARE)
