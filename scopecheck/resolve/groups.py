"""Link groups while a sheet is resolved: which occurrences are read alike, and what is settled about them."""

from __future__ import annotations

from collections.abc import Hashable
from typing import Literal

from scopecheck.core.formula import Chosen, CountOf, Includes, Measured, Read, ReadTerm, Written
from scopecheck.core.model import (
    STANDINGS,
    Definition,
    FreeParameter,
    Group,
    OwnPhrase,
    Place,
    Reading,
    Rivals,
    Settled,
)
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import field, holder
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import ApartStatement, PolicyStatement, ReadStatement
from scopecheck.resolve.definitions import Definition as Defined

CLAIMS = "claims"
"""The document to which all claims belong: their words are read alike, and definitions are for them."""


SLOT = regex(r"\([^()]*\)")


def plain_wording(text: str) -> str:
    """A wording for comparison: lower case, slots and dots dropped."""
    bare = SLOT.sub(" ", text.lower().replace("...", " "))
    return " ".join(w for w in bare.split() if w not in ("[", "]"))


def as_it_stands(words: str) -> str:
    """Words of a place for comparison, numbers and all: lower case, blanks alike."""
    return " ".join(words.lower().split())


@holder
class Draft:
    """A group that may still gain places. `labels` are those of its readings, for pins that ask."""

    index: int
    document: str
    wording: str
    entry: str
    readings: tuple[Reading, ...]
    settled: tuple[Settled, ...]
    not_computed: tuple[str, ...]
    not_tried: tuple[tuple[str, str], ...]
    noun: bool
    definition: Definition | None = None
    own: OwnPhrase | None = None
    places: list[Place] = field(default_factory=list)

    def group(self) -> Group:
        return Group(
            self.index, self.document, self.wording, self.entry, self.readings, best(self.readings),
            tuple(self.places), self.settled, self.not_computed, self.not_tried, self.noun,
            self.definition, self.own,
        )  # fmt: skip


def best(readings: tuple[Reading, ...]) -> int:
    """The first reading of best standing."""
    return min(range(len(readings)), key=lambda i: STANDINGS.index(readings[i].standing))


