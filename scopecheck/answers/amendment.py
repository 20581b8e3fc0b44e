"""What an amendment changes: claim by claim what was given up and what was gained, and on which readings.

A claim gives up what met it before and does not meet it now, and gains what meets it now and did not before.
All constructions are those of both sheets together, on which a phrase of both is read alike.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import product
from typing import Literal

from scopecheck.answers.about import Amended, Relation
from scopecheck.answers.amended_ends import AlikeEnds, alike_ends, rounding_alike
from scopecheck.answers.amended_stretch import RELATIONS, Sides, Stretching, stretchings
from scopecheck.answers.findings import Finding, Quantifier, Statuses, relation_of
from scopecheck.answers.questions.claims import adds_nothing
from scopecheck.answers.questions.prepared import Prepared, Sought, at_claim
from scopecheck.answers.refine import Demand, Refined, find_construction
from scopecheck.core.construction import groups_in, names_in
from scopecheck.core.formula import All, Formula
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.model import Claim, Limitation
from scopecheck.foundations.record import record, replace
from scopecheck.resolve.joined import Joined
from scopecheck.solving.constraints import Budget, Undecided, any_of
from scopecheck.solving.solver import Session

NOTHING = All(())


@record
class Moved:
    """A limitation of an amended claim that stood in another claim before, where `before` is its label."""

    label: str
    before: str
    claim: int


@record
class Change:
    """A claim before and after, either of them None where it was added or deleted.

    `relation` is that of the base; `same` says that the limitations are the same, so that nothing was asked.
    `otherwise` has, for each other relation, the least construction on which it is the one that holds.
    `stretched` has the relations that the stretch of a hedge makes, where nobody says how far it stretches.
    `alike` has the relation with no end rounding, where only presumptions on rounding make it another.
    `taken_over` says that the claim's own lines stayed and only what it takes over changed, `emptied` that
    something met it before and nothing does after, `empty` that nothing does before or after: on "every"
    construction, or in the "base".
    """

    before: Claim | None
    after: Claim | None
    relation: Relation | None = None
    same: bool = False
    given_up: Finding | None = None
    gained: Finding | None = None
    otherwise: tuple[Finding, ...] = ()
    stretched: tuple[Stretching, ...] = ()
    alike: AlikeEnds | None = None
    moved: tuple[Moved, ...] = ()
    undecided: tuple[Finding, ...] = ()
    taken_over: bool = False
    emptied: bool = False
    empty: Literal["", "every", "base"] = ""

    @property
    def everywhere(self) -> bool:
        """Is the relation the same on every construction that was asked?"""
        return not self.otherwise and not self.stretched and not self.undecided


class Amendment:
    """Two joined sheets, ready to be asked: one session for both, so that both are read alike."""

    def __init__(self, joined: Joined, budget: Budget | None = None, strained: bool = False) -> None:
        session = Session(joined.after, budget, strained)
        self.joined = joined
        self.session = session
        for one, other in _in_place_of_another(joined):
            session.read_alike(one, other, rounding_alike(session, one, other))
        self.before = Prepared(joined.before, session, details=True)
        self.after = Prepared(joined.after, session, details=True)

    def amended(self) -> dict[int, int]:
        """The claims that go on with other limitations: their numbers before, each with that after."""
        goes_on = self.joined.successors.before
        pairs = {goes_on[c.number]: c.number for c in self.joined.after.claims if c.number in goes_on}
        return {old: new for old, new in pairs.items() if self.before.scope(old) != self.after.scope(new)}

    def changes(self) -> Iterator[Change]:
        """Every claim of the amended set in its order, then the deleted ones."""
        goes_on = self.joined.successors.before
        for claim in self.joined.after.claims:
            if claim.number in goes_on:
                yield _change(self, self.joined.before.claim(goes_on[claim.number]), claim)
            else:
                yield Change(None, claim, moved=tuple(_moved(self, None, claim)))
        for number in self.joined.successors.deleted:
            yield Change(self.joined.before.claim(number), None)


def _in_place_of_another(joined: Joined) -> Iterator[tuple[int, int]]:
    """The groups of words that only the claim before has, each with those of the claim after that limit the
    same: whoever rounds what is measured by the one does so by the other."""
    before = [x.formula for c in joined.before.claims for x in c.limitations]
    after = [x.formula for c in joined.after.claims for x in c.limitations]
    struck = [f for f in dict.fromkeys(before) if f not in set(after)]
    added = [f for f in dict.fromkeys(after) if f not in set(before)]
    for old, new in product(struck, added):
        if names_in(old) == names_in(new):
            yield from ((g, h) for g, h in product(sorted(groups_in(old)), sorted(groups_in(new))) if g != h)


def _change(amendment: Amendment, old: Claim, new: Claim) -> Change:
    was, now = amendment.before.scope(old.number), amendment.after.scope(new.number)
    if was == now:
        return Change(old, new, "unchanged", same=True)
    moved = tuple(_moved(amendment, old, new))
    sides = _Sides(amendment, old, new)
    given_up, gained = sides.given_up(), sides.gained()
    undecided = [f for f in (given_up, gained) if f.outcome == "undecided"]
    taken_over = [x.formula for x in old.limitations] == [x.formula for x in new.limitations]
    told = (given_up, gained, (), (), None, moved, tuple(undecided), taken_over)
    change = Change(old, new, None, False, *told)
    if undecided:
        return change
    relation = RELATIONS[_in_base(given_up), _in_base(gained)]
    change = replace(change, relation=relation)
    try:
        stretched = tuple(stretchings(amendment.session, sides.formulas()))
        change = replace(change, emptied=_emptied(amendment, was, now), stretched=stretched)
        change = replace(change, empty=_empty(amendment, was, now))
        change = replace(change, alike=alike_ends(amendment.session, sides.formulas(), relation))
        otherwise = tuple(sides.otherwise(relation, given_up, gained))
        known = {relation, *map(relation_of, otherwise), *(s.relation for x in stretched for s in x.stages)}
        further = tuple(sides.stretched_far(known, given_up, gained))
        return replace(change, otherwise=(*otherwise, *further))
    except Undecided as reason:
        unknown = replace(at_claim("amended", 6, new), outcome="undecided", reason=str(reason))
        return replace(change, undecided=(unknown,))


def _emptied(amendment: Amendment, was: Formula, now: Formula) -> bool:
    return amendment.before.can_be_met(was) and not amendment.after.can_be_met(now)


def _empty(amendment: Amendment, was: Formula, now: Formula) -> Literal["", "every", "base"]:
    """Does nothing meet the claim before, nor after: on every construction, or in the base?"""
    if not (amendment.before.can_be_met(was) or amendment.after.can_be_met(now)):
        return "every"
    session = amendment.session
    either = any_of([session.met(was, session.base), session.met(now, session.base)])
    return "" if session.search(()).holds(either) else "base"


def _in_base(finding: Finding) -> bool:
    return finding.outcome == "shown" and finding.status.at_base == "some"


class _Sides:
    """What one claim gives up and gains."""

    def __init__(self, amendment: Amendment, old: Claim, new: Claim) -> None:
        self.amendment, self.old, self.new = amendment, old, new
        self.session = amendment.session
        self.was, self.now = amendment.before.scope(old.number), amendment.after.scope(new.number)
        self.either = AnyOf((self.was, self.now))
        self.taken_out, self.put_in = _differing(amendment, old, new)

    def formulas(self) -> Sides:
        """The claim before and after, with what only the one or the other asks."""
        return Sides(self.was, self.now, self.taken_out, self.put_in)

    def given_up(self) -> Finding:
        """What met the claim before and does not meet it now."""
        finding = at_claim("given up", 4, self.old)
        found = self._side(finding, self.amendment.before, self.was, self.put_in)
        return self._with_failing(found, self.amendment.after, self.new)

    def gained(self) -> Finding:
        """What meets the claim now and did not before."""
        finding = at_claim("gained", 4, self.new)
        found = self._side(finding, self.amendment.after, self.now, self.taken_out)
        return self._with_failing(found, self.amendment.before, self.old)

    def _side(self, finding: Finding, prepared: Prepared, region: Formula, missed: Formula) -> Finding:
        """A thing of the region that misses the other formula; on every construction, the base, or some.

        Its status says whether there is one in the base. Constructions on which nothing meets the claim
        before or after do not count; stretches are as presumed, but for a thing that only another one gives.
        """
        session = self.session
        try:
            search = session.search(session.groups_in(region, missed))
            search.require(session.met(region), ~session.met(missed))
            if not search.holds():
                return replace(
                    finding,
                    outcome="excluded",
                    quantifier="none",
                    status=Statuses(at_base="none"),
                    rests_on=prepared.needed((region, missed), session.met(region), ~session.met(missed)),
                )
            base = session.search(())
            base.require(session.met(region, session.base))
            at_base = base.holds(~session.met(missed, session.base))
            demands = [Demand(region, missed, "every"), Demand(NOTHING, self.either, "some")]
            spared = find_construction(session, demands, stretch=False).construction
            # Where nothing at all meets the claim without a stretch, nothing is spared there either.
            quantifier: Quantifier = "some" if not at_base else "every" if spared is None else "base"
            status = Statuses(at_base="some" if at_base else "none")
            found = replace(finding, quantifier=quantifier, status=status)
            sought = Sought((region, missed), ((region, "met"), (missed, "not met")))
            known, graded = prepared.known((region, missed)), prepared.graded(missed, wanted=False)
            shown = prepared.exhibit(found, search, sought, known, graded)
            on_each = quantifier != "every" or self._on_each(shown, region, missed)
            return replace(shown, thing=replace(shown.thing, on_each=on_each))
        except Undecided as reason:
            return replace(finding, outcome="undecided", stakes=6, reason=str(reason))

    def _on_each(self, shown: Finding, region: Formula, missed: Formula) -> bool:
        """Does the thing shown meet the region and miss the other formula on each construction?"""
        assert shown.witness is not None
        session, article = self.session, shown.witness.article
        search = session.search(session.groups_in(region, missed), things=False)
        for p in (p for p in session.sheet.parameters if p.group in search.groups):
            search.require(session.stretches(p.key, p.presumed))
            if p.unknown:
                search.require(~session.reads(p.group, p.reading))
        within, met = (session.met_by(f, article, stretch=False) for f in (region, missed))
        return not search.holds(~within | met)

    def _with_failing(self, finding: Finding, prepared: Prepared, claim: Claim) -> Finding:
        """Adds the limitations of the other version that the thing fails, by the parents with fewest."""
        if finding.witness is None or finding.construction is None:
            return finding
        article, k = finding.witness.article, finding.construction
        ways = (prepared.failing(i.limitations, article, k) for i in prepared.instances[claim.number])
        return replace(finding, failing=min(ways, key=len))

    def otherwise(self, relation: Relation | None, given_up: Finding, gained: Finding) -> Iterator[Finding]:
        """For each relation other than that of the base the least construction on which it holds."""
        settled = [_settled(given_up), _settled(gained)]
        for loses, wins in product((False, True), repeat=2):
            other = RELATIONS[loses, wins]
            impossible = any(s is not None and s != w for s, w in zip(settled, (loses, wins), strict=True))
            if other == relation or impossible:
                continue
            refined = self._construction(loses, wins)
            if refined.construction is None:
                continue
            groups = self.session.groups_in(self.was, self.now)
            told = self.amendment.after.told_refined(at_claim("amended", 6, self.new), refined, groups)
            yield replace(told, about=Amended(other), quantifier="some")

    def stretched_far(
        self, known: Collection[Relation | str | None], given_up: Finding, gained: Finding
    ) -> Iterator[Finding]:
        """The relations that only a stretch makes, where what that gives up or gains is in none known."""
        loses: tuple[Relation, ...] = ("narrowed", "both")
        wins: tuple[Relation, ...] = ("widened", "both")
        for side, told in ((given_up, loses), (gained, wins)):
            if side.outcome != "shown" or any(relation in told for relation in known):
                continue
            found = ((r, self._with_any_stretch(r)) for r in told)
            best = next(((r, refined) for r, refined in found if refined.construction is not None), None)
            groups = self.session.groups_in(self.was, self.now)
            if best is not None:
                relation, refined = best
                named = at_claim("amended", 6, self.new)
                shown = self.amendment.after.told_refined(named, refined, groups)
                yield replace(shown, about=Amended(relation), quantifier="some")

    def _with_any_stretch(self, relation: str) -> Refined:
        loses, wins = next(k for k, r in RELATIONS.items() if r == relation)
        return self._construction(loses, wins, stretch=True)

    def _construction(self, loses: bool, wins: bool, stretch: bool = False) -> Refined:
        """The least construction on which the claim can be met and does just this; stretches as presumed."""
        demands = [
            Demand(self.was, self.put_in, "not every" if loses else "every"),
            Demand(self.now, self.taken_out, "not every" if wins else "every"),
        ]
        if not (loses or wins):
            demands.append(Demand(NOTHING, self.either, "some"))
        return find_construction(self.session, demands, stretch=stretch)


def _settled(finding: Finding) -> bool | None:
    """Whether this side is the same on every construction, and which way; None where it changes."""
    if finding.outcome == "excluded":
        return False
    return True if finding.quantifier == "every" else None


def _differing(amendment: Amendment, old: Claim, new: Claim) -> tuple[Formula, Formula]:
    """What only the claim before asks, and what only the amended one asks.

    Each with the other claim's scope is that claim's own scope, so that nothing else need be looked at.
    """
    olds, news = amendment.before.instances[old.number], amendment.after.instances[new.number]
    if len(olds) > 1 or len(news) > 1:
        return amendment.before.scope(old.number), amendment.after.scope(new.number)
    return _only(olds[0].limitations, news[0].limitations), _only(news[0].limitations, olds[0].limitations)


def _only(own: Sequence[Limitation], other: Sequence[Limitation]) -> Formula:
    common = {x.formula for x in other}
    return All(tuple(x.formula for x in own if x.formula not in common))


# ---- dependents that add nothing after


def idle_after(amendment: Amendment, changes: Sequence[Change]) -> Iterator[Finding]:
    """The dependent claims that add nothing after and did add something before, or were not there before."""
    before = {c.after.number: c.before.number for c in changes if c.before and c.after}
    touched = [c.after.number for c in changes if c.after and not c.same]
    for number in touched:
        was_idle = number in before and list(_idle(amendment.before, before[number]))
        found = list(_idle(amendment.after, number))
        if found and not was_idle:
            yield found[0]


def _idle(prepared: Prepared, number: int) -> Iterator[Finding]:
    for instance in prepared.instances[number]:
        for answer in adds_nothing(prepared, instance):
            if isinstance(answer, Finding) and answer.question == "adds nothing":
                yield answer


# ---- limitations that moved


def _moved(amendment: Amendment, old: Claim | None, new: Claim) -> Iterator[Moved]:
    """The claim's own limitations that stood, before, in other claims than those it was made of."""
    before, after = amendment.before, amendment.after
    own = before.limitations(old.number) if old is not None else ()
    had = {x.formula for x in own}
    origin = {x.label for x in own}
    elsewhere = [x for c in before.sheet.claims for x in c.limitations if x.label not in origin]
    for limitation in after.sheet.claim(new.number).limitations:
        if limitation.formula in had:
            continue
        source = next((x for x in elsewhere if x.formula == limitation.formula), None)
        source = source or next((x for x in elsewhere if _same(amendment, x, limitation)), None)
        if source is not None:
            yield Moved(limitation.label, source.label, source.claim)


def _same(amendment: Amendment, a: Limitation, b: Limitation) -> bool:
    """Do two limitations of the same quantities ask the same on every construction?"""
    session = amendment.session
    if session.names_in(a.formula) != session.names_in(b.formula):
        return False
    search = session.search(session.groups_in(a.formula, b.formula))
    one, other = session.met(a.formula), session.met(b.formula)
    try:
        return not search.holds(one, ~other) and not search.holds(~one, other)
    except Undecided:
        return False
