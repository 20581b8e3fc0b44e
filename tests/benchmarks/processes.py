"""Whole processes: the time from start to end, and the peak memory, against bare imports."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from tests.benchmarks.figures import Figure

ROOT = Path(__file__).parent.parent.parent
ROUNDS = 15
ANSWERED = (0, 1)
"""Nothing found, and something found."""


def run(code: str) -> None:
    """One run of a program, its output thrown away.

    Raises SystemExit where it ends without an answer: what fails early would count as the fastest.
    """
    status = subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=False, **QUIET).returncode
    if status not in ANSWERED:
        raise SystemExit(f"ended with status {status}, and was not measured: {code}")


def once(code: str) -> float:
    """Seconds that one run of a program takes, on the clock of the wall: also what other processes take."""
    started = time.perf_counter()
    run(code)
    return time.perf_counter() - started


QUIET: dict[str, Any] = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.DEVNULL)
TELLS = """
import atexit, resource
def tell():
    own = int(open("/proc/self/status").read().split("VmHWM:")[1].split()[0])
    children = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    open({path!r}, "w").write(str(own + children))
atexit.register(tell)
"""


def megabytes(code: str) -> float:
    """The peak memory of one run, and of the largest process that it had work for it, together.

    The program itself tells it: what a parent is told of a child begins with the parent's own size. So what
    is told of the second process is the more by what it shares with the first.
    """
    with tempfile.NamedTemporaryFile() as file:
        program = TELLS.format(path=file.name) + code
        run(program)
        return int(Path(file.name).read_text()) / 1024


def side_by_side(measure: Callable[[str], float], *codes: str, rounds: int = ROUNDS) -> list[float]:
    """The least of each program over so many rounds, the programs taking turns."""
    runs = [[measure(code) for code in codes] for _ in range(rounds + 1)]
    # The first round fills caches and does not count.
    return [min(column) for column in zip(*runs[1:], strict=True)]


def tool(*arguments: str) -> str:
    argv = ["scopecheck", *arguments]
    return f"import sys; sys.argv = {argv!r}; from scopecheck.cli import main; main()"


def largest_sheet() -> Path:
    """The longest worked sheet in `specs/`."""
    sheets = [path for path in (ROOT / "specs").rglob("*") if path.suffix in (".sheet", ".claims", ".txt")]
    if not sheets:
        raise SystemExit("no worked sheet in specs/")
    return max(sheets, key=lambda path: (path.stat().st_size, path.name))


def measure_help() -> Iterator[Figure]:
    typer, help = side_by_side(once, "import typer", tool("--help"))
    yield Figure("--help / import typer", help * 1000, typer * 1000, "ms", 1.5)


def measure_check() -> Iterator[Figure]:
    sheet = largest_sheet()
    codes = "import z3, lark, typer", "import z3, typer", tool("check", str(sheet))
    names = [f"check {sheet.relative_to(ROOT)} / {code}" for code in codes[:2]]
    names[0] += " (lark is not loaded)"
    *bare, check = side_by_side(once, *codes)
    for name, beside in zip(names, bare, strict=True):
        yield Figure(f"{name}: time", check * 1000, beside * 1000, "ms", 3)
    if Path("/proc/self/status").exists():
        *bare, check = side_by_side(megabytes, *codes, rounds=3)
        for name, beside in zip(names, bare, strict=True):
            yield Figure(f"{name}: peak memory", check, beside, "MB", 1.5)
