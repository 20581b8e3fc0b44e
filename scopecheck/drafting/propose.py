"""From claims to proposals: names for what is limited, lines with the claims' words, marks for the rest."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.core.model import NumberDecl
from scopecheck.drafting.draft import DraftClaim, Proposed, Quantity
from scopecheck.drafting.kinds_of import family, kind_text
from scopecheck.drafting.limits import Stretch, stretches
from scopecheck.drafting.naming import Called, called
from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.record import field, holder
from scopecheck.foundations.spans import Source, Span
from scopecheck.language.layout import Page
from scopecheck.language.pieces import Desk
from scopecheck.language.scan import Own
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import Declare
from scopecheck.resolve.account import unrestated
from scopecheck.resolve.catalogue import Phrasebook
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.declared import declare_all
from scopecheck.resolve.dependencies import references
from scopecheck.resolve.groups import CLAIMS, Groups
from scopecheck.resolve.names import Names, number_of
from scopecheck.resolve.phrases import Reader, Subject

MOST_TRIED = 4
"""How many stretches of words are tried for one limit."""


@holder
class Work:
    """A claim at work: its text, the limits found in it, and the quantity each is of."""

    claim: DraftClaim
    text: ClaimText
    places: tuple[tuple[int, int], ...]
    limits: list[tuple[Stretch, Called]]
    of: list[Quantity] = field(default_factory=list)


def proposals(claims: Sequence[DraftClaim]) -> list[Quantity]:
    """Fills in the lines of each claim and returns the quantities they are about, in the order met."""
    known = tuple(c.number for c in claims)
    works = [_work(claim, known) for claim in claims]
    quantities = _quantities(works)
    names = _declared(quantities)
    for work in works:
        propose_lines(work, names)
    used = {line.name for work in works for line in work.claim.lines}
    return [q for q in quantities if q.name in used]


def _work(claim: DraftClaim, known: Sequence[int]) -> Work:
    source = Source(f"claim {claim.number}", claim.text)
    text = ClaimText.of([Span(source, 0, len(claim.text))])
    places = tuple((r.start, r.end) for r in references(claim.text, claim.number, known))
    text.refer(places)
    found = [(s, called(text, s)) for s in stretches(text, {})]
    named = [(s, named_by_kind(c, s)) for s, c in found]
    return Work(claim, text, places, [(s, c) for s, c in named if c.noun])


def named_by_kind(what: Called, stretch: Stretch) -> Called:
    """With the word for what the unit measures, where the words beside a limit give no noun."""
    if what.noun:
        return what
    kind = kind_text(Called("", "", False), stretch.unit)
    return Called(kind.partition(" in ")[0] if " in " in kind else "", "", False)


# ---- names


def _quantities(works: Sequence[Work]) -> list[Quantity]:
    """One quantity for all limits of one noun and kind that one thing has, or that no two things have."""
    owners: dict[tuple[str, str], list[str]] = {}
    for work in works:
        for stretch, what in work.limits:
            of = owners.setdefault((what.noun, family(what, stretch.unit)), [])
            if what.owner and what.owner not in of:
                of.append(what.owner)
    made: dict[tuple[str, str, str], Quantity] = {}
    for work in works:
        for stretch, what in work.limits:
            kind = family(what, stretch.unit)
            several = len(owners[what.noun, kind]) > 1
            key = (what.noun, kind, what.owner if several else "")
            if key not in made:
                owner = what.owner or next(iter(owners[what.noun, kind]), "")
                name = _free_name(what.noun, key[2], kind, made.values())
                made[key] = Quantity(name, kind_text(what, stretch.unit), what.noun, owner)
            made[key].claims += [work.claim.number] * (work.claim.number not in made[key].claims)
            work.of.append(made[key])
    return list(made.values())


def _free_name(noun: str, owner: str, kind: str, taken: object) -> str:
    """A name that no other quantity has: the noun, with its owner before it where several things have one."""
    used = {q.name.lower() for q in taken}  # type: ignore[attr-defined]
    wanted = " ".join(f"{owner} {noun}".split()) or "value"
    tries = [wanted, f"{wanted} {kind.split()[0]}"]
    free = [name for name in tries if name.lower() not in used]
    if free:
        return free[0]
    return next(f"{wanted} {n}" for n in range(2, 999) if f"{wanted} {n}".lower() not in used)


def _declared(quantities: Sequence[Quantity]) -> Names:
    """The names as a sheet would declare them; a quantity that cannot be declared has none."""
    lines = "".join(f"{q.name}  {q.kind}\n" for q in quantities)
    written, _ = parse_sheet(Source("declarations", lines))
    return declare(tuple(s for s in written.statements if isinstance(s, Declare)))


def declare(statements: tuple[Declare, ...]) -> Names:
    """The names that declarations give; what is wrong with one of them is told by the check."""
    names = Names()
    declare_all(statements, names, [])
    return names


# ---- lines


def propose_lines(work: Work, names: Names, own: Own | None = None, book: Phrasebook | None = None) -> None:
    """Lines for the limits that a phrase reads, and marks for what is left over then."""
    book = book or Phrasebook(())
    for (stretch, _), quantity in zip(work.limits, work.of, strict=True):
        words = _read_words(work.text, stretch, quantity, names, book)
        if words:
            work.claim.lines.append(Proposed(words, quantity.name))
    marks(work, own or {})


def _read_words(text: ClaimText, stretch: Stretch, of: Quantity, names: Names, book: Phrasebook) -> str:
    """The longest words around the limit's numbers that a phrase reads; '' if none does. They are taken."""
    declared = names.declared(of.name)
    if declared is None or any(i in text.taken for i in range(stretch.starts[-1], stretch.end)):
        return ""
    last = stretch.figures[-1].end
    ends = dict.fromkeys((stretch.end, last))
    for end in ends:
        for start in (*stretch.starts[:MOST_TRIED], stretch.starts[-1]):
            words = words_at(text, start, end)
            if _reads(words, of.name, names, book) and _takes(text, words, start, end):
                return words
    return ""


