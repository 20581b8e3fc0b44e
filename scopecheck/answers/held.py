"""What is claimed beside what the description states, as data: relations, and nothing drawn from them."""

from __future__ import annotations

from typing import Literal, TypeAlias

from scopecheck.core.formula import Bound
from scopecheck.core.ranges import Range
from scopecheck.core.stated import Side
from scopecheck.core.ties import Tie
from scopecheck.foundations.record import record


@record
class EndHeld:
    """One claimed end held against the description: the names of the statements that hold its number.

    `stated` and `preferred` have it as the same end, of a range and of a preferred range; `other_end` as the
    other end of one; `examples` as a single value. Those of `crossed`, of the first two, include it where
    the claim leaves it out, or leave it out where the claim includes it.
    """

    side: Side
    end: Bound
    stated: tuple[str, ...] = ()
    preferred: tuple[str, ...] = ()
    other_end: tuple[str, ...] = ()
    examples: tuple[str, ...] = ()
    crossed: tuple[str, ...] = ()

    @property
    def nowhere(self) -> bool:
        """Does the number stand neither as an end nor as a single value?"""
        return not (self.stated or self.preferred or self.other_end or self.examples)


@record
class Held:
    """A claimed range of one number held against the statements of the description, by their names.

    `as_such` state the same range; `ends` are the ends that the claim states, `open_sides` those it does not
    while every range stated has one. `within`: ranges it lies within; `takes_in`: preferred ranges wholly in
    it, `cuts` the other preferred ranges. `spoken`: some statement speaks of the number by itself.
    `joint` is the range together with the other limitations of the number, of which those in `beside`, by
    their labels, narrow it: `as_such` (unless the claimed range is), `open_sides`, `within`, `takes_in` and
    `cuts` are of it.
    """

    name: str
    claimed: Range
    as_such: tuple[str, ...]
    ends: tuple[EndHeld, ...]
    open_sides: tuple[Side, ...]
    within: tuple[str, ...]
    takes_in: tuple[str, ...]
    cuts: tuple[str, ...]
    spoken: bool
    joint: Range
    beside: tuple[str, ...] = ()

    @property
    def nowhere(self) -> tuple[EndHeld, ...]:
        """The claimed ends whose number stands in no statement that speaks of the number by itself."""
        return tuple(end for end in self.ends if end.nowhere) if self.spoken else ()


Joint: TypeAlias = Literal["the same", "within", "contains", "overlaps", "apart"]
"""How all that several lines ask for together lies against all that one statement describes."""


@record
class CombinedWith:
    """One statement that ties several things, against the lines of a claim that speak of them.

    `further` are names that the statement limits too and these lines do not.
    """

    statement: str
    labels: tuple[str, ...]
    relation: Joint
    further: tuple[str, ...] = ()


@record
class Piece:
    """A claimed range of a number or tie: the statements of just this range, and of each end as the same end.

    None for an end that is not claimed.
    """

    tie: Tie
    as_such: tuple[str, ...]
    low: tuple[str, ...] | None
    high: tuple[str, ...] | None

    @property
    def has_ends(self) -> bool:
        """Does each end that is claimed stand in some statement?"""
        return all(end is None or end for end in (self.low, self.high))


@record
class Combined:
    """What a claim asks of several things together, held against the statements that tie several of them.

    `pieces` are the numbers and ties that the lines limit by themselves and some statement speaks of, `whole`
    if these are all that the lines ask for. `examples` lie in what the lines ask for.
    """

    labels: tuple[str, ...]
    statements: tuple[CombinedWith, ...]
    pieces: tuple[Piece, ...]
    whole: bool
    examples: tuple[str, ...]

    @property
    def as_such(self) -> tuple[str, ...]:
        """The statements that describe just this combination."""
        return tuple(
            s.statement for s in self.statements if s.relation == "the same" and s.labels == self.labels
        )
