"""The symbolic meaning: the same language as `evaluate.py`, case by case, as solver constraints.

A term becomes a ratio `num / den` with a condition `defined`; a formula becomes a pair (true, false), neither
being the denial of the other unless the formula is total. Every division is guarded: the solver's own total
division never reaches an answer. With `at` a construction, readings and parameters are fixed; without, each
group is read by its selector variables.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from functools import reduce
from math import ceil, floor, lcm
from typing import TypeAlias, assert_never

import z3

from scopecheck.core.construction import Construction
from scopecheck.core.declared import SetDecl
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Bound,
    Branch,
    Chosen,
    Compare,
    Const,
    CountOf,
    Divide,
    ExactlyOne,
    Formula,
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
    Op,
    Parameter,
    Rank,
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Rule,
    Term,
    Truth,
)
from scopecheck.core.linear import always_whole, linear_form
from scopecheck.foundations.record import record
from scopecheck.solving.places import of_those_in_order
from scopecheck.solving.symbols import (
    MIRROR,
    Condition,
    Number,
    Vocabulary,
    as_number,
    at_least,
    both,
    choose,
    deny,
    either,
    numeral,
    plus,
    relate,
    times,
    whole_to_real,
)

Pair: TypeAlias = tuple[Condition, Condition]
"""Where a formula is true, and where it is false."""


@record
class Ratio:
    """A term's value `num / den` where `defined`; `den` is None for 1 and is never 0 where `defined`."""

    num: Number
    den: Number | None = None
    defined: Condition = True


# ---- terms


