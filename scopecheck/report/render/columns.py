"""A chart as plain text: limitations down, cases across, in as many tables as the width asks for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from textwrap import wrap

from scopecheck.report.wording import sentence

NARROWEST = 18
"""Columns that a cell needs at least."""
BETWEEN = "  "

Columns = Sequence[tuple[str, str]]
Rows = Sequence[tuple[str, Sequence[tuple[str, str]]]]


def draw_chart(columns: Columns, rows: Rows, width: int) -> list[str]:
    """The chart in lines of at most `width` signs; what does not fit stands in a further table below."""
    most = max(1, (width - NARROWEST) // (NARROWEST + len(BETWEEN)))
    lines: list[str] = []
    for start in range(0, len(columns), most):
        part = columns[start : start + most]
        own = [(label, cells[start : start + most]) for label, cells in rows]
        lines += [""] if lines else []
        lines += _table(part, own, width)
    return lines


def _table(columns: Columns, rows: Rows, width: int) -> Iterator[str]:
    each = (width - len(BETWEEN) * len(columns)) // (len(columns) + 1)
    heads = [[*_wrapped(name, each), *_wrapped(place, each)] for name, place in columns]
    yield from _side_by_side([_wrapped(sentence("chart", "line"), each), *heads], each)
    yield BETWEEN.join("─" * each for _ in range(len(columns) + 1))
    for label, cells in rows:
        drawn = [[*_wrapped(stated, each), *_wrapped(verdict, each)] for stated, verdict in cells]
        yield from _side_by_side([_wrapped(label, each), *drawn], each)
        yield ""


def _wrapped(text: str, width: int) -> list[str]:
    return wrap(text, width, break_on_hyphens=False)


def _side_by_side(cells: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    for parts in zip_longest(*cells, fillvalue=""):
        yield BETWEEN.join(part.ljust(width) for part in parts).rstrip()
