"""Words of a claim or document to formulas: the words made ready, the phrase found, its readings made."""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl
from scopecheck.core.formula import All, Formula, Not
from scopecheck.exact.bare_shares import read_as_declared
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import joined_parts, word_of
from scopecheck.matching.other_things import speak_of_others
from scopecheck.matching.phrase_advice import NOT_READ
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.said_once import says_its_basis
from scopecheck.matching.states import switched
from scopecheck.matching.subjects import Subject, without_unit
from scopecheck.matching.told_past import names_another, told_before_names
from scopecheck.resolve.beside_one_another import (
    beside_a_sum,
    beside_an_extreme_of_parts,
    in_the_order_named,
    of_a_stated_value,
    of_parts_beside,
    one_and_one_beside,
    ratio_and_preference,
    state_or_limit,
    with_multiples_named,
    without_the_named,
)
from scopecheck.resolve.declared_basis import needs_no_basis, on_the_declared_basis, tell_the_basis
from scopecheck.resolve.each_of_several import (
    Pair,
    described_apart,
    each_by_its_name,
    each_by_its_name_loosely,
    either_or_both,
    field_of_each_part,
    first_alone,
    free_of_each,
    held_at,
    in_other_cases,
    limits_in_order,
    of_each_two,
    of_their_own,
    so_often,
)
from scopecheck.resolve.left_unsaid import none_of_some, unheard
from scopecheck.resolve.line_reader import LineReader, Things
from scopecheck.resolve.never_heard import never_heard
from scopecheck.resolve.not_so import IN_SYMBOLS, hardly_so, not_so
from scopecheck.resolve.of_mixtures import (
    amount_of_one_chosen,
    amount_of_the_last,
    beside_a_balance,
    class_and_its_amount,
    combined_amounts,
    of_each_ingredient,
    of_ingredients_together,
    of_named_ingredients,
    these_but_not_those,
)
from scopecheck.resolve.of_steps import (
    moments_beside,
    of_one_step,
    of_steps_apart,
    of_steps_called,
    with_step_first,
)
from scopecheck.resolve.other_measures import another_quantity
from scopecheck.resolve.read_loosely import (
    for_what_it_is_made,
    read_loosely,
    sides_of,
    under_a_condition_loosely,
)
from scopecheck.resolve.ready import MOST_WORDS, ready, tokens_of
from scopecheck.resolve.stated_presence import stated_presence
from scopecheck.resolve.total_unheard import total_unheard
from scopecheck.resolve.which_of_several import which_of_several
from scopecheck.rewording.choice_of_counts import powers_named
from scopecheck.rewording.conditional import conditional, hangs_on_a_step
from scopecheck.rewording.conditional_advice import of_a_step_done, why_not
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.in_order import at_first_and_at_last
from scopecheck.rewording.moments import denied_at_times
from scopecheck.rewording.one_phrase import is_read, whole
from scopecheck.rewording.other_cases import of_both_limits
from scopecheck.rewording.plainer import plainer
from scopecheck.rewording.said_for_all import limit_for_all
from scopecheck.rewording.shared_power import either_power, shared_power
from scopecheck.rewording.sides import Sides
from scopecheck.vocabulary.names import Names, Typed


