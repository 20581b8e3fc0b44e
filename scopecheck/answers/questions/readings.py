"""What the readings ask: does one part what was meant from what was not, and where do they disagree?"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from itertools import combinations

from scopecheck.answers.about import Change, OneReading, Plain, Unmeant
from scopecheck.answers.findings import Bearer, Finding, Looked, Quantifier
from scopecheck.answers.minimise import pick_article, settle_readings
from scopecheck.answers.questions.cases import Answer, prefer_rest_met
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared, Sought, at_limitation
from scopecheck.answers.refine import Demand, some_construction
from scopecheck.answers.witness import Expected, Obligation, verify
from scopecheck.core.construction import admissible_readings
from scopecheck.core.formula import All, Any, Formula, Not
from scopecheck.core.model import Limitation
from scopecheck.core.reference import Reference
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Constraint, Undecided, all_of, any_of
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Search

Step = tuple[int, int]
"""A group and the reading it is taken by."""


def parts_meant(prepared: Prepared, limitation: Limitation) -> Iterator[Answer]:
    """Does some reading let in what was meant to be out, or keep out what was meant to be in?"""
    if limitation.meant is None:
        return
    yield from _unmeant_met(prepared, limitation, limitation.meant)
    yield from _meant_lost(prepared, limitation, limitation.meant)


def _unmeant_met(prepared: Prepared, limitation: Limitation, meant: Formula) -> Iterator[Answer]:
    session, formula = prepared.session, limitation.formula
    groups = session.groups_in(formula)
    search = session.search(groups)
    wrong = session.met(formula), session.denied(meant)
    search.require(*wrong)
    if not _beside_the_rest(prepared, limitation, search, *wrong):
        yield Looked("unmeant met", limitation.claim, limitation.label)
        return
    others = _readings_alone(prepared, limitation, search)
    escape = Demand(Not(meant), formula, "none")
    every = _on_each(
        prepared, search, groups, escape, session.surely(formula, met=True), session.denied(meant)
    )
    shown = prepared.exhibit(
        replace(at_limitation("unmeant met", 2, limitation), bearer="challenger", about=Unmeant()),
        search,
        Sought((formula, meant), ((formula, "met"), (meant, "false"))),
        prepared.known((meant, formula)),
        prepared.graded(meant, wanted=False),
    )
    counted = _counted(prepared, shown, groups, others, escape, every)
    yield _with_twin(prepared, counted, formula, meant)


def _meant_lost(prepared: Prepared, limitation: Limitation, meant: Formula) -> Iterator[Answer]:
    session, formula = prepared.session, limitation.formula
    groups = session.groups_in(formula)
    search = session.search(groups)
    wrong = ~session.met(formula), session.met(meant)
    search.require(*wrong)
    if not _beside_the_rest(prepared, limitation, search, *wrong):
        yield Looked("meant lost", limitation.claim, limitation.label)
        return
    others = _readings_alone(prepared, limitation, search)
    escape = Demand(meant, formula, "every")
    every = _on_each(prepared, search, groups, escape, session.surely(formula, met=False), session.met(meant))
    shown = prepared.exhibit(
        replace(at_limitation("meant lost", 3, limitation), bearer="competitor", about=Unmeant()),
        search,
        Sought((formula, meant), ((formula, "not met"), (meant, "met"))),
        prepared.known((meant, formula)),
        prepared.graded(meant),
    )
    found = _counted(prepared, shown, groups, others, escape, every)
    settled = prepared.settled_in((limitation,), (limitation.label,), narrow=True)
    yield found if found.quantifier == "some" else replace(found, rests_on=settled)


def _beside_the_rest(prepared: Prepared, limitation: Limitation, search: Search, *wrong: Constraint) -> bool:
    """Is something `wrong` that the other lines of the claim do not keep out, however they are read?

    The search is then for one that they let in as presumed, if there is any.
    """
    if not search.holds():
        return False
    session = prepared.session
    rest = [x.formula for x in prepared.sheet.claim(limitation.claim).limitations if x is not limitation]
    above = [All(tuple(x.formula for x in i.inherited)) for i in prepared.instances[limitation.claim]]
    rest += [Any(tuple(above))] if above and All(()) not in above else []
    if not rest:
        return True
    beside = session.search(session.groups_in(limitation.formula, *rest))
    beside.require(*wrong, *map(session.met, rest))
    if not beside.holds():
        return False
    prefer_rest_met(prepared, limitation.label, search, (limitation.formula,))
    return True


def _readings_alone(prepared: Prepared, limitation: Limitation, search: Search) -> tuple[Step, ...]:
    """The readings that have the effect by themselves, every other group being as in the base."""
    session = prepared.session
    groups = session.groups_in(limitation.formula)
    found: list[Step] = []
    for g in groups:
        rest = [c for h in groups if h != g for c in session.taken(session.base, (h,))]
        readings = admissible_readings(prepared.sheet.groups[g], session.strained)
        found += [(g, r) for r in readings if search.holds(session.reads(g, r), *rest)]
    return tuple(found)


def _on_each(
    prepared: Prepared, search: Search, groups: tuple[int, ...], escape: Demand, *always: Constraint
) -> bool:
    """Is there no escape on any construction? The search is then for one thing that shows it on each, if the
    readings of least rank have one."""
    if some_construction(prepared.session, [escape]):
        return False
    settle_readings(prepared.session, search, groups)
    if search.holds(*always):
        search.require(*always)
    return True


def _counted(
    prepared: Prepared,
    shown: Finding,
    groups: tuple[int, ...],
    alone: tuple[Step, ...],
    escape: Demand,
    every: bool,
) -> Finding:
    """How far the effect reaches: the base, some construction or, with no escape from it, every one."""
    assert shown.construction is not None
    taken = {(g, shown.construction.readings[g]) for g in groups}
    others = tuple(step for step in alone if step not in taken)
    if every:
        assert shown.witness is not None
        met = escape.wanted == "none"
        on_each = prepared.on_every(escape.formula, shown.witness.article, met)
        thing = replace(shown.thing, on_each=on_each)
        return replace(shown, quantifier="every", stakes=1, others=others, thing=thing)
    quantifier: Quantifier = "some" if shown.rereads or shown.read_as else "base"
    return replace(shown, quantifier=quantifier, others=others)


def _with_twin(prepared: Prepared, shown: Finding, formula: Formula, meant: Formula) -> Finding:
    """Adds the meant thing that is met on the same reading and is as like the unmeant one as can be."""
    session = prepared.session
    assert shown.construction is not None
    assert shown.witness is not None
    k = shown.construction
    search = session.search(())
    search.require(session.met(formula, k), session.met(meant))
    if not search.holds():
        return shown
    known = [Reference("", shown.witness.article)]
    picked = pick_article(session, search, prepared.relevant(formula, meant), known)
    wanted: tuple[tuple[Formula, Expected], ...] = ((formula, "met"), (meant, "met"))
    twin = verify(prepared.sheet, picked.article, tuple(Obligation(f, e, k) for f, e in wanted))
    return replace(shown, about=Unmeant(twin))


# ---- contested


def contested(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Which phrase of the claim's own words, re-read alone, changes what the claim takes in?

    Of words alike in several lines each line is told where details are asked for.
    """
    session = prepared.session
    scope = instance.scope
    if not prepared.can_be_met(scope):
        return
    asked: set[int] = set()
    lines = [x.formula for x in instance.limitations]
    for limitation in instance.own:
        for g in session.groups_in(limitation.formula):
            if g in asked:
                continue
            asked.add(g)
            turning = _Turning(prepared, instance, g)
            alike = [x for x in instance.own if prepared.details and g in session.groups_in(x.formula)]
            for r in session.readings_of(g, *lines):
                if r == session.base.readings[g] and not _has_stretch(prepared, g, r):
                    continue
                told = [f for x in alike if (f := _flip_here(prepared, x, instance, turning, (g, r)))]
                yield from told or _flip(prepared, limitation, instance, turning, (g, r))


