"""Long claim sets: families of dependent claims in chains and bushes over sixty phrases."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from scopecheck.answers.order import scope_map
from scopecheck.answers.questions import ask_prepared, prepare
from scopecheck.core.formula import All, Compare, Const, Formula, Measured
from scopecheck.core.model import Case, Claim, Group, Place, Sheet
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.report.page import build_report
from scopecheck.report.render import render
from scopecheck.report.scope_map import map_report
from scopecheck.resolve.sheet import read_sheet
from scopecheck.solving.constraints import Budget
from tests import build
from tests.benchmarks.figures import Figure
from tests.benchmarks.growth import seconds
from tests.benchmarks.problems import ENDS, labels, phrase
from tests.benchmarks.processes import megabytes, side_by_side

FEW, MANY = 50, 200
PRECEDING = 12
PHRASES = 60
QUANTITIES = 30
FAMILY = 25
"""Claims of one independent claim with its dependents."""
CHAIN, BUSH = 8, 17
"""Within a family: claims up to the first depend each on the one before, up to the second on the first."""


def family_parent(place: int) -> int | None:
    """The place within the family of the claim that this one depends on, both from 0."""
    if place == 0:
        return None
    if place < CHAIN:
        return place - 1
    if place < BUSH:
        return 0
    return place - (BUSH - CHAIN)


def claim_set(count: int) -> Sheet:
    """A sheet of so many claims; the vocabulary, the phrases and the cases do not depend on how many."""
    names = [f"q{i}" for i in range(QUANTITIES)]
    declared = [build.number(name, "mm", "0") for name in names]
    groups = [build.group(i, *ENDS, wording=f"between {i}") for i in range(PHRASES)]
    claims: list[Claim] = []
    for index in range(count):
        start, place = index - index % FAMILY, index % FAMILY
        parent = family_parent(place)
        parents = () if parent is None else (start + parent + 1,)
        formulas = _said(index, place)
        limitations = [
            build.limitation(label, f) for label, f in zip(labels(index + 1), formulas, strict=False)
        ]
        claims.append(build.claim(index + 1, *limitations, parents=parents))
    return build.sheet(declared, claims, _with_places(groups, claims), _cases(names))


def _with_places(groups: list[Group], claims: list[Claim]) -> list[Group]:
    """The groups with every place where their words stand, as the reader makes them."""
    lines = [x for c in claims for x in c.limitations]
    places: dict[int, list[Place]] = {g.index: [] for g in groups}
    for x in lines:
        for index in x.groups:
            places[index].append(Place(x.label, x.words, x.span))
    return [replace(g, places=tuple(places[g.index])) for g in groups]


def _said(index: int, place: int) -> list[Formula]:
    """Of an independent claim four wide phrases, of a dependent one or two that are the tighter the later."""
    family = index // FAMILY
    if place == 0:
        return [_one((family + 7 * i) % QUANTITIES, 0, 2, 40 + family) for i in range(4)]
    low, high = 3 + place % 4, 36 - place - family % 3
    found: list[Formula] = [_one((5 * family + place) % QUANTITIES, place % 2, low, high)]
    if place % 5 == 0:
        found.append(_one((5 * family + 2 * place + 1) % QUANTITIES, 1, 2, 30 - family))
    return found


def _one(quantity: int, again: int, low: int, high: int) -> Formula:
    return phrase(quantity + again * QUANTITIES, f"q{quantity}", low, high)


def _cases(names: list[str]) -> list[Case]:
    def at(value: int, **moved: int) -> All:
        values = dict.fromkeys(names, value) | moved
        return All(tuple(Compare("=", Measured(n), Const(Fraction(v, 1000))) for n, v in values.items()))

    return [
        build.case("sample", "inside", at(8)),
        build.case("large sample", "inside", at(12)),
        build.case("small one", "outside", at(1)),
        build.case("at an end", "outside", at(8, q0=2)),
        build.case("paper", "document", at(8, q7=50)),
    ]


WORDS = ("from {} to {} mm", "between {} and {} mm", "at least {} mm and at most {} mm")


def written(count: int) -> str:
    """A sheet's text of so many claims in the same families, which share three phrases."""
    names = [f"q{chr(97 + i % 26)}{i}" for i in range(QUANTITIES)]
    lines = ["title  Long set", *(f"{name}  length in mm" for name in names), ""]
    for index in range(count):
        family, place = divmod(index, FAMILY)
        parent = family_parent(place)
        words = WORDS[place % len(WORDS)].format(3 + place % 4, 60 - place - family % 3)
        name = names[(5 * family + place) % QUANTITIES]
        opening = "A frame" if parent is None else f"The frame of claim {index - place + parent + 1}"
        lines += [f"{index + 1}. {opening}, wherein {name} is {words}.", f"   | {name} : {words}", ""]
    sample = "   ".join("8 mm" for _ in names)
    lines += ["inside   " + "   ".join(names), f"  sample   {sample}"]
    return "\n".join(lines) + "\n"


