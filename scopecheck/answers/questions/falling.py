"""On which readings a set of limitations no longer keeps a case out: a phrase by itself, or else several."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.answers.about import Fall, Reread
from scopecheck.answers.findings import Finding
from scopecheck.answers.minimise import settle_construction
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.formula import All, Article, Formula
from scopecheck.core.model import Case, Limitation
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.solver import Search


def falling(
    prepared: Prepared, case: Case, stated: Article, limitations: Sequence[Limitation], finding: Finding
) -> Fall:
    """Whether something of the case meets all the limitations on some construction, and on which.

    Nothing of the case meets them in the base. `stated` is what the case states in full; `finding` is any
    finding about the case. First each phrase by itself, all else as in the base; only where no phrase does it
    alone, the construction of least rank.
    """
    session, labels = prepared.session, tuple(x.label for x in limitations)
    scope = All(tuple(x.formula for x in limitations))
    try:
        if session.names_in(scope) <= stated.keys():
            search = session.search(session.groups_in(scope), things=False)
            search.require(session.met_by(scope, stated))
        else:
            search = session.search(session.groups_in(case.facts, scope))
            search.require(session.met(case.facts), session.met(scope))
        if not search.holds():
            return Fall(labels)
        single = tuple(r for g in search.groups for r in _alone(prepared, search, g, scope))
        if single:
            return Fall(labels, single)
        told = prepared.told_by(finding, search, search.groups)
        return Fall(labels, (), told.rereads + told.read_as)
    except Undecided:
        return Fall(labels, decided=False)


def _alone(prepared: Prepared, search: Search, group: int, scope: Formula) -> list[Reread]:
    """The readings of one phrase, and its stretches, on which the search holds, all else as in the base."""
    session, sheet = prepared.session, prepared.sheet
    found: list[Reread] = []
    with search.aside():
        search.require(*session.taken(session.base, (g for g in search.groups if g != group)))
        if not search.holds():
            return found
        for r in session.readings_of(group, scope):
            own = [p for p in sheet.parameters if (p.group, p.reading) == (group, r)]
            presumed = session.taken(session.base.with_reading(group, r), (group,))
            if not any(p.unknown for p in own) and search.holds(*presumed):
                found.append(Reread(group, r))
            elif own and search.holds(session.reads(group, r)):
                with search.aside():
                    search.require(session.reads(group, r))
                    found.append(Reread(group, r, settle_construction(session, search, search.groups).breaks))
    return found
