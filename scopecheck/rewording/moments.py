"""What a quantity of a step is noted to be of, beside its name: `temperature of the broth`.

The moments of a step have phrases of their own, which know the quantity by its name alone. What is never or
always so is so throughout.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.vocabulary.names import Names, Typed

_ARTICLES = ("a", "an", "the", "said")
_HEDGES = frozenset("about approximately around roughly".split())


def with_moment_last(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`at 10 minutes, at least 40 degC`, of a temperature and a time, as `at least 40 degC at 10 minutes`."""
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed)]
    timed = [k is not None and k.dimension == TIME for k in kinds]
    said = [word_of(t) for t in tokens]
    at = 1 + (said[1:2] != [] and said[1] in _HEDGES)
    led = said[:1] == ["at"] and said[at + 1 : at + 2] == [","] and len(said) > at + 2
    if sorted(timed) != [False, True] or len(subjects) != len(timed) or not led or not _is_time(tokens[at]):
        return tokens
    rest = tokens[at + 2 :]
    return tokens if any(map(_is_time, rest)) or "," in said[at + 2 :] else (*rest, *tokens[: at + 1])


def _is_time(token: Token) -> bool:
    unit = token.number.unit if token.number else None
    return unit is not None and unit.kind.dimension == TIME


def without_noted_bearer(tokens: tuple[Token, ...], subject: Subject, names: Names) -> tuple[Token, ...]:
    """`the temperature of the broth`, `the broth temperature`, noted "of the broth", as the temperature.

    The words as they are where the note says anything else, or where nothing is measured of a step.
    """
    if not subject.moments:
        return tokens
    own, _, step = (part.split() for part in subject.text.lower().partition(" of "))
    tokens = _without_own_step(tokens, step)
    noted = names.note_of(subject.moments["start"][0]).lower().split(",")[0].split()
    bearer = _bearer(noted, own)
    said = [word_of(t) for t in tokens]
    called = ([*own, "of"], [*own, "of", "the"], [own[-1], "of"], [own[-1], "of", "the"])
    for run in (*([*so, *bearer] for so in called), [*bearer, *own]) if bearer else ():
        for at in range(len(said) - len(run)):
            if said[at : at + len(run)] == run:
                name = (
                    replace(tokens[at], text=word, end=tokens[at + len(run) - 1].end)
                    for word in subject.text.partition(" of ")[0].split()
                )
                return (*tokens[:at], *name, *tokens[at + len(run) :])
    return tokens


def _without_own_step(tokens: tuple[Token, ...], step: list[str]) -> tuple[Token, ...]:
    """`not exceeding 30 degC during the resting`, of a temperature of the resting, without what it is of."""
    words = [word_of(t) for t in tokens]
    lead = 1 + (words[1:2] == ["the"])
    behind = lead + len(step) + (words[lead + len(step) : lead + len(step) + 1] == ["step"])
    if (
        words[0] == "during"
        and words[lead : lead + len(step)] == step
        and words[behind : behind + 1] == [","]
    ):
        return tokens[behind + 1 :]
    end = len(words) - (words[-1] == "step")
    start = end - len(step)
    if start < 2 or words[start:end] != step:
        return tokens
    start -= words[start - 1] in _ARTICLES
    during = start > 1 and words[start - 1] in ("during", "while")
    return tokens[: start - 1 - (words[start - 2] == ",")] if during else tokens


def without_noted_share(tokens: tuple[Token, ...], subject: Subject, names: Names) -> tuple[Token, ...]:
    """`10 % to 30 % of saturation`, noted "dissolved oxygen, of saturation", without what the note says."""
    noted = names.note_of(subject.moments["start"][0]).lower().split(",") if subject.moments else []
    said = [word_of(t) for t in tokens]
    for run in (part.split() for part in noted):
        at = next((i for i in range(1, len(said)) if run[:1] == ["of"] and said[i : i + len(run)] == run), 0)
        if at and is_bare_share(tokens[at - 1]):
            return (*tokens[:at], *tokens[at + len(run) :])
    return tokens


