"""Words alike whose numbers are written more or less finely: one group for all of them.

A reading that goes by the figures of a number, or by zeros at its end, says something of few numbers only.
Who reads these so rounds the others, in the same words, to their last place.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scopecheck.core.model import FreeParameter, Group, Place, Reading, Settled, Sheet
from scopecheck.core.regroup import Numbers, by_groups, key_at
from scopecheck.foundations.record import record, replace
from scopecheck.occurrences.groups import Draft, best

BY_FIGURES = frozenset(
    ("rounding", way) for way in ("figures", "trailing zeros not counted", "order of magnitude")
)
BY_PLACE = ("rounding", "half away")


def by_place(axes: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """What a reading sets that rounds to the last place where this one goes by figures; else what it sets."""
    return tuple(BY_PLACE if axis in BY_FIGURES else axis for axis in axes)


@record
class _Whole:
    """Groups of words alike as one: its readings, and for each group which of its own says each of them."""

    drafts: tuple[Draft, ...]
    readings: tuple[Reading, ...]
    said: tuple[tuple[int, ...], ...]


def with_words_alike(sheet: Sheet, drafts: Sequence[Draft]) -> Sheet:
    """The sheet, its groups those of the drafts; where words alike differ by figures, in one group."""
    wholes = _wholes(drafts)
    if len(wholes) == len(drafts):
        return sheet
    numbers: dict[int, tuple[int, tuple[int, ...]]] = {}
    for index, whole in enumerate(wholes):
        numbers |= {draft.index: (index, said) for draft, said in zip(whole.drafts, whole.said, strict=True)}
    parameters, keys = _parameters(sheet.parameters, numbers)
    groups = tuple(_group(index, whole) for index, whole in enumerate(wholes))
    return replace(by_groups(sheet, numbers, keys), groups=groups, parameters=parameters)


def _wholes(drafts: Sequence[Draft]) -> list[_Whole]:
    alike: dict[object, list[Draft]] = {}
    for draft in drafts:
        by_itself = draft.definition is not None or draft.alike is None
        alike.setdefault(draft.index if by_itself else draft.alike, []).append(draft)
    wholes = []
    for same in alike.values():
        together = _together(same) if len(same) > 1 else None
        wholes += [together] if together else [_alone(draft) for draft in same]
    return sorted(wholes, key=lambda whole: whole.drafts[0].index)


def _alone(draft: Draft) -> _Whole:
    return _Whole((draft,), draft.readings, (tuple(range(len(draft.readings))),))


def _together(drafts: Sequence[Draft]) -> _Whole | None:
    """The groups as one; None where they differ in more than how finely numbers are written."""
    readings = {(r.label, r.axes): r for draft in reversed(drafts) for r in draft.readings}
    ordered = sorted(readings.values(), key=lambda r: not BY_FIGURES.isdisjoint(r.axes))
    said = [[_said(draft, reading) for reading in ordered] for draft in drafts]
    if any(index is None for own in said for index in own) or len({d.texts_settled for d in drafts}) > 1:
        return None
    return _Whole(
        tuple(drafts), tuple(ordered), tuple(tuple(i for i in own if i is not None) for own in said)
    )


def _said(draft: Draft, reading: Reading) -> int | None:
    """Which of the draft's readings is that one, or what who takes that one takes it for; None: none is."""
    axes = by_place(reading.axes)
    own = [(r.label, r.axes, r.standing) for r in draft.readings]
    if (reading.label, reading.axes, reading.standing) in own:
        return own.index((reading.label, reading.axes, reading.standing))
    if axes == reading.axes:
        return None
    return next((i for i, r in enumerate(draft.readings) if r.axes == axes), None)


def _group(index: int, whole: _Whole) -> Group:
    first = whole.drafts[0].group()
    if len(whole.drafts) == 1:
        return replace(first, index=index)
    labels = {r.label for r in whole.readings}
    places = tuple(
        _told(place, said)
        for draft, said in zip(whole.drafts, whole.said, strict=True)
        for place in draft.places
    )
    settled: dict[str, Settled] = {}
    for own in (s for draft in whole.drafts for s in draft.settled):
        known = settled.get(own.text, own)
        settled[own.text] = replace(known, removed=tuple(dict.fromkeys((*known.removed, *own.removed))))
    return replace(
        first,
        index=index,
        readings=whole.readings,
        base=best(whole.readings),
        places=places,
        settled=tuple(settled.values()),
        not_tried=tuple((label, why) for label, why in first.not_tried if label not in labels),
        presumed=tuple(dict.fromkeys(label for draft in whole.drafts for label in draft.presumed)),
    )


def _told(place: Place, said: tuple[int, ...]) -> Place:
    if not place.meanings:
        return place
    return replace(place, meanings=tuple(place.meanings[i] for i in said))


def _parameters(
    parameters: Sequence[FreeParameter], numbers: Numbers
) -> tuple[tuple[FreeParameter, ...], Mapping[str, str]]:
    """The free numbers by the new groups, each once, and the new key of each."""
    found: dict[str, FreeParameter] = {}
    keys = {}
    for p in parameters:
        index, said = numbers[p.group]
        reading = said.index(p.reading)
        key = keys[p.key] = key_at(p.key, p.name, index, reading)
        found.setdefault(key, replace(p, key=key, group=index, reading=reading))
    return tuple(found.values()), keys
