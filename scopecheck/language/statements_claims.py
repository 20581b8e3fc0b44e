"""Claims: the text as pasted, and the restatement lines in its margin."""

from __future__ import annotations

import re
from contextlib import suppress

from scopecheck.foundations.diagnostics import Diagnostic, Trouble, slip_for, trouble
from scopecheck.foundations.record import field, holder
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Block, Line, claim_number
from scopecheck.language.parse import parse_facts, parse_terms
from scopecheck.language.pieces import Desk, find_colon, one_line, trimmed
from scopecheck.language.reading_lines import parts, readings_from
from scopecheck.language.scan import OVER_PARTS
from scopecheck.language.syntax import ChainNode, ClaimStatement, Mark, Node, Restatement, Words

_BELOW = regex(r'(reading|free|own|sets|taken by|only for|only when|meant|exactly)(?=[\s",])')
_OWN_LINE = regex(r"(meant|exactly),?\s+")
_MARK = regex(r"(not restated|dependent)\s*:")
_MEANT = regex(r"(?:\s{2,}|\t)meant\s+")
_LIKE_MEANT = regex(r"(?:\s(?=means|meaning|meant|intended)|(?:\s{2,}|\t)(?=mean))([a-z]+)\s+(?=\S)")
_APART = regex(r"(?:\s{2,}|\t)([a-z]+)\s+(?=\S)")
_INTENTS = ("meant", "exactly")
_EXACTLY = regex(r"(?:\s{2,}|\t)exactly,?\s+")
_SYMBOLS = regex(
    rf"[<>=≤≥≠]|\b(?:IS|IN|{OVER_PARTS})\b|\b(?:DONE|ORDER|NEXT|BEGUN|TOGETHER|SAME|CHAIN|LAST)\("
)


@holder
class _Entry:
    """One margin line with the lines below that belong to it, as stretches of text."""

    start: int
    end: int
    below: list[tuple[int, int, int]] = field(default_factory=list)


def claim_statement(desk: Desk, block: Block) -> ClaimStatement:
    """The claim's number, the places of its text, and its margin lines. Bad lines are reported one by one."""
    text = desk.text
    head = block.head
    number, pieces = claim_pieces(desk, block)
    bars = [line for line in block.body if text.startswith("|", line.start)]
    if not any(piece.start < piece.end for piece in pieces):
        raise trouble(desk.span(head.start, head.end), f"claim {number} has no text")
    lines: list[Restatement | Mark] = []
    for entry in _entries(desk, bars):
        try:
            lines.append(_line(desk, entry))
        except Trouble as error:
            desk.diagnostics.append(error.diagnostic)
    return ClaimStatement(number, pieces, tuple(lines), desk.span(head.start, head.end))


def claim_pieces(desk: Desk, block: Block) -> tuple[int, tuple[Span, ...]]:
    """The claim's number and the places of its text, line by line."""
    text, head = desk.text, block.head
    numbered = claim_number(text[head.start : head.end])
    assert numbered
    number, offset = numbered
    first = desk.span(*trimmed(text, head.start + offset, head.end))
    rest = [desk.span(x.start, x.end) for x in block.body if not text.startswith("|", x.start)]
    return number, (first, *rest)


def _entries(desk: Desk, bars: list[Line]) -> list[_Entry]:
    text = desk.text
    entries: list[_Entry] = []
    margin: int | None = None
    for bar in bars:
        start, end = trimmed(text, bar.start + 1, bar.end)
        if start == end:
            continue
        column = start - bar.start
        deep = margin is not None and column >= margin + 2
        below = _BELOW.match(text, start, end)
        if below and below[1] in _OF_READINGS and not (entries and _has_reading(text, entries[-1])):
            below = None  # 'free height' is a name
        if below and entries:
            entries[-1].below.append((start, end, column))
        elif (
            deep
            and entries
            and find_colon(text, start, end) < 0
            and not _new_fact(text, entries[-1], start, end)
        ):
            last = entries[-1]
            if last.below:
                last.below[-1] = (last.below[-1][0], end, last.below[-1][2])
            else:
                last.end = end
        else:
            margin = column if margin is None else margin
            entries.append(_Entry(start, end))
    return entries


def _new_fact(text: str, last: _Entry, start: int, end: int) -> bool:
    """A deeper line in symbols under a line of words is a limitation of its own."""
    in_words = find_colon(text, last.start, last.end) >= 0 and not last.below
    return bool(
        in_words and _SYMBOLS.search(text, start, end) and not _MEANT.search(text, last.start, last.end)
    )


