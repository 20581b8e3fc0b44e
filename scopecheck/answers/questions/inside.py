"""Is something lost of what must be inside?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cached_property

from scopecheck.answers.about import Cases, LeftOpen, Lost, Otherwise, Reread
from scopecheck.answers.findings import Finding, Looked, Quantifier, Status, Statuses
from scopecheck.answers.questions.cases import (
    Answer,
    finding_at,
    one_reread,
    scope_at,
    states_single_values,
    status_at,
    targets,
)
from scopecheck.answers.questions.prepared import Prepared, Sought, at_claim
from scopecheck.answers.questions.ways import each_way, ways_of
from scopecheck.answers.refine import Demand, find_construction, some_construction
from scopecheck.answers.witness import Expected
from scopecheck.core.construction import names_in
from scopecheck.core.formula import All, Article, Formula
from scopecheck.core.model import Case, Claim, Limitation
from scopecheck.core.reference import stated_values
from scopecheck.core.rewrite import read_at
from scopecheck.foundations.record import record, replace
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Search

NOTHING: Formula = All(())
"""What everything meets: so much is asked above a claim that depends on none."""


def inside_lost(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """Is something of an inside case kept out? Reported at the claim that causes it."""
    for place in targets(prepared, case):
        if isinstance(place, int):
            for number in _line_of(prepared, place):
                below = _below(prepared, case, number)
                for answer in _inside_at(prepared, case, number):
                    yield _with_below(answer, below)
        else:
            yield from _inside_at(prepared, case, place)


def _below(prepared: Prepared, case: Case, number: int) -> tuple[int, ...]:
    """The claims for which the case is listed that take over this one: what it loses they lose."""
    places = (place for place in targets(prepared, case) if isinstance(place, int) and place != number)
    return tuple(sorted({place for place in places if number in _line_of(prepared, place)}))


def _with_below(answer: Answer, below: tuple[int, ...]) -> Answer:
    """What is lost, told of these claims as well."""
    if isinstance(answer, Looked) or not isinstance(answer.about, Lost):
        return answer
    return replace(answer, about=replace(answer.about, also_claims=below))


def _line_of(prepared: Prepared, number: int) -> list[int]:
    """The claim's only line of ancestors and itself, first ancestor first; alternatives stay joined."""
    claim = prepared.sheet.claim(number)
    return [*_line_of(prepared, claim.parents[0]), number] if len(claim.parents) == 1 else [number]


@record
class _Place:
    """Where an inside case is asked, and by what it can be lost there.

    The case is to meet `scope`; what `above` loses of it is told at the claims that this one depends on.
    `limitations` are those that are looked over for what fails, `alone` those by each of which alone it can
    be lost.
    """

    case: Case
    finding: Finding
    scope: Formula
    above: Formula
    limitations: tuple[Limitation, ...]
    alone: tuple[Limitation, ...]

    @cached_property
    def region(self) -> Formula:
        """What the case states, as far as the claims above take it in."""
        return All((self.case.facts, self.above)) if self.above != NOTHING else self.case.facts

    def looked(self) -> Looked:
        """That nothing of the case is lost there."""
        return Looked("inside lost", self.finding.claim, self.finding.label, self.case.name)


def _inside_at(prepared: Prepared, case: Case, place: int | str) -> Iterator[Answer]:
    asked = _place(prepared, case, place)
    article = prepared.point(case, asked.scope)
    if asked.above != NOTHING and _lost_above(prepared, case, asked.above, article):
        # That is told at the claim above: here its own lines alone are asked.
        own = All(tuple(x.formula for x in asked.limitations))
        asked = replace(asked, above=NOTHING, scope=own)
        article = prepared.point(case, own)
    if article is not None:
        yield from _inside_point(prepared, asked, article)
    else:
        yield from _inside_region(prepared, asked)


def _place(prepared: Prepared, case: Case, place: int | str) -> _Place:
    """All that the claim or limitation asks; of a claim with one line of parents its own lines lose it."""
    finding = finding_at(prepared, "inside lost", 3, place, case)
    finding = replace(finding, bearer="competitor", about=Lost())
    scope, limitations = scope_at(prepared, place)
    if isinstance(place, str):
        return _Place(case, finding, scope, NOTHING, limitations, limitations)
    if len(prepared.instances[place]) > 1:
        return _Place(case, finding, scope, NOTHING, limitations, prepared.by_every_way(place))
    own = prepared.sheet.claim(place).limitations
    return _Place(case, finding, scope, prepared.instances[place][0].parent_scope, own, own)


