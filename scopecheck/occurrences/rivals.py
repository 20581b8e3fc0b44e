"""What settles words that a definition settles too: other definitions, policies and pins."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.formula import Formula
from scopecheck.core.model import Rivals, Settled
from scopecheck.foundations.record import record
from scopecheck.language.statements_words import AS_DEFINED
from scopecheck.language.syntax import PolicyStatement, ReadStatement
from scopecheck.occurrences.groups import Groups
from scopecheck.vocabulary.definitions import Definition

Pair = tuple[Formula, Formula]
"""Two meanings of the same words at one place: that of a definition, and another."""


@record
class Meant:
    """An ordinary reading beside what a definition means; None where the reading leaves a number open."""

    label: str
    axes: tuple[tuple[str, str], ...]
    beside: Pair | None


def note_rivals(
    groups: Groups, definition: Definition, at: tuple[str, str], pins: tuple[ReadStatement, ...],
    ordinary: tuple[Meant, ...],
) -> None:  # fmt: skip
    """Keeps in mind which policies and pins settle the words of a definition at a place too.

    `at`: the words and the place. Whether they settle them otherwise is asked once all is resolved.
    """
    words, where = at
    found = [*_policies(groups.policies, ordinary), *_pins(pins, ordinary)]
    own = definition.settled()
    groups.rivals += [Rivals(words, where, own, other, left, taken) for other, left, taken in found]


Found = tuple[Settled, tuple[Pair, ...], tuple[Pair, ...] | None]


def _policies(policies: tuple[PolicyStatement, ...], ordinary: tuple[Meant, ...]) -> Iterator[Found]:
    for policy in policies:
        pair = (policy.axis, policy.value)
        asked = [m for m in ordinary if any(axis == policy.axis for axis, _ in m.axes)]
        taken = [m for m in asked if pair not in m.axes]
        left = [m.beside for m in ordinary if m not in taken]
        if len(taken) == len(asked) or not taken or None in left:
            continue
        own = Settled(policy.text, policy.reason, (), policy.span)
        wholly = all({axis for axis, _ in m.axes} == {policy.axis} for m in ordinary)
        meanings = tuple(m.beside for m in taken if m.beside)
        yield own, tuple(p for p in left if p), None if wholly else meanings


def _pins(pins: tuple[ReadStatement, ...], ordinary: tuple[Meant, ...]) -> Iterator[Found]:
    for pin in pins:
        kept = [m.beside for m in ordinary if m.label.lower() == pin.reading.lower()]
        if pin.reading.lower() != AS_DEFINED and kept and None not in kept:
            own = Settled(f"read {pin.text}", pin.reason, (), pin.span)
            yield own, tuple(p for p in kept if p), None
