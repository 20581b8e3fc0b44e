"""A class of a list but for some of its members: `no halogen other than chlorine`."""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl, Classes, Composition, SetDecl
from scopecheck.foundations.word_lists import run_at
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.parts import plural_of

Tokens = tuple[Token, ...]
_JOINING = frozenset((",", "and", "or", "and/or"))


def rest_of_a_class(tokens: Tokens, subject: Subject) -> tuple[str, tuple[str, ...]] | None:
    """The class of which some is left out in these words, and its members that are not; None without one.

    `No halogen other than chlorine` speaks of bromine and other halogen, and of nothing beside halogens.
    """
    listed = subject.mixture if isinstance(subject.mixture, Composition) else subject.bound
    classes: Classes = listed.classes if isinstance(listed, SetDecl | ChoiceDecl | Composition) else ()
    said = [word_of(t) for t in tokens] if classes else []
    for name, members in classes:
        for called in (name.lower(), plural_of(name.lower())):
            words = called.split()
            for at in (i for i in range(len(said)) if said[i : i + len(words)] == words):
                behind = at + len(words)
                denied = not {"no", "free", "any", "without", "devoid"}.isdisjoint(said[:at])
                width = run_at(said, behind, "beside", "leaving_out_of_a_class")
                width = width or int(denied and said[behind : behind + 1] == ["but"])
                if width and (out := _members(said, behind + width, members)):
                    return name, tuple(m for m in members if m not in out)
    return None


def _members(said: list[str], at: int, members: tuple[str, ...]) -> set[str]:
    """The members that are named from here on, joined by 'and' or 'or'."""
    found = set[str]()
    while at < len(said):
        at += said[at] in ("the", "a", "an", "for")
        named = (m for m in members if said[at : at + len(m.split())] == m.lower().split())
        member = max(named, key=len, default="")
        if not member:
            break
        found.add(member)
        at += len(member.split())
        while at < len(said) and said[at] in _JOINING:
            at += 1
    return found
