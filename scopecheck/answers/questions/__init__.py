"""The questions: each one short function from a prepared sheet to findings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from fractions import Fraction
from functools import partial, reduce
from typing import assert_never

from scopecheck.answers.about import (
    AddsNothing,
    Alike,
    Amended,
    Because,
    ByLines,
    Cases,
    Choices,
    CloseBy,
    Empty,
    EndNotReached,
    ForAllClaims,
    Freed,
    Idle,
    IdleEnd,
    KeptOut,
    LeftOpen,
    Lost,
    Met,
    Moves,
    Narrows,
    Needed,
    NotThere,
    NoValue,
    OneReading,
    OneValue,
    Otherwise,
    Plain,
    RangeLies,
    Unmeant,
    Unmeasured,
)
from scopecheck.answers.definitions import resting
from scopecheck.answers.findings import (
    EMPTY_CLAIM,
    Answers,
    Finding,
    Looked,
    because,
    cases_of,
    lines_of,
    partly_of,
    step_of,
)
from scopecheck.answers.held import Combined, Held
from scopecheck.answers.questions.alternatives import alternatives_not_met
from scopecheck.answers.questions.cases import Answer, class_status, reading_for_all
from scopecheck.answers.questions.charted import charted
from scopecheck.answers.questions.choices import choices
from scopecheck.answers.questions.claims import adds_nothing, ends_not_reached, nothing_meets
from scopecheck.answers.questions.combined import together_beside_description
from scopecheck.answers.questions.conditions import conditions_not_met
from scopecheck.answers.questions.described import beside_description, numbers_not_described
from scopecheck.answers.questions.freed import members_freed
from scopecheck.answers.questions.halves import (
    CASE,
    CLAIM,
    LINES,
    Answered,
    SecondHalf,
    Task,
    answered,
    in_turn,
    known,
    second_half,
    undecided,
)
from scopecheck.answers.questions.idle import idle
from scopecheck.answers.questions.inside import inside_lost, no_case_inside
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.kept_out import kept_out
from scopecheck.answers.questions.measures import without_measure
from scopecheck.answers.questions.members import members_not_reached
from scopecheck.answers.questions.one_value import one_value_left
from scopecheck.answers.questions.outside import outside_met
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.questions.readings import contested, pairs, parts_meant
from scopecheck.answers.questions.same_scope import no_reading_for_all_claims, same_scope
from scopecheck.answers.questions.undefined import undefined
from scopecheck.answers.questions.unnamed import unnamed_needed
from scopecheck.answers.questions.varying import moves_with_something_else
from scopecheck.core.chains import Chain
from scopecheck.core.model import Case, Sheet
from scopecheck.foundations.meanwhile import meanwhile
from scopecheck.foundations.record import replace
from scopecheck.solving.clock import Clock
from scopecheck.solving.constraints import Budget, Undecided
from scopecheck.solving.solver import Session

Progress = Callable[[str], None]
CHART = Fraction(1, 4)
"""So much of the limit a chart has at least."""


def prepare(
    sheet: Sheet,
    budget: Budget | None = None,
    strained: bool = False,
    details: bool = False,
    chart: bool = False,
) -> Prepared:
    """The sheet ready to be asked.

    With `strained`, strained readings take part as well; with `details` each contested reading is shown by a
    thing, else only stated; with `chart` every limitation is held against every document.
    """
    return Prepared(sheet, Session(sheet, budget, strained), details, chart)


def ask_all(
    sheet: Sheet,
    budget: Budget | None = None,
    strained: bool = False,
    progress: Progress | None = None,
    details: bool = False,
) -> Answers:
    """Everything the sheet can be asked, in the order of stakes and then of the sheet."""
    return ask_prepared(prepare(sheet, budget, strained, details), progress)


def ask_prepared(
    prepared: Prepared, progress: Progress | None = None, second: SecondHalf | None = None
) -> Answers:
    """As `ask_all`, of a sheet that was made ready (and looked over for contradictions) before.

    With a `second` half, its questions are asked there.
    """
    sheet = prepared.sheet
    tasks = list(_tasks(prepared))

    def tell(task: Task) -> None:
        if progress is not None:
            progress(task.doing)

    apart = second.places if second is not None else ()
    found = answered(tasks, set(range(len(tasks))).difference(apart), tell, prepared.session.clock)
    if second is not None:
        begun_there = in_turn(tasks, apart)
        found |= second.asked.answer(lambda begun: tell(tasks[begun_there[begun - 1]]))
    every = [answer for place in sorted(found) for answer in found[place]]
    findings = [answer for answer in every if isinstance(answer, Finding)]
    looked = [answer for answer in every if isinstance(answer, Looked)]
    try:
        findings += no_reading_for_all_claims(prepared, findings)
    except Undecided as reason:
        last = sheet.claims[-1]
        findings.append(undecided("no reading suits all claims", last.number, "", last.span, reason))
    findings = _each_once(prepared, findings)
    findings = [f for f in findings if not _told_by_a_graver_one(f, findings)]
    findings = [f for f in findings if not _is_lost_above(prepared, f, findings)]
    findings = resting(prepared, findings)
    findings.sort(key=lambda f: f.stakes)
    chart = tuple(charted(_with_time_left(prepared))) if prepared.chart else ()
    return Answers(tuple(findings), tuple(looked), sheet.groups, sheet.policies, chart)


def _with_time_left(prepared: Prepared) -> Prepared:
    """The sheet with a share of the limit for the chart, beyond its end where the questions left less.

    A chart is made only where it was asked for, and its cells are easy beside the questions.
    """
    session = prepared.session
    share = session.clock.share(CHART)
    if session.clock.left > share:
        return prepared
    return prepare(prepared.sheet, replace(session.budget, clock=Clock(share)), session.strained)


BY_WAY = (
    "nothing meets",
    "dependent cannot be met",
    "adds nothing",
    "idle",
    "idle end",
    "corner not reached",
    "end repeated",
    "end not reached",
    "one value left",
    "member not reached",
    "member needed",
    "condition not met",
    "alternative not met",
    "kept out",
    "silence alone keeps out",
)
"""Questions whose answer may hold by way of one parent of a claim and not by way of another."""
TOLD_BESIDE = (
    "end not reached",
    "member not reached",
    "condition not met",
    "alternative not met",
    "idle",
    "idle end",
    "end repeated",
    "corner not reached",
)
"""Questions whose answer says nothing more of a claim that adds nothing to its parent."""


TELLS_OF_DOCUMENT = ("document met", "silence alone keeps out", "document range")
"""Questions whose answer, if it is an item, says more of a document than that its range is close by."""


def _tasks(prepared: Prepared) -> Iterator[Task]:
    """Every question, in the order in which they are told; nothing is asked yet."""
    sheet = prepared.sheet
    for case in sheet.cases:
        yield from _of_case(prepared, case)
    if sheet.claims:
        yield _of_all(prepared, "all cases together", "no reading fits all cases", reading_for_all)
    for instance in prepared.all_instances():
        claim = instance.claim
        label = f"claim {claim.number}"
        for question, ask in (
            ("nothing meets", nothing_meets),
            ("adds nothing", adds_nothing),
            ("end not reached", ends_not_reached),
            ("one value left", one_value_left),
            ("member not reached", members_not_reached),
            ("condition not met", conditions_not_met),
            ("alternative not met", alternatives_not_met),
            ("member freed", members_freed),
            ("member needed", unnamed_needed),
            ("moves with something else", moves_with_something_else),
            ("idle", idle),
            ("undefined", undefined),
            ("contested", contested),
            ("beside the description", beside_description),
            ("number not described", numbers_not_described),
            ("beside the description", together_beside_description),
            ("choices left", choices),
        ):
            told = partial(_by_way_of, prepared, instance, ask)
            yield Task(label, question, claim.number, label, claim.span, (CLAIM, label), told)
    if sheet.claims:
        yield _of_all(prepared, "claims alike", "same scope", same_scope)
    for claim in sheet.claims:
        label = f"claim {claim.number}"
        part = (LINES, label)
        inside = partial(no_case_inside, prepared, claim)
        yield Task(label, "no case inside", claim.number, label, claim.span, part, inside)
        for x in claim.limitations:
            for question, of_line in (
                ("unmeant met", parts_meant),
                ("without measure", without_measure),
                ("pair", pairs),
            ):
                told = partial(of_line, prepared, x)
                yield Task(x.label, question, claim.number, x.label, x.span, part, told)


def _of_case(prepared: Prepared, case: Case) -> Iterator[Task]:
    asked: dict[str, Callable[[Prepared, Case], Iterable[Answer]]] = {}
    match case.role:
        case "outside" | "document":
            asked[f"{case.role} met"] = outside_met
            asked["kept out"] = kept_out
        case "inside":
            asked["inside lost"] = inside_lost
        case "class":
            asked["class"] = class_status
    for question, ask in asked.items():
        told = partial(ask, prepared, case)
        yield Task(f"case {case.name}", question, 0, case.name, case.span, (CASE, case.name), told)


def _of_all(
    prepared: Prepared, doing: str, question: str, ask: Callable[[Prepared], Iterable[Answer]]
) -> Task:
    first = prepared.sheet.claims[0]
    return Task(doing, question, first.number, "", first.span, (CASE, question), partial(ask, prepared))


@contextmanager
def second_asked(prepared: Prepared) -> Iterator[SecondHalf | None]:
    """The second half of the questions, being asked meanwhile, of a sheet of which nothing was asked yet.

    None where there is too little to ask.
    """
    apart = second_half(list(_tasks(prepared)))

    def asked(step: Callable[[], None]) -> Answered:
        own = prepared.anew()
        return answered(list(_tasks(own)), apart, lambda _: step(), own.session.clock)

    if not apart:
        yield None
        return
    with meanwhile(asked, known(prepared.sheet)) as begun:
        yield SecondHalf(apart, begun)


def _by_way_of(
    prepared: Prepared, instance: Instance, ask: Callable[[Prepared, Instance], Iterable[Answer]]
) -> Iterator[Answer]:
    """The answers about a claim, those that may differ with the parent with the chain they are found by."""
    for answer in ask(prepared, instance):
        if isinstance(answer, Finding) and answer.question in BY_WAY:
            answer = replace(answer, ways=(instance.chain,))
        yield answer


def _each_once(prepared: Prepared, findings: list[Finding]) -> list[Finding]:
    """Drops what was found again, by way of another parent or from the other phrase of a pair.

    A reading that changes something by way of one parent is not harmless by way of another. What holds by way
    of every parent is told of the claim as such.
    """
    kept: dict[object, Finding] = {}
    for f in findings:
        steps = frozenset((r.group, r.reading) for r in f.rereads + f.read_as)
        label = f"claim {f.claim}" if f.question == "pair" else f.label
        if f.question == "condition not met":
            label = f"{label} in claim {f.claim}"  # of a line taken over, each claim may bring it about
        conflict = () if f.ways and not f.case else lines_of(f)
        key = (f.question, label, f.case, f.others, steps, f.outcome, f.quantifier, conflict, _told_apart(f))
        kept[key] = _both_ways(kept[key], f) if key in kept else f
    moving = {(f.label, step_of(f)) for f in findings if f.question == "contested"}
    found = [f for f in kept.values() if f.question != "harmless" or (f.label, step_of(f)) not in moving]
    chains = {n: {i.chain for i in own} for n, own in prepared.instances.items()}
    found = [replace(f, ways=()) if set(f.ways) == chains.get(f.claim) else f for f in found]
    return list(_where_it_can_be_met(_empty_by_every_way(found, chains), chains))


def _told_apart(finding: Finding) -> object:
    """What tells two findings of one question apart, beside the place and the readings."""
    match finding.about:
        case OneReading() | NoValue() | Alike() | Choices() | Held() | Narrows() | Amended():
            return finding.about
        case Empty(_, further):
            return further
        case AddsNothing():
            return finding.about.never_both
        case IdleEnd(_, side, written):
            return side, written
        case EndNotReached(_, stated, unit, upper, far, usual):
            return stated, unit, upper, far, usual
        case NotThere(_, names):
            return names
        case Needed(_, member):
            return member
        case RangeLies(relation):
            return relation
        case CloseBy(how, _, silent):
            return how, silent
        case KeptOut():
            return finding.about.sets, finding.about.silent, finding.about.at_end
        case Met(at_end):
            return at_end
        case Lost():
            return finding.about.line_alone
        case Unmeasured(_, no_end):
            return no_end
        case Moves(of):
            return of
        case (
            Plain()
            | ForAllClaims()
            | Combined()
            | Cases()
            | LeftOpen()
            | Idle()
            | OneValue()
            | Freed()
            | Unmeant()
        ):
            return None
        case _:
            assert_never(finding.about)


def _empty_by_every_way(findings: list[Finding], chains: Mapping[int, set[Chain]]) -> list[Finding]:
    """Of a claim that nothing meets by any of its parents, on some by every reading, one finding for all."""
    for number, own in chains.items():
        empty = [f for f in findings if f.claim == number and f.question in EMPTY_CLAIM and f.ways]
        usual = [f for f in empty if f.quantifier == "base"]
        rest = [f for f in empty if f.quantifier == "every"]
        if not usual or len(usual) + len(rest) < 2 or {w for f in (*usual, *rest) for w in f.ways} != own:
            continue
        whole = replace(reduce(_both_ways, (*usual[1:], *rest), usual[0]), ways=())
        if len(usual) > 1:
            whole = replace(whole, otherwise=Otherwise())  # what helps by one parent may not by another
        first = next(f for f in findings if f in usual or f in rest)
        told = (whole if f is first else f for f in findings)
        findings = [f for f in told if f not in usual and f not in rest]
    return findings


def _where_it_can_be_met(findings: list[Finding], chains: Mapping[int, set[Chain]]) -> Iterator[Finding]:
    """What lines ask for is told by way of such parents by which something meets the claim as presumed.

    By way of others it is told only where it holds on every reading, and nothing else is told of that place.
    """
    empty = _empty_ways(findings, chains)
    asking = (*TOLD_BESIDE, "adds nothing", "one value left")
    met = {number: own - empty[number] for number, own in chains.items()}
    of_met = {
        (f.claim, f.label) for f in findings if f.question in asking and not set(f.ways) <= empty[f.claim]
    }
    for f in findings:
        some = met[f.claim] if f.ways and f.question in asking and empty[f.claim] else set()
        if not some:
            yield f
        elif some <= set(f.ways):
            yield replace(f, ways=tuple(w for w in f.ways if w in some), wherever_met=True)
        elif not (set(f.ways) <= empty[f.claim] and (f.quantifier == "some" or (f.claim, f.label) in of_met)):
            yield f


def _empty_ways(findings: list[Finding], chains: Mapping[int, set[Chain]]) -> dict[int, set[Chain]]:
    """For each claim the chains of parents by way of which nothing meets it, or one of them, as presumed."""
    by_itself: dict[int, set[Chain]] = {number: set() for number in chains}
    for f in findings:
        if _is_empty_as_presumed(f):
            by_itself[f.claim].update(f.ways or chains[f.claim])
    return {
        number: {
            chain
            for chain in own
            if chain in by_itself[number]
            or any(chain[:at] in by_itself.get(above, ()) for at, above in enumerate(chain))
        }
        for number, own in chains.items()
    }


def _both_ways(first: Finding, second: Finding) -> Finding:
    """The first of two findings alike, with what the second adds: its way, and its sets of limitations."""
    if not second.ways:
        return first
    if first.case:
        return replace(first, ways=(*first.ways, *second.ways))
    both = replace(
        first,
        ways=(*first.ways, *second.ways),
        rests_on=tuple(dict.fromkeys(first.rests_on + second.rests_on)),
    )
    if not isinstance(first.about, ByLines):
        return both
    return replace(both, about=replace(first.about, by=_by_both(because(first), because(second))))


def _by_both(first: Because, second: Because) -> Because:
    """The lines of the first, and all sets of both."""
    several = tuple(
        dict.fromkeys(s for b in (first, second) for s in b.sets or ((b.lines,) if b.lines else ()))
    )
    return Because(first.lines, several if len(several) > 1 else (), first.every and second.every)


def _told_by_a_graver_one(finding: Finding, findings: list[Finding]) -> bool:
    """Is the finding only a consequence of another one at the same claim?"""
    if finding.question == "no reading fits all cases":
        told = (f for f in findings if f.question in ("outside met", "inside lost"))
        return any(f.stakes == 1 or _is_never_whole(f, finding) for f in told)
    if finding.question in EMPTY_CLAIM and finding.quantifier == "some":
        # A hedge that is not stretched at all is hardly a reading of it.
        points = [point for r in finding.otherwise.least for point in r.breaks]
        return bool(points) and all(p.upward and not p.end.closed and p.end.value == 0 for p in points)
    if finding.question == "document close by":
        told = (f for f in findings if f.question in TELLS_OF_DOCUMENT and f.stakes < 5)
        return any((f.case, f.claim) == (finding.case, finding.claim) for f in told)
    if finding.question == "no case inside":
        return any(f.claim == finding.claim and not f.ways and _is_empty_as_presumed(f) for f in findings)
    if finding.question not in TOLD_BESIDE:
        return False
    same = [f for f in findings if f.claim == finding.claim and _in_every_way_of(f, finding)]
    if finding.question not in ("idle", "end not reached") and any(map(_is_empty_as_presumed, same)):
        return True
    if any(f.question == "adds nothing" and f.quantifier != "some" for f in same):
        return True
    if finding.question in ("member not reached", "alternative not met"):
        return False
    if finding.question == "condition not met":
        return any((f.question, f.label) == ("idle", finding.label) for f in same)
    if finding.question == "end not reached":
        return any(f.label == finding.label and _is_idle_as_presumed(f) for f in same)
    if _is_idle_as_presumed(finding):
        return False
    return any(_tells_its_end(f, finding) for f in same)


def _is_empty_as_presumed(finding: Finding) -> bool:
    """Does nothing meet the claim? What an end or a member of it asks for then says no more."""
    return finding.question in EMPTY_CLAIM and finding.quantifier in ("base", "every")


def _is_lost_above(prepared: Prepared, finding: Finding, findings: list[Finding]) -> bool:
    """Is a case left open by a claim's own lines alone, and lost by one that the claim depends on?"""
    if finding.question != "inside left open":
        return False
    of_case = (f for f in findings if (f.question, f.case) == ("inside lost", finding.case))
    lost = {f.claim for f in of_case if f.quantifier != "some"}
    return not lost.isdisjoint(set(prepared.lineage(finding.claim)) - {finding.claim})


def _is_never_whole(lost: Finding, finding: Finding) -> bool:
    """Is the one case that no reading fits lost in part on each, by what it leaves open itself?"""
    return cases_of(finding) == (lost.case,) and lost.quantifier == "every" and bool(partly_of(lost))


def _in_every_way_of(graver: Finding, finding: Finding) -> bool:
    return not graver.ways or (bool(finding.ways) and set(finding.ways) <= set(graver.ways))


def _is_idle_as_presumed(finding: Finding) -> bool:
    """Is a whole limitation idle as presumed? Beside what tells more than an end that is not reached."""
    return finding.question == "idle" and finding.quantifier != "some"


def _tells_its_end(graver: Finding, finding: Finding) -> bool:
    """Does the graver finding say of the same end, or of the idle line, what is not reached?"""
    if not isinstance(graver.about, EndNotReached) or graver.label != finding.label:
        return False
    idle_end = finding.about if isinstance(finding.about, IdleEnd) else None
    return finding.question == "idle" or (idle_end is not None and graver.about.stated == idle_end.written)
