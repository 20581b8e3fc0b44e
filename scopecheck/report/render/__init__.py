"""A report drawn in one of the formats. A format is a module with one function from a report to text."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeAlias, assert_never

from scopecheck.report.blocks import Report

Format: TypeAlias = Literal["text", "markdown", "json"]


def render(report: Report, format: Format, width: int = 90, colour: bool = False) -> str:
    """The report in the format asked for, ending in a line end. Width and colour matter to text only."""
    match format:
        case "text":
            from scopecheck.report.render.text import draw_text

            return draw_text(report, width, colour)
        case "markdown":
            from scopecheck.report.render.markdown import draw_markdown

            return draw_markdown(report)
        case "json":
            from scopecheck.report.render.json import draw_json

            return draw_json(report)
        case _:
            assert_never(format)


def wants_colour(is_terminal: bool, environment: Mapping[str, str]) -> bool:
    """Colour on a terminal only, and never where NO_COLOR is set or the terminal is a dumb one."""
    return is_terminal and not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"


__all__ = ["Format", "render", "wants_colour"]
