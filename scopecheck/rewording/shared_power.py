"""A power of ten behind the second of two numbers: `from 70 to 90 × 10^-7 1/K`, `(70 to 90) × 10^-7 1/K`.

In brackets it is one of both. Without them it is one of both where the two are in no order else, with a
warning; where either may be meant, nothing is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.language.scan import Number, Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
_SCALED = regex(
    r"(?P<mantissa>\d[\d,]*(?:\.\d+)?)(?P<power>\s*[×xX*·⋅]\s*10\s*[\^⁰¹²³⁴⁵⁶⁷⁸⁹⁻].*|[eE][-−+]?\d+)"
)
_POWER = regex(r"10\s*[\^⁰¹²³⁴⁵⁶⁷⁸⁹⁻].*")
_BARE = regex(r"\d[\d,]*(?:\.\d+)?")
_TO = ("to", "-", "–", "and")
_TOLERANCE = ("±", "+/-")


@record
class _Shared:
    """Two numbers of which the second has a power of ten: where the first stands, and it with that power."""

    at: int
    first: Number
    second: Number
    scaled: Number


def with_shared_power(tokens: Tokens, subject: Subject) -> Tokens:
    """The words with the power at both numbers, where it must be meant so, and `/K` as a unit."""
    if not isinstance(subject.bound, Typed) or not any(t.number for t in tokens):
        return tokens
    tokens = _without_brackets(_with_inverse_unit(tokens, subject.bound))
    for one in _pairs(tokens):
        if _is_of_both(one, word_of(tokens[one.at + 1])):
            scaled = replace(tokens[one.at], number=one.scaled)
            tokens = (*tokens[: one.at], scaled, *tokens[one.at + 1 :])
    return tokens


def shared_power(words: Words) -> Diagnostic | None:
    """A warning that a power of ten is read as one of both numbers; None where nothing is taken so."""
    tokens = _plain(words)
    for one in _pairs(tokens):
        if _is_of_both(one, word_of(tokens[one.at + 1])):
            both = f"{one.scaled.text} {word_of(tokens[one.at + 1])} {one.second.text}"
            return Diagnostic(
                "warning", words.span, f"the power of ten is read as one of both numbers: {both}",
                f"Taken as one of the second alone, {one.first.text} lies above {one.second.text}.",
                "if another is meant, write it in symbols behind the words: two blanks, exactly, facts",
            )  # fmt: skip
    return None


def either_power(words: Words, subjects: tuple[Subject, ...]) -> Trouble | None:
    """The error for `1 to 5 × 10^18`, of which both ways to read it leave a range; None for others."""
    bound = subjects[0].bound if subjects else None
    if not isinstance(bound, Typed):
        return None
    tokens, name = _with_inverse_unit(_plain(words), bound), subjects[0].text
    for one in _pairs(tokens):
        joined = word_of(tokens[one.at + 1])
        ranged = joined in _TO and one.first.value < one.second.value and one.scaled.value < one.second.value
        if not ranged and joined not in _TOLERANCE:
            continue
        unit = f" {one.second.unit.symbol}" if one.second.unit else ""
        first, scaled, second = (
            f"{one.first.text}{unit}",
            f"{one.scaled.text}{unit}",
            f"{one.second.text}{unit}",
        )
        if ranged:
            help = f"{name} >= {scaled} AND {name} <= {second}, or {name} >= {first} AND {name} <= {second}"
        else:
            ends = (f"{name} >= {n} - {second} AND {name} <= {n} + {second}" for n in (scaled, first))
            help = ", or ".join(ends)
        return trouble(
            words.span, f"the power of ten may be one of both numbers, or of {one.second.text} alone",
            f"With it the first is {scaled}, without it {first}.",
            f"write what is meant behind the words: two blanks, exactly {help}",
        )  # fmt: skip
    return None


def _is_of_both(one: _Shared, joined: str) -> bool:
    """Are the numbers in order with the power at both, and only so?"""
    return joined in _TO and one.scaled.value < one.second.value <= one.first.value


def _plain(words: Words) -> Tokens:
    return tuple(t for t in words.tokens if t.sort != "gap")


def _pairs(tokens: Tokens) -> Iterator[_Shared]:
    for at in range(len(tokens) - 2):
        first, second = tokens[at].number, tokens[at + 2].number
        joined = word_of(tokens[at + 1])
        between = joined != "and" or (at > 0 and word_of(tokens[at - 1]) == "between")
        if first is None or second is None or first.unit is not None or joined not in (*_TO, *_TOLERANCE):
            continue
        found = _SCALED.fullmatch(second.text)
        if found is None or not between or not _BARE.fullmatch(first.text) or not first.value:
            continue
        power = second.value / Fraction(found["mantissa"].replace(",", ""))
        scaled = _times(first, power, found["power"])
        yield _Shared(at, first, second, replace(scaled, unit=second.unit))


def _without_brackets(tokens: Tokens) -> Tokens:
    """`(70 to 90) × 10^-7 1/K` with the power at both numbers."""
    said = [t.text for t in tokens]
    for at in range(len(tokens) - 6):
        closed = said[at] == "(" and said[at + 4] == ")" and said[at + 5] in ("*", "×", "x", "·")
        joined = word_of(tokens[at + 2]) in (*_TO, *_TOLERANCE)
        first, second, power = (tokens[i].number for i in (at + 1, at + 3, at + 6))
        if not closed or not joined or first is None or second is None or power is None:
            continue
        if first.unit or second.unit or not _POWER.fullmatch(power.text):
            continue
        made = (
            replace(tokens[i], number=replace(_times(n, power.value, f" × {power.text}"), unit=power.unit))
            for i, n in ((at + 1, first), (at + 3, second))
        )
        one, other = made
        other = replace(other, end=tokens[at + 6].end)
        return (*tokens[:at], replace(one, start=tokens[at].start), tokens[at + 2], other, *tokens[at + 7 :])
    return tokens


def _times(number: Number, power: Fraction, text: str) -> Number:
    places = _exponent(power)
    return Number(f"{number.text}{text}", number.value * power, number.decimals - places, number.unit)


def _exponent(power: Fraction) -> int:
    """The exponent of a power of ten."""
    return len(str(power.numerator)) - len(str(power.denominator))


def _with_inverse_unit(tokens: Tokens, bound: Typed) -> Tokens:
    """`90 × 10^-7 /K` as one number in 1/K, of what has such a unit."""
    for at in range(1, len(tokens) - 1):
        number = tokens[at - 1].number
        if (
            number is None
            or number.unit is not None
            or tokens[at].text != "/"
            or tokens[at + 1].sort != "word"
        ):
            continue
        unit = find_unit(f"1/{tokens[at + 1].text}")
        if unit is None or unit.kind != bound.kind:
            continue
        one = replace(tokens[at - 1], end=tokens[at + 1].end, number=replace(number, unit=unit))
        return _with_inverse_unit((*tokens[: at - 1], one, *tokens[at + 2 :]), bound)
    return tokens
