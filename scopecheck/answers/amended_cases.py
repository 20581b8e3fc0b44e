"""Which listed things an amendment shuts out or still lets in, and which it loses or wins back."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.about import RangeLies
from scopecheck.answers.amendment import Amendment
from scopecheck.answers.findings import Finding, Quantifier
from scopecheck.answers.questions.inside import inside_lost
from scopecheck.answers.questions.outside import outside_met
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.model import Case
from scopecheck.foundations.record import record
from scopecheck.solving.constraints import Undecided


@record
class Standing:
    """How a case lies against one claim: on which constructions it is met (of an inside case: lost).

    `relation` is that of a document's range, '' for all else; `reason` tells why it was not decided.
    """

    claim: int
    how: Quantifier
    finding: Finding | None = None
    relation: str = ""
    reason: str = ""

    @property
    def told(self) -> tuple[str, str]:
        return (self.how, self.relation)


@record
class CaseChange:
    """A case beside one claim, before and after."""

    case: Case
    before: Standing
    after: Standing

    @property
    def changed(self) -> bool:
        return self.before.told != self.after.told

    @property
    def undecided(self) -> bool:
        return bool(self.before.reason or self.after.reason)


def case_changes(amendment: Amendment) -> Iterator[CaseChange]:
    """Each listed case beside each claim that it is for and that goes on with other limitations."""
    pairs = amendment.amended()
    olds = {(c.role, c.name): c for c in amendment.before.sheet.cases}
    for case in amendment.after.sheet.cases:
        if case.role == "class":
            continue
        old = olds.get((case.role, case.name))
        after = dict(_standings(amendment.after, case))
        before = dict(_standings(amendment.before, old)) if old is not None else {}
        for number, claim in pairs.items():
            if number in before and claim in after:
                yield CaseChange(case, before[number], after[claim])


def _standings(prepared: Prepared, case: Case) -> Iterator[tuple[int, Standing]]:
    """How the case lies against each claim that it is for; of several answers the gravest."""
    rank = ("every", "base", "some", "none")
    try:
        answers = list((inside_lost if case.role == "inside" else outside_met)(prepared, case))
    except Undecided as reason:
        numbers = prepared.instances if not case.targets else [int(t) for t in case.targets if t.isdigit()]
        yield from ((n, Standing(n, "none", reason=str(reason))) for n in numbers)
        return
    found: dict[int, Standing] = {}
    for answer in answers:
        if answer.label != f"claim {answer.claim}":
            continue
        if not isinstance(answer, Finding):
            found.setdefault(answer.claim, Standing(answer.claim, "none"))
        elif isinstance(answer.about, RangeLies):
            if answer.quantifier != "some":
                found[answer.claim] = Standing(answer.claim, "none", None, answer.about.relation)
        elif answer.question in ("outside met", "inside lost", "document met"):
            other = found.get(answer.claim)
            if other is None or rank.index(answer.quantifier) < rank.index(other.how):
                found[answer.claim] = Standing(answer.claim, answer.quantifier, answer)
    yield from found.items()
