"""A diagnostic as lines of text: the message, the source line, and a mark under the place."""

from __future__ import annotations

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Span

WIDEST = 110
"""Source lines longer than this are cut around the mark."""


def _excerpt(span: Span) -> list[str]:
    line_number, column = span.source.position(span.start)
    line = span.source.line(line_number).rstrip("\r")
    length = max(1, min(span.end - span.start, len(line) - column + 1))
    start = 0
    if len(line) > WIDEST:
        start = max(0, column - 1 - WIDEST // 2)
        line = line[start : start + WIDEST]
        length = max(1, min(length, len(line) - (column - 1 - start)))
    before = line[: column - 1 - start]
    pad = "".join(c if c == "\t" else " " for c in before)
    number = str(line_number)
    lead, tail = ("..." if start else ""), ("..." if start + len(line) < _length(span, line_number) else "")
    return [
        f"  {number} | {lead}{line}{tail}",
        f"  {' ' * len(number)} | {' ' * len(lead)}{pad}{'^' * length}",
    ]


def _length(span: Span, line_number: int) -> int:
    return len(span.source.line(line_number).rstrip("\r"))


def draw(diagnostic: Diagnostic) -> str:
    """The diagnostic for people: severity and message, place, source line with a mark, cause, help."""
    span = diagnostic.span
    lines = [f"{diagnostic.severity}: {diagnostic.message}"]
    if span.source.text:
        line, column = span.source.position(span.start)
        lines.append(f"  {span.source.name}, line {line}, column {column}")
        lines += _excerpt(span)
    else:
        lines.append(f"  {span.source.name}")
    for other, label in diagnostic.also:
        lines.append(f"  {label}:")
        lines += _excerpt(other)
    if diagnostic.cause:
        lines.append(f"  {diagnostic.cause}")
    if diagnostic.help:
        lines.append(f"  help: {diagnostic.help}")
    return "\n".join(lines)
