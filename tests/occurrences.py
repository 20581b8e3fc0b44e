"""Occurrences to try the shipped phrases on: subjects of every kind, numbers for the slots, and articles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import Chosen, Const, Formula, Includes, Parameter
from scopecheck.exact.fitting import literal
from scopecheck.exact.formulas import context, formula
from scopecheck.exact.terms import term
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, Unit, as_difference, find_unit
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import Page
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import Number, scan
from scopecheck.language.syntax import Node, Raw
from scopecheck.vocabulary.constants import constant, truth
from scopecheck.vocabulary.entry import Entry, EntryReading
from scopecheck.vocabulary.names import Bound, Listed, Names, NotHere, Typed, number_of
from scopecheck.vocabulary.patterns import Pattern, Slot

NOWHERE = Span(Source("test", ""), 0, 0)


@dataclass(frozen=True)
class Subject:
    """A kind of subject, with numbers to fill slots by name, in its unit; for a list `unit` holds members."""

    kinds: tuple[str, ...]
    unit: str = ""
    whole: bool = False
    numbers: tuple[tuple[str, str], ...] = ()
    written_in: str = ""
    """The unit of the numbers in the words, where it is not the subject's."""


PLAIN_NUMBER = Typed(Const(Fraction(1)), PLAIN_KIND)


def applies(subject: Subject, kinds: tuple[str, ...]) -> bool:
    return not kinds or any(k in subject.kinds for k in kinds)


def _number(text: str, unit: str) -> Number:
    source = Page(Source("test", text if text[-1] == "%" or ":" in text or not unit else f"{text} {unit}"))
    (token,) = scan(source, 0, len(source.plain), {})
    assert token.number
    return token.number


def unit_of(symbol: str) -> Unit:
    unit = find_unit(symbol) if symbol else PLAIN
    assert unit is not None, symbol
    return unit


def _names(subject: Subject, count: int) -> Names:
    if "sets" in subject.kinds:
        return Names({"one": SetDecl("one", ("copper", "zinc", "tin", "something else"), "", NOWHERE)})
    if "choices" in subject.kinds:
        return Names({"one": ChoiceDecl("one", ("copper", "zinc", "tin", "something else"), "", NOWHERE)})
    unit = unit_of(subject.unit)
    names = ("one", "two")[:count]
    return Names(
        {n: NumberDecl(n, unit.kind, unit, subject.whole, None, None, False, "", NOWHERE) for n in names}
    )


def _slot_value(slot: Slot, subject: Subject, names: Names) -> Bound:
    if slot.kind == "list":
        declared = names.declarations["one"]
        members = tuple(subject.unit.split())
        if isinstance(declared, SetDecl):
            return Listed(tuple(Includes("one", m) for m in members), members, subject.unit)
        return Listed(tuple(Chosen("one", m) for m in members), members, subject.unit)
    text = dict(subject.numbers)[slot.name]
    if slot.kind in ("ratio", "whole", "plain"):
        return literal(_number(text, ""))
    number = _number(text, subject.written_in or subject.unit)
    if slot.kind == "difference" and number.unit and number.unit.kind.point:
        level = number.unit.kind.basis == "level"
        return literal(number, as_difference(number.unit) if level else unit_of("bar"))
    return literal(number)


def _slots(entry: Entry, pattern: Pattern, subject: Subject) -> tuple[Names, dict[str, Bound]]:
    nouns = [s.name for s in pattern.slots if s.kind == "noun"]
    called = entry.subjects or tuple(nouns) or ("x",)
    names = _names(subject, len(called))
    declared = list(names.declarations.values())
    slots: dict[str, Bound] = {}
    for name, declaration in zip(called, declared, strict=True):
        slots[name] = number_of(declaration) if isinstance(declaration, NumberDecl) else declaration
    slots["x"] = slots[called[0]]
    for slot in pattern.slots:
        if slot.kind != "noun":
            slots[slot.name] = _slot_value(slot, subject, names)
    return names, slots


def _holds(raw: Raw, names: Names, slots: dict[str, Bound]) -> bool:
    try:
        return truth(formula(context(names, "condition", slots), _node(raw))) is True
    except NotHere:
        return False


@dataclass(frozen=True)
class Meaning:
    reading: EntryReading
    formula: Formula
    parameters: tuple[tuple[str, Fraction], ...]


def _node(raw: Raw) -> Node:
    return parse_facts(raw.page, raw.start, raw.end, {})


def _meaning(reading: EntryReading, names: Names, slots: dict[str, Bound]) -> Meaning:
    """The reading's formula at an occurrence; free numbers a little away from what is presumed."""
    known = dict(slots)
    values = []
    for free in reading.written.free:
        like = term(context(names, "reading", slots), _node(free.like)) if free.like else PLAIN_NUMBER
        known[free.name] = Typed(Parameter(free.name), like.kind, unit=like.unit)
        presumed: Fraction | None = Fraction(0)
        if free.presumed is not None:
            presumed = constant(term(context(names, "reading", slots), _node(free.presumed)).term)
        assert presumed is not None
        for bound in free.bounds:
            formula(context(names, "reading", known), _node(bound))
        step = Fraction(3, 10) * (like.unit.factor if like.unit else 1) if presumed == 0 else Fraction(-1, 5)
        values.append((free.name, presumed + step))
    assert reading.formula is not None
    return Meaning(reading, formula(context(names, "reading", known), _node(reading.formula)), tuple(values))


def meanings(entry: Entry, pattern: Pattern, subject: Subject) -> Iterator[Meaning]:
    """The readings that make sense for this subject."""
    names, slots = _slots(entry, pattern, subject)
    if entry.where and not _holds(entry.where, names, slots):
        return
    for reading in entry.readings:
        if reading.formula is None or not applies(subject, reading.written.only_for):
            continue
        if not all(_holds(raw, names, slots) for raw in reading.written.only_when):
            continue
        try:
            yield _meaning(reading, names, slots)
        except (NotHere, Trouble):
            continue
