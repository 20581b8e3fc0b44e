"""Formulas that the claim writes in signs, right of a colon: `0.8 <= W/T <= 1.3` of a width and a thickness.

The claim's own letters stand for what is named left of the colon: for which of the things, its text or the
notes of the declarations say.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations
from typing import Any

from scopecheck.core.declared import NumberDecl
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.language.syntax import (
    CallNode,
    ChainNode,
    NameNode,
    Node,
    NumberNode,
    ProductNode,
    Restatement,
    SumNode,
    Words,
)
from scopecheck.matching.chart import FILLERS
from scopecheck.rewording.compared import with_compared
from scopecheck.vocabulary.names import Names

MOST_LETTERS = 4
MOST_WORDS = 6
"""So far before a letter stands what it is a letter for."""
_WORD = regex(r"[^\W_]+")


def in_symbols(names: Names, text: str, line: Restatement) -> tuple[Restatement, Diagnostic | None]:
    """The line with the formula that its words are, and a warning that tells for what its letters stand; the
    line as it is where its words are no formula, or a phrase reads them, then with names for the letters.

    `text`: what the claim says up to there. Raises Trouble where nothing tells for what a letter stands.
    """
    words, formula = line.words, line.formula
    if words is None or formula is None or line.exact is not None:
        return line, None
    left = tuple(" ".join(node.span.text.split()) for node in line.subject)
    said = with_compared(words.tokens, left, names)
    if not any(token.sort == "sign" for token in said):
        return line, None
    used = {node.name for node in nodes_in(formula) if isinstance(node, NameNode)}
    letters = sorted({name for name in used if not _is_known(names, name)}, key=text.find)
    folded = {name.lower() for name in used}
    things = [name for name in left if name.lower() not in folded]
    if len(letters) != len(things) or any(len(letter) > MOST_LETTERS for letter in letters):
        return line, None
    meant = _meant(names, text, letters, things)
    if letters and meant is None:
        raise trouble(
            words.span, f"nothing tells for what {' and '.join(letters)} stand",
            "The text says what each letter of a formula is, or the note of what is declared.",
            f'write the letter into the note, such as: {things[0]}  ...  "{letters[0]}"',
        )  # fmt: skip
    told = _told(words, meant) if meant else None
    if meant and all(names.declared(thing) for thing in things):
        spelled = tuple(part for t in words.tokens for part in _spelled(t, meant.get(t.text, "")))
        said = with_compared(spelled, left, names)
        if not any(token.sort == "sign" for token in said):
            return replace(line, words=Words(words.text, said, words.span)), told
    exact = _with_names(names, formula, meant or {})
    exact = on_the_basis(names, exact) if exact is not None else None
    return (replace(line, exact=exact), told) if exact is not None else (line, None)


def on_the_basis(names: Names, formula: Node) -> Node:
    """The formula with the unit that the claim says once for its numbers: `in mass%, ... 0.30 ≤ C + Mn/6`.

    Only of shares on that basis that no other share divides, and where no number has a unit; else as it is.
    """
    used = [names.declared(node.name) for node in nodes_in(formula) if isinstance(node, NameNode)]
    shares = all(isinstance(d, NumberDecl) and d.kind.split[0] == names.basis for d in used)
    united = any(isinstance(n, NumberNode) and n.number.unit is not None for n in nodes_in(formula))
    if not names.in_percent or not names.basis or not shares or united or not isinstance(formula, ChainNode):
        return formula
    if {_degree(node) for node in formula.operands if not isinstance(node, NumberNode)} != {1}:
        return formula
    unit = find_unit(PERCENT[names.basis])
    operands = tuple(
        replace(node, number=replace(node.number, unit=unit)) if isinstance(node, NumberNode) else node
        for node in formula.operands
    )
    return replace(formula, operands=operands)


def _degree(node: Node) -> int | None:
    """How often a share is a factor of a term, less how often it divides; None where its parts differ."""
    if isinstance(node, NumberNode | NameNode):
        return int(isinstance(node, NameNode))
    if isinstance(node, SumNode):
        degrees = {_degree(node.first), *(_degree(item) for _, item in node.rest)}
        return degrees.pop() if len(degrees) == 1 else None
    if not isinstance(node, ProductNode):
        return None
    degree = _degree(node.first)
    for sign, item in node.rest:
        other = _degree(item)
        if degree is None or other is None or sign not in ("*", "/"):
            return None
        degree += other if sign == "*" else -other
    return degree


def with_units_behind(error: Trouble, words: Words) -> Trouble:
    """What is said of a formula that is lifted and whose numbers have no unit in the claim."""
    told = error.diagnostic
    if not ("has no unit" in told.message or "cannot be compared" in told.message):
        return error
    help = "keep the words, and write the formula with its units behind them: two blanks, exactly, "
    return Trouble(replace(told, help=f"{help}then {words.text} with a unit to each number"))


def with_term_first(line: Restatement) -> Restatement:
    """The line with the term that its words begin with left of the colon: `(D90-D10)/D50 is less than 1.5`.

    Only where it is made of just the things that stand there; else the line as it is.
    """
    if line.begun is None or line.words is None or line.exact is not None:
        return line
    term, behind = line.begun
    left = {" ".join(node.span.text.split()).lower() for node in line.subject}
    used = {node.name.lower() for node in nodes_in(term) if isinstance(node, NameNode)}
    if used != left or isinstance(term, NameNode) or (len(used) < 2 and not isinstance(term, CallNode)):
        return line
    words = Words(line.words.text, behind.tokens, line.words.span)
    return replace(line, subject=(term,), words=words)


def nodes_in(node: object) -> Iterator[object]:
    """A formula as written, and all that it is made of."""
    stack = [node]
    while stack:
        item = stack.pop()
        yield item
        if isinstance(item, tuple):
            stack += reversed(item)
        else:
            shown = getattr(item, "__match_args__", ())
            stack += [getattr(item, name) for name in shown if name not in ("span", "number")]


def _is_known(names: Names, name: str) -> bool:
    if name not in names.declarations and names.noted_letter(name):
        return False
    return names.declared(name) is not None or name.lower() in map(str.lower, names.all())


def _meant(names: Names, text: str, letters: list[str], things: list[str]) -> dict[str, str] | None:
    """For which thing each letter stands; None where that is not told, or told in two ways."""
    about = {letter: _said_before(text, letter) for letter in letters}
    own = {thing: _own_words(names, thing) for thing in things}

    def told(way: tuple[str, ...]) -> tuple[int, ...]:
        return tuple(
            len(about[letter] & own[thing]) + len(letters) * (letter.lower() in own[thing])
            for letter, thing in zip(letters, way, strict=True)
        )

    ways = sorted(permutations(things), key=lambda way: -sum(told(way)))
    if not letters or not all(told(ways[0])) or (len(ways) > 1 and sum(told(ways[0])) == sum(told(ways[1]))):
        return None
    return dict(zip(letters, ways[0], strict=True))


def _said_before(text: str, letter: str) -> set[str]:
    """The words before the letter where the text has it first, back to another letter or number."""
    words = _WORD.findall(text)
    if letter not in words:
        return set()
    at = words.index(letter)
    said = set[str]()
    for word in reversed(words[max(0, at - MOST_WORDS) : at]):
        if any(sign.isdigit() for sign in word) or (len(word) <= 2 and word[0].isupper()):
            break
        said |= {word.lower(), word.lower().removesuffix("s")}
    return said - FILLERS - listed("nouns", "determiners")


def _own_words(names: Names, thing: str) -> set[str]:
    note = names.note_of(thing)
    if found := names.field_of(thing):
        part, own = found[0][0], found[1]
        note = names.note_of(part.slot(1, own))
    words = [word.lower() for word in _WORD.findall(f"{thing} {note}")]
    return {form for word in words for form in (word, word.removesuffix("s"))} - FILLERS


def _spelled(token: Token, name: str) -> Iterator[Token]:
    """A letter as the words of the name it stands for; the token itself where it is none."""
    *first, last = name.split() or [token.text]
    for word in first:
        yield replace(token, text=word, end=token.start)
    yield replace(token, text=last)


def _with_names(names: Names, formula: Node, meant: dict[str, str]) -> Node | None:
    """The formula of the things themselves: of each of like parts where one of them is a field of these."""
    fields = {
        letter: names.field_of(thing) for letter, thing in meant.items() if names.declared(thing) is None
    }
    over = {found[0] for found in fields.values() if found}
    if len(over) > 1 or any(found is None or len(found[0]) > 1 for found in fields.values()):
        return None
    written = {letter: found[1] for letter, found in fields.items() if found}
    made = _substituted(formula, meant | written)
    for (part,) in over:
        made = CallNode("EVERY", (made,), formula.span, NameNode(part.name, formula.span))
    return made  # type: ignore[no-any-return]


def _substituted(node: Any, instead: dict[str, str]) -> Any:
    if isinstance(node, NameNode):
        return NameNode(instead.get(node.name, node.name), node.span)
    if isinstance(node, tuple):
        return tuple(_substituted(item, instead) for item in node)
    shown = getattr(node, "__match_args__", ())
    parts = {name: getattr(node, name) for name in shown if name not in ("span", "number")}
    changed = {name: _substituted(part, instead) for name, part in parts.items()}
    kept = all(changed[name] is part for name, part in parts.items())
    return node if kept else replace(node, **changed)


def _told(words: Words, meant: dict[str, str]) -> Diagnostic:
    read = ", ".join(f"{letter} as {thing}" for letter, thing in meant.items())
    return Diagnostic(
        "warning", words.span, f"'{words.text}' is read with {read}",
        "The letters are the claim's; the things stand left of the colon.",
        "if that is not so, write the formula with the names behind the words: two blanks, exactly ...",
    )  # fmt: skip
