"""A formula written in the symbols of sheets, so that it can be read back; None for what has no symbols."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import assert_never

from scopecheck.core.construction import names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import (
    OTHERS,
    All,
    Any,
    Chosen,
    Compare,
    Const,
    CountOf,
    Divide,
    ExactlyOne,
    Formula,
    Implies,
    Includes,
    IsWhole,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Not,
    Read,
    Rounded,
    Term,
    Truth,
)
from scopecheck.core.formula import Add as Sum
from scopecheck.core.model import Sheet
from scopecheck.foundations.quantity import Unit, decimal_text

RULES = {"away": "HALF AWAY", "up": "HALF UP", "even": "HALF EVEN"}


class _NoSymbols(Exception):
    """A part that this page does not write."""


def written(sheet: Sheet, formula: Formula) -> str:
    """The formula in symbols; '' where some part of it cannot be written so."""
    try:
        return _formula(sheet, formula)
    except _NoSymbols:
        return ""


def _formula(sheet: Sheet, formula: Formula) -> str:
    match formula:
        case Truth(value):
            return "TRUE" if value else "FALSE"
        case Compare(op, left, right):
            return f"{_term(sheet, left, right)} {op} {_term(sheet, right, left)}"
        case IsWhole(item):
            return f"{_term(sheet, item, item)} IS WHOLE"
        case Chosen(name, member):
            return f"{name} = {_member(member)}"
        case Includes(name, member):
            return f"{_member(member)} IN {name}"
        case Not(item):
            return f"NOT ({_formula(sheet, item)})"
        case All(items):
            return _many(sheet, items, " AND ")
        case Any(items):
            return _many(sheet, items, " OR ")
        case ExactlyOne(items):
            return f"ONE({', '.join(f'({_formula(sheet, i)})' for i in items)})"
        case Implies() | Read():
            raise _NoSymbols
        case _:
            assert_never(formula)


def _many(sheet: Sheet, items: Iterable[Formula], sign: str) -> str:
    parts = [f"({_formula(sheet, i)})" for i in items]
    if not parts:
        raise _NoSymbols
    return sign.join(parts)


def _term(sheet: Sheet, term: Term, beside: Term) -> str:
    """A term; a number takes the unit of what it stands beside."""
    match term:
        case Const(value, digits):
            if digits is not None:
                part = digits.text if "/" in digits.text else ""
                in_hundredths = part and part != str(digits.value)  # of a third in per cent 100/3 stands
                text = f"{digits.text} {digits.unit.symbol}".strip()
                return _number(digits.base, digits.unit) if in_hundredths else text
            return _number(value, _unit(sheet, beside))
        case Measured(name):
            return name
        case CountOf(name):
            return f"COUNT({name})"
        case Sum(items):
            return _sum([_term(sheet, i, beside) for i in items], items)
        case Negate(item):
            return f"-{_part(sheet, item, beside)}"
        case Divide(left, right):
            return f"{_part(sheet, left, right)} / {_part(sheet, right, left)}"
        case Multiply(Const(value, None), right):
            return f"{_number(value, None)} * {_part(sheet, right, right)}"
        case Magnitude(item):
            return f"ABS({_term(sheet, item, beside)})"
        case Rounded(item, step, rule, Fraction(numerator=0)):
            unit = _unit(sheet, item)
            number = _number(step + (unit.offset if unit else 0), unit)
            return f"ROUND({_term(sheet, item, item)} TO {number}, {RULES[rule]})"
        case _:
            raise _NoSymbols


def _part(sheet: Sheet, term: Term, beside: Term) -> str:
    """A term as part of another, in brackets unless it is one name or one number."""
    text = _term(sheet, term, beside)
    return text if isinstance(term, Const | Measured | CountOf | Magnitude | Rounded) else f"({text})"


def _sum(parts: list[str], items: Iterable[Term]) -> str:
    text = ""
    for part, item in zip(parts, items, strict=True):
        if isinstance(item, Negate):
            text += f" - {part[1:]}" if text else part
        else:
            text += f" + {part}" if text else part
    return text


def _unit(sheet: Sheet, term: Term) -> Unit | None:
    """The unit of the first quantity that a term speaks of; a quotient has none."""
    while isinstance(term, Magnitude | Negate | Rounded):
        term = term.item
    names = names_in(term)
    found = [d for d in sheet.declarations if d.name in names and isinstance(d, NumberDecl)]
    return found[0].unit if found and not isinstance(term, Divide) else None


def _number(value: Fraction, unit: Unit | None) -> str:
    number = unit.from_base(value) if unit else value
    digits = decimal_text(number) or f"{number.numerator}/{number.denominator}"
    return f"{digits} {unit.symbol}".strip() if unit else digits


def _member(member: str) -> str:
    return "others" if member == OTHERS else member
