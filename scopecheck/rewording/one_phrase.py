"""Words as one phrase of what stands left of the colon: its readings as a formula, or the error."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.formula import All, Formula, Not
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, slip_for, trouble
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import CALENDAR, Token, no_fixed_length
from scopecheck.matching.beside_another import (
    multiples,
    of_both,
    per_one,
    surpassing,
    times,
    to_a_multiple,
    with_names_in_words,
)
from scopecheck.matching.chart import Match, joined_parts, matches, word_of
from scopecheck.matching.made_of_several import at_first_worked_out, difference, in_total, of_each
from scopecheck.matching.other_things import nouns_of_others
from scopecheck.matching.phrase_advice import (
    NOT_READ,
    bare_letter_c,
    bare_parts_per,
    no_phrase,
    parts_of_no_whole,
    shortened,
)
from scopecheck.matching.phrase_finding import Job, Read
from scopecheck.matching.phrase_slots import named_subjects, occurrence
from scopecheck.matching.shared_limits import is_bare_limit, is_upper, leaves_open_of_what
from scopecheck.matching.shares_of_others import amount_of_another, is_part_of_it, share_of_another
from scopecheck.occurrences.defined_words import apply, note_settled_twice
from scopecheck.occurrences.readings import can_be_tried, read
from scopecheck.vocabulary.names import Typed


def is_read(job: Job, tokens: tuple[Token, ...]) -> bool:
    return bool(tokens) and (
        job.readable(tokens) or _beside_another(job, tokens) is not None or of_both(job, tokens) is not None
    )


def _beside_another(job: Job, tokens: tuple[Token, ...]) -> Read | None:
    return (
        surpassing(job, tokens)
        or multiples(job, tokens)
        or to_a_multiple(job, tokens)
        or times(job, tokens)
        or per_one(job, tokens)
        or with_names_in_words(job, tokens)
    )


def whole(job: Job, tokens: tuple[Token, ...]) -> Formula:
    """All of the words as one formula. Raises Trouble if no phrase, or more than one, reads them."""
    if other := multiples(job, tokens):
        return whole(*other)
    found = job.found(tokens)
    if len(found) > 1:
        ways = " and ".join(f"'{m.pattern.plain}'" for m in found[:3])
        raise trouble(
            job.span(tokens), f"these words are a phrase in {len(found)} ways", f"They match {ways}.",
            "write fewer of the words, or the meaning in symbols: words, two blanks, exactly, facts",
        )  # fmt: skip
    if found:
        return _read(job, found[0], tokens)
    if other := share_of_another(job, tokens) or in_total(job, tokens) or difference(job, tokens):
        return whole(*other)
    if other := at_first_worked_out(job, tokens) or _beside_another(job, tokens):
        return whole(*other)
    if both := of_both(job, tokens):
        return All(tuple(whole(job.of(job.subjects[0]), words) for words in both))
    if sides := job.split(tokens):
        left, right = sides
        return All((whole(job.beside_more(right), left), whole(job.beside_more(left), right)))
    if each := of_each(job, tokens):
        return All(tuple(whole(*one) for one in each))
    beside = job.asides(tokens)
    if agreeing := next((a for a in beside if not a.wrong), None):
        return whole(job, agreeing.rest)
    for aside in beside:
        lift = f"{aside.help}; or lift only: {job.text(aside.rest).removeprefix('of ')}"
        raise trouble(job.span(aside.words), aside.wrong, "", lift)
    # Last: 'not more than 5 %, based on the total weight' is a limit with a basis, and denies none.
    if said := denied(job, tokens):
        return _denied(job, said, tokens[len(tokens) - len(said) - 1])
    raise _not_read(job, tokens)


def _not_read(job: Job, tokens: tuple[Token, ...]) -> Trouble:
    """What is said of words that nothing reads. Raises what a phrase for other things has to say itself."""
    if job.place.tried:
        return trouble(job.span(tokens), f"{NOT_READ} '{shortened(job.text(tokens))}'", "", "")
    for number, word in pairwise(tokens):
        if (number.number or word_of(number) in NUMBER_WORDS) and word_of(word) in CALENDAR:
            return no_fixed_length(job.span((number, word)), in_words=True)
    if len(job.subjects) == 1 and (advice := bare_parts_per(job, tokens) or bare_letter_c(job, tokens)):
        return advice
    if job.subjects and (advice := parts_of_no_whole(job, tokens)):
        return advice
    if misspelled := _misspelled(job, tokens):
        return misspelled
    alone = len(job.subjects) == 1 and isinstance(job.first, Typed)
    if alone and (other := amount_of_another(job, tokens)) and not is_part_of_it(job, other):
        own = job.subjects[0].text
        return trouble(
            job.span(tokens), f"these words say how much {other} there is, and not how much {own}",
            f"An amount of {other} is none of {own}.",
            f"put {other} left of the colon; or, if a share of the {other} is meant, write: % of the {other}",
        )  # fmt: skip
    if isinstance(job.first, Typed) and any(leaves_open_of_what(*sides) for sides in joined_parts(tokens)):
        return trouble(
            job.span(tokens), "these words do not tell what each of the two limits is of",
            "One of them stands beside another quantity, or is only part of a number.",
            "put each limit on a line of its own, in all its words",
        )  # fmt: skip
    any_number = replace(job.tests(), subjects=0)
    for match in matches(tokens, job.place.phrases, any_number):
        if len(job.subjects) > 1 or not any(f.slot.kind == "limit" for f in match.fills):
            named_subjects(job, match, tokens)
    return no_phrase(job, tokens)


def _misspelled(job: Job, tokens: tuple[Token, ...]) -> Trouble | None:
    """The error for `betwen 2 and 4 mm`: a word that no phrase has, and nearly one that limits."""
    known = job.place.phrases.words() | {w for name in job.place.names.all() for w in name.lower().split()}
    known |= listed("items", "nouns") | listed("measures", "nouns")  # a 'layer' is no slip for 'later'
    limits = [w for w in listed("limits", "inside") if len(w) > _SHORT]
    for token in tokens:
        word = word_of(token)
        if token.sort != "word" or word in known or len(word) <= _SHORT:
            continue
        if meant := slip_for(word, limits):
            what = f"{NOT_READ} '{shortened(job.text(tokens))}'"
            return trouble(job.span((token,)), what, f"No phrase has '{word}'.", f"did you mean '{meant}'?")
    return None


_SHORT = 4


def can_be_read(job: Job, tokens: tuple[Token, ...]) -> bool:
    """Whether `whole` has a formula for the words, without making all of it. Raises Trouble as it does."""
    found = job.found(tokens)
    if len(found) == 1 and not job.defined(tokens):
        at = occurrence(job, found[0], tokens, whole)
        return can_be_tried(found[0].entry, at, job.place.names)
    whole(job, tokens)
    return True


def denied(job: Job, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """What 'not' stands before, where a phrase reads it; else nothing.

    `Not less than 2 mm or more than 8 mm` denies both; of two limits to one side it may deny the first alone,
    and so of two that an 'and' joins.
    """
    index = 1 if len(tokens) > 1 and word_of(tokens[0]) in ("is", "are", "being") else 0
    behind = tokens[index + 1 :]
    if word_of(tokens[index]) != "not" or not behind:
        return ()
    if not job.readable(behind) and not with_names_in_words(job, behind):
        return ()
    joined = joined_parts(behind) if isinstance(job.first, Typed) else ()
    if any(job.readable(a) and job.readable(b) for a, b in joined):
        return ()
    either = [i for i, t in enumerate(behind) if word_of(t) == "or"]
    sides = ((behind[:i], behind[i + 1 :]) for i in either)
    alike = any(is_bare_limit(a) and is_bare_limit(b) and is_upper(a) == is_upper(b) for a, b in sides)
    limits = any(word_of(t) == "than" for t in behind)
    return () if alike and limits else behind


def _denied(job: Job, tokens: tuple[Token, ...], by: Token) -> Formula:
    """What 'not' stands before, denied. `Larger than the rim but larger than 2 mm`: the first limit alone."""
    one, said = job, tokens
    if not job.found(tokens) and not job.split(tokens):
        one, said = with_names_in_words(job, tokens) or (job, tokens)
    sides = one.split(said) if not one.found(said) else None
    if sides is None:
        return Not(whole(job, tokens))
    first, later = sides
    joint, negated = said[len(first) : len(said) - len(later)], (by, *first)
    if [word_of(t) for t in joint] == ["and"] and is_upper(negated) == is_upper(later):
        told = _of_the_first_alone(job, first)
        job.place.groups.passed += [told] if told not in job.place.groups.passed else []
    before = one.beside_more(later)
    lacking = whole(before, negated) if before.found(negated) else _denied(before, first, by)
    return All((lacking, whole(one.beside_more(first), later)))


def _of_the_first_alone(job: Job, first: tuple[Token, ...]) -> Diagnostic:
    """The warning that a 'not' before two limits is read of the first of them."""
    return Diagnostic(
        "warning", job.span(first), f"'not' is read of '{shortened(job.text(first))}' alone",
        "It may be meant of both limits, or of the two together.",
        "put each limit on a line of its own, in all its words",
    )  # fmt: skip


def _at_no_moment(job: Job, match: Match, tokens: tuple[Token, ...]) -> Trouble | None:
    """`differ by at least 50 K` of quantities of two steps, each with other values at other moments."""
    if job.sort or match.entry.takes(match.pattern) < 2 or not any(s.moments for s in job.subjects):
        return None
    named = [next(iter(s.moments.values()))[0] if s.moments else s.text for s in job.subjects]
    return trouble(
        job.span(tokens), "these words do not say at which moments the two are compared",
        "A quantity of a step may be another one at each moment of it.",
        f"write it in symbols of what is meant, such as {' and '.join(named)}: two blanks, exactly, facts",
    )  # fmt: skip


def _read(job: Job, match: Match, tokens: tuple[Token, ...]) -> Formula:
    """The readings of the phrase that the words are, with what the description defines them to be."""
    if at_no_moment := _at_no_moment(job, match, tokens):
        raise at_no_moment
    at, entry = occurrence(job, match, tokens, whole), match.entry
    names, groups = job.place.names, job.place.groups
    groups.passed += [told for told in nouns_of_others(job, match) if told not in groups.passed]
    by_entry = {m.entry: m for m in job.defined(tokens)}
    laid = ((d, by_entry.get(d.entry)) for d in groups.definitions)
    tried = (apply(d, occurrence(job, m, tokens, whole), names, groups) for d, m in laid if m)
    defined = tuple(applied for applied in tried if applied)
    if defined:
        note_settled_twice(entry, at, names, groups, defined)
    return read(entry, at, names, groups, entry.title, defined)
