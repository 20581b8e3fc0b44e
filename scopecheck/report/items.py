"""Findings as items: the words, the thing that shows it, and below them the margin."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.about import (
    Alike,
    Choices,
    CloseBy,
    Empty,
    KeptOut,
    Met,
    Narrows,
    NoValue,
    OneReading,
    Unmeasured,
)
from scopecheck.answers.findings import Finding, also_claims_of, because, cases_of, lines_of, partly_of
from scopecheck.answers.held import Held
from scopecheck.core.construction import base_construction, names_in, nodes
from scopecheck.core.declared import NOT_DONE
from scopecheck.core.formula import Divide
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.ranges import limits_of
from scopecheck.report.blocks import Item
from scopecheck.report.close_ranges import close_text
from scopecheck.report.conflict_numbers import numbers_text
from scopecheck.report.describe import (
    case_named,
    case_text,
    labelled,
    limitation_labelled,
    settings_text,
    sides_text,
)
from scopecheck.report.described import held_text, unstated_text
from scopecheck.report.grouping import SIDED, SILENCE, Cluster, departures, phrases_moved, turning_labels
from scopecheck.report.kept_out import kept_text, scope_text, silence_text
from scopecheck.report.known_ranges import how_read, relation_text
from scopecheck.report.margins import claim_told, margin, short_forms, statuses
from scopecheck.report.pictures import picture_for
from scopecheck.report.rereadings import common_words, group_words, reading_label
from scopecheck.report.slips import slip_texts
from scopecheck.report.stated_ends import end_text, member_texts
from scopecheck.report.things import left_free, thing_text, values_as_listed
from scopecheck.report.ties import ends_had
from scopecheck.report.unread import unread_text
from scopecheck.report.ways import way_text
from scopecheck.report.wholes import added_up
from scopecheck.report.wording import (
    GLUE,
    claims_text,
    counted,
    flat,
    has_sentence,
    listed,
    lower_first,
    quoted,
    sentence,
    upper_first,
)
from scopecheck.solving.evaluate import evaluate_term

OF_LINES = (
    "nothing meets",
    "dependent cannot be met",
    "adds nothing",
    "idle",
    "idle end",
    "same scope",
    "end not reached",
)
"""Questions about lines alone, whose sentences say on which readings they hold."""
SIDED_OR_SILENT = ("outside met", "inside lost", "document met", SILENCE)
"""Questions on a listed case."""
ABOUT_ALL = ("no reading fits all cases", "one reading fits all cases")
"""Questions about every claim and case at once."""
MOST_LINES = 4
"""Limitations that one item tells one by one."""
FEW_LINES = 3
"""A claim with at most so many lines is told by all of them where a finding turns on none in particular."""


# ---- the words concerned


def heads(sheet: Sheet, finding: Finding, most: int = MOST_LINES) -> tuple[tuple[str, str], ...]:
    """The label and words of each limitation that the finding turns on; for a whole claim its label alone."""
    own = limitation_labelled(sheet, finding.label) is not None
    # What meets a claim as presumed meets all of its lines: which of them might be read otherwise is no head.
    met = finding.question in ("outside met", "document met") and not departures(finding)
    turning = () if met and finding.quantifier == "base" else turning_labels(sheet, finding)
    labels = (finding.label,) if own else finding.failing or turning
    if finding.question in (*ABOUT_ALL, "document close by"):
        labels = lines_of(finding)
    whole = not lines_of(finding) or finding.question == "adds nothing"
    if not labels and whole and finding.question not in ABOUT_ALL:
        claim = next((c for c in sheet.claims if c.number == finding.claim), None)
        if claim and len(claim.limitations) <= FEW_LINES:
            labels = tuple(x.label for x in claim.limitations)
    known = [found for label in labels if (found := limitation_labelled(sheet, label))]
    nouns = {g for d in departures(finding) if sheet.groups[g := d.group].noun}
    pairs = tuple((x.label, _head_words(x, bool(nouns & set(x.groups)))) for x in known)
    if len(pairs) > most:
        pairs = (*pairs[:most], (sentence("note", "more_lines", count=len(pairs) - most), ""))
    return pairs or ((_whole_claim(sheet, finding), ""),)


def _head_words(limitation: Limitation, with_subject: bool) -> str:
    """The words in quotation marks; before them what is measured, where its noun is re-read."""
    words = quoted(limitation.words or limitation.text)
    return f"{flat(limitation.subject)}: {words}" if with_subject and limitation.subject else words


def _whole_claim(sheet: Sheet, finding: Finding) -> str:
    """`claim 1 (1a to 1d)`."""
    claim = next((c for c in sheet.claims if c.number == finding.claim), None)
    labels = [x.label for x in claim.limitations] if claim else []
    shown = flat(finding.label or (f"claim {finding.claim}" if finding.claim else ""))
    whole = not lines_of(finding) or finding.question == "adds nothing"
    if len(labels) < 2 or not whole or finding.question in ABOUT_ALL:
        return shown
    return f"{shown} ({labels[0]} {'to' if len(labels) > 2 else 'and'} {labels[-1]})"


# ---- sentences


def statement(sheet: Sheet, finding: Finding, form: str = "statement") -> str:
    """The finding's sentence, or with `brief` its short form for a line among others."""
    case = case_named(sheet, finding.case)
    unsaid = finding.question == "document met" and left_free(sheet, finding)
    by = finding.question == "adds nothing" and not because(finding).sets and bool(lines_of(finding))
    taken_over = _of_a_line_taken_over(sheet, finding)
    special = (
        f"{form}_above_way" if taken_over and finding.ways else "",
        f"{form}_above" if taken_over else "",
        f"{form}_way_by" if by and finding.ways else f"{form}_by" if by else "",
        f"{form}_unsaid" if unsaid and not _at_end(finding) else "",
        f"{form}_end" if _at_end(finding) else "",
        f"{form}_one_value" if finding.about == Narrows(one_value=True) else "",
        f"{form}_any_value"
        if isinstance(finding.about, Unmeasured) and finding.about.no_end == "both"
        else "",
        f"{form}_no_names" if finding.question == "inside left open" and not partly_of(finding) else "",
        f"{form}_{case.form}" if case else "",
        f"{form}_way" if finding.ways else "",
        f"{form}_alone" if not also_claims_of(finding) else "",
        f"{form}_own" if _within_itself(sheet, finding) else "",
        f"{form}_steps" if _steps_unsaid(sheet, finding) else "",
        f"{form}_{finding.quantifier}_open" if finding.question in ABOUT_ALL and cases_of(finding) else "",
        f"{form}_open" if finding.question in ABOUT_ALL and cases_of(finding) else "",
        f"{form}_{finding.quantifier}",
    )
    key = next((key for key in special if has_sentence("question", finding.question, key)), form)
    text = _statement(sheet, finding, key)
    of_range = finding.question == "document range" and finding.stakes < 6
    if form == "statement" and (of_range or finding.question == "adds nothing"):
        text = upper_first(text)
    if form == "statement" and finding.question == "inside left open" and case:
        text = " ".join([text, *added_up(sheet, case)])
    if form == "statement" and (claim := _claim_to_name(sheet, finding)):
        text = sentence("note", "of_claim", claim=upper_first(claims_text([claim])), text=lower_first(text))
    moved = phrases_moved(finding)
    if form != "statement" or finding.question not in OF_LINES or not moved:
        return text
    return sentence("note", "read_so" if moved == 1 else "read_so_many", text=lower_first(text))