class _Turning:
    """What re-reading one group of a claim changes, every other group being as in the base.

    Without details only lines that can bear on those with the group are looked at, and the same lines once,
    however many claims share them.
    """

    def __init__(self, prepared: Prepared, instance: Instance, group: int) -> None:
        session = prepared.session
        self.prepared = prepared
        self.lines = instance.limitations
        if not prepared.details:
            turned = [x for x in self.lines if group in session.groups_in(x.formula)]
            kept = {x.label for x in (*turned, *prepared.bearing(self.lines, *turned))}
            self.lines = tuple(x for x in self.lines if x.label in kept)
        whole = len(self.lines) == len(instance.limitations)
        self.scope = instance.scope if whole else All(tuple(x.formula for x in self.lines))
        self.groups = session.groups_in(self.scope)
        met, base = session.met(self.scope), session.met(self.scope, session.base)
        self.gain, self.loss = met & ~base, ~met & base
        self.rest = [c for h in self.groups if h != group for c in session.taken(session.base, (h,))]
        self.search = session.search(self.groups)

    def holds(self, step: Step, wider: bool) -> bool:
        """Does something show that the reading makes the claim wider, or narrower?"""
        key = (tuple(x.label for x in self.lines), step, wider)
        known = self.prepared.turned
        if key not in known:
            reads = self.prepared.session.reads(*step)
            known[key] = self.search.holds(reads, self.gain if wider else self.loss, *self.rest)
        return known[key]


