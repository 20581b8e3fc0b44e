"""Does each limitation, and each end of a range by itself, ask for something that the rest does not ask?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.about import Because, Idle, IdleEnd
from scopecheck.answers.findings import Finding, Looked, Quantifier
from scopecheck.answers.questions.cases import Answer
from scopecheck.answers.questions.claims import NOTHING, met_whatever_is_read
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.nearby import needed_nearby
from scopecheck.answers.questions.otherwise import with_not_so
from scopecheck.answers.questions.prepared import Prepared, at_limitation
from scopecheck.answers.refine import Demand, find_construction
from scopecheck.core.construction import Construction, names_in, nodes
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import All, Any, Compare, Const, Formula, Implies, Not, Read
from scopecheck.core.grounds import Bounds, Cause, GivenFact, Line, lines_of
from scopecheck.core.model import Limitation
from scopecheck.core.stated import RangeEnd, names_only
from scopecheck.core.written_ends import written_ends
from scopecheck.foundations.record import replace

Labelled = tuple[Line, Formula]


def idle(prepared: Prepared, instance: Instance) -> Iterator[Answer]:
    """Which limitations, and which ends, of the claim's own does everything meet that meets all the rest?

    A claim that nothing can meet is not asked, nor is one that adds a single limitation to what it depends
    on: whether that adds nothing is asked of the claim. Of limitations that are idle beside each other as
    many are told as can go together; the others of them are told as their twins.
    """
    if not instance.own or not prepared.can_be_met(instance.scope):
        return
    claim = instance.claim
    lines = () if claim.dependent and len(instance.own) == 1 else limiting(prepared, instance.own)
    lines = tuple(x for x in lines if not _closes_beside_another(prepared, instance, x))
    asked = tuple(x for x in lines if not _counts_what_is_looked_at(prepared, instance, x))
    rests = {x.label: All(tuple(y.formula for y in prepared.bearing(instance.limitations, x))) for x in asked}
    doubted = [x for x in asked if not _missed_by_something(prepared, instance, x, x.formula, rests[x.label])]
    always = _together(prepared, instance, [x for x in doubted if _is_idle(prepared, instance, (x,))], None)
    told = [*always]
    idle_always = {label for f in always for label in (f.label, *_twins(f))}
    rest = [x for x in doubted if x.label not in idle_always]
    base = prepared.session.base
    usual = [x for x in rest if _is_idle(prepared, instance, (x,), base)]
    usual_ones = _together(prepared, instance, usual, base)
    told += usual_ones
    idle_usually = {label for f in usual_ones for label in (f.label, *_twins(f))}
    for x in rest:
        if x.label not in idle_usually:
            told += _idle_on_some(prepared, instance, x, rests[x.label])
    yield from told
    whole = idle_always | idle_usually
    ends = [f for x in instance.own if x.label not in whole for f in _idle_ends(prepared, instance, x)]
    yield from ends
    told_of_all = asked == lines and all(_taken_apart(prepared, x) for x in asked)
    if asked and not told and not ends and told_of_all:
        yield Looked("idle", claim.number, f"claim {claim.number}")


def _twins(finding: Finding) -> tuple[str, ...]:
    return finding.about.twins if isinstance(finding.about, Idle) else ()


def _closes_beside_another(prepared: Prepared, instance: Instance, limitation: Limitation) -> bool:
    """Does another line too say what a composition has beside the listed, `consisting of` or `balance iron`?

    Such claims are written so, and either could go.
    """
    readings = prepared.session.base.readings
    usual = {
        x: x.formula.options[readings[x.formula.group]] if isinstance(x.formula, Read) else x.formula
        for x in instance.limitations
    }
    for made in prepared.sheet.compositions:
        of_the_rest = [x.label for x in usual if x.subject == made.name and made.others in names_in(usual[x])]
        if len(of_the_rest) > 1 and limitation.label in of_the_rest:
            return True
    return False


def _counts_what_is_looked_at(prepared: Prepared, instance: Instance, limitation: Limitation) -> bool:
    """Does it limit how many like parts there are to what the sheet looks at anyhow, and no other line so?"""
    session, formula = prepared.session, limitation.formula
    if not session.names_in(formula) <= _counts(prepared):
        return False
    search = session.search(session.groups_in(formula))
    if search.holds(~session.met(formula)):
        return False
    rest = [(Line(x.label), x.formula) for x in instance.limitations if x is not limitation]
    return not _implied_by(prepared, rest, formula, session.base)


def _counts(prepared: Prepared) -> set[str]:
    return {part.count for part in prepared.sheet.parts}


def _taken_apart(prepared: Prepared, limitation: Limitation) -> bool:
    """Was each end of the limitation asked by itself? Not of '8 to 16 mm or more than 20 mm'."""
    several = _count_of_ends(limitation.formula, prepared.session.base.readings) > 1
    return not several or bool(prepared.range_ends(limitation))


def _count_of_ends(formula: Formula, readings: tuple[int, ...]) -> int:
    """How many comparisons with a written number stand in the formula as read."""
    match formula:
        case Read(group, options):
            return _count_of_ends(options[readings[group]], readings)
        case All(items) | Any(items):
            return sum(_count_of_ends(item, readings) for item in items)
        case Not(item) | Implies(_, item):
            return _count_of_ends(item, readings)
        case Compare(op) if op not in ("=", "!="):
            return int(any(isinstance(n, Const) and n.written for n in nodes(formula)))
        case _:
            return 0


def limiting(prepared: Prepared, own: Sequence[Limitation]) -> tuple[Limitation, ...]:
    """Without words that limit nothing as usually read, such as `comprising` and `optionally`.

    Nor is it asked of words that name the steps of a process alone: what else a claim says of a step means
    that it is done, and naming it first is how such claims are written.
    """
    return tuple(x for x in own if not names_only(prepared.sheet, x))


def _missed_by_something(
    prepared: Prepared,
    instance: Instance,
    own: Limitation,
    formula: Formula,
    rest: Formula,
    beside: Formula | None = None,
) -> bool:
    """Does something that meets the rest miss the formula, on every construction, stretches as presumed?

    Things close to one that meets the claim are tried first. False means only that none was found.
    """
    others = [x.formula for x in instance.limitations if x is not own] + (
        [beside] if beside is not None else []
    )
    known = prepared.always_meets(instance.limitations)
    if known is not None and needed_nearby(prepared, known, formula, others):
        return True
    return met_whatever_is_read(prepared, rest, formula) is not None


def _is_idle(
    prepared: Prepared,
    instance: Instance,
    dropped: Sequence[Limitation],
    at: Construction | None = None,
) -> bool:
    """Does all that meets the other limitations meet the dropped ones, on every construction or on one?"""
    session = prepared.session
    rest = [x.formula for x in instance.limitations if x not in dropped]
    search = session.search(session.groups_in(*rest, *(x.formula for x in dropped)) if at is None else ())
    search.require(*(session.met(f, at) for f in rest))
    if at is not None and not search.holds():
        return False
    missed = ~session.met(All(tuple(x.formula for x in dropped)), at)
    return not search.holds(missed)


def _together(
    prepared: Prepared, instance: Instance, idle_ones: Sequence[Limitation], at: Construction | None
) -> list[Finding]:
    """The limitations that can be left out together, the last in the sheet first, each with its twins."""
    dropped: list[Limitation] = []
    for x in reversed(idle_ones):
        if not dropped or _is_idle(prepared, instance, [*dropped, x], at):
            dropped.append(x)
    needed = {x.label for x in idle_ones if x not in dropped}
    kept = [(Line(x.label), x.formula) for x in instance.limitations if x not in dropped]
    found = []
    for x in reversed(dropped):
        beside = _implied_by(prepared, kept, x.formula, at)
        quantifier: Quantifier = "every" if at is None else "base"
        finding = replace(
            at_limitation("idle", 4, x),
            outcome="excluded",
            quantifier=quantifier,
            about=Idle(Because(lines_of(beside)), tuple(x for x in lines_of(beside) if x in needed)),
            rests_on=prepared.grounds(beside),
            construction=at,
        )
        rest, lines = All(tuple(f for _, f in kept)), tuple(f for line, f in kept if line in beside)
        found.append(_with_not_so(prepared, finding, (x.formula, *lines), rest, x.formula))
    return found


def _with_not_so(
    prepared: Prepared, finding: Finding, formulas: tuple[Formula, ...], rest: Formula, missed: Formula
) -> Finding:
    """The finding with the readings on which something that meets the rest misses what is else idle."""
    session = prepared.session

    def misses(k: Construction) -> bool:
        search = session.search(())
        search.require(session.met(rest, k), ~session.met(missed, k))
        return search.holds()

    return with_not_so(prepared, finding, formulas, misses)


def _implied_by(
    prepared: Prepared, others: Sequence[Labelled], formula: Formula, at: Construction | None
) -> tuple[Cause, ...]:
    """A least part of the others, the bounds and the given facts that makes the formula idle.

    Of a number of like parts the bounds are what is looked at, and no ground; none where no line is one.
    """
    session = prepared.session
    formulas = [f for _, f in others]
    groups = session.groups_in(formula, *formulas) if at is None else ()
    search = session.search(groups, things=False)
    search.require(~session.met(formula, at))
    causes = session.grounds(prepared.relevant(formula, *formulas))
    if session.names_in(formula) <= _counts(prepared):
        looked_at = set(map(Bounds, _counts(prepared)))
        causes = [(ground, bound) for ground, bound in causes if ground not in looked_at]
    causes += ((line, session.met(f, at)) for line, f in others)
    return search.conflict(causes) or ()


def _idle_on_some(
    prepared: Prepared, instance: Instance, limitation: Limitation, rest: Formula
) -> Iterator[Finding]:
    """The limitation on the least re-reading on which it is idle, free stretches as presumed."""
    session = prepared.session
    demands = [Demand(rest, limitation.formula, "every"), Demand(NOTHING, rest, "some")]
    refined = find_construction(session, demands, stretch=False)
    if refined.construction is None:
        return
    others = [(Line(x.label), x.formula) for x in prepared.bearing(instance.limitations, limitation)]
    beside = _implied_by(prepared, others, limitation.formula, refined.construction)
    lines = [f for line, f in others if line in beside]
    least = prepared.where_it_matters(refined, limitation.formula, lines, rest)
    groups = session.groups_in(rest, limitation.formula)
    told = prepared.told_refined(at_limitation("idle", 4, limitation), least, groups)
    yield replace(
        told,
        outcome="excluded",
        quantifier="some" if least is refined or told.rereads else "base",
        about=Idle(Because(lines_of(beside))),
        rests_on=tuple(dict.fromkeys((*told.rests_on, *prepared.grounds(beside)))),
    )


# ---- one end of a range


def _idle_ends(prepared: Prepared, instance: Instance, limitation: Limitation) -> Iterator[Finding]:
    """Each end of the limitation's range that is idle beside its other end and all else the claim asks.

    An end that only repeats a bound of the thing measured is not told. One that only given facts about
    several things keep from being reached is a corner of a composition, told as a note, and so is one that
    repeats the end of what the claim depends on, as a narrower range beside that end does.
    """
    session = prepared.session
    others = [(Line(x.label), x.formula) for x in prepared.bearing(instance.limitations, limitation)]
    for end in prepared.range_ends(limitation):
        rest = All((*(f for _, f in others), end.rest))
        if _missed_by_something(prepared, instance, limitation, end.formula, rest, end.rest):
            continue
        always = _end_is_idle(prepared, rest, end, None)
        if not always and not _end_is_idle(prepared, rest, end, session.base):
            continue
        at = None if always else session.base
        beside = _implied_by(prepared, [*others, (Line(""), end.rest)], end.formula, at)
        if _repeats_a_bound(prepared, beside, end):
            continue
        corner = any(isinstance(x, GivenFact) for x in beside)
        repeated = not corner and _repeats_the_parent(prepared, instance, beside, end)
        question = "corner not reached" if corner else "end repeated" if repeated else "idle end"
        told = replace(
            at_limitation(question, 4 if question == "idle end" else 6, limitation),
            outcome="excluded",
            quantifier="every" if always else "base",
            about=IdleEnd(Because(lines_of(beside)), end.side, _end_written(prepared, end)),
            rests_on=prepared.grounds(beside),
            construction=at,
        )
        lines = tuple(f for line, f in others if line in beside)
        yield _with_not_so(prepared, told, (limitation.formula, *lines), rest, end.formula)


def _end_is_idle(prepared: Prepared, rest: Formula, end: RangeEnd, at: Construction | None) -> bool:
    session = prepared.session
    search = session.search(session.groups_in(rest, end.formula) if at is None else ())
    search.require(session.met(rest, at))
    return search.holds() and not search.holds(~session.met(end.formula, at))


def _repeats_a_bound(prepared: Prepared, beside: tuple[Cause, ...], end: RangeEnd) -> bool:
    """Is it idle by nothing else than the bound of the thing measured, which it repeats?"""
    if not all(isinstance(x, Bounds) for x in beside):
        return False
    names = prepared.session.names_in(end.formula)
    declared = [d for d in prepared.sheet.declarations if d.name in names and isinstance(d, NumberDecl)]
    bounds = {b.value for d in declared for b in (d.lower, d.upper) if b is not None}
    return any(isinstance(n, Const) and n.written and n.value in bounds for n in nodes(end.formula))


def _repeats_the_parent(
    prepared: Prepared, instance: Instance, beside: tuple[Cause, ...], end: RangeEnd
) -> bool:
    """Is it idle by one line of what the claim depends on alone, which states the same end?"""
    lines = [x for x in instance.inherited if Line(x.label) in beside]
    if len(lines) != 1 or set(beside) - {Line(lines[0].label)}:
        return False
    readings = prepared.session.base.readings
    stated = {(e.op, e.limit.value) for e in written_ends(lines[0].formula, readings)}
    return any((e.op, e.limit.value) in stated for e in written_ends(end.formula, readings))


def _end_written(prepared: Prepared, end: RangeEnd) -> str:
    """The number of the end as written, with its unit: `2 mm`; '' where it has none."""
    limits = [e.limit for e in written_ends(end.formula, prepared.session.base.readings)]
    written = next((limit.written for limit in limits if limit.written), None)
    return "" if written is None else f"{written.text} {written.unit.symbol}".rstrip()
