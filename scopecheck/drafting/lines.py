"""The lines beside a claim: its own words for each limit that a phrase reads, and marks for the rest."""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.drafting.beside import noun_before, noun_from, width_of
from scopecheck.drafting.both_sides import propose_comparisons
from scopecheck.drafting.by_letter import letter_at, spelled_out
from scopecheck.drafting.choices import Choice
from scopecheck.drafting.closed import CLOSING
from scopecheck.drafting.draft import Proposed, Quantity
from scopecheck.drafting.formulas import letters_of, sums_in_symbols
from scopecheck.drafting.grouped import MEANS
from scopecheck.drafting.joint import propose_sums
from scopecheck.drafting.limits import Stretch, uncut
from scopecheck.drafting.marks import fractions, mark_all, marked, marks, takes, takes_at, words_at
from scopecheck.drafting.on_condition import propose_wholes
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.step_lines import (
    held_lines,
    propose_duration,
    propose_if,
    propose_list,
    propose_order,
    propose_sequence,
)
from scopecheck.drafting.stepped import is_step
from scopecheck.drafting.work import Work
from scopecheck.language.scan import Own
from scopecheck.resolve.account import digits_at
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import stem

MOST_BACK = 14
"""How many words before a limit an 'each' is looked for."""
MOST_AGAIN = 30
"""The same where another limit of each stands between: 'each rib having a height of 3 mm and a width of'."""
MOST_TRIED = 4
"""How many stretches of words are tried for one limit."""


def propose_lines(work: Work, readable: Readable, own: Own | None = None, timed: bool = True) -> None:
    """Lines for the limits that a phrase reads, and marks for what is left over then."""
    for start, end in [*work.strange, *work.whole]:  # before lines with the same words
        if (start, end) not in work.formulas or not _formula(work, start, end, readable):
            mark_all(work, start, end)
    _propose_opening(work, readable)
    propose_list(work, readable)
    held = held_lines(work, readable)
    for i, (stretch, _) in enumerate(work.limits):
        propose_comparisons(work, readable, stretch.starts[0])
        if i not in held:
            _propose_limit(work, i, readable)
        elif line := held[i]:
            work.claim.lines.append(line)
    propose_comparisons(work, readable)
    propose_sums(work, readable)
    _propose_fractions(work, readable)
    propose_wholes(work, readable)
    for choice in work.choices:
        _propose_choice(work, choice, readable)
    for words in work.nowhere:
        if marked(work.text, words, range(0)):
            work.claim.lines.append(Proposed(words))
    _propose_free(work, readable)
    propose_order(work, readable)
    propose_sequence(work, readable)
    for start, end in sorted([*work.unread, work.basis], key=lambda span: not _holds_another(work, *span)):
        if not end or work.text.texts[start] != "ratio" or not _formula(work, start, end, readable):
            mark_all(work, start, end)
    if work.opened:
        _propose_what_is_listed(work, work.opened[2].name)
    marks(work, own or {}, timed)
    _without_inner_marks(work)


def _propose_limit(work: Work, i: int, readable: Readable) -> None:
    """A line for one limit, in the form that it has, or what stands of it among the unread."""
    (stretch, _), quantity = work.limits[i], work.of[i]
    if stretch.start in work.some:
        _of_so_many(work, stretch, quantity, readable)
    elif stretch.sign:
        _in_symbols(work, stretch, quantity)
    elif stretch.condition:
        propose_if(work, stretch, quantity, readable)
    elif is_step(quantity):
        propose_duration(work, stretch, quantity, readable)
    elif stretch.second[1]:
        if not _of_two(work, stretch, work.pairs.get(i, ""), readable):
            work.unread.append((stretch.begins, stretch.end))
    else:
        _propose_words(work, i, readable)


