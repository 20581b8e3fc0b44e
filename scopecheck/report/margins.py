"""What stands below an item's sentence: the readings, who would bring it, what it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.findings import EMPTY_CLAIM, LINE_ALONE, NEVER_BOTH, Finding, Reread, Status
from scopecheck.core.model import Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.report.conditions import condition_texts
from scopecheck.report.describe import case_named, case_text, labelled, limitation_labelled
from scopecheck.report.grouping import (
    SILENCE,
    barred_by,
    departures,
    only_at_an_end,
    only_by_far,
    presumed_too,
    turning_labels,
)
from scopecheck.report.in_play import without_presumption
from scopecheck.report.looked import ENDS
from scopecheck.report.rereadings import (
    bearer_text,
    kept_text,
    only_passes_on,
    reading_label,
    reading_text,
    together_text,
    usual_text,
)
from scopecheck.report.things import in_question, spoken_of, twin_text
from scopecheck.report.untried import every_reading
from scopecheck.report.ways_out import kept_out_if, other_readings, ways_out
from scopecheck.report.wholes import added_up, case_notes
from scopecheck.report.wording import claims_text, flat, listed, sentence, upper_first

IDLE = ("idle", *ENDS)
"""Questions whose answer rests on other lines as well."""
Margin = tuple[tuple[str, tuple[str, ...]], ...]


def statuses(finding: Finding, one_of_several: bool = False) -> str:
    """How much of a region is met: as presumed, at the narrowest and at the widest; once if they agree.

    As presumed is on `one_of_several` readings presumed, where the finding turns on another of them.
    """
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
            first = one_of_several and key == "at_base"
            where = sentence("status", "first_presumed") if first else sentence("status", key)
            told.setdefault(sentence("status", status), []).append(where)
    return ", ".join(f"{status} {listed(where)}" for status, where in told.items())


def readings_told(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The readings on which it happens, each with its standing and meaning; else how far it holds."""
    if finding.question == "number not described":
        return ()
    labels = turning_labels(sheet, finding)
    told = tuple(reading_text(sheet, d, labels, finding.construction) for d in departures(finding))
    if not told and finding.quantifier == "every" and not finding.itself:
        return (sentence("quantifier", "every_other"),)
    if not told and finding.quantifier == "every" and (left := _settled_by(finding)):
        return (sentence("quantifier", "every_left", settled=listed(left)),)
    if only_by_far(sheet, finding):
        return (sentence("quantifier", "every_but_far"),)
    if not told and finding.quantifier == "every":
        return (every_reading(sheet, finding),)
    if told or finding.quantifier != "base":
        return told or (sentence("quantifier", finding.quantifier),)
    usual = _usual_readings(sheet, finding)
    if usual:
        return usual
    key = "base_unpresumed" if without_presumption(sheet, finding) else "base"
    return (sentence("quantifier", key),)


def short_forms(sheet: Sheet, finding: Finding) -> Iterator[tuple[str, str]]:
    """What the readings of a finding and who would bring it are called once they were told in full."""
    labels = turning_labels(sheet, finding)
    for d in departures(finding):
        yield reading_text(sheet, d, labels, finding.construction), reading_label(sheet, d, True, labels)
    if finding.quantifier == "base" and not departures(finding):
        lines, groups = _usual_groups(sheet, finding)
        for g in groups:
            yield usual_text(sheet, g, lines), usual_text(sheet, g, lines, brief=True)
    if finding.bearer:
        yield bearer_text(sheet, finding), bearer_text(sheet, finding, brief=True)


def _settled_by(finding: Finding) -> tuple[str, ...]:
    """The policies and pins among what a finding rests on; only they are quoted there."""
    return tuple(flat(text) for text in finding.rests_on if text.startswith('"'))


