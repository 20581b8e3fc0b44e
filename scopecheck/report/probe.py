"""One limitation looked at by itself: what each reading lets in, and the simplest thing on which two part.

Readings are compared one at a time with the base construction, all else being read as in the base.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from scopecheck.answers.findings import (
    Finding,
    Shown,
)
from scopecheck.answers.minimise import Grade, Picked, pick_article, settle_construction
from scopecheck.answers.questions.measures import without_measure
from scopecheck.answers.questions.prepared import Prepared, at_limitation
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    base_construction,
    groups_in,
    names_in,
    preference,
    unknown_thresholds,
)
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Formula, Value
from scopecheck.core.model import FreeParameter, Limitation, Sheet
from scopecheck.core.plain import scales, tightened
from scopecheck.core.reference import stated_values
from scopecheck.core.rewrite import read_as
from scopecheck.foundations.record import record, replace
from scopecheck.report.probe_picture import Pictured, pictured
from scopecheck.report.rereadings import common_words, stretch_text
from scopecheck.solving.border import beside_border
from scopecheck.solving.constraints import Budget, Constraint, Undecided
from scopecheck.solving.solver import Session

AS_PRESUMED = "every phrase as presumed"
"""What the first row is called where the limitation has several phrases."""


@record
class Row:
    """A way to read the limitation: `group` and `reading` say what departs from the base (None: nothing).

    `met` tells in words what is met; '' where no quantity is shown. `parameter` is a stretch drawn at its
    widest, None where every stretch is as presumed.
    """

    label: str
    group: int | None
    reading: int | None
    construction: Construction
    parameter: FreeParameter | None = None
    met: str = ""


@record
class Parting:
    """Where a reading and the base part: something is met on the reading only (`wider`) or on the base only.

    Without `finding` there is nothing of the kind, or, with a `reason`, it was not decided.
    """

    group: int
    reading: int
    wider: bool
    finding: Finding | None
    reason: str = ""


@record
class Probe:
    """The limitation read in every way. `shown` is the quantity drawn, the others being as in `fixed_by`."""

    sheet: Sheet
    limitation: Limitation
    rows: tuple[Row, ...]
    shown: str
    fixed: tuple[tuple[str, Value], ...]
    fixed_by: str
    drawn: Pictured
    partings: tuple[Parting, ...]
    unmeasured: tuple[Finding, ...]
    """Of words of degree, the most different things that meet them."""
    idle: bool = False
    """Whether nothing at all meets the limitation, on any reading listed."""


def probe(sheet: Sheet, show: str = "", strained: bool = False, budget: Budget | None = None) -> Probe:
    """The only limitation of the sheet, read in every way. `show` names the quantity to be pictured."""
    limitation = sheet.claims[0].limitations[0]
    budget = (budget or Budget()).begun()
    rows = _rows(sheet, limitation, strained)
    partings = readings_part(sheet, strained, budget)
    names = names_in(limitation.formula)
    in_order = [d for d in sheet.declarations if d.name in names]
    shown = next((d for d in in_order if d.name == show), None) or next(
        (d for d in in_order if isinstance(d, NumberDecl)), in_order[0] if in_order else None
    )
    prepared = Prepared(sheet, Session(sheet, budget, strained))
    unmeasured, idle = (
        _unmeasured(prepared, limitation),
        _met_by_nothing(prepared.session, limitation.formula),
    )
    without = Probe(sheet, limitation, rows, "", (), "", Pictured((), None), partings, unmeasured, idle)
    if shown is None:
        return without
    others = [d.name for d in in_order if d is not shown]
    fixed, fixed_by = _fixed(sheet, others)
    if len(fixed) < len(others):
        missing = ", ".join(n for n in others if n not in fixed)
        why = f"{shown.name} can be pictured once a case, such as an inside one, states {missing}"
        return replace(without, drawn=Pictured((), None, no_picture=why))
    givens = [g.formula for g in sheet.givens if names_in(g.formula) <= {shown.name, *others}]
    formula = All((*givens, limitation.formula))
    known = [row for row in rows if not _on_unknown_threshold(sheet, row)] or list(rows)
    drawn = pictured(sheet, shown, formula, fixed, [(row.label, row.construction) for row in known])
    met = dict(zip(map(id, known), drawn.met, strict=True))
    rows = tuple(replace(row, met=met.get(id(row), "")) for row in rows)
    fixing = tuple(fixed.items())
    return replace(without, rows=rows, shown=shown.name, fixed=fixing, fixed_by=fixed_by, drawn=drawn)


def _met_by_nothing(session: Session, formula: Formula) -> bool:
    search = session.search(groups_in(formula))
    search.require(session.met(formula))
    try:
        return not search.find()
    except Undecided:
        return False


def _unmeasured(prepared: Prepared, limitation: Limitation) -> tuple[Finding, ...]:
    try:
        return tuple(without_measure(prepared, limitation))
    except Undecided as reason:
        undecided = at_limitation("without measure", 6, limitation)
        return (replace(undecided, outcome="undecided", quantifier="none", reason=str(reason)),)


def _on_unknown_threshold(sheet: Sheet, row: Row) -> bool:
    """Does the row take a reading of which nobody knows what it lets in?"""
    taken = enumerate(row.construction.readings)
    groups = groups_in(sheet.claims[0].limitations[0].formula)
    return any(g in groups and r in unknown_thresholds(sheet, g) for g, r in taken)


def _fixed(sheet: Sheet, names: Sequence[str]) -> tuple[dict[str, Value], str]:
    """Values for the names from the first case that states them all, and the case's name."""
    if not names:
        return {}, ""
    for role in ("inside", "outside", "document"):
        for case in sheet.cases:
            stated = stated_values(sheet, case) if case.role == role else {}
            if set(names) <= set(stated):
                return {name: stated[name] for name in names}, case.name
    return {}, ""


