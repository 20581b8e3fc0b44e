"""What a started sheet says of itself in remarks: what was read, assumed, asked, and kept aside."""

from __future__ import annotations

from scopecheck.drafting.asked import questions
from scopecheck.drafting.draft import Draft, Quantity, wrapped
from scopecheck.drafting.marks import THOUSANDS, without_commas_in_numbers
from scopecheck.drafting.pasted import Pasted
from scopecheck.drafting.stepped import is_step
from scopecheck.report.wording import GLUE, claims_text, counted, listed, quoted, sentence

_WIDTH = 88


def with_remarks(draft: Draft, found: Pasted, source: str) -> None:
    """Puts the remarks above and below a draft."""
    draft.remarks, draft.after = head(draft, found, source), foot(found)


def head(draft: Draft, found: Pasted, source: str) -> list[str]:
    """The remarks above a sheet: where it comes from, what is assumed, what is asked."""
    restated = sum(1 for c in draft.claims for line in c.lines if line.name)
    marked = sum(1 for c in draft.claims for line in c.lines if not line.name)
    lines = _wrapped(sentence(
        "start", "begun", source=source, claims=counted(len(draft.claims), "claim"),
        restated=counted(restated, "limit"), marked=counted(marked, "stretch"),
    ))  # fmt: skip
    lines += ["", *_numbered(sentence("start", "assumed", count=len(a := assumed(draft, found))), a)]
    asked = questions(draft)
    return [*lines, "", *_numbered(sentence("start", "asked", count=len(asked)), asked)]


def assumed(draft: Draft, found: Pasted) -> list[str]:
    """Everything that the sheet takes for granted and the text does not say."""
    seen = "assumed_profile" if found.practice == "US" else "assumed_epo"
    lines = [] if found.profile else [sentence("start", seen)]
    lines += [] if found.title else [sentence("start", "assumed_title", title=draft.title)]
    if found.unnumbered:
        lines.append(sentence("start", "assumed_unnumbered"))
    text = "\n".join(c.text for c in draft.claims)
    if numbers := list(dict.fromkeys(n for n in THOUSANDS.findall(text))):
        whole = listed([without_commas_in_numbers(n) for n in numbers])
        lines.append(
            sentence("start", "assumed_commas", numbers=listed([quoted(n) for n in numbers]), whole=whole)
        )
    return lines + [_assumed_of(draft, q) for q in draft.quantities if q.within is None]


def _assumed_of(draft: Draft, q: Quantity) -> str:
    """What is taken for granted of a quantity and of those within it."""
    below = [quoted(other.declared or other.name) for other in draft.quantities if other.within is q]
    if below:
        form = "assumed_part" if q.declared else "assumed_composition"
        return sentence("start", form, name=q.declared or q.name, kind=q.kind, below=listed(below))
    if is_step(q):
        return sentence("start", "assumed_step", name=q.name, kind=q.kind, claims=claims_text(q.claims))
    more = {"owner": q.owner} if q.owner and q.owner not in q.name else {}
    form = "assumed_owner" if more else "assumed_name"
    return sentence("start", form, name=q.name, kind=q.kind, claims=claims_text(q.claims), **more)


def foot(found: Pasted) -> list[str]:
    """What of the text is no claim, or a claim under a number that was there before: kept, not taken up."""
    lines: list[str] = []
    for where, words in found.aside:
        lines += _wrapped(sentence("aside", where, words=quoted(words)))
    for claim in found.again:
        text = " ".join(claim.text.split())
        lines += _wrapped(sentence("start", "again", number=claim.number, words=quoted(text)))
    return lines


def _numbered(title: str, items: list[str]) -> list[str]:
    if not items:
        return []
    lines = _wrapped(title)
    for number, item in enumerate(items, 1):
        first, *rest = _wrapped(f"{number}. {item}")
        lines += [f"  {first}", *(f"     {line}" for line in rest)]
    return lines


def _wrapped(text: str) -> list[str]:
    return wrapped(" ".join(text.replace(GLUE, " ").split()), _WIDTH)
