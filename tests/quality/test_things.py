"""The exact thing expected for known problems: short, near what is known, plain where it can be."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.answers.about import EndNotReached, NoValue
from scopecheck.answers.findings import Finding, twin_of
from scopecheck.answers.minimise import Picked, pick_article
from scopecheck.answers.questions import ask_all
from scopecheck.core.declared import Declaration, NumberDecl
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Article,
    Chosen,
    Compare,
    Const,
    Divide,
    Formula,
    Includes,
    IsWhole,
    Measured,
    Multiply,
    Negate,
    Not,
    Parameter,
    Read,
    Rounded,
)
from scopecheck.core.model import Sheet
from scopecheck.core.reference import Reference
from scopecheck.foundations.quantity import number_text
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.ends import Extremum
from scopecheck.solving.solver import Session
from tests.build import (
    case,
    choice,
    claim,
    compare,
    count,
    given,
    group,
    limitation,
    number,
    parameter,
    point,
    set_of,
    sheet,
    within,
    written,
)
from tests.sheets import sheet as text_sheet

MM = Fraction(1, 1000)


def picked(
    declarations: list[Declaration], wish: Formula, *known: Article, barred: Formula | None = None
) -> Picked:
    """The simplest thing that meets the wish, told by the best of the known articles."""
    givens = [given(barred)] if barred else []
    session = Session(sheet(declarations, [], givens=givens))
    search = session.search(())
    search.require(session.met(wish))
    assert search.find()
    names = [d.name for d in declarations]
    return pick_article(session, search, names, [Reference(str(i), a) for i, a in enumerate(known)])


def shown(asked: Sheet, article: Article) -> dict[str, str]:
    """The values as a reader sees them, in the sheet's units."""
    texts = {}
    for d in asked.declarations:
        value = article[d.name]
        if isinstance(d, NumberDecl):
            assert isinstance(value, Fraction)
            texts[d.name] = number_text(d.unit.from_base(value))
        else:
            texts[d.name] = value if isinstance(value, str) else ", ".join(sorted(value))  # type: ignore[arg-type]
    return texts


def found(asked: Sheet, question: str, label: str) -> Finding:
    (finding,) = [f for f in ask_all(asked).findings if (f.question, f.label) == (question, label)]
    return finding


def thing(asked: Sheet, question: str, label: str) -> tuple[dict[str, str], str]:
    finding = found(asked, question, label)
    assert finding.witness is not None
    return shown(asked, finding.witness.article), finding.thing.grade


# ---- short numbers


@pytest.mark.parametrize(
    ("low", "high", "ends", "reference", "expected"),
    [
        ("3", "3.1", "()", "3", "3.01"),  # not 34/11, which has the smallest denominator
        ("3", "3.1", "()", "9", "3.09"),
        ("3", "5", "()", "0", "4"),
        ("3", "4", "()", "0", "3.1"),
        ("2.95", "3.05", "[)", "7.5", "3"),
        ("0.125", "0.126", "()", "1", "0.1259"),
        ("-1", "1", "()", "5", "0"),
        ("-3.2", "-3", "()", "0", "-3.1"),
        ("10", "1000", "[]", "37.5", "37.5"),
        ("10", "1000", "(]", "2.5", "11"),
    ],
)
def test_a_number_is_as_short_as_can_be(
    low: str, high: str, ends: str, reference: str, expected: str
) -> None:
    wish = within("gap", low, high, "mm", ends)
    found = picked([number("gap", "mm")], wish, {"gap": Fraction(reference) * MM})
    assert found.simplest
    assert shown(sheet([number("gap", "mm")], []), found.article) == {"gap": expected}


def test_a_number_that_is_the_only_one_may_be_a_fraction() -> None:
    only = Compare("=", Multiply(Const(Fraction(3)), Measured("x")), Const(Fraction(1)))
    assert picked([number("x")], only, {"x": Fraction(0)}).article == {"x": Fraction(1, 3)}


def test_an_irrational_number_is_no_thing() -> None:
    root = Compare("=", Multiply(Measured("x"), Measured("x")), Const(Fraction(2)))
    with pytest.raises(Undecided, match="fractions"):
        picked([number("x", "", "0")], root, {"x": Fraction(0)})


def test_a_temperature_is_short_on_its_own_scale() -> None:
    declared = number("bath", "degC", "-273.15")
    found = picked([declared], compare("bath", ">", "60", "degC"), {"bath": Fraction("333.15")})
    assert shown(sheet([declared], []), found.article) == {"bath": "61"}


def test_a_whole_number_goes_to_the_nearer_side_and_then_down() -> None:
    wish = Not(IsWhole(Divide(Measured("holes"), Const(Fraction(6)))))
    assert picked([count("holes")], wish, {"holes": Fraction(24)}).article == {"holes": 23}


