"""The chart of limitations against documents, and how one range lies against another, in words."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.findings import Answers, ChartCell
from scopecheck.core.construction import base_construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Bound
from scopecheck.core.model import Case, Sheet
from scopecheck.core.ranges import Lying, Range, limits_of
from scopecheck.core.reference import stated_values
from scopecheck.report.amounts import about_text, difference_text, ends_text, quantity_text
from scopecheck.report.blocks import Block, Chart, Heading, Paragraph
from scopecheck.report.describe import case_named, labelled, settings, value_text
from scopecheck.report.nearness import nearness_text
from scopecheck.report.step_text import Told
from scopecheck.report.ties import tie_text, tied_lies_text, tied_range_text
from scopecheck.report.wording import flat, quoted, sentence


def chart_blocks(sheet: Sheet, answers: Answers) -> Iterator[Block]:
    """The chart with its heading and legend; nothing where there is none."""
    if not answers.chart:
        return
    yield Heading(sentence("chart", "title"))
    names = dict.fromkeys(cell.case for cell in answers.chart)
    columns = tuple((flat(n), _place(case_named(sheet, n))) for n in names)
    rows: dict[str, list[tuple[str, str]]] = {}
    for cell in answers.chart:
        rows.setdefault(cell.label, []).append((stated_text(sheet, cell), verdict_text(sheet, cell)))
    yield Chart(columns, tuple((labelled(sheet, label), tuple(cells)) for label, cells in rows.items()))
    yield Paragraph(sentence("chart", "legend"), quiet=True)


def _place(case: Case | None) -> str:
    return quoted(case.place) if case is not None and case.place else ""


def stated_text(sheet: Sheet, cell: ChartCell) -> str:
    """What the case states of what the limitation speaks of; '' where it says nothing."""
    case = case_named(sheet, cell.case)
    if case is None or not cell.names:
        return ""
    values = stated_values(sheet, case)
    limits = limits_of(sheet, case.facts, base_construction(sheet))
    tied = frozenset[str]().union(*(own.tie.names for own in cell.tied))
    of_parts = {name for part in sheet.parts for _, _, name in part.slots()}
    told: list[tuple[Told, str]] = []
    for name in cell.names:
        own = limits.of(name)
        text = value_text(sheet, name, values[name]) if name in values else ""
        if not text and own is not None:
            text = range_text(sheet, name, own)
        if text or name not in of_parts | tied:
            told.append(((None, (name,)), text or sentence("chart", "as_stated")))
    if len(told) == 1 and len(cell.names) == 1:
        return told[0][1]
    ranges = [(tie_text(own.tie), tied_range_text(sheet, own.tie, own.stated)) for own in cell.tied]
    of_ties = [sentence("lies", "range_of", name=name, range=text) for name, text in ranges]
    return ", ".join([*settings(sheet, told), *of_ties]) or sentence("chart", "as_stated")


def verdict_text(sheet: Sheet, cell: ChartCell) -> str:
    """`not met; apart by 0.2 mm`."""
    keys = {"every": "met", "none": "not met", "some": "in part"}
    status = sentence("verdict", keys[cell.at_base]) if cell.at_base else ""
    reason = flat(cell.reason) or sentence("note", "undecided_no_reason")
    parts = [sentence("verdict", cell.verdict, status=status, reason=reason)]
    several, case = len(cell.lying) > 1, case_named(sheet, cell.case)
    for own in cell.lying:
        near = nearness_text(sheet, case, own) if case else ""
        text = "; ".join(part for part in (lies_text(sheet, own), near) if part)
        if text and not (own.relation == "point inside" and cell.verdict == "met"):
            parts.append(sentence("lies", "of_name", name=flat(own.name), lies=text) if several else text)
    lies = [(own, tied_lies_text(sheet, own)) for own in cell.tied]
    parts += [
        sentence("lies", "of_name", name=tie_text(own.tie), lies=text)
        for own, text in lies
        if text and not (own.relation == "point inside" and cell.verdict == "met")
    ]
    return "; ".join(parts)


# ---- ranges


def range_text(sheet: Sheet, name: str, own: Range) -> str:
    """`2 mm to 4 mm`, `above 5 %`, `any value`; one value as itself."""
    d = sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    if own.single is None:
        own = Range(_natural(own.low, d.lower), _natural(own.high, d.upper))
    return ends_text(own, lambda value: quantity_text(value, d.unit))


def _natural(end: Bound | None, bound: Bound | None) -> Bound | None:
    """The end, unless it is no more than what the thing measured cannot go beyond."""
    return None if end == bound else end


def lies_text(sheet: Sheet, own: Lying) -> str:
    """How a stated range lies against what is asked, with the part they share or how far they are apart."""
    d = sheet.declaration(own.name)
    assert isinstance(d, NumberDecl)
    if own.relation == "empty":
        return ""
    if own.relation == "apart":
        assert own.distance is not None
        if own.distance == 0:
            return sentence("lies", "beside")
        return sentence("lies", "apart", distance=_distance_text(own, d))
    shared = range_text(sheet, own.name, own.shared) if own.shared else ""
    return sentence("lies", own.relation, shared=shared)


def _distance_text(own: Lying, d: NumberDecl) -> str:
    """The distance, and its share of the end asked for, where there is a zero to count from."""
    assert own.distance is not None
    text = difference_text(own.distance, d.unit)
    ends = [e.value for e in (own.asked.low, own.asked.high) if e is not None]
    others = [s.value for s in (own.stated.low, own.stated.high) if s is not None]
    near = [e for e in ends for s in others if abs(e - s) == own.distance]
    if d.unit.kind.basis == "level" or not near or near[0] == 0:
        return text
    return sentence("lies", "share", distance=text, share=about_text(own.distance / abs(near[0]) * 100))
