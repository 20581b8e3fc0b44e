"""Statements about the claims' text itself: answers given once, nouns that are one, nouns that go unsaid."""

from __future__ import annotations

from typing import Literal

from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.regex import regex
from scopecheck.language.layout import Block
from scopecheck.language.pieces import Desk, after_word, one_line, split_commas, without_note
from scopecheck.language.syntax import AnsweredStatement, NounsStatement

_ANSWERED = regex(r'"(?P<words>[^"]*)"(?:\s+in\s+(?:claim\s+)?(?P<claim>\d{1,4}))?\s*(?P<colon>:)?\s*')
_FORM = 'answered "the springs" in 4 : the leaf springs of claim 1   "figure 2"'


def answered(desk: Desk, block: Block) -> AnsweredStatement:
    """`answered "the springs" in 4 : the leaf springs of claim 1   "why"`. The reason is required."""
    start = after_word(desk.text, "answered", block.head)
    last = block.body[-1].end if block.body else block.head.end
    whole = desk.span(block.head.start, last)
    match = _ANSWERED.match(desk.text, start, last)
    if not match or not match["words"].strip() or not match["colon"]:
        raise trouble(
            whole, "an answer without the words it is about, a colon and what they mean", "",
            f"write for example: {_FORM}",
        )  # fmt: skip
    end, reason = without_note(desk, match.end(), last)
    answer = one_line(desk.page.source.text[match.end() : end])
    if not reason or not answer:
        raise trouble(
            whole, "an answer without its reason",
            "An answer stays, so that a later reader must see what it rests on.",
            f"write what the words mean and, after two blanks, in quotes, why: {_FORM}",
        )  # fmt: skip
    claim = int(match["claim"]) if match["claim"] else None
    return AnsweredStatement(one_line(match["words"]), claim, answer, reason, whole)


def nouns(desk: Desk, block: Block) -> NounsStatement:
    """`alike  lid, cover` or `inherent  rim, floor`: nouns with commas between them."""
    start = after_word(desk.text, block.heading, block.head)
    last = block.body[-1].end if block.body else block.head.end
    end, _ = without_note(desk, start, last)
    found = tuple(one_line(desk.text[a:b]).lower() for a, b in split_commas(desk.text, start, end))
    heading: Literal["alike", "inherent"] = "alike" if block.heading == "alike" else "inherent"
    if not all(found) or len(found) < (2 if heading == "alike" else 1):
        raise trouble(
            desk.span(block.head.start, last), f"'{heading}' without its nouns", "",
            f"write nouns with commas, such as: {heading}  lid, cover",
        )  # fmt: skip
    return NounsStatement(heading, found, desk.span(start, last))
