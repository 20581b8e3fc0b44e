"""A phrase: patterns in words, with readings, standings and sources.

A sheet's own phrases are entries of the same form as those of the catalogue. Formulas stay text until a
phrase is used.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property, partial

from scopecheck.core.model import Standing
from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.record import node, record
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import PhraseStatement, Raw, ReadingText
from scopecheck.vocabulary.patterns import Pattern, pattern

PROFILES = ("US examination", "US court", "EPO")


@record
class Citation:
    """A citation in our words and how it is known: read, read (secondary), memory, common practice."""

    text: str
    tag: str


TAGS = ("read", "read (secondary)", "memory", "common practice")
OWN_TAG = "own practice"
"""The tag of a source that is the practice's own; only its own phrases have it."""

OF_PARTS = (
    "total", "mean", "middle", "heavy", "coarse", "least", "greatest",
    "alike", "different", "rising", "falling", "one_greatest", "one_least",
)  # fmt: skip
"""What a phrase for like parts may say of them together: a value to be limited, as in `mean_c`, or a fact."""
OF_PAUSES = ("longest_pause", "total_pause")
"""What a reading may ask of a step that may pause: its longest pause, and all its pauses together."""
OF_STEPS_BETWEEN = ("shortest", "longest")
"""Of like parts, the shortest and the longest step from one to the next."""
OF_HOW_MANY = ("kinds", "two_kinds", "matching")
"""What a reading may ask of the number of like parts besides the number."""
OF_CHANGES = ("change_rising", "change_falling")
"""What a reading may say of a state that begins at one of the values of a condition, rising or falling."""
RECITED = "recited"
"""Of like parts, in a formula: how many of them the claim's lines on their number ask for at least."""


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
class Wording:
    """A wording of a phrase; few are ever laid over words, so its pattern is made when one is.

    `keys` are words of which one must be there for the wording to match; empty where none is needed.
    """

    text: str
    keys: frozenset[str]
    make: Callable[[], Pattern]

    @cached_property
    def pattern(self) -> Pattern:
        return self.make()


SETTLED = "L"
"""The group of the wordings with one meaning."""


@node
class Entry:
    """A phrase: its wordings at once, the rest read from its text when first asked for."""

    wordings: tuple[Wording, ...]
    only_for: tuple[str, ...]
    subjects: tuple[str, ...]
    own: bool
    load: Callable[[], PhraseStatement]
    file: str = ""
    """The phrase file of a practice's phrase; '' for one of the catalogue or of the sheet itself."""
    settled: bool = False
    """Has it one meaning, so that reports propose it, and hardly any claim has it?"""
    each_has: str = ""
    """Of like parts: what must be said of each left of the colon, a moment or a place; '' for anything."""

    @cached_property
    def patterns(self) -> tuple[Pattern, ...]:
        """All wordings as patterns."""
        return tuple(wording.pattern for wording in self.wordings)

    @cached_property
    def statement(self) -> PhraseStatement:
        """The phrase as written. Raises Trouble if its text is wrong."""
        statement = self.load()
        labels = [r.label for r in statement.readings]
        for label in (*statement.strained, *(x for _, known in statement.presumed for x in known)):
            if label not in labels:
                help = did_you_mean(label, labels)
                raise trouble(statement.span, f"the phrase has no reading '{label}'", "", help)
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
    def bound_names(self) -> frozenset[str]:
        """The names its formulas may use for slots and subjects; `a_c` is the limit c on the subject a.

        `total_c` is the limit c on all that a phrase with several nouns names, together.
        """
        slots = [s for p in self.patterns for s in p.slots]
        called = {"x", *self.subjects, *(s.name for s in slots)}
        if "parts" in self.only_for:
            called |= {"parts", RECITED, *OF_STEPS_BETWEEN, "spread", "lowest", "highest", *OF_PARTS}
        if "steps" in self.only_for:
            called |= {"method", "net", *OF_PAUSES}
        if "switches" in self.only_for:
            called |= {"done", *OF_CHANGES}
        if "conditions" in self.only_for:
            called |= {"method", *OF_CHANGES}
        if "sequences" in self.only_for:
            called |= {"steps"}
        if "moments" in self.only_for:
            called |= {"start", "end", "lowest", "highest", "average", "ends", "all", "spread"}
        if "classes" in self.only_for:
            called |= {"classes", "total"}
        if {"counts", "open counts", "closed counts"} & set(self.only_for):
            called |= set(OF_HOW_MANY)
        if sum(s.kind == "noun" for s in slots) > 1 or len(self.subjects) > 1:
            called |= {"total"}
        called |= {f"single_{s.name}" for s in slots if s.kind == "list"}
        limits = {s.name for s in slots if s.kind == "limit"}
        return frozenset(called | {f"{n}_{limit}" for n in called - limits for limit in limits})

    @property
    def spaced_in_time(self) -> bool:
        """Of like parts: does it say how far in time one is from the next, and not how much they differ?"""
        asks = any(word in r.formula_text for r in self.readings for word in OF_STEPS_BETWEEN)
        differing = any(s.kind == "difference" for p in self.patterns for s in p.slots)
        return bool(self.each_has) or (asks and not differing)

    @property
    def nearness(self) -> int:
        """Which of two phrases reads words: one of the sheet, of the practice, of the catalogue."""
        return 2 if not self.own else 1 if self.file else 0

    @property
    def title(self) -> str:
        """The first wording, which names the entry."""
        return self.wordings[0].text if self.wordings else self.statement.id

    def presumes(self, label: str) -> bool:
        """Whether a reading is presumed in some profile."""
        marked = (s for r in self.readings if r.label == label for s, _ in r.written.standings)
        return any(label in labels for labels in self.presumed.values()) or "presumed" in marked

    def standing(self, label: str, profile: str, among: tuple[str, ...] | None = None) -> Standing:
        """The standing of a reading in a profile ('US examination', 'US court', 'EPO').

        `among`: the labels that apply at an occurrence. Where no presumption is known among them, every
        reading counts as presumed that is neither strained nor marked as arguable.
        """
        labels = among or tuple(r.label for r in self.readings if r.formula is not None)
        marked = {r.label: _marked(r.written, profile) for r in self.readings}
        strained = {x for x in labels if x in self.strained or marked.get(x, ("", False))[0] == "strained"}
        named = self.presumed.get(profile, ())
        presumed = {x for x in labels if x in named or marked.get(x) == ("presumed", True)}
        presumed = presumed or {x for x in labels if marked.get(x) == ("presumed", False)}
        if label in strained and label not in presumed:
            return "strained"
        alike = not presumed and marked.get(label, ("", False))[0] != "arguable"
        return "presumed" if label in presumed or alike else "arguable"


def _marked(reading: ReadingText, profile: str) -> tuple[str, bool]:
    """The standing written at a reading itself, and whether for this very profile: then it goes first."""
    general = ""
    for standing, where in reading.standings:
        if where and (where == profile or (where == "US" and profile.startswith("US"))):
            return standing, True
        if not where:
            general = standing
    return general, False


def entry(statement: PhraseStatement, file: str = "") -> Entry:
    """The entry that a phrase statement of a sheet, or of a practice's phrase file, describes.

    Raises Trouble at what is wrong with it.
    """
    patterns = [pattern(text, span) for text, span in statement.patterns]
    wordings = tuple(Wording(p.text, frozenset(), partial(_same, p)) for p in patterns)
    made = Entry(
        wordings,
        statement.only_for,
        statement.subjects,
        True,
        lambda: statement,
        file,
        each_has=statement.each_has,
    )
    _ = made.statement
    return made


def _same(made: Pattern) -> Pattern:
    return made
