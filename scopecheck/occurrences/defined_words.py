"""Definitions where their words stand: what they mean there, and what else settles the same words."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.formula import Formula
from scopecheck.core.model import Rivals
from scopecheck.foundations.diagnostics import KindTrouble
from scopecheck.language.statements_words import AS_DEFINED
from scopecheck.occurrences.free_numbers import open_numbers
from scopecheck.occurrences.groups import Groups
from scopecheck.occurrences.occurrence import Occurrence
from scopecheck.occurrences.plain_readings import plain
from scopecheck.occurrences.readings import meaning_of, pin_value, sort_out
from scopecheck.occurrences.rivals import Meant, note_rivals
from scopecheck.vocabulary.definitions import Applied, Definition
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.names import Names, NotHere


def apply(definition: Definition, at: Occurrence, names: Names, groups: Groups) -> Applied | None:
    """What a definition means where its words stand; None, kept in mind, where it makes no sense there."""
    groups.reached.setdefault(id(definition), [])
    try:
        meaning = meaning_of(definition.reading, at, names, {}, True)
    except (NotHere, KindTrouble) as error:
        why = error.diagnostic.message if isinstance(error, KindTrouble) else str(error)
        groups.unfit.append((definition, at.words, at.where, why))
        return None
    groups.reached[id(definition)].append(at.where)
    return Applied(definition, meaning, plain(definition.reading, at))


def note_settled_twice(
    entry: Entry, at: Occurrence, names: Names, groups: Groups, defined: tuple[Applied, ...]
) -> None:
    """Keeps in mind what else settles defined words: further definitions, policies and pins."""
    for first, second in pairwise(defined):
        pair = ((first.meaning, second.meaning),)
        one, other = first.definition.settled(), second.definition.settled()
        groups.rivals.append(Rivals(at.words, at.where, one, other, pair))
    if any(d.definition.entry is entry for d in defined):
        return
    meant, _, _ = sort_out(entry, at, names)
    labels = (*(reading.label for reading, _ in meant), AS_DEFINED)
    pins = groups.holding(
        groups.pins_at(at.wording, entry.title, at.where, at.words, labels), labels, at.where
    )
    numbers = {name: number for pin in pins for name, number in pin.values}
    for d in defined:
        ordinary = []
        for reading, meaning in meant:
            free = open_numbers(reading, at, names, 0, 0)
            formula: Formula | None = meaning
            groups.numbers |= {
                (id(pin.span), p.name)
                for pin in pins
                for p in free
                if pin.reading.lower() == reading.label.lower() and p.name in dict(pin.values)
            }
            if free and all(p.name in numbers for p in free):
                fixed = {p.name: pin_value(numbers[p.name], p, reading) for p in free}
                formula = meaning_of(reading, at, names, {}, False, fixed)
            elif free:
                formula = None
            ordinary.append(Meant(reading.label, reading.axes, (d.meaning, formula) if formula else None))
        note_rivals(groups, d.definition, (at.words, at.where), pins, tuple(ordinary))
