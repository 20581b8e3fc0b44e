"""Ways of saying in which order steps come and how long they last, said more plainly.

Used by `plainer.py` and, before words on several steps are taken apart, by `phrases.py`.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import Step
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at, runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.states import DONE, LEFT_OUT, form_of, is_participle
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import with_forms, with_runs, words_at
from scopecheck.vocabulary.names import Names

Tokens = tuple[Token, ...]


def steps_plainly(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What is said of steps in plainer words; else as it is."""
    tokens = with_step_named_by_what_is_done(tokens, subjects)
    if len(subjects) > 1 and isinstance(subjects[0].bound, Step):
        tokens = with_condition_behind_step(tokens, subjects[0])
    if not all(isinstance(s.bound, Step) for s in subjects):
        within = [s.text.lower().partition(" of ")[2].split() for s in subjects if s.moments]
        tokens = _without_step(tokens, within) if within else tokens
        return _without_reached(tokens) if subjects and isinstance(subjects[0].bound, Step) else tokens
    names = [s.text.lower().split() for s in subjects]
    tokens = _so_long_thereafter(_after_the_end(tokens, names), names)
    if len(subjects) > 1 and (opened := _opening_or_then(tokens, subjects)):
        return opened
    tokens = _while_it_goes_on(with_runs(_with_subsequent(_without_step(tokens, names), names), "step_runs"))
    if len(subjects) > 1:
        tokens = _with_no_step_done(tokens, subjects)
        tokens = _in_this_order(tokens, tuple(s.text.lower().split() for s in subjects))
        return _time_between(_at_the_same_time(_of_two(tokens, subjects), subjects), subjects)
    tokens = _uninterrupted(_for_a_period(tokens, subjects[0].text.lower().split()), subjects[0])
    return _lasting(_going_on(_between_steps(tokens)), subjects[0].text.lower().split())


