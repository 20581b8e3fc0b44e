"""The columns of cases: which cells of a heading, or of a row below it, name what is measured."""

from __future__ import annotations

from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.pieces import Desk
from scopecheck.language.syntax import Column

Stretch = tuple[int, int]
_IN_BRACKETS = regex(r"(.*?\S)\s+[(\[]\s*(.*\S)\s*[)\]]")
_OF = regex(r"(?:.* (?:of|throughout)|others in|impurities in|other|start of|end of)(?: the)? (\S.*)")
_NUMBER = regex(r"no\.?")
_NUMBERED = regex(r"(\w+?)s?(?: (?:no\.?|name))?")


def column(desk: Desk, start: int, end: int) -> Column:
    """A declared name, perhaps with a unit for its cells: `gap in mm`, `gap (mm)`."""
    name, word, unit_text = desk.text[start:end].partition(" in ")
    if match := _IN_BRACKETS.fullmatch(desk.text, start, end):
        name, word, unit_text = match.group(1), "in", match.group(2)
    unit = find_unit(unit_text.strip(), desk.own) if word else None
    if word and unit is None:
        return Column(" ".join(desk.text[start:end].split()), None, desk.span(start, end))
    return Column(" ".join(name.split()), unit, desk.span(start, end))


def columns(desk: Desk, stretches: list[Stretch]) -> tuple[Column, ...]:
    """The columns that a heading of cases names; what only labels the cases' names is none."""
    made = tuple(column(desk, *cell) for cell in stretches)
    labelled = len(made) > 1 and _label(desk, made[0]) and all(_named(desk, c) for c in made[1:])
    return made[1:] if labelled else made


def names_columns(desk: Desk, stretches: list[Stretch]) -> bool:
    """Whether cells beside a document's name are columns: one at least is declared, and none is a value."""
    made = columns(desk, stretches)
    return any(_named(desk, c) for c in made) and not any(_value(desk, c) for c in made)


def heads_below(desk: Desk, stretches: list[Stretch]) -> tuple[Column, ...] | None:
    """The columns, if a row below a heading names them instead of stating a case; else None.

    Every cell is a declared name then; the first may label the cases. A member of a list may be called like
    a declared thing, so where the cells fit the columns before, one has to stand in its own column.
    """
    made = tuple(column(desk, *cell) for cell in stretches)
    rest = made[1:] if _label(desk, made[0]) else made
    if not rest or not all(_named(desk, c) for c in rest):
        return None
    before = [c.name.lower() for c in desk.columns]
    own = any(c.name.lower() == name for c, name in zip(made[1:], before, strict=False))
    return rest if len(rest) == len(made) or len(made) - 1 != len(before) or own else None


def _label(desk: Desk, made: Column) -> bool:
    """Whether a cell only labels the cases below it: 'sample', 'example no.', 'no.'."""
    name = made.name.lower()
    found = _NUMBERED.fullmatch(name)
    labels = found is not None and found.group(1) in listed("cells", "above_names")
    return not _named(desk, made) and (labels or _NUMBER.fullmatch(name) is not None)


def _named(desk: Desk, made: Column) -> bool:
    """Whether a cell is a declared name, a value of a declared thing, or a name with a unit."""
    return made.unit is not None or _declared(desk, made.name.lower())


def _declared(desk: Desk, name: str) -> bool:
    name = name.removeprefix("the ")
    if name in desk.failed or name.removesuffix("s") in desk.failed or name.removesuffix("es") in desk.failed:
        return True
    whole = _OF.fullmatch(name)
    return whole is not None and _declared(desk, whole.group(1))


def _value(desk: Desk, made: Column) -> bool:
    """Whether a cell can only be a value; a name begins with a letter."""
    if _named(desk, made):
        return False
    begins = made.name.lower().split()[0] in listed("cells", "values")
    return begins or not made.name[0].isalpha() or "+" in made.name
