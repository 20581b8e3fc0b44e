"""The catalogue for people: a list of its phrases, and a card for each phrase asked about."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import Any, Literal, assert_never

from scopecheck.commands.output import BAD_INPUT, complain, put
from scopecheck.commands.phrase_search import (
    entries_for,
    in_order,
    is_of_a_sort,
    mentioning,
    nearest_words,
    read_as,
)
from scopecheck.foundations.regex import regex
from scopecheck.matching.practice import loaded
from scopecheck.report.plain_formula import plain_formula
from scopecheck.report.wording import has_sentence, number_word, sentence
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import PROFILES, Entry, EntryReading

GROUPS = {
    "A": "Ends of ranges and one-sided limits",
    "B": "Degree and approximation",
    "C": "Rounding and precision",
    "D": "Units and basis",
    "E": "Averages and distributions",
    "F": "Counting and quantifying",
    "G": "Alternatives, sets, open and closed lists",
    "H": "Arithmetic and relations",
    "I": "Geometry",
    "J": "Time and sequence",
    "K": "What is measured, where, when and how",
    "L": "Words that settle it",
}
OWN = "Own phrases"
WIDTH = 96
Format = Literal["text", "markdown", "json"]


def show_phrases(words: Sequence[str], format: Format, file: str = "") -> int:
    """The command `phrases`: the list, or cards for the words; returns the exit status.

    `file` is the path of a phrase file, '' for none.
    """
    own = _own_phrases(file) if file else ()
    if own is None:
        return BAD_INPUT
    if not words:
        put(listing(in_order(own), format))
        return 0
    found = entries_for(words, own)
    in_a_list = is_of_a_sort(words)
    if not found:
        found = mentioning(words, own)
        in_a_list = len(found) > 1
    if not found:
        found = read_as(" ".join(words))
        in_a_list = False
    if not found:
        near = nearest_words(words, own)
        help = f"the nearest words: {', '.join(near)}" if near else "scopecheck phrases shows the whole list"
        complain(f"error: no phrase has the words '{' '.join(words)}'\n  help: {help}")
        return BAD_INPUT
    put(listing(found, format) if in_a_list else cards(found, format))
    return 0


def _own_phrases(file: str) -> tuple[Entry, ...] | None:
    """The phrases of a phrase file; None once what is wrong with it was drawn."""
    from scopecheck.commands.check import draw_all, phrase_file  # the solver is slow to load
    from scopecheck.report.alike import readings_alike

    sources, wrong = phrase_file(file)
    for source in sources:
        wrong += loaded(source).wrong or tuple(readings_alike((source,)))
    draw_all(wrong)
    if any(d.severity == "error" for d in wrong):
        return None
    return tuple(e for source in sources for e in loaded(source).entries)


# ---- the list


def listing(found: Sequence[Entry], format: Format) -> str:
    """Every entry on one line, by group."""
    if format == "json":
        return _dumped({"schema_version": 1, "phrases": [_data(e) for e in found]})
    lines: list[str] = []
    group = ""
    column = max((len(_name(e)) for e in found), default=0)
    for e in found:
        if (e.file or e.id[:1]) != group:
            group = e.file or e.id[:1]
            title = f"{OWN} ({e.file})" if e.file else f"{group}  {GROUPS.get(group, '')}".strip()
            lines += ["", f"## {title}" if format == "markdown" else title, ""]
        count = f"{len(e.readings)} reading{'s' if len(e.readings) != 1 else ''}"
        count += f", only for {', '.join(e.only_for)}" if e.only_for and _has_twin(e) else ""
        if format == "markdown":
            lines.append(f"- {_name(e)}: `{e.title}` ({count})")
        else:
            lines.append(f"  {_name(e).ljust(column)}  {e.title}  ({count})")
    return "\n".join(lines[1:]) + "\n"


def _name(entry: Entry) -> str:
    """The id of a phrase; one of the practice's own may have none."""
    return entry.id or "own"


def _has_twin(entry: Entry) -> bool:
    """Is there another entry of the same wording, for other quantities?"""
    return any(e.title == entry.title and e is not entry for e in entries())


# ---- cards


