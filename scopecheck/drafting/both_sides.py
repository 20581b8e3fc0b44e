"""The quantities of the two sides of a comparison: named and declared as limits are, and its line.

While quantities get their names each side stands among the limits of its claim, as one without a number.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.draft import Proposed, Quantity
from scopecheck.drafting.kinds_of import family
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.marks import takes, words_at
from scopecheck.drafting.naming import Called
from scopecheck.drafting.quantities import declared_names, in_brackets
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.work import Work
from scopecheck.foundations.quantity import Unit, find_unit
from scopecheck.foundations.word_lists import words
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Names

_UNITS = {
    "temperature": "degC",
    "pressure": "bar",
    "time": "min",
    "duration": "min",
    "period": "min",
    "angle": "deg",
    "mass": "g",
    "weight": "g",
    "area": "mm2",
    "volume": "mL",
    "force": "N",
    "frequency": "Hz",
    "voltage": "V",
    "current": "A",
    "power": "W",
    "speed": "m/s",
    "velocity": "m/s",
    "roughness": "µm",
    "circumference": "mm",
    "perimeter": "mm",
}
"""The unit of a measure of which no claim states a number. Of two such sides any unit says the same."""


def with_sides(works: Sequence[Work]) -> None:
    """Sets the sides of comparisons among the limits; what is of two sorts is kept whole, unread."""
    known = [(what, s.unit) for work in works for s, what in work.limits if what.noun and not what.counted]
    for work in works:
        for i, made in enumerate(work.comparisons):
            one, two = _unit(made.one, known), _unit(made.two, known)
            if one is None and two is None:
                one = two = (_of_amount(made.unit) or _usual(made.one) or _usual(made.two),)
            one, two = one or two, two or one
            if not (one and two) or family(made.one, one[0]) != family(made.two, two[0]):
                work.unread.append((made.start, made.end))
                continue
            places = zip((made.one, made.two), (one[0], two[0]), made.places, (1, 2), strict=True)
            for what, unit, at, side in places:
                work.limits.append((Stretch(at, at, (), (at,), beside=unit, side=2 * i + side), what))
        if work.comparisons:
            work.limits.sort(key=lambda limit: limit[0].starts[0])


def _unit(what: Called, known: Sequence[tuple[Called, Unit | None]]) -> tuple[Unit | None] | None:
    """The unit in which claims give what is called so, or a measure of that noun; None if none does."""
    last = what.noun.split()[-1]
    alike = (
        lambda k: (k.noun, k.owner, k.ordinal) == (what.noun, what.owner, what.ordinal),
        lambda k: k.noun == what.noun,
        lambda k: k.noun.split()[-1] == last,
    )
    for same in alike:
        for called, unit in known:
            if same(called):
                return (unit,)
    return None


def _of_amount(unit: Unit | None) -> Unit | None:
    """The unit by which two differ, as that of each: no kelvin of a difference."""
    temperature = unit is not None and dict(unit.kind.dimension) == {"temperature": 1}
    return find_unit("degC") if temperature else unit


def _usual(what: Called) -> Unit | None:
    last = what.noun.split()[-1]
    return find_unit("mm" if last in words("measures", "lengths") else _UNITS.get(last, ""))


def without_sides(works: Sequence[Work]) -> None:
    """Takes the sides out of the limits again, with the quantity that each has become."""
    for work in works:
        if not work.comparisons:
            continue
        sides: dict[int, Quantity] = {}
        kept = []
        for (stretch, what), of in zip(work.limits, work.of, strict=True):
            if stretch.side:
                sides[stretch.side] = of
            else:
                kept.append(((stretch, what), of))
        work.limits = [limit for limit, _ in kept]
        work.of = [of for _, of in kept]
        for i, made in enumerate(work.comparisons):
            one, two = sides.get(2 * i + 1), sides.get(2 * i + 2)
            if one is None or two is None:
                continue
            pairs = ((made.one, one), (made.two, two))
            if one is two or any(_may_be_another(work, what, of) for what, of in pairs):
                work.unread.append((made.start, made.end))
            else:
                work.compared.append((made, one, two))


def _may_be_another(work: Work, what: Called, of: Quantity) -> bool:
    """Whether 'the temperature' alone may be that of something that the claim calls by more."""
    bare = not (what.owner or what.ordinal or what.fresh) and " " not in what.noun
    others = [q for q in work.of if q.noun != of.noun and q.noun.split()[-1:] == [what.noun]]
    return bare and bool(others) and not any(q is of for q in work.of)


def propose_comparisons(work: Work, readable: Readable, before: int = 0) -> None:
    """Lines for the comparisons that begin before a place (0: for all), with both names left of the colon.

    What no phrase reads is kept whole, unread.
    """
    while work.compared and (not before or work.compared[0][0].start < before):
        made, one, two = work.compared.pop(0)
        words_, names = words_at(work.text, made.start, made.end), f"{one.name}, {two.name}"
        if readable.reads(words_, names) and takes(work.text, words_, made.start, made.end):
            work.claim.lines.append(Proposed(words_, names))
        else:
            work.unread.append((made.start, made.end))


def readable_names(works: Sequence[Work], quantities: Sequence[Quantity]) -> tuple[Names, Readable]:
    """The names as declared, and what asks the phrases with them.

    A side is called by what has it, too, where a phrase knows it by that name only.
    """
    names = declared_names(quantities)
    spelled = in_brackets(quantities)
    readable = Readable(names, Phrasebook(()), spelled=spelled)
    kept = {name for said in _names_said(works) for name in said.split(", ")}
    for work in works:
        for made, one, two in work.compared:
            said = words_at(work.text, made.start, made.end)
            if readable.reads(said, f"{one.name}, {two.name}"):
                continue
            before = one.name, two.name
            for of, what in ((one, made.one), (two, made.two)):
                name = f"{what.owner} {what.noun}"
                used = name.lower() in {q.name.lower() for q in quantities}
                if (
                    what.owner
                    and of.name == what.noun
                    and of.within is None
                    and not (used or of.name in kept)
                ):
                    of.name = name
            if (one.name, two.name) == before:
                continue
            again = declared_names(quantities)
            trial = Readable(again, Phrasebook(()), spelled=spelled)
            if trial.reads(said, f"{one.name}, {two.name}"):
                names, readable = again, trial
            else:
                one.name, two.name = before
    return names, readable


def _names_said(works: Sequence[Work]) -> list[str]:
    """What stands left of the colon of lines that have their names already."""
    found: list[str] = []
    for work in works:
        found += [*work.pairs.values(), *(names for _, names in work.on_condition)]
        found += [*(names for *_, names in work.switched), *(names for _, names in work.equals)]
    return found
