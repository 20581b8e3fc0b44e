"""More exact wording for a limitation: taken from its phrase, and held against what is wanted of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from scopecheck.core.model import Article, Formula, Limitation, Read
from scopecheck.drill.bench import Bench
from scopecheck.drill.exercise import Unreadable
from scopecheck.drill.replies import reworded
from scopecheck.resolve.catalogue import entries
from scopecheck.resolve.entry import Entry
from scopecheck.resolve.patterns import Literals, Pattern
from scopecheck.solving.solver import Session

WITHOUT = ", without rounding"
_BARE = re.compile(r"-?\d+(?:\.\d+)?")


def entry_of(bench: Bench, limitation: Limitation) -> Entry | None:
    """The shipped phrase that reads the limitation's words; None for one of the sheet's own."""
    group = bench.group(limitation)
    if group is None:
        return None
    title = bench.sheet.groups[group].entry
    label = bench.sheet.groups[group].readings[0].label
    found = [e for e in entries() if e.title == title]
    return next((e for e in found if any(r.label == label for r in e.readings)), None)


def wordings(bench: Bench, limitation: Limitation, reading: str) -> Iterator[str]:
    """Proposals for one reading: the phrase's own, filled with the limitation's numbers, then symbols."""
    entry = entry_of(bench, limitation)
    if entry is not None:
        yield from _own_wordings(entry, limitation, reading)
    index = bench.labelled(limitation, reading)
    group = bench.group(limitation)
    if index is not None and group is not None and isinstance(limitation.formula, Read):
        place = next((p for p in bench.sheet.groups[group].places if p.where == limitation.label), None)
        own = place.meanings[index] if place and place.meanings else ""
        yield own or bench.sheet.groups[group].readings[index].plain


def _own_wordings(entry: Entry, limitation: Limitation, reading: str) -> Iterator[str]:
    slots = slots_in(entry, limitation.words)
    own = next((r.exact_wording for r in entry.readings if r.label == reading), "")
    for text in dict.fromkeys(t for t in (own, entry.exact_wording) if t):
        if slots is not None:
            try:
                words = text.format(**slots)
            except KeyError:
                continue
            yield words
            if not words.endswith(WITHOUT):
                yield words + WITHOUT


def slots_in(entry: Entry, words: str) -> dict[str, str] | None:
    """What stands in the slots of the first wording that fits; a bare number borrows the next one's unit."""
    for pattern in entry.patterns:
        match = re.fullmatch(_expression(pattern), words.strip(), re.IGNORECASE)
        if match:
            return _with_units({s.name: match[s.name].strip() for s in pattern.slots}, pattern)
    return None


def _expression(pattern: Pattern) -> str:
    parts = [r"(?:(?:the|a|an|is|are|of|in|having|has)\s+)*"]
    for e in pattern.elements:
        if isinstance(e, Literals):
            words = "|".join(r"\s+".join(map(re.escape, option)) for option in e.options)
            parts.append(rf"(?:(?:{words})\s*){'?' if e.optional else ''}")
        else:
            parts.append(rf"(?:(?:the|is|are)\s+)*(?P<{e.name}>.+?)\s*")
        parts.append(r"(?:(?:the|is|are|of|a|an)\s+)*" if not isinstance(e, Literals) else "")
    return "".join(parts)


def _with_units(slots: dict[str, str], pattern: Pattern) -> dict[str, str]:
    unit = ""
    filled = dict(slots)
    for s in reversed(pattern.slots):
        if s.kind in ("number", "difference"):
            text = filled[s.name]
            if _BARE.fullmatch(text) and unit:
                filled[s.name] = f"{text} {unit}"
            elif " " in text:
                unit = text.split(" ", 1)[1]
    return filled


def parts(
    bench: Bench, limitation: Limitation, words: str, met: list[Article], missed: list[Article]
) -> bool:
    """Do the words, on every reading and every stretch, let in all of `met` and none of `missed`?

    Raises Unreadable and Undecided.
    """
    return not wrong_at(bench, limitation, words, met, missed)


def wrong_at(
    bench: Bench, limitation: Limitation, words: str, met: list[Article], missed: list[Article]
) -> list[tuple[Article, bool]]:
    """The things that the words get wrong on some reading, with whether they let them in there."""
    sheet, line = reworded(bench, limitation, words)
    session = Session(sheet)
    search = session.search(session.groups_in(line.formula), things=False)
    found = [(a, False) for a in met if search.holds(~session.met_by(line.formula, a))]
    return found + [(a, True) for a in missed if search.holds(session.met_by(line.formula, a))]


def differing(bench: Bench, limitation: Limitation, words: str, meant: Formula) -> list[tuple[Article, bool]]:
    """A thing let in though not meant, and one meant and not let in, each on some reading of the words.

    Raises Unreadable and Undecided.
    """
    sheet, line = reworded(bench, limitation, words)
    session = Session(sheet)
    found = []
    for let_in in (True, False):
        search = session.search(session.groups_in(line.formula))
        met = session.met(line.formula)
        search.require(met if let_in else ~met)
        search.require(session.denied(meant) if let_in else session.met(meant))
        if search.find():
            found.append((search.article(), let_in))
    return found


def proposal(bench: Bench, limitation: Limitation, reading: str, meant: Formula) -> str:
    """Words that on every reading mean just what is meant; '' where the phrase proposes none that do."""
    for words in wordings(bench, limitation, reading):
        try:
            if not differing(bench, limitation, words, meant):
                return words
        except Unreadable:
            continue
    return ""
