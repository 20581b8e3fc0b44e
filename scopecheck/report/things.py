"""The thing of a finding in words: what departs from something the reader knows, and nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from scopecheck.answers.about import Unmeant
from scopecheck.answers.findings import Finding
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.declared import Step
from scopecheck.core.formula import Article, Value
from scopecheck.core.model import Limitation, Sheet
from scopecheck.core.reference import stated_values
from scopecheck.report.describe import (
    case_named,
    case_text,
    chains,
    concerned,
    limitation_labelled,
    lineage,
    settings,
    told_texts,
    told_value,
    value_text,
)
from scopecheck.report.step_text import told_together, when_text, whole_steps
from scopecheck.report.wording import flat, listed, quoted, sentence
from scopecheck.solving.evaluate import evaluate

MOST_VALUES = 8
"""Values of one thing that a sentence tells."""
FEW_FREE = 2
"""Values that a case leaves free which are told even where nothing turns on them."""


# ---- what is spoken of


def in_question(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The limitation a finding is about, else those that fail, else all that its claim is made of.

    Of a pair those with either phrase, too.
    """
    own = limitation_labelled(sheet, finding.label)
    if own and finding.question == "pair":
        moved = {r.group for r in (*finding.rereads, *finding.read_as)}
        of_claim = (x for c in sheet.claims if c.number in lineage(sheet, own.claim) for x in c.limitations)
        return (own, *(x for x in of_claim if x is not own and moved.intersection(x.groups)))
    if own:
        return (own,)
    failing = tuple(x for label in finding.failing if (x := limitation_labelled(sheet, label)))
    if failing:
        return failing
    return _chain_met(sheet, finding)


def _chain_met(sheet: Sheet, finding: Finding) -> tuple[Limitation, ...]:
    """The claim's limitations by way of the first parents by which the thing meets it, else all of them."""
    number, witness = finding.claim, finding.witness
    ways = chains(sheet, number) if witness is not None and len(sheet.claim(number).parents) else ()
    k = finding.construction or base_construction(sheet)
    for way in ways:
        found = tuple(x for c in sheet.claims if c.number in way for x in c.limitations)
        if witness is not None and all(evaluate(x.formula, witness.article, k) is True for x in found):
            return found
    claims = lineage(sheet, number)
    return tuple(x for claim in sheet.claims if claim.number in claims for x in claim.limitations)


_SPOKEN: dict[int, tuple[Limitation, frozenset[str]]] = {}


def _names_of(limitation: Limitation) -> frozenset[str]:
    """The names in a limitation and in what was meant by it; looked up once for each limitation."""
    found = _SPOKEN.get(id(limitation))
    if found is None or found[0] is not limitation:
        meant = (limitation.meant,) if limitation.meant is not None else ()
        found = (limitation, names_in(limitation.formula, *meant))
        if len(_SPOKEN) > 4000:
            _SPOKEN.clear()
        _SPOKEN[id(limitation)] = found
    return found[1]


def spoken_of(limitations: Iterable[Limitation]) -> frozenset[str]:
    """The names that the limitations, or what was meant by them, speak of."""
    return frozenset().union(*(_names_of(x) for x in limitations))


def _in_order(sheet: Sheet, names: Iterable[str], first: frozenset[str] = frozenset()) -> list[str]:
    """The names in the order of the sheet, some of them before the others."""
    wanted = set(names)
    ordered = [d.name for d in sheet.declarations if d.name in wanted]
    return sorted(ordered, key=lambda n: n not in first)


# ---- the thing


def thing_text(sheet: Sheet, finding: Finding) -> str:
    """The witness of a finding, departing values first: `garden sieve with holes 25 instead of 24 (...)`.

    Told is what the limitations in question and the case speak of. What a given fact alone brings in is told
    where it departs from the reference, with the given fact.
    """
    name = case_text(sheet, finding.case) if finding.case else sentence("thing", "any")
    if finding.witness is None:
        return name
    if finding.case and finding.case == finding.thing.reference:
        return _listed_text(sheet, finding, name, finding.witness.article)
    return _other_text(sheet, finding, name, finding.witness.article)


def values_as_listed(sheet: Sheet, finding: Finding) -> str:
    """The values by which a listed case is told; '' of a thing that departs from them."""
    if finding.witness is None or not finding.case or finding.case != finding.thing.reference:
        return ""
    return "" if _picked(sheet, finding) else _own_values(sheet, finding, finding.witness.article)


def _stated(sheet: Sheet, finding: Finding, article: Article) -> set[str]:
    case = case_named(sheet, finding.case)
    return set(case.stated) - sheet.absent(article) if case else set()


