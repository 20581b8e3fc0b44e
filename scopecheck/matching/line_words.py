"""Words of a line, as read of what stands left of its colon: what they name, and the same of other things."""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise
from typing import Self, TypeVar

from scopecheck.core.declared import Assembly, Composition, NumberDecl, SetDecl, Step
from scopecheck.foundations.quantity import PLAIN_KIND, kind_word
from scopecheck.foundations.record import field, holder, record
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.called import called
from scopecheck.matching.chart import Match, word_of
from scopecheck.matching.subjects import OfParts, Subject
from scopecheck.matching.worked_out import WorkedOut, worked_out
from scopecheck.occurrences.groups import Groups
from scopecheck.occurrences.readings import is_switch
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Bound, Names

_SHUTTING_OUT = ("not", "no", "free", "without", "neither", "excluding", "except")
DETERMINERS = ("the", "said", "a", "an", "its", "their")
AVERAGES = frozenset(("mean", "average", "median"))
OFF = frozenset(("within", "±"))
"""What says of a share of something how far off that it lies."""
OF_EXTENTS = ("smallest",)
"""Of the phrases of a diameter, which two things measure in two directions, the second one."""


@holder
class Memory:
    """What was found in stretches of one line's words, by all that it rests on.

    Words are looked at in many ways, mostly of the same things. What rests on a stretch that was still being
    looked at is not kept: `unsettled` counts how often that was met.
    """

    found: dict[tuple[object, ...], list[Match]] = field(default_factory=dict)
    read: dict[tuple[object, ...], bool] = field(default_factory=dict)
    tried: dict[tuple[object, ...], object] = field(default_factory=dict)
    """What whole runs of words came to that were tried in one way or another."""
    values: dict[tuple[object, ...], WorkedOut | None] = field(default_factory=dict)
    """What runs of words work out, by the words and where they begin."""
    kept: list[object] = field(default_factory=list)
    """What keys hold the identity of."""
    unsettled: int = 0


@record
class Place:
    """Where words stand, and what is known there."""

    names: Names
    phrases: Phrasebook
    groups: Groups
    document: str
    where: str
    method: bool = True
    """Whether the words stand in a claim to a method or a use, or in no claim."""
    tried: bool = False
    """Whether the words are only tried: then it is not told why they are not read, which takes long."""
    memory: Memory = field(default_factory=Memory, compare=False)


