"""The phrases of two sheets as one list of groups: a phrase that stands in both is read alike in both."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

from scopecheck.core.model import FreeParameter, Group, Place, Settled, Sheet
from scopecheck.core.regroup import Numbers, key_at
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.occurrences.groups import best
from scopecheck.resolve.agreement import differs

BEFORE = " before"
"""Stands after the labels of the sheet before."""


class CommonGroups:
    """The groups and parameters of both sheets as one list, and where each sheet's own are found in it."""

    def __init__(self, before: Sheet, after: Sheet) -> None:
        self.before, self.after = before, after
        self.wrong: list[Diagnostic] = []
        self.groups: list[Group] = []
        self.parameters: list[FreeParameter] = []
        self.new: dict[int, tuple[int, tuple[int, ...]]] = {}
        self.old: dict[int, tuple[int, tuple[int, ...]]] = {}
        twins = _twins(before.groups, after.groups)
        for group in after.groups:
            self._take(group, twins.get(group.index))
        matched = {twin.index for twin in twins.values()}
        for group in (g for g in before.groups if g.index not in matched):
            self.old[group.index] = (len(self.groups), _every(group))
            self.groups.append(replace(group, index=len(self.groups), places=_marked(group.places)))
        self.new_keys = self._keep(after.parameters, self.new)
        self.old_keys = self._keep(before.parameters, self.old)

    def _take(self, group: Group, twin: Group | None) -> None:
        index = len(self.groups)
        if twin is None:
            self.new[group.index] = (index, _every(group))
            self.groups.append(replace(group, index=index))
            return
        shared = [r.label for r in group.readings if r.label in {o.label for o in twin.readings}]
        if not shared or self._open_in_one(group, twin):
            self._contradict(group, twin)
            shared = [r.label for r in group.readings]
            twin = group
        if len(shared) < max(len(group.readings), len(twin.readings)):
            if self._settled_in_one(group, twin):
                self._tell_settled(group, twin)
            elif self._stands_in(group) and self._stands_in(twin):
                shared = [r.label for r in group.readings]
                shared += [r.label for r in twin.readings if r.label not in shared]
        kept, theirs = _places_of(shared, group), _places_of(shared, twin)
        self.new[group.index] = (index, kept)
        self.old[twin.index] = (index, theirs)
        own_labels = {r.label for r in group.readings}
        readings = tuple(
            group.readings[r] if label in own_labels else twin.readings[other]
            for label, r, other in zip(shared, kept, theirs, strict=True)
        )
        definition = group.definition or twin.definition
        if definition is not None:
            owner = group if group.definition else twin
            label = owner.readings[definition.reading].label
            definition = replace(definition, reading=shared.index(label)) if label in shared else None
        self.groups.append(
            replace(
                group,
                index=index,
                readings=readings,
                base=kept.index(group.base) if group.base in kept else best(readings),
                places=(*group.places, *_marked(_told_at(twin, theirs))),
                settled=tuple(dict.fromkeys((*group.settled, *twin.settled))),
                definition=definition,
            )
        )
        if kept != _every(group):
            last = self.groups[-1]
            own = tuple(_only(p, kept) for p in group.places)
            self.groups[-1] = replace(last, places=(*own, *last.places[len(own) :]))

    def _open_in_one(self, group: Group, twin: Group) -> bool:
        """Does one sheet give a number to what the other leaves open?"""

        def open_numbers(parameters: Sequence[FreeParameter], g: Group) -> set[tuple[str, str]]:
            return {(g.readings[p.reading].label, p.name) for p in parameters if p.group == g.index}

        texts = [{s.text for s in g.settled} for g in (group, twin)]
        ours, theirs = open_numbers(self.after.parameters, group), open_numbers(self.before.parameters, twin)
        return (
            texts[0] != texts[1]
            and not (ours <= theirs and theirs <= ours)
            and len(group.readings) == len(twin.readings)
        )

    def _contradict(self, group: Group, twin: Group) -> None:
        self.wrong.append(
            differs(
                group.places[0].span,
                twin.places[0].span,
                f"'{group.called}' is settled one way here and another way in the sheet before",
                "settle the words alike in both sheets: an amendment does not change what they mean",
            )
        )

    def _stands_in(self, group: Group) -> bool:
        """Can its base stand in for a reading that it does not have, as 1/2 has none with its last place?"""
        parameters = self.after.parameters if group in self.after.groups else self.before.parameters
        return not any(p.group == group.index and p.reading == group.base for p in parameters)

    def _settled_in_one(self, group: Group, twin: Group) -> list[Settled]:
        """What takes readings away in one of the sheets only."""
        ours, theirs = ({(s.text, s.removed) for s in g.settled} for g in (group, twin))
        own: list[Settled] = [s for s in group.settled if (s.text, s.removed) not in theirs and s.removed]
        return own + [s for s in twin.settled if (s.text, s.removed) not in ours and s.removed]

    def _tell_settled(self, group: Group, twin: Group) -> None:
        own = self._settled_in_one(group, twin)
        told = differs(
            group.places[0].span,
            twin.places[0].span,
            f"'{group.called}' is settled in one sheet only: {'; '.join(s.text for s in own)}",
            "settle the words alike in both sheets",
            "The words are read alike in both here, as settled.",
        )
        self.wrong.append(replace(told, severity="warning"))

    def _keep(self, parameters: Sequence[FreeParameter], numbers: Numbers) -> dict[str, str]:
        """The parameters of the readings that are kept, each once, and the key each has now."""
        keys: dict[str, str] = {}
        known = {p.key for p in self.parameters}
        for p in parameters:
            index, kept = numbers[p.group]
            if p.reading not in kept:
                continue
            reading = kept.index(p.reading)
            key = key_at(p.key, p.name, index, reading)
            keys[p.key] = key
            if key not in known:
                known.add(key)
                self.parameters.append(replace(p, key=key, group=index, reading=reading))
        return keys


