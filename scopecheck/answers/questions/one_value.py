"""A dependent claim that leaves but one value of what its lines give ranges: a claim to a point."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from fractions import Fraction

from scopecheck.answers.about import Because, OneValue
from scopecheck.answers.findings import Finding, Shown
from scopecheck.answers.minimise import pick_article
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.otherwise import with_not_so
from scopecheck.answers.questions.prepared import Prepared, at_claim
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.construction import Construction
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Compare, Const, Formula, Measured
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.solver import NOT_AFRESH

QUESTION = "one value left"


def one_value_left(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """Is there, as presumed, but one value of a number that several lines of a dependent claim limit?

    Not where one line, or a given fact, states that value by itself. Raises `Undecided`.
    """
    if not instance.claim.dependent or not instance.own:
        return
    session, base, scope = prepared.session, prepared.session.base, instance.scope
    names = _several_limit(prepared, instance)
    search = session.search(())
    if not names or not search.find(session.met(scope, base)):
        return
    article = search.article()
    single = [name for name in names if not _has_another(prepared, scope, name, article)]
    found = [name for name in single if not _stated(prepared, instance, _another(name, article[name]))]
    if not found:
        return
    met = session.search(())
    met.require(session.met(scope, base))
    picked = pick_article(session, met, prepared.relevant(scope), prepared.known((scope,)))
    search.require(session.met(_another(found[0], article[found[0]]), base))
    labelled = [(x.label, session.met(x.formula, base)) for x in instance.limitations]
    lines = tuple(label for label, _ in labelled)
    with suppress(Undecided):
        lines = search.conflict(labelled, NOT_AFRESH) or lines
    witness = verify(prepared.sheet, picked.article, (Obligation(scope, "met", base),))
    told = replace(
        at_claim(QUESTION, 4, instance.claim),
        outcome="excluded",
        quantifier="base",
        construction=base,
        thing=Shown(witness, tuple(found), simplest=picked.simplest),
        about=OneValue(Because(lines)),
    )

    def leaves_others(k: Construction) -> bool:
        at = session.search(())
        at.require(session.met(scope, k))
        if not at.find():
            return False
        return at.holds(session.met(_another(found[0], at.article()[found[0]]), k))

    formulas = tuple(x.formula for x in instance.limitations if x.label in lines)
    yield with_not_so(prepared, told, formulas, leaves_others)


def _several_limit(prepared: Prepared, instance: Instance) -> list[str]:
    """The numbers of no like parts that a line of the claim itself speaks of, and another line too."""
    session, sheet = prepared.session, prepared.sheet
    fields = {slot for part in sheet.parts for _, _, slot in part.slots()}
    own = session.names_in(*(x.formula for x in instance.own))
    each = [session.names_in(x.formula) for x in instance.limitations]
    return [
        d.name
        for d in sheet.declarations
        if isinstance(d, NumberDecl) and d.name in own and d.name not in fields
        if sum(d.name in names for names in each) > 1
    ]


def _has_another(prepared: Prepared, scope: Formula, name: str, article: Article) -> bool:
    """Does a thing with another value of the number meet the claim too?"""
    session, base = prepared.session, prepared.session.base
    other = session.met(_another(name, article[name]), base)
    return session.search(()).holds(session.met(scope, base), other)


def _another(name: str, value: object) -> Formula:
    assert isinstance(value, Fraction)
    return Compare("!=", Measured(name), Const(value))


def _stated(prepared: Prepared, instance: Instance, other: Formula) -> bool:
    """Does one line alone, or what is given, leave no other value?"""
    session, base = prepared.session, prepared.session.base
    search = session.search(())
    search.require(session.met(other, base))
    lines = [x.formula for x in instance.limitations]
    return not search.holds() or any(not search.holds(session.met(line, base)) for line in lines)