# ---- departures


def test_departures_come_late_even_if_the_value_is_longer_then() -> None:
    """x has to depart; x = 1 takes y along, x = 1.5 the later z."""
    wish = Any(
        (
            All((compare("x", "=", "1"), compare("y", "=", "5"))),
            All((compare("x", "=", "1.5"), compare("z", "=", "5"))),
        )
    )
    known = {name: Fraction(0) for name in "xyz"}
    found = picked([number(name) for name in "xyz"], wish, known)
    assert found.departs == ("x", "z")
    assert found.article == {"x": Fraction(3, 2), "y": 0, "z": 5}


def test_one_early_departure_comes_before_two_late_ones() -> None:
    late = All((compare("y", ">", "0"), compare("z", ">", "0")))
    known = {name: Fraction(0) for name in "xyz"}
    found = picked([number(name) for name in "xyz"], Any((late, compare("x", ">", "0"))), known)
    assert (found.departs, found.article) == (("x",), known | {"x": 1})


def test_one_departure_comes_before_two_shorter_ones() -> None:
    total = Add((Measured("x"), Measured("y")))
    wish = All((Compare("=", total, written("1.25")), compare("y", "<=", "1")))
    found = picked([number("x"), number("y")], wish, {"x": Fraction(0), "y": Fraction(1)})
    assert found.departs == ("x",)
    assert found.article == {"x": Fraction(1, 4), "y": 1}


def test_the_known_case_with_fewest_departures_tells_the_thing() -> None:
    known = ({"x": Fraction(1), "y": Fraction(1)}, {"x": Fraction(1), "y": Fraction(7)})
    found = picked([number("x"), number("y")], compare("y", ">", "6"), *known)
    assert (found.reference, found.departs, found.article) == ("1", (), known[1])


def test_a_choice_takes_the_first_listed_and_a_set_changes_least() -> None:
    declared = [choice("colour", "red", "blue", "green"), set_of("metal", "copper", "zinc", "steel")]
    wish = All((Not(Chosen("colour", "red")), Any((Includes("metal", "zinc"), Includes("metal", "steel")))))
    known = {"colour": "red", "metal": frozenset({"copper"})}
    found = picked(declared, wish, known)
    assert found.article == {"colour": "blue", "metal": {"copper", "steel"}}


def test_what_a_given_fact_ties_departs_with_it() -> None:
    tied = Compare("=", Measured("y"), Multiply(Const(Fraction(2)), Measured("x")))
    found = picked(
        [number("x"), number("y")], compare("x", ">", "3"), {"x": Fraction(3), "y": Fraction(6)}, barred=tied
    )
    assert found.article == {"x": 4, "y": 8}


# ---- plain, near, edge


def wide(upper: Formula, physical: str | None = None) -> Sheet:
    """`at least 8 and up to 20 mm` meant; an arguable reading has another upper end."""
    meant = within("gap", "8", "20", "mm")
    phrase = Read(0, (meant, All((compare("gap", ">=", "8", "mm"), upper))))
    made = claim(1, limitation("1a", phrase, meant=meant))
    return sheet([number("gap", "mm", "0", physical)], [made], [group(0, "both ends", "the other end?")])


def test_a_plainly_unmeant_thing_comes_first() -> None:
    """A tenth of the meant width is 1.2 mm: plain from 21.2 mm on, and 22 is the shortest beyond."""
    assert thing(wide(All(())), "unmeant met", "1a") == ({"gap": "22"}, "plain")


def test_plain_keeps_to_half_the_room_that_there_is() -> None:
    assert thing(wide(All(()), physical="21"), "unmeant met", "1a") == ({"gap": "21"}, "plain")


def test_near_is_a_written_step_away() -> None:
    """Beyond 21.2 nothing is met; more than a step of 1 mm beyond 20 there is."""
    assert thing(wide(compare("gap", "<=", "21.2", "mm")), "unmeant met", "1a") == ({"gap": "21.1"}, "near")


def test_an_edge_is_an_edge() -> None:
    """Met by what rounds to 8 or 20: from 7.5 to below 20.5. 20.1 and 7.9 are as near to the middle."""
    rounds = Rounded(Measured("gap"), MM, "away")
    upper = All((Compare("<=", rounds, written("20", "mm")), Compare(">=", rounds, written("8", "mm"))))
    meant = within("gap", "8", "20", "mm")
    made = claim(1, limitation("1a", Read(0, (meant, upper)), meant=meant))
    asked = sheet([number("gap", "mm", "0")], [made], [group(0, "ends in", "rounds?")])
    assert thing(asked, "unmeant met", "1a") == ({"gap": "7.9"}, "edge")
    assert found(asked, "unmeant met", "1a").rereads[0].reading == 1


# ---- whole questions


