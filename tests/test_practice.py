"""A practice's own phrases: where their file lies, what is asked of each, what the report tells of them."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from typer.testing import CliRunner

from scopecheck.cli import app
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.spans import Source
from scopecheck.matching.practice import loaded
from scopecheck.report.alike import readings_alike
from scopecheck.resolve.sheet import read_sheet
from tests.sheets import read_path

HOUSE = """\
phrase "well clear of (L)"
  reading "by a margin" : x >= 1.1 * L
    taken by "the practice"
  reading "not touching it" : x > L
    taken by "a challenger"
  presumed US : "by a margin"
  presumed EPO : none
  exact wording "greater than {L} by at least 10 %"
  source "house glossary" : own practice
"""
UP_TO = HOUSE.replace("well clear of (L)", "up to (L)").replace(">=", "<=").replace("x > L", "x < L")
SHEET = """\
phrases  house.phrases
gap  length in mm

1. A thing with a gap of well clear of 3 mm.
   | gap : well clear of 3 mm
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("house.phrases").write_text(HOUSE, "utf-8")
    return tmp_path


def told(line: str) -> Diagnostic:
    """The one mistake of a sheet with this line in its head."""
    made, wrong = read_sheet(Source("leaf.sheet", f"{line}\ngap  length in mm\n\n1. A thing.\n"))
    assert made is None
    (diagnostic,) = wrong
    return diagnostic


# ---- the file


def test_the_file_lies_beside_the_sheet_wherever_that_is(folder: Path) -> None:
    (folder / "matter" / "forms").mkdir(parents=True)
    (folder / "matter" / "forms" / "ours.phrases").write_text(HOUSE, "utf-8")
    (folder / "matter" / "leaf.sheet").write_text(SHEET.replace("house", "forms/ours"), "utf-8")
    made, wrong = read_path("matter/leaf.sheet")
    assert not wrong
    assert made is not None
    assert [s.name for s in made.phrase_files] == [str(Path("matter/forms/ours.phrases"))]
    assert [(g.own.file, g.own.line) for g in made.groups if g.own] == [("ours.phrases", 1)]


@pytest.mark.parametrize(
    "name", ["../house.phrases", "forms/../house.phrases", "/house.phrases", "C:\\house.phrases",
             "..\\house.phrases", "\\house.phrases", "{folder}/house.phrases"]
)  # fmt: skip
def test_a_file_outside_the_folder_is_refused(folder: Path, name: str) -> None:
    found = told(f"phrases {name.format(folder=folder)}")
    assert "is not in the folder of the sheet" in found.message
    assert (found.span.source.name, found.span.line, found.span.column) == ("leaf.sheet", 1, 9)


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        ("hous.phrases", None, "there is no such file"),
        (".", None, "this is a directory, not a phrase file"),
        ("bytes.phrases", b"phrase \xff\xfe", "the file is not text in UTF-8"),
        ("zero.phrases", b"phrase \0", "the file is not text"),
    ],
)
def test_what_is_wrong_with_the_file_is_told_at_the_line_that_names_it(
    name: str, content: bytes | None, message: str
) -> None:
    if content is not None:
        Path(name).write_bytes(content)
    found = told(f"phrases {name}")
    assert found.message == f"{message}: '{name}'"
    assert (found.span.source.name, found.span.line) == ("leaf.sheet", 1)


def test_a_name_that_is_nearly_right_is_offered() -> None:
    assert told("phrases hous.phrases").help == "did you mean 'house.phrases'?"


def test_the_file_is_named_once() -> None:
    text = SHEET.replace("gap  length", "phrases house.phrases\ngap  length")
    made, wrong = read_sheet(Source("leaf.sheet", text))
    assert made is None
    assert [d.message for d in wrong] == ["'phrases' is given twice"]


# ---- what is asked of each phrase


@dataclass(frozen=True)
class Fault:
    """What is changed in the sample, the line of the file that is named, and what is told."""

    old: str
    new: str
    line: int
    message: str