def _claim_to_name(sheet: Sheet, finding: Finding) -> int:
    """The claim that a listed thing meets or does not, where the lines above the sentence are not all its
    own; 0 where they name it."""
    if finding.question not in SIDED:
        return 0
    claim = claim_told(sheet, finding)
    lines = [x for label, _ in heads(sheet, finding) if (x := limitation_labelled(sheet, label))]
    return claim if any(x.claim != claim for x in lines) else 0


def _of_a_line_taken_over(sheet: Sheet, finding: Finding) -> bool:
    """Is it told of a claim that brings it about at a line of a claim that it takes over?"""
    line = limitation_labelled(sheet, finding.label)
    return line is not None and line.claim != finding.claim


def _within_itself(sheet: Sheet, finding: Finding) -> bool:
    """Do a claim's own lines conflict among themselves?"""
    own = {x.label for c in sheet.claims if c.number == finding.claim for x in c.limitations}
    lines = {label for one in (lines_of(finding), *because(finding).sets) for label in one}
    return bool(lines) and lines <= own


def _statement(sheet: Sheet, finding: Finding, form: str) -> str:
    wider = finding.bearer == "challenger"
    return sentence(
        "question",
        finding.question,
        form,
        thing=thing_text(sheet, finding),
        label=flat(finding.label),
        claim=finding.claim,
        case=case_text(sheet, finding.case),
        stated=_stated_text(sheet, finding),
        at_end=_at_end_text(sheet, finding),
        conflict=listed(labelled(sheet, label) for label in lines_of(finding)),
        meant=_meant(sheet, finding),
        met_when_read=sentence("status", "met" if wider else "not_met"),
        statuses=statuses(finding),
        change=_change(sheet, finding, form),
        relation=relation_text(sheet, finding),
        read=how_read(sheet, finding),
        sides=sides_text(sheet, finding),
        end=end_text(sheet, finding),
        expression=_expression(sheet, finding),
        **slip_texts(sheet, finding),
        **member_texts(sheet, finding),
        conflicts=conflicts_text(sheet, finding),
        beside=_beside(sheet, finding),
        own=labelled(sheet, finding.label),
        way=way_text(sheet, finding),
        scope=scope_text(sheet, finding),
        close=close_text(sheet, finding, _at_end_text(sheet, finding)),
        kept=kept_text(sheet, finding),
        silence=silence_text(sheet, finding),
        other=_other(finding),
        claims=claims_text((*also_claims_of(finding), finding.claim)),
        count=_choices(finding),
        unsaid=listed(_of_parts_together(sheet, partly_of(finding))),
        steps=", ".join(_steps_unsaid(sheet, finding)),
        inside=listed((case_text(sheet, name) for name in cases_of(finding)), "or"),
        held=held_text(sheet, finding),
        unstated=unstated_text(sheet, finding),
        line=labelled(sheet, finding.label),
        above=_claim_of_line(sheet, finding),
        things=_two_things(sheet, finding),
        names=listed(map(flat, finding.thing.names)) if isinstance(finding.about, Unmeasured) else "",
        ends=sentence("no_end", finding.about.no_end) if isinstance(finding.about, Unmeasured) else "",
        usually=sentence("note", "usually"),
        documents=_documents_aside(sheet),
    )