def _has_stretch(prepared: Prepared, group: int, reading: int) -> bool:
    return any(p.group == group and p.reading == reading for p in prepared.sheet.parameters)


def _flip(
    prepared: Prepared, limitation: Limitation, instance: Instance, turning: _Turning, step: Step
) -> Iterator[Answer]:
    wider = turning.holds(step, True)
    narrower = (not wider or prepared.details) and turning.holds(step, False)
    finding = replace(at_limitation("contested", 5, limitation), about=OneReading(step, "nothing"))
    if not (wider or narrower):
        yield from _with_others(prepared, finding, instance, step)
        return
    change: Change = "both" if wider and narrower else "wider" if wider else "narrower"
    finding = replace(finding, about=OneReading(step, change), bearer="challenger" if wider else "competitor")
    if prepared.details:
        search = turning.search
        with search.aside():
            changed = turning.gain if wider else turning.loss
            search.require(prepared.session.reads(*step), changed, *turning.rest)
            for lines in ((limitation,), instance.own):
                turned = _turned_by(prepared, lines, step[0], wider)
                if search.holds(turned):
                    search.require(turned)
                    break
            finding = _with_thing(prepared, finding, search, instance.scope, wider)
        finding = _at_one_stretch(prepared, finding, instance.scope)
        finding = _where_it_turns(prepared, finding, instance, step[0])
    yield finding


def _flip_here(
    prepared: Prepared, limitation: Limitation, instance: Instance, turning: _Turning, step: Step
) -> Finding | None:
    """What a reading changes by this line, with a thing that shows it; None where it changes nothing by it.

    Words alike may stand in several lines: what they change there is told of these.
    """
    search, reads = turning.search, prepared.session.reads(*step)
    ways = []
    for wider, changed in ((True, turning.gain), (False, turning.loss)):
        turned = _turned_by(prepared, (limitation,), step[0], wider)
        if search.holds(reads, changed, turned, *turning.rest):
            ways.append((wider, changed, turned))
    if not ways:
        return None
    wider, changed, turned = ways[0]
    finding = replace(
        at_limitation("contested", 5, limitation),
        about=OneReading(step, "both" if len(ways) > 1 else "wider" if wider else "narrower"),
        bearer="challenger" if wider else "competitor",
    )
    with search.aside():
        search.require(reads, changed, turned, *turning.rest)
        found = _with_thing(prepared, finding, search, instance.scope, wider)
        return _at_one_stretch(prepared, found, instance.scope)


def _at_one_stretch(prepared: Prepared, finding: Finding, scope: Formula) -> Finding:
    """The finding; of what is wider and narrower at different stretches only, told as such."""
    about = finding.about
    if not isinstance(about, OneReading) or about.change != "both" or finding.construction is None:
        return finding
    session, k = prepared.session, finding.construction
    lost = ~session.met(scope, k), session.met(scope, session.base)
    return (
        finding
        if session.search(()).holds(*lost)
        else replace(finding, about=replace(about, change="either"))
    )


def _turned_by(prepared: Prepared, own: tuple[Limitation, ...], group: int, wider: bool) -> Constraint:
    """That one of these limitations with the group keeps the thing out where it is out.

    Words alike may stand in what the claim takes over, too: what they change is told there.
    """
    session = prepared.session
    alike = (x.formula for x in own if group in session.groups_in(x.formula))
    return any_of(~(session.met(f, session.base) if wider else session.met(f)) for f in alike)


def _with_thing(prepared: Prepared, finding: Finding, search: Search, scope: Formula, wider: bool) -> Finding:
    """Adds the thing on which the reading and the base disagree, where one can be shown: that there is one is
    known."""
    changed: tuple[tuple[Formula, Expected], ...] = ((scope, "met" if wider else "not met"),)
    before: tuple[tuple[Formula, Expected], ...] = ((scope, "not met" if wider else "met"),)
    with suppress(Undecided):
        sought = Sought((scope,), changed, in_base=before)
        return prepared.exhibit(finding, search, sought, prepared.known((scope,)))
    return finding


