"""What transitions over an assembly say, against the same said of plain numbers of parts."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from scopecheck.core.construction import Construction
from scopecheck.core.formula import Read
from scopecheck.solving.evaluate import evaluate
from tests.sheets import sheet

INNER = ("plates", "springs", "others in housing", "unrelated things in housing")
KINDS = (*INNER, "lids", "others in kit", "unrelated things in kit")
TRANSITIONS = {
    "comprising": {"open": None, "closed": ()},
    "consisting of": {"closed": (), "closed for related things only": ("unrelated",)},
    "having": {"open": None, "closed": ()},
}
"""By reading what is left aside beside what is recited; None where everything is."""
KITS = [
    dict(zip(KINDS, numbers, strict=True))
    for numbers in product((0, 1), repeat=len(KINDS))
    if sum(numbers) <= 2
]


@given(
    st.sampled_from(sorted(TRANSITIONS)),
    st.sampled_from(("housing", "kit")),
    st.sets(st.sampled_from(("plates", "springs", "lids"))),
    st.booleans(),
)
@settings(max_examples=15, deadline=None)
def test_transitions(words: str, whole: str, recited: set[str], of_the_housing: bool) -> None:
    """Whether a kit has a kind of part that is neither recited nor left aside; named is the housing, too,
    which then recites all that is in it."""
    other = "   | housing : with or without other parts\n" if of_the_housing and whole == "kit" else ""
    lines = "".join(f"   | {name} >= 0\n" for name in sorted(recited))
    made = sheet(
        "plates, springs, lids  count\n"
        "housing  assembly of plates, springs\nkit  assembly of housing, lids\n\n"
        f"1. A kit {words}, with or without other parts.\n   | {whole} : {words}\n{other}{lines}"
    )
    formula = made.claims[0].limitations[0].formula
    assert isinstance(formula, Read)
    readings = dict(zip((r.label for r in made.groups[formula.group].readings), formula.options, strict=True))
    held = set(recited) | (set(INNER) if other else set())
    inside = INNER if whole == "housing" else KINDS
    for kit in KITS:
        article = {name: Fraction(number) for name, number in kit.items()}
        for label, aside in TRANSITIONS[words].items():
            more = [k for k in inside if k not in held and kit[k]]
            beside = [k for k in more if not (aside and k == f"{aside[0]} things in {whole}")]
            expected = aside is None or not beside
            assert evaluate(readings[label], article, Construction(tuple(0 for _ in made.groups))) is expected
