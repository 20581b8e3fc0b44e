"""Lines on what is switched: 'valve open, pressure : opens when the pressure exceeds 5 bar'."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_before
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.going_on import condition_end, goes_beside, state_of
from scopecheck.drafting.on_condition import thing_of
from scopecheck.drafting.work import Work
from scopecheck.foundations.word_lists import words as listed

SWITCH = "one of only yes, no"
MOST_WORDS = 5
"""So many words before a condition may say what is done: 'is automatically switched off again'."""
_BETWEEN = frozenset("which that configured adapted arranged operable designed and is are to again".split())
"""What may stand between a thing and what it does."""


def switched(works: Sequence[Work], quantities: list[Quantity]) -> None:
    """Declares what opens or closes, starts or stops on a condition, and takes up the words of both.

    A condition of which nothing is made, or with more in it than one limit, is kept whole.
    """
    for work in works:
        whole = [(one.when[0], one.when[1]) for one in work.conditioned]
        whens = [(s, c) for s, c in work.whens if not any(a <= s.condition < b for a, b in whole)]
        for stretch, what in whens:
            begin, state = done_before(work.text.texts, stretch.condition)
            far = condition_end(work.text, stretch)
            noun = _noun(work, begin) if state else ""
            alone = not goes_beside(work.text.texts, stretch.end) and (
                len([s for s, _ in whens if s.condition == stretch.condition]) == 1
            )
            thing = thing_of(what, stretch.unit, quantities, work) if noun and alone else None
            if thing is None:
                work.unread.append((begin, far))
                continue
            switch = _declared(work, f"{noun} {state}", noun, quantities)
            work.switched.append((begin, far, f"{switch.name}, {thing.name}"))


def done_before(texts: Sequence[str], at: int) -> tuple[int, str]:
    """Where the words begin that say what is done before a condition, and the state they speak of, or ''."""
    beside, state = listed("switching", "beside"), ""
    at -= texts[at - 1] in listed("limits", "only_then")
    begin = at
    while begin > max(0, at - MOST_WORDS):
        word = texts[begin - 1]
        found = state_of(word)
        if found and state:
            break
        if not found and word not in beside:
            break
        state, begin = state or found, begin - 1
    while begin < at and texts[begin] in ("to", "and"):
        begin += 1
    return begin, state


def _noun(work: Work, at: int) -> str:
    """What does it: the noun before, or that of what was said to be done before on another condition."""
    texts = work.text.texts
    start = at
    while start > 0 and texts[start - 1] in _BETWEEN:
        start -= 1
    noun = noun_before(work.text, start)
    before = [names for begin, end, names in work.switched if end == start or end == start - 1]
    return before[-1].partition(",")[0].rpartition(" ")[0] if before else noun


def _declared(work: Work, name: str, noun: str, quantities: list[Quantity]) -> Quantity:
    known = next((q for q in quantities if q.name == name and q.kind == SWITCH), None)
    if known is None:
        known = Quantity(name, SWITCH, noun, "")
        quantities.append(known)
    known.claims = sorted({*known.claims, work.claim.number})
    return known