def _where_it_turns(prepared: Prepared, finding: Finding, instance: Instance, group: int) -> Finding:
    """The finding at the limitation that the thing meets on the one reading only: words alike may be many."""
    if finding.witness is None or finding.construction is None:
        return finding
    article, base = finding.witness.article, prepared.session.base
    for x in (*instance.own, *instance.inherited):
        alike = group in prepared.session.groups_in(x.formula)
        if alike and meets(x.formula, article, finding.construction) != meets(x.formula, article, base):
            there = at_limitation(finding.question, finding.stakes, x)
            return replace(finding, label=there.label, words=there.words, span=there.span)
    return finding


def _with_others(prepared: Prepared, finding: Finding, instance: Instance, step: Step) -> Iterator[Finding]:
    """What a reading that changes nothing alone does together with others: pairs, something, or nothing."""
    session = prepared.session
    g, r = step
    scope = instance.scope
    groups = session.groups_in(scope)
    met, base = session.met(scope), session.met(scope, session.base)
    search = session.search(groups)
    search.require(session.reads(g, r))
    if not search.holds(_differ(met, session.met(session.as_base(scope, g)))):
        yield replace(finding, question="harmless", stakes=6, outcome="excluded", quantifier="none")
        return
    yield replace(finding, about=OneReading(step, "with others"))
    changed = [~session.reads(h, session.base.readings[h]) for h in groups]
    search.require(_differ(met, base), _unmoved(prepared, scope, base, g), session.at_most_of(changed, 2))
    # Beside what lets something in by itself, every other reading would do it together.
    if search.holds() and not _opened_by_one(prepared, scope, groups):
        found = replace(finding, question="pair", about=Plain())
        for h in groups:
            if h != g:
                yield from _pair(prepared, found, scope, (g, h), (session.reads(g, r),))


def _opened_by_one(prepared: Prepared, scope: Formula, groups: tuple[int, ...]) -> bool:
    """Does nothing meet the claim as presumed, and something once one phrase is re-read?"""
    session = prepared.session
    if session.search(()).holds(session.met(scope, session.base)):
        return False
    opened = session.search(groups)
    changed = [~session.reads(h, session.base.readings[h]) for h in groups]
    opened.require(session.met(scope), session.at_most_of(changed, 1))
    return opened.holds()


def pairs(prepared: Prepared, limitation: Limitation) -> Iterator[Answer]:
    """Two phrases of one limitation that change what it takes in only when both are re-read."""
    session = prepared.session
    rest = tuple(x.formula for x in prepared.limitations(limitation.claim) if x.label != limitation.label)
    for g, h in combinations(session.groups_in(limitation.formula), 2):
        departing = (session.departing(g), session.departing(h))
        found = at_limitation("pair", 5, limitation)
        yield from _pair(prepared, found, limitation.formula, (g, h), departing, rest)


def _pair(
    prepared: Prepared,
    finding: Finding,
    formula: Formula,
    pair: Step,
    required: tuple[Constraint, ...],
    rest: tuple[Formula, ...] = (),
) -> Iterator[Finding]:
    """The thing on which only both re-readings of a pair of groups change what meets the formula.

    A free stretch moves everything by itself, so a group with one makes no pair. If there is one that meets
    the `rest` of the claim, read as presumed, it is such a thing.
    """
    session = prepared.session
    if any(p.group in pair for p in prepared.sheet.parameters):
        return
    groups = session.groups_in(formula)
    met, base = session.met(formula), session.met(formula, session.base)
    search = session.search(groups)
    search.require(*required, *(_unmoved(prepared, formula, base, x) for x in pair))
    search.require(*(c for x in groups if x not in pair for c in session.taken(session.base, (x,))))
    for wider, change in ((True, met & ~base), (False, ~met & base)):
        if search.holds(change):
            search.require(change)
            beside = [session.met(f, session.base) for f in rest]
            if beside and search.holds(*beside):
                search.require(*beside)
            bearer: Bearer = "challenger" if wider else "competitor"
            yield _with_thing(prepared, replace(finding, bearer=bearer), search, formula, wider)
            return


def _unmoved(prepared: Prepared, formula: Formula, base: Constraint, group: int) -> Constraint:
    """That no re-reading of the group alone, its parameters as presumed, changes what meets the formula."""
    session = prepared.session
    readings = admissible_readings(prepared.sheet.groups[group], session.strained)
    alone = [session.met(formula, session.base.with_reading(group, r)) for r in readings]
    return all_of(~_differ(met, base) for met in alone)


def _differ(left: Constraint, right: Constraint) -> Constraint:
    return (left & ~right) | (~left & right)
