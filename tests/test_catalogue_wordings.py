"""Every wording of a shipped phrase, written into a claim, is read as that phrase and no other."""

from __future__ import annotations

import pytest

from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.report.occasions import first_occasion, written_ways
from scopecheck.resolve.catalogue import entries
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.sheet import read_sheet

ENTRIES = [pytest.param(e, id=f"{e.id} {e.title[:50]}") for e in entries()]


@pytest.mark.parametrize("entry", ENTRIES)
def test_each_wording_is_read_as_its_phrase(entry: Entry) -> None:
    for pattern in entry.patterns:
        occasion = first_occasion(entry, pattern)
        for words in written_ways(pattern, occasion):
            text = replace(occasion, words=words).text
            sheet, wrong = read_sheet(Source("test", text))
            assert sheet is not None, (words, [d.message for d in wrong])
            assert entry.title in [g.entry for g in sheet.groups], (words, [g.entry for g in sheet.groups])


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
    ("US examination", "at least one of (list M and)", ()),
    ("US court", "at least one of (list M and)", ("one of each",)),
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
    found = [e for e in entries() if e.title == title]
    assert found
    assert all(e.presumed[profile] == labels for e in found)
