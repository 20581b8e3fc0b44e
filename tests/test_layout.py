"""Which lines belong together, and where a claim's text ends."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.language.layout import Page, blocks
from tests.sheets import errors, sheet


def laid_out(text: str) -> list[tuple[str, list[str]]]:
    p = Page(Source("test", text))
    found, diagnostics = blocks(p)
    assert not diagnostics, diagnostics
    return [(b.heading, [p.plain[x.start : x.end] for x in (b.head, *b.body)]) for b in found]


def test_indented_lines_belong_to_the_statement_above() -> None:
    text = "given a = b,\n  c = d\n\n  e = f\ntitle x\n"
    assert laid_out(text) == [("given", ["given a = b,", "c = d", "e = f"]), ("title", ["title x"])]


def test_claim_text_goes_on_over_unindented_lines_until_a_blank_line() -> None:
    text = "1. A sieve\ncomprising holes,\n  and a rim.\n| holes : a plurality\n\nholes  count\n"
    assert laid_out(text) == [
        ("claim", ["1. A sieve", "comprising holes,", "and a rim.", "| holes : a plurality"]),
        ("declaration", ["holes  count"]),
    ]


@pytest.mark.parametrize("number", ["2.", "2)", "2 ."])
def test_claims_begin_with_their_number(number: str) -> None:
    found = laid_out(f"1. A sieve.\n{number} The sieve of claim 1.\n")
    assert [heading for heading, _ in found] == ["claim", "claim"]


def test_indented_next_claim_after_a_full_stop_is_a_claim() -> None:
    assert len(laid_out("1. A sieve.\n  2. The sieve of claim 1.\n")) == 2
    assert len(laid_out("1. A method comprising\n  2. stirring.\n")) == 1


def test_decimal_at_line_start_is_no_claim_number() -> None:
    assert len(laid_out("1. A sieve with holes of\n2.5 mm.\n")) == 1


def test_line_that_could_be_text_or_heading_is_an_error_with_both_ways() -> None:
    (error,) = errors("holes  count\n\n1. A sieve comprising\ninside   holes\n  one   6\n")
    assert error.message == "text of claim 1, or the heading 'inside'?"
    assert "indent the line" in error.help
    assert "blank line" in error.help


def test_indented_heading_word_stays_text() -> None:
    made = sheet("1. A sieve with a unit\n   inside   the pipe.\n")
    assert made.claims[0].text == "A sieve with a unit inside the pipe."


def test_declaration_right_after_claim_text_is_an_error() -> None:
    (error,) = errors("1. A sieve of some kind,\nholes   count\n")
    assert error.message == "text of claim 1, or a declaration?"


def test_comments_and_typographic_signs() -> None:
    text = (
        "# whole line\nd\u00a0\u00a0length in mm  # after two blanks\n\n"
        "1. A thing of d “x”.\n   # inside\n   | d ≤ 4 mm   # end\n"
    )
    made = sheet(text)
    assert [d.name for d in made.declarations] == ["d"]
    assert [x.text for x in made.claims[0].limitations] == ["d ≤ 4 mm"]


def test_hash_in_claim_text_is_text() -> None:
    assert sheet("1. A thing of size  #4.\n").claims[0].text == "A thing of size #4."


def test_name_that_begins_with_a_heading_word() -> None:
    made = sheet("inside diameter   length in mm\n\n1. A pipe.\n")
    assert made.declarations[0].name == "inside diameter"


def test_cells_by_tabs_and_by_blanks_mean_the_same() -> None:
    rows = ["inside  a   b\n  one   3   4\n", "inside\ta\tb\n\tone\t3\t4\n"]
    facts = [sheet(f"a  count\nb  count\n\n1. A thing.\n\n{row}").cases[0].facts for row in rows]
    assert facts[0] == facts[1]


def test_empty_cell_between_tabs_is_free_in_a_thing_and_silent_in_a_document() -> None:
    head = "a  count\nb  count\nc  count\n\n1. A thing.\n\n"
    thing = sheet(f"{head}inside\ta\tb\tc\n\tone\t3\t\t5\n").cases[0]
    assert (thing.stated, thing.silent) == (("a", "c"), ())
    document = sheet(f"{head}inside\ta\tb\tc\n\tx\t1\t2\t3\ndocument D\n\tone\t3\t\t5\n").cases[1]
    assert (document.stated, document.silent) == (("a", "c"), ("b",))


def test_carriage_returns_change_nothing() -> None:
    text = "a  count\n\n1. A thing.\n   | a <= 3\n"
    assert (
        sheet(text).claims[0].limitations[0].formula
        == sheet(text.replace("\n", "\r\n")).claims[0].limitations[0].formula
    )


@pytest.mark.parametrize(
    "text", ["title: x\nprofile: EPO\nfiled: yes\n", "Title  x\nProfile epo\nFiled Yes\n"]
)
def test_headings_take_a_colon_and_either_case(text: str) -> None:
    made = sheet(f"{text}\n1. A thing.\n")
    assert (made.title, made.profile, made.filed) == ("x", "EPO", True)


def test_policy_takes_a_colon() -> None:
    text = "a  length in mm\n\n1. A thing between 2 and 4 mm.\n  | a : between 2 and 4 mm\n\n"
    assert sheet(f"{text}policy: ends are included\n").policies[0].removed


def test_document_in_a_name_is_told_from_a_document() -> None:
    made = sheet("document width  length in mm\n\n1. A thing.\n")
    assert [d.name for d in made.declarations] == ["document width"]
    made = sheet("a  length in mm\n\n1. A thing.\n\ndocument D  a in mm\n  one   3\n")
    assert [(c.name, c.role) for c in made.cases] == [("D, one", "document")]


@pytest.mark.parametrize("gap", ["\t", "   "])
def test_rows_directly_below_a_heading_need_no_indentation(gap: str) -> None:
    head = "a  count\nb  count\n\n1. A thing.\n\n"
    rows = f"inside{gap}a{gap}b\none{gap}3{gap}4\ntwo{gap}5{gap}6\nmust stay out\nthree{gap}7{gap}8\n"
    assert [(c.name, c.role) for c in sheet(head + rows).cases] == [
        ("one", "inside"),
        ("two", "inside"),
        ("three", "outside"),
    ]
    more = sheet(f"1. A thing.\n\n{rows}a{gap}count\nb{gap}count\n")
    assert [d.name for d in more.declarations] == ["a", "b"]
    assert len(more.cases) == 3


@pytest.mark.parametrize("targets", ["for 2", "for claim 2", "for claims 2", "(claim 2)", "(for claim 2)"])
def test_claims_that_cases_are_for(targets: str) -> None:
    head = "a  count\n\n1. A thing.\n2. The thing of claim 1.\n\n"
    assert sheet(f"{head}inside {targets}   a\n  x   3\n").cases[0].targets == ("2",)
    assert sheet(f"{head}inside   {targets}   a\n  x   3\n").cases[0].targets == ("2",)


def test_claim_word_in_a_document_name_is_no_target() -> None:
    made = sheet("a  count\n\n1. A thing.\n\ninside   a\n  x   3\ndocument D1 claim 1   4\n")
    assert (made.cases[1].name, made.cases[1].targets) == ("D1 claim 1", ())


@pytest.mark.parametrize("column", ["a in mm", "a (mm)", "a [mm]"])
def test_unit_in_a_column_heading(column: str) -> None:
    made = sheet(f"a  length in mm\n\n1. A thing.\n\ninside   {column}\n  x   3\n")
    assert made.cases[0].stated == ("a",)


def test_columns_in_a_document_heading() -> None:
    made = sheet("1. A thing.\n\ndocument D   a   b\n  x   3   4\n\na, b  count\n")
    assert made.cases[0].stated == ("a", "b")


def test_reference_to_a_claim_at_a_line_start_is_text() -> None:
    assert len(laid_out("1. A sieve.\n2. The sieve as in\nclaim 1, with a rim.\n")) == 2


def test_claim_with_the_word_before_its_number_is_read_on() -> None:
    found = errors("a  count\n\nClaim 1. A thing with 3 ribs.\n  | a : 3\nClaim 2. The thing of claim 1.\n")
    assert [d.message for d in found] == ["a claim begins with its number alone"] * 2


TILE = """\
glaze  composition in wt%
  frit, water
