"""Values, things and readings of one sheet in words: the parts from which a report's sentences are made."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import assert_never

from scopecheck.amounts import plain_number, quantity_text
from scopecheck.construction import Construction, base_construction, names_in
from scopecheck.core import (
    Article,
    Bound,
    Case,
    ChoiceDecl,
    FreeParameter,
    Group,
    Limitation,
    NumberDecl,
    SetDecl,
    Sheet,
    Value,
)
from scopecheck.evaluate import evaluate
from scopecheck.findings import Finding, Reread
from scopecheck.minimise import BreakPoint
from scopecheck.reference import stated_values
from scopecheck.wording import GLUE, flat, listed, quoted, sentence

MOST_VALUES = 8
"""Values of one thing that a sentence tells."""

# ---- values


def value_text(sheet: Sheet, name: str, value: Value) -> str:
    """A value as the sheet would write it: a number in its unit, a member, the members of a set in order."""
    d = sheet.declaration(name)
    match d:
        case NumberDecl(unit=unit):
            assert isinstance(value, Fraction)
            return quantity_text(value, unit)
        case ChoiceDecl():
            assert isinstance(value, str)
            return flat(value)
        case SetDecl(members=members):
            assert isinstance(value, frozenset)
            return listed(flat(m) for m in members if m in value) or sentence("thing", "no_member")
        case _:
            assert_never(d)


def setting_text(sheet: Sheet, name: str, value: Value) -> str:
    """`diameter 3 mm`."""
    return f"{flat(name)}{GLUE}{value_text(sheet, name, value)}"


def settings_text(sheet: Sheet, article: Article, names: Iterable[str]) -> str:
    """`holes 25, diameter 3 mm`, in the order of the sheet."""
    wanted = set(names)
    ordered = [d.name for d in sheet.declarations if d.name in wanted and d.name in article]
    return ", ".join(setting_text(sheet, name, article[name]) for name in ordered)


def bounds_text(d: NumberDecl) -> str:
    """The bounds of a number in words: `0 mm or more`, `above 0 mm`, `0 % to 100 %`; '' without bounds."""

    def at(bound: Bound) -> str:
        return quantity_text(bound.value, d.unit)

    if d.lower and d.upper and d.lower.closed and d.upper.closed:
        return f"{at(d.lower)} to {at(d.upper)}"
    parts = []
    if d.lower:
        parts.append(f"{at(d.lower)} or more" if d.lower.closed else f"above {at(d.lower)}")
    if d.upper:
        parts.append(f"{at(d.upper)} or less" if d.upper.closed else f"below {at(d.upper)}")
    return " and ".join(parts)


# ---- cases and things


def case_named(sheet: Sheet, name: str) -> Case | None:
    """The case of this name, or None."""
    return next((c for c in sheet.cases if c.name == name), None)


def case_text(sheet: Sheet, name: str) -> str:
    """A case by its name; a document says that it is one and where it is read."""
    case = case_named(sheet, name)
    shown = flat(name)
    if case is None or case.role != "document":
        return shown
    if not shown.lower().startswith("document"):
        shown = sentence("thing", "document", name=shown)
    return sentence("thing", "place", name=shown, place=quoted(case.place)) if case.place else shown


def _usual_values(sheet: Sheet, name: str) -> Mapping[str, Value]:
    case = case_named(sheet, name)
    return stated_values(sheet, case) if case else {}


def _departures(sheet: Sheet, article: Article, names: Iterable[str], usual: Mapping[str, Value]) -> str:
    parts = []
    for name in names:
        text = setting_text(sheet, name, article[name])
        if name in usual:
            text = sentence("thing", "instead", value=text, usual=value_text(sheet, name, usual[name]))
        parts.append(text)
    return listed(parts)


def thing_text(sheet: Sheet, finding: Finding) -> str:
    """The witness of a finding, departing values first: `garden sieve with holes 25 instead of 24 (...)`."""
    name = case_text(sheet, finding.case) if finding.case else sentence("thing", "any")
    if finding.witness is None:
        return name
    article = finding.witness.article
    usual = _usual_values(sheet, finding.reference)
    own = finding.case != "" and finding.case == finding.reference
    if own and all(n in usual for n in finding.departs):
        return _own_text(sheet, finding, name, usual)
    if finding.departs:
        departures = _departures(sheet, article, finding.departs, usual)
        if own:
            return sentence("thing", "departs_same", name=name, departures=departures)
        if not finding.reference:
            return sentence("thing", "values", name=name, departures=departures, values=departures)
        reference = flat(finding.reference)
        return sentence("thing", "departs", name=name, departures=departures, reference=reference)
    values = told_values(sheet, finding, finding.shown or article)
    if finding.reference:
        exactly = sentence("thing", "exactly", name=name, reference=flat(finding.reference))
        return f"{exactly} ({values})" if values else exactly
    return sentence("thing", "values", name=name, values=values) if values else name


def told_values(sheet: Sheet, finding: Finding, names: Iterable[str]) -> str:
    """The witness's values of these names in sheet order; of many, some, those in question first."""
    assert finding.witness is not None
    wanted = set(names)
    every = [n for n, _ in finding.witness.values if n in wanted]
    if len(every) <= MOST_VALUES:
        return settings_text(sheet, finding.witness.article, every)
    limitations = concerned(sheet, finding)
    spoken = names_in(*(limitation.formula for limitation in limitations))
    first = sorted(every, key=lambda n: n not in spoken)[:MOST_VALUES]
    text = settings_text(sheet, finding.witness.article, first)
    return sentence("thing", "and_more", values=text, count=len(every) - len(first))


