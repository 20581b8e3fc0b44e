"""How wide a claimed range is beside a document's, and what is stated nearest to it, in words."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Case, Sheet
from scopecheck.core.nearness import Nearest, nearness
from scopecheck.core.ranges import Lying
from scopecheck.foundations.quantity import decimal_text
from scopecheck.report.amounts import ABOUT, approximate, difference_text, plain_number, quantity_text
from scopecheck.report.describe import case_named
from scopecheck.report.wording import GLUE, flat, quoted, sentence

SHORT = 3
"""Decimals of a ratio that is written as a decimal; digits of one that is written as a fraction alone."""


def nearness_text(sheet: Sheet, case: Case, own: Lying) -> str:
    """`claimed range 3 deg wide, range stated 10 deg: ratio 0.3; nearest end stated ...`, or ''."""
    found = nearness(sheet, case, own)
    if found is None:
        return ""
    d = sheet.declaration(own.name)
    assert isinstance(d, NumberDecl)
    parts = []
    if found.widths is not None and found.ratio is not None:
        asked, stated = (plain_number(w) if d.whole else difference_text(w, d.unit) for w in found.widths)
        key = "values" if d.whole else "widths"
        parts.append(sentence("near", key, asked=asked, stated=stated, ratio=ratio_text(found.ratio)))
    elif found.open_side is not None:
        parts.append(sentence("no_ratio", found.open_side))
    key = "end_of" if found.end is not None and found.end.case != case.name else "end"
    parts += [*_nearest(sheet, d, key, found.end), *_nearest(sheet, d, "example", found.example)]
    return "; ".join(parts)


def ratio_text(ratio: Fraction) -> str:
    """The ratio as a decimal, or what it is about: `0.3`, `about 0.13`."""
    return decimal_text(ratio, most=SHORT) or f"{ABOUT}{GLUE}{approximate(ratio, 2)}"


def _nearest(sheet: Sheet, d: NumberDecl, key: str, found: Nearest | None) -> Iterator[str]:
    if found is None:
        return
    far = sentence("near", "inside" if found.inside else "left_out")
    if found.distance:
        far = sentence("near", "far", distance=difference_text(found.distance, d.unit))
    value = quantity_text(found.value, d.unit)
    yield sentence("near", key, value=value, far=far, case=_case_text(sheet, found.case))


def _case_text(sheet: Sheet, name: str) -> str:
    case = case_named(sheet, name)
    if case is None or not case.place:
        return flat(name)
    return sentence("near", "of_case", name=flat(name), place=quoted(case.place))
