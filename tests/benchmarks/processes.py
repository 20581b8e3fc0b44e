"""Whole processes: the time from start to end, and the peak memory, against bare imports."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks.figures import Figure

ROOT = Path(__file__).parent.parent.parent
ROUNDS = 15


@dataclass(frozen=True)
class Cost:
    seconds: float
    megabytes: float


def once(*command: str) -> Cost:
    """One run of a process, its output thrown away."""
    started = time.perf_counter()
    process = subprocess.Popen(
        command, cwd=ROOT, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    _, _, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - started
    process.returncode = 0
    return Cost(seconds, usage.ru_maxrss / (1024 * (1024 if sys.platform == "darwin" else 1)))


def side_by_side(*commands: tuple[str, ...], rounds: int = ROUNDS) -> list[Cost]:
    """The least cost of each command over so many rounds, the commands taking turns."""
    runs: list[list[Cost]] = [[once(*command) for command in commands] for _ in range(rounds + 1)]
    # The first round fills caches and does not count.
    columns = zip(*runs[1:], strict=True)
    return [Cost(min(c.seconds for c in column), min(c.megabytes for c in column)) for column in columns]


def python(code: str) -> tuple[str, ...]:
    return sys.executable, "-c", code


def tool(*arguments: str) -> tuple[str, ...]:
    argv = ["scopecheck", *arguments]
    return python(f"import sys; sys.argv = {argv!r}; from scopecheck.cli import main; main()")


def largest_sheet() -> Path:
    """The longest worked sheet in `specs/`."""
    sheets = [path for path in (ROOT / "specs").rglob("*") if path.suffix in (".sheet", ".claims", ".txt")]
    if not sheets:
        raise SystemExit("no worked sheet in specs/")
    return max(sheets, key=lambda path: (path.stat().st_size, path.name))


def measure_help() -> Iterator[Figure]:
    typer, help = side_by_side(python("import typer"), tool("--help"))
    yield Figure("--help / import typer", help.seconds * 1000, typer.seconds * 1000, "ms", 1.5)


def measure_check() -> Iterator[Figure]:
    sheet = largest_sheet()
    name = f"check {sheet.relative_to(ROOT)}"
    bare, check = side_by_side(python("import z3, lark, typer"), tool("check", str(sheet)))
    beside = "import z3, lark, typer"
    yield Figure(f"{name} / {beside}: time", check.seconds * 1000, bare.seconds * 1000, "ms", 3)
    yield Figure(f"{name} / {beside}: peak memory", check.megabytes, bare.megabytes, "MB", 1.5)
