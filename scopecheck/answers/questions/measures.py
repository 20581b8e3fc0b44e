"""Words of degree: what is met hangs on a threshold that nothing states."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from operator import or_

from scopecheck.answers.about import NoEnd, Unmeasured
from scopecheck.answers.extremes import Extremes, most_different
from scopecheck.answers.findings import Finding, Shown
from scopecheck.answers.questions.prepared import Prepared, at_limitation
from scopecheck.core.construction import groups_in, names_in, unknown_thresholds
from scopecheck.core.declared import NumberDecl
from scopecheck.core.model import Limitation
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Constraint


def without_measure(prepared: Prepared, limitation: Limitation) -> Iterator[Finding]:
    """For each word of degree in the limitation: the two most different things that meet it, each on some
    threshold. `Unmeasured.no_end` says beyond which of them what is met has no end.

    How much of impurities a balance leaves aside is no measure of a word of degree.
    """
    for group in groups_in(limitation.formula):
        listed = prepared.sheet.groups[group].readings
        unknown = unknown_thresholds(prepared.sheet, group)
        readings = [r for r in unknown if "impurities" not in dict(listed[r].axes)]
        if readings:
            on_any = reduce(or_, (prepared.session.reads(group, r) for r in readings))
            yield from _shown(prepared, limitation, on_any)


def _shown(prepared: Prepared, limitation: Limitation, on_threshold: Constraint) -> Iterator[Finding]:
    session, sheet = prepared.session, prepared.sheet
    names = names_in(limitation.formula)
    d = next((d for d in sheet.declarations if isinstance(d, NumberDecl) and d.name in names), None)
    if d is None:
        return
    search = session.search(groups_in(limitation.formula))
    search.require(session.met(limitation.formula), on_threshold)
    extremes = most_different(session, search, d, limitation.formula)
    if extremes is None:
        return
    yield replace(
        at_limitation("without measure", 6, limitation),
        outcome="shown",
        quantifier="some",
        thing=Shown(extremes.least, tuple(d.name for d in sheet.declarations if d.name in names)),
        about=Unmeasured(extremes.greatest, _no_end(extremes)),
    )


def _no_end(extremes: Extremes) -> NoEnd:
    if extremes.below:
        return "both" if extremes.above else "below"
    return "above" if extremes.above else "neither"
