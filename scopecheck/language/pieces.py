"""Small pieces that several statements share: cells, notes in quotes, the colon, names, readings."""

from __future__ import annotations

import re

from scopecheck.foundations.diagnostics import Diagnostic, trouble
from scopecheck.foundations.quantity import Unit, find_unit, is_refused, nearest_units
from scopecheck.foundations.record import field, holder
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Line, Page
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import Token, is_plain_name, scan
from scopecheck.language.syntax import Column, NameNode, NumberNode, Raw, Words

_REFERENCE_SIGNS = regex(r"\(\s*\d+[a-zA-Z]?'?(?:\s*[,;-]\s*\d+[a-zA-Z]?'?)*\s*\)")


@holder
class Desk:
    """What is at hand while statements are read one by one."""

    page: Page
    own: dict[str, Unit] = field(default_factory=dict)
    diagnostics: list[Diagnostic] = field(default_factory=list)
    columns: tuple[Column, ...] = ()
    failed: set[str] = field(default_factory=set)
    """Names, in small letters, that declarations are meant to declare, with a mistake or without."""
    spelled: set[str] = field(default_factory=set)
    """Names that are more than plain words, `1,3-butadiene` or `PEG 1000`."""

    @property
    def text(self) -> str:
        return self.page.plain

    def raw(self, start: int, end: int) -> Raw:
        """A stretch of text without blanks at its ends."""
        start, end = trimmed(self.text, start, end)
        return Raw(self.page, start, end)

    def span(self, start: int, end: int) -> Span:
        return self.page.span(start, end)

    def words(self, start: int, end: int) -> Words:
        """Words with their tokens; a full stop, comma or semicolon at the end is dropped."""
        start, end = trimmed(self.text, start, end)
        while end > start and self.text[end - 1] in ".;, " and not self.text[start:end].endswith("..."):
            end -= 1
        tokens = self._without_signs(start, end)
        return Words(one_line(self.text[start:end]), tokens, self.span(start, end))

    def _without_signs(self, start: int, end: int) -> tuple[Token, ...]:
        """The tokens of words without signs of the drawings, as in `holes (12, 14a)`, and `(2)` after two."""
        found: tuple[Token, ...] = ()
        at = start
        for sign in _REFERENCE_SIGNS.finditer(self.text, start, end):
            if self.text.count("(", at, sign.start()) != self.text.count(")", at, sign.start()):
                continue
            before = scan(self.page, at, sign.start(), self.own, words=True)
            if not before or before[-1].sort != "word":
                continue
            counted = NUMBER_WORDS.get(before[-1].text.lower())
            if counted is None or sign.group().strip("( )") == str(counted):
                found, at = (*found, *before), sign.end()
        return (*found, *scan(self.page, at, end, self.own, words=True))


def trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """The stretch without blanks at either end."""
    while start < end and text[start].isspace():
        start += 1
    while end > start and text[end - 1].isspace():
        end -= 1
    return start, end


def one_line(text: str) -> str:
    """Text that may run over margin lines, on one line with single blanks."""
    return " ".join(re.sub(r"\n\s*\|", " ", text).split())


def after_word(text: str, word: str, line: Line) -> int:
    """Where the rest of a line begins after its heading word and a colon, if one stands there."""
    at = line.start + len(word)
    colon = False
    while at < line.end and (text[at].isspace() or (text[at] == ":" and not colon)):
        colon = colon or text[at] == ":"
        at += 1
    return at


def without_note(desk: Desk, start: int, end: int) -> tuple[int, str]:
    """The end of the text before a note in quotes that closes it, and the note ('' if none)."""
    text = desk.text
    if text.count('"', start, end) % 2:
        at = text.rfind('"', start, end)
        raise trouble(
            desk.span(at, at + 1), "a quote that is never closed",
            "Quoted text ends with a second quote on the same line.", 'add a " where the text ends',
        )  # fmt: skip
    if end > start and text[end - 1] == '"':
        opening = text.rfind('"', start, end - 1)
        return trimmed(text, start, opening)[1], one_line(desk.page.source.text[opening + 1 : end - 1])
    return end, ""


def find_colon(text: str, start: int, end: int) -> int:
    """The first colon outside quotes and brackets that is not part of a ratio like 9:1, or -1."""
    depth, quoted = 0, False
    for i in range(start, end):
        c = text[i]
        if c == '"':
            quoted = not quoted
        elif quoted:
            continue
        elif c in "([{":
            depth += 1
        elif c in ")]}":
            depth -= 1
        elif c == ":" and depth <= 0 and not (text[i - 1].isdigit() and text[i + 1 : i + 2].isdigit()):
            return i
    return -1


_CELL_GAP = regex(r"\s*\t\s*|\s{2,}")
_TAB = regex(r" *\t *|\s{2,}")


