"""What a listed case speaks of, how much of it is met, and whether all cases come out right at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress

from scopecheck.answers.about import Cases, Reread
from scopecheck.answers.findings import Finding, Looked, Quantifier, Status, Statuses
from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.questions.clash import Clash, Sided, clashing
from scopecheck.answers.questions.prepared import Prepared, at_claim, at_limitation
from scopecheck.answers.refine import Demand, Wanted, find_construction, some_construction
from scopecheck.core.construction import Construction
from scopecheck.core.formula import All, Formula
from scopecheck.core.model import Case, FreeParameter, Limitation
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.ends import Extremum, greatest_stretch, least_stretch
from scopecheck.solving.solver import Search

Answer = Finding | Looked


def targets(prepared: Prepared, case: Case) -> list[int | str]:
    """The claims and limitations a case speaks of.

    These are its own targets as far as they are restated, else every independent claim that recites
    something the case states, or another ingredient of a composition of which the case states one; of
    documents a claim of another category too, where its own lines do.
    """
    if not case.targets:
        session, stated = prepared.session, prepared.sheet.with_whole_compositions(case.stated)
        found: list[int | str] = []
        for claim in prepared.sheet.claims:
            own = session.names_in(*(x.formula for x in claim.limitations))
            spoken = own if claim.parents else session.names_in(prepared.scope(claim.number))
            other = claim.other_category and case.role == "document"
            if (not claim.parents or other) and spoken & stated:
                found.append(claim.number)
        return found
    named = [int(t) if t.isdigit() else t for t in case.targets]
    return [t for t in named if isinstance(t, str) or t in prepared.sheet.restated]


def scope_at(prepared: Prepared, place: int | str) -> tuple[Formula, tuple[Limitation, ...]]:
    if isinstance(place, int):
        return prepared.scope(place), prepared.limitations(place)
    limitation = prepared.limitation(place)
    return All((limitation.formula,)), (limitation,)


def finding_at(prepared: Prepared, question: str, stakes: int, place: int | str, case: Case) -> Finding:
    if isinstance(place, int):
        found = at_claim(question, stakes, prepared.sheet.claim(place))
    else:
        found = at_limitation(question, stakes, prepared.limitation(place))
    return replace(found, case=case.name)


def with_status(prepared: Prepared, finding: Finding, case: Case, scope: Formula, free_of: bool) -> Finding:
    """Adds at the base, lowest and highest status of a case of which something is met somewhere."""
    session = prepared.session
    base = status_at(prepared, case.facts, scope, session.base)
    if free_of:
        lowest: Status = "none"
    else:
        partly = session.search(session.groups_in(case.facts, scope))
        partly.require(session.met(case.facts), ~session.met(scope))
        lowest = "some" if partly.holds() else "every"
    whole = some_construction(session, [Demand(case.facts, scope, "every")])
    highest: Status = "every" if whole else "some"
    quantifier: Quantifier = "some" if base == "none" else "base"
    if not free_of:
        quantifier = "every"
    return replace(finding, quantifier=quantifier, status=Statuses(lowest, base, highest))


def status_at(prepared: Prepared, region: Formula, scope: Formula, k: Construction) -> Status:
    """How much of a region is met under one construction."""
    session = prepared.session
    search = session.search(())
    search.require(session.met(region, k))
    if not search.holds(session.met(scope, k)):
        return "none"
    return "some" if search.holds(~session.met(scope, k)) else "every"


# ---- all cases at once


def reading_for_all(prepared: Prepared) -> Iterator[Finding]:
    """Is there one construction on which every inside case is met and every outside case is not?"""
    sided = []
    for case in prepared.sheet.cases:
        for place in targets(prepared, case) if case.role in ("inside", "outside") else []:
            scope, _ = scope_at(prepared, place)
            demand = Demand(case.facts, scope, _wanted(prepared, case), prepared.point(case, scope))
            sided.append(Sided(case, place, demand))
    listed = [case for case in prepared.sheet.cases if case.role in ("inside", "outside")]
    if {case.role for case in listed} != {"inside", "outside"} or not prepared.sheet.restated:
        return
    session = prepared.session
    demands = [s.demand for s in sided]
    refined = find_construction(session, demands)
    claim = prepared.sheet.claims[0]
    if refined.construction is None:
        yield _no_reading(prepared, clashing(prepared, sided))
        return
    compared = {id(s.case) for s in sided}
    if any(case.targets and id(case) not in compared for case in listed):
        return  # nothing is restated of what it is listed for, and so nothing can be said of all of them
    groups = session.groups_in(*(f for d in demands for f in (d.region, d.formula)))
    told = prepared.told_refined(at_claim("one reading fits all cases", 6, claim), refined, groups)
    told = replace(_between(prepared, demands, groups, told), about=Cases(_left_open(prepared, sided)))
    yield replace(told, quantifier="base" if not told.rereads and not told.read_as else "some")


def _left_open(prepared: Prepared, sided: Sequence[Sided]) -> tuple[str, ...]:
    """The inside cases that, as presumed, are met or not with what they say nothing of."""
    base = prepared.session.base
    asked = (s for s in sided if s.demand.wanted == "some" and s.demand.article is None)
    left = (s for s in asked if status_at(prepared, s.demand.region, s.demand.formula, base) == "some")
    return tuple(dict.fromkeys(s.case.name for s in left))


def _wanted(prepared: Prepared, case: Case) -> Wanted:
    """Of an inside case that states single values: that it may be met, whatever it leaves unsaid."""
    if case.role != "inside":
        return "none"
    return "some" if states_single_values(prepared, case) else "every"


def states_single_values(prepared: Prepared, case: Case) -> bool:
    """Is each name that the case speaks of given one value? What it says nothing of may be anything."""
    exact = stated_values(prepared.sheet, case, exact=True)
    open_names = set(case.stated) - prepared.sheet.absent(exact) - exact.keys()
    if not open_names or case.groups:
        return not open_names
    session = prepared.session
    search = session.search(())
    search.require(session.met(case.facts, session.base))
    if not search.find():
        return False
    article = search.article()
    return not any(search.holds(~session.equals(name, article[name])) for name in sorted(open_names))


def _no_reading(prepared: Prepared, clash: Clash) -> Finding:
    """The finding that names what clashes.

    It leans on no bound and no given fact: without one there would be more things, and so more to sort.
    """
    place = clash.sided[0].place
    number = place if isinstance(place, int) else prepared.limitation(place).claim
    limitations = [x for claim in prepared.sheet.claims for x in claim.limitations]
    return replace(
        at_claim("no reading fits all cases", 1, prepared.sheet.claim(number)),
        quantifier="every",
        about=Cases(tuple(dict.fromkeys(s.case.name for s in clash.sided)), clash.labels),
        rests_on=prepared.settled_in(limitations, clash.labels),
    )


def _between(
    prepared: Prepared, demands: Sequence[Demand], groups: tuple[int, ...], told: Finding
) -> Finding:
    """The finding with both ends of each stretch it takes: too wide a one lets in what must stay out.

    Where some case is more than one thing, only the stretch that was found to fit is told.
    """
    k = told.construction
    assert k is not None
    rereads = []
    for reread in told.rereads:
        own = [p for p in prepared.sheet.parameters if (p.group, p.reading) == (reread.group, reread.reading)]
        points: list[BreakPoint] = []
        for p in (p for p in own if k.parameter(p.key) != p.presumed):
            value = k.parameter(p.key)
            points.append(BreakPoint(p.key, Extremum(value, True), value > p.presumed, only=True))
            if all(d.article is not None for d in demands):
                with suppress(Undecided):  # that some stretch fits stands, how far others do is left untold
                    points[-1:] = _ends_of(prepared, demands, groups, k, p)
        rereads.append(replace(reread, breaks=tuple(points)))
    return replace(told, rereads=tuple(rereads))


def _ends_of(
    prepared: Prepared, demands: Sequence[Demand], groups: tuple[int, ...], k: Construction, p: FreeParameter
) -> list[BreakPoint]:
    """Least and greatest stretch on which every demand on one thing is fulfilled, all else as in `k`."""
    session = prepared.session
    search = session.search(groups, things=False)
    search.require(*(session.reads(g, k.readings[g]) for g in groups))
    others = [q for q in prepared.sheet.parameters if q.group in groups and q.key != p.key]
    search.require(*(session.stretches(q.key, k.parameter(q.key)) for q in others))
    for d in demands:
        assert d.article is not None
        met = session.met_by(d.formula, d.article)
        search.require(~met if d.wanted == "none" else met)
    least, greatest = least_stretch(search, p.key), greatest_stretch(search, p.key)
    ends = [(least, True), (greatest, False)]
    return [BreakPoint(p.key, end, upward) for end, upward in ends if end is not None]


# ---- classes


def class_status(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """How a class of things lies against each claim: none, some or all of it met."""
    for place in targets(prepared, case):
        scope, _ = scope_at(prepared, place)
        finding = finding_at(prepared, "class", 6, place, case)
        session = prepared.session
        search = session.search(session.groups_in(case.facts, scope))
        search.require(session.met(case.facts), session.met(scope))
        if not search.holds():
            yield replace(finding, quantifier="every", status=Statuses("none", "none", "none"))
            continue
        free_of = some_construction(session, [Demand(case.facts, scope, "none")])
        yield with_status(prepared, finding, case, scope, free_of)


def prefer_rest_met(prepared: Prepared, label: str, search: Search, formulas: tuple[Formula, ...]) -> None:
    """Of what is asked of one limitation: first look where the rest of the claim is met, as presumed."""
    session = prepared.session
    limitation = prepared.limitation(label)
    rest = [x.formula for x in prepared.limitations(limitation.claim) if x.label != label]
    inside = set(session.groups_in(*formulas))
    met = [session.met(f, None if set(session.groups_in(f)) <= inside else session.base) for f in rest]
    if search.holds(*met):
        search.require(*met)


def one_reread(
    prepared: Prepared, groups: tuple[int, ...], *formulas: Formula
) -> Iterator[tuple[Reread, Construction]]:
    """The base with one phrase read otherwise, for each phrase and each reading with a meaning of its own."""
    session = prepared.session
    for g in groups:
        for r in session.readings_of(g, *formulas):
            if r != session.base.readings[g]:
                yield Reread(g, r), session.base.with_reading(g, r)
