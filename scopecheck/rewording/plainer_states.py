"""What is said of states, `enters the sleep mode`, and of what a controller does when, said more plainly.

`plainer.py` uses it where nothing reads the words. What would be misread as it stands is said otherwise
before that: `only` before a verb, what is permitted or prohibited, a value at which a state changes.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl
from scopecheck.core.formula import OTHERS
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Number, Token
from scopecheck.matching.chart import GOVERNING, word_of
from scopecheck.matching.states import INTO, OUT_OF, nouns_in, opposite_states, side_words, state_of
from scopecheck.matching.subjects import Subject
from scopecheck.matching.whichever import with_the_first
from scopecheck.occurrences.readings import is_switch

Tokens = tuple[Token, ...]
_ARTICLES = frozenset(("a", "an", "the", "its", "said"))
STATES = frozenset("mode state position configuration setting phase".split())
_INTO = (
    *(tuple(run) for run in INTO),
    *map(tuple, runs_in_order("switching", "into")),
)
_CHOSEN = ("selected", "chosen", "activated", "active", "used", "entered", "adopted", "set")
_FINITE = {
    "dropping": "drops", "falling": "falls", "exceeding": "exceeds", "rising": "rises", "reaching": "reaches",
    "being": "is", "becoming": "becomes", "decreasing": "decreases", "increasing": "increases",
    "remaining": "remains", "having": "has",
}  # fmt: skip


def when_in_response(tokens: Tokens) -> Tokens:
    """`in response to the voltage dropping below 3 V` as when the voltage drops below 3 V."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words) - 4) if words[i : i + 3] == ["in", "response", "to"]), None)
    if at is None:
        return tokens
    verb = next((i for i in range(at + 4, len(words)) if words[i] in _FINITE), 0)
    plain = verb and all(t.sort == "word" for t in tokens[at:verb])
    conditions = GOVERNING | {"only", "as"}
    if not plain or not conditions.isdisjoint(words[at + 3 : verb]):
        return tokens
    when = replace(tokens[at], text="when", end=tokens[at].start)
    behind = replace(tokens[verb], text=_FINITE[words[verb]])
    return (*tokens[:at], when, *tokens[at + 3 : verb], behind, *tokens[verb + 1 :])


