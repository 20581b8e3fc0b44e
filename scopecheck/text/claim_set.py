"""The claims of a text for rules on their words: their nouns, and which claims each goes back on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scopecheck.foundations.record import field, holder
from scopecheck.text.mentions import Mention
from scopecheck.text.stream import Stream

MOST_LINES = 8
"""How many lines of claims above a claim are followed."""


@holder
class Known:
    """What the user says of nouns: which are one, and what a thing has without its being said."""

    alike: Mapping[str, frozenset[str]] = field(default_factory=dict)
    inherent: frozenset[str] = frozenset()


@holder
class Set:
    """All claims of a text: their words and their nouns."""

    streams: Mapping[int, Stream]
    mentions: Mapping[int, Sequence[Mention]]
    known: Known
    told: dict[int, set[tuple[str, frozenset[str], bool]]] = field(default_factory=dict)
    """The nouns already told of, by claim: the claims that go back on it do not repeat it."""

    def lines_above(self, number: int) -> list[tuple[int, ...]]:
        """The claims that a claim goes back on, the nearest first; one line for each way up."""
        lines: list[tuple[int, ...]] = []
        queue: list[tuple[int, ...]] = [(number,)]
        while queue and len(lines) < MOST_LINES:
            line = queue.pop(0)
            above = [p for p in self.streams[line[-1]].parents if p not in line]
            if above:
                queue += [(*line, p) for p in above[:MOST_LINES]]
            else:
                lines.append(line)
        return lines or [(number,)]


ORDERED = frozenset("first second third fourth fifth sixth".split())


def earlier_of(all_: Set, line: tuple[int, ...], mention: Mention) -> list[Mention]:
    """The nouns brought in above or before a mention with its head, or one that is called alike."""
    heads = {mention.head} | all_.known.alike.get(mention.head, frozenset())
    found = [
        m for number in reversed(line[1:]) for m in all_.mentions[number]
        if m.head in heads and m.how != "definite"
    ]  # fmt: skip
    own = (m for m in all_.mentions[mention.claim] if m.end <= mention.start)
    return found + [m for m in own if m.head in heads and m.how != "definite"]


def subjects(all_: Set, line: tuple[int, ...]) -> frozenset[str]:
    """What the claims of a line are claims to."""
    return frozenset(m.head for number in line for m in all_.mentions[number][:1])
