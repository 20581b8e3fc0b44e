"""How many combinations a limitation of choices and lists leaves."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice, product

from scopecheck.answers.about import Choices
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, at_limitation
from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.core.formula import Value
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import meets

MOST_COMBINATIONS = 4096


def choices(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """For each limitation that speaks of choices and lists alone: how many combinations meet it, as presumed.

    Asked for details alone. What is not listed counts as one member.
    """
    if not prepared.details:
        return
    for limitation in instance.own:
        names = prepared.session.names_in(limitation.formula)
        declared = [d for d in prepared.sheet.declarations if d.name in names]
        listed = [d for d in declared if isinstance(d, ChoiceDecl | SetDecl)]
        if not listed or len(listed) < len(declared):
            continue
        combined = list(islice(product(*map(_values, listed)), MOST_COMBINATIONS + 1))
        if len(combined) > MOST_COMBINATIONS:
            continue
        things = [dict(zip((d.name for d in listed), values, strict=True)) for values in combined]
        met = sum(meets(limitation.formula, thing, prepared.session.base) for thing in things)
        yield replace(
            at_limitation("choices left", 6, limitation),
            quantifier="base",
            about=Choices(met, len(things), tuple(d.name for d in listed)),
        )


def _values(d: ChoiceDecl | SetDecl) -> list[Value]:
    """Every value of a choice, or every set of a list's members."""
    if isinstance(d, ChoiceDecl):
        return list(d.members)
    chosen = islice(product((True, False), repeat=len(d.members)), MOST_COMBINATIONS + 1)
    return [frozenset(m for m, has in zip(d.members, one, strict=True) if has) for one in chosen]
