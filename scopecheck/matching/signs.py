"""Signs of what is measured among the words: `0.2 D to 0.5 D`, `a ratio H/D` of a height and a diameter."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.foundations.kinds import Kind
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.language.scan import Number, Token

_SIGN = regex(r"([A-Z])[a-z]?\d?")
_TIMES = {"twice": 2, "double": 2, "thrice": 3, "triple": 3}
_BETWEEN = ("to", "and", "-", "or")
_ONE = Fraction(1)


def with_names(tokens: tuple[Token, ...], names: tuple[str, ...]) -> tuple[Token, ...]:
    """Each sign as the name that begins with it; behind a number it is a multiple of what is so called.

    A sign stands for one name only: where two of the names begin alike it stays as it is.
    """
    found: list[Token] = []
    for i, token in enumerate(tokens):
        name = _named(token, names)
        after = tokens[i + 1].text if i + 1 < len(tokens) else ""
        before = found[-1] if found else None
        multiple = before is not None and before.number is not None and before.number.unit is None
        in_ratio = "/" in (after, before.text if before else "")
        if name and (multiple or in_ratio):
            found += _said(token, f"times {name}" if multiple else name)
        else:
            found.append(token)
    return tuple(found)


def _named(token: Token, names: tuple[str, ...]) -> str:
    """The one name that the sign stands for, or ''."""
    sign = _SIGN.fullmatch(token.text) if token.sort == "word" else None
    if sign is None:
        return ""
    whole = [n for n in names if n == token.text]
    begun = whole or [n for n in names if n[:1].lower() == sign[1].lower()]
    return begun[0] if len(begun) == 1 else ""


def with_signs_for_units(tokens: tuple[Token, ...], kind: Kind, by_sign: dict[str, str]) -> tuple[Token, ...]:
    """`1.5d` beside a length as 1.5 times what is called, or noted, d; `2 d` beside a time stays two days.

    `by_sign` are the names of quantities of this kind by their signs.
    """
    found: list[Token] = []
    for token in tokens:
        number, before = token.number, found[-1].number if found else None
        bare = before is not None and before.unit is None and token.sort == "word"
        unit = number.unit if number else None
        sign = token.text[len(number.text) :].strip() if number else token.text if bare else ""
        name = by_sign.get(sign)
        if name is None or (unit is not None and unit.kind.dimension == kind.dimension):
            found.append(token)
            continue
        if number is not None:
            found.append(replace(token, text=number.text, number=replace(number, unit=None)))
        found += _said(replace(token, start=token.end), f"times {name}")
    return tuple(found)


def with_multiples(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`between half and twice the width` with 2 times, and what both ends are multiples of but once.

    `Half of the width or less` as 1/2 times it.
    """
    found: list[Token] = []
    for token in tokens:
        times = _TIMES.get(token.text.lower())
        before = found[-1].number if found else None
        if times is None:
            of_part = token.text == "of" and before is not None and "/" in before.text
            found.append(replace(token, text="times") if of_part else token)
            continue
        number = Number(str(times), times * _ONE, 0, None)
        found.append(Token("number", str(times), token.start, token.end, number))
        found += _said(token, "times")
    return _once(tuple(found))


def _once(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`0.2 times the width to 0.5 times the width` without the first of the two."""
    texts = [t.text.lower() for t in tokens]
    said = [i for i, text in enumerate(texts) if text == "times"]
    if len(said) != 2:
        return tokens
    first, last = said
    behind = texts[last + 1 :]
    end = first + 1 + len(behind)
    same = behind and texts[first + 1 : end] == behind and texts[end : end + 1]
    if same and texts[end] in _BETWEEN:
        return (*tokens[:first], *tokens[end:])
    return tokens


def _said(at: Token, text: str) -> Iterator[Token]:
    """Words that the token stands for, all where it stands."""
    return (replace(at, sort="word", text=word, number=None) for word in text.split())
