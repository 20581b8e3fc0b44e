"""Is something lost of what must be inside?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from scopecheck.answers.findings import LINE_ALONE, Cases, Finding, Looked, Quantifier, Reread, Status
from scopecheck.answers.questions.cases import (
    Answer,
    finding_at,
    one_reread,
    scope_at,
    states_single_values,
    status_at,
    targets,
)
from scopecheck.answers.questions.prepared import Prepared, at_claim
from scopecheck.answers.questions.ways import each_way, ways_of
from scopecheck.answers.refine import Demand, find_construction, some_construction
from scopecheck.answers.witness import Expected
from scopecheck.core.construction import names_in
from scopecheck.core.formula import All, Article, Formula
from scopecheck.core.model import Case, Claim, Limitation
from scopecheck.core.reference import stated_values
from scopecheck.core.rewrite import read_at
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Search


def inside_lost(prepared: Prepared, case: Case) -> Iterator[Answer]:
    """Is something of an inside case kept out? Reported at the claim that causes it."""
    for place in targets(prepared, case):
        if isinstance(place, int):
            for number in _line_of(prepared, place):
                below = _below(prepared, case, number)
                for answer in _inside_at(prepared, case, number):
                    lost = isinstance(answer, Finding) and answer.question == "inside lost"
                    yield replace(answer, also_claims=below) if lost else answer
        else:
            yield from _inside_at(prepared, case, place)


def _below(prepared: Prepared, case: Case, number: int) -> tuple[int, ...]:
    """The claims for which the case is listed that take over this one: what it loses they lose."""
    places = (place for place in targets(prepared, case) if isinstance(place, int) and place != number)
    return tuple(sorted({place for place in places if number in _line_of(prepared, place)}))


def _line_of(prepared: Prepared, number: int) -> list[int]:
    """The claim's only line of ancestors and itself, first ancestor first; alternatives stay joined."""
    claim = prepared.sheet.claim(number)
    return [*_line_of(prepared, claim.parents[0]), number] if len(claim.parents) == 1 else [number]


def _inside_at(prepared: Prepared, case: Case, place: int | str) -> Iterator[Answer]:
    session = prepared.session
    finding = replace(finding_at(prepared, "inside lost", 3, place, case), bearer="competitor")
    scope, limitations = scope_at(prepared, place)
    above: Formula = All(())
    alone = limitations
    if isinstance(place, int) and len(prepared.instances[place]) == 1:
        above = prepared.instances[place][0].parent_scope
        alone = limitations = prepared.sheet.claim(place).limitations
    elif isinstance(place, int):
        alone = prepared.by_every_way(place)
    article = prepared.point(case, scope)
    if above != All(()) and _lost_above(prepared, case, above, article):
        # That is told at the claim above: here its own lines alone are asked.
        above, scope = All(()), All(tuple(x.formula for x in limitations))
    if article is not None:
        yield from _inside_point(prepared, case, finding, article, scope, above, limitations, alone)
        return
    formulas = (case.facts, scope)
    groups = session.groups_in(*formulas)
    region = All((case.facts, above)) if above != All(()) else case.facts
    some_met = session.search(groups)
    some_met.require(session.met(case.facts), session.met(scope))

    def lost() -> Search:
        search = session.search(groups)
        search.require(session.met(region), ~session.met(scope))
        return search

    if not lost().holds():
        yield Looked("inside lost", finding.claim, finding.label, case.name)
        return
    ever = some_met.holds()
    singly = states_single_values(prepared, case)
    wholly = not ever or (
        _kept_out_wholly(prepared, case, scope)
        if singly
        else some_construction(session, [Demand(case.facts, scope, "none")])
    )
    if not wholly and singly:
        yield _left_open(prepared, finding, case, scope)
        yield from _lost_as_stated(prepared, case, finding, region, alone)
        return
    finding = _graded_loss(prepared, finding, case, region, scope, ever, wholly)
    keepable = ever and finding.at_base == "none"
    if keepable and finding.highest == "every":
        least = _kept_whole(prepared, case, scope, groups)
        whole = one_reread(prepared, groups, scope) if len(least) == 1 else ()
        others = (r for r, k in whole if status_at(prepared, case.facts, scope, k) == "every")
        finding = replace(finding, kept_by=least, kept_too=_others(least, others))
        finding = replace(finding, in_part=_kept_in_part(prepared, case, scope, groups))

    def shown(search: Search) -> Finding:
        if singly:
            _prefer_unsaid_met(prepared, case, search, limitations, groups)
            _prefer_unlimited(prepared, case, search, limitations, groups)
        found = prepared.exhibit(
            finding,
            search,
            formulas,
            ((case.facts, "met"), (scope, "not met")),
            prepared.known(formulas, case),
        )
        assert found.witness is not None
        article = found.witness.article
        told = _with_failing(prepared, found, limitations, article)
        if told.quantifier == "every" and ever:
            told = replace(told, itself=prepared.on_every(scope, article, met=False))
        if keepable and finding.highest != "every":
            keeping = session.search(groups, things=False)
            keeping.require(session.met_by(scope, article))
            if keeping.holds():
                least = _kept_by(prepared, keeping, groups)
                single = (r for r, k in one_reread(prepared, groups, scope) if meets(scope, article, k))
                told = replace(told, kept_by=least, kept_too=_others(least, single))
        if not told.partly:
            return told
        speak = session.names_in(*(x.formula for x in limitations if x.label in told.failing))
        partly = tuple(n for n in told.shown if n in speak and n not in case.stated)
        return replace(told, partly=partly or told.partly)

    yield from ways_of(prepared, finding, groups, lost, shown)
    if finding.quantifier != "some":
        yield from _lost_as_stated(prepared, case, finding, region, alone)


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


