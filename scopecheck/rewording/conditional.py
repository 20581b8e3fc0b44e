"""Limits that words put under a condition: 'at most 5 mm if the layer is thicker than 2 mm'.

Phrases `only for conditions` have slots for what is limited and for its condition. Left of the colon stands
what both are about, in the order of the words; another order is read where the words name the things.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, Step
from scopecheck.core.formula import All, Formula, Truth
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.matching.chart import (
    FILLERS,
    GOVERNING,
    PREFERENCES,
    Fill,
    Match,
    Tests,
    joined_parts,
    matches,
    word_of,
)  # fmt: skip
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.phrase_slots import own_phrase
from scopecheck.matching.shared_limits import (
    is_bare_limit,
    is_on_the_sides_of,
    lets_in_more,
    says_limit,
    shares_the_words,
)
from scopecheck.matching.states import noun_of, switched
from scopecheck.matching.subjects import Subject
from scopecheck.occurrences.occurrence import Occurrence
from scopecheck.occurrences.readings import MOMENTS, STATES, is_kind, is_switch, read
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.point_of_change import NoRange, changed_from
from scopecheck.rewording.sides import Sides, Things, Tokens
from scopecheck.vocabulary.entry import OF_CHANGES, Entry
from scopecheck.vocabulary.names import Bound, Listed, Typed

METHOD = "a method is claimed"


@record
class Roles:
    """Which of the things left of the colon are limited, and which the condition is about."""

    outcome: Things
    condition: Things
    means: Subject | None = None
    """What a step or a switch is carried out by: a count, which the words need not name."""
    each: tuple[tuple[int, Things], ...] = ()
    """Of two conditions that name different things, where each begins and which it names."""

    def of(self, fill: Fill) -> Things:
        if fill.slot.kind in ("outcome", "state"):
            return self.outcome
        return dict(self.each).get(fill.tokens[0].start, self.condition)


def conditional(sides: Sides, tokens: Tokens) -> Formula | None:
    """The words as limits under conditions; None where they are none.

    Raises Trouble where nothing tells which thing is limited and which the condition is about.
    """
    tokens = _after_so_much(sides.job.subjects, _with_the_state(without_opening(tokens)))
    tokens = _but_not_when(sides, _above_a_level(tokens))
    if row := _after_another(sides, tokens) or _before_another(sides, tokens):
        return row
    found = _found(sides, tokens)
    if found:
        _refuse_so_long_of_either(sides, tokens)
        if len(found) > 1:
            ways = " and ".join(f"'{m.pattern.plain}'" for m in found[:3])
            what = f"these words are a phrase in {len(found)} ways"
            help = "write the meaning in symbols: words, two blanks, exactly, facts"
            raise trouble(sides.job.span(tokens), what, f"They match {ways}.", help)
        return _read(sides, *_turned_back(sides, found[0], tokens))
    for parts in joined_parts(tokens):
        for each in ((sides, sides), tuple(_of_named(sides, part) for part in parts)):
            every = {s.text for own in each for s in own.job.subjects}
            both = [_found(own, part)[:1] for own, part in zip(each, parts, strict=True)]
            if all(both) and every == {s.text for s in sides.job.subjects}:
                if all(_says_where_it_changes(match) for (match,) in both):
                    raise trouble(
                        sides.job.span(tokens), "nothing tells from which side each value is come to",
                        "It changes at two of them, and each may be risen to or dropped to.",
                        "write for which values it is so: if ... then ..., and not if ...",
                    )  # fmt: skip
                said = zip(each, both, parts, strict=True)
                return All(tuple(_read(own, match, part) for own, (match,), part in said))
    return None


def _refuse_so_long_of_either(sides: Sides, tokens: Tokens) -> None:
    """Trouble for `when it is below 2 bar for at least 10 minutes`, of a step: either may last so long."""
    things = sides.job.subjects
    kinds = [s.bound.kind for s in things if isinstance(s.bound, Typed)]
    if not any(isinstance(s.bound, Step) for s in things) or any(k and k.dimension == TIME for k in kinds):
        return
    said = [word_of(t) for t in tokens]
    start = next((i for i, w in enumerate(said) if w in _WHEN), len(said))
    at = next((i for i in range(start, len(said)) if said[i] == "for"), len(said))
    number = next((t.number for t in tokens[at : at + 6] if t.number), None)
    limited = "," not in said[start:at] and any(t.number for t in tokens[start:at])
    within = range(tokens[start].start, tokens[at].start) if max(start, at) < len(tokens) else range(0)
    limited &= not any(t.sort == "gap" and t.start in within for t in sides.job.words.tokens)
    if limited and number is not None and number.unit is not None and number.unit.kind.dimension == TIME:
        raise trouble(
            sides.job.span(tokens[at:]), "the condition may last so long, or the step",
            "Behind a condition, and without a comma, it may be said of either.",
            "of the step, write it behind exactly; of the condition, declare how long it is so, as in:"
            " holding time  duration in s",
        )  # fmt: skip


_WHEN = frozenset("if when whenever once while unless".split())


def _with_the_state(tokens: Tokens) -> Tokens:
    """`at most 5 bar with the valve closed` as at that; `plates with a width of 2 mm` have that too.

    `No plates with a width above 2 mm`, and at most so many, are those that have it.
    """
    said = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(said)) if said[i] == "with" and said[i + 1 :]), 0)
    if not at:
        return tokens
    absolute = said[at + 1 : at + 2] == ["the"] and {"is", "are", "proviso"}.isdisjoint(said[at:])
    few = said[at + 1] in ("a", "an") and not FEW.isdisjoint(said[:at]) and _CONDITIONS.isdisjoint(said[:at])
    return (*tokens[:at], replace(tokens[at], text="at"), *tokens[at + 1 :]) if absolute or few else tokens


FEW = frozenset("no not none most fewer less up maximum exceeding exceeds exceed without".split())
"""Before what is counted these leave none of it, or so much at the most."""


def _after_so_much(subjects: Things, tokens: Tokens) -> Tokens:
    """`at least 80 % after 500 cycles`, of a share and a number of cycles or a time, as at so many."""
    second = subjects[1].bound if len(subjects) == _PAIR and not any(s.moments for s in subjects) else None
    counted = isinstance(second, Typed) and (second.whole or (second.kind and second.kind.dimension == TIME))
    share = isinstance(subjects[0].bound, Typed) and is_kind(subjects[0].bound, "shares")
    at = next((i for i, t in enumerate(tokens) if i and word_of(t) == "after"), 0)
    behind = tokens[at + 1 : at + 2]
    if not at or not share or not counted or not (behind[0].number if behind else None):
        return tokens
    return (*tokens[:at], replace(tokens[at], text="at"), *tokens[at + 1 :])


_PAIR = 2


def _above_a_level(tokens: Tokens) -> Tokens:
    """`at least 90 % over 40 degC` as `when above 40 degC`; `over 10 min`, `under a load` as they are."""
    for at in range(2, len(tokens) - 1):
        number = tokens[at + 1].number
        unit = number and number.unit
        level = unit and unit.kind.dimension != TIME and any(t.number for t in tokens[:at])
        led = word_of(tokens[at - 1]) == "at"
        above = _OF_LEVELS.get(word_of(tokens[at]))
        if level and above and (led or tokens[at - 1].number):
            return (*tokens[: at - led], *words_at(tokens[at], above), *tokens[at + 1 :])
    return tokens


_OF_LEVELS = {"over": "when above", "under": "when below"}


def hangs_on_a_step(tokens: Tokens) -> bool:
    """`if the rinsing is omitted`, `when it is not done`: of one step, and on another; no `once it is over`.

    When another step is done or begins, or how long it has been going on, tells of a time.
    """
    words = {word_of(t) for t in tokens}
    denied = not words.isdisjoint(("when", "whenever")) and not words.isdisjoint(("not", "no", *_OMITTED))
    return (denied or not words.isdisjoint(("if", "unless"))) and words.isdisjoint(_IN_TIME)


_OMITTED = ("omitted", "skipped")
_IN_TIME = frozenset("once while whilst as until till".split())


def _but_not_when(sides: Sides, tokens: Tokens) -> Tokens:
    """`opens above 5 bar but not above 8 bar` as `opens when above 5 bar but not when above 8 bar`."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(2, len(words) - 2) if words[i : i + 2] == ["but", "not"]), 0)
    left = tokens[: at - (words[at - 1] == ",")]
    if not at or words[at + 2] not in _WHERE or not (found := _found(sides, left)):
        return tokens
    fills = found[0].fills
    if [f.slot.kind for f in fills] != ["state", "condition"] or not _CONDITIONS.isdisjoint(words[:at]):
        return tokens
    state, condition = (f.tokens for f in fills)
    if "only" in words[:at]:
        return tokens
    when = words_at(condition[0], "when")
    again = words_at(tokens[at], "but not when")
    return (*state, *when, *condition, *again, *tokens[at + 2 + (words[at + 2] == "at") :])


