"""Cells: the things on which all comparisons come out, and all branches of numbers are taken, as in a model.

Within a cell nothing jumps, so that its closure reaches what its things approach.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

import z3

from scopecheck.core.formula import Op
from scopecheck.solving.symbols import as_bool, completed_in, is_true_in, negation, relate

WHOLE_PARTS = (z3.Z3_OP_TO_INT, z3.Z3_OP_TO_REAL, z3.Z3_OP_IDIV, z3.Z3_OP_MOD)
COMPARISONS = {z3.Z3_OP_GE: True, z3.Z3_OP_GT: True, z3.Z3_OP_LE: False, z3.Z3_OP_LT: False}
"""The comparisons of two numbers, and whether they hold where the left one is the greater."""


class Shaped:
    """A term of a query with what does not depend on a model, looked at once: each look is slow."""

    def __init__(self, term: z3.ExprRef) -> None:
        self.term = term
        self.is_bool = z3.is_bool(term)
        self.kind: int = term.decl().kind()

    @cached_property
    def sides(self) -> tuple[z3.ExprRef, ...]:
        return tuple(self.term.children())

    @cached_property
    def compares_numbers(self) -> bool:
        return len(self.sides) == 2 and all(map(z3.is_arith, self.sides))

    @cached_property
    def compares_whole(self) -> bool:
        return bool(z3.is_int(self.sides[0]))

    @cached_property
    def branches(self) -> tuple[z3.ExprRef, ...]:
        """The outermost branches of numbers in the term."""
        found, stack, seen = [], [self.term], set[int]()
        while stack:
            top = stack.pop()
            if top.get_id() in seen:
                continue
            seen.add(top.get_id())
            if z3.is_arith(top) and top.decl().kind() == z3.Z3_OP_ITE:
                found.append(top)
            else:
                stack.extend(top.children())
        return tuple(found)


class Cells:
    """What cells of one sheet are made of. Terms are kept, so that their identities are not reused."""

    def __init__(self) -> None:
        self._shaped: dict[int, Shaped] = {}
        self._atoms: dict[int, tuple[z3.ExprRef, tuple[Shaped, ...]]] = {}

    def atoms(self, expressions: Iterable[z3.ExprRef]) -> Sequence[Shaped]:
        """What a cell is made of, each once, as it first occurs.

        These are the comparisons and Boolean variables, and the whole parts of numbers. A whole part must not
        change at the end of the cell: the number would jump there.
        """
        found: dict[int, Shaped] = {}
        for expression in expressions:
            for atom in self._atoms_of(expression):
                found.setdefault(id(atom), atom)
        return list(found.values())

    def _atoms_of(self, expression: z3.ExprRef) -> tuple[Shaped, ...]:
        key = expression.ast.value
        if key not in self._atoms:
            self._atoms[key] = (expression, tuple(self._looked_for(expression)))
        return self._atoms[key][1]

    def _looked_for(self, expression: z3.ExprRef) -> Iterable[Shaped]:
        stack, seen = [expression], set[int]()
        while stack:
            top = stack.pop()
            key = top.ast.value
            if key in seen:
                continue
            seen.add(key)
            parts = top.children()
            holds = z3.is_bool(top) and (not parts or z3.is_arith(parts[0]))
            if holds or top.decl().kind() in WHOLE_PARTS:
                yield self._shape(top)
            stack.extend(reversed(parts))

    def _shape(self, term: z3.ExprRef) -> Shaped:
        key = term.ast.value
        if key not in self._shaped:
            self._shaped[key] = Shaped(term)
        return self._shaped[key]

    def taken(self, term: z3.ExprRef, model: z3.ModelRef) -> z3.ExprRef:
        """The term with every branch of a number within it as the model takes it."""
        return self._taken(self._shape(term), model).term

    def _taken(self, atom: Shaped, model: z3.ModelRef) -> Shaped:
        while atom.branches:
            pairs = []
            for branch in atom.branches:
                condition, then, otherwise = branch.children()
                pairs.append((branch, then if is_true_in(model, condition) else otherwise))
            atom = self._shape(z3.substitute(atom.term, *pairs))
        return atom

    def closed(self, atom: Shaped, model: z3.ModelRef) -> z3.BoolRef | None:
        """The atom as the model has it, with strict comparisons loosened; None for kinds not handled."""
        taken = self._taken(atom, model)
        if not taken.is_bool:
            return as_in(taken.term, model)
        holds = is_true_in(model, taken.term)
        if not taken.sides:
            return taken.term if holds else negation(taken.term)
        if not taken.compares_numbers:
            return None
        left, right = taken.sides
        if taken.compares_whole:
            return z3.And(left == completed_in(model, left), right == completed_in(model, right))
        if taken.kind in COMPARISONS:
            return _related(">=" if COMPARISONS[taken.kind] == holds else "<=", left, right)
        if holds == (taken.kind == z3.Z3_OP_EQ):
            return _related("=", left, right)
        below = is_true_in(model, _related("<", left, right))
        return _related("<=" if below else ">=", left, right)


def as_in(term: z3.ExprRef, model: z3.ModelRef) -> z3.BoolRef:
    """That the term has the value it has in the model."""
    if z3.is_bool(term):
        return term if is_true_in(model, term) else negation(term)
    kept: z3.BoolRef = term == completed_in(model, term)
    return kept


def _related(op: Op, left: z3.ArithRef, right: z3.ArithRef) -> z3.BoolRef:
    return as_bool(relate(op, left, right))
