"""Like parts of the same kind: those that are alike in every value declared for them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise

from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, Part, SetDecl
from scopecheck.core.formula import Add, All, Any, Branch, Chosen, Compare, Formula, Includes, Measured, Not
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND
from scopecheck.vocabulary.names import Bound, Listed, Names, Typed
from scopecheck.vocabulary.parts import ONE, ZERO

MOST_COMPARED = 20
"""Of more parts it is not asked how many kinds there are, nor whether two match."""


def kinds_of(names: Names, parts: Sequence[Part], called: str) -> tuple[dict[str, Bound], dict[str, str]]:
    """How many kinds of a part there are, that some two differ, that some two match; and each in words.

    Empty where nothing tells one part from another, or there may be too many of them.
    """
    places = [(part, i) for part in parts for i in range(1, part.most + 1)]
    if not parts[0].fields or len(places) > MOST_COMPARED:
        return {}, {}
    alike = {
        (one, other): All(tuple(_same(names, one, other, own) for own in parts[0].fields))
        for one, other in combinations(places, 2)
    }
    there = {place: place[0].present(place[1]) for place in places}
    new = (
        All((there[place], *(Not(All((there[o], alike[o, place]))) for o in places[:at])))
        for at, place in enumerate(places)
    )
    kinds = Typed(Add(tuple(Branch(fact, ONE, ZERO) for fact in new)), PLAIN_KIND, unit=PLAIN, whole=True)
    differing = tuple(All((there[a], there[b], Not(alike[a, b]))) for a, b in _beside(places))
    matching = tuple(All((there[a], there[b], same)) for (a, b), same in alike.items())
    shown = {
        "kinds": f"number of kinds of {called}",
        "two_kinds": f"two {called} that differ",
        "matching": f"two {called} that match",
    }
    slots: dict[str, Bound] = {
        "kinds": kinds,
        "two_kinds": Listed((Any(differing),), (), shown["two_kinds"]),
        "matching": Listed((Any(matching),), (), shown["matching"]),
    }
    return slots, shown


def _beside(places: list[tuple[Part, int]]) -> list[tuple[tuple[Part, int], tuple[Part, int]]]:
    # Of one kind of parts without a gap, some two differ only if some two neighbours do.
    one_kind = all(part == places[0][0] for part, _ in places)
    return list(pairwise(places) if one_kind else combinations(places, 2))


def _same(names: Names, one: tuple[Part, int], other: tuple[Part, int], own: str) -> Formula:
    a, b = (names.declarations[part.slot(index, own)] for part, index in (one, other))
    return same_value(a, b)


def same_value(a: Declaration, b: Declaration) -> Formula:
    """That two things declared alike have the same value."""
    match a:
        case NumberDecl():
            return Compare("=", Measured(a.name), Measured(b.name))
        case ChoiceDecl():
            return Any(tuple(All((Chosen(a.name, m), Chosen(b.name, m))) for m in a.members))
        case SetDecl():
            both = ((Includes(a.name, m), Includes(b.name, m)) for m in a.members)
            return All(tuple(Any((All((x, y)), All((Not(x), Not(y))))) for x, y in both))
