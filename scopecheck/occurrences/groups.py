"""Link groups while a sheet is resolved: which occurrences are read alike, and what is settled about them."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import Literal, NamedTuple

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
    Standing,
)
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import field, holder, replace
from scopecheck.foundations.regex import regex
from scopecheck.language.syntax import ApartStatement, NumberNode, PolicyStatement, ReadStatement
from scopecheck.vocabulary.definitions import Definition as Defined

CLAIMS = "claims"
"""The document to which all claims belong: their words are read alike, and definitions are for them."""


SLOT = regex(r"\([^()]*\)")


def plain_wording(text: str) -> str:
    """A wording for comparison: lower case, slots and dots dropped."""
    bare = SLOT.sub(" ", text.lower().replace("...", " "))
    return " ".join(w for w in bare.split() if w not in ("[", "]"))


def as_it_stands(words: str) -> str:
    """Words of a place for comparison, numbers and all: lower case, blanks alike."""
    return whole_words(" ".join(words.lower().split()))


_CUT_SHORT = regex(r"(?:\s+(?:in|of))?\s+(?:the|an?|said)$|(?<=\bsteps)\s+(?:in|of)$")


def whole_words(words: str) -> str:
    """The words of a phrase as they are quoted: without an article whose noun stands behind them."""
    return _CUT_SHORT.sub("", words) or words


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
    presumed: tuple[str, ...] = ()
    untried: tuple[tuple[str, Standing], ...] = ()
    alike: Hashable = None
    """What it has in common with groups of the same words that have other readings."""
    places: list[Place] = field(default_factory=list)

    @property
    def texts_settled(self) -> tuple[str, ...]:
        return tuple(s.text for s in self.settled)

    def group(self) -> Group:
        return Group(
            self.index, self.document, self.wording, self.entry, self.readings, best(self.readings),
            tuple(self.places), self.settled, self.not_computed, self.not_tried, self.noun,
            self.definition, self.own, self.presumed, self.untried,
        )  # fmt: skip


def best(readings: tuple[Reading, ...]) -> int:
    """The first reading of best standing."""
    return min(range(len(readings)), key=lambda i: STANDINGS.index(readings[i].standing))


class Pin(NamedTuple):
    """A pin that reaches a place; the higher its rank, the less it is for."""

    rank: tuple[int, int]
    said: ReadStatement


class Clash(NamedTuple):
    """Two pins that cannot both hold at a place, in the order of the sheet; `what` the first says there."""

    first: ReadStatement
    second: ReadStatement
    where: str
    what: str


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
    yielded: dict[int, list[str]] = field(default_factory=dict)
    """The places at which pins give way to others, by the place of the pin."""
    clashes: dict[tuple[int, int], Clash] = field(default_factory=dict)
    """The pins that settle the same place otherwise, neither being for less than the other."""
    reached: dict[int, list[str]] = field(default_factory=dict)
    """The places that definitions reach, by the place of the definition."""
    unfit: list[tuple[Defined, str, str, str]] = field(default_factory=list)
    """Definitions whose words stand where their meaning makes no sense: the words, the place, and why."""
    rivals: list[Rivals] = field(default_factory=list)
    passed: list[Diagnostic] = field(default_factory=list)
    """What was read past beside names, as warnings."""
    bare: set[str] = field(default_factory=set)
    """The shares of which it was told that words do not say of what they are."""

    @property
    def claim_profile(self) -> Literal["US", "EPO"]:
        return "EPO" if self.profile == "EPO" else "US"

    def pins_at(
        self, wording: str, entry: str, where: str, words: str = "", labels: tuple[str, ...] = ()
    ) -> tuple[Pin, ...]:
        """The pins that name this wording (or the entry's first), or a reading of these very words, here.

        Those for less come first: for this very place, for its claim or document, for any; then for these
        very words, for the wording, for the entry.
        """
        names = {plain_wording(wording), plain_wording(entry)}
        found = (
            Pin((_nearness(pin, where), _closeness(pin, wording, words)), pin)
            for pin in self.pins
            if (plain_wording(pin.wording) in names or names_words(pin, words, labels))
            and (not pin.places or not spellings_of(where).isdisjoint(pin.places))
        )
        return tuple(sorted(found, key=lambda pin: pin.rank, reverse=True))

    def holding(self, pins: tuple[Pin, ...], labels: Iterable[str], where: str) -> tuple[ReadStatement, ...]:
        """The pins that hold at a place where there are these readings; keeps in mind which give way.

        One for less goes before those for more. Of those for as much, one reading and one value of each
        number holds, in the order of the sheet.
        """
        known = {label.lower() for label in labels}
        able = [pin for pin in pins if pin.said.reading.lower() in known]
        held: list[ReadStatement] = []
        for rank, pin in able:
            if rank == able[0].rank and (not held or self._adds(held, pin, where)):
                held.append(pin)
            else:
                self.yielded.setdefault(id(pin.span), []).append(where)
        return tuple(held)

    def _adds(self, held: list[ReadStatement], pin: ReadStatement, where: str) -> bool:
        """Whether a pin says more than those that hold; keeps in mind where it says otherwise."""
        if pin.reading.lower() != held[0].reading.lower():
            what = f"reads '{pin.wording}' in {where} as '{held[0].reading}'"
            self.clashes.setdefault((id(held[0].span), id(pin.span)), Clash(held[0], pin, where, what))
            return False
        given = {name: (number, other) for other in held for name, number in other.values}
        for name, number in pin.values:
            if name in given and not _same_number(given[name][0], number):
                first, other = given[name]
                what = f"gives '{name}' in {where} the value {first.span.text}"
                self.clashes.setdefault((id(other.span), id(pin.span)), Clash(other, pin, where, what))
                return False
        return any(name not in given for name, _ in pin.values)

    def is_apart(self, wording: str, entry: str) -> bool:
        names = {plain_wording(wording), plain_wording(entry)}
        return any(plain_wording(a.wording) in names for a in self.apart)

    def settle(
        self,
        readings: tuple[Reading, ...],
        pins: tuple[Pin, ...],
        where: str,
        defined: tuple[Defined, Reading] | None = None,
    ) -> tuple[tuple[Reading, ...], tuple[Settled, ...], tuple[ReadStatement, ...]]:
        """The readings left after policies, pins and a definition, what took the others away, and the pins
        that hold.

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
                by = Settled(policy.text, policy.reason, (), policy.span, pair)
                readings = self._record(settled, readings, kept, by)
        holding = self.holding(pins, (r.label for r in readings), where)
        for pin in holding:
            kept = tuple(r for r in readings if r.label.lower() == pin.reading.lower())
            kept += tuple(r for r in readings if defined and r is defined[1] and r not in kept)
            by = Settled(f"read {pin.text}", pin.reason, (), pin.span)
            readings = self._record(settled, readings, kept, by)
        if defined and self.claim_profile == "US":
            readings = self._record(settled, readings, (defined[1],), defined[0].settled())
        return readings, tuple(settled), holding

    def _record(
        self, settled: list[Settled], before: tuple[Reading, ...], kept: tuple[Reading, ...], by: Settled
    ) -> tuple[Reading, ...]:
        """The readings kept, with what settles `by` and the readings that it takes away put down."""
        removed = tuple(r.label for r in before if r not in kept)
        self.used.setdefault(id(by.span), []).extend(removed)
        settled.append(replace(by, removed=removed))
        return kept

    def draft(self, key: Hashable, make: Draft, place: Place) -> Draft:
        """The group with this key, made now if it is new, with one more place.

        Words read of several things ('both t1 and t2') stand at one place, which says all that they come to.
        """
        found = self.drafts.get(key)
        if found is None:
            found = self.drafts[key] = make
        if place not in found.places:
            found.places.append(place)
        else:
            at = found.places.index(place)
            found.places[at] = _with_meanings_of(found.places[at], place)
        return found

    def finished(self) -> tuple[Group, ...]:
        return tuple(draft.group() for draft in self.drafts.values())


BESIDE = "; "
"""Between what words come to of one thing and of another."""


def _with_meanings_of(place: Place, again: Place) -> Place:
    """The place with what the words there come to of a further thing, where that is something else."""
    if len(place.meanings) != len(again.meanings):
        return place
    told = zip(place.meanings, again.meanings, strict=True)
    both = (dict.fromkeys((*one.split(BESIDE), other)) for one, other in told)
    return replace(place, meanings=tuple(BESIDE.join(meant) for meant in both))


def _nearness(pin: ReadStatement, where: str) -> int:
    """2 for a pin for this very place, 1 for its claim or its document, 0 for every place."""
    return 2 if where in pin.places else min(len(pin.places), 1)


def _closeness(pin: ReadStatement, wording: str, words: str) -> int:
    """2 for a pin for words as they stand at a place, 1 for this wording, 0 for all of its entry."""
    if as_it_stands(pin.wording) == as_it_stands(words):
        return 2
    return int(plain_wording(pin.wording) == plain_wording(wording))


def _same_number(a: NumberNode, b: NumberNode) -> bool:
    one, other = a.number, b.number
    if one.unit is None or other.unit is None:
        return one.unit is other.unit and one.value == other.value
    alike = one.unit.kind == other.unit.kind
    return alike and one.unit.to_base(one.value) == other.unit.to_base(other.value)


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
