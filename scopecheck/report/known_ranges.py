"""How a document's range lies against a claim, in words: what both hold, the widths, what is nearest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from scopecheck.answers.about import RangeLies
from scopecheck.answers.findings import Finding, Quantifier
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.formula import All, Formula, conjuncts
from scopecheck.core.model import Sheet
from scopecheck.core.range_sets import Pieces, both, pieces_of
from scopecheck.core.ranges import Lying, lying, lying_beside_ties
from scopecheck.core.reference import stated_values
from scopecheck.core.rewrite import read_at
from scopecheck.core.ties import TiedLying, lying_ties
from scopecheck.report.chart import lies_text, range_text
from scopecheck.report.describe import case_named, case_text, chains, labelled, limitation_labelled, lineage
from scopecheck.report.grouping import departures
from scopecheck.report.nearness import nearness_text
from scopecheck.report.ties import tie_text, tied_lies_text, tied_range_text
from scopecheck.report.wording import flat, listed, sentence
from scopecheck.solving.evaluate import meets

MOST_APART = 3
"""Numbers in which a range lies apart that are told one by one."""


def relation_text(sheet: Sheet, finding: Finding) -> str:
    """How a document's range lies against the claim: `overlaps claim 1 (shared: gap 2 mm to 3 mm)`, or ''."""
    if not isinstance(finding.about, RangeLies):
        return ""
    relation = finding.about.relation
    further = any(point.upward and not point.only for r in finding.rereads for point in r.breaks)
    key: str = "touches first" if relation == "touches" and further else relation
    case, scope = case_named(sheet, finding.case), _ranged(sheet, finding)
    if key == "touches" and case and scope and len(_touching(sheet, case.facts, scope)) > 1:
        key = "touches ends"
    text = sentence("relation", key, label=flat(finding.label))
    ranges = _shared_text(sheet, case.facts, scope, finding, finding.about) if case and scope else ""
    return f"{text} ({ranges})" if ranges else text


def how_read(sheet: Sheet, finding: Finding) -> str:
    """On which readings a document's range lies so: `read as presumed`; '' for any other finding."""
    case = case_named(sheet, finding.case)
    if finding.question != "document range" or case is None:
        return ""
    return sentence("how_read", finding.quantifier)


def nearness_lines(sheet: Sheet, finding: Finding) -> Iterator[str]:
    """For each number that a claim and a document's range limit, the widths and what is stated nearest."""
    case, scope = case_named(sheet, finding.case), _ranged(sheet, finding)
    if case is None or scope is None:
        return
    label, shown = flat(finding.label), case_text(sheet, finding.case)
    for own in lying(sheet, case.facts, scope, base_construction(sheet)):
        widths = nearness_text(sheet, case, own)
        if widths:
            yield sentence("near", "line", name=flat(own.name), label=label, case=shown, widths=widths)


def _ranged(sheet: Sheet, finding: Finding) -> All | None:
    """All that a claim asks for, where a document's range lies against it as presumed."""
    case = case_named(sheet, finding.case)
    if case is None or case.form != "range" or departures(finding) or not finding.claim:
        return None
    if limitation_labelled(sheet, finding.label) or len(chains(sheet, finding.claim)) > 1:
        return None
    return All(tuple(x.formula for c in lineage(sheet, finding.claim) for x in sheet.claim(c).limitations))


def _touching(sheet: Sheet, facts: Formula, scope: Formula) -> list[str]:
    """The numbers of which a stated range and a claim share an end and no more."""
    found = lying(sheet, facts, scope, base_construction(sheet))
    return [own.name for own in found if own.relation == "touches"]


