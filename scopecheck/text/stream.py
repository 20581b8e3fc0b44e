"""A claim as a stream of words: hyphened words whole, each with its singular in one spelling."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from scopecheck.foundations.record import holder, record
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import word_lists
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.dependencies import Reference, references
from scopecheck.resolve.form_rules import in_the_alternative

BREAKS = frozenset(",;:.()[]")
"""Signs at which a clause or a bracket begins or ends."""


@record
class Word:
    """A word or sign, in small letters; `stem` is its singular; offsets in the source."""

    text: str
    stem: str
    start: int
    end: int


@holder
class Stream:
    """A claim's words, the references to other claims in it, and the claims it names first."""

    number: int
    text: ClaimText
    words: list[Word]
    references: tuple[Reference, ...]
    known: tuple[int, ...]

    texts: list[str]
    barred: frozenset[int]
    """Words of references to other claims."""

    @property
    def parents(self) -> tuple[int, ...]:
        """The claims of the first reference that are there."""
        named = self.references[0].numbers if self.references else ()
        return tuple(n for n in dict.fromkeys(named) if n in self.known and n != self.number)

    def span(self, start: int, end: int) -> Span:
        """The place of the words from one up to, not including, another."""
        return Span(self.text.source, self.words[start].start, self.words[end - 1].end)

    def places(self) -> list[tuple[int, int]]:
        """From which word to which each reference of the claim runs."""
        begin = self.text.tokens[0].start if self.text.tokens else 0
        found = []
        for reference in self.references:
            a, b = begin + reference.start, begin + reference.end
            at = [i for i, w in enumerate(self.words) if a <= w.start < b]
            found += [(at[0], at[-1] + 1)] if at else []
        return found

    def together(self, index: int) -> bool:
        """Whether a reference of the claim names several claims at once: 'claim 2 and 5'."""
        places = self.places()
        if index >= len(places) or len(self.references[index].numbers) < 2:
            return False
        start, end = places[index]
        before = self.shown(0, start) + " " if start else ""
        return not in_the_alternative(before, self.shown(start, end))

    def shown(self, start: int, end: int) -> str:
        """The words as they stand, on one line."""
        return " ".join(self.span(start, end).text.split())


def stream(number: int, text: ClaimText, known: Sequence[int]) -> Stream:
    """The words of a claim's text."""
    tokens = text.tokens
    start = tokens[0].start if tokens else 0
    end = tokens[-1].end if tokens else 0
    found = references(text.source.text[start:end], number, known)
    words: list[Word] = []
    at = 0
    while at < len(tokens):
        last = at
        while (
            last + 2 < len(tokens)
            and tokens[last + 1].text == "-"
            and tokens[last].end == tokens[last + 1].start
            and tokens[last + 1].end == tokens[last + 2].start
            and tokens[last].text[0].isalpha()
            and tokens[last + 2].text[0].isalpha()
        ):
            last += 2
        written = "".join(t.text for t in tokens[at : last + 1])
        words.append(Word(written, stem(written), tokens[at].start, tokens[last].end))
        at = last + 1
    places = [(start + r.start, start + r.end) for r in found]
    barred = frozenset(i for i, w in enumerate(words) if any(a <= w.start < b for a, b in places))
    return Stream(number, text, words, found, tuple(known), [w.text for w in words], barred)


@lru_cache(maxsize=8192)
@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """The singular of a noun, in one spelling and without hyphens: what two words share that are one."""
    irregular = word_lists()["irregular"]
    word = irregular.get(word, word)
    if word.endswith("s") and len(word) > 3 and word not in irregular.values():
        word = irregular.get(_singular(word), _singular(word))
    word = word.replace("-", "")
    return word[:-2] + "ze" if word.endswith("ise") else word


def stems(noun: str) -> list[str]:
    """Its words, each as what two words share that are one."""
    return [stem(word) for word in noun.lower().split()]


def _singular(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("sses", "shes", "ches", "xes", "zzes")):
        return word[:-2]
    if word.endswith(("ss", "us", "is")):
        return word
    return word[:-1]


def plural(word: str) -> bool:
    """Whether a noun is a plural by its looks."""
    irregular = word_lists()["irregular"]
    if word in irregular:
        return word in word_lists()["mention"]["plurals"].split()
    return word.endswith("s") and len(word) > 3 and not word.endswith(("ss", "us", "is"))
