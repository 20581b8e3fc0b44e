"""What the listed cases ask: is an outside thing met, is an inside one lost, do all fit at once?"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.findings import Finding, Looked, Quantifier, Reread, Status
from scopecheck.answers.questions.clash import Clash, Sided, clashing
from scopecheck.answers.questions.prepared import Prepared, at_claim, at_limitation
from scopecheck.answers.refine import Demand, Wanted, find_construction
from scopecheck.core.construction import Construction
from scopecheck.core.model import All, Article, Case, Formula, Limitation, NumberDecl
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Constraint, Search

Answer = Finding | Looked


def outside_met(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """Is something of a case that must stay out met? On which readings; on every one?"""
    for place in targets(prepared, case):
        yield from _outside_at(prepared, case, place)


def targets(prepared: Prepared, case: Case) -> list[int | str]:
    """The claims and limitations a case speaks of.

    These are its own targets, else every independent claim that recites something the case states.
    """
    if not case.targets:
        session, stated = prepared.session, set(case.stated)
        return [n for n in prepared.independent() if session.names_in(prepared.scope(n)) & stated]
    return [int(t) if t.isdigit() else t for t in case.targets]


def _scope_at(prepared: Prepared, place: int | str) -> tuple[Formula, tuple[Limitation, ...]]:
    if isinstance(place, int):
        return prepared.scope(place), prepared.limitations(place)
    limitation = prepared.limitation(place)
    return All((limitation.formula,)), (limitation,)


def _finding_at(prepared: Prepared, question: str, stakes: int, place: int | str, case: Case) -> Finding:
    if isinstance(place, int):
        found = at_claim(question, stakes, prepared.sheet.claim(place))
    else:
        found = at_limitation(question, stakes, prepared.limitation(place))
    return replace(found, case=case.name)


def _outside_at(prepared: Prepared, case: Case, place: int | str) -> Iterator[Answer]:
    session = prepared.session
    question = "document met" if case.role == "document" else "outside met"
    scope, _ = _scope_at(prepared, place)
    finding = replace(_finding_at(prepared, question, 2, place, case), bearer="challenger")
    if case.role == "document":
        yield from _document_at(prepared, case, finding, scope)
        return
    article = prepared.point(case, scope)
    if article is not None:
        yield _outside_point(prepared, case, place, finding, article)
        return
    formulas = (case.facts, scope)
    search = session.search(session.groups_in(*formulas))
    search.require(session.met(case.facts), session.met(scope))
    if isinstance(place, str):
        _prefer_rest_met(prepared, place, search, formulas)
    if not search.holds():
        yield Looked(question, finding.claim, finding.label, case.name)
        return
    free_of = find_construction(session, [Demand(case.facts, scope, "none")]).construction
    finding = _with_status(prepared, finding, case, scope, free_of)
    if finding.quantifier == "every":
        finding = replace(finding, stakes=1)
    shown = prepared.exhibit(
        finding,
        search,
        formulas,
        ((case.facts, "met"), (scope, "met")),
        prepared.known(formulas, case),
        prepared.grades_for(case.facts),
    )
    yield _with_company(prepared, case, place, shown)


def _with_company(prepared: Prepared, case: Case, place: int | str, shown: Finding) -> Finding:
    """Adds what keeps the thing out in the base, and the dependents that it meets as well."""
    assert shown.witness is not None
    assert shown.construction is not None
    _, limitations = _scope_at(prepared, place)
    return replace(
        shown,
        ways_out=prepared.ways_out(limitations, shown.witness.article),
        also_claims=_also(prepared, case, place, shown.witness.article, shown.construction),
    )


def _outside_point(
    prepared: Prepared, case: Case, place: int | str, finding: Finding, article: Article
) -> Answer:
    """As for a region, by the readings alone: the thing is one article."""
    session = prepared.session
    scope, _ = _scope_at(prepared, place)
    met = session.met_by(scope, article)
    search = session.search(session.groups_in(scope), things=False)
    if not search.holds(met):
        return Looked(finding.question, finding.claim, finding.label, case.name)
    always = not search.holds(~met)
    base: Status = "every" if meets(scope, article, session.base) else "none"
    finding = replace(
        finding,
        stakes=1 if always else 2,
        quantifier="every" if always else "some" if base == "none" else "base",
        lowest="every" if always else "none",
        at_base=base,
        highest="every",
    )
    search.require(met)
    shown = prepared.exhibit_point(finding, search, case, scope, article, met=True)
    return _with_company(prepared, case, place, shown)


def _prefer_rest_met(prepared: Prepared, label: str, search: Search, formulas: tuple[Formula, ...]) -> None:
    """For a case of one limitation: first try with the rest of the claim met."""
    session = prepared.session
    limitation = prepared.limitation(label)
    rest = [x.formula for x in prepared.limitations(limitation.claim) if x.label != label]
    inside = set(session.groups_in(*formulas))
    met = [session.met(f, None if set(session.groups_in(f)) <= inside else session.base) for f in rest]
    if search.holds(*met):
        search.require(*met)


def _with_status(
    prepared: Prepared, finding: Finding, case: Case, scope: Formula, free_of: Construction | None
) -> Finding:
    """Adds at the base, lowest and highest status of a case of which something is met somewhere."""
    session = prepared.session
    base = status_at(prepared, case.facts, scope, session.base)
    if free_of is not None:
        lowest: Status = "none"
    else:
        partly = session.search(session.groups_in(case.facts, scope))
        partly.require(session.met(case.facts), ~session.met(scope))
        lowest = "some" if partly.holds() else "every"
    whole = find_construction(session, [Demand(case.facts, scope, "every")]).construction
    highest: Status = "some" if whole is None else "every"
    quantifier: Quantifier = "some" if base == "none" else "base"
    if free_of is None:
        quantifier = "every"
    return replace(finding, quantifier=quantifier, lowest=lowest, at_base=base, highest=highest)


def status_at(prepared: Prepared, region: Formula, scope: Formula, k: Construction) -> Status:
    """How much of a region is met under one construction."""
    session = prepared.session
    search = session.search(())
    search.require(session.met(region, k))
    if not search.holds(session.met(scope, k)):
        return "none"
    return "some" if search.holds(~session.met(scope, k)) else "every"


def _also(
    prepared: Prepared, case: Case, place: int | str, article: Article, k: Construction
) -> tuple[int, ...]:
    """The dependents that the same thing meets as well, read the same way.

    A document shows a dependent only if every completion of what it states meets it.
    """
    if isinstance(place, str):
        return ()
    below = prepared.descendants(place)
    if case.role == "document":
        facts = case.facts
        return tuple(n for n in below if status_at(prepared, facts, prepared.scope(n), k) == "every")
    return tuple(n for n in below if meets(prepared.scope(n), article, k))


# ---- documents


def _document_at(prepared: Prepared, case: Case, finding: Finding, scope: Formula) -> Iterator[Answer]:
    """A document's example is met where what it states makes every completion meet the claim."""
    if case.form == "range":
        yield _relation(prepared, case, finding, scope)
        return
    article = prepared.point(case, scope)
    if article is not None:
        yield _outside_point(prepared, case, finding.claim, finding, article)
        return
    session = prepared.session
    exists = session.search(session.groups_in(case.facts))
    exists.require(session.met(case.facts))
    if not exists.holds():
        yield replace(finding, question="case empty on a reading", stakes=4, outcome="vacuous")
        return
    demand = Demand(case.facts, scope, "every")
    stated = Demand(All(()), case.facts, "some")
    refined = find_construction(session, [demand, stated])
    accepted = refined.construction
    if accepted is None:
        yield Looked("document met", finding.claim, finding.label, case.name)
        return
    groups = session.groups_in(case.facts, scope)
    escape = session.search(groups)
    escape.require(session.met(case.facts), ~session.met(scope))
    everywhere = not escape.holds()
    search = session.search(groups)
    search.require(session.met(case.facts), session.met(scope), *session.taken(accepted, groups))
    base = status_at(prepared, case.facts, scope, session.base)
    quantifier: Quantifier = "every" if everywhere else "base" if base == "every" else "some"
    finding = replace(finding, quantifier=quantifier, stakes=1 if everywhere else 2, at_base=base)
    formulas = (case.facts, scope)
    shown = prepared.exhibit(
        finding,
        search,
        formulas,
        ((case.facts, "met"), (scope, "met")),
        prepared.known(formulas, case),
        [("listed", None)],
    )
    assert shown.witness is not None
    also = _also(prepared, case, finding.claim, shown.witness.article, accepted)
    yield replace(prepared.told_refined(shown, refined, groups), highest="every", also_claims=also)


