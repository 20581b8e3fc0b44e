"""Limits that hold on a condition only, one of two that may hold, and what may be left out.

'If the curing is below 125 degC, the time is at least 3 minutes' is no limit of the time by itself, and 'a
width of 3 mm or a length of 5 mm' none of either. Cut short they would say more than the claim.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.drafting.beside import a_parameter, gerund, noun_start
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.stepped import is_step
from scopecheck.drafting.turned import CLAUSES, ENDS, part_end, places
from scopecheck.drafting.work import Conditioned, Held, Work
from scopecheck.foundations.word_lists import run_at, runs, words
from scopecheck.resolve.claim_text import ClaimText

MOST_BETWEEN = 9
"""How many words may stand between an 'or' and the limits on both sides of it."""
_BEFORE = ENDS | CLAUSES | frozenset(", that which and but then or ( only even".split())
_LONG = frozenset(("more", "longer", "at", "over", "less"))
_DETERMINERS = frozenset(("a", "an", "the", "said", "its", "each", "any", "no"))


def held_spans(text: ClaimText) -> list[Held]:
    """The stretches of a claim in which a limit does not hold by itself."""
    return [*_conditions(text), *_optional(text), *_portions(text), *_not_for_long(text)]


def without_held(works: Sequence[Work]) -> None:
    """Marks whole the limits, sums and lists that hold on a condition only, or are one of two.

    Not what a step is limited by that is done on the condition, nor the condition of a step.
    """
    for work in works:
        spans = [*work.held, *_alternatives(work)]
        gone: set[int] = set()
        for span in spans:
            inside = [i for i, (s, _) in enumerate(work.limits) if _holds(work, span, i, s)]
            sums = [j for j in work.joint if span.start <= j.stretch.starts[0] < span.end]
            lists = [c for c in work.choices if span.start <= c.start < span.end]
            if not (inside or sums or lists):
                continue
            gone.update(inside)
            work.joint = [j for j in work.joint if j not in sums]
            work.choices = [c for c in work.choices if c not in lists]
            far = [work.limits[i][0].end for i in inside] + [j.behind or j.stretch.end for j in sums]
            end = max(span.least, *far, *(c.end for c in lists), 0)
            named = [_with_noun(work.text.texts, work.limits[i][0].starts[0]) for i in inside]
            start = min([*named, *(j.begin for j in sums), *(c.start for c in lists)])
            start = span.first or (min(start, span.when[0]) if span.when[1] else start)
            alone = len(inside) == 1 and not (sums or lists) and span.when[1]
            alone = alone and not _within_what_is_done(work.text.texts, span.start, far[0])
            if alone and not is_step(work.of[inside[0]]) and not work.limits[inside[0]][1].unnamed:
                limit = work.limits[inside[0]][0].starts[0]
                work.conditioned.append(Conditioned(start, end, span.when, limit, work.of[inside[0]]))
            else:
                work.unread.append((start, end))
        kept = [i for i in range(len(work.limits)) if i not in gone]
        work.of = [work.of[i] for i in kept]
        work.limits = [work.limits[i] for i in kept]


def _within_what_is_done(texts: list[str], at: int, end: int) -> bool:
    """`(c) cleaning the fibres with a solution having a content of 5 g/L if ...`: does the step depend?"""
    while at < end and (
        texts[at] in ("and", "(", ")", "further") or (len(texts[at]) == 1 and texts[at + 1] == ")")
    ):
        at += 1
    of_a_thing = ("having", "with", "containing", "comprising", "which", "that")
    return at < end and gerund(texts[at]) and not set(of_a_thing).isdisjoint(texts[at + 1 : end])


def _holds(work: Work, span: Held, index: int, stretch: Stretch) -> bool:
    """Whether a limit stands in such a stretch and is one of what is conditional."""
    if not span.start <= stretch.starts[0] < span.end or stretch.condition:
        return False
    if a_parameter(work.text, stretch.starts[0]):
        return False
    item = next((i for i in work.items if i.start <= stretch.start < i.end), None)
    return not (item is not None and item.conditional and is_step(work.of[index]))


# ---- conditions


def _conditions(text: ClaimText) -> list[Held]:
    """What each condition governs: what follows its comma, else what stands before it."""
    texts, found = text.texts, list[Held]()
    for at in places(text, *words("limits", "governing"), *runs("limits", "provisos"), "where", "for"):
        width = _condition_at(texts, at)
        if not width or at in text.referring:
            continue
        close = close_of(texts, at + width)
        ahead = at == 0 or texts[at - 1] in _BEFORE
        if ahead and close < len(texts) - 2 and texts[close] == "," and _goes_on(texts, close + 1):
            found.append(Held(at, _far(texts, close + 1), at, close, (at, close)))
        elif at > 3 and texts[at - 1] not in ENDS | CLAUSES and texts[close : close + 1] != ["then"]:
            begin = _back(texts, at)
            found.append(Held(begin, close, 0, close, (at, close)))
        elif width > 1 or ahead:
            found.append(Held(at, close, at, close))
    return found


def _condition_at(texts: list[str], at: int) -> int:
    """How many words of a condition stand here: 'if', 'provided that'; 0 for 'when measured', 'until'."""
    if width := run_at(texts, at, "limits", "provisos"):
        return width
    after = texts[at + 1] if at + 1 < len(texts) else "."
    if texts[at] == "if" and run_at(texts, at, "limits", "closings"):
        return 0
    if texts[at] == "where":
        return int(texts[at - 1 : at] == [","] and texts[at - 2 : at - 1] == ["wherein"])
    if texts[at] == "for":
        return int(_for_such(texts, at))
    if texts[at] not in words("limits", "governing"):
        return 0
    state = (
        after.endswith("ed")
        or (texts[at] == "while" and after not in _DETERMINERS)
        or after in words("limits", "states")
        or not after[0].isalpha()
    )
    return int(not state)


def _for_such(texts: list[str], at: int) -> bool:
    """`does not exceed 80 ms for a speed greater than 120 km/h`: a limit, and for what it holds."""
    limited = any(t[0].isdigit() for t in texts[max(0, at - 3) : at])
    behind = texts[at + 2 : at + 7]
    compared = next((i for i, t in enumerate(behind) if t in _COMPARED), 0)
    return limited and texts[at + 1 : at + 2] in (["a"], ["an"], ["any"]) and compared > 0


_COMPARED = frozenset(
    "greater less more higher lower smaller larger above below exceeding over under".split()
)


def close_of(texts: list[str], at: int) -> int:
    """Where the clause of a condition ends: at a comma that parts no list, a semicolon, a new clause."""
    for i in range(at, len(texts)):
        if texts[i] in ENDS | CLAUSES:
            return i
        joined = texts[i + 1 : i + 2] in (["and"], ["or"])
        behind = texts[i + 2] if joined and texts[i + 1] == "and" and i + 2 < len(texts) else ""
        anew = behind in _DETERMINERS or (behind.endswith("ing") and behind not in _COMPARED)
        if texts[i] == "then" or (texts[i] == "," and (anew or not joined)):
            return i
    return len(texts)


def _goes_on(texts: list[str], at: int) -> bool:
    """Whether the sentence goes on behind a condition's comma with what holds on it."""
    return not (run_at(texts, at, "limits", "provisos") or texts[at] in CLAUSES | {"preferably", "further"})


