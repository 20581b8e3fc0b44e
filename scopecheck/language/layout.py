"""The lines of a sheet: which belong together as one statement, and where a claim's text ends.

Offsets into `Page.plain` are offsets into the source: plain text differs only by single characters that
were put in place of typographic ones (blanks, quotes, dashes).
"""

from __future__ import annotations

import re
from functools import cached_property

from scopecheck.foundations.diagnostics import Diagnostic, slip_for
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span

BLANKS = (
    "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\r\ufeff\u200b"
)
_PLAIN = {
    **dict.fromkeys(BLANKS, " "),
    **dict.fromkeys("“”„‟«»", '"'),
    **dict.fromkeys("‘’‚‛′", "'"),
    **dict.fromkeys("−‐‑‒–—", "-"),
    "μ": "µ",
    "：": ":",
    "；": ";",
    "，": ",",
}

HEADINGS = (
    "title", "profile", "filed", "confidential", "phrases", "unit", "given", "inside", "must stay out",
    "document", "class", "description", "policy", "define", "read", "apart", "phrase", "term", "answered",
    "alike", "inherent",
)  # fmt: skip

_CLAIM = regex(r"(\d{1,4})\s*[.)](?=\s|$)")
_NUMBER_ALONE = regex(r"(\d{1,4})\s*:?")
_CLAIM_WORD = regex(r"[Cc](?:laim|LAIM)\s+(?=\d{1,4}\s*[.:)]?\s+[A-Z]|\d{1,4}\s*[.:)]?$)")
_HEADING = regex(r"(must stay out|[a-z]+)(?![\w-])", re.IGNORECASE)
_WIDE = r"(?: *$|  |\t| *:| +(?:for|\() *(?:claims? +)?\d)"
_PLAUSIBLE = {
    heading: regex(heading + after, re.IGNORECASE)
    for heading, after in {
        "title": r"(?:  |\t|\s*:)",
        "profile": r"(?:\s+|\s*:\s*)(?:US|EPO)\b",
        "filed": r"(?:\s+|\s*:\s*)(?:yes|no)\b",
        "confidential": r'\s*:?\s*"',
        "phrases": r"(?:  |\t|\s*:|\s.*\.phrases$)",
        "unit": r'(?:\s+|\s*:\s*)\S+\s*(?:"|$)',
        "given": r"\b.*[<>=]",
        "inside": _WIDE,
        "must stay out": _WIDE,
        "document": r"\s+\S+(?: \S+)*?" + _WIDE,
        "class": _WIDE,
        "description": _WIDE,
        "policy": r"\s*:?\s+.*\b(?:are|is)\b",
        "define": r'\s*:?\s*(?:"|\S.*:.*[<>=])',
        "read": r'\s*:?\s*"',
        "apart": r'\s*:?\s*"',
        "phrase": r'\s*:?\s*"',
        "term": r'\s*:?\s*"',
        "answered": r'\s*:?\s*"',
        "alike": r"(?:  |\t|\s*:)",
        "inherent": r"(?:  |\t|\s*:)",
    }.items()
}
CASES = ("inside", "must stay out", "document", "class", "description")
_ROW = regex(r"[^:]*?\S(?: *\t|  +(?:[-<>=≤≥{\d]|(?:measured|silent|any|unknown|none|about|between)\b))")
"""A row of cells at the left margin: what stands after a tab, or a cell that could be no kind."""
_MARGIN_WORDS = regex(
    r'(?:meant|exactly)\s|(?:reading|taken by)\s*"|(?:not restated|dependent)\s*:'
    r"|(?:free|own|only for|only when|sets)\s[^:]*:"
)
_DECLARES = regex(
    r'\S.*?(?:  +|\t\s*|\s*:\s*)(?:(?:count|number|parts?)\s*(?:,|"|$)|(?:any|one) of\b'
    r'|(?:[a-z]+ ){0,2}in \S+\s*(?:,|"|$))'
)
_NAME_AFTER_HEADING = regex(
    r'\w+ (?! )[^"]*?(?:  +|\t\s*)(?:(?:count|number|parts?)\s*(?:,|"|$)|(?:any|one) of\b'
    r'|(?:[a-z]+ ){0,2}in \S+\s*(?:,|"|$))'
)


@record
class Page:
    """A source and its plain form, character for character, and what its declarations name.

    `spelled` are names that are no plain words, the longest first; `names` are all names, in small letters.
    """

    source: Source
    spelled: tuple[str, ...] = ()
    names: frozenset[str] = frozenset()

    @cached_property
    def plain(self) -> str:
        return plain(self.source.text)

    def span(self, start: int, end: int) -> Span:
        """The place of the characters from `start` up to, not including, `end`."""
        return Span(self.source, start, end)


