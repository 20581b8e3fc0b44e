"""Bare per cents and ppm, read on the basis that is declared for what they limit."""

from __future__ import annotations

from scopecheck.exact.bare_shares import NO_BASIS, PERCENT
from scopecheck.foundations.diagnostics import Diagnostic, Trouble
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import (
    with_parts_per,
)
from scopecheck.matching.said_once import with_basis
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.occurrences.groups import CLAIMS
from scopecheck.resolve.line_reader import LineReader
from scopecheck.resolve.said_amounts import has_parts_per
from scopecheck.vocabulary.names import Typed


def tell_the_basis(reader: LineReader, told: Diagnostic, name: str) -> None:
    """Tells it once for all shares, with the place of each of another name: its whole may be another one.

    Those of a composition have one.
    """
    made = reader.names.compositions.values()
    name = next((m.name for m in made if name in m.members or name in dict(m.classes)), name)
    at = next((i for i, t in enumerate(reader.groups.passed) if t.message == told.message), None)
    if at is None:
        reader.groups.passed.append(told)
    elif name not in reader.groups.bare:
        before = reader.groups.passed[at]
        also = (*before.also, (told.span, f"{name}, too"))
        reader.groups.passed[at] = replace(before, also=also)
    reader.groups.bare.add(name)


def needs_no_basis(reader: LineReader, words: Words, based: Words, subjects: tuple[Subject, ...]) -> bool:
    """Whether the words are read as they stand. Raises Trouble where they are read in neither way.

    A bare ppm is one on the declared basis wherever that is read.
    """
    if has_parts_per(words) and reader.trying().holds(based, subjects):
        return False
    try:
        reader.trying().as_it_stands(words, subjects)
    except Trouble as wrong:
        if wrong.diagnostic.cause != NO_BASIS and not reader.trying().holds(based, subjects):
            raise
        return False
    return True


def on_the_declared_basis(reader: LineReader, words: Words, subjects: tuple[Subject, ...]) -> Words | None:
    """The words with bare percentages as shares on the basis of what they limit; None without any."""
    if reader.document != CLAIMS:
        return None
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    if _plain_without_per_cent(words, subjects):
        bounds = [b for b in bounds if b.kind != PLAIN_KIND]
    basis = {b.kind.split[0] for b in bounds if b.kind and not b.kind.dimension}
    said_otherwise = reader.names.basis and basis != {reader.names.basis}
    bare = has_parts_per(words) or any(map(is_bare_share, words.tokens))
    if len(basis) != 1 or not basis <= PERCENT.keys() or said_otherwise or not bare:
        return None
    tokens = with_parts_per(with_basis(words.tokens, bounds[0], min(basis)), bounds[0], min(basis))
    return Words(words.text, tokens, words.span)


def _plain_without_per_cent(words: Words, subjects: tuple[Subject, ...]) -> bool:
    """`at least 30 % where the speed factor is less than 100`: are the plain numbers no per cents there?"""
    plain = [s for s in subjects if isinstance(s.bound, Typed) and s.bound.kind == PLAIN_KIND]
    tokens = [t for t in words.tokens if t.sort != "gap"]
    said = [word_of(t) for t in tokens]
    for name in (s.text.lower().split() for s in plain):
        behind = next((i + len(name) for i in range(len(said)) if said[i : i + len(name)] == name), 0)
        number = next((t for t in tokens[behind:] if t.number), None)
        if not behind or number is None or is_bare_share(number):
            return False
    return 0 < len(plain) < len(subjects)
