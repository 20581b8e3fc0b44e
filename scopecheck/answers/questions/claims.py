"""What claims ask of themselves: can anything meet them, do dependents narrow, is a stated end reached?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from math import ceil, floor

from scopecheck.answers.about import AddsNothing, Because, Empty, EndNotReached, Narrows, Otherwise, Reread
from scopecheck.answers.findings import Finding, Looked, Quantifier, because
from scopecheck.answers.minimal import MinimalSets, minimal_sets
from scopecheck.answers.minimise import BreakPoint, pick_article
from scopecheck.answers.questions.cases import Answer, one_reread
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, Sought, at_claim, at_limitation
from scopecheck.answers.questions.reached import farthest, ruling_out
from scopecheck.answers.refine import Demand, Refined, find_construction
from scopecheck.answers.witness import Expected, Obligation, Witness, verify
from scopecheck.core.construction import Construction, admissible_readings, groups_in, names_in, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import (
    All,
    Article,
    Compare,
    Const,
    Divide,
    Formula,
    IsWhole,
    Measured,
    Op,
    Term,
)
from scopecheck.core.grounds import Ground, Line, lines_of
from scopecheck.core.model import Limitation
from scopecheck.core.plain import stated_ends
from scopecheck.core.rewrite import read_as, read_at
from scopecheck.core.stated import farthest_by_itself
from scopecheck.core.written_ends import WrittenEnd, written_ends
from scopecheck.foundations.record import record, replace
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.solving.constraints import Constraint, Undecided
from scopecheck.solving.ends import Extremum, infimum, least_stretch, simplest_within, supremum
from scopecheck.solving.solver import NOT_AFRESH, Search

NOTHING = All(())
CLOSE = 32
"""So many halvings of itself an end may be away from what it was found to be between."""
MOST_HALVINGS = 80


def nothing_meets(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Can nothing meet the claim, on every construction or on some? Told by the limitations that conflict.

    Where an ancestor alone cannot be met, it is reported there and not here.
    """
    session, claim = prepared.session, instance.claim
    question = "dependent cannot be met" if claim.dependent else "nothing meets"
    scope = instance.scope
    groups = session.groups_in(scope)
    usual = _empty_at_any_threshold(prepared, instance)
    if usual is not None and prepared.can_be_met(scope):
        yield _empty_as_presumed(prepared, instance, question, usual)
        return
    thing = met_whatever_is_read(prepared, scope) if usual is None else None
    if thing is not None:
        prepared.note_always_met(instance, thing)
        yield Looked(question, claim.number, f"claim {claim.number}")
        return
    if prepared.can_be_met(scope):
        yield from _empty_on_some(prepared, instance, question)
        return
    if claim.parents and not prepared.can_be_met(instance.parent_scope):
        return
    search = session.search(groups)
    labelled = [(x.label, session.met(x.formula)) for x in instance.limitations]
    conflicts = _conflicts(search, labelled)
    in_base = [(x.label, session.met(x.formula, session.base)) for x in instance.limitations]
    as_presumed = session.search(()).conflict(in_base) or ()
    beside = sorted(set(conflicts.sets[0]) - set(as_presumed)) if len(conflicts.sets) == 1 else []
    k = None
    if beside and set(as_presumed) < set(conflicts.sets[0]):
        # Fewer lines conflict as presumed: the others are needed on other readings alone.
        conflicts, k = MinimalSets((as_presumed,), True), session.base
    else:
        beside = []
    needed = [fact for one in conflicts.sets for fact in _needed(prepared, instance, one, k)]
    yield replace(
        at_claim(question, 1, claim),
        quantifier="every",
        outcome="vacuous",
        rests_on=tuple(dict.fromkeys(needed)),
        about=Empty(because_of(conflicts), tuple(beside)),
    )


def _conflicts(search: Search, labelled: Sequence[tuple[str, Constraint]]) -> MinimalSets:
    """All minimal sets of the labels whose constraints cannot hold together."""
    by_label = dict(labelled)
    return minimal_sets(by_label, lambda some: search.conflict([(x, by_label[x]) for x in some]))


def because_of(found: MinimalSets) -> Because:
    """The minimal sets as what is told: the first of them, and all where there are several."""
    return Because(found.sets[0], found.sets if len(found.sets) > 1 else (), found.every)