_WHERE = frozenset("above below over under beyond at within between from outside up".split())


def _turned_back(sides: Sides, match: Match, tokens: Tokens) -> tuple[Match, Tokens]:
    """`opens above 5 bar and does not open above 8 bar` as `opens above 5 bar but not above 8 bar`.

    The second condition is one of the values of the first, which then reach up to it.
    """
    if [f.slot.kind for f in match.fills] != ["state", "condition"] * 2:
        return match, tokens
    _, first, other, second = (f.tokens for f in match.fills)
    if not is_on_the_sides_of(second, first) or lets_in_more(second, first):
        return match, tokens
    start, again = (next(i for i, t in enumerate(tokens) if t is part[0]) for part in (first, other))
    behind = next(i for i, t in enumerate(tokens) if t is other[-1]) + 1
    end = start + len(first)
    if start > again or behind >= len(tokens) or end > again:
        return match, tokens
    said = _but_not_when(sides, (*tokens[:end], *words_at(tokens[end], "but not"), *tokens[behind:]))
    found = _found(sides, said)
    return (found[0], said) if found else (match, tokens)


def _of_named(sides: Sides, part: Tokens) -> Sides:
    """The words of one of two sentences, of the first thing and of those that it names."""
    job = sides.job
    named = tuple(s for s in job.subjects if s is job.subjects[0] or _is_named(sides, part, s))
    if len(named) == 1 or len(named) == len(job.subjects):
        return sides
    return replace(sides, job=Job(job.place, named, job.words, job.bare), known={})


