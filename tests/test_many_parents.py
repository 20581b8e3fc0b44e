"""Claims of any preceding claim: as many chains of parents as there are subsets, of which few are asked."""

from __future__ import annotations

import pytest

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_prepared, prepare
from scopecheck.core import chains
from scopecheck.core.formula import Any
from scopecheck.core.model import Sheet
from tests.reported import one_line, text_of
from tests.sheets import sheet

# Claim 5 adds nothing by way of 3, 8 contradicts 2, 3 and 4; 6 and 7 say nothing of what others limit.
LIMITS = {
    1: "from 1 to 90 mm",
    2: "from 10 to 50 mm",
    3: "from 30 to 40 mm",
    4: "from 20 to 50 mm",
    5: "from 25 to 60 mm",
    8: "more than 50 mm",
}


def claims(count: int) -> str:
    made = ["bore, width  length in mm", ""]
    for n in range(1, count + 1):
        name, words = ("bore", LIMITS[n]) if n in LIMITS else ("width", f"from {n} to {n + 20} mm")
        first = (
            "A bush"
            if n == 1
            else f"The bush of any one of claims 1 to {n - 1}"
            if n > 2
            else "The bush of claim 1"
        )
        made += [f"{n}. {first}, wherein the {name} is {words}.", f"   | {name} : {words}", ""]
    return "\n".join([*made, "inside", "  own : bore = 35 mm, width = 25 mm"])


def told(made: Sheet) -> set[tuple[str, int, str, str, str]]:
    found = ask_prepared(prepare(made)).findings
    return {(f.question, f.claim, f.label, f.outcome, f.quantifier) for f in found if isinstance(f, Finding)}


def test_what_is_told_of_few_ways_is_what_all_of_them_tell(monkeypatch: pytest.MonkeyPatch) -> None:
    made = sheet(claims(8))
    few = told(made)
    assert len(prepare(made).instances[8]) < 2**6

    monkeypatch.setattr(chains, "MOST_WAYS", 2**8)
    made = sheet(claims(8))
    assert len(prepare(made).instances[8]) == 2**6
    assert told(made) == few
    assert {q for q, claim, *_ in few if claim == 8} >= {"dependent cannot be met"}


def test_the_number_of_ways_grows_with_the_claims_and_not_with_their_subsets() -> None:
    prepared = prepare(sheet(claims(24)))
    assert all(len(own) <= n for n, own in prepared.instances.items() if n > 6)
    assert not isinstance(prepared.scope(24), Any)
    assert {x.label for x in prepared.limitations(24)} == {f"{n}a" for n in range(1, 25)}
    assert {n for i in prepared.instances[24] for n in i.chain} == set(range(1, 24))


PARENTS = {1: (), 2: (1,), 3: (1, 2), 4: (2, 3), 5: (), 6: (4, 5), 7: (6,), 8: (3, 7)}


@pytest.mark.parametrize("others", [{1}, {2}, {3}, {4}, {4, 5}, {1, 5}, {2, 3}, {6}, {8}])
def test_what_a_claim_takes_over_by_way_of_every_chain(others: set[int]) -> None:
    """Held against the chains, each written out."""

    def written_out(n: int) -> list[tuple[int, ...]]:
        return [(*chain, p) for p in PARENTS[n] for chain in written_out(p) or [()]]

    for n in PARENTS:
        ways = written_out(n)
        expected = bool(ways) and all(others.intersection(way) for way in ways)
        assert chains.takes_over(PARENTS, n, others) == expected, n


def test_sixty_claims_of_any_preceding_one_are_looked_at_once_each() -> None:
    parents = {n: tuple(range(1, n)) for n in range(1, 61)}
    assert chains.takes_over(parents, 60, (1,))
    assert not chains.takes_over(parents, 60, (2,))


TROUGH = """
profile EPO
ends, legs  count
gap  length in mm

1. A trough with at least two legs.
   | legs : at least two
2. The trough of claim 1, wherein the gap is at least 4 mm.
   | gap : at least 4 mm
3. The trough of claim 1 or 2, wherein the number of ends is at least two.
   | ends : at least two
4. The trough of claim 1, wherein the number of ends is at least five and is at most three.
   | ends : at least five
   | ends : at most three
5. The trough of any one of claims 1 to 4, wherein the number of legs is at most nine.
   | legs : at most nine
6. The trough of any one of claims 1 to 5, wherein the gap is at most 3 mm.
   | gap : at most 3 mm
"""


def test_what_conflicts_within_itself_and_what_with_a_parent_however_taken_over() -> None:
    """By hand: 4a and 4b exclude each other; claim 6 takes 2a over by claim 2, and by 3 or 5 on 2."""
    made = sheet(TROUGH)
    text = one_line(text_of(ask_prepared(prepare(made)), sheet=made))
    assert "Nothing meets claim 4 as restated: what it adds conflicts within itself." in text
    assert "Claim 5 cannot be met either where it depends on claim 4." in text
    assert "Claim 6 cannot be met either where it depends on claim 4." in text
    assert "Nothing meets claim 6 as restated where it depends on claim 2, itself or through another" in text


def test_what_is_presumed_to_round_is_told() -> None:
    """EPO Guidelines G-VI 7.1: the last digit written shows the accuracy; whole numbers do not round."""
    made = sheet(TROUGH.replace("at most 3 mm", "about 3 mm"))
    text = one_line(text_of(ask_prepared(prepare(made)), sheet=made))
    assert "Met, as presumed, by what rounds to the number as written: " in text
    usual = made.claims[0].limitations[0].groups
    assert all(
        dict(made.groups[g].readings[made.groups[g].base].axes).get("rounding") != "half away" for g in usual
    )
