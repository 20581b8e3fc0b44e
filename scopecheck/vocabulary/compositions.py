"""Compositions: ingredients and classes as declared shares, what ties them, and contents on another basis.

Nothing else knows of compositions but what speaks of them to people: an ingredient is a share like any other,
and that all of them make up the whole is a fact that always holds.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from fractions import Fraction

from scopecheck.core.declared import Composition, Declaration, NumberDecl
from scopecheck.core.formula import Add, Bound, Compare, Const, Divide, Measured, Term, Value
from scopecheck.core.model import Given
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import replace
from scopecheck.language.syntax import ClassLine, Declare, MixtureKind
from scopecheck.vocabulary.classes import IMPURITY_WORDS, OTHER_WORDS, classed

WHOLE = Fraction(1)
"""All of it: 100 %."""


def composition(declare: Declare, kind: MixtureKind) -> Composition:
    """What one declaration declares. Raises Trouble where it has no ingredients or its classes are wrong."""
    if len(declare.names) != 1:
        raise trouble(declare.span, "several compositions in one line", "", "declare each on its own line")
    name = declare.names[0].name
    lines = declare.classes
    said = [line.name for line in lines if not _stands_for_the_rest(line)]
    if not said:
        raise trouble(
            declare.span, f"the composition '{name}' has no ingredients",
            "Each ingredient stands on an indented line below it.", "write below it, indented: water, sand",
        )  # fmt: skip
    listed = [line.name for line in lines if not (_stands_for_the_rest(line) or line.all_but)]
    own = [line.name for line in lines if line.members is None and line.name in listed]
    gathers = {x.name.lower() for line in lines for x in line.members or ()}
    top = [x for x in listed if x in own or x.name.lower() not in gathers]
    others, impurities = ("", "") if kind.only else (f"others in {name}", f"impurities in {name}")
    more = (others, impurities) if others else ()
    made = classed(top, tuple(line for line in lines if line.members is not None), more)
    return Composition(name, made.members, made.classes, others, impurities, kind.unit, declare.span)


def _stands_for_the_rest(line: ClassLine) -> bool:
    name = line.name.name
    return line.members is None and (name in OTHER_WORDS or name.lower() in IMPURITY_WORDS)


def declared_for(made: Composition, note: str) -> list[Declaration]:
    """A share for each class and each ingredient, classes first, as fractions of the whole.

    That a class is no more than the whole follows from its members.
    """
    unit = replace(made.unit, kind=made.unit.kind.of(made.name))
    lower, upper = Bound(Fraction(0), True), Bound(WHOLE, True)
    ends = [(name, None) for name, _ in made.classes] + [(name, upper) for name in made.members]
    return [NumberDecl(n, unit.kind, unit, False, lower, end, False, note, made.span) for n, end in ends]


def tied(made: Composition) -> tuple[Given, ...]:
    """What always holds: the ingredients make up the whole, and a class is its members together."""
    text = f"the shares of {made.name} add up to 100 {made.unit.symbol}"
    total = Compare("=", total_of(made.members), Const(WHOLE))
    return (Given(text, total, "", made.span), *(_sum(made, *of) for of in made.classes))


def _sum(made: Composition, name: str, below: tuple[str, ...]) -> Given:
    """That a class is its members together, as its own line of the declaration says."""
    formula = Compare("=", Measured(name), total_of(below))
    return Given(f"{name} is {_listed(below)} together", formula, "", made.span, declared=True)


def _listed(names: tuple[str, ...]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


def total_of(names: tuple[str, ...]) -> Term:
    shares = tuple(Measured(name) for name in names)
    return shares[0] if len(shares) == 1 else Add(shares)


def not_further(made: Composition, point: Mapping[str, Value], spoken: Container[str]) -> tuple[str, ...]:
    """The further members of classes of which a document's example states every one that is written.

    `other thickener` where it says how much there is of each thickener of the sheet, and some of one, and may
    hold ingredients beyond those listed. Where it speaks of that one, or of all together, nothing is added.
    """
    if not made.others or made.others in spoken:
        return ()
    further = {f"other {name}" for name, _ in made.classes}
    found = []
    for name, below in made.classes:
        written, other = [m for m in below if m not in further], f"other {name}"
        above = (whole for whole, members in made.classes if other in members)
        if other not in below or other in spoken or any(whole in spoken for whole in above):
            continue
        if all(m in point for m in written) and any(point[m] != 0 for m in written):
            found.append(other)
    return tuple(found)


def seen_as_list(made: Composition, name: str) -> Composition | None:
    """A class of the composition as a list of its own members."""
    below = next((below for above, below in made.classes if above.lower() == name.lower()), None)
    if below is None:
        return None
    named = next(above for above, _ in made.classes if above.lower() == name.lower())
    inner = tuple((n, m) for n, m in made.classes if n != named and set(m) < set(below))
    others = next((m for m in below if m == f"other {named}"), "")
    return Composition(named, below, inner, others, "", made.unit, made.span)


def on_basis(share: str, basis: str, unit: Unit) -> tuple[Term, Unit]:
    """The content of one amount in another, such as filler of solids; without value where the basis is 0."""
    return Divide(Measured(share), Measured(basis), basis), replace(unit, kind=unit.kind.of(basis))