def _relation(prepared: Prepared, case: Case, finding: Finding, scope: Formula) -> Finding:
    """How a document's stated range lies against the claim in the base: a relation, no conclusion."""
    session = prepared.session
    inside = session.search(())
    inside.require(session.met(scope, session.base))
    region = session.met(case.facts, session.base)
    shared = inside.find(region)
    touches = shared and _at_one_end(prepared, case, inside, region, scope)
    beyond = inside.holds(~region)
    outside = session.search(())
    outside.require(region, ~session.met(scope, session.base))
    rest = outside.holds()
    if not shared:
        relation = "apart"
    elif not beyond and not rest:
        relation = "the same"
    elif not beyond:
        relation = "contains"
    elif not rest:
        relation = "within"
    elif touches:
        relation = "touches"
    else:
        relation = "overlaps"
    return replace(
        finding,
        question="document range",
        stakes=6,
        detail=relation,
        quantifier="base",
        bearer="",
        construction=session.base,
    )


def _at_one_end(prepared: Prepared, case: Case, shared: Search, region: Constraint, scope: Formula) -> bool:
    """Is what claim and region share, in some stated number, one value only, which neither is limited to?"""
    session = prepared.session
    article = shared.article()
    claim, range_ = session.search(()), session.search(())
    claim.require(session.met(scope, session.base))
    range_.require(region)
    for d in prepared.sheet.declarations:
        if not isinstance(d, NumberDecl) or d.name not in case.stated:
            continue
        other = ~session.equals(d.name, article[d.name])
        if not shared.holds(region, other) and claim.holds(other) and range_.holds(other):
            return True
    return False