def _far(texts: list[str], at: int) -> int:
    """How far what holds on a condition may reach: to a semicolon, a full stop, another clause."""
    for i in range(at, len(texts)):
        if texts[i] in ENDS | CLAUSES or texts[i : i + 2] == ["further", "comprising"]:
            return i
    return len(texts)


def _back(texts: list[str], at: int) -> int:
    """Where the clause begins that a condition behind it governs."""
    at -= texts[at - 1] == ","
    for i in range(at - 1, -1, -1):
        if texts[i] == "," and _preferring(texts, i + 1):
            continue
        if texts[i] in ENDS | CLAUSES or texts[i] in (",", "that", "which"):
            return i + 1
        if texts[i] == "and" and (
            texts[i + 1] == "to" or texts[i + 1].endswith("ing") or _set_up(texts, i + 1)
        ):
            return i + 1
    return 0


def _set_up(texts: list[str], at: int) -> bool:
    """Whether a thing begins here that is made to do something, 'a controller configured to'."""
    made = next((i for i in range(at + 1, min(at + 6, len(texts) - 1)) if texts[i] in _MADE), 0)
    return texts[at] in _DETERMINERS and made > 0 and texts[made + 1] == "to"


_MADE = frozenset("configured adapted arranged designed operable set programmed".split())


