"""What a claim leaves out of a composition: 'substantially free of lead and arsenic', where it has shares."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_from, width_of
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.lists_of import listed_from
from scopecheck.drafting.work import Work
from scopecheck.foundations.word_lists import words


def left_out(works: Sequence[Work], quantities: Sequence[Quantity]) -> list[Quantity]:
    """Shares for what claims leave out of that of which they, or the claims above them, have shares.

    Each work gets the tokens of such words, and the names of what they leave out. Of one thing alone there
    must be a share in the claims that the words stand in or under, the nearest: 'free of burrs' leaves
    out no ingredient.
    """
    shares = {
        work.claim.number: next((q for q in work.of if q.kind.startswith("share in ")), None)
        for work in works
    }
    known = {q.name.lower(): q for q in quantities}
    made: list[Quantity] = []
    for work in works:
        share = next(
            (q for n in (work.claim.number, *reversed(work.above)) if (q := shares[n]) is not None), None
        )
        if share is None:
            continue
        for start, end, nouns in _free_of(work):
            of = [known.get(noun.lower()) for noun in nouns]
            shares_too = all(
                _is_substance(noun) if q is None else q.kind.startswith("share in ")
                for noun, q in zip(nouns, of, strict=True)
            )
            if not shares_too:
                continue
            for noun in (noun for noun, q in zip(nouns, of, strict=True) if q is None):
                made.append(Quantity(noun, share.kind, noun, "", [work.claim.number], within=share.within))
                known[noun.lower()] = made[-1]
            work.free.append((start, end, ", ".join(known[noun.lower()].name for noun in nouns)))
    return made


def _free_of(work: Work) -> list[tuple[int, int, tuple[str, ...]]]:
    """The tokens of 'substantially free of A and B', to their end, with what is left out."""
    text, texts = work.text, work.text.texts
    found: list[tuple[int, int, tuple[str, ...]]] = []
    for at in text.where.get("free", ()):
        if texts[at + 1 : at + 2] not in (["of"], ["from"]):
            continue
        start = at
        while start and (texts[start - 1] in _HOW or texts[start - 1].endswith("ly")):
            start -= 1
        begin = at + 2 + (texts[at + 2 : at + 3] in (["a"], ["any"], ["the"], ["both"]))
        nouns, end = listed_from(text, begin)
        if not nouns and (noun := noun_from(text, begin)):
            nouns, end = (noun,), begin + width_of(noun)
        ends = end < len(texts) and texts[end] in (".", ",", ";", "wherein")
        if nouns and ends:
            found.append((start, end, nouns))
    return found


_HOW = frozenset(("or", "entirely", "completely"))


def _is_substance(noun: str) -> bool:
    """Whether a noun may be an ingredient: no measure, no flaw of a thing."""
    return words("measures", "nouns").isdisjoint(noun.lower().split()) and not noun.endswith("s")
