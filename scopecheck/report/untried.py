"""What "every reading listed" rests on: readings without a formula are not tried, symbols have one alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scopecheck.answers.findings import Finding, lines_of
from scopecheck.core.model import Limitation, Sheet
from scopecheck.report.describe import limitation_labelled, lineage
from scopecheck.report.rereadings import group_words
from scopecheck.report.wording import listed, quoted, sentence


def every_reading(sheet: Sheet, finding: Finding) -> str:
    """`every reading listed`, with what the lines that the finding rests on leave untried, or settle."""
    lines = _lines(sheet, finding)
    left = untried(sheet, [line.label for line in lines])
    return "; ".join(part for part in (sentence("quantifier", "every"), left, _in_symbols(lines)) if part)


def untried(sheet: Sheet, labels: Sequence[str]) -> str:
    """Which presumed readings of these lines have no formula, and are not among those tried; or ''."""
    lines = [line for label in labels if (line := limitation_labelled(sheet, label))]
    groups = [sheet.groups[g] for g in dict.fromkeys(g for line in lines for g in line.groups)]
    told = [
        sentence("quantifier", "as_good", words=group_words(group, labels), labels=listed(as_good, "or"))
        for group in groups
        if (as_good := [quoted(label) for label, standing in group.untried if standing == "presumed"])
    ]
    return sentence("quantifier", "untried", readings=listed(told)) if told else ""


def _lines(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The lines that a finding rests on: those it names, else all of the claim and of those above it."""
    labels = dict.fromkeys((*finding.failing, *lines_of(finding), finding.label))
    named = [line for label in labels if (line := limitation_labelled(sheet, label))]
    if named and finding.question == "adds nothing":
        return (*named, *sheet.claim(finding.claim).limitations)
    above = lineage(sheet, finding.claim) or (finding.claim,)
    return tuple(named or (x for c in sheet.claims if c.number in above for x in c.limitations))


def _in_symbols(lines: Iterable[Limitation]) -> str:
    written = [line.label for line in lines if line.exact and line.words]
    return sentence("quantifier", "in_symbols", labels=listed(written)) if written else ""
