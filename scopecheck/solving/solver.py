"""Questions to the solver: sessions, searches, budgets. No solver object leaves this floor.

A `Session` belongs to one sheet and turns formulas into opaque `Constraint`s. A `Search` is one line of
questioning over some groups: in it every group takes exactly one admissible reading, always, since a group
left without a reading would deny claims that are met. An answer of the solver is sat, unsat, or `Undecided`,
raised with its reason and never taken for either of the others.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from fractions import Fraction
from functools import cached_property, reduce
from itertools import islice, product
from typing import Literal

import z3

from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    base_construction,
    departs,
    groups_in,
    names_in,
    nodes,
    parameters_in,
)
from scopecheck.core.linear import multiplies_unknowns
from scopecheck.core.model import (
    STANDINGS,
    All,
    Any,
    Article,
    Const,
    Formula,
    FreeParameter,
    Multiply,
    Read,
    ReadTerm,
    Sheet,
    Value,
)
from scopecheck.core.rewrite import read_as
from scopecheck.foundations.record import field, record, replace
from scopecheck.solving.encode import Encoder
from scopecheck.solving.engine import MOST_SECONDS, MOST_SECONDS_OF_PRODUCTS, Engine, Found, afresh
from scopecheck.solving.evaluate import meets
from scopecheck.solving.known import Known, Seen
from scopecheck.solving.places import NOWHERE, Placed, Places
from scopecheck.solving.symbols import (
    Condition,
    Vocabulary,
    as_bool,
    at_most,
    both,
    conjunction,
    disjunction,
    either,
    is_true_in,
    negation,
    numeral,
    rational_in,
    relate,
    within,
)

MORE_WORK = Fraction(4)
"""So many times the work of one step is spent where a question is asked once more, afresh."""
LITTLE_WORK = Fraction(1, 4)
"""So much of it where the answer can be done without."""
MOST_WAYS = 16
"""Ways of reading one limitation that are gone through one by one."""


class Undecided(Exception):
    """The solver gave no answer: the work budget or the wall limit ran out, or only irrational values fit."""


@record
class Budget:
    """`work` solver steps for each query (deterministic); `wall` seconds for the whole sheet."""

    work: int = 4_000_000
    wall: int = 60


@record
class Constraint:
    """An opaque condition on articles, readings and parameters.

    A `literal` is a Boolean variable or its denial, which the solver can assume without a new scope. `placed`
    are the like parts that may not change places with others in it; None where that is not known.
    """

    expression: z3.BoolRef = field(repr=False)
    literal: bool = field(default=False, repr=False)
    placed: Placed | None = field(default=None, repr=False)

    def __and__(self, other: Constraint) -> Constraint:
        return all_of((self, other))

    def __or__(self, other: Constraint) -> Constraint:
        return any_of((self, other))

    def __invert__(self) -> Constraint:
        literal = self.literal and not z3.is_not(self.expression)
        return Constraint(negation(self.expression), literal, self.placed)


def all_of(items: Iterable[Constraint]) -> Constraint:
    kept = tuple(items)
    return Constraint(as_bool(both(*(item.expression for item in kept))), placed=placed_in(kept))


def any_of(items: Iterable[Constraint]) -> Constraint:
    kept = tuple(items)
    return Constraint(as_bool(either(*(item.expression for item in kept))), placed=placed_in(kept))


def placed_in(items: Iterable[Constraint]) -> Placed | None:
    """The parts that may not change places in one of the constraints."""
    found = NOWHERE
    for item in items:
        if item.placed is None:
            return None
        found |= item.placed
    return found


class Session:
    """The sheet as the solver sees it."""

    def __init__(self, sheet: Sheet, budget: Budget | None = None, strained: bool = False) -> None:
        self.sheet = sheet
        self.budget = budget or Budget()
        self.strained = strained
        self.words = Vocabulary(sheet)
        self.places = Places(sheet, self.words)
        self.base = base_construction(sheet)
        self.started = time.monotonic()
        self._one_reading: dict[int, z3.BoolRef] = {}
        self._engines: dict[bool, Engine] = {}
        self._known: dict[bool, Known] = {}
        self._made: dict[tuple[object, ...], Constraint] = {}
        self._occurs: dict[int, tuple[Formula, tuple[int, ...], frozenset[str]]] = {}
        self._met_by_values: dict[tuple[int, bool, tuple[Value, ...]], Condition] = {}
        self._met_by_article: dict[tuple[int, int, bool], tuple[Formula, Article, Constraint]] = {}
        self._open: dict[int, tuple[Formula, bool]] = {}
        self.turning: dict[tuple[str, int, int], tuple[Formula, Formula, frozenset[Fraction]]] = {}
        self._as_base: dict[tuple[int, int], Formula] = {}
        self._ways: dict[tuple[str, int], Literal["widens", "narrows", ""]] = {}
        self._met: dict[tuple[int, object], tuple[Formula, z3.BoolRef, z3.BoolRef]] = {}

    # ---- what occurs in formulas, looked up once for each formula

    def groups_in(self, *formulas: Formula) -> tuple[int, ...]:
        """The groups that occur in the formulas, ascending."""
        if len(formulas) == 1:
            return self._occurring(formulas[0])[1]
        return tuple(sorted(set().union(*(self._occurring(f)[1] for f in formulas))))

    def names_in(self, *formulas: Formula) -> frozenset[str]:
        """The declared names that occur in the formulas under some reading."""
        return frozenset().union(*(self._occurring(f)[2] for f in formulas))

    def _occurring(self, formula: Formula) -> tuple[Formula, tuple[int, ...], frozenset[str]]:
        key = id(formula)
        if key not in self._occurs:
            if isinstance(formula, All | Any):
                groups: tuple[int, ...] = self.groups_in(*formula.items)
                names = self.names_in(*formula.items)
            else:
                groups, names = groups_in(formula), names_in(formula)
            self._occurs[key] = (formula, groups, names)
        return self._occurs[key]

    # ---- constraints

    def met(self, formula: Formula, at: Construction | None = None) -> Constraint:
        """That the formula is true; under one construction if `at` is given, else as the search reads it."""
        return Constraint(self._pair(formula, at)[1], placed=self.places.of(formula))

    def denied(self, formula: Formula, at: Construction | None = None) -> Constraint:
        """That the formula is false (being undefined is neither true nor false)."""
        return Constraint(self._pair(formula, at)[2], placed=self.places.of(formula))

    def undefined(self, formula: Formula, at: Construction | None = None) -> Constraint:
        _, true, false = self._pair(formula, at)
        return Constraint(conjunction((negation(true), negation(false))), placed=self.places.of(formula))

    def surely(self, formula: Formula, met: bool) -> Constraint:
        """That the formula is true (or false, unless `met`) on every admissible reading of each phrase in it.

        Free parameters are as presumed; terms too, in the rare formula that has too many readings of terms.
        """
        key = ("surely", id(formula), met)
        if key not in self._made:
            self._pair(formula, None)  # keeps the formula, so that its identity is not reused
            if isinstance(formula, All | Any):
                parts = [self.surely(item, met) for item in formula.items]
                joined = all_of(parts) if met == isinstance(formula, All) else any_of(parts)
                # Parts that may change places in the whole may be bound in each item of it.
                self._made[key] = replace(joined, placed=self.places.of(formula))
            else:
                encoders = [Encoder(self.words, k, self._admitted) for k in self._term_ways(formula)]
                pairs = [encoder.encode(formula) for encoder in encoders]
                sure = as_bool(both(*(pair[0 if met else 1] for pair in pairs)))
                self._made[key] = Constraint(sure, placed=self.places.of(formula))
        return self._made[key]

    def _term_ways(self, formula: Formula) -> list[Construction]:
        """The base with the terms of the formula read in every admissible way; the base alone if too many."""
        groups = sorted({node.group for node in nodes(formula) if isinstance(node, ReadTerm)})
        return self.ways_of_reading(groups) or [self.base]

    def _admitted(self, group: int) -> tuple[int, ...]:
        return admissible_readings(self.sheet.groups[group], self.strained)

    def met_by(self, formula: Formula, article: Article, stretch: bool = True) -> Constraint:
        """The readings and parameters on which this article makes the formula true.

        Where only readings are open the exact evaluator decides, reading by reading; without `stretch` every
        parameter is as presumed, and nothing but readings is open.
        """
        key = (id(formula), id(article), stretch)
        if key not in self._met_by_article:
            made = Constraint(as_bool(self._met_by(formula, article, stretch)), placed=NOWHERE)
            # Both are kept beside the constraint so that their identities are not reused.
            self._met_by_article[key] = (formula, article, made)
        return self._met_by_article[key][2]

    def _met_by(self, formula: Formula, article: Article, stretch: bool) -> Condition:
        if isinstance(formula, All):
            return both(*(self._met_by(item, article, stretch) for item in formula.items))
        if isinstance(formula, Any):
            return either(*(self._met_by(item, article, stretch) for item in formula.items))
        # Of things that differ in other values the answer is the same. What occurs in the formula is kept
        # beside it, so its identity is not reused.
        key = (id(formula), stretch, tuple(article[name] for name in sorted(self.names_in(formula))))
        if key not in self._met_by_values:
            self._met_by_values[key] = self._one_met_by(formula, article, stretch)
        return self._met_by_values[key]

    def _one_met_by(self, formula: Formula, article: Article, stretch: bool) -> Condition:
        if isinstance(formula, All | Any):
            return self._met_by(formula, article, stretch)
        if not self._is_open(formula) or not (stretch or self.groups_in(formula)):
            return meets(formula, article, self.base)
        if isinstance(formula, Read):
            chosen = self.words.selectors[formula.group]
            met = [self._one_met_by(option, article, stretch) for option in formula.options]
            return either(*(both(s, m) for s, m in zip(chosen, met, strict=True)))
        groups = self.groups_in(formula)
        ways = [] if stretch and parameters_in(formula) else self.ways_of_reading(groups)
        if not ways:
            return Encoder(self.words.at_article(article)).encode(formula)[0]
        kept = [k for k in ways if meets(formula, article, k)]
        return either(*(both(*(self.words.selectors[g][k.readings[g]] for g in groups)) for k in kept))

    def _is_open(self, formula: Formula) -> bool:
        """Does the formula's value depend on more than the article?"""
        key = id(formula)
        if key not in self._open:
            self._open[key] = (formula, bool(self.groups_in(formula)) or bool(parameters_in(formula)))
        return self._open[key][1]

    def ways_of_reading(self, groups: Sequence[int]) -> list[Construction]:
        """The base with these groups read in every admissible way; nothing if those are too many."""
        ways = list(islice(product(*map(self._admitted, groups)), MOST_WAYS + 1))
        if len(ways) > MOST_WAYS:
            return []
        return [reduce(_taking, zip(groups, way, strict=True), self.base) for way in ways]

    def _pair(self, formula: Formula, at: Construction | None) -> tuple[Formula, z3.BoolRef, z3.BoolRef]:
        key = (id(formula), self._as_far_as_used(formula, at))
        if key not in self._met:
            if isinstance(formula, All):
                parts = [self._pair(item, at) for item in formula.items]
                true, false = both(*(p[1] for p in parts)), either(*(p[2] for p in parts))
            elif isinstance(formula, Any):
                parts = [self._pair(item, at) for item in formula.items]
                true, false = either(*(p[1] for p in parts)), both(*(p[2] for p in parts))
            else:
                true, false = Encoder(self.words, at).encode(formula)
            # The formula is kept beside its encoding so that its identity is not reused.
            self._met[key] = (formula, as_bool(true), as_bool(false))
        return self._met[key]

    def _as_far_as_used(self, formula: Formula, at: Construction | None) -> object:
        """What of a construction the formula depends on."""
        if at is None:
            return None
        groups = self.groups_in(formula)
        values = dict(at.parameters)
        stretches = [values[p.key] for p in self.sheet.parameters if p.group in groups]
        return tuple(at.readings[g] for g in groups), tuple(stretches)

    def equals(self, name: str, value: object) -> Constraint:
        key = ("equals", name, value)
        if key not in self._made:
            self._made[key] = Constraint(self.words.equals(name, value), placed=self.places.of_name(name))
        return self._made[key]

    def at_least(self, name: str, value: Fraction) -> Constraint:
        limit = as_bool(relate(">=", self.words.numbers[name], value))
        return Constraint(limit, placed=self.places.of_name(name))

    def at_most(self, name: str, value: Fraction) -> Constraint:
        limit = as_bool(relate("<=", self.words.numbers[name], value))
        return Constraint(limit, placed=self.places.of_name(name))

    def includes(self, name: str, member: str, wanted: bool) -> Constraint:
        has = self.words.members[name, member]
        return Constraint(has if wanted else negation(has), True, self.places.of_name(name))

    def on_grid(self, name: str, step: Fraction, origin: Fraction, wide: bool = False) -> Constraint:
        """That the number is `origin` plus a whole multiple of `step`.

        A search may require of a name one grid and beside it one `wide` one.
        """
        if name in self.words.wholes:
            if step <= 1 and (1 / step).denominator == 1 and origin.denominator == 1:
                return Constraint(as_bool(True), placed=NOWHERE)
            value: z3.ArithRef = self.words.numbers[name]
        else:
            value = self.words.numbers[name]
        index = (self.words.wide_grid if wide else self.words.grid)[name]
        on_grid = value == numeral(origin) + numeral(step) * z3.ToReal(index)
        return Constraint(on_grid, placed=self.places.of_name(name))

    def reads(self, group: int, reading: int) -> Constraint:
        return Constraint(self.words.selectors[group][reading], True, NOWHERE)

    def stretches(self, key: str, value: Fraction) -> Constraint:
        made = ("stretch", key, value)
        if made not in self._made:
            equal = as_bool(relate("=", self.words.parameters[key], value))
            self._made[made] = Constraint(equal, placed=NOWHERE)
        return self._made[made]

    def stretches_at_most(self, key: str, value: Fraction) -> Constraint:
        return Constraint(as_bool(relate("<=", self.words.parameters[key], value)), placed=NOWHERE)

    def stretches_at_least(self, key: str, value: Fraction) -> Constraint:
        return Constraint(as_bool(relate(">=", self.words.parameters[key], value)), placed=NOWHERE)

    def restretched(self, constraint: Constraint, key: str) -> Constraint:
        """The constraint with a second, independent value of the parameter in place of the first."""
        first = self.words.parameters[key]
        second = z3.substitute(constraint.expression, (first, self.words.second[key]))
        return Constraint(second, placed=constraint.placed)

    def stretches_further(self, key: str) -> Constraint:
        """That the second value of the parameter is greater than the first."""
        return Constraint(self.words.parameters[key] < self.words.second[key], placed=NOWHERE)

    def way(self, p: FreeParameter, formula: Formula) -> Literal["widens", "narrows", ""]:
        """Which one way stretching the parameter moves what meets the formula; '' where it moves both."""
        key = (p.key, id(formula))
        if key not in self._ways:
            met = self.met(formula)
            later = self.restretched(met, p.key)
            search = self.search(self.groups_in(formula))
            search.require(self.reads(p.group, p.reading), self.stretches_further(p.key))
            if not search.holds(met, ~later):
                self._ways[key] = "widens"
            else:
                self._ways[key] = "" if search.holds(~met, later) else "narrows"
        return self._ways[key]

    def as_base(self, formula: Formula, group: int) -> Formula:
        """The formula with the group and its parameters as in the base; always the same object."""
        key = (id(formula), group)
        if key not in self._as_base:
            self._occurring(formula)  # keeps the formula, so that its identity is not reused
            presumed = {p.key: p.presumed for p in self.sheet.parameters if p.group == group}
            self._as_base[key] = read_as(formula, group, self.base.readings[group], presumed)
        return self._as_base[key]

    def taken(self, k: Construction, groups: Iterable[int]) -> list[Constraint]:
        """That the groups are read as in `k`, with the parameters of the readings taken."""
        wanted = set(groups)
        literals = [self.reads(g, k.readings[g]) for g in sorted(wanted)]
        values = dict(k.parameters)
        return literals + [
            self.stretches(p.key, values[p.key])
            for p in self.sheet.parameters
            if p.group in wanted and k.readings[p.group] == p.reading
        ]

    def departing(self, group: int) -> Constraint:
        """That the group departs from the base, by its reading or by a parameter of the reading taken."""
        key = ("departing", group)
        if key in self._made:
            return self._made[key]
        g = self.sheet.groups[group]
        chosen = self.words.selectors[group]
        by_reading = [chosen[r] for r in range(len(g.readings)) if departs(g, r)]
        by_stretch = [
            z3.And(chosen[p.reading], self.words.parameters[p.key] != numeral(p.presumed))
            for p in self.sheet.parameters
            if p.group == group and not departs(g, p.reading)
        ]
        self._made[key] = Constraint(as_bool(either(*by_reading, *by_stretch)), placed=NOWHERE)
        return self._made[key]

    def standing_at_most(self, group: int, level: int) -> Constraint:
        """That the group takes a reading of standing STANDINGS[level] or better."""
        key = ("standing", group, level)
        if key not in self._made:
            readings = enumerate(self.sheet.groups[group].readings)
            chosen = self.words.selectors[group]
            kept = [chosen[r] for r, x in readings if STANDINGS.index(x.standing) <= level]
            self._made[key] = Constraint(as_bool(either(*kept)), placed=NOWHERE)
        return self._made[key]

    def at_most_of(self, constraints: Iterable[Constraint], count: int) -> Constraint:
        """That at most `count` of the constraints hold."""
        given = tuple(constraints)
        items = [c.expression for c in given]
        if count >= len(items):
            return Constraint(as_bool(True), placed=NOWHERE)
        if count == 0:
            return Constraint(as_bool(both(*map(negation, items))), placed=placed_in(given))
        return Constraint(at_most(items, count), placed=placed_in(given))

    def grounds(self, names: Iterable[str]) -> list[tuple[str, Constraint]]:
        """The bounds of the names and the given facts, each with the label a person knows it by."""
        wanted = set(names)
        found = [(f"given {g.text}", self.met(g.formula)) for g in self.sheet.givens]
        bounds: dict[str, list[str]] = {}
        for d in self.sheet.declarations:
            if d.name in wanted and self.words.domain(d.name):
                bounds.setdefault(self.ground_of(d.name), []).append(d.name)
        for label, alike in bounds.items():
            limits = (c for name in alike for c in self.words.domain(name))
            found.append((label, Constraint(as_bool(both(*limits)), placed=self.places.of_names(alike))))
        return found

    def ground_of(self, name: str) -> str:
        """The label of the bounds of a declared name: of a field of like parts those of all of them."""
        return f"bounds of '{self._each_alike.get(name, name)}'"

    @cached_property
    def _each_alike(self) -> dict[str, str]:
        slots = ((name, f"{own} of each {p.name}") for p in self.sheet.parts for _, own, name in p.slots())
        return dict(slots)

    # ---- searches

    @cached_property
    def everything(self) -> z3.BoolRef:
        """That the article exists: every value in its domain, every given fact true."""
        domains = [c for d in self.sheet.declarations for c in self.words.domain(d.name)]
        givens = [self.met(g.formula).expression for g in self.sheet.givens]
        return as_bool(both(*domains, *givens))

    @cached_property
    def has_products(self) -> bool:
        """Does a limitation multiply what is not known, so that more work would hardly help?"""
        formulas = (x.formula for claim in self.sheet.claims for x in claim.limitations)
        products = (n for f in formulas for n in nodes(f) if isinstance(n, Multiply))
        return any(not isinstance(n.left, Const) and not isinstance(n.right, Const) for n in products)

    @cached_property
    def _timed(self) -> bool:
        """Can a step take long between two counts of its work? Then it needs the clock as well."""
        sheet = self.sheet
        claimed = (f for c in sheet.claims for x in c.limitations for f in (x.formula, x.meant) if f)
        others = (*sheet.cases, *sheet.described)
        formulas = (*claimed, *(c.facts for c in others), *(g.formula for g in sheet.givens))
        return any(map(multiplies_unknowns, formulas))

    def one_reading(self, group: int) -> z3.BoolRef:
        """That the group takes exactly one admissible reading, with parameters within their intervals."""
        if group not in self._one_reading:
            chosen = self.words.selectors[group]
            kept = [chosen[r] for r in admissible_readings(self.sheet.groups[group], self.strained)]
            stretches = [
                limit
                for p in self.sheet.parameters
                if p.group == group
                for limit in within(self.words.parameters[p.key], p.lower, p.upper)
            ]
            apart = [disjunction((negation(a), negation(b))) for i, a in enumerate(kept) for b in kept[:i]]
            left_out = [negation(s) for s in chosen if all(s is not k for k in kept)]
            self._one_reading[group] = conjunction([disjunction(kept), *left_out, *apart, *stretches])
        return self._one_reading[group]

    def search(self, groups: Iterable[int], things: bool = True) -> Search:
        """A new search over these groups; without `things`, over readings and parameters alone."""
        return Search(self, tuple(groups), things)

    def engine(self, things: bool) -> Engine:
        """The shared solver, with what always holds: one reading for every group and, an article."""
        engine = self._engines.get(things)
        if engine is None or engine.is_full:
            groups = range(len(self.sheet.groups))
            seconds = MOST_SECONDS_OF_PRODUCTS if self.has_products else MOST_SECONDS
            engine = Engine(self.always(groups, things), self.budget.work, seconds, self._timed)
            self._engines[things] = engine
        return engine

    def known(self, things: bool) -> Known:
        """What was found and answered in searches with things, or in those over readings alone."""
        known = self._known.get(things)
        if known is None or known.is_full:
            known = self._known[things] = Known()
        return known

    def always(self, groups: Iterable[int], things: bool) -> list[z3.BoolRef]:
        readings = [self.one_reading(g) for g in groups]
        return [self.everything, *readings] if things else readings

    def wall_left(self) -> float:
        return self.budget.wall - (time.monotonic() - self.started)


