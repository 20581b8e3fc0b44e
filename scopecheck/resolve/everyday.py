"""Everyday spellings beside a quantity: "90 degrees" of an angle, "3 mm from the rim" of a distance."""

from __future__ import annotations

from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.language.scan import Token
from scopecheck.resolve.names import Bound, Typed

_ANGLE = (("angle", 1),)
_TEMPERATURE = (("temperature", 1),)
_DEGREES = ("degree", "degrees")
_PLACED = ("of", "from")


def with_degrees(tokens: tuple[Token, ...], subject: Bound, words: Span, name: str) -> tuple[Token, ...]:
    """`90 degrees` as one number where the subject, called `name`, is an angle.

    Beside a temperature the word leaves open which degrees: Trouble, at the number; beside anything else it
    stays a word.
    """
    kind = subject.kind if isinstance(subject, Typed) else None
    found: list[Token] = []
    for token in tokens:
        before = found[-1].number if found else None
        if token.text.lower() not in _DEGREES or before is None or before.unit is not None or kind is None:
            found.append(token)
        elif kind.dimension == _ANGLE:
            unit = find_unit("deg")
            number = found.pop()
            both = f"{number.text} {token.text}"
            found.append(replace(number, text=both, end=token.end, number=replace(before, unit=unit)))
        elif kind.dimension == _TEMPERATURE:
            raise trouble(
                Span(words.source, found[-1].start, token.end),
                f"'{before.text} {token.text}' may be in degC or in degF",
                "The words stay as they are in the claim; their meaning is said beside them.",
                f"write after the words: two blanks, exactly, facts such as {name} = {before.text} degC",
            )
        else:
            found.append(token)
    return tuple(found)


def with_parts_per(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`20 ppm` as one number where the subject is declared in parts per million on a basis; else as it is."""
    unit = subject.unit if isinstance(subject, Typed) else None
    found: list[Token] = []
    for token in tokens:
        before = found[-1].number if found else None
        per = unit is not None and token.text.lower() in ("ppm", "ppb")
        per = per and unit is not None and unit.symbol.startswith(token.text.lower() + "(")
        if not per or before is None or before.unit is not None:
            found.append(token)
            continue
        number = found.pop()
        both = f"{number.text} {token.text}"
        found.append(replace(number, text=both, end=token.end, number=replace(before, unit=unit)))
    return tuple(found)


def placed_at(tokens: tuple[Token, ...]) -> int:
    """Where `of the rim` or `away from the edge` begins after the only number with a unit; 0 if nowhere."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    if len(numbers) != 1 or not (number := tokens[numbers[0]].number) or number.unit is None:
        return 0
    places = [i for i, t in enumerate(tokens) if i > numbers[0] and t.text.lower() in _PLACED]
    if not places or places[0] + 1 >= len(tokens) or any(t.sort != "word" for t in tokens[places[0] :]):
        return 0
    return places[0] - (tokens[places[0] - 1].text.lower() == "away")
