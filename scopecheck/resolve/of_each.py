"""A limit of one field of like parts by another: `a length of at least twice its diameter`, of each part."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.formula import Formula, Measured
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.resolve.names import Names, Typed
from scopecheck.resolve.subjects import Subject

_OF_THE_PART = ("the", "its", "their", "said", "that", "this")


def of_each_part(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], names: Names
) -> Iterator[tuple[Formula, tuple[Token, ...], tuple[Subject, ...]]]:
    """For each part: what says that it is there, the words with the other field's name of it, the two things.

    Nothing where it is not two fields of the same parts that stand left of the colon.
    """
    fields = [s.parts for s in subjects if s.parts is not None]
    if len(fields) != 2 or len(subjects) != 2 or fields[0].there != fields[1].there:
        return
    other = names.field_of(subjects[1].text)
    if other is None:
        return
    for there, *values in zip(fields[0].there, fields[0].each, fields[1].each, strict=True):
        terms = [v.term for v in values if isinstance(v, Typed) and isinstance(v.term, Measured)]
        if len(terms) != 2:
            return
        called = [term.name for term in terms if isinstance(term, Measured)]
        told = tuple(
            replace(s, bound=v, text=name, parts=None)
            for s, v, name in zip(subjects, values, called, strict=True)
        )
        yield there, _named(tokens, other[1].split(), called[1]), told


def _named(tokens: tuple[Token, ...], field: list[str], name: str) -> tuple[Token, ...]:
    """The words with the name of one part's field in the place of the field's."""
    texts = [t.text.lower() for t in tokens]
    width = len(field)
    for at in range(len(texts) - width, 0, -1):
        if texts[at : at + width] == field and texts[at - 1] in _OF_THE_PART:
            said = (replace(tokens[at], sort="word", text=word, number=None) for word in name.split())
            return (*tokens[: at - 1], *said, *tokens[at + width :])
    return tokens
