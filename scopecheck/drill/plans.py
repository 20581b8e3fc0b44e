"""Which exercises there are: every kind and level is a numbered pool, and a position tells the exercise.

Exercises of one plan differ in numbers and nouns only. Positions go through the whole pool before any plan
comes again, and neighbours are unlike. What can be asked of a form was found out beforehand, in every trade
(`drill_targets.json`), and is found out again of each exercise before it is set.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from functools import cache
from itertools import accumulate, product
from math import gcd, isqrt
from typing import Any

from scopecheck.drill.compose import room
from scopecheck.drill.exercise import Aim, Kind
from scopecheck.drill.trades import Form, forms
from scopecheck.foundations.data_files import data_file
from scopecheck.foundations.record import record

Others = tuple[int, ...]


@record
class Plan:
    """The forms of claim 1 and of claim 2, if there is one, what is tied, and what it is about."""

    claims: tuple[tuple[int, ...], ...]
    tied: bool
    aim: Aim
    level: int

    @property
    def shape(self) -> tuple[str, ...]:
        """What stays the same where only numbers and nouns differ."""
        a = self.aim
        words = ["; ".join(forms()[n].words for n in claim) for claim in self.claims]
        about = (a.kind, a.label, a.reading, a.other, str(a.upward), *a.labels, *a.wanted)
        return ("tied" if self.tied else "apart", *words, *about)


@record
class Target:
    """One thing to be asked of the first limitation's form."""

    form: int
    aim: Aim


@record
class Cell:
    """The pool of one kind and level: targets, and for each what can stand beside it."""

    kind: Kind
    level: int
    targets: tuple[Target, ...]
    ends: tuple[int, ...]

    @property
    def size(self) -> int:
        return self.ends[-1] if self.ends else 0

    def at(self, position: int) -> Plan:
        """The plan at a position; positions beyond the size begin anew."""
        index = (position + 1) * _stride(self.size) % self.size
        block = bisect_right(self.ends, index)
        target = self.targets[block]
        start = self.ends[block - 1] if block else 0
        others = beside(forms()[target.form].of, target.form, self.level)[index - start]
        tied = self.level == 3 and forms()[target.form].of == "amount"
        return Plan(((target.form, *others),), tied, target.aim, self.level)


@cache
def _stride(size: int) -> int:
    """A step near the golden section of the size that meets every place before it repeats one."""
    step = max(1, (isqrt(5 * size * size) - size) // 2)
    while gcd(step, size) != 1:
        step += 1
    return step


@cache
def beside(of: str, form: int, level: int) -> tuple[Others, ...]:
    """What may stand beside a form of one sort: nothing, one form, or two, of which one shares its amount."""
    first = forms()[form]
    if level == 1:
        return ((),)
    if level == 2:
        return tuple((f.number,) for f in forms() if f.number != form and room((first, f), False))
    pairs = [f for f in forms() if f.of in ("pair", "beside")]
    amounts = [f for f in forms() if f.of == "amount"]
    single = [f for f in forms() if f.of in ("count", "set")]
    match of:
        case "amount":
            found: Iterator[tuple[Form, Form]] = product(pairs, single)
        case "count" | "set":
            found = product(amounts, pairs)
        case _:
            found = product(amounts, single)
    tied = of == "amount"
    return tuple((f.number, g.number) for f, g in found if room((first, f, g), tied))


@cache
def cell(kind: Kind, level: int) -> Cell:
    """The pool of a kind and level."""
    targets = tuple(_targets(kind, level))
    sizes = [len(beside(forms()[t.form].of, t.form, level)) for t in targets]
    return Cell(kind, level, targets, tuple(accumulate(sizes)))


@cache
def _known() -> dict[str, Any]:
    found: dict[str, Any] = data_file("drill_targets.json")
    return found


def _targets(kind: Kind, level: int) -> Iterator[Target]:
    """Readings that are only arguable are asked for from the second level on, forms of two amounts too."""
    for form in forms():
        known = _known().get(form.words + " | " + form.of, {})
        if level == 1 and form.of in ("pair", "beside"):
            continue
        for data in known.get(kind, ()):
            if level > 1 or data.get("standing", 0) == 0:
                yield Target(form.number, _aim(kind, data))


def _aim(kind: Kind, data: dict[str, Any]) -> Aim:
    return Aim(kind, 1, "1a", data.get("reading", ""), data.get("other", ""), upward=data.get("upward", True))
