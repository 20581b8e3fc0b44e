"""Multiples and sorts of whole numbers: `an even number`, `divisible by 4 and 6`, `tenfold`, `two dozen`."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.subjects import is_bare_share, is_fraction
from scopecheck.rewording.forms import words_at


def dozens_at(tokens: tuple[Token, ...]) -> tuple[Token, int] | None:
    """`a dozen`, `half a dozen`, `two dozen` as one number, and how many words it stands for."""
    texts = [t.text.lower() for t in tokens[:3]]
    many, width = (6, 3) if texts == ["half", "a", "dozen"] else (0, 2)
    if texts[1:2] in (["dozen"], ["dozens"]):
        many = 12 * (1 if texts[0] == "a" else NUMBER_WORDS.get(texts[0], 0))
    if not many:
        return None
    said = tokens[:width]
    number = Number(str(many), Fraction(many), 0, None)
    text = " ".join(t.text for t in said)
    return Token("number", text, said[0].start, said[-1].end, number), width


def _is_of_whole_numbers(tokens: tuple[Token, ...], texts: list[str], at: int) -> bool:
    """Does an `even number`, a `positive integer`, a `multiple of 4` or a `power of two` end here?"""
    parity = texts[at] in ("number", "integer") and texts[at - 1] in _SORTS_OF_NUMBERS
    power = texts[max(0, at - 2) : at] == ["power", "of"] and texts[at] in ("two", "2", "ten", "10")
    return parity or power or (texts[max(0, at - 2) : at] == ["multiple", "of"] and has_number(tokens[at]))


def with_parity(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`an even number of cups, not fewer than four`, `a multiple of 4 not exceeding 96`, with an 'and'."""
    texts = [t.text.lower() for t in tokens]
    number = next((i for i in range(1, len(texts)) if _is_of_whole_numbers(tokens, texts, i)), 0)
    for at in range(number + 1, len(texts)) if number else ():
        if texts[at : at + 2] == ["but", "by"] and texts[at + 2 : at + 3] and texts[at + 2] in _LIMITS:
            return (*tokens[:at], replace(tokens[at], text="and"), *tokens[at + 2 :])
        valued = tokens[at].number and number + 1 < at and texts[at - 1] == "of"
        if texts[at] == "," or texts[at] in _LIMITS or valued:
            joined = replace(tokens[at], sort="word", text="and", number=None)
            rest = tokens[at + (texts[at] == ",") :]
            by = texts[at : at + 3] == [",", "but", "by"]
            of = texts[number + 1 : at] == ["of"]
            return (*tokens[: at - of], joined, *(rest[2:] if by else rest))
        if texts[at] == "and":
            break
    return tokens


_SORTS_OF_NUMBERS = ("even", "odd", "positive", "negative", "non-negative")
_LIMITS = frozenset(
    "not no exceeding between from at less more fewer up greater larger over above below under"
    " smaller lower".split()
)


def with_divisible(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`divisible by 4 and by 6`, `by 4 and 6` with what both numbers share; a 'not' may deny one or both."""
    texts = [t.text.lower() for t in tokens]
    if "divisible" not in texts:
        return tokens
    evenly = next((r for r in _NO_REMAINDER if texts[-len(r) :] == r), [])
    tokens, texts = tokens[: len(tokens) - len(evenly)], texts[: len(texts) - len(evenly)]
    if not {"not", "neither"}.isdisjoint(texts):
        return tokens
    found: list[Token] = []
    for at, token in enumerate(tokens):
        joined = at > 2 and texts[at - 1] in ("or", "and", ",")
        both = texts[at - 1 : at] == ["and"] and texts[at - 3 : at - 2] in (["by"], ["both"])
        if both and "or" not in texts and token.number and "by" in texts[max(at - 4, 0) : at]:
            found += words_at(token, "divisible by", understood=True)
        elif token.text.lower() == "by" and joined and "divisible" in texts[:at]:
            found.append(replace(token, text="divisible", end=token.start))
        found.append(token)
    return tuple(found)


_NO_REMAINDER = [
    [*before, *which, "remainder"]
    for before in (["without"], ["with", "no"], ["leaving", "no"], ["and", "leaves", "no"])
    for which in ([], ["a"], ["any"])
]


def with_folds(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at least 10-fold`, `2- to 5-fold`, `tenfold` as so many times; `3 × the depth` as 3 times it.

    `A quarter as high as it is long` is so many times as high, `25 % as high` 25 % of it.
    """
    said = with_fractions(tokens)
    words = [word_of(t) for t in said]
    as_high = [i for i in range(1, len(words) - 3) if words[i] == words[i + 2] == "as"]
    for at in (i for i in as_high if words[i + 1] in listed("limits", "sideways")):
        if words[at - 1] == "half":
            return with_folds((*said[: at - 1], *words_at(said[at - 1], "one half times"), *said[at:]))
        if is_fraction(said[at - 1]):
            return with_folds((*said[:at], *words_at(said[at - 1], "times"), *said[at:]))
        if is_bare_share(said[at - 1]):
            return with_folds((*said[:at], *words_at(said[at], "of"), *said[at + 3 :]))
    words = [word_of(t) for t in tokens]
    found = list[Token]()
    for at, token in enumerate(tokens):
        number = found[-1] if found else None
        behind = words[at + 1] if at + 1 < len(words) else ""
        after_number = number is not None and number.number is not None and number.number.unit is None
        if words[at] in ("-", "–") and after_number and behind in ("fold", "to"):
            continue
        if words[at] == "fold" and after_number:
            found.append(replace(token, text="times"))
        elif words[at] in ("*", "×") and after_number and behind in ("the", "that"):
            found.append(replace(token, sort="word", text="times"))
        elif words[at].removesuffix("-fold").removesuffix("fold") in NUMBER_WORDS and "fold" in words[at]:
            found += words_at(token, f"{words[at].removesuffix('fold').removesuffix('-')} times")
        else:
            found.append(token)
    return tuple(found)
