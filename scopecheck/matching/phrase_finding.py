"""Which phrase some words are, as read of what stands left of their colon."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, NumberDecl, SetDecl, Step
from scopecheck.core.formula import Add, Divide, Magnitude, Negate
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND, KindWord, difference_kind, kind_word
from scopecheck.foundations.record import field, holder, record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import run_at, unusual_forms
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.asides import Aside, asides, measures
from scopecheck.matching.called import called
from scopecheck.matching.chart import (
    MOST_WORDS_OF_A_VALUE,
    Fill,
    Match,
    Tests,
    has_number,
    joined_parts,
    matches,
    prefers,
    split_list,
    word_of,
)
from scopecheck.matching.nouns import OWN_MEASURES, order_of_nouns
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.shared_limits import (
    asked_in_any_case,
    begins_anew,
    behind_its_name,
    beside_a_multiple,
    denies_the_first_alone,
    excludes_a_value,
    goes_on_surely,
    leaves_open_of_what,
    limits_in_a_row,
    says_limit,
    shares_the_words,
)
from scopecheck.matching.subjects import (
    LISTS,
    OfParts,
    Subject,
    is_bare_share,
    is_fraction,
    without_basis,
)
from scopecheck.matching.them import has_a_place, tell_how_far_apart
from scopecheck.matching.together import (
    difference_of,
    meant_together,
    of_the_whole_limit,
    says_together,
    summands,
)
from scopecheck.matching.worked_out import WorkedOut, bracketed, is_open_sum, worked_out
from scopecheck.occurrences.groups import CLAIMS, Groups
from scopecheck.occurrences.readings import RELATIVE, is_kind, is_switch
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.names import Bound, Names, Typed, member_of
from scopecheck.vocabulary.part_kinds import kinds_of

Read: TypeAlias = "tuple[Job, tuple[Token, ...]]"
"""What some words are read of, and the words."""


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


_BEING_FOUND: list[Match] = []
"""In place of what is found in a stretch of words while it is still being looked at."""
_MORE_WORDS = 4
"""So many words more than it has a stretch may have once it is said otherwise."""


@record
class Job:
    """Words of one place, as read of what stands left of their colon: which phrase they are, if any."""

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
    apart: list[Job] = field(default_factory=list)
    """The same words for each thing left of the colon alone, once that is asked for."""

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
            each, _within_plus_or_minus(said),
        )  # fmt: skip

    def _found(self, tokens: tuple[Token, ...]) -> list[Match]:
        found = matches(tokens, self.place.phrases, self.tests()) or self.defined(tokens)
        found = [m for m in found if order_of_nouns(m, self.subjects, self.place.names) is not None]
        found = found or self._of_own_limits(tokens)
        if len(self.subjects) > 1:
            found = [m for m in found if not self._of_what_they_make(m)]
        elif is_kind(self.first, "shares"):
            found = [m for m in found if not self._says_how_much(m) and not _parts_at_most(m, tokens)]
        if self.sort == "parts":
            found = [m for m in found if not self._is_of_places(m)]
        if self.sort == "moments":
            found = [m for m in found if not any(map(self._is_of_another_moment, m.fills))]
        # A noun may take 'combined content of' for its own: 'together' and 'each' are not passed over.
        if found and not any(" of " in f" {m.pattern.plain} " for m in found):
            found = [] if self.share_of_another(tokens) else found
        found = [m for m in found if not any(self._mixes_amounts(f.members) for f in m.fills)]
        found = [m for m in found if not (_converts_another_kind(m) or _asks_for_a_basis_that_is_said(m))]
        if any(map(has_number, tokens)) and isinstance(self.first, Typed):
            found = [m for m in found if not ("... and ..." in m.pattern.plain and _begins_anew(m))]
        # Behind 'of the weight of' a name is that of the whole, and not the thing left of the colon.
        if found and len(self.subjects) > 1 and self.of_first.share_of_another(tokens):
            found = []
        found = [
            m for m in found if not (_leaves_whole_of_share(m, tokens) or self._leaves_out_a_multiple(m))
        ]
        if found and len(self.subjects) > 1:
            own = frozenset(w for s in self.subjects for w in s.text.lower().split())
            found = [m for m in found if not _ties(m, own) and not self._takes_for_an_extent(m, tokens)]
        over = found and not any(says_together(m.pattern.plain) for m in found) and self.in_total(tokens)
        each = found and not any("each" in m.pattern.plain for m in found) and self.of_each(tokens)
        return [] if over or each else found

    def _leaves_out_a_multiple(self, match: Match) -> bool:
        """`a multiple of the slots other than one`: is what is left out so many times, and no value?"""
        limit = next((f.tokens for f in match.fills if f.slot.kind == "limit"), ())
        left_out = next((f.tokens for f in match.fills if f.slot.kind == "number"), ())
        return self._so_many_times(limit, left_out) and any(
            r.formula_text == "x_c, x != N" for r in match.entry.readings
        )

    def _so_many_times(self, limit: tuple[Token, ...], number: tuple[Token, ...]) -> bool:
        """Is the one a multiple of a declared quantity, and the other a number without a unit?"""
        words = [word_of(t) for t in limit]
        if not number or _OF_MULTIPLES.isdisjoint(words) or any(t.number and t.number.unit for t in number):
            return False
        said = f" {' '.join(words)} "
        return any(f" {name.lower()} " in said for name in self.place.names.declarations)

    def _of_what_they_make(self, match: Match) -> bool:
        """`the difference in length of A and B`, `the overlap of A and B`: one value, and none of each?"""
        nouns = [f for f in match.fills if f.slot.kind == "noun"]
        if len(nouns) < 2 or "... and ..." not in match.pattern.plain:
            return False
        own = {
            w for s in self.subjects for w in f"{s.text} {self.place.names.note_of(s.text)}".lower().split()
        }
        first = {word_of(t) for t in nouns[0].tokens} - own
        return "of" in first and not first.isdisjoint(_MADE_OF_TWO)

    def _says_how_much(self, match: Match) -> bool:
        """`comprising wax as the main component`, `only wax`: does the noun say how much there is of it?"""
        own = {
            *self.subjects[0].text.lower().split(),
            *self.place.names.note_of(self.subjects[0].text).split(),
        }
        said = {word_of(t) for f in match.fills if f.slot.kind == "noun" for t in f.tokens}
        return not (said - own).isdisjoint(listed("ingredients", "how_much"))

    def _is_of_another_moment(self, fill: Fill) -> bool:
        """`the mean maximum temperature`, `the final temperature rise`: says a noun more than what it is?"""
        words = [word_of(t) for t in fill.tokens] if fill.slot.kind == "noun" else []
        own = self.subjects[0].text.lower().partition(" of ")[0].split()
        note = self.place.names.note_of(self.subjects[0].moments["start"][0]).lower()
        more = AVERAGES | _EXTREMES | listed("limits", "changes") | listed("conditional", "drops")
        said = set(words) - set(own) - set(note.split())
        named = (
            own[-1] in words
            or not _ANY_MEASURE.isdisjoint(words)
            or any((k := kind_word(w)) and _measures(k, self.first) for w in words)
        )
        other = said - set(DETERMINERS) - {"of"} if note.startswith("of ") else set[str]()
        return bool(words) and (bool(said & more) or not named or bool(other))

    def _takes_for_an_extent(self, match: Match, tokens: tuple[Token, ...]) -> bool:
        """`a thickness of at least 4 % of the diameter`: is the diameter taken for another extent of it?

        So is the right width, where `a left width of 2 mm` names one of the two.
        """
        if match.entry.subjects[1:2] != _OF_EXTENTS:
            return False
        first = next((i for i, t in enumerate(tokens) if has_number(t)), len(tokens))
        behind = f" {' '.join(map(word_of, tokens[first:]))} "
        said = f" {' '.join(map(word_of, tokens))} "
        ways = [s.text.lower() for s in self.subjects if s.text.lower() not in OWN_MEASURES]
        named = sum(f" {way} " in said for way in ways)
        other = any(f" {s.text.lower()} " in behind for s in self.subjects[1:])
        return other or 0 < named < len(ways)

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
        found = self.found(tokens) or self.share_of_another(tokens) or self.split(tokens)
        found = found or self.in_total(tokens) or self.difference(tokens)
        found = found or self.at_first_worked_out(tokens)
        return bool(found or self.of_each(tokens)) or any(not aside.wrong for aside in self.asides(tokens))

    def asides(self, tokens: tuple[Token, ...]) -> list[Aside]:
        """The ways to read the words without a basis of a share, or a condition of measuring, beside them."""
        if len(self.subjects) != 1 or not isinstance(self.first, Typed):
            return []
        name = self.subjects[0].text
        declared = self.place.names.declared(name)
        known = declared if isinstance(declared, NumberDecl) else None
        own = frozenset(word for word in name.lower().split())
        beside = [*asides(tokens, self.first, known, name, own), *self._together(tokens, name)]
        # Words of a step are read of the step, and not of how long it takes.
        if self.alone and not self.place.names.step(name.lower().removeprefix("duration of ")):
            beside += measures(tokens, self.first, known, name)
        return [a for a in beside if not self._names_a_share(a.words) and self.readable(a.rest)]

    def _names_a_share(self, tokens: tuple[Token, ...]) -> bool:
        """Do words beside a limit name, as the basis, another share of the same whole?"""
        others = (self._of_what(tokens, i) for i in range(len(tokens) - 1))
        return isinstance(self.first, Typed) and any(
            o is not None and o.kind == self.first.kind and bool(o.kind.basis) and not o.kind.dimension
            for o in others
        )

    def _together(self, tokens: tuple[Token, ...], name: str) -> Iterator[Aside]:
        # The combined height of the ribs is that of no rib.
        one_of_several = self.place.names.field_of(name) is not None
        return meant_together(tokens, summands(name)) if self.alone and not one_of_several else iter(())

    @property
    def alone(self) -> bool:
        """Whether what stands left of the colon are values, not those of like parts or of a class."""
        return all(s.parts is None and s.mixture is None for s in self.subjects)

    def in_total(self, tokens: tuple[Token, ...]) -> tuple[Job, tuple[Token, ...]] | None:
        """`oil, gum : together at most 5 %`: the words to be read of the sum, if they say so."""
        if len(self.subjects) < 2 or not self.alone or (together := self.sum_of_all) is None:
            return None
        small = tuple(s.text.lower() for s in self.subjects)
        job = self.of(together)
        aside = (a for a in meant_together(tokens, small) if of_the_whole_limit(a, small))
        agreeing = (a for a in aside if job.readable(a.rest))
        found = next(agreeing, None)
        return None if found is None else (job, found.rest)

    @property
    def sum_of_all(self) -> Subject | None:
        """All that stands left of the colon as one sum; None where it is of several kinds, or of levels."""
        terms = [s.bound for s in self.subjects if isinstance(s.bound, Typed)]
        kind = terms[0].kind if len(terms) == len(self.subjects) else None
        if kind is None or any(t.kind != kind or kind.basis == "level" for t in terms):
            return None
        whole = Typed(Add(tuple(t.term for t in terms)), kind)
        return Subject(whole, " + ".join(s.text for s in self.subjects), self.subjects[0].span)

    def difference(self, tokens: tuple[Token, ...]) -> tuple[Job, tuple[Token, ...]] | None:
        """`a, b : the difference between a and b is 1 to 3 mm`: the words to be read of the difference.

        In either direction; where a phrase has the words it is asked which way round.
        """
        if len(self.subjects) != 2 or not self.alone or self.sort:
            return None
        first, second = self.subjects
        terms = [s.bound for s in self.subjects if isinstance(s.bound, Typed)]
        if len(terms) != 2 or terms[0].kind is None or terms[0].kind != terms[1].kind:
            return None
        count = difference_of([word_of(t) for t in tokens], (first.text.lower(), second.text.lower()))
        if not 0 < count < len(tokens):
            return None
        kind = difference_kind(terms[0].kind, terms[1].kind)
        said = f" {' '.join(map(word_of, tokens[:count]))} "
        if said.find(f" {second.text.lower()} ") < said.find(f" {first.text.lower()} "):
            terms = terms[::-1]
        apart = Typed(Add((terms[0].term, Negate(terms[1].term))), kind)
        if _SIGNED.isdisjoint(map(word_of, tokens[count:])):  # 'is positive' tells which is the greater
            apart = Typed(Magnitude(apart.term), kind)
        job = self.of(Subject(apart, f"difference between {first.text} and {second.text}", first.span))
        anew = begins_anew(tokens[count:], (s.text for s in self.subjects))
        return (job, tokens[count:]) if not anew and job.readable(tokens[count:]) else None

    def at_first_worked_out(self, tokens: tuple[Token, ...]) -> tuple[Job, tuple[Token, ...]] | None:
        """`a, b : the smaller of a and b is at most 3 mm`: the words to be read of the value worked out.

        All that stands left of the colon is named in the words; alone it may be the value itself.
        """
        if self.sort or not self.alone or not all(isinstance(s.bound, Typed) for s in self.subjects):
            return None
        for end in range(min(len(tokens) - 1, MOST_WORDS_OF_A_VALUE), 2, -1):
            made = self._of_several(tokens[:end])
            if made is None or not (self._is_value(made) or self._are_named(made, tokens[end:])):
                continue
            job = self.of(Subject(made.value, made.symbols, self.subjects[0].span))
            anew = begins_anew(tokens[end:], (s.text for s in self.subjects))
            if not anew and job.readable(tokens[end:]):
                for name in made.made_of:
                    self.place.names.speak(name.name)
                return job, tokens[end:]
        return None

    def _is_value(self, made: WorkedOut) -> bool:
        return (
            len(self.subjects) == 1 and isinstance(self.first, Typed) and self.first.term == made.value.term
        )

    def _are_named(self, made: WorkedOut, rest: tuple[Token, ...]) -> bool:
        """Is each thing left of the colon part of the value, or, but for the first, named behind it?"""
        parts, behind = {d.name for d in made.made_of}, f" {' '.join(map(word_of, rest))} "
        left = [s.text for s in self.subjects if s.text not in parts]
        return len(left) < len(self.subjects) and all(f" {text.lower()} " in behind for text in left)

    def of_each(self, tokens: tuple[Token, ...]) -> tuple[Read, ...]:
        """`gap, rim : gap and rim each at least 3 mm`: the words to be read of each thing alone, or none.

        All of the names stand there, or none does; those that do not stand behind: `less than half the rim`.
        """
        if len(self.subjects) < 2 or not self.alone or self.sort:
            return ()
        each = listed("asides", "each")
        said = [word_of(t) for t in tokens]
        names = {word for s in self.subjects for word in s.text.lower().split()}
        beside = each | listed("asides", "beside_each") | names | {"and", ","}
        end = next((i for i, w in enumerate(said) if w not in beside), 0)
        rest, behind = tokens[end:], f" {' '.join(said[end:])} "
        front = next((i for i, w in enumerate(said) if i and w in each), 0)
        if front and not end and beside.issuperset(said[front:]):
            # '5 to 10 wt% of each of oil and gum'
            rest, end, said = tokens[: front - (said[front - 1] in ("of", "in"))], len(said), said[front:]
        named = names.intersection(said[:end])
        jobs = self.each()
        if named and named != names:
            jobs = [job for job in jobs if named.issuperset(job.subjects[0].text.lower().split())]
            others = [s for s in self.subjects if all(s is not job.subjects[0] for job in jobs)]
            if len(jobs) < 2 or not all(f" {s.text.lower()} " in behind for s in others):
                return ()
        agreed = not each.isdisjoint(said[:end]) and bool(rest) and all(job.readable(rest) for job in jobs)
        return tuple((job, rest) for job in jobs) if agreed else ()

    def share_of_another(self, tokens: tuple[Token, ...]) -> tuple[Job, tuple[Token, ...]] | None:
        """`at most 80 % of the width`: the words before 'of', to be read of the quotient of the two.

        None unless the words end in a declared quantity of the kind of what stands left of the colon.
        """
        if len(self.subjects) != 1 or self.sort or not isinstance(self.first, Typed):
            return None
        own = self.place.names.declared(self.subjects[0].text)
        if self.first.kind is not None and self.first.kind.basis and not self.first.kind.dimension:
            tokens = without_basis(tokens, self.first.kind.split[0])
        if found := self._share_of_sum(tokens):
            return found
        shared = any(map(is_bare_share, tokens))
        ends = shared and [word_of(t) for t in tokens[-2:]] in (["or", "more"], ["or", "less"])
        behind = tokens[-2:] if ends else ()  # '20 % of the rim or more'
        tokens = tokens[:-2] if ends else tokens
        for index in range(len(tokens) - 2, 0, -1):
            other, limit = self._of_what(tokens, index), tokens[:index]
            limit = (*(limit[:-1] if limit[-1].text == "," else limit), *behind)
            if other is None or not any(is_bare_share(t) or is_fraction(t) for t in limit):
                continue
            if self._is_part_of_it(other):
                continue  # of a class nothing is a share of one of its members
            if self._names_own_amount(limit) or self._has_amounts(limit) or beside_a_multiple(limit):
                continue
            if not _OFF.isdisjoint(map(word_of, limit)):
                continue  # 'within 10 % of the width' is so far off the width, and no share of it
            if other.whole and isinstance(own, NumberDecl) and not own.whole:
                continue  # a share of a number of things is that share, no quotient with the number
            if (job := self.quotient(other)) and job.readable(limit):
                self.place.names.speak(other.name)
                return job, limit
        return None

    def _is_part_of_it(self, other: NumberDecl) -> bool:
        """Is it a member of the class of ingredients that stands left of the colon?"""
        classes = (of for made in self.place.names.compositions.values() for of in made.classes)
        return any(name == self.subjects[0].text and other.name in members for name, members in classes)

    def _has_amounts(self, tokens: tuple[Token, ...]) -> bool:
        """`at least 5 mm or 80 %`, `at least the rim or 80 %`: do amounts stand beside the shares?"""
        units = (t.number.unit for t in tokens if t.number and not is_bare_share(t))
        ends = range(1, len(tokens) + 1)
        names = (self.declared(tokens[i:end]) for end in ends for i in range(max(end - 3, 0), end))
        own = f" {self.subjects[0].text.lower()} "  # 'the height of the ribs' is no amount of ribs
        others = (name for name in names if name and f" {name.name.lower()} " not in own)
        return any(u and u.kind.dimension for u in units) or any(others)

    def _names_own_amount(self, tokens: tuple[Token, ...]) -> bool:
        """`no oil and at most 6 %`, `only oil and 6 %`, `3 % of oil or 6 %`: is an amount of it told?"""
        own, words = self.subjects[0].text.lower().split(), [word_of(t) for t in tokens]
        places = (i for i in range(len(words)) if words[i : i + len(own)] == own)
        before = (["no"], ["only"])
        return any(words[i - 1 : i] in before or any(map(has_number, tokens[:i])) for i in places)

    def _agree(self, entry: Entry, fills: tuple[Fill, ...]) -> bool:
        """Does what fills the slots go together? Of a preference: is it one, and of what?"""
        limits = tuple(f.tokens for f in fills if f.slot.kind == "limit") if _prefers(entry) else ()
        if entry.title == _BUT_PREFERRED and asked_in_any_case(limits[0], limits[1]):
            return False
        return all(self._is_plain(fill, entry) for fill in fills)

    def _is_plain(self, fill: Fill, entry: Entry) -> bool:
        """Is it a plain number where one is asked for? A preference without a further limit?"""
        if fill.slot.kind == "limit" and _prefers(entry) and goes_on_surely(fill.tokens):
            return False
        if fill.slot.kind == "limit" and fill.slot.name == "d" and _is_followed(fill.tokens):
            return False
        if fill.slot.kind == "difference" and isinstance(self.first, Typed) and self.first.whole:
            # '50 % more holes' are so many of the holes; 'within 10 % of the number of holes' lies off it.
            return not is_bare_share(fill.tokens[0]) or _lies_off(entry)
        if fill.slot.kind not in ("whole", "plain"):
            return True
        if fill.slot.name.isupper() and any(":" in t.text or is_bare_share(t) for t in fill.tokens):
            return False  # '1:5' is a ratio, '5 %' a share; a share, whose name is small, may be written so
        named = self.declared(fill.tokens)
        measured = (t for t in fill.tokens if t.number and t.number.unit and t.start not in self.bare)
        based = (t.number.unit.kind.split[0] for t in fill.tokens if t.number and t.number.unit)
        if fill.slot.kind == "plain" and any(basis in BY_WHAT.values() for basis in based):
            return False  # '2 wt% and at most 3 times the tin'
        return not (named and named.kind.dimension) and not (fill.slot.kind == "whole" and any(measured))

    def _mixes_amounts(self, members: tuple[tuple[Token, ...], ...]) -> bool:
        """`no oil or at most 6 % of gum`, `at least 2 or 3`: may one be of another thing, or share words?"""
        if len(members) < 2 or not isinstance(self.first, Typed):
            return False
        if any(prefers(member) for member in members):
            return True  # what is preferred is no choice besides the others
        if any(self._shares_the_words(behind_its_name(members[0]), later) for later in members[1:]):
            return True
        if excludes_a_value(members[-1]):
            return True  # '4, 6 or 8 but not 5': what is excluded is so of all of them
        own, others = (any(map(said, members)) for said in (self._names_own_amount, self.share_of_another))
        return own and others

    def quotient(self, other: NumberDecl) -> Job | None:
        """The words as read of what stands left of the colon in shares of another quantity."""
        return self.quotient_by(self.place.names.value(other), other.name)

    def quotient_by(self, other: Typed, called: str) -> Job | None:
        """The words as read of what stands left of the colon in shares of another value, called so.

        None where it is another kind of quantity, the same quantity, or a level, which has no shares.
        """
        if not isinstance(self.first, Typed) or self.first.kind is None or self.first.kind.basis == "level":
            return None
        if other.kind != self.first.kind or other.term == self.first.term:
            return None
        own = self.subjects[0]
        share = Typed(Divide(self.first.term, other.term, called), PLAIN_KIND)
        return self.of(Subject(share, f"{own.text} / {called}", own.span))

    def _share_of_sum(self, tokens: tuple[Token, ...]) -> tuple[Job, tuple[Token, ...]] | None:
        """`20 to 50 % of the sum of the oil and the gum`, of what stands left of the colon in that sum."""
        for at in (i for i, t in enumerate(tokens) if i and word_of(t) == "of"):
            summed = self._of_several(tokens[at + 1 :])
            if summed is None or is_open_sum(tokens[at + 1 :]) or not any(map(is_bare_share, tokens[:at])):
                continue
            if (job := self.quotient_by(summed.value, bracketed(summed))) and job.readable(tokens[:at]):
                for name in summed.made_of:
                    self.place.names.speak(name.name)
                return job, tokens[:at]
        return None

    def _of_what(self, tokens: tuple[Token, ...], index: int) -> NumberDecl | None:
        """The quantity named behind 'of', 'based on' or 'based on the weight of' at this place, if one is."""
        words = [word_of(t) for t in tokens]
        width = run_at(words, index, "asides", "before_wholes")
        if not width:
            return None
        beside = listed("asides", "every") | {"of"}
        if isinstance(self.first, Typed) and self.first.kind and self.first.kind.split[0] == "by mass":
            beside |= listed("asides", "by_mass")
        for start in range(index + width, len(tokens)):
            if found := self.declared(tokens[start:]):
                return found
            if words[start] not in beside:
                return None
        return None

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
        if word_of(right[0]) == "not" and len(right) == 2 and self._so_many_times(whole, right[1:]):
            return False  # 'one to three times the base, but not twice'
        if self._declared(right) is not None or (not denied and self._shares_the_words(left, right)):
            return False
        apart = first._names_own_amount(left) and first.share_of_another(right)
        return not (apart or leaves_open_of_what(left, right))

    def _shares_the_words(self, left: tuple[Token, ...], right: tuple[Token, ...]) -> bool:
        return shares_the_words(left, right, self._declared(right) is not None)

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
            if bare and self._declared(slots[0].tokens) is not None and not slots[0].tokens[0].number:
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
            self.is_number, item, self.is_limit, self.applies, frozenset(own), len(self.subjects),
            self.sort in ("parts", "classes", "moments"),
            isinstance(self.first, Typed) and self.first.whole, self.is_step, self.is_moment,
            agree=self._agree,
        )  # fmt: skip

    @property
    def of_parts(self) -> OfParts | None:
        return self.subjects[0].parts if len(self.subjects) == 1 else None

    @cached_property
    def of_first(self) -> Job:
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

    def _is_of_places(self, match: Match) -> bool:
        """`at least 8 mm apart`, of heights, or `more than 8 hours apart` as a limit of each moment."""
        name = self.subjects[0].text
        note = self.place.names.note_of(name)
        kind = self.first.kind if isinstance(self.first, Typed) else None
        timed = kind is not None and kind.dimension == TIME
        if match.entry.id == SO_FAR_APART and not timed:
            return not has_a_place(name, note)
        limits = (f.tokens for f in match.fills if f.slot.kind == "limit")
        return any(tell_how_far_apart(tokens, name, note, timed) for tokens in limits)

    def is_step(self, tokens: tuple[Token, ...]) -> bool:
        return self.place.names.step(" ".join(t.text for t in tokens)) is not None

    def is_moment(self, tokens: tuple[Token, ...]) -> bool:
        return self.place.names.time_of(" ".join(t.text for t in tokens)) is not None

    def applies(self, entry: Entry) -> bool:
        if self.sort in ("steps", "sequences") and not entry.only_for:
            return _joins(entry)
        if self.sort or _SORTS & set(entry.only_for):
            return self.sort in entry.only_for
        extents = len(self.subjects) > 1 and entry.subjects[1:2] == _OF_EXTENTS
        if extents and not self._are_extents and entry.group != "L":
            return False
        if not entry.only_for:
            return not (isinstance(self.first, SetDecl) and _of_numbers(entry))
        if "deviations" in entry.only_for:
            return self._is_deviation
        return any(is_kind(self.first, kind) for kind in entry.only_for)

    @cached_property
    def _are_extents(self) -> bool:
        """May the things left of the colon be measured on one body: no left flange and right flange?"""
        names = [s.text.lower().split() for s in self.subjects]
        return len({name[-1] for name in names}) > 1 or any(len(name) < 2 for name in names)

    @cached_property
    def _is_deviation(self) -> bool:
        """Is what stands left of the colon a number declared to lie on either side of zero, or called so?"""
        declared = self.place.names.declared(self.subjects[0].text)
        if not isinstance(declared, NumberDecl) or declared.kind.point:
            return False
        noted = [w.strip(",;") for w in declared.note.lower().split() if w not in DETERMINERS]
        called = (*declared.name.lower().split(), *noted[:1])
        below = declared.stated_bounds and declared.lower is not None and declared.lower.value < 0
        either = "either" in noted and not {"sign", "direction", "side"}.isdisjoint(noted)
        said = _within_plus_or_minus([word_of(t) for t in self.words.tokens])
        return below or either or said or not listed("measures", "deviations").isdisjoint(called)

    def is_number(self, tokens: tuple[Token, ...]) -> bool:
        if len(tokens) == 1 and (tokens[0].number or word_of(tokens[0]) in NUMBER_WORDS):
            return True
        return self.declared(tokens) is not None or self.worked_out(tokens) is not None

    def worked_out(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """The value that words work out: `the sum of the rim and the gap`, `the rim less 2 mm`."""
        return worked_out(tokens, self._declared, self.place.names, self.multiples)

    def _of_several(self, tokens: tuple[Token, ...]) -> WorkedOut | None:
        """The value that words work out of several values, and of no multiple of one."""
        return worked_out(tokens, self._declared, self.place.names)

    def declared(self, tokens: tuple[Token, ...]) -> NumberDecl | None:
        """The quantity that the words name as a value; what alone is limited is none beside itself."""
        found = self._declared(tokens)
        alone = len(self.subjects) == 1 and self.subjects[0].parts is None and not self.subjects[0].moments
        if found is not None and self.of_parts is not None:
            own = self.of_parts.count.term == self.place.names.value(found).term
            return None if own else found
        return None if found is not None and alone and found.name == self.subjects[0].text else found

    def _declared(self, tokens: tuple[Token, ...]) -> NumberDecl | None:
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

    def is_item(self, tokens: tuple[Token, ...]) -> bool:
        if isinstance(self.first, Assembly):
            return self.counted(self.first, tokens) is not None
        if isinstance(self.first, LISTS):
            return member_of(self.first, self.text(tokens)) is not None
        if len(tokens) >= len(self.words.tokens):
            return False
        alone = len(self.found(tokens)) == 1 and not self.only_names(tokens)
        alone = alone or self.split(tokens) is not None or self.share_of_another(tokens) is not None
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

    def each(self) -> list[Job]:
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
                Job(self.place, (subject,), self.words, self.bare, loose=True) for subject in self.subjects
            )
        return self.apart

    def of(self, subject: Subject) -> Job:
        """The same words for the one thing left of the colon taken otherwise."""
        return Job(self.place, (subject,), self.words, self.bare)

    def beside_more(self, others: tuple[Token, ...]) -> Job:
        """The same words, read beside others of the line that may name more of the same list."""
        listing = self.first
        if not isinstance(listing, SetDecl | Composition | Assembly) or word_of(others[0]) in _SHUTTING_OUT:
            return self
        said = f" {' '.join(map(word_of, others))} "
        called = listing.called if isinstance(listing, Assembly) else ()
        named = {m for one, m in called if f" {one} " in said}
        also = tuple(m for m in listing.members if m in named or f" {m.lower()} " in said)
        return Job(self.place, self.subjects, self.words, self.bare, also=also) if also else self

    def beside_steps(self) -> list[Job]:
        """The same words for the thing beside a step; where there is none, for how long the step takes."""
        if len(self.subjects) > 1:
            return [Job(self.place, (self.subjects[1],), self.words, self.bare)]
        step = self.first
        assert isinstance(step, Step)
        lasts = self.place.names.terms.get(step.duration.lower())
        return [self.on(lasts, step.duration)] if lasts else []

    def on(self, bound: Bound, text: str = "") -> Job:
        """The same words for one value of several parts, at one moment, or for how long a step takes."""
        subject = Subject(bound, text or self.subjects[0].text, self.subjects[0].span)
        return Job(self.place, (subject,), self.words, self.bare)

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


def _within_plus_or_minus(said: list[str]) -> bool:
    return any(w in ("within", "outside") and then in ("±", "+/-") for w, then in pairwise(said))


_SAID_ANEW = ("is", "are", "being", "has", "have", "having", "lies", "lie", "exceeds", "exceed")
_OF_MULTIPLES = frozenset("multiple multiples times twice thrice half double triple".split())


def _counts_kinds(tokens: tuple[Token, ...]) -> bool:
    """`at least one of a spring`, which goes on with 'and a lid': how many of the kinds there are."""
    return any(
        word_of(then) == "of" and (has_number(t) or word_of(t) in _HOW_MANY) for t, then in pairwise(tokens)
    )


_HOW_MANY = frozenset("more fewer less most all none any each either both neither some".split())


def _parts_at_most(match: Match, tokens: tuple[Token, ...]) -> bool:
    """`at most a trace`: is `most` alone taken for a word of the phrase?"""
    said = [word_of(t) for t in tokens]
    return match.wording.startswith("most") and ("at", "most") in pairwise(said)


def _converts_another_kind(match: Match) -> bool:
    """`at most 5 mm (20 °C)`: what the brackets hold is no other way to write what stands before them."""
    if "( ... )" not in match.pattern.plain:
        return False
    units = [t.number.unit for f in match.fills for t in f.tokens if t.number and t.number.unit]
    return len({unit.kind.dimension for unit in units}) > 1


def _asks_for_a_basis_that_is_said(match: Match) -> bool:
    """`a pressure of at least 40 bar absolute`: what is told by its unit is no gauge pressure to anyone."""
    units = [t.number.unit for f in match.fills for t in f.tokens if t.number and t.number.unit]
    return "pressure of" in match.pattern.plain and any(u.kind.basis in _OF_PRESSURE for u in units)


_OF_PRESSURE = ("absolute", "gauge")


def _begins_anew(match: Match) -> bool:
    """`at least 2 wt% of oil and a gum`: is a later noun one by itself, of which no amount is said?"""
    article = [word_of(f.tokens[0]) in ("a", "an") for f in match.fills if f.slot.kind == "noun"]
    return bool(article) and not article[0] and any(article)


def _is_followed(tokens: tuple[Token, ...]) -> bool:
    """`at least 4 mm, and at most 8 mm`, or with `but`, behind `preferably`: the last is not preferred."""
    words = [word_of(t) for t in tokens]
    if any(w == "but" and then in ("at", "not", "no", "less", "more") for w, then in pairwise(words)):
        return not excludes_a_value(tokens)
    return any(w == "," and then in ("and", "but", "or") for w, then in pairwise(words))


_BUT_PREFERRED = "preferably (limit c) but (limit d)"


def _prefers(entry: Entry) -> bool:
    """Is what stands last in the phrase preferred?"""
    return any(name == "preferences" for r in entry.readings for name, _ in r.axes)


def _measures(kind: KindWord, bound: Bound) -> bool:
    return isinstance(bound, Typed) and bound.kind is not None and kind.accepts(bound.kind)


_ANY_MEASURE = frozenset("level value content amount".split())
_EXTREMES = frozenset(
    "initial starting final highest peak lowest maximum minimum max min greatest least gradient change rate"
    " swing span".split()
)
_MADE_OF_TWO = frozenset(
    "average mean median difference deviation variation spacing distance gap overlap loss gain change ratio"
    " lower higher lesser greater smaller larger excess half third quarter product quotient".split()
)
AVERAGES = frozenset(("mean", "average", "median"))
_CHOICE = regex(r"\b(?:one|any|more|either|some) of\b|\bfrom\b")
_SHUTTING_OUT = ("not", "no", "free", "without", "neither", "excluding", "except")
DETERMINERS = ("the", "said", "a", "an", "its", "their")
_SIGNED = frozenset(("positive", "negative"))
_SORTS = frozenset(("parts", "classes", "sequences", "steps", "moments", "switches", "conditions"))
"""What phrases are made for, and read no words of anything else."""


def _of_numbers(entry: Entry) -> bool:
    """Does each of its wordings compare with a number? Then it says nothing of a list."""
    return all(any(s.kind in ("number", "plain") for s in p.slots) for p in entry.patterns)


def _joins(entry: Entry) -> bool:
    """Is the phrase for whole conditions that a word joins, whatever they are about?"""
    kinds = {slot.kind for pattern in entry.patterns for slot in pattern.slots}
    return kinds == {"list"} and not entry.subjects


_OFF = frozenset(("within", "±"))
"""What says of a share of something how far off that it lies."""


def _lies_off(entry: Entry) -> bool:
    """Is it a phrase on what lies within so much of a value, which has that as a share too?"""
    off = entry.title.startswith("within") or "±" in entry.title
    return off and any(RELATIVE in r.axes for r in entry.readings)


def _leaves_whole_of_share(match: Match, tokens: tuple[Token, ...]) -> bool:
    """`the difference between the rim and the gap is at most 10 % of the rim`, with `of the rim` unheard.

    A share without it may be one of either.
    """
    nouns = [fill.tokens for fill in match.fills if fill.slot.kind == "noun"]
    last = tokens[-1]
    at = next((i for i, t in enumerate(tokens[:-2]) if is_bare_share(t) and tokens[i + 1].text == "of"), None)
    heard = any(fill.tokens[-1].end >= last.end for fill in match.fills)
    return at is not None and len(nouns) == 2 and not heard


def _ties(match: Match, own: frozenset[str]) -> bool:
    """`the mean length of the gap and the rim`, `both have a length of`: is what ties two things unheard?

    A word that all of the things have, `the mean gap and the mean rim`, ties none.
    """
    nouns = [{word_of(t) for t in f.tokens} for f in match.fills if f.slot.kind == "noun"]
    # A sum that stands for one thing by itself ties no others.
    if len(nouns) < 2 or any(words - set(DETERMINERS) == {"sum"} for words in nouns):
        return False
    common = set[str]().union(*nouns) & (listed("names", "tying") - own)
    return any(any(word not in noun for noun in nouns) for word in common)


_OF_EXTENTS = ("smallest",)
"""Of the phrases of a diameter, which two things measure in two directions, the second one."""
SO_FAR_APART = "J1"
"""What says how far it is from one of like parts to the next."""
