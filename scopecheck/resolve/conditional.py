"""Limits that words put under a condition: 'at most 5 mm if the layer is thicker than 2 mm'.

Phrases `only for conditions` have slots for what is limited and for its condition. Left of the colon stands
what both are about, in the order of the words; another order is read where the words name the things.
"""

from __future__ import annotations

from collections.abc import Callable

from scopecheck.core.declared import ChoiceDecl, Step
from scopecheck.core.formula import All, Formula, Truth
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import words as listed
from scopecheck.resolve.chart import Fill, Match, Tests, joined_parts, matches, word_of
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.names import Bound, Listed
from scopecheck.resolve.occurrence import Occurrence
from scopecheck.resolve.phrase_finding import Job
from scopecheck.resolve.phrase_slots import own_phrase
from scopecheck.resolve.readings import is_switch, read
from scopecheck.resolve.sides import Sides, Things, Tokens
from scopecheck.resolve.states import state_of, switched

METHOD = "a method is claimed"


@record
class Roles:
    """Which of the things left of the colon are limited, and which the condition is about."""

    outcome: Things
    condition: Things

    def of(self, fill: Fill) -> Things:
        return self.outcome if fill.slot.kind in ("outcome", "state") else self.condition


def conditional(sides: Sides, tokens: Tokens) -> Formula | None:
    """The words as limits under conditions; None where they are none.

    Raises Trouble where nothing tells which thing is limited and which the condition is about.
    """
    if len(sides.job.subjects) < 2:
        return None
    tokens = _without_opening(tokens)
    found = _found(sides, tokens)
    if found:
        if len(found) > 1:
            ways = " and ".join(f"'{m.pattern.plain}'" for m in found[:3])
            what = f"these words are a phrase in {len(found)} ways"
            help = "write the meaning in symbols: words, two blanks, exactly, facts"
            raise trouble(sides.job.span(tokens), what, f"They match {ways}.", help)
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
    things = sides.job.subjects
    every = (*_all_roles(things), *_switched(things), *_first_and_rest(things))
    switches = [s.text for s in things if is_switch(s.bound)]
    tests = Tests(
        _no, _no, lambda part: any(sides.side(part, r.condition) for r in every), _applies(sides.job),
        _own_words(sides.job), 0,
        outcome=lambda part: any(sides.side(part, r.outcome) for r in every if not _is_switched(r)),
        condition=lambda part: any(sides.side(part, r.condition) for r in every),
        state=lambda part: any(state_of(part, name) is not None for name in switches),
        agree=lambda fills: bool(_roles(sides, fills)),
    )  # fmt: skip
    return matches(tokens, sides.job.place.phrases, tests)


def _no(_: Tokens) -> bool:
    return False


def _own_words(job: Job) -> frozenset[str]:
    """The words of a step may stand before what is said of it."""
    return frozenset(job.subjects[0].text.lower().split() if job.sort == "steps" else ())


def _applies(job: Job) -> Callable[[Entry], bool]:
    """Phrases with a condition in them, for what stands left of the colon."""
    kinds = {"conditions", "steps" if job.sort == "steps" else "switches"}

    def applies(entry: Entry) -> bool:
        conditional = any(s.kind in ("condition", "limit") for p in entry.patterns for s in p.slots)
        with_means = "steps" in entry.only_for and bool(entry.subjects)
        return not kinds.isdisjoint(entry.only_for) and conditional and not with_means

    return applies


def _all_roles(things: Things) -> tuple[Roles, ...]:
    """Every way to part the things that keeps them in order."""
    cuts = [(things[:at], things[at:]) for at in range(1, len(things))]
    return (*(Roles(a, b) for a, b in cuts), *(Roles(b, a) for a, b in cuts))


def _switched(things: Things) -> tuple[Roles, ...]:
    """Each switch, with the others as what its condition is about."""
    others = [(s, tuple(o for o in things if o is not s)) for s in things if is_switch(s.bound)]
    return tuple(Roles((switch,), rest) for switch, rest in others)


def _first_and_rest(things: Things) -> tuple[Roles, ...]:
    """A switch or a step that stands first, which the words need not name."""
    first = isinstance(things[0].bound, Step) or is_switch(things[0].bound)
    return (Roles(things[:1], things[1:]),) if first else ()


def _is_switched(roles: Roles) -> bool:
    return len(roles.outcome) == 1 and is_switch(roles.outcome[0].bound)


def _roles(sides: Sides, fills: tuple[Fill, ...]) -> tuple[Roles, ...]:
    """The roles in which every slot is read, those in the order of the words first."""
    things, kinds = sides.job.subjects, {f.slot.kind for f in fills}
    if "outcome" in kinds:
        found = tuple(r for r in _all_roles(things) if not _is_switched(r))
    else:
        found = _switched(things) if "state" in kinds else _first_and_rest(things)
    found = tuple(r for r in found if all(_fits(sides, f, r) for f in fills))
    return tuple(sorted(found, key=lambda r: r.of(fills[0])[0] is not things[0]))


def _fits(sides: Sides, fill: Fill, roles: Roles) -> bool:
    if fill.slot.kind == "state":
        return state_of(fill.tokens, roles.outcome[0].text) is not None
    return sides.side(fill.tokens, roles.of(fill)) is not None


