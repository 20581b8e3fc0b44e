"""The order of exercises: which kind and level comes when, and at which position of its pool."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.drill.draws import Draws
from scopecheck.drill.exercise import LEVELS, Kind
from scopecheck.drill.plans import cell
from scopecheck.foundations.record import record


@record
class Slot:
    """One place in a paper or a session."""

    kind: Kind
    level: int
    position: int


def slots(kinds: Sequence[Kind], levels: Sequence[int], seed: int, count: int) -> Iterator[Slot]:
    """The slots of one seed, all kinds and levels in turn in a drawn order.

    Of each kind and level the seed has a stretch of its pool to itself: neighbouring seeds use neighbouring
    stretches, so that papers of seeds that follow one another have nothing in common until a pool is used up.
    """
    cells = [(kind, level) for level in levels or LEVELS for kind in kinds if cell(kind, level).size]
    order = Draws("order", seed).mixed(cells)
    if not order:
        return
    for number in range(count):
        kind, level = order[number % len(order)]
        share = per_seed(count, len(order))
        yield Slot(kind, level, seed * share + number // len(order))


def per_seed(count: int, cells: int) -> int:
    """How many exercises of one kind and level a seed has at most."""
    return -(-count // cells)


def room_for(kinds: Sequence[Kind], levels: Sequence[int]) -> int:
    """How many exercises a paper can have at most without repeating itself."""
    cells = [cell(kind, level).size for level in levels or LEVELS for kind in kinds]
    found = [size for size in cells if size]
    return min(found, default=0) * len(found)
