"""Ways of saying in which order steps come, said more plainly. Used by `plainer.py` alone."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import Step
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.resolve.chart import word_of
from scopecheck.resolve.subjects import Subject

Tokens = tuple[Token, ...]


def steps_plainly(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What is said of steps in plainer words; else as it is."""
    if not all(isinstance(s.bound, Step) for s in subjects):
        return tokens
    if len(subjects) > 1:
        return _in_this_order(tokens, tuple(s.text.lower().split() for s in subjects))
    return _with_runs(_without_step(_between_steps(tokens)))


_RUNS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("directly", "follows"), "immediately after"),
    (("immediately", "follows"), "immediately after"),
    (("follows",), "after"),
    (("directly", "precedes"), "immediately before"),
    (("immediately", "precedes"), "immediately before"),
    (("precedes",), "before"),
    (("takes", "place", "prior", "to"), "before"),
    (("is", "performed", "prior", "to"), "before"),
    (("prior", "to"), "before"),
    (("subsequent", "to"), "after"),
    (("is", "completed", "before"), "ends before"),
    (("is", "complete", "before"), "ends before"),
    (("is", "finished", "before"), "ends before"),
)


def _with_runs(tokens: Tokens) -> Tokens:
    """`directly follows the heating` as immediately after it, and the like."""
    words, found, at = [word_of(t) for t in tokens], list[Token](), 0
    while at < len(tokens):
        run = next(((run, said) for run, said in _RUNS if tuple(words[at : at + len(run)]) == run), None)
        if run is None:
            found.append(tokens[at])
            at += 1
        else:
            found += _said(tokens[at], run[1])
            at += len(run[0])
    return tuple(found)


def _said(at: Token, text: str) -> Iterator[Token]:
    return (replace(at, sort="word", text=w, number=None) for w in text.split())


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
    after, before = _said(tokens[at], "after"), (tokens[middle], *_said(tokens[middle], "before"))
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
    return tuple(_said(tokens[0], "in this order")) if in_turn else tokens


_THIS_ORDER = (["in", "this", "order"], ["in", "that", "order"])
_ORDERING = frozenset("first firstly then next thereafter subsequently finally lastly".split())
_BESIDE = frozenset("the a step steps and , of are performed carried out".split())
