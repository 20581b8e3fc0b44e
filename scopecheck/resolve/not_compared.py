"""Cases that nothing is held against, since of the claim they are listed for nothing is restated."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.model import Case, Sheet
from scopecheck.foundations.diagnostics import Diagnostic, quoted_list


def not_compared(sheet: Sheet) -> Iterator[Diagnostic]:
    """A warning for each claim that cases are listed for and that no line restates."""
    for claim in sheet.claims:
        listed = [c for c in sheet.cases if str(claim.number) in c.targets]
        if listed and claim.number not in sheet.restated:
            yield _told(listed, f"Of claim {claim.number} nothing is restated.")
    anywhere = [c for c in sheet.cases if not c.targets]
    independent = {c.number for c in sheet.claims if not c.parents}
    if anywhere and independent.isdisjoint(sheet.restated):
        yield _told(anywhere, "Of the claims that depend on no other nothing is restated.")


def _told(cases: list[Case], why: str) -> Diagnostic:
    names = quoted_list((c.name for c in cases), "and")
    message = f"{names} {'is' if len(cases) == 1 else 'are'} not compared with any claim"
    help = "restate its limits on lines with a bar below its text"
    return Diagnostic("warning", cases[0].span, message, why, help)
