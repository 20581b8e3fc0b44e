"""What the JSON of all reports is made of: numbers, places, things, constructions, pictures."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from scopecheck.answers.about import (
    Reread,
)
from scopecheck.answers.minimise import BreakPoint
from scopecheck.answers.witness import Witness
from scopecheck.core.construction import Construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Article, ExactlyOne, Formula, Implies, Not, Read, Value
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.spans import Span
from scopecheck.report.amounts import quantity_text
from scopecheck.report.describe import value_text
from scopecheck.report.lines import NumberLine, Stretch, ValueTable
from scopecheck.report.rereadings import break_text, group_words, standing_text

SCHEMA_VERSION = 1
Data = dict[str, Any]


def exact(value: Fraction) -> str:
    """`p/q`, with the divisor even where it is 1."""
    return f"{value.numerator}/{value.denominator}"


def number_data(value: Fraction, unit: Unit) -> Data:
    """An amount in a unit: exact in it, and as the report writes it."""
    return {
        "exact": exact(unit.from_base(value)),
        "unit": unit.symbol,
        "written": quantity_text(value, unit),
    }


def _value(sheet: Sheet, name: str, value: Value) -> Data:
    if isinstance(value, Fraction):
        d = sheet.declaration(name)
        assert isinstance(d, NumberDecl)
        return {"name": name, **number_data(value, d.unit)}
    if isinstance(value, str):
        return {"name": name, "member": value, "written": value}
    return {"name": name, "members": sorted(value), "written": value_text(sheet, name, value)}


def place_data(span: Span) -> Data:
    """Line and column, both from 1."""
    return {"line": span.line, "column": span.column}


def article_data(sheet: Sheet, article: Article) -> list[Data]:
    """Every value of a thing, in the order of the sheet."""
    return [_value(sheet, d.name, article[d.name]) for d in sheet.declarations]


def witness_data(sheet: Sheet, witness: Witness | None) -> list[Data] | None:
    """Every value of a thing, in the order of the sheet; None without one."""
    return None if witness is None else [_value(sheet, name, value) for name, value in witness.values]


def taken_data(sheet: Sheet, group: int, reading: int) -> Data:
    """One reading of a group, by its label and standing."""
    g = sheet.groups[group]
    return {
        "group": group,
        "words": g.wording,
        "reading": g.readings[reading].label,
        "standing": g.readings[reading].standing,
        "standing_text": standing_text(g, reading),
        "meaning": g.readings[reading].plain,
    }


def construction_data(sheet: Sheet, k: Construction | None) -> Data | None:
    """The readings and stretches of a construction; None without one."""
    if k is None:
        return None
    units = {p.key: p for p in sheet.parameters}
    return {
        "groups": [taken_data(sheet, g, r) for g, r in enumerate(k.readings)],
        "parameters": [
            {"parameter": key, "group": units[key].group, **number_data(value, units[key].unit)}
            for key, value in k.parameters
        ],
    }


def reread_data(sheet: Sheet, reread: Reread) -> Data:
    """A reading taken otherwise, with its places and break-points."""
    breaks = [break_data(sheet, point) for point in reread.breaks]
    taken = taken_data(sheet, reread.group, reread.reading)
    return {**taken, "places": places_data(sheet, reread.group), "break_points": breaks}


def places_data(sheet: Sheet, group: int) -> list[Data]:
    """Where a group is read in the sheet, and on which side of a denial."""
    return [
        {
            "where": p.where,
            "words": p.words,
            **place_data(p.span),
            "meanings": list(p.meanings),
            "denied": p.where in sheet.by_label and _denied(sheet.by_label[p.where].formula, group),
        }
        for p in sheet.groups[group].places
    ]


def _denied(formula: Formula, group: int) -> bool:
    """Does the line deny what the phrase means, as "not 3 mm or 5 mm" does, wherever it stands in it?"""
    sides = set(_sides(formula, group, False))
    return sides == {True}


def _sides(formula: Formula, group: int, denied: bool) -> Iterator[bool]:
    match formula:
        case Not(item):
            yield from _sides(item, group, not denied)
        case Implies(left, right):
            yield from _sides(left, group, not denied)
            yield from _sides(right, group, denied)
        case All(items) | AnyOf(items) | ExactlyOne(items):
            for item in items:
                yield from _sides(item, group, denied)
        case Read(own, options):
            if own == group:
                yield denied
            for option in options:
                yield from _sides(option, group, denied)
        case _:
            pass


def break_data(sheet: Sheet, point: BreakPoint) -> Data:
    """A number that a stretch is taken up to, and what happens there."""
    parameter = next(p for p in sheet.parameters if p.key == point.parameter)
    words = group_words(sheet.groups[parameter.group])
    return {
        "parameter": point.parameter,
        "group": parameter.group,
        "direction": "at least" if point.upward else "at most",
        "closed": point.end.closed,
        **number_data(point.end.value, parameter.unit),
        "text": break_text(sheet, point, words),
    }


def diagnostic_data(d: Diagnostic) -> Data:
    """A message about a sheet, with its place."""
    place = place_data(d.span)
    return {"severity": d.severity, **place, "message": d.message, "cause": d.cause, "help": d.help}


def picture_data(picture: NumberLine | ValueTable) -> Data:
    """A picture of one quantity."""
    if isinstance(picture, NumberLine):
        return {
            "sort": "number line",
            "name": picture.name,
            "unit": picture.unit,
            "whole": picture.whole,
            "rows": [
                {"reading": label, "met": [_stretch(s) for s in ranges]} for label, ranges in picture.rows
            ],
            "marks": [{"name": name, "exact": exact(value)} for name, value in picture.marks],
            "stretched": [{"reading": label, "drawn": how} for label, how in picture.stretched],
            "rest": list(picture.rest),
        }
    return {
        "sort": "values",
        "name": picture.name,
        "unit": picture.unit,
        "values": [exact(v) if isinstance(v, Fraction) else v for v in picture.values],
        "rows": [{"reading": label, "met": list(row)} for label, row in picture.rows],
    }


def _stretch(s: Stretch) -> Data:
    return {
        "low": None if s.low is None else exact(s.low),
        "low_closed": s.low_closed,
        "high": None if s.high is None else exact(s.high),
        "high_closed": s.high_closed,
    }
