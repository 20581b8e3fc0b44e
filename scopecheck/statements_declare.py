"""Declarations: `NAME  KIND [, bounds] ["note"]`."""

from __future__ import annotations

import re

from scopecheck.diagnostics import did_you_mean, trouble
from scopecheck.layout import Block
from scopecheck.pieces import Desk, name_node, number_node, split_commas, trimmed, without_note
from scopecheck.quantity import Unit, explain_unit, find_unit, kind_word, kind_words, known_symbols
from scopecheck.syntax import Declare, ListKind, NameNode, NumberKind, NumberNode

_LIST = re.compile(r"(any|one) of\s+(only\s+)?")
_IN_UNIT = re.compile(r"(?:(?P<word>[a-z]+(?: [a-z]+){0,2}) )?in (?P<unit>\S[^,\"]*)")
_GAP = re.compile(r" *\t\s*| {2,}| *: *")
_BOUND = re.compile(r"(<=|>=|<|>|≤|≥|=)\s*")


def declaration(desk: Desk, block: Block) -> Declare:
    """Names and what they stand for. Two blanks, a tab or a colon part NAME and KIND, else the words do."""
    start = block.head.start
    end, note = without_note(desk, start, block.head.end)
    text = desk.text
    gaps = list(_GAP.finditer(text, start, end))
    gap = next((m for m in gaps if _looks_like_kind(text[m.end() : end])), None)
    if gap is not None:
        name_end, kind_start = gap.start(), gap.end()
    else:
        singles = () if gaps else re.finditer(" ", text[start:end])
        places = [m for m in singles if _looks_like_kind(text[start + m.end() : end])]
        if not places:
            raise _no_kind(desk, block, end)
        name_end, kind_start = start + places[0].start(), start + places[0].end()
    desk.failed |= {text[a:b].lower() for a, b in split_commas(text, start, name_end)}
    names = tuple(name_node(desk, a, b, "a declaration") for a, b in split_commas(text, start, name_end))
    return Declare(names, _kind(desk, kind_start, end), note, desk.span(start, block.head.end))


def _looks_like_kind(text: str) -> bool:
    if re.match(r"(count|number|whole number)\s*(,|$)", text) or _LIST.match(text):
        return True
    if match := _IN_UNIT.match(text):
        return match["word"] is None or kind_word(match["word"]) is not None
    return kind_word(text.partition(",")[0].strip()) is not None


def _no_kind(desk: Desk, block: Block, end: int) -> Exception:
    start = block.head.start
    text = desk.text[start:end]
    after = block.after_claim
    kinds = "count | length in mm | share in % | any of a, b"
    help = f"a declaration is a name, two blanks, and a kind, such as: {kinds}"
    wrong = _IN_UNIT.search(text)
    if wrong and wrong["word"]:
        near = did_you_mean(wrong["word"].split()[-1], kind_words())
        help = f"{near} {help}".strip()
    if after is not None:
        help += f"; text of claim {after} that goes on after a blank line is indented"
    return trouble(
        desk.span(start, end), "this line is not understood", "It is no heading, claim or declaration.", help
    )


def _kind(desk: Desk, start: int, end: int) -> NumberKind | ListKind:
    text = desk.text
    start, end = trimmed(text, start, end)
    if match := _LIST.match(text, start, end):
        return _list(desk, match, start, end)
    (first_start, first_end), *rest = split_commas(text, start, end)
    first = " ".join(text[first_start:first_end].split())
    bounds = tuple(_bound(desk, a, b) for a, b in rest)
    span = desk.span(start, end)
    if first in ("count", "whole number"):
        return NumberKind("count", None, True, bounds, span)
    if first == "number":
        return NumberKind("number", None, False, bounds, span)
    match = _IN_UNIT.fullmatch(text, first_start, first_end)
    if not match:
        raise _which_unit(desk, first, first_start, first_end)
    unit = _unit(desk, match.start("unit"), first_end, match["word"] or "")
    return NumberKind(match["word"] or "", unit, False, bounds, span)


def _which_unit(desk: Desk, word: str, start: int, end: int) -> Exception:
    known = kind_word(word)
    examples = {"share": "share in %", "temperature": "temperature in degC", "length": "length in mm"}
    return trouble(
        desk.span(start, end),
        f"in which unit is this {word} given?" if known else f"'{word}' is no kind",
        "Every quantity is declared with a unit.",
        f"write for example {examples.get(word, word + ' in ' + '...')}",
    )


def _unit(desk: Desk, start: int, end: int, word: str) -> Unit:
    start, end = trimmed(desk.text, start, end)
    written = " ".join(desk.text[start:end].split())
    level = word == "temperature"
    unit = find_unit(written, desk.own, level=level)
    symbol, of, whole = written.partition(" of ")
    if unit is None and of:
        share = find_unit(symbol, desk.own)
        if share and not share.kind.dimension:
            return Unit(share.symbol, share.kind.of(whole.strip()), share.factor, share.offset)
    if unit is None:
        help = _units_like(written, word) or explain_unit(written, desk.own) or ""
        raise trouble(desk.span(start, end), f"'{written}' is no known unit", "", help)
    return unit


def _units_like(written: str, word: str) -> str:
    """A help sentence with units of the kind that the word names."""
    known = kind_word(word) if word else None
    units = [s for s in known_symbols() if known and (unit := find_unit(s)) and known.accepts(unit.kind)]
    near = [
        u
        for u in units
        if len(u) == len(written) and sum(a != b for a, b in zip(u, written, strict=True)) == 1
    ]
    return f"did you mean {' or '.join(near[:3])}?" if near else ""


def _bound(desk: Desk, start: int, end: int) -> tuple[str, NumberNode]:
    match = _BOUND.match(desk.text, start, end)
    if not match or match.group(1) == "=":
        raise trouble(
            desk.span(start, max(end, start + 1)),
            "a bound was expected here",
            "After the kind come bounds, each a comparison with a number.",
            "write for example: > 0 mm, <= 50 mm",
        )
    sign = {"≤": "<=", "≥": ">="}.get(match.group(1), match.group(1))
    return sign, number_node(desk, match.end(), end)


def _list(desk: Desk, match: re.Match[str], start: int, end: int) -> ListKind:
    members: list[NameNode] = []
    for a, b in split_commas(desk.text, match.end(), end):
        if a == b:
            raise trouble(
                desk.span(max(start, a - 1), a + 1), "a member is missing here", "", "take out the comma"
            )
        members.append(name_node(desk, a, b, "a member"))
    return ListKind(match.group(1) == "any", bool(match.group(2)), tuple(members), desk.span(start, end))
