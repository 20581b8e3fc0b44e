"""From claims to proposals: names for what is limited, lines with the claims' words, marks for the rest."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.core.model import NumberDecl
from scopecheck.drafting.choices import Choice, choices
from scopecheck.drafting.draft import DraftClaim, Proposed, Quantity
from scopecheck.drafting.grouped import in_groups, ungrouped
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.limits import Stretch, stretches
from scopecheck.drafting.marks import marked, marks, words_at
from scopecheck.drafting.naming import Called, called
from scopecheck.drafting.quantities import chosen, declared_names, limited
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.shares import beside_others, with_ordinals
from scopecheck.drafting.work import Work
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.spans import Source, Span
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Own
from scopecheck.resolve.catalogue import Phrasebook
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.dependencies import Reference, references

_FILLERS = frozenset(("in", "the", "a", "an", "of"))
MOST_BACK = 14
"""How many words before a limit an 'each' is looked for."""
MOST_TRIED = 4
"""How many stretches of words are tried for one limit."""


def proposals(claims: Sequence[DraftClaim], group: bool = True) -> list[Quantity]:
    """Fills in the lines of each claim and returns the quantities they are about, in the order met.

    `group`: like parts and a composition are made of what the words say belongs together.
    """
    known = tuple(c.number for c in claims)
    works = [_work(claim, known) for claim in claims]
    beside_others(works)
    with_ordinals(works)
    quantities = limited(works)
    quantities += chosen(works, quantities)
    quantities = in_groups(works, quantities) if group else quantities
    readable = Readable(declared_names(quantities), Phrasebook(()))
    for work in works:
        propose_lines(work, readable)
    used = frozenset(line.name for work in works for line in work.claim.lines)
    ungrouped(quantities, used)
    wholes = [q.within for q in quantities if q.name in used]
    bare = [q for work in works for q in work.bare if q.within in wholes]
    return [q for q in quantities if q.name in used or q in wholes or q in bare]


def _work(claim: DraftClaim, known: Sequence[int]) -> Work:
    source = Source(f"claim {claim.number}", claim.text)
    text = ClaimText.of([Span(source, 0, len(claim.text))])
    named = references(claim.text, claim.number, known)
    astray = [r for r in named if _goes_nowhere(r, claim.number, known)]
    places = tuple((r.start, r.end) for r in named if r not in astray)
    text.refer(places)
    nowhere = [" ".join(claim.text[r.start : r.end].split()) for r in astray]
    found = [(s, called(text, s)) for s in stretches(text, {})]
    limits = _without_doubtful(text, [(s, named_by_kind(c, s)) for s, c in found])
    return Work(claim, text, places, [(s, c) for s, c in limits if c.noun], choices(text), nowhere)


def _without_doubtful(text: ClaimText, limits: list[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """Without numbers that a word follows which may be a unit; a second sign is of what the first is of."""
    found: list[tuple[Stretch, Called]] = []
    for stretch, what in limits:
        after = text.tokens[stretch.end].text if stretch.end < len(text.tokens) else "."
        unit = stretch.unit is not None or what.counted or what.noun.endswith(" parts")
        if not unit and after[0].isalpha() and after not in listed("nouns", "stops"):
            continue
        if found and stretch.sign and found[-1][0].sign and stretch.start - found[-1][0].end <= 2:
            what = found[-1][1]
        found.append((stretch, what))
    return found


def named_by_kind(what: Called, stretch: Stretch) -> Called:
    """With the word for what the unit measures, where the words beside a limit give no noun."""
    if what.noun:
        return what
    kind = kind_text(Called("", "", False), stretch.unit)
    return Called(kind.partition(" in ")[0] if " in " in kind else "", what.owner, False, True)


# ---- lines


def propose_lines(work: Work, readable: Readable, own: Own | None = None, timed: bool = True) -> None:
    """Lines for the limits that a phrase reads, and marks for what is left over then."""
    _propose_opening(work)
    for (stretch, _), quantity in zip(work.limits, work.of, strict=True):
        if stretch.sign:
            _in_symbols(work, stretch, quantity)
            continue
        words = _of_each(work.text, stretch, quantity, readable)
        if words := words or _read_words(work.text, stretch, quantity, readable):
            work.claim.lines.append(Proposed(words, quantity.name, asked=True))
    for choice in work.choices:
        _propose_choice(work, choice, readable)
    for words in work.nowhere:
        if marked(work.text, words, range(0)):
            work.claim.lines.append(Proposed(words))
    if work.opened:
        _propose_balance(work, work.opened[2].name)
        rest = words_at(work.text, *work.balance) if work.balance[1] else ""
        bare = [q for q in work.bare if not rest.endswith(q.name)]
        work.claim.lines += [Proposed("", q.name, f"{q.name} IN {work.opened[2].name}") for q in bare]
    marks(work, own or {}, timed)


def _propose_opening(work: Work) -> None:
    """A line for the transition that opens a composition."""
    if work.opened:
        start, end, whole = work.opened
        words = words_at(work.text, start, end)
        if _takes(work.text, words, start, end):
            work.claim.lines.append(Proposed(words, whole.name))


def _propose_balance(work: Work, whole: str) -> None:
    """A line for `the balance being iron`, with the impurities where these are named with it."""
    start, end = work.balance
    texts = work.text.texts
    far = next((i + 1 for i in range(end, min(end + 4, len(texts))) if texts[i].startswith("impurit")), end)
    words = words_at(work.text, start, far) if end else ""
    if words and _takes(work.text, words, start, far):
        work.claim.lines.append(Proposed(words, whole))


def _of_each(text: ClaimText, stretch: Stretch, of: Quantity, readable: Readable) -> str:
    """`each ... 5 to 8 mm` for a field of like parts, if the claim says 'each' before the limit; else ''."""
    if of.within is None or not of.within.declared or stretch.start >= len(text.tokens):
        return ""
    at = stretch.starts[0]
    while at > 0 and stretch.starts[0] - at < MOST_BACK and text.tokens[at].text not in (";", ":", "."):
        at -= 1
        if text.tokens[at].text in ("each", "every") and at not in text.taken:
            whole = words_at(text, at, stretch.end)
            if readable.reads(whole, of.name) and _takes(text, whole, at, stretch.end):
                return whole
            for start in stretch.starts[:MOST_TRIED]:
                words = f"{text.tokens[at].text} ... {words_at(text, start, stretch.end)}"
                places = (at, *range(start, stretch.end))
                if readable.reads(words, of.name) and _takes_at(text, words, places):
                    return words
    return ""


def _goes_nowhere(reference: Reference, number: int, known: Sequence[int]) -> bool:
    """Whether a claim names itself, a claim that is not there, or one claim twice."""
    numbers = reference.numbers
    return number in numbers or not set(numbers) <= set(known) or len(set(numbers)) < len(numbers)


def _propose_choice(work: Work, choice: Choice, readable: Readable) -> None:
    """A line for several of something, or for a list, if a phrase reads it with what is declared."""
    words = words_at(work.text, choice.start, choice.end)
    kind = "material" if choice.members else "count"
    for name in (choice.noun, f"{choice.noun} {kind}"):
        declared = readable.names.declared(name)
        a_list = not isinstance(declared, NumberDecl) or readable.names.mixture(name) is not None
        if declared is None or a_list != bool(choice.members):
            continue
        if readable.reads(words, name) and _takes(work.text, words, choice.start, choice.end):
            work.claim.lines.append(Proposed(words, name, asked=True))
            return


def _read_words(text: ClaimText, stretch: Stretch, of: Quantity, readable: Readable) -> str:
    """The words of the limit, if a phrase reads them whole; else ''. They are taken.

    Only fillers may be left out before them: a "not", an "about" or an end left out would be another limit.
    """
    if any(i in text.taken for i in range(stretch.starts[-1], stretch.end)):
        return ""
    ends = dict.fromkeys(e for e in (stretch.farther, stretch.end) if e)
    texts = text.texts[stretch.starts[0] : stretch.starts[-1] + 1]
    fillers = next((i for i, word in enumerate(texts) if word not in _FILLERS), len(texts))
    starts = [s for s in stretch.starts if s <= stretch.starts[0] + fillers]
    for end in ends:
        for start in starts[:MOST_TRIED]:
            words = words_at(text, start, end)
            if readable.reads(words, of.name) and _takes(text, words, start, end):
                return words
    return ""


def _in_symbols(work: Work, stretch: Stretch, of: Quantity) -> None:
    """A line in symbols for a limit that the claim itself states with a sign; the sign is marked with it."""
    figure = stretch.figures[0]
    number = work.text.source.text[slice(*_place(work.text, figure.start, figure.start + 1))]
    unit = f" {figure.unit.symbol}" if figure.unit else ""
    words = words_at(work.text, figure.start - 1, figure.end)
    if _takes(work.text, words, figure.start - 1, figure.end):
        work.claim.lines.append(Proposed(words, of.name, f"{of.name} {stretch.sign} {number}{unit}"))


def _place(text: ClaimText, start: int, end: int) -> tuple[int, int]:
    return text.tokens[start].start, text.tokens[end - 1].end


def _takes(text: ClaimText, words: str, start: int, end: int) -> bool:
    """Takes the words if a line with them would take a stretch that begins and ends alike."""
    return _takes_at(text, words, range(start, end))


def _takes_at(text: ClaimText, words: str, at: Sequence[int]) -> bool:
    """Takes the words if a line with them would take tokens alike to these."""
    before = set(text.taken)
    try:
        found = text.take(words, Span(text.source, 0, 0), 0)
    except Trouble:
        return False
    alike = [text.tokens[i].text for i in found] == [text.tokens[i].text for i in at]
    if alike and text.taken - before:
        return True
    text.taken = before
    return False
