"""Cases that no choice of readings sorts: which of them clash, and in which lines."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.refine import Demand, some_construction
from scopecheck.core.formula import All, Formula, any_of
from scopecheck.core.model import Case
from scopecheck.foundations.record import record, replace
from scopecheck.solving.constraints import Undecided


@record
class Sided:
    """That a case lies on its own side of a claim (by number) or of a limitation (by label)."""

    case: Case
    place: int | str
    demand: Demand


@record
class Clash:
    """Cases that clash, none of which can be left out, and the labels of the lines that lose those inside."""

    sided: tuple[Sided, ...]
    labels: tuple[str, ...]


def clashing(prepared: Prepared, sided: Sequence[Sided]) -> Clash:
    """A least part of what no construction fulfils, found by leaving out one case after the other.

    The last in the sheet is tried first, so that the first ones stay; then likewise the lines that the inside
    cases are asked to meet (a thing outside is met by all lines together). What cannot be decided stays.
    """
    kept = list(sided)
    for one in reversed(sided):
        rest = [s for s in kept if s is not one]
        if _clash(prepared, rest, frozenset()):
            kept = rest
    inside = [s for s in kept if s.case.role == "inside"]
    labels = list(dict.fromkeys(label for s in inside for label in _labels(prepared, s.place)))
    dropped: frozenset[str] = frozenset()
    for label in reversed(labels):
        if _clash(prepared, kept, dropped | {label}):
            dropped |= {label}
    return Clash(tuple(kept), tuple(label for label in labels if label not in dropped))


def _clash(prepared: Prepared, sided: Sequence[Sided], dropped: frozenset[str]) -> bool:
    """Does no construction sort these cases, if those inside need not meet the dropped lines?"""
    demands = [
        replace(s.demand, formula=_scope_without(prepared, s.place, dropped))
        if dropped and s.case.role == "inside"
        else s.demand
        for s in sided
    ]
    try:
        return not some_construction(prepared.session, demands)
    except Undecided:
        return False


def _labels(prepared: Prepared, place: int | str) -> tuple[str, ...]:
    return (place,) if isinstance(place, str) else tuple(x.label for x in prepared.limitations(place))


def _scope_without(prepared: Prepared, place: int | str, dropped: frozenset[str]) -> Formula:
    if isinstance(place, str):
        return All(() if place in dropped else (prepared.limitation(place).formula,))
    chains = (i.limitations for i in prepared.instances[place])
    scopes = tuple(All(tuple(x.formula for x in chain if x.label not in dropped)) for chain in chains)
    return any_of(scopes)
