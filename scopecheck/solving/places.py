"""Like parts that may change places: only one order of them is looked at.

Something meets a question in which some parts may change places only if something does in which they stand in
the order of size. So an order may be required where every constraint of the question has been looked through.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

from scopecheck.core.alike import interchangeable, spoken_of
from scopecheck.core.model import All, Any, Formula, NumberDecl, Part, Sheet
from scopecheck.solving.symbols import Condition, Vocabulary, both, either, relate

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

    def of_name(self, name: str) -> Placed:
        """The part that a declared name belongs to."""
        return self._of_name.get(name, NOWHERE)

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
                yield either(relate("<", count, Fraction(other)), relate("<=", *sizes))


def _first_number(sheet: Sheet, part: Part) -> str:
    """The field that the parts are ordered by; '' if none is a number."""
    fields = (own for own in part.fields if isinstance(sheet.declaration(part.slot(1, own)), NumberDecl))
    return next(fields, "")
