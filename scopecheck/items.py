"""Findings as items: the words, the thing, the reading, who would bring it, what it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from scopecheck.amounts import plain_number
from scopecheck.blocks import Item
from scopecheck.core import FreeParameter, Sheet
from scopecheck.describe import (
    case_named,
    case_text,
    labelled,
    limitation_labelled,
    lineage,
    reading_label,
    reading_text,
    stretch_text,
    thing_text,
    twin_text,
)
from scopecheck.findings import Finding, Reread, Status
from scopecheck.grouping import Cluster, departures, turning_labels
from scopecheck.pictures import picture_for
from scopecheck.wording import (
    GLUE,
    claims_text,
    counted,
    flat,
    has_sentence,
    listed,
    lower_first,
    quoted,
    sentence,
)

ABOUT_ALL = ("no reading fits all cases", "one reading fits all cases")
"""Questions about every claim and case at once."""
MOST_LINES = 4
"""Limitations that one item tells one by one."""
FEW_LINES = 3
"""A claim with at most so many lines is told by all of them where a finding turns on none in particular."""
Margin = tuple[tuple[str, tuple[str, ...]], ...]


# ---- the words concerned


def heads(sheet: Sheet, finding: Finding, most: int = MOST_LINES) -> tuple[tuple[str, str], ...]:
    """The label and words of each limitation that the finding turns on; for a whole claim its label alone."""
    own = limitation_labelled(sheet, finding.label) is not None
    labels = (finding.label,) if own else finding.failing or turning_labels(sheet, finding)
    if not labels and not finding.conflict and finding.question not in ABOUT_ALL:
        claim = next((c for c in sheet.claims if c.number == finding.claim), None)
        if claim and len(claim.limitations) <= FEW_LINES:
            labels = tuple(x.label for x in claim.limitations)
    known = [found for label in labels if (found := limitation_labelled(sheet, label))]
    pairs = tuple((x.label, quoted(x.words or x.text)) for x in known)
    if len(pairs) > most:
        pairs = (*pairs[:most], (sentence("note", "more_lines", count=len(pairs) - most), ""))
    return pairs or ((_whole_claim(sheet, finding), ""),)


def _whole_claim(sheet: Sheet, finding: Finding) -> str:
    """`claim 1 (1a to 1d)`."""
    claim = next((c for c in sheet.claims if c.number == finding.claim), None)
    labels = [x.label for x in claim.limitations] if claim else []
    shown = flat(finding.label or (f"claim {finding.claim}" if finding.claim else ""))
    if len(labels) < 2 or finding.conflict or finding.question in ABOUT_ALL:
        return shown
    return f"{shown} ({labels[0]} {'to' if len(labels) > 2 else 'and'} {labels[-1]})"


# ---- sentences


def statement(sheet: Sheet, finding: Finding, form: str = "statement") -> str:
    """The finding's sentence, or with `brief` its short form for a line among others."""
    wider = finding.bearer == "challenger"
    special = f"{form}_{finding.quantifier}"
    if has_sentence("question", finding.question, special):
        form = special
    return sentence(
        "question",
        finding.question,
        form,
        thing=thing_text(sheet, finding),
        label=flat(finding.label),
        claim=finding.claim,
        case=case_text(sheet, finding.case),
        conflict=listed(labelled(sheet, label) for label in finding.conflict),
        meant=_meant(sheet, finding),
        met_when_read=sentence("status", "met" if wider else "not_met"),
        statuses=statuses(finding),
        change=_change(finding, form),
        relation=_if_known("relation", finding.detail, label=flat(finding.label)),
        end=_end(finding),
        expression=sentence("end", "expression", text=quoted(finding.detail)) if finding.detail else "",
    )


def _change(finding: Finding, form: str) -> str:
    text = _if_known("change", finding.detail)
    return lower_first(text) if form == "brief" else text


def _if_known(table: str, key: str, **values: object) -> str:
    return sentence(table, key, **values) if has_sentence(table, key) else flat(key)


