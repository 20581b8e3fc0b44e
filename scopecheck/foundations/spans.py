"""Where something stands in a source text: the only conversion from offsets to lines and columns."""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property

from scopecheck.foundations.record import record


@record
class Source:
    """A text with a name for messages (a file name, `catalogue between`, `probe`)."""

    name: str
    text: str

    @cached_property
    def _starts(self) -> list[int]:
        return [0, *(i + 1 for i, c in enumerate(self.text) if c == "\n")]

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1."""
        line = bisect_right(self._starts, offset)
        return line, offset - self._starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of a line (from 1), without its line end."""
        starts = self._starts
        end = starts[number] - 1 if number < len(starts) else len(self.text)
        return self.text[starts[number - 1] : end]


@record
class Span:
    """The characters from `start` up to, not including, `end`."""

    source: Source
    start: int
    end: int

    @property
    def line(self) -> int:
        return self.source.position(self.start)[0]

    @property
    def column(self) -> int:
        return self.source.position(self.start)[1]

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]