def _after_another(sides: Sides, tokens: Tokens) -> Formula | None:
    """`at least 3 mm, and at least 5 mm if the rim exceeds 10 mm`: the first limit holds in any case.

    So it does without the comma where the second is one on the same side; of limits on both sides phrases
    tell what may be meant, as they do with a comma before the condition. Where a 'but' lets in more, as in
    `at most 3 A, but at most 5 A if`, it is instead of the first.
    """
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(1, len(words) - 2) if words[i] in ("and", "but")):
        if words[at - 1] == "nowhere":
            continue  # 'nowhere but where' begins a condition
        comma = words[at - 1] == ","
        left, right = tokens[: at - comma], tokens[at + 1 :]
        began = not _CONDITIONS.isdisjoint(words[: at - comma]) or "as" in words[: at - comma]
        behind = "," in words[at:] and words[at + 1] not in _CONDITIONS
        if not left or began or behind or not (found := _found(sides, right)):
            continue
        second = next((f.tokens for f in found[0].fills if f.slot.kind in ("outcome", "state")), ())
        roles = _chosen(sides, found[0], right)
        chosen = isinstance(roles.outcome[0].bound, ChoiceDecl)
        stated = chosen and not any(t.number for t in left)
        if words[at] == "but" and (stated or lets_in_more(second, left)):
            return _in_place_of(sides, left, right)
        if not comma and (not is_on_the_sides_of(second, left) or lets_in_more(second, left)):
            continue
        if words[at] == "but" and not comma and any(_limits_twice(m) for m in _found(sides, tokens)):
            continue
        side = sides.side(left, roles.outcome)
        if side is not None:
            return All((sides.read(side)[0], _read(sides, found[0], right)))
    return None