def nounish_before(texts: list[str], at: int) -> bool:
    """Whether a noun with an article ends here: 'a specific volume' of 'a specific volume of the loaf'."""
    start = noun_start(texts, at)
    return 0 < start < at and texts[start - 1] in _DETERMINERS


def _preferring(texts: list[str], at: int) -> bool:
    """Whether ', preferably 6 mL/g or greater' or ', and in any case less than 40 ms' begins here."""
    return run_at(texts, at, "clauses", "examples") > 0


# ---- what may be there or not, one of two


def _optional(text: ClaimText) -> list[Held]:
    """What 'optionally', 'may' or 'can' leaves free: a limit of it is none of the thing."""
    texts, found = text.texts, list[Held]()
    for at in places(text, *words("limits", "leaving_free")):
        found.append(Held(at + 1, part_end(texts, at), at, at + 1))
    return found


def _portions(text: ClaimText) -> list[Held]:
    """'Of which at least 15 cm is covered': a part of what stands before, and another quantity than that."""
    texts, found = text.texts, list[Held]()
    for at in places(text, "of"):
        so_much = at + 2 < len(texts) and (
            texts[at + 2] in words("limits", "inside") or texts[at + 2][0].isdecimal()
        )
        if texts[at + 1] in ("which", "whom") and (texts[at - 1] == "," or so_much):
            end = part_end(texts, at)
            found.append(Held(at + 2, end, at, end))
    return found


def _not_for_long(text: ClaimText) -> list[Held]:
    """'Does not exceed 38 degC for more than 10 minutes': a limit that may be broken for a while."""
    texts, found = text.texts, list[Held]()
    for at in places(text, "not", "never"):
        end = part_end(texts, at)
        long = next((i for i in range(at, end - 1) if texts[i] == "for" and texts[i + 1] in _LONG), 0)
        if long and any(t[0].isdigit() for t in texts[at:long]):
            found.append(Held(at, end, at, end))
    return found


def _alternatives(work: Work) -> list[Held]:
    """Two limits with an 'or' between them, of which one is enough: neither holds by itself."""
    texts, found = work.text.texts, list[Held]()
    for (a, _), (b, _) in pairwise(work.limits):
        begin, end = max(a.end, a.farther), b.starts[0]
        between = texts[begin:end]
        if "or" not in between or len(between) > 2 * MOST_BETWEEN or not ENDS.isdisjoint(between):
            continue
        at = begin + between.index("or")
        if texts[at + 1] in words("limits", "better"):
            continue
        if at - begin > MOST_BETWEEN or end - at > MOST_BETWEEN or "and" in between or "wherein" in between:
            continue
        first, last = _part(texts, a.starts[0], b.end)
        earliest = min(s.starts[0] for s, _ in work.limits if s.starts[0] >= first)
        found.append(Held(first, last, _with_noun(texts, earliest), b.end))
    return found


def _part(texts: list[str], start: int, end: int) -> tuple[int, int]:
    """Where the part of a sentence begins and ends that holds two limits with an 'or' between."""
    parting = ENDS | CLAUSES | {",", "and", "having", "with", "comprising"}
    first = next((i + 1 for i in range(start - 1, -1, -1) if texts[i] in parting), 0)
    return first, next((i for i in range(end, len(texts)) if texts[i] in parting), len(texts))


def _with_noun(texts: list[str], at: int) -> int:
    """Where the words begin that name what a limit here is of, with an 'either' before them."""
    noun = at - (texts[at - 1] in ("of", "is", "at", "to"))
    start = noun_start(texts, noun)
    start -= start < noun and start > 0 and texts[start - 1] in _DETERMINERS
    start = start if start < noun else at
    while start > 2 and start < at and texts[start - 1] == "of" and nounish_before(texts, start - 1):
        start = noun_start(texts, start - 1)
        start -= texts[start - 1] in _DETERMINERS
    return start - (start > 0 and texts[start - 1] == "either")
