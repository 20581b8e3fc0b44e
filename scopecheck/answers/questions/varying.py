"""Limits tied to something that is not the thing's own: two users on whom the same thing changes side."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.about import Moves
from scopecheck.answers.findings import Finding, Looked
from scopecheck.answers.questions.cases import Answer
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, Sought, at_limitation
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Add, Article, Compare, Const, Formula, Magnitude, Measured, Negate
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.rewrite import with_values_of
from scopecheck.foundations.record import replace
from scopecheck.solving.solver import Session

QUESTION = "moves with something else"


def moves_with_something_else(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Does one thing meet a limitation beside one user, and not beside another?

    The rest of the claim is met beside the first. What varies is declared so, such as a user's height.
    """
    for limitation in instance.own:
        names = prepared.session.names_in(limitation.formula)
        numbers = [d for d in prepared.sheet.declarations if isinstance(d, NumberDecl) and d.name in names]
        of = next((d.varies for d in numbers if d.varies), "")
        if of:
            yield _beside_two(prepared, instance, limitation, of)


def _again(name: str) -> str:
    return f"{name}, another"


def _with_another(sheet: Sheet, of: str) -> Sheet:
    """The sheet with all that belongs to the same user, or the like, a second time."""
    own = {d.name for d in sheet.declarations if isinstance(d, NumberDecl) and d.varies == of}
    second = [replace(d, name=_again(d.name)) for d in sheet.declarations if d.name in own]
    renamed = {name: Measured(_again(name)) for name in own}
    again = [replace(g, formula=with_values_of(g.formula, renamed)) for g in sheet.givens]
    givens = tuple(dict.fromkeys((*sheet.givens, *again)))
    return replace(sheet, declarations=(*sheet.declarations, *second), givens=givens)


def _beside_two(prepared: Prepared, instance: Instance, limitation: Limitation, of: str) -> Finding | Looked:
    """The thing, with the first user as the witness and with the second as its twin."""
    sheet = prepared.sheet
    wider = _with_another(sheet, of)
    own = tuple(d.name for d in sheet.declarations if isinstance(d, NumberDecl) and d.varies == of)
    session = Session(wider, prepared.session.budget, prepared.session.strained)
    beside = Prepared(wider, session)
    scope = instance.scope
    other = with_values_of(limitation.formula, {name: Measured(_again(name)) for name in own})
    search = session.search(session.groups_in(scope, other))
    search.require(session.met(scope), ~session.met(other))
    if not search.holds():
        return Looked(QUESTION, limitation.claim, limitation.label)
    for apart in _well_apart(sheet, own):
        if search.holds(session.met(apart)):
            search.require(session.met(apart))
            break
    assert search.holds()
    shown = beside.exhibit(
        replace(at_limitation(QUESTION, 4, limitation), bearer="challenger"),
        search,
        Sought((scope, other), ((scope, "met"), (other, "not met"))),
        beside.known((scope, other)),
    )
    assert shown.witness is not None
    assert shown.construction is not None
    first, second = _parted(sheet, shown.witness.article, own)
    k = shown.construction
    both = shown.witness.article
    settled = not session.groups_in(other) or (
        beside.on_every(scope, both) and beside.on_every(other, both, met=False)
    )
    moved = shown.rereads or shown.read_as
    thing = replace(
        shown.thing,
        witness=verify(sheet, first, (Obligation(scope, "met", k),)),
        names=tuple(n for n in shown.thing.names if n in first),
        departs=tuple(n for n in shown.thing.departs if n in first),
    )
    return replace(
        shown,
        thing=thing,
        about=Moves(of, verify(sheet, second, (Obligation(limitation.formula, "not met", k),))),
        quantifier="every" if settled else "some" if moved else "base",
    )


def _well_apart(sheet: Sheet, own: tuple[str, ...]) -> Iterator[Formula]:
    """That the two users differ by half of the range that is stated for them, a quarter, a tenth."""
    for share in (2, 4, 10):
        for name in own:
            d = sheet.declaration(name)
            if isinstance(d, NumberDecl) and d.lower is not None and d.upper is not None:
                width = (d.upper.value - d.lower.value) / share
                between = Magnitude(Add((Measured(name), Negate(Measured(_again(name))))))
                yield Compare(">=", between, Const(width))


def _parted(sheet: Sheet, article: Article, own: tuple[str, ...]) -> tuple[Article, Article]:
    """The thing beside the first user, and the same thing beside the second."""
    first = {d.name: article[d.name] for d in sheet.declarations}
    return first, {**first, **{name: article[_again(name)] for name in own}}
