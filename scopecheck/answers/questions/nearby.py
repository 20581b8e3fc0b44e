"""Things close to a known one: found by the evaluator alone, they spare a search for what one must find."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, nodes
from scopecheck.core.model import (
    Article,
    ChoiceDecl,
    Compare,
    Const,
    Declaration,
    Formula,
    SetDecl,
    Value,
)
from scopecheck.core.ranges import Range
from scopecheck.solving.evaluate import meets

MOST_VALUES = 24
"""Values tried of one name."""


def needed_nearby(prepared: Prepared, known: Article, formula: Formula, others: Sequence[Formula]) -> bool:
    """On every reading of the formula, does something miss it that meets the others on every reading?

    `known` meets formula and others on every reading; the things tried differ from it in one value. Stretches
    are as presumed. False says nothing.
    """
    session = prepared.session
    left = list(session.ways_of_reading(session.groups_in(formula)))
    if not left:
        return False
    for name in sorted(session.names_in(formula)):
        touched = [f for f in others if name in session.names_in(f)]
        for value in _values(prepared.sheet.declaration(name), formula):
            thing = {**known, name: value}
            missed = [k for k in left if not meets(formula, thing, k)]
            if missed and _exists(prepared, thing, name) and _always(prepared, touched, thing):
                left = [k for k in left if k not in missed]
                if not left:
                    return True
    return False


def _always(prepared: Prepared, formulas: Sequence[Formula], thing: Article) -> bool:
    """Does the thing meet each of the formulas on every reading? False too where those are too many."""
    session = prepared.session
    for formula in formulas:
        ways: list[Construction] = session.ways_of_reading(session.groups_in(formula))
        if not ways or not all(meets(formula, thing, k) for k in ways):
            return False
    return True


def _exists(prepared: Prepared, thing: Article, name: str) -> bool:
    """Do the given facts that speak of the changed name still hold?"""
    session = prepared.session
    given = [g.formula for g in prepared.sheet.givens if name in session.names_in(g.formula)]
    return all(meets(f, thing, session.base) for f in given)


def _values(d: Declaration, formula: Formula) -> Iterator[Value]:
    """Values of a name at which a formula is likely to change, those far off first."""
    if isinstance(d, ChoiceDecl):
        yield from d.members[:MOST_VALUES]
        return
    if isinstance(d, SetDecl):
        yield from (frozenset(), *(frozenset({m}) for m in d.members[:MOST_VALUES]))
        return
    compared = [c for c in nodes(formula) if isinstance(c, Compare)]
    ends = {n.value for c in compared for n in nodes(c) if isinstance(n, Const)}
    unit = d.unit.factor
    tried: list[Value] = []
    for end in sorted(ends)[: MOST_VALUES // 6]:
        for value in (end / 2, end * 2 + unit, end - 10 * unit, end + 10 * unit, end - unit, end + unit):
            whole = not d.whole or value.denominator == 1
            if whole and value not in tried and Range(d.lower, d.upper).holds(value):
                tried.append(value)
    yield from tried
