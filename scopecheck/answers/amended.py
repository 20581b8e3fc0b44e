"""An amendment asked in whole: its claims, its idle dependents, its cases, its numbers and words."""

from __future__ import annotations

from collections.abc import Callable

from scopecheck.answers.amended_cases import CaseChange, case_changes
from scopecheck.answers.amendment import Amendment, Change, idle_after
from scopecheck.answers.findings import Finding
from scopecheck.foundations.record import record
from scopecheck.resolve.carried import Uncarried, uncarried
from scopecheck.resolve.joined import Joined
from scopecheck.solving.constraints import Budget, Undecided

Progress = Callable[[str], None]


@record
class Amended:
    """All that is told of an amendment. `idle` are the dependents that add nothing after it.

    `doubts` are the reasons for which it was not decided whether some dependent adds nothing.
    """

    joined: Joined
    changes: tuple[Change, ...]
    idle: tuple[Finding, ...]
    cases: tuple[CaseChange, ...]
    uncarried: tuple[Uncarried, ...]
    doubts: tuple[str, ...] = ()

    @property
    def found(self) -> bool:
        """Does any claim reach something else than before, or does a claim come or go?"""
        return any(c.relation != "unchanged" or c.otherwise for c in self.changes if not c.undecided)

    @property
    def undecided(self) -> bool:
        """Was anything left undecided?"""
        changes = any(c.undecided for c in self.changes)
        return changes or bool(self.doubts) or any(c.undecided for c in self.cases)


def ask_amendment(
    joined: Joined,
    budget: Budget | None = None,
    strained: bool = False,
    progress: Progress | None = None,
) -> Amended:
    """What changes from the sheet before to the sheet after."""
    amendment = Amendment(joined, budget, strained)
    # First the listed things, which are easy beside all that may be given up or gained.
    cases = tuple(case_changes(amendment))
    changes = []
    for change in amendment.changes():
        claim = change.after or change.before
        if progress is not None and claim is not None:
            progress(f"claim {claim.number}")
        changes.append(change)
    idle: tuple[Finding, ...] = ()
    doubts: tuple[str, ...] = ()
    try:
        idle = tuple(idle_after(amendment, changes))
    except Undecided as reason:
        doubts = (str(reason),)
    described = (c.span.text for c in joined.after.described)
    text = "\n".join([_own_text(joined), *described])
    told = tuple(uncarried(text, joined.before.claims, joined.after.claims))
    return Amended(joined, tuple(changes), idle, cases, told, doubts)


def _own_text(joined: Joined) -> str:
    """The text before without the rows of its cases: no part of the application, they are no basis."""
    text = joined.before.claims[0].span.source.text
    for span in sorted(joined.rows_before, key=lambda s: s.start, reverse=True):
        text = f"{text[: span.start]} {text[span.end :]}"
    return text
