"""A report as typed blocks: what it says and in which order, nothing about how it is drawn."""

from __future__ import annotations

from typing import TypeAlias

from scopecheck.answers.findings import Answers, Finding
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import record
from scopecheck.report.lines import NumberLine, ValueTable


@record
class Heading:
    """The title of the report (level 1), of a section (level 2), or of a part of one (level 3)."""

    text: str
    level: int = 2


@record
class Banner:
    """A confidentiality heading, as the sheet words it."""

    text: str


@record
class Paragraph:
    """Running text; `quiet` for what a reader may pass over."""

    text: str
    quiet: bool = False


@record
class Listing:
    """Short lines of equal rank."""

    lines: tuple[str, ...]
    quiet: bool = False


@record
class Outline:
    """Lines set in by their depth, from 0: each stands under the last one before it that is less deep."""

    lines: tuple[tuple[int, str], ...]


@record
class Excerpt:
    """Lines to be kept as they are: a message with its place in the sheet marked."""

    text: str


@record
class Item:
    """One decision or one finding, told in full.

    `decision` is the question that settles its findings, '' where there is none; it is the item's title if
    there are several findings or phrases to settle, else a line in the margin. `heads` are (label, words)
    of the limitations concerned. `margin` holds lines under a margin word, in reading order; `also` one line
    for each further finding, `follows` one for each consequence. `findings` are the findings it stands for,
    `consequences` those that only follow from them. `picture` shows the readings of a single quantity.
    `brief` has what texts of the margin are called once they were told in full, `values` those of a listed
    case as the statement has them in brackets. `heading` is the title where `decision` has but the words of
    `heads`.
    """

    number: int
    decision: str
    heads: tuple[tuple[str, str], ...]
    statement: str
    margin: tuple[tuple[str, tuple[str, ...]], ...]
    also: tuple[str, ...]
    follows: tuple[str, ...]
    findings: tuple[Finding, ...]
    consequences: tuple[Finding, ...] = ()
    picture: NumberLine | None = None
    titled: bool = False
    brief: tuple[tuple[str, str], ...] = ()
    values: str = ""
    heading: str = ""

    @property
    def title(self) -> str:
        """The decision where it stands above the words; '' where it does not."""
        return (self.heading or self.decision) if self.titled else ""


@record
class Picture:
    """A quantity's values under each reading."""

    data: NumberLine | ValueTable


@record
class Chart:
    """Limitations down, cases across: `columns` are (name, place), `rows` a limitation with its cells.

    A cell is what the case states and what comes of it.
    """

    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


Block: TypeAlias = Heading | Banner | Paragraph | Listing | Outline | Excerpt | Item | Picture | Chart


@record
class Report:
    """The blocks in reading order, with what they were made from, for formats that carry data.

    `order` holds all findings in the order of stakes; `held_back` those that are in no block as an item.
    """

    blocks: tuple[Block, ...]
    sheet: Sheet
    answers: Answers
    order: tuple[Finding, ...]
    held_back: frozenset[int] = frozenset()
    """Indices into `order`."""
    diagnostics: tuple[Diagnostic, ...] = ()

    @property
    def repeated_pictures(self) -> frozenset[int]:
        """The numbers of the items whose picture shows nothing that an earlier one does not show."""
        shown: dict[object, set[object]] = {}
        found = set()
        for item in self.items:
            if item.picture is None:
                continue
            marks = shown.setdefault((item.picture.name, item.picture.rows), set())
            if marks and marks.issuperset(item.picture.marks):
                found.add(item.number)
            marks.update(item.picture.marks, [None])
        return frozenset(found)

    @property
    def items(self) -> tuple[Item, ...]:
        return tuple(block for block in self.blocks if isinstance(block, Item))
