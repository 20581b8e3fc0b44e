"""Ends: the least and the greatest that something can be, proposed by the optimiser and then certified.

The library's optimiser can stop early, and says of an end that is only approached no more than its value. So
nothing below an end is asked for, and an open end needs a cell, in which nothing jumps, that reaches it.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor

import z3

from scopecheck.core.construction import Construction
from scopecheck.core.formula import Negate, Term
from scopecheck.foundations.record import record
from scopecheck.solving.cells import as_in
from scopecheck.solving.constraints import Constraint, Undecided
from scopecheck.solving.encode import Encoder
from scopecheck.solving.solver import Search
from scopecheck.solving.symbols import as_bool, as_number, assert_all, numeral, rational

MOST_CELLS = 60
MOST_HALVINGS = 120
CLOSE = Fraction(1, 10**10)


@record
class Extremum:
    """Least or greatest value of something, and whether it is itself taken (closed)."""

    value: Fraction
    closed: bool


def infimum(
    search: Search, term: Term, at: Construction | None = None, likely: Iterable[Fraction] = ()
) -> Extremum | None:
    """The least value of a term (open if only approached), or None if it has no lower end.

    Ends that are `likely` are tried first; else the optimiser proposes, which takes longer. `holds` and the
    closure of a cell certify. Raises `Undecided`.
    """
    ratio = Encoder(search.session.words, at).encode_term(term)
    if ratio.den is not None:
        raise Undecided("the end of a ratio of two unknowns was asked for")
    return _infimum(search, as_number(ratio.num), as_bool(ratio.defined), likely)


def supremum(
    search: Search, term: Term, at: Construction | None = None, likely: Iterable[Fraction] = ()
) -> Extremum | None:
    """The greatest value of a term (open if only approached), or None if it has no upper end."""
    end = infimum(search, Negate(term), at, [-value for value in likely])
    return None if end is None else Extremum(-end.value, end.closed)


def least_stretch(search: Search, key: str, work: int | None = None) -> Extremum | None:
    """The least stretch; the optimiser may take so much `work`, and all there is if nothing is said of it."""
    lower = [p.lower.value for p in search.session.sheet.parameters if p.key == key]
    return _infimum(search, search.session.words.parameters[key], z3.BoolVal(True), lower, work)


def greatest_stretch(search: Search, key: str, work: int | None = None) -> Extremum | None:
    """As `least_stretch`, at the other end."""
    end = _infimum(search, -search.session.words.parameters[key], z3.BoolVal(True), work=work)
    return None if end is None else Extremum(-end.value, end.closed)


def _infimum(
    search: Search,
    expression: z3.ArithRef,
    defined: z3.BoolRef,
    likely: Iterable[Fraction] = (),
    work: int | None = None,
) -> Extremum | None:
    end = _among(search, expression, defined, sorted(set(likely)))
    return end or _looked_for(search, expression, defined, work)


def _among(
    search: Search, expression: z3.ArithRef, defined: z3.BoolRef, likely: list[Fraction]
) -> Extremum | None:
    """The least value, if it is one of these."""
    above = len(likely)
    least = 0
    while least < above:
        middle = (least + above) // 2
        if search.holds(Constraint(z3.And(defined, expression < numeral(likely[middle])))):
            above = middle
        else:
            least = middle + 1
    if least == 0:
        return None
    value = likely[least - 1]
    if search.holds(Constraint(z3.And(defined, expression == numeral(value)))):
        return Extremum(value, True)
    return Extremum(value, False) if _approached(search, expression, defined, numeral(value)) else None


def _looked_for(
    search: Search, expression: z3.ArithRef, defined: z3.BoolRef, work: int | None = None
) -> Extremum | None:
    value = _proposed_end(search, expression, [defined], work)
    for _ in range(MOST_CELLS):
        if value is None:
            return None
        if not search.find(Constraint(z3.And(defined, expression < numeral(value)))):
            break
        # Where whole numbers and open ends meet the optimiser can stop early: on, cell by cell.
        value = _proposed_end(search, expression, [defined, *_cell(search, defined)], work)
    else:
        raise Undecided("the end could not be certified")
    end = numeral(value)
    if search.holds(Constraint(z3.And(defined, expression == end))):
        return Extremum(value, True)
    if not _approached(search, expression, defined, end):
        raise Undecided("the end could not be certified")
    return Extremum(value, False)


def _proposed_end(
    search: Search, expression: z3.ArithRef, conditions: list[z3.BoolRef], work: int | None = None
) -> Fraction | None:
    """The least value by the optimiser's word; None where it has no lower end."""
    optimiser = z3.Optimize()
    work = min(work or search.session.budget.work, search.session.budget.work)
    optimiser.set(rlimit=work, ctrl_c=False, timeout=search.session.time_of_a_step())
    for assertion in (*search.everything_required(), *conditions):
        z3.Z3_optimize_assert(optimiser.ctx.ref(), optimiser.optimize, assertion.ast)
    aim = optimiser.minimize(expression)
    if optimiser.check() != z3.sat:
        return _drawn_in(search, expression, conditions)
    infinite, value, _ = (rational(part) for part in optimiser.lower_values(aim))
    if value is None or infinite is None:
        raise Undecided("the end is not a fraction")
    return value if infinite == 0 else None


