"""What rounds to a ratio of two figures: 3:1 and 1:3 both round in their greater figure.

As a quotient 1:3 would round by thirds, and 1:5 with it. A laboratory that reports 1:3 keeps the 1 and rounds
what stands beside it; of 0.9:1 it rounds the figure with more decimals (common practice, no source).
"""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.formula import All, Any, Compare, Const, Divide, Formula, Op, Rounded, Term
from scopecheck.core.stated import MIRRORED
from scopecheck.language.scan import Number

ONE, ZERO = Const(Fraction(1)), Const(Fraction(0))


def rounded_to(ratio: Number | None, left: Term, op: Op, right: Term) -> Formula | None:
    """`left op right` of what rounds to a written ratio, in its greater figure; None where it may stand.

    `left` is rounded at the last place of the ratio's first figure. Where that is the greater one, or has
    more decimals, and of 1:1 what exceeds it, nothing changes.
    """
    if ratio is None or ":" not in ratio.text:
        return None
    if not isinstance(left, Rounded) or not isinstance(right, Const):
        return None
    first, _, second = ratio.text.partition(":")
    finer = _decimals(second) - _decimals(first)
    if finer < 0 or (not finer and right.value > 1) or right.value <= 0:
        return None
    turned = _turned(left, first, second)
    above = Compare(">", left.item, ZERO)
    limit = Const(1 / right.value)
    if op in (">", ">="):
        return All((above, Compare(MIRRORED[op], turned, limit)))
    if op == "=":
        same = Compare("=", turned, limit)
        both = right.value == 1 and not finer
        return All((above, same, Compare("=", left, right)) if both else (above, same))
    if op in ("<", "<=") and (finer or right.value < 1):
        return Any((Compare("<=", left.item, ZERO), Compare(MIRRORED[op], turned, limit)))
    return None


def _decimals(figure: str) -> int:
    return len(figure.partition(".")[2])


def _turned(rounded: Rounded, first: str, second: str) -> Rounded:
    match rounded.item:
        case Divide(above, below):
            item: Term = Divide(below, above)
        case other:
            item = Divide(ONE, other)
    step = Fraction(10) ** -_decimals(second) / Fraction(first)
    return Rounded(item, step, rounded.rule)