class Search:
    """One line of questioning: constraints pile up; `holds` and `find` ask if something meets them all."""

    def __init__(self, session: Session, groups: tuple[int, ...], things: bool) -> None:
        self.session = session
        self.groups = groups
        self._things = things
        self._known = session.known(things)
        self._required: list[Constraint] = []
        self._seen: list[Seen] = []
        self._assumed: list[z3.BoolRef] = []
        self._model: z3.ModelRef | None = None

    @cached_property
    def _engine(self) -> Engine:
        return self.session.engine(self._things)

    def require(self, *constraints: Constraint) -> None:
        self._required += constraints
        self._seen += [self._known.seen(c.expression) for c in constraints]

    @contextmanager
    def aside(self) -> Iterator[None]:
        """What is required inside is forgotten afterwards."""
        count = len(self._required)
        try:
            yield
        finally:
            del self._required[count:]
            del self._seen[count:]
            del self._assumed[count:]

    def holds(self, *constraints: Constraint) -> bool:
        """Does something meet all that is required and these? Raises `Undecided`."""
        return self._check(constraints, keep=False)

    def find(self, *constraints: Constraint) -> bool:
        """As `holds`, and keeps what was found for `article`, `construction` and `true`."""
        return self._check(constraints, keep=True)

    def find_soon(self, *constraints: Constraint) -> bool:
        """As `find`, for what can be done without: True only where something is found with little work."""
        with suppress(Undecided):
            return self._check(constraints, keep=True, more=LITTLE_WORK)
        return False

    def _literals(self, constraints: Iterable[Constraint]) -> list[z3.BoolRef]:
        return [c.expression if c.literal else self._engine.literal(c.expression) for c in constraints]

    def _check(
        self, constraints: tuple[Constraint, ...], keep: bool, more: Fraction = MORE_WORK
    ) -> bool:
        # Inside a step the wall counts only where it is asked afresh: answers would depend on the machine.
        if self.session.wall_left() <= 0:
            raise Undecided("the wall limit ran out")
        order = self.session.places.in_order(c.placed for c in (*self._required, *constraints))
        asked = [*self._seen, *[self._known.seen(c.expression) for c in constraints]]
        also = (*self.session.words.definitions, order)
        asked += [self._known.seen(e) for e in also if not isinstance(e, bool)]
        answer = self._known.answer(asked)
        if answer is None or (answer and keep):
            thing = self._known.meeting(asked)
            if thing is None:
                answer, thing = self._asked(constraints, order, more)
                self._known.note(asked, answer, thing)
            else:
                answer = True
            if keep and answer:
                self._model = thing
        return answer

    def _asked(
        self, constraints: tuple[Constraint, ...], order: Condition, more: Fraction
    ) -> tuple[bool, z3.ModelRef | None]:
        """The solver's answer, and what it found."""
        engine = self._engine
        self._assumed += self._literals(self._required[len(self._assumed) :])
        assumed = [*self._assumed, *self._literals(constraints)]
        if not isinstance(order, bool):
            assumed.append(engine.literal(order))
        engine.define(self.session.words.definitions)
        answer = engine.check(assumed)
        model = engine.model if answer == z3.sat else None
        if answer == z3.unknown:
            asked = [*self.everything_required(), *(c.expression for c in constraints), as_bool(order)]
            more = min(more, Fraction(1)) if self.session.has_products else more
            answer, model = self._afresh(asked, int(self.session.budget.work * more))
        if answer == z3.unknown:
            step = self.session.wall_left() > 0
            raise Undecided("the work budget of one step ran out" if step else "the wall limit ran out")
        return bool(answer == z3.sat), None if model is None else model()

    def _afresh(self, asked: list[z3.BoolRef], work: int) -> Found:
        """For each number of like parts in turn where a middle is asked for; else, or then, at once."""
        found: Found = (z3.unknown, None)
        numbers = [as_bool(c) for c in self.session.places.numbers] if self.session.words.definitions else []
        if numbers:
            found = afresh(asked, work, int(self.session.wall_left()), numbers)
        return afresh(asked, work, int(self.session.wall_left())) if found[0] == z3.unknown else found

    def everything_required(self) -> list[z3.BoolRef]:
        """All that is required, with what always holds: for another solver to start from."""
        always = self.session.always(self.groups, self._things)
        return [*always, *self.session.words.definitions, *(c.expression for c in self._required)]

    def conflict(self, labelled: list[tuple[str, Constraint]]) -> tuple[str, ...] | None:
        """A minimal set of labels whose constraints cannot hold together; None if all can.

        Minimal by deletion in the order given, so the same input gives the same set; what cannot be decided
        to be needless stays.
        """
        if self.holds(*(c for _, c in labelled)):
            return None
        kept = list(labelled)
        for item in labelled:
            rest = [other for other in kept if other is not item]
            with suppress(Undecided):
                if not self.holds(*(c for _, c in rest)):
                    kept = rest
        return tuple(label for label, _ in kept)

    # ---- what the last model says

    @property
    def model(self) -> z3.ModelRef:
        """What was found last, for this floor alone."""
        assert self._model is not None
        return self._model

    def article(self) -> Article:
        """The article found last. Raises `Undecided` where only irrational numbers were found."""
        assert self._model is not None
        article = self.session.words.article(self._model)
        if article is None:
            raise Undecided("only numbers that are not fractions were found")
        return article

    def construction(self) -> Construction:
        """The construction found last; groups and parameters not in this search are as in the base."""
        assert self._model is not None
        readings = list(self.session.base.readings)
        for g in self.groups:
            for r, selector in enumerate(self.session.words.selectors[g]):
                if is_true_in(self._model, selector):
                    readings[g] = r
        values = []
        for p in self.session.sheet.parameters:
            value: Fraction | None = p.presumed
            if p.group in self.groups and readings[p.group] == p.reading:
                value = rational_in(self._model, self.session.words.parameters[p.key])
            if value is None:
                raise Undecided("only numbers that are not fractions were found")
            values.append((p.key, value))
        return Construction(tuple(readings), tuple(values))

    def true(self, constraint: Constraint) -> bool:
        """Is the constraint true of what was found last? Looks for something first if nothing was."""
        if self._model is None:
            assert self.find()
        assert self._model is not None
        return is_true_in(self._model, constraint.expression)


def _taking(k: Construction, step: tuple[int, int]) -> Construction:
    return k.with_reading(*step)
