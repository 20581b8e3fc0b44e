"""A limit of one field of like parts by another: `a length of at least twice its diameter`, of each part."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import Part
from scopecheck.core.formula import Formula, Measured
from scopecheck.foundations.record import replace
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.plainer_values import MOST
from scopecheck.vocabulary.names import Names, Typed

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
    tokens = without_each(tokens, other[0][0])
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


def beside_an_extreme(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], names: Names
) -> tuple[tuple[Token, ...], str, Typed] | None:
    """`twice as long as the longest rib`, of something beside the lengths of ribs: the words with the symbols
    for the greatest of them, these symbols, and its value; None for other words."""
    parts = subjects[1].parts if len(subjects) == 2 and subjects[0].parts is None else None
    field = names.field_of(subjects[1].text) if parts is not None and parts.sort == "parts" else None
    if parts is None or field is None:
        return None
    part, own = field[0][0], field[1].lower()
    one, several = part.name.lower(), part.plural.lower()
    text = f" {' '.join(map(word_of, tokens))} "
    for most, by in MOST.items():
        word = "GREATEST" if most == "greatest" else "LEAST"
        for said, measured in by.items():
            of_all = (f"the {said} of the {several}", f"the {said} one of the {several}", f"the {said} {one}")
            runs = [f"the {own} of {run}" for run in of_all]
            runs += of_all if own in measured.split() else ()
            runs += [f"the {said} {own} of {what}" for what in (f"the {several}", f"any {one}")]
            run = next((r for r in runs if text.count(f" {r} ") == 1), "")
            if run and text.count(f" {said} ") == 1 and text.count(f" {own} ") <= 1:
                at = len(text[: text.index(f" {run} ")].split())
                last = tokens[at + len(run.split()) - 1]
                symbols = f"{word} {part.name} ({own})"
                named = replace(tokens[at], sort="word", text=symbols, number=None, end=last.end)
                return (*tokens[:at], named, *tokens[at + len(run.split()) :]), symbols, parts.together[most]
    return None


def without_each(tokens: tuple[Token, ...], part: Part) -> tuple[Token, ...]:
    """`the ratio of length to width of each rib is 2`, `each rib has a length of twice its width`, without
    the part that has them; the words as they are where they do not say 'each'."""
    own, words = part.name.lower().split(), [word_of(t) for t in tokens]
    for at in range(len(words) - len(own) - 1):
        end = at + 1 + len(own)
        if words[at] not in ("each", "every") or words[at + 1 : end] != own:
            continue
        before, behind = words[at - 1] if at else "", words[end]
        if at and before == "of":
            return (*tokens[: at - 1], *tokens[end:])
        if at == 1 and before == "for" and behind == ",":
            return tokens[end + 1 :]
        if not at and behind in ("has", "having", "with"):
            return tokens[end + 1 :]
    return tokens


def _named(tokens: tuple[Token, ...], field: list[str], name: str) -> tuple[Token, ...]:
    """The words with the name of one part's field in the place of the field's."""
    texts = [t.text.lower() for t in tokens]
    width = len(field)
    for at in range(len(texts) - width, 0, -1):
        if texts[at : at + width] == field and texts[at - 1] in _OF_THE_PART:
            said = (replace(tokens[at], sort="word", text=word, number=None) for word in name.split())
            return (*tokens[: at - 1], *said, *tokens[at + width :])
    return tokens
