"""Exercises by the thousand: what can be asked of each form, and whether everything that is set holds.

`python -m tests.drilled` sets 2,000 exercises, holds each against the exact meaning
(`drilled_oracle.py`), and prints the figures. `python -m tests.drilled --targets` finds out anew what can be
asked of each form and writes it to `data/drill_targets.json`: after a change of the forms, the trades or the
catalogue.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Iterable, Iterator
from multiprocessing import Pool
from pathlib import Path
from statistics import median
from typing import Any

import scopecheck
from scopecheck.drill.bench import Bench
from scopecheck.drill.compose import compose
from scopecheck.drill.draws import Draws
from scopecheck.drill.exact import proposal
from scopecheck.drill.exercise import LEVELS, Aim, Kind, Problem, Unreadable
from scopecheck.drill.kinds import MANNERS, graded, set_problem
from scopecheck.drill.making import Made, bench_of, make
from scopecheck.drill.plans import aim_of, cell
from scopecheck.drill.replies import is_none, thing
from scopecheck.drill.setting import lines_of
from scopecheck.drill.trades import Form, forms, trades
from scopecheck.foundations.record import record
from scopecheck.solving.constraints import Undecided
from tests.drilled_oracle import candidates, untrue

TARGETS = Path(scopecheck.__file__).parent / "data" / "drill_targets.json"


def benches(form: Form) -> list[Bench]:
    """The form in every second trade, and once more, with other numbers in each."""
    turns = [(t, 1) for t in trades()[::2]] + [(trades()[4], 2), (trades()[5], 3)]
    drawn = [(t, Draws("targets", t.name, form.number, turn)) for t, turn in turns]
    found = [bench_of(compose(t, [[form]], False, draws).text) for t, draws in drawn]
    return [b for b in found if b is not None]


def labels(bench: Bench) -> list[str]:
    """The labels of the readings that take part, of the only limitation."""
    group = bench.group(bench.limitation("1a"))
    if group is None:
        return []
    return [bench.sheet.groups[group].readings[r].label for r in bench.readings(group)]


def aims(kind: Kind, bench: Bench) -> Iterator[dict[str, Any]]:
    """Whatever might be asked of the only limitation."""
    match kind:
        case "let in" | "kept out" | "reword":
            yield from ({"reading": r} for r in labels(bench))
        case "falls out":
            yield from ({"reading": r, "other": s} for r in labels(bench) for s in labels(bench) if r != s)
        case "how far":
            yield from ({"upward": up, "other": how} for up in (True, False) for how in ("", "some"))
        case _:
            return


def target(kind: Kind, data: dict[str, Any], tried: list[Bench]) -> dict[str, Any] | None:
    """What is asked, with the standing of the reading needed, if it can be asked alike in all of them."""
    problems: list[Problem] = []
    for bench in tried:
        aim = aim_of(kind, data)
        problem = set_problem(bench, aim)
        named = [x for x in (aim.reading, aim.other) if x and x != "some"]
        if problem is None and set(named) <= set(labels(bench)):
            return None
        if problem is not None:
            problems.append(problem)
    if len(problems) < 3 or len({(p.nothing, p.standing) for p in problems}) != 1:
        return None
    return {**data, "standing": problems[0].standing, "nothing": problems[0].nothing}


def lies(tried: list[Bench]) -> list[str]:
    """How something can lie to the form, in each of them: out on every reading, in on every one, or open."""
    ways = ("out", "in", "open")
    return [how for how in ways if all(set_problem(b, Aim("keeps out", 1, wanted=(how,))) for b in tried)]


def exact(tried: list[Bench]) -> dict[str, int]:
    """For each reading which proposal of more exact wording means it in each of them; -1: none does."""
    found: dict[str, int] = {}
    for reading in dict.fromkeys(r for b in tried for r in labels(b)):
        having = [b for b in tried if reading in labels(b)]
        found[reading] = next((n for n in range(6) if all(_means(b, reading, n) for b in having)), -1)
    return found


def _means(bench: Bench, reading: str, number: int) -> bool:
    limitation = bench.limitation("1a")
    index = bench.labelled(limitation, reading)
    assert index is not None
    bench.exact["1a", reading] = number
    try:
        return bool(proposal(bench, limitation, reading, bench.taken(limitation, index)))
    except Undecided:
        return False


def found_of(number: int) -> tuple[str, dict[str, Any]]:
    """All that is found out of one form."""
    form = forms()[number]
    tried = benches(form)
    limitation = tried[0].limitation("1a")
    group = tried[0].group(limitation)
    own: dict[str, Any] = {}
    if group is not None:
        g = tried[0].sheet.groups[group]
        own = {"base": g.readings[g.base].label, "lies": lies(tried), "exact": exact(tried)}
        for bench in tried:
            for reading, proposed in own["exact"].items():
                bench.exact["1a", reading] = proposed
    for kind in MANNERS:
        listed = [a for bench in tried for a in aims(kind, bench)]
        listed = [a for i, a in enumerate(listed) if a not in listed[:i]]
        if targets := [t for data in listed if (t := target(kind, data, tried)) is not None]:
            own[kind] = targets
    print(form.words, {k: v if k in ("lies", "exact") else len(v) for k, v in own.items()}, flush=True)
    return form.key, own


def write_targets() -> None:
    with Pool(4) as pool:
        found = dict(pool.map(found_of, range(len(forms())), chunksize=1))
    TARGETS.write_text(json.dumps(found, ensure_ascii=False, separators=(",", ":")) + "\n", "utf-8")


# ---- the exercises


@record
class Held:
    """What a run over many exercises came to."""

    exercises: int
    nothing: int
    answers: int
    wrong: int
    not_plain: int
    seconds: tuple[float, ...]
    faults: tuple[str, ...]


def hold(slots: Iterable[tuple[Kind, int, int]], seed: int) -> Held:
    """Sets the exercises and holds them against the exact meaning.

    Each solution must be right, each candidate graded as it is by the exact meaning, each wrong one with a
    reason, and with none that is untrue.
    """
    faults: list[str] = []
    seconds: list[float] = []
    counts = dict.fromkeys(("exercises", "nothing", "answers", "wrong", "not_plain"), 0)
    for kind, level, position in slots:
        started = time.perf_counter()
        made = make(kind, level, seed, position)
        lines_of(made.exercise, made.bench)
        seconds.append(time.perf_counter() - started)
        counts["exercises"] += 1
        counts["nothing"] += made.exercise.problem.nothing
        where = f"{kind}, level {level}, position {position}: "
        first = graded(made.bench, made.exercise.problem, made.exercise.problem.solution)
        if first.mark != "right":
            faults.append(where + f"solution {made.exercise.problem.solution!r} is {first.mark}")
        for text, right in candidates(made, seed):
            said = _said(made, text, right, counts)
            faults += [where + said] if said else []
    return Held(**counts, seconds=tuple(seconds), faults=tuple(faults))


def _said(made: Made, text: str, right: bool | None, counts: dict[str, int]) -> str:
    """What is wrong with the grade of one candidate; '' where nothing is."""
    problem = made.exercise.problem
    try:
        verdict = graded(made.bench, problem, text)
    except Unreadable as error:
        return f"{text!r} cannot be read: {error}"
    counts["answers"] += 1
    counts["wrong"] += verdict.mark == "wrong"
    counts["not_plain"] += verdict.mark == "not plain"
    if right is not None and (verdict.mark in ("right", "not plain")) != right:
        return f"{text!r} is {'right' if right else 'wrong'} and graded {verdict.mark}: {verdict.lines}"
    if verdict.mark == "wrong" and not verdict.lines:
        return f"{text!r} is wrong without a reason"
    typed = problem.aim.kind in ("let in", "kept out", "narrows") and not is_none(text)
    article = thing(made.bench, text, problem.start) if typed else None
    bad = untrue(made, article, verdict.lines) if verdict.mark == "wrong" else []
    return f"{text!r}: untrue reasons {bad}" if bad else ""


def spread(count: int, seed: int) -> list[tuple[Kind, int, int]]:
    """So many exercises over all kinds and levels, from the beginning of the stretch of the seed."""
    cells = [(kind, level) for kind in MANNERS for level in LEVELS if cell(kind, level).size]
    each = -(-count // len(cells))
    return [(kind, level, seed * each + n) for n in range(each) for kind, level in cells][:count]


def report(held: Held) -> Iterator[str]:
    """The figures of a run, as lines."""
    yield f"exercises {held.exercises}, of which the answer is none {held.nothing}"
    yield f"answers graded {held.answers}: wrong {held.wrong}, right but not plain {held.not_plain}"
    ordered = sorted(held.seconds)
    last = ordered[int(len(ordered) * 0.95)]
    yield f"seconds to the next exercise: median {median(ordered):.3f}, 95 in 100 within {last:.3f}"
    for kind in MANNERS:
        sizes = ", ".join(f"level {level}: {cell(kind, level).size}" for level in LEVELS)
        yield f"pool of {kind}: {sizes}"
    yield f"faults {len(held.faults)}"
    yield from held.faults[:40]


def main() -> int:
    if "--targets" in sys.argv:
        write_targets()
        return 0
    held = hold(spread(int(next(iter(sys.argv[1:]), "2000")), 1), 1)
    for line in report(held):
        print(line)
    return 1 if held.faults else 0


if __name__ == "__main__":
    sys.exit(main())
