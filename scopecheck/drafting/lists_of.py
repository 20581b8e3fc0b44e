"""The members of a list in a claim's text."""

from __future__ import annotations

from scopecheck.drafting.beside import noun_from, width_of
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText

MOST_MEMBERS = 20
MOST_OF_MEMBER = 6
"""How many words 'lithium nickel manganese cobalt oxide cells' may have."""


def listed_from(text: ClaimText, at: int) -> tuple[tuple[str, ...], int]:
    """The members of the list that begins here, and where it ends; no members where it is no plain list."""
    texts = text.texts
    members: list[str] = []
    joined = False
    while len(members) < MOST_MEMBERS:
        start = at + (texts[at : at + 1] in (["a"], ["an"]))
        if joined and (width := thereof_at(texts, at)):
            return tuple(dict.fromkeys(members)), at + width
        member = noun_from(text, start, MOST_OF_MEMBER)
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
    apart = at + (texts[at : at + 1] == [","])
    if texts[apart : apart + 1] in (["and"], ["or"]) and (width := thereof_at(texts, apart + 1)):
        at = apart + 1 + width
    return tuple(dict.fromkeys(members)), at


def thereof_at(texts: list[str], at: int) -> int:
    """How many words 'a mixture of any two or more thereof' has here: of several members, and none itself."""
    begin = at + (texts[at : at + 1] in (["a"], ["an"], ["any"], ["the"]))
    if not texts[begin : begin + 1] or texts[begin] not in words("choices", "mixed"):
        return 0
    for end in range(begin + 1, min(len(texts), begin + MOST_OF_MIXED)):
        if texts[end] == "thereof" or (texts[end] in ("these", "them") and texts[end - 1] == "of"):
            return end + 1 - at
        if texts[end] not in (
            "of",
            "any",
            "two",
            "three",
            "or",
            "more",
            "at",
            "least",
            "all",
            "the",
            "several",
        ):
            return 0
    return 0


MOST_OF_MIXED = 9
"""How many words a mixture of members may take."""
