"""Declared quantities that words call by what is measured: 'length of the rod', 'total number of bars'."""

from __future__ import annotations

from functools import cache

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.kinds import dimension_name
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.vocabulary.names import Names

_KIND_OF = {
    "weight": "mass", "height": "length", "width": "length", "thickness": "length", "diameter": "length",
    "depth": "length", "radius": "length", "duration": "time", "velocity": "speed",
}  # fmt: skip
_MEASURE = regex(r"(?:(?:total|overall) )?([a-z]+) of (?:the |said |a |an )?(.+)")


def called(names: Names, words: str) -> NumberDecl | None:
    """The quantity that words such as 'length of the rod' name; None if no declaration says so.

    A length may be declared of any measure of a thing: 'width of the gap' is `gap width`, but `gap` only if
    its note has the word, and 'length of the gap' is not `gap` where its note speaks of another measure.
    """
    found = _MEASURE.fullmatch(words.lower())
    if found is None:
        return None
    measure, thing = found.groups()
    for name in (f"{thing} {measure}", f"{measure} of {thing}"):
        if isinstance(said := names.declared(name), NumberDecl):
            return said
    made = names.declared(thing)
    if not isinstance(made, NumberDecl):
        return _noted(names, measure, thing)
    if measure in ("number", "count"):
        return made if made.whole and made.kind == PLAIN_KIND else None
    if measure in listed("asides", "of_shares") and not made.whole and made.kind != PLAIN_KIND:
        return made if made.kind.adds_up or not made.kind.dimension else None
    kind = _KIND_OF.get(measure, measure)
    if not made.kind.dimension or dimension_name(made.kind.dimension) != kind:
        return None
    noted = {w for w in regex(r"[a-z]+").findall(made.note.lower()) if w == kind or _KIND_OF.get(w) == kind}
    return made if noted == {measure} or (not noted and measure not in _KIND_OF) else None


def _noted(names: Names, measure: str, thing: str) -> NumberDecl | None:
    """The one quantity whose note says just this: `planets`, noted as "planet gears" or their number."""
    counted = measure in ("number", "count")
    meant = {f"{measure} of {thing}", *([thing] if counted else ())}
    found = [
        d
        for d in names.declarations.values()
        if isinstance(d, NumberDecl) and _bare(d.note) in meant and (d.whole or not counted)
    ]
    return found[0] if len(found) == 1 else None


@cache
def _bare(note: str) -> str:
    """A note without its articles, in small letters."""
    return " ".join(w for w in note.lower().split() if w not in ("the", "a", "an"))
