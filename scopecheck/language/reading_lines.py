"""Readings as written, and the fields that stand below phrases and readings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scopecheck.foundations.diagnostics import did_you_mean, trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.language.pieces import Desk, find_colon, one_line, split_commas, trimmed
from scopecheck.language.syntax import Free, Raw, ReadingText

_KEYWORD = regex(
    r"(also|where|reading|free|own|sets|taken by|only for|only when|presumed|strained|source|exact wording"
    r'|ask|group|id|subjects|each has)\b(?=\s*["\w(])'
)
_OF_READING = frozenset(("free", "own", "sets", "taken by", "only for", "only when", "exact wording"))


@record
class Part:
    """A field: its keyword, the place of the text after it, and how far its line is indented."""

    keyword: str
    start: int
    end: int
    indent: int = 0


def parts(desk: Desk, stretches: Iterable[tuple[int, int, int]]) -> Iterator[Part]:
    """Fields in order, from (start, end, indent); a line without a keyword goes on with the one above."""
    current: Part | None = None
    for start, end, indent in stretches:
        match = _KEYWORD.match(desk.text, start, end)
        if match:
            if current:
                yield current
            current = Part(match.group(1), trimmed(desk.text, match.end(), end)[0], end, indent)
        elif current:
            current = Part(current.keyword, current.start, end, current.indent)
        else:
            raise trouble(
                desk.span(start, end), "this line is not understood here",
                'Below a phrase or term stand lines such as: reading "label" : facts.',
            )  # fmt: skip
    if current:
        yield current


_LABEL = regex(r'"([^"]*)"')
_STANDING = regex(r"(presumed|arguable|strained)(?:\s+in\s+(US court|US examination|US|EPO))?$")


def readings_from(desk: Desk, fields: list[Part]) -> tuple[tuple[ReadingText, ...], list[Part]]:
    """The readings among a statement's fields, each with the deeper fields below it; and the other fields."""
    found: list[ReadingText] = []
    rest: list[Part] = []
    head: Part | None = None
    below: list[Part] = []
    for part in fields:
        if part.keyword == "reading":
            if head:
                found.append(_reading(desk, head, below))
            head, below = part, []
        elif head and part.keyword in _OF_READING and part.indent > head.indent:
            below.append(part)
        else:
            rest.append(part)
    if head:
        found.append(_reading(desk, head, below))
    labels = [r.label for r in found]
    for index, reading in enumerate(found):
        if reading.label in labels[:index]:
            raise trouble(reading.span, f"two readings are called '{reading.label}'")
    return tuple(found), rest


def _reading(desk: Desk, head: Part, below: list[Part]) -> ReadingText:
    text, whole = desk.text, desk.span(head.start, head.end)
    label = _LABEL.match(text, head.start, head.end)
    if not label:
        raise trouble(
            whole, "a reading without a label",
            "A line that begins with 'reading' and is set in further than the one above is a reading of it.",
            'write reading "label" : facts; or, for a line of its own, set it in as far as the lines above',
        )  # fmt: skip
    colon = find_colon(text, label.end(), head.end)
    if colon < 0:
        raise trouble(whole, "a reading without a colon", "", 'write reading "label" : facts')
    raw = desk.raw(colon + 1, head.end)
    if raw.start == raw.end:
        raise trouble(whole, f"the reading '{label.group(1)}' has no meaning after its colon")

    def texts(keyword: str) -> list[str]:
        return [unquoted(desk, p) for p in below if p.keyword == keyword]

    return ReadingText(
        one_line(label.group(1)),
        tuple(_standings(desk, label.end(), colon)) if label.end() < colon else (),
        None if text[raw.start : raw.end] == "not computed" else raw,
        tuple(_free(desk, p) for p in below if p.keyword in ("free", "own")),
        tuple(pair for p in below if p.keyword == "sets" for pair in _axes(desk, p)),
        next(iter(texts("taken by")), ""),
        tuple(k for p in below if p.keyword == "only for" for k in _kinds_of_reading(desk, p)),
        tuple(desk.raw(p.start, p.end) for p in below if p.keyword == "only when"),
        next(iter(texts("exact wording")), ""),
        whole,
    )


def _standings(desk: Desk, start: int, end: int) -> Iterator[tuple[str, str]]:
    start, end = trimmed(desk.text, start, end)
    if start == end:
        return
    for a, b in split_commas(desk.text, start, end):
        match = _STANDING.fullmatch(" ".join(desk.text[a:b].split()))
        if not match:
            raise trouble(
                desk.span(a, max(b, a + 1)), f"'{desk.text[a:b]}' is no standing",
                "A reading is presumed, arguable or strained, for all or in one profile.",
                "write for example: presumed, or: arguable, presumed in EPO",
            )  # fmt: skip
        yield match.group(1), match.group(2) or ""


