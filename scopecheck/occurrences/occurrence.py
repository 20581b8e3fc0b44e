"""Where a phrase stands, and its formulas as they are written: parsed, and what they name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scopecheck.core.model import OwnPhrase, called
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Span
from scopecheck.language.parse import parse_facts
from scopecheck.language.scan import Own
from scopecheck.language.syntax import (
    CallNode,
    NameNode,
    Node,
    NumberNode,
    Raw,
    RoundNode,
)
from scopecheck.vocabulary.names import Bound


@record
class Occurrence:
    """Where a phrase stands and what fills its slots. `shown` are the slots' texts, for people."""

    document: str
    where: str
    words: str
    wording: str
    slots: Mapping[str, Bound]
    shown: Mapping[str, str]
    span: Span
    own: OwnPhrase | None = None

    @property
    def called(self) -> str:
        """What the phrase is called."""
        return called(self.wording, self.words)


_PARSED: dict[tuple[int, int, int], tuple[Raw, Node]] = {}


def parsed(raw: Raw, own: Own) -> Node:
    """A formula's node; catalogue formulas are parsed once a run."""
    key = (id(raw.page), raw.start, raw.end)
    found = _PARSED.get(key)
    if found is None or found[0].page is not raw.page:
        found = (raw, parse_facts(raw.page, raw.start, raw.end, own))
        if len(_PARSED) > 4000:
            _PARSED.clear()
        _PARSED[key] = found
    return found[1]


def names_of(node: Node) -> list[NameNode]:
    """The names of a formula, where they stand."""
    return [part for part in _parts_of(node) if isinstance(part, NameNode)]


def numbers_of(node: Node) -> list[NumberNode]:
    """The numbers of a formula, where they stand."""
    return [part for part in _parts_of(node) if isinstance(part, NumberNode)]


def _parts_of(node: Node) -> Iterator[object]:
    stack: list[object] = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, tuple):
            stack += item
        elif isinstance(item, NameNode):
            yield item
        elif hasattr(item, "__match_args__") and not isinstance(item, Span):
            yield item
            stack += [getattr(item, name) for name in item.__match_args__ if name not in ("span", "number")]


def names_used(node: Node) -> set[str]:
    """The names a formula uses, those inside PLACE, FIGURE and DECADE left out."""
    found: set[str] = set()
    stack: list[object] = [node]
    while stack:
        item = stack.pop()
        if isinstance(item, NameNode):
            found.add(item.name)
        elif isinstance(item, RoundNode):
            stack.append(item.item)
        elif isinstance(item, CallNode) and item.function in ("PLACE", "FIGURE", "DECADE"):
            continue
        elif isinstance(item, tuple):
            stack += item
        elif hasattr(item, "__match_args__") and not isinstance(item, Span):
            stack += [getattr(item, name) for name in item.__match_args__ if name not in ("span", "number")]
    return found