def _drawn_in(search: Search, expression: z3.ArithRef, conditions: list[z3.BoolRef]) -> Fraction:
    """The least value as steps of halving propose it, where the optimiser does not know it.

    So it is now and then where unknown things are multiplied. The plainest fraction that is left is the one.
    """
    low: Fraction | None = None
    high: Fraction | None = None
    reach = Fraction(1)
    for _ in range(MOST_HALVINGS):
        if low is not None and high is not None and high - low <= CLOSE:
            return simplest_within(low, high)
        middle: Fraction | None = None
        if high is not None:
            middle = high - reach if low is None else (low + high) / 2
        below = z3.BoolVal(True) if middle is None else expression < numeral(middle)
        if search.find(Constraint(z3.And(*conditions, below))):
            high = rational(search.model.eval(expression, model_completion=True))
            if high is None:
                break
        elif middle is None:
            break
        else:
            low = middle
        reach *= 2 if low is None else 1
    raise search.session.undecided("no end was found within the work budget")


def simplest_within(low: Fraction, high: Fraction) -> Fraction:
    """The fraction of the least denominator from `low` to `high`."""
    whole = ceil(low)
    if whole <= high:
        return Fraction(whole if abs(whole) <= abs(floor(high)) else floor(high))
    below = floor(low)
    return below + 1 / simplest_within(1 / (high - below), 1 / (low - below))


def _cell(search: Search, defined: z3.BoolRef) -> list[z3.BoolRef]:
    """Everything that decides a branch or a comparison, as it was in what was found last."""
    atoms = search.session.cells.atoms([*search.everything_required(), defined])
    return [as_in(atom.term, search.model) for atom in atoms]


def _approached(search: Search, expression: z3.ArithRef, defined: z3.BoolRef, end: z3.ArithRef) -> bool:
    """Does the closure of some model's cell contain the end? Then convexity reaches it.

    Within a cell every branch is taken as in the model: what it comes to beyond the border of the cell, where
    a number may jump, plays no part.
    """
    near = Constraint(z3.And(defined, expression <= end + numeral(Fraction(1, 10**12))))
    if not search.find(near):
        return False
    model, cells = search.model, search.session.cells
    cell = z3.SimpleSolver()
    cell.set(rlimit=search.session.budget.work, ctrl_c=False, timeout=search.session.time_of_a_step())
    cell.add(cells.taken(expression, model) == end)
    for atom in cells.atoms([*search.everything_required(), defined]):
        closed = cells.closed(atom, model)
        if closed is None:
            return False
        assert_all(cell, (closed,))
    reached: bool = cell.check() == z3.sat
    return reached
