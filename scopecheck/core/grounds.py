"""What an answer leans on beside the words asked about: bounds, given facts, settled words; and lines."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias, assert_never

from scopecheck.foundations.record import record


@record
class Bounds:
    """The bounds of a declared name; of a field of like parts those of all of them, `width of each brush`."""

    name: str


@record
class GivenFact:
    """A given fact, in the sheet's own words."""

    text: str


@record
class SharesOfWhole:
    """The bounds of the shares of a composition: none is below 0, in the unit written behind them."""

    whole: str
    unit: str


@record
class SettledWords:
    """A policy, a pin or a definition that leaves some readings only; `place` is where it rests, or ''."""

    text: str
    place: str = ""


Ground: TypeAlias = Bounds | GivenFact | SharesOfWhole | SettledWords


@record
class Line:
    """A line of a claim by its label, or a part of one that is asked about (''), which no label names."""

    label: str


Cause: TypeAlias = Ground | Line
"""What can keep something from being, together with others."""


def lines_of(causes: Iterable[Cause]) -> tuple[str, ...]:
    """The labels of the lines among the causes."""
    return tuple(x.label for x in causes if isinstance(x, Line) and x.label)


def grounds_of(causes: Iterable[Cause]) -> tuple[Ground, ...]:
    """The causes that are no lines."""
    return tuple(x for x in causes if not isinstance(x, Line))


def ground_text(ground: Ground) -> str:
    """What errors, reports and JSON call a ground."""
    match ground:
        case Bounds(name=name):
            return f"bounds of '{name}'"
        case GivenFact(text=text):
            return f"given {text}"
        case SharesOfWhole(whole=whole, unit=unit):
            return f"no share of {whole} is below 0 {unit}"
        case SettledWords(text=text, place=place):
            return f'"{text}" ({place})' if place else f'"{text}"'
    assert_never(ground)
