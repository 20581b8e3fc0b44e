"""Number lines and tables of values as lines of text. Ends are spaced evenly, not to scale."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from textwrap import wrap

from scopecheck.foundations.quantity import decimal_text
from scopecheck.foundations.record import record
from scopecheck.report.amounts import approximate, plain_degrees, plain_number
from scopecheck.report.lines import NumberLine, Stretch, ValueTable
from scopecheck.report.wording import flat, listed, sentence

MOST_LABEL = 40


@record
class Signs:
    """The characters of a drawing."""

    closed: str
    open: str
    inside: str
    outside: str
    mark: str
    stretches: str
    met: str
    not_met: str
    undefined: str


UNICODE = Signs("●", "○", "━", "┈", "▲", "~", "●", "·", "?")
ASCII = Signs("*", "o", "=", ".", "^", "~", "x", ".", "?")


def _label(text: str, width: int) -> str:
    shown = flat(text)
    if len(shown) > width:
        shown = shown[: width - 3] + "..."
    return shown.ljust(width)


def _label_width(labels: Sequence[str]) -> int:
    return min(MOST_LABEL, max((len(flat(label)) for label in labels), default=0))


def _heading(name: str, unit: str) -> str:
    return f"{flat(name)}, {plain_degrees(unit)}" if unit else flat(name)


# ---- number lines


def draw_number_line(line: NumberLine, width: int = 90, unicode: bool = True) -> list[str]:
    """One row for each reading under a common scale of all ends; in words where the ends do not fit."""
    signs = UNICODE if unicode else ASCII
    ticks = _ticks(line)
    texts = [decimal_text(tick) or f"≈{approximate(tick)}" for tick in ticks]
    labels = _row_labels(line, signs)
    left = _label_width([*labels, _heading(line.name, line.unit)])
    gap = max([7, *(len(text) + 2 for text in texts)])
    columns = [gap // 2 + 1 + gap * i for i in range(len(ticks))]
    total = columns[-1] + gap // 2 + 2 if columns else 24
    if left + 2 + total > width:
        return [*_in_words(line, left, unicode), *_notes(line, signs, width)]
    drawn = [f"{_label(_heading(line.name, line.unit), left)}  {_scale(texts, columns)}".rstrip()]
    for label, (_, stretches) in zip(labels, line.rows, strict=True):
        row = _row(stretches, dict(zip(ticks, columns, strict=True)), total, signs)
        drawn.append(f"{_label(label, left)}  {row}")
    for name, value in line.marks:
        column = columns[ticks.index(value)]
        drawn.append(f"{_label('', left)}  {' ' * column}{signs.mark} {flat(name)}")
    return [*drawn, *_notes(line, signs, width)]


def _row_labels(line: NumberLine, signs: Signs) -> list[str]:
    """The readings' labels, one that stretches with its sign."""
    stretched = dict(line.stretched)
    most = MOST_LABEL - len(signs.stretches) - 1
    return [
        f"{_label(label, min(most, len(flat(label))))} {signs.stretches}" if label in stretched else label
        for label, _ in line.rows
    ]


def _notes(line: NumberLine, signs: Signs, width: int) -> list[str]:
    """How far a reading with the sign of stretching is stretched in this drawing; how the rest is read."""
    rest = wrap(sentence("picture", "rest", told=listed(line.rest)), width) if line.rest else []
    if not line.stretched:
        return ["", *rest] if rest else []
    told = dict.fromkeys(how for _, how in line.stretched)
    how = next(iter(told)) if len(told) == 1 else listed(f'"{flat(n)}" {t}' for n, t in line.stretched)
    return ["", *wrap(sentence("picture", "stretched", sign=signs.stretches, how=how), width), *rest]


def _ticks(line: NumberLine) -> list[Fraction]:
    ends = {e for _, stretches in line.rows for s in stretches for e in (s.low, s.high) if e is not None}
    return sorted(ends | {value for _, value in line.marks})


