"""From tokens of the exact language to syntax nodes, by an LALR grammar. The only importer of lark."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import Any, cast

import lark
from lark import Lark, Token, Transformer, UnexpectedToken
from lark.exceptions import VisitError
from lark.grammar import Rule
from lark.lexer import Lexer, TerminalDef

from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Page
from scopecheck.language.scan import Own, scan
from scopecheck.language.scan import Token as Scanned
from scopecheck.language.syntax import (
    AndNode,
    BracedNode,
    CallNode,
    ChainNode,
    IfNode,
    NameNode,
    NegativeNode,
    Node,
    NotNode,
    NumberNode,
    OrNode,
    PowerNode,
    ProductNode,
    RoundNode,
    SumNode,
    TruthNode,
    WholeNode,
)

_MARKS = {
    "+": "PLUS", "-": "MINUS", "*": "TIMES", "/": "OVER", "^": "POWER", "(": "LPAR", ")": "RPAR",
    "{": "LBRACE", "}": "RBRACE", ",": "COMMA",
}  # fmt: skip
_FUNCTIONS = frozenset("LEAST GREATEST ABS SUM COUNT ONE EVERY SOME PLACE DECADE".split())
_RULES = {"AWAY": "away", "UP": "up", "EVEN": "even"}
_LOWER = {"and": "AND", "or": "OR", "not": "NOT", "if": "IF", "then": "THEN"}
_BETWEEN = {
    "and": "gap >= 2 mm AND rim < 9 mm",
    "or": "gap = 3 mm OR gap = 4 mm",
    "not": "NOT gap < 2 mm",
    **dict.fromkeys(("if", "then"), "IF lid = yes THEN rim >= 5 mm"),
}


class _Scan(Lexer):
    """Hands the tokens of one statement to lark; a run of words is one name."""

    def __init__(self, lexer_conf: object) -> None:
        pass

    def lex(self, data: Any) -> Iterator[Token]:  # type: ignore[override]
        page, tokens = data
        return _lark_tokens(page, tokens)


def _lark_tokens(page: Page, tokens: tuple[Scanned, ...]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        token = tokens[at]
        at += 1
        if token.sort == "word":
            _refuse_lower(page, token)
            first = token
            while at < len(tokens) and tokens[at].sort == "word":
                _refuse_lower(page, tokens[at])
                token = tokens[at]
                at += 1
            words = " ".join(page.plain[first.start : token.end].split())
            yield _token("NAME", Scanned("word", words, first.start, token.end))
        else:
            yield _token(_terminal(page, token), token)


def _token(terminal: str, token: Scanned) -> Token:
    made = Token(terminal, token.text, start_pos=token.start, end_pos=token.end)
    made.value = token
    return made


def _terminal(page: Page, token: Scanned) -> str:
    if token.sort == "number":
        return "NUMBER"
    if token.sort == "sign":
        return "SIGN"
    if token.sort == "capital":
        if token.text in _FUNCTIONS:
            return "FUNCTION"
        if token.text in _RULES:
            return "RULE"
        return "TRUTH" if token.text in ("TRUE", "FALSE") else token.text
    if token.sort == "mark" and token.text in _MARKS:
        return _MARKS[token.text]
    help = {
        ".": "take out the full stop",
        ";": "write a comma between two facts",
        ":": "a line in symbols has no colon; words of the claim stand right of one",
    }.get(token.text, "")
    raise trouble(
        page.span(token.start, token.end), f"'{token.text}' has no place among symbols",
        "Symbols and words in CAPITALS are exact; the words of a claim stand right of a colon.", help,
    )  # fmt: skip


def _refuse_lower(page: Page, token: Scanned) -> None:
    if token.text in _LOWER:
        raise trouble(
            page.span(token.start, token.end), f"'{token.text}' among symbols",
            "Lower-case words may be read in more than one way; symbols and words in CAPITALS may not.",
            f"write {_LOWER[token.text]} between whole facts, such as: {_BETWEEN[token.text]}",
        )  # fmt: skip


def _covering(first: Span, last: Span) -> Span:
    return Span(first.source, first.start, max(first.end, last.end))


class _Build(Transformer[Token, Node]):
    """Builds nodes while the parser reduces. Children are lark tokens (their value is ours) and nodes."""

    def __init__(self) -> None:
        super().__init__(visit_tokens=False)
        self.page: Page = cast(Page, None)

    def _span(self, child: Any) -> Span:
        if isinstance(child, Token):
            return self.page.span(child.value.start, child.value.end)
        return cast(Span, child.span)

    def _whole(self, children: list[Any]) -> Span:
        return _covering(self._span(children[0]), self._span(children[-1]))

    def facts(self, c: list[Any]) -> Node:
        items = tuple(c[::2])
        for item in items[:-1]:
            if isinstance(item, IfNode):
                raise trouble(
                    item.span, "a comma after IF ... THEN ...",
                    "It is not said whether what follows the comma belongs to the THEN.",
                    "put brackets around IF ... THEN ..., or around all that follows THEN",
                )  # fmt: skip
        return items[0] if len(items) == 1 else AndNode(items, True, self._whole(c))

    def implication(self, c: list[Any]) -> Node:
        return IfNode(c[1], c[3], None, self._whole(c))

    def alternative(self, c: list[Any]) -> Node:
        return IfNode(c[1], c[3], c[5], self._whole(c))

    def conjunction(self, c: list[Any]) -> Node:
        return AndNode(tuple(c[::2]), False, self._whole(c))

    def disjunction(self, c: list[Any]) -> Node:
        return OrNode(tuple(c[::2]), self._whole(c))

    def negation(self, c: list[Any]) -> Node:
        return NotNode(c[1], self._whole(c))

    def chain(self, c: list[Any]) -> Node:
        signs = tuple(token.value.text for token in c[1::2])
        rising, falling = {"<", "<=", "="}, {">", ">=", "="}
        if len(signs) > 1 and not (set(signs) <= rising or set(signs) <= falling):
            raise trouble(
                self._whole(c), "a chain of comparisons that turns",
                "The signs of a chain all point the same way, as in 2 mm <= x < 4 mm.",
                "write two facts with AND between them",
            )  # fmt: skip
        return ChainNode(tuple(c[::2]), signs, self._whole(c))

    def whole(self, c: list[Any]) -> Node:
        return WholeNode(c[0], self._whole(c))

    def added(self, c: list[Any]) -> Node:
        return SumNode(c[0], self._pairs(c), self._whole(c))

    def multiplied(self, c: list[Any]) -> Node:
        return ProductNode(c[0], self._pairs(c), self._whole(c))

    def _pairs(self, c: list[Any]) -> tuple[tuple[str, Node], ...]:
        return tuple((c[i].value.text, c[i + 1]) for i in range(1, len(c), 2))

    def negative(self, c: list[Any]) -> Node:
        return NegativeNode(c[1], self._whole(c))

    def raised(self, c: list[Any]) -> Node:
        return PowerNode(c[0], c[2].value.number, self._whole(c))

    def number(self, c: list[Any]) -> Node:
        return NumberNode(c[0].value.number, self._span(c[0]))

    def name(self, c: list[Any]) -> Node:
        return NameNode(c[0].value.text, self._span(c[0]))

    def truth(self, c: list[Any]) -> Node:
        return TruthNode(c[0].value.text == "TRUE", self._span(c[0]))

    def bracket(self, c: list[Any]) -> Node:
        return cast(Node, c[1])

    def braced(self, c: list[Any]) -> Node:
        return BracedNode(_items(c[1]) if len(c) == 3 else (), self._whole(c))

    def call(self, c: list[Any]) -> Node:
        return CallNode(c[0].value.text, _items(c[2]), self._whole(c))

    def rounding(self, c: list[Any]) -> Node:
        return RoundNode(c[2], c[4], cast(Any, _RULES[c[7].value.text]), self._whole(c))


def _items(facts: Node) -> tuple[Node, ...]:
    return facts.items if isinstance(facts, AndNode) and facts.comma else (facts,)


TABLES = "data/grammar.json"
"""The parse tables of grammar.lark, written by `tables`; a test holds the two together."""


def _built(build: _Build) -> Lark:
    grammar = files("scopecheck").joinpath("language", "grammar.lark").read_text("utf-8")
    return Lark(
        grammar, parser="lalr", lexer=_Scan, start="facts", transformer=build, maybe_placeholders=False
    )


def tables() -> str:
    """The parse tables as JSON text, with the version of lark that made them."""
    data, memo = _built(_Build()).memo_serialize([TerminalDef, Rule])
    data["parser"]["lexer_conf"]["lexer_type"] = data["options"]["lexer"] = ""
    data["options"]["transformer"] = None
    grammar = files("scopecheck").joinpath("language", "grammar.lark").read_text("utf-8")
    saved = {"lark": lark.__version__, "grammar": grammar, "data": data, "memo": memo}
    return json.dumps(saved, separators=(",", ":")) + "\n"


@cache
def _parser() -> tuple[Lark, _Build]:
    """The parser, from the saved tables; built from the grammar if another lark is installed."""
    build = _Build()
    saved = json.loads((files("scopecheck").joinpath(*TABLES.split("/"))).read_text("utf-8"))
    if saved["lark"] != lark.__version__:
        return _built(build), build
    data = saved["data"]
    data["parser"]["lexer_conf"]["lexer_type"] = data["options"]["lexer"] = _Scan
    states = data["parser"]["parser"]["states"]
    data["parser"]["parser"]["states"] = {
        int(state): {int(token): tuple(step) for token, step in row.items()} for state, row in states.items()
    }
    data["parser"]["parser"]["tokens"] = {int(k): v for k, v in data["parser"]["parser"]["tokens"].items()}
    memo = {int(k): v for k, v in saved["memo"].items()}
    made = cast(Any, Lark)._load_from_dict(data, memo, transformer=build)
    return cast(Lark, made), build


def parse_facts(page: Page, start: int, end: int, own: Own) -> Node:
    """The facts between two offsets: one condition or term, or several joined by commas. Raises Trouble."""
    tokens = scan(page, start, end, own)
    if not tokens:
        raise trouble(
            page.span(start, max(end, start + 1)), "nothing stands here", "A formula was expected.", ""
        )
    parser, build = _parser()
    build.page = page
    try:
        return cast(Node, cast(Any, parser).parse((page, tokens)))
    except UnexpectedToken as error:
        raise _explained(page, tokens, error) from None
    except VisitError as error:
        if isinstance(error.orig_exc, Trouble):
            raise error.orig_exc from None
        raise


def parse_terms(page: Page, start: int, end: int, own: Own) -> tuple[Node, ...]:
    """One or more terms with commas between them: what a restatement measures."""
    return _items(parse_facts(page, start, end, own))


def _explained(page: Page, tokens: tuple[Scanned, ...], error: UnexpectedToken) -> Trouble:
    expected: set[str] = set(error.accepts or error.expected)
    if error.token.type == "$END":
        last = tokens[-1]
        return trouble(
            page.span(last.start, last.end), f"something is missing after '{last.text[:30]}'",
            "The formula ends before it is complete.", _wanted(expected),
        )  # fmt: skip
    found = error.token.value
    span = page.span(found.start, found.end)
    if error.token.type in ("AND", "OR") and expected & {"AND", "OR"}:
        return trouble(
            span,
            "AND beside OR without brackets",
            "The two do not bind in an order that everyone agrees on.",
            "put brackets around the part that belongs together",
        )
    after = next((t.text for t in tokens if t.start > found.start), "")
    if error.token.type == "NOT" and after == "IN":
        one = next((t.text for t in reversed(tokens) if t.end <= found.start), "...")
        return trouble(
            span, "'NOT IN' is not a sign", "NOT stands before a whole fact.", f"write NOT {one} IN ..."
        )
    before = next((t for t in reversed(tokens) if t.end <= found.start), None)
    if error.token.type == "NUMBER" and before is not None and before.text == "measured" and found.number:
        places = found.number.decimals
        step = f"0.{'0' * (places - 1)}1" if places > 0 else "1" + "0" * -places
        unit = found.number.unit.symbol if found.number.unit else ""
        return trouble(
            page.span(before.start, found.end), "'measured' is a word of cells",
            "Among symbols the rounding of a measured value is written out.",
            f"write ROUND(... TO {step} {unit}".rstrip() + f", HALF AWAY) = {found.text}",
        )  # fmt: skip
    if error.token.type in ("NUMBER", "NAME") and "SIGN" in expected:
        return trouble(
            span, f"'{found.text[:30]}' stands beside another value",
            "Between two values stands a sign such as <=, =, + or *.",
            "words of the claim stand right of a colon: what is measured : words",
        )  # fmt: skip
    return trouble(span, f"'{found.text[:30]}' was not expected here", "", _wanted(expected))


_WANTED = (
    ("SIGN", "a comparison (< <= = != >= > IN)"),
    ("NAME", "a declared name or a number"),
    ("RPAR", "a closing bracket"),
    ("THEN", "THEN"),
    ("TO", "TO"),
    ("HALF", "HALF AWAY, HALF UP or HALF EVEN"),
    ("RULE", "AWAY, UP or EVEN"),
    ("WHOLE", "WHOLE"),
    ("COMMA", "a comma"),
    ("LPAR", "an opening bracket"),
)


def _wanted(expected: set[str]) -> str:
    words = [text for terminal, text in _WANTED if terminal in expected][:3]
    return f"expected {' or '.join(words)}" if words else ""