@record
class Line:
    """One line's content without indentation, comment and blanks at its end."""

    start: int
    end: int
    indent: int
    after_blank: bool


@record
class Block:
    """A statement's lines: `heading` is a heading word, 'claim' or 'declaration'."""

    heading: str
    head: Line
    body: tuple[Line, ...]
    after_claim: int | None = None


def plain(text: str) -> str:
    """The text with each typographic character replaced by the plain one it stands for."""
    if text.isascii():
        return text
    for sign, written in _PLAIN.items():
        text = text.replace(sign, written)
    return text


def comment_start(text: str, start: int, end: int) -> int:
    """Where a comment begins (two blanks or a tab, then #, outside quotes), or `end`."""
    if "#" not in text[start:end]:
        return end
    quoted = False
    for i in range(start, end):
        c = text[i]
        if c == '"':
            quoted = not quoted
        elif c == "#" and not quoted and (text[i - 1 : i] == "\t" or text[max(0, i - 2) : i] == "  "):
            return i
    return end


def _lines(p: Page) -> list[Line]:
    found: list[Line] = []
    at, blank = 0, False
    for raw in p.plain.split("\n"):
        content = raw.lstrip()
        if not content:
            blank = True
        elif not content.startswith("#"):
            indent = len(raw) - len(content)
            found.append(Line(at + indent, at + len(raw.rstrip()), indent, blank))
            blank = False
        at += len(raw) + 1
    return found


def heading_of(text: str) -> str:
    """The heading word that a line begins with, or ''. A declared name may begin with one and go on."""
    match = _HEADING.match(text)
    word = match.group(1).lower() if match else ""
    if word not in HEADINGS:
        return ""
    return "" if _NAME_AFTER_HEADING.match(text) and not _PLAUSIBLE[word].match(text) else word


class _Blocks:
    """Gathers lines into blocks; knows whether the last lines were a claim's text."""

    def __init__(self, p: Page) -> None:
        self.page = p
        self.blocks: list[Block] = []
        self.diagnostics: list[Diagnostic] = []
        self.heading = ""
        self.head: Line | None = None
        self.body: list[Line] = []
        self.claim: int | None = None
        self.before: int | None = None
        self.told: int | None = None

    def close(self) -> None:
        if self.head is not None:
            self.blocks.append(Block(self.heading, self.head, tuple(self.body), self.before))
        self.head, self.body = None, []

    def open(self, heading: str, line: Line, claim: int | None = None) -> None:
        self.close()
        self.before, self.claim = self.claim, claim
        self.heading, self.head = heading, self._cut(line, heading)

    def add(self, line: Line) -> None:
        text = self.heading == "claim" and not self.page.plain.startswith("|", line.start)
        self.body.append(line if text else self._cut(line, self.heading))

    def _cut(self, line: Line, heading: str) -> Line:
        if heading == "claim" and not self.page.plain.startswith("|", line.start):
            return line
        end = comment_start(self.page.plain, line.start, line.end)
        end = line.start + len(self.page.plain[line.start : end].rstrip())
        return line if end == line.end else Line(line.start, end, line.indent, line.after_blank)

    def error(self, line: Line, message: str, cause: str, help: str) -> None:
        span = self.page.span(line.start, line.end)
        self.diagnostics.append(Diagnostic("error", span, message, cause, help))

    @property
    def last_is_text(self) -> bool:
        last = self.body[-1] if self.body else self.head
        return last is not None and not self.page.plain.startswith("|", last.start)

    @property
    def below_margin(self) -> bool:
        return self.heading == "claim" and self.head is not None and not self.last_is_text

    @property
    def takes_rows(self) -> bool:
        return self.heading in CASES and self.head is not None

    @property
    def sentence_ended(self) -> bool:
        last = self.body[-1] if self.body else self.head
        return last is not None and (not self.last_is_text or self.page.plain[last.end - 1] == ".")