def _picked(sheet: Sheet, finding: Finding) -> list[str]:
    """What of a listed case is told because the thing departs from it, or the case leaves room there."""
    case = case_named(sheet, finding.case)
    if case is None or finding.witness is None:
        return []
    usual, stated = stated_values(sheet, case), _stated(sheet, finding, finding.witness.article)
    names = _in_order(sheet, (*finding.thing.names, *finding.thing.departs))
    return [n for n in names if n in stated and (n in finding.thing.departs or n not in usual)]


def _own_values(sheet: Sheet, finding: Finding, article: Article) -> str:
    """The values a case states, as far as they matter, those in question first."""
    case = case_named(sheet, finding.case)
    stated, spoken = _stated(sheet, finding, article), spoken_of(in_question(sheet, finding))
    first = spoken_of(concerned(sheet, finding))
    # What fails alone decides that a thing is not met; all that a claim asks decides that it is.
    told = (
        stated & spoken
        if finding.failing and stated & spoken
        else stated & (set(finding.thing.names) or stated)
    )
    told = whole_steps(sheet, told, stated) - {*(case.in_full if case else ())}
    return _settings(sheet, article, _in_order(sheet, told, first)) if told else ""


def _listed_text(sheet: Sheet, finding: Finding, name: str, article: Article) -> str:
    """A listed case by what departs from its values, else by these; and by what it leaves free."""
    case = case_named(sheet, finding.case)
    assert case is not None
    stated = _stated(sheet, finding, article)
    first = spoken_of(concerned(sheet, finding))
    text = name
    if picked := _picked(sheet, finding):
        departures = _departures(sheet, article, picked, stated_values(sheet, case))
        text = sentence("thing", "departs_same", name=name, departures=departures)
    elif values := _own_values(sheet, finding, article):
        text = sentence("thing", "as_listed", name=name, values=values)
    free = left_free(sheet, finding)
    if not free:
        return text
    if case.role == "document":
        return sentence("thing", "unsaid", thing=text)
    if len(free) > FEW_FREE and first and first <= stated:
        return sentence("thing", "rest", thing=text, label=flat(finding.label))
    return sentence("thing", "free", thing=text, free=_settings(sheet, article, free))


def left_free(sheet: Sheet, finding: Finding) -> list[str]:
    """What the limitations in question speak of and the case says nothing of, as the thing shows it."""
    case = case_named(sheet, finding.case)
    if case is None or finding.witness is None or finding.case != finding.thing.reference:
        return []
    article = finding.witness.article
    known = {*(set(case.stated) - sheet.absent(article)), *stated_values(sheet, case)}
    spoken = spoken_of(in_question(sheet, finding))
    names = _in_order(sheet, (*finding.thing.names, *finding.thing.departs))
    free = [n for n in names if n in spoken and n not in known]
    free += _rest_of(sheet, article, free, known)
    return [n for n in free if not _goes_without_saying(sheet, article, n)]


def _goes_without_saying(sheet: Sheet, article: Article, name: str) -> bool:
    """Is it a share that is a sum of other shares, or none of what nobody mentions?"""
    sums = {above for made in sheet.compositions for above, _ in made.classes}
    shares = {n for made in sheet.compositions for n in (*made.members, made.others)}
    return name in sums or (name in shares and article[name] == 0)


def _other_text(sheet: Sheet, finding: Finding, name: str, article: Article) -> str:
    """Any thing by what departs from the reference; a reference that shares nothing with it is left out."""
    case = case_named(sheet, finding.case)
    spoken = spoken_of(in_question(sheet, finding)) | set(case.stated if case else ())
    known = case_named(sheet, finding.thing.reference)
    usual = stated_values(sheet, known) if known else {}
    shared = spoken & usual.keys()
    departing = [n for n in finding.thing.departs if n in usual or n in spoken]
    if not shared:
        all_of = [n for n in finding.thing.names if n in spoken]
        all_of += _unnamed(sheet, article, all_of)
        return _values_text(sheet, finding, name, [*all_of, *_rest_of(sheet, article, all_of, ())])
    new = [n for n in finding.thing.names if n in spoken and n not in usual and n not in departing]
    reference = flat(finding.thing.reference)
    if not departing and not new:
        values = _settings(sheet, article, _in_order(sheet, shared))
        return sentence("thing", "exactly", name=name, reference=reference, values=values)
    # A reader looks for the quantity in question first, even where it is as in the reference.
    known_already = () if spoken & {*departing, *new} else shared
    told = _in_order(sheet, [*departing, *new, *known_already], spoken)
    told += _unnamed(sheet, article, told)
    told += _rest_of(sheet, article, told, shared)
    told += _taken_up(sheet, article, told, usual)
    return sentence(
        "thing",
        "departs",
        name=name,
        departures=_departures(sheet, article, told, usual),
        reference=reference,
        given=given_text(sheet, told, spoken, article, usual),
    )


def _unnamed(sheet: Sheet, article: Article, told: Sequence[str]) -> list[str]:
    """The further member, `other alkali`, of each class that is told, where there is some of it."""
    further = (f"other {name}" for made in sheet.compositions for name, _ in made.classes if name in told)
    return [n for n in further if n in article and article[n] and n not in told]


