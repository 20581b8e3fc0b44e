"""Lines on a limit with its condition: 'spacing, load : at most 40 cm if the load is below 5 kg'.

Both stand left of the colon, in the order of the words. What no phrase reads whole is marked whole.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.draft import Proposed, Quantity
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.leading import AMOUNTS
from scopecheck.drafting.marks import takes, words_at
from scopecheck.drafting.naming import Called
from scopecheck.drafting.quantities import KEPT_WORDS
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.relations import names_of, stems_of
from scopecheck.drafting.work import Work
from scopecheck.foundations.quantity import Unit, find_unit


def conditioned(works: Sequence[Work], quantities: list[Quantity]) -> None:
    """Finds or declares what each condition is about; where that cannot be done, the whole is kept unread."""
    for work in works:
        for one in work.conditioned:
            about = [(s, c) for s, c in work.whens if one.when[0] <= s.starts[0] < one.when[1]]
            thing = thing_of(about[0][1], about[0][0].unit, quantities, work) if len(about) == 1 else None
            if thing is None or thing is one.of:
                work.unread.append((one.start, one.end))
                continue
            ahead = one.when[0] < one.limit
            pair = (thing, one.of) if ahead else (one.of, thing)
            work.on_condition.append((one, ", ".join(q.name for q in pair)))
            work.about.append(thing)


def thing_of(what: Called, unit: Unit | None, quantities: list[Quantity], work: Work) -> Quantity | None:
    """The quantity that a condition is about; a new one where nothing is called so; or None."""
    if not what.noun or what.unnamed or what.counted or what.noun.split()[0] in KEPT_WORDS:
        return None
    said = names_of(what)
    if what.noun.split()[-1] in AMOUNTS and " " in what.noun:  # the copper of 'the copper content'
        said += names_of(Called(what.noun.rpartition(" ")[0], what.owner, False))
    alike = [q for q in quantities if _names(q)[0] in said or said[0] in _names(q)]
    alike = [
        q for q in alike if not (what.owner and q.owner) or stems_of([what.owner]) == stems_of([q.owner])
    ]
    kind = kind_text(what, unit)
    fits = [q for q in alike if _kind(q) == (unit.kind if unit and unit.symbol else None)]
    if fits:
        return fits[0] if len(fits) == 1 else None
    if alike or what.noun.lower() in {q.name.lower() for q in quantities}:
        return None
    made = Quantity(what.noun, kind, what.noun, what.owner, [work.claim.number])
    quantities.append(made)
    return made


def _names(quantity: Quantity) -> list[list[str]]:
    return names_of(Called(quantity.noun, quantity.owner, False))


def _kind(quantity: Quantity) -> object:
    """The kind of a quantity's unit; None where it has none."""
    unit = (
        find_unit(quantity.kind.rpartition(" in ")[2].partition(" of ")[0])
        if " in " in quantity.kind
        else None
    )
    return unit.kind if unit is not None else None


def otherwise_end(texts: Sequence[str], at: int) -> int:
    """Where 'and remains closed otherwise' ends behind what is switched; 0 if no such words stand here."""
    begin = at + (texts[at : at + 1] == [","])
    if texts[begin : begin + 1] not in (["and"], ["but"]):
        return 0
    for i in range(begin + 1, min(begin + MOST_OTHERWISE, len(texts))):
        if texts[i] in (",", ";", ".") or texts[i][0].isdecimal():
            return 0
        over = texts[i + 1 : i + 2] in ([], ["."], [","], [";"])
        if texts[i] in ("otherwise", "else"):
            if over:
                return i + 1
            behind = next((j for j in range(i, len(texts)) if texts[j] in (",", ";", ".")), len(texts))
            numbers = any(texts[j][0].isdecimal() for j in range(i, behind))
            return 0 if numbers or behind - i > MOST_OTHERWISE else behind
    return 0


def _otherwise_limited(texts: Sequence[str], at: int) -> int:
    """Where 'and otherwise of no more than 3 N/m' ends behind a limit on a condition; else 0."""
    begin = at + (texts[at : at + 1] == [","])
    begin += texts[begin : begin + 1] in (["and"], ["but"])
    if begin == at or texts[begin : begin + 1] not in (["otherwise"], ["else"]):
        return 0
    return next((i for i in range(begin, len(texts)) if texts[i] in (",", ";", ".")), len(texts))


MOST_OTHERWISE = 7
"""How many words 'and is kept closed otherwise' may have."""


def propose_wholes(work: Work, readable: Readable) -> None:
    """A line on each limit with its condition, on what is switched, on equal numbers, if a phrase reads it.

    Both things stand left of the colon. What no phrase reads is a mark.
    """
    wholes = [(one.start, one.end, names) for one, names in work.equals]
    wholes += [(one.start, one.end, names) for one, names in work.on_condition]
    wholes += work.switched
    for start, end, names in wholes:
        words = words_at(work.text, start, end)
        for ends in (_otherwise_limited, otherwise_end):
            far = ends(work.text.texts, end)
            if far and readable.reads(words_at(work.text, start, far), names):
                end, words = far, words_at(work.text, start, far)
                break
        free = not any(i in work.text.taken for i in range(start, end))
        if free and readable.reads(words, names) and takes(work.text, words, start, end):
            work.claim.lines.append(Proposed(words, names, asked=True))
        else:
            work.unread.append((start, end))
