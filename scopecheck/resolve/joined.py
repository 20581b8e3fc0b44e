"""Two sheets of one claim set, before and after an amendment, brought to one vocabulary and one reading.

What is declared in both must be one thing, what always holds holds in both, and a phrase that stands in both
is read alike. Labels of limitations of the sheet before get a mark, so that a place is named by its label.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence

from scopecheck.core.model import (
    Case,
    Claim,
    Declaration,
    FreeParameter,
    Given,
    Group,
    Limitation,
    NumberDecl,
    Part,
    Place,
    Settled,
    Sheet,
    Step,
)
from scopecheck.core.rewrite import regrouped
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.spans import Span
from scopecheck.resolve.groups import best
from scopecheck.resolve.successors import Successors, successors

BEFORE = " before"
"""Stands after the labels of the sheet before."""
Named = Declaration | Part | Step
Numbers = Mapping[int, tuple[int, tuple[int, ...]]]


@record
class Joined:
    """Both sheets with the same declarations, given facts, groups, parameters and cases, and own claims."""

    before: Sheet
    after: Sheet
    successors: Successors


def joined(before: Sheet, after: Sheet) -> tuple[Joined | None, tuple[Diagnostic, ...]]:
    """The two sheets side by side, or None where they do not speak of the same things; what is wrong."""
    wrong = [*_readers(before, after), *_declarations(before, after), *_parts(before, after)]
    merged = _Groups(before, after)
    wrong += merged.wrong
    wrong += _cases(before, after)
    if any(d.severity == "error" for d in wrong):
        return None, tuple(wrong)
    found = successors(before.claims, after.claims)
    wrong += _unrestated(before, after, found)
    new = _with_groups(after, merged.new, merged.new_keys)
    old = _with_groups(_labelled_before(before), merged.old, merged.old_keys)
    shared = {
        "declarations": _union(after.declarations, before.declarations),
        "parts": _union(after.parts, before.parts),
        "steps": _union(after.steps, before.steps),
        "phrase_files": tuple(dict.fromkeys((*after.phrase_files, *before.phrase_files))),
        "givens": _all_givens(before, after),
        "groups": tuple(merged.groups),
        "parameters": tuple(merged.parameters),
    }
    old = replace(old, **shared, cases=_listed(old, new, found.before))
    new = replace(new, **shared, cases=_listed(new, old, found.after))
    old = replace(old, cases=tuple(_as_in(case, new.cases) for case in old.cases))
    return Joined(old, new, found), tuple(wrong)


def _union(first: Sequence[Named], second: Sequence[Named]) -> tuple[object, ...]:
    names = {d.name for d in first}
    return (*first, *(d for d in second if d.name not in names))


def _all_givens(before: Sheet, after: Sheet) -> tuple[Given, ...]:
    stated = {g.formula for g in after.givens}
    return (*after.givens, *(g for g in before.givens if g.formula not in stated))


# ---- what must agree


def _differs(span: Span, other: Span, message: str, help: str = "", cause: str = "") -> Diagnostic:
    """A message at a place of the amended sheet that marks the place of the sheet before as well."""
    where = f"in {other.source.name}, line {other.line}, column {other.column}"
    return Diagnostic("error", span, message, cause, help, ((other, where),))


def _readers(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    if (before.profile, before.purpose) != (after.profile, after.purpose):
        yield _differs(
            head_line(after, "profile"),
            head_line(before, "profile"),
            "the two sheets are read under different profiles",
            "give both the same profile",
        )


def head_line(sheet: Sheet, heading: str) -> Span:
    """The line of a heading of the sheet, or its first line."""
    source = sheet.claims[0].span.source
    start = 0
    for line in source.text.splitlines(keepends=True):
        if line.lower().startswith(heading):
            return Span(source, start, start + len(line.rstrip()))
        start += len(line)
    return Span(source, 0, max(1, len(source.line(1).rstrip())))


def _declarations(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    old = {d.name.lower(): d for d in before.declarations}
    for d in after.declarations:
        other = old.get(d.name.lower())
        if other is None:
            continue
        message, help = _difference(other, d)
        if message:
            yield _differs(d.span, other.span, message, help)


def _difference(old: Declaration, new: Declaration) -> tuple[str, str]:
    """What keeps two declarations of one name from being one thing, and what to write; '' if nothing."""
    name = new.name
    if old.name != name:
        return f"'{name}' is written '{old.name}' in the sheet before", "write the name alike in both"
    if isinstance(old, NumberDecl) and isinstance(new, NumberDecl):
        if (old.kind, old.whole) != (new.kind, new.whole):
            kinds = [("count" if d.whole else d.kind.name) for d in (new, old)]
            return (
                f"'{name}' is a {kinds[0]} here and a {kinds[1]} in the sheet before",
                "give it one kind in both, or use two names",
            )
        if (old.lower, old.upper) != (new.lower, new.upper):
            return (
                f"'{name}' has other bounds in the sheet before",
                "write the same bounds in both: what can exist does not change with the claims",
            )
        return "", ""
    if type(old) is not type(new):
        return f"'{name}' is another sort of thing in the sheet before", "declare it alike in both"
    assert not isinstance(old, NumberDecl)
    assert not isinstance(new, NumberDecl)
    if old.members != new.members:
        return (
            f"'{name}' has another list in the sheet before",
            "write the same list in both, with every member that either needs",
        )
    return "", ""


def _parts(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    known: tuple[Part | Step, ...] = (*before.parts, *before.steps)
    old = {p.name: p for p in known}
    declared: tuple[Part | Step, ...] = (*after.parts, *after.steps)
    for part in declared:
        other = old.get(part.name)
        if other is not None and other != part:
            yield _differs(
                part.span,
                other.span,
                f"'{part.name}' is declared otherwise in the sheet before",
                "declare it alike in both: of like parts as many, with the same fields",
            )


def _cases(before: Sheet, after: Sheet) -> Iterator[Diagnostic]:
    """A warning for each case that the two sheets tell differently: that of the amended sheet is used."""
    old = {(c.role, c.name): c for c in before.cases}
    for case in after.cases:
        other = old.get((case.role, case.name))
        if other is not None and " ".join(other.text.split()) != " ".join(case.text.split()):
            told = _differs(
                case.span, other.span, f"'{case.name}' is told otherwise in the sheet before",
                cause="What this sheet says of it is used for both.",
            )  # fmt: skip
            yield replace(told, severity="warning")


def _unrestated(before: Sheet, after: Sheet, found: Successors) -> Iterator[Diagnostic]:
    """A warning for each claim that is restated in one of the sheets only."""
    for old, new in found.pairs:
        restated = [_lines(before, old), _lines(after, new)]
        if restated.count(True) == 1:
            where, claim = (before, old) if not restated[0] else (after, new)
            told = _differs(
                after.claim(new).span,
                before.claim(old).span,
                f"claim {claim} of {where.source_name} has no line",
                "restate its limits there as well",
                "As restated, anything meets it.",
            )
            yield replace(told, severity="warning")


def _lines(sheet: Sheet, number: int) -> bool:
    """Does the claim or one that it depends on have a line?"""
    claim = sheet.claim(number)
    return bool(claim.limitations) or any(_lines(sheet, p) for p in claim.parents)


# ---- phrases read alike


class _Groups:
    """The groups and parameters of both sheets as one list, and where each sheet's own are found in it."""

    def __init__(self, before: Sheet, after: Sheet) -> None:
        self.before, self.after = before, after
        self.wrong: list[Diagnostic] = []
        self.groups: list[Group] = []
        self.parameters: list[FreeParameter] = []
        self.new: dict[int, tuple[int, tuple[int, ...]]] = {}
        self.old: dict[int, tuple[int, tuple[int, ...]]] = {}
        twins = {_identity(g, before.groups): g for g in before.groups}
        for group in after.groups:
            self._take(group, twins.pop(_identity(group, after.groups), None))
        for group in twins.values():
            self.old[group.index] = (len(self.groups), _every(group))
            self.groups.append(replace(group, index=len(self.groups), places=_marked(group.places)))
        self.new_keys = self._keep(after.parameters, self.new)
        self.old_keys = self._keep(before.parameters, self.old)

    def _take(self, group: Group, twin: Group | None) -> None:
        index = len(self.groups)
        if twin is None:
            self.new[group.index] = (index, _every(group))
            self.groups.append(replace(group, index=index))
            return
        shared = [r.label for r in group.readings if r.label in {o.label for o in twin.readings}]
        if not shared or self._open_in_one(group, twin):
            self._contradict(group, twin)
            shared = [r.label for r in group.readings]
            twin = group
        if len(shared) < max(len(group.readings), len(twin.readings)):
            self._settled_in_one(group, twin)
        kept = _places_of(shared, group)
        self.new[group.index] = (index, kept)
        self.old[twin.index] = (index, _places_of(shared, twin))
        readings = tuple(group.readings[r] for r in kept)
        definition = group.definition or twin.definition
        if definition is not None:
            owner = group if group.definition else twin
            label = owner.readings[definition.reading].label
            definition = replace(definition, reading=shared.index(label)) if label in shared else None
        self.groups.append(
            replace(
                group,
                index=index,
                readings=readings,
                base=kept.index(group.base) if group.base in kept else best(readings),
                places=(*group.places, *_marked(_told_at(twin, _places_of(shared, twin)))),
                settled=tuple(dict.fromkeys((*group.settled, *twin.settled))),
                definition=definition,
            )
        )
        if kept != _every(group):
            last = self.groups[-1]
            own = tuple(_only(p, kept) for p in group.places)
            self.groups[-1] = replace(last, places=(*own, *last.places[len(own) :]))

    def _open_in_one(self, group: Group, twin: Group) -> bool:
        """Does one sheet give a number to what the other leaves open?"""

        def open_numbers(parameters: Sequence[FreeParameter], g: Group) -> set[tuple[str, str]]:
            return {(g.readings[p.reading].label, p.name) for p in parameters if p.group == g.index}

        texts = [{s.text for s in g.settled} for g in (group, twin)]
        ours, theirs = open_numbers(self.after.parameters, group), open_numbers(self.before.parameters, twin)
        return (
            texts[0] != texts[1]
            and not (ours <= theirs and theirs <= ours)
            and len(group.readings) == len(twin.readings)
        )

    def _contradict(self, group: Group, twin: Group) -> None:
        self.wrong.append(
            _differs(
                group.places[0].span,
                twin.places[0].span,
                f"'{group.wording}' is settled one way here and another way in the sheet before",
                "settle the words alike in both sheets: an amendment does not change what they mean",
            )
        )

    def _settled_in_one(self, group: Group, twin: Group) -> None:
        ours, theirs = ({(s.text, s.removed) for s in g.settled} for g in (group, twin))
        own: list[Settled] = [s for s in group.settled if (s.text, s.removed) not in theirs and s.removed]
        own += [s for s in twin.settled if (s.text, s.removed) not in ours and s.removed]
        told = _differs(
            group.places[0].span,
            twin.places[0].span,
            f"'{group.wording}' is settled in one sheet only: {'; '.join(s.text for s in own)}",
            "settle the words alike in both sheets",
            "The words are read alike in both here, as settled.",
        )
        self.wrong.append(replace(told, severity="warning"))

    def _keep(self, parameters: Sequence[FreeParameter], numbers: Numbers) -> dict[str, str]:
        """The parameters of the readings that are kept, each once, and the key each has now."""
        keys: dict[str, str] = {}
        known = {p.key for p in self.parameters}
        for p in parameters:
            index, kept = numbers[p.group]
            if p.reading not in kept:
                continue
            reading = kept.index(p.reading)
            scope = p.key.split(", ", 2)[-1]
            key = f"{p.name} of group {index}, reading {reading}, {scope}"
            keys[p.key] = key
            if key not in known:
                known.add(key)
                self.parameters.append(replace(p, key=key, group=index, reading=reading))
        return keys


