"""What values measure, and what may be added, compared and multiplied; the data file is read here."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import NamedTuple

from scopecheck.foundations.data_files import data_file
from scopecheck.foundations.record import record

Dimension = tuple[tuple[str, int], ...]

LEVEL, GAUGE, ABSOLUTE = "level", "gauge", "absolute"
LENGTH: Dimension = (("length", 1),)
TEMPERATURE: Dimension = (("temperature", 1),)
TIME: Dimension = (("time", 1),)
_LENGTH3: Dimension = (("length", 3),)
WHOLE_OF: dict[str, Dimension] = {
    "by mass": (("mass", 1),),
    "by volume": _LENGTH3,
    "by mole": (("amount", 1),),
}

_ADDING_UP = frozenset(
    (
        *"area volume mass amount force energy power current charge data".split(),
        *("length^3 / time", "mass / time", "amount / time"),
    )
)
"""The dimensions, by name, whose values for several things side by side make one value: common practice."""


@record
class Kind:
    """What a value measures: sorted base dimensions, and a basis where one dimension has several kinds."""

    dimension: Dimension
    basis: str = ""

    @property
    def point(self) -> bool:
        """True for a point on a scale: differences are of another kind, products mean nothing."""
        return self.basis in (LEVEL, GAUGE) or self in ABOVE_A_REFERENCE

    @property
    def adds_up(self) -> bool:
        """True for what several things have in total: a force or a mass, not a length or an angle."""
        return not self.basis and dimension_name(self.dimension) in _ADDING_UP

    @property
    def split(self) -> tuple[str, str]:
        """The basis without its whole, and the whole ("" where none is named)."""
        if self.basis.startswith("of "):
            return "", self.basis[3:]
        basis, _, whole = self.basis.partition(" of ")
        return basis, whole

    @property
    def name(self) -> str:
        """The kind for people: `length`, `share by mass of wax`, `temperature level`, `length / time`."""
        basis, whole = self.split
        if not self.dimension:
            words = ("share", basis, f"of {whole}" if whole else "")
            return " ".join(w for w in words if w) if self.basis else "plain number"
        if self.dimension == TEMPERATURE:
            return f"temperature {basis or 'difference'}"
        return f"{basis} {dimension_name(self.dimension)}".strip()

    def of(self, whole: str) -> Kind:
        """The share of a named whole. KindError if this is no share."""
        if self.dimension:
            raise KindError(f"{self.name} cannot be a share of {whole}", self, self)
        basis, _ = self.split
        return Kind((), f"{basis} of {whole}".strip())


class KindError(Exception):
    """Two kinds that do not go together; the message names both."""

    def __init__(self, message: str, first: Kind, second: Kind) -> None:
        super().__init__(message)
        self.first = first
        self.second = second

    @property
    def sentence(self) -> str:
        """The message as a sentence, for the cause of an error."""
        told = str(self)
        return f"{told[0].upper()}{told[1:]}."


PLAIN_KIND = Kind(())


# ---- kinds in sums, differences, products


def _refuse(a: Kind, b: Kind, verb: str, why: str) -> KindError:
    return KindError(f"{a.name} and {b.name} cannot be {verb}: {why}", a, b)


def _merged(a: Kind, b: Kind, verb: str) -> Kind:
    """The common kind of two values; a share whose whole is not named goes with any whole."""
    if a == b:
        return a
    if a.dimension != b.dimension:
        raise _refuse(a, b, verb, "they are different kinds")
    (basis_a, whole_a), (basis_b, whole_b) = a.split, b.split
    if basis_a != basis_b:
        if not a.dimension:
            raise _refuse(a, b, verb, "the bases differ, and nothing here converts one into the other")
        if LEVEL in (basis_a, basis_b):
            raise _refuse(a, b, verb, "one is a point on the scale, the other a distance between two points")
        if basis_a and basis_b:
            raise _refuse(
                a, b, verb, "they count from different zeros, and nothing here converts one into the other"
            )
        raise _refuse(a, b, verb, "say (g) or (a) in both units")
    if whole_a and whole_b and whole_a != whole_b:
        raise _refuse(a, b, verb, "they are shares of different wholes")
    return a if whole_a else b


def comparable(a: Kind, b: Kind) -> None:
    """Nothing if values of the two kinds may be compared; KindError otherwise."""
    _merged(a, b, "compared")


DECIBELS = Kind((("dB", 1),))
ABOVE_A_REFERENCE = tuple(Kind(((name, 1),)) for name in ("dBm", "dBA", "dBi"))
"""Levels above a reference: two of them lie so many decibels apart."""


def counted_from(kind: Kind) -> bool:
    """Whether values count from a zero of their own, which a distance between two of them does not have."""
    return kind in ABOVE_A_REFERENCE or kind.basis in (LEVEL, GAUGE, ABSOLUTE)


def _shift(a: Kind, b: Kind) -> bool:
    """`b` is a plain distance on the scale on which `a` is a place."""
    if a in ABOVE_A_REFERENCE:
        return b == DECIBELS
    return a.dimension == b.dimension and a.basis in (LEVEL, GAUGE, ABSOLUTE) and not b.basis


def sum_kind(a: Kind, b: Kind) -> Kind:
    """The kind of a + b: a point plus a difference is a point; two points have no sum."""
    if _shift(a, b):
        return a
    if _shift(b, a):
        return b
    if a == b and a in ABOVE_A_REFERENCE:
        raise _refuse(a, b, "added", "levels above a reference do not add up by their numbers")
    kind = _merged(a, b, "added")
    if kind.point:
        raise _refuse(a, b, "added", "both are points on a scale, and their sum depends on where its zero is")
    return kind


def difference_kind(a: Kind, b: Kind) -> Kind:
    """The kind of a - b: point minus point is a difference, point minus difference a point."""
    if _shift(a, b):
        return a
    if a == b and a in ABOVE_A_REFERENCE:
        return DECIBELS
    kind = _merged(a, b, "subtracted")
    return Kind(kind.dimension) if kind.point or kind.basis == ABSOLUTE else kind


def combined(a: Kind, b: Kind, sign: int) -> Dimension:
    """The dimension of a * b**sign."""
    powers = dict(a.dimension)
    for name, power in b.dimension:
        powers[name] = powers.get(name, 0) + sign * power
    return tuple(sorted((n, p) for n, p in powers.items() if p))


def _no_points(a: Kind, b: Kind, verb: str) -> None:
    for kind in (a, b):
        if kind.point:
            raise _refuse(a, b, verb, f"{kind.name} is a point on a scale; take a difference first")


def _check_whole(share: Kind, whole: Kind, a: Kind, b: Kind, verb: str) -> None:
    """A share by mass goes with a mass, not with a volume or an amount; other kinds are averaged freely."""
    basis, _ = share.split
    if basis == "by mass per volume":
        raise _refuse(a, b, verb, "restate the share as mass / volume")
    own = WHOLE_OF.get(basis)
    if own and whole.dimension != own and whole.dimension in WHOLE_OF.values():
        raise _refuse(a, b, verb, "the share is counted on another basis")


def product_kind(a: Kind, b: Kind) -> Kind:
    """The kind of a * b. A share of a mass is a mass; a plain number changes nothing; points: KindError."""
    _no_points(a, b, "multiplied")
    for one, other in ((a, b), (b, a)):
        if one == PLAIN_KIND:
            return other
    if a.dimension and b.dimension:
        return Kind(combined(a, b, 1))
    if not a.dimension and not b.dimension:
        kind = _merged(Kind((), a.split[0]), Kind((), b.split[0]), "multiplied")
        return a if a == b else kind
    share, whole = (b, a) if a.dimension else (a, b)
    _check_whole(share, whole, a, b, "multiplied")
    return whole


def quotient_kind(a: Kind, b: Kind) -> Kind:
    """The kind of a / b. Like by like: plain number, a mass by a share by mass a mass; point: KindError."""
    _no_points(a, b, "divided")
    if b == PLAIN_KIND:
        return a
    if not a.dimension and not b.dimension:
        if a != PLAIN_KIND:
            _merged(a, b, "divided")
        return PLAIN_KIND
    if a.dimension and not b.dimension:
        _check_whole(b, a, a, b, "divided")
        return a
    return Kind(combined(a, b, -1))


def power_kind(a: Kind, exponent: int) -> Kind:
    """The kind of a value to a whole power."""
    if exponent == 1:
        return a
    _no_points(a, a, "multiplied")
    if not a.dimension:
        return PLAIN_KIND if exponent <= 0 else a
    return Kind(tuple((n, p * exponent) for n, p in a.dimension) if exponent else ())


# ---- the table


class Bases(NamedTuple):
    """What a share in per cent is counted by, as it is written before and behind the sign: to its symbol."""

    before: dict[str, str]
    after: dict[str, str]
    bare: frozenset[str]
    """Those that stand behind the sign without 'by' and without brackets."""


class UnitTable(NamedTuple):
    """The data file as read, factors still as text: only units in use are computed."""

    dimensions: dict[str, Dimension]
    names: dict[Dimension, str]
    factors: dict[str, tuple[str, Fraction, str]]  # symbol -> dimension name, prefix factor, factor
    levels: dict[str, list[str]]
    shares: dict[str, list[str]]
    aliases: dict[str, str]
    refused: dict[str, list[str]]
    words: dict[str, dict[str, list[str]]]
    function_words: frozenset[str]
    basis: Bases


def _powers(text: str) -> Dimension:
    """`mass length^-3` as sorted powers."""
    pairs = (part.partition("^") for part in text.split())
    return tuple(sorted((name, int(power or 1)) for name, _, power in pairs))


@cache
def unit_table() -> UnitTable:
    """The data file, read once, when the first unit is asked for."""
    raw = data_file("units.json")
    dimensions = {name: _powers(text) for name, text in raw["dimension"].items()}
    names: dict[Dimension, str] = {}
    for name, dimension in dimensions.items():
        names.setdefault(dimension, name)
    prefixes = {p: Fraction(f) for p, f in raw["prefix"].items()}
    factors: dict[str, tuple[str, Fraction, str]] = {}
    for name, units in raw["unit"].items():
        for symbol, factor in units.items():
            factors[symbol] = (name, Fraction(1), factor)
            for prefix in raw["prefixed"].get(symbol, "").split():
                factors[prefix + symbol] = (name, prefixes[prefix], factor)
    return UnitTable(
        dimensions,
        names,
        factors,
        levels=raw["level"],
        shares=raw["share"],
        aliases=raw["alias"],
        refused=raw["refused"],
        words=raw["word"],
        function_words=frozenset(raw["function_words"].split()),
        basis=Bases(raw["basis"]["before"], raw["basis"]["after"], frozenset(raw["basis"]["bare"].split())),
    )


def dimension_name(dimension: Dimension) -> str:
    """A dimension for people: its own name, or the base dimensions it is made of."""
    known = unit_table().names.get(dimension)
    if known:
        return known
    above = [n if p == 1 else f"{n}^{p}" for n, p in dimension if p > 0]
    below = [n if p == -1 else f"{n}^{-p}" for n, p in dimension if p < 0]
    return " / ".join([" * ".join(above) or "1", *below])
