"""Definitions beside ordinary readings: which of them is the broader, and what rests on them.

In the EPO profile a broad definition governs and a narrowing one stands beside the ordinary readings, which
stay in both cases. Which is which is asked of things, at every limitation where the words stand.
"""

from __future__ import annotations

from collections.abc import Iterable

from scopecheck.answers.findings import Finding, lines_of, step_of
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.formula import Formula
from scopecheck.core.grounds import Ground, SettledWords
from scopecheck.core.model import STANDINGS, Breadth, Definition, Group, Limitation, Sheet
from scopecheck.core.rewrite import read_as
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.solver import Session


def weighed(sheet: Sheet, budget: Budget | None = None) -> Sheet:
    """The sheet with the standing of every definition that ordinary readings stand beside.

    Where it is broader than the presumed ordinary reading, or as broad, at every place, it is presumed and
    the others are arguable; else, and where that is not decided, it is arguable and they keep their standing.
    """
    waiting = [g for g in sheet.groups if g.definition and not g.definition.breadth and len(g.readings) > 1]
    if not waiting:
        return sheet
    session = Session(sheet, budget)
    made = {g.index: _weighed(sheet, session, g, g.definition) for g in waiting if g.definition}
    return replace(sheet, groups=tuple(made.get(g.index, g) for g in sheet.groups))


def _weighed(sheet: Sheet, session: Session, group: Group, definition: Definition) -> Group:
    limitations = {x.label: x for claim in sheet.claims for x in claim.limitations}
    breadth = tuple(
        (where, _breadth(sheet, session, group, definition.reading, limitations[where]))
        for where in dict.fromkeys(place.where for place in group.places)
    )
    found = replace(group, definition=replace(definition, breadth=breadth))
    if not all(width in ("broader", "same") for _, width in breadth):
        return found
    readings = tuple(
        replace(r, standing="presumed")
        if index == definition.reading
        else replace(r, standing="arguable" if r.standing == "presumed" else r.standing)
        for index, r in enumerate(group.readings)
    )
    return replace(found, readings=readings, base=definition.reading)


def _breadth(sheet: Sheet, session: Session, group: Group, reading: int, limitation: Limitation) -> Breadth:
    """How wide the limitation is as defined, beside its ordinary readings of best standing, as presumed."""
    presumed = {p.key: p.presumed for p in sheet.parameters if p.group == group.index}

    def meaning(index: int) -> Formula:
        return read_as(limitation.formula, group.index, index, presumed)

    others = [r.standing for index, r in enumerate(group.readings) if index != reading]
    usual = min(others, key=STANDINGS.index)
    own = meaning(reading)
    wider = narrower = False
    try:
        for index, other in enumerate(group.readings):
            if index != reading and other.standing == usual:
                ordinary = meaning(index)
                search = session.search(session.groups_in(own, ordinary))
                wider = wider or search.holds(session.met(own) & ~session.met(ordinary))
                narrower = narrower or search.holds(~session.met(own) & session.met(ordinary))
    except Undecided:
        return "not compared"
    if wider:
        return "crossing" if narrower else "broader"
    return "narrower" if narrower else "same"


# ---- what rests on them


def resting(prepared: Prepared, findings: Iterable[Finding]) -> list[Finding]:
    """The findings, each with the definitions by which it reads the words that it is about."""
    if not any(g.definition for g in prepared.sheet.groups):
        return list(findings)
    return [replace(f, rests_on=_with_definitions(prepared, f)) for f in findings]


def _with_definitions(prepared: Prepared, finding: Finding) -> tuple[Ground, ...]:
    found = list(finding.rests_on)
    for g in _groups(prepared, finding):
        definition = prepared.sheet.groups[g].definition
        if definition is None:
            continue
        k = finding.construction
        used = k is not None and k.readings[g] == definition.reading
        alone = len(prepared.sheet.groups[g].readings) == 1
        if used or alone or (g, definition.reading) in (step_of(finding), *finding.others):
            found.append(SettledWords(definition.text, definition.place))
    return tuple(dict.fromkeys(found))


def _groups(prepared: Prepared, finding: Finding) -> tuple[int, ...]:
    """The groups of the limitations that a finding is about; of a statement that nothing is wrong, none."""
    labels = finding.failing or lines_of(finding) or (finding.label,)
    every = [x for claim in prepared.sheet.claims for x in claim.limitations]
    about = [x for x in every if x.label in labels]
    if not about and finding.stakes < 6 and finding.claim:
        about = list(prepared.limitations(finding.claim))
    return prepared.session.groups_in(*(x.formula for x in about))
