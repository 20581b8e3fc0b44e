"""Which entries may read words of the things left of the colon, and what may fill their slots."""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import SetDecl
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.reading_lines import A_MOMENT
from scopecheck.language.scan import Token
from scopecheck.matching.chart import Fill, word_of
from scopecheck.matching.line_words import OF_EXTENTS, LineWords
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.shared_limits import (
    asked_in_any_case,
    excludes_a_value,
    goes_on_surely,
)
from scopecheck.matching.subjects import is_bare_share
from scopecheck.matching.unfit import is_of_moments
from scopecheck.occurrences.readings import RELATIVE, is_kind
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.names import Typed

_BUT_PREFERRED = "preferably (limit c) but (limit d)"

_SORTS = frozenset(("parts", "classes", "sequences", "steps", "moments", "switches", "conditions"))
"""What phrases are made for, and read no words of anything else."""


def applies(job: LineWords, entry: Entry) -> bool:
    if job.sort in ("steps", "sequences") and not entry.only_for:
        return _joins(entry)
    if job.sort or _SORTS & set(entry.only_for):
        fits = job.sort in entry.only_for
        return fits and (entry.each_has != A_MOMENT or is_of_moments(job))
    extents = len(job.subjects) > 1 and entry.subjects[1:2] == OF_EXTENTS
    if extents and not job.are_extents and not entry.settled:
        return False
    if not entry.only_for:
        return not (isinstance(job.first, SetDecl) and _of_numbers(entry))
    if "deviations" in entry.only_for:
        return job.is_deviation
    return any(is_kind(job.first, kind) for kind in entry.only_for)


def agree(job: LineWords, entry: Entry, fills: tuple[Fill, ...]) -> bool:
    """Does what fills the slots go together? Of a preference: is it one, and of what?"""
    limits = tuple(f.tokens for f in fills if f.slot.kind == "limit") if prefers(entry) else ()
    if entry.title == _BUT_PREFERRED and asked_in_any_case(limits[0], limits[1]):
        return False
    leads = bool(fills) and fills[0].slot.kind == "difference" and entry.title.startswith("(difference ")
    if leads and not any(t.number or word_of(t) in NUMBER_WORDS for t in fills[0].tokens):
        return False  # 'the gap less than the bore' is a gap that is less, and not less by the gap
    return all(_is_plain(job, fill, entry) for fill in fills)


def _is_plain(job: LineWords, fill: Fill, entry: Entry) -> bool:
    """Is it a plain number where one is asked for? A preference without a further limit?"""
    if fill.slot.kind == "limit" and prefers(entry) and goes_on_surely(fill.tokens):
        return False
    if fill.slot.kind == "limit" and fill.slot.name == "d" and _is_followed(fill.tokens):
        return False
    if fill.slot.kind == "difference" and isinstance(job.first, Typed) and job.first.whole:
        # '50 % more holes' are so many of the holes; 'within 10 % of the number of holes' lies off it.
        return not is_bare_share(fill.tokens[0]) or _lies_off(entry)
    if fill.slot.kind not in ("whole", "plain"):
        return True
    if fill.slot.name.isupper() and any(":" in t.text or is_bare_share(t) for t in fill.tokens):
        return False  # '1:5' is a ratio, '5 %' a share; a share, whose name is small, may be written so
    named = job.declared(fill.tokens)
    measured = (t for t in fill.tokens if t.number and t.number.unit and t.start not in job.bare)
    based = (t.number.unit.kind.split[0] for t in fill.tokens if t.number and t.number.unit)
    if fill.slot.kind == "plain" and any(basis in BY_WHAT.values() for basis in based):
        return False  # '2 wt% and at most 3 times the tin'
    return not (named and named.kind.dimension) and not (fill.slot.kind == "whole" and any(measured))


def _is_followed(tokens: tuple[Token, ...]) -> bool:
    """`at least 4 mm, and at most 8 mm`, or with `but`, behind `preferably`: the last is not preferred."""
    words = [word_of(t) for t in tokens]
    if any(w == "but" and then in ("at", "not", "no", "less", "more") for w, then in pairwise(words)):
        return not excludes_a_value(tokens)
    return any(w == "," and then in ("and", "but", "or") for w, then in pairwise(words))


def prefers(entry: Entry) -> bool:
    """Is what stands last in the phrase preferred?"""
    return any(name == "preferences" for r in entry.readings for name, _ in r.axes)


def _of_numbers(entry: Entry) -> bool:
    """Does each of its wordings compare with a number? Then it says nothing of a list."""
    return all(any(s.kind in ("number", "plain") for s in p.slots) for p in entry.patterns)


def _joins(entry: Entry) -> bool:
    """Is the phrase for whole conditions that a word joins, whatever they are about?"""
    kinds = {slot.kind for pattern in entry.patterns for slot in pattern.slots}
    return kinds == {"list"} and not entry.subjects


def _lies_off(entry: Entry) -> bool:
    """Is it a phrase on what lies within so much of a value, which has that as a share too?"""
    off = entry.title.startswith("within") or "±" in entry.title
    return off and any(RELATIVE in r.axes for r in entry.readings)