def _lost_of(finding: Finding) -> Lost:
    assert isinstance(finding.about, Lost)
    return finding.about


# ---- of a case that leaves room


def _inside_region(prepared: Prepared, place: _Place) -> Iterator[Answer]:
    """Is something lost of a case that leaves something open?"""
    session, case, scope = prepared.session, place.case, place.scope
    groups = session.groups_in(case.facts, scope)
    some_met = session.search(groups)
    some_met.require(session.met(case.facts), session.met(scope))

    def lost() -> Search:
        search = session.search(groups)
        search.require(session.met(place.region), ~session.met(scope))
        return search

    if not lost().holds():
        yield place.looked()
        return
    ever = some_met.holds()
    # Of a case that says all that the claim speaks of nothing is left open.
    singly = states_single_values(prepared, case) and bool(_left_unsaid(prepared, case, scope))
    wholly = not ever or (
        _kept_out_wholly(prepared, case, scope)
        if singly
        else some_construction(session, [Demand(case.facts, scope, "none")])
    )
    if not wholly and singly:
        yield _left_open(prepared, place)
        yield from _lost_as_stated(prepared, place, place.finding)
        return
    finding = _graded_loss(prepared, place, ever, wholly)
    if ever and (finding.status.at_base, finding.status.highest) == ("none", "every"):
        finding = _kept_otherwise(prepared, place, finding, groups)

    def shown(search: Search) -> Finding:
        if singly:
            _prefer_unsaid_met(prepared, case, search, place.limitations, groups)
            _prefer_unlimited(prepared, case, search, place.limitations, groups)
        return _shown_lost(prepared, place, finding, search, ever)

    yield from ways_of(prepared, finding, groups, lost, shown)
    if finding.quantifier != "some":
        yield from _lost_as_stated(prepared, place, finding)


def _kept_otherwise(prepared: Prepared, place: _Place, finding: Finding, groups: tuple[int, ...]) -> Finding:
    """With the re-readings on which all of the case is inside, and those presumed as well where some is."""
    case, scope = place.case, place.scope
    least = _kept_whole(prepared, case, scope, groups)
    whole = one_reread(prepared, groups, scope) if len(least) == 1 else ()
    others = (r for r, k in whole if status_at(prepared, case.facts, scope, k) == "every")
    return replace(
        finding,
        otherwise=_otherwise(least, others),
        about=replace(_lost_of(finding), in_part=_kept_in_part(prepared, case, scope, groups)),
    )


def _shown_lost(prepared: Prepared, place: _Place, finding: Finding, search: Search, ever: bool) -> Finding:
    """The finding with a thing of the case that is lost; `ever`: on some construction some of it is met."""
    session, case, scope = prepared.session, place.case, place.scope
    formulas = (case.facts, scope)
    expected: list[tuple[Formula, Expected]] = [(case.facts, "met"), (scope, "not met")]
    found = prepared.exhibit(finding, search, Sought(formulas, expected), prepared.known(formulas, case))
    assert found.witness is not None
    article, groups = found.witness.article, session.groups_in(*formulas)
    told = _with_failing(prepared, found, place.limitations, article)
    if told.quantifier == "every" and ever:
        on_each = prepared.on_every(scope, article, met=False)
        told = replace(told, thing=replace(told.thing, on_each=on_each))
    if ever and finding.status.at_base == "none" and finding.status.highest != "every":
        keeping = session.search(groups, things=False)
        keeping.require(session.met_by(scope, article))
        if keeping.holds():
            told = replace(told, otherwise=_kept_by(prepared, keeping, scope, article, groups))
    lost = _lost_of(told)
    if not lost.partly:
        return told
    speak = session.names_in(*(x.formula for x in place.limitations if x.label in told.failing))
    partly = tuple(n for n in told.thing.names if n in speak and n not in case.stated)
    return replace(told, about=replace(lost, partly=partly or lost.partly))


def _prefer_unsaid_met(
    prepared: Prepared,
    case: Case,
    search: Search,
    limitations: Iterable[Limitation],
    groups: tuple[int, ...],
) -> None:
    """Of what a case does not state, first look where it is as the lines ask: what it states is to blame."""
    session = prepared.session
    base = session.taken(session.base, groups)
    kept = base if search.holds(*base) else ()
    for limitation in limitations:
        met = session.met(limitation.formula, session.base)
        if not session.names_in(limitation.formula) <= set(case.stated) and search.holds(*kept, met):
            search.require(met)


