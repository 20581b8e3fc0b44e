"""From forms and a trade to the text of a sheet: nouns and numbers are drawn, the words stay as they are."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from scopecheck.drill.draws import Draws
from scopecheck.drill.trades import Form, Members, Scale, Trade
from scopecheck.foundations.record import record

RATIOS = (("3:2", "5:2"), ("2:1", "3:1"), ("2:1", "4:1"), ("3:1", "4:1"))
_SHARED_UNIT = re.compile(r"\{([LP])\}(?= (?:and|to) \{[UQ]\})")


@record
class Line:
    """A limitation of a composed claim: what stands left of its colon, its words, what fills its slots."""

    subject: str
    words: str
    clause: str
    slots: tuple[tuple[str, str], ...]


@record
class Composed:
    """A sheet in the making: declarations, and the lines of each claim in order."""

    declared: tuple[str, ...]
    claims: tuple[tuple[Line, ...], ...]
    thing: str
    usual: tuple[tuple[str, Fraction | frozenset[str]], ...]
    """A plausible value for each name, in the unit of its trade."""

    @property
    def text(self) -> str:
        blocks = ["\n".join(self.declared)]
        for number, lines in enumerate(self.claims, 1):
            restated = [f"   | {x.subject} : {x.words}" for x in lines]
            blocks.append("\n".join([self.claim(number), *restated]))
        return "\n\n".join(blocks) + "\n"

    def claim(self, number: int) -> str:
        """The text of one claim, as a claim would say it."""
        clauses = [x.clause for x in self.claims[number - 1]]
        said = " and ".join([", ".join(clauses[:-1]), clauses[-1]] if clauses[1:] else clauses)
        noun = self.thing.split(" ", 1)[1]
        head = self.thing if number == 1 else f"The {noun} of claim 1"
        return f"{number}. {head}, wherein {said}."


def room(forms: Sequence[Form], tied: bool) -> bool:
    """Has every trade enough nouns for these forms? Tied forms share their amounts."""
    kinds = [f.of for f in forms]
    pairs = kinds.count("pair") + kinds.count("beside")
    amounts = kinds.count("amount")
    free = 3 if not pairs else 1 if not tied else 2
    return kinds.count("count") < 2 and kinds.count("set") < 2 and pairs < 2 and amounts <= free


def compose(trade: Trade, claims: Sequence[Sequence[Form]], tied: bool, draws: Draws) -> Composed:
    """The forms said of things of the trade. Where claim 2 has the form of one amount, it is that of claim 1.

    With `tied`, the first amount is one of those that a form for two speaks of.
    """
    every = [f for forms in claims for f in forms]
    paired = any(f.of in ("pair", "beside") for f in every)
    two = draws.mixed(trade.amounts[:2])
    rest = [trade.amounts[2]] if paired else draws.mixed(trade.amounts)
    if tied:
        rest = [two[0], trade.amounts[2]]
    used: list[Scale | Members] = []
    made: list[tuple[Line, ...]] = []
    free = list(rest)
    for forms in claims:
        lines: list[Line] = []
        if made:
            free = list(rest)
        for form in forms:
            line, things = _line(form, trade, free, two, draws)
            lines.append(line)
            used += [x for x in things if x not in used]
        made.append(tuple(lines))
    ordered = [x for x in (*trade.amounts, *trade.counts, *trade.sets) if x in used]
    usual = tuple((x.name, _usual(x)) for x in ordered)
    return Composed(tuple(map(_declared, ordered)), tuple(made), trade.thing, usual)


def filled(text: str, slots: Mapping[str, str]) -> str:
    """A wording with its slots filled; of two numbers in a row the first has no unit of its own."""
    return _SHARED_UNIT.sub(lambda m: slots[m[1]].split(" ")[0], text).format(**slots)


def _line(
    form: Form, trade: Trade, free: list[Scale], two: Sequence[Scale], draws: Draws
) -> tuple[Line, tuple[Scale | Members, ...]]:
    things: tuple[Scale | Members, ...]
    match form.of:
        case "amount":
            things = (free.pop(0),)
        case "count":
            things = trade.counts
        case "set":
            things = trade.sets
        case "pair" | "beside":
            things = tuple(two)
    first = things[0]
    slots = _members(first, draws) if isinstance(first, Members) else _numbers(first, draws)
    if form.of in ("pair", "beside"):
        slots |= {"a": things[0].name, "b": things[1].name}
    words = filled(form.words, slots)
    subject = ", ".join(t.name for t in things) if form.of == "pair" else first.name
    clause = form.clause.format(noun=first.name, words=words)
    return Line(subject, words, clause, tuple(slots.items())), things


def _numbers(scale: Scale, draws: Draws) -> dict[str, str]:
    """Numbers for every slot, L < P < Q < U and L < N < U, on the steps of the scale."""
    n = scale.places
    low = n // 6 + draws.below(max(1, n // 6))
    high = n - n // 6 - draws.below(max(1, n // 6))
    quarter = max(1, (high - low) // 4)
    at = {"L": low, "U": high, "P": low + quarter, "Q": high - quarter}
    at["N"] = low + quarter + draws.below(max(1, high - low - 2 * quarter))
    slots = {name: scale.text(scale.low + i * scale.step) for name, i in at.items()}
    reach = scale.step * (2 + draws.below(2))
    slots["D"] = scale.text(reach, unit=False) + _difference_unit(scale)
    slots["k"] = str(2 + draws.below(3))
    slots["r"], slots["s"] = draws.among(RATIOS)
    return slots


def _difference_unit(scale: Scale) -> str:
    unit = "K" if scale.kind.startswith("temperature") else scale.unit
    return f" {unit}" if unit else ""


def _members(thing: Members, draws: Draws) -> dict[str, str]:
    return dict(zip("abc", draws.mixed(thing.members), strict=True))


def _usual(thing: Scale | Members) -> Fraction | frozenset[str]:
    """The middle of a scale, or the first member."""
    if isinstance(thing, Members):
        return frozenset(thing.members[:1])
    return thing.low + thing.step * (thing.places // 2)


def _declared(thing: Scale | Members) -> str:
    if isinstance(thing, Members):
        return f"{thing.name}  any of {', '.join(thing.members)}"
    return f"{thing.name}  {thing.kind}"


__all__ = ["Composed", "Line", "compose", "filled", "room"]
