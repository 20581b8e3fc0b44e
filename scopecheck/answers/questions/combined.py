"""What a claim asks of several things together, held against what one statement of the description ties."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.findings import Finding
from scopecheck.answers.held import Combined, CombinedWith, Joint, Piece
from scopecheck.answers.questions.idle import limiting
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, at_claim
from scopecheck.core.construction import names_in
from scopecheck.core.formula import All, Bound, Formula, items_of
from scopecheck.core.model import Case, Limitation
from scopecheck.core.ranges import Range
from scopecheck.core.stated import SIDES, Side
from scopecheck.core.ties import range_in, ranges_of_ties
from scopecheck.foundations.record import replace


def together_beside_description(prepared: Prepared, instance: Instance) -> Iterator[Finding]:
    """How what the claim asks of several things lies against each statement that ties several of them.

    As presumed, with what the claim takes over; only statements that speak of something in its own lines.
    """
    described = prepared.sheet.described
    found = [w for s in described if s.form != "example" and (w := _with(prepared, instance, s)) is not None]
    if not found:
        return
    labels = {label for w in found for label in w.labels}
    lines = [x for x in instance.limitations if x.label in labels]
    examples = (c.name for c in described if c.form == "example" and _holds(prepared, lines, c))
    labels_in_order = tuple(x.label for x in lines)
    pieces, whole = _pieces(prepared, lines)
    combined = Combined(labels_in_order, tuple(found), pieces, whole, tuple(examples))
    finding = at_claim("beside the description", 6, instance.claim)
    yield replace(finding, quantifier="base", about=combined, ways=(instance.chain,))


def _with(prepared: Prepared, instance: Instance, statement: Case) -> CombinedWith | None:
    """How the lines that speak of what the statement limits lie against it; None unless several things do."""
    spoken = names_in(statement.facts)
    lines = [x for x in limiting(prepared, instance.limitations) if names_in(x.formula) & spoken]
    claimed = frozenset().union(*(names_in(x.formula) for x in lines)) & spoken
    if len(claimed) < 2 or not any(x in lines for x in instance.own):
        return None
    kept, further = _of(statement.facts, claimed)
    relation = _joint(prepared, All(tuple(x.formula for x in lines)), kept)
    if relation is None:
        return None
    order = [d.name for d in prepared.sheet.declarations]
    labels = tuple(x.label for x in lines)
    return CombinedWith(statement.name, labels, relation, tuple(sorted(further, key=order.index)))


def _of(facts: Formula, names: frozenset[str]) -> tuple[Formula, frozenset[str]]:
    """What facts say of these names, and the other names that they limit."""
    kept = tuple(item for item in items_of(facts) if names_in(item) & names)
    return All(kept), names_in(facts) - names


def _joint(prepared: Prepared, scope: Formula, facts: Formula) -> Joint | None:
    """How all that meets the scope lies against all that meets the facts; None where one of them is empty."""
    session = prepared.session
    search, claimed, stated = (
        session.search(()),
        session.met(scope, session.base),
        session.met(facts, session.base),
    )
    if not search.holds(claimed) or not search.holds(stated):
        return None
    if not search.holds(claimed, stated):
        return "apart"
    beyond, rest = search.holds(claimed, ~stated), search.holds(stated, ~claimed)
    if beyond and rest:
        return "overlaps"
    return "contains" if beyond else "within" if rest else "the same"


def _holds(prepared: Prepared, lines: Sequence[Limitation], example: Case) -> bool:
    """Does all that an example leaves possible meet the lines, whatever of which it speaks?"""
    session, names = prepared.session, frozenset().union(*(names_in(x.formula) for x in lines))
    if not names <= set(example.stated):
        return False
    search = session.search(())
    search.require(session.met(example.facts, session.base))
    return search.holds() and not search.holds(
        ~session.met(All(tuple(x.formula for x in lines)), session.base)
    )


def _pieces(prepared: Prepared, lines: Sequence[Limitation]) -> tuple[tuple[Piece, ...], bool]:
    """For each number and tie that the lines limit, the statements of just this range, and of each end.

    And whether the lines ask for nothing else.
    """
    base = prepared.session.base
    asked = ranges_of_ties(All(tuple(x.formula for x in lines)), base)
    described = [c for c in prepared.sheet.described if c.form != "example"]
    stated = [(c.name, ranges_of_ties(c.facts, base).ranges) for c in described]
    pieces = []
    for tie, claimed in asked.ranges.items():
        ranges = [(case, own) for case, limits in stated if (own := range_in(limits, tie)) is not None]
        if ranges:
            as_such = tuple(case for case, own in ranges if own == claimed)
            low, high = (_of_end(ranges, side, claimed) for side in SIDES)
            pieces.append(Piece(tie, as_such, low, high))
    return tuple(pieces), asked.whole and len(pieces) == len(asked.ranges)


def _of_end(ranges: Sequence[tuple[str, Range]], side: Side, claimed: Range) -> tuple[str, ...] | None:
    """The statements that have the number of a claimed end as the same end; None where no end is claimed."""
    end: Bound | None = getattr(claimed, side)
    if end is None:
        return None
    ends = [(case, getattr(own, side)) for case, own in ranges]
    return tuple(case for case, own in ends if own is not None and own.value == end.value)
