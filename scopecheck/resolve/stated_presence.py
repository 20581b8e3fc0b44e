"""What words say is there, beside the limit they set it: of several amounts, or of a composition."""

from __future__ import annotations

from contextlib import suppress

from scopecheck.core.declared import Composition, NumberDecl
from scopecheck.core.formula import All, Formula
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.subjects import Subject
from scopecheck.resolve.line_reader import LineReader, Things
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.ingredients import named_in
from scopecheck.rewording.plainer_amounts import said_to_be_there
from scopecheck.vocabulary.names import Typed, number_of


def stated_presence(reader: LineReader, words: Words, subjects: Things) -> Formula | None:
    """`contains salt and sugar in a total amount of at most 2 wt%`: each of them is there, and its limit."""
    tokens = tuple(t for t in words.tokens if t.sort != "gap")
    things = () if reader.heard else _amounts(reader, tokens, subjects)
    if not things:
        return None
    at, names = said_to_be_there(tokens, tuple(s.text for s in things))
    things = tuple(s for s in things if s.text in names)
    if not things:
        return None
    there = Words(words.text, tuple(words_at(tokens[at], "present in some amount")), words.span)
    heard = replace(reader, heard=True)
    with suppress(Trouble):
        heard.trying().condition(words, subjects)
        each = tuple(heard.condition(there, (s,)) for s in things)
        return All((*each, heard.condition(words, subjects)))
    return None


def _amounts(reader: LineReader, tokens: tuple[Token, ...], subjects: Things) -> Things:
    """The amounts left of the colon, or those that the words name of a composition."""
    made = subjects[0].bound if len(subjects) == 1 else None
    if isinstance(made, Composition) and made.name == subjects[0].text:
        shares = (reader.names.declarations[name] for name in named_in(made, tokens))
        return tuple(
            Subject(number_of(d), d.name, subjects[0].span) for d in shares if isinstance(d, NumberDecl)
        )
    amounts = all(
        isinstance(s.bound, Typed) and not s.bound.whole and s.parts is None and not s.moments
        for s in subjects
    )
    return subjects if len(subjects) > 1 and amounts else ()