FAULTS = [
    Fault('  source "house glossary" : own practice\n', "", 1, "a phrase without a source"),
    Fault(": own practice", ": own practise", 9, "'own practise' is no tag of a source"),
    Fault('  exact wording "greater than {L} by at least 10 %"\n', "", 1,
          "a phrase without a more exact wording"),
    Fault("{L} by", "{U} by", 8, "'{U}' stands for nothing in the phrase"),
    Fault('    taken by "a challenger"\n', "", 4, "nothing says who takes the reading 'not touching it'"),
    Fault('  reading "not touching it" : x > L\n    taken by "a challenger"\n', "", 1,
          "a phrase with one reading"),
    Fault('  presumed US : "by a margin"\n  presumed EPO : none\n', "", 1,
          "nothing says which reading is presumed"),
    Fault('presumed US : "by a margin"', 'presumed US : "by margin"', 1,
          "the phrase has no reading 'by margin'"),
    Fault("x > L", "x > gap", 4, "'gap' is none of the phrase's letters"),
    Fault("x > L", "x > > L", 4, "'>' was not expected here"),
    Fault("(L)\"\n", "(L)\"\n  also \"clear of the rest\"\n", 5,
          "the wording 'clear of the rest' has no (L)"),
    Fault(HOUSE[:7], "given x > 3\nphrase ", 1, "a phrase file holds phrases and nothing else"),
    Fault("x > L", "x >= 1.10 * L", 4, "the readings 'by a margin' and 'not touching it' mean the same"),
]  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.message)
def test_a_fault_is_told_in_the_file_at_its_line(fault: Fault) -> None:
    text = HOUSE.replace(fault.old, fault.new, 1)
    assert text != HOUSE
    source = Source("house.phrases", text)
    wrong = loaded(source).wrong or tuple(readings_alike((source,)))
    found = {d.message: (d.severity, d.span.source.name, d.span.line) for d in wrong}
    assert found.get(fault.message) == ("error", "house.phrases", fault.line), found
    assert all(d.help for d in wrong) or "expected" in fault.message, [draw(d) for d in wrong]


def test_the_sheet_is_not_checked_with_a_faulty_phrase_file() -> None:
    Path("house.phrases").write_text(HOUSE.replace("own practice", "hearsay"), "utf-8")
    Path("leaf.sheet").write_text(SHEET, "utf-8")
    result = CliRunner().invoke(app, ["check", "leaf.sheet"])
    assert result.exit_code == 2
    assert "house.phrases, line 9, column" in result.stderr
    assert not result.stdout


def test_no_wording_belongs_to_two_phrases_of_a_file() -> None:
    second = HOUSE.replace("well clear of (L)", "rather [well/very] near (L)", 1)
    third = HOUSE.replace("well clear of (L)", "rather near (L)", 1)
    wrong = loaded(Source("house.phrases", f"{HOUSE}\n{second}\n{third}")).wrong
    assert [(d.message, d.span.line) for d in wrong] == [
        ("two phrases have the wording 'rather near (number)'", 21)
    ]


def test_readings_that_nothing_was_tried_on_are_told_as_a_warning() -> None:
    text = HOUSE.replace('"well clear of (L)"', '"well clear of (L)"\n  only for sets')
    (first, second) = readings_alike((Source("house.phrases", text),))
    assert (first.severity, second.severity) == ("warning", "warning")
    assert first.message == "not looked whether the reading 'by a margin' differs from the others"


def test_letters_and_units_that_the_catalogue_does_not_use_are_tried_too() -> None:
    text = HOUSE.replace("(L)", "(z)").replace("* L", "* z").replace("{L}", "{z}")
    text = text.replace("x > L", "x >= 5 N.m")
    assert not loaded(Source("torque", text)).wrong
    assert not list(readings_alike((Source("torque", text),)))


# ---- what the report tells


