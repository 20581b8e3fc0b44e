"""A sheet's formulas as constraints: met, denied, undefined, surely met, met by one article."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cached_property, reduce
from itertools import islice, product

import z3

from scopecheck.core.construction import (
    Construction,
    Node,
    admissible_readings,
    base_construction,
    departs,
    groups_in,
    names_in,
    nodes,
    options_by_group,
    own_meanings,
    parameters_in,
    preference,
)
from scopecheck.core.formula import All, Any, Article, Formula, Read, ReadTerm, Value
from scopecheck.core.grounds import Bounds, Cause, GivenFact
from scopecheck.core.model import STANDINGS, Sheet
from scopecheck.core.rewrite import read_as
from scopecheck.solving.constraints import Constraint, placed_in
from scopecheck.solving.encode import Encoder
from scopecheck.solving.evaluate import meets
from scopecheck.solving.places import NOWHERE, Places
from scopecheck.solving.symbols import (
    Condition,
    Vocabulary,
    as_bool,
    at_most,
    both,
    conjunction,
    either,
    negation,
    numeral,
    relate,
)

MOST_WAYS = 16
"""Ways of reading one limitation that are gone through one by one."""


class Translation:
    """A sheet's formulas as constraints, each made once and then always the same object."""

    def __init__(self, sheet: Sheet, strained: bool = False) -> None:
        self.sheet = sheet
        self.strained = strained
        self.words = Vocabulary(sheet)
        self.places = Places(sheet, self.words)
        self.base = base_construction(sheet)
        self._made: dict[tuple[object, ...], Constraint] = {}
        self._surely: dict[tuple[int, bool], z3.BoolRef] = {}
        self._places: dict[int, tuple[Formula, dict[int, list[tuple[Node, ...]]]]] = {}
        self._occurs: dict[int, tuple[Formula, tuple[int, ...], frozenset[str]]] = {}
        self._met_by_values: dict[tuple[int, bool, tuple[Value, ...]], Condition] = {}
        self._met_by_article: dict[tuple[int, int, bool], tuple[Formula, Article, Constraint]] = {}
        self._open: dict[int, tuple[Formula, bool]] = {}
        self._as_base: dict[tuple[int, int], Formula] = {}
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
        # Parts that may change places in the whole may be bound in each item of it.
        return Constraint(self._sure(formula, met), placed=self.places.of(formula))

    def _sure(self, formula: Formula, met: bool) -> z3.BoolRef:
        key = (id(formula), met)
        if key not in self._surely:
            self._pair(formula, None)  # keeps the formula, so that its identity is not reused
            if isinstance(formula, All | Any):
                parts = [self._sure(item, met) for item in formula.items]
                joined = both(*parts) if met == isinstance(formula, All) else either(*parts)
            else:
                encoders = [Encoder(self.words, k, self._admitted) for k in self._term_ways(formula)]
                joined = both(*(encoder.encode(formula)[0 if met else 1] for encoder in encoders))
            self._surely[key] = as_bool(joined)
        return self._surely[key]

    def _term_ways(self, formula: Formula) -> list[Construction]:
        """The base with the terms of the formula read in every admissible way; the base alone if too many."""
        groups = sorted({node.group for node in nodes(formula) if isinstance(node, ReadTerm)})
        return self.ways_of_reading(groups) or [self.base]

    def readings_of(self, group: int, *formulas: Formula) -> tuple[int, ...]:
        """The admissible readings of the group that mean something of their own in these formulas, the usual
        one first."""
        admitted = self._admitted(group)
        order = (r for r in preference(self.sheet.groups[group]) if r in admitted)
        places = [options for f in formulas for options in self._places_in(f).get(group, ())]
        return own_meanings(places, order)

    def _places_in(self, formula: Formula) -> dict[int, list[tuple[Node, ...]]]:
        key = id(formula)
        if key not in self._places:
            # The formula is kept beside them so that its identity is not reused.
            self._places[key] = (formula, options_by_group(formula))
        return self._places[key][1]

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

    def grounds(self, names: Iterable[str]) -> list[tuple[Cause, Constraint]]:
        """The given facts and the bounds of the names, each with what it is."""
        wanted = set(names)
        found: list[tuple[Cause, Constraint]] = [
            (GivenFact(g.text), self.met(g.formula)) for g in self.sheet.givens
        ]
        bounds: dict[Bounds, list[str]] = {}
        for d in self.sheet.declarations:
            if d.name in wanted and self.words.domain(d.name):
                bounds.setdefault(self.ground_of(d.name), []).append(d.name)
        for ground, alike in bounds.items():
            limits = (c for name in alike for c in self.words.domain(name))
            found.append((ground, Constraint(as_bool(both(*limits)), placed=self.places.of_names(alike))))
        return found

    def ground_of(self, name: str) -> Bounds:
        """The bounds of a declared name: of a field of like parts those of all of them."""
        return Bounds(self._each_alike.get(name, name))

    @cached_property
    def _each_alike(self) -> dict[str, str]:
        slots = ((name, f"{own} of each {p.name}") for p in self.sheet.parts for _, own, name in p.slots())
        return dict(slots)


def _taking(k: Construction, step: tuple[int, int]) -> Construction:
    return k.with_reading(*step)
