"""An exercise as it is set: the claims, what is measured, what is told and what is asked."""

from __future__ import annotations

from scopecheck.core.model import ChoiceDecl, NumberDecl, SetDecl, Sheet
from scopecheck.drill.exercise import Exercise
from scopecheck.report.amounts import plain_degrees
from scopecheck.report.describe import bounds_text
from scopecheck.report.wording import flat, listed, sentence


def lines_of(exercise: Exercise, sheet: Sheet) -> tuple[str, ...]:
    """Everything that is told before the answer: claims first, the question last."""
    stretched = sheet.parameters and exercise.kind != "reword"
    told = [sentence("drill", "told", "stretch")] if stretched else []
    measured = sentence("drill", "told", "measured", names="; ".join(_measured(sheet)))
    labels = [label for c in sheet.claims for label in _labels(c.number, sheet)]
    return (
        *map(plain_degrees, exercise.claims),
        *labels,
        measured,
        *exercise.problem.told,
        *told,
        exercise.problem.asked,
    )


def _labels(claim: int, sheet: Sheet) -> list[str]:
    return [f"  {x.label}  {plain_degrees(flat(x.text))}" for x in sheet.claim(claim).limitations]


def _measured(sheet: Sheet) -> list[str]:
    """What may be asked about: each name with its unit or members, and bounds."""
    found = []
    for d in sheet.declarations:
        match d:
            case NumberDecl():
                unit = plain_degrees(d.unit.symbol) or sentence(
                    "drill", "told", "whole" if d.whole else "plain"
                )
                bounds = bounds_text(d).replace("\u00a0", " ") if d.stated_bounds else ""
                found.append(f"{flat(d.name)} ({', '.join(x for x in (unit, bounds) if x)})")
            case ChoiceDecl(members=members):
                found.append(f"{flat(d.name)} ({listed(map(flat, members), 'or')})")
            case SetDecl(members=members):
                found.append(
                    f"{flat(d.name)} ({sentence('drill', 'told', 'any_of', members=listed(members))})"
                )
    return found
