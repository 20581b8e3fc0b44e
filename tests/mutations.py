"""Breaks the encoder, the evaluator and the search on purpose, and sees whether the property tests notice.

`python -m tests.mutations` tries every mutation on a copy of the package; with words, those whose name
contains one of them. Each text to be replaced must be found in the source exactly once, or the script fails:
a mutation that no longer applies proves nothing. Exit status 1 if a mutation goes unnoticed.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent
QUICK = """

from hypothesis import Phase

settings.register_profile("mutation", settings.get_profile("ci"), phases=[Phase.explicit, Phase.generate])
settings.load_profile("mutation")
"""


TESTS = ("tests/properties", "tests/quality")


@dataclass(frozen=True)
class Mutation:
    name: str
    module: str
    old: str
    new: str


DEFINED_CHOICE = "return Ratio(num, den, either(*(both(c, r.defined) for c, r in kept)))"
DEFINED_ANY = "return Ratio(num, den, either(*(c for c, r in kept)))"
GIVENS = "givens = [self.met(g.formula).expression for g in self.sheet.givens]"
FIRST_ONLY = "self.demands[:1], self.verifiers[:1]"
DECIMALS = "for places in range(1 if d.whole else MOST_DECIMALS + 1):"
DECIMALS_BACKWARD = "for places in reversed(range(1 if d.whole else MOST_DECIMALS + 1)):"
MUTATIONS = (
    # ---- the encoder
    Mutation("encoder: a strict comparison made loose", "solving.symbols", "_LT(_REF", "_LE(_REF"),
    Mutation("encoder: a loose comparison made strict", "solving.symbols", "_GE(_REF", "_GT(_REF"),
    Mutation(
        "encoder: the guard on division dropped",
        "solving.encode",
        'both(left.defined, right.defined, relate("!=", right.num, Fraction(0)))',
        "both(left.defined, right.defined)",
    ),
    Mutation(
        "encoder: the sign of a multiplied-out divisor ignored",
        "solving.encode",
        "holds = either(both(positive, holds_if_positive), both(deny(positive), "
        "relate(MIRROR[op], near, far)))",
        "holds = holds_if_positive",
    ),
    Mutation(
        "encoder: undefined counts as false, so true under negation",
        "solving.encode",
        "return both(defined, holds), both(defined, deny(holds))\n    near, far",
        "return both(defined, holds), deny(both(defined, holds))\n    near, far",
    ),
    Mutation(
        "encoder: a reading dropped",
        "solving.encode",
        "either(*(both(s, true) for s, (true, _) in zip(chosen, pairs, strict=True)))",
        "either(*(both(s, true) for s, (true, _) in list(zip(chosen, pairs, strict=True))[:2]))",
    ),
    Mutation(
        "encoder: half-line end flipped (half to even)",
        "solving.encode",
        "return Bound(value, index % 2 == 0)",
        "return Bound(value, index % 2 == 1)",
    ),
    Mutation(
        "encoder: half-line end flipped (half away from zero)",
        "solving.encode",
        "return Bound(value, index > 0)",
        "return Bound(value, index >= 0)",
    ),
    Mutation(
        "encoder: a rounded value's halves to even go up",
        "solving.encode",
        "z3.And(beyond == half, below % 2 == 1)",
        "z3.And(beyond == half, below % 2 >= 0)",
    ),
    Mutation(
        "encoder: rounding origin forgotten",
        "solving.encode",
        "plus(_value(inner), -origin)",
        "_value(inner)",
    ),
    Mutation("encoder: an undefined conjunct forgotten", "solving.encode", DEFINED_CHOICE, DEFINED_ANY),
    # ---- the evaluator
    Mutation(
        "evaluator: undefined under negation is true",
        "solving.evaluate",
        "return None if value is None else not value",
        "return not value",
    ),
    Mutation(
        "evaluator: division by zero gives zero",
        "solving.evaluate",
        "return None if values is None or values[1] == 0 else values[0] / values[1]",
        "return None if values is None else values[0] / values[1] if values[1] else Fraction(0)",
    ),
    Mutation(
        "evaluator: half to even goes to odd",
        "solving.evaluate",
        "return whole + whole % 2",
        "return whole + 1 - whole % 2",
    ),
    Mutation(
        "evaluator: a strict comparison made loose",
        "solving.evaluate",
        '{"<": lt, ',
        '{"<": le, ',
    ),
    # ---- the search
    Mutation(
        "search: exactly one reading no longer demanded",
        "solving.solver",
        "[disjunction(kept), *left_out, *apart, *stretches]",
        "[disjunction(kept), *left_out, *stretches]",
    ),
    Mutation(
        "search: a group may be left without a reading",
        "solving.solver",
        "[disjunction(kept), *left_out, *apart, *stretches]",
        "[*left_out, *apart, *stretches]",
    ),
    Mutation(
        "search: strained readings admitted",
        "core.construction",
        'if strained or r.standing != "strained")',
        'if strained or r.standing != "hopeless")',
    ),
    Mutation("search: given facts not asserted", "solving.solver", GIVENS, "givens: list[z3.BoolRef] = []"),
    Mutation(
        "search: parameters not held to their intervals",
        "solving.solver",
        "[disjunction(kept), *left_out, *apart, *stretches]",
        "[disjunction(kept), *left_out, *apart]",
    ),
    Mutation(
        "search: an article rules out the wrong readings",
        "answers.refine",
        'return outside | (~met if demand.wanted == "none" else met)',
        'return outside | (met if demand.wanted == "none" else ~met)',
    ),
    Mutation(
        "search: a verifier's demand inverted",
        "answers.refine",
        'search.require(~met if demand.wanted in ("every", "not every") else met)',
        'search.require(met if demand.wanted in ("every", "not every") else ~met)',
    ),
    Mutation(
        "search: only the first demand is verified",
        "answers.refine",
        "self.demands, self.verifiers",
        FIRST_ONLY,
    ),
    # ---- what is best
    Mutation(
        "rank: number of re-read groups before standing",
        "answers.minimise",
        "        if search.find(*constraints):\n"
        "            search.require(*constraints)\n            break\n",
        "        break\n",
    ),
    Mutation(
        "rank: readings of a group in the wrong order",
        "answers.minimise",
        "order = preference(session.sheet.groups[g])",
        "order = preference(session.sheet.groups[g])[::-1]",
    ),
    Mutation(
        "things: departures not minimised",
        "answers.minimise",
        "_fewest(session, search, [~session.equals(n, reference.article[n]) for n in part])",
        "pass",
    ),
    Mutation(
        "things: a short value before a late departure",
        "answers.minimise",
        "for part in (ordered, stated, rest):",
        "for part in (*([name] for name in ordered), stated, rest):",
    ),
    Mutation("things: fewest decimals not tried first", "answers.minimise", DECIMALS, DECIMALS_BACKWARD),
    Mutation(
        "things: plain without a margin",
        "core.plain",
        "    if slack == 0:\n        return atom\n",
        "    return atom\n",
    ),
    # ---- questions
    Mutation(
        "questions: what a parent keeps out counted again",
        "answers.questions.inside",
        'Demand(region, scope, "every")',
        'Demand(case.facts, scope, "every")',
    ),
    Mutation(
        "questions: a claim emptied by its parent is reported",
        "answers.questions.claims",
        '        demands.append(Demand(NOTHING, instance.parent_scope, "some"))\n',
        "        pass\n",
    ),
    Mutation(
        "questions: a pair though one of the two suffices",
        "answers.questions.readings",
        "return all_of(~_differ(met, base) for met in alone)",
        "return all_of(~_differ(met, base) for met in alone[:1])",
    ),
    Mutation(
        "questions: a way found before is not ruled out by its other readings",
        "answers.questions.ways",
        "readings = [k.readings[moved[0]], *(r for _, r in others)]",
        "readings = [k.readings[moved[0]]]",
    ),
    Mutation(
        "questions: one phrase that does it alone rules out every other",
        "answers.questions.ways",
        "ruled_out.append(any_of(~changed[g] for g in moved))",
        "ruled_out += [~changed[g] for g in moved]",
    ),
    # ---- what is trusted
    Mutation(
        "witness: nothing is checked",
        "answers.witness",
        "if not _as_expected(",
        "if False and not _as_expected(",
    ),
    Mutation(
        "witness: not made by verify",
        "answers.questions.prepared",
        "        return verify(self.sheet, article, tuple(obligations))\n",
        "        return Witness(tuple(article.items()), tuple(obligations), None)\n",
    ),
    Mutation(
        "units: an offset forgotten",
        "foundations.units",
        "return v * self.factor + self.offset",
        "return v * self.factor",
    ),
    Mutation("units: millimetres wrong by ten", "data/units.json", '"m": "1/1000"', '"m": "1/100"'),
)


def main(words: list[str]) -> int:
    chosen = [m for m in MUTATIONS if not words or any(word in m.name for word in words)]
    with tempfile.TemporaryDirectory() as folder:
        project = Path(folder) / "as it is"
        copied(ROOT, project)
        missing = [m.name for m in MUTATIONS if (project / inside(m.module)).read_text().count(m.old) != 1]
        if missing:
            print("does not apply any more (or to more than one place):", *missing, sep="\n  ")
            return 1
        if failed := failing(project):
            print(f"{failed} fails with nothing changed")
            return 1
        unnoticed = 0
        for mutation in chosen:
            started = time.perf_counter()
            failed = failing(mutated(project, mutation))
            unnoticed += failed is None
            took = time.perf_counter() - started
            print(f"{mutation.name:62} {failed or 'NOT NOTICED'}  ({took:.0f} s)", flush=True)
    print(f"{len(chosen) - unnoticed} of {len(chosen)} noticed")
    return 1 if unnoticed else 0


def inside(module: str) -> Path:
    """Where a module, or a data file with its ending, lies below the project's folder."""
    return Path("scopecheck", module if "/" in module else f"{module.replace('.', '/')}.py")


def copied(project: Path, copy: Path) -> None:
    for part in ("scopecheck", "tests"):
        shutil.copytree(project / part, copy / part, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(project / "pyproject.toml", copy)
    conftest = copy / "tests" / "conftest.py"
    conftest.write_text(conftest.read_text() + QUICK)


def mutated(project: Path, mutation: Mutation) -> Path:
    """A copy of the project with the mutation made, in place of the one before."""
    copy = project.parent / "mutated"
    shutil.rmtree(copy, ignore_errors=True)
    shutil.copytree(project, copy)
    path = copy / inside(mutation.module)
    path.write_text(path.read_text().replace(mutation.old, mutation.new))
    return copy


def failing(project: Path) -> str | None:
    """The first test that fails; None if all pass."""
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "-rfE", *TESTS]
    run = subprocess.run(command, cwd=project, capture_output=True, text=True, check=False, timeout=900)
    if run.returncode == 0:
        return None
    named = re.search(r"^(?:FAILED|ERROR) \S*::(\w+)", run.stdout, re.MULTILINE)
    return named[1] if named else f"exit status {run.returncode}"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
