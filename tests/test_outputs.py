"""Every output of the worked sheets: what it may say, how long its foot is, and that nothing is lost."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import get_args

import pytest

from scopecheck.answers.about import OneReading
from scopecheck.commands.check import checked
from scopecheck.commands.options import Options
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import replace
from scopecheck.report.blocks import Heading, Item, Listing, Report
from scopecheck.report.render import Format, render
from tests.forbidden_words import forbidden_in
from tests.sheets import read_path, sheet

SHEETS = sorted((Path(__file__).parent.parent / "specs" / "sheets").glob("*.sheet"))
MOST_FOOT = 30
"""Lines of text in the foot of a first page, blank lines and headings left out."""
CAPITALS = re.compile(r"\b(ROUND|ABS|HALF AWAY|PLACE|FIGURE|DECADE|IS WHOLE|TRUE|FALSE|degC|\(diff\))\b")


@cache
def read(path: Path) -> Sheet:
    sheet, diagnostics = read_path(str(path))
    assert sheet is not None
    assert not [d for d in diagnostics if d.severity == "error"]
    return sheet


@cache
def report(path: Path, options: Options) -> Report:
    made, _ = checked(read(path), options, ())
    assert made is not None
    return made


def sheet_texts(path: Path) -> list[str]:
    """The whole sheet, and the names of which it speaks unquoted."""
    sheet = read(path)
    names = [sheet.title, sheet.confidential, *(d.name for d in sheet.declarations)]
    return [path.read_text("utf-8"), *names, *(c.name for c in sheet.cases)]


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
@pytest.mark.parametrize("everything", [False, True])
@pytest.mark.parametrize("format", get_args(Format))
def test_no_output_says_what_only_a_practitioner_may_say(
    path: Path, everything: bool, format: Format
) -> None:
    details = Options(format="json", everything=everything)
    options = details if format == "json" else replace(details, format="text")
    assert forbidden_in(render(report(path, options), format), sheet_texts(path)) == []


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
@pytest.mark.parametrize("everything", [False, True])
def test_the_exact_language_is_spoken_in_quotes_only(path: Path, everything: bool) -> None:
    text = " ".join(render(report(path, Options(everything=everything)), "text").split())
    assert not CAPITALS.findall(re.sub(r'"[^"]*"', "", text).replace("given upper level", ""))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_the_foot_of_a_first_page_is_short(path: Path) -> None:
    lines = render(report(path, Options()), "text").split("\n")
    foot = [line for line in lines[lines.index("What stands behind this page") + 2 :] if line]
    foot = [line for line in foot if line not in ("Looked for and not found", "What this rests on")]
    assert len(foot) <= MOST_FOOT
    assert not any("without a formula" in line and '"' in line for line in foot)


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_a_first_page_holds_ten_items_and_all_holds_the_rest(path: Path) -> None:
    assert len(report(path, Options()).items) <= 10
    full = report(path, Options(everything=True))
    assert not full.held_back
    told = {id(f) for b in full.blocks if isinstance(b, Item) for f in (*b.findings, *b.consequences)}
    assert all(id(f) in told for f in full.order if f.stakes < 6)


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_a_contested_reading_is_shown_by_a_thing_where_all_is_asked_for(path: Path) -> None:
    order = report(path, Options(everything=True)).order
    contested = [
        f
        for f in order
        if isinstance(f.about, OneReading) and f.about.change not in ("with others", "nothing")
    ]
    assert all(f.witness is not None for f in contested)
    assert not any(f.witness for f in report(path, Options()).order if f.question == "contested")


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_json_holds_every_finding_and_every_thing(path: Path) -> None:
    made = report(path, Options(format="json"))
    data = json.loads(render(made, "json"))
    assert data["schema_version"] == 1
    assert len(data["findings"]) == len(made.answers.findings)
    narrows = [f for f in data["findings"] if f["question"] == "narrows" and f["outcome"] == "shown"]
    assert all(f["article"] for f in narrows)


def test_pairs_without_a_case_are_listed_openly() -> None:
    strainer = next(path for path in SHEETS if path.stem == "strainer")
    text = " ".join(render(report(strainer, Options()), "text").split())
    quiet = text.split("Other words that can be read more than one way")[1]
    pair = 'Claim 1, two phrases together: "a number of holes" and "divisible by 6"'
    assert f"{pair}: only when both are re-read" in quiet
    assert "neither alone does it" in quiet


def test_a_pair_that_a_listed_case_shows_is_told_once() -> None:
    mortar = next(path for path in SHEETS if path.stem == "mortar")
    assert render(report(mortar, Options()), "text").count("two phrases together") == 1


def test_sections_of_a_first_page_stand_in_order() -> None:
    strainer = next(path for path in SHEETS if path.stem == "strainer")
    titles = [b.text for b in report(strainer, Options()).blocks if isinstance(b, Heading)]
    assert titles == [
        "Leaf strainer for a rain-water pipe",
        "Wrong on every reading listed",
        "Met on some reading: what must stay out, and documents",
        "Lost in part or on some reading: what must be inside",
        "Documents that meet a claim only at an end of a range",
        "Not as meant: things let in or left out",
        "Other words that can be read more than one way",
        "Also shown, on the usual readings unless said otherwise",
        "What stands behind this page",
        "Looked for and not found",
        "What this rests on",
    ]


UNSAID = """
flow  speed in m/s
1. A dryer for bowls with a flow of at least 2 m/s, wherein the ratio between inflow and outflow is kept,
   and the average humidity is shown in a window that a keeper reads from without opening the door, each bowl
   standing alone.
   | flow : at least 2 m/s
"""


def test_words_close_together_that_no_line_restates_are_told_in_one_line_with_their_count() -> None:
    made, _ = checked(sheet(UNSAID), Options(), ())
    assert made is not None
    blocks = [b for b in made.blocks if isinstance(b, Heading | Listing)]
    at = next(i for i, b in enumerate(blocks) if isinstance(b, Heading) and b.text.startswith("Text that"))
    account = blocks[at + 1]
    assert isinstance(account, Listing)
    close, alone = account.lines
    assert close.startswith('Claim 1, line 3: 4 places, "ratio", "between", "and" and "average", in "')
    assert "ratio between inflow and outflow is kept, and the average humidity is shown" in close
    assert close.endswith('; beside it, line 6 restates "at least 2 m/s"')
    assert 'limiting word "each"' in alone
    assert len(made.sheet.unrestated) == 5
