"""Every wording of a shipped phrase, written into a claim, is read as that phrase and no other."""

from __future__ import annotations

import re

import pytest

from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.report.occasions import Occasion, occasions, phrase_in, read, written_ways
from scopecheck.resolve.sheet import read_sheet
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.patterns import Pattern

ENTRIES = [pytest.param(e, id=f"{e.id} {e.title[:50]}") for e in entries()]


def first_occasion(entry: Entry, pattern: Pattern) -> Occasion:
    """A wording on the first sheet on which the phrase is read."""
    found = list(occasions(entry, pattern))
    read_as = (o for o in found if (sheet := read(o.text)) and phrase_in(sheet, entry))
    return next(read_as, found[0])


AT_A_POINT = ("when (condition c)", "(state done) when (condition c) and (state other) when (condition d)")
"""With 'at' and a range or limit these are points of change, which have a phrase of their own."""


@pytest.mark.parametrize("entry", ENTRIES)
def test_each_wording_is_read_as_its_phrase(entry: Entry) -> None:
    for pattern in entry.patterns:
        occasion = first_occasion(entry, pattern)
        for words in written_ways(pattern, occasion.slots):
            if entry.title in AT_A_POINT and re.search(r"^starts at|stops at", words):
                continue
            text = replace(occasion, words=words).text
            sheet, wrong = read_sheet(Source("test", text))
            assert sheet is not None, (words, [d.message for d in wrong])
            assert entry.title in [g.entry for g in sheet.groups], (words, [g.entry for g in sheet.groups])


PRESUMED = [
    # profile, wording, readings presumed; () where no presumption is known, several where they count alike
    ("US examination", "between (L) and (U)", ("both ends in", "both ends out")),
    ("EPO", "between (L) and (U)", ("both ends in", "rounds to the ends")),
    ("US examination", "from (L) to (U)", ("both ends in",)),
    ("US examination", "up to (U)", ("zero allowed, end in",)),
    ("US examination", "at least (L)", ("no top, end in",)),
    ("EPO", "at least (L)", ("no top, end in", "rounds to the limit")),
    ("US examination", "more than (L)", ("strict, exact",)),
    ("US examination", "within (difference D) of (T)", ("ends in",)),
    ("EPO", "about (N)", ("rounding only",)),
    ("EPO", "(limit c), preferably (limit d)", ("outer limit",)),
    ("US examination", "(limit c), preferably (limit d)", ()),
    ("US examination", "at least one of (list M and)", ()),
    ("US court", "at least one of (list M and)", ("one of each",)),
    ("EPO", "at least one of (list M and)", ("either will do",)),
    ("US court", "at least one of (list M or)", ("any one suffices",)),
    ("US examination", "either (list M or)", ("inclusive", "exclusive")),
    ("EPO", "either (list M or)", ("inclusive",)),
    ("US examination", "selected from group consisting of (list M and)", ("exactly one member",)),
    ("US examination", "multiple of (k)", ("positive whole multiple",)),
    ("EPO", "ratio of (noun a) to (noun b) of (ratio r)", ("first over second",)),
    ("EPO", "thin", ("no limit at all",)),
    ("US examination", "a majority", ("more than half",)),
]


@pytest.mark.parametrize(("profile", "title", "labels"), PRESUMED)
def test_what_is_presumed(profile: str, title: str, labels: tuple[str, ...]) -> None:
    found = [e for e in entries() if e.title == title]
    assert found
    assert all(e.presumed[profile] == labels for e in found)


STRAINED = [
    # profile, wording, readings that no opponent wins with: against the words, or against a settled rule
    ("US examination", "less than (U)", {"beyond tolerance", "end in", "up to all that rounds to it"}),
    ("EPO", "at least (L)", {"strictly more", "zeros at the end not counted"}),
    (
        "US examination",
        "up to (U)",
        {"end out", "zeros at the end not counted"},
    ),  # AK Steel; of the EPO no rule was found
    ("EPO", "up to (U)", {"zeros at the end not counted"}),
    ("US examination", "comprising (list M and)", {"closed"}),  # MPEP 2111.03 I
    ("EPO", "comprising (list M and)", {"closed"}),  # Guidelines F-IV 4.21
    ("US examination", "consisting essentially of (list M and)", set()),
    ("US court", "having (list M and)", set()),  # decided both ways
    ("US examination", "selected from group consisting of (list M and)", {"all members"}),
    ("US examination", "a plurality", {"one or more", "three or more", "two kinds or more"}),
    ("US examination", "several", {"one or more", "two kinds or more"}),
    ("US examination", "at least one of (list M and)", {"exactly one kind"}),
    ("US court", "either (list M or)", set()),  # decided both ways
    ("EPO", "ratio of (noun a) to (noun b) of at most (ratio r)", {"second over first"}),
    ("US examination", "positive", {"zero or above"}),
    ("EPO", "positive", set()),
    ("US examination", "divisible by (k)", set()),
]


@pytest.mark.parametrize(("profile", "title", "labels"), STRAINED)
def test_what_is_strained(profile: str, title: str, labels: set[str]) -> None:
    found = [e for e in entries() if e.title == title]
    assert found
    for e in found:
        assert {r.label for r in e.readings if e.standing(r.label, profile) == "strained"} == labels
