"""Exercises by the thousand: what can be asked of each form, and whether everything that is set holds.

`python -m tests.drilled --targets` finds out anew, in every trade, what can be asked of each form, and writes
it to `data/drill_targets.json`: after a change of the forms, the trades or the catalogue.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import scopecheck
from scopecheck.drill.bench import Bench
from scopecheck.drill.compose import compose
from scopecheck.drill.draws import Draws
from scopecheck.drill.exercise import Aim, Kind, Problem
from scopecheck.drill.kinds import MANNERS, set_problem
from scopecheck.drill.making import bench_of
from scopecheck.drill.trades import Form, forms, trades

TARGETS = Path(scopecheck.__file__).parent / "data" / "drill_targets.json"


def benches(form: Form) -> list[Bench]:
    """The form in every trade, with other numbers in each."""
    found = [
        bench_of(compose(t, [[form]], False, Draws("targets", t.name, form.number)).text) for t in trades()
    ]
    return [b for b in found if b is not None]


def aims(kind: Kind, bench: Bench) -> Iterator[dict[str, Any]]:
    """Whatever might be asked of the only limitation."""
    limitation = bench.limitation("1a")
    group = bench.group(limitation)
    if group is None:
        return
    readings = [bench.sheet.groups[group].readings[r].label for r in bench.readings(group)]
    match kind:
        case "let in" | "kept out" | "reword":
            yield from ({"reading": r} for r in readings)
        case "falls out":
            yield from ({"reading": r, "other": s} for r in readings for s in readings if r != s)
        case "how far":
            yield from ({"upward": up, "other": how} for up in (True, False) for how in ("", "some"))
        case _:
            return


def target(kind: Kind, data: dict[str, Any], tried: list[Bench]) -> dict[str, Any] | None:
    """What is asked, with the standing of the reading needed, if it can be asked alike in every trade."""
    problems: list[Problem] = []
    for bench in tried:
        aim = Aim(
            kind, 1, "1a", data.get("reading", ""), data.get("other", ""), upward=data.get("upward", True)
        )
        problem = set_problem(bench, aim)
        limitation = bench.limitation("1a")
        named = [x for x in (aim.reading, aim.other) if x and x != "some"]
        if problem is None and all(bench.labelled(limitation, x) is not None for x in named):
            return None
        if problem is not None:
            problems.append(problem)
    if len(problems) < 4 or len({(p.nothing, p.standing) for p in problems}) != 1:
        return None
    return {**data, "standing": problems[0].standing, "nothing": problems[0].nothing}


def write_targets() -> None:
    found: dict[str, dict[str, list[dict[str, Any]]]] = {}
    for form in forms():
        tried = benches(form)
        own: dict[str, list[dict[str, Any]]] = {}
        for kind in MANNERS:
            listed = [a for bench in tried for a in aims(kind, bench)]
            listed = [a for i, a in enumerate(listed) if a not in listed[:i]]
            own[kind] = [t for data in listed if (t := target(kind, data, tried)) is not None]
        found[f"{form.words} | {form.of}"] = {k: v for k, v in own.items() if v}
        print(form.words, {k: len(v) for k, v in own.items()}, flush=True)
    TARGETS.write_text(json.dumps(found, ensure_ascii=False, separators=(",", ":")) + "\n", "utf-8")


if __name__ == "__main__" and "--targets" in sys.argv:
    write_targets()