def _at_end(finding: Finding) -> bool:
    """Is a document's range told of where it states an end, and not as a whole?"""
    return isinstance(finding.about, KeptOut | Met) and finding.about.at_end


def _other(finding: Finding) -> str:
    """The other one of two claims alike, or the number that the description does not have; else ''."""
    match finding.about:
        case Alike(other):
            return claims_text([other])
        case Held(name):
            return flat(name)
        case _:
            return ""


def _claim_of_line(sheet: Sheet, finding: Finding) -> str:
    line = limitation_labelled(sheet, finding.label)
    return claims_text([line.claim]) if line else ""


def _documents_aside(sheet: Sheet) -> str:
    return sentence("note", "documents_aside") if any(c.role == "document" for c in sheet.cases) else ""


def _steps_unsaid(sheet: Sheet, finding: Finding) -> list[str]:
    """The steps of which a case inside does not say when they begin."""
    if finding.question != "inside left open":
        return []
    return [flat(step.name) for step in sheet.steps if step.start in partly_of(finding)]


def _of_parts_together(sheet: Sheet, names: Iterable[str]) -> list[str]:
    """The names, those of one field of several like parts as `length of the blades`."""
    told: dict[str, str] = {name: flat(name) for name in names}
    for part in sheet.parts:
        for own in part.fields:
            slots = [name for _, field, name in part.slots() if field == own and name in told]
            if len(slots) > 1:
                told |= dict.fromkeys(slots, flat(f"{own} of the {part.plural}"))
    return list(dict.fromkeys(told.values()))


def _stated_text(sheet: Sheet, finding: Finding) -> str:
    """What a document states, as the sheet has it."""
    case = case_named(sheet, finding.case)
    return flat(case.text) if case else ""