def met_whatever_is_read(prepared: Prepared, scope: Formula, missed: Formula | None = None) -> Article | None:
    """One thing that meets the scope (and misses `missed`) on every reading, free parameters as presumed.

    A single query proposes the thing; the readings alone then confirm it. None means only that no such thing
    was found this way.
    """
    session = prepared.session
    session.go_on()  # here already: of many like parts what is asked takes long to write
    formulas = (scope, missed) if missed is not None else (scope,)
    groups = session.groups_in(*formulas)
    readings = session.search(groups, things=False)
    stretches = [p for p in session.sheet.parameters if p.group in groups]
    readings.require(*(session.stretches(p.key, p.presumed) for p in stretches))
    readings.require(*(~session.reads(p.group, p.reading) for p in stretches if p.unknown))

    def always(article: Article) -> bool:
        escapes = ~session.met_by(scope, article, stretch=False)
        if missed is not None:
            escapes = escapes | session.met_by(missed, article, stretch=False)
        return not readings.holds(escapes)

    if missed is None:
        known = next((article for article in prepared.inside_points(scope) if always(article)), None)
        if known is not None:
            return known
    search = session.search(())
    search.require(session.surely(scope, met=True))
    if missed is not None:
        search.require(session.surely(missed, met=False))
    return article if search.find() and always(article := search.article()) else None


def _empty_on_some(prepared: Prepared, instance: Instance, question: str) -> Iterator[Answer]:
    session, claim = prepared.session, instance.claim
    demands = [Demand(NOTHING, instance.scope, "none")]
    if claim.parents:
        demands.append(Demand(NOTHING, instance.parent_scope, "some"))
    # A stretch without end could empty any claim: only the readings as presumed are asked.
    refined = find_construction(session, demands, stretch=False)
    found = refined.construction
    if found is None:
        # Where an ancestor cannot be met in the base, nothing is said of this claim there.
        if session.search(()).holds(session.met(instance.scope, session.base)):
            if not claim.parents or prepared.never_empty(instance.inherited):
                prepared.note_never_empty(instance)
            yield Looked(question, claim.number, f"claim {claim.number}")
        return
    if found == session.base:
        yield _empty_as_presumed(prepared, instance, question, session.search(()), found)
        return
    labelled = [(x.label, session.met(x.formula, found)) for x in instance.limitations]
    conflicts = _conflicts(session.search(()), labelled)
    groups = session.groups_in(instance.scope)
    empty = replace(at_claim(question, 4, claim), about=Empty(because_of(conflicts)))
    told = prepared.told_refined(empty, refined, groups)
    needed = [fact for one in conflicts.sets for fact in _needed(prepared, instance, one, found)]
    told = replace(told, rests_on=tuple(dict.fromkeys((*told.rests_on, *needed))))
    met = _met_when_stretched(prepared, instance.scope, found)
    yield replace(told, outcome="vacuous", quantifier="some", otherwise=Otherwise(met, together=True))


def _empty_at_any_threshold(prepared: Prepared, instance: Instance) -> Search | None:
    """The readings as presumed, thresholds that nobody states left free, where nothing meets the claim so.

    None where something does, where there is no such threshold, and where nothing meets what the claim
    depends on.
    """
    session, base = prepared.session, prepared.session.base
    groups = session.groups_in(instance.scope)
    own = [p for p in session.sheet.parameters if p.group in groups and p.reading == base.readings[p.group]]
    if not any(p.unknown for p in own):
        return None
    search = session.search(groups)
    search.require(*(session.reads(g, base.readings[g]) for g in groups))
    search.require(*(session.stretches(p.key, p.presumed) for p in own if not p.unknown))
    if search.holds(session.met(instance.scope)):
        return None
    above = not instance.claim.parents or search.holds(session.met(instance.parent_scope))
    return search if above else None


