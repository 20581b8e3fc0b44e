"""Which claim of an amended set goes on from which claim of the set before: by number, and by text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher
from fractions import Fraction

from scopecheck.core.model import Claim
from scopecheck.foundations.record import record
from scopecheck.resolve.claim_text import pieces_of
from scopecheck.resolve.dependencies import references

ALIKE = Fraction(3, 5)
"""The share of words two claims of different numbers must have in common to be taken for one claim."""
SAME_NUMBER = Fraction(1, 4)
"""What an equal number counts beside the words in common."""
Words = tuple[str, ...]


@record
class Successors:
    """Pairs (number before, number after) in the order of the amended set, and claims that do not go on."""

    pairs: tuple[tuple[int, int], ...]
    deleted: tuple[int, ...]

    @property
    def after(self) -> Mapping[int, int]:
        return dict(self.pairs)

    @property
    def before(self) -> Mapping[int, int]:
        return {after: before for before, after in self.pairs}


def successors(before: Sequence[Claim], after: Sequence[Claim]) -> Successors:
    """The claims that go on, whatever their number: first those of one wording, then those most alike.

    The numbers of other claims that a text names do not count as its words. A claim whose number stands in
    both sets and that is not found under another number goes on under its own.
    """
    old = {c.number: _words(c, before) for c in before}
    new = {c.number: _words(c, after) for c in after}
    found = {number: number for number in old if number in new and old[number] == new[number]}
    _same_words(old, new, found)
    _alike(old, new, found)
    for number in sorted(old.keys() & new.keys()):
        if number not in found and number not in found.values():
            found[number] = number
    ordered = tuple(sorted(found.items(), key=lambda pair: list(new).index(pair[1])))
    return Successors(ordered, tuple(n for n in old if n not in found))


def _words(claim: Claim, known: Sequence[Claim]) -> Words:
    """The claim's text in lower case, without the references to other claims."""
    named = references(claim.text, claim.number, [c.number for c in known])
    pieces = pieces_of(claim.text)
    return tuple(p.text for p in pieces if not any(r.start <= p.start < r.end for r in named))


def _same_words(old: Mapping[int, Words], new: Mapping[int, Words], found: dict[int, int]) -> None:
    taken = set(found.values())
    by_words: dict[Words, list[int]] = {}
    for number, words in new.items():
        if number not in taken:
            by_words.setdefault(words, []).append(number)
    for number, words in old.items():
        if number not in found and by_words.get(words):
            found[number] = by_words[words].pop(0)


def _alike(old: Mapping[int, Words], new: Mapping[int, Words], found: dict[int, int]) -> None:
    """Pairs of what is left, the most alike first."""
    taken = set(found.values())
    scored = [
        (likeness(old[o], new[n]) + (SAME_NUMBER if o == n else 0), o, n)
        for o in old
        if o not in found
        for n in new
        if n not in taken
    ]
    for score, o, n in sorted(scored, key=lambda s: (-s[0], s[1], s[2])):
        if score >= ALIKE and o not in found and n not in taken:
            found[o] = n
            taken.add(n)


def likeness(a: Words, b: Words) -> Fraction:
    """The share of words that two texts have in common, in one order."""
    if not a and not b:
        return Fraction(1)
    blocks = SequenceMatcher(None, a, b, autojunk=False).get_matching_blocks()
    return Fraction(2 * sum(block.size for block in blocks), len(a) + len(b))
