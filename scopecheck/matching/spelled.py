"""Numbers in words: `one minute`, `half an hour`, `an hour`; a word is a unit beside a quantity only."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.foundations.quantity import PLAIN_KIND, Unit, find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Own, Token
from scopecheck.matching.chart import word_of
from scopecheck.vocabulary.names import Bound, Typed

_JOINS = ("to", "and", "or", "-")
_SO_OFTEN = ("once", "twice", "thrice", "times", "time")


def spelled_amounts(tokens: tuple[Token, ...], subject: Bound, own: Own) -> tuple[Token, ...]:
    """`an hour`, `half an hour`, `two to three hours` as numbers, where the unit fits the subject."""
    if not isinstance(subject, Typed) or not any(_spelled_value(tokens, i) for i in range(len(tokens))):
        return tokens
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        value, width = _spelled_value(tokens, at) or (Fraction(0), 0)
        unit, more = _unit_in_words(tokens, at + width, subject, own) if width else (None, 0)
        if unit:
            if [word_of(t) for t in tokens[at + width + more :][:3]] == ["and", "a", "half"]:
                value, more = value + Fraction(1, 2), more + 3
            last = tokens[at + width + more - 1]
            number = Number(str(value), value, 0, unit)
            words = " ".join(t.text for t in tokens[at : at + width + more])
            _spell_ends(found)
            found.append(Token("number", words, tokens[at].start, last.end, number))
            at += width + more
        else:
            found.append(tokens[at])
            at += 1
    return tuple(found)


_PARTS_IN = ("in", "per")
"""What stands before the whole of 'ten parts in a million'."""
GREAT = {"hundred": 100, "thousand": 1000, "million": 1_000_000}


def with_hundreds(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`one hundred`, `a thousand`, `two hundred and fifty` as one number each."""
    if not any(word_of(t) in GREAT for t in tokens):
        return tokens
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        value, width = _great_number([word_of(t) for t in tokens[at:]])
        part_in = bool(found) and word_of(found[-1]) in _PARTS_IN
        if not part_in and (made := _digits_and_word(tokens[at : at + 3])):
            found = [*shared_scale(found, GREAT[word_of(tokens[at + 1])]), made]
            at += 2
            continue
        if width and not part_in:
            words = " ".join(t.text for t in tokens[at : at + width])
            if width == 2 and word_of(tokens[at + 1]) in GREAT:
                found = shared_scale(found, GREAT[word_of(tokens[at + 1])])
            number = Number(words, Fraction(value), 0, None)
            found.append(Token("number", words, tokens[at].start, tokens[at + width - 1].end, number))
        else:
            found.append(tokens[at])
            width = 0
        at += width or 1
    return tuple(found)


def _digits_and_word(tokens: tuple[Token, ...]) -> Token | None:
    """`2.5 million` as one number, whose last written place is as many times as great."""
    number = tokens[0].number
    scale = GREAT.get(word_of(tokens[1])) if len(tokens) > 1 else None
    if number is None or scale is None or number.unit is not None or not number.has_places:
        return None
    if word_of(tokens[-1]) == "millions":
        return None  # 'thousand millions' is a phrase
    zeros = len(str(scale)) - 1
    text = f"{number.text} {tokens[1].text}"
    made = Number(text, number.value * scale, number.decimals - zeros, None)
    return replace(tokens[0], text=text, end=tokens[1].end, number=made)


def shared_scale(before: list[Token], scale: int) -> list[Token]:
    """`two to` before `three dozen`, `three hundred`: what is two there is so many times as much."""
    joined = before[-1:] and word_of(before[-1]) in _JOINS
    first = before[-2] if joined and len(before) > 1 else None
    digits = first.number if first else None
    count = NUMBER_WORDS.get(word_of(first)) if first else None
    if first and digits and digits.unit is None and first.text.isdecimal():
        count = int(first.text)
    if count is None or count >= scale:
        return before
    number = Number(str(scale * count), Fraction(scale * count), 0, None)
    return [*before[:-2], replace(before[-2], sort="number", number=number), before[-1]]


