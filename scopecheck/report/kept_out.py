"""What keeps a case out of a claim, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.about import Fall, KeptOut, Reread, WayOut
from scopecheck.answers.findings import Finding, lines_of, silent_lines, ways_out_of
from scopecheck.answers.minimise import BreakPoint
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.declared import SetDecl
from scopecheck.core.model import Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.report.describe import case_named, case_text, labelled, limitation_labelled, lineage
from scopecheck.report.rereadings import bearer_text, break_text, group_words, reading_label
from scopecheck.report.rereadings import kept_text as reread_text
from scopecheck.report.stretching import break_point, own_parameters, up_to
from scopecheck.report.untried import untried
from scopecheck.report.ways import way_text
from scopecheck.report.wording import flat, listed, quoted, sentence, upper_first
from scopecheck.vocabulary.names import ONLY_OF_RECITED

MOST_QUOTED = 4
"""So many lines that a document does not settle are told by their words."""
MOST_SETS = 6
"""Sets told one by one."""


def scope_text(sheet: Sheet, finding: Finding) -> str:
    """`claim 4`, or `claim 4 where it depends on claim 2`."""
    return " ".join(part for part in (flat(finding.label), way_text(sheet, finding)) if part)


def kept_text(sheet: Sheet, finding: Finding) -> str:
    """Which limitations, each set of them by itself, keep the case out, and what a document leaves open;
    '' of other findings."""
    kept = finding.about
    if finding.question != "kept out" or not isinstance(kept, KeptOut):
        return ""
    case, scope, falls = case_text(sheet, finding.case), scope_text(sheet, finding), _falls(sheet, finding)
    if kept.line and not kept.silent:
        return upper_first(kept_by_one_line(sheet, [finding]))
    silent = _silent(sheet, kept.silent) if kept.silent else ""
    if not kept.sets:
        return upper_first(sentence("kept", "open", case=case, scope=scope, silent=silent, falls=falls))
    parts = {"sets": _sets(sheet, kept), "silent": silent, "falls": falls}
    key = "several_always" if _each_always(finding) else "several"
    return upper_first(sentence("kept", key, case=case, scope=scope, **parts))


def _silent(sheet: Sheet, labels: Sequence[str]) -> str:
    """What a document does not settle; of many lines their labels alone."""
    if len(labels) > MOST_QUOTED:
        return sentence("kept", "silent_many", count=len(labels), labels=listed(labels))
    return sentence("kept", "silent", lines=listed(labelled(sheet, x) for x in labels))


def kept_by_one_line(sheet: Sheet, findings: Sequence[Finding], also: bool = False) -> str:
    """`on every reading listed 1d "..." alone keeps cup and bowl out of claim 1`, of cases that one line
    keeps out alike; with `also` as the further part of such a sentence, on a further claim."""
    first = findings[0]
    alone = len({x.label for n in lineage(sheet, first.claim) for x in sheet.claim(n).limitations}) > 1
    always = _each_always(first)
    key = "also" if also else "only" if alone or not always else "the_line"
    return sentence(
        "kept",
        key + "_always" * always,
        line=labelled(sheet, lines_of(first)[0]),
        case=listed(dict.fromkeys(case_text(sheet, f.case) for f in findings)),
        scope=scope_text(sheet, first),
        falls=_falls(sheet, first),
    )


def lines_that_keep_out(sheet: Sheet, findings: Iterable[Finding]) -> Iterator[tuple[Finding, str]]:
    """Sentences on cases each of which one line keeps out: those kept out alike in one, and what keeps the
    same cases out of further claims behind it; each with the finding at whose place it stands."""
    alike: dict[tuple[str, ...], list[Finding]] = {}
    for f in findings:
        said = (lines_of(f)[0], scope_text(sheet, f), _falls(sheet, f), str(_each_always(f)))
        alike.setdefault(said, []).append(f)
    of_same: dict[object, list[list[Finding]]] = {}
    for own in alike.values():
        of_same.setdefault((tuple(f.case for f in own), _each_always(own[0])), []).append(own)
    for first, *rest in of_same.values():
        told = [kept_by_one_line(sheet, first), *(kept_by_one_line(sheet, own, True) for own in rest)]
        plain = _each_always(first[0]) and not any(_falls(sheet, own[0]) for own in (first, *rest))
        yield first[0], upper_first(listed(told) if plain and rest else "; ".join(told)) + "."


def _each_always(finding: Finding) -> bool:
    """Does each set of lines that keeps the case out do it on every reading, a line named alone by itself?

    Not told so where further lines do it on another reading.
    """
    kept = finding.about
    if not isinstance(kept, KeptOut) or kept.besides or not kept.sets or not kept.every_set:
        return False
    if kept.line and kept.sets != ((kept.line,),):
        return False
    return {f.labels for f in kept.falls if f.always} == set(kept.sets)


def _sets(sheet: Sheet, kept: KeptOut) -> str:
    alone = [one[0] for one in kept.sets if len(one) == 1]
    parts = []
    if alone:
        lines = listed(labelled(sheet, x) for x in alone)
        parts.append(lines if len(kept.sets) == 1 else sentence("kept", "alone", lines=lines))
    together = [one for one in kept.sets if len(one) > 1]
    told = [
        sentence("kept", "together", lines=listed(labelled(sheet, x) for x in one))
        for one in together[:MOST_SETS]
    ]
    cut = not kept.every_set or len(together) > MOST_SETS
    return "; ".join([*parts, *told]) + (sentence("kept", "cut") if cut else "")


def _falls(sheet: Sheet, finding: Finding) -> str:
    """Which sets keep the case out on every reading, and which no longer do on which; who reads so.

    Of the lines that a document leaves open: the single readings on which what it states is enough for them.
    """
    kept = finding.about
    if not isinstance(kept, KeptOut):
        return ""
    always = ["+".join(f.labels) for f in kept.falls if f.always]
    labels = dict.fromkeys(label for f in kept.falls if f.always for label in f.labels)
    left = untried(sheet, tuple(labels))
    told = []
    if _each_always(finding):  # the sentence says so itself
        told = [sentence("kept", "untried", untried=left)] if left else []
    elif always:
        key = "always_but" if left else "always"
        told = [sentence("kept", key, sets=listed(always), untried=left)]
    told += _not_tried(sheet, (f.labels for f in kept.falls if f.always))
    falling = [f for f in kept.falls if f.single or f.together]
    told += [
        sentence("kept", "falls", set="+".join(fall.labels), conditions=fall_text(sheet, fall))
        for fall in falling
    ]
    if falling:
        reader = bearer_text(sheet, replace(finding, bearer="challenger"))
        told.append(sentence("kept", "reader", reader=reader))
    undecided = ["+".join(f.labels) for f in kept.falls if not f.decided]
    told += [sentence("kept", "undecided", sets=listed(undecided))] if undecided else []
    told += _besides(sheet, finding, kept.besides)
    for way in ways_out_of(finding):
        if way.readings and way.label in kept.silent:
            read_as = [quoted(sheet.groups[g].readings[r].label) for g, r in way.readings]
            told.append(sentence("kept", "settled", label=way.label, readings=listed(read_as, "or")))
    return "".join(told)


def _not_tried(sheet: Sheet, kept: Iterable[tuple[str, ...]]) -> list[str]:
    """Of lines that keep a case out on every reading: those not tried, as no line tells how many."""
    told = []
    for label in dict.fromkeys(label for labels in kept for label in labels):
        line = limitation_labelled(sheet, label)
        groups = [sheet.groups[g] for g in sorted(line.groups)] if line else []
        if left := dict.fromkeys(
            quoted(r) for g in groups for r, why in g.not_tried if why == ONLY_OF_RECITED
        ):
            told.append(sentence("kept", "not_tried", label=label, readings=listed(left, "or")))
    return told


def _besides(sheet: Sheet, finding: Finding, besides: Iterable[WayOut]) -> list[str]:
    """Further lines that keep the case out if one of their phrases is read otherwise, and who reads so."""
    told = []
    for way in besides:
        single = tuple(_up_to_where(sheet, finding, way.label, Reread(g, r)) for g, r in way.readings)
        conditions = fall_text(sheet, Fall((way.label,), single))
        told.append(sentence("kept", "besides", line=way.label, conditions=conditions))
    if told:
        reader = bearer_text(sheet, replace(finding, bearer="competitor"))
        told.append(sentence("kept", "reader", reader=reader))
    return told


def _up_to_where(sheet: Sheet, finding: Finding, label: str, reread: Reread) -> Reread:
    """With the stretch up to which the reading keeps out a case that states all that the line speaks of."""
    case, line = case_named(sheet, finding.case), limitation_labelled(sheet, label)
    own = own_parameters(sheet, reread.group, reread.reading)
    if case is None or case.groups or line is None or len(own) != 1:
        return reread
    stated = stated_values(sheet, case, exact=True)
    if not names_in(line.formula) <= stated.keys():
        return reread
    k = base_construction(sheet).with_reading(reread.group, reread.reading)
    point = break_point(own[0], (line,), stated, k, True)
    return replace(reread, breaks=(up_to(point),)) if point else reread


def fall_text(sheet: Sheet, fall: Fall) -> str:
    """`if "2 to 4 mm" is read as "rounds to the ends" (arguable)`; what is needed together by `and`."""
    if not fall.single:
        return listed(reread_text(sheet, r, fall.labels) for r in fall.together)
    plain: dict[int, list[str]] = {}
    stretched = _stretched(sheet, fall)
    for r in (r for r in fall.single if not r.breaks):
        plain.setdefault(r.group, []).append(reading_label(sheet, r))
    words = {g: group_words(sheet.groups[g], fall.labels) for g in plain}
    read = [
        sentence("kept", "read", words=words[g], readings=listed(labels, "or")) for g, labels in plain.items()
    ]
    return listed([*read, *stretched], "or")


def _stretched(sheet: Sheet, fall: Fall) -> list[str]:
    """`once "about 2", read as "..." or "...", stretches by 4 %`: readings with the same stretch as one."""
    alike: dict[object, tuple[int, BreakPoint, list[str]]] = {}
    told: list[str] = []
    for r in (r for r in fall.single if r.breaks):
        if len(r.breaks) > 1 or r.reading == sheet.groups[r.group].base:
            told.append(reread_text(sheet, r, fall.labels))
        else:
            (point,) = r.breaks
            _, _, labels = alike.setdefault((r.group, replace(point, parameter="")), (r.group, point, []))
            labels.append(reading_label(sheet, replace(r, breaks=())))
    for g, point, labels in alike.values():
        words = group_words(sheet.groups[g], fall.labels)
        so_read = sentence("kept", "so_read", words=words, readings=listed(labels, "or"))
        told.append(break_text(sheet, point, so_read))
    return told


def silence_text(sheet: Sheet, finding: Finding) -> str:
    """What the document does not say of the one limitation that keeps it out."""
    case = case_named(sheet, finding.case)
    silent = silent_lines(finding) if isinstance(finding.about, KeptOut) else ()
    limitation = limitation_labelled(sheet, silent[0]) if silent else None
    if case is None or limitation is None:
        return ""
    names = names_in(limitation.formula)
    ordered = [flat(d.name) for d in sheet.declarations if d.name in names]
    values = stated_values(sheet, case)
    told = {flat(x) for x in (*case.stated, *sheet.absent(values))}
    unsaid = [n for n in ordered if n not in told]
    if unsaid:
        return sentence("silence", "unsaid", names=listed(unsaid))
    for d in sheet.declarations:
        named = values.get(d.name)
        if d.name in names and isinstance(d, SetDecl) and isinstance(named, frozenset) and named:
            members = [flat(m) for m in d.members if m in named]
            cell = "{" + ", ".join(members) + "}"
            return sentence("silence", "mentioned", names=flat(d.name), members=listed(members), cell=cell)
    return sentence("silence", "partly", names=listed(ordered))
