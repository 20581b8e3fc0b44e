"""What a cell says of an assembly: `2 plates + 1 spring`, which is all that is there, `none`."""

from __future__ import annotations

import re
from fractions import Fraction

from scopecheck.core.declared import Assembly
from scopecheck.core.formula import Compare, Const, Formula, Measured, Value
from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.vocabulary.classes import has, members_below
from scopecheck.vocabulary.names import member_of, no_member

_HOW_MANY = regex(r"(\d+|[a-z]+)\s+(\S.*)")


@record
class SaidOfParts:
    """The facts of a cell, and how many of each kind they fix; `all_fixed`: of each kind named."""

    facts: tuple[Formula, ...]
    point: dict[str, Value]
    all_fixed: bool


def said_of_assembly(made: Assembly, text: str, span: Span, document: bool) -> SaidOfParts:
    """What a cell says: of a thing all its parts, of a document those it mentions, in braces all of them.

    Raises Trouble at a word that names no member.
    """
    exact = not document or text.startswith("{") or text == "none"
    inner = "" if text == "none" else text.strip("{}")
    point: dict[str, Value] = {}
    facts: list[Formula] = []
    named: set[str] = set()
    all_fixed = True
    for words in (w.strip() for w in re.split(r"\+|,|\band\b", inner)):
        if not words:
            continue
        number, member = _counted(made, words, span)
        below = members_below(made, member)
        named.update(below)
        all_fixed = all_fixed and number is not None
        if number is None:
            facts.append(has(made, member))
        else:
            facts.append(Compare("=", Measured(member), Const(number)))
            point[member] = number
    for member in made.members if exact else ():
        if member not in named:
            facts.append(Compare("=", Measured(member), Const(Fraction(0))))
            point[member] = Fraction(0)
    return SaidOfParts(tuple(facts), point, all_fixed)


def _counted(made: Assembly, words: str, span: Span) -> tuple[Fraction | None, str]:
    """`2 plates`, `a spring`, `plates`: how many, None where that is not said, and of what."""
    match = _HOW_MANY.fullmatch(words.lower())
    number = None
    if match:
        said = match[1]
        if said in ("a", "an"):
            number = Fraction(1)
        elif said.isdecimal() or said in NUMBER_WORDS:
            number = Fraction(int(said)) if said.isdecimal() else Fraction(NUMBER_WORDS[said])
    member = member_of(made, words if number is None or match is None else match[2])
    if member is None:
        raise no_member(made, words, span)
    if number is not None and member not in made.members:
        if number == 1:
            return None, member
        raise trouble(
            span, f"'{words}': {member} is an assembly, which is not counted",
            f"It is there if one of its parts is: {', '.join(members_below(made, member))}.",
            f"write {member}, or how many there are of its parts",
        )  # fmt: skip
    return number, member
