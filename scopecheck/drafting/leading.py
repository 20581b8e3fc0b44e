"""What leads up to a limit between it and its noun: an amount, a list's colon, something done."""

from __future__ import annotations

from scopecheck.drafting.beside import (
    name_of,
    noun_start,
    owner_before,
    process_before,
    texts_of,
    whole_start,
)
from scopecheck.drafting.limits import Stretch
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText

AMOUNTS = ("amount", "content", "proportion", "share", "percentage", "quantity", "concentration", "fraction")
"""Nouns that say of a share only that it is one: 'the amount of flour' is the flour."""
_SAID_AMOUNTS = frozenset(AMOUNTS)
_KEPT = {"used", "operated", "stored", "provided"}
PRESENT = frozenset(
    "is are being present added contained used provided included employed incorporated which that".split()
)
"""Words between an ingredient and its amount."""


def in_an_amount(text: ClaimText, at: int) -> str:
    """The salt of 'salt is added in an amount of', where the words before 'in' end here; or ''."""
    texts, start = text.texts, at
    if _SAID_AMOUNTS.isdisjoint(texts[at : at + 4]):
        return ""
    while start > 0 and texts[start - 1] in PRESENT:
        start -= 1
    first = whole_start(text, noun_start(texts, start), start)
    noun = name_of(text, first, start)
    return "" if noun.endswith("ed") else noun


def added_before(text: ClaimText, at: int) -> str:
    """The salt of 'adding salt to the water in an amount of', where the words before 'in' end here; or ''."""
    texts, start = text.texts, whole_start(text, noun_start(text.texts, at), at)
    the = start - (start > 0 and texts[start - 1] in ("the", "said", "a", "an"))
    if the > 4 and texts[the - 1] == "of" and texts[the - 2] in ("one", "each", "both"):
        the -= 2
        the -= 2 * (texts[the - 2 : the] == ["at", "least"])
    if the < 2 or texts[the - 1] not in ("to", "into", "onto", "with", "on", "over", "in"):
        return ""
    if texts[the - 1] == "with" and texts[the] not in ("the", "said"):
        return ""  # 'laminating a dough with a fat': the fat is added
    first = whole_start(text, noun_start(texts, the - 1), the - 1)
    act = texts[first - 1] if first > 0 else ""
    if first < the - 2 and texts[first].endswith("ing"):
        act, first = texts[first], first + 1
    if act in ("the", "a", "an", "said") and first > 1:
        act = texts[first - 2]
    return name_of(text, first, the - 1) if act.endswith("ing") else ""


def in_a_list(text: ClaimText, stretch: Stretch) -> str:
    """`Mn` of `C: 0.05 to 0.12 %, Mn: 1.2 to 1.8 %`: what a share is of, before its colon; or ''."""
    texts, at = texts_of(text), stretch.starts[0]
    at -= bool(stretch.sign) and texts[at - 1] == stretch.sign
    share = stretch.unit is not None and not stretch.unit.kind.dimension
    if not share or at < 2 or texts[at - 1] != ":":
        return ""
    token = text.tokens[at - 2]
    written = text.source.text[token.start : token.end]
    before = at - 3 - (at > 3 and texts[at - 3] == "the")
    item = at > 2 and texts[before] in (",", ";", ":", "and")
    return written if token.text[0].isalpha() and (item or written in words("elements", "signs")) else ""


def process_at(texts: list[str], at: int) -> str:
    """What is done at the quantity that begins here: 'stirring' of 'is stirred at a'; '' for holding it."""
    while at > 0 and texts[at - 1] in ("a", "an", "the", "at", "to", "with", "under"):
        at -= 1
    held = at > 0 and texts[at - 1] in words("measures", "between") | _KEPT
    return "" if held else process_before(["for", *texts[:at]], at + 1)


def process_to(text: ClaimText, at: int) -> str:
    """'Charging' of 'charging the battery to 95 %', where the words before 'to' end here; or ''."""
    texts, start = text.texts, whole_start(text, noun_start(text.texts, at), at)
    the = start > 1 and start < at and texts[start - 1] in ("the", "said", "a", "an")
    act = texts[start - 2] if the else ""
    return act if act in ("charging", "discharging", "filling", "loading", "recharging", "emptying") else ""


def done_to(text: ClaimText, at: int) -> str:
    """What something is done to at the quantity that begins here: 'web' of 'the web is fed at a'."""
    texts = texts_of(text)
    while at > 0 and texts[at - 1] in ("a", "an", "the", "at", "to", "with", "under"):
        at -= 1
    done = at > 1 and (texts[at - 1].endswith("ed") or texts[at - 1] in words("mention", "after"))
    return owner_before(text, at - 1) if done and texts[at - 2] in ("is", "are", "being") else ""
