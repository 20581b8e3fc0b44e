"""Ordinary words of claims, each held against plain arithmetic written beside it, as presumed."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import product

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, on_the_wrong_side, sheet

DECLARED = """gap, rim, height   length in mm, >= 0
oil, gum   share in wt%
holes, ribs   count
bath, room   temperature in degC
delay   duration in s
metal   any of copper, zinc, steel
"""
SCALES = {
    **dict.fromkeys(("gap", "rim", "height"), (Fraction(1, 1000), Fraction(0))),
    **dict.fromkeys(("oil", "gum"), (Fraction(1, 100), Fraction(0))),
    **dict.fromkeys(("holes", "ribs", "delay"), (Fraction(1), Fraction(0))),
    **dict.fromkeys(("bath", "room"), (Fraction(1), Fraction(27315, 100))),
}
VALUES = {
    "delay": (0, 599, 600, 1800, 3599, 3600, 5399, 5400, 5401, 7200, 9000),
    "holes": (0, 1, 2, 3, 4, 5, 6, 7, 12, 13, 23, 24, 25),
    "bath": (0, 5, 10, 15, 17, 18, 20, 22, 23, 30),
}
USUAL = (0, 1, 2, 3, 4, 5, 6, 8, 10, 15)
Met = Callable[..., bool | None]
"""What is asked of the numbers, in the units of the sheet; None or 0: nothing, as of a share of 0."""

WORDS: list[tuple[str, str, Met]] = [
    # of two limits from both sides a 'not' denies the first alone
    ("gap", "not less than 4 mm and less than 6 mm", lambda x: 4 <= x < 6),
    ("gap", "not less than 4 mm, but less than 6 mm", lambda x: 4 <= x < 6),
    ("gap", "not more than 6 mm and more than 4 mm", lambda x: 4 < x <= 6),
    ("gap", "not above 6 mm but above 4 mm", lambda x: 4 < x <= 6),
    # so many per another
    ("holes, ribs", "two to four holes per rib", lambda x, y: 2 * y <= x <= 4 * y if y else None),
    ("holes, ribs", "at most two holes for each rib", lambda x, y: x <= 2 * y if y else None),
    ("holes, ribs", "not as many holes as ribs", lambda x, y: x < y),
    ("holes, ribs", "more than twice as many holes as ribs", lambda x, y: x > 2 * y if y else None),
    ("holes, ribs", "two to three times as many holes as ribs", lambda x, y: y and 2 * y <= x <= 3 * y),
    # a range of which an end is a multiple
    ("gap, rim", "from 1 mm to half the rim", lambda x, y: 1 <= x <= y / 2 if y > 2 else None),
    ("gap, rim, height", "from the rim to half the height", lambda x, y, z: y <= x <= z / 2),
    ("gap, rim", "half the rim ± 20 %", lambda x, y: abs(x - y / 2) * 5 <= y / 2 if y else None),
    ("gap, rim", "at least triple the rim", lambda x, y: x >= 3 * y),
    # numbers
    ("holes", "even or divisible by 3", lambda x: x % 2 == 0 or x % 3 == 0),
    ("holes", "divisible by 4 or by 6", lambda x: x % 4 == 0 or x % 6 == 0),
    ("holes", "divisible by 4 and by 6", lambda x: x % 12 == 0),
    ("holes", "4, 6 or 12 holes but not 6 holes", lambda x: x in (4, 12)),
    ("gap", "at least 8 mm or at least 2 mm but at most 3 mm", lambda x: x >= 8 or 2 <= x <= 3),
    ("delay", "at least 1.8 thousand s", lambda x: x >= 1800),
    ("delay", "2 to 7 thousand s", lambda x: 2000 <= x <= 7000),
    ("holes", "a number of holes that is odd", lambda x: x % 2 == 1),
    ("holes", "an odd number of holes greater than 4", lambda x: x % 2 == 1 and x > 4),
    # tolerances and ends
    ("gap", "6 mm with a tolerance of +2/-1 mm", lambda x: 5 <= x <= 8),
    ("gap", "6 mm, the tolerance being ± 2 mm", lambda x: 4 <= x <= 8),
    ("gap", "strictly less than 5 mm", lambda x: x < 5),
    ("gap", "comprised between 3 mm and 8 mm, limits included", lambda x: 3 <= x <= 8),
    ("gap", "from 3 mm through 8 mm, exclusive of the end points", lambda x: 3 < x < 8),
    ("gap", "ranging from 3 mm up to, but not including, 8 mm", lambda x: 3 <= x < 8),
    ("gap", "exceeds 3 mm without exceeding 8 mm", lambda x: 3 < x <= 8),
    ("gap", "3 mm minimum, 8 mm maximum", lambda x: 3 <= x <= 8),
    ("bath", "from minus 5 °C to plus 20 °C", lambda x: -5 <= x <= 20),
    ("gap", "in excess of 3 mm up to a maximum of 8 mm", lambda x: 3 < x <= 8),
    # the claim's own formulas
    ("gap", "2 mm ≤ gap < 5 mm", lambda x: 2 <= x < 5),
    ("gap", "2 mm < d ≤ 5 mm", lambda x: 2 < x <= 5),
    ("gap", "gap > 5 mm", lambda x: x > 5),
    ("gap, rim", "0.5 < gap/rim ≤ 2", lambda x, y: y < 2 * x and x <= 2 * y if y else None),
    # words round a limit
    ("gap", "a length selected among 3 mm, 5 mm and 8 mm", lambda x: x in (3, 5, 8)),
    ("gap", "does not fall short of 3 mm and is limited to a maximum of 8 mm", lambda x: 3 <= x <= 8),
    ("delay", "within not more than 10 minutes", lambda x: x <= 600),
    ("delay", "every 600 s to 1800 s", lambda x: 600 <= x <= 1800),
    ("bath", "kept at 5 to 15 °C", lambda x: 5 <= x <= 15),
    ("bath, room", "falls below the room by more than 5 K", lambda x, y: y - x > 5),
    ("gap, rim", "less than half that of the rim", lambda x, y: 2 * x < y),
    ("oil, gum", "oil/gum is at least 2", lambda x, y: x >= 2 * y if y else None),
    ("holes", "at least two metering holes", lambda x: x >= 2),
    ("gap, rim", "gap and rim are identical", lambda x, y: x == y),
    ("oil", "2 to 5 wt%, if any", lambda x: x == 0 or 2 <= x <= 5),
    # ends and tolerances
    ("gap", "5 mm at the most", lambda x: x <= 5),
    ("gap", "5 mm at the least", lambda x: x >= 5),
    ("gap", "5 mm max.", lambda x: x <= 5),
    ("gap", "a lower limit of 5 mm", lambda x: x >= 5),
    ("gap", "in a range with a lower limit of 5 mm and an upper limit of 10 mm", lambda x: 5 <= x <= 10),
    ("gap", "5 to 10 mm, excluding the end values", lambda x: 5 < x < 10),
    ("gap", "between 5 and 10 mm, both end points included", lambda x: 5 <= x <= 10),
    ("gap", "6 mm with a tolerance of ± 2 mm", lambda x: 4 <= x <= 8),
    ("gap", "6 (+2, -1) mm", lambda x: 5 <= x <= 8),
    ("bath", "20 °C (± 2 K)", lambda x: 18 <= x <= 22),
    ("gap, rim", "equal to the rim ± 2 mm", lambda x, y: abs(x - y) <= 2),
    ("holes", "two dozen or more", lambda x: x >= 24),
    ("holes", "half a dozen to a dozen", lambda x: 6 <= x <= 12),
    ("delay", "an hour and a half", lambda x: x == 5400),
    ("delay", "at least two hours and a half", lambda x: x >= 9000),
    ("oil", "5 % or more by weight", lambda x: x >= 5),
    ("oil", "5 % or more by weight and 10 % or less by weight", lambda x: 5 <= x <= 10),
    ("gap", "from 3 to 8, preferably 4 to 6, mm", lambda x: 3 <= x <= 8 if x < 4 or x > 6 else None),
    ("oil", "greater than 0 to 5 wt%", lambda x: 0 < x <= 5),
    ("holes", "an array of at least 4 holes", lambda x: x >= 4),
    ("holes", "multiples of four", lambda x: x % 4 == 0 and x > 0),
    ("gap", "not less than 2 mm or more than 8 mm", lambda x: 2 <= x <= 8),
    ("gap", "at least 2 mm, preferably at least 4 mm, and at most 8 mm",
     lambda x: 2 <= x <= 8 if x < 4 else None),
    ("gap", "at least 2 mm, at most 8 mm", lambda x: 2 <= x <= 8),
    ("gap, rim", "50 % of the rim or more", lambda x, y: x >= y / 2 if y else None),
    ("holes", "a dozen holes or more", lambda x: x >= 12),
    ("holes", "not 2 or 3", lambda x: x not in (2, 3)),
    ("holes", "one to two dozen holes", lambda x: 12 <= x <= 24),
    ("delay", "1:30 h or more", lambda x: x >= 5400),
    # beside another quantity
    ("gap, rim", "ratio of the gap to the rim is at least 0.5 but less than 2",
     lambda x, y: y and y / 2 <= x < 2 * y),
    ("gap, rim", "a ratio of the gap to the rim of more than 2 but not more than 5",
     lambda x, y: y and 2 * y < x <= 5 * y),
    ("gap, rim", "5 mm or 50 % of the rim, whichever is greater", lambda x, y: x == max(5, y / 2)),
    ("gap, rim", "at least 5 mm or 50 % of the rim, whichever is greater", lambda x, y: x >= max(5, y / 2)),
    ("gap, rim", "at most 5 mm or half of the rim, whichever is the smaller",
     lambda x, y: x <= min(5, y / 2)),
    ("gap, rim", "at least 5 mm or at least 80 % of the rim",
     lambda x, y: x >= 5 or x >= y * 4 / 5 if y else None),
    ("gap, rim", "at least 5 mm or at least twice the rim", lambda x, y: x >= 5 or x >= 2 * y),
    ("gap, rim", "less than 2 mm or more than the rim", lambda x, y: x < 2 or x > y),
    ("gap, rim, height", "at least the rim but not more than half the height",
     lambda x, y, z: z and y <= x <= z / 2),
    ("gap, rim", "at least 1.5 times the rim plus 2 mm", lambda x, y: x >= y * 3 / 2 + 2),
    ("gap, rim", "does not exceed the rim by more than 2 mm", lambda x, y: x - y <= 2),
    ("gap, rim", "does not differ from the rim by more than 2 mm", lambda x, y: abs(x - y) <= 2),
    ("gap, rim", "exceeds the rim by 10 % or more", lambda x, y: x >= y * 11 / 10),
    ("gap, rim", "exceeds the rim by 2 mm or more but by less than 5 mm", lambda x, y: 2 <= x - y < 5),
    ("gap, rim, holes", "at least the rim times the number of holes", lambda x, y, z: x >= y * z),
    ("gap, rim, holes", "at most the rim multiplied by the number of holes", lambda x, y, z: x <= y * z),
    # counts
    ("holes, ribs", "one more hole than ribs", lambda x, y: x == y + 1),
    ("holes, ribs", "at least two more holes than ribs", lambda x, y: x >= y + 2),
    ("holes, ribs", "the number of holes exceeds the number of ribs by one", lambda x, y: x == y + 1),
    ("holes, ribs", "half as many holes as ribs", lambda x, y: 2 * x == y),
    ("holes, ribs", "three times as many holes as ribs", lambda x, y: x == 3 * y),
    ("holes, ribs", "at least twice as many holes as ribs", lambda x, y: x >= 2 * y),
    ("holes, ribs", "two holes per rib", lambda x, y: x == 2 * y),
    ("holes, ribs", "at least two holes for each rib", lambda x, y: x >= 2 * y),
    ("holes, ribs", "at least 50 % more holes than ribs", lambda x, y: x >= y * 3 / 2 if y else None),
    # several things
    ("oil, gum", "free of oil or gum", lambda x, y: x == y == 0),
    ("oil, gum", "at least 2 wt% of oil and at least 5 wt% of oil and gum in total",
     lambda x, y: x >= 2 and x + y >= 5),
    ("gap, rim, height", "at least two of the gap, the rim and the height are at least 5 mm",
     lambda *x: sum(v >= 5 for v in x) >= 2),
    ("gap, rim, height", "at most one of the gap, the rim, and the height is at least 5 mm",
     lambda *x: sum(v >= 5 for v in x) <= 1),
    ("gap, rim, height", "only one of the gap, the rim and the height is at least 5 mm",
     lambda *x: sum(v >= 5 for v in x) == 1),
    ("gap, rim, height", "at least one of the gap, the rim or the height is at least 5 mm",
     lambda *x: any(v >= 5 for v in x)),
    ("gap, rim", "the gap or the rim, but not both, is at least 5 mm", lambda x, y: (x >= 5) != (y >= 5)),
    ("gap, rim", "either the gap is at least 5 mm or the rim is at least 3 mm",
     lambda x, y: x >= 5 or y >= 3),
    ("gap, rim", "the gap is at least 5 mm and/or the rim is at least 3 mm", lambda x, y: x >= 5 or y >= 3),
    ("gap, rim, height", "each of the gap and the rim is less than half the height",
     lambda x, y, z: x < z / 2 and y < z / 2),
    ("holes, ribs", "at least four holes or at least six ribs", lambda x, y: x >= 4 or y >= 6),
    ("oil, gum", "at most 3 wt% of oil or at most 6 wt% of gum", lambda x, y: x <= 3 or y <= 6),
    ("oil, gum", "1 to 3 wt% of oil or 4 to 6 wt% of gum", lambda x, y: 1 <= x <= 3 or 4 <= y <= 6),
    ("oil, gum", "2 to 5 wt% of oil and/or gum", lambda x, y: 2 <= x + y <= 5),
    ("oil, gum", "at most 5 wt% of oil or gum", lambda x, y: x + y <= 5),
    (
        "gap, rim, height",
        "none of the gap, the rim and the height exceeds 5 mm",
        lambda *x: all(v <= 5 for v in x),
    ),
    ("oil, gum", "5 to 10 wt% of each of oil and gum", lambda x, y: 5 <= x <= 10 and 5 <= y <= 10),
    # under a condition
    ("gap, rim", "if the rim is at least 10 mm, the gap is at most 3 mm, and otherwise at most 5 mm",
     lambda x, y: x <= (3 if y >= 10 else 5)),
    ("gap, rim", "at most 5 mm, unless the rim is at least 10 mm, in which case not more than 8 mm",
     lambda x, y: x <= (8 if y >= 10 else 5)),
]  # fmt: skip


@pytest.mark.parametrize(("left", "words", "asked"), WORDS)
def test_what_is_met_is_what_the_words_say(left: str, words: str, asked: Met) -> None:
    made = sheet(f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    names = left.split(", ")
    values = [Fraction(v) for v in VALUES.get(left, USUAL)]
    outcomes = set()
    for numbers in product(values, repeat=len(names)):
        expected = asked(*numbers)
        if expected is None or (isinstance(expected, Fraction) and not expected):
            continue
        outcomes.add(expected)
        thing = {n: v * SCALES[n][0] + SCALES[n][1] for n, v in zip(names, numbers, strict=True)}
        assert evaluate(formula, thing, k) is expected, numbers
    assert outcomes == {True, False}


ROUNDED = ("in total, rounded", "each that is there, rounded")


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("2 to 5 wt% of oil and/or gum", ["in total", "each that is there", "one or both", *ROUNDED]),
        ("at least 2 wt% of oil or gum", ["in total", "each that is there", "one or both", *ROUNDED]),
        (
            "up to 2 wt% of oil and/or gum",
            ["in total", "each that is there", "in total, some present", "one or both", *ROUNDED],
        ),
    ],
)
def test_an_amount_of_one_or_the_other_is_read_in_total_and_of_each(words: str, labels: list[str]) -> None:
    made = sheet(f"{DECLARED}\n1. A thing with {words}.\n   | oil, gum : {words}\n")
    (group,) = made.groups
    assert [r.label for r in group.readings] == labels


@pytest.mark.parametrize(
    ("words", "met", "missed"),
    [
        ("at least one of copper and zinc, but not both", "copper", "copper, zinc"),
        ("any metal other than zinc", "copper", "zinc"),
        ("copper, optionally together with zinc", "copper", "steel"),
        ("a metal not selected from the group consisting of copper and zinc", "steel", "copper, steel"),
        ("not selected from copper and zinc", "steel", "copper, zinc"),
    ],
)
def test_members_let_in_and_kept_out(words: str, met: str, missed: str) -> None:
    made = sheet(f"{DECLARED}\n1. A thing of {words}.\n   | metal : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    assert evaluate(formula, {"metal": frozenset(met.split(", "))}, k) is True
    assert evaluate(formula, {"metal": frozenset(missed.split(", "))}, k) is False


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("holes, ribs", "at least four holes or six ribs"),
        ("gap", "at least 5 mm or 8 mm"),
        ("gap", "at least 5 mm or twice the rim"),
        ("gap", "less than 5 mm and 20 % of the rim"),
        ("gap", "not more than 5 mm or more than 2 mm"),
        ("gap", "less than 2 mm or more than 5 mm greater than the rim"),
        ("gap", "at least 10 % more than half the rim"),
        ("gap, rim", "at least 2 mm, or at least 4 mm if the rim is more than 8 mm"),
        ("holes", "divisible by 2 or 3"),
        ("holes", "at least two more than twice the number of ribs"),
        ("oil, gum", "between 2 and 5 wt% of oil and gum"),
        ("holes, ribs", "one or more holes than ribs"),
        ("holes", "not divisible by 2 or by 3"),
        ("gap", "not less than 4 mm and more than 6 mm"),
        ("oil, gum", "at least 2 wt% of oil and a gum"),
        ("oil", "the oil phase is at least 5 wt%"),
        ("gap", "2 mm < rim < 5 mm"),
        ("gap, rim", "the rim and the gap being 2 mm and 4 mm, respectively"),
        ("holes", "a third hole"),
        ("holes", "a plurality of holes that number six"),
        # not larger than that one, or of another size?
        ("gap", "larger than the rim but not the height"),
        ("gap", "no longer than the rim and not the height"),
        ("gap", "at least as long as the rim but not the height"),
        # half of either, or of the first alone?
        ("gap", "at least 50 % of the rim or the height, whichever is larger"),
        ("gap", "twice the rim or the height, whichever is larger"),
    ],
)
def test_limits_that_may_share_their_words_are_not_guessed(left: str, words: str) -> None:
    assert errors(f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    ("left", "words", "met"),
    [
        ("open, locked", "the valve is open and not locked", {("yes", "no")}),
        ("locked, open", "the valve is open and not locked", {("yes", "no")}),
        ("open, locked", "not open and not locked", {("no", "no")}),
        ("open, locked", "open and locked", {("yes", "yes")}),
    ],
)
def test_two_states_are_each_of_its_own(left: str, words: str, met: set[tuple[str, str]]) -> None:
    made = sheet(f"open, locked   one of only yes, no\n\n1. A valve: {words}.\n   | {left} : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    states = product(("yes", "no"), repeat=2)
    assert {s for s in states if evaluate(formula, dict(zip(("open", "locked"), s, strict=True)), k)} == met


@pytest.mark.parametrize(
    ("name", "words", "so"),
    [
        ("valve open", "the valve is open", True),
        ("valve open", "is closed", False),
        ("locked", "is locked", True),
        ("locked", "is unlocked", False),
        ("dimmed", "is dimmed", True),
        ("dimmed", "is not dimmed", False),
        ("hollow", "is hollow", True),
        ("hollow", "is not hollow", False),
    ],
)
def test_what_is_yes_or_no_may_be_said_in_words(name: str, words: str, so: bool) -> None:
    made = sheet(f"{name}   one of only yes, no\n\n1. A thing: {words}.\n   | {name} : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    assert [evaluate(formula, {name: said}, k) for said in ("yes", "no")] == [so, not so]


def test_a_name_that_tells_no_state_is_not_taken_for_one() -> None:
    assert errors("lid   one of only yes, no\n\n1. A thing with the lid.\n   | lid : with the lid\n")


@pytest.mark.parametrize(
    "before",
    [
        "A glaze comprising, by weight:",
        "A glaze comprising, in percent by weight:",
        "A glaze comprising (in wt%):",
        "A glaze comprising, in weight percent:",
        "A glaze, all percentages being by weight, comprising",
        "A glaze comprising, in percent by weight based on the total weight of the glaze:",
        "A glaze comprising, by weight based on the whole glaze:",
        "A glaze comprising, based on the total weight of the glaze,",
        "A glaze with the following, the percentages given being by weight:",
        "A glaze consisting essentially of, by weight,",
        "A glaze comprising (by weight)",
        "A glaze, where % means % by weight, comprising",
        "A glaze, all percentages being expressed on a weight basis, comprising",
    ],
)
def test_a_basis_said_once_holds_for_the_bare_percentages_of_the_claim(before: str) -> None:
    lines = "\n   | oil : 40 to 70%\n   | gum : up to 30% gum\n"
    text = f"{DECLARED}\n1. {before} 40 to 70% oil, and up to 30% gum.{lines}"
    made = sheet(f"{text}\n2. The glaze of claim 1, comprising 45 to 60% oil.\n   | oil : 45 to 60%\n")
    k = base_construction(made)
    met = [
        [
            evaluate(claim.limitations[0].formula, {"oil": Fraction(v, 100)}, k)
            for v in (39, 40, 44, 45, 60, 61, 70, 71)
        ]
        for claim in made.claims
    ]
    assert met == [
        [False, True, True, True, True, True, True, False],
        [False, False, False, True, True, False, False, False],
    ]


@pytest.mark.parametrize(
    "before",
    [
        "A glaze comprising",
        "A glaze comprising 5 % by weight: of ash and",
        "A glaze comprising 5 % by weight of ash, based on the total weight of the glaze, and",
    ],
)
def test_without_one_basis_a_bare_percentage_is_told(before: str) -> None:
    text = f"{DECLARED}\n1. {before} 40 to 70% oil.\n   | oil : 40 to 70%\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None
    assert any("percent of what: read as wt%" in d.message for d in found)


@pytest.mark.parametrize("basis", ["by volume", "by weight, or by volume"])
def test_on_another_basis_than_declared_a_bare_percentage_is_refused(basis: str) -> None:
    text = f"{DECLARED}\n1. A glaze comprising, {basis}: 40 to 70% oil.\n   | oil : 40 to 70%\n"
    assert any("share on no basis" in d.message for d in errors(text))


@pytest.mark.parametrize(
    ("words", "none_of_it"),
    [
        ("optionally up to 5 wt% of an oil selected from the group consisting of copper and zinc", True),
        ("up to 5 wt% of at least one oil selected from copper and zinc", True),
        ("1 to 5 wt% of an oil, the oil being selected from copper and zinc", False),
        ("1 wt% or more of one or more oils selected from copper and zinc", False),
    ],
)
def test_of_what_is_not_there_nothing_is_selected(words: str, none_of_it: bool) -> None:
    made = sheet(f"{DECLARED}\n1. A thing with {words}.\n   | oil, metal : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    things = [(0, ""), (0, "steel"), (3, "copper"), (3, "steel"), (3, "")]
    met = [evaluate(formula, {"oil": Fraction(v, 100), "metal": frozenset(m.split())}, k) for v, m in things]
    assert met == [none_of_it, none_of_it, True, False, False]


def test_what_is_read_past_beside_a_name_is_told() -> None:
    words = "at least two metering holes"
    _, found = read_sheet(Source("t", f"holes  count\n\n1. A valve with {words}.\n   | holes : {words}\n"))
    assert [(d.severity, d.message) for d in found] == [("warning", "'metering' is read past")]


@pytest.mark.parametrize(
    ("note", "told"), [("metering holes", []), ("of a metering edge", ["'metering' is read past"])]
)
def test_what_a_note_calls_them_is_no_news(note: str, told: list[str]) -> None:
    words = "two to four metering holes"
    text = f'holes  count  "{note}"\n\n1. A valve with {words}.\n   | holes : {words}\n'
    made, found = read_sheet(Source("t", text))
    assert made is not None
    assert [d.message for d in found] == told
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    assert [n for n in range(7) if evaluate(formula, {"holes": Fraction(n)}, k)] == [2, 3, 4]


def test_what_has_the_things_is_read_past_and_told() -> None:
    words = "each flange having from 14 to 18 spoke holes"
    text = f"left holes, right holes  count\n\n1. A hub, {words}.\n   | left holes, right holes : {words}\n"
    made, found = read_sheet(Source("t", text))
    assert made is not None
    assert [d.message for d in found] == ["'flange' is read past", "'spoke' is read past"]
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    for left, right, met in ((14, 18, True), (13, 18, False), (14, 19, False)):
        assert evaluate(formula, {"left holes": Fraction(left), "right holes": Fraction(right)}, k) is met


@pytest.mark.parametrize(
    ("words", "forbidden"),
    [
        ("14 mm with a deviation that stays below +0.02/-0.05 mm", "not restated"),
        ("12.5 mm apart at the closest", "not restated"),
        ("at most one nineteenth", "lift only"),
    ],
)
def test_no_help_throws_a_limit_away(words: str, forbidden: str) -> None:
    made, found = read_sheet(Source("t", f"gap  length in mm\n\n1. A pin, {words}.\n   | gap : {words}\n"))
    assert made is None
    assert all(forbidden not in d.help for d in found)


def test_a_number_cut_out_of_a_greater_one_is_told() -> None:
    text = "pixels  count\n\n1. A picture with at least 2 million pixels.\n   | pixels : at least 2\n"
    assert [item.words for item in sheet(text).unrestated] == ["million"]


@pytest.mark.parametrize(
    ("words", "met", "missed"),
    [
        ("not copper together with zinc", "copper", "copper, zinc"),
        ("at most two selected from copper, zinc and steel", "copper, zinc", "copper, zinc, steel"),
        ("one or two metals selected from copper, zinc and steel", "copper, zinc", "copper, zinc, steel"),
        ("one or more selected from copper, zinc and combinations thereof", "copper, zinc", "steel"),
        ("excludes any zinc", "copper", "copper, zinc"),
        ("consists of copper or zinc", "zinc", "steel"),
    ],
)
def test_more_words_of_lists(words: str, met: str, missed: str) -> None:
    made = sheet(f"{DECLARED}\n1. A thing, {words}.\n   | metal : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    assert evaluate(formula, {"metal": frozenset(met.split(", "))}, k) is True
    assert evaluate(formula, {"metal": frozenset(missed.split(", "))}, k) is False


@pytest.mark.parametrize(
    ("words", "outer", "inner"),
    [
        ("at least 2 mm, preferably at most 8 mm", (2, 15), (2, 8)),
        ("at least 2 mm, optionally at most 8 mm", (2, 15), (2, 8)),
        ("at least 2 mm and optionally 4 mm to 8 mm", (2, 15), (4, 8)),
        ("3 mm or more, optionally 5 mm or more", (3, 15), (5, 15)),
    ],
)
def test_what_is_optional_narrows_or_does_not(
    words: str, outer: tuple[int, int], inner: tuple[int, int]
) -> None:
    made = sheet(f"{DECLARED}\n1. A thing with a gap of {words}.\n   | gap : {words}\n")
    (g,) = (i for i, group in enumerate(made.groups) if "outer limit" in [r.label for r in group.readings])
    formula = made.claims[0].limitations[0].formula
    for r, reading in enumerate(made.groups[g].readings):
        k = base_construction(made).with_reading(g, r)
        met = [x for x in range(16) if evaluate(formula, {"gap": Fraction(x, 1000)}, k)]
        low, high = outer if reading.label == "outer limit" else inner
        assert met == list(range(low, high + 1))


@pytest.mark.parametrize(
    "words",
    [
        "the absolute value of the stress is at most 3 MPa",
        "an absolute value of the residual stress is not greater than 3 MPa",
        "the magnitude of the stress being 3 MPa or less",
    ],
)
def test_absolute_values(words: str) -> None:
    made = sheet(f"stress  in MPa\n\n1. A film, wherein {words}.\n   | stress : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    met = [x for x in range(-6, 7) if evaluate(formula, {"stress": Fraction(x * 10**6)}, k)]
    assert met == [-3, -2, -1, 0, 1, 2, 3]


def test_a_temperature_has_no_absolute_value() -> None:
    words = "the absolute value of the bath is at most 3 °C"
    (error,) = errors(f"{DECLARED}\n1. A thing, wherein {words}.\n   | bath : {words}\n")
    assert "no phrase reads" in error.message


RIM = "gap, rim  length in mm"
PAIR = "A, B  length in mm"
MELT = "top, melt  temperature in degC"
OIL = "oil, wax  share in wt%"
PORES = "pore share  share in vol%"
SLIP = "blend  composition in wt%\n  polymer, amide, acid"
DRUGS = "opioid, analgesic  mass in mg"
PAUSE = "interval  time in d"


@pytest.mark.parametrize(
    ("declared", "left", "words", "within", "outside"),
    [
        (RIM, "gap, rim", "as large as the rim", "gap = 5 mm, rim = 5 mm", "gap = 6 mm, rim = 5 mm"),
        (RIM, "gap, rim", "up to twice as large as the rim", "gap = 10 mm, rim = 5 mm",
         "gap = 11 mm, rim = 5 mm"),
        (RIM, "gap, rim", "up to three times as wide as the rim", "gap = 15 mm, rim = 5 mm",
         "gap = 16 mm, rim = 5 mm"),
        (RIM, "gap, rim", "up to half as large as the rim", "gap = 5 mm, rim = 10 mm",
         "gap = 6 mm, rim = 10 mm"),
        (RIM, "gap, rim", "2 mm to half of the rim", "gap = 2 mm, rim = 4 mm", "gap = 1 mm, rim = 4 mm"),
        (RIM, "gap, rim", "2 mm up to a third of the rim", "gap = 3 mm, rim = 9 mm",
         "gap = 4 mm, rim = 9 mm"),
        (PAIR, "A, B", "one of A and B is at least twice the other", "A = 2 mm, B = 4 mm",
         "A = 3 mm, B = 4 mm"),
        (PAIR, "A, B", "one of A and B is at least twice the other", "A = 4 mm, B = 2 mm",
         "A = 4 mm, B = 3 mm"),
        (PAIR, "A, B", "the longer of A and B is at least three times the other", "A = 2 mm, B = 6 mm",
         "A = 3 mm, B = 6 mm"),
        (MELT, "top, melt", "10 °C below the melt to 5 °C above the melt", "top = 95 degC, melt = 90 degC",
         "top = 79 degC, melt = 90 degC"),
        (MELT, "top, melt", "10 °C below to 5 °C above the melt", "top = 80 degC, melt = 90 degC",
         "top = 96 degC, melt = 90 degC"),
        (OIL, "oil", "excluding a cleaner with 8 wt% of the oil", "oil = 7 wt%", "oil = 8 wt%"),
        (OIL, "oil", "excluding cleaners with 3 to 5 wt% of the oil", "oil = 6 wt%", "oil = 4 wt%"),
        (OIL, "oil", "1 to 10 wt%, excluding a cleaner with 8 wt% of the oil", "oil = 9 wt%", "oil = 8 wt%"),
        (OIL, "oil", "not more than 5 wt% (including 0 wt%) of an oil", "oil = 0 wt%", "oil = 6 wt%"),
        (OIL, "oil", "5 wt% or less (excluding 0 wt%) of the oil", "oil = 5 wt%", "oil = 0 wt%"),
        (PORES, "pore share", "a volume fraction of not less than about 45 percent", "pore share = 45 vol%",
         "pore share = 30 vol%"),
        (PORES, "pore share", "a volume fraction of 20 to 45 %", "pore share = 20 vol%",
         "pore share = 46 vol%"),
        (OIL, "oil", "a mass fraction of about 45 percent", "oil = 45 wt%", "oil = 60 wt%"),
        (SLIP, "amide", "0.05 to 0.5 % by weight of at least one saturated fatty acid amide",
         "amide = 0.5 wt%, acid = 0 wt%", "amide = 1 wt%, acid = 0 wt%"),
        (DRUGS, "opioid, analgesic", "the ratio of the opioid to the analgesic is from 1:1 to about 1:5.7",
         "opioid = 1 mg, analgesic = 1 mg", "opioid = 2 mg, analgesic = 1 mg"),
        (DRUGS, "opioid, analgesic", "the ratio of the opioid to the analgesic is from 1:1 to about 1:5.7",
         "opioid = 10 mg, analgesic = 57 mg", "opioid = 10 mg, analgesic = 70 mg"),
        ("gap  length in mm", "gap", "at least substantially 5 mm", "gap = 5 mm", "gap = 3 mm"),
        ("gap  length in mm", "gap", "not more than substantially 5 mm", "gap = 5 mm", "gap = 7 mm"),
        ("gap  length in mm", "gap", "on the order of 1 to 5 mm", "gap = 1 mm", "gap = 8 mm"),
        ("heat  temperature in degC", "heat", "above at least 70 °C", "heat = 70 degC", "heat = 69 degC"),
        ("gap  length in mm", "gap", "below at most 5 mm", "gap = 5 mm", "gap = 6 mm"),
        ("viscosity  viscosity in mPa.s", "viscosity", "10 cps or less", "viscosity = 10 mPa.s",
         "viscosity = 11 mPa.s"),
        (PAUSE, "interval", "six months", "interval = 180 d", "interval = 150 d"),
        (PAUSE, "interval", "about six months", "interval = 180 d", "interval = 150 d"),
        (PAUSE, "interval", "about one year", "interval = 365 d", "interval = 300 d"),
        (PAUSE, "interval", "not more than about one year", "interval = 365 d", "interval = 400 d"),
        (PAUSE, "interval", "more than about 6 months", "interval = 181 d", "interval = 180 d"),
        (PAUSE, "interval", "about 2 to 3 years", "interval = 730 d", "interval = 1200 d"),
        ('age  number  "in months"', "age", "at least six months", "age = 6", "age = 5"),
        ("early  share in wt%", "early", "less than about 70% by weight at about 45 minutes",
         "early = 69 wt%",
         "early = 80 wt%"),
    ],
)  # fmt: skip
def test_everyday_forms_of_limits_are_read(
    declared: str, left: str, words: str, within: str, outside: str
) -> None:
    assert not on_the_wrong_side(declared, left, words, within, outside)


@pytest.mark.parametrize(
    ("declared", "left", "words"),
    [
        (RIM, "gap, rim", "nearly as large as the rim"),
        ("gap, rim, lip  length in mm", "gap, rim, lip", "as large as the rim or the lip"),
        (RIM, "gap, rim", "not 2 mm to half of the rim"),
        (RIM, "gap, rim", "more than 2 mm to half of the rim"),
        (RIM, "gap, rim", "2 mm to half of the rim or more"),
        (RIM, "gap, rim", "2 mm to half"),
        ("holes, ribs  count", "holes, ribs", "2 to half of the ribs"),
        (PAIR, "A, B", "one of A and B is at most twice the other"),
        (PAIR, "A, B", "one of A and B is not at least twice the other"),
        (PAIR, "A, B", "each of A and B is at least twice the other"),
        (MELT, "top, melt", "at least 10 °C below the melt to 5 °C above the melt"),
        (MELT, "top, melt", "not 10 °C below the melt to 5 °C above the melt"),
        (OIL, "oil", "excluding a cleaner with 8 wt% of the wax"),
        (OIL, "oil", "excluding a cleaner without 8 wt% of the oil"),
        (OIL, "oil", "excluding a cleaner with at least 8 wt% of the oil"),
        (OIL, "oil", "a volume fraction of at least 45 percent"),
        (PORES, "pore share", "a weight fraction of at least 45 %"),
        (PORES, "pore share", "a volume fraction of at least 0.45"),
        (SLIP, "amide", "0.05 to 0.5 % by weight of an acid and an amide"),
        ("rate  frequency in Hz", "rate", "at least 10 cps"),
        (PAUSE, "interval", "every six months"),
        (PAUSE, "interval", "nearly one year"),
        ("gap  length in mm", "gap", "at most 5 mm at about 45 °C or more"),
        ("gap  length in mm", "gap", "at most 5 mm at about 4 mm"),
    ],
)
def test_what_stands_close_to_these_forms_is_refused(declared: str, left: str, words: str) -> None:
    assert errors(f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")


@pytest.mark.parametrize(
    ("declared", "left", "words", "labels"),
    [
        ("heat  temperature in degC", "heat", "above at least 70 °C", ["end in", "strict"]),
        (PAUSE, "interval", "about six months",
         ["thirty days each", "a twelfth of a year each", "rounded to the month"]),
        (DRUGS, "opioid, analgesic", "the ratio of the opioid to the analgesic is from 1:1 to about 1:5.7",
         ["second end only, ends written downward", "rounding only, ends written downward"]),
    ],
)  # fmt: skip
def test_each_sense_of_these_forms_is_a_reading(
    declared: str, left: str, words: str, labels: list[str]
) -> None:
    made = sheet(f"profile  US court\n{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert set(labels) <= {r.label for g in made.groups for r in g.readings}


@pytest.mark.parametrize(
    ("said", "words", "unit"),
    [
        ("comprising, per litre,", "10 ± 8 mmol", "mmol/L"),
        ("comprising, per liter of solution:", "12 to 25 mmol", "mmol/L"),
        ("containing (per ml)", "12 to 25 mmol", ""),
        ("comprising, per litre of water,", "12 to 25 mmol", ""),
        ("comprising", "12 to 25 mmol", ""),
    ],
)
def test_in_what_all_amounts_are_may_be_said_once(said: str, words: str, unit: str) -> None:
    text = f"salt  concentration in mmol/L\n\n1. A solution {said} {words} of salt.\n   | salt : {words}\n"
    assert bool(errors(text)) == (not unit)
