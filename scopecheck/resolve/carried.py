"""Numbers and words of amended claims that the text of the sheet before does not have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from scopecheck.core.model import Claim
from scopecheck.foundations.quantity import Unit, find_unit
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import Piece, pieces_of
from scopecheck.resolve.dependencies import references

_THOUSANDS = regex(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?$")
_ENDING = regex(r"(?<=\w\w\w)(?:es|s|ed|ing)$")
SHARES = ("%", "percent")
BETWEEN = frozenset("to and or , - – about approximately around roughly circa approx ca up at most ~".split())
"""What may stand between the numbers of a range or list that share the unit of the last."""
MOST_OF_UNIT = 7
"""How many pieces of text a unit may take."""
FORMAL = frozenset(
    "a an the said of in on at to by for from with and or not is are was be being been has have having which"
    " that this these those it its their each any all one as than then if when wherein whereby where"
    " comprising comprises comprise including includes include containing contains contain consisting"
    " consists consist claim claims claimed according preceding into onto between within about".split()
)
"""Words that tell nothing about the thing claimed."""


@record
class Uncarried:
    """A number, with the unit that follows it, or a word that the other text does not have."""

    claim: int
    sort: Literal["number", "word"]
    words: str


def uncarried(text: str, before: Sequence[Claim], after: Sequence[Claim]) -> Iterator[Uncarried]:
    """What the amended claims say in numbers and words that stand nowhere in the text, claim by claim.

    Each is told once, at the first claim that says it. Numbers are held against each other by value, with a
    unit that follows in any unit of the kind, shares whatever their basis; words by their stem. A claim whose
    text stood among the claims before is not looked at.
    """
    known = {c.text for c in before}
    numbers, words = _numbers(pieces_of(text), text), {_stem(p.text) for p in pieces_of(text)}
    values = {_base(value, unit) for value, unit, _ in numbers}
    told: set[object] = set()
    for claim in after:
        if claim.text in known:
            continue
        named = references(claim.text, claim.number, [c.number for c in after])
        pieces = [p for p in pieces_of(claim.text) if not any(r.start <= p.start < r.end for r in named)]
        for value, unit, written in _numbers(pieces, claim.text):
            key = _base(value, unit)
            if key not in values and key not in told:
                told.add(key)
                yield Uncarried(claim.number, "number", written)
        for index, piece in enumerate(pieces):
            if _is_basis(pieces, index):
                continue
            stem = _stem(piece.text)
            if _speaks(piece.text) and stem not in words and stem not in told:
                told.add(stem)
                yield Uncarried(claim.number, "word", piece.text)


def _is_basis(pieces: Sequence[Piece], index: int) -> bool:
    """Is it the 'weight' of '18 % by weight'? It belongs to the unit."""
    before = [p.text for p in pieces[max(0, index - 2) : index]]
    return len(before) == 2 and before[0] in SHARES and before[1] == "by"


def _speaks(word: str) -> bool:
    return len(word) > 1 and word[0].isalpha() and word not in FORMAL and not _is_number(word)


def _is_number(word: str) -> bool:
    return word in NUMBER_WORDS


def _stem(word: str) -> str:
    return _ENDING.sub("", word)


def _base(value: Fraction, unit: Unit | Literal[":"] | None) -> object:
    if unit is None or unit == ":":
        return value, unit
    return (unit.kind if unit.kind.dimension else "share", unit.to_base(value))


def _numbers(pieces: Sequence[Piece], text: str) -> list[tuple[Fraction, Unit | Literal[":"] | None, str]]:
    """The numbers with their units as written; a unit follows, without a blank in it. 5:1 is one number."""
    found: list[tuple[Fraction, Unit | Literal[":"] | None, str]] = []
    of_ratio = 0
    for index, piece in enumerate(pieces):
        value = _value(piece.text)
        if value is None or piece.start < of_ratio:
            continue
        if over := _ratio_over(pieces[index : index + 3]):
            of_ratio = pieces[index + 2].end
            found.append((value / over, ":", text[piece.start : of_ratio]))
            continue
        following = _unit_at(pieces[index + 1 :], text) or _unit_further_on(pieces[index + 1 :], text)
        unit = find_unit(following) if following else None
        found.append((value, unit, f"{piece.text} {following}" if unit else piece.text))
    return found


def _ratio_over(pieces: Sequence[Piece]) -> Fraction | None:
    """The 4 of a 3:4 or 3 : 4, unless it is 0."""
    return _value(pieces[2].text) or None if len(pieces) == 3 and pieces[1].text == ":" else None


def _unit_at(pieces: Sequence[Piece], text: str) -> str:
    """The longest unit that begins here, `°C`, `m/s`, `wt %`, with the capitals of the text; or ''."""
    joined = found = ""
    for k, piece in enumerate(pieces[:MOST_OF_UNIT]):
        apart = k > 0 and piece.start != pieces[k - 1].end and piece.text != "%"
        if apart or (k == 0 and piece.text[0].isdigit()):
            break
        joined += text[piece.start : piece.end]
        if find_unit(joined):
            found = joined
    return found


def _unit_further_on(pieces: Sequence[Piece], text: str) -> str:
    """The unit of a list or range in which only the last number has one: `2 to 4 mm`, `2 and 4 mm`; or ''."""
    for piece in pieces[:6]:
        if piece.text in BETWEEN or _value(piece.text) is not None:
            continue
        unit = _unit_at([p for p in pieces if p.start >= piece.start], text)
        return unit if _last_was_number(pieces, piece) else ""
    return ""


def _last_was_number(pieces: Sequence[Piece], piece: Piece) -> bool:
    before = [p for p in pieces if p.end <= piece.start]
    return bool(before) and _value(before[-1].text) is not None


def _value(text: str) -> Fraction | None:
    if text in NUMBER_WORDS:
        return Fraction(NUMBER_WORDS[text])
    if not text[:1].isdigit():
        return None
    plain = text.replace(",", "") if _THOUSANDS.match(text) else text
    try:
        return Fraction(plain)
    except ValueError:
        return None
