"""Which phrase some words are, as read of what stands left of their colon."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property, partial
from itertools import pairwise
from typing import TypeAlias

from scopecheck.core.declared import Assembly, ChoiceDecl, NumberDecl, SetDecl
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import unusual_forms
from scopecheck.language.scan import Token
from scopecheck.matching.asides import Aside, asides, measures
from scopecheck.matching.chart import (
    Match,
    Tests,
    has_number,
    joined_parts,
    matches,
    split_list,
    word_of,
)
from scopecheck.matching.entries_for import agree, applies
from scopecheck.matching.line_words import AVERAGES, LineWords, within_plus_or_minus
from scopecheck.matching.made_of_several import at_first_worked_out, difference, in_total, of_each
from scopecheck.matching.nouns import order_of_nouns
from scopecheck.matching.shared_limits import (
    behind_its_name,
    denies_the_first_alone,
    either_leaves_open_of_what,
    leaves_open_of_what,
    limits_in_a_row,
    says_limit,
)
from scopecheck.matching.shares_of_others import names_a_share, names_own_amount, share_of_another
from scopecheck.matching.subjects import LISTS, Subject
from scopecheck.matching.together import meant_together, says_together, summands
from scopecheck.matching.unfit import (
    asks_for_a_basis_that_is_said,
    begins_with_an_article,
    converts_another_kind,
    is_a_range_beside_another,
    is_of_another_moment,
    is_of_places,
    leaves_a_tie_unheard,
    leaves_out_a_multiple,
    leaves_whole_of_share,
    mixes_amounts,
    multiplies_another_limit,
    of_what_they_make,
    parts_at_most,
    says_how_much,
    share_their_words,
    so_many_times,
    takes_for_an_extent,
    takes_over_for_across,
    tells_which_is_the_part,
)
from scopecheck.occurrences.groups import CLAIMS
from scopecheck.occurrences.readings import is_kind
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Typed, member_of
from scopecheck.vocabulary.part_kinds import kinds_of

_BEING_FOUND: list[Match] = []
"""In place of what is found in a stretch of words while it is still being looked at."""

_MORE_WORDS = 4
"""So many words more than it has a stretch may have once it is said otherwise."""

_SAID_ANEW = ("is", "are", "being", "has", "have", "having", "lies", "lie", "exceeds", "exceed")

_HOW_MANY = frozenset("more fewer less most all none any each either both neither some".split())

_CHOICE = regex(r"\b(?:one|any|more|either|some) of\b|\bfrom\b")


class Job(LineWords):
    """Words of one place, as read of what stands left of their colon: which phrase they are, if any."""

    __slots__ = ()

    def found(self, tokens: tuple[Token, ...]) -> list[Match]:
        """The phrases that the words are as a whole, best first."""
        key = (tokens[0].start, tokens[-1].end, *(t.text for t in tokens))
        memory = self.place.memory
        if key not in self.known:
            whole = self._rests_on(tokens)
            if whole not in memory.found:
                self.known[key] = _BEING_FOUND
                before = memory.unsettled
                self.known[key] = self._found(tokens)
                if memory.unsettled != before:
                    return self.known[key]
                memory.found[whole] = self.known[key]
            self.known[key] = memory.found[whole]
        if self.known[key] is _BEING_FOUND:
            memory.unsettled += 1
        return self.known[key]

    def _rests_on(self, tokens: tuple[Token, ...]) -> tuple[object, ...]:
        """All that tells what the words are found to be."""
        among = min(len(self.words.tokens), len(tokens) + _MORE_WORDS)
        bare = tuple(t.start for t in tokens if t.start in self.bare)
        return (self._looked_at, among, bare, *((t.start, t.end, t.text, *_written(t)) for t in tokens))

    @cached_property
    def _looked_at(self) -> tuple[object, ...]:
        """What the words are looked at for, things by their identity."""
        memory, place = self.place.memory, self.place
        things: list[object] = [place.names, place.phrases]
        for s in self.subjects:
            things += [s.bound, s.parts, s.mixture, *s.asked.values(), *(v for _, v in s.moments.values())]
        memory.kept += things
        said = [word_of(t) for t in self.words.tokens]
        each = "each" in said or "every" in said
        return (
            *map(id, things), *(s.text for s in self.subjects), *(tuple(s.moments) for s in self.subjects),
            place.document, place.where, place.method, self.also, self.loose, self.multiples,
            each, within_plus_or_minus(said),
        )  # fmt: skip

    def _found(self, tokens: tuple[Token, ...]) -> list[Match]:
        found = matches(tokens, self.place.phrases, self.tests()) or self.defined(tokens)
        found = [m for m in found if order_of_nouns(m, self.subjects, self.place.names) is not None]
        found = found or self._of_own_limits(tokens)
        found = [m for m in found if not is_a_range_beside_another(self, m)]
        found = [] if found and takes_over_for_across(self.first, tokens) else found
        if len(self.subjects) > 1:
            found = [
                m for m in found if not of_what_they_make(self, m) and not tells_which_is_the_part(self, m)
            ]
        elif is_kind(self.first, "shares"):
            found = [m for m in found if not says_how_much(self, m) and not parts_at_most(m, tokens)]
        if self.sort == "parts":
            found = [m for m in found if not is_of_places(self, m)]
        if self.sort == "moments":
            found = [m for m in found if not any(map(partial(is_of_another_moment, self), m.fills))]
        # A noun may take 'combined content of' for its own: 'together' and 'each' are not passed over.
        if found and not any(" of " in f" {m.pattern.plain} " for m in found):
            found = [] if share_of_another(self, tokens) else found
        found = [m for m in found if not any(mixes_amounts(self, f.members) for f in m.fills)]
        found = [m for m in found if not (converts_another_kind(m) or asks_for_a_basis_that_is_said(m))]
        if any(map(has_number, tokens)) and isinstance(self.first, Typed):
            found = [m for m in found if not ("... and ..." in m.pattern.plain and begins_with_an_article(m))]
            found = [m for m in found if not any(either_leaves_open_of_what(f.members) for f in m.fills)]
        # Behind 'of the weight of' a name is that of the whole, and not the thing left of the colon.
        if found and len(self.subjects) > 1 and share_of_another(self.of_first, tokens):
            found = []
        found = [m for m in found if not (leaves_whole_of_share(m, tokens) or leaves_out_a_multiple(self, m))]
        found = [m for m in found if not multiplies_another_limit(self, m)]
        if found and len(self.subjects) > 1:
            own = frozenset(w for s in self.subjects for w in s.text.lower().split())
            found = [
                m
                for m in found
                if not leaves_a_tie_unheard(m, own) and not takes_for_an_extent(self, m, tokens)
            ]
        over = found and not any(says_together(m.pattern.plain) for m in found) and in_total(self, tokens)
        each = found and not any("each" in m.pattern.plain for m in found) and of_each(self, tokens)
        return [] if over or each else found

    def _of_own_limits(self, tokens: tuple[Token, ...]) -> list[Match]:
        """`the gap is at least 5 mm or the rim at least 3 mm`: a phrase of limits, each of what it names."""
        if len(self.subjects) < 2 or not self.alone or self.sort or "or" not in map(word_of, tokens):
            return []
        if isinstance(self.first, LISTS):
            return []  # 'or' would be one of its members
        tests = replace(self.tests(), subjects=1, item=lambda words: self.of_named(words) is not None)
        found = matches(tokens, self.place.phrases, tests)
        said = f" {' '.join(map(word_of, tokens))} "
        all_named = all(f" {s.text.lower()} " in said for s in self.subjects)
        return [
            m
            for m in found
            if all_named and m.fills and all(f.members and all(map(says_limit, f.members)) for f in m.fills)
        ]

    def defined(self, tokens: tuple[Token, ...]) -> list[Match]:
        """The words as words that the description defines; definitions are for the claims alone."""
        definitions = tuple(d.entry for d in self.place.groups.definitions if not d.noun)
        if self.place.document != CLAIMS or not definitions:
            return []
        return matches(tokens, Phrasebook(definitions, alone=True), self.tests())

    def readable(self, tokens: tuple[Token, ...]) -> bool:
        """Is the whole of the words read, as a phrase or otherwise?"""
        if not tokens:
            return False
        memory, whole = self.place.memory, self._rests_on(tokens)
        if whole not in memory.read:
            before = memory.unsettled
            read = self._readable(tokens)
            if memory.unsettled != before:
                return read
            memory.read[whole] = read
        return memory.read[whole]

    def _readable(self, tokens: tuple[Token, ...]) -> bool:
        found = self.found(tokens) or share_of_another(self, tokens) or self.split(tokens)
        found = found or in_total(self, tokens) or difference(self, tokens)
        found = found or at_first_worked_out(self, tokens)
        return bool(found or of_each(self, tokens)) or any(not aside.wrong for aside in self.asides(tokens))

    def asides(self, tokens: tuple[Token, ...]) -> list[Aside]:
        """The ways to read the words without a basis of a share, or a condition of measuring, beside them."""
        return [a for a in self.asides_found(tokens) if self.readable(a.rest)]

    def asides_found(self, tokens: tuple[Token, ...]) -> list[Aside]:
        """The bases and conditions of measuring, whether the rest is read or not."""
        if len(self.subjects) != 1 or not isinstance(self.first, Typed):
            return []
        name = self.subjects[0].text
        declared = self.place.names.declared_for(name)
        known = declared if isinstance(declared, NumberDecl) else None
        own = frozenset(word for word in name.lower().split())
        beside = [*asides(tokens, self.first, known, name, own), *self._together(tokens, name)]
        # Words of a step are read of the step, and not of how long it takes.
        if self.alone and not self.place.names.step(name.lower().removeprefix("duration of ")):
            beside += measures(tokens, self.first, known, name)
        return [a for a in beside if not names_a_share(self, a.words)]

    def _together(self, tokens: tuple[Token, ...], name: str) -> Iterator[Aside]:
        # The combined height of the ribs is that of no rib.
        one_of_several = self.place.names.field_of(name) is not None
        return meant_together(tokens, summands(name)) if self.alone and not one_of_several else iter(())

    def split(self, tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], tuple[Token, ...]] | None:
        ways = (*joined_parts(tokens), *limits_in_a_row(tokens))
        sides = ((a, b) for a, b in ways if self.readable(a) and self.readable(b))
        for a, b in sides:
            open_ = self._cuts_a_list(tokens, len(a), b) or self._leaves_open_which(tokens, a, b)
            if self.may_part(a, b) and not (open_ or self.only_names(a) or self.only_names(b)):
                return a, b
        return None

    def may_part(self, left: tuple[Token, ...], right: tuple[Token, ...]) -> bool:
        """Is each side a limit by itself, and of the first thing left of the colon?"""
        if not isinstance(self.first, Typed):
            return True
        first, whole = self.of_first, left
        left = left if word_of(right[0]) in _SAID_ANEW else behind_its_name(left)
        denied = denies_the_first_alone(left, right)
        if word_of(right[0]) == "not" and len(right) == 2 and so_many_times(self, whole, right[1:]):
            return False  # 'one to three times the base, but not twice'
        if self.named(right) is not None or (not denied and share_their_words(self, left, right)):
            return False
        apart = names_own_amount(first, left) and share_of_another(first, right)
        return not (apart or leaves_open_of_what(left, right))

    def _cuts_a_list(self, tokens: tuple[Token, ...], at: int, right: tuple[Token, ...]) -> bool:
        """`one of A` out of `one of A and B but not C`: is it parted at an 'and' that belongs to a list?"""
        left = tokens[:at]
        if word_of(tokens[at]) != "and":
            return False
        goes_on = isinstance(self.first, LISTS) and any(
            member_of(self.first, self.text(right[:n])) for n in range(1, min(5, len(right)) + 1)
        )
        fills = (f for m in self.found(left) if goes_on or _CHOICE.search(m.wording) for f in m.fills)
        return any((goes_on or len(f.members) == 1) and f.tokens[-1] is left[-1] for f in fills if f.members)

    def _leaves_open_which(
        self, tokens: tuple[Token, ...], left: tuple[Token, ...], right: tuple[Token, ...]
    ) -> bool:
        """`A and B or C`: does nothing say which two of the members belong together?"""
        comma = tokens[len(left)].text == "," or not isinstance(self.first, LISTS)
        lists = (split_list(side, "or") for side in (left, right) if "or" in map(word_of, side))
        return not comma and any(len(members) > 1 and all(map(self.is_item, members)) for members in lists)

    def only_names(self, tokens: tuple[Token, ...]) -> bool:
        """Are the words no more than the name of a quantity, of which nothing says that it is equal to it?

        'the total amount of the oil' of 'the total amount of the oil and the gum is ...' is no limit.
        """
        for m in self.found(tokens):
            slots = [f for f in m.fills if f.slot.kind == "number"]
            bare = len(m.pattern.elements) == len(slots) == 1
            if bare and self.named(slots[0].tokens) is not None and not slots[0].tokens[0].number:
                return True
        return False

    def tests(self, any_item: bool = False) -> Tests:
        own: set[str] = set()
        for subject in self.subjects:
            for word in subject.text.lower().split():
                own |= {word, word + "s", word + "es", word.removesuffix("s"), *unusual_forms(word)}
            field = self.place.names.field_of(subject.text)
            if parts := field[0] if field else self.place.names.kind(subject.text):
                own |= set(parts[0].name.lower().split())
        item = (lambda tokens: all(t.sort == "word" for t in tokens)) if any_item else self.is_item
        own -= {"", "not", "no"}
        return Tests(
            self.is_number, item, self.is_limit, partial(applies, self), frozenset(own), len(self.subjects),
            self.sort in ("parts", "classes", "moments"),
            isinstance(self.first, Typed) and self.first.whole, self.is_step, self.is_moment,
            agree=partial(agree, self),
        )  # fmt: skip

    def is_item(self, tokens: tuple[Token, ...]) -> bool:
        if isinstance(self.first, Assembly):
            return self.counted(self.first, tokens) is not None
        if isinstance(self.first, LISTS):
            return member_of(self.first, self.text(tokens)) is not None
        if len(tokens) >= len(self.words.tokens):
            return False
        alone = len(self.found(tokens)) == 1 and not self.only_names(tokens)
        alone = alone or self.split(tokens) is not None or share_of_another(self, tokens) is not None
        return alone or self.of_named(tokens) is not None

    def of_named(self, tokens: tuple[Token, ...]) -> Job | None:
        """`the gap is at least 5 mm` of a gap and a rim: the words as read of the one that they name."""
        if len(self.subjects) < 2 or not self.alone:
            return None
        said = f" {' '.join(map(word_of, tokens))} "
        named = [job for job in self.each() if f" {job.subjects[0].text.lower()} " in said]
        if not any(map(has_number, tokens)):  # 'the metal is steel'; a name alone is no limit
            named = [job for job in named if isinstance(job.first, SetDecl | ChoiceDecl)]
        return named[0] if len(named) == 1 and named[0].readable(tokens) else None

    def is_limit(self, tokens: tuple[Token, ...]) -> bool:
        if self.of_parts is not None:
            # The mean of several is no mean of each, unless each is said to have one.
            said = {word_of(t) for t in self.words.tokens}
            means = AVERAGES.intersection(map(word_of, tokens))
            return not (means and said.isdisjoint(("each", "every"))) and self.each()[0].readable(tokens)
        if self.sort == "steps" and len(tokens) == 1 and tokens[0].number:
            return False
        if self.sort == "moments" and not AVERAGES.isdisjoint(map(word_of, tokens)):
            return False  # an average over time is no limit at all times, but one of the average
        if self.sort in ("steps", "moments"):
            return bool(self.each()) and all(job.readable(tokens) for job in self.each())
        if len(tokens) >= len(self.words.tokens):
            return False
        if self.of_one_kind:
            firsts = ((s.parts.each[0], s) for s in self.subjects if s.parts is not None)
            return any(self.on(bound, s.text).readable(tokens) for bound, s in firsts)
        return all(job.readable(tokens) for job in self.each())

    def counted(self, made: Assembly, tokens: tuple[Token, ...]) -> tuple[str, Job | None] | None:
        """The kind of part that words like `two plates` name, and what reads how many; None for no kind."""
        text = [self.text(tokens[at:]) for at in range(len(tokens))]
        at = next((i for i, words in enumerate(text) if member_of(made, words)), None)
        if at is None or any(t.sort == "sign" for t in tokens) or _counts_kinds(tokens[:at]):
            return None
        member = member_of(made, text[at])
        assert member
        counted = self.place.names.declared(member)
        if isinstance(counted, NumberDecl) and (at or word_of(tokens[0]) in ("a", "an")):
            parts = self.place.names.kind(member)
            asked, shown = kinds_of(self.place.names, parts, member) if parts else ({}, {})
            subject = Subject(self.place.names.value(counted), member, self.span(tokens), None, asked, shown)
            job = self.of(subject)
            return (member, job) if job.readable(tokens) else None
        return (member, None) if at == 0 else None


def _written(token: Token) -> tuple[object, ...]:
    """A number as it counts here; the sort of another word."""
    n = token.number
    return (token.sort,) if n is None else (n.text, n.value, n.unit and (n.unit.symbol, n.unit.kind.name))


def _counts_kinds(tokens: tuple[Token, ...]) -> bool:
    """`at least one of a spring`, which goes on with 'and a lid': how many of the kinds there are."""
    return any(
        word_of(then) == "of" and (has_number(t) or word_of(t) in _HOW_MANY) for t, then in pairwise(tokens)
    )


Read: TypeAlias = "tuple[Job, tuple[Token, ...]]"
"""What some words are read of, and the words."""
