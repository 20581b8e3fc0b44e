"""Printed examples of claims that refer to several others, and of what each alternative comes to by itself.

Each check names its source and how it is known; what followed in law is not checked and not repeated.
"""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.published.worked import found, worked

SEVERAL = "names several claims, and not in the alternative only"
STACKED = "names several claims and depends on claim"
GADGETS = "width  length in mm\n" + "".join(
    f"{n}. A gadget with a width of at least {n} mm.\n   | width : at least {n} mm\n" for n in range(1, 10)
)


def warnings(text: str, profile: str = "US") -> list[str]:
    made, diagnostics = read_sheet(Source("gadgets", f"profile {profile}\n{text}"))
    assert made is not None
    return [d.message for d in diagnostics if d.severity == "warning"]


def gadget(words: str) -> str:
    return f"{GADGETS}10. A gadget according to {words}, being wide.\n"


@worked("W37", "MPEP 608.01(n) I.A-B [R-01.2024]", "read")
@pytest.mark.parametrize(
    ("words", "alternative"),
    [
        ("claims 3 or 4", True),
        ("claims 3 and 4", False),
        ("claims 1-3", False),
        ("any of claims 1-3 or 7-9", True),
        ("claims 1-3 or 7-9", False),
    ],
)
def test_several_claims_named(words: str, alternative: bool) -> None:
    told = [m for m in warnings(gadget(words)) if SEVERAL in m]
    assert (told == []) == alternative


@pytest.mark.parametrize(
    ("words", "alternative"),
    [
        ("any one of the preceding claims", True),
        ("any preceding claim", True),
        ("one of claims 1 to 3", True),
        ("either of claims 1 and 2", True),
        ("claim 1 or claim 2", True),
        ("claims 1, 2 or 3", True),
        ("claims 1, 2 and/or 3", False),
        ("the preceding claims", False),
    ],
)
def test_further_ways_to_name_several(words: str, alternative: bool) -> None:
    """37 CFR 1.75(c): `in the alternative only` (read); the words are ours."""
    told = [m for m in warnings(gadget(words)) if SEVERAL in m]
    assert (told == []) == alternative


def test_one_claim_on_several_under_another() -> None:
    """35 U.S.C. 112(e), 37 CFR 1.75(c): `shall not serve as a basis for any other` (read)."""
    direct = f"{GADGETS}10. A gadget as in claim 1 or 2.\n11. A gadget as in claim 3 or 10.\n"
    assert [m for m in warnings(direct) if STACKED in m] == [
        f"claim 11 {STACKED} 10, which names several too"
    ]
    single = f"{GADGETS}10. A gadget as in claim 1 or 2.\n11. A gadget as in claim 10.\n"
    between = f"{single}12. A gadget as in claim 3 or 11.\n"
    assert [m for m in warnings(between) if STACKED in m] == [
        f"claim 12 {STACKED} 10, which names several too"
    ]
    assert warnings(single) == []


def test_the_rules_for_several_are_not_asked_at_the_epo() -> None:
    """Such claims are usual there (EPC Rule 43(4): memory)."""
    text = f"{GADGETS}10. A gadget as in claims 1 and 2.\n11. A gadget as in any of the preceding claims.\n"
    assert warnings(text, "EPO") == []


def test_a_reference_to_a_later_claim() -> None:
    """35 U.S.C. 112(d): a claim `previously set forth` (read)."""
    text = "width  length in mm\n1. A gadget as in claim 2.\n2. A gadget.\n"
    assert warnings(text) == ["claim 1 refers to claim 2, which comes later"]


ALTERNATIVES = """
width  length in mm
depth  length in mm
1. A gadget with a width of at least 2 mm.
   | width : at least 2 mm
2. A gadget with a depth of at least 3 mm.
   | depth : at least 3 mm
3. A gadget according to claim 1 or 2, wherein the width is at least 1 mm.
   | width : at least 1 mm
4. A gadget according to claim 1 or 2, wherein the depth is less than 3 mm.
   | depth : less than 3 mm
policy ends are included  "paragraph 1"
policy rounding is none   "paragraph 2"
"""


def test_each_alternative_is_taken_by_itself() -> None:
    """35 U.S.C. 112(e): `each of the particular claims in relation to which it is being considered` (read);
    Nested Bean, IPR2020-01234 (PTAB 2023), as our list has it. The numbers are ours."""
    (idle,) = found(ALTERNATIVES, "adds nothing", 3)
    assert (idle.ways, idle.quantifier) == (((1,),), "every")
    (empty,) = found(ALTERNATIVES, "dependent cannot be met", 4)
    assert (empty.ways, set(empty.conflict)) == (((2,),), {"2a", "4a"})
    assert [f.question for n in (3, 4) for f in found(ALTERNATIVES, "narrows", n)] == ["narrows", "narrows"]
