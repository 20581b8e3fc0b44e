"""The parser's tables. lark makes them from grammar.lark; they are kept as JSON and read without lark.

Loading lark and its tables took longer than reading a sheet does.
"""

from __future__ import annotations

import json
from typing import Any

from scopecheck.foundations.data_files import data_file, text_of
from scopecheck.foundations.record import node

TABLES = "grammar.json"


@node
class Tables:
    """An LALR automaton. A row of `steps` gives for each symbol the state to go to, or, below 0, the rule
    to reduce by: `~number`. A rule is its name, its length, which is never 0, and what is built; where that
    is '' its children are handed on.
    """

    start: int
    end: int
    steps: list[dict[str, int]]
    rules: list[tuple[str, int, str]]


def tables() -> Tables:
    """The tables as kept; made anew, once a run, where the grammar was changed since."""
    saved = data_file(TABLES)
    if saved["grammar"] != _grammar():
        saved = json.loads(tables_text())
    return Tables(saved["start"], saved["end"], saved["steps"], [tuple(rule) for rule in saved["rules"]])


def _grammar() -> str:
    return text_of("language", "grammar.lark")


def tables_text() -> str:
    """The tables of the grammar as it is, as JSON text, the same each time."""
    from lark import Lark
    from lark.grammar import Rule
    from lark.lexer import TerminalDef

    # The lexer is not used: tokens come from scan.py.
    made = Lark(_grammar(), parser="lalr", lexer="basic", start="facts", maybe_placeholders=False)
    saved, memo = made.memo_serialize([TerminalDef, Rule])
    table = saved["parser"]["parser"]
    rules = sorted((_rule(rule) for rule in memo.values() if "expansion" in rule), key=str)
    steps = {
        state: {table["tokens"][symbol]: _step(step, memo, rules) for symbol, step in row.items()}
        for state, row in table["states"].items()
    }
    order = _in_order(table["start_states"]["facts"], steps)
    place = {state: number for number, state in enumerate(order)}
    numbered = [
        {symbol: place[to] if to >= 0 else to for symbol, to in sorted(steps[state].items())}
        for state in order
    ]
    named = [(name, len(symbols), action) for name, symbols, action in rules]
    start, end = (place[table[ends]["facts"]] for ends in ("start_states", "end_states"))
    whole = {"grammar": _grammar(), "start": start, "end": end, "rules": named, "steps": numbered}
    return json.dumps(whole, separators=(",", ":")) + "\n"


def _rule(saved: dict[str, Any]) -> tuple[str, tuple[str, ...], str]:
    """A rule's name, its symbols and what is built: its alias, or `facts`, or nothing ('')."""
    name = saved["origin"]["name"]
    action = saved["alias"] or (name if name == "facts" else "")
    return name, tuple(symbol["name"] for symbol in saved["expansion"]), action


def _step(saved: tuple[int, Any], memo: Any, rules: list[tuple[str, tuple[str, ...], str]]) -> int:
    """lark writes 0 and a state for a shift, 1 and a rule for a reduction."""
    sort, to = saved
    return int(to) if sort == 0 else ~rules.index(_rule(memo[to["@"]]))


def _in_order(start: int, steps: dict[int, dict[str, int]]) -> list[int]:
    """The states in the order in which they are reached; lark numbers them anew in each run."""
    found = [start]
    for state in found:
        found += [to for _, to in sorted(steps[state].items()) if to >= 0 and to not in found]
    return found
