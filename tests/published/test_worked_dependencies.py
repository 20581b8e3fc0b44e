"""Printed examples of claims that refer to several others, and of what each alternative comes to by itself.

Each check names its source and how it is known; what followed in law is not checked and not repeated.
"""

from __future__ import annotations

import pytest

from scopecheck.answers.findings import lines_of
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


FEE_TABLE = {
    1: "", 2: "claim 1", 3: "claim 2", 4: "claim 2 or 3", 5: "claim 4", 6: "claim 5", 7: "claim 4, 5, or 6",
    8: "claim 7", 9: "", 10: "claim 1 or 9", 11: "claims 1 and 9",
}  # fmt: skip


@worked("W38", "MPEP 608.01(n) I.G", "read")
def test_a_set_of_claims_counted_for_its_alternatives() -> None:
    """2 independent and 13 dependent, 15 in all (read); which claim names which is from memory.

    A claim counts for as many as its alternatives; one that is not in the form of the rule, and what
    depends on such a one, counts once (read in a reproduction of 608.01(n) I.G.2).
    """
    lines = (f"{n}. A gadget{f' according to {x}' if x else ''}, being wide.\n" for n, x in FEE_TABLE.items())
    made, diagnostics = read_sheet(Source("table", "profile US\nwidth  length in mm\n" + "".join(lines)))
    assert made is not None
    flagged = {int(d.message.split()[1]) for d in diagnostics if SEVERAL in d.message or STACKED in d.message}
    assert flagged == {7, 11}
    counted: dict[int, int] = {}
    for claim in made.claims:
        once = claim.number in flagged or flagged & set(claim.parents)
        counted[claim.number] = (
            1
            if once or not claim.parents
            else sum(counted[p] if made.claim(p).parents else 1 for p in claim.parents)
        )
    independent = [c.number for c in made.claims if not c.parents]
    assert (len(independent), sum(counted.values())) == (2, 15)


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
    assert (empty.ways, set(lines_of(empty))) == (((2,),), {"2a", "4a"})
    assert [f.question for n in (3, 4) for f in found(ALTERNATIVES, "narrows", n)] == ["narrows", "narrows"]


MADE = "heat  temperature in degC\n"
MADE += "1. A process of heating grain, at least 230 °C.\n   | heat : at least 230 °C\n"
TOLD_BY_MAKING = "claim 2 tells its product by how it is made"


@worked(
    "W75",
    "PCT-EPO Guidelines F-IV 4.12 (an excerpt; the same number of the EPC Guidelines is from memory);"
    " MPEP 2113 (third-party copies)",
    "read (secondary)",
)
@pytest.mark.parametrize("profile", ["EPO", "US", "US court"])
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("A grain obtainable by the process of claim 1", True),
        ("A grain obtained by the process of claim 1", True),
        ("A grain directly obtained by the process of claim 1", True),
        ("A grain made by a process as claimed in claim 1", True),
        ("The process of claim 1", False),
        ("An oven for the process of claim 1", False),
        ("A method of making flour by the process of claim 1", False),
    ],
)
def test_a_product_told_by_its_making_is_told(words: str, told: bool, profile: str) -> None:
    text = f"{MADE}2. {words}, at most 260 °C.\n   | heat : at most 260 °C\n"
    assert (TOLD_BY_MAKING in warnings(text, profile)) is told


@worked(
    "W76",
    "EPO Guidelines F-IV 4.13 (2018) and 4.16; MPEP 2111.02 (an excerpt), 2114 II [R-07.2015]"
    " and 2173.05(q) (third-party copies)",
    "read (secondary)",
)
@pytest.mark.parametrize("profile", ["EPO", "US", "US court"])
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("A fermenter for carrying out the method of claim 1", "fermenter"),
        ("A plant adapted to carry out the process of claim 1", "plant"),
        ("An oven for the process of claim 1", "oven"),
        ("Means for carrying out the process of claim 1", "means"),
        ("An apparatus arranged to perform the steps of claim 1", "apparatus"),
        ("A system comprising means for carrying out the process of claim 1", "system"),
        ("The process of claim 1", ""),
        ("A process for drying grain according to claim 1", ""),
        ("A method of making flour by the process of claim 1", ""),
        ("A grain for baking obtainable by the process of claim 1", ""),
        ("A kit for bakers comprising an oven and grain heated by the process of claim 1", ""),
    ],
)
def test_a_thing_told_by_what_it_is_for_is_told(words: str, told: str, profile: str) -> None:
    text = f"{MADE}2. {words}, at most 260 °C.\n   | heat : at most 260 °C\n"
    found = [m for m in warnings(text, profile) if "by what it is for" in m]
    assert found == ([f"claim 2 tells its {told} by what it is for"] if told else [])


@pytest.mark.parametrize("words", ["Use of the process of claim 1", "The use of the process of claim 1"])
def test_a_claim_to_a_use_is_told(words: str) -> None:
    told = warnings(f"{MADE}2. {words} for baking, at most 260 °C.\n   | heat : at most 260 °C\n")
    assert "claim 2 is for a use of what claim 1 claims" in told
