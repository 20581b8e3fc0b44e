"""Quantities: kinds, units, the words for what is measured, advice on misspelt units, numbers as text.

The one module others import; `kinds` and `units` hold the parts.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from scopecheck.foundations.diagnostics import edits
from scopecheck.foundations.kinds import (
    PLAIN_KIND,
    Dimension,
    Kind,
    KindError,
    comparable,
    counted_from,
    difference_kind,
    power_kind,
    product_kind,
    quotient_kind,
    sum_kind,
    unit_table,
)
from scopecheck.foundations.record import record
from scopecheck.foundations.units import (
    PLAIN,
    POINTS,
    Own,
    Unit,
    UnitError,
    as_difference,
    as_level,
    as_turns,
    define_unit,
    find_unit,
    known_symbols,
    parse_factor,
    plain_form,
    unit_words,
)

__all__ = [
    "PLAIN",
    "PLAIN_KIND",
    "POINTS",
    "Dimension",
    "Kind",
    "KindError",
    "KindWord",
    "Own",
    "Unit",
    "UnitError",
    "as_difference",
    "as_level",
    "as_turns",
    "comparable",
    "counted_from",
    "decimal_text",
    "define_unit",
    "difference_kind",
    "explain_unit",
    "find_unit",
    "is_refused",
    "kind_word",
    "kind_words",
    "known_symbols",
    "nearest_units",
    "number_text",
    "power_kind",
    "product_kind",
    "quotient_kind",
    "sum_kind",
    "unit_words",
]


# ---- what may have been meant


def explain_unit(text: str, own: Own | None = None) -> str | None:
    """Why a text is not read as a unit, with what to write instead; None if nothing is known."""
    plain = plain_form(text)
    if find_unit(plain, own):
        return None
    entry = unit_table().refused.get(plain)
    if entry:
        reason, *instead = entry
        return f"{reason}; write {' or '.join(instead)}" if instead else reason
    for piece in (plain[2:] if plain.startswith("1/") else "", plain.rpartition("/")[2]):
        if piece != plain and (entry := unit_table().refused.get(piece)):
            return f"{entry[0]}; write {plain.removesuffix(piece)}{entry[1]}" if entry[1:] else entry[0]
    if re.search(r"/[^(/]*\.", plain):
        return "a product after '/' has two readings; put it in brackets, as in W/(m.K)"
    if re.fullmatch(r"[^/]*[A-Za-z]-\d", plain):
        return "a negative power is written with ^, as in s^-1"
    if "*" in plain:
        return "a product of units is written with a dot, as in N.m"
    if re.search(r"\^-?\d*(\.\d|/\d)", plain):
        return "a unit takes whole powers only"
    known = (find_unit(piece, own) for piece in re.split(r"/(?![^(]*\))", plain))
    if any(unit and (unit.kind.basis or unit.kind.point) for unit in known):
        return "a share with a basis and a pressure with (g) or (a) stand alone, outside a compound unit"
    near = nearest_units(plain, own)
    return f"did you mean {' or '.join(near)}?" if near else None


def is_refused(text: str) -> bool:
    """Whether a text is a unit to some and something else to others, as C and ppm."""
    return plain_form(text) in unit_table().refused


def nearest_units(text: str, own: Own | None = None, most: int = 3) -> tuple[str, ...]:
    """Units a text may have been meant for, nearest first; for a refused unit, what to write instead."""
    plain = plain_form(text)
    refused = unit_table().refused.get(plain)
    if refused:
        return tuple(refused[1:])
    pieces = re.split(r"([/.()])", plain)
    unknown = [
        i
        for i, piece in enumerate(pieces)
        if piece and piece not in "/.()" and piece != "1" and not parse_factor(piece, own or {})
    ]
    if len(pieces) == 1 or len(unknown) != 1:
        return _near_symbols(plain, own or {})[:most]
    at = unknown[0]
    whole = (
        "".join([*pieces[:at], near, *pieces[at + 1 :]]) for near in _near_symbols(pieces[at], own or {})
    )
    return tuple(w for w in whole if find_unit(w, own))[:most]


def _near_symbols(text: str, own: Own) -> tuple[str, ...]:
    """Known spellings that differ in case only; if there are none, those one or two letters away."""
    table = unit_table()
    limit = 1 if len(text) < 6 else 2
    scored: list[tuple[int, int, str]] = []
    for order, symbol in enumerate((*own, *known_symbols(), *table.aliases)):
        if symbol.lower() == text.lower():
            scored.append((0, order, symbol))
        elif len(text) > 1 and abs(len(symbol) - len(text)) <= limit:
            distance = edits(symbol.lower(), text.lower())
            if distance <= limit:
                scored.append((distance, order, symbol))
    if any(distance == 0 for distance, _, _ in scored):
        scored = [entry for entry in scored if entry[0] == 0]
    return tuple(dict.fromkeys(table.aliases.get(symbol, symbol) for _, _, symbol in sorted(scored)))


# ---- words that say what is measured


@record
class KindWord:
    """A word for what is measured, with its natural ends in base units; both ends belong to the range."""

    name: str
    kind: Kind
    lower: Fraction | None
    upper: Fraction | None
    also: tuple[Kind, ...] = ()

    def accepts(self, kind: Kind) -> bool:
        """True if a unit of this kind may follow the word (`share in wt%`, `pressure in bar(g)`)."""
        basis, _ = kind.split
        return Kind(kind.dimension, basis) in (self.kind, *self.also)


@lru_cache(maxsize=4096)
def kind_word(text: str) -> KindWord | None:
    """The word of the table, or None. Lower ends are natural ones: no length is below zero."""
    name = " ".join(text.split())
    entry = unit_table().words.get(name)
    if entry is None:
        return None
    units = [find_unit(symbol) if symbol else PLAIN for symbol in entry["units"]]
    kind, *also = [unit.kind for unit in units if unit]
    low, high = (Fraction(end) if end else None for end in entry["ends"])
    return KindWord(name, kind, low, high, tuple(also))


def kind_words() -> tuple[str, ...]:
    """Every word that says what is measured."""
    return tuple(unit_table().words)


# ---- numbers as text


def decimal_text(value: Fraction, most: int = 12) -> str | None:
    """The exact, shortest decimal, or None if it does not end within `most` places."""
    rest, places = value.denominator, 0
    for prime in (2, 5):
        power = 0
        while rest % prime == 0:
            rest //= prime
            power += 1
        places = max(places, power)
    if rest != 1 or places > most:
        return None
    digits = str(abs(value.numerator) * 10**places // value.denominator).rjust(places + 1, "0")
    sign = "-" if value < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else sign + digits


def number_text(value: Fraction) -> str:
    """The exact decimal if it is short, else the fraction `p/q`."""
    return decimal_text(value) or f"{value.numerator}/{value.denominator}"
