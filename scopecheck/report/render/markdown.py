"""A report as Markdown, for a file, a ticket or a mail."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import assert_never

from scopecheck.foundations.regex import regex
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
from scopecheck.report.render.number_line import draw_picture
from scopecheck.report.wording import GLUE, sentence

PICTURE_WIDTH = 96
_SPECIAL = regex(r"([\\`*_\[\]~|]|<(?=[A-Za-z/!?])|&(?=#|\w+;))")
_LINE_START = regex(r"^(\s*)([#>+-]|\d+[.)])(?=\s|$)")


def escaped(text: str) -> str:
    """The text so that Markdown shows it as it stands."""
    shown = _SPECIAL.sub(r"\\\1", text.replace(GLUE, " "))
    return _LINE_START.sub(lambda m: f"{m[1]}{m[2][:-1]}\\{m[2][-1]}", shown)


def draw_markdown(report: Report) -> str:
    """The report as Markdown text: headings, lists, and pictures as fixed-width blocks."""
    repeated = report.repeated_pictures
    parts = ["\n".join(_block(block, repeated)) for block in told_once(report.blocks)]
    return "\n\n".join(parts) + "\n"


def _block(block: Block, repeated: frozenset[int]) -> list[str]:
    match block:
        case Banner(text):
            return [f"**{escaped(text)}**"]
        case Heading(text, level):
            return [f"{'#' * level} {escaped(text)}"]
        case Paragraph(text):
            return [escaped(text)]
        case Listing(texts):
            return [f"- {escaped(text)}" for text in texts]
        case Outline(lines):
            return [f"{'  ' * depth}- {escaped(text)}" for depth, text in lines]
        case Excerpt(text):
            return _fixed(text.split("\n"))
        case Item():
            return list(_item(block, block.number not in repeated))
        case Picture(data):
            return _fixed(draw_picture(data, PICTURE_WIDTH))
        case Chart():
            return list(_chart(block))
        case _:
            assert_never(block)


def _chart(chart: Chart) -> Iterator[str]:
    heads = [sentence("chart", "at", name=n, place=p) if p else n for n, p in chart.columns]
    yield _row([sentence("chart", "line"), *heads])
    yield "|" + " --- |" * (len(heads) + 1)
    for label, cells in chart.rows:
        yield _row([label, *(": ".join(part for part in cell if part) for cell in cells)])


def _row(cells: list[str]) -> str:
    return f"| {' | '.join(escaped(cell) for cell in cells)} |"


def _fixed(lines: list[str]) -> list[str]:
    longest = max((len(run) for line in lines for run in re.findall("`+", line)), default=0)
    fence = "`" * max(3, longest + 1)
    return [f"{fence}text", *(line.rstrip().replace(GLUE, " ") for line in lines), fence]


def _item(item: Item, with_picture: bool) -> Iterator[str]:
    heads = [f"{escaped(label)} {escaped(words)}".strip() for label, words in item.heads]
    title = escaped(item.title) if item.title else "; ".join(heads)
    yield f"### {item.number}. {title}"
    yield ""
    if item.title:
        yield f"**{'; '.join(heads)}**"
        yield ""
    yield escaped(item.statement)
    yield ""
    rows = [*item.margin]
    if item.also:
        rows.append((sentence("margin", "also"), item.also))
    if item.follows:
        rows.append((sentence("margin", "follows"), item.follows))
    for word, texts in rows:
        if len(texts) == 1:
            yield f"- *{word}:* {escaped(texts[0])}"
            continue
        yield f"- *{word}:*"
        yield from (f"  - {escaped(text)}" for text in texts)
    if item.picture is not None and with_picture:
        yield ""
        yield from _fixed(draw_picture(item.picture, PICTURE_WIDTH))