def _limits_twice(match: Match) -> bool:
    """Is it a phrase of two limits, which tells by itself what each is under?"""
    return sum(f.slot.kind == "outcome" for f in match.fills) > 1


def _before_another(sides: Sides, tokens: Tokens) -> Formula | None:
    """`at most 4 mm if the rim is at least 5 mm, but at least 2 mm`: the last limit is one of the gap again.

    It is one of the rim where that has no end on its side yet, and the gap has one. Raises Trouble where it
    may be of either.
    """
    words = [word_of(t) for t in tokens]
    at = max((i for i, w in enumerate(words[:-2]) if w in ("but", "and") and i > 2), default=0)
    left, last = tokens[: at - (words[at - 1] == ",")], tokens[at + 1 :]
    between = any(w == "between" for w in words[max(0, at - 4) : at])
    if not at or between or not _OF_ITS_OWN.intersection(words[at + 1 :]):
        return None
    called = sides.head(last)
    if not called and not is_bare_limit(last):
        return None
    found = _found(sides, left)
    fills = found[0].fills if found else ()
    if [f.slot.kind for f in fills] != ["outcome", "condition"]:
        return None
    limit, condition = (f.tokens for f in fills)
    if not called and not PREFERENCES.isdisjoint(map(word_of, condition)):
        return None  # 'is preferably below 5 mm but at most 8 mm' is one condition
    roles = _chosen(sides, found[0], left)
    own = sides.side(last, roles.outcome) if called in ("", roles.outcome[0].text) else None
    if own is None:
        return None
    if not called and sides.side((*condition, *tokens[at:]), roles.condition) is not None:
        again, anew = is_on_the_sides_of(last, condition), is_on_the_sides_of(last, limit)
        if anew and not again:
            return None
        if anew or not again:
            one, other = roles.outcome[0].text, roles.condition[0].text
            raise trouble(
                sides.job.span(last), f"nothing tells whether {one} or {other} is limited here",
                "Behind the condition stands one more limit, which may be of both.",
                f"write it before the condition, or name what it limits: but the {one} is ...",
            )  # fmt: skip
    said = (*last, *words_at(last[-1], "but"), *left)
    if twice := [m for m in _found(sides, said) if _limits_twice(m)]:
        return _read(sides, twice[0], said)
    return All((sides.read(own)[0], _read(sides, found[0], left)))


def _in_place_of(sides: Sides, left: Tokens, right: Tokens) -> Formula:
    """`open, but closed if the pressure exceeds 5 bar`: closed where the condition holds, open elsewhere."""
    said = (*right, *words_at(right[-1], ", otherwise"), *left)
    if found := _found(sides, said):
        return _read(sides, found[0], said)
    raise trouble(
        sides.job.span((*left, *right)), "the second limit lets in what the first one does not",
        "Where the condition holds it may stand in the place of the first one.",
        "write what is so where the condition holds, and 'otherwise' what is so elsewhere",
    )  # fmt: skip


def without_opening(tokens: Tokens) -> Tokens:
    """Without a 'wherein,' before all of it."""
    opening = len(tokens) > 2 and word_of(tokens[0]) in listed("conditional", "openings")
    return tokens[1 + (word_of(tokens[1]) == ",") :] if opening else tokens


