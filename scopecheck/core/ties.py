"""Ranges of what ties several numbers: of their ratio, or of a sum of multiples of them."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TypeAlias

from scopecheck.core.construction import Construction, names_in
from scopecheck.core.formula import (
    Add,
    Bound,
    Compare,
    Const,
    Divide,
    Formula,
    Greatest,
    Least,
    Measured,
    Multiply,
    Op,
    Term,
    Truth,
    conjuncts,
)
from scopecheck.core.linear import Linear, linear_form
from scopecheck.core.ranges import Lie, Range, distance, lies, shared
from scopecheck.core.rewrite import read_at
from scopecheck.core.stated import MIRRORED
from scopecheck.foundations.record import record

Sum: TypeAlias = tuple[tuple[str, Fraction], ...]
"""Names with their factors, by name; the first factor is 1."""


@record
class Tie:
    """A sum, or with `below` the ratio of two sums; of one name alone with nothing below the name itself."""

    above: Sum
    below: Sum = ()

    @property
    def names(self) -> frozenset[str]:
        return frozenset(name for name, _ in (*self.above, *self.below))

    @property
    def term(self) -> Term:
        """What is limited, as a term."""
        return Divide(_term(self.above), _term(self.below)) if self.below else _term(self.above)

    @property
    def mirrored(self) -> Tie:
        """The sum with every sign turned, what is added first."""
        turned = ((name, -factor) for name, factor in self.above)
        return Tie(tuple(sorted(turned, key=lambda item: item[1] < 0)))

    @property
    def upside_down(self) -> Tie:
        """The ratio the other way round."""
        return Tie(self.below, self.above)


@record
class TiedRanges:
    """The range that a formula sets for each number and each tie; `whole`: it asks for nothing else.

    `loose` are the names that it speaks of otherwise.
    """

    ranges: Mapping[Tie, Range]
    whole: bool
    loose: frozenset[str] = frozenset()


@record
class TiedLying:
    """How the range that is stated of a tie lies against the one asked of it; all as in `ranges.Lying`."""

    tie: Tie
    stated: Range
    asked: Range
    relation: Lie
    shared: Range | None = None
    distance: Fraction | None = None


def lying_ties(facts: Formula, formula: Formula, k: Construction) -> tuple[TiedLying, ...]:
    """How the ranges that facts state of ties lie against those that a formula asks for, tie by tie.

    Only of ties of several numbers that both limit by themselves, a ratio whichever way round it is stated.
    A difference is told the way round in which what is asked of it is above 0.
    """
    stated = ranges_of_ties(facts, k).ranges
    found = []
    for tie, asked in ranges_of_ties(formula, k).ranges.items():
        own = range_in(stated, tie)
        if own is None or len(tie.names) < 2:
            continue
        if not tie.below and asked.high is not None and asked.high.value <= 0:
            tie, own, asked = tie.mirrored, mirrored(own), mirrored(asked)
        relation = lies(own, asked)
        far = distance(own, asked) if relation == "apart" else None
        both = shared(own, asked) if relation not in ("apart", "empty") else None
        found.append(TiedLying(tie, own, asked, relation, both, far))
    return tuple(found)


def mirrored(own: Range) -> Range:
    """The range of what has every sign turned."""
    low, high = (end and Bound(-end.value, end.closed) for end in (own.high, own.low))
    return Range(low, high)


def range_in(limits: Mapping[Tie, Range], tie: Tie) -> Range | None:
    """The range that limits set for a tie, whichever way round they state a ratio."""
    if tie in limits or not tie.below:
        return limits.get(tie)
    other = limits.get(tie.upside_down)
    return None if other is None else upside_down(other)


def ranges_of_ties(formula: Formula, k: Construction) -> TiedRanges:
    """The ranges that the formula sets as read, in base units and without the bounds of the numbers."""
    found: dict[Tie, Range] = {}
    whole, loose = True, frozenset[str]()
    for item in conjuncts(read_at(formula, k)):
        ended = _ended(item)
        if ended is None:
            whole, loose = whole and item == Truth(True), loose | names_in(item)
            continue
        tie, own = ended
        found[tie] = shared(found.get(tie, Range()), own)
    return TiedRanges(found, whole, loose)


def _term(part: Sum) -> Term:
    items = tuple(Measured(n) if c == 1 else Multiply(Const(c), Measured(n)) for n, c in part)
    return items[0] if len(items) == 1 else Add(items)


def upside_down(own: Range) -> Range | None:
    """The range of 1 / x for x in a range above 0 with two ends; None for any other."""
    if own.low is None or own.high is None or own.low.value <= 0:
        return None
    return Range(Bound(1 / own.high.value, own.high.closed), Bound(1 / own.low.value, own.low.closed))


def _ended(item: Formula) -> tuple[Tie, Range] | None:
    """What a comparison limits, and to what; None for anything else."""
    if not isinstance(item, Compare) or item.op == "!=":
        return None
    turned = not names_in(item.left)
    term, limit = (item.right, item.left) if turned else (item.left, item.right)
    op: Op = MIRRORED[item.op] if turned else item.op
    value = _constant(limit)
    if value is None or not names_in(term):
        return None
    if isinstance(term, Divide):
        above, below = (_sum(linear_form(part)) for part in (term.left, term.right))
        if above is not None and below is not None:
            factor = above[1] / below[1]
            return Tie(above[0], below[0]), _range(op, value, factor)
    form = linear_form(term)
    found = _sum(None if form is None else {n: c for n, c in form.items() if n is not None})
    if found is None or form is None:
        return None
    return Tie(found[0]), _range(op, value - form.get(None, Fraction(0)), found[1])


def _range(op: Op, value: Fraction, factor: Fraction) -> Range:
    """What `factor * x op value` asks of x."""
    op = op if factor > 0 else MIRRORED[op]
    end = Bound(value / factor, op in ("<=", ">=", "="))
    return Range(end if op in (">", ">=", "=") else None, end if op in ("<", "<=", "=") else None)


def _sum(form: Linear | None) -> tuple[Sum, Fraction] | None:
    """A sum of names by itself, and the factor that was taken out of it."""
    if form is None or form.get(None, Fraction(0)) != 0:
        return None
    named = sorted((n, c) for n, c in form.items() if n is not None and c != 0)
    if not named:
        return None
    factor = named[0][1]
    return tuple((n, c / factor) for n, c in named), factor


def _constant(term: Term) -> Fraction | None:
    """The value of a term in which nothing measured occurs."""
    if isinstance(term, Least | Greatest):
        values = [_constant(item) for item in term.items]
        known = [v for v in values if v is not None]
        if not known or len(known) < len(values):
            return None
        return min(known) if isinstance(term, Least) else max(known)
    form = linear_form(term)
    return None if form is None or set(form) - {None} else form.get(None, Fraction(0))
