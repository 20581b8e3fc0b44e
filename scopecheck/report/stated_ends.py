"""What a claim states and nothing in it reaches, in words: an end, and a member of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.about import EndNotReached, IdleEnd, NotThere, Reread
from scopecheck.answers.findings import Finding, because, lines_of
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.written_ends import WrittenEnd, written_ends
from scopecheck.report.amounts import plain_degrees, with_symbol
from scopecheck.report.describe import chains, labelled, limitation_labelled
from scopecheck.report.rereadings import reading_label
from scopecheck.report.wording import GLUE, flat, listed, sentence
from scopecheck.solving.ends import Extremum


def end_text(sheet: Sheet, finding: Finding) -> str:
    """An end of a range that is idle or not reached, in words; '' of other findings.

    Of an end that is not reached also the lines that do it, the reading, and how far it goes as presumed.
    """
    match finding.about:
        case IdleEnd(_, side, written):
            shown = plain_degrees(written).replace(" ", GLUE)
            form = "written" if shown else "bare"
            return sentence("range_end", form, side=sentence("side", side), end=shown)
        case EndNotReached():
            return _not_reached(sheet, finding, finding.about)
        case _:
            return ""


def _not_reached(sheet: Sheet, finding: Finding, end: EndNotReached) -> str:
    shown = plain_degrees(end.stated).replace(" ", GLUE)
    if end.far.closed and finding.quantifier == "base" and _one_value(sheet, finding, end):
        text = sentence("end", "one_value", stated=shown, reached=with_symbol(end.far.value, end.unit))
    else:
        form = "on_condition" if _on_a_condition(sheet, finding, end) else "reached"
        text = sentence("end", form, stated=shown, far=_far(end, end.far))
    text += cause_text(sheet, finding)
    return f"{text}; {sentence('end', 'usual', far=_far(end, end.usual))}" if end.usual else text


def _far(end: EndNotReached, far: Extremum) -> str:
    """`is at most 12 min`, `stays below 12.5 min`."""
    reached = with_symbol(far.value, end.unit)
    if far.closed:
        side = sentence("end", "no more than" if end.upper else "no less than")
        return sentence("end", "goes", side=side, reached=reached)
    beyond = sentence("end", "below" if end.upper else "above")
    return sentence("end", "stays", side=beyond, reached=reached)


def cause_text(sheet: Sheet, finding: Finding) -> str:
    """`, by 8a "at most 12 minutes", read as "rounds to the limit" (arguable)`; '' where no line is known."""
    sets = because(finding).sets or ((lines_of(finding),) if lines_of(finding) else ())
    if not sets:
        return ""
    lines = "; ".join(listed(labelled(sheet, label) for label in labels) for labels in sets)
    told = sentence("end", "by", lines=lines)
    farthest = finding.about.farthest if isinstance(finding.about, EndNotReached) else ()
    if not farthest:
        return told
    alone = len(farthest) == 1 and len(sets) == 1 and len(sets[0]) == 1
    readings = [_reading(sheet, r, not alone, sets[0]) for r in farthest]
    return told + sentence("end", "read" if alone else "with", readings=listed(readings))


def _reading(sheet: Sheet, taken: Reread, with_words: bool, labels: Sequence[str]) -> str:
    label = reading_label(sheet, taken, with_words, labels)
    if any((p.group, p.reading) == (taken.group, taken.reading) for p in sheet.parameters):
        return sentence("reading", "far_enough", label=label)
    return label


def member_texts(sheet: Sheet, finding: Finding) -> dict[str, str]:
    """The members that nothing has, or what the condition is about that nothing fulfils, and the lines that
    rule them out; of other findings nothing."""
    if not isinstance(finding.about, NotThere):
        return {}
    names = finding.about.names
    many = len(names) > 1 and finding.question == "member not reached"
    out = sentence("ruled", "many" if many else "one")
    sets = because(finding).sets or (lines_of(finding),)
    ruled = "; ".join(_ruled(sheet, labels, out) for labels in sets)
    return {"listed": listed(map(flat, names)), "ruled": ruled}


def _ruled(sheet: Sheet, labels: Sequence[str], out: str) -> str:
    if not labels:
        return sentence("ruled", "bounds", out=out)
    lines = listed(labelled(sheet, label) for label in labels)
    return sentence("ruled", "line" if len(labels) == 1 else "lines", lines=lines, out=out)


def _one_value(sheet: Sheet, finding: Finding, reached: EndNotReached) -> bool:
    """Does the claim, as usually read, also hold the value to the other side of what is reached?"""
    for end in _own_ends(sheet, finding, reached):
        term, limit = end.term, end.limit
        unit = limit.written.unit if limit.written else None
        for other in _asked(sheet, finding.claim):
            value = unit.from_base(other.limit.value) if unit else other.limit.value
            if other.term == term and other.upper != reached.upper and value == reached.far.value:
                return True
    return False


def _on_a_condition(sheet: Sheet, finding: Finding, reached: EndNotReached) -> bool:
    """Is the end stated for things of which more is so than that the part is there or the step is done?"""
    there = {part.count for part in sheet.parts} | {step.done for step in sheet.steps}
    ends = list(_own_ends(sheet, finding, reached))
    return bool(ends) and all(names_in(end.given) - there for end in ends)


def _own_ends(sheet: Sheet, finding: Finding, reached: EndNotReached) -> Iterator[WrittenEnd]:
    """The ends of the finding's own line that are written so."""
    own = limitation_labelled(sheet, finding.label)
    for end in _ends(sheet, own) if own is not None else ():
        unit = end.limit.written.unit if end.limit.written else None
        symbol = f" {unit.symbol}" if unit and unit.symbol else ""
        written = (end.limit.written.text if end.limit.written else "") + symbol
        if end.upper == reached.upper and written == reached.stated:
            yield end


def _ends(sheet: Sheet, limitation: Limitation) -> Iterator[WrittenEnd]:
    return written_ends(limitation.formula, base_construction(sheet).readings)


def _asked(sheet: Sheet, number: int) -> Iterator[WrittenEnd]:
    """The ends stated by the claim and by what it depends on in any case."""
    ways = chains(sheet, number)
    for claim in sheet.claims:
        if all(claim.number in way for way in ways):
            for limitation in claim.limitations:
                yield from _ends(sheet, limitation)
