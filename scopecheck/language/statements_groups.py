"""Classes below a list, and compositions with their ingredients: `filler : talc, chalk`."""

from __future__ import annotations

import re

from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Line
from scopecheck.language.pieces import Desk, name_node, split_commas
from scopecheck.language.syntax import ClassLine, NameNode

_COMPOSITION = regex(r"composition\b(?: in (?P<unit>[^\s,\"][^,\"]*))?")
_PARTED = regex(r"\s*:\s*| *\t\s*| {2,}|\s*:?\s*$")
_JOINED = regex(r"(?:^|\s)(and/or|and|or|not)(?=\s|$)", re.IGNORECASE)


def composition_head(text: str, start: int, end: int) -> re.Match[str] | None:
    """The match of `composition in wt%` at the start of a kind; its group `unit` may be missing."""
    return _COMPOSITION.match(text, start, end)


def no_basis(span: Span) -> Trouble:
    """The error for a composition that does not say how its shares are counted."""
    return trouble(
        span, "a composition without its unit",
        "The shares of its ingredients are counted by mass, by volume or by mole.",
        "write composition in wt%, in vol%, in mol%, or in % where the claims say no more",
    )  # fmt: skip


def class_lines(desk: Desk, body: tuple[Line, ...], ingredients: bool) -> tuple[ClassLine, ...]:
    """The lines below a list or, with `ingredients`, below a composition, where bare names may stand."""
    return tuple(made for line in body for made in _line(desk, line, ingredients))


def _line(desk: Desk, line: Line, ingredients: bool) -> list[ClassLine]:
    text, span = desk.text, desk.span(line.start, line.end)
    gap = next(_PARTED.finditer(text, line.start, line.end), None)
    if gap is None or gap.end() == line.end:
        if ingredients and (gap is None or ":" not in gap.group()):
            end = line.end if gap is None else gap.start()
            pieces = _cut(desk, line.start, end)
            return [ClassLine(_name(desk, a, b), None, False, False, span) for a, b in pieces]
        called = text[line.start : line.end if gap is None else gap.start()]
        raise trouble(
            span, f"the class '{called}' has no members", "A class stands for its members.",
            f"write {called} : and its members, with commas between them",
        )  # fmt: skip
    name = _name(desk, line.start, gap.start())
    start = gap.end()
    if "," in text[line.start : gap.start()]:
        raise trouble(name.span, "several classes in one line", "", "give each its own line")
    only, all_but = _word(text, start, line.end, "only"), _word(text, start, line.end, "all but")
    pieces = _cut(desk, only or all_but or start, line.end)
    closed = len(pieces) > 1 and not all_but and text[slice(*pieces[-1])] == "only"
    members = tuple(_name(desk, a, b) for a, b in (pieces[:-1] if closed else pieces))
    return [ClassLine(name, members, closed or bool(only), bool(all_but), span)]


def _word(text: str, start: int, end: int, word: str) -> int:
    """Where the text goes on after a word at its start, or 0."""
    match = re.compile(rf"{word}\b\s*:?\s*").match(text, start, end)
    return match.end() if match else 0


def _cut(desk: Desk, start: int, end: int) -> list[tuple[int, int]]:
    pieces = split_commas(desk.text, start, end)
    for a, b in pieces:
        if a == b:
            raise trouble(
                desk.span(max(start, a - 1), a + 1), "a member is missing here", "", "take out the comma"
            )
    return pieces


_ONLY = regex(r"^only\b|\bonly$", re.IGNORECASE)


def _name(desk: Desk, start: int, end: int) -> NameNode:
    if _ONLY.search(desk.text[start:end]):
        raise trouble(
            desk.span(start, end), "'only' is no name of a member, nor part of one",
            "A class is closed by only before its members, a composition by only behind its unit.",
            "write the class as name : only, and its members; or composition in wt%, only",
        )  # fmt: skip
    if word := _JOINED.search(desk.text[start:end]):
        raise trouble(
            desk.span(start, end), f"'{desk.text[start:end]}' holds the word '{word.group(1)}'",
            "Members stand apart by commas only; words between them may be read in several ways.",
            "write a comma between members",
        )  # fmt: skip
    return name_node(desk, start, end, "a member")
