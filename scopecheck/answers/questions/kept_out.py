"""What keeps out a thing that must stay out, or a document: all minimal sets of limitations, as presumed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.about import Fall, KeptOut, WayOut
from scopecheck.answers.findings import Finding, Status
from scopecheck.answers.minimal import MinimalSets, minimal_sets
from scopecheck.answers.questions.cases import finding_at, targets
from scopecheck.answers.questions.document_ranges import at_stated_ends, shown_there
from scopecheck.answers.questions.falling import falling
from scopecheck.answers.questions.instances import Instance
from scopecheck.answers.questions.prepared import Prepared
from scopecheck.core.construction import Construction, departs
from scopecheck.core.formula import All, Formula
from scopecheck.core.model import Case, Limitation
from scopecheck.core.reference import stated_values
from scopecheck.foundations.record import replace
from scopecheck.solving.constraints import Constraint
from scopecheck.solving.evaluate import meets


def kept_out(prepared: Prepared, case: Case) -> Iterator[Finding]:
    """What keeps the case out of each claim it speaks of, and of each claim below that it is kept out of only
    by what that claim adds.

    Without details only what hangs on a single limitation is looked for, and documents that nothing stated
    keeps out.
    """
    listed = _Listed(prepared, case)
    for place in targets(prepared, case):
        if not isinstance(place, int):
            continue
        for number in (place, *prepared.descendants(place)):
            for instance in prepared.instances[number]:
                if number == place or listed.met(instance.inherited):
                    yield from _kept_out_of(listed, instance)
                    yield from _silent_at_an_end(prepared, case, instance)


def _silent_at_an_end(prepared: Prepared, case: Case, instance: Instance) -> Iterator[Finding]:
    """Is it only by its silence that a document's range, where it states an end, does not meet the claim?

    So where the range lies within the claim as far as it goes.
    """
    if case.role != "document" or case.form != "range":
        return
    at_end = at_stated_ends(prepared, case, instance.scope)
    example = replace(at_end or case, form="example")
    for finding in _kept_out_of(_Listed(prepared, example), instance):
        if finding.question == "silence alone keeps out":
            at = replace(finding, about=replace(finding.about, at_end=True))
            yield shown_there(prepared, example.facts, instance.scope, at) if at_end else finding


class _Listed:
    """A case as presumed, with how much of it meets each limitation; each is looked for once.

    A document's example `settles` a limitation if all that it leaves possible meets it; its range, like a
    thing, is met if something of it is.
    """

    def __init__(self, prepared: Prepared, case: Case) -> None:
        self.prepared = prepared
        self.case = case
        self.settles = case.role == "document" and case.form != "range"
        self.stated = {} if case.groups else stated_values(prepared.sheet, case, exact=True)
        self.region = prepared.session.search(())
        self.region.require(prepared.session.met(case.facts, prepared.session.base))
        self._status: dict[str, Status] = {}
        self._falls: dict[tuple[str, ...], Fall] = {}

    def status(self, limitation: Limitation) -> Status:
        """How much of the case meets the limitation. What is stated in full is left to the evaluator."""
        if limitation.label not in self._status:
            self._status[limitation.label] = self._looked(limitation.formula)
        return self._status[limitation.label]

    def _looked(self, formula: Formula) -> Status:
        session = self.prepared.session
        if session.names_in(formula) <= self.stated.keys():
            return "every" if meets(formula, self.stated, session.base) else "none"
        met = session.met(formula, session.base)
        if not self.region.holds(met):
            return "none"
        return "some" if self.region.holds(~met) else "every"

    def met(self, limitations: Sequence[Limitation]) -> bool:
        """Is the case met: something of a thing, all that a document leaves possible?"""
        if self.settles:
            return all(self.status(x) == "every" for x in limitations)
        if any(self.status(x) == "none" for x in limitations):
            return False
        open_ones = [x for x in limitations if self.status(x) == "some"]
        return len(open_ones) < 2 or self.region.holds(*_asked(self.prepared, open_ones))

    def leaves(self, formula: Formula, k: Construction) -> bool:
        """Does something of the case, as presumed, meet the formula as read in `k`?"""
        session = self.prepared.session
        if session.names_in(formula) <= self.stated.keys():
            return meets(formula, self.stated, k)
        return self.region.holds(session.met(formula, k))

    def leaves_any(self, limitations: Sequence[Limitation]) -> bool:
        """Does something of the case, as presumed, meet all the limitations together?"""
        return self.region.holds(*_asked(self.prepared, limitations))

    def leaves_open(self, limitation: Limitation) -> bool:
        """Does the case say nothing of something that the limitation speaks of, and so does not settle it?"""
        unsaid = self.prepared.session.names_in(limitation.formula) - {*self.case.stated, *self.stated}
        return bool(unsaid) and self.status(limitation) == "some"

    def fall(self, labels: tuple[str, ...], finding: Finding) -> Fall:
        """What becomes of a set that keeps the case out, on other readings."""
        if labels not in self._falls:
            limitations = [self.prepared.limitation(label) for label in labels]
            self._falls[labels] = falling(self.prepared, self.case, self.stated, limitations, finding)
        return self._falls[labels]

    def minimal_sets(self, limitations: Sequence[Limitation]) -> MinimalSets:
        """All minimal sets of the limitations that nothing of the case meets."""
        labels = [x.label for x in limitations]
        asked = dict(zip(labels, _asked(self.prepared, limitations), strict=True))
        alone = tuple((x.label,) for x in limitations if self.status(x) == "none")
        open_ones = [x.label for x in limitations if self.status(x) == "some"]
        more = minimal_sets(open_ones, lambda some: self.region.conflict([(x, asked[x]) for x in some]))
        return MinimalSets((*alone, *more.sets), more.every)


def _kept_out_of(listed: _Listed, instance: Instance) -> Iterator[Finding]:
    details, document = listed.prepared.details, listed.settles
    wanted = "every" if document else "none"
    against: list[Limitation] = []
    for x in instance.limitations:
        if (listed.status(x) == wanted) != document:
            against.append(x)
            if len(against) > 1 and not details and not (document and listed.status(x) == "some"):
                return
    if document and not against:
        return
    if not document and listed.met(instance.limitations):
        return
    if not listed.prepared.can_be_met(instance.scope) or not listed.region.holds():
        return
    if document and len(against) > 1 and not details:
        if any(listed.status(x) == "none" for x in against) or not listed.leaves_any(instance.limitations):
            return
        yield _told(listed, instance, MinimalSets((), True), tuple(x.label for x in against), "")
        return
    sets = listed.minimal_sets(instance.limitations)
    inside = {label for one in sets.sets for label in one}
    silent = tuple(x.label for x in against if document and x.label not in inside)
    if listed.case.role == "document" and not document:
        rest = (x for x in instance.limitations if x.label not in inside)
        silent = tuple(x.label for x in rest if listed.leaves_open(x))
    one = _in_every_set(sets)
    if document:
        one = against[0].label if len(against) == 1 else ""
    if one or details:
        yield _told(listed, instance, sets, silent, one)


def _asked(prepared: Prepared, limitations: Sequence[Limitation]) -> list[Constraint]:
    return [prepared.session.met(x.formula, prepared.session.base) for x in limitations]


def _in_every_set(sets: MinimalSets) -> str:
    """The one limitation without which a thing would be met; '' if there is none."""
    inside = set(sets.sets[0]).intersection(*sets.sets) if sets.sets else set()
    return inside.pop() if len(inside) == 1 and sets.every else ""


def _told(
    listed: _Listed, instance: Instance, sets: MinimalSets, silent: tuple[str, ...], one: str
) -> Finding:
    """The finding; `one` is the limitation that all hangs on, '' if there is none."""
    prepared, case = listed.prepared, listed.case
    labels = {label for s in sets.sets for label in s} | set(silent if listed.settles else ())
    separating = [x for x in instance.limitations if x.label in labels]
    alone = listed.settles and bool(silent) and bool(one)
    question = "silence alone keeps out" if alone else "kept out"
    finding = finding_at(prepared, question, 2 if alone else 6, instance.claim.number, case)
    ways = _ways_out(listed, separating)
    return replace(
        finding,
        outcome="excluded",
        quantifier="every" if alone and _whatever_is_read(prepared, case, instance, one, ways) else "base",
        bearer="challenger" if alone else "",
        about=KeptOut(
            sets=sets.sets,
            every_set=sets.every,
            falls=tuple(listed.fall(labels, finding) for labels in sets.sets),
            besides=_besides(listed, instance, sets) if prepared.details else (),
            silent=silent,
            line=one,
            ways_out=tuple(w for w in ways if w.readings or not alone) if one or prepared.details else (),
        ),
        failing=(one,) if alone else (),
        ways=(instance.chain,),
    )


def _besides(listed: _Listed, instance: Instance, sets: MinimalSets) -> tuple[WayOut, ...]:
    """The limitations of no set that by themselves keep the case out on some reading of one phrase."""
    session, sheet = listed.prepared.session, listed.prepared.sheet
    inside = {label for one in sets.sets for label in one}
    unknown = {(p.group, p.reading) for p in sheet.parameters if p.unknown}
    found = []
    for x in instance.limitations:
        single = tuple(
            (g, r)
            for g in (session.groups_in(x.formula) if x.label not in inside else ())
            for r in session.readings_of(g, x.formula)
            if r != session.base.readings[g]
            and (g, r) not in unknown
            and not listed.leaves(x.formula, session.base.with_reading(g, r))
        )
        found += [WayOut(x.label, x.words or x.text, single)] if single else []
    return tuple(found)


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


def _ways_out(listed: _Listed, limitations: Sequence[Limitation]) -> tuple[WayOut, ...]:
    """For each limitation the readings, each alone, on which it no longer keeps all of the case out.

    Of a document: on which what it states is enough for it.
    """
    session, sheet = listed.prepared.session, listed.prepared.sheet
    found = []
    for x in limitations:
        single = tuple(
            (g, r)
            for g in session.groups_in(x.formula)
            for r in session.readings_of(g, x.formula)
            if departs(sheet.groups[g], r) and _falls(listed, x.formula, session.base.with_reading(g, r))
        )
        found.append(WayOut(x.label, x.words or x.text, single))
    return tuple(found)


def _falls(listed: _Listed, formula: Formula, k: Construction) -> bool:
    """As read in `k`, does the formula let the case in: something of a thing, all that a document leaves?"""
    session = listed.prepared.session
    if listed.settles and not session.names_in(formula) <= listed.stated.keys():
        return not listed.region.holds(~session.met(formula, k))
    return listed.leaves(formula, k)
