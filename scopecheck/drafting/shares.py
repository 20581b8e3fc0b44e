"""Limits as a share of another quantity, and quantities that only an ordinal tells apart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from scopecheck.drafting.kinds_of import family
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import ORDINALS, Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed

MOST_WORDS = 4
"""How many words the noun may have of which a limit is a share."""


def beside_others(works: Sequence[Work]) -> None:
    """Makes '80 % of the first pressure' and 'twice the first pressure' limits of a pressure, noun and all.

    Only where that noun has a limit with a unit of its own, and what is limited is a quantity of its kind.
    """
    units = {
        f"{what.ordinal} {what.noun}".strip(): (what, stretch.unit)
        for work in works
        for stretch, what in work.limits
        if stretch.unit is not None and stretch.unit.kind.dimension and not what.unnamed
    }
    for work in works:
        made: list[tuple[Stretch, Called]] = []
        for stretch, what in work.limits:
            if what.unnamed and made and made[-1][0].beside and stretch.start - made[-1][0].end <= 2:
                what = made[-1][1]  # 'more than 50 % of the first pressure but less than 90 % of it'
            made.append((_beside(work, stretch, what, units), what))
        work.limits = made


def _beside(work: Work, stretch: Stretch, what: Called, units: Mapping[str, tuple[Called, Unit]]) -> Stretch:
    texts = work.text.texts
    start = _noun_of_share(texts, stretch)
    if not start:
        return stretch
    for end in range(start + MOST_WORDS, start, -1):
        found = units.get(" ".join(texts[start:end]))
        if found is not None and _of_one_kind(what, *found):
            return replace(stretch, end=end, beside=found[1])
    return stretch


def _noun_of_share(texts: list[str], stretch: Stretch) -> int:
    """Where the noun begins of which a limit is a share or a multiple: '80 % of the', 'twice the'; else 0."""
    at, unit = stretch.end, stretch.unit.symbol if stretch.unit is not None else ""
    if texts[at : at + 1] == [{"%": "of", "": "times"}.get(unit, "")]:
        at += 1
    elif unit or texts[stretch.figures[-1].start] != "twice":
        return 0
    return at + 1 if texts[at : at + 1] in (["the"], ["said"]) else 0


def _of_one_kind(what: Called, other: Called, unit: Unit) -> bool:
    last, lengths = what.noun.split()[-1:], listed("measures", "lengths")
    a_length = lengths.issuperset(last) and dict(unit.kind.dimension) == {"length": 1}
    itself = (what.ordinal, what.noun) == (other.ordinal, other.noun)
    return (a_length or last == other.noun.split()[-1:]) and not itself


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
