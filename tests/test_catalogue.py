"""The shipped phrases: every entry loads, every reading means something, and readings of a phrase differ."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from functools import cache

import pytest

from scopecheck.resolve.catalogue import entries
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.patterns import Literals, Pattern
from tests.occurrences import column_of, meanings, subject_count, tried_on

TAGS = ("read", "read (secondary)", "memory", "common practice")
FILES = {
    "A": ("endpoints", "relations"), "B": ("approximation",), "C": ("rounding",), "D": ("units_and_basis",),
    "F": ("counting", "relations"), "G": ("alternatives",), "H": ("relations",),
}  # fmt: skip
VERDICTS = re.compile(
    r"\b(new|anticipated|obvious|valid|invalid|infringes|patentable|definite|indefinite|supported|unsupported|added"
    r" matter|proper|improper|allowable|safe|safer|clear|cure|admits|prior art|proved|probably|probability)\b"
)
ENTRIES = entries()
NAMED = [pytest.param(e, id=f"{e.id} {e.title[:50]}") for e in ENTRIES]
BY_PLACE = [pytest.param(i, id=f"{e.id} {e.title[:50]}") for i, e in enumerate(ENTRIES)]


# ---- the data


def test_there_are_phrases_in_every_file() -> None:
    files = {e.span.source.name for e in ENTRIES}
    assert files == {f"catalogue {name}" for names in FILES.values() for name in names}


@pytest.mark.parametrize("entry", NAMED)
def test_entry_is_filed_with_sources_and_presumptions(entry: Entry) -> None:
    assert entry.span.source.name.removeprefix("catalogue ") in FILES[entry.group]
    assert re.fullmatch(r"[A-H]\d+", entry.id)
    assert entry.id.startswith(entry.group)
    assert entry.sources
    assert all(s.text and s.tag in TAGS for s in entry.sources)
    assert set(entry.presumed) == {"US examination", "US court", "EPO"}
    assert entry.exact_wording
    labels = [r.label for r in entry.readings]
    assert len(set(labels)) == len(labels)
    assert all(r.taken_by for r in entry.readings)
    strained = {r.label for r in entry.readings if entry.standing(r.label, "US examination") == "strained"}
    assert strained == set(entry.strained)
    assert not strained & {label for known in entry.presumed.values() for label in known}


@pytest.mark.parametrize("entry", NAMED)
def test_placeholders_name_slots(entry: Entry) -> None:
    slots = set.intersection(*({s.name for s in p.slots} for p in entry.patterns))
    for text in (entry.exact_wording, entry.ask, *(r.exact_wording for r in entry.readings)):
        assert set(re.findall(r"{(\w+)}", text)) <= slots, text
    assert "{" not in "".join(r.taken_by for r in entry.readings)


@pytest.mark.parametrize("entry", NAMED)
def test_no_verdict_in_what_may_be_printed(entry: Entry) -> None:
    for text in (entry.exact_wording, entry.ask, *(t for r in entry.readings for t in (r.label, r.taken_by))):
        assert not VERDICTS.search(text.lower()), text


# ---- the readings


@pytest.mark.parametrize("entry", NAMED)
def test_every_reading_means_something_somewhere(entry: Entry) -> None:
    used: set[str] = set()
    for pattern in entry.patterns:
        for subject in tried_on(entry, pattern):
            used |= {m.reading.label for m in meanings(entry, pattern, subject)}
    wanted = {r.label for r in entry.readings if r.formula is not None}
    assert used == wanted


@pytest.mark.parametrize("entry", NAMED)
def test_every_pattern_fills_the_slots_of_every_formula(entry: Entry) -> None:
    for pattern in entry.patterns:
        for reading in entry.readings:
            if reading.formula is not None:
                known = {s.name for s in pattern.slots} | set(entry.subjects)
                known |= {f.name for f in reading.written.free}
                text = re.sub(r"bar\([ag]\)", "", reading.formula_text)
                names = set(re.findall(r"\b[A-Za-z]\b", text))
                assert names <= known | {"x"}, (pattern.text, reading.label)


@cache
def _columns(place: int) -> tuple[tuple[tuple[str, tuple[bool | None, ...]], ...], ...]:
    """For each subject on which the first wording can be tried: what each reading says of each article."""
    entry = ENTRIES[place]
    pattern = entry.patterns[0]
    count = subject_count(entry, pattern)
    return tuple(
        tuple((m.reading.label, column_of(m, subject, count)) for m in meanings(entry, pattern, subject))
        for subject in tried_on(entry, pattern)
    )


@pytest.mark.parametrize("place", BY_PLACE)
def test_readings_differ(place: int) -> None:
    if sum(r.formula is not None for r in ENTRIES[place].readings) > 1:
        assert any(len({column for _, column in columns}) > 1 for columns in _columns(place))


@pytest.mark.parametrize("place", BY_PLACE)
def test_every_reading_can_be_met_and_missed(place: int) -> None:
    seen: dict[str, set[bool | None]] = {}
    for columns in _columns(place):
        for label, column in columns:
            seen.setdefault(label, set()).update(column)
    for reading in ENTRIES[place].readings:
        never = reading.label == "ends in the order written"
        if reading.formula is not None and reading.formula_text != "TRUE" and not never:
            assert {True, False} <= seen[reading.label], reading.label


# ---- the wordings


def _wordings(pattern: Pattern) -> Iterator[tuple[str, ...]]:
    """Every way to write a pattern, with slot kinds in brackets."""
    choices: list[list[tuple[str, ...]]] = []
    for element in pattern.elements:
        if isinstance(element, Literals):
            choices.append([*element.options, ()] if element.optional else list(element.options))
        else:
            choices.append([(f"({element.kind} {element.joiner})",)])
    for parts in itertools.product(*choices):
        yield tuple(word.lower() for part in parts for word in part if word != ",")


def test_no_wording_belongs_to_two_phrases() -> None:
    owners: dict[tuple[str, ...], list[Entry]] = {}
    for entry in ENTRIES:
        for pattern in entry.patterns:
            for words in set(_wordings(pattern)):
                known = owners.setdefault(words, [])
                if entry not in known:
                    for other in known:
                        apart = (
                            entry.only_for
                            and other.only_for
                            and not set(entry.only_for) & set(other.only_for)
                        )
                        assert apart, (" ".join(words), entry.title, other.title)
                    known.append(entry)
