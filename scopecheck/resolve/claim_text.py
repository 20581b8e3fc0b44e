"""A claim's text as tokens, and finding lifted words in it whatever their blanks, case, quotes and dashes."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from difflib import SequenceMatcher
from functools import cached_property, lru_cache
from typing import NamedTuple

from scopecheck.foundations.diagnostics import Diagnostic, Trouble
from scopecheck.foundations.record import field, holder
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import Page, plain
from scopecheck.language.scan import SIGN_WITH_POINT, spelled_places
from scopecheck.rewording.usual import end_of_sequences

_TOKEN = regex(rf"\d+(?:[.,]\d+)*|{SIGN_WITH_POINT}|[^\W\d_]\w*(?:'\w+)*|\.\.\.|…|<=|>=|\S")
IN_THOUSANDS = regex(r"\d{1,3}(?:,\d{3})+")
_ALIKE = {"…": "...", "≤": "<=", "≥": ">=", "×": "x"}


_MOST_WORDS_MORE = 4
"""How many words the text may have more, or fewer, than the words looked for, for its start to be theirs."""
_STOPS = (",", ";", ":", ".")


class Piece(NamedTuple):
    """One token of a claim: its text in lower case and its place. A long set has many thousands."""

    text: str
    start: int
    end: int


@lru_cache(maxsize=4096)
def pieces_of(text: str, offset: int = 0) -> tuple[Piece, ...]:
    """Numbers, words and single signs of a text."""
    found = []
    for match in _TOKEN.finditer(plain(text)):
        start, end = match.span()
        written = match.group().lower()
        if IN_THOUSANDS.fullmatch(written):
            written = written.replace(",", "")  # a line writes 160000 for the 160,000 of its claim
        found.append(Piece(_ALIKE.get(written, written), offset + start, offset + end))
    return tuple(found)


@holder
class ClaimText:
    """The tokens of a claim and which of them a line has taken."""

    source: Source
    tokens: list[Piece]
    taken: set[int] = field(default_factory=set)
    referring: set[int] = field(default_factory=set)
    """Tokens of references to other claims: no line restates them, unless it is a mark."""
    inside: frozenset[int] = frozenset()
    """Tokens with which an amount goes on that began before: no lifted words begin or end there."""
    widths: dict[int, int] = field(default_factory=dict)
    """For each number asked about, how many tokens spell its unit, where a sheet has no unit of its own."""
    by: dict[int, Span] = field(default_factory=dict)
    """For each token that a line has taken, the line's words."""
    left: dict[Span, str] = field(default_factory=dict)
    """For the words of each line what stands left of the colon."""

    @classmethod
    def of(cls, spans: Iterable[Span]) -> ClaimText:
        """The text that several lines hold, in order."""
        spans = tuple(spans)
        tokens = [piece for span in spans for piece in pieces_of(span.text, span.start)]
        return cls(spans[0].source, tokens)

    @cached_property
    def texts(self) -> list[str]:
        """The tokens' texts, in order."""
        return [token.text for token in self.tokens]

    @cached_property
    def starts(self) -> list[int]:
        """Where each token begins in the source."""
        return [token.start for token in self.tokens]

    @cached_property
    def where(self) -> dict[str, list[int]]:
        """For each text the tokens that have it, in order."""
        found: dict[str, list[int]] = {}
        for i, text in enumerate(self.texts):
            found.setdefault(text, []).append(i)
        return found

    @property
    def text(self) -> str:
        """The claim on one line."""
        if not self.tokens:
            return ""
        return " ".join(self.source.text[self.tokens[0].start : self.tokens[-1].end].split())

    def refer(self, places: Iterable[tuple[int, int]]) -> None:
        """Says where, by offsets in the source, the text refers to other claims."""
        self.referring = self.within(tuple(places))

    @cached_property
    def sequences(self) -> set[int]:
        """`SEQ ID NO: 1`: a sequence of the listing (37 CFR 1.821(d)), whose number limits nothing."""
        starts = self.where.get("seq", ())
        return {i for at in starts for i in range(at, end_of_sequences(self.texts, at))}

    def named(self, page: Page) -> tuple[tuple[int, int], ...]:
        """Where the text has declared names that hold numbers or signs."""
        return spelled_places(page, self.tokens[0].start, self.tokens[-1].end) if self.tokens else ()

    def within(self, places: tuple[tuple[int, int], ...]) -> set[int]:
        """The tokens that begin in some stretches of the source."""
        if not places:
            return set()
        starts = self.starts
        return {i for a, b in places for i in range(bisect_left(starts, a), bisect_left(starts, b))}

    def take(self, words: str, span: Span, claim: int, mark: bool = False) -> tuple[int, ...]:
        """The tokens that lifted words stand on: their first occurrence not yet taken, else the first.

        `...` in the words leaves out any stretch. Raises Trouble at the words if the text does not have them.
        A mark may name words that refer to other claims, too.
        """
        runs = _runs(words)
        found = self._search(runs, self.taken | self.referring) or self._search(runs, self.referring)
        if found is None and mark:
            found = self._search(runs, self.taken, True) or self._search(runs, set(), True)
        if found is None:
            cut = self._search(runs, self.referring, True)
            raise self._cut(cut, words, span, claim) if cut else self._missing(runs, words, span, claim)
        self.taken.update(found)
        if not mark:  # what is marked no line restates
            self.by.update(dict.fromkeys(found, span))
        return found

    def beside(self, start: int, end: int, within: int = 4) -> Span | None:
        """The words of the line that takes up what stands nearest to some tokens; None if none is near."""
        near = sorted((min(abs(i - start), abs(i - end + 1)), i) for i in range(start - within, end + within))
        return next((self.by[i] for _, i in near if i in self.by), None)

    def _search(self, runs: list[list[str]], barred: set[int], cut: bool = False) -> tuple[int, ...] | None:
        """The tokens of runs in their order; `cut`: even if one begins or ends inside an amount."""
        taken: list[int] = []
        at = 0
        for run in runs:
            start = self._run(run, at, barred, frozenset() if cut else self.inside)
            if start is None:
                return None
            taken += range(start, start + len(run))
            at = start + len(run)
        return tuple(taken)

    def _run(self, run: list[str], at: int, barred: set[int], inside: frozenset[int]) -> int | None:
        if not run:
            return at
        for start in self.where.get(run[0], ()):
            taken = range(start, start + len(run))
            if start < at or self.texts[start : taken.stop] != run or not barred.isdisjoint(taken):
                continue
            if start not in inside and taken.stop not in inside:
                return start
        return None

    def _cut(self, found: tuple[int, ...], words: str, span: Span, claim: int) -> Trouble:
        """The error for words that begin or end inside a number, its sign or its unit."""
        there, inside = set(found), self.inside
        start = next(i for i in found if (i in inside and i - 1 not in there) or i + 1 in inside - there)
        end = start + 1
        while start in inside or start - 1 in there:
            start -= 1
        while end in inside or end in there:
            end += 1
        place = Span(self.source, self.tokens[start].start, self.tokens[end - 1].end)
        whole = " ".join(place.text.split())
        return Trouble(
            Diagnostic(
                "error", span, f"'{words}' is cut out of '{whole}'",
                "A number is lifted with its sign and its whole unit; without them it is another limit.",
                f"write: {whole}", ((place, f"claim {claim} says"),),
            )
        )  # fmt: skip

    def _missing(self, runs: list[list[str]], words: str, span: Span, claim: int) -> Trouble:
        shown = words if len(words) < 60 else words[:57] + "..."
        lifted = [w for run in runs for w in run]
        place = self._nearest(lifted)
        also: tuple[tuple[Span, str], ...] = ()
        help = "lift the words from the claim; ... may stand for a gap"
        cause = "Right of a colon stand words of this claim's text, in their order."
        if place is not None:
            there = Span(self.source, self.tokens[place[0]].start, self.tokens[place[1] - 1].end)
            help = f"the text has: '{' '.join(there.text.split())}'"
            also = ((there, f"claim {claim} says"),)
            other = self._departure([t.text for t in self.tokens[slice(*place)]], lifted)
            cause = f"{cause} {other}".strip()
        what = f"claim {claim} does not say '{shown}'"
        return Trouble(Diagnostic("error", span, what, cause, help, also))

    def _departure(self, said: list[str], lifted: list[str]) -> str:
        """Where some words depart first from the text: 'The claim says 'and', the line 'or'.'"""
        matcher = SequenceMatcher(None, said, lifted, autojunk=False)
        for tag, a, b, c, d in matcher.get_opcodes():
            if tag == "replace":
                return f"The claim says '{' '.join(said[a:b])}', the line '{' '.join(lifted[c:d])}'."
            if tag == "insert":
                return f"The line has '{' '.join(lifted[c:d])}' besides."
            if tag == "delete" and a > 0 and b < len(said):
                return f"The line lacks '{' '.join(said[a:b])}'."
        return ""

    def _nearest(self, words: list[str]) -> tuple[int, int] | None:
        texts = self.texts
        blocks = SequenceMatcher(None, texts, words, autojunk=False).get_matching_blocks()
        longest = max(blocks, key=lambda b: b.size)
        counts = [sum(map(str.__eq__, texts[i:], words)) for i in range(max(1, len(texts) - len(words) + 1))]
        best = max(range(len(counts)), key=counts.__getitem__)
        if longest.size == 0:
            return None
        if counts[best] > longest.size:
            return best, min(len(texts), best + len(words))
        start = max(0, longest.a - longest.b)
        first = blocks[0]
        if first.size and first.b == 0 and abs(first.a - start) <= _MOST_WORDS_MORE:
            start = first.a  # the text says a little more or less in between
        end = min(len(texts), max(longest.a + longest.size, start + len(words)))
        while texts[start] in _STOPS and start < longest.a:
            start += 1
        while texts[end - 1] in _STOPS and end > longest.a + longest.size:
            end -= 1
        return (start, end)


def _runs(words: str) -> list[list[str]]:
    runs: list[list[str]] = [[]]
    for piece in pieces_of(words):
        if piece.text == "...":
            runs.append([])
        else:
            runs[-1].append(piece.text)
    return [run for run in runs if run] or [[]]
