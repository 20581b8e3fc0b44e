"""Plainness: is a thing far from the border of what was meant, near it, or on its edge?

`tightened` shrinks a region so that whatever meets the result lies in the region together with everything
within a scale of it in each measured quantity. A witness from the tightened region is plain; no reader needs
to look twice to see on which side it lies.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import assert_never

from scopecheck.core.construction import names_in, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Chosen,
    Compare,
    Const,
    ExactlyOne,
    Formula,
    Implies,
    Includes,
    IsWhole,
    Measured,
    Not,
    Op,
    Read,
    Truth,
)
from scopecheck.core.linear import difference, linear_form
from scopecheck.core.model import Sheet

DENIED: Mapping[Op, Op] = {"<": ">=", "<=": ">", "=": "!=", "!=": "=", ">=": "<", ">": "<="}


def stated_ends(formulas: Iterable[Formula]) -> dict[str, tuple[tuple[Fraction, Fraction], ...]]:
    """For each quantity the numbers it is compared with directly, each with the step of its digits."""
    found: dict[str, list[tuple[Fraction, Fraction]]] = {}
    for formula in formulas:
        for node in nodes(formula):
            match node:
                case Compare(_, Measured(name), Const(value, written)) | Compare(
                    _, Const(value, written), Measured(name)
                ):
                    end = (value, written.step if written else Fraction(0))
                    if end not in found.setdefault(name, []):
                        found[name].append(end)
                case _:
                    pass
    return {name: tuple(ends) for name, ends in found.items()}


def scales(sheet: Sheet, meant: Formula, near: bool = False) -> dict[str, Fraction]:
    """How far from the border a plain thing is at least, by quantity; whole numbers have scale 0.

    A tenth of the meant range's width, or of |end| where only one end is stated; two written steps where that
    is no more than one; at most half the room to a physical bound. With `near`: one written step.
    What is limited together with others alone has its part of a tenth of that end; without an end other than
    0 it has no scale.
    """
    ends = stated_ends((meant,))
    tied = _ends_of_sums(sheet, meant, near)
    result: dict[str, Fraction] = {}
    for d in sheet.declarations:
        if not isinstance(d, NumberDecl):
            continue
        stated = ends.get(d.name, ())
        if d.whole or not stated:
            if d.whole or d.name in tied:
                result[d.name] = Fraction(0) if d.whole else tied[d.name]
            continue
        values = [value for value, _ in stated]
        step = max(s for _, s in stated)
        width = max(values) - min(values) if len(set(values)) > 1 else max(abs(v) for v in values)
        scale = step if near else _plain_way(width, step)
        rooms = [min(values) - d.lower.value] if d.lower else []
        rooms += [d.upper.value - max(values)] if d.upper else []
        positive = [room / 2 for room in rooms if room > 0]
        result[d.name] = min([scale, *positive])
    return result


def _plain_way(width: Fraction, step: Fraction) -> Fraction:
    return width / 10 if width / 10 > step else 2 * step


def _ends_of_sums(sheet: Sheet, meant: Formula, near: bool) -> dict[str, Fraction]:
    """For each measured quantity its part of the way from the ends that several are limited by together."""
    whole = {d.name for d in sheet.declarations if isinstance(d, NumberDecl) and d.whole}
    found: dict[str, Fraction] = {}
    for node in nodes(meant):
        if not isinstance(node, Compare):
            continue
        a, b = linear_form(node.left), linear_form(node.right)
        if a is None or b is None:
            continue
        form = difference(a, b)
        measured = {name: abs(c) for name, c in form.items() if name and name not in whole and c}
        steps = [x.written.step for x in (node.left, node.right) if isinstance(x, Const) and x.written]
        step = max(steps, default=Fraction(0))
        way = step if near else _plain_way(abs(form.get(None, Fraction(0))), step)
        for name, c in measured.items():
            if way:
                part = way / (c * len(measured))
                found[name] = min(found.get(name, part), part)
    return found


def tightened(formula: Formula, scale: Mapping[str, Fraction], wanted: bool = True) -> Formula:
    """Where the formula is `wanted` (true or false) with a margin of `scale` on every side.

    Comparisons that are not linear, those of which nothing has a scale, and equalities or "is whole" of
    measured quantities leave nothing.
    """
    match formula:
        case Truth(value):
            return Truth(value == wanted)
        case Compare(op, left, right):
            a, b = linear_form(left), linear_form(right)
            if a is None or b is None:
                return Truth(False)
            wanted_op = op if wanted else DENIED[op]
            form = {name: c for name, c in difference(a, b).items() if name}
            slack = sum((abs(c) * scale.get(name, Fraction(0)) for name, c in form.items()), Fraction(0))
            if not slack and not form.keys() <= scale.keys():
                return Truth(False)
            return _with_slack(Compare(wanted_op, left, right), slack)
        case IsWhole(item) if any(scale.get(name, Fraction(0)) for name in names_in(item)):
            return Truth(False)
        case IsWhole() | Chosen() | Includes():
            return formula if wanted else Not(formula)
        case Not(item):
            return tightened(item, scale, not wanted)
        case All(items):
            parts = tuple(tightened(item, scale, wanted) for item in items)
            return All(parts) if wanted else Any(parts)
        case Any(items):
            parts = tuple(tightened(item, scale, wanted) for item in items)
            return Any(parts) if wanted else All(parts)
        case Implies(left_f, right_f):
            return tightened(Any((Not(left_f), right_f)), scale, wanted)
        case ExactlyOne(items):
            ways = tuple(
                All(tuple(x if i == j else Not(x) for j, x in enumerate(items))) for i in range(len(items))
            )
            return tightened(Any(ways), scale, wanted)
        case Read(group, options):
            return Read(group, tuple(tightened(option, scale, wanted) for option in options))
        case _:
            assert_never(formula)


def _with_slack(atom: Compare, slack: Fraction) -> Formula:
    if slack == 0:
        return atom
    match atom.op:
        case "<" | "<=":
            return Compare(atom.op, _shifted(atom, slack), atom.right)
        case ">" | ">=":
            return Compare(atom.op, _shifted(atom, -slack), atom.right)
        case "=":
            return Truth(False)
        case "!=":
            below = Compare("<", _shifted(atom, slack), atom.right)
            above = Compare(">", _shifted(atom, -slack), atom.right)
            return Any((below, above))
        case _:
            assert_never(atom.op)


def _shifted(atom: Compare, by: Fraction) -> Add:
    return Add((atom.left, Const(by)))
