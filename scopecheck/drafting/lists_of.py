"""The members of a list in a claim's text."""

from __future__ import annotations

from scopecheck.drafting.beside import noun_from, nounish, width_of
from scopecheck.foundations.word_lists import words
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText

MOST_MEMBERS = 20
MOST_OF_MEMBER = 6
"""How many words 'lithium nickel manganese cobalt oxide cells' may have."""
MOST_OF_FORMULA = 16
"""How many words, numbers and signs the name of a substance may have."""


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
        end = start + width_of(member)
        if end < len(texts) and texts[end] not in _PARTING and (far := _formula_end(text, start)):
            first, last = text.tokens[start], text.tokens[far - 1]
            member, end = text.source.text[first.start : last.end], far
        if not member:
            return (), at
        members.append(member)
        at = end
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


_PARTING = frozenset((",", ";", ".", ":", "and", "or"))


def _formula_end(text: ClaimText, at: int) -> int:
    """Where a name with numbers or brackets in it ends, 'dioctyl di-(2-hexyl) ester', 'nylon 12'; 0 if none.

    What stands in brackets behind a blank explains a name, and a comma parts members.
    """
    texts, tokens, stops = text.texts, text.tokens, words("nouns", "stops")
    end, deep, odd = at, 0, False
    while end < len(texts) and end - at < MOST_OF_FORMULA:
        word, glued = texts[end], end > at and tokens[end - 1].end == tokens[end].start
        if word == "(":
            if not glued:
                return 0
            deep, odd = deep + 1, True
        elif word == ")" and deep:
            deep -= 1
        elif word == "-" and glued and end + 1 < len(texts) and tokens[end].end == tokens[end + 1].start:
            pass
        elif word.isdecimal() and (glued or end > at):
            odd = True
            behind = texts[end + 1] if end + 1 < len(texts) else "."
            goes_on = behind == "-" and tokens[end].end == tokens[end + 1].start
            if not (glued or goes_on or behind in _PARTING):
                return 0  # so much of something
        elif deep or (nounish(word, stops) and word not in NUMBER_WORDS):
            pass
        else:
            break
        end += 1
    over = end < len(texts) and texts[end] in _PARTING and not deep
    return end if odd and over and texts[at][0].isalpha() else 0


def thereof_at(texts: list[str], at: int) -> int:
    """How many words 'a mixture of any two or more thereof' has here: of several members, and none itself."""
    begin = at + (texts[at : at + 1] == ["of"])
    begin += texts[begin : begin + 1] in (["a"], ["an"], ["any"], ["the"])
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
