"""A report as plain text for a terminal or a file: set like a memo, wrapped, in colour only if asked for."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap
from typing import assert_never

from scopecheck.report.blocks import (
    Banner,
    Block,
    Chart,
    Excerpt,
    Heading,
    Item,
    Listing,
    Outline,
    Paragraph,
    Picture,
    Report,
)
from scopecheck.report.once import told_once
from scopecheck.report.render.columns import draw_chart
from scopecheck.report.render.number_line import draw_picture
from scopecheck.report.wording import GLUE, sentence

NARROWEST, WIDEST = 60, 100
BODY = 5
"""Column at which an item's text starts; its number stands to the left."""
STEP = "   "
DEEPEST = 10
"""Levels of an outline that are told by how far they are set in."""
BOLD, FAINT, PLAIN = "\x1b[1m", "\x1b[2m", "\x1b[0m"


def draw_text(report: Report, width: int = 90, colour: bool = False) -> str:
    """The report as text, wrapped to at most 100 columns."""
    page = _Page(max(NARROWEST, min(width, WIDEST)), colour, report.repeated_pictures)
    lines: list[str] = []
    before: Block | None = None
    for block in told_once(report.blocks):
        lines += _space(before, block)
        lines += page.block(block)
        before = block
    return "\n".join(line.rstrip() for line in lines).replace(GLUE, " ") + "\n"


def _space(before: Block | None, block: Block) -> list[str]:
    if before is None:
        return []
    if isinstance(block, Heading) and block.level == 2:
        return ["", ""]
    if isinstance(before, Heading) and before.level > 2:
        return []
    quiet = isinstance(block, Paragraph) and block.quiet
    if quiet and isinstance(before, Paragraph) and before.quiet:
        return []
    return [""]


class _Page:
    """A width, whether to use bold and faint type, and what pictures were shown and explained already."""

    def __init__(self, width: int, colour: bool, repeated: frozenset[int] = frozenset()) -> None:
        self.repeated = repeated
        self.width = width
        self.colour = colour
        self.explained = False

    def bold(self, text: str) -> str:
        return f"{BOLD}{text}{PLAIN}" if self.colour and text else text

    def faint(self, text: str) -> str:
        return f"{FAINT}{text}{PLAIN}" if self.colour and text else text

    def wrapped(self, text: str, first: str = "", rest: str | None = None) -> list[str]:
        """The text in lines of at most the page's width; `first` and `rest` stand before its lines."""
        later = " " * len(first) if rest is None else rest
        return wrap(
            text,
            self.width,
            initial_indent=first,
            subsequent_indent=later,
            break_on_hyphens=False,
        ) or [first.rstrip()]

    def block(self, block: Block) -> list[str]:
        match block:
            case Banner(text):
                return [self.bold(line) for line in self.wrapped(text)]
            case Heading(text, level):
                return self.heading(text, level)
            case Paragraph(text, quiet):
                lines = self.wrapped(text)
                return [self.faint(line) for line in lines] if quiet else lines
            case Listing(texts):
                return [line for text in texts for line in self.wrapped(text, "  - ")]
            case Outline(drawn):
                return [line for depth, text in drawn for line in self.set_in(depth, text)]
            case Excerpt(text):
                return text.split("\n")
            case Item():
                return list(self.item(block))
            case Picture(data):
                return draw_picture(data, self.width)
            case Chart(columns, rows):
                return draw_chart(columns, rows, self.width)
            case _:
                assert_never(block)

    def set_in(self, depth: int, text: str) -> list[str]:
        """A line of an outline; the deepest levels are told by their number, to leave room for words."""
        shown = text if depth <= DEEPEST else sentence("map", "level", level=depth, text=text)
        return self.wrapped(shown, f"{STEP * min(depth, DEEPEST)}- ")

    def heading(self, text: str, level: int) -> list[str]:
        lines = self.wrapped(text)
        if level > 2:
            return [self.bold(line) for line in lines]
        rule = ("═" if level == 1 else "─") * max(len(line) for line in lines)
        return [*(self.bold(line) for line in lines), self.faint(rule)]

    def item(self, item: Item) -> Iterator[str]:
        """Number and words, what happens, and below it the lines in the margin."""
        indent = " " * BODY
        number = str(item.number).rjust(BODY - 2) + "  "
        if item.title:
            yield from (self.bold(line) for line in self.wrapped(item.title, number))
            yield ""
            number = indent
        for label, words in item.heads:
            yield from (self.bold(line) for line in self.wrapped(_head(label, words), number))
            number = indent
        yield from self.wrapped(item.statement, indent)
        yield from self.margin(item)
        if item.picture is not None and item.number not in self.repeated:
            yield ""
            drawn = draw_picture(item.picture, self.width - BODY, explained=self.explained)
            self.explained = True
            yield from (f"{indent}{line}".rstrip() for line in drawn)

    def margin(self, item: Item) -> Iterator[str]:
        rows = [*item.margin]
        if item.also:
            rows.append((sentence("margin", "also"), item.also))
        if item.follows:
            rows.append((sentence("margin", "follows"), item.follows))
        wide = max((len(word) for word, _ in rows), default=0)
        for word, texts in rows:
            for index, text in enumerate(texts):
                shown = (word if index == 0 else "").ljust(wide)
                first, *rest = self.wrapped(text, " " * (BODY + wide + 3))
                yield f"{' ' * BODY}{self.faint(shown) if shown.strip() else shown}   {first.lstrip(' ')}"
                yield from rest


def _head(label: str, words: str) -> str:
    return f"{label}  {words}" if words else label
