"""A document's range directly beside a claim, or sharing a part with it, in words."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.about import CloseBy
from scopecheck.answers.findings import Finding
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.model import Case, Limitation, Sheet
from scopecheck.core.ranges import lying
from scopecheck.core.ties import lying_ties
from scopecheck.report.chart import range_text
from scopecheck.report.describe import case_named, case_text, limitation_labelled
from scopecheck.report.ties import tie_text, tied_range_text
from scopecheck.report.wording import agreed, claims_text, flat, listed, sentence, upper_first

MOST_NAMES = 3
"""So many names that a document says nothing of are told."""


def close_text(sheet: Sheet, finding: Finding, end: str = "") -> str:
    """`Document D1, row, lies directly beside claim 1: 1a asks for ...`; '' for any other finding.

    `end` is what the thing shown has at an end that the document states.
    """
    case = case_named(sheet, finding.case)
    close = finding.about
    if not isinstance(close, CloseBy) or case is None:
        return ""
    name, rest = case_text(sheet, finding.case), _rest(sheet, case, close, end)
    lines = [x for label in close.lines if (x := limitation_labelled(sheet, label))]
    if close.how == "beside":
        told = listed(text for x in lines for text in _asked(sheet, case, x))
        claim = claims_text([finding.claim])
        return upper_first(sentence("close", "beside", case=name, claim=claim, lines=told, rest=rest))
    ranges = ", ".join(text for x in lines for text in _shared(sheet, case, x))
    shared = sentence("close", "shared", ranges=ranges) if ranges else ""
    labels = listed(x.label for x in lines)
    return sentence("close", "shares", case=name, lines=labels, shared=shared, rest=rest)


def _asked(sheet: Sheet, case: Case, line: Limitation) -> Iterator[str]:
    """What the line asks of the numbers in which the range lies beside it, and what is stated of them."""
    base, told = base_construction(sheet), list[tuple[str, str, str]]()
    for own in lying(sheet, case.facts, line.formula, base):
        if own.relation == "apart":
            asked, stated = (range_text(sheet, own.name, r) for r in (own.asked, own.stated))
            told.append((flat(own.name), asked, stated))
    for tied in lying_ties(case.facts, line.formula, base):
        if tied.relation == "apart":
            asked, stated = (tied_range_text(sheet, tied.tie, r) for r in (tied.asked, tied.stated))
            told.append((tie_text(tied.tie), asked, stated))
    for name, asked, stated in told:
        of_name = sentence("lies", "range_of", name=name, range=asked)
        yield sentence("close", "beside_line", line=line.label, asked=of_name, stated=stated)


def _shared(sheet: Sheet, case: Case, line: Limitation) -> Iterator[str]:
    """What the range and the line share of each number that both limit."""
    base = base_construction(sheet)
    for own in lying(sheet, case.facts, line.formula, base):
        if own.shared is not None:
            text = range_text(sheet, own.name, own.shared)
            yield sentence("lies", "range_of", name=flat(own.name), range=text)
    for tied in lying_ties(case.facts, line.formula, base):
        if tied.shared is not None:
            text = tied_range_text(sheet, tied.tie, tied.shared)
            yield sentence("lies", "range_of", name=tie_text(tied.tie), range=text)


def _rest(sheet: Sheet, case: Case, close: CloseBy, end: str) -> str:
    """What the other lines make of it: that they stay open, by what it says nothing of, or that none does."""
    lines = [x for label in close.silent if (x := limitation_labelled(sheet, label))]
    if not lines:
        return sentence("close", "nothing_else" if close.how == "beside" else "nothing")
    classes = {name for made in sheet.compositions for name, _ in made.classes}
    spoken = frozenset[str]().union(*(names_in(x.formula) for x in lines)) - {*case.stated, *classes}
    unsaid = [flat(d.name) for d in sheet.declarations if d.name in spoken]
    if len(unsaid) > MOST_NAMES + 1:
        more = sentence("note", "more_open", count=len(unsaid) - MOST_NAMES)
        unsaid = [*unsaid[:MOST_NAMES], more]
    return sentence(
        "close",
        "open_end" if close.how == "shares an end" and end else "open",
        end=end,
        names=listed(unsaid),
        lines=listed(x.label for x in lines),
        stay=agreed(len(lines), "stays"),
    )
