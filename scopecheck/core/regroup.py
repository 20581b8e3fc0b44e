"""A sheet by other numbers of its groups: groups put together, readings taken from one that has them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from scopecheck.core.formula import Formula
from scopecheck.core.model import Case, Claim, Limitation, Rivals, Sheet
from scopecheck.core.rewrite import regrouped
from scopecheck.foundations.record import replace

Numbers: TypeAlias = Mapping[int, tuple[int, tuple[int, ...]]]
"""For each group its new number, and for each reading of the new one which of its own says it, in order."""


def by_groups(sheet: Sheet, numbers: Numbers, keys: Mapping[str, str]) -> Sheet:
    """The sheet's formulas by new numbers of groups and new keys of parameters; its groups are as before."""

    def groups(own: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(sorted({numbers[g][0] for g in own}))

    def limitation(x: Limitation) -> Limitation:
        meant = None if x.meant is None else regrouped(x.meant, numbers, keys)
        return replace(x, formula=regrouped(x.formula, numbers, keys), meant=meant, groups=groups(x.groups))

    def claim(c: Claim) -> Claim:
        return replace(c, limitations=tuple(map(limitation, c.limitations)))

    def case(c: Case) -> Case:
        return replace(c, facts=regrouped(c.facts, numbers, keys), groups=groups(c.groups))

    def rivals(r: Rivals) -> Rivals:
        left, taken = (
            None if pairs is None else tuple((again(a), again(b)) for a, b in pairs)
            for pairs in (r.left, r.taken)
        )
        return replace(r, left=left or (), taken=taken)

    def again(formula: Formula) -> Formula:
        return regrouped(formula, numbers, keys)

    return replace(
        sheet,
        claims=tuple(map(claim, sheet.claims)),
        cases=tuple(map(case, sheet.cases)),
        described=tuple(map(case, sheet.described)),
        rivals=tuple(map(rivals, sheet.rivals)),
    )


def key_of(name: str, group: int, reading: int, scope: str) -> str:
    """What a free number of a reading is known by; `scope` says which of its places have one in common."""
    return f"{name} of group {group}, reading {reading}, {scope}"


def key_at(key: str, name: str, group: int, reading: int) -> str:
    """The key of the same free number in another group."""
    return key_of(name, group, reading, key.split(", ", 2)[-1])
