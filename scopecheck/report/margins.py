"""What stands below an item's sentence: the readings, who would bring it, what it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.about import AddsNothing, Alike, CloseBy, Idle, Lost, Met, Reread
from scopecheck.answers.findings import (
    EMPTY_CLAIM,
    Finding,
    Status,
    also_claims_of,
    also_open_of,
    in_part_of,
    lines_of,
    partly_of,
    unmet_by,
)
from scopecheck.core.construction import base_construction, groups_in, names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.grounds import Bounds, Ground, SettledWords, ground_text
from scopecheck.core.model import Sheet
from scopecheck.core.ranges import limits_of
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.report.chart import range_text
from scopecheck.report.conditions import condition_texts
from scopecheck.report.describe import (
    bounds_text,
    case_named,
    case_text,
    labelled,
    limitation_labelled,
    settings_text,
)
from scopecheck.report.grouping import (
    barred_by,
    departures,
    only_at_an_end,
    only_by_far,
    presumed_too,
    turning_labels,
)
from scopecheck.report.rereadings import (
    bearer_text,
    group_words,
    kept_text,
    reading_label,
    reading_text,
    together_text,
    usual_text,
)
from scopecheck.report.things import in_question, spoken_of, twin_text
from scopecheck.report.untried import every_reading
from scopecheck.report.usual_readings import changes_sides, usual_groups, usual_readings
from scopecheck.report.ways_out import LOST, kept_out_if, other_readings, ways_out
from scopecheck.report.wholes import added_up, case_notes
from scopecheck.report.wording import claims_text, flat, listed, sentence, upper_first

MET = ("outside met", "document met")
"""Questions whose case meets a claim where it does by way of any one claim above."""
NOT_SO = (
    "idle",
    "idle end",
    "member not reached",
    "condition not met",
    "alternative not met",
    "one value left",
    "undefined",
)
"""Questions about lines of which the re-readings told are those on which it is not so."""
Margin = tuple[tuple[str, tuple[str, ...]], ...]


def statuses(finding: Finding, one_of_several: bool = False) -> str:
    """How much of a region is met: as presumed, at the narrowest and at the widest; once if they agree.

    As presumed is on `one_of_several` readings presumed, where the finding turns on another of them.
    """
    own = finding.status
    known = [s for s in (own.lowest, own.at_base, own.highest) if s is not None]
    if not known:
        return ""
    if len(known) == 3 and len(set(known)) == 1:
        return sentence("status", "constant", status=sentence("status", known[0]))
    steps: tuple[tuple[str, Status | None], ...] = (
        ("at_base", own.at_base),
        ("lowest", own.lowest),
        ("highest", own.highest),
    )
    told: dict[str, list[str]] = {}
    for key, status in steps:
        if status is not None:
            first = one_of_several and key == "at_base"
            where = sentence("status", "first_presumed") if first else sentence("status", key)
            told.setdefault(sentence("status", status), []).append(where)
    return ", ".join(f"{status} {listed(where)}" for status, where in told.items())


def readings_told(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The readings on which it happens, each with its standing and meaning; else how far it holds."""
    if finding.question == "number not described":
        return ()
    if finding.question == "document close by":
        return (sentence("quantifier", "as_usual"),)
    labels = turning_labels(sheet, finding)
    told = tuple(reading_text(sheet, d, labels, finding.construction) for d in departures(finding))
    if not told and finding.quantifier == "every" and not finding.thing.on_each:
        return (sentence("quantifier", "every_other"),)
    if not told and finding.quantifier == "every" and (left := _settled_by(finding)):
        return (sentence("quantifier", "every_left", settled=listed(left)),)
    if only_by_far(sheet, finding):
        return (sentence("quantifier", "every_but_far"),)
    if not told and finding.quantifier == "every":
        return (every_reading(sheet, finding),)
    if told or finding.quantifier != "base":
        return told or (sentence("quantifier", finding.quantifier),)
    return usual_readings(sheet, finding) or (sentence("quantifier", "base"),)