def _found(sides: Sides, tokens: Tokens) -> list[Match]:
    """The phrases that the words are, best first, with roles in which each side is read."""
    things = sides.job.subjects
    every = (*_all_roles(things), *_switched(things), *_first_and_rest(things), *_both(things))

    def outcome(part: Tokens) -> bool:
        limited = (r for r in every if not _is_switched(r))
        done = any(
            sides.says_done(part, s) is not None for s in things
        )  # steps have phrases of their own for it
        return not done and not _is_either(part) and any(sides.side(part, r.outcome) for r in limited)

    tests = Tests(
        no, no, lambda part: any(sides.side(part, r.condition) for r in every), applies(sides.job),
        own_words(sides.job), 0,
        outcome=outcome,
        condition=lambda part: (
            any(sides.side(part, r.condition) for r in every)
            or any(sides.side(part, named) for named in (_named_in(sides, part),))
        ),
        state=lambda part: any(sides.state(part, s) is not None for s in things),
        agree=lambda entry, fills: bool(_roles(sides, entry, fills)),
    )  # fmt: skip
    return matches(tokens, sides.job.place.phrases, tests)


def _named_in(sides: Sides, part: Tokens) -> Things:
    """Of three or more things those that the words name; none of fewer, for these stand in their order."""
    things = sides.job.subjects
    return (
        tuple(s for s in things if _is_named(sides, part, s)) if len(things) >= _WITH_TWO_CONDITIONS else ()
    )


def _is_named(sides: Sides, part: Tokens, thing: Subject) -> bool:
    switched = noun_of(thing.text) if is_switch(thing.bound) else frozenset[str]()
    return sides.mentions(part, thing.text) or not switched.isdisjoint(map(word_of, part))


_WITH_TWO_CONDITIONS = 3


def _with_each_named(sides: Sides, roles: Roles, fills: tuple[Fill, ...]) -> Roles:
    """The roles with what each of two conditions names, if together they name all that they are about."""
    conditions = [f for f in fills if f.slot.kind == "condition"]
    named = [tuple(s for s in _named_in(sides, f.tokens) if s in roles.condition) for f in conditions]
    every = {s.text for things in named for s in things}
    if len(conditions) <= 1 or not all(named) or every != {s.text for s in roles.condition}:
        return roles
    starts = (f.tokens[0].start for f in conditions)
    return Roles(roles.outcome, roles.condition, roles.means, tuple(zip(starts, named, strict=True)))


def _is_either(tokens: Tokens) -> bool:
    """`at least 2 mm, or at least 4 mm`: only the second may stand under the condition."""
    words = [word_of(t) for t in tokens]
    return any(w == "," and then == "or" for w, then in pairwise(words))


def no(_: Tokens) -> bool:
    return False


_OF_STEPS = ("steps", "sequences")


def own_words(job: Job) -> frozenset[str]:
    """The words of a step may stand before what is said of it."""
    return frozenset(job.subjects[0].text.lower().split() if job.sort in _OF_STEPS else ())


def applies(job: Job) -> Callable[[Entry], bool]:
    """Phrases with a condition in them, for what stands left of the colon."""
    kinds = {"conditions", "steps" if job.sort in _OF_STEPS else "switches"}

    def said_of(entry: Entry) -> bool:
        conditional = any(s.kind in ("condition", "limit") for p in entry.patterns for s in p.slots)
        return not kinds.isdisjoint(entry.only_for) and conditional

    return said_of


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
    if not (isinstance(things[0].bound, Step) or is_switch(things[0].bound)):
        return ()
    means = things[-1].bound
    counted = len(things) > 2 and isinstance(means, Typed) and means.whole
    with_means = (Roles(things[:1], things[1:-1], things[-1]),) if counted else ()
    return (Roles(things[:1], things[1:]), *with_means)


