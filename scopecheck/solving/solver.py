"""Questions to the solver: sessions and searches. No solver object leaves this floor.

A `Session` belongs to one sheet. A `Search` is one line of questioning over some groups: in it every group
takes exactly one admissible reading, always, since a group left without a reading would deny claims that are
met.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from fractions import Fraction
from functools import cached_property
from typing import Literal, TypeVar

import z3

from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    nodes,
)
from scopecheck.core.formula import Article, Const, Formula, Multiply
from scopecheck.core.linear import multiplies_unknowns
from scopecheck.core.model import FreeParameter, Sheet
from scopecheck.foundations.record import replace
from scopecheck.solving.cells import Cells
from scopecheck.solving.clock import Clock
from scopecheck.solving.constraints import Budget, Constraint, Undecided
from scopecheck.solving.engine import FIRST_SHARE, Engine, Found, afresh, longest
from scopecheck.solving.known import Known, Seen
from scopecheck.solving.symbols import (
    Condition,
    as_bool,
    both,
    conjunction,
    disjunction,
    is_true_in,
    negation,
    rational_in,
    within,
)
from scopecheck.solving.translation import Translation

Label = TypeVar("Label")
MORE_WORK = Fraction(4)
"""So many times the work of one step is spent where a question is asked once more, afresh."""
LITTLE_WORK = Fraction(1, 4)
"""So much of it where the answer can be done without."""
OUT_OF_WORK = "the work budget of one step ran out"
OUT_OF_TIME = "one step took all of its part of the wall limit"
OUT_OF_ITS_PART = "the question took all of its part of the wall limit"
NOT_AFRESH = Fraction(0)
"""Where it says more of an answer that is there already, it is not asked once more."""
SHARE_AFRESH = Fraction(1, 2)
"""A question asked once more has so much of all the time there is, at most, and half of what is left,"""
SHARE_AFRESH_OF_PRODUCTS = Fraction(1, 6)
"""or so much where unknown things are multiplied: so one hard question leaves time for the others."""


class Session(Translation):
    """The sheet as the solver sees it: its formulas as constraints, and what searches have in common.

    Its budget has begun: whatever else is asked in the same run gets that one, so that all ends together.
    """

    def __init__(self, sheet: Sheet, budget: Budget | None = None, strained: bool = False) -> None:
        super().__init__(sheet, strained)
        self.budget = (budget or Budget()).begun()
        assert self.budget.clock is not None
        self.clock: Clock = self.budget.clock
        self._one_reading: dict[int, z3.BoolRef] = {}
        self._engines: dict[bool, Engine] = {}
        self._known: dict[bool, Known] = {}
        self.turning: dict[tuple[str, int, int], tuple[Formula, Formula, frozenset[Fraction]]] = {}
        self.cells = Cells()
        self._ways: dict[tuple[str, int], Literal["widens", "narrows", ""]] = {}
        self._alike: list[tuple[frozenset[int], z3.BoolRef]] = []

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

    def read_alike(
        self, one: int, other: int, pairs: Iterable[tuple[frozenset[int], frozenset[int]]]
    ) -> None:
        """From now on the one group takes a reading of the first set just where the other takes one of the
        second. To be said before anything is asked."""
        assert not self._engines
        for ours, theirs in pairs:
            sides = [
                disjunction([self.words.selectors[g][r] for r in sorted(readings)])
                for g, readings in ((one, ours), (other, theirs))
            ]
            for a, b in (sides, sides[::-1]):
                self._alike.append((frozenset((one, other)), disjunction((negation(a), b))))

    def search(self, groups: Iterable[int], things: bool = True) -> Search:
        """A new search over these groups; without `things`, over readings and parameters alone."""
        return Search(self, tuple(groups), things)

    def engine(self, things: bool) -> Engine:
        """The shared solver, with what always holds: one reading for every group and, an article."""
        engine = self._engines.get(things)
        if engine is None or engine.is_full:
            groups = range(len(self.sheet.groups))
            always = self.always(groups, things)
            engine = Engine(always, self.budget.work, self.clock, self.has_products, self._timed)
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
        readings += [said for tied, said in self._alike if tied <= set(groups)]
        return [self.everything, *readings] if things else readings

    def undecided(self, reason: str) -> Undecided:
        """That there is no answer for this reason, or because no time is left."""
        if self.clock.left:
            return Undecided(reason)
        return Undecided("the wall limit ran out" if self.clock.is_over else OUT_OF_ITS_PART)

    def go_on(self) -> None:
        """Raises `Undecided` once no time is left."""
        if self.clock.left == 0:
            raise self.undecided(OUT_OF_ITS_PART)

    def time_of_a_step(self) -> int:
        """How long one more step may take."""
        self.go_on()
        return min(longest(self.clock), self.clock.left)

    def clock_afresh(self) -> Clock:
        """The time of a question that is asked once more."""
        share = SHARE_AFRESH_OF_PRODUCTS if self.has_products else SHARE_AFRESH
        return self.clock.part(min(self.clock.share(share), self.clock.left // 2))

    def way(self, p: FreeParameter, formula: Formula) -> Literal["widens", "narrows", ""]:
        """Which one way stretching the parameter moves what meets the formula; '' where it moves both."""
        key = (p.key, id(formula))
        if key not in self._ways:
            self._ways[key] = self.way_among(p, formula)
        return self._ways[key]

    def way_among(
        self, p: FreeParameter, formula: Formula, taken: Sequence[Constraint] = ()
    ) -> Literal["widens", "narrows", ""]:
        """The same among the readings and other stretches that are `taken`."""
        met = self.met(formula)
        later = self.restretched(met, p.key)
        search = self.search(self.groups_in(formula))
        search.require(self.reads(p.group, p.reading), self.stretches_further(p.key), *taken)
        if not search.holds(met, ~later):
            return "widens"
        return "" if search.holds(~met, later) else "narrows"


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

    def _check(self, constraints: tuple[Constraint, ...], keep: bool, more: Fraction = MORE_WORK) -> bool:
        # A step that the end of all time cuts short is undecided for that. Nothing else of the clock may tell
        # within the first, little work of a step: answers would depend on the machine.
        self.session.go_on()
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
        late = False
        if answer == z3.unknown and more != NOT_AFRESH:
            asked = [*self.everything_required(), *(c.expression for c in constraints), as_bool(order)]
            more = min(more, Fraction(1)) if self.session.has_products else more
            found = self._afresh(asked, int(self.session.budget.work * more))
            answer, model, late = found.answer, found.model, found.late
        if answer == z3.unknown:
            raise self.session.undecided(OUT_OF_TIME if late else OUT_OF_WORK)
        return bool(answer == z3.sat), None if model is None else model()

    def _afresh(self, asked: list[z3.BoolRef], work: int) -> Found:
        """For each number of like parts in turn where a middle is asked for; else, or then, at once."""
        clock = self.session.clock_afresh()
        numbers = [as_bool(c) for c in self.session.places.numbers] if self.session.words.definitions else []
        if not numbers:
            return afresh(asked, work, clock)
        found = afresh(asked, work, clock.part(clock.share(FIRST_SHARE)), numbers)
        if found.answer != z3.unknown:
            return found
        other = afresh(asked, work, clock.part(clock.left))
        return replace(other, late=found.late or other.late)

    def everything_required(self) -> list[z3.BoolRef]:
        """All that is required, with what always holds: for another solver to start from."""
        always = self.session.always(self.groups, self._things)
        return [*always, *self.session.words.definitions, *(c.expression for c in self._required)]

    def conflict(
        self, labelled: Sequence[tuple[Label, Constraint]], more: Fraction = MORE_WORK
    ) -> tuple[Label, ...] | None:
        """A minimal set of labels whose constraints cannot hold together; None if all can.

        Minimal by deletion in the order given, so the same input gives the same set; what cannot be decided
        to be needless, with so much `more` work, stays.
        """
        if self.holds(*(c for _, c in labelled)):
            return None
        kept = list(labelled)
        for item in labelled:
            rest = [other for other in kept if other is not item]
            with suppress(Undecided):
                if not self._check(tuple(c for _, c in rest), keep=False, more=more):
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
