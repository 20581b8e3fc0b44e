"""Things one value away from a known thing: at, just beyond and well beyond the ends that formulas state.

A few things that the exact evaluator can judge at once, in a fixed order; none of them need exist.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from scopecheck.core.construction import names_in
from scopecheck.core.model import Article, ChoiceDecl, Declaration, Formula, NumberDecl, SetDecl, Sheet, Value
from scopecheck.core.plain import stated_ends

MOST_MEMBERS = 12
"""Members of a choice or set that are tried one by one."""


def nearest_step(sheet: Sheet, article: Article, formulas: Sequence[Formula]) -> Iterator[Article]:
    """The thing with one other value of a name that the formulas speak of, name by name in sheet order."""
    names = names_in(*formulas)
    ends = stated_ends(formulas)
    for d in sheet.declarations:
        if d.name in names:
            for value in _values(d, article[d.name], ends.get(d.name, ())):
                yield {**article, d.name: value}


def _values(d: Declaration, now: Value, ends: Sequence[tuple[Fraction, Fraction]]) -> Iterator[Value]:
    match d:
        case NumberDecl():
            yield from (v for v in _numbers(d, ends) if v != now)
        case ChoiceDecl(members=members):
            yield from (m for m in members[:MOST_MEMBERS] if m != now)
        case SetDecl(members=members):
            assert isinstance(now, frozenset)
            yield from (now ^ {m} for m in members[:MOST_MEMBERS])
            yield frozenset()
            yield from (frozenset((m,)) for m in members[:MOST_MEMBERS])


def _numbers(d: NumberDecl, ends: Sequence[tuple[Fraction, Fraction]]) -> Iterator[Fraction]:
    """Beyond each end by ten steps of its digits, by one, and the end itself; then midway between ends."""
    whole = Fraction(1)
    for times in (10, 1, 0):
        for value, written in ends:
            step = whole if d.whole else written or d.unit.factor
            for sign in (1, -1) if times else (1,):
                yield value + sign * times * step
    values = sorted({value for value, _ in ends})
    if len(values) > 1:
        middle = (values[0] + values[-1]) / 2
        yield Fraction(round(middle)) if d.whole else middle
