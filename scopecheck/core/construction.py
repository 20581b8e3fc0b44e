"""Constructions: one reading for every group and a value for every free parameter.

`base_construction` is the presumed one. The rank of a construction (weakest standing, number of re-read
groups, readings in sheet order, parameter deviations) is a total order: everything reported is least in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from operator import attrgetter
from typing import Any as Whatever
from typing import TypeAlias

from scopecheck.core.formula import (
    Add,
    All,
    Any,
    Branch,
    Chosen,
    Compare,
    Const,
    CountOf,
    Divide,
    ExactlyOne,
    Formula,
    Greatest,
    Implies,
    Includes,
    IsWhole,
    Least,
    Magnitude,
    Measured,
    Multiply,
    Negate,
    Not,
    Parameter,
    Ranked,
    Read,
    ReadTerm,
    Remainder,
    Rounded,
    Term,
    Truth,
    conjuncts,
)
from scopecheck.core.model import STANDINGS, Group, Sheet
from scopecheck.foundations.record import record


@record
class Construction:
    """`readings[g]` is the index of the reading taken by group g; `parameters` is in sheet order."""

    readings: tuple[int, ...]
    parameters: tuple[tuple[str, Fraction], ...] = ()

    def parameter(self, key: str) -> Fraction:
        return next(value for name, value in self.parameters if name == key)

    def with_reading(self, group: int, reading: int) -> Construction:
        readings = (*self.readings[:group], reading, *self.readings[group + 1 :])
        return Construction(readings, self.parameters)


def base_construction(sheet: Sheet) -> Construction:
    """Each group by its first reading of best standing, each parameter as presumed."""
    return Construction(
        tuple(group.base for group in sheet.groups),
        tuple((parameter.key, parameter.presumed) for parameter in sheet.parameters),
    )


def preference(group: Group) -> tuple[int, ...]:
    """The group's readings as they are preferred within a standing: the base first, then as listed."""
    others = (index for index in range(len(group.readings)) if index != group.base)
    return (group.base, *others)


def departs(group: Group, reading: int) -> bool:
    """Is this reading a departure from the base? Between several presumed readings there is none."""
    if reading == group.base:
        return False
    return group.readings[reading].standing != "presumed"


def unknown_thresholds(sheet: Sheet, group: int) -> tuple[int, ...]:
    """The admissible readings of a word of degree: met from, or up to, a threshold that nothing states."""
    admitted = admissible_readings(sheet.groups[group])
    unknown = (p.reading for p in sheet.parameters if p.unknown and p.group == group)
    return tuple(reading for reading in unknown if reading in admitted)


def admissible_readings(group: Group, strained: bool = False) -> tuple[int, ...]:
    """The readings that take part: all but the strained ones, or all when strained ones are asked for.

    A group with strained readings only keeps them: it has to be read somehow.
    """
    kept = tuple(i for i, r in enumerate(group.readings) if strained or r.standing != "strained")
    return kept or tuple(range(len(group.readings)))


def options_by_group(*formulas: Formula) -> dict[int, list[tuple[Node, ...]]]:
    """For each group the meanings of its readings, once for each place where the formulas have it."""
    found: dict[int, list[tuple[Node, ...]]] = {}
    for node in (n for f in formulas for n in nodes(f) if isinstance(n, Read | ReadTerm)):
        found.setdefault(node.group, []).append(node.options)
    return found


def own_meanings(places: Sequence[tuple[Node, ...]], readings: Iterable[int]) -> tuple[int, ...]:
    """Of the readings those that are not, at each of these places of their group, the same as one before."""
    found: dict[tuple[int, ...], int] = {}
    for r in readings:
        found.setdefault(tuple(id(options[r]) for options in places) or (r,), r)
    return tuple(found.values())


def reread_groups(sheet: Sheet, k: Construction, groups: Iterable[int]) -> tuple[int, ...]:
    """Those of `groups` whose reading, or a parameter of the reading taken, departs from the base."""
    values = dict(k.parameters)
    moved = {
        p.group for p in sheet.parameters if values[p.key] != p.presumed and k.readings[p.group] == p.reading
    }
    return tuple(g for g in groups if g in moved or departs(sheet.groups[g], k.readings[g]))


def weakest_standing(sheet: Sheet, k: Construction, groups: Iterable[int]) -> int:
    """Index in STANDINGS of the weakest standing that the construction leans on (0 if no group)."""
    return max((STANDINGS.index(sheet.groups[g].readings[k.readings[g]].standing) for g in groups), default=0)


Node: TypeAlias = Term | Formula


_INNER: Mapping[type, Callable[[Whatever], tuple[Node, ...]]] = {
    **dict.fromkeys((Const, Measured, Parameter, CountOf, Truth, Chosen, Includes), lambda _: ()),
    **dict.fromkeys((Add, Least, Greatest, All, Any, ExactlyOne), attrgetter("items")),
    **dict.fromkeys((Negate, Magnitude, Rounded, Remainder, IsWhole, Not), lambda node: (node.item,)),
    **dict.fromkeys((Multiply, Divide, Implies, Compare), attrgetter("left", "right")),
    Branch: attrgetter("condition", "then", "otherwise"),
    Ranked: lambda node: (*node.items, *node.there),
    **dict.fromkeys((Read, ReadTerm), attrgetter("options")),
}
"""How to get the direct parts of every kind of term and formula: formulas are walked through all the time."""


def children(node: Node) -> tuple[Node, ...]:
    """The direct parts of a term or formula, in order."""
    return _INNER[node.__class__](node)


def conjuncts_at(formula: Formula, k: Construction) -> Iterator[Formula]:
    """What all must hold for the formula to hold as read: of each group on the way the reading taken."""
    for item in conjuncts(formula):
        if isinstance(item, Read):
            yield from conjuncts_at(item.options[k.readings[item.group]], k)
        else:
            yield item


def nodes(node: Node) -> Iterator[Node]:
    """The node and everything below it, outermost first."""
    stack = [node]
    while stack:
        top = stack.pop()
        yield top
        stack += _INNER[top.__class__](top)[::-1]


def groups_in(*formulas: Node) -> tuple[int, ...]:
    """The groups that occur, ascending."""
    return tuple(sorted({n.group for f in formulas for n in nodes(f) if isinstance(n, Read | ReadTerm)}))


def names_in(*formulas: Node) -> frozenset[str]:
    """The declared names that occur under some reading."""
    return frozenset(
        n.name for f in formulas for n in nodes(f) if isinstance(n, Measured | CountOf | Chosen | Includes)
    )


def parameters_in(*formulas: Node) -> frozenset[str]:
    """The keys of the free parameters that occur under some reading."""
    return frozenset(n.key for f in formulas for n in nodes(f) if isinstance(n, Parameter))
