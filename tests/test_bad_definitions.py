"""Bad definitions: a located message with cause or help; warnings for those that change nothing."""

from __future__ import annotations

import pytest

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet

SHEET = """\
open        share in %
gap         length in mm
water, air  temperature in degC
metal       any of copper, zinc

1. A strainer wherein the open area is about 35 %, the gap is at least about 3 mm and the water
   is below 40 degC.
   | open  : about 35 %
   | gap   : at least about 3 mm
   | water : below 40 degC

"""
MISTAKES: list[tuple[str, str, str, str, str]] = [
    # name, lines, the marked text, the message, a part of cause or help
    (
        "no place",
        'define "about (N)" : 0.9 * N <= x <= 1.1 * N\n',
        "0.9 * N <= x <= 1.1 * N",
        "a definition without its place",
        '"paragraph 12"',
    ),
    (
        "empty place",
        'define "about (N)" : x = N  ""\n',
        "x = N",
        "a definition without its place",
        "in quotes",
    ),
    (
        "no meaning",
        'define "about (N)"  "page 2"\n',
        '"about (N)"  "page 2"',
        "a definition without a meaning",
        ":",
    ),
    (
        "nothing after the colon",
        'define "about (N)" :  "page 2"\n',
        '"about (N)" :  "page 2"',
        "the definition of 'about (N)' has no meaning after its colon",
        "",
    ),
    (
        "no words",
        "define about N : x = N\n",
        "define about N : x = N",
        "no words in quotes after 'define'",
        'define "..."',
    ),
    (
        "unknown letter",
        'define "about (N)" : x <= M  "page 2"\n',
        "M",
        "'M' is not declared",
        "the letters here are: N, and x",
    ),
    ("brackets forgotten", 'define "about N" : x = N  "page 2"\n', "N", "'N' is not declared", '"about (N)"'),
    (
        "name that nothing declares",
        'define "about (N)" : x = N * factor  "page 2"\n',
        "factor",
        "'factor' is not declared",
        "declare it",
    ),
    (
        "an amount for words with numbers",
        'define "about (N)" : 1.1 * N  "page 2"\n',
        'define "about (N)" : 1.1 * N  "page 2"',
        "'1.1 * N' says no fact",
        "x >= 1.1 * N",
    ),
    (
        "no slot",
        'define "about (number)  (L K)" : x = L  "page 2"\n',
        'define "about (number)  (L K)" : x = L  "page 2"',
        "'(L K)' is no slot",
        "write for example",
    ),
    (
        "noun that is measured",
        'define "water" : air  "page 2"\n',
        'define "water" : air  "page 2"',
        "'water' is declared as something measured",
        "declare it as a term",
    ),
    (
        "noun that leads back to itself",
        'define "heat" : heat  "page 2"\n',
        "heat",
        "what 'heat' stands for leads back to 'heat'",
        "",
    ),
    ("not closed", 'define "about (N)" : x = N  "page 2\n', '"', "a quote that is never closed", ""),
    ("symbols that are none", 'define "about (N)" : x =< N  "page 2"\n', "", "", ""),
]


def told(lines: str) -> tuple[Diagnostic, ...]:
    claim = "2. The strainer of claim 1, wherein the heat is below 50 degC.\n   | heat : below 50 degC\n\n"
    return read_sheet(Source("test", SHEET + (claim if "heat" in lines else "") + lines))[1]


@pytest.mark.parametrize(
    ("lines", "marked", "message", "words"), [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES]
)
def test_mistake_is_marked_and_explained(lines: str, marked: str, message: str, words: str) -> None:
    found = [d for d in told(lines) if d.severity == "error"]
    assert found
    error = found[0]
    assert message in error.message
    assert words in f"{error.cause} {error.help}"
    if marked:
        assert error.span.text == marked


WARNINGS: list[tuple[str, str, str]] = [
    # name, lines, the message
    (
        "words that no claim says",
        'define "roughly exactly (N)" : x = N  "page 2"\n',
        "nothing in the claims reads 'roughly exactly (N)', so its definition changes nothing",
    ),
    (
        "noun that no claim says",
        'define "pressure" : water  "page 2"\n',
        "nothing in the claims reads 'pressure', so its definition changes nothing",
    ),
    (
        "words of a document only",
        'define "around (N)" : x = N  "page 2"\ndocument D1\n  one : open around 35 %  "page 3"\n',
        "nothing in the claims reads 'around (N)', so its definition changes nothing",
    ),
    (
        "meaning of another kind",
        'define "about (N)" : ABS(x - N) <= 1 mm  "page 2"\n',
        "the definition of 'about (N)' does not go with 'about 35 %' in 1a",
    ),
    (
        "words among others",
        'define "about (N)" : 0.9 * N <= x <= 1.1 * N  "page 2"\n',
        "the definition of 'about (N)' is not taken for 'at least about ...' in 1b",
    ),
]


@pytest.mark.parametrize(("lines", "message"), [w[1:] for w in WARNINGS], ids=[w[0] for w in WARNINGS])
def test_what_changes_nothing_is_told(lines: str, message: str) -> None:
    found = told(lines)
    assert [d.severity for d in found if d.message == message] == ["warning"]
    assert not [d for d in found if d.severity == "error"]
    assert all(d.span.text.startswith("define") for d in found)


def test_nothing_is_told_where_all_is_reached() -> None:
    lines = 'define "about (N)" : x = N  "page 2"\ndefine "at least about (N)" : x >= N  "page 2"\n'
    assert told(lines) == ()


@pytest.mark.parametrize("cut", range(60))
def test_a_cut_off_definition_is_refused_or_defines_something(cut: int) -> None:
    made, found = read_sheet(
        Source("test", SHEET + 'define "about (N)" : 0.9 * N <= x <= 1.1 * N  "paragraph 12"'[:cut])
    )
    if cut and not any(d.severity == "error" for d in found):
        assert made is not None
        assert any(g.definition is not None for g in made.groups)
