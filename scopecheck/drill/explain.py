"""What is told after an answer: the readings, a thing that shows it, more exact wording, the authority."""

from __future__ import annotations

from scopecheck.core.formula import Article
from scopecheck.core.model import Limitation
from scopecheck.drill.bench import Bench
from scopecheck.drill.exact import entry_of, proposal
from scopecheck.drill.exercise import Problem
from scopecheck.drill.sayings import read_said, readings_said, words_of
from scopecheck.report.wording import sentence
from scopecheck.solving.constraints import Undecided

MOST_SOURCES = 3


def explained(bench: Bench, problem: Problem) -> tuple[str, ...]:
    """The explanation, line by line; each limitation that the exercise turns on is told."""
    lines: list[str] = []
    article = problem.thing or _found(problem)
    lines += _solution(bench, problem)
    for limitation in about(bench, problem):
        lines.append(sentence("drill", "explain", "phrase", limitation=words_of(limitation)))
        lines += [f"  {x}" for x in readings_said(bench, limitation, article or None)]
        lines += [f"  {x}" for x in _exact(bench, problem, limitation)]
        lines += [f"  {x}" for x in _authority(bench, limitation)]
    return tuple(lines)


def about(bench: Bench, problem: Problem) -> tuple[Limitation, ...]:
    """The limitations that the exercise turns on: the one it names, else those of its answer."""
    aim = problem.aim
    labels = (aim.label,) if aim.label else aim.labels or problem.labels
    own = [x for c in bench.sheet.claims for x in c.limitations]
    found = [x for x in own if x.label in labels]
    return tuple(x for x in found if bench.group(x) is not None)


def _found(problem: Problem) -> Article:
    finding = problem.finding
    return finding.witness.article if finding and finding.witness else {}


def _solution(bench: Bench, problem: Problem) -> list[str]:
    if problem.nothing:
        return [sentence("drill", "explain", "nothing")]
    lines = [sentence("drill", "explain", "solution", solution=problem.solution)]
    finding = problem.finding
    if finding and finding.construction and problem.aim.kind in ("let in", "kept out") and problem.aim.label:
        lines += read_said(bench, bench.limitation(problem.aim.label), finding.construction)
    return lines


def _exact(bench: Bench, problem: Problem, limitation: Limitation) -> list[str]:
    """More exact wording for what was meant, or the usual reading; only where it was shown to mean that."""
    group = bench.group(limitation)
    assert group is not None
    g = bench.sheet.groups[group]
    wanted = problem.aim.reading or g.readings[g.base].label
    index = bench.labelled(limitation, wanted)
    if index is None:
        return []
    try:
        words = proposal(bench, limitation, wanted, bench.taken(limitation, index))
    except Undecided:
        words = ""
    if not words:
        return [sentence("drill", "explain", "no_exact", reading=wanted)]
    return [sentence("drill", "explain", "exact", reading=wanted, words=words)]


def _authority(bench: Bench, limitation: Limitation) -> list[str]:
    entry = entry_of(bench, limitation)
    sources = entry.sources[:MOST_SOURCES] if entry else ()
    return [sentence("drill", "explain", "authority", source=s.text, tag=s.tag) for s in sources]
