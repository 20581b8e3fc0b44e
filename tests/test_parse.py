"""The exact language: tokens, numbers, precedence, and the tables that are shipped with it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from importlib.resources import files
from typing import Any, cast

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lark import Lark, Tree, UnexpectedToken
from lark import Token as LarkToken
from lark.lexer import Lexer

from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.spans import Source
from scopecheck.language import parse
from scopecheck.language.layout import Page
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import scan
from scopecheck.language.syntax import (
    AndNode,
    ChainNode,
    IfNode,
    NameNode,
    Node,
    NotNode,
    NumberNode,
    OrNode,
    ProductNode,
    SumNode,
    WholeNode,
)
from scopecheck.language.tables import tables


def parsed(text: str) -> Node:
    return parse_facts(Page(Source("test", text)), 0, len(text), {})


def refused(text: str) -> str:
    with pytest.raises(Trouble) as caught:
        parsed(text)
    return caught.value.diagnostic.message


def number(text: str) -> tuple[Fraction, int, str]:
    node = parsed(text)
    assert isinstance(node, NumberNode)
    unit = node.number.unit
    return node.number.value, node.number.decimals, unit.symbol if unit else ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("20", (Fraction(20), 0, "")),
        ("20.00 mm", (Fraction(20), 2, "mm")),
        ("8mm", (Fraction(8), 0, "mm")),
        ("5 %", (Fraction(5), 0, "%")),
        ("5wt%", (Fraction(5), 0, "wt%")),
        ("-5 degC", (Fraction(-5), 0, "degC")),
        ("0.1", (Fraction(1, 10), 1, "")),
        ("1e-3", (Fraction(1, 1000), 3, "")),
        ("2.5e3", (Fraction(2500), -2, "")),
        ("10^-3", (Fraction(1, 1000), 3, "")),
        ("10⁻³", (Fraction(1, 1000), 3, "")),
        ("3 × 10^-3", (Fraction(3, 1000), 3, "")),
        ("1/2 inch", (Fraction(1, 2), 0, "inch")),
        ("9:1", (Fraction(9), 0, "")),
        ("2 g/cm3", (Fraction(2), 0, "g/cm3")),
        ("2 bar(g)", (Fraction(2), 0, "bar(g)")),
    ],
)
def test_numbers_keep_value_and_places(text: str, expected: tuple[Fraction, int, str]) -> None:
    assert number(text) == expected


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("x = 1,000", "a comma inside a number"),
        ("x = 0,5", "a comma inside a number"),
        ("x = .5", "a number that begins with its point"),
        ("x = 5.", "a number that ends with its point"),
        ("x = 2 1/2", "a whole number and a fraction side by side"),
        ("x = 1 000", "a blank inside a number"),
        ("x = 5-10", "a dash between two numbers"),
        ("x = 5–10", "a dash between two numbers"),
        ("x = 20 ± 1", "a plus-or-minus sign among symbols"),
        ("x = 20 mm ± 1 mm", "a plus-or-minus sign among symbols"),
        ("x = 1/0", "a number over zero has no value"),
        ("x = " + "9" * 100_000, "a number of 100000 digits"),
        ("x = 1e999999", "a power of ten out of reach"),
        ("(" * 10_000 + "x" + ")" * 10_000, "brackets too deep inside each other"),
        ("(x = 1", "'(' is never closed"),
        ("x = 1)", "')' closes nothing"),
        ("{x = 1)", "')' closes nothing"),
        ('x = "a', "a quote that is never closed"),
        ("x = 5 mn", "'mn' is no known unit"),
        ("x =< 5", "'=<' is not a sign here"),
        ("x = 1 and y = 2", "'and' among symbols"),
        ("x = 1 AND y = 2 OR z = 3", "AND beside OR without brackets"),
        ("x = 1 OR y = 2 AND z = 3", "AND beside OR without brackets"),
        ("5 < x > 3", "a chain of comparisons that turns"),
        ("IF a = 1 THEN b = 2, c = 3", "a comma after IF ... THEN ..."),
        ("x -5 mm = 3", "'-5 mm' stands beside another value"),
        ("x <= ", "something is missing after '<='"),
        ("", "nothing stands here"),
        ("x = DIGITS(y)", "DIGITS is not understood yet"),
        (" + ".join(["1"] * 20_000), "a statement that is too long"),
    ],
)
def test_doubtful_spellings_each_have_their_own_message(text: str, message: str) -> None:
    assert refused(text) == message


def test_precedence() -> None:
    node = parsed("a + 2 * b <= c, NOT d = 1 AND e = 2")
    assert isinstance(node, AndNode)
    assert node.comma
    chain, both = node.items
    assert isinstance(chain, ChainNode)
    left = chain.operands[0]
    assert isinstance(left, SumNode)
    assert isinstance(left.rest[0][1], ProductNode)
    assert isinstance(both, AndNode)
    assert isinstance(both.items[0], NotNode)


def test_brackets_settle_what_belongs_together() -> None:
    node = parsed("(a = 1 AND b = 2) OR c = 3")
    assert isinstance(node, OrNode)
    assert isinstance(node.items[0], AndNode)


def test_names_of_several_words_and_hyphens() -> None:
    node = parsed("oil temp - low-end = 5 K")
    assert isinstance(node, ChainNode)
    first = node.operands[0]
    assert isinstance(first, SumNode)
    assert isinstance(first.first, NameNode)
    assert first.first.name == "oil temp"
    assert isinstance(first.rest[0][1], NameNode)
    assert first.rest[0][1].name == "low-end"


def test_if_then_otherwise_and_is_whole() -> None:
    node = parsed("x = (IF a = 1 THEN 2 OTHERWISE 3)")
    assert isinstance(node, ChainNode)
    assert isinstance(node.operands[1], IfNode)
    assert isinstance(parsed("holes / 6 IS WHOLE"), WholeNode)


def test_a_bracketed_condition_may_stand_in_a_list_of_facts() -> None:
    for text in ("(IF a = 1 THEN b = 2), c = 3", "((IF a = 1 THEN b = 2)), c = 3"):
        node = parsed(text)
        assert isinstance(node, AndNode)
        assert isinstance(node.items[0], IfNode)


def test_words_allow_a_dash_and_a_tolerance() -> None:
    for text in ("5-10 mm", "20 ± 1 mm", "20 +/- 1 mm"):
        tokens = scan(Page(Source("test", text)), 0, len(text), {}, words=True)
        assert [t.sort for t in tokens if t.number] == ["number", "number"]


class _Handed(Lexer):
    """Gives lark the terminals it is handed."""

    def __init__(self, lexer_conf: object) -> None:
        pass

    def lex(self, data: Any) -> Iterator[LarkToken]:  # type: ignore[override]
        return iter([LarkToken(terminal, terminal) for terminal in data])


class _Told:
    """Builds pairs of what would be built and its children."""

    def __getattr__(self, action: str) -> Callable[[list[Any]], Any]:
        return lambda children: (action, children)


GRAMMAR = files("scopecheck").joinpath("language", "grammar.lark").read_text("utf-8")
LARK = Lark(GRAMMAR, parser="lalr", lexer=_Handed, start="facts", maybe_placeholders=False)


def read_by_lark(terminals: list[str]) -> Any:
    """What lark builds as nested pairs, or the terminal it stops at with those it would take."""

    def pairs(item: Any) -> Any:
        return (
            (str(item.data), [pairs(child) for child in item.children])
            if isinstance(item, Tree)
            else str(item)
        )

    try:
        return pairs(cast(Any, LARK).parse(terminals))
    except UnexpectedToken as error:
        return error.token.type, error.accepts


def read_by_tables(terminals: list[str]) -> Any:
    tokens = [(terminal, terminal) for terminal in (*terminals, parse.END)]
    try:
        return parse._parsed(cast(Any, iter(tokens)), cast(Any, _Told()))
    except parse._Unexpected as error:
        return error.terminal, error.expected


TERMINALS = sorted({symbol for row in tables().steps for symbol in row if symbol.isupper()} - {parse.END})
SOUND = (
    "NUMBER SIGN NAME SIGN NUMBER COMMA NAME OVER NUMBER IS WHOLE COMMA LBRACE NAME RBRACE SIGN NAME",
    "IF NAME SIGN NUMBER AND NOT NAME SIGN NAME THEN LPAR NAME SIGN NUMBER OR TRUTH RPAR OTHERWISE TRUTH",
    "MINUS NAME POWER NUMBER PLUS NAME TIMES LPAR NAME MINUS NUMBER MOD NAME RPAR SIGN LBRACE RBRACE",
    "ROUND LPAR NAME PLUS NAME TO NUMBER COMMA HALF RULE RPAR SIGN FUNCTION LPAR NAME COMMA NUMBER RPAR",
)


@given(
    st.sampled_from(SOUND), st.lists(st.tuples(st.integers(0, 25), st.sampled_from(TERMINALS)), max_size=3)
)
def test_the_tables_read_as_lark_reads(sound: str, changes: list[tuple[int, str]]) -> None:
    terminals = sound.split()
    for at, terminal in changes:
        terminals[at : at + 1] = [terminal]
    assert read_by_tables(terminals) == read_by_lark(terminals)


@pytest.mark.parametrize("sound", SOUND)
def test_lark_takes_what_the_comparison_starts_from(sound: str) -> None:
    assert read_by_lark(sound.split())[0] == "facts"


def test_tables_of_a_changed_grammar_are_made_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    kept = tables()
    monkeypatch.setattr("scopecheck.language.tables._grammar", lambda: GRAMMAR.replace("SIGN", "COMPARED"))
    assert any("COMPARED" in row for row in tables().steps)
    assert len(tables().steps) == len(kept.steps)
