"""Claim words, put together at random, held against plain arithmetic written beside each of them.

What nothing reads is no mistake here: what is read must be met, as presumed, by the same things.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from fractions import Fraction

import pytest

from scopecheck.core.construction import base_construction
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.evaluate import evaluate
from tests.sheets import errors, sheet

DECLARED = "gap, rim   length in mm, >= 0\noil, gum   share in wt%\npins, lids  count\n"
VALUES = [Fraction(n) for n in (0, 1, 2, 3, 4, 5, 6, 8, 10)]
Limit = tuple[str, Callable[[Fraction], bool]]
Said = tuple[str, str, Callable[[Fraction, Fraction], bool]]


def limits(low: int, high: int, unit: str) -> list[Limit]:
    """Limits in words, and which values they let in."""
    return [
        (f"at least {low}{unit}", lambda x: x >= low),
        (f"not less than {low}{unit}", lambda x: x >= low),
        (f"no less than {low}{unit}", lambda x: x >= low),
        (f"{low}{unit} or more", lambda x: x >= low),
        (f"at most {high}{unit}", lambda x: x <= high),
        (f"not more than {high}{unit}", lambda x: x <= high),
        (f"not exceeding {high}{unit}", lambda x: x <= high),
        (f"{high}{unit} or less", lambda x: x <= high),
        (f"more than {low}{unit}", lambda x: x > low),
        (f"less than {high}{unit}", lambda x: x < high),
        (f"from {low} to {high}{unit}", lambda x: low <= x <= high),
        (f"{low} to {high}{unit}", lambda x: low <= x <= high),
    ]


def lengths(one: Limit, other: Limit) -> list[Said]:
    (w, f), (v, g) = one, other
    both = "gap, rim"
    return [
        ("gap", f"a gap of {w}", lambda x, y: f(x)),
        ("gap", f"the gap is {w} and {v}", lambda x, y: f(x) and g(x)),
        ("gap", f"{w} but {v}", lambda x, y: f(x) and g(x)),
        ("gap", f"{w} or {v}", lambda x, y: f(x) or g(x)),
        (both, f"the gap is {w} and the rim is {v}", lambda x, y: f(x) and g(y)),
        (both, f"a gap of {w} and a rim of {v}", lambda x, y: f(x) and g(y)),
        (both, f"{w} and {v}, respectively", lambda x, y: f(x) and g(y)),
        (both, f"the gap and the rim are each {w}", lambda x, y: f(x) and f(y)),
        (both, f"at least one of the gap and the rim is {w}", lambda x, y: f(x) or f(y)),
        (both, f"neither the gap nor the rim is {w}", lambda x, y: not f(x) and not f(y)),
        (both, f"the sum of the gap and the rim is {w}", lambda x, y: f(x + y)),
        (both, f"the gap and the rim together are {w}", lambda x, y: f(x + y)),
        (both, f"the gap exceeds the rim by {w}", lambda x, y: f(x - y)),
        (both, f"the gap exceeds the rim by {w} but {v}", lambda x, y: f(x - y) and g(x - y)),
        (both, f"differs from the rim by {w} and {v}", lambda x, y: f(abs(x - y)) and g(abs(x - y))),
        (both, f"is greater than the rim and {w}", lambda x, y: x > y and f(x)),
        (both, f"the larger of the gap and the rim is {w}", lambda x, y: f(max(x, y))),
        (both, f"the smaller of the gap and the rim is {w}", lambda x, y: f(min(x, y))),
        (both, f"the gap minus the rim is {w}", lambda x, y: f(x - y)),
        (both, f"the gap is less than the rim and {w}", lambda x, y: x < y and f(x)),
        (both, f"the gap is {w} when the rim is {v}", lambda x, y: not g(y) or f(x)),
        (both, f"the gap is {w} unless the rim is {v}", lambda x, y: g(y) or f(x)),
    ]


def shares(one: Limit, other: Limit) -> list[Said]:
    (w, f), (v, g) = one, other
    both = "oil, gum"
    return [
        ("oil", f"{w}, based on the total weight of the paste", lambda x, y: f(x)),
        ("oil", f"an oil content of {w}", lambda x, y: f(x)),
        (both, f"{w} of oil and {v} of gum", lambda x, y: f(x) and g(y)),
        (both, f"{w} of oil or {v} of gum", lambda x, y: f(x) or g(y)),
        (both, f"no oil and {w} of gum", lambda x, y: x == 0 and f(y)),
        (both, f"{w} oil and {v} gum", lambda x, y: f(x) and g(y)),
        (both, f"oil and gum in amounts of {w} and {v}, respectively", lambda x, y: f(x) and g(y)),
        (both, f"a total of oil and gum of {w}", lambda x, y: f(x + y)),
        (both, f"oil and gum each in an amount of {w}", lambda x, y: f(x) and f(y)),
    ]


def counts(one: Limit, other: Limit) -> list[Said]:
    (w, f), (v, g) = one, other
    return [
        ("pins", f"{w} pins", lambda x, y: f(x)),
        ("pins, lids", f"{w} pins and {v} lids", lambda x, y: f(x) and g(y)),
        ("pins, lids", f"a total of {w} pins and lids", lambda x, y: f(x + y)),
        ("pins, lids", "at least as many pins as lids", lambda x, y: x >= y),
        ("pins, lids", "no more pins than lids", lambda x, y: x <= y),
        (
            "pins, lids",
            "at least two but not more than five more pins than lids",
            lambda x, y: 2 <= x - y <= 5,
        ),
        (
            "pins, lids",
            "exceeds the lids by at least two but not more than five",
            lambda x, y: 2 <= x - y <= 5,
        ),
    ]


SORTS = [(" mm", lengths, Fraction(1, 1000)), (" wt%", shares, Fraction(1, 100)), ("", counts, Fraction(1))]


def said(
    seed: int,
) -> Iterator[tuple[str, str, Callable[[Fraction, Fraction], bool], tuple[str, str], Fraction]]:
    drawn = random.Random(seed)
    for _ in range(4):
        for (unit, sayings, scale), names in zip(
            SORTS, (("gap", "rim"), ("oil", "gum"), ("pins", "lids")), strict=True
        ):
            low, high = sorted(drawn.sample(range(1, 7), 2))
            one, other = drawn.choice(limits(low, high, unit)), drawn.choice(limits(low, high, unit))
            left, words, asked = drawn.choice(sayings(one, other))
            yield left, words, asked, names, scale


@pytest.mark.parametrize("seed", range(25))
def test_what_is_read_is_what_the_words_say(seed: int) -> None:
    read = 0
    for left, words, asked, names, scale in said(seed):
        text = f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n"
        made, _ = read_sheet(Source("test", text))
        if made is None:
            continue
        read += 1
        k, formula = base_construction(made), made.claims[0].limitations[0].formula
        for x in VALUES:
            for y in VALUES:
                thing = dict(zip(names, (x * scale, y * scale), strict=True))
                assert evaluate(formula, thing, k) is asked(x, y), (left, words, x, y)
    assert read > 6


ON_EACH = [
    (
        "gap, rim",
        "the gap exceeds the rim by at least 2 mm but not more than 5 mm",
        lambda x, y: 2 <= x - y <= 5,
    ),
    ("gap", "the gap exceeds the rim by at least 2 mm but not more than 5 mm", lambda x, y: 2 <= x - y <= 5),
    ("gap, rim", "differs from the rim by at least 1 mm and at most 3 mm", lambda x, y: 1 <= abs(x - y) <= 3),
    ("gap, rim", "at least 2 mm and at most 5 mm above the rim", lambda x, y: 2 <= x - y <= 5),
    (
        "gap, rim",
        "at least 2 mm greater than the rim and at most 5 mm greater than the rim",
        lambda x, y: 2 <= x - y <= 5,
    ),
    ("gap", "exceeds the rim by at least 2 mm and is at most 8 mm", lambda x, y: x - y >= 2 and x <= 8),
    ("oil, gum", "no oil and at most 6 wt% of gum", lambda x, y: x == 0 and y <= 6),
    ("oil, gum", "not more than 50 % of the weight of the gum", lambda x, y: x <= y / 2 if y else None),
]


@pytest.mark.parametrize(("left", "words", "asked"), ON_EACH)
def test_two_limits_are_of_what_their_words_say(
    left: str, words: str, asked: Callable[[Fraction, Fraction], bool | None]
) -> None:
    made = sheet(f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n")
    k, formula = base_construction(made), made.claims[0].limitations[0].formula
    names, scale = (
        (("gap", "rim"), Fraction(1, 1000)) if "gap" in left else (("oil", "gum"), Fraction(1, 100))
    )
    outcomes = set()
    for x in VALUES:
        for y in VALUES:
            expected = asked(x, y)
            outcomes.add(expected)
            if expected is not None:  # a share of nothing is none
                thing = dict(zip(names, (x * scale, y * scale), strict=True))
                assert evaluate(formula, thing, k) is expected, (x, y)
    assert {True, False} <= outcomes


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("gap", "less than 8 mm and at least 2 mm greater than the rim"),
        ("gap, rim", "more than 5 mm and at least 1 mm less than the rim"),
        ("gap, rim", "at least 4 mm, but at least 2 mm smaller than the rim"),
        ("delay", "at least one minute and thirty seconds"),
    ],
)
def test_limits_that_may_be_of_either_are_asked_for_apart(left: str, words: str) -> None:
    found = errors(f"{DECLARED}delay   time in s\n\n1. A thing, {words}.\n   | {left} : {words}\n")
    assert [d.message for d in found] == ["these words do not tell what each of the two limits is of"]
    assert found[0].help == "put each limit on a line of its own, in all its words"


@pytest.mark.parametrize(
    ("left", "words"),
    [
        ("oil, gum", "no oil or at most 6 wt% of gum"),
        ("oil", "at most 3 wt% of oil or at most 6 wt% of gum"),
        ("oil", "1 to 3 wt% of oil or 4 to 6 wt% of gum"),
    ],
)
def test_amounts_of_two_things_are_no_ratio_of_them(left: str, words: str) -> None:
    made, _ = read_sheet(Source("test", f"{DECLARED}\n1. A thing, {words}.\n   | {left} : {words}\n"))
    assert made is None
