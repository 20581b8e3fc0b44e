"""Amounts as they are said of the first thing left of the colon, with its units, basis and counted things."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import Composition, NumberDecl, Step
from scopecheck.foundations.spans import Span
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.beside_another import with_parts_of_the_other
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import (
    PARTS_PER,
    as_alternatives,
    of_whole_numbers,
    with_any,
    with_both,
    with_commas,
    with_degrees,
    with_degrees_of_a_temperature,
    with_least_or_most,
    with_letter_c,
    with_one_second,
    with_one_unit,
    with_parts_per,
    with_products_of_units,
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
    without_units_counted,
)
from scopecheck.matching.of_ratios import with_plain_limits
from scopecheck.matching.said_once import with_basis, with_impurities, with_per
from scopecheck.matching.spelled import spelled_amounts, with_hundreds
from scopecheck.matching.subjects import Subject
from scopecheck.matching.them import with_ends_of_each, with_one_of_a_kind, with_them, without_own_interval
from scopecheck.matching.whichever import with_the_greater
from scopecheck.rewording.choice_of_counts import (
    with_choice_of_counts,
    with_letter_counted,
)
from scopecheck.rewording.forms import with_runs
from scopecheck.rewording.members_beside import without_combinations
from scopecheck.rewording.multiples import with_divisible
from scopecheck.rewording.usual import (
    with_ends_upward,
    with_finer,
    with_that_of,
    with_time_within,
    with_usual_words,
    without_every,
)
from scopecheck.rewording.usual_units import (
    with_basis_called,
    with_calendar_units,
    with_gauge,
    with_hours,
    with_shares,
    with_shares_of_a_value,
    with_so_many,
    with_turns,
    with_unit_behind_or,
    with_years_noted,
)
from scopecheck.vocabulary.names import Bound, Names, Typed

_SAID_OTHERWISE = (
    without_dots, with_so_many, with_unit_behind_or, with_calendar_units, with_unit_behind,
    with_the_greater, with_hours, with_usual_words,
    without_combinations, with_hundreds,
    with_commas, with_both, with_divisible, as_alternatives, with_tolerances, with_plain_limits, with_ratios,
    with_ends_upward,
)  # fmt: skip
"""What is said in other words, whatever it is said of: each hands on to the next."""


def with_amounts(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], names: Names, span: Span
) -> tuple[Token, ...]:
    """The tokens with numbers in words and degrees as amounts of the first thing left of the colon."""
    for said_otherwise in _SAID_OTHERWISE:
        tokens = said_otherwise(tokens)
    if not subjects:
        return tokens
    if len(subjects) == 1:
        tokens = with_degrees_of_a_temperature(tokens, subjects[0].bound)
    tokens = with_products_of_units(tokens, subjects[0].bound)
    tokens = with_that_of(tokens, subjects[0].bound, subjects[0].text, names)
    of_one = len(subjects) == 1 or not {"total", "sum"}.isdisjoint(map(word_of, tokens))
    in_percent = names.in_percent and of_one
    tokens = with_basis(tokens, subjects[0].bound, names.basis, in_percent)
    tokens = with_per(tokens, subjects[0].bound, names.per)
    tokens = with_impurities(tokens, names.impure)
    tokens = with_parts_of_the_other(tokens, subjects[0])
    tokens = with_turns(tokens, subjects[0].bound)
    if len(subjects) == 1:
        tokens = with_shares(tokens, subjects[0].bound, names)
        tokens = with_basis_called(tokens, subjects[0].bound)
        tokens = with_gauge(tokens, subjects[0].bound, subjects[0].text)
    if subjects[0].parts is not None and subjects[0].parts.sort == "parts":
        tokens = without_own_interval(tokens, subjects[0].text, names.note_of(subjects[0].text))
        part = names.parts_called(subjects[0].parts.called)
        tokens = with_ends_of_each(with_one_of_a_kind(with_them(tokens, part), part), part)
    own_note = names.note_of(subjects[0].text)
    tokens = without_units_counted(tokens, subjects[0].bound, subjects[0].text, own_note)
    tokens = without_remaining(tokens, subjects[0].bound, subjects[0].text, own_note)
    tokens = of_whole_numbers(tokens, subjects[0].bound, subjects[0].text)
    if len(subjects) == 1:
        tokens = with_letter_counted(tokens, subjects[0].bound, subjects[0].text)
        tokens = with_choice_of_counts(tokens, subjects[0].bound, subjects[0].text, own_note)
    tokens = with_least_or_most(tokens, subjects[0].bound, subjects[0].text, names)
    tokens = with_any(tokens, subjects[0].bound, subjects[0].text)
    tokens = without_name_before_inclusive(tokens, subjects[0].text)
    tokens = without_name_behind_ordinals(tokens, subjects[0].bound, subjects[0].text)
    of_list = subjects[0].mixture if isinstance(subjects[0].mixture, Composition) else subjects[0].bound
    tokens = without_class(tokens, of_list, subjects[0].text)
    tokens = without_every(tokens, subjects[0].bound) if subjects[0].parts is None else tokens
    tokens = with_letter_c(tokens, subjects[0].bound)
    tokens = with_one_unit(tokens, subjects[0].bound)
    tokens = with_one_second(tokens, _spelled_beside(subjects[0].bound, names))
    tokens = without_signs(tokens, subjects[0].text, tuple(s.text for s in subjects[1:]))
    tokens = with_degrees(tokens, subjects[0].bound, span, subjects[0].text)
    if len(subjects) == 1 and _is_in_parts(subjects[0].bound) and not any(t.text == "," for t in tokens):
        tokens = with_runs(tokens, "parts_in_short")  # '..., by mass' has its phrase
    tokens = with_parts_per(tokens, subjects[0].bound)
    made = names.declared(subjects[0].text)
    note = made.note if isinstance(made, NumberDecl) else ""
    tokens = with_finer(tokens, subjects[0].text, note)
    tokens = with_years_noted(tokens, subjects[0].bound, note)
    tokens = with_things_per(tokens, subjects[0].bound, span, subjects[0].text, note)
    tokens = spelled_amounts(tokens, _spelled_beside(subjects[0].bound, names), names.own)
    tokens = with_shares_of_a_value(tokens, subjects[0].bound, subjects[0].text, names)
    return with_time_within(tokens, made)


def _spelled_beside(bound: Bound, names: Names) -> Bound:
    """What numbers in words are read beside: of a step its time."""
    return names.terms[bound.start.lower()] if isinstance(bound, Step) else bound


def _is_in_parts(bound: Bound) -> bool:
    """Is it declared in parts per million or billion?"""
    unit = bound.unit if isinstance(bound, Typed) else None
    return unit is not None and unit.symbol.startswith(PARTS_PER)


def has_parts_per(words: Words) -> bool:
    return any(before.number and word_of(t) in PARTS_PER for before, t in pairwise(words.tokens))
