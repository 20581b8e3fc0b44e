"""One solver that many searches share: each search is a list of assumptions, nothing is built twice.

A constraint that is no literal gets a literal of its own that implies it, once; requiring it is then assuming
that literal. Making a solver for each search, or opening a scope for each step, took several times as long as
the answers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from functools import cache

import z3

from scopecheck.foundations.record import record
from scopecheck.solving.clock import SECOND, Clock
from scopecheck.solving.symbols import assert_all, checked, disjunction, negation

MOST_LITERALS = 60
"""Beyond these a solver carries too much that is no longer asked for; the next search gets a new one."""
LONGEST = 10 * SECOND
"""One step may take so long,"""
SHARE = Fraction(1, 6)
"""and no longer than so much of all the time there is."""
LONGEST_OF_PRODUCTS = 2 * SECOND
"""Work is counted by the library, but products can take minutes between two counts, and whether they do
depends on what was asked before: a step afresh is mostly answered at once."""
SHARE_OF_PRODUCTS = Fraction(1, 12)
OTHER_ARITHMETIC = 2
"""The library's number for its older simplex."""
LONGEST_OF_ANOTHER = 10 * SECOND
FIRST_SHARE = Fraction(2, 3)
"""So much of the time of a step afresh goes to the first attempt, so that another can be made at all."""
LITTLE_WORK = 400_000
"""A step is first given so much, without the library's clock: that takes longer than most steps."""


@cache
def _numbered(index: int) -> tuple[z3.BoolRef, z3.BoolRef]:
    """A literal that all solvers use, and its denial."""
    literal = z3.Bool(f"assumed {index}")
    return literal, negation(literal)


class Engine:
    """A solver over what always holds, asked under assumptions."""

    def __init__(
        self,
        always: Iterable[z3.BoolRef],
        work: int,
        clock: Clock,
        products: bool = False,
        timed: bool = True,
    ) -> None:
        self._solver = z3.SimpleSolver()
        self._work = work
        self._clock = clock
        self._longest = longest(clock, products)
        self._little = 0 if timed else min(work, LITTLE_WORK)
        # An interrupt is the program's to handle: the library would take it for an answer not found.
        self._solver.set(ctrl_c=False)
        self._limit(self._little)
        assert_all(self._solver, always)
        self._literals: dict[int, tuple[z3.BoolRef, z3.BoolRef]] = {}
        self._defined = 0

    @property
    def is_full(self) -> bool:
        return len(self._literals) > MOST_LITERALS

    def literal(self, expression: z3.BoolRef) -> z3.BoolRef:
        """A literal that implies the expression."""
        key: int = expression.ast.value
        if key not in self._literals:
            literal, denial = _numbered(len(self._literals))
            assert_all(self._solver, (disjunction((denial, expression)),))
            # The expression is kept beside its literal so that its identity is not reused.
            self._literals[key] = (expression, literal)
        return self._literals[key][1]

    def define(self, definitions: Sequence[z3.BoolRef]) -> None:
        """Takes up those of the definitions that came after the last time."""
        if len(definitions) > self._defined:
            assert_all(self._solver, definitions[self._defined :])
            self._defined = len(definitions)

    def _limit(self, little: int) -> None:
        """Gives each step the little work, or, if that is none, all there is, and so much time."""
        time = min(self._longest, max(self._clock.left, 1))
        self._solver.set(rlimit=little or self._work, timeout=0 if little else time)

    def check(self, assumed: Sequence[z3.BoolRef]) -> z3.CheckSatResult:
        """The answer under assumptions; where the little work is not enough, with all of it."""
        if not self._little and self._clock.left < self._longest:
            self._limit(0)
        answer = checked(self._solver, assumed)
        if answer != z3.unknown or self._little in (0, self._work):
            return answer
        self._limit(0)
        answer = checked(self._solver, assumed)
        self._limit(self._little)
        return answer

    def model(self) -> z3.ModelRef:
        return self._solver.model()


def longest(clock: Clock, products: bool = False) -> int:
    """How long one step may take, of all the time there is; of products a shorter while."""
    most, share = (LONGEST_OF_PRODUCTS, SHARE_OF_PRODUCTS) if products else (LONGEST, SHARE)
    return max(min(most, clock.share(share)), 1)


@record
class Found:
    """An answer, how to get what was found, and whether it was the time that ran out before an answer."""

    answer: z3.CheckSatResult
    model: Callable[[], z3.ModelRef] | None = None
    late: bool = False


def afresh(asked: Sequence[z3.BoolRef], work: int, clock: Clock, one_of: Sequence[z3.BoolRef] = ()) -> Found:
    """The answer of a solver of its own, within so much work and the time of this step.

    Its terms are made anew, so that the answer does not depend on what else was asked in this process. Where
    one of several conditions must hold, it is asked of each of them in turn. What is not answered so is asked
    once more of another arithmetic: one that diverges on a small question, the other mostly answers at once.
    """
    again = not one_of and work >= LITTLE_WORK
    found = _afresh(asked, work, clock.part(clock.share(FIRST_SHARE)) if again else clock, one_of)
    if found.answer != z3.unknown or not again:
        return found
    other = _afresh(asked, work // 8, clock.part(LONGEST_OF_ANOTHER), arithmetic=OTHER_ARITHMETIC)
    return Found(other.answer, other.model, found.late or other.late)


def _afresh(
    asked: Iterable[z3.BoolRef],
    work: int,
    clock: Clock,
    one_of: Sequence[z3.BoolRef] = (),
    arithmetic: int | None = None,
) -> Found:
    context = z3.Context()
    solver = z3.SimpleSolver(ctx=context)
    if arithmetic is not None:
        solver.set("arith.solver", arithmetic)
    solver.set("rlimit", work // max(len(one_of), 1))
    solver.add(*(expression.translate(context) for expression in asked))
    answer = z3.unsat if one_of else _answer(solver, clock)
    for condition in one_of:
        solver.push()
        solver.add(condition.translate(context))
        answer = _answer(solver, clock)
        if answer != z3.unsat:
            break
        solver.pop()
    model = (lambda: solver.model().translate(z3.main_ctx())) if answer == z3.sat else None
    return Found(answer, model, answer == z3.unknown and clock.left == 0)


def _answer(solver: z3.Solver, clock: Clock) -> z3.CheckSatResult:
    """The answer, in the time that is left."""
    if clock.left == 0:
        return z3.unknown
    solver.set("timeout", clock.left)
    return solver.check()
