"""Words read past some of them, and the sides of a condition, each read as a line by itself."""

from __future__ import annotations

from functools import partial
from itertools import chain

from scopecheck.core.construction import names_in
from scopecheck.core.formula import Formula
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.bearers import without_bearer_of_all, without_object, without_purpose
from scopecheck.matching.chart import word_of
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import Subject, without_unit
from scopecheck.matching.told_past import told
from scopecheck.resolve.beside_one_another import of_parts_beside, without_the_named
from scopecheck.resolve.line_reader import LineReader
from scopecheck.resolve.ready import tokens_of
from scopecheck.rewording.conditional import conditional
from scopecheck.rewording.looser import Looser, looser
from scopecheck.rewording.one_phrase import whole
from scopecheck.rewording.sides import Sides


def looser_way(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Looser | None:
    """The first looser way in which the words are read; None if there is none."""
    look = partial(_looked_loosely, reader, tokens, words, subjects)
    found = reader.once("loosely", words, tokens, subjects, look)
    return found if isinstance(found, Looser) else None


def _looked_loosely(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Looser | None:
    trying = reader.trying()
    tied = {word_of(t) for t in tokens} & listed("names", "tying") if len(subjects) > 1 else set[str]()
    for way in looser(Job(reader.place, subjects, words, without_unit(tokens)), tokens):
        if not tied <= {word_of(t) for t in way.said}:
            continue  # 'the overall mass of the oil and the gum' is no limit of each
        found = _in_some_way(trying, way.said, words, subjects, way.by_name) if way.said else None
        if found and (not way.taking_part or way.taking_part <= names_in(found)):
            return way
    return None


def read_loosely(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """What the words say, read more loosely, the warnings told; else None."""
    way = looser_way(reader, tokens, words, subjects)
    if way is None:
        return None
    told = [t.span for t in reader.groups.passed if t.span.source is words.span.source]
    reader.groups.passed += [
        w for w in way.warnings
        if not any(t.start <= w.span.start and w.span.end <= t.end for t in told)
    ]  # fmt: skip
    return _in_some_way(reader, way.said, words, subjects, way.by_name)


def _in_some_way(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...], by_name: bool
) -> Formula | None:
    found = reader.if_read(tokens, words, subjects) or of_parts_beside(reader, tokens, words, subjects)
    return found or (without_the_named(reader, tokens, words, subjects) if by_name else None)


def sides_of(reader: LineReader, job: Job, loosely: bool = False) -> Sides:
    """How what stands on either side of a condition is read: each as a line by itself."""
    trying = reader.trying()

    def words(tokens: tuple[Token, ...]) -> Words:
        return Words(job.text(tokens), tokens, job.span(tokens))

    def reads(tokens: tuple[Token, ...], things: tuple[Subject, ...]) -> bool:
        said = words(tokens)
        if trying.reads_plainly(said, things):
            return True
        return loosely and looser_way(trying, tokens, said, things) is not None

    def formula(tokens: tuple[Token, ...], things: tuple[Subject, ...]) -> Formula:
        said = words(tokens)
        plainly = not loosely or trying.reads_plainly(said, things)
        found = None if plainly else read_loosely(reader, tokens, said, things)
        return found or whole(*reader.job(tokens_of(said, things, reader.names), said, things))

    return Sides(job, reads, formula, reader.groups)


def under_a_condition_loosely(reader: LineReader, job: Job, tokens: tuple[Token, ...]) -> Formula | None:
    """A limit under a condition, of which the one or the other is read more loosely; else None."""
    if len(job.subjects) < 2 or job.sort not in ("", "switches"):
        return None
    try:
        if conditional(sides_of(reader.trying(), job, True), tokens) is None:
            return None
    except Trouble:
        return None
    return conditional(sides_of(reader, job, True), tokens)


def for_what_it_is_made(
    reader: LineReader, job: Job, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`configured to open when the pressure exceeds 5 bar` as what it does, which a warning tells.

    `Heating the powder to 350 °C` as heating to it, `the rod has a length ... and a width ...` as the two.
    """
    made_for = without_purpose(tokens) if len(subjects) > 1 else ()
    known = frozenset(w for n in reader.names.all() for w in n.lower().split())
    bearers = without_bearer_of_all(tokens, subjects, known)
    for said, passed in chain(made_for, without_object(tokens, subjects), bearers):
        other = Words(words.text, said, words.span)
        if reader.trying().holds(other, subjects):
            warning = told(job, passed) if passed else None
            reader.groups.passed += [t for t in (warning,) if t and t not in reader.groups.passed]
            return reader.condition(other, subjects)
    return None
