"""Numbers in symbols held against the claim's text: what a line states and the claim does not say."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.kinds import TEMPERATURE, Kind
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Span
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Own
from scopecheck.language.syntax import NumberNode
from scopecheck.resolve.account import digits_width, reference_sign, unit_width
from scopecheck.resolve.claim_text import ClaimText

_SMALL = frozenset(map(Fraction, (0, 1, 2, 100)))
"""Plain numbers that formulas need and claims do not say: 'a plurality' is `>= 2`."""


@record
class Said:
    """A number of the text: what it may be, with the unit it has or may have, and its place."""

    values: frozenset[Fraction]
    kind: Kind | None
    factor: Fraction
    offset: Fraction
    span: Span


def said_numbers(text: ClaimText, own: Own) -> list[Said]:
    """The numbers of a claim's text with their units; a number without one takes that of the next."""
    found: list[Said] = []
    tokens = text.tokens
    for at, token in enumerate(tokens):
        word = token.text
        if at in text.referring or not (word[0].isdecimal() or word in NUMBER_WORDS):
            continue
        if word[0].isdecimal() and reference_sign(tokens, at):
            continue
        width = digits_width(tokens, at) if word[0].isdecimal() else 1
        more = unit_width(text, at + width - 1, own)
        last = tokens[at + width + more - 1]
        written = " ".join(text.source.text[tokens[at + width].start : last.end].split()) if more else ""
        unit = find_unit(written, own) if written else None
        values = _values("".join(t.text for t in tokens[at : at + width]))
        span = Span(text.source, token.start, last.end)
        kind = unit.kind if unit else None
        found.append(
            Said(
                values, kind, unit.factor if unit else Fraction(1), unit.offset if unit else Fraction(0), span
            )
        )
    return found


def _values(digits: str) -> frozenset[Fraction]:
    """What the digits may stand for: a comma may be a decimal sign or stand between thousands."""
    if digits in NUMBER_WORDS:
        return frozenset((Fraction(NUMBER_WORDS[digits]),))
    if "/" in digits or ":" in digits:
        above, below = (_values(part) for part in re.split("[/:]", digits, maxsplit=1))
        quotients = {a / b for a in above for b in below if b}
        return frozenset(quotients | above | below) if ":" in digits else frozenset(quotients)
    spellings = {digits.replace(",", ""), digits.replace(",", ".", 1).replace(",", "")}
    return frozenset(Fraction(s) for s in spellings if s.count(".") <= 1)


def foreign_numbers(
    claim: int, text: ClaimText, lines: list[tuple[NumberNode, bool]], own: Own
) -> Iterator[Diagnostic]:
    """A warning for each number of a line in symbols alone that the claim's text does not say."""
    said = said_numbers(text, own) if lines else []
    for node, alone in lines:
        if alone and not _is_said(node, said):
            near = _nearest(node, said)
            also = ((near.span, f"claim {claim} says"),) if near else ()
            what = f"claim {claim} does not say {' '.join(node.span.text.split())}"
            cause = "A line in symbols alone restates the claim's own numbers."
            yield Diagnostic("warning", node.span, what, cause, "", also)


def _is_said(node: NumberNode, said: list[Said]) -> bool:
    number = node.number
    unit = number.unit
    if not number.value and (unit is None or unit.kind.dimension != TEMPERATURE):
        return True  # 'a positive focal length' is one above 0 mm
    if (unit is None or not unit.symbol) and (number.value in _SMALL or number.value.denominator != 1):
        return True
    if ":" in number.text:
        parts = [Fraction(p) for p in number.text.split(":")]
        return all(any(p in s.values for s in said) for p in parts)
    return any(_same(node, s) for s in said)


def _same(node: NumberNode, said: Said) -> bool:
    number = node.number
    unit = number.unit
    alike = number.value in said.values or -number.value in said.values
    if unit is None or said.kind is None or unit.kind.dimension == TEMPERATURE == said.kind.dimension:
        return alike
    if said.kind.dimension != unit.kind.dimension:
        return False
    return unit.to_base(number.value) in {v * said.factor + said.offset for v in said.values}


def _nearest(node: NumberNode, said: list[Said]) -> Said | None:
    """The number of the text that is most alike: of the same kind where there is one."""
    unit = node.number.unit
    alike = [s for s in said if unit is None or s.kind is None or s.kind.dimension == unit.kind.dimension]
    values = [
        (min(abs(v - node.number.value) for v in s.values), i, s) for i, s in enumerate(alike) if s.values
    ]
    return min(values, key=lambda v: v[:2])[2] if values else None
