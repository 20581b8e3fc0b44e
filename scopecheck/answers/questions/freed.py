"""A class with a limit, narrowed to one of its members: does the limit go with the name?"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.answers.about import Because, Freed
from scopecheck.answers.findings import Finding, Looked
from scopecheck.answers.questions.cases import Answer
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, Sought, at_limitation
from scopecheck.core.formula import All, Compare, Const, Formula, Measured, Not, Term
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.model import Limitation
from scopecheck.core.rewrite import with_values_of
from scopecheck.foundations.record import replace
from scopecheck.vocabulary.compositions import total_of

QUESTION = "member freed"


def members_freed(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """What meets a dependent claim, and not its parents, once their limits on a class are on one member?

    The line that names the member is read as each of its readings; the limits of the parents on the class are
    asked of the member instead. Anything then met that the parents keep out was freed by the narrower name.
    """
    if not instance.claim.dependent:
        return
    for limitation in instance.own:
        if limitation.narrows is None:
            continue
        name, members = limitation.narrows
        capped = [x for x in instance.inherited if name in prepared.session.names_in(x.formula)]
        if capped and _may_be_there(prepared, limitation, members):
            yield _freed(prepared, instance, limitation, capped, total_of(members))


def _may_be_there(prepared: Prepared, naming: Limitation, members: tuple[str, ...]) -> bool:
    """As presumed, does the line that names the members leave them room? 'Free of' asks for none of them."""
    session = prepared.session
    some = session.met(Compare(">", total_of(members), Const(Fraction(0))), session.base)
    return session.search(()).holds(session.met(naming.formula, session.base), some)


def _named_members(prepared: Prepared, narrows: tuple[str, tuple[str, ...]]) -> tuple[Formula, ...]:
    """What makes the thing easy to grasp: the member named is there, and of the others those with a name."""
    name, members = narrows
    classes = {above: below for made in prepared.sheet.compositions for above, below in made.classes}
    nothing = Const(Fraction(0))
    there = {m: Compare(">", Measured(m), nothing) for m in classes[name]}
    unnamed = f"other {name}"
    named = tuple(there[m] for m in classes[name] if m not in (*members, unnamed))
    rest = (Not(there[unnamed]),) if unnamed in there and named else ()
    return (AnyOf(tuple(there[m] for m in members)), *rest)


def _freed(
    prepared: Prepared, instance: Instance, narrowing: Limitation, capped: list[Limitation], member: Term
) -> Finding | Looked:
    session = prepared.session
    assert narrowing.narrows is not None
    name, _ = narrowing.narrows
    moved = {x.label: with_values_of(x.formula, {name: member}) for x in capped}
    taken: Formula = All(tuple(moved.get(x.label, x.formula) for x in instance.limitations))
    limits: Formula = All(tuple(x.formula for x in capped))
    search = session.search(session.groups_in(taken, limits))
    search.require(session.met(taken), ~session.met(limits))
    if not search.holds():
        return Looked(QUESTION, narrowing.claim, narrowing.label)
    for simpler in _named_members(prepared, narrowing.narrows):
        if search.holds(session.met(simpler)):
            search.require(session.met(simpler))
    assert search.holds()
    shown = prepared.exhibit(
        replace(at_limitation(QUESTION, 4, narrowing), bearer="challenger"),
        search,
        Sought((taken, limits), ((taken, "met"), (limits, "not met"))),
        prepared.known((taken, limits)),
    )
    assert shown.witness is not None
    assert shown.construction is not None
    failing = prepared.failing(capped, shown.witness.article, shown.construction)
    always = not shown.rereads and not shown.read_as
    return replace(shown, about=Freed(Because(failing)), quantifier="base" if always else "some")
