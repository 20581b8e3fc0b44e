"""Ways to read words of several things of which each has a limit of its own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from typing import TypeAlias

from scopecheck.core.formula import All, Any, ExactlyOne, Formula, Implies
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import Match, joined_parts, split_list, word_of
from scopecheck.matching.circumstances import SO_MANY_PER
from scopecheck.matching.everyday import with_both
from scopecheck.matching.of_ratios import in_proportion
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import Subject
from scopecheck.matching.together import in_pairs, says_together
from scopecheck.resolve.line_reader import LineReader, Things
from scopecheck.rewording.by_name import is_share_of, parted_by_name
from scopecheck.rewording.conditional import FEW
from scopecheck.rewording.forms import with_runs
from scopecheck.rewording.in_order import (
    Pieces,
    at_and_for,
    how_often,
    in_order,
    says_how_much,
)
from scopecheck.rewording.of_each import of_each_part
from scopecheck.rewording.one_phrase import can_be_read, is_read, whole
from scopecheck.rewording.other_cases import other_cases, which_in_which_case
from scopecheck.rewording.plainer_steps import ending_at_once
from scopecheck.rewording.two_limits import limits_apart, of_every_one, which_is_of_what
from scopecheck.vocabulary.names import Typed

Pair: TypeAlias = tuple[tuple[Token, ...], int, int]
"""What is said of two of several things, and which these are."""


def of_their_own(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """Two limits that are of different things, each read as a line of its own; None for other words.

    Raises Trouble where one of them is not read, for neither may be read of what the other is of.
    """
    ways = list(limits_apart(tokens, subjects, reader.names))
    if not ways:
        return None
    job = Job(reader.place, subjects, words, frozenset())
    for way in ways if not any(way.either for way in ways) else ():
        if not all(said for said, _ in way.halves):
            continue
        each = [(Words(job.text(said), said, job.span(said)), of) for said, of in way.halves]
        if all(reader.trying().holds(said, of) for said, of in each):
            if way.of_every_one:
                told = of_every_one(job.span(way.of_every_one), job.text(way.of_every_one))
                reader.groups.passed += [told] if told not in reader.groups.passed else []
            return All(tuple(reader.condition(said, of) for said, of in each))
    raise which_is_of_what(job.span(tokens))


def in_other_cases(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: Things
) -> Formula | None:
    """What is so where a condition holds, and what of another thing elsewhere; None for other words.

    Raises Trouble where one of them is not read, for neither may be read past the other's case.
    """
    cases = other_cases(tokens, subjects)
    if cases is None:
        return None
    job = Job(reader.place, subjects, words, frozenset())
    each = [(Words(words.text, said, job.span(said)), of) for said, of in cases.halves]
    if not each or not all(reader.trying().holds(said, of) for said, of in each):
        raise which_in_which_case(words.span)
    return All(tuple(reader.condition(said, of) for said, of in each))


def free_of_each(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`oil, gum : free of oil and gum`, `no oil or gum`: of each of the two things alone."""
    said = [word_of(t) for t in tokens]
    width = run_at(said, 0, "asides", "free_of")
    members = split_list(tokens[width:], "or" if "or" in said else "and") if width else ()
    names = [" ".join(w for w in map(word_of, m) if w not in ("the", "a", "an")) for m in members]
    if sorted(names) != sorted(s.text.lower() for s in subjects):
        return None
    by_name = dict(zip(names, members, strict=True))
    jobs = [reader.job(tokens[:width] + by_name[s.text.lower()], words, (s,)) for s in subjects]
    return All(tuple(whole(*job) for job in jobs)) if all(is_read(*job) for job in jobs) else None


