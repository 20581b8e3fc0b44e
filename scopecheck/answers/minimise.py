"""The preference ladder: from some thing found to the one thing worth showing.

Works on any session and search that keep to the small surface used here; knows no solver. Preferences are
tried strongest first and kept if still possible, so the result is the least element of one total order and
does not depend on what was found before. A step left undecided keeps what it had; the witness is then marked
as not shown to be simplest.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from math import ceil, floor
from typing import Literal, TypeAlias, assert_never

from scopecheck.core.construction import Construction, preference
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import Article, Value
from scopecheck.core.model import FreeParameter
from scopecheck.core.reference import Reference
from scopecheck.foundations.record import record
from scopecheck.solving.constraints import Constraint, Undecided, any_of
from scopecheck.solving.ends import Extremum, greatest_stretch, least_stretch
from scopecheck.solving.solver import Search, Session

Grade: TypeAlias = Literal["plain", "near", "edge", "listed"]
MOST_DECIMALS = 12
MOST_PLACES_TOGETHER = 4


@record
class BreakPoint:
    """Where a free parameter changes the outcome: least or greatest value that suffices, open or closed.

    `only`: a value that suffices, of which is not known how far others do.
    """

    parameter: str
    end: Extremum
    upward: bool
    only: bool = False


@record
class Settled:
    """The best construction for what a search requires; `best` is False if a step stayed undecided."""

    construction: Construction
    breaks: tuple[BreakPoint, ...]
    best: bool


@record
class Picked:
    """The simplest article for what a search requires, told as departures from a reference.

    `departs` are all names in question, and all others that the reference states, in which it departs.
    """

    article: Article
    reference: str
    departs: tuple[str, ...]
    grade: Grade
    simplest: bool


# ---- readings


def settle_construction(session: Session, search: Search, groups: Sequence[int]) -> Settled:
    """Narrows the search, which must hold, to the construction of least rank, and says which that is."""
    settle_readings(session, search, groups)
    breaks: list[BreakPoint] = []
    best = True
    for p in session.sheet.parameters:
        if p.group in groups and search.true(session.reads(p.group, p.reading)):
            point, certain = _settle_parameter(session, search, p)
            breaks += [point] if point else []
            best = best and certain
    return Settled(search.construction(), tuple(breaks), best)


def settle_readings(session: Session, search: Search, groups: Sequence[int]) -> None:
    """Narrows the search, which must hold, to the readings of least rank; no parameter is settled."""
    standing = [[session.standing_at_most(g, level) for g in groups] for level in range(3)]
    for constraints in standing:
        if search.find(*constraints):
            search.require(*constraints)
            break
    _fewest(session, search, [session.departing(g) for g in groups])
    for g in groups:
        order = preference(session.sheet.groups[g])
        reading = next(r for r in order if keep(search, session.reads(g, r)))
        assert reading in order


def _settle_parameter(session: Session, search: Search, p: FreeParameter) -> tuple[BreakPoint | None, bool]:
    if keep(search, session.stretches(p.key, p.presumed)):
        return None, True
    try:
        with search.aside():
            search.require(~session.stretches_at_most(p.key, p.presumed))
            above = least_stretch(search, p.key) if search.holds() else None
        with search.aside():
            search.require(session.stretches_at_most(p.key, p.presumed))
            below = greatest_stretch(search, p.key) if search.holds() else None
    except Undecided:
        _pin_near(session, search, p)
        return None, False
    ends = [(abs(e.value - p.presumed), up, e) for e, up in ((above, True), (below, False)) if e is not None]
    _, upward, end = min(ends, key=lambda item: (item[0], item[1]))
    for value in _just_beyond(p, end, upward):
        if keep(search, session.stretches(p.key, value)):
            return BreakPoint(p.key, end, upward), True
    _pin(session, search, p)
    return BreakPoint(p.key, end, upward), False


def _pin_near(session: Session, search: Search, p: FreeParameter) -> None:
    """Requires a short value close to the presumed one; else the value found last."""
    with suppress(Undecided):
        for upward in (True, False):
            for value in _just_beyond(p, Extremum(p.presumed, False), upward):
                if search.find_soon(session.stretches(p.key, value)):
                    search.require(session.stretches(p.key, value))
                    return
    _pin(session, search, p)


def _pin(session: Session, search: Search, p: FreeParameter) -> None:
    """Requires the value found last, so that what is picked next fits the construction that is reported."""
    search.require(session.stretches(p.key, search.construction().parameter(p.key)))


def _just_beyond(p: FreeParameter, end: Extremum, upward: bool) -> Iterator[Fraction]:
    if end.closed:
        yield end.value
    sign = 1 if upward else -1
    for places in range(MOST_DECIMALS + 1):
        step = p.unit.factor * Fraction(10) ** -places
        yield (floor(end.value / step) + 1 if upward else ceil(end.value / step) - 1) * step
    yield end.value + sign * p.unit.factor * Fraction(10) ** -MOST_DECIMALS


def keep(search: Search, *constraints: Constraint) -> bool:
    """Requires the constraints if something still meets them; says whether it did."""
    if all(search.true(c) for c in constraints):
        search.require(*constraints)
        return True
    if not search.find(*constraints):
        return False
    search.require(*constraints)
    return True


def _not_kept(search: Search, wanted: list[tuple[str, Constraint]]) -> list[str]:
    """Requires each of the constraints in turn if something still meets it; the names of those left out.

    Many at once are tried first: where all can be met together, each can in turn.
    """
    if not wanted or keep(search, *(c for _, c in wanted)):
        return []
    if len(wanted) == 1:
        return [wanted[0][0]]
    half = len(wanted) // 2
    return _not_kept(search, wanted[:half]) + _not_kept(search, wanted[half:])


def _fewest(session: Session, search: Search, constraints: list[Constraint]) -> int:
    """Requires that as few of the constraints hold as possible; says how many."""
    found = sum(search.true(c) for c in constraints)
    for count in range(found):
        fewer = session.at_most_of(constraints, count)
        if search.find(fewer):
            search.require(fewer)
            return count
    search.require(session.at_most_of(constraints, found))
    return found


# ---- things


def pick_article(
    session: Session,
    search: Search,
    names: Iterable[str],
    known: Sequence[Reference],
    grades: Sequence[tuple[Grade, Constraint | None]] = (("edge", None),),
) -> Picked:
    """The simplest article that meets what the search, which must hold, requires.

    `names` are the names that matter, told by departures from the best of the references `known`; the first
    of `grades` whose constraint can be met is taken. The search is narrowed to the article.
    """
    every = [d.name for d in session.sheet.declarations]
    wanted = set(names)
    ordered = [n for n in every if n in wanted]
    grade: Grade = "edge"
    simplest = True
    try:
        grade = next((g for g, c in grades if c is None or keep(search, c)), grade)
        reference = _nearest(session, search, ordered, known)
        absent = _settle_parts(session, search, ordered, reference)
        ordered = [n for n in ordered if n not in absent]
        stated = [n for n in every if n in reference.stated - wanted - absent]
        rest = [n for n in every if n not in {*ordered, *stated}]
        for part in (ordered, stated):
            _fewest(session, search, [~session.equals(n, reference.article[n]) for n in part])
        # All departures are chosen before any value is: a short value must not cost a late departure.
        for part in (ordered, stated, rest):
            moved = _not_kept(search, [(n, session.equals(n, reference.article[n])) for n in part])
            _settle_places(session, search, moved)
            for name in moved:
                _settle_value(session, search, name, reference.article[name])
    except Undecided:
        simplest = False
        reference = known[0]
    article = search.article()
    told = {*ordered, *reference.stated}
    departs = tuple(n for n in every if n in told and article[n] != reference.article[n])
    return Picked(article, reference.name, departs, grade, simplest)


def _nearest(session: Session, search: Search, names: list[str], known: Sequence[Reference]) -> Reference:
    """The first of the references that something found departs from in the fewest names.

    Counted are the names in question, and what any of them states besides: one that states little is no
    nearer for that.
    """
    if len(known) == 1 or not names:
        return known[0]
    stated = frozenset[str]().union(*(r.stated for r in known))
    counted = [*names, *sorted(stated.difference(names))]
    departing = [[~session.equals(name, r.article[name]) for name in counted] for r in known]
    search.true(departing[0][0])
    least = min(sum(search.true(c) for c in changed) for changed in departing)
    for count in range(least + 1):
        close = [session.at_most_of(changed, count) for changed in departing]
        if count == least or search.find(any_of(close)):
            return next(r for r, c in zip(known, close, strict=True) if search.holds(c))
    raise AssertionError("what was found departs from every reference by no more than itself")


def _settle_parts(
    session: Session, search: Search, names: Sequence[str], reference: Reference
) -> frozenset[str]:
    """Requires as many like parts as the reference has, or about as many; says what is of none of them.

    How many there are goes before what each is like: many unnamed parts are hard to picture. Which steps are
    done is settled later, with all else; what was found so far may do others.
    """
    for part in session.sheet.parts:
        d = session.sheet.declaration(part.count)
        assert isinstance(d, NumberDecl)
        if part.within and not (search.true(session.met(part.within.there()))):
            continue
        usual = reference.article[d.name]
        if d.name in names and not keep(search, session.equals(d.name, usual)):
            _settle_value(session, search, d.name, usual)
    if not session.sheet.parts:
        return frozenset()
    search.find()
    article = search.article()
    slots = ((part, i, name) for part in session.sheet.parts for i, _, name in part.slots())
    return frozenset(name for part, i, name in slots if not part.is_there(article, i))


def _settle_places(session: Session, search: Search, names: Sequence[str]) -> None:
    """Requires that the longest of several numbers has as few decimals as possible.

    Where they are tied to each other the first to be short would else make the last one long.
    """
    numbers = [d for n in names if isinstance(d := session.sheet.declaration(n), NumberDecl) and not d.whole]
    for places in range(MOST_PLACES_TOGETHER if len(numbers) > 1 else 0):
        step = Fraction(10) ** -places
        grids = [
            session.on_grid(d.name, d.unit.factor * step, d.unit.to_base(Fraction(0)), wide=True)
            for d in numbers
        ]
        if search.find_soon(*grids):
            search.require(*grids)
            return


def _settle_value(session: Session, search: Search, name: str, reference: Value) -> None:
    d = session.sheet.declaration(name)
    match d:
        case NumberDecl():
            assert isinstance(reference, Fraction)
            _settle_number(session, search, d, reference)
        case ChoiceDecl():
            next(member for member in d.members if keep(search, session.equals(name, member)))
        case SetDecl():
            assert isinstance(reference, frozenset)
            changed = [session.includes(name, m, m not in reference) for m in d.members]
            _fewest(session, search, changed)
            for m in d.members:
                keep(search, session.includes(name, m, m in reference))
        case _:
            assert_never(d)


def _settle_number(session: Session, search: Search, d: NumberDecl, reference: Fraction) -> None:
    """Fewest decimals in the sheet's unit, then nearest to the reference, then the lower."""
    origin = d.unit.to_base(Fraction(0))
    for places in range(1 if d.whole else MOST_DECIMALS + 1):
        step = d.unit.factor * Fraction(10) ** -places
        grid = session.on_grid(d.name, step, origin)
        # The nearest grid points first: most witnesses sit there, and no search is needed.
        for value in _beside(reference, step, origin):
            if keep(search, session.equals(d.name, value)):
                return
        if search.find(grid):
            search.require(grid)
            _settle_distance(session, search, d.name, reference, step, origin)
            return
    article = search.article()
    value_found = article[d.name]
    if not keep(search, session.equals(d.name, value_found)) or search.holds(
        ~session.equals(d.name, value_found)
    ):
        raise Undecided("no short number fits")


def _beside(reference: Fraction, step: Fraction, origin: Fraction) -> list[Fraction]:
    index = (reference - origin) / step
    values = {origin + step * i for i in (floor(index), ceil(index))}
    return sorted(values, key=lambda v: (abs(v - reference), v))


def _settle_distance(
    session: Session, search: Search, name: str, reference: Fraction, step: Fraction, origin: Fraction
) -> None:
    def within(count: int) -> tuple[Constraint, Constraint]:
        reach = step * count
        return session.at_least(name, reference - reach), session.at_most(name, reference + reach)

    def reached() -> int:
        value = search.article()[name]
        assert isinstance(value, Fraction)
        return ceil(abs(value - reference) / step)

    low, high = 0, reached()
    while high - low > 1:
        middle = (low + high) // 2
        if search.find(*within(middle)):
            high = min(middle, reached())
        else:
            low = middle
    candidates = [
        value
        for side in (-1, 1)
        for value in _beside(reference + side * step * high, step, origin)
        if ceil(abs(value - reference) / step) == high
    ]
    for value in sorted(set(candidates), key=lambda v: (abs(v - reference), v)):
        if keep(search, session.equals(name, value)):
            return
    raise Undecided("no short number fits")
