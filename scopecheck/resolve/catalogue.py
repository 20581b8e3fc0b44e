"""The phrases that come with the package. Their texts are large and a sheet uses few of them: an index, made
from the texts beforehand (`index_text`), tells which may read some words, and only those are looked at.
"""

from __future__ import annotations

import json
import os
import re
from collections import Counter
from functools import cache, partial
from typing import Any

from scopecheck.foundations.data_files import PACKAGE, text_of
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.record import node
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source
from scopecheck.language.layout import Page, blocks, plain
from scopecheck.language.pieces import Desk
from scopecheck.language.statements_words import phrase
from scopecheck.language.syntax import PhraseStatement
from scopecheck.resolve.entry import Entry, Wording
from scopecheck.resolve.patterns import Element, Literals, Pattern, Slot, pattern

INDEX = "catalogue.jsonl"
"""The first line tells which entries may read a word; each other line is an entry."""


@node
class Phrasebook:
    """The phrases that may read a sheet's words: its own, and after them those of the catalogue."""

    own: tuple[Entry, ...]

    def all(self) -> tuple[Entry, ...]:
        """Every phrase; to be asked for only where no phrase reads the words."""
        return (*self.own, *entries())

    def having(self, words: frozenset[str]) -> tuple[Entry, ...]:
        """The phrases with a wording that these words, in small letters, may spell, in the order of `all`."""
        index = _index()
        found = {number for word in ("", *words) for number in index.by_word.get(word, ())}
        return (*self.own, *map(_entry, sorted(found)))


@node
class _Index:
    """`by_word`: the numbers of the entries with a wording that needs the word, or none ('')."""

    by_word: dict[str, list[int]]
    lines: list[str]


@cache
def _index() -> _Index:
    head, *lines = text_of("data", INDEX).splitlines()
    return _Index(json.loads(head), lines)


def entries() -> tuple[Entry, ...]:
    """Every phrase of the shipped catalogue, by file name and then in the order written."""
    return tuple(map(_entry, range(len(_index().lines))))


@cache
def _entry(number: int) -> Entry:
    file, start, end, only_for, subjects, wordings = json.loads(_index().lines[number])
    return Entry(
        tuple(
            Wording(text, frozenset(keys), partial(_pattern, text, elements))
            for text, keys, elements in wordings
        ),
        tuple(only_for),
        tuple(subjects),
        False,
        partial(_statement, file, start, end),
    )


def _pattern(text: str, elements: list[Any]) -> Pattern:
    return Pattern(text, tuple(map(_element, elements)))


def _element(saved: list[Any]) -> Element:
    first, *rest = saved
    return Literals(tuple(map(tuple, rest)), first) if isinstance(first, bool) else Slot(first, *rest)


@cache
def _source(file: str) -> Source:
    return Source(f"catalogue {file}", text_of("catalogue", f"{file}.phrases"))


def _statement(file: str, start: int, end: int) -> PhraseStatement:
    """The phrase that stands at this place of a catalogue text. Raises Trouble where its text is wrong."""
    source = _source(file)
    # Blanks in place of what stands before keep every offset an offset into the whole text.
    before = " " * (start - 1) + "\n" * (start > 0)
    desk = Desk(Page(source, before + plain(source.text[start:end])))
    found, diagnostics = blocks(desk.page)
    for diagnostic in diagnostics:
        raise trouble(diagnostic.span, diagnostic.message)
    return phrase(desk, found[0])


# ---- making the index

_BLOCK = regex(r"^phrase .*(?:\n(?!phrase\b).*)*", re.MULTILINE)


def index_text() -> str:
    """The index of the catalogue's texts as they are now. Raises Trouble at an entry that is wrong."""
    places = [
        (file, *block.span()) for file in _files() for block in _BLOCK.finditer(plain(_source(file).text))
    ]
    statements = [_statement(*place) for place in places]
    patterns = [[pattern(text, span) for text, span in s.patterns] for s in statements]
    common = Counter(word for made in patterns for p in made for word in frozenset().union(*p.required))
    by_word: dict[str, list[int]] = {}
    lines: list[str] = []
    for number, (place, statement, made) in enumerate(zip(places, statements, patterns, strict=True)):
        wordings = [(p.text, _keys(p, common), tuple(map(_saved, p.elements))) for p in made]
        for word in sorted({word for _, keys, _ in wordings for word in keys or [""]}):
            by_word.setdefault(word, []).append(number)
        lines.append(_json([*place, statement.only_for, statement.subjects, wordings]))
    return "\n".join([_json(dict(sorted(by_word.items()))), *lines]) + "\n"


def _files() -> list[str]:
    names = sorted(os.listdir(os.path.join(PACKAGE, "catalogue")))
    return [name.removesuffix(".phrases") for name in names if name.endswith(".phrases")]


def _keys(made: Pattern, common: Counter[str]) -> list[str]:
    """Of the words that the wording cannot do without, those that the fewest wordings need; [] if none."""
    return min(
        (sorted(words) for words in made.required), key=lambda k: sum(common[w] for w in k), default=[]
    )


def _saved(element: Element) -> list[Any]:
    if isinstance(element, Literals):
        return [element.optional, *element.options]
    return [element.kind, element.name, element.joiner]


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
