"""Ratios and sums of several numbers, their values and their ranges, in words."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.construction import base_construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Sheet
from scopecheck.core.ranges import Range
from scopecheck.core.ties import Sum, Tie, TiedLying, ranges_of_ties
from scopecheck.foundations.quantity import Unit
from scopecheck.report.amounts import (
    about_text,
    difference_text,
    ends_text,
    plain_number,
    quantity_text,
    with_symbol,
)
from scopecheck.report.wording import GLUE, flat, sentence
from scopecheck.solving.evaluate import evaluate_term


def tie_text(tie: Tie) -> str:
    """`length / width`, `resin + salt`."""
    above, below = (_sum_text(part) for part in (tie.above, tie.below))
    if not below:
        return above
    parts = ((above, tie.above), (below, tie.below))
    return " / ".join(f"({text})" if len(part) > 1 else text for text, part in parts)


def _sum_text(part: Sum) -> str:
    told = ""
    for name, factor in part:
        sign = "-" if factor < 0 else "+" if told else ""
        times = "" if abs(factor) == 1 else f"{plain_number(abs(factor))} "
        told += f" {sign} {times}{flat(name)}" if told else f"{sign}{times}{flat(name)}"
    return told


def amount_text(sheet: Sheet, tie: Tie, value: Fraction) -> str:
    """A value of the tie, given in base units: bare of a ratio of like things, else in their units."""
    above, below = (_unit(sheet, part) for part in (tie.above, tie.below))
    if above is None or (below is not None and above.kind == below.kind):
        return plain_number(value)
    if below is not None:
        return with_symbol(value * below.factor / above.factor, f"{above.symbol}/{below.symbol}")
    level = above.kind.basis == "level" and sum(factor for _, factor in tie.above) != 1
    return difference_text(value, above) if level else quantity_text(value, above)


def _distance_text(sheet: Sheet, tie: Tie, value: Fraction) -> str:
    unit = _unit(sheet, tie.above)
    return amount_text(sheet, tie, value) if tie.below or unit is None else difference_text(value, unit)


def _unit(sheet: Sheet, part: Sum) -> Unit | None:
    d = sheet.declaration(part[0][0]) if part else None
    return d.unit if isinstance(d, NumberDecl) else None


def tied_range_text(sheet: Sheet, tie: Tie, own: Range) -> str:
    """`3 to 4`, `above 5`; one value as itself."""
    return ends_text(own, lambda value: amount_text(sheet, tie, value))


def tied_lies_text(sheet: Sheet, own: TiedLying) -> str:
    """How a stated range lies against the one asked, with what they share or how far they are apart."""
    if own.relation == "empty":
        return ""
    if own.distance == 0:
        return sentence("lies", "beside")
    if own.distance is None:
        shared = tied_range_text(sheet, own.tie, own.shared) if own.shared else ""
        return sentence("lies", own.relation, shared=shared)
    text = _distance_text(sheet, own.tie, own.distance)
    ends = [e.value for e in (own.asked.low, own.asked.high) if e is not None]
    others = [e.value for e in (own.stated.low, own.stated.high) if e is not None]
    near = [e for e in ends for s in others if abs(e - s) == own.distance]
    if near and near[0] != 0:
        share = about_text(own.distance / abs(near[0]) * 100)
        text = sentence("lies", "share", distance=text, share=share)
    return sentence("lies", "apart", distance=text)


def ends_had(sheet: Sheet, facts: Formula, article: Article) -> list[str]:
    """The ratios and sums of which the thing has just an end that the facts state, with this value."""
    base, told = base_construction(sheet), []
    for tie, own in ranges_of_ties(facts, base).ranges.items():
        ends = {end.value for end in (own.low, own.high) if end is not None}
        value = evaluate_term(tie.term, article, base) if len(tie.names) > 1 else None
        if value in ends and own.single is None and value is not None:
            told.append(f"{tie_text(tie)}{GLUE}{amount_text(sheet, tie, value)}")
    return told