def with_moments_named(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], at: tuple[Subject, ...], names: Names
) -> tuple[Token, ...]:
    """`lower than that of the annealing`, `than in the annealing`, of quantities of steps, with the names
    that these have at some moment; () for words that compare with no quantity of the second step.
    """
    said = [word_of(t) for t in tokens]
    if not listed("limits", "conditions").isdisjoint(said):
        return ()
    own, other = (_calls(s, names) for s in subjects)
    if own[0] == other[0]:
        own, other = (own[0], own[1], []), (other[0], other[1], [])  # at each moment, and not of the whole
    start, end = _called_at(said, 0, own)
    lead = end or _led_by(said, own)
    behind = ((i, _called_at(said, i, other)[1]) for i in range(1, len(said)))
    first, last = next(((i, end) for i, end in behind if end > i and i >= lead), (0, 0))
    if not last:
        return ()
    if said[first] in ("in", "during") and said[first - 1] != "than":
        return ()
    called = [
        [replace(tokens[i], sort="word", text=w, number=None, end=tokens[j - 1].end) for w in s.text.split()]
        for s, i, j in ((at[0], start, max(end, 1)), (at[1], first, last))
    ]
    return (*(called[0] if end else ()), *tokens[lead:first], *called[1], *tokens[last:])


_Called = tuple[list[str], list[list[str]], list[list[str]]]


def _calls(subject: Subject, names: Names) -> _Called:
    """The step that has the quantity, and what it is called: its name, or the measure of its kind where the
    step has no other one of it; and its name where that tells by itself what is meant."""
    own, _, step = (
        subject.text.lower().partition(" of ") if subject.moments else (subject.text.lower(), "", "")
    )
    kind = subject.bound.kind if step and isinstance(subject.bound, Typed) else None
    declared = names.step(step)
    others = [declared.moments(field)["start"] for field in declared.fields] if declared else []
    alone = [names.terms[name.lower()].kind for name in others].count(kind) == 1
    words = [w for w in _LEVELS if (k := kind_word(w)) and kind and k.accepts(kind)] if alone else []
    fields = [f.lower() for known in names.steps.values() for f in known.fields]
    by_itself = fields.count(own) == 1 and " " in own and names.declared(own) is None
    return step.split(), [own.split(), *([w] for w in words)], [own.split()] if by_itself else []


def _called_at(said: list[str], at: int, called: _Called) -> tuple[int, int]:
    """Where words at a place that call the quantity begin and end: `the temperature of the annealing`."""
    step, names, by_themselves = called
    start = at + (said[at] in _ARTICLES)
    if not step:
        return at, start + len(names[0]) if said[start : start + len(names[0])] == names[0] else 0
    runs = ([*name, of] for name in (*names, ["that"], []) for of in ("of", "in", "during"))
    for of in (run for run in runs if run != ["of"]):
        behind = start + len(of)
        if said[start:behind] == of:
            behind += said[behind : behind + 1] in ([w] for w in _ARTICLES)
            end = behind + len(step)
            if said[behind:end] == step:
                return at, end + (said[end : end + 1] == ["step"])
    called_so = (*([*step, *name] for name in names), *by_themselves)
    return at, next((start + len(r) for r in called_so if said[start : start + len(r)] == r), 0)


def _led_by(said: list[str], called: _Called) -> int:
    """How many words lead to a comparison: `at a temperature`."""
    at = int(said[0] == "at")
    if said[at : at + 1] in (["a"], ["the"]) and [said[at + 1 : at + 2]] in ([name] for name in called[1]):
        return at + 2 + (said[at + 2 : at + 3] == ["of"])
    return 0


_LEVELS = ("temperature", "pressure", "speed", "humidity", "concentration")


