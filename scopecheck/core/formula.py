"""Terms and formulas: what can be said of a thing, with every name, unit and phrase resolved.

Nothing here knows how a sheet is spelled or how a question is decided. All numbers are exact rationals in
the coherent base unit of their kind. Sum types are unions of frozen records, consumed by `match` that ends in
`assert_never`. `evaluate.py` and `encode.py` treat the same cases in the same order.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Literal, TypeAlias

from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import field, record

OTHERS = "something else"
"""The member of every open choice or set that stands for whatever is not listed."""

Value: TypeAlias = Fraction | str | frozenset[str]
Article: TypeAlias = Mapping[str, Value]
"""One thing: a value for everything in the vocabulary (a number, a choice's member, a set's members)."""

Op: TypeAlias = Literal["<", "<=", "=", "!=", ">=", ">"]
Rank: TypeAlias = Literal["least", "middle", "greatest"]
Rule: TypeAlias = Literal["away", "up", "even"]
"""Half away from zero; half up (toward plus infinity); half to even."""
# ---- numbers and ends


@record
class Written:
    """A number as written: its digits, its value in `unit`, and the places its digits reach (20.0 -> 1)."""

    text: str
    value: Fraction
    decimals: int
    unit: Unit

    @property
    def base(self) -> Fraction:
        """The value in the base unit of the kind."""
        return self.unit.to_base(self.value)

    @property
    def step(self) -> Fraction:
        """One unit of the last written place, as a difference in base units."""
        return self.unit.factor * Fraction(10) ** -self.decimals


@record
class Bound:
    """An end of a domain or of a parameter's interval; `closed` says whether the end belongs to it."""

    value: Fraction
    closed: bool


def lies_within(value: Fraction, lower: Bound | None, upper: Bound | None) -> bool:
    """Whether a value lies between two ends, or at one that belongs to what they bound."""
    above = lower is None or value > lower.value or (lower.closed and value == lower.value)
    return above and (upper is None or value < upper.value or (upper.closed and value == upper.value))


# ---- terms: rational-valued, or without value


@record
class Const:
    value: Fraction
    written: Written | None = field(default=None, compare=False)


@record
class Measured:
    """The value of a declared number."""

    name: str


@record
class Parameter:
    """The value of a reading's free parameter (a key of `Sheet.parameters`)."""

    key: str


@record
class Add:
    items: tuple[Term, ...]


@record
class Negate:
    item: Term


@record
class Multiply:
    left: Term
    right: Term


@record
class Divide:
    """Has no value where the divisor is 0."""

    left: Term
    right: Term
    text: str = field(default="", compare=False)


@record
class Remainder:
    """`item - divisor * floor(item / divisor)`; the divisor is a positive written number."""

    item: Term
    divisor: Fraction


@record
class Magnitude:
    item: Term


@record
class Least:
    items: tuple[Term, ...]


@record
class Greatest:
    items: tuple[Term, ...]


@record
class Rounded:
    """`item` rounded to the grid `origin + k * step`; signs are taken relative to `origin`."""

    item: Term
    step: Fraction
    rule: Rule
    origin: Fraction = Fraction(0)


@record
class CountOf:
    """How many members a declared set has; `something else` counts as one."""

    name: str


@record
class Ranked:
    """The least, the middle one or the greatest of the items that are `there`, in the order of size.

    The middle one of an even number is the mean of the two middle ones. Has no value where none is there, one
    that is there has none, or whether one is there is undefined.
    """

    rank: Rank
    items: tuple[Term, ...]
    there: tuple[Formula, ...]


@record
class Branch:
    """`then` if the condition is true, `otherwise` if false, no value if the condition is undefined."""

    condition: Formula
    then: Term
    otherwise: Term


@record
class ReadTerm:
    """A noun with several referents: one term for each reading of its group, in the group's order."""

    group: int
    options: tuple[Term, ...]


Term: TypeAlias = (
    Const
    | Measured
    | Parameter
    | Add
    | Negate
    | Multiply
    | Divide
    | Remainder
    | Magnitude
    | Least
    | Greatest
    | Rounded
    | CountOf
    | Ranked
    | Branch
    | ReadTerm
)


# ---- formulas: true, false or undefined (strong three-valued logic)


@record
class Truth:
    value: bool


@record
class Compare:
    op: Op
    left: Term
    right: Term


@record
class IsWhole:
    item: Term


@record
class Chosen:
    """A declared choice has this member."""

    name: str
    member: str


@record
class Includes:
    """A declared set has this member (and perhaps others)."""

    name: str
    member: str


@record
class Not:
    item: Formula


@record
class All:
    """Every item; of none: true."""

    items: tuple[Formula, ...]


@record
class Any:
    """At least one item; of none: false."""

    items: tuple[Formula, ...]


@record
class Implies:
    left: Formula
    right: Formula


@record
class ExactlyOne:
    items: tuple[Formula, ...]


@record
class Read:
    """A phrase: one formula for each reading of its group, in the group's order."""

    group: int
    options: tuple[Formula, ...]


Formula: TypeAlias = (
    Truth | Compare | IsWhole | Chosen | Includes | Not | All | Any | Implies | ExactlyOne | Read
)


def all_of(items: Sequence[Formula]) -> Formula:
    """Every item; a single one as it is."""
    return items[0] if len(items) == 1 else All(tuple(items))


def items_of(formula: Formula) -> tuple[Formula, ...]:
    """What the formula joins by 'and', as it stands; itself where it joins nothing."""
    return formula.items if isinstance(formula, All) else (formula,)


def conjuncts(formula: Formula) -> Iterator[Formula]:
    """What all must hold for the formula to hold, as far as it says 'and'."""
    if isinstance(formula, All):
        for item in formula.items:
            yield from conjuncts(item)
    else:
        yield formula


def any_of(items: Sequence[Formula]) -> Formula:
    """At least one item; a single one as it is."""
    return items[0] if len(items) == 1 else Any(tuple(items))
