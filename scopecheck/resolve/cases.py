"""Cases: from rows of cells or facts to the set of articles they describe."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from scopecheck.core.formula import Compare, Const, Measured, all_of
from scopecheck.core.model import Case
from scopecheck.foundations.diagnostics import Diagnostic, Trouble
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import CasesStatement, Row
from scopecheck.occurrences.groups import groups_in, names_in
from scopecheck.resolve.case_cells import put_cell
from scopecheck.resolve.case_desk import CasesDesk, Made, OfCase
from scopecheck.resolve.case_facts import put_fact
from scopecheck.resolve.case_parts import clashes, of_no_parts, says_each
from scopecheck.resolve.step_cells import put_end
from scopecheck.vocabulary.compositions import not_further

STATING = ("document", "description")
"""Roles of what states something, and is silent on the rest."""


def cases(desk: CasesDesk, statements: tuple[CasesStatement, ...]) -> tuple[Case, ...]:
    """Every case in sheet order. A case with a wrong cell is left out and reported."""
    found: list[Case] = []
    used: dict[str, Span] = {}
    for statement in statements:
        targets = _targets(desk, statement)
        for row in statement.rows:
            name = row.name
            if statement.document and statement.document != row.name:
                name = f"{statement.document}, {row.name}"
            if name in used:
                also = ((used[name], "the first"),)
                desk.wrong.append(Diagnostic("error", row.span, f"two cases are called '{name}'", also=also))
            used.setdefault(name, row.span)
            try:
                case = _case(desk, statement, row, name, targets)
            except Trouble as error:
                desk.wrong.append(error.diagnostic)
            else:
                if case is not None:
                    found.append(case)
    return tuple(found)


def _targets(desk: CasesDesk, statement: CasesStatement) -> tuple[str, ...]:
    known = [str(c.number) for c in desk.claims]
    labels = [x.label for c in desk.claims for x in c.limitations]
    kept = []
    for text, span in statement.targets:
        if text in known or text in labels:
            kept.append(text)
        else:
            what = f"there is no claim {text}" if text.isdigit() else f"there is no limitation {text}"
            listed = known if text.isdigit() else labels
            desk.wrong.append(Diagnostic("error", span, what, f"Known here: {', '.join(listed)}."))
    return tuple(kept)


def _case(
    desk: CasesDesk, statement: CasesStatement, row: Row, name: str, targets: tuple[str, ...]
) -> Case | None:
    stating = statement.role in STATING
    document = statement.document or (statement.role if stating else f"case {name}")
    desk.names.here = (document, name)
    before = len(desk.wrong)
    made = Made()
    if row.facts is None:
        pairs = list(zip(row.columns, row.cells, strict=True))
        # What a cell says of each part depends on how many the others say there are.
        for column, cell in sorted(pairs, key=lambda pair: says_each(pair[1])):
            try:
                put_cell(desk, column, cell, made, OfCase(name, document, stating))
            except Trouble as error:
                desk.wrong.append(error.diagnostic)
    else:
        for fact in row.facts:
            put_fact(desk, fact, made, document, name)
        for fact in row.facts:
            desk.wrong += [t.diagnostic for t in of_no_parts(desk.names, fact, made.facts)]
        for ends, span in made.ends:
            made.single &= put_end(ends, desk.names.steps.values(), made.point, span)
        made.single &= made.point.keys() >= set(made.each)
    desk.wrong += clashes(desk.names, made.facts, made.counted, made.spoken)
    if len(desk.wrong) > before:
        return None
    in_full = _in_full(desk, made) if statement.role == "document" and made.single else ()
    whole = all_of(made.facts)
    spoken = names_in(whole)
    stated = tuple(n for n in desk.names.declarations if n in spoken)
    silent = tuple(dict.fromkeys(made.silent))
    if stating:
        said = {*stated, *made.unknown, *made.free}
        silent = tuple(n for n in desk.names.declarations if n not in said)
    form: Literal["thing", "example", "range"] = "thing"
    if stating:
        form = "example" if made.single else "range"
    case = Case(
        name,
        statement.role,
        form,
        targets,
        whole,
        row.text,
        stated,
        silent,
        tuple(made.unknown),
        groups_in(whole),
        row.place,
        row.span,
        statement.document,
        in_full,
    )
    if made.single and set(made.point) == set(stated):
        desk.points[id(case)] = made.point
    return case


def _in_full(desk: CasesDesk, made: Made) -> tuple[str, ...]:
    """Puts with an example that there is none of the further members of a class that it states in full."""
    spoken = {*made.silent, *made.unknown, *made.free, *(n for f in made.facts for n in names_in(f))}
    shares = desk.names.compositions.values()
    names = tuple(n for share in shares for n in not_further(share, made.point, spoken))
    for name in names:
        made.facts.append(Compare("=", Measured(name), Const(Fraction(0))))
        made.point[name] = Fraction(0)
    return names
