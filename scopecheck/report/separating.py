"""What shows the readings of a phrase apart: for each a thing on which it and the first one disagree.

Nothing of this is stored: the phrase is put on a small sheet, things are looked for, and each is judged by
the exact meaning of both readings before it is told.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal, TypeAlias

from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.model import Formula, Group, Measured, NumberDecl, Sheet, Value
from scopecheck.foundations.record import record
from scopecheck.report.occasions import NAMES, Occasion, occasions, phrase_in, read
from scopecheck.report.probe import Parting, readings_part
from scopecheck.resolve.entry import Entry
from scopecheck.solving.ends import infimum, supremum
from scopecheck.solving.solver import Budget, Search, Session, Undecided

Thing: TypeAlias = tuple[tuple[str, Value], ...]
Outcome: TypeAlias = Literal["parts", "alike", "undecided"]
BUDGET = Budget(work=2_000_000, wall=20)
MOST_SHEETS = 6
"""Sheets on which a reading is tried before it is told that nothing parts it from the first."""
VERY_FAR = 10**6
"""How many units off a thing is shown where what is met has no end."""
_GRADES = ("listed", "plain", "near", "edge")


@record
class Example:
    """A reading beside the one it is held against, on a small sheet, and what was found.

    `wider`: the thing is met on the reading and not on the one it is held against, else the other way round.
    A reading that stretches is held against itself as presumed, too; `breaks` tells from which stretch on.
    `reason` is told of what was not decided.
    """

    occasion: Occasion
    sheet: Sheet
    group: Group
    reading: str
    against: str
    outcome: Outcome
    wider: bool = True
    thing: Thing = ()
    breaks: tuple[BreakPoint, ...] = ()
    reason: str = ""


@record
class Extremes:
    """The two most different things that meet one reading, each on some value of what it leaves open.

    `endless`: what is met goes on beyond them without end.
    """

    occasion: Occasion
    sheet: Sheet
    reading: str
    things: tuple[Thing, Thing]
    endless: bool


@record
class Shown:
    """All examples of one phrase, in the order of its readings; `alone` where it has one reading only.

    `apart` are readings of things for which no other reading is there to be compared.
    """

    examples: tuple[Example, ...]
    extremes: tuple[Extremes, ...]
    alone: bool
    apart: tuple[str, ...]
    untried: tuple[str, ...]


def shown_apart(entry: Entry, budget: Budget = BUDGET) -> Shown:
    """An example for each computed reading; readings that fit none of the sheets tried are named."""
    wanted = tuple(r.label for r in entry.readings if r.formula is not None)
    best: dict[str, Example] = {}
    tried = dict.fromkeys(wanted, 0)
    extremes: tuple[Extremes, ...] = ()
    most = MOST_SHEETS if len(wanted) > 1 else 1
    for occasion in occasions(entry):
        left = frozenset(x for x in wanted if tried[x] < most and not _is_told(x, best))
        if not left:
            break
        sheet = read(occasion.text, entry)
        at = phrase_in(sheet, entry) if sheet else None
        if sheet is None or at is None or left.isdisjoint(r.label for r in at[0].readings):
            continue
        for reading in at[0].readings:
            tried[reading.label] += 1
        for example in _on_sheet(occasion, sheet, at[0], left, budget):
            known = best.get(example.reading)
            if known is None or (known.outcome != "parts" and example.outcome == "parts"):
                best[example.reading] = example
        extremes = extremes or tuple(_extremes(occasion, sheet, at[0], budget))
    told = tuple(best[label] for label in wanted if label in best)
    untried = tuple(label for label in wanted if not tried[label])
    alone = len(wanted) < 2
    apart = () if alone else tuple(x for x in wanted if tried[x] and x not in best and not _is_told(x, best))
    return Shown(told, extremes, alone, apart, untried)


def _is_told(label: str, best: Mapping[str, Example]) -> bool:
    """Has the reading an example, or is it one that others are held against?"""
    own = best.get(label)
    return own.outcome == "parts" if own else any(e.against == label for e in best.values())


def _on_sheet(
    occasion: Occasion, sheet: Sheet, group: Group, left: Iterable[str], budget: Budget
) -> Iterator[Example]:
    """An example for each of the readings left that is no first reading here, or that stretches."""
    places = {(group.index, i): r.label for i, r in enumerate(group.readings) if r.label in left}
    partings: dict[str, list[Parting]] = {}
    for parting in readings_part(sheet, True, budget, places, thing_first=True):
        partings.setdefault(places[parting.group, parting.reading], []).append(parting)
    for label, found in partings.items():
        yield _example(occasion, sheet, group, label, found)


def _example(
    occasion: Occasion, sheet: Sheet, group: Group, label: str, partings: Iterable[Parting]
) -> Example:
    against = group.readings[group.base].label
    partings = list(partings)
    found = [(p, p.finding) for p in partings if p.finding is not None]
    if not found:
        reasons = [p.reason for p in partings if p.reason]
        outcome: Outcome = "undecided" if reasons else "alike"
        return Example(occasion, sheet, group, label, against, outcome, reason="".join(reasons[:1]))
    parting, finding = min(found, key=lambda item: (_GRADES.index(item[1].grade), not item[0].wider))
    assert finding.witness is not None
    names = set(finding.shown)
    thing = tuple((name, value) for name, value in finding.witness.values if name in names)
    breaks = tuple(b for r in finding.rereads if r.group == group.index for b in r.breaks)
    return Example(occasion, sheet, group, label, against, "parts", parting.wider, thing, breaks)


# ---- the most different things


def _extremes(occasion: Occasion, sheet: Sheet, group: Group, budget: Budget) -> Iterator[Extremes]:
    """Of a term of degree, which states no number: the least and the greatest thing that meet its first
    reading that leaves a number open without end."""
    numbers = [d for d in sheet.declarations if isinstance(d, NumberDecl)]
    left_open = [p.reading for p in sheet.parameters if p.group == group.index and p.upper is None]
    stated = [name for name in occasion.slots if occasion.slots[name] not in NAMES]
    if not left_open or stated or not numbers:
        return
    reading, session = min(left_open), Session(sheet, budget, True)
    formula = sheet.claims[0].limitations[0].formula
    search = session.search(session.groups_in(formula))
    search.require(session.met(formula), session.reads(group.index, reading))
    try:
        found = _most_different(session, search, numbers[0], formula)
    except Undecided:
        return
    if found:
        yield Extremes(occasion, sheet, group.readings[reading].label, *found)


def _most_different(
    session: Session, search: Search, d: NumberDecl, formula: Formula
) -> tuple[tuple[Thing, Thing], bool] | None:
    """The things with the least and the greatest value, and whether these are ends of what is met at all."""
    if not search.holds():
        return None
    unit = d.unit.factor
    low, high = infimum(search, Measured(d.name)), supremum(search, Measured(d.name))
    least = -VERY_FAR * unit if low is None else low.value + (0 if low.closed else unit)
    greatest = VERY_FAR * unit if high is None else high.value - (0 if high.closed else unit)
    found: list[Thing] = []
    for value in (least, greatest):
        if not search.find(session.equals(d.name, value)):
            return None
        obligation = Obligation(formula, "met", search.construction())
        found.append(verify(session.sheet, search.article(), (obligation,)).values)
    return None if found[0] == found[1] else ((found[0], found[1]), low is None or high is None)
