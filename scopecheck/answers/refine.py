"""Is there one construction on which something holds of every thing? (exists construction, for all articles)

A proposer over readings alone offers constructions in the order of rank; a verifier looks, under the offered
one, for a thing that breaks a demand; what that thing rules out becomes a constraint on the readings. The
first construction that nothing breaks is therefore the best, and "none" rests on the things collected: for
every construction one of them breaks it.

Free parameters are first offered at finitely many values: the presumed one, the ends, and for each case the
values at which it changes side, with one value in each gap between. A "none" is said only when no value at
all is left by the things collected.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from fractions import Fraction
from itertools import pairwise
from typing import Literal, TypeAlias

from scopecheck.answers.minimise import BreakPoint, Settled, keep, settle_construction
from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    names_in,
    nodes,
    parameters_in,
)
from scopecheck.core.formula import Article, Divide, Formula, Multiply, Term, items_of, lies_within
from scopecheck.core.model import FreeParameter
from scopecheck.foundations.record import record, replace
from scopecheck.solving.constraints import Constraint, Undecided, all_of, any_of
from scopecheck.solving.ends import greatest_stretch, least_stretch
from scopecheck.solving.solver import Search, Session

Wanted: TypeAlias = Literal["every", "none", "some", "not every"]
"""Of the articles of a region: all are met, none is, there is one that is, or one that is not."""
ONE = ("some", "not every")
"""What one article is enough for."""
MOST_ROUNDS = 400
ROUNDS_BEFORE_PARTS = 6
"""After so many rounds it is looked whether some line alone is met by all of the region on no reading."""
ROUNDS_OF_A_PART = 40
FEW_ARTICLES = 3
"""After so many things stretches are ruled out by their ends."""
VERY_FAR = 10**9
"""A stretch at which it is looked whether a demand is broken still, where its end is said to be nowhere."""
MOST_STEPS = 12
LITTLE_WORK = 400_000
"""So much the optimiser may take where an end is good to know and not needed."""
MOST_UNLISTED = 60
"""So often a better reading at a value not listed is tried; then the one at hand is no longer called best."""


@record
class Demand:
    """That every article of `region` meets `formula`, that none does, or that some does or does not.

    Where the region is one known `article`, the demand is a condition on the readings from the start.
    """

    region: Formula
    formula: Formula
    wanted: Wanted
    article: Article | None = None


@record
class Refined:
    """The best construction that fulfils all demands, or None with the breaking articles.

    `breaks` are the break-points of its free parameters; `best` is False where a better one is not excluded.
    """

    construction: Construction | None
    articles: tuple[Article, ...]
    breaks: tuple[BreakPoint, ...] = ()
    best: bool = True


def find_construction(session: Session, demands: Sequence[Demand], stretch: bool = True) -> Refined:
    """The construction of least rank that fulfils every demand. Raises `Undecided`.

    Without `stretch` every free parameter stays as presumed, and no unknown threshold takes part.
    """
    return _Refinement(session, demands, stretch).refined(best=True)


def some_construction(session: Session, demands: Sequence[Demand], rounds: int = MOST_ROUNDS) -> bool:
    """Does some construction fulfil every demand? Sooner known than which is best. Raises `Undecided`."""
    return _Refinement(session, demands, stretch=True).refined(False, rounds).construction is not None


class _Refinement:
    """One search for a construction: what was collected so far, and what checks an offer."""

    def __init__(self, session: Session, demands: Sequence[Demand], stretch: bool) -> None:
        self.session = session
        self.stretch = stretch
        self.groups = session.groups_in(*(f for d in demands for f in (d.region, d.formula)))
        self.parameters = [p for p in session.sheet.parameters if p.group in self.groups]
        self.proposer = session.search(self.groups, things=False)
        if not stretch:
            self.proposer.require(*(session.stretches(p.key, p.presumed) for p in self.parameters))
            unknown = (p for p in self.parameters if p.unknown)
            self.proposer.require(*(~session.reads(p.group, p.reading) for p in unknown))
            self.parameters = []
        for demand in demands:
            if demand.article is not None:
                self.proposer.require(self._fulfilled_at(demand, demand.article))
        self.demands = [demand for demand in demands if demand.article is None]
        self.verifiers = [_verifier(session, demand, self.groups) for demand in self.demands]
        self.articles: list[Article] = []
        self.best = True
        self.values = {p.key: [p.presumed] for p in self.parameters} if self.demands else {}
        self.listed = not self.values
        self.unlisted = 0

    def refined(self, best: bool, rounds: int = MOST_ROUNDS) -> Refined:
        """The best construction left; unless `best`, the first that is found to fulfil the demands."""
        ranked = False
        if not best:
            self._list_far_ones()
        for done in range(rounds):
            if done == ROUNDS_BEFORE_PARTS and (nothing := self._by_one_part()):
                return nothing
            k = self._offer(ranked)
            if k is None:
                return Refined(None, tuple(self.articles))
            if self._broken(k):
                continue
            if not best:
                return Refined(k, tuple(self.articles), (), False)
            if ranked or k == self.session.base:
                settled = self._least_stretched(k)
                certain = settled.best and self.best
                return Refined(settled.construction, tuple(self.articles), settled.breaks, certain)
            # Something fulfils the demands: from here on only the best that is left is offered.
            ranked = True
        raise Undecided("the number of rounds ran out")

    def _by_one_part(self) -> Refined | None:
        """That there is none, where one line that all of a region must meet is so met on no construction.

        Beside it the stretches of other lines would be tried one after the other.
        """
        for demand in self.demands:
            parts = items_of(demand.formula)
            if demand.wanted != "every" or len(parts) == 1:
                continue
            stated = names_in(demand.region)
            for part in sorted(parts, key=lambda part: names_in(part) <= stated):
                alone = _Refinement(self.session, [replace(demand, formula=part)], self.stretch)
                with suppress(Undecided):
                    refined = alone.refined(best=False, rounds=ROUNDS_OF_A_PART)
                    if refined.construction is None:
                        return refined
        return None

    def _offer(self, ranked: bool) -> Construction | None:
        """A construction that is left, the best if `ranked`, at the values listed.

        Values are listed when the presumed ones no longer do, and added where only others are left.
        """
        base = self.session.taken(self.session.base, self.groups)
        if not self.articles and self.proposer.holds(*base):
            return self.session.base
        if ranked:
            self._list_values()
        k = self._at_listed_values(ranked)
        if k is not None:
            return self._or_better_unlisted(k) if ranked else k
        if not self.proposer.find():
            return None
        if not self.listed:
            self._list_values()
            return self._offer(ranked)
        if ranked and not self.values:
            return best_construction(self.session, self.proposer, self.groups)
        k = self.proposer.construction()
        self.best = False
        for key, listed in self.values.items():
            if k.parameter(key) not in listed:
                self.values[key] = [*listed, k.parameter(key)]
        return k

    def _at_listed_values(self, ranked: bool) -> Construction | None:
        with self.proposer.aside():
            for key, listed in self.values.items():
                self.proposer.require(any_of(self.session.stretches(key, v) for v in listed))
            if not self.proposer.find():
                return None
            if not ranked:
                return self.proposer.construction()
            return settle_construction(self.session, self.proposer, self.groups).construction

    def _or_better_unlisted(self, k: Construction) -> Construction:
        """The best at the values listed, or better readings that are left at values in between."""
        if not self.values:
            return k
        other = best_construction(self.session, self.proposer, self.groups)
        if other.readings == k.readings:
            return k
        if self.unlisted == MOST_UNLISTED:
            self.best = False
            return k
        self.unlisted += 1
        return other

    def _list_values(self) -> None:
        """Lists the values that are likely to decide; looking for them takes longer than most searches."""
        if not self.listed:
            self.values = {p.key: stretch_values(self.session, p, self.demands) for p in self.parameters}
            self.listed = True

    def _list_far_ones(self) -> None:
        """Lists a very far value of each stretch without end: mostly it decides, and takes no looking for."""
        for p in (p for p in self.parameters if p.key in self.values and p.upper is None):
            self.values[p.key].append(VERY_FAR * p.unit.factor)

    def _broken(self, k: Construction) -> bool:
        """Does something break a demand on this construction? What it rules out is ruled out from here on."""
        broken = False
        taken = self.session.taken(k, self.groups)
        without: list[list[Constraint]] = []
        for demand, verifier in zip(self.demands, self.verifiers, strict=True):
            if demand.wanted in ONE:
                if not verifier.holds(*taken):
                    broken = True
                    if not any(_nothing_is_found(verifier, held) for held in without):
                        groups = self.session.groups_in(demand.region, demand.formula)
                        without.append(_as_wide_as_holds(self.session, verifier, k, groups))
                        self.proposer.require(~all_of(without[-1]))
                continue
            article = _breaking(self.session, demand, verifier, taken)
            if article is not None:
                self.articles.append(article)
                self.proposer.require(self._fulfilled_at(demand, article))
                broken = True
                if len(self.articles) > FEW_ARTICLES:
                    self._rule_out_stretches(demand, verifier, k)
        return broken

    def _rule_out_stretches(self, demand: Demand, verifier: Search, k: Construction) -> None:
        """Rules out, for the readings of `k`, all stretches on which something breaks the demand.

        Thing by thing that would take for ever where each thing needs a wider stretch than the one before.
        """
        session = self.session
        if not (_is_linear(demand.formula) and _is_linear(demand.region)):
            return
        groups = session.groups_in(demand.region, demand.formula)
        for p in (p for p in self.parameters if p.group in groups and k.readings[p.group] == p.reading):
            if p.group in session.groups_in(demand.region):
                continue
            others = [q for q in self.parameters if q.group in groups and q.key != p.key]
            taken = [session.reads(g, k.readings[g]) for g in groups]
            taken += [session.stretches(q.key, k.parameter(q.key)) for q in others]
            with verifier.aside(), suppress(Undecided):
                way = session.way(p, demand.formula) or session.way_among(p, demand.formula, taken)
                further = (way == "widens") == (demand.wanted == "every")
                verifier.require(*taken)
                end = greatest_stretch(verifier, p.key) if further else least_stretch(verifier, p.key)
                if end is not None and way:
                    broken = _side(session, p, end.value, further, end.closed)
                    self.proposer.require(~all_of([*taken, broken]))
                elif way and verifier.holds(session.stretches_at_least(p.key, VERY_FAR * p.unit.factor)):
                    self.proposer.require(~all_of(taken))

    def _fulfilled_at(self, demand: Demand, article: Article) -> Constraint:
        """The readings on which this article does not break the demand."""
        met = self.session.met_by(demand.formula, article, self.stretch)
        outside = ~self.session.met_by(demand.region, article, self.stretch)
        return outside | (~met if demand.wanted == "none" else met)

    def _least_stretched(self, k: Construction) -> Settled:
        """The readings of `k` with the least stretches that fulfil the demands, where certified; else `k`."""
        moved = [p for p in self.parameters if k.readings[p.group] == p.reading]
        moved = [p for p in moved if k.parameter(p.key) != p.presumed]
        if not moved:
            return Settled(k, (), True)
        readings = [self.session.reads(g, k.readings[g]) for g in self.groups]
        for _ in range(MOST_STEPS):
            with self.proposer.aside():
                self.proposer.require(*readings)
                if not self.proposer.find():
                    break
                settled = settle_construction(self.session, self.proposer, self.groups)
            if not self._broken(settled.construction):
                return settled
        return Settled(k, (), False)


def _side(session: Session, p: FreeParameter, value: Fraction, below: bool, included: bool) -> Constraint:
    """That the stretch is below the value, or above it, or there where that is included."""
    up_to, from_on = session.stretches_at_most(p.key, value), session.stretches_at_least(p.key, value)
    if below:
        return up_to if included else ~from_on
    return from_on if included else ~up_to


def _is_linear(formula: Formula) -> bool:
    """Is nothing unknown multiplied by, or divided by, anything unknown?"""
    for node in nodes(formula):
        if isinstance(node, Multiply) and not (_is_constant(node.left) or _is_constant(node.right)):
            return False
        if isinstance(node, Divide) and not _is_constant(node.right):
            return False
    return True


def _is_constant(node: Term) -> bool:
    return not names_in(node) and not parameters_in(node)


def _nothing_is_found(verifier: Search, held: list[Constraint]) -> bool:
    """Is nothing found for this demand where another one has nothing? Then there is no more to learn."""
    with suppress(Undecided):
        return not verifier.holds(*held)
    return False


def _as_wide_as_holds(
    session: Session, verifier: Search, k: Construction, groups: tuple[int, ...]
) -> list[Constraint]:
    """What is taken of `k`, on which nothing is found, left as wide open as it can be with nothing found.

    What can be left out is; a stretch becomes one up to or from its value on, and a reading any of those of
    its group on which there is nothing either. Each round then rules out much more than one construction.
    """
    held = {g: all_of(session.taken(k, (g,))) for g in groups}

    def nothing(group: int, instead: Constraint | None = None) -> bool:
        rest = [c for g, c in held.items() if g != group]
        return not verifier.holds(*rest, *([instead] if instead is not None else []))

    for g in groups:
        if nothing(g):
            del held[g]
    for g in list(held):
        reads = session.reads(g, k.readings[g])
        for p in (p for p in session.sheet.parameters if (p.group, p.reading) == (g, k.readings[g])):
            if nothing(g, reads):
                held[g] = reads
                continue
            rest = [c for other, c in held.items() if other != g]
            empty = _empty_stretches(verifier, p, k.parameter(p.key), [*rest, reads])
            held[g] = held[g] if empty is None else all_of((reads, empty))
        for r in admissible_readings(session.sheet.groups[g], session.strained):
            if r != k.readings[g] and nothing(g, session.reads(g, r)):
                held[g] = any_of((held[g], session.reads(g, r)))
    return list(held.values())


def _empty_stretches(
    verifier: Search, p: FreeParameter, value: Fraction, taken: list[Constraint]
) -> Constraint | None:
    """The stretches about the value, all those on one side of it included, on which nothing is found.

    How far they go is looked for only where one side is empty: the optimiser takes long where much is asked.
    """
    session = verifier.session
    below = _side(session, p, value, below=True, included=True)
    above = _side(session, p, value, below=False, included=True)
    with verifier.aside(), suppress(Undecided):
        verifier.require(*taken)
        side = next((side for side in (below, above) if not verifier.holds(side)), None)
        if side is None or not verifier.holds():
            return None
        with suppress(Undecided):
            look = least_stretch if side is below else greatest_stretch
            end = look(verifier, p.key, LITTLE_WORK)
            if end is not None:
                return _side(session, p, end.value, side is below, included=not end.closed)
        return side
    return None


def best_construction(session: Session, search: Search, groups: tuple[int, ...]) -> Construction:
    """The construction of least rank that the search, which must hold, allows; the search stays as it is."""
    with search.aside():
        return settle_construction(session, search, groups).construction


def _verifier(session: Session, demand: Demand, groups: tuple[int, ...]) -> Search:
    search = session.search(groups)
    search.require(session.met(demand.region))
    met = session.met(demand.formula)
    search.require(~met if demand.wanted in ("every", "not every") else met)
    return search


def _breaking(session: Session, demand: Demand, verifier: Search, taken: list[Constraint]) -> Article | None:
    """An article that breaks the demand on the readings taken, and on as many others as it easily can."""
    with verifier.aside():
        verifier.require(*taken)
        if not verifier.find():
            return None
        met = demand.wanted == "none"
        if not verifier.find(session.surely(demand.formula, met)) and met:
            for part in items_of(demand.formula):
                keep(verifier, session.surely(part, met))
        return verifier.article()


# ---- free parameters


def stretch_values(session: Session, p: FreeParameter, demands: Sequence[Demand]) -> list[Fraction]:
    """Values of the parameter that are likely to decide the demands, ascending.

    Where stretching works one way only and all demands pull the same way: the presumed value and that end.
    Else the presumed value, the ends, each value at which some region starts or ceases to be met in part or
    in whole while all else is free, and one value within each gap.
    """
    touching = [d for d in demands if p.group in session.groups_in(d.formula) and d.wanted not in ONE]
    end = _one_end(session, p, touching)
    if end is not None:
        return sorted({p.presumed, end})
    points = {p.presumed, p.lower.value}
    if p.upper is not None:
        points.add(p.upper.value)
    for demand in touching:
        for part in items_of(demand.formula):
            if p.group in session.groups_in(part):
                points |= _turning_points(session, p, demand.region, part)
    ordered = sorted(points)
    gaps = [(a + b) / 2 for a, b in pairwise(ordered)]
    beyond = [] if p.upper is not None else [ordered[-1] * 2 + p.unit.factor]
    return [v for v in sorted({*ordered, *gaps, *beyond}) if lies_within(v, p.lower, p.upper)]


def _one_end(session: Session, p: FreeParameter, demands: Sequence[Demand]) -> Fraction | None:
    """The end of the parameter's interval that is best for all the demands, if there is such an end."""
    best: set[str] = set()
    for demand in demands:
        for part in items_of(demand.formula):
            if p.group in session.groups_in(part):
                way = session.way(p, part)
                lower_is_best = (way == "widens") == (demand.wanted == "none")
                best.add("" if not way else "low" if lower_is_best else "high")
    if best <= {"low"}:
        return p.lower.value if p.lower.closed else None
    if best == {"high"} and p.upper is not None and p.upper.closed:
        return p.upper.value
    return None


def _turning_points(
    session: Session, p: FreeParameter, region: Formula, part: Formula
) -> frozenset[Fraction]:
    """Where, as the parameter grows, the region starts or ceases to meet the part; looked for once."""
    key = (p.key, id(region), id(part))
    if key not in session.turning:
        points: set[Fraction] = set()
        for condition in (session.met(part), ~session.met(part)):
            search = session.search(session.groups_in(part, region))
            search.require(session.met(region), condition, session.reads(p.group, p.reading))
            with suppress(Undecided):
                if search.holds():
                    ends = (least_stretch(search, p.key), greatest_stretch(search, p.key))
                    points |= {end.value for end in ends if end is not None}
        # The formulas are kept beside the points so that their identities are not reused.
        session.turning[key] = (region, part, frozenset(points))
    return session.turning[key][2]
