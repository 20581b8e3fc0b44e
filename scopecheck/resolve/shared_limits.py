"""Two limits in one line of which only one stands beside another quantity, or neither plainly does.

Whether the other limit is one of the difference as well, or of the thing itself, the words may leave open.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of

Tokens = tuple[Token, ...]
_OF_LIMITS = frozenset(
    "at least most not no more less fewer greater larger higher smaller lower than exceeding up to from"
    " between and or about approximately above below over under".split()
)
_GREATER = frozenset("more greater larger higher exceeding above over".split())
_LESSER = frozenset("less fewer smaller lower below under".split())
APART = ("differs", "differ", "differing", "deviates", "deviate", "deviating")
BESIDE = ("above", "below")
"""What stands between an amount and the quantity that it is counted from."""


def has_number(token: Token) -> bool:
    return token.number is not None or word_of(token) in NUMBER_WORDS


def is_bare_limit(tokens: Tokens) -> bool:
    """`at most 5 mm`, `not more than five`, `thirty seconds`: nothing tells what it is a limit of."""
    words = [word_of(t) for t in tokens]
    units = {then for t, then in zip(tokens, words[1:], strict=False) if word_of(t) in NUMBER_WORDS}
    return any(map(has_number, tokens)) and all(
        has_number(t) or w in _OF_LIMITS or w in units for t, w in zip(tokens, words, strict=True)
    )


def is_upper(tokens: Tokens) -> bool:
    """Is a bare limit one from above?"""
    words = {word_of(t) for t in tokens}
    negated = not words.isdisjoint(("not", "no"))
    return not words.isdisjoint(("most", "up")) or not words.isdisjoint(_GREATER if negated else _LESSER)


def leaves_open_of_what(left: Tokens, right: Tokens) -> bool:
    """May both limits be of the difference that one of them names, or is the second only part of a number?

    `exceeds the rim by at least 2 mm but not more than 5 mm`, `less than 9 mm and at least 2 mm above the
    rim`, `at least one minute and thirty seconds`.
    """
    if is_bare_limit(right):
        between = any(word_of(t) == "between" for t in left)
        amount = all(word_of(t) not in _OF_LIMITS for t in right)
        return (amount and not between) or _ends_in_a_difference(left)
    return is_bare_limit(left) and _begins_with_a_difference(right)


def _ends_in_a_difference(tokens: Tokens) -> bool:
    """`exceeds the rim by at least 2 mm`, `differs from the rim by 1 mm`."""
    words = [word_of(t) for t in tokens]
    by = max((i for i, w in enumerate(words) if w == "by"), default=0)
    compared = any(w.startswith("exceed") or w in (*APART, "than") for w in words[:by])
    return compared and is_bare_limit(tokens[by + 1 :])


def _begins_with_a_difference(tokens: Tokens) -> bool:
    """`at least 2 mm greater than the rim`, `at most 5 mm above the rim`, `two more holes than ribs`."""
    compared = listed("asides", "greater") | listed("asides", "lesser")
    for at, (before, token) in enumerate(pairwise(tokens), 1):
        word = word_of(token)
        behind = [word_of(t) for t in tokens[at + 1 :]]
        named = word in BESIDE and bool(behind) and not any(map(has_number, tokens[at + 1 :]))
        if has_number(before) and (named or (word in compared and "than" in behind)):
            return True
    return False