def of_any_preceding(count: int) -> str:
    """A sheet's text of so many claims, each of all that stand before it and on a quantity of its own."""
    names = [f"q{chr(97 + i % 26)}{i}" for i in range(count)]
    lines = ["title  Any of them", "profile EPO", *(f"{name}  length in mm" for name in names), ""]
    for number, name in enumerate(names, start=1):
        above = "claim 1" if number == 2 else f"any one of claims 1 to {number - 1}"
        opening = "A frame" if number == 1 else f"The frame of {above}"
        words = WORDS[number % len(WORDS)].format(number, number + 9)
        lines += [f"{number}. {opening}, wherein {name} is {words}.", f"   | {name} : {words}", ""]
    sample = "   ".join(f"{number + 1} mm" for number in range(1, count + 1))
    return "\n".join([*lines, "inside   " + "   ".join(names), f"  sample   {sample}"]) + "\n"


def read_and_told(text: str) -> None:
    """The sheet read, checked and told."""
    sheet, wrong = read_sheet(Source("long.sheet", text))
    assert sheet is not None, wrong
    answers = ask_prepared(prepare(sheet, Budget(wall=3600)))
    render(build_report(sheet, answers, False), "text")


def examined(count: int) -> None:
    """The whole set checked and mapped, and both told."""
    sheet = claim_set(count)
    prepared = prepare(sheet, Budget(wall=3600))
    answers = ask_prepared(prepared)
    assert not any(f.outcome == "undecided" for f in answers.findings)
    render(build_report(sheet, answers, False), "text")
    found = scope_map(prepared)
    assert not found.doubts
    render(map_report(sheet, found), "text")


def measure_claim_sets() -> Iterator[Figure]:
    """A set of 200 claims against one of 50, the same phrases in both: the time, and the peak memory."""
    taken = [1000 * seconds(lambda n=count: examined(n), rounds=2) for count in (MANY, FEW)]
    yield Figure(f"{MANY} claims checked and mapped, against {FEW}: time", *taken, "ms", 12)
    texts = [written(count) for count in (MANY, FEW)]
    taken = [1000 * seconds(lambda t=text: read_and_told(t), rounds=2) for text in texts]
    yield Figure(f"{MANY} claims read from a text and checked, against {FEW}: time", *taken, "ms", 12)
    texts = [of_any_preceding(count) for count in (2 * PRECEDING, PRECEDING)]
    taken = [1000 * seconds(lambda t=text: read_and_told(t), rounds=2) for text in texts]
    yield Figure(f"{2 * PRECEDING} claims of any preceding one, against {PRECEDING}: time", *taken, "ms", 6)
    if Path("/proc/self/status").exists():
        codes = [f"from tests.benchmarks.claim_sets import examined; examined({n})" for n in (FEW, MANY)]
        few, many = side_by_side(megabytes, *codes, rounds=1)
        yield Figure(f"{MANY} claims checked and mapped, against {FEW}: peak memory", many, few, "MB", 4)