def _chosen(sides: Sides, match: Match, tokens: Tokens) -> Roles:
    """The roles that the words tell. Raises Trouble where they may be either way round.

    Without a name in the words, and with the condition first, either order left of the colon may be meant.
    """
    found = _roles(sides, match.fills)
    named = any(sides.head(f.tokens) for f in match.fills)
    told = found[0] if len(found) == 1 or (match.fills[0].slot.kind == "outcome" and not named) else None
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
    first = roles.outcome[0]
    slots: dict[str, Bound] = {"x": first.bound, "method": Listed((Truth(job.place.method),), (), METHOD)}
    shown = {"x": first.text, "method": METHOD}

    def put(name: str, formula: Formula, text: str) -> None:
        slots[name], shown[name] = Listed((formula,), (), text), text

    if isinstance(first.bound, ChoiceDecl) and is_switch(first.bound):
        put("done", *switched(first.bound, True))
    for fill in match.fills:
        if fill.slot.kind == "state":
            assert isinstance(first.bound, ChoiceDecl)
            put(fill.slot.name, *switched(first.bound, bool(state_of(fill.tokens, first.text))))
        else:
            side = sides.side(fill.tokens, roles.of(fill))
            assert side is not None
            for name in (fill.slot.name, *(f"{n}_{fill.slot.name}" for n in match.entry.subjects[1:])):
                put(name, *sides.read(side))
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
    things = sides.job.subjects
    if len(things) > 1 and (course := _in_time(sides, tokens)):
        return course
    anything = Tests(
        _no, _no, _no, _applies(sides.job), _own_words(sides.job), 0, outcome=tells, condition=tells,
        state=lambda part: any(state_of(part, s.text) is not None for s in things),
    )  # fmt: skip
    for match in matches(tokens, sides.job.place.phrases, anything):
        if len(things) == 1 and (alone := _beside_one(sides, match, tokens)):
            return alone
        if len(things) > 1 and (wrong := _unread(sides, match)):
            return wrong
    return None


def _in_time(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for 'until': a thing of which a claim is asked is one state, and has no course in time."""
    said = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(said) if w in listed("conditional", "in_time")), None)
    first = sides.job.subjects[0]
    if at is None or sides.job.sort == "steps":
        return None
    met = f"{first.text} = yes" if is_switch(first.bound) else f"{first.text} ..."
    return trouble(
        sides.job.span(tokens[at:]), f"'{said[at]}' tells of a course in time",
        f"A thing is one state of {first.text} and what stands beside it; what was before is no part of it.",
        f"write the states that are meant behind the words: two blanks, exactly  IF ... THEN {met};"
        " or declare what goes on as a step (section 14 of the language)",
    )  # fmt: skip


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
    kinds = {f.slot.kind for f in match.fills}
    things = sides.job.subjects
    parted = _all_roles(things) if "outcome" in kinds else (*_first_and_rest(things), *_switched(things))
    for roles in parted:
        wrong = [f for f in match.fills if not _fits(sides, f, roles)]
        if not wrong or wrong[0].slot.kind == "state" or len(wrong) == len(kinds) > 1:
            continue
        fill, of = wrong[0], roles.of(wrong[0])
        what = "the condition" if fill.slot.kind == "condition" else "what is limited"
        names = ", ".join(thing.text for thing in of)
        head = sides.head(fill.tokens)
        if head and all(head != thing.text for thing in of):
            return trouble(
                sides.job.span(fill.tokens), f"'{sides.job.text(fill.tokens)}' is not said of {names}",
                f"The words are {what}, and speak of {head}.",
                f"write {head} left of the colon in place of {names}",
            )  # fmt: skip
        if also := _also_named(sides, fill, of):
            return also
        return _trouble(sides, fill, of)
    return next((t for f in match.fills for s in things if (t := _told(_trouble(sides, f, (s,))))), None)


def _also_named(sides: Sides, fill: Fill, of: Things) -> Trouble | None:
    """The error where one of several conditions speaks of what does not stand left of the colon."""
    said = [word_of(t) for t in fill.tokens]
    behind = (fill.tokens[i + 1 :] for i, w in enumerate(said) if w in ("and", "or"))
    left = [s.text for s in sides.job.subjects]
    missing = [head for part in behind if (head := sides.head(part)) and head not in left]
    if not missing:
        return None
    return trouble(
        sides.job.span(fill.tokens), f"the words speak of {missing[0]} too",
        "Left of the colon stands all that the words are about, in their order.",
        f"write: {', '.join((*left, missing[0]))} : {sides.job.words.text}",
    )  # fmt: skip


def _trouble(sides: Sides, fill: Fill, of: Things) -> Trouble | None:
    """What is wrong with one side by itself."""
    try:
        sides.formula(fill.tokens, of)
    except Trouble as error:
        return error
    return None


def _told(error: Trouble | None) -> Trouble | None:
    """The error, if it says more than that no phrase reads the words."""
    said = error.diagnostic.message if error else ""
    return error if said and not said.startswith("no phrase reads") else None
