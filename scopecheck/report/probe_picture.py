"""One quantity of a limitation as a picture and in words: a table of few values, else a number line."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

from scopecheck.core.construction import Construction, names_in, nodes
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import Article, Const, CountOf, Formula, Includes, Rounded, Value
from scopecheck.core.model import Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import record, replace
from scopecheck.report.boundary import few_values, number_line, region, region_text, value_table, value_text
from scopecheck.report.lines import NumberLine, ValueTable
from scopecheck.report.turning import NotShown
from scopecheck.solving.evaluate import meets

WHOLE_WINDOW = 24
"""Whole numbers shown, beyond the first, where there are endlessly many."""


@record
class Pictured:
    """What is met on each way of reading, in words and as a picture.

    `part_shown` says to which values the picture is limited, `no_picture` why there is none; '' if neither.
    """

    met: tuple[str, ...]
    picture: NumberLine | ValueTable | None
    part_shown: str = ""
    no_picture: str = ""


Ways = Sequence[tuple[str, Construction]]
Window = tuple[Fraction, Fraction]


def pictured(sheet: Sheet, d: Declaration, formula: Formula, fixed: Article, ways: Ways) -> Pictured:
    """The values of `d` that meet the formula, way by way, everything else being as in `fixed`."""
    if isinstance(d, SetDecl):
        return _members(d, formula, fixed, ways)
    values = few_values(d)
    if values is not None:
        return _table(d, formula, fixed, ways, values, "")
    if isinstance(d, ChoiceDecl):
        words = ("",) * len(ways)
        return Pictured(words, None, no_picture=f"{d.name} has too many values for a table")
    try:
        return _line(sheet, d, formula, fixed, ways, None, "")
    except NotShown:
        window = _window(d, formula)
    part = _window_text(d, window)
    if d.whole:
        whole = tuple(Fraction(n) for n in range(ceil(window[0]), floor(window[1]) + 1))
        return _table(d, formula, fixed, ways, whole, part)
    try:
        return _line(sheet, d, formula, fixed, ways, window, part)
    except NotShown as reason:
        return Pictured(("",) * len(ways), None, no_picture=f"{d.name} is not drawn: {reason}")


def _members(d: SetDecl, formula: Formula, fixed: Article, ways: Ways) -> Pictured:
    """The table over the members that the words speak of, without any other; over all if they are counted."""
    spoken = {n.member for n in nodes(formula) if isinstance(n, Includes) and n.name == d.name}
    counted = any(isinstance(n, CountOf) and n.name == d.name for n in nodes(formula))
    left_out = () if counted else tuple(m for m in d.members if m not in spoken)
    values = few_values(replace(d, members=tuple(m for m in d.members if m not in left_out)))
    if values is None:
        words = ("",) * len(ways)
        return Pictured(words, None, no_picture=f"{d.name} has too many members for a table")
    part = f"Shown without {', '.join(left_out)}, which change nothing here." if left_out else ""
    return _table(d, formula, fixed, ways, values, part)


def _table(
    d: Declaration, formula: Formula, fixed: Article, ways: Ways, values: tuple[Value, ...], part: str
) -> Pictured:
    met = [[meets(formula, {**fixed, d.name: v}, k) for v in values] for _, k in ways]
    words = tuple(_met_text(d, values, row) for row in met)
    return Pictured(words, value_table(formula, d, ways, fixed, values), part)


def _line(
    sheet: Sheet,
    d: NumberDecl,
    formula: Formula,
    fixed: Article,
    ways: Ways,
    window: Window | None,
    part: str,
) -> Pictured:
    """The line with the cases that state the quantity, and all else as shown. Raises as `region` does."""
    words = tuple(region_text(region(formula, d, k, fixed, window), d) for _, k in ways)
    others = names_in(formula) - {d.name}
    stated = ((case.name, stated_values(sheet, case)) for case in sheet.cases)
    marks = [
        (name, value)
        for name, values in stated
        if isinstance(value := values.get(d.name), Fraction)
        and all(other in values and values[other] == fixed.get(other) for other in others)
    ]
    try:
        return Pictured(words, number_line(formula, d, ways, fixed, window, marks), part)
    except NotShown:
        return Pictured(words, None, part, "an end is no fraction; its first decimals are given")


def _window(d: NumberDecl, formula: Formula) -> Window:
    """The part to look at where there are endlessly many changes: from the low end, or 0, a few steps up."""
    sizes = [abs(n.value) for n in nodes(formula) if isinstance(n, Const) and n.value != 0]
    sizes += [n.step for n in nodes(formula) if isinstance(n, Rounded)]
    reach = Fraction(WHOLE_WINDOW) if d.whole else 4 * max(sizes, default=d.unit.factor)
    low = d.lower.value if d.lower else Fraction(0)
    return low, min(d.upper.value, low + reach) if d.upper else low + reach


def _window_text(d: NumberDecl, window: Window) -> str:
    low, high = (value_text(d, end) for end in window)
    unit = f" {d.unit.symbol}" if d.unit.symbol else ""
    return f"Only {low} to {high}{unit} is shown; {d.name} has more values."


# ---- values in words


def _met_text(d: Declaration, values: Sequence[Value], met: Sequence[bool]) -> str:
    """`every value (1 to 24)`, `no value`, or the values met with runs of whole numbers drawn together."""
    if all(met):
        return f"every value ({_span_text(d, values)})"
    if not any(met):
        return "no value"
    runs: list[list[Value]] = []
    for index, value in enumerate(values):
        if not met[index]:
            continue
        if index > 0 and met[index - 1] and isinstance(value, Fraction):
            runs[-1].append(value)
        else:
            runs.append([value])
    return ", ".join(_run_text(d, run) for run in runs)


def _run_text(d: Declaration, run: Sequence[Value]) -> str:
    if len(run) > 2:
        return f"{value_text(d, run[0])} to {value_text(d, run[-1])}"
    return ", ".join(value_text(d, value) for value in run)


def _span_text(d: Declaration, values: Sequence[Value]) -> str:
    if isinstance(values[0], Fraction) and len(values) > 1:
        return f"{value_text(d, values[0])} to {value_text(d, values[-1])}"
    return f"all {len(values)}" if len(values) > 1 else value_text(d, values[0])
