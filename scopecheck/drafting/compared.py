"""What limits are set beside, as it is declared: wholes of shares, and the names by which a phrase finds it.

After quantities have names: a share's declaration gets its whole, and what the words name beside a limit gets
the name that it has there.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import name_of
from scopecheck.drafting.by_letter import letter_at
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.naming import Called
from scopecheck.drafting.relations import names_of, stems_of
from scopecheck.drafting.work import Work


def with_wholes(works: Sequence[Work], quantities: Sequence[Quantity]) -> None:
    """Declares a share as one of the whole that the words name, and what is set beside such a share too.

    Where the words name several wholes, the limits of all but the first are kept whole, unread.
    """
    wholes: dict[int, list[str]] = {}
    for work in works:
        for (_, what), of in zip(work.limits, work.of, strict=True):
            if (
                what.whole
                and of.within is None
                and what.whole not in (found := wholes.setdefault(id(of), []))
            ):
                found.append(what.whole)
    for work in works:
        for (stretch, _), of in zip(work.limits, work.of, strict=True):
            if (
                stretch.other[1]
                and id(of) not in wholes
                and (beside := _quantity_at(work, stretch.other, works))
            ):
                wholes[id(of)] = wholes.get(id(beside), [])
    for quantity in quantities:
        named = wholes.get(id(quantity), [])
        if named and quantity.kind.startswith("share in"):
            quantity.kind += f" of {named[0]}"
    for work in works:
        other = [
            not _of_first(what, wholes.get(id(of), []))
            for (_, what), of in zip(work.limits, work.of, strict=True)
        ]
        work.unread += [
            (s.starts[0], s.end) for (s, _), apart in zip(work.limits, other, strict=True) if apart
        ]
        work.of = [of for of, apart in zip(work.of, other, strict=True) if not apart]
        work.limits = [limit for limit, apart in zip(work.limits, other, strict=True) if not apart]


def _quantity_at(work: Work, place: tuple[int, int], works: Sequence[Work]) -> Quantity | None:
    """The quantity that the words at a place name, or a letter there."""
    said = _stems_at(work, place)
    every = (pair for w in works for pair in zip(w.limits, w.of, strict=True))
    return next((of for (_, what), of in every if said in names_of(what)), None)


def _stems_at(work: Work, place: tuple[int, int]) -> list[str]:
    called = work.letters.get(letter_at(work.text.texts, place[0]))
    return names_of(called)[0] if called else stems_of(work.text.texts[slice(*place)])


def _of_first(what: Called, wholes: Sequence[str]) -> bool:
    return len(wholes) < 2 or what.whole in ("", wholes[0])


def name_others(works: Sequence[Work], quantities: list[Quantity]) -> None:
    """Gives what a limit is set beside the name that the words have there, so that a phrase finds it."""
    met: dict[tuple[str, str], Quantity] = {}
    for work in works:
        for (_, what), of in zip(work.limits, work.of, strict=True):
            met.setdefault((what.noun, what.owner), of)
    known = [Called(noun, owner, False) for noun, owner in met]
    used = {q.name.lower() for q in quantities}
    for work in works:
        for i, (stretch, _) in enumerate(work.limits):
            if stretch.fresh and stretch.second[1]:
                work.pairs[i] = ", ".join(
                    _name_there(work, place, met, known, used) or _length_there(work, place, quantities, used)
                    for place in (stretch.other, stretch.second)
                )
                continue
            if stretch.fresh:
                _declare_there(work, i, quantities, used)
                continue
            names = [_name_there(work, place, met, known, used) for place in (stretch.other, stretch.second)]
            if stretch.second[1] and all(names):
                work.pairs[i] = ", ".join(names)


def _declare_there(work: Work, index: int, quantities: list[Quantity], used: set[str]) -> None:
    """Declares the quantity beside which a limit is set, and that no claim limits, under its words there."""
    stretch, _ = work.limits[index]
    name = name_of(work.text, *stretch.other)
    if name.lower() not in used and work.of[index].within is None:
        used.add(name.lower())
        made = Quantity(name, work.of[index].kind, name.partition(" of ")[0], "", [work.claim.number])
        made.owner = name.partition(" of the ")[2]
        work.named[index] = made
        quantities.append(made)


def _length_there(work: Work, place: tuple[int, int], quantities: list[Quantity], used: set[str]) -> str:
    """The name of a length that no claim limits, declared under its words there."""
    name = name_of(work.text, *place)
    if name.lower() not in used:
        used.add(name.lower())
        noun, _, owner = name.partition(" of ")
        owner = owner.removeprefix("the ")
        quantities.append(Quantity(name, "length in mm", noun, owner, [work.claim.number]))
    return name


def _name_there(
    work: Work,
    place: tuple[int, int],
    met: dict[tuple[str, str], Quantity],
    known: Sequence[Called],
    used: set[str],
) -> str:
    """The name of the quantity that the words at a place name; '' if they name none."""
    stems = _stems_at(work, place)
    found = [k for k in known if place[1] and stems in names_of(k)]
    if not found:
        return ""
    own = {(what.noun, what.owner) for _, what in work.limits}
    near = [k for k in found if (k.noun, k.owner) in own] if len(found) > 1 else []
    of = met[(near or found)[0].noun, (near or found)[0].owner]
    wanted = name_of(work.text, *place)
    if letter_at(work.text.texts, place[0]) or near:
        return of.name
    if of.name.lower() != wanted and wanted not in used and of.within is None:
        used.add(wanted)
        of.name = wanted
    return of.name
