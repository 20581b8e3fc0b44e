"""What is said more plainly in other words, tried only where nothing reads the words as they stand.

`ORDER` is the table of the rewritings; a new one is a function of its own and a line there. Nothing here
changes what is said: whoever reads the words in either way reads the same limit.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import with_forms, with_runs
from scopecheck.rewording.multiples import with_folds
from scopecheck.rewording.plainer_amounts import (
    of_any_of_them,
    of_what_holds_it,
    selected_from,
    with_basis_in_commas,
    with_change_from,
    with_excess,
    with_free_of,
    with_mixtures_alone,
    with_only_behind,
    with_parts_of_a_hundred,
    with_presence,
    with_same_amount,
    without_body_weight,
    without_both_before,
    without_comprising,
    without_content,
    without_own_basis,
)
from scopecheck.rewording.plainer_counts import (
    number_per_each,
    with_different_number,
    with_each_multiple,
    with_ends_said,
    with_least_beside,
    with_limit_before,
    with_limits_joined,
    with_names_noted,
    with_neither_as_not,
    with_note_behind_name,
    with_number_per,
    with_numbers_of_each,
    with_one_for_every,
    with_one_in_so_many,
    with_outnumbering,
    with_pairs_counted,
    with_state_before_noun,
    with_total_of,
    with_what_both_have,
    with_which_named,
    without_apart,
    without_commas_round_equal,
    without_holding,
    without_names_before_each_other,
    without_noted_lead,
    without_number_before,
    without_plurality,
)
from scopecheck.rewording.plainer_members import members_plainly
from scopecheck.rewording.plainer_named import (
    for_so_long,
    in_a_state,
    in_the_first,
    with_both_alike,
    with_same_or_more,
    with_so_many_had,
    with_temperature_behind,
    with_times_per,
    with_value_named,
    without_comma_before_inclusive,
    without_name_behind,
    without_needless,
    without_noted_whole,
    without_their,
    without_verb_of_first,
    without_verb_of_name,
    without_what_is_counted,
)
from scopecheck.rewording.plainer_numbers import (
    from_the_first,
    if_and_only_if,
    of_any_two,
    of_each_other,
    of_some_of_them,
    of_the_class,
    so_often,
    with_average_before,
    with_each,
    with_ends_limited,
    with_least_of_each,
    with_low_end_out,
    with_members_alone,
    with_multiples,
    with_noted_name,
    with_smaller_in,
    with_stroke,
    with_tolerance_of_a_value,
    with_which_is,
    with_within_behind,
    without_as_large_as,
    without_bearer,
    without_containing,
    without_either_direction,
    without_field_behind_differ,
    without_less_behind_within,
    without_what_is_done,
)
from scopecheck.rewording.plainer_parts import parts_plainly
from scopecheck.rewording.plainer_phrasing import (
    with_both_ends_within,
    with_condition_behind,
    with_condition_first,
    with_half_before_unit,
    with_measure_last,
    with_open_ends,
    with_parted_fractions,
    with_presence_behind,
    with_tolerance_behind,
    without_dots_of_units,
    without_leading_to,
    without_measure_before,
    without_nominal,
    without_per_unit,
    without_setting,
    without_use_behind,
)
from scopecheck.rewording.plainer_shares import shares_plainly, with_part_of_the_other
from scopecheck.rewording.plainer_states import in_mode, states_plainly
from scopecheck.rewording.plainer_steps import steps_plainly
from scopecheck.rewording.plainer_values import (
    in_the_state,
    of_the_greatest,
    with_amount_per,
    with_change_named,
    with_doubled,
    with_limits_before,
    with_measure_unsaid,
    with_numbers_alone,
    with_variation,
    without_by,
    without_nominal_of_name,
    without_noted_behind,
    without_noted_noun_before_inclusive,
    without_only,
    without_own_noun,
    without_threshold,
)
from scopecheck.rewording.plainer_written import (
    with_carbon_atoms,
    with_each_first,
    with_noted_plural,
    with_number_said,
    with_per_unit,
    with_pressure_in_brackets,
    with_times_before_name,
    without_basis_of_share,
    without_colon,
    without_inclined,
    without_intervals,
    without_leading_by,
    without_measures_behind,
    without_of_again,
    without_own_kind,
    without_own_measure_behind,
    without_relative,
    without_short_name,
    without_thereof,
    without_what_is_noted,
)
from scopecheck.vocabulary.names import Bound

Tokens = tuple[Token, ...]
Notes = tuple[str, ...]
Subjects = tuple[Subject, ...]


@record
class Left:
    """What stands left of the colon, and the notes of its declarations."""

    subjects: Subjects
    notes: Notes


Rewriting: TypeAlias = Callable[[Tokens, Left], Tokens]
"""Words, never none, to the words said more plainly; the same where it has nothing to say."""


def plainer(tokens: Tokens, subjects: Subjects, notes: Notes = ()) -> Tokens:
    """The words said more plainly; the same words where there is no other way to say them.

    `notes` are those of the declarations of what stands left of the colon.
    """
    left = Left(subjects, notes)
    for rewriting in ORDER:
        if not tokens:
            break
        tokens = rewriting(tokens, left)
    return tokens


def _words(said: Callable[[Tokens], Tokens]) -> Rewriting:
    """Of the words alone."""
    return lambda tokens, _: said(tokens)


def _forms(table: str) -> Rewriting:
    """By a table of `words.toml`."""
    return lambda tokens, _: with_forms(tokens, table)


def _beside(said: Callable[[Tokens, Subjects], Tokens]) -> Rewriting:
    """That looks at all that stands left of the colon."""
    return lambda tokens, left: said(tokens, left.subjects)


def _noted(said: Callable[[Tokens, Subjects, Notes], Tokens]) -> Rewriting:
    """That looks at the notes as well."""
    return lambda tokens, left: said(tokens, left.subjects, left.notes)


def _notes(said: Callable[[Tokens, Notes], Tokens]) -> Rewriting:
    """That looks at the notes alone."""
    return lambda tokens, left: said(tokens, left.notes)


def _one(said: Callable[[Tokens, Subject], Tokens]) -> Rewriting:
    """Of words beside one thing."""
    return _if_one(lambda tokens, left: said(tokens, left.subjects[0]))


def _one_noted(said: Callable[[Tokens, Subject, Notes], Tokens]) -> Rewriting:
    """Of words beside one thing and its notes."""
    return _if_one(lambda tokens, left: said(tokens, left.subjects[0], left.notes))


def _one_bound(said: Callable[[Tokens, Bound], Tokens]) -> Rewriting:
    """Of words beside one thing: what its name is bound to."""
    return _if_one(lambda tokens, left: said(tokens, left.subjects[0].bound))


def _one_name(said: Callable[[Tokens, str], Tokens]) -> Rewriting:
    """Of words beside one thing: how it is written."""
    return _if_one(lambda tokens, left: said(tokens, left.subjects[0].text))


def _if_one(rewriting: Rewriting) -> Rewriting:
    return lambda tokens, left: rewriting(tokens, left) if len(left.subjects) == 1 else tokens


def _unless_several(rewriting: Rewriting) -> Rewriting:
    return lambda tokens, left: tokens if len(left.subjects) > 1 else rewriting(tokens, left)


def _if_several(rewriting: Rewriting) -> Rewriting:
    return lambda tokens, left: rewriting(tokens, left) if len(left.subjects) > 1 else tokens


def _unless_parts(rewriting: Rewriting) -> Rewriting:
    """But not where the first thing is one of parts."""
    return lambda tokens, left: (
        tokens if left.subjects and left.subjects[0].parts is not None else rewriting(tokens, left)
    )


def _unless_change(rewriting: Rewriting) -> Rewriting:
    """But not where what stands left of the colon is a change or another value of something."""

    def said(tokens: Tokens, left: Left) -> Tokens:
        named = {word for s in left.subjects for word in s.text.lower().split()}
        return rewriting(tokens, left) if named.isdisjoint(listed("beside", "other_values")) else tokens

    return said


def _unless_condition(rewriting: Rewriting) -> Rewriting:
    """But not of words with a condition in them."""

    def said(tokens: Tokens, left: Left) -> Tokens:
        without = listed("limits", "conditions").isdisjoint(map(word_of, tokens))
        return rewriting(tokens, left) if without else tokens

    return said


ORDER: tuple[Rewriting, ...] = (
    _one_bound(with_low_end_out),
    _one_bound(with_least_of_each),
    _one(with_state_before_noun),
    _unless_several(_unless_change(_words(without_leading_to))),
    _words(with_condition_first),
    _words(with_folds),
    _forms("forms_of_times"),
    _beside(with_ends_limited),
    _forms("plainer_forms"),
    _unless_condition(_forms("exceeding_forms")),
    _beside(with_per_unit),
    _noted(with_amount_per),
    _beside(with_measure_unsaid),
    _noted(with_variation),
    _beside(with_change_named),
    _if_several(_noted(without_measures_behind)),
    _words(without_threshold),
    _words(lambda tokens: with_runs(tokens, "plainer_runs")),
    _beside(with_each_first),
    _forms("plainer_forms"),
    _words(without_dots_of_units),
    _words(with_both_ends_within),
    _words(without_measure_before),
    _words(without_per_unit),
    _words(with_basis_in_commas),
    _words(with_parted_fractions),
    _words(with_half_before_unit),
    _words(without_nominal),
    _words(with_tolerance_behind),
    _words(with_open_ends),
    _words(with_condition_behind),
    _unless_parts(_words(with_presence_behind)),
    _words(without_body_weight),
    _words(without_setting),
    _words(without_use_behind),
    _words(without_either_direction),
    _words(with_within_behind),
    _words(with_multiples),
    _words(with_tolerance_of_a_value),
    _words(with_average_before),
    _words(without_less_behind_within),
    _words(without_as_large_as),
    _words(from_the_first),
    _words(with_smaller_in),
    _words(if_and_only_if),
    _words(without_by),
    _words(with_limits_before),
    _words(with_pressure_in_brackets),
    _words(without_colon),
    _words(with_number_said),
    _words(without_commas_round_equal),
    _words(with_least_beside),
    _words(without_plurality),
    _words(with_neither_as_not),
    _words(with_ends_said),
    _words(with_each_multiple),
    _words(with_limit_before),
    _unless_parts(_noted(without_apart)),
    _beside(states_plainly),
    _beside(members_plainly),
    _beside(steps_plainly),
    _beside(parts_plainly),
    _beside(with_part_of_the_other),
    _beside(shares_plainly),
    _noted(with_names_noted),
    _beside(number_per_each),
    _noted(without_short_name),
    _noted(without_noted_lead),
    _noted(with_note_behind_name),
    _beside(with_pairs_counted),
    _beside(with_total_of),
    _beside(with_numbers_of_each),
    _beside(with_different_number),
    _beside(with_outnumbering),
    _beside(with_one_for_every),
    _beside(with_what_both_have),
    _beside(with_limits_joined),
    _beside(with_which_named),
    _beside(without_names_before_each_other),
    _beside(with_number_per),
    _beside(without_number_before),
    _beside(with_one_in_so_many),
    _beside(without_holding),
    _beside(without_field_behind_differ),
    _beside(with_each),
    _beside(of_the_class),
    _beside(with_stroke),
    _beside(without_of_again),
    _noted(without_leading_by),
    _unless_parts(_beside(without_intervals)),
    _beside(in_mode),
    _beside(with_times_before_name),
    _beside(without_basis_of_share),
    _beside(of_each_other),
    _beside(of_some_of_them),
    _beside(of_any_two),
    _beside(without_nominal_of_name),
    _beside(with_doubled),
    _beside(in_the_state),
    _one(without_relative),
    _one(without_thereof),
    _one(without_inclined),
    _one(with_numbers_alone),
    _one(without_only),
    _one_noted(with_carbon_atoms),
    _one_noted(with_noted_plural),
    _one(without_own_kind),
    _if_one(_notes(without_what_is_noted)),
    _one_noted(without_own_measure_behind),
    _if_one(_beside(of_the_greatest)),
    _if_one(_notes(without_noted_behind)),
    _one_noted(without_own_noun),
    _one_noted(without_noted_noun_before_inclusive),
    _if_one(_words(with_measure_last)),
    _one_bound(so_often),
    _one_bound(with_which_is),
    _one_bound(with_members_alone),
    _one(without_what_is_done),
    _one(without_bearer),
    _if_one(lambda tokens, left: without_containing(tokens, left.subjects[0].listing)),
    _one_noted(with_noted_name),
    _one(without_verb_of_name),
    _if_several(_beside(without_verb_of_first)),
    _one_name(without_name_behind),
    _one_noted(without_needless),
    _one_noted(without_noted_whole),
    _one_bound(for_so_long),
    _one_noted(in_the_first),
    _one_bound(with_times_per),
    _one_bound(with_temperature_behind),
    _one_name(with_value_named),
    _if_one(_words(with_mixtures_alone)),
    _one_bound(selected_from),
    _one_bound(with_so_many_had),
    _one_name(of_what_holds_it),
    _one_bound(with_only_behind),
    _one_name(with_free_of),
    _one(without_comma_before_inclusive),
    _beside(with_excess),
    _beside(with_change_from),
    _beside(without_both_before),
    _beside(with_parts_of_a_hundred),
    _beside(without_comprising),
    _beside(with_same_amount),
    _beside(of_any_of_them),
    _beside(without_own_basis),
    _beside(without_what_is_counted),
    _beside(in_a_state),
    _beside(without_their),
    _noted(with_both_alike),
    _beside(with_same_or_more),
    _beside(without_content),
    _beside(with_presence),
)
"""All rewritings in the order in which they are tried. Each sees what those before it made of the words."""