def _own_text(sheet: Sheet, finding: Finding, name: str, usual: Mapping[str, Value]) -> str:
    """A listed case by its own values: what departs from them, else what it states and leaves free."""
    assert finding.witness is not None
    article = finding.witness.article
    if finding.departs:
        departures = _departures(sheet, article, finding.departs, usual)
        return sentence("thing", "departs_same", name=name, departures=departures)
    case = case_named(sheet, finding.case)
    spoken = set(case.stated) if case else set()
    names = finding.shown or tuple(usual)
    values = told_values(sheet, finding, [n for n in names if n in spoken])
    free = told_values(sheet, finding, [n for n in names if n not in spoken])
    if values and free:
        return sentence("thing", "as_listed_with", name=name, values=values, free=free)
    if free:
        return sentence("thing", "as_listed_free", name=name, free=free)
    if values:
        return sentence("thing", "as_listed", name=name, values=values)
    return sentence("thing", "as_listed_bare", name=name)


def twin_text(sheet: Sheet, finding: Finding) -> str:
    """The thing beside the witness, told by the values in which the two differ; '' without a twin."""
    if finding.twin is None:
        return ""
    meant = sentence("thing", "meant")
    name = meant if finding.twin_name == "meant" else case_text(sheet, finding.twin_name)
    article = finding.twin.article
    usual = finding.witness.article if finding.witness else {}
    differing = [n for n in article if article[n] != usual.get(n)]
    if not differing:
        return sentence("thing", "twin_same", name=name)
    return sentence("thing", "twin", name=name, departures=_departures(sheet, article, differing, usual))


# ---- limitations and what turns on a re-reading


def limitation_labelled(sheet: Sheet, label: str) -> Limitation | None:
    """The limitation of this label, or None for the label of a claim."""
    return next((item for c in sheet.claims for item in c.limitations if item.label == label), None)


def own_words(limitation: Limitation) -> str:
    """The claim's words of a limitation in quotation marks, or the exact line itself."""
    return quoted(limitation.words or limitation.text)


def labelled(sheet: Sheet, label: str) -> str:
    """`1b "between 2 and 4 mm"` for a limitation; any other label as it is."""
    limitation = limitation_labelled(sheet, label)
    return f"{label}{GLUE}{own_words(limitation)}" if limitation else flat(label)


def lineage(sheet: Sheet, number: int) -> tuple[int, ...]:
    """The claim and everything it depends on, ascending."""
    known = {c.number: c for c in sheet.claims}
    found: set[int] = set()
    waiting = [number]
    while waiting:
        n = waiting.pop()
        if n in known and n not in found:
            found.add(n)
            waiting += known[n].parents
    return tuple(sorted(found))


