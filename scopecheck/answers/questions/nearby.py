"""Things one value away from a known thing: at, just beyond and well beyond the ends that formulas state.

A few things that the exact evaluator can judge at once, in a fixed order; none of them need exist. They spare
a search for what one must find; where they do not, the solver is asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, names_in, nodes
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import Article, Compare, Const, Formula, Value
from scopecheck.core.model import Sheet
from scopecheck.core.plain import stated_ends
from scopecheck.core.ranges import Range
from scopecheck.solving.evaluate import meets

End = tuple[Fraction, Fraction]
"""A number that something is compared with, and the step of its digits, 0 where it is not known."""
MOST_JUDGED = 60
"""Names times readings of a formula: with more of them judging thing by thing takes longer than a search."""
MOST_MEMBERS = 24
"""Members of a choice or set that are tried one by one."""
MOST_ENDS = 4
"""Numbers of one formula about which values are tried."""


def nearest_step(sheet: Sheet, article: Article, formulas: Sequence[Formula]) -> Iterator[Article]:
    """The thing with one other value of a name that the formulas speak of, name by name in sheet order."""
    names = names_in(*formulas)
    ends = stated_ends(formulas)
    for d in sheet.declarations:
        if d.name in names:
            for value in _values(d, article[d.name], ends.get(d.name, ())):
                yield {**article, d.name: value}


def needed_nearby(prepared: Prepared, known: Article, formula: Formula, others: Sequence[Formula]) -> bool:
    """On every reading of the formula, does something miss it that meets the others on every reading?

    `known` meets formula and others on every reading; the things tried differ from it in one value. Stretches
    are as presumed. False says nothing.
    """
    session = prepared.session
    ends = _compared(formula)
    left = list(session.ways_of_reading(session.groups_in(formula)))
    names = sorted(session.names_in(formula))
    if not left or len(left) * len(names) > MOST_JUDGED:
        return False
    for name in names:
        touched = [f for f in others if name in session.names_in(f)]
        for value in _values(prepared.sheet.declaration(name), known[name], ends, far=True):
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


def _compared(formula: Formula) -> tuple[End, ...]:
    """The numbers in the comparisons of a formula, the least first, without the steps of their digits."""
    compared = [c for c in nodes(formula) if isinstance(c, Compare)]
    ends = {n.value for c in compared for n in nodes(c) if isinstance(n, Const)}
    return tuple((end, Fraction(0)) for end in sorted(ends)[:MOST_ENDS])


def _values(d: Declaration, now: Value, ends: Sequence[End], far: bool = False) -> Iterator[Value]:
    """Other values of a name at which formulas are likely to change; `far`: far off too, within bounds."""
    match d:
        case NumberDecl():
            numbers = (*_far(d, ends), *_numbers(d, ends)) if far else _numbers(d, ends)
            bounds = Range(d.lower, d.upper) if far else Range()
            yield from (v for v in dict.fromkeys(numbers) if v != now and bounds.holds(v))
        case ChoiceDecl(members=members):
            yield from (m for m in members[:MOST_MEMBERS] if m != now)
        case SetDecl(members=members):
            assert isinstance(now, frozenset)
            yield from (now ^ {m} for m in members[:MOST_MEMBERS])
            yield frozenset()
            yield from (frozenset((m,)) for m in members[:MOST_MEMBERS])


def _far(d: NumberDecl, ends: Sequence[End]) -> Iterator[Fraction]:
    """Half of each end, and more than twice of it."""
    for value, _ in ends:
        for other in (value / 2, value * 2 + d.unit.factor):
            if not d.whole or other.denominator == 1:
                yield other


def _numbers(d: NumberDecl, ends: Sequence[End]) -> Iterator[Fraction]:
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
