"""Like parts that may change places: only one order of them is looked at.

Something meets a question in which some parts may change places only if something does in which they stand in
the order of size. So an order may be required where every constraint of the question has been looked through.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

from scopecheck.core.alike import interchangeable, spoken_of
from scopecheck.core.declared import NumberDecl, Part
from scopecheck.core.formula import All, Any, Compare, Const, Formula, Measured, Rank, Term
from scopecheck.core.model import Sheet
from scopecheck.solving.symbols import Condition, Number, Vocabulary, both, either, relate

Placed: TypeAlias = frozenset[tuple[str, int]]
"""Some of the like parts: the name of their count, and which of them."""
NOWHERE: Placed = frozenset()


class Places:
    """Which of a sheet's like parts are bound to their places by a formula, a name, or the given facts."""

    def __init__(self, sheet: Sheet, words: Vocabulary) -> None:
        self.sheet = sheet
        self.words = words
        self.ordered_by = tuple((part, own) for part in sheet.parts if (own := _first_number(sheet, part)))
        self._of_name = {
            name: frozenset({(part.count, i)}) for part, _ in self.ordered_by for i, _, name in part.slots()
        }
        self._whole = {id(x.formula) for claim in sheet.claims for x in claim.limitations}
        self._whole |= {id(case.facts) for case in sheet.cases}
        self._seen: dict[int, tuple[Formula, Placed]] = {}
        self._orders: dict[Placed, Condition] = {}

    @cached_property
    def numbers(self) -> tuple[Condition, ...]:
        """The numbers that there may be of the most numerous like parts, each as a condition."""
        outer = [part for part, _ in self.ordered_by if part.within is None]
        if not outer:
            return ()
        count = max(outer, key=lambda part: part.most).count
        declared = self.sheet.declaration(count)
        assert isinstance(declared, NumberDecl)
        assert declared.lower
        assert declared.upper
        least, most = int(declared.lower.value), int(declared.upper.value)
        known = (relate("=", self.words.numbers[count], Fraction(k)) for k in range(least, most + 1))
        return tuple(known)

    def of_name(self, name: str) -> Placed:
        """The part that a declared name belongs to."""
        return self._of_name.get(name, NOWHERE)

    def of_names(self, names: Sequence[str]) -> Placed:
        """The parts that may not change places where the same is said of each of some declared names."""
        found = NOWHERE.union(*map(self.of_name, names))
        whole = {part.count for part, _ in self.ordered_by if len(_of(part, found)) == part.most}
        return frozenset(place for place in found if place[0] not in whole)

    def of(self, *formulas: Formula) -> Placed:
        """The parts that may not change places with others in one of the formulas."""
        return NOWHERE.union(*map(self._of, formulas)) if self.ordered_by else NOWHERE

    def _of(self, formula: Formula) -> Placed:
        key = id(formula)
        if key not in self._seen:
            if isinstance(formula, All | Any) and any(id(item) in self._whole for item in formula.items):
                placed = NOWHERE.union(*map(self._of, formula.items))
            else:
                placed = self._looked_through(formula)
            # The formula is kept beside so that its identity is not reused.
            self._seen[key] = (formula, placed)
        return self._seen[key][1]

    def _looked_through(self, formula: Formula) -> Placed:
        names = spoken_of(formula)
        return frozenset(
            (part.count, i)
            for part, _ in self.ordered_by
            for i in frozenset(range(1, part.most + 1)) - interchangeable(formula, part, names)
        )

    def in_order(self, placed: Iterable[Placed | None]) -> Condition:
        """That the parts which nothing keeps in their places stand in the order of size."""
        if not self.ordered_by:
            return True
        bound = self.of(*(given.formula for given in self.sheet.givens))
        for some in placed:
            if some is None:
                return True
            bound |= some
        if bound not in self._orders:
            self._orders[bound] = both(*self._limits(bound))
        return self._orders[bound]

    def _limits(self, bound: Placed) -> Iterator[Condition]:
        for part, own in self.ordered_by:
            free = [i for i in range(1, part.most + 1) if (part.count, i) not in bound]
            count = self.words.numbers[part.count]
            for one, other in pairwise(free):
                sizes = (self.words.numbers[part.slot(i, own)] for i in (one, other))
                yield _no_less(count, other, *sizes)


def _of(part: Part, placed: Placed) -> Placed:
    return frozenset(place for place in placed if place[0] == part.count)


def _no_less(count: Number, index: int, before: Number, size: Number) -> Condition:
    """That the part of an index, if there are so many, is no less than the one before it."""
    return either(relate("<", count, Fraction(index)), relate("<=", before, size))


def of_those_in_order(
    words: Vocabulary, rank: Rank, items: tuple[Term, ...], there: tuple[Formula, ...], ends: Sequence[Number]
) -> tuple[Condition, Condition]:
    """That like parts stand in order of size, and which of them are then the two middle ones, or at an end.

    Where they do, the middle and the sum of many are one linear problem for each number of parts. For what
    is not known to be like parts the first is False.
    """
    counted = _counted(there)
    names = tuple(item.name for item in items if isinstance(item, Measured))
    if counted is None or len(names) < len(items):
        return False, True
    count, values = words.number(counted), tuple(map(words.number, names))
    in_order = both(*(_no_less(count, i + 2, a, b) for i, (a, b) in enumerate(pairwise(values))))

    def unless(least: int, most: int) -> Condition:
        return either(relate("<", count, Fraction(least)), relate(">", count, Fraction(most)))

    at_place = (
        either(unless(least, most), relate("=", end, value))
        for index, value in enumerate(values, 1)
        for end, (least, most) in zip(ends, _counts_with(rank, index, len(values)), strict=True)
    )
    return in_order, both(*at_place)


def _counted(there: tuple[Formula, ...]) -> str | None:
    """The count that says of each of some parts in turn that it is there; None where something else does."""
    match there[:1]:
        case (Compare(">=", Measured(count)),):
            wanted = (Compare(">=", Measured(count), Const(Fraction(i))) for i in range(1, len(there) + 1))
            return count if there == tuple(wanted) else None
        case _:
            return None


def _counts_with(rank: Rank, index: int, most: int) -> tuple[tuple[int, int], ...]:
    """From how many to how many parts the one at a place is the lower, and the upper, of the middle two."""
    match rank:
        case "least":
            return ((1, most) if index == 1 else (1, 0),)
        case "greatest":
            return ((index, index),)
        case "middle":
            return (2 * index - 1, 2 * index), (2 * index - 2, 2 * index - 1)


def _first_number(sheet: Sheet, part: Part) -> str:
    """The field that the parts are ordered by; '' if none is a number."""
    fields = (own for own in part.fields if isinstance(sheet.declaration(part.slot(1, own)), NumberDecl))
    return next(fields, "")
