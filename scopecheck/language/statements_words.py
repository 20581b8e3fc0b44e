"""Statements about words: phrases and terms with their readings, policies, pins, and what is read apart."""

from __future__ import annotations

import re

from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.regex import regex
from scopecheck.language.layout import Block
from scopecheck.language.parse import parse_facts
from scopecheck.language.pieces import Desk, after_word, find_colon, number_node, one_line, without_note
from scopecheck.language.reading_lines import Part, each_has, kinds, parts, readings_from, unquoted
from scopecheck.language.syntax import (
    ApartStatement,
    CallNode,
    DefineStatement,
    NameNode,
    NegativeNode,
    Node,
    NumberNode,
    PhraseStatement,
    PolicyStatement,
    PowerNode,
    ProductNode,
    ReadingText,
    ReadStatement,
    RoundNode,
    SumNode,
    TermStatement,
)

_QUOTED = regex(r'"([^"]*)"')
_PRESUMED = regex(r'(US court|US examination|US|EPO)\s*:\s*(none|"[^"]*"(?:\s*,\s*"[^"]*")*)')
_GROUP = regex(r"(\w+)(?:\s+id\s+(\w+))?")


def _quoted_head(desk: Desk, block: Block) -> re.Match[str]:
    start = after_word(desk.text, block.heading, block.head)
    without_note(desk, start, block.head.end)
    match = _QUOTED.match(desk.text, start, block.head.end)
    if not match:
        raise trouble(
            desk.span(block.head.start, block.head.end), f"no words in quotes after '{block.heading}'", "",
            f'write {block.heading} "..."',
        )  # fmt: skip
    return match


def phrase(desk: Desk, block: Block) -> PhraseStatement:
    """A phrase with its patterns and readings; formulas stay unparsed until the phrase is used."""
    head = _quoted_head(desk, block)
    readings, fields = _fields(desk, block)
    patterns = [(one_line(head.group(1)), desk.span(head.start(1), head.end(1)))]
    for part in fields:
        if part.keyword == "also":
            patterns += [
                (one_line(m.group(1)), desk.span(m.start(1), m.end(1))) for m in _in(desk, part, _QUOTED)
            ]
    if not readings:
        raise trouble(
            desk.span(head.start(), head.end()), "a phrase without readings", "",
            'add lines such as: reading "label" : x >= L',
        )  # fmt: skip
    group, ident = _group(desk, fields)
    only_for = tuple(k for p in fields if p.keyword == "only for" for k in kinds(desk, p))
    return PhraseStatement(
        tuple(patterns),
        next((desk.raw(p.start, p.end) for p in fields if p.keyword == "where"), None),
        readings,
        tuple(_presumed(desk, fields)),
        tuple(m.group(1) for p in fields if p.keyword == "strained" for m in _in(desk, p, _QUOTED)),
        only_for,
        tuple(
            n
            for p in fields
            if p.keyword == "subjects"
            for n in re.findall(r"\w+", desk.text[p.start : p.end])
        ),
        next((each_has(desk, p, only_for) for p in fields if p.keyword == "each has"), ""),
        tuple(_source(desk, p) for p in fields if p.keyword == "source"),
        next((unquoted(desk, p) for p in fields if p.keyword == "exact wording"), ""),
        next((unquoted(desk, p) for p in fields if p.keyword == "ask"), ""),
        group,
        ident,
        desk.span(block.head.start, block.head.end),
    )


def _fields(desk: Desk, block: Block) -> tuple[tuple[ReadingText, ...], list[Part]]:
    lines = ((line.start, line.end, line.indent) for line in block.body)
    return readings_from(desk, list(parts(desk, lines)))


def _in(desk: Desk, part: Part, pattern: re.Pattern[str]) -> list[re.Match[str]]:
    return list(pattern.finditer(desk.text, part.start, part.end))


def _presumed(desk: Desk, fields: list[Part]) -> list[tuple[str, tuple[str, ...]]]:
    found: list[tuple[str, tuple[str, ...]]] = []
    for part in fields:
        if part.keyword == "presumed":
            matches = _in(desk, part, _PRESUMED)
            if not matches:
                raise trouble(
                    desk.span(part.start, part.end), "a presumption without profile and label", "",
                    'write presumed US : "label", or presumed US : none',
                )  # fmt: skip
            found += [(m.group(1), tuple(q.group(1) for q in _QUOTED.finditer(m.group(2)))) for m in matches]
    return found


def _group(desk: Desk, fields: list[Part]) -> tuple[str, str]:
    group = ident = ""
    for part in fields:
        text = one_line(desk.text[part.start : part.end])
        if part.keyword == "group" and (match := _GROUP.match(text)):
            group, ident = match.group(1), match.group(2) or ident
        elif part.keyword == "id":
            ident = text
    return group, ident


def _source(desk: Desk, part: Part) -> tuple[str, str]:
    text = one_line(desk.page.source.text[part.start : part.end])
    match = re.fullmatch(r'["“](.*)["”]\s*:\s*(.+)', text)
    if not match:
        raise trouble(
            desk.span(part.start, part.end), "a source without text and tag", "",
            'write source "citation" : read',
        )  # fmt: skip
    return match.group(1), match.group(2)


