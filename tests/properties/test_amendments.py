"""What an amendment gives up and gains, against the walk over all things and constructions of both sheets."""

from __future__ import annotations

from hypothesis import event, given, settings
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from scopecheck.answers.amendment import RELATIONS, Amendment, Change
from scopecheck.answers.findings import (
    Finding,
    relation_of,
)
from scopecheck.core.construction import Construction, groups_in
from scopecheck.core.formula import Formula
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import replace
from scopecheck.resolve.joined import joined
from scopecheck.solving.evaluate import evaluate
from tests import build, oracle, strategies
from tests.oracle import Walk
from tests.undecided import tally


@st.composite
def amendments(draw: DrawFn) -> tuple[Sheet, Sheet]:
    """A small sheet and the same with some limitations put in, taken out or said otherwise."""
    before = draw(strategies.sheets())
    world = strategies.World(before.declarations, before.groups, before.parameters)
    claims = []
    for claim in before.claims:
        kept = [x for x in claim.limitations if draw(st.integers(0, 3))]
        made = [
            build.limitation(f"{claim.number}{'yz'[i]}", draw(strategies.phrases(world, linear=True)))
            for i in range(draw(st.sampled_from([0, 0, 1, 2])))
        ]
        claims.append(replace(claim, limitations=(*kept, *made)))
    return before, replace(before, claims=tuple(claims))


def relation_at(walk: Walk, was: Formula, now: Formula, k: Construction) -> str | None:
    """The relation on one construction; None where nothing meets the claim before or after."""
    if not walk.some(k, was) and not walk.some(k, now):
        return None
    return RELATIONS[walk.some(k, was, without=now), walk.some(k, now, without=was)]


@settings(max_examples=200)
@given(amendments())
def test_each_claim_before_and_after(sheets: tuple[Sheet, Sheet]) -> None:
    both, wrong = joined(*sheets)
    assert both is not None
    assert all(d.severity == "warning" for d in wrong)  # a claim left without a line
    walk = Walk(both.after)
    changes = list(Amendment(both).changes())
    assert [c.after and c.after.number for c in changes] == [c.number for c in both.after.claims]
    for change in changes:
        assert change.before is not None
        assert change.after is not None
        was, now = (oracle.scope(s, change.after.number) for s in (both.before, both.after))
        if change.same:
            assert not any(
                walk.some(k, was, without=now) or walk.some(k, now, without=was)
                for k in walk.constructions(groups_in(was, now))
            )
            continue
        check_change(walk, change, was, now)


def check_change(walk: Walk, change: Change, was: Formula, now: Formula) -> None:
    tally.count(bool(change.undecided))  # terms of terms may be too much for the budget
    if change.undecided:
        return
    ks = walk.constructions(groups_in(was, now))
    relations = [relation_at(walk, was, now, k) for k in ks]
    base = relation_at(walk, was, now, walk.base) or "unchanged"
    event(base)
    assert change.relation == base
    others = {r for r in relations if r is not None and r != base}
    event(f"{len(others)} other relations")
    assert set(map(relation_of, change.otherwise)) == others
    for finding in change.otherwise:
        assert finding.construction is not None
        assert finding.construction.readings == ks[relations.index(relation_of(finding))].readings
    assert change.given_up is not None
    assert change.gained is not None
    check_side(walk, ks, change.given_up, was, now)
    check_side(walk, ks, change.gained, now, was)
    met = [any(walk.some(k, f) for k in ks) for f in (was, now)]
    assert change.emptied == (met[0] and not met[1])


def check_side(
    walk: Walk, ks: list[Construction], finding: Finding, region: Formula, missed: Formula
) -> None:
    """A thing that meets the one and not the other, on the least construction on which there is one."""
    holds = [walk.some(k, region, without=missed) for k in ks]
    assert (finding.outcome == "shown") == any(holds)
    if not any(holds):
        return
    assert finding.witness is not None
    assert finding.construction is not None
    assert evaluate(region, finding.witness.article, finding.construction) is True
    assert evaluate(missed, finding.witness.article, finding.construction) is not True
    assert finding.construction.readings == ks[holds.index(True)].readings
    filled = [h for k, h in zip(ks, holds, strict=True) if walk.some(k, region) or walk.some(k, missed)]
    at_base = walk.some(walk.base, region, without=missed)
    # As presumed it may be that nothing meets the claim: then nothing is gained or given up there.
    assert finding.quantifier == ("some" if not at_base else "every" if all(filled) else "base")
    assert finding.status.at_base == ("some" if at_base else "none")
