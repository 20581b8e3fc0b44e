"""A limiting word before the first of several amounts alone: `at most two ribs and three holes`.

It is read of each of them, which a warning tells; where it may as well be said of all of them together, or of
the first alone, nothing is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from scopecheck.core.declared import Assembly, Composition
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import record
from scopecheck.foundations.word_lists import run_at, unusual_forms
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.shared_limits import OF_LIMITS
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_MOST_WORDS = 7
"""Words of an amount and its name, at the most."""
_LEFT_OPEN = frozenset("a an several multiple many some".split())
"""What says that there are such things, and not how many."""
_OF_ITS_OWN = (OF_LIMITS | {"per", "times", "twice", "but"}) - {"and", "or"}
_JOINTS = frozenset(", and or ; with is are".split())
_BEHIND = (["at", "most"], ["or", "less"], ["or", "fewer"], ["maximum"], ["max"], ["only"], ["exactly"])
_FROM_BELOW = frozenset(("least", "minimum", "min"))


@record
class _Item:
    """`three holes`: where it begins and ends, and what else is so of it."""

    start: int
    end: int
    own: bool
    """Whether it has a limit of its own: `three or more holes`."""
    number: bool
    """Whether it begins with a number, and not so: `several holes`."""
    whole: bool
    """Whether things are counted."""


@record
class _Shared:
    """What stands before the first of several amounts, and the later ones that have nothing else."""

    limit: str
    of_all: bool
    """Whether it may be said of all of them together, as `not` and `optionally` may."""
    later: tuple[_Item, ...]


def with_limit_for_all(tokens: Tokens, subjects: Things) -> Tokens:
    """`at most two ribs and three holes` as at most two ribs and at most three holes."""
    shared = (one for one in _shared(tokens, subjects) if not one.of_all)
    before = {item.start: one.limit for one in shared for item in one.later if item.number}
    return tuple(
        word
        for i, t in enumerate(tokens)
        for word in (*(words_at(t, before[i], understood=True) if i in before else ()), t)
    )


def limit_for_all(words: Words, subjects: Things) -> Diagnostic | None:
    """A warning that a limit that is said once is read of each amount; None where none is."""
    tokens = tuple(t for t in words.tokens if t.sort != "gap")
    for one in _shared(tokens, subjects):
        if later := ", ".join(" ".join(t.text for t in tokens[i.start : i.end]) for i in one.later):
            return Diagnostic(
                "warning", words.span, f"'{one.limit}' is read of each amount behind it: of {later}, too",
                "It stands once, before the first of them.",
                "if it is meant of the first alone, put each on a line of its own",
            )  # fmt: skip
    return None


def limit_for_some(tokens: Tokens, subjects: Things) -> tuple[str, str] | None:
    """Why nothing is read where a limit may be one of each amount, of all together, or of one."""
    for one in _shared(tokens, subjects):
        if one.of_all or not all(item.number for item in one.later):
            what = f"nothing tells how far '{one.limit}' reaches"
            return what, "It stands once, before the first of several amounts."
    said = [word_of(t) for t in tokens]
    behind = next((run for run in _BEHIND if said[-len(run) :] == run), [])
    for start in range(len(said)) if behind else ():
        row = list(_row(tokens, said, start, subjects))
        bare = len(row) > 1 and all(item.number and not item.own for item in row)
        if bare and row[-1].end == len(said) - len(behind) and not _limit_before(said, start):
            what = f"nothing tells how far '{' '.join(behind)}' reaches back"
            return what, "It stands once, behind the last of several amounts."
    return None


def _shared(tokens: Tokens, subjects: Things) -> Iterator[_Shared]:
    said, at = [word_of(t) for t in tokens], 0
    names = _names(subjects)
    while names and at < len(said):
        width = run_at(said, at, "said_once", "limits")
        of_all = not width and said[at] in listed("said_once", "of_all")
        width += of_all
        row = list(_row(tokens, said, at + width, subjects)) if width else []
        start = at - (at > 0 and said[at - 1] in listed("said_once", "of_all"))
        first = bool(row) and not row[0].own and not _goes_on(tokens, said, start, subjects)
        later = tuple(takewhile(lambda item: not item.own, row[1:]))
        if not _FROM_BELOW.isdisjoint(said[at : at + width]):
            later = tuple(item for item in later if item.number and not item.whole)
        if first and later:
            of_all = of_all or start < at
            yield _Shared(" ".join(said[start : at + width]), of_all, later)
            at = later[-1].end
        else:
            at += max(width, 1)


def _goes_on(tokens: Tokens, said: list[str], at: int, subjects: Things) -> bool:
    """`two ribs, at most three holes and four pins`: does an amount stand right before, of the same row?"""
    joint = at - (said[at - 1 : at] == ["and"])
    joint -= said[joint - 1 : joint] == [","]
    before = (_item(tokens, said, i, subjects) for i in range(max(0, joint - _MOST_WORDS), joint))
    return joint < at and any(item is not None and item.end == joint for item in before)


def _row(tokens: Tokens, said: list[str], start: int, subjects: Things) -> Iterator[_Item]:
    """The amounts in a row, joined by commas and 'and', that begins at a place."""
    item = _item(tokens, said, start, subjects)
    while item is not None:
        yield item
        at = item.end + (said[item.end : item.end + 1] == [","])
        at += said[at : at + 1] == ["and"]
        item = _item(tokens, said, at, subjects) if at > item.end else None


def _item(tokens: Tokens, said: list[str], start: int, subjects: Things) -> _Item | None:
    """The amount of one thing that begins at a place: a number, or a limit, and the name behind it."""
    for at in range(start + 1, min(start + _MOST_WORDS, len(said))):
        if said[at - 1] in _JOINTS and said[at : at + 1] not in (["more"], ["less"], ["fewer"]):
            return None
        for name, whole in _names(subjects):
            end = at + len(name)
            if not _is_name(said[at:end], name):
                continue
            number = has_number(tokens[start])
            own = not _OF_ITS_OWN.isdisjoint(said[start:at]) or said[end : end + 1] == ["than"]
            own = own or sum(map(has_number, tokens[start:at])) > 1 or _is_open_behind(said, end)
            if number or own or (whole and said[start] in _LEFT_OPEN):
                return _Item(start, end, own, number, whole)
            return None
    return None


def _is_open_behind(said: list[str], at: int) -> bool:
    """`three holes or more`, before another amount."""
    return (
        said[at : at + 1] == ["or"]
        and said[at + 1 : at + 2] in (["more"], ["less"], ["fewer"])
        and at + 2 < len(said)
    )


def _names(subjects: Things) -> list[tuple[list[str], bool]]:
    """The names of what may be counted or have an amount, and whether it is counted."""
    found = list[tuple[list[str], bool]]()
    for s in subjects:
        if isinstance(s.bound, Composition | Assembly):
            found += [(m.lower().split(), isinstance(s.bound, Assembly)) for m in s.bound.members if m]
        elif isinstance(s.bound, Typed) and len(subjects) > 1:
            found.append((s.text.lower().split(), s.bound.whole))
    return found


def _is_name(said: list[str], name: list[str]) -> bool:
    if len(said) != len(name) or said[:-1] != name[:-1]:
        return False
    one, other = said[-1], name[-1]
    return one.removesuffix("s") == other.removesuffix("s") or one in unusual_forms(other)


def _limit_before(said: list[str], start: int) -> bool:
    """Does a limiting word end right before a place?"""
    return any(
        at + run_at(said, at, "said_once", "limits") == start for at in range(max(0, start - 4), start)
    )
