"""A document's range that ends where a claim begins, or shares a part with it: a fact alone.

Of such ranges the law of the United States says more than whether what is stated meets the claim: In re
Brandt, 886 F.3d 1171 (Fed. Cir. 2018), and Woodruff, as MPEP 2144.05 I reports them.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.about import CloseBy
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.document_ranges import shown_there
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.formula import Formula
from scopecheck.core.model import Case, Limitation
from scopecheck.core.ranges import lying
from scopecheck.core.ties import lying_ties
from scopecheck.foundations.record import replace


def close_by(
    prepared: Prepared, case: Case, finding: Finding, scope: Formula, at_ends: Case | None
) -> Iterator[Finding]:
    """That a document's range, as presumed, lies directly beside the claim or is met by it in part.

    Beside it: kept out by lines alone that it is directly beside, each in one number. `at_ends` is the range
    at ends that it states within the claim, if it states any.
    """
    if prepared.sheet.profile != "US" or finding.label != f"claim {finding.claim}":
        return
    session = prepared.session
    base, limitations = session.base, prepared.limitations(finding.claim)
    region = session.search(())
    region.require(session.met(case.facts, base))
    if not region.holds():
        return
    told = replace(finding, question="document close by", stakes=4, quantifier="base", construction=base)
    against = [x for x in limitations if not region.holds(session.met(x.formula, base))]
    rest = [x for x in limitations if x not in against]
    if not region.holds(*(session.met(x.formula, base) for x in rest)):
        return
    partly = [x for x in rest if region.holds(~session.met(x.formula, base))]
    silent = tuple(x.label for x in partly if session.names_in(x.formula) - set(case.stated))
    if against:
        if all(_directly_beside(prepared, case, x) for x in against):
            yield replace(told, about=CloseBy("beside", tuple(x.label for x in against), silent))
        return
    shared = tuple(x.label for x in partly if x.label not in silent)
    told = replace(told, about=CloseBy("shares an end" if at_ends else "shares", shared, silent))
    if shared:
        yield shown_there(prepared, at_ends.facts, scope, told) if at_ends else told


def _directly_beside(prepared: Prepared, case: Case, line: Limitation) -> bool:
    """Is all that keeps the range out at the line an end that one of the two leaves out?"""
    sheet, base = prepared.sheet, prepared.session.base
    apart = [own.distance for own in lying(sheet, case.facts, line.formula, base) if own.relation == "apart"]
    ties = lying_ties(case.facts, line.formula, base)
    apart += [own.distance for own in ties if own.relation == "apart"]
    return bool(apart) and not any(apart)
