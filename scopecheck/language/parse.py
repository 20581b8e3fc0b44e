"""From tokens of the exact language to syntax nodes, by the tables of an LALR grammar."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any, cast

from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.language.layout import Page
from scopecheck.language.scan import CAPITALS, Own, Token, scan
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
    RecitedNode,
    RoundNode,
    SumNode,
    TruthNode,
    WholeNode,
    WithoutNode,
)
from scopecheck.language.tables import Tables, tables

_MARKS = {
    "+": "PLUS", "-": "MINUS", "*": "TIMES", "/": "OVER", "^": "POWER", "(": "LPAR", ")": "RPAR",
    "{": "LBRACE", "}": "RBRACE", ",": "COMMA",
}  # fmt: skip
_FUNCTIONS = frozenset(
    "LEAST GREATEST ABS SUM COUNT ONE EVERY SOME NO MEAN MEDIAN EQUAL DIFFERENT RISING FALLING PLACE"
    " FIGURE DECADE START END DURATION DONE ORDER NEXT BEGUN TOGETHER SAME CHAIN LAST DAY".split()
)
_RULES = {"AWAY": "away", "UP": "up", "EVEN": "even"}
_LOOSE = (IfNode, SumNode, ProductNode, NegativeNode, PowerNode)
"""What a bracket around it belongs to: its words without the bracket could be part of something else."""
_LOWER = {"and": "AND", "or": "OR", "not": "NOT", "if": "IF", "then": "THEN"}
_BETWEEN = {
    "and": "gap >= 2 mm AND rim < 9 mm",
    "or": "gap = 3 mm OR gap = 4 mm",
    "not": "NOT gap < 2 mm",
    **dict.fromkeys(("if", "then"), "IF lid = yes THEN rim >= 5 mm"),
}


END = "$END"


def _with_terminals(page: Page, tokens: tuple[Token, ...]) -> Iterator[tuple[str, Token]]:
    """Each token with the grammar's name for it, a run of words as one; Trouble at what has no name."""
    at = 0
    while at < len(tokens):
        token = tokens[at]
        at += 1
        if token.sort == "word":
            _refuse_lower(page, token)
            first = token
            while at < len(tokens) and _goes_on(tokens, at, first.start):
                if tokens[at].sort == "word":
                    _refuse_lower(page, tokens[at])
                token = tokens[at]
                at += 1
            words = " ".join(page.plain[first.start : token.end].split())
            yield "NAME", Token("word", words, first.start, token.end)
        else:
            yield _terminal(page, token), token
    yield END, tokens[-1]


def _goes_on(tokens: tuple[Token, ...], at: int, start: int) -> bool:
    """Does a name that began at `start` go on here, with a word or with which of several parts is meant?"""
    token, before = tokens[at], tokens[at - 1]
    if token.sort == "word":
        return before.sort == "word" or token.text == "of"
    said = (t.text for t in tokens[:at] if t.start >= start)
    return before.sort == "word" and _is_index(token) and "of" in said


def _is_index(token: Token) -> bool:
    """Does the number tell which of several parts, as in `diameter of hole 2`?"""
    return token.number is not None and token.number.unit is None and token.text.isdigit()


def _terminal(page: Page, token: Token) -> str:
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


def _refuse_lower(page: Page, token: Token) -> None:
    if token.text in _LOWER:
        raise trouble(
            page.span(token.start, token.end), f"'{token.text}' among symbols",
            "Lower-case words may be read in more than one way; symbols and words in CAPITALS may not.",
            f"write {_LOWER[token.text]} between whole facts, such as: {_BETWEEN[token.text]}",
        )  # fmt: skip


def _covering(first: Span, last: Span) -> Span:
    return Span(first.source, first.start, max(first.end, last.end))


