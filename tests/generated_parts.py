"""Problems with like parts, made by a fixed draw, and what going through all lists of values says of them.

A problem is a few facts on up to five tiles, each with a size from 0 to 3 and a weight of 1 or 2. Each fact
is written once as a line of a sheet and once in plain Python over lists, so nothing of the program is shared.
"""

from __future__ import annotations

import operator
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product
from statistics import median

from scopecheck.core.formula import Article
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.solver import Session
from tests.sheets import sheet

COUNT = 500
SHARE = 0.02
"""Of so many problems at most this share may end undecided."""
MOST, SIZES, WEIGHTS = 5, range(4), (1, 2)
OPS: dict[str, Callable[[object, object], bool]] = {
    "<": operator.lt, "<=": operator.le, "=": operator.eq,
    "!=": operator.ne, ">=": operator.ge, ">": operator.gt,
}  # fmt: skip
Tiles = Sequence[tuple[int, int]]
"""The size and the weight of each tile that is there."""
Truth = bool | None


@dataclass(frozen=True)
class Fact:
    """One fact: as a line of a sheet, and of a list of tiles (None: it has no truth there)."""

    line: str
    of: Callable[[Tiles], Truth]
    weighed: bool = False


@dataclass(frozen=True)
class Problem:
    facts: tuple[Fact, ...]

    @property
    def text(self) -> str:
        lines = "".join(f"   | {fact.line}\n" for fact in self.facts)
        declared = f"tile  part, 0 to {MOST}\n  size  count, <= 3\n  heft  count, >= 1, <= 2\n"
        return f"{declared}\n1. A floor.\n{lines}"

    def expected(self) -> bool:
        """Is there a list of tiles of which every fact is true?"""
        weights = WEIGHTS if any(fact.weighed for fact in self.facts) else WEIGHTS[:1]
        tiles = list(product(SIZES, weights))
        every = (some for n in range(MOST + 1) for some in product(tiles, repeat=n))
        return any(self.holds(some) for some in every)

    def holds(self, tiles: Tiles) -> bool:
        return all(fact.of(tiles) is True for fact in self.facts)


def compared(op: str, value: Fraction | int | None, limit: Fraction | int) -> Truth:
    return None if value is None else OPS[op](value, limit)


def sizes(tiles: Tiles) -> list[int]:
    return [size for size, _ in tiles]


def _quantified(word: str, op: str, limit: int) -> Fact:
    def of(tiles: Tiles) -> Truth:
        true = sum(OPS[op](size, limit) for size in sizes(tiles))
        return {"EVERY": true == len(tiles), "SOME": true > 0, "NO": true == 0, "ONE": true == 1}[word]

    return Fact(f"{word} tile (size {op} {limit})", of)


def _together(word: str, op: str, limit: Fraction) -> Fact:
    values: dict[str, Callable[[list[int]], Fraction | int]] = {
        "SUM": sum, "LEAST": min, "GREATEST": max,
        "MEAN": lambda s: Fraction(sum(s), len(s)), "MEDIAN": lambda s: median(map(Fraction, s)),
    }  # fmt: skip

    def of(tiles: Tiles) -> Truth:
        has = bool(tiles) or word == "SUM"
        return compared(op, values[word](sizes(tiles)) if has else None, limit)

    return Fact(f"{word} tile (size) {op} {limit}", of)


def _mean_beside(op: str, word: str) -> Fact:
    def of(tiles: Tiles) -> Truth:
        if not tiles:
            return None
        s = sizes(tiles)
        other = {"MEDIAN": median(map(Fraction, s)), "LEAST": min(s), "GREATEST": max(s)}[word]
        return OPS[op](Fraction(sum(s), len(s)), other)

    return Fact(f"MEAN tile (size) {op} {word} tile (size)", of)


def _weighed(op: str, limit: Fraction) -> Fact:
    def of(tiles: Tiles) -> Truth:
        total = sum(heft for _, heft in tiles)
        return compared(op, Fraction(sum(s * h for s, h in tiles), total) if total else None, limit)

    return Fact(f"SUM tile (size * heft) / SUM tile (heft) {op} {limit}", of, weighed=True)