class Reader(LineReader):
    """Reads words at one place of one document, by one way after another."""

    __slots__ = ()

    def condition(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """The words as a formula. Raises Trouble if no phrase, or more than one, reads them.

        A bare per cent that nothing else reads is one on the basis that is declared, with a warning.
        """
        found = self._on_its_basis(words, subjects)
        if wrong := total_unheard(words, subjects, found):
            raise wrong
        return found

    def _on_its_basis(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        if there := stated_presence(self, words, subjects):
            return there
        based = on_the_declared_basis(self, words, subjects)
        if based is None or needs_no_basis(self, words, based, subjects):
            return self.as_it_stands(words, subjects)
        found = self.as_it_stands(based, subjects)
        kinds = ((s, s.bound.kind) for s in subjects if isinstance(s.bound, Typed) and s.bound.kind)
        share = next(s for s, kind in kinds if kind != PLAIN_KIND)
        if not says_its_basis(words.text, self.names.note_of(share.text), share.bound):
            tell_the_basis(self, read_as_declared(words.span, share.bound), share.text)
        return found

    def as_it_stands(self, words: Words, subjects: tuple[Subject, ...]) -> Formula:
        tokens = ready(words, subjects, self.names)
        once = limit_for_all(words, subjects)
        self.groups.passed += [once] if once and once not in self.groups.passed else []
        if changed := self.piece_by_piece(at_first_and_at_last(tokens, subjects), words):
            return All(changed)
        if apart := of_their_own(self, tokens, words, subjects):
            return apart
        if of_both := combined_amounts(self, words, subjects) or beside_a_sum(self, tokens, words, subjects):
            return of_both
        if elsewhere := in_other_cases(self, tokens, words, subjects):
            return elsewhere
        if subjects and (wrong := _never_so(tokens, words, subjects, self.names)):
            raise wrong
        if said := denied_at_times(tokens, subjects):
            return self._not_always(said, words, subjects)
        if beside := moments_beside(self, tokens, words, subjects):
            return beside
        if len(subjects) > 2 and (pairs := of_each_two(tokens, subjects)):
            return self._of_pairs(pairs, words, subjects)
        job, made = self.job(tokens, words, subjects)
        if by_name := each_by_its_name(self, job, made, words):
            return by_name
        if subjects:
            self._tell_what_stands_beside(job, tokens, words, subjects)
        of_amounts = any(t.number and t.number.unit for t in tokens)
        tried = subjects and (of_amounts or not is_read(job, made))
        if tried and not is_read(job, made) and (balanced := beside_a_balance(self, tokens, words, subjects)):
            return balanced
        if tried and (of_ingredients := of_each_ingredient(self, tokens, words, subjects)):
            return of_ingredients
        if len(subjects) > 1 and (free := free_of_each(self, tokens, words, subjects)):
            return free
        if len(subjects) == 2 and (both := either_or_both(self, tokens, words, subjects)):
            return both
        several = len(subjects) > 1 and not job.sort and not job.found(made)
        if several and (own := limits_in_order(self, tokens, words, subjects, True)):
            return own
        plainly = is_read(job, made)
        if plainly and len(subjects) > 1:
            plainly = self.trying().reads_plainly(words, subjects)
        if plainly:
            return whole(job, made)
        if apart := of_steps_apart(self, tokens, words, subjects):
            return apart
        if found := field_of_each_part(self, tokens, words, subjects) or first_alone(
            self, job, tokens, words, subjects
        ):
            return found
        return self._as_more_than_a_phrase(job, made, tokens, words, subjects)

    def _of_pairs(self, pairs: list[Pair], words: Words, subjects: Things) -> Formula:
        """What is said of each two of several things."""
        self.names.of_several = True
        try:
            each = ((Words(words.text, said, words.span), (subjects[i], subjects[j])) for said, i, j in pairs)
            return All(tuple(self.as_it_stands(said, of) for said, of in each))
        finally:
            self.names.of_several = False

    def _tell_what_stands_beside(
        self, job: Job, tokens: tuple[Token, ...], words: Words, subjects: Things
    ) -> None:
        """Warnings on what the words name, deny or share beside what is read of these things."""
        another = names_another(job, tokens)
        beside = (another,) if another else tuple(speak_of_others(job, tokens))
        beside += (hardly,) if (hardly := hardly_so(tokens, words, subjects)) else ()
        beside += tuple(told_before_names(job, tokens))
        beside += (under,) if (under := of_both_limits(job, tokens)) else ()
        beside += (shared,) if (shared := shared_power(words)) else ()
        beside += (some,) if (some := none_of_some(tokens, words, subjects, self.names)) else ()
        self.groups.passed += [t for t in beside if t not in self.groups.passed]

    def _not_always(self, denied: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]) -> Formula:
        """`not always above 40 degC`: of a step not so throughout, of like parts not all so."""
        if subjects[0].parts is None:
            return Not(self.as_it_stands(Words(words.text, denied, words.span), subjects))
        not_all = (*words_at(denied[0], "not all", understood=True), *denied)
        return self.as_it_stands(Words(words.text, not_all, words.span), subjects)

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
            # 'In a total amount of', 'account for' would be said more plainly, and mean less.
            found = of_ingredients_together(self, tokens, words, subjects) or self._said_plainly(
                tokens, words, subjects
            )
        except Trouble as other:
            # What is wrong with words that are read but for one thing says more than that they are not read.
            found, wrong = None, other
        found = (
            found
            or amount_of_the_last(self, tokens, words, subjects)
            or with_multiples_named(self, tokens, words, subjects)
            or state_or_limit(self, tokens, words, subjects)
            or without_the_named(self, tokens, words, subjects)
            or ratio_and_preference(self, tokens, words, subjects)
            or one_and_one_beside(self, tokens, words, subjects)
            or of_a_stated_value(self, tokens, words, subjects)
            or of_one_step(self, Words(words.text, tokens, words.span), subjects)
            or of_parts_beside(self, tokens, words, subjects)
            or beside_an_extreme_of_parts(self, tokens, words, subjects)
            or class_and_its_amount(self, tokens, words, subjects)
            or of_named_ingredients(self, tokens, words, subjects)
            or these_but_not_those(self, tokens, words, subjects)
            or of_steps_called(self, job, tokens, words, subjects)
            or with_step_first(self, Words(words.text, tokens, words.span), subjects)
            or read_loosely(self, tokens, words, subjects)
            or each_by_its_name_loosely(self, job, tokens, words)
            or in_the_order_named(self, tokens, words, subjects)
            or under_a_condition_loosely(self, job, tokens)
            or for_what_it_is_made(self, job, tokens, words, subjects)
        )
        if found is None and wrong is not None:
            raise wrong
        return found or self._otherwise_said(job, tokens, words, subjects) or whole(job, made)

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
            self.trying().condition(other, subjects)
        except Trouble as wrong:
            if wrong.diagnostic.message.startswith(NOT_READ):
                return None
            raise
        return self.condition(other, subjects)

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
            sides = sides_of(self, job)
            found = conditional(sides, tokens)
            if found is None and not quickly and (wrong := of_a_step_done(sides, tokens)):
                raise wrong
            return found
        if not subjects or job.sort not in ("", "switches", "steps"):
            return None
        sides = sides_of(self, job)
        if so := _as_states(sides, tokens, subjects):
            return so
        if not job.sort and (chosen := amount_of_one_chosen(self, tokens, words, subjects)):
            return chosen
        if not job.sort and (held := held_at(self, tokens, words, subjects)):
            return held
        if not job.sort and (often := so_often(self, tokens, words, subjects)):
            return often
        if not job.sort and (apart := described_apart(self, tokens, words, subjects)):
            return apart
        if found := conditional(sides, tokens):
            return found
        if not job.sort and (one_by_one := limits_in_order(self, tokens, words, subjects)):
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

    def reads(self, words: Words, subjects: tuple[Subject, ...]) -> bool:
        """Whether `condition` has a formula for the words. Quick where it has none: no advice is sought."""
        if self.reads_plainly(words, subjects):
            return True
        tokens = tokens_of(words, subjects, self.names)
        if not subjects or not tokens or len(tokens) > MOST_WORDS:
            return False
        try:
            sides = sides_of(self, Job(self.place, subjects, words, without_unit(tokens)))
            return conditional(sides, tokens) is not None
        except Trouble:
            return False


def _never_so(
    tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...], names: Names
) -> Trouble | None:
    """Why no phrase may be laid over the words of these things, or would leave some of them unheard."""
    if wrong := not_so(tokens, words, subjects, names) or either_power(words, subjects):
        return wrong
    if wrong := powers_named(tokens, words, subjects, names):
        return wrong
    why = unheard(tokens, words, subjects, names) or never_heard(tokens, subjects, names)
    why = why or which_of_several(tokens, subjects, names)
    if why:
        return trouble(words.span, *why, IN_SYMBOLS)
    another = another_quantity([word_of(t) for t in tokens], subjects, names)
    return trouble(words.span, *another) if another else None


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