def _usual_readings(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The usual readings of the limitations that fail, or of the one the finding is about, in sheet order."""
    labels, groups = _usual_groups(sheet, finding)
    return tuple(usual_text(sheet, g, labels) for g in groups)


def _usual_groups(sheet: Sheet, finding: Finding) -> tuple[tuple[str, ...], tuple[int, ...]]:
    """These limitations by their labels, and their phrases.

    What is idle rests on how the lines beside it are read, too; what silence alone keeps out, on those alone.
    """
    if finding.question == SILENCE:
        return (), ()
    labels = finding.failing or (finding.label,)
    if finding.question in IDLE:
        labels = (finding.label, *finding.conflict)
    limitations = [found for label in labels if (found := limitation_labelled(sheet, label))]
    groups = dict.fromkeys(
        g for x in limitations for g in x.groups if not only_passes_on(sheet, g, x.formula)
    )
    return labels, tuple(groups)


def _how_far(sheet: Sheet, finding: Finding) -> str:
    """That a finding of the usual readings does not hold on every one; '' where it is told otherwise."""
    if finding.quantifier != "base" or departures(finding) or not _usual_readings(sheet, finding):
        return ""
    return "" if finding.kept_by or finding.unmet_by else sentence("quantifier", "base_named")


# ---- the lines in the margin


def margin(sheet: Sheet, finding: Finding) -> Margin:
    """What stands below the statement, under its margin words; lines that say nothing are left out."""
    shown: list[tuple[str, Iterable[str]]] = [
        ("beside", [twin_text(sheet, finding)] if finding.question != "moves with something else" else []),
        ("region", [_region(sheet, finding)]),
        ("reading", readings_told(sheet, finding)),
        ("together", _together(finding)),
        ("how_far", [_how_far(sheet, finding)]),
        (_kept_word(finding), _kept_by(sheet, finding)),
        ("unmet_by", _unmet_by(sheet, finding, [r for r in finding.unmet_by if r not in finding.in_part])),
        ("part_met", _unmet_by(sheet, finding, finding.in_part)),
        ("others", other_readings(sheet, finding)),
        ("kept_out", ways_out(sheet, finding)),
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
    turning = (*departures(finding), *finding.kept_by, *finding.kept_too, *finding.unmet_by)
    return statuses(finding, any(presumed_too(sheet, r) for r in turning))


def _together(finding: Finding) -> tuple[str, ...]:
    """That the re-readings do it only together, and that other sets of phrases do it too."""
    if finding.question == "pair":
        return ()
    return together_text(finding), sentence("reading", "more_together") if finding.more else ""


def _rests_on(finding: Finding) -> str:
    """Bounds, givens and policies, unless `readings_told` names the policy already."""
    told = _settled_by(finding) if finding.quantifier == "every" and not departures(finding) else ()
    return "; ".join(t for text in finding.rests_on if (t := flat(text)) not in told)


def _kept_word(finding: Finding) -> str:
    """What the least re-readings do: a claim can be met after all, a dependent narrows, a case is kept in."""
    if finding.question in EMPTY_CLAIM:
        return "met_by"
    if finding.detail == LINE_ALONE:
        return "let_by"
    return "narrows" if finding.question == "adds nothing" else "kept_by"


def _kept_by(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The least re-readings on which a lost case is kept after all, those needed together joined by "and"."""
    conflict = finding.conflict if finding.question in EMPTY_CLAIM else ()
    labels = finding.failing or conflict or turning_labels(sheet, finding)
    same = [r for r in finding.kept_too if any(_of_one_phrase(r, k) for k in finding.kept_by)]
    told = _joined([kept_text(sheet, r, labels, same) for r in finding.kept_by])
    rest = (r for r in finding.kept_too if r not in same)
    told += [sentence("reading", "or", text=kept_text(sheet, r, labels)) for r in rest]
    return (*told, together_text(replace(finding, rereads=finding.kept_by, read_as=())))


def _joined(told: Sequence[str]) -> list[str]:
    """Conditions that it takes all of: each but the first led by "and", as none of them is enough alone."""
    return [sentence("reading", "and", text=text) if i else text for i, text in enumerate(told)]


def _of_one_phrase(one: Reread, other: Reread) -> bool:
    """Are both readings of one phrase, neither from a stretch on?"""
    return one.group == other.group and not one.breaks and not other.breaks


def _unmet_by(sheet: Sheet, finding: Finding, rereads: Sequence[Reread]) -> tuple[str, ...]:
    """Those re-readings on which what is met as presumed is kept out, each of them alone or all together."""
    if departures(finding) or only_by_far(sheet, finding):
        return ()
    told = kept_out_if(sheet, finding, rereads, turning_labels(sheet, finding))
    if not finding.unmet_together or len(told) < 2:
        return told
    return (*_joined(told), together_text(replace(finding, rereads=tuple(rereads), read_as=())))


def _by_their_ways(sheet: Sheet, finding: Finding, claims: tuple[int, ...]) -> str:
    """`claims 2 and 4, and claim 5 by way of claim 1` if it is not told of all the claims it depends on.

    Of several by way of different ones: `and claims 5 and 7 by way of such claims`.
    """
    so = {finding.claim, *finding.also_claims, *(n for n, _ in finding.also_open if n in claims)}
    through = {n: [p for p in sheet.claim(n).parents if p in so] for n in claims}
    partly = {n: ps for n, ps in through.items() if ps and len(ps) < len(sheet.claim(n).parents)}
    wholly = [n for n in claims if n not in partly]
    told = [claims_text(wholly)] if wholly else []
    if len(set(map(tuple, partly.values()))) > 1:
        return listed([*told, sentence("way", "through_such", claims=claims_text(sorted(partly)))])
    told += [
        sentence("way", "through", claim=claims_text(sorted(partly)), claims=claims_text(ps))
        for ps in dict.fromkeys(map(tuple, partly.values()))
    ]
    return listed(told)


def _also(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """The dependents of which the same holds, and those of which it does as far as the case goes."""
    if finding.also_claims and finding.question != "no reading suits all claims":
        some = finding.also_on_some
        always = tuple(n for n in finding.also_claims if n not in some)
        for key, claims in (("also_claims", always), ("also_on_some", some)):
            if claims:
                yield sentence("note", key, claims=_by_their_ways(sheet, finding, claims))
    by_names: dict[tuple[str, ...], list[int]] = {}
    for number, names in finding.also_open:
        by_names.setdefault(names, []).append(number)
    every = tuple(sorted(n for numbers in by_names.values() for n in numbers))
    if len(by_names) == 1:
        open_ones = _left_open(sheet, next(iter(by_names)))
        yield sentence("note", "also_open", claims=_by_their_ways(sheet, finding, every), names=open_ones)
    elif by_names:
        each = [
            sentence("note", "open_in", names=_left_open(sheet, names), claims=claims_text(numbers))
            for names, numbers in by_names.items()
        ]
        told = _by_their_ways(sheet, finding, every)
        yield sentence("note", "also_open_each", claims=told, each="; ".join(each))


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
    notes = []
    if finding.witness is not None and _grade_matters(sheet, finding):
        notes.append(sentence("grade", finding.grade))
    notes += condition_texts(sheet, finding)
    if case := case_named(sheet, finding.case):
        whole = tuple(case_notes(sheet, case))
        filled = finding.question == "inside lost" and not set(finding.departs) <= set(case.stated)
        notes += whole or (added_up(sheet, case) if filled else ())
    if finding.partly:
        notes += _partly(sheet, finding)
    if finding.question == "adds nothing" and finding.quantifier != "every" and not finding.kept_by:
        notes.append(sentence("note", "narrows_empty" if finding.detail == NEVER_BOTH else "narrows_else"))
    if barred := barred_by(sheet, finding):
        lines = listed(labelled(sheet, x) for x in barred)
        notes.append(sentence("note", "barred", lines=lines, claim=finding.claim))
    if finding.detail == LINE_ALONE:
        notes.append(sentence("note", "line_alone"))
    if only_at_an_end(sheet, finding):
        notes.append(sentence("note", "only_an_end"))
    if finding.question == "idle" and not finding.conflict:
        notes += _always_done(sheet, finding)
    if finding.question == "same scope":
        notes += _not_restated(sheet, finding)
    if finding.twins:
        notes.append(sentence("note", "twins", labels=listed(labelled(sheet, x) for x in finding.twins)))
    if not finding.simplest:
        notes.append(sentence("note", "not_simplest"))
    if not finding.best:
        notes.append(sentence("note", "not_best"))
    return tuple(notes)


def _always_done(sheet: Sheet, finding: Finding) -> list[str]:
    """Of an idle line on steps, which of them the sheet declares as always carried out."""
    line = limitation_labelled(sheet, finding.label)
    about = {name.strip() for name in line.subject.split(",")} if line else set()
    steps = [flat(step.name) for step in sheet.steps if step.name in about and not step.done]
    if not steps:
        return []
    key = "always_done" if len(steps) == 1 else "always_done_many"
    return [sentence("note", key, steps=listed(steps))]


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