def turning_limitations(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The limitations, in sheet order, to which the re-readings of the finding make a difference."""
    k, base = finding.construction, base_construction(sheet)
    moved = {reread.group for reread in (*finding.rereads, *finding.read_as)}
    if k is None or finding.witness is None or not moved:
        return ()
    article = finding.witness.article
    claims = lineage(sheet, finding.claim)
    return tuple(
        item
        for claim in sheet.claims
        if claim.number in claims
        for item in claim.limitations
        if moved & set(item.groups) and _met(item, article, k) != _met(item, article, base)
    )


def concerned(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The limitation a finding is about, else those that fail, else those its re-readings change."""
    own = limitation_labelled(sheet, finding.label)
    if own:
        return (own,)
    failing = tuple(x for label in finding.failing if (x := limitation_labelled(sheet, label)))
    return failing or turning_limitations(sheet, finding)


def _met(limitation: Limitation, article: Article, k: Construction) -> bool:
    return evaluate(limitation.formula, article, k) is True


# ---- readings


def _meaning(plain: str) -> str:
    """A reading's meaning as given; one that asks nothing, or that nothing meets, says so in words."""
    fixed = {"TRUE": "always", "FALSE": "never"}
    return sentence("reading", fixed[plain]) if plain in fixed else flat(plain)


def standing_text(group: Group, reading: int) -> str:
    """The standing of a reading; where several are presumed alike, that no presumption is known."""
    presumed = sum(r.standing == "presumed" for r in group.readings)
    standing = group.readings[reading].standing
    if standing == "presumed" and presumed > 1:
        return sentence("reading", "no_presumption")
    return sentence("standing", standing)


def group_words(group: Group, labels: Iterable[str] = ()) -> str:
    """A phrase in quotation marks: its words at the first place among `labels`, else its common wording."""
    wanted = set(labels)
    place = next((p for p in group.places if p.where in wanted), None)
    if place is None and len(group.places) == 1:
        place = group.places[0]
    return quoted(place.words if place else group.wording)


def reading_text(sheet: Sheet, reread: Reread, labels: Iterable[str] = ()) -> str:
    """A re-reading: the words, the reading's label, its standing, its plain meaning, its break-points."""
    group = sheet.groups[reread.group]
    reading = group.readings[reread.reading]
    words = group_words(group, labels)
    values = {
        "words": words,
        "label": flat(reading.label),
        "standing": standing_text(group, reread.reading),
        "plain": _meaning(reading.plain),
    }
    text = sentence("reading", "departs" if reading.plain else "bare", **values)
    points = [break_text(sheet, point, words) for point in reread.breaks]
    return "; ".join([text, *points])


def reading_label(sheet: Sheet, reread: Reread, with_words: bool = False, labels: Iterable[str] = ()) -> str:
    """A reading in brief: its label and standing, after its words if asked for, and its break-points."""
    group = sheet.groups[reread.group]
    words = group_words(group, labels)
    label = flat(group.readings[reread.reading].label)
    key = "bare" if with_words else "label"
    text = sentence("reading", key, words=words, label=label, standing=standing_text(group, reread.reading))
    return "; ".join([text, *(break_text(sheet, point, words) for point in reread.breaks)])


def break_text(sheet: Sheet, point: BreakPoint, words: str) -> str:
    """`once "about" stretches by more than 2 %`: where a parameter changes the outcome, open or closed."""
    parameter = next(p for p in sheet.parameters if p.key == point.parameter)
    way = ("widens_" if point.upward else "narrows_") + ("closed" if point.end.closed else "open")
    return sentence("reading", way, words=words, value=stretch_text(parameter, point.end.value))


def stretch_text(parameter: FreeParameter, value: Fraction) -> str:
    """A parameter's value for people: a bare share as a percentage, anything else in its unit."""
    if parameter.unit.symbol or not parameter.shared:
        return quantity_text(value, parameter.unit)
    text, _, rest = plain_number(parameter.unit.from_base(value) * 100).partition(" ")
    return GLUE.join(part for part in (text, "%", rest.replace(" ", GLUE)) if part)
