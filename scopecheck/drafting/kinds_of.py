"""The kind under which a quantity is declared, from its unit and its noun."""

from __future__ import annotations

import re
from functools import cache

from scopecheck.drafting.naming import Called, so_much_each
from scopecheck.foundations.quantity import Unit, kind_word, kind_words


def kind_text(called: Called, unit: Unit | None) -> str:
    """`length in mm`, `in L/min`, `count`, `number`: as it stands in a declaration."""
    if unit is None or not unit.symbol:
        return "count" if called.counted else "number"
    last = called.noun.split()[-1:] or [""]
    own = kind_word(last[0])
    if own and last[0] not in ("ratio", "number", "amount") and own.accepts(unit.kind):
        return f"{own.name} in {unit.symbol}"
    word = _told_by(unit.symbol, _word(unit))
    return f"{word} in {unit.symbol}" if word else f"in {unit.symbol}"


def _told_by(symbol: str, word: str) -> str:
    """The word for what a unit measures, '' where the unit alone does not tell: kcal/mL is no pressure."""
    parts = set(re.split(r"[^A-Za-z]+", symbol))
    if any(part.endswith(_OF_ENERGY) for part in parts):
        return {"torque": "energy", "pressure": ""}.get(word, word)
    return "" if word in _RARE or symbol in _OF_MANY else word


_OF_ENERGY = ("J", "Wh", "cal", "eV")
_OF_MANY = frozenset(("1/s", "1/min", "1/h", "m2/s", "mm2/s", "cm2/s"))
"""Units in which quite different things are measured: a rate of shear, a diffusivity."""
_RARE = frozenset(
    ("surface tension", "conductance", "charge", "concentration", "linear density", "acceleration")
)
"""Words for kinds that a unit alone does not tell: with another noun these units measure something else."""


@cache
def _word(unit: Unit) -> str:
    """The first word of the table that goes with the unit; '' if none does."""
    if so_much_each(unit):
        return ""
    return next((w for w in kind_words() if (k := kind_word(w)) and k.accepts(unit.kind)), "")


def family(called: Called, unit: Unit | None) -> str:
    """What two limits must share to be of one quantity: kind and basis of their units."""
    if unit is None or not unit.symbol:
        return "count" if called.counted else "number"
    return unit.kind.name