def _at_end_text(sheet: Sheet, finding: Finding) -> str:
    """What the thing has that is an end of a range as a document states it."""
    case = case_named(sheet, finding.case)
    shares_end = isinstance(finding.about, CloseBy) and finding.about.how == "shares an end"
    if not (shares_end or _at_end(finding)) or case is None or finding.witness is None:
        return ""
    article, k = finding.witness.article, base_construction(sheet)
    ranges = ((name, own) for name, own in limits_of(sheet, case.facts, k).said if own.single is None)
    ends = {name: {end.value for end in (own.low, own.high) if end is not None} for name, own in ranges}
    told = settings_text(sheet, article, [name for name, own in ends.items() if article.get(name) in own])
    return ", ".join([*([told] if told else []), *ends_had(sheet, case.facts, article)])


def _choices(finding: Finding) -> str:
    """`6 of 8 combinations of signal`."""
    own = finding.about
    if not isinstance(own, Choices):
        return ""
    return sentence("choices", "of_one", met=own.met, all=own.every, names=listed(map(flat, own.names)))


def conflicts_text(sheet: Sheet, finding: Finding) -> str:
    """The lines that conflict, in a sentence, with the numbers that show it where a sum of them does; of
    further minimal sets the labels."""
    numbers = numbers_text(sheet, finding)
    return f"{_conflicts(sheet, finding)} {numbers}" if numbers else _conflicts(sheet, finding)


def _conflicts(sheet: Sheet, finding: Finding) -> str:
    by = because(finding)
    if not by.sets:
        lines = listed(labelled(sheet, label) for label in lines_of(finding))
        further = finding.about.further if isinstance(finding.about, Empty) else ()
        more = listed(labelled(sheet, x) for x in further)
        return sentence("conflict", "one_and_more" if more else "one", lines=lines, more=more)
    first, *rest = by.sets
    lines, sets = listed(labelled(sheet, label) for label in first), "; ".join(map(listed, rest))
    if not rest:
        return sentence("conflict", "one", lines=lines)
    return sentence("conflict", "several" if by.every else "at_least", lines=lines, sets=sets)


def _beside(sheet: Sheet, finding: Finding) -> str:
    """What makes a limitation idle: other lines, or bounds and given facts alone."""
    if not lines_of(finding):
        return sentence("beside", "bounds")
    return sentence("beside", "lines", lines=listed(labelled(sheet, label) for label in lines_of(finding)))


def _two_things(sheet: Sheet, finding: Finding) -> str:
    """The two most different things by their values: `wall 0.2 mm and wall 30 mm`; '' of other findings."""
    if finding.witness is None or not isinstance(finding.about, Unmeasured):
        return ""
    both = (finding.witness, finding.about.other)
    things = (settings_text(sheet, w.article, finding.thing.names) for w in both)
    return listed(f"({text})" if ", " in text else text for text in things)


def _change(sheet: Sheet, finding: Finding, form: str) -> str:
    """What a contested reading changes, with a thing that shows it where one was looked for."""
    if not isinstance(finding.about, OneReading) or finding.about.change == "nothing":
        return ""
    change = finding.about.change
    text = sentence("change", change)
    if finding.witness is not None and has_sentence("change_shown", change):
        text = sentence("change_shown", change, thing=thing_text(sheet, finding))
    return lower_first(text) if form == "brief" else text


def _expression(sheet: Sheet, finding: Finding) -> str:
    """`: rim is 0 there`, the divisor that leaves a limitation without a value."""
    cause = cause_of_no_value(sheet, finding)
    return sentence("end", "expression", cause=cause) if cause else ""


def cause_of_no_value(sheet: Sheet, finding: Finding) -> str:
    """`rim is 0 there`; '' where nothing of that kind leaves a limitation without a value."""
    if not isinstance(finding.about, NoValue):
        return ""
    limitation = limitation_labelled(sheet, finding.label)
    if limitation and (step := _step_left_out(sheet, finding, limitation)):
        return sentence("end", "not_done", step=flat(step))
    text = finding.about.expression
    if not text:
        return ""
    if limitation is not None and finding.witness is not None:
        k = finding.construction or base_construction(sheet)
        divisions = [n for n in nodes(limitation.formula) if isinstance(n, Divide) and n.text]
        zero = (d.text for d in divisions if evaluate_term(d.right, finding.witness.article, k) == 0)
        text = next(zero, text)
    return sentence("end", "zero", text=flat(text))


