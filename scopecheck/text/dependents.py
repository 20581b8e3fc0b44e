"""Dependent claims by their words: of another category than their parent, and how they name it."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.foundations.word_lists import words as listed
from scopecheck.text.claim_set import Set
from scopecheck.text.flags import Flag
from scopecheck.text.stream import Stream


def categories(all_: Set, number: int) -> Iterator[Flag]:
    """A claim that depends on another and is to something of another kind."""
    stream = all_.streams[number]
    heads = [m.head for m in all_.mentions[number][:1]]
    parents = [(p, m.head) for p in stream.parents for m in all_.mentions[p][:1]]
    if not heads or not parents or not stream.barred:
        return
    reference = min(stream.barred)
    before = {w.stem for w in stream.words[:reference]}
    for parent, head in parents:
        if head in before or _same_kind(all_, heads[0], parent, head) or _goes_on(all_, heads[0], parent):
            continue
        span, shown = stream.span(0, max(stream.barred) + 1), stream.shown(0, _first_end(stream))
        named = {"own": stream.shown(0, all_.mentions[number][0].end), "parent": parent,
                 "other": all_.streams[parent].shown(0, all_.mentions[parent][0].end)}  # fmt: skip
        yield Flag("category", "category", number, shown, span, named)
        return


def _goes_on(all_: Set, own: str, parent: int) -> bool:
    """Does the noun of the parent end in that word, which was not taken for one: `a compression stocking`?"""
    end = all_.mentions[parent][0].end
    return any(w.stem == own for w in all_.streams[parent].words[end : end + 1])


def _first_end(stream: Stream) -> int:
    first = min(stream.barred)
    return next((i for i in range(first, len(stream.words)) if i not in stream.barred), len(stream.words))


_OF_SEVERAL = frozenset(("system", "kit", "set"))
"""What these words name has several things in it: none of them is a shorter name of a server or a lid."""


_PARTS = frozenset("frame handle blade holder mount bracket cover insert support tip head".split())
"""What these are of is another thing: a window is no window frame."""


def _same_kind(all_: Set, own: str, parent: int, other: str) -> bool:
    process = listed("mention", "process")
    if (own in process) != (other in process):
        return False
    if own in process:
        return (own == "use") == (other == "use")
    generic = listed("mention", "generic")
    words = {w.stem for m in all_.mentions[parent][:1] for w in all_.streams[parent].words[m.first : m.end]}
    shorter = own in generic and own not in _OF_SEVERAL
    return own == other or shorter or other in generic or (own in words and other not in _PARTS)


def forms(all_: Set, number: int, profile: str) -> Iterator[Flag]:
    """References that name no claim before, all of several claims at once, or claims that name several."""
    stream = all_.streams[number]
    for index, (start, end) in enumerate(stream.places()):
        words, span = stream.shown(start, end), stream.span(start, end)
        named = stream.references[index].numbers
        if not named:
            continue
        missing = [n for n in named if n not in all_.streams]
        if number in named:
            yield Flag("reference form", "itself", number, words, span)
        elif missing:
            yield Flag("reference form", "not_there", number, words, span, {"named": tuple(missing)})
        elif any(n > number for n in named):
            later = tuple(n for n in named if n > number)
            yield Flag("reference form", "later", number, words, span, {"named": later})
        elif profile != "EPO":
            yield from _several(all_, stream, index, start, end)


def _several(all_: Set, stream: Stream, index: int, start: int, end: int) -> Iterator[Flag]:
    """How US practice asks several claims to be named: in the alternative, and none that does so itself."""
    named = stream.references[index].numbers
    words, span = stream.shown(start, end), stream.span(start, end)
    if stream.together(index):
        yield Flag("reference form", "cumulative", stream.number, words, span)
        return
    following = stream.places()[index + 1 :][:1]
    if following and following[0][0] - end == 1 and stream.texts[end] == "and":
        both = stream.shown(start, following[0][1])
        yield Flag("reference form", "cumulative", stream.number, both, stream.span(start, following[0][1]))
        return
    multiple = [n for n in named if len(all_.streams[n].parents) > 1]
    if len(named) > 1 and multiple and index == 0:
        form = "multiple" if len(multiple) == 1 else "multiples"
        yield Flag("reference form", form, stream.number, words, span, {"named": tuple(multiple)})
