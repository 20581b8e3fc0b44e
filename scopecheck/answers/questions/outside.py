"""Is something of a case that must stay out met, or what a document states?"""

from __future__ import annotations

from collections.abc import Iterator, Set
from contextlib import suppress

from scopecheck.answers.about import Met, Otherwise
from scopecheck.answers.findings import Finding, Looked, Quantifier, Status, Statuses
from scopecheck.answers.questions.cases import (
    Answer,
    finding_at,
    one_reread,
    prefer_rest_met,
    scope_at,
    status_at,
    targets,
    with_status,
)
from scopecheck.answers.questions.close_by import close_by
from scopecheck.answers.questions.document_ranges import at_stated_ends, range_relations
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import LISTED, Prepared, Sought
from scopecheck.answers.questions.ways import ways_of
from scopecheck.answers.refine import Demand, find_construction, some_construction
from scopecheck.core.construction import Construction, names_in
from scopecheck.core.formula import All, Article, Formula
from scopecheck.core.model import Case
from scopecheck.core.reference import stated_values
from scopecheck.core.rewrite import read_at
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Search


def outside_met(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """Is something of a case that must stay out met? On which readings; on every one?"""
    for place in targets(prepared, case):
        yield from _outside_at(prepared, case, place)


def _outside_at(prepared: Prepared, case: Case, place: int | str) -> Iterator[Answer]:
    session = prepared.session
    question = "document met" if case.role == "document" else "outside met"
    scope, _ = scope_at(prepared, place)
    finding = _to_be_met(prepared, question, place, case)
    if case.role == "document":
        yield from _document_at(prepared, case, finding, scope)
        return
    article = prepared.point(case, scope)
    if article is not None:
        yield from _outside_point(prepared, case, place, finding, article)
        return
    formulas = (case.facts, scope)
    groups = session.groups_in(*formulas)

    def met_somewhere() -> Search:
        search = session.search(groups)
        search.require(session.met(case.facts), session.met(scope))
        return search

    if not met_somewhere().holds():
        yield Looked(question, finding.claim, finding.label, case.name)
        return
    free_of = some_construction(session, [Demand(case.facts, scope, "none")])
    finding = with_status(prepared, finding, case, scope, free_of)
    if finding.quantifier == "every":
        finding = replace(finding, stakes=1)
    elif finding.quantifier == "base":
        finding = replace(finding, otherwise=_region_unmet_by(prepared, finding, case, scope, groups))

    def shown(search: Search) -> Finding:
        if isinstance(place, str):
            prefer_rest_met(prepared, place, search, formulas)
        if finding.quantifier == "every":
            always = [session.surely(f, met=True) for f in formulas]
            if search.holds(*always):
                search.require(*always)
        sought = Sought(formulas, ((case.facts, "met"), (scope, "met")))
        known, graded = prepared.known(formulas, case), prepared.graded(case.facts)
        found = prepared.exhibit(finding, search, sought, known, graded)
        if finding.quantifier == "every" and found.witness is not None:
            on_each = prepared.on_every(All(formulas), found.witness.article)
            found = replace(found, thing=replace(found.thing, on_each=on_each))
        return _with_company(prepared, case, place, found)

    yield from ways_of(prepared, finding, groups, met_somewhere, shown)


def _to_be_met(
    prepared: Prepared, question: str, place: int | str, case: Case, at_end: bool = False
) -> Finding:
    """The finding that something of a case is met there, or that at an end which it states; all else open."""
    found = finding_at(prepared, question, 2, place, case)
    return replace(found, bearer="challenger", about=Met(at_end))


def _with_company(prepared: Prepared, case: Case, place: int | str, shown: Finding) -> Finding:
    """Adds what keeps the thing out in the base, and the dependents that it meets as well."""
    assert shown.witness is not None
    assert shown.construction is not None
    assert isinstance(shown.about, Met)
    _, limitations = scope_at(prepared, place)
    article, k = shown.witness.article, shown.construction
    # Of what the case leaves open a thing is told by what the claim speaks of: the rest is anything at all.
    spoken = names_in(*(read_at(x.formula, k) for x in limitations))
    stated = {*case.stated, *stated_values(prepared.sheet, case, exact=True)}
    told = {*stated, *spoken.intersection(shown.thing.names), *prepared.sheet.absent(article)}
    also = _also_met(prepared, case, place, article, k, told)
    met = replace(
        shown.about,
        ways_out=prepared.ways_out(limitations, article),
        also_claims=also,
        also_on_some=_also_on_some(prepared, case, shown, also),
        also_open=_also_as_far(prepared, case, place, article, k, told),
    )
    return replace(shown, about=met)


def _outside_point(
    prepared: Prepared, case: Case, place: int | str, finding: Finding, article: Article
) -> Iterator[Answer]:
    """As for a region, by the readings alone: the thing is one article."""
    session = prepared.session
    scope, _ = scope_at(prepared, place)
    met = session.met_by(scope, article)
    groups = session.groups_in(scope)

    def readings() -> Search:
        search = session.search(groups, things=False)
        search.require(met)
        return search

    if not readings().holds():
        yield Looked(finding.question, finding.claim, finding.label, case.name)
        return
    always = not session.search(groups, things=False).holds(~met)
    base: Status = "every" if meets(scope, article, session.base) else "none"
    finding = replace(
        finding,
        stakes=1 if always else 2,
        quantifier="every" if always else "some" if base == "none" else "base",
        status=Statuses("every" if always else "none", base, "every"),
    )
    if finding.quantifier == "base":
        finding = replace(finding, otherwise=_unmet_by(prepared, finding, scope, article, groups))

    def shown(search: Search) -> Finding:
        found = prepared.exhibit_point(finding, search, case, scope, article, met=True)
        return _with_company(prepared, case, place, found)

    yield from ways_of(prepared, finding, groups, readings, shown)


def _unmet_by(
    prepared: Prepared, finding: Finding, scope: Formula, article: Article, groups: tuple[int, ...]
) -> Otherwise:
    """Each reading of one phrase that keeps the thing out; where none does alone, the least several."""
    session = prepared.session
    if single := tuple(r for r, k in one_reread(prepared, groups, scope) if not meets(scope, article, k)):
        return Otherwise(single)
    search = session.search(groups, things=False)
    search.require(~session.met_by(scope, article))
    told = prepared.told_by(finding, search, groups)
    return Otherwise(told.rereads + told.read_as, together=True)


def _region_unmet_by(
    prepared: Prepared, finding: Finding, case: Case, scope: Formula, groups: tuple[int, ...]
) -> Otherwise:
    """The same for a region: readings on which nothing of it is met."""
    session = prepared.session
    search = session.search(groups)
    search.require(session.met(case.facts), session.met(scope))
    rereads = one_reread(prepared, groups, case.facts, scope)
    if single := tuple(r for r, k in rereads if not search.holds(*session.taken(k, groups))):
        return Otherwise(single)
    refined = find_construction(session, [Demand(case.facts, scope, "none")])
    if refined.construction is None:
        return Otherwise()
    told = prepared.told_refined(finding, refined, groups)
    return Otherwise(told.rereads + told.read_as, together=True)


def _also_met(
    prepared: Prepared, case: Case, place: int | str, article: Article, k: Construction, told: Set[str]
) -> tuple[int, ...]:
    """The dependents that the same thing, by what is `told` of it, meets as well, read the same way.

    A document shows a dependent only if every completion of what it states meets it.
    """
    if isinstance(place, str):
        return ()
    below = prepared.descendants(place)
    if case.role == "document":
        facts = case.facts
        return tuple(n for n in below if status_at(prepared, facts, prepared.scope(n), k) == "every")
    return tuple(n for n in below if any(_met_as_told(i, article, k, told) for i in prepared.instances[n]))


def _also_on_some(prepared: Prepared, case: Case, told: Finding, also: tuple[int, ...]) -> tuple[int, ...]:
    """Of what is met on every reading, the dependents that some reading keeps part of it out of.

    So it is of what only the stretch of a phrase keeps out: reports may call that met on every reading. What
    is read in the claim itself then stays as presumed. One of which that stays undecided is among them.
    """
    by_stretch = told.quantifier == "base" and all(r.breaks for r in told.otherwise.rereads)
    if told.quantifier != "every" and not by_stretch:
        return ()
    session = prepared.session
    usual = session.taken(session.base, session.groups_in(prepared.scope(told.claim))) if by_stretch else ()

    def missed(number: int) -> bool:
        with suppress(Undecided):
            return missed_somewhere(number)
        return True

    def missed_somewhere(number: int) -> bool:
        scope = prepared.scope(number)
        point = prepared.point(case, scope)
        if point is not None:
            search = session.search(session.groups_in(scope), things=False)
            return search.holds(~session.met_by(scope, point), *usual)
        if case.role == "document":
            search = session.search(session.groups_in(case.facts, scope))
            return search.holds(session.met(case.facts), ~session.met(scope), *usual)
        return by_stretch or some_construction(session, [Demand(case.facts, scope, "none")])

    return tuple(n for n in also if missed(n))


def _met_as_told(instance: Instance, article: Article, k: Construction, told: Set[str]) -> bool:
    """Does the thing meet the claim by way of these parents, by what is told of it alone?"""
    return names_in(read_at(instance.scope, k)) <= told and meets(instance.scope, article, k)


def _may_be_met(prepared: Prepared, case: Case, scope: Formula, k: Construction) -> bool:
    """Read so, does something of the case meet all of the claim?"""
    session = prepared.session
    return session.search(()).holds(session.met(case.facts, k), session.met(scope, k))


def _also_as_far(
    prepared: Prepared, case: Case, place: int | str, article: Article, k: Construction, told: Set[str]
) -> tuple[tuple[int, tuple[str, ...]], ...]:
    """The dependents of which the thing meets all lines on what is told of it, with the names left open.

    Of several ways to a dependent by its parents, the one that leaves least open.
    """
    if isinstance(place, str) or case.role == "document":
        return ()
    found = []
    for n in prepared.descendants(place):
        open_ways = ((_left_open(i, article, k, told), i) for i in prepared.instances[n])
        ways = sorted(((left, i) for left, i in open_ways if left is not None), key=lambda way: len(way[0]))
        if ways and not ways[0][0]:
            continue  # met by what is told of it
        possible = (left for left, i in ways if _may_be_met(prepared, case, i.scope, k))
        if least := next(possible, None):
            found.append((n, tuple(d.name for d in prepared.sheet.declarations if d.name in least)))
    return tuple(found)


def _left_open(
    instance: Instance, article: Article, k: Construction, told: Set[str]
) -> frozenset[str] | None:
    """The names, by way of these parents, of which nothing is told; None where what is told is not met."""
    lines = [(x, names_in(read_at(x.formula, k))) for x in instance.limitations]
    if not all(meets(x.formula, article, k) for x, names in lines if names <= told):
        return None
    return frozenset(name for _, names in lines for name in names) - told


# ---- documents


def _document_at(prepared: Prepared, case: Case, finding: Finding, scope: Formula) -> Iterator[Answer]:
    """A document's example is met where what it states makes every completion meet the claim."""
    if case.form == "range":
        yield from range_relations(prepared, case, finding, scope)
        if status_at(prepared, case.facts, scope, prepared.session.base) != "every":
            at_ends = at_stated_ends(prepared, case, scope)
            if at_ends is not None and _is_met(prepared, at_ends, scope):
                yield from _document_met(prepared, at_ends, replace(finding, about=Met(at_end=True)), scope)
            else:
                yield from close_by(prepared, case, finding, scope, at_ends)
            return
        yield from _below_at_ends(prepared, case, finding)
    yield from _document_met(prepared, case, finding, scope)


def _met_at_ends(prepared: Prepared, case: Case, scope: Formula) -> Case | None:
    """The document's range at ends that it states, where what lies there is met as presumed."""
    at_ends = at_stated_ends(prepared, case, scope)
    return at_ends if at_ends is not None and _is_met(prepared, at_ends, scope) else None


def _is_met(prepared: Prepared, case: Case, scope: Formula) -> bool:
    return status_at(prepared, case.facts, scope, prepared.session.base) == "every"


def _below_at_ends(prepared: Prepared, case: Case, finding: Finding) -> Iterator[Answer]:
    """Which dependents of a claim that the whole range meets does it meet at ends that it states?

    Those that depend on one told take it over, and are told with it where it meets them.
    """
    told: set[int] = set()
    for claim in prepared.sheet.claims:
        number, ways = claim.number, prepared.instances[claim.number]
        line = set(prepared.lineage(number))
        if finding.claim not in line - {number} or not told.isdisjoint(line) or len(ways) > 1:
            continue
        scope = ways[0].scope
        if status_at(prepared, case.facts, scope, prepared.session.base) == "every":
            continue
        if (at_ends := _met_at_ends(prepared, case, scope)) is not None:
            told.add(number)
            own = _to_be_met(prepared, "document met", number, case, at_end=True)
            yield from _document_met(prepared, at_ends, own, scope)


def _document_met(prepared: Prepared, case: Case, finding: Finding, scope: Formula) -> Iterator[Answer]:
    """On which readings whatever the document states is met."""
    article = prepared.point(case, scope)
    if article is not None:
        yield from _outside_point(prepared, case, finding.claim, finding, article)
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
    nothing_escapes = not escape.holds()
    search = session.search(groups)
    search.require(session.met(case.facts), session.met(scope), *session.taken(accepted, groups))
    base = status_at(prepared, case.facts, scope, session.base)
    # Where nothing can be as the document says, as its words are presumed, nothing is met there either.
    quantifier: Quantifier = "some" if base != "every" else "every" if nothing_escapes else "base"
    stakes = 1 if quantifier == "every" else 2
    status = Statuses(at_base=base, highest="every")
    finding = replace(finding, quantifier=quantifier, stakes=stakes, status=status)
    if quantifier == "base":
        finding = _with_escapes(prepared, finding, case, scope, escape)
    formulas = (case.facts, scope)
    sought = Sought(formulas, ((case.facts, "met"), (scope, "met")))
    shown = prepared.exhibit(finding, search, sought, prepared.known(formulas, case), LISTED)
    assert shown.witness is not None
    assert isinstance(shown.about, Met)
    also = _also_met(prepared, case, finding.claim, shown.witness.article, accepted, frozenset())
    some = _also_on_some(prepared, case, finding, also)
    told = prepared.told_refined(shown, refined, groups)
    yield replace(told, about=replace(shown.about, also_claims=also, also_on_some=some))


def _with_escapes(
    prepared: Prepared, finding: Finding, case: Case, scope: Formula, escape: Search
) -> Finding:
    """With the readings on which some of what the document states escapes, or all of it.

    `escape` searches for what is as the document states and does not meet the claim.
    """
    session = prepared.session
    groups = session.groups_in(case.facts, scope)
    rereads = one_reread(prepared, groups, case.facts, scope)
    single = [(r, k) for r, k in rereads if escape.holds(*session.taken(k, groups))]
    told = None if single else prepared.told_by(finding, escape, groups)
    together = [] if told is None else [(r, told.construction) for r in told.rereads + told.read_as]
    met = session.search(groups)
    met.require(session.met(case.facts), session.met(scope))
    least = single or together
    in_part = tuple(r for r, k in least if k is None or met.holds(*session.taken(k, groups)))
    assert isinstance(finding.about, Met)
    return replace(
        finding,
        otherwise=Otherwise(tuple(r for r, _ in least), together=not single),
        about=replace(finding.about, in_part=in_part),
    )
