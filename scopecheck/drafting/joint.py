"""Limits of several things together: 'the combined amount of A and B is', 'A and B together make up at most'.

A line on the last of them alone would be another limit: it is one on their sum, or all of it is marked.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_from, width_of
from scopecheck.drafting.draft import Proposed, Quantity
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.leading import AMOUNTS
from scopecheck.drafting.limits import Stretch, by_parts
from scopecheck.drafting.marks import takes, words_at
from scopecheck.drafting.naming import Called
from scopecheck.drafting.quantities import KEPT_WORDS
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.work import Joint, Work
from scopecheck.foundations.quantity import Unit, find_unit
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import stems

MOST_BACK = 40
"""How many words before a limit the things are looked for of which it is the sum."""
_SKIPPED = frozenset(("a", "an", "the", "said", "both", "all"))
_APART = frozenset((";", ":", ".", "wherein", "whereby"))


def joint(text: ClaimText, stretch: Stretch) -> Joint | None:
    """The things whose sum a limit is of; None where it is of one thing."""
    texts, end = text.texts, stretch.starts[0]
    end -= texts[end - 1 : end] == [":"]
    first = next((i + 1 for i in range(end - 1, max(-1, end - MOST_BACK), -1) if texts[i] in _APART), 0)
    first = max(first, end - MOST_BACK, stretch.after)
    if "ratio" in texts[first:end]:
        return None
    behind = _of_those_behind(text, stretch)
    return behind or _of_sum(text, stretch, first, end) or _together(text, stretch, first, end)


def _of_those_behind(text: ClaimText, stretch: Stretch) -> Joint | None:
    """'Up to 2 mol % of A and/or B', '1 to 3 wt% of A, B and C in total': not 'of a salt and water'."""
    texts, end = text.texts, stretch.end
    share = stretch.unit is not None and bool(stretch.unit.symbol)
    share = share or by_parts(texts, stretch.figures[-1].end) > 0
    if not share or texts[end : end + 1] != ["of"]:
        return None
    nouns, far = _nouns(text, end + 1, len(texts), _EITHER)
    either = not _EITHER.isdisjoint(texts[end:far])
    total = next((n for n in (2, 1) if tuple(texts[far : far + n]) in _IN_TOTAL), 0)
    acts = any(noun.endswith("ing") and " " not in noun for noun in nouns)
    if len(nouns) < 2 or acts or not (either or total):
        return None
    return Joint(stretch, stretch.starts[0], nouns, "", far + total, listed=True)


_EITHER = frozenset(("or", "/"))
_IN_TOTAL = (("in", "total"), ("in", "combination"), ("combined",), ("together",), ("altogether",))


def _of_sum(text: ClaimText, stretch: Stretch, first: int, end: int) -> Joint | None:
    """'the sum of A and B', 'a combined amount of A, B and C'."""
    texts = text.texts
    for at in range(end - 1, first, -1):
        if texts[at] != "of":
            continue
        begin = next((i for i in range(at - 1, max(first - 1, at - 4), -1) if _summing(texts, i, at)), -1)
        if begin < 0:
            continue
        nouns, far = _nouns(text, at + 1, end)
        measure = [w for w in texts[begin + 1 : at] if w not in AMOUNTS]
        joined = not {"and", "plus", "+", "or"}.isdisjoint(texts[at:far])
        if len(nouns) > 1 and not joined:
            return None  # 'the total thickness of the film, the total thickness being'
        if len(nouns) > 1 and "and" not in texts[far:end]:
            return Joint(stretch, begin, nouns, " ".join(measure))
        if "and" in texts[at:end] and "," not in texts[far:end]:
            return Joint(stretch, begin, (), "")
        return None
    return None


def _summing(texts: list[str], at: int, of: int) -> bool:
    """Whether 'sum of', or 'combined amount of', begins here."""
    if texts[at] in words("limits", "summed") and at == of - 1:
        return True
    return texts[at] in words("limits", "summed_amounts") and texts[of - 1][0].isalpha() and at < of - 1


def _measures() -> frozenset[str]:
    return words("measures", "nouns") | frozenset(AMOUNTS)


def _together(text: ClaimText, stretch: Stretch, first: int, end: int) -> Joint | None:
    """'A and B together make up', 'A and B in a total amount of', 'A and B make up 5 % in total'."""
    texts = text.texts
    behind = stretch.end
    behind += texts[behind : behind + 1] == ["together"] or 2 * (
        texts[behind : behind + 2] == ["in", "total"]
    )
    if behind == stretch.end and not _said_together(texts, first, end):
        return None
    for begin in range(first, end):
        if begin > first and texts[begin - 1] not in _BEFORE_FIRST:
            continue
        nouns, far = _nouns(text, begin, end)
        rest = texts[far:end]
        if len(nouns) < 2 or {"and", "or", ","}.intersection(rest):
            continue
        if {"and", "or", "plus", "+"}.isdisjoint(texts[begin:far]):
            continue  # 'a film, the layers together having a thickness of'
        if behind > stretch.end or _said_together(texts, far, end):
            measure = next((w for w in rest if w in words("measures", "nouns") and w not in AMOUNTS), "")
            return Joint(stretch, begin, nouns, measure, behind)
    return None


_BEFORE_FIRST = frozenset(
    "wherein that comprising comprises including and further , with if containing".split()
)


def _said_together(texts: list[str], first: int, end: int) -> bool:
    """Whether words before a limit say that it is of several things together."""
    for at in range(first, end):
        of_one = texts[at] == "combined" and texts[at + 1] in _measures()  # 'a combined amount of'
        if texts[at] in words("limits", "summed_behind") and not of_one:
            return at > 0 and not texts[at - 1].endswith("ed")  # 'joined together by'
        if texts[at : at + 2] == ["in", "total"]:
            return True
        if texts[at] in words("limits", "summed_amounts") and texts[at + 1] in _measures():
            return texts[at - 1] in ("a", "an", "the") and texts[at - 2] in ("in", "have", "has", "having")
    return False


def _nouns(
    text: ClaimText, at: int, end: int, joints: frozenset[str] = frozenset()
) -> tuple[tuple[str, ...], int]:
    """The nouns of a list that begins here, joined by 'and' or by other words, and where it ends."""
    texts, found, far = text.texts, list[str](), at
    while at < end:
        while at < end and texts[at] in _SKIPPED:
            at += 1
        noun = noun_from(text, at)
        if not noun or at + width_of(noun) > end:
            break
        found.append(noun)
        at = far = at + width_of(noun)
        parted = at
        while at < end and (texts[at] in (",", "and", "plus", "+") or texts[at] in joints):
            at += 1
        if at == parted:
            break
    return tuple(found), far


# ---- quantities and lines


def summed(works: Sequence[Work], quantities: list[Quantity]) -> None:
    """Finds or declares what is summed; where that cannot be done, the whole limit is kept unread."""
    for work in works:
        for one in work.joint:
            made: list[Quantity] = []
            nouns = (_without_class(one.nouns[0], quantities), *one.nouns[1:]) if one.nouns else ()
            parts = [_part(one, noun, quantities, made) for noun in nouns]
            known = [q for q in parts if q is not None]
            if len(known) < max(2, len(parts)) or len({q.name for q in known}) < len(known):
                work.unread.append((one.begin, one.behind or one.stretch.end))
                continue
            quantities += made
            for q in known:
                q.claims = sorted({*q.claims, work.claim.number})
            work.sums.append((one, tuple(known)))


def _without_class(noun: str, quantities: Sequence[Quantity]) -> str:
    """The Na2O of 'the alkali oxides Na2O and K2O': what is known by itself, or is written in signs."""
    said = noun.split()
    at = next((i for i in range(1, len(said)) if said[i - 1].endswith("s")), 0)
    own = " ".join(said[at:])
    known = any(stems(q.noun) == stems(own) for q in quantities)
    return own if at and (known or own[1:] != own[1:].lower() or any(c.isdigit() for c in own)) else noun


def _part(one: Joint, noun: str, quantities: Sequence[Quantity], made: list[Quantity]) -> Quantity | None:
    """The quantity of one of the things; a new one where none is of it; None where another kind is."""
    unit = one.stretch.unit
    if unit is None or not unit.symbol or noun.split()[0] in KEPT_WORDS:
        return None
    share = not unit.kind.dimension
    kind = kind_text(Called("" if share else one.measure, "", False), unit)
    said = stems(noun)
    by = one.measure or kind.partition(" in ")[0]
    named = [q for q in quantities if (stems(q.noun) == said if share else _has(q, said, by, unit))]
    named = named or [q for q in quantities if share and q.kind == kind and stems(q.noun)[-1:] == said]
    if named:
        fits = len(named) == 1 and _of_kind(named[0], unit) and not (named[0].within and named[0].declared)
        return named[0] if fits else None
    name = noun if share or not one.measure else f"{noun} {one.measure}"
    if name.lower() in {q.name.lower() for q in (*quantities, *made)}:
        return None
    composed = kind.replace("share", "composition", 1) if share else ""
    whole = next((q for q in quantities if q.kind == composed), None)
    made.append(Quantity(name, kind, name, "" if share else noun, [], within=whole))
    return made[-1]


def _of_kind(of: Quantity, unit: Unit) -> bool:
    """Whether a quantity is declared in a unit of this kind, of no other whole."""
    own = find_unit(of.kind.rpartition(" ")[2]) if " in " in of.kind else None
    return own is not None and own.kind == unit.kind


def _has(of: Quantity, said: list[str], measure: str, unit: Unit) -> bool:
    """Whether a quantity is what one of the things measures: 'mass' of the camera, 'camera mass'."""
    noun, owner = stems(of.noun), stems(of.owner)
    if noun == said:
        return _of_kind(of, unit)  # 'a first capacitor of 10 µF'
    by = stems(measure)
    return bool(measure) and (noun == [*said, *by] or (noun == by and owner == said))


def propose_sums(work: Work, readable: Readable) -> None:
    """A line on each sum; its words begin with those that say 'together', if they name it as declared."""
    for one, parts in work.sums:
        begin, end = one.begin, one.behind or one.stretch.end
        if one.listed:
            names, words_ = ", ".join(q.name for q in parts), words_at(work.text, begin, end)
            if readable.reads(words_, names) and takes(work.text, words_, begin, end):
                work.claim.lines.append(Proposed(words_, names, asked=True))
            else:
                work.unread.append((begin, end))
            continue
        for noun, q in zip(one.nouns, parts, strict=True):
            if not set(noun.lower().split()) <= set(q.name.lower().split()):
                begin, end = one.stretch.starts[0], one.stretch.end
        words_ = words_at(work.text, begin, end)
        if takes(work.text, words_, begin, end):
            work.claim.lines.append(Proposed(words_, " + ".join(q.name for q in parts)))
        else:
            work.unread.append((one.begin, end))