def _lost_as_stated(
    prepared: Prepared, case: Case, finding: Finding, region: Formula, limitations: tuple[Limitation, ...]
) -> Iterator[Finding]:
    """The ways in which lines lose what a case states of all that they speak of, and as presumed do not.

    Else what other lines lose, or ask of what the case leaves open, would hide it. How much of the whole case
    is inside is told with that.
    """
    session = prepared.session
    exact = stated_values(prepared.sheet, case, exact=True)
    known = {*case.stated, *exact, *prepared.sheet.absent(exact)}
    spoken = (x for x in limitations if (names := session.names_in(x.formula)) and names <= known)
    base = session.base
    lines = tuple(x for x in spoken if status_at(prepared, case.facts, x.formula, base) == "every")
    if not lines:
        return
    scope = All(tuple(x.formula for x in lines))
    formulas = (region, scope)
    groups = session.groups_in(*formulas)
    found = replace(
        finding, quantifier="some", stakes=3, kept_by=(), kept_too=(), partly=(),
        lowest=None, at_base=None, highest=None,
    )  # fmt: skip

    def lost() -> Search:
        search = session.search(groups)
        search.require(session.met(region), ~session.met(scope))
        return search

    def shown(search: Search) -> Finding:
        expected: list[tuple[Formula, Expected]] = [(region, "met"), (scope, "not met")]
        told = prepared.exhibit(found, search, formulas, expected, prepared.known(formulas, case))
        told = replace(
            told,
            shown=tuple(n for n in told.shown if n in known),
            departs=tuple(n for n in told.departs if n in known),
        )
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


def _left_open(prepared: Prepared, finding: Finding, case: Case, scope: Formula) -> Finding:
    """A case of single values that no reading keeps out for certain: it says too little to be sorted.

    On some reading only, where all of it is met as presumed.
    """
    names = _left_unsaid(prepared, case, scope)
    unsaid = tuple(d.name for d in prepared.sheet.declarations if d.name in names)
    whole = status_at(prepared, case.facts, scope, prepared.session.base) == "every"
    found = replace(finding, question="inside left open", stakes=6, bearer="", partly=unsaid)
    return replace(found, quantifier="some" if whole else "base")


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


