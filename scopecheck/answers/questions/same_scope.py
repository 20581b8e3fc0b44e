"""Do two claims take in the same things? And is there one construction on which every claim does its work?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from itertools import combinations

from scopecheck.answers.about import Alike, ForAllClaims
from scopecheck.answers.findings import EMPTY_CLAIM, Finding
from scopecheck.answers.questions.claims import NOTHING
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, Sought, at_claim
from scopecheck.answers.refine import Demand, some_construction
from scopecheck.answers.witness import can_exist
from scopecheck.core.formula import Article, Formula
from scopecheck.core.model import Claim
from scopecheck.core.reference import references
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.evaluate import meets


def same_scope(prepared: Prepared) -> Iterator[Finding]:
    """The claims of one category that, as presumed, take in the same things, each told with an earlier one.

    Things already known part most claims at once; the solver is asked only of claims that none of them parts,
    and each thing it finds parts others too. A claim alike to one that it depends on adds nothing: that is
    told there, and what follows from it, or from two parents alike, is not told again.
    """
    alike = [group for group in _by_category(prepared) for group in _alike(prepared, group) if len(group) > 1]
    pairs = {frozenset((a.number, b.number)) for group in alike for a, b in combinations(group, 2)}
    for group in alike:
        first, *others = _not_below_another(prepared, group)
        for claim in others:
            if not _follows(prepared, first, claim, pairs):
                yield from _told(prepared, first, claim)


def _by_category(prepared: Prepared) -> list[list[Claim]]:
    """The claims that restate something and can be met as presumed, those of one category together."""
    session = prepared.session
    groups: dict[str, list[Claim]] = {}
    for claim in prepared.sheet.claims:
        scope = prepared.scope(claim.number)
        if claim.limitations and session.search(()).holds(session.met(scope, session.base)):
            groups.setdefault(prepared.category(claim.number), []).append(claim)
    return [group for group in groups.values() if len(group) > 1]


def _alike(prepared: Prepared, claims: Sequence[Claim]) -> list[list[Claim]]:
    """The claims in groups that nothing parts as presumed."""
    scopes = [prepared.scope(c.number) for c in claims]
    groups = [list(claims)]
    for reference in references(prepared.sheet, tuple(scopes)):
        if not can_exist(prepared.sheet, reference.article):
            continue  # a listed case may leave open what a given fact settles
        groups = [part for group in groups for part in _parted(prepared, group, reference.article)]
    settled: list[list[Claim]] = []
    while groups:
        group = groups.pop(0)
        article = _between(prepared, group)
        if article is None:
            settled.append(group)
        else:
            groups += _parted(prepared, group, article)
    return settled


def _parted(prepared: Prepared, claims: list[Claim], article: Article) -> list[list[Claim]]:
    """The claims that the thing meets, and those that it does not."""
    if len(claims) < 2:
        return [claims]
    base = prepared.session.base
    met = {c.number for c in claims if meets(prepared.scope(c.number), article, base)}
    parts = [[c for c in claims if c.number in met], [c for c in claims if c.number not in met]]
    return [part for part in parts if part]


def _between(prepared: Prepared, claims: Sequence[Claim]) -> Article | None:
    """A thing that parts the first of the claims from another one, as presumed; None if nothing does."""
    session = prepared.session
    first, *others = (session.met(prepared.scope(c.number), session.base) for c in claims)
    search = session.search(())
    for other in others:
        if search.find((first & ~other) | (~first & other)):
            return search.article()
    return None


def _ancestors(prepared: Prepared, number: int) -> set[int]:
    return {n for instance in prepared.instances[number] for n in instance.chain}


def _not_below_another(prepared: Prepared, group: Sequence[Claim]) -> list[Claim]:
    """Without the claims that depend on another one of the group: these add nothing, as is told of them."""
    numbers = {c.number for c in group}
    return [c for c in group if not _ancestors(prepared, c.number) & numbers]


def _follows(prepared: Prepared, one: Claim, other: Claim, pairs: set[frozenset[int]]) -> bool:
    """Do the two depend on claims that are alike themselves?"""
    above, beside = (_ancestors(prepared, c.number) for c in (one, other))
    return any(frozenset((a, b)) in pairs for a in above for b in beside if a != b)


def _told(prepared: Prepared, first: Claim, claim: Claim) -> Iterator[Finding]:
    session = prepared.session
    one, other = prepared.scope(first.number), prepared.scope(claim.number)
    search = session.search(session.groups_in(one, other))
    found = replace(
        at_claim("same scope", 4, claim),
        outcome="excluded",
        about=Alike(first.number),
        quantifier="every",
    )
    ways = ((one, other, first), (other, one, claim))
    parting = [(a, b, c) for a, b, c in ways if search.holds(session.met(a), ~session.met(b))]
    if not parting:
        yield found
        return
    yield replace(found, quantifier="base")
    if prepared.details:
        met, missed, by = parting[0]
        yield _parting(prepared, met, missed, by, first if by is claim else claim)


def _parting(prepared: Prepared, met: Formula, missed: Formula, by: Claim, other: Claim) -> Finding:
    """The thing and the least re-reading on which one of two claims alike as presumed takes in more."""
    session = prepared.session
    search = session.search(session.groups_in(met, missed))
    search.require(session.met(met), ~session.met(missed))
    return prepared.exhibit(
        replace(at_claim("parted on a reading", 6, by), about=Alike(other.number)),
        search,
        Sought((met, missed), ((met, "met"), (missed, "not met"))),
        prepared.known((met, missed)),
    )


# ---- one construction for all claims


def no_reading_for_all_claims(prepared: Prepared, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Is there no construction on which every claim can be met and every dependent claim narrows?

    `findings` are those of the single claims. Only where some claim is empty or idle as presumed is anything
    looked for; one that is so on every construction is left out, since that is told of it. Raises
    `Undecided`.
    """
    failing = [f for f in findings if f.question in (*EMPTY_CLAIM, "adds nothing") and f.quantifier != "some"]
    failing = [f for f in failing if f.outcome != "undecided"]
    hopeless = {f.claim for f in failing if f.quantifier == "every"}
    left_out = hopeless.union(*(prepared.descendants(n) for n in hopeless))
    if all(f.claim in left_out for f in failing):
        return
    kept = [i for i in prepared.all_instances() if i.claim.number not in left_out]
    if _some_reading(prepared, kept):
        return
    for number in reversed(list(dict.fromkeys(i.claim.number for i in kept))):
        rest = [i for i in kept if i.claim.number != number]
        with suppress(Undecided):  # what cannot be decided to be needless stays
            if not _some_reading(prepared, rest):
                kept = rest
    numbers = tuple(dict.fromkeys(i.claim.number for i in kept))
    yield replace(
        at_claim("no reading suits all claims", 4, prepared.sheet.claim(numbers[-1])),
        outcome="excluded",
        quantifier="every",
        about=ForAllClaims(numbers[:-1]),
    )


def _some_reading(prepared: Prepared, instances: Sequence[Instance]) -> bool:
    """Is there a construction on which all these can be met, and those that depend on others narrow them?

    Raises `Undecided`.
    """
    demands = []
    for i in instances:
        demands.append(Demand(NOTHING, i.scope, "some"))
        if i.claim.dependent and i.own:
            demands.append(Demand(i.parent_scope, i.own_scope, "not every"))
    return some_construction(prepared.session, demands)
