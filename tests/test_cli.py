"""The command line: exit status, files, formats, bad input. What reports say is tested elsewhere."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

import scopecheck
from scopecheck.answers.questions import ask_prepared
from scopecheck.cli import app
from scopecheck.commands.output import PLAINER, Progress, worst

ROOT = Path(__file__).parent.parent

CLEAN = """\
title  Frame
gap    length in mm, <= 20 mm

1. A frame with a gap of at least 2 mm and at most 4 mm.
   | 2 mm <= gap <= 4 mm
   | not restated : at least 2 mm and at most 4 mm

inside        gap
  sample      3 mm
must stay out
  old frame   5 mm
"""

FOUND = """\
title  Frame
gap    length in mm, <= 20 mm

1. A frame with a gap of between 2 and 4 mm.
   | gap : between 2 and 4 mm

inside        gap
  sample      3 mm
must stay out
  old frame   4 mm
"""

CONTESTED = FOUND.replace("  old frame   4 mm", "  old frame   9 mm")

BAD = """\
gap    length in mm

1. A frame with a gap of between 2 and 4 mm and a width of 3 mn.
   | gap : betwixt 2 and 4 mm
   | wdth : 3 mm
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(app, list(arguments))


@pytest.fixture
def sheet(tmp_path: Path) -> dict[str, str]:
    """Paths of one sheet of each sort."""
    paths = {}
    for name, text in (("clean", CLEAN), ("found", FOUND), ("contested", CONTESTED), ("bad", BAD)):
        path = tmp_path / f"{name}.txt"
        path.write_text(text, "utf-8")
        paths[name] = str(path)
    return paths


# ---- exit status


def test_nothing_found_gives_0(sheet: dict[str, str]) -> None:
    result = run("check", sheet["clean"])
    assert result.exit_code == 0, result.output
    assert result.stdout.startswith("Frame\n")
    assert result.stderr == ""


def test_contested_wording_alone_gives_0(sheet: dict[str, str]) -> None:
    assert run("check", sheet["contested"]).exit_code == 0


def test_something_found_gives_1(sheet: dict[str, str]) -> None:
    result = run("check", sheet["found"])
    assert result.exit_code == 1
    assert "old frame" in result.stdout


def test_bad_input_gives_2_with_every_place(sheet: dict[str, str]) -> None:
    result = run("check", sheet["bad"])
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr.count("error: ") >= 2
    assert f"{sheet['bad']}, line 4, column " in result.stderr
    assert "^^^" in result.stderr
    assert "Traceback" not in result.stderr


def test_work_that_runs_out_gives_3_or_what_was_found_anyway(sheet: dict[str, str]) -> None:
    assert run("check", sheet["contested"], "--work", "1").exit_code == 3
    assert "Not decided" in run("check", sheet["contested"], "--work", "1").stdout


@pytest.mark.parametrize(
    ("statuses", "expected"),
    [([], 0), ([0, 0], 0), ([0, 3], 3), ([3, 1, 0], 1), ([1, 2, 3], 2), ([0, 2], 2)],
)
def test_the_worst_status_counts(statuses: list[int], expected: int) -> None:
    assert worst(statuses) == expected


def test_one_bad_sheet_does_not_stop_the_others(sheet: dict[str, str]) -> None:
    result = run("check", sheet["bad"], sheet["clean"])
    assert result.exit_code == 2
    assert "Frame" in result.stdout
    assert "betwixt" in result.stderr


def test_exit_status_is_told_in_help() -> None:
    for arguments in ((), ("check",), ("probe",), ("phrases",)):
        text = " ".join(run(*arguments, "--help").stdout.split())
        assert "0 nothing found" in text
        assert "1 something found" in text
        assert "2 bad input" in text
        assert "3 something undecided" in text


def test_no_arguments_shows_help() -> None:
    assert "Commands:" in run().output


def test_an_unknown_option_is_bad_input() -> None:
    result = run("check", "--colour-me", "x")
    assert result.exit_code == 2
    assert "Traceback" not in result.output


