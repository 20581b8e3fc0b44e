"""Why a value of a claim goes no further: the lines that keep it there, and the reading that goes far."""

from __future__ import annotations

from contextlib import suppress

from scopecheck.answers.about import Reread
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, at_claim
from scopecheck.core.construction import Construction
from scopecheck.core.formula import Compare, Const, Divide, Formula
from scopecheck.core.grounds import Ground, Line, grounds_of, lines_of
from scopecheck.core.model import Limitation
from scopecheck.core.written_ends import WrittenEnd
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.ends import Extremum, infimum, supremum

MOST_TRIES = 6
"""Readings looked at, each going further than the one before."""


def ruling_out(
    prepared: Prepared, instance: Instance, label: str, asked: Formula, at: Construction | None
) -> tuple[tuple[str, ...], tuple[Ground, ...]]:
    """A least part of the claim's lines, and of the bounds and given facts, beside which `asked` cannot be.

    The line of this label is left out last: where it does so alone, it is all that is told.
    """
    session = prepared.session
    formulas = [x.formula for x in instance.limitations]
    search = session.search(session.groups_in(*formulas) if at is None else (), things=False)
    search.require(session.met(asked, at))
    ordered: list[Limitation] = sorted(instance.limitations, key=lambda x: x.label == label)
    causes = session.grounds(prepared.relevant(asked, *formulas))
    causes += ((Line(x.label), session.met(x.formula, at)) for x in ordered)
    found = search.conflict(causes) or ()
    return lines_of(found), grounds_of(found)


def farthest(
    prepared: Prepared, instance: Instance, stated: WrittenEnd, usual: Extremum, end: Extremum
) -> tuple[Reread, ...]:
    """The least departures on which the term goes as far as `end`, not only to `usual`; () if not found.

    How far a reading among them has to stretch is not told.
    """
    session, scope, term, upper = prepared.session, instance.scope, stated.term, stated.upper
    groups, reach = session.groups_in(scope), supremum if stated.upper else infimum
    if isinstance(term, Divide):
        return ()
    best = usual.value
    with suppress(Undecided):
        for _ in range(MOST_TRIES):
            search = session.search(groups)
            further = Compare(">" if upper else "<", term, Const(best))
            there = Compare("=", term, Const(end.value)) if end.closed else further
            search.require(session.met(scope), session.met(stated.given), session.met(there))
            if not search.holds():
                return ()
            found = prepared.told_by(at_claim("end not reached", 4, instance.claim), search, groups)
            k = found.construction
            assert k is not None
            so_read = session.search(groups)
            so_read.require(session.met(scope), session.met(stated.given))
            so_read.require(*(session.reads(g, k.readings[g]) for g in groups))
            own = reach(so_read, term)
            if own == end:
                return tuple(replace(r, breaks=()) for r in (*found.rereads, *found.read_as))
            if own is None or own.value == best:
                return ()
            best = own.value
    return ()
