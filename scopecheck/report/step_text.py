"""Steps of a thing in words: `soaking from 10 min to 25 min`, `rinsing not done`, `opening at 45 min`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TypeAlias

from scopecheck.core.declared import DONE, NOT_DONE, NumberDecl, Step
from scopecheck.core.formula import Value
from scopecheck.core.model import Sheet
from scopecheck.report.amounts import quantity_text
from scopecheck.report.wording import flat, sentence

Told: TypeAlias = tuple[Step | None, tuple[str, ...]]
"""What is told in one breath: a step and those of its names that are to be told, or one other name."""


def told_together(sheet: Sheet, names: Iterable[str], values: Mapping[str, Value]) -> list[Told]:
    """The names in their order, those of when one step is done together where the first of them stands.

    So are those of a quantity of a step that has one value at all its moments.
    """
    found: list[Told] = []
    at: dict[str, int] = {}
    names = tuple(names)
    steady = {name: alike for alike in _steady(sheet, names, values) for name in alike}
    for name in names:
        step = next((s for s in sheet.steps if name in (s.done, s.start, s.duration)), None)
        if name in steady:
            if name == next(n for n in names if n in steady[name]):
                found.append((None, steady[name]))
        elif step is None:
            found.append((None, (name,)))
        elif step.name in at:
            found[at[step.name]] = (step, (*found[at[step.name]][1], name))
        else:
            at[step.name] = len(found)
            found.append((step, (name,)))
    return found


def _steady(sheet: Sheet, names: tuple[str, ...], values: Mapping[str, Value]) -> Iterator[tuple[str, ...]]:
    """The names of each quantity of a step of which all moments are to be told and have one value."""
    for step in sheet.steps:
        for own in step.fields:
            moments = tuple(step.moments(own).values())
            if len(moments) > 1 and set(moments) <= set(names) and len({values.get(n) for n in moments}) == 1:
                yield moments


def whole_steps(sheet: Sheet, told: set[str], stated: set[str]) -> set[str]:
    """What is told, and with a part of when a step is done all of it that is stated."""
    timed = [{s.done, s.start, s.duration} for s in sheet.steps]
    return told.union(*(names & stated for names in timed if names & told))


def step_text(sheet: Sheet, step: Step, names: tuple[str, ...], values: Mapping[str, Value]) -> str:
    """When the step is done, as far as the names say it."""
    return f"{flat(step.name)} {when_text(sheet, step, names, values)}"


def when_text(sheet: Sheet, step: Step, names: tuple[str, ...], values: Mapping[str, Value]) -> str:
    """`from 10 min to 25 min`, `for 15 min`, `from 10 min on`, `done`, `not done`."""
    if values.get(step.done) == NOT_DONE:
        return flat(NOT_DONE)
    begins, lasts = (values.get(n) if n in names else None for n in (step.start, step.duration))
    declared = sheet.declaration(step.start)
    assert isinstance(declared, NumberDecl)
    unit = declared.unit
    if isinstance(begins, Fraction):
        start = quantity_text(begins, unit)
        if isinstance(lasts, Fraction):
            return sentence("step", "from_to", start=start, end=quantity_text(begins + lasts, unit))
        return sentence("step", "from" if step.duration else "at", start=start)
    if isinstance(lasts, Fraction):
        return sentence("step", "for", duration=quantity_text(lasts, unit))
    return flat(DONE)
