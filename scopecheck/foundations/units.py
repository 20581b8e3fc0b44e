"""Units: what a text such as `g/cm3` or `bar(g)` spells, and its exact factor.

Base units: m, kg, s, K, A, mol, cd, lm, degree of angle, bit. Everything is a Fraction.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import cache, lru_cache
from typing import NamedTuple

from scopecheck.foundations.kinds import (
    ABOVE_A_REFERENCE,
    ABSOLUTE,
    DECIBELS,
    GAUGE,
    LEVEL,
    PLAIN_KIND,
    TEMPERATURE,
    WHOLE_OF,
    Kind,
    KindError,
    combined,
    power_kind,
    unit_table,
)
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex


class UnitError(Exception):
    """A word that cannot be declared as a unit; the message says why."""


@record
class Unit:
    """A unit: value in base units = number * factor + offset."""

    symbol: str
    kind: Kind
    factor: Fraction
    offset: Fraction = Fraction(0)

    def to_base(self, v: Fraction) -> Fraction:
        """A number of this unit, in base units."""
        return v * self.factor + self.offset

    def from_base(self, v: Fraction) -> Fraction:
        """A value in base units, as a number of this unit."""
        return (v - self.offset) / self.factor


PLAIN = Unit("", PLAIN_KIND, Fraction(1))
POINTS = "percentage points"
"""The unit of a difference of shares, which is itself no share of anything."""

_PLAIN_FORM = {
    "µ": "u", "μ": "u", "Å": "angstrom", "\u212b": "angstrom", "Ω": "ohm", "\u2126": "ohm", "\u212a": "K",
    "\u2103": "degC", "\u2109": "degF", "°": "deg", "º": "deg", "‰": "permille",
    "·": ".", "⋅": ".", "∙": ".", "−": "-", "\u00a0": " ", "\u2009": " ", "\u202f": " ",
    "⁻": "^-", "¹": "^1", "²": "^2", "³": "^3", "⁴": "^4",
    "⁵": "^5", "⁶": "^6", "⁷": "^7", "⁸": "^8", "⁹": "^9",
}  # fmt: skip
_TRANSLATION = str.maketrans(_PLAIN_FORM)
_POWER = regex(r"(?P<symbol>.*[^\d^-])(?:(?P<digit>[2-9])|\^(?P<power>-?[1-9]))")
_BASES = {"(g)": GAUGE, "(a)": ABSOLUTE}
_COUNTED_FROM = regex(r"(\S+) (absolute|abs|gauge|gage)", re.IGNORECASE)
"""A pressure counted from nothing, or from that of the air: `bar absolute` is `bar(a)`."""
_BY_BEFORE = regex(r"([a-z/]+)[ .-]{0,2}(?:%|percent|per cent)")
_BY_AFTER = regex(r"(?:%|percent|per cent)[ -]?(?P<open>\()?(?P<by>by[ -])?(?P<basis>[a-z/]+)(?(open)\.?\))")
_POWERS = {"square": "2", "sq": "2", "squared": "2", "cubic": "3", "cu": "3", "cubed": "3"}
_SECOND = regex(r"/second\b")
_MICRO = regex(r"[µμ]([A-Za-z]+)")
_TO_A_POWER = regex(r"\b(square|sq|cubic|cu)\b\.? ([^\W\d_]+)")
_AT_A_POWER = regex(r"\b([^\W\d_]+) (squared|sq|cubed|cu)\b")

Own = Mapping[str, Unit]


class _Part(NamedTuple):
    """One symbol of a compound with its power; `section` 0 is the numerator."""

    unit: Unit
    power: int
    section: int

    @property
    def text(self) -> str:
        symbol = self.unit.symbol.removesuffix("(diff)")
        power = -self.power if self.section else self.power
        if power == 1:
            return symbol
        return f"{symbol}{power}" if power > 1 and symbol[-1].isalpha() else f"{symbol}^{power}"


def plain_form(text: str) -> str:
    """A text with micro, ohm and degree signs, superscripts and special blanks in their plain spelling."""
    return text.strip().translate(_TRANSLATION).replace("^-^", "^-")


def find_unit(text: str, own: Own | None = None, *, level: bool = False) -> Unit | None:
    """The unit a text spells, or None. `own`: units the sheet declared. `level`: a temperature is a point."""
    plain = plain_form(text)
    if not plain:
        return None
    unit = _find(plain) or (_with_own(plain, own) if own else None)
    unit = _as_written(unit, text) if unit and plain != text else unit
    return as_level(unit) if unit and level and unit.kind.dimension == TEMPERATURE else unit


def _as_written(unit: Unit, text: str) -> Unit:
    """The unit printed with a micro sign where the text has one: `µm`, not `um`."""
    symbol = unit.symbol
    for letters in _MICRO.findall(text):
        symbol = re.sub(rf"\bu(?={letters})", "µ", symbol)
    return unit if symbol == unit.symbol else replace(unit, symbol=symbol)


_PER_SO_MANY = regex(r"(\S+?) ?(?:/| per ) ?(\d+(?:\.\d+)?) ?([^\W\d]\S*)")
"""`g/100 ml`, `mg per 100 g`, `N/15 mm`, `g/m2/24 h`."""
_PER_SO_MANY_OF_TWO = regex(r"(\S+?)/\(([^\s()]+)\.(\d+) ?([^\W\d][^\s()]*)\)")
"""`g/(m2.24 h)`."""


@cache
def unit_words() -> frozenset[str]:
    """The words of four letters and more that stand in spellings of units, in small letters."""
    table = unit_table()
    spelled = (*table.aliases, *table.factors, *table.levels, *table.shares, *table.basis.after, *_POWERS)
    known = (*spelled, "absolute", "gauge")
    return frozenset(w.lower() for text in known for w in re.split(r"[\W\d_]+", text) if len(w) > 3)


@lru_cache(maxsize=4096)
def _find(text: str) -> Unit | None:
    target = unit_table().aliases.get(text)
    if target:
        return _find(target)
    if unit := _simple(text):
        return unit
    if so_many := _PER_SO_MANY.fullmatch(text):
        above, many, below = so_many.groups()
        return _per_so_many(f"{above}/{below}", many, f"{above}/{many} {below}")
    if so_many := _PER_SO_MANY_OF_TWO.fullmatch(text):
        above, first, many, last = so_many.groups()
        return _per_so_many(f"{above}/({first}.{last})", many, f"{above}/({first}.{many} {last})")
    target = _in_words(text)
    return _find(target) if target else _compound(text, {})


def _per_so_many(unit: str, many: str, symbol: str) -> Unit | None:
    """The unit of which so many are meant at once; None for `5 mm/6 mm`, which may be two values."""
    one, so_many = _find(unit), Fraction(many)
    rate = one is not None and one.kind.dimension == (("time", -1),)  # '10 % per 2 h' is a change
    if one is None or rate or not so_many or not (one.kind.dimension or so_many in _ROUND):
        return None
    return replace(one, symbol=symbol, factor=one.factor / so_many)


_ROUND = (10, 100, 1000)


def _in_words(text: str) -> str:
    """The symbols of a unit in words: `g per square metre`, `weight per cent`, `% (w/w)`; '' of others."""
    small = text.lower()
    if share := _share_in_words(small):
        return share
    if " " not in text:
        return ""
    if counted := _COUNTED_FROM.fullmatch(text):
        return f"{counted[1]}({counted[2][0].lower()})"
    if target := unit_table().aliases.get(small):
        return target
    symbols = _TO_A_POWER.sub(lambda m: m[2] + _POWERS[m[1]], text)
    symbols = _AT_A_POWER.sub(lambda m: m[1] + _POWERS[m[2]], symbols).replace(" per ", "/")
    symbols = "1/" + symbols.removeprefix("per ") if symbols.startswith("per ") else symbols
    # Alone 'second' may be the second of something.
    symbols = _SECOND.sub("/s", symbols)
    return "" if symbols == text or " " in symbols else symbols


def _share_in_words(small: str) -> str:
    basis = unit_table().basis
    if before := _BY_BEFORE.fullmatch(small):
        return basis.before.get(before[1], "")
    if after := _BY_AFTER.fullmatch(small):
        marked = after["by"] or after["open"] or after["basis"] in basis.bare
        return basis.after.get(after["basis"], "") if marked else ""
    return ""


def _with_own(text: str, own: Own) -> Unit | None:
    """A unit of the trade, alone or in a compound, in the plural and with 'per' too."""
    symbols = text.replace(" per ", "/")
    first, over, rest = symbols.partition("/")
    singular = first.removesuffix("s") if first.removesuffix("s") in own else first
    return own.get(singular + over + rest) or _compound(singular + over + rest, own)


@lru_cache(maxsize=4096)
def _simple(text: str) -> Unit | None:
    """A unit of one symbol: from the table, a level, its difference, a share, a pressure with (g) or (a)."""
    table = unit_table()
    if entry := table.factors.get(text):
        name, prefix, factor = entry
        return Unit(text, Kind(table.dimensions[name]), prefix * Fraction(factor))
    if level := table.levels.get(text):
        return Unit(text, Kind(TEMPERATURE, LEVEL), Fraction(level[0]), Fraction(level[1]))
    if level := table.levels.get(text.removesuffix("(diff)")):
        return Unit(text, Kind(TEMPERATURE), Fraction(level[0]))
    if share := table.shares.get(text):
        return Unit(text, Kind((), share[1]), Fraction(share[0]))
    if basis := _BASES.get(text[-3:]):
        unit = _simple(table.aliases.get(text[:-3], text[:-3]))
        if unit and unit.kind == Kind(table.dimensions["pressure"]):
            return Unit(unit.symbol + text[-3:], Kind(unit.kind.dimension, basis), unit.factor)
    return None


def _atom(text: str, own: Own) -> Unit | None:
    """One symbol inside a compound; a degree is an interval there (`degC/min` is K/min)."""
    unit = _simple(text) or own.get(text)
    if unit is None or (unit.kind.basis and unit.kind.basis != LEVEL):
        return None
    return as_difference(unit) if unit.kind.basis else unit


def parse_factor(text: str, own: Own, section: int = 0) -> _Part | None:
    """`m`, `m2`, `m^2`, `s^-1` as a unit and its power, turned around below a `/`."""
    sign = -1 if section else 1
    text = unit_table().aliases.get(text, text)
    if unit := _atom(text, own):
        return _Part(unit, sign, section)
    match = _POWER.fullmatch(text)
    if match and (unit := _atom(unit_table().aliases.get(match["symbol"], match["symbol"]), own)):
        return _Part(unit, sign * int(match["digit"] or match["power"]), section)
    return None


def _sections(text: str) -> list[str] | None:
    """The numerator and each denominator. A product after a `/` needs brackets: `W/m.K` has two readings."""
    first, *rest = re.split(r"/(?![^(]*\))", text)
    sections = [first]
    for section in rest:
        if section.startswith("(") and section.endswith(")"):
            section = section[1:-1]
        elif "." in section:
            return None
        if "/" in section:
            return None
        sections.append(section)
    return sections


def _parts(text: str, own: Own) -> list[_Part] | None:
    sections = _sections(text)
    if sections is None:
        return None
    parts: list[_Part] = []
    for index, section in enumerate(sections):
        if index == 0 and section == "1" and len(sections) > 1:
            continue
        for piece in section.split("."):
            part = parse_factor(piece, own, index)
            if part is None:
                return None
            parts.append(part)
    return parts


def _compound(text: str, own: Own) -> Unit | None:
    parts = _parts(text, own)
    if parts is None:
        return None
    kind, factor = PLAIN_KIND, Fraction(1)
    for part in parts:
        kind = Kind(combined(kind, part.unit.kind, part.power))
        factor *= part.unit.factor**part.power
    return Unit(_symbol(parts), _share_kind(parts) or kind, factor)


def _symbol(parts: list[_Part]) -> str:
    """The plain spelling: `m^2`, `m²` and `m2` are all printed `m2`, so that one unit has one symbol."""
    sections = {0: "1"}
    for index in sorted({part.section for part in parts}):
        product = ".".join(part.text for part in parts if part.section == index)
        sections[index] = f"({product})" if index and "." in product else product
    return "/".join(sections.values())


def _share_kind(parts: list[_Part]) -> Kind | None:
    """`mg/kg` is a share by mass, `mL/L` by volume, `mmol/mol` by mole; `mm/m` is a plain number."""
    if len(parts) != 2:
        return None
    above, below = parts
    kind = power_kind(above.unit.kind, above.power)
    if kind != power_kind(below.unit.kind, -below.power):
        return None
    return next((Kind((), basis) for basis, whole in WHOLE_OF.items() if kind.dimension == whole), None)


def as_level(unit: Unit) -> Unit:
    """A temperature unit as a point on its scale: `K` in `temperature in K`. KindError for other kinds."""
    if unit.kind == Kind(TEMPERATURE, LEVEL):
        return unit
    if unit.kind != Kind(TEMPERATURE):
        raise KindError(f"{unit.kind.name} cannot be read as temperature level", unit.kind, unit.kind)
    symbol = unit.symbol.removesuffix("(diff)")
    if level := unit_table().levels.get(symbol):
        return Unit(symbol, Kind(TEMPERATURE, LEVEL), Fraction(level[0]), Fraction(level[1]))
    return Unit(symbol, Kind(TEMPERATURE, LEVEL), unit.factor)


def as_turns(unit: Unit) -> Unit:
    """`1/min` of a rotational speed as so many turns a minute; another unit as it is."""
    turn = find_unit("rpm")
    if turn is None or unit.kind.dimension != (("time", -1),):
        return unit
    return Unit(unit.symbol, turn.kind, unit.factor * turn.factor * 60)


def as_difference(unit: Unit) -> Unit:
    """The unit for distances on a scale: `degF(diff)`, `dB` of dBm, `bar` of bar(g). KindError for others."""
    if unit.kind in (Kind(TEMPERATURE), DECIBELS):
        return unit
    if unit.kind in ABOVE_A_REFERENCE:
        return Unit("dB", DECIBELS, Fraction(1))
    if unit.kind.basis in (GAUGE, ABSOLUTE):
        return Unit(unit.symbol[:-3], Kind(unit.kind.dimension), unit.factor)
    if unit.kind != Kind(TEMPERATURE, LEVEL):
        raise KindError(f"{unit.kind.name} cannot be read as temperature difference", unit.kind, unit.kind)
    symbol = f"{unit.symbol}(diff)" if unit.symbol in unit_table().levels else unit.symbol
    return Unit(symbol, Kind(TEMPERATURE), unit.factor)


def known_symbols() -> tuple[str, ...]:
    """Every symbol of the table in its plain spelling, prefixes included, without (g), (a) and (diff)."""
    table = unit_table()
    return (*table.factors, *table.levels, *table.shares)


def define_unit(symbol: str) -> Unit:
    """A unit of the trade with a dimension of its own. UnitError if the word is taken or cannot be a unit."""
    if not re.fullmatch(r"[^\W\d_]+(?:-[^\W\d_]+)*", symbol):
        raise UnitError(f"'{symbol}' cannot be a unit: a unit is one word of letters")
    if symbol.lower() in unit_table().function_words:
        raise UnitError(f"'{symbol}' cannot be a unit: it is a word of the language")
    if find_unit(symbol):
        raise UnitError(f"'{symbol}' is a unit already")
    return Unit(symbol, Kind(((f"count of {symbol}", 1),)), Fraction(1))
