"""Formulas of readings in words and signs that need no knowledge of the exact language."""

from __future__ import annotations

import re

_ROUNDED = re.compile(r"ROUND\(((?:[^()]|\([^()]*\))+?) TO ((?:[^(),]|\([^()]*\))+), (HALF \w+)\)")
_RULES = {"HALF AWAY": "half away from zero", "HALF UP": "half up", "HALF EVEN": "half to even"}
_MEMBERS = {
    "EVERY": "every one of",
    "SOME": "at least one of",
    "ONE": "exactly one of",
    "COUNT": "the number of",
}


def plain_formula(text: str) -> str:
    """A reading's formula with words in place of the exact language's capitals."""
    shown = _ROUNDED.sub(lambda m: f"[{m[1]}, rounded {_RULES[m[3]]} to {m[2]}]", text)
    shown = re.sub(r"\b(EVERY|SOME|ONE|COUNT)\((\w+)\)", lambda m: f"{_MEMBERS[m[1]]} {m[2]}", shown)
    shown = re.sub(r"\bABS\(([^()]*)\)", r"|\1|", shown)
    for word, instead in (
        ("PLACE", "the last written place of "),
        ("DECADE", "the power of ten at or below "),
        ("LEAST", "the least of "),
        ("GREATEST", "the greatest of "),
    ):
        shown = re.sub(rf"\b{word}\(([^()]*)\)", rf"{instead}\1", shown)
    shown = re.sub(r"\bTRUE\b", "anything at all", shown)
    shown = re.sub(r"\bFALSE\b", "nothing at all", shown)
    shown = re.sub(r"\bIS WHOLE\b", "is a whole number", shown)
    for word in ("AND", "OR", "NOT", "IF", "THEN", "OTHERWISE", "IN", "MOD"):
        shown = re.sub(rf"\b{word}\b", word.lower(), shown)
    return shown
