"""Functions of the exact language: least and greatest, means, counts, steps, written digits."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import NumberDecl, SetDecl, Step
from scopecheck.core.formula import (
    Add,
    Branch,
    Const,
    CountOf,
    Divide,
    Formula,
    Greatest,
    Least,
    Magnitude,
    Negate,
    Ranked,
    Remainder,
    Term,
    Truth,
)
from scopecheck.exact.arithmetic import sum_of
from scopecheck.exact.fitting import Context, check_bare, toward, written
from scopecheck.exact.parts import of_each_part, single
from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.quantity import (
    PLAIN,
    PLAIN_KIND,
    KindError,
    comparable,
    difference_kind,
    find_unit,
)
from scopecheck.foundations.record import replace
from scopecheck.language.syntax import CallNode, NameNode, Node, SumNode
from scopecheck.vocabulary.names import Listed, NotHere, Steps, Typed, number_of
from scopecheck.vocabulary.parts import Present, how_many, value_of_one
from scopecheck.vocabulary.steps import duration, end, start


def call(context: Context, node: CallNode) -> Typed:
    """The value of a function of what stands in its brackets. Raises Trouble if it has none."""
    if node.over is not None:
        return of_each_part(context, node)
    match node.function:
        case "PLACE" | "FIGURE" | "DECADE":
            return _of_digits(context, node)
        case "ABS":
            inner = context.term(context, single(node))
            if inner.kind and inner.kind.point:
                raise KindError(f"a {inner.kind.name} has no magnitude of its own", inner.kind, inner.kind)
            return replace(inner, term=Magnitude(inner.term), number=None)
        case "LEAST" | "GREATEST":
            typed = same_kind(context, node)
            made = tuple(t.term for t in typed)
            result: Term = Least(made) if node.function == "LEAST" else Greatest(made)
            whole = all(t.whole for t in typed)
            return Typed(
                result, typed[0].kind, unit=typed[0].unit, whole=whole, bare=all(t.bare for t in typed)
            )
        case "SUM":
            if len(node.items) == 1:
                return context.term(context, node.items[0])
            first, *rest = node.items
            return sum_of(context, SumNode(first, tuple(("+", n) for n in rest), node.span))
        case "MEAN" | "MEDIAN":
            typed = same_kind(context, node)
            made = tuple(t.term for t in typed)
            size = Const(Fraction(len(made)))
            there = tuple(Truth(True) for _ in made)
            middle = Ranked("middle", made, there) if node.function == "MEDIAN" else Divide(Add(made), size)
            return Typed(middle, typed[0].kind, unit=typed[0].unit, bare=all(t.bare for t in typed))
        case "COUNT":
            return _count(context, node)
        case "DAY":
            return _day(context, node)
        case "START" | "END" | "DURATION":
            return _of_step(context, node)
        case _:
            raise trouble(node.span, f"{node.function}(...) is a condition, not a value")


def _of_step(context: Context, node: CallNode) -> Typed:
    """`START(soaking)`: a time counted from a moment before all steps; `DURATION(soaking)`."""
    step = step_of(context, single(node))
    declared = context.names.declarations[step.start]
    assert isinstance(declared, NumberDecl)
    made = {"START": start, "END": end, "DURATION": duration}[node.function](step)
    return replace(number_of(declared), term=made)


def _day(context: Context, node: CallNode) -> Typed:
    """`DAY(START(soaking))`: the midnight with which the day of a moment begins."""
    item = context.term(context, single(node))
    day = find_unit("day")
    assert day
    if item.kind is None or item.kind != day.kind:
        raise trouble(node.span, "the day of what is no time", "", "write for example DAY(START(...))")
    made = Add((item.term, Negate(Remainder(item.term, day.factor))))
    return Typed(made, item.kind, unit=day)


def step_of(context: Context, node: Node) -> Step:
    """The step that a name in brackets stands for. Raises Trouble where none is declared so."""
    text = node.span.text
    if isinstance(node, NameNode):
        bound = context.slots.get(node.name)
        if isinstance(bound, Step):
            return bound
        if (bound is None) and (found := context.names.step(node.name)):
            return found
    known = tuple(step.name for step in context.names.steps.values())
    example = text if isinstance(node, NameNode) and context.names.declared(text) is None else "soaking"
    raise trouble(
        node.span, f"no step is declared as '{text}'", "",
        did_you_mean(text, known) or f"declare it, for example: {example}  step in min",
    )  # fmt: skip


def steps_of(context: Context, node: CallNode) -> tuple[Step, ...]:
    """The steps listed in brackets, in the order written."""
    first = context.slots.get(node.items[0].name) if isinstance(node.items[0], NameNode) else None
    if isinstance(first, Steps) and len(node.items) == 1:
        return first.items
    return tuple(step_of(context, item) for item in node.items)


def same_kind(context: Context, node: CallNode) -> list[Typed]:
    """The values of a list, all of one kind."""
    typed = [context.term(context, n) for n in node.items]
    first = next((t for t in typed if t.kind is not None and not t.bare), typed[0])
    fitted = []
    for item, one in zip(node.items, typed, strict=True):
        check_bare(context, item, first, one)
        one = toward(context, one, first)
        if one.kind and first.kind:
            comparable(one.kind, first.kind)
        fitted.append(one)
    return fitted


def _of_digits(context: Context, node: CallNode) -> Typed:
    if node.function == "PLACE" and len(node.items) == 2:
        return _place_in_the_other_unit(context, node)
    item = single(node)
    value = context.term(context, item)
    number, unit = value.number, value.unit or PLAIN
    if number is None or value.kind is None:
        raise NotHere(f"{item.span.text} is no written number here, so it has no last written place")
    kind = difference_kind(value.kind, value.kind)
    if node.function == "DECADE":
        if number.value <= 0:
            raise NotHere("only a number above 0 has a greatest power of ten below it")
        return Typed(Const(unit.to_base(_decade(number.value))), value.kind, unit=unit)
    if node.function == "FIGURE" and not number.zeros:
        raise NotHere(f"{number.text} has no zeros at its end that may not count")
    if ":" in number.text:
        above, _, below = number.text.partition(":")
        step = Fraction(10) ** -len(above.partition(".")[2]) / Fraction(below)
        return Typed(Const(step), kind, unit=unit)
    if not number.has_places:
        raise NotHere(f"{number.text} has no last written place")
    zeros = number.zeros if node.function == "FIGURE" else 0
    return Typed(Const(written(number, unit).step * 10**zeros), kind, unit=unit)


def _place_in_the_other_unit(context: Context, node: CallNode) -> Typed:
    """PLACE(N, M): the greatest power of ten in the unit of M not above one unit of N's last place."""
    place = _of_digits(context, replace(node, items=node.items[:1]))
    other = context.term(context, node.items[1])
    if other.number is None or other.kind is None or other.unit is None:
        raise NotHere(f"{node.items[1].span.text} is no written number here, so it has no unit of its own")
    comparable(difference_kind(other.kind, other.kind), place.kind or PLAIN_KIND)
    assert isinstance(place.term, Const)
    step = _decade(place.term.value / other.unit.factor) * other.unit.factor
    return Typed(Const(step), place.kind, unit=other.unit)