def test_a_twin_differs_in_what_matters_only() -> None:
    divisible = IsWhole(Divide(Measured("holes"), Const(Fraction(6))))
    phrase = Read(0, (divisible, compare("holes", ">", "0")))
    declared = [count("holes"), number("width", "mm", "0")]
    inside = case("sample", "inside", point(declared, holes=24, width="3/1000"))
    made = claim(1, limitation("1a", phrase, meant=divisible))
    asked = sheet(declared, [made], [group(0, "without remainder", "can be divided?")], [inside])
    finding = found(asked, "unmeant met", "1a")
    assert finding.witness is not None
    twin = twin_of(finding)
    assert twin is not None
    assert shown(asked, finding.witness.article) == {"holes": "23", "width": "3"}
    assert shown(asked, twin.article) == {"holes": "24", "width": "3"}
    assert finding.thing.reference == "sample"


def test_a_ratio_without_value_is_shown_at_its_zero() -> None:
    ratio = Compare(">", Divide(Measured("open"), Measured("closed"), "open / closed"), written("2"))
    declared = [number("open", "", "0"), number("closed", "", "0")]
    sample = case("sample", "inside", point(declared, open=9, closed=3))
    asked = sheet(declared, [claim(1, limitation("1a", ratio))], cases=[sample])
    finding = found(asked, "undefined", "1a")
    assert finding.witness is not None
    assert (finding.about, finding.thing.departs) == (NoValue("open / closed"), ("closed",))
    assert shown(asked, finding.witness.article) == {"open": "9", "closed": "0"}


@pytest.mark.parametrize(
    ("op", "limit", "value", "end", "closed"),
    [("<=", "36.4", "1.4", "1.4", True), ("<", "36.4", "2", "1.4", False), ("<=", "33", "2", "2", True)],
)
def test_a_stretch_has_a_break_point(op: str, limit: str, value: str, end: str, closed: bool) -> None:
    """`about 35 %`, stretched by p either way, as presumed by nothing: how far until a thing is met?"""
    away = Add((Measured("open"), Negate(written("35"))))
    stretch = Parameter("p")
    about = All((Compare(op, away, stretch), Compare(op, Negate(away), stretch)))  # type: ignore[arg-type]
    declared = [number("open")]
    outside = case("sieve", "outside", point(declared, open=limit))
    made = claim(1, limitation("1a", Read(0, (about,))))
    asked = sheet(
        declared, [made], [group(0, "by so much either way")], [outside], parameters=[parameter("p", 0, 0)]
    )
    (reread,) = found(asked, "outside met", "claim 1").rereads
    (point_found,) = reread.breaks
    assert (point_found.end.value, point_found.end.closed) == (Fraction(end), closed)
    construction = found(asked, "outside met", "claim 1").construction
    assert construction is not None
    assert construction.parameter("p") == Fraction(value)


def test_an_end_that_is_not_reached_is_told_with_what_is() -> None:
    parent = claim(1, limitation("1a", within("gap", "8", "20", "mm", "[)")))
    child = claim(2, limitation("2a", within("gap", "9", "25", "mm")), parents=(1,))
    finding = found(sheet([number("gap", "mm", "0")], [parent, child]), "end not reached", "2a")
    assert isinstance(finding.about, EndNotReached)
    end = finding.about
    assert (end.stated, end.upper, end.far) == ("25 mm", True, Extremum(Fraction(20), False))


def test_of_numbers_tied_to_each_other_the_longest_is_short() -> None:
    """Else left would be 2 mm and right 0.525 mm."""
    parts = [number("left", "mm"), number("right", "mm")]
    four_times = Multiply(Const(Fraction(4)), Measured("right"))
    tied = Compare("=", four_times, Add((Measured("left"), Const(Fraction("0.1") * MM))))
    wish = All((tied, compare("left", ">", "1.2", "mm"), compare("left", "<=", "2", "mm")))
    found = picked(parts, wish, {"left": Fraction(0), "right": Fraction(0)})
    assert shown(sheet(parts, []), found.article) == {"left": "1.5", "right": "0.4"}


def test_a_whole_number_beside_the_border_is_not_plain() -> None:
    """Of at least 6 holes meant, 5 are one short; a rim a tenth of its end away from 5 mm is plain."""
    made = text_sheet(
        "holes  count\nrim  length in mm\n"
        "1. A sieve with at least 4 holes and a rim of at least 2 mm.\n"
        "   | holes : at least 4     meant  holes >= 6\n"
        "   | rim   : at least 2 mm  meant  rim >= 5 mm\n   | not restated : and\n"
    )
    found = {f.label: f for f in ask_all(made).findings if f.question == "unmeant met"}
    assert found["1a"].witness is not None
    assert (found["1a"].witness.article["holes"], found["1a"].thing.grade) == (5, "near")
    assert found["1b"].thing.grade == "plain"
