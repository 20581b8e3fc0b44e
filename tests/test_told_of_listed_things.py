"""What an item says of words that are not read, and where a listed thing or a document is told of at all."""

from __future__ import annotations

import pytest

from scopecheck.answers.about import CloseBy
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions import ask_all
from scopecheck.core.grounds import SettledWords
from scopecheck.foundations.spans import Source
from scopecheck.report.page import build_report, exit_status
from scopecheck.report.render import render
from scopecheck.resolve.sheet import read_sheet
from tests.reported import one_line
from tests.sheets import sheet


def page(text: str, everything: bool = False) -> str:
    read, told = read_sheet(Source("t.sheet", text))
    assert read is not None, told
    made = build_report(read, ask_all(read), everything, diagnostics=told)
    return one_line(render(made, "text", 96))


# ---- words that are read past

POWDER = """\
profile  US court
surface  in m2/g
dose     mass in mg
1. A powder having a surface of 1.0 to 4 m2/g{first}.
   | surface : 1.0 to 4 m2/g{first}
2. The powder of claim 1, wherein the surface is 1.0 to 4 m2/g{second}.
   | surface : 1.0 to 4 m2/g{second}
inside      surface   dose
  own       2.5 m2/g  20 mg
must stay out
  coarse    3.9 m2/g  20 mg
"""
PRESSED = ", measured before pressing"
NOT_READ = "'measured before pressing' is not read."


def test_an_item_names_the_words_of_its_line_that_are_read_past() -> None:
    text = page(POWDER.format(first="", second=PRESSED))
    assert 'Claim 2 adds nothing to what it depends on: whatever meets 1a "1.0 to 4 m2/g" meets it,' in text
    assert f"as restated. {NOT_READ} Read with" in text
    assert "Wrong on every reading listed, some words of the lines not being read ─" in text
    # what the coarse one meets on every reading is told of claim 1, all of whose words are read
    assert text.index("Met by coarse as listed") < text.index("some words of the lines not being read ─")


def test_of_a_line_that_an_item_does_not_show_it_says_that_not_all_is_read() -> None:
    text = page(POWDER.format(first=PRESSED, second=""))
    met = text.partition("Met by coarse as listed")[2].partition("Read with")[0]
    assert NOT_READ in met or "Not all words of 1a are read." in met
    added = text.partition("Claim 2 adds nothing")[2].partition("Read with")[0]
    assert "Not all words of 1a are read." in added


def test_nothing_is_said_where_all_words_are_read() -> None:
    assert "not read" not in page(POWDER.format(first="", second=""))


# ---- listed things that no item tells of

TWO = """\
profile  US court
a, b  mass in mg
c     length in mm
1. A tablet wherein the ratio of a to b is about 1:5 and the c is {c}.
   | a, b : the ratio of a to b is about 1:5
   | c    : {c}
inside     a      b       c
  own      65 mg  325 mg  3 mm
must stay out
  far      37.5 mg  325 mg  3 mm
  further  50 mg  325 mg  3 mm
  small    65 mg  325 mg  2.6 mm
"""


def test_a_thing_that_takes_a_wide_stretch_is_named_on_the_first_page() -> None:
    """37.5 : 325 is 42.3 % below 1 : 5, 50 : 325 is 23.1 %; 2.6 mm rounds to 3 mm, which is told before."""
    text = page(TWO.format(c="at least 3 mm"))
    assert "Met by small as listed" in text
    line = text.partition("Listed things that no item above tells of: ")[2].partition(". ")[0]
    assert line.count("meets claim 1 once") == 2
    assert "far meets claim 1 once" in line
    assert "stretches by about 42.3 % or more" in text


def test_no_such_line_stands_where_every_thing_has_its_item() -> None:
    assert "no item above tells of" not in page(TWO.format(c="at least 3 mm"), everything=True)


# ---- a document's range beside a claim

BOARD = """\
profile    {profile}
density    density in kg/m3
thickness  length in mm
width      length in mm
1. A board having a density of more than 40 kg/m3 and less than 96 kg/m3, and a thickness of 3 to 12 mm{more}.
   | density   : more than 40 kg/m3 and less than 96 kg/m3
   | thickness : 3 to 12 mm
{line}document D1
  row : {row}    "column 2"
"""
WIDE = {"more": ", the width being at least 20 mm", "line": "   | width : at least 20 mm\n"}


def close(row: str, profile: str = "US", more: bool = False) -> list[Finding]:
    own = WIDE if more else {"more": "", "line": ""}
    made = sheet(BOARD.format(row=row, profile=profile, **own))
    return [f for f in ask_all(made).findings if f.question == "document close by"]


