"""At which places of the claims each kind of ambiguity changes what is met."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from scopecheck.answers.findings import Finding
from scopecheck.core.model import Sheet
from scopecheck.foundations.record import replace
from scopecheck.report.grouping import Cluster, axes, departures, moved_labels, turning_labels

Turned = frozenset[tuple[int, str]]
"""Phrases, by their group, each with the label of a limitation."""


def turned_on(sheet: Sheet, findings: Iterable[Finding]) -> Turned:
    """The phrases that the findings turn on, or that would undo them, each with where in the claims."""
    found: set[tuple[int, str]] = set()
    for f in findings:
        labels = turning_labels(sheet, f)
        for moved in (*departures(f), *f.otherwise.rereads):
            places = {p.where for p in sheet.groups[moved.group].places}
            found |= {(moved.group, label) for label in places.intersection(labels) or places}
    return frozenset(found)


def with_places(sheet: Sheet, found: Iterable[Cluster], every: Iterable[Finding]) -> tuple[Cluster, ...]:
    """The clusters, each told at how many places its kinds of ambiguity change anything that `every` tells.

    So the number is the same wherever a kind of ambiguity is told of, in an item or among what is contested.
    """
    by_axis = _labels_by_axis(sheet, every)
    return tuple(_with_places(cluster, by_axis) for cluster in found)


def _with_places(cluster: Cluster, by_axis: Mapping[str, frozenset[str]]) -> Cluster:
    labels = frozenset[str]().union(*(by_axis.get(axis, frozenset()) for axis in cluster.axes))
    matters = max(cluster.matters, len(labels))
    return replace(cluster, matters=matters, places=max(cluster.places, matters))


def _labels_by_axis(sheet: Sheet, findings: Iterable[Finding]) -> dict[str, frozenset[str]]:
    found: dict[str, frozenset[str]] = {}
    for finding in findings:
        for axis in {axis for d in departures(finding) for axis in axes(sheet, d)}:
            found[axis] = found.get(axis, frozenset()).union(moved_labels(sheet, finding, {axis}))
    return found