def _empty_as_presumed(
    prepared: Prepared, instance: Instance, question: str, search: Search, at: Construction | None = None
) -> Finding:
    """That nothing meets the claim in the search: at the base, or at the base but for what it leaves free."""
    session, scope = prepared.session, instance.scope
    groups = session.groups_in(scope)
    labelled = [(x.label, session.met(x.formula, at)) for x in instance.limitations]
    conflicts = _conflicts(search, labelled)
    read = () if at else [session.reads(g, session.base.readings[g]) for g in groups]
    needed = [fact for one in conflicts.sets for fact in _needed(prepared, instance, one, at, read)]
    told = replace(at_claim(question, 4, instance.claim), about=Empty(because_of(conflicts)))
    told = prepared.told_refined(told, Refined(session.base, ()), groups)
    told = replace(told, rests_on=tuple(dict.fromkeys(needed)), outcome="vacuous", quantifier="base")
    meeting = session.search(groups)
    meeting.require(session.met(scope))
    least = prepared.told_by(told, meeting, groups)
    met = least.rereads + least.read_as
    if len(met) != 1:
        return replace(told, otherwise=Otherwise(met, together=True))
    known = {(r.group, r.reading) for r in met}
    more = (r for r, k in one_reread(prepared, groups, scope) if (r.group, r.reading) not in known)
    too = (r for r in more if _met_so(prepared, scope, r))
    return replace(told, otherwise=Otherwise((*met, *too)))


def _met_when_stretched(prepared: Prepared, scope: Formula, k: Construction) -> tuple[Reread, ...]:
    """The hedges that must stretch, and how far, for something to meet the claim read so; () if none does."""
    session = prepared.session
    groups = session.groups_in(scope)
    if not any(p.group in groups and p.reading == k.readings[p.group] for p in session.sheet.parameters):
        return ()
    search = session.search(groups)
    search.require(*(session.reads(g, k.readings[g]) for g in groups), session.met(scope))
    if not search.holds():
        return ()
    told = prepared.told_by(at_claim("nothing meets", 4, session.sheet.claims[0]), search, groups)
    return tuple(r for r in (*told.rereads, *told.read_as) if r.breaks)


def _met_so(prepared: Prepared, scope: Formula, reread: Reread) -> bool:
    """Does something meet the claim with one phrase read otherwise, and all else as presumed?"""
    session = prepared.session
    k = session.base.with_reading(reread.group, reread.reading)
    return session.search(()).holds(session.met(scope, k))


def _needed(
    prepared: Prepared,
    instance: Instance,
    conflict: tuple[str, ...],
    k: Construction | None = None,
    read: Sequence[Constraint] = (),
) -> tuple[Ground, ...]:
    """The bounds and given facts without which the conflict would not stand, on one construction or any.

    Or on those that are `read` so.
    """
    formulas = [x.formula for x in instance.limitations if x.label in conflict]
    return prepared.needed(formulas, *(prepared.session.met(f, k) for f in formulas), *read)


# ---- dependent claims


