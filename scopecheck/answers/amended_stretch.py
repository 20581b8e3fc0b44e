"""How an amended claim lies to the one before as a hedge stretches, of which nobody says how far it does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from scopecheck.answers.about import Relation
from scopecheck.core.construction import Construction
from scopecheck.core.formula import Formula
from scopecheck.core.model import FreeParameter
from scopecheck.foundations.record import record
from scopecheck.solving.ends import Extremum, greatest_stretch, least_stretch
from scopecheck.solving.solver import Session

RELATIONS: dict[tuple[bool, bool], Relation] = {
    (False, False): "unchanged",
    (True, False): "narrowed",
    (False, True): "widened",
    (True, True): "both",
}
"""By whether something is given up, and whether something is gained."""


@record
class Stage:
    """From which stretch on a relation holds, up to the next stage; the first begins without any stretch."""

    start: Extremum
    relation: Relation


@record
class Stretching:
    """The relations of a claim as one hedge stretches, all else as presumed."""

    parameter: str
    stages: tuple[Stage, ...]


@record
class Sides:
    """A claim before and after, and what only the one or the other asks."""

    was: Formula
    now: Formula
    taken_out: Formula
    put_in: Formula


def stretchings(session: Session, sides: Sides) -> Iterator[Stretching]:
    """For each hedge with no stretch presumed and none stated, the relations that its stretch makes.

    Only of hedges whose stretching moves each claim one way, and on which the relation depends.
    """
    base = session.base
    for p in session.sheet.parameters:
        differing = session.groups_in(sides.taken_out, sides.put_in)
        unstretched = p.presumed == p.lower.value and p.upper is None and not p.unknown
        if p.group not in differing or base.readings[p.group] != p.reading or not unstretched:
            continue
        if not all(session.way(p, f) for f in (sides.was, sides.now) if p.group in session.groups_in(f)):
            continue
        stages = tuple(_stages(session, sides, p))
        if len(stages) > 1:
            yield Stretching(p.key, stages)


def _stages(session: Session, sides: Sides, p: FreeParameter) -> Iterator[Stage]:
    """The relation at each value where something begins or ceases to be given up or gained, and between."""
    points = sorted({p.presumed, *_ends(session, sides, p)})
    last: Relation | None = None
    for point, beyond in zip(points, _beyond(points, p), strict=True):
        for value, closed in ((point, True), (beyond, False)):
            relation = relation_on(session, sides, _at(session.base, p, value))
            if relation != last:
                yield Stage(Extremum(point, closed), relation)
            last = relation


def _beyond(points: Sequence[Fraction], p: FreeParameter) -> list[Fraction]:
    """A value after each point and before the next."""
    after = [*points[1:], points[-1] * 2 + p.unit.factor]
    return [(a + b) / 2 for a, b in zip(points, after, strict=True)]


def _at(base: Construction, p: FreeParameter, value: Fraction) -> Construction:
    return Construction(base.readings, tuple((k, value if k == p.key else v) for k, v in base.parameters))


def relation_on(session: Session, sides: Sides, k: Construction) -> Relation:
    """The claim before and after, held against each other as read in the construction."""
    search = session.search(())
    loses = search.holds(session.met(sides.was, k), ~session.met(sides.put_in, k))
    gains = search.holds(session.met(sides.now, k), ~session.met(sides.taken_out, k))
    return RELATIONS[loses, gains]


def _ends(session: Session, sides: Sides, p: FreeParameter) -> Iterator[Fraction]:
    """The least and the greatest stretch with which something is given up, and gained."""
    groups = session.groups_in(sides.was, sides.now)
    search = session.search(groups)
    search.require(*session.taken(session.base, (g for g in groups if g != p.group)))
    search.require(session.reads(p.group, p.reading))
    others = [q for q in session.sheet.parameters if q.group == p.group and q.key != p.key]
    search.require(*(session.stretches(q.key, q.presumed) for q in others))
    for region, missed in ((sides.was, sides.put_in), (sides.now, sides.taken_out)):
        with search.aside():
            search.require(session.met(region), ~session.met(missed))
            if search.holds():
                ends = (least_stretch(search, p.key), greatest_stretch(search, p.key))
                yield from (end.value for end in ends if end is not None)
