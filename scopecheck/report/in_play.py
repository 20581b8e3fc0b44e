"""Which phrases play a part in a finding, and whether any of them is read so for want of a presumption."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import product
from math import prod

from scopecheck.answers.findings import Finding
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.formula import Article
from scopecheck.core.model import Case, Limitation, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.report.describe import case_named, limitation_labelled, lineage
from scopecheck.report.rereadings import unpresumed
from scopecheck.report.things import in_question
from scopecheck.solving.evaluate import meets

MOST_CHOICES = 64
"""Choices of readings of one line that are gone through."""
MET = ("outside met", "document met")
BETWEEN_CLAIMS = ("adds nothing", "same scope", "narrows")
"""Questions that hold all of one claim against all of another."""


def without_presumption(sheet: Sheet, finding: Finding) -> bool:
    """Is a phrase that plays a part in the finding read by its first reading for want of a presumption?"""
    lines = _lines(sheet, finding)
    case = case_named(sheet, finding.case)
    groups = {*(case.groups if case else ()), *(g for x in lines for g in x.groups)}
    return unpresumed(sheet, groups)


def cases_without_presumption(sheet: Sheet) -> bool:
    """The same of where the listed things lie, documents left aside; looked up once for a sheet."""
    key = ("cases without presumption", id(sheet))
    if key not in sheet.looked_up:
        sheet.looked_up[key] = (sheet, _cases_without_presumption(sheet))
    found: bool = sheet.looked_up[key][1]
    return found


def _cases_without_presumption(sheet: Sheet) -> bool:
    cases = [c for c in sheet.cases if c.role in ("inside", "outside")]
    speaking = {x.label: names_in(x.formula) for c in sheet.claims for x in c.limitations} if cases else {}
    return unpresumed(sheet, {g for c in cases for g in (*c.groups, *_spoken_of(sheet, c, speaking))})


def _lines(sheet: Sheet, finding: Finding) -> list[Limitation]:
    """The lines that conflict; else those that it is about, but for those that a thing meets however read.

    Of a document, which is met by whatever it leaves unsaid, only lines count that it states in full.
    """
    beside = dict.fromkeys((*finding.conflict, *(x for one in finding.sets for x in one)))
    if beside:
        labels = dict.fromkeys((finding.label, *beside))
        return [x for label in labels if (x := limitation_labelled(sheet, label))]
    if not finding.claim:
        return [x for c in sheet.claims for x in c.limitations]
    if finding.question in BETWEEN_CLAIMS:
        other = finding.detail.removeprefix("claim ")
        numbers = (finding.claim, *((int(other),) if other.isdigit() else ()))
        claims = {n for number in numbers for n in lineage(sheet, number)}
        return [x for c in sheet.claims if c.number in claims for x in c.limitations]
    lines, case = in_question(sheet, finding), case_named(sheet, finding.case)
    if finding.question not in MET or finding.witness is None or case is None:
        return list(lines)
    told = stated_values(sheet, case, exact=True).keys()
    article, some = finding.witness.article, finding.question == "outside met"

    def plays(x: Limitation) -> bool:
        return not ((some or names_in(x.formula) <= told) and _always_met(sheet, x, article))

    return [x for x in lines if plays(x)]


def _always_met(sheet: Sheet, line: Limitation, article: Article) -> bool:
    """Does the thing meet the line on every reading of its words? A line with a stretch is not gone into."""
    if any(p.group in line.groups for p in sheet.parameters):
        return False
    readings = [range(len(sheet.groups[g].readings)) for g in line.groups]
    if prod(map(len, readings)) > MOST_CHOICES:
        return False
    for chosen in product(*readings):
        k = base_construction(sheet)
        for g, r in zip(line.groups, chosen, strict=True):
            k = k.with_reading(g, r)
        if not meets(line.formula, article, k):
            return False
    return True


def _spoken_of(sheet: Sheet, case: Case, speaking: Mapping[str, frozenset[str]]) -> Iterable[int]:
    """The groups of the lines that speak of something the case states, in the claims it is listed for."""
    numbers = [int(t) for t in case.targets if t.isdigit()]
    if not case.targets:
        numbers = [c.number for c in sheet.claims if not c.parents]
    claims = {n for number in numbers for n in lineage(sheet, number)}
    for x in (x for c in sheet.claims for x in c.limitations):
        listed = x.label in case.targets or (x.claim in claims and speaking[x.label] & set(case.stated))
        yield from x.groups if listed else ()
