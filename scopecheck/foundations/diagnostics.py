"""What is wrong with a sheet, as data. Drawing it is `drawing.draw`; nothing here prints."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Literal, TypeAlias

from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Span

Severity: TypeAlias = Literal["error", "warning", "note"]


@record
class Diagnostic:
    """One located message: what is wrong, why, and what to write instead. `also` marks further places."""

    severity: Severity
    span: Span
    message: str
    cause: str = ""
    help: str = ""
    also: tuple[tuple[Span, str], ...] = field(default=())
    read_past: tuple[str, ...] = ()
    """The words of a line that the message says are read past."""


def read_past_warning(span: Span, words: Iterable[str], cause: str, help: str) -> Diagnostic:
    """That these runs of words of a line are read past."""
    runs = tuple(words)
    said, are = "' and '".join(runs), "are" if len(runs) > 1 else "is"
    return Diagnostic("warning", span, f"'{said}' {are} read past", cause, help, read_past=runs)


def may_have_an_edit(d: Diagnostic) -> bool:
    """Is it of what is refused, or does it tell a line to write instead?"""
    return d.severity == "error" or (": " in d.help and " : " in d.help)


class Trouble(Exception):
    """A diagnostic on its way to the list; raised where a statement cannot be read any further."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic


class KindTrouble(Trouble):
    """Values of different kinds in one formula. For a reading: it makes no sense at this place."""


def trouble(
    span: Span, message: str, cause: str = "", help: str = "", also: tuple[tuple[Span, str], ...] = ()
) -> Trouble:
    """An error at a place, ready to raise."""
    return Trouble(Diagnostic("error", span, message, cause, help, also))


def nearest(word: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The known words most like `word`, best first; ignores case; empty if none is near."""
    by_lower = {name.lower(): name for name in known}
    return tuple(by_lower[w] for w in get_close_matches(word.lower(), list(by_lower), most, 0.6))


def edits(a: str, b: str) -> int:
    """Edits (insert, drop, replace a letter) from a to b."""
    row = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        last, row[0] = row[0], i
        for j, y in enumerate(b, 1):
            last, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, last + (x != y))
    return row[-1]


def slip_for(word: str, known: Iterable[str]) -> str:
    """The known word that `word` is a slip for, of one letter or, in a long word, of two; '' if none is.

    Stricter than `nearest`: of what may as well be another word, it says nothing.
    """
    alike = ((edits(w, word), w) for w in known if w[:1] == word[:1])
    slips = [(far, w) for far, w in alike if 0 < far <= 1 + (len(w) >= _LONG)]
    return min(slips)[1] if slips else ""


_LONG = 7
"""So many letters make a word in which two of them may be wrong."""


def quoted_list(words: Iterable[str], joined: str = "or") -> str:
    """`'a', 'b' or 'c'`, for messages."""
    items = [f"'{word}'" for word in words]
    return f" {joined} ".join([", ".join(items[:-1]), items[-1]]) if len(items) > 1 else "".join(items)


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A help sentence with the nearest known words, or '' when none is near."""
    near = nearest(word, known)
    return f"did you mean {quoted_list(near)}?" if near else ""
