"""Where a text says 'a plurality of' something, or lists what something may be: without a number."""

from __future__ import annotations

from scopecheck.drafting.beside import noun_before, noun_from
from scopecheck.drafting.lists_of import listed_from
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import run_at, words
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import plural


@record
class Choice:
    """Words that a phrase may read, and what they are of: so many of a noun, or members of a list."""

    start: int
    end: int
    noun: str
    members: tuple[str, ...] = ()

    @property
    def kind(self) -> str:
        return f"any of {', '.join(self.members)}" if self.members else "count"


def choices(text: ClaimText) -> list[Choice]:
    """The pluralities and the lists of a claim's text in order."""
    texts = text.texts
    found: list[Choice] = []
    at = 0
    while at < len(texts):
        made = None if at in text.referring else _several(text, texts, at) or _list(text, texts, at)
        if made:
            found.append(made)
        at = made.end if made else at + 1
    return found


def _several(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`a plurality of cells`, `several ribs`."""
    if texts[at : at + 3] in (["a", "plurality", "of"], ["a", "pair", "of"]):
        end, start = at + 2, at + 3
    elif texts[at] in ("several", "multiple"):
        end = start = at + 1
    else:
        return None
    noun = noun_from(text, start)
    return Choice(at, end, noun) if noun and plural(noun.split()[-1]) else None


def _list(text: ClaimText, texts: list[str], at: int) -> Choice | None:
    """`selected from the group consisting of chalk, talc and gypsum`, `at least one of copper and zinc`."""
    width = run_at(texts, at, "choices", "openings")
    if not width or texts[at + width : at + width + 1] in (["the"], ["said"], ["claims"], ["claim"]):
        return None
    members, end = listed_from(text, at + width)
    noun = noun_before(text, at)
    if len(members) < 2 or not noun or any(w in words("nouns", "stops") for m in members for w in m.split()):
        return None
    return Choice(at, end, noun, members)