def _propose_words(work: Work, i: int, readable: Readable) -> None:
    """A line in the words of the claim for one limit of one quantity."""
    (stretch, _), quantity = work.limits[i], work.of[i]
    mean = work.text.texts[stretch.starts[0]] in MEANS
    words = "" if mean else _of_each(work.text, stretch, quantity, readable)
    if words := words or _read_words(work.text, stretch, quantity, readable):
        # What a phrase reads may still be refused: 'or more but not 13' may deny the limit, too.
        asked = not stretch.whole and {"but", "not"}.isdisjoint(words.split())
        work.claim.lines.append(Proposed(words, quantity.name, asked=asked))
        work.beside += [work.named[i]] if i in work.named else []
    elif stretch.other[1] or stretch.whole:
        work.unread.append((stretch.starts[0], stretch.end))


def _propose_what_is_listed(work: Work, opened: str) -> None:
    """What an open list has, its ingredients without limits among it, and what makes up the rest."""
    _propose_balance(work, opened)
    rest = words_at(work.text, *work.balance) if work.balance[1] else ""
    said = {line.name for line in work.claim.lines}
    bare = [q for q in work.bare if not work.listed and not rest.endswith(q.name) and q.name not in said]
    work.claim.lines += [Proposed("", q.name, f"{q.name} IN {opened}") for q in bare]


def _holds_another(work: Work, start: int, end: int) -> bool:
    """Whether words to be kept whole hold others, which need no mark then."""
    return any(start <= a and b <= end and (a, b) != (start, end) for a, b in work.unread)


def _propose_free(work: Work, readable: Readable) -> None:
    """A line for 'free of tin' where the tin is declared, because a limit or a list names it."""
    text, texts = work.text, work.text.texts
    for start, end, several in work.free:
        words = words_at(text, start, end)
        if readable.reads(words, several) and takes(text, words, start, end):
            work.claim.lines.append(Proposed(words, several, asked=True))
    for at in text.where.get("free", ()):
        if at in text.taken or texts[at + 1 : at + 2] not in (["of"], ["from"]):
            continue
        start = at - (at > 0 and texts[at - 1] in ("substantially", "essentially"))
        begin = at + 2 + (at + 2 < len(texts) and texts[at + 2] in ("a", "any", "the"))
        noun = noun_from(text, begin)
        end = begin + width_of(noun)
        words = words_at(text, start, end)
        whole = noun and end < len(texts) and texts[end] in (".", ",", ";", "and")
        names = (noun, *_lists_with(noun, readable)) if whole else ()
        name = next((n for n in names if readable.reads(words, n)), "")
        if name and takes(text, words, start, end):
            work.claim.lines.append(Proposed(words, name, asked=True))


def _propose_fractions(work: Work, readable: Readable) -> None:
    """A line for 'is at most one tenth of the charging current', of the declared noun before."""
    for start, end in fractions(work.text):
        name = noun_before(work.text, start)
        if (
            not name
            or readable.names.declared(name) is None
            or any(i in work.text.taken for i in range(start, end))
        ):
            begin = clause_start(work.text.texts, start)
            limits = zip(work.limits, work.of, strict=True)
            said = [
                q.name
                for (s, c), q in limits
                if begin <= s.end <= start and "and" in work.text.texts[s.end : start]
            ]
            over = start - max((s.end for s, _ in work.limits if s.end <= start), default=-9)
            name = said[-1] if said and over <= MOST_GOING_ON and not name else ""
        words = words_at(work.text, start, end)
        if name and readable.reads(words, name) and takes(work.text, words, start, end):
            work.claim.lines.append(Proposed(words, name, asked=True))


MOST_GOING_ON = 3
"""How many words ', and is' may have between one limit and another of the same."""


def clause_start(texts: list[str], at: int) -> int:
    """Where the clause begins in which a limit stands: behind a 'wherein', a semicolon, a colon."""
    return next((i + 1 for i in range(at - 1, -1, -1) if texts[i] in (";", ":", ".", "wherein")), 0)


def _lists_with(member: str, readable: Readable) -> Iterator[str]:
    """The declared lists that have this member."""
    for declared in readable.names.declarations.values():
        if isinstance(declared, SetDecl | ChoiceDecl) and member in map(str.lower, declared.members):
            yield declared.name


