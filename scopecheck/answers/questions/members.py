"""Is there, for each member of a list that a limitation names, something in the claim that has it?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from scopecheck.answers.about import Because, NotThere
from scopecheck.answers.findings import Finding, lines_of
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.otherwise import with_not_so
from scopecheck.answers.questions.prepared import Prepared, at_limitation
from scopecheck.answers.questions.reached import ruling_out
from scopecheck.core.construction import Construction
from scopecheck.core.declared import Classes, NumberDecl
from scopecheck.core.formula import (
    OTHERS,
    All,
    Chosen,
    Compare,
    Const,
    ExactlyOne,
    Formula,
    Implies,
    Includes,
    Measured,
    Not,
    Read,
)
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.grounds import Ground
from scopecheck.core.model import Limitation, Sheet
from scopecheck.foundations.record import record, replace
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Search

Atom = Includes | Chosen | Compare


@record
class Named:
    """What a limitation names as what may or must be there, or what its condition is about: `there` says
    that it is there, or is so."""

    names: tuple[str, ...]
    there: Formula


def members_not_reached(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """Does a claim name members of a list that nothing in its scope has, in the base or on any construction?

    Told by the lines that rule a member out, members ruled out alike together. What a limitation rules out
    by itself is not told. A class is there if one of its members is.
    """
    named = [(x, n) for x in instance.own for n in named_members(prepared, x)]
    for found in not_there(prepared, instance, "member not reached", named):
        if (found.label,) != lines_of(found) or found.rests_on:
            yield found


def not_there(
    prepared: Prepared, instance: Instance, question: str, named: Sequence[tuple[Limitation, Named]]
) -> Iterator[Finding]:
    """What lines name that nothing in the claim's scope has, in the base or on any construction."""
    base = prepared.session.base
    left = [(x, n) for x, n in named if not _known(prepared, instance, n)]
    if not left:
        return
    search = _within(prepared, instance, base)
    missing = _not_found(prepared, search, left, base)
    if missing and search.holds():
        always = _not_found(prepared, _within(prepared, instance, None), missing, None)
        yield from _told(prepared, instance, question, missing, {id(n) for _, n in always})


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
    """Those that nothing of the search has: each thing found clears all that it has, as it was read there."""
    met = prepared.session.met
    missing = list(left)
    while missing and search.find(met(AnyOf(tuple(n.there for _, n in missing)), at)):
        missing = [(x, n) for x, n in missing if not search.true(met(n.there, at))]
    return missing


def _told(
    prepared: Prepared,
    instance: Instance,
    question: str,
    missing: Sequence[tuple[Limitation, Named]],
    always: set[int],
) -> Iterator[Finding]:
    alike: dict[tuple[str, bool, tuple[str, ...], tuple[Ground, ...]], list[Named]] = {}
    for limitation, named in missing:
        every = id(named) in always
        at = None if every else prepared.session.base
        labels, grounds = ruling_out(prepared, instance, limitation.label, named.there, at)
        alike.setdefault((limitation.label, every, labels, grounds), []).append(named)
    for (label, every, labels, grounds), named_alike in alike.items():
        found = at_limitation(question, 4, prepared.limitation(label))
        if found.claim != instance.claim.number:
            found = replace(found, claim=instance.claim.number, span=instance.claim.span)
        told = replace(
            found,
            outcome="excluded",
            quantifier="every" if every else "base",
            about=NotThere(Because(labels), tuple(name for n in named_alike for name in n.names)),
            rests_on=prepared.grounds(grounds),
            construction=None if every else prepared.session.base,
        )
        yield _with_not_so(prepared, instance, told, named_alike)


def _with_not_so(prepared: Prepared, instance: Instance, told: Finding, named: Sequence[Named]) -> Finding:
    """The finding with the readings on which something in the claim has one of the members."""
    lines = (x.formula for x in instance.limitations if x.label in (told.label, *lines_of(told)))
    there = AnyOf(tuple(n.there for n in named))

    def has(k: Construction) -> bool:
        return _within(prepared, instance, k).holds(prepared.session.met(there, k))

    return with_not_so(prepared, told, tuple(lines), has)


# ---- what a limitation names


def named_members(prepared: Prepared, limitation: Limitation) -> tuple[Named, ...]:
    """The members and classes that a limitation, as read in the base, names as what may or must be there.

    A class is one where all its members are named, and not each by the words themselves; what was not listed,
    and that a step is done, is none. What is said of like parts is there where it is so of one of them.
    """
    words = (limitation.words or limitation.text).lower()
    by_list: dict[str, dict[str, list[Formula]]] = {}
    for atom in dict.fromkeys(_asked(limitation.formula, prepared.session.base, True)):
        list_name, member, there = _place(prepared.sheet, atom)
        if list_name:
            by_list.setdefault(list_name, {}).setdefault(member, []).append(there)
    found: list[Named] = []
    for name, own in by_list.items():
        formulas = {m: there[0] if len(there) == 1 else AnyOf(tuple(there)) for m, there in own.items()}
        found += _by_class(_classes(prepared.sheet, name), formulas, words)
    return tuple(found)


def _by_class(classes: Classes, own: Mapping[str, Formula], words: str) -> Iterator[Named]:
    """The classes of which all members are named, the widest only; then the members named by themselves."""
    whole = [
        (name, set(below))
        for name, below in classes
        if len(below) > 1 and set(below) <= own.keys() and not all(m.lower() in words for m in below)
    ]
    widest = [(name, below) for name, below in whole if not any(below < other for _, other in whole)]
    within = {member for _, below in widest for member in below}
    for name, below in widest:
        yield Named((name,), AnyOf(tuple(there for member, there in own.items() if member in below)))
    for member, there in own.items():
        if member != OTHERS and member not in within:
            yield Named((member,), there)


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


def _place(sheet: Sheet, atom: Atom) -> tuple[str, str, Formula]:
    """The list, choice or composition that an atom speaks of, the member, and that it is there.

    '' where it speaks of none of them. A field of like parts is one list for all of them.
    """
    match atom:
        case Includes(name, member) | Chosen(name, member):
            if any(name == step.done for step in sheet.steps):
                return "", "", atom
            for part in sheet.parts:
                for index, own, slot in part.slots():
                    if slot == name:
                        return f"{own} of {part.name}", member, All((part.present(index), atom))
            return name, member, atom
        case Compare(_, Measured(name)):
            made = (c.name for c in sheet.compositions if name in c.members)
            return next(made, ""), name, atom
        case _:
            return "", "", atom


def _classes(sheet: Sheet, name: str) -> Classes:
    for listed in (*sheet.compositions, *sheet.declarations):
        if listed.name == name and not isinstance(listed, NumberDecl):
            return listed.classes
    return ()
