"""What only follows from something else, told under its root cause."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet

from scopecheck.answers.about import AddsNothing, ForAllClaims
from scopecheck.answers.findings import EMPTY_CLAIM, Finding, also_claims_of, cases_of, lines_of
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import record, replace
from scopecheck.report.describe import (
    case_text,
    labelled,
    limitation_labelled,
    lineage,
    sides_text,
)
from scopecheck.report.grouping import (
    SIDED,
    SILENCE,
    UNREAD,
    Cluster,
    departures,
    section,
    turning_labels,
)
from scopecheck.report.rereadings import reading_label
from scopecheck.report.things import thing_text, twin_text
from scopecheck.report.wording import claims_text, listed, sentence, upper_first

LOST = "inside lost"
NO_READING = "no reading fits all cases"
NO_CHOICE = "no reading suits all claims"
SAME_CAUSE: Mapping[str, tuple[str, ...]] = {
    "unmeant met": ("outside met", "document met"),
    "meant lost": ("inside lost",),
    "idle": ("outside met", "document met", "unmeant met"),
}
"""A reading that lets in what was not meant is told where it lets in something listed; lost likewise. One on
which a limitation is idle is told where it lets something in."""

LISTED = ("1", "usual", UNREAD, "2", "3")
"""Sections of what is told of listed things."""


@record
class Traced:
    """Findings told for themselves, in order, and for some of them (by position) what follows from them."""

    roots: tuple[Finding, ...]
    following: Mapping[int, tuple[Finding, ...]]


def traced(sheet: Sheet, findings: Iterable[Finding]) -> Traced:
    """The findings, given in order, parted into root causes and consequences."""
    every = tuple(findings)
    under = [root_cause(sheet, finding, every) for finding in every]
    roots = tuple(f for f, root in zip(every, under, strict=True) if root is None)
    following: dict[int, tuple[Finding, ...]] = {}
    for position, finding in enumerate(roots):
        own = tuple(f for f, root in zip(every, under, strict=True) if root is finding)
        if own:
            following[position] = own
    return Traced(roots, following)


def root_cause(sheet: Sheet, finding: Finding, every: Iterable[Finding]) -> Finding | None:
    """The finding of which this one is only a consequence; None if it stands for itself."""
    findings = tuple(every)
    if never := next((f for f in findings if _narrows_only_empty(f, finding)), None):
        return never
    if finding.question in EMPTY_CLAIM:
        return None
    for other in findings:
        if is_empty_claim(other) and other.claim == finding.claim:
            return other
        if other.question in SAME_CAUSE.get(finding.question, ()) and _same_cause(sheet, other, finding):
            return other
        if finding.question == LOST and _lost_above(sheet, other, finding):
            return other
        if finding.question in SIDED and _by_one(sheet, other, finding):
            return root_cause(sheet, other, findings) or other
        if finding.question == SILENCE and (
            _meets_parent(sheet, other, finding) or _let_by_the_line_left_open(sheet, other, finding)
        ):
            return other
        if finding.question == NO_READING and _wrong_already(sheet, other, finding):
            return other
    return None


def is_empty_claim(finding: Finding) -> bool:
    """Does the finding say that nothing meets its claim, whatever the words are read as?"""
    return finding.question in EMPTY_CLAIM and finding.quantifier == "every" and not finding.ways


def _narrows_only_empty(other: Finding, finding: Finding) -> bool:
    """Does a claim told to add nothing narrow only where nothing meets it, and is the finding of that?"""
    never_both = isinstance(other.about, AddsNothing) and other.about.never_both
    if not never_both or other.claim != finding.claim:
        return False
    if finding.question == NO_CHOICE:
        return isinstance(finding.about, ForAllClaims) and not finding.about.others
    return finding.question in EMPTY_CLAIM and finding.quantifier == "some" and finding.ways == other.ways


def _meets_parent(sheet: Sheet, other: Finding, finding: Finding) -> bool:
    """Is the document that silence alone keeps out met as presumed by a claim that this one takes over?"""
    above = other.claim != finding.claim and other.claim in lineage(sheet, finding.claim)
    same = other.question == "document met" and other.case == finding.case
    return same and above and section(sheet, other) in ("1", "usual", UNREAD, "ends")


def _let_by_the_line_left_open(sheet: Sheet, other: Finding, finding: Finding) -> bool:
    """Is the document let in by another reading of the one line that its silence leaves open as presumed?"""
    same = (other.question, other.case, other.claim) == ("document met", finding.case, finding.claim)
    moved = {d.group for d in departures(other)}
    return same and len(moved) == 1 and turning_labels(sheet, other) == lines_of(finding)


def _lost_above(sheet: Sheet, other: Finding, finding: Finding) -> bool:
    """Is the case lost at a claim that this one takes over, by the same lines on the same readings?"""
    if other.question != LOST or other.claim == finding.claim:
        return False
    above = other.claim in lineage(sheet, finding.claim)
    alike = [
        (f.case, f.failing, f.quantifier, tuple((d.group, d.reading) for d in departures(f)))
        for f in (other, finding)
    ]
    return above and alike[0] == alike[1]


def _by_one(sheet: Sheet, other: Finding, finding: Finding) -> bool:
    """Does the case come out wrong by the same lines with one of these phrases re-read, in whatever way?"""
    moved = [{d.group for d in departures(f)} for f in (other, finding)]
    alike = [(f.question, f.case, f.claim, turning_labels(sheet, f)) for f in (other, finding)]
    return len(moved[0]) == 1 and moved[0] < moved[1] and alike[0] == alike[1]


def _wrong_already(sheet: Sheet, other: Finding, finding: Finding) -> bool:
    """Of cases that no choice of readings sorts: is one of them told to be on the wrong side by itself?"""
    return other.question in SIDED and other.case in cases_of(finding) and section(sheet, other) in LISTED


def _same_cause(sheet: Sheet, root: Finding, finding: Finding) -> bool:
    """The same readings at the same limitation, or both as presumed."""
    own = {(d.group, d.reading) for d in departures(finding)}
    if root.stakes > finding.stakes or (not own and finding.quantifier != root.quantifier):
        return False
    same_readings = own == {(d.group, d.reading) for d in departures(root)}
    return same_readings and finding.label in (*turning_labels(sheet, root), *root.failing)


def emptied_by(sheet: Sheet, number: int) -> set[int]:
    """The claims that depend on this one alone or on such claims alone: met by nothing if this one is."""
    found = {number}
    grown = True
    while grown:
        more = {c.number for c in sheet.claims if c.parents and set(c.parents) <= found} - found
        found |= more
        grown = bool(more)
    return found - {number}


def with_consequences(sheet: Sheet, cluster: Cluster, trace: Traced) -> Cluster:
    """The cluster with what follows from its findings, in words and as findings."""
    follows: list[str] = []
    absorbed: list[Finding] = []
    for position, root in enumerate(trace.roots):
        if not any(root is finding for finding in cluster.findings):
            continue
        if root.question in EMPTY_CLAIM and not root.ways:
            follows += _emptied(sheet, root.claim, _found_empty(trace, root))
        absorbed += trace.following.get(position, ())
    told = {claim for finding in cluster.findings for claim in (finding.claim, *also_claims_of(finding))}
    absorbed_told = (f for f in absorbed if f.question != NO_CHOICE)  # a note of its root says as much
    untold = (
        f for f in absorbed_told if {f.question, cluster.first.question} != {LOST} or f.claim not in told
    )
    rest = list(untold)
    if silent := _silent_lines(sheet, rest):
        labels = listed(label for finding in silent for label in lines_of(finding))
        claims = claims_text([finding.claim for finding in silent])
        follows.append(sentence("note", "follows_silence_many", claims=claims, labels=labels))
        rest = [finding for finding in rest if finding not in silent]
    follows += [_told(sheet, finding, cluster.first) for finding in rest]
    return replace(cluster, follows=tuple(follows), absorbed=tuple(absorbed))


def _silent_lines(sheet: Sheet, findings: Iterable[Finding]) -> list[Finding]:
    """Of which claims a document meets all but lines of their own that it leaves open, if of several."""
    found = []
    for finding in findings:
        above = {x.claim for label in lines_of(finding) if (x := limitation_labelled(sheet, label))}
        if finding.question == SILENCE and above == {finding.claim}:
            found.append(finding)
    return found if len(found) > 1 else []


def _found_empty(trace: Traced, root: Finding) -> set[int]:
    """The claims with a finding of their own to say that nothing meets them, on the same readings or all.

    On other readings alone it says nothing of what follows from the root.
    """
    every = (*trace.roots, *(f for found in trace.following.values() for f in found))
    others = (f for f in every if f.question in EMPTY_CLAIM and f is not root and not f.ways)
    own = (root.quantifier, departures(root))
    return {f.claim for f in others if f.quantifier == "every" or (f.quantifier, departures(f)) == own}


def _emptied(sheet: Sheet, number: int, told: AbstractSet[int]) -> Iterator[str]:
    """Which claims cannot be met either, and which not where they depend on such a claim."""
    dependents = emptied_by(sheet, number) - told
    if dependents:
        yield sentence("note", "follows_claim", claims=upper_first(claims_text(dependents)))
    for claim in sheet.claims:
        through = [p for p in claim.parents if p in {number, *dependents}]
        if through and claim.number not in dependents | told:
            way = sentence("way", "where", claims=claims_text(through))
            name = upper_first(claims_text([claim.number]))
            yield sentence("note", "follows_claim_way", claim=name, way=way)


def _told(sheet: Sheet, finding: Finding, root: Finding) -> str:
    label, reread = finding.label, departures(finding)
    same = bool(root.case) and finding.thing.reference == root.case and not finding.thing.departs
    thing = sentence("thing", "itself", name=case_text(sheet, root.case)) if same else ""
    if _by_one(sheet, root, finding):
        told = (reading_label(sheet, d, True, turning_labels(sheet, finding)) for d in reread)
        return sentence("note", "follows_more", readings=listed(told))
    if finding.question in EMPTY_CLAIM:
        readings = listed(reading_label(sheet, d, True, lines_of(finding)) for d in reread)
        lines = listed(labelled(sheet, x) for x in lines_of(finding))
        return sentence("note", "follows_empty", readings=readings, lines=lines)
    match finding.question:
        case "inside lost" if _lost_above(sheet, root, finding):
            return sentence("note", "also_claims", claims=claims_text([finding.claim]))
        case "inside lost":
            return sentence("note", "follows_inside", case=case_text(sheet, finding.case), label=label)
        case "unmeant met":
            twin = twin_text(sheet, finding)
            beside = sentence("note", "beside", twin=twin) if twin else ""
            thing = thing or thing_text(sheet, finding)
            key = "follows_meant" if reread else "follows_meant_usual"
            return sentence("note", key, label=label, thing=thing, twin=beside)
        case "silence alone keeps out":
            silent = listed(labelled(sheet, x) for x in lines_of(finding))
            above = {x.claim for label in lines_of(finding) if (x := limitation_labelled(sheet, label))}
            if _let_by_the_line_left_open(sheet, root, finding):
                return sentence("note", "follows_silence_presumed", label=silent, claim=finding.claim)
            if finding.claim in above or len(above) != 1:
                return sentence("note", "follows_silence", label=silent, claim=finding.claim)
            return sentence(
                "note", "follows_silence_above", label=silent, claim=finding.claim, above=above.pop()
            )
        case "no reading fits all cases":
            lines = listed(labelled(sheet, x) for x in lines_of(finding))
            return sentence("note", "follows_clash", sides=sides_text(sheet, finding), lines=lines)
        case "meant lost":
            thing = thing or thing_text(sheet, finding)
            key = "follows_lost" if reread else "follows_lost_usual"
            return sentence("note", key, label=label, thing=thing)
        case "idle":
            return sentence("note", "follows_idle", label=label, claim=finding.claim)
        case _:
            looked = sentence("question", finding.question, "looked")
            return sentence("note", "follows_other", label=label, brief=looked)
