"""The members of a list in a claim's text."""

from __future__ import annotations

from scopecheck.drafting.beside import noun_from, width_of
from scopecheck.resolve.claim_text import ClaimText

MOST_MEMBERS = 20


def listed_from(text: ClaimText, at: int) -> tuple[tuple[str, ...], int]:
    """The members of the list that begins here, and where it ends; no members where it is no plain list."""
    texts = text.texts
    members: list[str] = []
    joined = False
    while len(members) < MOST_MEMBERS:
        start = at + (texts[at : at + 1] in (["a"], ["an"]))
        if joined and texts[start : start + 2] in _THEREOF:
            return tuple(dict.fromkeys(members)), start + 2
        member = noun_from(text, start)
        if not member:
            return (), at
        members.append(member)
        at = start + width_of(member)
        if joined:
            break
        after = texts[at : at + 2]
        if after[:1] == [","] and after[1:] in (["and"], ["or"]):
            at, joined = at + 2, True
        elif after[:1] in (["and"], ["or"]):
            at, joined = at + 1, True
        elif after[:1] == [","]:
            at += 1
        else:
            return (), at
    for extra in (("and", 3), ("or", 3)):
        if texts[at : at + 1] == [extra[0]] and texts[at + 1 : at + 3] in _THEREOF:
            at += extra[1]
    return tuple(dict.fromkeys(members)), at


_THEREOF = (["mixtures", "thereof"], ["combinations", "thereof"])