def _both(things: Things) -> tuple[Roles, ...]:
    """One thing that is limited and that the condition is about: 'if the gap is more than the pitch'."""
    return tuple(Roles((thing,), (thing,)) for thing in things)


def _is_switched(roles: Roles) -> bool:
    return len(roles.outcome) == 1 and is_switch(roles.outcome[0].bound)


def _roles(sides: Sides, entry: Entry, fills: tuple[Fill, ...]) -> tuple[Roles, ...]:
    """The roles in which every slot is read, those in the order of the words first."""
    things = sides.job.subjects
    with_means = "means" in entry.subjects
    possible = (r for r in roles_for(things, {f.slot.kind for f in fills}) if bool(r.means) == with_means)
    ways = (
        r if all(fits(sides, f, r) for f in fills) else _with_each_named(sides, r, fills) for r in possible
    )
    found = tuple(r for r in ways if all(fits(sides, f, r) for f in fills) and _told(sides, fills, r))
    return tuple(sorted(found, key=lambda r: r.of(fills[0])[0] is not things[0]))


def _told(sides: Sides, fills: tuple[Fill, ...], roles: Roles) -> bool:
    """Whether the words leave no doubt about the roles, beyond what the order of the words says.

    A thing on both sides is named in the condition, and the others stand in the words as values. In another
    order than that of the words no side speaks of what the other, without a name, is taken to be about.
    """
    things = sides.job.subjects
    if any(_for_so_long(sides, f, roles) for f in fills) or _in_a_row(sides, fills):
        return False
    if any(_is_said_of(sides, one, then) for one, then in pairwise(fills)):
        return False
    if any(_leaves_out_one(sides, f, roles.of(f)) for f in fills):
        return False
    if any(_is_half(sides, one, then) for one, then in pairwise(fills)):
        return False
    if roles.outcome == roles.condition:
        conditions = (f for f in fills if f.slot.kind == "condition")
        others = [s.text for s in things if s not in roles.outcome]
        named = all(sides.head(f.tokens) == roles.outcome[0].text for f in conditions)
        return named and all(any(sides.mentions(f.tokens, name) for f in fills) for name in others)
    if roles.of(fills[0])[0] is things[0]:
        return True
    unnamed = [f for f in fills if f.slot.kind != "state" and not sides.head(f.tokens)]
    return not any(
        sides.mentions(other.tokens, thing.text)
        for f in unnamed for thing in roles.of(f) for other in fills if roles.of(other) != roles.of(f)
    )  # fmt: skip


def _leaves_out_one(sides: Sides, fill: Fill, things: Things) -> bool:
    """`the rim is at least 3 mm and at most 5 mm`, of a rim and a lip: not that one?"""
    said = {w for t in fill.tokens for w in (word_of(t), word_of(t).removesuffix("s"))}
    if len(things) < 2 or not said.isdisjoint(_STANDING_FOR_ONE):
        return False
    note_of = sides.job.place.names.note_of
    calling = ({*s.text.lower().split(), *note_of(s.text).lower().split()} - FILLERS for s in things)
    kinds = [s.bound.kind if isinstance(s.bound, Typed) else None for s in things]
    told = [not words.isdisjoint(said) for words in calling]
    named = [kind for kind, is_told in zip(kinds, told, strict=True) if is_told]
    return any(kind in named for kind, is_told in zip(kinds, told, strict=True) if not is_told)


def _is_half(sides: Sides, one: Fill, then: Fill) -> bool:
    """`at least one of copper or zinc`, `2 or 3 holes`: halves of a limit, neither of which stands alone."""
    before = sides.word_before(then.tokens)
    if not one.slot.kind == then.slot.kind == "outcome" or before not in ("and", "or"):
        return False
    amount = any(t.number and t.number.unit for t in then.tokens)
    return not (amount or says_limit(then.tokens)) or shares_the_words(one.tokens, then.tokens)