def cards(found: Sequence[Entry], format: Format) -> str:
    """A card for each entry, with things on which its readings disagree, which are looked for now."""
    from scopecheck.commands.phrase_examples import told_apart  # the solver is slow to load

    told = [(e, told_apart(e)) for e in found]
    match format:
        case "json":
            data = [{**_data(e), "told_apart": examples.data} for e, examples in told]
            return _dumped({"schema_version": 1, "phrases": data})
        case "text" | "markdown":
            return "\n".join(_card(e, x.parts, x.instead_of, format == "markdown") for e, x in told)
        case _:
            assert_never(format)


def _card(
    entry: Entry, examples: Sequence[tuple[str, Sequence[str]]], instead_of: str, markdown: bool
) -> str:
    title = f"{_name(entry)}  {entry.title}"
    lines = [f"## {_name(entry)}: `{entry.title}`", ""] if markdown else [title, "=" * len(title)]
    if entry.file:
        lines += _line("own phrase", f"{entry.file}, line {entry.span.line}", markdown)
    if instead_of:
        lines += _line("takes the place of", instead_of, markdown)
    for wording in (p.text for p in entry.patterns if p.text != entry.title):
        lines += _line("wording", f"`{wording}`" if markdown else wording, markdown)
    if entry.subjects:
        lines += _line("left of the colon", ", ".join(s.replace("_", " ") for s in entry.subjects), markdown)
    if entry.where is not None:
        lines += _line("where", plain_formula(entry.where.text), markdown)
    if entry.only_for:
        lines += _line("only for", ", ".join(entry.only_for), markdown)
    if entry.each_has:
        lines += _line("each of them has", entry.each_has, markdown)
    lines += ["", "Readings", ""] if not markdown else ["", "### Readings", ""]
    for reading in entry.readings:
        lines += _reading(entry, reading, markdown)
    lines += _examples(examples, markdown)
    if entry.exact_wording:
        lines += _line("more exact wording", entry.exact_wording, markdown)
    if entry.ask:
        lines += _line("asked of the drafter", entry.ask, markdown)
    for source in entry.sources:
        lines += _line("source", f"{source.text} [{source.tag}]", markdown)
    return "\n".join(lines) + "\n"


def _examples(parts: Sequence[tuple[str, Sequence[str]]], markdown: bool) -> Iterator[str]:
    yield from ("", "### Where they part" if markdown else "Where they part", "")
    for where, lines in parts:
        if where:
            yield from _wrapped(where, "", markdown)
        indent = "  " if where else ""
        for line in lines:
            yield from _wrapped(f"- {line}" if not markdown or where else line, indent, markdown)
    yield ""


def _wrapped(text: str, indent: str, markdown: bool) -> list[str]:
    if markdown:
        return [f"{indent}{'' if text.startswith('- ') else '- '}{text}"]
    lead = f"  {indent}"
    below = f"{lead}    " if text.startswith("- ") else lead
    return wrap(text, WIDTH, initial_indent=lead, subsequent_indent=below, break_on_hyphens=False)


def _line(word: str, text: str, markdown: bool, indent: int = 0) -> list[str]:
    flat = " ".join(text.split())
    if markdown:
        return [f"{' ' * indent}- *{word}:* {flat}"]
    lead = " " * (indent + 2) + f"{word}: "
    below = " " * (indent + 6)
    return wrap(flat, WIDTH, initial_indent=lead, subsequent_indent=below, break_on_hyphens=False)


def _reading(entry: Entry, reading: EntryReading, markdown: bool) -> list[str]:
    formula = _meaning(entry, reading) if reading.formula is not None else "not computed"
    head = f'"{reading.label}": {formula}'
    lines = [f"- {head}"] if markdown else wrap(
        head, WIDTH, initial_indent="  - ", subsequent_indent="      ", break_on_hyphens=False
    )  # fmt: skip
    if reading.formula is not None:
        lines += _line("standing", _standings(entry, reading.label), markdown, 2)
    for word, text in _conditions(reading):
        lines += _line(word, text, markdown, 2)
    if reading.taken_by:
        lines += _line("taken by", reading.taken_by, markdown, 2)
    if reading.axes:
        lines += _line("set by the policy", "; ".join(_axis(a, v) for a, v in reading.axes), markdown, 2)
    if reading.exact_wording:
        lines += _line("more exact wording", reading.exact_wording, markdown, 2)
    return lines


