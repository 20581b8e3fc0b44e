"""What shows the readings of a phrase apart: for each two of them a thing on which they disagree.

Nothing of this is stored: the phrase is put on a small sheet, things are looked for, and each is judged by
the exact meaning of both readings before it is told.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations, combinations_with_replacement
from typing import Literal, TypeAlias

from scopecheck.answers.extremes import most_different
from scopecheck.answers.minimise import BreakPoint
from scopecheck.core.construction import base_construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Read, Value
from scopecheck.core.model import Group, Sheet
from scopecheck.foundations.record import record, replace
from scopecheck.report.occasions import NAMES, Occasion, occasions, phrase_in, read
from scopecheck.report.probe import Parting, readings_part
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from scopecheck.vocabulary.entry import Entry

Thing: TypeAlias = tuple[tuple[str, Value], ...]
Pair: TypeAlias = tuple[str, str]
"""Two readings, the earlier first; twice the same for one that stretches."""
Outcome: TypeAlias = Literal["parts", "alike", "undecided"]
BUDGET = Budget(work=2_000_000, wall=20)
MOST_SHEETS = 6
"""Sheets on which two readings are tried before it is told that nothing parts them."""
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
    """All examples of one phrase, by pairs of its readings in order; `alone` where it has one reading only.

    `apart` are readings of things for which no other reading is there to be compared; `untried` those that
    fit none of the sheets.
    """

    examples: tuple[Example, ...]
    extremes: tuple[Extremes, ...]
    alone: bool
    apart: tuple[str, ...]
    untried: tuple[str, ...]


def shown_apart(entry: Entry, budget: Budget = BUDGET) -> Shown:
    """An example for each two computed readings that some sheet has, and for each that stretches."""
    wanted = [r.label for r in entry.readings if r.formula is not None]
    best: dict[Pair, Example] = {}
    tried: Counter[Pair] = Counter()
    met: set[str] = set()
    extremes: tuple[Extremes, ...] = ()
    for occasion in occasions(entry):
        if (len(wanted) < 2 and met) or (len(met) == len(wanted) and not _still_open(wanted, best, tried)):
            break
        sheet = read(occasion.text, entry)
        at = phrase_in(sheet, entry) if sheet else None
        if sheet is None or at is None:
            continue
        labels = [r.label for r in at[0].readings]
        met |= set(labels)
        pairs = [p for p in _pairs_here(sheet, at[0]) if _is_open(p, best, tried)]
        tried.update(pairs)
        for example in _on_sheet(occasion, sheet, at[0], pairs, budget):
            pair = (example.against, example.reading)
            key = pair if pair in pairs else pair[::-1]
            if key not in best or example.outcome == "parts":
                best[key] = example
        extremes = extremes or tuple(_extremes(occasion, sheet, at[0], budget))
    told = tuple(best[p] for p in combinations_with_replacement(wanted, 2) if p in best)
    compared = {label for e in told for label in (e.reading, e.against)}
    alone = len(wanted) < 2
    apart = () if alone else tuple(x for x in wanted if x in met and x not in compared)
    return Shown(told, extremes, alone, apart, tuple(x for x in wanted if x not in met))


def _is_open(pair: Pair, best: Mapping[Pair, Example], tried: Mapping[Pair, int]) -> bool:
    own = best.get(pair)
    return tried[pair] < MOST_SHEETS and (own is None or own.outcome != "parts")


def _still_open(wanted: Iterable[str], best: Mapping[Pair, Example], tried: Mapping[Pair, int]) -> bool:
    return any(_is_open(pair, best, tried) for pair in combinations(wanted, 2))


def _pairs_here(sheet: Sheet, group: Group) -> list[Pair]:
    """Each two readings of a sheet, the earlier first, and each that stretches with itself."""
    stretched = {group.readings[p.reading].label for p in sheet.parameters if p.group == group.index}
    pairs = combinations_with_replacement([r.label for r in group.readings], 2)
    return [(a, b) for a, b in pairs if a != b or a in stretched]


def _on_sheet(
    occasion: Occasion, sheet: Sheet, group: Group, pairs: Iterable[Pair], budget: Budget
) -> Iterator[Example]:
    """An example for each of the pairs; a thing that was found for one may part others too."""
    things: dict[Thing, None] = {}
    stretching: dict[str, Example] = {}
    for first, other in pairs:
        known = next((e for t in things if (e := _parted_by(occasion, sheet, group, first, other, t))), None)
        for label, against in ((first, other), (other, first)):
            if known is None and label in stretching:
                known = _parted_by_stretching(stretching[label], against)
        example = known or _looked_for(occasion, sheet, group, first, other, budget)
        if example.outcome != "parts" and first != other:
            # What stretches parts from the other only beyond what is presumed.
            turned = _looked_for(occasion, sheet, group, other, first, budget)
            example = turned if turned.outcome == "parts" else example
        if example.outcome == "parts":
            things.setdefault(example.thing)
            if first == other:
                stretching[first] = example
        yield example


def _parted_by(
    occasion: Occasion, sheet: Sheet, group: Group, against: str, label: str, thing: Thing
) -> Example | None:
    """The thing as an example of two readings, none of them stretched; None if it does not part them."""
    own, other = (_is_met(sheet, group, x, thing) for x in (label, against))
    if own == other:
        return None
    return Example(occasion, sheet, group, label, against, "parts", own, thing)


def _parted_by_stretching(itself: Example, against: str) -> Example | None:
    """The thing that a reading lets in once it stretches, if the other reading does not let it in."""
    if not itself.wider or _is_met(itself.sheet, itself.group, against, itself.thing):
        return None
    return replace(itself, against=against)


def _is_met(sheet: Sheet, group: Group, label: str, thing: Thing) -> bool:
    """By the exact meaning, what is left open being as presumed."""
    formula = sheet.claims[0].limitations[0].formula
    assert isinstance(formula, Read)
    option = formula.options[[r.label for r in group.readings].index(label)]
    return evaluate(option, dict(thing), base_construction(sheet)) is True


def _looked_for(
    occasion: Occasion, sheet: Sheet, group: Group, against: str, label: str, budget: Budget
) -> Example:
    """An example with a thing looked for now."""
    labels = [r.label for r in group.readings]
    group = replace(group, base=labels.index(against))
    groups = tuple(group if g.index == group.index else g for g in sheet.groups)
    sheet = replace(sheet, groups=groups)
    place = (group.index, labels.index(label))
    partings = readings_part(sheet, True, budget, {place}, thing_first=True)
    return _example(occasion, sheet, group, label, partings)


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
    parting, finding = min(found, key=lambda item: (_GRADES.index(item[1].thing.grade), not item[0].wider))
    assert finding.witness is not None
    names = set(finding.thing.names)
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
        found = most_different(session, search, numbers[0], formula)
    except Undecided:
        return
    if found:
        things = (found.least.values, found.greatest.values)
        yield Extremes(occasion, sheet, group.readings[reading].label, things, found.below or found.above)
