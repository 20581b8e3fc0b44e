"""Ways to read words on several steps: apart, of the one they are about, by nouns for what is done."""

from __future__ import annotations

from scopecheck.core.construction import names_in
from scopecheck.core.declared import Step
from scopecheck.core.formula import All, Any, Formula
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.other_things import told_of_step
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import Subject, at_its_end
from scopecheck.resolve.line_reader import LineReader
from scopecheck.rewording.in_order import steps_apart
from scopecheck.rewording.moments import with_moments_named
from scopecheck.rewording.plainer_steps import (
    as_durations,
    with_steps_called,
)
from scopecheck.vocabulary.names import Typed
from scopecheck.vocabulary.steps import without_gap


def of_steps_apart(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """Words that say several things of steps, each read as a line of its own; None where one is not.

    What compares how long steps last is read of their durations.
    """
    if not any(isinstance(s.bound, Step) for s in subjects):
        return None
    for one_is_enough, pieces in steps_apart(tokens, subjects):
        if found := reader.piece_by_piece(pieces, words):
            return Any(found) if one_is_enough else All(found)
    if said := as_durations(tokens, subjects):
        timed = tuple(_duration_of(reader, s) for s in subjects)
        other = Words(words.text, said, words.span)
        if reader.trying().holds(other, timed):
            return reader.condition(other, timed)
    return None


def _duration_of(reader: LineReader, subject: Subject) -> Subject:
    """How long a step takes; any other thing as it is."""
    step = subject.bound
    if not isinstance(step, Step) or not step.duration:
        return subject
    return replace(subject, bound=reader.names.terms[step.duration.lower()], text=step.duration)


def moments_beside(
    reader: LineReader,
    tokens: tuple[Token, ...],
    words: Words,
    subjects: tuple[Subject, ...],
    turned: bool = False,
) -> Formula | None:
    """`at least 50 °C lower than that of the annealing`, of quantities of two steps: at all times of both.

    Each is looked at where it is highest beside the other where that is lowest, and the other way round,
    which a warning tells. None for other words.
    """
    if len(subjects) != 2 or not any(s.moments for s in subjects):
        return None
    if not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return None
    corners = [
        tuple(at_its_end(s, at if at in s.moments else "start") for s, at in zip(subjects, ends, strict=True))
        for ends in (("highest", "lowest"), ("lowest", "highest"))
    ]
    said = [with_moments_named(tokens, subjects, things, reader.names) for things in corners]
    pieces = [(Words(words.text, t, words.span), of) for t, of in zip(said, corners, strict=True)]
    if not all(said) or not all(reader.trying().holds(*piece) for piece in pieces):
        return None if turned else moments_beside(reader, tokens, words, subjects[::-1], turned=True)
    found = All(tuple(reader.as_it_stands(*piece) for piece in pieces))
    moving = names_in(*(s.bound.term for of in corners for s in of if isinstance(s.bound, Typed)))
    if not without_gap(found, moving):
        return None
    first, second = (s.text for s in corners[0])
    told = Diagnostic(
        "warning", words.span, "read of the whole of both: the words name no moments",
        f"What is asked holds for {first} beside {second}, and the other way round.",
        f"if other moments are meant, write them in symbols: {first}, {second}",
    )  # fmt: skip
    reader.groups.passed += [told] if told not in reader.groups.passed else []
    return found


def of_one_step(reader: LineReader, words: Words, subjects: tuple[Subject, ...]) -> Formula | None:
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
        if all(s is one or s in named for s in subjects) and reader.trying().holds(words, (one,))
    ]
    return reader.condition(words, found[0]) if len(found) == 1 else None


def with_step_first(reader: LineReader, words: Words, subjects: tuple[Subject, ...]) -> Formula | None:
    """`ambient, covering : if the ambient temperature is below 5 degC, the element is covered`: of the step,
    under the condition, whichever stands first left of the colon; None for other words."""
    steps = tuple(s for s in subjects if isinstance(s.bound, Step))
    others = tuple(s for s in subjects if not isinstance(s.bound, Step))
    turned = (*steps, *others)
    if len(steps) != 1 or subjects[0] is steps[0] or not reader.trying().holds(words, turned):
        return None
    return reader.condition(words, turned)


def of_steps_called(
    reader: LineReader, job: Job, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`after the incubation`, of a step called incubating, by its name, which a warning tells."""
    said, called = with_steps_called(tokens, subjects, reader.names)
    other = Words(words.text, said, words.span)
    if not called or not reader.trying().holds(other, subjects):
        return None
    warnings = tuple(told_of_step(job, run, step.name) for run, step in called)
    reader.groups.passed += [w for w in warnings if w not in reader.groups.passed]
    return reader.condition(other, subjects)
