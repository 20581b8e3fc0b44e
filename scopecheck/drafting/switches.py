"""Lines on what is switched: 'valve open, pressure : opens when the pressure exceeds 5 bar'."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_before
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.on_condition import thing_of
from scopecheck.drafting.work import Work
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed

SWITCH = "one of only yes, no"
MOST_WORDS = 5
"""So many words before a condition may say what is done: 'is automatically switched off again'."""
_BETWEEN = frozenset("which that configured adapted arranged operable designed and is are to again".split())
"""What may stand between a thing and what it does."""


def switched(works: Sequence[Work], quantities: list[Quantity]) -> None:
    """Declares what opens or closes, starts or stops on a condition, and takes up the words of both."""
    for work in works:
        whole = [(one.when[0], one.when[1]) for one in work.conditioned]
        for stretch, what in work.whens:
            if any(start <= stretch.condition < end for start, end in whole):
                continue
            begin, state = _done_before(work.text.texts, stretch.condition)
            noun = _noun(work, begin) if state else ""
            thing = thing_of(what, stretch.unit, quantities, work) if noun else None
            if thing is None:
                continue
            switch = _declared(work, f"{noun} {state}", noun, quantities)
            work.switched.append((begin, stretch.end, f"{switch.name}, {thing.name}"))


def _done_before(texts: Sequence[str], at: int) -> tuple[int, str]:
    """Where the words begin that say what is done before a condition, and the state they speak of, or ''."""
    beside, state = listed("switching", "beside"), ""
    begin = at
    while begin > max(0, at - MOST_WORDS):
        word = texts[begin - 1]
        found = _state(word)
        if found and state:
            break
        if not found and word not in beside:
            break
        state, begin = state or found, begin - 1
    while begin < at and texts[begin] in ("to", "and"):
        begin += 1
    return begin, state


def _state(word: str) -> str:
    """The state by which a switch is called of which a word says that it is so, or not so."""
    for text in word_lists()["switching_pairs"].values():
        first, second = (side.split() for side in text.split("/"))
        if word in (*first, *second):
            return str(first[0])
    return ""


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
