"""From forms and a trade to the text of a sheet: nouns and numbers are drawn, the words stay as they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from scopecheck.drill.draws import Draws
from scopecheck.drill.trades import Form, Members, Scale, Trade
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex

RATIOS = (("3:2", "5:2"), ("2:1", "3:1"), ("2:1", "4:1"), ("3:1", "4:1"))
_SHARED_UNIT = regex(r"\{([LP])\}(?= (?:and|to) \{[UQ]\})")


@record
class Line:
    """A limitation of a composed claim: what stands left of its colon, its words, how the claim says it."""

    subject: str
    words: str
    clause: str


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


def compose(
    trade: Trade, claims: Sequence[Sequence[Form]], tied: bool, draws: Draws, alike: bool = False
) -> Composed:
    """The forms said of things of the trade; those of claim 2 of the same things, in order, as in claim 1.

    With `tied`, the first amount is one of those that a form for two speaks of; with `alike` the second claim
    has the numbers of the first.
    """
    paired = any(f.of in ("pair", "beside") for forms in claims for f in forms)
    two = draws.mixed(trade.amounts[:2])
    free = [trade.amounts[2]] if paired else draws.mixed(trade.amounts)
    if tied:
        free = [two[0], trade.amounts[2]]
    about = [_things(form, trade, free, two) for form in claims[0]]
    drawn = [_slots(things, draws) for things in about]
    again = drawn if alike else [_slots(things, draws) for things in about]
    made = [tuple(map(_line, claims[0], about, drawn))]
    made += [tuple(map(_line, forms, about, again)) for forms in claims[1:]]
    used = [x for things in about for x in things]
    ordered = [x for x in (*trade.amounts, *trade.counts, *trade.sets) if x in used]
    usual = tuple((x.name, _usual(x)) for x in ordered)
    return Composed(tuple(map(_declared, ordered)), tuple(made), trade.thing, usual)


def filled(text: str, slots: Mapping[str, str]) -> str:
    """A wording with its slots filled; of two numbers in a row the first has no unit of its own."""
    return _SHARED_UNIT.sub(lambda m: slots[m[1]].split(" ")[0], text).format(**slots)


Things = tuple[Scale | Members, ...]


def _things(form: Form, trade: Trade, free: list[Scale], two: Sequence[Scale]) -> Things:
    """What a form is said of; an amount is taken from those that are free."""
    match form.of:
        case "amount":
            return (free.pop(0),)
        case "count":
            return trade.counts
        case "set":
            return trade.sets
        case "pair" | "beside":
            return tuple(two)


def _slots(things: Things, draws: Draws) -> dict[str, str]:
    """What fills the slots of a form said of these things."""
    first = things[0]
    if isinstance(first, Members):
        return _members(first, draws)
    slots = _numbers(first, draws)
    return slots | {"a": first.name, "b": things[1].name} if things[1:] else slots


def _line(form: Form, things: Things, slots: Mapping[str, str]) -> Line:
    words = filled(form.words, slots)
    subject = ", ".join(t.name for t in things) if form.of == "pair" else things[0].name
    clause = form.clause.format(noun=things[0].name, words=words)
    return Line(subject, words, clause)


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
