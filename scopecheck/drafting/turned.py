"""Words by which a limit is none of the thing itself: of no such thing, of a share of many, for each one.

'No shelf has a rim higher than 2 cm' asks for the opposite of its limit; 'at least 95 % of the beads have a
diameter of 3 to 4 mm' limits neither of the two; 'per plate, at least three rivets' no number.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.drafting.beside import noun_from, noun_start, nounish, whole_start, width_of
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import kind_of
from scopecheck.drafting.work import Held
from scopecheck.foundations.word_lists import words
from scopecheck.resolve.claim_text import ClaimText

MOST_ON = 16
"""How many words behind a share of many things their own limit may stand."""
ENDS = frozenset((";", ":", "."))
CLAUSES = words("conditional", "openings")
_OF_LIMITS = frozenset("more less fewer later earlier sooner longer greater higher lower other".split())
_BEHIND = frozenset("of which the said a an all any these those".split())


def turned_spans(text: ClaimText, found: Sequence[Stretch]) -> list[Held]:
    """The stretches of a claim in which a limit is none of the thing that has it."""
    texts = text.texts
    spans = [*_of_none(text), *_of_both(text), *_for_each(text), *_differences(text)]
    for stretch in found:
        spans += [*_of_many(text, stretch, found), *_after_so_long(texts, stretch)]
    for share, time in pairwise(found):
        spans += _within_so_long(texts, share, time)
    return spans


def part_end(texts: list[str], at: int) -> int:
    """Where a part of a sentence ends: at a comma, a semicolon, another clause."""
    for i in range(at, len(texts)):
        if texts[i] in ENDS | CLAUSES or (texts[i] == "," and texts[i + 1 : i + 2] != ["or"]):
            return i
    return len(texts)


def places(text: ClaimText, *said: str) -> list[int]:
    """Where some words stand in a claim, in order, but for its last two."""
    last = len(text.texts) - 2
    return sorted(at for word in said for at in text.where.get(word, ()) if at < last)


def _of_none(text: ClaimText) -> list[Held]:
    """'No shelf has a rim higher than', 'none of the ribs is', 'does not have a width of'."""
    texts, stops, found = text.texts, words("nouns", "stops"), list[Held]()
    for at in places(text, "no", "not", "none", "neither", "without"):
        after = texts[at + 1]
        no_thing = texts[at] == "no" and nounish(after, stops) and after not in _OF_LIMITS
        no_thing = no_thing or (texts[at] == "without" and after.endswith("ing"))
        not_done = texts[at] == "not" and after in ("have", "comprise", "contain", "include")
        if no_thing or not_done or (texts[at] in ("none", "neither") and after == "of"):
            found.append(Held(at + 1, part_end(texts, at), at, at + 2))
    return found


def _of_both(text: ClaimText) -> list[Held]:
    """'The left post and the right post each have': of two things that are named, not of the last of them."""
    texts, found = text.texts, list[Held]()
    for at in places(text, "each", "both"):
        end = at - (texts[at - 1] in _HAVING)
        if texts[at + 1] not in _HAVING and end == at:
            continue
        second = whole_start(text, noun_start(texts, end), end)
        the = second - (second > 0 and texts[second - 1] in ("the", "a", "an", "said"))
        if the == second or texts[the - 1] != "and" or second == end:
            continue
        first = whole_start(text, noun_start(texts, the - 1), the - 1)
        found.append(Held(at, part_end(texts, at), max(0, first - (texts[first - 1] in _BEHIND)), at + 1))
    return found


_HAVING = frozenset("have has having is are being comprise comprises comprising made".split())


def _for_each(text: ClaimText) -> list[Held]:
    """'Per plate, at least three rivets'."""
    texts, found = text.texts, list[Held]()
    for at in places(text, "per"):
        if texts[at - 1] in (",", "and", "wherein", "comprising", "containing"):
            close = next((i for i in range(at, min(at + 6, len(texts))) if texts[i] == ","), at + 1)
            found.append(Held(at, part_end(texts, close + 1), at, close))
    return found


def _differences(text: ClaimText) -> list[Held]:
    """'A difference between the length and the width is at most': of two quantities, not of the last."""
    texts, found = text.texts, list[Held]()
    for at in places(text, "difference"):
        joint = texts[at + 1] in ("between", "of", "in")
        end = part_end(texts, at)
        if joint and (texts[at + 1] != "between" or "and" in texts[at:end]):
            found.append(Held(at, end, at, at + 2))
    return found


def _of_many(text: ClaimText, stretch: Stretch, found: Sequence[Stretch]) -> list[Held]:
    """A share of many things, with what holds for so many of them."""
    texts, at = text.texts, stretch.end
    share = stretch.unit is not None and not stretch.unit.kind.dimension
    at += 2 * (texts[at : at + 1] == ["by"] and texts[at + 1 : at + 2] in _BY)
    if not share or texts[at : at + 1] != ["of"]:
        return []
    while at < len(texts) and texts[at] in _BEHIND:
        at += 1
    while at < len(texts) and (width := width_of(noun_from(text, at))):
        at += width
        at += at < len(texts) and texts[at] in ("of", "in", "on", "within", "between")
        at += texts[at : at + 1] in (["the"], ["said"])
    end = part_end(texts, at)
    behind = (s for s in found if stretch.end < s.starts[0] <= at)
    than = next((s for s in behind if texts[s.starts[0] + 1 : s.starts[0] + 2] == ["than"]), None)
    if than is not None:
        return [Held(stretch.start, than.end, stretch.starts[0], than.end)]
    said = texts[at : at + 1] and texts[at] in ("have", "has", "are", "is")
    of_those = not {"the", "said", "these", "all"}.isdisjoint(texts[stretch.end : at])
    said = said or not _PASSES.isdisjoint(texts[stretch.end : at])
    said = said or (of_those and texts[at : at + 1] in (["having"], ["with"]))
    done = bool(said) and texts[at] in ("are", "is") and texts[at + 1 : at + 2] != ["of"]
    has = of_those and texts[at : at + 1] in (["have"], ["has"])  # 'have different heights'
    limited = done or has or any(at <= s.starts[0] < min(end, at + MOST_ON) for s in found)
    return [Held(stretch.start, end, stretch.starts[0], end)] if said and limited else []


_PASSES = frozenset("pass passes remain remains dissolve dissolves survive survives reach reaches".split())
_BY = (["number"], ["weight"], ["mass"], ["volume"], ["count"], ["area"], ["length"])


def _after_so_long(texts: list[str], stretch: Stretch) -> list[Held]:
    """'After resting for 3 days, a strength of': the time is none of its own, the strength is one of then."""
    if (so_often := _after_many(texts, stretch)) is not None:
        return [so_often]
    near = range(stretch.starts[0] - 1, max(0, stretch.starts[0] - 5) - 1, -1)
    at = next((i for i in near if texts[i] in ("after", "following")), -1)
    if 0 < at == stretch.after:
        return [Held(at, stretch.end, at, stretch.end)]
    if at < 0 or not _parted(texts, at) or texts[stretch.end : stretch.end + 1] != [","]:
        return []
    return [Held(at, part_end(texts, stretch.end + 1), at, stretch.end)]


def _after_many(texts: list[str], stretch: Stretch) -> Held | None:
    """'The shrinkage after three washes at 60 degC is': what stands before it is measured then."""
    first = stretch.starts[0]
    at = next((i for i in range(first - 1, max(0, first - 3), -1) if texts[i] == "after"), 0)
    noun = noun_start(texts, at) if at else 0
    end = part_end(texts, at)
    said = not {"does", "is", "are", "has"}.isdisjoint(texts[first:end])
    if not at or noun == at or texts[noun - 1] not in ("the", "a", "an", "its") or not said:
        return None
    return Held(at, end, noun, end)


def _within_so_long(texts: list[str], share: Stretch, time: Stretch) -> list[Held]:
    """'At most 15 % of the dye within 24 hours': so much by then, and neither a share nor a time of it."""
    of_it = share.unit is not None and not share.unit.kind.dimension
    between = texts[share.end : time.starts[0] + 1]
    till = kind_of(time.unit) == "time" and "within" in texts[time.starts[0] - 1 : time.starts[-1]]
    if not (of_it and till) or len(between) > 8 or {",", ";", ":", "."}.intersection(between):
        return []
    return [Held(share.starts[0], time.end, share.starts[0], time.end)]


def _parted(texts: list[str], at: int) -> bool:
    """Whether a part of a sentence begins here."""
    return at == 0 or texts[at - 1] in (",", "and", "wherein", ";", ":", "that", "which", "having")