def _twins(before: Sequence[Group], after: Sequence[Group]) -> dict[int, Group]:
    """For the groups of the sheet after, by number: the group of the sheet before that is the same words.

    Those with the same readings go first: 'at least' of a count is not 'at least' of a length. Then those of
    which some reading applies in one sheet only.
    """
    found: dict[int, Group] = {}
    for loose in (False, True):
        matched = {twin.index for twin in found.values()}
        left = [g for g in before if g.index not in matched]
        known = {_identity(g, left, loose): g for g in left}
        open_ones = [g for g in after if g.index not in found]
        for group in open_ones:
            twin = known.get(_identity(group, open_ones, loose))
            if twin is not None:
                found[group.index] = twin
    return found


def _identity(group: Group, among: Sequence[Group], loose: bool) -> Hashable:
    """What two groups of the two sheets share if they are the same words, and the same of several such."""

    def own(g: Group) -> Hashable:
        labels = {r.label for r in g.readings} | {label for s in g.settled for label in s.removed}
        if loose:
            labels |= {label for label, _ in g.not_tried} | set(g.not_computed)
        return g.document, g.wording.lower(), g.entry, g.noun, frozenset(labels)

    mine = own(group)
    return mine, sum(own(g) == mine for g in among if g.index < group.index)


def _every(group: Group) -> tuple[int, ...]:
    return tuple(range(len(group.readings)))


def _places_of(labels: Sequence[str], group: Group) -> tuple[int, ...]:
    """Which of its readings these are; its base for one that makes no sense of its own number."""
    by_label = {r.label: i for i, r in enumerate(group.readings)}
    return tuple(by_label.get(label, group.base) for label in labels)


def _only(place: Place, kept: Sequence[int]) -> Place:
    return replace(place, meanings=tuple(place.meanings[r] for r in kept) if place.meanings else ())


def _told_at(group: Group, kept: Sequence[int]) -> tuple[Place, ...]:
    """The group's places with the meanings of the readings kept there."""
    plain = tuple(group.readings[r].plain for r in kept)
    return tuple(
        _only(place, kept) if place.meanings else replace(place, meanings=plain) for place in group.places
    )


def _marked(places: Sequence[Place]) -> tuple[Place, ...]:
    return tuple(replace(place, where=marked(place.where)) for place in places)


def marked(where: str) -> str:
    """A label of the sheet before; the name of a case stays as it is."""
    return where + BEFORE if where[:1].isdigit() and where[-1:].isalpha() else where
