"""Ranges of one quantity with open and closed ends, and how one of them lies against another."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor
from typing import Literal, TypeAlias

from scopecheck.core.construction import Construction, names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Bound, Compare, Formula, Negate, Op, conjuncts
from scopecheck.core.linear import linear_form
from scopecheck.core.model import Sheet
from scopecheck.core.rewrite import read_at
from scopecheck.core.rounded_ranges import rounded_ends
from scopecheck.core.stated import MIRRORED
from scopecheck.foundations.record import record

Lie: TypeAlias = Literal[
    "point inside", "the same", "within", "contains", "overlaps", "touches", "apart", "empty"
]
"""How a range lies against another: a single value inside it; equal; wholly inside; wholly around; sharing a
part and each with more; sharing one end alone; sharing nothing. Empty: one of the two holds no value."""


@record
class Range:
    """Everything between two ends, in base units; None is no end."""

    low: Bound | None = None
    high: Bound | None = None

    @property
    def empty(self) -> bool:
        if self.low is None or self.high is None:
            return False
        if self.low.value == self.high.value:
            return not (self.low.closed and self.high.closed)
        return self.low.value > self.high.value

    def holds(self, value: Fraction) -> bool:
        """Is the value between the ends, or at one that is in?"""
        return not shared(self, Range(Bound(value, True), Bound(value, True))).empty

    @property
    def single(self) -> Fraction | None:
        """The only value, if there is just one."""
        if self.low is None or self.high is None or self.low.value != self.high.value or self.empty:
            return None
        return self.low.value


def shared(one: Range, other: Range) -> Range:
    """What both hold; empty where they share nothing."""
    return Range(_higher(one.low, other.low), _lower(one.high, other.high))


def _higher(a: Bound | None, b: Bound | None) -> Bound | None:
    if a is None or b is None:
        return b if a is None else a
    if a.value == b.value:
        return Bound(a.value, a.closed and b.closed)
    return a if a.value > b.value else b


def _lower(a: Bound | None, b: Bound | None) -> Bound | None:
    if a is None or b is None:
        return b if a is None else a
    if a.value == b.value:
        return Bound(a.value, a.closed and b.closed)
    return a if a.value < b.value else b


def lies(one: Range, other: Range) -> Lie:
    """How the first range lies against the second."""
    if one.empty or other.empty:
        return "empty"
    both = shared(one, other)
    if both.empty:
        return "apart"
    if one == other:
        return "the same"
    if both == one:
        return "point inside" if one.single is not None else "within"
    if both == other:
        return "contains"
    return "touches" if both.single is not None else "overlaps"


def distance(one: Range, other: Range) -> Fraction:
    """How far two ranges that share nothing are apart; 0 where they meet at an end that one leaves out."""
    for below, above in ((one, other), (other, one)):
        if below.high is not None and above.low is not None and below.high.value <= above.low.value:
            return above.low.value - below.high.value
    raise ValueError("the ranges share something")


@record
class Lying:
    """How a stated range of one number lies against what is asked of it.

    `shared` is what both hold, `distance` how far they are apart where they share nothing. `said` are the
    range asked and the one stated with the ends that are written, not those that the number has by itself,
    nor where what rounds to an end begins.
    """

    name: str
    stated: Range
    asked: Range
    relation: Lie
    shared: Range | None = None
    distance: Fraction | None = None
    said: tuple[Range, Range] = (Range(), Range())


def lying(sheet: Sheet, facts: Formula, formula: Formula, k: Construction) -> tuple[Lying, ...]:
    """How the ranges that facts state lie against those a formula asks for, number by number.

    Only of numbers that both limit by themselves: what ties several numbers is no range of one. Ranges that
    share nothing do so whatever else is asked, or stated, of the number.
    """
    asked, stated = limits_of(sheet, formula, k), limits_of(sheet, facts, k)
    loose = asked.loose | stated.loose
    return tuple(own for own in _by_name(asked, stated) if own.relation == "apart" or own.name not in loose)


def lying_beside_ties(sheet: Sheet, facts: Formula, formula: Formula, k: Construction) -> tuple[Lying, ...]:
    """As `lying`, of numbers that more ties to others: by what limits each of them alone."""
    asked, stated = limits_of(sheet, formula, k), limits_of(sheet, facts, k)
    return tuple(own for own in _by_name(asked, stated) if own.name in asked.loose | stated.loose)


def _by_name(asked: Limits, stated: Limits) -> Iterator[Lying]:
    for name, wanted in asked.ranges:
        if (own := dict(stated.ranges).get(name)) is not None:
            yield _lying(name, own, wanted, (dict(asked.said)[name], dict(stated.said)[name]))


def _lying(name: str, stated: Range, asked: Range, said: tuple[Range, Range]) -> Lying:
    relation = lies(stated, asked)
    if relation == "apart":
        return Lying(name, stated, asked, relation, None, distance(stated, asked), said)
    both = shared(stated, asked) if relation != "empty" else None
    return Lying(name, stated, asked, relation, both, None, said)


# ---- the ranges that a formula sets


@record
class Limits:
    """The range a formula sets for each number that it limits by itself, and the names it ties otherwise.

    `said` are the same ranges with the ends that the formula writes, without the bounds of the numbers and
    without what rounds to an end; `written` are these within the bounds.
    """

    ranges: tuple[tuple[str, Range], ...]
    loose: frozenset[str]
    said: tuple[tuple[str, Range], ...]
    written: tuple[tuple[str, Range], ...] = ()

    def written_of(self, name: str) -> Range | None:
        """The range of a number by its ends as written, if the formula says nothing else of it."""
        return None if name in self.loose else dict(self.written).get(name)

    def of(self, name: str) -> Range | None:
        """The range of a number, if the formula says nothing else of it."""
        return None if name in self.loose else dict(self.ranges).get(name)


def limits_of(sheet: Sheet, formula: Formula, k: Construction) -> Limits:
    """The ranges of single numbers that the formula asks for under a construction, within their bounds."""
    found: dict[str, Range] = {}
    written: dict[str, Range] = {}
    loose: frozenset[str] = frozenset()
    for item in conjuncts(read_at(formula, k)):
        limited = one_number(item)
        if limited is None:
            loose |= names_in(item)
            continue
        name, asked, ends = limited
        found[name] = shared(found.get(name, Range()), asked)
        written[name] = shared(written.get(name, Range()), ends)
    bounded = {name: _in_domain(sheet, name, asked) for name, asked in found.items()}
    said = {name: _whole(asked) if _declared(sheet, name).whole else asked for name, asked in written.items()}
    within = {name: _in_domain(sheet, name, asked) for name, asked in written.items()}
    return Limits(tuple(bounded.items()), loose, tuple(said.items()), tuple(within.items()))


def one_number(item: Formula) -> tuple[str, Range, Range] | None:
    """The number that a comparison limits, to what, and the ends as written; None for anything else."""
    if not isinstance(item, Compare) or item.op == "!=":
        return None
    if rounded := rounded_ends(item):
        return rounded[0], Range(*rounded[1]), Range(*rounded[2])
    form = linear_form(Add((item.left, Negate(item.right))))
    names = [n for n, factor in form.items() if n is not None and factor != 0] if form else []
    if form is None or len(names) != 1:
        return None
    name, factor = names[0], form[names[0]]
    op: Op = item.op if factor > 0 else MIRRORED[item.op]
    end = Bound(-form.get(None, Fraction(0)) / factor, op in ("<=", ">=", "="))
    assert name is not None
    own = Range(end if op in (">", ">=", "=") else None, end if op in ("<", "<=", "=") else None)
    return name, own, own


def _declared(sheet: Sheet, name: str) -> NumberDecl:
    d = sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    return d


def _in_domain(sheet: Sheet, name: str, asked: Range) -> Range:
    d = _declared(sheet, name)
    both = shared(asked, Range(d.lower, d.upper))
    return _whole(both) if d.whole else both


def _whole(asked: Range) -> Range:
    """The whole numbers of a range: its ends moved inwards to the first and the last of them."""
    low, high = asked.low, asked.high
    if low is not None:
        low = Bound(Fraction(ceil(low.value) if low.closed else floor(low.value) + 1), True)
    if high is not None:
        high = Bound(Fraction(floor(high.value) if high.closed else ceil(high.value) - 1), True)
    return Range(low, high)