@record
class LineWords:
    """Words of one place, as read of what stands left of their colon; `phrase_finding.Job` finds phrases."""

    place: Place
    subjects: tuple[Subject, ...]
    words: Words
    bare: frozenset[int]
    also: tuple[str, ...] = ()
    """What of a list other words of the same line name: a list that is closed is not closed against it."""
    loose: bool = False
    """Whether a share written without its basis is one on whatever basis the thing has."""
    multiples: bool = False
    """Whether `half the rim` is a value that may stand where a number may."""
    known: dict[tuple[object, ...], list[Match]] = field(default_factory=dict)
    """Stretches of words already tried, by where they begin and end, and how many there are."""
    apart: list[Self] = field(default_factory=list)
    """The same words for each thing left of the colon alone, once that is asked for."""

    def found(self, tokens: tuple[Token, ...]) -> list[Match]:
        """The phrases that the words are as a whole, best first."""
        raise NotImplementedError

    def readable(self, tokens: tuple[Token, ...]) -> bool:
        """Is the whole of the words read, as a phrase or otherwise?"""
        raise NotImplementedError

    @property
    def first(self) -> Bound:
        return self.subjects[0].bound

    def span(self, tokens: tuple[Token, ...]) -> Span:
        # What was said in other words may stand in another order.
        return Span(self.words.span.source, min(t.start for t in tokens), max(t.end for t in tokens))

    def text(self, tokens: tuple[Token, ...]) -> str:
        """The words as the claim has them; as they are read, where the claim has none for them."""
        said = " ".join(self.span(tokens).text.replace("|", " ").split())
        return said or " ".join(t.text for t in tokens)

    @property
    def alone(self) -> bool:
        """Whether what stands left of the colon are values, not those of like parts or of a class."""
        return all(s.parts is None and s.mixture is None for s in self.subjects)

    @property
    def of_parts(self) -> OfParts | None:
        return self.subjects[0].parts if len(self.subjects) == 1 else None

    @cached_property
    def of_first(self) -> Self:
        """The same words for the first thing left of the colon alone."""
        return self.of(self.subjects[0])

    @cached_property
    def of_one_kind(self) -> tuple[OfParts, ...]:
        """What stands left of the colon, where all of it is of the same like parts; else ()."""
        found = tuple(s.parts for s in self.subjects if s.parts is not None)
        alike = len(found) == len(self.subjects) and all(of.there == found[0].there for of in found)
        return found if alike else ()

    @cached_property
    def sort(self) -> str:
        """What stands left of the colon, where only phrases made for it read its words; else ''."""
        if self.of_one_kind:
            return self.of_one_kind[0].sort
        if len(self.subjects) > 1 and all(isinstance(s.bound, Step) for s in self.subjects):
            return "sequences"
        if isinstance(self.first, Step):
            return "steps"
        if len(self.subjects) > 1 and is_switch(self.first):
            return "switches"
        return "moments" if self.subjects[0].moments and len(self.subjects) == 1 else ""

    def of(self, subject: Subject) -> Self:
        """The same words for the one thing left of the colon taken otherwise."""
        return type(self)(self.place, (subject,), self.words, self.bare)

    def on(self, bound: Bound, text: str = "") -> Self:
        """The same words for one value of several parts, at one moment, or for how long a step takes."""
        subject = Subject(bound, text or self.subjects[0].text, self.subjects[0].span)
        return type(self)(self.place, (subject,), self.words, self.bare)

    def each(self) -> list[Self]:
        if self.of_parts is not None and not self.apart:
            self.apart.extend(self.on(bound) for bound in self.of_parts.each)
        if self.sort == "moments" and not self.apart:
            self.apart.extend(self.on(value) for _, value in self.subjects[0].moments.values())
        if self.sort == "steps" and not self.apart:
            self.apart.extend(self.beside_steps())
        if len(self.subjects) == 1:
            return self.apart or [self]
        if not self.apart:
            self.apart.extend(
                type(self)(self.place, (subject,), self.words, self.bare, loose=True)
                for subject in self.subjects
            )
        return self.apart

    def beside_steps(self) -> list[Self]:
        """The same words for the thing beside a step; where there is none, for how long the step takes."""
        if len(self.subjects) > 1:
            return [type(self)(self.place, (self.subjects[1],), self.words, self.bare)]
        step = self.first
        assert isinstance(step, Step)
        lasts = self.place.names.terms.get(step.duration.lower())
        return [self.on(lasts, step.duration)] if lasts else []

    def beside_more(self, others: tuple[Token, ...]) -> Self:
        """The same words, read beside others of the line that may name more of the same list."""
        listing = self.first
        first, then = (word_of(t) for t in (*others[:2], others[0])[:2])
        shut_out = first in _SHUTTING_OUT and then != "more"  # 'no more than one of' lets one in
        if not isinstance(listing, SetDecl | Composition | Assembly) or shut_out:
            return self
        said = f" {' '.join(map(word_of, others))} "
        called = listing.called if isinstance(listing, Assembly) else ()
        named = {m for one, m in called if f" {one} " in said}
        also = tuple(m for m in listing.members if m in named or f" {m.lower()} " in said)
        return type(self)(self.place, self.subjects, self.words, self.bare, also=also) if also else self

    def declared(self, tokens: tuple[Token, ...]) -> NumberDecl | None:
        """The quantity that the words name as a value; what alone is limited is none beside itself."""
        found = self.named(tokens)
        alone = len(self.subjects) == 1 and self.subjects[0].parts is None and not self.subjects[0].moments
        if found is not None and self.of_parts is not None:
            own = self.of_parts.count.term == self.place.names.value(found).term
            return None if own else found
        return None if found is not None and alone and found.name == self.subjects[0].text else found

    def named(self, tokens: tuple[Token, ...]) -> NumberDecl | None:
        """The quantity that the words name, whatever stands left of the colon."""
        words = tokens[1:] if len(tokens) > 1 and word_of(tokens[0]) in DETERMINERS else tokens
        if any(t.sort != "word" for t in words):
            return None
        for name in (words, tokens):
            found = self.place.names.declared(" ".join(t.text for t in name))
            if isinstance(found, NumberDecl):
                return found
        # 'the cycle time' of what is declared as: cycle  time in s.
        found = self.place.names.declared(" ".join(t.text for t in words[:-1])) if len(words) > 1 else None
        so_much = word_of(words[-1]) in listed("asides", "of_shares")
        if so_much and isinstance(found, NumberDecl) and not found.whole and not found.kind.dimension:
            return found if found.kind != PLAIN_KIND else None  # 'the oil content'
        kind = kind_word(word_of(words[-1]))
        if (
            isinstance(found, NumberDecl)
            and kind is not None
            and found.kind.dimension
            and kind.accepts(found.kind)
        ):
            return found
        return called(self.place.names, " ".join(t.text for t in words)) if len(words) > 2 else None

    def worked_out(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """The value that words work out: `the sum of the rim and the gap`, `the rim less 2 mm`."""
        return self._value(tokens, self.multiples)

    def worked_out_of_several(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """The value that words work out of several values, and of no multiple of one."""
        return self._value(tokens, False)

    def _value(self, tokens: tuple[Token, ...], multiples: bool) -> WorkedOut | None:
        values = self.place.memory.values
        key = (multiples, *((t.start, t.text) for t in tokens))
        if key not in values:
            values[key] = worked_out(tokens, self.named, self.place.names, multiples)
        return values[key]

    def is_number(self, tokens: tuple[Token, ...]) -> bool:
        if len(tokens) == 1 and (tokens[0].number or word_of(tokens[0]) in NUMBER_WORDS):
            return True
        return self.declared(tokens) is not None or self.worked_out(tokens) is not None

    def is_step(self, tokens: tuple[Token, ...]) -> bool:
        return self.place.names.step(" ".join(t.text for t in tokens)) is not None

    def is_moment(self, tokens: tuple[Token, ...]) -> bool:
        return self.place.names.time_of(" ".join(t.text for t in tokens)) is not None

    @cached_property
    def are_extents(self) -> bool:
        """May the things left of the colon be measured on one body: no left flange and right flange?"""
        names = [s.text.lower().split() for s in self.subjects]
        return len({name[-1] for name in names}) > 1 or any(len(name) < 2 for name in names)

    @cached_property
    def is_deviation(self) -> bool:
        """Is what stands left of the colon a number declared to lie on either side of zero, or called so?"""
        declared = self.place.names.declared(self.subjects[0].text)
        if not isinstance(declared, NumberDecl) or declared.kind.point:
            return False
        noted = [w.strip(",;") for w in declared.note.lower().split() if w not in DETERMINERS]
        called = (*declared.name.lower().split(), *noted[:1])
        below = declared.stated_bounds and declared.lower is not None and declared.lower.value < 0
        either = "either" in noted and not {"sign", "direction", "side"}.isdisjoint(noted)
        said = within_plus_or_minus([word_of(t) for t in self.words.tokens])
        return below or either or said or not listed("measures", "deviations").isdisjoint(called)


L = TypeVar("L", bound=LineWords)


def within_plus_or_minus(said: list[str]) -> bool:
    return any(w in ("within", "outside") and then in ("±", "+/-") for w, then in pairwise(said))