def _scale(texts: Sequence[str], columns: Sequence[int]) -> str:
    scale = ""
    for text, column in zip(texts, columns, strict=True):
        scale = scale.ljust(max(column - (len(text) - 1) // 2, 0)) + text
    return scale


def _row(stretches: Sequence[Stretch], columns: dict[Fraction, int], total: int, signs: Signs) -> str:
    cells = [signs.outside] * total
    for s in stretches:
        low = 0 if s.low is None else columns[s.low]
        high = total - 1 if s.high is None else columns[s.high]
        cells[low : high + 1] = [signs.inside] * (high + 1 - low)
    for s in stretches:
        for end, closed in ((s.low, s.low_closed), (s.high, s.high_closed)):
            if end is not None:
                at = columns[end]
                joined = cells[at] == signs.closed
                cells[at] = signs.closed if closed or joined else signs.open
    return "".join(cells)


def _in_words(line: NumberLine, left: int, unicode: bool) -> list[str]:
    drawn = [_heading(line.name, line.unit)]
    labels = _row_labels(line, UNICODE if unicode else ASCII)
    for label, (_, stretches) in zip(labels, line.rows, strict=True):
        drawn.append(f"{_label(label, left)}  {stretches_text(stretches, unicode)}")
    drawn += [f"{_label(name, left)}  {plain_number(value)}" for name, value in line.marks]
    return drawn


def stretches_text(stretches: Sequence[Stretch], unicode: bool = True) -> str:
    """Ranges in words and signs, ends marked open or closed: `● 2 to 4 ○; ● 7`."""
    signs = UNICODE if unicode else ASCII

    def text(s: Stretch) -> str:
        if s.low is not None and s.low == s.high:
            return f"{signs.closed} {plain_number(s.low)}"
        low_sign, high_sign = (signs.closed if c else signs.open for c in (s.low_closed, s.high_closed))
        low = f"{low_sign} {plain_number(s.low)}" if s.low is not None else ""
        high = f"{plain_number(s.high)} {high_sign}" if s.high is not None else ""
        if low and high:
            return f"{low} {sentence('picture', 'to')} {high}"
        if low:
            return f"{low} {sentence('picture', 'upward')}"
        return f"{sentence('picture', 'up_to')} {high}" if high else sentence("picture", "everything")

    return "; ".join(text(s) for s in stretches) or sentence("picture", "nothing")


def legend(picture: NumberLine | ValueTable, unicode: bool = True) -> str:
    """What the signs of a drawing mean, in one line."""
    signs = UNICODE if unicode else ASCII
    if isinstance(picture, NumberLine):
        key = "line_legend_whole" if picture.whole else "line_legend"
        return sentence("picture", key, closed=signs.closed, open=signs.open, inside=signs.inside)
    undefined = any(met is None for _, row in picture.rows for met in row)
    key = "table_legend_undefined" if undefined else "table_legend"
    return sentence("picture", key, met=signs.met, not_met=signs.not_met, undefined=signs.undefined)


# ---- tables of values


def draw_value_table(table: ValueTable, width: int = 90, unicode: bool = True) -> list[str]:
    """One column a value, one row a reading; several blocks where the values do not fit the width."""
    signs = UNICODE if unicode else ASCII
    texts = [plain_number(v) if isinstance(v, Fraction) else flat(v) for v in table.values]
    heading = _heading(table.name, table.unit)
    left = _label_width([heading, *(label for label, _ in table.rows)])
    cell = max((len(text) for text in texts), default=1) + 1
    fit = max(1, (width - left - 1) // cell)
    drawn: list[str] = []
    for start in range(0, len(texts), fit):
        if drawn:
            drawn.append("")
        head = "".join(text.rjust(cell) for text in texts[start : start + fit])
        drawn.append(f"{_label(heading, left)} {head}")
        for label, row in table.rows:
            cells = (_cell(met, signs).rjust(cell) for met in row[start : start + fit])
            drawn.append(f"{_label(label, left)} {''.join(cells)}")
    return drawn


def _cell(met: bool | None, signs: Signs) -> str:
    if met is None:
        return signs.undefined
    return signs.met if met else signs.not_met


def draw_picture(
    picture: NumberLine | ValueTable, width: int = 90, unicode: bool = True, explained: bool = False
) -> list[str]:
    """The picture, with its legend below unless the signs were `explained` before."""
    drawn = (
        draw_number_line(picture, width, unicode)
        if isinstance(picture, NumberLine)
        else draw_value_table(picture, width, unicode)
    )
    return drawn if explained else [*drawn, "", *wrap(legend(picture, unicode), width)]
