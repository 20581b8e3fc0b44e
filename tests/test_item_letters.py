"""Letters of a claim's items instead of names: `the weight ratio of (a) to (b)`."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import meets

DECLARED = """
glue  composition in wt%
  epoxy resin
  amine hardener
  silica filler
  catalyst : tin salt, zinc salt
"""
TEXTS = {
    "items": "(A) 20 to 60 wt% of an epoxy resin; (B) an amine hardener having a low viscosity; (C) a silica"
    " filler; and (D) a catalyst",
    "labels": "an epoxy resin (A), an amine hardener (B), a silica filler (C) and a catalyst (D)",
    "components": "component (A): an epoxy resin, component (B): an amine hardener, component (C) which is a"
    " silica filler, and a component (D) comprising a catalyst",
    "brackets": "[A] an epoxy resin, [B] an amine hardener, [C] a silica filler, [D] a catalyst",
}
BARE = "an epoxy resin A, an amine hardener B, a silica filler C and a catalyst D"


def read(text: str, left: str, words: str) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    claim = f"1. A glue comprising {text}, wherein {words}.\n   | {left} : {words}\n"
    return read_sheet(Source("test", f"{DECLARED}\n{claim}"))


def shares(resin: int, hardener: int, filler: int) -> dict[str, Fraction]:
    rest = Fraction(100 - resin - hardener - filler, 100)
    of = {"epoxy resin": resin, "amine hardener": hardener, "silica filler": filler}
    return {name: Fraction(n, 100) for name, n in of.items()} | {"tin salt": rest, "zinc salt": Fraction(0)}


BOTH = "epoxy resin, amine hardener"
PART = "silica filler, epoxy resin"
THREE = "epoxy resin, amine hardener, silica filler"
CASES = [
    (BOTH, "the weight ratio of (A) to (B) is from 1:2 to 2:1", (60, 30, 5), (61, 30, 5)),
    (BOTH, "the weight ratio (A):(B) is from 1:2 to 2:1", (60, 30, 5), (61, 30, 5)),
    (BOTH, "the ratio (A)/(B) is 0.5 to 2", (30, 60, 5), (30, 61, 5)),
    (BOTH, "the ratio of component (A) to component (B) is 1:2 or more", (30, 60, 5), (30, 61, 5)),
    (BOTH, "the ratio of the resin (A) to the hardener (B) is 1:2 to 2:1", (60, 30, 5), (61, 30, 5)),
    (BOTH, "the sum of (A) and (B) is at least 80 wt%", (50, 30, 5), (50, 29, 5)),
    (BOTH, "the total content of components (A) and (B) is 80 to 95 wt%", (50, 30, 5), (50, 29, 5)),
    (BOTH, "(A) is present in a greater amount than (B)", (41, 40, 5), (40, 40, 5)),
    ("silica filler", "component (C) is present in an amount of 5 to 10 wt%", (50, 30, 10), (50, 30, 11)),
    (PART, "10 parts by weight or less of (C) per 100 parts by weight of (A)", (50, 30, 5), (50, 30, 6)),
    (PART, "5 to 10 parts of the silica filler (C) per 100 parts of (A)", (50, 30, 5), (50, 30, 6)),
    (THREE, "the ratio of (A) to the sum of (B) and (C) is at least 1", (40, 35, 5), (40, 36, 5)),
]  # fmt: skip


@pytest.mark.parametrize("form", TEXTS)
@pytest.mark.parametrize(("left", "words", "within", "without"), CASES, ids=[c[1] for c in CASES])
def test_what_the_letters_stand_for(
    form: str, left: str, words: str, within: tuple[int, int, int], without: tuple[int, int, int]
) -> None:
    if form == "brackets":
        words = words.replace("(", "[").replace(")", "]")
    _met(TEXTS[form], left, words, within, without)


@pytest.mark.parametrize(("left", "words", "within", "without"), CASES, ids=[c[1] for c in CASES])
def test_capitals_without_brackets(
    left: str, words: str, within: tuple[int, int, int], without: tuple[int, int, int]
) -> None:
    _met(BARE, left, words.replace("(", "").replace(")", ""), within, without)


def _met(
    text: str, left: str, words: str, within: tuple[int, int, int], without: tuple[int, int, int]
) -> None:
    made, told = read(text, left, words)
    assert made is not None, [d.message for d in told]
    formula, base = made.claims[0].limitations[0].formula, base_construction(made)
    others = {d.name: Fraction(0) for d in made.declarations}
    assert meets(formula, others | shares(*within), base)
    assert not meets(formula, others | shares(*without), base)


def test_the_names_tell_which_comes_first_and_not_their_order_left_of_the_colon() -> None:
    turned = "the weight ratio of (B) to (A) is at least 2"
    _met(TEXTS["labels"], BOTH, turned, (20, 40, 5), (40, 20, 5))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a resin (A), a resin (B) and a filler", "the weight ratio of (A) to (B) is from 1:2 to 2:1"),
        ("an epoxy resin (A) and a filler", "the weight ratio of (A) to (B) is from 1:2 to 2:1"),
        ("an epoxy resin A and an amine hardener", "the weight ratio of A to B is from 1:2 to 2:1"),
    ],
)
def test_what_the_text_does_not_tell_is_not_read(text: str, words: str) -> None:
    _, told = read(text, BOTH, words)
    assert any(d.severity == "error" for d in told)


def test_part_of_a_name_is_told() -> None:
    text = "a novel resin (A), an amine hardener (B)"
    made, told = read(text, BOTH, "the weight ratio of (A) to (B) is from 1:2 to 2:1")
    assert made is not None
    (warning,) = (d.message for d in told if "is read with" in d.message)
    assert "A as epoxy resin" in warning


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        ("hardness  number", "hardness", "a Shore A hardness of 60 to 90"),
        (
            "vitamin C, vitamin E  mass in mg",
            "vitamin C, vitamin E",
            "a ratio of vitamin C to vitamin E of 2",
        ),
        ("A, B  mass in mg", "A, B", "a ratio of A to B of 2"),
    ],
)
def test_letters_that_are_no_items(declared: str, left: str, words: str) -> None:
    made, told = read_sheet(
        Source("test", f"{declared}\n\n1. A thing with {words}.\n   | {left} : {words}\n")
    )
    assert made is not None
    assert not any("is read with" in d.message for d in told)


def test_the_letter_before_an_item_itself() -> None:
    words = "(A) 20 to 60 wt% of an epoxy resin"
    made, told = read_sheet(
        Source(
            "test", f"{DECLARED}\n1. A glue comprising {words}; (B) a filler.\n   | epoxy resin : {words}\n"
        )
    )
    assert made is not None, [d.message for d in told]
    formula, base = made.claims[0].limitations[0].formula, base_construction(made)
    others = {d.name: Fraction(0) for d in made.declarations}
    assert meets(formula, others | shares(60, 30, 5), base)
    assert not meets(formula, others | shares(61, 30, 5), base)