def run(*arguments: str) -> str:
    result = CliRunner().invoke(app, list(arguments))
    assert result.exit_code in (0, 1), result.output
    return result.stdout


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_report_names_the_own_phrases_that_are_used() -> None:
    Path("leaf.sheet").write_text(SHEET, "utf-8")
    page = flat(run("check", "leaf.sheet", "--all"))
    assert 'Own phrase: "well clear of 3 mm" is "well clear of (L)" of house.phrases, line 1.' in page
    assert "(arguable; own phrase, house.phrases)" in page


def test_an_unused_phrase_is_not_told() -> None:
    Path("house.phrases").write_text(f"{HOUSE}\n{UP_TO}", "utf-8")
    Path("leaf.sheet").write_text(SHEET, "utf-8")
    assert "up to" not in run("check", "leaf.sheet")


@pytest.mark.parametrize("at_home", [True, False])
def test_a_phrase_with_the_words_of_a_built_in_one_takes_its_place(at_home: bool) -> None:
    """Whether it stands in the file or in the sheet itself."""
    Path("house.phrases").write_text(HOUSE if at_home else f"{HOUSE}\n{UP_TO}", "utf-8")
    sheet = SHEET.replace("well clear of", "up to") + (f"\n{UP_TO}" if at_home else "")
    Path("leaf.sheet").write_text(sheet, "utf-8")
    where = "this sheet, line 7" if at_home else "house.phrases, line 11"
    page = flat(run("check", "leaf.sheet"))
    of = f'Own phrase: "up to 3 mm" is "up to (L)" of {where}; it takes the place of "A3 up to (U)" of'
    assert of in page
    data = json.loads(run("check", "leaf.sheet", "-f", "json"))
    (group,) = data["phrases"]
    assert group["own_phrase"]["instead_of"] == "A3 up to (U)"
    assert [r["reading"] for r in group["readings"]] == ["by a margin", "not touching it"]


def test_other_wordings_of_the_built_in_phrase_stay_with_it() -> None:
    Path("house.phrases").write_text(UP_TO, "utf-8")
    text = SHEET.replace("well clear of 3 mm", "up to about 3 mm")
    made, wrong = read_sheet(Source("leaf.sheet", text))
    assert not wrong
    assert made is not None
    assert not any(g.own for g in made.groups)


def test_a_phrase_of_the_sheet_goes_before_one_of_the_file() -> None:
    made, wrong = read_sheet(Source("leaf.sheet", f"{SHEET}\n{HOUSE.replace('1.1', '1.2')}"))
    assert not wrong
    assert made is not None
    assert [g.own.file for g in made.groups if g.own] == [""]


# ---- probe and phrases


def test_probe_takes_a_phrase_file() -> None:
    page = flat(run("probe", "well clear of 3 mm", "-d", "gap length in mm", "--phrases", "house.phrases"))
    assert '"by a margin" (presumed; own phrase, house.phrases): gap >= 3.3 mm' in page
    assert "house.phrases, line 1" in page


def test_phrases_lists_the_file_first_and_explains_it() -> None:
    listing = run("phrases", "--phrases", "house.phrases").splitlines()
    assert listing[:3] == ["Own phrases (house.phrases)", "", "  own  well clear of (L)  (2 readings)"]
    card = run("phrases", "clear", "--phrases", "house.phrases")
    assert "own phrase: house.phrases, line 1" in card
    assert "house glossary [own practice]" in card
    assert re.search(r'x = [\d.]+ mm: met when read as "not touching it"; not met when read as', card)


@pytest.mark.parametrize("command", [("probe", "well clear of 3 mm", "-d", "gap length in mm"), ("phrases",)])
def test_a_missing_or_faulty_file_ends_the_command(command: tuple[str, ...]) -> None:
    Path("faulty.phrases").write_text(HOUSE.replace("x > L", "x > U"), "utf-8")
    for name, line in (("missing.phrases", "no such file"), ("faulty.phrases", "faulty.phrases, line 4")):
        result = CliRunner().invoke(app, [*command, "--phrases", name])
        assert result.exit_code == 2
        assert line in result.stderr
        assert not result.stdout