class Encoder:
    """Translates terms and formulas of one sheet; with `at`, under that one construction.

    With `admitted` a phrase is true only where all its admitted readings are, and false only where all are.
    """

    def __init__(
        self,
        words: Vocabulary,
        at: Construction | None = None,
        admitted: Callable[[int], tuple[int, ...]] | None = None,
    ) -> None:
        self.words = words
        self.at = at
        self.admitted = admitted

    def encode_term(self, term: Term) -> Ratio:
        match term:
            case Const(value):
                return Ratio(value)
            case Measured(name):
                return Ratio(self.words.number(name))
            case Parameter(key):
                return Ratio(self.at.parameter(key) if self.at else self.words.parameters[key])
            case Add(items):
                return reduce(_sum, (self.encode_term(item) for item in items), Ratio(Fraction(0)))
            case Negate(item):
                inner = self.encode_term(item)
                return Ratio(times(Fraction(-1), inner.num), inner.den, inner.defined)
            case Multiply(left, right):
                a, b = self.encode_term(left), self.encode_term(right)
                return Ratio(times(a.num, b.num), _product(a.den, b.den), both(a.defined, b.defined))
            case Divide(left, right):
                return _quotient(self.encode_term(left), self.encode_term(right))
            case Remainder(item, divisor):
                return self._remainder(item, divisor)
            case Magnitude(item):
                inner = self.encode_term(item)
                den = None if inner.den is None else _size(inner.den)
                return Ratio(_size(inner.num), den, inner.defined)
            case Least(items):
                return self._extreme(items, "<=")
            case Greatest(items):
                return self._extreme(items, ">=")
            case Rounded(item, step, rule, origin):
                return self._rounded(item, step, rule, origin)
            case CountOf(name):
                return Ratio(self._size_of_set(name))
            case Ranked(rank, items, there):
                return self._ranked(rank, items, there)
            case Branch(condition, then, otherwise):
                true, false = self.encode(condition)
                return _select(((true, self.encode_term(then)), (false, self.encode_term(otherwise))))
            case ReadTerm(group, options):
                if self.at:
                    return self.encode_term(options[self.at.readings[group]])
                chosen = self.words.selectors[group]
                return _select(tuple(zip(chosen, map(self.encode_term, options), strict=True)))
            case _:
                assert_never(term)

    def encode(self, formula: Formula) -> Pair:
        """Where the formula is true and where it is false; elsewhere it is undefined."""
        match formula:
            case Truth(value):
                return value, not value
            case Compare(op, left, right):
                return self._compare(op, left, right)
            case IsWhole(item):
                return self._is_whole(item)
            case Chosen(name, member):
                is_it = self.words.chosen(name, member)
                return is_it, deny(is_it)
            case Includes(name, member):
                has = self.words.includes(name, member)
                return has, deny(has)
            case Not(item):
                true, false = self.encode(item)
                return false, true
            case All(items):
                return _conjunction([self.encode(item) for item in items])
            case Any(items):
                return _disjunction([self.encode(item) for item in items])
            case Implies(left, right):
                true, false = self.encode(left)
                return _disjunction([(false, true), self.encode(right)])
            case ExactlyOne(items):
                return _exactly_one([self.encode(item) for item in items])
            case Read(group, options):
                if self.admitted:
                    sure = [self.encode(options[r]) for r in self.admitted(group)]
                    return both(*(true for true, _ in sure)), both(*(false for _, false in sure))
                if self.at:
                    return self.encode(options[self.at.readings[group]])
                chosen = self.words.selectors[group]
                pairs = [self.encode(option) for option in options]
                return (
                    either(*(both(s, true) for s, (true, _) in zip(chosen, pairs, strict=True))),
                    either(*(both(s, false) for s, (_, false) in zip(chosen, pairs, strict=True))),
                )
            case _:
                assert_never(formula)

    # ---- atoms

    def _compare(self, op: Op, left: Term, right: Term) -> Pair:
        if isinstance(right, Const) and isinstance(left, Rounded):
            return self._compare_rounded(op, left, right.value)
        if isinstance(left, Const) and isinstance(right, Rounded):
            return self._compare_rounded(MIRROR[op], right, left.value)
        return _relate(op, self.encode_term(left), self.encode_term(right))

    def _compare_rounded(self, op: Op, left: Rounded, limit: Fraction) -> Pair:
        # Rounding is monotone, so a comparison with a number is a half-line: no rounding reaches the solver.
        inner = self.encode_term(left.item)
        at_least = rounds_to_at_least(left, limit)
        above = rounds_to_above(left, limit)
        from_limit = _relate(">=" if at_least.closed else ">", inner, Ratio(at_least.value))
        beyond = _relate(">=" if above.closed else ">", inner, Ratio(above.value))
        match op:
            case ">=":
                return from_limit
            case ">":
                return beyond
            case "<":
                return from_limit[1], from_limit[0]
            case "<=":
                return beyond[1], beyond[0]
            case "=":
                return _conjunction([from_limit, (beyond[1], beyond[0])])
            case "!=":
                return _disjunction([(from_limit[1], from_limit[0]), beyond])
            case _:
                assert_never(op)

    def _is_whole(self, item: Term) -> Pair:
        whole = whole_form(item, self.words.wholes)
        if whole is not None:
            total, divisor = whole
            fits_count: Condition = True if divisor == 1 else total % divisor == 0
            return fits_count, deny(fits_count)
        inner = self.encode_term(item)
        if always_whole(item, self.words.wholes):
            return inner.defined, False
        value = _value(inner)
        if isinstance(value, Fraction):
            return both(inner.defined, value.denominator == 1), both(inner.defined, value.denominator != 1)
        fits = z3.IsInt(value)
        return both(inner.defined, fits), both(inner.defined, z3.Not(fits))

    def _remainder(self, item: Term, divisor: Fraction) -> Ratio:
        whole = whole_form(item, self.words.wholes)
        if whole is not None:
            total, scale = whole
            step = divisor * scale
            if step.denominator == 1:
                return Ratio(times(Fraction(1, scale), whole_to_real(total % step.numerator)))
        inner = self.encode_term(item)
        value = _value(inner)
        if isinstance(value, Fraction):
            return Ratio(value - divisor * floor(value / divisor), None, inner.defined)
        turns = z3.ToReal(z3.ToInt(as_number(times(1 / divisor, value))))
        return Ratio(value - numeral(divisor) * turns, None, inner.defined)

    def _rounded(self, item: Term, step: Fraction, rule: Rule, origin: Fraction) -> Ratio:
        inner = self.encode_term(item)
        scaled = times(1 / step, plus(_value(inner), -origin))
        value = as_number(scaled)
        half = numeral(Fraction(1, 2))

        def upward(x: z3.ArithRef) -> z3.ArithRef:
            return z3.ToReal(z3.ToInt(x + half))

        match rule:
            case "up":
                whole = upward(value)
            case "away":
                whole = z3.If(value >= 0, upward(value), -upward(-value))
            case "even":
                below = z3.ToInt(value)
                beyond = value - z3.ToReal(below)
                up = z3.Or(beyond > half, z3.And(beyond == half, below % 2 == 1))
                whole = z3.If(up, z3.ToReal(below) + 1, z3.ToReal(below))
            case _:
                assert_never(rule)
        return Ratio(plus(origin, times(step, whole)), None, inner.defined)

    def _extreme(self, items: tuple[Term, ...], op: Op) -> Ratio:
        def better(best: Ratio, item: Ratio) -> Ratio:
            keeps, _ = _relate(op, Ratio(best.num, best.den), Ratio(item.num, item.den))
            picked = _select(((keeps, Ratio(best.num, best.den)), (deny(keeps), Ratio(item.num, item.den))))
            return Ratio(picked.num, picked.den, both(best.defined, item.defined))

        if not items:
            return Ratio(Fraction(0), None, False)
        return reduce(better, map(self.encode_term, items))

    def _ranked(self, rank: Rank, items: tuple[Term, ...], there: tuple[Formula, ...]) -> Ratio:
        """A number of its own, or the mean of two, defined by how many of the items lie on either side.

        Of a number that is no middle one, more items lie below it than not, or more above it than not; so
        both middle ones are unique, as are the ends, and what defines them may be required everywhere.
        """
        ratios = [self.encode_term(item) for item in items]
        present = [self.encode(condition) for condition in there]
        settled = [either(true, false) for true, false in present]
        given = [either(deny(p), r.defined) for (p, _), r in zip(present, ratios, strict=True)]
        defined = both(either(*(p for p, _ in present)), *settled, *given)
        values = [(p, _value(r)) for (p, _), r in zip(present, ratios, strict=True) if p is not False]
        known = sorted(v for p, v in values if isinstance(v, Fraction) and p is True)
        if len(known) == len(values) and known:
            half = len(known) // 2
            chosen = {
                "least": known[:1],
                "greatest": known[-1:],
                "middle": known[half - 1 + len(known) % 2 : half + 1],
            }
            return Ratio(sum(chosen[rank], Fraction(0)) / len(chosen[rank]), None, defined)
        lower, upper = self.words.two_middle()
        if rank != "middle":
            self.words.define(
                either(deny(defined), _is_end(values, lower, ">=" if rank == "least" else "<="))
            )
            return Ratio(lower, None, defined)
        counted = both(
            _no_fewer(values, lower, "<="),
            _more(values, lower, ">="),
            _more(values, upper, "<="),
            _no_fewer(values, upper, ">="),
        )
        in_order, at_place = of_those_in_order(self.words, rank, items, there, (lower, upper))
        either_way = both(either(in_order, counted), either(deny(in_order), at_place))
        self.words.define(either(deny(defined), either_way))
        return Ratio(times(Fraction(1, 2), plus(lower, upper)), None, defined)

    def _size_of_set(self, name: str) -> Number:
        declared = self.words.declarations[name]
        assert isinstance(declared, SetDecl)
        one, none = Fraction(1), Fraction(0)
        counted = (choose(self.words.includes(name, m), one, none) for m in declared.members)
        return reduce(plus, counted, none)


