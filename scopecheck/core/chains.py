"""Chains of parents: the ways to read a claim with one parent at each step, and which of many count."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import TypeAlias

Chain: TypeAlias = tuple[int, ...]
"""The numbers of a claim's parents, from the independent claim down to the one it names."""
MOST_WAYS = 6
"""Of a claim with more chains of parents only some are looked at."""


def chains_of(parents: Mapping[int, tuple[int, ...]]) -> dict[int, tuple[Chain, ...]]:
    """For each claim the chains of its parents that are looked at; () for an independent claim."""
    found: dict[int, tuple[Chain, ...]] = {}

    def of(number: int) -> tuple[Chain, ...]:
        if number not in found:
            named = (p for p in parents.get(number, ()) if p != number)
            found[number] = tuple(few([(*chain, p) for p in named for chain in of(p) or ((),)]))
        return found[number]

    for number in parents:
        of(number)
    return found


def takes_over(parents: Mapping[int, tuple[int, ...]], number: int, others: Collection[int]) -> bool:
    """Does the claim, whichever of its parents is taken at each step, take over one of the others?

    It does not if some way up leads past all of them to an independent claim. Each claim is looked at once.
    """
    seen, left = {number}, [number]
    while left:
        named = parents[left.pop()]
        if not named:
            return False
        new = [p for p in named if p not in seen and p not in others]
        left += new
        seen.update(new)
    return True


def widest(chains: Sequence[Chain]) -> list[Chain]:
    """Those that take over no other one's claims and more: whatever meets the claim meets one of these."""
    sets = {chain: set(chain) for chain in chains}
    return [c for c in chains if not any(other < sets[c] for other in sets.values())]


def few(chains: Sequence[Chain]) -> list[Chain]:
    """The chains to be looked at; of more than a few the widest, and for every ancestor the shortest by it.

    "Of any preceding claim" in every claim makes twice as many chains with each. What is shown by the widest
    ones holds by way of all, and a conflict with an ancestor's line shows by the shortest chain through it.
    """
    if len(chains) <= MOST_WAYS:
        return list(chains)
    kept = set(widest(chains))
    through = {n for chain in kept for n in chain}
    for chain in sorted(chains, key=len):
        if not through.issuperset(chain):
            kept.add(chain)
            through.update(chain)
    return [chain for chain in chains if chain in kept]
