"""Every wording of a shipped phrase, written into a claim, is read as that phrase and no other."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.catalogue import entries
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.patterns import Literals, Pattern, Slot
from scopecheck.resolve.sheet import read_sheet

METALS = "any of copper, zinc, tin"
DECLARED = {
    "measured": ("length in mm", "mm"),
    "amounts": ("length in mm", "mm"),
    "counts": ("count", ""),
    "shares": ("share in %", "%"),
    "levels": ("temperature in degC", "degC"),
    "absolute": ("pressure in bar(a)", "bar"),
    "gauge": ("pressure in bar(g)", "bar"),
    "sets": (METALS, ""),
    "choices": ("one of copper, zinc, tin", ""),
}
PLAIN = ("pH", "integer", "even", "odd", "positive", "ratio of (ratio")
NUMBERS = dict(zip("LUPQNMTDkrs", "10 20 12 18 10 12 10 2 5 1:4 1:2".split(), strict=True))
JOINERS = {"and": "and", "or": "or", "nor": "nor", "and/or": "and/or", "comma": ","}
ENTRIES = [pytest.param(e, id=f"{e.id} {e.title[:50]}") for e in entries()]


def _kind(entry: Entry) -> tuple[str, str]:
    if entry.title.startswith(PLAIN):
        return "number", ""
    lists = any(s.kind == "list" for s in entry.patterns[0].slots)
    return DECLARED[entry.only_for[0] if entry.only_for else "sets" if lists else "measured"]


def _filled(slot: Slot, unit: str, descending: bool) -> str:
    if slot.kind == "list":
        return f"copper {JOINERS[slot.joiner]} zinc"
    if slot.kind == "noun":
        return {"a": "bore", "b": "width"}[slot.name]
    if slot.kind == "whole":
        return "2"
    number = "18" if descending and slot.name == "Q" else NUMBERS[slot.name]
    return number if slot.kind in ("plain", "ratio") else f"{number} {unit}".strip()


def _texts(pattern: Pattern, unit: str) -> Iterator[str]:
    """The wording with its first alternatives, its last ones, and some in between."""
    choices: list[list[str]] = []
    for element in pattern.elements:
        if isinstance(element, Literals):
            choices.append([" ".join(o) for o in element.options] + [""] * element.optional)
        else:
            choices.append([_filled(element, unit, "(L)" not in pattern.text)])
    every = list(itertools.product(*choices))
    for words in (every[0], every[len(every) // 2], every[-1]):
        yield " ".join(w for w in words if w).replace(" ,", ",")


def sheet_saying(entry: Entry, pattern: Pattern, text: str) -> str:
    """A sheet with one claim that says this text, a wording of the phrase with its slots filled."""
    kind, _ = _kind(entry)
    nouns = sum(s.kind == "noun" for s in pattern.slots)
    subject = "bore, width" if max(nouns, len(entry.subjects)) > 1 else "bore"
    return f"bore  {kind}\nwidth  {kind}\n\n1. A valve {text}.\n   | {subject} : {text}\n"


def first_sheet_of(entry: Entry) -> str:
    """A sheet with one claim that says the phrase in its first wording."""
    pattern = entry.patterns[0]
    return sheet_saying(entry, pattern, next(_texts(pattern, _kind(entry)[1])))


@pytest.mark.parametrize("entry", ENTRIES)
def test_each_wording_is_read_as_its_phrase(entry: Entry) -> None:
    _, unit = _kind(entry)
    for pattern in entry.patterns:
        for text in _texts(pattern, unit):
            written = sheet_saying(entry, pattern, text)
            sheet, wrong = read_sheet(Source("test", written))
            assert sheet is not None, (text, [d.message for d in wrong])
            assert entry.title in [g.entry for g in sheet.groups], (text, [g.entry for g in sheet.groups])


PRESUMED = [
    # profile, wording, readings presumed; () where no presumption is known
    ("US examination", "between (L) and (U)", ()),
    ("EPO", "between (L) and (U)", ("both ends in",)),
    ("US examination", "from (L) to (U)", ("both ends in",)),
    ("US examination", "up to (U)", ("zero allowed, end in",)),
    ("US examination", "at least (L)", ("no top, end in",)),
    ("EPO", "at least (L)", ("rounds to the limit",)),
    ("US examination", "more than (L)", ("strict, exact",)),
    ("US examination", "within (difference D) of (T)", ()),
    ("EPO", "about (N)", ("rounding only",)),
    ("EPO", "(L) to (U), preferably (P) to (Q)", ("outer range",)),
    ("US examination", "(L) to (U), preferably (P) to (Q)", ()),
    ("US examination", "at least one of (list M and)", ("one of each",)),
    ("EPO", "at least one of (list M and)", ("either will do",)),
    ("US court", "at least one of (list M or)", ("any one suffices",)),
    ("US examination", "either (list M or)", ()),
    ("EPO", "either (list M or)", ("inclusive",)),
    ("US examination", "selected from group consisting of (list M and)", ("exactly one member",)),
    ("US examination", "multiple of (k)", ()),
    ("EPO", "thin", ("no limit at all",)),
    ("US examination", "a majority", ("more than half",)),
]


@pytest.mark.parametrize(("profile", "title", "labels"), PRESUMED)
def test_what_is_presumed(profile: str, title: str, labels: tuple[str, ...]) -> None:
    (entry,) = (e for e in entries() if e.title == title)
    assert entry.presumed[profile] == labels
