"""What a sheet says against itself, against the walk over all things."""

from __future__ import annotations

from itertools import product

from hypothesis import event, given, settings
from hypothesis import strategies as st

from scopecheck.answers.consistency import contradictions
from scopecheck.answers.questions import prepare
from scopecheck.core.model import Case, Sheet
from scopecheck.foundations.record import replace
from tests import build, strategies
from tests.oracle import Walk


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    """A sheet with a given fact or none, and cases that may clash with it or with each other."""
    sheet = draw(strategies.sheets("inside", "outside"))
    world = strategies.World(sheet.declarations, sheet.groups, ())
    facts = [draw(strategies.facts(world)) for _ in range(draw(st.integers(0, 1)))]
    return replace(sheet, givens=tuple(build.given(f, f"fact {i}") for i, f in enumerate(facts)))


@settings(max_examples=100)
@given(sheets())
def test_contradictions_are_those_of_the_walk(sheet: Sheet) -> None:
    walk = Walk(sheet)
    found = contradictions(prepare(sheet))
    severities = [d.severity for d in found]
    if not walk.articles:
        event("nothing exists")
        assert severities == ["error"]
        return
    impossible = [case for case in sheet.cases if not walk.some(walk.base, case.facts)]
    if impossible:
        event("impossible cases")
        assert severities == ["error"] * len(impossible)
        assert all(case.name in d.message for case, d in zip(impossible, found, strict=True))
        return
    inside, outside = ([c for c in sheet.cases if c.role == role] for role in ("inside", "outside"))
    expected = []
    for one, other in product(inside, outside):
        same = set(one.stated) == set(other.stated)
        speak_alike = same or bool(set(one.stated) & set(other.stated))
        if speak_alike and same_place(sheet, one, other) and walk.some(walk.base, one.facts, other.facts):
            expected.append("error" if same else "warning")
    event(f"{len(expected)} on both sides")
    assert severities == expected


def same_place(sheet: Sheet, inside: Case, outside: Case) -> bool:
    def above(place: str) -> set[str]:
        """The place, and for a claim every claim that it depends on."""
        if not place.isdigit():
            return {place}
        parents = [above(str(n)) for n in sheet.claim(int(place)).parents]
        return {place}.union(*parents)

    independent = tuple(str(c.number) for c in sheet.claims if not c.parents)
    wanted = set().union(*(above(place) for place in inside.targets or independent))
    return bool(wanted & set(outside.targets or independent))