# ---- how many of some values lie on either side of a number

Held: TypeAlias = Sequence[tuple[Condition, Number]]
"""Values, each with the condition that it counts."""


def _is_end(values: Held, end: Number, op: Op) -> Condition:
    """That every value stands in this relation to the end, and one of them is it."""
    within = (either(deny(p), relate(op, v, end)) for p, v in values)
    return both(*within, either(*(both(p, relate("=", v, end)) for p, v in values)))


def _more(values: Held, middle: Number, one: Op) -> Condition:
    """That more of the values stand in this relation to the middle than in its denial."""
    return at_least(_sides(values, middle, one), len(values) + 1)


def _no_fewer(values: Held, middle: Number, one: Op) -> Condition:
    """That no fewer of the values stand in this relation to the middle than in its denial."""
    return at_least(_sides(values, middle, one), len(values))


def _sides(values: Held, middle: Number, one: Op) -> list[Condition]:
    """As many conditions hold as there are values, more by those in the relation, less by the others."""
    held = [both(p, relate(one, v, middle)) for p, v in values]
    return [*held, *(either(deny(p), relate(one, v, middle)) for p, v in values)]


# ---- rounding against a written number (half-lines)


def rounds_to_at_least(grid: Rounded, limit: Fraction) -> Bound:
    """The values that round to `limit` or more: everything from this bound upward."""
    return _half_line(grid, ceil((limit - grid.origin) / grid.step))


def rounds_to_above(grid: Rounded, limit: Fraction) -> Bound:
    """The values that round to more than `limit`: everything from this bound upward."""
    return _half_line(grid, floor((limit - grid.origin) / grid.step) + 1)


def _half_line(grid: Rounded, index: int) -> Bound:
    value = grid.origin + grid.step * (index - Fraction(1, 2))
    match grid.rule:
        case "away":
            return Bound(value, index > 0)
        case "up":
            return Bound(value, True)
        case "even":
            return Bound(value, index % 2 == 0)
        case _:
            assert_never(grid.rule)


# ---- ratios


def _divisor(ratio: Ratio) -> Number:
    return Fraction(1) if ratio.den is None else ratio.den


