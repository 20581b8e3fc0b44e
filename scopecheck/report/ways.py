"""By way of which of its parents something holds of a claim, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.findings import Finding
from scopecheck.core.model import Sheet
from scopecheck.report.wording import claims_text, listed, sentence

ALSO_THROUGH = (
    "nothing meets",
    "dependent cannot be met",
    "adds nothing",
    "idle",
    "idle end",
    "end not reached",
    "one value left",
)
"""Questions whose answer by way of a parent holds of any longer chain through it as well."""


def way_text(sheet: Sheet, finding: Finding) -> str:
    """`where it depends on claims 2 and 3`; '' where it holds by way of every parent."""
    if not finding.ways:
        return ""
    if finding.wherever_met:
        return sentence("way", "wherever_met")
    key = (
        "where_else"
        if finding.question in ALSO_THROUGH and not _all_looked_at(sheet, finding.claim)
        else "where"
    )
    return sentence("way", key, claims=listed(_ways(sheet, finding)))


def _all_looked_at(sheet: Sheet, number: int) -> bool:
    """Were all the claim's chains of parents looked at, and not the widest alone?"""
    ways: dict[int, int] = {}
    for claim in sorted(sheet.claims, key=lambda c: c.number):
        ways[claim.number] = sum(ways.get(p, 1) for p in claim.parents) or 1
    return ways[number] == len(sheet.chains[number])


def _ways(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """The parents by way of which it holds; one that it holds for in part only with what stands above it."""
    every = sheet.chains[finding.claim]
    whole: list[int] = []
    partly: list[int] = []
    for parent in dict.fromkeys(chain[-1] for chain in finding.ways):
        own = {chain for chain in every if chain[-1] == parent}
        (whole if own <= set(finding.ways) else partly).append(parent)
    if whole:
        yield claims_text(whole)
    for parent in partly:
        yield from dict.fromkeys(_through(chain) for chain in finding.ways if chain[-1] == parent)


def _through(chain: Sequence[int]) -> str:
    return sentence("way", "through", claim=claims_text(chain[-1:]), claims=claims_text(chain[:-1]))