_STANDING_FOR_ONE = frozenset(
    "it them they its their other latter former both each either neither that those".split()
)
_OF_ITS_OWN = frozenset("least most not more less below above over under up exceeding".split())
_NO_DOING = frozenset("during exceeding surpassing ranging reaching including".split())
_CONDITIONS = GOVERNING | {"wherever", "until"}
"""With one of these in it, words directly behind a state hold more than a condition."""


def _is_said_of(sides: Sides, state: Fill, condition: Fill) -> bool:
    """`the heating is below 3 V`, `with the valve open the pressure is at least 2 bar`: no condition.

    A verb directly behind a noun is said of that, `the valve being closed when ...`, as is what is done
    beside it, `the fan is on keeping the heat below 40 °C`; and behind 'with' a state is no sentence.
    """
    limits = state.slot.kind == "state" and condition.slot.kind == "condition"
    if not limits or condition.tokens[0].start > state.tokens[-1].end + 1:
        return False
    first = next((t for t in sides.job.words.tokens if t.sort != "gap"), state.tokens[0])
    led = word_of(first) == "with" and first.start <= state.tokens[0].start
    begins = word_of(condition.tokens[0])
    doing = begins.endswith("ing") and begins not in _NO_DOING
    doing = doing and not any(begins in s.text.lower().split() for s in sides.job.subjects)
    verb = begins in _VERBS or doing or not _CONDITIONS.isdisjoint(map(word_of, condition.tokens))
    return verb or (led and not _VERBS.isdisjoint(map(word_of, condition.tokens)))


_VERBS = frozenset("is are being was were exceeds falls drops rises lies remains stays reaches has".split())


def _for_so_long(sides: Sides, fill: Fill, roles: Roles) -> bool:
    """'At 80 degC for 10 minutes' says how long, and puts nothing under a condition."""
    bounds = [s.bound for s in roles.condition] if fill.slot.kind == "condition" else []
    times = any(isinstance(b, Typed) and b.kind and b.kind.dimension == TIME for b in bounds)
    return times and sides.word_before(fill.tokens) == "for"


def _in_a_row(sides: Sides, fills: tuple[Fill, ...]) -> bool:
    """'At a temperature of 80 degC, a pressure of 3 bar': two limits in a row, and no sentence."""
    first, second = fills[0], fills[-1]
    stated = first.slot.kind == "condition" and second.slot.kind == "outcome"
    listing = stated and sides.word_before(first.tokens) in listed("conditional", "in_a_row")
    return listing and listed("conditional", "verbs").isdisjoint(map(word_of, second.tokens))


def roles_for(things: Things, kinds: set[str]) -> tuple[Roles, ...]:
    """The roles that things may have in a phrase with slots of these kinds."""
    if "outcome" in kinds:
        return tuple(r for r in (*_all_roles(things), *_both(things)) if not _is_switched(r))
    first = _first_and_rest(things)
    return (*_switched(things), *(r for r in first if r.means)) if "state" in kinds else first


def fits(sides: Sides, fill: Fill, roles: Roles) -> bool:
    if fill.slot.kind == "state":
        return sides.state(fill.tokens, roles.outcome[0]) is not None
    return sides.side(fill.tokens, roles.of(fill)) is not None


def _chosen(sides: Sides, match: Match, tokens: Tokens) -> Roles:
    """The roles that the words tell. Raises Trouble where they may be either way round.

    Without a name in the words, and with the condition first, either order left of the colon may be meant.
    """
    found = _roles(sides, match.entry, match.fills)
    named = any(sides.head(f.tokens) for f in match.fills)
    told = found[0] if len(found) == 1 or (match.fills[0].slot.kind == "outcome" and not named) else None
    if told is None:
        one, other = (s.text for s in (found[0].outcome[0], found[0].condition[0]))
        raise trouble(
            sides.job.span(tokens), f"nothing tells whether {one} or {other} is limited here",
            "The words may be read of both, either way round, and name neither.",
            f"let the name stand in the words, as in: if the {other} is ..., the {one} is ...",
        )  # fmt: skip
    _which_is_it(sides, match, told, tokens)
    return told


