"""The part of a card that is worked out when it is asked for: on which things the readings disagree."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from scopecheck.core.model import Sheet
from scopecheck.foundations.record import record
from scopecheck.report.describe import value_text
from scopecheck.report.rereadings import break_text, group_words, presumed_stretch
from scopecheck.report.separating import Example, Extremes, Shown, Thing, shown_apart
from scopecheck.report.step_text import step_text, told_together
from scopecheck.report.wording import GLUE
from scopecheck.vocabulary.entry import Entry


@record
class Told:
    """The examples of one phrase: lines for each small sheet under a heading, and all of it as data."""

    parts: tuple[tuple[str, tuple[str, ...]], ...]
    data: dict[str, Any]
    instead_of: str
    """The phrase of the catalogue whose place an own one takes; '' for none."""


def told_apart(entry: Entry) -> Told:
    """Where the readings of a phrase part, for a card. Works with the solver: it takes a moment."""
    shown = shown_apart(entry)
    by_place: dict[str, list[Example | Extremes]] = {}
    every: tuple[Example | Extremes, ...] = (*shown.examples, *shown.extremes)
    for found in every:
        by_place.setdefault(_where(found), []).append(found)
    lines = tuple((where, tuple(_lines(at))) for where, at in by_place.items())
    general = tuple(_general(shown))
    instead_of = next((e.group.own.instead_of for e in shown.examples if e.group.own), "")
    return Told((*lines, ("", general)) if general else lines, _data(shown), instead_of)


def _where(at: Example | Extremes) -> str:
    lines = [line.strip() for line in at.occasion.declarations.splitlines()]
    kinds = [line.split("  ")[-1] for line in lines]
    names = [line.split("  ")[0] for line in lines]
    things = ", ".join(f"{name} ({kind})" for name, kind in zip(names, kinds, strict=True))
    return f'"{at.occasion.words}", said of {things}'


def _lines(found: Iterable[Example | Extremes]) -> Iterator[str]:
    """A line for each thing with all the readings that it parts, and one for each pair that nothing parts."""
    by_thing: dict[str, tuple[dict[str, None], dict[str, None]]] = {}
    others: list[str] = []
    for at in found:
        if isinstance(at, Extremes):
            others.append(_extremes_line(at))
        elif at.outcome != "parts":
            others.append(_not_parted(at))
        else:
            met, missed = by_thing.setdefault(_settings(at.sheet, at.thing), ({}, {}))
            itself = at.reading == at.against
            met_on, missed_on = (met, missed) if at.wider else (missed, met)
            met_on[_told(at, at.reading, True)] = None
            if not itself:
                missed_on[_told(at, at.against, False)] = None
    for thing, sides in by_thing.items():
        words = ("met when read as ", "not met when read as ")
        told = [f"{word}{' or as '.join(side)}" for word, side in zip(words, sides, strict=True) if side]
        yield f"{thing}: {'; '.join(told)}"
    yield from others


def _not_parted(example: Example) -> str:
    itself = example.reading == example.against
    reading, against = _told(example, example.reading, True), _told(example, example.against, itself)
    if example.outcome == "undecided":
        what = f"what changes when {reading} stretches" if itself else f"where {reading} and {against} part"
        return f"not decided {what} ({example.reason})"
    if itself:
        return f"what is met stays the same however far {reading} stretches"
    return f"nothing parts {reading} from {against}"


def _told(example: Example, label: str, stretched: bool) -> str:
    """A label and how far it stretches: from where on it matters, if `stretched`, else as presumed."""
    points = _breaks(example) if stretched else []
    g = example.group
    read = next(i for i, r in enumerate(g.readings) if r.label == label)
    itself = example.reading == example.against
    own = [p for p in example.sheet.parameters if (p.group, p.reading) == (g.index, read) and not itself]
    stretch = "; ".join(points or [presumed_stretch(example.sheet, p) for p in own])
    return f'"{label}" ({stretch})' if stretch else f'"{label}"'


def _breaks(example: Example) -> list[str]:
    words = group_words(example.group)
    return [_plain(break_text(example.sheet, b, words)) for b in example.breaks]


def _settings(sheet: Sheet, thing: Thing) -> str:
    values = {name: value for name, value in thing if name not in sheet.absent(dict(thing))}
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
