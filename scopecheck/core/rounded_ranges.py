"""Which values of one number round to a side of a limit: rounding turns an end by half a step."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from scopecheck.core.formula import Bound, Compare, Const, Measured, Rounded
from scopecheck.core.stated import MIRRORED

Ends = tuple[Bound | None, Bound | None]


def rounded_ends(item: Compare) -> tuple[str, Ends, Ends] | None:
    """The name, its lowest and highest value, and the ends as written, of a rounded number beside a limit.

    None for any other comparison, and for an equation that no rounded value fulfils.
    """
    left, right, op = item.left, item.right, item.op
    if isinstance(right, Rounded):
        left, right, op = right, left, MIRRORED[op]
    if not isinstance(left, Rounded) or not isinstance(left.item, Measured) or not isinstance(right, Const):
        return None
    index = (right.value - left.origin) / left.step
    low = high = None
    if op in (">", ">=", "="):
        low = _lowest(left, floor(index) + 1 if op == ">" else ceil(index))
    if op in ("<", "<=", "="):
        high = _highest(left, ceil(index) - 1 if op == "<" else floor(index))
    if op == "!=" or (op == "=" and index.denominator != 1):
        return None
    end = Bound(right.value, op in (">=", "<=", "="))
    return left.item.name, (low, high), (end if low else None, end if high else None)


def _lowest(rounded: Rounded, index: int) -> Bound:
    """The lowest value that rounds to this step of the grid or a higher one."""
    kept = {"up": True, "away": index > 0, "even": index % 2 == 0}[rounded.rule]
    return Bound(rounded.origin + (index - Fraction(1, 2)) * rounded.step, kept)


def _highest(rounded: Rounded, index: int) -> Bound:
    """The highest value that rounds to this step of the grid or a lower one."""
    kept = {"up": False, "away": index < 0, "even": index % 2 == 0}[rounded.rule]
    return Bound(rounded.origin + (index + Fraction(1, 2)) * rounded.step, kept)