def _ordered(word: str) -> Fact:
    signs = {"RISING": operator.lt, "FALLING": operator.gt, "EQUAL": operator.eq}

    def of(tiles: Tiles) -> Truth:
        s = sizes(tiles)
        return (
            len(set(s)) == len(s) if word == "DIFFERENT" else all(signs[word](a, b) for a, b in pairwise(s))
        )

    return Fact(f"{word} tile (size)", of)


def _one_of(index: int, op: str, limit: int) -> Fact:
    line = f"size of tile {index} {op} {limit}"
    return Fact(line, lambda tiles: OPS[op](tiles[index - 1][0], limit) if len(tiles) >= index else None)


def _counted(op: str, limit: int, than: str, count: int) -> Fact:
    line = f"COUNT tile (size {op} {limit}) {than} {count}"
    return Fact(line, lambda tiles: OPS[than](sum(OPS[op](s, limit) for s in sizes(tiles)), count))


def _most(op: str, limit: int) -> Fact:
    line = f"2 * COUNT tile (size {op} {limit}) > tiles"
    return Fact(line, lambda tiles: 2 * sum(OPS[op](s, limit) for s in sizes(tiles)) > len(tiles))


def _denied(fact: Fact) -> Fact:
    def of(tiles: Tiles) -> Truth:
        truth = fact.of(tiles)
        return None if truth is None else not truth

    return Fact(f"NOT {fact.line}", of, fact.weighed)


def _fact(draw: random.Random) -> Fact:
    op, limit, count = draw.choice(list(OPS)), draw.randrange(5), draw.randrange(MOST + 1)
    part = Fraction(draw.randrange(13), draw.choice((1, 2, 3)))
    makers: list[Callable[[], Fact]] = [
        lambda: _quantified(draw.choice(("EVERY", "SOME", "NO", "ONE")), op, limit),
        lambda: _together(draw.choice(("MEAN", "MEDIAN")), op, min(part, Fraction(4))),
        lambda: _together(draw.choice(("MEAN", "MEDIAN", "SUM", "LEAST", "GREATEST")), op, part),
        lambda: _mean_beside(op, draw.choice(("MEDIAN", "LEAST", "GREATEST"))),
        lambda: _ordered(draw.choice(("RISING", "FALLING", "EQUAL", "DIFFERENT"))),
        lambda: _one_of(max(count, 1), op, limit),
        lambda: _counted(op, limit, draw.choice(list(OPS)), count),
        lambda: _most(op, limit),
        lambda: Fact(f"tiles {op} {count}", lambda tiles: OPS[op](len(tiles), count)),
    ]
    if draw.random() < 0.05:
        makers = [lambda: _weighed(op, min(part, Fraction(4)))]
    fact = draw.choice(makers)()
    return _denied(fact) if draw.random() < 0.2 else fact


def problems(count: int = COUNT) -> list[Problem]:
    """So many problems, the same each time: `random.Random` is fixed by its seed."""
    draw = random.Random(2311)
    return [Problem(tuple(_fact(draw) for _ in range(draw.choice((2, 3, 3, 4, 5))))) for _ in range(count)]


def solved(problem: Problem) -> tuple[bool, Article | None] | None:
    """Whether a thing meets the lines, and one that does; None where that is not decided."""
    made = sheet(problem.text)
    session = Session(made)
    search = session.search(())
    search.require(*(session.met(x.formula) for x in made.claims[0].limitations))
    try:
        found = search.find()
        return found, search.article() if found else None
    except Undecided:
        return None


def tiles_in(article: Article) -> Tiles:
    """The tiles of an article as a list."""

    def values() -> Iterator[tuple[int, int]]:
        count = article["tiles"]
        assert isinstance(count, Fraction)
        for i in range(1, int(count) + 1):
            size, heft = article[f"size of tile {i}"], article[f"heft of tile {i}"]
            assert isinstance(size, Fraction)
            assert isinstance(heft, Fraction)
            yield int(size), int(heft)

    return list(values())


def undecided_of(made: Sequence[Problem]) -> int:
    """How many of the problems end undecided."""
    return sum(solved(problem) is None for problem in made)