def throughout(tokens: tuple[Token, ...], subject: Subject) -> tuple[Token, ...]:
    """`never exceeds 80 degC`, `is at all times below 80 degC`, of a quantity of a step, as so throughout."""
    said = [word_of(t) for t in tokens]
    if not subject.moments or not _OF_MOMENTS.isdisjoint(said) or not_always(said)[1]:
        return tokens
    if (staying := _stays(tokens, said)) or (course := _course(tokens, said, subject)):
        return staying or course
    denied = not {"not", "no", "never", "nor", "ever"}.isdisjoint(said)
    runs = [*(_NEVER if denied else _ALWAYS)]
    at, run = next(((i, r) for i in range(len(said)) for r in runs if said[i : i + len(r)] == r), (0, []))
    if not run:
        return tokens
    if not denied and not listed("limits", "changing").isdisjoint(said):
        return tokens
    numbers = sum(t.number is not None for t in tokens)
    if denied and numbers > sum(said[i : i + len(r)] == r for i in range(len(said)) for r in runs):
        return tokens  # 'rises to 80 degC and never exceeds 90 degC'
    never = (replace(tokens[at], text="never", end=tokens[at + len(run) - 1].end),) if run in _DENYING else ()
    kept = (*tokens[:at], *never, *tokens[at + len(run) :])
    if not kept:
        return tokens
    return (*kept, replace(kept[-1], sort="word", text="throughout", number=None, start=kept[-1].end))


def _stays(tokens: tuple[Token, ...], said: list[str]) -> tuple[Token, ...]:
    """`remains below 30 degC`, `does not fall below 30 degC` as so throughout; () for other words."""
    denied = any(said[i : i + 2] in _DOES_NOT and said[i + 2 : i + 3] in _MOVE for i in range(len(said)))
    kept = not denied and not _STAYS.isdisjoint(said) and _OTHERWISE.isdisjoint(said)
    joined = any(w in ("or", "and") and "between" not in said[:i] for i, w in enumerate(said))
    told = denied or kept
    if not told or joined or not any(t.number for t in tokens) or not _ITS_OWN.isdisjoint(said):
        return ()
    last = tokens[-1]
    return (*tokens, replace(last, sort="word", text="throughout", number=None, start=last.end))


def _course(tokens: tuple[Token, ...], said: list[str], subject: Subject) -> tuple[Token, ...]:
    """`falls below 30 degC` as lowered to below it, `rises to 60 degC` as raised to it, `reaches 60 degC` as
    so at the highest, `is brought to 60 degC` as to it; () for other words."""
    if not _OTHERWISE.isdisjoint(said) or not _JOINING.isdisjoint(said):
        return ()
    own = {*subject.text.lower().partition(" of ")[0].split()}
    for at, (word, then) in enumerate(pairwise(said)):
        verb = "lowered" if word in _FALLS else "raised" if word in _RISES else ""
        beyond = then in (("below", "under") if verb == "lowered" else ("above", "over", "beyond"))
        if verb and (beyond or then == "to"):
            towards = () if then == "to" else (replace(tokens[at], text="to"),)
            return (*tokens[:at], replace(tokens[at], text=verb), *towards, *tokens[at + 1 :])
        if word == "brought" and then == "to" and at and {*said[:at]} <= own | _BEING:
            return tokens[at:]
        if (
            word in ("reaches", "reaching", "attains", "attaining")
            and at + 2 == len(said)
            and tokens[-1].number
        ):
            last, behind = tokens[-1], tokens[-1].end
            ends = ("at", "the", "highest")
            return (*tokens, *(replace(last, sort="word", text=w, number=None, start=behind) for w in ends))
    return ()