def in_mode(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`enters the sleep mode`, `the sleep mode is selected`, of a mode, as that it is sleep."""
    for one in subjects:
        members = _members(one)
        for run in members:
            for at in range(len(tokens) - len(run) + 1 if len(run) else 0):
                found = _in_mode(tokens, at, run, one.text.lower())
                if found:
                    return _or_in_another(found, members, one.text.lower())
    return tokens


def _or_in_another(tokens: Tokens, members: list[list[str]], name: str) -> Tokens:
    """`is sleep or the idle mode` as is sleep or idle."""
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(1, len(words) - 3) if words[i] == "or" and words[i + 1] in _ARTICLES):
        run = next((m for m in members if words[at + 2 : at + 2 + len(m)] == m), [])
        end = at + 2 + len(run)
        if run and words[end : end + 1] != [] and words[end] in (*STATES, name):
            return (*tokens[: at + 1], *tokens[at + 2 : end], *tokens[end + 1 :])
    return tokens


def _in_mode(tokens: Tokens, at: int, run: list[str], name: str) -> Tokens:
    """The words with what is said of the state that begins here; none where nothing is."""
    words, end = [word_of(t) for t in tokens], at + len(run)
    noun = words[end : end + 1] != [] and words[end] in (*STATES, name)
    if words[at:end] != run or not (noun or name.split()[-1] in STATES):
        return ()  # the name itself is left out before
    start, behind = at - (at > 0 and words[at - 1] in _ARTICLES), end + noun
    into = next((r for r in _INTO if tuple(words[max(start - len(r), 0) : start]) == r), ())
    out = next((r for r in OUT_OF if words[max(start - len(r), 0) : start] == r), [])
    if out:
        return (
            *_words("is not", tokens[start - len(out)], tokens[start - 1]),
            *tokens[at:end],
            *tokens[behind:],
        )
    chosen = words[behind : behind + 1] == ["is"] and words[behind + 1 : behind + 2] != []
    if bool(into) == (chosen and words[behind + 1] in _CHOSEN):
        return ()
    begin, stop = (start - len(into), behind) if into else (start, behind + 2)
    is_so = replace(tokens[begin], text="is", end=tokens[begin].start)
    return (*tokens[:begin], is_so, *tokens[at:end], *tokens[stop:])


def _members(one: Subject) -> list[list[str]]:
    declared = one.bound.members if isinstance(one.bound, ChoiceDecl) else ()
    return [m.lower().split() for m in declared if m != OTHERS]


def states_plainly(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What is so under a condition, and the condition, said more plainly."""
    tokens = when_in_response(with_if_so(with_the_first(tokens)))
    tokens = without_to_before_limit(with_value_passed(tokens))
    if len(subjects) < 2:
        return tokens
    tokens = with_threshold_named(with_difference_of_both(tokens, subjects), subjects)
    tokens = with_those_in_which(tokens, subjects)
    tokens = without_what_makes_it(with_only_if_behind(tokens, subjects), subjects)
    tokens = with_state_beside(tokens, subjects)
    return with_limit_of_named(
        with_condition_behind_value(with_when_behind_state(tokens, subjects), subjects), subjects
    )


def _words(said: str, at: Token, to: Token | None = None) -> Tokens:
    """These words in the place of what stands from one to the other; before the one if there is no other."""
    texts = said.split()
    ends = [*(at.start for _ in texts[1:]), to.end if to else at.start]
    return tuple(
        replace(at, sort="word", text=w, number=None, end=end) for w, end in zip(texts, ends, strict=True)
    )


def with_those_in_which(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`discards any window in which the noise exceeds 3 dB` as that it does so when it exceeds 3 dB."""
    words = [word_of(t) for t in tokens]
    if not is_switch(subjects[0].bound):
        return tokens
    for at in range(1, len(words) - 4):
        if words[at] not in _ANY or words[at + 2 : at + 4] not in _IN_WHICH or "not" in words[:at]:
            continue
        the, when = _words("the", tokens[at], tokens[at]), _words("when", tokens[at + 2], tokens[at + 3])
        return (*tokens[:at], *the, tokens[at + 1], *when, *tokens[at + 4 :])
    return tokens


_ANY = frozenset("any each every all those a an".split())
_IN_WHICH = (["in", "which"], ["for", "which"], ["at", "which"], ["of", "which"])


def with_when_behind_state(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`switches on below 18 °C and off above 22 °C`, of what is on or off, with `when` before each value."""
    states = {w for s in subjects if isinstance(s.bound, ChoiceDecl) for w in opposite_states(s.bound)}
    words, found = [word_of(t) for t in tokens], list[Token]()
    for at, token in enumerate(tokens):
        said = words[at - 1 - (words[at - 1 : at] == ["only"])] if at else ""
        if said in states and words[at] in ("above", "below", "over", "under", "between", "outside"):
            found += _words("when", token)
        found.append(token)
    return tuple(found)


_CARRIERS = frozenset("switch switches switched switching turn turns turned turning".split())


def with_if_so(tokens: Tokens) -> Tokens:
    """`determines whether the pressure exceeds 5 bar and, if so, issues an alarm` as a condition in front."""
    words = [word_of(t) for t in tokens]
    whether = next((i for i, w in enumerate(words[:4]) if w == "whether"), 0)
    so = next((i for i in range(whether + 2, len(words) - 2) if words[i : i + 2] == ["if", "so"]), 0)
    if not whether or not so or words[whether - 1] not in _ASKING:
        return tokens
    end = so
    while words[end - 1] in (",", ";", "and"):
        end -= 1
    rest = so + 2 + (words[so + 2] == ",")
    comma = replace(tokens[so], sort="mark", text=",", end=tokens[so].start)
    return (
        *_words("if", tokens[whether], tokens[whether]),
        *tokens[whether + 1 : end],
        comma,
        *tokens[rest:],
    )


_ASKING = listed("switching", "asking")


def without_to_before_limit(tokens: Tokens) -> Tokens:
    """`drops to 5 bar or less`, `has fallen to 5 bar or less`, as is 5 bar or less."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 4):
        come = words[at] in _COME and words[at - 1 : at] in (["has"], ["have"])
        said = (come or words[at] in _COMES) and words[at + 1] == "to" and tokens[at + 2].number
        if said and words[at + 3] == "or" and words[at + 4] in _OR_SO:
            start = at - come
            return (*tokens[:start], *_words("is", tokens[start], tokens[at + 1]), *tokens[at + 2 :])
    return tokens


_COME = listed("switching", "come")
_COMES = listed("switching", "comes")
_OR_SO = frozenset("less lower below more higher above greater over under fewer".split())


def with_threshold_named(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`a predetermined pressure threshold`, `the threshold value`, as the threshold left of the colon."""
    names = [n for s in subjects if (n := s.text.lower().split())[-1] in _VALUES]
    if len(names) != 1:
        return tokens
    (name,) = names
    others = {w for s in subjects for w in s.text.lower().split()}
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(2, len(words)) if words[i] == name[-1]):
        start = next((i for i in range(at - 1, max(at - 5, -1), -1) if words[i] in _ARTICLES), at)
        between = words[start + 1 : at]
        end = at + 1 + (words[at + 1 : at + 2] == ["value"])
        known = set(between) <= others | _SET_BEFORE and set(name[:-1]) <= set(between)
        if start < at and known and (len(between) > len(name) - 1 or end > at + 1):
            run = _words(" ".join(name), tokens[start + 1], tokens[end - 1])
            return (*tokens[: start + 1], *run, *tokens[end:])
    return tokens


_SET_BEFORE = listed("switching", "set_before")


def with_difference_of_both(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the pressure difference between the inlet pressure and the outlet pressure` without the first word."""
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(1, len(words) - 1) if words[i] == "difference"):
        both = sum(words[at - 1] in s.text.lower().split() for s in subjects) > 1
        if both and words[at + 1] in ("between", "of"):
            return (*tokens[: at - 1], *tokens[at:])
    return tokens


def with_only_if_behind(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`only if the load is at least 50 kg does the speed exceed 2 m/s`, the condition behind."""
    words = [word_of(t) for t in tokens]
    if words[:1] != ["only"] or words[1:2] not in (["if"], ["when"]):
        return tokens
    for one in subjects:
        name = one.text.lower().split()
        for at in range(3, len(words) - len(name) - 2):
            first = at + 1 + (words[at + 1] in _ARTICLES)
            behind = first + len(name)
            if words[at] not in ("does", "do", "is", "are") or words[first:behind] != name:
                continue
            verb = () if words[at] in ("does", "do") else tokens[at : at + 1]
            return (*tokens[at + 1 : behind], *verb, *tokens[behind:], *tokens[:at])
    return tokens


def with_state_beside(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at most 5 bar with the valve closed`, `in the closed position of the valve`, as when it is closed."""
    words = [word_of(t) for t in tokens]
    for one in subjects:
        states, nouns = side_words(one.bound, one.text), nouns_in(one.bound, one.text)
        for at in range(len(words) - len(nouns) - 2 if states and nouns else 0):
            the, state, after = _state_of_noun(words, at, nouns)
            if after and words[state] in states:
                noun = tokens[the : the + 1 + len(nouns)]
                return (*tokens[:at], *_when(tokens[at], noun, tokens[state]), *tokens[after:])
    return tokens


def _state_of_noun(words: list[str], at: int, nouns: list[str]) -> tuple[int, int, int]:
    """Where the noun's article and the word for its state stand, and what follows these words begins.

    Zeros where no `upon ... of the valve`, `with the valve ...`, `in the ... position of the valve` is here.
    """
    wide, placed = len(nouns), words[at] == "in" and words[at + 1] in _ARTICLES
    if words[at] == "with" and words[at + 1] in _ARTICLES and words[at + 2 : at + 2 + wide] == nouns:
        state = at + 2 + wide + (words[at + 2 + wide : at + 3 + wide] == ["being"])
        told = state < len(words) and words[state + 1 : state + 2] in _ENDS
        return (at + 1, state, state + 1) if told else (0, 0, 0)
    if placed and words[at + 3 : at + 4] != [] and words[at + 3] in STATES:
        state, the = at + 2, at + 5
    elif words[at] in ("upon", "on"):
        state, the = at + 1, at + 3
    else:
        return 0, 0, 0
    of_it = words[the - 1 : the + 1] == ["of", "the"] and words[the + 1 : the + 1 + wide] == nouns
    return (the, state, the + 1 + wide) if of_it else (0, 0, 0)


def without_what_makes_it(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`causes the valve to open` as that it opens, `prevents the valve from opening` as that it does not."""
    words = [word_of(t) for t in tokens]
    for one in subjects:
        states, nouns = side_words(one.bound, one.text), nouns_in(one.bound, one.text)
        for at in range(len(words) - len(nouns) - 3 if states and nouns else 0):
            end = at + 2 + len(nouns)
            if words[at + 1] not in _ARTICLES or words[at + 2 : end] != nouns or words[end + 1] not in states:
                continue
            first = next((i + 1 for i in range(at - 1, -1, -1) if words[i] in (",", "and", "to", *_WHEN)), 0)
            if not all(t.sort == "word" for t in tokens[first:at]) or not _DENYING.isdisjoint(
                words[first:at]
            ):
                continue  # 'does not prevent the valve from opening' leaves it open
            if words[at] in _MAKES and words[end] == "to":
                return (*tokens[:first], *tokens[at + 1 : end], *tokens[end + 1 :])
            if words[at] in _PREVENTS and words[end] == "from":
                denied = _words("is not", tokens[end], tokens[end])
                return (*tokens[:first], *tokens[at + 1 : end], *denied, *tokens[end + 1 :])
    return tokens


_MAKES = listed("switching", "making")


def _when(at: Token, noun: Tokens, state: Token) -> Tokens:
    """`when the valve is closed`, of these words for the valve and its state."""
    return (*_words("when", at, at), *noun, *_words("is", state), state)


_ENDS: tuple[list[str], ...] = ([], [","], ["and"])


def with_value_passed(tokens: Tokens) -> Tokens:
    """`a pressure of 5 bar is exceeded` as a pressure exceeds it; `reaching a pressure of 5 bar` as that."""
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(len(words) - 4) if words[i] in _PASSING and words[i + 1] in _ARTICLES):
        of = next((i for i in range(at + 3, min(at + 6, len(words) - 1)) if words[i] == "of"), 0)
        if of and tokens[of + 1].number and all(t.sort == "word" for t in tokens[at:of]):
            return (*tokens[: at + 1], *tokens[of + 1 :])
    for at in range(2, len(words)):
        verb, begin = _PASSED.get(words[at], ""), at
        while verb and words[begin - 1] in ("is", "are", "has", "have", "been", "not", "being"):
            begin -= 1
        if not verb or begin == at or not tokens[begin - 1].number:
            continue
        if "not" in words[begin:at]:
            verb = _DENIED[verb]
        start, noun = begin - 1, Tokens()
        if words[at] == "elapsed" and words[begin - 2] in ("than", "least"):
            return (*tokens[:begin], *tokens[at + 1 :])
        if words[begin - 2] == "of":
            start = next(
                (i for i in range(begin - 3, max(begin - 8, -1), -1) if words[i] in _ARTICLES), begin - 1
            )
            noun = tokens[start : begin - 2]
            noun = () if words[begin - 3] in _VALUES else noun
        return (
            *tokens[:start],
            *noun,
            *_words(verb, tokens[begin - 1]),
            tokens[begin - 1],
            *tokens[at + 1 :],
        )
    return tokens


_PASSING = frozenset("reaching exceeding attaining surpassing".split())
_PASSED = {
    **dict.fromkeys(("elapsed", "reached", "attained", "achieved", "obtained", "hit"), "reaches"),
    **dict.fromkeys(("exceeded", "surpassed", "overshot", "overstepped"), "exceeds"),
    "undershot": "falls below",
}
_DENIED = {
    "reaches": "does not reach",
    "exceeds": "does not exceed",
    "falls below": "does not fall below",
}


def with_measure_passed(tokens: Tokens, of_several: bool) -> Tokens:
    """`once it reaches a pressure of 5 bar` as once it has a pressure reaching 5 bar; of one thing as that
    `the boiler pressure` reaches it."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 4):
        verb = next((v for v, said in _PASSES.items() if words[at] in said), "")
        of = next((i for i in range(at + 3, min(at + 6, len(words) - 1)) if words[i] == "of"), 0)
        measure = of and words[at + 1] in ("a", "an") and tokens[of + 1].number
        if (
            not verb
            or not measure
            or words[of - 1] in _VALUES
            or any(t.sort != "word" for t in tokens[at:of])
        ):
            continue
        begin = at - (words[at - 1 : at] in (["has"], ["have"], ["had"]))
        behind = (*_words(verb, tokens[of]), *tokens[of + 1 :])
        if of_several:
            return (*tokens[:begin], *_words("has", tokens[begin], tokens[at]), *tokens[at + 1 : of], *behind)
        bearer = () if words[:begin] in ([], ["it"], ["which"], ["that"]) else tokens[:begin]
        return (*bearer, *tokens[at + 2 : of], *behind)
    return tokens


_VALUES = frozenset("threshold limit value setpoint".split())
_PASSES = {
    "reaching": ("reaches", "reach", "reached", "attains", "attained", "achieves", "achieved"),
    "exceeding": ("exceeds", "exceeded"),
}


def with_condition_behind_value(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`above a load of 50 kg`, `from a load of 50 kg upwards`, as at one of more than, of at least 50 kg."""
    words = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects[1:]] + [subjects[0].text.lower().split()]
    for at in range(len(words) - 4):
        lead = next((r for r in _BESIDE if words[at : at + len(r.split())] == r.split()), "")
        first = at + len(lead.split())
        if not lead or words[first : first + 1] not in (["a"], ["an"]):
            continue
        for name in names:
            of = first + 1 + len(name)
            if words[first + 1 : of] != name or words[of : of + 1] != ["of"] or of + 1 >= len(tokens):
                continue
            number, end = tokens[of + 1], of + 2
            if not number.number or words[end : end + 1] in (["to"], ["-"], ["–"], ["or"]):
                continue
            up = words[end : end + 1] in (["upwards"], ["upward"], ["on"], ["onwards"])
            if lead in ("from", "starting from", "starting at") or up:
                end += up
            said = _words("at", tokens[at], tokens[at])
            limit = _words(f"of {_BESIDE[lead]}", tokens[of])
            return (*tokens[:at], *said, *tokens[first:of], *limit, number, *tokens[end:])
    return tokens


