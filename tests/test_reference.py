"""The language reference and the first page: every example is run, and nothing of the language is left out.

Sorts of blocks: `sheet` a whole sheet without a mistake; `lines FRAME` a piece that the frame makes a sheet;
`error FRAME` a piece and what is told about it; `account` claims and what of their text no line takes up;
`output` a command and what it prints; `sh` commands of the first page; `phrases FILE` a phrase file, which
lies beside every sheet. A line of dots stands for any lines.
"""

from __future__ import annotations

import inspect
import re
import shlex
from collections import defaultdict
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from scopecheck.answers.consistency import contradictions
from scopecheck.answers.questions import prepare
from scopecheck.cli import app
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.quantity import kind_words
from scopecheck.foundations.spans import Source
from scopecheck.language.layout import HEADINGS
from scopecheck.language.scan import CAPITALS, LATER_CAPITALS
from scopecheck.matching.practice import loaded
from scopecheck.report.alike import readings_alike
from scopecheck.resolve.phrases import Reader
from scopecheck.resolve.sheet import read_sheet
from scopecheck.vocabulary.catalogue import entries
from tests.sheets import sheet
from tests.traced import traced

ROOT = Path(__file__).parent.parent
REFERENCE = ROOT / "specs" / "language.md"
COMMANDS = ROOT / "specs" / "commands.md"
FIRST_PAGE = ROOT / "README.md"
FRAMES = ("top", "vocabulary", "names", "facts", "sheet")


@dataclass(frozen=True)
class Example:
    page: str
    line: int
    sort: str
    frame: str
    text: str

    @property
    def split(self) -> tuple[str, str]:
        """What is written, and what is told about it after a blank line."""
        match = re.search(r"\n\n(?=error: |warning: |left over: )", self.text)
        assert match, f"{self.page}, line {self.line}: nothing is told in this block"
        return self.text[: match.start() + 1], self.text[match.end() :]


@cache
def text_of(path: Path) -> str:
    return path.read_text("utf-8")


@cache
def examples() -> tuple[Example, ...]:
    found: list[Example] = []
    for path in (REFERENCE, COMMANDS, FIRST_PAGE):
        lines = text_of(path).split("\n")
        fences = [i for i, line in enumerate(lines) if line.lstrip().startswith(("```", "~~~"))]
        assert len(fences) % 2 == 0, f"{path.name}: a fence is never closed"
        for start, end in zip(fences[::2], fences[1::2], strict=True):
            assert lines[end] == "```", f"{path.name}, line {end + 1}: a fence inside a fence"
            sort, _, frame = lines[start].strip("`").partition(" ")
            found.append(Example(path.name, start + 1, sort, frame, "\n".join(lines[start + 1 : end]) + "\n"))
    return tuple(found)


def of(*sorts: str) -> list[object]:
    return [pytest.param(e, id=f"{e.page}:{e.line}") for e in examples() if e.sort in sorts]


@cache
def first_sheet() -> str:
    return next(e.text for e in examples() if e.sort == "sheet")


def sheet_above(example: Example) -> str:
    """The last whole sheet before a block on its page."""
    above = (e for e in examples() if e.page == example.page and e.line < example.line)
    return [e.text for e in above if e.sort == "sheet"][-1]


@cache
def amended_sheet() -> str:
    (found,) = (e.text for e in examples() if e.sort == "sheet" and "amended" in e.text.split("\n")[0])
    return found


@cache
def claims_of_first_sheet() -> str:
    text = first_sheet()
    return text[text.index("\n1. ") + 1 : text.index("\ninside ")]


@cache
def vocabulary() -> str:
    (found,) = (e.text for e in examples() if e.frame == "vocabulary")
    return found


def framed(text: str, frame: str) -> str:
    """The piece first, so that its lines keep their numbers, and below it what makes it a sheet."""
    bare = "" if re.search(r"^1\. ", text, re.MULTILINE) else "\n1. A strainer.\n"
    match frame:
        case "top" | "vocabulary":
            return text + bare
        case "names":
            return f"{text}{bare}\n{vocabulary()}"
        case "facts":
            claim = "1. A strainer.\n" + "".join(f"   | {line}\n" for line in text.splitlines())
            return f"{claim}\n{vocabulary()}"
        case "sheet":
            return f"{text}\n{claims_of_first_sheet()}\n\n{vocabulary()}"
        case _:
            raise AssertionError(f"no frame is called '{frame}'")


def read(text: str) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    return read_sheet(Source("leaf.sheet", text))


