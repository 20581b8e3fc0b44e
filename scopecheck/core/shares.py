"""What the stated shares of a composition say of the others: nothing is left, and a class is its members."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import Composition
from scopecheck.core.formula import Value
from scopecheck.core.model import Sheet

WHOLE = Fraction(1)


def with_implied_shares(sheet: Sheet, stated: dict[str, Value]) -> dict[str, Value]:
    """The values stated, and those of the ingredients and classes that follow from them alone.

    Shares that make up the whole leave nothing for the other ingredients; the last ingredient not stated is
    what is left; a class is the total of its members.
    """
    found = dict(stated)
    for made in sheet.compositions:
        found |= _implied(made, {m: v for m in made.members if isinstance(v := stated.get(m), Fraction)})
    return {**found, **stated}


def _implied(made: Composition, known: dict[str, Fraction]) -> dict[str, Value]:
    left = WHOLE - sum(known.values(), Fraction(0))
    unsaid = [m for m in made.members if m not in known]
    if known and (left == 0 or (len(unsaid) == 1 and left > 0)):
        known = {**known, **dict.fromkeys(unsaid, left)}
    totals = {
        name: sum((known[m] for m in below), Fraction(0))
        for name, below in made.classes
        if all(m in known for m in below)
    }
    return {**known, **totals}