def with_times_of_steps(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`begins after the soaking begins but before it ends`: what begins is said again behind `but`.

    A delay between two steps is told as a time from the one to the other.
    """
    if not any(isinstance(s.bound, Step) for s in subjects):
        return tokens
    tokens = with_forms(tokens, "delay_forms")
    words = [word_of(t) for t in tokens]
    verb = next((i for i, w in enumerate(words) if w in _BEGUN_OR_OVER), None)
    found = list[Token]()
    for at, token in enumerate(tokens):
        found.append(token)
        joint = words[at] in ("and", "but") and verb is not None and at > verb
        if verb is None or not joint or not run_at(words, at + 1, "steps", "before_or_after"):
            continue
        if not _BEFORE_OR_AFTER.isdisjoint(words[verb:at]) and "it" not in words[at + 1 : at + 3]:
            found += words_at(token, words[verb])
    return tuple(found)


_BEFORE_OR_AFTER = frozenset("before after following prior subsequent earlier later".split())
_BEGUN_OR_OVER = listed("steps", "begun_or_over")


def with_step_named_by_what_is_done(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the reed is rinsed for 5 min`, of a step called rinsing, as `rinsing the reed for 5 min`."""
    words = [word_of(t) for t in tokens]
    called = [s.text.lower() for s in subjects if isinstance(s.bound, Step)]
    done = {form_of(name): name for name in called if name.endswith("ing") and " " not in name}
    at = next((i for i, w in enumerate(words) if is_participle(w) and form_of(w) in done), None)
    if at is None or done[form_of(words[at])] in words:
        return tokens
    start = at
    while start and words[start - 1] in _PASSIVE:
        start -= 1
    before = words[:start]
    if any(t.sort != "word" or t.number for t in tokens[:start]) or not _NOT_DONE.isdisjoint(before):
        return tokens
    name = words_at(tokens[at], done[form_of(words[at])])
    lead = words_at(tokens[0], "comprising") if at + 1 == len(tokens) else ()
    it, behind = tokens[:start] if before != ["it"] else (), tokens[at + 1 :]
    if len(subjects) > 1 and _is_plain_object(before) and behind and not any(t.number for t in behind):
        return (*lead, *name, *behind, *it)  # 'demoulding after the mixing', and what is demoulded
    return (*lead, *name, *it, *behind)


_PASSIVE = frozenset("is are be being been was were to has have having then also".split())
_NOT_DONE = listed("steps", "not_done")


def _opening_or_then(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`said process comprising`, and `then`, alone, as what is said of the steps left of the colon."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in _COMPRISING), 0)
    steps = words[at + 1 :] in ([], ["the", "steps", "of"], ["the", "following", "steps"], ["the", "steps"])
    if at and steps and _PROCESS.issuperset(words[:at]):
        return tuple(words_at(tokens[0], "comprising the steps of"))
    two = len(subjects) == 2
    second = subjects[1].text.lower().split()
    named = int(words[0] == "the")
    named = named + len(second) if words[named : named + len(second)] == second else 0
    if two and words[named + (words[named : named + 1] == ["and"]) :] in _AT_ONCE_THEN:
        return tuple(words_at(tokens[0], f"immediately thereafter {subjects[1].text}"))
    if words[named + (words[named : named + 1] == ["and"]) :] not in AND_THEN or (named and not two):
        return ()
    return tuple(words_at(tokens[0], f"then {subjects[1].text}" if two else "the last one thereafter"))


_COMPRISING = ("comprising", "comprises", "including", "includes")
_PROCESS = frozenset("said the a this which process method procedure further".split())
_AT_ONCE_THEN = [[how, then] for how in ("immediately", "directly") for then in ("thereafter", "afterwards")]
AND_THEN = [["then"], ["subsequently"], ["thereafter"], ["afterwards"], ["next"], ["followed", "by"]]


def _after_the_end(tokens: Tokens, names: list[list[str]]) -> Tokens:
    """`only once heating is complete`, `after heating has been finished`, as after the end of it."""
    words = [word_of(t) for t in tokens]
    over = next((run for run in _OVER if words[-len(run) :] == run), [])
    at = next(
        (i for i in range(len(words) - 2) if words[i] == "after" or words[i : i + 2] == ["only", "once"]),
        None,
    )
    if not over or at is None:
        return tokens
    start = at + 1 + (words[at] == "only")
    end = len(tokens) - len(over)
    own = words[start + (words[start] in ("the", "said")) : end]
    if not own or own in names or any(t.number for t in tokens[start:]) or not _JOINTS_OR.isdisjoint(own):
        return tokens
    said = words_at(tokens[at], "after the end of")
    at -= words[at - 1 : at] == ["only"]
    if words[at - 1 : at] == ["not"]:
        return tokens  # 'not only after': at other times too
    return (*tokens[:at], *said, *tokens[start:end])


def with_steps_called(
    tokens: Tokens, subjects: tuple[Subject, ...], names: Names
) -> tuple[Tokens, tuple[tuple[Tokens, Step], ...]]:
    """`within 10 min of the end of the incubation`, of a step called incubating, by its name; these nouns.

    Only where the words say when something is so, or how long it goes on: a wash may be what is washed with.
    """
    if not any(isinstance(s.bound, Step) or s.moments for s in subjects):
        return tokens, ()
    words, at = [word_of(t) for t in tokens], 0
    found, called = list[Token](), list[tuple[Tokens, Step]]()
    steps = [(step, step.name.lower().split()) for step in names.steps.values()]
    while at < len(tokens):
        step, wide = next(
            ((step, len(name)) for step, name in steps if calls(words[at : at + len(name)], name)),
            (None, 1),
        )
        run = tokens[at : at + wide]
        noun = " ".join(map(word_of, run))
        known = names.declared(noun) is not None or names.step(noun) is not None
        if step and not known and _is_in_time(words, at, wide):
            found += words_at(replace(run[0], end=run[-1].end), step.name)
            called.append((run, step))
        else:
            found += run
        at += wide
    return tuple(found), tuple(called)


def calls(noun: list[str], name: list[str]) -> bool:
    """Is it the noun for what is done in a step: `the heat treatment`, `the rinse`, of the rinsing?"""
    if len(noun) != len(name) or noun[:-1] != name[:-1] or not name[-1].endswith("ing"):
        return False
    said, done = noun[-1], form_of(name[-1])
    if said == name[-1] or said in _NO_DOING or len(said) <= _SHORT:
        return False
    doing = [done + end for end in _ENDS_OF_DOING]
    return (
        said in doing or _DOING.get(said, "") == done or (form_of(said) == done and not said.endswith("ed"))
    )


_SHORT = 3
_ENDS_OF_DOING = ("ion", "tion", "ation", "ition", "ment", "al", "age", "ance")
_DOING = {
    "response": "respond", "transmission": "transmit", "retransmission": "retransmit", "reception": "receiv",
    "filtration": "filter", "conversion": "convert", "emission": "emit", "submission": "submit",
    "exposure": "expos", "closure": "clos", "absorption": "absorb", "adsorption": "adsorb",
    "desorption": "desorb", "solidification": "solidify", "purification": "purify", "analysis": "analys",
}  # fmt: skip
_NO_DOING = frozenset(
    "concentration solution suspension composition formulation temperature pressure".split()
)
"""These are what comes of it, or a quantity."""


def _is_in_time(words: list[str], at: int, wide: int) -> bool:
    """Do the words speak of when something takes place: `after the ...`, `the ... lasts`?"""
    start = at - (words[at - 1 : at] != [] and words[at - 1] in ("the", "said", "a", "an", "this", "that"))
    lead, behind = words[max(start - 2, 0) : start], words[at + wide : at + wide + 1]
    moment = lead[-1:] == ["of"] and lead[0] in _MOMENTS
    when = lead[-1:] != [] and lead[-1] in _WHEN
    joined = start > 1 and lead[-1] == "and" and not _WHEN.isdisjoint(words[:start])
    goes_on = start == 0 and behind != [] and (behind[0] in _TAKING_TIME or behind[0] in _BEGUN_OR_OVER)
    ended = behind == [] or behind[0] in _BEHIND_A_STEP
    return goes_on or (ended and (moment or when or joined))


_MOMENTS = listed("steps", "moments")
_WHEN = frozenset("after before during following until since throughout between upon to than as".split())
_TAKING_TIME = frozenset("lasts lasting takes taking precedes follows".split())
_BEHIND_A_STEP = (
    _BEGUN_OR_OVER
    | _TAKING_TIME
    | frozenset("and or , but is has step at for within by with when while not".split())
)


def with_condition_behind_step(tokens: Tokens, step: Subject) -> Tokens:
    """`if the pressure exceeds 2 bar, rinsing the reed`, `if so, the reed is rinsed`, with the condition
    behind what is carried out; `the rinsing is not carried out` as omitted."""
    words, name = [word_of(t) for t in tokens], step.text.lower().split()
    lead = next((run for run in _CONDITIONS if words[: len(run)] == run), [])
    if not lead and (doing := _done_on_condition(tokens, name)):
        return doing
    for comma in (i for i in range(len(words) - 1, len(lead) + 1, -1) if lead and words[i] == ","):
        start = comma + 1 + (words[comma + 1 : comma + 2] == ["then"])
        behind = start + (words[start : start + 1] in (["the"], ["said"]))
        rest, said = tokens[start:], words[start:]
        at = next((i for i in range(1, len(said) - 1) if said[i - 1] in _IS_DONE), 0)
        if len(name) == 1 and at and is_participle(said[at]) and form_of(said[at]) == form_of(name[0]):
            # 'if so, the element is covered for 3 days'
            if _is_plain_object(said[: at - 1]):
                return (*tokens[:start], *words_at(rest[at], step.text), *rest[: at - 1], *rest[at + 1 :])
            continue
        if words[behind : behind + len(name)] == name:
            rest, end = tokens[behind:], len(name)
        elif (
            not said or not is_participle(said[-1]) or form_of(said[-1]) != form_of(name[-1]) or len(name) > 1
        ):
            continue
        else:
            end = 0
        said = [word_of(t) for t in rest]
        be = next((i for i in range(end, len(said)) if said[i] in _IS_DONE), len(said))
        denied = said[be + 1 : be + 2] == ["not"]
        done = said[be + 1 + denied :]
        if any(t.sort != "word" for t in rest) or not _is_plain_object(said[end:be]):
            continue
        if done not in ([], *DONE, *LEFT_OUT) if end else len(done) != 1:
            continue
        left_out = denied != (done in LEFT_OUT)
        condition = tokens[:comma]
        if denied and done in LEFT_OUT:
            continue
        own = rest[:end] or tuple(words_at(rest[-1], step.text))
        how = words_at(rest[-1], "omitted" if left_out else "carried out")
        return (*own, *rest[end:be], *how, *condition)
    return tokens


def _done_on_condition(tokens: Tokens, name: list[str]) -> Tokens:
    """`covering the element if the ambient temperature is below 5 degC` as covering it carried out if so."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words)) if any(words[i : i + len(c)] == c for c in _CONDITIONS)), 0)
    end = len(name) * (words[: len(name)] == name)
    if not end or at <= end + 1 or not _is_plain_object(words[end:at]):
        return ()
    return (*tokens[:at], *words_at(tokens[at], "carried out"), *tokens[at:])


def _is_plain_object(said: list[str]) -> bool:
    """`the probe` behind what is done to it; nothing."""
    return not said or (said[0] in ("the", "a", "an", "said", "it") and len(said) <= _LONGEST_OBJECT)


_LONGEST_OBJECT = 4
_IS_DONE = frozenset("is are being".split())
_CONDITIONS = runs_in_order("steps", "on_condition")


def _so_long_thereafter(tokens: Tokens, names: list[list[str]]) -> Tokens:
    """`at the latest 5 minutes thereafter`, of two steps, as the second so long after the first.

    Where one is named that is the second one: `drying and, within 10 min thereafter, coating`.
    """
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words)) if words[i] in _THEREAFTER and tokens[i - 1].number), 0)
    if len(names) != 2 or not at:
        return tokens
    start = at
    while start and (tokens[start - 1].number or words[start - 1] in _LIMITING_A_TIME):
        start -= 1
    start += words[start] == "and"
    said = [w for w in (*words[:start], *words[at + 1 :]) if w not in _BESIDE]
    first, second = names
    begun = said[-1:] if said[-1:] and said[-1] in _BEGUN_OR_OVER and at + 1 == len(words) else []
    if said not in (begun, [*second, *begun], [*first, *second, *begun]):
        return tokens
    name = words_at(tokens[0], " ".join((*second, *begun)), understood=True)
    after = words_at(replace(tokens[at], end=tokens[-1].end), f"after the {' '.join(first)}")
    return (*name, *tokens[start:at], *after)


_THEREAFTER = ("thereafter", "afterwards", "afterward", "later")
_LIMITING_A_TIME = frozenset(
    "at the latest earliest within most least no not more less later earlier than sooner longer between from"
    " to and about approximately around exactly some only".split()
)


_OVER = [
    [*be, word]
    for be in (["has", "been"], ["have", "been"], ["is"], ["are"], ["has"], ["have"])
    for word in ("finished", "completed", "complete", "ended", "over", "concluded", "terminated")
]
_JOINTS_OR = frozenset("and or not , is are".split())


def _while_it_goes_on(tokens: Tokens) -> Tokens:
    """`while the dough is resting` as while resting."""
    words = [word_of(t) for t in tokens]
    at = words.index("while") if "while" in words else len(words)
    verb = next((i for i in range(at + 3, min(len(words) - 1, at + 6)) if words[i] in ("is", "are")), 0)
    goes_on = verb and words[at + 1] in ("the", "a", "an", "said") and words[-1].endswith("ing")
    plain = goes_on and verb == len(words) - 2 and all(t.sort == "word" for t in tokens[at:])
    return (*tokens[: at + 1], tokens[-1]) if plain else tokens


def _uninterrupted(tokens: Tokens, subject: Subject) -> Tokens:
    """`for at least 8 minutes without interruption`, `for at least 8 consecutive minutes`, as both things; of
    a step that has no pauses as for so long."""
    words, own = [word_of(t) for t in tokens], subject.text.lower().split()
    at, run = next(
        ((i, run) for run in _WITHOUT_PAUSE for i in range(len(words)) if words[i : i + len(run)] == run),
        (-1, [""]),
    )
    if at < 0 or words[:2] == ["continuously", "and"] or not isinstance(subject.bound, Step):
        return tokens
    rest = (*tokens[:at], *tokens[at + len(run) :])
    start = int(word_of(rest[0]) == "the") if rest else 0
    start = start + len(own) if [word_of(t) for t in rest[start : start + len(own)]] == own else 0
    while start < len(rest) and word_of(rest[start]) in ("is", "continued", "continues", "performed"):
        start += 1
    rest = rest[start:]
    if not any(t.number for t in rest):
        return tokens
    started = words_at(rest[0], "for", understood=True) if word_of(rest[0]) not in ("for", "lasting") else ()
    both = words_at(tokens[at], "continuously and") if subject.bound.pausing else ()
    return (*both, *started, *rest)


_WITHOUT_PAUSE = [
    ["without", "interruption"], ["an", "uninterrupted", "period", "of"], ["a", "continuous", "period", "of"],
    ["uninterrupted"], ["uninterruptedly"], ["continuously"], ["consecutive"],
]  # fmt: skip


def _without_reached(tokens: Tokens) -> Tokens:
    """`until a moisture of below 5 % is reached` as until a moisture of below 5 %."""
    words = [word_of(t) for t in tokens]
    reached = words[-1:] and words[-1] in ("reached", "achieved", "obtained", "attained")
    verb = 1 if words[-2:-1] == ["is"] else 2 if words[-3:-1] == ["has", "been"] else 0
    return tokens[: -1 - verb] if reached and verb and "until" in words else tokens


def with_steps_named(tokens: Tokens, subjects: tuple[Subject, ...], names: Names) -> Tokens:
    """`steps (a) and (b)`, `step (a)` by the names of the steps whose notes have these letters."""
    words = [word_of(t) for t in tokens]
    found, at = list[Token](), 0
    while at < len(tokens):
        run = _letters(words, at + 1) if words[at] in ("step", "steps") else ()
        called = [names.step(f"step {letter}") for _, letter in run]
        if not run or None in called or not any(isinstance(s.bound, Step) or s.moments for s in subjects):
            found.append(tokens[at])
            at += 1
            continue
        for (end, _), step in zip(run, called, strict=True):
            found += (t for t in tokens[at:end] if word_of(t) in _JOINTS)
            found += words_at(replace(tokens[at], end=tokens[end - 1].end), step.name if step else "")
            at = end
    return tuple(found)


_JOINTS = ("and", ",", "or", "to")


def _letters(words: list[str], at: int) -> tuple[tuple[int, str], ...]:
    """The letters of the steps named from here on, `(a), (b) and (c)`, each with where it ends."""
    found = list[tuple[int, str]]()
    while at < len(words):
        start = at + (words[at] in _JOINTS if found else 0)
        start += words[start : start + 2] == [",", "and"]
        opened = words[start : start + 1] == ["("]
        letter = words[start + opened : start + opened + 1]
        if not letter or len(letter[0]) > 2 or not letter[0].isalnum() or (found and start == at):
            break
        at = start + opened + 1
        at += words[at : at + 1] == [")"]
        found.append((at, letter[0]))
        if words[at : at + 1] not in (["and"], [","], ["or"]):
            break
    return tuple(found)


def with_order_told(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`comprising the steps of heating and cooling in any order` as in any order; other words as they are.

    Read as two phrases, the first would have an order that the second takes back.
    """
    several = len(subjects) > 1 and all(isinstance(s.bound, Step) for s in subjects)
    if not several or not _run_in([word_of(t) for t in tokens], "any_order"):
        return tokens
    return _in_this_order(tokens, tuple(s.text.lower().split() for s in subjects))


def _with_subsequent(tokens: Tokens, names: list[list[str]]) -> Tokens:
    """`a heating and a subsequent cooling` as a heating followed by a cooling."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 2):
        which = at + 1 + (words[at + 1] in ("a", "the"))
        named = any(words[which + 1 : which + 1 + len(n)] == n for n in names)
        if words[at] == "and" and words[which] in ("subsequent", "following") and named:
            return (*tokens[:at], *words_at(tokens[at], "followed by"), *tokens[which + 1 :])
    return tokens


def _without_step(tokens: Tokens, names: list[list[str]]) -> Tokens:
    """`before the cooling step`, `the step of heating` as before the cooling, the heating."""
    words = [word_of(t) for t in tokens]
    kept = list[Token]()
    for at, token in enumerate(tokens):
        named = any(words[max(0, at - len(n)) : at] == n for n in names)
        last = at == len(tokens) - 1 and at > 2 and words[at - 2] in ("the", "a", "said")
        if (words[at] == "step" and (named or last)) or (named and words[at] in _STAGES):
            continue
        kept.append(token)
    return tuple(kept)


_STAGES = ("phase", "stage")


def _with_no_step_done(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`no mixing is carried out before the heating` as the mixing not carried out before it."""
    words = [word_of(t) for t in tokens]
    name = next((n for s in subjects if words[1 : 1 + len(n := s.text.lower().split())] == n), [])
    end = 1 + len(name)
    if words[:1] != ["no"] or not name or words[end : end + 1] not in (["is"], ["carried"]):
        return tokens
    first = replace(tokens[1], start=tokens[0].start)
    denied = words_at(tokens[end], "not", understood=True)
    return (first, *tokens[2:end], *denied, *tokens[end + (words[end] == "is") :])


def _going_on(tokens: Tokens) -> Tokens:
    """`begins while the heating is still going on` as while the heating."""
    words = [word_of(t) for t in tokens]
    run = next((r for r in _STILL if words[-len(r) :] == r), [])
    return tokens[: -len(run)] if run and "while" in words else tokens


_STILL = [
    [*verb, *still, *on]
    for verb in (["is"], ["are"])
    for still in ([], ["still"])
    for on in (["going", "on"], ["ongoing"], ["in", "progress"], ["under", "way"])
]


def _between_steps(tokens: Tokens) -> Tokens:
    """`between the heating and the cooling` as after the one and before the other."""
    words = [word_of(t) for t in tokens]
    at = words.index("between") if words.count("between") == 1 else None
    joined = [i for i in range((at or 0) + 2, len(words) - 1) if words[i] == "and"]
    if at is None or len(joined) != 1 or any(t.number for t in tokens):
        return tokens
    middle = joined[0]
    after, before = words_at(tokens[at], "after"), (tokens[middle], *words_at(tokens[middle], "before"))
    return (*tokens[:at], *after, *tokens[at + 1 : middle], *before, *tokens[middle + 1 :])


def _in_this_order(tokens: Tokens, names: tuple[list[str], ...]) -> Tokens:
    """`first heating, then mixing and finally cooling` as in this order, of these in this order.

    `Heating and cooling are carried out simultaneously` as simultaneously, in whichever order they are named.
    """
    words = [word_of(t) for t in tokens]
    any_order = _run_in(words, "any_order")
    told = any_order or _run_in(words, "at_once")
    this_order = _run_in(words, "this_order")
    run = told or this_order
    start = next((i for i in range(len(words)) if run and words[i : i + len(run)] == run), len(words))
    rest = words[:start] + words[start + len(run) :]
    named = [w for w in rest if w not in _BESIDE and w not in (() if told else _ORDERING)]
    own = [w for name in names for w in name]
    if told and (not named or sorted(named) == sorted(own)):
        return tuple(words_at(tokens[0], "in any order" if any_order else "simultaneously"))
    between = _run_in(rest, "none_between") if not told else []
    named = [w for w in named if w not in between]
    if between and named in ([], own):
        return tuple(words_at(tokens[0], "without an intermediate step"))
    ordered = bool(run) or not _ORDERING.isdisjoint(rest)
    if (ordered and named == own) or (this_order and not named):
        return tuple(words_at(tokens[0], "in this order"))
    opened = "comprising" in rest or "comprises" in rest
    return tuple(words_at(tokens[0], "comprising the steps of")) if opened and named == own else tokens


def _run_in(words: list[str], listed: str) -> list[str]:
    """The first listed run that stands in the words; [] for none."""
    found = (words[i : i + width] for i in range(len(words)) if (width := run_at(words, i, "steps", listed)))
    return next(found, [])


_ORDERING = listed("steps", "ordering")
_BESIDE = frozenset(
    "the a step steps and , of are is being be performed carried out effected conducted executed comprising"
    " comprises following take takes taking place wherein done".split()
)


def _of_two(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the heating and the cooling overlap` as the heating overlapping the cooling."""
    words, names = [word_of(t) for t in tokens], [s.text.lower() for s in subjects]
    at = next((i for i, w in enumerate(words) if w in ("overlap", "overlapping")), 0)
    lead = " ".join(
        w for w in words[:at] if w not in ("the", "do", "not", "at", "least", "partly", "partially")
    )
    both = lead in (f"{names[0]} and {names[1]}", f"{names[1]} and {names[0]}")
    behind = " ".join(words[at + 1 :]) in (
        "",
        "in time",
        "each other",
        "one another",
        "in part",
        "at least in part",
    )
    if len(subjects) != 2 or not at or not both or not behind:
        return tokens
    part = "at least" in " ".join(words)
    how = (
        "not overlapping" if "not" in words[:at] else "at least partly overlapping" if part else "overlapping"
    )
    return tuple(words_at(tokens[0], f"{names[0]} {how} {names[1]}"))


def _at_the_same_time(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the heating and the mixing end at the same time` as the one ending at the same time as the other."""
    pairs = ending_at_once(tokens, subjects)
    return pairs[0][0] if len(pairs) == 1 else tokens


def ending_at_once(tokens: Tokens, subjects: tuple[Subject, ...]) -> list[tuple[Tokens, int, int]]:
    """What says that all these steps begin, or end, at one moment, as said of each and the next."""
    words, names = [word_of(t) for t in tokens], [s.text.lower() for s in subjects]
    at = next((i for i, w in enumerate(words) if w in _BOTH_BEGIN_OR_END), 0)
    lead = [w for w in words[:at] if w not in ("the", "all", "both", "and", ",")]
    named = sorted(" ".join(lead).split()) == sorted(" ".join(names).split()) or lead == ["steps"]
    steps = len(subjects) > 1 and all(isinstance(s.bound, Step) for s in subjects)
    if not steps or not named or " ".join(words[at + 1 :]) not in _AT_ONCE:
        return []
    said = f"{_BOTH_BEGIN_OR_END[words[at]]} at the same time as"
    return [
        (tuple(words_at(tokens[0], f"{one} {said} {then}")), i, i + 1)
        for i, (one, then) in enumerate(pairwise(names))
    ]


_BOTH_BEGIN_OR_END = {"begin": "begins", "start": "begins", "end": "ends", "stop": "ends", "finish": "ends"}
_AT_ONCE = ("at the same time", "simultaneously", "together", "at once", "at the same moment", "concurrently")


def _time_between(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`a pause of 5 to 10 min between the heating and the cooling` as the cooling 5 to 10 min after it."""
    words, names = [word_of(t) for t in tokens], [s.text.lower().split() for s in subjects]
    places = sorted((i, n) for n in names for i in range(len(words)) if words[i : i + len(n)] == n)
    if len(subjects) != 2 or len(places) != 2 or not any(t.number for t in tokens):
        return tokens
    (at, first), (to, second) = places
    between = " ".join(words[at + len(first) : to]) in ("and", "and the")
    lead = [w for w in words[:at] if w not in ("the", "a", "an")]
    behind = tokens[to + len(second) :]
    if between and lead[-1:] == ["between"] and lead[0] in _PAUSES:
        inside = tokens[words.index(lead[0]) + 1 : words.index("between")]
        told_inside = any(t.number for t in inside)
        if told_inside and any(t.number for t in behind):
            return tokens
        limit = inside if told_inside else behind
    elif between and not lead and [word_of(t) for t in behind[:3]] == ["are", "separated", "by"]:
        limit = behind[3:]
    else:
        return tokens
    while limit and word_of(limit[0]) in ("of", "is", "lies", "being"):
        limit = limit[1:]
    while limit and word_of(limit[-1]) in ("is", "lies", "elapses", "passes"):
        limit = limit[:-1]
    if not limit:
        return tokens
    one = tokens[to : to + len(second)]
    return (*one, *limit, *words_at(limit[-1], "after"), *tokens[at : at + len(first)])


_PAUSES = ("pause", "period", "time", "interval", "delay", "break", "gap")


def _lasting(tokens: Tokens, own: list[str]) -> Tokens:
    """`the duration of the heating is 10 min`, `a heating time of 10 min` as lasting so long."""
    words = [word_of(t) for t in tokens]
    start = int(words[:1] in (["the"], ["a"], ["an"], ["with"], ["having"], ["has"]))
    start += words[start : start + 1] in (["the"], ["a"], ["an"])
    for noun in ("duration", "time", "period", "length"):
        of_it = [noun, "of", *own], [noun, "of", "the", *own]
        for run in (*of_it, [*own, noun], [noun]):
            end = start + len(run)
            verb = words[end : end + 1] and words[end] in ("is", "being", "of", "lies", "amounts")
            alone = run != [noun] or (noun == "duration" and words[end : end + 1] == ["of"])
            if words[start:end] == run and verb and alone and end + 1 < len(words):
                return (*words_at(tokens[0], "lasting"), *tokens[end + 1 :])
    ranged = words[:1] == ["over"] and sum(t.number is not None for t in tokens) > 1
    limit = next((words[1 : 1 + len(run)] for run in _NO_LONGER if words[1 : 1 + len(run)] == run), [])
    so_long = words[:1] in (["in"], ["over"]) and limit and len(words) == len(limit) + 2
    if ranged or so_long or words[:3] == ["in", "less", "than"] or words[:2] == ["in", "from"]:
        return (*words_at(tokens[0], "lasting"), *tokens[1:])
    return tokens


_NO_LONGER = [
    run.split() for run in ("at most", "no more than", "not more than", "no longer than", "up to", "at least")
]


def with_periods_named(tokens: Tokens, names: list[list[str]]) -> Tokens:
    """`the filtration period` of a step called filtering as the filtering: how long that takes."""
    words, found, at = [word_of(t) for t in tokens], list[Token](), 0
    while at < len(tokens):
        name = next((n for n in names if _is_a_period(words, at, n)), None)
        wide = len(name) + 1 if name else 1
        own = (
            words_at(replace(tokens[at], end=tokens[at + wide - 1].end), " ".join(name))
            if name
            else tokens[at : at + 1]
        )
        found += own
        at += wide
    return tuple(found)


def _is_a_period(words: list[str], at: int, name: list[str]) -> bool:
    """`filtration period`, `backwash time` of filtering, backwashing."""
    noun, behind = words[at : at + len(name)], words[at + len(name) : at + len(name) + 1]
    return behind in (["period"], ["time"], ["duration"]) and (noun == name or calls(noun, name))


def _for_a_period(tokens: Tokens, name: list[str]) -> Tokens:
    """`for a filtration period of 8 min` of the filtering as for a period so long; `the filtration period is
    8 min` as lasting so long."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words)) if _is_a_period(words, i, name)), 0)
    end = at + len(name) + 1
    if at == 1 and words[0] in ("a", "the", "said") and words[end : end + 1] in (["of"], ["is"], ["being"]):
        return (*words_at(replace(tokens[0], end=tokens[end].end), "lasting"), *tokens[end + 1 :])
    if not at or words[at - 1] not in ("a", "the", "said") or words[at - 2 : at - 1] not in (["for"], []):
        return tokens
    return (*tokens[:at], *tokens[at + len(name) :])


def as_durations(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What compares how long steps last as said of their durations; () for other words.

    `The heating lasts at least twice as long as the cooling` as the duration of heating is at least twice
    the duration of cooling; so `lasts at least twice as long as the cooling`, of the first of two.
    """
    steps = [(s.text.lower().split(), s.bound) for s in subjects if isinstance(s.bound, Step)]
    said = with_periods_named(tokens, [name for name, _ in steps])
    named_so, tokens = said != tokens, said
    words = [word_of(t) for t in tokens]
    lasting = named_so or not _LASTING.isdisjoint(words)
    if len(subjects) < 2 or len(steps) < len(subjects) or not lasting or not _TELLING_WHEN.isdisjoint(words):
        return ()
    found, at, named = list[Token](), 0, set[str]()
    while at < len(tokens):
        own = next((n for n in steps if words[at : at + len(n[0])] == n[0]), None)
        if own is not None:
            last = tokens[at + len(own[0]) - 1]
            found += words_at(replace(tokens[at], end=last.end), own[1].duration)
            named.add(own[1].name)
            at += len(own[0])
            at += at < len(tokens) and words[at] in _NOUNS
            continue
        noun = words[at] in _NOUNS and words[at + 1 : at + 2] in (["of"], ["than"], ["for"])
        behind = words[at + 1 : at + 2] == ["time"] and words[at + 2 : at + 3] == ["than"]
        word = _LONGER.get(words[at], words[at]) if behind else _IS.get(words[at], words[at])
        if not noun:
            found.append(replace(tokens[at], text=word) if word != words[at] else tokens[at])
        at += 1 + (noun and words[at + 1] != "than")
    compared = named_so and not _COMPARED_LENGTHS.isdisjoint(words[:2])
    of_first = len(steps) == 2 and (words[0] in _IS or compared) and steps[0][1].name not in named
    if of_first:
        found = [*words_at(tokens[0], steps[0][1].duration, understood=True), *found]
    return with_runs(tuple(found), "duration_runs") if of_first or len(named) == len(steps) else ()


_COMPARED_LENGTHS = frozenset("longer shorter".split())
_TELLING_WHEN = frozenset("before after until within during apart then followed start end".split())
_NOUNS = ("duration", "durations", "time", "times", "length", "lengths")
_LASTING = frozenset("lasts last lasting takes take taking longer shorter".split()) | set(_NOUNS)
_LONGER = {"less": "shorter", "more": "longer"}
_IS = {"lasts": "is", "takes": "is", "last": "are", "take": "are", "lasting": "being", "taking": "being"}
