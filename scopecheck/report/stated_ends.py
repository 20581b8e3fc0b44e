"""What a claim states and nothing in it reaches, in words: an end, and a member of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from scopecheck.answers.findings import Finding, Reread, lines_of
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.written_ends import WrittenEnd, written_ends
from scopecheck.report.amounts import plain_degrees, with_symbol
from scopecheck.report.describe import chains, labelled, limitation_labelled
from scopecheck.report.rereadings import reading_label
from scopecheck.report.wording import GLUE, flat, listed, sentence


def end_text(sheet: Sheet, finding: Finding) -> str:
    """A detail of the form `20.0 mm|no more than|37/2 mm|in`, or `low|2 mm`, in words; else as it is.

    Of an end that is not reached also the lines that do it, the reading, and how far it goes as presumed.
    """
    parts = finding.detail.split("|")
    if finding.question in ("idle end", "end repeated", "corner not reached"):
        side, _, written = finding.detail.partition("|")
        shown = plain_degrees(written).replace(" ", GLUE)
        return sentence("range_end", "written" if shown else "bare", side=sentence("side", side), end=shown)
    if finding.question != "end not reached" or len(parts) not in (4, 6):
        return flat(finding.detail)
    stated, side, reached, taken, *usual = parts
    upper = side == "no more than"
    number = Fraction(reached.partition(" ")[0])
    shown = plain_degrees(stated).replace(" ", GLUE)
    if taken == "in" and finding.quantifier == "base" and _one_value(sheet, finding, stated, upper, number):
        text = sentence("end", "one_value", stated=shown, reached=_number(reached))
    else:
        form = "on_condition" if _on_a_condition(sheet, finding, stated, upper) else "reached"
        text = sentence("end", form, stated=shown, far=_far(upper, reached, taken))
    text += cause_text(sheet, finding)
    return f"{text}; {sentence('end', 'usual', far=_far(upper, *usual))}" if usual else text


def _number(text: str) -> str:
    number, _, unit = text.partition(" ")
    return with_symbol(Fraction(number), unit)


def _far(upper: bool, reached: str, taken: str) -> str:
    """`is at most 12 min`, `stays below 12.5 min`."""
    if taken == "in":
        side = sentence("end", "no more than" if upper else "no less than")
        return sentence("end", "goes", side=side, reached=_number(reached))
    beyond = sentence("end", "below" if upper else "above")
    return sentence("end", "stays", side=beyond, reached=_number(reached))


def cause_text(sheet: Sheet, finding: Finding) -> str:
    """`, by 8a "at most 12 minutes", read as "rounds to the limit" (arguable)`; '' where no line is known."""
    sets = finding.sets or ((lines_of(finding),) if lines_of(finding) else ())
    if not sets:
        return ""
    lines = "; ".join(listed(labelled(sheet, label) for label in labels) for labels in sets)
    told = sentence("end", "by", lines=lines)
    if not finding.farthest:
        return told
    alone = len(finding.farthest) == 1 and len(sets) == 1 and len(sets[0]) == 1
    readings = [_reading(sheet, r, not alone, sets[0]) for r in finding.farthest]
    return told + sentence("end", "read" if alone else "with", readings=listed(readings))


def _reading(sheet: Sheet, taken: Reread, with_words: bool, labels: Sequence[str]) -> str:
    label = reading_label(sheet, taken, with_words, labels)
    if any((p.group, p.reading) == (taken.group, taken.reading) for p in sheet.parameters):
        return sentence("reading", "far_enough", label=label)
    return label


def member_texts(sheet: Sheet, finding: Finding) -> dict[str, str]:
    """The members that nothing has, or what the condition is about that nothing fulfils, and the lines that
    rule them out; of other findings nothing."""
    if finding.question not in ("member not reached", "condition not met"):
        return {}
    names = finding.detail.split("|")
    many = len(names) > 1 and finding.question == "member not reached"
    out = sentence("ruled", "many" if many else "one")
    sets = finding.sets or (lines_of(finding),)
    ruled = "; ".join(_ruled(sheet, labels, out) for labels in sets)
    return {"listed": listed(map(flat, names)), "ruled": ruled}


def _ruled(sheet: Sheet, labels: Sequence[str], out: str) -> str:
    if not labels:
        return sentence("ruled", "bounds", out=out)
    lines = listed(labelled(sheet, label) for label in labels)
    return sentence("ruled", "line" if len(labels) == 1 else "lines", lines=lines, out=out)


def _one_value(sheet: Sheet, finding: Finding, stated: str, upper: bool, reached: Fraction) -> bool:
    """Does the claim, as usually read, also hold the value to the other side of what is reached?"""
    for end in _own_ends(sheet, finding, stated, upper):
        term, limit = end.term, end.limit
        unit = limit.written.unit if limit.written else None
        for other in _asked(sheet, finding.claim):
            value = unit.from_base(other.limit.value) if unit else other.limit.value
            if other.term == term and other.upper != upper and value == reached:
                return True
    return False


def _on_a_condition(sheet: Sheet, finding: Finding, stated: str, upper: bool) -> bool:
    """Is the end stated for things of which more is so than that the part is there or the step is done?"""
    there = {part.count for part in sheet.parts} | {step.done for step in sheet.steps}
    ends = list(_own_ends(sheet, finding, stated, upper))
    return bool(ends) and all(names_in(end.given) - there for end in ends)


def _own_ends(sheet: Sheet, finding: Finding, stated: str, upper: bool) -> Iterator[WrittenEnd]:
    """The ends of the finding's own line that are written so."""
    own = limitation_labelled(sheet, finding.label)
    for end in _ends(sheet, own) if own is not None else ():
        unit = end.limit.written.unit if end.limit.written else None
        symbol = f" {unit.symbol}" if unit and unit.symbol else ""
        if end.upper == upper and (end.limit.written.text if end.limit.written else "") + symbol == stated:
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
