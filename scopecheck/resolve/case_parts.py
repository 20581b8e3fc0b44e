"""Like parts in cases: one cell for the values of all of them, and what a row says of how many there are."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from scopecheck.core.declared import Declaration, Part
from scopecheck.core.formula import All, Compare, Const, Formula, Implies, Measured, all_of
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.record import holder, record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import CallNode, Node, Raw, Words
from scopecheck.vocabulary.names import Names
from scopecheck.vocabulary.parts import taken_apart

_EACH = regex(r"each\s+(?=\S)")
_GATHERED = {"MEAN": "the mean", "MEDIAN": "the median", "LEAST": "the least", "GREATEST": "the greatest"}


@record
class Counted:
    """That a row says how many parts of a kind there are, by as many values as stand in a cell."""

    part: Part
    count: int
    span: Span


@record
class Spoken:
    """That a row speaks of one part, and so says that there are so many."""

    part: Part
    index: int
    span: Span


Take = Callable[[Declaration, Raw], tuple[Formula, ...]]
"""What a stretch of a cell says of a declared thing, as facts."""


@holder
class ListCell:
    """What a cell says of a field of all like parts."""

    facts: list[Formula]
    counted: Counted | None


def says_each(cell: Raw) -> bool:
    """Does the cell say one thing of each part, not how many there are?"""
    return _EACH.match(cell.page.plain, cell.start, cell.end) is not None


def list_cell(names: Names, part: Part, own: str, cell: Raw, take: Take, known: Fraction | None) -> ListCell:
    """`2 mm; 3 mm; 3 mm`, `each 3 mm`, `none`: raises Trouble at more values than there may be parts.

    `known` is how many there are, where another cell says so.
    """
    page = cell.page
    if page.plain[cell.start : cell.end].strip() == "none":
        return ListCell([_so_many(part, 0)], Counted(part, 0, cell.span))
    if each := _EACH.match(page.plain, cell.start, cell.end):
        rest = Raw(page, each.end(), cell.end)
        slots = [names.declarations[part.slot(i, own)] for i in range(1, part.most + 1)]
        if known is not None:
            return ListCell([fact for slot in slots[: int(known)] for fact in take(slot, rest)], None)
        said = (
            Implies(part.present(i), all_of(take(names.declarations[part.slot(i, own)], rest)))
            for i in range(1, part.most + 1)
        )
        return ListCell([All(tuple(said))], None)
    entries = list(_entries(cell))
    if len(entries) > part.most:
        raise trouble(
            entries[part.most].span, f"{len(entries)} values for up to {part.most} {part.plural}",
            "Each value is that of one of them.",
            f"write {part.name}  part, up to {len(entries)} where it is declared, or take some out",
            also=((part.span, "declared here"),),
        )  # fmt: skip
    facts = [_so_many(part, len(entries)), *([] if part.within is None else [part.within.there()])]
    for index, entry in enumerate(entries, 1):
        facts += take(names.declarations[part.slot(index, own)], entry)
    return ListCell(facts, Counted(part, len(entries), cell.span))


def _entries(cell: Raw) -> Iterator[Raw]:
    text = cell.page.plain[cell.start : cell.end].rstrip().removesuffix(";")
    at = cell.start
    for piece in text.split(";"):
        start, end = at + len(piece) - len(piece.lstrip()), at + len(piece.rstrip())
        at += len(piece) + 1
        if start == end:
            raise trouble(cell.span, "a value is missing beside a semicolon", "", "for one left open: any")
        yield Raw(cell.page, start, end)


def _so_many(part: Part, count: int) -> Formula:
    return Compare("=", Measured(part.count), Const(Fraction(count)))


def as_fact(formula: Formula) -> Formula:
    """What a row states: where it speaks of one part, that the part is there, and what it says of it."""
    there, said = taken_apart(formula)
    return formula if there is None else All((there, said))


def clashes(
    names: Names, facts: list[Formula], counted: list[Counted], spoken: list[Spoken]
) -> Iterator[Diagnostic]:
    """Numbers of parts in one row that do not go together, each told at its place."""
    numbers = list(_counts(names, facts))
    said = dict(numbers)
    for one in counted:
        stated = [value for name, value in numbers if name == one.part.count]
        stated += [Fraction(other.count) for other in counted if other.part == one.part]
        if wanted := next((count for count in stated if count != one.count), None):
            values = "one value" if one.count == 1 else f"{one.count or 'no'} values"
            yield Diagnostic(
                "error", one.span, f"{values} for {wanted} {one.part.count}",
                "The values of like parts are listed one by one, so they say how many there are.",
                f"write as many values as there are {one.part.count}, any for one left open",
            )  # fmt: skip
            return
    for single in spoken:
        part, index = single.part, single.index
        if part.count in said and said[part.count] < index:
            yield Diagnostic(
                "error", single.span, f"{part.name} {index} where {part.count} is {said[part.count]}",
                f"What is said of {part.name} {index} says that it is there.",
                f"write {part.count} = {index}, or take it out",
            )  # fmt: skip


def _counts(names: Names, facts: list[Formula]) -> Iterator[tuple[str, Fraction]]:
    counts = {part.count for part in names.parts}
    for fact in facts:
        match fact:
            case Compare("=", Measured(name), Const(value)) if name in counts:
                yield name, value
            case _:
                pass


def of_no_parts(names: Names, node: Node | Words, facts: list[Formula]) -> Iterator[Trouble]:
    """The mean, the median or an end of no parts, where the row says that there are none."""
    none = {name for name, value in _counts(names, facts) if value == 0}
    for call in calls(node):
        assert call.over is not None
        part = next(iter(names.kind(call.over.name)), None)
        if call.function in _GATHERED and part is not None and part.count in none:
            yield trouble(
                call.span, f"{_GATHERED[call.function]} of no {part.plural}",
                f"The row says {part.plural} = 0, and then there is nothing to take it of.",
                f"take it out, or write how many {part.plural} there are",
            )  # fmt: skip


def calls(node: object) -> Iterator[CallNode]:
    """What a formula says over like parts."""
    if isinstance(node, CallNode) and node.over is not None:
        yield node
    stack = [getattr(node, name) for name in getattr(node, "__match_args__", ()) if name != "span"]
    for value in stack:
        for inner in value if isinstance(value, tuple) else (value,):
            yield from calls(inner)


__all__ = ["Counted", "ListCell", "Spoken", "as_fact", "clashes", "list_cell", "of_no_parts"]
