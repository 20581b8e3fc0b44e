"""Listed things that come out wrong in an item which the first page has no room for, in one line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.findings import Finding
from scopecheck.core.model import Sheet
from scopecheck.report.describe import case_text
from scopecheck.report.grouping import SIDED, SILENCE, Cluster, departures, turning_labels
from scopecheck.report.margins import claim_told
from scopecheck.report.rereadings import kept_text
from scopecheck.report.wording import claims_text, listed, sentence

MOST = 6
"""Listed things, or ways in which such things come out wrong, that are told."""


def not_shown_text(sheet: Sheet, shown: Iterable[Cluster], held: Iterable[Cluster]) -> str:
    """`Listed things that no item above tells of: accused meets claim 1 once "about 1:5" stretches by 42 % or
    more.`; '' if each is named. Of several ways in which one thing comes out wrong the first is told."""
    told = {f.case for cluster in shown for f in _of_cluster(cluster)}
    together: dict[tuple[str, str], list[str]] = {}
    for finding in (f for cluster in held for f in cluster.findings if f.question in (*SIDED, SILENCE)):
        if finding.case not in told:
            told.add(finding.case)
            key = "silence" if finding.question == SILENCE else "lost" if _is_lost(finding) else "met"
            claim = claims_text([claim_told(sheet, finding)])
            what = sentence("not_shown", key, claim=claim, way=_way(sheet, finding))
            many = sentence("not_shown", f"{key}_many", claim=claim, way=_way(sheet, finding))
            together.setdefault((what, many), []).append(case_text(sheet, finding.case))
    if not together:
        return ""
    texts = [f"{listed(names)} {many if len(names) > 1 else one}" for (one, many), names in together.items()]
    more = len(texts) - MOST
    texts = [*texts[:MOST], *([sentence("not_shown", "more", count=more)] if more > 0 else [])]
    return sentence("not_shown", "all", told="; ".join(texts))


def _of_cluster(cluster: Cluster) -> Iterator[Finding]:
    yield from (f for f in (*cluster.findings, *cluster.absorbed) if f.question in (*SIDED, SILENCE))


def _is_lost(finding: Finding) -> bool:
    return finding.question == "inside lost"


def _way(sheet: Sheet, finding: Finding) -> str:
    """` once "about 1:5" stretches by 42 % or more`, ` on every reading listed`."""
    labels = turning_labels(sheet, finding)
    moved: Sequence[str] = [kept_text(sheet, d, labels) for d in departures(finding)]
    return listed(moved) if moved else sentence("how_read", finding.quantifier)
