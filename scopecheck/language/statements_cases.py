"""Cases: headings with columns, rows of cells or of facts, documents with their places."""

from __future__ import annotations

import re
from typing import Literal

from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Block, Line
from scopecheck.language.parse import parse_facts
from scopecheck.language.pieces import (
    Desk,
    after_word,
    cells,
    find_colon,
    one_line,
    split_commas,
    trimmed,
    without_note,
)
from scopecheck.language.scan import OVER_PARTS
from scopecheck.language.statements_columns import columns, heads_below, names_columns
from scopecheck.language.syntax import CasesStatement, Column, Node, Row, Words

_ROLES: dict[str, Literal["inside", "outside", "document", "class", "description"]] = {
    "inside": "inside",
    "must stay out": "outside",
    "document": "document",
    "class": "class",
    "description": "description",
}
_NUMBERS = r"(\d+[a-z]*(?:\s*(?:,\s*and|,|and|or)\s*\d+[a-z]*)*)"
_TARGETS = regex(rf"\bfor(?:\s+(?:claims?|limitations?))?\s+{_NUMBERS}")
_BRACKETED = regex(rf"\(\s*(?:for\s+)?(?:claims?|limitations?)\s+{_NUMBERS}\s*\)")
_FOR = regex(r"for\s+(?:claims?\s+)?\d(?![\d.]*(?: to [\d.]+)? (?!and\b|or\b|to\b)[a-z])")
"""Not a duration, as in `for 12 h`, which a step has."""
_SYMBOL = regex(
    rf"[<>=≤≥≠]|\b(?:IN|IS|NOT|{OVER_PARTS})\b|\b(?:DONE|ORDER|NEXT|BEGUN|TOGETHER|SAME|CHAIN|LAST)\("
)


def cases_statement(desk: Desk, block: Block) -> CasesStatement:
    """A heading and its rows. Without columns of its own a heading goes on with the columns before it."""
    role = _ROLES[block.heading]
    start = after_word(desk.text, block.heading, block.head)
    head_end, place = without_note(desk, start, block.head.end)
    targets, head_cells = _head(desk, start, head_end, role == "document")
    document = ""
    rows: list[Row] = []
    whole = desk.span(block.head.start, block.head.end)
    if role == "document":
        document, own = _document(desk, head_cells, place, whole, bool(block.body))
        rows += own
    elif head_cells:
        desk.columns = columns(desk, head_cells)
    for index, line in enumerate(block.body):
        try:
            if index == 0 and len(block.body) > 1 and (own_columns := _columns_in(desk, line)):
                desk.columns = own_columns
                continue
            rows.append(_placed(_row(desk, line)) if role == "description" else _row(desk, line))
        except Trouble as error:
            desk.diagnostics.append(error.diagnostic)
    if not block.body and not rows:
        raise trouble(whole, f"no case stands below '{block.heading}'", "Cases are indented lines.", "")
    return CasesStatement(role, document, targets, tuple(rows), whole)


def _placed(row: Row) -> Row:
    """A statement of the description, which has its place."""
    if row.place:
        return row
    raise trouble(
        row.span, f"'{row.name}' of the description stands without its place",
        "What is claimed is held against what the description states, and where.",
        'write after two blanks, in quotes, where it stands, such as "paragraph 12"',
    )  # fmt: skip


def _head(
    desk: Desk, start: int, end: int, document: bool
) -> tuple[tuple[tuple[str, Span], ...], list[tuple[int, int]]]:
    """The targets after `for`, and the cells of the rest."""
    targets: list[tuple[str, Span]] = []
    spans = [(a, b) for a, b in cells(desk.text, start, end) if a < b]
    found: list[tuple[int, int]] = []
    for index, (a, b) in enumerate(spans):
        match = _TARGETS.search(desk.text, a, b) if index == 0 else _TARGETS.fullmatch(desk.text, a, b)
        if not document and (match is None or match.end() < b):
            match = _BRACKETED.fullmatch(desk.text, a, b)
        if match and match.end() == b and not targets:
            for item in re.finditer(r"\d+[a-z]*", match.group(1)):
                at = match.start(1) + item.start()
                targets.append((item.group(), desk.span(at, at + len(item.group()))))
            b = trimmed(desk.text, a, match.start())[1]
        if _FOR.match(desk.text, a, b):
            raise trouble(
                desk.span(a, b), "the claims after 'for' are not understood",
                "Their numbers stand apart by commas.",
                "write for example: for 1, 2, or: for 1b",
            )  # fmt: skip
        if a < b:
            found.append((a, b))
    return tuple(targets), found


def _document(
    desk: Desk, head: list[tuple[int, int]], place: str, whole: Span, more: bool
) -> tuple[str, list[Row]]:
    if not head:
        raise trouble(whole, "a document without a name", "", "write for example: document D1")
    (a, b), *rest = head
    colon = find_colon(desk.text, a, head[-1][1])
    if colon >= 0:
        name = " ".join(desk.text[a:colon].split())
        return name, [_facts_row(desk, name, colon + 1, head[-1][1], place, whole)]
    name = " ".join(desk.text[a:b].split())
    if more and rest and names_columns(desk, head[:1]) and names_columns(desk, rest):
        raise trouble(
            whole, "columns of a document without a name", "Its name stands first, then the columns.",
            f"write document D1   {desk.text[a:head[-1][1]]}; each further document has its own heading",
        )  # fmt: skip
    if more and rest and names_columns(desk, rest):
        desk.columns = columns(desk, rest)
    elif rest:
        return name, [_cell_row(desk, name, rest, place, whole)]
    if not more:
        raise trouble(
            whole,
            f"document {name} states nothing",
            "A document has values under the columns, or indented lines below.",
            "leave two blanks between its name and each value" if " " in name else "",
        )
    return name, []


