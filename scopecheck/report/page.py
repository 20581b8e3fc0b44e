"""From answers to a report: the order of its parts, what stands on the first page, and the exit status."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from scopecheck.answers.about import KeptOut, Narrows
from scopecheck.answers.findings import (
    EMPTY_CLAIM,
    Answers,
    Finding,
    also_claims_of,
    also_open_of,
    lines_of,
    silent_lines,
    ways_out_of,
)
from scopecheck.answers.held import Combined, Held
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.drawing import draw
from scopecheck.foundations.record import replace
from scopecheck.report.blocks import Block, Excerpt, Heading, Item, Listing, Paragraph, Report
from scopecheck.report.chart import chart_blocks
from scopecheck.report.consequences import NO_READING, emptied_by, is_empty_claim
from scopecheck.report.describe import case_named, limitation_labelled, lineage
from scopecheck.report.described import unstated_first
from scopecheck.report.frame import foot, head
from scopecheck.report.grouping import (
    FAR,
    Cluster,
    departures,
    is_measured_by_no_number,
    is_open,
    phrases_moved,
    section,
    turning_labels,
)
from scopecheck.report.items import (
    cause_of_no_value,
    decision_text,
    item,
    line,
    question_text,
    statement,
    words_together,
)
from scopecheck.report.kept_out import lines_that_keep_out
from scopecheck.report.known_ranges import how_read, nearness_lines, relation_text
from scopecheck.report.looked import Beside
from scopecheck.report.margins import readings_told
from scopecheck.report.mattering import Turned, turned_on
from scopecheck.report.not_shown import not_shown_text
from scopecheck.report.plan import Plan, plan
from scopecheck.report.wholes import as_impurities
from scopecheck.report.wording import claims_text, counted, flat, listed, sentence, upper_first

MOST_ITEMS = 10
"""Items on the first page."""
LISTED = 3
"""The least grave stakes at which a listed thing comes out wrong."""
MOST_HELD = 6
"""So many places of items held back in one section are named."""
MOST_LINES = 10
"""Lines of one kind on the first page."""
COUNTED = ("narrows", "choices left", "harmless")
DESCRIBED = "beside the description"
"""Statements that the first page only counts."""
FITS = "one reading fits all cases"
"""What is told before all other statements: it concerns every claim and case."""
NO_MEASURE = "without measure"
"""What is told in a section of its own."""


def exit_status(answers: Answers) -> int:
    """1 if anything of classes 1 to 4 was found, else 3 if anything is undecided, else 0."""
    if any(f.stakes <= 4 and not is_open(f) for f in answers.findings):
        return 1
    return 3 if any(is_open(f) for f in answers.findings) else 0


def build_report(
    sheet: Sheet,
    answers: Answers,
    everything: bool,
    *,
    diagnostics: Sequence[Diagnostic] = (),
    strained: bool = False,
    chart: bool = False,
) -> Report:
    """The report on a sheet: its first page, or with `everything` all of it; with `chart` the chart too.

    `diagnostics` are warnings about the sheet, `strained` says that strained readings took part.
    """
    planned = plan(sheet, answers.findings, everything)
    ranked = [*planned.items, *planned.strained]
    shown = ranked if everything else _first_page(sheet, ranked)
    below = bool(diagnostics) and bool(shown)  # the items are to be read first
    blocks: list[Block] = [*head(sheet), *(told_below(diagnostics) if below else warned(diagnostics))]
    on_page = {id(cluster) for cluster in shown}
    usual = sum(id(cluster) in on_page for cluster in planned.items)
    held_back = [cluster for cluster in ranked if id(cluster) not in on_page]
    blocks += _items(sheet, shown, usual, everything)
    if unseen := not_shown_text(sheet, shown, held_back[: len(planned.items) - usual]):
        blocks.append(Paragraph(unseen))
    blocks += _held_back(sheet, held_back, len(planned.items) - usual)
    blocks += warned(diagnostics) if below else ()
    blocks += _undecided(sheet, planned, everything)
    blocks += measures(sheet, planned.statements)
    blocks += _quiet(sheet, planned, everything, len(ranked))
    blocks += _statements(sheet, planned, everything)
    blocks += chart_blocks(sheet, answers) if everything or chart else ()
    blocks += foot(sheet, answers, strained, everything, _beside(sheet, planned, everything))
    held = _held_indices(planned, blocks)
    return Report(tuple(blocks), sheet, answers, planned.order, held, tuple(diagnostics))


MOST_SILENT = 3
"""A document that nothing stated keeps out may leave so many lines open, or a third, to be told in brief."""


def told_below(diagnostics: Sequence[Diagnostic]) -> Iterator[Block]:
    """That warnings stand below, and of which lines."""
    lines = dict.fromkeys(d.span.line for d in diagnostics)
    shown = listed(str(line) for line in list(lines)[:MOST_LINES])
    more = len(lines) - MOST_LINES
    key = "lines_more" if more > 0 else "lines" if len(lines) > 1 else "one_line"
    where = sentence("head", key, lines=shown, count=more)
    told = counted(len(_gathered(diagnostics)), "warning")
    section = sentence("section", "warnings")
    yield Paragraph(sentence("head", "warned", warnings=told, where=where, section=section))


def warned(diagnostics: Sequence[Diagnostic]) -> Iterator[Block]:
    """The warnings about a sheet, each with its place."""
    if diagnostics:
        yield Heading(sentence("section", "warnings"))
        for diagnostic in _gathered(diagnostics):
            yield Excerpt(draw(diagnostic))


def _gathered(diagnostics: Sequence[Diagnostic]) -> list[Diagnostic]:
    """The warnings, those that say the same of several lines as one with each of its places."""
    found: dict[tuple[str, ...], Diagnostic] = {}
    for d in diagnostics:
        key = (d.severity, d.message, d.cause, d.help)
        if (first := found.get(key)) is None:
            found[key] = d
        else:
            place = (d.span, sentence("head", "so_too", line=d.span.line))
            found[key] = replace(first, also=(*first.also, place, *d.also))
    return list(found.values())


def _first_page(sheet: Sheet, ranked: Sequence[Cluster]) -> Sequence[Cluster]:
    """The first items; a claim that nothing meets as its words are presumed is always among them.

    What takes a wide stretch is told only where nothing else is found of a listed thing, or where what must
    stay out is let in by words without a number, beside which no stretch is wide, and by nothing else.
    """
    told = {f.case for c in ranked if section(sheet, c.first) != FAR for f in c.findings}

    def is_near(cluster: Cluster) -> bool:
        first = cluster.first
        alone = first.question == "outside met" and first.case not in told
        far = section(sheet, first) == FAR
        return not far or (alone and phrases_moved(first) == 1 and is_measured_by_no_number(sheet, first))

    near = [c for c in ranked if is_near(c)]
    if not any(c.first.stakes <= LISTED for c in near):
        near = list(ranked)
    grave = [c for c in near if c.first.question in EMPTY_CLAIM and c.first.quantifier != "some"]
    grave += [c for c in near if c not in grave and any(f.question == NO_READING for f in c.absorbed)]
    others = [c for c in near if c not in grave]
    kept = {id(c) for c in (*grave, *others)[:MOST_ITEMS]}
    return [c for c in ranked if id(c) in kept]


def _section(sheet: Sheet, cluster: Cluster, strained: bool) -> str:
    return sentence("section", "strained" if strained else section(sheet, cluster.first))


def _items(sheet: Sheet, shown: Sequence[Cluster], usual: int, everything: bool) -> Iterator[Block]:
    above = ""
    for index, cluster in enumerate(shown):
        title = _section(sheet, cluster, index >= usual)
        if title != above:
            yield Heading(title)
            above = title
        yield item(sheet, cluster, index + 1, everything)


def _held_back(sheet: Sheet, held: Sequence[Cluster], usual: int) -> Iterator[Block]:
    """How many items are not on the first page, in which sections, and why; nothing if none is."""
    if not held:
        return
    sections: dict[str, list[str]] = {}
    far = 0
    for index, cluster in enumerate(held):
        if index < usual and section(sheet, cluster.first) == FAR:
            far += 1
            continue
        title = _section(sheet, cluster, index >= usual)
        sections.setdefault(title, []).append(flat(cluster.first.label or cluster.first.case))
    where = listed(_held_in(title, labels) for title, labels in sections.items())
    left = len(held) - far
    count = sentence("item", "held_back_one") if left == 1 else sentence("item", "held_back_many", count=left)
    if left:
        yield Paragraph(sentence("item", "held_back_why", held=count, most=MOST_ITEMS, where=where))
    if far:
        yield Paragraph(sentence("item", "far_one" if far == 1 else "far_many", count=far))


def _held_in(title: str, labels: Sequence[str]) -> str:
    """`3 under 'Words that add nothing ...' (2a, 4b and claim 3)`."""
    named = list(dict.fromkeys(filter(None, labels)))
    more = len(named) - MOST_HELD
    if more > 0:
        named = [*named[:MOST_HELD], sentence("item", "held_more", count=more)]
    key = "held_in" if named else "held_in_bare"
    return sentence("item", key, count=len(labels), section=title, labels=listed(named))


# ---- what is not an item


def _undecided(sheet: Sheet, planned: Plan, everything: bool) -> Iterator[Block]:
    """What was left undecided, always with its count."""
    if not planned.undecided:
        return
    yield Heading(sentence("section", "undecided"))
    lines = tuple(_undecided_line(f) + _of_no_weight(sheet, planned, f) for f in planned.undecided)
    yield from _some_of(lines, everything)


def _undecided_line(finding: Finding) -> str:
    claim = claims_text([finding.claim])
    place = flat(finding.case or finding.label) or claim
    if finding.case and finding.claim:
        place = sentence("note", "undecided_place", case=place, claim=claim)
    reason = flat(finding.reason) or sentence("note", "undecided_no_reason")
    looked = sentence("question", finding.question, "looked")
    key = "undecided_how" if looked.startswith(("how ", "what ")) else "undecided"
    return sentence("note", key, place=place, looked=looked, reason=reason)


def _of_no_weight(sheet: Sheet, planned: Plan, finding: Finding) -> str:
    """Which claims are told to add nothing to one of which is undecided whether anything meets it; or ''."""
    if finding.question not in EMPTY_CLAIM:
        return ""
    idle = (f.claim for f in planned.order if f.question == "adds nothing" and not is_open(f))
    told = sorted({n for n in idle if n != finding.claim and finding.claim in lineage(sheet, n)})
    return " " + sentence("note", "of_no_weight", claims=claims_text(told)) if told else ""


def _some_of(lines: tuple[str, ...], everything: bool) -> Iterator[Block]:
    most = len(lines) if everything or len(lines) <= MOST_LINES else MOST_LINES
    yield Listing(lines[:most])
    if most < len(lines):
        yield Paragraph(sentence("item", "more_lines", count=len(lines) - most, most=most), quiet=True)


def measures(sheet: Sheet, statements: Sequence[Finding]) -> Iterator[Block]:
    """The words of degree, each with the two most different things that meet it."""
    found = [f for f in statements if f.question == NO_MEASURE]
    if found:
        yield Heading(sentence("section", "measures"))
        told = (_undecided_line(f) if is_open(f) else statement(sheet, f) for f in found)
        yield Listing(tuple(dict.fromkeys(told)))


def _quiet(sheet: Sheet, planned: Plan, everything: bool, before: int) -> Iterator[Block]:
    """The contested phrases with no listed case in between: one line, or all of them."""
    pairs = [c for c in planned.quiet if c.first.question == "pair"]
    # Two readings of the same words, of which neither changes anything alone, are told with everything only.
    told = [] if everything else [f for c in pairs for f in c.findings if len(words_together(sheet, f)) > 1]
    lines = [_pair_line(sheet, f) for f in told]
    count = "" if everything else _quiet_count(sheet, planned)
    if not (planned.quiet if everything else lines or count):
        return
    yield Heading(sentence("section", "5"))
    if everything:
        for number, cluster in enumerate(planned.quiet, start=before + 1):
            yield item(sheet, cluster, number)
        return
    if count:
        yield Paragraph(count, quiet=True)
    if lines:
        yield from _some_of(tuple(dict.fromkeys(lines)), everything)


def _quiet_count(sheet: Sheet, planned: Plan) -> str:
    """`8 places where the words can be read more than one way ...`, by the questions that settle them.

    A place at which an item, or how a document's range lies, turns on the phrase is not counted; '' if none
    is left.
    """
    graver = [f for c in (*planned.items, *planned.strained) for f in (*c.findings, *c.absorbed)]
    ranges = (f for f in planned.statements if f.question == "document range" and departures(f))
    turned = turned_on(sheet, (*graver, *ranges))
    labels: set[str] = set()
    by_question: dict[str, set[str]] = {}
    for cluster in planned.quiet:
        single = [f for f in cluster.findings if f.question != "pair"]
        where = {x for f in single for x in quiet_labels(sheet, f) if not _all_turned(f, x, turned)}
        if not where:
            continue
        by_question.setdefault(question_text(sheet, cluster.axes, cluster.first), set()).update(where)
        labels |= where
    decisions = "; ".join(
        sentence("item", "quiet_one", count=len(where), decision=question)
        for question, where in by_question.items()
    )
    if not labels:
        return ""
    overlapping = sum(map(len, by_question.values())) > len(labels)
    several = sentence("item", "quiet_several") if overlapping else ""
    places = counted(len(labels), "place")
    far = any(section(sheet, c.first) == FAR for c in planned.items)
    key = "quiet_far" if far else "quiet"
    besides = sentence("item", "quiet_besides") if turned else ""
    return sentence("item", key, places=places, besides=besides, decisions=decisions, several=several)


def _all_turned(finding: Finding, label: str, turned: Turned) -> bool:
    return {(d.group, label) for d in departures(finding)} <= turned


def _pair_line(sheet: Sheet, finding: Finding) -> str:
    """Two phrases that change something only together, by their words, the thing and the readings."""
    readings = "; ".join(readings_told(sheet, finding))
    return f"{decision_text(sheet, Cluster((finding,)))}: {statement(sheet, finding, 'brief')}. {readings}."


def quiet_labels(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """Every limitation of the claims in which the words of a contested finding stand."""
    places = [p.where for d in departures(finding) for p in sheet.groups[d.group].places]
    found = tuple(dict.fromkeys(label for label in places if limitation_labelled(sheet, label)))
    return found or turning_labels(sheet, finding)


def _statements(sheet: Sheet, planned: Plan, everything: bool) -> Iterator[Block]:
    """What was found to hold and is no defect; what the first page counts only with `everything`."""
    brief = [f for f in planned.statements if f.question not in (*COUNTED, DESCRIBED, NO_MEASURE)]
    if not everything:
        brief = [
            f
            for f in brief
            if f.question != "kept out" or _hangs_on_one(f, planned) or _mostly_there(sheet, f)
        ]
    brief.sort(key=lambda f: (f.question != FITS, not _mostly_there(sheet, f)))
    valueless = [f for f in brief if f.question == "undefined"]
    if everything or len(valueless) < 2:
        valueless = []
    close = {(f.case, f.claim) for f in planned.order if f.question == "document close by"}
    told = _statement_lines(sheet, [f for f in brief if f not in valueless], set() if everything else close)
    lines = [upper_first(text) for text in told]
    lines += [_valueless(sheet, valueless)] if valueless else []
    counted_only = (f for f in planned.statements if f.question in COUNTED)
    lines += [line(sheet, f) for f in counted_only if everything or f.about == Narrows(one_value=True)]
    if lines:
        yield Heading(sentence("section", "6"))
        yield from _some_of(tuple(dict.fromkeys(f"{text.rstrip('.')}." for text in lines)), everything)
    held = unstated_first(f for f in planned.statements if _not_as_such(f, everything))
    if held:
        yield Heading(sentence("section", "described"))
        told = (
            statement(sheet, f, "brief") if isinstance(f.about, Combined) else line(sheet, f) for f in held
        )
        yield from _some_of(tuple(dict.fromkeys(told)), everything)


def _not_as_such(finding: Finding, everything: bool) -> bool:
    """Is it a relation to the description, and with `everything` any, else other than stated as such?"""
    own = finding.about
    return isinstance(own, Held | Combined) and (everything or not own.as_such)


def _hangs_on_one(finding: Finding, planned: Plan) -> bool:
    """Does one line alone keep the case out, and does no item tell so with what lets the case by?"""
    told = {(f.case, f.label) for f in planned.order if f.stakes <= 4 and ways_out_of(f)}
    return bool(lines_of(finding)) and (finding.case, finding.label) not in told


def _valueless(sheet: Sheet, findings: Sequence[Finding]) -> str:
    """The lines that have no value for something, by what is 0 there."""
    by_cause: dict[str, list[str]] = {}
    for f in findings:
        label = sentence("valueless", "reread", label=f.label) if departures(f) else f.label
        by_cause.setdefault(cause_of_no_value(sheet, f), []).append(label)
    told = [
        sentence("valueless", "where" if cause else "bare", labels=listed(labels), cause=cause)
        for cause, labels in by_cause.items()
    ]
    return sentence("valueless", "lines", lines="; ".join(told))


def _mostly_there(sheet: Sheet, finding: Finding) -> bool:
    """Does nothing that a document states keep it out, and does it settle all but few of the lines?"""
    kept = finding.about
    if finding.question != "kept out" or not isinstance(kept, KeptOut) or kept.sets or kept.line:
        return False
    asked = {x.label for n in lineage(sheet, finding.claim) for x in sheet.claim(n).limitations}
    return len(kept.silent) <= min(max(MOST_SILENT, len(asked) // 3), len(asked) - 1)


def _statement_lines(sheet: Sheet, findings: Sequence[Finding], close: Set[tuple[str, int]]) -> Iterator[str]:
    """One line each; how a document's range lies against several claims on one line.

    Of what is told as `close` to a claim in an item, the widths and the nearest values alone.
    """
    ranges: dict[tuple[str, str], list[Finding]] = {}
    alone = [f for f in findings if f.question == "kept out" and lines_of(f) and not silent_lines(f)]
    kept = {id(f): text for f, text in lines_that_keep_out(sheet, alone)}
    for finding in findings:
        if finding.question == "document range" and not departures(finding):
            ranges.setdefault((finding.case, how_read(sheet, finding)), []).append(finding)
    for finding in findings:
        presumed = finding.question == "document range" and not departures(finding)
        own = ranges[finding.case, how_read(sheet, finding)] if presumed else []
        if any(finding is f for f in alone):
            if id(finding) in kept:
                yield kept[id(finding)]
                yield from as_impurities(sheet, finding)
        elif not own:
            yield _statement_line(sheet, finding)
        elif finding is own[0]:
            if told := [f for f in own if (f.case, f.claim) not in close]:
                rest = [relation_text(sheet, f) for f in told[1:]]
                yield "; ".join([statement(sheet, told[0]).rstrip("."), *rest]) + "."
            yield from (text for f in own for text in nearness_lines(sheet, f))


def _statement_line(sheet: Sheet, finding: Finding) -> str:
    if finding.question == "undefined":
        return line(sheet, finding)
    text = statement(sheet, finding)
    if not departures(finding):
        return text
    return f"{text.rstrip('.')}: {'; '.join(readings_told(sheet, finding))}"


def _beside(sheet: Sheet, planned: Plan, everything: bool) -> Beside:
    """For the foot: the claims that no item and no undecided question concerns, and what is only counted."""
    concerned = _concerned(sheet, planned)
    untouched = {}
    quiet = {x for c in planned.quiet for f in c.findings for x in quiet_labels(sheet, f)}
    for claim in sheet.claims:
        if claim.number not in concerned:
            own = {x.label for x in claim.limitations}
            untouched[claim.number] = len(quiet & own)
    undecided = frozenset(n for f in planned.undecided for n in _undecided_claims(sheet, f))
    if everything:
        return Beside(untouched, undecided)
    empty = {f.claim for f in planned.order if f.question in EMPTY_CLAIM and f.quantifier != "some"}
    narrows = (f.claim for f in planned.statements if f.question == "narrows")
    narrowed = tuple(number for number in narrows if number not in empty)
    idle = [f for f in planned.order if f.question == "adds nothing" and not is_open(f)]
    by_way = frozenset(f.claim for f in idle if f.ways)
    partly = frozenset(f.claim for f in idle) - by_way
    harmless = {departures(f) for f in planned.statements if f.question == "harmless"}
    return Beside(untouched, undecided, narrowed, partly, by_way, len(harmless))


def _concerned(sheet: Sheet, planned: Plan) -> set[int]:
    """The claims of which something is told in an item, as a consequence, or as undecided."""
    found: set[int] = set()
    for finding in (f for c in (*planned.items, *planned.strained) for f in (*c.findings, *c.absorbed)):
        found |= {finding.claim, *also_claims_of(finding), *(n for n, _ in also_open_of(finding))}
        if is_empty_claim(finding):
            found |= emptied_by(sheet, finding.claim)
    return found.union(*(_undecided_claims(sheet, f) for f in planned.undecided))


def _undecided_claims(sheet: Sheet, finding: Finding) -> set[int]:
    """The claim an undecided question is about; of a case those it names, else the independent ones."""
    case = case_named(sheet, finding.label)
    if finding.claim or case is None:
        return {finding.claim}
    if not case.targets:
        return {c.number for c in sheet.claims if not c.parents}
    own = {t: x.claim for t in case.targets if (x := limitation_labelled(sheet, t))}
    return {own[t] if t in own else int(t) for t in case.targets}


def _held_indices(planned: Plan, blocks: Sequence[Block]) -> frozenset[int]:
    told = {id(f) for b in blocks if isinstance(b, Item) for f in (*b.findings, *b.consequences)}
    spoken = {id(f) for f in (*planned.statements, *planned.undecided)}
    return frozenset(i for i, f in enumerate(planned.order) if id(f) not in told | spoken)
