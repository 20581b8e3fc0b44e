"""Words made ready before a phrase is looked for in them: what would be misread is put otherwise."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import GOVERNING, word_of
from scopecheck.matching.everyday import (
    with_letter_c,
    with_parts_of_measured,
    with_plurals,
    with_signs_alone,
)
from scopecheck.matching.of_ratios import with_shared_one
from scopecheck.matching.one_quantity import with_period_apart
from scopecheck.matching.phrase_advice import NOT_READ, shortened
from scopecheck.matching.shared_limits import (
    with_between_again,
    with_difference_again,
    with_interval_ends,
    with_places_joined,
    with_windows,
)
from scopecheck.matching.signs import with_signs_for_units
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.matching.together import says_together, with_and
from scopecheck.occurrences.readings import is_switch
from scopecheck.resolve.whole_ranges import over_so_long, with_range_added
from scopecheck.rewording.beside_sums import with_mixture_as_total
from scopecheck.rewording.choice_of_counts import (
    with_things_chosen,
)
from scopecheck.rewording.common_noun import with_all_named
from scopecheck.rewording.compared import with_compared, with_signs_in_words
from scopecheck.rewording.counted_per import with_counted_named, with_groups_counted
from scopecheck.rewording.forms import with_forms, with_runs
from scopecheck.rewording.members_beside import with_hyphened_members
from scopecheck.rewording.moments import (
    throughout,
    with_moment_last,
    without_noted_bearer,
    without_noted_share,
)
from scopecheck.rewording.not_both import with_not_both
from scopecheck.rewording.parts_per_part import (
    with_any_in_a_condition,
    with_any_of_them,
    with_parts_in_total,
    with_parts_per_part,
)
from scopecheck.rewording.places import with_places_as_members
from scopecheck.rewording.plainer_amounts import with_presence_said
from scopecheck.rewording.plainer_counts import (
    with_both_in_total,
    with_counts_apart,
    with_difference_between,
    with_names_noted,
    with_share_of_them,
    with_units_of_the_last,
    without_after,
    without_integers,
)
from scopecheck.rewording.plainer_members import (
    with_kinds_named,
    with_list_of_both,
    with_others_named,
    without_class_selected,
)
from scopecheck.rewording.plainer_numbers import with_both_preferred
from scopecheck.rewording.plainer_shares import with_amount_elided, with_range_of_the_other
from scopecheck.rewording.plainer_states import (
    with_doing_so,
    with_either_of_one,
    with_measure_passed,
    with_neither_place,
    with_only_behind_state,
    with_permission,
    with_value_of_change,
)
from scopecheck.rewording.plainer_steps import (
    with_order_told,
    with_steps_named,
    with_times_of_steps,
)
from scopecheck.rewording.plainer_values import (
    with_extreme_as_named,
    with_size_of_deviation,
    without_own_noun,
)
from scopecheck.rewording.said_for_all import with_limit_for_all
from scopecheck.rewording.shared_power import with_shared_power
from scopecheck.rewording.shared_verbs import with_shared_verb
from scopecheck.rewording.sizes import with_sizes_apart, with_times_told
from scopecheck.rewording.step_objects import with_objects_of_steps
from scopecheck.rewording.usual import (
    of_what_it_has,
    with_less_or_more,
    with_light_as_a_noun,
    without_factor_of,
    without_proviso,
    without_sequence_numbers,
)
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Subjects = tuple[Subject, ...]
MOST_WORDS = 60


def ready(words: Words, subjects: tuple[Subject, ...], names: Names) -> tuple[Token, ...]:
    """The words as they are looked at. Raises Trouble where no phrase may be looked for in them."""
    tokens = tokens_of(words, subjects, names)
    if not tokens:
        raise trouble(words.span, "no words stand here")
    if len(tokens) > MOST_WORDS:
        raise trouble(
            words.span,
            f"{len(tokens)} words for one phrase",
            f"A phrase has at most {MOST_WORDS} words and numbers.",
            "lift the words of one limitation",
        )
    if signs := [t for t in tokens if t.sort == "sign"]:
        raise _symbols(words, signs[0] is tokens[0], subjects)
    if subjects and is_by_a_share_of_itself(tokens, subjects[0]):
        raise trouble(
            words.span, f"{NOT_READ} '{shortened(words.text)}'",
            f"The share is one of {subjects[0].text} itself, which is what is limited.",
            "write the meaning in symbols after the words: two blanks, exactly, facts",
        )  # fmt: skip
    return tokens


def tokens_of(words: Words, subjects: Subjects, names: Names) -> Tokens:
    """The words without gaps, and with signs beside numbers in words."""
    told = with_amount_elided(words.tokens, subjects)
    tokens = with_neither_place(tuple(t for t in told if t.sort != "gap"), subjects)
    tokens = _in_usual_words(tokens, subjects, names)
    tokens = _with_own_nouns(tokens, subjects, names)
    tokens = _with_steps_and_states(tokens, subjects, names)
    tokens = _with_members_and_parts(tokens, subjects, names)
    tokens = _of_one_or_two(tokens, subjects, names)
    tokens = _with_limits_written_out(tokens, subjects, names)
    tokens = with_mixture_as_total(tokens, subjects, names)
    if len(subjects) > 1 and says_together(words.text):
        tokens = _in_total(tokens, subjects, names)
    by_itself = len(subjects) == 2 and is_by_a_share_of_itself(tokens, subjects[0])
    return with_difference_between(tokens, subjects) if by_itself else tokens


def _in_usual_words(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """What is said once, shortened or left out, as it is usually written."""
    tokens = without_integers(with_shared_one(with_runs(tokens, "contractions")), subjects)
    tokens = of_what_it_has(
        with_both_preferred(without_sequence_numbers(with_light_as_a_noun(tokens))), subjects
    )
    if len(subjects) > 1 and not any(s.moments for s in subjects):
        tokens = with_runs(tokens, "leaving_runs")
    tokens = with_forms(tokens, "forms_of_several") if len(subjects) > 1 else tokens
    tokens = with_limit_for_all(with_times_told(with_sizes_apart(tokens, subjects), subjects), subjects)
    tokens = with_shared_verb(with_forms(without_proviso(tokens, subjects), "usual_forms"), subjects)
    tokens = with_presence_said(tokens, subjects)
    if len(subjects) == 1 and names.note_of(subjects[0].text)[:1] == "C":
        tokens = with_letter_c(tokens, subjects[0].bound)  # before the letter stands for what it is noted of
    return tokens


def _with_own_nouns(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """Each thing by the noun it is declared with, members and signs as they are declared."""
    kinds = tuple(s.bound.kind if isinstance(s.bound, Typed) else None for s in subjects)
    tokens = with_size_of_deviation(with_parts_of_measured(tokens, kinds), subjects, names)
    for s in subjects:
        tokens = with_hyphened_members(with_plurals(tokens, s.bound, s.text), s.bound)
        if len(subjects) > 1:
            tokens = with_signs_alone(tokens, s.bound, s.text, names.note_of(s.text))
        # 'In a cooling mode' as a condition needs its noun.
        if len(subjects) == 1 or not _says_when(tokens, s.text.lower().split()[-1]):
            tokens = without_own_noun(tokens, s, ())
    return tokens


def _with_steps_and_states(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """What is done, or is so at some time or in some state, by the names of steps and of states."""
    tokens = with_less_or_more(_with_signs_for_units(tokens, subjects, names), subjects, names)
    tokens = with_only_behind_state(with_permission(with_doing_so(tokens, subjects), subjects), subjects)
    tokens = with_moment_last(without_after(tokens, subjects), subjects)
    tokens = with_value_of_change(with_measure_passed(tokens, len(subjects) > 1), subjects)
    tokens = with_places_as_members(tokens, subjects)
    tokens = with_steps_named(with_not_both(with_counted_named(tokens, names), subjects), subjects, names)
    tokens = with_objects_of_steps(tokens, subjects, names)
    tokens = with_and(with_times_of_steps(tokens, subjects), subjects)
    return with_extreme_as_named(with_order_told(tokens, subjects), subjects, names)


def _with_members_and_parts(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """Members of lists, ingredients and like parts by their names, and how many of them there are."""
    tokens = with_list_of_both(with_kinds_named(with_others_named(tokens, subjects), subjects), subjects)
    tokens = without_class_selected(tokens, subjects)
    noted = tuple(names.note_of(s.text) for s in subjects)
    tokens = with_all_named(tokens, subjects)
    tokens = with_parts_in_total(tokens, subjects, noted)
    tokens = with_any_of_them(with_parts_per_part(tokens, subjects, noted), subjects)
    tokens = with_things_chosen(tokens, subjects)
    tokens = with_groups_counted(with_any_in_a_condition(tokens, subjects), subjects)
    return with_counts_apart(with_share_of_them(tokens, subjects), subjects)


def _of_one_or_two(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """What is said of one thing alone, or of the second of two as of the first."""
    tokens = with_range_of_the_other(tokens) if len(subjects) == 2 else tokens
    if len(subjects) == 1:
        tokens = without_factor_of(tokens, subjects[0], names.note_of(subjects[0].text))
        tokens = with_period_apart(tokens, subjects[0].bound)
        tokens = without_noted_share(tokens, subjects[0], names)
        tokens = throughout(without_noted_bearer(tokens, subjects[0], names), subjects[0])
    return with_shared_power(tokens, subjects[0]) if subjects else tokens


def _with_limits_written_out(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """Signs in words, and both ends of a range where it says but one of them, or one for both."""
    if any(t.sort == "sign" for t in tokens):
        tokens = with_compared(tokens, tuple(s.text for s in subjects), names)
    tokens = with_range_added(with_units_of_the_last(with_signs_in_words(tokens)))
    tokens = over_so_long(tokens, subjects)
    tokens = with_difference_again(with_between_again(with_interval_ends(tokens)))
    if len(subjects) > 1:
        tokens = with_either_of_one(tokens, subjects)
        tokens = with_places_joined(tokens, any(is_switch(s.bound) for s in subjects))
    return with_windows(tokens) if len(subjects) == 1 or _is_conditional(tokens) else tokens


def _in_total(tokens: Tokens, subjects: Subjects, names: Names) -> Tokens:
    """A limit of several things together, with both of them named."""
    holds = word_of(tokens[0]) in listed("asides", "holding") and any(t.number for t in tokens)
    tokens = tokens[1:] if holds else tokens
    tokens = with_names_noted(tokens, subjects, tuple(names.note_of(s.text) for s in subjects))
    return with_both_in_total(tokens, subjects)


def _with_signs_for_units(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], names: Names
) -> tuple[Token, ...]:
    """Multiples of what is called or noted by one letter that is the sign of a unit, too."""
    kind = subjects[0].bound.kind if subjects and isinstance(subjects[0].bound, Typed) else None
    if kind is None:
        return tokens
    alike = (d for d in names.declarations.values() if isinstance(d, NumberDecl) and d.kind == kind)
    by_sign = {sign: d.name for d in alike for sign in (d.name, d.note.partition(",")[0].strip())}
    return with_signs_for_units(tokens, kind, {s: name for s, name in by_sign.items() if len(s) == 1})


def _is_conditional(tokens: tuple[Token, ...]) -> bool:
    """Do limits of one thing stand beside the condition that they hold under?"""
    at = any(w == "at" and then not in ("least", "most") for w, then in pairwise(map(word_of, tokens)))
    return at or not (GOVERNING - {"once"}).isdisjoint(map(word_of, tokens))


def _says_when(tokens: tuple[Token, ...], noun: str) -> bool:
    """`in a cooling mode`, of a mode and something else."""
    said = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(said) if w == noun), 0)
    return "in" in said[max(0, at - 4) : at] and "of" not in said[max(0, at - 4) : at]


def is_by_a_share_of_itself(tokens: tuple[Token, ...], first: Subject) -> bool:
    """`exceeds the gap by at most 15 % of the rim`, of the rim."""
    said, own = [word_of(t) for t in tokens], first.text.lower().split()
    behind = len(said) - len(own)
    behind -= said[behind - 1 : behind] == ["the"]
    if "difference" in said:
        return False
    itself = said[-len(own) :] == own and behind > 1 and said[behind - 1] == "of"
    return itself and "by" in said[:behind] and is_bare_share(tokens[behind - 2])


def _symbols(words: Words, first: bool, subjects: tuple[Subject, ...]) -> Trouble:
    """The error for symbols right of a colon: `< 5 mm`; of `of 3 ≤ gap < 5 mm` a word is too much."""
    thing = subjects[0].text if subjects else "..."
    written = words.text.replace(" : ", " / ")  # a ratio among symbols
    help = f"take out the colon: {f'{thing} {written}' if first else written}"
    if ranged := _RANGE.fullmatch(words.text):
        help = f"a range in symbols has no colon and two signs: {ranged[2]} <= {ranged[1]} <= {ranged[3]}"
    lead, _, rest = words.text.partition(" ")
    if lead.lower() in _BEFORE_SYMBOLS and rest:
        help = f"a formula is lifted without the words around it: {rest}"
    cause = "Right of a colon stand words; symbols stand without a colon."
    return trouble(words.span, "symbols right of a colon", cause, help)


_RANGE = regex(r"([^=]*[^=\s])\s*=\s*(\d[^\s-]*)(?: to | ?- ?)(\d[^=]*)")
_BEFORE_SYMBOLS = frozenset("of with that where wherein satisfying satisfies satisfy meeting is".split())
