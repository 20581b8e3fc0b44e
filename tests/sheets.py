"""Sheets and small sheet texts that the tests of the language share."""

from __future__ import annotations

from pathlib import Path

from scopecheck.answers.questions import ask_all
from scopecheck.core.formula import All, Any, ExactlyOne, Formula, Implies, Not, Read
from scopecheck.core.model import Group, Sheet
from scopecheck.drill.symbols import written
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.language.statements import read_file
from scopecheck.resolve.sheet import read_sheet

STRAINER = """\
title    Leaf strainer for a rain-water pipe
profile  US
filed    no

holes       count
diameter    length in mm      "of a hole, at its narrowest"
open        share in %        "open area over basket area"
metal       any of copper, zinc, steel

1. A leaf strainer for a rain-water pipe, comprising a basket with a plurality of holes,
   wherein the number of the holes is divisible by 6, the holes have a diameter of between
   2 and 4 mm, and the open area is about 35 %.
   | holes     : a plurality
   | holes     : divisible by 6             meant  holes / 6 IS WHOLE
   | diameter  : between 2 and 4 mm
   | open      : about 35 %

2. The leaf strainer of claim 1, wherein the basket is made of at least one of copper and zinc.
   | metal     : at least one of copper and zinc

inside            holes   diameter   open    metal
  bench sample    24      3.0 mm     36 %    copper
must stay out
  garden sieve    25      3.0 mm     36 %    steel
document D1       24      4.2 mm     35 %    silent      "page 4, example 2"

policy  ends are included    "paragraph 14"
"""

HEAD = """\
holes       count
diameter    length in mm, > 0 mm, <= 50 mm
open        share in %
metal       any of copper, zinc, steel
grade       one of soft, hard
heat        temperature in degC

"""


def errors(text: str) -> list[Diagnostic]:
    """The errors of a sheet's text."""
    return [d for d in read_sheet(Source("test", text))[1] if d.severity == "error"]


def read_path(path: str | Path) -> tuple[Sheet | None, tuple[Diagnostic, ...]]:
    """The meaning of the sheet in a file; what is wrong with the file itself is a diagnostic too."""
    source, wrong = read_file(path)
    return (None, wrong) if source is None else read_sheet(source)


def sheet(text: str) -> Sheet:
    """The meaning of a text that must have no error."""
    made, diagnostics = read_sheet(Source("test", text))
    assert made is not None, [(d.message, d.span.line) for d in diagnostics]
    return made


def on_the_wrong_side(declared: str, left: str, words: str, within: str, outside: str) -> list[str]:
    """Which of two things comes out wrong as presumed, where the words should let in the first one alone."""
    text = f"{declared}\n\n1. A thing, {words}.\n   | {left} : {words}\n"
    made = sheet(f"{text}inside\n  one : {within}\nmust stay out\n  other : {outside}\n")
    sides = ("outside met", "inside lost")
    return [f.question for f in ask_all(made).findings if f.question in sides and f.quantifier != "some"]


def claim(words: str, *lines: str, more: str = "", head: str = HEAD) -> Sheet:
    """A sheet of one claim whose text holds the words, with margin lines and further statements."""
    margin = "".join(f"   | {line}\n" for line in lines)
    return sheet(f"{head}1. A strainer, wherein {words}.\n{margin}\n{more}")


def only_group(made: Sheet) -> Group:
    """The single group of a sheet."""
    (group,) = made.groups
    return group


def presumed_in_symbols(declared: str, left: str, words: str) -> str:
    """A line as presumed, in symbols; '' where it is refused, or where words of it are read past."""
    text = f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n"
    made, found = read_sheet(Source("test", text))
    if made is None or any(d.severity == "error" or "read past" in d.message for d in found):
        return ""

    def of(formula: Formula) -> str:
        match formula:
            case Read(group=group, options=options):
                return of(options[made.groups[group].base])
            case All(items=items):
                return f"({' and '.join(map(of, items))})"
            case Any(items=items):
                return f"({' or '.join(map(of, items))})"
            case ExactlyOne(items=items):
                return f"({' xor '.join(map(of, items))})"
            case Implies(left=one, right=then):
                return f"if {of(one)} then {of(then)}"
            case Not(item=item):
                return f"not {of(item)}"
        return written(made, formula)

    return of(made.claims[0].limitations[0].formula)


def presumed_labels(declared: str, left: str, words: str) -> list[list[str]]:
    """What is presumed of each phrase of a line, by the labels of the readings."""
    made = sheet(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")
    return [[r.label for r in g.readings if r.standing == "presumed"] for g in made.groups]


def all_readings(declared: str, left: str, words: str) -> tuple[object, list[list[tuple[str, str]]]]:
    """What a line is read as, with every reading of each of its phrases and their standings."""
    made = sheet(f"{declared}\n\n1. A thing, wherein {words}.\n   | {left} : {words}\n")
    return made.claims[0].limitations[0].formula, [
        [(r.label, r.standing) for r in g.readings] for g in made.groups
    ]
