"""What a case says of a step: `10 to 25 min`, `for 20 min`, `done`, `not done`."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from scopecheck.core.declared import DONE, NOT_DONE, Step
from scopecheck.core.formula import Add, Chosen, Compare, Const, Formula, Measured, Truth, Value
from scopecheck.exact.fitting import bare_number
from scopecheck.foundations.diagnostics import Trouble, did_you_mean, trouble
from scopecheck.foundations.quantity import Unit, number_text
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Page
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import Own
from scopecheck.language.syntax import NumberNode

_FROM_TO = regex(r"(?:from\s+)?(\d\S*(?: ?[^\s\d]\S*)??)\s*(?:\bto\b|-)\s*(\d\S*(?: ?\S+)?)")
_FOR = regex(r"for\s+(\d\S*(?: ?\S+)?)")
_AT = regex(r"(?:at\s+)?(\d\S*(?: ?\S+)?)")


@record
class Said:
    """What a cell says of a step, and the values that it fixes."""

    facts: tuple[Formula, ...]
    point: dict[str, Value]


@record
class Cell:
    """A stretch of the sheet that speaks of a step; `unit` is that of the column, if its heading has one."""

    page: Page
    start: int
    end: int
    unit: Unit | None
    own: Own

    @property
    def span(self) -> Span:
        return self.page.span(self.start, self.end)


def said_of(step: Step, cell: Cell, unit: Unit) -> Said | None:
    """What a cell says of the step, or None where it is to be read as words. Raises Trouble at a mistake."""
    text = " ".join(cell.page.plain[cell.start : cell.end].split()).lower()
    if text in ("done", "is done", "was done", "yes"):
        return _done(step)
    if text in ("not done", "is not done", "was not done", "left out", "no", "none"):
        return _not_done(step, cell.span)
    if match := _FROM_TO.fullmatch(cell.page.plain, cell.start, cell.end):
        return _from_to(step, cell, unit, match.span(1), match.span(2))
    if match := _FOR.fullmatch(cell.page.plain, cell.start, cell.end):
        return _for(step, cell, unit, match.span(1))
    if match := _AT.fullmatch(cell.page.plain, cell.start, cell.end):
        if step.duration:
            raise trouble(
                cell.span, f"'{cell.span.text}' of {step.name}: how long, or when?",
                "A step has a start, an end and a duration.",
                f"write for {match.group(1)}, or when it starts and ends: 0 to {match.group(1)}",
            )  # fmt: skip
        time = _time(cell, unit, *match.span(1))
        return _fixed(step, {step.start: time})
    return None


def no_such_word(step: Step, span: Span) -> Trouble:
    """The error for a word in a cell of a step that is none of those that may stand there."""
    known = ("done", "not done", "silent", "unknown", "any")
    return trouble(
        span, f"'{span.text}' says nothing of {step.name} that is known",
        "A cell of a step says when it starts and ends, how long it takes, or whether it is done.",
        did_you_mean(span.text, known)
        or f"write one of these: {', '.join(known)}; or a time, such as 10 to 25 min or for 15 min",
    )  # fmt: skip


def _done(step: Step) -> Said:
    if not step.done:
        return Said((Truth(True),), {})
    return Said((Chosen(step.done, DONE),), {step.done: DONE})


def _not_done(step: Step, span: Span) -> Said:
    if not step.done:
        raise not_optional(step, span)
    return Said((Chosen(step.done, NOT_DONE),), {step.done: NOT_DONE})


def not_optional(step: Step, span: Span) -> Trouble:
    """The error for a step that is said not to be done and is not declared so."""
    unit = "min"
    return trouble(
        span, f"{step.name} is not declared as a step that may be left out",
        "Without that it is done in every thing that can exist.",
        f"declare it so: {step.name}  {'step' if step.duration else 'event'} in {unit}, may be left out",
        also=((step.span, "declared here"),),
    )  # fmt: skip


def _from_to(step: Step, cell: Cell, unit: Unit, one: tuple[int, int], other: tuple[int, int]) -> Said:
    if not step.duration:
        raise trouble(
            cell.span, f"{step.name} is an event, which takes no time", "", "write one time, such as 10 min"
        )
    last = _time(cell, unit, *other)
    first = _time(cell, unit, *one, borrowed=last[1])
    if last[0] <= first[0]:
        raise ends_first(step, cell.span)
    return _fixed(step, {step.start: first, step.duration: (last[0] - first[0], last[1])})


def ends_first(step: Step, span: Span) -> Trouble:
    """The error for a step that is over when it begins, or before."""
    return trouble(
        span, f"{step.name} ends before it starts, or takes no time",
        "First comes when the step starts, then when it ends; both are counted from the same moment.",
        f"check their order; what takes no time is an event: {step.name}  event in min",
        also=((step.span, "declared here"),),
    )  # fmt: skip


def _for(step: Step, cell: Cell, unit: Unit, at: tuple[int, int]) -> Said:
    if not step.duration:
        raise trouble(cell.span, f"{step.name} is an event, which takes no time")
    long = _time(cell, unit, *at)
    if long[0] <= 0:
        raise ends_first(step, cell.span)
    return _fixed(step, {step.duration: long})


def _fixed(step: Step, values: dict[str, tuple[Fraction, Unit]]) -> Said:
    made = _done(step)
    facts = tuple(Compare("=", Measured(n), Const(v)) for n, (v, _) in values.items())
    point: dict[str, Value] = {**made.point, **{n: v for n, (v, _) in values.items()}}
    return Said((*(made.facts if step.done else ()), *facts), point)


def _time(cell: Cell, own: Unit, start: int, end: int, borrowed: Unit | None = None) -> tuple[Fraction, Unit]:
    """A written time and its unit: the one that stands there, or the other time's, or the column's."""
    node = parse_facts(cell.page, start, end, cell.own)
    if not isinstance(node, NumberNode):
        raise trouble(cell.page.span(start, end), "a time was expected here", "", "write for example 10 min")
    unit = node.number.unit or borrowed or cell.unit
    if unit is None:
        raise bare_number(node.span, node.number, own)
    if unit.kind != own.kind:
        raise trouble(
            node.span, f"{number_text(node.number.value)} {unit.symbol} is no time",
            f"It is a {unit.kind.name}.", f"write a time in {own.symbol}",
        )  # fmt: skip
    return unit.to_base(node.number.value), unit


def ends_of(fact: Formula) -> bool:
    """Does the fact say that a start and a duration together come to a written time?"""
    match fact:
        case Compare(op="=", left=Add(items=(Measured(), Measured())), right=Const()):
            return True
        case _:
            return False


def put_end(fact: Formula, steps: Iterable[Step], point: dict[str, Value], span: Span) -> bool:
    """Whether the row fixes when the step starts too; then its duration is put with the values fixed.

    Raises Trouble where the end is not after the start.
    """
    for step in steps:
        whole = Add((Measured(step.start), Measured(step.duration)))
        begins = point.get(step.start)
        match fact:
            case Compare(left=left, right=Const(value)) if left == whole and isinstance(begins, Fraction):
                if value <= begins:
                    raise ends_first(step, span)
                point[step.duration] = value - begins
                return True
            case _:
                continue
    return False
