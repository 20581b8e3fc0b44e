"""A sheet made ready to be asked: claim instances, scopes, and how a found thing becomes a finding."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress

from scopecheck.answers.about import Reread, WayOut
from scopecheck.answers.findings import Finding, Shown
from scopecheck.answers.minimise import (
    BreakPoint,
    Grade,
    Picked,
    Settled,
    pick_article,
    settle_construction,
)
from scopecheck.answers.questions.instances import Instance, widest
from scopecheck.answers.refine import Refined
from scopecheck.answers.witness import Expected, Obligation, Witness, WitnessError, verify
from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    names_in,
    reread_groups,
)
from scopecheck.core.formula import Article, Formula, any_of, items_of
from scopecheck.core.grounds import Bounds, Cause, Ground, SettledWords, SharesOfWhole, grounds_of
from scopecheck.core.model import Case, Claim, Limitation, Sheet
from scopecheck.core.plain import scales, tightened
from scopecheck.core.reference import Reference, references, stated_values
from scopecheck.core.stated import RangeEnd, range_ends
from scopecheck.foundations.record import record, replace
from scopecheck.resolve.dependencies import sort_of
from scopecheck.solving.border import beside_border
from scopecheck.solving.constraints import Constraint, Undecided
from scopecheck.solving.ends import greatest_stretch, least_stretch
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import NOT_AFRESH, Search, Session


@record
class Sought:
    """What a thing is to show: told by `formulas`, with what the exact evaluator must confirm of it on the
    construction that is found, and what in the base."""

    formulas: Sequence[Formula]
    expected: Sequence[tuple[Formula, Expected]]
    in_base: Sequence[tuple[Formula, Expected]] = ()


@record
class Graded:
    """The grades of things, the best first, with what each asks for; beside a `border` no thing is plain."""

    grades: Sequence[tuple[Grade, Constraint | None]] = (("edge", None),)
    border: Formula | None = None


ANY_GRADE = Graded()
"""Any thing does as well as another."""
LISTED = Graded((("listed", None),))
"""Things of a case that is listed."""


class Prepared:
    """A sheet, its session, and the instances of every claim in claim order."""

    def __init__(self, sheet: Sheet, session: Session, details: bool = False, chart: bool = False) -> None:
        self.sheet = sheet
        self.session = session
        self.details = details
        self.chart = chart
        self.instances: dict[int, tuple[Instance, ...]] = {}
        for claim in sheet.claims:
            self.instances[claim.number] = tuple(self._ways(claim))
        self._scopes: dict[int, Formula] = {}
        self._can_be_met: dict[int, tuple[Formula, bool]] = {}
        self._never_empty: set[tuple[str, ...]] = set()
        self._always_met: dict[tuple[str, ...], Article] = {}
        self._points: dict[tuple[int, int], tuple[Formula, Article | None]] = {}
        self._range_ends: dict[str, tuple[RangeEnd, ...]] = {}
        self.turned: dict[tuple[tuple[str, ...], tuple[int, int], bool], bool] = {}

    def anew(self) -> Prepared:
        """The same sheet, of which nothing was asked yet, with the time that is left of the same limit."""
        session = Session(self.sheet, self.session.budget, self.session.strained)
        return Prepared(self.sheet, session, self.details, self.chart)

    def _ways(self, claim: Claim) -> Iterator[Instance]:
        for chain in self.sheet.chains[claim.number] or ((),):
            inherited = (x for number in chain for x in self.sheet.claim(number).limitations)
            yield Instance(claim, tuple(inherited), chain)

    def all_instances(self) -> list[Instance]:
        return [i for claim in self.sheet.claims for i in self.instances[claim.number]]

    def scope(self, number: int) -> Formula:
        """What the claim covers: the union over its alternative parents."""
        if number not in self._scopes:
            scopes = [instance.scope for instance in widest(self.instances[number])]
            self._scopes[number] = any_of(scopes)
        return self._scopes[number]

    def limitations(self, number: int) -> tuple[Limitation, ...]:
        """Every limitation of the claim and of all its ancestors, each once, in order of label."""
        found: dict[str, Limitation] = {}
        for instance in self.instances[number]:
            found |= {limitation.label: limitation for limitation in instance.limitations}
        return tuple(found.values())

    def by_every_way(self, number: int) -> tuple[Limitation, ...]:
        """The limitations that the claim asks for by way of whichever parent."""
        first, *others = widest(self.instances[number])
        labels = [{x.label for x in other.limitations} for other in others]
        return tuple(x for x in first.limitations if all(x.label in some for some in labels))

    def independent(self) -> tuple[int, ...]:
        return tuple(claim.number for claim in self.sheet.claims if not claim.parents)

    def lineage(self, number: int) -> tuple[int, ...]:
        """The claim and all its ancestors, ascending."""
        found, waiting = {number}, [number]
        while waiting:
            parents = set(self.sheet.claim(waiting.pop()).parents) - found
            found |= parents
            waiting += sorted(parents)
        return tuple(sorted(found))

    def descendants(self, number: int) -> tuple[int, ...]:
        found: list[int] = []
        for claim in self.sheet.claims:
            if any(p == number or p in found for p in claim.parents):
                found.append(claim.number)
        return tuple(found)

    def limitation(self, label: str) -> Limitation:
        return self.sheet.by_label[label]

    def category(self, number: int) -> str:
        """What the claim is for: the head noun of the independent claim that it goes back to."""
        claim = self.sheet.claim(number)
        while claim.parents and not claim.other_category:
            claim = self.sheet.claim(claim.parents[0])
        return sort_of(claim.category)

    def range_ends(self, limitation: Limitation) -> tuple[RangeEnd, ...]:
        """The two ends of a limitation that is a range, always the same objects."""
        if limitation.label not in self._range_ends:
            self._range_ends[limitation.label] = range_ends(limitation, self._takes_part)
        return self._range_ends[limitation.label]

    def _takes_part(self, group: int, reading: int) -> bool:
        return reading in admissible_readings(self.sheet.groups[group], self.session.strained)

    # ---- from a search to a finding

    def relevant(self, *formulas: Formula) -> frozenset[str]:
        """The names the formulas speak of, and those that given facts tie to them."""
        names = self.session.names_in(*formulas)
        while True:
            tied = [self.session.names_in(g.formula) for g in self.sheet.givens]
            wider = names.union(*(t for t in tied if t & names))
            if wider == names:
                return names
            names = wider

    def exhibit(
        self,
        finding: Finding,
        search: Search,
        sought: Sought,
        known: Sequence[Reference],
        graded: Graded = ANY_GRADE,
    ) -> Finding:
        """The finding with the best construction and simplest article of the search, which must hold.

        A witness that the exact evaluator does not confirm is an error.
        """
        groups = self.session.groups_in(*sought.formulas)
        settled = settle_construction(self.session, search, groups)
        relevant = self.relevant(*sought.formulas)
        picked = pick_article(self.session, search, relevant, known, graded.grades)
        witness = self._verified(picked.article, sought, settled.construction)
        told = self._for_this(settled, groups, picked.article, sought.expected)
        absent = self.sheet.absent(picked.article)
        thing = Shown(
            witness,
            tuple(n for n in self.shown_names(sought.formulas) if n not in absent),
            tuple(n for n in self._departing(picked) if n not in absent),
            picked.reference,
            self._grade(picked, graded, settled.construction),
            picked.simplest,
        )
        return replace(self.told(finding, told, groups), thing=thing)

    def _verified(self, article: Article, sought: Sought, k: Construction) -> Witness:
        obligations = [Obligation(formula, wanted, k) for formula, wanted in sought.expected]
        obligations += [Obligation(formula, wanted, self.session.base) for formula, wanted in sought.in_base]
        return verify(self.sheet, article, tuple(obligations))

    def _grade(self, picked: Picked, graded: Graded, k: Construction) -> Grade:
        """The grade of a thing; beside the border nothing is plain."""
        border = graded.border
        beside = border is not None and beside_border(self.sheet, picked.article, border, k)
        return "near" if picked.grade == "plain" and beside else picked.grade

    def _departing(self, picked: Picked) -> tuple[str, ...]:
        """What the thing departs in, with what the case that it is told by says in ranges or words."""
        case = next((c for c in self.sheet.cases if c.name == picked.reference), None)
        if case is None:
            return picked.departs
        broken = (f for f in items_of(case.facts) if not meets(f, picked.article, self.session.base))
        others = {
            n for f in broken if not (spoken := names_in(f)).intersection(picked.departs) for n in spoken
        }
        told = {*picked.departs, *(n for n in others if n in case.stated)}
        return tuple(d.name for d in self.sheet.declarations if d.name in told)

    def _for_this(
        self,
        settled: Settled,
        groups: tuple[int, ...],
        article: Article,
        expected: Sequence[tuple[Formula, Expected]],
    ) -> Settled:
        """With the break-points of this article: that of some article at all may come sooner."""
        if not settled.breaks:
            return settled
        session, k = self.session, settled.construction
        search = session.search(groups, things=False)
        search.require(*(session.reads(g, k.readings[g]) for g in groups))
        for formula, wanted in expected:
            met = session.met_by(formula, article)
            search.require(met if wanted == "met" else ~met)
        return replace(settled, breaks=tuple(self._own_break(search, k, b) for b in settled.breaks))

    def _own_break(self, search: Search, k: Construction, point: BreakPoint) -> BreakPoint:
        """Where on its side of the presumed value the parameter, all others as in `k`, suffices."""
        p = next(p for p in self.sheet.parameters if p.key == point.parameter)
        others = [q for q in self.sheet.parameters if q.key != p.key and q.group in search.groups]
        beyond = self.session.stretches_at_most(p.key, p.presumed)
        with search.aside(), suppress(Undecided):
            search.require(*(self.session.stretches(q.key, k.parameter(q.key)) for q in others))
            search.require(~beyond if point.upward else beyond)
            end = least_stretch(search, p.key) if point.upward else greatest_stretch(search, p.key)
            return point if end is None else replace(point, end=end)
        return point

    def told(self, finding: Finding, settled: Settled, groups: tuple[int, ...]) -> Finding:
        """The finding with its construction told as departures from the base."""
        k = settled.construction
        moved = reread_groups(self.sheet, k, groups)
        keys = {p.key: p.group for p in self.sheet.parameters}
        rereads = tuple(
            Reread(g, k.readings[g], tuple(b for b in settled.breaks if keys[b.parameter] == g))
            for g in moved
        )
        free = [g for g in groups if g not in moved and k.readings[g] != self.session.base.readings[g]]
        read_as = tuple(Reread(g, k.readings[g]) for g in free)
        return replace(finding, construction=k, rereads=rereads, read_as=read_as, best=settled.best)

    def told_by(self, finding: Finding, search: Search, groups: tuple[int, ...]) -> Finding:
        """The finding with the best construction that the search, which must hold, allows."""
        assert search.holds()
        return self.told(finding, settle_construction(self.session, search, groups), groups)

    def told_refined(self, finding: Finding, refined: Refined, groups: tuple[int, ...]) -> Finding:
        """The finding with the construction that a refinement accepted."""
        assert refined.construction is not None
        return self.told(finding, Settled(refined.construction, refined.breaks, refined.best), groups)

    def where_it_matters(
        self, refined: Refined, follows: Formula, by: Sequence[Formula], scope: Formula
    ) -> Refined:
        """The construction with those re-readings alone on which the formula follows from these lines.

        As it is where they are not enough, and where nothing meets the scope with all others as presumed.
        """
        session, k = self.session, refined.construction
        assert k is not None
        taken = set(session.groups_in(follows, *by))
        kept = tuple(r if g in taken else session.base.readings[g] for g, r in enumerate(k.readings))
        if kept == k.readings:
            return refined
        other = replace(k, readings=kept)
        with suppress(Undecided):
            missed = session.search(())
            missed.require(*(session.met(f, other) for f in by), ~session.met(follows, other))
            groups = session.groups_in(scope)
            some = session.search(groups)
            some.require(session.met(scope), *(session.reads(g, kept[g]) for g in groups))
            known = (p for p in self.sheet.parameters if p.group in groups and not p.unknown)
            some.require(*(session.stretches(p.key, p.presumed) for p in known))
            if not missed.holds() and some.holds():
                return replace(refined, construction=other)
        return refined

    def shown_names(self, formulas: Sequence[Formula]) -> tuple[str, ...]:
        names = self.relevant(*formulas)
        return tuple(d.name for d in self.sheet.declarations if d.name in names)

    def grades_for(self, region: Formula, wanted: bool = True) -> list[tuple[Grade, Constraint | None]]:
        """Plain, near and edge versions of a region (of its complement if not `wanted`)."""
        plain = tightened(region, scales(self.sheet, region), wanted)
        near = tightened(region, scales(self.sheet, region, near=True), wanted)
        return [("plain", self.session.met(plain)), ("near", self.session.met(near)), ("edge", None)]

    def graded(self, region: Formula, wanted: bool = True) -> Graded:
        """These versions, and the region whose border they stay away from."""
        return Graded(tuple(self.grades_for(region, wanted)), region)

    def can_be_met(self, scope: Formula) -> bool:
        """Does something meet the scope on some construction? Asked once for each scope."""
        if id(scope) not in self._can_be_met:
            search = self.session.search(self.session.groups_in(scope))
            self._can_be_met[id(scope)] = (scope, search.holds(self.session.met(scope)))
        return self._can_be_met[id(scope)][1]

    def note_always_met(self, instance: Instance, thing: Article) -> None:
        """Keeps in mind a thing that was found to meet the claim on every construction."""
        self._can_be_met[id(instance.scope)] = (instance.scope, True)
        self._always_met[tuple(x.label for x in instance.limitations)] = thing

    def note_never_empty(self, instance: Instance) -> None:
        """Keeps in mind that on every construction, stretches as presumed, something meets the claim."""
        self._never_empty.add(tuple(x.label for x in instance.limitations))

    def never_empty(self, limitations: tuple[Limitation, ...]) -> bool:
        """Is it known that on every construction something meets all of a claim's limitations?"""
        labels = tuple(x.label for x in limitations)
        return labels in self._always_met or labels in self._never_empty

    def always_meets(self, limitations: tuple[Limitation, ...]) -> Article | None:
        """A thing that was found to meet all of a claim's limitations on every construction."""
        return self._always_met.get(tuple(x.label for x in limitations))

    def bearing(self, limitations: tuple[Limitation, ...], *others: Limitation) -> tuple[Limitation, ...]:
        """Those of a claim's limitations that can bear on what the others, of it or added to it, ask.

        Where something meets the claim on every construction, limitations that speak of other things, and are
        not tied to these by given facts, can be met whatever these ask.
        """
        own = {x.label for x in others}
        rest = tuple(x for x in limitations if x.label not in own)
        if not self.never_empty(limitations):
            return rest
        tied = [self.session.names_in(g.formula) for g in self.sheet.givens]
        tied += [self.session.names_in(x.formula) for x in rest]
        names = self.session.names_in(*(x.formula for x in others))
        while (wider := names.union(*(t for t in tied if t & names))) != names:
            names = wider
        return tuple(x for x in rest if self.session.names_in(x.formula) & names)

    def inside_points(self, scope: Formula) -> list[Article]:
        """The listed inside things that are one article for this scope."""
        inside = [case for case in self.sheet.cases if case.role == "inside"]
        return [article for case in inside if (article := self.point(case, scope)) is not None]

    def point(self, case: Case, scope: Formula) -> Article | None:
        """The one article that a case comes to for this scope, or None where the case leaves something open.

        Names that do not matter are filled with plain values.
        """
        key = (id(case), id(scope))
        if key not in self._points:
            # The scope is kept beside the article so that its identity is not reused.
            self._points[key] = (scope, self._point(case, scope))
        return self._points[key][1]

    def _point(self, case: Case, scope: Formula) -> Article | None:
        stated = stated_values(self.sheet, case, exact=True)
        meant = self.session.names_in(case.facts, scope)
        meant -= self.sheet.absent(stated)
        if case.groups or not meant <= set(stated):
            return None
        article = self.known((case.facts, scope), case)[0].article
        try:
            verify(self.sheet, article, (Obligation(case.facts, "met", self.session.base),))
        except WitnessError:
            return None
        return article

    def exhibit_point(
        self, finding: Finding, search: Search, case: Case, scope: Formula, article: Article, met: bool
    ) -> Finding:
        """The finding with the best construction of a search over readings alone, for a listed article."""
        groups = self.session.groups_in(scope)
        settled = settle_construction(self.session, search, groups)
        expected: Expected = "met" if met else "not met"
        obligations = (
            Obligation(case.facts, "met", settled.construction),
            Obligation(scope, expected, settled.construction),
        )
        absent = self.sheet.absent(article)
        thing = Shown(
            verify(self.sheet, article, obligations),
            tuple(n for n in self.shown_names((case.facts, scope)) if n not in absent),
            reference=case.name,
            grade="listed",
        )
        return replace(self.told(finding, settled, groups), thing=thing)

    def on_every(self, formula: Formula, article: Article, met: bool = True) -> bool:
        """Does the thing meet the formula, or unless `met` miss it, on every construction?"""
        search = self.session.search(self.session.groups_in(formula), things=False)
        found = self.session.met_by(formula, article)
        return not search.holds(~found if met else found)

    def known(self, formulas: Sequence[Formula], first: Case | None = None) -> list[Reference]:
        return references(self.sheet, tuple(formulas), first)

    def ways_out(self, limitations: Sequence[Limitation], article: Article) -> tuple[WayOut, ...]:
        """For each limitation that keeps the article out in the base: what lets it by alone."""
        base = self.session.base
        found = []
        for limitation in limitations:
            if meets(limitation.formula, article, base):
                continue
            single = tuple(
                (g, r)
                for g in self.session.groups_in(limitation.formula)
                for r in self.session.readings_of(g, limitation.formula)
                if r != base.readings[g] and meets(limitation.formula, article, base.with_reading(g, r))
            )
            found.append(WayOut(limitation.label, limitation.words or limitation.text, single))
        return tuple(found)

    def needed(self, formulas: Sequence[Formula], *constraints: Constraint) -> tuple[Ground, ...]:
        """The bounds and given facts without which the constraints, which cannot hold, could."""
        search = self.session.search(self.session.groups_in(*formulas), things=False)
        search.require(*constraints)
        return self.grounds(search.conflict(self.session.grounds(self.relevant(*formulas)), NOT_AFRESH) or ())

    def grounds(self, causes: Iterable[Cause]) -> tuple[Ground, ...]:
        """The causes that are no lines, each once; the bounds of one share of a whole as those of all."""
        return tuple(dict.fromkeys(map(self._shares_together, grounds_of(causes))))

    def _shares_together(self, ground: Ground) -> Ground:
        for made in self.sheet.compositions:
            shares = (*made.members, *(name for name, _ in made.classes))
            if isinstance(ground, Bounds) and ground.name in shares:
                return SharesOfWhole(made.name, made.unit.symbol)
        return ground

    def settled_in(
        self, limitations: Sequence[Limitation], labels: tuple[str, ...], narrow: bool = False
    ) -> tuple[Ground, ...]:
        """The policies and pins that took readings away in the limitations of these labels.

        Of what is lost as `narrow` words do those play no part that took only narrower readings away.
        """
        groups = self.session.groups_in(*(x.formula for x in limitations if x.label in labels))
        found = [s for g in groups for s in self.sheet.groups[g].settled if s.removed]
        found = [s for s in found if not (narrow and s.pair == ("ends", "included"))]
        return tuple(dict.fromkeys(SettledWords(s.text, s.reason) for s in found))

    def failing(
        self, limitations: Sequence[Limitation], article: Article, k: Construction
    ) -> tuple[str, ...]:
        return tuple(x.label for x in limitations if not meets(x.formula, article, k))


def at_claim(question: str, stakes: int, claim: Claim) -> Finding:
    """A finding about a claim as a whole, its outcome still open."""
    label = f"claim {claim.number}"
    return Finding(question, stakes, claim.number, label, "", claim.span, "shown", "some")


def at_limitation(question: str, stakes: int, limitation: Limitation) -> Finding:
    words = limitation.words or limitation.text
    return Finding(
        question, stakes, limitation.claim, limitation.label, words, limitation.span, "shown", "some"
    )