def _which_is_it(sides: Sides, match: Match, roles: Roles, tokens: Tokens) -> None:
    """Raises Trouble for `the gap is larger than the rim if it is less than 5 mm`: which of the two?

    So without an 'it' in the condition; in what is limited words without a name are about what the line is.
    """
    for fill in match.fills:
        own, others = roles.of(fill), (roles.condition if fill.slot.kind == "outcome" else roles.outcome)
        words = tuple(
            t for t in fill.tokens if not t.number
        )  # 'it exceeds 5 V' does not name what is called v
        if len(own) != 1 or own == others or sides.head(fill.tokens) or sides.mentions(words, own[0].text):
            continue
        if fill.slot.kind == "outcome" and word_of(fill.tokens[0]) not in _IT:
            continue
        kind = own[0].bound.kind if isinstance(own[0].bound, Typed) else None
        said = [f.tokens for f in match.fills if f.tokens is not fill.tokens]
        named = (
            s for s in others
            if isinstance(s.bound, Typed) and s.bound.kind == kind is not None
            and any(sides.mentions(other, s.text) for other in said)
        )  # fmt: skip
        if (other := next(named, None)) is not None:
            raise trouble(
                sides.job.span(tokens), f"nothing tells whether {other.text} or {own[0].text} is meant here",
                f"The words '{sides.job.text(fill.tokens)}' name neither.",
                f"write the name: {other.text} ..., or {own[0].text} ...",
            )  # fmt: skip


_IT = frozenset("it they its their".split())


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
            put(fill.slot.name, *switched(first.bound, bool(sides.state(fill.tokens, first))))
        else:
            side = sides.side(fill.tokens, roles.of(fill))
            assert side is not None
            names = job.place.names
            names.under_condition = fill.slot.kind == "condition"
            try:
                said = sides.read(side)
            finally:
                names.under_condition = False
            for name in (fill.slot.name, *(f"{n}_{fill.slot.name}" for n in match.entry.subjects[1:])):
                put(name, *said)
    if first.moments and any(s.moments for s in roles.condition):
        put(MOMENTS, Truth(True), MOMENTS)
    if all(isinstance(s.bound, ChoiceDecl) for s in roles.outcome):
        put(STATES, Truth(True), STATES)
    if _says_where_it_changes(match):
        for name, changed in zip(OF_CHANGES, _changed(sides, slots, roles, tokens), strict=True):
            put(name, changed, name)
    if roles.means is not None:
        slots["means"], shown["means"] = roles.means.bound, roles.means.text
    at = Occurrence(
        job.place.document, job.place.where, job.text(tokens), match.wording.lower(), slots, shown,
        job.span(tokens), own_phrase(match),
    )  # fmt: skip
    return read(match.entry, at, job.place.names, job.place.groups, match.entry.title)


def _says_where_it_changes(match: Match) -> bool:
    return any(OF_CHANGES[0] in r.formula_text for r in match.entry.readings)


def _changed(sides: Sides, slots: dict[str, Bound], roles: Roles, tokens: Tokens) -> tuple[Formula, Formula]:
    """What is so if it begins at one of the values of the condition, as they rise and as they fall."""
    condition, done = slots["c"], slots.get("done") or slots["r"]
    assert isinstance(condition, Listed)
    assert isinstance(done, Listed)
    values, so, of = condition.conditions[0], done.conditions[0], roles.condition[0].text
    try:
        return changed_from(values, of, so, True), changed_from(values, of, so, False)
    except NoRange:
        raise trouble(
            sides.job.span(tokens), "nothing tells from which value on it is so",
            "The values at which it may change are no range of one quantity.",
            "write for which values it is so: if ... then ..., and not if ...",
        ) from None  # fmt: skip
