"""Short builders of core sheets, for tests that need one without going through the language."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from scopecheck.core.construction import groups_in, names_in
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import (
    OTHERS,
    All,
    Bound,
    Chosen,
    Compare,
    Const,
    Formula,
    Includes,
    Measured,
    Not,
    Op,
    Value,
    Written,
)
from scopecheck.core.model import (
    Case,
    Claim,
    FreeParameter,
    Given,
    Group,
    Limitation,
    Reading,
    Role,
    Sheet,
    Standing,
)
from scopecheck.foundations.quantity import PLAIN, Unit, find_unit
from scopecheck.foundations.spans import Source, Span

SPAN = Span(Source("built", " "), 0, 1)


def unit(symbol: str) -> Unit:
    found = find_unit(symbol) if symbol else PLAIN
    assert found is not None
    return found


def written(text: str, symbol: str = "") -> Const:
    """A written number with its digits, in base units: written("3.0", "mm")."""
    decimals = len(text.partition(".")[2])
    number = Written(text, Fraction(text), decimals, unit(symbol))
    return Const(number.base, number)


def compare(name: str, op: Op, text: str, symbol: str = "") -> Compare:
    return Compare(op, Measured(name), written(text, symbol))


def within(name: str, low: str, high: str, symbol: str = "", ends: str = "[]") -> All:
    """`low` to `high`; `ends` tells with brackets which of them are in: "[]", "()", "[)"."""
    lower: Op = ">=" if ends[0] == "[" else ">"
    upper: Op = "<=" if ends[1] == "]" else "<"
    return All((compare(name, lower, low, symbol), compare(name, upper, high, symbol)))


# ---- vocabulary


def bound(text: str | None, symbol: str = "") -> Bound | None:
    """A bound as "0" (in) or "(0" (out)."""
    if text is None:
        return None
    return Bound(unit(symbol).to_base(Fraction(text.lstrip("("))), not text.startswith("("))


def number(name: str, symbol: str = "", low: str | None = None, high: str | None = None) -> NumberDecl:
    u = unit(symbol)
    return NumberDecl(name, u.kind, u, False, bound(low, symbol), bound(high, symbol), False, "", SPAN)


def count(name: str, low: str | None = "0", high: str | None = None) -> NumberDecl:
    return NumberDecl(name, PLAIN.kind, PLAIN, True, bound(low), bound(high), False, "", SPAN)


def choice(name: str, *members: str, only: bool = False) -> ChoiceDecl:
    return ChoiceDecl(name, members if only else (*members, OTHERS), "", SPAN)


def set_of(name: str, *members: str, only: bool = False) -> SetDecl:
    return SetDecl(name, members if only else (*members, OTHERS), "", SPAN)


# ---- readings


def readings(*described: str) -> tuple[Reading, ...]:
    """Readings from "label" (presumed), "label?" (arguable) and "label??" (strained)."""
    found = []
    for text in described:
        label = text.rstrip("?")
        standing: Standing = ("presumed", "arguable", "strained")[len(text) - len(label)]
        found.append(Reading(label, standing, label))
    return tuple(found)


def group(index: int, *described: str, wording: str = "") -> Group:
    taken = readings(*described)
    order = ("presumed", "arguable", "strained")
    base = min(range(len(taken)), key=lambda i: (order.index(taken[i].standing), i))
    wording = wording or f"phrase {index}"
    return Group(index, "claims", wording, wording, taken, base, ())


def parameter(
    key: str, group: int, reading: int, presumed: str = "0", low: str | None = "0", high: str | None = None
) -> FreeParameter:
    lower = bound(low)
    assert lower is not None
    return FreeParameter(key, key, group, reading, lower, bound(high), Fraction(presumed), PLAIN, False)


# ---- claims and cases


def limitation(label: str, formula: Formula, meant: Formula | None = None) -> Limitation:
    claim = int(label.rstrip("abcdefghijklmnopqrstuvwxyz"))
    groups = groups_in(formula)
    return Limitation(label, claim, "", f"words of {label}", "", formula, meant, "", groups, not groups, SPAN)


def claim(number: int, *limitations: Limitation, parents: tuple[int, ...] = ()) -> Claim:
    return Claim(number, "", "thing", parents, limitations, SPAN)


def case(
    name: str,
    role: Role,
    facts: Formula,
    targets: tuple[str, ...] = (),
    silent: tuple[str, ...] = (),
) -> Case:
    stated = tuple(sorted(names_in(facts)))
    form = "example" if role == "document" else "thing"
    return Case(name, role, form, targets, facts, "", stated, silent, (), groups_in(facts), "", SPAN)


def point(declarations: Sequence[Declaration], **values: Value | int | str) -> All:
    """Exactly these values, each a number in base units, a member, or a set of members."""
    facts: list[Formula] = []
    for d in declarations:
        if d.name not in values:
            continue
        value = values[d.name]
        if isinstance(d, NumberDecl):
            assert not isinstance(value, frozenset)
            facts.append(Compare("=", Measured(d.name), Const(Fraction(value))))
        elif isinstance(d, ChoiceDecl):
            facts.append(Chosen(d.name, str(value)))
        else:
            assert isinstance(value, frozenset)
            facts += [Includes(d.name, m) if m in value else Not(Includes(d.name, m)) for m in d.members]
    return All(tuple(facts))


def given(formula: Formula, text: str = "a fact") -> Given:
    return Given(text, formula, "", SPAN)


def sheet(
    declarations: Sequence[Declaration],
    claims: Sequence[Claim],
    groups: Sequence[Group] = (),
    cases: Sequence[Case] = (),
    givens: Sequence[Given] = (),
    parameters: Sequence[FreeParameter] = (),
) -> Sheet:
    return Sheet(
        "built",
        "US",
        "examination",
        False,
        "",
        tuple(declarations),
        tuple(givens),
        tuple(claims),
        tuple(groups),
        tuple(parameters),
        tuple(cases),
        (),
        (),
        "built",
    )
