"""What keeps out a thing that must stay out, or a document: all minimal sets of limitations, as presumed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.findings import Finding, WayOut
from scopecheck.answers.minimal import MinimalSets, minimal_sets
from scopecheck.answers.questions.cases import finding_at, status_at, targets
from scopecheck.answers.questions.prepared import Instance, Prepared
from scopecheck.core.construction import admissible_readings, departs
from scopecheck.core.model import All, Article, Case, Limitation
from scopecheck.foundations.record import replace
from scopecheck.solving.evaluate import meets
from scopecheck.solving.solver import Constraint, Search


def kept_out(prepared: Prepared, case: Case) -> Iterator[Finding]:
    """What keeps the case out of each claim it speaks of, and of each claim below that it is kept out of only
    by what that claim adds.

    Without details only what hangs on a single limitation is looked for.
    """
    for place in targets(prepared, case):
        if not isinstance(place, int):
            continue
        for number in (place, *prepared.descendants(place)):
            for instance in prepared.instances[number]:
                if number == place or _met(prepared, case, instance):
                    told = _kept_out_of(prepared, case, instance)
                    if told is not None:
                        yield told


def _met(prepared: Prepared, case: Case, instance: Instance) -> bool:
    """Does the case meet the claim's parents as presumed (a document: shown by what it states)?"""
    session = prepared.session
    if article := prepared.point(case, instance.parent_scope):
        return meets(instance.parent_scope, article, session.base)
    status = status_at(prepared, case.facts, instance.parent_scope, session.base)
    return status == "every" if case.role == "document" else status != "none"


def _kept_out_of(prepared: Prepared, case: Case, instance: Instance) -> Finding | None:
    if not prepared.can_be_met(instance.scope):
        return None
    article = prepared.point(case, instance.scope)
    if article is not None:
        failing = prepared.failing(instance.limitations, article, prepared.session.base)
        if not failing:
            return None
        if len(failing) > 1 and not prepared.details:
            return None
        sets = MinimalSets(tuple((label,) for label in failing), True)
        return _told(prepared, case, instance, sets, (), _in_every_set(sets), article)
    if case.role == "document":
        return _document_kept_out(prepared, case, instance)
    region = _region(prepared, case)
    if region.holds(*_asked(prepared, instance.limitations)):
        return None
    sets = _sets(prepared, region, instance)
    one = _in_every_set(sets)
    if not prepared.details and not one:
        return None
    return _told(prepared, case, instance, sets, (), one, None)


def _document_kept_out(prepared: Prepared, case: Case, instance: Instance) -> Finding | None:
    """A document is kept out by what contradicts it, and by what does not follow from what it states."""
    session, region = prepared.session, _region(prepared, case)
    if not region.holds():
        return None
    lines = [x for x in instance.limitations if region.holds(~session.met(x.formula, session.base))]
    if not lines or (len(lines) > 1 and not prepared.details):
        return None
    possible = region.holds(*_asked(prepared, instance.limitations))
    sets = MinimalSets((), True) if possible else _sets(prepared, region, instance)
    against = {label for one in sets.sets for label in one}
    silent = tuple(x.label for x in lines if x.label not in against)
    return _told(prepared, case, instance, sets, silent, lines[0].label if len(lines) == 1 else "", None)


def _region(prepared: Prepared, case: Case) -> Search:
    search = prepared.session.search(())
    search.require(prepared.session.met(case.facts, prepared.session.base))
    return search


def _asked(prepared: Prepared, limitations: Sequence[Limitation]) -> list[Constraint]:
    return [prepared.session.met(x.formula, prepared.session.base) for x in limitations]


def _sets(prepared: Prepared, region: Search, instance: Instance) -> MinimalSets:
    asked = dict(
        zip((x.label for x in instance.limitations), _asked(prepared, instance.limitations), strict=True)
    )
    return minimal_sets(asked, lambda some: region.conflict([(label, asked[label]) for label in some]))


def _in_every_set(sets: MinimalSets) -> str:
    """The one limitation without which a thing would be met; '' if there is none."""
    inside = set(sets.sets[0]).intersection(*sets.sets) if sets.sets else set()
    return inside.pop() if len(inside) == 1 and sets.every else ""


def _told(
    prepared: Prepared,
    case: Case,
    instance: Instance,
    sets: MinimalSets,
    silent: tuple[str, ...],
    one: str,
    article: Article | None,
) -> Finding:
    """The finding; `one` is the limitation that all hangs on, '' if there is none."""
    labels = {label for s in sets.sets for label in s} | set(silent)
    separating = [x for x in instance.limitations if x.label in labels]
    alone = bool(silent) and bool(one)
    question = "silence alone keeps out" if alone else "kept out"
    finding = finding_at(prepared, question, 2 if alone else 6, instance.claim.number, case)
    ways = (
        prepared.ways_out(separating, article)
        if article is not None
        else _ways_out(prepared, case, separating)
    )
    return replace(
        finding,
        outcome="excluded",
        quantifier="every" if alone and _whatever_is_read(prepared, case, instance, one, ways) else "base",
        bearer="challenger" if alone else "",
        sets=sets.sets,
        every_set=sets.every,
        conflict=(one,) if one else (),
        silent=silent,
        failing=(one,) if alone else (),
        ways_out=tuple(w for w in ways if w.readings or not alone) if one or prepared.details else (),
        ways=(instance.chain,),
    )


def _whatever_is_read(
    prepared: Prepared, case: Case, instance: Instance, label: str, ways: tuple[WayOut, ...]
) -> bool:
    """Does the one limitation keep a document out, and no other, on every reading?"""
    session = prepared.session
    own = prepared.limitation(label)
    rest = All(tuple(x.formula for x in instance.limitations if x is not own))
    search = session.search(session.groups_in(case.facts, rest))
    search.require(session.met(case.facts))
    stretched = any(p.group in own.groups for p in prepared.sheet.parameters)
    alone = len(own.groups) < 2 and not stretched and not any(w.readings for w in ways)
    return alone and not search.holds(~session.met(rest))


def _ways_out(prepared: Prepared, case: Case, limitations: Sequence[Limitation]) -> tuple[WayOut, ...]:
    """For each limitation the readings, each alone, on which it no longer keeps all of the case out.

    Of a document: on which what it states is enough for it.
    """
    session = prepared.session
    region = _region(prepared, case)
    found = []
    for x in limitations:
        single = []
        for g in session.groups_in(x.formula):
            group = prepared.sheet.groups[g]
            for r in admissible_readings(group, session.strained):
                if not departs(group, r):
                    continue
                met = session.met(x.formula, session.base.with_reading(g, r))
                falls = not region.holds(~met) if case.role == "document" else region.holds(met)
                if falls:
                    single.append((g, r))
        found.append(WayOut(x.label, x.words or x.text, tuple(single)))
    return tuple(found)
