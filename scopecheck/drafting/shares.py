"""Limits as a share of another quantity, and quantities that only an ordinal tells apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from scopecheck.drafting.kinds_of import family
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import ORDINALS, Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.quantity import Unit, kind_word
from scopecheck.foundations.record import replace

MOST_WORDS = 4
"""How many words the noun may have of which a limit is a share."""


def beside_others(works: Sequence[Work]) -> None:
    """Makes 'not more than 80 % of the first pressure' a limit of a pressure, up to the end of the noun.

    Only where that noun has a limit with a unit of its own, and what is limited is a quantity of its kind.
    """
    units = {
        f"{what.ordinal} {what.noun}".strip(): (what, stretch.unit)
        for work in works
        for stretch, what in work.limits
        if stretch.unit is not None and stretch.unit.kind.dimension
    }
    for work in works:
        work.limits = [(_beside(work, stretch, what, units), what) for stretch, what in work.limits]


def _beside(work: Work, stretch: Stretch, what: Called, units: Mapping[str, tuple[Called, Unit]]) -> Stretch:
    texts = [t.text for t in work.text.tokens]
    share = stretch.unit is not None and stretch.unit.symbol == "%"
    if not share or texts[stretch.end : stretch.end + 2] not in (["of", "the"], ["of", "said"]):
        return stretch
    for end in range(stretch.end + 2 + MOST_WORDS, stretch.end + 2, -1):
        found = units.get(" ".join(texts[stretch.end + 2 : end]))
        if found is not None and _of_one_kind(what, *found):
            return replace(stretch, end=end, beside=found[1])
    return stretch


def _of_one_kind(what: Called, other: Called, unit: Unit) -> bool:
    own = kind_word(what.noun.split()[-1])
    alike = what.noun.split()[-1] == other.noun.split()[-1] or (own is not None and own.accepts(unit.kind))
    return alike and (what.ordinal, what.noun) != (other.ordinal, other.noun)


def with_ordinals(works: Sequence[Work]) -> None:
    """Gives quantities of one noun and kind their ordinals where there are a first one and a second one."""
    found: dict[tuple[str, str], set[str]] = {}
    for stretch, what in _limits(works):
        found.setdefault((what.noun, family(what, stretch.unit)), set()).add(what.ordinal)
    for work in works:
        work.limits = [
            (stretch, replace(what, noun=f"{what.ordinal} {what.noun}", fresh=False, ordinal=""))
            if what.ordinal and len(found[what.noun, family(what, stretch.unit)].intersection(ORDINALS)) > 1
            else (stretch, what)
            for stretch, what in work.limits
        ]


def _limits(works: Sequence[Work]) -> Iterable[tuple[Stretch, Called]]:
    return (limit for work in works for limit in work.limits)