def _prefer_unlimited(
    prepared: Prepared,
    case: Case,
    search: Search,
    limitations: Iterable[Limitation],
    groups: tuple[int, ...],
) -> None:
    """What the shares of a case leave of a whole is first looked for in what no line limits.

    Else an ingredient that nobody listed would be to blame for what the listed ones lose. Last of all stands
    what has no name. Only where it is lost as presumed: else it might take other readings.
    """
    session, stated = prepared.session, stated_values(prepared.sheet, case, exact=True)
    base = session.taken(session.base, groups)
    if not search.holds(*base):
        return
    spoken = session.names_in(*(x.formula for x in limitations))
    for made in prepared.sheet.compositions:
        if not case.stated or not set(made.members).intersection(stated):
            continue
        below = {m for name, members in made.classes if name in spoken for m in members}
        unsaid = [m for m in made.members if m not in stated and m not in (made.others, made.impurities)]
        for m in (made.impurities, *sorted(unsaid, key=lambda m: m not in spoken | below)):
            none = session.equals(m, Fraction(0)) if m else None
            if none is not None and search.holds(*base, none):
                search.require(none)


def _lost_as_stated(prepared: Prepared, place: _Place, finding: Finding) -> Iterator[Finding]:
    """The ways in which lines lose what a case states of all that they speak of, and as presumed do not.

    Else what other lines lose, or ask of what the case leaves open, would hide it. How much of the whole case
    is inside is told with that.
    """
    session, case = prepared.session, place.case
    exact = stated_values(prepared.sheet, case, exact=True)
    known = {*case.stated, *exact, *prepared.sheet.absent(exact)}
    spoken = (x for x in place.alone if (names := session.names_in(x.formula)) and names <= known)
    base = session.base
    lines = tuple(x for x in spoken if status_at(prepared, case.facts, x.formula, base) == "every")
    if not lines:
        return
    scope = All(tuple(x.formula for x in lines))
    formulas = (place.region, scope)
    groups = session.groups_in(*formulas)
    in_part = _lost_of(finding).in_part
    found = replace(
        finding,
        quantifier="some",
        stakes=3,
        status=Statuses(),
        otherwise=Otherwise(),
        about=Lost(in_part=in_part),
    )

    def lost() -> Search:
        search = session.search(groups)
        search.require(session.met(place.region), ~session.met(scope))
        return search

    def shown(search: Search) -> Finding:
        expected: list[tuple[Formula, Expected]] = [(place.region, "met"), (scope, "not met")]
        sought = Sought(formulas, expected)
        told = prepared.exhibit(found, search, sought, prepared.known(formulas, case))
        thing = replace(
            told.thing,
            names=tuple(n for n in told.thing.names if n in known),
            departs=tuple(n for n in told.thing.departs if n in known),
        )
        told = replace(told, thing=thing)
        assert told.witness is not None
        return _with_failing(prepared, told, lines, told.witness.article)

    yield from each_way(prepared, groups, lost, shown)


def _kept_out_wholly(prepared: Prepared, case: Case, scope: Formula) -> bool:
    """Is none of the case met on some construction, stretches as presumed?

    Stretched without end, a line keeps out whatever value a case leaves open; and where nothing at all meets
    the claim, what it leaves open is not to blame.
    """
    demands = [Demand(case.facts, scope, "none")]
    if _left_unsaid(prepared, case, scope):
        demands.append(Demand(All(()), scope, "some"))
    return find_construction(prepared.session, demands, stretch=False).construction is not None


def _left_unsaid(prepared: Prepared, case: Case, scope: Formula) -> set[str]:
    """What the claim speaks of and a case of single values does not."""
    stated = stated_values(prepared.sheet, case, exact=True)
    return set(prepared.session.names_in(scope)) - set(case.stated) - prepared.sheet.absent(stated)


def _lost_above(prepared: Prepared, case: Case, above: Formula, article: Article | None) -> bool:
    """Is none of the case in what the claim depends on, as presumed?"""
    base = prepared.session.base
    if article is not None:
        return not meets(above, article, base)
    return status_at(prepared, case.facts, above, base) == "none"


def _left_open(prepared: Prepared, place: _Place) -> Finding:
    """A case of single values that no reading keeps out for certain: it says too little to be sorted.

    On some reading only, where all of it is met as presumed.
    """
    names = _left_unsaid(prepared, place.case, place.scope)
    unsaid = tuple(d.name for d in prepared.sheet.declarations if d.name in names)
    whole = status_at(prepared, place.case.facts, place.scope, prepared.session.base) == "every"
    return replace(
        place.finding,
        question="inside left open",
        stakes=6,
        bearer="",
        quantifier="some" if whole else "base",
        about=LeftOpen(unsaid),
    )


