"""What was looked for and not found, claim by claim."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from scopecheck.answers.findings import EMPTY_CLAIM, QUESTIONS, Answers, Looked
from scopecheck.core.construction import names_in
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.stated import names_only, says_nothing
from scopecheck.foundations.record import record
from scopecheck.report.describe import case_text, lineage
from scopecheck.report.wording import claims_text, counted, flat, listed, sentence, upper_first


@record
class Beside:
    """What the foot tells of the findings: the claims that none concerns, with their contested places.

    `undecided` are the claims of which something was not decided; `narrowed` those shown to narrow what they
    depend on, `narrowed_partly` those of them that add nothing on other readings, `narrowed_by_way` those
    that add nothing by way of some parents. `harmless` counts the readings that change nothing.
    """

    untouched: Mapping[int, int]
    undecided: frozenset[int] = frozenset()
    narrowed: tuple[int, ...] = ()
    narrowed_partly: frozenset[int] = frozenset()
    narrowed_by_way: frozenset[int] = frozenset()
    harmless: int = 0


TOLD_TOGETHER = ("idle",)
"""Questions told on one line for all claims."""
ENDS = ("idle end", "end not reached", "member not reached", "condition not met", "alternative not met")
"""Questions of an end or a member that, where one is found, asks for nothing by itself."""


def wholly_looked(sheet: Sheet, answers: Answers) -> tuple[Looked, ...]:
    """What was looked for and not found, without what was decided in part only: that stands as undecided."""
    left = {(f.question, f.claim, f.label) for f in answers.findings if f.outcome == "undecided"}
    found = [f for f in answers.findings if f.question in EMPTY_CLAIM]
    empty = {f.claim for f in found if f.ways}
    above = {f.claim for f in found if not f.ways}
    empty |= {c.number for c in sheet.claims if above & set(lineage(sheet, c.number)) - {c.number}}
    short = {f.claim for f in answers.findings if f.question in ENDS}
    kept = (e for e in answers.looked if (e.question, e.claim, e.label) not in left)
    kept = (e for e in kept if e.question not in EMPTY_CLAIM or e.claim not in empty)
    kept = (e for e in kept if e.question not in TOLD_TOGETHER or e.claim not in short)
    return tuple(e for e in kept if not _lost_above(sheet, answers, e))


def _lost_above(sheet: Sheet, answers: Answers, entry: Looked) -> bool:
    """Was an inside case looked for at a claim, and lost already at one that this one takes over?"""
    if entry.question != "inside lost":
        return False
    lost = {f.claim for f in answers.findings if f.question == "inside lost" and f.case == entry.case}
    return not lost.isdisjoint(lineage(sheet, entry.claim))


def looked_lines(sheet: Sheet, looked: Iterable[Looked], beside: Beside) -> Iterator[str]:
    """One line a claim, claims alike together: what was looked for there and not found."""
    every = tuple(looked)
    by_claim: dict[int, list[Looked]] = {c.number: [] for c in sheet.claims}
    for entry in (e for e in every if e.question not in TOLD_TOGETHER):
        by_claim.setdefault(entry.claim, []).append(entry)
    alike: dict[tuple[str, str], list[int]] = {}
    for number, entries in by_claim.items():
        own, each = (_claim_line(sheet, number, entries, beside, whose) for whose in ("of_one", "of_each"))
        if own:
            alike.setdefault((own, each), []).append(number)
    for (own, each), numbers in alike.items():
        yield f"{upper_first(claims_text(numbers))}: {own if len(numbers) == 1 else each}"
    if beside.narrowed:
        yield sentence("claim", "narrowing", claims=_narrowed(beside))
    for question in TOLD_TOGETHER:
        numbers = [e.claim for e in every if e.question == question]
        if numbers:
            yield sentence("claim", question, claims=claims_text(numbers), apart=_apart(sheet, numbers))


def _apart(sheet: Sheet, numbers: Iterable[int]) -> str:
    """The labels of the lines of these claims that only name steps, of which it is not asked; '' if none."""
    each = dict.fromkeys(numbers)
    naming = [x for n in each for x in sheet.claim(n).limitations if _names_steps(sheet, x)]
    if not naming:
        return ""
    key = "idle_apart" if len(naming) == 1 else "idle_apart_many"
    always = any(says_nothing(x.formula, sheet) for x in naming)
    labels = listed(x.label for x in naming)
    return sentence("claim", key, labels=labels, declared=sentence("claim", "always") if always else "")


def _names_steps(sheet: Sheet, limitation: Limitation) -> bool:
    """Do the words, as usually read, say no more than that steps are done?

    Only of steps that always are, or of which another line of the claim asks something.
    """
    done = {step.done for step in sheet.steps if step.done}
    numbers = {n for step in sheet.steps for n in step.numbers}
    names = names_in(limitation.formula)
    if not names or not names <= numbers | done or not names_only(sheet, limitation):
        return False
    others = [x for n in lineage(sheet, limitation.claim) for x in sheet.claim(n).limitations]
    asked = frozenset().union(*(names_in(x.formula) for x in others if x is not limitation))
    steps = (step for step in sheet.steps if step.done in names)
    return all(asked & {step.done, *step.numbers} for step in steps)


def _claim_line(sheet: Sheet, number: int, entries: Sequence[Looked], beside: Beside, whose: str) -> str:
    """What was looked for at a claim, told of it alone (`of_one`) or as of each of several (`of_each`)."""
    claim = next((c for c in sheet.claims if c.number == number), None)
    line = _looked_at(sheet, entries, beside.untouched.get(number), whose)
    if claim is not None and not claim.limitations and not any(e.case for e in entries):
        line = sentence("claim", "bare_dependent" if claim.parents else "bare")
    if line and number in beside.undecided:
        section = sentence("section", "undecided")
        line = sentence("claim", "undecided", told=line.rstrip("."), section=section)
    return line


def _narrowed(beside: Beside) -> str:
    """`claims 2 and 3; claim 5 on some readings only`."""
    not_always = beside.narrowed_partly | beside.narrowed_by_way
    wholly = [n for n in beside.narrowed if n not in not_always]
    told = [claims_text(wholly)] if wholly else []
    for key, those in (
        ("narrowing_partly", beside.narrowed_partly), ("narrowing_by_way", beside.narrowed_by_way)
    ):  # fmt: skip
        if partly := [n for n in beside.narrowed if n in those]:
            told.append(sentence("claim", key, claims=claims_text(partly)))
    return "; ".join(told)


def _looked_at(sheet: Sheet, entries: Iterable[Looked], contested: int | None, whose: str) -> str:
    """What was looked for at one claim; `contested` is given where nothing else was found there."""
    told = "; ".join(_looked_parts(sheet, entries))
    if contested is None:
        return f"{told}." if told else ""
    whose = sentence("claim", whose)
    places = counted(contested, "place") if contested else ""
    places = sentence("claim", "contested", places=places, whose=whose) if places else ""
    if not told and places:
        return f"{places.removeprefix('; ')}."
    among = sentence("claim", "among", looked=told) if told else ""
    return sentence("claim", "nothing_found", among=among, contested=places)


def _looked_parts(sheet: Sheet, entries: Iterable[Looked]) -> Iterator[str]:
    by_question: dict[str, list[Looked]] = {}
    for entry in entries:
        key = "nothing meets" if entry.question == "dependent cannot be met" else entry.question
        by_question.setdefault(key, []).append(entry)
    for question in sorted(by_question, key=QUESTIONS.index):
        own = by_question[question]
        cases = dict.fromkeys(case_text(sheet, e.case) for e in own if e.case)
        labels = dict.fromkeys(flat(e.label) for e in own)
        yield sentence("looked", question, cases=listed(cases, "or"), labels=listed(labels, "or"))
