"""Values of the exact language on one scale, and what a formula is resolved against."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from scopecheck.core.declared import Part
from scopecheck.core.formula import Const, Formula, Written
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, Kind, Unit, as_level, number_text
from scopecheck.foundations.record import field, record
from scopecheck.foundations.spans import Span
from scopecheck.language.scan import Number
from scopecheck.language.syntax import Node
from scopecheck.vocabulary.constants import constant
from scopecheck.vocabulary.names import Bound, Mode, Names, NotHere, Typed


@record
class Context:
    """What a formula is resolved against. `slots` are a reading's own names; they hide declared ones.

    `strict`: a reading written in a sheet, where numbers carry their units as everywhere in a sheet.
    """

    names: Names
    mode: Mode
    formula: Callable[[Context, Node], Formula]
    term: Callable[[Context, Node], Typed]
    slots: Mapping[str, Bound] = field(default_factory=dict)
    strict: bool = False
    inner: tuple[Part, ...] = ()
    """The parts of the one part that the formula is about."""


def written(number: Number, unit: Unit) -> Written:
    """A number of the sheet in the core's form."""
    return Written(number.text, number.value, number.decimals, unit)


def literal(number: Number, unit: Unit | None = None) -> Typed:
    """A written number as a term, in its own unit or the one given."""
    used = unit or number.unit or PLAIN
    made = written(number, used)
    return Typed(
        Const(made.base, made), used.kind, number, used, bare=unit is None and number.unit is None,
        whole=used.kind == PLAIN_KIND and made.base.denominator == 1,
    )  # fmt: skip


def fit(context: Context, a: Typed, b: Typed, spans: bool = False) -> tuple[Typed, Typed]:
    """Both values on one scale: a bare 0 takes the other's kind, K beside a level is read as a level.

    `spans`: in a sum, where K beside a level stays a distance on the scale.
    """
    a, b = toward(context, a, b, spans), toward(context, b, a, spans)
    return a, b


def toward(context: Context, a: Typed, b: Typed, spans: bool = False) -> Typed:
    """The first value on the scale of the second."""
    if b.kind is None:
        return a
    if a.kind is None:
        if b.kind.point and context.mode == "reading":
            article = "an" if b.kind.name[:1] in "aeiouA" else "a"
            raise NotHere(f"0 is no limit on {article} {b.kind.name}")
        return Typed(a.term, b.kind, a.number, b.unit, True, a.whole)
    if context.mode == "condition" and a.bare and a.number and b.unit:
        return Typed(Const(b.unit.to_base(a.number.value)), b.kind, a.number, b.unit)
    bare_share = a.kind == PLAIN_KIND and not b.kind.dimension and constant(a.term) is not None
    if bare_share and (b.kinds or (context.mode == "reading" and not a.lifted)):
        return Typed(a.term, b.kind, a.number, a.unit, a.bare, a.whole, b.kinds, a.lifted)
    unit = a.number.unit if a.number and not spans else None
    if (
        a.number
        and unit
        and unit.symbol == "K"
        and b.kind.basis == "level"
        and a.kind == Kind(b.kind.dimension)
    ):
        return literal(a.number, as_level(unit))
    return a


def check_bare(context: Context, node: Node, a: Typed, b: Typed) -> None:
    """In a sheet a bare number beside a quantity with a unit is an error that offers the unit."""
    if context.mode != "sheet" and not context.strict:
        return
    for one, other in ((a, b), (b, a)):
        if context.strict and one.kind is None:
            continue
        if one.bare and one.number and other.unit and other.unit.symbol and not other.bare:
            raise bare_number(node.span, one.number, other.unit)


def bare_number(span: Span, number: Number, unit: Unit) -> Trouble:
    """The error for a number without a unit beside something measured in `unit`."""
    symbol = unit.symbol
    also = f" or {number_text(number.value * 100)} %" if symbol == "%" and number.value < 1 else ""
    write = also.removeprefix(" or ") if also and "/" in number.text else f"{number.text} {symbol}{also}"
    if "/" in number.text and not also:
        write = f"of what it is a part, by its declared name: {number.text} of the ..."
    if number.text.isalpha():
        return trouble(
            span, f"'{number.text}' is read as a number beside a quantity in {symbol or 'a unit'}",
            "No phrase reads the words round it.",
            "write the meaning in symbols after the words: two blanks, exactly, facts",
        )  # fmt: skip
    return trouble(
        span, f"{number.text} stands beside a quantity in {symbol or 'a unit'} and has no unit",
        "A number beside a quantity carries its unit, zero too.", f"write {write}",
    )  # fmt: skip
