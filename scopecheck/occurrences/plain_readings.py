"""A reading in plain words: its formula with what fills its slots, as a person would say it."""

from __future__ import annotations

import re
from fractions import Fraction

from scopecheck.core.declared import Step
from scopecheck.core.formula import Chosen, Includes
from scopecheck.core.model import set_apart
from scopecheck.foundations.regex import regex
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.occurrences.occurrence import Occurrence
from scopecheck.vocabulary.entry import EntryReading
from scopecheck.vocabulary.names import Listed, Typed


def plain(reading: EntryReading, at: Occurrence) -> str:
    """The meaning of a reading with the slots filled in."""
    return plain_text(reading.formula_text, at, frozenset(f.name for f in reading.written.free))


_NAME = regex(r"(?<![\w.])[^\W\d_][\w']*(?:-[\w']+)*")
"""A name of a formula, which is one word of letters as in scan.py."""
_EACH = regex(r"\b(EVERY|SOME|ONE)\((\w+)\)")
_ALL_BESIDE = regex(r"\b(\w+) WITHOUT (\{[^}]*\}|\w+)")
_NOTHING_BESIDE = regex(r"\b(\w+) WITHOUT (\{[^}]*\}|\w+) = 0\b")
_PUT_ASIDE = regex(r"\0(\d+)\0")
_PLACE = regex(r"\b(PLACE|FIGURE)\((\w+)\)")
_PLACE_IN_OTHER = regex(r"\bPLACE\((\w+), (\w+)\)")
_QUANTIFIERS = {"EVERY": "every one of", "SOME": "at least one of", "ONE": "exactly one of"}


def with_places_allowed(text: str) -> str:
    """`PLACE(N, M)` in words."""
    return _PLACE_IN_OTHER.sub(r"the place of \2 that \1 allows", text)


def plain_text(text: str, at: Occurrence, free: frozenset[str] = frozenset()) -> str:
    """A formula's text with the slots' own texts in place of their names, its `free` numbers by letters."""

    def listed(match: re.Match[str]) -> str:
        slot = at.slots.get(match.group(2))
        if not isinstance(slot, Listed):
            return match.group()
        if len(slot.conditions) == 1 and not (slot.members or slot.there):
            return slot.text  # a single limit, of which there are no several
        members = slot.text.replace(", and ", " and ").replace(", or ", " or ")
        if len(slot.members) == 1 and not re.search(r",| (?:and|or) ", members):
            return _that_it_is(slot, members)
        # In braces where the list would run into what stands beside it.
        joined = match.group() != match.string and re.search(r" (?:and|or) ", members) is not None
        several = ("," in members and not members.startswith("{")) or joined
        return f"{_QUANTIFIERS[match.group(1)]} {f'{{{members}}}' if several else members}"

    places: list[str] = []

    def place(match: re.Match[str]) -> str:
        slot = at.slots.get(match.group(2))
        if isinstance(slot, Typed) and slot.number and slot.unit and slot.number.has_places:
            zeros = slot.number.zeros if match.group(1) == "FIGURE" else 0
            places.append(_step_text(slot.number.decimals - zeros, slot.unit.symbol))
        else:
            of = at.shown.get(match.group(2), match.group(2))
            figure = "the greater figure of " if ":" in of else ""
            places.append(f"the last written place of {figure}{of}")
        return f"\0{len(places) - 1}\0"

    def beside(names: str) -> str:
        named = names.strip("{}").replace("RECITED", at.shown.get("RECITED", "RECITED"))
        said = [name.strip() for name in named.split(",")]
        if len(said) == 1:
            return said[0]
        first = ", ".join(at.shown.get(name, name) for name in said[:-1])
        return f"({first.replace(', and ', ', ').replace(' and ', ', ')} and {said[-1]})"

    text = _without_certain(_EACH.sub(listed, text), at)
    text = with_places_allowed(_PLACE.sub(place, text))
    text = _NOTHING_BESIDE.sub(lambda m: f"nothing in {m[1]} beside {beside(m[2])}", text)
    text = _ALL_BESIDE.sub(lambda m: f"all that is in {m[1]} beside {beside(m[2])}", text)

    def value(match: re.Match[str]) -> str:
        shown = at.shown.get(match.group())
        if shown is None:
            return set_apart(match.group()) if match.group() in free & things else match.group()
        before, behind = text[: match.start()].rstrip()[-1:], text[match.end() :].lstrip()[:1]
        beside = before in ("*", "/", "-") or behind in ("*", "/")
        if (beside or "+" in (before, behind) or behind == "-") and shown.lower() in NUMBER_WORDS:
            return str(NUMBER_WORDS[shown.lower()])  # `two + 1` is no formula that people write
        denied = text[: match.start()].rstrip().endswith("NOT") and " " in shown
        return f"({shown})" if denied or (beside and re.search(r" [-+*/] ", shown)) else shown

    things = {w for name, said in at.shown.items() if not _is_number(at, name) for w in said.split()}
    # What a unit is called may be the name of a slot: a place is filled in after the names.
    filled = _NAME.sub(value, text) if at.shown else text
    return _PUT_ASIDE.sub(lambda m: places[int(m[1])], _OF_TWO.sub(_picked, filled))


def _is_number(at: Occurrence, name: str) -> bool:
    slot = at.slots.get(name)
    return isinstance(slot, Typed) and slot.number is not None


def _that_it_is(slot: Listed, member: str) -> str:
    """Of a list of one: `pump = on` of a choice, `copper in metal` of a set, `tin there` of a share."""
    member = _ARTICLE.sub("", member)
    match slot.conditions[0]:
        case Chosen(name):
            return f"{name} = {member}"
        case Includes(name):
            return f"{member} in {name}"
        case _:
            return f"{member} there"


_NUMBER = r"(\d+(?:\.\d+)?(?:[:/]\d+(?:\.\d+)?)?)"
_ARTICLE = regex(r"^(?:an?|the) (?=\w\w)")
_OF_TWO = regex(rf"\b(LEAST|GREATEST)\({_NUMBER}( [^\s(),]+)?, {_NUMBER}( [^\s(),]+)?\)")


def _picked(match: re.Match[str]) -> str:
    """The lesser or the greater of two numbers written in one unit, as it is written."""
    if match[3] != match[5]:
        return match[0]

    def value(text: str) -> Fraction:
        above, _, below = text.replace(":", "/").partition("/")
        return Fraction(above) / Fraction(below or "1") if Fraction(below or "1") else Fraction(0)

    pick = min if match[1] == "LEAST" else max
    return pick((match[2], match[4]), key=value) + (match[3] or "")


_OF_STEP = regex(r"\b(DONE|START|END)\((\w+)\)(, (?=\S))?")


def _without_certain(text: str, at: Occurrence) -> str:
    """Without saying that a step is done which always is; an event's start and end are the event itself."""

    def said(match: re.Match[str]) -> str:
        step = at.slots.get(match[2])
        if match[1] == "DONE":
            certain = isinstance(step, Step) and not step.done and match[3]
            return "" if certain else match[0]
        return f"{match[2]}{match[3] or ''}" if isinstance(step, Step) and not step.duration else match[0]

    return _OF_STEP.sub(said, text)


def _step_text(decimals: int, symbol: str) -> str:
    digits = f"0.{'0' * (decimals - 1)}1" if decimals > 0 else "1" + "0" * -decimals
    return f"{digits} {symbol}".strip()
