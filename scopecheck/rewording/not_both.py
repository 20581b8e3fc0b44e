"""`does not contain both A and B`, which denies the two together and neither of them alone.

Said as the phrases for it are, before any other reads a denial of each.
"""

from __future__ import annotations

from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import LISTS, Subject
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
DENYING = tuple(runs_in_order("limits", "not_containing"))
_HOLDING = listed("transitions", "open") | {"has", "having"}
_AT_MOST_ONE = (["at", "most", "one", "of"], ["no", "more", "than", "one", "of"])
_PRESENT = frozenset("present contained included used".split())
_TOGETHER = (["at", "the", "same", "time"], ["simultaneously"], ["together"])


def with_not_both(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """A denial of two things together as 'not both', of either as 'neither'; other words as they are."""
    if not subjects or any(t.number for t in tokens):
        return tokens
    said = [word_of(t) for t in tokens]
    amounts = len(subjects) == 2 and all(isinstance(s.bound, Typed) for s in subjects)
    if not amounts and not (len(subjects) == 1 and isinstance(subjects[0].listing, LISTS)):
        return tokens
    width = next((len(run) for run in DENYING if said[: len(run)] == run), 0)
    if width and said[width : width + 1] == ["both"]:
        return _not_both(tokens, tokens[width + 1 :], amounts)
    if width and said[width : width + 1] == ["either"] and "or" in said:
        return _neither(tokens, tokens[width + 1 :])
    at = next((i for i in range(3, len(said) - 1) if said[i : i + 2] == ["not", "both"]), 0)
    if at and said[at - 1] in ("are", "is") and len(said) == at + 3 and said[at + 2] in _PRESENT:
        return _not_both(tokens, tokens[: at - 1], amounts)
    one = next((len(run) for run in _AT_MOST_ONE if said[1 : 1 + len(run)] == run), 0)
    if amounts and one and said[0] in _HOLDING:
        return _not_both(tokens, tokens[1 + one :], amounts)
    if said[:3] in (["free", "of", "both"], ["free", "from", "both"]):
        return (*tokens[:2], *tokens[3:])
    return tokens


def _not_both(tokens: Tokens, things: Tokens, amounts: bool) -> Tokens:
    said = [word_of(t) for t in things]
    behind = next((len(run) for run in _TOGETHER if len(said) > len(run) and said[-len(run) :] == run), 0)
    things, said = things[: len(things) - behind], said[: len(said) - behind]
    joined = [i for i, w in enumerate(said) if w in ("and", "or")]
    if len(joined) != 1 or "," in said or not 0 < joined[0] < len(said) - 1:
        return tokens
    things = tuple(replace(t, text="and") if i == joined[0] else t for i, t in enumerate(things))
    first, last = tokens[0], tokens[-1]
    before = [replace(first, text=w, end=first.start) for w in ("not", "both")]
    after = [replace(last, text=w, start=last.end) for w in (("are", "present") if amounts else ())]
    return (*before, *things, *after)


def _neither(tokens: Tokens, things: Tokens) -> Tokens:
    first = tokens[0]
    before = [replace(first, text=w, end=first.start) for w in ("contains", "neither")]
    return (*before, *(replace(t, text="nor") if word_of(t) == "or" else t for t in things))
