"""The region of one quantity in closed form: exactly which of its values meet a formula on a construction.

The region is found from turning points and the exact evaluator, which is asked at each point and once between
each two. Ends are Fractions wherever they are rational; the library for exact roots is loaded only for a
polynomial of a higher degree.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import chain, combinations, pairwise
from math import ceil, floor
from typing import assert_never

from scopecheck.core.construction import Construction
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import Article, Bound, Formula, Value
from scopecheck.foundations.quantity import Unit, decimal_text, number_text
from scopecheck.foundations.record import record
from scopecheck.report.lines import NumberLine, Stretch, ValueTable
from scopecheck.report.roots import End, Polynomial, Root, between
from scopecheck.report.turning import NotShown, turning_points
from scopecheck.solving.evaluate import evaluate, meets

FEW = 40
"""A quantity with at most this many values is shown value by value."""
DIGITS = 6
"""Decimals shown of an end that is no fraction."""


@record
class Piece:
    """Everything between two ends, in base units; None is infinite. An irrational end is never attained."""

    low: End | None
    low_closed: bool
    high: End | None
    high_closed: bool


# ---- exact roots


def real_roots(polynomial: Polynomial, known: dict[Polynomial, tuple[Root, ...]]) -> list[End]:
    """All real roots; `known` keeps irrational ones, so that the same root is always the same object."""
    if len(polynomial) == 2:
        return [-polynomial[0] / polynomial[1]]
    from sympy import Poly, Rational, Symbol  # heavy, and seldom needed

    x = Symbol("x")
    coefficients = [Rational(c.numerator, c.denominator) for c in reversed(polynomial)]
    roots: list[End] = []
    for factor, _ in Poly(coefficients, x, domain="QQ").factor_list()[1]:
        parts = tuple(Fraction(int(c.p), int(c.q)) for c in reversed(factor.all_coeffs()))
        if len(parts) == 2:
            roots.append(-parts[0] / parts[1])
            continue
        if parts not in known:
            intervals = [ends for ends, _ in factor.intervals()]
            known[parts] = tuple(
                Root(parts, Fraction(int(a.p), int(a.q)), Fraction(int(b.p), int(b.q))) for a, b in intervals
            )
        roots += known[parts]
    return roots


# ---- the region


def region(
    formula: Formula,
    d: NumberDecl,
    k: Construction,
    fixed: Article | None = None,
    window: tuple[Fraction, Fraction] | None = None,
) -> tuple[Piece, ...]:
    """The values of `d` within its bounds, and the window, that meet the formula: ascending and apart.

    Base units. Two equal regions have equal pieces. `fixed` gives everything else the formula speaks of. Of a
    whole quantity the ends are whole and closed. Raises NotShown, with a reason for people, where there is no
    finite answer.
    """
    lower, upper = d.lower, d.upper
    if window is not None:
        lower, upper = _tighter(lower, Bound(window[0], True), 1), _tighter(upper, Bound(window[1], True), -1)
    if lower and upper and _none_between(lower, upper):
        return ()
    low, high = None if lower is None else lower.value, None if upper is None else upper.value
    known: dict[Polynomial, tuple[Root, ...]] = {}
    fixed = fixed or {}
    points = turning_points(formula, d.name, fixed, k, low, high, lambda p: real_roots(p, known))

    def met(x: Fraction) -> bool:
        return meets(formula, {**fixed, d.name: x}, k)

    pieces: list[Piece] = []
    if lower and lower.closed and met(lower.value):
        pieces.append(Piece(lower.value, True, lower.value, True))
    ends: list[End | None] = [low, *points, high]
    if low is None or high is None or low < high:
        for left, right in pairwise(ends):
            if met(between(left, right)):
                pieces.append(Piece(left, False, right, False))
            if right is not None and right is not high and isinstance(right, Fraction) and met(right):
                pieces.append(Piece(right, True, right, True))
        if upper and upper.closed and met(upper.value):
            pieces.append(Piece(upper.value, True, upper.value, True))
    merged = _merged(pieces)
    return _whole(merged) if d.whole else merged


def _none_between(lower: Bound, upper: Bound) -> bool:
    if lower.value == upper.value:
        return not (lower.closed and upper.closed)
    return lower.value > upper.value


def _tighter(bound: Bound | None, other: Bound, sign: int) -> Bound:
    """The tighter bound: the greater of two lower ones (sign 1), the lesser of two upper ones (-1)."""
    if bound is None:
        return other
    if bound.value == other.value:
        return Bound(bound.value, bound.closed and other.closed)
    return max(bound, other, key=lambda b: sign * b.value)


def _merged(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    """Neighbours joined where no value lies between them; an irrational point is no value."""
    result: list[Piece] = []
    for piece in pieces:
        last = result[-1] if result else None
        if (
            last is not None
            and last.high is not None
            and last.high == piece.low
            and (last.high_closed or piece.low_closed or isinstance(last.high, Root))
        ):
            result[-1] = Piece(last.low, last.low_closed, piece.high, piece.high_closed)
        else:
            result.append(piece)
    return tuple(result)


def _whole(pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    """The whole numbers of the pieces, neighbours joined."""
    result: list[Piece] = []
    for piece in pieces:
        low = None if piece.low is None else _first_whole(piece.low, piece.low_closed)
        high = None if piece.high is None else -_first_whole(_mirrored(piece.high), piece.high_closed)
        if low is not None and high is not None and low > high:
            continue
        last = result[-1] if result else None
        if last is not None and low is not None and isinstance(last.high, Fraction) and low <= last.high + 1:
            result[-1] = Piece(last.low, last.low_closed, high, high is not None)
        else:
            result.append(Piece(low, low is not None, high, high is not None))
    return tuple(result)


def _first_whole(end: End, closed: bool) -> Fraction:
    """The least whole number at or beyond a lower end."""
    if isinstance(end, Fraction):
        return Fraction(ceil(end) if closed else floor(end) + 1)
    while ceil(end.low) != ceil(end.high):
        end.narrow()
    return Fraction(ceil(end.high))


def _mirrored(end: End) -> End:
    if isinstance(end, Fraction):
        return -end
    turned = tuple(c * (-1) ** i for i, c in enumerate(end.polynomial))
    return Root(turned, -end.high, -end.low)


def end_text(end: End, unit: Unit) -> str:
    """An end in the sheet's unit: exact, or the first decimals of an irrational one followed by dots."""
    if isinstance(end, Fraction):
        return number_text(unit.from_base(end))
    scale = 10**DIGITS
    while floor(unit.from_base(end.low) * scale) != floor(unit.from_base(end.high) * scale):
        end.narrow()
    digits = decimal_text(Fraction(floor(unit.from_base(end.low) * scale), scale))
    return f"{digits}..."