def _identity(group: Group, among: Sequence[Group]) -> Hashable:
    """What two groups of the two sheets share if they are the same words, and the same of several such."""

    def own(g: Group) -> Hashable:
        labels = {r.label for r in g.readings} | {label for s in g.settled for label in s.removed}
        labels |= {label for label, _ in g.not_tried} | set(g.not_computed)
        return g.document, g.wording.lower(), g.entry, g.noun, frozenset(labels)

    mine = own(group)
    return mine, sum(own(g) == mine for g in among[: group.index])


def _every(group: Group) -> tuple[int, ...]:
    return tuple(range(len(group.readings)))


def _places_of(labels: Sequence[str], group: Group) -> tuple[int, ...]:
    by_label = {r.label: i for i, r in enumerate(group.readings)}
    return tuple(by_label[label] for label in labels)


def _only(place: Place, kept: Sequence[int]) -> Place:
    return replace(place, meanings=tuple(place.meanings[r] for r in kept) if place.meanings else ())


def _told_at(group: Group, kept: Sequence[int]) -> tuple[Place, ...]:
    """The group's places with the meanings of the readings kept there."""
    plain = tuple(group.readings[r].plain for r in kept)
    return tuple(
        _only(place, kept) if place.meanings else replace(place, meanings=plain) for place in group.places
    )


