"""What stands below an item's sentence: the readings, who would bring it, what it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from scopecheck.answers.findings import Finding, Reread, Status, WayOut
from scopecheck.core.construction import base_construction
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.report.conditions import condition_texts
from scopecheck.report.describe import case_named, case_text, labelled, limitation_labelled, lineage
from scopecheck.report.grouping import (
    BESIDE_MEANT,
    EMPTY_CLAIM,
    barred_by,
    departures,
    only_far_out,
    turning_labels,
)
from scopecheck.report.rereadings import (
    bearer_text,
    group_words,
    kept_text,
    reading_label,
    reading_text,
    together_text,
    unmet_texts,
    unpresumed,
    usual_text,
)
from scopecheck.report.things import in_question, spoken_of, twin_text
from scopecheck.report.wholes import case_notes
from scopecheck.report.wording import GLUE, claims_text, flat, listed, quoted, sentence, upper_first
from scopecheck.solving.evaluate import evaluate

IDLE = ("idle", "idle end", "end not reached", "member not reached")
"""Questions whose answer rests on other lines as well."""
MOST_WAYS = 4
"""Limitations that keep a thing out and are told one by one."""
VERY_WIDE = 10**6
"""A stretch, in units of its own, at which anything that stretches is taken to be met."""
Margin = tuple[tuple[str, tuple[str, ...]], ...]


def statuses(finding: Finding) -> str:
    """How much of a region is met: as presumed, at the narrowest and at the widest; once if they agree."""
    known = [s for s in (finding.lowest, finding.at_base, finding.highest) if s is not None]
    if not known:
        return ""
    if len(known) == 3 and len(set(known)) == 1:
        return sentence("status", "constant", status=sentence("status", known[0]))
    steps: tuple[tuple[str, Status | None], ...] = (
        ("at_base", finding.at_base),
        ("lowest", finding.lowest),
        ("highest", finding.highest),
    )
    told: dict[str, list[str]] = {}
    for key, status in steps:
        if status is not None:
            told.setdefault(sentence("status", status), []).append(sentence("status", key))
    return ", ".join(f"{status} {listed(where)}" for status, where in told.items())


def readings_told(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The readings on which it happens, each with its standing and meaning; else how far it holds."""
    if finding.question == "number not described":
        return ()
    labels = turning_labels(sheet, finding)
    told = tuple(reading_text(sheet, d, labels) for d in departures(finding))
    if not told and finding.quantifier == "every" and not finding.itself:
        return (sentence("quantifier", "every_other"),)
    if not told and finding.quantifier == "every" and (left := _settled_by(finding)):
        return (sentence("quantifier", "every_left", settled=listed(left)),)
    if only_far_out(sheet, finding):
        return (sentence("quantifier", "every_but_far"),)
    if told or finding.quantifier != "base":
        return told or (sentence("quantifier", finding.quantifier),)
    usual = _usual_readings(sheet, finding)
    if usual:
        return usual
    key = "base_unpresumed" if without_presumption(sheet, finding.claim) else "base"
    return (sentence("quantifier", key),)


def _settled_by(finding: Finding) -> tuple[str, ...]:
    """The policies and pins among what a finding rests on; only they are quoted there."""
    return tuple(flat(text) for text in finding.rests_on if text.startswith('"'))


