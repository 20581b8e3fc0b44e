"""The core language once more, for a second solver library, by a translation of its own.

A formula becomes a whole number: 0 false, 1 undefined, 2 true; "and" is the least of its parts, "or" the
greatest, "not" is two minus it. A term becomes a real number with a condition that it has a value. Nothing is
shared with the program's own translation, which keeps two conditions for each formula and clears divisions.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations
from typing import Any as Cvc
from typing import Literal, assert_never

import cvc5
from cvc5 import Kind

from scopecheck.core.construction import Construction, admissible_readings
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
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
    Parameter,
    Rank,
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
    Truth,
)
from scopecheck.core.model import Sheet

Verdict = Literal["sat", "unsat", "unknown"]
Asked = Literal["true", "false", "undefined"]
VALUES: dict[Asked, int] = {"false": 0, "undefined": 1, "true": 2}
SIGNS = {"<": Kind.LT, "<=": Kind.LEQ, "=": Kind.EQUAL, ">=": Kind.GEQ, ">": Kind.GT}
WORK = 100_000
"""Steps of the second library for one question: as many on every machine."""


class SecondSolver:
    """One sheet in the second library: its vocabulary, its readings, its given facts."""

    def __init__(self, sheet: Sheet, work: int = WORK) -> None:
        self.sheet = sheet
        self.t = cvc5.TermManager()
        self.solver = cvc5.Solver(self.t)
        self.solver.setLogic("ALL")
        self.solver.setOption("rlimit-per", str(work))
        self.solver.setOption("incremental", "true")
        self.names: dict[str, Cvc] = {}
        self.members: dict[tuple[str, str], Cvc] = {}
        self.readings = [self.t.mkConst(self.t.getIntegerSort(), f"reading {g.index}") for g in sheet.groups]
        self.parameters = {p.key: self._real(f"parameter {p.key}") for p in sheet.parameters}
        for declaration in sheet.declarations:
            self._declare(declaration)
        for p in sheet.parameters:
            self._limit(self.parameters[p.key], p.lower, p.upper)
        for given in sheet.givens:
            self.solver.assertFormula(self._is(self.formula(given.formula), 2))

    def verdict(self, *asked: tuple[Formula, Asked], at: Construction | None = None) -> Verdict:
        """Is there a thing and a construction (or this one) on which each formula has the value asked?"""
        self.solver.push()
        try:
            if at is None:
                self._read_admissibly()
            else:
                self._read_as(at)
            for formula, value in asked:
                self.solver.assertFormula(self._is(self.formula(formula), VALUES[value]))
            result = self.solver.checkSat()
        finally:
            self.solver.pop()
        return "sat" if result.isSat() else "unsat" if result.isUnsat() else "unknown"

    def _read_admissibly(self) -> None:
        for group, chosen in zip(self.sheet.groups, self.readings, strict=True):
            allowed = [self._is(chosen, r) for r in admissible_readings(group)]
            self.solver.assertFormula(self._any(allowed))

    def _read_as(self, k: Construction) -> None:
        for chosen, reading in zip(self.readings, k.readings, strict=True):
            self.solver.assertFormula(self._is(chosen, reading))
        for key, value in k.parameters:
            self.solver.assertFormula(self.t.mkTerm(Kind.EQUAL, self.parameters[key], self._number(value)))

    # ---- vocabulary

    def _declare(self, d: NumberDecl | ChoiceDecl | SetDecl) -> None:
        match d:
            case NumberDecl():
                value = self._real(f"value {d.name}")
                if d.whole:
                    self.solver.assertFormula(self.t.mkTerm(Kind.IS_INTEGER, value))
                self._limit(value, d.lower, d.upper)
                self.names[d.name] = value
            case ChoiceDecl():
                taken = [self._member(d.name, m) for m in d.members]
                self.solver.assertFormula(self._is(self._sum([self._one_if(x) for x in taken]), 1))
            case SetDecl():
                for m in d.members:
                    self._member(d.name, m)
            case _:
                assert_never(d)

    def _member(self, name: str, member: str) -> Cvc:
        made = self.t.mkConst(self.t.getBooleanSort(), f"{name} / {member}")
        self.members[name, member] = made
        return made

    def _limit(self, value: Cvc, lower: Bound | None, upper: Bound | None) -> None:
        for bound, closed, open_ in ((lower, Kind.GEQ, Kind.GT), (upper, Kind.LEQ, Kind.LT)):
            if bound is not None:
                sign = closed if bound.closed else open_
                self.solver.assertFormula(self.t.mkTerm(sign, value, self._number(bound.value)))

    # ---- small words

    def _real(self, name: str) -> Cvc:
        return self.t.mkConst(self.t.getRealSort(), name)

    def _number(self, value: Fraction | int) -> Cvc:
        value = Fraction(value)
        return self.t.mkReal(value.numerator, value.denominator)

    def _is(self, whole: Cvc, value: int) -> Cvc:
        return self.t.mkTerm(Kind.EQUAL, whole, self.t.mkInteger(value))

    def _if(self, condition: Cvc, then: Cvc, otherwise: Cvc) -> Cvc:
        return self.t.mkTerm(Kind.ITE, condition, then, otherwise)

    def _one_if(self, condition: Cvc) -> Cvc:
        return self._if(condition, self.t.mkInteger(1), self.t.mkInteger(0))

    def _fold(self, kind: Kind, items: Sequence[Cvc], none: Cvc) -> Cvc:
        if not items:
            return none
        return items[0] if len(items) == 1 else self.t.mkTerm(kind, *items)

    def _sum(self, items: Sequence[Cvc]) -> Cvc:
        return self._fold(Kind.ADD, items, self.t.mkInteger(0))

    def _all(self, items: Sequence[Cvc]) -> Cvc:
        return self._fold(Kind.AND, items, self.t.mkTrue())

    def _any(self, items: Sequence[Cvc]) -> Cvc:
        return self._fold(Kind.OR, items, self.t.mkFalse())

    def _least(self, items: Sequence[Cvc], none: Cvc) -> Cvc:
        return self._most(items, none, Kind.LEQ)

    def _most(self, items: Sequence[Cvc], none: Cvc, sign: Kind) -> Cvc:
        found = items[0] if items else none
        for item in items[1:]:
            found = self._if(self.t.mkTerm(sign, found, item), found, item)
        return found

    def _floor(self, value: Cvc) -> Cvc:
        return self.t.mkTerm(Kind.TO_REAL, self.t.mkTerm(Kind.TO_INTEGER, value))

    def _plus(self, left: Cvc, right: Cvc) -> Cvc:
        return self.t.mkTerm(Kind.ADD, left, right)

    def _minus(self, value: Cvc) -> Cvc:
        return self.t.mkTerm(Kind.NEG, value)

    def _times(self, left: Cvc, right: Cvc) -> Cvc:
        return self.t.mkTerm(Kind.MULT, left, right)

    # ---- terms: (value, has one)

    def term(self, term: Term) -> tuple[Cvc, Cvc]:
        always = self.t.mkTrue()
        match term:
            case Const(value):
                return self._number(value), always
            case Measured(name):
                return self.names[name], always
            case Parameter(key):
                return self.parameters[key], always
            case CountOf(name):
                has = [self._one_if(x) for (n, _), x in self.members.items() if n == name]
                return self.t.mkTerm(Kind.TO_REAL, self._sum(has)), always
            case Ranked(rank, items, there):
                return self._ranked(
                    rank, [self.term(item) for item in items], [self.formula(f) for f in there]
                )
            case Branch(condition, then, otherwise):
                return self._branch(condition, then, otherwise)
            case ReadTerm(group, options):
                return self._by_reading(group, [self.term(o) for o in options])
            case Add(items) | Least(items) | Greatest(items):
                return self._several(term, [self.term(item) for item in items])
            case Multiply(left, right) | Divide(left, right):
                (a, has_a), (b, has_b) = self.term(left), self.term(right)
                if isinstance(term, Multiply):
                    return self._times(a, b), self._all([has_a, has_b])
                zero = self.t.mkTerm(Kind.EQUAL, b, self._number(0))
                safe = self._if(zero, self._number(1), b)
                return self.t.mkTerm(Kind.DIVISION, a, safe), self._all([has_a, has_b, zero.notTerm()])
            case Negate(item) | Magnitude(item) | Remainder(item) | Rounded(item):
                value, has = self.term(item)
                return self._of_one(term, value), has
            case _:
                assert_never(term)

    def _several(self, term: Add | Least | Greatest, parts: Sequence[tuple[Cvc, Cvc]]) -> tuple[Cvc, Cvc]:
        values, has = [v for v, _ in parts], self._all([h for _, h in parts])
        if isinstance(term, Add):
            return self._fold(Kind.ADD, values, self._number(0)), has
        sign = Kind.LEQ if isinstance(term, Least) else Kind.GEQ
        return self._most(values, self._number(0), sign), has if parts else self.t.mkFalse()

    def _ranked(self, rank: Rank, parts: Sequence[tuple[Cvc, Cvc]], there: Sequence[Cvc]) -> tuple[Cvc, Cvc]:
        """For each choice of items its own network of exchanges, and the middle of what comes out."""
        value, has = self._number(0), self.t.mkFalse()
        for size in range(1, len(parts) + 1):
            for chosen in combinations(range(len(parts)), size):
                ordered = [parts[i][0] for i in chosen]
                for end in range(size - 1, 0, -1):
                    for i in range(end):
                        a, b = ordered[i], ordered[i + 1]
                        ordered[i], ordered[i + 1] = (self._most([a, b], a, k) for k in (Kind.LEQ, Kind.GEQ))
                ends = {"least": (0, 0), "greatest": (-1, -1), "middle": ((size - 1) // 2, size // 2)}[rank]
                middle = self._plus(ordered[ends[0]], ordered[ends[1]])
                these = self._all([self._is(t, 2 if i in chosen else 0) for i, t in enumerate(there)])
                value = self._if(these, self._times(self._number(Fraction(1, 2)), middle), value)
                has = self._if(these, self._all([parts[i][1] for i in chosen]), has)
        return value, has

    def _of_one(self, term: Negate | Magnitude | Remainder | Rounded, value: Cvc) -> Cvc:
        match term:
            case Negate():
                return self._minus(value)
            case Magnitude():
                return self._most([value, self._minus(value)], value, Kind.GEQ)
            case Remainder(_, divisor):
                times = self._floor(self._times(self._number(1 / divisor), value))
                return self._plus(value, self._times(self._number(-divisor), times))
            case Rounded(_, step, rule, origin):
                steps = self._times(self._number(1 / step), self._plus(value, self._number(-origin)))
                whole = self._to_whole(steps, rule)
                return self._plus(self._number(origin), self._times(self._number(step), whole))

    def _to_whole(self, steps: Cvc, rule: str) -> Cvc:
        half = self._number(Fraction(1, 2))
        up = self._floor(self._plus(steps, half))
        down = self._minus(self._floor(self._plus(self._minus(steps), half)))
        if rule == "up":
            return up
        if rule == "away":
            return self._if(self.t.mkTerm(Kind.GEQ, steps, self._number(0)), up, down)
        # The two differ at a half only, and by one; there the even one of them is taken.
        even = self.t.mkTerm(Kind.IS_INTEGER, self._times(half, up))
        return self._if(even, up, down)

    def _branch(self, condition: Formula, then: Term, otherwise: Term) -> tuple[Cvc, Cvc]:
        truth = self.formula(condition)
        (a, has_a), (b, has_b) = self.term(then), self.term(otherwise)
        taken = self._is(truth, 2)
        has = self._all([self._is(truth, 1).notTerm(), self._if(taken, has_a, has_b)])
        return self._if(taken, a, b), has

    def _by_reading(self, group: int, options: Sequence[tuple[Cvc, Cvc]]) -> tuple[Cvc, Cvc]:
        value, has = options[-1]
        for r, (v, h) in reversed(list(enumerate(options[:-1]))):
            taken = self._is(self.readings[group], r)
            value, has = self._if(taken, v, value), self._if(taken, h, has)
        return value, has

    # ---- formulas: 0 false, 1 undefined, 2 true

    def formula(self, formula: Formula) -> Cvc:
        true, false = self.t.mkInteger(2), self.t.mkInteger(0)
        match formula:
            case Truth(value):
                return true if value else false
            case Compare() | IsWhole():
                return self._atom(formula)
            case Chosen(name, member) | Includes(name, member):
                return self._if(self.members[name, member], true, false)
            case Not(item):
                return self._not(self.formula(item))
            case All(items):
                return self._least([self.formula(item) for item in items], true)
            case Any(items):
                return self._greatest([self.formula(item) for item in items])
            case Implies(left, right):
                return self._greatest([self._not(self.formula(left)), self.formula(right)])
            case ExactlyOne(items):
                values = [self.formula(item) for item in items]
                alone = [
                    self._least([v if i == j else self._not(v) for j, v in enumerate(values)], true)
                    for i in range(len(values))
                ]
                return self._greatest(alone)
            case Read(group, options):
                value = self.formula(options[-1])
                for r, option in reversed(list(enumerate(options[:-1]))):
                    value = self._if(self._is(self.readings[group], r), self.formula(option), value)
                return value
            case _:
                assert_never(formula)

    def _not(self, value: Cvc) -> Cvc:
        return self.t.mkTerm(Kind.SUB, self.t.mkInteger(2), value)

    def _greatest(self, items: Sequence[Cvc]) -> Cvc:
        return self._most(items, self.t.mkInteger(0), Kind.GEQ)

    def _atom(self, formula: Compare | IsWhole) -> Cvc:
        if isinstance(formula, IsWhole):
            value, has = self.term(formula.item)
            holds = self.t.mkTerm(Kind.IS_INTEGER, value)
        else:
            (a, has_a), (b, has_b) = self.term(formula.left), self.term(formula.right)
            has = self._all([has_a, has_b])
            if formula.op == "!=":
                holds = self.t.mkTerm(Kind.EQUAL, a, b).notTerm()
            else:
                holds = self.t.mkTerm(SIGNS[formula.op], a, b)
        known = self._if(holds, self.t.mkInteger(2), self.t.mkInteger(0))
        return self._if(has, known, self.t.mkInteger(1))
