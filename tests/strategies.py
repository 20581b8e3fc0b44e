"""Generators of well-typed vocabularies, terms, formulas, constructions and articles.

Articles lean towards where meanings break: the ends of the formulas at hand, halves of rounding grids, zero
divisors and negative values. `finite` vocabularies have few enough articles to walk through all of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from scopecheck.core.construction import Construction, Node, nodes
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
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
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Rule,
    Term,
    Truth,
    Value,
)
from scopecheck.core.model import FreeParameter, Group, Role, Sheet
from scopecheck.solving.evaluate import evaluate_term
from tests import build

OPS: tuple[Op, ...] = ("<", "<=", "=", "!=", ">=", ">")
RULES: tuple[Rule, ...] = ("away", "up", "even")
STEPS = (Fraction(1), Fraction(1, 2), Fraction(1, 10), Fraction(5))
ORIGINS = (Fraction(0), Fraction(0), Fraction(1, 3), Fraction(-5463, 20))
HALF = Fraction(1, 2)

small_numbers = st.one_of(
    st.integers(-4, 6).map(Fraction),
    st.sampled_from([Fraction(1, 2), Fraction(-5, 2), Fraction(1, 20), Fraction(1, 3), Fraction(25, 10)]),
)


@dataclass(frozen=True, slots=True)
class World:
    """A vocabulary with its groups and free parameters."""

    declarations: tuple[Declaration, ...]
    groups: tuple[Group, ...]
    parameters: tuple[FreeParameter, ...]

    @property
    def numbers(self) -> list[str]:
        return [d.name for d in self.declarations if isinstance(d, NumberDecl)]

    @property
    def choices(self) -> list[ChoiceDecl]:
        return [d for d in self.declarations if isinstance(d, ChoiceDecl)]

    @property
    def sets(self) -> list[SetDecl]:
        return [d for d in self.declarations if isinstance(d, SetDecl)]

    def sheet(self) -> Sheet:
        return build.sheet(self.declarations, (), self.groups, parameters=self.parameters)


# ---- vocabularies


@st.composite
def groups(draw: DrawFn, most: int = 3, readings: int = 3, strained: bool = True) -> tuple[Group, ...]:
    marks = ["", "?", "??"] if strained else ["", "?"]
    made = []
    for index in range(draw(st.integers(1, most))):
        count = draw(st.integers(1 if index else 2, readings))
        described = [f"r{i}{draw(st.sampled_from(marks))}" for i in range(count)]
        made.append(build.group(index, *described))
    return tuple(made)


@st.composite
def parameters(
    draw: DrawFn, taken: tuple[Group, ...], least: int = 0, most: int = 2
) -> tuple[FreeParameter, ...]:
    made = []
    for index in range(draw(st.integers(least, most))):
        g = draw(st.sampled_from(taken))
        reading = draw(st.integers(0, len(g.readings) - 1))
        low, presumed, high = draw(
            st.sampled_from(
                [("0", "0", "2"), ("0", "1", "3"), ("0", "0", None), ("1/2", "1", "(2"), ("-1", "0", "1")]
            )
        )
        made.append(build.parameter(f"p{index}", g.index, reading, presumed, low, high))
    return tuple(made)


@st.composite
def worlds(draw: DrawFn) -> World:
    """Numbers of several units, counts, a choice and a set; groups of every standing; free parameters."""
    declared: list[Declaration] = [
        build.number("x", "mm", "0", None) if draw(st.booleans()) else build.number("x"),
        build.number("t", "degC", "-273.15", None),
        build.number(
            "y", "", draw(st.sampled_from([None, "-3", "(-2"])), draw(st.sampled_from([None, "(7"]))
        ),
        build.count("n", draw(st.sampled_from([None, "0", "-3"])), draw(st.sampled_from([None, "9"]))),
        build.choice("c", "red", "blue", only=draw(st.booleans())),
        build.set_of("s", "tin", "zinc"),
    ]
    taken = draw(groups())
    return World(tuple(declared), taken, draw(parameters(taken)))


@st.composite
def finite_worlds(draw: DrawFn, most_groups: int = 3, readings: int = 3, strained: bool = False) -> World:
    """Few enough articles to walk: two counts, and perhaps a choice or a set."""
    declared: list[Declaration] = [build.count("n", "0", "3"), build.count("m", "-1", "1")]
    declared += draw(
        st.sampled_from(
            [[], [build.choice("c", "red", "blue", only=True)], [build.set_of("s", "tin", "zinc", only=True)]]
        )
    )
    return World(tuple(declared), draw(groups(most_groups, readings, strained)), ())


# ---- terms and formulas


class _Maker:
    """Draws terms and formulas; `keys` are the parameters of the readings that are being written."""

    def __init__(self, draw: DrawFn, world: World, linear: bool) -> None:
        self.draw = draw
        self.world = world
        self.linear = linear
        self.keys: list[str] = []

    def pick(self, count: int) -> int:
        return self.draw(st.integers(0, count - 1))

    def leaf(self) -> Term:
        kind = self.pick(5)
        if self.keys and kind == 0:
            return Parameter(self.draw(st.sampled_from(self.keys)))
        if kind <= 1:
            return Const(self.draw(small_numbers))
        if kind == 2 and self.world.sets:
            return CountOf(self.draw(st.sampled_from(self.world.sets)).name)
        return Measured(self.draw(st.sampled_from(self.world.numbers)))

    def terms(self, depth: int, least: int, most: int) -> tuple[Term, ...]:
        return tuple(self.term(depth) for _ in range(self.draw(st.integers(least, most))))

    def term(self, depth: int) -> Term:
        if depth <= 0 or self.pick(4) == 0:
            return self.leaf()
        below = depth - 1
        kind = self.pick(13)
        match kind:
            case 0 | 1:
                return Add(self.terms(below, 1, 3))
            case 2:
                return Negate(self.term(below))
            case 3:
                factor = Const(self.draw(small_numbers)) if self.linear or self.pick(2) else self.term(below)
                return Multiply(factor, self.term(below))
            case 4 | 5:
                divisor = Const(self.draw(small_numbers)) if self.linear else self.term(below)
                return Divide(self.term(below), divisor)
            case 6:
                return Remainder(
                    self.term(below), self.draw(st.sampled_from([Fraction(2), Fraction(3, 2), HALF]))
                )
            case 7:
                return Magnitude(self.term(below))
            case 8:
                items = self.terms(below, 0 if self.pick(8) == 0 else 1, 3)
                return Least(items) if self.pick(2) else Greatest(items)
            case 9:
                return self.rounded(below)
            case 10:
                return self.ranked(self.terms(below, 1, 4))
            case 11:
                return Branch(self.formula(below), self.term(below), self.term(below))
            case _:
                g = self.draw(st.sampled_from(self.world.groups))
                return ReadTerm(
                    g.index, tuple(self.under(g, r, below, self.term) for r in range(len(g.readings)))
                )

    def ranked(self, items: tuple[Term, ...]) -> Ranked:
        """Of the first few items: of a number of them, or of as many as a count that fits says."""
        declared = [d for d in self.world.declarations if isinstance(d, NumberDecl) and d.whole]
        bounded = [(d, d.lower.value, d.upper.value) for d in declared if d.lower and d.upper]
        fits = [d for d, low, high in bounded if low >= 0 and high <= len(items)]
        if fits and self.pick(2):
            there = [Compare(">=", Measured(fits[0].name), Const(Fraction(i + 1))) for i in range(len(items))]
        else:
            there = [self.formula(0) if self.pick(2) else Truth(True) for _ in items]
        return Ranked(self.draw(st.sampled_from(("least", "middle", "greatest"))), items, tuple(there))

    def rounded(self, depth: int) -> Rounded:
        step, origin = self.draw(st.sampled_from(STEPS)), self.draw(st.sampled_from(ORIGINS))
        return Rounded(self.term(depth), step, self.draw(st.sampled_from(RULES)), origin)

    def under(self, g: Group, reading: int, depth: int, make):  # type: ignore[no-untyped-def]
        own = [p.key for p in self.world.parameters if (p.group, p.reading) == (g.index, reading)]
        self.keys, before = self.keys + own, self.keys
        try:
            return make(depth)
        finally:
            self.keys = before

    def atom(self, depth: int) -> Formula:
        kind = self.pick(9)
        if kind == 0:
            return IsWhole(self.term(depth))
        if kind == 1 and self.world.choices:
            d = self.draw(st.sampled_from(self.world.choices))
            return Chosen(d.name, self.draw(st.sampled_from(d.members)))
        if kind == 2 and self.world.sets:
            d = self.draw(st.sampled_from(self.world.sets))
            return Includes(d.name, self.draw(st.sampled_from(d.members)))
        op = self.draw(st.sampled_from(OPS))
        if kind == 3:
            limit = Const(self.draw(small_numbers))
            return (
                Compare(op, self.rounded(depth), limit)
                if self.pick(3)
                else Compare(op, limit, self.rounded(depth))
            )
        if kind == 4 and not self.linear:
            return Compare(
                op, Divide(self.term(depth), self.term(depth - 1)), Const(self.draw(small_numbers))
            )
        if kind == 5 and self.pick(4) == 0:
            return Truth(self.draw(st.booleans()))
        if kind <= 6:
            return Compare(op, self.term(depth), Const(self.draw(small_numbers)))
        return Compare(op, self.term(depth), self.term(depth))

    def formulas(self, depth: int, least: int, most: int) -> tuple[Formula, ...]:
        return tuple(self.formula(depth) for _ in range(self.draw(st.integers(least, most))))

    def formula(self, depth: int) -> Formula:
        if depth <= 0:
            return self.atom(1)
        below = depth - 1
        match self.pick(9):
            case 0:
                return Not(self.formula(below))
            case 1:
                return All(self.formulas(below, 0 if self.pick(8) == 0 else 1, 3))
            case 2:
                return Any(self.formulas(below, 0 if self.pick(8) == 0 else 1, 3))
            case 3:
                return Implies(self.formula(below), self.formula(below))
            case 4:
                return ExactlyOne(self.formulas(below, 1, 3))
            case 5 | 6:
                return self.phrase(below)
            case _:
                return self.atom(depth)

    def variants(self) -> Read:
        """A phrase as catalogues have them: one comparison, its readings varied a little."""
        g = self.draw(st.sampled_from(self.world.groups))
        name, op = self.draw(st.sampled_from(self.world.numbers)), self.draw(st.sampled_from(OPS))
        measured: Term = Measured(name)
        if not self.linear and self.pick(3) == 0:
            measured = Divide(measured, Measured(self.draw(st.sampled_from(self.world.numbers))))
        limit = self.draw(st.integers(-1, 3))
        options: list[Formula] = []
        for r in range(len(g.readings)):
            near: Term = Const(Fraction(limit + self.draw(st.integers(-1, 1))))
            keys = [p.key for p in self.world.parameters if (p.group, p.reading) == (g.index, r)]
            if keys and self.pick(4):
                stretch = Const(self.draw(st.sampled_from([Fraction(1), Fraction(-1), Fraction(2), -HALF])))
                near = Add((near, Multiply(stretch, Parameter(self.draw(st.sampled_from(keys))))))
            varied = Compare(self.draw(st.sampled_from([op, op, *OPS])), measured, near)
            options.append(All((varied, self.atom(0))) if self.pick(6) == 0 else varied)
        return Read(g.index, tuple(options))

    def phrase(self, depth: int) -> Read:
        g = self.draw(st.sampled_from(self.world.groups))
        return Read(g.index, tuple(self.under(g, r, depth, self.formula) for r in range(len(g.readings))))


@st.composite
def formulas(draw: DrawFn, world: World, depth: int = 3, linear: bool = False) -> Formula:
    return _Maker(draw, world, linear).formula(depth)


@st.composite
def phrases(draw: DrawFn, world: World, depth: int = 1, linear: bool = True) -> Formula:
    """A limitation as sheets have them: a phrase or two, perhaps beside an exact fact.

    Free parameters stand in comparisons only, linearly, so that the walk can tell where something changes.
    """
    maker = _Maker(draw, world, linear)

    def phrase() -> Formula:
        return maker.variants() if world.parameters or maker.pick(3) else maker.phrase(depth)

    match maker.pick(6):
        case 0:
            return All((phrase(), maker.atom(depth)))
        case 1:
            return All((phrase(), phrase()))
        case 2:
            return Any((phrase(), phrase()))
        case _:
            return phrase()


@st.composite
def facts(draw: DrawFn, world: World, words: bool = False) -> Formula:
    """What a case states: some values, a range, or a few exact facts; with `words`, perhaps a phrase."""
    maker = _Maker(draw, world, linear=True)
    parts: list[Formula] = []
    for d in world.declarations:
        if maker.pick(5) < 2:
            continue
        match d:
            case NumberDecl() if maker.pick(4) == 0:
                parts.append(
                    Compare(draw(st.sampled_from(OPS)), Measured(d.name), Const(draw(small_numbers)))
                )
            case NumberDecl():
                parts.append(Compare("=", Measured(d.name), Const(draw(_values(d, [])))))
            case ChoiceDecl():
                parts.append(Chosen(d.name, draw(st.sampled_from(d.members))))
            case SetDecl():
                has = draw(st.frozensets(st.sampled_from(d.members)))
                parts += [Includes(d.name, m) if m in has else Not(Includes(d.name, m)) for m in d.members]
    if words and maker.pick(2):
        parts.append(maker.phrase(0))
    return All(tuple(parts))


# ---- articles and constructions


def critical_values(*found: Node) -> list[Fraction]:
    """The numbers at which the formulas may change, with halves of their rounding grids beside them."""
    values = {Fraction(0), Fraction(1), Fraction(-1), HALF, -HALF}
    steps = {Fraction(1)}
    for formula in found:
        for node in nodes(formula):
            match node:
                case Const(value):
                    values.add(value)
                case Rounded(_, step, _, origin):
                    steps.add(step)
                    values.add(origin)
                case Remainder(_, divisor):
                    values.add(divisor)
                case _:
                    pass
    beside = {v + sign * step / 2 for v in values for step in steps for sign in (-1, 1)}
    return sorted(values | beside)


def _values(d: Declaration, critical: Sequence[Fraction]) -> st.SearchStrategy[Value]:
    match d:
        case NumberDecl(whole=whole):
            kept = [v for v in critical if is_in(d, v)]
            low = -4 if d.lower is None else max(-4, floor(d.lower.value))
            high = 9 if d.upper is None else min(9, ceil(d.upper.value))
            anything: st.SearchStrategy[Fraction] = st.integers(low, high).map(Fraction)
            if not whole:
                anything = st.one_of(anything, st.fractions(low, high, max_denominator=12))
            anything = anything.filter(lambda v: is_in(d, v))  # open ends, and bounds between whole numbers
            return st.one_of(st.sampled_from(kept), anything) if kept else anything
        case ChoiceDecl(members=members):
            return st.sampled_from(members)
        case SetDecl(members=members):
            return st.frozensets(st.sampled_from(members))


def is_in(d: NumberDecl, value: Fraction) -> bool:
    """Is the value within the declared bounds, and whole where it has to be?"""
    if d.whole and value.denominator != 1:
        return False
    above = d.lower is None or value > d.lower.value or (d.lower.closed and value == d.lower.value)
    return above and (d.upper is None or value < d.upper.value or (d.upper.closed and value == d.upper.value))


@st.composite
def articles(draw: DrawFn, world: World, *about: Node) -> Article:
    """A thing of the vocabulary, at or near where the formulas change as often as not."""
    critical = critical_values(*about)
    return {d.name: draw(_values(d, critical)) for d in world.declarations}


@st.composite
def constructions(draw: DrawFn, world: World) -> Construction:
    """Any reading of every group, strained ones too, and parameters anywhere in their intervals."""
    taken = tuple(draw(st.integers(0, len(g.readings) - 1)) for g in world.groups)
    stretched = []
    for p in world.parameters:
        choices = [p.presumed, p.lower.value if p.lower.closed else p.presumed]
        high = p.upper.value if p.upper else p.presumed + 3
        choices += [(p.presumed + high) / 2, high if p.upper is None or p.upper.closed else p.presumed]
        stretched.append((p.key, draw(st.sampled_from(choices))))
    return Construction(taken, tuple(stretched))


# ---- whole sheets


@st.composite
def sheets(
    draw: DrawFn,
    *roles: Role,
    least: int = 1,
    meant: bool = False,
    strained: bool = False,
    linear: bool = True,
    stretched: bool = False,
) -> Sheet:
    """A small sheet: up to three claims, the later ones dependent; two or three cases of these roles."""
    world = draw(finite_worlds(2, strained=strained))
    if stretched:
        world = World(world.declarations, world.groups, draw(parameters(world.groups, least=1, most=1)))
    plain = World(world.declarations, (build.group(0, "only"),), ())
    claims = []
    for number in range(1, draw(st.integers(least, 3)) + 1):
        count = draw(st.integers(1, 2)) if number == 1 else 1
        made = [
            build.limitation(
                f"{number}{'ab'[i]}",
                draw(phrases(world, linear=linear)),
                _Maker(draw, plain, True).atom(0) if meant else None,
            )
            for i in range(count)
        ]
        parents: tuple[int, ...] = () if number == 1 else (1,)
        if number == 3:
            parents = draw(st.sampled_from([(1,), (2,), (1, 2)]))
        claims.append(build.claim(number, *made, parents=parents))
    places = [str(c.number) for c in claims] + [x.label for c in claims for x in c.limitations]
    cases = []
    for index in range(draw(st.integers(2, 3)) if roles else 0):
        role = roles[index % len(roles)]
        targets = (draw(st.sampled_from(places)),) if draw(st.booleans()) else ()
        if role == "document":
            targets = tuple(t for t in targets if t.isdigit())
        cases.append(build.case(f"case {index}", role, draw(facts(world, words=role == "document")), targets))
    return build.sheet(world.declarations, claims, world.groups, cases, parameters=world.parameters)


def evaluated(term: Term, article: Article, k: Construction) -> Fraction:
    """The term's value, which there must be."""
    value = evaluate_term(term, article, k)
    assert value is not None
    return value
