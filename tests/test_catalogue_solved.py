"""A thing tells every two readings of a phrase apart, and its more exact wording has one meaning.

Both are answered by the solver, on sheets that are read as any other; the things found are checked by the
exact meaning again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from itertools import combinations

import pytest

from scopecheck.core.construction import Construction
from scopecheck.core.formula import Formula, Read
from scopecheck.core.model import FreeParameter, Group, Sheet
from scopecheck.report.occasions import occasions, phrase_in, read
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.evaluate import evaluate
from scopecheck.solving.solver import Session
from scopecheck.vocabulary.catalogue import entries

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

    def renew(self) -> None:
        """With sessions of its own for a test: their wall limit counts from when they were made."""
        self.__dict__.pop("looks", None)

    def separated(self, one: Formula, other: Formula) -> bool:
        """Does some thing meet one formula and not the other, on some values of what they leave open?"""
        undecided: list[Undecided] = []
        for k, session in self.looks:
            for met, missed in ((one, other), (other, one)):
                search = session.search(())
                try:
                    found = search.find(session.met(met, k), ~session.met(missed, k))
                except Undecided as limit:
                    # How far the solver comes depends on what this process asked before; one thing is enough.
                    undecided.append(limit)
                    continue
                if found:
                    article = search.article()
                    assert evaluate(met, article, k) is True
                    assert evaluate(missed, article, k) is not True
                    return True
        if undecided:
            raise undecided[0]
        return False

    def answers(self, option: Formula) -> Iterator[bool]:
        """Whether something meets the reading, and whether something does not."""
        for k, session in self.looks:
            met = session.met(option, k)
            yield from (
                wanted for wanted in (True, False) if session.search(()).holds(met if wanted else ~met)
            )


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
        trial.renew()
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
        trial.renew()
        for reading, option in zip(trial.group.readings, trial.options, strict=True):
            known = seen.setdefault(reading.label, set())
            if known != {True, False}:
                known |= set(trial.answers(option))
    for reading in ENTRIES[place].readings:
        never = reading.label == "ends in the order written"
        if reading.formula is not None and reading.formula_text != "TRUE" and not never:
            assert seen[reading.label] == {True, False}, reading.label


# ---- the more exact wording


@dataclass(frozen=True)
class Given:
    """Numbers in place of the words 'a stated ...', the reading that they make, and what it leaves open."""

    reading: str
    open: dict[str, Fraction]
    numbers: dict[str, str]


def _ends(lower: str, upper: str) -> dict[str, str]:
    return {"a stated lower end": lower, "a stated upper end": upper}


TENTH, THREE = Fraction(1, 10), Fraction(3)
AMOUNT, VALUE = {"a stated amount": "3 mm"}, {"a stated value": "3 mm"}
SHARE = {"a stated amount": "3 wt%"}
STATED = {
    "free of (noun a)": Given("below a threshold", {"t": THREE}, AMOUNT),
    "no detectable (noun a)": Given("below detection", {"l": THREE}, AMOUNT),
    "free of added (noun a)": Given("only what comes with the rest", {"i": THREE}, AMOUNT),
    "nearly (N)": Given("near enough for the purpose", {"e": TENTH}, _ends("9 mm", "11 mm")),
    "ratio of (noun a) to (noun b) of about (plain N) to (plain M)": Given(
        "a range of the quotient", {"e": TENTH}, _ends("9", "13.2")
    ),
    "about (N)": Given("context tolerance", {"e": TENTH}, _ends("9 mm", "11 mm")),
    "nominally (N)": Given("as far as making and marking go", {"e": TENTH}, _ends("9 mm", "11 mm")),
    "at least about (N)": Given("context tolerance", {"e": TENTH}, _ends("9 mm", "")),
    "exceeding about (N)": Given("context tolerance", {"e": TENTH}, _ends("9 mm", "")),
    "at most about (N)": Given("context tolerance", {"e": TENTH}, _ends("", "11 mm")),
    "less than about (N)": Given("context tolerance", {"e": TENTH}, _ends("", "11 mm")),
    "about (L) to (U)": Given("covers both ends", {"e": TENTH}, _ends("9 mm", "22 mm")),
    "about (L) to about (U)": Given("context tolerance", {"e": TENTH}, _ends("9 mm", "22 mm")),
    "(L) to about (U)": Given("upper end only", {"e": TENTH}, _ends("10 mm", "22 mm")),
    "between about (L) and (U)": Given("covers both ends", {"e": TENTH}, _ends("9 mm", "22 mm")),
    "between about (L) and about (U)": Given("context tolerance", {"e": TENTH}, _ends("9 mm", "22 mm")),
    "substantially (N)": Given("near enough for the purpose", {"e": TENTH}, _ends("9 mm", "11 mm")),
    "substantially free of (noun a)": Given("below a number", {"z": THREE}, AMOUNT),
    "at most traces of (noun a)": Given("below a number", {"z": THREE}, AMOUNT),
    "of the order of (N)": Given("within a decade", {}, _ends("1 mm", "100 mm")),
    "thin": Given("standard of the field", {"c": THREE}, VALUE),
    "thick": Given("standard of the field", {"c": THREE}, VALUE),
    "slightly above (L)": Given("above, and not by much", {"d": THREE}, {"a stated value": "13 mm"}),
    "slightly below (U)": Given("below, and not by much", {"d": THREE}, {"a stated value": "17 mm"}),
    "well above (L)": Given("above by a marked distance", {"d": THREE}, {"a stated value": "13 mm"}),
    "well below (U)": Given("below by a marked distance", {"d": THREE}, {"a stated value": "17 mm"}),
    "ratio of (noun a) to (noun b) of at least about (ratio r)": Given(
        "context tolerance", {"e": TENTH}, {"a stated lower end": "0.225"}
    ),
    "ratio of (noun a) to (noun b) of at most about (ratio r)": Given(
        "context tolerance", {"e": TENTH}, {"a stated upper end": "0.275"}
    ),
    "ratio of (noun a) to (noun b) of about (ratio r) to about (ratio s)": Given(
        "context tolerance", {"e": TENTH}, {"a stated lower end": "0.225", "a stated upper end": "0.55"}
    ),
    "at least about (plain N) months": Given(
        "thirty days each", {"e": TENTH}, {"a stated lower end": "54 day"}
    ),
    "at least about (plain N) years": Given("365 days each", {"e": TENTH}, {"a stated lower end": "657 day"}),
    "(plain N) months": Given("thirty days each", {}, {"a stated value": "60 day"}),
    "about (plain N) months": Given(
        "thirty days each", {"e": TENTH}, {"a stated lower end": "54 day", "a stated upper end": "66 day"}
    ),
    "at most about (plain N) months": Given(
        "thirty days each", {"e": TENTH}, {"a stated upper end": "66 day"}
    ),
    "more than about (plain N) months": Given(
        "thirty days each", {"e": TENTH}, {"a stated lower end": "54 day"}
    ),
    "less than about (plain N) months": Given(
        "thirty days each", {"e": TENTH}, {"a stated upper end": "66 day"}
    ),
    "about (plain L) to about (plain U) months": Given(
        "thirty days each", {"e": TENTH}, {"a stated lower end": "54 day", "a stated upper end": "165 day"}
    ),
    "(plain N) years": Given("365 days each", {}, {"a stated value": "730 day"}),
    "about (plain N) years": Given(
        "365 days each", {"e": TENTH}, {"a stated lower end": "657 day", "a stated upper end": "803 day"}
    ),
    "at most about (plain N) years": Given("365 days each", {"e": TENTH}, {"a stated upper end": "803 day"}),
    "more than about (plain N) years": Given(
        "365 days each", {"e": TENTH}, {"a stated lower end": "657 day"}
    ),
    "less than about (plain N) years": Given(
        "365 days each", {"e": TENTH}, {"a stated upper end": "803 day"}
    ),
    "about (plain L) to about (plain U) years": Given(
        "365 days each", {"e": TENTH}, {"a stated lower end": "657 day", "a stated upper end": "2007.5 day"}
    ),
    "ratio of (noun a) to (noun b) of (ratio r) to about (ratio s)": Given(
        "second end only", {"e": TENTH}, {"a stated lower end": "0.25", "a stated upper end": "0.55"}
    ),
    "of the order of (L) to (U)": Given("about both ends", {"e": TENTH}, _ends("9 mm", "22 mm")),
    "effective amount": Given("enough for the stated effect", {"f": THREE}, AMOUNT),
    "flexible": Given("at least a threshold", {"c": THREE}, VALUE),
    "parallel": Given(
        "within making tolerance",
        {"e": THREE},
        {"a stated lower angle": "-3 deg", "a stated upper angle": "3 deg"},
    ),
    "perpendicular": Given(
        "within making tolerance",
        {"e": THREE},
        {"a stated lower angle": "87 deg", "a stated upper angle": "93 deg"},
    ),
    "substantially parallel": Given(
        "within making tolerance",
        {"e": THREE},
        {"a stated lower angle": "-3 deg", "a stated upper angle": "3 deg"},
    ),
    "substantially perpendicular": Given(
        "within making tolerance",
        {"e": THREE},
        {"a stated lower angle": "87 deg", "a stated upper angle": "93 deg"},
    ),
    "ratio of (noun a) to (noun b) of about (ratio r)": Given(
        "context tolerance", {"e": Fraction(1, 5)}, _ends("1:5", "3:10")
    ),
    "equal to (N)": Given("as made", {"t": THREE}, AMOUNT),
    "equal": Given("as made", {"t": THREE}, AMOUNT),
    "substantially equal to (N)": Given("as made", {"t": THREE}, AMOUNT),
    "substantially equal": Given("as made", {"t": THREE}, AMOUNT),
    "not equal to (N)": Given("beyond tolerance", {"t": THREE}, AMOUNT),
    "neither (N) nor (P)": Given("beyond tolerance", {"t": THREE}, AMOUNT),
    "different": Given("two values, beyond tolerance", {"t": THREE}, AMOUNT),
    "separate": Given("two values, beyond tolerance", {"t": THREE}, AMOUNT),
    "unequal": Given("two values, beyond tolerance", {"t": THREE}, AMOUNT),
    "non-zero": Given("beyond detection", {"l": THREE}, AMOUNT),
    "uniform": Given("as made", {"t": THREE}, AMOUNT),
    "consisting of": Given("closed, ordinary impurities apart", {"i": THREE}, SHARE),
    "composition consisting of (list M and)": Given("closed, ordinary impurities apart", {"i": THREE}, SHARE),
    "composition consisting of (list M comma), and unavoidable impurities": Given(
        "closed, impurities apart", {"i": THREE}, SHARE
    ),
    "balance being (list M and)": Given("nothing else, ordinary impurities apart", {"i": THREE}, SHARE),
    "balance being (list M comma), and unavoidable impurities": Given(
        "nothing else, impurities apart", {"i": THREE}, SHARE
    ),
}
PROPOSING = [p for p, e in zip(BY_PLACE, ENTRIES, strict=True) if e.group != "L"]


def _opened(sheet: Sheet, given: Given | None) -> Construction:
    values = given.open if given else {}
    scales = {p.key: Fraction(1) if p.shared else p.unit.factor for p in sheet.parameters}
    known = ((p, values.get(p.name, p.presumed / scales[p.key])) for p in sheet.parameters)
    return Construction(tuple(0 for _ in sheet.groups), tuple((p.key, v * scales[p.key]) for p, v in known))


def _alike(session: Session, k: Construction, one: Formula, other: Formula) -> bool:
    """Is nothing met by one formula and missed by the other?"""
    search = session.search(())
    met, also = session.met(one, k), session.met(other, k)
    return not search.holds(met, ~also) and not search.holds(~met, also)


@pytest.mark.parametrize("place", PROPOSING)
def test_the_more_exact_wording_is_one_reading_and_uncontested(place: int) -> None:
    """Put beside the phrase in one claim, the wording proposed has one meaning: that of a named reading."""
    entry = ENTRIES[place]
    given = (
        STATED.get(entry.title)
        if re.search(r"a stated (lower|upper|amount|value)", entry.exact_wording)
        else None
    )
    told: list[str] = []
    for occasion in occasions(entry):
        wording = entry.exact_wording.format(**occasion.slots)
        for words, number in (given.numbers if given else {}).items():
            wording = wording.replace(words, number)
        said = (*(f"{occasion.subjects} : {words}" for words in (occasion.words, wording)), *occasion.beside)
        lines = "".join(f"   | {line}\n" for line in said)
        text = f"{occasion.words}, or {wording}, with {', '.join(occasion.beside)}"
        sheet = read(f"{occasion.declarations}\n1. A thing {text}.\n{lines}")
        if sheet is None:
            continue
        own, proposed = (limitation.formula for limitation in sheet.claims[0].limitations[:2])
        contested = [
            g.wording for g in sheet.groups if len(g.readings) > 1 and any(p.where == "1b" for p in g.places)
        ]
        assert not contested, wording
        if not isinstance(own, Read):
            continue
        k, session = _opened(sheet, given), Session(sheet)
        readings = zip(sheet.groups[own.group].readings, own.options, strict=True)
        told += [r.label for r, option in readings if _alike(session, k, option, proposed)]
        if told:
            break
    assert (given.reading in told) if given else told, entry.exact_wording


def test_how_many_pairs_were_told_apart(capsys: pytest.CaptureFixture[str]) -> None:
    pairs, computed = (
        sum(TOLD_APART.values()),
        sum(r.formula is not None for e in ENTRIES for r in e.readings),
    )
    with capsys.disabled():
        print(
            f"\n  {len(ENTRIES)} phrases, {computed} computed readings: {pairs} pairs of readings told apart"
        )
    assert pairs or len(TOLD_APART) < len(ENTRIES)
