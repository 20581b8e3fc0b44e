"""Limitations that have no value for some thing: a division by zero, the mean of nothing."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from scopecheck.answers.about import NoValue
from scopecheck.answers.findings import Looked, Quantifier
from scopecheck.answers.questions.cases import Answer
from scopecheck.answers.questions.claims import NOTHING
from scopecheck.answers.questions.instances import Instance, widest
from scopecheck.answers.questions.prepared import Prepared, Sought, at_limitation
from scopecheck.answers.refine import Demand, some_construction
from scopecheck.answers.witness import Expected
from scopecheck.core.construction import Node, names_in, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Article, Const, Divide, Formula, Greatest, Least, Negate, Not, Ranked
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.model import Limitation
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.evaluate import evaluate, evaluate_term, meets

ROUNDS_FOR_EVERY = 16
"""So long it is asked whether something lacks a value on every reading; then it is told as presumed only."""


def undefined(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Is there a thing for which a limitation has no value while the claim's others are not false?"""
    session = prepared.session
    if instance not in widest(prepared.instances[instance.claim.number]):
        return
    for limitation in instance.own:
        if not any(may_lack_value(node) for node in nodes(limitation.formula)):
            continue
        others = [x.formula for x in instance.limitations if x is not limitation]
        formulas = (limitation.formula, *others)
        search = session.search(session.groups_in(*formulas))
        search.require(session.undefined(limitation.formula), *(~session.denied(f) for f in others))
        finding = at_limitation("undefined", 4, limitation)
        try:
            holds = search.holds()
        except Undecided as reason:
            yield replace(finding, outcome="undecided", stakes=6, reason=str(reason))
            continue
        if not holds:
            yield Looked("undefined", limitation.claim, limitation.label)
            continue
        wanted: list[tuple[Formula, Expected]] = [(limitation.formula, "undefined")]
        known, beside = prepared.known(formulas), All(tuple(others))
        finding = replace(finding, about=NoValue(_expression(limitation)))
        shown = prepared.exhibit(finding, search, Sought(formulas, wanted), known)
        assert shown.witness is not None
        assert shown.construction is not None
        if any(r.breaks for r in shown.rereads) and meets(beside, shown.witness.article, shown.construction):
            # So is told on which stretch the thing is within what the claim asks besides.
            within = Sought(formulas, (*wanted, (beside, "met")))
            shown = prepared.exhibit(finding, search, within, known)
        assert shown.witness is not None
        # Every thing has a value, or fails another limitation: what a construction without such a thing asks.
        escape = AnyOf((limitation.formula, Not(limitation.formula), *(Not(f) for f in others)))
        quantifier: Quantifier = "some" if shown.rereads or shown.read_as else "base"
        with suppress(Undecided):
            if not some_construction(session, [Demand(NOTHING, escape, "every")], ROUNDS_FOR_EVERY):
                quantifier = "every"
        slight = _only_of_nothing(prepared, limitation, shown.witness.article)
        yield replace(shown, quantifier=quantifier, stakes=6 if slight else 4)


def _only_of_nothing(prepared: Prepared, limitation: Limitation, article: Article) -> bool:
    """Is what it is divided by 0 only because there is none of it, and does no listed case have that?"""
    session, formula = prepared.session, limitation.formula
    points = (prepared.point(case, formula) for case in prepared.sheet.cases)
    if any(evaluate(formula, point, session.base) is None for point in points if point is not None):
        return False
    divisors = [n.right for n in nodes(formula) if isinstance(n, Divide)]
    names = names_in(*(d for d in divisors if evaluate_term(d, article, session.base) == 0))
    declared = [d for d in map(prepared.sheet.declaration, sorted(names)) if isinstance(d, NumberDecl)]
    amounts = [d for d in declared if not d.whole] or declared
    added = not any(isinstance(n, Negate) for d in divisors for n in nodes(d))
    return bool(amounts) and added and all(not d.stated_bounds and article[d.name] == 0 for d in amounts)


def may_lack_value(node: Node) -> bool:
    """Is this a division (but not by a written number, unless 0), a median, or the least of nothing?"""
    match node:
        case Divide(_, Const(value)):
            return value == 0
        case Least(items) | Greatest(items):
            return not items
        case _:
            return isinstance(node, Divide | Ranked)


def _expression(limitation: Limitation) -> str:
    return next((n.text for n in nodes(limitation.formula) if isinstance(n, Divide) and n.text), "")
