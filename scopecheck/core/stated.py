"""What a limitation states by itself: its ends, and each end of a range as a limitation of its own."""

from __future__ import annotations

from collections.abc import Callable, Collection
from fractions import Fraction
from math import ceil, floor, gcd
from typing import Literal, TypeAlias

from scopecheck.core.construction import names_in
from scopecheck.core.formula import All, Compare, Const, Formula, Op, Read, Term, Truth
from scopecheck.core.linear import linear_form
from scopecheck.core.model import Limitation, Sheet
from scopecheck.foundations.record import record

Side: TypeAlias = Literal["low", "high"]
SIDES: tuple[Side, ...] = ("low", "high")
MIRRORED: dict[Op, Op] = {"<": ">", "<=": ">=", ">": "<", ">=": "<=", "=": "=", "!=": "!="}


def farthest_by_itself(whole: Collection[str], op: Op, term: Term, limit: Fraction) -> Fraction:
    """How far an end lets its term go: to the limit, or to the last whole number that it leaves in.

    "More than three" lets a count go down to four. `whole` are the names that hold whole numbers only.
    """
    form = dict(linear_form(term) or {})
    constant = form.pop(None, Fraction(0))
    if not form or not set(form) <= set(whole) or any(c.denominator != 1 for c in form.values()):
        return limit
    step = gcd(*(c.numerator for c in form.values()))
    steps = (limit - constant) / step
    last = {">=": ceil(steps), ">": floor(steps) + 1, "<=": floor(steps), "<": ceil(steps) - 1}
    return constant + step * last[op] if op in last else limit


def says_nothing(formula: Formula, sheet: Sheet) -> bool:
    """Is the formula, as usually read, one that anything meets, such as `comprising`?"""
    match formula:
        case Truth(value):
            return value
        case All(items):
            return all(says_nothing(item, sheet) for item in items)
        case Read(group, options):
            return says_nothing(options[sheet.groups[group].base], sheet)
        case _:
            return False


def names_only(sheet: Sheet, limitation: Limitation) -> bool:
    """Are these words that, as usually read, limit nothing, or say no more than that steps are done?

    Not of words whose readings the drafter wrote: each of these is meant to limit.
    """
    formula = limitation.formula
    if not isinstance(formula, Read) or sheet.groups[formula.group].of_ones_own:
        return False
    done = {step.done for step in sheet.steps}
    usual = formula.options[sheet.groups[formula.group].base]
    return says_nothing(usual, sheet) or names_in(usual) <= done


@record
class RangeEnd:
    """One end of a range that a limitation states: what it asks by itself, and what the rest of it asks."""

    side: Side
    formula: Formula
    rest: Formula


TakesPart: TypeAlias = Callable[[int, int], bool]
"""Whether a reading of a group takes part, as a strained one does only when asked for."""


def range_ends(limitation: Limitation, takes_part: TakesPart) -> tuple[RangeEnd, ...]:
    """The two ends of a range, each as a limitation of its own; () where the limitation is no such range.

    A limitation is a range if on every reading that takes part it asks for low ends and for high ends and for
    nothing else.
    """
    parted = _parted(limitation.formula, takes_part)
    if parted is None:
        return ()
    low, high = parted
    if names_in(low) != names_in(high):
        return ()
    return RangeEnd("low", low, high), RangeEnd("high", high, low)


def _parted(formula: Formula, takes_part: TakesPart) -> tuple[Formula, Formula] | None:
    """What a formula asks of low ends and of high ends, if it asks for both and for nothing else."""
    if isinstance(formula, Read):
        nothing = All(()), All(())
        options = [
            _parted(option, takes_part) if takes_part(formula.group, r) else nothing
            for r, option in enumerate(formula.options)
        ]
        known = [option for option in options if option is not None]
        if len(known) < len(options):
            return None
        low, high = zip(*known, strict=True)
        return Read(formula.group, low), Read(formula.group, high)
    sides: dict[Side, list[Formula]] = {"low": [], "high": []}
    for item in formula.items if isinstance(formula, All) else ():
        side = _side(item, takes_part)
        if not side:
            return None
        sides[side].append(item)
    if not sides["low"] or not sides["high"]:
        return None
    return All(tuple(sides["low"])), All(tuple(sides["high"]))


def _side(item: Formula, takes_part: TakesPart) -> Side | Literal[""]:
    """Which end of something measured a formula is; '' if it is none.

    That there is some of it at all, as 'at most 5 %' is read by some, makes no low end of a high one.
    """
    match item:
        case Read(group, options):
            taking = (o for r, o in enumerate(options) if takes_part(group, r))
            sides = {_side(option, takes_part) for option in taking}
        case All(items):
            sides = {_side(one, takes_part) for one in items if not _is_presence(one)}
        case Compare(op, left, right) if op not in ("=", "!=") and bool(names_in(left)) != bool(
            names_in(right)
        ):
            return "low" if (op if names_in(left) else MIRRORED[op]) in (">", ">=") else "high"
        case _:
            return ""
    return sides.pop() if len(sides) == 1 else ""


def _is_presence(item: Formula) -> bool:
    """Is it `0 < x`?"""
    nothing = Const(Fraction(0))
    return isinstance(item, Compare) and item.op == "<" and item.left == nothing
