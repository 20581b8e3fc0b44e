"""The slow way to every answer: walk all things and all constructions of a small sheet, by `evaluate` alone.

Nothing here knows the solver or the symbolic meaning. Vocabularies must be finite: whole numbers between
bounds, numbers held to a grid by `grids`, choices and sets.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from itertools import pairwise, product
from math import floor

from scopecheck.answers.findings import Status
from scopecheck.core.construction import (
    Construction,
    admissible_readings,
    base_construction,
    groups_in,
    nodes,
    parameters_in,
    preference,
    reread_groups,
    weakest_standing,
)
from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl
from scopecheck.core.formula import All, Any, Article, Compare, Formula, Value
from scopecheck.core.model import Claim, Limitation, Sheet
from scopecheck.core.reference import Reference
from scopecheck.solving.evaluate import evaluate, evaluate_term


def rank(sheet: Sheet, k: Construction, groups: tuple[int, ...]) -> tuple[object, ...]:
    """The total order on constructions, for comparison only; least is best."""
    values = dict(k.parameters)
    return (
        weakest_standing(sheet, k, groups),
        len(reread_groups(sheet, k, groups)),
        tuple(preference(sheet.groups[g]).index(k.readings[g]) for g in groups),
        tuple(abs(values[p.key] - p.presumed) for p in sheet.parameters if p.group in groups),
    )


@dataclass
class Walk:
    """All things and all constructions of a sheet; `grids` has the step of each number that is not whole."""

    sheet: Sheet
    strained: bool = False
    grids: Mapping[str, Fraction] = field(default_factory=dict)
    stretches: Mapping[str, Sequence[Fraction]] = field(default_factory=dict)
    _truths: dict[object, tuple[Formula, list[bool | None]]] = field(default_factory=dict)

    @cached_property
    def articles(self) -> list[Article]:
        names = [d.name for d in self.sheet.declarations]
        everything = product(*(self.values(d) for d in self.sheet.declarations))
        nowhere = Construction(tuple(0 for _ in self.sheet.groups))
        found = (dict(zip(names, values, strict=True)) for values in everything)
        return [a for a in found if all(evaluate(g.formula, a, nowhere) is True for g in self.sheet.givens)]

    def values(self, d: Declaration) -> list[Value]:
        match d:
            case NumberDecl(lower=lower, upper=upper):
                assert lower is not None
                assert upper is not None
                step = Fraction(1) if d.whole else self.grids[d.name]
                first, last = lower.value / step, upper.value / step
                found = [step * i for i in range(floor(first), floor(last) + 1)]
                found = [v for v in found if v > lower.value or (lower.closed and v == lower.value)]
                return [v for v in found if v < upper.value or (upper.closed and v == upper.value)]
            case ChoiceDecl(members=members):
                return list(members)
            case SetDecl(members=members):
                chosen = product((False, True), repeat=len(members))
                return [frozenset(m for m, has in zip(members, x, strict=True) if has) for x in chosen]

    @cached_property
    def base(self) -> Construction:
        return base_construction(self.sheet)

    def constructions(self, groups: Sequence[int]) -> list[Construction]:
        """Every admissible way to read these groups, the others as in the base, in the order of rank."""
        readings = [
            admissible_readings(g, self.strained) if g.index in groups else (g.base,)
            for g in self.sheet.groups
        ]
        found = []
        for taken in product(*readings):
            values = [
                self.stretches[p.key] if p.group in groups and taken[p.group] == p.reading else (p.presumed,)
                for p in self.sheet.parameters
            ]
            keys = [p.key for p in self.sheet.parameters]
            found += [Construction(taken, tuple(zip(keys, v, strict=True))) for v in product(*values)]
        return sorted(found, key=lambda k: rank(self.sheet, k, tuple(groups)))  # type: ignore[arg-type, return-value]

    # ---- answers

    def truths(self, formula: Formula, k: Construction) -> tuple[bool | None, ...]:
        """What the formula is for each article, in order."""
        groups = groups_in(formula)
        keys = parameters_in(formula)
        used = tuple(k.readings[g] for g in groups), tuple(item for item in k.parameters if item[0] in keys)
        cached = self._truths.setdefault((id(formula), used), (formula, []))[1]
        if not cached:
            cached.extend(evaluate(formula, article, k) for article in self.articles)
        return tuple(cached)

    def met(self, formula: Formula, k: Construction) -> tuple[bool, ...]:
        """Whether each article meets the formula, in order."""
        return tuple(value is True for value in self.truths(formula, k))

    def some(self, k: Construction, *met: Formula, without: Formula | None = None) -> bool:
        """Does some article meet all of the formulas, and not the last one, under k?"""
        columns = [self.met(f, k) for f in met]
        if without is not None:
            columns.append(tuple(not value for value in self.met(without, k)))
        return any(map(all, zip(*columns, strict=True)))

    def status(self, region: Formula, scope: Formula, k: Construction) -> Status:
        if not self.some(k, region, scope):
            return "none"
        return "some" if self.some(k, region, without=scope) else "every"

    def best(self, groups: Sequence[int], accepts: Callable[[Construction], bool]) -> Construction | None:
        """The construction of least rank that is accepted."""
        return next((k for k in self.constructions(groups) if accepts(k)), None)


def critical_stretches(
    sheet: Sheet, articles: Sequence[Article], formulas: Sequence[Formula]
) -> dict[str, list[Fraction]]:
    """Values of each parameter that represent all: roots of comparisons, a value in each gap, the ends.

    Comparisons must be linear in the one parameter they speak of.
    """
    found = {}
    for p in sheet.parameters:
        roots = {p.presumed, p.lower.value} | ({p.upper.value} if p.upper else set())
        for formula in formulas:
            for node in nodes(formula):
                if isinstance(node, Compare) and p.key in parameters_in(node):
                    roots |= set(_roots(node, p.key, articles, len(sheet.groups)))
        ordered = sorted(roots)
        gaps = [(a + b) / 2 for a, b in pairwise(ordered)]
        values = sorted({*ordered, *gaps, ordered[-1] + 1})
        high = p.upper
        values = [v for v in values if v > p.lower.value or (p.lower.closed and v == p.lower.value)]
        found[p.key] = [
            v for v in values if high is None or v < high.value or (high.closed and v == high.value)
        ]
    return found


def _roots(atom: Compare, key: str, articles: Sequence[Article], groups: int) -> Iterator[Fraction]:
    for article in articles:
        at = []
        for value in (Fraction(0), Fraction(1)):
            k = Construction(tuple(0 for _ in range(groups)), ((key, value),))
            left, right = (evaluate_term(side, article, k) for side in (atom.left, atom.right))
            if left is None or right is None:
                break
            at.append(left - right)
        if len(at) == 2 and at[0] != at[1]:
            yield at[0] / (at[0] - at[1])


# ---- the order of things


def simplest(
    walk: Walk, candidates: Sequence[Article], names: Sequence[str], known: Sequence[Reference]
) -> tuple[Article, str]:
    """The least of the candidates, and the reference it is told by, in the documented order.

    Fewest departures from the best reference, departures late; then of several numbers that depart the
    longest as short as can be; then name by name: fewest decimals in the sheet's unit, nearest to the
    reference, lower. Names that do not matter come last.
    """
    ordered = [d for d in walk.sheet.declarations if d.name in names]
    rest = [d for d in walk.sheet.declarations if d.name not in names]

    def departures(article: Article, reference: Reference, part: list[Declaration]) -> tuple[bool, ...]:
        return tuple(article[d.name] != reference.article[d.name] for d in part)

    fewest = [min(sum(departures(a, r, ordered)) for a in candidates) for r in known]
    reference = known[fewest.index(min(fewest))]

    def key(article: Article) -> tuple[object, ...]:
        apart = departures(article, reference, ordered)
        values = [_plainness(d, article[d.name], reference.article[d.name]) for d in ordered]
        others = [_plainness(d, article[d.name], reference.article[d.name]) for d in rest]
        late = departures(article, reference, rest)
        return (sum(apart), apart, _longest(ordered, values), *values, late, _longest(rest, others), *others)

    return min(candidates, key=key), reference.name  # type: ignore[arg-type]


def _longest(part: Sequence[Declaration], values: Sequence[tuple[object, ...]]) -> object:
    """The decimals of the longest of the numbers that depart."""
    numbers = [v[0] for d, v in zip(part, values, strict=True) if isinstance(d, NumberDecl)]
    return max(numbers, default=-1)  # type: ignore[type-var]


def _plainness(d: Declaration, value: Value, reference: Value) -> tuple[object, ...]:
    match d:
        case NumberDecl():
            assert isinstance(value, Fraction)
            assert isinstance(reference, Fraction)
            if value == reference:
                return (-1, 0, 0)
            shown = d.unit.from_base(value)
            places = next(n for n in range(13) if (shown * 10**n).denominator == 1)
            return (places, abs(value - reference), value)
        case ChoiceDecl(members=members):
            return (-1,) if value == reference else (members.index(str(value)),)
        case SetDecl(members=members):
            assert isinstance(value, frozenset)
            assert isinstance(reference, frozenset)
            changed = tuple((m in value) != (m in reference) for m in members)
            return (sum(changed), *changed)


# ---- scopes


def chains(sheet: Sheet, claim: Claim) -> list[tuple[Limitation, ...]]:
    """The limitations of each chain of ancestors and the claim itself, ancestors first."""
    if not claim.parents:
        return [claim.limitations]
    return [(*chain, *claim.limitations) for p in claim.parents for chain in chains(sheet, sheet.claim(p))]


def scope(sheet: Sheet, place: str | int) -> Formula:
    """What a claim (by number) or a limitation (by label) takes in."""
    if isinstance(place, str):
        return next(x.formula for c in sheet.claims for x in c.limitations if x.label == place)
    return Any(tuple(All(tuple(x.formula for x in chain)) for chain in chains(sheet, sheet.claim(place))))