def blocks(p: Page) -> tuple[tuple[Block, ...], tuple[Diagnostic, ...]]:
    """The statements of a sheet in order, each with the lines that belong to it."""
    state = _Blocks(p)
    lines = _lines(p)
    for index, line in enumerate(lines):
        text = p.plain[line.start : line.end]
        rows_below = index + 1 < len(lines) and lines[index + 1].indent > 0
        claim = _CLAIM.match(text)
        if text.startswith("|"):
            _bar(state, line)
        elif line.indent:
            next_claim = claim and state.claim is not None and int(claim.group(1)) == state.claim + 1
            if (next_claim and claim and state.sentence_ended) or (claim and state.head is None):
                state.open("claim", line, int(claim.group(1)))
            elif state.head is None:
                state.error(
                    line,
                    "an indented line that belongs to nothing",
                    "Indented lines belong to the statement above.",
                    "begin the line at the left margin",
                )
            elif state.below_margin:
                _without_bar(state, line)
            else:
                state.add(line)
        elif claim:
            state.open("claim", line, int(claim.group(1)))
        else:
            _unindented(state, line, text, rows_below)
    state.close()
    return tuple(state.blocks), tuple(state.diagnostics)


def _bar(state: _Blocks, line: Line) -> None:
    if state.heading == "claim" and state.head is not None:
        state.add(line)
    else:
        state.error(
            line,
            "a margin bar that stands beside no claim",
            "Restatement lines belong to the claim above them.",
            "put the line below its claim's text",
        )


def _without_bar(state: _Blocks, line: Line) -> None:
    """A line below margin lines that has no bar: told once for a claim, and left out."""
    if state.claim != state.told:
        state.error(
            line, f"a line without a bar below the margin lines of claim {state.claim}",
            "A claim's text ends where its first margin line begins; a margin line begins with a bar.",
            "put | before it if it restates something, move it above the first bar if it is the claim's text,"
            " or begin it at the left margin if it is a heading",
        )  # fmt: skip
    state.told = state.claim


def _claim_word(state: _Blocks, line: Line, text: str, match: re.Match[str]) -> None:
    """`Claim 1. ...` is told as a mistake and then read as claim 1."""
    number = int(re.findall(r"\d+", text)[0])
    rest = re.sub(r"^\d+\s*[.:)]?\s*", "", text[match.end() :])[:30]
    state.error(
        Line(line.start, line.start + match.end() + len(str(number)), 0, False),
        "a claim begins with its number alone",
        "The word 'claim' before the number is no part of the claim.",
        f"write {number}. {rest}...",
    )
    state.open("claim", Line(line.start + match.end(), line.end, 0, line.after_blank), number)


def _row_at_margin(state: _Blocks, line: Line, text: str) -> None:
    """A row that stands where headings stand: a case, unless it may be a heading that is spelled wrong."""
    meant = slip_for(re.split(r"[\s:]", text)[0].lower(), _SPELLED_WRONG)
    indented = bool(state.body) and state.body[-1].indent > 0
    if not meant and not indented:
        state.add(line)
        return
    help = f"did you mean the heading '{meant}'? If it is a case" if meant else "if it is a case"
    state.error(
        line, f"a case of '{state.heading}', or a heading?",
        "It stands at the left margin, where headings stand.", f"{help}, indent it",
    )  # fmt: skip


_SPELLED_WRONG = ("inside", "document", "description")
"""Not 'class' and 'must', of which ordinary names are a letter away."""


def _unindented(state: _Blocks, line: Line, text: str, rows_below: bool) -> None:
    heading = heading_of(text)
    if heading == "document" and not rows_below and _NAME_AFTER_HEADING.match(text):
        heading = ""
    running = state.claim is not None and not line.after_blank and state.last_is_text
    if (match := _CLAIM_WORD.match(text)) and (not running or state.sentence_ended):
        _claim_word(state, line, text, match)
        return
    if state.below_margin and not line.after_blank and not heading and _MARGIN_WORDS.match(text):
        _without_bar(state, line)
        return
    row = state.takes_rows and not line.after_blank and not heading and _ROW.match(text)
    if row and not _DECLARES.match(text):
        _row_at_margin(state, line, text)
        return
    if running:
        plausible = bool(heading and _PLAUSIBLE[heading].match(text)) or bool(_DECLARES.match(text))
        if not plausible:
            state.add(line)
            return
        what = f"the heading '{heading}'" if heading else "a declaration"
        state.error(
            line, f"text of claim {state.claim}, or {what}?",
            "The line follows the claim's text without a blank line and could be either.",
            "indent the line if it is the claim's text, or put a blank line before it if it is not",
        )  # fmt: skip
    state.open(heading or "declaration", line)


def claim_number(text: str) -> tuple[int, int] | None:
    """A claim's number at the start of a line and where its text begins, or None."""
    match = _CLAIM.match(text) or _NUMBER_ALONE.match(text)
    return (int(match.group(1)), match.end()) if match else None
