"""Is there, for each member of a list that a limitation names, something in the claim that has it?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.prepared import Instance, Prepared, at_limitation
from scopecheck.core.construction import Construction
from scopecheck.core.model import (
    OTHERS,
    All,
    Chosen,
    Classes,
    Compare,
    Const,
    ExactlyOne,
    Formula,
    Implies,
    Includes,
    Limitation,
    Measured,
    Not,
    NumberDecl,
    Read,
)
from scopecheck.core.model import Any as AnyOf
from scopecheck.foundations.record import record, replace
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Search

Atom = Includes | Chosen | Compare


@record
class Named:
    """A member, or a class, that a limitation names as what may or must be there: `there` says that it is."""

    name: str
    there: Formula


def members_not_reached(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """Does a claim name members of a list that nothing in its scope has, in the base or on any construction?

    Told by the lines that rule a member out, members ruled out alike together. What a limitation rules out
    by itself is not told. A class is there if one of its members is.
    """
    named = [(x, n) for x in instance.own for n in named_members(prepared, x)]
    base = prepared.session.base
    left = [(x, n) for x, n in named if not _known(prepared, instance, n)]
    if not left:
        return
    search = _within(prepared, instance, base)
    missing = _not_found(prepared, search, left, base)
    if missing and search.holds():
        always = _not_found(prepared, _within(prepared, instance, None), missing, None)
        yield from _told(prepared, instance, missing, {id(n) for _, n in always})


def _within(prepared: Prepared, instance: Instance, at: Construction | None) -> Search:
    session = prepared.session
    search = session.search(session.groups_in(instance.scope) if at is None else ())
    search.require(session.met(instance.scope, at))
    return search


def _known(prepared: Prepared, instance: Instance, named: Named) -> bool:
    """Is one of the things known by now, which meet the claim in the base, one that has it?"""
    always, base = prepared.always_meets(instance.limitations), prepared.session.base
    known = [always] if always is not None else []
    return any(
        meets(named.there, thing, base) and meets(instance.scope, thing, base)
        for thing in (*known, *prepared.inside_points(instance.scope))
    )


def _not_found(
    prepared: Prepared,
    search: Search,
    left: Sequence[tuple[Limitation, Named]],
    at: Construction | None,
) -> list[tuple[Limitation, Named]]:
    """Those that nothing of the search has: each thing found clears all that it has."""
    missing = list(left)
    while missing:
        if not search.find(prepared.session.met(AnyOf(tuple(n.there for _, n in missing)), at)):
            return missing
        thing = search.article()
        missing = [(x, n) for x, n in missing if not meets(n.there, thing, prepared.session.base)]
    return missing


def _told(
    prepared: Prepared,
    instance: Instance,
    missing: Sequence[tuple[Limitation, Named]],
    always: set[int],
) -> Iterator[Finding]:
    alike: dict[tuple[str, bool, tuple[str, ...]], list[str]] = {}
    for limitation, named in missing:
        every = id(named) in always
        at = None if every else prepared.session.base
        grounds = _ruling_out(prepared, instance, limitation.label, named, at)
        alike.setdefault((limitation.label, every, grounds), []).append(named.name)
    labels = {x.label for x in instance.limitations}
    for (label, every, grounds), names in alike.items():
        if set(grounds) == {label}:
            continue
        yield replace(
            at_limitation("member not reached", 4, prepared.limitation(label)),
            outcome="excluded",
            quantifier="every" if every else "base",
            detail="|".join(names),
            conflict=tuple(x for x in grounds if x in labels),
            rests_on=tuple(dict.fromkeys(prepared.shares_together(x) for x in grounds if x not in labels)),
            construction=None if every else prepared.session.base,
        )


def _ruling_out(
    prepared: Prepared, instance: Instance, label: str, named: Named, at: Construction | None
) -> tuple[str, ...]:
    """A least part of the claim's lines, the bounds and the given facts beside which it cannot be there.

    The line that names it is left out last: where it does so alone, it is all that is told.
    """
    session = prepared.session
    formulas = [x.formula for x in instance.limitations]
    search = session.search(session.groups_in(*formulas) if at is None else (), things=False)
    search.require(session.met(named.there, at))
    ordered = sorted(instance.limitations, key=lambda x: x.label == label)
    lines = [(x.label, session.met(x.formula, at)) for x in ordered]
    return search.conflict([*session.grounds(prepared.relevant(named.there, *formulas)), *lines]) or ()


# ---- what a limitation names


def named_members(prepared: Prepared, limitation: Limitation) -> tuple[Named, ...]:
    """The members and classes that a limitation, as read in the base, names as what may or must be there.

    A class is one where all its members are named; what was not listed, and that a step is done, is none.
    """
    atoms = tuple(dict.fromkeys(_asked(limitation.formula, prepared.session.base, True)))
    by_list: dict[str, dict[str, Atom]] = {}
    for atom in atoms:
        list_name, member = _place(prepared, atom)
        if list_name:
            by_list.setdefault(list_name, {})[member] = atom
    return tuple(n for name, own in by_list.items() for n in _by_class(_classes(prepared, name), own))


def _by_class(classes: Classes, own: dict[str, Atom]) -> Iterator[Named]:
    """The classes of which all members are named, then the members that are named by themselves."""
    whole = [(name, below) for name, below in classes if len(below) > 1 and set(below) <= own.keys()]
    within = {member for _, below in whole for member in below}
    for name, below in whole:
        yield Named(name, AnyOf(tuple(own[member] for member in below)))
    for member, atom in own.items():
        if member != OTHERS and member not in within:
            yield Named(member, atom)


def _asked(formula: Formula, base: Construction, wanted: bool) -> Iterator[Atom]:
    """What stands in the formula as wanted: that a list has a member, that some of an ingredient is there."""
    match formula:
        case Includes() | Chosen() | Compare(">", Measured(), Const(0)):
            if wanted:
                yield formula
        case Not(item):
            yield from _asked(item, base, not wanted)
        case Implies(left, right):
            yield from _asked(left, base, not wanted)
            yield from _asked(right, base, wanted)
        case Read(group, options):
            yield from _asked(options[base.readings[group]], base, wanted)
        case All(items) | AnyOf(items) | ExactlyOne(items):
            for item in items:
                yield from _asked(item, base, wanted)
        case _:
            pass


def _place(prepared: Prepared, atom: Atom) -> tuple[str, str]:
    """The list, choice or composition that an atom speaks of, and the member; '' where it is none of them."""
    match atom:
        case Includes(name, member) | Chosen(name, member):
            steps = {step.done for step in prepared.sheet.steps}
            return ("" if name in steps else name), member
        case Compare(_, Measured(name)):
            made = (c.name for c in prepared.sheet.compositions if name in c.members)
            return next(made, ""), name
        case _:
            return "", ""


def _classes(prepared: Prepared, name: str) -> Classes:
    sheet = prepared.sheet
    made: Iterable[Classes] = (c.classes for c in sheet.compositions if c.name == name)
    found = next(iter(made), None)
    if found is not None:
        return found
    declared = sheet.declaration(name)
    return () if isinstance(declared, NumberDecl) else declared.classes
