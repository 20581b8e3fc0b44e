"""What a quantity of a step is noted to be of, beside its name: `temperature of the broth`.

The moments of a step have phrases of their own, which know the quantity by its name alone.
"""

from __future__ import annotations

from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.names import Names
from scopecheck.resolve.subjects import Subject
from scopecheck.resolve.usual import with_forms

_ARTICLES = ("a", "an", "the", "said")


def without_noted_bearer(tokens: tuple[Token, ...], subject: Subject, names: Names) -> tuple[Token, ...]:
    """`the temperature of the broth`, `the broth temperature`, noted "of the broth", as the temperature.

    The words as they are where the note says anything else, or where nothing is measured of a step.
    """
    if not subject.moments:
        return tokens
    own, _, step = (part.split() for part in subject.text.lower().partition(" of "))
    tokens = with_forms(_without_own_step(tokens, step), "forms_of_times")
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
    start -= words[start - 1] in _ARTICLES
    during = words[:end][-len(step) :] == step and start > 1 and words[start - 1] in ("during", "while")
    return tokens[: start - 1 - (words[start - 2] == ",")] if during else tokens


def _bearer(noted: list[str], own: list[str]) -> list[str]:
    """What has the quantity: the broth, of `of the broth` and of `broth temperature`; [] without one."""
    of = own if noted[: len(own)] == own else []
    if noted[len(of) : len(of) + 1] == ["of"]:
        found = noted[len(of) + 1 :]
    else:
        found = noted[: -len(own)] if noted[-len(own) :] == own else []
    found = found[1:] if found[:1] and found[0] in _ARTICLES else found
    return [] if {"of", "at", "in", "from", "per"} & set(found) else found
