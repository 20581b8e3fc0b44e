"""What the words of a claim show: one fact, at its words, with what a sentence about it needs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias

from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Span

FlagSort: TypeAlias = Literal[
    "no earlier", "several earlier", "number", "two things", "two names", "category", "reference form",
    "degree", "user act", "transition", "example", "inner range", "grouping", "drawings",
    "share",
]  # fmt: skip


@record
class Flag:
    """A fact about a claim's words. `form` chooses the sentence; `values` fill it in."""

    sort: FlagSort
    form: str
    claim: int
    words: str
    span: Span
    values: Mapping[str, object] = field(default_factory=dict)
