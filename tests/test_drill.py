"""Exercises: what is set is solved, answers are graded by the exact meaning, papers do not repeat."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from typer.testing import CliRunner

from scopecheck.cli import app
from scopecheck.commands.drill import Wanted
from scopecheck.commands.drill_paper import grade_file, write_paper
from scopecheck.core.model import Sheet
from scopecheck.drill.course import room_for, slots
from scopecheck.drill.draws import Draws
from scopecheck.drill.exercise import KINDS, LEVELS, Kind, Unreadable
from scopecheck.drill.explain import explained
from scopecheck.drill.from_sheet import made_from
from scopecheck.drill.kinds import MANNERS, graded
from scopecheck.drill.making import Made, make
from scopecheck.drill.plans import cell
from scopecheck.drill.record import append, progress, read_record, result, weakest
from scopecheck.drill.setting import lines_of
from scopecheck.drill.trades import forms, trades
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet
from tests.drilled import TARGETS, hold, spread
from tests.drilled_oracle import candidates
from tests.forbidden_words import forbidden_in
from tests.sheets import read_path

ROOT = Path(__file__).parent.parent
SHEETS = ROOT / "specs" / "sheets"
CELLS = [(kind, level) for kind in KINDS for level in LEVELS]
SAMPLE = 144


def test_exercises_over_all_kinds_and_levels_hold() -> None:
    held = hold(spread(SAMPLE, 3), 3)
    assert held.faults == ()
    assert held.exercises == SAMPLE
    assert held.nothing > SAMPLE // 50
    assert held.wrong > SAMPLE


def test_there_is_a_manner_for_each_kind_and_a_pool_for_each_level() -> None:
    assert set(MANNERS) == set(KINDS)
    assert all(cell(kind, level).size >= 50 for kind, level in CELLS)


def test_there_are_six_trades_and_each_has_what_the_forms_speak_of() -> None:
    assert len({t.name for t in trades()}) >= 6
    for t in trades():
        assert len(t.amounts) == 3
        assert t.amounts[0].kind == t.amounts[1].kind
        assert t.counts
        assert t.sets


def test_what_is_known_of_the_forms_is_of_the_forms_there_are() -> None:
    known = json.loads(TARGETS.read_text("utf-8"))
    assert list(known) == [f.key for f in forms()], "run python -m tests.drilled --targets"


# ---- the same seed


def test_drawn_numbers_are_those_of_the_published_generator() -> None:
    # splitmix64 from state 0: first three numbers as in the public-domain reference code (from memory)
    draws = Draws()
    draws._state = 0
    assert [draws.below(2**64) for _ in range(3)] == [
        0xE220A8397B1DCDAF,
        0x6E789E6AA1B965F4,
        0x06C45D188009454F,
    ]


def test_the_same_seed_gives_the_same_bytes_whatever_the_hash_order() -> None:
    told = set()
    for order in ("1", "2"):
        run = drill("--seed", "9", "--level", "3", typed="skip\n" * 3, PYTHONHASHSEED=order)
        assert run.returncode == 0
        told.add(run.stdout)
    assert len(told) == 1
    assert "seed 9" in told.pop()


def test_an_exercise_does_not_depend_on_those_before_it() -> None:
    alone = make("let in", 2, 4, 11)
    for position in range(3):
        make("let in", 2, 4, position)
    assert make("let in", 2, 4, 11).exercise == alone.exercise


# ---- pools and papers


@pytest.mark.parametrize(("kind", "level"), CELLS)
def test_a_pool_is_gone_through_before_it_begins_anew(kind: Kind, level: int) -> None:
    pool = cell(kind, level)
    count = min(pool.size, 3000)
    assert len({pool.at(p).shape for p in range(count)}) == count
    assert pool.at(pool.size) == pool.at(0)


def test_no_paper_repeats_itself_and_a_hundred_share_no_more_than_they_must() -> None:
    uses: dict[tuple[Kind, int], Counter[tuple[str, ...]]] = {c: Counter() for c in CELLS}
    for seed in range(1, 101):
        paper = list(slots(KINDS, LEVELS, seed, 48))
        shapes = [cell(s.kind, s.level).at(s.position).shape for s in paper]
        assert len(set(shapes)) == 48
        for slot, shape in zip(paper, shapes, strict=True):
            uses[slot.kind, slot.level][shape] += 1
    for (kind, level), counts in uses.items():
        # So many uses of so many plans: no plan is used more often than the fullest way to deal them out.
        assert max(counts.values()) <= -(-counts.total() // cell(kind, level).size)


def test_what_is_set_is_the_plan_at_its_position() -> None:
    set_as_planned = [
        make(kind, level, 6, 20).shape == cell(kind, level).at(20).shape for kind, level in CELLS
    ]
    assert sum(set_as_planned) >= len(CELLS) - 2


def paper_of(folder: Path, count: int = 16) -> Path:
    assert write_paper(Wanted(seed=2), count, str(folder / "class")) == 0
    return folder / "class-key.md"


def test_grading_the_key_gives_full_marks(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    key = paper_of(tmp_path)
    capsys.readouterr()
    record = tmp_path / "ada.jsonl"
    assert grade_file(Wanted(seed=99, record=str(record), learner="Ada"), str(key)) == 0
    assert "16 of 16 right" in capsys.readouterr().out
    results = read_record(str(record))
    assert [(r.number, r.mark, r.learner, r.seed) for r in results] == [
        (n, "right", "Ada", 2) for n in range(1, 17)
    ]


def test_a_paper_is_answered_by_filling_it_in(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    paper_of(tmp_path, 3)
    filled = re.sub(
        r"^Answer (\d):$", r"Answer \1: hello", (tmp_path / "class.md").read_text("utf-8"), flags=re.M
    )
    (tmp_path / "mine.md").write_text(filled, "utf-8")
    assert grade_file(Wanted(seed=1), str(tmp_path / "mine.md")) == 0
    out = capsys.readouterr().out
    assert "0 of 3 right" in out
    assert grade_file(Wanted(seed=1), str(tmp_path / "class.md")) == 0
    assert capsys.readouterr().out.count("no answer") == 3


def test_nothing_is_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    paper_of(tmp_path, 2)
    before = {p.name: p.read_bytes() for p in tmp_path.iterdir()}
    assert set(before) == {"class.md", "class.html", "class-key.md", "class-key.html"}
    assert write_paper(Wanted(seed=5), 2, str(tmp_path / "class")) == 2
    assert {p.name: p.read_bytes() for p in tmp_path.iterdir()} == before
    assert "exists already" in capsys.readouterr().err


def test_a_page_loads_nothing_and_the_paper_has_no_answers(tmp_path: Path) -> None:
    paper_of(tmp_path, 8)
    for name in ("class.html", "class-key.html"):
        page = (tmp_path / name).read_text("utf-8")
        assert not re.search(r"src=|href=|url\(|@import|https?:|<script|<link", page)
    key = (tmp_path / "class-key.md").read_text("utf-8")
    solutions = [x for x in key.splitlines() if re.match(r"Answer \d+: ", x)]
    paper = (tmp_path / "class.md").read_text("utf-8")
    assert len(solutions) == 8
    assert not any(x in paper for x in solutions)


def test_a_paper_longer_than_its_pool_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    most = room_for(("two phrases",), (1,))
    wanted = Wanted(seed=1, level=1, kind="two phrases")
    assert write_paper(wanted, most + 1, str(tmp_path / "long")) == 2
    assert f"at most {most} exercises" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("Answer 1: none\n", "which paper"),
        ("Paper: seed 1, exercises 2, level 0, kind all\nAnswer 3: none\n", "answer 3"),
        ("Paper: seed 1, exercises 2, level 0, kind all\nAnswer 1: a\nAnswer 1: b\n", "twice"),
        ("Paper: seed 1, exercises 2, level 0, kind sums\nAnswer 1: a\n", "no kind"),
        ("Paper: seed 1, exercises 2, level 9, kind all\nAnswer 1: a\n", "which paper"),
        (f"Paper: seed {'1' * 500}, exercises 2, level 0, kind all\n", "which paper"),
        (f"Paper: seed {'1' * 5000}, exercises 2, level 0, kind all\n", "a number of 5000 digits"),
    ],
)
def test_a_file_of_answers_is_read_or_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, message: str
) -> None:
    (tmp_path / "a.txt").write_text(text, "utf-8")
    assert grade_file(Wanted(seed=1), str(tmp_path / "a.txt")) == 2
    assert message in capsys.readouterr().err


# ---- the record


def test_a_record_is_added_to_and_tells_what_to_practise(tmp_path: Path) -> None:
    path = str(tmp_path / "r.jsonl")
    for n, (kind, answer) in enumerate((("let in", "none"), ("falls out", "A"), ("narrows", "no")), 1):
        made = make(kind, 1, 8, n)  # type: ignore[arg-type]
        verdict = graded(made.bench, made.exercise.problem, answer)
        append(path, result(made, answer, verdict, "", 8, n))
    results = read_record(path)
    lines = Path(path).read_text("utf-8").splitlines()
    assert [json.loads(x)["number"] for x in lines] == [1, 2, 3] == [r.number for r in results]
    assert all(r.phrases and r.groups for r in results)
    by_kind = progress(results, "kind")
    assert {p.name: p.answered for p in by_kind} == {"let in": 1, "falls out": 1, "narrows": 1}
    least = weakest(by_kind)
    wrong = {r.kind for r in results if r.mark == "wrong"}
    assert (least.name if least else None) in (wrong or {None})


def test_a_file_that_is_no_record_is_left_alone(tmp_path: Path) -> None:
    other = tmp_path / "notes.txt"
    other.write_text("dear diary\n", "utf-8")
    with pytest.raises(Unreadable, match=r"notes\.txt, line 1"):
        read_record(str(other))
    run = drill("--record", str(other), typed="none\n")
    assert run.returncode == 2
    assert other.read_text("utf-8") == "dear diary\n"


# ---- what is said


def told_by(made: Made, seed: int) -> list[str]:
    problem = made.exercise.problem
    lines = [*lines_of(made.exercise, made.bench), problem.how, *explained(made.bench, problem)]
    for text, _ in candidates(made, seed):
        lines += graded(made.bench, problem, text).lines
    return lines


@pytest.mark.parametrize(("kind", "level"), CELLS)
def test_no_exercise_says_what_only_a_practitioner_may_say(kind: Kind, level: int) -> None:
    made = make(kind, level, 12, 1)
    sheet = [made.exercise.text, *(d.name for d in made.bench.sheet.declarations)]
    entries = [r.plain for g in made.bench.sheet.groups for r in g.readings]
    assert forbidden_in("\n".join(told_by(made, 1)), [*sheet, *entries, *made.exercise.claims]) == []


@pytest.mark.parametrize("name", ["strainer", "mortar", "proofing"])
def test_a_sheet_gives_exercises_of_its_own(name: str) -> None:
    sheet, text = sheet_named(name)
    kinds: set[Kind] = set()
    for made in made_from(sheet, text, KINDS, LEVELS, 1):
        problem = made.exercise.problem
        assert graded(made.bench, problem, problem.solution).mark == "right", made.exercise.name
        assert lines_of(made.exercise, made.bench)
        assert explained(made.bench, problem)
        if problem.aim.kind in kinds:
            break
        kinds.add(problem.aim.kind)
    assert len(kinds) >= 6


def sheet_named(name: str) -> tuple[Sheet, str]:
    path = SHEETS / f"{name}.sheet"
    sheet, _ = read_path(path)
    assert sheet is not None
    return sheet, path.read_text("utf-8")


# ---- in a terminal that is none


def drill(*options: str, typed: str, **more: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "scopecheck", "drill", *options]
    return subprocess.run(
        command,
        input=typed,
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=300,
        env={**os.environ, **more},
    )


TYPED = "\n   \n3 furlongs\n%%%\nA, Z\n\x00\x07\nyes\n?\n" + "x" * 3000 + "\nnone\nskip\nno\n"


@pytest.mark.parametrize("kind", KINDS)
def test_nonsense_and_the_end_of_input_leave_no_traceback(kind: str, tmp_path: Path) -> None:
    record = tmp_path / "r.jsonl"
    run = drill("--kind", kind, "--level", "1", "--record", str(record), typed=TYPED)
    assert run.returncode == 0, run.stderr
    assert "Traceback" not in run.stdout + run.stderr
    assert "internal fault" not in run.stderr
    assert "the answer is empty" in run.stderr
    counted = re.search(r"^(\d+) answers?, \d+ right", run.stdout, re.MULTILINE)
    assert counted
    assert len(read_record(str(record))) == int(counted[1])


def test_a_kind_that_is_none_is_refused() -> None:
    run = drill("--kind", "let inn", typed="")
    assert run.returncode == 2
    assert "did you mean 'let in'" in run.stderr


MANY = "\n".join(
    [f"size {chr(97 + i)}  length in mm" for i in range(18)]
    + ["", "1. A rack with a size of at most 3 mm.", "   | size a : at most 3 mm", ""]
    + [
        "2. A comb with sizes of at most 4 mm.",
        *(f"   | size {chr(97 + i)} : at most 4 mm" for i in range(18)),
        "",
    ]
    + ["3. The rack of claim 1, the other being at most 5 mm.", "   | size b : at most 5 mm", ""]
)


def test_what_has_many_values_is_asked_last() -> None:
    made, _ = read_sheet(Source("many", MANY))
    assert made is not None
    first = [
        m.exercise.problem.aim.claim
        for m, _ in zip(made_from(made, MANY, KINDS, LEVELS, 1), range(6), strict=False)
    ]
    assert first
    assert 2 not in first


# ---- where it is written to


@pytest.mark.parametrize("output", ["{}/", "{}", "/", ".md", "{}/.html"])
def test_a_paper_needs_a_name_and_no_folder(tmp_path: Path, output: str) -> None:
    result = CliRunner().invoke(app, ["drill", "--paper", "1", "--output", output.format(tmp_path)])
    assert result.exit_code == 2
    assert "names a folder" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_record_that_cannot_be_kept_is_told_before_anything_is_asked(tmp_path: Path) -> None:
    nowhere = str(tmp_path / "nowhere" / "r.jsonl")
    result = CliRunner().invoke(app, ["drill", "--record", nowhere], input="quit\n")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "nowhere" in result.stderr
