"""Phrases: patterns in words, with readings, standings and sources. The shipped ones are data files.

A sheet's own phrases become entries of the same form. Formulas stay text until a phrase is used.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from functools import cache, cached_property
from importlib.resources import files
from typing import Literal, TypeAlias

from scopecheck.core.model import Standing
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.record import node, record
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import Page, blocks, page
from scopecheck.language.pieces import Desk
from scopecheck.language.statements_words import phrase
from scopecheck.language.syntax import PhraseStatement, Raw, ReadingText

PROFILES = ("US examination", "US court", "EPO")


@record
class Literals:
    """Words to be found: one of several alternatives, each one or more tokens; perhaps left out."""

    options: tuple[tuple[str, ...], ...]
    optional: bool


Literal_ = Literals

SlotKind: TypeAlias = Literal["number", "whole", "plain", "difference", "ratio", "list", "noun"]


@record
class Slot:
    """A place for a number, a list or a noun. `joiner` of a list: and, or, nor, and/or, comma, '' (any)."""

    kind: SlotKind
    name: str
    joiner: str = ""


Element: TypeAlias = Literals | Slot


@record
class Pattern:
    """One wording of a phrase. `required` are the words without which it cannot match."""

    text: str
    elements: tuple[Element, ...]
    required: tuple[frozenset[str], ...]

    @property
    def slots(self) -> tuple[Slot, ...]:
        return tuple(e for e in self.elements if isinstance(e, Slot))

    @property
    def plain(self) -> str:
        """The wording for people: the first of alternatives, dots for what stands in slots."""
        words = [
            (f"... {e.joiner} ..." if e.joiner in ("and", "or", "nor") else "...")
            if isinstance(e, Slot)
            else " ".join(e.options[0])
            for e in self.elements
            if isinstance(e, Slot) or not e.optional or e.options == ((",",),)
        ]
        return " ".join(words).replace(" ,", ",")


@record
class Citation:
    """A citation in our words and how it is known: read, read (secondary), memory, common practice."""

    text: str
    tag: str


@record
class EntryReading:
    """A reading of an entry; `formula` is None when it is listed but not computed."""

    label: str
    formula_text: str
    formula: Raw | None
    taken_by: str
    written: ReadingText

    @property
    def axes(self) -> tuple[tuple[str, str], ...]:
        return self.written.sets

    @property
    def exact_wording(self) -> str:
        return self.written.exact_wording


@node
class Entry:
    """A phrase: its wordings at once, the rest read from its text when first asked for."""

    patterns: tuple[Pattern, ...]
    only_for: tuple[str, ...]
    subjects: tuple[str, ...]
    own: bool
    load: Callable[[], PhraseStatement]

    @cached_property
    def statement(self) -> PhraseStatement:
        """The phrase as written. Raises Trouble if its text is wrong."""
        statement = self.load()
        labels = [r.label for r in statement.readings]
        for label in (*statement.strained, *(x for _, known in statement.presumed for x in known)):
            if label not in labels:
                raise trouble(statement.span, f"the phrase has no reading '{label}'")
        return statement

    @cached_property
    def readings(self) -> tuple[EntryReading, ...]:
        return tuple(
            EntryReading(
                r.label, " ".join(r.formula.text.split()) if r.formula else "", r.formula, r.taken_by, r
            )
            for r in self.statement.readings
        )

    @cached_property
    def presumed(self) -> Mapping[str, tuple[str, ...]]:
        """The labels presumed in each profile; none known: (). `US` speaks for both US profiles."""
        found: dict[str, tuple[str, ...]] = {}
        for profile, known in sorted(self.statement.presumed, key=lambda item: len(item[0])):
            for name in ("US examination", "US court") if profile == "US" else (profile,):
                found[name] = known
        return found

    @property
    def group(self) -> str:
        return self.statement.group

    @property
    def id(self) -> str:
        return self.statement.id

    @property
    def where(self) -> Raw | None:
        return self.statement.where

    @property
    def strained(self) -> tuple[str, ...]:
        return self.statement.strained

    @property
    def sources(self) -> tuple[Citation, ...]:
        return tuple(Citation(text, tag) for text, tag in self.statement.sources)

    @property
    def exact_wording(self) -> str:
        return self.statement.exact_wording

    @property
    def ask(self) -> str:
        return self.statement.ask

    @property
    def span(self) -> Span:
        return self.statement.span

    def takes(self, pattern: Pattern) -> int:
        """How many things stand left of the colon for one of its wordings."""
        nouns = sum(1 for slot in pattern.slots if slot.kind == "noun")
        return len(self.subjects) or nouns or 1

    @property
    def title(self) -> str:
        """The first wording, which names the entry."""
        return self.patterns[0].text if self.patterns else self.statement.id

    def standing(self, label: str, profile: str, among: tuple[str, ...] | None = None) -> Standing:
        """The standing of a reading in a profile ('US examination', 'US court', 'EPO').

        `among`: the labels that apply at an occurrence. Where no presumption is known among them, every
        reading that is not strained counts as presumed.
        """
        labels = among or tuple(r.label for r in self.readings if r.formula is not None)
        marked = {r.label: _marked(r.written, profile) for r in self.readings}
        strained = {x for x in labels if x in self.strained or marked.get(x, ("", False))[0] == "strained"}
        named = self.presumed.get(profile, ())
        presumed = {x for x in labels if x in named or marked.get(x) == ("presumed", True)}
        presumed = presumed or {x for x in labels if marked.get(x) == ("presumed", False)}
        if label in strained and label not in presumed:
            return "strained"
        return "presumed" if label in presumed or not presumed else "arguable"


def _marked(reading: ReadingText, profile: str) -> tuple[str, bool]:
    """The standing written at a reading itself, and whether for this very profile: then it goes first."""
    general = ""
    for standing, where in reading.standings:
        if where and (where == profile or (where == "US" and profile.startswith("US"))):
            return standing, True
        if not where:
            general = standing
    return general, False


_ELEMENT = re.compile(r"<([^>]*)>|\[([^\]]*)\]|\(([^()]*)\)|(\S+)")
_SLOT_KINDS: tuple[SlotKind, ...] = ("number", "whole", "plain", "difference", "ratio", "list", "noun")
_WORD = re.compile(r"[\w'-]*\w|\S")


def pattern(text: str, span: Span) -> Pattern:
    """A wording as elements. Raises Trouble at the wording if it has neither a word nor a slot."""
    elements: list[Element] = []
    for match in _ELEMENT.finditer(text.replace(",", " , ").replace("+/-", "±")):
        required, optional, slot, word = match.groups()
        if slot is not None:
            elements.append(_slot(slot, span))
        elif word is not None:
            elements.append(Literals((tuple(_WORD.findall(word)),), word == ","))
        else:
            options = tuple(
                tuple(_WORD.findall(o)) for o in (required or optional or "").split("/") if o.strip()
            )
            elements.append(Literals(options, optional is not None))
    if not elements:
        raise trouble(span, "a phrase without words")
    needed = tuple(
        frozenset(option[0].lower() for option in e.options)
        for e in elements
        if isinstance(e, Literals) and not e.optional
    )
    return Pattern(text, tuple(elements), needed)


def _slot(text: str, span: Span) -> Slot:
    words = text.split()
    if len(words) == 1 and words[0].isidentifier():
        return Slot("number", words[0])
    kind = next((k for k in _SLOT_KINDS if words and words[0] == k), None)
    if kind is None or len(words) not in (2, 3) or (len(words) == 3 and kind != "list"):
        raise trouble(
            span, f"'({text})' is no slot", f"A slot is a kind and a name; kinds: {', '.join(_SLOT_KINDS)}.",
            "write for example (L) or (list M or)",
        )  # fmt: skip
    return Slot(kind, words[1], words[2] if len(words) == 3 else "")


def entry(statement: PhraseStatement) -> Entry:
    """The entry that a phrase statement of a sheet describes."""
    made = Entry(
        tuple(pattern(text, span) for text, span in statement.patterns),
        statement.only_for,
        statement.subjects,
        True,
        lambda: statement,
    )
    _ = made.statement
    return made


@cache
def entries() -> tuple[Entry, ...]:
    """Every phrase of the shipped catalogue, by file name and then in the order written."""
    found: list[Entry] = []
    folder = files("scopecheck") / "catalogue"
    for item in sorted(folder.iterdir(), key=lambda f: f.name):
        if item.name.endswith(".phrases"):
            found += read_entries(
                Source(f"catalogue {item.name.removesuffix('.phrases')}", item.read_text("utf-8"))
            )
    return tuple(found)


_BLOCK = re.compile(r"^phrase .*(?:\n(?!phrase\b).*)*", re.MULTILINE)
_HEAD = re.compile(r'^(?:phrase|  also) +(".*")', re.MULTILINE)
_QUOTED = re.compile(r'"([^"]*)"')
_SUBJECTS = re.compile(r"^  subjects (.*)$", re.MULTILINE)
_ONLY_FOR = re.compile(r"^  only for (.*)$", re.MULTILINE)


def read_entries(source: Source) -> list[Entry]:
    """The phrases of one catalogue text: wordings now, the rest when asked for."""
    text = page(source)
    found = []
    for block in _BLOCK.finditer(text.plain):
        start, end = block.span()
        patterns = tuple(
            pattern(quoted.group(1), text.span(quoted.start(1), quoted.end(1)))
            for head in _HEAD.finditer(text.plain, start, end)
            for quoted in _QUOTED.finditer(text.plain, head.start(1), head.end(1))
        )
        only = _ONLY_FOR.search(text.plain, start, end)
        kinds = tuple(kind.strip() for kind in only.group(1).split(",")) if only else ()
        named = _SUBJECTS.search(text.plain, start, end)
        subjects = tuple(re.findall(r"\w+", named.group(1))) if named else ()
        found.append(Entry(patterns, kinds, subjects, False, _loader(source, start, end)))
    return found


def _loader(source: Source, start: int, end: int) -> Callable[[], PhraseStatement]:
    def load() -> PhraseStatement:
        whole = page(source)
        cut = Page(source, " " * (start - 1) + "\n" * (start > 0) + whole.plain[start:end])
        desk = Desk(cut)
        found, diagnostics = blocks(desk.page)
        for diagnostic in diagnostics:
            raise trouble(diagnostic.span, diagnostic.message)
        return phrase(desk, found[0])

    return load
