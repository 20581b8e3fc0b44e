"""The phrases that come with the package. Their texts are large and a sheet uses few of them: an index, made
from the texts beforehand (`index_text`), tells which may read some words, and only those are looked at.
Formulas stay text until they are used.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache, partial
from typing import Any

from scopecheck.foundations.data_files import PACKAGE, text_of
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.record import node
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import Page, blocks
from scopecheck.language.pieces import Desk
from scopecheck.language.statements_words import phrase
from scopecheck.language.syntax import Free, PhraseStatement, Raw, ReadingText
from scopecheck.vocabulary.entry import SETTLED, Entry, Wording
from scopecheck.vocabulary.patterns import Element, Literals, Pattern, Slot, pattern

INDEX = "catalogue.jsonl"
"""The first line tells which entries may read a word; for each entry follow its wordings and the whole."""


@node
class Phrasebook:
    """The phrases that may read a sheet's words: its own, and after them those of the catalogue."""

    own: tuple[Entry, ...]
    alone: bool = False
    """Without those of the catalogue."""

    def all(self) -> tuple[Entry, ...]:
        """Every phrase; to be asked for only where no phrase reads the words."""
        return self.own if self.alone else (*self.own, *entries())

    def words(self) -> frozenset[str]:
        """Every word that some phrase has; as with `all`, to be asked for only where none reads the words."""
        return _words_of(self.own) if self.alone else _words_of(self.own) | _words_of_catalogue()

    def having(self, words: frozenset[str]) -> tuple[Entry, ...]:
        """The phrases with a wording that these words, in small letters, may spell, in the order of `all`."""
        if self.alone:
            return self.own
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
    return tuple(map(_entry, range(len(_index().lines) // 2)))


@cache
def _words_of_catalogue() -> frozenset[str]:
    return _words_of(entries())


def _words_of(several: Iterable[Entry]) -> frozenset[str]:
    elements = (e for entry in several for p in entry.patterns for e in p.elements)
    return frozenset(w for e in elements if isinstance(e, Literals) for option in e.options for w in option)


@cache
def _entry(number: int) -> Entry:
    only_for, subjects, each_has, settled, wordings = json.loads(_index().lines[2 * number])
    return Entry(
        tuple(
            Wording(text, frozenset(keys), partial(_pattern, text, elements))
            for text, keys, elements in wordings
        ),
        tuple(only_for),
        tuple(subjects),
        False,
        partial(_statement, number),
        settled=settled,
        each_has=each_has,
    )


def _pattern(text: str, elements: list[Any]) -> Pattern:
    return Pattern(text, tuple(map(_element, elements)))


def _element(saved: list[Any]) -> Element:
    first, *rest = saved
    return Literals(tuple(map(tuple, rest)), first) if isinstance(first, bool) else Slot(first, *rest)


def _statement(number: int) -> PhraseStatement:
    """The phrase of an entry, as it was written."""
    file, saved = json.loads(_index().lines[2 * number + 1])
    made: PhraseStatement = _from_json(saved, _page(file))
    return made


@cache
def _page(file: str) -> Page:
    return Page(Source(f"catalogue {file}", text_of("catalogue", f"{file}.phrases")))


def _from_json(saved: Any, page: Page) -> Any:
    """What `_to_json` was given, on the page where it stands."""
    if isinstance(saved, list):
        return tuple([_from_json(item, page) for item in saved])
    if not isinstance(saved, dict):
        return saved
    ((name, fields),) = saved.items()
    if name == "Span":
        return page.span(*fields)
    if name == "Raw":
        return Raw(page, *fields)
    return _RECORDS[name](*[_from_json(field, page) for field in fields])


_RECORDS: dict[str, Callable[..., object]] = {
    "PhraseStatement": PhraseStatement, "ReadingText": ReadingText, "Free": Free,
}  # fmt: skip


# ---- making the index


def index_text(texts: Mapping[str, str] | None = None) -> str:
    """The index of the catalogue's texts as they are now, or of other texts by the names of their files.

    Raises Trouble at an entry that is wrong.
    """
    pages = {file: Page(Source(file, text)) for file, text in texts.items()} if texts else _pages()
    written = [(file, statement) for file, page in pages.items() for statement in _statements(page)]
    patterns = [[pattern(text, span) for text, span in s.patterns] for _, s in written]
    common = Counter(word for made in patterns for p in made for word in frozenset().union(*p.required))
    by_word: dict[str, list[int]] = {}
    lines: list[str] = []
    for number, ((file, statement), made) in enumerate(zip(written, patterns, strict=True)):
        wordings = [(p.text, _keys(p, common), tuple(map(_saved, p.elements))) for p in made]
        for word in sorted({word for _, keys, _ in wordings for word in keys or [""]}):
            by_word.setdefault(word, []).append(number)
        settled, s = statement.group == SETTLED, statement
        lines.append(_json([s.only_for, s.subjects, s.each_has, settled, wordings]))
        lines.append(_json([file, _to_json(statement)]))
    return "\n".join([_json(dict(sorted(by_word.items()))), *lines]) + "\n"


def _pages() -> dict[str, Page]:
    names = sorted(os.listdir(os.path.join(PACKAGE, "catalogue")))
    files = [name.removesuffix(".phrases") for name in names if name.endswith(".phrases")]
    return {file: _page(file) for file in files}


def _statements(page: Page) -> Iterator[PhraseStatement]:
    desk = Desk(page)
    found, diagnostics = blocks(desk.page)
    for diagnostic in diagnostics:
        raise trouble(diagnostic.span, diagnostic.message)
    for block in found:
        yield phrase(desk, block)


def _to_json(value: object) -> object:
    """A statement as JSON: records with their names, places as offsets into their page."""
    match value:
        case tuple():
            return [_to_json(item) for item in value]
        case Span(start=start, end=end):
            return {"Span": [start, end]}
        case Raw(start=start, end=end):
            return {"Raw": [start, end]}
        case PhraseStatement() | ReadingText() | Free():
            fields = [_to_json(getattr(value, name)) for name in value.__match_args__]
            return {type(value).__name__: fields}
        case _:
            return value


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
    return json.dumps(value, separators=(",", ":"))
