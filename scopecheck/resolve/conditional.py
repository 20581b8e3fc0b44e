"""Limits that words put under a condition: 'at most 5 mm if the layer is thicker than 2 mm'.

Phrases `only for conditions` have slots for what is limited and for its condition. Left of the colon stands
what both are about, in the order of the words; another order is read where the words name the things.
"""

from __future__ import annotations

from collections.abc import Callable

from scopecheck.core.formula import All, Formula, Truth
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import words as listed
from scopecheck.resolve.chart import Fill, Match, Tests, joined_parts, matches, word_of
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.names import Bound, Listed
from scopecheck.resolve.occurrence import Occurrence
from scopecheck.resolve.phrase_slots import own_phrase
from scopecheck.resolve.readings import read
from scopecheck.resolve.sides import Sides, Things, Tokens

METHOD = "a method is claimed"


@record
class Roles:
    """Which of the things left of the colon are limited, and which the condition is about."""

    outcome: Things
    condition: Things

    def of(self, fill: Fill) -> Things:
        return self.outcome if fill.slot.kind == "outcome" else self.condition


def conditional(sides: Sides, tokens: Tokens) -> Formula | None:
    """The words as limits under conditions; None where they are none.

    Raises Trouble where nothing tells which thing is limited and which the condition is about.
    """
    if len(sides.job.subjects) < 2:
        return None
    tokens = _without_opening(tokens)
    found = _found(sides, tokens)
    if found:
        return _read(sides, found[0], tokens)
    for left, right in joined_parts(tokens):
        if (first := _found(sides, left)) and (second := _found(sides, right)):
            return All((_read(sides, first[0], left), _read(sides, second[0], right)))
    return None


def _without_opening(tokens: Tokens) -> Tokens:
    """Without a 'wherein,' before all of it."""
    opening = len(tokens) > 2 and word_of(tokens[0]) in listed("conditional", "openings")
    return tokens[1 + (word_of(tokens[1]) == ",") :] if opening else tokens


def _found(sides: Sides, tokens: Tokens) -> list[Match]:
    """The phrases that the words are, best first, with roles in which each side is read."""
    roles = _all_roles(sides.job.subjects)

    def reads(kind: str) -> Callable[[Tokens], bool]:
        return lambda part: any(
            sides.side(part, r.outcome if kind == "outcome" else r.condition) for r in roles
        )

    tests = Tests(
        _no, _no, _no, _applies, frozenset(), 0, outcome=reads("outcome"), condition=reads("condition"),
        agree=lambda fills: bool(_roles(sides, fills)),
    )  # fmt: skip
    return matches(tokens, sides.job.place.phrases, tests)


def _no(_: Tokens) -> bool:
    return False


def _applies(entry: Entry) -> bool:
    return "conditions" in entry.only_for


def _all_roles(things: Things) -> tuple[Roles, ...]:
    cuts = [(things[:at], things[at:]) for at in range(1, len(things))]
    return (*(Roles(a, b) for a, b in cuts), *(Roles(b, a) for a, b in cuts))


def _roles(sides: Sides, fills: tuple[Fill, ...]) -> tuple[Roles, ...]:
    """The roles in which every slot is read, those in the order of the words first."""
    slots = tuple(f for f in fills if f.slot.kind in ("outcome", "condition"))
    things = sides.job.subjects
    found = tuple(r for r in _all_roles(things) if all(sides.side(f.tokens, r.of(f)) for f in slots))
    first = slots[0]
    return tuple(sorted(found, key=lambda r: r.of(first)[0] is not things[0]))


def _chosen(sides: Sides, match: Match, tokens: Tokens) -> Roles:
    """The roles that the words tell. Raises Trouble where they may be either way round.

    Without a name in the words, and with the condition first, either order left of the colon may be meant.
    """
    fills = tuple(f for f in match.fills if f.slot.kind in ("outcome", "condition"))
    found = _roles(sides, fills)
    named = any(sides.head(f.tokens) for f in fills)
    told = found[0] if len(found) == 1 or (fills[0].slot.kind == "outcome" and not named) else None
    if told is None:
        one, other = (s.text for s in (found[0].outcome[0], found[0].condition[0]))
        raise trouble(
            sides.job.span(tokens), f"nothing tells whether {one} or {other} is limited here",
            "The words may be read of both, either way round, and name neither.",
            f"let the name stand in the words, as in: if the {other} is ..., the {one} is ...",
        )  # fmt: skip
    return told


def _read(sides: Sides, match: Match, tokens: Tokens) -> Formula:
    """The readings of the phrase that the words are, each side with the readings of its own."""
    job, roles = sides.job, _chosen(sides, match, tokens)
    slots: dict[str, Bound] = {"method": Listed((Truth(job.place.method),), (), METHOD)}
    shown = {"method": METHOD}
    for fill in match.fills:
        side = sides.side(fill.tokens, roles.of(fill))
        assert side is not None
        said, text = sides.read(side)
        slots[fill.slot.name], shown[fill.slot.name] = Listed((said,), (), text), text
    at = Occurrence(
        job.place.document, job.place.where, job.text(tokens), match.wording.lower(), slots, shown,
        job.span(tokens), own_phrase(match),
    )  # fmt: skip
    return read(match.entry, at, job.place.names, job.place.groups, match.entry.title)


def why_not(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for words with a condition in them that are not read; None where none stands there."""

    def tells(part: Tokens) -> bool:
        return any(t.number for t in part) or bool(sides.head(part))

    tokens = _without_opening(tokens)
    anything = Tests(_no, _no, _no, _applies, frozenset(), 0, outcome=tells, condition=tells)
    things = sides.job.subjects
    for match in matches(tokens, sides.job.place.phrases, anything):
        if len(things) == 1 and (alone := _beside_one(sides, match, tokens)):
            return alone
        if len(things) > 1 and (wrong := _unread(sides, match)):
            return wrong
    return None


def _beside_one(sides: Sides, match: Match, tokens: Tokens) -> Trouble | None:
    """Words of two things beside one of them."""
    (thing,) = sides.job.subjects
    read_of = [bool(sides.side(f.tokens, (thing,))) for f in match.fills]
    if not any(read_of):
        return None
    names = [
        thing.text if read else sides.head(fill.tokens) or f"what {sides.job.text(fill.tokens)} is said of"
        for fill, read in zip(match.fills, read_of, strict=True)
    ]
    return trouble(
        sides.job.span(tokens), f"a condition stands in the words, and only {thing.text} left of the colon",
        "What is limited and what the condition is about both stand there, in the order of the words.",
        f"write: {', '.join(dict.fromkeys(names))} : {sides.job.text(tokens)}",
    )  # fmt: skip


def _unread(sides: Sides, match: Match) -> Trouble | None:
    """The side of the words that is not read, in roles in which some other side is."""
    for roles in _all_roles(sides.job.subjects):
        wrong = [f for f in match.fills if not sides.side(f.tokens, roles.of(f))]
        if len(wrong) == len(match.fills):
            continue
        fill, things = wrong[0], roles.of(wrong[0])
        what = "the condition" if fill.slot.kind == "condition" else "what is limited"
        names = ", ".join(thing.text for thing in things)
        head = sides.head(fill.tokens)
        if head and all(head != thing.text for thing in things):
            return trouble(
                sides.job.span(fill.tokens), f"'{sides.job.text(fill.tokens)}' is not said of {names}",
                f"The words are {what}, and speak of {head}.",
                f"write {head} left of the colon in place of {names}",
            )  # fmt: skip
        try:
            sides.formula(fill.tokens, things)
        except Trouble as error:
            return error
    return None
