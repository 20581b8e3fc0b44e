"""Trades and forms: the nouns, ranges and wordings of which exercises are made. All of it is data."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any, Literal, TypeAlias

from scopecheck.foundations.data_files import data_file
from scopecheck.foundations.record import record

Of: TypeAlias = Literal["amount", "count", "set", "pair", "beside"]
"""What a form speaks of: an amount, a number of things, what something is made of, two amounts."""


@record
class Form:
    """The words of a limitation, with slots, and how a claim says them."""

    number: int
    of: Of
    words: str
    clause: str

    @property
    def said(self) -> str:
        """The clause with its words, slots and nouns left open."""
        return self.clause.replace("{words}", self.words)

    @property
    def key(self) -> str:
        """What it is known by."""
        return f"{self.words} | {self.of}"


@record
class Scale:
    """Something measured or counted: its name, how it is declared, and the numbers it is written with."""

    name: str
    kind: str
    unit: str
    low: Fraction
    high: Fraction
    step: Fraction
    decimals: int

    @property
    def places(self) -> int:
        """How many steps there are from the low to the high end."""
        return int((self.high - self.low) / self.step)

    def text(self, value: Fraction, unit: bool = True) -> str:
        """A number to the digits of the scale, with its unit."""
        scaled = value * 10**self.decimals
        digits = str(abs(int(scaled))).rjust(self.decimals + 1, "0")
        whole = digits[: len(digits) - self.decimals]
        number = whole + ("." + digits[len(digits) - self.decimals :] if self.decimals else "")
        return f"{'-' if value < 0 else ''}{number}{f' {self.unit}' if unit and self.unit else ''}"


@record
class Members:
    """What something may be made of."""

    name: str
    members: tuple[str, ...]


@record
class Trade:
    """The first two amounts are of one kind."""

    name: str
    thing: str
    amounts: tuple[Scale, ...]
    counts: tuple[Scale, ...]
    sets: tuple[Members, ...]


@cache
def trades() -> tuple[Trade, ...]:
    """The trades in the order of the data."""
    return tuple(_trade(t) for t in data_file("drill.json")["trade"])


@cache
def forms() -> tuple[Form, ...]:
    """The forms in the order of the data; `number` is the place in it."""
    found = [(f["of"], words, f["clause"]) for f in data_file("drill.json")["form"] for words in f["words"]]
    return tuple(Form(i, of, words, clause) for i, (of, words, clause) in enumerate(found))


def _trade(data: Any) -> Trade:
    amounts = tuple(
        Scale(
            a["name"],
            a["kind"],
            a["unit"],
            Fraction(a["low"]),
            Fraction(a["high"]),
            Fraction(a["step"]),
            len(a["low"].partition(".")[2]) or len(a["step"].partition(".")[2]),
        )
        for a in data["amounts"]
    )
    one = Fraction(1)
    counts = tuple(
        Scale(c["name"], "count", "", Fraction(c["low"]), Fraction(c["high"]), one, 0) for c in data["counts"]
    )
    sets = tuple(Members(s["name"], tuple(s["members"])) for s in data["sets"])
    return Trade(data["name"], data["thing"], amounts, counts, sets)
