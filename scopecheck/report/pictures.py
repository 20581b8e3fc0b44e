"""The number line of an item: one quantity, one limitation, every reading of the phrase re-read."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.answers.findings import Finding
from scopecheck.core.construction import (
    admissible_readings,
    base_construction,
    groups_in,
    names_in,
    nodes,
    options_by_group,
    own_meanings,
    unknown_thresholds,
)
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Formula, Read, Rounded
from scopecheck.core.model import Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.report.boundary import number_line
from scopecheck.report.describe import limitation_labelled
from scopecheck.report.grouping import departures, turning_labels
from scopecheck.report.lines import NumberLine
from scopecheck.report.rereadings import only_passes_on, presumed_stretch, usual_text
from scopecheck.report.turning import NotShown
from scopecheck.report.wording import flat

MOST_ROWS = 6


def picture_for(sheet: Sheet, finding: Finding) -> NumberLine | None:
    """The readings of the only phrase re-read over the only quantity of its only limitation; else None.

    The rest is read as usual. Counts, stretched phrases and limitations that bind several quantities are told
    in words only.
    """
    moved, labels = departures(finding), turning_labels(sheet, finding)
    if len(moved) != 1 or len(labels) != 1 or moved[0].breaks:
        return None
    limitation = limitation_labelled(sheet, labels[0])
    names = names_in(limitation.formula) if limitation else frozenset()
    if limitation is None or len(names) != 1 or moved[0].group not in limitation.groups:
        return None
    d = sheet.declaration(min(names))
    group = sheet.groups[moved[0].group]
    unknown = unknown_thresholds(sheet, group.index)
    admitted = (r for r in admissible_readings(group) if r not in unknown)
    places = options_by_group(limitation.formula)[group.index]
    shown = sorted(own_meanings(places, (moved[0].reading, *admitted)))
    if not isinstance(d, NumberDecl) or d.whole or len(shown) > MOST_ROWS:
        return None
    base = base_construction(sheet)
    rows = [(flat(group.readings[r].label), base.with_reading(group.index, r)) for r in shown]
    marks = [
        (case.name, value)
        for case in sheet.cases
        if case.name == finding.case and isinstance(value := stated_values(sheet, case).get(d.name), Fraction)
    ]
    stretched = [
        (flat(group.readings[p.reading].label), presumed_stretch(sheet, p))
        for p in sheet.parameters
        if p.group == group.index and p.reading in shown
    ]
    try:
        line = number_line(limitation.formula, d, rows, marks=marks)
    except NotShown:
        return None
    if len({stretches for _, stretches in line.rows}) < 2:
        return None  # with the rest as usual the readings part nowhere
    formula = limitation.formula
    rest = (g for g in groups_in(formula) if g != group.index and not only_passes_on(sheet, g, formula))
    told = (usual_text(sheet, g, labels) for g in rest if _rounds(limitation.formula, g, base.readings[g]))
    return replace(line, stretched=tuple(stretched), rest=tuple(told))


def _rounds(formula: Formula, group: int, reading: int) -> bool:
    """Does the group, so read, speak of what rounds to a number?"""
    read = (n.options[reading] for n in nodes(formula) if isinstance(n, Read) and n.group == group)
    return any(isinstance(n, Rounded) for option in read for n in nodes(option))