@pytest.mark.parametrize(
    ("row", "detail", "lines"),
    [
        ("96 kg/m3 <= density <= 400 kg/m3, thickness = 6 mm", "beside", ("1a",)),
        ("10 kg/m3 <= density <= 40 kg/m3, thickness = 6 mm", "beside", ("1a",)),
        ("20 kg/m3 <= density <= 60 kg/m3, 1 mm <= thickness <= 20 mm", "shares", ("1a", "1b")),
    ],
)  # fmt: skip
def test_a_range_beside_a_claim_or_in_it_in_part_is_an_item(
    row: str, detail: str, lines: tuple[str, ...]
) -> None:
    found = close(row)
    told = [(f.about, f.stakes) for f in found]
    close_ones = [(a.how, a.lines, stakes) for a, stakes in told if isinstance(a, CloseBy)]
    assert [own for own in close_ones if own[0] == detail] == [(detail, lines, 4)]
    assert not close(row, "EPO")


@pytest.mark.parametrize(
    "row",
    [
        "97 kg/m3 <= density <= 400 kg/m3, thickness = 6 mm",  # something lies between
        "96 kg/m3 <= density <= 400 kg/m3, thickness = 20 mm",  # another line keeps it out
        "96 kg/m3 < density <= 400 kg/m3, 13 mm <= thickness <= 20 mm",
        "50 kg/m3 <= density <= 60 kg/m3, thickness = 6 mm",  # it is met, and so told
    ],
)
def test_no_item_where_something_lies_between_or_more_keeps_it_out(row: str) -> None:
    assert not close(row)


def test_what_the_document_is_silent_on_is_told() -> None:
    row = "80 kg/m3 <= density <= 400 kg/m3"
    (found,) = close(row, more=True)
    assert found.about == CloseBy("shares an end", ("1a",), ("1b", "1c"))
    text = page(BOARD.format(row=row, profile="US", **WIDE))
    assert 'Some of what document D1, row at "column 2" states meets 1a (shared: density' in text
    assert "Of the ends that it states density 80 kg/m3 lies within, but it says nothing of thickness" in text
    assert "so that 1b and 1c stay open there." in text
    assert "overlaps claim 1" not in text


def test_what_lies_beside_is_told_with_both_ranges_and_no_verdict() -> None:
    row = "96 kg/m3 <= density <= 400 kg/m3, thickness = 6 mm"
    text = page(BOARD.format(row=row, profile="US", more="", line=""))
    assert (
        'Document D1, row at "column 2", lies directly beside claim 1: 1a asks for density above 40 kg/m3 and'
        " below 96 kg/m3, and it states 96 kg/m3 to 400 kg/m3. Nothing lies between the two, and nothing is"
        " shared. Nothing else that it states keeps it out."
    ) in text
    assert "lies apart from claim 1" not in text
    assert exit_status(ask_all(sheet(BOARD.format(row=row, profile="US", more="", line="")))) == 1


# ---- where something is not so

JAR = """\
profile  US court
gap, lid  length in mm
1. A jar with a gap of between 2 and 4 mm and a lid of 5 to 9 mm.
   | gap : between 2 and 4 mm
   | lid : 5 to 9 mm
2. The jar of claim 1, wherein the gap is at most 4.0 mm.
   | gap : at most 4.0 mm
3. The jar of claim 1, wherein the gap is at least 3 mm and the lid is at most 9.2 mm.
   | gap : at least 3 mm
   | lid : at most 9.2 mm
"""


def test_what_a_claim_leaves_out_once_it_narrows_is_shown() -> None:
    text = page(JAR)
    assert (
        'Narrows if "between 2 and 4 mm" is read as "rounds to the ends" (arguable)'
        " so a thing with gap 4.1 mm is left out"
    ) in text


def test_the_reading_on_which_a_line_is_not_idle_is_named() -> None:
    text = page(JAR)
    assert "Asks for nothing that the rest of claim 3 does not ask already" in text
    assert 'Not so if "5 to 9 mm" is read as "rounds to the ends" (arguable)' in text
    assert "Not so on every reading listed." not in text


# ---- said once

MODULES = """\
modules  count
1. A plant with at least two membrane modules.
   | modules : at least two membrane modules
2. The plant of claim 1, with at most nine membrane modules.
   | modules : at most nine membrane modules
"""


def test_a_warning_on_several_lines_is_told_once_with_each_line() -> None:
    text = page(MODULES)
    assert text.count("warning: 'membrane' is read past") == 1
    assert "the same at line 5:" in text


def test_what_is_lost_does_not_rest_on_a_policy_that_takes_narrower_readings_away() -> None:
    """With the ends left out 4.01 mm is lost as well; that nothing rounds is what it is lost by."""
    text = (
        "d  length in mm\n1. A bar with a d of between 2 and 4 mm.\n   | d : between 2 and 4 mm\n"
        'inside  d\n  own  4.01 mm\npolicy  ends are included    "page 1"\n{more}'
    )
    rests = [f.rests_on for f in ask_all(sheet(text.format(more=""))).findings if f.question == "inside lost"]
    assert rests == [()]
    unrounded = ask_all(sheet(text.format(more='policy  rounding is none    "page 2"\n'))).findings
    assert [f.rests_on for f in unrounded if f.question == "inside lost"] == [
        (SettledWords("rounding is none", "page 2"),)
    ]
