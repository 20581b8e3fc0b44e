"""What a report says in plain words: which claim, which reading decides, which numbers show it, and once."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.quantity import find_unit
from scopecheck.occurrences.groups import whole_words
from scopecheck.report.amounts import exactly, with_symbol
from scopecheck.report.describe import case_text
from scopecheck.report.wording import GLUE, number_word
from tests.sheets import errors, sheet
from tests.test_told_rightly import page

SIEVE = """\
gap, rim  length in mm
1. A sieve with a gap of 2 to 4 mm.
   | gap : 2 to 4 mm
2. The sieve of claim 1 with a rim of 3 to 6 mm.
   | rim : 3 to 6 mm
3. The sieve of claim 2, the sum of the gap and the rim being {sum}.
   | gap, rim : the sum of the gap and the rim being {sum}
"""


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("less than 3.8 mm", "gap + rim comes to 5 mm or more (2 mm + 3 mm); 3a asks for below 3.8 mm."),
        ("less than 5 mm", "gap + rim comes to 5 mm or more (2 mm + 3 mm); 3a asks for below 5 mm."),
        ("more than 10 mm", "gap + rim comes to 10 mm or less (4 mm + 6 mm); 3a asks for above 10 mm."),
    ],
)
def test_a_conflict_is_shown_by_the_numbers_of_a_sum(asked: str, told: str) -> None:
    text = page(SIEVE.format(sum=asked))
    assert "Nothing meets claim 3 as restated" in text
    assert f"As usually read, {told}" in text


def test_a_sum_that_can_be_met_shows_no_conflict() -> None:
    assert "comes to" not in page(SIEVE.format(sum="at most 5 mm"))


def test_a_difference_is_told_the_way_round_in_which_it_is_above_zero() -> None:
    text = page(
        "lower, upper  temperature in degC\n"
        "1. A box with an upper level at least 2 K above the lower level.\n"
        "   | upper, lower : at least 2 K above the lower level\n"
        "2. The box of claim 1, the lower level being at least 28 °C and the upper level at most 29 °C.\n"
        "   | lower : at least 28 °C\n   | upper : at most 29 °C\n"
    )
    assert "upper - lower comes to 1 K or less (29 °C - 28 °C); 1a asks for 2 K or more." in text


OILS = """\
gap, rim  length in mm
1. A cup with a gap of 2 to 4 mm.
   | gap : 2 to 4 mm
