"""Which of the things left of the colon the nouns of a phrase name: `ratio of A to B` of B and A."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import permutations

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.quantity import kind_word
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import Match, word_of
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
MOST_NOUNS = 4
_IDLE = ("of", "the", "a", "an", "said", "and", "in")


OWN_MEASURES = listed("measures", "own")
"""Measures of one kind of quantity, of which one is never another."""


def is_measure(noun: str) -> bool:
    """Does the noun tell what is measured: length, temperature, mass?"""
    return noun in OWN_MEASURES or kind_word(noun) is not None


def order_of_nouns(match: Match, subjects: tuple[Subject, ...], names: Names) -> tuple[int, ...] | None:
    """For each noun of the phrase the place of what it names; None where one of them names none of these.

    In the order written where names and notes do not tell. A single noun may be any word for the thing, but
    no other name.
    """
    nouns = [f.tokens for f in match.fills if f.slot.kind == "noun"]
    order = tuple(range(len(subjects)))
    if match.entry.subjects or len(nouns) != len(subjects) or len(nouns) > MOST_NOUNS:
        return order
    telling = {word for s in subjects for word in s.text.lower().split()}
    said = [_stems(map(word_of, tokens), telling) for tokens in nouns]
    known = [_stems(_words_of(s, names), telling) for s in subjects]
    if len(nouns) == 1:
        others = (_stems(name.lower().split(), telling) - _OF_NUMBERS for name in names.declarations)
        words = [word_of(t) for t in nouns[0]]
        # 'Lithium batteries' are none of what is called lithium, but batteries.
        head = _stems(words if {"and", "of"}.intersection(words) else words[-1:], telling)
        another = not said[0] & known[0] and any(o and o <= said[0] and o & head for o in others)
        # 'No wax selected from beeswax and carnauba' lets other waxes be there.
        another |= bool({"selected", "chosen"} & said[0] - known[0])
        return None if another else order

    def told(way: tuple[int, ...]) -> tuple[int, bool]:
        return sum(len(words & known[i]) for words, i in zip(said, way, strict=True)), way == order

    best = max(permutations(order), key=told)
    if any(
        _counts_otherwise(tokens, subjects[i], names) or _is_another_measure(words, known[i])
        for tokens, words, i in zip(nouns, said, best, strict=True)
    ):
        return None
    return best if all(words & known[i] for words, i in zip(said, best, strict=True)) else None


_OF_NUMBERS = {"count", "number"}


def said_besides(
    match: Match, subjects: tuple[Subject, ...], names: Names
) -> Iterator[tuple[Tokens, Subject]]:
    """The nouns of the phrase that say more than the name and the note of what they are read as."""
    nouns = [f.tokens for f in match.fills if f.slot.kind == "noun"]
    order = order_of_nouns(match, subjects, names)
    if match.entry.subjects or order is None or len(nouns) != len(subjects):
        return
    if len(nouns) == 1 and not (isinstance(subjects[0].bound, Typed) and subjects[0].bound.whole):
        return
    telling = {word for s in subjects for word in s.text.lower().split()}
    for tokens, place in zip(nouns, order, strict=True):
        known = _stems(_words_of(subjects[place], names), telling)
        words = [word_of(t) for t in tokens]
        end = next((i for i, w in enumerate(words) if w in _ENDING), len(words))
        said = _stems(words[:end], telling)
        other = (
            said and said.isdisjoint(known)
            if len(nouns) == 1
            else not said <= known | listed("measures", "nouns")
        )
        if other:
            yield tokens, subjects[place]


_ENDING = frozenset(
    "is are being present ranges range ranging varies vary varying lies lie lying amounts".split()
)
"""What stands behind a noun is its verb."""


def _counts_otherwise(tokens: Tokens, subject: Subject, names: Names) -> bool:
    """`ribs per row`, `pairs of ribs`, `ribs and rods`: another number than that of the ribs."""
    own = {w for word in _words_of(subject, names) for w in (word, word.removesuffix("s"))}
    said = [word_of(t) for t in tokens]
    measured = isinstance(subject.bound, Typed) and not subject.bound.whole
    otherwise = _OTHERWISE | _SOME_MORE if measured else _OTHERWISE
    return any(w in otherwise and w not in own and w.removesuffix("s") not in own for w in said)


def _is_another_measure(said: set[str], known: set[str]) -> bool:
    """The depth of a bore is not its diameter."""
    measures = said & OWN_MEASURES
    return bool(measures and known & OWN_MEASURES) and measures.isdisjoint(known)


_OTHERWISE = listed("nouns", "counted_otherwise")
_SOME_MORE = listed("nouns", "some_more")


def _words_of(subject: Subject, names: Names) -> list[str]:
    """The words of its name, and of the note of its declaration."""
    declared = names.declared(subject.text)
    note = declared.note if isinstance(declared, NumberDecl) else ""
    field = names.field_of(subject.text)
    more = [field[0][0].name, field[0][0].plural, field[1]] if field else []
    more += ["sum"] if " + " in subject.text else []
    text = " ".join((subject.text, note, *more))
    words = [word for part in text.lower().split() for word in (part, *part.split("-"))]
    return [*words, subject.text.lower()]  # 'half of the rim' is one word here


def _stems(words: Iterable[str], telling: set[str]) -> set[str]:
    """The words that tell one thing from another, in the singular; `telling` do so in any case."""
    idle = {*listed("nouns", "determiners"), *word_lists()["fractions"], *_IDLE} - telling
    kept = {w.strip(".,;()\"'") for w in words} - idle - {""}
    return {_singular(w) for w in kept}


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > len("dies"):
        return f"{word[:-3]}y"
    return word.removesuffix("es") if word.endswith("sses") else word.removesuffix("s")
