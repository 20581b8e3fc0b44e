"""Printed examples of claimed ranges beside what a description states: the numbers and the relations.

What followed in law is not checked and not repeated. `read`: the text of the source, or of the manual that
reports it, was seen; `our numbers`: the source gives the rule, the numbers are ours.
"""

from __future__ import annotations

from scopecheck.answers.held import Combined, Held
from scopecheck.answers.questions import ask_all
from scopecheck.report.described import held_text, unstated_first
from scopecheck.report.wording import GLUE
from tests.published.worked import sheet, worked

HEAD = """
solids   share in wt%
time     time in min
policy ends are included  "paragraph 1"
policy rounding is none   "paragraph 2"
"""


def held(claimed: str, *stated: str, name: str = "solids") -> tuple[Held, str]:
    """A claim of the words beside statements of the description; the relation as data and in words."""
    rows = "\n".join(f"  {row}" for row in stated)
    made = sheet(f"{HEAD}1. A mix with {claimed}.\n   | {name} : {claimed}\ndescription\n{rows}\n")
    (finding,) = [f for f in ask_all(made).findings if isinstance(f.about, Held) and f.stakes == 6]
    assert isinstance(finding.about, Held)
    assert finding.stakes == 6
    return finding.about, held_text(made, finding).replace(GLUE, " ")


WERTHEIM = (
    'broad range     : 25 wt% <= solids <= 60 wt%   "paragraph 3"',
    'first example   : solids = 36 wt%              "example 1"',
    'second example  : solids = 50 wt%              "example 2"',
)


def test_a_claim_without_a_high_end() -> None:
    """In re Wertheim, as reported in MPEP 2163.05 III: 25 to 60, 36 and 50; `at least 35` (read)."""
    own, text = held("at least 35 wt%", *WERTHEIM)
    assert (own.open_sides, own.within, own.as_such) == (("high",), (), ())
    assert own.ends[0].stated + own.ends[0].examples == ()
    assert "it states no high end, and every range stated has one" in text
    assert "it does not lie within any range stated" in text


def test_a_claim_with_one_end_of_what_is_described() -> None:
    """The same, `between 35 and 60` (read)."""
    own, text = held("between 35 wt% and 60 wt%", *WERTHEIM)
    assert (own.open_sides, own.within) == ((), ("broad range",))
    low, high = own.ends
    assert (low.side, low.stated, high.side, high.stated) == ("low", (), "high", ("broad range",))
    assert "its low end, 35 wt%, is no end stated" in text


def test_an_end_that_is_included_on_one_side_only() -> None:
    """Our own numbers: what is above 25 and below 60 has neither of them, what is from 25 to 60 has both."""
    own, text = held("more than 25 wt% and less than 60 wt%", *WERTHEIM)
    assert [end.crossed for end in own.ends] == [("broad range",), ("broad range",)]
    assert (
        'its high end, 60 wt%, stands in broad range ("paragraph 3") as an end that is included there,'
        " while the claim, as presumed, leaves it out"
    ) in text
    own, text = held("between 25 wt% and 55 wt%", 'range : 25 wt% < solids < 60 wt%  "paragraph 3"')
    assert "as an end that is left out there, while the claim, as presumed, includes it" in text
    assert [end.crossed for end in own.ends] == [("range",), ()]


PREFERRED = (
    'range            : 30 wt% <= solids <= 60 wt%   "page 3"',
    'preferred range  : 35 wt% <= solids <= 50 wt%   "page 4"',
)


def test_a_preferred_end_joined_with_a_general_one() -> None:
    """T 2/81, T 925/98, as reported in EPO Case Law 2019 II.E.1.5.1 (read; our numbers)."""
    own, text = held("from 35 to 60 wt%", *PREFERRED)
    low, high = own.ends
    assert (low.preferred, high.stated, own.takes_in) == (
        ("preferred range",),
        ("range",),
        ("preferred range",),
    )
    assert "no statement has the two ends together" in text
    assert 'it takes in all of preferred range ("page 4")' in text