def _without_inner_marks(work: Work) -> None:
    """Takes out marks whose words stand once in the claim, and within those of another mark."""
    said = " ".join(work.claim.text.split())
    kept = [line.words for line in work.claim.lines if not line.name and line.words]
    work.claim.lines = [
        line
        for line in work.claim.lines
        if line.name
        or said.count(line.words) != 1
        or not any(line.words in words and line.words != words for words in kept)
    ]


def _propose_opening(work: Work, readable: Readable) -> None:
    """A line for the transition that opens a composition, or closes it with the list that follows."""
    if work.opened:
        start, end, whole = work.opened
        if work.text.texts[start] in CLOSING and not _wholly_listed(work, end, whole):
            # Closed without one of its ingredients the composition would be another, which nothing may meet.
            work.unread.append((start, end))
            return
        words = words_at(work.text, start, work.closed) if work.closed else ""
        if words and readable.reads(words, whole.name) and takes(work.text, words, start, work.closed):
            work.claim.lines.append(Proposed(words, whole.name))
            work.listed = True
            return
        words = words_at(work.text, start, end)
        if takes(work.text, words, start, end):
            work.claim.lines.append(Proposed(words, whole.name))


def _wholly_listed(work: Work, at: int, whole: Quantity) -> bool:
    """Whether each share that stands behind a transition, in its clause, is that of an ingredient."""
    texts = work.text.texts
    far = next((i for i in range(at, len(texts)) if texts[i] in (";", ".", "wherein")), len(texts))
    spans = [
        (s.starts[0], s.end) for (s, _), q in zip(work.limits, work.of, strict=True) if q.within is whole
    ]
    shares = [i for i in range(at, far) if texts[i] in ("%", "percent") and texts[i - 1] != "in"]
    return all(any(start <= i < end for start, end in spans) for i in shares)


def _propose_balance(work: Work, whole: str) -> None:
    """A line for `the balance being iron`, with the impurities where these are named with it."""
    start, end = work.balance
    texts = work.text.texts
    far = next((i + 1 for i in range(end, min(end + 4, len(texts))) if texts[i].startswith("impurit")), end)
    words = words_at(work.text, start, far) if end else ""
    if "100" in texts[start:far]:
        mark_all(work, start, far)
    elif words and takes(work.text, words, start, far):
        work.claim.lines.append(Proposed(words, whole))


def _of_each(text: ClaimText, stretch: Stretch, of: Quantity, readable: Readable) -> str:
    """`each ... 5 to 8 mm` for a field of like parts, if the claim says 'each' before the limit; else ''."""
    if of.within is None or not of.within.declared or stretch.start >= len(text.tokens):
        return ""
    at = stretch.starts[0]
    while at > 0 and stretch.starts[0] - at < MOST_AGAIN and text.tokens[at].text not in (";", ":", "."):
        at -= 1
        near = stretch.starts[0] - at <= MOST_BACK and at not in text.taken
        if text.tokens[at].text in ("each", "every") and (near or _each_of(text, at, of.within)):
            whole = words_at(text, at, stretch.end)
            if readable.reads(whole, of.name) and takes(text, whole, at, stretch.end):
                return whole
            for start in stretch.starts[:MOST_TRIED]:
                words = f"{text.tokens[at].text} ... {words_at(text, start, stretch.end)}"
                places = (at, *range(start, stretch.end))
                if readable.reads(words, of.name) and takes_at(text, words, places):
                    return words
    return ""


def _each_of(text: ClaimText, at: int, whole: Quantity) -> bool:
    """Whether 'each' is said here of the like parts, be it of what another line has already."""
    first = at + 1 + 2 * (text.texts[at + 1 : at + 3] in (["of", "the"], ["of", "said"]))
    named = noun_from(text, first).split()
    return any(stem(word) == stem(whole.declared.split()[-1]) for word in named)


def _of_so_many(work: Work, stretch: Stretch, of: Quantity, readable: Readable) -> None:
    """A line that says of how many like parts its limit is, if that is of one of theirs; or a mark."""
    start, end = work.some[stretch.start], stretch.end
    whole = words_at(work.text, start, end)
    field = of.within is not None and bool(of.within.declared)
    if field and readable.reads(whole, of.name) and takes(work.text, whole, start, end):
        work.claim.lines.append(Proposed(whole, of.name, asked=True))
    else:
        work.unread.append((start, end))