def cells(text: str, start: int, end: int, every_tab: bool = False) -> list[tuple[int, int]]:
    """Cells between tabs or runs of two or more blanks; `every_tab`: two tabs hold an empty cell."""
    found: list[tuple[int, int]] = []
    at = start
    for gap in (_TAB if every_tab else _CELL_GAP).finditer(text, start, end):
        if text.count('"', start, gap.start()) % 2 == 0:
            found.append((at, gap.start()))
            at = gap.end()
    found.append((at, end))
    return found


def split_commas(text: str, start: int = 0, end: int | None = None) -> list[tuple[int, int]]:
    """The stretches between commas outside brackets, quotes and names such as `1,3-butadiene`."""
    end = len(text) if end is None else end
    found, depth, at, quoted = [], 0, start, False
    for i in range(start, end):
        c = text[i]
        if c == '"':
            quoted = not quoted
        elif not quoted and c in "([{":
            depth += 1
        elif not quoted and c in ")]}":
            depth -= 1
        elif c == "," and not quoted and depth <= 0 and not _LOCANT.match(text, i - 1, end):
            found.append(trimmed(text, at, i))
            at = i + 1
    found.append(trimmed(text, at, end))
    return found


_PLACES = r"(?:\d+|[NOSPCDLREZ])'*(?:,(?:\d+|[NOSPCDLREZ])'*)*"
"""Where in a molecule: `1,3` of `1,3-butadiene`, `N,N'` of `N,N'-diethylurea`."""
_LOCANT = regex(
    r"(?:\d|'|(?<![^\W_])[NOSPCDLREZ])'*,(?:\d+|[NOSPCDLREZ])'*(?:,(?:\d+|[NOSPCDLREZ])'*)*-[^\W\d_]"
)
"""The comma of `1,3-butadiene` parts no members."""
_IN_BRACKETS = r"\([^\W_](?:[\w ,'-]*[\w'])?\)"
_PIECE = rf"(?:{_PLACES}-|{_IN_BRACKETS}-?)?[^\W\d_](?:[\w']|{_IN_BRACKETS}|-(?:{_PLACES}-)?(?=[\w(]))*"
_COUNTED = r"\d+(?:\.\d+)?[^\W\d_](?:[\w']|-(?=\w))*"
"""`16QAM`, `10BASE-T`: digits with letters right behind them."""
_NAME = regex(rf"(?:(?:\d{{3,}} )?{_PIECE}|{_COUNTED})(?: (?:{_PIECE}|[\w'-]+|\d+\.\d+))*")


def name_node(desk: Desk, start: int, end: int, what: str) -> NameNode:
    """A name of one or more words; those that hold places, numbers or brackets are kept for the scanner."""
    start, end = trimmed(desk.text, start, end)
    written = " ".join(desk.text[start:end].split())
    counted = re.match(r"\d+ (\S+)", written)
    amount = (counted and find_unit(counted[1], desk.own)) or _is_amount(written, desk)
    if not _NAME.fullmatch(written) or amount:
        raise trouble(
            desk.span(start, max(end, start + 1)), f"'{written[:40]}' is no name for {what}",
            "A name is made of words, digits and hyphens, and begins with a letter or as 2-propanol and 16QAM"
            " do.",
            _named_so(written, counted is not None),
        )  # fmt: skip
    if not is_plain_name(written) or re.search(r"-\d", written):
        desk.spelled.add(written)
    return NameNode(written, desk.span(start, end))


def _is_amount(written: str, desk: Desk) -> bool:
    """Whether digits with letters right behind them are, or look like, so much of something: `5mm`, `2x`."""
    digits = re.match(r"\d+(?:\.\d+)?([^\W\d_]+)", written)
    if digits is None or re.match(r"\d+(?:st|nd|rd|th)\b", written):
        return False
    letters = digits[1]
    power, times = re.match(r"\d+[eE]\d", written), letters.lower() == "x"
    near = nearest_units(letters, desk.own) if len(letters) > 1 else ()
    like = any(symbol.lower() == letters.lower() for symbol in near)
    return bool(power or times or like or find_unit(letters, desk.own) or is_refused(letters))


def _named_so(written: str, counted: bool) -> str:
    """A help sentence for a name that is a number, or has a sign in it; '' for others."""
    if written.startswith('"'):
        return "write it without quotes, as the claim has it"
    if written.endswith("="):
        return f"write {written[:-1].strip()}, two blanks, and what it is"
    if written.startswith("(") and written.endswith(")"):
        return "take out the brackets"
    if counted or re.fullmatch(r"[\d.]+\w*", written):
        return f"put a word before it, such as: grade {written}"
    plain = " ".join(re.sub(r"[^\w' -]+", " ", written).split())
    words = plain if plain[:1].isalpha() and plain != written else ""
    return f"call it {words}, and restate its words in symbols: two blanks, exactly, facts" if words else ""


def number_node(desk: Desk, start: int, end: int) -> NumberNode:
    """A single number with its unit."""
    node = parse_facts(desk.page, start, end, desk.own)
    if not isinstance(node, NumberNode):
        raise trouble(desk.span(start, max(end, start + 1)), "a number was expected here")
    return node
