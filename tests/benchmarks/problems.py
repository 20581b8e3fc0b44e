"""Sheets that grow: many phrases of three readings each, with cases that lie at their ends."""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.formula import (
    All,
    Any,
    Compare,
    Const,
    Divide,
    Formula,
    Includes,
    IsWhole,
    Measured,
    Multiply,
    Not,
    Read,
    Rounded,
)
from scopecheck.core.model import Case, Sheet
from scopecheck.foundations.record import replace
from tests import build

ENDS = ("ends in", "ends out?", "met by what rounds to it?")
MARK = "abcdefghijklmnopqrstuvwxyz"


def labels(claim: int) -> list[str]:
    """1a, 1b, ... 1z, 1aa, 1ab, ..."""
    return [f"{claim}{first}{second}" for first in ("", *MARK) for second in MARK]


def phrase(index: int, name: str, low: int, high: int) -> Read:
    """`between low and high` in three readings."""
    ends = (build.written(str(low), "mm"), build.written(str(high), "mm"))
    rounded = Rounded(Measured(name), Fraction(1, 1000), "away")
    rounds = All((Compare(">=", rounded, ends[0]), Compare("<=", rounded, ends[1])))
    low_text, high_text = str(low), str(high)
    return Read(
        index,
        (
            build.within(name, low_text, high_text, "mm"),
            build.within(name, low_text, high_text, "mm", ends="()"),
            rounds,
        ),
    )


def of_phrases(count: int, claims: int = 2) -> Sheet:
    """A sheet of so many phrases over as many lengths, spread over a chain of claims, with eight cases."""
    names = [f"q{i}" for i in range(count)]
    declared = [build.number(name, "mm", "0") for name in names]
    declared_set = build.set_of("metal", "copper", "zinc", only=True)
    groups = [build.group(i, *ENDS, wording=f"between {i}") for i in range(count)]
    formulas: list[Formula] = [phrase(i, name, 2 + i % 5, 10 + i % 7) for i, name in enumerate(names)]
    share = -(-count // claims)
    made = []
    for number in range(1, claims + 1):
        part = formulas[(number - 1) * share : number * share]
        limitations = [
            build.limitation(label, formula) for label, formula in zip(labels(number), part, strict=False)
        ]
        if number == claims:
            limitations.append(build.limitation(f"{number}zz", Not(Includes("metal", "zinc"))))
        made.append(build.claim(number, *limitations, parents=(number - 1,) if number > 1 else ()))
    return build.sheet([*declared, declared_set], made, groups, _cases(names))


def with_dependent(sheet: Sheet) -> Sheet:
    """A claim more, which says two of the phrases again with other numbers: they are read alike."""
    number = len(sheet.claims) + 1
    again = (phrase(0, "q0", 3, 9), phrase(1, "q1", 3, 30))
    limitations = [build.limitation(label, f) for label, f in zip(labels(number), again, strict=False)]
    return replace(sheet, claims=(*sheet.claims, build.claim(number, *limitations, parents=(number - 1,))))


def _cases(names: list[str]) -> list[Case]:
    def at(values: dict[str, Fraction], kept: int | None = None) -> All:
        chosen = names[:kept]
        middle = {name: Fraction(8) for name in chosen} | values
        copper = All((Includes("metal", "copper"), Not(Includes("metal", "zinc"))))
        return All((*(_equals(name, value) for name, value in middle.items()), copper))

    def near(name: str, low: str, high: str) -> All:
        return build.within(name, low, high, "mm")

    first, last = names[0], names[-1]
    return [
        build.case("sample", "inside", at({})),
        build.case("at an end", "inside", at({first: Fraction(2)})),
        build.case("open sample", "inside", at({}, kept=len(names) // 2)),
        build.case("beyond", "outside", at({first: Fraction(1)})),
        build.case("just beyond", "outside", at({first: Fraction(17, 10)})),
        build.case("a range beyond", "outside", near(last, "9", "30")),
        build.case("a range at an end", "outside", near(first, "0", "1.8")),
        build.case("paper", "document", at({last: Fraction(9)})),
    ]


def _equals(name: str, millimetres: Fraction) -> Compare:
    return Compare("=", Measured(name), Const(millimetres / 1000))


def realistic() -> Sheet:
    """Six claims, twenty limitations, ten phrases (four shared), eight cases; ratios, counts and sets."""
    names = [f"q{i}" for i in range(8)]
    declared = [build.number(name, "mm", "0") for name in names]
    holes, metal = build.count("holes"), build.set_of("metal", "copper", "zinc", only=True)
    groups = [build.group(i, *ENDS, wording=f"between {i}") for i in range(8)]
    groups += [build.group(8, "without remainder", "can be divided?"), build.group(9, "any", "each?")]
    divisible = Read(
        8,
        (
            IsWhole(Multiply(Measured("holes"), Const(Fraction(1, 6)))),
            Compare(">", Measured("holes"), Const(Fraction(0))),
        ),
    )
    both = (Includes("metal", "copper"), Includes("metal", "zinc"))
    metals = Read(9, (Any(both), All(both)))
    formulas: list[Formula] = [phrase(i, name, 2 + i % 3, 10 + i % 4) for i, name in enumerate(names)]
    formulas += [divisible, metals]
    formulas += [phrase(i, names[(i + 3) % 8], 1, 15) for i in range(4)]
    formulas += [build.compare(name, ">", "1", "mm") for name in names[:4]]
    formulas += [Compare("<", Divide(Measured("q0"), Measured("q1")), Const(Fraction(9)))]
    formulas += [build.compare("holes", "<=", "120")]
    made = []
    for number, (start, end) in enumerate(((0, 6), (6, 9), (9, 12), (12, 15), (15, 18), (18, 20)), 1):
        part = zip(labels(number), formulas[start:end], strict=False)
        limitations = [build.limitation(label, formula) for label, formula in part]
        parents = () if number == 1 else (max(1, number - 2),)
        made.append(build.claim(number, *limitations, parents=parents))
    return build.sheet([*declared, holes, metal], made, groups, _cases(names))
