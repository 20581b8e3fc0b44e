"""Words after a number that change what it says: '10 % above the lower level', '0.6 times the width'.

They belong to the limit: it is a difference, a multiple or a share. Where the other quantity has a limit of
its own, a phrase may read the whole; else all of it is kept, not restated.
Cut short, it would say something else.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_from
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.quantity import Unit
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.text.stream import stem

MOST_WORDS = 5
"""How many words the noun may have beside which a limit is stated."""
MOST_RATIO = 18
"""How many words before a number its 'ratio of' is looked for."""
_DETERMINERS = ("the", "said", "a", "an", "its", "that")
_IN_TIME = ("after", "before", "following", "prior")
_SPATIAL = ("above", "below", "over", "under", "beyond", "from", "away")


@record
class Other:
    """A quantity that has a limit of its own in some claim, as it is called, with its unit."""

    what: Called
    unit: Unit


def beside_others(works: Sequence[Work]) -> None:
    """Takes into each limit the words that set it beside another quantity; apart, what nothing would read."""
    known = [
        Other(what, stretch.unit)
        for work in works
        for stretch, what in work.limits
        if stretch.unit is not None and stretch.unit.symbol and not what.unnamed
    ]
    for work in works:
        made: list[tuple[Stretch, Called]] = []
        for stretch, what in work.limits:
            if what.unnamed and made and made[-1][0].other[1] and stretch.start - made[-1][0].end <= 2:
                what = made[-1][1]  # 'more than 50 % of the first pressure but less than 90 % of it'
            if (found := _set_beside(work, stretch, what, known)) is not None:
                made.append(found)
        work.limits = made


def _set_beside(
    work: Work, stretch: Stretch, what: Called, known: Sequence[Other]
) -> tuple[Stretch, Called] | None:
    """The limit with the other quantity in its words, if it has one; None if it is kept whole, unread."""
    texts = work.text.texts
    if (pair := _ratio(texts, stretch, what, known)) is not None:
        return pair
    noun = _other_noun(texts, stretch, what)
    if not noun:
        return stretch, what
    word = texts[stretch.end] if stretch.end < noun else ""
    if word in _IN_TIME:
        work.after.append(stretch)
    found = _named(texts, noun, known)
    if found is not None and _fits(stretch, what, found[0]):
        other, end, _ = found
        beside = other.unit if stretch.unit is None or stretch.unit.symbol == "%" else None
        return replace(stretch, end=end, beside=beside, other=(noun, end)), what
    if word == "of":
        return stretch, _with_whole(work, stretch, what, noun)
    if word in _SPATIAL and _in_space(stretch.unit):
        return stretch, what
    end = noun + max(1, len(noun_from(work.text, noun).split()))
    work.unread.append((stretch.starts[0], min(end, len(texts))))
    return None


def _other_noun(texts: list[str], stretch: Stretch, what: Called) -> int:
    """Where the noun begins that a limit is set beside; 0 if there is none."""
    at = stretch.end
    width = run_at(texts, at, "limits", "relations")
    twice = texts[stretch.figures[-1].start] == "twice"
    if not width and not twice:
        return 0
    word = texts[at] if width else "twice"
    shares = stretch.unit is not None and not stretch.unit.kind.dimension
    if word in ("times", "fold") and stretch.unit is not None and stretch.unit.symbol:
        return 0
    if word not in ("times", "twice", "fold") and (what.counted or stretch.unit is None):
        return 0
    if word == "of" and not shares:
        return 0
    lasting = texts[stretch.starts[0] - 1 : stretch.starts[0]] in (["for"], ["lasts"], ["lasting"], ["takes"])
    if word in _IN_TIME and (lasting or not _a_time(stretch.unit)):
        return 0
    noun = at + width
    said = noun < len(texts) and texts[noun] in _DETERMINERS
    noun += said
    if noun >= len(texts) or not texts[noun][0].isalpha() or (twice and not said):
        return 0
    return noun


def _fits(stretch: Stretch, what: Called, other: Other) -> bool:
    """Whether the two can be compared: quantities of one kind, and not one and the same."""
    itself = (what.ordinal, what.noun, what.owner) == (other.what.ordinal, other.what.noun, other.what.owner)
    unit = stretch.unit
    if itself or (
        unit is not None and unit.kind.dimension and unit.kind.dimension != other.unit.kind.dimension
    ):
        return False
    return bool(unit is not None and unit.kind.dimension) or _of_one_kind(what, other)


def _of_one_kind(what: Called, other: Other) -> bool:
    last, lengths = what.noun.split()[-1:], listed("measures", "lengths")
    a_length = lengths.issuperset(last) and dict(other.unit.kind.dimension) == {"length": 1}
    return a_length or last == other.what.noun.split()[-1:]


def _named(texts: list[str], start: int, known: Sequence[Other]) -> tuple[Other, int, int] | None:
    """The quantity named from here on, where its name ends, and where what says more of which one it is ends.

    None where the words name none, or may name several.
    """
    whole = 0
    for end in range(min(start + MOST_WORDS, len(texts)), start, -1):
        said = [stem(word) for word in texts[start:end] if word not in ("the", "said")]
        found = [o for o in known if said in names_of(o.what)]
        owners = {o.what.owner for o in found if o.what.owner}
        if not found or texts[end - 1] in ("the", "said"):
            continue
        whole = whole or end
        if len(owners) < 2 and (said == names_of(found[0].what)[0] or not _alone(found[0], known)):
            return found[0], end, whole
    return None


def _alone(other: Other, known: Sequence[Other]) -> bool:
    """Whether a noun alone tells the quantity: nothing else that has an owner has it."""
    noun = names_of(other.what)[0]
    return len({o.what.owner for o in known if names_of(o.what)[0] == noun and o.what.owner}) < 2


def names_of(what: Called) -> list[list[str]]:
    """How a quantity may be named: 'height', 'bowl height', 'height of the bowl' (the article left out)."""
    noun = [stem(w) for w in f"{what.ordinal} {what.noun}".lower().split()]
    owner = [stem(w) for w in what.owner.lower().split()]
    tails = [owner[i:] for i in range(len(owner))]
    return [noun, *([*of, *noun] for of in tails), *([*noun, "of", *of] for of in tails)]


def _with_whole(work: Work, stretch: Stretch, what: Called, noun: int) -> Called:
    """With what it is a share of: 'at least 60 % of a water capacity', but not '60 % of wax' itself."""
    whole = noun_from(work.text, noun)
    return replace(what, whole=whole) if whole and whole != what.noun and not what.counted else what


def _in_space(unit: Unit | None) -> bool:
    """Whether 'above' after a number may say where something is, not how much more: 20 mm above the floor."""
    return unit is not None and dict(unit.kind.dimension) in ({"length": 1}, {"angle": 1})


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
    """The quantity that the words at a place name."""
    said = [stem(word) for word in work.text.texts[slice(*place)] if word not in ("the", "said")]
    every = (pair for w in works for pair in zip(w.limits, w.of, strict=True))
    return next((of for (_, what), of in every if said in names_of(what)), None)


def _of_first(what: Called, wholes: Sequence[str]) -> bool:
    return len(wholes) < 2 or what.whole in ("", wholes[0])


def _a_time(unit: Unit | None) -> bool:
    return unit is not None and dict(unit.kind.dimension) == {"time": 1}


# ---- ratios of two quantities


def _ratio(
    texts: list[str], stretch: Stretch, what: Called, known: Sequence[Other]
) -> tuple[Stretch, Called] | None:
    """`ratio of the inner diameter to the diameter is at least 5:3`, if both have limits of their own."""
    if stretch.unit is not None and stretch.unit.symbol:
        return None
    for at in range(stretch.starts[0] - 1, max(0, stretch.starts[0] - MOST_RATIO), -1):
        if texts[at : at + 2] == ["ratio", "of"]:
            break
    else:
        return None
    one = _named(texts, at + 2 + (texts[at + 2] in _DETERMINERS), known)
    if one is None or texts[one[2] : one[2] + 1] != ["to"]:
        return None
    start = one[2] + 1
    two = _named(texts, start + (texts[start] in _DETERMINERS), known)
    rest = texts[two[2] : stretch.starts[0]] if two else []
    if two is None or not {"is", "of", "being", "are"}.issuperset(rest) or two[0].what == one[0].what:
        return None
    places = (
        (at + 2 + (texts[at + 2] in _DETERMINERS), one[1]),
        (start + (texts[start] in _DETERMINERS), two[1]),
    )
    at -= texts[at - 1] in ("weight", "mass", "molar", "mole", "volume")
    return replace(stretch, other=places[0], second=places[1], begins=at), what


# ---- names


def name_others(works: Sequence[Work], quantities: Sequence[Quantity]) -> None:
    """Gives what a limit is set beside the name that the words have there, so that a phrase finds it."""
    met: dict[tuple[str, str], Quantity] = {}
    for work in works:
        for (_, what), of in zip(work.limits, work.of, strict=True):
            met.setdefault((what.noun, what.owner), of)
    known = [Called(noun, owner, False) for noun, owner in met]
    used = {q.name.lower() for q in quantities}
    for work in works:
        for i, (stretch, _) in enumerate(work.limits):
            names = [_name_there(work, place, met, known, used) for place in (stretch.other, stretch.second)]
            if stretch.second[1] and all(names):
                work.pairs[i] = ", ".join(names)


def _name_there(
    work: Work,
    place: tuple[int, int],
    met: dict[tuple[str, str], Quantity],
    known: Sequence[Called],
    used: set[str],
) -> str:
    """The name of the quantity that the words at a place name; '' if they name none."""
    texts = work.text.texts
    said = texts[slice(*place)]
    stems = [stem(word) for word in said if word not in ("the", "said")]
    found = [k for k in known if place[1] and stems in names_of(k)]
    if not found:
        return ""
    of = met[found[0].noun, found[0].owner]
    wanted = " ".join(said)
    if of.name.lower() != wanted and wanted not in used and of.within is None:
        used.add(wanted)
        of.name = wanted
    return of.name
