"""Words read more loosely, where nothing reads them as they stand: without what only says which thing is
limited, how it is measured or what surrounds the limit, or with the second of two things named in them.

Each way has warnings that tell what was read past, or taken for what.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from scopecheck.core.construction import names_in
from scopecheck.foundations.diagnostics import Diagnostic, read_past_warning
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.bearers import (
    of_each_bearer,
    of_each_part,
    without_owner_of_part,
    without_what_it_is_of,
)
from scopecheck.matching.chart import FILLERS, GOVERNING, word_of
from scopecheck.matching.circumstances import (
    without_circumstance,
    without_condition,
    without_occasion,
    without_reference,
    without_treatment,
)
from scopecheck.matching.converted import told_again, without_converted
from scopecheck.matching.longer_names import (
    without_description,
    without_name_and_more,
    without_noted,
    without_number_behind_name,
    without_verb_and_object,
    without_what_a_sign_stands_for,
)
from scopecheck.matching.of_units import without_what_is_counted, without_what_units_are_of, without_whole
from scopecheck.matching.one_quantity import (
    of_each_owner,
    without_what_has_so_many,
    without_what_is_round_it,
    without_what_it_lies_between,
)
from scopecheck.matching.other_things import told_of_other_thing
from scopecheck.matching.passed_over import (
    without_qualifiers,
    without_qualifiers_of_members,
    without_words_round_members,
)
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.surroundings import without_lead, without_surroundings, without_verb_before_limit
from scopecheck.matching.the_other import (
    told_of_the_other,
    with_both_called,
    with_names_alone,
    with_names_apart,
    with_the_other_named,
)
from scopecheck.matching.told_past import told, told_before_member, told_of_circumstance
from scopecheck.matching.turning_words import turns_the_limit
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]


@record
class Looser:
    """What is read in place of the words, the warnings that tell of it, and the names that must take part."""

    said: Tokens
    warnings: tuple[Diagnostic, ...]
    taking_part: frozenset[str] = frozenset()
    measured: bool = False
    """Was it how, where or in which state it is measured that was read past?"""
    named: bool = False
    """Was it only the measure behind the name of each?"""
    by_name: bool = False
    """Do the names of both stand there in the place of what each is called?"""


_BESIDE_HOW = (without_qualifiers, without_noted, without_description, without_name_and_more)
_HOW = (without_reference, without_circumstance, without_condition, without_treatment, without_occasion)


def looser(job: Job, tokens: Tokens) -> Iterator[Looser]:
    """The ways to read the words more loosely, those first that leave out least.

    A number is never read past, but in a condition of measuring or the like.
    """
    commas = any(t.text == "," for t in tokens) and _of_a_condition(job, tokens)
    own = _own_words(job)
    for way in _ways(job, tokens):
        if turns_the_limit(tokens, way.said, own):
            continue
        if commas and not any(t.text == "," for t in way.said):
            continue  # 'if coated, ...': without its comma the condition would take what it is a condition of
        of_two = not way.named and _makes_one_of_two(job, tokens, way.said)
        if len(job.subjects) > 1 and (of_two or _only_names(job, way.said)):
            continue
        if way.measured or not _numbers(tokens) - _numbers(way.said):
            yield way


def _makes_one_of_two(job: Job, tokens: Tokens, said: Tokens) -> bool:
    """Do words that are left out make one value of several: `the overlap of A and B`, `A replaces B`?"""
    kept = {t.start for t in said}
    own = _own_words(job)
    return any(word_of(t) in _OF_TWO - own for t in tokens if t.start not in kept)


def _own_words(job: Job) -> frozenset[str]:
    """The words of the names left of the colon, and of their notes."""
    written = (f"{s.text} {job.place.names.note_of(s.text)}" for s in job.subjects)
    return frozenset(w for text in written for w in text.lower().split())


def _only_names(job: Job, said: Tokens) -> bool:
    """Is a name all that is left, which alone would be read as 'equal to'? What was left out said more."""
    names = {w for s in job.subjects for w in s.text.lower().split()} | FILLERS
    return names.issuperset(map(word_of, said))


_OF_TWO = listed("measures", "of_two_or_more")


def _of_a_condition(job: Job, tokens: Tokens) -> bool:
    """Do the words begin with a condition, or does the claim have its word right before them?"""
    at = tokens[0].start
    before = job.words.span.source.text[max(0, at - _LONGEST_WORD) : at].lower().split()[-1:]
    conditions = GOVERNING
    return not conditions.isdisjoint((*before, word_of(tokens[0])))


_LONGEST_WORD = 20
"""Characters in which a word of condition stands, with what parts it from the next."""


def _numbers(tokens: Tokens) -> set[int]:
    """Where the words have a number, a share or a multiple."""
    fractions = word_lists()["fractions"].keys() | {"half", "twice", "thrice"}
    return {t.start for t in tokens if t.number or word_of(t) in fractions}


def _ways(job: Job, tokens: Tokens) -> Iterator[Looser]:
    also = without_noted(job, tokens) if job.sort == "moments" else ()
    yield from (_past(job, *way) for way in chain(without_verb_before_limit(job, tokens), also))
    if not job.subjects or job.sort not in ("", "parts"):
        return
    for said, *brackets in without_converted(job, tokens):
        yield Looser(said, tuple(told_again(job, bracket) for bracket in brackets), measured=True)
    each, bearer = of_each_bearer(tokens) if len(job.subjects) > 1 else ((), ())
    if each:
        yield _past(job, each, bearer)
    for said, passed in of_each_part(job, tokens):
        yield _past(job, said, passed)
    yield from _without_what_numbers_are_of(job, tokens)
    for said, passed in chain(
        without_noted(job, tokens),
        without_qualifiers(job, each or tokens),
        without_description(job, tokens),
        without_verb_and_object(job, tokens),
        without_name_and_more(job, tokens),
        without_whole(job, tokens),
        without_owner_of_part(job, tokens),
        without_what_it_is_of(job, tokens),
        without_number_behind_name(job, tokens),
    ):
        yield _past(job, said, bearer, passed)
    yield from _round_it(job, tokens)
    yield from _without_each_owner(job, tokens)
    for said, *runs in without_qualifiers_of_members(job, tokens):
        by_words = {" ".join(map(word_of, run)): run for run in reversed(runs)}
        yield Looser(said, tuple(told_before_member(job, run) for run in reversed(by_words.values())))
    yield from _without_how_it_is_measured(job, tokens)
    for said, *around in without_surroundings(job, tokens):
        yield _past(job, said, *around)
    yield from _of_two_things(job, tokens)
    for said, *around in without_words_round_members(job, tokens):
        yield _past(job, said, *around)
    for said, *around in without_lead(job, tokens) if not _of_a_condition(job, tokens) else ():
        yield _past(job, said, *around)


def _without_what_numbers_are_of(job: Job, tokens: Tokens) -> Iterator[Looser]:
    """Without what a sign stands for, what is counted, and what the units of the numbers are of."""
    for said, called in without_what_a_sign_stands_for(job, tokens):
        yield Looser(said, _told_unless_noted(job, called))
    for said, counted in without_what_is_counted(job, tokens):
        warnings = _told_unless_noted(job, counted)
        yield Looser(said, warnings)
        for more, passed in without_qualifiers(job, said):
            yield Looser(more, (*_past(job, more, passed).warnings, *warnings))
    for said, *runs in without_what_units_are_of(job, tokens):
        of_each = [w for w in (told(job, run) for run in runs) if w]
        past = [words for w in of_each for words in w.read_past]
        yield Looser(said, tuple(read_past_warning(w.span, past, w.cause, w.help) for w in of_each[:1]))


def _without_how_it_is_measured(job: Job, tokens: Tokens) -> Iterator[Looser]:
    """Without how, where or in which state it is measured, and what else may then be left out."""
    for said, how in chain(*(find(job, tokens) for find in _HOW)):
        measured = () if _noted(job, how) else (told_of_circumstance(job, how),)
        yield Looser(said, measured, measured=True)
        for more, passed in chain(*(find(job, said) for find in _BESIDE_HOW)):
            yield Looser(more, (*_past(job, more, passed).warnings, *measured), measured=True)
        for more, *around in chain(without_surroundings(job, said), without_lead(job, said)):
            yield Looser(more, (*_past(job, more, *around).warnings, *measured), measured=True)


def _of_two_things(job: Job, tokens: Tokens) -> Iterator[Looser]:
    """With the second of two things, or both, called as they are declared; both must take part then."""
    both = (names_in(s.bound.term) for s in job.subjects if isinstance(s.bound, Typed))
    taking_part = frozenset[str]().union(*both)
    yield from _called_apart(job, tokens, taking_part)
    for said, lead, run in with_the_other_named(job, tokens):
        if "first" in map(word_of, run) and "second" in map(word_of, lead) and not _is_second(job):
            continue  # the first of two that stand in the other order
        other = told_of_the_other(job, run) if run else None
        yield Looser(said, (*_past(job, said, lead).warnings, *((other,) if other else ())), taking_part)
    yield from _both_called(job, tokens, taking_part)


def _round_it(job: Job, tokens: Tokens) -> Iterator[Looser]:
    """One quantity without what is said round its limit; a count without what has so many."""
    for said in without_what_has_so_many(job, tokens):
        yield Looser(said, ())
        for more, counted in without_what_is_counted(job, said):
            yield Looser(more, _told_unless_noted(job, counted))
        for more, passed in without_qualifiers(job, said):
            yield _past(job, more, passed)
    between = without_what_it_lies_between(job, tokens)
    for said, told_round in chain(without_what_is_round_it(job, tokens), between):
        yield Looser(said, told_round)


def _both_called(job: Job, tokens: Tokens, taking_part: frozenset[str]) -> Iterator[Looser]:
    """The words with the names of both things in the place of what each of them is called."""
    for said, *runs in with_both_called(job, tokens):
        warnings = (told_of_the_other(job, run, which) for which, run in enumerate(runs))
        yield Looser(said, tuple(w for w in warnings if w), taking_part)
    for said, by_place in with_names_alone(job, tokens):
        warnings = (told_of_the_other(job, run, which) for which, run in by_place.items())
        yield Looser(said, tuple(w for w in warnings if w), taking_part, named=True)


def _called_apart(job: Job, tokens: Tokens, taking_part: frozenset[str]) -> Iterator[Looser]:
    """The words with names in the place of what has all of their words apart."""
    two = len(job.subjects) == 2
    for said, by_place in with_names_apart(job, tokens):
        warnings = (
            told_of_the_other(job, run, which)
            if len(job.subjects) > 1
            else told_of_other_thing(job, run, job.subjects[0])
            for which, run in by_place.items()
        )
        yield Looser(said, tuple(w for w in warnings if w), taking_part, by_name=two)


def _without_each_owner(job: Job, tokens: Tokens) -> Iterator[Looser]:
    """What each of several has, as one value; and that without what is said beside its name."""
    ways = (without_noted, without_qualifiers, without_name_and_more, without_surroundings, without_lead)
    for said, told_each in of_each_owner(job, tokens):
        yield Looser(said, told_each)
        for more, *around in chain(*(find(job, said) for find in ways)):
            yield Looser(more, (*told_each, *_past(job, more, *around).warnings))


def _is_second(job: Job) -> bool:
    """Is what stands first left of the colon called the second by its name or its note?"""
    name = job.subjects[0].text
    said = f"{name} {job.place.names.note_of(name)}".lower().split()
    return "second" in said or any(word.endswith("2") for word in said)


def _told_unless_noted(job: Job, words: Tokens) -> tuple[Diagnostic, ...]:
    """That the words were taken for the thing; nothing where its note has them."""
    note = job.place.names.note_of(job.subjects[0].text)
    noted = {w.strip(",;()") for w in note.lower().split()}
    said = {word_of(t) for t in words} - FILLERS - {"individual"}
    return () if said <= noted else (told_of_other_thing(job, words, job.subjects[0]),)


def _noted(job: Job, words: Tokens) -> bool:
    """Does the note of the declaration have these very words?"""
    note, called = job.place.names.note_of(job.subjects[0].text), job.subjects[0].text.lower()
    said = [word_of(t) for t in words]
    in_name = said == ["a", "day"] and called.endswith(("per day", "a day"))
    in_name |= said[1:2] == ["as"] and said[0] in _WORKED_OUT and " ".join(said[2:]) == called
    return in_name or job.text(words).lower().strip(" ,") in note.lower()


_WORKED_OUT = ("calculated", "expressed", "computed", "given", "determined", "counted")


def _past(job: Job, said: Tokens, *runs: Tokens) -> Looser:
    """The words without those of the runs, each of which a warning tells."""
    warnings = (told(job, run) for run in runs if not FILLERS.issuperset(map(word_of, run)))
    return Looser(said, tuple(w for w in warnings if w))
