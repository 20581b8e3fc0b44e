"""Words read of what several things make: a sum, a difference, a value worked out; or of each alone."""

from __future__ import annotations

from scopecheck.core.formula import Add, Magnitude, Negate
from scopecheck.foundations.quantity import difference_kind
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import MOST_WORDS_OF_A_VALUE, word_of
from scopecheck.matching.line_words import L, LineWords
from scopecheck.matching.shared_limits import begins_anew
from scopecheck.matching.subjects import Subject
from scopecheck.matching.together import (
    difference_of,
    meant_together,
    of_the_whole_limit,
)
from scopecheck.matching.worked_out import WorkedOut
from scopecheck.vocabulary.names import Typed

_SIGNED = frozenset(("positive", "negative"))


def in_total(job: L, tokens: tuple[Token, ...]) -> tuple[L, tuple[Token, ...]] | None:
    """`oil, gum : together at most 5 %`: the words to be read of the sum, if they say so."""
    if len(job.subjects) < 2 or not job.alone or (together := sum_of_all(job)) is None:
        return None
    small = tuple(s.text.lower() for s in job.subjects)
    read = job.of(together)
    aside = (a for a in meant_together(tokens, small) if of_the_whole_limit(a, small))
    agreeing = (a for a in aside if read.readable(a.rest))
    found = next(agreeing, None)
    return None if found is None else (read, found.rest)


def sum_of_all(job: LineWords) -> Subject | None:
    """All that stands left of the colon as one sum; None where it is of several kinds, or of levels."""
    terms = [s.bound for s in job.subjects if isinstance(s.bound, Typed)]
    kind = terms[0].kind if len(terms) == len(job.subjects) else None
    if kind is None or any(t.kind != kind or kind.basis == "level" for t in terms):
        return None
    whole = Typed(Add(tuple(t.term for t in terms)), kind)
    return Subject(whole, " + ".join(s.text for s in job.subjects), job.subjects[0].span)


def difference(job: L, tokens: tuple[Token, ...]) -> tuple[L, tuple[Token, ...]] | None:
    """`a, b : the difference between a and b is 1 to 3 mm`: the words to be read of the difference.

    In either direction; where a phrase has the words it is asked which way round.
    """
    if len(job.subjects) != 2 or not job.alone or job.sort:
        return None
    first, second = job.subjects
    terms = [s.bound for s in job.subjects if isinstance(s.bound, Typed)]
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
    read = job.of(Subject(apart, f"difference between {first.text} and {second.text}", first.span))
    anew = begins_anew(tokens[count:], (s.text for s in job.subjects))
    return (read, tokens[count:]) if not anew and read.readable(tokens[count:]) else None


def at_first_worked_out(job: L, tokens: tuple[Token, ...]) -> tuple[L, tuple[Token, ...]] | None:
    """`a, b : the smaller of a and b is at most 3 mm`: the words to be read of the value worked out.

    All that stands left of the colon is named in the words; alone it may be the value itself.
    """
    if job.sort or not job.alone or not all(isinstance(s.bound, Typed) for s in job.subjects):
        return None
    for end in range(min(len(tokens) - 1, MOST_WORDS_OF_A_VALUE), 2, -1):
        made = job.worked_out_of_several(tokens[:end])
        if made is None or not (_is_value(job, made) or _are_named(job, made, tokens[end:])):
            continue
        read = job.of(Subject(made.value, made.symbols, job.subjects[0].span))
        anew = begins_anew(tokens[end:], (s.text for s in job.subjects))
        if not anew and read.readable(tokens[end:]):
            for name in made.made_of:
                job.place.names.speak(name.name)
            return read, tokens[end:]
    return None


def _is_value(job: LineWords, made: WorkedOut) -> bool:
    return len(job.subjects) == 1 and isinstance(job.first, Typed) and job.first.term == made.value.term


def _are_named(job: LineWords, made: WorkedOut, rest: tuple[Token, ...]) -> bool:
    """Is each thing left of the colon part of the value, or, but for the first, named behind it?"""
    parts, behind = {d.name for d in made.made_of}, f" {' '.join(map(word_of, rest))} "
    left = [s.text for s in job.subjects if s.text not in parts]
    return len(left) < len(job.subjects) and all(f" {text.lower()} " in behind for text in left)


def of_each(job: L, tokens: tuple[Token, ...]) -> tuple[tuple[L, tuple[Token, ...]], ...]:
    """`gap, rim : gap and rim each at least 3 mm`: the words to be read of each thing alone, or none.

    All of the names stand there, or none does; those that do not stand behind: `less than half the rim`.
    """
    if len(job.subjects) < 2 or not job.alone or job.sort:
        return ()
    each = listed("asides", "each")
    said = [word_of(t) for t in tokens]
    names = {word for s in job.subjects for word in s.text.lower().split()}
    beside = each | listed("asides", "beside_each") | names | {"and", ","}
    end = next((i for i, w in enumerate(said) if w not in beside), 0)
    rest, behind = tokens[end:], f" {' '.join(said[end:])} "
    front = next((i for i, w in enumerate(said) if i and w in each), 0)
    if front and not end and beside.issuperset(said[front:]):
        # '5 to 10 wt% of each of oil and gum'
        rest, end, said = tokens[: front - (said[front - 1] in ("of", "in"))], len(said), said[front:]
    named = names.intersection(said[:end])
    jobs = job.each()
    if named and named != names:
        jobs = [read for read in jobs if named.issuperset(read.subjects[0].text.lower().split())]
        others = [s for s in job.subjects if all(s is not read.subjects[0] for read in jobs)]
        if len(jobs) < 2 or not all(f" {s.text.lower()} " in behind for s in others):
            return ()
    agreed = not each.isdisjoint(said[:end]) and bool(rest) and all(read.readable(rest) for read in jobs)
    return tuple((read, rest) for read in jobs) if agreed else ()