def _great_number(words: list[str]) -> tuple[int, int]:
    """The number that the words begin with, and how many words it has; of less than a hundred none."""
    total, part, width, at = 0, 0, 0, 0
    great = False
    while at < len(words):
        word = words[at]
        if word in ("a", "an") and at == 0 and words[1:2] and words[1] in GREAT:
            part = 1
        elif word not in _SO_OFTEN and NUMBER_WORDS.get(word) and not part % 100:
            part += NUMBER_WORDS[word]
        elif word in GREAT and part:
            great = True
            part *= GREAT[word]
            total, part = (total, part) if word == "hundred" else (total + part, 0)
        elif word == "and" and great and _goes_on(words[at + 1 :]):
            at += 1
            continue
        else:
            break
        at += 1
        width = at
    return (total + part, width) if great else (0, 0)


def _goes_on(words: list[str]) -> bool:
    """Does a number go on behind its 'and', as in 'two hundred and fifty'? Another may begin there."""
    return bool(words) and words[0] in NUMBER_WORDS and not (words[1:2] and words[1] in GREAT)


def _spelled_value(tokens: tuple[Token, ...], at: int) -> tuple[Fraction, int] | None:
    word = word_of(tokens[at])
    number = tokens[at].number
    if number is not None and number.unit is None and (word[0].isalpha() or " " in word):
        return number.value, 1
    if fraction := _spelled_fraction([word_of(t) for t in tokens[at : at + 4]]):
        return fraction, 4
    if word in NUMBER_WORDS:
        return Fraction(NUMBER_WORDS[word]), 1
    if word in ("a", "an") and len(tokens) > at + 1 and len(tokens[at + 1].text) > 2:
        often = at > 0 and (tokens[at - 1].number or word_of(tokens[at - 1]) in _SO_OFTEN)
        return None if often else (Fraction(1), 1)
    half = word == "half" and at + 1 < len(tokens) and word_of(tokens[at + 1]) in ("a", "an")
    return (Fraction(1, 2), 2) if half else None


def _spelled_fraction(words: list[str]) -> Fraction | None:
    """`two and a half`, `three quarters of an`, before a unit."""
    part = word_lists()["fractions"].get(words[-1] if words[1:2] == ["and"] else words[1]) if words[3:] else 0
    above = 1 if words[0] in ("a", "an") else NUMBER_WORDS.get(words[0])
    if not part or above is None:
        return None
    if words[1:3] == ["and", "a"] and words[0] in NUMBER_WORDS:
        return above + Fraction(1, part)
    return Fraction(above, part) if words[2] == "of" and words[3] in ("a", "an") and above < part else None


def _unit_in_words(tokens: tuple[Token, ...], at: int, subject: Typed, own: Own) -> tuple[Unit | None, int]:
    """The longest unit of the subject's dimension that the words from here on spell, and its width."""
    kind = subject.kind or PLAIN_KIND
    for width in range(min(4, len(tokens) - at), 0, -1):
        unit = find_unit(" ".join(t.text for t in tokens[at : at + width]), own)
        shares = kind.dimension or (subject.unit and subject.unit.symbol)
        if unit and unit.symbol and unit.kind.dimension == kind.dimension and shares:
            return unit, width
    return None, 0


def _spell_ends(found: list[Token]) -> None:
    """`one` in 'one to two hours' becomes a number that takes the unit of the next."""
    if len(found) > 1 and word_of(found[-1]) in _JOINS and word_of(found[-2]) in NUMBER_WORDS:
        token = found[-2]
        found[-2] = replace(token, sort="number", number=spelled(token))


def spelled(token: Token) -> Number:
    """A number word as a number without a unit."""
    return Number(token.text, Fraction(NUMBER_WORDS[word_of(token)]), 0, None)