@worked("W55", "T 1170/02, as reported in EPO Case Law 2019 II.E.1.5.1", "read")
def test_two_low_ends() -> None:
    """The rule is the source's; the numbers are ours."""
    own, text = held("from 30 to 35 wt%", *PREFERRED)
    low, high = own.ends
    assert (low.stated, high.stated, high.preferred) == (("range",), (), ())
    assert (high.other_end, own.takes_in, own.cuts) == (("preferred range",), (), ("preferred range",))
    assert "both numbers are low ends there" in text
    assert "leaves out part or all of preferred range" in text


def test_a_range_that_is_described_as_such() -> None:
    """37 CFR 1.75(d)(1), MPEP 608.01(o): the terms of claims in the description (read; our numbers)."""
    own, text = held("from 30 to 60 wt%", *PREFERRED)
    assert own.as_such == ("range",)
    assert text.startswith('solids 30 wt% to 60 wt% is stated as such in range ("page 3")')


def test_a_wider_range_than_in_the_earlier_text() -> None:
    """T 201/99, as reported in EPO Case Law 2019 II.D.3.1.7: 1 to 6 min told, 1 to 10 min claimed (read)."""
    own, text = held(
        "from 1 to 10 min",
        'range    : 1 min <= time <= 6 min   "page 2"',
        'example  : time = 3 min             "page 5"',
        name="time",
    )
    low, high = own.ends
    assert (low.stated, high.stated, high.examples, own.within) == (("range",), (), (), ())
    assert "its high end, 10 min, is no end stated" in text


def test_a_quantity_that_the_description_says_nothing_of() -> None:
    own, text = held("from 1 to 10 min", *PREFERRED, name="time")
    assert not own.spoken
    assert text == "time 1 min to 10 min: no statement of the description speaks of time by itself"


BROAD = 'all : 30 wt% <= solids <= 60 wt%  "page 3"'


def below(*stated: str) -> list[tuple[Held, str]]:
    """A claim with a low end and one below it with a high end, beside a description; our own numbers."""
    rows = "\n".join(f"  {row}" for row in stated)
    lines = "1. A mix of at least 30 wt%.\n   | solids : at least 30 wt%\n"
    lines += "2. The mix of claim 1, of at most 50 wt%.\n   | solids : at most 50 wt%\n"
    made = sheet(f"{HEAD}{lines}description\n{rows}\n")
    found = unstated_first(f for f in ask_all(made).findings if isinstance(f.about, Held) and f.stakes == 6)
    return [(f.about, held_text(made, f).replace(GLUE, " ")) for f in found if isinstance(f.about, Held)]


def test_a_dependent_line_is_held_with_what_its_parent_limits() -> None:
    narrow = 'narrow : 30 wt% <= solids <= 50 wt%  "page 3"'
    (_, (own, text)) = below(narrow, 'wide : solids >= 30 wt%  "page 2"')
    assert (own.as_such, own.beside) == (("narrow",), ("1a",))
    assert text.startswith(
        "solids 50 wt% or less (with claim 1: 30 wt% to 50 wt%) is, with claim 1, stated as such in narrow"
    )
    told = {own.ends[0].side: text for own, text in below(BROAD)}
    assert told["high"].endswith('is no end stated; with claim 1 it lies within all ("page 3")')
    assert "states no low end" not in told["high"]


def test_a_number_that_no_statement_has_comes_first() -> None:
    (first, text), (second, other) = below(BROAD)
    assert ([e.side for e in first.nowhere], second.nowhere) == (["high"], ())
    assert text.startswith("in no statement of solids: 50 wt%; solids 50 wt% or less (with claim 1:")
    assert "in no statement" not in other


def test_a_single_value_beside_what_ties_the_number() -> None:
    """The value stands in the statement, whatever else is said of the number there; our own numbers."""
    own, text = held("from 36 to 60 wt%", 'two : solids = 36 wt%, time >= solids * 1 min  "p 1"')
    assert own.ends[0].examples == ("two",)
    assert 'its low end, 36 wt%, stands as a single stated value in two ("p 1") and is no end of' in text