rod    part, 1 to 4
  length  length in mm

1. A thing.

"""


@pytest.mark.parametrize(
    "lines",
    [
        "document D  frit  rods  length of rods\n  x   3 wt%  2  4 mm; 5 mm\n  y   4 wt%  1  4 mm\n",
        "document D  example  frit  rods  length of rods\n  x   3 wt%  2  4 mm; 5 mm\n  y   4 wt%  1  4 mm\n",
        "document D\n     frit  rods  length of rods\n  x   3 wt%  2  4 mm; 5 mm\n  y   4 wt%  1  4 mm\n",
        "document D\n  name  frit  rods  length of rods\n  x   3 wt%  2  4 mm; 5 mm\n  y   4 wt%  1  4 mm\n",
    ],
)
def test_columns_of_a_document_stand_where_people_put_them(lines: str) -> None:
    assert [c.name for c in sheet(TILE + lines).cases] == ["D, x", "D, y"]


def test_columns_without_a_document_and_with_a_name_that_is_not_declared() -> None:
    (nameless,) = errors(TILE + "document  frit  water\n  D1   3 wt%  97 wt%\n")
    assert nameless.message == "columns of a document without a name"
    assert "write document D1   frit  water" in nameless.help
    (unknown,) = errors(TILE + "document D1  frit  watre\n  x   3 wt%  97 wt%\n")
    assert unknown.help == "did you mean 'water'?"
    (several,) = errors(TILE + "documents  frit  water\n  D1   3 wt%  97 wt%\n")
    assert "did you mean 'document'?" in several.help
