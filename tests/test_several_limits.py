"""Several limits in one line, each of its own thing, and lists with more beside them."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

DECLARED = """
fat, oil     share in wt%
pins, lids   count
gap          length in mm
dye          any of only indigo, madder, weld
"""


def text(subjects: str, words: str) -> str:
    return f"{DECLARED}\n1. A thing, {words}.\n   | {subjects} : {words}\n"


def met(subjects: str, words: str, thing: dict[str, object]) -> bool | None:
    made = sheet(text(subjects, words))
    return evaluate(made.claims[0].limitations[0].formula, thing, base_construction(made))  # type: ignore[arg-type]


SHARES = [
    ("at most 5 wt% of fat and at most 3 wt% of oil", lambda fat, oil: fat <= 5 and oil <= 3),
    ("1 to 5 wt% of fat and at least 3 wt% of oil", lambda fat, oil: 1 <= fat <= 5 and oil >= 3),
    ("at most 5 wt% and 3 wt%, respectively", lambda fat, oil: fat <= 5 and oil <= 3),
    ("at most 5 wt% and at least 3 wt%, respectively", lambda fat, oil: fat <= 5 and oil >= 3),
    ("more than 1 wt% and 1 to 5 wt%, respectively", lambda fat, oil: fat > 1 and 1 <= oil <= 5),
]


@pytest.mark.parametrize(("words", "asked"), SHARES)
def test_each_share_has_the_limit_that_names_it(words: str, asked: object) -> None:
    for fat, oil in product((0, 1, 3, 5, 6), repeat=2):
        thing = {"fat": Fraction(fat, 100), "oil": Fraction(oil, 100)}
        assert met("fat, oil", words, thing) is asked(fat, oil), (words, fat, oil)  # type: ignore[operator]


COUNTS = [
    ("at least three pins and two lids", lambda pins, lids: pins >= 3 and lids >= 2),
    ("at most three pins and two lids", lambda pins, lids: pins <= 3 and lids >= 2),
    ("more than two pins and one lid", lambda pins, lids: pins > 2 and lids >= 1),
    ("two pins and a lid", lambda pins, lids: pins >= 2 and lids >= 1),
    ("at least three pins and lids", lambda pins, lids: pins >= 3 and lids >= 3),
]


@pytest.mark.parametrize(("words", "asked"), COUNTS)
def test_each_count_has_its_own_number(words: str, asked: object) -> None:
    for pins, lids in product(range(5), repeat=2):
        thing = {"pins": Fraction(pins), "lids": Fraction(lids)}
        assert met("pins, lids", words, thing) is asked(pins, lids), (words, pins, lids)  # type: ignore[operator]


LISTS = [
    ("at least one of indigo and madder but not weld", {"indigo", "madder"}, {"weld"}),
    ("at least one of indigo and madder without weld", {"indigo", "madder"}, {"weld"}),
    ("at least one of indigo and madder and free of weld", {"indigo", "madder"}, {"weld"}),
]


@pytest.mark.parametrize(("words", "one_of", "none_of"), LISTS)
def test_what_is_left_out_behind_a_choice_parts_no_list(
    words: str, one_of: set[str], none_of: set[str]
) -> None:
    names = ("indigo", "madder", "weld")
    for there in product((False, True), repeat=3):
        dye = frozenset(n for n, yes in zip(names, there, strict=True) if yes)
        expected = bool(dye & one_of) and not dye & none_of
        assert met("dye", words, {"dye": dye}) is expected, (words, dye)


@pytest.mark.parametrize("beside", ["together with", "in combination with"])
def test_what_stands_beside_a_choice_is_no_further_alternative(beside: str) -> None:
    words = f"at least one of indigo and madder {beside} weld"
    assert met("dye", words, {"dye": frozenset(("indigo", "weld"))}) is True
    assert met("dye", words, {"dye": frozenset(("weld",))}) is False
    assert met("dye", words, {"dye": frozenset(("indigo",))}) is False


@pytest.mark.parametrize("words", ["no burrs", "no two gaps alike"])
def test_no_with_other_words_says_nothing_of_a_length(words: str) -> None:
    assert errors(text("gap", words))
    assert not errors(text("gap", "no gap"))


@pytest.mark.parametrize(
    ("words", "label", "inside", "outside"),
    [
        ("indigo and optionally madder", "these and nothing else", ["i", "im"], ["m", "iw", "imw"]),
        ("consisting of indigo and optionally madder", "closed", ["i", "im"], ["m", "iw", "imw"]),
        ("consisting of indigo and madder and free of weld", "closed", ["im"], ["i", "m", "imw"]),
    ],
)
def test_what_is_closed_is_not_closed_against_what_the_line_names(
    words: str, label: str, inside: list[str], outside: list[str]
) -> None:
    made = sheet(text("dye", words))
    group = next(g for g in made.groups if label in [r.label for r in g.readings])
    k = base_construction(made).with_reading(group.index, [r.label for r in group.readings].index(label))
    formula = made.claims[0].limitations[0].formula
    for letters, expected in [*((s, True) for s in inside), *((s, False) for s in outside)]:
        dye = frozenset(n for n in ("indigo", "madder", "weld") if n[0] in letters)
        assert evaluate(formula, {"dye": dye}, k) is expected, (words, letters)
