"""Witnesses: concrete things that have been re-checked by the exact evaluator.

A `Witness` is built by `verify` alone, so one that has not been checked cannot exist. Nothing here knows the
solver: this module judges it.
"""

from __future__ import annotations

from typing import Literal, TypeAlias, assert_never

from scopecheck.core.construction import Construction
from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import Article, Formula, Value, lies_within
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import record
from scopecheck.solving.evaluate import evaluate

Expected: TypeAlias = Literal["met", "not met", "false", "undefined"]


class _MadeByVerify:
    """The mark of a witness that was verified; one that comes from another process of this run keeps it."""


class WitnessError(Exception):
    """A thing found by the search does not re-check: an internal fault, never a finding."""


@record
class Obligation:
    """What a witness must show: this formula, for this article, under this construction."""

    formula: Formula
    expected: Expected
    construction: Construction


@record
class Witness:
    """A verified thing: its values in sheet order, and what was checked of it."""

    values: tuple[tuple[str, Value], ...]
    obligations: tuple[Obligation, ...]
    made_by: object

    def __post_init__(self) -> None:
        if self.made_by is not _MadeByVerify:
            raise WitnessError("a witness is made by verify() alone")

    @property
    def article(self) -> Article:
        return dict(self.values)


def verify(sheet: Sheet, article: Article, obligations: tuple[Obligation, ...]) -> Witness:
    """The article as a witness of the obligations. Raises `WitnessError` if any of them fails.

    Bounds, lists and given facts are checked with the rest: a thing that cannot exist shows nothing.
    """
    for declaration in sheet.declarations:
        if not _in_domain(declaration, article.get(declaration.name)):
            raise WitnessError(f"the value of '{declaration.name}' is outside its declaration")
    anywhere = Construction(tuple(0 for _ in sheet.groups))
    for given in sheet.givens:
        if evaluate(given.formula, article, anywhere) is not True:
            raise WitnessError(f"the given fact '{given.text}' does not hold")
    for obligation in obligations:
        value = evaluate(obligation.formula, article, obligation.construction)
        if not _as_expected(value, obligation.expected):
            raise WitnessError(f"expected {obligation.expected}, evaluated as {value}")
    ordered = tuple((d.name, article[d.name]) for d in sheet.declarations)
    return Witness(ordered, obligations, _MadeByVerify)


def can_exist(sheet: Sheet, article: Article) -> bool:
    """Is every value within its bounds and every given fact true?"""
    try:
        verify(sheet, article, ())
    except WitnessError:
        return False
    return True


def _as_expected(value: bool | None, expected: Expected) -> bool:
    match expected:
        case "met":
            return value is True
        case "not met":
            return value is not True
        case "false":
            return value is False
        case "undefined":
            return value is None
        case _:
            assert_never(expected)


def _in_domain(declaration: NumberDecl | ChoiceDecl | SetDecl, value: Value | None) -> bool:
    match declaration:
        case NumberDecl(lower=lower, upper=upper, whole=whole):
            if value is None or isinstance(value, str | frozenset) or (whole and value.denominator != 1):
                return False
            return lies_within(value, lower, upper)
        case ChoiceDecl(members=members):
            return isinstance(value, str) and value in members
        case SetDecl(members=members):
            return isinstance(value, frozenset) and value <= set(members)
        case _:
            assert_never(declaration)