def _propose_choice(work: Work, choice: Choice, readable: Readable) -> None:
    """A line for several of something, or for a list, if a phrase reads it with what is declared."""
    words = words_at(work.text, choice.start, choice.end)
    kind = "material" if choice.members else "count"
    for name in (choice.noun, f"{choice.noun} {kind}", f"{choice.noun} kind"):
        declared = readable.names.declared(name)
        a_list = not isinstance(declared, NumberDecl) or readable.names.mixture(name) is not None
        if declared is None or a_list != bool(choice.members):
            continue
        start, end = choice.ahead
        more = f"{words_at(work.text, start, end)} ... {words}" if end else ""
        places = (*range(start, end), *range(choice.start, choice.end))
        if more and readable.reads(more, name) and takes_at(work.text, more, places):
            work.claim.lines.append(Proposed(more, name, asked=True))
            return
        if readable.reads(words, name) and takes(work.text, words, choice.start, choice.end):
            work.claim.lines.append(Proposed(words, name, asked=True))
            return
    if choice.members:
        work.unread.append((choice.start, choice.end))


def _read_words(text: ClaimText, stretch: Stretch, of: Quantity, readable: Readable) -> str:
    """The words of the limit, if a phrase reads them whole; else ''. They are taken.

    Only fillers may be left out before them: a "not", an "about" or an end left out would be another limit.
    """
    if any(i in text.taken for i in range(stretch.starts[-1], stretch.end)):
        return ""
    behind = 0 if stretch.ahead else stretch.under[1]
    ends = dict.fromkeys(e for e in (behind, stretch.farther, stretch.end) if e)
    for end in ends:
        for start in uncut(text.texts, stretch)[:MOST_TRIED]:
            words = words_at(text, start, end)
            if readable.reads(words, of.name) and takes(text, words, start, end):
                return words
    return ""


def _of_two(work: Work, stretch: Stretch, names: str, readable: Readable) -> bool:
    """Proposes a line for a ratio of two quantities, both left of the colon, if a phrase reads it."""
    if not names or any(i in work.text.taken for i in range(stretch.begins, stretch.end)):
        return False
    words = words_at(work.text, stretch.begins, stretch.end)
    places = zip((stretch.other, stretch.second), names.split(", "), strict=True)
    letters = {letter_at(work.text.texts, place[0]): name for place, name in places}
    by_letter = spelled_out(words, letters)
    if readable.reads(by_letter, names) and takes(work.text, words, stretch.begins, stretch.end):
        work.claim.lines.append(Proposed(words, names, asked=by_letter == words))
        return True
    return False


def _formula(work: Work, start: int, end: int, readable: Readable) -> bool:
    """Proposes a line for a formula of what is declared under its letters, if a phrase reads it."""
    words, letters = words_at(work.text, start, end), letters_of(work.text, start, end)
    declared = [readable.names.declared(letter) for letter in letters]
    names = ", ".join(of.name for of in declared if isinstance(of, NumberDecl))
    if not names or names.count(",") + 1 < len(letters):
        return False
    if not (sums_in_symbols(work.text, start, end) or readable.reads(words, names)):
        return False
    if takes(work.text, words, start, end):
        work.claim.lines.append(Proposed(words, names))
        return True
    return False


def _in_symbols(work: Work, stretch: Stretch, of: Quantity) -> None:
    """A line in symbols for a limit that the claim itself states with a sign; the sign is marked with it."""
    figure = stretch.figures[0]
    number = digits_at(work.text.tokens, figure.digits)
    unit = f" {figure.unit.symbol}" if figure.unit else ""
    words = words_at(work.text, figure.start - 1, figure.end)
    if takes(work.text, words, figure.start - 1, figure.end):
        work.claim.lines.append(Proposed(words, of.name, f"{of.name} {stretch.sign} {number}{unit}"))