@pytest.fixture(autouse=True)
def beside_the_sheets(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The phrase files of the page, where each sheet lies."""
    monkeypatch.chdir(tmp_path)
    for example in examples():
        if example.sort == "phrases":
            Path(example.frame).write_text(example.text, "utf-8")


def agrees(expected: str, printed: str) -> bool:
    """Whether a text is as expected, line by line, where a line of dots stands for any lines."""
    pattern = ""
    for line in expected.rstrip("\n").split("\n"):
        pattern += r"(?:.*\n)*?" if line.strip() == "..." else re.escape(line.rstrip()) + r" *\n"
    return re.fullmatch(pattern, printed.rstrip("\n") + "\n") is not None


# ---- the blocks


def test_every_block_is_of_a_known_sort() -> None:
    for example in examples():
        where = f"{example.page}, line {example.line}"
        kinds = ("sheet", "lines", "error", "account", "output", "sh", "phrases", "claims")
        assert example.sort in kinds, where
        assert (example.sort in ("lines", "error")) == (example.frame in FRAMES), where
        assert (example.sort == "phrases") == example.frame.endswith(".phrases"), where
        assert example.text.strip(), where


@pytest.mark.parametrize("example", of("sheet", "lines"))
def test_example_is_read(example: Example) -> None:
    made, told = read(framed(example.text, example.frame) if example.sort == "lines" else example.text)
    if example.frame == "facts":
        # The claim of this frame has no numbers, and each line is told of for that.
        told = tuple(d for d in told if "claim 1 does not say" not in d.message)
    assert not told, "\n\n".join(map(draw, told))
    assert made is not None
    assert not made.unrestated, [item.words for item in made.unrestated]
    if example.frame == "facts":
        assert len(made.claims[0].limitations) == len(example.text.splitlines())


@pytest.mark.parametrize("example", of("phrases"))
def test_phrase_file_is_read(example: Example) -> None:
    source = Source(example.frame, example.text)
    assert loaded(source).entries
    assert not loaded(source).wrong
    assert not list(readings_alike((source,)))


@pytest.mark.parametrize("example", of("error"))
def test_mistake_is_told_as_shown(example: Example) -> None:
    written, expected = example.split
    made, told = read(framed(written, example.frame))
    if made is not None:
        told = contradictions(prepare(made))
    assert any(d.severity == "error" for d in told)
    drawn = "\n\n".join(map(draw, told))
    assert agrees(expected, drawn), drawn


@pytest.mark.parametrize("example", of("account"))
def test_account_is_as_shown(example: Example) -> None:
    written, expected = example.split
    made, told = read(framed(written, "names"))
    assert made is not None
    assert all(" and in no line" in d.message for d in told)  # what is left over may be told beside it
    left = ", ".join(item.words for item in made.unrestated)
    assert expected.strip().removeprefix("left over: ") == left


@pytest.mark.parametrize("example", of("output"))
def test_command_prints_what_is_shown(
    example: Example, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("amended.sheet").write_text(amended_sheet(), "utf-8")
    Path("claims.txt").write_text(next(e.text for e in examples() if e.sort == "claims"), "utf-8")
    command, _, expected = example.text.partition("\n")
    words = shlex.split(command.removeprefix("$ "))
    Path("leaf.sheet").write_text(first_sheet(), "utf-8")
    for name in (w for w in words if w.endswith(".sheet") and not Path(w).exists()):
        Path(name).write_text(sheet_above(example), "utf-8")
    assert words[0] == "scopecheck"
    result = CliRunner().invoke(app, words[1:])
    assert result.exit_code in (0, 1), result.output
    assert agrees(expected, result.stdout), result.stdout


@pytest.mark.parametrize("example", of("sh"))
def test_commands_of_the_first_page_name_what_exists(
    example: Example, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Building an environment takes a network; the program's own commands are run here."""
    monkeypatch.chdir(ROOT)
    assert re.search(r"pip -q install (-e )?'?\.", example.text)
    for command in re.findall(r"/scopecheck ([^;&|}\n]+)", example.text):
        result = CliRunner().invoke(app, shlex.split(command))
        assert result.exit_code in (0, 1), result.output
    for path in re.findall(r"[\w/]+\.sheet", example.text):
        assert (ROOT / path).is_file()


def test_a_line_is_traced_as_the_page_for_developers_shows() -> None:
    page = text_of(ROOT / "DEVELOPERS.md")
    (shown,) = (b for b in page.split("\n\n") if b.startswith("    plainer_values."))
    line = "gap, mode : no wider than 5 mm if it enters the sleep mode"
    assert line in " ".join(page.split())
    claim = line.partition(" : ")[2]
    declared = "gap   length in mm\nmode  one of sleep, run\n"
    steps = [*traced(Source("one.sheet", f"{declared}\n1. A lock having a gap {claim}.\n   | {line}\n"))]
    assert set(map(str.strip, shown.split("\n"))) <= {*steps, "..."}
    assert steps[-1].startswith("warning: ")


def test_ways_to_read_stand_in_the_order_of_the_code() -> None:
    page = text_of(ROOT / "DEVELOPERS.md")
    ways = page[page.index("1. **Made ready**") : page.index("10. **Why not**")]
    for number, way in ((1, Reader.as_it_stands), (9, Reader._as_more_than_a_phrase)):
        code = inspect.getsource(way)
        listed = ways[: ways.index("\n9. ")] if number == 1 else ways[ways.index("(`_otherwise_said`)") :]
        called = [name for name in re.findall(r"`(?:self\.)?(\w+)`", listed) if f"{name}(" in code]
        assert len(called) > 10
        places = [code.index(f"{name}(") for name in called if name != "limit_for_all"]
        assert places == sorted(places), called


def test_the_lines_of_the_page_for_developers_run(capsys: pytest.CaptureFixture[str]) -> None:
    page = text_of(ROOT / "DEVELOPERS.md")
    (code,) = re.findall(r"^```python\n(.*?)^```", page, re.DOTALL | re.MULTILINE)
    (lock,) = re.findall(r"^```\n(gap .*?)^```", page, re.DOTALL | re.MULTILINE)
    Path("lock.sheet").write_text(lock, "utf-8")
    exec(code, {})
    assert (
        "1a | arguable | rounds to the limit | ROUND(gap TO 1 mm, HALF AWAY) <= 5 mm"
        in capsys.readouterr().out
    )
    (item,) = (b for b in page.split("\n\n") if b.startswith("      1  1a"))
    result = CliRunner().invoke(app, ["check", "lock.sheet"])
    assert "\n".join(line[4:] for line in item.split("\n")) in result.stdout


# ---- nothing is left out


def table(heading: str) -> list[list[str]]:
    """The rows of the table whose head begins with these words."""
    lines = iter(text_of(REFERENCE).split("\n"))
    next(line for line in lines if line.startswith(f"| {heading}"))
    rows: list[list[str]] = []
    for line in lines:
        if not line.startswith("|"):
            break
        rows.append([cell.strip() for cell in line.strip("|").split(" | ")])
    return rows[1:]


def test_every_heading_and_word_in_capitals_occurs() -> None:
    text = text_of(REFERENCE)
    for word in (*HEADINGS, *CAPITALS, *LATER_CAPITALS):
        assert re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", text), word


def test_words_for_kinds_are_all_listed() -> None:
    match = re.search(r"Words that may stand before `in`: (.*?)\. ", text_of(REFERENCE), re.DOTALL)
    assert match
    assert " ".join(match.group(1).split()).split(", ") == [w for w in kind_words() if w != "number"]


def test_policies_are_those_of_the_catalogue() -> None:
    known: dict[str, set[str]] = defaultdict(set)
    for entry in entries():
        for reading in entry.readings:
            for axis, value in reading.axes:
                known[axis].add(value)
    listed = {axis.strip("`"): set(values.split(", ")) for axis, values in table("policy:")}
    assert listed == known


def test_options_and_commands_are_all_listed() -> None:
    rows = table("option")
    named = [(commands, o) for options, commands, _ in rows for o in re.findall(r"--?[a-z]+", options)]
    listed = {(command, o) for commands, o in named for command in commands.split(", ")}
    known: set[tuple[str, str]] = set()
    commands = get_command(app).commands  # type: ignore[attr-defined]
    for name, command in commands.items():
        options = {o for p in command.params for o in p.opts if o.startswith("-")} | {"-h", "--help"}
        known |= {(name, o) for o in options}
    everywhere = {o for c, o in listed if c == "all"}
    assert all(set(commands) == {n for n, o in known if o == option} for option in everywhere)
    assert {(c, o) for c, o in listed if c != "all"} == {(c, o) for c, o in known if o not in everywhere}
    assert {row[0].strip("`").split()[1] for row in table("command")} == set(commands)


def test_refused_spellings_are_refused() -> None:
    """The table of numbers that are not read: each of them, as a number of millimetres, is a mistake."""
    for spelling in ("3,5 mm", "1,000 mm", "1 000 mm", ".5 mm", "5. mm", "2 1/2 mm", "3 ± 1 mm"):
        assert read(framed(f"gap = {spelling}\n", "facts"))[0] is None, spelling
        assert f"`{spelling.removesuffix(' mm')}" in text_of(REFERENCE)
    for unit in ("in", "C", "ppm", "ton", "degrees"):
        assert read(framed(f"size  in {unit}\n", "top"))[0] is None, unit


def test_a_case_beyond_the_whole_of_a_share_is_told_how_to_declare_it() -> None:
    made = sheet(
        "lotion  share in %\n\n1. A wipe.\n   | lotion >= 2 %\n\n"
        'document D\n  row : lotion >= 250 %  "p. 1"\n'
    )
    (told,) = contradictions(prepare(made))
    assert told.help.endswith("declared without that word: lotion  in %")