# ---- rows: the ways to read


def _rows(sheet: Sheet, limitation: Limitation, strained: bool) -> tuple[Row, ...]:
    """The base first, then each reading that departs from it, in the order of the catalogue."""
    base = base_construction(sheet)
    groups = groups_in(limitation.formula)
    rows: list[Row] = []
    for g in groups:
        group, admitted = sheet.groups[g], admissible_readings(sheet.groups[g], strained)
        for r in (r for r in preference(group) if r in admitted):
            k = base.with_reading(g, r)
            if k == base and rows:
                continue
            label = group.readings[r].label
            if len(groups) > 1:
                label = AS_PRESUMED if k == base else f"{common_words(group)} as {label}"
            rows.append(Row(label, None if k == base else g, None if k == base else r, k))
            rows += _stretched(sheet, rows[-1], g, r)
    return tuple(rows) or (Row("as written", None, None, base),)


def _stretched(sheet: Sheet, row: Row, group: int, reading: int) -> Iterator[Row]:
    """The same reading with its stretch at the widest, where that is known."""
    for p in sheet.parameters:
        if (p.group, p.reading) != (group, reading) or p.upper is None or p.upper.value == p.presumed:
            continue
        values = tuple((key, p.upper.value if key == p.key else v) for key, v in row.construction.parameters)
        label = f"{row.label}, stretched to {stretch_text(p, p.upper.value)}"
        yield Row(label, group, reading, Construction(row.construction.readings, values), p)


# ---- partings


def readings_part(
    sheet: Sheet,
    strained: bool = False,
    budget: Budget | None = None,
    only: Collection[tuple[int, int]] | None = None,
    thing_first: bool = False,
) -> tuple[Parting, ...]:
    """For each reading of the sheet's only limitation, or for the groups and readings of `only`: the simplest
    thing it lets in and the base does not, and the other way round; of the base's own, once it stretches.

    A thing that needs the least stretch is taken, or, with `thing_first`, the plainest; the stretch told is
    that for the thing.
    """
    prepared = Prepared(sheet, Session(sheet, budget, strained))
    return tuple(_partings(prepared, sheet.claims[0].limitations[0], only, thing_first))


def _partings(
    prepared: Prepared,
    limitation: Limitation,
    only: Collection[tuple[int, int]] | None,
    thing_first: bool,
) -> Iterator[Parting]:
    base = prepared.session.base
    stretched = {(p.group, p.reading) for p in prepared.sheet.parameters}
    for g in groups_in(limitation.formula):
        for r in prepared.session.readings_of(g, limitation.formula):
            if r == base.readings[g] and (g, r) not in stretched:
                continue
            if only is not None and (g, r) not in only:
                continue
            for wider in (True, False):
                try:
                    yield Parting(g, r, wider, _parting(prepared, limitation, g, r, wider, thing_first))
                except Undecided as reason:
                    yield Parting(g, r, wider, None, str(reason))


def _parting(
    prepared: Prepared, limitation: Limitation, g: int, r: int, wider: bool, thing_first: bool
) -> Finding | None:
    session, formula = prepared.session, limitation.formula
    groups = groups_in(formula)
    met, at_base = session.met(formula), session.met(formula, session.base)
    search = session.search(groups)
    search.require(session.reads(g, r), *session.taken(session.base, (h for h in groups if h != g)))
    search.require(met, ~at_base) if wider else search.require(~met, at_base)
    if not search.find():
        return None
    relevant, known = prepared.relevant(formula), prepared.known((formula,))
    grades = _grades(prepared, formula, wider)
    with search.aside():
        if not thing_first:
            settle_construction(session, search, groups)
        picked = pick_article(session, search, relevant, known, grades)
    # Anew: the stretch that suffices for some thing need not suffice for the one picked.
    search.require(*(session.equals(d.name, picked.article[d.name]) for d in prepared.sheet.declarations))
    settled = settle_construction(session, search, groups)
    k = settled.construction
    witness = verify(
        prepared.sheet,
        picked.article,
        (
            Obligation(formula, "met" if wider else "not met", k),
            Obligation(formula, "not met" if wider else "met", session.base),
        ),
    )
    finding = replace(
        at_limitation("contested", 5, limitation),
        bearer="challenger" if wider else "competitor",
        thing=Shown(
            witness,
            prepared.shown_names((formula,)),
            picked.departs,
            picked.reference,
            _graded(prepared, picked, formula),
            picked.simplest,
        ),
    )
    return prepared.told(finding, settled, groups)


def _graded(prepared: Prepared, picked: Picked, formula: Formula) -> Grade:
    """The grade of a thing; beside the border of the base, by one whole number, nothing is plain."""
    beside = beside_border(prepared.sheet, picked.article, formula, prepared.session.base)
    return "near" if picked.grade == "plain" and beside else picked.grade


def _grades(prepared: Prepared, formula: Formula, wider: bool) -> list[tuple[Grade, Constraint | None]]:
    """Far from the border of the base, near it, or on it."""
    session, sheet = prepared.session, prepared.sheet
    at_base = formula
    for g in groups_in(formula):
        at_base = read_as(at_base, g, session.base.readings[g])
    plain, near = (tightened(at_base, scales(sheet, at_base, near=n), not wider) for n in (False, True))
    return [
        ("plain", session.met(plain, session.base)),
        ("near", session.met(near, session.base)),
        ("edge", None),
    ]
