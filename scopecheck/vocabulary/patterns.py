"""Wordings of phrases as patterns: words to be found, and slots for what stands between them."""

from __future__ import annotations

from functools import cached_property
from typing import Literal, TypeAlias

from scopecheck.foundations.diagnostics import trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span


@record
class Literals:
    """Words to be found: one of several alternatives, each one or more tokens; perhaps left out."""

    options: tuple[tuple[str, ...], ...]
    optional: bool


SlotKind: TypeAlias = Literal[
    "number", "whole", "plain", "difference", "ratio", "list", "noun", "limit", "step", "moment",
    "outcome", "condition", "state",
]  # fmt: skip


@record
class Slot:
    """A place for a number, a list, a noun, a whole limit in words, a step, or the start or end of one.

    An `outcome` is what is said under a condition, a `condition` what it hangs on, each of its own things; a
    `state` is what a switch does.
    `joiner` of a list: and, or, nor, and/or, comma, '' (any).
    """

    kind: SlotKind
    name: str
    joiner: str = ""


Element: TypeAlias = Literals | Slot


@record
class Pattern:
    """One wording of a phrase."""

    text: str
    elements: tuple[Element, ...]

    @cached_property
    def required(self) -> tuple[frozenset[str], ...]:
        """The words, in small letters, without which it cannot match: one of each set."""
        return tuple(
            frozenset(option[0].lower() for option in e.options)
            for e in self.elements
            if isinstance(e, Literals) and not e.optional
        )

    @cached_property
    def slots(self) -> tuple[Slot, ...]:
        return tuple(e for e in self.elements if isinstance(e, Slot))

    @property
    def plain(self) -> str:
        """The wording for people: the first of alternatives, dots for what stands in slots."""
        return self.said_with(frozenset())

    def said_with(self, words: frozenset[str]) -> str:
        """As `plain`, but of alternatives that which stands among these words."""
        words_of = [
            (f"... {e.joiner} ..." if e.joiner in ("and", "or", "nor") else "...")
            if isinstance(e, Slot)
            else " ".join(next((o for o in e.options if o[0].lower() in words), e.options[0]))
            for e in self.elements
            if isinstance(e, Slot) or not e.optional or e.options == ((",",),)
        ]
        return " ".join(words_of).replace(" ,", ",")


_ELEMENT = regex(r"<([^>]*)>|\[([^\]]*)\]|\(([^()]*)\)|(\S+)")
_SLOT_KINDS: tuple[SlotKind, ...] = (
    "number", "whole", "plain", "difference", "ratio", "list", "noun", "limit", "step", "moment",
    "outcome", "condition", "state",
)  # fmt: skip
_WORD = regex(r"[\w'-]*\w|\S")


def pattern(text: str, span: Span) -> Pattern:
    """A wording as elements. Raises Trouble at the wording if it has neither a word nor a slot."""
    elements: list[Element] = []
    for match in _ELEMENT.finditer(text.replace(",", " , ").replace("+/-", "±")):
        required, optional, slot, word = match.groups()
        if slot is not None:
            elements.append(_slot(slot, span))
        elif word is not None:
            elements.append(Literals((tuple(_WORD.findall(word)),), word == ","))
        else:
            options = tuple(
                tuple(_WORD.findall(o)) for o in (required or optional or "").split("/") if o.strip()
            )
            elements.append(Literals(options, optional is not None))
    if not elements:
        raise trouble(span, "a phrase without words")
    return Pattern(text, tuple(elements))


def _slot(text: str, span: Span) -> Slot:
    words = text.split()
    if len(words) == 1 and words[0].isidentifier():
        return Slot("number", words[0])
    kind = next((k for k in _SLOT_KINDS if words and words[0] == k), None)
    if kind is None or len(words) not in (2, 3) or (len(words) == 3 and kind != "list"):
        raise trouble(
            span, f"'({text})' is no slot", f"A slot is a kind and a name; kinds: {', '.join(_SLOT_KINDS)}.",
            "write for example (L) or (list M or)",
        )  # fmt: skip
    return Slot(kind, words[1], words[2] if len(words) == 3 else "")
