"""Every way in which re-reading brings something about: each phrase alone, then phrases together."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, admissible_readings
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Constraint, all_of, any_of
from scopecheck.solving.solver import Search

MOST_TOGETHER = 3
"""Sets of phrases that do something only together are told so far; single phrases are told all."""

Step = tuple[int, int]
"""A group and the reading it is taken by."""


def ways_of(
    prepared: Prepared,
    finding: Finding,
    groups: Sequence[int],
    make: Callable[[], Search],
    show: Callable[[Search], Finding],
) -> Iterator[Finding]:
    """What a search shows: once where it needs no re-reading, else once for each way of re-reading."""
    if finding.quantifier == "some":
        yield from each_way(prepared, groups, make, show)
    else:
        yield show(_held(make()))


def _held(search: Search) -> Search:
    """The search with something found."""
    assert search.holds()
    return search


def each_way(
    prepared: Prepared, groups: Sequence[int], make: Callable[[], Search], show: Callable[[Search], Finding]
) -> Iterator[Finding]:
    """Once for each least set of phrases that have to be re-read.

    `make` gives the search afresh; nothing meets it in the base. Other readings of the same phrases that do
    the same are told with each finding. Where more sets of several phrases are left untold, the last one told
    says so.
    """
    session = prepared.session
    changed = {g: ~all_of(session.taken(session.base, (g,))) for g in groups}
    ruled_out: list[Constraint] = []
    together = 0
    while True:
        search = make()
        search.require(*ruled_out)
        if not search.holds():
            return
        shown = show(search)
        assert shown.construction is not None
        k = shown.construction
        moved = [g for g in groups if _moved(prepared, k, g)]
        others = _same_effect(prepared, groups, moved, make(), k)
        if len(moved) == 1:
            readings = [k.readings[moved[0]], *(r for _, r in others)]
            ruled_out += [~(session.reads(moved[0], r) & changed[moved[0]]) for r in readings]
            yield replace(shown, others=others)
            continue
        ruled_out.append(any_of(~changed[g] for g in moved))
        together += 1
        left = False
        if together == MOST_TOGETHER:
            rest = make()
            rest.require(*ruled_out)
            ruled_out.append(session.at_most_of(list(changed.values()), 1))
            left = rest.holds(~ruled_out[-1])
        yield replace(shown, others=others, more=left)


def _moved(prepared: Prepared, k: Construction, group: int) -> bool:
    """Is the group read, or the reading it takes stretched, otherwise than in the base?"""
    base = prepared.session.base
    if k.readings[group] != base.readings[group]:
        return True
    stretches = [p for p in prepared.sheet.parameters if (p.group, p.reading) == (group, k.readings[group])]
    return any(k.parameter(p.key) != p.presumed for p in stretches)


def _same_effect(
    prepared: Prepared, groups: Sequence[int], moved: Sequence[int], search: Search, k: Construction
) -> tuple[Step, ...]:
    """Other readings of one of the groups moved that do the same, all else as in the construction.

    Beside several groups moved, none that does it alone: of those it is told by themselves.
    """
    session = prepared.session
    found: list[Step] = []
    for g in moved:
        rest, usual = (
            [c for h in groups if h != g for c in session.taken(taken, (h,))] for taken in (k, session.base)
        )
        told = (k.readings[g], session.base.readings[g])
        for r in admissible_readings(prepared.sheet.groups[g], session.strained):
            reads = session.reads(g, r)
            if r not in told and search.holds(reads, *rest):
                alone = len(moved) > 1 and search.holds(reads, *usual)
                found += [] if alone else [(g, r)]
    return tuple(found)
