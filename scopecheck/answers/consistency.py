"""Does the sheet contradict itself? Asked first: from a contradiction everything would follow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.chains import takes_over
from scopecheck.core.construction import names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Formula, Value, items_of
from scopecheck.core.grounds import Bounds, Cause, GivenFact, ground_text
from scopecheck.core.model import Case, Rivals, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.core.shares import WHOLE
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.quantity import number_text
from scopecheck.solving.constraints import Constraint

MOST_NAMES = 4
"""Names that a warning lists; of more, how many."""


def contradictions(prepared: Prepared) -> tuple[Diagnostic, ...]:
    """Errors where nothing can exist, a case cannot, or a case is both inside and outside; and questions.

    A severity of "warning" is a question to the author: the checks go on unanswered. Raises `Undecided`.
    """
    nothing = tuple(_nothing_exists(prepared))
    if nothing:
        return nothing
    settled_twice = tuple(_settled_twice(prepared))
    if settled_twice:
        return settled_twice
    empty = [d for case in prepared.sheet.cases for d in _impossible(prepared, case)]
    if empty:
        return tuple(empty)
    return tuple(_both_sides(prepared))


def _nothing_exists(prepared: Prepared) -> Iterator[Diagnostic]:
    sheet, session = prepared.sheet, prepared.session
    if session.search(()).holds():
        return
    bare = session.search((), things=False)
    clash = bare.conflict(session.grounds(d.name for d in sheet.declarations)) or ()
    spans = [(g.span, "") for g in sheet.givens if GivenFact(g.text) in clash]
    spans += [(d.span, "") for d in sheet.declarations if session.ground_of(d.name) in clash]
    first, *also = spans or [(sheet.declarations[0].span, "")]
    yield Diagnostic(
        "error",
        first[0],
        "nothing can exist under these bounds and given facts",
        "these cannot hold together: " + "; ".join(map(ground_text, prepared.grounds(clash))),
        "loosen one of them",
        tuple(also),
    )


def _settled_twice(prepared: Prepared) -> Iterator[Diagnostic]:
    """Words to which a definition and something else give different meanings; told once for each two."""
    told_of: set[tuple[int, int]] = set()
    for rivals in prepared.sheet.rivals:
        two = (rivals.definition.span.start, rivals.other.span.start)
        if two in told_of or (thing := _told_apart(prepared, rivals)) is None:
            continue
        told_of.add(two)
        first, second = sorted((rivals.definition.span, rivals.other.span), key=lambda span: span.start)
        yield Diagnostic(
            "error",
            second,
            f"two lines settle '{rivals.words}' in {rivals.where}, and differently",
            f"For example {thing}: it is met by one of them only.",
            "take one of the two out, or write both alike",
            ((first, "the other line"),),
        )


def _told_apart(prepared: Prepared, rivals: Rivals) -> str | None:
    """A thing on which the two differ; None where they agree, or may."""
    found = [_between(prepared, *pair) for pair in rivals.left]
    if not all(found):
        return None
    if rivals.taken is not None and all(_between(prepared, *pair) for pair in rivals.taken):
        return None
    return found[0] if found else None


def _between(prepared: Prepared, one: Formula, other: Formula) -> str | None:
    """A thing that meets one and not the other, told; None if there is none."""
    session = prepared.session
    met = (session.met(one), session.met(other))
    search = session.search(session.groups_in(one, other))
    if not search.find((met[0] & ~met[1]) | (~met[0] & met[1])):
        return None
    names = tuple(d.name for d in prepared.sheet.declarations if d.name in session.names_in(one, other))
    return told(prepared.sheet, search.article(), names)


def _impossible(prepared: Prepared, case: Case) -> Iterator[Diagnostic]:
    session = prepared.session
    search = session.search(case.groups)
    if search.holds(session.met(case.facts)):
        return
    parts = items_of(case.facts)
    causes: list[tuple[Formula | Cause, Constraint]] = [(part, session.met(part)) for part in parts]
    causes += session.grounds(prepared.relevant(case.facts))
    bare = session.search(session.groups_in(case.facts), things=False)
    clash = bare.conflict(causes) or ()
    stated = [_stated(part) for part in parts if part in clash]
    grounds = prepared.grounds(x for x in clash if isinstance(x, Cause))
    yield Diagnostic(
        "error",
        case.span,
        f"no thing can be as case '{case.name}' says",
        _too_much(prepared.sheet, case)
        or "these cannot hold together: " + "; ".join(dict.fromkeys((*stated, *map(ground_text, grounds)))),
        _of_no_whole(prepared.sheet, clash) or "correct the case, or the bound or given fact that it breaks",
    )


def _of_no_whole(sheet: Sheet, clash: Sequence[object]) -> str:
    """What to write where a share goes beyond its natural 100 %; '' where none does."""
    shares = (d for d in sheet.declarations if isinstance(d, NumberDecl) and not d.stated_bounds)
    beyond = (d for d in shares if Bounds(d.name) in clash and d.upper and d.upper.value == WHOLE)
    found = next(beyond, None)
    if found is None:
        return ""
    return (
        f"a share is 0 to 100 % of its whole; what may be more, such as an amount in per cent of something "
        f"else, is declared without that word: {found.name}  in {found.unit.symbol}"
    )


def _too_much(sheet: Sheet, case: Case) -> str:
    """That the shares of a composition which the case states make more than the whole; '' if none do."""
    stated = stated_values(sheet, case, exact=True)
    for made in sheet.compositions:
        shares = {m: v for m in made.members if isinstance(v := stated.get(m), Fraction)}
        total = sum(shares.values(), Fraction(0))
        if total > WHOLE:
            amounts = [
                f"{number_text(made.unit.from_base(v))} {made.unit.symbol}" for v in (*shares.values(), total)
            ]
            told = " + ".join(f"{name} {text}" for name, text in zip(shares, amounts, strict=False))
            return f"the shares of {made.name} that it states are more than the whole: {told} = {amounts[-1]}"
    return ""


def _stated(part: Formula) -> str:
    return "what the case says of " + " and ".join(f"'{name}'" for name in sorted(names_in(part)))


def _both_sides(prepared: Prepared) -> Iterator[Diagnostic]:
    sheet, session = prepared.sheet, prepared.session
    inside = [case for case in sheet.cases if case.role == "inside"]
    outside = [case for case in sheet.cases if case.role == "outside"]
    for one, other in product(inside, outside):
        apart, both = sorted(set(one.stated) ^ set(other.stated)), set(one.stated) & set(other.stated)
        if not _same_place(prepared, one, other) or (apart and not both):
            continue
        search = session.search(session.groups_in(one.facts, other.facts))
        if not search.find(session.met(one.facts), session.met(other.facts)):
            continue
        if not apart:
            thing = told(sheet, search.article(), one.stated)
            yield Diagnostic(
                "error",
                other.span,
                f"'{other.name}' must stay out, and '{one.name}' is inside: one thing is both",
                f"for example {thing}",
                "correct one of the two cases",
                ((one.span, "the inside case"),),
            )
        else:
            names = ", ".join(f"'{name}'" for name in apart[:MOST_NAMES])
            more = f" and {len(apart) - MOST_NAMES} more" if len(apart) > MOST_NAMES else ""
            yield Diagnostic(
                "warning",
                other.span,
                f"one thing could be both '{one.name}' (inside) and '{other.name}' (must stay out)",
                f"only one of the two says something of {names}{more}",
                "say in both cases what sets the two apart",
                ((one.span, "the inside case"),),
            )


def _same_place(prepared: Prepared, inside: Case, outside: Case) -> bool:
    """Do the two cases speak of one scope: the inside one of the claim or of one that takes it over?"""
    default = tuple(str(n) for n in prepared.independent())
    parents = {c.number: c.parents for c in prepared.sheet.claims}
    for kept, wanted in product(outside.targets or default, inside.targets or default):
        if kept == wanted:
            return True
        if kept.isdigit() and wanted.isdigit() and takes_over(parents, int(wanted), (int(kept),)):
            return True
    return False


def told(sheet: Sheet, article: Article, names: tuple[str, ...]) -> str:
    """Some of an article's values in a sentence, in the sheet's units."""
    return ", ".join(f"{name} {value_text(sheet, name, article[name])}" for name in names)


def value_text(sheet: Sheet, name: str, value: Value) -> str:
    d = sheet.declaration(name)
    match value:
        case str():
            return value
        case frozenset():
            return ", ".join(sorted(value)) or "none"
        case _:
            assert isinstance(d, NumberDecl)
            return f"{number_text(d.unit.from_base(value))} {d.unit.symbol}".rstrip()
