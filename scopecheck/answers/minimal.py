"""All minimal sets of things that cannot hold together, given a way to find one among some of them.

From each set found the search goes on without one of its members, for every member: any other minimal set
lacks at least one of them. A branch is at its end where what is left can hold together; each rests therefore
on an answer of its own. What is found does not depend on the order of the answers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from scopecheck.foundations.record import record

MOST_SETS = 20
MOST_STEPS = 400
"""Parts that are looked into; each takes at most one search."""
Clash = Callable[[Sequence[str]], tuple[str, ...] | None]
"""A minimal part of the labels that cannot hold together, or None if all of them can."""


@record
class MinimalSets:
    """The sets, smallest first and then by position; `every` is False where there may be more."""

    sets: tuple[tuple[str, ...], ...]
    every: bool


def minimal_sets(labels: Iterable[str], clash: Clash, most: int = MOST_SETS) -> MinimalSets:
    """Every minimal set of labels that cannot hold together, up to `most` of them.

    Each set keeps the order of the labels. No set: all labels can hold together.
    """
    order = tuple(dict.fromkeys(labels))
    found: list[tuple[str, ...]] = []
    seen = {frozenset[str]()}
    waiting = [frozenset[str]()]
    steps = 0
    while waiting and len(found) < most and steps < MOST_STEPS:
        left_out = waiting.pop(0)
        steps += 1
        known = next((s for s in found if left_out.isdisjoint(s)), None)
        if known is None:
            known = clash([label for label in order if label not in left_out])
            if known is None:
                continue
            found.append(known)
        for member in known:
            wider = left_out | {member}
            if wider not in seen:
                seen.add(wider)
                waiting.append(wider)
    place = {label: i for i, label in enumerate(order)}
    found.sort(key=lambda s: (len(s), [place[label] for label in s]))
    return MinimalSets(tuple(found), not waiting)