def _meaning(entry: Entry, reading: EntryReading) -> str:
    """The formula for people; a limit c on one of several things is told as `dry: c`."""
    limits = {slot.name for pattern in entry.patterns for slot in pattern.slots if slot.kind == "limit"}
    text = reading.formula_text
    for subject in entry.subjects:
        for limit in limits:
            text = re.sub(rf"\b{subject}_{limit}\b", f"{subject.replace('_', ' ')}: {limit}", text)
    return _NAME_OF_A_FORMULA.sub(_in_words, plain_formula(text))


_NAME_OF_A_FORMULA = regex(r"\b[a-z]+_\w+\b")


def _in_words(name: re.Match[str]) -> str:
    """What a formula's own name stands for: `mean_c`, the limit c on their mean."""
    if has_sentence("of_formulas", name[0]):
        return sentence("of_formulas", name[0])
    whose, _, limit = name[0].rpartition("_")
    return f"{whose.replace('_', ' ')}: {limit}"


def _axis(axis: str, value: str) -> str:
    return f"{axis} {'are' if axis.endswith('s') and axis != 'basis' else 'is'} {value}"


def _conditions(reading: EntryReading) -> Iterator[tuple[str, str]]:
    if reading.written.only_for:
        yield "only for", ", ".join(reading.written.only_for)
    for raw in reading.written.only_when:
        yield "only when", plain_formula(raw.text)
    for free in reading.written.free:
        bounds = ", ".join(raw.text for raw in free.bounds)
        presumed = f", presumed {free.presumed.text}" if free.presumed else ""
        yield "left open", f"{free.name}, with {bounds}{presumed}" if bounds else free.name


def _standings(entry: Entry, label: str) -> str:
    """`presumed in US examination and US court; arguable in EPO`."""
    by_standing: dict[str, list[str]] = {}
    for profile in PROFILES:
        by_standing.setdefault(_standing(entry, label, profile), []).append(profile)
    if len(by_standing) == 1:
        (standing,) = by_standing
        return f"{standing}{',' * (',' in standing)} in every profile"
    told = (f"{s}{',' * (',' in s)} in {' and '.join(where)}" for s, where in by_standing.items())
    return "; ".join(told)


def _standing(entry: Entry, label: str, profile: str) -> str:
    """The standing; where nothing is presumed in the profile no presumption is known."""
    standing = entry.standing(label, profile)
    named = entry.presumed.get(profile, ())
    # Of those that are only for some quantities one applies at a place.
    alike = [r.label for r in entry.readings if r.label in named and not _is_restricted(r)]
    if len(alike) > 1 and label in alike:
        return sentence("reading", "presumed_too", count=number_word(len(alike)))
    if standing != "presumed" or label in named:
        return standing
    written = next(r for r in entry.readings if r.label == label).written.standings
    return standing if any(s == "presumed" for s, _ in written) else "no presumption known"


def _is_restricted(reading: EntryReading) -> bool:
    return bool(reading.written.only_for or reading.written.only_when)


# ---- data


def _data(entry: Entry) -> dict[str, Any]:
    return {
        "id": entry.id,
        "file": entry.file,
        "line": entry.span.line if entry.file else None,
        "group": entry.group,
        "wordings": [p.text for p in entry.patterns],
        "where": entry.where.text if entry.where is not None else "",
        "subjects": list(entry.subjects),
        "only_for": list(entry.only_for),
        "each_has": entry.each_has,
        "readings": [_reading_data(entry, r) for r in entry.readings],
        "sources": [{"text": s.text, "tag": s.tag} for s in entry.sources],
        "more_exact_wording": entry.exact_wording,
        "asked_of_the_drafter": entry.ask,
    }


def _reading_data(entry: Entry, r: EntryReading) -> dict[str, Any]:
    computed = r.formula is not None
    return {
        "label": r.label,
        "formula": r.formula_text if computed else None,
        "meaning": _meaning(entry, r) if computed else None,
        "standing": {p: _standing(entry, r.label, p) for p in PROFILES} if computed else None,
        "conditions": [{"sort": sort, "text": text} for sort, text in _conditions(r)],
        "taken_by": r.taken_by,
        "axes": dict(r.axes),
        "more_exact_wording": r.exact_wording,
    }


def _dumped(data: dict[str, Any]) -> str:
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"
