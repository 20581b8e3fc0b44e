"""Members of a set told by a word of place, `on the lid`, as the members themselves."""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject

Tokens = tuple[Token, ...]
_AT_PLACES = ("at", "on", "upon")
_PLACES = (*_AT_PLACES, "in", "within")
_DENIED_PLACES = (*_PLACES, "of", "from")
_BEFORE = frozenset(
    "not only solely exclusively just merely and or but , both either neither nor also than is rather".split()
)
_BEFORE_PLACES = (["instead", "of"], ["place", "of"], ["not", "present"])
_ARTICLES = ("a", "an", "the", "said", "its")
_OF_SEVERAL = [
    run.split()
    for run in (
        "at least one of", "one or more of", "any one of", "each of", "one of", "any of", "either of",
        "both of", "all of", "both", "either", "neither", "only",
    )
]  # fmt: skip
_NOT_ONLY = tuple(["not", w] for w in ("only", "just", "merely", "solely"))


def with_places_as_members(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`not on the lid but on the base`, of a lid and a base as members, without the words of place."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, SetDecl | ChoiceDecl):
        return tokens
    bound = subjects[0].bound
    if any(t.number for t in tokens):
        return tokens
    members = [m.lower().split() for m in bound.members]
    said = [word_of(t) for t in tokens]
    words = _PLACES if isinstance(bound, SetDecl) else _AT_PLACES
    places = {i for i in range(len(said)) if _is_place(said, i, words, members)}
    places |= {i - 1 for i in places if said[max(0, i - 2) : i] == ["not", "present"]}
    kept = tuple(t for i, t in enumerate(tokens) if i not in places)
    return _with_both_told(kept)


def _is_place(said: list[str], at: int, words: tuple[str, ...], members: list[list[str]]) -> bool:
    denied = said[at - 1 : at] == ["not"] if at else False
    if said[at] not in (_DENIED_PLACES if denied else words):
        return False
    if at and said[at - 1] not in _BEFORE and said[max(0, at - 2) : at] not in _BEFORE_PLACES:
        return False
    first = at + 1 + next((len(r) for r in _OF_SEVERAL if said[at + 1 : at + 1 + len(r)] == r), 0)
    first += said[first : first + 1] in ([w] for w in _ARTICLES)
    return any(said[first : first + len(m)] == m for m in members)


def _with_both_told(tokens: Tokens) -> Tokens:
    """`not only the lid but also the base` as the two."""
    said = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(said) if w == "but"), 0)
    if (
        said[:2] not in _NOT_ONLY
        or at < 3
        or "but" in said[at + 1 :]
        or not {"or", "not"}.isdisjoint(said[2:])
    ):
        return tokens
    behind = at + 1 + (said[at + 1 : at + 2] == ["also"])
    before = at - (said[at - 1] == ",")
    return (*tokens[2:before], replace(tokens[at], text="and"), *tokens[behind:])
