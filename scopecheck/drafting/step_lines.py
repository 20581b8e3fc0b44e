"""Lines about the steps of a method: its list, how long one takes, when it is done, on which condition."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.drafting.beside import label_end
from scopecheck.drafting.draft import Proposed, Quantity
from scopecheck.drafting.going_on import condition_end, goes_beside
from scopecheck.drafting.limits import Stretch, uncut
from scopecheck.drafting.marks import takes, takes_at, words_at
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.stepped import is_step, step_at, step_before
from scopecheck.drafting.work import Work
from scopecheck.foundations.word_lists import run_at, runs, runs_in_order, words
from scopecheck.resolve.account import ORDER_WORDS

MOST_WORDS = 6
"""How many words behind a word of time what it speaks of may take."""
_NOT = ("not", "no", "never")
_ONWARDS = ("then", "thereafter", "subsequently", "followed")
"""Words that stand before the later of two steps."""


def propose_list(work: Work, readable: Readable) -> None:
    """A line for the list of steps, if two or more of them are to be done in any case."""
    steps = [i.step for i in work.items if not i.conditional and i.step in readable.names.steps]
    start, end = work.listing
    if len(steps) < 2:
        lost = any(i.step in readable.names.steps for i in work.items)  # the rest is done on a condition only
        work.unread += [(start, end)] if lost and end else []
        return
    words, names = words_at(work.text, start, end), ", ".join(steps)
    if readable.reads(words, names) and takes(work.text, words, start, end):
        work.claim.lines.append(Proposed(words, names, asked=True))


def propose_duration(work: Work, stretch: Stretch, step: Quantity, readable: Readable) -> None:
    """A line for how long a step takes: of the step where its list says it, else of its duration."""
    if any(i in work.text.taken for i in range(stretch.starts[-1], stretch.end)):
        return
    before = stretch.starts[0] - 1
    listed = any(i.step == step.name and i.start < before < i.end for i in work.items)
    starts = [before] if listed and work.text.texts[before] == "for" else []
    ends = [end for end in (stretch.farther, stretch.end) if end]
    for end, start in ((end, start) for end in ends for start in (*starts, *uncut(work.text.texts, stretch))):
        name = step.name if start in starts else f"duration of {step.name}"
        words = words_at(work.text, start, end)
        if readable.reads(words, name) and takes(work.text, words, start, end):
            work.claim.lines.append(Proposed(words, name, asked=True))
            return
    work.unread.append((stretch.starts[0], stretch.end))


def held_lines(work: Work, readable: Readable) -> dict[int, Proposed | None]:
    """Lines on how long a step takes that is done on a condition, with it; by the limits that need no other.

    By itself 'for 2 minutes' would ask that the step is done. What no phrase reads whole is marked.
    """
    held: dict[int, Proposed | None] = {}
    for item in (i for i in work.items if i.conditional):
        inside = [i for i, (s, _) in enumerate(work.limits) if item.start <= s.starts[0] < item.end]
        lasting = [i for i in inside if is_step(work.of[i]) and work.of[i].name == item.step]
        on = [i for i in inside if item.start <= work.limits[i][0].condition < item.end and i not in lasting]
        if not lasting or not on:
            continue
        held.update(dict.fromkeys(lasting))
        if len(lasting) == len(on) == 1 and (
            line := _held_whole(work, item.step, lasting[0], on[0], readable)
        ):
            held.update({max(lasting[0], on[0]): None, min(lasting[0], on[0]): line})
            continue
        work.unread += [(work.limits[i][0].starts[0], work.limits[i][0].end) for i in lasting]
    return held


def _held_whole(work: Work, step: str, lasting: int, on: int, readable: Readable) -> Proposed | None:
    """A line on a step and on its condition, if one can be: 'for 2 minutes when the current exceeds 2 A'."""
    texts, long, when = work.text.texts, work.limits[lasting][0], work.limits[on][0]
    if any(_stops(texts, i) for i in range(min(long.starts[0], when.condition), when.condition)):
        return None
    begin = long.starts[0] - (texts[long.starts[0] - 1] == "for")
    spans = sorted([(begin, long.end), (when.condition, when.end)])
    names = f"{step}, {work.of[on].name}"
    places = [i for start, end in spans for i in range(start, end)]
    if any(i in work.text.taken for i in places) or step not in readable.names.steps:
        return None
    joined = " " if spans[0][1] == spans[1][0] else " ... "
    said = joined.join(words_at(work.text, start, end) for start, end in spans)
    if not readable.reads(said, names) or not takes_at(work.text, said, tuple(places)):
        return None
    return Proposed(said, names, asked=True)


def propose_if(work: Work, stretch: Stretch, thing: Quantity, readable: Readable) -> None:
    """A line for a step that is done on a condition: the step and the thing left of the colon."""
    texts, at = work.text.texts, stretch.condition
    end = condition_end(work.text, stretch)
    only = at - (texts[at - 1] in words("limits", "only_then"))
    before = len(work.claim.lines)
    if not goes_beside(texts, stretch.end) and not _several(work, stretch):
        _propose_if(work, stretch, thing, readable, (only, end))
    if len(work.claim.lines) == before:
        work.unread.append((only, end))


def _several(work: Work, stretch: Stretch) -> bool:
    """Whether the condition that a limit is has others."""
    return len([s for s, _ in work.limits if s.condition == stretch.condition]) > 1


def _propose_if(
    work: Work, stretch: Stretch, thing: Quantity, readable: Readable, whole: tuple[int, int]
) -> None:
    texts, at, (only, end) = work.text.texts, stretch.condition, whole
    step, begin = next(((i.step, i.start) for i in work.items if i.start <= at < i.end), ("", at))
    names = f"{step}, {thing.name}"
    if stop := next((i for i in range(begin, at) if _stops(texts, i)), 0):
        # 'Is interrupted when': on the condition the step is not done, and the words before it say so.
        omitted = words_at(work.text, stop, end)
        if readable.reads(omitted, names) and takes(work.text, omitted, stop, end):
            work.claim.lines.append(Proposed(omitted, names, asked=True))
        else:
            work.unread.append((stop, end))
        return
    if step not in readable.names.steps or any(i in work.text.taken for i in range(only, end)):
        return
    said = words_at(work.text, only, end)
    if readable.reads(said, names) and takes(work.text, said, only, end):
        work.claim.lines.append(Proposed(said, names, asked=True))
        return
    if only < at or end > stretch.end:
        return
    for start in uncut(texts, stretch):
        said = f"{texts[at]} ... {words_at(work.text, start, stretch.end)}"
        if readable.reads(said, names) and takes_at(work.text, said, (at, *range(start, stretch.end))):
            work.claim.lines.append(Proposed(said, names, asked=True))
            return


def _stops(texts: list[str], at: int) -> bool:
    """Whether a word says that something is not done: 'stopped', 'not' before no number."""
    return texts[at] in words("limits", "stopping") and not (
        texts[at] in _NOT and any(t[0].isdecimal() for t in texts[at + 1 : at + 4])
    )


def propose_sequence(work: Work, readable: Readable) -> None:
    """A line for 'steps (i) to (v) are carried out in this order', if these are all; else a mark."""
    texts = work.text.texts
    for at in sorted(at for word in runs("limits", "in_order") for at in work.text.where.get(word, ())):
        width = run_at(texts, at, "limits", "in_order")
        if not width or at in work.text.taken or at in work.text.referring:
            continue
        near = range(at - 1, max(-1, at - MOST_OF_ORDER), -1)
        begin = next((i for i in near if texts[i] in ("steps", "step")), at)
        begin -= begin > 0 and texts[begin - 1] in ("the", "said", "these")
        labels = [texts[i] for i in range(begin, at) if texts[i - 1] == "(" and texts[i + 1] == ")"]
        listed = [item.label for item in work.items]
        everything = begin < at and (not labels or (labels == [listed[0], listed[-1]] if listed else False))
        everything = everything and (not labels or "to" in texts[begin:at] or len(listed) == 2)
        names = ", ".join(item.step for item in work.items) if everything else ""
        known = len(work.items) > 1 and all(i.step in readable.names.steps for i in work.items)
        words_ = words_at(work.text, at, at + width)
        if names and known and readable.reads(words_, names) and takes(work.text, words_, at, at + width):
            work.claim.lines.append(Proposed(words_, names, asked=True))
        else:
            work.unread.append((begin, at + width))


MOST_OF_ORDER = 20
"""How many words before 'in this order' the steps are looked for."""


def propose_order(work: Work, readable: Readable) -> None:
    """Lines for words of time that set one declared step beside another."""
    names = frozenset(step.name for step in readable.names.steps.values())
    if not names:
        return
    text, nouns = work.text, words("measures", "nouns")
    within = {s.end for s in work.after if s.end < len(text.texts)}
    said = sorted(
        within.union(at for word in ORDER_WORDS.intersection(text.where) for at in text.where[word])
    )
    for at in said:
        word = text.texts[at]
        measured = text.texts[at - 1] in nouns  # 'the temperature after kneading'
        if at in text.taken or at in text.referring or measured:
            continue
        if held := _on_condition(work, at):
            work.unread.append(held)
            continue
        step = step_before(work, at) if word in _ONWARDS else step_at(work, at, names)
        for start, end in _tried(work, at, names) if step else ():
            stretch = words_at(work.text, start, end)
            if readable.reads(stretch, step) and takes(work.text, stretch, start, end):
                work.claim.lines.append(Proposed(stretch, step, asked=True))
                break


def _on_condition(work: Work, at: int) -> tuple[int, int] | None:
    """The words of what is done on a condition only, and when, outside the list of steps."""
    if any(i.start <= at < i.end for i in work.items):
        return None
    texts = work.text.texts
    for held in work.held:
        if held.when[1] and held.start <= at < held.end and not held.when[0] <= at < held.when[1]:
            ahead = held.when[0] < at
            far = next((i for i in range(at, held.end) if texts[i] in (",", ";", ".")), held.end)
            return (held.when[0], far) if ahead else (held.start, max(held.end, held.least))
    return None


def _tried(work: Work, at: int, names: frozenset[str]) -> Iterator[tuple[int, int]]:
    """The stretches around a word of time that a phrase may read, up to a step or beyond, longest first."""
    texts = work.text.texts
    timed = next((s.starts[0] for s in work.after if s.end == at), at)
    leads = runs_in_order("beside", "so_long") if timed < at else []
    timed -= next((len(run) for run in leads if texts[timed - len(run) : timed] == run), 0)
    close = at - (texts[at - 1] in ("immediately", "directly", "right", "shortly", "not"))
    far = next((i for i in range(at + 1, len(texts)) if texts[i] in (",", ";", ":", ".")), len(texts))
    first = next((i for i in range(at + 1, min(far, at + MOST_WORDS)) if texts[i] in names), far)
    lettered = (i for i in range(at + 1, min(far, at + MOST_WORDS)) if label_end(texts, i))
    if (label := next(lettered, 0)) and work.steps.get(texts[label_end(texts, label) - 2], "") in names:
        for start in dict.fromkeys((timed, close, at) if timed == at else (timed,)):
            yield start, label_end(texts, label)
    for start in dict.fromkeys((timed, close, at) if timed == at else (timed,)):
        for end in range(min(far, at + MOST_WORDS), first, -1):
            if texts[end - 1] not in words("nouns", "determiners"):
                yield start, end
