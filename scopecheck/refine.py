"""Is there one construction on which something holds of every thing? (exists construction, for all articles)

A proposer over readings alone offers constructions in the order of rank; a verifier looks, under the offered
one, for a thing that breaks a demand; what that thing rules out becomes a constraint on the readings. The
first construction that nothing breaks is therefore the best, and "none" rests on the things collected: for
every construction one of them breaks it.

Free parameters take part by finitely many values: the presumed one, the ends, and for each case the values
at which it changes side, with one value in each gap between. Where that is not known to be enough, a "none"
is undecided.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Literal, TypeAlias

from scopecheck.construction import Construction
from scopecheck.core import All, Article, Formula, FreeParameter
from scopecheck.minimise import keep, settle_construction
from scopecheck.record import record
from scopecheck.solver import Constraint, Search, Session, Undecided, all_of, any_of

Wanted: TypeAlias = Literal["every", "none"]
"""Of the articles of a region: all are met, or none is."""
MOST_ROUNDS = 400


@record
class Demand:
    """That every article of `region` meets `formula`, or that none does.

    Where the region is one known `article`, the demand is a condition on the readings from the start.
    """

    region: Formula
    formula: Formula
    wanted: Wanted
    article: Article | None = None


@record
class Refined:
    """The best construction that fulfils all demands, or None with one breaking article for each round."""

    construction: Construction | None
    articles: tuple[Article, ...]


def find_construction(session: Session, demands: Sequence[Demand]) -> Refined:
    """The construction of least rank that fulfils every demand. Raises `Undecided`."""
    groups = session.groups_in(*(f for d in demands for f in (d.region, d.formula)))
    parameters = [p for p in session.sheet.parameters if p.group in groups]
    proposer = session.search(groups, things=False)
    for demand in demands:
        if demand.article is not None:
            proposer.require(_fulfilled_at(session, demand, demand.article))
    demands = [demand for demand in demands if demand.article is None]
    complete = True
    for p in parameters if demands else []:
        values, enough = stretch_values(session, p, demands)
        complete = complete and enough
        proposer.require(any_of(session.stretches(p.key, v) for v in values))
    verifiers = [_verifier(session, demand, groups) for demand in demands]
    articles: list[Article] = []
    k: Construction | None = session.base
    for _ in range(MOST_ROUNDS):
        if k is None or not proposer.holds(*session.taken(k, groups)):
            if not proposer.holds():
                if not complete:
                    raise Undecided("a free parameter takes part in more than finitely many ways")
                return Refined(None, tuple(articles))
            k = best_construction(session, proposer, groups)
        broken = False
        for demand, verifier in zip(demands, verifiers, strict=True):
            article = _breaking(session, demand, verifier, session.taken(k, groups))
            if article is not None:
                articles.append(article)
                proposer.require(_fulfilled_at(session, demand, article))
                broken = True
        if not broken:
            return Refined(k, tuple(articles))
        k = None
    raise Undecided("the number of rounds ran out")


def best_construction(session: Session, search: Search, groups: tuple[int, ...]) -> Construction:
    """The construction of least rank that the search, which must hold, allows; the search stays as it is."""
    with search.aside():
        return settle_construction(session, search, groups).construction


def _verifier(session: Session, demand: Demand, groups: tuple[int, ...]) -> Search:
    search = session.search(groups)
    search.require(session.met(demand.region))
    met = session.met(demand.formula)
    search.require(met if demand.wanted == "none" else ~met)
    return search


def _breaking(session: Session, demand: Demand, verifier: Search, taken: list[Constraint]) -> Article | None:
    """An article that breaks the demand on the readings taken, and on as many others as it easily can."""
    with verifier.aside():
        verifier.require(*taken)
        if not verifier.find():
            return None
        for part in _parts(demand.formula):
            if session.groups_in(part):
                keep(verifier, session.surely(part, demand.wanted == "none"))
        return verifier.article()


def _fulfilled_at(session: Session, demand: Demand, article: Article) -> Constraint:
    """The readings on which this article does not break the demand."""
    met = session.met_by(demand.formula, article)
    outside = ~session.met_by(demand.region, article)
    return outside | (~met if demand.wanted == "none" else met)


# ---- free parameters


def stretch_values(
    session: Session, p: FreeParameter, demands: Sequence[Demand]
) -> tuple[list[Fraction], bool]:
    """Values of the parameter that decide the demands, and whether they are known to be enough.

    Where stretching works one way only and all demands pull the same way, the presumed value and that end are
    enough. Else: the presumed value, the ends, each value at which some region starts or ceases to be met in
    part or in whole while all else is free, and one value within each gap.
    """
    touching = [d for d in demands if p.group in session.groups_in(d.formula)]
    end = _one_end(session, p, touching)
    if end is not None:
        return sorted({p.presumed, end}), True
    points = {p.presumed, p.lower.value}
    if p.upper is not None:
        points.add(p.upper.value)
    alone = True
    for demand in touching:
        found, certain = _turning_points(session, p, demand)
        points |= found
        alone = alone and certain
    ordered = sorted(points)
    gaps = [(a + b) / 2 for a, b in pairwise(ordered)]
    beyond = [] if p.upper is not None else [ordered[-1] * 2 + 1]
    values = sorted({*ordered, *gaps, *beyond})
    inside = [v for v in values if _allowed(p, v)]
    return inside, alone


def _one_end(session: Session, p: FreeParameter, demands: Sequence[Demand]) -> Fraction | None:
    """The end of the parameter's interval that is best for all the demands, if there is such an end."""
    best: set[str] = set()
    for demand in demands:
        for part in _parts(demand.formula):
            if p.group in session.groups_in(part):
                way = session.way(p, part)
                lower_is_best = (way == "widens") == (demand.wanted == "none")
                best.add("" if not way else "low" if lower_is_best else "high")
    if best <= {"low"}:
        return p.lower.value if p.lower.closed else None
    if best == {"high"} and p.upper is not None and p.upper.closed:
        return p.upper.value
    return None


def _allowed(p: FreeParameter, value: Fraction) -> bool:
    above = value > p.lower.value or (p.lower.closed and value == p.lower.value)
    below = p.upper is None or value < p.upper.value or (p.upper.closed and value == p.upper.value)
    return above and below


def _turning_points(session: Session, p: FreeParameter, demand: Demand) -> tuple[set[Fraction], bool]:
    """Where, as the parameter grows, the region starts or ceases to be met, limitation by limitation.

    Certain where the parameter stretches its limitations one way only and no other group is read in them.
    """
    points: set[Fraction] = set()
    certain = True
    for part in _parts(demand.formula):
        if p.group not in session.groups_in(part):
            continue
        groups = session.groups_in(part, demand.region)
        certain = certain and groups == (p.group,) and bool(session.way(p, part))
        for condition in (session.met(part), ~session.met(part)):
            search = session.search(groups)
            search.require(session.met(demand.region), condition, session.reads(p.group, p.reading))
            try:
                if search.holds():
                    ends = (search.least_stretch(p.key), search.greatest_stretch(p.key))
                    points |= {end.value for end in ends if end is not None}
            except Undecided:
                certain = False
    return points, certain


def _parts(formula: Formula) -> tuple[Formula, ...]:
    return formula.items if isinstance(formula, All) else (formula,)


__all__ = ["Demand", "Refined", "all_of", "best_construction", "find_construction", "keep"]
