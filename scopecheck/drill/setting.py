"""An exercise as it is set: the claims, what is measured, what is told and what is asked."""

from __future__ import annotations

from typing import assert_never

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.model import Sheet
from scopecheck.drill.bench import Bench, member_text
from scopecheck.drill.exercise import Exercise
from scopecheck.report.amounts import plain_degrees
from scopecheck.report.describe import bounds_text
from scopecheck.report.wording import flat, listed, sentence


def lines_of(exercise: Exercise, bench: Bench) -> tuple[str, ...]:
    """Everything that is told before the answer: claims first, the question last."""
    sheet, limitations = bench.sheet, bench.limitations(exercise.problem.aim.claim)
    groups = {g for x in limitations for g in x.groups}
    stretched = any(p.group in groups for p in sheet.parameters) and exercise.kind != "reword"
    told = [sentence("drill", "told", "stretch")] if stretched else []
    spoken = bench.names(*(x.formula for x in limitations))
    names = "; ".join(_measured(sheet, name) for name in spoken)
    return (
        *map(plain_degrees, exercise.claims),
        *(f"  {x.label}  {plain_degrees(flat(x.text))}" for x in limitations),
        sentence("drill", "told", "measured", names=names),
        *exercise.problem.told,
        *told,
        exercise.problem.asked,
    )


def _measured(sheet: Sheet, name: str) -> str:
    """What may be asked about: a name with its unit or members, and the bounds that the sheet states."""
    d = sheet.declaration(name)
    match d:
        case NumberDecl():
            bare = sentence("drill", "told", "whole" if d.whole else "plain")
            unit = plain_degrees(d.unit.symbol) or bare
            bounds = bounds_text(d).replace("\u00a0", " ") if d.stated_bounds else ""
            return f"{flat(d.name)} ({', '.join(x for x in (unit, bounds) if x)})"
        case ChoiceDecl(members=members):
            return f"{flat(d.name)} ({listed(map(member_text, members), 'or')})"
        case SetDecl(members=members):
            listed_members = listed(map(member_text, members))
            any_of = sentence("drill", "told", "any_of", members=listed_members)
            return f"{flat(d.name)} ({any_of})"
        case _:
            assert_never(d)
