"""That symbols beside a word of approximation leave one reading of it, and none that stretches."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.syntax import ChainNode, NumberNode, Restatement
from scopecheck.rewording.lettered import nodes_in

_CAUSE = (
    "Symbols have one reading: how far the word stretches, or what rounds to the number, is no longer asked."
)
_HELP = (
    "if that is in dispute, lift words that a phrase reads, or put a line below for each way:"
    ' reading "..." : facts'
)
_NUMBER = regex(r"(\d+(?:,\d{3})*(?:\.\d+)?)(?::(\d+(?:\.\d+)?))?")
_PLACES = frozenset(("close", "near"))


def given_up(line: Restatement) -> Diagnostic | None:
    """The warning for `about 45 percent  exactly  share >= 45 vol%`; None where the symbols have no such end.

    Symbols that say how far it stretches ("44 <= share <= 46") limit by other numbers than the words.
    """
    if line.exact is None or line.words is None:
        return None
    chains = (node for node in nodes_in(line.exact) if isinstance(node, ChainNode))
    ends = {item.number.value for chain in chains for item in chain.operands if isinstance(item, NumberNode)}
    near = listed("degree", "nearness") - _PLACES
    for word, behind in pairwise(line.words.text.split()):
        if word.lower() in near and _value(behind) in ends:
            message = f"the readings of '{word}' are given up here: its end is taken as exact"
            return Diagnostic("warning", line.words.span, message, _CAUSE, _HELP)
    return None


def _value(word: str) -> Fraction | None:
    """The number that a word begins with, `1:5.7` as a quotient, or that it is."""
    numbers = _NUMBER.match(word)
    if numbers is None:
        said = NUMBER_WORDS.get(word.lower().strip(",;"))
        return None if said is None else Fraction(said)
    first, second = (Fraction(n.replace(",", "")) if n else None for n in numbers.groups())
    return first if first is None or not second else first / second


def told_once(told: Diagnostic, wrong: list[Diagnostic]) -> None:
    """Adds the warning to those of the sheet, or its place to the first such one."""
    at = next((i for i, d in enumerate(wrong) if d.cause == _CAUSE), None)
    if at is None:
        wrong.append(told)
    else:
        wrong[at] = replace(wrong[at], also=(*wrong[at].also, (told.span, "here, too")))
