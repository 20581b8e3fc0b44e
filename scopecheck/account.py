"""The text against the sheet: numbers, units, connectives and end words that no line restates."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Literal

from scopecheck.chart import NUMBER_WORDS
from scopecheck.claim_text import ClaimText, Piece
from scopecheck.core import Unrestated
from scopecheck.quantity import find_unit
from scopecheck.scan import Number, Own
from scopecheck.spans import Span

Sort = Literal["number", "unit", "connective", "end word", "hedge"]

_CONNECTIVES = frozenset("and or not nor neither either unless except".split())
_END_WORDS: tuple[tuple[str, ...], ...] = tuple(
    tuple(words.split())
    for words in (
        "at least",
        "at most",
        "up to",
        "more than",
        "less than",
        "fewer than",
        "greater than",
        "larger than",
        "smaller than",
        "higher than",
        "lower than",
        "or more",
        "or less",
        "or fewer",
        "or greater",
        "or higher",
        "or lower",
        "in excess of",
        "between",
        "exceeding",
        "exceeds",
        "exceed",
        "within",
        "maximum",
        "minimum",
        "inclusive",
        "exclusive",
        "exactly",
        "divisible",
        "multiple",
        "ratio",
    )
)
_BEFORE_NUMBERS = frozenset("from to above below over under of".split()) - {"of"}
_HEDGES = frozenset(
    "about approximately roughly circa substantially essentially generally nearly preferably optionally"
    " plurality majority several average mean each every only together mainly predominantly".split()
)
_VERBS = frozenset(
    "is are has have having being comprises comprising includes including contains containing consists"
    " wherein whereby where which receives forms extends lies".split()
)
_CLAUSE_OPENERS = frozenset("wherein whereby where which the a an said each".split())


def unrestated(
    claim: int,
    text: ClaimText,
    exact_numbers: list[Number],
    references: tuple[tuple[int, int], ...],
    own: Own,
) -> tuple[Unrestated, ...]:
    """What the claim's text says in numbers, units, connectives, end words and hedges and no line takes up.

    `exact_numbers` are the numbers of lines in symbols; each accounts for one equal number of the text.
    Numbers of claims, reference signs in brackets, and an 'and' between elements of the claim do not count.
    """
    found: list[Unrestated] = []
    tokens = text.tokens
    skipped = {i for i, t in enumerate(tokens) if any(a <= t.start < b for a, b in references)}
    left = [n.text for n in exact_numbers]
    for start, end, sort in _sayings(text, own):
        at = [i for i in range(start, end) if i not in text.taken]
        if not at or any(i in skipped for i in range(start, end)):
            continue
        if sort == "number" and tokens[start].text in left:
            left.remove(tokens[start].text)
            continue
        if sort == "number" and start in text.taken:
            start, sort = at[0], "unit"
        found.append(_item(claim, text, start, end, sort))
    return tuple(found)


def _item(claim: int, text: ClaimText, start: int, end: int, sort: Sort) -> Unrestated:
    tokens, source = text.tokens, text.source
    span = Span(source, tokens[start].start, tokens[end - 1].end)
    a, b = max(0, start - 4), min(len(tokens), end + 4)
    around = [_shown(source.text, t) for t in tokens[a:b]]
    return Unrestated(
        claim, sort, " ".join(span.text.split()), re.sub(r" ([,.;:)])", r"\1", " ".join(around)), span
    )


def _shown(text: str, token: Piece) -> str:
    return text[token.start : token.end]


def _sayings(text: ClaimText, own: Own) -> Iterator[tuple[int, int, Sort]]:
    """Stretches of tokens that say something the sheet should take up, in order, without overlap."""
    tokens = text.tokens
    at = 0
    while at < len(tokens):
        width, sort = _saying(text, at, own)
        if sort:
            yield at, at + width, sort
        at += width


def _saying(text: ClaimText, at: int, own: Own) -> tuple[int, Sort | None]:
    tokens = text.tokens
    word = tokens[at].text
    if word[0].isdigit():
        if _reference_sign(tokens, at):
            return 1, None
        return 1 + _unit_width(text, at, own), "number"
    if word in NUMBER_WORDS and NUMBER_WORDS[word] > 1:
        return 1, "number"
    for words in _END_WORDS:
        if tuple(t.text for t in tokens[at : at + len(words)]) == words:
            return len(words), "end word"
    if word in _BEFORE_NUMBERS and at + 1 < len(tokens) and tokens[at + 1].text[0].isdigit():
        return 1, "end word"
    if word in _HEDGES:
        return 1, "hedge"
    if word in _CONNECTIVES and not _structural(tokens, at):
        return 1, "connective"
    return 1, None


def _reference_sign(tokens: list[Piece], at: int) -> bool:
    """`(12)`, `(12a)` or `(12, 14)`: a sign of the drawings."""
    before = tokens[at - 1].text if at else ""
    after = tokens[at + 1].text if at + 1 < len(tokens) else ""
    opened = before == "(" or (before == "," and at > 1 and _reference_sign(tokens, at - 2))
    glued = len(after) == 1 and after.isalpha() and at + 2 < len(tokens) and tokens[at + 2].text == ")"
    return opened and (after in (")", ",") or glued) and "." not in tokens[at].text


def _unit_width(text: ClaimText, at: int, own: Own) -> int:
    """How many tokens after a number spell its unit."""
    tokens = text.tokens
    for width in range(min(6, len(tokens) - at - 1), 0, -1):
        first, last = tokens[at + 1], tokens[at + width]
        if last.text in (",", ";", ":") or any(
            t.text in (",", ";", "and", "or", "to") for t in tokens[at + 1 : at + width]
        ):
            continue
        written = " ".join(text.source.text[first.start : last.end].split())
        if first.text in ("a", "an", "at", "in", "as", "is", "of", "to", "and", "or"):
            return 0
        if find_unit(written, own):
            return width
    return 0


def _structural(tokens: list[Piece], at: int) -> bool:
    """An 'and' between elements or clauses: after ';', or after ',' before a clause with a verb."""
    if tokens[at].text != "and":
        return False
    before = tokens[at - 1].text if at else ""
    after = tokens[at + 1].text if at + 1 < len(tokens) else ""
    if before == ";" or after in ("wherein", "whereby", "where"):
        return True
    if before != "," or after not in _CLAUSE_OPENERS:
        return False
    for token in tokens[at + 1 :]:
        if token.text in (",", ";", "."):
            return False
        if token.text in _VERBS:
            return True
    return False
