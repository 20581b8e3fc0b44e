"""Sums, products, remainders, powers and roundings of the exact language."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.formula import Add, Const, Divide, Measured, Multiply, Negate, Remainder, Rounded, Term
from scopecheck.exact.bare_shares import bare_share
from scopecheck.exact.fitting import Context, check_bare, fit
from scopecheck.foundations.diagnostics import Diagnostic, KindTrouble, trouble
from scopecheck.foundations.quantity import (
    PLAIN_KIND,
    Kind,
    KindError,
    comparable,
    difference_kind,
    power_kind,
    product_kind,
    quotient_kind,
    sum_kind,
)
from scopecheck.foundations.record import replace
from scopecheck.language.syntax import Node, PowerNode, ProductNode, RoundNode, SumNode
from scopecheck.vocabulary.constants import constant
from scopecheck.vocabulary.names import NotHere, Typed

HIGHEST_POWER = 12


def sum_of(context: Context, node: SumNode) -> Typed:
    """A sum or a difference; of levels of a scale only what the scale allows."""
    total = context.term(context, node.first)
    items = [total.term]
    for sign, item in node.rest:
        other = context.term(context, item)
        check_bare(context, item, total, other)
        a, b = fit(context, total, other, spans=True)
        if a.term is not total.term and len(items) == 1:
            items = [a.term]
        kind: Kind | None = a.kind
        if a.kind and b.kind:
            if sign == "+" and a.kind.point and b.kind.point:
                _refuse_levels(node, node.first, item, a.kind)
            if told := bare_share(node.span, a, b):
                raise told
            kind = sum_kind(a.kind, b.kind) if sign == "+" else difference_kind(a.kind, b.kind)
        items.append(b.term if sign == "+" else Negate(b.term))
        whole = a.whole and b.whole
        unit = (a if not a.bare else b).unit
        if unit and kind != unit.kind:
            unit = None
        several = (a.kinds or b.kinds) if sign == "+" or kind == a.kind else ()
        total = Typed(total.term, kind, unit=unit, whole=whole, bare=a.bare and b.bare, kinds=several)
    return replace(total, term=Add(tuple(items)))


def _refuse_levels(node: SumNode, first: Node, second: Node, kind: Kind) -> None:
    """Raises KindTrouble at the sum of two levels, with what their mean is."""
    try:
        sum_kind(kind, kind)
    except KindError as error:
        one, other = first.span.text, second.span.text
        help = f"for the mean of the two write {one} + ({other} - {one}) / 2" if len(node.rest) == 1 else ""
        raise KindTrouble(Diagnostic("error", node.span, str(error), "", help)) from None


def product(context: Context, node: ProductNode) -> Typed:
    """Products, quotients and remainders, from left to right. Raises Trouble at a division by zero."""
    total = context.term(context, node.first)
    for sign, item in node.rest:
        other = context.term(context, item)
        if sign == "MOD":
            total = _remainder(context, item, total, other)
            continue
        a, b = total.kind or PLAIN_KIND, other.kind or PLAIN_KIND
        bare = total.bare and other.bare
        several = total.kinds if b == PLAIN_KIND else other.kinds if a == PLAIN_KIND and sign == "*" else ()
        if sign == "*":
            unit = total.unit if b == PLAIN_KIND and other.bare else other.unit if total.bare else None
            made: Term = Multiply(total.term, other.term)
            whole = total.whole and other.whole
            total = Typed(made, product_kind(a, b), unit=unit, whole=whole, bare=bare, kinds=several)
        else:
            if constant(other.term) == 0:
                raise trouble(item.span, "a division by zero has no value")
            _refuse_bases(context, node, total, other)
            made = Divide(total.term, other.term, _shown(other, item))
            unit = total.unit if other.bare else None
            total = Typed(made, quotient_kind(a, b), unit=unit, bare=bare, kinds=several)
    return total


def _refuse_bases(context: Context, node: Node, share: Typed, by: Typed) -> None:
    """Raises KindTrouble at a quotient, in a reading, of a share on a basis and one on none, or in reverse.

    In symbols a share may be divided by a plain fraction.
    """
    for one, other in ((share, by), (by, share)):
        kind, unit = one.kind, other.unit
        on_none = (
            isinstance(other.term, Measured) and other.kind == PLAIN_KIND and unit and unit.symbol == "%"
        )
        if context.mode == "reading" and on_none and kind and not kind.dimension and kind != PLAIN_KIND:
            why = f"{kind.name} and a share on no basis make no ratio: the bases differ"
            raise KindTrouble(Diagnostic("error", node.span, why))


def _shown(value: Typed, node: Node) -> str:
    """A divisor for people: what fills a slot rather than the slot's name."""
    if isinstance(value.term, Measured):
        return value.term.name
    if isinstance(value.term, Const) and value.term.written:
        return f"{value.term.written.text} {value.term.written.unit.symbol}".strip()
    return node.span.text


def _remainder(context: Context, node: Node, item: Typed, divisor: Typed) -> Typed:
    check_bare(context, node, item, divisor)
    a, b = fit(context, item, divisor)
    if a.kind and b.kind:
        comparable(a.kind, b.kind)
        if a.kind.point:
            raise KindError(f"a {a.kind.name} has no remainder", a.kind, a.kind)
    value = constant(b.term)
    if value is None or value <= 0:
        if context.mode == "reading":
            raise NotHere("the divisor is no positive written number")
        raise trouble(
            node.span,
            "a remainder by something that is no positive written number",
            "",
            "write a number above 0",
        )
    return Typed(Remainder(a.term, value), a.kind, unit=a.unit, whole=a.whole and b.whole)


def power(context: Context, node: PowerNode) -> Typed:
    """A whole power from 1 to HIGHEST_POWER. Raises Trouble at any other."""
    base, exponent = context.term(context, node.base), node.exponent.value
    if exponent.denominator != 1 or not 1 <= exponent <= HIGHEST_POWER or node.exponent.unit:
        raise trouble(
            node.span, f"the power {node.exponent.text} is not a whole number from 1 to {HIGHEST_POWER}", "",
            "write a product or a quotient",
        )  # fmt: skip
    made = base.term
    for _ in range(int(exponent) - 1):
        made = Multiply(made, base.term)
    return Typed(made, power_kind(base.kind or PLAIN_KIND, int(exponent)), whole=base.whole, bare=base.bare)


def rounded(context: Context, node: RoundNode) -> Typed:
    """A value rounded to a written step, by the rule named."""
    item, step = context.term(context, node.item), context.term(context, node.step)
    width = constant(step.term)
    if step.number is not None and step.unit is not None:
        width = step.number.value * step.unit.factor
    if width is None or width <= 0:
        raise trouble(node.step.span, "rounding to something that is no positive written number")
    kind = item.kind or PLAIN_KIND
    unit = step.unit
    step_kind = difference_kind(step.kind, step.kind) if step.kind else kind
    plain = difference_kind(kind, kind)
    if not (step_kind == PLAIN_KIND and not plain.dimension):
        comparable(plain, step_kind)
    origin = unit.offset if unit and kind.point else Fraction(0)
    return Typed(Rounded(item.term, width, node.rule, origin), item.kind, unit=item.unit, kinds=item.kinds)