def _with_failing(
    prepared: Prepared, found: Finding, limitations: tuple[Limitation, ...], article: Article
) -> Finding:
    """Adds which limitations fail, and what the sheet settled in them.

    Where a line fails by way of whichever parent, those of single ways play no part.
    """
    assert found.construction is not None
    failing = prepared.failing(limitations, article, found.construction)
    by_every_way = {x.label for x in prepared.by_every_way(found.claim)}
    failing = tuple(label for label in failing if label in by_every_way) or failing
    # What is lost on some reading is so whatever other readings were taken away.
    settled = () if found.quantifier == "some" else prepared.settled_in(limitations, failing, narrow=True)
    return replace(found, failing=failing, rests_on=settled)


# ---- of a case that is one thing


def _inside_point(prepared: Prepared, place: _Place, article: Article) -> Iterator[Answer]:
    """As for a region, by the readings alone: the thing is one article."""
    session, scope = prepared.session, place.scope
    met = session.met_by(scope, article)
    groups = session.groups_in(scope)
    ever = session.search(groups, things=False).holds(met)

    def lost() -> Search:
        search = session.search(groups, things=False)
        search.require(session.met_by(place.above, article), ~met)
        return search

    if not lost().holds():
        yield place.looked()
        return
    finding = _graded_point(prepared, place, article, ever)
    if ever and finding.status.at_base == "none":
        keeping = session.search(groups, things=False)
        keeping.require(met)
        finding = replace(finding, otherwise=_kept_by(prepared, keeping, scope, article, groups))
    always = tuple(x for x in place.alone if not ever and _never_met(prepared, x, article))

    def shown(search: Search) -> Finding:
        found = prepared.exhibit_point(finding, search, place.case, scope, article, met=False)
        return _with_failing(prepared, found, always or place.limitations, article)

    yield from ways_of(prepared, finding, groups, lost, shown)
    if always:
        yield from _lost_presumed(prepared, place, always, article)
    if finding.quantifier != "some":
        yield from _lost_besides(prepared, place, finding, article)


def _graded_point(prepared: Prepared, place: _Place, article: Article, ever: bool) -> Finding:
    """On every construction, as presumed or on some; `ever` says that on one of them the thing is met."""
    base = prepared.session.base
    status: Status = "every" if meets(place.scope, article, base) else "none"
    lost_at_base = status == "none" and meets(place.above, article, base)
    return replace(
        place.finding,
        stakes=3 if ever else 1,
        quantifier="every" if not ever else "base" if lost_at_base else "some",
        status=Statuses("none", status, "every" if ever else "none"),
    )


def _lost_presumed(
    prepared: Prepared, place: _Place, always: tuple[Limitation, ...], article: Article
) -> Iterator[Answer]:
    """What keeps the thing out as presumed, but not on every reading, as those that do it `always`."""
    session = prepared.session
    presumed = (x for x in place.alone if not meets(x.formula, article, session.base))
    presumed = (x for x in presumed if session.names_in(x.formula) & set(place.case.stated))
    rest = tuple(x for x in presumed if x not in always)
    if rest:
        lines = All(tuple(x.formula for x in rest))
        about = replace(_lost_of(place.finding), line_alone=True)
        of_lines = replace(place.finding, about=about)
        own = replace(place, finding=of_lines, scope=lines, limitations=rest, alone=rest)
        yield from _inside_point(prepared, own, article)


def _never_met(prepared: Prepared, limitation: Limitation, article: Article) -> bool:
    """Does the thing miss the limitation on every reading?"""
    session = prepared.session
    search = session.search(session.groups_in(limitation.formula), things=False)
    return not search.holds(session.met_by(limitation.formula, article))


def _lost_besides(prepared: Prepared, place: _Place, finding: Finding, article: Article) -> Iterator[Finding]:
    """The ways in which a thing that is lost already would be lost by a limitation that it meets as presumed.

    Else one fault would hide another until it is mended.
    """
    session, above = prepared.session, place.above
    met = tuple(x for x in place.alone if meets(x.formula, article, session.base))
    scope = All(tuple(x.formula for x in met))
    groups = session.groups_in(scope, above)
    found = replace(finding, quantifier="some", stakes=3, otherwise=Otherwise())

    def lost() -> Search:
        search = session.search(groups, things=False)
        search.require(session.met_by(above, article), ~session.met_by(scope, article))
        return search

    def shown(search: Search) -> Finding:
        told = prepared.exhibit_point(found, search, place.case, scope, article, met=False)
        return _with_failing(prepared, told, met, article)

    yield from each_way(prepared, groups, lost, shown)


