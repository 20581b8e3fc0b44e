"""Prints a table of figures: `python -m tests.benchmarks`, or with names of some of them.

Every ratio compares things measured in the same run, in turns. A further measurement is one function that
yields figures, and one row here.
"""

from __future__ import annotations

import sys

from tests.benchmarks.claim_sets import measure_claim_sets
from tests.benchmarks.figures import Measure, table
from tests.benchmarks.growth import measure_growth
from tests.benchmarks.loading import measure_loading
from tests.benchmarks.parts import measure_parts
from tests.benchmarks.processes import measure_check, measure_help
from tests.benchmarks.started import measure_start
from tests.benchmarks.walk import measure_walk

MEASURES: dict[str, Measure] = {
    "help": measure_help,
    "check": measure_check,
    "loading": measure_loading,
    "growth": measure_growth,
    "start": measure_start,
    "walk": measure_walk,
    "parts": measure_parts,
    "claims": measure_claim_sets,
}


def main(names: list[str]) -> None:
    unknown = [name for name in names if name not in MEASURES]
    if unknown:
        raise SystemExit(f"no measurement {', '.join(unknown)}; there are {', '.join(MEASURES)}")
    figures = [figure for name in names or MEASURES for figure in MEASURES[name]()]
    print(table(figures))


if __name__ == "__main__":
    main(sys.argv[1:])
