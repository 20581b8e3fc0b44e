"""Words of a claim or document to formulas: the words made ready, the phrase found, its readings made."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from fractions import Fraction
from itertools import chain, pairwise
from typing import TypeAlias

from scopecheck.core.construction import names_in
from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, NumberDecl, SetDecl, Step
from scopecheck.core.formula import Add, All, Any, Compare, Const, Divide, ExactlyOne, Formula, Implies, Not
from scopecheck.exact.bare_shares import NO_BASIS, PERCENT, read_as_declared
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import field, record, replace
from scopecheck.foundations.word_lists import run_at, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.beside_another import with_parts_of_the_other
from scopecheck.matching.chart import Match, joined_parts, split_list, word_of
from scopecheck.matching.everyday import (
    PARTS_PER,
    as_alternatives,
    is_ordinal,
    of_whole_numbers,
    with_any,
    with_both,
    with_commas,
    with_degrees,
    with_fractions,
    with_least_or_most,
    with_letter_c,
    with_one_second,
    with_one_unit,
    with_parts_per,
    with_ratio_named,
    with_ratios,
    with_things_per,
    with_tolerances,
    with_unit_behind,
    without_class,
    without_dots,
    without_name_before_inclusive,
    without_name_behind_ordinals,
    without_remaining,
    without_signs,
    without_times,
    without_units_counted,
)
from scopecheck.matching.of_ratios import in_proportion, with_plain_limits, without_ratio
from scopecheck.matching.other_things import speak_of_others, told_of_step
from scopecheck.matching.passed_over import (
    SO_MANY_PER,
    names_another,
    told,
    told_before_names,
    without_object,
    without_purpose,
)
from scopecheck.matching.phrase_advice import NOT_READ
from scopecheck.matching.phrase_finding import Job, Memory, Place, Read
from scopecheck.matching.said_once import says_its_basis, with_basis, with_impurities
from scopecheck.matching.signs import with_multiples, with_names
from scopecheck.matching.spelled import spelled_amounts, with_hundreds
from scopecheck.matching.states import switched
from scopecheck.matching.subjects import Subject, at_its_end, is_bare_share, with_units, without_unit
from scopecheck.matching.them import with_them, without_own_interval
from scopecheck.matching.together import in_pairs, says_together, sum_of, with_both_named
from scopecheck.matching.whichever import with_the_greater
from scopecheck.occurrences.groups import CLAIMS, Groups
from scopecheck.occurrences.readings import is_unitless
from scopecheck.resolve.left_unsaid import none_of_some, unheard
from scopecheck.resolve.never_heard import never_heard
from scopecheck.resolve.not_so import IN_SYMBOLS, hardly_so, not_so
from scopecheck.resolve.ready import MOST_WORDS, ready, tokens_of
from scopecheck.rewording.beside_sums import share_of_sum
from scopecheck.rewording.by_name import parted_by_name, stands_beside
from scopecheck.rewording.choice_of_counts import (
    powers_named,
    with_choice_of_counts,
    with_letter_counted,
)
from scopecheck.rewording.conditional import conditional, hangs_on_a_step
from scopecheck.rewording.conditional_advice import of_a_step_done, why_not
from scopecheck.rewording.in_order import (
    Pieces,
    at_and_for,
    at_first_and_at_last,
    how_often,
    in_order,
    says_how_much,
    steps_apart,
)
from scopecheck.rewording.ingredients import (
    by_ingredient,
    closed_list,
    closes,
    closing,
    named_in,
    opening,
    parted_at_balance,
    without_verb,
)
from scopecheck.rewording.looser import Looser, looser
from scopecheck.rewording.moments import (
    denied_at_times,
)
from scopecheck.rewording.of_each import beside_an_extreme, of_each_part
from scopecheck.rewording.one_phrase import can_be_read, denied, is_read, whole
from scopecheck.rewording.other_cases import of_both_limits, other_cases, which_in_which_case
from scopecheck.rewording.plainer import plainer
from scopecheck.rewording.plainer_steps import (
    as_durations,
    ending_at_once,
    with_steps_called,
)
from scopecheck.rewording.scaled import with_scaled
from scopecheck.rewording.shared_power import either_power, shared_power
from scopecheck.rewording.sides import Sides
from scopecheck.rewording.two_limits import limits_apart, of_every_one, which_is_of_what
from scopecheck.rewording.usual import (
    with_calendar_units,
    with_divisible,
    with_ends_upward,
    with_finer,
    with_gauge,
    with_hours,
    with_members,
    with_parity,
    with_pressure_told,
    with_runs,
    with_shares,
    with_shares_of_a_value,
    with_so_many,
    with_that_of,
    with_time_within,
    with_turns,
    with_unit_behind_or,
    with_usual_words,
    with_years_noted,
    without_combinations,
    without_every,
    words_at,
)
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Bound, Names, Typed, number_of

_SAID_OTHERWISE = (
    without_dots, with_so_many, with_unit_behind_or, with_calendar_units, with_unit_behind,
    with_the_greater, with_hours, with_usual_words,
    without_combinations, with_hundreds,
    with_commas, with_both, with_divisible, as_alternatives, with_tolerances, with_plain_limits, with_ratios,
    with_ends_upward,
)  # fmt: skip
"""What is said in other words, whatever it is said of: each hands on to the next."""
_SELECTED = ("selected", "chosen")
_BEFORE_SELECTED = frozenset("of a an the which is are being ,".split())
_AMOUNTS = ("amount", "amounts", "content", "quantity")
_OF_ONE = word_lists()["fractions"].keys() | {"half", "twice", "times"}
_PREFERENCES = frozenset("preferably ideally advantageously desirably suitably".split())
UNTIL = ("until", "till")
"""What a step goes on until is so when it ends."""


def _has_parts_per(words: Words) -> bool:
    return any(before.number and word_of(t) in PARTS_PER for before, t in pairwise(words.tokens))


Things: TypeAlias = tuple[Subject, ...]


@record
class Reader:
    """Reads words at one place of one document."""

    names: Names
    phrases: Phrasebook
    groups: Groups
    document: str
    where: str
    method: bool = True
    """Whether the words stand in a claim to a method or a use, or in no claim."""
    tried: bool = False
    """Whether they are only tried."""
    memory: Memory = field(default_factory=Memory, compare=False)

    @property
    def place(self) -> Place:
        """Where the words stand."""
        return Place(
            self.names,
            self.phrases,
            self.groups,
            self.document,
            self.where,
            self.method,
            self.tried,
            self.memory,
        )

    def condition(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """The words as a formula. Raises Trouble if no phrase, or more than one, reads them.

        A bare per cent that nothing else reads is one on the basis that is declared, with a warning.
        """
        based = self._on_the_declared_basis(words, subjects)
        if based is None or self._needs_no_basis(words, based, subjects):
            return self._condition(words, subjects)
        found = self._condition(based, subjects)
        share = next(s for s in subjects if isinstance(s.bound, Typed) and s.bound.kind)
        if not says_its_basis(words.text, self.names.note_of(share.text), share.bound):
            self._tell_the_basis(read_as_declared(words.span, share.bound), share.text)
        return found

    def _tell_the_basis(self, told: Diagnostic, name: str) -> None:
        """Tells it once for all shares, with the place of each of another name: its whole may be another one.

        Those of a composition have one.
        """
        made = self.names.compositions.values()
        name = next((m.name for m in made if name in m.members or name in dict(m.classes)), name)
        at = next((i for i, t in enumerate(self.groups.passed) if t.message == told.message), None)
        if at is None:
            self.groups.passed.append(told)
        elif name not in self.groups.bare:
            before = self.groups.passed[at]
            also = (*before.also, (told.span, f"{name}, too"))
            self.groups.passed[at] = replace(before, also=also)
        self.groups.bare.add(name)

    def _needs_no_basis(self, words: Words, based: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether the words are read as they stand. Raises Trouble where they are read in neither way.

        A bare ppm is one on the declared basis wherever that is read.
        """
        if _has_parts_per(words) and self._trying()._holds(based, subjects):
            return False
        try:
            self._trying()._condition(words, subjects)
        except Trouble as wrong:
            if wrong.diagnostic.cause != NO_BASIS and not self._trying()._holds(based, subjects):
                raise
            return False
        return True

    def _holds(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether `condition` has a formula for the words, by whichever way."""
        with suppress(Trouble):
            return bool(self._condition(words, subjects))
        return False

    def _on_the_declared_basis(self, words: Words, subjects: tuple[Subject, ...]) -> Words | None:
        """The words with bare percentages as shares on the basis of what they limit; None without any."""
        if self.document != CLAIMS:
            return None
        bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
        basis = {b.kind.split[0] for b in bounds if b.kind and not b.kind.dimension}
        said_otherwise = self.names.basis and basis != {self.names.basis}
        in_parts = all(b.unit and b.unit.symbol.startswith(PARTS_PER) for b in bounds)
        bare = (_has_parts_per(words) and not in_parts) or any(map(is_bare_share, words.tokens))
        if len(basis) != 1 or not basis <= PERCENT.keys() or said_otherwise or not bare:
            return None
        tokens = with_parts_per(with_basis(words.tokens, bounds[0], min(basis)), bounds[0], min(basis))
        return Words(words.text, tokens, words.span)

    def _condition(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        tokens = ready(words, subjects, self.names)
        if changed := self._piece_by_piece(at_first_and_at_last(tokens, subjects), words):
            return All(changed)
        if apart := self._of_their_own(tokens, words, subjects):
            return apart
        if of_sum := self._beside_a_sum(tokens, words, subjects):
            return of_sum
        if elsewhere := self._in_other_cases(tokens, words, subjects):
            return elsewhere
        if subjects and (wrong := _never_so(tokens, words, subjects, self.names)):
            raise wrong
        if said := denied_at_times(tokens, subjects):
            return self._not_always(said, words, subjects)
        if len(subjects) > 2 and (pairs := _of_each_two(tokens, subjects)):
            self.names.of_several = True
            try:
                return All(
                    tuple(
                        self._condition(Words(words.text, said, words.span), (subjects[i], subjects[j]))
                        for said, i, j in pairs
                    )
                )
            finally:
                self.names.of_several = False
        job, made = self._job(tokens, words, subjects)
        if by_name := self._each_by_its_name(job, made, words):
            return by_name
        if subjects:
            another = names_another(job, tokens)
            beside = (another,) if another else tuple(speak_of_others(job, tokens))
            beside += (hardly,) if (hardly := hardly_so(tokens, words, subjects)) else ()
            beside += tuple(told_before_names(job, tokens))
            beside += (under,) if (under := of_both_limits(job, tokens)) else ()
            beside += (shared,) if (shared := shared_power(words)) else ()
            beside += (some,) if (some := none_of_some(tokens, words, subjects, self.names)) else ()
            self.groups.passed += [t for t in beside if t not in self.groups.passed]
        of_amounts = any(t.number and t.number.unit for t in tokens)
        tried = subjects and (of_amounts or not is_read(job, made))
        if tried and not is_read(job, made) and (balanced := self._beside_a_balance(tokens, words, subjects)):
            return balanced
        if tried and (of_ingredients := self._of_ingredients(tokens, words, subjects)):
            return of_ingredients
        if len(subjects) > 1 and (free := self._free_of_each(tokens, words, subjects)):
            return free
        if len(subjects) == 2 and (both := self._either_or_both(tokens, words, subjects)):
            return both
        several = len(subjects) > 1 and not job.sort and not job.found(made)
        if several and (own := self._one_by_one(tokens, words, subjects, True)):
            return own
        plainly = is_read(job, made)
        if plainly and len(subjects) > 1:
            plainly = self._trying()._reads_plainly(words, subjects)
        if plainly:
            return whole(job, made)
        if apart := self._steps_apart(tokens, words, subjects):
            return apart
        if found := self._of_each_part(tokens, words, subjects) or self._first_alone(
            job, tokens, words, subjects
        ):
            return found
        return self._as_more_than_a_phrase(job, made, tokens, words, subjects)

    def _not_always(self, denied: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """`not always above 40 degC`: of a step not so throughout, of like parts not all so."""
        if subjects[0].parts is None:
            return Not(self._condition(Words(words.text, denied, words.span), subjects))
        not_all = (*words_at(denied[0], "not all", understood=True), *denied)
        return self._condition(Words(words.text, not_all, words.span), subjects)

    def _of_their_own(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """Two limits that are of different things, each read as a line of its own; None for other words.

        Raises Trouble where one of them is not read, for neither may be read of what the other is of.
        """
        ways = list(limits_apart(tokens, subjects, self.names))
        if not ways:
            return None
        job = Job(self.place, subjects, words, frozenset())
        for way in ways if not any(way.either for way in ways) else ():
            if not all(said for said, _ in way.halves):
                continue
            each = [(Words(job.text(said), said, job.span(said)), of) for said, of in way.halves]
            if all(self._trying()._holds(said, of) for said, of in each):
                if way.of_every_one:
                    told = of_every_one(job.span(way.of_every_one), job.text(way.of_every_one))
                    self.groups.passed += [told] if told not in self.groups.passed else []
                return All(tuple(self.condition(said, of) for said, of in each))
        raise which_is_of_what(job.span(tokens))

    def _in_other_cases(self, tokens: tuple[Token, ...], words: Words, subjects: Things) -> Formula | None:
        """What is so where a condition holds, and what of another thing elsewhere; None for other words.

        Raises Trouble where one of them is not read, for neither may be read past the other's case.
        """
        cases = other_cases(tokens, subjects)
        if cases is None:
            return None
        job = Job(self.place, subjects, words, frozenset())
        each = [(Words(words.text, said, job.span(said)), of) for said, of in cases.halves]
        if not each or not all(self._trying()._holds(said, of) for said, of in each):
            raise which_in_which_case(words.span)
        return All(tuple(self.condition(said, of) for said, of in each))

    def _as_more_than_a_phrase(
        self,
        job: Job,
        made: tuple[Token, ...],
        tokens: tuple[Token, ...],
        words: Words,
        subjects: tuple[Subject, ...],
    ) -> Formula:
        """What is said otherwise, more plainly or more loosely than a phrase has it.

        What is told of words that nothing reads takes long to find out: at first they are tried without.
        """
        quickly = not (self.tried or is_read(job, made))
        wrong: Trouble | None = None
        try:
            if not quickly:
                return self._otherwise_said(job, tokens, words, subjects) or whole(job, made)
            first = replace(self, tried=True)
            quick = replace(job, place=first.place)
            if found := first._otherwise_said(quick, tokens, words, subjects, quickly):
                return found
        except Trouble as unread:
            wrong = None if quickly else unread
        try:
            found = self._said_plainly(tokens, words, subjects)
        except Trouble as other:
            # What is wrong with words that are read but for one thing says more than that they are not read.
            found, wrong = None, other
        found = (
            found
            or self._with_multiples_named(tokens, words, subjects)
            or self._state_or_limit(tokens, words, subjects)
            or self._without_named(tokens, words, subjects)
            or self._ratio_and_preference(tokens, words, subjects)
            or self._one_and_one_beside(tokens, words, subjects)
            or self._of_a_stated_value(tokens, words, subjects)
            or self._of_one_step(Words(words.text, tokens, words.span), subjects)
            or self._of_parts_beside(tokens, words, subjects)
            or self._beside_an_extreme(tokens, words, subjects)
            or self._class_and_its_amount(tokens, words, subjects)
            or self._of_named_ingredients(tokens, words, subjects)
            or self._these_but_not_those(tokens, words, subjects)
            or self._with_steps_called(job, tokens, words, subjects)
            or self._read_loosely(tokens, words, subjects)
            or self._in_the_order_named(tokens, words, subjects)
            or self._under_a_condition_loosely(job, tokens)
            or self._for_what_it_is_made(job, tokens, words, subjects)
        )
        if found is None and wrong is not None:
            raise wrong
        return found or self._otherwise_said(job, tokens, words, subjects) or whole(job, made)

    def _beside_a_sum(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """A limit of a share of a sum, or of a ratio to one, read of that; None for other words."""
        beside = share_of_sum(tokens, subjects, self.names)
        if beside is None:
            return None
        limit, things, measured = beside
        if measured:
            raise trouble(
                words.span, f"'{measured}' is another measure than that of {subjects[0].text}",
                "A share of a sum is one by what its parts are measured by.", IN_SYMBOLS,
            )  # fmt: skip
        return self._condition(Words(words.text, limit, words.span), things)

    def _said_plainly(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """The words as said more plainly, if that is read; else None.

        Raises Trouble where they are read so but for something that is wrong with them.
        """
        notes = tuple(self.names.note_of(s.text) for s in subjects)
        said = plainer(tokens, subjects, notes)
        if not said or said == tokens:
            return None
        other = Words(words.text, said, words.span)
        try:
            self._trying().condition(other, subjects)
        except Trouble as wrong:
            if wrong.diagnostic.message.startswith(NOT_READ):
                return None
            raise
        return self.condition(other, subjects)

    def _state_or_limit(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`valve, pressure : the valve is open or the pressure is at most 5 bar`, the limited one first."""
        stated = len(subjects) == 2 and isinstance(subjects[0].bound, ChoiceDecl | SetDecl)
        limited = stated and isinstance(subjects[1].bound, Typed) and "or" in map(word_of, tokens)
        return self._if_read(tokens, words, subjects[::-1]) if limited else None

    def _with_multiples_named(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`width, rim, gap : the sum of the rim and twice the gap`, with twice the gap as one thing."""
        said, things = with_scaled(tokens, subjects)
        if said is not tokens:
            other = Words(words.text, said, words.span)
            with suppress(Trouble):
                self._trying().condition(other, things)
                return self.condition(other, things)
        return None

    def _without_named(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`rim, height : the height exceeds the rim`: of the height alone, as the words name the other one.

        None where the words could be read of either thing alone, or name the other one first, or where the
        other one has no part in what is read: 'a plurality of holes and ribs'.
        """
        said, words = f" {' '.join(map(word_of, tokens))} ", Words(words.text, tokens, words.span)
        places = [said.find(f" {s.text.lower()} ") for s in subjects]
        ways = [
            one
            for one, at, other in zip(subjects, places, places[::-1], strict=True)
            if len(subjects) == 2 and other > at >= 0 and self._trying().reads(words, (one,))
        ]
        if len(ways) != 1:
            return None
        bounds = [s.bound for s in subjects if isinstance(s.bound, Typed)]
        taking_part = names_in(self._trying().condition(words, tuple(ways)))
        both = len(bounds) == 2 and all(names_in(b.term) <= taking_part for b in bounds)
        return self.condition(words, tuple(ways)) if both else None

    def _steps_apart(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """Words that say several things of steps, each read as a line of its own; None where one is not.

        What compares how long steps last is read of their durations.
        """
        if not any(isinstance(s.bound, Step) for s in subjects):
            return None
        for one_is_enough, pieces in steps_apart(tokens, subjects):
            if found := self._piece_by_piece(pieces, words):
                return Any(found) if one_is_enough else All(found)
        if said := as_durations(tokens, subjects):
            timed = tuple(self._duration_of(s) for s in subjects)
            other = Words(words.text, said, words.span)
            if self._trying()._holds(other, timed):
                return self.condition(other, timed)
        return None

    def _piece_by_piece(self, pieces: Pieces, words: Words) -> tuple[Formula, ...]:
        """What each piece says of its own things, as a line of its own; () where one is not read."""
        alone = ((said, of[0].text.lower().split()) for said, of in pieces if len(of) == 1)
        if any(stands_beside(said, {*name}) for said, name in alone):
            return ()  # 'at most 10 min longer than the soaking' is not said of the soaking
        each = [(Words(words.text, said, words.span), of) for said, of in pieces]
        if not all(said.tokens and self._trying()._holds(said, of) for said, of in each):
            return ()
        return tuple(self.condition(said, of) for said, of in each)

    def _duration_of(self, subject: Subject) -> Subject:
        """How long a step takes; any other thing as it is."""
        step = subject.bound
        if not isinstance(step, Step) or not step.duration:
            return subject
        return replace(subject, bound=self.names.terms[step.duration.lower()], text=step.duration)

    def _of_a_stated_value(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`gap, width : at most 10 % of a width of 50 mm`: a share of the other, and what the other is."""
        said = [word_of(t) for t in tokens]
        name = subjects[1].text.lower().split() if len(subjects) == 2 else []
        for at in range(2, len(said) - len(name) - 1) if name else ():
            end = at + len(name)
            if said[at - 2 : at] not in (["of", "a"], ["of", "an"]) or said[at:end] != name:
                continue
            stated = said[end] == "of" and any(t.number for t in tokens[end:])
            of_it = any(is_bare_share(t) for t in tokens[:at]) or not _OF_ONE.isdisjoint(said[:at])
            pieces: Pieces = [(tokens[:end], subjects), (tokens[at:], subjects[1:])]
            if stated and of_it and (found := self._piece_by_piece(pieces, words)):
                return All(found)
        return None

    def _one_and_one_beside(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`D1, D2 : D1 is 5 to 8 mm and D2 is larger than D1`: of the one alone, and of both beside it."""
        if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
            return None
        said = [word_of(t) for t in tokens]
        for at in (i for i in range(2, len(said) - 2) if said[i] == "and"):
            sides = tokens[: at - (said[at - 1] == ",")], tokens[at + 1 :]
            alone, both = (
                [s for s in subjects if f" {s.text.lower()} " in f" {' '.join(map(word_of, side))} "]
                for side in sides
            )
            if len(alone) != 1 or len(both) != 2 or not {"than", "times", "twice", "half"} & set(said[at:]):
                continue
            left, right = (Words(words.text, side, words.span) for side in sides)
            trying = self._trying()
            if trying._holds(left, tuple(alone)) and trying._holds(right, subjects):
                return All((self._condition(left, tuple(alone)), self._condition(right, subjects)))
        return None

    def _ratio_and_preference(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`a ratio of A to B of 1:1 to 3:1, preferably 1.5:1 to 2:1`: the ratio as without the preference,
        and that of the quotient."""
        said = [word_of(t) for t in tokens]
        bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and not s.of_parts]
        at = next((i for i, w in enumerate(said) if i > 2 and w in _PREFERENCES), 0)
        if len(subjects) != 2 or len(bounds) != 2 or "ratio" not in said[:at]:
            return None
        end = at - sum(w in ("more", "even", "still", "most") for w in said[at - 2 : at])
        while said[end - 1] in (",", "and", "or"):
            end -= 1
        start = end + sum(w in (",", "and", "or") for w in said[end:at])
        limit, behind = Words(words.text, tokens[:end], words.span), tokens[start:]
        first = " ".join(said[:end]).find(subjects[0].text.lower())
        second = " ".join(said[:end]).find(subjects[1].text.lower())
        turned = -1 < second < first or (first < 0 <= second)
        over, under = bounds[::-1] if turned else bounds
        text = " / ".join(s.text for s in (subjects[::-1] if turned else subjects))
        ratio = (Subject(Typed(Divide(over.term, under.term), PLAIN_KIND), text, subjects[0].span),)
        said_again = tuple(t for t in behind if word_of(t) != "of")
        preference = Words(words.text, said_again, words.span)
        if not (self._trying()._holds(limit, subjects) and self._trying()._holds(preference, ratio)):
            return None
        return All((self._condition(limit, subjects), self._condition(preference, ratio)))

    def _of_one_step(self, words: Words, subjects: tuple[Subject, ...]) -> Formula | None:
        """`heating, cooling : cooling follows the heating`: of the one step that the words are read of.

        None where they are read of none or of several, or do not name one of the others.
        """
        steps = [s.bound for s in subjects if isinstance(s.bound, Step)]
        if not 1 < len(steps) == len(subjects):
            return None
        said = f" {' '.join(word_of(t) for t in words.tokens)} "
        named = [s for s in subjects if f" {s.text.lower()} " in said]
        found = [
            (one,)
            for one in subjects
            if all(s is one or s in named for s in subjects) and self._trying()._holds(words, (one,))
        ]
        return self.condition(words, found[0]) if len(found) == 1 else None

    def _of_parts_beside(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`width of the ribs, rim : each rib is narrower than the rim`: of the ribs alone, beside the rim."""
        if len(subjects) != 2 or subjects[0].parts is None or subjects[1].parts is not None:
            return None
        found = self._trying()._if_read(tokens, words, subjects[:1])
        other = subjects[1].bound
        if found is None or not isinstance(other, Typed) or not names_in(other.term) <= names_in(found):
            return None
        return self._if_read(tokens, words, subjects[:1])

    def _these_but_not_those(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`copper or zinc but not tin`, of a list: both, each as a line by itself would be."""
        if len(subjects) != 1 or not isinstance(subjects[0].bound, SetDecl | ChoiceDecl):
            return None
        said = [word_of(t) for t in tokens]
        at = next((i for i in range(1, len(said) - 2) if said[i : i + 2] == ["but", "not"]), 0)
        sides = tokens[: at - (said[at - 1] == ",")], tokens[at + 1 :]
        if not at or any(self._trying()._if_read(side, words, subjects) is None for side in sides):
            return None
        return All(tuple(f for side in sides if (f := self._if_read(side, words, subjects)) is not None))

    def _beside_an_extreme(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`rim, length of the ribs : at least twice as long as the longest rib`: of the rim, beside that one.

        The symbols for the greatest of the lengths stand in the words as the name of a quantity.
        """
        found = beside_an_extreme(tokens, subjects, self.names)
        field = self.names.field_of(subjects[1].text) if found else None
        if found is None or field is None:
            return None
        said, symbols, value = found
        of_one = self.names.declared(f"{field[1]} of {field[0][0].name} 1")
        if not isinstance(of_one, NumberDecl):
            return None
        self.names.declarations[symbols] = replace(of_one, name=symbols)
        self.names.terms[symbols.lower()] = value
        try:
            return self._if_read(said, words, subjects[:1])
        finally:
            del self.names.declarations[symbols], self.names.terms[symbols.lower()]

    def _class_and_its_amount(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`0.1 to 0.5 % of at least one of A and B`, `a salt selected from A and B in an amount of 0.1 %`, of
        a class of ingredients: how much, and of which; None where a member of the class is not among these.

        Of what is not there nothing is selected.
        """
        if len(subjects) != 1 or subjects[0].parts is None or subjects[0].parts.sort != "classes":
            return None
        said = [word_of(t) for t in tokens]
        chosen_from = next((i for i, w in enumerate(said) if w in _SELECTED), 0)
        of = next(
            (
                i
                for i in range(1, len(said))
                if said[i] == "of" and (said[i + 1 : i + 4] in ONE_OR_MORE or 2 <= chosen_from - i <= 4)
            ),
            0,
        )
        amount = next(
            (i for i in range(3, len(said)) if said[i] in _AMOUNTS and said[i + 1 : i + 2] == ["of"]), 0
        )
        behind = amount and (said[:3] in ONE_OR_MORE or 0 < chosen_from < amount)
        start = max((i for i in range(amount) if said[i] == "in"), default=0) if behind else 0
        which = tokens[of + 1 :] if of else tokens[:start]
        much = tokens[:of] if of else tokens[start + 1 :]
        if not which or not much or not any(t.number for t in much):
            return None
        other = f"other {subjects[0].text.lower()}"
        members = subjects[0].mixture.members if subjects[0].mixture is not None else ()
        listed = f" {' '.join(map(word_of, which))} "
        so_much = Words(words.text, much, words.span)
        if not all(f" {m.lower()} " in listed for m in members if m.lower() != other):
            return None
        with suppress(Trouble):
            self._trying().condition(so_much, subjects)
            if self._trying()._if_read(which, words, subjects) is not None:
                chosen = self._if_read(which, words, subjects)
                assert isinstance(subjects[0].bound, Typed)
                self._tell_of_others(other in map(str.lower, members), words, subjects[0])
                there = Compare(">", subjects[0].bound.term, Const(Fraction(0)))
                of_what = (Implies(there, chosen),) if chosen is not None else ()
                return All((self.condition(so_much, subjects), *of_what))
        return None

    def _tell_of_others(self, there: bool, words: Words, of: Subject) -> None:
        """A warning that members nobody named count in an amount of the class."""
        told = Diagnostic(
            "warning", words.span, f"the amount is read as that of the whole class '{of.text}'",
            "The class has room for members that its line does not name.",
            "of those named alone, put these left of the colon, with commas",
        )  # fmt: skip
        if there and not self.tried and told not in self.groups.passed:
            self.groups.passed.append(told)

    def _loosely(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Looser | None:
        """The first looser way in which the words are read; None if there is none."""
        found = self._once("loosely", words, tokens, subjects)
        return found if isinstance(found, Looser) else None

    def _looked_loosely(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Looser | None:
        trying = self._trying()
        tied = {word_of(t) for t in tokens} & listed("names", "tying") if len(subjects) > 1 else set[str]()
        for way in looser(Job(self.place, subjects, words, without_unit(tokens)), tokens):
            if not tied <= {word_of(t) for t in way.said}:
                continue  # 'the overall mass of the oil and the gum' is no limit of each
            found = trying._in_some_way(way.said, words, subjects, way.by_name) if way.said else None
            if found and (not way.taking_part or way.taking_part <= names_in(found)):
                return way
        return None

    def _read_loosely(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """What the words say, read more loosely, the warnings told; else None."""
        way = self._loosely(tokens, words, subjects)
        if way is None:
            return None
        told = [t.span for t in self.groups.passed if t.span.source is words.span.source]
        self.groups.passed += [
            w for w in way.warnings
            if not any(t.start <= w.span.start and w.span.end <= t.end for t in told)
        ]  # fmt: skip
        return self._in_some_way(way.said, words, subjects, way.by_name)

    def _in_some_way(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...], by_name: bool
    ) -> Formula | None:
        found = self._if_read(tokens, words, subjects) or self._of_parts_beside(tokens, words, subjects)
        return found or (self._without_named(tokens, words, subjects) if by_name else None)

    def _if_read(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """What a phrase makes of the words; None where none reads them."""
        with suppress(Trouble):
            trying = self._trying()._job(tokens, words, subjects)
            if _is_read_or_denied(*trying) and can_be_read(*trying):
                return whole(*self._job(tokens, words, subjects))
        return None

    def _in_the_order_named(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`rebar, cover : a cover of at least the greater of 25 mm and twice the rebar`, which begins with
        the second; `30 parts of filler relative to 100 parts of resin`, of a resin and a filler."""
        said = [word_of(t) for t in tokens]
        names = [s.text.lower().split() for s in subjects]
        start = int(said[0] in ("a", "an", "the", "said"))
        measured = all(isinstance(s.bound, Typed) and s.parts is None for s in subjects)
        extremes = listed("asides", "least") | listed("asides", "greatest")
        extreme = any(w in extremes and then == "of" for w, then in pairwise(said))
        in_parts = said.count("parts") > 1 and "between" not in said
        if len(subjects) != 2 or not measured:
            return None
        first, second = (f" {' '.join(name)} " for name in names)
        text = f" {' '.join(said)} "
        begins = extreme and said[start : start + len(names[1])] == names[1]
        if not (begins or in_parts) or not -1 < text.find(second) < text.find(first) or second in first:
            return None
        other = Words(words.text, tokens, words.span)
        return self.condition(other, subjects[::-1]) if self._trying()._holds(other, subjects[::-1]) else None

    def _free_of_each(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`oil, gum : free of oil and gum`, `no oil or gum`: of each of the two things alone."""
        said = [word_of(t) for t in tokens]
        width = run_at(said, 0, "asides", "free_of")
        members = split_list(tokens[width:], "or" if "or" in said else "and") if width else ()
        names = [" ".join(w for w in map(word_of, m) if w not in ("the", "a", "an")) for m in members]
        if sorted(names) != sorted(s.text.lower() for s in subjects):
            return None
        by_name = dict(zip(names, members, strict=True))
        jobs = [self._job(tokens[:width] + by_name[s.text.lower()], words, (s,)) for s in subjects]
        return All(tuple(whole(*job) for job in jobs)) if all(is_read(*job) for job in jobs) else None

    def _either_or_both(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`a rim of at least 5 mm or a gap of at most 2 mm, or both`: one of the two limits, or both.

        `But not both`: one of them alone.
        """
        tokens = with_both(tokens)
        said = [word_of(t) for t in tokens]
        apart = said[-3:] == ["but", "not", "both"]
        if not apart and said[-2:] != ["or", "both"]:
            return None
        end = len(said) - 2 - apart
        end -= said[end - 1 : end] == [","]
        start = int(said[0] == "either")
        for at in (i for i in range(start + 2, end - 1) if said[i] == "or"):
            sides = tokens[start : at - (said[at - 1] == ",")], tokens[at + 1 : end]
            named = [
                f" {s.text.lower()} " in f" {' '.join(map(word_of, w))} "
                for w, s in zip(sides, subjects, strict=True)
            ]
            tried = [self._trying()._job(w, words, (s,)) for w, s in zip(sides, subjects, strict=True)]
            if all(named) and all(is_read(*one) and can_be_read(*one) for one in tried):
                jobs = (self._job(w, words, (s,)) for w, s in zip(sides, subjects, strict=True))
                limits = tuple(whole(*job) for job in jobs)
                return ExactlyOne(limits) if apart else Any(limits)
        return None

    def _first_alone(
        self, job: Job, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`at least 200 ms and at most half of the cycle`: of both things, but at first of one alone."""
        for left, right in joined_parts(tokens) if len(subjects) == 2 else ():
            if not job.may_part(left, right):
                continue
            with suppress(Trouble):
                trying = self._trying()
                tried = [trying._job(left, words, subjects[:1]), trying._job(right, words, subjects)]
                if all(is_read(*one) and can_be_read(*one) for one in tried):
                    jobs = self._job(left, words, subjects[:1]), self._job(right, words, subjects)
                    return All(tuple(whole(*one) for one in jobs))
        return None

    def _of_each_part(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """A limit of one field of like parts by another one, for each part that is there."""
        limited: list[Formula] = []
        fields = [f[1] for s in subjects if (f := self.names.field_of(s.text))]
        text = " ".join(map(word_of, tokens))
        turned = len(fields) == 2 and 0 <= text.find(fields[1].lower()) < text.find(fields[0].lower())
        ordered = subjects[::-1] if turned and "ratio" not in text else subjects
        for there, said, own in of_each_part(tokens, ordered, self.names):
            job, limit = self._job(said, words, own), Words(words.text, said, words.span)
            if is_read(*job):
                limited.append(Implies(there, whole(*job)))
            elif len(said) < len(tokens) and self._trying()._holds(limit, own):
                limited.append(Implies(there, self.condition(limit, own)))
            else:
                return None
        return All(tuple(limited)) if limited else None

    def _otherwise_said(
        self,
        job: Job,
        tokens: tuple[Token, ...],
        words: Words,
        subjects: tuple[Subject, ...],
        quickly: bool = False,
    ) -> Formula | None:
        """The words as limits under conditions, or as one limit for each thing; None for others.

        Raises Trouble where it is known what is wrong with them; `quickly` nothing is looked for to be told.
        """
        if job.sort == "sequences" and hangs_on_a_step(tokens):
            sides = self._sides(job)
            found = conditional(sides, tokens)
            if found is None and not quickly and (wrong := of_a_step_done(sides, tokens)):
                raise wrong
            return found
        if not subjects or job.sort not in ("", "switches", "steps"):
            return None
        sides = self._sides(job)
        if so := _as_states(sides, tokens, subjects):
            return so
        if not job.sort and (chosen := self._amount_of_one_chosen(tokens, words, subjects)):
            return chosen
        if not job.sort and (held := self._held(tokens, words, subjects)):
            return held
        if not job.sort and (often := self._so_often(tokens, words, subjects)):
            return often
        if found := conditional(sides, tokens):
            return found
        if not job.sort and (one_by_one := self._one_by_one(tokens, words, subjects)):
            return one_by_one
        # A condition of measuring is told as such.
        if (
            not quickly
            and not any(aside.wrong and not self._names_one(aside.words) for aside in job.asides(tokens))
            and (wrong := why_not(sides, tokens))
        ):
            raise wrong
        return None

    def _names_one(self, tokens: tuple[Token, ...]) -> bool:
        """Do the words name something declared: `at an inlet pressure of 210 bar`?"""
        said = f" {' '.join(map(word_of, tokens))} "
        return any(f" {name.lower()} " in said for name in self.names.all())

    def _amount_of_one_chosen(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`dye, dyes : optionally up to 5 % of a dye selected from A and B`: how much, and which.

        Of what is not there nothing is selected.
        """
        if len(subjects) != 2 or not isinstance(subjects[1].bound, SetDecl | ChoiceDecl):
            return None
        amount = subjects[0].bound
        said = [word_of(t) for t in tokens]
        at = next((i for i, w in enumerate(said) if w in _SELECTED and i), 0)
        if not at or not isinstance(amount, Typed) or amount.whole or amount.kind is None:
            return None
        own = {form for w in subjects[0].text.lower().split() for form in (w, w + "s")}
        end, chosen_from = at, tokens[at:]
        while end:
            if said[end - 3 : end] in ONE_OR_MORE:
                end, chosen_from = end - 3, (*tokens[end - 3 : end], *tokens[at:])
            elif said[end - 1] in _BEFORE_SELECTED | own:
                end -= 1
            else:
                break
        how_much = self._job(tokens[:end], words, subjects[:1]) if end else None
        chosen = self._job(chosen_from, words, subjects[1:])
        if how_much is None or not is_read(*how_much) or not is_read(*chosen):
            return None
        there = Compare(">", amount.term, Const(Fraction(0)))
        return All((whole(*how_much), Implies(there, whole(*chosen))))

    def _held(self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]) -> Formula | None:
        """`hold, heat : for 20 to 40 min at 100 to 120 degC`: how long, and at what, each by itself."""
        kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
        timed = [kind.dimension == TIME for kind in kinds]
        denied = any(word_of(t) in ("not", "no", "never", "without") for t in tokens)
        if len(subjects) != 2 or timed.count(True) != 1 or len(timed) != 2 or denied:
            return None
        for way in at_and_for(tokens):
            for order in (subjects, subjects[::-1]):
                jobs = [self._job(said, words, (s,)) for said, s in zip(way, order, strict=True)]
                if all(is_read(*job) for job in jobs):
                    return All(tuple(whole(*job) for job in jobs))
        return None

    def _so_often(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`dose, doses : 5 mg twice daily`: how much, and how often, each by itself."""
        if len(subjects) != 2 or sum(self._is_how_often(s) for s in subjects) != 1:
            return None
        for way in how_often(with_runs(tokens, "plainer_runs")):
            for order in (subjects, subjects[::-1]):
                pieces: Pieces = [(said, (s,)) for said, s in zip(way, order, strict=True)]
                if found := self._piece_by_piece(pieces, words):
                    return All(found)
        return None

    def _is_how_often(self, subject: Subject) -> bool:
        """`doses  count  "per day"`, `frequency  in 1/d`."""
        bound = subject.bound
        if not isinstance(bound, Typed):
            return False
        note = self.names.note_of(subject.text).lower().split()
        per = any(word in ("per", "a", "each", "daily", "weekly") for word in note)
        return (bound.whole and per) or bool(bound.kind and bound.kind.dimension == SO_MANY_PER)

    def _trying(self) -> Reader:
        """The same, for words that are only tried: what is found is not kept."""
        trial = Groups(self.groups.profile, (), (), (), self.groups.definitions)
        return replace(self, groups=trial, tried=True)

    def _of_ingredients(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """Words about a composition as read of the ingredients that they name, each by itself."""
        made = subjects[0].bound
        if len(subjects) > 1 or not isinstance(made, Composition):
            return None
        jobs: list[Read] = []
        closed, rest = closing(made, tokens)
        if closed:
            jobs.append(self._job(closed, words, subjects))
            if not is_read(*jobs[0]):
                return None
        for name, said in by_ingredient(made, rest):
            if closed and not any(t.number for t in said):
                continue
            share = self.names.declarations[name]
            assert isinstance(share, NumberDecl)
            one = (Subject(number_of(share), name, subjects[0].span),)
            tried = (self._job(t, words, one) for t in (said, without_verb(said)) if t)
            found = next((job for job in tried if is_read(*job)), None)
            if found is None or unheard(said, words, one, self.names):
                return None
            jobs.append(found)
            told = none_of_some(said, words, one, self.names)
            self.groups.passed += [told] if told and told not in self.groups.passed else []
        for job, _ in jobs[bool(closed) :]:
            self.names.speak(job.subjects[0].text)
        parts = tuple(whole(*job) for job in jobs)
        return All(parts) if len(parts) > 1 else next(iter(parts), None)

    def _of_named_ingredients(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`free of talc and mica`, `comprising wax and oil in a total amount of at most 5 wt%`, of a
        composition, as of both; None where it is not read so."""
        made = subjects[0].bound if len(subjects) == 1 else None
        if not isinstance(made, Composition) or made.name != subjects[0].text or closes(tokens):
            return None
        shares = (self.names.declarations[name] for name in named_in(made, tokens))
        members = tuple(
            Subject(number_of(share), share.name, subjects[0].span)
            for share in shares
            if isinstance(share, NumberDecl)
        )
        if len(members) < 2:
            return None
        amounts = any(t.number for t in tokens)
        said = Words(words.text, without_verb(tokens) if amounts else tokens, words.span)
        with suppress(Trouble):
            self._trying().condition(said, members)
            for member in members:
                self.names.speak(member.text)
            return self.condition(said, members)
        return None

    def _beside_a_balance(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`at least 50 wt% of wax, the remainder being oil and water`, of a composition, as two lines."""
        rest, balance = parted_at_balance(tokens)
        made = subjects[0].bound
        if len(subjects) != 1 or not isinstance(made, Composition) or not balance:
            return None
        for name in named_in(made, tokens):
            self.names.speak(name)  # the balance asks what else is recited, before the rest is read
        closed: tuple[Token, ...] = ()
        if head := opening(rest):
            rest = rest[head:]
            amounts = by_ingredient(made, rest)
            closed = closed_list(tokens, [*amounts, *((name, ()) for name in named_in(made, balance))])
        sides = [Words(words.text, side, words.span) for side in (closed, rest, balance) if side]
        with suppress(Trouble):
            for side in sides:
                self._trying().condition(side, subjects)
            return All(tuple(self.condition(side, subjects) for side in sides))
        return None

    def _one_by_one(
        self,
        tokens: tuple[Token, ...],
        words: Words,
        subjects: tuple[Subject, ...],
        each_says_how_much: bool = False,
    ) -> Formula | None:
        """Words that give each of several things a limit of its own, in their order."""
        if len(subjects) < 2 or _begins_with_condition(tokens):
            return None
        ways = in_order(tokens, tuple(s.text.lower() for s in subjects))
        if each_says_how_much:
            names = tuple(s.text.lower() for s in subjects)
            ways = [way for way in ways if all(map(says_how_much, way, names))]
        jobs = [[self._job(said, words, (s,)) for said, s in zip(w, subjects, strict=True)] for w in ways]
        read = [way for way in jobs if all(is_read(*job) for job in way)]
        return All(tuple(whole(*job) for job in read[0])) if len(read) == 1 else None

    def _each_by_its_name(self, job: Job, tokens: tuple[Token, ...], words: Words) -> Formula | None:
        """Limits of several things, each read as a line of what it names; None where one is not."""
        subjects = job.subjects
        if len(subjects) < 2 or any(map(_has_nouns, job.found(tokens))):
            return None
        for pieces in parted_by_name(tokens, subjects):
            if says_together(words.text) and not all(any(t.number for t in piece) for piece in pieces):
                continue  # 'comprising oil and wax in a total amount of 5 wt%' is no limit of the wax
            each = [(piece, (s,)) for piece, s in zip(pieces, subjects, strict=True)]
            if all(self._trying()._if_read(piece, words, thing) is not None for piece, thing in each):
                found = [self._if_read(piece, words, thing) for piece, thing in each]
                return All(tuple(f for f in found if f is not None))
        return None

    def _sides(self, job: Job, loosely: bool = False) -> Sides:
        """How what stands on either side of a condition is read: each as a line by itself."""
        trying = self._trying()

        def words(tokens: tuple[Token, ...]) -> Words:
            return Words(job.text(tokens), tokens, job.span(tokens))

        def reads(tokens: tuple[Token, ...], things: tuple[Subject, ...]) -> bool:
            said = words(tokens)
            if trying._reads_plainly(said, things):
                return True
            return loosely and trying._loosely(tokens, said, things) is not None

        def formula(tokens: tuple[Token, ...], things: tuple[Subject, ...]) -> Formula:
            said = words(tokens)
            plainly = not loosely or trying._reads_plainly(said, things)
            found = None if plainly else self._read_loosely(tokens, said, things)
            return found or whole(*self._job(tokens, said, things))

        return Sides(job, reads, formula, self.groups)

    def _under_a_condition_loosely(self, job: Job, tokens: tuple[Token, ...]) -> Formula | None:
        """A limit under a condition, of which the one or the other is read more loosely; else None."""
        if len(job.subjects) < 2 or job.sort not in ("", "switches"):
            return None
        try:
            if conditional(self._trying()._sides(job, True), tokens) is None:
                return None
        except Trouble:
            return None
        return conditional(self._sides(job, True), tokens)

    def _with_steps_called(
        self, job: Job, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`after the incubation`, of a step called incubating, by its name, which a warning tells."""
        said, called = with_steps_called(tokens, subjects, self.names)
        other = Words(words.text, said, words.span)
        if not called or not self._trying()._holds(other, subjects):
            return None
        warnings = tuple(told_of_step(job, run, step.name) for run, step in called)
        self.groups.passed += [w for w in warnings if w not in self.groups.passed]
        return self.condition(other, subjects)

    def _for_what_it_is_made(
        self, job: Job, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> Formula | None:
        """`configured to open when the pressure exceeds 5 bar` as what it does, which a warning tells.

        `Heating the powder to 350 °C` as heating to it.
        """
        made_for = without_purpose(tokens) if len(subjects) > 1 else ()
        for said, passed in chain(made_for, without_object(tokens, subjects)):
            other = Words(words.text, said, words.span)
            if self._trying()._holds(other, subjects):
                warning = told(job, passed) if passed else None
                self.groups.passed += [t for t in (warning,) if t and t not in self.groups.passed]
                return self.condition(other, subjects)
        return None

    def _job(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[Job, tuple[Token, ...]]:
        """The words as they are read of what stands left of the colon, numbers with their units.

        Words that can be said otherwise are, where no phrase has them as they stand.
        """
        if any(t.text.lower() in UNTIL for t in tokens):
            subjects = (*subjects[:1], *map(at_its_end, subjects[1:]))
        made = self._job_of(self._amounts(tokens, words, subjects), words, subjects)
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
        multiples = with_multiples(with_fractions(self._amounts(signs, words, subjects)))
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
            yield self._job_of(self._amounts(ratio, words, subjects), words, subjects)
        named = with_both_named(made[1], tuple(s.text for s in subjects))
        if named is not made[1]:
            yield self._job_of(named, words, subjects)
        summed, fewer = _summed(tokens, subjects)
        if len(fewer) != len(subjects):
            yield self._job_of(self._amounts(summed, words, fewer), words, fewer)

    def _can_be_read(self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]) -> bool:
        with suppress(Trouble):
            job, made = self._trying()._job_of(tokens, words, subjects)
            return is_read(job, made) and can_be_read(job, made)
        return False

    def _job_of(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[Job, tuple[Token, ...]]:
        longer = len(tokens) > len(
            words.tokens
        )  # said otherwise: a part of them may be as long as the claim's
        among = Words(words.text, tokens, words.span) if longer else words
        job = Job(self.place, subjects, among, without_unit(tokens))
        tokens = with_units(tokens, is_unitless(subjects[0].bound))
        mixture = subjects[0].mixture if len(subjects) == 1 else None
        if mixture is not None and isinstance(subjects[0].bound, Typed):
            job = self.of_a_class(job, subjects[0], mixture, tokens)
        return job, tokens

    def of_a_class(
        self, job: Job, subject: Subject, mixture: Composition | Assembly, tokens: tuple[Token, ...]
    ) -> Job:
        """How words about a class of ingredients are read: of its list, of its members, of its amount."""
        listing = job.of(replace(subject, bound=mixture, parts=None))
        if not any(t.number for t in tokens) and listing.readable(tokens):
            return listing
        return job if job.readable(tokens) else job.of(replace(subject, parts=None))

    def reads(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether `condition` has a formula for the words. Quick where it has none: no advice is sought."""
        if self._reads_plainly(words, subjects):
            return True
        tokens = tokens_of(words, subjects, self.names)
        if not subjects or not tokens or len(tokens) > MOST_WORDS:
            return False
        try:
            sides = self._sides(Job(self.place, subjects, words, without_unit(tokens)))
            return conditional(sides, tokens) is not None
        except Trouble:
            return False

    def _once(self, what: str, words: Words, tokens: tuple[Token, ...], things: Things) -> object:
        """What these words are tried for, found once: sides of a condition are looked at again and again."""
        key = (what, words.text, tokens, *map(id, things), self.tried, self.names.of_several)
        tried = self.memory.tried
        if key not in tried:
            looked = self._looked_loosely if what == "loosely" else self._looked_plainly
            self.memory.kept += things
            tried[key] = looked(tokens, words, things)
        return tried[key]

    def _reads_plainly(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether the words are read without a condition in them."""
        return bool(self._once("plainly", words, words.tokens, subjects))

    def _looked_plainly(self, _: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]) -> bool:
        tokens = tokens_of(words, subjects, self.names)
        if not tokens or len(tokens) > MOST_WORDS or any(t.sort == "sign" for t in tokens):
            return False
        try:
            job, tokens = self._job(tokens, words, subjects)
            if _is_read_or_denied(job, tokens):
                return can_be_read(job, tokens)
        except Trouble:
            pass
        return False

    def _amounts(
        self, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
    ) -> tuple[Token, ...]:
        """The tokens with numbers in words and degrees as amounts of the first thing left of the colon."""
        for said_otherwise in _SAID_OTHERWISE:
            tokens = said_otherwise(tokens)
        if not subjects:
            return tokens
        tokens = with_that_of(tokens, subjects[0].bound, subjects[0].text, self.names)
        of_one = len(subjects) == 1 or not {"total", "sum"}.isdisjoint(map(word_of, tokens))
        in_percent = self.names.in_percent and of_one
        tokens = with_basis(tokens, subjects[0].bound, self.names.basis, in_percent)
        tokens = with_impurities(tokens, self.names.impure)
        tokens = with_parts_of_the_other(tokens, subjects[0])
        tokens = with_turns(tokens, subjects[0].bound)
        if len(subjects) == 1:
            tokens = with_shares(tokens, subjects[0].bound, self.names)
            tokens = with_gauge(tokens, subjects[0].bound, subjects[0].text)
        if subjects[0].parts is not None and subjects[0].parts.sort == "parts":
            tokens = without_own_interval(tokens, subjects[0].text, self.names.note_of(subjects[0].text))
            tokens = with_them(tokens, self.names.parts_called(subjects[0].parts.called))
        own_note = self.names.note_of(subjects[0].text)
        tokens = without_units_counted(tokens, subjects[0].bound, subjects[0].text, own_note)
        tokens = without_remaining(tokens, subjects[0].bound, subjects[0].text, own_note)
        tokens = of_whole_numbers(tokens, subjects[0].bound, subjects[0].text)
        if len(subjects) == 1:
            tokens = with_letter_counted(tokens, subjects[0].bound, subjects[0].text)
            tokens = with_choice_of_counts(tokens, subjects[0].bound, subjects[0].text, own_note)
        tokens = with_least_or_most(tokens, subjects[0].bound, subjects[0].text, self.names)
        tokens = with_any(tokens, subjects[0].bound, subjects[0].text)
        tokens = without_name_before_inclusive(tokens, subjects[0].text)
        tokens = without_name_behind_ordinals(tokens, subjects[0].bound, subjects[0].text)
        of_list = subjects[0].mixture if isinstance(subjects[0].mixture, Composition) else subjects[0].bound
        tokens = without_class(tokens, of_list, subjects[0].text)
        tokens = without_every(tokens, subjects[0].bound) if subjects[0].parts is None else tokens
        tokens = with_letter_c(tokens, subjects[0].bound)
        tokens = with_one_unit(tokens, subjects[0].bound)
        tokens = with_one_second(tokens, self.spelled_beside(subjects[0].bound))
        tokens = without_signs(tokens, subjects[0].text)
        tokens = with_degrees(tokens, subjects[0].bound, words.span, subjects[0].text)
        tokens = with_parts_per(tokens, subjects[0].bound)
        made = self.names.declared(subjects[0].text)
        note = made.note if isinstance(made, NumberDecl) else ""
        tokens = with_finer(tokens, subjects[0].text, note)
        tokens = with_years_noted(tokens, subjects[0].bound, note)
        tokens = with_things_per(tokens, subjects[0].bound, words.span, subjects[0].text, note)
        tokens = spelled_amounts(tokens, self.spelled_beside(subjects[0].bound), self.names.own)
        tokens = with_shares_of_a_value(tokens, subjects[0].bound, subjects[0].text, self.names)
        return with_time_within(tokens, made)

    def spelled_beside(self, bound: Bound) -> Bound:
        """What numbers in words are read beside: of a step its time."""
        return self.names.terms[bound.start.lower()] if isinstance(bound, Step) else bound


def _of_each_two(tokens: tuple[Token, ...], subjects: Things) -> list[tuple[tuple[Token, ...], int, int]]:
    """What is said of more than two things as what is said of two of them each, and of which."""
    if at_once := ending_at_once(tokens, subjects):
        return at_once
    names = tuple(s.text for s in subjects)
    ratios = in_proportion(tokens, names)
    return [(said, i, i + 1) for i, said in enumerate(ratios)] or in_pairs(tokens, names)


def _never_so(
    tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...], names: Names
) -> Trouble | None:
    """Why no phrase may be laid over the words of these things, or would leave some of them unheard."""
    if wrong := not_so(tokens, words, subjects, names) or either_power(words, subjects):
        return wrong
    if wrong := powers_named(tokens, words, subjects, names):
        return wrong
    why = unheard(tokens, words, subjects, names) or never_heard(tokens, subjects, names)
    return trouble(words.span, *why, IN_SYMBOLS) if why else None


def _is_read_or_denied(job: Job, tokens: tuple[Token, ...]) -> bool:
    return is_read(job, tokens) or bool(denied(job, tokens))


def _begins_with_condition(tokens: tuple[Token, ...]) -> bool:
    """`at a pressure of 210 bar, the leakage is below 15 mL/min`: no limits in a row, but a sentence."""
    said = [word_of(t) for t in tokens]
    if said[:1] != ["at"] or said[1:2] not in (["a"], ["an"], ["the"]) or "," not in said:
        return False
    return not listed("conditional", "verbs").isdisjoint(said[said.index(",") :])


def _has_nouns(match: Match) -> bool:
    """Is it a phrase that names its things itself?"""
    return sum(f.slot.kind == "noun" for f in match.fills) > 1


def _as_states(sides: Sides, tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> Formula | None:
    """`valve open : the valve is open`, `valve open, locked : open and not locked`: what is so or not."""
    if len(subjects) > 1:
        parts = next((way for way in joined_parts(tokens) if len(subjects) == 2), ())
        for order in (subjects, subjects[::-1]) if parts else ():
            each = [_as_states(sides, part, (s,)) for part, s in zip(parts, order, strict=True)]
            if all(each):
                return All(tuple(so for so in each if so is not None))
        return None
    (first,) = subjects
    so = sides.state(tokens, first)
    return switched(first.bound, so)[0] if so is not None and isinstance(first.bound, ChoiceDecl) else None


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
