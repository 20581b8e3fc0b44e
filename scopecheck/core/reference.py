"""What a reader already knows: the listed cases as points, and plain values for what nobody stated."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import floor
from typing import assert_never

from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import (
    OTHERS,
    All,
    Article,
    Chosen,
    Compare,
    Const,
    Formula,
    Implies,
    Includes,
    Measured,
    Not,
    Rounded,
    Value,
    conjuncts,
    lies_within,
)
from scopecheck.core.model import Case, Sheet
from scopecheck.core.plain import stated_ends
from scopecheck.core.shares import with_implied_shares
from scopecheck.foundations.record import record


@record
class Reference:
    """A case to depart from as little as possible; '' where only plain values are known.

    `stated` are the names of which the case itself states one value.
    """

    name: str
    article: Article
    stated: frozenset[str] = frozenset()


def stated_values(sheet: Sheet, case: Case, exact: bool = False) -> dict[str, Value]:
    """The values that a case states outright; ranges and words state none.

    A value stated as measured counts by its digits, unless only `exact` values are asked for. What is said of
    each of the like parts is said of those that are there; what is not there at all is there no times. What
    the stated shares of a composition say of its other shares counts as stated.
    """
    key = ("exact values" if exact else "values", id(case))
    if key not in sheet.looked_up:
        sheet.looked_up[key] = (case, _stated_values(sheet, case, exact))
    return dict(sheet.looked_up[key][1])


def _stated_values(sheet: Sheet, case: Case, exact: bool) -> dict[str, Value]:
    numbers: dict[str, Value] = {}
    members: dict[str, dict[str, bool]] = {}
    least = {d.name: d.lower.value for d in sheet.declarations if isinstance(d, NumberDecl) and d.lower}
    stack: list[Formula] = [case.facts]
    later: list[Implies] = []
    while stack or later:
        if not stack:
            stack = [i.right for i in later if _holds_there(i.left, numbers)]
            later = [i for i in later if not _holds_there(i.left, numbers)] if stack else []
            continue
        match stack.pop(0):
            case All(items):
                stack = [*items, *stack]
            case Implies() as implied:
                later.append(implied)
            case Not(Compare(">", Measured(name), Const(value))) if least.get(name) == value:
                numbers[name] = value
            case Compare("=", Measured(name), Const(value)):
                numbers[name] = value
            case Compare("=", Rounded(Measured(name)), Const(value)) if not exact:
                numbers[name] = value
            case Chosen(name, member):
                numbers[name] = member
            case Includes(name, member):
                members.setdefault(name, {})[member] = True
            case Not(Includes(name, member)):
                members.setdefault(name, {})[member] = False
            case _:
                pass
    for d in sheet.declarations:
        if isinstance(d, SetDecl) and (not exact or set(members.get(d.name, ())) == set(d.members)):
            if d.name not in members:
                continue
            numbers[d.name] = frozenset(m for m, has in members[d.name].items() if has)
    return with_implied_shares(sheet, numbers)


def _holds_there(condition: Formula, numbers: dict[str, Value]) -> bool:
    """Is there so much of something, by what is stated?"""
    match condition:
        case Compare(">=", Measured(name), Const(least)):
            value = numbers.get(name)
            return isinstance(value, Fraction) and value >= least
        case _:
            return False


def default_values(sheet: Sheet, formulas: Iterable[Formula]) -> dict[str, Value]:
    """A plain value for every name: the middle of its stated range, else its stated number nearest zero.

    With no number stated, the bound nearest zero, else 0; of a choice the first member; a set is empty.
    """
    ends: dict[str, dict[tuple[Fraction, Fraction], None]] = {}
    # Of formulas that join others these, for claims share their limitations.
    for formula in (item for joined in formulas for item in conjuncts(joined)):
        key = ("ends", id(formula))
        if key not in sheet.looked_up:
            sheet.looked_up[key] = (formula, stated_ends((formula,)))
        for name, stated in sheet.looked_up[key][1].items():
            ends.setdefault(name, {}).update(dict.fromkeys(stated))
    return {d.name: _default(d, tuple(ends.get(d.name, ()))) for d in sheet.declarations}


def _default(d: Declaration, ends: tuple[tuple[Fraction, Fraction], ...]) -> Value:
    match d:
        case NumberDecl():
            values = sorted({value for value, _ in ends})
            inside = [value for value in values if lies_within(value, d.lower, d.upper)]
            if len(inside) > 1:
                steps = [step for _, step in ends if step > 0]
                step = Fraction(1) if d.whole else min(steps, default=Fraction(0))
                middle = (inside[0] + inside[-1]) / 2
                rounded = floor(middle / step) * step if step else middle
                if lies_within(rounded, d.lower, d.upper):
                    return rounded
            if (inside and not d.whole) or (inside and inside[0].denominator == 1):
                return min(inside, key=lambda v: (abs(v), v))
            return _allowed_near_zero(d)
        case ChoiceDecl(members=members):
            return members[0]
        case SetDecl():
            return frozenset()
        case _:
            assert_never(d)


def _allowed_near_zero(d: NumberDecl) -> Fraction:
    """Zero of its scale if the bounds allow it, else a short number near the bound nearest to zero."""
    bounds = [b.value for b in (d.lower, d.upper) if b is not None]
    unit = Fraction(1) if d.whole else d.unit.factor
    near = min(bounds, key=lambda v: (abs(v), v), default=Fraction(0))
    middle = [sum(bounds, Fraction(0)) / 2] if len(bounds) == 2 else []
    zero = d.unit.to_base(Fraction(0))  # of degrees that of the scale
    candidates = [zero, Fraction(0), near, near + unit, near - unit, *middle]
    return next((v for v in candidates if lies_within(v, d.lower, d.upper)), near)


def _can_be(d: Declaration, value: Value) -> bool:
    """Is a value one that its number can have? Of a region it is an end, and may be left out itself."""
    if not isinstance(d, NumberDecl) or not isinstance(value, Fraction):
        return True
    return lies_within(value, d.lower, d.upper) and (not d.whole or value.denominator == 1)


def references(sheet: Sheet, formulas: tuple[Formula, ...], first: Case | None = None) -> list[Reference]:
    """The cases that a witness may be told by: `first` alone if given, else all, inside cases first.

    What a case leaves unsaid is filled from the first inside case, then, but for shares of a whole, from the
    first other case that states it, then by `default_values`.
    """
    plain = default_values(sheet, formulas)
    order = {"inside": 0, "outside": 1, "document": 2, "class": 3}
    listed = sorted(sheet.cases, key=lambda case: order[case.role])
    shares = {name for made in sheet.compositions for name in made.members}  # of one case they add up
    for case in reversed(listed):
        said = stated_values(sheet, case)
        first_inside = case.role == "inside" and case is listed[0]
        known = (d for d in sheet.declarations if d.name in said and (first_inside or d.name not in shares))
        plain |= {d.name: said[d.name] for d in known if _can_be(d, said[d.name])}
    plain |= _between(sheet, plain)
    if first is not None:
        own = stated_values(sheet, first)
        return [Reference(first.name, {**plain, **_between(sheet, own), **own}, frozenset(own))]
    stated = ((case.name, stated_values(sheet, case)) for case in listed)
    found = [
        Reference(name, {**plain, **_between(sheet, own), **own}, frozenset(own))
        for name, own in stated
        if own
    ]
    return found or [Reference("", plain)]


def _between(sheet: Sheet, known: Mapping[str, Value]) -> dict[str, Value]:
    """What the values at the start and at the end of a step plainly come to in between."""
    found: dict[str, Value] = {}
    for step in sheet.steps:
        for own in step.fields if step.duration else ():
            at = step.moments(own)
            start, end = known.get(at["start"]), known.get(at["end"])
            if isinstance(start, Fraction) and isinstance(end, Fraction):
                found[at["lowest"]], found[at["highest"]] = min(start, end), max(start, end)
                found[at["average"]] = (start + end) / 2
    return found


__all__ = ["OTHERS", "Reference", "default_values", "references", "stated_values"]