def _refuse_like_meant(desk: Desk, start: int, end: int) -> None:
    """Symbols after a word that is nearly `meant` are an intent, not words of the claim."""
    match = _LIKE_MEANT.search(desk.text, start, end) or _misspelled(desk.text, start, end)
    if match and _SYMBOLS.search(desk.text, match.end(), end):
        intent = one_line(desk.text[match.end() : end])
        word = slip_for(match.group(1), _INTENTS) or "meant"
        raise trouble(
            desk.span(*match.span(1)),
            f"'{match.group(1)}' stands here where an intent begins",
            "What you mean, in symbols, stands right of the claim's words after the word meant"
            " (or after exactly, for what is read instead of them).",
            f"write two blanks, then: {word}  {intent}",
        )


def _misspelled(text: str, start: int, end: int) -> re.Match[str] | None:
    """`ment`, `exacty`: a word behind a wide gap that is nearly one of the language."""
    apart = _APART.search(text, start, end)
    return apart if apart and slip_for(apart.group(1), _INTENTS) else None


def _line(desk: Desk, entry: _Entry) -> Restatement | Mark:
    text, start, end = desk.text, entry.start, entry.end
    if mark := _MARK.match(text, start, end):
        words = _plain_words(desk, mark.end(), end)
        if not words.text:
            raise trouble(desk.span(start, end), "no words stand after the colon")
        return Mark(words, words.span, mark.group(1) == "dependent")
    meant_at = _below(desk, entry, "meant")
    if match := _MEANT.search(text, start, end):
        meant_at, end = (match.end(), end), match.start()
    elif meant_at is None:
        _refuse_like_meant(desk, start, end)
    exact_at = _below(desk, entry, "exactly")
    if match := _EXACTLY.search(text, start, end):
        exact_at, end = (match.end(), end), match.start()
    if exact_at is not None and desk.text[slice(*exact_at)].strip() in ("...", "…"):
        return _to_be_written(desk, find_colon(text, start, end) + 1, end)
    meant = _facts(desk, meant_at)
    meant_text = one_line(desk.page.source.text[slice(*meant_at)]) if meant_at else ""
    below = [b for b in entry.below if not _OWN_LINE.match(text, b[0], b[1])]
    readings, strays = readings_from(desk, list(parts(desk, below)))
    for stray in strays:
        raise trouble(
            desk.span(stray.start, stray.end),
            "this line belongs to no reading",
            "",
            "indent it below its reading",
        )
    whole = desk.span(start, end)
    shown = one_line(desk.page.source.text[start:end])
    colon = find_colon(text, start, end)
    if colon < 0:
        if readings:
            raise trouble(
                whole, "readings below a line without a colon", "", "write: subject : words of the claim"
            )
        exact = _symbols_alone(desk, start, end)
        return Restatement((), "", None, exact, meant, meant_text, (), shown, whole)
    subject_text = one_line(text[start:colon])
    subject = _subject(desk, start, colon, bool(readings) or exact_at is not None)
    phrase = not readings and exact_at is None
    words = desk.words(colon + 1, end) if phrase else _plain_words(desk, colon + 1, end)
    if not words.text:
        raise trouble(
            whole, "no words stand after the colon", "Right of the colon stand words of the claim.", ""
        )
    exact_node = _facts(desk, exact_at)
    formula = _formula_lifted(desk, colon + 1, end) if any(t.sort == "sign" for t in words.tokens) else None
    barred = any(t.text == "ABS" for t in words.tokens)
    worked_out = phrase and formula is None and (len(subject) > 1 or barred)
    begun = _term_begun(desk, colon + 1, end) if worked_out else None
    return Restatement(
        subject, subject_text, words, exact_node, meant, meant_text, readings, shown, whole, formula, begun
    )


def _to_be_written(desk: Desk, start: int, end: int) -> Mark:
    """`width : words  exactly  ...`: a mark, until the meaning stands in place of the dots."""
    words = _plain_words(desk, start, end)
    what = "the meaning of this line is still to be written: until then its words are not restated"
    desk.diagnostics.append(Diagnostic("warning", words.span, what))
    return Mark(words, words.span)


