"""A sheet in the making: what is proposed for each claim, and on which line of the sheet it stands."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import chain

from scopecheck.foundations.record import field, holder, record
from scopecheck.foundations.regex import regex

WIDTH = 92
OVER = 8
"""How much longer than that a line of a claim may be so that the next begins well."""
INDENT = "   "
_UNFIT_TO_BEGIN = regex(r"[#|]|\d{1,4}\s*[.)](?:\s|$)|[^\W\d_][^:\n]{0,60}?\s*:")
"""What a line of a claim's text must not begin with: it would be read as something else."""
_BREAKS = regex(r"(?<=[;:])[ \t]*\n\s*|\n\s*(?=\([a-z]{1,4}\)|[a-z]\)|[-*•–] )")
"""Line breaks that are kept: after a semicolon or colon, and before an item of a list."""
_HYPHEN = regex(r"(?<=[a-z])-[ \t]*\n[ \t]*(?=[a-z])")


_DIGITS = regex(r"\d+(?:\.\d+)?")
_DOUBTFUL = regex(r"\d[,\s]\d|\d{9}")
"""Numbers that may be refused for their spelling: a line with one is read whatever was read before."""

_AS_WHOLE = regex(r"(?<!group )consist|balance|remainder|remaining", re.IGNORECASE)
"""Words by which a claim's lines are read together."""


@holder
class Quantity:
    """A proposed declaration: its name left of a colon, its kind as written in a sheet, and where it was met.

    What is declared below another (`within`) or under its singular has another name there (`declared`).
    """

    name: str
    kind: str
    noun: str
    owner: str
    claims: list[int] = field(default_factory=list)
    declared: str = ""
    within: Quantity | None = None
    stands_for: str = ""
    """The members of a class of ingredients, as they stand in its line."""
    note: str = ""
    """The claim's words that its declaration keeps as a note."""

    @property
    def members(self) -> bool:
        """Whether it is a list of what may be there."""
        return self.kind.startswith("any of")

    def line(self, wide: int = 0) -> str:
        """Its declaration, the name filled up to a width; an ingredient has its name, a class its members."""
        name = self.declared or self.name
        if self.within is not None and not self.within.declared:
            return f"{name} : {self.stands_for}" if self.stands_for else name
        note = f'    "{self.note}"' if self.note and '"' not in self.note else ""
        return f"{name.ljust(wide)}  {self.kind}{note}"


def declarations(quantities: Sequence[Quantity]) -> list[tuple[str, Quantity]]:
    """The lines that declare quantities, in their order; what is within another stands below it, indented."""
    wide = max((len(q.declared or q.name) for q in quantities if q.within is None), default=0)
    found: list[tuple[str, Quantity]] = []
    for quantity in quantities:
        if quantity.within is None:
            below = [q for q in quantities if q.within is quantity]
            fields = max((len(q.declared) for q in below), default=0)
            found.append((quantity.line(wide), quantity))
            found += [(f"  {q.line(fields)}", q) for q in below]
    return found


@record
class Doubt:
    """A quantity that may be one that was called otherwise before: each with the claim that names it."""

    quantity: Quantity
    claim: int
    others: tuple[tuple[Quantity, int], ...]


@holder
class Proposed:
    """A proposed line beside a claim: `name : words`, or a mark for words that nothing takes up."""

    words: str
    name: str = ""
    exactly: str = ""
    """Facts in symbols, where the claim's own words are symbols; without words a line of symbols alone."""
    asked: bool = False
    """Whether a phrase has read it by itself: only what the rest of the sheet does to it is open then."""

    @property
    def names(self) -> tuple[str, ...]:
        """What a line is about: nothing for a mark, two for a ratio, all steps of a list."""
        names = self.name.replace(" + ", ", ").split(", ") if self.name else []
        return tuple(name.removeprefix("duration of ") for name in names)

    @property
    def line(self) -> str:
        if not self.words:
            return self.exactly
        facts = f"  exactly  {self.exactly}" if self.exactly and self.name else ""
        return f"{self.name or 'not restated'} : {self.words}{facts}"


@holder
class DraftClaim:
    """A claim's number, its text as laid out in the sheet, and the lines proposed beside it."""

    number: int
    text: str
    lines: list[Proposed] = field(default_factory=list)


@record
class Written:
    """A sheet's text, and what stands on each of its lines (from 1) where that can be taken back."""

    text: str
    at: dict[int, tuple[DraftClaim | None, Proposed | Quantity | None]]


