"""What a started sheet asks: what the words could not tell, each sort of question once for all."""

from __future__ import annotations

from collections.abc import Iterable

from scopecheck.drafting.draft import Doubt, Draft, Quantity
from scopecheck.drafting.stepped import is_step
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed_words
from scopecheck.report.wording import claims_text, has_sentence, listed, quoted, sentence

_UNREAD = regex(r"\d+\s*[^\s\d.)]|[½¼¾]|\b(?:half|twice|double|thrice|triple|at least|at most|than)\b")
"""Words not restated that hold a number with something after it, most often its unit."""
_NUMBER = regex(r"\d")
_TOKEN = regex(r"\w+|[^\w\s]")
_LAST_WORD = regex(r"\d\s+([^\W\d_]+(?: per [^\W\d_]+)?)$")
_SIDES = frozenset(
    ("inner", "outer", "internal", "external", "inside", "outside", "relative", "gauge", "absolute")
)
"""Words that tell of a diameter, or of a humidity, what would be asked of it."""
_BY_KIND = frozenset(("density",))
"""Nouns that are measures of several kinds, and asked of in one only."""
_SORTS = tuple(
    "same basis under change ratio condition either unit excluded unread example how whole each order"
    " owner".split()
)
"""The sorts of questions, those that most often matter first."""


def questions(draft: Draft) -> list[str]:
    """The questions on a draft, one of each sort that naming everything it is asked of."""
    found: dict[str, list[str]] = {sort: [] for sort in _SORTS}
    for doubt in draft.doubts:
        found["same"] += _pairs(draft, doubt)
    for quantity in draft.quantities:
        for sort, name in (*_about(quantity), *_about_each(draft, quantity)):
            found[sort].append(name)
    for claim in draft.claims:
        for line in claim.lines:
            if not line.name and (_UNREAD.search(line.words) or _excluding(line.words)):
                said = sentence("start", "words_of_claim", claim=claim.number, words=quoted(line.words))
                found[_sort_of(line.words)].append(said)
    found["order"] += [claims_text(draft.unordered)] if draft.unordered else []
    return [
        sentence("asked", sort, of=listed(dict.fromkeys(of), "or" if sort == "same" else "and"))
        for sort, of in found.items()
        if of
    ]


def _pairs(draft: Draft, doubt: Doubt) -> list[str]:
    """The quantity of a doubt beside each that it may be; nothing of what is not in the sheet any more."""
    if doubt.quantity not in draft.quantities:
        return []
    return [
        sentence(
            "start",
            "pair",
            name=_name(doubt.quantity),
            claim=doubt.claim,
            other=_name(other),
            earlier=earlier,
        )
        for other, earlier in doubt.others
        if other in draft.quantities
    ]


def _name(quantity: Quantity) -> str:
    """A quantity by its name; of a step its duration is meant."""
    return f"duration of {quantity.name}" if is_step(quantity) else quantity.name


def _excluding(words: str) -> bool:
    """Whether words not restated say what is not there."""
    return run_at(_TOKEN.findall(words.lower()), 0, "limits", "excluding") > 0


def _sort_of(words: str) -> str:
    """Which sort of question is asked of words not restated that hold a number."""
    if _an_example(words):
        return "example"
    texts = _TOKEN.findall(words.lower())
    if _excluding(words):
        return "excluded"
    if _conditional(texts):
        return "condition"
    if texts[0] in listed_words("limits", "leaving_free"):
        return "example"
    closed = [i for i in range(len(texts)) if run_at(texts, i, "limits", "closings")]
    if (
        "or" in [t for i, t in enumerate(texts) if i not in closed]
        and len([t for t in texts if t[0].isdecimal()]) > 1
    ):
        return "either"
    if "by" in texts and texts[0] in listed_words("limits", "changes"):
        return "change"
    if texts[0] in ("ratio", "quotient"):
        return "ratio"
    unit = _LAST_WORD.search(words)
    return "unit" if unit and find_unit(unit[1]) is None else "unread"


def _conditional(texts: list[str]) -> bool:
    """Whether words not restated hold a condition."""
    governing = listed_words("limits", "governing")
    return any(t in governing or run_at(texts, i, "limits", "provisos") for i, t in enumerate(texts))


def _an_example(words: str) -> bool:
    """Whether words not restated are an example or a preference: what they limit is asked in other words."""
    texts = _TOKEN.findall(words.lower())
    return run_at(texts, 0, "clauses", "examples") > 0 or texts[-1] == "preferred"


def _about_each(draft: Draft, quantity: Quantity) -> Iterable[tuple[str, str]]:
    """Asked of what several like things have and no 'each' says is of each."""
    several = next((q for q in draft.quantities if q.name == quantity.owner and q.kind == "count"), None)
    if several is not None and several is not quantity and quantity.within is None:
        yield "each", sentence("start", "of_several", name=quantity.name, several=several.name)


def _as_asked(quantity: Quantity, noun: str) -> bool:
    """Whether a noun is what is asked of: a 'density' in g/cm3, and none of a current."""
    if quantity.kind.endswith(("(g)", "(a)")):
        return False  # gauge or absolute is told
    return has_sentence("asked_of", noun) and (noun not in _BY_KIND or quantity.kind.startswith(f"{noun} in"))


def _about(quantity: Quantity) -> Iterable[tuple[str, str]]:
    """What is asked of a quantity by its kind and noun."""
    last = quantity.noun.split()[-1]
    if quantity.note and _NUMBER.search(quantity.note) and not is_step(quantity):
        yield "under", sentence("start", "under_one", name=_name(quantity), words=quoted(quantity.note))
    if quantity.kind.startswith(("part,", "composition in wt", "composition in vol", "composition in mol")):
        return
    if quantity.note or is_step(quantity):
        return
    if quantity.kind in ("share in %", "composition in %") and quantity.within is None and last != "humidity":
        yield "basis", quoted(quantity.name)
    elif _as_asked(quantity, last) and _SIDES.isdisjoint(quantity.noun.split()):
        yield "how", sentence("start", "how_one", name=quantity.name, how=sentence("asked_of", last))
    elif quantity.kind.startswith("share") and quantity.within is None and " of " not in quantity.kind:
        yield "whole", quoted(quantity.name)
    elif " of " in quantity.kind or quantity.owner or quantity.kind == "count":
        return
    elif quantity.within is None:
        yield "owner", quoted(quantity.name)