def short_forms(sheet: Sheet, finding: Finding) -> Iterator[tuple[str, str]]:
    """What the readings of a finding and who would bring it are called once they were told in full."""
    labels = turning_labels(sheet, finding)
    for d in departures(finding):
        yield reading_text(sheet, d, labels, finding.construction), reading_label(sheet, d, True, labels)
    if finding.quantifier == "base" and not departures(finding):
        lines, groups = usual_groups(sheet, finding)
        for g in groups:
            yield usual_text(sheet, g, lines), usual_text(sheet, g, lines, brief=True)
    if finding.bearer:
        yield bearer_text(sheet, finding), bearer_text(sheet, finding, brief=True)


def _settled_by(finding: Finding) -> tuple[str, ...]:
    """The policies and pins among what a finding rests on; only they are quoted there."""
    return tuple(flat(ground_text(x)) for x in finding.rests_on if isinstance(x, SettledWords))


# ---- the lines in the margin


def margin(sheet: Sheet, finding: Finding, everything: bool = True) -> Margin:
    """What stands below the statement, under its margin words; lines that say nothing are left out.

    Without `everything` long lists are, too.
    """
    in_part = in_part_of(finding)
    unmet = [r for r in unmet_by(finding) if r not in in_part]
    kept = () if isinstance(finding.about, Met) else _kept_by(sheet, finding)
    shown: list[tuple[str, Iterable[str]]] = [
        ("beside", [twin_text(sheet, finding)] if finding.question != "moves with something else" else []),
        ("region", [_region(sheet, finding)]),
        ("reading", readings_told(sheet, finding)),
        ("together", _together(finding)),
        (_kept_word(finding), [*kept, *_otherwise(sheet, finding, True)]),
        ("unmet_by", [*_unmet_by(sheet, finding, unmet), *_otherwise(sheet, finding, False)]),
        ("part_met", _unmet_by(sheet, finding, in_part)),
        ("others", other_readings(sheet, finding)),
        ("kept_out", ways_out(sheet, finding)),
        ("bearer", [bearer_text(sheet, finding)]),
        ("rests", [_rests_on(sheet, finding)]),
        ("also_claims", _also(sheet, finding, everything)),
        ("note", _notes(sheet, finding)),
    ]
    told = [(word, tuple(text for text in texts if text)) for word, texts in shown]
    return tuple((sentence("margin", word), texts) for word, texts in told if texts)


def _otherwise(sheet: Sheet, finding: Finding, lost: bool) -> tuple[str, ...]:
    """Where nothing else tells it of a finding of the usual readings: on which others the thing shown is met
    after all, if it is `lost`, or is not."""
    if (finding.question in LOST) != lost or _told_on_which_others(finding):
        return ()
    labels = finding.failing or (finding.label,)
    return kept_out_if(sheet, finding, changes_sides(sheet, finding), labels)


def _told_on_which_others(finding: Finding) -> bool:
    return finding.quantifier != "base" or bool(departures(finding) or finding.otherwise.rereads)


def _region(sheet: Sheet, finding: Finding) -> str:
    """The statuses of a case with more than one thing in it; '' for a point."""
    told = (finding.status.lowest, finding.status.at_base, finding.status.highest)
    if finding.question in ("class", "document range") or "some" not in told:
        return ""
    turning = (*departures(finding), *finding.otherwise.rereads)
    return sentence(
        "status", "part_met", told=statuses(finding, any(presumed_too(sheet, r) for r in turning))
    )


def _together(finding: Finding) -> tuple[str, ...]:
    """That the re-readings do it only together, and that other sets of phrases do it too."""
    if finding.question == "pair":
        return ()
    return together_text(finding), sentence("reading", "more_together") if finding.more else ""


def _rests_on(sheet: Sheet, finding: Finding) -> str:
    """Bounds, givens and policies, unless `readings_told` names the policy already."""
    told = _settled_by(finding) if finding.quantifier == "every" and not departures(finding) else ()
    return "; ".join(text for x in finding.rests_on if (text := _ground(sheet, x)) not in told)


def _ground(sheet: Sheet, ground: Ground) -> str:
    """A ground; bounds by what they are: `brushes 0 to 3`, `width of each brush 0 mm or more`."""
    text = flat(ground_text(ground))
    if not isinstance(ground, Bounds):
        return text
    name = next((slot for slot, own in _slots(sheet) if own == ground.name), ground.name)
    d = next((d for d in sheet.declarations if d.name == name), None)
    bounds = bounds_text(d) if isinstance(d, NumberDecl) else ""
    return f"{ground.name} {bounds}" if bounds else text


