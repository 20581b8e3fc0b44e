"""Pasted claims as texts of which the words can be asked; and what is said where there are none."""

from __future__ import annotations

from scopecheck.drafting.draft import one_flow
from scopecheck.drafting.pasted import Pasted
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source, Span
from scopecheck.report.wording import sentence
from scopecheck.resolve.claim_text import ClaimText


def texts_of(found: Pasted) -> dict[int, ClaimText]:
    """The claims by number, each as a text of its own."""
    made = {}
    for claim in found.claims:
        flow = one_flow(claim.text)
        made[claim.number] = ClaimText.of([Span(Source(f"claim {claim.number}", flow), 0, len(flow))])
    return made


LONGEST_CLAIM = 40_000
"""Signs of a claim: to propose lines for a longer one would take too long. Few claims have a tenth of it."""


def too_long(source: Source, found: Pasted) -> Diagnostic | None:
    """What is wrong with a text of which a claim is longer than any is; None where none is."""
    claim = max(found.claims, key=lambda c: len(c.text), default=None)
    if claim is None or len(claim.text) <= LONGEST_CLAIM:
        return None
    first = next((line for line in claim.text.split("\n") if line.strip()), "")
    start = max(source.text.find(first), 0)
    span = Span(source, start, start + min(len(first), 60))
    names = {"number": claim.number, "length": len(claim.text), "most": LONGEST_CLAIM}
    cause, help = sentence("start", "too_long_cause", **names), sentence("start", "too_long_help")
    return Diagnostic("error", span, sentence("start", "too_long", **names), cause, help)


def no_claims(source: Source) -> Diagnostic:
    """What is wrong with a text in which no claim begins."""
    cause, help = sentence("start", "no_claims_cause"), sentence("start", "no_claims_help")
    first = len(source.text) - len(source.text.lstrip())
    end = source.text.find("\n", first)
    span = Span(source, first, end if end > 0 else len(source.text))
    return Diagnostic("error", span, sentence("start", "no_claims"), cause, help)
