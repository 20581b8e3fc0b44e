"""Claims that name others and are for something else: what is not asked of them."""

from __future__ import annotations

from scopecheck.answers.findings import Answers
from scopecheck.core.model import Claim, Sheet
from scopecheck.foundations.record import replace
from scopecheck.report.wording import claims_text, sentence, upper_first

OF_DEPENDENTS = ("adds nothing", "narrows", "end not reached")
RENAMED = {"dependent cannot be met": "nothing meets"}


def others(sheet: Sheet) -> tuple[Claim, ...]:
    """The claims to something else than the claims they name."""
    return tuple(claim for claim in sheet.claims if claim.other_category)


def without_dependency(sheet: Sheet, answers: Answers) -> Answers:
    """The answers without those that only a dependent claim is asked for, at claims of another category.

    Such a claim still takes over what it names: whether something meets it is told as of an independent one.
    """
    numbers = {claim.number for claim in others(sheet)}
    if not numbers:
        return answers
    findings = (f for f in answers.findings if f.claim not in numbers or f.question not in OF_DEPENDENTS)
    return replace(
        answers,
        findings=tuple(
            replace(f, question=RENAMED.get(f.question, f.question)) if f.claim in numbers else f
            for f in findings
        ),
        looked=tuple(
            replace(e, question=RENAMED.get(e.question, e.question)) if e.claim in numbers else e
            for e in answers.looked
        ),
    )


def other_category_lines(sheet: Sheet) -> tuple[str, ...]:
    """For each such claim, that it was handled as independent, and what it takes over."""
    return tuple(
        sentence(
            "basis",
            "other_category",
            claim=upper_first(claims_text((claim.number,))),
            named=claims_text(claim.parents),
        )
        for claim in others(sheet)
    )
