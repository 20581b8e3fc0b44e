"""Like parts: what is declared for them, and formulas over each of those that are there.

A formula over parts is written out for as many parts as there may be, each time with the condition that so
many are there. Nothing else in the program knows of parts but what speaks of them to people.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise

from scopecheck.core.declared import Declaration, NumberDecl, Part, Within
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Bound,
    Branch,
    Compare,
    Const,
    Divide,
    ExactlyOne,
    Formula,
    Implies,
    Measured,
    Multiply,
    Negate,
    Not,
    Op,
    Rank,
    Ranked,
    Term,
)
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed

ZERO, ONE = Const(Fraction(0)), Const(Fraction(1))
NO_VALUE = Divide(ZERO, ZERO)
UNDEFINED = Compare("=", NO_VALUE, ZERO)
"""What is neither true nor false of anything."""
RANKS: dict[str, Rank] = {"LEAST": "least", "MEDIAN": "middle", "GREATEST": "greatest"}
ORDERS: dict[str, Op] = {"EQUAL": "=", "DIFFERENT": "!=", "RISING": "<", "FALLING": ">"}


TOGETHER = {"total": "SUM", "mean": "MEAN", "middle": "MEDIAN", "least": "LEAST", "greatest": "GREATEST"}
WEIGHED = {"heavy": 1, "coarse": 3}
"""Means in which each part counts by a power of its own value: a weight average of masses, a volume mean of
diameters."""
WHOLES = ("SUM", "LEAST", "GREATEST")
FACTS = {
    "alike": "EQUAL", "different": "DIFFERENT", "rising": "RISING", "falling": "FALLING",
    "one_greatest": "ABOVE", "one_least": "BELOW",
}  # fmt: skip


_NO_PLURAL = ("ss", "us", "is", "as", "os", "lens", "series")


def plural_of_part(name: str) -> str:
    """What several of a part are called that was declared by this name; a plural ('ports') is its own."""
    plural = name.endswith("s") and not name.lower().endswith(_NO_PLURAL)
    return name if plural else plural_of(name)


@cache
def _unusual_plurals() -> dict[str, str]:
    """By the noun for one the plural that no final s makes."""
    return {word_lists()["irregular"][several]: several for several in listed("names", "unusual_plurals")}


def plural_of(name: str) -> str:
    """The plural of a noun: holes, boxes, cavities, teeth."""
    lead, _, noun = name.rpartition(" ")
    if several := _unusual_plurals().get(noun.lower()):
        return f"{lead} {several}".strip()
    if name.endswith(("s", "x", "z", "ch", "sh")):
        return f"{name}es"
    if name.endswith("y") and name[-2:-1] not in ("a", "e", "i", "o", "u"):
        return f"{name[:-1]}ies"
    return f"{name}s"


@record
class Kind:
    """Like parts as declared: what one and several of them are called, and how many there may be."""

    name: str
    plural: str
    least: int
    most: int
    note: str
    span: Span


@record
class Inside:
    """What is declared below a part: its own fields, and parts of parts with theirs."""

    fields: tuple[Declaration, ...]
    kinds: tuple[tuple[Kind, tuple[Declaration, ...]], ...] = ()


def made_of(kind: Kind, inside: Inside) -> tuple[tuple[Part, ...], list[Declaration]]:
    """The parts of a kind, with those of each of them, and all that is declared for them."""
    own = (*(d.name for d in inside.fields), *(inner.plural for inner, _ in inside.kinds))
    outer = Part(kind.name, kind.plural, kind.most, own, kind.span, kind.plural)
    parts = [outer]
    declared: list[Declaration] = [_count(kind, outer.count)]
    for index in range(1, kind.most + 1):
        declared += (replace(d, name=outer.slot(index, d.name)) for d in inside.fields)
        for inner, fields in inside.kinds:
            within = Within(outer.called(index), outer.count, index)
            names = tuple(d.name for d in fields)
            count = outer.slot(index, inner.plural)
            part = Part(inner.name, count, inner.most, names, inner.span, inner.plural, within)
            parts.append(part)
            declared.append(_count(inner, count))
            declared += (
                replace(d, name=part.slot(j, d.name)) for j in range(1, inner.most + 1) for d in fields
            )
    return tuple(parts), declared


def _count(kind: Kind, name: str) -> NumberDecl:
    lower, upper = Bound(Fraction(kind.least), True), Bound(Fraction(kind.most), True)
    return NumberDecl(name, PLAIN_KIND, PLAIN, True, lower, upper, True, kind.note, kind.span)


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


def over(parts: Sequence[Part], said: Callable[[Part, int], Formula]) -> Present:
    """What is said of part 1, 2, ... up to as many as there may be."""
    places = [(part, i) for part in parts for i in range(1, part.most + 1)]
    return Present(tuple(p.present(i) for p, i in places), tuple(said(p, i) for p, i in places))


def values(parts: Sequence[Part], each: Callable[[Part, int], Term]) -> Values:
    places = [(part, i) for part in parts for i in range(1, part.most + 1)]
    there = tuple(p.present(i) for p, i in places)
    return Values(how_many_of(parts), there, tuple(each(p, i) for p, i in places))


def how_many_of(parts: Sequence[Part]) -> Term:
    """How many of the parts there are, those of parts that are not there left out."""
    counts: list[Term] = []
    for part in parts:
        count = Measured(part.count)
        counts.append(count if part.within is None else Branch(part.within.there(), count, ZERO))
    return counts[0] if len(counts) == 1 else Add(tuple(counts))


def value_of_one(there: Formula, value: Term) -> Term:
    """A value of one of the parts; none where it is not there."""
    return Branch(there, value, NO_VALUE)


def said_of_one(there: Formula, said: Formula) -> Formula:
    """What is said of one of the parts: neither true nor false where it is not there."""
    return Any((All((there, said)), All((Not(there), UNDEFINED))))


def taken_apart(formula: Formula) -> tuple[Formula | None, Formula]:
    """What `said_of_one` was made of; of any other formula None and the formula itself."""
    match formula:
        case Any((All((there, said)), All((Not(), other)))) if other is UNDEFINED:
            return there, said
        case _:
            return None, formula


def compared(op: Op, left: Term, right: Term) -> Formula:
    """A comparison; what it says of one of the parts stands before it, so that limits stay linear."""
    for term in (left, right):
        match term:
            case Branch(there, value, otherwise) if otherwise is NO_VALUE:
                sides = (value, right) if term is left else (left, value)
                return said_of_one(there, compared(op, *sides))
            case _:
                pass
    return Compare(op, left, right)


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
    """EQUAL or DIFFERENT: every two of them; RISING or FALLING: each and the next, in the order numbered;
    ABOVE or BELOW: one of them and each other one."""
    numbered = list(zip(given.there, given.each, strict=True))
    if word in ("ABOVE", "BELOW"):
        return Any(tuple(_beyond_the_others(one, numbered, word) for one in numbered))
    if word == "EQUAL" and any(isinstance(there, Compare) for there in given.there):
        least, greatest = (Ranked(RANKS[end], given.each, given.there) for end in ("LEAST", "GREATEST"))
        return Implies(Any(given.there), Compare("=", least, greatest))
    pairs = combinations(numbered, 2) if word == "DIFFERENT" else pairwise(numbered)
    op = ORDERS[word]
    return All(tuple(Implies(All((p, q)), Compare(op, a, b)) for (p, a), (q, b) in pairs))


def _beyond_the_others(one: tuple[Formula, Term], numbered: list[tuple[Formula, Term]], word: str) -> Formula:
    """That a part is there, and its value above, or below, that of each other part that is there."""
    op: Op = ">" if word == "ABOVE" else "<"
    others = (other for other in numbered if other is not one)
    return All((one[0], *(Implies(there, Compare(op, one[1], value)) for there, value in others)))


def gathered(word: str, given: Values) -> Term:
    """SUM, MEAN, MEDIAN, LEAST or GREATEST of the parts that are there; the sum of none is 0."""
    match word:
        case "SUM":
            return _sum(given)
        case "MEAN":
            of = given.count.name if isinstance(given.count, Measured) else ""
            return Divide(_sum(given), given.count, of)
        case _:
            return Ranked(RANKS[word], given.each, given.there)


def weighed(power: int, given: Values) -> Term:
    """The mean of the parts that are there, each counted by this power of its value."""
    top = Values(given.count, given.there, tuple(_power(v, power + 1) for v in given.each))
    bottom = Values(given.count, given.there, tuple(_power(v, power) for v in given.each))
    return Divide(_sum(top), _sum(bottom), "the sum of all sizes")


def _power(value: Term, power: int) -> Term:
    made = value
    for _ in range(power - 1):
        made = Multiply(made, value)
    return made


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