def _step_left_out(sheet: Sheet, finding: Finding, limitation: Limitation) -> str:
    """The step that the limitation speaks of and that was not done; '' if there is none."""
    article = finding.witness.article if finding.witness else {}
    spoken = names_in(limitation.formula)
    left_out = (s for s in sheet.steps if article.get(s.done) == NOT_DONE)
    return next((s.name for s in left_out if spoken & set(s.numbers)), "")


def _meant(sheet: Sheet, finding: Finding) -> str:
    limitation = limitation_labelled(sheet, finding.label)
    return quoted(limitation.meant_text) if limitation else ""


# ---- items


def item(sheet: Sheet, cluster: Cluster, number: int, everything: bool = True) -> Item:
    """One numbered item: the first finding in full, the others as one line each, then the consequences."""
    first, *rest = cluster.findings
    titled = (bool(rest) and bool(cluster.axes)) or phrases_moved(first) > 1
    decision = decision_text(sheet, cluster) if titled or _recurs(cluster) else ""
    below = margin(sheet, first, everything)
    if decision and not titled:
        below = (*below, (sentence("margin", "decision"), (decision,)))
    return Item(
        number,
        decision,
        heads(sheet, first),
        " ".join(
            filter(None, (statement(sheet, first), unread_text(sheet, first, _labels_shown(sheet, first))))
        ),
        below,
        _others(sheet, first, rest),
        cluster.follows,
        cluster.findings,
        cluster.absorbed,
        picture_for(sheet, first),
        titled,
        tuple(_short_forms(sheet, cluster, decision)),
        values_as_listed(sheet, first),
        _heading(sheet, cluster, heads(sheet, first)) if titled else "",
    )


