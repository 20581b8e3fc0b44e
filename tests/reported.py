"""A small sheet with something of every kind, built by hand with places in a text, for tests of reports."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import Any

from scopecheck.answers.about import OneReading, Reread
from scopecheck.answers.findings import Answers, Finding, Looked, Shown
from scopecheck.answers.questions import ask_all
from scopecheck.answers.witness import Obligation, verify
from scopecheck.core.construction import base_construction, groups_in
from scopecheck.core.formula import (
    All,
    Article,
    Bound,
    Compare,
    Const,
    CountOf,
    Divide,
    Formula,
    Includes,
    IsWhole,
    Measured,
    Read,
    Truth,
    Value,
)
from scopecheck.core.formula import Any as AnyOf
from scopecheck.core.model import (
    Case,
    Claim,
    FreeParameter,
    Given,
    Group,
    Limitation,
    Place,
    Reading,
    Settled,
    Sheet,
    Standing,
    Unrestated,
)
from scopecheck.foundations.quantity import PLAIN
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source, Span
from scopecheck.report.blocks import Item
from scopecheck.report.page import build_report
from scopecheck.report.render import render
from tests.build import case, choice, compare, count, number, point, set_of, sheet, within

TEXT = """title Leaf strainer for a rain-water pipe
1. A leaf strainer comprising a plurality of holes, wherein the number of the holes is divisible by 6,
   the holes have a diameter of between 2 and 4 mm, and the open area is about 35 %.
