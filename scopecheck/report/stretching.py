"""How far a number that a reading leaves open must go for one thing to change sides."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from scopecheck.answers.minimise import BreakPoint
from scopecheck.core.construction import Construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Article, Bound, Measured, Parameter, Term
from scopecheck.core.model import FreeParameter, Limitation, Sheet
from scopecheck.core.rewrite import rewritten
from scopecheck.foundations.record import replace
from scopecheck.report.boundary import Piece, region
from scopecheck.report.rereadings import at_all, is_allowance, stretch_text
from scopecheck.report.turning import NotShown
from scopecheck.report.wording import sentence
from scopecheck.solving.ends import Extremum
from scopecheck.solving.evaluate import meets

VERY_WIDE = 10**6
"""A stretch, in units of its own, at which anything that stretches is taken to be met."""


def own_parameters(sheet: Sheet, group: int, reading: int) -> tuple[FreeParameter, ...]:
    """The numbers that a reading of a phrase leaves open."""
    return tuple(p for p in sheet.parameters if (p.group, p.reading) == (group, reading))


def stretched(k: Construction, p: FreeParameter, value: Fraction) -> Construction:
    """The construction with another value of one parameter."""
    values = tuple((key, value if key == p.key else v) for key, v in k.parameters)
    return replace(k, parameters=values)


def suffices_as_presumed(
    p: FreeParameter, limitations: Iterable[Limitation], article: Article, k: Construction, met: bool
) -> bool:
    """Does the thing meet all the limitations, or miss one, with the parameter as presumed?"""
    return _side(limitations, article, stretched(k, p, p.presumed)) == met


def suffices(
    p: FreeParameter, limitations: Iterable[Limitation], article: Article, k: Construction, met: bool
) -> bool:
    """Does it so as presumed, or with the widest or a very wide stretch?"""
    widest = p.upper.value if p.upper else p.presumed + VERY_WIDE * max(p.unit.factor, Fraction(1))
    return any(_side(limitations, article, stretched(k, p, v)) == met for v in (p.presumed, widest))


def _side(limitations: Iterable[Limitation], article: Article, k: Construction) -> bool:
    return all(meets(x.formula, article, k) for x in limitations)


def break_point(
    p: FreeParameter, limitations: Sequence[Limitation], article: Article, k: Construction, met: bool
) -> BreakPoint | None:
    """From which value of the parameter on, all else as in `k`, the thing meets all the limitations, or not.

    Open or closed, exact, the nearer one where there are two sides. None where the presumed value does, or
    where there is no value from which on all further ones do, or none that is a fraction.
    """
    if suffices_as_presumed(p, limitations, article, k, met):
        return None
    formula = All(tuple(x.formula for x in limitations))

    def term(t: Term) -> Term | None:
        return Measured(p.key) if isinstance(t, Parameter) and t.key == p.key else None

    varied, presumed = rewritten(formula, term, lambda _: None), Bound(p.presumed, True)
    found = []
    for upward in (True, False):
        low, high = (presumed, p.upper) if upward else (p.lower, presumed)
        d = NumberDecl(p.key, p.unit.kind, p.unit, False, low, high, False, "", limitations[0].span)
        try:
            end = _end(region(varied, d, k, article), d, upward, met)
        except NotShown:
            continue
        found += [BreakPoint(p.key, end, upward)] if end else []
    return min(found, key=lambda b: (abs(b.end.value - p.presumed), not b.upward), default=None)


def _end(pieces: Sequence[Piece], d: NumberDecl, upward: bool, met: bool) -> Extremum | None:
    """Where what is wanted begins, on to the end of the interval: one piece met, or one piece left."""
    if len(pieces) != 1:
        return None
    (piece,) = pieces
    near, far = (piece.low, piece.high) if upward else (piece.high, piece.low)
    near_closed, far_closed = piece.low_closed, piece.high_closed
    if not upward:
        near_closed, far_closed = far_closed, near_closed
    last = d.upper if upward else d.lower
    reaches = far is None if last is None else far == last.value and far_closed == last.closed
    if reaches != met:
        return None
    end, closed = (near, near_closed) if met else (far, not far_closed)
    return Extremum(end, closed) if isinstance(end, Fraction) else None


def up_to(point: BreakPoint) -> BreakPoint:
    """The other side of a break-point: the values from the presumed one up to it."""
    end = Extremum(point.end.value, not point.end.closed)
    return replace(point, end=end, upward=not point.upward)


def so_far(sheet: Sheet, p: FreeParameter, point: BreakPoint) -> str:
    """`stretches by more than 2 %`, `has a threshold of 3 mm or more`."""
    if at_all(p, point):
        return sentence("far_allowance" if is_allowance(sheet, p) else "far", "widens_at_all")
    way = ("widens_" if point.upward else "narrows_") + ("closed" if point.end.closed else "open")
    table = "far_threshold" if p.unknown else "far_allowance" if is_allowance(sheet, p) else "far"
    return sentence(table, way, value=stretch_text(p, point.end.value))
