"""The numbers that show a conflict: what a sum comes to by the other lines, and what one line asks of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from scopecheck.answers.findings import (
    Finding,
    because,
    lines_of,
)
from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Bound
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.ranges import Range, shared
from scopecheck.core.ties import Tie, mirrored, ranges_of_ties
from scopecheck.report.amounts import ends_text, plain_number, quantity_text
from scopecheck.report.describe import limitation_labelled
from scopecheck.report.ties import amount_text, tie_text
from scopecheck.report.wording import GLUE, flat, sentence

MOST_BARE = 3
"""So many parts of a sum are told by their values alone, in its order."""


def numbers_text(sheet: Sheet, finding: Finding) -> str:
    """`As usually read, diameter + gap comes to 5 mm or more (2 mm + 3 mm); ...`; '' where no sum of
    numbers that the other lines limit one by one shows the conflict."""
    k = finding.construction or base_construction(sheet)
    sets = because(finding).sets
    labels = sets[0] if sets else lines_of(finding)
    lines = [x for label in labels if (x := limitation_labelled(sheet, label))]
    for line in lines:
        for tie, asked in ranges_of_ties(line.formula, k).ranges.items():
            if not tie.below and asked.high is not None and asked.high.value <= 0:
                tie, asked = tie.mirrored, mirrored(asked)
            if all(factor < 0 for _, factor in tie.above) and not tie.below:
                tie, asked = tie.mirrored, mirrored(asked)
            own = _limited(sheet, [x for x in lines if x is not line], k)
            comes = _comes_to(tie, own) if len(tie.names) > 1 and not tie.below else Range()
            key = "numbers_so" if finding.quantifier == "some" else "numbers_usual"
            if told := _told(sheet, tie, own, (asked, comes)):
                return sentence("conflict", key, line=line.label, **told)
    return ""


def _limited(sheet: Sheet, lines: Sequence[Limitation], k: Construction) -> Mapping[str, Range]:
    """The range of each number by itself, by the lines and its bounds."""
    found: dict[str, Range] = {}
    for d in sheet.declarations:
        if isinstance(d, NumberDecl):
            found[d.name] = Range(d.lower, d.upper)
    for tie, own in ranges_of_ties(All(tuple(x.formula for x in lines)), k).ranges.items():
        if tie.names == {name := tie.above[0][0]} and not tie.below:
            found[name] = shared(found[name], own)
    return found


def _ends(tie: Tie, own: Mapping[str, Range], upper: bool) -> list[tuple[Fraction, Bound | None]]:
    """For each number of a sum its factor and the end that makes the sum least, or greatest."""
    return [(f, own[name].high if (f > 0) == upper else own[name].low) for name, f in tie.above]


def _comes_to(tie: Tie, own: Mapping[str, Range]) -> Range:
    def end(upper: bool) -> Bound | None:
        value, closed = Fraction(0), True
        for factor, bound in _ends(tie, own, upper):
            if bound is None:
                return None
            value, closed = value + factor * bound.value, closed and bound.closed
        return Bound(value, closed)

    return Range(end(False), end(True))


def _told(sheet: Sheet, tie: Tie, own: Mapping[str, Range], ranges: tuple[Range, Range]) -> dict[str, str]:
    """The sum, what it comes to, of which parts, and what the line asks for; nothing if they agree."""
    asked, comes = ranges
    for upper in (False, True):
        far = comes.high if upper else comes.low
        limit = asked.low if upper else asked.high
        side = Range(high=far) if upper else Range(low=far)
        against = Range(low=limit) if upper else Range(high=limit)
        if far is None or limit is None or not shared(side, against).empty:
            continue
        return {
            "sum": tie_text(tie),
            "comes": ends_text(side, lambda value: amount_text(sheet, tie, value)),
            "parts": _parts_text(sheet, tie, own, upper),
            "asked": ends_text(against, lambda value: amount_text(sheet, tie, value)),
        }
    return {}


def _parts_text(sheet: Sheet, tie: Tie, own: Mapping[str, Range], upper: bool) -> str:
    """`2 mm + 3 mm`; of many, those that are not 0, by name: `water 1 wt%`."""
    told, named = "", len(tie.above) > MOST_BARE
    for (name, factor), (_, bound) in zip(tie.above, _ends(tie, own, upper), strict=True):
        d = sheet.declaration(name)
        assert bound is not None
        assert isinstance(d, NumberDecl)
        sign = "-" if factor < 0 else "+" if told else ""
        times = "" if abs(factor) == 1 else f"{plain_number(abs(factor))} × "
        text = f"{times}{quantity_text(bound.value, d.unit)}"
        if named and bound.value == 0:
            continue
        text = f"{flat(name)}{GLUE}{text}" if named else text
        told += f" {sign} {text}" if told else f"{sign}{text}"
    return told