2. The leaf strainer of claim 1, wherein the basket has a height of between 20 and 60 mm.
3. The leaf strainer of claim 1, wherein the basket is made of at least one of copper and zinc.
4. The leaf strainer of claim 3, wherein the basket is made of steel only.
inside bench sample
inside tall sample
must stay out garden sieve
document D1
"""
SOURCE = Source("strainer.scope", TEXT)


def span(words: str) -> Span:
    start = TEXT.index(words)
    return Span(SOURCE, start, start + len(words))


DECLARATIONS = (
    count("holes"),
    number("diameter", "mm", "(0"),
    number("height", "mm", "(0"),
    set_of("metal", "copper", "zinc", "steel"),
    choice("finish", "polished", "raw"),
)
HOLES, DIAMETER, HEIGHT, METAL, FINISH = DECLARATIONS


def _reading(label: str, standing: Standing, plain: str, **axes: str) -> Reading:
    return Reading(label, standing, plain, axes=tuple(axes.items()))


def _group(index: int, wording: str, places: dict[str, str], *readings: Reading) -> Group:
    found = tuple(Place(where, words, span(words)) for where, words in places.items())
    return Group(index, "claims", wording, wording, readings, 0, found)


GROUPS = (
    _group(
        0,
        "divisible by",
        {"1a": "divisible by 6"},
        _reading("integer quotient", "presumed", "holes / 6 is whole"),
        _reading("can be divided", "arguable", "holes / 6 has a value"),
    ),
    _group(
        1,
        "between ... and ...",
        {"1b": "between 2 and 4 mm", "2a": "between 20 and 60 mm"},
        _reading("both ends in", "presumed", "the ends are in", ends="included", rounding="none"),
        _reading("both ends out", "arguable", "the ends are out", ends="excluded", rounding="none"),
        _reading("rounds to the ends", "strained", "half a step more", ends="included", rounding="half"),
    ),
    _group(
        2,
        "at least one of A and B",
        {"3a": "at least one of copper and zinc"},
        _reading("one of them", "presumed", "copper or zinc", alternatives="inclusive"),
        _reading("one of each", "presumed", "copper and zinc", alternatives="cumulative"),
    ),
)


def limitation(label: str, words: str, formula: Formula, meant: Formula | None = None) -> Limitation:
    groups = groups_in(formula)
    text = "holes / 6 IS WHOLE" if meant else ""
    claim = int(label[:-1])
    return Limitation(label, claim, "", words, words, formula, meant, text, groups, not groups, span(words))


def between(name: str, low: str, high: str) -> Read:
    wider = within(name, f"{int(low) - 1}.5", f"{high}.5", "mm")
    return Read(1, (within(name, low, high, "mm"), within(name, low, high, "mm", "()"), wider))


WHOLE = IsWhole(Divide(Measured("holes"), Const(Fraction(6))))
SIX = Read(0, (WHOLE, Truth(True)))
METALS = Read(
    2,
    (
        AnyOf((Includes("metal", "copper"), Includes("metal", "zinc"))),
        All((Includes("metal", "copper"), Includes("metal", "zinc"))),
    ),
)
STEEL_ONLY = All((Includes("metal", "steel"), Compare("=", CountOf("metal"), Const(Fraction(1)))))

HEIGHTS = limitation("2a", "between 20 and 60 mm", between("height", "20", "60"))
CLAIMS = (
    Claim(
        1,
        TEXT.split("\n")[1],
        "thing",
        (),
        (
            limitation("1a", "divisible by 6", SIX, WHOLE),
            limitation("1b", "between 2 and 4 mm", between("diameter", "2", "4")),
        ),
        span("1. A leaf"),
    ),
    Claim(2, "", "thing", (1,), (HEIGHTS,), span("2. The")),
    Claim(
        3, "", "thing", (1,), (limitation("3a", "at least one of copper and zinc", METALS),), span("3. The")
    ),
    Claim(4, "", "thing", (3,), (limitation("4a", "steel only", STEEL_ONLY),), span("4. The")),
)


def at_place(name: str, listed: Case, place: str = "") -> Case:
    return replace(listed, span=span(name), place=place)


def _point(holes: int, diameter: str, height: int, metal: str) -> Formula:
    return point(
        DECLARATIONS,
        holes=holes,
        diameter=Fraction(diameter) / 1000,
        height=Fraction(height, 1000),
        metal=frozenset({metal}),
    )


CASES = (
    at_place("inside bench", case("bench sample", "inside", _point(24, "3", 40, "copper"))),
    at_place("inside tall", case("tall sample", "inside", _point(24, "4", 60, "copper"), ("1", "2"))),
    at_place("must stay", case("garden sieve", "outside", _point(25, "3", 40, "steel"))),
    at_place("document", case("D1", "document", _point(24, "2", 40, "zinc")), "page 4, example 2"),
)

STRAINER: Sheet = replace(
    sheet(DECLARATIONS, CLAIMS, GROUPS, CASES),
    title="Leaf strainer for a rain-water pipe",
    confidential="Confidential: prepared for counsel",
    source_name="strainer.scope",
    givens=(Given("height > 0 mm", compare("height", ">", "0", "mm"), "a basket", span("title")),),
    policies=(Settled("decimals are exact", "paragraph 14", ("rounds to the ends",), span("title")),),
    unrestated=(Unrestated(1, "number", "35", "the open area is about 35 %", span("35")),),
)


# ---- answers made by hand, and what a report makes of answers


OUT = (1, 1)
"""'both ends out' of 'between'."""
ARTICLE: Article = {
    "holes": Fraction(24),
    "diameter": Fraction(4, 1000),
    "height": Fraction(60, 1000),
    "metal": frozenset({"copper"}),
    "finish": "polished",
}


@cache
def answered() -> Answers:
    return ask_all(STRAINER)


def answers_of(*findings: Finding, looked: Sequence[Looked] = (), sheet: Sheet = STRAINER) -> Answers:
    return Answers(findings, tuple(looked), sheet.groups, sheet.policies)


def found(question: str, stakes: int, label: str, at: str, **more: Any) -> Finding:
    claim = int(label.removeprefix("claim ").rstrip("abc"))
    words = "" if label.startswith("claim") else at
    return Finding(
        question, stakes, claim, label, words, span(at), "shown", more.pop("quantifier", "some"), **more
    )


def with_witness(finding: Finding, reread: tuple[int, int] | None = None, **values: Value) -> Finding:
    """The finding with a checked thing, and one phrase re-read."""
    k = base_construction(STRAINER)
    if reread:
        k = k.with_reading(*reread)
        finding = replace(finding, rereads=(Reread(*reread),))
    witness = verify(STRAINER, {**ARTICLE, **values}, (Obligation(Truth(True), "met", k),))
    return replace(finding, thing=replace(finding.thing, witness=witness), construction=k)


def text_of(answers: Answers, everything: bool = False, sheet: Sheet = STRAINER, width: int = 90) -> str:
    return render(build_report(sheet, answers, everything), "text", width)


def one_line(text: str) -> str:
    return " ".join(text.split())


def items_of(answers: Answers, everything: bool = False) -> tuple[Item, ...]:
    return build_report(STRAINER, answers, everything).items


def lost(label: str, at: str, case: str, reread: tuple[int, int] = OUT, **values: Value) -> Finding:
    finding = found("inside lost", 3, label, at, case=case, thing=Shown(reference=case), bearer="competitor")
    return with_witness(finding, reread, **values)


def many(count: int, stakes: int = 4) -> list[Finding]:
    return [found("adds nothing", stakes, "claim 2", "2. The", quantifier="every") for _ in range(count)]


def contested(label: str, at: str, step: tuple[int, int] = OUT) -> Finding:
    return found("contested", 5, label, at, about=OneReading(step, "narrower"), bearer="competitor")


def stretch(group: int) -> FreeParameter:
    """A share, presumed 0 and without upper end, that the first reading of a group leaves open."""
    return FreeParameter("e", "e", group, 0, Bound(Fraction(0), True), None, Fraction(0), PLAIN, True)
