"""Formulas over like parts against the same said of a plain list of values, and searches over them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import combinations, pairwise, product
from statistics import median

from hypothesis import given, settings
from hypothesis import strategies as st

from scopecheck.core.construction import Construction
from scopecheck.core.declared import Part
from scopecheck.core.formula import Article, Compare, Const, Formula, Measured, Op, Term
from scopecheck.solving.evaluate import evaluate, evaluate_term
from scopecheck.solving.solver import Session
from scopecheck.vocabulary.parts import Values, gathered, how_many, ordered, over, quantified, values
from tests import build

MOST = 4
TILE = Part("tile", "tiles", MOST, ("size",), build.SPAN)
SLOTS = [TILE.slot(i, "size") for i in range(1, MOST + 1)]
DECLARED = [build.count("tiles", "0", str(MOST)), *(build.count(name, "0", "3") for name in SLOTS)]
BASE = Construction(())
OPS: tuple[Op, ...] = ("<", "<=", "=", "!=", ">=", ">")

limits = st.fractions(-1, 4, max_denominator=2)
sizes = st.lists(st.integers(0, 3), min_size=MOST, max_size=MOST)


def article(count: int, of_each: list[int]) -> Article:
    return {"tiles": Fraction(count), **{n: Fraction(v) for n, v in zip(SLOTS, of_each, strict=True)}}


def size_of_each() -> Values:
    return values((TILE,), lambda _, i: Measured(TILE.slot(i, "size")))


def compared(op: Op, value: Fraction, limit: Fraction) -> bool:
    answer = evaluate(Compare(op, Const(value), Const(limit)), {}, BASE)
    assert answer is not None
    return answer


@given(st.integers(0, MOST), sizes, st.sampled_from(OPS), limits)
@settings(max_examples=300)
def test_how_many_of_those_that_are_there(count: int, of_each: list[int], op: Op, limit: Fraction) -> None:
    said = over((TILE,), lambda _, i: Compare(op, Measured(TILE.slot(i, "size")), Const(limit)))
    true = [compared(op, Fraction(v), limit) for v in of_each[:count]]
    expected = {"EVERY": all(true), "SOME": any(true), "NO": not any(true), "ONE": sum(true) == 1}
    thing = article(count, of_each)
    for word, answer in expected.items():
        assert evaluate(quantified(word, said), thing, BASE) is answer, word
    assert evaluate_term(how_many(said), thing, BASE) == sum(true)


@given(st.integers(0, MOST), sizes)
@settings(max_examples=300)
def test_values_of_those_that_are_there(count: int, of_each: list[int]) -> None:
    there = [Fraction(v) for v in of_each[:count]]
    expected = {
        "SUM": sum(there, Fraction(0)),
        "MEAN": sum(there) / count if there else None,
        "MEDIAN": median(there) if there else None,
        "LEAST": min(there, default=None),
        "GREATEST": max(there, default=None),
    }
    thing = article(count, of_each)
    for word, value in expected.items():
        assert evaluate_term(gathered(word, size_of_each()), thing, BASE) == value, word
    pairs = {
        "EQUAL": all(a == b for a, b in pairwise(there)),
        "DIFFERENT": all(a != b for a, b in combinations(there, 2)),
        "RISING": all(a < b for a, b in pairwise(there)),
        "FALLING": all(a > b for a, b in pairwise(there)),
    }
    for word, answer in pairs.items():
        assert evaluate(ordered(word, size_of_each()), thing, BASE) is answer, word


def term_of(word: str) -> Term:
    return gathered(word, size_of_each())


FORMULAS: dict[str, Callable[[Op, Fraction], Formula]] = {
    **{w: (lambda op, v, w=w: Compare(op, term_of(w), Const(v))) for w in ("SUM", "MEAN", "MEDIAN", "LEAST")},
    "DIFFERENT": lambda op, v: ordered("DIFFERENT", size_of_each()),
    "EVERY": lambda op, v: quantified(
        "EVERY", over((TILE,), lambda _, i: Compare(op, Measured(SLOTS[i - 1]), Const(v)))
    ),
}
Wish = tuple[str, Op, Fraction]
wishes = st.tuples(st.sampled_from(sorted(FORMULAS)), st.sampled_from(OPS), limits)


@given(st.lists(wishes, min_size=1, max_size=3), st.integers(0, MOST))
@settings(max_examples=60)
def test_what_a_search_finds_is_what_going_through_all_finds(asked: list[Wish], least: int) -> None:
    formulas = [FORMULAS[word](op, value) for word, op, value in asked]
    formulas.append(Compare(">=", Measured("tiles"), Const(Fraction(least))))
    things = (article(n, list(v)) for n in range(MOST + 1) for v in product(range(4), repeat=MOST))
    expected = any(all(evaluate(f, thing, BASE) is True for f in formulas) for thing in things)
    session = Session(build.sheet(DECLARED, ()))
    search = session.search(())
    search.require(*(session.met(f) for f in formulas))
    assert search.find() is expected
    if expected:
        found = search.article()
        assert all(evaluate(f, found, BASE) is True for f in formulas)
