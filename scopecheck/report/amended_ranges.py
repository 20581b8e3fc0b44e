"""What a claim's lines on one quantity ask before and after, and what they no longer or newly let in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain

from scopecheck.answers.amended import Amended
from scopecheck.answers.amendment import Change
from scopecheck.answers.questions.undefined import may_lack_value
from scopecheck.core.construction import Construction, base_construction, names_in, nodes
from scopecheck.core.declared import Declaration, NumberDecl
from scopecheck.core.formula import All, Formula, Not
from scopecheck.core.model import Claim, Limitation, Sheet
from scopecheck.foundations.record import record
from scopecheck.report.boundary import few_values, number_line, region, region_text, value_text
from scopecheck.report.lines import NumberLine
from scopecheck.report.turning import NotShown
from scopecheck.report.wording import flat, listed, sentence
from scopecheck.solving.evaluate import meets

MOST_QUANTITIES = 4
"""Quantities that change and are told by their values."""


@record
class Ranges:
    """Lines and number lines on the quantities whose own limits change, every phrase as presumed."""

    lines: tuple[str, ...] = ()
    pictures: tuple[NumberLine, ...] = ()


@record
class _Own:
    """What a claim asks of one quantity alone, before and after.

    A quantity is `tied` where something else that the claim or a given fact says bears on it too.
    """

    declared: Declaration
    before: All
    after: All
    tied: bool = False


def ranges_of(amended: Amended, change: Change) -> Ranges:
    """The values of each quantity that the claim's limits on it alone let in before, after, and in one only.

    What they no longer let in is told where the claim gives something up, and so with what it gains.
    Of a claim with several parents, and of a quantity whose region has no short form, nothing.
    """
    if change.before is None or change.after is None:
        return Ranges()
    found = list(_changing(amended, change.before, change.after))
    lines: list[str] = []
    pictures: list[NumberLine] = []
    k = base_construction(amended.joined.after)
    for own in found if len(found) <= MOST_QUANTITIES else []:
        try:
            told, picture = _told(own, k, _sides(change))
        except NotShown:
            continue
        lines += told
        pictures += [picture] if picture is not None else []
    return Ranges(tuple(lines), tuple(pictures))


def _changing(amended: Amended, old: Claim, new: Claim) -> Iterator[_Own]:
    before = _by_quantity(amended.joined.before, old)
    after = _by_quantity(amended.joined.after, new)
    if before is None or after is None:
        return
    for d in amended.joined.after.declarations:
        own = before.get(d.name, []), after.get(d.name, [])
        if set(own[0]) != set(own[1]) and not any(may_lack_value(n) for f in chain(*own) for n in nodes(f)):
            tied = any(d.name in names for names in _ties(amended, old, new))
            yield _Own(d, All(tuple(own[0])), All(tuple(own[1])), tied)


def _ties(amended: Amended, old: Claim, new: Claim) -> Iterator[frozenset[str]]:
    """The names that given facts, or lines of either claim, speak of together."""
    for sheet, claim in ((amended.joined.before, old), (amended.joined.after, new)):
        formulas = [*(g.formula for g in sheet.givens), *(x.formula for x in _line(sheet, claim) or ())]
        yield from (names for f in formulas if len(names := names_in(f)) > 1)


def _by_quantity(sheet: Sheet, claim: Claim) -> dict[str, list[Formula]] | None:
    """The formulas of the claim's line that speak of one declared name alone; None without a single line."""
    found: dict[str, list[Formula]] = {}
    for x in _line(sheet, claim) or ():
        names = names_in(x.formula)
        if len(names) == 1:
            found.setdefault(min(names), []).append(x.formula)
    return None if _line(sheet, claim) is None else found


def _line(sheet: Sheet, claim: Claim) -> Sequence[Limitation] | None:
    own: list[Limitation] = list(claim.limitations)
    while claim.parents:
        if len(claim.parents) > 1:
            return None
        claim = sheet.claim(claim.parents[0])
        own = [*claim.limitations, *own]
    return own


def _sides(change: Change) -> frozenset[str]:
    """Which of the two it makes sense to speak of: a claim that nothing met gives nothing up."""
    sides = (("range_given_up", change.given_up), ("range_gained", change.gained))
    return frozenset(key for key, found in sides if found is not None and found.outcome != "excluded")


def _told(own: _Own, k: Construction, sides: frozenset[str]) -> tuple[list[str], NumberLine | None]:
    d, given_up = own.declared, All((own.before, Not(own.after)))
    gained = All((own.after, Not(own.before)))
    if not isinstance(d, NumberDecl):
        return list(_told_values(own, k, sides)), None
    texts = {
        key: region_text(region(formula, d, k), d)
        for key, formula in (
            ("range_before", own.before),
            ("range_after", own.after),
            ("range_given_up", given_up),
            ("range_gained", gained),
        )
    }
    if texts["range_before"] == texts["range_after"]:
        return [], None
    if own.tied:
        return list(_told_of_tied(own, texts)), None
    nothing = region_text((), d)
    lines = [
        sentence("amend", key, name=flat(d.name), region=text)
        for key, text in texts.items()
        if (text != nothing and key in sides) or key in ("range_before", "range_after")
    ]
    # One picture holds both versions: each is a row, so the formula only has to choose by the row.
    rows = [number_line(formula, d, [(label, k)]) for label, formula in _rows(own)]
    picture = NumberLine(rows[0].name, rows[0].unit, tuple(row for r in rows for row in r.rows), (), d.whole)
    return lines, picture


def _told_of_tied(own: _Own, texts: Mapping[str, str]) -> Iterator[str]:
    """Both versions by the lines on the quantity alone: what is let in hangs on more than these."""
    before, after = texts["range_before"], texts["range_after"]
    name = flat(own.declared.name)
    if own.before.items:
        yield sentence("amend", "range_before_own", name=name, region=before)
    else:
        yield sentence("amend", "range_before_nothing", name=name)
    if own.after.items:
        yield sentence("amend", "range_after_own", name=name, region=after)
    else:
        yield sentence("amend", "range_after_nothing", name=name)


def _rows(own: _Own) -> tuple[tuple[str, Formula], ...]:
    return (
        (sentence("amend", "row_before"), own.before),
        (sentence("amend", "row_after"), own.after),
    )


def _told_values(own: _Own, k: Construction, sides: frozenset[str]) -> Iterator[str]:
    """Of a choice or a set with few values: those given up, and those gained."""
    d = own.declared
    values = few_values(d)
    if values is None:
        return
    before = [v for v in values if meets(own.before, {d.name: v}, k)]
    after = [v for v in values if meets(own.after, {d.name: v}, k)]
    for key, one, other in (("range_given_up", before, after), ("range_gained", after, before)):
        told = [value_text(d, v) for v in one if v not in other]
        if told and key in sides:
            yield sentence("amend", key, name=flat(d.name), region=listed(told, "or"))
