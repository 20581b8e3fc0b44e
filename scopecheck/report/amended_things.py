"""What an amendment means for the listed things, and which numbers and words the sheet before lacks."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.answers.amended import Amended
from scopecheck.answers.amended_cases import CaseChange, Standing
from scopecheck.core.model import Claim, Sheet
from scopecheck.foundations.record import replace
from scopecheck.report.blocks import Block, Heading, Listing, Paragraph
from scopecheck.report.describe import case_text
from scopecheck.report.margins import readings_told
from scopecheck.report.wording import claims_text, flat, listed, quoted, sentence, upper_first

APART = 1_000_000
"""Added to the numbers of the other sheet's claims where both stand in one sheet to be told."""


def together(own: Sheet, other: Sheet) -> Sheet:
    """A sheet with the claims of both, to tell a thing by the words of either; `other` is renumbered."""

    def apart(claim: Claim) -> Claim:
        parents = tuple(p + APART for p in claim.parents)
        limitations = tuple(replace(x, claim=x.claim + APART) for x in claim.limitations)
        return replace(claim, number=claim.number + APART, parents=parents, limitations=limitations)

    return replace(own, claims=(*own.claims, *map(apart, other.claims)))


def listed_things(amended: Amended) -> Iterator[Block]:
    """The listed things that stand otherwise to a claim after, and those that are still met or lost."""
    if not amended.joined.after.cases:
        return
    yield Heading(sentence("amend", "things"))
    if not amended.cases:
        yield Paragraph(sentence("amend", "no_cases"), quiet=True)
        return
    told = [c for c in amended.cases if c.changed or c.undecided]
    told += [c for c in amended.cases if c not in told and c.after.how != "none"]
    if told:
        yield Listing(tuple(_case_line(amended, c) for c in told))
    rest = [c for c in amended.cases if c not in told]
    if rest:
        names = dict.fromkeys(case_text(amended.joined.after, c.case.name) for c in rest)
        claims = claims_text(c.after.claim for c in rest)
        yield Paragraph(sentence("amend", "cases_same", cases=listed(names), claims=claims), quiet=True)


def _case_line(amended: Amended, change: CaseChange) -> str:
    before, after = amended.joined.before, amended.joined.after
    name = case_text(after, change.case.name)
    if change.case.role == "outside":
        name = sentence("amend", "case_outside", case=name)
    if change.case.role == "inside":
        name = sentence("amend", "case_inside", case=name)
    inside = change.case.role == "inside"
    return sentence(
        "amend",
        "case_line",
        case=name,
        claim=claims_text((change.after.claim,)),
        before=_standing(change.before, together(before, after), inside),
        after=_standing(change.after, together(after, before), inside),
    )


def _standing(standing: Standing, sheet: Sheet, inside: bool) -> str:
    if standing.reason:
        return sentence("amend", "undecided", reason=flat(standing.reason))
    if standing.relation:
        label = claims_text((standing.claim,))
        return sentence("relation", standing.relation, label=label)
    readings = ""
    if standing.how == "some" and standing.finding is not None:
        readings = listed(readings_told(sheet, standing.finding))
    keys = {
        "every": ("met_every", "lost_every"),
        "base": ("met_base", "lost_base"),
        "some": ("met_some", "lost_some"),
        "none": ("met_none", "lost_none"),
    }
    return sentence("amend", keys[standing.how][inside], readings=readings)


def uncarried(amended: Amended) -> Iterator[Block]:
    """The numbers and words that the sheet before does not have."""
    yield Heading(sentence("amend", "carried"))
    by_claim: dict[int, list[str]] = {}
    for item in amended.uncarried:
        by_claim.setdefault(item.claim, []).append(quoted(item.words))
    if by_claim:
        yield Listing(
            tuple(
                sentence(
                    "amend", "carried_line", claim=upper_first(claims_text((n,))), items=", ".join(items)
                )
                for n, items in by_claim.items()
            )
        )
    else:
        yield Paragraph(sentence("amend", "carried_none"))
    before, after = (flat(s.source_name) for s in (amended.joined.before, amended.joined.after))
    yield Paragraph(sentence("amend", "carried_note", before=before, after=after), quiet=True)