def _meant(sheet: Sheet, finding: Finding) -> str:
    limitation = limitation_labelled(sheet, finding.label)
    return quoted(limitation.meant_text) if limitation else ""


def _end(finding: Finding) -> str:
    """A detail of the form `20.0 mm|no more than|37/2 mm|in`, in words."""
    parts = finding.detail.split("|")
    if finding.question != "end not reached" or len(parts) != 4:
        return flat(finding.detail)
    stated, side, reached, taken = parts
    number, _, unit = reached.partition(" ")
    text = GLUE.join(p for p in (plain_number(Fraction(number)), unit) if p)
    stated = stated.replace(" ", GLUE)
    if taken == "in":
        return sentence("end", "reached", stated=stated, side=_if_known("end", side), reached=text)
    beyond = "below" if side == "no more than" else "above"
    return sentence("end", "approached", stated=stated, side=sentence("end", beyond), reached=text)


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
    told = [sentence("status", k, status=sentence("status", s)) for k, s in steps if s is not None]
    return ", ".join(told)


def readings_told(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The readings on which it happens, each with its standing and meaning; else how far it holds."""
    told = tuple(reading_text(sheet, d, turning_labels(sheet, finding)) for d in departures(finding))
    if told or finding.quantifier != "base":
        return told or (sentence("quantifier", finding.quantifier),)
    usual = _usual_readings(sheet, finding)
    if usual:
        return (*usual, sentence("quantifier", "base_named"))
    return (sentence("quantifier", "base_unpresumed" if _without_presumption(sheet, finding) else "base"),)


def _usual_readings(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The usual readings of the limitations that fail, or of the one the finding is about, in sheet order."""
    labels = finding.failing or (finding.label,)
    limitations = [found for label in labels if (found := limitation_labelled(sheet, label))]
    groups = dict.fromkeys(g for limitation in limitations for g in limitation.groups)
    lines = []
    for g in groups:
        base = sheet.groups[g].base
        text = reading_text(sheet, Reread(g, base), labels)
        stretches = [_stretched(p) for p in sheet.parameters if (p.group, p.reading) == (g, base)]
        lines.append("; ".join([text, *stretches]))
    return tuple(lines)


def _stretched(p: FreeParameter) -> str:
    if p.presumed == 0:
        return sentence("reading", "unstretched")
    return sentence("reading", "stretched", value=stretch_text(p, p.presumed))


def _without_presumption(sheet: Sheet, finding: Finding) -> bool:
    claims = lineage(sheet, finding.claim)
    used = {g for c in sheet.claims if c.number in claims for x in c.limitations for g in x.groups}
    return any(
        sum(r.standing == "presumed" for r in sheet.groups[g].readings) != 1
        for g in used
        if len(sheet.groups[g].readings) > 1
    )


def bearer_text(sheet: Sheet, finding: Finding) -> str:
    """Who would bring it, by profile and purpose; '' where nobody would."""
    if not finding.bearer:
        return ""
    profile = f"US_{sheet.purpose}" if sheet.profile == "US" else "EPO"
    return sentence("bearer", profile, finding.bearer)


# ---- the lines in the margin


def margin(sheet: Sheet, finding: Finding) -> Margin:
    """What stands below the statement, under its margin words; lines that say nothing are left out."""
    shown: list[tuple[str, Iterable[str]]] = [
        ("beside", [twin_text(sheet, finding)]),
        ("region", [_region(sheet, finding)]),
        ("reading", readings_told(sheet, finding)),
        ("kept_by", _kept_by(sheet, finding)),
        ("others", _others(sheet, finding)),
        ("kept_out", _ways_out(sheet, finding)),
        ("bearer", [bearer_text(sheet, finding)]),
        ("rests", ["; ".join(flat(text) for text in finding.rests_on)]),
        ("also_claims", [_also(finding)]),
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


def _others(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    if departures(finding) and not finding.rereads and not finding.read_as:
        return ()
    return tuple(reading_label(sheet, Reread(g, r), True, (finding.label,)) for g, r in finding.others)


def _kept_by(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The least re-readings on which a lost case is kept after all."""
    labels = finding.failing or turning_labels(sheet, finding)
    return tuple(reading_label(sheet, r, True, labels) for r in finding.kept_by)


def _ways_out(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """What keeps the thing out as presumed, where that is more than the one re-reading told already."""
    told = {(d.group, d.reading) for d in departures(finding)}
    turning = turning_labels(sheet, finding)
    ways = [w for w in finding.ways_out if w.label not in turning or not set(w.readings) <= told]
    lines = []
    for way in ways[:MOST_LINES]:
        words = f"{way.label}{GLUE}{quoted(way.words)}"
        labels = [f'"{flat(sheet.groups[g].readings[r].label)}"' for g, r in way.readings]
        key = "way_out" if labels else "way_out_none"
        lines.append(sentence("note", key, words=words, readings=listed(labels, "or")))
    more = len(ways) - len(lines)
    return (*lines, sentence("note", "more_lines", count=more)) if more else tuple(lines)


def _also(finding: Finding) -> str:
    if not finding.also_claims:
        return ""
    return sentence("note", "also_claims", claims=claims_text(finding.also_claims))


def _notes(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    notes = []
    if finding.witness is not None and _grade_matters(sheet, finding):
        notes.append(sentence("grade", finding.grade))
    if finding.partly:
        case = case_text(sheet, finding.case)
        notes.append(sentence("note", "partly", case=case, names=listed(flat(n) for n in finding.partly)))
    if not finding.simplest:
        notes.append(sentence("note", "not_simplest"))
    if not finding.best:
        notes.append(sentence("note", "not_best"))
    return tuple(notes)


def _grade_matters(sheet: Sheet, finding: Finding) -> bool:
    """A thing told 'as listed' needs no second word about it."""
    listed_case = case_named(sheet, finding.case) is not None and finding.case == finding.reference
    return not (finding.grade == "listed" and listed_case and not finding.departs)


# ---- items


def item(sheet: Sheet, cluster: Cluster, number: int, with_picture: bool = True) -> Item:
    """One numbered item: the first finding in full, the others as one line each, then the consequences."""
    first, *rest = cluster.findings
    return Item(
        number,
        decision_text(sheet, cluster) if rest or _recurs(cluster) else "",
        heads(sheet, first),
        statement(sheet, first),
        margin(sheet, first),
        tuple(line(sheet, finding) for finding in rest),
        cluster.follows,
        cluster.findings,
        cluster.absorbed,
        picture_for(sheet, first) if with_picture else None,
    )


def _recurs(cluster: Cluster) -> bool:
    """One finding, but its one question arises at other places too."""
    return len(cluster.axes) == 1 and cluster.places > 1


def decision_text(sheet: Sheet, cluster: Cluster) -> str:
    """`Are the ends included? 4 places, matters in 2`."""
    question = question_text(sheet, cluster.axes, cluster.first)
    places = counted(cluster.places, "place")
    return sentence("item", "several", question=question, places=places, matters=cluster.matters)


def question_text(sheet: Sheet, axes: Iterable[str], first: Finding) -> str:
    """The questions that settle these kinds of ambiguity, one after the other."""
    questions = []
    for axis in axes:
        if has_sentence("axis", axis) and axis != "other":
            questions.append(sentence("axis", axis))
            continue
        moved = [sheet.groups[d.group] for d in departures(first)]
        own = [g for g in moved if axis == f"other {g.index}"] or moved
        questions.append(sentence("axis", "other", words=listed(quoted(g.wording) for g in own)))
    return " ".join(dict.fromkeys(questions))


def line(sheet: Sheet, finding: Finding) -> str:
    """A finding on one line: the words, what happens, on which readings."""
    words = listed(GLUE.join(p for p in pair if p) for pair in heads(sheet, finding, 2))
    readings = [reading_label(sheet, d) for d in departures(finding)]
    return f"{words}: {'; '.join([statement(sheet, finding, 'brief').rstrip('.'), *readings])}"