# ---- inside


def inside_lost(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """Is something of an inside case kept out? Reported at the claim that causes it."""
    for place in targets(prepared, case):
        if isinstance(place, int):
            for number in _line_of(prepared, place):
                yield from _inside_at(prepared, case, number)
        else:
            yield from _inside_at(prepared, case, place)


def _line_of(prepared: Prepared, number: int) -> list[int]:
    """The claim's only line of ancestors and itself, first ancestor first; alternatives stay joined."""
    claim = prepared.sheet.claim(number)
    return [*_line_of(prepared, claim.parents[0]), number] if len(claim.parents) == 1 else [number]


def _inside_at(prepared: Prepared, case: Case, place: int | str) -> Iterator[Answer]:
    session = prepared.session
    finding = replace(_finding_at(prepared, "inside lost", 3, place, case), bearer="competitor")
    scope, limitations = _scope_at(prepared, place)
    above: Formula = All(())
    if isinstance(place, int) and len(prepared.instances[place]) == 1:
        above = prepared.instances[place][0].parent_scope
        limitations = prepared.sheet.claim(place).limitations
    article = prepared.point(case, scope)
    if article is not None:
        yield _inside_point(prepared, case, finding, article, scope, above, limitations)
        return
    formulas = (case.facts, scope)
    region = All((case.facts, above)) if above != All(()) else case.facts
    some_met = session.search(session.groups_in(*formulas))
    some_met.require(session.met(case.facts), session.met(scope))
    search = session.search(session.groups_in(*formulas))
    search.require(session.met(region), ~session.met(scope))
    if not search.holds():
        yield Looked("inside lost", finding.claim, finding.label, case.name)
        return
    ever = some_met.holds()
    finding = _graded_loss(prepared, finding, case, region, scope, ever)
    if ever and finding.at_base == "none":
        kept_by = _kept_by(prepared, some_met, session.groups_in(*formulas))
        finding = replace(finding, kept_by=kept_by)
    shown = prepared.exhibit(
        finding,
        search,
        formulas,
        ((case.facts, "met"), (scope, "not met")),
        prepared.known(formulas, case),
    )
    assert shown.witness is not None
    assert shown.construction is not None
    failing = prepared.failing(limitations, shown.witness.article, shown.construction)
    partly = shown.partly
    if partly:
        speak = session.names_in(*(x.formula for x in limitations if x.label in failing))
        partly = tuple(n for n in shown.shown if n in speak and n not in case.stated) or partly
    settled = prepared.settled_in(limitations, failing)
    yield replace(shown, failing=failing, partly=partly, rests_on=settled)


def _inside_point(
    prepared: Prepared,
    case: Case,
    finding: Finding,
    article: Article,
    scope: Formula,
    above: Formula,
    limitations: tuple[Limitation, ...],
) -> Answer:
    """As for a region, by the readings alone: the thing is one article."""
    session = prepared.session
    met = session.met_by(scope, article)
    search = session.search(session.groups_in(scope), things=False)
    ever = search.holds(met)
    search.require(session.met_by(above, article))
    if not search.holds(~met):
        return Looked("inside lost", finding.claim, finding.label, case.name)
    base: Status = "every" if meets(scope, article, session.base) else "none"
    lost_at_base = base == "none" and meets(above, article, session.base)
    finding = replace(
        finding,
        stakes=3 if ever else 1,
        quantifier="every" if not ever else "base" if lost_at_base else "some",
        lowest="none",
        at_base=base,
        highest="every" if ever else "none",
    )
    search.require(~met)
    shown = prepared.exhibit_point(finding, search, case, scope, article, met=False)
    assert shown.construction is not None
    failing = prepared.failing(limitations, article, shown.construction)
    kept_by: tuple[Reread, ...] = ()
    if ever and base == "none":
        keeping = session.search(session.groups_in(scope), things=False)
        keeping.require(met)
        kept_by = _kept_by(prepared, keeping, session.groups_in(scope))
    settled = prepared.settled_in(limitations, failing)
    return replace(shown, failing=failing, kept_by=kept_by, rests_on=settled)


def _kept_by(prepared: Prepared, search: Search, groups: tuple[int, ...]) -> tuple[Reread, ...]:
    """The least departures from the base on which a search for the case inside succeeds."""
    told = prepared.told_by(at_claim("inside lost", 3, prepared.sheet.claims[0]), search, groups)
    return told.rereads + told.read_as


def _graded_loss(
    prepared: Prepared, finding: Finding, case: Case, region: Formula, scope: Formula, ever_met: bool
) -> Finding:
    """Wholly or partly, on every construction or on some."""
    session = prepared.session
    base = status_at(prepared, case.facts, scope, session.base)
    if not ever_met:
        return replace(finding, stakes=1, quantifier="every", at_base=base, highest="none", lowest="none")
    lost = session.search(())
    lost.require(session.met(region, session.base), ~session.met(scope, session.base))
    quantifier: Quantifier = "base" if lost.holds() else "some"
    wholly = find_construction(session, [Demand(case.facts, scope, "none")]).construction
    kept = find_construction(session, [Demand(case.facts, scope, "every")]).construction
    # What an ancestor keeps out is told there: only what this claim keeps out of the rest counts here.
    spared = kept or find_construction(session, [Demand(region, scope, "every")]).construction
    return replace(
        finding,
        quantifier="every" if spared is None else quantifier,
        at_base=base,
        lowest="none" if wholly is not None else "some",
        highest="every" if kept is not None else "some",
        partly=() if wholly is not None else _unsaid(prepared, case, scope),
    )


def _unsaid(prepared: Prepared, case: Case, scope: Formula) -> tuple[str, ...]:
    names = prepared.session.names_in(scope)
    return tuple(d.name for d in prepared.sheet.declarations if d.name in names)


# ---- all cases at once


def reading_for_all(prepared: Prepared) -> Iterator[Finding]:
    """Is there one construction on which every inside case is met and every outside case is not?"""
    sided = []
    for case in prepared.sheet.cases:
        for place in targets(prepared, case) if case.role in ("inside", "outside") else []:
            scope, _ = _scope_at(prepared, place)
            wanted: Wanted = "every" if case.role == "inside" else "none"
            demand = Demand(case.facts, scope, wanted, prepared.point(case, scope))
            sided.append(Sided(case, place, demand))
    roles = {case.role for case in prepared.sheet.cases}
    if not {"inside", "outside"} <= roles:
        return
    session = prepared.session
    demands = [s.demand for s in sided]
    refined = find_construction(session, demands)
    claim = prepared.sheet.claims[0]
    if refined.construction is None:
        yield _no_reading(prepared, clashing(prepared, sided))
        return
    groups = session.groups_in(*(f for d in demands for f in (d.region, d.formula)))
    told = prepared.told_refined(at_claim("one reading fits all cases", 6, claim), refined, groups)
    yield replace(told, quantifier="base" if not told.rereads and not told.read_as else "some")


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
        cases=tuple(dict.fromkeys(s.case.name for s in clash.sided)),
        conflict=clash.labels,
        rests_on=prepared.settled_in(limitations, clash.labels),
    )


# ---- classes


def class_status(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """How a class of things lies against each claim: none, some or all of it met."""
    for place in targets(prepared, case):
        scope, _ = _scope_at(prepared, place)
        finding = _finding_at(prepared, "class", 6, place, case)
        session = prepared.session
        search = session.search(session.groups_in(case.facts, scope))
        search.require(session.met(case.facts), session.met(scope))
        if not search.holds():
            yield replace(finding, quantifier="every", lowest="none", at_base="none", highest="none")
            continue
        free_of = find_construction(session, [Demand(case.facts, scope, "none")]).construction
        yield _with_status(prepared, finding, case, scope, free_of)