# ---- where it is not lost


def _kept_by(
    prepared: Prepared, search: Search, scope: Formula, article: Article, groups: tuple[int, ...]
) -> Otherwise:
    """Where a thing is inside: the least departures from the base on which the search for that succeeds.

    Where one is enough, with each other one that is.
    """
    told = prepared.told_by(at_claim("inside lost", 3, prepared.sheet.claims[0]), search, groups)
    single = (r for r, k in one_reread(prepared, groups, scope) if meets(scope, article, k))
    return _otherwise(told.rereads + told.read_as, single)


def _otherwise(least: tuple[Reread, ...], single: Iterable[Reread]) -> Otherwise:
    """The least re-readings; where one is enough, with the others that are, each by itself."""
    if len(least) != 1:
        return Otherwise(least, together=True)
    told = {(r.group, r.reading) for r in least}
    return Otherwise((*least, *(r for r in single if (r.group, r.reading) not in told)))


def _kept_whole(
    prepared: Prepared, case: Case, scope: Formula, groups: tuple[int, ...]
) -> tuple[Reread, ...]:
    """The least departures from the base on which all of the case is inside."""
    refined = find_construction(prepared.session, [Demand(case.facts, scope, "every")])
    told = prepared.told_refined(at_claim("inside lost", 3, prepared.sheet.claims[0]), refined, groups)
    return told.rereads + told.read_as


def _kept_in_part(
    prepared: Prepared, case: Case, scope: Formula, groups: tuple[int, ...]
) -> tuple[Reread, ...]:
    """The readings presumed beside the base's, each by itself, on which some of the case is inside."""
    readings = prepared.sheet.groups
    others = one_reread(prepared, groups, scope)
    also = ((r, k) for r, k in others if readings[r.group].readings[r.reading].standing == "presumed")
    return tuple(r for r, k in also if status_at(prepared, case.facts, scope, k) == "some")


def _graded_loss(prepared: Prepared, place: _Place, ever_met: bool, wholly: bool) -> Finding:
    """On every construction or on some; `wholly` says that on one of them none of the case is inside."""
    session, case, region, scope = prepared.session, place.case, place.region, place.scope
    finding = place.finding
    base = status_at(prepared, case.facts, scope, session.base)
    if not ever_met:
        return replace(finding, stakes=1, quantifier="every", status=Statuses("none", base, "none"))
    lost = session.search(())
    lost.require(session.met(region, session.base), ~session.met(scope, session.base))
    quantifier: Quantifier = "base" if lost.holds() else "some"
    kept = some_construction(session, [Demand(case.facts, scope, "every")])
    # What an ancestor keeps out is told there: only what this claim keeps out of the rest counts here.
    spared = kept or some_construction(session, [Demand(region, scope, "every")])
    return replace(
        finding,
        quantifier=quantifier if spared else "every",
        status=Statuses("none" if wholly else "some", base, "every" if kept else "some"),
        about=Lost(() if wholly else _unsaid(prepared, scope)),
    )


def _unsaid(prepared: Prepared, scope: Formula) -> tuple[str, ...]:
    names = prepared.session.names_in(scope)
    return tuple(d.name for d in prepared.sheet.declarations if d.name in names)


def no_case_inside(prepared: Prepared, claim: Claim) -> Iterator[Answer]:
    """Does a dependent claim, as presumed, take in no inside case of those that say enough to tell?

    Looked at are cases listed for what the claim depends on: one listed for the claim itself is told as lost.
    """
    base = prepared.session.base
    own = All(tuple(read_at(x.formula, base) for x in claim.limitations))
    names = names_in(own)
    above = set(prepared.lineage(claim.number)) - {claim.number}
    if not above or not names or not prepared.can_be_met(prepared.scope(claim.number)):
        return
    inside = [(case, set(targets(prepared, case))) for case in prepared.sheet.cases if case.role == "inside"]
    if any(claim.number in places for _, places in inside):
        return
    enough = [case for case, places in inside if places & above and names <= set(case.stated)]
    met = (status_at(prepared, case.facts, own, base) for case in enough)
    if enough and all(status == "none" for status in met):
        cases = tuple(case.name for case in enough)
        found = replace(at_claim("no case inside", 6, claim), quantifier="base", about=Cases(cases))
        yield replace(found, construction=prepared.session.base)
