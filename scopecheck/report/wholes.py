"""Cases whose stated parts do not make up the whole, and documents that state a class in full, in words."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopecheck.answers.findings import Finding, lines_of
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.declared import Composition
from scopecheck.core.model import Case, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.report.amounts import in_unit
from scopecheck.report.describe import case_named, case_text, labelled, limitation_labelled
from scopecheck.report.wording import flat, listed, sentence
from scopecheck.solving.evaluate import evaluate


def short_of_whole(sheet: Sheet, case: Case) -> Iterator[tuple[Composition, Fraction]]:
    """The compositions of which a case states every ingredient written in the sheet, and less than all of it.

    With what they add up to, as a share of the whole. A stated total of a class says more than that.
    """
    values = stated_values(sheet, case, exact=True)
    for made in sheet.compositions:
        unwritten = {made.others, made.impurities, *(f"other {name}" for name, _ in made.classes)}
        known = [v for m in made.members if isinstance(v := values.get(m), Fraction)]
        written = all(m in values for m in made.members if m not in unwritten)
        written &= all(name not in values or all(m in values for m in below) for name, below in made.classes)
        if written and len(known) < len(made.members):
            yield made, sum(known, Fraction(0))


def added_up(sheet: Sheet, case: Case) -> Iterator[str]:
    """Of each composition that a case states the greater part of, and not all: the sum, and what is left."""
    values = stated_values(sheet, case, exact=True)
    for made in sheet.compositions:
        named = {name for name, _ in made.classes} & values.keys()
        known = [v for m in made.members if isinstance(v := values.get(m), Fraction)]
        whole, total = made.unit.to_base(Fraction(100)), sum(known, Fraction(0))
        if not named and whole < 2 * total and total < whole:
            shown, left = (in_unit(made.unit.from_base(v), made.unit) for v in (total, whole - total))
            yield sentence("whole", "so_far", name=flat(made.name), total=shown, left=left)


def case_notes(sheet: Sheet, case: Case) -> Iterator[str]:
    """What an item says of its case: how much of a whole is stated, and what is taken as stated in full."""
    for made, total in short_of_whole(sheet, case):
        shown = in_unit(made.unit.from_base(total), made.unit)
        yield sentence("whole", "of_case", name=flat(made.name), total=shown)
    if case.in_full:
        yield sentence("whole", "in_full", names=_names(case), listed=_classes(case))


def as_impurities(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """Of a case that one line keeps out: the ingredient that would be let by as an ordinary impurity.

    Who restates a thing names what he found in it; what came along with something else is to be written so.
    """
    line = limitation_labelled(sheet, lines_of(finding)[0]) if lines_of(finding) else None
    case = case_named(sheet, finding.case)
    if finding.question != "kept out" or line is None or case is None:
        return
    base, stated = base_construction(sheet), stated_values(sheet, case, exact=True)
    own = {
        p.key: p for p in sheet.parameters if p.group in line.groups and base.readings[p.group] == p.reading
    }
    for made in sheet.compositions:
        needed = {*names_in(line.formula), *made.members}
        if not made.impurities or not needed <= stated.keys():
            continue
        for name in (m for m in made.members if m not in (made.others, made.impurities)):
            share, before = stated[name], stated[made.impurities]
            if not isinstance(share, Fraction) or not isinstance(before, Fraction) or share <= 0:
                continue
            moved = {**stated, name: Fraction(0), made.impurities: before + share}
            allowed = tuple((key, max(v, before + share) if key in own else v) for key, v in base.parameters)
            k = replace(base, parameters=allowed)
            if evaluate(line.formula, stated, k) is not True and evaluate(line.formula, moved, k) is True:
                yield sentence(
                    "whole",
                    "as_impurity",
                    name=flat(name),
                    case=case_text(sheet, case.name),
                    share=in_unit(made.unit.from_base(before + share), made.unit),
                    impurities=flat(made.impurities),
                    line=labelled(sheet, line.label),
                )


def whole_lines(sheet: Sheet) -> Iterator[str]:
    """For the foot: every case short of a whole, and every document that states a class in full."""
    short = [
        sentence(
            "whole",
            "one",
            total=in_unit(made.unit.from_base(total), made.unit),
            name=flat(made.name),
            case=case_text(sheet, case.name),
        )
        for case in sheet.cases
        for made, total in short_of_whole(sheet, case)
    ]
    if short:
        yield sentence("whole", "short", cases="; ".join(short))
    for case in sheet.cases:
        if case.in_full:
            shown = case_text(sheet, case.name)
            yield sentence("whole", "full", case=shown, names=_names(case), listed=_classes(case))


def _names(case: Case) -> str:
    return listed(map(flat, case.in_full), "or")


def _classes(case: Case) -> str:
    return listed(flat(name.removeprefix("other ")) for name in case.in_full)
