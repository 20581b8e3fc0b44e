"""The two most different things that meet a word of degree: the least and the greatest value."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.answers.witness import Obligation, Witness, verify
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Formula, Measured
from scopecheck.foundations.record import record
from scopecheck.solving.ends import Extremum, infimum, supremum
from scopecheck.solving.solver import Search, Session

VERY_FAR = Fraction(10**6)
"""The value in the unit of the sheet, above or below zero, that is shown where what is met has no end."""
FINEST = 100
"""Into how many steps a stretch without its ends is cut to show a thing close to one."""


@record
class Extremes:
    """Things with the least and the greatest value; `below`, `above`: what is met goes on beyond them."""

    least: Witness
    greatest: Witness
    below: bool
    above: bool


def most_different(session: Session, search: Search, d: NumberDecl, formula: Formula) -> Extremes | None:
    """The most different things that the search allows and that meet the formula, each on a construction of
    its own; None where there are no two. Raises Undecided.

    Values are in base units. An end that is not met itself is shown a little within.
    """
    if not search.holds():
        return None
    low, high = infimum(search, Measured(d.name)), supremum(search, Measured(d.name))
    step = _step(d, low, high)
    least = d.unit.to_base(-VERY_FAR) if low is None else low.value + (0 if low.closed else step)
    greatest = d.unit.to_base(VERY_FAR) if high is None else high.value - (0 if high.closed else step)
    found: list[Witness] = []
    for value in (least, greatest):
        if not search.find(session.equals(d.name, value)):
            return None
        obligation = Obligation(formula, "met", search.construction())
        found.append(verify(session.sheet, search.article(), (obligation,)))
    if found[0].values == found[1].values:
        return None
    return Extremes(found[0], found[1], low is None, high is None)


def _step(d: NumberDecl, low: Extremum | None, high: Extremum | None) -> Fraction:
    """How far within an open end a thing is shown: a unit, or a decimal part of it if that is too coarse."""
    step = d.unit.factor
    if low is not None and high is not None and not d.whole:
        while step * FINEST > high.value - low.value > 0:
            step /= 10
    return step
