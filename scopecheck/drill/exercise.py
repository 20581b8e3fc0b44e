"""An exercise, what it is about, and what was said of an answer: data only."""

from __future__ import annotations

from typing import Literal, TypeAlias

from scopecheck.answers.findings import Finding
from scopecheck.core.formula import Article, Value
from scopecheck.foundations.record import field, record

Kind: TypeAlias = Literal[
    "let in", "kept out", "falls out", "narrows", "keeps out", "reword", "two phrases", "how far"
]
KINDS: tuple[Kind, ...] = (
    "let in", "kept out", "falls out", "narrows", "keeps out", "reword", "two phrases", "how far"
)  # fmt: skip
LEVELS = (1, 2, 3)
Mark: TypeAlias = Literal["right", "not plain", "wrong", "undecided"]
"""`not plain`: right, where a thing further from the border, or a nearer number, would show it better."""


class Unreadable(Exception):
    """An answer that cannot be read: it is asked for again, and nothing is graded."""


@record
class Aim:
    """What an exercise is about: a claim, a limitation of it, readings of its phrase, a quantity.

    Readings go by their labels; '' where the sheet itself says what is meant. `wanted` says of each line
    of the claim, in order, how it lies to the thing to be looked for.
    """

    kind: Kind
    claim: int
    label: str = ""
    reading: str = ""
    other: str = ""
    name: str = ""
    upward: bool = True
    labels: tuple[str, ...] = ()
    wanted: tuple[str, ...] = ()


@record
class Problem:
    """An exercise as solved: what is told, what is asked, and an answer that is right.

    `sample` is the thing to start from, `case` one that is asked about. `solution` is written as an answer;
    `nothing` says that the right answer is "none", which was shown by looking at everything. `ends` is what
    an estimate is held against: where it begins and where the end lies. `finding` has the thing and how the
    words are read there.
    """

    aim: Aim
    told: tuple[str, ...]
    asked: str
    how: str
    solution: str
    nothing: bool = False
    sample: tuple[tuple[str, Value], ...] = ()
    case: tuple[tuple[str, Value], ...] = ()
    labels: tuple[str, ...] = ()
    standing: int = 0
    finding: Finding | None = field(default=None, compare=False)

    @property
    def start(self) -> Article:
        return dict(self.sample)

    @property
    def thing(self) -> Article:
        return dict(self.case)


@record
class Exercise:
    """A problem in its sheet: `text` is the sheet's, `about` its trade or title."""

    name: str
    level: int
    text: str
    about: str
    claims: tuple[str, ...]
    problem: Problem

    @property
    def kind(self) -> Kind:
        return self.problem.aim.kind


@record
class Verdict:
    """What is said of an answer."""

    mark: Mark
    lines: tuple[str, ...]