_DOES_NOT = [["does", "not"], ["not", "to"], ["must", "not"], ["may", "not"], ["shall", "not"]]
_MOVE = [[w] for w in "fall drop sink decrease rise climb increase go".split()]
_STAYS = frozenset("remains stays remaining staying remain stay".split())
_FALLS = frozenset("falls falling drops dropping sinks sinking".split())
_RISES = frozenset("rises rising climbs climbing".split())
_OTHERWISE = frozenset("not no never ever without nor may can could might".split())
_JOINING = frozenset(("or", "and"))
_BEING = frozenset("the a its said is are being be".split())
_ITS_OWN = frozenset("constant unchanged within ± for by".split())
"""Words of a limit on how far it varies, how long or by how much."""


def not_always(said: list[str]) -> tuple[int, int]:
    """Where `not always`, `never constantly` stand, and where they end; (0, 0) for none."""
    for at in range(1, len(said)):
        run = next((r for r in _AT_ALL if said[at : at + len(r)] == r), [])
        if run and (
            said[at - 1] in ("not", "never") or said[at - 2 : at] in (["not", "be"], ["no", "longer"])
        ):
            return at - 1 - (said[at - 1] in ("be", "longer")), at + len(run)
    return 0, 0


def denied_at_times(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """What `is not always above 40 degC` denies: that it is so throughout, or of like parts that all are so.

    Of one value that is no quantity of a step nothing tells at which times: () for it, and where what stands
    behind is not one limit.
    """
    said = [word_of(t) for t in tokens]
    start, end = not_always(said)
    one = subjects[0] if len(subjects) == 1 else None
    own = one.text.lower().partition(" of ")[0].split() if one is not None else []
    lead = int(said[:1] == ["the"])
    lead = lead + len(own) if said[lead : lead + len(own)] == own else 0
    lead += said[lead : lead + 1] in (["is"], ["are"], ["being"], ["does"], ["do"])
    if not end or start != lead or one is None or said[lead] != "not" or end == len(said):
        return ()
    limit = said[end:]
    joined = [i for i, w in enumerate(limit) if w == "and" and "between" not in limit[:i]]
    joined += [i for i, w in enumerate(limit[:-1]) if w == "or" and limit[i + 1 :] not in _OR_MORE]
    if joined or not _GOING_ON.isdisjoint(limit) or not_always(limit)[1]:
        return ()
    if one.moments:
        last = tokens[-1]
        return (*tokens[end:], replace(last, sort="word", text="throughout", number=None, start=last.end))
    return tokens[end:] if one.parts is not None and one.parts.sort == "parts" else ()


_OR_MORE = [[w] for w in "more less higher lower greater above below over under longer shorter".split()]
_GOING_ON = frozenset(", but if when while unless until where before after preferably not never".split())
_WHENEVER = [["time"], ["moment"], ["stage"], ["point", "in", "time"]]
_DENYING = [["never"], ["without", "ever"], *(["at", "no", *when] for when in _WHENEVER)]
_NEVER = [*_DENYING, *(["at", "any", *when] for when in _WHENEVER)]
_ALWAYS = [
    ["always"], ["constantly"], ["permanently"], ["at", "all", "times"], ["all", "the", "time"],
    ["the", "whole", "time"], ["at", "every", "moment"], ["at", "every", "point", "in", "time"],
]  # fmt: skip
_AT_ALL = [*_ALWAYS, ["continuously"], ["throughout"], ["invariably"], ["at", "every", "stage"]]
_OF_MOMENTS = frozenset(
    "throughout but end beginning start average mean median peak first then finally until if when while where"
    " unless once before after during or initially eventually".split()
)
"""Beside these it is asked of a moment, or of a part of the step."""


def _bearer(noted: list[str], own: list[str]) -> list[str]:
    """What has the quantity: the broth, of `of the broth` and of `broth temperature`; [] without one."""
    of = own if noted[: len(own)] == own else []
    if noted[len(of) : len(of) + 1] == ["of"]:
        found = noted[len(of) + 1 :]
    else:
        found = noted[: -len(own)] if noted[-len(own) :] == own else []
    found = found[1:] if found[:1] and found[0] in _ARTICLES else found
    return [] if {"of", "at", "in", "from", "per"} & set(found) else found
