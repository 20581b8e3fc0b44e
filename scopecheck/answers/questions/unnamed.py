"""A class met by a further member alone, `other alkali`, that no words name: does the claim need one?"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from fractions import Fraction

from scopecheck.answers.about import Because, Needed
from scopecheck.answers.findings import Finding, Shown
from scopecheck.answers.minimise import pick_article
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, at_claim
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.construction import names_in
from scopecheck.core.formula import All, Compare, Const, Measured
from scopecheck.core.rewrite import read_at
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.solver import NOT_AFRESH

QUESTION = "member needed"


def unnamed_needed(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """Does a thing meet the claim, as presumed, only with a further member of a class of its shares?

    Told of the first claim of a chain that needs one. Raises `Undecided`.
    """
    session, base, scope = prepared.session, prepared.session.base, instance.scope
    further = _further(prepared, instance)
    if not further or not session.search(()).holds(session.met(scope, base)):
        return
    without = All(tuple(Compare("=", Measured(name), Const(Fraction(0))) for name in further))
    if session.search(()).holds(session.met(scope, base), session.met(without)):
        return
    above = session.met(instance.parent_scope, base), session.met(without)
    if instance.claim.parents and not session.search(()).holds(*above):
        return
    labelled = [(x.label, session.met(x.formula, base)) for x in instance.limitations]
    lines = tuple(label for label, _ in labelled)
    search = session.search(())
    search.require(session.met(without))
    with suppress(Undecided):
        lines = search.conflict(labelled, NOT_AFRESH) or lines
    named = session.names_in(*(x.formula for x in instance.limitations if x.label in lines))
    needed = next((above for other, above in further.items() if above in named), next(iter(further.values())))
    met = session.search(())
    met.require(session.met(scope, base))
    picked = pick_article(session, met, prepared.relevant(scope), prepared.known((scope,)))
    on_every = session.search(session.groups_in(scope))
    every = not on_every.holds(session.met(scope), session.met(without))
    witness = verify(prepared.sheet, picked.article, (Obligation(scope, "met", base),))
    yield replace(
        at_claim(QUESTION, 4, instance.claim),
        outcome="excluded",
        quantifier="every" if every else "base",
        construction=base,
        thing=Shown(witness, (needed,), simplest=picked.simplest),
        about=Needed(Because(lines), needed),
    )


def _further(prepared: Prepared, instance: Instance) -> dict[str, str]:
    """The further members, with their classes, of what lines name; none that a line names itself."""
    classes = {name for made in prepared.sheet.compositions for name, _ in made.classes}
    lines = [x.formula for x in instance.limitations]
    if classes.isdisjoint(prepared.session.names_in(*lines)):
        return {}
    spoken = names_in(*(read_at(line, prepared.session.base) for line in lines))
    return {
        other: name
        for made in prepared.sheet.compositions
        for name, below in made.classes
        if name in spoken and (other := f"other {name}") in below and other not in spoken
    }
