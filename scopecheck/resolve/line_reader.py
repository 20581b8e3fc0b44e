"""What reads one line: a phrase of the things left of the colon, and what is only tried."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import partial
from typing import Self, TypeAlias

from scopecheck.core.declared import Assembly, Composition
from scopecheck.core.formula import Add, Formula
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.record import field, record, replace
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.everyday import (
    is_ordinal,
    with_fractions,
    with_ratio_named,
    without_times,
)
from scopecheck.matching.line_words import Memory, Place
from scopecheck.matching.of_ratios import without_ratio
from scopecheck.matching.phrase_finding import Job, Read
from scopecheck.matching.signs import with_multiples, with_names
from scopecheck.matching.subjects import Subject, at_its_end, with_units, without_unit
from scopecheck.matching.together import sum_of, with_both_named
from scopecheck.occurrences.groups import Groups
from scopecheck.occurrences.readings import is_unitless
from scopecheck.resolve.ready import MOST_WORDS, tokens_of
from scopecheck.resolve.said_amounts import with_amounts
from scopecheck.rewording.by_name import stands_beside
from scopecheck.rewording.in_order import Pieces
from scopecheck.rewording.members_beside import with_members
from scopecheck.rewording.multiples import with_parity
from scopecheck.rewording.one_phrase import can_be_read, denied, is_read, whole
from scopecheck.rewording.usual_units import with_pressure_told
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Names, Typed

_UNTIL = ("until", "till")
"""What a step goes on until is so when it ends."""
Things: TypeAlias = tuple[Subject, ...]


@record
class LineReader:
    """Reads words at one place of one document as one phrase; `phrases.Reader` has the other ways."""

    names: Names
    phrases: Phrasebook
    groups: Groups
    document: str
    where: str
    method: bool = True
    """Whether the words stand in a claim to a method or a use, or in no claim."""
    tried: bool = False
    """Whether they are only tried."""
    heard: bool = False
    """Whether it was heard what they say is there."""
    memory: Memory = field(default_factory=Memory, compare=False)

    @property
    def place(self) -> Place:
        """Where the words stand."""
        return Place(
            self.names, self.phrases, self.groups, self.document, self.where, self.method, self.tried,
            self.memory,
        )  # fmt: skip

    def condition(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """The words as a formula. Raises Trouble if no phrase, or more than one, reads them."""
        raise NotImplementedError

    def as_it_stands(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """As `condition`, but a bare per cent is on no basis that is only declared."""
        raise NotImplementedError

    def reads(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether `condition` has a formula for the words. Quick where it has none: no advice is sought."""
        raise NotImplementedError

    def trying(self) -> Self:
        """The same, for words that are only tried: what is found is not kept."""
        trial = Groups(self.groups.profile, (), (), (), self.groups.definitions)
        return replace(self, groups=trial, tried=True)

    def holds(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether `condition` has a formula for the words, by whichever way."""
        with suppress(Trouble):
            return bool(self.as_it_stands(words, subjects))
        return False

    def if_read(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """What a phrase makes of the words; None where none reads them."""
        with suppress(Trouble):
            trying = self.trying().job(tokens, words, subjects)
            if is_read_or_denied(*trying) and can_be_read(*trying):
                return whole(*self.job(tokens, words, subjects))
        return None

    def piece_by_piece(self, pieces: Pieces, words: Words) -> tuple[Formula, ...]:
        """What each piece says of its own things, as a line of its own; () where one is not read."""
        alone = ((said, of[0].text.lower().split()) for said, of in pieces if len(of) == 1)
        if any(stands_beside(said, {*name}) for said, name in alone):
            return ()  # 'at most 10 min longer than the soaking' is not said of the soaking
        each = [(Words(words.text, said, words.span), of) for said, of in pieces]
        if not all(said.tokens and self.trying().holds(said, of) for said, of in each):
            return ()
        return tuple(self.condition(said, of) for said, of in each)

    def reads_plainly(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether the words are read without a condition in them."""
        look = partial(self._looked_plainly, words, subjects)
        return bool(self.once("plainly", words, words.tokens, subjects, look))

    def _looked_plainly(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        tokens = tokens_of(words, subjects, self.names)
        if not tokens or len(tokens) > MOST_WORDS or any(t.sort == "sign" for t in tokens):
            return False
        try:
            job, tokens = self.job(tokens, words, subjects)
            if is_read_or_denied(job, tokens):
                return can_be_read(job, tokens)
        except Trouble:
            pass
        return False

    def once(
        self, what: str, words: Words, tokens: tuple[Token, ...], things: Things, look: Callable[[], object]
    ) -> object:
        """What these words are tried for, found once: sides of a condition are looked at again and again."""
        key = (what, words.text, tokens, *map(id, things), self.tried, self.heard, self.names.of_several)
        tried = self.memory.tried
        if key not in tried:
            self.memory.kept += things
            tried[key] = look()
        return tried[key]

    def job(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[Job, tuple[Token, ...]]:
        """The words as they are read of what stands left of the colon, numbers with their units.

        Words that can be said otherwise are, where no phrase has them as they stand.
        """
        if any(t.text.lower() in _UNTIL for t in tokens):
            subjects = (*subjects[:1], *map(at_its_end, subjects[1:]))
        made = self._job_of(with_amounts(tokens, subjects, self.names, words.span), words, subjects)
        if not subjects or is_read(*made):
            return made
        return next(
            (other for other in self._otherwise(made, tokens, words, subjects) if is_read(*other)), made
        )

    def _otherwise(
        self, made: Read, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Iterator[Read]:
        """Fractions as numbers, times behind a count as nothing, signs as names, members beside others, both
        things named, a sum as one thing."""
        fractions = without_times(with_fractions(made[1]), made[0].first)
        if fractions != made[1] and not is_ordinal(made[1], made[0].first, subjects[0].text):
            yield self._job_of(fractions, words, subjects)
        signs = with_names(tokens, tuple(s.text for s in subjects)) if len(subjects) > 1 else tokens
        multiples = with_multiples(with_fractions(with_amounts(signs, subjects, self.names, words.span)))
        if multiples not in (made[1], fractions) and self._can_be_read(multiples, words, subjects):
            yield self._job_of(multiples, words, subjects)
        for said in (without_ratio, with_pressure_told) if len(subjects) == 1 else ():
            plain = said(made[1], subjects[0].bound)
            if plain != made[1]:
                yield self._job_of(plain, words, subjects)
        parity = with_parity(made[1])
        if parity != made[1]:
            yield self._job_of(parity, words, subjects)
        members = with_members(made[1], made[0].first)
        if members != made[1]:
            yield self._job_of(members, words, subjects)
        ratio = with_ratio_named(tokens, tuple(s.text for s in subjects))
        if ratio is not tokens:
            yield self._job_of(with_amounts(ratio, subjects, self.names, words.span), words, subjects)
        named = with_both_named(made[1], tuple(s.text for s in subjects))
        if named is not made[1]:
            yield self._job_of(named, words, subjects)
        summed, fewer = _summed(tokens, subjects)
        if len(fewer) != len(subjects):
            yield self._job_of(with_amounts(summed, fewer, self.names, words.span), words, fewer)

    def _can_be_read(self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]) -> bool:
        with suppress(Trouble):
            job, made = self.trying()._job_of(tokens, words, subjects)
            return is_read(job, made) and can_be_read(job, made)
        return False

    def _job_of(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[Job, tuple[Token, ...]]:
        # Of what is said otherwise, in more words, a part may be as long as the claim's words.
        longer = len(tokens) > len(words.tokens)
        among = Words(words.text, tokens, words.span) if longer else words
        job = Job(self.place, subjects, among, without_unit(tokens))
        tokens = with_units(tokens, is_unitless(subjects[0].bound))
        mixture = subjects[0].mixture if len(subjects) == 1 else None
        if mixture is not None and isinstance(subjects[0].bound, Typed):
            job = self._of_a_class(job, subjects[0], mixture, tokens)
        return job, tokens

    def _of_a_class(
        self, job: Job, subject: Subject, mixture: Composition | Assembly, tokens: tuple[Token, ...]
    ) -> Job:
        """How words about a class of ingredients are read: of its list, of its members, of its amount."""
        listing = job.of(replace(subject, bound=mixture, parts=None))
        if not any(t.number for t in tokens) and listing.readable(tokens):
            return listing
        return job if job.readable(tokens) else job.of(replace(subject, parts=None))


def is_read_or_denied(job: Job, tokens: tuple[Token, ...]) -> bool:
    return is_read(job, tokens) or bool(denied(job, tokens))


def _summed(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...]
) -> tuple[tuple[Token, ...], tuple[Subject, ...]]:
    """`a, b, c : ratio of a to the sum of b and c`, the sum as one thing left of the colon and one word."""
    terms = [
        s.bound for s in subjects if isinstance(s.bound, Typed) and s.parts is None and s.mixture is None
    ]
    kind = terms[0].kind if terms else None
    if len(subjects) < 3 or len(terms) < len(subjects) or kind is None or kind.basis == "level":
        return tokens, subjects
    found = sum_of(tokens, tuple(s.text.lower() for s in subjects))
    if found is None or any(t.kind != kind for t in terms):
        return tokens, subjects
    start, end, first, last = found
    whole = Typed(Add(tuple(t.term for t in terms[first:last])), kind)
    text = " + ".join(s.text for s in subjects[first:last])
    word = replace(tokens[start], sort="word", text="sum", end=tokens[end - 1].end)
    one = Subject(whole, text, subjects[first].span)
    return (*tokens[:start], word, *tokens[end:]), (*subjects[:first], one, *subjects[last:])