def words_at(text: ClaimText, start: int, end: int) -> str:
    """The claim's own words from one token up to another, on one line."""
    first, last = text.tokens[start], text.tokens[end - 1]
    return " ".join(text.source.text[first.start : last.end].split())


def _takes(text: ClaimText, words: str, start: int, end: int) -> bool:
    """Takes the words if a line with them would take a stretch that begins and ends alike."""
    before = set(text.taken)
    try:
        found = text.take(words, Span(text.source, 0, 0), 0)
    except Trouble:
        return False
    alike = [text.tokens[i].text for i in found] == [t.text for t in text.tokens[start:end]]
    if alike and text.taken - before:
        return True
    text.taken = before
    return False


def _reads(words: str, name: str, names: Names, book: Phrasebook) -> bool:
    declared = names.declared(name)
    assert declared is not None
    desk = Desk(Page(Source("words", words)))
    span = desk.span(0, len(words))
    bound = number_of(declared) if isinstance(declared, NumberDecl) else declared
    try:
        reader = Reader(names, book, Groups("US examination", (), (), ()), CLAIMS, "1a")
        reader.condition(desk.words(0, len(words)), (Subject(bound, declared.name, span),))
    except Trouble:
        return False
    return True


# ---- what is left over


def marks(work: Work, own: Own) -> None:
    """Marks for everything the account would list: nothing of the text is dropped without a word."""
    text = work.text
    for start, end in _left_over(work, own):
        for more in range(8):
            a, b = max(0, start - more), min(len(text.tokens), end + more)
            words = words_at(text, a, b)
            before = set(text.taken)
            try:
                text.take(words, Span(text.source, 0, 0), 0, mark=True)
            except Trouble:
                text.taken = before
                continue
            if set(range(start, end)) <= text.taken:
                work.claim.lines.append(Proposed(words))
                break
            text.taken = before


def _left_over(work: Work, own: Own) -> list[tuple[int, int]]:
    """Stretches of tokens that no line takes up; what stands close together is one stretch."""
    at = {t.start: i for i, t in enumerate(work.text.tokens)}
    ends = {t.end: i + 1 for i, t in enumerate(work.text.tokens)}
    found: list[tuple[int, int]] = []
    for item in unrestated(work.claim.number, work.text, [], work.places, own):
        start, end = at[item.span.start], ends[item.span.end]
        if found and _close(work.text, found[-1][1], start):
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return found


def _close(text: ClaimText, end: int, start: int) -> bool:
    between = range(end, start)
    return start - end <= 3 and not any(i in text.taken or text.tokens[i].text in ";:" for i in between)
