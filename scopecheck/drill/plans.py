"""Which exercises there are: every kind and level is a numbered pool, and a position tells the exercise.

Exercises of one plan differ in numbers and nouns only. Positions go through the whole pool before any plan
comes again, and neighbours are unlike. What can be asked of a form was found out beforehand, in every trade
(`drill_targets.json`), and is found out again of each exercise before it is set.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator
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
        words = ["; ".join(forms()[n].said for n in claim) for claim in self.claims]
        about = (a.kind, a.label, a.reading, a.other, str(a.upward), *a.labels, *a.wanted)
        return ("tied" if self.tied else "apart", *words, *about)


@record
class Block:
    """Plans that have their first form, their second claim and their aim in common."""

    form: int
    aim: Aim
    others: tuple[Others, ...]
    tail: Others = ()
    tied: bool = False


@record
class Cell:
    """The pool of one kind and level; `ends` says after how many plans each block ends."""

    kind: Kind
    level: int
    blocks: tuple[Block, ...]
    ends: tuple[int, ...]

    @property
    def size(self) -> int:
        return self.ends[-1] if self.ends else 0

    def at(self, position: int) -> Plan:
        """The plan at a position; positions beyond the size begin anew."""
        index = (position + 1) * _stride(self.size) % self.size
        number = bisect_right(self.ends, index)
        block = self.blocks[number]
        others = block.others[index - (self.ends[number - 1] if number else 0)]
        claims = ((block.form, *others), block.tail) if block.tail else ((block.form, *others),)
        return Plan(claims, block.tied, block.aim, self.level)


@cache
def _stride(size: int) -> int:
    """A step near the golden section of the size that meets every place before it repeats one."""
    step = max(1, (isqrt(5 * size * size) - size) // 2)
    while gcd(step, size) != 1:
        step += 1
    return step


@cache
def cell(kind: Kind, level: int) -> Cell:
    """The pool of a kind and level."""
    makers: dict[Kind, Callable[[int], Iterator[Block]]] = {
        "narrows": _narrowing,
        "keeps out": _keeping_out,
        "two phrases": _two_phrases,
    }
    maker = makers.get(kind)
    blocks = tuple(b for b in (maker(level) if maker else _targets(kind, level)) if b.others)
    return Cell(kind, level, blocks, tuple(accumulate(len(b.others) for b in blocks)))


# ---- what was found out of each form


@cache
def _known() -> dict[str, Any]:
    found: dict[str, Any] = data_file("drill_targets.json")
    return found


def known(form: Form) -> dict[str, Any]:
    """What was found out of a form; empty where nothing can be asked of it."""
    found: dict[str, Any] = _known().get(form.key, {})
    return found


@cache
def _lying(how: str) -> tuple[Form, ...]:
    """The forms of which something lies so: "out" on every reading, "in" on every one, or "open"."""
    return tuple(f for f in forms() if how in known(f).get("lies", ()))


@cache
def _widened() -> tuple[Form, ...]:
    """The forms that on another reading than the usual one let in something more."""
    return tuple(
        f for f in forms() if any(t["reading"] == known(f)["base"] for t in known(f).get("falls out", ()))
    )


def _of(sorts: str) -> tuple[Form, ...]:
    return tuple(f for f in forms() if f.of in sorts.split())


# ---- what stands beside a form


@cache
def beside(of: str, form: int, level: int) -> tuple[Others, ...]:
    """What may stand beside a form: nothing, one form, or two, of which one shares its amount, if any."""
    first = forms()[form]
    if level == 1:
        return ((),)
    if level == 2:
        return tuple((f.number,) for f in forms() if f.number != form and room((first, f), False))
    match of:
        case "amount":
            found = product(_of("pair beside"), _of("count set"))
        case "count" | "set":
            found = product(_of("amount"), _of("pair beside"))
        case _:
            found = product(_of("amount"), _of("count set"))
    return tuple((f.number, g.number) for f, g in found if room((first, f, g), of == "amount"))


# ---- the kinds


def _targets(kind: Kind, level: int) -> Iterator[Block]:
    """One block for each thing that can be asked of a form.

    Readings that are only arguable are asked for from the second level on, forms of two amounts too.
    """
    for form in forms():
        if level == 1 and form.of in ("pair", "beside"):
            continue
        for data in known(form).get(kind, ()):
            if level > 1 or data["standing"] == 0:
                tied = level == 3 and form.of == "amount"
                others = beside(form.of, form.number, level)
                yield Block(form.number, aim_of(kind, data), others, tied=tied)


def aim_of(kind: Kind, data: dict[str, Any]) -> Aim:
    """What is asked of the first limitation."""
    named = data.get("reading", ""), data.get("other", "")
    return Aim(kind, 1, "1a", *named, upward=data.get("upward", True))


def _narrowing(level: int) -> Iterator[Block]:
    """Two forms said of the same thing, the second by the dependent claim, with like or other numbers."""
    for first in _of("amount count" if level == 1 else "amount count set"):
        for second in forms():
            if second.of == first.of and second.number != first.number:
                for numbers in ("like numbers", "other numbers"):
                    aim = Aim("narrows", 2, other=numbers)
                    tied = level == 3 and first.of == "amount"
                    others = beside(first.of, first.number, level)
                    yield Block(first.number, aim, others, (second.number,), tied)


LIES: dict[int, tuple[tuple[str, ...], ...]] = {
    1: (("out", "open"), ("out", "in"), ("open", "in"), ("open", "open")),
    2: (("out", "open", "in"), ("out", "open", "open"), ("open", "open", "in"), ("out", "out", "open")),
    3: (("out", "open", "open"), ("open", "out", "in"), ("open", "open", "out"), ("open", "open", "open")),
}
"""How a thing lies to each line, by level; at the third two lines share an amount."""


def _keeping_out(level: int) -> Iterator[Block]:
    for wanted in LIES[level]:
        for first in _lying(wanted[0]):
            if level == 3 and first.of != "amount":
                continue
            others = _lying_beside(first.of, wanted, level)
            yield Block(first.number, Aim("keeps out", 1, wanted=wanted), others, tied=level == 3)


@cache
def _lying_beside(of: str, wanted: tuple[str, ...], level: int) -> tuple[Others, ...]:
    first = _of(of)[0]
    if level == 1:
        return tuple((f.number,) for f in _lying(wanted[1]) if f.of not in ("pair", "beside", of))
    second = "pair beside" if level == 3 else "amount count set"
    found = product(_lying(wanted[1]), _lying(wanted[2]))
    return tuple(
        (f.number, g.number)
        for f, g in found
        if f.of in second.split() and g.of in ("count", "set") and room((first, f, g), level == 3)
    )


def _two_phrases(level: int) -> Iterator[Block]:
    """The first two lines must both be read otherwise; the others could be lost."""
    for first in _widened():
        if first.of == "amount" or (level == 1 and first.of == "count"):
            aim = Aim("two phrases", 1, labels=("1a", "1b"))
            yield Block(first.number, aim, _to_choose_from(first.of, level), tied=level == 3)


@cache
def _to_choose_from(of: str, level: int) -> tuple[Others, ...]:
    first = _of(of)[0]
    if level == 2:
        amounts = [f for f in _widened() if f.of == "amount"]
        counts, sets = ([f for f in _lying("open") if f.of == sort] for sort in ("count", "set"))
        return tuple((f.number, g.number, h.number) for f, g, h in product(amounts, counts, sets))
    tied = level == 3
    second = [f for f in _widened() if (f.of in ("pair", "beside")) == tied and f.of != of]
    found = product(second, _lying("open"))
    return tuple(
        (f.number, g.number) for f, g in found if g.of in ("count", "set") and room((first, f, g), tied)
    )
