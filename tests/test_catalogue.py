"""The shipped phrases: every entry loads, every reading means something, and readings of a phrase differ."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator

import pytest

from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import PROFILES, Entry
from scopecheck.vocabulary.patterns import Literals, Pattern

TAGS = ("read", "read (secondary)", "memory", "common practice")
FILES = {
    "A": ("endpoints", "relations"), "B": ("approximation",), "C": ("rounding",), "D": ("units_and_basis",),
    "E": ("averages", "parts"), "F": ("counting", "relations", "parts", "assemblies"),
    "G": ("alternatives", "transitions", "assemblies"),
    "H": ("relations", "parts"), "I": ("geometry",), "J": ("time", "steps", "conditions"),
    "K": ("measurement", "steps"),
    "L": ("settled", "settled_assemblies", "settled_steps"),
}  # fmt: skip
VERDICTS = re.compile(
    r"\b(new|anticipated|obvious|valid|invalid|infringes|patentable|definite|indefinite|supported|unsupported|added"
    r" matter|proper|improper|allowable|safe|safer|clear|cure|admits|prior art|proved|probably|probability)\b"
)
ENTRIES = entries()
NAMED = [pytest.param(e, id=f"{e.id} {e.title[:50]}") for e in ENTRIES]


# ---- the data


def test_there_are_phrases_in_every_file() -> None:
    files = {e.span.source.name for e in ENTRIES}
    assert files == {f"catalogue {name}" for names in FILES.values() for name in names}


@pytest.mark.parametrize("entry", NAMED)
def test_entry_is_filed_with_sources_and_presumptions(entry: Entry) -> None:
    assert entry.span.source.name.removeprefix("catalogue ") in FILES[entry.group]
    assert re.fullmatch(r"[A-L]\d+", entry.id)
    assert entry.id.startswith(entry.group)
    assert entry.sources
    assert all(s.text and s.tag in TAGS for s in entry.sources)
    assert set(entry.presumed) == {"US examination", "US court", "EPO"}
    assert entry.exact_wording
    labels = [r.label for r in entry.readings]
    assert len(set(labels)) == len(labels)
    assert all(r.taken_by for r in entry.readings)
    computed = {r.label for r in entry.readings if r.formula is not None}
    for profile in PROFILES:
        strained = {label for label in labels if entry.standing(label, profile) == "strained"}
        assert set(entry.strained) <= strained
        assert computed - strained
        assert not strained & set(entry.presumed[profile])


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
def test_every_pattern_fills_the_slots_of_every_formula(entry: Entry) -> None:
    slots = {s for p in entry.patterns for s in p.slots}
    for pattern in entry.patterns:
        for reading in entry.readings:
            if reading.formula is not None:
                known = set(entry.bound_names) | {f.name for f in reading.written.free}
                missing = {s.name for s in slots} - {s.name for s in pattern.slots}
                missing -= set(entry.subjects)
                text = re.sub(r"bar\([ag]\)", "", reading.formula_text)
                names = set(re.findall(r"\b(?:[A-Za-z]|\w+_\w+)\b", text))
                assert names <= known - missing, (pattern.text, reading.label)


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
                        kinds = entry.only_for and other.only_for
                        apart = kinds and not set(entry.only_for) & set(other.only_for)
                        # What is said of like parts is read by the phrases for them, and by no others.
                        apart = apart or ("parts" in entry.only_for) != ("parts" in other.only_for)
                        number = entry.takes(pattern) != min(map(other.takes, other.patterns))
                        assert apart or number, (" ".join(words), entry.title, other.title)
                    known.append(entry)
