"""Of a finding of the usual readings: how the phrases that it turns on are read, and where it is not so."""

from __future__ import annotations

from scopecheck.answers.about import Reread
from scopecheck.answers.findings import EMPTY_CLAIM, Finding, lines_of
from scopecheck.core.construction import base_construction
from scopecheck.core.model import Limitation, Sheet
from scopecheck.report.describe import limitation_labelled, lineage
from scopecheck.report.grouping import BESIDE_MEANT, SILENCE, turning_labels
from scopecheck.report.looked import ENDS
from scopecheck.report.rereadings import only_passes_on, usual_text
from scopecheck.solving.evaluate import meets

IDLE = ("idle", *ENDS)
"""Questions whose answer rests on other lines as well."""
MOST_DECIDING = 3
"""So many phrases of which each decides are told by their readings."""


def usual_readings(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The usual readings of the phrases that the finding turns on; empty where it turns on too many."""
    labels, groups = usual_groups(sheet, finding)
    return tuple(usual_text(sheet, g, labels) for g in groups)


def usual_groups(sheet: Sheet, finding: Finding) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """These phrases, and the lines in which they stand.

    Those that undo it read otherwise, where that is known; else all of the lines that fail or that it is
    about. What is idle rests on how the lines beside it are read, too; what silence alone keeps out, on those
    alone.
    """
    if finding.question == SILENCE:
        return (), ()
    labels = finding.failing or (finding.label,)
    if finding.question in IDLE:
        labels = (finding.label, *lines_of(finding))
    if deciding := dict.fromkeys(r.group for r in finding.otherwise.rereads):
        if finding.question in (*EMPTY_CLAIM, "one value left", "adds nothing"):
            labels = lines_of(finding)
        elif not finding.failing and not limitation_labelled(sheet, finding.label):
            labels = turning_labels(sheet, finding)
        return labels, tuple(deciding) if len(deciding) <= MOST_DECIDING else ()
    groups = dict.fromkeys(
        g for x in _lines(sheet, labels) for g in x.groups if not only_passes_on(sheet, g, x.formula)
    )
    return labels, tuple(groups)


def changes_sides(sheet: Sheet, finding: Finding) -> tuple[Reread, ...]:
    """The readings on which, each alone, the thing shown is met by the lines that keep it out, or is not by
    the line that lets it in; how far one stretches is taken as presumed.

    A listed case is kept in where the other lines with these words are met as well.
    """
    lines = _lines(sheet, finding.failing or (finding.label,))
    lost = finding.question in ("inside lost", "meant lost")
    if finding.witness is None or not lines or not (lost or finding.question in BESIDE_MEANT):
        return ()
    article, base, found = finding.witness.article, base_construction(sheet), []
    listed = finding.question == "inside lost"
    above = [x for n in lineage(sheet, finding.claim) for x in sheet.claim(n).limitations if listed]
    for group in (sheet.groups[g] for g in dict.fromkeys(g for x in lines for g in x.groups)):
        asked = [*lines, *(x for x in above if group.index in x.groups and x not in lines)]
        for i, reading in enumerate(group.readings):
            k = base.with_reading(group.index, i)
            met = i != group.base and all(meets(x.formula, article, k) for x in asked)
            if i != group.base and reading.standing != "strained" and met == lost:
                found.append(Reread(group.index, i))
    return tuple(found)


def _lines(sheet: Sheet, labels: tuple[str, ...]) -> list[Limitation]:
    return [found for label in labels if (found := limitation_labelled(sheet, label))]
