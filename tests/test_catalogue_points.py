"""Points and sets that one reading of a shipped phrase takes in and another leaves out."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.core.construction import Construction
from scopecheck.core.formula import Article
from scopecheck.solving.evaluate import evaluate
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import Entry
from tests.occurrences import Subject, meanings, unit_of

ENTRIES = entries()


def _entry(title: str) -> Entry:
    (found,) = (e for e in ENTRIES if e.title == title)
    return found


SEPARATING = [
    # wording, unit, slots, value, the readings it meets among those named
    (
        "between (L) and (U)",
        "mm",
        {"L": "10", "U": "15"},
        "10",
        {"both ends in": 1, "both ends out": 0, "top end out": 1},
    ),
    (
        "between (L) and (U)",
        "mm",
        {"L": "10", "U": "15"},
        "15",
        {"both ends in": 1, "both ends out": 0, "top end out": 0},
    ),
    (
        "between (L) and (U)",
        "mm",
        {"L": "10", "U": "15"},
        "9.5",
        {"both ends in": 0, "rounds to the ends": 1},
    ),
    ("up to (U)", "wt%", {"U": "2.5"}, "0", {"zero allowed, end in": 1, "some must be present": 0}),
    ("up to (U)", "wt%", {"U": "2.5"}, "2.5", {"zero allowed, end in": 1, "end out": 0}),
    ("at least (L)", "", {"L": "13"}, "12.6", {"no top, end in": 0, "rounds to the limit": 1}),
    ("at most (U)", "wt%", {"U": "70"}, "0", {"includes none, end in": 1, "must be present": 0}),
    (
        "more than (L)",
        "%",
        {"L": "5"},
        "5.3",
        {"strict, exact": 1, "strict after rounding": 0},
    ),
    ("(N) ± (difference T)", "%", {"N": "40", "T": "5"}, "36", {"absolute": 1, "relative": 0}),
    ("within (difference D) of (T)", "degC", {"D": "2", "T": "37"}, "39", {"ends in": 1, "ends out": 0}),
    (
        "about (N)",
        "mm",
        {"N": "200"},
        "205",
        {"fixed share": 1, "rounding only": 0},
    ),
    (
        "about (N)",
        "mm",
        {"N": "200"},
        "200.4",
        {"exactly": 0, "rounding only": 1},
    ),
    (
        "of the order of (N)",
        "mm",
        {"N": "5"},
        "9",
        {"same power of ten": 1, "within half a decade": 1},
    ),
    (
        "of the order of (N)",
        "mm",
        {"N": "5"},
        "12",
        {"same power of ten": 0, "within half a decade": 1},
    ),
    (
        "pH of (L) or higher",
        "",
        {"L": "13"},
        "12.6",
        {"rounds to the limit": 1, "exact": 0, "field rule for logarithms": 0},
    ),
    (
        "pH of (L) or higher",
        "",
        {"L": "13"},
        "12.995",
        {"field rule for logarithms": 1, "exact": 0},
    ),
    ("(N)", "wt%", {"N": "0.001"}, "0.0007", {"rounds to it": 1, "one digit finer": 0}),
    ("(N)", "cm", {"N": "3.5"}, "3.45", {"rounds to it": 1, "exactly": 0}),
    ("(N)", "cm", {"N": "3.5"}, "3.55", {"rounds to it": 0, "rounds to it, half to even": 0}),
    (
        "not less than (L)",
        "%",
        {"L": "98.0"},
        "97.96",
        {"no top, as observed": 0, "rounds to the limit": 1},
    ),
    (
        "not less than (L)",
        "%",
        {"L": "100.0"},
        "99.96",
        {"rounds to the limit": 1, "as many figures as the limit": 0},
    ),
    (
        "not more than (U)",
        "%",
        {"U": "0.2"},
        "0.25",
        {"rounds to the limit": 0, "rounds to the limit, half to even": 1},
    ),
    (
        "divisible by (k)",
        "",
        {"k": "5"},
        "7.5",
        {"leaves an integer quotient": 0, "can be divided": 1},
    ),
    (
        "divisible by (k)",
        "",
        {"k": "5"},
        "0",
        {"leaves an integer quotient": 1, "integer quotient of two or more": 0},
    ),
    ("multiple of (k)", "", {"k": "4"}, "6", {"any multiple": 1, "positive whole multiple": 0}),
    ("multiple of (k)", "", {"k": "4"}, "4", {"positive whole multiple": 1, "more than once": 0}),
    (
        "differs from (T) by at least (difference D)",
        "mm",
        {"T": "5", "D": "3"},
        "2",
        {"either way": 1, "above only": 0},
    ),
    ("a majority", "%", {}, "47.8", {"more than half": 0}),
    (
        "(L) to (U), preferably (P)",
        "degC",
        {"L": "45", "U": "78", "P": "50"},
        "47",
        {"outer range": 1, "preferred value": 0},
    ),
]


@pytest.mark.parametrize(("title", "unit", "numbers", "value", "expected"), SEPARATING)
def test_a_point_separates_readings(
    title: str, unit: str, numbers: dict[str, str], value: str, expected: dict[str, int]
) -> None:
    of_counts = (("counts",), ("open counts",), ("closed counts",))
    (entry,) = (e for e in ENTRIES if e.title == title and e.only_for not in of_counts)
    kinds = ("measured", "levels") if unit == "degC" else ("measured", "amounts", "shares")
    subject = Subject(kinds, unit, False, tuple(numbers.items()))
    point = unit_of(unit).to_base(Fraction(value))
    met = {
        m.reading.label: evaluate(m.formula, {"one": point}, Construction((), m.parameters))
        for m in meanings(entry, entry.patterns[0], subject)
    }
    assert {label: met[label] for label in expected} == {label: bool(v) for label, v in expected.items()}


RATIOS = [
    ("1", "3", {"first over second": 1, "second over first": 0}),
    ("3", "1", {"first over second": 0, "second over first": 1}),
]


@pytest.mark.parametrize(("a", "b", "expected"), RATIOS)
def test_a_ratio_range_written_downward(a: str, b: str, expected: dict[str, int]) -> None:
    entry = next(e for e in ENTRIES if e.id == "H3" and e.title.endswith("from (ratio r) to (ratio s)"))
    subject = Subject(("measured", "amounts"), "g", False, (("r", "1:2"), ("s", "1:5")))
    article: Article = {"one": Fraction(a), "two": Fraction(b)}
    met = {
        m.reading.label: evaluate(m.formula, article, Construction((), m.parameters))
        for m in meanings(entry, entry.patterns[0], subject)
    }
    assert {label: met[label] for label in expected} == {label: bool(v) for label, v in expected.items()}
    assert met["ends in the order written"] is False


ROUNDED_RATIOS = [
    # the two ends, the two amounts, and whether rounding lets them in (common practice, no source)
    ("1:10", "10:1", ("10", "104"), True),
    ("1:10", "10:1", ("10", "106"), False),
    ("1:10", "10:1", ("10", "150"), False),
    ("1:10", "10:1", ("104", "10"), True),
    ("1:10", "10:1", ("106", "10"), False),
    ("1:1", "5:1", ("10", "14"), True),
    ("1:1", "5:1", ("10", "16"), False),
    ("1:5", "1:1", ("14", "10"), True),
    ("1:5", "1:1", ("16", "10"), False),
    ("1:5", "1:2.0", ("100", "195"), True),
    ("1:5", "1:2.0", ("100", "194"), False),
    ("1:5", "1:2.0", ("0", "10"), False),
    # the figure with more decimals is the one that is rounded
    ("0.5:1", "0.9:1", ("94", "100"), True),
    ("0.5:1", "0.9:1", ("96", "100"), False),
    ("0.5:1", "0.9:1", ("46", "100"), True),
    ("0.5:1", "0.9:1", ("44", "100"), False),
    ("1:2", "1:0.9", ("100", "86"), True),
    ("1:2", "1:0.9", ("100", "84"), False),
]


@pytest.mark.parametrize(("low", "high", "amounts", "let_in"), ROUNDED_RATIOS)
def test_a_ratio_rounds_in_its_greater_figure(
    low: str, high: str, amounts: tuple[str, str], let_in: bool
) -> None:
    entry = next(e for e in ENTRIES if e.id == "H3" and e.title.endswith("from (ratio r) to (ratio s)"))
    subject = Subject(("measured", "amounts"), "g", False, (("r", low), ("s", high)))
    article: Article = {"one": Fraction(amounts[0]), "two": Fraction(amounts[1])}
    met = {
        m.reading.label: evaluate(m.formula, article, Construction((), m.parameters))
        for m in meanings(entry, entry.patterns[0], subject)
    }
    assert met["first over second, rounded"] is let_in


LISTS = [
    (
        "at least one of (list M and)",
        {"copper"},
        {"one of each": 0, "either will do": 1, "exactly one kind": 1},
    ),
    (
        "at least one of (list M and)",
        {"copper", "zinc"},
        {"one of each": 1, "either will do": 1, "exactly one kind": 0},
    ),
    ("at least one of (list M or)", {"copper", "zinc"}, {"any one suffices": 1, "exactly one": 0}),
    ("either (list M or)", {"copper", "zinc"}, {"inclusive": 1, "exclusive": 0}),
    (
        "selected from group consisting of (list M and)",
        {"copper", "zinc"},
        {"exactly one member": 0, "one or more members": 1, "all members": 1},
    ),
    (
        "selected from group consisting of (list M and)",
        {"copper", "tin"},
        {"exactly one member": 0, "one or more members": 0},
    ),
    (
        "consisting of (list M and)",
        {"copper", "zinc", "something else"},
        {"closed": 0, "closed for related things only": 1},
    ),
    (
        "other than (list M and)",
        {"copper"},
        {"another, and none of them": 0, "another, and not all of them together": 1},
    ),
]


@pytest.mark.parametrize(("title", "members", "expected"), LISTS)
def test_a_set_separates_readings(title: str, members: set[str], expected: dict[str, int]) -> None:
    entry = _entry(title)
    subject = Subject(("sets",), "copper zinc")
    met = {
        m.reading.label: evaluate(m.formula, {"one": frozenset(members)}, Construction(()))
        for m in meanings(entry, entry.patterns[0], subject)
    }
    assert {label: met[label] for label in expected} == {label: bool(v) for label, v in expected.items()}
