"""`start` on long texts: 200 claims against 50, and against what is imported for any start."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

from scopecheck.drafting.pasted import pasted
from tests.benchmarks.figures import Figure
from tests.benchmarks.processes import once, side_by_side, tool
from tests.words import SETS, names

BARE = "import typer, scopecheck.cli, scopecheck.commands.start"
ROUNDS = 5


def long_text(count: int) -> str:
    """So many claims: the claims of the twelve sets over and over, with their references moved along."""
    claims: list[str] = []
    while True:
        for name in names():
            first = len(claims)
            for claim in pasted((SETS / f"{name}.txt").read_text("utf-8")).claims:
                if len(claims) == count:
                    return "\n\n".join(claims)
                claims.append(f"{len(claims) + 1}. {_moved(claim.text, first)}")


def _moved(text: str, by: int) -> str:
    """The text with each claim number it names raised."""
    words = text.split(" ")
    for i, word in enumerate(words[1:], 1):
        digits = word.rstrip(",.;")
        if digits.isdigit() and words[i - 1].lower().endswith(("claim", "claims")):
            words[i] = word.replace(digits, str(int(digits) + by))
    return " ".join(words)


def measure_start() -> Iterator[Figure]:
    with tempfile.TemporaryDirectory() as folder:
        paths = {count: Path(folder, f"{count}.txt") for count in (50, 200)}
        for count, path in paths.items():
            path.write_text(long_text(count), "utf-8")
        codes = (BARE, *(tool("start", str(path)) for path in paths.values()))
        bare, short, long = side_by_side(once, *codes, rounds=ROUNDS)
    yield Figure("start of 200 claims / of 50", long * 1000, short * 1000, "ms", 5)
    yield Figure(f"start of 200 claims / {BARE}", long * 1000, bare * 1000, "ms", 3)
