"""The sentences of a report: data with placeholders, read once, filled in here.

Sheet text enters a sentence only through `quoted` or as a name, so that it can be told from the tool's own
words. A blank that must not be broken at a line's end is a no-break blank until a report is drawn.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

from scopecheck.foundations.data_files import data_file

GLUE = "\u00a0"
"""Holds a number and its unit on one line."""
_NUMBERS = tuple("no one two three four five six seven eight nine ten eleven twelve".split())


@cache
def sentences() -> dict[str, Any]:
    """The data file as read: tables of sentences."""
    found: dict[str, Any] = data_file("wording.json")
    return found


def sentence(*path: str, **values: object) -> str:
    """The sentence at this place of the data file, filled in. KeyError if it or a value for it is missing."""
    entry: Any = sentences()
    for step in path:
        entry = entry[step]
    if not isinstance(entry, str):
        raise KeyError(".".join(path))
    return entry.format(**values)


def has_sentence(*path: str) -> bool:
    """Is there a sentence at this place?"""
    entry: Any = sentences()
    for step in path:
        if not isinstance(entry, dict) or step not in entry:
            return False
        entry = entry[step]
    return isinstance(entry, str)


def about_lines() -> tuple[str, ...]:
    """What every report says once about itself."""
    return tuple(sentences()["about"]["lines"])


def flat(text: str) -> str:
    """Sheet text on one line: runs of blanks and line breaks become one blank, control characters vanish."""
    line = " ".join(text.split())
    return line if line.isprintable() else "".join(c for c in line if c.isprintable())


def upper_first(text: str) -> str:
    """The text with its first letter as a capital and the rest as it is; `pH` stays."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """The text with its first letter small and the rest as it is."""
    return text[:1].lower() + text[1:]


def quoted(text: str) -> str:
    """Words of the sheet in quotation marks, on one line."""
    return f'"{flat(text)}"'


def counted(number: int, noun: str) -> str:
    """`1 claim`, `4 claims`."""
    one, many = sentences()["noun"][noun]
    return f"{number}{GLUE}{one if number == 1 else many}"


def agreed(number: int, verb: str) -> str:
    """`asks` of one, `ask` of several."""
    one, many = sentences()["noun"][verb]
    return str(one if number == 1 else many)


def number_word(number: int) -> str:
    """`two`, `twelve`, `13`."""
    return _NUMBERS[number] if number < len(_NUMBERS) else str(number)


def listed(items: Iterable[str], last: str = "and") -> str:
    """`a, b and c`; empty for nothing."""
    found = list(items)
    if len(found) < 2:
        return "".join(found)
    return f"{', '.join(found[:-1])} {last} {found[-1]}"


def claims_text(numbers: Iterable[int]) -> str:
    """`claim 2`, `claims 2, 4 and 5`, runs of three and more drawn together: `claims 1 to 4 and 7`."""
    ordered = sorted(set(numbers))
    runs: list[list[int]] = []
    for number in ordered:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [
        part
        for run in runs
        for part in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run])
    ]
    noun = sentences()["noun"]["claim"][0 if len(ordered) == 1 else 1]
    return f"{noun} {listed(parts)}"
