"""Is there, for each condition that a limit hangs on, something in the claim that fulfils it?"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.members import Named, not_there
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, conjuncts_at, names_in
from scopecheck.core.formula import Compare, Const, Formula, Implies

QUESTION = "condition not met"
CONDITION_WORDS = frozenset(("if", "when", "whenever", "where", "unless", "while", "provided"))


def conditions_not_met(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """Does a limit hang on a condition that nothing in the claim's scope fulfils, in the base or on any?

    Told by the lines that rule the condition out, the line itself among them where it takes part. Of a line
    that the claim takes over it is told where the claim itself brings it about. That a part
    is there, a step is done or there is some of an ingredient is no condition that anybody wrote.
    """
    sheet, base = prepared.sheet, prepared.session.base
    own = {x.label for x in instance.own}
    implied = {part.count for part in sheet.parts} | {step.done for step in sheet.steps}
    named = [
        (x, Named(tuple(d.name for d in sheet.declarations if d.name in names), condition))
        for x in instance.limitations
        for condition in dict.fromkeys(_conditions(x.formula, base))
        if not (_is_presence(condition) and CONDITION_WORDS.isdisjoint(x.words.lower().split()))
        and (names := names_in(condition) - implied)
    ]
    above = [(x, n) for x, n in named if x.label not in own]
    lost = {id(n) for _, n in above if above and _fulfilled_above(prepared, instance, n)}
    yield from not_there(
        prepared, instance, QUESTION, [(x, n) for x, n in named if x.label in own or id(n) in lost]
    )


def _fulfilled_above(prepared: Prepared, instance: Instance, named: Named) -> bool:
    """Does something that the claim depends on fulfil the condition, as presumed? Else it is told there."""
    session, base = prepared.session, prepared.session.base
    search = session.search(())
    search.require(session.met(instance.parent_scope, base))
    return search.holds(session.met(named.there, base))


def _is_presence(condition: Formula) -> bool:
    return isinstance(condition, Compare) and (condition.op, condition.right) == (">", Const(Fraction(0)))


def _conditions(formula: Formula, base: Construction) -> Iterator[Formula]:
    for item in conjuncts_at(formula, base):
        if isinstance(item, Implies):
            yield item.left
            yield from _conditions(item.right, base)
