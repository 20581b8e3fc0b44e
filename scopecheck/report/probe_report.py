"""What a probe has to say, as the blocks of a report."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.findings import Answers
from scopecheck.core.construction import Construction, admissible_readings, groups_in
from scopecheck.core.formula import All, Any, ExactlyOne, Formula, Implies, Not, Read
from scopecheck.core.model import FreeParameter, Group
from scopecheck.report.blocks import Block, Heading, Listing, Paragraph, Picture, Report
from scopecheck.report.describe import own_words, setting_text, settings_text
from scopecheck.report.frame import ground, head
from scopecheck.report.page import build_report, measures
from scopecheck.report.probe import Parting, Probe, Row
from scopecheck.report.rereadings import (
    bearer_text,
    break_text,
    common_words,
    group_words,
    meaning_at,
    standing_text,
    stretch_text,
)
from scopecheck.report.wording import flat, listed, quoted, sentence


def probe_report(probe: Probe, answers: Answers | None, everything: bool, strained: bool) -> Report:
    """The report: each reading with what it lets in, where they part, and what the listed cases add."""
    sheet = probe.sheet
    own = [*_opening(probe), *_readings(probe), *_partings(probe)]
    if answers is None:
        own += measures(sheet, probe.unmeasured)
    found = tuple(p.finding for p in probe.partings if p.finding is not None)
    if answers is None:
        nothing = Answers((), (), sheet.groups, sheet.policies)
        rest = ground(sheet, nothing, strained, everything)
        return Report((*own, *rest), sheet, nothing, found)
    report = build_report(sheet, answers, everything, strained=strained)
    below = report.blocks[len(tuple(head(sheet))) :]
    held = frozenset(index + len(found) for index in report.held_back)
    return Report((*own, *below), sheet, answers, (*found, *report.order), held)


def _opening(probe: Probe) -> Iterator[Block]:
    sheet = probe.sheet
    yield Heading(f"The words {own_words(probe.limitation)}, read in every way listed", 1)
    yield next(block for block in head(sheet) if isinstance(block, Paragraph))
    if probe.fixed:
        values = ", ".join(setting_text(sheet, name, value) for name, value in probe.fixed)
        yield Paragraph(f"Shown is {flat(probe.shown)}, with {values} as in {flat(probe.fixed_by)}.")


# ---- what each reading lets in


def _readings(probe: Probe) -> Iterator[Block]:
    yield Heading("What is met, reading by reading")
    drawn = probe.drawn
    if drawn.picture is not None:
        yield Picture(drawn.picture)
    if drawn.part_shown:
        yield Paragraph(drawn.part_shown)
    if drawn.no_picture:
        yield Paragraph(f"No picture: {drawn.no_picture}.")
    yield Listing(tuple(_row_line(probe, row) for row in probe.rows))
    if probe.idle:
        yield Paragraph(sentence("probe", "met_by_nothing"))
    yield from _stretches(probe)


def _row_line(probe: Probe, row: Row) -> str:
    group, reading = _read(probe, row)
    if group is None or reading is None:
        plain = "; ".join(_meanings(probe, row.construction))
        return f"{_joined(row.label, row.met)}. Meaning: {plain}." if plain else _joined(row.label, row.met)
    told = group.readings[reading]
    # What is a phrase's words and a reading in one stands as it is, as its words are in quotation marks.
    label = row.label if row.label.startswith('"') else quoted(row.label)
    about = f"{label} ({standing_text(group, reading)})"
    plain = _meaning(probe, group, reading)
    meaning = f" Meaning: {plain}." if plain else ""
    taken = f" Taken by {flat(told.taken_by)}." if told.taken_by and row.parameter is None else ""
    return f"{_joined(about, row.met)}.{meaning}{taken}"


def _meanings(probe: Probe, k: Construction) -> Iterator[str]:
    """What each phrase of the limitation comes to, after its words."""
    for index in groups_in(probe.limitation.formula):
        group = probe.sheet.groups[index]
        plain = _meaning(probe, group, k.readings[index])
        if plain:
            yield plain if plain.startswith('"') else f"{group_words(group)}: {plain}"


def _meaning(probe: Probe, group: Group, reading: int) -> str:
    """What a reading of a phrase comes to at each of its places, after their words if at several.

    Nothing where it is denied with something else, or not known at which of them it is denied.
    """
    places = [(p, text) for p in group.places if (text := meaning_at(probe.sheet, group, p, reading))]
    denials = list(_denials(probe.limitation.formula, group.index, False))
    if len(set(denials)) > 1 and len(denials) != len(group.places):
        return ""
    if None in denials:
        return ""
    by_place = dict(zip(group.places, denials, strict=False)) if len(set(denials)) > 1 else {}
    always = denials[:1] == [True]
    told = dict.fromkeys(
        (p.words, f"not so that {text}" if by_place.get(p, always) else text) for p, text in places
    )
    if len({text for _, text in told}) < 2:
        return next((text for _, text in told), "")
    return "; ".join(f"{quoted(words)}: {text}" for words, text in told)


def _denials(formula: Formula, group: int, denied: bool) -> Iterator[bool | None]:
    """Whether the formula denies what the phrase says, `not at least 3 mm`, at each of its places.

    None where it is denied together with something else. What is said in a phrase is denied with that alone.
    """
    match formula:
        case Not(item=item):
            yield from _denials(item, group, not denied)
        case Read(group=own, options=options):
            yield from (denied,) if own == group else ()
            # Each of the options has what is said in the phrase.
            yield from max((list(_denials(o, group, False)) for o in options), key=len)
        case All(items=items) | Any(items=items) | ExactlyOne(items=items):
            each = denied and isinstance(formula, Any)
            found = (d for item in items for d in _denials(item, group, each))
            yield from (None for _ in found) if denied and not each else found
        case Implies(left=left, right=right):
            found = (d for item in (left, right) for d in _denials(item, group, False))
            yield from (None for _ in found) if denied else found
        case _:
            pass


def _joined(what: str, met: str) -> str:
    return f"{what}: {met}" if met else what


def _read(probe: Probe, row: Row) -> tuple[Group | None, int | None]:
    """The group and reading a row stands for; of the base row that of the only group, if there is one."""
    if row.group is not None:
        return probe.sheet.groups[row.group], row.reading
    groups = groups_in(probe.limitation.formula)
    if len(groups) != 1:
        return None, None
    return probe.sheet.groups[groups[0]], row.construction.readings[groups[0]]


def _stretches(probe: Probe) -> Iterator[Block]:
    """A remark for each reading whose width nobody fixed."""
    groups = groups_in(probe.limitation.formula)
    for p in probe.sheet.parameters:
        drawn_so = (row.construction.readings[p.group] == p.reading for row in probe.rows)
        if p.group not in groups or p.upper is not None or not any(drawn_so):
            continue
        reading = probe.sheet.groups[p.group].readings[p.reading]
        if p.unknown:
            yield Paragraph(sentence("threshold", "drawn", reading=quoted(reading.label)))
            continue
        unknown = f"How far {quoted(reading.label)} stretches is fixed nowhere"
        drawn = f"it is drawn at {_presumed(p)}, and what matters is from which stretch on a thing is met"
        yield Paragraph(f"{unknown}; {drawn}.")


def _presumed(p: FreeParameter) -> str:
    return stretch_text(p, p.presumed).replace("\u00a0", " ")


# ---- where they part


def _partings(probe: Probe) -> Iterator[Block]:
    groups = [probe.sheet.groups[g] for g in groups_in(probe.limitation.formula)]
    if not any(len(admissible_readings(g)) > 1 for g in groups) and not probe.partings:
        yield Paragraph("There is one reading only, so nothing parts.")
        return
    yield Heading("Where the readings part")
    for group in groups:
        base = group.readings[group.base]
        presumed = sum(r.standing == "presumed" for r in group.readings) if group.presumed else 0
        none = "the first listed, since no presumption is known"
        why = {0: none, 1: "which is presumed"}.get(presumed, "the first of those presumed")
        words = group_words(group)
        yield Paragraph(f"Each reading of {words} is held against {quoted(base.label)}, {why}.")
    lines = [_parting_line(probe, p) for p in probe.partings if p.finding is not None or p.reason]
    apart = {(p.group, p.reading) for p in probe.partings if p.finding is not None or p.reason}
    alike = dict.fromkeys((p.group, p.reading) for p in probe.partings if (p.group, p.reading) not in apart)
    if alike:
        labels = listed(_label(probe, g, r) for g, r in alike)
        lines.append(f"Nothing was found on which {labels} would differ from it.")
    yield Listing(tuple(lines))


def _label(probe: Probe, index: int, reading: int) -> str:
    """A reading in quotation marks, after the words that it is of where there are several."""
    group = probe.sheet.groups[index]
    label = quoted(group.readings[reading].label)
    several = len(groups_in(probe.limitation.formula)) > 1
    return f"{common_words(group)} as {label}" if several else label


def _parting_line(probe: Probe, parting: Parting) -> str:
    sheet, finding = probe.sheet, parting.finding
    group = sheet.groups[parting.group]
    label, base = _label(probe, group.index, parting.reading), quoted(group.readings[group.base].label)
    if finding is None:
        way = "lets something in" if parting.wider else "keeps something out"
        return f"{label}: not decided whether it {way} ({flat(parting.reason)})."
    assert finding.witness is not None
    thing = settings_text(sheet, finding.witness.article, finding.thing.names)
    points = [break_text(sheet, b, group_words(group)) for r in finding.rereads for b in r.breaks]
    condition = f", {'; '.join(points)}" if points else ""
    same = parting.reading == group.base
    if parting.wider:
        told = f"{label} lets in {thing}{condition}"
        told += ", which unstretched it does not" if same else f"; {base} does not"
    else:
        told = f"{label} keeps out {thing}{condition}"
        told += ", which unstretched it does not" if same else f"; {base} lets it in"
    return f"{told}. Raised by {bearer_text(sheet, finding)}."
