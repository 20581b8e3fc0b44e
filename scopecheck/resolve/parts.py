"""Like parts: what is declared for them, and formulas over each of those that are there.

A formula over parts is written out for as many parts as there may be, each time with the condition that so
many are there. Nothing else in the program knows of parts but what speaks of them to people.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import combinations, pairwise

from scopecheck.core.model import (
    Add,
    All,
    Any,
    Bound,
    Branch,
    Compare,
    Const,
    Declaration,
    Divide,
    ExactlyOne,
    Formula,
    Greatest,
    Implies,
    Least,
    Measured,
    Median,
    Negate,
    Not,
    NumberDecl,
    Op,
    Part,
    Term,
)
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND
from scopecheck.foundations.record import record, replace

ZERO, ONE = Const(Fraction(0)), Const(Fraction(1))
NO_VALUE = Divide(ZERO, ZERO)
"""What the least, the greatest and the mean of no parts are."""
ORDERS: dict[str, Op] = {"EQUAL": "=", "DIFFERENT": "!=", "RISING": "<", "FALLING": ">"}


TOGETHER = {"total": "SUM", "mean": "MEAN", "middle": "MEDIAN", "least": "LEAST", "greatest": "GREATEST"}
WHOLES = ("SUM", "LEAST", "GREATEST")
FACTS = {"alike": "EQUAL", "different": "DIFFERENT", "rising": "RISING", "falling": "FALLING"}


def plural_of(name: str) -> str:
    """The usual plural of a noun: holes, boxes, cavities."""
    if name.endswith(("s", "x", "z", "ch", "sh")):
        return f"{name}es"
    if name.endswith("y") and name[-2:-1] not in ("a", "e", "i", "o", "u"):
        return f"{name[:-1]}ies"
    return f"{name}s"


def declared_for(part: Part, least: int, fields: list[Declaration], note: str) -> Iterator[Declaration]:
    """The count of the parts, and each field of each of them."""
    lower, upper = Bound(Fraction(least), True), Bound(Fraction(part.most), True)
    yield NumberDecl(part.count, PLAIN_KIND, PLAIN, True, lower, upper, True, note, part.span)
    for index in range(1, part.most + 1):
        yield from (replace(field, name=part.slot(index, field.name)) for field in fields)


@record
class Present:
    """Something said of each part that may be there, with the condition that it is."""

    there: tuple[Formula, ...]
    said: tuple[Formula, ...]


@record
class Values:
    """A value of each part that may be there. `count` is how many there are."""

    count: Term
    there: tuple[Formula, ...]
    each: tuple[Term, ...]


def over(part: Part, said: Callable[[int], Formula]) -> Present:
    """What is said of part 1, 2, ... up to as many as there may be."""
    indices = range(1, part.most + 1)
    return Present(tuple(map(part.present, indices)), tuple(map(said, indices)))


def values(part: Part, each: Callable[[int], Term]) -> Values:
    indices = range(1, part.most + 1)
    return Values(Measured(part.count), tuple(map(part.present, indices)), tuple(map(each, indices)))


def quantified(word: str, present: Present) -> Formula:
    """EVERY, SOME, NO or ONE of the parts that are there. Of no part EVERY and NO are true."""
    there, said = present.there, present.said
    match word:
        case "EVERY":
            return All(tuple(Implies(t, f) for t, f in zip(there, said, strict=True)))
        case "NO":
            return All(tuple(Implies(t, Not(f)) for t, f in zip(there, said, strict=True)))
        case "SOME":
            return Any(tuple(All((t, f)) for t, f in zip(there, said, strict=True)))
        case _:
            return ExactlyOne(tuple(All((t, f)) for t, f in zip(there, said, strict=True)))


def how_many(present: Present) -> Term:
    """How many of the parts that are there it is true of; no value where it has no truth for one of them."""
    pairs = zip(present.there, present.said, strict=True)
    return Add(tuple(Branch(All((t, f)), ONE, ZERO) for t, f in pairs))


def ordered(word: str, given: Values) -> Formula:
    """EQUAL or DIFFERENT: every two of them; RISING or FALLING: each and the next, in the order numbered."""
    numbered = list(zip(given.there, given.each, strict=True))
    pairs = combinations(numbered, 2) if word == "DIFFERENT" else pairwise(numbered)
    op = ORDERS[word]
    # Parts are numbered from 1 without a gap: where the later of two is there, so is the earlier.
    return All(tuple(Implies(there, Compare(op, a, b)) for (_, a), (there, b) in pairs))


def gathered(word: str, given: Values) -> Term:
    """SUM, MEAN, MEDIAN, LEAST or GREATEST of the parts that are there; the sum of none is 0."""
    match word:
        case "SUM":
            return _sum(given)
        case "MEAN":
            return Divide(_sum(given), given.count)
        case "MEDIAN":
            return Median(given.each, given.count)
        case _:
            first = given.each[0]
            # A part that is not there counts as the first one does, which is there if any is.
            rest = [Branch(t, v, first) for t, v in zip(given.there[1:], given.each[1:], strict=True)]
            kind = Least if word == "LEAST" else Greatest
            return Branch(given.there[0], kind((first, *rest)), NO_VALUE)


def gaps(given: Values) -> tuple[Term, ...]:
    """The steps from each to the next, in the order numbered; one between parts that are not both there
    counts as the first, which is there if any is. Empty where there may be one part only.
    """
    between = [Add((b, Negate(a))) for a, b in pairwise(given.each)]
    return tuple(
        gap if i == 0 else Branch(there, gap, between[0])
        for i, (there, gap) in enumerate(zip(given.there[1:], between, strict=True))
    )


def _sum(given: Values) -> Term:
    return Add(tuple(Branch(t, v, ZERO) for t, v in zip(given.there, given.each, strict=True)))
