"""The part of a card that is worked out when it is asked for: on which things the readings disagree."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from scopecheck.core.model import Sheet
from scopecheck.foundations.record import record
from scopecheck.report.describe import value_text
from scopecheck.report.rereadings import break_text, group_words, presumed_stretch
from scopecheck.report.separating import Example, Extremes, Shown, Thing, shown_apart
from scopecheck.report.step_text import step_text, told_together
from scopecheck.report.wording import GLUE
from scopecheck.resolve.entry import Entry


@record
class Told:
    """The examples of one phrase: lines for each small sheet under a heading, and all of it as data."""

    parts: tuple[tuple[str, tuple[str, ...]], ...]
    data: dict[str, Any]


def told_apart(entry: Entry) -> Told:
    """Where the readings of a phrase part, for a card. Works with the solver: it takes a moment."""
    shown = shown_apart(entry)
    parts: dict[str, list[str]] = {}
    for example in shown.examples:
        parts.setdefault(_where(example), []).append(_line(example))
    for extremes in shown.extremes:
        parts.setdefault(_where(extremes), []).append(_extremes_line(extremes))
    general = list(_general(shown))
    lines = tuple((where, tuple(found)) for where, found in parts.items())
    return Told((*lines, ("", tuple(general))) if general else lines, _data(shown))


def _where(at: Example | Extremes) -> str:
    lines = [line.strip() for line in at.occasion.declarations.splitlines()]
    kinds = [line.split("  ")[-1] for line in lines]
    names = [line.split("  ")[0] for line in lines]
    things = ", ".join(f"{name} ({kind})" for name, kind in zip(names, kinds, strict=True))
    return f'"{at.occasion.words}", said of {things}'


def _line(example: Example) -> str:
    itself = example.reading == example.against
    reading, against = _told(example, example.reading, True), _told(example, example.against, itself)
    if example.outcome == "undecided":
        what = f"what changes when {reading} stretches" if itself else f"where {reading} and {against} part"
        return f"not decided {what} ({example.reason})"
    if example.outcome == "alike":
        if itself:
            return f"what is met stays the same however far {reading} stretches"
        return f"nothing parts {reading} from {against}"
    thing = _settings(example.sheet, example.thing)
    if itself:
        return f"{thing}: {'' if example.wider else 'not '}met when read as {reading}"
    met, missed = (reading, against) if example.wider else (against, reading)
    return f"{thing}: met when read as {met}; not met when read as {missed}"


def _told(example: Example, label: str, stretched: bool) -> str:
    """A label and how far it stretches: from where on it matters, if `stretched`, else as presumed."""
    points = _breaks(example) if stretched else []
    g = example.group
    read = next(i for i, r in enumerate(g.readings) if r.label == label)
    itself = example.reading == example.against
    own = [p for p in example.sheet.parameters if (p.group, p.reading) == (g.index, read) and not itself]
    return ", ".join([f'"{label}"', *(points or [presumed_stretch(p) for p in own])])


def _breaks(example: Example) -> list[str]:
    words = group_words(example.group)
    return [_plain(break_text(example.sheet, b, words)) for b in example.breaks]


def _settings(sheet: Sheet, thing: Thing) -> str:
    values = dict(thing)
    return ", ".join(
        _plain(step_text(sheet, step, names, values))
        if step
        else f"{names[0]} = {_plain(value_text(sheet, names[0], values[names[0]]))}"
        for step, names in told_together(sheet, values, {})
    )


def _plain(text: str) -> str:
    return text.replace(GLUE, " ")


def _extremes_line(x: Extremes) -> str:
    told = [_settings(x.sheet, thing) for thing in x.things]
    things = " and ".join(f"({text})" if ", " in text else text for text in told)
    end = ", and there is no end" if x.endless else ""
    return f'{things} both meet "{x.reading}", each for some value of the number it leaves open{end}'


def _general(shown: Shown) -> Iterator[str]:
    if shown.alone:
        yield "One computed reading only, so nothing parts."
    for label in shown.apart:
        yield f'"{label}" is the only reading of the things that it fits.'
    for label in shown.untried:
        yield f'"{label}" fits none of the things it was tried on.'


# ---- data


def _data(shown: Shown) -> dict[str, Any]:
    return {
        "examples": [_example_data(e) for e in shown.examples],
        "most_different": [
            {
                **_occasion_data(x),
                "reading": x.reading,
                "things": [_values(x.sheet, thing) for thing in x.things],
                "endless": x.endless,
            }
            for x in shown.extremes
        ],
        "without_another": list(shown.apart),
        "not_tried": list(shown.untried),
    }


def _example_data(e: Example) -> dict[str, Any]:
    return {
        **_occasion_data(e),
        "reading": e.reading,
        "against": e.against,
        "outcome": e.outcome,
        "thing": _values(e.sheet, e.thing) if e.outcome == "parts" else None,
        "met_on": (e.reading if e.wider else e.against) if e.outcome == "parts" else None,
        "not_met_on": (e.against if e.wider else e.reading) if e.outcome == "parts" else None,
        "break_points": _breaks(e),
        "reason": e.reason,
    }


def _occasion_data(at: Example | Extremes) -> dict[str, Any]:
    declared = at.occasion.declarations.splitlines()
    return {"words": at.occasion.words, "said_of": declared, "left_of_the_colon": at.occasion.subjects}


def _values(sheet: Sheet, thing: Thing) -> dict[str, str]:
    return {name: _plain(value_text(sheet, name, value)) for name, value in thing}
