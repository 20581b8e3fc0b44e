"""Cells of cases: what each says of the thing that its column names."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from scopecheck.core.declared import Assembly, ChoiceDecl, Declaration, NumberDecl, Part, SetDecl, Step
from scopecheck.core.formula import Chosen, Compare, Const, Formula, Includes, Measured, Not, Truth
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.language.pieces import split_commas
from scopecheck.language.scan import scan
from scopecheck.language.syntax import Column, Raw, Words
from scopecheck.matching.subjects import Subject
from scopecheck.resolve.assembly_cells import said_of_assembly
from scopecheck.resolve.case_desk import CasesDesk, Made, OfCase, put_said_of_step
from scopecheck.resolve.case_parts import Spoken, list_cell
from scopecheck.resolve.number_cells import check_domain, put_number
from scopecheck.resolve.phrases import Reader
from scopecheck.resolve.step_cells import Cell, no_such_word
from scopecheck.vocabulary.names import member_of, no_member, no_moment

_SILENT, _UNKNOWN, _FREE = ("silent",), ("unknown",), ("any", "free", "")
_NOT_STATED = frozenset(
    f"not {word}" for word in "stated given disclosed mentioned specified reported described".split()
) | {"unspecified", "undisclosed"}
"""In a document as good as `silent`."""
_NOTHING = ("none", "nil", "absent", "zero")
_DASHES = ("-", "--", "---", "n/a", "na", "n.a.", "n.d.", "?", "/", "x", "tbd")


def put_cell(desk: CasesDesk, column: Column, cell: Raw, made: Made, case: OfCase) -> None:
    """Puts what a cell says with the rest of its case. Raises Trouble where it says nothing that can be."""
    if desk.names.declared(column.name) is None and (found := desk.names.field_of(column.name)):
        _list_cell(desk, column, cell, made, case, found)
        return
    if moments := desk.names.throughout(column.name):
        for moment in moments:
            put_cell(desk, replace(column, name=moment), cell, made, case)
        return
    if step := desk.names.step(column.name):
        _step_cell(desk, step, column, cell, made, case)
        return
    if (whole := desk.names.assemblies.get(column.name.lower())) is not None:
        _assembly_cell(desk, whole, cell, made, case.stating)
        return
    declared = _declared(desk, column)
    before = len(made.facts)
    _value_cell(desk, declared, column, cell, made, case)
    if len(made.facts) > before and (one := desk.names.one_of(declared.name)):
        made.facts.append(one[0].present(one[1]))
        made.spoken.append(Spoken(*one, cell.span))


def _declared(desk: CasesDesk, column: Column) -> Declaration:
    found = desk.names.declared(column.name)
    if moment := desk.names.moment_of(column.name):
        raise no_moment(*moment, column.name, column.span)
    if found is None:
        raise desk.names.unknown(column.name, column.span)
    return found


def _leaves_open(said: str, names: Sequence[str], stating: bool, made: Made) -> bool:
    """Whether the cell says no value; of what it is silent, unknown or free is put with the rest.

    `stating`: an empty cell is silent, as a document is, and leaves the value free otherwise.
    """
    for words, of in ((_SILENT + ("",) * stating, made.silent), (_UNKNOWN, made.unknown), (_FREE, made.free)):
        if said in words:
            of += names
            return True
    return False


def _assembly_cell(desk: CasesDesk, whole: Assembly, cell: Raw, made: Made, document: bool) -> None:
    """All the parts of an assembly in one cell."""
    text = " ".join(cell.page.plain[cell.start : cell.end].split())
    lower = text.lower()
    if _leaves_open(lower, whole.members, document, made):
        return
    if lower in _DASHES:
        raise _no_value(cell, text, "none, or silent" if document else "none, or any")
    said = said_of_assembly(whole, text, cell.span, document)
    for name, value in said.point.items():
        declared = desk.names.declarations[name]
        assert isinstance(declared, NumberDecl)
        assert isinstance(value, Fraction)
        check_domain(declared, value, cell.span)
    made.facts += said.facts or (Truth(True),)
    made.point |= said.point
    made.single = made.single and said.all_fixed


def _list_cell(
    desk: CasesDesk, column: Column, cell: Raw, made: Made, case: OfCase, found: tuple[tuple[Part, ...], str]
) -> None:
    """The values of like parts, one by one."""
    (part, *more), own = found
    if more:
        assert part.within
        raise trouble(
            column.span, f"'{column.name}': of which {part.within.name.rpartition(' ')[0]}?",
            "A cell lists the values of one after the other.",
            f"a column for each: {own} of {part.plural} of {part.within.name}",
        )  # fmt: skip
    text = cell.text.strip().lower()
    slots = [part.slot(i, own) for i in range(1, part.most + 1)]
    if _leaves_open(text, slots, case.stating, made):
        return

    def take(declared: Declaration, entry: Raw) -> tuple[Formula, ...]:
        inner = Made()
        _value_cell(desk, declared, column, entry, inner, case)
        made.silent += inner.silent
        made.unknown += inner.unknown
        made.free += inner.free
        made.point |= inner.point
        made.single = made.single and inner.single
        return tuple(inner.facts)

    known = made.point.get(part.count)
    count = known if isinstance(known, Fraction) else None
    listed = list_cell(desk.names, part, own, cell, take, count)
    made.facts += listed.facts
    if listed.counted is None:
        made.single = made.single and count is not None
    else:
        made.counted.append(listed.counted)
        declared = desk.names.declarations[part.count]
        assert isinstance(declared, NumberDecl)
        check_domain(declared, Fraction(listed.counted.count), cell.span)
        made.point[part.count] = Fraction(listed.counted.count)


def _value_cell(
    desk: CasesDesk, declared: Declaration, column: Column, cell: Raw, made: Made, case: OfCase
) -> None:
    """What a cell says of one declared thing."""
    page = cell.page
    text = " ".join(page.plain[cell.start : cell.end].split())
    lower = text.lower()
    member = None if isinstance(declared, NumberDecl) else member_of(declared, text)
    said_nothing = lower in _NOT_STATED and member is None
    if said_nothing and case.stating:
        made.silent.append(declared.name)
    elif said_nothing:
        raise _no_value(cell, text, "any")
    elif _leaves_open(lower, (declared.name,), case.stating, made):
        return
    elif lower in _NOTHING and isinstance(declared, NumberDecl):
        _put_nothing(declared, cell, text, made)
    elif lower in _DASHES and member is None:
        raise _no_value(cell, text, "silent (the document says nothing of it)" if case.stating else "any")
    elif isinstance(declared, NumberDecl):
        put_number(desk, declared, column, cell, made, case)
    elif isinstance(declared, ChoiceDecl):
        if member is None:
            raise no_member(declared, text, cell.span)
        made.facts.append(Chosen(declared.name, member))
        made.point[declared.name] = member
    else:
        _set_cell(declared, text, cell.span, made, case.stating)


def _step_cell(desk: CasesDesk, step: Step, column: Column, cell: Raw, made: Made, case: OfCase) -> None:
    lower = " ".join(cell.page.plain[cell.start : cell.end].split()).lower()
    whole = ((step.done,) if step.done else ()) + step.numbers
    if _leaves_open(lower, whole, case.stating, made):
        return
    if lower in _DASHES:
        raise _no_value(cell, lower, "not done, or silent" if case.stating else "not done, or any")
    if not put_said_of_step(
        desk, step, Cell(cell.page, cell.start, cell.end, column.unit, desk.names.own), made
    ):
        tokens = scan(cell.page, cell.start, cell.end, desk.names.own, words=True)
        words = Words(cell.page.plain[cell.start : cell.end], tokens, cell.span)
        by = (Subject(step, step.name, column.span),)
        reader = Reader(desk.names, desk.phrases, desk.groups, case.where, case.name)
        if lower.removeprefix("not ").isalpha() and not reader.reads(words, by):
            raise no_such_word(step, cell.span)
        made.facts.append(reader.condition(words, by))
        made.single = False


def _put_nothing(declared: NumberDecl, cell: Raw, text: str, made: Made) -> None:
    """`none` of a share or a number of things is zero; of another quantity it may be that it is not there."""
    if declared.kind.dimension or not (declared.whole or declared.unit.symbol):
        zero = f"0 {declared.unit.symbol}".rstrip()
        raise _no_value(cell, text, f"{zero} if that is meant, any")
    check_domain(declared, Fraction(0), cell.span)
    made.facts.append(Compare("=", Measured(declared.name), Const(Fraction(0))))
    made.point[declared.name] = Fraction(0)


def _no_value(cell: Raw, text: str, instead: str) -> Trouble:
    return trouble(
        cell.span, f"'{text}' is no value", "It may mean nothing said, nothing there, or not known.",
        f"write {instead}, unknown, or the value",
    )  # fmt: skip


def _set_cell(declared: SetDecl, text: str, span: Span, made: Made, document: bool) -> None:
    exact = not document or text.startswith("{") or text == "none"
    inner = "" if text == "none" else text.strip("{}")
    members: list[str] = []
    listed = (piece[a:b] for piece in re.split(r"\+|\band\b", inner) for a, b in split_commas(piece))
    for words in listed:
        if words:
            member = member_of(declared, words)
            if member is None:
                raise no_member(declared, words, span)
            members.append(member)
    facts_: list[Formula] = [Includes(declared.name, m) for m in members]
    if exact:
        facts_ += [Not(Includes(declared.name, m)) for m in declared.members if m not in members]
        made.point[declared.name] = frozenset(members)
    made.facts += facts_ or [Truth(True)]
