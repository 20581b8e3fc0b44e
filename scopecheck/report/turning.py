"""Where a formula in one quantity can change between true, false and undefined.

`turning_points` gives finitely many points that include all such places, and perhaps a few more: whoever uses
them evaluates the formula at each point and once between each two. Between the points every term is one
rational function, found by looking at a sample; rounding, remainders and "is whole" add the points at which
they step. Numbers are Fractions, or roots of polynomials that are no Fractions.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import cmp_to_key
from itertools import combinations, pairwise
from math import ceil, floor
from typing import TypeAlias, assert_never

from scopecheck.core.construction import Construction, Node, children, names_in
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Article,
    Branch,
    Chosen,
    Compare,
    Const,
    CountOf,
    Divide,
    ExactlyOne,
    Greatest,
    Implies,
    Includes,
    IsWhole,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Not,
    Parameter,
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
    Truth,
)
from scopecheck.foundations.record import field, holder
from scopecheck.report.roots import (
    End,
    Polynomial,
    before,
    between,
    enclosure,
    in_order,
    plus,
    times,
    trimmed,
)
from scopecheck.solving.evaluate import evaluate, evaluate_term

MOST_POINTS = 4000
HALF = Fraction(1, 2)


class NotShown(Exception):
    """The region cannot be given in closed form; the message says why, for people."""


Solve: TypeAlias = Callable[[Polynomial], Iterable[End]]
"""All real roots of a polynomial that is not constant; the same object for the same irrational root."""


# ---- the search for turning points


@holder
class _Points:
    """Points found so far between two ends, and the formula's surroundings."""

    name: str
    fixed: Article
    k: Construction
    low: Fraction | None
    high: Fraction | None
    solve: Solve
    found: dict[End, None] = field(default_factory=dict)
    solved: set[Polynomial] = field(default_factory=set)

    def add(self, polynomial: Polynomial) -> None:
        """Adds the roots of the polynomial that lie between the ends."""
        if len(polynomial) < 2:
            return
        scaled = tuple(c / polynomial[-1] for c in polynomial)
        if scaled in self.solved:
            return
        self.solved.add(scaled)
        for root in self.solve(scaled):
            above = self.low is None or before(self.low, root)
            if above and (self.high is None or before(root, self.high)):
                self.found[root] = None
        if len(self.found) > MOST_POINTS:
            raise NotShown("it changes in too many places to list")

    def ordered(self) -> list[End]:
        return sorted(self.found, key=cmp_to_key(in_order))

    def cells(self) -> list[tuple[End | None, End | None]]:
        """The open intervals that the points leave."""
        if self.low is not None and self.low == self.high:
            return []
        return list(pairwise([self.low, *self.ordered(), self.high]))

    def samples(self) -> list[Fraction]:
        return [between(low, high) for low, high in self.cells()]

    def article(self, x: Fraction) -> Article:
        return {**self.fixed, self.name: x}

    # ---- what a term is near a sample

    def value(self, term: Term, x: Fraction) -> Fraction | None:
        return evaluate_term(term, self.article(x), self.k)

    def form(self, term: Term, x: Fraction) -> tuple[Polynomial, Polynomial] | None:
        """Numerator and denominator of the term around x; None where it has no value."""
        value = self.value(term, x)
        if value is None:
            return None
        match term:
            case Const() | Parameter() | CountOf() | Rounded():
                return trimmed([value]), (Fraction(1),)
            case Measured(name):
                own = (Fraction(0), Fraction(1)) if name == self.name else trimmed([value])
                return own, (Fraction(1),)
            case Add(items):
                return self.total([self.form(item, x) for item in items])
            case Negate(item):
                return self.scaled(self.form(item, x), Fraction(-1))
            case Multiply(left, right):
                return self.product(self.form(left, x), self.form(right, x))
            case Divide(left, right):
                divisor = self.form(right, x)
                return self.product(self.form(left, x), divisor and (divisor[1], divisor[0]))
            case Remainder(item):
                inner = self.value(item, x)
                assert inner is not None
                shift = trimmed([value - inner]), (Fraction(1),)
                return self.total([self.form(item, x), shift])
            case Magnitude(item):
                inner = self.value(item, x)
                assert inner is not None
                return self.scaled(self.form(item, x), Fraction(-1 if inner < 0 else 1))
            case Least(items) | Greatest(items):
                return self.form(next(item for item in items if self.value(item, x) == value), x)
            case Ranked(rank, items, there):
                at = self.article(x)
                kept = [t for t, f in zip(items, there, strict=True) if evaluate(f, at, self.k)]
                ordered = sorted(kept, key=lambda item: self.value(item, x) or Fraction(0))
                if rank != "middle":
                    return self.form(ordered[0 if rank == "least" else -1], x)
                middle = (ordered[(len(ordered) - 1) // 2], ordered[len(ordered) // 2])
                return self.scaled(self.total([self.form(item, x) for item in middle]), HALF)
            case Branch(condition, then, otherwise):
                return self.form(then if evaluate(condition, self.article(x), self.k) else otherwise, x)
            case ReadTerm(group, options):
                return self.form(options[self.k.readings[group]], x)
            case _:
                assert_never(term)

    @staticmethod
    def total(
        forms: list[tuple[Polynomial, Polynomial] | None],
    ) -> tuple[Polynomial, Polynomial] | None:
        numerator: Polynomial = ()
        denominator: Polynomial = (Fraction(1),)
        for form in forms:
            if form is None:
                return None
            numerator = plus(times(numerator, form[1]), times(form[0], denominator))
            denominator = times(denominator, form[1])
        return numerator, denominator

    @staticmethod
    def scaled(
        form: tuple[Polynomial, Polynomial] | None, factor: Fraction
    ) -> tuple[Polynomial, Polynomial] | None:
        return form and (times(form[0], (factor,)), form[1])

    @staticmethod
    def product(
        a: tuple[Polynomial, Polynomial] | None, b: tuple[Polynomial, Polynomial] | None
    ) -> tuple[Polynomial, Polynomial] | None:
        return a and b and (times(a[0], b[0]), times(a[1], b[1]))

    # ---- points, innermost first

    def visit(self, node: Node) -> None:
        """Adds every point at which the node can change its value (a formula) or its form (a term)."""
        if isinstance(node, Read | ReadTerm):
            self.visit(node.options[self.k.readings[node.group]])
            return
        if isinstance(node, Compare) and (
            self.near_a_number(node.left, node.right) or self.near_a_number(node.right, node.left)
        ):
            return
        for child in children(node):
            self.visit(child)
        self.add_own(node)

    def add_own(self, node: Node) -> None:
        """Adds the points of the node itself, those of its parts being there."""
        match node:
            case Divide(_, divisor):
                self.meet(divisor, Const(Fraction(0)))
            case Magnitude(item):
                self.meet(item, Const(Fraction(0)))
            case Least(items) | Greatest(items) | Ranked(_, items):
                for one, other in combinations(items, 2):
                    self.meet(one, other)
            case Compare(_, left, right):
                self.meet(left, right)
            case Remainder(item, divisor_value):
                self.steps(item, divisor_value, Fraction(0))
            case Rounded(item, step, _, origin):
                self.steps(item, step, origin + step * HALF)
            case IsWhole(item):
                self.steps(item, Fraction(1), Fraction(0))
            case Const() | Measured() | Parameter() | CountOf() | Add() | Negate() | Multiply() | Branch():
                pass
            case Truth() | Chosen() | Includes() | Not() | All() | Any() | Implies() | ExactlyOne():
                pass
            case Read() | ReadTerm():
                pass
            case _:
                assert_never(node)

    def meet(self, left: Term, right: Term) -> None:
        """Adds where two terms are equal."""
        for x in self.samples():
            form = self.total([self.form(left, x), self.scaled(self.form(right, x), Fraction(-1))])
            if form is not None:
                self.add(form[0])

    def near_a_number(self, rounded: Term, limit: Term) -> bool:
        """A rounded term beside a fixed number changes sides at the steps next to the number only."""
        if not isinstance(rounded, Rounded) or self.name in names_in(limit):
            return False
        self.visit(rounded.item)
        value = self.value(limit, between(self.low, self.high) if self.low != self.high else Fraction(0))
        if value is None:
            return True
        place = (value - rounded.origin) / rounded.step
        for index in {floor(place), ceil(place)}:
            for half in (-HALF, HALF):
                self.meet(rounded.item, Const(rounded.origin + rounded.step * (index + half)))
        return True

    def steps(self, item: Term, step: Fraction, first: Fraction) -> None:
        """Adds where the item equals `first` plus a whole number of steps."""
        for low, high in self.cells():
            form = self.form(item, between(low, high))
            if form is None or (len(form[0]) < 2 and len(form[1]) < 2):
                continue
            if low is None or high is None:
                raise NotShown("it changes in endlessly many places")
            a = low if isinstance(low, Fraction) else low.low
            b = high if isinstance(high, Fraction) else high.high
            above, below = enclosure(form[0], a, b), enclosure(form[1], a, b)
            if below[0] <= 0 <= below[1]:
                raise NotShown("it changes in endlessly many places")
            reached = [top / bottom for top in above for bottom in below]
            lowest, highest = ceil((min(reached) - first) / step), floor((max(reached) - first) / step)
            if highest - lowest > MOST_POINTS:
                raise NotShown("it changes in too many places to list")
            for index in range(lowest, highest + 1):
                self.add(plus(form[0], form[1], -(first + step * index)))


def turning_points(
    formula: Node,
    name: str,
    fixed: Article,
    k: Construction,
    low: Fraction | None,
    high: Fraction | None,
    solve: Solve,
) -> list[End]:
    """Ascending points strictly between `low` and `high`, with nothing changing between two neighbours.

    `name` is the one quantity that varies, in base units; everything else is in `fixed`. Raises NotShown
    where there are endlessly many such points, or too many to list.
    """
    points = _Points(name, fixed, k, low, high, solve)
    points.visit(formula)
    return points.ordered()