def test_a_claimed_single_value_that_stands_beside_what_ties_the_number() -> None:
    own, text = held("equal to 36 wt%", 'two : solids = 36 wt%, time >= solids * 1 min  "p 1"')
    assert (own.as_such, text) == (("two",), 'solids 36 wt% is stated as such in two ("p 1")')


def test_no_description_no_relation() -> None:
    made = sheet(f"{HEAD}1. A mix with from 1 to 10 wt%.\n   | solids : from 1 to 10 wt%\n")
    assert [f for f in ask_all(made).findings if isinstance(f.about, Held) and f.stakes == 6] == []


# ---- several numbers together: whether a combination is stated, or its parts in different places

MIX = """
resin   share in wt%
salt    share in wt%
length  length in mm
width   length in mm
policy ends are included  "paragraph 1"
policy rounding is none   "paragraph 2"
policy ratios are in the order written  "paragraph 3"
1. A mix with from 5 to 10 wt% of a resin and from 1 to 3 wt% of a salt.
   | resin : from 5 to 10 wt%
   | salt  : from 1 to 3 wt%
2. A bar with a ratio of length to width of from 2:1 to 5:1.
   | length, width : ratio of length to width of from 2:1 to 5:1
description
"""


def together(*stated: str) -> dict[int, tuple[Combined, str]]:
    """What is told of the lines of each claim taken together, beside the statements of a description."""
    made = sheet(MIX + "\n".join(f'  {row}  "page {i}"' for i, row in enumerate(stated, 1)) + "\n")
    told = [f for f in ask_all(made).findings if isinstance(f.about, Combined)]
    return {
        f.claim: (f.about, held_text(made, f).replace(GLUE, " "))
        for f in told
        if isinstance(f.about, Combined)
    }


def test_a_combination_that_one_statement_has() -> None:
    """MPEP 2163.05 III asks of the changed range as a whole (read; our numbers, as in what follows)."""
    told = together(
        "blend : 5 wt% <= resin <= 10 wt%, 1 wt% <= salt <= 3 wt%", "shape : 0.2 <= width / length <= 0.5"
    )
    assert [told[n][0].as_such for n in (1, 2)] == [("blend",), ("shape",)]
    assert 'stated as such, as one combination, in blend ("page 1")' in told[1][1]


def test_ranges_that_are_stated_but_never_together() -> None:
    """EPO Case Law 2019 II.E.1.5.1, of ends taken from two ranges (read; our numbers)."""
    combined, text = together(
        "broad  : 5 wt% <= resin <= 10 wt%, 0.5 wt% <= salt <= 4 wt%",
        "narrow : 6 wt% <= resin <= 8 wt%, 1 wt% <= salt <= 3 wt%, 2 mm <= width <= 3 mm",
        "first  : resin = 6 wt%, salt = 2 wt%",
    )[1]
    assert [(s.statement, s.relation) for s in combined.statements] == [
        ("broad", "within"),
        ("narrow", "contains"),
    ]
    assert (combined.as_such, combined.examples) == ((), ("first",))
    assert 'together: resin as such in broad ("page 1") and salt as such in narrow ("page 2")' in text
    assert 'around all of narrow ("page 2"; it limits width too)' in text


def test_ends_of_a_ratio_from_two_statements() -> None:
    """The same, of a number that two others make up; one of the statements has it the other way round."""
    combined, text = together(
        "long  : 2 <= length / width <= 8", "short : 0.2 <= width / length <= 1", "slim : width <= 9 mm"
    )[2]
    relations = [(s.statement, s.relation) for s in combined.statements]
    assert relations == [("long", "within"), ("short", "within")]
    assert (combined.pieces[0].low, combined.pieces[0].high) == (("long",), ("short",))
    assert "each end is stated, the combination in no statement: low end of length / width in long" in text


def test_a_combination_apart_from_what_is_stated() -> None:
    """Shares of A and of B that no statement lets go together, though each of them is stated somewhere."""
    combined, text = together("sum : resin + salt <= 4 wt%")[1]
    assert [(s.statement, s.relation) for s in combined.statements] == [("sum", "apart")]
    assert (combined.pieces, "in no statement as such" in text) == ((), True)
