"""The lines of a sheet: which belong together as one statement, and where a claim's text ends.

Offsets into `Page.plain` are offsets into the source: plain text differs only by single characters that
were put in place of typographic ones (blanks, quotes, dashes).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from scopecheck.diagnostics import Diagnostic
from scopecheck.record import record
from scopecheck.spans import Source, Span

BLANKS = (
    "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\r\ufeff\u200b"
)
PLAIN = str.maketrans(
    {
        **dict.fromkeys(BLANKS, " "),
        **dict.fromkeys("“”„‟«»", '"'),
        **dict.fromkeys("‘’‚‛′", "'"),
        **dict.fromkeys("−‐‑‒–—", "-"),
        "µ": "μ",
        "：": ":",
        "；": ";",
        "，": ",",
    }
)

HEADINGS = (
    "title", "profile", "filed", "confidential", "unit", "given", "inside", "must stay out", "document",
    "class", "policy", "read", "apart", "phrase", "term",
)  # fmt: skip

_CLAIM = re.compile(r"(\d{1,4})\s*[.)](?=\s|$)")
_HEADING = re.compile(r"(must stay out|[a-z]+)(?![\w-])")
_WIDE = r"(?: *$|  |\t| *:| +for +\d)"
_PLAUSIBLE = {
    "title": re.compile(r"title(?:  |\t)"),
    "profile": re.compile(r"profile\s+(?:US|EPO)\b"),
    "filed": re.compile(r"filed\s+(?:yes|no)\b"),
    "confidential": re.compile(r'confidential\s+"'),
    "unit": re.compile(r'unit\s+\S+\s*(?:"|$)'),
    "given": re.compile(r"given\s.*[<>=]"),
    "inside": re.compile("inside" + _WIDE),
    "must stay out": re.compile("must stay out" + _WIDE),
    "document": re.compile(r"document\s+\S+(?: \S+)*?" + _WIDE),
    "class": re.compile("class" + _WIDE),
    "policy": re.compile(r"policy\s+.*\b(?:are|is)\b"),
    "read": re.compile(r'read\s+"'),
    "apart": re.compile(r'apart\s+"'),
    "phrase": re.compile(r'phrase\s+"'),
    "term": re.compile(r'term\s+"'),
}
_DECLARES = re.compile(
    r'\S.*?(?:  +|\t\s*|\s*:\s*)(?:(?:count|number)\s*(?:,|"|$)|(?:any|one) of\b'
    r'|(?:[a-z]+ ){0,2}in \S+\s*(?:,|"|$))'
)
_NAME_AFTER_HEADING = re.compile(
    r'\w+ (?! )[^"]*?(?:  +|\t\s*)(?:(?:count|number)\s*(?:,|"|$)|(?:any|one) of\b'
    r'|(?:[a-z]+ )?in \S+\s*(?:,|"|$))'
)


@dataclass(frozen=True)
class Page:
    """A source and its plain form, character for character."""

    source: Source
    plain: str

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


def page(source: Source) -> Page:
    """The source with its plain form beside it."""
    return Page(source, source.text.translate(PLAIN))


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
    word = match.group(1) if match else ""
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
    def sentence_ended(self) -> bool:
        last = self.body[-1] if self.body else self.head
        return last is not None and (not self.last_is_text or self.page.plain[last.end - 1] == ".")


def blocks(p: Page) -> tuple[tuple[Block, ...], tuple[Diagnostic, ...]]:
    """The statements of a sheet in order, each with the lines that belong to it."""
    state = _Blocks(p)
    for line in _lines(p):
        text = p.plain[line.start : line.end]
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
            else:
                state.add(line)
        elif claim:
            state.open("claim", line, int(claim.group(1)))
        else:
            _unindented(state, line, text)
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


def _unindented(state: _Blocks, line: Line, text: str) -> None:
    heading = heading_of(text)
    running = state.claim is not None and not line.after_blank and state.last_is_text
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
    match = _CLAIM.match(text)
    return (int(match.group(1)), match.end()) if match else None