def term(desk: Desk, block: Block) -> TermStatement:
    """A noun with several referents."""
    head = _quoted_head(desk, block)
    note = _QUOTED.search(desk.text, head.end(), block.head.end)
    readings, _ = _fields(desk, block)
    span = desk.span(head.start(1), head.end(1))
    if not readings:
        raise trouble(
            span, "a term without readings", "", 'add lines such as: reading "of the air" : air temperature'
        )
    return TermStatement(one_line(head.group(1)), note.group(1) if note else "", readings, span)


AS_DEFINED = "as defined"
"""The name of the reading that a definition gives its words."""


def define(desk: Desk, block: Block) -> DefineStatement:
    """A definition found in the description: `define "about (N)" : 0.9 * N <= x "paragraph 12"`."""
    head = _quoted_head(desk, block)
    wording = one_line(head.group(1))
    last = block.body[-1].end if block.body else block.head.end
    whole = desk.span(head.start(), block.head.end)
    colon = find_colon(desk.text, head.end(), last)
    if colon < 0:
        raise trouble(
            whole, "a definition without a meaning", "",
            f'write define "{wording}" : its meaning in symbols, two blanks, and its place in quotes',
        )  # fmt: skip
    end, place = without_note(desk, colon + 1, last)
    raw = desk.raw(colon + 1, end)
    if not raw.text:
        raise trouble(whole, f"the definition of '{wording}' has no meaning after its colon")
    if not place:
        raise trouble(
            desk.span(raw.start, raw.end), "a definition without its place",
            "A definition is one that the description gives; a reading of your own is a phrase or a pin.",
            'write after two blanks, in quotes, where it stands, such as "paragraph 12"',
        )  # fmt: skip
    span = desk.span(block.head.start, last)
    reading = ReadingText(AS_DEFINED, (), raw, (), (), "", (), (), "", span)
    amount = _is_amount(parse_facts(raw.page, raw.start, raw.end, desk.own))
    return DefineStatement(wording, reading, amount, place, f"definition of '{wording}'", span)


def _is_amount(node: Node) -> bool:
    """Whether the symbols are a term, not facts."""
    if isinstance(node, CallNode):
        return node.function not in ("ONE", "EVERY", "SOME")
    amounts = (NameNode, NumberNode, NegativeNode, SumNode, ProductNode, PowerNode, RoundNode)
    return isinstance(node, amounts)


_POLICY = regex(r"(.+?)\s+(?:are|is)\s+(.+)")


def policy(desk: Desk, block: Block) -> PolicyStatement:
    """One kind of ambiguity settled throughout, with the place it rests on."""
    start = after_word(desk.text, "policy", block.head)
    end, reason = without_note(desk, start, block.head.end)
    text = one_line(desk.text[start:end])
    match = _POLICY.fullmatch(text)
    span = desk.span(start, max(end, start + 1))
    if not match:
        raise trouble(
            span, "a policy that settles nothing", "", 'write for example: policy ends are included "page 3"'
        )
    return PolicyStatement(match.group(1), match.group(2), reason, text, span)


_READ = regex(r'"([^"]*)"(?:\s+(?:in|for)\s+([^"]+?))?\s+as\s+"([^"]*)"(.*)')
_WITH = regex(r"(\w+)\s*=\s*")


def read(desk: Desk, block: Block) -> ReadStatement:
    """A pin: `read "about" [in 1b] as "rounding only" [with e = 5 %] "reason"`."""
    start = after_word(desk.text, "read", block.head)
    match = _READ.match(desk.text, start, block.head.end)
    whole = desk.span(start, max(block.head.end, start + 1))
    if not match:
        without_note(desk, start, block.head.end)
        raise trouble(
            whole, "a pin without wording and reading", "", 'write read "about" as "rounding only" "page 3"'
        )
    end, reason = without_note(desk, match.start(4), block.head.end)
    places = tuple(p for part in re.split(r",|\band\b", match.group(2) or "") for p in _pin_places(part))
    values: list[tuple[str, NumberNode]] = []
    rest = desk.text[match.start(4) : end]
    given = re.match(r"\s*(?:in\s+([\w, ]+?)\s+)?with\s+", rest)
    if given:
        items = list(_WITH.finditer(desk.text, match.start(4) + given.end(), end))
        for index, item in enumerate(items):
            stop = items[index + 1].start() if index + 1 < len(items) else end
            stop = len(desk.text[:stop].rstrip(", "))
            values.append((item.group(1), number_node(desk, item.end(), stop)))
    elif rest.strip():
        raise trouble(desk.span(match.start(4), end), "this part of the pin is not understood", "", "")
    text = one_line(desk.page.source.text[start:end])
    return ReadStatement(
        one_line(match.group(1)), one_line(match.group(3)), places, tuple(values), reason, text, whole
    )


def _pin_places(text: str) -> list[str]:
    """`claims 1 2b` as its numbers, anything else as one name."""
    words = re.sub(r"^\s*(?:claims?|limitations?)\s+(?=\d)", "", text).split()
    return words if all(re.fullmatch(r"\d+[a-z]*", w) for w in words) else [" ".join(words)]


def apart(desk: Desk, block: Block) -> ApartStatement:
    """Words whose occurrences are read each by itself."""
    head = _quoted_head(desk, block)
    return ApartStatement(one_line(head.group(1)), desk.span(head.start(1), head.end(1)))
