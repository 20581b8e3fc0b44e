"""A sheet with one claim and one limitation, made in memory from what was asked on the command line."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeAlias

from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import find_unit, kind_word
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.pieces import find_colon
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import Declare
from scopecheck.resolve.sheet import read_sheet

Reads: TypeAlias = Callable[[str], bool]
NAME = "the sheet made from the options"
_SIGNS = regex(r"[<>=≤≥≠]|\bIS WHOLE\b|\bIN\b")


@record
class Wish:
    """What is to be looked at: the limitation, what it speaks of, and what is known to be in or out.

    `phrases` is the path of a phrase file, '' for none.
    """

    limitation: str
    declare: tuple[str, ...] = ()
    meant: str = ""
    inside: tuple[str, ...] = ()
    outside: tuple[str, ...] = ()
    given: tuple[str, ...] = ()
    profile: str = "US"
    show: str = ""
    phrases: str = ""


def sheet_source(wish: Wish) -> Source:
    """The sheet's text. Raises Trouble where it is not said what the words are about."""
    declared = _lines(wish.declare)
    names = _names(declared)
    words = _one_line(wish.limitation)
    lines = [f"profile  {_one_line(wish.profile)}", "", *declared, ""]
    lines += [f"given  {_one_line(facts)}" for facts in wish.given]

    def reads(left: str) -> bool:
        said = f"1. A thing of this kind: {words}.\n   | {left} : {words}\n"
        made, found = read_sheet(Source(NAME, "\n".join((*lines, "", said))))
        return made is not None and not any(d.severity == "error" for d in found)

    subject, words = _subject_and_words(words, names, reads)
    restated = f"{subject} : {words}" if subject else words
    meant = f"  meant {_one_line(wish.meant)}" if wish.meant.strip() else ""
    lines += ["", f"1. A thing of this kind: {words.replace('...', ' ')}.", f"   | {restated}{meant}", ""]
    for heading, cases in (("inside", wish.inside), ("must stay out", wish.outside)):
        if cases:
            role = "inside" if heading == "inside" else "outside"
            lines.append(heading)
            lines += [f"  {_case(text, f'{role} {n}', names)}" for n, text in enumerate(cases, 1)]
            lines.append("")
    return Source(NAME, "\n".join(lines) + "\n")


def _one_line(text: str) -> str:
    # Tabs and runs of blanks separate a name from its kind, so they stay; line ends would begin a statement.
    return re.sub(r"\s*[\n\r\v\f\x85\u2028\u2029]+\s*", " ", text).strip()


def _lines(declare: tuple[str, ...]) -> list[str]:
    """The declarations, line by line: what is indented below what may have lines of its own belongs to it."""
    lines: list[str] = []
    for text in declare:
        first, *below = _ENDS.split(text.strip("\n\r")) or [""]
        pieces = [first]
        for line in below:
            if line[:1].isspace() and line.strip():
                pieces.append(line)
            else:
                pieces[-1] += f" {line}"
        head = next((line for line in reversed(lines) if not line.startswith(" ")), "")
        own = _WITH_FIELDS.search(head) is not None and first[:1].isspace()
        lines += [f"{'  ' * (own or i > 0)}{_one_line(piece)}" for i, piece in enumerate(pieces)]
    return lines


_ENDS = regex(r"[\n\r\v\f\x85\u2028\u2029]+")
_WITH_FIELDS = regex(r"\b(?:part|step|composition|assembly|any of|one of)\b")


def _names(declared: list[str]) -> list[str]:
    """The names the declarations declare. Raises Trouble at a declaration that cannot be read."""
    source = Source("the declarations", "\n".join(declared))
    sheet, diagnostics = parse_sheet(source) if declared else (None, ())
    for diagnostic in diagnostics:
        raise Trouble(diagnostic)
    statements = sheet.statements if sheet else ()
    return [name.name for s in statements if isinstance(s, Declare) for name in s.names]


def _lefts(text: str, names: list[str]) -> list[str]:
    """What may stand left of the colon, the likeliest first: what the words do not name is what they limit.

    So the stroke of 'twice the pull-out', alone or before the pull-out.
    """
    said = [name for name in names if re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE)]
    others = [name for name in names if name not in said]
    if not said:
        return [*others, ", ".join(names)]
    places = sorted(said, key=lambda name: text.lower().find(name.lower()))
    beside = ", ".join(places)
    return [*others, *(f"{name}, {beside}" for name in others), beside, *places]


def _subject_and_words(text: str, names: list[str], reads: Reads) -> tuple[str, str]:
    """What is measured ('' for a line in symbols alone) and the words about it.

    `reads` tells whether a line with something left of its colon is read.
    """
    place = Span(Source("the limitation", text), 0, len(text))
    if not text:
        raise trouble(
            Span(Source("the limitation", ""), 0, 0), "no words were given", "", 'such as "divisible by 6"'
        )
    colon = find_colon(text, 0, len(text))
    if colon >= 0 and not text[colon + 1 :].strip():
        raise trouble(place, "no words stand right of the colon", "", 'such as "holes : divisible by 6"')
    if colon >= 0 and text[:colon].strip():
        return text[:colon].strip(), text[colon + 1 :].strip()
    if colon >= 0:
        text = text[colon + 1 :].strip()
    if _SIGNS.search(text):
        return "", text
    if len(names) == 1:
        return names[0], text
    if names:
        left = next((left for left in _lefts(text, names) if reads(left)), "")
        sample = f': "{left} : {text}"' if left else f' (of none of them by itself a phrase reads "{text}")'
        raise trouble(
            place,
            "which of the quantities are these words about?",
            f"Several are declared: {', '.join(names)}.",
            f"write the quantity, a colon and the words{sample}",
        )
    raise _undeclared(place, text)


def _undeclared(place: Span, text: str) -> Trouble:
    units = [find_unit(word) for word in re.findall(r"\d\s?([^\s\d,;]+)", text)]
    unit = next((u for u in reversed(units) if u is not None), None)
    kind = "count"
    if unit is not None:
        word = unit.kind.name if kind_word(unit.kind.name) else "share" if not unit.kind.dimension else ""
        kind = f"{word} in {unit.symbol}".strip()
    return trouble(
        place,
        "what are these words about?",
        "No quantity is declared.",
        f'declare it: --declare "size  {kind}"; with its bounds, if any: --declare "holes  count, >= 1"',
    )


def _case(text: str, name: str, names: list[str]) -> str:
    """A row in facts: `name : facts`, the facts alone, or the bare value of the only quantity."""
    line = _one_line(text)
    colon = find_colon(line, 0, len(line))
    if colon >= 0:
        return f"{line[:colon].strip()} : {line[colon + 1 :].strip()}"
    if len(names) == 1 and not _SIGNS.search(line):
        return f"{name} : {names[0]} = {line}"
    return f"{name} : {line}"
