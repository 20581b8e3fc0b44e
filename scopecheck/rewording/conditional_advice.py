"""What is said where words with a condition in them are not read: which side, and what to write."""

from __future__ import annotations

from scopecheck.core.declared import NumberDecl, Step
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS, Fill, Match, Tests, matches, word_of
from scopecheck.matching.lifting import in_symbols
from scopecheck.matching.phrase_advice import NOT_READ
from scopecheck.matching.states import is_done
from scopecheck.occurrences.readings import is_switch
from scopecheck.rewording.conditional import (
    applies,
    fits,
    no,
    own_words,
    roles_for,
    without_opening,
)
from scopecheck.rewording.plainer_steps import calls
from scopecheck.rewording.sides import Sides, Things, Tokens
from scopecheck.vocabulary.names import Typed

_CONDITIONAL = CONDITION_WORDS | {"wherever", "until", "as", "case"}
"""What tells that a condition is meant; 'at' and 'for' may say much else."""


def why_not(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for words with a condition in them that are not read; None where none stands there."""

    def tells(part: Tokens) -> bool:
        return any(t.number for t in part) or bool(sides.head(part))

    tokens = without_opening(tokens)
    things = sides.job.subjects
    if course := _whichever_first(sides, tokens) or _until(sides, tokens):
        return course
    if len(things) > 1 and (course := _in_time(sides, tokens) or _so_long(sides, tokens)):
        return course
    anything = Tests(
        no, no, no, applies(sides.job), own_words(sides.job), 0, outcome=tells, condition=tells,
        state=lambda part: any(sides.state(part, s) is not None for s in things),
    )  # fmt: skip
    found = matches(tokens, sides.job.place.phrases, anything)
    if len(things) > 1:
        return _unread(sides, found)
    found = sorted(found, key=lambda match: len(match.fills))
    return next((alone for match in found if (alone := _beside_one(sides, match, tokens))), None)


def of_a_step_done(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for `if the response is not received, ...`, of a step that is called responding: is it done?

    So for a step that is always done as it is declared.
    """
    said, things = [word_of(t) for t in tokens], sides.job.subjects
    first, steps = things[0], [s.bound for s in things[1:] if isinstance(s.bound, Step)]
    for at in range(1, len(said) - 2):
        before = _CONDITIONAL.isdisjoint(said[at - 1 : at]) and said[at - 1] not in ("the", "no", "a")
        for step in () if before else steps:
            ends = range(at + 3, min(at + _LONGEST_STATE, len(said)) + 1)
            own = any(is_done(tokens[at:end], step.name) is not None for end in ends)
            noun = calls(said[at : at + 1], step.name.lower().split())
            if own and step.done:
                continue
            if not own and not (noun and said[at + 1] in ("is", "has") and isinstance(first.bound, Step)):
                continue
            end = next((i for i in range(at + 1, len(said)) if said[i] == ","), len(said))
            start = at - (said[at - 1] in ("the", "no", "a"))
            run = tokens[start:end]
            what = f"'{sides.job.text(run)}' is not told of the step {step.name}"
            if own:
                what = f"{step.name} is always carried out, as it is declared"
            timed = sides.job.place.names.declared(step.duration or step.start)
            unit = timed.unit.symbol if isinstance(timed, NumberDecl) else "min"
            rest = f"{step.name}  {'step' if step.duration else 'event'} in {unit}, may be left out"
            if own or not step.done:
                return trouble(sides.job.span(run), what, _MAY_BE_LEFT_OUT, f"declare it so: {rest}")
            denied = "not" in said[start:end] or "no" in said[start:end]
            done = f"{'NOT ' if denied else ''}DONE({step.name})"
            return trouble(
                sides.job.span(run), what, "The words say what comes of it, and the step is done or not.",
                f"write behind the words: two blanks, exactly IF {done} THEN DONE({first.text})",
            )  # fmt: skip
    return None


_MAY_BE_LEFT_OUT = "What may not take place is a step that may be left out."
_LONGEST_STATE = 6


def _until(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for `until the voltage reaches 4.1 V` of no step: what goes on until then is one."""
    said, things = [word_of(t) for t in tokens], sides.job.subjects
    at = next((i for i, w in enumerate(said) if w in ("until", "till")), None)
    measured = all(isinstance(s.bound, Typed) for s in things)
    if at is None or "or" in said[:at] or not measured or any(s.moments for s in things):
        return None
    behind = sides.job.text(tokens[at:])
    last = things[-1].text
    return trouble(
        sides.job.span(tokens[at:]), f"'{said[at]}' tells of a course in time",
        f"A thing is one state of {last}: what goes on until then is a step, and it is so when that ends.",
        f"declare what goes on, as in: holding  step in min; and write: holding, {last} : {behind}",
    )  # fmt: skip


def _whichever_first(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for `for 60 min or until the current is below 0.5 A, whichever occurs first`, which is no
    choice of the two: the time is the longest there is."""
    said, things = [word_of(t) for t in tokens], sides.job.subjects
    at = said.index("whichever") if "whichever" in said else 0
    time = next((t for t in tokens if _is_time(t)), None)
    first = not {"first", "earlier", "sooner"}.isdisjoint(said[at:])
    if not at or time is None or not first or not {"until", "till", "when"} & {*said}:
        return None
    one = things[0]
    long = f"DURATION({one.text})" if isinstance(one.bound, Step) else one.text
    limit, other = f"{long} <= {time.text}", things[-1].text if len(things) > 1 else "..."
    return trouble(
        sides.job.span(tokens[at:]), "the words end at the one or the other, and never later than the time",
        "Read as a choice between the two they would let a longer time by.",
        f"write behind the words: two blanks, exactly {limit}, ({long} = {time.text} OR {other} ...)",
    )  # fmt: skip


def _is_time(token: Token) -> bool:
    unit = token.number.unit if token.number else None
    return unit is not None and unit.kind.dimension == TIME


def _in_time(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for 'until': a thing of which a claim is asked is one state, and has no course in time."""
    said = [word_of(t) for t in tokens]
    at = next(
        (i for i, w in enumerate(said) if w in listed("conditional", "in_time")), _up_to_a_time(sides, tokens)
    )
    first = sides.job.subjects[0]
    if at is None or sides.job.sort == "steps":
        return None
    met = f"{first.text} = yes" if is_switch(first.bound) else f"{first.text} ..."
    states = f"write the states that are meant behind the words: two blanks, exactly  IF ... THEN {met};"
    timed = said[at] == "after" and at and tokens[at + 1 : at + 2] and tokens[at + 1].number
    if (timed or said[at] in _UP_TO) and not is_switch(first.bound):
        end = next((i for i in range(at + 2, len(said)) if said[i] in ("is", "are", "being")), len(said))
        noted = sides.job.text(tokens[at:end])
        states = f'say when it is where it is declared: {first.text}  ...  "{noted}"; or {states}'
    return trouble(
        sides.job.span(tokens[at:]), f"'{said[at]}' tells of a course in time",
        f"A thing is one state of {first.text} and what stands beside it; what was before is no part of it.",
        f"{states} or declare what goes on as a step (section 14 of the language)",
    )  # fmt: skip


_UP_TO = ("by", "within", "in")
_HEDGES = frozenset("about approximately around roughly".split())


def _up_to_a_time(sides: Sides, tokens: Tokens) -> int | None:
    """Where `by 90 minutes` stands, of something and a time: at that moment, or at some moment before it."""
    kinds = [s.bound.kind for s in sides.job.subjects if isinstance(s.bound, Typed)]
    timed = [k is not None and k.dimension == TIME for k in kinds]
    if sorted(timed) != [False, True] or len(sides.job.subjects) != len(timed):
        return None
    for at, token in enumerate(tokens[:-1]):
        behind = tokens[at + 1 + (word_of(tokens[at + 1]) in _HEDGES) :]
        if at and word_of(token) in _UP_TO and behind and _is_time(behind[0]):
            return at
    return None


def _so_long(sides: Sides, tokens: Tokens) -> Trouble | None:
    """The error for 'exceeds 5 bar for at least 5 s': how long it is so is a quantity of its own."""
    said, things = [word_of(t) for t in tokens], sides.job.subjects
    at = next((i for i in range(1, len(said)) if said[i] == "for" and _leads_to_time(tokens[i + 1 :])), None)
    kinds = [s.bound.kind for s in things if isinstance(s.bound, Typed)]
    if at is None or sides.job.sort == "steps" or any(k and k.dimension == TIME for k in kinds):
        return None
    names = ", ".join(s.text for s in things)
    return trouble(
        sides.job.span(tokens[at:]), "the words say how long it is so, and no time stands left of the colon",
        "A thing is one state: for how long it has been so is a quantity of its own.",
        f"declare it, as in: holding time  duration in s; and write: {names}, holding time :"
        f" {sides.job.words.text}",
    )  # fmt: skip


def _leads_to_time(tokens: Tokens) -> bool:
    """Does a limit of a time stand here: `at least 5 s`, `more than 5 seconds`?"""
    number = next((t for t in tokens[:5] if t.number), None)
    return number is not None and _is_time(number)


def _beside_one(sides: Sides, match: Match, tokens: Tokens) -> Trouble | None:
    """Words of two things beside one of them."""
    (thing,) = sides.job.subjects
    read_of = [bool(sides.side(f.tokens, (thing,))) for f in match.fills]
    needs_none = isinstance(thing.bound, Step) or is_switch(thing.bound)
    if not any(read_of) and not needs_none:
        return None
    names = [thing.text] if needs_none else []
    if _CONDITIONAL.isdisjoint(match.pattern.plain.lower().split()):
        unnamed = (f for f, read in zip(match.fills, read_of, strict=True) if not read)
        if any(not sides.head(f.tokens) for f in unnamed):
            return None  # 'at the closest' is no condition
    for fill, read in zip(match.fills, read_of, strict=True):
        if fill.slot.kind != "state":
            other = sides.head(fill.tokens) or f"what '{sides.job.text(fill.tokens)}' is said of"
            names.append(thing.text if read else other)
    words = sides.job.text(tokens)
    named = ", ".join(dict.fromkeys(names))
    help = f"write: {named} : {words}"
    if len(set(names)) == 1 and not needs_none:
        help = (
            f"if the condition is about {thing.text} too, its name stands in it; else write {thing.text}, ..."
        )
        if how_long := _only_how_long(sides, tokens):
            return trouble(
                sides.job.span(tokens), f"'{word_of(tokens[how_long - 1])}' is read as how long it is so",
                f"{thing.text} is a time, and the limit stands behind it.",
                f"lift only: {sides.job.text(tokens[how_long:])}",
            )  # fmt: skip
    return trouble(
        sides.job.span(tokens), f"a condition stands in the words, and only {thing.text} left of the colon",
        "What is limited and what the condition is about both stand there, in the order of the words.", help,
    )  # fmt: skip


def _only_how_long(sides: Sides, tokens: Tokens) -> int:
    """Where the limit begins in `the timer runs for 5 s or longer`, of what is a time itself; else 0."""
    places = (i for i in range(1, len(tokens)) if word_of(tokens[i - 1]) == "for")
    return next((i for i in places if sides.job.readable(tokens[i:])), 0)


def _unread(sides: Sides, found: list[Match]) -> Trouble | None:
    """The side of the words that is not read, in the phrase and the roles in which the most is read."""
    tried = [
        (wrong, roles, match)
        for match in found
        for roles in roles_for(sides.job.subjects, {f.slot.kind for f in match.fills})
        if (wrong := [f for f in match.fills if not fits(sides, f, roles)]) and wrong[0].slot.kind != "state"
    ]
    if not tried:
        return None
    wrong, roles, match = min(tried, key=lambda t: (len(t[0]), len(t[2].fills)))
    fill, of = wrong[0], roles.of(wrong[0])
    if 1 < len(wrong) == len(match.fills):
        alone = ((f, (s,)) for f in wrong for s in sides.job.subjects)
        return next((t for one in alone if (t := _told(_trouble(sides, *one)))), None)
    what = "the condition" if fill.slot.kind == "condition" else "what is limited"
    names = ", ".join(thing.text for thing in of)
    head = sides.head(fill.tokens)
    if head and all(head != thing.text for thing in of):
        left = any(head == thing.text for thing in sides.job.subjects)
        return trouble(
            sides.job.span(fill.tokens), f"'{sides.job.text(fill.tokens)}' is not said of {names}",
            f"The words are {what}, and speak of {head}.",
            in_symbols(sides.job) if left else f"write {head} left of the colon in place of {names}",
        )  # fmt: skip
    return _also_named(sides, fill) or _trouble(sides, fill, of)


def _also_named(sides: Sides, fill: Fill) -> Trouble | None:
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
    return error if said and not said.startswith(NOT_READ) else None
