"""What two sheets must say alike to be compared; each difference is told with both places."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import Assembly, Composition, Declaration, NumberDecl, Part, Step
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Span
from scopecheck.resolve.successors import Successors


def disagreements(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    """Every difference in the readers, the vocabulary and the cases; cases differ with a warning only."""
    yield from _readers(before, after)
    yield from _declarations(before, after)
    yield from _parts(before, after)
    yield from _compositions(before, after)
    yield from _cases(before, after)


def differs(span: Span, other: Span, message: str, help: str = "", cause: str = "") -> Diagnostic:
    """A message at a place of the amended sheet that marks the place of the sheet before as well."""
    where = f"in {other.source.name}, line {other.line}, column {other.column}"
    return Diagnostic("error", span, message, cause, help, ((other, where),))


def _readers(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    if (before.profile, before.purpose) != (after.profile, after.purpose):
        yield differs(
            head_line(after, "profile"),
            head_line(before, "profile"),
            "the two sheets are read under different profiles",
            "give both the same profile",
        )


def head_line(sheet: Sheet, heading: str) -> Span:
    """The line of a heading of the sheet, or its first line."""
    source = sheet.claims[0].span.source
    start = 0
    for line in source.text.splitlines(keepends=True):
        if line.lower().startswith(heading):
            return Span(source, start, start + len(line.rstrip()))
        start += len(line)
    return Span(source, 0, max(1, len(source.line(1).rstrip())))


def _declarations(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    old = {d.name.lower(): d for d in before.declarations}
    for d in after.declarations:
        other = old.get(d.name.lower())
        if other is None:
            continue
        message, help = _difference(other, d)
        if message:
            yield differs(d.span, other.span, message, help)


def _difference(old: Declaration, new: Declaration) -> tuple[str, str]:
    """What keeps two declarations of one name from being one thing, and what to write; '' if nothing."""
    name = new.name
    if old.name != name:
        return f"'{name}' is written '{old.name}' in the sheet before", "write the name alike in both"
    if isinstance(old, NumberDecl) and isinstance(new, NumberDecl):
        if (old.kind, old.whole) != (new.kind, new.whole):
            kinds = [("count" if d.whole else d.kind.name) for d in (new, old)]
            return (
                f"'{name}' is a {kinds[0]} here and a {kinds[1]} in the sheet before",
                "give it one kind in both, or use two names",
            )
        if (old.lower, old.upper) != (new.lower, new.upper):
            return (
                f"'{name}' has other bounds in the sheet before",
                "write the same bounds in both: what can exist does not change with the claims",
            )
        return "", ""
    if type(old) is not type(new):
        return f"'{name}' is another sort of thing in the sheet before", "declare it alike in both"
    assert not isinstance(old, NumberDecl)
    assert not isinstance(new, NumberDecl)
    if old.members != new.members:
        return (
            f"'{name}' has another list in the sheet before",
            "write the same list in both, with every member that either needs",
        )
    return "", ""


def _parts(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    known: tuple[Part | Step, ...] = (*before.parts, *before.steps)
    old = {p.name: p for p in known}
    declared: tuple[Part | Step, ...] = (*after.parts, *after.steps)
    for part in declared:
        other = old.get(part.name)
        if other is not None and other != part:
            yield differs(
                part.span,
                other.span,
                f"'{part.name}' is declared otherwise in the sheet before",
                "declare it alike in both: of like parts as many, with the same fields",
            )


def _compositions(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    """Shares of other ingredients cannot make up one whole; what nobody listed depends on what is listed."""
    known: tuple[Composition | Assembly, ...] = (*before.compositions, *before.assemblies)
    old = {made.name: made for made in known}
    declared: tuple[Composition | Assembly, ...] = (*after.compositions, *after.assemblies)
    for made in declared:
        other = old.get(made.name)
        if other is not None and other != made:
            mixed = isinstance(made, Composition)
            what = "composition" if mixed else "assembly"
            has = "ingredients or classes" if mixed else "parts"
            help = "ingredient and class" if mixed else "part"
            yield differs(
                made.span,
                other.span,
                f"the {what} '{made.name}' has other {has} in the sheet before",
                f"list in both every {help} that either needs",
            )


def _cases(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    """A warning for each case that the two sheets tell differently: that of the amended sheet is used."""
    old = {(c.role, c.name): c for c in before.cases}
    for case in after.cases:
        other = old.get((case.role, case.name))
        if other is not None and " ".join(other.text.split()) != " ".join(case.text.split()):
            told = differs(
                case.span, other.span, f"'{case.name}' is told otherwise in the sheet before",
                cause="What this sheet says of it is used for both.",
            )  # fmt: skip
            yield replace(told, severity="warning")


def restated_once(before: Sheet, after: Sheet, found: Successors) -> Iterator[Diagnostic]:
    """A warning for each claim that is restated in one of the sheets only."""
    for old, new in found.pairs:
        restated = [_lines(before, old), _lines(after, new)]
        if restated.count(True) == 1:
            where, claim = (before, old) if not restated[0] else (after, new)
            told = differs(
                after.claim(new).span,
                before.claim(old).span,
                f"claim {claim} of {where.source_name} has no line",
                "restate its limits there as well",
                "As restated, anything meets it.",
            )
            yield replace(told, severity="warning")


def _lines(sheet: Sheet, number: int) -> bool:
    """Does the claim or one that it depends on have a line?"""
    claim = sheet.claim(number)
    return bool(claim.limitations) or any(_lines(sheet, p) for p in claim.parents)
