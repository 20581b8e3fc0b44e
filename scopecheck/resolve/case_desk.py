"""What is at hand while cases are resolved, and what has been made of one of them so far."""

from __future__ import annotations

from scopecheck.core.declared import NumberDecl, Step
from scopecheck.core.formula import Formula, Value
from scopecheck.core.model import Claim
from scopecheck.foundations.diagnostics import Diagnostic, Trouble
from scopecheck.foundations.record import field, holder, record
from scopecheck.foundations.spans import Span
from scopecheck.occurrences.groups import Groups
from scopecheck.resolve.case_parts import Counted, Spoken
from scopecheck.resolve.step_cells import Cell, said_of
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Names


@holder
class CasesDesk:
    """What is at hand while cases are resolved. `points` are the values of cases that are single things."""

    names: Names
    groups: Groups
    phrases: Phrasebook
    claims: tuple[Claim, ...]
    wrong: list[Diagnostic] = field(default_factory=list)
    points: dict[int, dict[str, Value]] = field(default_factory=dict)
    other_units: dict[tuple[int, str], Trouble] = field(default_factory=dict)
    """What was said of a unit that does not go with its column, by where the column stands."""


@record
class OfCase:
    """The case that a cell belongs to: its name, and `where` its words stand for the readings of phrases.

    Of one that is `stating`, as a document does, nothing is there but what it says.
    """

    name: str
    where: str
    stating: bool


@holder
class Made:
    """What has been made of one case so far. `single`: all said fixes a value or names a member."""

    facts: list[Formula] = field(default_factory=list)
    counted: list[Counted] = field(default_factory=list)
    spoken: list[Spoken] = field(default_factory=list)
    silent: list[str] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)
    free: list[str] = field(default_factory=list)
    point: dict[str, Value] = field(default_factory=dict)
    single: bool = True
    each: list[str] = field(default_factory=list)
    """How many there are of the parts of each of which single values are stated: to be stated, too."""
    ends: list[tuple[Formula, Span]] = field(default_factory=list)
    """Facts that say when a step ends."""


def put_said_of_step(desk: CasesDesk, step: Step, cell: Cell, made: Made) -> bool:
    """Whether the cell says in its own form when the step is done; what it says is put with the rest."""
    declared = desk.names.declarations[step.start]
    assert isinstance(declared, NumberDecl)
    said = said_of(step, cell, declared.unit)
    if said is not None:
        made.facts += said.facts
        made.point |= said.point
    return said is not None
