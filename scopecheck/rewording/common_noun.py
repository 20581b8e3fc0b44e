"""Things by the noun that begins or ends their names: 'the flanges', of a left flange and a right flange."""

from __future__ import annotations

from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.nouns import is_measure
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Typed
from scopecheck.vocabulary.parts import plural_of

Tokens = tuple[Token, ...]


def with_all_named(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`either flange`, `neither of the flanges`, `the smaller of the two flanges`, with the names of both.

    None of the names may stand in the words, nor another number of things so called. Beside them may be
    another thing: `less than the sum of the reaches`, of a spacing, a reach A and a reach B.
    """
    noun, so_called = _common_noun(subjects)
    said = [word_of(t) for t in tokens]
    if not noun or any(f" {s.text.lower()} " in f" {' '.join(said)} " for s in so_called):
        return tokens
    names = [s.text for s in so_called]
    for at, word in enumerate(said):
        start, several = _start_of(said, at, len(so_called)), word in _plurals(noun)
        led = said[max(0, start - 2) : start]
        if several and led == ["neither", "of"]:
            return (*tokens[: start - 2], *words_at(tokens[at], _neither(names)), *tokens[at + 1 :])
        if several and start < at:
            both = (
                "both " if said[start] == "both" and said[start - 1 : start] not in (["of"], ["for"]) else ""
            )
            made = f"{both}{_joined(names, 'and')}"
            return (*tokens[:start], *words_at(tokens[at], made), *tokens[at + 1 :])
        if word == noun and led and led[-1] in _ONE_BY_ONE and start == at:
            made = _ONE_BY_ONE[led[-1]](names)
            return (*tokens[: at - 1], *words_at(tokens[at], made), *tokens[at + 1 :])
        if word == noun and said[max(0, at - 3) : at] == ["at", "least", "one"]:
            return (*tokens[:at], *words_at(tokens[at], f"of {_joined(names, 'and')}"), *tokens[at + 1 :])
    return tokens


def _common_noun(subjects: tuple[Subject, ...]) -> tuple[str, tuple[Subject, ...]]:
    """The word that ends or begins the names of at least two, with more in each; '' if none does."""
    for end in (-1, 0):
        called: dict[str, list[Subject]] = {}
        for s in subjects:
            words = s.text.lower().split()
            if end == 0 and is_measure(words[-1]):
                continue  # the rod of a rod length and a rod width is what has them, and neither of the two
            if len(words) > 1 and isinstance(s.bound, Typed) and s.parts is None and not s.moments:
                called.setdefault(words[end], []).append(s)
        several = [(noun, tuple(found)) for noun, found in called.items() if len(found) > 1]
        if len(several) == 1 and several[0][0].isalpha() and len(several[0][0]) > 2:
            noun, found = several[0]
            others = (s for s in subjects if s not in found)
            return (noun, found) if all(noun not in s.text.lower().split() for s in others) else ("", ())
    return "", ()


def _plurals(noun: str) -> tuple[str, ...]:
    irregular = f"{noun.removesuffix('f').removesuffix('fe')}ves" if noun.endswith(("f", "fe")) else ""
    return (plural_of(noun), irregular)


def _start_of(said: list[str], at: int, number: int) -> int:
    """Where 'the two' before a word at this place begins; the place itself where neither stands there."""
    start = at - (NUMBER_WORDS.get(said[at - 1], 0) == number if at else 0)
    return start - (start > 0 and said[start - 1] in ("the", "said", "these", "their", "both"))


def _joined(names: list[str], word: str) -> str:
    first = " , ".join(f"the {name}" for name in names[:-1])
    return f"{first} {word} the {names[-1]}"


def _each(names: list[str]) -> str:
    return f"each of {_joined(names, 'and')}"


def _either(names: list[str]) -> str:
    return f"either of {_joined(names, 'and')}"


def _neither(names: list[str]) -> str:
    return f"neither {' nor '.join(f'the {name}' for name in names)}"


_ONE_BY_ONE = {"each": _each, "every": _each, "either": _either, "neither": _neither}
