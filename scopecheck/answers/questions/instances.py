"""Claims with one chain of their parents each, and which of many chains are asked."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from scopecheck.core.formula import All
from scopecheck.core.model import Claim, Limitation
from scopecheck.foundations.record import record

MOST_WAYS = 6
"""Of a claim with more chains of parents only some are asked."""


@record
class Instance:
    """A claim with one chain of its parents: what the claim says and what it takes over.

    `chain` are the numbers of the parents, the independent claim first.
    """

    claim: Claim
    inherited: tuple[Limitation, ...]
    chain: tuple[int, ...] = ()

    @property
    def own(self) -> tuple[Limitation, ...]:
        return self.claim.limitations

    @property
    def limitations(self) -> tuple[Limitation, ...]:
        return self.inherited + self.own

    @cached_property
    def scope(self) -> All:
        return All(tuple(limitation.formula for limitation in self.limitations))

    @cached_property
    def parent_scope(self) -> All:
        return All(tuple(limitation.formula for limitation in self.inherited))

    @cached_property
    def own_scope(self) -> All:
        return All(tuple(limitation.formula for limitation in self.own))


def widest(instances: Sequence[Instance]) -> list[Instance]:
    """Those that take over no other one's lines and more: whatever meets the claim meets one of these."""
    chains = {i.chain: set(i.chain) for i in instances}
    return [i for i in instances if not any(other < chains[i.chain] for other in chains.values())]


def few_ways(made: list[Instance]) -> list[Instance]:
    """The instances to be asked; of more than a few the widest, and for every ancestor the shortest by it.

    "Of any preceding claim" in every claim makes twice as many chains with each. What is shown by the widest
    ones holds by way of all, and a conflict with an ancestor's line shows by the shortest chain through it.
    """
    if len(made) <= MOST_WAYS:
        return made
    first = {i.chain for i in widest(made)}
    kept, through = set(first), {n for chain in first for n in chain}
    for i in sorted(made, key=lambda i: len(i.chain)):
        if not through.issuperset(i.chain):
            kept.add(i.chain)
            through.update(i.chain)
    return [i for i in made if i.chain in kept]
