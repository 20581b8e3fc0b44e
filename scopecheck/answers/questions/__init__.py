"""The questions: each one short function from a prepared sheet to findings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from scopecheck.answers.definitions import resting
from scopecheck.answers.findings import Answers, Finding, Looked
from scopecheck.answers.questions.cases import Answer, class_status, reading_for_all
from scopecheck.answers.questions.claims import adds_nothing, ends_not_reached, nothing_meets, undefined
from scopecheck.answers.questions.inside import inside_lost
from scopecheck.answers.questions.measures import without_measure
from scopecheck.answers.questions.outside import outside_met
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.answers.questions.readings import contested, pairs, parts_meant
from scopecheck.core.model import Sheet
from scopecheck.foundations.spans import Span
from scopecheck.solving.solver import Budget, Session, Undecided

Progress = Callable[[str], None]


def prepare(
    sheet: Sheet, budget: Budget | None = None, strained: bool = False, details: bool = False
) -> Prepared:
    """The sheet ready to be asked.

    With `strained`, strained readings take part as well; with `details` each contested reading is shown by a
    thing, else only stated.
    """
    return Prepared(sheet, Session(sheet, budget, strained), details)


def ask_all(
    sheet: Sheet,
    budget: Budget | None = None,
    strained: bool = False,
    progress: Progress | None = None,
    details: bool = False,
) -> Answers:
    """Everything the sheet can be asked, in the order of stakes and then of the sheet."""
    return ask_prepared(prepare(sheet, budget, strained, details), progress)


def ask_prepared(prepared: Prepared, progress: Progress | None = None) -> Answers:
    """As `ask_all`, of a sheet that was made ready (and looked over for contradictions) before."""
    sheet = prepared.sheet
    findings: list[Finding] = []
    looked: list[Looked] = []
    for doing, question, claim, label, span, answers in _asked(prepared):
        if progress is not None:
            progress(doing)
        try:
            for answer in answers:
                if isinstance(answer, Looked):
                    looked.append(answer)
                else:
                    findings.append(answer)
        except Undecided as reason:
            findings.append(
                Finding(question, 6, claim, label, "", span, "undecided", "none", reason=str(reason))
            )
    findings = [f for f in _each_once(findings) if not _told_by_a_graver_one(f, findings)]
    findings = resting(prepared, findings)
    findings.sort(key=lambda f: f.stakes)
    return Answers(tuple(findings), tuple(looked), sheet.groups, sheet.policies)


Asked = tuple[str, str, int, str, Span, Iterable[Answer]]


def _asked(prepared: Prepared) -> Iterator[Asked]:
    sheet = prepared.sheet
    for case in sheet.cases:
        doing = f"case {case.name}"
        match case.role:
            case "outside" | "document":
                yield doing, f"{case.role} met", 0, case.name, case.span, outside_met(prepared, case)
            case "inside":
                yield doing, "inside lost", 0, case.name, case.span, inside_lost(prepared, case)
            case "class":
                yield doing, "class", 0, case.name, case.span, class_status(prepared, case)
    if sheet.claims:
        first = sheet.claims[0]
        answers = reading_for_all(prepared)
        yield "all cases together", "no reading fits all cases", first.number, "", first.span, answers
    for instance in prepared.all_instances():
        claim = instance.claim
        label = f"claim {claim.number}"
        for question, ask in (
            ("nothing meets", nothing_meets),
            ("adds nothing", adds_nothing),
            ("end not reached", ends_not_reached),
            ("undefined", undefined),
            ("contested", contested),
        ):
            yield label, question, claim.number, label, claim.span, ask(prepared, instance)
    for claim in sheet.claims:
        for x in claim.limitations:
            yield x.label, "unmeant met", claim.number, x.label, x.span, parts_meant(prepared, x)
            yield x.label, "without measure", claim.number, x.label, x.span, without_measure(prepared, x)
            yield x.label, "pair", claim.number, x.label, x.span, pairs(prepared, x)


def _each_once(findings: list[Finding]) -> list[Finding]:
    """Drops what was found again, by way of another parent or from the other phrase of a pair.

    A reading that changes something by way of one parent is not harmless by way of another.
    """
    kept: dict[object, Finding] = {}
    for f in findings:
        steps = frozenset((r.group, r.reading) for r in f.rereads + f.read_as)
        label = f"claim {f.claim}" if f.question == "pair" else f.label
        key = (f.question, label, f.case, f.detail, f.others, steps, f.outcome, f.conflict)
        kept.setdefault(key, f)
    moving = {(f.label, f.others) for f in findings if f.question == "contested"}
    return [f for f in kept.values() if f.question != "harmless" or (f.label, f.others) not in moving]


def _told_by_a_graver_one(finding: Finding, findings: list[Finding]) -> bool:
    """Is the finding only a consequence of another one at the same claim?"""
    if finding.question == "end not reached":
        graver = [f for f in findings if f.question == "adds nothing" and f.claim == finding.claim]
        return any(f.quantifier != "some" for f in graver)
    if finding.question == "no reading fits all cases":
        return any(f.stakes == 1 and f.question in ("outside met", "inside lost") for f in findings)
    return False
