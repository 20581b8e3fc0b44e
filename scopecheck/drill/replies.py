"""Answers as typed: things in the language of sheets, letters, labels, amounts, words; mistakes located."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Value
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.drill.bench import Bench
from scopecheck.drill.exercise import Unreadable
from scopecheck.foundations.diagnostics import Diagnostic, did_you_mean
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span
from scopecheck.report.wording import listed, sentence
from scopecheck.resolve.sheet import read_sheet

NAME = "your answer"
_NONE = ("none", "no", "nothing", "there is none")
_LETTERS = regex(r"[\s,;]+|\band\b", re.IGNORECASE)
_SIGNS = regex(r"[<>=≤≥≠]|\bIS WHOLE\b|\bIN\b|\bMOD\b|\b(?:ONE|EVERY|SOME)\(|\bTRUE\b")
MOST = 2000
"""Characters of an answer."""


def one_line(text: str) -> str:
    """An answer on one line, without what a terminal may have slipped in. Raises Unreadable if empty."""
    line = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    if not line:
        raise Unreadable(sentence("drill", "reply", "empty"))
    if len(line) > MOST:
        raise Unreadable(sentence("drill", "reply", "long", most=MOST))
    return line


def is_none(text: str) -> bool:
    """Is the answer that there is none?"""
    return text.strip(" .!").lower() in _NONE


def thing(bench: Bench, text: str, start: Article) -> Article:
    """The thing typed; what it leaves out is as in the thing to start from. Raises Unreadable."""
    head = f"{bench.text.rstrip()}\n\nclass\n  {NAME} : "
    sheet = _read(head, text, bench.sheet)
    case = next(c for c in sheet.cases if c.name == NAME)
    values = stated_values(sheet, case)
    unsettled = [n for n in case.stated if n not in values]
    if unsettled or case.groups or not values:
        names = listed(unsettled) or sentence("drill", "reply", "it")
        raise Unreadable(sentence("drill", "reply", "not_one", names=names))
    return {**start, **values}


def _read(head: str, text: str, sheet: Sheet, tail: str = "\n") -> Sheet:
    """The sheet with the answer in its place. Raises Unreadable with the message at the answer."""
    # The name of the sheet tells where its phrase file stands.
    found, diagnostics = read_sheet(Source(sheet.source_name, head + text + tail))
    errors = [d for d in diagnostics if d.severity == "error"]
    if found is None or errors:
        raise Unreadable("\n".join(draw(_known(_moved(d, text, len(head)), sheet)) for d in errors[:2]))
    return found


def _moved(d: Diagnostic, text: str, start: int) -> Diagnostic:
    """The message with its place in the answer alone."""
    source = Source(NAME, text)
    at = max(0, min(d.span.start - start, len(text)))
    end = max(at, min(d.span.end - start, len(text)))
    return replace(d, span=Span(source, at, end), also=())


def _known(d: Diagnostic, sheet: Sheet) -> Diagnostic:
    """With the names that there are in place of advice to declare another one."""
    if not d.help.startswith("declare it"):
        return d
    return replace(
        d, help=sentence("drill", "reply", "names", names=listed(x.name for x in sheet.declarations))
    )


def picks(text: str, known: Sequence[str]) -> tuple[str, ...]:
    """The letters or labels typed, in the order known. Raises Unreadable at any other word."""
    by_small = {k.lower(): k for k in known}
    words = [w for w in _LETTERS.split(text.strip(" .")) if w]
    for word in words:
        if word.lower() not in by_small:
            help = did_you_mean(word, known) or sentence(
                "drill", "reply", "choose", known=listed(known, "or")
            )
            raise Unreadable(sentence("drill", "reply", "unknown", word=word, help=help))
    found = {by_small[w.lower()] for w in words}
    if not found:
        raise Unreadable(sentence("drill", "reply", "empty"))
    return tuple(k for k in known if k in found)


def amount(bench: Bench, text: str, name: str, start: Article) -> Fraction:
    """The value typed for one quantity: `4.5 mm`, or `diameter = 4.5 mm`. Raises Unreadable."""
    written = text if _SIGNS.search(text) else f"{name} = {text}"
    value: Value = thing(bench, written, start)[name]
    assert isinstance(value, Fraction)
    assert isinstance(bench.sheet.declaration(name), NumberDecl)
    return value


def reworded(bench: Bench, limitation: Limitation, text: str) -> tuple[Sheet, Limitation]:
    """A sheet that ends in a claim saying of the same subject what was typed, and that limitation.

    Raises Unreadable.
    """
    number = max(c.number for c in bench.sheet.claims) + 1
    signs = bool(_SIGNS.search(text))
    said = "" if signs else text
    subject = "" if signs else f"{limitation.subject} : "
    head = f"{bench.text.rstrip()}\n\n{number}. A thing: {said}.\n   | {subject}"
    sheet = _read(head, text, bench.sheet)
    return sheet, sheet.claim(number).limitations[0]
