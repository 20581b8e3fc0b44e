"""What else would have the same effect on a thing, and what would let it by where it is kept out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Set

from scopecheck.answers.about import Reread, WayOut
from scopecheck.answers.findings import Finding, ways_out_of
from scopecheck.answers.minimise import BreakPoint
from scopecheck.core.construction import base_construction, names_in, options_by_group, own_meanings
from scopecheck.core.model import FreeParameter, Limitation, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.report.describe import case_named, limitation_labelled, lineage
from scopecheck.report.grouping import BESIDE_MEANT, departures, turning_labels
from scopecheck.report.rereadings import group_words, kept_text, reading_label, words_at
from scopecheck.report.stretching import (
    break_point,
    own_parameters,
    so_far,
    suffices,
    suffices_as_presumed,
    up_to,
)
from scopecheck.report.things import in_question
from scopecheck.report.wording import GLUE, listed, quoted, sentence
from scopecheck.solving.evaluate import meets

MOST_WAYS = 4
"""Limitations that keep a thing out and are told one by one."""
LOST = ("inside lost", "meant lost")
"""Questions whose thing is one that is not met."""


def other_readings(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """Further readings with the same effect, the words told once for each phrase."""
    if departures(finding) and not finding.rereads and not finding.read_as:
        return ()
    told_already = {(d.group, d.reading) for d in departures(finding)}
    by_group: dict[int, list[str]] = {}
    labels = (finding.label, *turning_labels(sheet, finding))
    lines = [x.formula for label in labels if (x := limitation_labelled(sheet, label))]
    kept = [s for s in finding.others if s not in told_already and _of_the_thing(sheet, finding, *s)]
    places = options_by_group(*lines)
    for g in {g for g, _ in kept}:
        order = (r for h, r in (*sorted(told_already), *kept) if h == g)
        own = own_meanings(places.get(g, ()), order)
        kept = [(h, r) for h, r in kept if h != g or r in own]
    for g, r in sorted(kept, key=lambda step: bool(own_parameters(sheet, *step))):
        by_group.setdefault(g, []).append(_other(sheet, finding, g, r))
    return tuple(
        sentence(
            "reading", "same_words", words=group_words(sheet.groups[g], labels), labels=listed(told, "or")
        )
        for g, told in sorted(by_group.items())
    )


def _other(sheet: Sheet, finding: Finding, group: int, reading: int) -> str:
    """The reading, with how far it must stretch where it has to.

    The number is known where the finding is about one thing alone, on one phrase re-read.
    """
    label = reading_label(sheet, Reread(group, reading))
    own = own_parameters(sheet, group, reading)
    if not own:
        return label
    lines = _lines_of_one_thing(sheet, finding)
    if len(own) == 1 and lines and finding.witness is not None and finding.construction is not None:
        k = base_construction(sheet) if finding.question in BESIDE_MEANT else finding.construction
        p, k, article = own[0], k.with_reading(group, reading), finding.witness.article
        met = finding.question not in LOST
        if suffices_as_presumed(p, lines, article, k, met):
            return label
        if point := break_point(p, lines, article, k, met):
            return _with_so(sheet, label, p, point)
    return sentence("reading", "far_enough", label=label)


def _with_so(sheet: Sheet, label: str, p: FreeParameter, point: BreakPoint) -> str:
    """`"context tolerance" (arguable), once it stretches by 6 % or more`."""
    key = "far_once" if point.upward else "far_while"
    return sentence("reading", key, label=label, so=so_far(sheet, p, point))


def kept_out_if(
    sheet: Sheet, finding: Finding, rereads: Iterable[Reread], labels: Iterable[str] = ()
) -> tuple[str, ...]:
    """`if "..." is read as "one" (arguable) or "other" (arguable)`, a line for each phrase.

    With the stretches for which this goes for the thing shown, where a reading leaves one open.
    """
    by_group: dict[int, list[Reread]] = {}
    for reread in rereads:
        by_group.setdefault(reread.group, []).append(reread)
    told = []
    for group, own in by_group.items():
        if own[0].breaks:
            told.append(kept_text(sheet, own[0], labels))
            continue
        words = listed(words_at(sheet.groups[group], labels))
        own.sort(key=lambda r: bool(own_parameters(sheet, r.group, r.reading)))
        read_as = listed((_keeping(sheet, finding, r) for r in own), "or")
        told.append(sentence("reading", "kept", words=words, labels=read_as))
    return tuple(told)


def _keeping(sheet: Sheet, finding: Finding, reread: Reread) -> str:
    """A reading that keeps the thing out as presumed, and up to which stretch it does."""
    label, own = reading_label(sheet, reread), own_parameters(sheet, reread.group, reread.reading)
    points = keeping_points(sheet, finding, reread)
    return _with_so(sheet, label, own[0], points[0]) if points else label


def keeping_points(sheet: Sheet, finding: Finding, reread: Reread) -> tuple[BreakPoint, ...]:
    """Up to which stretch a reading keeps the thing out, where it leaves one open and that is known."""
    lines, own = _lines_of_one_thing(sheet, finding), own_parameters(sheet, reread.group, reread.reading)
    if len(own) != 1 or not lines or finding.witness is None:
        return reread.breaks
    k = base_construction(sheet).with_reading(reread.group, reread.reading)
    point = break_point(own[0], lines, finding.witness.article, k, True)
    return reread.breaks or ((up_to(point),) if point else ())


def _lines_of_one_thing(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """What the thing shown meets or misses, where the finding is about this thing alone; else nothing.

    So beside what was meant, and of a case that states all that the lines speak of, of one line of parents.
    """
    claims = [c for c in sheet.claims if c.number in lineage(sheet, finding.claim)]
    own = limitation_labelled(sheet, finding.label)
    if own is None and any(len(c.parents) > 1 for c in claims):
        return ()
    lines = (own,) if own else tuple(x for c in claims for x in c.limitations)
    case = case_named(sheet, finding.case)
    if case is None:
        return lines if finding.question in BESIDE_MEANT else ()
    spoken = names_in(*(x.formula for x in lines))
    return lines if spoken <= stated_values(sheet, case, exact=True).keys() else ()


def _of_the_thing(sheet: Sheet, finding: Finding, group: int, reading: int) -> bool:
    """Beside what was meant: does the thing shown do it on that reading too, not only some other thing?"""
    limitation = limitation_labelled(sheet, finding.label)
    if finding.question not in BESIDE_MEANT or limitation is None or finding.witness is None:
        return True
    k, met = base_construction(sheet).with_reading(group, reading), finding.question not in LOST
    article = finding.witness.article
    if own := own_parameters(sheet, group, reading):
        return any(suffices(p, (limitation,), article, k, met) for p in own)
    return meets(limitation.formula, article, k) == met


def ways_out(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """What keeps the thing out as usually read, where that is more than the re-readings told already."""
    told = {(d.group, d.reading) for d in departures(finding)}
    turning = turning_labels(sheet, finding)
    asked = {x.label for x in in_question(sheet, finding)}
    ways = [w for w in ways_out_of(finding) if w.label in asked]
    if all(w.label in turning and set(w.readings) <= told for w in ways):
        return ()
    told |= {
        s for s in finding.others if other_readings(sheet, finding) and _of_the_thing(sheet, finding, *s)
    }
    if all(w.label in turning and _all_told(sheet, finding, w, told) for w in ways):
        return ()
    lines = [_way_out(sheet, finding, way) for way in ways[:MOST_WAYS]]
    more = len(ways) - len(lines)
    return (*lines, sentence("note", "more_lines", count=more)) if more else tuple(lines)


def _all_told(sheet: Sheet, finding: Finding, way: WayOut, told: Set[tuple[int, int]]) -> bool:
    """Is each reading and each stretch that lets the thing by at this line among those told already?"""
    stretches = {(p.group, p.reading) for p, _ in stretched_by(sheet, finding, way)}
    return {*way.readings, *stretches} <= told


def _way_out(sheet: Sheet, finding: Finding, way: WayOut) -> str:
    """`1d "about 35 %", unless it is read as "fixed share" or stretches by 1 percentage point or more`."""
    words = f"{way.label}{GLUE}{quoted(way.words)}"
    labels = [quoted(sheet.groups[g].readings[r].label) for g, r in way.readings]
    parts = [sentence("note", "way_read", readings=listed(labels, "or"))] if labels else []
    far: list[tuple[str, str]] = []
    for p, point in stretched_by(sheet, finding, way):
        group = sheet.groups[p.group]
        so = so_far(sheet, p, point) if point else sentence("note", "way_stretched")
        if p.reading == group.base:
            far.append((group_words(group, (way.label,)), so))
        else:
            label = quoted(group.readings[p.reading].label)
            parts.append(sentence("note", "way_read_so", reading=label, so=so))
    if not parts and not far:
        return sentence("note", "way_out_none", words=words)
    if all(own == quoted(way.words) for own, _ in far):
        return sentence("note", "way_out", words=words, ways=listed([*parts, *(so for _, so in far)], "or"))
    told = [sentence("note", "way_it", way=part) for part in parts]
    told += [sentence("note", "way_within", words=own, so=so) for own, so in far]
    return sentence("note", "way_out_within", words=words, ways=listed(told, "or"))


def stretched_by(
    sheet: Sheet, finding: Finding, way: WayOut
) -> Iterator[tuple[FreeParameter, BreakPoint | None]]:
    """The stretches, each alone, that let the thing shown by a limitation, and from where on they do.

    Of a usual reading also where that is not known; other readings that let it by as presumed are left out.
    """
    limitation = limitation_labelled(sheet, way.label)
    for p in sheet.parameters:
        if limitation is None or finding.witness is None or p.group not in limitation.groups:
            continue
        group, usual = sheet.groups[p.group], p.reading == sheet.groups[p.group].base
        if (p.group, p.reading) in way.readings or (
            not usual and group.readings[p.reading].standing == "strained"
        ):
            continue
        k = base_construction(sheet).with_reading(p.group, p.reading)
        asked = ((limitation,), finding.witness.article, k, True)
        point = break_point(p, *asked)
        if point or (usual and suffices(p, *asked)):
            yield p, point
