"""Steps in time: what is declared for them, and what is said of when they start, end and follow one another.

A step is written out when a sheet is read: when it starts, counted from some moment before all steps, and how
long it takes are declared things, and so is whether it was done where it may be left out. That the end is not
before the start needs no fact of its own: it is the start and the duration together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from scopecheck.core.construction import names_in
from scopecheck.core.declared import DONE, NOT_DONE, ChoiceDecl, Declaration, NumberDecl, Step
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Bound,
    Branch,
    Chosen,
    Compare,
    Const,
    Divide,
    Formula,
    Greatest,
    Implies,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Not,
    Op,
    Read,
    Rounded,
    Term,
    Truth,
)
from scopecheck.core.model import Given
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import StepKind
from scopecheck.vocabulary.names import Names, Typed, number_of

ZERO = Const(Fraction(0))
NO_VALUE = Divide(Const(Fraction(1)), Const(Fraction(0)))
"""What any quantity of a step is that was not done."""


def step_named(name: str, kind: StepKind, fields: tuple[str, ...], span: Span) -> Step:
    """A step or an event, with the names of what is declared for it."""
    start = f"time of {name}" if kind.moment else f"start of {name}"
    duration = "" if kind.moment else f"duration of {name}"
    return Step(name, start, duration, name if kind.optional else "", fields, span, kind.pausing)


def declared_for(step: Step, unit: Unit, fields: list[NumberDecl], note: str) -> Iterator[Declaration]:
    """Whether the step was done, when it starts, how long it takes, and its fields at each moment."""
    if step.done:
        yield ChoiceDecl(step.done, (DONE, NOT_DONE), note, step.span)
    zero = Fraction(0)
    yield NumberDecl(step.start, unit.kind, unit, False, Bound(zero, True), None, False, note, step.span)
    if step.duration:
        some = Bound(zero, False)
        yield NumberDecl(step.duration, unit.kind, unit, False, some, None, False, note, step.span)
    for pause in step.pauses:
        yield NumberDecl(pause, unit.kind, unit, False, Bound(zero, True), None, False, note, step.span)
    for one in fields:
        yield from (replace(one, name=name) for name in step.moments(one.name).values())


def given_of(step: Step) -> Iterator[Given]:
    """That each field lies, at both ends and on average, between its lowest and its highest value, and what
    ties the pauses.

    A quantity that changes in time is neither at its lowest nor at its highest value all the time, so its
    average is neither.
    """
    for own in step.fields if step.duration else ():
        names = step.moments(own)
        lowest, highest = Measured(names["lowest"]), Measured(names["highest"])
        ends = (Measured(names["start"]), Measured(names["end"]))
        facts = All(tuple(Compare("<=", a, b) for end in ends for a, b in ((lowest, end), (end, highest))))
        average = Measured(names["average"])
        within = All((Compare("<", lowest, average), Compare("<", average, highest)))
        still = All((Compare("=", lowest, average), Compare("=", average, highest)))
        text = f"{own} of {step.name} from its lowest to its highest, on average between them"
        yield Given(text, All((facts, Any((still, within)))), "", step.span)
    if step.pausing:
        yield Given(f"pauses of {step.name} shorter than {step.name}", _pauses_tied(step), "", step.span)


def _pauses_tied(step: Step) -> Formula:
    """The pauses together are one at least, no less than the longest, and leave time for the step itself.

    Any total from the longest on can be made up of pauses no longer than that.
    """
    longest, total = map(Measured, step.pauses)
    none = All((Compare("=", longest, ZERO), Compare("=", total, ZERO)))
    some = All((Compare("<", ZERO, longest), Compare("<=", longest, total)))
    return All((Any((none, some)), Compare("<", total, Measured(step.duration))))


def terms_of(step: Step, names: Names) -> Iterator[tuple[str, Typed]]:
    """What is measured of the step by name in small letters, with its end beside what is declared."""
    for name in step.numbers:
        declared = names.declarations[name]
        assert isinstance(declared, NumberDecl)
        typed = number_of(declared)
        yield name.lower(), replace(typed, term=guarded(step, typed.term))
    if not step.duration:
        for own in step.fields:
            yield f"{own} of {step.name}".lower(), names.terms[step.moments(own)["start"].lower()]
    else:
        declared = names.declarations[step.start]
        assert isinstance(declared, NumberDecl)
        yield f"end of {step.name}".lower(), replace(number_of(declared), term=end(step))


# ---- what is said of steps


def done(step: Step) -> Formula:
    """That the step was done."""
    return Chosen(step.done, DONE) if step.done else Truth(True)


def guarded(step: Step, value: Term) -> Term:
    """The value where the step was done; else none."""
    return Branch(done(step), value, NO_VALUE) if step.done else value


def start(step: Step) -> Term:
    """When the step starts; no value where it was not done."""
    return guarded(step, Measured(step.start))


def end(step: Step) -> Term:
    """When the step is over."""
    return guarded(step, _end(step))


def duration(step: Step) -> Term:
    """How long the step takes: of an event, no time."""
    return guarded(step, Measured(step.duration) if step.duration else Const(Fraction(0)))


def active(step: Step) -> Term:
    """How long the step takes without its pauses."""
    _, total = step.pauses
    return guarded(step, Add((Measured(step.duration), Negate(Measured(total)))))


def mean_of_ends(step: Step, own: str) -> Term:
    """The mean of a quantity at the start and at the end of the step."""
    names = step.moments(own)
    first, last = Measured(names["start"]), Measured(names["end"])
    half = Divide(Add((last, Negate(first))), Const(Fraction(2)))
    return guarded(step, Add((first, half)))


def _end(step: Step) -> Term:
    return Add((Measured(step.start), Measured(step.duration))) if step.duration else Measured(step.start)


def in_order(steps: tuple[Step, ...]) -> Formula:
    """That each of them is over before the next begins; those that were not done are passed over."""
    pairs = [(a, b) for i, a in enumerate(steps) for b in steps[i + 1 :]]
    return All(tuple(_when(_both(a, b), Compare("<=", _end(a), Measured(b.start))) for a, b in pairs))


def begun_in_order(steps: tuple[Step, ...]) -> Formula:
    """That each of them begins before the next does; those that were not done are passed over."""
    pairs = [(a, b) for i, a in enumerate(steps) for b in steps[i + 1 :]]
    return All(
        tuple(_when(_both(a, b), Compare("<", Measured(a.start), Measured(b.start))) for a, b in pairs)
    )


def last_of_all(steps: tuple[Step, ...]) -> Formula:
    """That all others are over before the last of them begins; those that were not done are passed over."""
    *others, last = steps
    begins = Measured(last.start)
    return All(tuple(_when(_both(other, last), Compare("<=", _end(other), begins)) for other in others))


def together(steps: tuple[Step, ...]) -> Formula:
    """That there is a time in which all of them go on; with an event among them, a moment."""
    sign: Op = "<" if all(step.duration for step in steps) else "<="
    return Compare(sign, Greatest(tuple(map(start, steps))), Least(tuple(map(end, steps))))


def same_span(steps: tuple[Step, ...]) -> Formula:
    """That all of them start at one moment and are over at one moment."""
    pairs = [(value(a), value(b)) for a, b in pairwise(steps) for value in (start, end)]
    return All(tuple(Compare("=", a, b) for a, b in pairs))


def in_chain(steps: tuple[Step, ...]) -> Formula:
    """That each starts at the moment at which the one before it is over."""
    return All(tuple(Compare("=", end(a), start(b)) for a, b in pairwise(steps)))


def next_after(first: Step, second: Step, all_steps: tuple[Step, ...]) -> Formula:
    """That the second begins when the first is over or later, and that no other step begins between."""
    follows = Compare("<=", end(first), start(second))
    others = (s for s in all_steps if s not in (first, second))
    return All((follows, *(Not(_begins_between(s, first, second)) for s in others)))


def _begins_between(other: Step, first: Step, second: Step) -> Formula:
    begins = Measured(other.start)
    # Without value where the first or the second was not done: what their numbers then are means nothing.
    after, before = Compare(">=", begins, end(first)), Compare("<", begins, start(second))
    return All((*_done_if_optional(other), after, before))


def _both(a: Step, b: Step) -> tuple[Formula, ...]:
    return (*_done_if_optional(a), *_done_if_optional(b))


def _done_if_optional(step: Step) -> tuple[Formula, ...]:
    return (done(step),) if step.done else ()


def _when(conditions: tuple[Formula, ...], fact: Formula) -> Formula:
    return Implies(All(conditions), fact) if conditions else fact


def without_gap(limit: Formula, moving: frozenset[str]) -> bool:
    """Is what meets the limit, on any of its readings, one range without a gap of these names, for what can
    be told?
    """
    match limit:
        case Compare(op=op, left=left, right=right):
            sides = (left, op in ("<", "<=")), (right, op in (">", ">="))
            return op != "!=" and all(_ranging(side, bounded, moving) for side, bounded in sides)
        case All(items=items):
            return all(without_gap(item, moving) for item in items)
        case Read(options=options):
            return all(without_gap(option, moving) for option in options)
        case Truth():
            return True
        case _:
            return False


def _ranging(term: Term, bounded_above: bool, moving: frozenset[str]) -> bool:
    """Does the term go one way with what moves, or is it a distance, where only great values are shut out?"""
    if moving.isdisjoint(names_in(term)):
        return True
    match term:
        case Measured():
            return True
        case Magnitude(item=item):
            return bounded_above and _ranging(item, bounded_above, moving)
        case Add(items=items):
            return all(_ranging(item, bounded_above, moving) for item in items)
        case Branch(then=then, otherwise=Divide()):
            return _ranging(then, bounded_above, moving)
        case Negate(item=item):
            return _ranging(item, not bounded_above, moving)
        case Rounded(item=item):
            return _ranging(item, bounded_above, moving)
        case Multiply(left=factor, right=item) | Divide(left=item, right=factor):
            # A negative factor would turn it round; a distance then bounds the other way.
            still = moving.isdisjoint(names_in(factor))
            return still and not isinstance(item, Magnitude) and _ranging(item, bounded_above, moving)
        case _:
            return False


SEVERAL: dict[str, Callable[[tuple[Step, ...]], Formula]] = {
    "ORDER": in_order, "BEGUN": begun_in_order, "TOGETHER": together, "SAME": same_span, "CHAIN": in_chain,
    "LAST": last_of_all,
}  # fmt: skip
