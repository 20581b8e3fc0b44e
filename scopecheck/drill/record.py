"""What a learner did, one JSON object on each line of a file of the learner's own; progress read from it."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from typing import Any

from scopecheck.drill.exact import entry_of
from scopecheck.drill.exercise import Unreadable, Verdict
from scopecheck.drill.explain import about
from scopecheck.drill.making import Made
from scopecheck.foundations.record import record
from scopecheck.report.wording import sentence

SCHEMA = 1
FEW = 3
"""Answers from which on a group is compared with others."""


@record
class Result:
    """One graded answer. `phrases` and `groups` are those that the exercise turns on."""

    learner: str
    source: str
    seed: int
    number: int
    kind: str
    level: int
    phrases: tuple[str, ...]
    groups: tuple[str, ...]
    answer: str
    mark: str

    @property
    def line(self) -> str:
        """The result as one line of a record."""
        return json.dumps(self.data, ensure_ascii=False) + "\n"

    @property
    def data(self) -> dict[str, object]:
        """The result under the names of the record format."""
        return {
            "schema_version": SCHEMA,
            "learner": self.learner,
            "source": self.source,
            "seed": self.seed,
            "number": self.number,
            "kind": self.kind,
            "level": self.level,
            "phrases": list(self.phrases),
            "groups": list(self.groups),
            "answer": self.answer,
            "mark": self.mark,
        }


def result(made: Made, answer: str, verdict: Verdict, learner: str, seed: int, number: int) -> Result:
    """The result of an answer."""
    exercise, bench = made.exercise, made.bench
    entries = [e for x in about(bench, exercise.problem) if (e := entry_of(bench, x))]
    phrases = tuple(dict.fromkeys(e.title for e in entries))
    groups = tuple(dict.fromkeys(e.group for e in entries))
    kind, level = exercise.kind, exercise.level
    said = " ".join(answer.split())
    return Result(learner, exercise.about, seed, number, kind, level, phrases, groups, said, verdict.mark)


def begin(path: str) -> None:
    """Finds out that results can be added to the file, which is made if need be. Raises OSError if not."""
    with open(path, "a", encoding="utf-8"):
        pass


def append(path: str, found: Result) -> None:
    """Adds one result at the end of the file, which is on the disk when this returns."""
    with open(path, "a", encoding="utf-8", errors="replace") as file:
        file.write(found.line)
        file.flush()
        os.fsync(file.fileno())


def read_record(path: str) -> list[Result]:
    """The results in the file; none where there is no such file yet. Raises Unreadable for any other file."""
    if not os.path.exists(path):
        return []
    with open(path, encoding="utf-8", errors="replace") as file:
        lines = file.read().split("\n")
    return [_result(line, path, number) for number, line in enumerate(lines, 1) if line.strip()]


def _result(line: str, path: str, number: int) -> Result:
    try:
        data: dict[str, Any] = json.loads(line)
        if data.pop("schema_version") != SCHEMA:
            raise KeyError
        found: dict[str, Any] = {name: tuple(v) if isinstance(v, list) else v for name, v in data.items()}
        return Result(**found)
    except (ValueError, KeyError, TypeError):
        raise Unreadable(sentence("drill", "record", "foreign", path=path, line=number)) from None


@record
class Progress:
    """How often answers were right; `share` is right in a hundred."""

    name: str
    answered: int
    right: int

    @property
    def share(self) -> int:
        return 100 * self.right // self.answered if self.answered else 0


def progress(results: Iterable[Result], by: str) -> list[Progress]:
    """By "groups" of phrases or by "kind": what was answered and what of it was right, by name."""
    counts: dict[str, list[int]] = {}
    for r in results:
        if r.mark == "undecided":
            continue
        value = getattr(r, by)
        for name in (value,) if isinstance(value, str) else value:
            found = counts.setdefault(name, [0, 0])
            found[0] += 1
            found[1] += r.mark in ("right", "not plain")
    return [Progress(name, *counts[name]) for name in sorted(counts)]


def weakest(found: Iterable[Progress]) -> Progress | None:
    """What to practise next: the least share of right answers, if any was wrong."""
    tried = [p for p in found if p.right < p.answered]
    return min(tried, key=lambda p: (p.answered < FEW, p.share, p.name), default=None)
