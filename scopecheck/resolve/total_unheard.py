"""Words that say 'in total' or 'together' of several amounts, of which what is read adds up none.

`Each of A and B is at most 3 wt% in total` is a limit of the sum, or one of each: none may be heard alone.
"""

from __future__ import annotations

from scopecheck.core.construction import names_in, nodes
from scopecheck.core.declared import Composition
from scopecheck.core.formula import Add, Branch, Formula, Negate, Term
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject
from scopecheck.resolve.not_so import IN_SYMBOLS
from scopecheck.vocabulary.names import Typed

_ALONE = frozenset("together altogether combined collectively cumulatively".split())
_BEHIND_IN = frozenset("total sum aggregate".split())
_SUMMED = listed("limits", "summed_amounts")


def total_unheard(words: Words, subjects: tuple[Subject, ...], formula: Formula) -> Trouble | None:
    """Why words that tell a total are not to be read so; None where a sum was read, or none is told.

    Of several numbers of one kind, or of a composition; what only one of them is said to be in total is that.
    """
    names = _added(subjects)
    tokens = tuple(t for t in words.tokens if t.sort != "gap")
    said = [word_of(t) for t in tokens]
    places = _named(said, names)
    for at, end in _totals(said, names):
        of = _governed(tokens, said, places, at, end)
        several = len(of) > 1 or (not places and len(subjects) > 1)
        if several and not _adds_up(formula):
            sum_of = [name for name in names if name in of] or names
            run = " ".join(t.text for t in tokens[at:end])
            return trouble(
                words.span,
                f"'{run}' tells a sum, and what is read of these words adds up nothing",
                "The other words speak of each of them by itself.",
                f"of a sum, write it left of the colon: {' + '.join(sum_of)}; or {IN_SYMBOLS}",
            )
    return None


def _added(subjects: tuple[Subject, ...]) -> tuple[str, ...]:
    """The names of what may be added up; none of steps, lists, parts and numbers of several kinds."""
    made = subjects[0].bound if len(subjects) == 1 else None
    if isinstance(made, Composition):
        return (*made.members, *(name for name, _ in made.classes))
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.parts is None]
    alike = len(bounds) == len(subjects) > 1 and len({b.kind.dimension for b in bounds if b.kind}) == 1
    return tuple(s.text for s in subjects) if alike else ()


def _adds_up(formula: Formula) -> bool:
    """Does any reading hold a sum of several things?"""
    sums = (n.items for n in nodes(formula) if isinstance(n, Add))
    for items in sums:
        added = [
            i for i in items if not isinstance(i, Negate) and not any(isinstance(n, Branch) for n in nodes(i))
        ]
        if len({name for i in added for name in names_in(i)}) > 1:
            return True
    return False


def _takes_away_or_counts(term: Term) -> bool:
    return isinstance(term, Negate) or any(isinstance(n, Branch) for n in nodes(term))


def _named(said: list[str], names: tuple[str, ...]) -> list[tuple[int, str]]:
    """Where which of the things is named, a longer name before a shorter one."""
    found, at = list[tuple[int, str]](), 0
    runs = sorted(((n.lower().split(), n) for n in names), key=lambda run: -len(run[0]))
    while at < len(said):
        run, name = next(((r, n) for r, n in runs if said[at : at + len(r)] == r), ([], ""))
        found += [(at, name)] if name else []
        at += len(run) or 1
    return found


def _totals(said: list[str], names: tuple[str, ...]) -> list[tuple[int, int]]:
    """Where words that tell a total stand, and end; 'together with' and 'combined height' are none."""
    found = list[tuple[int, int]]()
    if not names:
        return found
    amounts = listed("asides", "of_shares")
    own = {name.lower().split()[0] for name in names}
    for at, word in enumerate(said):
        behind = said[at + 1] if at + 1 < len(said) else ""
        if word in _ALONE and behind not in amounts | own | {"with"}:
            found.append((at, at + 1))
        elif word == "in" and behind in _BEHIND_IN:
            found.append((at, at + 2))
        elif word == "in" and behind in ("a", "an", "the"):
            measured = said[at + 2 : at + 3] in ([w] for w in _SUMMED) and said[at + 3 : at + 4]
            if (measured and measured[0] in amounts) or said[at + 2 : at + 3] in (["sum"], ["total"]):
                found.append((at, at + 4 if measured and measured[0] in amounts else at + 3))
    return found


def _governed(
    tokens: tuple[Token, ...], said: list[str], places: list[tuple[int, str]], at: int, end: int
) -> set[str]:
    """The names of what is so much in total: those that share the limit before the words, or behind them."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    limit = next((i for i in numbers if i >= end), None)
    if limit is not None and not any(end <= i < limit for i, _ in places):
        before = max((i for i in numbers if i < at), default=-1)
        named = {name for i, name in places if before < i < at}
        follows = next((i for i in numbers if i > limit and any(limit < p < i for p, _ in places)), len(said))
        return named or {name for i, name in places if limit < i < follows}
    last = max((i for i in numbers if i < at), default=-1)
    behind = {name for i, name in places if last < i < at}
    if behind and said[at - 1] != ",":
        return behind
    if said[at - 1] == ",":
        return {name for i, name in places if i < at}
    near = [i for i, _ in places if i < last]
    first = max((n for n in numbers if near and n < near[-1]), default=-1)
    return {name for i, name in places if first < i < at}