def _columns_in(desk: Desk, line: Line) -> tuple[Column, ...] | None:
    """The columns that the first line below a heading names, if it does."""
    end, place = without_note(desk, line.start, line.end)
    if place or find_colon(desk.text, line.start, end) >= 0:
        return None
    return heads_below(desk, cells(desk.text, line.start, end))


def _row(desk: Desk, line: Line) -> Row:
    text = desk.text
    end, place = without_note(desk, line.start, line.end)
    whole = desk.span(line.start, line.end)
    colon = find_colon(text, line.start, end)
    if colon >= 0:
        name = " ".join(text[line.start : colon].split())
        return _facts_row(desk, name, colon + 1, end, place, whole)
    (a, b), *rest = cells(text, line.start, end)
    name = " ".join(text[a:b].split())
    if not rest:
        raise trouble(
            whole, "a case without values", "A case is a name and its values, or a name, a colon and facts.",
            "put two blanks between the cells, or write: name : facts",
        )  # fmt: skip
    if len(rest) < len(desk.columns) and "\t" in text[line.start : end]:
        full_end = line.end if not place else end
        rest = cells(text, line.start, full_end, every_tab=True)[1:]
    return _cell_row(desk, name, rest, place, whole)


def _cell_row(desk: Desk, name: str, stretches: list[tuple[int, int]], place: str, whole: Span) -> Row:
    columns = desk.columns
    if len(stretches) != len(columns):
        heads = "  ".join(c.name for c in columns) or "(none)"
        count = f"{len(stretches)} for {len(columns)} columns"
        if len(stretches) > len(columns):
            raise trouble(
                desk.span(*stretches[len(columns)]), f"too many values: {count}",
                f"The columns are: {heads}.",
                "two blanks part cells: write one blank within a value, or add a column for this one",
            )  # fmt: skip
        parted = _parted(desk, whole, len(columns) - len(stretches))
        if parted:
            raise trouble(
                whole, f"too few values: {count}", f"The columns are: {heads}. Two blanks part cells.",
                f"put two blanks between the values: {parted}",
            )  # fmt: skip
        if len(stretches) + 1 == len(columns):
            raise trouble(
                whole, f"too few values: {count}",
                f"The columns are: {heads}. '{name}' stands first and is taken as the name of the row.",
                f"put a name before it, two blanks apart: example 1  {desk.text[whole.start : whole.end]}",
            )  # fmt: skip
        raise trouble(
            whole, f"too few values: {count}", f"The columns are: {heads}.",
            "where nothing is said write silent (in a document) or any (in a thing); two blanks part cells",
        )  # fmt: skip
    raws = tuple(desk.raw(a, b) for a, b in stretches)
    return Row(
        name, raws, None, columns, one_line(desk.page.source.text[whole.start : whole.end]), place, whole
    )


def _parted(desk: Desk, row: Span, missing: int) -> str:
    """The row with two blanks before each value that stands one behind another, where so many are missing."""
    text = desk.text[row.start : row.end]
    found = [m for m in _BEHIND_ANOTHER.finditer(text) if not _TAKES_MORE.fullmatch(m["before"])]
    if len(found) != missing:
        return ""
    for m in reversed(found):
        text = f"{text[: m.end()]} {text[m.end() :]}"
    return text


_BEHIND_ANOTHER = regex(r"(?P<before>\S+) (?=[+\-]?\d+(?:\.\d+)?(?:\s|$))")
_TAKES_MORE = regex(
    r"to|about|from|and|between|least|most|than|or|below|above|up|[-+/*x<>=±~]+|example|no\.", re.IGNORECASE
)
"""Behind these a number goes on with the value; the name of a row may be `example 2`."""


def _facts_row(desk: Desk, name: str, start: int, end: int, place: str, whole: Span) -> Row:
    start, end = trimmed(desk.text, start, end)
    if start == end:
        raise trouble(whole, "no facts stand after the colon")
    facts = tuple(_facts(desk, start, end))
    shown = one_line(desk.page.source.text[start:end])
    return Row(name, (), facts, (), shown, place, whole)


def _facts(desk: Desk, start: int, end: int) -> list[Node | Words]:
    """All in symbols, or fact by fact: those without a sign are words."""
    stretches = split_commas(desk.text, start, end)
    if all(_SYMBOL.search(desk.text, a, b) for a, b in stretches):
        return [parse_facts(desk.page, start, end, desk.own)]
    found: list[Node | Words] = []
    for a, b in stretches:
        if a == b:
            raise trouble(desk.span(max(start, a - 1), a + 1), "a fact is missing beside this comma")
        in_symbols = _SYMBOL.search(desk.text, a, b)
        found.append(parse_facts(desk.page, a, b, desk.own) if in_symbols else desk.words(a, b))
    return found
