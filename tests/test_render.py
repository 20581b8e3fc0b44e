"""The formats: text, Markdown, JSON, and pictures of one quantity."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest

from scopecheck.answers.about import Reread, Unmeant
from scopecheck.answers.findings import Shown
from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.construction import base_construction
from scopecheck.core.formula import All
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.report.blocks import Picture, Report
from scopecheck.report.lines import NumberLine, Stretch, ValueTable
from scopecheck.report.page import build_report
from scopecheck.report.render import render, wants_colour
from scopecheck.report.render.markdown import escaped
from scopecheck.report.render.number_line import draw_number_line, draw_value_table, legend, stretches_text
from scopecheck.solving.ends import Extremum
from tests.reported import (
    ARTICLE,
    STRAINER,
    answered,
    answers_of,
    found,
    items_of,
    many,
    span,
    stretch,
    text_of,
)

EVERY = "Wrong on every reading listed"

# ---- formats


def test_text_keeps_within_its_width() -> None:
    for width in (60, 80, 100):
        text = text_of(answered(), everything=True, width=width)
        assert max(len(line) for line in text.split("\n")) <= width
    assert max(len(line) for line in text_of(answered(), width=300).split("\n")) <= 100


def test_colour_only_when_asked_for_and_without_changing_the_words() -> None:
    report = build_report(STRAINER, answered(), False)
    plain, coloured = render(report, "text", 90), render(report, "text", 90, colour=True)
    assert "\x1b" not in plain
    assert "\x1b" in coloured
    stripped = coloured
    for code in ("\x1b[1m", "\x1b[2m", "\x1b[0m"):
        stripped = stripped.replace(code, "")
    assert [line.rstrip() for line in stripped.split("\n")] == plain.split("\n")


@pytest.mark.parametrize(
    ("terminal", "environment", "wanted"),
    [(True, {}, True), (False, {}, False), (True, {"NO_COLOR": "1"}, False), (True, {"TERM": "dumb"}, False)],
)
def test_when_colour_is_wanted(terminal: bool, environment: dict[str, str], wanted: bool) -> None:
    assert wants_colour(terminal, environment) is wanted


def test_control_characters_of_a_sheet_reach_no_output() -> None:
    sheet = replace(STRAINER, title="A\x1b[31m title\x07", confidential="\x1b]0;x\x07Secret")
    for format in ("text", "markdown"):
        drawn = render(build_report(sheet, answers_of(sheet=sheet), True), format)
        assert not any(ord(c) < 32 and c != "\n" for c in drawn)


def test_warnings_are_told_before_the_findings_and_stand_below_them() -> None:
    warning = Diagnostic("warning", span("divisible by 6"), "a question about this line")
    report = build_report(STRAINER, answers_of(*many(1)), False, diagnostics=(warning,))
    text = render(report, "text")
    assert text.index("1 warning on how the sheet is read") < text.index(EVERY)
    assert text.index(EVERY) < text.index("a question about this line")
    assert json.loads(render(report, "json"))["diagnostics"][0]["line"] == 2


def test_markdown_shows_the_words_of_the_sheet_as_they_stand() -> None:
    assert escaped("a*b [1] <b> 2 <= x | y_z `c`") == r"a\*b \[1\] \<b> 2 <= x \| y\_z \`c\`"
    assert escaped("# 1") == r"\# 1"
    assert escaped("1. A") == r"1\. A"
    drawn = render(build_report(STRAINER, answered(), False), "markdown")
    assert drawn.startswith("**Confidential: prepared for counsel**\n\n# Leaf strainer")
    assert '### 4. 1b "between 2 and 4 mm"' in drawn
    assert (
        "- *Decision:* Are the ends included? The claims leave this open at 2 places; at each it "
        "changes whether some thing, listed or not, is met." in drawn
    )
    assert "- *Raised by:* a competitor, who reads more narrowly" in drawn


def parsed(report: Report) -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads(render(report, "json"))
    return loaded


def test_json_carries_every_finding_with_exact_numbers() -> None:
    data = parsed(build_report(STRAINER, answered(), False))
    assert data["schema_version"] == 1
    assert len(data["findings"]) == len(answered().findings)
    loss = next(f for f in data["findings"] if f["question"] == "inside lost")
    assert loss["place"] == {"line": 2, "column": 1, "words": "", "label": "claim 1", "claim": 1}
    assert loss["limitations"] == [{"label": "1b", "words": "between 2 and 4 mm"}]
    assert loss["quantifier"] == "some"
    assert loss["failing"] == ["1b"]
    assert [r["reading"] for r in loss["rereads"]] == ["both ends out"]
    assert loss["rereads"][0]["places"][0]["where"] == "1b"
    diameter = next(v for v in loss["article"] if v["name"] == "diameter")
    assert diameter == {"name": "diameter", "exact": "4/1", "unit": "mm", "written": "4 mm"}
    metal = next(v for v in loss["article"] if v["name"] == "metal")
    assert metal["members"] == ["copper"]
    groups = {g["words"]: g for g in loss["construction"]["groups"]}
    assert groups["divisible by"]["reading"] == "integer quotient"
    assert groups["between ... and ..."]["standing"] == "arguable"


def test_json_items_point_at_findings() -> None:
    data = parsed(build_report(STRAINER, answered(), False))
    questions = [[data["findings"][i]["question"] for i in item["findings"]] for item in data["items"]]
    assert questions == [["dependent cannot be met"], ["document met"], ["outside met"], ["inside lost"]]
    assert data["exit_status"] == 1


def test_json_carries_twin_break_points_and_fractions() -> None:
    parameter = stretch(0)
    sheet = replace(STRAINER, parameters=(parameter,))
    point = BreakPoint("e", Extremum(Fraction(1, 35), True), True)
    k = base_construction(sheet)
    witness = verify(sheet, {**ARTICLE, "diameter": Fraction(34, 11000)}, (Obligation(All(()), "met", k),))
    finding = replace(
        found("unmeant met", 2, "1a", "divisible by 6"),
        rereads=(Reread(0, 0, (point,)),), thing=Shown(witness), about=Unmeant(witness), construction=k,
    )  # fmt: skip
    (data,) = parsed(build_report(sheet, answers_of(finding, sheet=sheet), False))["findings"]
    assert data["break_points"][0]["exact"] == "1/35"
    assert data["break_points"][0]["closed"] is True
    assert data["break_points"][0]["text"].endswith("stretches by about 2.86 % or more")
    assert data["twin"][1] == {
        "name": "diameter",
        "exact": "34/11",
        "unit": "mm",
        "written": "about 3.09 mm",
    }
    assert data["construction"]["parameters"][0]["exact"] == "0/1"


# ---- pictures


LINE = NumberLine(
    "diameter",
    "mm",
    (
        ("both ends in", (Stretch(Fraction(2), True, Fraction(4), True),)),
        ("both ends out", (Stretch(Fraction(2), False, Fraction(4), False),)),
        ("from 4 upward", (Stretch(Fraction(4), True, None, False),)),
        ("nothing", ()),
    ),
    (("D1", Fraction(21, 5)),),
)


def test_a_number_line_marks_ends_as_open_or_closed() -> None:
    assert draw_number_line(LINE, unicode=False) == [
        "diameter, mm       2      4     4.2",
        "both ends in   ....*======*...........",
        "both ends out  ....o======o...........",
        "from 4 upward  ...........*===========",
        "nothing        .......................",
        "                                 ^ D1",
    ]
    assert draw_number_line(LINE)[1:3] == [
        "both ends in   ┈┈┈┈●━━━━━━●┈┈┈┈┈┈┈┈┈┈┈",
        "both ends out  ┈┈┈┈○━━━━━━○┈┈┈┈┈┈┈┈┈┈┈",
    ]
    assert "● end included   ○ end not included" in legend(LINE)


def test_a_number_line_too_wide_is_told_in_words() -> None:
    assert draw_number_line(LINE, width=30)[1:5] == [
        "both ends in   ● 2 to 4 ●",
        "both ends out  ○ 2 to 4 ○",
        "from 4 upward  ● 4 and more",
        "nothing        no value",
    ]


@pytest.mark.parametrize(
    ("stretch", "text"),
    [
        (Stretch(None, False, None, False), "every value"),
        (Stretch(None, False, Fraction(3), False), "up to 3 o"),
        (Stretch(Fraction(7), True, Fraction(7), True), "* 7"),
    ],
)
def test_stretches_in_words(stretch: Stretch, text: str) -> None:
    assert stretches_text([stretch], unicode=False) == text


def test_a_gap_of_one_value_stays_visible() -> None:
    gap = (Stretch(None, False, Fraction(0), False), Stretch(Fraction(0), False, None, False))
    line = NumberLine("x", "", (("not zero", gap),))
    assert draw_number_line(line, unicode=False)[1] == "not zero  ====o===="


def test_a_table_of_values() -> None:
    table = ValueTable(
        "holes", "", tuple(Fraction(n) for n in range(4)), (("whole", (True, False, None, True)),)
    )
    assert draw_value_table(table, unicode=False) == ["holes  0 1 2 3", "whole  x . ? x"]
    assert "without a value" in legend(table)
    assert draw_value_table(table, width=11, unicode=False)[:3] == ["holes  0 1", "whole  x .", ""]


def test_an_item_about_one_quantity_has_its_number_line() -> None:
    loss = next(item for item in items_of(answered()) if "tall sample" in item.statement)
    assert loss.picture is not None
    assert [label for label, _ in loss.picture.rows] == ["both ends in", "both ends out"]
    assert loss.picture.marks == (("tall sample", Fraction(4)),)


def test_a_picture_among_the_blocks_is_drawn_where_it_stands_and_is_data_too() -> None:
    report = build_report(STRAINER, answers_of(*many(1)), False)
    report = replace(report, blocks=(Picture(LINE), *report.blocks))
    text = render(report, "text")
    assert text.index("from 4 upward") < text.index(EVERY)
    assert parsed(report)["pictures"][0]["rows"][0]["met"][0]["low"] == "2/1"
