"""Amounts of a claim's text: numbers with sign and unit, of which lifted words leave nothing out."""

from __future__ import annotations

from scopecheck.language.scan import Own
from scopecheck.resolve.account import digits_width, sign_width, unit_width
from scopecheck.resolve.claim_text import ClaimText, Piece


def inside_amounts(text: ClaimText, own: Own) -> frozenset[int]:
    """Where one amount goes on, by the later token: no lifted words begin or end there.

    '-10 °C', '5 g/m2' and '1 200 mm' are amounts; so is '10-20 °C', of which '20 °C' is no limit by itself.
    A unit that is left out as a whole is told by the account.
    """
    tokens, joints, over = text.tokens, set[int](), 0
    said = (places for word, places in text.where.items() if word[0].isdecimal())
    for at in sorted(at for places in said for at in places):
        if at < over:
            continue
        start = at - sign_width(tokens, at, over)
        start = over - 1 if over and _goes_on(tokens, over, at) else start
        width = digits_width(tokens, at)
        end = at + width + _unit_width(text, at + width - 1, own)
        end += _per_width(text, end, own) if end > at + width else 0
        joints.update(i for i in range(start + 1, end) if i != at + width)
        over = end
    return frozenset(joints)


def _goes_on(tokens: list[Piece], over: int, at: int) -> bool:
    """Whether a number belongs to the one that ends before it: '10-20', '10^-3', '1 200'."""
    between = "".join(t.text for t in tokens[over:at])
    if between in ("-", "^", "^-"):
        return tokens[over - 1].end == tokens[over].start and tokens[at - 1].end == tokens[at].start
    digits = tokens[over - 1].text
    return not between and digits.isdecimal() and len(digits) < 4 and len(tokens[at].text) == 3


def _unit_width(text: ClaimText, at: int, own: Own) -> int:
    """How many tokens after a number are surely its unit: not the L of '6 L-shaped feet'."""
    width = unit_width(text, at, own)
    after = text.tokens[at + width + 1 : at + width + 3]
    compound = width and len(after) > 1 and after[0].text == "-" and after[1].text[0].isalpha()
    if compound and text.tokens[at + width].end == after[0].start and after[0].end == after[1].start:
        return 0
    return width


def _per_width(text: ClaimText, end: int, own: Own) -> int:
    """How many tokens go on with a unit that ends here: '. per minute' of '10° C. per minute'."""
    at = end + (text.texts[end : end + 1] == ["."])
    more = unit_width(text, at, own) if text.texts[at : at + 1] in (["per"], ["/"]) else 0
    return at + 1 + more - end if more else 0