def stretches(pieces: Sequence[Piece], unit: Unit) -> tuple[Stretch, ...]:
    """The pieces in the sheet's unit, for drawing. Raises NotShown for an irrational end."""
    result = []
    for piece in pieces:
        if isinstance(piece.low, Root) or isinstance(piece.high, Root):
            raise NotShown("an end is not a fraction")
        low, high = (None if e is None else unit.from_base(e) for e in (piece.low, piece.high))
        result.append(Stretch(low, piece.low_closed, high, piece.high_closed))
    return tuple(result)


def region_text(pieces: Sequence[Piece], d: NumberDecl) -> str:
    """The region in signs and words, such as `3 < x <= 5 mm or x >= 8 mm`, with irrational ends shortened."""
    if not pieces:
        return "no value"
    return " or ".join(_piece_text(piece, d) for piece in pieces)


def _piece_text(piece: Piece, d: NumberDecl) -> str:
    unit = f" {d.unit.symbol}" if d.unit.symbol else ""
    low, high = (None if e is None else end_text(e, d.unit) for e in (piece.low, piece.high))
    if low is None and high is None:
        return "every value"
    if piece.low == piece.high:
        return f"{d.name} = {low}{unit}"
    if low is None:
        return f"{d.name} {'<=' if piece.high_closed else '<'} {high}{unit}"
    if high is None:
        return f"{d.name} {'>=' if piece.low_closed else '>'} {low}{unit}"
    signs = ("<=" if piece.low_closed else "<", "<=" if piece.high_closed else "<")
    return f"{low} {signs[0]} {d.name} {signs[1]} {high}{unit}"


# ---- pictures


def few_values(d: Declaration, most: int = FEW) -> tuple[Value, ...] | None:
    """Every value of a quantity that has at most `most`, in order; None if it has more."""
    match d:
        case NumberDecl(whole=True, lower=Bound() as lower, upper=Bound() as upper):
            first = _first_whole(lower.value, lower.closed)
            last = -_first_whole(-upper.value, upper.closed)
            if last - first >= most:
                return None
            return tuple(first + i for i in range(int(last - first) + 1))
        case NumberDecl():
            return None
        case ChoiceDecl(members=members):
            return members if len(members) <= most else None
        case SetDecl(members=members):
            if 2 ** len(members) > most:
                return None
            sizes = (combinations(members, size) for size in range(len(members) + 1))
            return tuple(frozenset(subset) for subset in chain.from_iterable(sizes))
        case _:
            assert_never(d)


def value_text(d: Declaration, value: Value) -> str:
    """A value for people, without unit; of a set the members in declared order, or `none`."""
    match value:
        case Fraction():
            return number_text(d.unit.from_base(value) if isinstance(d, NumberDecl) else value)
        case str():
            return value
        case frozenset():
            members = d.members if isinstance(d, SetDecl) else tuple(sorted(value))
            return " + ".join(m for m in members if m in value) or "none"
        case _:
            assert_never(value)


def value_table(
    formula: Formula,
    d: Declaration,
    rows: Sequence[tuple[str, Construction]],
    fixed: Article | None = None,
    values: Sequence[Value] | None = None,
) -> ValueTable:
    """Value by value and row by row whether the formula is met (None: undefined)."""
    shown = tuple(few_values(d) or ()) if values is None else tuple(values)
    surroundings: Mapping[str, Value] = fixed or {}
    unit = d.unit if isinstance(d, NumberDecl) else None
    return ValueTable(
        d.name,
        unit.symbol if unit else "",
        tuple(unit.from_base(v) if unit and isinstance(v, Fraction) else value_text(d, v) for v in shown),
        tuple(
            (label, tuple(evaluate(formula, {**surroundings, d.name: value}, k) for value in shown))
            for label, k in rows
        ),
    )


def number_line(
    formula: Formula,
    d: NumberDecl,
    rows: Sequence[tuple[str, Construction]],
    fixed: Article | None = None,
    window: tuple[Fraction, Fraction] | None = None,
    marks: Sequence[tuple[str, Fraction]] = (),
) -> NumberLine:
    """Row by row the ranges that meet the formula, in the sheet's unit; marks are given in base units.

    Raises NotShown where a row has no finite list of ranges or an irrational end.
    """
    return NumberLine(
        d.name,
        d.unit.symbol,
        tuple((label, stretches(region(formula, d, k, fixed, window), d.unit)) for label, k in rows),
        tuple((name, d.unit.from_base(value)) for name, value in marks),
        d.whole,
    )
