"""Cells with a number: its unit, its sign, whether it was measured, and whether the thing can have it."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Compare, Const, Measured, Rounded, Written
from scopecheck.exact.bare_shares import bare_share
from scopecheck.exact.fitting import bare_number, literal
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import PLAIN, KindError, Unit, as_level, comparable, number_text
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import Number, Token, scan
from scopecheck.language.syntax import Column, NumberNode, Raw, Words
from scopecheck.matching.subjects import Subject
from scopecheck.resolve.case_desk import CasesDesk, Made, OfCase
from scopecheck.resolve.phrases import Reader
from scopecheck.vocabulary.names import number_of

_RANGE = regex(
    r"-?\d[\d.]*(?:[eE][-+]?\d+|(?![\d.]*[eE][-+]?\d))\s*[^\d\s^]*\s*(?:to|-|±|\+/-|\+-)\s*\d[\d.]*(?:[eE][-+]?\d+)?\s*\S*"
)
"""A range, or a value and how far it may be off: words, as in a claim."""
_SIGN = regex(r"(<=|>=|<|>|≤|≥|!=|≠|=)\s*")
_MEASURED = regex(r"measured\s+")


def put_number(
    desk: CasesDesk, declared: NumberDecl, column: Column, cell: Raw, made: Made, case: OfCase
) -> None:
    """Puts the value, the limit, the measured value or the words that a cell has for a number."""
    page, start, end = cell.page, cell.start, cell.end
    measured = _MEASURED.match(page.plain, start, end)
    sign = _SIGN.match(page.plain, start, end)
    if measured:
        start = measured.end()
    elif sign:
        start = sign.end()
    elif page.plain[start].isalpha() or _RANGE.fullmatch(page.plain, start, end):
        tokens = _with_unit(scan(page, start, end, desk.names.own, words=True), column.unit)
        words = Words(page.plain[start:end], tokens, cell.span)
        by = (Subject(desk.names.value(declared), declared.name, column.span),)
        reader = Reader(desk.names, desk.phrases, desk.groups, case.where, case.name)
        made.facts.append(reader.condition(words, by))
        made.single = False
        return
    node = parse_facts(page, start, end, desk.names.own)
    if not isinstance(node, NumberNode):
        raise trouble(
            cell.span, f"'{cell.text}' is no value for {declared.name}", "A cell holds one value.",
            "write a number, silent, unknown, any; or the case in facts:"
            f" {case.name} : {declared.name} <= ...",
        )  # fmt: skip
    value = _in_unit(desk, declared, column, node)
    if sign:
        op = {"≤": "<=", "≥": ">=", "≠": "!="}.get(sign.group(1), sign.group(1))
        made.facts.append(Compare(op, Measured(declared.name), Const(value.base, value)))  # type: ignore[arg-type]
        made.single = made.single and op == "="
        return
    check_domain(declared, value.base, cell.span)
    if measured:
        rounded = Rounded(Measured(declared.name), value.step, "away", value.unit.offset)
        made.facts.append(Compare("=", rounded, Const(value.base, value)))
        return
    made.facts.append(Compare("=", Measured(declared.name), Const(value.base, value)))
    made.point[declared.name] = value.base


def _with_unit(tokens: tuple[Token, ...], unit: Unit | None) -> tuple[Token, ...]:
    """The words of a cell, numbers without a unit in that of the column, if it has one."""
    numbers = [t.number for t in tokens if t.number]
    if unit is None or any(n.unit for n in numbers):
        return tokens
    return tuple(replace(t, number=replace(t.number, unit=unit)) if t.number else t for t in tokens)


def _in_unit(desk: CasesDesk, declared: NumberDecl, column: Column, node: NumberNode) -> Written:
    number: Number = node.number
    unit: Unit | None = number.unit or column.unit
    if unit is None:
        if declared.unit.symbol:
            raise bare_number(node.span, number, declared.unit)
        unit = PLAIN
    if declared.kind.basis == "level" and unit.symbol == "K":
        unit = as_level(unit)
    try:
        comparable(declared.kind, unit.kind)
    except KindError as error:
        at = (column.span.start, unit.symbol)
        raise desk.other_units.setdefault(at, _other_unit(declared, node, unit, error)) from None
    written = literal(number, unit).term
    assert isinstance(written, Const)
    assert written.written
    return written.written


def _other_unit(declared: NumberDecl, node: NumberNode, unit: Unit, error: KindError) -> Trouble:
    """Said once for a column: a unit of another kind than the column is declared in."""
    own, number = declared.unit.symbol or "plain numbers", node.number.text
    each = "the same goes for each such cell of this column."
    if told := bare_share(node.span, literal(node.number, unit), number_of(declared)):
        said = told.diagnostic
        return trouble(node.span, said.message, f"{said.cause} {each.capitalize()}", said.help)
    cause = f"{declared.name} is declared in {own}; {each}"
    if declared.kind.dimension or unit.kind.dimension or not unit.symbol or not declared.unit.symbol:
        return trouble(node.span, str(error), cause)
    what = f"{number} {unit.symbol} stands in a column of {own}, and nothing here converts one into the other"
    help = f"write {number} {own} if that is meant, or declare {declared.name}  share in {unit.symbol}"
    return trouble(node.span, what, cause, help)


def check_domain(declared: NumberDecl, value: Fraction, span: Span) -> None:
    """Raises Trouble if a value cannot be: not whole for a count, or beyond a bound."""
    shown = number_text(declared.unit.from_base(value))
    unit = f" {declared.unit.symbol}" if declared.unit.symbol else ""
    if declared.whole and value.denominator != 1:
        raise trouble(span, f"{declared.name} is a count; {shown} is not whole")
    for end, below in ((declared.lower, True), (declared.upper, False)):
        if end is None or (end.closed and value == end.value):
            continue
        if value == end.value or (value < end.value) == below:
            edge = number_text(declared.unit.from_base(end.value))
            side = "below the lower end" if below else "above the upper end"
            open_end = "" if end.closed else ", which does not belong to it"
            raise trouble(
                span,
                f"{shown}{unit} is outside the domain of {declared.name}",
                f"It is {side if value != end.value else side.split(' ', 2)[2]}, {edge}{unit}{open_end}.",
                also=((declared.span, "declared here"),),
            )