@holder
class Draft:
    """Everything proposed for a text."""

    name: str
    title: str
    claims: list[DraftClaim]
    quantities: list[Quantity] = field(default_factory=list)
    doubts: list[Doubt] = field(default_factory=list)
    unordered: list[int] = field(default_factory=list)
    """The claims that list steps of which nothing says when they are done."""
    profile: str = "US"
    filed: str = ""
    remarks: list[str] = field(default_factory=list)
    after: list[str] = field(default_factory=list)

    def kinds(self) -> dict[str, str]:
        """The kinds of all quantities, by name."""
        return {q.name: q.kind for q in self.quantities}

    def alike(self, proposed: Proposed, kinds: Mapping[str, str]) -> tuple[str, str]:
        """What two lines share that are read alike: kind, and words without their numbers' digits."""
        return kinds.get(proposed.name, ""), _DIGITS.sub("#", proposed.line.removeprefix(proposed.name))

    def written(self, sample: bool = False) -> Written:
        """The sheet. Each proposal stands on one line, so that a mistake found there names it.

        As a `sample`, lines that were read by themselves stand as marks, and of others that are read alike
        all but the first; not so in claims with what is read of the claim as a whole.
        """
        seen: set[tuple[str, str]] = set()
        kinds = self.kinds()
        lines: list[str] = [f"# {line}".rstrip() for line in self.remarks]
        at: dict[int, tuple[DraftClaim | None, Proposed | Quantity | None]] = {}
        lines += ["", f"title    {self.title}", f"profile  {self.profile}"]
        lines += [f"filed    {self.filed}", ""] if self.filed else [""]
        for line, quantity in declarations(self.quantities):
            lines.append(line)
            at[len(lines)] = (None, quantity)
        for claim in self.claims:
            lines.append("")
            for line in claim_lines(claim):
                lines.append(line)
                at[len(lines)] = (claim, None)
            wide = max((len(p.name) for p in claim.lines if p.name and p.words), default=0)
            wide = max(wide, len("not restated")) if any(not p.name for p in claim.lines) else wide
            as_whole = bool(_AS_WHOLE.search(claim.text))
            for proposed in claim.lines:
                shown = proposed
                if sample and proposed.name and proposed.words and not _DOUBTFUL.search(proposed.words):
                    alike = self.alike(proposed, kinds)
                    asked = proposed.asked and not as_whole
                    shown = Proposed(proposed.words) if asked or alike in seen else proposed
                    seen.add(alike)
                left, colon, right = shown.line.partition(" : ")
                lines.append(f"{INDENT}| {left.ljust(wide) if colon else left}{colon}{right}")
                at[len(lines)] = (claim, proposed)
        lines += ["", *(f"# {line}".rstrip() for line in self.after)] if self.after else []
        return Written("\n".join(lines) + "\n", at)


def one_flow(text: str) -> str:
    """A claim's text without the line breaks of its page; those before items and after semicolons stay."""
    text = _HYPHEN.sub("-", text)
    kept = _BREAKS.sub("\f", text)
    return "\n".join(" ".join(part.split()) for part in kept.split("\f") if part.strip())


def claim_lines(claim: DraftClaim) -> list[str]:
    """The claim as lines of a sheet: its number first, no line that could be read as something else."""
    return _claim_lines(claim.number, claim.text)


@lru_cache(maxsize=1024)
def _claim_lines(number: int, text: str) -> list[str]:
    first = f"{number}. "
    made: list[str] = []
    for part in _parts(text):
        rest = part.split(" ")
        while rest:
            width = WIDTH - (len(first) if not made else len(INDENT))
            count = _fit(rest, width)
            made.append((INDENT if made else first) + " ".join(rest[:count]))
            rest = rest[count:]
    return made


def _fit(said: Sequence[str], width: int) -> int:
    """How many words stand on a line, so that the next can begin with what follows: a few more, or less."""
    most = next((n for n in range(1, len(said)) if len(" ".join(said[: n + 1])) > width), len(said))
    over = (n for n in range(most, len(said) + 1) if n == most or len(" ".join(said[:n])) <= width + OVER)
    tries = chain(over, range(most - 1, 0, -1), range(most + 1, len(said) + 1))
    return next(
        n
        for n in tries
        if n == len(said) or not _UNFIT_TO_BEGIN.match(wrapped(" ".join(said[n : n + WIDTH]), WIDTH)[0])
    )


def _parts(text: str) -> list[str]:
    """The parts of a claim that begin on a line of their own."""
    found: list[str] = []
    for part in text.split("\n"):
        if found and _UNFIT_TO_BEGIN.match(part):
            found[-1] += f" {part}"
        else:
            found.append(part)
    return found


def wrapped(text: str, width: int) -> list[str]:
    """The words of a text on lines of at most a width, where no word is longer."""
    lines: list[str] = []
    for word in text.split(" "):
        if lines and len(lines[-1]) + 1 + len(word) <= width:
            lines[-1] += f" {word}"
        elif word:
            lines.append(word)
    return lines
