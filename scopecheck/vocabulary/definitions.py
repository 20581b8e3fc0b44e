"""Definitions found in the description: the words they are for and the one reading they give them."""

from __future__ import annotations

from functools import partial

from scopecheck.core.formula import Formula
from scopecheck.core.model import Definition as Defining
from scopecheck.core.model import Reading, Settled
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.record import node, record
from scopecheck.language.statements_words import AS_DEFINED
from scopecheck.language.syntax import DefineStatement, PhraseStatement
from scopecheck.vocabulary.entry import Entry, EntryReading, Wording
from scopecheck.vocabulary.patterns import Pattern, pattern


@node
class Definition:
    """A definition as an entry of one wording with one reading; `noun`: it says what a noun stands for."""

    entry: Entry
    statement: DefineStatement
    noun: bool

    @property
    def reading(self) -> EntryReading:
        return self.entry.readings[0]

    @property
    def name(self) -> str:
        """The defined noun in small letters."""
        return self.statement.wording.lower()

    def settled(self, removed: tuple[str, ...] = ()) -> Settled:
        """The definition as what settles words, and the readings that it takes away."""
        return Settled(self.statement.text, self.statement.place, removed, self.statement.span)


@record
class Applied:
    """A definition where its words stand: what it means there, exactly and for people."""

    definition: Definition
    meaning: Formula
    plain: str


def as_defined(shown: str, alone: bool) -> Reading:
    """The reading that a definition gives: presumed where it stands `alone`, arguable beside others.

    Whether it is broader than they are, and so governs, is asked once all is resolved.
    """
    return Reading(AS_DEFINED, "presumed" if alone else "arguable", shown)


def defining(definition: Definition, left: tuple[Reading, ...], own: Reading | None) -> Defining | None:
    """What a group keeps of the definition of its words, as far as its reading is left."""
    index = next((i for i, reading in enumerate(left) if reading is own), None)
    if index is None:
        return None
    statement = definition.statement
    return Defining(statement.text, statement.place, index, statement.span)


def definition(statement: DefineStatement) -> Definition:
    """The definition that a statement makes. Raises Trouble at what is wrong with it."""
    span = statement.span
    made = pattern(statement.wording, span)
    if statement.amount and made.slots:
        said = statement.reading.formula.text if statement.reading.formula else ""
        raise trouble(
            span, f"'{said}' says no fact", "Words with numbers are defined by facts about x.",
            f"write for example x >= {said}",
        )  # fmt: skip
    wordings = (Wording(made.text, frozenset(), partial(_same, made)),)
    phrase = PhraseStatement(
        ((made.text, span),), None, (statement.reading,), (), (), (), (), "", (), "", "", "", made.text, span
    )
    return Definition(Entry(wordings, (), (), True, lambda: phrase), statement, statement.amount)


def _same(made: Pattern) -> Pattern:
    return made