def _sum(left: Ratio, right: Ratio) -> Ratio:
    defined = both(left.defined, right.defined)
    if left.den is None and right.den is None:
        return Ratio(plus(left.num, right.num), None, defined)
    num = plus(times(left.num, _divisor(right)), times(right.num, _divisor(left)))
    return Ratio(num, _product(left.den, right.den), defined)


def _product(left: Number | None, right: Number | None) -> Number | None:
    if left is None or right is None:
        return right if left is None else left
    return times(left, right)


def _quotient(left: Ratio, right: Ratio) -> Ratio:
    # (a/b) / (c/d) = (a*d) / (b*c), defined where c is not 0; b and d are not 0 where defined.
    defined = both(left.defined, right.defined, relate("!=", right.num, Fraction(0)))
    num = left.num if right.den is None else times(left.num, right.den)
    den = _product(left.den, right.num)
    if isinstance(den, Fraction):
        return Ratio(Fraction(0), None, False) if den == 0 else Ratio(times(1 / den, num), None, defined)
    return Ratio(num, den, defined)


def _size(value: Number) -> Number:
    if isinstance(value, Fraction):
        return abs(value)
    return z3.If(value >= 0, value, -value)


def _select(options: Sequence[tuple[Condition, Ratio]]) -> Ratio:
    """The ratio whose condition holds (at most one does); without value where none does."""
    kept = [(c, r) for c, r in options if c is not False]
    if not kept:
        return Ratio(Fraction(0), None, False)
    num, den = kept[-1][1].num, kept[-1][1].den
    shares_den = all(r.den is None for _, r in kept)
    if not shares_den:
        den = _divisor(kept[-1][1])
    for condition, ratio in reversed(kept[:-1]):
        num = choose(condition, ratio.num, num)
        if den is not None:
            den = choose(condition, _divisor(ratio), den)
    return Ratio(num, den, either(*(both(c, r.defined) for c, r in kept)))


def _value(ratio: Ratio) -> Number:
    """The ratio as one number; only to be used under its `defined`."""
    if ratio.den is None:
        return ratio.num
    return as_number(ratio.num) / as_number(ratio.den)


def _relate(op: Op, left: Ratio, right: Ratio) -> Pair:
    """Compares two ratios with the divisors multiplied out under their sign, so limits stay linear."""
    defined = both(left.defined, right.defined)
    if left.den is None and right.den is None:
        holds = relate(op, left.num, right.num)
        return both(defined, holds), both(defined, deny(holds))
    near, far = times(left.num, _divisor(right)), times(right.num, _divisor(left))
    holds_if_positive = relate(op, near, far)
    if op in ("=", "!="):
        return both(defined, holds_if_positive), both(defined, deny(holds_if_positive))
    positive = _positive(left.den, right.den)
    holds = either(both(positive, holds_if_positive), both(deny(positive), relate(MIRROR[op], near, far)))
    return both(defined, holds), both(defined, deny(holds))


def _positive(*divisors: Number | None) -> Condition:
    """Is the product of the divisors positive, none being 0?"""
    signs = [relate(">", d, Fraction(0)) for d in divisors if d is not None]

    def same(a: Condition, b: Condition) -> Condition:
        return either(both(a, b), both(deny(a), deny(b)))

    return reduce(same, signs)


# ---- connectives


def _conjunction(pairs: Sequence[Pair]) -> Pair:
    return both(*(true for true, _ in pairs)), either(*(false for _, false in pairs))


def _disjunction(pairs: Sequence[Pair]) -> Pair:
    return either(*(true for true, _ in pairs)), both(*(false for _, false in pairs))


def _exactly_one(pairs: Sequence[Pair]) -> Pair:
    def alone(index: int) -> Pair:
        return _conjunction([pair if i == index else (pair[1], pair[0]) for i, pair in enumerate(pairs)])

    return _disjunction([alone(index) for index in range(len(pairs))])


# ---- whole numbers


def whole_form(term: Term, wholes: Mapping[str, z3.ArithRef]) -> tuple[z3.ArithRef, int] | None:
    """The term as `whole expression / positive whole number`, if it is linear over counts; else None."""
    linear = linear_form(term)
    if linear is None or not set(linear) - {None} or not set(linear) - {None} <= set(wholes):
        return None
    scale = lcm(*(c.denominator for c in linear.values()))
    parts: list[z3.ArithRef] = [
        z3.IntVal((c * scale).numerator) * (wholes[name] if name is not None else z3.IntVal(1))
        for name, c in linear.items()
    ]
    return reduce(lambda a, b: a + b, parts), scale
