"""More exact wording for a limitation: taken from its phrase, and held against what is wanted of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from scopecheck.answers.minimise import pick_article, settle_construction
from scopecheck.core.construction import Construction
from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.reference import references
from scopecheck.drill.bench import BUDGET, Bench
from scopecheck.drill.exercise import Unreadable
from scopecheck.drill.replies import reworded
from scopecheck.drill.symbols import written
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.report.wording import listed, quoted
from scopecheck.solving.solver import Session
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.patterns import Literals, Pattern

WITHOUT = ", without rounding"
_BARE = regex(r"-?\d+(?:\.\d+)?")


def entry_of(bench: Bench, limitation: Limitation) -> Entry | None:
    """The shipped phrase that reads the limitation's words; None for one of the sheet's own.

    Exercises have no assemblies, so no number of theirs is closed.
    """
    group = bench.group(limitation)
    if group is None:
        return None
    title = bench.sheet.groups[group].entry
    label = bench.sheet.groups[group].readings[0].label
    found = [e for e in entries() if e.title == title and "closed counts" not in e.only_for]
    return next((e for e in found if any(r.label == label for r in e.readings)), None)


def wordings(bench: Bench, limitation: Limitation, reading: str) -> Iterator[str]:
    """Proposals for one reading: the phrase's own, filled with the limitation's numbers, then symbols."""
    entry = entry_of(bench, limitation)
    if entry is not None:
        yield from _own_wordings(entry, limitation, reading)
    index = bench.labelled(limitation, reading)
    symbols = written(bench.sheet, bench.taken(limitation, index)) if index is not None else ""
    if symbols:
        yield symbols


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


@record
class Wrong:
    """A thing that words get wrong: let in or kept out, on which reading of theirs ('' if they have one)."""

    article: Article
    let_in: bool
    reading: str


def wrong_at(
    bench: Bench, limitation: Limitation, words: str, met: list[Article], missed: list[Article]
) -> list[Wrong]:
    """The things of `met` that some reading of the words, at some stretch, keeps out; of `missed`, lets in.

    Raises Unreadable and Undecided.
    """
    sheet, line = reworded(bench, limitation, words)
    session = Session(sheet, BUDGET)
    found: list[Wrong] = []
    for article, let_in in [*((a, False) for a in met), *((a, True) for a in missed)]:
        search = session.search(session.groups_in(line.formula), things=False)
        by = session.met_by(line.formula, article)
        search.require(by if let_in else ~by)
        if search.find():
            found.append(Wrong(article, let_in, _reading(sheet, line, search.construction())))
    return found


def differing(bench: Bench, limitation: Limitation, words: str, meant: Formula) -> list[Wrong]:
    """A thing let in though not meant, and one meant and not let in, each on some reading of the words.

    Raises Unreadable and Undecided.
    """
    sheet, line = reworded(bench, limitation, words)
    session = Session(sheet, BUDGET)
    found: list[Wrong] = []
    for let_in in (True, False):
        search = session.search(session.groups_in(line.formula))
        met = session.met(line.formula)
        search.require(met if let_in else ~met)
        search.require(session.denied(meant) if let_in else session.met(meant))
        if search.find():
            k = settle_construction(session, search, session.groups_in(line.formula)).construction
            known = references(sheet, (line.formula, meant))
            article = pick_article(session, search, session.names_in(line.formula, meant), known).article
            found.append(Wrong(article, let_in, _reading(sheet, line, k)))
    return found


def _reading(sheet: Sheet, line: Limitation, k: Construction) -> str:
    """The labels of the readings that the words are taken by."""
    open_groups = [g for g in line.groups if len(sheet.groups[g].readings) > 1]
    return listed(quoted(sheet.groups[g].readings[k.readings[g]].label) for g in open_groups)


def proposal(bench: Bench, limitation: Limitation, reading: str, meant: Formula) -> str:
    """Words that on every reading mean just what is meant; '' where none of the proposals does.

    Where it was found out before which proposal does, only that one is looked at.
    """
    known = bench.exact.get((limitation.label, reading))
    for number, words in enumerate(wordings(bench, limitation, reading)):
        stem = words.removesuffix(WITHOUT)
        if (known is not None and number != known) or {words, stem} & bench.unread:
            continue
        try:
            if not differing(bench, limitation, words, meant):
                return words
        except Unreadable:
            bench.unread.add(words)
    return ""