def _axes(desk: Desk, part: Part) -> Iterator[tuple[str, str]]:
    for start, end in split_commas(desk.text, part.start, part.end):
        axis, colon, value = desk.text[start:end].partition(":")
        if not colon:
            raise trouble(desk.span(start, end), "an axis without a value", "", "write sets ends : included")
        yield " ".join(axis.split()), " ".join(value.split())


KINDS = (
    *"measured counts amounts levels gauge absolute shares sets choices compositions assemblies".split(),
    *"parts classes steps sequences moments totals switches conditions deviations".split(),
    "open counts", "closed counts",
)  # fmt: skip


OF_WHOLE_PHRASES = frozenset("parts classes steps sequences moments conditions deviations".split())
"""The kinds that tell by which phrases words may be read, and tell no readings of one phrase apart."""


def kinds(desk: Desk, part: Part) -> Iterator[str]:
    """The kinds of subject after `only for`. Raises Trouble at one that is none."""
    for start, end in split_commas(desk.text, part.start, part.end):
        kind = desk.text[start:end]
        if kind not in KINDS:
            raise trouble(
                desk.span(start, max(end, start + 1)), f"'{kind}' is no kind of subject",
                f"The kinds are: {', '.join(KINDS)}.",
            )  # fmt: skip
        yield kind


A_MOMENT = "a moment"
_EACH_HAS = (A_MOMENT, "a place or moment")
"""What a phrase may ask to be said of each of like parts left of the colon: when it is, or where or when."""


def each_has(desk: Desk, part: Part, only_for: tuple[str, ...]) -> str:
    """What each of like parts has that the phrase is said of. Raises Trouble at anything else."""
    what, span = one_line(desk.text[part.start : part.end]), desk.span(part.start, part.end)
    if what not in _EACH_HAS:
        allowed = " or ".join(f"'{known}'" for known in _EACH_HAS)
        raise trouble(
            span, f"'{what}' is nothing that a phrase asks each part to have",
            f"What it may ask for is {allowed}.", did_you_mean(what, _EACH_HAS),
        )  # fmt: skip
    if "parts" not in only_for:
        raise trouble(
            span, "'each has' below a phrase that is not only for parts",
            "It tells of which quantity of like parts the words are said.",
            "write only for parts at the phrase, or take it out",
        )  # fmt: skip
    return what


def _kinds_of_reading(desk: Desk, part: Part) -> Iterator[str]:
    """The kinds of subject that a reading is for. Raises Trouble at one that whole phrases alone are for."""
    for kind in kinds(desk, part):
        if kind in OF_WHOLE_PHRASES:
            allowed = ", ".join(k for k in KINDS if k not in OF_WHOLE_PHRASES)
            raise trouble(
                desk.span(part.start, part.end), f"a reading cannot be only for {kind}",
                f"Whole phrases can. A reading may be for: {allowed}.",
                f"write only for {kind} at the phrase, above its readings, or take it out",
            )  # fmt: skip
        yield kind


_FREE = regex(r"([A-Za-z]\w*)(?:\s+like\s+([^:]+?))?\s*:")
_LIKE = regex(r"like\s+")
_PRESUMED = regex(r"presumed\s+")


def _free(desk: Desk, part: Part) -> Free:
    """`free e : e >= 0, presumed 0` (a plain number) or `own d : like x - x, d >= 0, presumed 0`."""
    whole = desk.span(part.start, part.end)
    head = _FREE.match(desk.text, part.start, part.end)
    if not head:
        raise trouble(
            whole, "a free number without bounds", "", "write free e : 0 % <= e <= 10 %, presumed 5 %"
        )
    like = desk.raw(head.start(2), head.end(2)) if head.group(2) else None
    presumed = None
    bounds: list[Raw] = []
    for a, b in split_commas(desk.text, head.end(), part.end):
        if match := _LIKE.match(desk.text, a, b):
            like = desk.raw(match.end(), b)
        elif match := _PRESUMED.match(desk.text, a, b):
            presumed = desk.raw(match.end(), b)
        else:
            bounds.append(desk.raw(a, b))
    if part.keyword == "own" and like is None:
        raise trouble(whole, "an own number without a kind", "", f"write own {head.group(1)} : like x, ...")
    return Free(head.group(1), like, tuple(bounds), presumed, whole)


def unquoted(desk: Desk, part: Part) -> str:
    """A field's text without its quotes, on one line."""
    return one_line(desk.page.source.text[part.start : part.end]).strip('"“”„')