class _Build:
    """Builds nodes while the parser reduces. Children are tokens and nodes."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def _span(self, child: Any) -> Span:
        if isinstance(child, Token):
            return self.page.span(child.start, child.end)
        return cast(Span, child.span)

    def _whole(self, children: list[Any]) -> Span:
        return _covering(self._span(children[0]), self._span(children[-1]))

    def facts(self, c: list[Any]) -> Node:
        items = tuple(c[::2])
        for item in items[:-1]:
            if isinstance(item, IfNode) and not item.span.text.startswith("("):
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
        signs = tuple(token.text for token in c[1::2])
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
        return tuple((c[i].text, c[i + 1]) for i in range(1, len(c), 2))

    def negative(self, c: list[Any]) -> Node:
        return NegativeNode(c[1], self._whole(c))

    def raised(self, c: list[Any]) -> Node:
        return PowerNode(c[0], c[2].number, self._whole(c))

    def number(self, c: list[Any]) -> Node:
        return NumberNode(c[0].number, self._span(c[0]))

    def name(self, c: list[Any]) -> Node:
        return NameNode(c[0].text, self._span(c[0]))

    def recited(self, c: list[Any]) -> Node:
        return RecitedNode(self._span(c[0]))

    def without(self, c: list[Any]) -> Node:
        whole, last = NameNode(c[0].text, self._span(c[0])), c[2]
        if len(c) > 3:
            return WithoutNode(whole, _items(c[3]), self._whole(c))
        span = self._span(last)
        named = RecitedNode(span) if last.text == "RECITED" else NameNode(last.text, span)
        return WithoutNode(whole, (named,), self._whole(c))

    def truth(self, c: list[Any]) -> Node:
        return TruthNode(c[0].text == "TRUE", self._span(c[0]))

    def bracket(self, c: list[Any]) -> Node:
        inner = cast(Node, c[1])
        return replace(inner, span=self._whole(c)) if isinstance(inner, _LOOSE) else inner

    def braced(self, c: list[Any]) -> Node:
        return BracedNode(_items(c[1]) if len(c) == 3 else (), self._whole(c))

    def call(self, c: list[Any]) -> Node:
        return CallNode(c[0].text, _items(c[2]), self._whole(c))

    def call_over(self, c: list[Any]) -> Node:
        over = NameNode(c[1].text, self._span(c[1]))
        return CallNode(c[0].text, _items(c[3]), self._whole(c), over)

    def rounding(self, c: list[Any]) -> Node:
        return RoundNode(c[2], c[4], cast(Any, _RULES[c[7].text]), self._whole(c))


def _items(facts: Node) -> tuple[Node, ...]:
    return facts.items if isinstance(facts, AndNode) and facts.comma else (facts,)


_tables = cache(tables)


class _Unexpected(Exception):
    """A token that cannot stand here; `expected` are the terminals that could."""

    def __init__(self, terminal: str, token: Token, expected: set[str]) -> None:
        super().__init__(terminal)
        self.terminal, self.token, self.expected = terminal, token, expected


def _parsed(terminals: Iterator[tuple[str, Token]], build: _Build) -> Node:
    """The node that the tokens spell. Raises _Unexpected, and Trouble where one cannot be built."""
    made = _tables()
    steps, rules = made.steps, made.rules
    states = [made.start]
    parts: list[list[Any]] = []  # for each state after the first, the children that its symbol stands for
    for terminal, token in terminals:
        while (step := steps[states[-1]].get(terminal)) is None or step < 0:
            if step is None:
                raise _Unexpected(terminal, token, _acceptable(made, states))
            name, size, action = rules[~step]
            if size > 1:
                parts[-size:] = [[child for part in parts[-size:] for child in part]]
            if action:
                parts[-1] = [getattr(build, action)(parts[-1])]
            del states[-size:]
            states.append(steps[states[-1]][name])
            if terminal == END and states[-1] == made.end:
                return cast(Node, parts[0][0])
        states.append(step)
        parts.append([token])
    raise AssertionError("the last terminal ends the text")


def _acceptable(made: Tables, states: list[int]) -> set[str]:
    """The terminals that may stand after these states."""
    return {
        symbol for symbol in made.steps[states[-1]] if symbol.isupper() and _accepts(made, states, symbol)
    }


def _accepts(made: Tables, states: list[int], terminal: str) -> bool:
    """Whether a terminal can be shifted, or ends the text, once all is reduced that it lets be reduced."""
    states = list(states)
    while (step := made.steps[states[-1]].get(terminal)) is not None and step < 0:
        name, size, _ = made.rules[~step]
        del states[-size:]
        states.append(made.steps[states[-1]][name])
        if terminal == END and states[-1] == made.end:
            return True
    return step is not None


def parse_facts(page: Page, start: int, end: int, own: Own) -> Node:
    """The facts between two offsets: one condition or term, or several joined by commas. Raises Trouble."""
    tokens = scan(page, start, end, own)
    if not tokens:
        raise trouble(
            page.span(start, max(end, start + 1)), "nothing stands here", "A formula was expected.", ""
        )
    try:
        return _parsed(_with_terminals(page, tokens), _Build(page))
    except _Unexpected as error:
        raise _explained(page, tokens, error) from None


def parse_terms(page: Page, start: int, end: int, own: Own) -> tuple[Node, ...]:
    """One or more terms with commas between them: what a restatement measures."""
    return _items(parse_facts(page, start, end, own))


def _explained(page: Page, tokens: tuple[Token, ...], error: _Unexpected) -> Trouble:
    expected = error.expected
    if error.terminal == END:
        last = tokens[-1]
        return trouble(
            page.span(last.start, last.end), f"something is missing after '{last.text[:30]}'",
            "The formula ends before it is complete.", _wanted(expected),
        )  # fmt: skip
    found = error.token
    span = page.span(found.start, found.end)
    if error.terminal in ("AND", "OR") and expected & {"AND", "OR"}:
        return trouble(
            span,
            "AND beside OR without brackets",
            "The two do not bind in an order that everyone agrees on.",
            "put brackets around the part that belongs together",
        )
    after = next((t.text for t in tokens if t.start > found.start), "")
    if error.terminal == "NOT" and after == "IN":
        one = next((t.text for t in reversed(tokens) if t.end <= found.start), "...")
        return trouble(
            span, "'NOT IN' is not a sign", "NOT stands before a whole fact.", f"write NOT {one} IN ..."
        )
    before = next((t for t in reversed(tokens) if t.end <= found.start), None)
    if error.terminal == "NUMBER" and before is not None and before.text == "measured" and found.number:
        places = found.number.decimals
        step = f"0.{'0' * (places - 1)}1" if places > 0 else "1" + "0" * -places
        unit = found.number.unit.symbol if found.number.unit else ""
        return trouble(
            page.span(before.start, found.end), "'measured' is a word of cells",
            "Among symbols the rounding of a measured value is written out.",
            f"write ROUND(... TO {step} {unit}".rstrip() + f", HALF AWAY) = {found.text}",
        )  # fmt: skip
    small = found.text.islower() and found.text != "to"
    if small and all(w in CAPITALS for w in found.text.upper().split()):
        return trouble(
            span, f"'{found.text}' is written in capitals here", "Among symbols, words of the language are.",
            f"write {found.text.upper()}",
        )  # fmt: skip
    if found.text == "to" and (range_ := _range_written(page, found, tokens)):
        return trouble(
            span, "'to' is a word, and no sign between symbols",
            "A range is written among symbols with a sign before and one behind what is limited.",
            f"write {range_}",
        )  # fmt: skip
    if error.terminal in ("NUMBER", "NAME") and "SIGN" in expected:
        return trouble(
            span, f"'{found.text[:30]}' stands beside another value",
            "Between two values stands a sign such as <=, =, + or *.",
            "words of the claim stand right of a colon: what is measured : words",
        )  # fmt: skip
    return trouble(span, f"'{found.text[:30]}' was not expected here", "", _wanted(expected))


def _range_written(page: Page, found: Token, tokens: tuple[Token, ...]) -> str:
    """`gap / rim = 0.5 to 0.8` as 0.5 <= gap / rim <= 0.8; '' where it is no such range."""
    at = next((i for i, t in enumerate(tokens) if t.start == found.start), 0)
    if not 2 < at + 1 < len(tokens) or tokens[at - 2].text != "=" or not tokens[at + 1].number:
        return ""
    low, high = tokens[at - 1], tokens[at + 1]
    limited = page.span(tokens[0].start, tokens[at - 3].end).text
    unit = high.number.unit.symbol if high.number and high.number.unit else ""
    first = low.text if low.number and (low.number.unit or not unit) else f"{low.text} {unit}"
    return f"{first} <= {limited} <= {page.span(high.start, high.end).text}"


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