@holder
class Groups:
    """Every group of a sheet so far, and what policies, pins and `apart` say about wordings."""

    profile: str
    policies: tuple[PolicyStatement, ...] = ()
    pins: tuple[ReadStatement, ...] = ()
    apart: tuple[ApartStatement, ...] = ()
    definitions: tuple[Defined, ...] = ()
    drafts: dict[Hashable, Draft] = field(default_factory=dict)
    parameters: dict[str, FreeParameter] = field(default_factory=dict)
    used: dict[int, list[str]] = field(default_factory=dict)
    seen: dict[str, tuple[str, ...]] = field(default_factory=dict)
    axes: dict[str, set[str]] = field(default_factory=dict)
    numbers: set[tuple[int, str]] = field(default_factory=set)
    """The free numbers to which pins gave a value, by the place of the pin."""
    open_numbers: dict[int, set[str]] = field(default_factory=dict)
    """The free numbers of the readings that pins with values keep, by the place of the pin."""
    reached: dict[int, list[str]] = field(default_factory=dict)
    """The places that definitions reach, by the place of the definition."""
    unfit: list[tuple[Defined, str, str, str]] = field(default_factory=list)
    """Definitions whose words stand where their meaning makes no sense: the words, the place, and why."""
    rivals: list[Rivals] = field(default_factory=list)
    passed: list[Diagnostic] = field(default_factory=list)
    """What was read past beside names, as warnings."""

    @property
    def claim_profile(self) -> Literal["US", "EPO"]:
        return "EPO" if self.profile == "EPO" else "US"

    def pins_at(
        self, wording: str, entry: str, where: str, words: str = "", labels: tuple[str, ...] = ()
    ) -> tuple[ReadStatement, ...]:
        """The pins that name this wording (or the entry's first), or a reading of these very words, here."""
        names = {plain_wording(wording), plain_wording(entry)}
        return tuple(
            pin
            for pin in self.pins
            if (plain_wording(pin.wording) in names or names_words(pin, words, labels))
            and (not pin.places or not spellings_of(where).isdisjoint(pin.places))
        )

    def is_apart(self, wording: str, entry: str) -> bool:
        names = {plain_wording(wording), plain_wording(entry)}
        return any(plain_wording(a.wording) in names for a in self.apart)

    def settle(
        self,
        readings: tuple[Reading, ...],
        pins: tuple[ReadStatement, ...],
        defined: tuple[Defined, Reading] | None = None,
    ) -> tuple[tuple[Reading, ...], tuple[Settled, ...]]:
        """The readings left after policies, pins and a definition, and what took the others away.

        Pins choose among the ordinary readings: that of a definition stays beside the one they keep. In the
        US profiles the definition's reading then stands alone, in the EPO profile it joins the others.
        """
        settled: list[Settled] = []
        for reading in readings:
            for axis, value in reading.axes:
                self.axes.setdefault(axis, set()).add(value)
        for policy in self.policies:
            pair = (policy.axis, policy.value)
            if any(pair in r.axes for r in readings):
                kept = tuple(
                    r for r in readings if pair in r.axes or all(a != policy.axis for a, _ in r.axes)
                )
                readings = self._record(settled, readings, kept, policy.text, policy.reason, policy.span)
        for pin in pins:
            kept = tuple(r for r in readings if r.label.lower() == pin.reading.lower())
            if kept:
                kept += tuple(r for r in readings if defined and r is defined[1] and r not in kept)
                readings = self._record(settled, readings, kept, f"read {pin.text}", pin.reason, pin.span)
        if defined and self.claim_profile == "US":
            own, kept = defined[0].settled(), (defined[1],)
            readings = self._record(settled, readings, kept, own.text, own.reason, own.span)
        return readings, tuple(settled)

    def _record(
        self,
        settled: list[Settled],
        before: tuple[Reading, ...],
        kept: tuple[Reading, ...],
        text: str,
        reason: str,
        span: Span,
    ) -> tuple[Reading, ...]:
        removed = tuple(r.label for r in before if r not in kept)
        self.used.setdefault(id(span), []).extend(removed)
        settled.append(Settled(text, reason, removed, span))
        return kept

    def draft(self, key: Hashable, make: Draft, place: Place) -> Draft:
        """The group with this key, made now if it is new, with one more place."""
        found = self.drafts.get(key)
        if found is None:
            found = self.drafts[key] = make
        if place not in found.places:
            found.places.append(place)
        return found

    def finished(self) -> tuple[Group, ...]:
        return tuple(draft.group() for draft in self.drafts.values())


def names_words(pin: ReadStatement, words: str, labels: tuple[str, ...]) -> bool:
    """Does the pin name the words of a place as they stand there, and one of the readings they have?"""
    alike = as_it_stands(pin.wording) == as_it_stands(words)
    return alike and pin.reading.lower() in (label.lower() for label in labels)


def spellings_of(where: str) -> frozenset[str]:
    """What a pin may call a place: `1b` or its claim `1`; `D1, example 2` or its document `D1`."""
    return frozenset((where, where.rstrip("abcdefghijklmnopqrstuvwxyz"), where.partition(", ")[0]))


def groups_in(*formulas: object) -> tuple[int, ...]:
    """The groups that formulas and terms use, in order of index."""
    return tuple(sorted({int(n.group) for n in _nodes(formulas) if isinstance(n, (Read, ReadTerm))}))


def names_in(*formulas: object) -> frozenset[str]:
    """The declared names that formulas and terms speak of."""
    speaking = (Measured, CountOf, Chosen, Includes)
    return frozenset(n.name for n in _nodes(formulas) if isinstance(n, speaking))


def _nodes(roots: tuple[object, ...]) -> list[object]:
    found: list[object] = []
    stack: list[object] = list(roots)
    while stack:
        item = stack.pop()
        if isinstance(item, tuple):
            stack += item
        elif hasattr(item, "__match_args__") and not isinstance(item, Written):
            found.append(item)
            stack += [getattr(item, name) for name in item.__match_args__]
    return found