def either_or_both(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
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
        tried = [reader.trying().job(w, words, (s,)) for w, s in zip(sides, subjects, strict=True)]
        if all(named) and all(is_read(*one) and can_be_read(*one) for one in tried):
            jobs = (reader.job(w, words, (s,)) for w, s in zip(sides, subjects, strict=True))
            limits = tuple(whole(*job) for job in jobs)
            return ExactlyOne(limits) if apart else Any(limits)
    return None


def first_alone(
    reader: LineReader, job: Job, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`at least 200 ms and at most half of the cycle`: of both things, but at first of one alone."""
    for left, right in joined_parts(tokens) if len(subjects) == 2 else ():
        if not job.may_part(left, right):
            continue
        with suppress(Trouble):
            trying = reader.trying()
            tried = [trying.job(left, words, subjects[:1]), trying.job(right, words, subjects)]
            if all(is_read(*one) and can_be_read(*one) for one in tried):
                jobs = reader.job(left, words, subjects[:1]), reader.job(right, words, subjects)
                return All(tuple(whole(*one) for one in jobs))
    return None


def field_of_each_part(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """A limit of one field of like parts by another one, for each part that is there."""
    limited: list[Formula] = []
    fields = [f[1] for s in subjects if (f := reader.names.field_of(s.text))]
    text = " ".join(map(word_of, tokens))
    turned = len(fields) == 2 and 0 <= text.find(fields[1].lower()) < text.find(fields[0].lower())
    ordered = subjects[::-1] if turned and "ratio" not in text else subjects
    for there, said, own in of_each_part(tokens, ordered, reader.names):
        job, limit = reader.job(said, words, own), Words(words.text, said, words.span)
        if is_read(*job):
            limited.append(Implies(there, whole(*job)))
        elif len(said) < len(tokens) and reader.trying().holds(limit, own):
            limited.append(Implies(there, reader.condition(limit, own)))
        else:
            return None
    return All(tuple(limited)) if limited else None


def limits_in_order(
    reader: LineReader,
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
    ways = [way for way in ways if not any(map(is_share_of, way, subjects))]
    jobs = [[reader.job(said, words, (s,)) for said, s in zip(w, subjects, strict=True)] for w in ways]
    read = [way for way in jobs if all(is_read(*job) for job in way)]
    return All(tuple(whole(*job) for job in read[0])) if len(read) == 1 else None


def each_by_its_name(reader: LineReader, job: Job, tokens: tuple[Token, ...], words: Words) -> Formula | None:
    """Limits of several things, each read as a line of what it names; None where one is not."""
    subjects = job.subjects
    if len(subjects) < 2 or any(map(_has_nouns, job.found(tokens))):
        return None
    for pieces in parted_by_name(tokens, subjects):
        if says_together(words.text) and not all(any(t.number for t in piece) for piece in pieces):
            continue  # 'comprising oil and wax in a total amount of 5 wt%' is no limit of the wax
        each = [(piece, (s,)) for piece, s in zip(pieces, subjects, strict=True)]
        if all(reader.trying().if_read(piece, words, thing) is not None for piece, thing in each):
            found = [reader.if_read(piece, words, thing) for piece, thing in each]
            return All(tuple(f for f in found if f is not None))
    return None


def each_by_its_name_loosely(
    reader: LineReader, job: Job, tokens: tuple[Token, ...], words: Words
) -> Formula | None:
    """`a tensile strength of ... and an elongation at break of ...`, of a strength and an elongation: each
    as a line of its own, past what stands beside its name."""
    if len(job.subjects) < 2 or job.sort or says_together(words.text):
        return None
    for pieces in parted_by_name(tokens, job.subjects):
        if not all(any(t.number or word_of(t) in NUMBER_WORDS for t in piece) for piece in pieces):
            continue
        each: Pieces = [(piece, (s,)) for piece, s in zip(pieces, job.subjects, strict=True)]
        if found := reader.piece_by_piece(each, words):
            return All(found)
    return None


def held_at(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`hold, heat : for 20 to 40 min at 100 to 120 degC`: how long, and at what, each by itself.

    `less than 70 % at 45 minutes` tells when something is so, which is a condition.
    """
    measured = [isinstance(s.bound, Typed) and s.bound.kind is not None for s in subjects]
    denied = any(word_of(t) in ("not", "no", "never", "without") for t in tokens)
    if measured != [True, True] or sum(map(_is_time, subjects)) != 1 or denied:
        return None
    for way in at_and_for(tokens):
        for order in (subjects, subjects[::-1]):
            long = next(said for said, s in zip(way, order, strict=True) if _is_time(s))
            if _begins_with_moment(long):
                continue
            jobs = [reader.job(said, words, (s,)) for said, s in zip(way, order, strict=True)]
            if all(is_read(*job) for job in jobs):
                return All(tuple(whole(*job) for job in jobs))
            # 'is baked at 200 °C for 20 minutes': past what is done
            pieces: Pieces = [(said, (s,)) for said, s in zip(way, order, strict=True)]
            led = word_of(tokens[int(word_of(tokens[0]) in ("is", "are", "being"))]).endswith("ed")
            if led and (found := reader.piece_by_piece(pieces, words)):
                return All(found)
    return None


def _is_time(subject: Subject) -> bool:
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    return kind is not None and kind.dimension == TIME


def _begins_with_moment(tokens: tuple[Token, ...]) -> bool:
    """`at 45 minutes`, `at an age of 28 days`; no `at least 45 minutes`."""
    said = [word_of(t) for t in tokens[:2]]
    return said[:1] == ["at"] and said[1:] not in (["least"], ["most"])


def so_often(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`dose, doses : 5 mg twice daily`: how much, and how often, each by itself."""
    if len(subjects) != 2 or sum(_is_how_often(reader, s) for s in subjects) != 1:
        return None
    for way in how_often(with_runs(tokens, "plainer_runs")):
        for order in (subjects, subjects[::-1]):
            pieces: Pieces = [(said, (s,)) for said, s in zip(way, order, strict=True)]
            if found := reader.piece_by_piece(pieces, words):
                return All(found)
    return None


def described_apart(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`dose, interval : 5 mg every 12 hours`, `ribs, height : four ribs each having a height of 2 to 4 mm`:
    the first thing and the others, each by itself; no condition of one another.
    """
    said = [word_of(t) for t in tokens]
    if len(subjects) < 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return None
    for at, end in (*_at_intervals(tokens, said, subjects), *_each_having(said, subjects)):
        pieces: Pieces = [(tokens[:at], subjects[:1]), (tokens[end:], subjects[1:])]
        if tokens[end:] and (found := reader.piece_by_piece(pieces, words)):
            return All(found)
    return None


def _at_intervals(
    tokens: tuple[Token, ...], said: list[str], subjects: tuple[Subject, ...]
) -> Iterator[tuple[int, int]]:
    """Where how often it is done begins, of what is no time and a time."""
    timed = [_is_time(s) for s in subjects] == [False, True]
    if not timed or not listed("limits", "conditions").isdisjoint(said):
        return
    for at in range(1, len(said) - 1):
        if said[at] == "every" and (tokens[at + 1].number or said[at + 1] in NUMBER_WORDS):
            yield at, at
        if any(said[at : at + len(run)] == run for run in _INTERVALS):
            yield at, at + 1


_INTERVALS = (["at", "intervals", "of"], ["at", "an", "interval", "of"])


def _each_having(said: list[str], subjects: tuple[Subject, ...]) -> Iterator[tuple[int, int]]:
    """Where what each of so many has begins, behind the number of them; none are so many at the most."""
    counted = isinstance(subjects[0].bound, Typed) and subjects[0].bound.whole
    own = subjects[0].text.lower().split()[-1:]
    at = next((i + 1 for i, w in enumerate(said) if [w] == own), 0)
    denied = FEW | listed("limits", "conditions")
    if not counted or not at or not denied.isdisjoint(said[:at]):
        return
    start = at + (said[at : at + 1] == [","])
    of_counts = any(isinstance(s.bound, Typed) and s.bound.whole for s in subjects[1:])
    ways = (run for run in _HAVING if run[-1] != "of" or not of_counts)  # six holes may be those of both rows
    run = next((run for run in ways if said[start : start + len(run)] == run), None)
    if run:
        yield at, start + len(run)


_HAVING = (
    ["each", "having"], ["each", "with"], ["each", "of", "which", "has"], ["each", "of", "them", "having"],
    ["having"], ["which", "have"], ["that", "have"], ["which", "each", "have"], ["that", "each", "have"],
    ["each", "of"], ["of"],
)  # fmt: skip


def _is_how_often(reader: LineReader, subject: Subject) -> bool:
    """`doses  count  "per day"`, `frequency  in 1/d`."""
    bound = subject.bound
    if not isinstance(bound, Typed):
        return False
    note = reader.names.note_of(subject.text).lower().split()
    per = any(word in ("per", "a", "each", "daily", "weekly") for word in note)
    return (bound.whole and per) or bool(bound.kind and bound.kind.dimension == SO_MANY_PER)


def of_each_two(tokens: tuple[Token, ...], subjects: Things) -> list[Pair]:
    """What is said of more than two things as what is said of two of them each, and of which."""
    if at_once := ending_at_once(tokens, subjects):
        return at_once
    names = tuple(s.text for s in subjects)
    ratios = in_proportion(tokens, names)
    return [(said, i, i + 1) for i, said in enumerate(ratios)] or in_pairs(tokens, names)


def _begins_with_condition(tokens: tuple[Token, ...]) -> bool:
    """`at a pressure of 210 bar, the leakage is below 15 mL/min`: no limits in a row, but a sentence."""
    said = [word_of(t) for t in tokens]
    if said[:1] != ["at"] or said[1:2] not in (["a"], ["an"], ["the"]) or "," not in said:
        return False
    return not listed("conditional", "verbs").isdisjoint(said[said.index(",") :])


def _has_nouns(match: Match) -> bool:
    """Is it a phrase that names its things itself?"""
    return sum(f.slot.kind == "noun" for f in match.fills) > 1
