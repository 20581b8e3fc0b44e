"""The list that closes a composition: 'an alloy consisting of tin, zinc and lead' beside shares of it."""

from __future__ import annotations

from scopecheck.drafting.beside import noun_before
from scopecheck.drafting.lists_of import listed_from
from scopecheck.foundations.word_lists import run_at
from scopecheck.resolve.claim_text import ClaimText


def closing_list(text: ClaimText, noun: str) -> tuple[int, int, int, tuple[str, ...]]:
    """Where a list without amounts closes what is called so: transition, end, members; or zeros."""
    texts = text.texts
    for at in sorted(at for word in CLOSING for at in text.where.get(word, ())):
        width = run_at(texts, at, "clauses", "closed") or run_at(texts, at, "clauses", "essentially")
        width = width or 2 * (texts[at : at + 2] in (["consists", "of"], ["consist", "of"]))
        if not width or at in text.referring or noun_before(text, at) != noun:
            continue
        members, end = listed_from(text, at + width)
        if len(members) > 1:
            return at, at + width, end, members
    return 0, 0, 0, ()


CLOSING = ("consisting", "consists", "consist", "composed")
