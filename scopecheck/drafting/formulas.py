"""Formulas between signs of comparison: '350 ≤ FT - CT ≤ 500', 'a + 2b ≤ 40 mm'. Each is kept whole.

A limit of the letter beside the sign would be of one term alone.
"""

from __future__ import annotations

from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.account import digits_width, unit_width
from scopecheck.resolve.claim_text import ClaimText

_SIGNS = frozenset(("<", ">", "<=", ">=", "=", "≈", "≠"))
_OPERATORS = frozenset("+-×x*·/^()[]√|") | {"²", "³", "−", "÷"}
_OXIDE = regex(r"(?:[A-Z][a-z]?\d*){2,4}(?<=[A-Z\d])")
MOST_OF_LETTERS = 4
"""How many signs a letter of a formula may have, with its number."""


def formulas(text: ClaimText) -> list[tuple[int, int]]:
    """The tokens of each formula with its signs of comparison; of 'T ≤ 40 mm' alone none."""
    texts, found = text.texts, list[tuple[int, int]]()
    for at in sorted(at for sign in _SIGNS for at in text.where.get(sign, ())):
        if found and at < found[-1][1]:
            continue
        start, end = at, at + 1
        while start > 0 and (before := _before(text, start)) < start:
            start = before
        while end < len(texts) and (texts[end] in _SIGNS or _of_formula(text, end)):
            end = _behind(text, end)
        start, end = _trimmed(texts, start, end)
        signs = [i for i in range(start, end) if texts[i] in _SIGNS]
        letters = any(_letter(text, i) for i in range(start, end))
        inside = any(_operates(text, i) for i in range(start + 1, end))
        a_term = any(_multiplied(text, i) for i in range(at + 1, end))
        if start < at and ((letters and (inside or len(signs) > 1)) or a_term):
            found.append((start, end))
    return found


def _multiplied(text: ClaimText, at: int) -> bool:
    """Whether '2W' stands here, and the W is no watt: it is named elsewhere in the claim."""
    if not text.texts[at - 1][0].isdecimal() or not _letter(text, at):
        return False
    return any(not text.texts[i - 1][0].isdecimal() for i in text.where.get(text.texts[at], ()) if i)


def letters_of(text: ClaimText, start: int, end: int) -> list[str]:
    """The letters of a formula, in small letters, each once."""
    return list(
        dict.fromkeys(text.texts[i] for i in range(start, end) if i not in text.inside and _letter(text, i))
    )


def sums_in_symbols(text: ClaimText, start: int, end: int) -> bool:
    """Whether a formula is a sum between ends with units, as a sheet has it: '65 mol% ≤ SiO2 + Al2O3'."""
    texts = text.texts
    over, numbers = start, 0
    for at in range(start, end):
        if at < over or _letter(text, at) or texts[at] in _COMPARING | {"+"}:
            continue
        over = _behind(text, at)
        if not texts[at][0].isdecimal() or over == at + digits_width(text.tokens, at):
            return False
        numbers += 1
    return numbers > 0 and "+" in texts[start:end]


_COMPARING = frozenset(("<", ">", "<=", ">="))


def _operates(text: ClaimText, at: int) -> bool:
    return (
        text.texts[at] in _OPERATORS - {"(", ")", "[", "]"}
        and at not in text.inside
        and not _sign_of(text, at)
    )


def _sign_of(text: ClaimText, at: int) -> bool:
    """Whether a minus stands here that is the sign of a number: '≤ -5 °C'."""
    return text.texts[at] in "+-" and text.texts[at - 1] in _SIGNS and text.texts[at + 1][0].isdecimal()


def _before(text: ClaimText, end: int) -> int:
    """Where a number with its unit, an operator or a letter begins that ends here; else here."""
    for at in range(end - 1, max(-1, end - 6), -1):
        if text.texts[at][0].isdecimal() and _behind(text, at) == end:
            return at
    return end - 1 if text.texts[end - 1] not in _SIGNS and _of_formula(text, end - 1) else end


def _behind(text: ClaimText, at: int) -> int:
    if not text.texts[at][0].isdecimal():
        return at + 1
    width = digits_width(text.tokens, at)
    return at + width + unit_width(text, at + width - 1, {})


def _of_formula(text: ClaimText, at: int) -> bool:
    word = text.texts[at]
    return word[0].isdecimal() or word in _OPERATORS | _SIGNS or at in text.inside or _letter(text, at)


def _letter(text: ClaimText, at: int) -> bool:
    """Whether a token is a letter of a formula: 'FT', 'D90', 'λ', the 'b' of '2b'."""
    token = text.tokens[at]
    written = text.source.text[token.start : token.end]
    stop = token.text in words("nouns", "stops") and not (token.text == "a" and _beside_sign(text.texts, at))
    if _OXIDE.fullmatch(written):
        return True
    short = len(written) <= MOST_OF_LETTERS and written[0].isalpha() and not stop
    alone = len(written) == 1
    return short and (alone or any(c.isupper() or c.isdecimal() or ord(c) > 900 for c in written))


def _beside_sign(texts: list[str], at: int) -> bool:
    beside = {*texts[at - 1 : at], *texts[at + 1 : at + 2]}
    return not beside.isdisjoint(_SIGNS | _OPERATORS - {"(", ")"})


def _trimmed(texts: list[str], start: int, end: int) -> tuple[int, int]:
    """Without a bracket that opens or closes what stands around the formula."""
    while texts[start:end].count(")") > texts[start:end].count("(") and ")" in texts[start:end]:
        at = texts.index(")", start)
        start, end = (
            (at + 1, end)
            if "(" not in texts[start:at] and at < (start + end) // 2
            else (start, _last(texts, start, end))
        )
    while texts[start:end].count("(") > texts[start:end].count(")"):
        at = texts.index("(", start)
        start, end = (at + 1, end) if at < (start + end) // 2 else (start, at)
    return start, end


def _last(texts: list[str], start: int, end: int) -> int:
    return max(i for i in range(start, end) if texts[i] == ")")
