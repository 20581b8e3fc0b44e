"""Every two readings of a shipped phrase are told apart by a thing, and its more exact wording has one meaning.

Both are answered by the solver, on sheets that are read as any other; the things found are checked by the exact
meaning again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from itertools import combinations

import pytest

from scopecheck.core.construction import Construction
from scopecheck.core.model import Formula, FreeParameter, Group, Sheet
from scopecheck.resolve.catalogue import entries
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from tests.phrase_sheets import occasions, phrase_in, read

ENTRIES = entries()
BY_PLACE = [pytest.param(i, id=f"{e.id} {e.title[:50]}") for i, e in enumerate(ENTRIES)]
Pair = frozenset[str]

TOLD_APART: dict[int, int] = {}
"""How many pairs of readings of each entry a thing told apart."""


@dataclass
class Trial:
    """An entry read on one sheet, with what was looked at under each construction."""

    sheet: Sheet
    group: Group
    options: tuple[Formula, ...]

    @cached_property
    def looks(self) -> tuple[tuple[Construction, Session], ...]:
        """What a session keeps of a formula holds for one construction, so there is one for each."""
        return tuple((k, Session(self.sheet)) for k in _constructions(self.sheet))

    def separated(self, one: Formula, other: Formula) -> bool:
        """Does some thing meet one formula and not the other, on some values of what they leave open?"""
        for k, session in self.looks:
            for met, missed in ((one, other), (other, one)):
                search = session.search(())
                if search.find(session.met(met, k), ~session.met(missed, k)):
                    article = search.article()
                    assert evaluate(met, article, k) is True
                    assert evaluate(missed, article, k) is not True
                    return True
        return False

    def answers(self, option: Formula) -> Iterator[bool]:
        """Whether something meets the reading, and whether something does not."""
        for k, session in self.looks:
            met = session.met(option, k)
            yield from (wanted for wanted in (True, False) if session.search(()).holds(met if wanted else ~met))


def _constructions(sheet: Sheet) -> Iterator[Construction]:
    """The first readings of what stands inside; free numbers as presumed, and each a little further on."""
    readings = tuple(0 for _ in sheet.groups)
    yield Construction(readings, tuple((p.key, p.presumed) for p in sheet.parameters))
    if sheet.parameters:
        yield Construction(readings, tuple((p.key, _moved(p, n)) for n, p in enumerate(sheet.parameters)))


def _moved(p: FreeParameter, n: int) -> Fraction:
    step = Fraction(n + 1, 10) * (p.unit.factor if p.unit.factor != Fraction(1, 100) else 1)
    return p.presumed - step if p.upper and p.presumed + step > p.upper.value else p.presumed + step


@cache
def _tried(place: int) -> tuple[Trial, ...]:
    """The sheets on which the entry at a place in the catalogue can be read."""
    entry = ENTRIES[place]
    sheets = (read(occasion.text) for occasion in occasions(entry))
    found = ((sheet, phrase_in(sheet, entry)) for sheet in sheets if sheet)
    return tuple(Trial(sheet, *at) for sheet, at in found if at)


@pytest.mark.parametrize("place", BY_PLACE)
def test_every_computed_reading_is_tried_on_some_sheet(place: int) -> None:
    tried = {r.label for trial in _tried(place) for r in trial.group.readings}
    assert tried == {r.label for r in ENTRIES[place].readings if r.formula is not None}


@pytest.mark.parametrize("place", BY_PLACE)
def test_a_thing_tells_every_two_readings_apart(place: int) -> None:
    """Two readings that nothing tells apart on any sheet are one reading, and the entry would be wrong."""
    open_pairs: dict[Pair, bool] = {}
    for trial in _tried(place):
        for (i, a), (j, b) in combinations(enumerate(trial.group.readings), 2):
            pair = frozenset((a.label, b.label))
            if not open_pairs.get(pair):
                open_pairs[pair] = trial.separated(trial.options[i], trial.options[j])
    TOLD_APART[place] = len(open_pairs)
    assert not [sorted(pair) for pair, apart in open_pairs.items() if not apart]


@pytest.mark.parametrize("place", BY_PLACE)
def test_every_reading_is_met_by_something_and_missed_by_something(place: int) -> None:
    seen: dict[str, set[bool]] = {}
    for trial in _tried(place):
        for reading, option in zip(trial.group.readings, trial.options, strict=True):
            known = seen.setdefault(reading.label, set())
            if known != {True, False}:
                known |= set(trial.answers(option))
    for reading in ENTRIES[place].readings:
        never = reading.label == "ends in the order written"
        if reading.formula is not None and reading.formula_text != "TRUE" and not never:
            assert seen[reading.label] == {True, False}, reading.label


def test_how_many_pairs_were_told_apart(capsys: pytest.CaptureFixture[str]) -> None:
    pairs, computed = sum(TOLD_APART.values()), sum(r.formula is not None for e in ENTRIES for r in e.readings)
    with capsys.disabled():
        print(f"\n  {len(ENTRIES)} phrases, {computed} computed readings: {pairs} pairs of readings told apart")
    assert pairs or len(TOLD_APART) < len(ENTRIES)
