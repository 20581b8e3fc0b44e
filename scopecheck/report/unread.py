"""Words of a line that were read past, told where a finding rests on the line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scopecheck.answers.about import Alike
from scopecheck.answers.findings import Finding, lines_of, sets_of
from scopecheck.core.model import Limitation, Sheet
from scopecheck.report.describe import lineage, turning_limitations
from scopecheck.report.wording import listed, sentence

OF_WHOLE_CLAIMS = ("outside met", "document met", "silence alone keeps out")
"""Questions on what meets a claim, and so each of its lines."""


def left_unread(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The lines that a finding rests on of which words were read past, in the order of the sheet."""
    own = set(_labels(sheet, finding))
    return tuple(x for c in sheet.claims for x in c.limitations if x.unread and x.label in own)


def _labels(sheet: Sheet, finding: Finding) -> Iterator[str]:
    yield from (finding.label, *lines_of(finding), *finding.failing)
    yield from (label for one in sets_of(finding) for label in one)
    if finding.question in OF_WHOLE_CLAIMS:
        yield from (x.label for n in lineage(sheet, finding.claim) for x in sheet.claim(n).limitations)
    if finding.question == "inside lost" and not finding.failing:
        yield from (x.label for x in turning_limitations(sheet, finding))
    if finding.question in ("adds nothing", "same scope"):
        others = [finding.about.other] if isinstance(finding.about, Alike) else []
        for n in (finding.claim, *others):
            yield from (x.label for x in sheet.claim(n).limitations)


def unread_text(sheet: Sheet, finding: Finding, shown: Iterable[str] = ()) -> str:
    """`'measured before tabletting' is not read.` of lines shown, else `Not all words of 1b are read.`."""
    lines, shown = left_unread(sheet, finding), set(shown)
    words = [f"'{w}'" for x in lines if x.label in shown for w in x.unread]
    told = [sentence("unread", "one" if len(words) == 1 else "many", words=listed(words))] if words else []
    others = [x.label for x in lines if x.label not in shown]
    told += [sentence("unread", "others", lines=listed(others))] if others else []
    return " ".join(told)