def adds_nothing(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Is everything that meets the parent also within what the dependent claim says for itself?"""
    if not instance.claim.dependent or not instance.own:
        return
    session, claim = prepared.session, instance.claim
    parent, own = instance.parent_scope, instance.own_scope
    groups = session.groups_in(parent, own)
    if not prepared.can_be_met(parent) or not prepared.can_be_met(instance.scope):
        return
    bearing = All(tuple(x.formula for x in prepared.bearing(instance.inherited, *instance.own)))
    if met_whatever_is_read(prepared, bearing, own) is not None:
        # One thing meets the parent and misses the dependent on every construction: it narrows on every one.
        yield from _narrowing(prepared, instance, at_base=True)
        return
    search = session.search(groups)
    search.require(session.met(parent), ~session.met(own))
    if not search.holds():
        by, needed = _implied_by(prepared, instance)
        found = replace(at_claim("adds nothing", 4, claim), outcome="excluded", quantifier="every")
        yield replace(found, about=AddsNothing(by), rests_on=needed)
        return
    base = session.search(())
    base.require(session.met(parent, session.base))
    misses_at_base = base.holds(~session.met(own, session.base))
    narrows_at_base = misses_at_base or not base.holds()
    demands = [Demand(parent, own, "every"), Demand(NOTHING, parent, "some")]
    refined = find_construction(session, demands, stretch=False)
    if refined.construction is not None:
        by, needed = _implied_by(prepared, instance, refined.construction)
        lines = [x.formula for x in instance.inherited if x.label in by.lines]
        least = prepared.where_it_matters(refined, own, lines, parent)
        follows = replace(at_claim("adds nothing", 4, claim), about=AddsNothing(by))
        told = prepared.told_refined(follows, least, groups)
        usual = not narrows_at_base or (least is not refined and not told.rereads)
        quantifier: Quantifier = "base" if usual else "some"
        rests_on = tuple(dict.fromkeys((*told.rests_on, *needed)))
        if quantifier == "base":
            told = _told_narrowing(prepared, instance, told, search)
        else:
            told = _as_far_as_it_holds(prepared, told, instance)
        yield replace(told, outcome="excluded", quantifier=quantifier, rests_on=rests_on)
    yield from _narrowing(prepared, instance, misses_at_base)


def _as_far_as_it_holds(prepared: Prepared, told: Finding, instance: Instance) -> Finding:
    """With how far the numbers that its readings leave open may go until the claim narrows after all."""
    session, k = prepared.session, told.construction
    assert k is not None
    parent, own = instance.parent_scope, instance.own_scope
    groups = session.groups_in(parent, own)
    every = [p for p in prepared.sheet.parameters if p.group in groups and k.readings[p.group] == p.reading]

    def reread(one: Reread) -> Reread:
        points = list(one.breaks)
        for p in (p for p in every if p.group == one.group and not p.unknown and not points):
            search = session.search(groups)
            search.require(*(session.reads(g, k.readings[g]) for g in groups))
            search.require(*(session.stretches(q.key, k.parameter(q.key)) for q in every if q is not p))
            search.require(session.met(parent), ~session.met(own))
            if search.holds() and (end := least_stretch(search, p.key)) is not None:
                points.append(BreakPoint(p.key, Extremum(end.value, not end.closed), upward=False))
        return replace(one, breaks=tuple(points))

    with suppress(Undecided):
        return replace(
            told, rereads=tuple(map(reread, told.rereads)), read_as=tuple(map(reread, told.read_as))
        )
    return told


def _told_narrowing(prepared: Prepared, instance: Instance, told: Finding, search: Search) -> Finding:
    """With the least re-readings on which the claim narrows and something still meets it.

    `search` is for what meets the parent and misses the claim. Where on no reading both hold, that is told.
    """
    groups, by = search.groups, because(told)
    least = prepared.told_by(at_claim("narrows", 6, instance.claim), search, groups)
    if not _met_on(prepared, instance, least.construction):
        refined = _narrows_and_met(prepared, instance)
        if refined.construction is None:
            return replace(told, about=AddsNothing(by, never_both=True))
        least = prepared.told_refined(least, refined, groups)
    against = _narrowing_thing(prepared, instance, least.construction or prepared.session.base)
    narrows = Otherwise(least.rereads + least.read_as, together=True)
    return replace(told, otherwise=narrows, about=AddsNothing(by, against))


def _narrowing_thing(prepared: Prepared, instance: Instance, k: Construction) -> Witness | None:
    """A simplest thing that meets the parent and not the claim on this construction, if one is found."""
    session, formulas = prepared.session, (instance.parent_scope, instance.own_scope)
    search = session.search(())
    search.require(session.met(formulas[0], k), ~session.met(formulas[1], k))
    with suppress(Undecided):
        if search.holds():
            picked = pick_article(session, search, prepared.relevant(*formulas), prepared.known(formulas))
            asked = (Obligation(formulas[0], "met", k), Obligation(formulas[1], "not met", k))
            return verify(prepared.sheet, picked.article, asked)
    return None


def _met_on(prepared: Prepared, instance: Instance, k: Construction | None) -> bool:
    """Does something meet the claim on this construction?"""
    session = prepared.session
    return session.search(()).holds(session.met(instance.scope, k or session.base))


def _narrows_and_met(prepared: Prepared, instance: Instance) -> Refined:
    """The best construction on which the claim leaves out some of its parent, and not all of it."""
    narrows = Demand(instance.parent_scope, instance.own_scope, "not every")
    return find_construction(prepared.session, [narrows, Demand(NOTHING, instance.scope, "some")])


def _implied_by(
    prepared: Prepared, instance: Instance, k: Construction | None = None
) -> tuple[Because, tuple[Ground, ...]]:
    """The fewest lines taken over of which what the claim says follows, on one construction or any.

    With the bounds and given facts that it takes beside these lines; of these as few as it can be before a
    line is left out. No lines where which they are stays undecided.
    """
    session, own = prepared.session, instance.own_scope
    search = session.search(session.groups_in(instance.scope) if k is None else (), things=False)
    search.require(~session.met(own, k))
    causes = session.grounds(prepared.relevant(instance.scope))
    causes += ((Line(x.label), session.met(x.formula, k)) for x in instance.inherited)
    with suppress(Undecided):
        found = search.conflict(causes, NOT_AFRESH) or ()
        return Because(lines_of(found)), prepared.grounds(found)
    parent = instance.parent_scope
    return Because(), prepared.needed((parent, own), session.met(parent, k), ~session.met(own, k))


def _narrowing(prepared: Prepared, instance: Instance, at_base: bool) -> Iterator[Finding]:
    """That the dependent claim narrows; shown, where details are asked for, by the thing it gives up.

    So is it, asked for or not, where as presumed that is one value of one number alone. Nothing where it does
    so only on readings on which nothing meets it: that is told as such.
    """
    session = prepared.session
    parent, own = instance.parent_scope, instance.own_scope
    groups = session.groups_in(parent, own)
    found = replace(at_claim("narrows", 6, instance.claim), about=Narrows())
    search = session.search(groups)
    search.require(session.met(parent), ~session.met(own))
    at_base = at_base and _met_on(prepared, instance, session.base)
    if not at_base:
        with search.aside():
            k = prepared.told_by(found, search, groups).construction
        if not _met_on(prepared, instance, k):
            refined = _narrows_and_met(prepared, instance)
            if refined.construction is None:
                return
            search.require(*session.taken(refined.construction, groups))
    one_value = at_base and _by_one_value(prepared, instance)
    if one_value:
        found = replace(found, about=Narrows(one_value=True))
        search.require(*session.taken(session.base, groups))
    if not (prepared.details or one_value):
        yield replace(found, quantifier="base" if at_base else "some")
        return
    assert search.holds()
    expected: list[tuple[Formula, Expected]] = [(parent, "met"), (own, "not met")]
    sought = Sought((parent, own), expected)
    shown = prepared.exhibit(found, search, sought, prepared.known((parent, own)))
    assert shown.witness is not None
    assert shown.construction is not None
    failing = prepared.failing(instance.own, shown.witness.article, shown.construction)
    yield replace(shown, failing=failing, quantifier="some" if shown.rereads else "base")


def _by_one_value(prepared: Prepared, instance: Instance) -> bool:
    """Does all that the claim leaves out, as presumed, have one value of the one number that it limits?"""
    session, own = prepared.session, instance.own_scope
    names = session.names_in(own)
    declared = [d for d in prepared.sheet.declarations if d.name in names]
    if len(declared) != 1 or not isinstance(declared[0], NumberDecl) or declared[0].whole:
        return False
    search = session.search(())
    search.require(session.met(instance.parent_scope, session.base), ~session.met(own, session.base))
    with suppress(Undecided):
        if search.find():
            (name,) = names
            value = search.article()[name]
            assert isinstance(value, Fraction)
            return not search.holds(session.met(Compare("!=", Measured(name), Const(value))))
    return False


# ---- stated ends


def ends_not_reached(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Does a dependent claim state an end that nothing in its scope reaches or approaches, in the base?

    An end the claim merely leaves to its parent is not looked at; nor is one that the limitation leaves out
    by itself, as "more than three" does with a count, unless the other lines keep the claim further away. Of
    an independent claim the ends of shares of a whole are: ranges that cannot add up are stated by mistake.
    """
    shares = _shares(prepared)
    if not (instance.claim.dependent or shares.intersection(prepared.session.names_in(instance.own_scope))):
        return
    session = prepared.session
    whole = session.search(())
    whole.require(session.met(instance.scope, session.base))
    if not whole.holds():
        return
    for limitation in instance.own:
        dead: dict[tuple[bool, Fraction], list[_DeadEnd]] = {}
        reached: set[tuple[bool, Fraction]] = set()
        for end in written_ends(limitation.formula, session.base.readings):
            written = (end.upper, end.limit.value)
            if _beyond_the_parts(prepared, end) or _is_of_the_phrase(limitation, end):
                continue
            of_share = isinstance(end.term, Measured) and end.term.name in shares
            if not (instance.claim.dependent or of_share):
                continue
            if limitation.exact and end.limit.value == 0:
                continue  # a guard, that there is some at all
            there = All((end.given, Compare("=", end.term, end.term)))
            if written in reached or not whole.holds(session.met(there, session.base)):
                continue
            found = _dead_end(prepared, instance, whole, end, limitation)
            if found is None:
                reached.add(written)
            else:
                dead.setdefault(written, []).append(found)
        for written, ends in dead.items():
            if written not in reached:
                # An end that several terms share is told once: of one that never gets there, if any.
                yield _told_dead(prepared, instance, limitation, min(ends, key=lambda e: e.never is None))


def _shares(prepared: Prepared) -> frozenset[str]:
    """The shares that add up to a whole, and those of classes of them: their ranges may not fit together."""
    made_of = prepared.sheet.compositions
    names = (n for made in made_of for n in (*made.members, *(name for name, _ in made.classes)))
    return frozenset(names)


def _beyond_the_parts(prepared: Prepared, end: WrittenEnd) -> bool:
    """Is it so many like parts that the sheet does not let there be? Its own bound keeps nothing away."""
    counts = {part.count: part.most for part in prepared.sheet.parts}
    return isinstance(end.term, Measured) and end.limit.value > counts.get(end.term.name, end.limit.value)


def _is_of_the_phrase(limitation: Limitation, end: WrittenEnd) -> bool:
    """Is it the 1 of a quotient by words that name no number: `an integral multiple of the teeth`?"""
    said = limitation.words.lower().replace("-", " ").split()
    no_number = bool(said) and not any(w in NUMBER_WORDS or any(map(str.isdigit, w)) for w in said)
    return no_number and isinstance(end.term, Divide) and end.limit.value == 1


@record
class _DeadEnd:
    """A stated end, how far the claim goes in the base, and on any reading where it never gets there."""

    end: WrittenEnd
    usual: Extremum
    never: Extremum | None


def _dead_end(
    prepared: Prepared, instance: Instance, whole: Search, end: WrittenEnd, limitation: Limitation
) -> _DeadEnd | None:
    session = prepared.session
    alone = Const(farthest_by_itself(session.words.wholes, end.op, end.term, end.limit.value))
    there = All((end.given, Compare("=", end.term, alone)))
    if whole.holds(session.met(there, session.base)):
        return None
    usual = _reach(prepared, instance, _tied_to(prepared, instance, end), end, session.base)
    if usual is None or _reaches(end.op, usual, alone.value):
        return None
    if end.op in ("<", ">") and usual.value == last_whole_before(end, limitation.formula, session.base):
        return None  # '0 <= x < 52, x IS WHOLE' states no 52
    if end.op in ("<", ">") and usual.value in last_multiples(instance.limitations, end, session.base):
        return None  # of an even number 'less than 10' leaves 8
    never = (
        _end_on_any(prepared, instance, end, alone, limitation)
        if _speaks_always(prepared, end, limitation)
        else None
    )
    return _DeadEnd(end, usual, never)


def _tied_to(prepared: Prepared, instance: Instance, end: WrittenEnd) -> Formula:
    """The claim's lines that speak of what an end limits, or of what others or given facts tie to it.

    As presumed something meets the claim: what speaks of other things can be met whatever the end comes to.
    """
    session = prepared.session
    lines = [(x.formula, session.names_in(x.formula)) for x in instance.limitations]
    tied = [names for _, names in lines] + [session.names_in(g.formula) for g in prepared.sheet.givens]
    names = session.names_in(end.given, Compare("=", end.term, end.term))
    while (wider := names.union(*(t for t in tied if t & names))) != names:
        names = wider
    return All(tuple(f for f, own in lines if own & names or not own))


def last_whole_before(end: WrittenEnd, formula: Formula, k: Construction) -> Fraction | None:
    """The last whole number before an end that is out, where the line says the value is whole; else None."""
    for g in groups_in(formula):
        formula = read_as(formula, g, k.readings[g])
    if not any(isinstance(n, IsWhole) and n.item == end.term for n in nodes(formula)):
        return None
    limit = end.limit.value
    return Fraction(ceil(limit) - 1 if end.op == "<" else floor(limit) + 1)


def last_multiples(lines: Sequence[Limitation], end: WrittenEnd, k: Construction) -> set[Fraction]:
    """The last multiple before an end that is out, of each number that a line wants multiples of."""
    found = set()
    for x in lines:
        for n in nodes(read_at(x.formula, k)):
            match n:
                case IsWhole(Divide(left, Const(step))) if left == end.term and step > 0:
                    times = end.limit.value / step
                    found.add(step * (ceil(times) - 1 if end.op == "<" else floor(times) + 1))
                case _:
                    pass
    return found


def _speaks_always(prepared: Prepared, end: WrittenEnd, limitation: Limitation) -> bool:
    """Does the limitation compare the same, by itself, on each reading of its words?"""
    session, formula = prepared.session, limitation.formula
    names = session.names_in(Compare("=", end.term, end.term))
    each = (
        nodes(read_as(formula, g, r))
        for g in session.groups_in(formula)
        for r in admissible_readings(prepared.sheet.groups[g], session.strained)
    )
    return all(any(isinstance(n, Compare) and names_in(n) == names for n in read) for read in each)


def _told_dead(prepared: Prepared, instance: Instance, limitation: Limitation, dead: _DeadEnd) -> Finding:
    session, stated, usual, never = prepared.session, dead.end, dead.usual, dead.never
    op, term = stated.op, stated.term
    end = usual if never is None else never
    beyond = All((stated.given, Compare(_further(op, end), term, Const(end.value))))
    with_readings = farthest(prepared, instance, stated, usual, end) if end != usual else ()
    at = session.base if never is None else None
    labels, grounds = ruling_out(prepared, instance, limitation.label, beyond, at)
    return replace(
        at_limitation("end not reached", 4, limitation),
        outcome="excluded",
        quantifier="base" if never is None else "every",
        about=_how_far(dead, Because(labels), with_readings),
        rests_on=prepared.grounds(grounds),
        construction=session.base,
    )


def _further(op: Op, end: Extremum) -> Op:
    """How what lies further than the end compares with it."""
    if op in ("<", "<="):
        return ">" if end.closed else ">="
    return "<" if end.closed else "<="


def _how_far(dead: _DeadEnd, by: Because, with_readings: tuple[Reread, ...]) -> EndNotReached:
    """The end with how far the claim goes: on any reading, if it never gets there, and as presumed."""
    limit, usual = dead.end.limit, dead.usual
    digits = limit.written.text if limit.written else str(limit.value)
    unit = limit.written.unit if limit.written else None
    symbol = unit.symbol if unit else ""

    def in_unit(reached: Extremum) -> Extremum:
        return Extremum(unit.from_base(reached.value) if unit else reached.value, reached.closed)

    far = usual if dead.never is None else dead.never
    return EndNotReached(
        by,
        f"{digits} {symbol}".rstrip(),
        symbol,
        dead.end.upper,
        in_unit(far),
        in_unit(usual) if usual != far else None,
        with_readings,
    )


def _end_on_any(
    prepared: Prepared, instance: Instance, end: WrittenEnd, limit: Const, limitation: Limitation
) -> Extremum | None:
    """How far the scope goes on any reading at all, where that never comes near the end; else None."""
    session = prepared.session
    scope = All(tuple(x.formula for x in (*prepared.bearing(instance.limitations, limitation), limitation)))
    search = session.search(session.groups_in(scope))
    search.require(session.met(scope))
    there = All((end.given, Compare(">=" if end.upper else "<=", end.term, limit)))
    if search.holds(session.met(there)):
        return None
    with suppress(Undecided):
        reach = _reach(prepared, instance, scope, end, None)
        return None if reach is None or _reaches(end.op, reach, limit.value) else reach
    return None


def _reach(
    prepared: Prepared, instance: Instance, scope: Formula, end: WrittenEnd, at: Construction | None
) -> Extremum | None:
    """The greatest (for an upper end) or least value that the term takes within the scope, under a
    construction, or on any of all."""
    session = prepared.session
    search = session.search(() if at else session.groups_in(scope))
    search.require(session.met(scope, at), session.met(end.given, at))
    likely = _likely(prepared, instance, end.term)
    if isinstance(end.term, Divide):
        likely = [*likely, *_of_ends(prepared, instance, search, end, at)]
        return _quotient_reach(prepared, search, end, sorted(likely, reverse=not end.upper), at)
    reach = supremum if end.upper else infimum
    return reach(search, end.term, at, likely)


def _of_ends(
    prepared: Prepared, instance: Instance, search: Search, end: WrittenEnd, at: Construction | None
) -> Iterator[Fraction]:
    """The quotient of the ends of its parts that make it greatest, or least: it goes no further than that."""
    assert isinstance(end.term, Divide)
    above, below = (supremum, infimum) if end.upper else (infimum, supremum)
    with suppress(Undecided):
        parts = end.term.left, end.term.right
        high, low = (
            reach(search, part, at, _likely(prepared, instance, part))
            for reach, part in zip((above, below), parts, strict=True)
        )
        if high is not None and low is not None and low.value > 0:
            yield high.value / low.value


def _quotient_reach(
    prepared: Prepared, search: Search, end: WrittenEnd, likely: list[Fraction], at: Construction | None
) -> Extremum:
    """How far the quotient goes, by the first of the likely values that it does not go beyond.

    Else the stated end itself.
    """
    session = prepared.session
    for value in likely:
        if not search.holds(session.met(_beyond(end, value), at)):
            if search.holds(session.met(Compare("=", end.term, Const(value)), at)):
                return Extremum(value, True)
            return _drawn_in(prepared, search, end, value, at)
    return Extremum(end.limit.value, False)


def _beyond(end: WrittenEnd, value: Fraction) -> Formula:
    return Compare(">" if end.upper else "<", end.term, Const(value))


def _drawn_in(
    prepared: Prepared, search: Search, end: WrittenEnd, bound: Fraction, at: Construction | None
) -> Extremum:
    """How far the quotient goes, which stays this side of the bound: a bound that it comes close to.

    Steps of halving propose it; that it is not gone beyond is asked.
    """
    session, out = prepared.session, 1 if end.upper else -1
    near, far, reach = None, bound, abs(bound) / 2**CLOSE or Fraction(1, 2**CLOSE)
    with suppress(Undecided):
        for _ in range(MOST_HALVINGS):
            middle = far - out * reach if near is None else (near + far) / 2
            if search.holds(session.met(_beyond(end, middle), at)):
                if near is None and far == bound:
                    return Extremum(bound, False)
                near = middle
            else:
                far = middle
            reach *= 1 if near is not None else 4
            if near is not None and abs(far - near) * 2**CLOSE <= abs(far):
                break
        plain = simplest_within(*sorted((near if near is not None else far, far)))
        if not search.holds(session.met(_beyond(end, plain), at)):
            return Extremum(plain, search.holds(session.met(Compare("=", end.term, Const(plain)), at)))
    return Extremum(simplest_within(*sorted((far, (far + bound) / 2))), False)


def _likely(prepared: Prepared, instance: Instance, term: Term) -> list[Fraction]:
    """The numbers that limit the term, or what given facts tie to it, in the claim: mostly its ends."""
    session = prepared.session
    if isinstance(term, Divide):
        return _compared_with(prepared, instance, term)
    found = stated_ends(x.formula for x in instance.limitations)
    names = prepared.relevant(Compare("=", term, term))
    bounds = (prepared.sheet.declaration(name) for name in names)
    likely = {b.value for d in bounds if isinstance(d, NumberDecl) for b in (d.lower, d.upper) if b}
    for value, step in (end for name in names for end in found.get(name, ())):
        likely |= {value, value - step / 2, value + step / 2}  # what rounds to a number ends half a step off
    given = (g.formula for g in prepared.sheet.givens if session.names_in(g.formula) & names)
    return sorted(likely.union(n.value for f in given for n in nodes(f) if isinstance(n, Const)))


def _compared_with(prepared: Prepared, instance: Instance, quotient: Divide) -> list[Fraction]:
    """The numbers in the lines that speak of both parts of a quotient, and what rounds to them."""
    names = prepared.session.names_in(Compare("=", quotient, quotient))
    lines = [x.formula for x in instance.limitations if names <= prepared.session.names_in(x.formula)]
    ends = {(n.value, n.written.step) for f in lines for n in nodes(f) if isinstance(n, Const) and n.written}
    return sorted({value + half for value, step in ends for half in (-step / 2, Fraction(0), step / 2)})


def _reaches(op: Op, end: Extremum, limit: Fraction) -> bool:
    return end.value >= limit if op in ("<", "<=") else end.value <= limit
