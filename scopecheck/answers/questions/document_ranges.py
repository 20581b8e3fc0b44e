"""How a stated range of a document lies against a claim: relations, and no conclusion from them."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.about import Lies, RangeLies
from scopecheck.answers.findings import Finding
from scopecheck.answers.questions.prepared import LISTED, Prepared, Sought
from scopecheck.answers.refine import Demand, Wanted, find_construction
from scopecheck.answers.witness import Expected
from scopecheck.core.construction import Construction
from scopecheck.core.declared import Composition, NumberDecl
from scopecheck.core.formula import All, Compare, Const, Formula, Measured, conjuncts
from scopecheck.core.model import Case
from scopecheck.core.ranges import limits_of, lying
from scopecheck.core.ties import lying_ties, range_in, ranges_of_ties
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Constraint
from scopecheck.solving.solver import Search

INSIDE = ("within", "the same", "point inside")


def range_relations(prepared: Prepared, case: Case, finding: Finding, scope: Formula) -> Iterator[Finding]:
    """How a document's stated range lies against the claim: relations, no conclusion.

    In the base; then on the least re-reading on which they share something, nothing, or all of the range. A
    claim that limits nothing of what the range states is left out, unless given facts keep them apart.
    """
    session = prepared.session
    told = replace(finding, question="document range", stakes=6, bearer="")
    base = _relation(prepared, case, scope, session.base)
    in_base = replace(told, about=RangeLies(base), quantifier="base", construction=session.base)
    groups = session.groups_in(case.facts, scope)
    if base == "apart":
        sharing = session.search(groups)
        sharing.require(session.met(case.facts), session.met(scope))
        if not sharing.holds():
            yield _always(prepared, case, scope, in_base)
            return
        found = [_graver_if_stretched(prepared, prepared.told_by(told, sharing, groups))]
    else:
        found = list(_otherwise(prepared, case, scope, told, base))
    if base == "apart" or _limited(prepared, case, scope, session.base):
        yield in_base
    for other in found:
        assert other.construction is not None
        relation = _relation(prepared, case, scope, other.construction)
        yield replace(other, about=RangeLies(relation), quantifier="some")


def _graver_if_stretched(prepared: Prepared, found: Finding) -> Finding:
    """The finding; one of a document that is met on some reading where any stretch of the usual one does it.

    A thing that is met so is told as met: that nothing is shared hangs on a hedge that allows nothing.
    """
    moved = (*found.rereads, *found.read_as)
    usual = [r for r in moved if r.reading == prepared.session.base.readings[r.group]]
    points = [p for r in usual for p in r.breaks]
    at_all = all(p.upward and not p.end.closed and p.end.value == 0 for p in points)
    if len(moved) == 1 and points and at_all:
        return replace(found, stakes=2, bearer="challenger")
    return found


def at_stated_ends(prepared: Prepared, case: Case, scope: Formula) -> Case | None:
    """The document's range where, in each number that goes beyond the claim, it is at an end that it states.

    As presumed. None where the claim goes beyond no number, or holds no end that is stated of one: a stated
    end is a number that the document names, as an example does.
    """
    session = prepared.session
    sheet, base = prepared.sheet, session.base
    asked, stated = limits_of(sheet, scope, base), limits_of(sheet, case.facts, base)
    found = lying(sheet, case.facts, scope, base)
    # A number that a line ties to others lies in no range by itself: it is looked at with what is tied to it.
    wanted = [own.name for own in found if own.relation not in INSIDE]
    wanted += [name for name, own in stated.ranges if name in asked.loose and own.single is None]
    both = session.search(())
    both.require(session.met(case.facts, base), session.met(scope, base))
    ends: list[Formula] = []
    for name in dict.fromkeys(wanted):
        said = dict(stated.said)[name]
        values = [end.value for end in (said.low, said.high) if end is not None and end.closed]
        value = next((v for v in values if both.holds(session.equals(name, v))), None)
        if value is None:
            return None
        both.require(session.equals(name, value))
        ends.append(Compare("=", Measured(name), Const(value)))
    for tied in (tied for tied in lying_ties(case.facts, scope, base) if tied.relation not in INSIDE):
        stated_ends = (tied.stated.low, tied.stated.high)
        closed = (end.value for end in stated_ends if end is not None and end.closed)
        value = next((v for v in closed if tied.asked.holds(v)), None)
        if value is None:
            return None
        ends.append(Compare("=", tied.tie.term, Const(value)))
    ends += _ends_of_other_ties(prepared, case, scope, both)
    return replace(case, facts=All((case.facts, *ends))) if ends else None


def shown_there(prepared: Prepared, facts: Formula, scope: Formula, finding: Finding) -> Finding:
    """The finding with a thing at the end stated that meets the claim, all read as presumed."""
    session, formulas = prepared.session, (facts, scope)
    groups = session.groups_in(*formulas)
    search = session.search(groups)
    search.require(*map(session.met, formulas), *session.taken(session.base, groups))
    if not search.holds():
        return finding
    there: list[tuple[Formula, Expected]] = [(f, "met") for f in formulas]
    return prepared.exhibit(finding, search, Sought(formulas, there), prepared.known(formulas), LISTED)


def _ends_of_other_ties(prepared: Prepared, case: Case, scope: Formula, both: Search) -> Iterator[Formula]:
    """Of each ratio or sum that the document limits and the claim says otherwise, an end in the claim."""
    session = prepared.session
    asked = ranges_of_ties(scope, session.base).ranges
    for tie, own in ranges_of_ties(case.facts, session.base).ranges.items():
        if len(tie.names) < 2 or range_in(asked, tie) or not tie.names & session.names_in(scope):
            continue
        closed = [end.value for end in (own.low, own.high) if end is not None and end.closed]
        at_ends = (Compare("=", tie.term, Const(value)) for value in closed)
        held = next((fact for fact in at_ends if both.holds(session.met(fact, session.base))), None)
        if held is not None:
            both.require(session.met(held, session.base))
            yield held


def _otherwise(
    prepared: Prepared, case: Case, scope: Formula, told: Finding, base: Lies
) -> Iterator[Finding]:
    """The least re-readings on which claim and range share nothing, or all of the range, stretches aside.

    A stretch without end parts or joins any two ranges.
    """
    session = prepared.session
    if not session.names_in(scope) & set(case.stated):
        return
    groups = session.groups_in(case.facts, scope)
    stated = Demand(All(()), case.facts, "some")
    # What nothing meets lies apart from everything.
    claimed = Demand(All(()), scope, "some")
    wanted: tuple[Wanted, ...] = ("none",) if base in ("within", "the same") else ("none", "every")
    for w in wanted:
        refined = find_construction(session, [Demand(case.facts, scope, w), stated, claimed], stretch=False)
        if refined.construction is not None:
            yield prepared.told_refined(told, refined, groups)


def _relation(prepared: Prepared, case: Case, scope: Formula, k: Construction) -> Lies:
    """How the range lies against the claim on one construction."""
    session = prepared.session
    inside, outside = session.search(()), session.search(())
    region = session.met(case.facts, k)
    inside.require(session.met(scope, k))
    outside.require(region, ~session.met(scope, k))
    if not inside.find(region):
        return "apart"
    touches = _at_one_end(prepared, case, inside, region, scope, k)
    beyond, rest = inside.holds(~region), outside.holds()
    if not beyond:
        return "contains" if rest else "the same"
    if not rest:
        return "within"
    if touches:
        return "touches"
    return "within shared" if _within_each_limit(prepared, case, scope, k) else "overlaps"


def _at_one_end(
    prepared: Prepared, case: Case, shared: Search, region: Constraint, scope: Formula, k: Construction
) -> bool:
    """Is what claim and region share, in some stated number, one value only, which neither is limited to?

    So, too, of a ratio or a sum that both limit.
    """
    if any(own.relation == "touches" for own in lying_ties(case.facts, scope, k)):
        return True
    session = prepared.session
    article = shared.article()
    claim, range_ = session.search(()), session.search(())
    claim.require(session.met(scope, k))
    range_.require(region)
    for d in prepared.sheet.declarations:
        if not isinstance(d, NumberDecl) or d.name not in case.stated:
            continue
        other = ~session.equals(d.name, article[d.name])
        if not shared.holds(region, other) and claim.holds(other) and range_.holds(other):
            return True
    return False


def _limited(prepared: Prepared, case: Case, scope: Formula, k: Construction) -> frozenset[str]:
    """What the claim, so read, limits of what the range states."""
    limits = limits_of(prepared.sheet, scope, k)
    return limits.loose.union(name for name, _ in limits.ranges) & set(case.stated)


def _within_each_limit(prepared: Prepared, case: Case, scope: Formula, k: Construction) -> bool:
    """Does all that is stated of each number, and of each ratio or sum, that both limit lie within the claim?

    A number that the claim ties in another way than by a ratio or sum that is stated too is not gone into.
    """
    if _limits_a_class(prepared, case, scope, k):
        return False
    found, tied = lying(prepared.sheet, case.facts, scope, k), lying_ties(case.facts, scope, k)
    limits, stated = limits_of(prepared.sheet, scope, k), set(case.stated)
    asked, own_ties = ranges_of_ties(scope, k), ranges_of_ties(case.facts, k).ranges
    several = [tie for tie in asked.ranges if len(tie.names) > 1 and tie.names & stated]
    if limits.loose & asked.loose & stated or any(range_in(own_ties, tie) is None for tie in several):
        return False
    alone = {own.name for own in found} | (limits.loose - {name for name, _ in limits.ranges})
    relations = [own.relation for own in found] + [own.relation for own in tied]
    return _limited(prepared, case, scope, k) <= alone and all(r in INSIDE for r in relations)


def _limits_a_class(prepared: Prepared, case: Case, scope: Formula, k: Construction) -> bool:
    """Does the one limit a class of which the other limits a member, or a class below it?"""
    limits = limits_of(prepared.sheet, scope, k)
    asked = limits.loose.union(name for name, _ in limits.ranges)
    stated = set(case.stated)
    return any(
        one != other and (set(leaves[one]) <= set(leaves[other]) or set(leaves[other]) <= set(leaves[one]))
        for leaves in map(_leaves, prepared.sheet.compositions)
        for one in asked & set(leaves)
        for other in stated & set(leaves)
    )


def _leaves(made: Composition) -> dict[str, tuple[str, ...]]:
    return {name: (name,) for name in made.members} | dict(made.classes)


def _always(prepared: Prepared, case: Case, scope: Formula, apart: Finding) -> Finding:
    """That they lie apart on every construction, with the numbers in which they do so by themselves."""
    found = lying(prepared.sheet, case.facts, scope, prepared.session.base)
    names = (own.name for own in found if own.relation == "apart")
    firm = tuple(name for name in names if _always_apart(prepared, case, scope, name))
    return replace(apart, quantifier="every", construction=None, about=RangeLies("apart", firm))


def _always_apart(prepared: Prepared, case: Case, scope: Formula, name: str) -> bool:
    """Can what speaks of this number alone, on either side, be met together on no construction?"""
    session = prepared.session
    own = [f for f in (*conjuncts(case.facts), *conjuncts(scope)) if session.names_in(f) == {name}]
    search = session.search(session.groups_in(*own))
    return not search.holds(*(session.met(f) for f in own))
