"""Lines that a thing meets because their condition does not come about, in words."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.conditions import CONDITION_WORDS
from scopecheck.core.construction import Construction, base_construction, conjuncts_at, names_in
from scopecheck.core.formula import Article, Implies, Truth
from scopecheck.core.model import Limitation, Sheet
from scopecheck.report.describe import case_named, labelled, settings_text
from scopecheck.report.things import in_question
from scopecheck.report.wording import sentence
from scopecheck.solving.evaluate import evaluate

MET = ("outside met", "document met", "unmeant met")
"""Questions whose thing meets all the lines it is told of."""


def conditions_not_met(sheet: Sheet, finding: Finding) -> tuple[tuple[Limitation, frozenset[str]], ...]:
    """The lines whose condition does not hold of the thing found, with the names that it speaks of.

    A line of which another part asks for something is left out.
    """
    if finding.question not in MET or finding.witness is None:
        return ()
    k = finding.construction or base_construction(sheet)
    article = finding.witness.article
    found = ((x, _not_asked(sheet, x, article, k)) for x in in_question(sheet, finding))
    varying = _on_a_condition(sheet, finding)
    return tuple((x, names) for x, names in found if names and names.isdisjoint(varying))


def _on_a_condition(sheet: Sheet, finding: Finding) -> frozenset[str]:
    """The names of which a listed case says something on a condition of its own alone.

    It speaks of more than one value then, and the thing found is only one of them.
    """
    case = case_named(sheet, finding.case)
    parts = list(conjuncts_at(case.facts, base_construction(sheet))) if case else []
    outright = {name for part in parts if not isinstance(part, Implies) for name in names_in(part)}
    return frozenset(name for part in parts for name in names_in(part)) - outright


def condition_texts(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """`7c "if ... more than 3 g/L" asks for nothing here: its condition does not come about (salt 2 g/L)`."""
    for limitation, names in conditions_not_met(sheet, finding):
        assert finding.witness is not None
        values = settings_text(sheet, finding.witness.article, names)
        yield sentence("note", "condition", line=labelled(sheet, limitation.label), values=values)


def _not_asked(sheet: Sheet, limitation: Limitation, article: Article, k: Construction) -> frozenset[str]:
    """What the conditions speak of that keep the whole line from asking for anything; nothing if it asks."""
    spoken: set[str] = set()
    for item in conjuncts_at(limitation.formula, k):
        if isinstance(item, Truth) and item.value:
            continue
        if not isinstance(item, Implies) or evaluate(item.left, article, k) is not False:
            return frozenset()
        if evaluate(item.right, article, k) is True:
            return frozenset()
        spoken |= names_in(item.left)
    written = CONDITION_WORDS & set((limitation.words or limitation.text).lower().split())
    return frozenset(spoken) if written or not spoken <= _presence(sheet) else frozenset()


def _presence(sheet: Sheet) -> set[str]:
    """What says that a part is there or a step was done: a condition that nobody wrote."""
    return {part.count for part in sheet.parts} | {step.done for step in sheet.steps}
