"""Words that show something where they stand: examples, inner ranges, groups, drawings, transitions."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from scopecheck.foundations.diagnostics import Trouble
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.spans import Source
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.layout import Page
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token, scan
from scopecheck.matching.shared_limits import reaches_beyond
from scopecheck.text.claim_set import Set
from scopecheck.text.flags import Flag
from scopecheck.text.mentions import noun_end
from scopecheck.text.stream import Stream

_SIGNS = frozenset(",;:.")


def examples(stream: Stream) -> Iterator[Flag]:
    """'Preferably', 'such as' and the like; where a range stands before and after, a range within a range."""
    texts, at = stream.texts, 0
    while at < len(texts):
        width = run_at(texts, at, "clauses", "examples")
        if not width:
            at += 1
            continue
        before, after = _number_before(texts, at), _number_after(stream, at + width)
        if before is not None and after is not None:
            words, span = stream.shown(before, after), stream.span(before, after)
            several = sum(map(_number, texts[at + width : after])) > 1
            several = several or any(run_at(texts, i, "limits", "openings") for i in range(at + width, after))
            several = several or any(run_at(texts, i, "limits", "closings") for i in range(at + width, after))
            form = "inner_range" if several else "inner_value"
            if _reaches_beyond(stream, before, at, at + width, after):
                form = "inner_wider"
            yield Flag("inner range", form, stream.number, words, span)
        else:
            words, span = stream.shown(at, at + width), stream.span(at, at + width)
            yield Flag("example", "example", stream.number, words, span)
        at += width


_OF_ANOTHER = frozenset("with and having has have while wherein whose which being is are".split())
"""Between a range and a preference: these begin another quantity ('4 mm and a height of preferably 8 mm')."""


def _number_before(texts: list[str], at: int) -> int | None:
    """Where the range before begins, if only its unit or noun stands between it and here."""
    inside = listed("limits", "inside")
    numbers = [i for i in range(max(0, at - 9), at) if _number(texts[i])]
    between = texts[numbers[-1] : at - 1] if numbers else []
    if not numbers or _SIGNS.intersection(between) or _OF_ANOTHER.intersection(between):
        return None
    first = numbers[-1]
    if len(numbers) > 1 and numbers[-1] - numbers[-2] < 6:
        first = numbers[-2]
    at = first
    while at > 0 and texts[at - 1] in inside:
        at -= 1
        first = at if run_at(texts, at, "limits", "openings") else first
    return first


def _number_after(stream: Stream, at: int) -> int | None:
    """Where the range after ends with its unit, if only words of limits stand before its first number."""
    texts = stream.texts
    inside = listed("limits", "inside")
    end = at
    while end < len(texts) and (texts[end] in inside or texts[end] in ("more", "of")):
        end += 1
    if end >= len(texts) or not _number(texts[end]):
        return None
    last = end
    while end < len(texts) and texts[end] not in _SIGNS and end - last < 7:
        last = end if _number(texts[end]) else last
        end += 1
    units = (
        n for n in range(min(last + 5, len(texts)), last + 1, -1) if find_unit(stream.shown(last + 1, n))
    )
    behind = next(units, last + 1)
    return behind + run_at(texts, behind, "limits", "closings")


def _reaches_beyond(stream: Stream, before: int, at: int, start: int, after: int) -> bool:
    """Whether the preferred range, read as a limit, lets in more on one side than the one before it."""
    main, preferred = (scanned(stream.shown(a, b)) for a, b in ((before, at), (start, after)))
    return reaches_beyond(preferred, main)


def scanned(text: str) -> tuple[Token, ...]:
    """The words as the reader of lines sees them; none where it does not know a unit of theirs."""
    with suppress(Trouble):
        return scan(Page(Source("", text)), 0, len(text), {})
    return ()


def _number(word: str) -> bool:
    return word[0].isdigit() or NUMBER_WORDS.get(word, 0) > 1


_PAIRING = frozenset("either both one two more any least selected between".split())
_VERBS = frozenset(
    "is are has have being wherein which that comprising having comprises consists includes contains".split()
)


def groupings(stream: Stream) -> Iterator[Flag]:
    """An 'and' and an 'or' between nouns of one clause, with nothing that says which binds first."""
    texts = stream.texts
    last: int | None = None
    for at, word in enumerate(texts):
        if (word in _SIGNS and texts[at + 1 : at + 2] not in (["and"], ["or"])) or word in _VERBS:
            last = None
        if word not in ("and", "or") or not _between_nouns(stream, at):
            continue
        if last is not None and _MIXED.intersection(texts[last:at]):
            continue
        if last is not None and texts[last] != word and at - last <= 5:
            start = _noun_start(texts, last)
            end = noun_end(stream, _after_article(texts, at + 1))
            clause = texts[end : end + 1][:1] and texts[end] in _VERBS and _said(texts, start)
            if not clause and not _PAIRING.intersection(texts[max(0, start - 3) : start]):
                yield Flag(
                    "grouping", "grouping", stream.number, stream.shown(start, end), stream.span(start, end)
                )
            last = None
        else:
            last = at


_MIXED = frozenset("mixture mixtures combination combinations blend blends alloy alloys between both".split())
"""Behind these an 'and' joins what they are of: 'zinc or a mixture of tin and zinc'."""


def _said(texts: list[str], at: int) -> bool:
    """Whether something is said already in the clause before: then a verb after the nouns begins another."""
    while at > 0 and texts[at - 1] not in (";", ":", ".", "if", "when", "where", "wherein", "which"):
        at -= 1
        if texts[at] in _VERBS:
            return True
    return False


def _between_nouns(stream: Stream, at: int) -> bool:
    texts = stream.texts
    if at == 0 or at + 1 >= len(texts) or at in stream.barred or texts[at - 1] == "/" or texts[at + 1] == "/":
        return False
    after = _after_article(texts, at + 1)
    if texts[at + 1] in listed("limits", "inside") - {"a", "the"} or _number(texts[at + 1]):
        return False
    before = texts[at - 2] if texts[at - 1] == "," and at > 1 and after == at + 1 else texts[at - 1]
    return before[0].isalpha() and noun_end(stream, after) > after


def _after_article(texts: list[str], at: int) -> int:
    return at + 1 if at < len(texts) and texts[at] in ("a", "an", "the") else at


def _noun_start(texts: list[str], at: int) -> int:
    stops = listed("nouns", "stops")
    start = at
    while start > 0 and at - start < 3 and texts[start - 1][0].isalpha() and texts[start - 1] not in stops:
        start -= 1
    return start


def drawings(stream: Stream) -> Iterator[Flag]:
    """A reference to drawings, or to what is described."""
    texts, at = stream.texts, 0
    while at < len(texts):
        width = run_at(texts, at, "clauses", "drawings")
        if not width or at in stream.barred or _to_claims(stream, at, width):
            at += 1
            continue
        end = at + width
        while end < len(texts):
            run = run_at(texts, end, "clauses", "drawings")
            if not run and texts[end] in ("in", "with", "by", "and", "to"):
                run = run_at(texts, end + 1, "clauses", "drawings")
                end += run > 0
            if not run:
                break
            end += run
        end += texts[end : end + 1] in (["drawings"], ["drawing"], ["description"])
        end += texts[end : end + 1] == ["."] and end + 1 < len(texts) and texts[end + 1][0].isdigit()
        while end < len(texts) and (texts[end][0].isdigit() or texts[end] in ("figure", "fig", "figures")):
            end += 1
        yield Flag("drawings", "drawings", stream.number, stream.shown(at, end), stream.span(at, end))
        at = end


def _to_claims(stream: Stream, at: int, width: int) -> bool:
    """`as described in claim 1` refers to a claim."""
    return any(i in stream.barred for i in range(at + width, min(at + width + 3, len(stream.texts))))


_ADDING = [",", "including"]
_APART = frozenset("; : . wherein whereby where which that is are being having with".split())
"""Between a closed transition and an open one: the two are of different things."""


def transitions(all_: Set, number: int) -> Iterator[Flag]:
    """A claim of its own without a transition; a closed one that is opened again, in it or below it."""
    stream = all_.streams[number]
    texts = stream.texts
    opened = [(i, w) for i in range(len(texts)) if (w := run_at(texts, i, "clauses", "open"))]
    closed = [(i, w) for i in range(len(texts)) if (w := run_at(texts, i, "clauses", "closed"))]
    nearly = any(run_at(texts, i, "clauses", "essentially") for i in range(len(texts)))
    told = nearly or bool(closed) or any(_of_the_claim(texts, i) for i, _ in opened)
    if not stream.references and not told:
        last = min(12, len(texts))
        yield Flag("transition", "none_of_its_own", number, stream.shown(0, last), stream.span(0, last))
    for at, width in closed:
        also = [
            (i, w)
            for i, w in opened
            if i > at + width
            and ((texts[i - 1] == "and" and texts[i].startswith("compri")) or texts[i - 1 : i + 1] == _ADDING)
        ]
        if also and not _APART.intersection(texts[at : also[0][0] - 1]):
            end = also[0][0] + also[0][1]
            yield Flag("transition", "mixed", number, stream.shown(at, end), stream.span(at, end))
    above = (p for p in stream.parents if _is_process(all_.streams[p]) == _is_process(stream))
    if parent := next((p for p in above if _closing(all_.streams[p])), None):
        form = {"closed": "below_closed", "essentially": "below_essentially"}[_closing(all_.streams[parent])]
        for at, width in opened:
            if texts[at].startswith(("compri", "includ", "contain")) and _at_top(stream, at):
                if _of_what_is_recited(stream, at + width, all_.streams[parent]):
                    continue
                words, span = stream.shown(at, at + width), stream.span(at, at + width)
                yield Flag("transition", form, number, words, span, {"parent": parent})
                return


def _of_what_is_recited(stream: Stream, start: int, parent: Stream) -> bool:
    """`which contains 4 wt% or more of copper`: does the claim above have all of that already?"""
    end = next((i for i in range(start, len(stream.texts)) if stream.texts[i] in _APART), len(stream.texts))
    no_nouns = (
        listed("limits", "inside") | listed("nouns", "stops") | listed("shares", "bases") | {"%", "wt%"}
    )
    said = [w for w in stream.words[start:end] if w.stem not in no_nouns and not w.stem[:1].isdigit()]
    known = {w.stem for w in parent.words}
    return bool(said) and all(w.stem in known for w in said)


def _of_the_claim(texts: list[str], at: int) -> bool:
    """Whether a transition opens the claim, and not what is only part of it: ', a valve having a seat'.

    `for` opens a use only: 'Use of chalk for'.
    """
    start = at
    while start > 0 and texts[start - 1] not in _SIGNS:
        start -= 1
    if texts[at] == "for":
        return "use" in texts[:2]
    if texts[at] == "with" and texts[at + 1 : at + 2] in (["reference"], ["respect"], ["regard"]):
        return False
    return start == 0 or texts[start] not in ("a", "an", "one", "two", "several")


def _closing(stream: Stream) -> str:
    """Whether the claim's first transition closes it: 'closed', 'essentially', or '' if it does not."""
    texts = stream.texts
    for at in range(len(texts)):
        if found := next((of for of in ("closed", "essentially") if run_at(texts, at, "clauses", of)), ""):
            return found
        if texts[at].startswith(("compri", "includ", "contain", "wherein", "characteri")):
            return ""
    return ""


def _is_process(stream: Stream) -> bool:
    """Is the claim one to a method or a use, by its first words?"""
    return not {"method", "process", "use"}.isdisjoint(stream.texts[:4])


def _at_top(stream: Stream, at: int) -> bool:
    """Whether a transition follows the reference directly: it is that of the claim, not of a part."""
    after = max(stream.barred, default=-1)
    return 0 <= at - after <= 4
