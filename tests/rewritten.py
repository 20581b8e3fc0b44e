"""A sheet told otherwise: renamed, re-unit-ed, with a reading more, with a line or a case less."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Chosen, CountOf, Formula, Includes, Measured, Read, ReadTerm
from scopecheck.core.model import Case, Group, Limitation, Reading, Sheet, Standing
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import replace

Change = Callable[[object], object]
"""What takes a node's place; the node itself where nothing does."""


def mapped(item: object, change: Change) -> object:
    """The item with the change made to it and everything below, innermost first."""
    if isinstance(item, tuple):
        return tuple(mapped(part, change) for part in item)
    names = getattr(type(item), "__match_args__", ())
    if not names or isinstance(item, Unit):
        return change(item)
    below = {name: mapped(getattr(item, name), change) for name in names if name != "span"}
    return change(replace(item, **below))


def renamed(sheet: Sheet, names: Mapping[str, str]) -> Sheet:
    """Every declared name replaced, in declarations, formulas and cases."""

    def change(item: object) -> object:
        match item:
            case Measured(name) | CountOf(name):
                return replace(item, name=names[name])
            case Chosen(name, _) | Includes(name, _):
                return replace(item, name=names[name])
            case Case():
                return replace(item, stated=tuple(sorted(names[n] for n in item.stated)))
            case _:
                return item

    told = mapped(sheet, change)
    assert isinstance(told, Sheet)
    declarations = tuple(replace(d, name=names[d.name]) for d in sheet.declarations)
    return replace(told, declarations=declarations)


def in_unit(sheet: Sheet, name: str, unit: Unit) -> Sheet:
    """One number read and written in another unit; every value stays what it is."""
    changed = tuple(
        replace(d, unit=unit) if isinstance(d, NumberDecl) and d.name == name else d
        for d in sheet.declarations
    )
    return replace(sheet, declarations=changed)


def reordered(sheet: Sheet) -> Sheet:
    """The limitations of each claim the other way round."""
    claims = tuple(replace(c, limitations=c.limitations[::-1]) for c in sheet.claims)
    return replace(sheet, claims=claims)


def with_reading(sheet: Sheet, group: int, standing: Standing, formula: Formula) -> Sheet:
    """One reading more for a group, the same at each of its occurrences, last in order."""

    def change(item: object) -> object:
        match item:
            case Read(g, options) if g == group:
                return Read(g, (*options, formula))
            case ReadTerm(g, options) if g == group:
                return ReadTerm(g, (*options, options[0]))
            case Group(index=index, readings=readings) if index == group:
                return replace(item, readings=(*readings, Reading("one more", standing, "one more")))
            case _:
                return item

    told = mapped(sheet, change)
    assert isinstance(told, Sheet)
    return told


def without_limitation(sheet: Sheet, label: str) -> Sheet:
    def kept(limitations: tuple[Limitation, ...]) -> tuple[Limitation, ...]:
        return tuple(x for x in limitations if x.label != label)

    claims = tuple(replace(c, limitations=kept(c.limitations)) for c in sheet.claims)
    return replace(sheet, claims=claims)


def without_case(sheet: Sheet, name: str) -> Sheet:
    return replace(sheet, cases=tuple(case for case in sheet.cases if case.name != name))
