"""What is asked: opaque conditions on articles, readings and free parameters, with what bounds a question.

An answer of the solver is sat, unsat, or `Undecided`, raised with its reason and never taken for either of
the others.
"""

from __future__ import annotations

from collections.abc import Iterable

import z3

from scopecheck.foundations.record import field, record, replace
from scopecheck.solving.clock import SECOND, Clock
from scopecheck.solving.places import NOWHERE, Placed
from scopecheck.solving.symbols import as_bool, both, either, negation


class Undecided(Exception):
    """The solver gave no answer: work, the time of a step or that of the run ran out, or no fraction fits."""


@record
class Budget:
    """`work` solver steps for each query (deterministic); `wall` seconds for the whole run.

    The time runs from `begun` on: all sessions with one begun budget have the same end.
    """

    work: int = 4_000_000
    wall: int = 60
    clock: Clock | None = field(default=None, compare=False)

    def begun(self) -> Budget:
        """The budget with its time running; the same one where it runs already."""
        return self if self.clock is not None else replace(self, clock=Clock(self.wall * SECOND))


@record
class Constraint:
    """An opaque condition on articles, readings and parameters.

    A `literal` is a Boolean variable or its denial, which the solver can assume without a new scope. `placed`
    are the like parts that may not change places with others in it; None where that is not known.
    """

    expression: z3.BoolRef
    literal: bool = False
    placed: Placed | None = None

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
