"""A sheet from pasted claims: drafted, read back as `check` does, and repaired until it is read."""

from __future__ import annotations

from scopecheck.drafting.draft import Draft, DraftClaim, Proposed, Quantity, one_flow
from scopecheck.drafting.pasted import Pasted
from scopecheck.drafting.propose import proposals
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Source
from scopecheck.resolve.dependencies import category, references
from scopecheck.resolve.sheet import read_sheet

MOST_REPAIRS = 8


def drafted(name: str, found: Pasted, group: bool = True) -> Draft:
    """The draft of a sheet for the claims of a text, of which every line can be read.

    With `group`, what belongs together is declared so; if that cannot be read, everything is by itself.
    """
    claims = [DraftClaim(c.number, one_flow(c.text)) for c in found.claims]
    draft = Draft(name, found.title or _title(claims), claims, profile=found.practice, filed=found.filed)
    proposals(draft, group)
    grouped = group and any(q.within for q in draft.quantities)
    mended = False
    for _ in range(MOST_REPAIRS):
        written = draft.written(sample=True)
        made, diagnostics = read_sheet(Source(name, written.text))
        wrong = [d for d in diagnostics if d.severity == "error"]
        if made is not None and not wrong:
            if not made.unrestated:
                return draft if not mended else _without_unused(draft)
            for left in made.unrestated:
                _claim(draft, left.claim).lines.append(Proposed(left.words))
            continue
        if grouped and any(_of_group(draft, written.at.get(d.span.line)) for d in wrong):
            return drafted(name, found, group=False)
        mended = True
        repaired = [_repaired(draft, written.at.get(d.span.line)) for d in wrong]
        if not any(repaired):
            break
    _only_marks(draft)
    return draft


def _without_unused(draft: Draft) -> Draft:
    """The draft without what was declared for lines that are marks now."""
    used = {name for claim in draft.claims for line in claim.lines for name in line.names}
    said = " ".join(line.line.lower() for claim in draft.claims for line in claim.lines if line.name)
    draft.quantities = [
        q
        for q in draft.quantities
        if q.name in used
        or q.within is not None
        or any(o.within is q for o in draft.quantities)
        or q.name.lower() in said
    ]
    return draft


def _of_group(draft: Draft, at: tuple[DraftClaim | None, Proposed | Quantity | None] | None) -> bool:
    """Whether a mistake stands at something that is within another, or has something within it."""
    item = at[1] if at else None
    quantity = item if isinstance(item, Quantity) else None
    if isinstance(item, Proposed) and item.name:
        quantity = next((q for q in draft.quantities if q.name == item.name), None)
    return quantity is not None and any(quantity in (q, q.within) for q in draft.quantities if q.within)


def _claim(draft: Draft, number: int) -> DraftClaim:
    return next(claim for claim in draft.claims if claim.number == number)


def _only_marks(draft: Draft) -> None:
    """The last resort: every line as a mark, nothing declared."""
    draft.quantities.clear()
    for claim in draft.claims:
        for line in claim.lines:
            line.name = ""


_BODY = regex(r"\s+(?:configured|adapted|arranged|operable|suitable|designed|programmed)\b")
"""Words with which the body of a claim begins behind what it is for."""


def _title(claims: list[DraftClaim]) -> str:
    words = _BODY.split(category(claims[0].text).partition(" with ")[0])[0].split()
    return " ".join(words[:12]).replace('"', "").lstrip("#| ") or "Claims"


def _repaired(draft: Draft, at: tuple[DraftClaim | None, Proposed | Quantity | None] | None) -> bool:
    """Takes back what stands where a mistake was found. Its words stay in the sheet, marked."""
    claim, item = at or (None, None)
    match item:
        case Quantity():
            draft.quantities.remove(item) if item in draft.quantities else None
            for other in draft.claims:
                for line in other.lines:
                    line.name = "" if item.name in line.names else line.name
            return True
        case Proposed() if not item.words and claim is not None:
            claim.lines.remove(item)
            return True
        case Proposed() if item.name:
            kinds = draft.kinds()
            alike = draft.alike(item, kinds)
            for line in (line for c in draft.claims for line in c.lines if line.name):
                line.name = "" if draft.alike(line, kinds) == alike else line.name
            return True
        case Proposed() if claim is not None and item in claim.lines:
            claim.lines.remove(item)
            return True
    return claim is not None and _reference_marked(draft, claim)


def _reference_marked(draft: Draft, claim: DraftClaim) -> bool:
    """Marks a reference that cannot be followed: to a claim that is not there, or in a circle."""
    known = [c.number for c in draft.claims]
    for reference in references(claim.text, claim.number, known):
        words = " ".join(claim.text[reference.start : reference.end].split())
        if not any(line.words == words and not line.name for line in claim.lines):
            claim.lines.append(Proposed(words))
            return True
    return False
