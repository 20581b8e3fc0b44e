"""Two sheets of one claim set, before and after an amendment, brought to one vocabulary and one reading.

What is declared in both must be one thing, what always holds holds in both, and a phrase that stands in both
is read alike. Labels of limitations of the sheet before get a mark, so that a place is named by its label.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scopecheck.core.declared import Assembly, Composition, Declaration, Part, Step
from scopecheck.core.model import Case, Given, Limitation, Sheet
from scopecheck.core.regroup import by_groups
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.spans import Span
from scopecheck.resolve.agreement import disagreements, restated_once
from scopecheck.resolve.common_groups import CommonGroups, marked
from scopecheck.resolve.successors import Successors, successors

Named = Declaration | Part | Step | Composition | Assembly


@record
class Joined:
    """Both sheets with the same declarations, given facts, groups, parameters and cases, and own claims."""

    before: Sheet
    after: Sheet
    successors: Successors
    rows_before: tuple[Span, ...] = ()
    """The rows of the cases in the text before: the joined cases are told as the text after has them."""


def joined(before: Sheet, after: Sheet) -> tuple[Joined | None, tuple[Diagnostic, ...]]:
    """The two sheets side by side, or None where they do not speak of the same things; what is wrong."""
    wrong = [*disagreements(before, after)]
    merged = CommonGroups(before, after)
    wrong += merged.wrong
    if any(d.severity == "error" for d in wrong):
        return None, tuple(wrong)
    found = successors(before.claims, after.claims)
    wrong += restated_once(before, after, found)
    new = by_groups(after, merged.new, merged.new_keys)
    old = by_groups(_labelled_before(before), merged.old, merged.old_keys)
    shared = {
        "declarations": _union(after.declarations, before.declarations),
        "parts": _union(after.parts, before.parts),
        "steps": _union(after.steps, before.steps),
        "compositions": _union(after.compositions, before.compositions),
        "assemblies": _union(after.assemblies, before.assemblies),
        "phrase_files": tuple(dict.fromkeys((*after.phrase_files, *before.phrase_files))),
        "givens": _all_givens(before, after),
        "groups": tuple(merged.groups),
        "parameters": tuple(merged.parameters),
    }
    rows = tuple(c.span for c in before.cases)
    old = replace(old, **shared, cases=_listed(old, new, found.before))
    new = replace(new, **shared, cases=_listed(new, old, found.after))
    old = replace(old, cases=tuple(_as_in(case, new.cases) for case in old.cases))
    return Joined(old, new, found, rows), tuple(wrong)


def _union(first: Sequence[Named], second: Sequence[Named]) -> tuple[object, ...]:
    names = {d.name for d in first}
    return (*first, *(d for d in second if d.name not in names))


def _all_givens(before: Sheet, after: Sheet) -> tuple[Given, ...]:
    stated = {g.formula for g in after.givens}
    return (*after.givens, *(g for g in before.givens if g.formula not in stated))


# ---- claims and cases of one sheet


def _labelled_before(sheet: Sheet) -> Sheet:
    def limitation(x: Limitation) -> Limitation:
        return replace(x, label=marked(x.label))

    claims = (replace(c, limitations=tuple(map(limitation, c.limitations))) for c in sheet.claims)
    cases = (replace(c, targets=tuple(map(marked, c.targets))) for c in sheet.cases)
    return replace(sheet, claims=tuple(claims), cases=tuple(cases))


def _listed(own: Sheet, other: Sheet, numbers: Mapping[int, int]) -> tuple[Case, ...]:
    """The cases of a sheet, and those of the other, for the claims that go on from theirs.

    `numbers` gives for a claim of the other sheet that of this one. A case for claims or limitations that
    this sheet does not have is left out.
    """
    known = {(c.role, c.name) for c in own.cases}
    found = list(own.cases)
    for case in other.cases:
        if (case.role, case.name) in known:
            continue
        targets = tuple(str(numbers[int(t)]) for t in case.targets if t.isdigit() and int(t) in numbers)
        if targets or not case.targets:
            found.append(replace(case, targets=targets))
    return tuple(found)


def _as_in(case: Case, cases: Sequence[Case]) -> Case:
    """The case with what another list says of it, for its own claims."""
    other = next((c for c in cases if (c.role, c.name) == (case.role, case.name)), None)
    return case if other is None else replace(other, targets=case.targets)