def _shared_text(sheet: Sheet, facts: Formula, scope: Formula, finding: Finding, lies: RangeLies) -> str:
    """What a stated range and a claim share of each number that both limit, or in which they are apart."""
    base = base_construction(sheet)
    found, ties = lying(sheet, facts, scope, base), lying_ties(facts, scope, base)
    apart = [own for own in found if own.relation == "apart"]
    tied_apart = [_of_tie(own, tied_lies_text(sheet, own)) for own in ties if own.relation == "apart"]
    if apart or tied_apart:
        ranges = "; ".join(
            [*([_apart_text(sheet, apart, finding.quantifier, lies.firm)] if apart else []), *tied_apart]
        )
        return sentence("lies", "counted", ranges=ranges) if finding.quantifier == "every" else ranges
    at_end = [own for own in found if lies.relation == own.relation == "touches"]
    ends = [_of_name(own, range_text(sheet, own.name, own.shared)) for own in at_end if own.shared]
    rest = [own for own in found if own not in at_end]
    told = [_of_name(own, range_text(sheet, own.name, own.shared)) for own in rest if own.shared is not None]
    alone: list[str] = []
    for own in lying_beside_ties(sheet, facts, scope, base):
        parts = _of_it_alone(sheet, own, All((facts, scope)))
        if own.shared is None or parts is None:
            continue
        pieces, tied = parts
        if not pieces:
            return sentence("lies", "nothing_of", name=flat(own.name))
        text = listed([range_text(sheet, own.name, piece) for piece in pieces], "or")
        (alone if tied else told).append(_of_name(own, text))
    told += [_of_tie(own, tied_range_text(sheet, own.tie, own.shared)) for own in ties if own.shared]
    if lies.relation == "apart":
        lines = listed(labelled(sheet, x) for x in _that_part(sheet, facts, finding))
        texts = [sentence("lies", "by", lines=lines)] if lines else []
        return "; ".join([*texts, *_alone(told + alone)])
    texts = [sentence("lies", "at_ends", ranges=", ".join(ends))] if ends else []
    texts += [sentence("lies", "shared_beside" if ends else "shared", ranges=", ".join(told))] if told else []
    return "; ".join([*texts, *_alone(alone)])


def _alone(told: Sequence[str]) -> list[str]:
    return [sentence("lies", "shared_alone", ranges=", ".join(told))] if told else []


def _that_part(sheet: Sheet, facts: Formula, finding: Finding) -> Iterator[str]:
    """The lines of the claim, as presumed, that what the document states of single values does not meet."""
    case, base = case_named(sheet, finding.case), base_construction(sheet)
    stated = stated_values(sheet, case, exact=True) if case else {}
    for x in (x for n in lineage(sheet, finding.claim) for x in sheet.claim(n).limitations):
        told = names_in(x.formula) <= stated.keys()
        if (told and not meets(x.formula, stated, base)) or any(
            own.relation == "apart" for own in lying_ties(facts, x.formula, base)
        ):
            yield x.label


def _of_it_alone(sheet: Sheet, own: Lying, said: Formula) -> tuple[Pieces, bool] | None:
    """What two formulas share of a number by all that limits it alone; and whether more ties it to others.

    None where something that limits it alone is no set of ranges.
    """
    items = [i for i in conjuncts(read_at(said, base_construction(sheet))) if own.name in names_in(i)]
    pieces: Pieces = (own.shared,) if own.shared is not None else ()
    for item in (i for i in items if names_in(i) == {own.name}):
        left = pieces_of(item)
        if left is None:
            return None
        pieces = both(pieces, left)
    return pieces, any(names_in(i) != {own.name} for i in items)


def _of_name(own: Lying, text: str) -> str:
    return sentence("lies", "range_of", name=flat(own.name), range=text)


def _of_tie(own: TiedLying, text: str) -> str:
    return sentence("lies", "range_of", name=tie_text(own.tie), range=text)


def _apart_text(sheet: Sheet, apart: Sequence[Lying], quantifier: Quantifier, firmly: Sequence[str]) -> str:
    """The numbers in which they lie apart: those in which they do so on every reading first."""
    firm = [own for own in apart if own.name in firmly]
    rest = [own for own in apart if own.name not in firmly]
    told = [_of_name(own, lies_text(sheet, own)) for own in (*firm, *rest)]
    more = len(told) - MOST_APART
    told = [*told[:MOST_APART], *([sentence("lies", "more", count=more)] if more > 0 else [])]
    if quantifier != "every" or not rest or len(firm) >= MOST_APART:
        return ", ".join(told)
    weak = sentence("lies", "presumed_too" if firm else "presumed", ranges=", ".join(told[len(firm) :]))
    return "; ".join([*([", ".join(told[: len(firm)])] if firm else []), weak])