def _formula_lifted(desk: Desk, start: int, end: int) -> Node | None:
    """The words as a comparison in symbols, also behind what brings it in; None if they are none."""
    start, end = trimmed(desk.text, start, end)
    brought_in = _BROUGHT_IN.match(desk.text, start, end)
    holds = _HOLDS.search(desk.text, start, end)
    for begin in (start, brought_in.end()) if brought_in else (start,):
        with suppress(Trouble):
            found = parse_facts(desk.page, begin, holds.start() if holds else end, desk.own)
            return found if isinstance(found, ChainNode) else None
    return None


_BROUGHT_IN = regex(
    r"(?!.*?\b(?:if|when|unless|not|no|neither|except|only|any|least|least|one|some|or)\b)"
    r"(?:[^\W\d_][\w'-]*[,:]?\s+)*?"
    r"(?:satisf(?:y|ies|ying)|fulfill?(?:s|ing)?|meet(?:s|ing)?|relation(?:ship)?|expression|formula|inequality"
    r"|condition|equation)(?:\s*:|(?:\s+(?:the|a|following|conditional|relation(?:ship)?|expression|formula"
    r"|inequality|condition|equation|of))*)\s*:?\s+(?=[-\d|(A-Z])",
    re.IGNORECASE,
)
_HOLDS = regex(r",?\s+(?:is|being)\s+(?:satisfied|fulfilled|met)$|,?\s+holds$")


def _term_begun(desk: Desk, start: int, end: int) -> tuple[Node, Words] | None:
    """The arithmetic that the words begin with, and the words behind it; None if there is none.

    A quotient of two names alone is a ratio, which phrases have.
    """
    start, end = trimmed(desk.text, start, end)
    for behind in _BEHIND_TERM.finditer(desk.text, start, end):
        at = _BEFORE_TERM.match(desk.text, start, behind.start())
        begin = at.end() if at else start
        written = desk.text[begin : behind.start()]
        signs = _OPERATORS.findall(written)
        ratio = len(signs) == 1 and signs[0] in "/:"
        if ((ratio or not signs) and "|" not in written) or not _TERM.fullmatch(written):
            continue
        with suppress(Trouble):
            (term,) = parse_terms(desk.page, begin, behind.start(), desk.own)
            return term, desk.words(behind.end(), end)
    return None


_BEHIND_TERM = regex(r",?\s(?=(?:is|being|are|of|at|less|more|greater|not|no|between|from|in|below|above)\s)")
_BEFORE_TERM = regex(
    r"(?:(?:a|an|the)\s+)(?:[a-z]{3,}\s+)*[a-z]{3,}(?:,?\s+(?:which\s+is\s+|being\s+)?"
    r"(?:defined|expressed|represented|given|calculated|computed|determined)\s+(?:as|by)\s+|\s+(?:of\s+)?)"
    r"(?!(?:as|by)\s)(?=[\w(|]+\s*[-+*/·(|\w])"
)
_OPERATORS = regex(r"[-+*/·×]")
_TERM = regex(r"[\w\s()|+*/·×.-]+")
_OF_READINGS = ("free", "own", "sets")


def _has_reading(text: str, entry: _Entry) -> bool:
    return any(text.startswith("reading", start) for start, _, _ in entry.below)


def _below(desk: Desk, entry: _Entry, keyword: str) -> tuple[int, int] | None:
    for start, end, _ in entry.below:
        match = _OWN_LINE.match(desk.text, start, end)
        if match and match.group(1) == keyword:
            return match.end(), end
    return None


def _facts(desk: Desk, at: tuple[int, int] | None) -> Node | None:
    return parse_facts(desk.page, at[0], at[1], desk.own) if at else None


def _plain_words(desk: Desk, start: int, end: int) -> Words:
    start, end = trimmed(desk.text, start, end)
    return Words(one_line(desk.text[start:end]), (), desk.span(start, end))


def _subject(desk: Desk, start: int, end: int, may_be_empty: bool) -> tuple[Node, ...]:
    start, end = trimmed(desk.text, start, end)
    if start == end:
        if may_be_empty:
            return ()
        raise trouble(
            desk.span(start, start + 1), "nothing stands left of the colon",
            "Left of the colon stands what is measured.", "write: subject : words of the claim",
        )  # fmt: skip
    return parse_terms(desk.page, start, end, desk.own)


def _symbols_alone(desk: Desk, start: int, end: int) -> Node:
    if not _SYMBOLS.search(desk.text, start, end):
        span: Span = desk.span(start, end)
        raise trouble(
            span, "neither words after a colon nor facts in symbols",
            "A restatement has a colon between what is measured and the claim's own words.",
            "write: subject : words of the claim",
        )  # fmt: skip
    return parse_facts(desk.page, start, end, desk.own)