_BESIDE = {
    "starting from": "at least", "starting at": "at least", "from": "at least", "up to": "at most",
    "above": "more than", "over": "more than", "beyond": "more than", "below": "less than",
    "under": "less than",
}  # fmt: skip


def with_limit_of_named(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`limits the speed to 2 m/s` as the speed is limited to it; `prevents the speed from exceeding it`.

    `A valve reduces the speed to 2 m/s` as the speed is 2 m/s, without what does it.
    """
    words = [word_of(t) for t in tokens]
    for one in subjects:
        name = one.text.lower().split()
        for at in range(1, len(words) - len(name) - 1):
            end = at + len(name)
            if words[at:end] != name or isinstance(one.bound, ChoiceDecl):
                continue
            begin = at - (words[at - 1] in _ARTICLES)
            verb = words[begin - 1] if begin else ""
            if begin > 1 and verb not in _BRINGS and words[begin - 2] in _NOT_SO:
                continue  # what is not limited need not be beyond that
            if verb in listed("limits", "caps") | _BRINGS and words[end] == "to":
                caps = tokens[end + 1].number and verb not in _BRINGS  # not 'to at most 2 m/s'
                limited = _words("is limited to" if caps else "is", tokens[end], tokens[end])
                first = _begin_of_what_does_it(tokens, begin - 1)
                return (*tokens[:first], *tokens[begin:end], *limited, *tokens[end + 1 :])
            if verb in _PREVENTS and words[end : end + 2] == ["from", "exceeding"]:
                limited = _words("does not exceed", tokens[end], tokens[end + 1])
                return (*tokens[: begin - 1], *tokens[begin:end], *limited, *tokens[end + 2 :])
    return tokens


def _begin_of_what_does_it(tokens: Tokens, verb: int) -> int:
    """Where `the delay valve` begins that stands before its verb; where the verb is if nothing does."""
    words = [word_of(t) for t in tokens[:verb]]
    start = next((i for i in range(verb - 1, max(verb - 5, -1), -1) if words[i] in _ARTICLES), verb)
    led = start == 0 or words[start - 1] in (",", "and", "then")
    plain = all(t.sort == "word" for t in tokens[start:verb]) and _DENYING.isdisjoint(words[start:verb])
    return start if led and plain else verb


_NOT_SO = frozenset("not never no nor may can cannot hardly rarely without".split())
_DENYING = _NOT_SO | frozenset("does do must should only".split())


_BRINGS = listed("switching", "bringing")
_PREVENTS = listed("switching", "keeping_from")


def with_only_behind_state(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`only opens if the pressure exceeds 5 bar`, of what is open or not, as opens only if it does."""
    words = [word_of(t) for t in tokens]
    states = {w for s in subjects for w in side_words(s.bound, s.text)} if len(subjects) > 1 else set[str]()
    for at in (i for i, w in enumerate(words) if w in _ONLY):
        then = next((i for i in range(at + 1, min(at + 6, len(words))) if words[i] in _CONDITIONS), 0)
        between = words[at + 1 : then]
        its = between and between[0] not in _ARTICLES  # 'only the pump runs' says which one does
        if then and its and not states.isdisjoint(between) and states | _MAY_STAND >= set(between):
            return (*tokens[:at], *tokens[at + 1 : then], replace(tokens[at], text="only"), *tokens[then:])
    return tokens


_CONDITIONS = frozenset("if when where while once as at above below upon".split())
_MAY_STAND = frozenset("is are be in the to position state switched turned switches turns".split()) | {
    "does", "not",
}  # fmt: skip


def with_neither_place(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`opens neither below 2 bar nor above 5 bar`, `is open at neither 2 nor 5 bar`, as not open there."""
    words = [word_of(t) for t in tokens]
    if len(subjects) < 2 or "neither" not in words or "nor" not in words:
        return tokens
    at = words.index("neither")
    nor = words.index("nor")
    states = {w for s in subjects for w in side_words(s.bound, s.text)}
    place = at - (words[at - 1] in PLACING)
    if not (0 < place < nor and at < nor) or states.isdisjoint(words[:place]) or "not" in words[:place]:
        return tokens
    if not _OPENING.isdisjoint(words[:place]) or any(t.number for t in tokens[:place]):
        return tokens
    either = replace(tokens[nor], text="or")
    behind = (*tokens[place:at], *tokens[at + 1 : nor], either, *tokens[nor + 1 :])
    return (*tokens[:place], replace(tokens[at], text="not"), *behind)


PLACING = ("at", "for", "during", "upon", "under", "with", "in")
_OPENING = frozenset("only if when where while unless until once at of for with in during".split())


def with_either_of_one(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least 2 mm for both copper and zinc`, of what is one of these, as for copper or zinc."""
    words = [word_of(t) for t in tokens]
    for thing in subjects[1:]:
        if "and" not in words or is_switch(thing.bound):
            continue
        members = _members(thing)
        for at in (i for i, w in enumerate(words) if w == "and"):
            comma = words[at - 1] == ","
            before = [m for m in members if words[: at - comma][-len(m) :] == m]
            behind = [m for m in members if words[at + 1 : at + 1 + len(m)] == m]
            start = at - comma - max(map(len, before), default=0)
            whole = any(words[start : start + len(m)] == m for m in members if "and" in m)
            if not (before and behind) or whole or _BEFORE_ONE.isdisjoint(words[:start]):
                continue
            while start and (words[start - 1] == "," or any(words[:start][-len(m) :] == m for m in members)):
                start -= 1
            led = words[start - 1 : start] == ["both"]
            either = (*tokens[start:at], replace(tokens[at], text="or"), *tokens[at + 1 :])
            return (*tokens[: start - led], *either)
    return tokens


_BEFORE_ONE = frozenset("for with if when where while unless of".split())


def with_latest_value(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`opens at the latest at 5 bar` as at the latest when it has come to 5 bar, `at the earliest` as nowhere
    but then."""
    states = {w for s in subjects for w in side_words(s.bound, s.text)} if len(subjects) > 1 else set[str]()
    tokens = _with_latest_in_front(tokens, states)
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(1, len(words) - 2) if words[i - 1] in states):
        only = words[at] == "again" and words[at + 1] in _ONLY
        if only or (words[at] == "already" and words[at + 1] in _CONDITIONS):
            return (*tokens[:at], *tokens[at + 1 :])
        run = next((r for r in _LATEST if words[at : at + len(r)] == r), [])
        behind = at + len(run)
        if not run or behind + 1 >= len(words):
            continue
        said = "nowhere but where" if run in _EARLIEST else "at the latest when"
        if words[behind] in _CONDITIONS and words[behind] not in _PLACING:
            when = _words(said, tokens[at], tokens[behind])
            return (*tokens[:at], *when, *tokens[behind + 1 :])
        number = _value_behind(tokens, behind + 1, subjects) if words[behind] == "at" else 0
        if number:
            noun = tokens[behind + 1 : number - 1] if words[behind + 1] in ("a", "an") else ()
            when = _words(said, tokens[at], tokens[behind])
            return (*tokens[:at], *when, *noun, *_words("has come to", tokens[number]), *tokens[number:])
    return tokens


def _with_latest_in_front(tokens: Tokens, states: set[str]) -> Tokens:
    """`opens at 5 bar at the latest` as opens at the latest at 5 bar."""
    words = [word_of(t) for t in tokens]
    start = len(words) - 3
    at = next((i for i in range(1, start) if words[i - 1] in states and words[i] in _CONDITIONS), 0)
    if not at or words[start:] not in (_LATEST[0], _EARLIEST[0]):
        return tokens
    return (*tokens[:at], *_words(" ".join(words[start:]), tokens[at]), *tokens[at:start])


_EARLIEST = [["at", "the", "earliest"], ["no", "earlier", "than"], ["not", "earlier", "than"]]
_LATEST = [["at", "the", "latest"], ["no", "later", "than"], ["not", "later", "than"], *_EARLIEST]
_PLACING = ("at", "above", "below", "upon")


def with_value_of_change(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`opens at 5 bar` as when it comes to 5 bar; of two such values the higher is one that is risen to."""
    states = {w for s in subjects for w in side_words(s.bound, s.text)} if len(subjects) > 1 else set[str]()
    tokens = with_latest_value(_with_change_as_verb(tokens, states), subjects)
    words = [word_of(t) for t in tokens]
    found = [
        (at, number)
        for at in range(1, len(words) - 1)
        if words[at] == "at" and _changes(words, at - (words[at - 1] in _ONLY), states)
        for number in [_value_behind(tokens, at + 1, subjects)]
        if number
    ]
    values = [t.number.value for _, n in found for t in tokens[n : n + 1] if t.number]
    changed = _with_point_of_change(tokens, states)
    if changed is not tokens or not found or len(found) > 2:
        return changed
    for at, number in reversed(found):
        value = tokens[number].number
        verb = "comes to"
        if len(found) == 2 and len(set(values)) == 2 and value is not None:
            verb = "rises to" if value.value == max(values) else "drops to"
        noun = tokens[at + 1 : number - 1] if number > at + 1 and words[at + 1] in ("a", "an") else ()
        when, comes = _words("when", tokens[at], tokens[at]), _words(verb, tokens[number])
        tokens = (*tokens[:at], *when, *noun, *comes, *tokens[number:])
    return tokens


def _with_change_as_verb(tokens: Tokens, states: set[str]) -> Tokens:
    """`has an opening pressure of 5 bar` as opens at a pressure of 5 bar."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 4):
        stem = words[at + 2].removesuffix("ing")
        verb = next((v for v in (f"{stem}s", f"{stem}es", f"{stem[:-1]}s") if v in states), "")
        of = next((i for i in range(at + 4, min(at + 6, len(words))) if words[i] == "of"), 0)
        if words[at] in _HAVING and words[at + 1] in ("a", "an") and stem != words[at + 2] and verb and of:
            return (*tokens[:at], *_words(f"{verb} at a", tokens[at], tokens[at + 2]), *tokens[at + 3 :])
    return tokens


_HAVING = ("has", "having", "with")


def _with_point_of_change(tokens: Tokens, states: set[str]) -> Tokens:
    """`opens at a pressure of between 4 and 5 bar`, `opens at about 5 bar`: its change lies there."""
    words = [word_of(t) for t in tokens]
    placing = (
        i
        for i in range(1, len(words) - 1)
        if (words[i] in _PLACES_OF_CHANGE and (words[i] != "in" or "range" in words[i + 1 : i + 4]))
        or (words[i] in _ENDS_OF_CHANGE and _has_two_ends(tokens[i:]))
    )
    places = [i for i in placing if _changes(words, i - (words[i - 1] in _ONLY), states)]
    if not places or not any(t.number for t in tokens[places[0] :]):
        return tokens
    if len(places) > 1:
        return _with_range_risen_to(tokens, places)
    at, only = places[0], words[places[0] - 1] in _ONLY
    placed = words[at] == "at"
    behind = words[at + placed :]
    then = [*behind[1:], ""]
    each = behind[0] in _OF_EACH or (behind[0] == "the" and then[0] in _OF_THE)
    more = [
        w for i, w in enumerate(behind)
        if w in _GOING_ON and then[i] not in ("least", "most") and behind[i - 1 : i] != ["or"]
    ]  # fmt: skip
    ranging = {"between": {"and"}, "from": {"to"}, "within": {"of", "range"}}.get(words[at], {"range"})
    greater = {"and", "but", "to"}.isdisjoint(behind) and any(
        w in _GREATER and then[i] == "than" and not {*behind[max(i - 1, 0) : i]} & _NOT_SO
        for i, w in enumerate(behind)
    )
    if not _has_two_ends(tokens[at + placed :]) and (
        each
        or greater
        or (not placed and ranging.isdisjoint(behind))
        or (_BETWEEN if only else _BETWEEN_OR_LIMIT).isdisjoint((words[at], *behind))
        or more not in ([], ["and"])
        or (more and "between" not in behind and then[behind.index("and")] not in _LIMITING_TOO)
        or not states.isdisjoint(behind)
    ):
        return tokens
    said = "only with its point of change at" if only else "with its point of change at"
    changing = _words(said, tokens[at], tokens[at])
    return (*tokens[: at - only], *changing, *tokens[at + placed :])


def _has_two_ends(tokens: Tokens) -> bool:
    """`above 4 bar and not more than 6 bar`, `a pressure of more than 4 but less than 6 bar`, and no more."""
    words = [word_of(t) for t in tokens]
    first, last, *others = (*(i for i, t in enumerate(tokens) if t.number), 0, 0, 0)[:3]
    units = [t.number.unit for t in (tokens[first], tokens[last]) if t.number]
    one_kind = len(units) == 2 and units[1] and (units[0] is None or units[0].kind == units[1].kind)
    if not 0 < first < last == len(words) - 1 or any(others) or words[first + 1] not in ("and", "but"):
        return False
    behind = words[first + 2 + (words[first + 2] == "of") : last]
    above, below = (words[:first], behind) if behind in _ENDS_BELOW else (behind, words[:first])
    one = (_ends_with(above, _ENDS_ABOVE), _ends_with(below, _ENDS_BELOW))
    return bool(one_kind) and all(one) and behind in _ENDS_ABOVE + _ENDS_BELOW


def _ends_with(words: list[str], runs: list[list[str]]) -> bool:
    """Not as part of its opposite: `not more than` ends with no `more than`."""
    run = next((r for r in runs if words[-len(r) :] == r), [])
    return run != [] and words[: -len(run)][-1:] not in (["not"], ["no"])


_ENDS_ABOVE = runs_in_order("limits", "ends_above")
_ENDS_BELOW = runs_in_order("limits", "ends_below")
_ENDS_OF_CHANGE = ("above", "over", "below", "under")


def _with_range_risen_to(tokens: Tokens, places: list[int]) -> Tokens:
    """`opens at 4 to 6 bar and closes at 2 to 3 bar`: open once risen to 6 bar, closed once dropped to 2 bar.

    With the one not wholly above the other, or with another limit, it gets words that no phrase reads.
    """
    words = [word_of(t) for t in tokens]
    said = [words[at:end] for at, end in pairwise((*places, len(words)))]
    if not any(_RANGING.intersection(run) or "between" in run[:2] for run in said):
        return tokens
    ranges = [_range_at(tokens, at) for at in places]
    found = sorted((r for r in ranges if r), key=lambda r: r[1].value)
    apart = len(found) == len(ranges) == 2 and found[0][1].value < found[1][0].value
    for at, told in reversed([*zip(places, ranges, strict=True)]):
        if not apart or told is None:
            unread = _words("with its point of change at", tokens[at], tokens[at])
            tokens = (*tokens[:at], *unread, *tokens[at + 1 :])
            continue
        low, high, end = told
        verb, value = ("drops to", low) if told is found[0] else ("rises to", high)
        number = replace(tokens[end - 1], number=value)
        when, comes = _words("when", tokens[at], tokens[at]), _words(verb, number)
        tokens = (*tokens[:at], *when, *comes, number, *tokens[end:])
    return tokens


def _range_at(tokens: Tokens, at: int) -> tuple[Number, Number, int] | None:
    """The ends of `at 4 to 6 bar`, `between 4 and 6 bar`, `at 5 bar`, and where these words end."""
    words = [word_of(t) for t in tokens]
    start = at + 1 + (words[at + 1] in ("between", "from"))
    one, other = (t.number for t in (tokens[start], *tokens[start + 2 : start + 3], tokens[start])[:2])
    joined = words[start + 1 : start + 2] == ["and" if "between" in words[at:start] else "to"]
    end = start + (3 if joined else 1)
    high = other if joined else one
    if (
        one is None
        or high is None
        or high.unit is None
        or words[end : end + 1] not in ([], ["and"], ["but"], [","])
    ):
        return None
    return replace(one, unit=one.unit or high.unit), high, end


_RANGING = frozenset("to ± +/- plus about approximately around roughly most maximum up".split())
_LIMITING_TOO = ("not", "no", "at")
_BETWEEN = frozenset("between within to ± +/- plus about approximately around roughly".split())
_GREATER = frozenset("more greater higher larger".split())
_OF_THE = ("latest", "earliest", "same", "least", "most")
_PLACES_OF_CHANGE = ("at", "between", "from", "in", "within")
_OF_EACH = frozenset("any every each all least most above over below under".split())
"""What tells of each value there, or of all beyond one."""
_GOING_ON = frozenset(", and when if at".split())
_BETWEEN_OR_LIMIT = _BETWEEN | frozenset(
    "from less more least most up circa substantially essentially nearly almost maximum max minimum".split()
)
_ONLY = ("only", "solely", "exclusively")


def _changes(words: list[str], at: int, states: set[str]) -> bool:
    """Does a change stand before this place: `opens`, `is switched off`; no `is open`, no `runs`."""
    if words[at - 1] not in states:
        return False
    carried = words[at - 1] in ("on", "off") and not _CARRIERS.isdisjoint(words[max(at - 7, 0) : at - 1])
    verb = words[at - 1].endswith("s") and len(words[at - 1]) > _SHORT and words[at - 1] not in _GOES_ON
    started = words[at - 1] in _STARTED and words[at - 2 : at - 1] in (["is"], ["are"])
    return carried or verb or started


_SHORT = 3
_GOES_ON = frozenset("runs operates outputs generates raises".split())
_STARTED = listed("switching", "started")


def _value_behind(tokens: Tokens, at: int, subjects: tuple[Subject, ...]) -> int:
    """Where the one value stands behind `at`, with or without `a pressure of` before it; 0 for none."""
    words = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects]
    names += [[noun] for noun in listed("measures", "calling")]
    of = next((at + 1 + len(n) for n in names if words[at + 1 : at + 2 + len(n)] == [*n, "of"]), 0)
    number = of + 1 if of and words[at] in _ARTICLES else at
    value, then = tokens[number : number + 1], words[number + 1 : number + 3]
    ended = then[:1] in ([], [","]) or (
        then[0] in ("and", "but") and then[1:] != [] and then[1] not in _OR_SO
    )
    return number if value and value[0].number and value[0].number.unit and ended else 0


def with_permission(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`may exceed 2 m/s only when ...` as nowhere but where, `is prohibited when ...` as nowhere where."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words)) if words[i] in _WHEN), 0)
    if not at or len(subjects) < 2:
        return tokens
    states = {w for s in subjects for w in side_words(s.bound, s.text)}
    only = words[at - 1] == "only"
    may, verb = next(
        ((i, i + len(m)) for i in range(at) for m in _MAY if words[i : i + len(m)] == m), (None, 0)
    )
    if may is not None and (only or words[verb] == "only"):
        end, verb = at - only, verb + (words[verb] == "only")
        nowhere_else = (*_words("nowhere but where", tokens[at], tokens[at]), *tokens[at + 1 :])
        if words[verb] in states or (words[verb] == "be" and words[verb + 1] in states):
            return (*tokens[:may], *tokens[verb:end], *nowhere_else)  # what may be so need not be
        finite = _FINITE_OF.get(words[verb], "")
        so = (*tokens[:may], *_words(finite, tokens[verb], tokens[verb]), *tokens[verb + 1 : end])
        return (*so, *nowhere_else) if finite else tokens
    run = words[:at]
    for said, instead in _PERMITTED.items():
        if " ".join(run).endswith(f" {said}"):
            rest = tokens[: at - len(said.split())]
            if any(is_switch(s.bound) for s in subjects):
                return _state_permitted(rest, tokens, at, instead == "nowhere where", subjects)
            return (*rest, *_words(instead, tokens[at], tokens[at]), *tokens[at + 1 :])
    acts = _PROHIBITS | (frozenset(("allows", "permits")) if only else frozenset())
    act = next((i for i in range(at) if words[i] in acts and words[i + 1] in _ARTICLES), None)
    denied = act is not None and not _NOT_SO.isdisjoint(words[:act])  # what is not prohibited need not be
    if act is not None and not denied and states.isdisjoint(words[act:at]) and "from" not in words[act:at]:
        where = "nowhere where" if words[act] in _PROHIBITS else "nowhere but where"
        limit = _with_finite(tokens[act + 1 : at - only])
        return (*limit, *_words(where, tokens[at], tokens[at]), *tokens[at + 1 :])
    return tokens


def _state_permitted(
    rest: Tokens, tokens: Tokens, at: int, denied: bool, subjects: tuple[Subject, ...]
) -> Tokens:
    """`charging is permitted only if ...` as so nowhere else, `opening is prohibited when ...` as prevented.

    What is permitted need not be so.
    """
    switch = next(s for s in subjects if is_switch(s.bound))
    so = state_of(rest, switch.text, frozenset())
    if so is None:
        return tokens
    if denied:
        return (*rest, *_words("is prevented", tokens[at], tokens[at - 1]), *tokens[at:])
    if so and not {",", "and", "or", "but"} & set(map(word_of, tokens[at:])):
        nowhere = _words("so nowhere but where the condition", tokens[at], tokens[at])
        return (*nowhere, *tokens[at + 1 :], *_words("holds", tokens[-1], tokens[-1]))
    return (*rest, *_words("only", tokens[at]), *tokens[at:])


def with_doing_so(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`ceases to do so when ...`, of what is done or not, as stops; `always runs when` as runs when."""
    if not any(is_switch(s.bound) for s in subjects):
        return tokens
    words = [word_of(t) for t in tokens]
    always = words.index("always") if words.count("always") == 1 else 0
    when = next((i for i in range(always + 1, len(words)) if words[i] in _WHEN), 0) if always else 0
    if when and _NOT_SO.isdisjoint(words[:when]) and "only" not in words and "," not in words[always:when]:
        return with_doing_so((*tokens[:always], *tokens[always + 1 :]), subjects)
    for at in range(len(words) - 2):
        for run in _CEASING:
            if words[at : at + len(run)] == run:
                return (
                    *tokens[:at],
                    *_words("stops", tokens[at], tokens[at + len(run) - 1]),
                    *tokens[at + len(run) :],
                )
    return tokens


_CEASING = [run.split() for run in ("ceases to do so", "stops to do so", "stops doing so", "ceases doing so")]


def _with_finite(tokens: Tokens) -> Tokens:
    """`the speed to exceed 2 m/s` as the speed exceeds it."""
    words = [word_of(t) for t in tokens]
    to = next((i for i in range(1, len(words) - 1) if words[i] == "to" and words[i + 1] in _FINITE_OF), 0)
    finite = _words(_FINITE_OF[words[to + 1]], tokens[to], tokens[to + 1]) if to else ()
    return (*tokens[:to], *finite, *tokens[to + 2 :]) if to else tokens


_MAY = [
    ["may"],
    ["can"],
    ["could"],
    ["might"],
    *([b, a, "to"] for b in ("is", "are") for a in ("allowed", "permitted")),
]
_WHEN = GOVERNING - {"unless"}
_FINITE_OF = {
    "exceed": "exceeds", "be": "is", "fall": "falls", "rise": "rises", "reach": "reaches", "drop": "drops",
    "lie": "lies", "have": "has", "go": "goes",
}  # fmt: skip
_PERMITTED = {
    **{
        said: "nowhere but where"
        for word in ("permitted", "allowed", "possible", "permissible", "admissible")
        for said in (f"is only {word}", f"is {word} only", f"are only {word}", f"are {word} only")
    },
    **{
        f"{be} {said}": "nowhere where"
        for be in ("is", "are")
        for said in (
            "prohibited", "forbidden", "prevented", "excluded", "impossible", "not permitted", "not allowed",
            "not possible", "disallowed", "avoided", "precluded",
        )
    },
}  # fmt: skip
_PROHIBITS = listed("switching", "prohibiting")
