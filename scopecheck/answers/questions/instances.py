"""Claims with one chain of their parents each."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

from scopecheck.core import chains
from scopecheck.core.formula import All
from scopecheck.core.model import Claim, Limitation
from scopecheck.foundations.record import record


@record
class Instance:
    """A claim with one chain of its parents: what the claim says and what it takes over.

    `chain` are the numbers of the parents, the independent claim first.
    """

    claim: Claim
    inherited: tuple[Limitation, ...]
    chain: chains.Chain = ()

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
    kept = set(chains.widest([i.chain for i in instances]))
    return [i for i in instances if i.chain in kept]