def _slots(sheet: Sheet) -> Iterator[tuple[str, str]]:
    """The fields of like parts, each with what it is called of all of them: `width of each brush`."""
    for part in sheet.parts:
        yield from ((name, f"{own} of each {part.name}") for _, own, name in part.slots())


def _kept_word(finding: Finding) -> str:
    """What the least re-readings do: a claim can be met after all, a dependent narrows, a case is kept in."""
    if finding.question in EMPTY_CLAIM:
        return "met_by"
    if finding.question in NOT_SO:
        return "not_so"
    if isinstance(finding.about, Lost) and finding.about.line_alone:
        return "let_by"
    return "narrows" if finding.question == "adds nothing" else "kept_by"


def _kept_by(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The least re-readings on which a lost case is kept after all, those needed together joined by "and"."""
    conflict = lines_of(finding) if finding.question in (*EMPTY_CLAIM, *NOT_SO, "adds nothing") else ()
    labels = finding.failing or (conflict and (finding.label, *conflict)) or turning_labels(sheet, finding)
    if finding.otherwise.together:
        told = _joined([kept_text(sheet, r, labels) for r in finding.otherwise.rereads])
    else:
        told = _each_alone(sheet, finding.otherwise.rereads, labels)
    together = together_text(replace(finding, rereads=finding.otherwise.least, read_as=()))
    return (*told, together, _shown_by(sheet, finding))


def _shown_by(sheet: Sheet, finding: Finding) -> str:
    """`so a thing with gap 4.2 mm is left out`: what a claim then leaves out of its parent."""
    against = finding.about.against if isinstance(finding.about, AddsNothing) else None
    if against is None:
        return ""
    article, own = against.article, sheet.claim(finding.claim).limitations
    names = names_in(*(x.formula for x in own))
    told = settings_text(sheet, article, names - sheet.absent(article))
    return sentence("reading", "shown_by", thing=told) if told and len(names) <= MOST_SHOWN else ""


def _joined(told: Sequence[str]) -> list[str]:
    """Conditions that it takes all of: each but the first led by "and", as none of them is enough alone."""
    return [sentence("reading", "and", text=text) if i else text for i, text in enumerate(told)]


def _each_alone(sheet: Sheet, rereads: Sequence[Reread], labels: Sequence[str]) -> list[str]:
    """Re-readings each of which is enough, those of one phrase on one line; a stretch as usual by itself."""
    alike: dict[object, list[Reread]] = {}
    for r in rereads:
        usual = bool(r.breaks) and r.reading == sheet.groups[r.group].base
        alike.setdefault((r.group, r.reading) if usual else r.group, []).append(r)
    texts = [kept_text(sheet, own[0], labels, own[1:]) for own in alike.values()]
    return [*texts[:1], *(sentence("reading", "or", text=text) for text in texts[1:])]


def _unmet_by(sheet: Sheet, finding: Finding, rereads: Sequence[Reread]) -> tuple[str, ...]:
    """Those re-readings on which what is met as presumed is kept out, each of them alone or all together."""
    if departures(finding) or only_by_far(sheet, finding):
        return ()
    told = kept_out_if(sheet, finding, rereads, turning_labels(sheet, finding))
    together = isinstance(finding.about, Met) and finding.otherwise.together
    if not together or len(told) < 2:
        return told
    return (*_joined(told), together_text(replace(finding, rereads=tuple(rereads), read_as=())))


def _by_their_ways(sheet: Sheet, finding: Finding, claims: tuple[int, ...]) -> str:
    """`claim 3 by way of claim 1 and claim 5`, of a claim below not all of whose parents are told of.

    Of several by way of different ones: `and claims 5 and 7 by way of such claims`. What meets a claim by way
    of one parent meets it.
    """
    if finding.question in MET:
        return claims_text(claims)
    so = {finding.claim, *also_claims_of(finding), *(n for n, _ in also_open_of(finding) if n in claims)}
    through = {n: [p for p in sheet.claim(n).parents if p in so] for n in claims}
    partly = {n: ps for n, ps in through.items() if ps and len(ps) < len(sheet.claim(n).parents)}
    wholly = [n for n in claims if n not in partly]
    told = {wholly[0]: claims_text(wholly)} if wholly else {}
    if len(set(map(tuple, partly.values()))) > 1:
        told[min(partly)] = sentence("way", "through_such", claims=claims_text(sorted(partly)))
    elif partly:
        ps = next(iter(partly.values()))
        told[min(partly)] = sentence(
            "way", "through", claim=claims_text(sorted(partly)), claims=claims_text(ps)
        )
    return listed(told[n] for n in sorted(told))


def claim_told(sheet: Sheet, finding: Finding) -> int:
    """The claim that an item names first: one for which the case is listed, if it goes for such a one too."""
    case = case_named(sheet, finding.case)
    targets = [int(t) for t in case.targets if t.isdigit()] if case else []
    if not targets or finding.claim in targets:
        return finding.claim
    return next((n for n in targets if n in also_claims_of(finding)), finding.claim)


def _also(sheet: Sheet, finding: Finding, everything: bool) -> Iterator[str]:
    """The dependents of which the same holds, and those of which it does as far as the case goes."""
    first = claim_told(sheet, finding)
    told_of = also_claims_of(finding) if isinstance(finding.about, Met | Lost) else ()
    also = tuple(sorted({*told_of, finding.claim} - {first})) if first != finding.claim else ()
    if told_of:
        some = finding.about.also_on_some if isinstance(finding.about, Met) else ()
        always = tuple(n for n in also or told_of if n not in some)
        for key, claims in (("also_claims", always), ("also_on_some", some)):
            if claims:
                yield sentence("note", key, claims=_by_their_ways(sheet, finding, claims))
    by_names: dict[tuple[str, ...], list[int]] = {}
    for number, names in also_open_of(finding):
        by_names.setdefault(names, []).append(number)
    every = tuple(sorted(n for numbers in by_names.values() for n in numbers))
    if every and not everything and (len(by_names) > 1 or len(*by_names) > FEW_OPEN):
        yield sentence("note", "also_open_many", claims=_by_their_ways(sheet, finding, every))
    elif len(by_names) == 1:
        open_ones = _left_open(sheet, next(iter(by_names)))
        yield sentence("note", "also_open", claims=_by_their_ways(sheet, finding, every), names=open_ones)
    elif by_names:
        each = [
            sentence("note", "open_in", names=_left_open(sheet, names), claims=claims_text(numbers))
            for names, numbers in by_names.items()
        ]
        told = _by_their_ways(sheet, finding, every)
        yield sentence("note", "also_open_each", claims=told, each="; ".join(each))


MOST_SHOWN = 4
"""So many values of the thing that a claim leaves out of its parent are told on one line."""
FEW_OPEN = 3
"""So many names that a case leaves open are told on the first page."""
MOST_OPEN = 3
"""So many names that a case leaves open are told of one claim."""


def _left_open(sheet: Sheet, names: Sequence[str]) -> str:
    """The names; all that is declared of one step, told as one, and so a field of like parts."""
    steps = [step for step in sheet.steps if sum(name in step.numbers for name in names) > 1]
    fields = {
        part.slot(i, f): f"{f} of the {part.plural}"
        for part in sheet.parts
        for f in part.fields
        for i in range(1, part.most + 1)
    }
    told_of = {name for step in steps for name in (*step.numbers, step.name, step.done)}
    of_none = (name for name in names if name not in told_of)
    own = list(dict.fromkeys(flat(fields.get(name, name)) for name in of_none))
    if len(own) > MOST_OPEN + 1:
        own = [*own[:MOST_OPEN], sentence("note", "more_open", count=len(own) - MOST_OPEN)]
    told = [sentence("note", "of_steps", steps=listed(step.name for step in steps))] if steps else []
    return listed([*own, *told])


def _notes(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    notes: list[str] = []
    notes += condition_texts(sheet, finding)
    if case := case_named(sheet, finding.case):
        whole = tuple(case_notes(sheet, case))
        filled = finding.question == "inside lost" and not set(finding.thing.departs) <= set(case.stated)
        notes += whole or (added_up(sheet, case) if filled else ())
    if partly_of(finding):
        notes += _partly(sheet, finding)
    if finding.question == "adds nothing" and finding.quantifier != "every" and not finding.otherwise.rereads:
        never_both = isinstance(finding.about, AddsNothing) and finding.about.never_both
        notes.append(sentence("note", "narrows_empty" if never_both else "narrows_else"))
    if (
        not _told_on_which_others(finding)
        and usual_readings(sheet, finding)
        and not changes_sides(sheet, finding)
    ):
        notes.append(sentence("note", "not_every"))
    if barred := barred_by(sheet, finding):
        lines = listed(labelled(sheet, x) for x in barred)
        key = "barred" if len(barred) == 1 else "barred_many"
        notes.append(sentence("note", key, lines=lines, claim=finding.claim))
    if isinstance(finding.about, Lost) and finding.about.line_alone:
        notes.append(sentence("note", "line_alone"))
    if only_at_an_end(sheet, finding):
        notes.append(sentence("note", "only_an_end"))
    if isinstance(finding.about, CloseBy):
        notes.append(sentence("note", "close_by" if finding.about.how == "beside" else "in_part"))
    if finding.question == "idle" and not lines_of(finding):
        notes += _always_done(sheet, finding)
    if finding.question == "same scope" and isinstance(finding.about, Alike):
        notes += _not_restated(sheet, finding, finding.about.other)
    if isinstance(finding.about, Idle) and finding.about.twins:
        twins = listed(labelled(sheet, x) for x in finding.about.twins)
        notes.append(sentence("note", "twins", labels=twins))
    if held := _unstretched(sheet, finding):
        notes.append(sentence("note", "as_unstretched", words=listed(held)))
    if not finding.thing.simplest:
        notes.append(sentence("note", "not_simplest"))
    if not finding.best:
        notes.append(sentence("note", "not_best"))
    return tuple(notes)


def _unstretched(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The hedges of the lines that make a line idle as usually read, which are taken as not stretched.

    Nothing fixes how far they stretch. Of a claim that adds nothing it is told from which stretch on it does.
    """
    if finding.question not in ("idle", "idle end") or finding.quantifier != "base":
        return ()
    lines = (limitation_labelled(sheet, label) for label in lines_of(finding))
    groups = {g for line in lines if line and line.label != finding.label for g in groups_in(line.formula)}
    free = (
        p for p in sheet.parameters
        if p.group in groups and p.reading == sheet.groups[p.group].base
        and p.presumed == p.lower.value and p.upper is None and not p.unknown
    )  # fmt: skip
    return tuple(dict.fromkeys(group_words(sheet.groups[p.group]) for p in free))


def _always_done(sheet: Sheet, finding: Finding) -> list[str]:
    """Of an idle line on steps, which of them the sheet declares as always carried out."""
    line = limitation_labelled(sheet, finding.label)
    about = {name.strip() for name in line.subject.split(",")} if line else set()
    steps = [flat(step.name) for step in sheet.steps if step.name in about and not step.done]
    if not steps:
        return []
    key = "always_done" if len(steps) == 1 else "always_done_many"
    return [sentence("note", key, steps=listed(steps))]


def _not_restated(sheet: Sheet, finding: Finding, other: int) -> list[str]:
    """Of two claims alike, which of them say what no line restates."""
    both = {finding.claim, other}
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
    unsaid = [flat(n) for n in partly_of(finding) if n not in case.stated]
    roomy = [n for n in case.stated if n in spoken and n not in exact]
    name = case_text(sheet, finding.case)
    if unsaid:
        return [sentence("note", "partly", case=name, names=listed(unsaid))]
    if not roomy:
        return []
    ranges = dict(limits_of(sheet, case.facts, base_construction(sheet)).ranges)
    known = [range_text(sheet, n, ranges[n]) for n in roomy if n in ranges]
    stated = known[0] if len(known) == len(roomy) == 1 else flat(case.text)
    return [sentence("note", "partly_stated", case=name, names=listed(map(flat, roomy)), stated=stated)]