def _marked(places: Sequence[Place]) -> tuple[Place, ...]:
    return tuple(replace(place, where=marked(place.where)) for place in places)


def marked(where: str) -> str:
    """A label of the sheet before; the name of a case stays as it is."""
    return where + BEFORE if where[:1].isdigit() and where[-1:].isalpha() else where


# ---- claims and cases of one sheet


def _labelled_before(sheet: Sheet) -> Sheet:
    def limitation(x: Limitation) -> Limitation:
        return replace(x, label=marked(x.label))

    claims = (replace(c, limitations=tuple(map(limitation, c.limitations))) for c in sheet.claims)
    cases = (replace(c, targets=tuple(map(marked, c.targets))) for c in sheet.cases)
    return replace(sheet, claims=tuple(claims), cases=tuple(cases))


def _with_groups(sheet: Sheet, numbers: Numbers, keys: Mapping[str, str]) -> Sheet:
    """The sheet's formulas by the numbers of the common groups."""

    def groups(own: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(sorted(numbers[g][0] for g in own))

    def limitation(x: Limitation) -> Limitation:
        meant = None if x.meant is None else regrouped(x.meant, numbers, keys)
        return replace(x, formula=regrouped(x.formula, numbers, keys), meant=meant, groups=groups(x.groups))

    def claim(c: Claim) -> Claim:
        return replace(c, limitations=tuple(map(limitation, c.limitations)))

    def case(c: Case) -> Case:
        return replace(c, facts=regrouped(c.facts, numbers, keys), groups=groups(c.groups))

    return replace(sheet, claims=tuple(map(claim, sheet.claims)), cases=tuple(map(case, sheet.cases)))


def _listed(own: Sheet, other: Sheet, numbers: Mapping[int, int]) -> tuple[Case, ...]:
    """The cases of a sheet, and those of the other, for the claims that go on from theirs.

    `numbers` gives for a claim of the other sheet that of this one. A case for claims or limitations that
    this sheet does not have is left out.
    """
    known = {(c.role, c.name) for c in own.cases}
    found = list(own.cases)
    for case in other.cases:
        if (case.role, case.name) in known:
            continue
        targets = tuple(str(numbers[int(t)]) for t in case.targets if t.isdigit() and int(t) in numbers)
        if targets or not case.targets:
            found.append(replace(case, targets=targets))
    return tuple(found)


def _as_in(case: Case, cases: Sequence[Case]) -> Case:
    """The case with what another list says of it, for its own claims."""
    other = next((c for c in cases if (c.role, c.name) == (case.role, case.name)), None)
    return case if other is None else replace(other, targets=case.targets)
