"""How an amended claim lies to the one before once ends presumed to round and others are read alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scopecheck.answers.about import Relation
from scopecheck.answers.amended_stretch import Sides, relation_on
from scopecheck.core.construction import Construction, admissible_readings
from scopecheck.core.formula import Formula
from scopecheck.core.model import Group
from scopecheck.foundations.record import record
from scopecheck.solving.solver import Session

ROUNDING, WITHOUT = "rounding", "none"


@record
class AlikeEnds:
    """The relation with no end rounding, where that is another than as presumed.

    As presumed the ends of the groups `rounding` round and those of `others` do not: the claim before and
    the amended one are read with the one and the other.
    """

    relation: Relation
    rounding: tuple[int, ...]
    others: tuple[int, ...]


def alike_ends(session: Session, sides: Sides, presumed: Relation) -> AlikeEnds | None:
    """What becomes of the presumed relation if nothing rounds; None if one presumption holds for all.

    Only words that differ, and that limit something that words presumed otherwise limit in the other version.
    """
    mixed = _mixed(session, sides.taken_out, sides.put_in) | _mixed(session, sides.put_in, sides.taken_out)
    if not mixed:
        return None
    rounding = sorted({one for one, _ in mixed})
    k: Construction = session.base
    for g in rounding:
        reading = _without_rounding(session.sheet.groups[g], session.strained)
        if reading is None:
            return None
        k = k.with_reading(g, reading)
    relation = relation_on(session, sides, k)
    if relation == presumed:
        return None
    return AlikeEnds(relation, tuple(rounding), tuple(sorted({other for _, other in mixed})))


def rounding_alike(session: Session, one: int, other: int) -> Iterator[tuple[frozenset[int], frozenset[int]]]:
    """The readings of two groups that round alike, for each way in which both can; nothing where they are
    presumed to round otherwise."""
    groups = [session.sheet.groups[g] for g in (one, other)]
    if _of_base(groups[0]) != _of_base(groups[1]):
        return
    ways = [
        {r: _axes(group, r).get(ROUNDING, "") for r in admissible_readings(group, session.strained)}
        for group in groups
    ]
    for how in sorted(set(ways[0].values()) & set(ways[1].values()) - {""}):
        ours, theirs = (frozenset(r for r, own in way.items() if own == how) for way in ways)
        yield ours, theirs


def _mixed(session: Session, own: Formula, other: Formula) -> set[tuple[int, int]]:
    """The groups of one version that round as presumed, each with one of the other that does not."""
    if not session.names_in(own) & session.names_in(other):
        return set()
    groups = session.sheet.groups
    rounding = [g for g in session.groups_in(own) if _of_base(groups[g]) not in (None, WITHOUT)]
    without = [g for g in session.groups_in(other) if _of_base(groups[g]) == WITHOUT]
    return {(one, another) for one in rounding for another in without}


def _of_base(group: Group) -> str | None:
    """How the presumed reading rounds; None where that is no question of these words."""
    return dict(group.readings[group.base].axes).get(ROUNDING)


def _without_rounding(group: Group, strained: bool) -> int | None:
    """The reading that differs from the presumed one in that nothing rounds."""
    wanted = {**_axes(group, group.base), ROUNDING: WITHOUT}
    readings: Iterable[int] = admissible_readings(group, strained)
    return next((r for r in readings if _axes(group, r) == wanted), None)


def _axes(group: Group, reading: int) -> dict[str, str]:
    return dict(group.readings[reading].axes)