# ---- sheets that contradict themselves


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (("inside  ", "given  gap > 30 mm\n\ninside  "), "nothing can exist under these bounds"),
        (("old frame   4 mm", "old frame : 2 mm <= gap <= 3 mm"), "one thing is both"),
    ],
)
def test_a_sheet_that_contradicts_itself_is_bad_input(
    tmp_path: Path, change: tuple[str, str], message: str
) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text(FOUND.replace(*change), "utf-8")
    result = run("check", str(path))
    assert result.exit_code == 2
    assert message in result.stderr
    assert result.stdout == ""


def test_what_could_be_both_is_a_question_of_the_report(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    text = FOUND.replace("gap    length", "rim    length in mm\ngap    length")
    text = text.replace("  old frame   4 mm", "  old frame : gap = 3 mm, rim = 1 mm")
    path.write_text(text, "utf-8")
    result = run("check", str(path))
    assert result.exit_code == 1
    assert "About the sheet" in result.stdout
    assert "one thing could be both 'sample' (inside) and 'old frame' (must stay out)" in result.stdout


LIDS = """
gap, rim, lip    length in mm

1. A lid with a gap of at most 9 mm.
   | gap : at most 9 mm
2. The lid of claim 1, wherein the rim is at least 4 mm.
   | rim : at least 4 mm
3. The lid of claim {parents}, wherein the lip is at least 2 mm.
   | lip : at least 2 mm

inside for 3      gap    rim    lip
  sample          5 mm   2 mm   3 mm
must stay out for 2
  sample again    5 mm   2 mm   3 mm
"""


@pytest.mark.parametrize(("parents", "status"), [("2", 2), ("1 or 2", 0)])
def test_a_thing_may_be_in_a_claim_and_out_of_one_of_its_parents(
    tmp_path: Path, parents: str, status: int
) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text(LIDS.format(parents=parents), "utf-8")
    result = run("check", str(path))
    assert result.exit_code == status
    assert ("must stay out" in result.stderr) is (status == 2)


def test_a_contradiction_left_undecided_gives_3(sheet: dict[str, str]) -> None:
    result = run("check", sheet["clean"], "--work", "1")
    assert result.exit_code == 3
    assert "Traceback" not in result.output


# ---- files


def test_a_missing_file_is_named_with_the_nearest(sheet: dict[str, str]) -> None:
    result = run("check", sheet["clean"].replace("clean", "claen"))
    assert result.exit_code == 2
    assert "there is no such file" in result.stderr
    assert "clean.txt" in result.stderr


@pytest.mark.parametrize(
    ("content", "message"),
    [(b"", "empty"), (b"  \n# nothing\n", "empty"), (b"\xff\xfe\x00\xd8", "not text"), (b"a\0b", "not text")],
)
def test_what_is_no_sheet(tmp_path: Path, content: bytes, message: str) -> None:
    path = tmp_path / "thing"
    path.write_bytes(content)
    result = run("check", str(path))
    assert result.exit_code == 2
    assert message in result.stderr
    assert "Traceback" not in result.output


def test_a_directory_is_no_sheet(tmp_path: Path) -> None:
    result = run("check", str(tmp_path))
    assert result.exit_code == 2
    assert "directory" in result.stderr


@pytest.mark.parametrize(
    "text",
    [
        f"1. A frame.\n   | {'(' * 10_000}1 mm{')' * 10_000} <= 2 mm\n",
        f"gap  length in mm\n\n1. A frame of {'7' * 100_000} mm.\n   | gap = {'7' * 100_000} mm\n",
        "1. A frame of claim 1.\n",
        "1. A frame (\n   | (((\n",
        'gap  length in mm  "half a note\n\n1. A frame.\n',
        "\u202e\ufeff1. \u0000",
    ],
    ids=["parentheses", "digits", "itself", "brackets", "quote", "signs"],
)
def test_hostile_sheets_get_messages(tmp_path: Path, text: str) -> None:
    path = tmp_path / "hostile.txt"
    path.write_text(text, "utf-8")
    result = run("check", str(path))
    assert result.exit_code == 2, result.output[-2000:]
    assert "error: " in result.stderr
    assert "internal fault" not in result.stderr
    assert len(result.stderr) < 20_000


def test_a_sheet_is_read_only(sheet: dict[str, str]) -> None:
    folder = Path(sheet["clean"]).parent
    before = {path: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.iterdir()}
    for arguments in ((), ("--all",), ("--format", "json"), ("--strained", "--contested")):
        run("check", sheet["clean"], sheet["found"], *arguments)
    assert {path: (path.read_bytes(), path.stat().st_mtime_ns) for path in folder.iterdir()} == before


def test_output_goes_to_a_new_file(sheet: dict[str, str], tmp_path: Path) -> None:
    target = tmp_path / "report.md"
    result = run("check", sheet["found"], "--format", "markdown", "--output", str(target))
    assert result.exit_code == 1
    assert result.stdout == ""
    assert target.read_text("utf-8").startswith("# Frame\n")


@pytest.mark.parametrize("command", ["check", "check json", "start"])
def test_a_name_that_is_no_text_is_shown_with_question_marks(tmp_path: Path, command: str) -> None:
    name, target = os.fsdecode(os.fsencode(tmp_path) + b"/a\xff.txt"), tmp_path / "new"
    Path(name).write_text("1. A lid of 3 mm.\n" if command == "start" else CLEAN)
    format = ["--format", "json"] * command.endswith("json")
    result = run(command[:5], name, *format, "--to" if command == "start" else "--output", str(target))
    assert result.exit_code == 0, result.output
    assert "Frame" in target.read_text("utf-8") or "a?.txt" in target.read_text("utf-8")


def test_output_never_overwrites(sheet: dict[str, str]) -> None:
    result = run("check", sheet["found"], "--output", sheet["clean"])
    assert result.exit_code == 2
    assert "exists already" in result.stderr
    assert Path(sheet["clean"]).read_text("utf-8") == CLEAN


def test_output_into_a_missing_folder_is_bad_input(sheet: dict[str, str], tmp_path: Path) -> None:
    result = run("check", sheet["clean"], "--output", str(tmp_path / "no" / "report.txt"))
    assert result.exit_code == 2
    assert result.stderr.startswith("error: ")
    assert "Traceback" not in result.output


def test_bad_input_alone_writes_no_file(sheet: dict[str, str], tmp_path: Path) -> None:
    target = tmp_path / "report.txt"
    assert run("check", sheet["bad"], "--output", str(target)).exit_code == 2
    assert not target.exists()


# ---- formats


def test_json_of_one_sheet_is_an_object(sheet: dict[str, str]) -> None:
    data = json.loads(run("check", sheet["found"], "--format", "json").stdout)
    assert data["schema_version"] == 1
    assert data["exit_status"] == 1


def test_json_of_several_sheets_is_a_list(sheet: dict[str, str]) -> None:
    data = json.loads(run("check", sheet["found"], sheet["clean"], "-f", "json").stdout)
    assert [entry["exit_status"] for entry in data] == [1, 0]


def test_contested_lists_what_the_first_page_counts(sheet: dict[str, str]) -> None:
    short = run("check", sheet["contested"]).stdout
    long = run("check", sheet["contested"], "--contested").stdout
    assert "Other words that can be read more than one way" in short
    assert '"both ends out"' not in short.split("Other words that can be read")[1].split("\n\n\n")[0]
    assert '"both ends out"' in long.split("Other words that can be read")[1]
    # The rest of the page is the same.
    assert short.split("Other words that can be read")[0] == long.split("Other words that can be read")[0]
    assert short.split("What this rests on")[1] == long.split("What this rests on")[1]


def test_same_bytes_twice(sheet: dict[str, str]) -> None:
    for format in ("text", "json", "markdown"):
        first, second = (run("check", sheet["found"], "-f", format, "--all").stdout for _ in range(2))
        assert first == second


# ---- phrases


def test_phrases_lists_every_group_with_one_line_each() -> None:
    result = run("phrases")
    assert result.exit_code == 0
    assert "A  Ends of ranges and one-sided limits" in result.stdout
    assert re.search(r"^  H1 +divisible by \(k\) +\(\d readings\)$", result.stdout, re.MULTILINE)


def test_a_card_tells_readings_sources_and_wording() -> None:
    result = run("phrases", "divisible by")
    assert result.exit_code == 0
    for text in ('"can be divided"', "standing: ", "taken by: ", "source: ", "more exact wording: "):
        assert text in result.stdout
    assert "asked of the drafter: " in result.stdout
    assert re.search(r"\[(read|read \(secondary\)|memory|common practice)\]", result.stdout)


@pytest.mark.parametrize(
    ("words", "ids"),
    [
        (["between"], {"A1"}),
        (["between 2 and 4 mm"], {"A1"}),
        (["about", "35", "%"], {"B1"}),
        (["at least one of copper and zinc"], {"F4"}),
        (["H2"], {"H2"}),
        (["a plurality of holes"], {"F3"}),
        (["A or B"], {"G1"}),
        (["between L and U"], {"A1"}),
        (["about N"], {"B1"}),
        (["at least one of A, B and C"], {"F4"}),
        (["x divisible by N"], {"H1"}),
        (["or"], {"G1", "F5"}),
        (["and"], {"H8"}),
        (["substantially equal to or greater than"], {"B1"}),
    ],
)
def test_cards_are_found_by_words(words: list[str], ids: set[str]) -> None:
    data = json.loads(run("phrases", *words, "--format", "json").stdout)
    assert ids <= {entry["id"] for entry in data["phrases"]}
    assert all(entry["readings"] and entry["sources"] for entry in data["phrases"])


def test_phrases_as_json_hold_the_whole_catalogue() -> None:
    data = json.loads(run("phrases", "-f", "json").stdout)
    assert len(data["phrases"]) > 50
    standings = {s for e in data["phrases"] for r in e["readings"] for s in (r["standing"] or {}).values()}
    known = {"presumed", "arguable", "strained", "no presumption known"}
    known |= {f"one of {count} presumed" for count in ("two", "three", "four", "five")}
    assert standings <= known


def test_phrases_as_markdown() -> None:
    assert run("phrases", "between", "-f", "markdown").stdout.startswith("## A1: `between (L) and (U)`\n")


def test_unknown_words_offer_the_nearest() -> None:
    result = run("phrases", "betwen")
    assert result.exit_code == 2
    assert "between" in result.stderr
    assert result.stdout == ""


# ---- what goes wrong


def test_an_internal_fault_gives_4_and_no_traceback(
    sheet: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError("secret gap of 3 mm")

    monkeypatch.setattr("scopecheck.commands.check.ask_prepared", fail)
    result = run("check", sheet["clean"])
    assert result.exit_code == 4
    assert "ZeroDivisionError" in result.stderr
    assert "Please report" in result.stderr
    assert "Traceback" not in result.output
    assert "secret" not in result.output


def test_an_interruption_is_quiet(sheet: dict[str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("scopecheck.commands.check.ask_prepared", interrupt)
    result = run("check", sheet["clean"])
    assert (result.exit_code, result.output) == (130, "")


@pytest.mark.parametrize(("raised", "status"), [(KeyboardInterrupt, 130), (ZeroDivisionError, 4)])
def test_what_was_found_in_one_sheet_is_told_whatever_happens_to_the_next(
    sheet: dict[str, str], monkeypatch: pytest.MonkeyPatch, raised: type[BaseException], status: int
) -> None:
    rounds = iter([ask_prepared])

    def but_the_second(*arguments: Any) -> object:
        ask = next(rounds, None)
        if ask is None:
            raise raised
        return ask(*arguments)

    monkeypatch.setattr("scopecheck.commands.check.ask_prepared", but_the_second)
    result = run("check", sheet["found"], sheet["clean"])
    assert result.exit_code == status
    monkeypatch.undo()
    assert result.stdout == run("check", sheet["found"]).stdout


def test_the_version_is_told() -> None:
    result = run("--version")
    assert (result.exit_code, result.stdout) == (0, f"scopecheck {scopecheck.__version__}\n")


def test_progress_is_told_on_a_terminal_only_and_after_a_while(capsys: pytest.CaptureFixture[str]) -> None:
    progress = Progress("sheet")
    progress.started -= 10
    progress.tell("claim 1")
    progress.clear()
    assert capsys.readouterr().err == ""


def test_progress_on_a_terminal(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    progress = Progress("sheet")
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    progress.tell("claim 1")
    assert capsys.readouterr().err == ""
    progress.started -= 10
    progress.tell("claim 2\x1b[31m")
    progress.clear()
    err = capsys.readouterr().err
    assert "sheet: claim 2" in err
    assert "\x1b[31m" not in err
    assert err.endswith("\r\x1b[K")


# ---- as a process of its own


def process(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "scopecheck", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="replace",
        cwd=ROOT,
        env={**os.environ, **environment},
        stdin=subprocess.DEVNULL,
        timeout=120,
        check=False,
    )


def test_as_a_module(sheet: dict[str, str]) -> None:
    result = process("check", sheet["found"])
    assert result.returncode == 1
    assert "old frame" in result.stdout
    assert "\x1b" not in result.stdout


def test_a_reader_that_leaves_early_is_no_fault(sheet: dict[str, str]) -> None:
    """The status is that of the answer, although nobody reads it."""
    for said, status in (("phrases", 0), (f'check "{sheet["found"]}"', 1), (f'check "{sheet["bad"]}"', 2)):
        command = f"({sys.executable} -m scopecheck {said}; echo $? >&3) 2>/dev/null | exec 1>&- 0<&-"
        result = subprocess.run(
            ["sh", "-c", f"({command}) 3>&1"], capture_output=True, text=True, cwd=ROOT, check=False
        )
        assert (result.stdout, result.stderr) == (f"{status}\n", "")


@pytest.mark.skipif(os.name != "posix", reason="streams are closed by a shell")
@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-"])
@pytest.mark.parametrize(
    "said",
    ["check {found}", "check nothing.sheet", "probe :", "map {found}", "words {found}", "phrases between"],
)
def test_a_closed_stream_changes_no_status(sheet: dict[str, str], said: str, closed: str) -> None:
    def status(behind: str) -> int:
        command = f'"{sys.executable}" -m scopecheck {said.format(**sheet)} {behind}'
        return subprocess.run(command, shell=True, capture_output=True, cwd=ROOT, check=False).returncode

    assert status(closed) == status("")


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="no such device")
def test_a_file_without_end_is_too_large() -> None:
    result = process("check", "/dev/zero")
    assert result.returncode == 2
    assert "too large" in result.stderr


def test_an_output_that_lacks_signs_is_no_fault(sheet: dict[str, str]) -> None:
    result = process("check", sheet["found"], PYTHONIOENCODING="ascii")
    assert result.returncode == 1
    assert result.stderr == ""
    assert "old frame" in result.stdout
    assert "?" not in result.stdout


def test_signs_that_an_output_lacks_are_told_apart_by_others() -> None:
    told = "met ━●━ not ┈○┈; ≤ ≥ ≠ ± × ─ ═".encode("ascii", PLAINER).decode("ascii")
    assert told == "met =*= not .o.; <= >= != +/- x - ="
    assert "gap ☃ 5".encode("ascii", PLAINER) == b"gap ? 5"


def test_the_same_bytes_under_another_hash_seed(sheet: dict[str, str]) -> None:
    seeds = ("1", "2", "77")
    assert len({process("check", sheet["found"], "--all", PYTHONHASHSEED=s).stdout for s in seeds}) == 1