def _usual_readings(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The usual readings of the limitations that fail, or of the one the finding is about, in sheet order.

    What is idle rests on how the lines beside it are read, too.
    """
    labels = finding.failing or (finding.label,)
    if finding.question in IDLE:
        labels = (finding.label, *finding.conflict)
    limitations = [found for label in labels if (found := limitation_labelled(sheet, label))]
    groups = dict.fromkeys(g for limitation in limitations for g in limitation.groups)
    return tuple(usual_text(sheet, g, labels) for g in groups)


def _how_far(sheet: Sheet, finding: Finding) -> str:
    """That a finding of the usual readings does not hold on every one; '' where it is told otherwise."""
    if finding.quantifier != "base" or departures(finding) or not _usual_readings(sheet, finding):
        return ""
    return "" if finding.kept_by or finding.unmet_by else sentence("quantifier", "base_named")


def without_presumption(sheet: Sheet, claim: int) -> bool:
    """Is anything of the claim, or with 0 of all, read by its first reading for want of a presumption?"""
    claims = lineage(sheet, claim) if claim else tuple(c.number for c in sheet.claims)
    used = {g for c in sheet.claims if c.number in claims for x in c.limitations for g in x.groups}
    return unpresumed(sheet, used)


# ---- the lines in the margin


def margin(sheet: Sheet, finding: Finding) -> Margin:
    """What stands below the statement, under its margin words; lines that say nothing are left out."""
    shown: list[tuple[str, Iterable[str]]] = [
        ("beside", [twin_text(sheet, finding)] if finding.question != "moves with something else" else []),
        ("region", [_region(sheet, finding)]),
        ("reading", readings_told(sheet, finding)),
        ("together", _together(sheet, finding)),
        ("how_far", [_how_far(sheet, finding)]),
        ("met_by" if finding.question in EMPTY_CLAIM else "kept_by", _kept_by(sheet, finding)),
        ("unmet_by", _unmet_by(sheet, finding)),
        ("others", _others(sheet, finding)),
        ("kept_out", _ways_out(sheet, finding)),
        ("bearer", [bearer_text(sheet, finding)]),
        ("rests", [_rests_on(finding)]),
        ("also_claims", _also(sheet, finding)),
        ("note", _notes(sheet, finding)),
    ]
    kept = [(word, tuple(text for text in texts if text)) for word, texts in shown]
    return tuple((sentence("margin", word), texts) for word, texts in kept if texts)


def _region(sheet: Sheet, finding: Finding) -> str:
    """The statuses of a case with more than one thing in it; '' for a point."""
    told = (finding.lowest, finding.at_base, finding.highest)
    if finding.question in ("class", "document range") or "some" not in told:
        return ""
    return statuses(finding)


def _together(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """That the re-readings do it only together, and that other sets of phrases do it too."""
    if finding.question == "pair":
        return ()
    return together_text(sheet, finding), sentence("reading", "more_together") if finding.more else ""


def _rests_on(finding: Finding) -> str:
    """Bounds, givens and policies, unless `readings_told` names the policy already."""
    told = _settled_by(finding) if finding.quantifier == "every" and not departures(finding) else ()
    return "; ".join(t for text in finding.rests_on if (t := flat(text)) not in told)


def _others(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """Further readings with the same effect, the words told once for each phrase."""
    if departures(finding) and not finding.rereads and not finding.read_as:
        return ()
    told_already = {(d.group, d.reading) for d in departures(finding)}
    by_group: dict[int, list[str]] = {}
    for g, r in finding.others:
        if (g, r) in told_already or not _of_the_thing(sheet, finding, g, r):
            continue
        label = reading_label(sheet, Reread(g, r))
        if any((p.group, p.reading) == (g, r) for p in sheet.parameters):
            label = sentence("reading", "far_enough", label=label)
        by_group.setdefault(g, []).append(label)
    labels = (finding.label, *turning_labels(sheet, finding))
    return tuple(
        sentence(
            "reading", "same_words", words=group_words(sheet.groups[g], labels), labels=listed(told, "or")
        )
        for g, told in by_group.items()
    )


def _of_the_thing(sheet: Sheet, finding: Finding, group: int, reading: int) -> bool:
    """Beside what was meant: does the thing shown do it on that reading too, not only some other thing?"""
    limitation = limitation_labelled(sheet, finding.label)
    if finding.question not in BESIDE_MEANT or limitation is None or finding.witness is None:
        return True
    if any((p.group, p.reading) == (group, reading) for p in sheet.parameters):
        return True
    k = base_construction(sheet).with_reading(group, reading)
    met = evaluate(limitation.formula, finding.witness.article, k) is True
    return met == (finding.question == "unmeant met")


def _kept_by(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The least re-readings on which a lost case is kept after all."""
    conflict = finding.conflict if finding.question in EMPTY_CLAIM else ()
    labels = finding.failing or conflict or turning_labels(sheet, finding)
    told = tuple(kept_text(sheet, r, labels) for r in finding.kept_by)
    return (*told, together_text(sheet, replace(finding, rereads=finding.kept_by, read_as=())))


def _unmet_by(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The re-readings on which what is met as presumed is kept out, each of them alone or all together."""
    if departures(finding):
        return ()
    told = unmet_texts(sheet, finding.unmet_by, turning_labels(sheet, finding))
    alone = turning_labels(sheet, replace(finding, unmet_by=finding.unmet_by[:1]))
    if alone or len(told) < 2:
        return told
    return (*told, together_text(sheet, replace(finding, rereads=finding.unmet_by, read_as=())))


def _ways_out(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """What keeps the thing out as usually read, where that is more than the re-readings told already."""
    told = {(d.group, d.reading) for d in departures(finding)}
    turning = turning_labels(sheet, finding)
    asked = {x.label for x in in_question(sheet, finding)}
    ways = [w for w in finding.ways_out if w.label in asked]
    if all(w.label in turning and set(w.readings) <= told for w in ways):
        return ()
    lines = [_way_out(sheet, finding, way) for way in ways[:MOST_WAYS]]
    more = len(ways) - len(lines)
    return (*lines, sentence("note", "more_lines", count=more)) if more else tuple(lines)


def _way_out(sheet: Sheet, finding: Finding, way: WayOut) -> str:
    """`1d "about 35 %", unless it is read as "fixed share" or stretches far enough`."""
    words = f"{way.label}{GLUE}{quoted(way.words)}"
    labels = [f'"{flat(sheet.groups[g].readings[r].label)}"' for g, r in way.readings]
    parts = [sentence("note", "way_read", readings=listed(labels, "or"))] if labels else []
    limitation = limitation_labelled(sheet, way.label)
    if limitation is not None and _stretches_to(sheet, finding, limitation):
        parts.append(sentence("note", "way_stretched"))
    if not parts:
        return sentence("note", "way_out_none", words=words)
    return sentence("note", "way_out", words=words, ways=listed(parts, "or"))


def _stretches_to(sheet: Sheet, finding: Finding, limitation: Limitation) -> bool:
    """Is the limitation met by the thing once a usual reading of its words is stretched?

    The stretch of the finding is tried, then the widest allowed, or a very wide one where there is no end.
    """
    if finding.witness is None:
        return False
    base, article = base_construction(sheet), finding.witness.article
    taken = dict(finding.construction.parameters) if finding.construction else {}
    for p in sheet.parameters:
        if p.group not in limitation.groups or p.reading != sheet.groups[p.group].base:
            continue
        widest = p.upper.value if p.upper else p.presumed + VERY_WIDE * max(p.unit.factor, Fraction(1))
        for value in dict.fromkeys((taken.get(p.key, p.presumed), widest)):
            values = tuple((key, value if key == p.key else v) for key, v in base.parameters)
            if evaluate(limitation.formula, article, replace(base, parameters=values)) is True:
                return True
    return False


def _also(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """The dependents of which the same holds, and those of which it does as far as the case goes."""
    if finding.also_claims and finding.question != "no reading suits all claims":
        yield sentence("note", "also_claims", claims=claims_text(finding.also_claims))
    by_names: dict[tuple[str, ...], list[int]] = {}
    for number, names in finding.also_open:
        by_names.setdefault(names, []).append(number)
    for names, numbers in by_names.items():
        yield sentence("note", "also_open", claims=claims_text(numbers), names=_left_open(sheet, names))


def _left_open(sheet: Sheet, names: Sequence[str]) -> str:
    """The names; all that is declared of one step, told as one."""
    steps = [step for step in sheet.steps if sum(name in step.numbers for name in names) > 1]
    own = [flat(name) for name in names if all(name not in step.numbers for step in steps)]
    told = [sentence("note", "of_steps", steps=listed(step.name for step in steps))] if steps else []
    return listed([*own, *told])


def _notes(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    notes = []
    if finding.witness is not None and _grade_matters(sheet, finding):
        notes.append(sentence("grade", finding.grade))
    notes += condition_texts(sheet, finding)
    if case := case_named(sheet, finding.case):
        notes += case_notes(sheet, case)
    if finding.partly:
        notes += _partly(sheet, finding)
    if finding.question == "adds nothing" and finding.quantifier != "every":
        notes.append(sentence("note", "narrows_else"))
    if barred := barred_by(sheet, finding):
        lines = listed(labelled(sheet, x) for x in barred)
        notes.append(sentence("note", "barred", lines=lines, claim=finding.claim))
    if finding.question == "same scope":
        notes += _not_restated(sheet, finding)
    if finding.twins:
        notes.append(sentence("note", "twins", labels=listed(labelled(sheet, x) for x in finding.twins)))
    if not finding.simplest:
        notes.append(sentence("note", "not_simplest"))
    if not finding.best:
        notes.append(sentence("note", "not_best"))
    return tuple(notes)


def _not_restated(sheet: Sheet, finding: Finding) -> list[str]:
    """Of two claims alike, which of them say what no line restates."""
    both = {finding.claim, int(finding.detail.removeprefix("claim "))}
    left = sorted(both & {u.claim for u in sheet.unrestated})
    if not left:
        return []
    told = upper_first(claims_text(left))
    return [sentence("note", "not_restated_one" if len(left) == 1 else "not_restated", claims=told)]


def _partly(sheet: Sheet, finding: Finding) -> list[str]:
    """That only part of a case is concerned: what it leaves unsaid, or states with room left."""
    case = case_named(sheet, finding.case)
    if case is None:
        return []
    spoken, exact = spoken_of(in_question(sheet, finding)), stated_values(sheet, case, exact=True)
    unsaid = [flat(n) for n in finding.partly if n not in case.stated]
    roomy = [flat(n) for n in case.stated if n in spoken and n not in exact]
    name = case_text(sheet, finding.case)
    if unsaid:
        return [sentence("note", "partly", case=name, names=listed(unsaid))]
    return [sentence("note", "partly_stated", case=name, names=listed(roomy))] if roomy else []


def _grade_matters(sheet: Sheet, finding: Finding) -> bool:
    """A thing told by its own listed values needs no second word about it, nor one that was not graded."""
    if finding.grade == "edge":
        return False
    case = case_named(sheet, finding.case)
    if case is None or finding.case != finding.reference:
        return finding.grade != "listed"
    return finding.grade != "listed" and any(n in case.stated for n in finding.departs)