2. The cup of claim 1 with a rim of at most 5 mm.
   | rim : at most 5 mm
{cases}
"""


def test_the_claim_is_named_where_the_line_is_of_another_one() -> None:
    text = page(OILS.format(cases="must stay out for 2\n  wide : gap = 4.2 mm, rim = 3 mm\n"))
    assert '1a "2 to 4 mm" Claim 2 is met by wide as listed' in text
    text = page(OILS.format(cases="must stay out\n  wide : gap = 4.2 mm, rim = 3 mm\n"))
    assert '1a "2 to 4 mm" Met by wide as listed' in text


def test_cases_lost_alike_are_named_in_one_line() -> None:
    text = page(OILS.format(cases="inside\n  tight : gap = 1 mm\n  wide : gap = 5 mm\n"))
    assert "Not met by tight as listed (gap 1 mm)" in text
    assert "Also Not met by wide." in text
    assert "wide as listed" not in text


def test_one_line_that_keeps_several_things_out_is_told_once() -> None:
    cases = "must stay out\n  wide : gap = 9 mm\n  broad : gap = 8 mm\n"
    text = page(OILS.format(cases=cases))
    assert 'On every reading listed 1a "2 to 4 mm" keeps wide and broad out of claim 1.' in text
    assert "on every reading listed: 1a" not in text


def test_what_several_lines_keep_out_is_no_work_of_one_alone() -> None:
    text = page(
        "gap, rim  length in mm\n1. A cup with a gap of 2 to 4 mm and a rim of at most 5 mm.\n"
        "   | gap : 2 to 4 mm\n   | rim : at most 5 mm\nmust stay out\n  wide : gap = 9 mm, rim = 9 mm\n"
    )
    assert "alone keeps" not in text


def test_the_reading_that_decides_is_named() -> None:
    text = page(
        "brush  part, up to 3\n  width  length in mm\n1. A head comprising a pair of brushes.\n"
        "   | brushes : a pair of brushes\nmust stay out\n  comb : brushes = 3\n"
    )
    assert (
        'Read with "a pair of brushes" in its usual reading, "two or more" (presumed): brushes >= 2' in text
    )
    assert "every phrase as presumed" not in text


@pytest.mark.parametrize(
    ("words", "quoted"),
    [
        ("within 12 ms of a", "within 12 ms"),
        ("from 0.6 to 0.9 times the", "from 0.6 to 0.9 times"),
        ("substantially equal to or greater than the", "substantially equal to or greater than"),
        ("comprising the following steps in", "comprising the following steps"),
        ("made of", "made of"),
        ("the", "the"),
        ("a porosity of", "a porosity of"),
        ("before the start of the", "before the start"),
    ],
)
def test_words_are_quoted_to_a_noun_or_stop_before_it(words: str, quoted: str) -> None:
    assert whole_words(words) == quoted


def test_a_pin_takes_the_words_as_they_are_quoted() -> None:
    text = (
        "precharge, system pressure  pressure in bar\n"
        'minimum pressure  pressure in bar  "minimum system pressure"\n{pin}'
        "1. A press with a precharge pressure of from 0.6 to 0.9 times the minimum system pressure.\n"
        "   | precharge, minimum pressure : from 0.6 to 0.9 times the minimum system pressure\n"
    )
    assert [p.words for g in sheet(text.format(pin="")).groups for p in g.places] == [
        "from 0.6 to 0.9 times the"
    ]
    for words in ("from 0.6 to 0.9 times", "from 0.6 to 0.9 times the"):
        assert not errors(text.format(pin=f'read "{words}" as "both ends in"  "page 1"\n'))


def test_numbers_without_a_decimal_are_said_to_be_near() -> None:
    assert with_symbol(Fraction(20, 7), "%").replace(GLUE, " ") == "about 2.86 %"
    assert exactly(Fraction(20, 7), "%").replace(GLUE, " ") == "about 2.86 % (exactly 20/7 %)"
    assert with_symbol(Fraction(1, 8), "%").replace(GLUE, " ") == "0.125 %"


def test_a_millionth_has_the_sign_of_the_sheet() -> None:
    for written, declared in (("µm", "um"), ("μm", "µm"), ("um", "um")):
        made = sheet(
            f"film  length in {declared}\n1. A film of 12 to 25 {written}.\n   | film : 12 to 25 {written}\n"
        )
        text = page(
            f"film  length in {declared}\n1. A film of 12 to 25 {written}.\n   | film : 12 to 25 {written}\n"
            f"inside\n  thick : film = 25.4 {declared}\n"
        )
        d = made.declaration("film")
        assert isinstance(d, NumberDecl)
        assert d.unit == find_unit(declared)
        assert f"12 {d.unit.symbol} <= film <= 25 {d.unit.symbol}" in text


def test_how_much_a_closed_list_allows_is_no_stretch() -> None:
    text = page(
        "balm  composition in wt%\n  wax\n  oil\n  impurities\n"
        "1. A balm consisting of wax and oil.\n   | balm : consisting of wax and oil\n"
        "inside\n  batch : wax = 50 wt%, oil = 49.6 wt%, impurities in balm = 0.4 wt%\n"
    )
    assert 'Kept in once "consisting of wax and oil" allows 0.4 wt% or more beside what it lists' in text
    assert "nothing being allowed beside what it lists" in text


def test_a_case_whose_name_would_run_into_the_sentence_is_quoted() -> None:
    made = sheet(OILS.format(cases="inside\n  with lid : gap = 3 mm\n  wide : gap = 3 mm\n"))
    assert [case_text(made, c.name) for c in made.cases] == ['"with lid"', "wide"]


def test_claims_of_another_category_are_told_together() -> None:
    text = page(
        "gap  length in mm\nfiring  step in min\n1. A sieve with a gap of 2 to 4 mm.\n   | gap : 2 to 4 mm\n"
        "2. A method of making the sieve of claim 1, comprising firing for 3 to 5 minutes.\n"
        "   | firing : for 3 to 5 minutes\n"
        "3. A method of making the sieve of claim 1, comprising firing for 6 to 9 minutes.\n"
        "   | firing : for 6 to 9 minutes\n"
    )
    assert "Claims 2 and 3 name claim 1 and are of another category. They were handled as" in text


def test_numbers_in_words() -> None:
    assert [number_word(n) for n in (1, 5, 12, 13)] == ["one", "five", "twelve", "13"]