def _decade(value: Fraction) -> Fraction:
    power = Fraction(1)
    while power > value:
        power /= 10
    while power * 10 <= value:
        power *= 10
    return power


def _count(context: Context, node: CallNode) -> Typed:
    if len(node.items) == 1 and isinstance(node.items[0], NameNode):
        name = node.items[0].name
        bound = context.slots.get(name) or context.names.declared(name)
        if isinstance(bound, SetDecl):
            counted: Term = CountOf(bound.name)
            if name not in context.slots and (one := context.names.one_of(bound.name)):
                counted = value_of_one(one[0].present(one[1]), counted)
            return Typed(counted, PLAIN_KIND, whole=True)
        if isinstance(bound, Listed) and bound.there:
            return Typed(how_many(Present(bound.there, bound.conditions)), PLAIN_KIND, whole=True)
        if isinstance(bound, Listed):
            return _how_many(bound.conditions)
    return _how_many(tuple(context.formula(context, item) for item in node.items))


def _how_many(conditions: tuple[Formula, ...]) -> Typed:
    one, none = Const(Fraction(1)), Const(Fraction(0))
    counted = tuple(Branch(condition, one, none) for condition in conditions)
    return Typed(counted[0] if len(counted) == 1 else Add(counted), PLAIN_KIND, whole=True)