def _taken_up(sheet: Sheet, article: Article, told: Sequence[str], usual: Mapping[str, Value]) -> list[str]:
    """Where a share that departs is told: the shares above 0 that the reference does not state.

    What is taken from the one goes there, and all that is told is to add up.
    """
    moved = {n for n in told if n in usual and usual[n] != article[n]}
    made_of = [made.members for made in sheet.compositions if moved.intersection(made.members)]
    return [n for own in made_of for n in own if article[n] and n not in usual and n not in told]


def _rest_of(sheet: Sheet, article: Article, told: Sequence[str], known: Iterable[str]) -> list[str]:
    """Beside a composition's others that are told its further shares above 0: else none would seem left."""
    rest = [n for made in sheet.compositions if made.others in told for n in made.members if article[n]]
    return [n for n in rest if n not in {*told, *known}]


def _values_text(sheet: Sheet, finding: Finding, name: str, names: Sequence[str]) -> str:
    if not names or finding.witness is None:
        return name
    ordered = _in_order(sheet, names, spoken_of(concerned(sheet, finding)))
    values = _settings(sheet, finding.witness.article, ordered)
    return sentence("thing", "values", name=name, values=values)


def _settings(sheet: Sheet, article: Article, names: Sequence[str]) -> str:
    """`holes 25, diameter 3 mm`, in the order given; of many, the first."""
    texts = told_texts(sheet, told_together(sheet, names, article), article)
    told = ", ".join(texts[:MOST_VALUES])
    if len(texts) <= MOST_VALUES:
        return told
    return sentence("thing", "and_more", values=told, count=len(texts) - MOST_VALUES)


def _departures(sheet: Sheet, article: Article, names: Iterable[str], usual: Mapping[str, Value]) -> str:
    told = []
    for one in told_together(sheet, names, article):
        text = told_value(sheet, one, article)
        was = _was_text(sheet, *one, article, usual)
        told.append((one, sentence("thing", "instead", value=text, usual=was) if was else text))
    return listed(settings(sheet, told))


def _was_text(
    sheet: Sheet, step: Step | None, names: tuple[str, ...], article: Article, usual: Mapping[str, Value]
) -> str:
    """What the reference has there, if it says so and it is something else; else ''."""
    if step is None:
        name = names[0]
        changed = name in usual and usual[name] != article[name]
        steady = len({usual.get(n) for n in names}) == 1
        return value_text(sheet, name, usual[name]) if changed and steady else ""
    timed = tuple(n for n in (step.done, step.start, step.duration) if n in usual)
    changed = any(usual[n] != article[n] for n in names if n in usual)
    return when_text(sheet, step, timed, usual) if changed else ""


def given_text(
    sheet: Sheet,
    names: Iterable[str],
    spoken: frozenset[str] | set[str],
    article: Article,
    usual: Mapping[str, Value],
) -> str:
    """`; cement by the given fact "..."` for the name that a given fact alone moves; '' if none.

    It is a name that nothing in question speaks of, with the value of the thing beside it the fact would not
    hold, and nothing else moves beside it that is not in question.
    """
    brought = [n for n in names if n not in spoken]
    facts: dict[str, list[str]] = {}
    for name in brought:
        given = next((g for g in sheet.givens if name in names_in(g.formula)), None)
        if given is None:
            continue
        before = {**article, name: usual.get(name, article[name])}
        if name not in usual or evaluate(given.formula, before, base_construction(sheet)) is not True:
            facts.setdefault(quoted(given.note or given.text), []).append(name)
    of_sums = {n for made in sheet.compositions for n in made.members}
    told = (
        (listed(map(flat, own)), sentence("thing", "by_given", given=text))
        for text, own in facts.items()
        if len(of_sums.intersection(own)) < 2
    )
    return "".join(sentence("thing", "given", names=names, by_given=by) for names, by in told)


def twin_text(sheet: Sheet, finding: Finding) -> str:
    """The thing beside the witness, told by the values in which the two differ; '' without a twin."""
    twin = finding.about.meant if isinstance(finding.about, Unmeant) else None
    if twin is None:
        return ""
    name, article = sentence("thing", "meant"), twin.article
    usual = finding.witness.article if finding.witness else {}
    spoken = spoken_of(in_question(sheet, finding))
    differing = _in_order(sheet, [n for n in article if article[n] != usual.get(n)], spoken)
    if not differing:
        return sentence("thing", "twin_same", name=name.removesuffix(","))
    departures = _departures(sheet, article, differing, usual)
    untold = [n for n in differing if n not in finding.thing.departs]
    return sentence(
        "thing",
        "twin",
        name=name,
        departures=departures,
        given=given_text(sheet, untold, spoken, article, usual),
    )
