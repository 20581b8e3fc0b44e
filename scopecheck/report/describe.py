"""Values, cases and limitations of one sheet in words: the parts of a report's sentences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import assert_never

from scopecheck.answers.findings import (
    Finding,
    cases_of,
    unmet_by,
)
from scopecheck.core.construction import Construction, base_construction
from scopecheck.core.declared import ChoiceDecl, NumberDecl, Part, SetDecl
from scopecheck.core.formula import Article, Bound, Value
from scopecheck.core.model import Case, Limitation, Sheet
from scopecheck.report.amounts import quantity_text
from scopecheck.report.step_text import Told, step_text, told_together
from scopecheck.report.wording import GLUE, flat, listed, quoted, sentence
from scopecheck.solving.evaluate import evaluate

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


def settings(sheet: Sheet, values: Iterable[tuple[Told, str]]) -> list[str]:
    """Each name with the text of its value, a step with what is told of it: `hole 2: diameter 3 mm`.

    Like parts of which the same is told one after the other are told together: `holes 2 to 7: ... each`.
    """
    of_one = {name: (part, i, own) for part in sheet.parts for i, own, name in part.slots()}
    told: list[tuple[Part | None, int, int, str]] = []
    for (step, names), text in values:
        part, index, own = of_one.get(names[0], (None, 0, names[0]))
        said = text if step else f"{flat(own)}{GLUE}{text}"
        if part is not None and told and told[-1][:3] == (part, index, index):
            both = sentence("thing", "and_field", values=told[-1][3], value=said)
            told[-1] = (part, index, index, both)
        else:
            told.append((part, index, index, said))
    return [_of_parts(*run) for run in _runs(told)]


def _runs(told: list[tuple[Part | None, int, int, str]]) -> list[tuple[Part | None, int, int, str]]:
    """The same with neighbours of which the same is told as one."""
    runs: list[tuple[Part | None, int, int, str]] = []
    for part, first, last, said in told:
        before = runs[-1] if runs else (None, 0, 0, "")
        if part is not None and (before[0], before[2], before[3]) == (part, first - 1, said):
            runs[-1] = (part, before[1], last, said)
        else:
            runs.append((part, first, last, said))
    return runs


def _of_parts(part: Part | None, first: int, last: int, said: str) -> str:
    if part is None:
        return said
    if first == last:
        return f"{flat(part.called(first))}: {said}"
    within = sentence("thing", "within", outer=flat(part.within.name)) if part.within else ""
    key = "two_parts" if last == first + 1 else "run_of_parts"
    names = flat(part.plural)
    return sentence("thing", key, parts=names, first=first, last=last, within=within, said=said)


def setting_text(sheet: Sheet, name: str, value: Value) -> str:
    """`diameter 3 mm`; of one of several parts `hole 2: diameter 3 mm`."""
    (told,) = settings(sheet, [((None, (name,)), value_text(sheet, name, value))])
    return told


def settings_text(sheet: Sheet, article: Article, names: Iterable[str]) -> str:
    """`holes 25, diameter 3 mm`, in the order of the sheet."""
    wanted = set(names)
    ordered = [d.name for d in sheet.declarations if d.name in wanted and d.name in article]
    return ", ".join(told_texts(sheet, told_together(sheet, ordered, article), article))


def told_texts(sheet: Sheet, together: Iterable[Told], values: Mapping[str, Value]) -> list[str]:
    """`soaking from 10 min to 25 min` of a step, `diameter 3 mm` of anything else, like parts together."""
    texts = ((told, told_value(sheet, told, values)) for told in together)
    return settings(sheet, texts)


def told_value(sheet: Sheet, told: Told, values: Mapping[str, Value]) -> str:
    """What is told of a step, or the value of anything else without its name."""
    step, names = told
    if step:
        return step_text(sheet, step, names, values)
    return value_text(sheet, names[0], values[names[0]])


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

_RUN_ON = frozenset(
    "all and any at both by each few for from half in many more most no none not of on only or other some"
    " the to under with without".split()
)
"""Words with which a case's name would run into the sentence that it stands in."""


def case_named(sheet: Sheet, name: str) -> Case | None:
    """The case of this name, or None."""
    return next((c for c in sheet.cases if c.name == name), None)


def case_text(sheet: Sheet, name: str) -> str:
    """A case by its name; a document says that it is one and where it is read."""
    case = case_named(sheet, name)
    shown = flat(name)
    if case is None or case.role != "document":
        return quoted(name) if shown.lower().split()[:1] and shown.lower().split()[0] in _RUN_ON else shown
    if not shown.lower().startswith("document"):
        shown = sentence("thing", "document", name=shown)
    return sentence("thing", "place", name=shown, place=quoted(case.place)) if case.place else shown


# ---- limitations and what turns on a re-reading


def limitation_labelled(sheet: Sheet, label: str) -> Limitation | None:
    """The limitation of this label, or None for the label of a claim."""
    return sheet.by_label.get(label)


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


def chains(sheet: Sheet, number: int) -> tuple[tuple[int, ...], ...]:
    """The ways to read a claim with one parent each time: the claims that each way is made of, ascending."""
    if number not in sheet.chains:
        return ()
    ways = sheet.chains[number] or ((),)
    return tuple(dict.fromkeys(tuple(sorted({*chain, number})) for chain in ways))


def turning_limitations(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The limitations, in sheet order, to which the re-readings of the finding make a difference.

    Where it needs none, those to which the re-readings do that would undo it. Looked up once for a finding.
    """
    key = ("turning", id(finding))
    if key not in sheet.looked_up:
        sheet.looked_up[key] = (finding, _turning(sheet, finding))
    found: tuple[Limitation, ...] = sheet.looked_up[key][1]
    return found


def _turning(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    k, base = finding.construction, base_construction(sheet)
    moved = {reread.group for reread in (*finding.rereads, *finding.read_as)}
    undone = [] if moved else [base.with_reading(r.group, r.reading) for r in unmet_by(finding)]
    if k is None or finding.witness is None or not (moved or undone):
        return ()
    article = finding.witness.article
    claims = lineage(sheet, finding.claim)
    groups = moved or {reread.group for reread in unmet_by(finding)}
    return tuple(
        item
        for claim in sheet.claims
        if claim.number in claims
        for item in claim.limitations
        if groups & set(item.groups)
        and any(_met(item, article, other) != _met(item, article, base) for other in undone or [k])
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


def sides_text(sheet: Sheet, finding: Finding) -> str:
    """The cases that clash, each on its own side: `"first" and "third" inside and "old" out`."""
    told = []
    for role in ("inside", "outside"):
        names = [n for n in cases_of(finding) if (case := case_named(sheet, n)) and case.role == role]
        if names:
            told.append(sentence("sides", role, cases=listed(map(quoted, names))))
    shown = listed(told) or sentence("sides", "every")
    shown = shown if len(cases_of(finding)) == 1 else sentence("sides", "together", sides=shown)
    several = any(len(g.places) > 1 and len(g.readings) > 1 for g in sheet.groups)
    return sentence("sides", "alike", sides=shown) if several else shown
