"""Which phrases are asked for: by words, by id, by topic, or with letters in place of what a phrase takes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cache

from scopecheck.commands.phrase_patterns import spelled_with_letters
from scopecheck.foundations.data_files import data_file
from scopecheck.foundations.diagnostics import nearest
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.patterns import Literals, Pattern, Slot

_MEANT_ALONE = frozenset(("and", "or"))
_JOINERS = frozenset(("a", "an", "the", "and", "or", "of", "to", "is", "are"))


def entries_for(words: Sequence[str], own: tuple[Entry, ...] = ()) -> tuple[Entry, ...]:
    """The entries one of whose wordings has all the words; numbers and anything with a digit are passed over.

    An entry's id finds it too, and so do a wording with letters in place of what it takes, and a word of the
    trade for what it is about. Empty if none has them all. `own` are phrases of a phrase file, which are
    looked through first. Where words alone find several, those of the shortest wording come first.
    """
    known = in_order(own)
    if spelled := spelled_with_letters(known, " ".join(words)):
        return spelled
    asked = [word for text in words for word in _words(text)]
    by_id = tuple(e for e in known if e.id.lower() in asked)
    if by_id:
        return by_id
    if topic := _topic(" ".join(asked)):
        return tuple(e for e in known if _is_about(e, topic))
    kept = [word for word in asked if not any(c.isdigit() for c in word)]
    every = words_of_all(known)
    wanted = [word for word in kept if word in every and word not in _JOINERS]
    if set(kept) <= _MEANT_ALONE:
        wanted = kept
    # Units and nouns of a claim stand in no wording; a lone unknown word is no question about a phrase.
    if not wanted:
        return ()
    found = tuple(e for e in known if any(words_of.issuperset(wanted) for words_of in _wordings(e)))
    exact = tuple(e for e in found if any(_is_covered(p, wanted) for p in e.patterns))
    return tuple(sorted(exact or found, key=lambda e: (e.nearness, _beyond(e, wanted))))


def read_as(words: str) -> tuple[Entry, ...]:
    """The entries that words are read as which no wording has: `substantially equal to or more than`."""
    from scopecheck.foundations.spans import Source
    from scopecheck.resolve.sheet import read_sheet

    numbered = any(c.isdigit() for c in words)
    for left, line in (("x", words if numbered else f"{words} 5"), ("x, y", f"{words} the y")):
        text = f"{left}  number\n\n1. A thing, wherein {line}.\n   | {left} : {line}\n"
        sheet, wrong = read_sheet(Source("phrases", text))
        if sheet is not None and not any(d.span.start > text.rindex("|") for d in wrong):
            names = {g.entry for g in sheet.groups}
            return tuple(e for e in in_order() if e.title in names)
    return ()


def _beyond(entry: Entry, wanted: Sequence[str]) -> int:
    """How much the shortest wording that has all the words requires besides: words and what it takes."""
    having = zip(entry.patterns, _wordings(entry), strict=True)
    return min(
        sum(isinstance(e, Slot) or not e.optional for e in pattern.elements)
        for pattern, words in having
        if words.issuperset(wanted)
    )


def mentioning(words: Sequence[str], own: tuple[Entry, ...] = ()) -> tuple[Entry, ...]:
    """The entries of which every word asked for is said somewhere: in a wording, in the label of a reading,
    or in a word of the trade for what they are about. Wider than `entries_for`; empty if none has them all.
    """
    asked = {word for text in words for word in _words(text)} - _JOINERS
    return tuple(e for e in in_order(own) if asked and asked <= _said_of(e))


def _said_of(entry: Entry) -> frozenset[str]:
    labels = (word for r in entry.readings for word in _words(r.label))
    trade = (word for topic, ids in topics().items() if _is_about(entry, ids) for word in _words(topic))
    return frozenset((*labels, *trade)).union(*_wordings(entry))


def _words(text: str) -> list[str]:
    return re.findall(r"[^\s,;:]+", text.lower())


def _is_about(entry: Entry, topic: Sequence[str]) -> bool:
    return entry.id in topic or _is_for(entry, topic)


@cache
def topics() -> dict[str, tuple[str, ...]]:
    """Words of the trade that stand in no phrase, and the ids of the phrases that they are about, or what
    these phrases are only for."""
    told: dict[str, str] = data_file("trade_words.json")
    return {word: tuple(ids.split()) for words, ids in told.items() for word in words.split(", ")}


def _topic(asked: str) -> tuple[str, ...]:
    return topics().get(asked) or topics().get(asked.removesuffix("s"), ())


def is_of_a_sort(words: Sequence[str]) -> bool:
    """Is asked for all phrases on a sort of thing, such as parts or steps?"""
    topic = _topic(" ".join(words).lower())
    return bool(topic) and not any(e.id in topic for e in entries())


def _is_for(entry: Entry, topic: Sequence[str]) -> bool:
    return any(kind.replace(" ", "-") in topic for kind in entry.only_for)


def in_order(own: tuple[Entry, ...] = ()) -> tuple[Entry, ...]:
    """Own phrases as written, then the catalogue by id: A1, A2, ... K3, and as written within an id."""

    def place(entry: Entry) -> tuple[str, int]:
        return entry.id[:1], int("0" + "".join(c for c in entry.id if c.isdecimal()))

    return (*own, *sorted(entries(), key=place))


def nearest_words(words: Iterable[str], own: tuple[Entry, ...] = ()) -> tuple[str, ...]:
    """Words of phrases most like those asked for."""
    known = words_of_all(in_order(own)) | topics().keys()
    asked = [word for text in words for word in text.lower().split()]
    return tuple(dict.fromkeys(near for word in asked for near in nearest(word, known)))[:4]


def words_of_all(known: Iterable[Entry]) -> frozenset[str]:
    """Every word of every wording, in lower case."""
    return frozenset(word for e in known for words in _wordings(e) for word in words)


def _wordings(entry: Entry) -> Iterator[frozenset[str]]:
    for pattern in entry.patterns:
        yield frozenset(
            word.lower()
            for element in pattern.elements
            if isinstance(element, Literals)
            for option in element.options
            for word in option
        )


def _is_covered(pattern: Pattern, wanted: Sequence[str]) -> bool:
    """Do the words asked for spell everything that the wording requires, words that join apart?"""
    return all(
        any({word.lower() for word in option} <= {*wanted, *_JOINERS} for option in element.options)
        for element in pattern.elements
        if isinstance(element, Literals) and not element.optional
    )