def _labels_shown(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """The lines whose words stand at the head of an item."""
    return (label for label, words in heads(sheet, finding) if words)


def _short_forms(sheet: Sheet, cluster: Cluster, decision: str) -> Iterator[tuple[str, str]]:
    """What texts of an item's margin are called where an item above told them in full."""
    yield from short_forms(sheet, cluster.first)
    if decision and len(cluster.axes) > 0:
        yield decision, question_text(sheet, cluster.axes, cluster.first)


def _others(sheet: Sheet, first: Finding, rest: Sequence[Finding]) -> tuple[str, ...]:
    """The other findings of an item, one line each; of a claim below that says the same, nothing again.

    Of those that differ in the case or the claim alone, the cases and the claims.
    """
    alike = [f for f in rest if _said(sheet, f) == _said(sheet, first)]
    told = dict.fromkeys(line(sheet, finding) for finding in rest if finding not in alike)
    told.pop(line(sheet, first), None)
    return (*_alike(sheet, first, alike), *told)


def _said(sheet: Sheet, finding: Finding) -> object:
    """What an item says beside the case and the claim."""
    readings = tuple((d.group, d.reading, d.breaks) for d in departures(finding))
    as_listed = bool(finding.case) and not finding.thing.departs and finding.question in SIDED_OR_SILENT
    return as_listed or id(finding), finding.question, heads(sheet, finding), readings, finding.quantifier


def _alike(sheet: Sheet, first: Finding, alike: Sequence[Finding]) -> Iterator[str]:
    """`Also not met: weekend tree and slow coats (claim 8).`, `The same goes for claims 4 and 7.`"""
    claims = [f.claim for f in alike if f.case == first.case]
    if claims:
        yield sentence("note", "also_claims", claims=claims_text(claims))
    of_others: dict[int, list[str]] = {}
    for f in alike:
        if f.case != first.case:
            of_others.setdefault(claim_told(sheet, f), []).append(case_text(sheet, f.case))
    told = []
    for claim, names in of_others.items():
        shown = listed(dict.fromkeys(names))
        told.append(shown if claim == claim_told(sheet, first) else f"{shown} ({claims_text([claim])})")
    if told:
        key = "also_lost" if first.question == "inside lost" else "also_met"
        yield sentence("note", key, cases=listed(told))


def _recurs(cluster: Cluster) -> bool:
    """One finding, but its one question arises at other places too."""
    return len(cluster.axes) == 1 and cluster.places > 1


def decision_text(sheet: Sheet, cluster: Cluster) -> str:
    """`Are the ends included? 4 places, matters in 2`; of phrases that matter together, their words."""
    if cluster.first.question == SILENCE:
        return sentence("item", "silence", case=case_text(sheet, cluster.first.case))
    if phrases_moved(cluster.first) > 1:
        return _together_text(cluster.first, words_together(sheet, cluster.first))
    question = question_text(sheet, cluster.axes, cluster.first)
    places, each = counted(cluster.places, "place"), cluster.matters == cluster.places
    key = "several" if not each else "several_one" if cluster.places == 1 else "several_each"
    return sentence("item", key, question=question, places=places, matters=cluster.matters)


def _together_text(finding: Finding, words: Sequence[str], with_words: bool = True) -> str:
    """`Claim 1, two phrases together: "divisible by 6" and "about 35 %"`, or without the words."""
    count = phrases_moved(finding)
    of_one = "together_same" if count == 2 else "together_same_many"
    of_several = "together" if count == 2 else "together_many"
    return sentence(
        "item",
        of_several if len(words) > 1 else of_one,
        claim=upper_first(claims_text([finding.claim])),
        count=count,
        words=sentence("item", "together_words", words=listed(words)) if with_words else "",
    )


def _heading(sheet: Sheet, cluster: Cluster, heads: Iterable[tuple[str, str]]) -> str:
    """The title of an item on several phrases, if the lines below it have just these words; else ''."""
    if phrases_moved(cluster.first) < 2 or cluster.first.question == SILENCE:
        return ""
    words = words_together(sheet, cluster.first)
    below = {told for _, told in heads}
    return _together_text(cluster.first, words, with_words=False) if set(words) <= below else ""


def words_together(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The phrases that matter together, by their words; one where two readings are of the same words."""
    moved, labels = dict.fromkeys(d.group for d in departures(finding)), turning_labels(sheet, finding)
    ordered = _by_place(sheet, moved, labels)
    outer = [g for g in ordered if not _stands_in_another(sheet, g, moved, labels)]
    return tuple(dict.fromkeys(group_words(sheet.groups[g], labels) for g in outer))


def _stands_in_another(sheet: Sheet, group: int, others: Iterable[int], labels: tuple[str, ...]) -> bool:
    """Do the group's words stand within those of another, as "more than 3" in "if it is more than 3" does?"""
    places = [p for p in sheet.groups[group].places if p.where in labels]
    spans = [(p.where, p.span) for g in others if g != group for p in sheet.groups[g].places]
    return bool(places) and all(
        any(
            where == p.where and s.start <= p.span.start and p.span.end <= s.end and s != p.span
            for where, s in spans
        )
        for p in places
    )


def _by_place(sheet: Sheet, groups: Iterable[int], labels: tuple[str, ...]) -> list[int]:
    """The groups in the order in which their words stand in the sheet, at these labels if at any."""

    def place(group: int) -> int:
        places = sheet.groups[group].places
        own = [p for p in places if p.where in labels] or places
        return min((p.span.start for p in own), default=0)

    return sorted(groups, key=place)


def question_text(sheet: Sheet, axes: Iterable[str], first: Finding) -> str:
    """The questions that settle these kinds of ambiguity, one after the other."""
    questions = []
    for axis in axes:
        if has_sentence("axis", axis) and axis != "other":
            questions.append(sentence("axis", axis))
            continue
        moved = [sheet.groups[d.group] for d in departures(first)]
        own = [g for g in moved if axis == f"other {g.index}"] or moved
        questions.append(sentence("axis", "other", words=listed(map(common_words, own))))
    return " ".join(dict.fromkeys(questions))


def line(sheet: Sheet, finding: Finding) -> str:
    """A finding on one line: the words, what happens, on which readings."""
    words = listed(GLUE.join(p for p in pair if p) for pair in heads(sheet, finding, 2))
    moved = departures(finding)
    several = len(moved) > 1
    labels = (finding.label, *turning_labels(sheet, finding))
    readings = [reading_label(sheet, d, several, labels) for d in moved]
    return f"{words}: {'; '.join([statement(sheet, finding, 'brief').rstrip('.'), *readings])}"
