"""Exercises from a sheet of the practice's own: everything that can be asked of it, in an order drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from scopecheck.answers.definitions import weighed
from scopecheck.core.construction import names_in
from scopecheck.core.model import Claim, Limitation, Sheet
from scopecheck.drill.bench import BUDGET, Bench
from scopecheck.drill.draws import Draws
from scopecheck.drill.exercise import Aim, Exercise, Kind
from scopecheck.drill.kinds import set_problem
from scopecheck.drill.making import Made
from scopecheck.report.wording import flat


def bench_for(sheet: Sheet, text: str) -> Bench:
    """The sheet ready for exercises."""
    return Bench(weighed(sheet, BUDGET), text)


def made_from(
    sheet: Sheet, text: str, kinds: Sequence[Kind], levels: Sequence[int], seed: int
) -> Iterator[Made]:
    """Exercises about the sheet until all was asked; what cannot be asked or decided is passed over.

    Kinds come in turn; what speaks of more values than can be kept in mind comes last. Each exercise has a
    bench of its own, so that none depends on what was asked before.
    """
    first = bench_for(sheet, text)
    title = flat(sheet.title) or sheet.source_name
    lists = {k: Draws("sheet", seed, k).mixed([*_aims(first, k, levels)]) for k in kinds}
    lists = {k: sorted(aims, key=lambda aim: _too_many_values(first, aim)) for k, aims in lists.items()}
    order = Draws("kinds", seed).mixed([k for k in kinds if lists[k]])
    number = 0
    while any(lists.values()):
        for kind in order:
            made = _next(sheet, text, lists[kind], title, number)
            if made is not None:
                number += 1
                yield made


MOST_VALUES = 16
"""How many values a thing to start from may have and still be looked over."""


def _too_many_values(bench: Bench, aim: Aim) -> bool:
    names = {name for x in bench.limitations(aim.claim) for name in names_in(x.formula)}
    return len(names) > MOST_VALUES


def _next(sheet: Sheet, text: str, aims: list[Aim], title: str, number: int) -> Made | None:
    """The first of the aims that comes to an exercise; those tried are taken from the list."""
    while aims:
        aim = aims.pop(0)
        bench = bench_for(sheet, text)
        problem = set_problem(bench, aim)
        if problem is None:
            continue
        claims = tuple(flat(f"{c.number}. {c.text}") for c in _told(bench, aim))
        name = f"{title}, {number}"
        return Made(Exercise(name, level_of(bench, aim.claim), text, title, claims, problem), bench)
    return None


def _told(bench: Bench, aim: Aim) -> list[Claim]:
    """The claims that the exercise speaks of, with what they depend on."""
    wanted = {x.claim for x in bench.limitations(aim.claim)} | {aim.claim}
    return [c for c in bench.sheet.claims if c.number in wanted]


def level_of(bench: Bench, claim: int) -> int:
    """One line is the first level, two the second, more the third."""
    return max(1, min(3, len(bench.limitations(claim))))


def _aims(bench: Bench, kind: Kind, levels: Sequence[int]) -> Iterator[Aim]:
    for claim in bench.sheet.claims:
        if level_of(bench, claim.number) not in levels:
            continue
        if kind in ("narrows", "keeps out", "two phrases"):
            yield from _of_claim(bench, kind, claim)
        else:
            yield from (aim for x in claim.limitations for aim in _of_limitation(bench, kind, x))


def _of_claim(bench: Bench, kind: Kind, claim: Claim) -> Iterator[Aim]:
    limitations = bench.limitations(claim.number)
    match kind:
        case "narrows":
            if claim.dependent and claim.limitations:
                yield Aim(kind, claim.number)
        case "keeps out":
            if len(limitations) > 1:
                cases = (c for c in bench.sheet.cases if c.role in ("outside", "document"))
                yield from (Aim(kind, claim.number, name=c.name) for c in cases)
        case _:
            pairs = combinations((x.label for x in limitations), 2)
            yield from (Aim(kind, claim.number, labels=pair) for pair in pairs)


def _of_limitation(bench: Bench, kind: Kind, limitation: Limitation) -> Iterator[Aim]:
    claim, label = limitation.claim, limitation.label
    group = bench.group(limitation)
    readings = bench.readings(group) if group is not None else ()
    labels = [bench.sheet.groups[group or 0].readings[r].label for r in readings]
    match kind:
        case "how far":
            for upward in (True, False):
                yield from (Aim(kind, claim, label, other=how, upward=upward) for how in ("", "some"))
        case "falls out":
            pairs = ((r, s) for r in labels for s in labels if r != s)
            yield from (Aim(kind, claim, label, r, s) for r, s in pairs)
        case _:
            yield from (Aim(kind, claim, label, r) for r in ([""] if limitation.meant else labels))
