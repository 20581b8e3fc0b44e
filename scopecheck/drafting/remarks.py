"""What a started sheet says of itself in remarks: what was read, assumed, asked, and kept aside."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from scopecheck.drafting.draft import Draft, Quantity
from scopecheck.drafting.pasted import Pasted
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.report.wording import GLUE, claims_text, counted, has_sentence, listed, quoted, sentence

_WIDTH = 88
_UNREAD = regex(r"\d+\s*[^\s\d.)]|[½¼¾]")
"""Words not restated that hold a number with something after it, most often its unit."""
_TOKEN = regex(r"\w+|[^\w\s]")


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
    lines = [sentence("start", "assumed_profile"), sentence("start", "assumed_title", title=draft.title)]
    if found.unnumbered:
        lines.append(sentence("start", "assumed_unnumbered"))
    return lines + [_assumed_of(draft, q) for q in draft.quantities if q.within is None]


def _assumed_of(draft: Draft, q: Quantity) -> str:
    """What is taken for granted of a quantity and of those within it."""
    below = [quoted(other.declared or other.name) for other in draft.quantities if other.within is q]
    if below:
        form = "assumed_part" if q.declared else "assumed_composition"
        return sentence("start", form, name=q.declared or q.name, kind=q.kind, below=listed(below))
    more = {"owner": q.owner} if q.owner and q.owner not in q.name else {}
    form = "assumed_owner" if more else "assumed_name"
    return sentence("start", form, name=q.name, kind=q.kind, claims=claims_text(q.claims), **more)


def questions(draft: Draft) -> list[str]:
    """What the words could not tell, the questions that most often matter first."""
    asked = [
        (rank, sentence("start", "question", name=q.name, asked=text))
        for q in draft.quantities
        for rank, text in (*_about(q), *_about_each(draft, q))
    ]
    asked += [
        (1, sentence("start", _form(line.words), claim=claim.number, words=quoted(line.words)))
        for claim in draft.claims
        for line in claim.lines
        if not line.name and _UNREAD.search(line.words)
    ]
    return list(dict.fromkeys(line for _, line in sorted(asked, key=lambda a: a[0])))


def _form(words: str) -> str:
    """The question on words not restated: what an example or a preference limits is asked in other words."""
    texts = _TOKEN.findall(words.lower())
    an_example = run_at(texts, 0, "clauses", "examples") > 0 or texts[-1] == "preferred"
    return "ask_example" if an_example else "ask_unread"


def _about_each(draft: Draft, quantity: Quantity) -> Iterable[tuple[int, str]]:
    """Asked of what several like things have and no 'each' says is of each."""
    several = next((q for q in draft.quantities if q.name == quantity.owner and q.kind == "count"), None)
    if several is not None and quantity.within is None:
        yield 2, sentence("start", "ask_each", several=several.name)


def _about(quantity: Quantity) -> Iterable[tuple[int, str]]:
    last = quantity.noun.split()[-1]
    if quantity.kind.startswith(("part,", "composition")):
        return
    if quantity.kind.endswith("in %"):
        yield 0, sentence("start", "ask_basis")
    elif has_sentence("asked_of", last):
        yield 1, sentence("asked_of", last)
    elif quantity.kind.startswith("share") and quantity.within is None:
        yield 1, sentence("start", "ask_whole")
    elif not quantity.owner and quantity.kind != "count" and quantity.within is None:
        yield 2, sentence("start", "ask_owner")


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
    return textwrap.wrap(text.replace(GLUE, " "), _WIDTH, break_long_words=False, break_on_hyphens=False)
