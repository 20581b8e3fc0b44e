"""What an item above told in full, told shortly: `as at item 2`."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from scopecheck.foundations.record import replace
from scopecheck.report.blocks import Block, Item
from scopecheck.report.wording import sentence

LONG = 60
"""A text of fewer characters is told again: looking it up would take longer."""
WORTH = 25
"""So many characters a short form has to save."""
FIRST_WORDS = 3
"""So many of its words call a given fact to mind."""
LONG_VALUES = 90
"""Values that fill more than a line."""


def told_once(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """The blocks; what an item repeats word for word of one above is called by its short form and number.

    What is shortened stands in full in the item that is named.
    """
    told: dict[object, int] = {}
    return tuple(_shortened(block, told) if isinstance(block, Item) else block for block in blocks)


def _shortened(item: Item, told: dict[object, int]) -> Item:
    number, brief = item.number, dict(item.brief)
    margin = tuple((word, _row(word, texts, brief, number, told)) for word, texts in item.margin)
    statement = item.statement
    if item.values and (above := told.setdefault(item.values, number)) != number:
        short = sentence("item", "values_at", number=above)
        if len(item.values) >= LONG_VALUES:
            statement = statement.replace(f"({item.values})", f"({short})")

    def given_once(texts: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(_given_once(text, number, told) for text in texts)

    (statement,) = given_once((statement,))
    margin = tuple((word, given_once(texts)) for word, texts in margin)
    also, follows = given_once(item.also), given_once(item.follows)
    return replace(item, margin=margin, statement=statement, also=also, follows=follows)


def _given_once(text: str, number: int, told: dict[object, int]) -> str:
    """The text; a long given fact that stands in full above is told by the words it begins with."""

    def shown(match: re.Match[str]) -> str:
        fact, above = match[1], told.get(("given", match[1]))
        if len(fact) < LONG or above is None:
            told.setdefault(("given", fact), number)
            return match[0]
        begins = " ".join(fact.split()[:FIRST_WORDS]).rstrip(",")
        key = "given_above" if above == number else "given_at"
        return sentence("thing", key, begins=begins, number=above)

    return _given().sub(shown, text)


@cache
def _given() -> re.Pattern[str]:
    return re.compile(sentence("thing", "by_given", given='"([^"]*)"'))


def _row(
    word: str, texts: tuple[str, ...], brief: dict[str, str], number: int, told: dict[object, int]
) -> tuple[str, ...]:
    """The texts of one margin word: all of them as at one item above, or each by its own short form."""
    above = told.setdefault((word, texts), number)
    plain = word == sentence("margin", "reading") and not any('"' in text for text in texts)
    long = sum(map(len, texts)) >= LONG and not plain  # a plain sentence is sooner read than looked up
    if above != number and long and not any(text in brief for text in texts):
        return (sentence("item", "as_at", number=above),)
    return tuple(_text(word, text, brief, number, told) for text in texts)


def _text(word: str, text: str, brief: dict[str, str], number: int, told: dict[object, int]) -> str:
    above = told.setdefault((word, text), number)
    if above == number:
        return text
    short = brief.get(text, "")
    if word == sentence("margin", "bearer"):
        return short or text
    if not short and (len(text) < LONG or word != sentence("margin", "note")):
        return text
    key = "asked_at" if short.endswith("?") else "so_as_at" if short else "as_at"
    shown = sentence("item", key, short=short, number=above)
    return shown if len(shown) + WORTH <= len(text) else text
