"""Pictures of one quantity as data: where each reading is met, as ranges or value by value.

All numbers here are in the unit that the sheet uses, not in base units; `unit` is its symbol, '' for counts.
"""

from __future__ import annotations

from fractions import Fraction

from scopecheck.foundations.record import record


@record
class Stretch:
    """Everything between two ends; an end of None is open to infinity. `low == high` is one value."""

    low: Fraction | None
    low_closed: bool
    high: Fraction | None
    high_closed: bool


@record
class NumberLine:
    """For each reading of a limitation the ranges of one quantity that meet it, ascending and apart.

    `rows` are (label of the reading, its ranges); no range: nothing meets it. `marks` are cases to show on
    the line, by name. `whole` says that only whole numbers exist. `stretched` tells of each reading with a
    stretch how far it is stretched here, by its label. `rest` tells how the other phrases of the limitation
    are read here, where that moves an end away from the number written.
    """

    name: str
    unit: str
    rows: tuple[tuple[str, tuple[Stretch, ...]], ...]
    marks: tuple[tuple[str, Fraction], ...] = ()
    whole: bool = False
    stretched: tuple[tuple[str, str], ...] = ()
    rest: tuple[str, ...] = ()


@record
class ValueTable:
    """A quantity with few values: for each reading, value by value, whether it is met (None: undefined)."""

    name: str
    unit: str
    values: tuple[Fraction | str, ...]
    rows: tuple[tuple[str, tuple[bool | None, ...]], ...]