def _inside_point(
    prepared: Prepared,
    case: Case,
    finding: Finding,
    article: Article,
    scope: Formula,
    above: Formula,
    limitations: tuple[Limitation, ...],
    alone: tuple[Limitation, ...],
) -> Iterator[Answer]:
    """As for a region, by the readings alone: the thing is one article.

    `alone` are the limitations by each of which alone the thing can be lost.
    """
    session, asked = prepared.session, finding
    met = session.met_by(scope, article)
    groups = session.groups_in(scope)
    ever = session.search(groups, things=False).holds(met)

    def lost() -> Search:
        search = session.search(groups, things=False)
        search.require(session.met_by(above, article), ~met)
        return search

    if not lost().holds():
        yield Looked("inside lost", finding.claim, finding.label, case.name)
        return
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
    if ever and base == "none":
        keeping = session.search(groups, things=False)
        keeping.require(met)
        least = _kept_by(prepared, keeping, groups)
        single = (r for r, k in one_reread(prepared, groups, scope) if meets(scope, article, k))
        finding = replace(finding, kept_by=least, kept_too=_others(least, single))

    always = tuple(x for x in alone if not ever and _never_met(prepared, x, article))

    def shown(search: Search) -> Finding:
        found = prepared.exhibit_point(finding, search, case, scope, article, met=False)
        return _with_failing(prepared, found, always or limitations, article)

    yield from ways_of(prepared, finding, groups, lost, shown)
    if always:
        # What else keeps it out as presumed, and not on every reading, is told by itself.
        presumed = (x for x in alone if not meets(x.formula, article, session.base))
        presumed = (x for x in presumed if session.names_in(x.formula) & set(case.stated))
        rest = tuple(x for x in presumed if x not in always)
        if rest:
            lines = All(tuple(x.formula for x in rest))
            of_lines = replace(asked, detail=LINE_ALONE)
            yield from _inside_point(prepared, case, of_lines, article, lines, above, rest, rest)
    if finding.quantifier != "some":
        yield from _lost_besides(prepared, case, finding, article, above, alone)


def _never_met(prepared: Prepared, limitation: Limitation, article: Article) -> bool:
    """Does the thing miss the limitation on every reading?"""
    session = prepared.session
    search = session.search(session.groups_in(limitation.formula), things=False)
    return not search.holds(session.met_by(limitation.formula, article))


def _lost_besides(
    prepared: Prepared,
    case: Case,
    finding: Finding,
    article: Article,
    above: Formula,
    limitations: tuple[Limitation, ...],
) -> Iterator[Finding]:
    """The ways in which a thing that is lost already would be lost by a limitation that it meets as presumed.

    Else one fault would hide another until it is mended.
    """
    session = prepared.session
    met = tuple(x for x in limitations if meets(x.formula, article, session.base))
    scope = All(tuple(x.formula for x in met))
    groups = session.groups_in(scope, above)
    found = replace(finding, quantifier="some", stakes=3, kept_by=(), kept_too=())

    def lost() -> Search:
        search = session.search(groups, things=False)
        search.require(session.met_by(above, article), ~session.met_by(scope, article))
        return search

    def shown(search: Search) -> Finding:
        told = prepared.exhibit_point(found, search, case, scope, article, met=False)
        return _with_failing(prepared, told, met, article)

    yield from each_way(prepared, groups, lost, shown)


def _kept_by(prepared: Prepared, search: Search, groups: tuple[int, ...]) -> tuple[Reread, ...]:
    """The least departures from the base on which a search for the case inside succeeds."""
    told = prepared.told_by(at_claim("inside lost", 3, prepared.sheet.claims[0]), search, groups)
    return told.rereads + told.read_as


def _others(least: tuple[Reread, ...], single: Iterable[Reread]) -> tuple[Reread, ...]:
    """The readings that each keep a case by themselves, without the one that is told first."""
    told = {(r.group, r.reading) for r in least}
    return tuple(r for r in single if (r.group, r.reading) not in told) if len(least) == 1 else ()


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


def _graded_loss(
    prepared: Prepared,
    finding: Finding,
    case: Case,
    region: Formula,
    scope: Formula,
    ever_met: bool,
    wholly: bool,
) -> Finding:
    """On every construction or on some; `wholly` says that on one of them none of the case is inside."""
    session = prepared.session
    base = status_at(prepared, case.facts, scope, session.base)
    if not ever_met:
        return replace(finding, stakes=1, quantifier="every", at_base=base, highest="none", lowest="none")
    lost = session.search(())
    lost.require(session.met(region, session.base), ~session.met(scope, session.base))
    quantifier: Quantifier = "base" if lost.holds() else "some"
    kept = some_construction(session, [Demand(case.facts, scope, "every")])
    # What an ancestor keeps out is told there: only what this claim keeps out of the rest counts here.
    spared = kept or some_construction(session, [Demand(region, scope, "every")])
    return replace(
        finding,
        quantifier=quantifier if spared else "every",
        at_base=base,
        lowest="none" if wholly else "some",
        highest="every" if kept else "some",
        partly=() if wholly else _unsaid(prepared, scope),
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
