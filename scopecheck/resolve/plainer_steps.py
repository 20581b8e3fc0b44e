"""Ways of saying in which order steps come, said more plainly. Used by `plainer.py` alone."""

from __future__ import annotations

from scopecheck.core.declared import Step
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.subjects import Subject
from scopecheck.resolve.usual import with_runs, words_at

Tokens = tuple[Token, ...]


def steps_plainly(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What is said of steps in plainer words; else as it is."""
    if not all(isinstance(s.bound, Step) for s in subjects):
        return tokens
    if len(subjects) > 1:
        return _in_this_order(tokens, tuple(s.text.lower().split() for s in subjects))
    return with_runs(_without_step(_between_steps(tokens)), "step_runs")


def _without_step(tokens: Tokens) -> Tokens:
    """`before the cooling step` as before the cooling."""
    words = [word_of(t) for t in tokens]
    named = words[-1:] == ["step"] and len(words) > 3 and words[-3] in ("the", "a", "said")
    return tokens[:-1] if named else tokens


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
    """`first heating, then mixing and finally cooling` as in this order, of these in this order."""
    words = [word_of(t) for t in tokens]
    if words[-3:] == ["in", "any", "order"] and words[:2] == ["the", "steps"]:
        return tokens[-3:]
    ordered = not _ORDERING.isdisjoint(words) or words[-3:] in _THIS_ORDER
    end = len(words) - 3 * (words[-3:] in _THIS_ORDER)
    named = [w for w in words[:end] if w not in _ORDERING and w not in _BESIDE]
    in_turn = ordered and named == [w for name in names for w in name]
    return tuple(words_at(tokens[0], "in this order")) if in_turn else tokens


_THIS_ORDER = (["in", "this", "order"], ["in", "that", "order"])
_ORDERING = frozenset("first firstly then next thereafter subsequently finally lastly".split())
_BESIDE = frozenset("the a step steps and , of are performed carried out".split())
